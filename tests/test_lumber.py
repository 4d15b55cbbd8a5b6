"""Sections: nominal names against the published sizes, real sizes as written, and the refusals."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.lengths import LengthError, Unit
from layouts.lumber import Section, section


def refusal(text: str, unit: Unit = "in") -> str:
    with pytest.raises(LengthError) as caught:
        section(text, unit)
    return str(caught.value)


# NIST PS 20, dry sizes of dimension lumber (seen in a public copy of the size table).
@pytest.mark.parametrize(
    ("name", "thick", "wide"),
    [
        ("2x2", 1.5, 1.5),
        ("2x3", 1.5, 2.5),
        ("2x4", 1.5, 3.5),
        ("2x5", 1.5, 4.5),
        ("2x6", 1.5, 5.5),
        ("2x8", 1.5, 7.25),
        ("2x10", 1.5, 9.25),
        ("2x12", 1.5, 11.25),
        ("2x14", 1.5, 13.25),
        ("2x16", 1.5, 15.25),
        ("3x8", 2.5, 7.25),
        ("4x4", 3.5, 3.5),
        ("4x6", 3.5, 5.5),
        ("4x16", 3.5, 15.25),
    ],
)
def test_dimension_lumber(name: str, thick: float, wide: float) -> None:
    assert section(name, "in") == Section(name, thick, wide)


# NIST PS 20, boards: nominal 1 is 3/4 dry (seen in a public copy of the size table).
@pytest.mark.parametrize(("name", "wide"), [("1x2", 1.5), ("1x4", 3.5), ("1x6", 5.5), ("1x8", 7.25), ("1x12", 11.25)])
def test_boards(name: str, wide: float) -> None:
    assert section(name, "in") == Section(name, 0.75, wide)


# NIST PS 20, timbers, dry: nominal 5-6 lose 1/2, 7-15 lose 3/4, 16 and over lose 1 (seen as above). The green
# trap: a green 6x8 is 5 1/2 x 7 1/2, and a green 4x6, which is no timber, is 3 9/16 x 5 5/8.
@pytest.mark.parametrize(
    ("name", "thick", "wide"),
    [
        ("5x5", 4.5, 4.5),
        ("6x6", 5.5, 5.5),
        ("6x8", 5.5, 7.25),
        ("8x8", 7.25, 7.25),
        ("10x12", 9.25, 11.25),
        ("15x15", 14.25, 14.25),
        ("6x16", 5.5, 15.0),
        ("16x16", 15.0, 15.0),
    ],
)
def test_timbers(name: str, thick: float, wide: float) -> None:
    assert section(name, "in") == Section(name, thick, wide)


@pytest.mark.parametrize("text", ["2x6", "2 x 6", "2X6", " 2 \u00d7 6 ", "6x2", "02x06"])
def test_one_size_has_one_name(text: str) -> None:
    assert section(text, "in") == Section("2x6", 1.5, 5.5)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1 1/2 x 5 3/8", Section('1 1/2" x 5 3/8"', 1.5, 5.375)),
        ("5 3/8 x 1 1/2", Section('1 1/2" x 5 3/8"', 1.5, 5.375)),
        ("1.5x5.5", Section('1 1/2" x 5 1/2"', 1.5, 5.5)),
        ('1-1/2" x 3-1/2"', Section('1 1/2" x 3 1/2"', 1.5, 3.5)),
        ("4\u00bd\u2033 \u00d7 5\u215c\u2033", Section('4 1/2" x 5 3/8"', 4.5, 5.375)),
        # One mark, fraction or point makes both sides real.
        ('2" x 6', Section('2" x 6"', 2.0, 6.0)),
        ("2 x 5 1/2", Section('2" x 5 1/2"', 2.0, 5.5)),
        # No tape fraction: the name must not hide the size.
        ("1.53 x 5.5", Section('1.53" x 5 1/2"', 1.53, 5.5)),
    ],
)
def test_real_inches(text: str, expected: Section) -> None:
    assert section(text, "in") == expected


@pytest.mark.parametrize("text", ["45x90", "90x45", "45 mm x 90 mm", "45 x 90 mm", "4.5 cm x 9 cm", "45.0 X 90"])
def test_real_millimetres(text: str) -> None:
    found = section(text, "mm")
    assert found.name == "45x90"
    # Inch = 25.4 mm exactly: NBS Circular 572 addendum (seen).
    assert found.thick == pytest.approx(45 / 25.4, abs=1e-12)
    assert found.wide == pytest.approx(90 / 25.4, abs=1e-12)


def test_a_side_may_name_the_other_system() -> None:
    assert section('1 1/2" x 3 1/2"', "mm") == Section("38.1x88.9", 1.5, 3.5)
    metric = section("38.1 mm x 88.9 mm", "in")
    assert metric == Section('1 1/2" x 3 1/2"', 1.5, 3.5)


@pytest.mark.parametrize(
    ("text", "wrong", "right"),
    [
        ("2x13", "not a nominal size", "write 2x12 or 2x14"),
        ("13x2", "not a nominal size", "write 2x12 or 2x14"),
        ("2x7", "not a nominal size", "write 2x6 or 2x8"),
        ("1x1", "not a nominal size", "1x2"),
        ("0x6", "not a nominal size", "1x6"),
        ("20x20", "not a nominal size", "16x16"),
        ("45x90", "not a nominal size", "45 mm x 90 mm"),
        ("45 x 90 mm", "another unit", "2x6"),
        ('38 mm x 3 1/2"', "another unit", "2x6"),
        ("3/8 x 3 1/2", '1/2" to 24"', "2x6"),
        ("5.5 x 24.1", '1/2" to 24"', "2x6"),
        ("1 1/3 x 5", "no 1/3", "write 1 5/16"),
        ("-2 x 6", "negative", "write"),
        ("2x", "two numbers with an x between", "2x6"),
        ("2", "two numbers with an x between", "2x6"),
        ("2x6x8", "two numbers with an x between", "2x6"),
        ("2 by 6", "two numbers with an x between", "2x6"),
        ("", "two numbers with an x between", "2x6"),
        ("2x" + "6" * 39, "longer than 40", "2x6"),
        ("\uff12x6", "plain figures", "write"),
    ],
)
def test_refusals_in_an_imperial_job(text: str, wrong: str, right: str) -> None:
    message = refusal(text)
    assert wrong in message
    assert right in message


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("2x6", "real size"),
        ("12x90", "12.7 mm"),
        ("45x610", "609.6 mm"),
        ("1 1/2 x 5 1/2", "fractions are for inches"),
        ('38 x 3 1/2"', "another unit"),
        ("45", "two numbers"),
    ],
)
def test_refusals_in_a_metric_job(text: str, wrong: str) -> None:
    assert wrong in refusal(text, "mm")


def read(text: str, unit: Unit) -> Section | str:
    """The section, or what the refusal says."""
    try:
        return section(text, unit)
    except LengthError as error:
        return str(error)


@pytest.mark.parametrize("thick", range(1, 17))
def test_a_dressed_piece_is_less_than_an_inch_smaller_than_its_name(thick: int) -> None:
    found = {wide: read(f"{wide}x{thick}", "in") for wide in range(thick, 17)}
    refused = {wide for wide, answer in found.items() if isinstance(answer, str)}
    # A piece under 5 thick comes in the published widths only; a piece 1x1 in none.
    odd = {7, 9, 11, 13, 15} | ({1} if thick == 1 else set())
    assert refused == (odd if thick < 5 else set())
    for wide, piece in found.items():
        if isinstance(piece, Section):
            assert thick - 1 <= piece.thick < thick
            assert wide - 1 <= piece.wide < wide
            assert piece.name == f"{thick}x{wide}"


# The first metric length imports pint, so no deadline.
@settings(deadline=None)
@given(st.text(max_size=20) | st.text("0123456789x\u00d7X ./-'\"m", max_size=14), st.sampled_from(["in", "mm"]))
def test_any_text_is_a_section_or_a_length_error(text: str, unit: Unit) -> None:
    found = read(text, unit)
    if isinstance(found, str):
        assert "write " in found
    else:
        assert 0.5 <= found.thick <= found.wide <= 24


SIDES = st.integers(32, 64 * 16).map(lambda count: Fraction(count, 64))


@given(SIDES, SIDES)
def test_the_name_of_a_real_size_reads_back(one: Fraction, other: Fraction) -> None:
    found = section(f'{float(one)}" x {float(other)}"', "in")
    assert found == section(found.name, "in")
    assert found.thick == min(one, other)
    assert found.wide == max(one, other)
