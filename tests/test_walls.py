"""Walls as they lie: every row cut into pieces, joints on columns, ends to the slope."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import given
from jobs import TRADE, build, buildings, refusal, slope

from layouts.building import Building
from layouts.lengths import Style, show
from layouts.walls import Course, Piece, Wall


def walls(changes: dict[str, Any] | None = None) -> dict[str, Wall]:
    return {w.name: w for w in build({**TRADE, **(changes or {})}).walls}


def course(wall: Wall, name: str) -> Course:
    return next(c for c in wall.courses if c.row.name == name)


def whole(found: Course) -> tuple[str, str]:
    """Bottom and top edge of a whole row."""
    first, last = found.pieces[0], found.pieces[-1]
    return show(last.low[1] - first.low[0], Style()), show(last.high[1] - first.high[0], Style())


def joints(found: Course) -> set[float]:
    return {p.low[1] for p in found.pieces[:-1]}


@pytest.mark.parametrize(("runs", "end", "side"), [("end", "36'-0\"", "47'-9\""), ("side", "35'-9\"", "48'-0\"")])
def test_one_pair_of_walls_runs_past_the_other_stops(runs: str, end: str, side: str) -> None:
    found = walls({"girts.runs_past": runs, "girts.grade_board_runs_past": "end"})
    for name, total in (("1", end), ("7", end), ("A", side), ("E", side)):
        assert whole(course(found[name], "Girt 1")) == (total, total)
        board = whole(course(found[name], "Grade board"))[0]
        assert board == ("36'-0\"" if name in "17" else "47'-9\"")


@pytest.mark.parametrize(
    ("row", "long", "short"),
    [
        ("Girt 7", "27'-9 3/8\"", "26'-0 3/8\""),
        ("Girt 8", "16'-1 1/8\"", "14'-4 1/8\""),
        ("Girt 9", "4'-4 7/8\"", "2'-7 7/8\""),
    ],
)
def test_gable_girts_of_the_trade(row: str, long: str, short: str) -> None:
    """Ends at the chord; each end cut 10 1/2 back on 3 1/2 (common practice, no source)."""
    for wall in ("1", "7"):
        found = course(walls()[wall], row)
        assert whole(found) == (long, short)
        assert found.pieces[0].backs[0] == pytest.approx(10.5)
        assert found.pieces[-1].backs[1] == pytest.approx(10.5)
        assert found.pieces[0].left_rise == pytest.approx(3.5)


def test_a_short_gable_girt_is_one_piece_with_both_ends_cut() -> None:
    (piece,) = course(walls()["1"], "Girt 9").pieces
    assert piece.length == pytest.approx(52.875)
    assert piece.short == pytest.approx(31.875)  # less twice 10 1/2
    assert piece.backs == pytest.approx((10.5, 10.5))


def test_a_board_that_meets_the_slope_with_its_corner_is_cut_over_part_of_its_width() -> None:
    """Heel 22: at the end, 1 1/2 past the columns, the chord is 21 1/2 over the bearing. Girt 7 stands 19 7/8 to 23 3/8
    over it, so 1 7/8 of it is cut off, 5 5/8 back."""
    first = course(walls({"truss.heel": "22"})["1"], "Girt 7").pieces[0]
    assert first.left_rise == pytest.approx(1.875)
    assert first.backs[0] == pytest.approx(5.625)
    assert first.low[0] == -1.5


def test_no_joint_in_the_sloped_end_of_a_gable_girt() -> None:
    """Girt 7 begins at 47.81 below and at 58.31 above: a column at 53 holds no joint of its full width, so boards of
    27'-6" do not make up its 27'-9 3/8"."""
    ends = ["4'-6 1/2", "31'-5 1/2"]
    changes = {"building.front_columns": ends, "building.back_columns": ends, "lumber.stock": ["27'-6"]}
    assert "a stretch of 27'-9 3/8\" without a column" in refusal({**TRADE, **changes})


