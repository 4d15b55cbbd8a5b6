"""The files of a packet: what each is called, and how they are written. ``sheets.disk`` has them reach the user's
folder whole or not at all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from layouts.languages import ENGLISH_CODE
from sheets import aside, parts, phone
from sheets.language import Learnt, speaking, turn
from sheets.shapes import Drawing
from sheets.steps import Step

if TYPE_CHECKING:
    from sheets.packet import Packet

PREVIEW_DPI = 100.0
NUMBERS = "numbers.json"


def write(packet: Packet, folder: Path, png: bool, svg_parts: bool, step: Step) -> list[str]:
    """Write all files of *packet* into *folder*, PNG previews too if *png*, every lane and tag alone if *svg_parts*;
    their names. *step* is told how many are written. Raises ``OSError`` where the disk refuses,
    ``sheets.preview.NoCairo`` where previews are wanted and Cairo is missing."""
    with speaking(packet.speech):
        return _written(packet, folder, png, svg_parts, step)


def _written(packet: Packet, folder: Path, png: bool, svg_parts: bool, step: Step) -> list[str]:
    """The SVG files take as long as the PDFs and the page for the phone: they are written beside them."""
    kinds = list(dict.fromkeys(s.kind for s in packet.sheets))
    shown = [name for name, _, _ in drawings(packet)]
    alone = list(packet.parts()) if svg_parts else []
    of = len(kinds) + (len(kinds) > 1) + len(shown) * (1 + png) + len(alone) + 1
    names: list[str] = []

    def wrote(name: str) -> None:
        names.append(name)
        step("Writing the files", len(names), of)

    with aside.begun(lambda: _figures(packet, folder, alone)) as figures:
        for name in _pdfs(packet, folder, kinds):
            wrote(name)
        (folder / phone.FILE).write_bytes(packet.page())
        drawn, learnt = figures()
    for name in drawn:
        wrote(name)
    if packet.speech and learnt:
        packet.speech.learn(*learnt)
    for name in shown if png else ():
        _preview(folder, name)
        wrote(f"{name}.png")
    wrote(phone.FILE)
    (folder / NUMBERS).write_text(packet.numbers, encoding="utf-8", newline="\n")
    return [*names, NUMBERS]


def _pdfs(packet: Packet, folder: Path, kinds: Sequence[str]) -> Iterator[str]:
    """Write the packet as one PDF, and each kind of its sheets as one where there are several; their names."""
    from sheets import pdf

    lang = packet.speech.code if packet.speech else ENGLISH_CODE
    printed = [replace(s.page, drawing=packet.profile.correct(s.page.drawing)) for s in packet.sheets]
    shared = pdf.Shared()
    if len(kinds) > 1:
        pdf.write(folder / "packet.pdf", printed, packet.title, shared=shared, lang=lang)
        yield "packet.pdf"
    for kind in kinds:
        pages = [page for page, s in zip(printed, packet.sheets, strict=True) if s.kind == kind]
        first = next(number for number, s in enumerate(packet.sheets, 1) if s.kind == kind)
        pdf.write(folder / f"{kind}.pdf", pages, f"{packet.title}: {turn(kind)}", first=first, shared=shared, lang=lang)
        yield f"{kind}.pdf"


def _figures(
    packet: Packet, folder: Path, alone: Sequence[tuple[str, Drawing, str]]
) -> tuple[list[str], Learnt | None]:
    """Write every SVG, those that stand *alone* last; their names, and what the packet's language has learnt by it: it
    is this process alone that knows."""
    from sheets import svg

    corrected = [(name, packet.profile.correct(drawing), title) for name, drawing, title in page_drawings(packet)]
    figures = [*corrected, *whole_drawings(packet), *alone]
    for name, drawing, title in figures:
        svg.write(folder / f"{name}.svg", drawing, title, "mm" if packet.metric else "in")
    return [f"{name}.svg" for name, _, _ in figures], packet.speech.learnt() if packet.speech else None


def drawings(packet: Packet) -> Iterator[tuple[str, Drawing, str]]:
    """Every SVG as it should land on paper: file name without ending, drawing, title."""
    yield from page_drawings(packet)
    yield from whole_drawings(packet)


def page_drawings(packet: Packet) -> Iterator[tuple[str, Drawing, str]]:
    """The pages, which a printer prints and its profile corrects."""
    counts: dict[str, int] = {}
    for sheet in packet.sheets:
        counts[sheet.kind] = counts.get(sheet.kind, 0) + 1
        yield f"{sheet.kind}-{counts[sheet.kind]:03d}", sheet.page.drawing, f"{packet.title}: {turn(sheet.title)}"


def whole_drawings(packet: Packet) -> Iterator[tuple[str, Drawing, str]]:
    """Rods in one piece, for cutters and plotters: never corrected."""
    for number, (title, drawing) in enumerate(packet.whole, 1):
        yield f"rod-{number}-full-scale", parts.layered(drawing), f"{packet.title}: {turn(f'{title}, full scale')}"


def _preview(folder: Path, name: str) -> None:
    from sheets import preview

    preview.write(folder / f"{name}.svg", folder / f"{name}.png", PREVIEW_DPI)
