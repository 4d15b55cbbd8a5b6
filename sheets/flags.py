"""Flags: words of marks that stand too close for words of their own beside each.

The lines of such marks end at different heights, and from each top a leader goes off to its words, which stand one
over the other on one side of all of them, or some of them on either side (see ``sheets.flag_rooms``). Here is told
which marks need that: on a rod in one piece, so that joints keep clear of them, and again on each lane as it came out.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import pairwise

from layouts.lengths import Style
from layouts.rods import Mark, Rod
from sheets.crosses import AIR, astray, sized
from sheets.flag_rooms import Span, board, in_other, laid, line_and_words, reach
from sheets.labels import BIG, CROSS, PAD, Label, bounds, kept, placed, upper
from sheets.lanes import Lane
from sheets.lettering import pt

CRAMPED = 0.6  # under this share words beside their mark become a flag
SMALL = pt(16)  # under this size a flag's words take in a neighbour's, if all have more room together
TINY = pt(9)  # under this size nobody reads a station
NEAR, FAR = 2.0, 6.0  # inches: no further off is a neighbour, for small words and for tiny ones
TOUCH = 0.005


def label_all(rod: Rod, style: Style, extent: float) -> tuple[Label, ...]:
    """Where every mark's words go on a rod in one piece. Close marks and their words are kept to a stretch of *extent*
    inches, so that one lane holds them."""
    return settled(placed(rod, style), PAD, rod.length - PAD, style, extent)


def on_lane(labels: Sequence[Label], lane: Lane, style: Style) -> tuple[Label, ...]:
    """The labels of the marks on *lane*, as they fit on it."""
    low, high = bounds(lane)
    found, beyond = [], []
    for label in labels:
        at = label.mark.station
        if not (lane.start - 1e-9 <= at and (at < lane.end - 1e-9 or lane.last)):
            beyond.append(label.mark)
        elif label.flag is None:
            found.append(kept(label, lane))
        elif low - 1e-9 <= min(reach(label)) and max(reach(label)) <= high + 1e-9:
            found.append(label)
        else:
            found.append(Label(label.mark, at, at, 0.0))  # to be laid anew
    return sized(settled(found, low, high, style, lane.end - lane.start, beyond), lane)


def settled(
    labels: Iterable[Label], low: float, high: float, style: Style, extent: float, beyond: Sequence[Mark] = ()
) -> tuple[Label, ...]:
    """*labels* with flags for all that lie in one another, between *low* and *high* on the rod. The boards of marks
    *beyond* may reach in."""
    known = sorted(labels, key=_station)
    bands = {band: [v for v in known if upper(v.mark) == band] for band in (True, False)}
    for band in bands:
        units, done = _units(bands[band]), set[tuple[Mark, ...]]()
        others = [s for v in bands[not band] for s in in_other(v)]
        others += [board(mark) for mark in beyond if upper(mark) != band]
        # hatches of the upper band's boards stand between the bands
        others += [board(mark) for mark in (*beyond, *(v.mark for v in bands[band])) if band and upper(mark)]
        while (found := _next(units, others, done)) is not None:
            first, last, must = found
            old = sorted((v for unit in units[first : last + 1] for v in unit), key=_station)
            own = [v for i, unit in enumerate(units) if not first <= i <= last for v in unit]
            own += [v for v in bands[not band] if v.flag and v.flag.tall]
            made = laid(old, ([line_and_words(v) for v in own], others), (low, high), style, extent)
            done.add(_marks(made))
            if must or made[0].scale > min(v.scale for v in old):
                units[first : last + 1] = [sorted(made, key=_station)]
        bands[band] = [v for unit in units for v in unit]
    return tuple(v for band in bands.values() for v in sorted(band, key=_station))


def _station(label: Label) -> float:
    return label.mark.station


def _marks(unit: Iterable[Label]) -> tuple[Mark, ...]:
    return tuple(sorted((v.mark for v in unit), key=lambda mark: (mark.station, mark.name)))


# --- which marks -----------------------------------------------------------------------------------------------------


def _units(labels: Sequence[Label]) -> list[list[Label]]:
    """Each label by itself; flags that stand off one stretch together, and neighbours whose words stand nowhere."""
    units: list[list[Label]] = []
    for label in labels:
        before = units[-1][-1] if units else None
        lost = before and label.scale == before.scale == 0.0 and label.mark.station - before.mark.station < NEAR
        flags = before and label.flag and before.flag and reach(label)[0] < reach(before)[1]
        if lost or flags:
            units[-1].append(label)
        else:
            units.append([label])
    return units


def _next(
    units: Sequence[Sequence[Label]], others: Sequence[Span], done: Collection[tuple[Mark, ...]]
) -> tuple[int, int, bool] | None:
    """Units whose words have to be laid (again), or may be if they become larger: numbers of the first and the last,
    and whether they must. *others* is what the other band takes; what is *done* is not tried again."""
    for i, (a, b) in enumerate(pairwise(units)):
        if any(_clash(v, w) for v in a for w in b):
            return i, i + 1, True
    for i, unit in enumerate(units):
        if _marks(unit) not in done and (_cramped(unit) or _in_the_way(unit, others)):
            return i, i, True
    for i, (a, b) in enumerate(pairwise(units)):
        small = min((v.scale * BIG for v in (*a, *b) if v.flag), default=BIG)
        near = NEAR if small >= TINY else FAR
        if small < SMALL - 1e-9 and _apart(a, b) < near and _marks((*a, *b)) not in done:
            return i, i + 1, False
    return None


def _cramped(unit: Sequence[Label]) -> bool:
    """Whether a mark has too little room for words beside it."""
    return unit[0].flag is None and unit[0].scale < CRAMPED


def _in_the_way(unit: Sequence[Label], others: Sequence[Span]) -> bool:
    """Whether flags in both bands meet what the other one holds."""
    words = [(min(v.x0, v.flag.turn), max(v.x1, v.flag.turn)) for v in unit if v.flag and v.flag.tall]
    return any(min(b, d) - max(a, c) > 0.005 for a, b in words for c, d in others)


def _apart(a: Sequence[Label], b: Sequence[Label]) -> float:
    """Inches between the marks of two units."""
    stations = sorted((a[0].mark.station, a[-1].mark.station, b[0].mark.station, b[-1].mark.station))
    return stations[2] - stations[1]


def _clash(a: Label, b: Label) -> bool:
    """Whether words of one band lie in one another, one's line or X in the other's words, or one's X beside the other's
    line."""
    if astray(a, b) or astray(b, a) or min(a.x1, b.x1) - max(a.x0, b.x0) > TOUCH:
        return True
    return any(min(v.x1, high) - max(v.x0, low) > TOUCH for v, w in ((a, b), (b, a)) for low, high in [_line_and_x(w)])


def _line_and_x(label: Label) -> Span:
    """A mark's line with its X, and a hair on its other side."""
    at, hair = label.mark.station, 2 * TOUCH
    x = 0.0 if label.mark.kind != "board" else AIR + label.flag.cross if label.flag else PAD + CROSS
    return (at - max(x, hair), at + hair) if label.mark.edge == "top" else (at - hair, at + max(x, hair))
