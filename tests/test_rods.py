"""Rods: the marks that all columns of a kind share."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from jobs import build, buildings
from opened import DOOR, WINDOW, opened, read
from told import speech

from layouts.building import Building, marks_of
from layouts.lengths import Style, show
from layouts.rods import Mark, Rod, crowded, ended

TRADE: dict[str, Any] = {
    "truss.bearing": "12'",
    "truss.heel": "3 15/16",
    "truss.heights_from": "floor",
    "grade.floor": "3 1/2",
    "roof.purlin": "2x4",
    "wainscot.nailer": "2x6",
    "wainscot.height": "3'",
}


def rods(changes: dict[str, Any] | None = None) -> dict[str, Rod]:
    return {r.name: r for r in build({**TRADE, **(changes or {})}).rods}


def read_off(rod: Rod) -> list[str]:
    return [f"{m.name} {show(m.station, Style())} {m.edge}" for m in rod.marks]


def test_a_sidewall_rod_from_the_grade_line_up() -> None:
    """Nailer 36 + 3 1/2 = 39 1/2; to the top girt at 144 are 104 1/2 in five steps of 20.9; bearing 147 1/2; roof plane
    147 1/2 + 3 15/16 + 3.6893 = 155.1268, at the inside face 5 1/2 / 3 = 1.8333 more."""
    assert read_off(rods()["Sidewall rod"]) == [
        'Grade board 0" bottom',
        'Finished floor 3 1/2" line',
        "Wainscot nailer 3'-3 1/2\" bottom",
        "Girt 1 5'-0 3/8\" bottom",  # 60.4
        "Girt 2 6'-9 5/16\" bottom",  # 81.3
        "Girt 3 8'-6 3/16\" bottom",  # 102.2
        "Girt 4 10'-3 1/8\" bottom",  # 123.1
        "Top girt 12'-0\" bottom",
        "BEARING 12'-3 1/2\" line",
        "SHORT POINT 12'-11 1/8\" line",
        "LONG POINT 13'-0 15/16\" line",  # 156.9601
    ]


def test_an_endwall_rod_goes_up_the_gable_and_has_no_cuts() -> None:
    found = rods()["Endwall rod"]
    assert found.gable
    assert not any(m.kind == "cut" for m in found.marks)
    assert [m.name for m in found.marks][-1] == "Girt 8"
    # chord at the ridge 147 1/2 + 3.9375 + 190 1/2 / 3 = 214.9375; girts from 144 on by 20.9: 164.9, 185.8, 206.7
    assert [round(m.station, 4) for m in found.marks[-4:]] == [144, 164.9, 185.8, 206.7]
    # the next, 227.6, is over the peak


def test_rods_name_their_walls() -> None:
    assert {name: rod.walls for name, rod in rods().items()} == {
        "Sidewall rod": ("A", "G"),
        "Endwall rod": ("1", "7"),
        "Roof rod": (),
    }


def test_a_mark_carries_the_real_footprint_of_its_board() -> None:
    marks = {m.name: m for m in rods()["Sidewall rod"].marks}
    board = marks["Wainscot nailer"]
    assert (board.low, board.high, board.board, board.treated) == (39.5, 45, "2x6", False)
    assert marks["Grade board"].treated
    assert marks["Grade board"].high == 7.25
    assert (marks["BEARING"].low, marks["BEARING"].high, marks["BEARING"].where) == (147.5, 147.5, "centre ply")


def test_tops_marked_all_the_way_but_for_the_grade_board() -> None:
    marks = {m.name: m for m in rods({"girts.edge": "top"})["Sidewall rod"].marks}
    assert {m.edge for m in marks.values() if m.kind == "board"} == {"top", "bottom"}
    assert marks["Grade board"].station == 0
    assert marks["Top girt"].station == marks["Top girt"].high == 147.5
    assert marks["Wainscot nailer"].station == 45


def test_no_floor_no_mark() -> None:
    assert "Finished floor" not in [m.name for m in rods({"grade.floor": 0})["Sidewall rod"].marks]


def test_marks_less_than_an_inch_apart_are_told() -> None:
    near = build({**TRADE, "grade.floor": "0", "grade.board": "2x6", "roof.purlins": "flush", "truss.pitch": "1/12"})
    side = next(r for r in near.rods if not r.gable)
    # 5 1/2 deep at 1/12: long point 0.4583 over short point
    assert [(a.name, b.name) for a, b in crowded(side)] == [("SHORT POINT", "LONG POINT")]
    assert any("less than an inch" in w for w in near.warnings)


def test_an_inch_apart_is_not_crowded() -> None:
    def mark(at: float) -> Mark:
        return Mark(str(at), "line", at, at, at, "line")

    rod = Rod("r", (), False, (mark(0), mark(1), mark(1.9)), 3)
    assert [(a.station, b.station) for a, b in crowded(rod)] == [(1, 1.9)]


def only(building: Building, gable: bool) -> dict[str, tuple[float, tuple[str, ...]]]:
    rod = next(r for r in building.rods if r.gable == gable)
    return {m.name: (m.station, m.only) for m in rod.marks if m.only}


def test_a_header_is_a_mark_for_the_columns_it_is_nailed_to() -> None:
    """Rough opening up to 3 1/2 + 82 = 85 1/2."""
    found = opened(DOOR)
    assert only(found, False) == {"Header D9": (85.5, ("A6", "A5"))}
    assert only(found, True) == {}
    mark = next(m for r in found.rods for m in r.marks if m.only)
    assert (mark.low, mark.high, mark.board, mark.edge, mark.kind) == (85.5, 91, "2x6", "bottom", "board")


def test_headers_and_sills_are_marked_at_the_edge_that_the_job_marks() -> None:
    assert only(opened(WINDOW), False) == {"Header W9": (82, ("A6", "A5")), "Sill W9": (40, ("A6", "A5"))}
    tops = opened(WINDOW, girts__edge="top")
    assert only(tops, False) == {"Header W9": (87.5, ("A6", "A5")), "Sill W9": (45.5, ("A6", "A5"))}


def test_like_boards_at_one_height_are_one_mark() -> None:
    windows = [{**WINDOW, "name": f"W{bay}", "wall": wall, "bay": bay} for wall, bay in (("A", 2), ("A", 3), ("G", 5))]
    found = only(opened(*windows, {**WINDOW, "name": "W9", "wall": "G", "bay": 2, "header": "2x8"}), False)
    assert found == {
        "Header W2, W3, W5": (82, ("A6", "A5", "A4", "G5", "G6")),
        "Header W9": (82, ("G2", "G3")),  # another board
        "Sill W2, W3, W5 and 1 more": (40, ("A6", "A5", "A4", "G5", "G6", "G2", "G3")),
    }


def test_a_header_of_an_endwall_is_on_the_corner_column_s_rod_too() -> None:
    """Corner columns are marked with the rod of their sidewall."""
    found = opened({**DOOR, "wall": "1", "bay": 1}, {**DOOR, "name": "W8", "wall": "1", "bay": 2})
    assert only(found, True) == {"Header D9, W8": (85.5, ("A1", "C1", "E1"))}
    assert only(found, False) == {"Header D9": (85.5, ("A1",))}


def test_a_header_of_a_sidewall_is_on_its_own_rod_alone() -> None:
    found = opened({**DOOR, "bay": 6})
    assert only(found, False) == {"Header D9": (85.5, ("A2", "A1"))}
    assert only(found, True) == {}


def test_marks_of_a_column_hold_its_own_headers_and_no_others() -> None:
    found = read(DOOR, {**WINDOW, "wall": "1", "bay": 1})
    names = {c.name: {m.mark.name for m in marks_of(found, c) if m.mark.only} for c in found.columns}
    assert {name: marks for name, marks in names.items() if marks} == {
        "A6": {"Header D9"},
        "A5": {"Header D9"},
        "A1": {"Header W9", "Sill W9"},
        "C1": {"Header W9", "Sill W9"},
    }
    # offset 2
    column = next(c for c in found.columns if c.name == "C1")
    assert {m.mark.name: m.up for m in marks_of(found, column) if m.mark.only} == {"Header W9": 84, "Sill W9": 42}


def test_marks_near_one_another_on_other_columns_are_not_crowded() -> None:
    """Headers at 85 1/2 and 86, of walls A and G; and of one wall's bays with a column between them."""
    other = {**DOOR, "name": "D8", "higher": "2 1/2"}

    def near(*parts: dict[str, Any]) -> list[tuple[str, str]]:
        side = next(r for r in opened(*parts).rods if not r.gable)
        return [(a.name, b.name) for a, b in crowded(side)]

    assert near(DOOR, {**other, "wall": "G"}) == []
    assert near(DOOR, {**other, "bay": 3}) == [("Header D9", "Header D8")]  # both on A5


