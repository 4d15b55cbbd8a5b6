"""Columns that are not cut at the top: the bottom takes the offset, or packing under it, or a seat block."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import TRADE, build, job

from layouts.building import Building, marks_of
from layouts.columns import Column
from layouts.lengths import Style, show
from layouts.piers import PLAIN, Fit, fit

# Bearing 144 (12 ft) over the grade line in all of them
BOTTOM: dict[str, Any] = {"column.trims": "bottom", "column.treated": "all", "column.notch": "12'-6", "column.ears": 14}
NEITHER: dict[str, Any] = {"column.trims": "none", "column.notch": "12'-1", "column.ears": 14, "grade.shim": 12}
BLOCK: dict[str, Any] = {"column.trims": "none", "column.centre_ply": "11'-2", "column.ears": 26}
SITE: dict[str, Any] = {"column.centre_ply": "11'-2"}  # ears cut on site, the centre ply short
KINDS = {"bottom": BOTTOM, "neither": NEITHER, "block": BLOCK, "site": SITE}

NAMES = ("A1", "A2", "A4", "A7", "G1", "G5", "C1", "D7")
READINGS = st.lists(st.integers(0, 32), min_size=2, max_size=len(NAMES)).map(
    lambda found: {name: str(45 + n / 16) for name, n in zip(NAMES, found, strict=False)}
)


def column(building: Building, name: str) -> Column:
    return next(c for c in building.columns if c.name == name)


def seats(building: Building) -> dict[str, float]:
    """Stations of the seats of columns that carry a truss."""
    return {c.name: -building.grade.offsets[c.name] for c in building.columns if c.role != "end"}


# --- one column by hand ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "offset", "says"),
    [
        # notch 150 from the bottom end, 144 + 2 wanted: 4 come off, 164 - 4 are left
        (BOTTOM, 2.0, Fit(made=True, cut_off=4.0, length=160.0)),
        (BOTTOM, 6.0, Fit(made=True, length=164.0)),  # just right as it comes
        (BOTTOM, 6.25, Fit(made=True, packing=0.25, length=164.0)),
        (BOTTOM, -1.0, Fit(made=True, cut_off=7.0, length=157.0)),
        # notch 145: an offset of 1 stands on the bare seat
        (NEITHER, 1.0, Fit(made=True, length=159.0)),
        (NEITHER, 3.5, Fit(made=True, packing=2.5, length=159.0)),
        (NEITHER, 0.5, Fit(made=True, packing=-0.5, length=159.0)),  # too high
        # centre ply 134: 144 + 2 - 134
        (BLOCK, 2.0, Fit(made=True, seat_block=12.0, length=160.0)),
        (SITE, 2.0, Fit(seat_block=12.0)),
        ({"column.centre_ply": "147"}, 2.0, Fit()),  # stands over the bearing: no block
        ({}, 2.0, Fit()),
    ],
)
def test_the_fit_of_one_column(changes: dict[str, Any], offset: float, says: Fit) -> None:
    assert fit(job(changes), True, offset) == says
    assert fit(job(changes), False, offset) == PLAIN  # endwall columns are cut at the top


def test_the_seat_block_of_the_trade() -> None:
    """Block length = (B - z) - inner ply (a design manual's field adjustment, as told in the trade): bearing 12' over
    the floor, inner ply left 12" short of the bearing of A1, whose seat is 4 1/2 below the floor: 148 1/2 - 12. Seats z
    of A1 to A4: -4 1/2, -4 7/8, -5 1/8, -4 1/4."""
    rows = {"A1": "48 1/2", "A2": "48 7/8", "A3": "49 1/8", "A4": "48 1/4"}
    # seat A1 stands 4 1/2 under the floor, 1 under the line: line reading 47 1/2
    building = build({"column.centre_ply": "136 1/2", "grade.line": "47 1/2"}, rows, base={**BASE_TRADE})
    blocks = {c.name: show(c.fit.seat_block, Style()) for c in building.columns}
    assert blocks == {"A1": '12"', "A2": '12 3/8"', "A3": '12 5/8"', "A4": '11 3/4"'}


BASE_TRADE = {"job.name": "Trade", "building.length": "48'", "building.bays": 6, **TRADE}


def test_a_bottom_that_is_cut_by_hand() -> None:
    """Reads 46 on a line of 44: offset 2. Bearing 146 from the new bottom end, so 4 of 150 come off; the grade board
    stands 2 and the floor 5 1/2 up from the NEW end."""
    building = build({**BOTTOM, "grade.line": "44"}, {"A2": "46"})
    found = column(building, "A2")
    assert found.fit.cut_off == 4
    assert found.offset == 2
    assert {c.key: found.up(c.station) for c in found.cuts} == {"bearing": 146}
    marks = {m.mark.name: m.up for m in marks_of(building, found)}
    assert (marks["Grade board"], marks["Finished floor"], marks["BEARING"]) == (2, 5.5, 146)
    assert (found.length, found.stock, found.drop) == (160, 164, 4)
    assert (found.top.left, found.top.right) == ("OUTSIDE", "INSIDE")


def test_packing_by_hand() -> None:
    """Reads 46 on a line of 44: the seat is 2 under the line, the notch 145 up, the bearing 144: 1 of packing."""
    building = build({**NEITHER, "grade.line": "44"}, {"A2": "46"})
    found = column(building, "A2")
    assert found.fit.packing == 1
    assert found.offset == 1  # from its bottom end, which stands on the packing
    assert found.reading == 46
    marks = {m.mark.name: m.up for m in marks_of(building, found)}
    assert (marks["Grade board"], marks["BEARING"]) == (1, 145)
    assert (found.stock, found.drop) == (159, 0)


def test_a_fixed_column_with_a_seat_block_stands_on_its_seat() -> None:
    """Centre ply 134 and ears 26 from there: 160 long. Offset 2: block 12, ears end 158 over the line."""
    building = build({**BLOCK, "grade.line": "44"}, {"A2": "46", "A3": "46 1/4"})
    found = column(building, "A2")
    assert (found.offset, found.length, found.stock) == (2, 160, 160)
    assert (found.fit.packing, found.fit.cut_off, found.fit.seat_block) == (0, 0, 12)
    assert [h for _, h in found.top.ears] == [158, 158]
    assert [h for _, h in column(building, "A3").top.ears] == [157.75, 157.75]
    assert [h for _, h in found.top.centre] == [144, 144]


def test_a_seat_block_goes_with_a_top_that_is_cut_as_ever() -> None:
    rows = {"A2": "46", "C1": "46"}
    with_block, without = build({**SITE, "grade.line": "44"}, rows), build({"grade.line": "44"}, rows)
    for name in rows:
        a, b = column(with_block, name), column(without, name)
        assert [(c.key, c.station) for c in a.cuts] == [(c.key, c.station) for c in b.cuts]
        assert (a.length, a.stock, a.offset) == (b.length, b.stock, b.offset)
    assert column(with_block, "A2").cuts[0].where == "top of the seat block"
    assert column(with_block, "C1").fit == PLAIN


def test_a_centre_ply_that_reaches_the_bearing_is_cut_there() -> None:
    building = build({"column.centre_ply": "146 1/2", "grade.line": "44"}, {"A2": "46", "A3": "46 3/4"})
    at = {c.name: (c.fit.seat_block, c.cuts[0].where) for c in building.columns}
    assert at == {"A2": (0, "centre ply"), "A3": (0.25, "top of the seat block")}
    assert [(p.name, p.kind, p.by) for p in building.piers] == [("A2", "centre ply", 0.5)]


# --- whatever the readings ------------------------------------------------------------------------------------------


@given(READINGS, st.sampled_from(sorted(KINDS)))
def test_every_truss_lands_on_one_height(rows: dict[str, str], kind: str) -> None:
    """From the seat up: packing, what is left of the column up to its notch or centre ply, seat block."""
    building = build(KINDS[kind], rows)
    part = building.job.column
    for name, seat in seats(building).items():
        stands = column(building, name).fit
        up_to = (part.notch or part.centre_ply or 0) - stands.cut_off
        assert seat + stands.packing + up_to + stands.seat_block == pytest.approx(144)
        assert min(stands.packing, stands.cut_off, stands.seat_block) >= 0
        assert stands.packing == 0 or stands.cut_off == 0


@given(READINGS, st.sampled_from(sorted(KINDS)))
def test_every_mark_lands_on_its_station(rows: dict[str, str], kind: str) -> None:
    """A mark so far up from the bottom end, which stands on its packing on its seat."""
    building = build(KINDS[kind], rows)
    for found in building.columns:
        end = -building.grade.offsets[found.name] + found.fit.packing
        assert end == pytest.approx(-found.offset)
        for m in marks_of(building, found):
            assert end + m.up == pytest.approx(m.mark.station)


@given(READINGS)
def test_columns_that_are_not_cut_are_marked_alike(rows: dict[str, str]) -> None:
    building = build(NEITHER, rows)
    offsets = [c.offset for c in building.columns if c.role != "end"]
    assert offsets == pytest.approx([1.0] * len(offsets))  # notch 145 less bearing 144
    assert {c.length for c in building.columns if c.role != "end"} <= {159.0}


@given(READINGS, st.sampled_from(["bottom", "neither", "block"]))
def test_made_columns_are_ordered_as_they_are_delivered(rows: dict[str, str], kind: str) -> None:
    building = build(KINDS[kind], rows)
    whole = {"bottom": 164.0, "neither": 159.0, "block": 160.0}[kind]
    made = [c for c in building.columns if c.fit.made]
    assert {c.role for c in building.columns if not c.fit.made} <= {"end"}
    for found in made:
        assert found.stock == pytest.approx(whole)
        assert found.length == pytest.approx(whole - found.fit.cut_off)
        assert found.drop == pytest.approx(found.fit.cut_off)
    assert sum(n for _, n in building.column_order) == len([c for c in building.columns if c.stock is not None])
    assert building.grade.proposed is not None
    assert {building.grade.proposed.stocks[c.name] for c in made} <= {whole}


@given(READINGS, st.sampled_from(sorted(KINDS)))
def test_the_line_chosen_leaves_no_made_column_without_a_tag(rows: dict[str, str], kind: str) -> None:
    building = build(KINDS[kind], rows)
    assert {c.name for c in building.columns} == set(building.grade.offsets)
    assert {p.kind for p in building.piers} <= set()


# --- rods -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "where"),
    [("bottom", "made notch, not cut"), ("neither", "made notch, not cut"), ("block", "top of the seat block")],
)
def test_rods_of_made_tops_carry_the_bearing_only(kind: str, where: str) -> None:
    building = build(KINDS[kind], {"A1": "45"})
    side = next(r for r in building.rods if not r.gable)
    assert [(m.name, m.where, m.station) for m in side.marks if m.kind == "cut"] == [("BEARING", where, 144)]
    own = [m.mark.name for m in marks_of(building, building.columns[0]) if m.mark.kind == "cut"]
    assert own == ["BEARING"]


def test_rods_of_tops_that_are_cut_carry_all_cuts() -> None:
    building = build(SITE, {"A1": "45"})
    side = next(r for r in building.rods if not r.gable)
    assert [m.name for m in side.marks if m.kind == "cut"] == ["BEARING", "SHORT POINT", "LONG POINT"]


def test_boards_of_the_rod_do_not_hang_on_how_columns_are_cut() -> None:
    plain = next(r for r in build().rods if not r.gable)
    for changes in KINDS.values():
        made = next(r for r in build(changes).rods if not r.gable)
        assert [m for m in made.marks if m.kind != "cut"] == [m for m in plain.marks if m.kind != "cut"]


# --- words ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({}, ("the others are told against this one", 'COLUMN 3/8" LONGER')),
        (BOTTOM, ("the others are told against this one", 'COLUMN 3/8" LONGER')),  # less is cut off
        (NEITHER, ("ON THE BARE SEAT", 'PACKED UP 3/8"')),
        ({**NEITHER, "column.notch": "12'"}, ('PACKED UP 1"', 'PACKED UP 1 3/8"')),
        (BLOCK, ('SEAT BLOCK 11"', 'SEAT BLOCK 11 3/8"')),
        (SITE, ("the others are told against this one", 'COLUMN 3/8" LONGER')),
        ({**BOTTOM, "column.notch": "12'"}, ('PACKED UP 1"', 'PACKED UP 1 3/8"')),  # too short to be cut
    ],
)
def test_what_takes_the_offset_is_told_in_words(changes: dict[str, Any], says: tuple[str, str]) -> None:
    building = build({**changes, "grade.line": "44"}, {"A1": "45", "A2": "45 3/8"})
    assert [c.seat for c in building.columns] == ["REFERENCE SEAT", 'SEAT LOW 3/8" against A1']
    assert tuple(c.longer for c in building.columns) == says


def test_a_column_cut_beside_a_reference_on_packing() -> None:
    """164 long, notch 150, bearing 144 + offset. A1, 6 1/4, stands on 1/4 of packing, 164 long; A2, 5 7/8, is cut
    1/8 shorter than that, though its seat is 3/8 higher; of A3, 5.99, only a hair comes off. C1 is cut at the top and
    would be 3/8 longer on the seat of A1 itself."""
    rows = {"A1": "50 1/4", "A2": "49 7/8", "A3": "49.99", "C1": "49 7/8"}
    building = build({**BOTTOM, "grade.line": "44"}, rows)
    told = {c.name: (round(c.length, 2), c.seat, c.longer) for c in building.columns if c.name != "C1"}
    assert told == {
        "A1": (164, "REFERENCE SEAT", 'PACKED UP 1/4"'),
        "A2": (163.88, 'SEAT HIGH 3/8" against A1', 'COLUMN 1/8" SHORTER'),
        "A3": (163.99, 'SEAT HIGH 1/4" against A1', "column as on that seat"),
    }
    assert column(building, "C1").longer == 'COLUMN 3/8" SHORTER'


@pytest.mark.parametrize("offset", [0.0, 3.0])
def test_ears_too_high_for_the_roof_are_told(offset: float) -> None:
    """Roof plane at the outer face: 144 + 9 1/4 + 5.7975 = 159.05. Ears of 16 over the notch end at 160; those of a
    seat block column 162 long at 162 less the offset."""
    notch = build({**BOTTOM, "column.ears": 16, "grade.line": "44"}, {"A1": 44 + offset})
    assert any(w.startswith('The made ears come 1" too high at the outer face') for w in notch.warnings)
    block = build({**BLOCK, "column.ears": 28, "grade.line": "44"}, {"A1": 44 + offset})
    # 162 - 159.0475 = 2.9525: 2 15/16 and a hair; gone at 3
    told = [w for w in block.warnings if w.startswith("The made ears")]
    assert [w.startswith('The made ears come 3" too high') for w in told] == ([True] if offset == 0 else [])


def test_fresh_cuts_of_treated_columns_are_told_of() -> None:
    says = "Bottom ends of treated columns are cut off: treat every fresh cut again before it is set up."
    assert says in build(BOTTOM, {"A1": "45"}).warnings
    assert says not in build({**BOTTOM, "column.treated": "none"}, {"A1": "45"}).warnings
    assert says not in build({**BOTTOM, "column.notch": "12'-1"}, {"A1": "45"}).warnings  # nothing comes off
    assert says not in build(NEITHER, {"A1": "45"}).warnings
