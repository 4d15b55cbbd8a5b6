"""Nails at boards that stand: corner boards where a row comes to their column, blocks at both ends, what of it all
touches treated wood; and which boards are treated because they stand at the ground."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import opened
import pytest
from jobs import TRADE, every, job

from layouts import nail_count, nail_warnings, nails
from layouts.building import Building, lay_out
from layouts.nail_count import Tally
from layouts.nails import Nailing

CORNER = {"corners.board": "2x6"}
UNTREATED = {"column.treated": "none"}


def whole(changes: Mapping[str, Any]) -> Building:
    made = job({**TRADE, "grade.line": "43", **changes})
    return lay_out(made, every(made))


def of(building: Building, key: str, *walls: str, treated_up: float = 0.0) -> tuple[int, int]:
    """How often a joint occurs, and how often with treated wood."""
    chosen = [w for w in building.walls if w.name in walls or not walls]
    found = [t for t in nail_count.tallies(building.job, chosen, treated_up) if t.joint == key]
    return sum(t.count for t in found), sum(t.treated for t in found)


# --- corner boards ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("window", [None, {**opened.WINDOW, **opened.at("22'")}])
def test_a_corner_board_is_nailed_where_a_row_comes_to_its_column(window: dict[str, Any] | None) -> None:
    """A grade board and six girts come to either corner: 14. Header and sill of a window amid the wall do not."""
    building = opened.read(*([window] if window else []), **{"corners__board": "2x6"})
    assert of(building, "corner", "A")[0] == 14


def test_the_lower_part_of_a_corner_board_stands_at_the_ground() -> None:
    """147 1/2 in two parts of 73 3/4, each on rows of its own: the grade board and girts at 27 1/8 and 50 1/2 below,
    at 73 7/8 and three more above. The lower part is treated, the upper one and the columns are not."""
    building = whole({**CORNER, **UNTREATED, "lumber.stock": ["10'"]})
    wall = next(w for w in building.walls if w.name == "A")
    assert [(u.low, u.treated) for u in wall.uprights] == [(0.0, True), (73.75, False)] * 2
    assert of(building, "corner", "A") == (14, 6)
    # all of it in treated columns; and where they are treated 60 up, from 2 below the line: girts 3 begin higher
    assert of(whole({**CORNER, "column.treated": "all", "lumber.stock": ["10'"]}), "corner", "A") == (14, 14)
    ends = whole({**CORNER, "lumber.stock": ["10'"]})
    assert of(ends, "corner", "A", treated_up=60.0) == (14, 6)
    assert of(ends, "corner", "A", treated_up=76.0) == (14, 8)


def test_a_nail_that_rusts_is_told_of_corner_boards_in_treated_columns() -> None:
    building = whole({**CORNER, "column.treated": "all"})
    plain = nails.parse("4 x .177 ring", "in")
    found = nail_count.tallies(building.job, building.walls, 60)
    told = nail_warnings.warnings({"corner": Nailing(3, plain)}, found, building.job.style)
    assert told[0].startswith("Corner board, filler, block: all 28 touch treated wood, ")


# --- fillers, blocks, rakes ------------------------------------------------------------------------------------------


def test_blocks_on_the_grade_board_touch_treated_wood_with_one_end() -> None:
    """Six bays of wall A, a block between each two of its seven rows: 6 x 6 blocks, 12 ends a bay, one on the grade
    board."""
    building = whole({**UNTREATED, "girts.blocking": "4'"})
    assert of(building, "corner", "A") == (72, 6)


def test_fillers_on_the_grade_board_touch_treated_wood_with_one_end() -> None:
    """Behind either end of wall 1, which runs past: as many as there are spaces between its level rows."""
    building = whole({**UNTREATED, "corners.fillers": "between rows"})
    wall = next(w for w in building.walls if w.name == "1")
    fillers = [u for u in wall.uprights if u.name.startswith("Filler")]
    assert len(fillers) == 2 * 6
    assert of(building, "corner", "1") == (24, 2)


@pytest.mark.parametrize(
    ("changes", "treated_up", "touch"),
    [({"column.treated": "all"}, 0.0, 1.0), (UNTREATED, 0.0, 0.0), ({}, 60.0, 0.0), ({}, 400.0, 1.0)],
)
def test_a_rake_nailer_on_treated_columns(changes: dict[str, str], treated_up: float, touch: float) -> None:
    count, treated = of(whole({**changes, "girts.rake": "2x6"}), "rake", "1", treated_up=treated_up)
    assert count == 6  # five columns, the middle one from both slopes
    assert treated == touch * count


def test_a_rake_nailer_where_columns_are_treated_some_way_up() -> None:
    """Its upper edge is the chord's top: 147 1/2 + 3 15/16 over the line at the corner, its lower edge 5.797 below,
    145.64; two inches more from the columns' feet. 9 ft on it is 36 in higher."""
    building = whole({"girts.rake": "2x6"})
    assert [of(building, "rake", "1", treated_up=up)[1] for up in (147.0, 150.0, 185.0)] == [0, 2, 4]


