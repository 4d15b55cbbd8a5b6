"""A pattern parted over pages: the window of each on it, and the match lines between them."""

from __future__ import annotations

from msgspec import Struct

from layouts.template import Point
from sheets.paper import Area

LAP = 0.4  # drawn again beyond a match line


class Joint(Struct, frozen=True):
    """A match line: its *number* in the pattern, the part *before* it (to the left or below), from *start* to *end* in
    the pattern; *first* if the page lies after it: it is the left or lower edge there."""

    number: int
    before: int
    start: Point
    end: Point
    first: bool


class Tile(Struct, frozen=True):
    """One page of a pattern: its window on the pattern, *column* and *row* of *across* by *up* pages."""

    x0: float
    y0: float
    x1: float
    y1: float
    column: int
    row: int
    across: int
    up: int

    @property
    def number(self) -> int:
        """From the lower left, along the rows."""
        return self.row * self.across + self.column + 1

    @property
    def own(self) -> Area:
        """What is drawn here first."""
        return Area(self.x0, self.y0, self.x1, self.y1)

    @property
    def shown(self) -> Area:
        """That, and what is drawn again beyond it."""
        right, top = LAP * (self.column < self.across - 1), LAP * (self.row < self.up - 1)
        return Area(self.x0, self.y0, self.x1 + right, self.y1 + top)

    def clear(self, by: float) -> Area:
        """The same, *by* inches off every match line."""
        own = self.own
        left, right = by * (self.column > 0), by * (self.column < self.across - 1)
        low, high = by * (self.row > 0), by * (self.row < self.up - 1)
        return Area(own.x0 + left, own.y0 + low, own.x1 - right, own.y1 - high)

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Its match lines: those up the page are counted first, along the rows, then those across it."""
        found = []
        upright = self.up * (self.across - 1)
        for column in (self.column, self.column + 1):
            if 0 < column < self.across:
                x, first = (self.x0, True) if column == self.column else (self.x1, False)
                at = self.row * (self.across - 1) + column
                found.append(Joint(at, self.row * self.across + column, (x, self.y0), (x, self.y1), first))
        for row in (self.row, self.row + 1):
            if 0 < row < self.up:
                y, first = (self.y0, True) if row == self.row else (self.y1, False)
                at = upright + (row - 1) * self.across + self.column + 1
                before = (row - 1) * self.across + self.column + 1
                found.append(Joint(at, before, (self.x0, y), (self.x1, y), first))
        return tuple(found)
