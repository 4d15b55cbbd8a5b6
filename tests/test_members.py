"""Boards that are in no row: corner boards, fillers, blocking."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import given
from jobs import TRADE, build, buildings, placed_fields
from test_between import with_opening

from layouts.building import Building
from layouts.openings import Upright
from layouts.rows import Row
from layouts.walls import Wall

PLACED = buildings(placed_fields())


def walls(changes: dict[str, Any] | None = None) -> dict[str, Wall]:
    return {w.name: w for w in build({**TRADE, **(changes or {})}).walls}


def called(wall: Wall, name: str) -> list[Upright]:
    return [u for u in wall.uprights if u.name.startswith(name)]


def box(upright: Upright) -> shapely.Polygon:
    return shapely.box(upright.left, upright.low, upright.right, upright.high)


# --- corner boards ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("board", "face", "left"),
    [
        ("2x6", "width", (0, 5.5)),  # from the inner face of the endwall columns back to the corner
        ("2x4", "width", (2, 5.5)),
        ("2x4", "depth", (1, 4.5)),  # endwall columns that are turned stand 4 1/2 in
        ("2x6", "depth", (0, 5.5)),  # wider than that: never outside of the corner
    ],
)
def test_a_corner_board_has_its_edge_in_the_endwalls_inner_plane(
    board: str, face: str, left: tuple[float, float]
) -> None:
    wall = walls({"corners.board": board, "column.endwall_face": face})["A"]
    first, last = called(wall, "Corner board")
    assert (first.left, first.right) == left
    assert (last.left, last.right) == (573 - left[1], 573 - left[0])
    assert {(u.low, u.high, u.layer) for u in (first, last)} == {(0, 147.5, "inside")}


def test_a_corner_board_longer_than_the_stock_is_in_equal_parts() -> None:
    """147 1/2 in 8' boards: two of 73 3/4."""
    wall = walls({"corners.board": "2x6", "lumber.stock": ["8'"], **NARROW})["A"]
    assert [(u.low, u.high) for u in called(wall, "Corner board A1")] == [(0, 73.75), (73.75, 147.5)]


NARROW: dict[str, Any] = {
    "building.width": "24'",
    "building.front_columns": ["8'", "16'"],
    "building.back_columns": ["8'", "16'"],
}


@given(PLACED)
def test_corner_boards_reach_from_grade_line_to_bearing_once_at_each_corner(building: Building) -> None:
    corners = {s.name for s in building.plan.spots if s.role == "corner"}
    reach: dict[str, list[tuple[float, float]]] = {}
    for wall in building.walls:
        for upright in called(wall, "Corner board"):
            assert not wall.line.gable
            reach.setdefault(upright.name.removeprefix("Corner board "), []).append((upright.low, upright.high))
    if building.job.corners.board is None:
        assert reach == {}
        return
    assert set(reach) == corners
    for parts in reach.values():
        assert parts[0][0] == 0
        assert parts[-1][1] == building.roof.bearing
        assert all(a[1] == b[0] for a, b in pairwise(parts))


@given(PLACED)
def test_no_row_inside_runs_through_a_corner_board(building: Building) -> None:
    for wall in building.walls:
        boards = called(wall, "Corner board")
        for found in wall.inner:
            for upright in boards:
                assert all(p.low[1] <= upright.left + 1e-6 or p.low[0] >= upright.right - 1e-6 for p in found.pieces)


# --- fillers ----------------------------------------------------------------------------------------------------------


def test_fillers_back_the_trim_between_rows_that_run_past() -> None:
    """TRADE: grade board to 7 1/4, girts at 27 1/8, 50 1/2, ...: the first block is 27 1/8 - 7 1/4 = 19 7/8, the others
    23 3/8 - 3 1/2 = 19 7/8. Five girts and the top one: six blocks a corner, on the end walls alone."""
    found = walls({"corners.fillers": "between rows"})
    for name in "17":
        blocks = called(found[name], "Filler")
        assert len(blocks) == 12
        assert {u.length for u in blocks} == {19.875}
        assert {(u.left, u.right) for u in blocks} == {(-1.5, 0), (429, 430.5)}
    assert not called(found["A"], "Filler")
    assert not called(found["E"], "Filler")


def test_the_first_filler_stands_on_the_grade_board_that_runs_past_from_the_other_wall() -> None:
    found = walls({"corners.fillers": "between rows", "girts.grade_board_runs_past": "side"})
    assert min(u.low for u in called(found["1"], "Filler")) == 7.25
    assert len(called(found["1"], "Filler")) == 12


