"""Where the columns stand: the plan, seen from above.

Two level axes, inches, both from the outer corner of the columns at the front of wall A: *u* across the gable (along
the trusses), *v* along the eaves to the back. Grid names: letters run across the gable, numbers along the eaves, so
wall A and the last letter are the sidewalls, wall 1 the front and the last number the back. Letters I and O are left
out: they read as 1 and 0.
"""

from __future__ import annotations

import math
from itertools import accumulate, pairwise
from typing import Literal

from msgspec import Struct

from layouts.fields import PARTS, Job
from layouts.lengths import show, up
from layouts.problems import JobRefused, Problem, nearest

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
NO_WALL = "is not a wall of this job."
UNLIKE = "No two alike, for sheets have names in capitals too."

Role = Literal["corner", "side", "end"]
Side = Literal["left", "right", "front", "back"]
SIDES: tuple[Side, ...] = ("left", "back", "right", "front")  # in walking order


class Spot(Struct, frozen=True):
    """One column on the plan: its rectangle (u0, u1) x (v0, v1) in inches, its *grid* name and the crew's *name*."""

    name: str
    grid: str
    role: Role
    u0: float
    u1: float
    v0: float
    v1: float

    @property
    def sidewall(self) -> Literal["left", "right"]:
        """The sidewall that a corner or a side column stands in."""
        return "left" if self.u0 == 0.0 else "right"


class WallLine(Struct, frozen=True):
    """One wall: *columns* by name from left to right as seen from outside, *length* out to out of the columns."""

    name: str
    side: Side
    columns: tuple[str, ...]
    length: float

    @property
    def gable(self) -> bool:
        """Whether it is an endwall."""
        return self.side in ("front", "back")

    def along(self, spot: Spot) -> tuple[float, float]:
        """Where *spot* stands along this wall: inches from the left outer corner, seen from outside."""
        low, high = (spot.u0, spot.u1) if self.gable else (spot.v0, spot.v1)
        if self.side in ("front", "right"):
            return low, high
        return self.length - high, self.length - low


class Plan(Struct, frozen=True):
    """The plan of a building. *across* and *along* are out to out of the columns (of a lean-to *across* is from their
    outside to the standing wall); *width* and *length* the building line, which stands *inset* outside of the columns;
    *spots* go once round the building in walking order: from the front of wall A to the back, and on clockwise as seen
    from above."""

    width: float
    length: float
    across: float
    along: float
    spots: tuple[Spot, ...]
    walls: tuple[WallLine, ...]
    inset: float = 0.0

    @property
    def column_diagonal(self) -> float:
        """Corner to corner, outside of the columns."""
        return math.hypot(self.across, self.along)

    @property
    def building_diagonal(self) -> float:
        """Corner to corner of the building line."""
        return math.hypot(self.width, self.length)

    def inset_of(self, line: WallLine) -> float:
        """From where a wall's places are measured in to its first column: the building line, or the standing wall of a
        lean-to at the left of its back."""
        return 0.0 if line.side == "back" and self.on("right") is None else self.inset

    def on(self, side: Side) -> WallLine | None:
        """The wall on a *side*; of a lean-to there is none on the right: there stands the wall it leans against."""
        return next((w for w in self.walls if w.side == side), None)

    @property
    def front(self) -> WallLine:
        """The front endwall."""
        return next(w for w in self.walls if w.side == "front")

    def spot(self, name: str) -> Spot:
        """The column called *name*; ``KeyError`` if there is none."""
        return {s.name: s for s in self.spots}[name]


def bays(job: Job) -> tuple[float, ...]:
    """Every bay along the eaves, inches; first and last from the building line."""
    part = job.building
    return (part.length / part.bays,) * part.bays if isinstance(part.bays, int) else part.bays


def across(job: Job) -> float:
    """Width out to out of the columns: the building line less what stands outside of them. Inches."""
    return job.across


