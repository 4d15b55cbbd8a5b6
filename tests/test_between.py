"""Girts between the columns, on their inside, and on both sides: what lies where, and where it ends."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from jobs import TRADE, build, job_text, refusal, toml_value
from test_walls import course, whole

from layouts.building import lay_out
from layouts.job import read
from layouts.lengths import Style, show
from layouts.walls import Course, Wall


def walls(changes: dict[str, Any] | None = None) -> dict[str, Wall]:
    return {w.name: w for w in build({**TRADE, **(changes or {})}).walls}


def inner(wall: Wall, name: str) -> Course:
    return next(c for c in wall.inner if c.row.name == name)


def shown(inches: float) -> str:
    return show(inches, Style())


# --- between ----------------------------------------------------------------------------------------------------------


def test_a_girt_between_columns_is_the_clear_bay_cut_an_eighth_short() -> None:
    """96 - 4 1/2 = 7'-7 1/2" (common practice, no source), cut 1/8 short; end bays 96 - 2 1/4 - 4 1/2 = 89 1/4."""
    lengths = [shown(p.length) for p in course(walls({"girts.place": "between"})["A"], "Girt 1").pieces]
    assert lengths == ["7'-5 1/8\"", *["7'-7 3/8\""] * 4, "7'-5 1/8\""]


def test_half_of_the_gap_is_left_at_either_end() -> None:
    first = course(walls({"girts.place": "between", "girts.gap": "1/4"})["A"], "Girt 1").pieces[0]
    assert first.low == (4.625, 93.625)  # from 4 1/2 to 96 - 2 1/4, 1/8 less at each end


def test_girts_between_lie_flat() -> None:
    """Their thickness counts: virtual bottom 7 1/4 - 1 1/2 = 5 3/4, top girt 147 1/2 - 1 1/2 = 146; six steps."""
    rows = build({**TRADE, "girts.place": "between", "girts.board": "2x6"}).rows
    girts = [r for r in rows.side if r.key in ("girt", "top girt")]
    assert {(r.layer, r.high - r.low) for r in girts} == {("between", 1.5)}
    assert girts[-1].high == 147.5
    assert rows.step == pytest.approx(140.25 / 6)


def test_nailers_stand_in_the_plane_of_girts_between() -> None:
    changes = {"wainscot.nailer": "2x6", "roof.soffit": "level", "roof.overhang": "12", "girts.place": "between"}
    rows = build({**TRADE, **changes}).rows
    nailers = {r.name: r for r in rows.side if "nailer" in r.name}
    assert {r.layer for r in nailers.values()} == {"between"}
    wainscot = nailers["Wainscot nailer"]
    assert wainscot.high - wainscot.low == 5.5  # on edge: both sheets are nailed to its width
    assert {r.layer for r in build({**TRADE, **changes, "girts.place": "outside"}).rows.side} == {"outside"}


@pytest.mark.parametrize("place", ["between", "inside"])
def test_without_girts_outside_the_building_line_is_the_columns(place: str) -> None:
    plan = build({**TRADE, "girts.place": place}).plan
    assert (plan.across, plan.along) == (432, 576)
    assert plan.column_diagonal == plan.building_diagonal == 720


@pytest.mark.parametrize(("place", "inches"), [("outside", 1.5), ("both", 1.5), ("between", 0), ("inside", 0)])
def test_the_eave_line_is_at_the_outside_of_what_is_outside(place: str, inches: float) -> None:
    """Bearing 147 1/2 + heel 3 15/16 + 3 1/2·sqrt(10)/3 = 155.1268, less 1/2 where girts stand 1 1/2 out at 4/12."""
    roof = build({**TRADE, "girts.place": place}).roof
    assert roof.eave == pytest.approx(155.1268 - inches / 3, abs=1e-4)
    assert roof.eave == pytest.approx(roof.top.over(-inches))


def test_a_heel_at_the_girt_face_is_at_the_column_where_no_girt_is_outside() -> None:
    at = {h: build({**TRADE, "girts.place": "between", "truss.heel_at": h}).roof.eave for h in ("girt", "column")}
    assert at["girt"] == pytest.approx(at["column"])


@pytest.mark.parametrize(("past", "end", "side"), [("end", 435, 576), ("side", 432, 579)])
def test_the_grade_board_laps_at_the_corner_where_girts_are_between(past: str, end: float, side: float) -> None:
    """36' and 48' of columns; the board that runs past covers the other's 1 1/2 at both ends."""
    found = walls({"girts.place": "between", "girts.grade_board_runs_past": past})
    for name, wall in found.items():
        board = course(wall, "Grade board")
        assert sum(p.length for p in board.pieces) == (end if name in "17" else side)
        assert wall.past == 0


