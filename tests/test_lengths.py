"""Lengths in: the grammar, and what must never be imported for it."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pytest

from layouts.lengths import (
    Unit,
    parse,
    parse_exact,
)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12' 9-11/16\"", Fraction(2459, 16)),
        ("12'-9 11/16\"", Fraction(2459, 16)),
        ("12'-9-11/16\"", Fraction(2459, 16)),
        ("12' - 9 11/16\"", Fraction(2459, 16)),
        ("12'9 11/16", Fraction(2459, 16)),
        ("12'9\"", 153),
        ("12' 9.5\"", Fraction(307, 2)),
        ("12'-0 1/2\"", Fraction(289, 2)),
        ("12'-1/2\"", Fraction(289, 2)),
        ("1' 0\"", 12),
        ("12'", 144),
        ("12''", 12),
        ("41 3/8", Fraction(331, 8)),
        ('41-3/8"', Fraction(331, 8)),
        ("41 3 / 8", Fraction(331, 8)),
        ("41.375", Fraction(331, 8)),
        ("3/8", Fraction(3, 8)),
        ("3/64", Fraction(3, 64)),
        (".5", Fraction(1, 2)),
        ("0", 0),
        ("  41   3/8  ", Fraction(331, 8)),
        ("3 ft 2 in", 38),
        ("3ft2in", 38),
        ("3 FT. 2 In.", 38),
        ("3 feet 2 inches", 38),
        ("1 foot", 12),
        ("1 inch", 1),
        ("3 ft 2", 38),
        ("3 ft 2 1/2 in", Fraction(77, 2)),
        ("4 1/2 ft", 54),
        # A rod in tenths of a foot: 4.04 ft is 48.48 in, not 4'-4".
        ("4.04 ft", Fraction(4848, 100)),
        ("4.04'", Fraction(4848, 100)),
    ],
)
def test_imperial_lengths_are_read_exactly(text: str, inches: Fraction | int) -> None:
    assert parse_exact(text, "in") == inches


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12\u2032 9\u2033", 153),
        ("12\u2019 9\u201d", 153),
        ("12\u2018 9\u201c", 153),
        ("12' 9''", 153),
        ("12'\u20139\"", 153),
        ("12'\u20119\"", 153),
        ("12'\u00a09\"", 153),
        ("12'\u20099\u202f11/16\"", Fraction(2459, 16)),
        ("\u00bd", Fraction(1, 2)),
        ("41\u215c", Fraction(331, 8)),
        ('41 \u215e"', Fraction(335, 8)),
        ("9-\u00be", Fraction(39, 4)),
        ("12\u2032-9\u215d\u2033", Fraction(1229, 8)),
        ("41 3\u20448", Fraction(331, 8)),
    ],
)
def test_typographic_signs_are_read(text: str, inches: Fraction | int) -> None:
    assert parse_exact(text, "in") == inches


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("3650", 3650),
        ("3650.5", Fraction(7301, 2)),
        ("3650 mm", 3650),
        ("3650MM", 3650),
        ("3.65 m", 3650),
        ("365 cm", 3650),
        ("3 metres", 3000),
        ("1 millimeter", 1),
        ("0", 0),
        ('1"', Fraction(254, 10)),
        ("12'", Fraction(36576, 10)),
        ("12' 9", Fraction(38862, 10)),
        ('3/8"', Fraction(9525, 1000)),
    ],
)
def test_a_metric_job_reads_bare_numbers_as_millimetres(text: str, mm: Fraction | int) -> None:
    # Inch = 25.4 mm exactly: the 1959 agreement, NBS Circular 572 addendum (seen); no tolerance needed.
    assert parse_exact(text, "mm") * Fraction(254, 10) == mm


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_named_unit_means_the_same_in_every_job(unit: Unit) -> None:
    assert parse_exact("25.4 mm", unit) == 1
    assert parse_exact("304.8 mm", unit) == parse_exact("1 ft", unit) == 12
    assert parse_exact("2.54 cm", unit) == parse_exact("0.0254 m", unit) == 1


def test_parse_gives_the_nearest_float() -> None:
    assert parse("12'-9 11/16\"", "in") == 153.6875
    assert parse("0.1", "in") == 0.1
    assert isinstance(parse("3", "in"), float)


# Rounding


# Printing


# Cost


def modules_after(code: str) -> set[str]:
    """The top-level modules a fresh interpreter holds after running `code`."""
    script = f"import sys\n{code}\nprint(' '.join({{name.split('.')[0] for name in sys.modules}}))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_a_job_in_feet_and_inch_marks_never_imports_pint() -> None:
    imperial = """
from layouts.lengths import *
from layouts.lumber import section
for text in ("12'-9 11/16\\"", "41 3/8", "41.375", "4.04'", "9 in"):
    style = Style()
    value = parse(text, "in")
    show(value, style), show_inches(value, style), plain(value, style), to_unit(value, style)
for text in ("5' 14\\"", "4.04' 3\\"", "1 1/3"):
    try:
        parse(text, "in")
    except LengthError:
        continue
    raise AssertionError(text)
section("2x6", "in"), section('1 1/2" x 5 3/8"', "in")
"""
    assert "pint" not in modules_after(imperial)


def test_metric_lengths_do_ask_pint() -> None:
    assert "pint" in modules_after("from layouts.lengths import parse\nparse('3650 mm', 'in')")
