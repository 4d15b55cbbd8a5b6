"""The box of a lift: what it says of hands, machine, wind and picks, and what is laid down first."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import METRIC, build, every, job
from test_lift import Settings, bare, lifted, read

from layouts import lift_words
from layouts.building import lay_out
from layouts.lengths import Style
from layouts.lift import Face, Lift

INCH = Style()


def said(found: Lift, style: Style = INCH) -> str:
    words = lift_words.words(found, style)
    return "\n".join((words.verdict, words.lie, words.arrow, *words.lines))


def test_the_box_says_what_a_lift_needs() -> None:
    found = lifted(read(), "A")
    text = said(found)
    for part in (
        "MACHINE LIFT",
        "OUTSIDE FACE UP",
        "A7 is on your LEFT, A1 on your RIGHT",
        "TOP INTO THE BUILDING",
        "10 % added for nails and blocks",
        "southern pine, 37.3 lb/ft³ dry, 38.8 lb/ft³ rained on, 56.8 lb/ft³ fresh from treating",
        "NIOSH 94-110",
        f"{found.realistic} people at 35 lb",
        "KEEP CLEAR",
        "Nobody under it",
        "gusts over 15 mph",
        "never lift a clad wall by hand",
        "BRACE BEFORE RELEASE",
        "ONE VOICE",
        "NOT A LIFT PLAN",
    ):
        assert part in text


def test_the_box_of_a_wall_outside_is_the_other_way_round() -> None:
    text = said(lifted(read(), "A", Settings(lies="outside")))
    assert "INSIDE FACE UP: boards down first" in text
    assert "A1 is on your LEFT, A7 on your RIGHT" in text
    assert "TOP AWAY FROM THE BUILDING" in text
    assert text.index("A2 (") < text.index("A6 (")  # picks in the order in which they lie


@pytest.mark.parametrize(
    ("changes", "inside", "outside"),
    [
        ({}, "columns down first, boards on top", "boards down first, columns on top"),
        (
            {"girts.place": "between"},
            "columns down first; boards between them; then on top: grade board",
            "down first: grade board; then columns; boards between them",
        ),
        (
            {"girts.place": "inside", "wainscot.nailer": "2x6"},
            "inside boards down first; then columns; then on top: grade board, wainscot nailer",
            "down first: grade board, wainscot nailer; then columns; then inside boards on top",
        ),
        (
            {"girts.place": "both"},
            "inside boards down first, then columns, then outside boards on top",
            "outside boards down first, then columns, then inside boards on top",
        ),
    ],
)
def test_what_is_laid_down_first_is_so_for_every_place_of_girts(
    changes: dict[str, Any], inside: str, outside: str
) -> None:
    for where, want in (("inside", inside), ("outside", outside)):
        made = build({**changes, "lift.lies": where})
        assert [f"FACE UP: {want}. Stand " in lift_words.lies(lift.lie) for lift in made.lifts] == [True] * 4


def test_corner_boards_lie_under_the_columns_of_a_sidewall() -> None:
    made = build({"corners.board": "2x6"})
    said = {lift.wall: lift_words.laid(lift.lie) for lift in made.lifts}
    assert said["A"] == "inside boards down first, then columns, then outside boards on top"
    assert said["1"] == "columns down first, boards on top"


@pytest.mark.parametrize(("lies", "edge"), [("inside", "A7"), ("outside", "A1")])
def test_the_centre_of_gravity_is_measured_from_the_left_as_it_lies(lies: Face, edge: str) -> None:
    """573 in out to out, even: 286.5 from either end, to the inch 23'-11"."""
    assert f"23'-11\" right of the left edge of {edge}" in said(lifted(read(), "A", Settings(lies=lies)))


def test_the_centre_of_gravity_of_an_endwall_is_measured_from_a_column_that_is_lifted() -> None:
    """Columns at 11 and 21 ft of 32: from C1's left edge, at 132 - 1 1/2 - 2 1/4, to the middle at 190.5: 62 1/4."""
    assert "5'-2\" right of the left edge of C1" in said(lifted(read(), "1"))


def test_a_lift_by_hand_says_how_many_and_restrains_the_foot() -> None:
    found = lifted(read(), "A", Settings(people=90))
    text = said(found)
    assert text.startswith(f"BY HAND: {found.realistic} PEOPLE AT THE LEAST")
    assert "restraints at the foot BEFORE" in text
    assert "MACHINE" not in text


@pytest.mark.parametrize(("hold", "stays"), [(60, True), (72, True), (74, False), (108, False)])
def test_a_wall_held_no_higher_than_hands_reach_is_not_walked_up(hold: float, stays: bool) -> None:
    """At 6 ft from the foot hands are at 6 ft, as high as they reach, when it stands; from 74 in on they are there
    before."""
    text = said(lifted(read(), "A", Settings(hold=hold)))
    assert ("hands stay there until it stands. That is " in text) == stays
    assert ("walked up with hands at 6'-0\": up to " in text) != stays
    assert "up to 0 lb" not in text


def test_reasons_for_a_machine() -> None:
    found = lifted(read({"truss.bearing": "18'"}), "A")
    assert f"it takes {found.realistic} people, 6 are allowed; walls of 18'-0\" and more" in said(found)


def test_what_is_assumed_is_said() -> None:
    building = build({"grade.line": "43"}, {"A1": "45"})
    assert "Not read, taken as long as the longest: A7, A6, A5, A4, A3, A2." in said(lifted(building, "A"))


def test_no_picks_are_said_to_be_none() -> None:
    text = said(lifted(bare(), "1"))
    assert "no two columns reach well above the centre of gravity" in text
    assert "right of the left end" in text


def test_a_metric_box_has_no_inches_and_no_pounds() -> None:
    made = job({"grade.line": 1100}, base=METRIC)
    text = said(lifted(lay_out(made, every(made)), "A"), Style("mm"))
    assert not {'"', "'"} & set(text)
    assert " lb" not in text
    assert " kg" in text
    assert "24 km/h" in text
    assert "at 16 kg" in text
