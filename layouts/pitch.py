"""Pitches: how a crew writes them, and how they are printed. Inside, a pitch is a slope: rise over run."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from layouts.lengths import LengthError, Style, mixed, parse

LONGEST = 40
_DEGREES = re.compile(r"(\d{1,2}(?:\.\d{1,6})?) ?(?:deg|degrees|°)")
_RATIO = re.compile(r"(\d{1,3}(?:\.\d{1,6})?) ?(?::| in ) ?(\d{1,3}(?:\.\d{1,6})?)")
RIGHT = "Rise on a run of 12, like 5/12 or 4.5/12; or 18.5 deg; or 1:4."
MOST_BARE = 12.0  # a bare number over this is as likely degrees (common practice, no source)
MOST_RISE = 24.0  # on a run of 12: no roof of ours is steeper


class PitchError(ValueError):
    """What was written is not a pitch; its text says what is wrong, *right* what would be right."""

    def __init__(self, wrong: str, right: str = RIGHT) -> None:
        super().__init__(wrong)
        self.right = right


def read(text: str, *, metric: bool = False) -> float:
    """The slope, rise over run, of ``5/12``, ``4 1/2 / 12``, ``18.5 deg``, ``1:4`` or ``1 in 4``; in an imperial job a
    bare ``5`` is 5 on 12, in a *metric* one it would be taken for degrees by half the crew, so it is refused; as is a
    bare number over 12 in any.

    Raises ``PitchError``.
    """
    text = text.strip()
    if len(text) > LONGEST:
        raise PitchError("is not a pitch.")
    if found := _DEGREES.fullmatch(text):
        return math.tan(math.radians(float(found[1])))
    if found := _RATIO.fullmatch(text):
        if not float(found[2]):
            raise PitchError("is not a pitch.")
        return float(found[1]) / float(found[2])
    rise, slash, run = text.rpartition("/")
    if not slash:
        rise = text
        if metric:
            raise PitchError("may be degrees or a rise on 12.")
    elif run.strip() != "12" or ("/" in rise and " " not in rise.strip()):
        raise PitchError("is not a pitch.")
    try:
        slope = parse(rise, "in") / 12
    except LengthError:
        raise PitchError("is not a pitch.") from None
    if not slash and slope * 12 > MOST_BARE + 1e-9:
        said = f"Write {rise}/12 or {slope * 12:g} deg." if slope * 12 <= MOST_RISE else RIGHT
        raise PitchError("may be degrees or a rise on 12.", said)
    return slope


def shown(slope: float, style: Style) -> str:
    """As printed: ``5/12``, ``4 1/2/12`` or ``3.98/12``, of a metric job ``18.4°``. Of a slope that falls the same."""
    slope = abs(slope)
    if style.unit == "mm":
        return f"{math.degrees(math.atan(slope)):.1f}".removesuffix(".0") + "°"
    rise = slope * 12
    sixteenths = round(rise * 16)
    if abs(rise * 16 - sixteenths) < 1e-6:
        return f"{mixed(Fraction(sixteenths, 16))}/12"
    return f"{rise:.2f}/12"