@pytest.mark.parametrize("gap", ["0", "1/8", "2"])
def test_rake_nailers_between_columns_are_nailed_at_both_ends(gap: str) -> None:
    """Columns at the corners and 9, 18 and 27 ft: four bays, a nailer in each, two ends: 8. With columns at 12 and 24
    the ridge stands in the middle bay, where two nailers meet with nothing behind them: 2 + 1 + 1 + 2 = 6."""
    between = {"girts.place": "between", "girts.board": "2x6", "girts.rake": "2x4", "girts.gap": gap}
    assert of(whole(between), "rake", "1") == (8, 0)
    assert of(whole({**between, "building.front_columns": ["12'", "24'"]}), "rake", "1") == (6, 0)
    # At the corner columns' inner faces, 5 1/2 in: 147 1/2 + 3 15/16 + 1.833 - 3 1/2 x 1.0541 = 149.58; feet 2 lower.
    assert [of(whole(between), "rake", "1", treated_up=up)[1] for up in (151.0, 152.0)] == [0, 2]


# --- what stands at the ground ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("sill", "treated"), [("2'-8", True), ("4'-6", False)])
def test_posts_of_a_low_window_stand_at_the_ground(sill: str, treated: bool) -> None:
    """No row below its sill but the grade board parts for it, or girt 1 does not: 27 1/8 to 30 5/8."""
    window = {**opened.WINDOW, "sill": sill, "height": "2'-6"}
    building = opened.read(window, **{"girts__step": "30"})
    (wall,) = [w for w in building.walls if w.openings]
    posts = [u for o in wall.openings for u in o.uprights if u.name.startswith("Jamb post")]
    assert posts
    for post in posts:
        assert post.treated == (post.low <= 1e-6), (post.low, post.treated)
    assert any(post.treated for post in posts) == treated


# --- the order -------------------------------------------------------------------------------------------------------


def test_splices_with_a_nail_of_their_own_are_told_apart() -> None:
    ring, thin = nails.parse("4 x .177 ring HDG", "in"), nails.parse("3 x .131 ring HDG", "in")
    found = (Tally("girt", False, 30, 8), Tally("girt", True, 12, 0), Tally("grade", True, 4, 4))
    own = nail_count.order({"girt": Nailing(2, ring), "splice": Nailing(3, thin), "grade": Nailing(3, ring)}, found, 0)
    assert {b.nail: b.joints for b in own} == {
        ring: ("Girt to column", "Grade board to column (splice)"),
        thin: ("Girt to column (splice)",),
    }
    same = nail_count.order({"girt": Nailing(2, ring)}, found, 0)
    assert [b.joints for b in same] == [("Girt to column",)]


# --- jamb posts ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("place", "jamb", "count"),
    [("outside", "2x4", 12), ("inside", "2x4", 12), ("inside", "2x6", 12), ("both", "2x4", 12), ("both", "2x6", 20)],
)
def test_posts_are_nailed_where_boards_touch_them(place: str, jamb: str, count: int) -> None:
    """Two posts from girt 1 to girt 4 cross these four, the header and the sill: 12. The four girts inside are 8 more
    where the post is as deep as the column, 5 1/2."""
    building = opened.read({**opened.WINDOW, "jamb": jamb}, girts__place=place)
    assert of(building, "jamb", "A") == (count, 0)


def test_a_door_s_posts_inside_reach_the_grade_board_where_they_are_as_deep_as_the_column() -> None:
    """Girts 1 to 4 and the header on two posts, 3 1/2 + 82 being under girt 4 at 94.92: 10, and 2 on the grade board,
    which lies on the other face."""
    for jamb, count in (("2x4", 10), ("2x6", 12)):
        building = opened.read({**opened.DOOR, "jamb": jamb}, girts__place="inside")
        assert of(building, "jamb", "A") == (count, count)


@pytest.mark.parametrize(("where", "jamb", "count"), [("both", "2x4", 16), ("both", "2x6", 18), ("outside", "2x6", 16)])
def test_posts_up_to_the_bearing_are_nailed_to_carriers_inside_too(where: str, jamb: str, count: int) -> None:
    """Either post of a door on the grade board, girts 1 to 5, the header and the carrier outside: 8. The one inside is
    a ninth where the post is as deep as the column."""
    door = {**opened.DOOR, "jamb": jamb, "jamb_tops": "full"}
    building = opened.read(door, carrier__board="2x10", carrier__where=where)
    assert of(building, "jamb", "A") == (count, count)


@pytest.mark.parametrize("place", ["both", "inside"])
@pytest.mark.parametrize(("past", "more"), [("end", 12), ("side", 0)])
def test_endwall_rows_inside_are_nailed_to_the_edges_of_corner_boards(place: str, past: str, more: int) -> None:
    """They go to the sidewall columns' inner faces, where a corner board's edge stands behind either end: girts 1 to 5
    and the top girt, at both ends, 12, all on treated boards. Others end at the sidewall rows."""
    base = {**UNTREATED, "girts.place": place, "girts.runs_past": past}
    bare, board = (of(whole({**base, **part}), "girt", "1") for part in ({}, CORNER))
    assert (board[0] - bare[0], board[1] - bare[1]) == (more, more)
    assert of(whole({**base, **CORNER}), "girt", "A")[1] == 0
