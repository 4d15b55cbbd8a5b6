"""Words beside the marks of a rod: what they say, and where they find room at full scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.lengths import Style, show
from layouts.rods import Mark, Rod
from sheets.lanes import CLEAR, Lane
from sheets.lettering import pt, width

BOARDS, CUTS = 0.86, 0.74  # inches of a strip: the upper band, of boards, and the lower one
CROSS = 0.42  # size of the X where nothing is near
PAD = 0.07
BIG, NAME = pt(36), pt(14)
LEAST = 0.4  # a label may shrink to this share before it is let into a joint
NAMED = 4  # columns that are named beside a mark
READ = 30 / 36  # down to this share it is still read at arm's length


class Flag(Struct, frozen=True):
    """Where a mark's line ends and its words stand in one row off it (see ``sheets.flags``). Heights are inches above
    the lower band's lower edge: the line ends at *top*, its leader turns at *turn* on the rod towards the words, which
    stand on *base*. The X is *cross* large and begins at *low*; the line is broken at *gaps*, beside the X of others.
    *tall* where rows take both bands."""

    top: float
    turn: float
    base: float
    cross: float
    tall: bool
    low: float
    gaps: tuple[tuple[float, float], ...] = ()


class Label(Struct, frozen=True):
    """Words beside a mark: on stretch *x0* to *x1* of the rod, *scale* under 1 where room is short; *spare* inches are
    free on the mark's other side. *flag* where marks stand too close for that, else the X is *cross* large."""

    mark: Mark
    x0: float
    x1: float
    scale: float
    spare: float = 0.0
    flag: Flag | None = None
    cross: float = CROSS

    @property
    def movable(self) -> bool:
        """Whether the words go whole to the mark's other side."""
        return self.spare >= self.x1 - self.x0

    @property
    def stretch(self) -> tuple[float, float]:
        """From the mark to half an inch beyond the far end: words keep as clear of a joint as marks do."""
        return self.mark.station, self.x1 + CLEAR if self.x0 >= self.mark.station else self.x0 - CLEAR


def bounds(lane: Lane) -> tuple[float, float]:
    """Where words may stand on a lane: as clear of a joint as marks; the rod's own ends are none."""
    return (
        lane.start + (CLEAR if lane.start > 0 else PAD),
        lane.end - (PAD if lane.last else CLEAR),
    )


def kept(label: Label, lane: Lane) -> Label:
    """The words as they fit on a *lane* whose joints could not spare them whole: smaller, beside their mark, on its
    other side if that leaves them more. They keep as clear of a joint as marks do; the rod's own ends are none."""
    wide, at = label.x1 - label.x0, label.mark.station
    first, final = bounds(lane)
    low, high = max(label.x0, first), min(label.x1, final)
    if high - low >= wide - 1e-9:
        return label
    room = min(wide, label.spare)
    beside = PAD + (
        CROSS + PAD if label.mark.kind == "board" and (label.mark.edge == "bottom") == (label.x0 < at) else 0.0
    )
    other = (
        (max(first, at - beside - room), at - beside)
        if label.x0 >= at
        else (at + beside, min(final, at + beside + room))
    )
    if other[1] - other[0] > high - low:
        low, high = other
    return replace(label, x0=low, x1=high, scale=label.scale * (high - low) / wide, spare=0.0)


def station_text(mark: Mark, style: Style) -> str:
    """The mark's station as printed."""
    return show(mark.station, style)


def name_text(mark: Mark) -> str:
    """The mark's name as printed."""
    if mark.kind == "board":
        what = " ".join(part for part in (mark.name.upper(), mark.board, mark.where or mark.edge) if part)
        return what + only_text(mark)
    if mark.kind == "cut":
        made = "not cut" in mark.where or "block" in mark.where
        return f"{mark.name} {mark.where}" if made else f"CUT {mark.name} {mark.where}"
    return mark.name.upper()


def only_text(mark: Mark) -> str:
    """Which columns a mark is for, where it is not for all."""
    if not mark.some:
        return ""
    jambs = ["jambs"] if mark.jambs else []
    if len(mark.only) > NAMED:
        return f": {', '.join([f'{len(mark.only)} columns', *jambs])} only, see tags"
    return f": {', '.join([*mark.only, *jambs])} only"


def _wanted(mark: Mark, style: Style) -> float:
    return max(width(station_text(mark, style), BIG, fonts.BOLD), width(name_text(mark), NAME, fonts.BOLD))


def upper(mark: Mark) -> bool:
    """Whether a mark stands in the upper band: a board that all columns carry."""
    return mark.kind == "board" and not mark.some


def placed(rod: Rod, style: Style) -> list[Label]:
    """Every mark's words beside it. Rows of boards have one band, cuts, lines and boards of some columns the other, so
    that only like marks can crowd each other: where they do, words of ``LEAST`` lie in one another."""
    boards = [m for m in rod.marks if upper(m)]
    others = [m for m in rod.marks if not upper(m)]
    return [*_place(boards, rod.length, style), *_place(others, rod.length, style)]


def _place(marks: Sequence[Mark], length: float, style: Style) -> Iterator[Label]:
    """Words go to the side the board covers, else to the other side, else they shrink into the larger room. Inside the
    board they stay between its edges where they can still be read there at arm's length."""
    free_from = 0.0
    for i, mark in enumerate(marks):
        after = marks[i + 1].station if i + 1 < len(marks) else length
        wanted = _wanted(mark, style)
        cross = CROSS + PAD if mark.kind == "board" else 0.0
        up = mark.edge != "top"
        right0 = mark.station + PAD + (cross if up else 0.0)
        left1 = mark.station - PAD - (0.0 if up else cross)
        right_room, left_room = after - PAD - right0, left1 - free_from - PAD
        board = (mark.high - PAD - right0) if up else (left1 - PAD - mark.low)
        if mark.kind == "board" and board >= READ * wanted:
            right_room, left_room = (min(right_room, board), left_room) if up else (right_room, min(left_room, board))
            wanted_here = min(wanted, board)
        else:
            wanted_here = wanted
        sides = [(right_room, True), (left_room, False)] if up else [(left_room, False), (right_room, True)]
        room, to_right = next((s for s in sides if s[0] >= wanted_here - 1e-9), max(sides))
        taken = min(wanted, max(room, wanted * LEAST))
        x0 = right0 if to_right else left1 - taken
        free_from = max(x0 + taken, mark.station)
        spare = max((left_room if to_right else right_room) - PAD, 0.0)
        yield Label(mark, x0, x0 + taken, taken / wanted, spare)
