"""The whole layout: what it refuses, what it warns of, what is ordered."""

from __future__ import annotations

import math
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from jobs import METRIC, build, buildings, every, job, job_text, lay_anew, refusal
from msgspec import Struct

from layouts.building import Building, lay_out, marks_of
from layouts.readings import Readings


def floats(value: Any) -> list[float]:
    """Every number in a layout."""
    if isinstance(value, float):
        return [value]
    if isinstance(value, dict):
        return [x for v in value.values() for x in floats(v)]
    if isinstance(value, tuple):
        return [x for v in value for x in floats(v)]
    if isinstance(value, Struct):
        return [x for name in value.__struct_fields__ for x in floats(getattr(value, name))]
    return []


def warned(building: Building, says: str) -> bool:
    return any(says in w for w in building.warnings)


def test_a_job_without_readings_has_rods_and_walls_but_no_column() -> None:
    building = build()
    assert building.columns == ()
    assert [rod.name for rod in building.rods] == ["Sidewall rod", "Endwall rod", "Roof rod"]
    assert len(building.walls) == 4
    assert building.pieces
    assert building.orders
    assert warned(building, "No readings: no column has a tag")


def test_unread_columns_are_named() -> None:
    made = job()
    full = every(made)
    some = Readings({name: v for name, v in full.values.items() if name not in ("A3", "C1")}, {})
    building = lay_out(made, some)
    assert building.warnings[0] == "No reading, no tag: A3, C1."
    assert {c.name for c in building.columns} == set(full.values) - {"A3", "C1"}


def test_all_read_and_level_warns_of_nothing() -> None:
    made = job({"building.front_columns": ["8'", "16'", "24'"], "tops.sidewall_ears": "chord"})
    assert lay_out(made, every(made)).warnings == ()


SOFFIT = {"truss.top_chord": "2x6", "roof.overhang": "18", "roof.soffit": "level", "roof.fascia": "5 1/2"}


@pytest.mark.parametrize(
    ("changes", "rows", "says"),
    [
        ({"grade.line": "46"}, {"A1": "45 1/2"}, 'A1: the grade line is 1/2" BELOW its seat'),
        ({}, {"A1": "45", "A2": "46 1/16"}, 'A2: seat LOW 1 1/16" against A1, more than 1"'),
        ({}, {"A1": "45", "A2": "43 7/8"}, 'A2: seat HIGH 1 1/8" against A1, more than 1"'),
        # 48 ft in 16 bays, typed for bays of 16 ft: three of them
        (
            {"building.bays": 16},
            {},
            "16 bays along the eaves are only 3'-0\" each: is building.bays how many there are?",
        ),
        ({"column.width": "4 1/8"}, {}, 'The slot left by the centre ply is 1 3/8", the truss 1 1/2"'),
        ({"column.stock": ["12'"]}, {"A1": "45"}, "A1: "),
        # 4/12, 18 in out, fascias 5 1/2 deep and 1 1/2 thick, purlins 5 1/2: plumb 5.5·sqrt(10)/3 = 5.7975. The chord
        # at the tail over the soffit: 5.5 + 18/3 - 5.7975 - 16.5/3 = 0.2025
        (SOFFIT, {}, 'Walls A and G: the level soffit leaves only 3/16" of the tails'),
        # the soffit over the underside of a 2x6 chord 1 1/2 in outside: 5.7975 - 18/3 - 5.5 + 1.5/3 + 5.7975 = 0.595
        (SOFFIT, {}, 'Walls A and G: the soffit nailer comes 5/8" into the tails'),
        ({**SOFFIT, "roof.fascia": "5"}, {}, "leaves nothing of the tails"),
        # 12 in out: 5.7975 - 12/3 - 5.5 + 1.5/3 + 5.7975 = 2.595
        ({**SOFFIT, "roof.far_overhang": "12"}, {}, 'Wall G: the soffit nailer comes 2 5/8" into the tails'),
    ],
)
def test_what_wants_a_look_is_warned_of(changes: dict[str, Any], rows: dict[str, str], says: str) -> None:
    assert warned(build(changes, rows), says)


@pytest.mark.parametrize(
    ("changes", "rows", "says"),
    [
        ({}, {"A1": "45", "A2": "46"}, "A2: seat"),  # just the flag
        ({"building.bays": 12}, {}, "bays along the eaves"),  # 48 ft in twelve of 4 ft
        ({"building.bays": ["3'"] * 16}, {}, "bays along the eaves"),  # each is given
        ({"grade.line": "45"}, {"A1": "45"}, "BELOW"),  # seat on the line
        ({"column.plies": 4, "column.width": "6", "truss.each": 2}, {}, "slot"),  # two plies out, two trusses
        ({**SOFFIT, "roof.fascia": "6 13/16"}, {}, "of the tails"),  # 0.2025 + 1.3125 = 1.515 is left
        ({**SOFFIT, "roof.fascia": "6 1/8"}, {}, "into the tails"),  # 0.595 - 0.625
        ({**SOFFIT, "roof.soffit": "sloped"}, {}, "tails"),
        ({k: v for k, v in SOFFIT.items() if k != "truss.top_chord"}, {}, "tails"),  # how deep they are is not told
    ],
)
def test_what_is_just_right_is_not(changes: dict[str, Any], rows: dict[str, str], says: str) -> None:
    assert not warned(build(changes, rows), says)


def test_a_wall_no_board_can_span_is_refused_with_what_would_help() -> None:
    says = refusal({"building.front_columns": []})
    assert "building.front_columns: leaves" in says
    assert "longest board is 20'-0\"" in says
    assert "Add a column, or a longer board" in says


