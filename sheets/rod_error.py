"""How far a mark of the finished rod can stand from where a steel tape says, worked out from what is known.

A lane is cut out and laid so that a set line stands on its tape number. A mark *x* inches from that line was printed at
x·(1 + p), p the printer's error that is left after correction; then the paper, drier or damper than when it was
printed, makes x·(1 + p)·(1 + g) of it; and the set line itself stands off its tape number by t, as near as a tape is
read. The mark is off by x·((1 + p)(1 + g) - 1) + t. Nothing in that comes from the lane before: x is never more than
the lane is long, so the error does not grow with the rod. Laid with both ends off alike, x is never more than half of
it.

Sheets butted one to the next, without a tape, add all of it up: that is ``chained``, for comparison.
"""

from __future__ import annotations

from layouts.lengths import Style, show, up
from sheets.profile import Profile

# Paper between dry and damp, inches an inch: least and most (common practice, no source)
ALONG_GRAIN = (0.001, 0.002)
ACROSS_GRAIN = (0.002, 0.004)

TAPE = 1 / 32  # inches: a line is set to a tape as near as this (common practice, no source)
READ = 1 / 32  # inches: a bar is read to a 32nd, up to a 64th off at either end (common practice, no source)
BAR = 10.0  # inches of bar that a profile rests on
UNKNOWN = 0.01  # inches an inch: a printer nobody measured is off by less than this (common practice, no source)


def printer_error(profile: Profile) -> float:
    """What the printer may still be off, inches an inch: what a second measurement showed, never less than what a tape
    can show on a bar; ``UNKNOWN`` if it was never measured."""
    if not profile.date:
        return UNKNOWN
    return max(profile.residual or 0.0, READ) / BAR


def stretch(residual_per_inch: float, growth: float) -> float:
    """The most that an inch of a lane is off, printer and paper together."""
    return (1 + residual_per_inch) * (1 + growth) - 1


def worst(lane: float, residual_per_inch: float, growth: float, tape: float = TAPE, split: bool = False) -> float:
    """The most that a mark stands off, inches, on a rod of any length whose longest lane is *lane* inches.

    *residual_per_inch* is the printer's error after correction, *growth* the paper's, both inches an inch and both
    either way; *tape* how far a set line may stand from its number. *split*: both ends of a lane are off alike, else
    one of its lines is set true and the other is let go, the worse of both.
    """
    return (lane / 2 if split else lane) * stretch(residual_per_inch, growth) + tape


def chained(lanes: int, lane: float, residual_per_inch: float, growth: float, joint: float = TAPE) -> float:
    """The most that the far end stands off if *lanes* sheets of *lane* inches are butted, each joint within *joint*."""
    return lanes * lane * stretch(residual_per_inch, growth) + (lanes - 1) * joint


def lines(
    lane: float, lanes: int, profile: Profile, style: Style, growth: float = ACROSS_GRAIN[1], tape: float = TAPE
) -> list[str]:
    """What the index says: the worst place of a mark, of what it is made, what butting would give instead. *lane* is
    the longest of all rods, *lanes* are those of the rod that has most. *growth* is across the grain by default: which
    way the grain of a sheet runs is seldom known."""
    printer = printer_error(profile)
    most = worst(lane, printer, growth, tape)
    parts = ", ".join(
        f"{name} {_small(part, style)}"
        for name, part in (("printer", lane * printer), ("paper dry to damp", lane * growth), ("tape", tape))
    )
    found = [
        f"Worst place of a mark on the finished rod, each lane set to the tape: {_about(most, style)} off ({parts})."
        " It does not grow with the rod's length."
    ]
    if lanes > 1:
        sum_up = chained(lanes, lane, printer, growth, tape)
        found.append(f"Butted sheet to sheet without a tape, {lanes} lanes could be {_about(sum_up, style)} off.")
    if not profile.date:
        found.append("The printer was not measured: 1 % is taken. Print and measure a ruler page: rodwright ruler.")
    return found


def _about(inches: float, style: Style) -> str:
    """Never less than it is: up to the next 1/32 in or whole millimetre."""
    return f"up to {show(inches, Style(style.unit, 32), rounded=up)}"


def _small(inches: float, style: Style) -> str:
    return f"{inches * 25.4:.1f} mm" if style.unit == "mm" else f"{inches:.2f} in"
