"""Columns: every cut from the bottom end, worked by hand, and the stock that is ordered."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from jobs import build, buildings, slope

from layouts import templates
from layouts.building import Building
from layouts.columns import Column
from layouts.lengths import Style, show

# Design worked by hand: 5 1/2 deep, 5/12, bearing 13'-6", heel 11 7/8, 2x6 purlins on edge, overhang 18, fascia 7 1/4
WORKED: dict[str, Any] = {
    "truss.bearing": "13'-6",
    "truss.heel": "11 7/8",
    "truss.pitch": "5/12",
    "roof.purlin": "2x6",
    "roof.overhang": "18",
    "roof.fascia": "7 1/4",
    "roof.soffit": "level",
    "grade.line": "45 1/2",
}

# As worked in the trade (common practice, no source): 36' with 1 1/2 girts, bearing 12', heel 3 15/16, 4/12, ears 1/2
# under the chord. Heights there are from the floor, seats 4 1/2 below it: here the floor is the grade line and the
# reading stands 4 1/2 over the line reading.
TRADE: dict[str, Any] = {
    "building.width": "36'",
    "building.front_columns": ["9'", "18'", "27'"],
    "building.back_columns": ["9'", "18'", "27'"],
    "truss.bearing": "12'",
    "truss.heel": "3 15/16",
    "truss.pitch": "4/12",
    "grade.line": "45",
    "tops.sidewall_ears": "chord",
    "tops.clearance": "1/2",
}


def printed(inches: float) -> str:
    return show(inches, Style())


def column(building: Building, name: str) -> Column:
    return next(c for c in building.columns if c.name == name)


def stations(found: Column) -> dict[str, float]:
    return {cut.key: cut.station for cut in found.cuts}


def up(found: Column) -> dict[str, str]:
    """Cuts as they are measured from the column's bottom end."""
    return {cut.key: printed(found.up(cut.station)) for cut in found.cuts}


def test_the_worked_column() -> None:
    building = build(WORKED, {"A3": "47 5/8"})
    roof, found = building.roof, column(building, "A3")
    assert roof.top.over(0) - roof.chord.over(0) == pytest.approx(5.9583, abs=5e-5)  # 5.5 x 13/12
    assert roof.top.over(0) == pytest.approx(179.8333, abs=5e-5)  # 162 + 11.875 + 5.9583
    assert stations(found)["long_point"] == pytest.approx(182.1250, abs=5e-5)  # + 5.5 x 5/12 = 2.2917
    assert roof.soffit == pytest.approx(165.0833, abs=5e-5)  # 179.8333 - 7.5 - 7.25
    assert {key: printed(at) for key, at in stations(found).items()} == {
        "bearing": "13'-6\"",
        "short_point": "14'-11 13/16\"",
        "long_point": "15'-2 1/8\"",
    }
    assert roof.soffit is not None
    assert printed(roof.soffit) == "13'-9 1/16\""
    assert printed(found.offset) == '2 1/8"'  # 47 5/8 - 45 1/2
    # 162 + 2 1/8 = 164 1/8; 179.8333 + 2.125 = 181.9583; 182.125 + 2.125 = 184 1/4
    assert up(found) == {"bearing": "13'-8 1/8\"", "short_point": "15'-1 15/16\"", "long_point": "15'-4 1/4\""}


def test_the_worked_column_to_order() -> None:
    found = column(build(WORKED, {"A3": "47 5/8"}), "A3")
    assert found.length == pytest.approx(184.25)
    assert found.stock == 192  # 184 1/4 and 1/2 to trim: 16 ft
    assert found.drop == pytest.approx(7.75)


def test_sidewall_ears_of_the_trade() -> None:
    """Short point 12'-7 15/16", long point 12'-9 3/4"."""
    found = column(build(TRADE, {"A1": "49 1/2"}), "A1")
    assert found.offset == 4.5
    assert up(found) == {"bearing": "12'-4 1/2\"", "short_point": "12'-7 15/16\"", "long_point": "12'-9 3/4\""}
    assert [(c.name, c.where, c.part) for c in found.cuts] == [
        ("BEARING", "centre ply", "centre"),
        ("SHORT POINT", "outside face", "ears"),
        ("LONG POINT", "inside face", "ears"),
    ]


