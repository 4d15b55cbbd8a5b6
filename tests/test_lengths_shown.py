"""Lengths out: rounded once, by the book, and printed so that they are read back."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.lengths import (
    NOISE,
    Style,
    down,
    nearest,
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
