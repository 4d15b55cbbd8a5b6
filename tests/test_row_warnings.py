"""Rows and what is beside them: what can be built and is hardly meant."""

from __future__ import annotations

from typing import Any

import opened
import pytest
from both_ways import hold
from jobs import BASE, METRIC, TRADE
from opened import DOOR, WINDOW

from layouts.costs import Cost

GIRTS_9 = "girt 9, wall 7; girt 9, wall 1"

# Columns 4 1/2 by 5 1/2, a 2x8 grade board 7 1/4 up, girts of 3 1/2 at most 24 apart, the bearing 144 up.


def warned(start: str, *parts: dict[str, Any], base: dict[str, Any] | None = None, **changes: Any) -> list[str]:
    """The warnings that begin so, or have it in them; all of them can be told in Spanish."""
    made = opened.opened(*parts, **({"base": base} if base else {}), **changes)
    found = [w.text for w in made.warned if start in w.text]
    for text in found:
        hold(text)
    return found


# --- the floor --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"grade__floor": "7 1/4"}, ""),
        ({"grade__floor": "7 5/16"}, '7 5/16" above the grade line, over the top of the grade board at 7 1/4"'),
        ({"grade__floor": "14 1/2", "grade__boards": 2}, ""),
        (
            {"grade__floor": "15", "grade__boards": 2},
            '15" above the grade line, over the top of the grade boards at 14 1/2"',
        ),
    ],
)
def test_a_floor_over_the_grade_board(changes: dict[str, Any], said: str) -> None:
    found = warned("The finished floor", **changes)
    assert found == ([f"The finished floor is {said}: is grade.floor right?"] if said else [])


# --- slots ------------------------------------------------------------------------------------------------------------

ASK = "Ask the engineer what fills it."


@pytest.mark.parametrize(
    ("width", "depth", "plies", "each", "said"),
    [
        ("4 1/2", "5 1/2", 3, 1, ""),
        ("5 1/4", "6", 3, 1, ""),  # 1 3/4: by 1/4
        ("5 5/16", "6", 3, 1, f'the centre ply is 1 3/4", the truss 1 1/2": it stands loose in it. {ASK}'),
        (
            "5 1/2",
            "4 1/2",
            3,
            1,
            'the centre ply is 1 13/16", the truss 1 1/2": it stands loose in it. '
            f"Are column.width and column.depth swapped? {ASK}",
        ),
        (
            "4 1/2",
            "5 1/2",
            4,
            1,
            f'the inner plies is 2 1/4", the truss 1 1/2": it stands loose in it. Is it column.plies = 3? {ASK}',
        ),
        (
            "6",
            "5 1/2",
            4,
            1,
            f'the inner plies is 3", the truss 1 1/2": it stands loose in it. Are they two, truss.each = 2? {ASK}',
        ),
        ("6", "5 1/2", 4, 2, ""),
        ("7", "5 1/2", 4, 2, f'the inner plies is 3 1/2", the 2 trusses 3": they stand loose in it. {ASK}'),
    ],
)
def test_a_slot_too_wide_for_its_trusses(width: str, depth: str, plies: int, each: int, said: str) -> None:
    """Of 3 plies one is cut out, of 4 two: width/3, width/2."""
    given: dict[str, Any] = {
        "column__width": width,
        "column__depth": depth,
        "column__plies": plies,
        "truss__each": each,
    }
    assert warned("The slot left by", **given) == ([f"The slot left by {said}"] if said else [])


def test_a_shoulder_may_be_deeper_than_its_truss() -> None:
    assert warned("loose", tops__seat="shoulder", tops__shoulder_depth="2 1/4") == []
    assert warned("Ask the engineer", tops__seat="shoulder", tops__shoulder_depth="1") != []


def test_a_slot_too_narrow_is_told_as_ever() -> None:
    assert len(warned("they do not go in", truss__each="2")) == 1


# --- girts between the columns ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("board", "face", "said"),
    [
        ("2x6", "width", []),
        ("2x8", "width", [("Sidewalls", "7 1/4", "5 1/2", "1 3/4"), ("Endwalls", "7 1/4", "5 1/2", "1 3/4")]),
        ("2x6", "depth", [("Endwalls", "5 1/2", "4 1/2", "1")]),
    ],
)
def test_girts_wider_than_the_columns_stand_out(board: str, face: str, said: list[tuple[str, ...]]) -> None:
    found = warned("stand out by", girts__place="between", girts__board=board, column__endwall_face=face)
    assert found == [
        f'{walls}: girts that lie between the columns are {wide}" wide, the columns {deep}" deep: they stand out by '
        f'{out}".'
        for walls, wide, deep, out in said
    ]