def test_fillers_go_on_past_the_other_walls_soffit_nailer_which_stops_at_the_column() -> None:
    """Tops marked: the sidewall's 2x6 nailer hangs 2 in lower than the 2x4 girt that meets it at the corner. It ends at
    the corner column, so the block goes up to the girt."""
    changes = {"roof.soffit": "level", "roof.overhang": "12", "girts.edge": "top", "corners.fillers": "between rows"}
    building = build({**TRADE, **changes, "roof.soffit_nailer": "2x6"})
    wall = next(w for w in building.walls if w.name == "1")
    nailer = building.rows.side[-1]
    assert (nailer.key, nailer.high - nailer.low) == ("soffit nailer", 5.5)
    assert max(u.high for u in called(wall, "Filler")) == pytest.approx(nailer.low + 2)


@pytest.mark.parametrize(("past", "wall", "corner"), [("end", "1", "A1"), ("side", "A", "A7")])
def test_a_filler_goes_past_a_girt_that_a_header_takes_the_place_of(past: str, wall: str, corner: str) -> None:
    """Girts at 27 1/8, 50 1/2, 73 7/8, 97 1/4, 120 5/8. A door in the corner bay: floor 3 1/2, 92 high and 2 more, its
    header 97 1/2 to 103 leaves the fourth out there. Blocks from the third, 77 3/8 to 97 1/2, and from 103 to 120 5/8;
    at the other corner that girt is there."""
    door = {"wall": wall, "kind": "walk", "height": "7'-8", "width": "3'", "bay": 1}
    lap = {"girts.runs_past": past, "girts.grade_board_runs_past": past}
    made = with_opening({"corners.fillers": "between rows", **lap}, **door)
    there = [(u.low, u.high) for u in called(made, f"Filler {corner}")]
    assert there[3:5] == [(77.375, 97.5), (103, 120.625)]
    beyond = [(u.low, u.high) for u in called(made, "Filler") if u.left > 0]
    assert beyond[3:5] == [(77.375, 97.25), (100.75, 120.625)]


@pytest.mark.parametrize("place", ["between", "inside"])
def test_no_girt_outside_no_filler(place: str) -> None:
    found = walls({"corners.fillers": "between rows", "girts.place": place, "wainscot.nailer": "2x6"})
    assert not any(called(w, "Filler") for w in found.values())


@given(PLACED)
def test_fillers_fill_what_rows_leave_at_both_ends_of_walls_that_run_past(building: Building) -> None:
    """Rows, what of the other wall's runs past, and fillers together: no hole over 3 in up to the last row, and
    nothing twice."""
    made = building.job
    past = "end" if made.girts.runs_past == "end" else "side"
    for wall in building.walls:
        blocks = called(wall, "Filler")
        if made.corners.fillers == "none" or not made.girt_out or wall.line.gable != (past == "end"):
            assert not blocks
            continue
        for at, corner in ((-wall.past / 2, wall.stands[0]), (wall.line.length + wall.past / 2, wall.stands[-1])):
            other = _past_the_corner(building, wall, corner.name)
            full = [c.row for c in wall.courses if any(p.high[0] <= at <= p.high[1] for p in c.pieces)]
            full = [r for r in full if _square(wall, r.name, at)]
            rows = [(r.low, r.high) for r in (*full, *other)]
            own = [(u.low, u.high) for u in blocks if u.left < at < u.right]
            top = max(r.high for r in full)
            taken = shapely.union_all([shapely.box(0, a, 1, b) for a, b in rows])
            filled = shapely.union_all([shapely.box(0, a, 1, b) for a, b in own]) if own else shapely.Polygon()
            assert sum(b - a for a, b in own) == pytest.approx(filled.area)
            assert filled.intersection(taken).area < 1e-6
            holes = shapely.box(0, 0, 1, top).difference(taken).difference(filled)
            assert all(part.area < 3 for part in getattr(holes, "geoms", [holes]))


def _past_the_corner(building: Building, wall: Wall, corner: str) -> list[Row]:
    """The rows of the other wall at a corner whose boards go on over its columns' outer face."""
    found = []
    for other in building.walls:
        if other is not wall and corner in (other.stands[0].name, other.stands[-1].name):
            first = corner == other.stands[0].name
            for course in other.courses:
                ends = course.pieces[0].low[0], course.pieces[-1].low[1] - other.line.length
                if course.row.layer == "outside" and (ends[0] < -1e-6 if first else ends[1] > 1e-6):
                    found.append(course.row)
    return found


def _square(wall: Wall, name: str, at: float) -> bool:
    """Whether a row's end at a place is square: the slope leaves all of it."""
    row = next(c for c in wall.courses if c.row.name == name)
    return row.pieces[0 if at < 0 else -1].backs[0 if at < 0 else 1] < 1e-6


# --- blocking ---------------------------------------------------------------------------------------------------------


