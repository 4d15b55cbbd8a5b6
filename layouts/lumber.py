"""The real size of a piece of wood from what the crew calls it.

Sizes are the dry sizes of the American Softwood Lumber Standard, NIST Voluntary Product Standard PS 20, taken
from a public copy of its size table. Green sizes are not offered, they cannot be told from the name: a green
4x6 is 3 9/16 x 5 5/8, a green 6x6 is 5 1/2 x 5 1/2. Write the real size instead. The real size of a laminated
column is its maker's, so it is always written out.
"""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct

from layouts.lengths import LONGEST_TEXT, TAPE, LengthError, Style, Unit, echo, mixed, parse_exact, to_unit

SMALLEST = Fraction(1, 2)
"""Inches: nothing thinner holds a nail."""

LARGEST = Fraction(24)
"""Inches."""

TIMBER = 5
"""Nominal inches: with both sides this or more the piece is a timber, dressed by another rule."""

# PS 20, boards and dimension lumber, dry: nominal to real, inches.
_DRESSED = {
    1: Fraction(3, 4),
    2: Fraction(3, 2),
    3: Fraction(5, 2),
    4: Fraction(7, 2),
    5: Fraction(9, 2),
    6: Fraction(11, 2),
    8: Fraction(29, 4),
    10: Fraction(37, 4),
    12: Fraction(45, 4),
    14: Fraction(53, 4),
    16: Fraction(61, 4),
}
_THICKEST_TIMBER = 16

_CROSS = re.compile(r"[xX\u00d7]")
_BARE = re.compile(r"[0-9]+")
_METRIC_MARK = re.compile(r"m", re.IGNORECASE)
_INCH_MARK = re.compile(r"['\"\u2032\u2033\u2018\u2019\u201c\u201dif]", re.IGNORECASE)


class Section(Struct, frozen=True):
    """The real cross-section of a piece, inches, thick <= wide; `name` is how it is printed."""

    name: str
    thick: float
    wide: float


class Price(Struct, frozen=True):
    """What one board costs: of a *section* by its printed name, *treated* or not, *length* inches long."""

    section: str
    treated: bool
    length: float
    cost: float


def bought_as(section: str, treated: object) -> str:
    """What a board is called where treated ones and others stand together: its *section*, by its printed name."""
    return f"{section} treated" if treated else section


LEAST_PRICE = 0.001  # of the money's unit: prices are added up in thousandths
_PRICE = re.compile(
    r"(?P<section>.+?)(?P<treated> +treated)? +(?P<length>[^ ]+(?: +(?:mm|cm|m|ft|in))?) +"
    r"(?P<cost>[0-9]{1,6}(?:\.[0-9]{1,3})?)"
)


def price(text: str, unit: Unit) -> Price:
    """``2x4 16' 9.80`` or ``2x8 treated 16' 24.50``: section, length and what it costs, in any money. Raises
    LengthError."""
    found = _PRICE.fullmatch(" ".join(text.split()))
    right = "2x4 16' 9.80" if unit == "in" else "45x90 4.8m 9.80"
    if len(text) > LONGEST_TEXT or found is None:
        raise LengthError(f"{echo(text)}: a price is a board, its length and what it costs; write {right}")
    cost = float(found["cost"])
    if cost < LEAST_PRICE:
        raise LengthError(f"{echo(text)}: a board costs more than nothing; write {right}")
    length = float(parse_exact(found["length"], unit))
    return Price(section(found["section"], unit).name, bool(found["treated"]), length, cost)


