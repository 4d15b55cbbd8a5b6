"""Nails as they are written, held against published sizes."""

from __future__ import annotations

import contextlib
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts import nails
from layouts.lengths import LengthError, Style, Unit
from layouts.nails import Nail, NailError, Nailing

INCH, METRIC = Style(), Style("mm")
RING = nails.parse("4 x .177 ring", "in")


# --- as written -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "nail"),
    [
        ("3 1/2 x .162", Nail(3.5, 0.162)),
        ('3 1/2" x .162"', Nail(3.5, 0.162)),
        ("3½ × 0.162", Nail(3.5, 0.162)),
        ("3 1/2x.162", Nail(3.5, 0.162)),
        (".162 x 3 1/2", Nail(3.5, 0.162)),
        ("16d common", Nail(3.5, 0.162, "common")),
        ("16D Common HDG", Nail(3.5, 0.162, "common", "HDG")),
        ("20d x .177 ring", Nail(4, 0.177, "ring")),
        ("4 x .177 ring", Nail(4, 0.177, "ring")),
        ("4 x .177 ring-shank nails, hot-dip galvanised", Nail(4, 0.177, "ring", "HDG")),
        ("4 x .177 HDG ring", Nail(4, 0.177, "ring", "HDG")),
        ("4 x .177 ring stainless steel", Nail(4, 0.177, "ring", "stainless")),
        ("3 1/2 x .135 box", Nail(3.5, 0.135, "box")),
        ("3 x .148 screw shank", Nail(3, 0.148, "spiral")),
    ],
)
def test_nails_as_a_crew_writes_them(text: str, nail: Nail) -> None:
    assert nails.parse(text, "in") == nail


def test_a_metric_nail() -> None:
    """100 mm is 3.937 in, 4.5 mm is .17717 in."""
    nail = nails.parse("100 x 4.5 ring HDG", "mm")
    assert nail.length == pytest.approx(3.93701, abs=1e-5)
    assert nail.diameter == pytest.approx(0.177165, abs=1e-6)
    assert nails.show_nail(nail, METRIC) == "100 x 4.5 mm ring, HDG"


@pytest.mark.parametrize("text", ["4 inches x .177", "4 inch x .177 inch", "4 in x .177 in"])
def test_the_unit_may_be_said(text: str) -> None:
    assert nails.parse(text, "in") == nails.parse("4 x .177", "in")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("16d", "16d is 3 1/2 in long, but how thick"),
        ("16d box", "how thick"),
        ("20d ring", "Write 4 x its diameter"),
        ("7d common", "not one of 6d"),
        ("7d x .12", "not one of 6d"),
        ("3 1/2", "its length x its diameter"),
        ("3 1/2 x", "its length x its diameter"),
        ("", "its length x its diameter"),
        ("ring", "its length x its diameter"),
        ("4 x .177 x 2", "its length x its diameter"),
        ("4 x .177 galv", "galv says not how"),
        ("4 x .177 galvanized ring", "galvanized says not how"),
        ("4 x .177 clinched", "clinched is not a word for nails"),
        ("4 x 3", "no nail is"),
        ("40 x 1.77", "no nail is"),
        ("4 x .01", "no nail is"),
        ("4 x -.177", "negative"),
        ("4 x 1e-1", "no exponents"),
        ("4 x nan", "nan is not a word"),
        ("9" * 60 + " x .177", "longer than 60"),
    ],
)
def test_what_is_no_nail_is_refused_in_words(text: str, why: str) -> None:
    with pytest.raises(LengthError, match=why):
        nails.parse(text, "in")


@given(st.text(max_size=70))
def test_any_text_is_a_nail_or_refused(text: str) -> None:
    for unit in get_args(Unit):
        for read in (nails.parse, nails.nailing):
            with contextlib.suppress(LengthError):
                read(text, unit)


@given(st.sampled_from([2.0, 2.375, 3.25, 3.5, 4.5, 8.0]), st.integers(80, 240), st.sampled_from(get_args(nails.Shank)))
def test_what_is_printed_is_read_back(length: float, mils: int, shank: nails.Shank) -> None:
    nail = Nail(length, mils / 1000, shank, "HDG")
    if length > 8 * nail.diameter:
        assert nails.parse(nails.show_nail(nail, INCH), "in") == nail


@pytest.mark.parametrize(
    ("text", "count"), [("2 of 4 x .177 ring", 2), ("(3) 4 x .177 ring", 3), ("12 OF 4 x .177 ring", 12)]
)
def test_how_many_at_a_crossing(text: str, count: int) -> None:
    assert nails.nailing(text, "in") == Nailing(count, RING)


def test_an_empty_joint_stays_empty() -> None:
    assert nails.nailing("", "in") is None
    assert nails.nailing("  ", "mm") is None


@pytest.mark.parametrize(
    "text",
    ["4 x .177 ring", "2 4 x .177 ring", "2 x 4 x .177", "0 of 16d common", "41 of 16d common", "9" * 5000 + " of 4"],
)
def test_a_joint_that_does_not_say_how_many_is_refused(text: str) -> None:
    with pytest.raises(NailError, match=r"at a crossing|at each crossing"):
        nails.nailing(text, "in")