def test_a_first_piece_ends_on_the_middle_of_a_column() -> None:
    """8 ft bays in 16 ft stock: 192 - 1 1/2 = 15'-10 1/2"; rows break 16-16-16 and 8-16-16-8 by turns."""
    wall = walls({"lumber.stock": ["16'"]})["E"]
    thirds, halves = {190.5, 382.5}, {94.5, 286.5, 478.5}
    found = [joints(c) for c in wall.courses]
    assert all(a in (thirds, halves) for a in found)
    assert all(a != b for a, b in pairwise(found))
    lengths = {show(p.length, Style()) for c in wall.courses for p in c.pieces}
    assert lengths == {"15'-10 1/2\"", "16'-0\"", "7'-10 1/2\""}


def test_the_back_wall_is_laid_from_its_own_left() -> None:
    """Columns at 8 and 20 ft of 36: from behind they stand at 16 and 28 from the left."""
    changes = {"building.back_columns": ["8'", "20'"], "building.front_columns": ["8'", "20'"]}
    found = walls(changes)
    assert [s.centre for s in found["1"].stands[1:3]] == [94.5, 238.5]  # 96 - 1 1/2, 240 - 1 1/2
    assert [s.centre for s in found["7"].stands[1:3]] == [190.5, 334.5]  # 429 - 238 1/2, 429 - 94 1/2
    for wall in ("1", "7"):
        centres = {s.centre for s in found[wall].stands}
        assert all(joints(c) <= centres for c in found[wall].courses)


def test_sidewalls_own_the_corner_columns() -> None:
    assert {name: w.theirs for name, w in walls().items()} == {"A": (), "7": ("E7", "A7"), "E": (), "1": ("A1", "E1")}


def test_an_unread_column_stands_in_its_wall_without_numbers() -> None:
    building = build(TRADE, {"A2": "45"})
    wall = next(w for w in building.walls if w.name == "A")
    assert {s.name: s.column is not None for s in wall.stands} == {
        "A7": False,
        "A6": False,
        "A5": False,
        "A4": False,
        "A3": False,
        "A2": True,
        "A1": False,
    }
    assert all(s.top for s in wall.stands)


def test_a_corner_column_seen_in_the_gable_rises_inward() -> None:
    for name in ("1", "7"):
        stands = walls()[name].stands
        left, right = stands[0].top, stands[-1].top
        assert left[0][0] == 0
        assert left[0][1] < left[-1][1]
        assert right[-1][0] == pytest.approx(429)
        assert right[0][1] > right[-1][1]


def test_like_pieces_are_one_line_of_the_cut_list() -> None:
    building = build(TRADE)
    nine = [line for line in building.pieces if line.where == ("7: Girt 9", "1: Girt 9")]
    assert len(nine) == 1
    assert (nine[0].count, nine[0].section, nine[0].treated) == (2, "2x4", False)
    assert nine[0].length == pytest.approx(52.875)
    assert nine[0].rises == pytest.approx((3.5, 3.5))
    assert {line.section for line in building.pieces if line.treated} == {"2x8"}


def test_marks_are_numbered_by_section_longest_first() -> None:
    lines = build(TRADE).pieces
    assert [line.mark for line in lines] == [f"#{i}" for i in range(1, len(lines) + 1)]
    assert [(x.section, -x.length) for x in lines] == sorted((x.section, -x.length) for x in lines)


def test_rows_that_cannot_be_staggered_are_named() -> None:
    """One column between corners and boards that reach no further: all rows break on it."""
    building = build(
        {
            "building.width": "20'",
            "building.front_columns": ["10'"],
            "building.back_columns": ["10'"],
            "lumber.stock": ["12'"],
            "building.length": "48'",
        }
    )
    ends = {w.name: w.shared for w in building.walls if w.line.gable}
    assert ends == {"1": ("B1",), "7": ("B7",)}
    assert any("Wall 1: rows above each other break on B1" in w for w in building.warnings)


def outline(piece: Piece) -> shapely.Polygon:
    """A piece as a polygon, from its edges and how far up the cut begins."""
    (a, b), (c, d) = piece.low, piece.high
    low, high = piece.row.low, piece.row.high
    right = high - piece.right_rise if b != d else low
    left = high - piece.left_rise if a != c else low
    return shapely.Polygon([(a, low), (b, low), (b, right), (d, high), (c, high), (a, left)])


