"""Break a rod into lanes that a page can hold.

Each lane runs from one set line to the next; set lines stand on whole numbers of the tape. No mark or footprint edge
may come near one; words, and very short lanes, only where there is no other way. All lawful ways are weighed, from the
rod's end back to its foot, so what comes before never leads into a corner.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

CLEAR = 0.5  # inches from a joint to the nearest mark
LIGHT = 0.02  # share of a label that words cost which go to the other side
SHORT = 0.5  # share of a label that a lane of no length is worth
HAIR = 1e-9


class Lane(Struct, frozen=True):
    """Lane *number* of a rod: tape numbers *start* and *end*, inches. The last one ends with the
    rod, on a number too."""

    number: int
    start: float
    end: float
    last: bool


Stretch = tuple[float, float]  # from, to; of words from the end that is tied to their mark to the far end


def break_up(
    length: float,
    most: float,
    step: float,
    hard: Sequence[Stretch],
    soft: Sequence[Stretch] = (),
    least: float = 0.0,
    each: float = 0.0,
    light: Sequence[Stretch] = (),
) -> tuple[Lane, ...]:
    """Lanes of a rod *length* inches long, none longer than *most*, set lines on multiples of *step*.

    *hard* stretches (a mark with its clearance) never hold a set line; *soft* ones (words) lose as little as can be to
    one, weighed against lanes shorter than *least* and against *each* lane, in shares of a label; *light* ones
    (words that can go to the other side of their mark) cost next to nothing. Among what is left,
    the fewest lanes; among those the longest first. ``ValueError`` where not even marks can be spared.
    """
    places = [n * step for n in range(1, math.ceil(length / step - HAIR)) if not _inside(n * step, hard)]
    stops = [0.0, *places, length]
    marred = [round(_lost(place, soft) + LIGHT * _held(place, light), 6) for place in stops[:-1]] + [0.0]
    best: list[tuple[float, int] | None] = [None] * len(stops)
    follow = [0] * len(stops)
    best[-1] = (0.0, 0)
    for i in range(len(stops) - 2, -1, -1):
        for j in range(i + 1, len(stops)):
            if stops[j] - stops[i] > most + HAIR:
                break
            after = best[j]
            if after is None:
                continue
            cost = (round(after[0] + marred[j] + _short(stops[j] - stops[i], least) + each, 6), after[1] + 1)
            known = best[i]
            if known is None or cost <= known:
                best[i], follow[i] = cost, j
    if best[0] is None:
        reached = _reach(stops, most)
        raise ValueError(f"no place for a joint between {reached:g} and {reached + most:g} in")
    return _lanes(stops, follow)


def _lanes(stops: Sequence[float], follow: Sequence[int]) -> tuple[Lane, ...]:
    lanes: list[Lane] = []
    i = 0
    while i < len(stops) - 1:
        j = follow[i]
        lanes.append(Lane(len(lanes) + 1, stops[i], stops[j], j == len(stops) - 1))
        i = j
    return tuple(lanes)


def _inside(place: float, taken: Sequence[Stretch]) -> bool:
    return any(a + HAIR < place < b - HAIR for a, b in taken)


def _held(place: float, words: Sequence[Stretch]) -> int:
    """How many of *words* a set line at *place* sends to the other side of their mark."""
    return sum(min(a, b) + HAIR < place < max(a, b) - HAIR for a, b in words)


def _short(long: float, least: float) -> float:
    """What a short lane costs: the words it saves must be worth it."""
    return SHORT * (1 - long / least) if long < least - HAIR else 0.0


def _lost(place: float, words: Sequence[Stretch]) -> float:
    """The shares that words lose to a set line at *place*."""
    shares = ((far - place) / (far - tied) for tied, far in words)
    return sum(share for share in shares if HAIR < share < 1 - HAIR)


def _reach(stops: Sequence[float], most: float) -> float:
    """The farthest stop that lanes lead to from the foot."""
    reached = stops[0]
    for stop in stops[1:]:
        if stop - reached <= most + HAIR:
            reached = stop
    return reached
