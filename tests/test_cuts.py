"""Cut sheets: every piece of every wall with its count, what to buy, how the sticks are cut."""

from __future__ import annotations

import re
from collections import Counter

import boxes
import opened
import pytest
import stress
from jobs import build

from layouts.building import Building
from layouts.lengths import show
from sheets.cuts import ends, pages, runs, where_text
from sheets.paper import PAPERS

Row = tuple[str, ...]
SOLID = {"column.make": "solid", "column.width": "5 1/2", "tops.seat": "shoulder", "tops.endwall_centre": "ears"}
NUMBER = re.compile(r"#\d+")
STICK = re.compile(r"(\d+) of  (.+)  (.+)")


def rows(building: Building, head: str, paper: str = "letter") -> list[Row]:
    """The rows of the table under a heading, cells from left to right; a wrapped cell's first line."""
    found: list[Row] = []
    inside = False
    for body in pages(building, PAPERS[paper]):
        lines: dict[float, list[boxes.Written]] = {}
        for text in boxes.written(body.drawing.shapes):
            lines.setdefault(text.line, []).append(text)
        for _, line in sorted(lines.items(), reverse=True):
            words = tuple(t.words for t in sorted(line, key=lambda t: t.box.x0))
            if words[0].isupper() and len(words) == 1:
                inside = words[0] == head
            elif inside:
                found.append(words)
    return found


def pieces(building: Building) -> dict[str, tuple[str, str]]:
    """Number to (count, length) as the table under BOARDS TO CUT has it."""
    return {r[0]: (r[1], r[3]) for r in rows(building, "BOARDS TO CUT") if NUMBER.fullmatch(r[0])}


@pytest.mark.parametrize("name", stress.CASES)
def test_every_piece_of_every_wall_is_there(name: str) -> None:
    building = stress.building(name)
    counts: Counter[str] = Counter()
    lengths = {}
    for wall in building.walls:
        for course in wall.courses:
            for piece in course.pieces:
                counts[piece.mark] += 1
                lengths[piece.mark] = show(piece.length, building.job.style)
    assert pieces(building) == {mark: (str(n), lengths[mark]) for mark, n in counts.items()}


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, 'column 3 ply, 4 1/2" x 5 1/2", lower end treated'),
        ({"column.plies": 4, "column.width": "6"}, 'column 4 ply, 6" x 5 1/2", lower end treated'),
        ({"column.treated": "all"}, 'column 3 ply, 4 1/2" x 5 1/2", treated'),
        ({"column.treated": "none"}, 'column 3 ply, 4 1/2" x 5 1/2", not treated'),
        ({**SOLID, "column.treated": "all"}, 'column solid, 5 1/2" x 5 1/2", treated'),
    ],
)
def test_the_order_says_how_columns_are_made_and_treated(changes: dict[str, object], told: str) -> None:
    """A solid column, and what of it is treated: laminated ones with a treated end are another ware."""
    building = build({**changes, "lumber.column_spares": 1}, {"A1": "48", "A2": "49"})
    assert {row[1] for row in rows(building, "TO ORDER") if row[1:] and row[1].startswith("column")} == {told}


def test_packing_on_columns_that_are_jambs_is_not_in_the_order() -> None:
    """Bay 2 of wall A: columns 4 1/2 wide, 96 on centres, 91 1/2 clear. A rough opening of 87 in its middle leaves
    2 1/4 on either side, one of 91 1/2 nothing."""
    for width, told in (("7'", 'D9, left 2 1/4" and right 2 1/4"'), ("7'-4 1/2", "")):
        door = {**opened.OVERHEAD, "width": width, "jambs": "columns"}
        building = opened.read(door)
        words = " ".join(t.words for b in pages(building, PAPERS["letter"]) for t in boxes.written(b.drawing.shapes))
        assert (f"NOT IN THIS ORDER: packing on columns that are jambs: {told}." in words) == bool(told)
        assert "Trusses, purlins, lookouts, fascia and soffit boards are not in it." in words