def test_blocks_stand_in_the_middle_of_wide_bays_between_the_rows() -> None:
    """Bays of 8', 12', 8': the clear 12' bay is 144 - 4 1/2 = 139 1/2. Middle 94 1/2 + 72 = 166 1/2 along wall E."""
    bays = {"building.length": "28'", "building.bays": ["8'", "12'", "8'"], "girts.blocking": "10'"}
    blocks = called(walls(bays)["E"], "Blocking")
    assert len(blocks) == 6
    assert {(u.left, u.right) for u in blocks} == {(166.5 - 1.75, 166.5 + 1.75)}
    assert {u.length for u in blocks} == {19.875}


def test_blocks_between_girts_that_lie_flat_stand_edge_on() -> None:
    blocks = called(walls({"girts.blocking": "7'", "girts.place": "between", "girts.board": "2x6"})["E"], "Blocking")
    assert {round(u.right - u.left, 6) for u in blocks} == {1.5}
    assert {u.section.name for u in blocks} == {"2x6"}


@pytest.mark.parametrize(("boards", "low", "treated"), [(1, 0, True), (2, 7.25, False), (3, 14.5, False)])
def test_the_lowest_block_between_columns_laps_the_grade_board_before_it(
    boards: int, low: float, treated: bool
) -> None:
    """Girts from the top of the grade boards, 7 1/4 each: a block that began there would stand beside them, held by
    nothing. It goes behind the highest one, to its lower edge; at the grade line it is treated."""
    changes = {"girts.blocking": "7'", "girts.place": "between", "girts.board": "2x6", "grade.boards": str(boards)}
    wall = walls(changes)["E"]
    girt = next(c.row for c in wall.courses if c.row.name == "Girt 1")
    first = [u for u in called(wall, "Blocking") if u.low < girt.low]
    assert {(u.low, u.high, u.treated) for u in first} == {(low, girt.low, treated)}
    assert len(first) == len(wall.stands) - 1
    assert not any(u.treated for u in called(wall, "Blocking") if u not in first)


def test_blocks_of_girts_on_the_columns_lie_on_the_grade_board() -> None:
    """They lie in its plane."""
    blocks = called(walls({"girts.blocking": "7'"})["E"], "Blocking")
    assert min(u.low for u in blocks) == 7.25
    assert not any(u.treated for u in blocks)


@pytest.mark.parametrize(("top", "lengths"), [("11'-8 7/16", []), ("11'-8 1/2", [3.0])])
def test_a_block_under_3_in_is_left_out(top: str, lengths: list[float]) -> None:
    """A door: floor 3 1/2, 10 ft 3 and 2 more, 5 1/2 of header: up to 134. The top girt, up to 140 7/16 or 140 1/2, is
    3 1/2 wide: it begins 2 15/16 or 3 above the header. At the corner of wall 1 the same over its door."""
    for wall, what in (("A", "Blocking"), ("1", "Filler A1")):
        given = {"girts.blocking": "6'", "girts.top": top, "corners.fillers": "between rows"}
        made = with_opening(given, wall=wall, kind="walk", width="3'", height="10'-3", bay=1)
        assert [u.length for u in called(made, what) if u.low == 134] == lengths, wall


def test_no_limit_no_blocks() -> None:
    assert not any(called(w, "Blocking") for w in walls().values())
    assert not any(called(w, "Blocking") for w in walls({"girts.blocking": "12'"}).values())


def test_no_block_in_an_opening_nor_in_its_cripples() -> None:
    wall = with_opening({"girts.blocking": "7'"})
    bay = (wall.stands[1].centre, wall.stands[2].centre)
    here = [u for u in called(wall, "Blocking") if bay[0] < u.left < bay[1]]
    door = wall.openings[0]
    assert here, "above the header there is wall"
    assert all(u.low >= door.high for u in here)
    cripples = [box(u) for u in wall.uprights if "Cripple" in u.name]
    assert all(box(u).intersection(c).area < 1e-9 for u in here for c in cripples)


@given(PLACED)
def test_blocks_touch_a_row_at_both_ends_and_lie_in_no_board(building: Building) -> None:
    for wall in building.walls:
        courses = wall.inner if building.job.girts.place == "inside" else wall.courses
        if building.job.girts.place == "between":  # grade boards lie before the blocks, the highest is lapped
            behind = [c.row.low for c in courses if c.row.layer == "outside"][-1]
            courses = tuple(c for c in courses if c.row.layer == "between")
        else:
            behind = math.nan
        lows, highs = {c.row.low for c in courses}, {behind, *(c.row.high for c in courses)}
        for block in called(wall, "Blocking"):
            assert block.low in highs
            assert block.high in lows
            assert all(block.right <= s.left or block.left >= s.right for s in wall.stands)
            for found in courses:
                assert found.row.high <= block.low + 1e-6 or found.row.low >= block.high - 1e-6