def test_the_first_gable_girt_between_goes_as_far_as_the_slope() -> None:
    """2x6 lying: 1 1/2 at 4/12 is 4 1/2 back. The first row over the eave, bottom at 169 3/8 = 146 + 23 3/8, meets the
    chord, 151 7/16 at the face, at (169.375 - 151.4375)·3 = 53.8125, its top at 58.3125."""
    wall = walls({"girts.place": "between", "girts.board": "2x6"})["1"]
    first = course(wall, "Girt 7").pieces[0]
    assert (first.low[0], first.high[0]) == pytest.approx((53.8125, 58.3125))
    assert first.backs == pytest.approx((4.5, 0))
    assert first.left_rise == pytest.approx(1.5)


def test_of_a_slope_that_begins_beside_a_column_only_a_part_is_cut() -> None:
    """The same row with a column up to 55.3125: 3 of the 4 1/2 are left in the bay, 1 of the 1 1/2, and half a gap of
    1/16 takes another 1/48 of it."""
    ends = ["53.0625", "18'", "27'"]
    changes = {"girts.place": "between", "girts.board": "2x6", "building.front_columns": ends}
    first = course(walls(changes)["1"], "Girt 7").pieces[0]
    assert first.low[0] == pytest.approx(55.375)
    assert first.backs[0] == pytest.approx(2.9375)
    assert first.left_rise == pytest.approx(2.9375 / 3)


def test_a_bay_wider_than_the_longest_board_is_refused() -> None:
    said = refusal({**TRADE, "girts.place": "between", "building.bays": ["24'", "24'"], "lumber.stock": ["20'"]})
    assert "building.bays" in said
    assert "longest board is 20'-0\"" in said


DOOR: dict[str, Any] = {"wall": "A", "name": "Door", "kind": "overhead", "width": "4'", "height": "7'", "bay": 2}


def with_opening(changes: dict[str, Any], **fields: Any) -> Wall:
    """The wall with a door of 4' x 7' in the middle of its second bay."""
    given = {**DOOR, "jambs": "posts", "girts": "stop", **fields}
    table = "\n".join(f"{key} = {toml_value(value)}" for key, value in given.items())
    text = job_text({**TRADE, **changes}) + f"[[opening]]\n{table}\n"
    return next(w for w in lay_out(read(text)).walls if w.name == given["wall"])


def test_girts_between_end_at_the_jamb_posts() -> None:
    """Rough opening 48 + 3 = 51 in the middle of a bay, posts 1 1/2 to either side: 54 less of it, and gaps."""
    wall = with_opening({"girts.place": "between"})
    bay = (wall.stands[1].right, wall.stands[2].left)
    (left, right) = [p for p in course(wall, "Girt 1").pieces if bay[0] < p.low[0] and p.low[1] < bay[1]]
    posts = [u for u in wall.uprights if "Jamb" in u.name]
    assert left.low[1] == pytest.approx(posts[0].left - 1 / 16)
    assert right.low[0] == pytest.approx(posts[1].right + 1 / 16)
    assert left.length == pytest.approx((bay[1] - bay[0] - 54) / 2 - 1 / 8)


def test_a_header_goes_between_the_jamb_posts_like_the_girts() -> None:
    """Where girts lie between the columns the posts stand in their way, and in the header's: 51 less the gap."""
    wall = with_opening({"girts.place": "between"})
    (header,) = wall.levels[0].pieces
    posts = [u for u in wall.uprights if "Jamb" in u.name]
    assert header.low == pytest.approx((posts[0].right + 1 / 16, posts[1].left - 1 / 16))
    assert header.length == pytest.approx(51 - 1 / 8)


def test_a_header_in_a_corner_bay_ends_with_the_girts_inside() -> None:
    """Endwall girts run past, so sidewall ones stop 5 1/2 + 1 1/2 from the corner; its nailers outside run to it."""
    (header,) = with_opening({"girts.place": "inside", "wainscot.nailer": "2x6"}, bay=1).levels[0].pieces
    assert header.low[0] == 7


def test_rows_inside_pass_the_header_and_stop_at_the_opening() -> None:
    """The header lies with the girts outside: a row inside beside it is not in its way."""
    wall = with_opening({"girts.place": "both"})
    gone = {c.row.name for c in wall.inner if any(a.low[1] < b.low[0] for a, b in pairwise(c.pieces))}
    door = wall.openings[0]
    assert gone == {c.row.name for c in wall.inner if c.row.low < door.high and c.row.high > door.low}
    for found in wall.inner:
        for a, b in pairwise(found.pieces):
            if a.low[1] != b.low[0]:
                assert (a.low[1], b.low[0]) == (door.left, door.right)


# --- inside -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("past", "ends"), [("end", ("35'-1\"", "46'-10\"")), ("side", ("34'-10\"", "48'-0\""))])
def test_rows_inside_end_by_the_lap_rule(past: str, ends: tuple[str, str]) -> None:
    """Columns 36' x 48'. Endwall rows that run past: 432 - 2·5 1/2 = 421; the sidewall's then stop at them, 5 1/2 and
    1 1/2 from either end: 576 - 14 = 562. Sidewall rows that run past are nailed across their corner columns: 576;
    the endwall's then are 432 - 2·(5 1/2 + 1 1/2) = 418."""
    found = walls({"girts.place": "inside", "girts.runs_past": past})
    for name, wall in found.items():
        assert whole(inner(wall, "Girt 1"))[0] == (ends[0] if name in "17" else ends[1])


