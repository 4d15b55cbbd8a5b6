"""How files reach a folder: all of them or none, and nothing of the user's lost.

A packet is written beside the folder it is meant for, made safe on the disk, and put in its place in one step. Whatever
stops a run before that step leaves the folder as it was; after it, the new packet is there. What a killed run leaves
beside the folder is put right by the next one, before it does anything else. Names beside the folder ``barn``:

``.barn.new-PID-N``
    being written by process PID; N is the number the file system gave that folder. Where another number is found, the
    folders have been exchanged and this is the old packet.
``.barn.old-PID``
    the old packet, where the system cannot exchange two folders and has to move one away first.
``.barn.gone-PID-N``
    nothing of any use: being deleted.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import time
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path

from sheets.swap import swap

MANIFEST = "packet.json"
SHA256 = "sha256"
ABANDONED = 3600.0  # seconds; where a process cannot be asked for, how old a left folder must be
SETTLING = 8  # files at a time: they wait for the disk together
_LEFT = re.compile(r"(new|old|gone)-(\d+)(?:-(\d+))?")


class CannotWrite(OSError):
    """The packet cannot be written where it was asked for; the old one, if any, is whole."""


def save(
    folder: Path,
    write: Callable[[Path], list[str]],
    about: Mapping[str, object],
    beside: Mapping[str, bytes] | None = None,
    check: Callable[[Path], None] | None = None,
) -> list[Path]:
    """Let *write* put its files into a folder that then takes the place of *folder*; give all files, in order.

    *write* names what it has written. The manifest holds what is *about*, the names as ``files`` and the digest of
    each as ``sha256``. Files *beside* (name and content) are handed to the user: the manifest does not list them, and
    what it does not list is the user's and stays. *check* looks at the finished folder before it is released, and
    raises to stop. Raises ``CannotWrite`` where *folder* is something else than a packet or an empty folder, where a
    file of the user's stands in the way, or where the disk refuses.
    """
    folder = folder.resolve()  # a link leads to the folder that is exchanged
    try:
        return _save(folder, write, about, beside or {}, check)
    except CannotWrite:
        raise
    except OSError as error:
        old = f" The packet in {folder} is as it was." if (folder / MANIFEST).is_file() else ""
        raise CannotWrite(f"{_place(error, folder)}: {error.strerror or error}.{old}") from error


def _place(error: OSError, folder: Path) -> Path:
    """Where *error* arose, as the user knows the place: not by the name of a working folder."""
    if not error.filename:
        return folder
    place, working = Path(os.fsdecode(error.filename)), f".{folder.name}.new-"
    if place.parent.name.startswith(working):
        return folder / place.name
    return folder.parent if place.name.startswith(working) else place


def _save(
    folder: Path,
    write: Callable[[Path], list[str]],
    about: Mapping[str, object],
    beside: Mapping[str, bytes],
    check: Callable[[Path], None] | None,
) -> list[Path]:
    recover(folder)
    _refuse(folder)
    made = _missing(folder.parent)
    folder.parent.mkdir(parents=True, exist_ok=True)
    try:
        new = _begin(folder)
        names = _filled(new, write, about, beside)
        if check:
            check(new)
        _refuse_overwriting(new, folder)
        old = _exchange(new, folder)
    except BaseException:
        # what was written goes, or, if it has just been released, the old packet
        with suppress(OSError):
            recover(folder)
        with suppress(OSError):
            for place in made:
                place.rmdir()
        raise
    settle(folder.parent)
    if old:
        try:
            _clear(old, folder)
        except OSError as error:
            what = f"could not be brought along ({error.strerror or error}): it is in {old}."
            raise CannotWrite(f"The new packet is in {folder}. What you had put there {what}") from error
    return [folder / name for name in (*names, MANIFEST, *beside)]


# --- before and after -----------------------------------------------------------------------------------------------


def recover(folder: Path) -> None:
    """Put right what killed runs left beside *folder*: half-written packets go; an old packet that was moved away comes
    back if nothing has taken its place, else what it holds of the user's does."""
    if not folder.parent.is_dir():
        return
    working = f".{folder.name}."
    for entry in [e for e in folder.parent.iterdir() if e.name.startswith(working)]:
        found = _LEFT.fullmatch(entry.name[len(working) :])
        if found and entry.is_dir() and _over(int(found[2]), entry):
            with suppress(FileNotFoundError):  # another run puts the same right
                _put_right(entry, found[1], found[3], folder)


def _put_right(entry: Path, state: str, number: str | None, folder: Path) -> None:
    written = state == "new" and number in (None, str(entry.stat().st_ino))
    if written or state == "gone":
        shutil.rmtree(entry, ignore_errors=True)
    elif os.path.lexists(folder):
        _clear(entry, folder)
    else:
        entry.rename(folder)


def _over(pid: int, entry: Path) -> bool:
    """Whether the run that made *entry* is over."""
    if pid == os.getpid():
        return True
    if os.name != "posix":  # elsewhere a signal of no effect is none
        return time.time() - entry.stat().st_mtime > ABANDONED
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return True
    except OSError:
        return False
    return False