def test_close_marks_are_warned_of_by_the_openings_own_names() -> None:
    """Header at 3 1/2 + 89 + 2 = 94 1/2, girt 4 at 94.9167; headers at 85 1/2 and 86; a sill of 5 1/2 with its
    top at 3 1/2 + 74, so its bottom at 72, girt 3 at 72 1/8."""
    for part, want in (
        ({**DOOR, "height": "7'-5"}, "header D9 7'-10 1/2\" and girt 4 7'-10 15/16\""),
        ({**WINDOW, "name": "wB", "sill": "6'-2"}, "sill wB 6'-0\" and girt 3 6'-0 1/8\""),
    ):
        told = f"Sidewall rod: {want} stand less than an inch apart: do not take one for the other."
        assert told in opened(part).warnings
        assert speech("spanish", frozenset({part["name"]})).lacking(told) == []
    other = {**DOOR, "name": "D8", "higher": "2 1/2", "bay": 3}
    both = "header D9 7'-1 1/2\" and header D8 7'-2\" stand less than an inch apart"
    assert any(both in w for w in opened(DOOR, other).warnings)


@given(buildings())
def test_marks_go_up_and_end_before_the_rod_does(building: Building) -> None:
    for rod in building.rods:
        at = [m.station for m in rod.marks]
        assert at == sorted(at)
        boards = [m.station for m in rod.marks if m.kind == "board"]
        assert all(a < b for a, b in pairwise(boards))
        # rods of walls begin at the grade line; up the roof the first purlin clears the fascia or the girts
        assert at[0] == 0 if rod.walls else at[0] >= 0
        assert rod.length > max(m.high for m in rod.marks)
        tick = 10 / 25.4 if building.job.style.unit == "mm" else 1.0
        assert rod.length / tick == pytest.approx(round(rod.length / tick), abs=1e-9)
        assert len({m.name for m in rod.marks}) == len(rod.marks)