def test_sidewall_rows_that_run_past_stop_at_the_corner_boards() -> None:
    """2x6 on the corner column: from the endwall columns' inner faces, 5 1/2 in, back to the corner."""
    found = walls({"girts.place": "inside", "girts.runs_past": "side", "corners.board": "2x6"})
    assert whole(inner(found["A"], "Girt 1"))[0] == "47'-1\""  # 576 - 11


@pytest.mark.parametrize("past", ["end", "side"])
def test_a_corner_board_that_stands_in_stops_the_rows_of_both_walls(past: str) -> None:
    """A 2x6 reaches 5 1/2 along the sidewall, past the inner plane of turned endwall columns at 4 1/2: 576 - 11 = 565;
    the endwall's rows end at its face, 432 - 2·(5 1/2 + 1 1/2) = 418."""
    turned = {"column.endwall_face": "depth", "corners.board": "2x6"}
    found = walls({"girts.place": "inside", "girts.runs_past": past, **turned})
    assert whole(inner(found["1"], "Girt 1"))[0] == "34'-10\""
    assert whole(inner(found["A"], "Girt 1"))[0] == "47'-1\""


def test_turned_endwall_columns_are_less_deep() -> None:
    found = walls({"girts.place": "inside", "column.endwall_face": "depth"})
    assert whole(inner(found["A"], "Girt 1"))[0] == "47'-0\""  # 576 - 2·(4 1/2 + 1 1/2)


def test_with_girts_inside_the_top_one_is_flush_with_the_bearing_whatever_the_soffit() -> None:
    rows = build({**TRADE, "girts.place": "inside", "roof.soffit": "level", "roof.overhang": "12"}).rows
    assert (rows.inner_side[-1].key, rows.inner_side[-1].high) == ("top girt", 147.5)
    assert [r.name for r in rows.side] == ["Grade board", "Soffit nailer"]
    assert [r.name for r in rows.end] == ["Grade board"]


def test_nailers_outside_lap_at_the_corner_though_girts_are_inside() -> None:
    found = walls({"girts.place": "inside", "wainscot.nailer": "2x6"})
    assert sum(p.length for p in course(found["1"], "Wainscot nailer").pieces) == 435  # 432 and twice 1 1/2
    assert sum(p.length for p in course(found["A"], "Wainscot nailer").pieces) == 576
    assert (found["1"].past, found["A"].past) == (1.5, 0)


# --- both -------------------------------------------------------------------------------------------------------------


def test_rows_inside_share_the_marks_of_those_outside() -> None:
    rows = build({**TRADE, "girts.place": "both", "girts.inside": "2x4"}).rows
    assert [r.low for r in rows.inner_side] == [r.low for r in rows.side if r.key != "grade board"]
    assert rows.all_side == rows.side
    assert rows.inner_side[0].name == "Inside girt 1"


@pytest.mark.parametrize("edge", ["bottom", "top"])
def test_marked_edges_meet_when_the_inside_is_another_size(edge: str) -> None:
    """Tops or bottoms: one mark does for both."""
    rows = build({**TRADE, "girts.place": "both", "girts.inside": "2x6", "girts.edge": edge, "girts.top": "11'"}).rows
    at = "low" if edge == "bottom" else "high"
    outer = [getattr(r, at) for r in rows.side if r.key != "grade board"]
    assert [getattr(r, at) for r in rows.inner_side] == pytest.approx(outer)
    assert rows.all_side == rows.side


def test_no_row_inside_stands_above_the_bearing() -> None:
    """A 2x6 with its bottom at a 2x4's flush with the bearing would stand 2 in in the trusses: it is lowered, and gets
    a mark of its own. Up the gable there are none: the ceiling is below."""
    rows = build({**TRADE, "girts.place": "both", "girts.inside": "2x6"}).rows
    for inside in (rows.inner_side, rows.inner_end):
        assert inside[-1].high == 147.5
    assert rows.inner_side[-1] in rows.all_side
    assert "gable girt" not in {r.key for r in rows.inner_end}


def test_rows_inside_are_counted_where_they_cannot_be_staggered() -> None:
    """One column between corners, boards that reach no further: inside rows break on it too."""
    ends = {"building.width": "20'", "building.front_columns": ["10'"], "building.back_columns": ["10'"]}
    changes = {**ends, "lumber.stock": ["12'"], "girts.place": "inside", "building.bays": 6}
    assert {w.name: w.shared for w in build({**TRADE, **changes}).walls if w.line.gable} == {"1": ("B1",), "7": ("B7",)}
