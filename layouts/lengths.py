"""Lengths as a crew writes them, in; tape fractions or whole millimetres, out.

The text is read by our own exact grammar and held as a Fraction of an inch. pint is asked only for the size
of a unit, by our own fixed names, and never sees what the user typed: it reads `9 11/16 in` as 6.1875 in and
`pt` as a pint. Feet and inch marks are a base-12 notation and need no unit library, so a job written with
marks never pays for importing it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal, NoReturn
from unicodedata import normalize

from msgspec import Struct

from layouts.length_slips import METRIC, REASONS, WORDS, parted, turned

if TYPE_CHECKING:
    from pint import UnitRegistry

Unit = Literal["in", "mm"]
Rounding = Callable[[float, "Style"], Fraction]

LONGEST_TEXT = 40
"""Characters. The longest sensible length has about 20; anything longer is refused unread."""

LONGEST = Fraction(5280 * 12)
"""Inches: a mile. Anything longer is a slip of the keyboard."""

NOISE = 1e-9
"""Inches, above float noise (1e-11): this close below a tie is the tie, this close to a step is on it."""

TAPE = (2, 4, 8, 16, 32, 64)

_PINT_NAMES = {"ft": "foot", "mm": "millimeter", "cm": "centimeter", "m": "meter"}
_MARKS = {"'": Fraction(12), '"': Fraction(1)}

# Feet are taken apart from inches only when a figure follows them; `12'` alone is a number with a mark.
# A whole number and its fraction are joined by a space or a close hyphen: `41 - 3/8` looks like a sum.
_NUMBER = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_FORM = re.compile(
    rf"(?:(?P<feet>{_NUMBER}) ?(?P<feet_mark>'|(?:ft|foot|feet)\.?) ?-? ?(?=[0-9]))?"
    rf"(?:(?:(?P<whole>{_NUMBER})[ -])?(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+)|(?P<number>{_NUMBER}))"
    r"(?: ?(?P<mark>['\"]|[a-z]+\.?))?"
)

_SIGNS = str.maketrans("′’‘ʹ″”“ʺ‐‑‒–−⁄", "''''" + '""""-----/')
_VULGAR = re.compile("([0-9]?)([\u00bc-\u00be\u2150-\u215e])")


class LengthError(ValueError):
    """A length that cannot be read; the message says what is wrong and what would be right."""


class Style(Struct, frozen=True):
    """How lengths are printed: inches to 1/16 or 1/32, or whole millimetres (`fraction` then has no say)."""

    unit: Unit = "in"
    fraction: int = 16

    def __post_init__(self) -> None:
        if self.fraction not in (16, 32):
            raise ValueError(f"a style prints 16ths or 32nds, not {self.fraction}")


def unechoed(error: LengthError, text: str) -> str:
    """The message of *error* for a place where *text* itself is shown already: it is not said twice."""
    return str(error).removeprefix(f"{echo(text.strip())}: ")


def echo(text: str) -> str:
    """The user's text, fit for an error message: 40 characters at most, nothing unprintable."""
    cut = text if len(text) <= LONGEST_TEXT else text[: LONGEST_TEXT - 3] + "..."
    return "".join(c if c.isprintable() else "?" for c in cut)


@cache
def _factor(unit: str) -> Fraction:
    """Inches in one `unit`, exactly; all but the inch are asked of pint, imported at the first asking."""
    if unit == "in":
        return Fraction(1)
    return Fraction(_registry().Quantity(Fraction(1), _PINT_NAMES[unit]).to("inch").magnitude)


@cache
def _registry() -> UnitRegistry[Fraction]:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)  # exact: a millimetre is 5/127 in, not 0.03937...


@cache
def _per_inch(unit: Unit) -> float:
    return float(1 / _factor(unit))


def parse(text: str, unit: Unit) -> float:
    """Inches, as a float. Bare numbers are in `unit`. Raises LengthError."""
    return float(parse_exact(text, unit))


def parse_exact(text: str, unit: Unit) -> Fraction:
    """Inches, exactly. Bare numbers are in `unit`; after feet they are inches. Raises LengthError.

    Reads 12'-9 11/16", 41 3/8, 3 ft 2 1/2 in, 4.04', 3650 mm, 3.65 m, and the typographic forms of the signs.
    """
    if len(text) > LONGEST_TEXT:
        raise LengthError(f"{echo(text)}: longer than {LONGEST_TEXT} characters; write {_example(unit)}")
    ascii_text = _ascii(text)
    found = _FORM.fullmatch(ascii_text)
    try:
        return _value(found, unit) if found else _explain(ascii_text, unit)
    except LengthError as reason:
        raise LengthError(f"{echo(text.strip())}: {reason}" if ascii_text else str(reason)) from None


