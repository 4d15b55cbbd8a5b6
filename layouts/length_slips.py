"""The words of units, and why a text is no length or another one than it looks."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

WORDS = {
    **dict.fromkeys(("ft", "foot", "feet"), "ft"),
    **dict.fromkeys(("in", "inch", "inches"), "in"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
}
METRIC = {"mm", "cm", "m"}

_WORD = "|".join(sorted(WORDS, key=len, reverse=True))
_METRIC_WORD = "|".join(word for word in _WORD.split("|") if WORDS[word] in METRIC)
# Why a text that fits no form is refused: the first that matches speaks. {0} is what it matched.
REASONS = (
    (r"^-", "a length cannot be negative"),
    (r",", "no commas: write thousands as 1200 and decimals as 3.5"),
    (r"[0-9.]e[+-]?[0-9]+", "no exponents: write the number out, 1000 for 1e3"),
    (r"[^0-9a-z'\"/. -]", "{0} has no place in a length"),
    (r"^[^0-9]*$", "there is no number in it"),
    (rf"(?<![a-z])(?!(?:{_WORD})(?![a-z]))[a-z]+", "{0} is not a unit used here: ft, in, mm, cm or m"),
    (rf"(?:{_METRIC_WORD})\.? ?[0-9]|['\"a-z].*[0-9] ?(?:{_METRIC_WORD})", "one unit to a length"),
    (r"(?:\"|in).*[0-9]|['f].*[0-9].*['f]", "feet come first, then inches, each once"),
    (r"/.*/", "one fraction to a length"),
    (r"[0-9]-[0-9]+-[0-9]", "feet-inches-sixteenths are not read: mark feet with ' and inches with \""),
    (r"^[0-9]+-[0-9]", "say which figures are feet and which inches: mark them ' and \""),
    (r" -|- ", "a hyphen between a whole number and its fraction stands close, it is not a minus"),
    (r"[0-9] [0-9]", "two numbers stand side by side with no mark between them"),
    (r"\.(?![0-9])|(?<![0-9])\.", "a decimal point needs a figure before and after it"),
)


def parted(figures: str, bottom: int, most: Fraction | int, before: str) -> list[str]:
    """What *figures* over *bottom* may be with a space in them, each under *most* inches: `45 1/8` of 451/8, of 1311/16
    `13 11/16` and `131 1/16`; with the feet *before* it."""
    both = [(figures[:i], figures[i:]) for i in range(1, len(figures))]
    fit = [(whole, top) for whole, top in both if top[0] != "0" and int(top) < bottom and int(whole) < most]
    return [f"{before}{whole} {top}/{bottom}" for whole, top in fit]


def turned(top: int, bottom: int, tape: Collection[int]) -> Fraction | None:
    """What a *top* over a *bottom* that no *tape* has may be with its figures in their places: 11/16 of 11/61 and of
    16/11. ``None`` where neither makes less than a whole."""
    back = int(str(bottom)[::-1]) if bottom % 10 else 0
    if back in tape and top < back:
        return Fraction(top, back)
    return Fraction(bottom, top) if top in tape and bottom < top else None
