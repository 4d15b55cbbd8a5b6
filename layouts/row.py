"""What a row of boards is, and the rows of a building's walls. How they are laid stands in ``layouts.rows``."""

from __future__ import annotations

from operator import attrgetter
from typing import Literal

from msgspec import Struct

from layouts.lumber import Section
from layouts.plan import WallLine

Key = Literal[
    "grade board",
    "wainscot nailer",
    "girt",
    "soffit nailer",
    "top girt",
    "gable girt",
    "header",
    "sill",
    "track board",
    "carrier",
]
Layer = Literal["outside", "between", "inside", "on top"]


class Row(Struct, frozen=True):
    """One row of boards of one *section*: *low* and *high* are the stations of its edges, inches. *layer*:
    on the outside of the columns, between them (girts lying flat, nailers standing), on their inside or their tops."""

    key: Key
    name: str
    section: Section
    low: float
    high: float
    treated: bool = False
    layer: Layer = "outside"

    @property
    def straightest(self) -> bool:
        """Whether the eye follows this row: the top row under the soffit or the eave, and the grade board. Its boards
        are picked first, the straightest of the pile (common practice, no source)."""
        return self.layer in ("outside", "between") and self.key in ("grade board", "soffit nailer", "top girt")


class Rows(Struct, frozen=True):
    """Rows of the walls on both *sides* (wall A first, then the wall opposite) and of an endwall, bottom to top; *step*
    is the girt step; *notes* say what to look at; *inner_sides* and *inner_end* are the rows on the inside of the
    columns; *edge* is the one that is marked; *carried* the carriers of both sides as one board."""

    sides: tuple[tuple[Row, ...], tuple[Row, ...]]
    end: tuple[Row, ...]
    step: float
    notes: tuple[str, ...]
    inner_sides: tuple[tuple[Row, ...], tuple[Row, ...]] = ((), ())
    inner_end: tuple[Row, ...] = ()
    edge: Literal["bottom", "top"] = "bottom"
    carried: tuple[tuple[Row, ...], tuple[Row, ...]] = ((), ())

    @property
    def side(self) -> tuple[Row, ...]:
        """The rows of wall A."""
        return self.sides[0]

    @property
    def inner_side(self) -> tuple[Row, ...]:
        """The rows on the inside of wall A."""
        return self.inner_sides[0]

    def of(self, line: WallLine) -> tuple[Row, ...]:
        """The rows of a wall."""
        return self.end if line.gable else self.sides[line.side == "right"]

    def inner(self, line: WallLine) -> tuple[Row, ...]:
        """The rows on the inside of its columns."""
        return self.inner_end if line.gable else self.inner_sides[line.side == "right"]

    def marked(self, line: WallLine) -> tuple[Row, ...]:
        """What its columns carry: rows inside, and carriers, only where none outside shares their mark."""
        held = () if line.gable else self.carried[line.side == "right"]
        return self._marked(self.of(line), (*self.inner(line), *held))

    @property
    def all_side(self) -> tuple[Row, ...]:
        """What a column of wall A carries."""
        return self._marked(self.side, (*self.inner_side, *self.carried[0]))

    @property
    def all_end(self) -> tuple[Row, ...]:
        """What an endwall column carries."""
        return self._marked(self.end, self.inner_end)

    def _marked(self, outer: tuple[Row, ...], inner: tuple[Row, ...]) -> tuple[Row, ...]:
        """One row of two whose marked edges meet."""
        edge = attrgetter("low" if self.edge == "bottom" else "high")
        taken = {round(edge(row), 6) for row in outer}
        own = (row for row in inner if round(edge(row), 6) not in taken)
        return tuple(sorted((*outer, *own), key=lambda r: r.low))