@pytest.mark.parametrize("name", stress.CASES)
def test_sticks_cut_give_the_pieces_and_the_order(name: str) -> None:
    building = stress.building(name)
    made: Counter[str] = Counter()
    bought: Counter[tuple[str, str]] = Counter()
    for row in rows(building, "HOW TO CUT THE STICKS"):
        head = STICK.fullmatch(row[0])
        if head and row[1].startswith("drop "):
            bought[head[2], head[3]] += int(head[1])
    for order in building.orders:
        for stick in order.plan.sticks:
            made.update(mark for mark, _ in stick.cuts)
    assert made == Counter({mark: int(n) for mark, (n, _) in pieces(building).items()})
    ordered = {(r[1], r[2]): int(r[0]) for r in rows(building, "TO ORDER") if r[0].isdigit()}
    boards = {key: n for key, n in ordered.items() if not key[0].startswith("column")}
    assert boards == bought


@pytest.mark.parametrize("name", stress.CASES)
def test_columns_are_ordered_by_their_stock(name: str) -> None:
    building = stress.building(name)
    style = building.job.style
    ordered = {r[2]: int(r[0]) for r in rows(building, "TO ORDER") if r[0].isdigit() and r[1].startswith("column")}
    want = Counter(show(c.stock, style) for c in building.columns if c.stock is not None)
    assert ordered == want
    listed = [r for r in rows(building, "COLUMNS, LONGEST FIRST") if len(r) >= 3 and r[0] != "column"]
    assert sorted(r[0] for r in listed) == sorted(c.name for c in building.columns)
    told = {c.name: (show(c.offset, style), show(c.length, style)) for c in building.columns}
    assert {r[0]: (r[1], r[2]) for r in listed} == told


def test_what_is_not_in_the_order_is_said() -> None:
    words = [
        t.words for b in pages(stress.building("no stock"), PAPERS["letter"]) for t in boxes.written(b.drawing.shapes)
    ]
    told = " ".join(w for w in words)
    first, last = (stress.building("no stock").plan.spots[i].name for i in (0, -1))
    assert f"NOT IN THIS ORDER: columns {first}, " in told
    assert f"{last}: no tag, or too long for the stock." in told
    assert "none long enough" in words


def test_a_gable_girts_ends_need_no_protractor() -> None:
    # 4/12 on a 3 1/2 in board: back 3.5 x 12 / 4 = 10 1/2 in; a board sloped at both ends is 2 x 10 1/2 = 1'-9"
    # shorter at its short edge
    building = stress.building("plain")
    top = building.walls[1].courses[-1].pieces[0]
    line = next(p for p in building.pieces if p.mark == top.mark)
    short = show(top.length - 21, building.job.style)
    assert ends(line, building.job.style) == f'both ends 10 1/2" back on 3 1/2", short edge {short}'
    words = " ".join(t.words for b in pages(building, PAPERS["letter"]) for t in boxes.written(b.drawing.shapes))
    assert 'both ends 10 1/2" back on' in words
    assert short in words


def test_figures_are_large_and_at_the_right() -> None:
    body = pages(stress.building("plain"), PAPERS["letter"])[0]
    texts = list(boxes.written(body.drawing.shapes))
    drops = [t for t in texts if t.box.x1 == pytest.approx(8.0 - 0.05)]
    assert len(drops) > 5
    lengths = [t for t in texts if re.fullmatch(r"\d+'-\d.*", t.words)]
    assert all(t.size * 72 >= 14 - 1e-6 for t in lengths)
    by_column = Counter(round(t.box.x1, 3) for t in lengths)
    # lengths to order, to the highest point, from stock: three right edges, no more
    assert len(by_column) <= 3


@pytest.mark.parametrize(
    ("numbers", "text"), [([1], "1"), ([1, 2, 3], "1 to 3"), ([3, 1, 2, 5], "1 to 3, 5"), ([1, 3, 3], "1, 3")]
)
def test_runs(numbers: list[int], text: str) -> None:
    assert runs(numbers) == text


def test_where_is_gathered_by_wall_and_kind() -> None:
    where = ("A: Girt 1", "A: Girt 2", "A: Soffit nailer", "G: Girt 1", "G: Grade board", "A: Girt 4")
    assert where_text(where) == "A: girt 1 to 2, 4, soffit nailer; G: girt 1, grade board"


def test_metric_lengths_are_millimetres() -> None:
    building = stress.building("metric")
    assert all(length.endswith(" mm") for _, length in pieces(building).values())


def test_no_columns_no_column_order() -> None:
    building = build({})
    assert not [r for r in rows(building, "TO ORDER") if len(r) > 1 and r[1].startswith("column")]
