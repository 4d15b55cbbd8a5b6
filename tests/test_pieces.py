"""The cut list: every board of the diagrams, like ones under one number."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from jobs import TRADE, build, buildings, placed_fields

from layouts.building import Building
from layouts.pieces import pieces_of
from layouts.walls import Piece, Rake
from sheets.cuts import ends

PLACED = buildings(placed_fields())
FULL = {
    "girts.place": "both",
    "girts.rake": "2x6",
    "girts.blocking": "7'",
    "corners.board": "2x6",
    "corners.fillers": "between rows",
    "roof.soffit": "level",
    "roof.overhang": "12",
}


def test_boards_in_no_row_are_in_the_cut_list() -> None:
    lines = build({**TRADE, **FULL}).pieces
    counts = Counter(what.partition(": ")[2].rpartition(" ")[0] for line in lines for what in line.where)
    assert {"Corner board", "Filler", "Blocking", "Rake nailer"} <= set(counts)
    (boards,) = [line for line in lines if "A: Corner board A1" in line.where]
    assert (boards.section, boards.count, boards.length) == ("2x6", 4, 147.5)
    assert boards.where == ("A: Corner board A7", "A: Corner board A1", "E: Corner board E1", "E: Corner board E7")


def test_both_slopes_of_both_gables_take_the_same_rake_pieces() -> None:
    (line,) = [line for line in build({**TRADE, "girts.rake": "2x6"}).pieces if "1: Rake nailer 1" in line.where]
    assert line.count == 4
    assert line.backs == pytest.approx((5.5 / 3, 5.5 / 3), abs=1e-3)
    assert line.rises == (5.5, 5.5)


def test_an_end_that_loses_a_corner_is_told_over_what_it_loses() -> None:
    """Over the bearing, at the ends of girt 7 (19 7/8 to 23 3/8 up, 1 1/2 past the columns): the chord at the left end
    is 22 - 1/2 = 21 1/2 up, so 1 7/8 of it is cut off, 5 5/8 back; at the right end 20 - 1/2 = 19 1/2, so it is cut
    over its whole width, 10 1/2 back. Between them 432 - 1 1/8 at the bottom edge."""
    building = build({**TRADE, "truss.heel": "22", "truss.far_heel": "20", "lumber.stock": ["40'"]})
    (line,) = [line for line in building.pieces if "1: Girt 7" in line.where]
    assert line.backs == pytest.approx((5.625, 10.5), abs=1e-3)
    assert line.rises == pytest.approx((1.875, 3.5), abs=1e-3)
    assert line.length == pytest.approx(430.875)
    assert ends(line, building.job.style) == 'one end 5 5/8" back on 1 7/8"; other end 10 1/2" back on 3 1/2"'


def test_a_row_inside_and_one_outside_of_one_size_share_a_number() -> None:
    """Long enough rows: the pieces between two columns are alike, whichever side they are nailed to."""
    building = build({**TRADE, "girts.place": "both", "lumber.stock": ["16'"]})
    shared = [line for line in building.pieces if {"A: Girt 1", "A: Inside girt 1"} <= set(line.where)]
    assert [line.length for line in shared] == [192]


def test_the_straightest_boards_go_where_the_eye_goes() -> None:
    building = build({**TRADE, **FULL, "wainscot.nailer": "2x6"})
    told = {c.row.name for w in building.walls for c in w.all_courses if c.straightest}
    assert told == {"Grade board", "Soffit nailer"}
    plain = build(TRADE)
    assert {c.row.name for w in plain.walls for c in w.courses if c.straightest} == {"Grade board", "Top girt"}
    inside = build({**TRADE, "girts.place": "inside"})
    assert {c.row.name for w in inside.walls for c in w.all_courses if c.straightest} == {"Grade board"}


def test_the_cut_list_says_how_many_of_the_straightest_it_takes() -> None:
    building = build(TRADE)
    wanted = sum(len(c.pieces) for w in building.walls for c in w.courses if c.straightest)
    assert sum(line.straightest for line in building.pieces) == wanted
    # girts of a sidewall: one row of six, so pieces that go into the top row too are told in part
    assert any(0 < line.straightest < line.count for line in building.pieces)
    assert all(line.straightest == line.count for line in building.pieces if line.treated)


@given(PLACED)
def test_every_board_of_every_diagram_is_in_the_cut_list_and_the_other_way_round(building: Building) -> None:
    drawn = [(w, piece, what) for w in building.walls for piece, what in pieces_of(w)]
    in_walls = sum(
        len([p for c in (*w.courses, *w.levels, *w.inner) for p in c.pieces]) + len(w.uprights) + len(w.rakes)
        for w in building.walls
    )
    assert len(drawn) == in_walls
    assert Counter(p.mark for _, p, _ in drawn) == {line.mark: line.count for line in building.pieces}
    lines = {line.mark: line for line in building.pieces}
    for wall, piece, what in drawn:
        line = lines[piece.mark]
        section = piece.row.section if isinstance(piece, Piece) else piece.section
        assert line.section == section.name
        assert line.length == pytest.approx(piece.length, abs=2e-3)
        assert line.short == pytest.approx(piece.short, abs=2e-3)
        assert f"{wall.name}: {what}" in line.where
        if isinstance(piece, Piece):
            assert sorted(line.backs) == pytest.approx(sorted(piece.backs), abs=2e-3)
        if isinstance(piece, Rake):
            assert line.backs == pytest.approx((piece.back, piece.back), abs=2e-3)
    assert len(
        {(line.section, line.treated, line.length, line.short, line.backs, line.rises) for line in lines.values()}
    ) == len(lines)


@given(PLACED)
def test_no_board_is_longer_than_the_stock(building: Building) -> None:
    assert all(0 < line.length <= max(building.job.lumber.stock) + 1e-6 for line in building.pieces)
    assert all(0 <= line.short <= line.length + 1e-6 for line in building.pieces)