# --- against published sizes ----------------------------------------------------------------------------------------

# Penny to length and diameter, inches: an open university textbook (seen).
COMMON = {
    "6d": ("2", ".113"),
    "8d": ("2 1/2", ".131"),
    "10d": ("3", ".148"),
    "12d": ("3 1/4", ".148"),
    "16d": ("3 1/2", ".162"),
    "20d": ("4", ".192"),
    "30d": ("4 1/2", ".207"),
    "40d": ("5", ".225"),
    "50d": ("5 1/2", ".244"),
    "60d": ("6", ".262"),
}

# Post-frame ring-shank nails, AF&PA/AWC Design Aid No. 4, 2007 (seen).
DESIGN_AID_4 = {
    ".135": "3, 3 1/2",
    ".148": "3, 3 1/2, 4, 4 1/2",
    ".177": "3, 3 1/2, 4, 4 1/2, 5, 6, 8",
    ".200": "3 1/2, 4, 4 1/2, 5, 6, 8",
    ".207": "4, 4 1/2, 5, 6, 8",
}
PAIRS = [(length, wire) for wire, lengths in DESIGN_AID_4.items() for length in lengths.split(", ")]
EVERY_LENGTH = ["2 1/2", "3", "3 1/2", "4", "4 1/2", "5", "6", "7", "8"]


@pytest.mark.parametrize(("penny", "size"), COMMON.items())
def test_common_nails_by_penny(penny: str, size: tuple[str, str]) -> None:
    """By name and by size it is one nail, accepted, and printed as length x diameter."""
    length, wire = size
    named, sized = nails.parse(f"{penny} common", "in"), nails.parse(f"{length} x {wire} common", "in")
    assert named == sized
    assert nails.question(named, INCH) == ""
    assert nails.show_nail(named, INCH) == f'{length}" x {wire}" common'


@pytest.mark.parametrize(("length", "wire"), PAIRS)
def test_pairs_of_design_aid_4_are_accepted(length: str, wire: str) -> None:
    assert nails.question(nails.parse(f"{length} x {wire} ring", "in"), INCH) == ""
    assert nails.question(nails.parse(f"{length} x {wire} ring HDG", "in"), INCH) == ""
    assert nails.question(nails.parse(f"{length} x {wire}", "in"), INCH) == ""


@pytest.mark.parametrize(
    ("length", "wire"),
    [(n, w) for n in EVERY_LENGTH for w in (*DESIGN_AID_4, ".120", ".131", ".162", ".192") if (n, w) not in PAIRS],
)
def test_all_other_pairs_are_questioned(length: str, wire: str) -> None:
    asked = nails.question(nails.parse(f"{length} x {wire} ring HDG", "in"), INCH)
    assert asked.startswith(f'Is {length}" x {wire}" ring right?')
    assert "Design Aid No. 4" in asked


def test_a_question_says_what_there_is_in_that_length() -> None:
    assert "in that length it has .148, .177, .200, .207" in nails.question(nails.parse("4 x .162 ring", "in"), INCH)
    assert "it has no such length" in nails.question(nails.parse("7 x .177 ring", "in"), INCH)
    assert "in that length it is .162" in nails.question(nails.parse("3 1/2 x .148 common", "in"), INCH)
    assert "none of that length" in nails.question(nails.parse("7 x .177 common", "in"), INCH)


def test_a_gun_nail_is_not_taken_for_a_ring_shank_of_its_length() -> None:
    asked = nails.question(nails.parse("4 x .131", "in"), INCH)
    assert "in no table at hand" in asked
    assert "not that of another of its length" in asked


@pytest.mark.parametrize("wire", [".262", ".263"])
def test_the_60d_is_in_both_tables_of_common_nails(wire: str) -> None:
    """.262 or .263 (both seen)."""
    assert nails.question(nails.parse(f"6 x {wire} common", "in"), INCH) == ""


def test_a_common_size_is_no_ring_shank() -> None:
    assert nails.question(nails.parse("20d common", "in"), INCH) == ""
    assert nails.question(nails.parse("20d x .192 ring", "in"), INCH) != ""


def test_metric_nails_are_not_held_against_inch_tables() -> None:
    assert nails.question(nails.parse("90 x 3.15 ring", "mm"), METRIC) == ""


# --- hints ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("style", [INCH, METRIC])
def test_every_hint_says_that_it_is_one(style: Style) -> None:
    hints = [nails.hint(joint, style) for joint in nails.JOINTS]
    assert all(text.startswith("Hint, not a schedule: ") for text in hints if text)
    assert sum(1 for text in hints if text) == 7
    assert not any("{" in text for text in hints)
    assert not any(mark in text for text in hints for mark in (('"',) if style is METRIC else ("mm",)))


def test_the_hint_for_a_girt() -> None:
    """Two ring shanks of 4 in at each crossing of a 2x4, three of a 2x6 (common practice, no source)."""
    girt = next(j for j in nails.JOINTS if j.key == "girt")
    assert 'up to 3 1/2" wide 2 ring shank 4" long' in nails.hint(girt, INCH)
    assert 'up to 5 1/2" wide 3 ring shank' in nails.hint(girt, INCH)