def lay(job: Job, file: str = "job.toml") -> Plan:
    """The plan of *job*.

    Raises ``JobRefused`` where columns overlap or stand outside, or two have one name.
    """
    inset = job.inset
    wide, along = across(job), job.building.length - 2 * inset
    grid = _Grid(job, inset, wide, along)
    spots, problems = _named(grid.spots(), job, file)
    problems += _check(spots, job, inset, file)
    if problems:
        raise JobRefused(problems)
    walls = _walls(spots, grid, wide, along)
    return Plan(job.building.width, job.building.length, wide, along, spots, walls, inset)


class _Grid:
    """Lines of the grid and the spots on them, before the crew's names."""

    def __init__(self, job: Job, inset: float, across: float, along: float) -> None:
        self.job = job
        self.across, self.along = across, along
        column = job.column
        self.face, self.deep = (
            (column.width, column.depth) if job.column.endwall_face == "width" else (column.depth, column.width)
        )
        # a lean-to's endwalls end in a column at the standing wall
        post = [across - self.face / 2] if job.roof.shape == "lean-to" else []
        front = [x - inset for x in job.building.front_columns] + post
        back = [x - inset for x in job.building.back_columns] + post
        self.front, self.back = sorted(front), sorted(back)
        between = sorted({round(u, 4) for u in (*front, *back)})
        self.letters = {u: _letter(i + 1) for i, u in enumerate(between)}
        self.last_letter = _letter(len(between) + 1)
        self.rows = [v - inset for v in list(accumulate(bays(job)))[:-1]]
        self.last_number = len(self.rows) + 2

    def spots(self) -> list[Spot]:
        """All columns in walking order."""
        left = [self._side("A", n, 0.0, self.job.column.depth) for n in range(1, self.last_number + 1)]
        far = self.across - self.job.column.depth
        numbers = range(self.last_number, 0, -1) if self.job.roof.shape != "lean-to" else ()
        right = [self._side(self.last_letter, n, far, self.across) for n in numbers]
        back = [self._end(u, self.last_number, self.along - self.deep, self.along) for u in self.back]
        front = [self._end(u, 1, 0.0, self.deep) for u in reversed(self.front)]
        return [*left, *back, *right, *front]

    def _side(self, letter: str, number: int, u0: float, u1: float) -> Spot:
        wide = self.job.column.width
        name = f"{letter}{number}"
        if number == 1:
            return Spot(name, name, "corner", u0, u1, 0.0, wide)
        if number == self.last_number:
            return Spot(name, name, "corner", u0, u1, self.along - wide, self.along)
        centre = self.rows[number - 2]
        return Spot(name, name, "side", u0, u1, centre - wide / 2, centre + wide / 2)

    def _end(self, u: float, number: int, v0: float, v1: float) -> Spot:
        name = f"{self.letters[round(u, 4)]}{number}"
        return Spot(name, name, "end", u - self.face / 2, u + self.face / 2, v0, v1)


def _letter(index: int) -> str:
    """A, B, ... Z without I and O, then AA, AB, ..."""
    high, low = divmod(index, len(LETTERS))
    return (LETTERS[high - 1] if high else "") + LETTERS[low]


def _named(spots: list[Spot], job: Job, file: str) -> tuple[tuple[Spot, ...], list[Problem]]:
    """The spots with the crew's names; unknown and doubled names are problems."""
    grids = [s.grid for s in spots]
    problems = [
        Problem(file, f"names.{key}", value, "names a column that is not there.", nearest(key, grids))
        for key, value in job.names
        if key not in grids
    ]
    own = dict(job.names)
    named = tuple(Spot(own.get(s.grid, s.name), s.grid, s.role, s.u0, s.u1, s.v0, s.v1) for s in spots)
    seen: dict[str, Spot] = {}
    for spot in named:
        first = seen.get(in_capitals(spot.name), spot)
        if first.grid != spot.grid:
            mine, other = (spot, first) if spot.grid in own else (first, spot)
            wrong, right = f"is also the name of column {other.grid}.", "No two alike."
            if mine.name != other.name:
                wrong, right = f"is the name of column {other.grid} but for capitals.", UNLIKE
            problems.append(Problem(file, f"names.{mine.grid}", mine.name, wrong, right))
        seen[in_capitals(spot.name)] = spot
    names = [s.name for s in named]
    if job.grade.reference and job.grade.reference not in names:
        right = nearest(job.grade.reference, names)
        problems.append(Problem(file, "grade.reference", job.grade.reference, "is not a column.", right))
    return named, problems


