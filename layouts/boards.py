"""A wall as it is laid: its columns and every board in it, as seen from outside.

Places along a wall are inches from the left outer corner of its columns; boards that run past the corner begin below
zero. Heights are stations above the grade line.
"""

from __future__ import annotations

from msgspec import Struct

from layouts.columns import Column
from layouts.lumber import Section
from layouts.openings import Opening, Upright
from layouts.plan import WallLine
from layouts.rows import Row


class Piece(Struct, frozen=True):
    """One board. *low* and *high* are its stretch along the wall at the bottom and the top edge; *mark* is its number
    in the cut list; *length* the long edge, *short* the short edge; *left_back* and *right_back* how far the end is
    cut back over *cut_rise* inches of width."""

    mark: str
    row: Row
    low: tuple[float, float]
    high: tuple[float, float]
    left_rise: float
    right_rise: float

    @property
    def length(self) -> float:
        """The long edge, inches."""
        return max(self.low[1], self.high[1]) - min(self.low[0], self.high[0])

    @property
    def short(self) -> float:
        """The short edge, inches."""
        return min(self.low[1], self.high[1]) - max(self.low[0], self.high[0])

    @property
    def backs(self) -> tuple[float, float]:
        """How far the left and the right end are cut back."""
        return abs(self.high[0] - self.low[0]), abs(self.low[1] - self.high[1])


class Stand(Struct, frozen=True):
    """A column in a wall: its stretch along the wall, *top* as an outline along the wall, and the column with its
    numbers, ``None`` where it was not read."""

    name: str
    left: float
    right: float
    top: tuple[tuple[float, float], ...]
    column: Column | None

    @property
    def centre(self) -> float:
        """Its middle along the wall."""
        return (self.left + self.right) / 2


class Course(Struct, frozen=True):
    """A row of a wall with its *pieces*, left to right."""

    row: Row
    pieces: tuple[Piece, ...]

    @property
    def straightest(self) -> bool:
        """Whether the straightest boards of the pile go here: the eye follows this row."""
        return self.row.straightest


class Rake(Struct, frozen=True):
    """A nailer along the slope of a gable, its upper edge at the chord: from *start* to *end*, each a place along the
    wall and a station of that edge; both ends plumb. *length* from tip to tip, *back* how far a plumb end goes back
    over its width, inches."""

    name: str
    section: Section
    start: tuple[float, float]
    end: tuple[float, float]
    length: float
    back: float
    mark: str = ""

    @property
    def short(self) -> float:
        """Each of its edges: both are as long, the ends slant the same way."""
        return self.length - self.back


class Wall(Struct, frozen=True):
    """One wall seen from outside. *theirs* are the corner columns that are nailed into the other wall; *past* is how
    far its girts run past the columns (nailers where no girt is outside), *grade_past* its grade board; *shared* names
    the columns on which rows that touch both break, because no stock length staggers them. *openings* with their
    *levels* (headers, sills, track boards) and *uprights* (jamb posts, cripples, corner boards, fillers, blocking).
    *inner*: rows on the inside of the columns. *rakes*: nailers along the slopes of a gable. *carriers*: those that
    are no row of the girts."""

    line: WallLine
    stands: tuple[Stand, ...]
    courses: tuple[Course, ...]
    past: float
    grade_past: float
    theirs: tuple[str, ...]
    shared: tuple[str, ...]
    openings: tuple[Opening, ...] = ()
    levels: tuple[Course, ...] = ()
    uprights: tuple[Upright, ...] = ()
    inner: tuple[Course, ...] = ()
    rakes: tuple[Rake, ...] = ()
    carriers: tuple[Course, ...] = ()

    @property
    def all_courses(self) -> tuple[Course, ...]:
        """Every board that lies level: the rows, what belongs to openings, the rows inside, carriers not among them."""
        return (*self.courses, *self.levels, *self.inner, *self.carriers)

    @property
    def name(self) -> str:
        """The wall's letter or number."""
        return self.line.name
