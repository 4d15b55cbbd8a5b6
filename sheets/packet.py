"""The packet: which sheets there are, in which order, and how they reach the disk whole or not at all."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from layouts.building import Building
from sheets import cuts, index, marks, rod, tag, wall
from sheets.frame import Body, Footer, finish
from sheets.pages import Page
from sheets.paper import Paper
from sheets.shapes import Drawing

KINDS: dict[str, Callable[[Building, Paper], list[Body]]] = {
    "rods": rod.pages,
    "tags": tag.pages,
    "walls": wall.pages,
    "cuts": lambda building, paper: [*cuts.pages(building, paper), *marks.pages(building, paper)],
}
MANIFEST = "packet.json"
PREVIEW_DPI = 100.0


class CannotWrite(OSError):
    """The packet cannot be written where it was asked for; the old one, if any, is whole."""


@dataclass(frozen=True)
class Sheet:
    """A finished page and where it is filed: *kind*, *title* and *stamp*; *parts* have stamps of their own."""

    kind: str
    title: str
    stamp: str
    page: Page
    parts: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Packet:
    """All *sheets* in printing order, and each rod *whole* at full scale by its title."""

    title: str
    sheets: tuple[Sheet, ...]
    whole: tuple[tuple[str, Drawing], ...]
    metric: bool


def build(building: Building, paper: Paper, only: str | None = None) -> Packet:
    """Draw the packet of *building*, or only one kind of its sheets (a key of ``KINDS``)."""
    job = building.job.job
    metric = job.units == "metric"
    footer = Footer(job.name, job.date, metric)
    kinds = [only] if only else list(KINDS)
    bodies = [body for kind in kinds for body in KINDS[kind](building, paper)]
    if only:
        sheets = _finished(bodies, footer, 0, len(bodies))
    else:
        # the index tells page numbers that its own length moves: draw it once to learn how long it is
        guess = len(index.pages(building, paper, _listed(_finished(bodies, footer, 0, len(bodies)), 0)))
        count = guess + len(bodies)
        sheets = _finished(bodies, footer, guess, count)
        first = index.pages(building, paper, _listed(sheets, guess))
        sheets = _finished(first, footer, 0, count) + sheets
    whole = rod.whole(building) if "rods" in kinds else []
    return Packet(job.name, tuple(sheets), tuple(whole), metric)


def _finished(bodies: Sequence[Body], footer: Footer, before: int, count: int) -> list[Sheet]:
    sheets = []
    for number, body in enumerate(bodies, before + 1):
        page, code = finish(body, footer, number, count)
        sheets.append(Sheet(body.kind, body.title, code, page, body.parts))
    return sheets


def _listed(sheets: Iterable[Sheet], before: int) -> list[tuple[str, str, str]]:
    """The index's rows: a page of tags is listed tag by tag."""
    rows = []
    for number, sheet in enumerate(sheets, before + 1):
        rows += [(title, str(number), code) for title, code in sheet.parts or ((sheet.title, sheet.stamp),)]
    return rows


# --- to disk --------------------------------------------------------------------------------------------------------


def save(packet: Packet, folder: Path, png: bool = False, beside: Mapping[str, bytes] | None = None) -> list[Path]:
    """Write *packet* to *folder*, with further files *beside* it (name and content), and return all files, in order.

    Everything is written beside *folder* first and moved into place when it is complete, so that a run that fails
    leaves the old packet as it was. What the old packet does not list as its own is the user's and is kept; files
    *beside* are handed to the user, so the next packet neither replaces nor removes them. Raises ``CannotWrite`` where
    *folder* is something else than a packet or an empty folder, or where a file of the user's stands in the way,
    ``OSError`` where the disk refuses, and ``sheets.preview.NoCairo`` where previews are wanted and Cairo is missing.
    """
    folder = folder.resolve()  # a link leads to the folder that is exchanged
    ours = _ours(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    new = folder.with_name(f".{folder.name}.new-{os.getpid()}")
    shutil.rmtree(new, ignore_errors=True)
    try:
        new.mkdir()
        names = _write(packet, new, png, beside or {})
        _refuse_overwriting(new, folder, ours)
        _exchange(new, folder, ours)
    finally:
        shutil.rmtree(new, ignore_errors=True)
    return [folder / name for name in names]


def _ours(folder: Path) -> set[str]:
    """The names of the files that the packet in *folder* lists as its own; a folder with anything else is refused."""
    blocked = next((place for place in (folder, *folder.parents) if place.exists() and not place.is_dir()), None)
    if blocked:
        raise CannotWrite(f"{blocked} is a file, not a folder.")
    if not folder.is_dir() or not any(folder.iterdir()):
        return set()
    try:
        listed = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))["files"]
        return {str(name) for name in listed}
    except (FileNotFoundError, ValueError, TypeError, LookupError):
        raise CannotWrite(f"{folder} holds other files and no packet. Name a new folder with --out.") from None


