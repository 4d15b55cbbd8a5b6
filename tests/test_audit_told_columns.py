"""The table of columns and mark tables against the layout: which rows are of them, and every figure."""

from __future__ import annotations

from collections import Counter

import pytest
from pages_seen import small, word

from layouts.building import ColumnMark, marks_of
from layouts.lengths import Style, show
from sheets import audit_numbers
from sheets.audit_model import Word
from sheets.marks import label_of

INCH = Style()
Yielded = list[tuple[str, str, str]]

# --- the table of columns and mark tables ----------------------------------------------------------------------------

COLUMNS = {c.name: c for c in small().columns}
A1, A2 = (COLUMNS[name] for name in ("A1", "A2"))


def row(*words: str, x: float = 1.0, y: float = 1.0) -> list[Word]:
    return [word(one, x + i, y) for i, one in enumerate(words)]


def columns(*words: str) -> Yielded:
    return list(audit_numbers._columns([row(*words)], COLUMNS, INCH))


def test_the_table_of_columns() -> None:
    off, long = show(A2.offset, INCH), show(A2.length, INCH)
    assert columns("A2", off, long, "14'-0\"") == []
    assert columns("A2", '1"', long, "x") == [("column A2, offset", off, '1"')]
    assert columns("A2", off, '1"', "x", "y") == [("column A2, length", long, '1"')]
    assert columns("A2", '2"', '1"', "x") == [("column A2, offset", off, '2"'), ("column A2, length", long, '1"')]
    for words in (("A2", '2"', '1"'), ("A2", "A1", '1"', "x"), ("Z2", '2"', '1"', "x"), ("x", "A2", '2"', '1"')):
        assert columns(*words) == []


MARKS = {c.name: [(m, show(m.up, INCH)) for m in marks_of(small(), c)] for c in (A1, A2)}
LOW = MARKS["A2"][0]
LABEL = label_of(LOW[0])


def marks(*rows: list[Word]) -> tuple[Yielded, dict[str, Counter[str]]]:
    heights: dict[str, Counter[str]] = {}
    return list(audit_numbers._marks(rows, MARKS, COLUMNS, heights)), heights


def test_a_mark_table() -> None:
    head = row("A1", "A2", x=2.0)
    one = MARKS["A1"][0][1]
    assert marks(head, row(LABEL, one, LOW[1])) == ([], {"A1": Counter([one]), "A2": Counter([LOW[1]])})
    wrong = [(f"mark table, {LABEL}, A2", LOW[1], '9"')]
    assert marks(head, row(LABEL, one, '9"')) == (wrong, {"A1": Counter([one]), "A2": Counter(['9"'])})
    assert marks(head, row(LABEL, one, "–")) == ([], {"A1": Counter([one])})
    assert marks(head, row(LABEL, "–", '9"')) == (wrong, {"A2": Counter(['9"'])})
    assert marks(head, row("Unknown", '1"', '2"')) == ([], {"A1": Counter(['1"']), "A2": Counter(['2"'])})
    # rows of other lengths, and rows before any names, are none of it
    assert marks(head, row(LABEL, one), row(LABEL, one, one, one)) == ([], {})
    assert marks(row(LABEL, one, '9"')) == ([], {})
    # and another line of names takes over
    assert marks(head, row("A2", x=2.0), row(LABEL, '9"')) == (wrong, {"A2": Counter(['9"'])})


@pytest.mark.parametrize(("x", "head"), [(1.5, False), (1.51, True)])
def test_names_begin_half_an_inch_behind_the_labels(x: float, head: bool) -> None:
    """A lone name at the left is the end of a label that was wrapped."""
    told, heights = marks(row("A2", x=x, y=3.0), row(LABEL, LOW[1]))
    assert (told, heights) == ([], {"A2": Counter([LOW[1]])} if head else {})


def test_labels_begin_with_the_name_of_their_mark() -> None:
    mark: ColumnMark = LOW[0]
    assert audit_numbers._labelled(LABEL, mark)
    assert audit_numbers._labelled(mark.mark.name, mark)
    assert not audit_numbers._labelled(f"The {LABEL}", mark)
    assert not audit_numbers._labelled(LABEL[:3], mark)