def section(text: str, unit: Unit) -> Section:
    """A cross-section from its name (`2x6`, imperial jobs only) or its real size. Raises LengthError.

    Imperial: two bare whole numbers are nominal; a fraction, decimal or mark on either makes both real.
    Metric: always real millimetres. The sides may come in either order.
    """
    if len(text) > LONGEST_TEXT:
        raise LengthError(f"{echo(text)}: longer than {LONGEST_TEXT} characters; write {_example(unit)}")
    sides = [side.strip() for side in _CROSS.split(text)]
    if len(sides) != 2 or not all(sides):
        given = f"{echo(text.strip())}: " if text.strip() else ""
        raise LengthError(f"{given}a size is two numbers with an x between; write {_example(unit)}")
    if unit == "in" and all(_BARE.fullmatch(side) for side in sides):
        thick, wide = sorted(int(side) for side in sides)
        return _nominal(text, thick, wide)
    return _real(text, sides, unit)


def _example(unit: Unit) -> str:
    return '2x6 or 1 1/2" x 5 3/8"' if unit == "in" else "45x90"


def _nominal(text: str, thick: int, wide: int) -> Section:
    if not _is_nominal(thick, wide):
        near = sorted(_all_nominal(), key=lambda pair: (abs(pair[0] - thick) + abs(pair[1] - wide), pair))
        right = " or ".join(f"{a}x{b}" for a, b in sorted(near[:2]))
        if wide > LARGEST:  # metric sizes in an imperial job
            right = f"{thick} mm x {wide} mm if that is meant"
        real = 'the real size as 1 1/2" x 5 3/8"'
        raise LengthError(f"{echo(text.strip())}: not a nominal size; write {right}, or {real}")
    dress = _timber if thick >= TIMBER else _DRESSED.__getitem__
    return Section(f"{thick}x{wide}", float(dress(thick)), float(dress(wide)))


def _is_nominal(thick: int, wide: int) -> bool:
    """Boards and dimension lumber come in the widths of the table, timbers in any whole inch to 16."""
    if thick >= TIMBER:
        return wide <= _THICKEST_TIMBER
    return thick in _DRESSED and wide in _DRESSED and wide > 1


def _all_nominal() -> list[tuple[int, int]]:
    sizes = range(1, _THICKEST_TIMBER + 1)
    return [(thick, wide) for thick in sizes for wide in sizes if thick <= wide and _is_nominal(thick, wide)]


def _timber(nominal: int) -> Fraction:
    """PS 20, timbers, dry: 5 and 6 lose 1/2, 7 to 15 lose 3/4, 16 and over lose 1."""
    if nominal <= 6:
        return nominal - Fraction(1, 2)
    return nominal - (Fraction(3, 4) if nominal <= 15 else Fraction(1))


def _real(text: str, sides: list[str], unit: Unit) -> Section:
    if _system(sides[0], unit) != _system(sides[1], unit):
        raise LengthError(f"{echo(text.strip())}: one side has another unit than the other; write {_example(unit)}")
    try:
        thick, wide = sorted(parse_exact(side, unit) for side in sides)
    except LengthError as reason:
        raise LengthError(f"{echo(text.strip())}: {reason}") from None
    for size in (thick, wide):
        if not SMALLEST <= size <= LARGEST:
            limits = '1/2" to 24"' if unit == "in" else "12.7 mm to 609.6 mm, real size"
            raise LengthError(f"{echo(text.strip())}: a side must be {limits}; write {_example(unit)}")
    name = f'{_inches(thick)}" x {_inches(wide)}"' if unit == "in" else f"{_mm(thick)}x{_mm(wide)}"
    return Section(name, float(thick), float(wide))


def _system(side: str, unit: Unit) -> Unit:
    """The unit a side is written in; a side with no mark takes the job's."""
    if _METRIC_MARK.search(side):
        return "mm"
    return "in" if _INCH_MARK.search(side) else unit


def _inches(size: Fraction) -> str:
    """A tape fraction if it is one exactly, so that a name never hides a size; else decimals."""
    return mixed(size) if size.denominator in (1, *TAPE) else f"{float(size):.3f}".rstrip("0").rstrip(".")


def _mm(size: Fraction) -> str:
    return f"{to_unit(size, Style('mm')):.2f}".rstrip("0").rstrip(".")
