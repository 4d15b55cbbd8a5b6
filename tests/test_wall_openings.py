"""Openings on wall diagrams: to scale, boards of every kind, seen from either side."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from typing import Any

import boxes
import jobs
import opened
import pytest
from opened import DOOR, OVERHEAD, SLIDING, WINDOW

from layouts.boards import Wall
from layouts.building import Building
from layouts.pieces import pieces_of
from sheets import boards, elevation, view, wall
from sheets.frame import Body
from sheets.mirrored import mirrored
from sheets.paper import PAPERS
from sheets.shapes import Line, Polygon

LETTER = PAPERS["letter"]
AREA = LETTER.turned().body
FOUR = (
    {**OVERHEAD, "name": "D1", "width": "10'", "height": "9'", "bay": 2},
    {**DOOR, "name": "D2", "bay": 4},
    {**WINDOW, "name": "W1", "width": "4'", "bay": 5},
    {**WINDOW, "name": "W2", "bay": 1},
)
ENDS = (
    {**SLIDING, "name": "S1", "wall": "G", "bay": 1},
    {**WINDOW, "name": "W3", "wall": "1", "sill": "8'", "bay": 2},
    {**DOOR, "name": "D4", "wall": "7", "bay": 4, "girts": "through"},
)
LONG: dict[str, Any] = {"building__length": "60'", "building__bays": 5}
THROUGH = {"girts": "through"}
ALL: dict[str, Any] = {
    **LONG,
    "girts__place": "both",
    "girts__rake": "2x4",
    "girts__blocking": "7'",
    "corners__board": "2x6",
    "corners__fillers": "between rows",
}
METRIC = ({**WINDOW, "width": "1200", "height": "900", "sill": "900", "girts": "through"},)

# name: openings, other fields
CASES: dict[str, tuple[tuple[dict[str, Any], ...], dict[str, Any]]] = {
    "four": (FOUR, LONG),
    "four, mirrored": (FOUR, {**LONG, "lift__lies": "outside"}),
    "through": (tuple({**part, **THROUGH} for part in FOUR), LONG),
    "through, mirrored": (tuple({**part, **THROUGH} for part in FOUR), {**LONG, "lift__lies": "outside"}),
    "at the ends": (ENDS, {}),
    "at the ends, mirrored": (ENDS, {"lift__lies": "outside", "girts__runs_past": "side"}),
    "every board": ((*FOUR[:2], *ENDS[1:2]), ALL),
    "every board, mirrored": ((*FOUR[:2], *ENDS[1:2]), {**ALL, "lift__lies": "outside"}),
    "inside": (FOUR, {**LONG, "girts__place": "inside", "girts__blocking": "6'"}),
    "between": (FOUR, {**LONG, "girts__place": "between", "girts__rake": "2x6"}),
    "close rows": (FOUR[1:], {**LONG, "girts__step": "10", "girts__spacing": "fixed"}),
    "many": (tuple({**WINDOW, "name": f"W{i}", "width": "2'-6", "bay": i} for i in range(1, 7)), {}),
    "metric": (METRIC, {"base": jobs.METRIC}),
}


@cache
def building(case: str) -> Building:
    parts, changes = CASES[case]
    return opened.opened(*parts, **changes)


@cache
def pages(case: str) -> list[Body]:
    return wall.pages(building(case), LETTER)


def bodies(case: str, name: str) -> list[Body]:
    return [b for b in pages(case) if b.title.split(",")[0] == f"Wall {name}"]


def words(*found: Body) -> list[str]:
    return [" ".join(t.words.split()) for b in found for t in boxes.written(b.drawing.shapes)]


def drawn(case: str, found: Wall) -> Wall:
    """A wall as it is drawn."""
    lift = next(x for x in building(case).lifts if x.wall == found.name)
    return mirrored(found) if lift.lie.mirrored else found


def first(*parts: dict[str, Any], **changes: Any) -> tuple[Wall, view.View, Body]:
    """Wall A of a building with openings, how it is put on its first page, and that page."""
    made = opened.opened(*parts, **changes)
    found = made.walls[0]
    return found, wall.plot(made, found, AREA).views[0], wall.pages(made, LETTER)[0]


# --- in the picture -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", CASES)
def test_a_rough_opening_is_drawn_to_scale_with_a_light_cross(case: str) -> None:
    for laid in building(case).walls:
        found = drawn(case, laid)
        seen = set()
        for v, body in zip(wall.plot(building(case), found, AREA).views, bodies(case, found.name), strict=False):
            for opening in (o for o in found.openings if v.clipped(o.left, o.right)):
                want = boxes.Box(*v.at(opening.left, opening.low), *v.at(opening.right, opening.high))
                (edges,) = boxes.groups(body.drawing.shapes, f"edges-{opening.name}")
                (cross,) = boxes.groups(body.drawing.shapes, f"opening-{opening.name}")
                assert boxes.of_shape(edges).holds(want, 1e-9)
                assert want.holds(boxes.of_shape(edges), 1e-9)
                assert want.holds(boxes.of_shape(cross), 1e-9)
                assert {s.width for s in boxes.lines(cross.shapes)} == {0.004}
                seen.add(opening.name)
        assert seen == {o.name for o in found.openings}


@pytest.mark.parametrize("case", CASES)
def test_every_board_of_every_kind_is_drawn_to_scale(case: str) -> None:
    """On one of the pages of its wall, every corner that the page shows."""
    for laid in building(case).walls:
        found = drawn(case, laid)
        shown: dict[str, list[set[tuple[float, float]]]] = {}
        for body in bodies(case, found.name):
            for group in boxes.groups(body.drawing.shapes, "piece-"):
                corners = [c for s in group.shapes for c in _corners(s)]
                shown.setdefault(group.title, []).append({(round(x, 6), round(y, 6)) for x, y in corners})
        plan = wall.plot(building(case), found, AREA)
        views = [*plan.views]
        if found.inner:
            within = wall._within(found)
            views += wall._plot(building(case), found, within, AREA, plan.overleaf, plan.told).views
        for board, what in pieces_of(found):
            outline = boards.outline(board)
            whole = [v for v in views if all(v.low <= x <= v.high for x, _ in outline)]
            wants = [{(round(x, 6), round(y, 6)) for x, y in (v.at(*p) for p in outline)} for v in whole]
            # a board that goes on overleaf is drawn in two parts
            assert not wants or any(want <= one for want in wants for one in shown[board.mark]), (what, board.mark)


def _corners(shape: Any) -> list[tuple[float, float]]:
    if isinstance(shape, Polygon):
        return list(shape.points)
    return [(shape.x0, shape.y0), (shape.x1, shape.y1)] if isinstance(shape, Line) else []


def test_a_board_that_runs_through_is_whole_and_dashed_where_it_is_cut_out() -> None:
    # bay 2 from 94 1/2 to 190 1/2: its middle 142 1/2, a door of 36 + 2 from 123 1/2 to 161 1/2
    found, v, body = first({**DOOR, "girts": "through"})
    through = [p for c in found.courses for p in c.pieces if boards.cut_out(p, found.openings)]
    assert [boards.cut_out(p, found.openings) for p in through] == [[(123.5, 161.5)]] * len(through)
    # a grade board and the girts at 26.54, 49.33 and 72.13 are under the opening's top, 3 1/2 + 82
    assert sorted(p.row.name for p in through) == ["Girt 1", "Girt 2", "Girt 3", "Grade board"]
    x0, x1 = v.at(123.5, 0)[0], v.at(161.5, 0)[0]
    for piece in through:
        y = {round(v.at(0, s)[1], 6) for s in (piece.row.low, piece.row.high)}
        strokes = [
            s
            for g in boxes.groups(body.drawing.shapes, f"piece-{piece.mark[1:]}")
            for s in boxes.lines(g.shapes)
            if s.y0 == s.y1 and round(s.y0, 6) in y
        ]
        dashed = [sorted((s.x0, s.x1)) for s in strokes if s.dash]
        assert dashed == [pytest.approx([x0, x1])] * 2
        assert not [s for s in strokes if not s.dash and min(s.x0, s.x1) < x1 - 1e-6 and max(s.x0, s.x1) > x0 + 1e-6]
    said = " ".join(words(body))
    assert "CUT OUT" in said
    assert "boards that run through: CUT OUT AFTER LIFTING." in said


def test_a_board_that_stops_is_not_dashed() -> None:
    found, _, body = first(DOOR)
    assert not any(boards.cut_out(p, found.openings) for c in found.courses for p in c.pieces)
    assert "CUT OUT AFTER LIFTING" not in " ".join(words(body))


@pytest.mark.parametrize("case", ["four", "through, mirrored", "every board"])
def test_every_joint_has_a_tick_that_stands_out(case: str) -> None:
    for laid in building(case).walls:
        found = drawn(case, laid)
        plan = wall.plot(building(case), found, AREA)
        for v, body in zip(plan.views, bodies(case, found.name), strict=False):
            ticks = [boxes.of_shape(g) for g in boxes.groups(body.drawing.shapes, "joint")]
            want = [
                (v.at(a.low[1], 0)[0], v.at(0, a.row.high)[1])
                for c in (*found.courses, *found.levels)
                for a, b in pairwise(c.pieces)
                if a.low[1] == b.low[0] and v.low <= a.low[1] <= v.high
            ]
            assert len(ticks) == len(want) > 0
            for x, top in want:
                assert any(t.x0 == pytest.approx(x) and t.y1 == pytest.approx(top + elevation.TICK) for t in ticks)


def test_a_large_opening_tells_its_name_and_sizes_in_it() -> None:
    # 7' + 3 in by 8' + 1 1/2 in: there is room for all of it
    found, v, body = first({**OVERHEAD, "name": "D1"})
    (opening,) = found.openings
    inside = boxes.Box(*v.at(opening.left, opening.low), *v.at(opening.right, opening.high))
    texts = [t for t in boxes.written(body.drawing.shapes) if inside.holds(t.box)]
    said = " ".join(t.words for t in texts)
    assert "D1" in said
    assert "OVERHEAD" in said
    assert "RO 7'-3\"" in said
    assert "x 8'-1 1/2\"" in said


# --- the other side -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", CASES)
def test_the_other_side_of_the_other_side_is_the_wall(case: str) -> None:
    for found in building(case).walls:
        again = mirrored(mirrored(found))
        for (one, _), (other, _) in zip(pieces_of(found), pieces_of(again), strict=True):
            assert one.mark == other.mark
            for p, q in zip(boards.outline(one), boards.outline(other), strict=True):
                assert p == pytest.approx(q)
        assert [s.name for s in found.stands] == [s.name for s in again.stands]


def test_a_wall_that_lies_outside_is_drawn_from_its_inside() -> None:
    # as seen from outside A7 stands left and the window's edges at 124 1/4 and 160 3/4; the wall is 573 long, so from
    # A1 they are at 573 - 160 3/4 = 412 1/4 = 34'-4 1/4 and 573 - 124 1/4 = 448 3/4 = 37'-4 3/4
    made = opened.opened(WINDOW, lift__lies="outside")
    body = wall.pages(made, LETTER)[0]
    told = words(body)
    assert "INSIDE FACE UP" in told
    assert "OUTSIDE FACE UP" not in told
    assert {"W9 34'-4 1/4\"", "W9 37'-4 3/4\""} <= set(told)
    assert "Running dimensions from the outside of A1." in " ".join(told)
    assert "A1 is on your LEFT, A7 on your RIGHT." in " ".join(told)
    columns = sorted(boxes.groups(body.drawing.shapes, "column-"), key=lambda g: boxes.of_shape(g).x0)
    assert [g.title for g in columns] == ["A1", "A2", "A3", "A4", "A5", "A6", "A7"]


def test_columns_lie_on_the_boards_where_the_inside_is_up() -> None:
    for lies, last in (("inside", "piece-"), ("outside", "column-")):
        made = opened.opened(WINDOW, lift__lies=lies)
        names = [g.name for g in boxes.groups(wall.pages(made, LETTER)[0].drawing.shapes) if g.name[:6] in PARTS]
        ends = {kind: max(i for i, n in enumerate(names) if n.startswith(kind)) for kind in ("piece-", "column-")}
        if last == "piece-":
            assert ends["piece-"] > ends["column-"]
        else:
            girts = [f"piece-{p.mark[1:]}" for c in made.walls[0].courses for p in c.pieces]
            assert ends["column-"] > max(i for i, n in enumerate(names) if n in girts)


PARTS = {"piece-", "column"}


# --- rows inside ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("lies", "where"), [("inside", "UNDER the columns"), ("outside", "ON the columns")])
def test_rows_inside_have_a_page_of_their_own(lies: str, where: str) -> None:
    made = opened.opened(WINDOW, girts__place="both", lift__lies=lies)
    found = made.walls[0]
    outer, inner = [b for b in wall.pages(made, LETTER) if b.title.startswith("Wall A")][:2]
    assert (outer.title, inner.title) == ("Wall A", "Wall A, rows inside")
    assert f"These boards are {where}" in " ".join(words(inner))
    want = {p.mark for c in found.inner for p in c.pieces}
    assert {g.title for g in boxes.groups(inner.drawing.shapes, "piece-")} == want
    assert any(w.startswith("Inside girt 1") for w in words(inner))
    assert not any(w.startswith("Inside girt 1") for w in words(outer))


def test_a_header_lies_with_the_girts_inside() -> None:
    made = opened.opened(WINDOW, girts__place="inside")
    outer, inner = wall.pages(made, LETTER)[:2]
    header = next(c.pieces[0].mark for c in made.walls[0].levels)
    assert header not in {g.title for g in boxes.groups(outer.drawing.shapes, "piece-")}
    assert header in {g.title for g in boxes.groups(inner.drawing.shapes, "piece-")}
