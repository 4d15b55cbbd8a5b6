"""The plan of the field sheet: columns in walking order, and nothing in one another."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

import boxes
import jobs
import pytest
import stress
from hypothesis import given

from layouts.building import Building
from sheets import field, field_plan
from sheets.frame import Body
from sheets.paper import PAPERS, find
from sheets.shapes import Group, Polygon

PRINTED = ("letter", "a4", "legal")
FORTY = [f"{5 * i}'" for i in range(1, 12)]
# 40 and 60 columns along a wall, 12 bays in an endwall, a lean shed 8 ft wide, a hall wider than it is long
EXTRA: dict[str, stress.Case] = {
    "forty": stress.Case(
        {
            "building.width": "60'",
            "building.length": "390'",
            "building.bays": 39,
            "building.front_columns": FORTY,
            "building.back_columns": FORTY,
        }
    ),
    "sixty": stress.Case(
        {
            "building.width": "60'",
            "building.length": "590'",
            "building.bays": 59,
            "building.front_columns": FORTY,
            "building.back_columns": ["15'", "30'", "45'"],
        }
    ),
    "lean": stress.Case(
        {
            "building.width": "8'",
            "building.length": "40'",
            "building.bays": 5,
            "building.front_columns": ["4'"],
            "building.back_columns": [],
        }
    ),
    "lean and long": stress.Case(
        {
            "building.width": "8'",
            "building.length": "600'",
            "building.bays": 60,
            "building.front_columns": ["4'"],
            "building.back_columns": [],
        }
    ),
    "broad": stress.Case(
        {
            "building.width": "200'",
            "building.length": "8'",
            "building.bays": 1,
            "building.front_columns": [f"{5 * i}'" for i in range(1, 40)],
            "building.back_columns": [f"{10 * i}'" for i in range(1, 20)],
        }
    ),
    "small bays": stress.Case(
        {"building.length": "32'", "building.bays": ["2'", "2'", "12'", "12'", "2'", "2'"], "names.B7": "1/2"}
    ),
    "metric, long": stress.Case(
        {"building.length": 60000, "building.bays": 12, "names.A1": "WMWMWM", "names.C1": "MMMMMM"}, base=jobs.METRIC
    ),
}
CASES = [*stress.CASES, *EXTRA]
USUAL = ("plain", "metric", "long names", "off ridge", "small", "wide", "many kinds", "lean", "broad", "small bays")


@cache
def building(name: str) -> Building:
    return stress.build(EXTRA[name]) if name in EXTRA else stress.building(name)


@cache
def cased(name: str, paper: str = "letter") -> tuple[Body, ...]:
    """The field sheet of a stress case, drawn once."""
    return tuple(field.pages(building(name), find(paper)))


def words(bodies: Iterable[Body]) -> list[str]:
    return [t.words for b in bodies for t in boxes.written(b.drawing.shapes)]


def plan_of(name: str, paper: str = "letter") -> Body:
    return cased(name, paper)[0]


def found(body: Body, prefix: str) -> list[Group]:
    return list(boxes.groups(body.drawing.shapes, prefix))


# --- nothing in one another -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [*PRINTED, "8x10", "arch-d"])
@pytest.mark.parametrize("name", CASES)
def test_words_keep_clear_of_each_other_and_of_lines(name: str, paper: str) -> None:
    for body in cased(name, paper):
        assert not boxes.faults(body.drawing, body.paper)
        assert not boxes.crossed(body.drawing.shapes)
        area = body.paper.body
        assert not boxes.outside(boxes.written(body.drawing.shapes), boxes.Box(area.x0, area.y0, area.x1, area.y1))


@given(jobs.buildings())
def test_words_keep_clear_on_any_building(building: Building) -> None:
    for body in field.pages(building, PAPERS["letter"]):
        assert not boxes.faults(body.drawing, body.paper)


@pytest.mark.parametrize("paper", PRINTED)
@pytest.mark.parametrize("name", CASES)
def test_columns_with_their_frames_keep_clear_on_the_plan(name: str, paper: str) -> None:
    body = plan_of(name, paper)
    frames = [
        (g.title, boxes.of_shape(next(s for s in g.shapes if isinstance(s, Polygon)))) for g in found(body, "spot-")
    ]
    assert not [(a, b) for i, (a, one) in enumerate(frames) for b, other in frames[:i] if one.shares(other)]
    arrows = [boxes.of_shape(g) for g in found(body, "walk-")]
    for text in boxes.written(body.drawing.shapes):
        own = any(g.startswith("spot-") for g in text.groups) and text.words.isdigit()
        assert own or not [name for name, frame in frames if text.box.shares(frame)], text.words
    assert not [name for name, frame in frames if any(arrow.shares(frame) for arrow in arrows)]


# --- columns and the walk -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", USUAL)
def test_every_column_of_a_common_building_has_its_number_in_walking_order(name: str) -> None:
    spots = building(name).plan.spots
    marked = {int(g.name.removeprefix("spot-")): g for g in found(plan_of(name), "spot-")}
    if name != "broad":
        assert sorted(marked) == list(range(1, len(spots) + 1))
    for number, group in marked.items():
        assert {t.words for t in boxes.written(group.shapes)} == {str(number), spots[number - 1].name}


def test_columns_stand_where_the_plan_has_them() -> None:
    # 32 x 48 ft: wall A at the top from A1 to A7, wall G below it, the front with C1 and E1 to the left
    spots = {g.title: boxes.of_shape(g) for g in found(plan_of("plain"), "spot-")}
    assert [n for n, _ in sorted(spots.items(), key=lambda s: s[1].x0) if n[0] == "A"] == [f"A{i}" for i in range(1, 8)]
    assert spots["A1"].y0 > spots["C1"].y1 > spots["E1"].y1 > spots["G1"].y1
    assert spots["C1"].x1 < spots["A1"].x0 < spots["A7"].x1 < spots["B7"].x1
    order = [g.title for g in sorted(found(plan_of("plain"), "spot-"), key=lambda g: int(g.name[5:]))]
    assert " ".join(order) == "A1 A2 A3 A4 A5 A6 A7 B7 D7 F7 G7 G6 G5 G4 G3 G2 G1 E1 C1"


def test_arrows_point_the_way_the_numbers_go() -> None:
    body = plan_of("plain")
    spots = {int(g.name[5:]): boxes.of_shape(g) for g in found(body, "spot-")}
    # 1 to 7 along wall A, 8 to 10 in the back, 11 to 17 along wall G, 18 and 19 in the front
    walls: dict[str, tuple[int, int]] = {"left": (1, 7), "back": (8, 10), "right": (11, 17), "front": (18, 19)}
    for side, (first, last) in walls.items():
        shaft, head = next(g for g in found(body, f"walk-{side}")).shapes
        tail, tip = boxes.of_shape(shaft), boxes.of_shape(head)
        a, b = spots[first], spots[last]
        across = (b.x0 - a.x0) * (tip.x0 + tip.x1 - tail.x0 - tail.x1)
        up = (b.y0 - a.y0) * (tip.y0 + tip.y1 - tail.y0 - tail.y1)
        assert (across if side in ("left", "right") else up) > 0, side


def test_start_stands_beside_the_first_column() -> None:
    body = plan_of("plain")
    first = boxes.of_shape(next(g for g in found(body, "spot-1") if g.name == "spot-1"))
    start = next(t for t in boxes.written(body.drawing.shapes) if t.words == "START")
    assert 0 < first.x0 - start.box.x1 < 0.4
    assert first.y0 < start.box.y0 < start.box.y1 < first.y1


@pytest.mark.parametrize("name", ["forty", "sixty", "lean and long", "long, long names"])
def test_where_names_do_not_go_some_are_left_out_and_it_is_said(name: str) -> None:
    spots = building(name).plan.spots
    named = {g.title for g in found(plan_of(name), "spot-")}
    assert {s.name for s in spots if s.role == "corner"} <= named
    said = " ".join(words([plan_of(name)]))
    assert ("A black block without a name is a column too" in said) == (len(named) < len(spots))
    blocks = found(plan_of(name), "field-plan")
    black = [s for g in blocks for s in g.shapes if isinstance(s, Polygon) and s.grey == 0.0 and len(s.points) == 4]
    small = [b for b in map(boxes.of_shape, black) if abs(b.x1 - b.x0 - 2 * field_plan.BLOCK) < 1e-9]
    assert len([b for b in small if abs(b.y1 - b.y0 - 2 * field_plan.BLOCK) < 1e-9]) == len(spots)


def test_walls_and_what_the_front_faces() -> None:
    found = words([plan_of("plain")])
    assert {"LEFT, wall A", "BACK, wall 7", "RIGHT, wall G", "FRONT, wall 1", "FRONT is wall 1"} <= set(found)
    assert "YOU LOOK DOWN ON IT" in found
    faces = words(field.pages(jobs.build({"building.front_faces": "the mill road"}), PAPERS["letter"]))
    assert "FRONT, wall 1, faces the mill road" in faces


def test_a_long_building_lies_on_its_side_a_wide_one_stands() -> None:
    assert plan_of("plain").paper.width == 11
    assert plan_of("small").paper.width == 8.5


@pytest.mark.parametrize(("name", "kept"), [("plain", True), ("small", True), ("lean", False), ("sixty", False)])
def test_what_is_not_to_scale_says_so(name: str, kept: bool) -> None:
    body, plan = plan_of(name), building(name).plan
    group = next(g for g in found(body, "field-plan"))
    outline = boxes.of_shape(next(s for s in group.shapes if isinstance(s, Polygon)))
    ratio = (outline.x1 - outline.x0) / (outline.y1 - outline.y0)
    assert (ratio == pytest.approx(plan.along / plan.across)) == kept
    assert any("NOT TO SCALE" in w for w in words([body])) != kept
