"""Rows of boards made ready for planning: where each may break, and what every piece from there costs.

All lengths are inches. Waste is counted in whole millionths of an inch, so equal plans tie exactly.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from msgspec import Struct

SAME = 1e-6  # inches: positions nearer than this are one position
# One whole number holds the three-part cost: waste < 2**52 millionths of an inch, pieces < 2**32.
PIECE = 1 << 52
SHARED = 1 << 84

Joints = tuple[int, ...]  # positions in Track.points
Hop = tuple[int, int]  # next point, cost of the piece up to it


class NoJoint(ValueError):
    """From `start` to `end` (inches along the wall) no column stands, and it is over the longest stock; `along` is how
    long a nailer along the slope would have to be there."""

    wall = ""  # which side of the building, where that is known

    def __init__(self, start: float, end: float, longest: float, along: float | None = None) -> None:
        self.start, self.end, self.longest, self.along = start, end, longest, along
        super().__init__(f"no column from {start:g} to {end:g} in, and the longest stock is {longest:g} in")


class Row(Struct, frozen=True):
    """One row along the wall, inches. Raises ValueError for a row that cannot be built."""

    start: float
    end: float
    supports: tuple[float, ...]  # column centres, ascending; those strictly inside may carry a joint
    stock: tuple[float, ...]  # stock lengths, ascending
    gaps: tuple[tuple[float, float], ...] = ()  # stretches without a board, ascending, apart, inside the row

    def __post_init__(self) -> None:
        finite = all(map(math.isfinite, (self.start, self.end, *self.supports, *self.stock)))
        ascending = all(a <= b for run in (self.supports, self.stock) for a, b in pairwise(run))
        if not (finite and ascending and self.end > self.start + SAME and self.stock and self.stock[0] > 0):
            raise ValueError(f"a row needs an end past its start and ascending columns and stock: {self}")
        edges = (self.start, *(at for gap in self.gaps for at in gap), self.end)
        if not all(map(math.isfinite, edges)) or any(b - a <= SAME for a, b in pairwise(edges)):
            raise ValueError(f"the gaps of a row stand inside it, in order and apart: {self}")


class Track(Struct, frozen=True, eq=False):
    """A row ready for planning. Its points are its start, its inner columns, the edges of its gaps and its end."""

    points: tuple[float, ...]
    solid: tuple[bool, ...]  # whether a point can be a joint: the edge of a gap is none
    ranks: tuple[int, ...]  # of each point among all points of the wall
    hops: tuple[tuple[Hop, ...], ...]  # from each point, farthest first

    @property
    def last(self) -> int:
        """The number of its last point, its end."""
        return len(self.points) - 1

    def at(self, joints: Joints) -> tuple[float, ...]:
        """Where the joints are along the wall, inches; the edges of gaps are none."""
        return tuple(self.points[j] for j in joints if self.solid[j])

    def broken(self, joints: Joints) -> set[int]:
        """Ranks of the joints."""
        return {self.ranks[j] for j in joints if self.solid[j]}


def _points(row: Row) -> tuple[tuple[float, ...], tuple[bool, ...]]:
    """All points, and which of them can be joints; stretches without a board have no column that counts."""
    found = [(row.start, True)]
    gaps = [*row.gaps, (row.end, row.end)]
    for start, end in gaps:
        inner = (at for at in row.supports if found[-1][0] + SAME < at < start - SAME)
        found += [(at, True) for at in inner]
        found += [(start, False), (end, False)] if end > start else [(end, True)]
    points: list[tuple[float, bool]] = []
    for at in found:
        if not points or at[0] > points[-1][0] + SAME:
            points.append(at)
    return tuple(at for at, _ in points), tuple(solid for _, solid in points)


def _rank(groups: Iterable[Iterable[float]]) -> dict[float, int]:
    """Rank of every position; positions within SAME of each other get one rank."""
    rank: dict[float, int] = {}
    first, now = -math.inf, -1
    for at in sorted({at for group in groups for at in group}):
        if at > first + SAME:
            first, now = at, now + 1
        rank[at] = now
    return rank


def _track(row: Row, rank: Mapping[float, int]) -> Track:
    points, solid = _points(row)
    over = {gap[0]: gap[1] for gap in row.gaps}
    hops: list[tuple[Hop, ...]] = []
    for a, left in enumerate(points):
        reach = []
        if left in over:
            hops.append(((a + 1, 0),))  # nothing to nail from here to the gap's other edge
            continue
        for b in range(a + 1, len(points)):
            piece = points[b] - left
            if piece > row.stock[-1] + SAME:
                break
            held_by = row.stock[bisect_left(row.stock, piece - SAME)]
            reach.append((b, PIECE + round(max(0.0, held_by - piece) * 1e6)))
            if points[b] in over:
                break
        if not reach and a < len(points) - 1:
            raise NoJoint(left, points[a + 1], row.stock[-1])
        hops.append(tuple(reversed(reach)))
    return Track(points, solid, tuple(rank[at] for at in points), tuple(hops))


def ready(rows: Sequence[Row], others: Iterable[float] = ()) -> tuple[list[Track], dict[float, int]]:
    """One track per row (like rows are given the very same track), and the rank of every position."""
    kinds = dict.fromkeys(rows)
    rank = _rank([*(_points(row)[0] for row in kinds), others])
    made = {row: _track(row, rank) for row in kinds}
    return [made[row] for row in rows], rank
