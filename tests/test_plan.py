"""Where the columns stand, what they are called, and which walls they belong to."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from jobs import build, buildings, refusal

from layouts.building import Building
from layouts.lengths import Style, show
from layouts.plan import Plan, bays

# 36 x 48 to the outside of 1 1/2 in girts, as worked in the trade (common practice, no source): columns are strung
# at 35'-9" x 47'-9", a first bay is 7'-10 1/2", diagonals are 60'-0" on the building line and 59'-7 13/16" on columns
SHED: dict[str, Any] = {
    "building.width": "36'",
    "building.length": "48'",
    "building.bays": 6,
    "building.front_columns": ["9'", "27'"],
    "building.back_columns": ["27'", "9'", "18'"],
}


def plan(changes: dict[str, Any] | None = None) -> Plan:
    return build({**SHED, **(changes or {})}).plan


def printed(inches: float) -> str:
    return show(inches, Style())


def test_string_lines_are_a_girt_inside_of_the_building_line() -> None:
    found = plan()
    assert (printed(found.width), printed(found.length)) == ("36'-0\"", "48'-0\"")
    assert (printed(found.across), printed(found.along)) == ("35'-9\"", "47'-9\"")


def test_both_diagonals() -> None:
    found = plan()
    assert printed(found.building_diagonal) == "60'-0\""  # 3-4-5 times twelve feet
    assert printed(found.column_diagonal) == "59'-7 13/16\""


def test_the_building_line_may_be_the_columns() -> None:
    found = plan({"building.line": "columns"})
    assert (found.across, found.along) == (432, 576)
    assert found.column_diagonal == found.building_diagonal == 720
    assert found.spot("B1").u0 == 108 - 2.25


def test_columns_stand_on_their_bays() -> None:
    found = plan()
    # first bay 96 - 1 1/2 = 94 1/2 from the corner's outer face to the next centre
    centres = [(s.v0 + s.v1) / 2 for s in (found.spot(f"A{n}") for n in range(2, 7))]
    assert centres == [94.5, 190.5, 286.5, 382.5, 478.5]
    assert all((s.u0, s.u1) == (0, 5.5) for s in (found.spot(f"A{n}") for n in range(1, 8)))
    assert all((s.u0, s.u1) == (423.5, 429) for s in (found.spot(f"E{n}") for n in range(1, 8)))


def test_corner_columns_are_flush_with_both_strings() -> None:
    found = plan()
    corners = {s.name: (s.u0, s.u1, s.v0, s.v1) for s in found.spots if s.role == "corner"}
    assert corners == {
        "A1": (0, 5.5, 0, 4.5),
        "A7": (0, 5.5, 568.5, 573),
        "E7": (423.5, 429, 568.5, 573),
        "E1": (423.5, 429, 0, 4.5),
    }


def test_endwall_columns_stand_anywhere_along_the_gable() -> None:
    found = plan()
    # 9' - 1 1/2 = 106 1/2 to the centre, 4 1/2 wide; 5 1/2 deep into the building
    b1, b7 = found.spot("B1"), found.spot("B7")
    assert (b1.u0, b1.u1, b1.v0, b1.v1) == (104.25, 108.75, 0, 5.5)
    assert (b7.v0, b7.v1) == (567.5, 573)


def test_an_endwall_column_may_be_turned() -> None:
    turned = plan({"column.endwall_face": "depth"}).spot("B1")
    assert (turned.u1 - turned.u0, turned.v1 - turned.v0) == (5.5, 4.5)


def test_walking_order_is_once_round_clockwise_from_the_front_of_wall_a() -> None:
    assert " ".join(s.name for s in plan().spots) == ("A1 A2 A3 A4 A5 A6 A7 B7 C7 D7 E7 E6 E5 E4 E3 E2 E1 D1 B1")


def test_walls_list_their_columns_as_seen_from_outside() -> None:
    walls = {w.name: (w.side, " ".join(w.columns)) for w in plan().walls}
    assert walls == {
        "A": ("left", "A7 A6 A5 A4 A3 A2 A1"),
        "7": ("back", "E7 D7 C7 B7 A7"),
        "E": ("right", "E1 E2 E3 E4 E5 E6 E7"),
        "1": ("front", "A1 B1 D1 E1"),
    }


def test_places_along_a_wall_are_from_its_left_end_seen_from_outside() -> None:
    found = plan()
    walls = {w.name: w for w in found.walls}
    assert walls["1"].along(found.spot("B1")) == (104.25, 108.75)
    assert walls["7"].along(found.spot("B7")) == (320.25, 324.75)  # 429 - 108.75, 429 - 104.25
    assert walls["A"].along(found.spot("A2")) == (476.25, 480.75)  # 573 - 96.75, 573 - 92.25
    assert walls["E"].along(found.spot("E2")) == (92.25, 96.75)


def test_letters_i_and_o_are_left_out() -> None:
    ends = [f"{5 * n}'" for n in range(1, 15)]
    found = plan({"building.width": "75'", "building.front_columns": ends, "building.back_columns": ends})
    assert "".join(s.name[0] for s in reversed(found.spots) if s.role == "end" and s.v0 == 0) == "BCDEFGHJKLMNPQ"
    assert {s.name[0] for s in found.spots if s.role == "corner"} == {"A", "R"}


def test_after_z_come_double_letters() -> None:
    ends = [f"{4 * n}'" for n in range(1, 26)]
    found = plan({"building.width": "104'", "building.front_columns": ends, "building.back_columns": ends})
    # A and 23 more are single letters, then AA, AB; the far wall is AC
    assert [s.name for s in found.spots if s.role == "end" and s.v0 == 0][:3] == ["AB1", "AA1", "Z1"]
    assert {s.name for s in found.spots if s.role == "corner"} == {"A1", "A7", "AC1", "AC7"}


def test_bays_even_or_listed() -> None:
    even = build(SHED).job
    assert bays(even) == (96,) * 6
    listed = plan({"building.bays": ["8'", "10'", "12'", "10'", "8'"]})
    assert [(s.v0 + s.v1) / 2 for s in (listed.spot(f"A{n}") for n in range(2, 6))] == [94.5, 214.5, 358.5, 478.5]


def test_own_names_go_through_everything() -> None:
    found = build({**SHED, "names.A1": "NW", "names.B1": "N2"}, {"NW": "45", "N2": "46"})
    assert found.plan.spot("NW").grid == "A1"
    assert {w.name: w.columns for w in found.plan.walls}["1"] == ("NW", "N2", "D1", "E1")
    assert [c.name for c in found.columns] == ["NW", "N2"]
    assert found.columns[0].neighbours == ("A2", "N2")


def test_names_may_be_swapped() -> None:
    found = plan({"names.A1": "A2", "names.A2": "A1"})
    assert (found.spot("A2").grid, found.spot("A1").grid) == ("A1", "A2")


def test_a_name_that_is_not_there_raises_key_error() -> None:
    with pytest.raises(KeyError):
        plan().spot("Z9")


THICK: dict[str, Any] = {
    "building.bays": ["2'", "11'-6", "11'-6", "11'-6", "11'-6"],
    "building.length": "48'",
    "column.make": "solid",
    "column.width": "12",
    "column.depth": "12",
    "tops.seat": "flat",
}


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"names.Z9": "N1"}, "names.Z9 = N1: names a column that is not there."),
        ({"names.A1": "A2"}, "names.A1 = A2: is also the name of column A2. No two alike."),
        ({"names.A2": "A3"}, "names.A2 = A3: is also the name of column A3. No two alike."),
        ({"names.A3": "A2"}, "names.A3 = A2: is also the name of column A2. No two alike."),
        ({"names.A1": "N", "names.A2": "N"}, "names.A2 = N: is also the name of column A1. No two alike."),
        ({"names.A1": "a2"}, "names.A1 = a2: is the name of column A2 but for capitals. No two alike, for sheets"),
        ({"names.A1": "n1", "names.A2": "N1"}, "names.A2 = N1: is the name of column A1 but for capitals."),
        ({"grade.reference": "Q1"}, "grade.reference = Q1: is not a column."),
        ({"building.front_columns": ["6"]}, "building.front_columns: puts columns A1 and B1 into each other"),
        ({"building.front_columns": ["9'", "9'-4"]}, "puts columns B1 and C1 into each other"),
        (
            {"building.front_columns": ["9'", "9'"]},
            "building.front_columns: puts two columns at 9'-0\". Move one of them.",
        ),
        ({"building.front_columns": ["9'", "9'"]}, "from the building line at wall A, not from the one before."),
        ({"building.back_columns": ["35'-8"]}, "building.back_columns: puts columns"),
        ({"building.front_columns": ["40'"]}, "stands outside of the building"),
        # A1 stands to 12; A2 from 24 - 7 1/2 of girts - 6, 10 1/2
        ({**THICK, "girts.board": "8x8"}, "building.bays: puts columns A1 and A2 into each other. Move one of them."),
    ],
)
def test_plans_that_cannot_be_built(changes: dict[str, Any], says: str) -> None:
    assert says in refusal({**SHED, **changes})


def test_a_column_outside_is_named_as_the_job_gives_it() -> None:
    """The crew lead typed 40', so 40' is what he looks for."""
    assert "building.front_columns = 40'-0\": stands outside" in refusal({**SHED, "building.front_columns": ["40'"]})


@given(buildings())
def test_bays_add_up_to_the_building(building: Building) -> None:
    found = building.plan
    inset = (found.length - found.along) / 2
    side = [(s.v0 + s.v1) / 2 for s in found.spots if s.role == "side" and s.u0 == 0]
    strung = [-inset, *side, found.along + inset]  # from building line to building line
    assert [b - a for a, b in pairwise(strung)] == pytest.approx(list(building.job.building.bays))  # type: ignore[arg-type]
    assert sum(b - a for a, b in pairwise(strung)) == pytest.approx(building.job.building.length)


@given(buildings())
def test_walls_cover_all_columns_and_corners_belong_to_two(building: Building) -> None:
    walls_of = {s.name: sum(s.name in w.columns for w in building.plan.walls) for s in building.plan.spots}
    assert walls_of == {s.name: 2 if s.role == "corner" else 1 for s in building.plan.spots}
    assert sum(s.role == "corner" for s in building.plan.spots) == 4
    assert sum(len(w.columns) for w in building.plan.walls) == len(building.plan.spots) + 4


@given(buildings())
def test_columns_stand_left_to_right_from_end_to_end_of_each_wall(building: Building) -> None:
    for wall in building.plan.walls:
        stretches = [wall.along(building.plan.spot(name)) for name in wall.columns]
        assert stretches[0][0] == pytest.approx(0)
        assert stretches[-1][1] == pytest.approx(wall.length)
        assert all(a[1] < b[0] for a, b in pairwise(stretches))