def in_capitals(name: str) -> str:
    """A name as rods and tags set it: those that are alike there are one name."""
    return name.upper().casefold()


def _check(spots: tuple[Spot, ...], job: Job, inset: float, file: str) -> list[Problem]:
    """No column inside another, none outside the corners."""
    problems = []
    for place, key in (("building.front_columns", "1"), ("building.back_columns", None)):
        end = [s for s in spots if s.role == "end" and (s.v0 == 0.0) == (key == "1")]
        corners = [s for s in spots if s.role == "corner" and (s.v0 == 0.0) == (key == "1")]
        row = sorted([*end, *corners], key=lambda s: (s.u0, s.u1))
        wrong = [_clash(place, a, b, job, file) for a, b in pairwise(row) if b.u0 < a.u1 - 1e-6]
        wrong += [
            Problem(file, place, show((s.u0 + s.u1) / 2 + inset, job.style), "stands outside of the building.")
            for s in end
            if s.u0 < 0.0 or s.u1 > job.across + 1e-9
        ]
        problems += wrong or _near(row, place, job, inset, file)
    side = [s for s in spots if s.u0 == 0.0 and s.role != "end"]
    problems += [_clash("building.bays", a, b, job, file) for a, b in pairwise(side) if b.v0 < a.v1 - 1e-6]
    return problems


def _near(row: list[Spot], place: str, job: Job, inset: float, file: str) -> list[Problem]:
    """No bay of an endwall, told like those along the eaves, is shorter than these may be."""
    style, least = job.style, PARTS["building"].specs["bays"].least
    # a corner column, or one at a standing wall, counts from the building line
    stands = [
        0.0 if s.u0 <= 1e-6 else job.building.width if s.u1 >= job.across - 1e-6 else (s.u0 + s.u1) / 2 + inset
        for s in row
    ]
    return [
        Problem(
            file,
            place,
            f"{a.name} to {b.name}",
            f"makes a bay of {show(two - one, style)}.",
            f"At least {show(least, style, rounded=up)}.",
        )
        for (a, one), (b, two) in pairwise(zip(row, stands, strict=True))
        if two - one < least - 1e-6
    ]


def _clash(place: str, a: Spot, b: Spot, job: Job, file: str) -> Problem:
    wrong, right = f"puts columns {a.name} and {b.name} into each other.", "Move one of them."
    if place != "building.bays":
        right += " Each is measured from the building line at wall A, not from the one before."
    if a.name == b.name:  # in one place both have one grid line
        wrong = f"puts two columns at {show((a.u0 + a.u1) / 2 + job.inset, job.style)}."
    return Problem(file, place, "", wrong, right)


def _walls(spots: tuple[Spot, ...], grid: _Grid, across: float, along: float) -> tuple[WallLine, ...]:
    """The walls in walking order: left, back, right, front; a lean-to has none on its right."""
    last, number = grid.last_letter, grid.last_number
    walls: list[tuple[str, Side, float, list[Spot]]] = [
        ("A", "left", along, [s for s in spots if s.role != "end" and s.u0 == 0.0]),
        (str(number), "back", across, [s for s in spots if _at(s, across, along, back=True)]),
        (last, "right", along, [s for s in spots if s.role != "end" and s.u0 > 0.0]),
        ("1", "front", across, [s for s in spots if _at(s, across, along, back=False)]),
    ]
    lines = []
    for name, side, length, members in walls:
        if not members:
            continue
        line = WallLine(name, side, (), length)
        ordered = sorted(members, key=lambda s: line.along(s)[0])
        lines.append(WallLine(name, side, tuple(s.name for s in ordered), length))
    return tuple(lines)


def _at(spot: Spot, across: float, along: float, *, back: bool) -> bool:
    """Whether a spot stands in the back (or front) endwall."""
    return spot.role != "side" and (abs(spot.v1 - along) < 1e-6 if back else spot.v0 == 0.0)
