"""What other lines cost, as the grade sheet tells it."""

from __future__ import annotations

import re

import boxes
from graded import NAMES, booked, rows, shapes, words
from jobs import build

from layouts.building import Building
from sheets.grade_choice import runs

# sidewall columns: bearing 144 + heel 9 1/4 + purlin 5 1/2·sqrt(1 + 1/9) = 5.7975 + 5 1/2·4/12 = 1.8333 up to the long
# point: 160.8808; with an offset of 1 and 1/2 in for trimming 162.3808, with one of 1 1/2 162.8808
LONG = {"column.stock": ["162 5/8 in", "14'", "20'"]}


def choices(building: Building) -> list[list[str]]:
    """The table of lines weighed, each row with its cells drawn together."""
    found: list[list[str]] = []
    for page in shapes(building):
        texts = list(boxes.written(page))
        heads = [
            t for t in texts if t.words in ("line reading", "offsets", "piers out", "column stock", "longer stock")
        ]
        heads += [t for t in texts if heads and t.words in ("floor", "board") and t.line == heads[0].line]
        if not heads:
            continue
        lefts = sorted(t.box.x0 for t in heads)
        end = min((t.line for t in texts if t.words.startswith("FROM THE SEAT")), default=0.0)
        body = [t for t in texts if end < t.line < heads[0].line - 0.05 and "footer" not in t.groups]
        for line in sorted({t.line for t in body}, reverse=True):
            cells = [" ".join(t.words for t in body if t.line == line and abs(t.box.x0 - x) < 0.02) for x in lefts]
            if re.match(r"(→ )?-?[\d']", cells[0]):
                found.append(cells)
            elif found:
                found[-1] = [f"{a} {b}".strip() for a, b in zip(found[-1], cells, strict=True)]
    return found


def test_every_line_with_its_cost() -> None:
    building = build(LONG, {"A1": "44", "A2": "44 1/8", "A3": "44 3/4"})
    table = {cells[0]: cells[1:] for cells in choices(building)}
    # least 1 in at A1, on halves: 43; A2 has 1 1/8, A3 1 3/4 and needs 163.13
    assert table['→ 43" TAKEN AND PROPOSED'] == ['1" to 1 3/4"', "none", "2×13'-6 5/8\", 1×14'-0\"", "none"]
    # half an inch higher: A1 needs 162.88, A2 163.01
    assert table['42 1/2"'] == ['1 1/2" to 2 1/4"', "none", "3×14'-0\"", "A1, A2"]
    # lower: A1 has 1/2 of 1 in, A2 5/8; A3 has 1 1/4 and needs 162.63, 5 thousandths more than there is
    assert table['43 1/2"'] == ['1/2" to 1 1/4"', "too high: A1, A2", "2×13'-6 5/8\", 1×14'-0\"", "none"]
    assert table['44"'] == ['0" to 3/4"', "too high: A1 to A3", "3×13'-6 5/8\"", "none"]
    assert table['44 1/2"'][1] == "above the line: A1, A2; too high: A3"
    assert sum("TAKEN" in first for first in table) == 1


def test_the_line_that_is_given_and_the_one_proposed_are_marked() -> None:
    building = build({"grade.line": "42"}, {"A1": "44", "A2": "44 1/4"})
    firsts = [cells[0] for cells in choices(building)]
    assert '→ 42" TAKEN' in firsts
    assert '→ 43" PROPOSED' in firsts


def test_a_line_that_is_given_counts_its_piers_alike_in_heading_warnings_and_table() -> None:
    """Line 44: A2, 3/8 under it, and A3, 7/8, are nearer than the inch wanted; A1 is not."""
    building = build({"grade.line": "44"}, {"A1": "45 1/8", "A2": "44 3/8", "A3": "44 7/8"})
    assert building.grade.why.startswith('Line reading 44" as given; 2 piers out of tolerance. Proposed is 43": ')
    assert [(p.name, p.kind) for p in building.piers] == [("A2", "high"), ("A3", "high")]
    (told,) = [w for w in building.warnings if "up to the grade line" in w]
    assert told.startswith('A2: only 3/8" from its seat up to the grade line, 1" wanted.')
    assert told.endswith(" A3: the same, by as much or less.")
    taken = next(cells for cells in choices(building) if "TAKEN" in cells[0])
    assert taken[:3] == ['→ 44" TAKEN', '3/8" to 1 1/8"', "too high: A2, A3"]
    said = words(building)
    assert "BEFORE ANY COLUMN IS CUT" in said
    assert "NOTHING TO SHOOT AGAIN, NO PIER OUT OF TOLERANCE" not in said


def test_untreated_ends_are_counted_by_themselves() -> None:
    """Ten seats 2 under the line where 1 1/2 is the most; all 19 untreated ends stand under the floor."""
    given = dict.fromkeys(NAMES[:10], "46") | dict.fromkeys(NAMES[10:], "45")
    building = build({"grade.line": "44", "grade.most": "1 1/2", "column.treated": "none"}, given)
    assert "as given; 10 piers out of tolerance." in building.grade.why
    said = " ".join(words(building))
    assert "PIERS OUT OF TOLERANCE (10): " in said
    assert "UNTREATED ENDS TOO NEAR THE FLOOR (19): " in said


def test_no_stock_long_enough_is_counted() -> None:
    building = build({"column.stock": ["10'"]}, {"A1": "44", "A2": "44 1/4"})
    assert all(cells[3] == "2 with none long enough" for cells in choices(building))
    assert all("no stock long enough: A1, A2" in cells[2] for cells in choices(building))


def test_the_floor_wanted_and_how_much_board_shows() -> None:
    # the floor is wanted 1 in over BM1, which reads 40: 39 on the rod, and 3 1/2 over the line: on 42 1/2 it is there;
    # on 43 it comes 1/2 lower, and the 7 1/4 board reaches 4 in below the floor wanted, 3 1/4 above it
    text = "benchmark,BM1,stake\ncolumn,reading\nBM1,40\nA1,44\nA2,44 1/2\nBM1,40\n"
    building = booked(text, {"grade.benchmark": "BM1", "grade.floor_at": "1", "grade.cover": "3 3/4"})
    assert 'On the finished floor wanted, from BM1, the rod would read 39".' in words(building)
    table = {cells[0].removeprefix("→ ").partition('"')[0]: cells[-2:] for cells in choices(building)}
    assert table["42 1/2"] == ["as wanted", '3 1/2" below the floor wanted, 3 3/4" above it: TOO LITTLE BELOW']
    assert table["43"] == ['1/2" LOWER', '4" below the floor wanted, 3 1/4" above it']
    assert table["42"][0] == '1/2" HIGHER'


def test_the_board_where_the_floor_follows_the_line() -> None:
    said = " ".join(words(build({}, rows())))
    assert 'of the 7 1/4" of grade board 3 1/2" are below the floor, 3 3/4" above it' in said
    said = " ".join(words(build({"grade.floor": "8"}, rows())))
    assert 'the grade board, 7 1/4", ends 3/4" below the floor' in said


def test_names_that_follow_one_another_are_drawn_together() -> None:
    order = ("A1", "A2", "A3", "A4", "B4", "C4")
    assert runs(["A2", "A1", "A3", "C4"], order) == "A1 to A3, C4"
    assert runs(["A1", "A2"], order) == "A1, A2"
    assert runs([], order) == "none"
