"""The name of every opening on the picture of its wall: in it, or led to it where it has no room."""

from __future__ import annotations

from typing import Any

import boxes
import opened
import pytest
from opened import WINDOW, at
from test_wall_openings import CASES, LETTER, pages

from sheets import wall
from sheets.frame import Body
from sheets.shapes import Line, flat

JOB: dict[str, Any] = {"job.name": "Names", "truss.heel": "6"}
GABLE: dict[str, Any] = {
    **JOB,
    "building.width": "30'",
    "building.length": "30'",
    "building.bays": 3,
    "building.front_columns": ["9'", "15'", "22'"],
    "building.back_columns": ["10'", "20'"],
    "truss.bearing": "16'-4",
    "truss.pitch": "8/12",
    "tops.endwall_ears": "bearing",
    "girts.place": "both",
}
HIGH = {**WINDOW, "name": "RH", "wall": "4", "width": "2'", "height": "18", "sill": "20'", **at("15'")}
"""Two feet wide on a wall that is as high as it is wide: on the page it is no wider than two letters."""
LEAN: dict[str, Any] = {
    **JOB,
    "building.width": "16'",
    "building.length": "44'",
    "building.bays": ["14'", "16'", "14'"],
    "building.front_columns": ["8'-3"],
    "truss.bearing": "9'",
    "truss.pitch": "3/12",
    "roof.shape": "lean-to",
}
LONG = {**WINDOW, "name": "LW", "wall": "1", "width": "6'", "height": "16", "sill": "7'-3", "bay": 2}
"""As long as its bay, and low: PICK stands in its end."""


def named(body: Body) -> dict[str, bool]:
    """The openings of a page by name, and whether each is named: a name stands in it, or a line from one ends in it."""
    shapes = body.drawing.shapes
    found: dict[str, bool] = {}
    for edges in boxes.groups(shapes, "edges-"):
        name, hole = edges.title, boxes.of_shape(edges)
        said = [t for t in boxes.written(shapes) if t.words.split()[:1] == [name]]
        inside = [t for t in said if _in(hole, (t.box.x0 + t.box.x1) / 2, (t.box.y0 + t.box.y1) / 2)]
        led = [g for g in boxes.groups(shapes, f"name-{name}") if [t.words for t in boxes.written(g.shapes)] == [name]]
        ends = [s for g in led for s in flat(g.shapes) if isinstance(s, Line)]
        found[name] = bool(inside) != any(_in(hole, s.x1, s.y1) for s in ends)
    return found


def _in(box: boxes.Box, x: float, y: float) -> bool:
    return box.x0 < x < box.x1 and box.y0 < y < box.y1


@pytest.mark.parametrize("case", CASES)
def test_every_opening_is_named_once_in_the_picture(case: str) -> None:
    found = [one for body in pages(case) for one in named(body).items()]
    assert found
    assert [name for name, is_named in found if not is_named] == []


@pytest.mark.parametrize(("part", "base"), [(HIGH, GABLE), (LONG, LEAN)])
def test_an_opening_with_little_room_for_its_name_is_named_too(part: dict[str, Any], base: dict[str, Any]) -> None:
    found = [named(body) for body in wall.pages(opened.opened(part, base=base), LETTER)]
    assert [seen for seen in found if seen] == [{part["name"]: True}] * sum(map(bool, found))
    assert any(found)


def test_an_opening_over_the_columns_stands_clear_of_the_heading() -> None:
    """Rows inside end at the bearing, 16'-4"; the window stands up to 20' + 18 1/2" on its allowance of 1/2"."""
    for body in wall.pages(opened.opened(HIGH, base=GABLE), LETTER):
        for edges in boxes.groups(body.drawing.shapes, "edges-"):
            assert boxes.of_shape(edges).y1 < body.paper.body.y1 - wall.HEAD
