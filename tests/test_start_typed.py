"""What is typed as a message or a job file has it, and doors that are gone to before their turn."""

from __future__ import annotations

import re
from typing import Any

import pytest
from starters import asked
from test_start import COLUMNS, DOORS, HEAD, PLAN, SIZE, after

DOOR = ["OH", "A", "", "8'", "7'"]
KNOWN = {"building.width": "30'", "building.length": "54'", "building.bays": 6}

# --- an example is what may be typed ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "field", "example", "value"),
    [
        ([], "job.name", "Pole barn", "Pole barn"),
        (HEAD, "building.width", "16'-0", "16'"),
        ([*HEAD, "30'"], "building.length", "16'-0", "16'"),
        (SIZE, "building.bays", "6", 6),
        ([*COLUMNS, ""], "truss.pitch", "4/12", "4/12"),
        ([*COLUMNS, "", "4/12", ""], "truss.bearing", "8'-0", "8'"),
        ([*COLUMNS, "", "4/12", "", "8'"], "truss.heel", "12", "12"),
        ([*DOORS, *DOOR[:3]], "opening 1.width", "3'-0", "36"),
        ([*DOORS, *DOOR[:4]], "opening 1.height", "3'-0", "36"),
    ],
)
def test_the_example_for_an_empty_answer_is_taken_as_it_stands(
    lines: list[str], field: str, example: str, value: Any
) -> None:
    said = after(lines, "")
    found = re.search(r"For example: (.+?)(?:\. Or .*)?$", said)
    assert found
    assert found[1] == example
    assert " = " not in said
    again = asked([*lines, "", found[1]])
    assert again.state.values[field] in (value, str(value), "3'")
    assert again.next != asked(lines).next


def test_the_bay_of_an_example_is_taken_as_it_stands() -> None:
    assert "Bay 2 stands in the middle of the second bay." in after([*DOORS, *DOOR], "")
    assert asked([*DOORS, *DOOR, "Bay 2"]).state.values["opening 1.bay"] in (2, "2")


# --- a field and its value -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "typed", "field", "value"),
    [
        ([], 'name = "Pole barn"', "job.name", "Pole barn"),
        ([], "job.name = Pole barn", "job.name", "Pole barn"),
        (HEAD, 'width = "16\'-0"', "building.width", "16'"),
        (HEAD, "Width=16'", "building.width", "16'"),
        (SIZE, "bays = 6", "building.bays", "6"),
        ([*SIZE, "6"], 'front_columns = ["10\'", "20\'"]', "building.front_columns", ["10'", "20'"]),
        ([*COLUMNS, "", "4/12", ""], 'eave = "12\'"', "truss.eave", "12'"),
        ([*COLUMNS, "", "4/12", ""], 'bearing = "8\'"', "truss.bearing", "8'"),
        ([*DOORS], 'name = "OH"', "opening 1.name", "OH"),
        ([*DOORS, *DOOR[:3]], 'width = "8\'"', "opening 1.width", "8'"),
        ([*DOORS, *DOOR], "bay = 2", "opening 1.bay", "2"),
        ([*DOORS, *DOOR], "at = 13' 6", "opening 1.at", "13'-6"),
        ([*DOORS, *DOOR], "left = 9' 6", "opening 1.measured_to", "left"),
    ],
)
def test_a_field_and_its_value_are_its_value(lines: list[str], typed: str, field: str, value: Any) -> None:
    found = asked([*lines, typed])
    assert not [line for line in found.heard[-1] if line.startswith("!")]
    assert found.state.values[field] == value or str(found.state.values[field]) == value


def test_another_field_and_its_value_are_refused() -> None:
    assert "! length = 30': " in after(HEAD, "length = 30'")
    assert asked([*HEAD, "length = 30'"]).next == "Width: "


def test_an_equals_sign_in_plain_words_stays() -> None:
    assert asked(["A = B"]).state.values["job.name"] == "A = B"
    assert asked(["name ="]).state.values["job.name"] == "name ="


# --- doors before their turn -----------------------------------------------------------------------------------------


def test_a_door_that_is_begun_is_asked_for_to_its_end() -> None:
    """It stands in a building that is known; who builds it is asked afterwards."""
    found = asked(["Elm shed", "", "go 14", *DOOR, "bay 2"], KNOWN)
    assert found.asked[3:] == (
        "Name of one, or Enter for no more [no more]: ",
        "Wall: A, 7, B or 1? ",
        "Kind: overhead, sliding, walk or window? [overhead] ",
        "Width: ",
        "Height: ",
        "Place: ",
    )
    assert found.next == "Name of one, or Enter for no more [no more]: "
    assert found.state.values["job.name"] == "Elm shed"
    assert asked(["Elm shed", "", "go 14", *DOOR, "bay 2", ""], KNOWN).next == "Crew [leave it out]: "


@pytest.mark.parametrize(("lines", "number"), [([], 3), ([*HEAD, "30'"], 3), (SIZE, 4)])
def test_there_is_no_door_before_there_are_walls(lines: list[str], number: int) -> None:
    found = asked([*lines, "go 14"])
    wrong = f"Doors and windows stand in walls, and those are not known yet: answer question {number} first."
    assert found.heard[-1] == (wrong,)
    assert found.next == asked(lines).next
    assert asked([*PLAN, "go 14"]).next == "Name of one, or Enter for no more [no more]: "


def test_a_field_gone_to_from_a_door_leads_back_to_it_in_its_turn() -> None:
    found = asked(["Elm shed", "", "", "go 14", *DOOR[:3], "go job.place", "Mill Road"], {**KNOWN})
    assert found.state.values["job.place"] == "Mill Road"
    assert found.next == "Units: imperial or metric? [imperial] "
    assert asked(["Elm shed", "", "", "go 14", *DOOR[:3], "go job.place", "back"], {**KNOWN}).next == "Width: "


def test_a_question_that_is_gone_to_is_gone_through_before_others() -> None:
    """The shape, the width, the length and where they are measured; then what was left: the place, the crew."""
    found = asked(["Elm shed", "go 3", "", "30'", "54'", ""])
    assert [p.partition(" [")[0] for p in found.asked[2:]] == [
        "Roof: gable, mono-slope or lean-to?",
        "Width: ",
        "Length: ",
        "Measured to the outside of the girts or columns?",
    ]
    assert found.next == "Place [leave it out]: "
    assert asked(["Elm shed", "go building.length", "54'"]).next == "Place [leave it out]: "


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ('width = "28\'"', "! width is another field than the one that is asked for."),
        ("bays = 3", "! bays is another field than the one that is asked for. Type go building.bays for it."),
        ("job.crew = Ana", "! job.crew is another field than the one that is asked for. Type go job.crew for it."),
        ("sill = 4'", "! sill is another field than the one that is asked for."),
    ],
)
def test_another_field_and_its_value_are_no_plain_words(typed: str, said: str) -> None:
    found = asked(["Elm shed", typed])
    assert found.heard[-1] == (said,)
    assert found.next == "Place [leave it out]: "
