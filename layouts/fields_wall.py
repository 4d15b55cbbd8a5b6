"""The fields of what hangs on the grade line: the line itself, the readings, boards and lumber."""

from __future__ import annotations

from typing import Literal

from layouts.lumber import Price, Section
from layouts.spec import FOOT, Part, take


class GradePart(Part, frozen=True, kw_only=True):
    """``[grade]``"""

    board: Section = take("section", "Grade board size.", "2x8", metric="45x190")
    boards: int = take("count", "Rows of grade board, the lowest on the grade line.", "1", least=1, most=4)
    floor: float = take("length", "Finished floor above the grade line.", '3 1/2"', metric="90 mm", most=6 * FOOT)
    line: float | None = take(
        "line",
        "The line reading: the rod reading that would fall on the grade line, or `choose`.",
        "choose",
        most=30 * FOOT,
    )
    least: float = take(
        "length",
        "The least from the highest seat up to the line; a line is chosen by it, and a seat nearer to it is warned of.",
        '1"',
        metric="25 mm",
        most=10 * FOOT,
    )
    most: float | None = take(
        "length",
        "The most from the lowest seat up to the line; left out, only the stock says what is too low.",
        none=True,
        most=10 * FOOT,
    )
    round: Literal["whole", "half", "quarter"] = take(
        "choice",
        "Where the line is chosen: to a whole, half or quarter inch (10, 5 or 2 mm) on the rod.",
        "half",
        choices=("whole", "half", "quarter"),
    )
    shim: float = take(
        "length",
        "The thickest packing under a column before the engineer is asked.",
        '1/2"',
        metric="12 mm",
        most=12,
    )
    benchmark: str = take(
        "text",
        "The point of the readings that the finished floor is wanted from; empty: the floor follows the line.",
        "",
    )
    floor_at: float = take(
        "height", "Finished floor wanted, above that point; with a minus below it.", "0", most=20 * FOOT
    )
    floor_within: float = take(
        "length",
        "Where the line is chosen: how far the floor may come off the height wanted.",
        '1/2"',
        metric="12 mm",
        most=2 * FOOT,
    )
    cover: float = take(
        "length",
        "The least the grade board reaches below the floor where the floor's height is wanted.",
        "0",
        most=4 * FOOT,
    )
    reference: str = take("name", "The column that HIGH and LOW are told against; the first one read if empty.", "")
    flag: float = take(
        "length",
        "A seat further than this from the reference is to be shot again.",
        '1"',
        metric="25 mm",
        least=1 / 16,
        most=10 * FOOT,
    )


class ReadingsPart(Part, frozen=True, kw_only=True):
    """``[readings]``: how far readings are believed. The file of readings itself says its unit and its sense."""

    misclosure: float = take(
        "length",
        "How far a reading back, or a loop, may be off for each set-up in it; more, and the round is refused.",
        '1/8"',
        metric="3 mm",
        most=6,
    )
    rounds: Literal["latest", "mean"] = take(
        "choice",
        "Of a seat read in several rounds: the latest reading or the mean.",
        "latest",
        choices=("latest", "mean"),
    )
    differ: float = take(
        "length",
        "Two rounds may differ by this on one seat; more, and it is to be shot again.",
        '1/8"',
        metric="3 mm",
        most=6,
    )
    neighbour: float = take(
        "length",
        "A seat that stands out from both of its neighbours by more than this is to be shot again.",
        '1/2"',
        metric="12 mm",
        least=1 / 16,
        most=10 * FOOT,
    )


