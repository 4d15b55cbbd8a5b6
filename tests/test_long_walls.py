"""Long walls: parts at one scale that meet at columns, and words that step down."""

from __future__ import annotations

from itertools import pairwise

import boxes
import jobs
import pytest
import stress
from msgspec.structs import replace
from test_wall import LYING, bodies

from sheets import chains, view, wall
from sheets.paper import PAPERS, USUAL, Area
from sheets.shapes import Polygon


@pytest.mark.parametrize("paper", USUAL)
def test_parts_of_a_long_wall_meet_at_columns_at_one_scale(paper: str) -> None:
    building = stress.building("long")
    found = building.walls[0]
    views = wall.plot(building, found, LYING[paper]).views
    assert len(views) > 1
    centres = [s.centre for s in found.stands]
    assert (views[0].low, views[-1].high) == view.span(found)
    assert all(a.high == b.low and a.high in centres for a, b in pairwise(views))
    assert len({v.scale for v in views}) == 1
    assert views[0].scale >= view.LEAST_SCALE
    long = [v.high - v.low for v in views]
    bay = 120.0
    assert max(long) - min(long) <= bay + 3
    titles = [b.title for b in bodies(building, paper, "A")]
    assert titles[:2] == [f"Wall A, part 1 of {len(views)}", f"Wall A, part 2 of {len(views)}"]


def test_a_board_that_goes_on_overleaf_has_an_open_end() -> None:
    building = stress.building("long")
    found = building.walls[0]
    v = wall.plot(building, found, LYING["letter"]).views[0]
    edge = v.x0 + v.high * v.scale
    body = bodies(building, "letter", "A")[0]
    going = {p.mark for c in found.courses for p in c.pieces if p.low[0] < v.high - 1 and p.low[1] > v.high + 1}
    assert going
    for group in boxes.groups(body.drawing.shapes, "piece-"):
        board = next(s for s in group.shapes if isinstance(s, Polygon))
        if boxes.of_shape(board).x1 < edge - 1e-6:
            continue
        strokes = boxes.lines(group.shapes)
        if strokes:
            assert board.width == 0.0
            assert not [s for s in strokes if s.x0 == s.x1 == pytest.approx(edge)]
            going.discard(group.title)
    assert not going


def test_small_bays_step_their_words_down() -> None:
    building = jobs.build({"building.length": "32'", "building.bays": ["2'", "2'", "12'", "12'", "2'", "2'"]})
    found = building.walls[0]
    v = wall.plot(building, found, LYING["letter"]).views[0]
    running = chains.strands(v, found, building.job.style)[3]
    assert max(running.levels()) >= 1
    for body in bodies(building, "letter", "A"):
        assert not boxes.faults(body.drawing, PAPERS["letter"].turned())


def test_area_is_kept() -> None:
    area: Area = LYING["letter"]
    for name in ("plain", "tall", "close rows", "many kinds"):
        building = stress.building(name)
        for found in building.walls:
            for v in wall.plot(building, found, area).views:
                top = max(h for s in found.stands for _, h in s.top)
                assert v.at(0, top)[1] <= area.y1 - wall.HEAD + 1e-9
                assert v.at(v.low, 0)[0] >= area.x0
                assert v.at(v.high, 0)[0] <= area.x1


def test_large_print_has_larger_names_and_figures() -> None:
    building = stress.building("plain")
    wish = replace(building.job.job, print="large")
    large = replace(building, job=replace(building.job, job=wish))
    sizes = []
    for one in (building, large):
        drawn = wall.pages(one, PAPERS["letter"])
        assert not [fault for page in drawn for fault in boxes.faults(page.drawing, page.paper)]
        found = list(boxes.written(drawn[0].drawing.shapes))
        names = {t.words: t.size for t in found if t.words in ("A2", "A4") or t.words == "8'-0\""}
        sizes.append((names["A2"], max(t.size for t in found if t.words.startswith("#"))))
    assert [b / a for a, b in zip(*sizes, strict=True)] == pytest.approx([1.25, 1.25])