def test_endwall_column_of_the_trade() -> None:
    """At 8'-10 1/2" along: low edge 15'-6 11/16", high edge 15'-8 3/16"; 16 ft stock leaves 3 13/16."""
    found = column(build(TRADE, {"B1": "49 1/2"}), "B1")
    assert up(found) == {"low_edge": "15'-6 11/16\"", "high_edge": "15'-8 3/16\""}
    assert [c.where for c in found.cuts] == ["toward A1", "toward C1"]
    assert found.stock == 192
    assert found.drop is not None
    assert printed(found.drop) == '3 13/16"'


def test_the_same_column_on_a_seat_four_inches_lower_needs_the_next_stock() -> None:
    assert column(build(TRADE, {"B1": "53 1/2"}), "B1").stock == 216


def test_ridge_column_of_the_trade() -> None:
    """Double cut: centre 18'-7 7/16", edges 3/4 lower."""
    found = column(build(TRADE, {"C1": "49 1/2"}), "C1")
    assert up(found) == {"edges": "18'-6 11/16\"", "ridge": "18'-7 7/16\""}
    assert [c.part for c in found.cuts] == ["all", "all"]
    assert len(found.top.ears) == 3


def test_a_column_beside_the_ridge_has_three_cuts() -> None:
    """Its middle 1 in from the ridge at 214 1/2: edges 3 1/4 and 1 1/4 from it."""
    found = column(build({**TRADE, "building.front_columns": ["9'", "17'-11", "27'"]}, {"C1": "45"}), "C1")
    ridge = 144 + 3.9375 + 71.5 - 0.5
    assert stations(found) == pytest.approx(
        {"left_edge": ridge - 3.25 / 3, "ridge": ridge, "right_edge": ridge - 1.25 / 3}
    )
    assert [c.where for c in found.cuts] == ["toward B1", '1 1/4" from the edge toward E1', "toward E1"]


def test_the_back_wall_is_seen_from_behind() -> None:
    building = build({**TRADE, "building.back_columns": ["9'", "27'"]}, {"B7": "45", "D7": "45"})
    low = {c.name: (c.cuts[0].key, c.cuts[0].where) for c in building.columns}
    assert low == {"B7": ("low_edge", "toward A7"), "D7": ("low_edge", "toward E7")}
    found = column(building, "D7")
    # from behind, E7 stands to the left: the top rises to the right
    assert found.top.left == "to E7"
    assert found.top.ears[0][1] < found.top.ears[1][1]


@pytest.mark.parametrize(
    ("ears", "purlin"),
    [("chord", 0.0), ("roof", 3.5 * 1.0540925533894598)],  # sqrt(1 + 1/9)
)
def test_ears_run_to_the_chord_or_to_the_roof_plane(ears: str, purlin: float) -> None:
    building = build(
        {**TRADE, "tops.sidewall_ears": ears, "tops.endwall_ears": ears, "roof.purlin": "2x4"}, {"A1": 45, "B1": 45}
    )
    assert stations(column(building, "A1"))["short_point"] == pytest.approx(144 + 3.9375 + purlin - 0.5)
    # 106 1/2 - 2 1/4 = 104 1/4 along, a third of it up
    assert stations(column(building, "B1"))["low_edge"] == pytest.approx(144 + 3.9375 + 34.75 + purlin - 0.5)


@pytest.mark.parametrize(
    ("centre", "cuts"),
    [
        ("ears", {}),
        ("bearing", {"centre_level": 144.0}),
        # the centre ply of three is 1 1/2 wide: 3/4 to each side of 106 1/2; to the chord, without clearance
        ("chord", {"centre_low_edge": 147.9375 + 105.75 / 3, "centre_high_edge": 147.9375 + 107.25 / 3}),
    ],
)
def test_the_centre_ply_may_have_a_top_of_its_own(centre: str, cuts: dict[str, float]) -> None:
    building = build({**TRADE, "tops.endwall_ears": "roof", "tops.endwall_centre": centre}, {"B1": "45"})
    found = column(building, "B1")
    own = {c.key: c.station for c in found.cuts if c.key.startswith("centre_")}
    assert own == pytest.approx(cuts)
    assert {c.part for c in found.cuts} == ({"ears", "centre"} if cuts else {"all"})