class GirtsPart(Part, frozen=True, kw_only=True):
    """``[girts]``"""

    board: Section = take(
        "section", "Girt size; of the rows inside too where there are no others.", "2x4", metric="45x90"
    )
    place: Literal["outside", "between", "inside", "both"] = take(
        "choice",
        "Flat on the outside of the columns, lying between them, on their inside, or outside and inside: these are the"
        " nailers of a liner. Where no girt is outside, the building line is the outside of the columns.",
        "outside",
        choices=("outside", "between", "inside", "both"),
    )
    inside: Section = take(
        "section", "Size of the rows inside, a liner's nailers, where girts are outside too.", "2x4", metric="45x90"
    )
    gap: float = take(
        "length", "A girt between columns is cut shorter than the clear bay by this.", '1/8"', metric="3 mm", most=2
    )
    rake: Section | None = take(
        "section", "Nailer along the slopes of the gables, under the chord's top, or leave it out.", none=True
    )
    blocking: float | None = take(
        "length",
        "Blocks between the rows in the middle of bays wider than this between the columns, or leave them out.",
        none=True,
        least=2 * FOOT,
        most=60 * FOOT,
    )
    spacing: Literal["equal", "fixed"] = take(
        "choice",
        "Equal steps no more than `step`, or `step` each with the rest last.",
        "equal",
        choices=("equal", "fixed"),
    )
    step: float = take("length", "The step, edge to like edge.", '24"', metric="600 mm", least=6, most=8 * FOOT)
    tolerance: float = take(
        "length",
        "An equal step may exceed `step` by this in all before a row is added.",
        '1/4"',
        metric="6 mm",
        most=6,
    )
    edge: Literal["bottom", "top"] = take(
        "choice",
        "The edge of the boards that is marked on all sheets; the grade board's is always its bottom.",
        "bottom",
        choices=("bottom", "top"),
    )
    top: float | None = take(
        "length",
        "Top edge of the highest sidewall row, above the grade line. Left out: the soffit nailer where there is a"
        " soffit, else flush with the bearing, on the high wall of one slope under the chord.",
        none=True,
        least=2 * FOOT,
        most=60 * FOOT,
    )
    runs_past: Literal["end", "side"] = take(
        "choice",
        "The walls whose girts and nailers run past at the corners; the others stop at the column. Left out:"
        " of a lean-to the sidewall's.",
        "end",
        choices=("end", "side"),
    )
    grade_board_runs_past: Literal["end", "side"] = take(
        "choice", "The same for the grade board.", "end", choices=("end", "side")
    )


class CornersPart(Part, frozen=True, kw_only=True):
    """``[corners]``"""

    board: Section | None = take(
        "section",
        "Board flat on the inside of every corner column, its edge in the plane of the endwall's inner faces, from the"
        " grade line to the bearing: nailing for what goes inside. Or leave it out.",
        none=True,
    )
    fillers: Literal["none", "between rows"] = take(
        "choice",
        "Blocks between the rows where boards run past a corner, so that its trim is backed.",
        "none",
        choices=("none", "between rows"),
    )


class WainscotPart(Part, frozen=True, kw_only=True):
    """``[wainscot]``"""

    nailer: Section | None = take("section", "Wainscot nailer size, or leave it out.", none=True)
    height: float = take("length", "Its bottom edge.", "3'", metric="900 mm", least=6, most=12 * FOOT)


class LumberPart(Part, frozen=True, kw_only=True):
    """``[lumber]``"""

    stock: tuple[float, ...] = take(
        "lengths",
        "Board lengths the yard has.",
        ("8'", "10'", "12'", "14'", "16'", "18'", "20'"),
        metric=("2.4 m", "3 m", "3.6 m", "4.2 m", "4.8 m", "5.4 m", "6 m"),
        least=2 * FOOT,
        most=60 * FOOT,
    )
    kerf: float = take("length", "What the saw takes.", '1/8"', metric="3 mm", most=1)
    trim: float = take("length", "Cut off one end of every board first, to square it.", "0", most=12)
    prices: tuple[Price, ...] = take(
        "prices",
        'What a board costs, like ["2x4 16\' 9.80", "2x8 treated 16\' 24.50"]: the cheapest plan is looked for, and a'
        " length without a price is not bought where its section has one.",
        (),
    )
    cutting: Literal["least", "fewest"] = take(
        "choice",
        "The plan that takes the least, or the one with the fewest different sticks within a twentieth of that.",
        "least",
        choices=("least", "fewest"),
    )
    spares: int = take("count", "Spare boards for the order, percent of each section.", "0", most=100)
    column_spares: int = take("count", "Spare columns for the order, of the longest.", "0", most=100)
