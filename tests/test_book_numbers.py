"""Readings of the field book, number by number: units, signs, and what looks like another unit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_book import one, read, refused

from layouts.lengths import Unit
from layouts.problems import JobRefused


def wrong(reading: str, *head: str, unit: Unit = "in") -> str:
    """What is wrong with that reading."""
    (line,) = refused("\n".join([*head, "column;reading", f"A1;{reading}"]), unit)
    return line.partition(": ")[2]


# --- numbers ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("reading", "unit", "inches"),
    [
        ("44 3/4", "inches", 44.75),
        ("44.75", "inches", 44.75),
        ("44¾", "inches", 44.75),
        ("44\N{NO-BREAK SPACE}3/4", "inches", 44.75),
        ("3' 8 3/4", "inches", 44.75),
        ("4.04", "feet", 48.48),
        ("4", "feet", 48),
        (".5", "feet", 6),
        ("4' 1/2\"", "feet", 48.5),
        ("4′ 0 1/2″", "feet", 48.5),
        ("48 1/2 in", "feet", 48.5),
        ("1231.9 mm", "feet", 48.5),
        ("1231.9", "mm", 48.5),
        ("1.2319 m", "mm", 48.5),
    ],
)
def test_numbers_in_their_units(reading: str, unit: str, inches: float) -> None:
    assert one(reading, f"unit,{unit}").down == pytest.approx(inches, abs=1e-12)


@pytest.mark.parametrize("minus", ["-", "- ", "\N{MINUS SIGN}", "–", "—", "‑"])
def test_a_minus_in_many_hands(minus: str) -> None:
    assert one(f"{minus}1/4", "sense,up").down == 0.25


@pytest.mark.parametrize(("reading", "down"), [("+1/4", -0.25), ("1/4", -0.25), ("0", 0), ("-0", 0), ("+0", 0)])
def test_plus_and_zero_of_a_receiver(reading: str, down: float) -> None:
    sight = one(reading, "sense,up")
    assert sight.down == down
    assert str(sight.raw) in ("0.0", "0.25")  # no minus nought


def test_a_benchmark_above_the_beam_and_one_in_it() -> None:
    found = read("benchmark,BM1\nbenchmark,BM2\ncolumn,reading\nBM1,-24\nBM2,0\nA1,36\n")
    assert [s.down for s in found.sights] == [-24, 0, 36]


@pytest.mark.parametrize("reading", ["0", "-0", "0.00", "0 in"])
def test_a_seat_in_the_beam_itself(reading: str) -> None:
    assert wrong(reading) == "is in the beam itself. Leave it empty until it is read."


def test_a_seat_above_the_beam() -> None:
    assert wrong("-1/4") == 'is above the beam. Where larger is higher, say so: a line "sense,up".'


def test_a_plus_asks_for_the_sense() -> None:
    said = 'has a plus, and a rod down from the beam has none. Is larger higher? Say so: a line "sense,up"; or '
    assert wrong("+44") == f'{said}"sense,down".'
    assert one("+44", "sense,down").down == 44


@pytest.mark.parametrize("reading", ["4 1/2", "4½", "4-6", "4 6", "48/2"])
def test_a_bare_number_in_a_file_of_feet_has_decimals(reading: str) -> None:
    assert wrong(reading, "unit,feet") == "is not decimal feet. Write 4.04, or mark feet with ' and inches with \"."


@pytest.mark.parametrize(
    ("reading", "unit", "said"),
    [
        ("4,04", "feet", "no commas: write thousands as 1200 and decimals as 3.5"),
        ("44,75", "inches", "no commas: write thousands as 1200 and decimals as 3.5"),
        ("1143,5", "mm", "no commas: write thousands as 1200 and decimals as 3.5"),
        ("1143 1/2", "mm", "fractions are for inches"),
        ("forty", "inches", "there is no number in it"),
        ("44 3/7", "inches", "a tape has halves"),
        ("--1/4", "inches", "a length cannot be negative"),
        ("4.", "feet", "is not decimal feet"),
        ("44.", "inches", "a decimal point needs a figure before and after it"),
        ("#N/A", "inches", "has no place in a length"),
        ("4-Mar", "inches", "mar is not a unit used here"),
    ],
)
def test_text_that_is_no_number(reading: str, unit: str, said: str) -> None:
    assert said in wrong(reading, f"unit,{unit}")


@given(st.text(st.characters(exclude_characters="\r\n;"), max_size=30), st.sampled_from(["inches", "feet", "mm"]))
def test_any_text_is_read_or_refused_in_words(reading: str, unit: str) -> None:
    """Never a traceback, and a number is never far from a rod."""
    try:
        found = read(f"unit;{unit}\nsense;up\ncolumn;reading\nA1;{reading}\n")
    except JobRefused as error:
        told = [str(p) for p in error.problems]
    else:
        told = []
        assert all(abs(s.down) <= 360 for s in found.sights)
    assert all(len(line) < 400 for line in told)


@given(st.text(max_size=200), st.sampled_from(["", "column,reading\n", "benchmark,X\ncolumn,reading,set-up,on,note\n"]))
def test_any_file_is_read_or_refused_in_words(text: str, head: str) -> None:
    told = []
    try:
        read(head + text)
    except JobRefused as error:
        told = [str(p) for p in error.problems]
    assert all(len(line) < 500 for line in told)


@given(st.integers(1, 360 * 64))
def test_every_reading_of_a_tape_is_read_exactly(n: int) -> None:
    whole, rest = divmod(Fraction(n, 64), 1)
    assert one(f"{whole} {rest}" if rest else str(whole)).down == n / 64


# --- numbers of another unit ------------------------------------------------------------------------------------------


def test_mm_in_a_file_of_inches_are_told_once() -> None:
    """Longer than any rod, all of them: not a list of as many lines."""
    assert refused("column,reading\nA1,1143\nA2,1150\nA3,44\n") == [
        "line 2, column A1 = 1143: is longer than any rod, taken as inches. So are 1 more. Are they mm? "
        'Say so: a line "unit,mm" before the heading.'
    ]


def test_inches_in_a_file_of_feet_are_told_once() -> None:
    (line,) = refused("unit,feet\ncolumn,reading\nA1,44.5\nA2,45\nA3,44.75\n")
    assert 'taken as feet. So are 2 more. Are they inches? Say so: a line "unit,inches"' in line


def test_mm_in_a_file_of_feet_are_told_once() -> None:
    (line,) = refused("unit,feet\ncolumn,reading\nA1,1143\n")
    assert line.endswith(
        'longer than any rod, taken as feet. Are they mm? Say so: a line "unit,mm" before the heading.'
    )


def test_one_slip_among_many_is_told_as_such_and_other_mistakes_keep_their_place() -> None:
    lines = refused("column,reading\nZ9,44\nA1,1143\nA2,44\nA3,45\nA4,x\n")
    assert [line.split(" = ")[0] for line in lines] == ["line 2", "line 3, column A1", "line 6, column A4"]
    assert lines[1].endswith("is longer than any rod. Up to 30'-0\".")
