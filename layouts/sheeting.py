"""What a sheet is, how a stretch is parted into strips and a run into sheets that lap, and what to order.

Inches. Along a wall *x* runs from the outside of its left corner column as seen from outside, and *y* is a station;
on a slope *x* runs from the outside of the front columns to the back, and *y* up the slope from the sheets' lower edge.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from msgspec import Struct

from layouts.openings import Opening

SAME = 1e-6

Kind = Literal["wall", "lower wall", "roof"]
KINDS: tuple[Kind, ...] = ("wall", "lower wall", "roof")
Point = tuple[float, float]
Strip = tuple[float, float]


class Sheet(Struct, frozen=True):
    """One sheet. *number* counts them as they are set, *part* letters those of one strip from the bottom up where they
    are several. *left* and *right* are its cover edges, *low* its bottom edge; *top* its upper edge from left to right;
    *order* the length to order; *where* what opening it stands over or under."""

    number: int
    part: str
    kind: Kind
    left: float
    right: float
    low: float
    top: tuple[Point, ...]
    order: float
    where: str = ""

    @property
    def name(self) -> str:
        """Number and letter."""
        return f"{self.number}{self.part}"

    @property
    def length(self) -> float:
        """Its long edge."""
        return max(y for _, y in self.top) - self.low

    def over(self, x: float) -> float:
        """How long it is at *x*; nothing where a slope ends before it."""
        for (x0, y0), (x1, y1) in pairwise(self.top):
            if x0 - SAME <= x <= x1 + SAME:
                return y0 + (y1 - y0) * (x - x0) / (x1 - x0) - self.low
        return 0.0

    @property
    def edges(self) -> tuple[float, float]:
        """Lengths of its left and its right edge."""
        return self.over(self.left), self.over(self.right)

    @property
    def outline(self) -> tuple[Point, ...]:
        """Its corners, along the upper edge from the left and back along what there is of the lower one."""
        low = [(x, self.low) for x in (self.right, self.left) if self.over(x) > SAME]
        return (*self.top, *low)

    @property
    def wide(self) -> float:
        """What it covers across."""
        return self.right - self.left


class Face(Struct, frozen=True):
    """A wall or a slope with its sheets. *side* is that of the wall, or of the slope's eave; *begin* the end that the
    first one is set at, ``middle`` where joints are counted from there; *slope* the pitch of a roof, 0 of a wall;
    *laps* the middles of end laps and what they lie over, ``""`` where nothing does; *notes* what to look at."""

    name: str
    side: str
    roof: bool
    left: float
    right: float
    cover: float
    begin: str
    slope: float
    sheets: tuple[Sheet, ...]
    laps: tuple[tuple[float, str], ...]
    openings: tuple[Opening, ...]
    notes: tuple[str, ...]

    @property
    def first(self) -> float:
        """How wide the first strip is."""
        return self.sheets[0].wide

    @property
    def last(self) -> float:
        """How wide the last one is."""
        return self.sheets[-1].wide


def order(faces: Sequence[Face]) -> tuple[tuple[Kind, float, int], ...]:
    """What to order: kind of sheet, length and count, longest first."""
    found = Counter((s.kind, round(s.order, 9)) for face in faces for s in face.sheets)
    return tuple((kind, long, n) for (kind, long), n in sorted(found.items(), key=_longest_first))


def _longest_first(item: tuple[tuple[Kind, float], int]) -> tuple[int, float]:
    (kind, long), _ = item
    return KINDS.index(kind), -long


def strips(left: float, right: float, cover: float, start: str, cut: float) -> list[Strip]:
    """The strips that sheets of a *cover* make of a wall, as they are set: from an end, its first one narrower by
    *cut*; from the middle, a joint *cut* right of it, counted from the left."""
    if start == "middle":
        joint = (left + right) / 2 + cut
        first = joint - math.floor((joint - left) / cover + SAME) * cover
    elif start == "right":
        turned = strips(-right, -left, cover, "left", cut)
        return [(-b, -a) for a, b in turned]
    else:
        first = left + cover - cut
    joints = [first + i * cover for i in range(math.ceil((right - first) / cover) + 1)]
    inner = [x for x in joints if left + SAME < x < right - SAME]
    return list(pairwise((left, *inner, right)))


def lettered(count: int) -> list[str]:
    """The letters of the sheets of one strip; none where there is one."""
    return [chr(ord("a") + i) for i in range(count)] if count > 1 else [""] * count


def parted(
    start: float, end: float, stops: Sequence[float], longest: float, lap: float
) -> tuple[list[Strip], list[tuple[float, bool]]]:
    """A run in sheets no longer than *longest*, each as long as a stop under its end lap lets it be; and the middles of
    the laps, with whether there is a stop under them."""
    found: list[Strip] = []
    laps: list[tuple[float, bool]] = []
    at = start
    while end - at > longest + SAME:
        reach = at + longest - lap / 2
        middle = max((s for s in stops if at + lap * 1.5 < s <= reach + SAME), default=reach)
        laps.append((middle, middle in stops))
        found.append((at, middle + lap / 2))
        at = middle - lap / 2
    return [*found, (at, end)], laps