def test_endwalls_without_columns_of_their_own_have_none_that_girts_stand_out_of() -> None:
    bare: dict[str, Any] = {"building__front_columns": [], "building__back_columns": [], "lumber__stock": ["34'"]}
    (found,) = warned("stand out by", girts__place="between", girts__board="2x8", **bare)
    assert found.startswith("Sidewalls: ")


def test_girts_on_the_columns_may_be_wider() -> None:
    assert warned("stand out by", girts__board="2x8") == []


# --- stretches without a row ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("height", "said"), [("43 1/4", False), ("43 5/16", True)])
def test_a_wainscot_nailer_far_over_the_grade_board(height: str, said: bool) -> None:
    """7 1/4 + 24 + 12 = 43 1/4."""
    found = warned("No row", wainscot__nailer="2x6", wainscot__height=height)
    words = (
        'No row between the grade board, up to 7 1/4", and the wainscot nailer, from 3\'-7 5/16": 3\'-0 1/16" of wall, '
        "and girts.step is 2'-0\". Is wainscot.height right?"
    )
    assert found == [words] * said


@pytest.mark.parametrize(("top", "said"), [("9'", False), ("8'-11 15/16", True)])
def test_a_top_girt_far_under_the_bearing(top: str, said: bool) -> None:
    """144 - 24 - 12 = 108."""
    words = (
        "No row between the top girt, up to 8'-11 15/16\", and the bearing, from 12'-0\": 3'-0 1/16\" of wall, and "
        "girts.step is 2'-0\". Is girts.top right?"
    )
    for place in ("outside", "between", "inside", "both"):
        assert warned("No row", girts__top=top, girts__place=place) == [words] * said


def test_a_soffit_nailer_ends_the_stretch() -> None:
    """The roof plane at the outer face, 144 + 9 1/4 + 5 1/2·1.0541 = 159.05; less 18/3, the fascia's 5 1/2 and the
    nailer's 3 1/2: 144.05."""
    (found,) = warned("No row", roof__soffit="level", roof__overhang="18", girts__top="6'")
    assert "up to 6'-0\", and the soffit nailer, from 12'-0 1/16\": " in found


# --- rows that an opening leaves out ----------------------------------------------------------------------------------

START = "Left out of a whole bay"


def test_a_girt_that_a_header_lies_across() -> None:
    """Header on 3 1/2 + 84 + 2 = 89 1/2, 5 1/2 wide, up to 95; girt 4 begins at 94.92."""
    part = {**DOOR, "height": "7'"}
    assert warned(START, part) == [
        "Left out of a whole bay, as a header or sill lies across: girt 4, wall A, A6 to A5, header D9. What is "
        "nailed to it is nailed to that header or sill there, at another height."
    ]
    (one,) = (w for w in opened.opened(part).warned if START in w.text)
    assert one.cost == Cost.LOOK


@pytest.mark.parametrize(
    ("part", "changes"),
    [
        (DOOR, {}),  # header 85 1/2 to 91, girts up to 75.63 and from 94.92
        ({**DOOR, "height": "7' 3 1/2"}, {}),  # 93 to 98 1/2: it takes the place of girt 4, up to 98.42
        ({**DOOR, "height": "7'"}, {"girts__place": "between"}),  # from jamb to jamb
    ],
)
def test_a_row_whose_place_is_taken_is_not_missed(part: dict[str, Any], changes: dict[str, Any]) -> None:
    assert warned(START, part, **changes) == []


def test_a_header_that_ends_on_its_jamb_leaves_the_rest_of_the_bay() -> None:
    """Under the slope of a gable a header ends on its jamb posts."""
    part = {**DOOR, "wall": "1", "bay": 1, "height": "12'-6"}
    header = opened.one(part).header
    assert header.columns == ("C1",)
    assert warned(START, part) == []


