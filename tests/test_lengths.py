"""Lengths in and out: the grammar, its refusals, rounding by the book, and what must never be imported."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.lengths import (
    NOISE,
    LengthError,
    Style,
    Unit,
    down,
    nearest,
    parse,
    parse_exact,
    plain,
    show,
    show_inches,
    to_unit,
    up,
)

SIXTEENTHS = Style()
THIRTY_SECONDS = Style("in", 32)
METRIC = Style("mm")
STYLES = [SIXTEENTHS, THIRTY_SECONDS, METRIC]


def refusal(text: str, unit: Unit = "in") -> str:
    with pytest.raises(LengthError) as caught:
        parse_exact(text, unit)
    return str(caught.value)


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


IMPERIAL_EXAMPLE = "12'-9 11/16\""


@pytest.mark.parametrize(
    ("text", "wrong", "right"),
    [
        ("-5", "cannot be negative", IMPERIAL_EXAMPLE),
        ("\u22125 1/2", "cannot be negative", IMPERIAL_EXAMPLE),
        ("", "no length given", IMPERIAL_EXAMPLE),
        (" \u00a0", "no length given", IMPERIAL_EXAMPLE),
        ("nan", "no number", IMPERIAL_EXAMPLE),
        ("inf", "no number", IMPERIAL_EXAMPLE),
        ("pt", "no number", IMPERIAL_EXAMPLE),
        ("'", "no number", IMPERIAL_EXAMPLE),
        ("1/0", "divided by 0", IMPERIAL_EXAMPLE),
        ("3 1/0", "divided by 0", IMPERIAL_EXAMPLE),
        ("5' 14\"", "under 12", "write 6'-2\""),
        ("5' 12\"", "under 12", "write 6'-0\""),
        ("3 ft 14 in", "under 12", "write 4'-2\""),
        ("3 1/2 1/4", "one fraction", IMPERIAL_EXAMPLE),
        ("\u00bd\u00bc", "one fraction", IMPERIAL_EXAMPLE),
        ("4.04' 3\"", "decimal feet stand alone", "write 4.04 ft, or 4'-0 1/2\" if rounded"),
        ("3 5/4", "5/4 is a whole or more", "write 4 1/4"),
        ("5/4", "5/4 is a whole or more", "write 1 1/4"),
        ("413/8", "413/8 is a whole or more", "write 51 5/8"),
        ("411\u20442", "411/2 is a whole or more", "write 205 1/2"),
        ("1e3", "no exponents", "1000"),
        ("1e-3", "no exponents", "1000"),
        ("1,200", "no commas", "1200"),
        ("3,5", "no commas", "3.5"),
        ("3 ft 200 mm", "one unit", IMPERIAL_EXAMPLE),
        ("3 m 20 cm", "one unit", IMPERIAL_EXAMPLE),
        ('12" 20 mm', "one unit", IMPERIAL_EXAMPLE),
        ("12' 9 3/8 mm", "one unit", IMPERIAL_EXAMPLE),
        ("3 in 2 ft", "feet come first", IMPERIAL_EXAMPLE),
        ("12' 9'", "feet come first", IMPERIAL_EXAMPLE),
        ("2 ft 3 ft", "feet come first", IMPERIAL_EXAMPLE),
        ("3 1/2 mm", "fractions are for inches", 'write 3.5 mm, or 3 1/2" for inches'),
        ("3 3/4 m", "fractions are for inches", "write 3.75 m"),
        ("5281'", "over a mile (5280 ft)", IMPERIAL_EXAMPLE),
        ("63360.1", "over a mile", IMPERIAL_EXAMPLE),
        ("5 pt", "pt is not a unit", "ft, in, mm, cm or m"),
        ("5 yd", "yd is not a unit", "ft, in, mm, cm or m"),
        ("3 ft 2 pt", "pt is not a unit", "ft, in, mm, cm or m"),
        ("3 yd 2 in", "yd is not a unit", "ft, in, mm, cm or m"),
        ("9**9", "* has no place", IMPERIAL_EXAMPLE),
        ("5 \u202e12", "U+202E has no place", IMPERIAL_EXAMPLE),
        ("41 1/3", "no 1/3", "write 41 5/16"),
        ("\u2153", "no 1/3", "write 5/16"),
        ("7/10", "no 7/10", "write 11/16"),
        ("3/128", "no 3/128", "write 0"),
        ("\uff14\uff11", "plain figures 0 to 9, not \uff14", IMPERIAL_EXAMPLE),
        ("4\u00b2", "plain figures 0 to 9, not \u00b2", IMPERIAL_EXAMPLE),
        ("\u0663", "plain figures 0 to 9, not \u0663", IMPERIAL_EXAMPLE),
        ("12-4-8", "feet-inches-sixteenths", IMPERIAL_EXAMPLE),
        ("12-9", "which figures are feet", IMPERIAL_EXAMPLE),
        ("41 - 3/8", "not a minus", IMPERIAL_EXAMPLE),
        ("12 9 11/16", "side by side", IMPERIAL_EXAMPLE),
        ("1 200", "side by side", IMPERIAL_EXAMPLE),
        ("41.", "decimal point", IMPERIAL_EXAMPLE),
        ("12' .5\"", "decimal point", IMPERIAL_EXAMPLE),
        ("41.5 3/8", "a decimal or a fraction", "write 41.5 or 41 3/8"),
        ("3//8", "one fraction", IMPERIAL_EXAMPLE),
    ],
)
def test_refusals_say_what_is_wrong_and_what_is_right(text: str, wrong: str, right: str) -> None:
    message = refusal(text)
    assert wrong in message
    assert right in message


@pytest.mark.parametrize(
    ("text", "wrong", "right"),
    [
        ("-5", "cannot be negative", "write 3895 or 3895 mm"),
        ("", "no length given", "write 3895 or 3895 mm"),
        ("41 3/8", "fractions are for inches", 'write 41.375 mm, or 41 3/8" for inches'),
        ("\u2153", "fractions are for inches", "write 0.3333333333 mm"),
        ("5' 14\"", "under 12", "write 1880 mm"),
        ("4.04' 3\"", "decimal feet stand alone", "1231 mm"),
        ("1,200", "no commas", "1200"),
        ("1609345", "over a mile (1609344 mm)", "write 3895"),
    ],
)
def test_a_metric_job_is_answered_in_millimetres(text: str, wrong: str, right: str) -> None:
    message = refusal(text, "mm")
    assert wrong in message
    assert right in message


def test_a_refusal_begins_with_what_was_typed() -> None:
    assert refusal(" 1,200 ").startswith("1,200: ")
    assert refusal("5\x00").startswith("5?: ")


def test_a_mile_itself_is_taken() -> None:
    assert parse_exact("5280'", "in") == 63360
    assert parse_exact("1609344", "mm") == 63360


def test_forty_characters_are_read_and_more_are_cut_short() -> None:
    assert parse_exact("0" * 38 + "41", "in") == 41
    message = refusal("9" * 5000)
    assert "longer than 40 characters" in message
    assert len(message) < 130
    assert "9" * 38 not in message


@pytest.mark.parametrize(
    "text",
    [
        "9" * 40,
        "1 " * 20,
        "1/" * 20,
        "1-" * 20,
        "1." * 20,
        "'1" * 20,
        '"1' * 20,
        "1' " * 13,
        "a1" * 20,
        "in" * 20,
        "ft1" * 13,
        " " * 39 + "x",
        "\u00bd" * 40,
        "m 1" * 13,
    ],
)
def test_texts_made_to_be_slow_are_refused(text: str) -> None:
    assert refusal(text)


def read(text: str, unit: Unit) -> Fraction | str:
    """The length, or what the refusal says."""
    try:
        return parse_exact(text, unit)
    except LengthError as error:
        return str(error)


SIGNS = "0123456789/.-'\" ftinmc\u00bd\u2153\u2032"


# The first metric length imports pint, so no deadline.
@settings(deadline=None)
@given(st.text(max_size=45) | st.text(SIGNS, max_size=14), st.sampled_from(["in", "mm"]))
def test_any_text_is_a_length_or_a_length_error(text: str, unit: Unit) -> None:
    found = read(text, unit)
    if isinstance(found, str):
        assert "write " in found
    else:
        assert 0 <= found <= 63360


# Rounding


@pytest.mark.parametrize(
    ("inches", "sixteenths"),
    [
        # Half up to 1/16: NAVEDTRA 14044 (seen). Half-even would give 0 and 1/8 for the first two.
        (Fraction(1, 32), Fraction(1, 16)),
        (Fraction(5, 32), Fraction(3, 16)),
        (Fraction(-1, 32), Fraction(0)),
        (Fraction(-3, 32), Fraction(-1, 16)),
        (Fraction(3, 64), Fraction(1, 16)),
        (Fraction(1, 64), Fraction(0)),
        (Fraction(41), Fraction(41)),
    ],
)
def test_ties_go_up(inches: Fraction, sixteenths: Fraction) -> None:
    assert nearest(inches, SIXTEENTHS) == sixteenths
    assert nearest(float(inches), SIXTEENTHS) == sixteenths


def test_a_rafter_of_the_builders_manual() -> None:
    # NAVEDTRA 14044 (seen): 7 in to the foot, 16 ft span: 13.89 x 8 = 111.12 in, printed as 9'-3 1/8".
    assert show(13.89 * 8, SIXTEENTHS) == "9'-3 1/8\""


def test_a_rafter_of_griffith() -> None:
    # Griffith, Carpentry (1916), section 17 (seen): 12.5 x 13.42 = 167.75 in.
    assert show(12.5 * 13.42, SIXTEENTHS) == "13'-11 3/4\""
    # The exact length, 12.5 x sqrt(180) = 167.705 (computed), is 1/16 shorter.
    assert show(12.5 * 180**0.5, SIXTEENTHS) == "13'-11 11/16\""


def test_half_millimetres_go_up() -> None:
    assert nearest(Fraction(5, 254), METRIC) == 1  # 0.5 mm
    assert nearest(Fraction(-5, 254), METRIC) == 0
    assert nearest(Fraction(25, 254), METRIC) == 3  # 2.5 mm, half-even would give 2
    assert nearest(1.0, METRIC) == 25


def test_float_noise_neither_breaks_a_tie_nor_jumps_a_step() -> None:
    noise = 1e-12
    assert nearest(5 / 32 - noise, SIXTEENTHS) == Fraction(3, 16)
    assert down(3 / 8 - noise, SIXTEENTHS) == Fraction(3, 8)
    assert up(3 / 8 + noise, SIXTEENTHS) == Fraction(3, 8)
    assert down(100 / 25.4 - noise, METRIC) == 100
    assert up(100 / 25.4 + noise, METRIC) == 100
    # 0.1 added ten times falls a hair short of an inch.
    assert down(sum([0.1] * 10), SIXTEENTHS) == 1


def test_what_is_more_than_noise_counts() -> None:
    more = 10 * NOISE
    assert nearest(5 / 32 - more, SIXTEENTHS) == Fraction(1, 8)
    assert down(3 / 8 - more, SIXTEENTHS) == Fraction(5, 16)
    assert up(3 / 8 + more, SIXTEENTHS) == Fraction(7, 16)


@settings(deadline=None)
@given(st.floats(-63360, 63360), st.sampled_from(STYLES))
def test_rounding_stays_within_its_step(inches: float, style: Style) -> None:
    step = Fraction(1) if style.unit == "mm" else Fraction(1, style.fraction)
    exact = Fraction(inches) * (Fraction(254, 10) if style.unit == "mm" else 1)
    slack = Fraction(1, 10**7)
    low, near, high = down(inches, style), nearest(inches, style), up(inches, style)
    assert low <= exact + slack
    assert high >= exact - slack
    assert high - low in (0, step)
    assert near in (low, high)
    assert abs(near - exact) <= step / 2 + slack
    for value in (low, near, high):
        assert (value / step).denominator == 1


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), float("-inf")])
@pytest.mark.parametrize("style", STYLES)
def test_what_is_no_number_is_never_printed(bad: float, style: Style) -> None:
    with pytest.raises(ValueError, match="not a length"):
        show(bad, style)


def test_a_style_is_sixteenths_or_thirty_seconds() -> None:
    with pytest.raises(ValueError, match="not 10"):
        Style("in", 10)


# Printing


@pytest.mark.parametrize(
    ("inches", "printed"),
    [
        (Fraction(2641, 16), "13'-9 1/16\""),
        (23.625, '23 5/8"'),
        (0.375, '3/8"'),
        (0, '0"'),
        (1, '1"'),
        (144, "12'-0\""),
        (144.5, "12'-0 1/2\""),
        (24, "2'-0\""),
        # Feet are split off after rounding.
        (Fraction(767, 32), "2'-0\""),
        (Fraction(4607, 32), "12'-0\""),
        (-0.375, '-3/8"'),
        (-1.5, '-1 1/2"'),
        (-165.0625, "-13'-9 1/16\""),
        (-1 / 64, '0"'),
    ],
)
def test_sixteenths_as_printed(inches: float | Fraction, printed: str) -> None:
    assert show(inches, SIXTEENTHS) == printed


def test_thirty_seconds_and_millimetres_as_printed() -> None:
    assert show(Fraction(767, 32), THIRTY_SECONDS) == '23 31/32"'
    assert show(Fraction(768, 32), THIRTY_SECONDS) == "2'-0\""
    assert show(165.0625, METRIC) == "4193 mm"  # 165.0625 x 25.4 = 4192.5875
    assert show(-1.0, METRIC) == "-25 mm"
    assert show(0, METRIC) == "0 mm"


def test_total_inches_as_printed() -> None:
    assert show_inches(165.0833, SIXTEENTHS) == '165 1/16"'
    assert show_inches(23.625, SIXTEENTHS) == '23 5/8"'
    assert show_inches(-165.0625, SIXTEENTHS) == '-165 1/16"'
    assert show_inches(165.0833, METRIC) == "4193 mm"


def test_rounding_down_and_up_as_printed() -> None:
    assert show(23.99, SIXTEENTHS, rounded=down) == '23 15/16"'
    assert show(23.94, SIXTEENTHS, rounded=up) == "2'-0\""
    assert show_inches(30.01, SIXTEENTHS, rounded=up) == '30 1/16"'
    assert show(100.9 / 25.4, METRIC, rounded=down) == "100 mm"


def test_numbers_for_programs() -> None:
    assert plain(165.0833, SIXTEENTHS) == 165.0625
    assert plain(165.0833, SIXTEENTHS, rounded=up) == 165.125
    metric = plain(165.0833, METRIC)
    assert metric == 4193
    assert isinstance(metric, int)
    assert to_unit(165.0833, SIXTEENTHS) == 165.0833
    assert to_unit(2.0, METRIC) == 50.8


@settings(deadline=None)
@given(st.floats(0, 63359), st.sampled_from(STYLES))
def test_what_is_printed_reads_back(inches: float, style: Style) -> None:
    step = nearest(inches, style)
    want = step / Fraction(254, 10) if style.unit == "mm" else step
    assert parse_exact(show(inches, style), style.unit) == want
    assert parse_exact(show_inches(inches, style), style.unit) == want


def test_a_stack_of_printed_parts_adds_up_to_the_printed_sum() -> None:
    # Common practice, no source: bearing, truss heel and plumb purlin up; soffit drop and fascia down.
    top = sum(parse_exact(part, "in") for part in ("12'-0\"", '15 1/2"', '3 11/16"'))
    assert show(top, SIXTEENTHS) == "13'-7 3/16\""
    assert show(top - parse_exact('4"', "in") - parse_exact('5 1/2"', "in"), SIXTEENTHS) == "12'-9 11/16\""


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
