"""The floor of the packet benchmark: a bare reportlab script that draws the same shapes, and nothing else.

Run as ``python tests/bench_floor.py SHAPES TIMES OUT.pdf``: every page of *SHAPES* (what ``flattened`` gives, by
marshal), so many *TIMES*. Strokes have their widths and dashes, words their sizes, cuts and turns; they are set where
they change. There is no bookmark, no word to copy, no name of a group.
"""

from __future__ import annotations

import marshal
import sys
from collections.abc import Iterable
from io import BytesIO
from pathlib import Path
from typing import Any

POINT = 72.0


def flattened(shapes: Iterable[Any]) -> list[tuple[Any, ...]]:
    """Shapes of ``sheets.shapes`` as plain tuples, in points."""
    from sheets.shapes import Line, Polygon, flat

    found: list[tuple[Any, ...]] = []
    for shape in flat(shapes):
        if isinstance(shape, Line):
            ends = tuple(POINT * n for n in (shape.x0, shape.y0, shape.x1, shape.y1))
            found.append(("line", *ends, POINT * shape.width, [POINT * n for n in shape.dash]))
        elif isinstance(shape, Polygon):
            points = [(POINT * x, POINT * y) for x, y in shape.points]
            found.append(("polygon", points, shape.grey, POINT * shape.width))
        else:
            place = POINT * shape.x, POINT * shape.y, POINT * shape.size
            found.append(("text", *place, shape.cut, shape.turn, shape.grey, str(shape.text)))
    return found


class _Page:
    """A canvas, and what is set on it."""

    def __init__(self, canvas: Any) -> None:
        self.canvas = canvas
        self.now: dict[str, Any] = {}

    def set(self, what: str, *values: Any) -> None:
        if self.now.get(what) != values:
            self.now[what] = values
            getattr(self.canvas, what)(*values)

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float, dash: list[float]) -> None:
        self.set("setLineWidth", width)
        self.set("setDash", dash)
        self.canvas.line(x0, y0, x1, y1)

    def polygon(self, points: list[tuple[float, float]], grey: float | None, width: float) -> None:
        if grey is not None:
            self.set("setFillGray", grey)
        self.set("setLineWidth", width)
        self.set("setDash", [])
        path = self.canvas.beginPath()
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        path.close()
        self.canvas.drawPath(path, stroke=width > 0, fill=grey is not None)

    def text(self, x: float, y: float, size: float, cut: str, turn: int, grey: float, words: str) -> None:
        self.set("setFillGray", grey)
        self.set("setFont", cut, size)
        if not turn:
            self.canvas.drawString(x, y, words)
            return
        self.canvas.saveState()
        self.canvas.translate(x, y)
        self.canvas.rotate(turn)
        self.canvas.drawString(0, 0, words)
        self.canvas.restoreState()


def main(shapes: Path, times: int, out: Path) -> None:
    """Draw all pages in our own two cuts."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    import fonts

    for cut in fonts.CUTS:
        pdfmetrics.registerFont(TTFont(cut, BytesIO(fonts.data(cut))))
    canvas = Canvas(str(out), pageCompression=0, invariant=1)  # as ours are
    for width, height, drawn in marshal.loads(shapes.read_bytes()) * times:
        canvas.setPageSize((width, height))
        page = _Page(canvas)
        for kind, *values in drawn:
            getattr(page, kind)(*values)
        canvas.showPage()
    canvas.save()


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]))