@given(buildings())
def test_a_row_of_a_gable_is_what_the_chord_leaves_of_it(building: Building) -> None:
    """Against shapely: the row as a rectangle, cut off by the area under the chord."""
    made, across = building.job, building.plan.across
    heel = made.truss.heel + (1.5 * slope(made) if made.truss.heel_at == "girt" else 0)
    at_face = building.roof.bearing + heel
    far = 50.0
    under = shapely.Polygon(
        [
            (-far, -far),
            (across + far, -far),
            (across + far, at_face - far * slope(made)),
            (across / 2, at_face + across / 2 * slope(made)),
            (-far, at_face - far * slope(made)),
        ]
    )
    for wall in building.walls:
        if not wall.line.gable:
            continue
        for found in wall.courses:
            past = wall.grade_past if found.row.key == "grade board" else wall.past
            want = shapely.box(-past, found.row.low, across + past, found.row.high).intersection(under)
            got = shapely.union_all([outline(p) for p in found.pieces])
            assert got.area == pytest.approx(want.area, abs=1e-4)
            assert got.symmetric_difference(want).area < 1e-4


@given(buildings())
def test_pieces_of_a_row_add_up_to_the_row(building: Building) -> None:
    for wall in building.walls:
        assert wall.courses[0].row.key == "grade board"
        for found in wall.courses:
            assert all(a.low[1] == b.low[0] and a.high[1] == b.high[0] for a, b in pairwise(found.pieces))
            if found.row.key == "gable girt":
                continue
            past = wall.grade_past if found.row.key == "grade board" else wall.past
            assert sum(p.length for p in found.pieces) == pytest.approx(wall.line.length + 2 * past)


@given(buildings())
def test_what_runs_past_and_what_stops_make_the_building(building: Building) -> None:
    """At a corner the walls that run past cover the ends of those that stop: outside of girts all round."""
    girt = building.job.girts.board.thick
    ends = {w.line.side: sum(p.length for p in w.courses[1].pieces) for w in building.walls}
    if building.job.girts.runs_past == "end":
        assert ends["front"] == pytest.approx(building.plan.across + 2 * girt)
        assert ends["left"] == pytest.approx(building.plan.along)
    else:
        assert ends["front"] == pytest.approx(building.plan.across)
        assert ends["left"] == pytest.approx(building.plan.along + 2 * girt)
    if building.job.building.line == "girts":
        runs = ends["front"] if building.job.girts.runs_past == "end" else ends["left"]
        assert runs in (pytest.approx(building.plan.width), pytest.approx(building.plan.length))


@given(buildings())
def test_no_piece_is_longer_than_the_stock_and_joints_are_on_columns(building: Building) -> None:
    longest = max(building.job.lumber.stock)
    for wall in building.walls:
        centres = {s.centre for s in wall.stands[1:-1]}
        for found in wall.courses:
            assert all(0 < p.length <= longest + 1e-6 for p in found.pieces)
            assert joints(found) <= centres
        named = {s.centre for s in wall.stands if s.name in wall.shared}
        for a, b in pairwise(wall.courses):
            assert joints(a) & joints(b) <= named


def test_no_joint_is_on_a_corner_column() -> None:
    """A board of 20'-1" in 20 ft stock breaks on the column between, not 4 1/4 in from its end on the corner."""
    ends = {"building.front_columns": ["7'-10"], "building.back_columns": ["7'-10"]}
    building = build({"building.width": "19'-10", "building.line": "columns", **ends})
    for wall in building.walls:
        assert min(p.length for c in wall.courses for p in c.pieces if c.row.key != "gable girt") > 12


@given(buildings())
def test_every_piece_is_in_the_cut_list_and_the_other_way_round(building: Building) -> None:
    laid = Counter(p.mark for w in building.walls for c in w.courses for p in c.pieces)
    assert laid == {line.mark: line.count for line in building.pieces}
    lines = {line.mark: line for line in building.pieces}
    for wall in building.walls:
        for found in wall.courses:
            for piece in found.pieces:
                line = lines[piece.mark]
                assert (line.section, line.treated) == (found.row.section.name, found.row.treated)
                assert line.length == pytest.approx(piece.length, abs=2e-3)
                assert line.short == pytest.approx(piece.short, abs=2e-3)
                assert sorted(line.backs) == pytest.approx(sorted(piece.backs), abs=2e-3)
                assert f"{wall.name}: {found.row.name}" in line.where