def _ascii(text: str) -> str:
    """The same length in ASCII signs, small letters and single spaces; others stay for `_explain`."""
    if not text.isascii():
        text = _VULGAR.sub(lambda m: f"{m[1]}{' ' if m[1] else ''}{normalize('NFKC', m[2])} ", text)
        text = text.translate(_SIGNS)
    text = " ".join(text.split()).replace("''", '"')
    return text.lower() if text.isascii() else text


def _example(unit: Unit) -> str:
    return "12'-9 11/16\" or 41 3/8" if unit == "in" else "3895 or 3895 mm"


def _explain(text: str, unit: Unit) -> NoReturn:
    """Raises LengthError with the first reason that fits a text the grammar does not know."""
    if not text:
        raise LengthError(f"no length given; write {_example(unit)}")
    odd = next((c for c in text if not c.isascii()), None)
    if odd and odd.isnumeric():
        raise LengthError(f"use the plain figures 0 to 9, not {odd}; write {_example(unit)}")
    for pattern, reason in REASONS:
        if match := re.search(pattern, text):
            what = match[0] if match[0].isprintable() else f"U+{ord(match[0][0]):04X}"
            raise LengthError(f"{reason.format(what)}; write {_example(unit)}")
    raise LengthError(f"this is not a length; write {_example(unit)}")


def _value(found: re.Match[str], unit: Unit) -> Fraction:
    feet, feet_mark, whole, top, bottom, number, mark = found.groups()
    name, factor = _unit_of(mark or ('"' if feet else unit), unit)
    if feet and name != "in":
        reason = "one unit to a length" if name in METRIC else "feet come first, then inches, each once"
        raise LengthError(f"{reason}; write {_example(unit)}")
    most = 12 if feet else LONGEST
    amount = Fraction(number) if top is None else _mixed_number(whole, int(top), int(bottom), name, unit, most, feet)
    total = amount * factor
    if feet:
        total = _with_feet(feet, feet_mark, total, unit)
    if total > LONGEST:
        mile = "5280 ft" if unit == "in" else "1609344 mm"
        raise LengthError(f"over a mile ({mile}) is no length for a building; write {_example(unit)}")
    return total


def _unit_of(mark: str, unit: Unit) -> tuple[str, Fraction]:
    """The unit's short name and the inches in one of it."""
    if mark in _MARKS:
        return ("ft" if mark == "'" else "in"), _MARKS[mark]
    name = WORDS.get(mark.rstrip("."))
    if name is None:
        raise LengthError(f"{mark} is not a unit used here: ft, in, mm, cm or m; write {_example(unit)}")
    return name, _factor(name)


def _mixed_number(
    whole: str | None, top: int, bottom: int, name: str, unit: Unit, most: Fraction | int, feet: str | None
) -> Fraction:
    """`41 3/8` or `3/8`, under *most*. Refuses what no tape shows, and what a lost space makes: `413/8`; what would be
    right is told with the *feet* that stand before it."""
    before = f"{feet}'-" if feet else ""
    if bottom == 0:
        raise LengthError(f"nothing can be divided by 0; write {_example(unit)}")
    if whole and "." in whole:
        right = f"{before}{whole} or {before}{int(float(whole))} {top}/{bottom}"
        raise LengthError(f"a decimal or a fraction, not both; write {right}")
    amount = int(whole or 0) + Fraction(top, bottom)
    if name in METRIC:
        inches = f', or {mixed(amount)}" for inches' if bottom in TAPE and top < bottom else ""
        raise LengthError(f"fractions are for inches; write {float(amount):.10g} {name}{inches}")
    if bottom not in TAPE:
        part = turned(top, bottom, TAPE)
        near = _mixed(nearest(float(amount), Style()) if part is None else int(whole or 0) + part, feet)
        raise LengthError(f"a tape has halves, 4ths, 8ths, 16ths, 32nds, 64ths, no {top}/{bottom}; write {near}")
    if top >= bottom:
        meant = f"if that is meant write {_mixed(amount, feet)}"
        if fits := [] if whole else parted(str(top), bottom, most, before):
            other = f", else {_mixed(amount, feet)}" if amount < most else ""
            meant = f"if a space was missed write {' or '.join(fits)}{other}"
        raise LengthError(f"{top}/{bottom} is a whole or more; {meant}")
    return amount


def _mixed(inches: Fraction, feet: str | None) -> str:
    """What would be right, with the *feet* that stand before it; 12 inches and more go to these."""
    if not feet or "." in feet:
        return mixed(inches)
    return f"{int(feet) + inches // 12}'-" + "0 " * (0 < inches % 12 < 1) + mixed(inches % 12)


