"""The gallery's shop, whose brackets are up to two inches out: its numbers, worked by hand, with every step shown.

36 ft by 56 ft to the outside of 2x6 girts, 1 1/2 in thick; columns 4 1/2 by 7 1/4; bearing 12'-2 = 146; heel 15 1/2 at
the girts' face; 5/12; purlins 2x6 on edge; line reading 50; finished floor 4 in above the grade line.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from layouts.building import Building, marks_of
from layouts.columns import Column
from layouts.lengths import show
from layouts.rods import Mark
from layouts.walls import Piece, Wall
from sheets.load import load

JOB = Path(__file__).parents[1] / "gallery" / "cooper" / "job.toml"


@cache
def shop() -> Building:
    return load(JOB)


def text(value: float) -> str:
    return show(value, shop().job.style)


def column(name: str) -> Column:
    return next(c for c in shop().columns if c.name == name)


def wall(name: str) -> Wall:
    return next(w for w in shop().walls if w.name == name)


def mark(rod: str, name: str) -> Mark:
    return next(m for r in shop().rods if r.name == rod for m in r.marks if m.name == name)


def pieces(of: str, row: str) -> list[Piece]:
    return [p for c in wall(of).all_courses if c.row.name == row for p in c.pieces]


@pytest.mark.parametrize(
    ("name", "offset"),
    # reading less 50; C1 is the highest seat: 51 1/8 - 50 = 1 1/8, the first half inch that leaves it 1 in
    [("C1", '1 1/8"'), ("A1", '1 1/4"'), ("A4", '2 13/16"'), ("G5", '3 1/8"')],
)
def test_offsets(name: str, offset: str) -> None:
    assert text(column(name).offset) == offset


def test_cuts_of_a_sidewall_column() -> None:
    """Roof plane at the girts: 146 + 15 1/2 + 5 1/2 · 13/12 (5-12-13 triangle) = 167.458; the column's outside is
    1 1/2 in: 5/8 higher; 1/4 clear: 167.833; its inside 7 1/4 · 5/12 = 3.021 higher: 170.854. A4 adds 2 13/16."""
    found = {c.key: text(column("A4").up(c.station)) for c in column("A4").cuts}
    assert found == {
        "bearing": "12'-4 13/16\"",  # 148.8125
        "short_point": "14'-2 5/8\"",  # 170.6458
        "long_point": "14'-5 11/16\"",  # 173.6667
    }


def test_rows_of_the_sidewalls() -> None:
    """Level soffit: 146 + 15 1/2 + 5.958 - 18 · 5/12 - 5 1/2 = 154.458, the nailer's top; its bottom 150.958. From the
    wainscot nailer at 36 that is 114.958, five steps of 22.992."""
    found = {m.name: text(m.station) for r in shop().rods if r.name == "Sidewall rod" for m in r.marks}
    assert {k: v for k, v in found.items() if "Girt" in k or "ailer" in k} == {
        "Wainscot nailer": "3'-0\"",
        "Girt 1": "4'-11\"",  # 58.992
        "Girt 2": "6'-10\"",  # 81.983
        "Girt 3": "8'-9\"",  # 104.975
        "Girt 4": "10'-7 15/16\"",  # 127.967
        "Soffit nailer": "12'-6 15/16\"",
    }


@pytest.mark.parametrize(
    ("rod", "name", "station", "only"),
    [
        ("Endwall rod", "Header OH", 4 + 108 + 1.5, {"C1", "E1"}),  # 9 ft and an inch and a half
        ("Sidewall rod", "Header SD", 4 + 96, {"A3", "A4"}),  # a sliding door has no allowance
        ("Sidewall rod", "Header WD", 4 + 80 + 2, {"G1", "G2"}),
        ("Sidewall rod", "Header W8, W9", 4 + 48 + 36 + 0.5, {"G4", "G5", "G6"}),
        ("Sidewall rod", "Sill W8, W9", 4 + 48 - 5.5, {"G4", "G5", "G6"}),  # the sill board lies under the opening
        ("Endwall rod", "Sill W10", 4 + 54 - 5.5, {"D7", "F7"}),
    ],
)
def test_marks_of_openings(rod: str, name: str, station: float, only: set[str]) -> None:
    found = mark(rod, name)
    assert found.station == station
    assert set(found.only) == only


def test_a_header_stands_on_the_tags_of_its_two_columns() -> None:
    """100 + 2 13/16 on A4, 100 + 2 1/2 on A3."""
    found = {c.name: text(m.up) for c in shop().columns for m in marks_of(shop(), c) if m.mark.name == "Header SD"}
    assert found == {"A4": "8'-6 13/16\"", "A3": "8'-6 1/2\""}


def test_where_the_sliding_door_stands() -> None:
    """Fourth bay from the left, as seen from outside, where A7 is left: A4 and A3 stand 336 and 450 from the building
    line there, 1 1/2 less from the column's outside: 334 1/2 and 448 1/2, the middle 391 1/2, 42 to either side."""
    (door,) = (o for o in wall("A").openings if o.name == "SD")
    assert (door.left, door.right) == (349.5, 433.5)
    assert (door.low, door.high) == (4, 100)
    # one leaf of 84 + 2 · 2 goes its own length to the left: 2 · 88 = 176
    (track,) = pieces("A", "Track board SD")
    assert text(track.length) == "14'-8\""
    assert (track.low[0], track.low[1]) == (433.5 + 2 - 176, 433.5 + 2)


def test_jambs_and_cripples_reach_the_top_of_the_girt_above() -> None:
    """Girt 4: 127.967 + 5 1/2 = 133.467; the posts from the grade line, the cripple from the header's bottom at 100."""
    (door,) = (o for o in wall("A").openings if o.name == "SD")
    assert {text(u.high - u.low) for u in door.uprights} == {"11'-1 7/16\"", "2'-9 7/16\""}


def test_a_row_of_the_gable() -> None:
    """The chord over the girts' face: 146 + 15 1/2 + u · 5/12; the rake nailer takes 5 1/2 · 13/12 of it, plumb:
    155.542. Girt 8 at 36 + 8 · 22.992 = 219.933: u = 64.392 · 12/5 = 154.54; 432 - 2 u = 122.92. 5 1/2 up, 13.2 on."""
    (girt,) = pieces("7", "Girt 8")
    assert text(girt.length) == "10'-2 15/16\""
    assert [text(back) for back in girt.backs] == ['13 3/16"', '13 3/16"']


def test_grade_boards_stop_at_the_sliding_door() -> None:
    """The endwalls' boards run past, so these end at the corner columns, 672 - 2 · 1 1/2 = 669; less the door's 84."""
    lengths = [p.length for p in pieces("A", "Grade board")]
    assert sum(lengths) == pytest.approx(669 - 84)


def test_what_the_dear_lengths_cost() -> None:
    """2x6 are bought at their prices: sticks times price, from the job file."""
    (order,) = (o for o in shop().orders if o.section == "2x6" and not o.treated)
    price = {120: 8.90, 144: 10.40, 168: 12.60, 192: 14.10, 216: 17.20, 240: 19.50}
    assert order.plan.proved
    assert sum(price[round(length)] * count for length, count in order.sticks) == pytest.approx(order.plan.cost)
    # no dearer than each piece out of the cheapest stick that holds it
    lines = [line for line in shop().pieces if line.section == "2x6" and not line.treated]
    single = sum(line.count * min(price[s] for s in price if s >= line.length) for line in lines)
    assert order.plan.cost < single