def test_stock_may_be_listed_in_any_order() -> None:
    up, down = ["8'", "12'", "16'", "20'"], ["16'", "20'", "8'", "12'"]
    first, second = build({"lumber.stock": up}), build({"lumber.stock": down})
    assert second.pieces == first.pieces
    assert [(o.section, o.sticks) for o in second.orders] == [(o.section, o.sticks) for o in first.orders]


def test_column_stock_may_be_listed_in_any_order() -> None:
    rows = {"A1": "45"}
    assert build({"column.stock": ["20'", "14'", "16'"]}, rows).columns[0].stock == 168


def test_one_bay_is_a_building() -> None:
    building = build({"building.length": "20'", "building.bays": 1})
    assert [w.columns for w in building.plan.walls if not w.gable] == [("A2", "A1"), ("G1", "G2")]


def test_a_metric_building() -> None:
    """9.6 x 14.4 m, girts 45: columns 9510 x 14 310; first bay 2400 - 45 = 2355."""
    building = build({}, {"A1": 1200, "A2": 1212}, base=METRIC)
    assert building.plan.across * 25.4 == pytest.approx(9510)
    assert building.plan.along * 25.4 == pytest.approx(14310)
    second = building.plan.spot("A2")
    assert (second.v0 + second.v1) / 2 * 25.4 == pytest.approx(2355)
    assert building.columns[1].offset * 25.4 == pytest.approx(37)  # 1200 - 25 = 1175 on steps of 5; 1212 - 1175
    assert building.columns[1].longer == "COLUMN 12 mm LONGER"


def test_a_very_large_building_is_laid_out() -> None:
    ends = [f"{10 * n}'" for n in range(1, 20)]
    building = build(
        {
            "building.width": "200'",
            "building.length": "1000'",
            "building.bays": 100,
            "building.front_columns": ends,
            "building.back_columns": ends,
        }
    )
    assert len(building.plan.spots) == 2 * 101 + 2 * 19
    assert sum(len(c.pieces) for w in building.walls for c in w.courses) > 1000


def test_the_same_job_gives_the_same_layout() -> None:
    rows = {"A1": "45", "A5": "45 7/16", "C1": "46"}
    text = job_text({"wainscot.nailer": "2x6"})
    assert lay_anew(text, rows) == lay_anew(text, rows)


@given(buildings())
def test_every_number_is_a_number(building: Building) -> None:
    """Nothing that is printed may be nan or endless."""
    parts = (building.plan, building.roof, building.columns, building.rods)
    assert all(math.isfinite(x) for x in floats(parts))
    assert all(math.isfinite(x) for w in building.walls for c in w.courses for x in floats(c))


@given(buildings())
def test_the_order_cuts_every_piece_once(building: Building) -> None:
    wanted = Counter(
        {(x.section, x.treated, x.mark): x.count for x in building.pieces},
    )
    cut = Counter(
        (o.section, o.treated, mark) for o in building.orders for stick in o.plan.sticks for mark, _ in stick.cuts
    )
    assert cut == wanted
    for order in building.orders:
        assert {length for length, _ in order.sticks} <= set(building.job.lumber.stock)
        assert sum(n for _, n in order.sticks) == len(order.plan.sticks)
        for stick in order.plan.sticks:
            saw = building.job.lumber.kerf * (len(stick.cuts) - 1)
            assert sum(length for _, length in stick.cuts) + saw <= stick.stock + 1e-5


@given(buildings())
def test_columns_to_order_are_the_columns_read(building: Building) -> None:
    bought = sum(count for _, count in building.column_order)
    assert bought == sum(c.stock is not None for c in building.columns)
    missing = {c.name for c in building.columns if c.stock is None}
    assert {w.split(":")[0] for w in building.warnings if "longest column stock" in w} == missing


@given(buildings())
def test_unread_columns_are_always_told(building: Building) -> None:
    unread = building.grade.unread
    told = " ".join(building.warnings)
    assert ("no tag" in told or "No readings" in told) == bool(unread)
    if building.columns:
        (line,) = [w for w in building.warnings if w.startswith("No reading, no tag: ")] or [""]
        assert line.removeprefix("No reading, no tag: ").removesuffix(".").split(", ") == [*unread] or not unread


def test_marks_of_a_column_are_its_offset_over_the_rod() -> None:
    """Offset 2: grade board 2, floor 5 1/2, bearing 12'-2", roof plane 144 + 9 1/4 + 5.7975 + 2 = 161.0475."""
    building = build({"grade.line": "43"}, {"A2": "45"})
    found = [(m.mark.name, round(m.up, 4)) for m in marks_of(building, building.columns[0])]
    assert found[:2] == [("Grade board", 2), ("Finished floor", 5.5)]
    assert found[-3:] == [("BEARING", 146), ("SHORT POINT", 161.0475), ("LONG POINT", 162.8808)]  # + 5.5 / 3


def test_a_mark_below_the_bottom_end_is_left_out() -> None:
    building = build({"grade.line": "46"}, {"A2": "45"})
    assert marks_of(building, building.columns[0])[0].mark.name == "Finished floor"  # 3 1/2 - 1


@given(buildings())
def test_every_column_carries_every_mark_below_its_top(building: Building) -> None:
    boards = {False: building.rows.side, True: building.rows.end}
    for column in building.columns:
        marks = marks_of(building, column)
        assert [m.up for m in marks] == sorted(m.up for m in marks)
        assert all(m.up - m.mark.station == pytest.approx(column.offset) for m in marks)
        assert {c.name for c in column.cuts} == {m.mark.name for m in marks if m.mark.kind == "cut"}
        edges = {r.name: r.low for r in boards[column.role == "end"]}
        carried = {m.mark.name for m in marks if m.mark.kind == "board"}
        ends = column.length - column.offset  # stations of its top and, with a minus, of its bottom end
        assert carried >= {name for name, low in edges.items() if -column.offset <= low < ends - 12}