def _missing(parent: Path) -> list[Path]:
    """The folders that have to be made for *parent*, the inmost first."""
    return [place for place in (parent, *parent.parents) if not place.exists()]


def _begin(folder: Path) -> Path:
    """A new folder beside *folder*, named as told above."""
    new = folder.with_name(f".{folder.name}.new-{os.getpid()}")
    new.mkdir()
    if folder.is_dir():
        shutil.copymode(folder, new)
    return new.rename(new.with_name(f"{new.name}-{new.stat().st_ino}"))


def _filled(
    new: Path, write: Callable[[Path], list[str]], about: Mapping[str, object], beside: Mapping[str, bytes]
) -> list[str]:
    """Everything into the *new* folder, its manifest last, and onto the disk: the names of what was printed."""
    names = write(new)
    for name, content in beside.items():
        (new / name).write_bytes(content)
    with ThreadPoolExecutor(SETTLING) as pool:
        digests = list(pool.map(_settled, [new / name for name in (*names, *beside)]))
    sha256 = dict(zip(names, digests, strict=False))  # what is beside is the user's
    manifest = {**about, "files": [*names, MANIFEST], SHA256: sha256}
    text = json.dumps(manifest, indent=1, ensure_ascii=False) + "\n"
    (new / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    _settled(new / MANIFEST)
    settle(new)
    return names


def _settled(path: Path) -> str:
    """The digest of a file's bytes, once they are on the disk and not only on their way: after a power cut the names of
    a packet must not lead to empty files. 50 files cost 6 ms, one after the other 12."""
    with path.open("rb+") as file:
        os.fsync(file.fileno())
        return hashlib.sha256(file.read()).hexdigest()


def settle(folder: Path) -> None:
    """The names in *folder* are on the disk, where the system can say so."""
    with suppress(OSError):
        place = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(place)
        finally:
            os.close(place)


# --- whose files ----------------------------------------------------------------------------------------------------


def listed(folder: Path) -> set[str]:
    """The names that the packet in *folder* lists as its own; ``ValueError`` if it has no manifest of ours."""
    try:
        names = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))["files"]
        return {str(name) for name in names}
    except (FileNotFoundError, TypeError, LookupError) as error:
        raise ValueError(f"no packet: {error}") from None


def _refuse(folder: Path) -> None:
    """A place that is no folder, or one that holds something else than a packet, is not touched."""
    blocked = next((place for place in (folder, *folder.parents) if place.exists() and not place.is_dir()), None)
    if blocked:
        raise CannotWrite(f"{blocked} is a file, not a folder.")
    if os.path.ismount(folder):
        raise CannotWrite(f"{folder} is a whole drive. Name a folder on it with --out.")
    if not folder.is_dir() or not any(folder.iterdir()):
        return
    try:
        listed(folder)
    except ValueError:
        raise CannotWrite(f"{folder} holds other files and no packet. Name a new folder with --out.") from None


def _theirs(folder: Path) -> Iterator[Path]:
    """What the user has in *folder*."""
    if folder.is_dir():
        ours = listed(folder) if any(folder.iterdir()) else set()
        yield from (entry for entry in folder.iterdir() if entry.name not in ours)


def _same(one: Path, other: Path) -> bool:
    return one.is_file() and other.is_file() and one.read_bytes() == other.read_bytes()


def _refuse_overwriting(new: Path, folder: Path) -> None:
    """What the old packet does not list is the user's: it may stand where a new file goes only if both are equal."""
    before = folder.stat().st_ino if folder.is_dir() else None
    for entry in _theirs(folder):
        if os.path.lexists(new / entry.name) and not _same(entry, new / entry.name):
            if folder.stat().st_ino != before:  # another run has put its packet there just now: look again
                return _refuse_overwriting(new, folder)
            raise CannotWrite(f"{entry} is your own and would be lost. Move it, or name a new folder with --out.")
    return None


# --- the exchange ---------------------------------------------------------------------------------------------------


def _exchange(new: Path, folder: Path) -> Path | None:
    """Put *new* in the place of *folder*; where the old packet is then, if there was one."""
    if not os.path.lexists(folder):
        try:
            new.rename(folder)
            return None
        except OSError:
            if not folder.is_dir():  # else another run was quicker by a moment: its packet is the old one now
                raise
    if swap(new, folder):
        return new
    old = folder.with_name(f".{folder.name}.old-{os.getpid()}")
    try:
        folder.rename(old)
        new.rename(folder)
    except BaseException:
        if old.exists() and not os.path.lexists(folder):
            old.rename(folder)
        raise
    return old


def _clear(old: Path, folder: Path) -> None:
    """Bring what the user had beside an *old* packet to its *folder*, then throw the rest away. What cannot be brought
    because something else stands there, stays."""
    stuck = False
    for entry in list(_theirs(old)):
        if not os.path.lexists(folder / entry.name):
            entry.rename(folder / entry.name)
        elif not _same(entry, folder / entry.name):
            stuck = True
    if not stuck:
        # a name of its own first: half deleted, it would look like a folder of the user's
        gone = old.rename(folder.with_name(f".{folder.name}.gone-{os.getpid()}-{old.stat().st_ino}"))
        shutil.rmtree(gone, ignore_errors=True)
