"""Printer profiles: what a printed page measures against what was drawn, and the correction that undoes it.

Along is the paper's long side, across its short side. A point drawn at (x across, y along) lands on paper at
(x·across + skew·y, y·along), so it is drawn where that undoes itself. Coordinates are corrected, never the page.
"""

from __future__ import annotations

from dataclasses import dataclass

from sheets.shapes import Drawing, Group, Line, Point, Polygon, Shape, Text


@dataclass(frozen=True)
class Profile:
    """*along* and *across* are printed over drawn; *skew* how far a point moves across for each inch along; *edge* the
    unprintable edge, inches; *date* when it was measured; *residual* the larger error, inches in 10, that a second
    measurement after correction showed, ``None`` if nobody looked."""

    printer: str = ""
    paper: str = ""
    along: float = 1.0
    across: float = 1.0
    skew: float = 0.0
    edge: float = 0.5
    date: str = ""
    residual: float | None = None

    @property
    def plain(self) -> bool:
        """Whether it changes nothing."""
        return self.along == self.across == 1.0 and self.skew == 0.0

    def drawn(self, drawing: Drawing, point: Point) -> Point:
        """Where a point of *drawing* has to be drawn to land in its place."""
        tall = drawing.height >= drawing.width
        across, along = point if tall else (point[1], point[0])
        along /= self.along
        across = (across - self.skew * along) / self.across
        return (across, along) if tall else (along, across)

    def printed(self, drawing: Drawing, point: Point) -> Point:
        """Where a point drawn on *drawing* lands on paper."""
        tall = drawing.height >= drawing.width
        across, along = point if tall else (point[1], point[0])
        across, along = across * self.across + self.skew * along, along * self.along
        return (across, along) if tall else (along, across)

    def correct(self, drawing: Drawing) -> Drawing:
        """*drawing* with every coordinate moved so that it lands where it should. Sizes of letters and strokes stay."""
        if self.plain:
            return drawing
        return Drawing(drawing.width, drawing.height, tuple(self._moved(drawing, s) for s in drawing.shapes))

    def _moved(self, drawing: Drawing, shape: Shape) -> Shape:
        if isinstance(shape, Group):
            return Group(shape.name, tuple(self._moved(drawing, s) for s in shape.shapes), shape.title)
        if isinstance(shape, Polygon):
            return Polygon(tuple(self.drawn(drawing, p) for p in shape.points), shape.grey, shape.width)
        if isinstance(shape, Line):
            x0, y0 = self.drawn(drawing, (shape.x0, shape.y0))
            x1, y1 = self.drawn(drawing, (shape.x1, shape.y1))
            return Line(x0, y0, x1, y1, shape.width, shape.dash)
        x, y = self.drawn(drawing, (shape.x, shape.y))
        return Text(x, y, shape.text, shape.size, shape.cut, shape.turn, shape.grey)
