"""Doors and windows of a job asked for step by step."""

from __future__ import annotations

from typing import Any

import pytest
from starters import asked
from test_start import DOORS, after

WINDOW = ["W9", "A", "window", "3'", "2'", "4'", "bay 2"]


def test_a_window_and_no_more() -> None:
    found = asked([*DOORS, *WINDOW, "", ""])
    assert [(p.name, p.wall, p.bay, p.sill) for p in found.job.openings] == [("W9", "A", 2, 48)]


def test_a_sill_has_to_be_said() -> None:
    """The default of a job file, 0, would set the window on the floor."""
    assert "! sill must be given. Of a window:" in after([*DOORS, *WINDOW[:5]], "")
    assert asked([*DOORS, *WINDOW[:5], ""]).next == "Sill: "


@pytest.mark.parametrize(
    ("typed", "wall"), [("front", "1"), ("back", "7"), ("left", "A"), ("right", "D"), ("a", "A"), ("d", "D")]
)
def test_a_wall_by_its_name_or_side(typed: str, wall: str) -> None:
    assert asked([*DOORS, "W9", typed]).state.values["opening 1.wall"] == wall


def test_a_wall_that_is_not_there() -> None:
    assert "! Q: is not a wall of this job. Known: A, 7, D, 1." in after([*DOORS, "W9"], "Q")


@pytest.mark.parametrize(
    ("typed", "fields"),
    [
        ("bay 2", {"bay": 2}),
        ("14'", {"at": "14'"}),
        ("left 12' 6", {"at": "12'-6", "measured_to": "left"}),
        ("right 16'", {"at": "16'", "measured_to": "right"}),
    ],
)
def test_its_place(typed: str, fields: dict[str, Any]) -> None:
    values = asked([*DOORS, *WINDOW[:-1], typed]).state.values
    found = {key: values.get(f"opening 1.{key}") for key in ("bay", "at", "measured_to")}
    assert {key: value for key, value in found.items() if value is not None} == fields


def test_a_place_where_a_column_stands_is_refused() -> None:
    assert "has column A2 standing in its rough opening" in after([*DOORS, *WINDOW[:-1]], "45'")
    assert "! 9: is not there. Wall A has 6 bays." in after([*DOORS, *WINDOW[:-1]], "bay 9")
    assert "bay or `at` must be given" in after([*DOORS, *WINDOW[:-1]], "")


def test_a_name_that_is_taken() -> None:
    assert "! A2: is the name of a column. A name on the sheets means one thing." in after(DOORS, "A2")
    assert asked([*DOORS, "A2"]).next == asked(DOORS).next


def test_one_is_changed_and_one_taken_out() -> None:
    two = [*DOORS, *WINDOW, "WD", "7", "walk", "3'", "6' 8", "5'"]
    changed = asked([*two, "W9", "", "", "4'", "", "", "", ""])
    assert changed.state.values["opening 1.width"] == "4'"
    assert changed.state.values["opening 1.bay"] == 2
    # names alike but for capitals are one on the sheets
    assert asked([*two, "w9", "", "", "4'", "", "", "", ""]).state.values == changed.state.values
    dropped = asked([*two, "drop w9"])
    assert dropped.state.values["opening 1.name"] == "WD"
    assert not any(p.startswith("opening 2.") for p in dropped.state.values)
    assert dropped.next.startswith("Name of one")
    assert "X is no door or window of this job." in after(two, "drop X")
    assert asked([*two, "OH", "1", "drop", "", ""]).job.openings == asked([*two, "", ""]).job.openings


def test_back_out_of_a_door_takes_it_away() -> None:
    found = asked([*DOORS, "OH", "<"])
    assert found.next.startswith("Name of one")
    assert not any(p.startswith("opening") for p in found.state.values)


def test_a_sliding_door_asks_which_way() -> None:
    found = asked([*DOORS, "SD", "7", "sliding", "6'", "8'"])
    assert found.next == "Slides to the left, right or both? [right] "