@given(buildings())
def test_every_wall_has_one_rod_with_its_rows(building: Building) -> None:
    assert sorted(w for rod in building.rods for w in rod.walls) == sorted(w.name for w in building.walls)
    for rod in (r for r in building.rods if r.walls):  # that of the roof is of no wall
        rows = building.rows.end if rod.gable else building.rows.side
        assert {m.name: (m.low, m.high) for m in rod.marks if m.kind == "board"} == {
            r.name: (r.low, r.high) for r in rows
        }


@given(buildings())
def test_a_columns_cuts_are_its_offset_over_the_rod(building: Building) -> None:
    """One rod serves all sidewall columns: set on the grade line, its cuts are theirs."""
    side = next(r for r in building.rods if not r.gable)
    cuts = {m.name: m.station for m in side.marks if m.kind == "cut"}
    for column in building.columns:
        if column.role != "end":
            assert {c.name: column.up(c.station) - column.offset for c in column.cuts} == pytest.approx(cuts, abs=1e-6)


@pytest.mark.parametrize(
    ("high", "style", "end"),
    [
        # the long point of a sidewall column at 200.80: 204.80 is on no number of a tape, 205 is
        (200.80, Style(), 205.0),
        (201.0, Style(), 205.0),
        (201.0 + 1 / 16, Style(), 206.0),
        # 5100 mm + 4 in = 5201.6 mm: 5210
        (5100 / 25.4, Style("mm"), 5210 / 25.4),
    ],
)
def test_a_rod_ends_on_a_number_of_the_tape(high: float, style: Style, end: float) -> None:
    mark = Mark("LONG POINT", "cut", high, high, high, "line", where="inside face")
    assert ended((mark,), style) == pytest.approx(end)
