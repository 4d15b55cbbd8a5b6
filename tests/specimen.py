"""Drawings of known content for the tests of the writers, and the files made of them."""

from __future__ import annotations

import hashlib
import random
from pathlib import Path
from typing import Any

from readback import Path2

import fonts
from sheets import lettering, pdf, svg
from sheets.pages import Page
from sheets.shapes import Drawing, Line, Polygon, Recorder, Text, flat

LENGTHS = ("13'-9 1/16\"", '2 1/8"', "14'-11 13/16\" × 3", "A3 5/8 LOW", "plain (words) \\ 7", "Å½ ° – ↑ ×")
HOSTILE = '<script>alert("&\'")</script> ]]> -- \\ ) ( % /Span'


def specimen(seed: int = 5) -> Drawing:
    """Lines, polygons and words at known places, nested groups among them."""
    pick = random.Random(seed)
    recorder = Recorder(8.5, 11)

    def place() -> tuple[float, float]:
        return pick.uniform(0.3, 8.2), pick.uniform(0.3, 10.7)

    for number in range(40):
        recorder.begin(f"row {number % 5}", "")
        recorder.stroke(*place(), *place(), pick.choice((0.004, 0.008, 0.028)), pick.choice(((), (0.1, 0.05))))
        recorder.stroke(*place(), *place())
        recorder.end()
        corners = tuple(place() for _ in range(pick.randint(3, 6)))
        grey = pick.choice((None, 0.0, 0.5, 1.0))
        recorder.shape(corners, grey, 0.008 if grey is None else pick.choice((0.0, 0.014)))
        x, y = pick.uniform(0.5, 6), pick.uniform(0.5, 9)
        size, cut = pick.uniform(0.08, 0.5), pick.choice(sorted(fonts.CUTS))
        turn: lettering.Turn = 90 if pick.random() < 0.5 else 0
        words, grey = LENGTHS[number % len(LENGTHS)], pick.choice((0.0, 0.4))
        lettering.write(recorder, x, y, words, size, cut, "left", turn, grey)
    return recorder.drawing()


def as_pdf(path: Path, *drawings: Drawing, title: str = "Job", **how: Any) -> Path:
    pdf.write(path, [Page(d, f"Sheet {n}", "Sheets") for n, d in enumerate(drawings)], title, **how)
    return path


def as_svg(path: Path, drawing: Drawing, title: str = "Job", unit: svg.Unit = "in") -> Path:
    svg.write(path, drawing, title, unit)
    return path


def wanted_paths(drawing: Drawing) -> list[Path2]:
    """Every line and polygon in order, as corner points, in inches, y up."""
    paths: list[Path2] = []
    for shape in flat(drawing.shapes):
        if isinstance(shape, Line):
            paths.append(((shape.x0, shape.y0), (shape.x1, shape.y1)))
        elif isinstance(shape, Polygon):
            paths.append(shape.points)
    return paths


def wanted_runs(drawing: Drawing) -> list[Text]:
    return [shape for shape in flat(drawing.shapes) if isinstance(shape, Text)]


def digests(folder: Path) -> str:
    """One line that changes with any byte either writer puts out."""
    drawing = specimen()
    names = [as_pdf(folder / "a.pdf", drawing, drawing), as_pdf(folder / "b.pdf", drawing, compress=True)]
    names.append(as_svg(folder / "a.svg", drawing))
    return " ".join(hashlib.sha256(name.read_bytes()).hexdigest() for name in names)
