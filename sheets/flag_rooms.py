"""Where flags stand: the words of marks that stand close, in rows on one side of their lines or on both.

The tallest line is the farthest from its words, so no leader crosses another mark's line (heights: ``sheets.crosses``).
Words take both bands of the strip where the other one is free.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

import fonts
from layouts.lengths import Style
from layouts.rods import Mark
from sheets.crosses import Stand, gaps, stands
from sheets.labels import BIG, CROSS, CUTS, NAME, PAD, READ, Flag, Label, name_text, station_text, upper
from sheets.lettering import width

Span = tuple[float, float]

FAN = 0.3  # inches along the rod in which leaders go from their heights to those of the words
SIDE = 0.25  # inches kept for an X beside the outermost lines
INK, ABOVE = 1.06, 0.88  # of a row, in em: its height with stacked fractions, and that above the baseline
ROW = 1.16  # em from row to row
SHARE = 0.72  # of a station's size, for the name after it
UP = {False: (0.075, 0.70), True: (CUTS + 0.13, CUTS + 0.82)}  # where rows stand in either band, and in both:
BOTH = (0.075, CUTS + 0.82)


class _Room(Struct, frozen=True):
    """Where rows may stand: *left* to *right* on the rod, *low* to *high* on the strip; *tall* in both bands."""

    left: float
    right: float
    low: float
    high: float
    tall: bool


class _Rows(Struct, frozen=True):
    """Words of *group* in a *room*, in *size*; to the *right* of its lines, or to their left."""

    group: Sequence[Label]
    room: _Room
    size: float
    right: bool


def reach(label: Label) -> Span:
    """From the mark to the far end of its words, or the other way round."""
    at = label.mark.station
    return min(at, label.x0), max(at, label.x1)


def laid(
    group: Sequence[Label], taken: tuple[Sequence[Span], Sequence[Span]], ends: Span, style: Style, extent: float
) -> list[Label]:
    """*group* with flags beside what is *taken* of its own band and of the other one: all to one side, or half to
    either, whichever is read best."""
    band = upper(group[0].mark)
    first, last = group[0].mark.station, group[-1].mark.station
    middle = (first + last) / 2
    ways: list[list[_Rows]] = []
    for n in range(len(group) + 1):
        span = (last - extent, first + extent) if n in (0, len(group)) else (middle - extent / 2, middle + extent / 2)
        within = max(ends[0], span[0]), min(ends[1], span[1])
        sides = [(group[:n], False), (group[n:], True)]
        ways.append([_best(part, group, right, band, taken, within, style) for part, right in sides if part])
    # as large as is read at arm's length, then as short as can be
    best = max(
        ways,
        key=lambda way: (round(min(*(min(r.size, READ * BIG) for r in way), BIG), 4), -sum(r.room.tall for r in way)),
    )
    marks = {side: [v.mark for rows in best if rows.right == side for v in rows.group] for side in (False, True)}
    found = stands(marks[False], marks[True], band)
    return [label for rows in best for label in _set(rows, found, style)]


def line_and_words(label: Label) -> Span:
    """What a label takes of its own band."""
    low, high = reach(label)
    at, x = label.mark.station, CROSS + 2 * PAD
    return min(low, at - (x if label.mark.edge == "top" else PAD)), max(
        high, at + (x if label.mark.edge == "bottom" else PAD)
    )


def in_other(label: Label) -> Iterator[Span]:
    """What a label of the other band takes of that band: its line, words and board."""
    yield line_and_words(label)
    yield board(label.mark)


def board(mark: Mark) -> Span:
    """What a mark's board takes."""
    return mark.low - PAD, mark.high + PAD


def _best(
    part: Sequence[Label],
    group: Sequence[Label],
    right: bool,
    band: bool,
    taken: tuple[Sequence[Span], Sequence[Span]],
    within: Span,
    style: Style,
) -> _Rows:
    """The words of *part* of a *group*, to its *right* or left, where they are largest; then in one band; then near."""
    found = [_Rows(part, room, _size(part, room, style), right) for room in _rooms(group, right, band, *taken, within)]

    def good(rows: _Rows) -> tuple[float, bool, float]:
        near = rows.room.left if right else -rows.room.right
        return round(min(rows.size, READ * BIG), 4), not rows.room.tall, -near

    return max(found, key=good)


def _rooms(
    group: Sequence[Label], right: bool, band: bool, own: Sequence[Span], other: Sequence[Span], within: Span
) -> list[_Room]:
    """Where the words of *group* may go: in their own band, and where both are free."""
    if right:
        last = group[-1].mark.station
        a, b = last + SIDE, min([within[1], *(low - PAD for low, high in own if high > last)])
    else:
        first = group[0].mark.station
        a, b = max([within[0], *(high + PAD for low, high in own if low < first)]), first - SIDE
    rooms = []
    free = [(a, b, False), *((low, high, True) for low, high in _free(other, a, b))]
    for low, high, tall in free:
        ends = (low + FAN, high) if right else (low, high - FAN)
        rooms.append(_Room(*ends, *(BOTH if tall else UP[band]), tall))
    return rooms


def _free(taken: Sequence[Span], low: float, high: float) -> Iterator[Span]:
    """What *taken* spans leave of a stretch."""
    for a, b in sorted(taken):
        if min(a, high) - low > FAN:
            yield low, min(a, high)
        low = max(low, b)
    if high - low > FAN:
        yield low, high


def _size(part: Sequence[Label], room: _Room, style: Style) -> float:
    """How large the words of *part* are in a room; nothing where there is none."""
    across = max(room.right - room.left, 0.0)
    return min((room.high - room.low) / len(part) / ROW, BIG, *(_fit(v.mark, across, style) for v in part))


def _fit(mark: Mark, across: float, style: Style) -> float:
    """The size in which a mark's words take *across* inches: names stay at ``NAME`` while stations grow."""
    station = width(station_text(mark, style), 1.0, fonts.BOLD) + between(1.0)
    name = width(name_text(mark), 1.0, fonts.BOLD)
    large = (across - name * NAME) / station
    return large if large >= NAME / SHARE else across / (station + SHARE * name)


def name_size(size: float) -> float:
    """The size of a name beside a station of *size*."""
    return min(NAME, SHARE * size)


def between(size: float) -> float:
    """Inches from a station to the name after it."""
    return 0.4 * size


def _wide(mark: Mark, size: float, style: Style) -> float:
    station = width(station_text(mark, style), size, fonts.BOLD)
    return station + between(size) + width(name_text(mark), name_size(size), fonts.BOLD)


def _set(rows: _Rows, found: dict[Mark, Stand], style: Style) -> Iterator[Label]:
    """The words, top row first: that of the tallest line, the farthest off."""
    group, room, size = rows.group, rows.room, rows.size
    high = (room.high - room.low) / len(group)
    for i, label in enumerate(group if rows.right else reversed(group)):
        wide = _wide(label.mark, size, style)
        base = room.high - i * high - (high - INK * size) / 2 - ABOVE * size
        x0 = room.left if rows.right else room.right - wide
        turn = room.left - FAN if rows.right else room.right + FAN
        own = found[label.mark]
        flag = Flag(own.top, turn, base, own.cross, room.tall, own.low, gaps(label.mark, found))
        yield Label(label.mark, x0, x0 + wide, size / BIG, 0.0, flag)
