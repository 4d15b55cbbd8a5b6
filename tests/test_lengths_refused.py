"""Lengths that are refused: what is wrong, and what would be right."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.lengths import (
    LengthError,
    Unit,
    parse,
    parse_exact,
)


def refusal(text: str, unit: Unit = "in") -> str:
    with pytest.raises(LengthError) as caught:
        parse_exact(text, unit)
    return str(caught.value)


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
        ("413/8", "413/8 is a whole or more", "if a space was missed write 41 3/8, else 51 5/8"),
        ("411\u20442", "411/2 is a whole or more", "if a space was missed write 41 1/2, else 205 1/2"),
        ("451/8", "451/8 is a whole or more", "if a space was missed write 45 1/8, else 56 3/8"),
        ("1311/16", "1311/16 is a whole or more", "if a space was missed write 13 11/16 or 131 1/16, else 81 15/16"),
        ("401/8", "401/8 is a whole or more", "if a space was missed write 40 1/8, else 50 1/8"),
        ("408/8", "408/8 is a whole or more", "if that is meant write 51"),
        ("4 51/8", "51/8 is a whole or more", "if that is meant write 10 3/8"),
        # what would be right has the feet too
        ("12'-9 11/61", "no 11/61", "write 12'-9 11/16"),
        ("3' 5/61", "no 5/61", "write 3'-0 5/16"),
        ("7'-45/8", "45/8 is a whole or more", "if a space was missed write 7'-4 5/8, else 7'-5 5/8"),
        ("7'-11 9/8", "9/8 is a whole or more", "if that is meant write 8'-0 1/8"),  # 11 + 1 1/8 = 12 1/8
        ("7' 3.5 1/4", "a decimal or a fraction", "write 7'-3.5 or 7'-3 1/4"),
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
        ("44 11/61", "no 11/61", "write 44 11/16"),  # figures in each other's place: 11/61 alone is 3/16
        ("44 16/11", "no 16/11", "write 44 11/16"),  # 1 7/16
        ("44 5/23", "no 5/23", "write 44 5/32"),
        ("3/46", "no 3/46", "write 3/64"),
        ("44 16/61", "no 16/61", "write 44 1/4"),  # 16/16 is no part of an inch: what is nearest, 0.262
        ("44 17/61", "no 17/61", "write 44 1/4"),
        ("44 1/40", "no 1/40", "write 44"),  # no tape's 4ths
        ("44 12/11", "no 12/11", "write 45 1/16"),  # no tape has 12ths: 12/11 is nearest to 1 1/16
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


def test_a_space_missed_after_feet_leaves_inches_under_12() -> None:
    """611/16 is 6 11/16, or 61 1/16, or 38 3/16: after feet only the first can be."""
    with pytest.raises(LengthError) as caught:
        parse("13'-611/16", "in")
    assert str(caught.value).endswith("611/16 is a whole or more; if a space was missed write 13'-6 11/16")
    assert parse("13'-6 11/16", "in") == 13 * 12 + 6.6875
    with pytest.raises(LengthError) as caught:
        parse("5' 11/8", "in")
    assert str(caught.value).endswith("if a space was missed write 5'-1 1/8, else 5'-1 3/8")