def test_a_wainscot_nailer_that_a_sill_lies_across_costs_more() -> None:
    """Nailer 36 to 41 1/2, sill 40 to 45 1/2."""
    given: dict[str, Any] = {"wainscot__nailer": "2x6", "wainscot__height": "36"}
    assert warned(START, WINDOW, **given) == [
        "Left out of a whole bay, as a header or sill lies across: wainscot nailer, wall A, A6 to A5, sill W9: "
        "nothing holds the wainscot's edge there. Move wainscot.height or the opening."
    ]
    (one,) = (w for w in opened.opened(WINDOW, **given).warned if START in w.text)
    assert one.cost == Cost.CUT


# --- ends of rows inside ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("place", ["both", "inside"])
@pytest.mark.parametrize(
    ("past", "board", "walls"),
    [
        # endwall rows begin at 5 1/2, where the corner column ends; sidewall ones at 7, and it ends at 4 1/2
        ("end", {}, "Walls A, 7, G, 1"),
        # sidewall rows are nailed across the corner columns
        ("side", {}, "Walls 7, 1"),
        ("end", {"corners__board": "2x6"}, ""),
        ("side", {"corners__board": "2x6"}, ""),
    ],
)
def test_rows_inside_that_end_on_nothing(place: str, past: str, board: dict[str, Any], walls: str) -> None:
    found = warned("rows inside end beyond", girts__place=place, girts__runs_past=past, **board)
    end = "rows inside end beyond the corner columns, nailed to nothing there: corners.board gives them nailing."
    assert found == ([f"{walls}: {end}"] if walls else [])


def test_rows_outside_end_on_the_corner_columns() -> None:
    assert warned("rows inside end beyond") == []


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, ""),  # the middle column, at 18 ft, is behind every row
        ({"building.front_columns": ["12'", "24'"]}, "girt 9, wall 1"),
        ({"building.front_columns": ["16' 6", "24'"]}, ""),
        ({"building.front_columns": ["12'", "24'"], "building.back_columns": ["12'", "24'"]}, GIRTS_9),
        # told with the columns' tops
        ({"building.front_columns": ["12'", "24'"], "tops.endwall_ears": "bearing"}, ""),
    ],
)
def test_girts_of_a_gable_with_no_column_behind(changes: dict[str, Any], said: str) -> None:
    """Chord 147 1/2 + 3 15/16 = 151.4375 at the corner columns' outside, 4/12 up; girt 9's top, 214.125 + 3 1/2 =
    217.625, meets it 198.56 in, its bottom 188.06 in and at 429 - 188.06 = 240.94. Columns at 12 and 24 ft of the
    building line stand at 142 1/2 and 286 1/2, 2 1/4 to either side; one at 16'-6 from 194 1/4 to 198 3/4."""
    base = {**BASE, **TRADE, "grade.line": "43", **changes}
    found = warned("No column is behind", base=base)
    end = "What has none is nailed to the endwall truss once that stands, not before the lift."
    assert found == ([f"No column is behind: {said}. {end}"] if said else [])


# --- sheets -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("uncovered", "cover", "said"),
    [
        ("4", "36", ""),  # over the door's bottom, 3 1/2
        ("1 1/2", "36", ""),  # 2 long
        (
            "1 9/16",
            "36",
            'Sheets 4a, 5a are shorter than 2", too short to be held: leave them off the order, or move the edge that '
            "ends them.",
        ),
        (
            "1 9/16",
            "40",
            'Sheet 4a is shorter than 2", too short to be held: leave it off the order, or move the edge that ends it.',
        ),
    ],
)
def test_sheets_too_short_to_be_held(uncovered: str, cover: str, said: str) -> None:
    """A door of 7' and 3 in about 142 1/2 from A7: 99 to 186. Sheets begin 1 1/2 outside of A7: those of 36 end at
    106 1/2, 142 1/2, 178 1/2 there, those of 40 at 118 1/2, 158 1/2, 198 1/2."""
    part = {**DOOR, "kind": "overhead", "width": "7'", "height": "8'"}
    found = warned("too short to be held", part, cladding__cover=cover, cladding__uncovered=uncovered)
    assert found == [f"Sheets, Wall A: {said}"] * bool(said)


def test_in_mm() -> None:
    given = {"girts__place": "between", "girts__board": "45x190"}
    (side, end) = warned("stand out by", base=METRIC, **given)
    assert side == (
        "Sidewalls: girts that lie between the columns are 190 mm wide, the columns 140 mm deep: they stand out by "
        "50 mm."
    )
    assert end.startswith("Endwalls: ")
