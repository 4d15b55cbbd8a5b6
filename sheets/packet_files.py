"""The files of a packet: what each is called, and how they are written. ``sheets.disk`` has them reach the user's
folder whole or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import chain, pairwise
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from msgspec.structs import replace

from layouts.languages import ENGLISH_CODE
from layouts.lengths import Unit
from sheets import parts, phone, tasks
from sheets.language import speaking, turn
from sheets.shapes import Drawing
from sheets.steps import Count, Step

if TYPE_CHECKING:
    from sheets.packet import Packet

PREVIEW_DPI = 100.0
NUMBERS = "numbers.json"
SLICES = 8  # of the SVG files, for two processes to share

Thing = TypeVar("Thing")
Figure = tuple[str, Drawing, str]  # file name without ending, drawing, title


def write(packet: Packet, folder: Path, png: bool, svg_parts: bool, step: Step) -> list[str]:
    """Write all files of *packet* into *folder*, PNG previews too if *png*, every lane and tag alone if *svg_parts*;
    their names. *step* is told how many are written. Raises ``OSError`` where the disk refuses,
    ``sheets.preview.NoCairo`` where previews are wanted and Cairo is missing."""
    with speaking(packet.speech):
        return _written(packet, folder, png, svg_parts, step)


def _written(packet: Packet, folder: Path, png: bool, svg_parts: bool, step: Step) -> list[str]:
    """The PDFs and the page for the phone take as long as the SVG files: two processes share them."""
    kinds = list(dict.fromkeys(s.kind for s in packet.sheets))
    shown = [name for name, _, _ in drawings(packet)]
    alone = list(packet.parts()) if svg_parts else []
    count = Count(step, "Writing the files", len(kinds) + (len(kinds) > 1) + len(shown) * (1 + png) + len(alone) + 1)
    corrected = [packet.profile.correct(s.page.drawing) for s in packet.sheets]
    pages = [(name, drawing, title) for (name, _, title), drawing in zip(page_drawings(packet), corrected, strict=True)]
    figures = [*pages, *whole_drawings(packet), *alone]
    unit: Unit = "mm" if packet.metric else "in"

    def page() -> Iterator[str]:
        (folder / phone.FILE).write_bytes(packet.page())
        yield phone.FILE

    pdfs, *drawn, seen = tasks.done(
        lambda: _counted(_pdfs(packet, corrected, folder, kinds), count),
        *[partial(_counted, _svgs(folder, some, unit), count) for some in _slices(figures)],
        lambda: _counted(page(), count),
    )
    if png:
        drawn += tasks.done(*[partial(_counted, _previews(folder, some), count) for some in _slices(shown)])
    names = [*pdfs, *chain.from_iterable(drawn)]
    count.reach(len(names) + len(seen))
    (folder / NUMBERS).write_text(packet.numbers, encoding="utf-8", newline="\n")
    return [*names, *seen, NUMBERS]


def _pdfs(packet: Packet, drawn: Sequence[Drawing], folder: Path, kinds: Sequence[str]) -> Iterator[str]:
    """Write the packet as one PDF, and each kind of its sheets as one where there are several; their names. *drawn* are
    the pages as they have to be drawn to land as they should."""
    from sheets import pdf

    lang = packet.speech.code if packet.speech else ENGLISH_CODE
    printed = [replace(s.page, drawing=drawing) for s, drawing in zip(packet.sheets, drawn, strict=True)]
    shared = pdf.Shared()
    if len(kinds) > 1:
        pdf.write(folder / "packet.pdf", printed, packet.title, shared=shared, lang=lang)
        yield "packet.pdf"
    for kind in kinds:
        pages = [page for page, s in zip(printed, packet.sheets, strict=True) if s.kind == kind]
        first = next(number for number, s in enumerate(packet.sheets, 1) if s.kind == kind)
        pdf.write(folder / f"{kind}.pdf", pages, f"{packet.title}: {turn(kind)}", first=first, shared=shared, lang=lang)
        yield f"{kind}.pdf"


def _counted(written: Iterable[str], count: Count) -> list[str]:
    """The names of files that are *written* as they are asked for."""
    names = []
    for name in written:
        names.append(name)
        count.more()
    return names


def _slices(things: Sequence[Thing]) -> Iterator[Sequence[Thing]]:
    """*things* in ``SLICES`` parts, as long as each other."""
    ends = [len(things) * n // SLICES for n in range(SLICES + 1)]
    return (things[low:high] for low, high in pairwise(ends))


def _svgs(folder: Path, figures: Iterable[Figure], unit: Unit) -> Iterator[str]:
    """Write SVG files; their names."""
    from sheets import svg

    for name, drawing, title in figures:
        svg.write(folder / f"{name}.svg", drawing, title, unit)
        yield f"{name}.svg"


def _previews(folder: Path, names: Iterable[str]) -> Iterator[str]:
    """Write the pictures of SVG files that are there; their names."""
    from sheets import preview

    for name in names:
        preview.write(folder / f"{name}.svg", folder / f"{name}.png", PREVIEW_DPI)
        yield f"{name}.png"


def drawings(packet: Packet) -> Iterator[Figure]:
    """Every SVG as it should land on paper: file name without ending, drawing, title."""
    yield from page_drawings(packet)
    yield from whole_drawings(packet)


def page_drawings(packet: Packet) -> Iterator[Figure]:
    """The pages, which a printer prints and its profile corrects."""
    counts: dict[str, int] = {}
    for sheet in packet.sheets:
        counts[sheet.kind] = counts.get(sheet.kind, 0) + 1
        yield f"{sheet.kind}-{counts[sheet.kind]:03d}", sheet.page.drawing, f"{packet.title}: {turn(sheet.title)}"


def whole_drawings(packet: Packet) -> Iterator[Figure]:
    """Rods in one piece, for cutters and plotters: never corrected."""
    for number, (title, drawing) in enumerate(packet.whole, 1):
        yield f"rod-{number}-full-scale", parts.layered(drawing), f"{packet.title}: {turn(f'{title}, full scale')}"