@pytest.mark.parametrize(("plies", "what"), [(3, "CENTRE PLY"), (4, "INNER PLIES")])
def test_what_stands_between_the_outer_plies_is_called_by_how_many_they_are(plies: int, what: str) -> None:
    given = {**TRADE, "column.plies": plies, "column.width": "6", "tops.endwall_ears": "roof"}
    building = build({**given, "tops.endwall_centre": "chord"}, {"B1": "45", "A1": "45"})
    own = [c.name for c in column(building, "B1").cuts if c.key.startswith("centre_")]
    assert own == [f"{what} LOW EDGE", f"{what} HIGH EDGE"]
    patterns = templates.lay(building.job, building.plan, building.roof, building.rows)
    assert [t for t in patterns if what in str(t)]


def test_a_long_column_is_named_not_ordered() -> None:
    building = build({**TRADE, "column.stock": ["12'", "16'"]}, {"C1": "49 1/2", "A1": "49 1/2"})
    assert column(building, "C1").stock is None
    assert column(building, "C1").drop is None
    assert column(building, "A1").stock == 192  # 12'-9 3/4" is over 12 ft
    assert any(w.startswith("C1: 18'-7 7/16\"") for w in building.warnings)
    assert building.column_order == ((192, 1),)


def test_trim_counts_when_stock_is_chosen() -> None:
    # A1 is 153.7708 long: 154 holds it with 1/4 to trim, not with 1/2
    small = {**TRADE, "column.stock": ["154 in", "16'"]}
    assert column(build({**small, "column.trim": "3/16"}, {"A1": "49 1/2"}), "A1").stock == 154
    assert column(build({**small, "column.trim": "1/2"}, {"A1": "49 1/2"}), "A1").stock == 192


def test_neighbours_are_left_and_right_as_seen_from_outside() -> None:
    rows = dict.fromkeys(("A1", "A2", "B1", "E7", "E2"), "45")
    found = {c.name: (c.neighbours, c.walls) for c in build(TRADE, rows).columns}
    assert found == {
        "A1": (("A2", "B1"), ("A", "1")),
        "A2": (("A3", "A1"), ("A",)),
        "E7": (("E6", "D7"), ("7", "E")),
        "E2": (("E1", "E3"), ("E",)),
        "B1": (("A1", "C1"), ("1",)),
    }


def test_no_reading_no_column() -> None:
    assert build(TRADE).columns == ()
    building = build(TRADE, {"A1": "45", "A2": ""})
    assert [c.name for c in building.columns] == ["A1"]


@given(buildings())
def test_every_column_read_is_laid_out_and_no_other(building: Building) -> None:
    assert {c.name for c in building.columns} == set(building.readings.values)
    assert set(building.grade.unread) == {s.name for s in building.plan.spots} - set(building.readings.values)


@given(buildings())
def test_long_point_less_short_point_is_depth_times_slope(building: Building) -> None:
    rise = building.job.column.depth * slope(building.job)
    for found in building.columns:
        if found.role != "end":
            at = stations(found)
            assert at["long_point"] - at["short_point"] == pytest.approx(rise, abs=1e-9)


@given(buildings())
def test_high_edge_less_low_edge_is_face_times_slope(building: Building) -> None:
    made = building.job
    face = made.column.width if made.column.endwall_face == "width" else made.column.depth
    for found in building.columns:
        at = stations(found)
        if "high_edge" in at:
            assert at["high_edge"] - at["low_edge"] == pytest.approx(face * slope(made), abs=1e-9)
        if "edges" in at:
            assert at["ridge"] - at["edges"] == pytest.approx(face / 2 * slope(made), abs=1e-9)


@given(buildings())
def test_stock_holds_the_column_and_nothing_shorter_does(building: Building) -> None:
    trim, stock = building.job.column.trim, building.job.column.stock
    for found in building.columns:
        need = max(found.up(c.station) for c in found.cuts)
        assert found.length == pytest.approx(need)
        if found.stock is not None:
            assert found.drop == pytest.approx(found.stock - need)
            assert [s for s in stock if need + trim <= s < found.stock] == []
            assert need + trim <= found.stock + 1e-6


@given(buildings())
def test_columns_that_face_each_other_are_cut_alike(building: Building) -> None:
    """A gable is the same from both sides: a sidewall column has the same stations as the one across."""
    tops = {building.plan.spot(c.name): stations(c) for c in building.columns if c.role != "end"}
    first = next(iter(tops.values()), {})
    assert all(at == pytest.approx(first, abs=1e-9) for at in tops.values())