def _refuse_overwriting(new: Path, folder: Path, ours: set[str]) -> None:
    """What the old packet does not list is the user's: it may stand where a new file goes only if both are equal."""
    for entry in new.iterdir():
        theirs = folder / entry.name
        if entry.name in ours or not theirs.exists():
            continue
        if not theirs.is_file() or theirs.read_bytes() != entry.read_bytes():
            raise CannotWrite(f"{theirs} is your own and would be lost. Move it, or name a new folder with --out.")


def _write(packet: Packet, folder: Path, png: bool, beside: Mapping[str, bytes]) -> list[str]:
    """All files of the packet into *folder*; their names."""
    from sheets import pdf, svg

    kinds = list(dict.fromkeys(s.kind for s in packet.sheets))
    names = []
    if len(kinds) > 1:
        pdf.write(folder / "packet.pdf", [s.page for s in packet.sheets], packet.title)
        names.append("packet.pdf")
    for kind in kinds:
        pages = [s.page for s in packet.sheets if s.kind == kind]
        pdf.write(folder / f"{kind}.pdf", pages, f"{packet.title}: {kind}")
        names.append(f"{kind}.pdf")
    unit = "mm" if packet.metric else "in"
    for name, drawing, title in drawings(packet):
        svg.write(folder / f"{name}.svg", drawing, title, "mm" if unit == "mm" else "in")
        names.append(f"{name}.svg")
    if png:
        names += _previews(folder, [n for n in names if n.endswith(".svg")])
    manifest = {
        "packet": packet.title,
        "files": [*names, MANIFEST],
        "sheets": [
            {"title": title, "page": int(page), "stamp": code} for title, page, code in _listed(packet.sheets, 0)
        ],
    }
    (folder / MANIFEST).write_text(json.dumps(manifest, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    for name, content in beside.items():
        (folder / name).write_bytes(content)
    return [*names, MANIFEST, *beside]


def drawings(packet: Packet) -> Iterable[tuple[str, Drawing, str]]:
    """Every SVG: file name without ending, drawing, title."""
    counts: dict[str, int] = {}
    for sheet in packet.sheets:
        counts[sheet.kind] = counts.get(sheet.kind, 0) + 1
        yield f"{sheet.kind}-{counts[sheet.kind]:03d}", sheet.page.drawing, f"{packet.title}: {sheet.title}"
    for number, (title, drawing) in enumerate(packet.whole, 1):
        yield f"rod-{number}-full-scale", drawing, f"{packet.title}: {title}, full scale"


def _previews(folder: Path, svgs: Iterable[str]) -> list[str]:
    from sheets import preview

    names = []
    for name in svgs:
        picture = name.removesuffix(".svg") + ".png"
        preview.write(folder / name, folder / picture, PREVIEW_DPI)
        names.append(picture)
    return names


def _exchange(new: Path, folder: Path, ours: set[str]) -> None:
    """Put *new* in the place of *folder*, and bring along what the user had put beside the old packet."""
    if not folder.exists():
        new.rename(folder)
        return
    old = folder.with_name(f".{folder.name}.old-{os.getpid()}")
    folder.rename(old)
    try:
        new.rename(folder)
    except BaseException:
        old.rename(folder)
        raise
    for entry in old.iterdir():
        if entry.name not in ours and not (folder / entry.name).exists():
            entry.rename(folder / entry.name)
    shutil.rmtree(old, ignore_errors=True)
