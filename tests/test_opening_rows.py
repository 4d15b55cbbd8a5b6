"""What openings leave of the rows of boards, and what they add to a wall's boards, weight and nails."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import opened
import pytest
import shapely
from effort import examples
from hypothesis import HealthCheck, given, settings
from jobs import every
from msgspec.structs import replace
from opened import DOOR, OVERHEAD, SLIDING, WINDOW

from layouts import bodies, nail_count
from layouts.building import Building, lay_out
from layouts.openings import Opening
from layouts.rods import Mark
from layouts.walls import Course, Wall, pieces_of

SLOW = settings(max_examples=examples(20), suppress_health_check=[HealthCheck.too_slow])
TINY = 1e-6


def wall(building: Building, name: str = "A") -> Wall:
    return next(w for w in building.walls if w.name == name)


def course(found: Wall, name: str) -> Course:
    return next(c for c in found.all_courses if c.row.name == name)


def spans(found: Course) -> list[tuple[float, float]]:
    return [p.low for p in found.pieces]


def area(found: Course) -> Any:
    return shapely.union_all([shapely.Polygon(bodies.outline(p)) for p in found.pieces])


def hole(opening: Opening) -> Any:
    return shapely.box(opening.left, opening.low, opening.right, opening.high)


# --- by hand --------------------------------------------------------------------------------------------------------


def test_rows_stop_at_the_rough_opening_and_at_the_header() -> None:
    """A door of 38 in the middle of bay 2, 142 1/2: 123 1/2 to 161 1/2, up to 85 1/2; header to 91. Girt 4 begins
    94.9: it passes."""
    found = wall(opened.opened(DOOR))
    for name in ("Grade board", "Girt 1", "Girt 2", "Girt 3"):
        ends = spans(course(found, name))
        assert ends[0][1] == 123.5 or ends[1][1] == 123.5
        assert 161.5 in [a for a, _ in ends]
    assert not any(a == 161.5 for a, _ in spans(course(found, "Girt 4")))


def test_a_row_that_would_lie_in_a_header_gives_way_from_column_to_column() -> None:
    """Header of a 7 ft 6 walk door: 3 1/2 + 92 = 95 1/2 to 101. Girt 4, 94.9 to 98.4, has none from A6 to A5; so in the
    sill, 40 less to 45 1/2 with girt 2 moved there."""
    found = wall(opened.opened({**DOOR, "height": "7'-6"}))
    girt = spans(course(found, "Girt 4"))
    assert girt[0] == (0, 94.5)
    assert girt[1][0] == 190.5
    low = wall(opened.opened({**WINDOW, "sill": "4'-2"}))  # sill 48 to 53 1/2, girt 2 from 49.3 to 52.8
    assert spans(course(low, "Girt 2"))[:1] == [(0, 94.5)]


def test_rows_that_run_through_part_for_the_header_alone() -> None:
    through = wall(opened.opened({**DOOR, "height": "7'-6", "girts": "through"}))
    plain = wall(opened.opened())
    for one, other in zip(through.courses, plain.courses, strict=True):
        if one.row.name == "Girt 4":
            assert spans(one)[:2] == [(0, 94.5), (190.5, spans(one)[1][1])]
        else:
            assert sum(p.length for p in one.pieces) == sum(p.length for p in other.pieces)
            assert spans(one)[0][0] == spans(other)[0][0]


@pytest.mark.parametrize(("floor", "cut"), [("3 1/2", True), ("0", True), ("7 1/4", False), ("7 3/16", True)])
def test_the_grade_board_is_cut_at_a_door_unless_it_ends_under_the_floor(floor: str, cut: bool) -> None:
    """A 2x8 is 7 1/4 high."""
    found = course(wall(opened.opened(DOOR, grade__floor=floor)), "Grade board")
    assert (123.5 in [b for _, b in spans(found)]) is cut


def test_a_window_leaves_the_grade_board() -> None:
    found = course(wall(opened.opened(WINDOW)), "Grade board")
    assert all(b == a for (_, b), (a, _) in pairwise(spans(found)))


def test_the_boards_of_an_opening_are_in_the_cut_list() -> None:
    """Header 94 1/2 to 190 1/2 and sill: two 2x6 of 96; posts 98.4167 - 26.5417 = 71.875, two."""
    lines = {(x.section, round(x.length, 4)): x for x in opened.opened(WINDOW).pieces if x.section == "2x6"}
    assert lines["2x6", 96].count == 2
    assert lines["2x6", 96].where == ("A: Header W9", "A: Sill W9")
    assert lines["2x6", 71.875].count == 2
    assert lines["2x6", 71.875].where == ("A: Jamb post W9",)


def test_a_door_s_treated_posts_are_bought_treated() -> None:
    orders = {(o.section, o.treated) for o in opened.opened(DOOR).orders}
    assert {("2x6", True), ("2x6", False)} <= orders


def test_a_track_board_is_pieced_on_columns() -> None:
    """Two leaves of 120 / 2 + 2 in bays of 12 ft: 4 x 62 = 248 in all, longer than 20 ft, about the middle of bay 2,
    between columns at 142 1/2 and 286 1/2: of two ways that are as good it is the later joint."""
    bays: dict[str, Any] = {"building__bays": 4}
    found = wall(opened.opened({**SLIDING, "width": "10'", "slides": "both"}, **bays))
    (track,) = [c for c in found.levels if c.row.key == "track board"]
    assert track.pieces[0].low[0] == pytest.approx(214.5 - 124)
    assert [p.low[1] for p in track.pieces[:-1]] == [286.5]
    assert sum(p.length for p in track.pieces) == pytest.approx(248)


@pytest.mark.parametrize("part", [DOOR, WINDOW, OVERHEAD, {**SLIDING, "bay": 3}])
def test_seen_from_outside_opposite_walls_are_alike(part: dict[str, Any]) -> None:
    """The same opening in walls A and G: the building is turned about, and every board is the same."""
    a, g = wall(opened.opened(part)), wall(opened.opened({**part, "wall": "G"}), "G")
    assert [(c.row, [(p.low, p.high) for p in c.pieces]) for c in a.all_courses] == [
        (c.row, [(p.low, p.high) for p in c.pieces]) for c in g.all_courses
    ]
    assert [replace(u, mark="") for u in a.uprights] == [replace(u, mark="") for u in g.uprights]


# --- any building ---------------------------------------------------------------------------------------------------


def plain(building: Building) -> Building:
    """The same without its openings."""
    job = replace(building.job, openings=())
    return lay_out(job, every(job))


def parted(found: Wall, row: Course) -> Iterator[Any]:
    """What openings take from a row: header and sill whole, the rough opening where boards stop."""
    for level in found.levels:
        if (
            level.row.key != "track board"
            and level.row.low < row.row.high - TINY
            and level.row.high > row.row.low + TINY
        ):
            yield shapely.box(level.pieces[0].low[0], row.row.low, level.pieces[-1].low[1], row.row.high)
    for opening in found.openings:
        clear = row.row.low < opening.high - TINY and row.row.high > opening.low + TINY
        if clear and not opening.through:
            yield shapely.box(opening.left, row.row.low, opening.right, row.row.high)


@SLOW
@given(opened.buildings())
def test_a_row_is_what_openings_leave_of_it(building: Building) -> None:
    """Pieces and gaps make the whole row, to a hundredth of a square inch; a row of which nothing is left has none."""
    bare = plain(building)
    for found, whole in zip(building.walls, bare.walls, strict=True):
        known = {c.row: area(c) for c in found.courses}
        for row in whole.courses:
            want = area(row).difference(shapely.union_all(list(parted(found, row))))
            got = known.get(row.row, shapely.Polygon())
            assert got.area == pytest.approx(want.area, abs=0.01)
            assert got.symmetric_difference(want).area < 0.01


@SLOW
@given(opened.buildings())
def test_nothing_stands_in_an_opening(building: Building) -> None:
    """No row whose boards stop, no header, sill, post or cripple of any opening of the wall."""
    for found in building.walls:
        for opening in found.openings:
            space = hole(opening)
            for c in (*found.levels, *(() if opening.through else found.courses)):
                if c.row.key != "track board":
                    assert area(c).intersection(space).area < 0.01
            for upright in found.uprights:
                assert shapely.Polygon(bodies.standing(upright)).intersection(space).area < 0.01


@SLOW
@given(opened.buildings())
def test_pieces_end_on_columns_at_openings_or_with_their_row(building: Building) -> None:
    for found in building.walls:
        centres = [s.centre for s in found.stands]
        for c in found.courses:
            edges = {at for o in found.openings if (gap := o.gap(c.row)) for at in gap}
            inner = [at for p in c.pieces for at in p.low][1:-1]
            assert all(any(abs(at - x) < TINY for x in (*centres, *edges)) for at in inner)
            assert all(p.length <= building.job.lumber.stock[-1] + TINY for p in c.pieces)
            assert all(a.low[1] <= b.low[0] + TINY for a, b in pairwise(c.pieces))


@SLOW
@given(opened.buildings())
def test_every_board_of_an_opening_is_held(building: Building) -> None:
    """A header and a sill by a column or a jamb post at both ends; an upright by a board across it at both ends, but
    for one that ends on its header under the slope."""
    for found in building.walls:
        for opening in found.openings:
            posts = [u for u in opening.uprights if u.name.startswith("Jamb")]
            for board in opening.levels:
                for end in (board.start, board.end):
                    held = any(s.left - TINY <= end <= s.right + TINY for s in found.stands)
                    assert held or any(u.left < end < u.right for u in posts)
            for u in opening.uprights:
                crossing = [
                    (c.row.low, c.row.high)
                    for c in (*found.courses, *found.levels)
                    for p in c.pieces
                    if min(p.low[1], u.right) - max(p.low[0], u.left) >= (u.right - u.left) / 2 - TINY
                ]
                assert any(abs(low - u.low) < TINY for low, _ in crossing)
                assert any(abs(high - u.high) < TINY for _, high in crossing)


@SLOW
@given(opened.buildings())
def test_boards_of_openings_do_not_lie_in_one_another(building: Building) -> None:
    for found in building.walls:
        flat = [c for c in (*found.courses, *found.levels) if c.row.key != "track board"]
        shapes = [shapely.Polygon(bodies.outline(p)) for c in flat for p in c.pieces]
        assert shapely.union_all(shapes).area == pytest.approx(sum(s.area for s in shapes), abs=0.01)
        posts = [shapely.Polygon(bodies.standing(u)) for u in found.uprights]
        assert shapely.union_all(posts).area == pytest.approx(sum(s.area for s in posts), abs=0.01)


@SLOW
@given(opened.buildings())
def test_every_board_is_in_the_cut_list_once(building: Building) -> None:
    counts = Counter(p.mark for w in building.walls for p, _ in pieces_of(w))
    assert counts == {line.mark: line.count for line in building.pieces}
    assert sum(counts.values()) == sum(
        len(w.uprights) + len(w.rakes) + sum(len(c.pieces) for c in w.all_courses) for w in building.walls
    )


@SLOW
@given(opened.buildings())
def test_headers_and_sills_are_marked_on_their_columns_and_no_others(building: Building) -> None:
    """For every column, by the rod it is marked with: the levels of all openings that are nailed to it."""
    for spot in building.plan.spots:
        walls = [w for w in building.walls if spot.name in w.line.columns]
        rod = next(
            r for r in building.rods if r.gable == (spot.role == "end") and set(r.walls) & {w.name for w in walls}
        )
        want = {
            (b.key.capitalize(), round(b.low, 6))
            for w in walls
            for o in w.openings
            for b in o.levels
            if spot.name in b.columns
        }
        carried = [m for m in rod.marks if spot.name in m.only]
        assert {(m.name.split()[0], round(m.low, 6)) for m in carried} == want


@SLOW
@given(opened.buildings())
def test_a_mark_for_some_columns_names_each_once(building: Building) -> None:
    for rod in building.rods:
        found: list[Mark] = [m for m in rod.marks if m.only]
        assert len({m.name for m in found}) == len(found)
        assert all(len(set(m.only)) == len(m.only) for m in found)


@SLOW
@given(opened.buildings())
def test_every_board_of_an_opening_is_nailed(building: Building) -> None:
    """Two nailings at the least for each jamb post and each header that goes to two columns."""
    for found in building.walls:
        tallies = {t.joint: 0 for t in nail_count.tallies(building.job, [found], 60)}
        for t in nail_count.tallies(building.job, [found], 60):
            tallies[t.joint] += t.count
        uprights = [u for o in found.openings for u in o.uprights]
        assert tallies.get("jamb", 0) >= 2 * len([u for u in uprights if u.name.startswith("Jamb")])
        assert tallies.get("header", 0) >= sum(len(b.columns) for o in found.openings for b in o.levels)
