"""A text file of the user's that is rewritten while he works: every time whole, or as it was before.

The new file is written beside the old one, made safe on the disk and put in its place in one step. Its code, its byte
order mark and every byte that is not meant to change stay. ``.NAME.new-PID`` beside it is such a file on its way; where
a run was killed it is left behind, and a later run removes it.
"""

from __future__ import annotations

import codecs
import errno
import os
import shutil
import time
from contextlib import suppress
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from layouts.problems import JobRefused, Problem
from sheets.disk import settle

ABANDONED = 3600.0  # seconds: no run takes so long over one file
KEEP = "surrogateescape"  # bytes that are no letter come back as they were
_BOMS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))


class ChangedMeanwhile(Exception):
    """Another program has written the file since it was read."""


class Held(Struct, frozen=True):
    """A file as it was read or written last: *raw* is ``None`` where there was none, *text* is without its *bom*."""

    path: Path
    raw: bytes | None
    text: str
    code: str = "utf-8"
    bom: bytes = b""


def hold(path: Path, else_: str) -> Held:
    """The text file at *path*, a link's own end: UTF-8 or UTF-16 or, where it is neither, in the code *else_*.

    Raises ``JobRefused`` where it is no text, and ``OSError``; a file that is not there is an empty one.
    """
    path = path.resolve()
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        return Held(path, None, "")
    bom, code = next(((bom, code) for bom, code in _BOMS if raw.startswith(bom)), (b"", "utf-8"))
    body = raw[len(bom) :]
    try:
        return Held(path, raw, body.decode(code), code, bom)
    except UnicodeDecodeError as error:
        if bom:
            wrong = f"is not {code[:6].upper()} text."
            place = f"byte {error.start + len(bom)}"
            raise JobRefused([Problem(path.name, place, "", wrong, "Save it as UTF-8 and try again.")]) from None
    return Held(path, raw, body.decode(else_, KEEP), else_)


def ready(held: Held) -> None:
    """Try the place: raises ``OSError`` where the file could not be rewritten. Leftovers of killed runs go."""
    path = held.path
    if not path.parent.exists():
        raise FileNotFoundError(errno.ENOENT, "there is no such folder: make it first", str(path.parent))
    if held.raw is not None and not os.access(path, os.W_OK):
        raise PermissionError(errno.EACCES, "may not be written", str(path))
    with suppress(OSError):
        for left in path.parent.glob(f".{_plain(path.name)}.new-*"):
            if time.time() - left.stat().st_mtime > ABANDONED:
                left.unlink()
    new = _beside(path)
    try:
        new.write_bytes(b"")
    finally:
        new.unlink(missing_ok=True)


def _plain(name: str) -> str:
    """A name of which a pattern means no more than itself."""
    return "".join(f"[{c}]" if c in "*?[" else c for c in name)


def save(held: Held, text: str) -> Held:
    """Put *text* in the place of *held*; what is there then.

    Raises ``ChangedMeanwhile``, ``UnicodeEncodeError`` where its code has no such letter, and ``OSError``: the file is
    then as it was.
    """
    path = held.path
    raw = held.bom + text.encode(held.code, "strict" if held.code.startswith("utf") else KEEP)
    new = _beside(path)
    try:
        with new.open("wb") as out:
            out.write(raw)
            out.flush()
            os.fsync(out.fileno())
        if path.exists():
            if path.read_bytes() != held.raw:
                raise ChangedMeanwhile(path.name)
            shutil.copymode(path, new)
        os.replace(new, path)
    except BaseException:
        with suppress(OSError):
            new.unlink()
        raise
    settle(path.parent)
    return replace(held, raw=raw, text=text)


def _beside(path: Path) -> Path:
    return path.with_name(f".{path.name}.new-{os.getpid()}")
