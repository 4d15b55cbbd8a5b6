"""What a tag says, however large it is: its rows of cuts and marks, its lines, and the stamp that is made of them all.

The stamp is made of what the layout knows of the column, not of what a size of tag has room for: a tag carries the same
stamp two to a page, on a label and in large print.
"""

from __future__ import annotations

from msgspec import Struct

from layouts.building import Building, ColumnMark, marks_of
from layouts.columns import Column
from layouts.lengths import Style, show
from layouts.piers import Fit
from layouts.readings import taken
from layouts.rods import Mark
from sheets.frame import stamp

AGAIN = "SHOOT AGAIN BEFORE CUTTING"
MARKS = "MARK ONLY, from the bottom end: DO NOT CUT"

Row = tuple[str, str, str]  # name, where, the height as it is printed


class Words(Struct, frozen=True):
    """A tag's words. *offset* is the figure and *caption* what stands over it; *said* are the lines about its seat;
    *cuts* with *head* over them, *marks* that other columns have not; then *stock* and, in order of importance, which
    *ends* may be cut (*end* in short), the *walls* and neighbours, the *reading* and the crew's *note*."""

    name: str
    caption: str
    short: str
    offset: str
    said: tuple[str, str]
    again: bool
    head: str
    cuts: tuple[Row, ...]
    marks: tuple[Row, ...]
    stock: str
    ends: str
    end: str
    walls: str
    reading: str
    note: str
    sides: tuple[str, str]
    outside: bool

    @property
    def stamp(self) -> str:
        """The tag's stamp."""
        rows = [" ".join(row) for row in (*self.cuts, *self.marks)]
        lines = [self.caption, self.offset, *self.said, *([AGAIN] * self.again), self.head, *rows]
        small = [self.stock, self.ends, self.walls, self.reading, self.note, *self.sides]
        return stamp([self.name, "THIS FACE OUTSIDE" if self.outside else "OUTSIDE", *lines, *small])


def words(building: Building, column: Column) -> Words:
    """What the tag of *column* says."""
    style = building.job.style
    new = "NEW " if column.fit.cut_off else ""
    up = column.offset >= 0
    ordered = sorted(column.cuts, key=lambda c: -c.station)
    cuts = [(c.name, c.where, column.up(c.station)) for c in ordered] + fitted(column.fit)
    left, right = column.neighbours
    walls = " and ".join(column.walls)
    plural = "s" if len(column.walls) > 1 else ""
    ends, end = _ends(column)
    return Words(
        name=column.name,
        caption=f"OFFSET: the grade line, {offset_from(column)}",
        short=f"OFFSET, up from the {new}end" if up else f"OFFSET, BELOW THE {new}END",
        offset=show(abs(column.offset), style),
        said=(column.seat, column.longer),
        again=column.flagged,
        head="FROM THE BOTTOM END" if column.fit.made else "CUTS, from the bottom end",
        cuts=tuple((name, place, show(inches, style)) for name, place, inches in cuts),
        marks=tuple((name, _edge(own.mark, style), show(own.up, style)) for name, own in own_marks(building, column)),
        stock=_stock(column, style),
        ends=ends,
        end=end,
        walls=f"Wall{plural} {walls}. From outside: {left} to the left, {right} to the right.",
        reading=f"Reading {taken(building.readings, column.reading, style)}, line {_line(building, style)}.",
        note=column.note,
        sides=(column.top.left, column.top.right),
        outside=column.role == "end",
    )


def offset_from(column: Column) -> str:
    """From where an offset is measured, and which way, before its figure."""
    new = "NEW " if column.fit.cut_off else ""
    return f"up from the {new}bottom end" if column.offset >= 0 else f"BELOW THE {new}BOTTOM END by"


def own_marks(building: Building, column: Column) -> list[tuple[str, ColumnMark]]:
    """Headers and sills of *column*, highest first, by the openings beside it: a rod's mark may name more."""
    found = []
    for own in reversed(marks_of(building, column)):
        mark = own.mark
        if mark.only:
            kind = mark.name.split()[0]
            names = [
                o.name
                for wall in building.walls
                for o in wall.openings
                for board in o.levels
                if board.key == kind.lower() and column.name in board.columns and abs(board.low - mark.low) < 1e-6
            ]
            found.append((f"{kind} {', '.join(names)}".upper(), own))
    return found


def _edge(mark: Mark, style: Style) -> str:
    """The board of a mark, its edge, and what a rod reads there."""
    return f"{mark.board} {mark.edge}, rod {show(mark.station, style)}"


def fitted(fit: Fit) -> list[tuple[str, str, float]]:
    """What else a column takes to stand right: name, where, inches."""
    rows = []
    if fit.made and fit.cut_off:
        rows.append(("CUT OFF FIRST", "at the bottom end", fit.cut_off))
    if fit.packing:
        rows.append(("BLOCK UNDER IT", "over the whole seat", fit.packing))
    if fit.seat_block:
        rows.append(("SEAT BLOCK", "on the centre ply, up to the bearing", fit.seat_block))
    return rows


def _stock(column: Column, style: Style) -> str:
    """The stick that the column is cut from."""
    if column.stock is None or column.drop is None:
        return "NO STOCK IS LONG ENOUGH"
    left = "as delivered" if column.fit.made else f"drop {show(column.drop, style)}"
    return f"STOCK {show(column.stock, style)}  ·  {left}"


def _ends(column: Column) -> tuple[str, str]:
    """Which end may be cut, whole and in short."""
    if not column.fit.made:
        return "Cut the top only. Bottom end stays as it is.", "CUT THE TOP ONLY"
    if column.fit.cut_off:
        whole = "Cut the bottom only. The top is made. All marks are from the NEW bottom end."
        return whole, "CUT THE BOTTOM ONLY"
    return "Cut neither end: the top is made.", "CUT NEITHER END"


def _line(building: Building, style: Style) -> str:
    """The line reading as the rod says it."""
    line = building.grade.line
    return "unknown" if line is None else taken(building.readings, line, style)