def _with_feet(feet: str, feet_mark: str, inches: Fraction, unit: Unit) -> Fraction:
    if "." in feet:
        about = show(float(feet) * 12, Style(unit))
        raise LengthError(f"decimal feet stand alone, no inches after; write {feet} ft, or {about} if rounded")
    total = int(feet) * _unit_of(feet_mark, unit)[1] + inches
    if inches >= 12:
        right = show(total, Style(unit, 32))
        raise LengthError(f"inches after feet run from 0 to under 12; if that is meant write {right}")
    return total


def nearest(inches: float | Fraction, style: Style) -> Fraction:
    """To the style's step, half up (NAVEDTRA 14044), in the style's unit: 5/32 in is 3/16, -1/32 in is 0.

    A value within NOISE below a tie counts as the tie. Raises ValueError if `inches` is not finite.
    """
    steps, noise, count = _steps(inches, style)
    return Fraction(math.floor(steps + 0.5 + noise), count)


def down(inches: float | Fraction, style: Style) -> Fraction:
    """To the step at or below, in the style's unit; within NOISE of a step is on it. Raises as `nearest`."""
    steps, noise, count = _steps(inches, style)
    return Fraction(math.floor(steps + noise), count)


def up(inches: float | Fraction, style: Style) -> Fraction:
    """To the step at or above, in the style's unit; within NOISE of a step is on it. Raises as `nearest`."""
    steps, noise, count = _steps(inches, style)
    return Fraction(math.ceil(steps - noise), count)


def _steps(inches: float | Fraction, style: Style) -> tuple[float, float, int]:
    """`inches` counted in steps, NOISE counted in steps, and steps to one unit."""
    count = 1 if style.unit == "mm" else style.fraction
    per_inch = _per_inch(style.unit) * count
    steps = float(inches) * per_inch
    if not math.isfinite(steps):
        raise ValueError(f"{inches} is not a length that can be rounded")
    return steps, NOISE * per_inch, count


def mixed(value: Fraction) -> str:
    """A number as a tape says it, reduced, with no mark: `41 3/8`, `3/8`, `-1 1/2`, `0`."""
    sign = "-" if value < 0 else ""
    parts = [str(part) for part in divmod(abs(value), 1) if part]
    return sign + (" ".join(parts) or "0")


def show(inches: float | Fraction, style: Style, *, rounded: Rounding = nearest) -> str:
    """As printed: `13'-9 1/16"` from 24 in up, `23 5/8"` below, `4193 mm`. `rounded`: nearest, down or up.

    Feet are split off after rounding, so 23 31/32 in is `2'-0"` in sixteenths. Raises as `nearest`.
    """
    value = rounded(float(inches), style)
    if style.unit == "mm" or abs(value) < 24:
        return _marked(value, style)
    feet, rest = divmod(abs(value), 12)
    # A whole number always stands before the fraction: `12'-1/2"` is easily read as 12 1/2.
    after = mixed(rest) if rest >= 1 or not rest else f"0 {rest}"
    return f"{'-' if value < 0 else ''}{feet}'-{after}\""


def show_inches(inches: float | Fraction, style: Style, *, rounded: Rounding = nearest) -> str:
    """As `show`, but all in inches, for crews who cut in inches: `165 1/16"`. Metric is as `show`."""
    return _marked(rounded(float(inches), style), style)


def show_fine(inches: float | Fraction, style: Style) -> str:
    """As `show_inches`, but finer where the style's step is too coarse for what was said: `3/32"`, `0.118"`, `3.2 mm`;
    in 32nds, then in decimals of the unit, to a thousandth. Raises as `nearest`."""
    for finer in (style, Style(style.unit, 32)):
        if abs(float(nearest(inches, finer)) - to_unit(inches, finer)) < 1e-6:
            return show_inches(inches, finer)
    return f"{to_unit(inches, style):.3f}".rstrip("0").rstrip(".") + ('"' if style.unit == "in" else " mm")


def _marked(value: Fraction, style: Style) -> str:
    return f"{value} mm" if style.unit == "mm" else f'{mixed(value)}"'


def plain(inches: float | Fraction, style: Style, *, rounded: Rounding = nearest) -> float | int:
    """The printed number itself, in the job's unit, for programs: 165.0625 (in) or 4193 (mm)."""
    value = rounded(float(inches), style)
    return int(value) if style.unit == "mm" else float(value)


def to_unit(inches: float | Fraction, style: Style) -> float:
    """The unrounded number in the job's unit: inches, or millimetres."""
    return float(inches) * _per_inch(style.unit)
