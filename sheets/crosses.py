"""The X of a board's mark: on the board's own side of its own line, and never beside another mark's line.

Beside its words an X is as large as the next line lets it be. Where lines stand too close for that their words are
flags: each X has a height of its own then, under the end of its own line, where every line beside it is broken.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from msgspec import Struct
from msgspec.structs import replace

from layouts.rods import Mark
from sheets.labels import CROSS, CUTS, PAD, Flag, Label, upper
from sheets.lanes import Lane

AIR = 0.03  # between a flag's line and its X
SIZE = 0.17  # of a flag's X, and the least beside words
AWAY, BESIDE = 0.15, 0.2  # from the X of a flag, and from one beside words, to any other line on its side
UNDER, OVER = 0.02, 0.015  # from an X to the end of its own line above it, and to that of the next one below it
LOW = {False: 0.09, True: CUTS + 0.14}  # where the X of a flag may begin in either band: above the hatched board
TOPS = {False: (0.30, 0.68), True: (CUTS + 0.38, CUTS + 0.80)}  # where lines end: above the X
DOT = 0.05  # a shorter piece between two gaps of a line is left out
SAME = 1e-9


class Box(Struct, frozen=True):
    """Where an X stands: *x0* to *x1* on the rod, *y0* to *y1* above the lower band's lower edge."""

    x0: float
    x1: float
    y0: float
    y1: float


class Stand(Struct, frozen=True):
    """Where the line of a flag ends, *top*, and where its X begins, *low*, and how large that is, *cross*."""

    top: float
    low: float
    cross: float


def way(mark: Mark) -> int:
    """On which side of its line a mark's board lies: 1 up the rod, -1 down, 0 for what is no board."""
    return 0 if mark.kind != "board" else -1 if mark.edge == "top" else 1


def box(label: Label) -> Box | None:
    """The X of a label, if its mark is a board's."""
    side, at = way(label.mark), label.mark.station
    if not side:
        return None
    size, off = (label.flag.cross, AIR) if label.flag else (label.cross, PAD)
    low = label.flag.low if label.flag else (CUTS if upper(label.mark) else 0.0) + 0.28
    a, b = sorted((at + side * off, at + side * (off + size)))
    return Box(a, b, low, low + size)


def sized(labels: Sequence[Label], lane: Lane) -> tuple[Label, ...]:
    """*labels* of a lane with each X beside words as large as set lines and other marks' lines let it be."""
    return tuple(v if v.flag or not way(v.mark) else replace(v, cross=_size(v, labels, lane)) for v in labels)


def _size(label: Label, labels: Sequence[Label], lane: Lane) -> float:
    side, at = way(label.mark), label.mark.station
    joint = lane.end if side > 0 else lane.start
    rooms = [CROSS]
    if (joint - at) * side > SAME:
        rooms.append((joint - at) * side - PAD - BESIDE)
    for other in labels:
        gap = (other.mark.station - at) * side
        if gap > SAME and upper(other.mark) == upper(label.mark):
            # two boards that reach towards each other share what is between their lines
            rooms.append(gap / 2 - PAD - BESIDE / 2 if way(other.mark) == -side else gap - PAD - BESIDE)
    return min(rooms)


def astray(label: Label, other: Label) -> bool:
    """Whether the X of *label*, as large as it has to be, stands beside the line of *other* or in its X."""
    side = way(label.mark)
    gap = (other.mark.station - label.mark.station) * side
    facing = way(other.mark) == -side
    if not side or gap < -SAME:
        return False
    if gap <= SAME:
        return not facing and _touch(label, other)  # one line, one X for both or none in the other
    if label.flag is None:
        return gap < (2 * (PAD + SIZE) + BESIDE if facing else PAD + SIZE + BESIDE)
    reach = AIR + label.flag.cross + AWAY
    return (gap < reach and _drawn(label, other)) or (gap < reach + AIR + SIZE and _touch(label, other))


def _touch(label: Label, other: Label) -> bool:
    """Whether two Xs lie in one another without being one."""
    a, b = box(label), box(other)
    if not a or not b or a == b:
        return False
    return min(a.x1, b.x1) > max(a.x0, b.x0) and min(a.y1, b.y1) > max(a.y0, b.y0)


def _drawn(label: Label, other: Label) -> bool:
    """Whether the line of *other* is drawn at the height of the X of *label*."""
    own = box(label)
    if not own or not other.flag:
        return True
    return other.flag.top > own.y0 and not any(a <= own.y0 and own.y1 <= b for a, b in other.flag.gaps)


# --- flags -----------------------------------------------------------------------------------------------------------


def stands(left: Sequence[Mark], right: Sequence[Mark], band: bool) -> dict[Mark, Stand]:
    """Heights of the lines and the Xs of marks whose words are flags to their *left* and *right*, in this *band*. The
    tallest line of a side is the farthest from its words."""
    sides = [list(left), list(reversed(right))]  # from the words on: shortest first
    high, low = TOPS[band][1], LOW[band]
    if not _crowded([*left, *right]):
        found: dict[Mark, Stand] = {}
        for side in sides:
            step = (high - TOPS[band][0]) / max(len(side) - 1, 1)
            found |= {m: Stand(high - i * step, low, SIZE) for i, m in enumerate(reversed(side))}
        return found
    # no two of all end at one height: the shortest of either side come first, then the next
    order = [mark for both in zip_longest(*sides) for mark in both if mark]
    step = (high - low) / len(order)
    cross = min(SIZE, step - UNDER - OVER)
    tops = ((mark, low + step * k) for k, mark in enumerate(order, 1))
    return {mark: Stand(top, top - UNDER - cross, cross) for mark, top in tops}


def _crowded(marks: Sequence[Mark]) -> bool:
    """Whether the X of a flag, as large as it is to be, stands too near another line, or at a line that is shared by
    a mark which it is not meant for."""
    reach = AIR + SIZE + AWAY
    for mark in marks:
        for other in marks:
            gap = (other.station - mark.station) * way(mark)
            shared = abs(gap) <= SAME and way(other) != way(mark)
            facing = AIR + SIZE if way(other) == -way(mark) else 0.0
            if way(mark) and other is not mark and (shared or SAME < gap < reach + facing):
                return True
    return False


def gaps(mark: Mark, found: dict[Mark, Stand]) -> tuple[tuple[float, float], ...]:
    """Where the line of *mark* is broken: beside the X of every other mark that stands near it."""
    return tuple(sorted(_beside(mark, found)))


def _beside(mark: Mark, found: dict[Mark, Stand]) -> Iterator[tuple[float, float]]:
    for other, stand in found.items():
        gap = (mark.station - other.station) * way(other)
        near = abs(gap) > SAME and -AWAY < gap < AIR + stand.cross + AWAY
        if way(other) and near and found[mark].top > stand.low:
            yield stand.low - OVER / 2, stand.low + stand.cross + OVER / 2


def pieces(flag: Flag, low: float) -> Iterator[tuple[float, float]]:
    """What is drawn of the line of a *flag* from *low* up, heights above the lower band's lower edge: no dots."""
    for a, b in flag.gaps:
        if a > low + DOT:
            yield low, a
        low = max(low, b)
    yield low, flag.top
