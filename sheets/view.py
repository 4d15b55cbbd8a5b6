"""Where a wall lies on its page: the scale, the stretch a page shows, and how long walls are parted."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from layouts.boards import Wall
from sheets.shapes import Point

LEAST_SCALE = 1 / 84  # one inch for seven feet: smaller is not read at arm's length


class View(Struct, frozen=True):
    """Wall places and stations on the page: *x0* is where the left corner of the columns would stand, *y0* the grade
    line, *scale* page inches for an inch of wall; *low* to *high* is the stretch that this page shows. Words keep
    between *left* and *right* and under *top*; *foot* is the lowest column bottom; type is *larger* so many times."""

    x0: float
    y0: float
    scale: float
    low: float
    high: float
    left: float
    right: float
    top: float
    foot: float
    larger: float = 1.0

    def at(self, place: float, station: float) -> Point:
        """A place of the wall on the page."""
        return self.x0 + place * self.scale, self.y0 + station * self.scale

    def clipped(self, a: float, b: float) -> tuple[float, float] | None:
        """The part of a stretch that this page shows."""
        low, high = max(a, self.low), min(b, self.high)
        return (low, high) if high - low > 1e-6 else None


def span(wall: Wall) -> tuple[float, float]:
    """From the first to the last thing on the wall, run-past boards included."""
    ends = [(p.low, p.high) for course in wall.courses for p in course.pieces]
    low = min((min(low[0], high[0]) for low, high in ends), default=0.0)
    high = max((max(low[1], high[1]) for low, high in ends), default=0.0)
    over = max(wall.past, wall.grade_past)
    return min(-over, low), max(wall.line.length + over, high)


def windows(wall: Wall, room: float, scale: float = 1.0) -> list[tuple[float, float]]:
    """Stretches of the wall for one page each, parted at columns: as few as *room* inches of page take at the least
    scale, or at *scale* if that is smaller, and then as even as the columns let them be."""
    low, high = span(wall)
    stops = [s.centre for s in wall.stands[1:-1]]
    most = room / min(LEAST_SCALE, scale)
    found = parted(low, high, stops, most)
    short, long = (high - low) / len(found), most
    for _ in range(20):
        middle = (short + long) / 2
        tried = parted(low, high, stops, middle)
        if len(tried) == len(found) and max(b - a for a, b in tried) <= middle + 1e-9:
            found, long = tried, middle
        else:
            short = middle
    return found


def parted(low: float, high: float, stops: Sequence[float], most: float) -> list[tuple[float, float]]:
    """[low, high] in parts of at most *most*, each as long as the *stops* let it be; where no stop is in reach a part
    ends without one."""
    parts = []
    while high - low > most + 1e-9:
        end = max((s for s in stops if low + 1e-6 < s <= low + most), default=low + most)
        parts.append((low, end))
        low = end
    return [*parts, (low, high)]


def even(scale: float, metric: bool) -> float:
    """The next smaller scale that can be said: half feet to the inch, or a ratio in fives."""
    step = 5 if metric else 6
    return 1 / (math.ceil(1 / scale / step - 1e-9) * step)


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Ascending places at least *gap* apart between *low* and *high*, each near its wanted one; where they do not all
    go they stand closer, evenly."""
    places = list(wanted)
    if not places:
        return places
    gap = min(gap, (high - low) / max(len(places) - 1, 1))
    places[0] = max(places[0], low)
    for i in range(1, len(places)):
        places[i] = max(places[i], places[i - 1] + gap)
    places[-1] = min(places[-1], high)
    for i in range(len(places) - 2, -1, -1):
        places[i] = min(places[i], places[i + 1] - gap)
    return places
