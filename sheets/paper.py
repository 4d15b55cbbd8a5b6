"""Paper: exact page sizes, the edge a printer leaves unprinted, and what is left to draw on. Inches.

Sizes: ANSI A (8.5 x 11 in) and ISO 216 A4 (210 x 297 mm).
"""

from __future__ import annotations

from dataclasses import dataclass

MM = 1 / 25.4
FOOTER = 0.44


@dataclass(frozen=True)
class Area:
    """A rectangle to draw in: left, bottom, right, top."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Across."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Up and down."""
        return self.y1 - self.y0


@dataclass(frozen=True)
class Paper:
    """A sheet of *width* x *height* inches; *margin* stays blank all round (half an inch where the printer is not
    known: common practice, no source)."""

    name: str
    width: float
    height: float
    margin: float = 0.5

    def turned(self) -> Paper:
        """The same sheet on its side."""
        return Paper(self.name, self.height, self.width, self.margin)

    @property
    def body(self) -> Area:
        """Inside the margins and above the footer."""
        m = self.margin
        return Area(m, m + FOOTER, self.width - m, self.height - m)


PAPERS = {
    "letter": Paper("letter", 8.5, 11.0),
    "a4": Paper("a4", 210 * MM, 297 * MM),
}
