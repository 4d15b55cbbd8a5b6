"""Break a rod into lanes that a page can hold.

Each lane runs from one set line to the next; set lines stand on whole numbers of the tape. No mark, footprint edge or
label may come near one. The farthest lawful set line is always taken: whether a place is lawful does not depend on
what came before, so that gives the fewest lanes.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

CLEAR = 0.5  # inches from a joint to the nearest mark


@dataclass(frozen=True)
class Lane:
    """Lane *number* of a rod: tape numbers *start* and *end*, inches. The last one ends with the rod."""

    number: int
    start: float
    end: float
    last: bool


Stretch = tuple[float, float]


def break_up(
    length: float, most: float, step: float, hard: Sequence[Stretch], soft: Sequence[Stretch] = ()
) -> tuple[Lane, ...]:
    """Lanes of a rod *length* inches long, none longer than *most*, set lines on multiples of *step*.

    *hard* stretches (a mark with its clearance) never hold a set line; *soft* ones (a label) only where there is no
    other way. ``ValueError`` where not even that leaves a place.
    """
    lanes: list[Lane] = []
    start = 0.0
    while length - start > most + 1e-9:
        end = _farthest(start, most, step, (*hard, *soft)) or _farthest(start, most, step, hard)
        if end is None:
            raise ValueError(f"no place for a joint between {start:g} and {start + most:g} in")
        lanes.append(Lane(len(lanes) + 1, start, end, False))
        start = end
    lanes.append(Lane(len(lanes) + 1, start, length, True))
    return tuple(lanes)


def _farthest(start: float, most: float, step: float, taken: Sequence[Stretch]) -> float | None:
    """The farthest multiple of *step* after *start* that no stretch holds."""
    n = math.floor((start + most) / step + 1e-9)
    while n * step > start + step / 2:
        place = n * step
        if not any(a + 1e-9 < place < b - 1e-9 for a, b in taken):
            return place
        n -= 1
    return None
