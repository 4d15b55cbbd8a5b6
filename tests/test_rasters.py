"""Each sheet as a picture, from its PDF and from its SVG by programs that share no code: the same within a pixel."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from io import BytesIO
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
import pytest
from effort import HOW
from PIL import Image
from printed import print_out

DPI = 300
DARK, NOT_WHITE = 96, 200  # of 255: a pixel that is ink, and one that has some

Pixels = np.ndarray[Any, np.dtype[Any]]


def cairo_loads() -> bool:
    try:
        import cairosvg  # noqa: F401
    except OSError:
        return False
    return True


def from_pdf(path: Path, number: int) -> Pixels:
    """A page by PDFium: at twice the size and averaged, as it sets small letters on whole pixels."""
    with pypdfium2.PdfDocument(path) as document:
        image = document[number].render(scale=2 * DPI / 72, grayscale=True).to_pil().convert("L")
    return np.asarray(image.crop((0, 0, image.width // 2 * 2, image.height // 2 * 2)).reduce(2))


def from_svg(path: Path, shape: Sequence[int]) -> Pixels:
    """A page by Cairo."""
    import cairosvg

    picture = cairosvg.svg2png(
        bytestring=path.read_bytes(), output_width=shape[1], output_height=shape[0], background_color="white"
    )
    return np.asarray(Image.open(BytesIO(picture)).convert("L"))


def spread(dark: Pixels) -> Pixels:
    """*dark* and all pixels that touch it."""
    tall = dark.copy()
    tall[1:] |= dark[:-1]
    tall[:-1] |= dark[1:]
    wide = tall.copy()
    wide[:, 1:] |= tall[:, :-1]
    wide[:, :-1] |= tall[:, 1:]
    return wide


def alone(one: Pixels, other: Pixels) -> int:
    """Dark pixels of *one* without ink in *other* at most a pixel away."""
    return int(((one < DARK) & ~spread(other < NOT_WHITE)).sum())


def compared(folder: Path, number: int, name: str) -> tuple[str, int, int, int]:
    """A sheet with its dark pixels and those that stand alone in either picture."""
    pdf = from_pdf(folder / "packet.pdf", number)
    svg = from_svg(folder / name, pdf.shape)
    return name, int((pdf < DARK).sum()), alone(pdf, svg), alone(svg, pdf)


@pytest.mark.skipif(not cairo_loads(), reason="no Cairo library on this machine")
def test_pdf_and_svg_of_every_sheet_are_the_same_picture(tmp_path: Path) -> None:
    """All sheets of the demo, or every other one, two at a time; not a pixel stands alone."""
    printed = print_out("letter", tmp_path / "out")
    numbers = range(0, len(printed.pages), 1 if HOW == "all" else 2)
    pages = [printed.pages[number] for number in numbers]
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        found = list(pool.map(compared, [printed.folder] * len(pages), numbers, pages))
    assert [row[0] for row in found] == pages
    assert all(dark > 5000 for _, dark, _, _ in found), "a blank page"
    assert [row for row in found if row[2] or row[3]] == []


def test_a_line_two_pixels_off_is_seen() -> None:
    for off, seen in ((0, 0), (1, 0), (2, 30), (3, 30)):
        one, other = np.full((30, 30), 255), np.full((30, 30), 255)
        one[:, 10], other[:, 10 + off] = 0, 0
        assert alone(one, other) == alone(other, one) == seen
