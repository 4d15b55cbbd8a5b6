"""Openings that can be built and are hardly meant: under an endwall's truss, of odd size."""

from __future__ import annotations

from typing import Any

import opened
import pytest
from both_ways import hold
from jobs import METRIC
from opened import DOOR, OVERHEAD, SLIDING, WINDOW

from layouts.costs import Cost

# The floor stands 3 1/2 over the grade line, the bearing 144; on a gable that rises 4 in 12 the chord's top stands at
# 144 + 3 15/16 at the outside, and over the middle, 190 1/2 in, 63 1/2 higher: 211.4375.
TALL: dict[str, Any] = {**DOOR, "name": "T9", "wall": "1", "bay": 2}
FROM = "from its bearing up; the bearing is at 12'-0\", its rough opening's top at"


def about(name: str, *parts: dict[str, Any], **changes: Any) -> list[tuple[Cost, str]]:
    """What is warned of an opening; all of it can be told in Spanish."""
    found = [w for w in opened.opened(*parts, **changes).warned if w.text.startswith(f"{name}: ")]
    for one in found:
        hold(one.text)
    return [(one.cost, one.text.removeprefix(f"{name}: ")) for one in found]


# --- an endwall's truss -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("height", "top"),
    [
        ("11' 6 1/2", ""),  # 3 1/2 + 138 1/2 + 2 = 144: up to the bearing
        ("11' 6 9/16", "12'-0 1/16\""),
        ("13'", "13'-5 1/2\""),  # 3 1/2 + 156 + 2 = 161 1/2
    ],
)
def test_an_opening_over_the_bearing_of_an_endwall_has_the_truss_across_it(height: str, top: str) -> None:
    found = about("T9", {**TALL, "height": height})
    said = f"the truss of the endwall stands across it {FROM} {top}. Ask who designs it; do not cut the truss."
    assert found == ([(Cost.PART, said)] if top else [])


def test_its_wall_says_so_too() -> None:
    (opening,) = opened.opened({**TALL, "height": "13'"}).walls[3].openings
    (note,) = opening.notes
    assert note.startswith(f"T9: the truss of the endwall stands across it {FROM} 13'-5 1/2\".")


def test_a_window_up_in_the_gable_stands_in_the_truss() -> None:
    part = {**WINDOW, "wall": "1", "bay": 2, "height": "2'", "sill": "12'"}
    ((cost, said),) = about("W9", part)
    assert cost == Cost.PART
    assert said.startswith("the truss of the endwall stands across it from its bearing up")


@pytest.mark.parametrize(
    ("wall", "free", "met", "bearing"),
    [("1", "140", "141", "12'-2\""), ("7", "161", "162", "13'-11 3/16\"")],
)
def test_of_unequal_bearings_the_lower_one_over_the_opening_counts(
    wall: str, free: str, met: str, bearing: str
) -> None:
    """One slope whose walls bear at 144 and 172, 381 apart. A rough opening of 38 about 46 1/2 from the left: on the
    front its lower end bears at 144 + 27.5·28/381 = 146.02, its top 145 1/2 or 146 1/2; on the back, whose left is the
    high wall, at 144 + (381 - 65.5)·28/381 = 167.19, its top 166 1/2 or 167 1/2."""
    given = {"roof__shape": "mono-slope", "truss__pitch": "2/12", "truss__far_bearing": "14' 4"}
    part = {**{key: value for key, value in DOOR.items() if key != "bay"}, "wall": wall, "name": "M9", "at": "4'"}
    assert about("M9", {**part, "height": free}, **given) == []
    ((_, said),) = about("M9", {**part, "height": met}, **given)
    assert f"the bearing is at {bearing}," in said


# --- odd sizes --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "width", "height", "said"),
    [
        (DOOR, "24", "60", ""),
        (DOOR, "7", "80", 'this door is only 7" wide: is it feet? A bare number is inches.'),
        (DOOR, "23 15/16", "80", 'this door is only 23 15/16" wide: is it feet? A bare number is inches.'),
        (OVERHEAD, "7'", "10", 'this door is only 10" high: is it feet? A bare number is inches.'),
        (SLIDING, "10", "12", 'this door is only 10" wide and 12" high: is it feet? A bare number is inches.'),
        (WINDOW, "12", "12", ""),
        (DOOR, "6'", "6'", ""),
        (DOOR, "80", "36", "this door is only 3'-0\" high: is it feet? A bare number is inches."),
        (DOOR, "80", "72", "this walk door is 6'-8\" wide and 6'-0\" high: are width and height swapped?"),
        (OVERHEAD, "7'", "6'", ""),
    ],
)
def test_odd_sizes_are_asked_about(kind: dict[str, Any], width: str, height: str, said: str) -> None:
    part = {**kind, "name": "S9", "width": width, "height": height, "bay": 3}
    found = about("S9", part)
    assert found == ([(Cost.CUT, said)] if said else [])


@pytest.mark.parametrize(
    ("width", "height", "said"),
    [
        ("600", "1500", ""),
        ("599", "2000", "this door is only 599 mm wide: is it mm? A bare number is mm."),
        ("900", "1499", "this door is only 1499 mm high: is it mm? A bare number is mm."),
        ("1700", "1600", "this walk door is 1700 mm wide and 1600 mm high: are width and height swapped?"),
    ],
)
def test_odd_sizes_in_mm(width: str, height: str, said: str) -> None:
    part = {**DOOR, "name": "S9", "width": width, "height": height}
    found = about("S9", part, base=METRIC)
    assert found == ([(Cost.CUT, said)] if said else [])


# --- uprights in shallow columns --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("place", "wall", "jamb", "deep", "out"),
    [
        ("both", "A", "2x6", "5 3/8", "1/8"),  # 5 1/2 - 5 3/8
        ("inside", "A", "2x6", "5 3/8", "1/8"),
        ("between", "A", "2x8", "5 3/8", "1 7/8"),
        ("both", "1", "2x6", "4 3/8", "1 1/8"),  # turned, they stand 4 3/8 deep
        ("both", "A", "2x4", "", ""),
        ("outside", "A", "2x6", "", ""),  # nothing lies on the inner face
    ],
)
def test_uprights_wider_than_the_columns_stand_out(place: str, wall: str, jamb: str, deep: str, out: str) -> None:
    columns = {"column__depth": "5 3/8", "column__width": "4 3/8", "column__endwall_face": "depth"}
    found = about("D9", {**DOOR, "wall": wall, "jamb": jamb}, girts__place=place, **columns)
    wide = {"2x4": "3 1/2", "2x6": "5 1/2", "2x8": "7 1/4"}[jamb]
    said = f'its jamb posts and cripples are {wide}" wide, the columns {deep}" deep: they stand out by {out}".'
    assert found == ([(Cost.CUT, said)] if out else [])


def test_columns_that_are_jambs_have_no_upright_to_stand_out() -> None:
    """Clear bay 91 1/2 and 90 of door: packing of 3/4 to either side, no cripple where these are far apart."""
    door = {**OVERHEAD, "name": "D9", "width": "90", "wider": "0", "jambs": "columns", "cripples": "9'"}
    assert about("D9", door, girts__place="both", column__depth="5 3/8") == []
    assert about("D9", {**door, "cripples": "4'"}, girts__place="both", column__depth="5 3/8") != []
