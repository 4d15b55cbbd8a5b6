"""The packet: which sheets there are, in which order, and how they reach the disk whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from layouts.building import Building
from sheets import cuts, disk, index, marks, parts, rod, tag, wall
from sheets.disk import MANIFEST as MANIFEST
from sheets.disk import CannotWrite as CannotWrite
from sheets.frame import Body, Footer, finish
from sheets.pages import Page
from sheets.paper import PAPERS, Paper
from sheets.profile import UNMEASURED, Profile
from sheets.shapes import Drawing

KINDS: dict[str, Callable[[Building, Paper], list[Body]]] = {
    "rods": rod.pages,
    "tags": tag.pages,
    "walls": wall.pages,
    "cuts": lambda building, paper: [*cuts.pages(building, paper), *marks.pages(building, paper)],
}
PREVIEW_DPI = 100.0


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
    """All *sheets* in printing order, each rod *whole* at full scale by its title, and every lane and tag alone, drawn
    when it is asked for: file name, drawing, title."""

    title: str
    sheets: tuple[Sheet, ...]
    whole: tuple[tuple[str, Drawing], ...]
    metric: bool
    parts: Callable[[], Iterator[tuple[str, Drawing, str]]] = lambda: iter(())
    profile: Profile = UNMEASURED


def build(building: Building, paper: Paper, only: str | None = None, profile: Profile = UNMEASURED) -> Packet:
    """Draw the packet of *building*, or only one kind of its sheets (a key of ``KINDS``).

    On a roll only the rods are drawn; the other sheets go on the usual sheet of the job's units. *profile* is the
    printer's: its edge is the margin; the pages stay as they should land, ``save`` corrects what it writes.
    """
    job = building.job.job
    metric = job.units == "metric"
    footer = Footer(job.name, job.date, metric, profile.brief(metric))
    kinds = [only] if only else list(KINDS)
    if profile.date:
        paper = paper.within(profile.edge)
    sheet = replace(PAPERS["a4" if metric else "letter"], margin=paper.margin) if paper.roll else paper
    bodies = [body for kind in kinds for body in KINDS[kind](building, paper if kind == "rods" else sheet)]
    if only:
        sheets = _finished(bodies, footer, 0, len(bodies))
    else:
        # the index tells page numbers that its own length moves: draw it once to learn how long it is
        guess = len(index.pages(building, sheet, _listed(_finished(bodies, footer, 0, len(bodies)), 0), profile, paper))
        count = guess + len(bodies)
        sheets = _finished(bodies, footer, guess, count)
        first = index.pages(building, sheet, _listed(sheets, guess), profile, paper)
        sheets = _finished(first, footer, 0, count) + sheets
    whole = rod.whole(building) if "rods" in kinds else []
    return Packet(
        job.name, tuple(sheets), tuple(whole), metric, lambda: parts.drawings(building, paper, kinds), profile
    )


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


def save(
    packet: Packet,
    folder: Path,
    png: bool = False,
    beside: Mapping[str, bytes] | None = None,
    svg_parts: bool = False,
    check: Callable[[Path], None] | None = None,
) -> list[Path]:
    """Write *packet* to *folder*, with further files *beside* it (name and content), and return all files, in order.

    *svg_parts* writes every lane and every tag as an SVG of its own too. All of it reaches the folder or nothing does,
    and the user's own files in it are kept: ``sheets.disk.save`` tells how, what *check* is for, and when it raises
    ``CannotWrite``. ``sheets.preview.NoCairo`` where previews are wanted and Cairo is missing.
    """
    sheets = [{"title": title, "page": int(page), "stamp": code} for title, page, code in _listed(packet.sheets, 0)]
    return disk.save(
        folder,
        lambda new: _write(packet, new, png, svg_parts),
        {"packet": packet.title, "sheets": sheets},
        beside,
        check,
    )


def _write(packet: Packet, folder: Path, png: bool, svg_parts: bool) -> list[str]:
    """All files of the packet into *folder*; their names."""
    from sheets import pdf, svg

    printed = [replace(s.page, drawing=packet.profile.correct(s.page.drawing)) for s in packet.sheets]
    numbered = list(enumerate(packet.sheets, 1))
    kinds = list(dict.fromkeys(s.kind for s in packet.sheets))
    names = []
    if len(kinds) > 1:
        pdf.write(folder / "packet.pdf", printed, packet.title)
        names.append("packet.pdf")
    for kind in kinds:
        pages = [page for page, s in zip(printed, packet.sheets, strict=True) if s.kind == kind]
        first = next(number for number, s in numbered if s.kind == kind)
        pdf.write(folder / f"{kind}.pdf", pages, f"{packet.title}: {kind}", first=first)
        names.append(f"{kind}.pdf")
    corrected = [(name, packet.profile.correct(drawing), title) for name, drawing, title in page_drawings(packet)]
    shown = [*corrected, *whole_drawings(packet)]
    for name, drawing, title in [*shown, *(packet.parts() if svg_parts else ())]:
        svg.write(folder / f"{name}.svg", drawing, title, "mm" if packet.metric else "in")
        names.append(f"{name}.svg")
    if png:
        names += _previews(folder, [f"{name}.svg" for name, _, _ in shown])
    return names


def drawings(packet: Packet) -> Iterator[tuple[str, Drawing, str]]:
    """Every SVG as it should land on paper: file name without ending, drawing, title."""
    yield from page_drawings(packet)
    yield from whole_drawings(packet)


def page_drawings(packet: Packet) -> Iterator[tuple[str, Drawing, str]]:
    """The pages, which a printer prints and its profile corrects."""
    counts: dict[str, int] = {}
    for sheet in packet.sheets:
        counts[sheet.kind] = counts.get(sheet.kind, 0) + 1
        yield f"{sheet.kind}-{counts[sheet.kind]:03d}", sheet.page.drawing, f"{packet.title}: {sheet.title}"


def whole_drawings(packet: Packet) -> Iterator[tuple[str, Drawing, str]]:
    """Rods in one piece, for cutters and plotters: never corrected."""
    for number, (title, drawing) in enumerate(packet.whole, 1):
        yield f"rod-{number}-full-scale", parts.layered(drawing), f"{packet.title}: {title}, full scale"


def _previews(folder: Path, svgs: Iterable[str]) -> list[str]:
    from sheets import preview

    names = []
    for name in svgs:
        picture = name.removesuffix(".svg") + ".png"
        preview.write(folder / name, folder / picture, PREVIEW_DPI)
        names.append(picture)
    return names
