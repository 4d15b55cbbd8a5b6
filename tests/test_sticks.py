"""Sticks as they are drawn: every cut at its place, to one scale in a section, and an honest word on the plan."""

from __future__ import annotations

from typing import Any

import boxes
import pytest
import stress
from jobs import BASE, METRIC, build

from layouts.lengths import Style
from layouts.stock import Plan
from sheets.cuts import pages
from sheets.paper import PAPERS
from sheets.shapes import Group, Polygon, Shape
from sheets.sticks import said


def sticks(shapes: tuple[Shape, ...]) -> list[Group]:
    """The groups of all drawn sticks."""
    found = []
    for shape in shapes:
        if isinstance(shape, Group):
            found += [shape] if shape.name == "stick" else sticks(shape.shapes)
    return found


def widths(stick: Group) -> list[tuple[float, float]]:
    """Where the stick and its cuts begin and end across the page, inches; the stick first."""
    boxes = [s for s in stick.shapes if isinstance(s, Polygon)]
    return [(min(x for x, _ in b.points), max(x for x, _ in b.points)) for b in boxes]


@pytest.mark.parametrize("name", ["plain", "small", "metric", "many kinds"])
def test_every_stick_is_drawn_to_scale(name: str) -> None:
    building = stress.building(name)
    kerf = building.job.lumber.kerf
    paper = PAPERS["letter"]
    drawn = [widths(g) for body in pages(building, paper) for g in sticks(body.drawing.shapes)]
    wanted = []
    for order in building.orders:
        scale = paper.body.width / max(s.stock for s in order.plan.sticks)
        for stock, cuts in dict.fromkeys((s.stock, s.cuts) for s in order.plan.sticks):
            places = [(0.0, stock * scale)]
            at = 0.0
            for _, length in cuts:
                places.append((at * scale, (at + length) * scale))
                at += length + kerf  # the saw takes the kerf between two pieces
            wanted.append(places)
    assert len(drawn) == len(wanted)
    for have, want in zip(drawn, wanted, strict=True):
        left = have[0][0]
        assert [(a - left, b - left) for a, b in have] == [pytest.approx(pair, abs=1e-6) for pair in want]


def test_a_trimmed_stick_begins_after_its_trim() -> None:
    building = build({"lumber.trim": "1"}, None)
    drawn = (widths(g) for body in pages(building, PAPERS["letter"]) for g in sticks(body.drawing.shapes))
    first = next(drawn)
    scale = (first[0][1] - first[0][0]) / building.orders[0].plan.sticks[0].stock
    assert first[1][0] - first[0][0] == pytest.approx(1.0 * scale)


def order(**changes: object) -> str:
    """What is said of a plan of two 16 ft boards."""
    building = build({}, None)
    one = building.orders[0]
    plan = Plan(**{"sticks": (), "bound": 384.0, "cost": 384.0, "proved": True, **changes})  # type: ignore[arg-type]
    return said(type(one)("2x4", False, (), plan), Style())


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, "2x4: 32'-0\" in all. PROVED: no plan takes less."),
        (
            {"cost": 400.0, "proved": False},  # 16 over 384 is 4.2 %
            "2x4: 33'-4\" in all, at most 4.2% over the least. No plan takes less than 32'-0\".",
        ),
        ({"priced": True, "cost": 19.6, "bound": 19.6}, "2x4: 19.60 in all. PROVED: no plan costs less."),
    ],
)
def test_the_plan_is_told_honestly(changes: dict[str, object], words: str) -> None:
    assert order(**changes) == words


def test_a_price_is_asked_for_and_a_length_without_one_is_not_bought() -> None:
    building = build({"lumber.prices": ["2x4 8' 3", "2x4 16' 5.50"]}, None)
    boards = next(o for o in building.orders if o.section == "2x4")
    assert {length for length, _ in boards.sticks} <= {96.0, 192.0}
    # the whole price: what each stick costs, added up
    assert boards.plan.cost == pytest.approx(sum({96.0: 3.0, 192.0: 5.5}[length] * n for length, n in boards.sticks))


def test_spares_are_of_the_longest_bought() -> None:
    building = build({"lumber.spares": 10}, None)
    for one in building.orders:
        count = sum(n for _, n in one.sticks)
        assert one.spare == ((max(length for length, _ in one.sticks), -(-count // 10)),)  # a tenth, rounded up


@pytest.mark.parametrize(
    ("base", "taken", "says"),
    [
        (METRIC, {"lumber.kerf": "3.2 mm"}, "From left to right, 3.2 mm for the saw between cuts."),
        (METRIC, {}, "From left to right, 3 mm for the saw between cuts."),
        (METRIC, {"lumber.trim": "12.5 mm"}, "First cut 12.5 mm off the left end."),
        # a thin blade takes 3/32, which in 16ths would be told as 1/8
        (BASE, {"lumber.kerf": "3/32"}, 'From left to right, 3/32" for the saw between cuts.'),
        (BASE, {"lumber.kerf": "2.4 mm"}, 'From left to right, 0.094" for the saw between cuts.'),  # 2.4/25.4 = 0.0945
        (BASE, {}, 'From left to right, 1/8" for the saw between cuts.'),
    ],
)
def test_what_the_saw_takes_is_told_as_it_was_said(base: dict[str, Any], taken: dict[str, Any], says: str) -> None:
    found = pages(build(taken, None, base=base), PAPERS["letter"])
    assert says in " ".join(t.words for body in found for t in boxes.written(body.drawing.shapes))
