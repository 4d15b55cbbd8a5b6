"""Printed tags, walls, cut sheets and mark tables with one thing changed: all that is told of it, in four fields."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import Told, drawn, group, plan, reworded, seen, sheets, small, text, told, without_runs

from layouts.building import marks_of
from layouts.lengths import Style, show
from sheets import audit_numbers
from sheets.audit_model import Seen

INCH = Style()


def at(page: Seen, words: str, after: int = 0) -> int:
    """The first run that reads so."""
    return next(i for i, one in enumerate(page.runs) if i >= after and one is not None and one.words == words)


# --- tags ------------------------------------------------------------------------------------------------------------


def tags(page: Seen) -> list[Told]:
    """What is told of the tags with another first page."""
    return told(audit_numbers.tags([page, *sheets("tags")[1:]], small(), "tags.pdf"))


TAGS = sheets("tags")[0]
A1, A2 = small().columns[:2]


def test_tags_that_are_right() -> None:
    assert tags(TAGS) == []
    assert A2.name == "A2"


def test_a_tag_that_is_missing_or_one_too_many() -> None:
    pages = sheets("tags")
    assert told(audit_numbers.tags(pages[:-1], small(), "tags.pdf")) == [("tags.pdf", "tags", "9 tags", "8")]
    assert told(audit_numbers.tags([*pages, pages[-1]], small(), "tags.pdf")) == [("tags.pdf", "tags", "9 tags", "10")]


def test_the_name_of_a_tag() -> None:
    assert tags(reworded(TAGS, "A2", "A3")) == [("p1", "tag A2, name", "A2", "nowhere")]


def test_high_or_low_and_longer_or_shorter() -> None:
    low = reworded(TAGS, "SEAT LOW", "SEAT HIGH")
    assert tags(low) == [("p1", "tag A2, words", repr(" ".join(A2.seat.split())), "nowhere")]
    longer = reworded(TAGS, '" LONGER', '" SHORTER')
    assert tags(longer) == [("p1", "tag A2, words", repr(" ".join(A2.longer.split())), "nowhere")]


def test_the_offset_of_a_tag() -> None:
    one = at(TAGS, "OFFSET: the grade line, up from the bottom end")
    assert tags(without_runs(TAGS, [one])) == [("p1", "tag A1, offset", "a caption", "nothing")]
    assert tags(reworded(TAGS, '1"', '7"')) == [("p1", "tag A1, offset", '1"', '7"')]
    below = "OFFSET: the grade line, BELOW THE bottom end"
    assert tags(reworded(TAGS, "OFFSET: the grade line, up from the bottom end", below)) == [
        ("p1", "tag A1, offset", "up from the bottom end", below)
    ]


def test_the_cuts_of_a_tag() -> None:
    place, want = "tag A1, cut BEARING centre ply", show(A1.up(A1.cuts[0].station), INCH)
    assert tags(reworded(TAGS, "12'–1\"", "12'–7\"")) == [("p1", place, want, "12'-7\"")]
    assert tags(reworded(TAGS, "BEARING", "BEARINGS")) == [("p1", place, f"{want} beside its name", "no such cut")]
    assert tags(reworded(TAGS, "centre ply", "outer ply")) == [("p1", place, f"{want} beside its name", "no such cut")]


def test_the_stock_of_a_tag() -> None:
    said = "STOCK 14'–0\" · drop 6"
    want = f"STOCK {show(A1.stock or 0.0, INCH)}"
    other = tags(reworded(TAGS, said, said.replace("14", "16")))
    assert other == [("p1", "tag A1, stock", want, 'STOCK 16\'-0" · drop 6 1/8"')]
    assert tags(reworded(TAGS, said, "ROD")) == [("p1", "tag A1, stock", want, "nothing")]


def test_a_tag_without_stock_says_nothing_of_it() -> None:
    bare = replace(small(), columns=(replace(A1, stock=None), *small().columns[1:]))
    spoilt = reworded(TAGS, "STOCK 14'–0\" · drop 6", "ROD")
    assert audit_numbers.tags([spoilt, *sheets("tags")[1:]], bare, "tags.pdf") == []


def test_a_header_that_a_tag_should_not_have() -> None:
    assert tags(reworded(TAGS, "TOP", "SILL W9")) == [("p1", "tag A1, marks", "none of this name", "SILL W9")]
    assert tags(reworded(TAGS, "TOP", "HEADER D9")) == [("p1", "tag A1, marks", "none of this name", "HEADER D9")]
    assert tags(reworded(TAGS, "TOP", "THE SILL W9")) == []


# --- walls -----------------------------------------------------------------------------------------------------------

WALL = small().walls[0]
PAGES = sheets("walls")[:2]
FIVE = "7'-10 1/2\""


def wall(*pages: Seen) -> list[Told]:
    return told(audit_numbers.wall(pages or PAGES, WALL, small()))


def test_a_wall_that_is_right() -> None:
    assert WALL.name == "A"
    assert wall() == []


def test_a_length_on_a_wall() -> None:
    assert wall(reworded(PAGES[0], "#5 7'–10", "#5 7'–1"), PAGES[1]) == [("p1", "piece #5", FIVE, "7'-1 1/2\"")]
    assert wall(reworded(PAGES[0], "#5 7'–10", "#77 7'–10"), PAGES[1]) == [("p1", "piece #77", "no piece", FIVE)]


def test_a_piece_that_the_wall_does_not_show() -> None:
    """Told of the first page of the wall."""
    page = PAGES[0]
    nines = [i for i, one in enumerate(page.runs) if one is not None and one.words.startswith("#9")]
    assert wall(without_runs(page, nines), PAGES[1]) == [("p1", "piece #9", f"{FIVE} on this wall", "nowhere")]


def test_the_offset_under_a_column_of_a_wall() -> None:
    assert wall(reworded(PAGES[0], "NO TAG", '1"'), PAGES[1]) == [("p1", "offset under A4", "NO TAG", '1"')]


def test_the_lift_of_a_wall() -> None:
    assert wall(reworded(PAGES[0], "OUTSIDE FACE UP", "INSIDE FACE UP"), PAGES[1]) == [
        ("p1", "lift", "OUTSIDE FACE UP", "nowhere"),
        ("p1", "face", "outside up", "INSIDE FACE UP"),
    ]
    hands = [reworded(page, "MACHINE LIFT", "HAND LIFT") for page in PAGES]
    assert wall(*hands) == [("p1", "lift", "MACHINE LIFT", "nowhere")]
    assert wall(hands[0], PAGES[1]) == [], "it is said on a page"


def test_a_fraction_that_ends_with_a_space() -> None:
    """PDFium ends some figures over a bar with one."""
    page = reworded(PAGES[0], "1", "1 ", count=12)
    assert wall(page, PAGES[1]) == []


# --- cut sheets and mark tables --------------------------------------------------------------------------------------

CUTS = sheets("cuts")
MARK_TABLE = len(CUTS) - 1


def cuts(number: int, page: Seen) -> list[Told]:
    """What is told with another page in the place of one."""
    pages = list(CUTS)
    pages[number] = page
    return told(audit_numbers.cuts(pages, small(), "cuts.pdf"))


def test_cut_sheets_that_are_right() -> None:
    assert cuts(0, CUTS[0]) == []
    assert drawn("cuts")[MARK_TABLE][0] == "Mark table"


def test_a_piece_on_the_cut_sheet() -> None:
    (sheet,) = [page for page in CUTS if page.label == "p2"]
    four = at(sheet, "#4")
    assert show(next(p.length for p in small().pieces if p.mark == "#4"), INCH) == "13'-4 3/8\""
    assert cuts(1, reworded(sheet, "4", "5", after=four)) == [("p2", "piece #4, how many", "4", "5")]
    assert cuts(1, reworded(sheet, "13'–4", "13'–5", after=four)) == [("p2", "piece #4", "13'-4 3/8\"", "13'-5 3/8\"")]
    everywhere = [
        (n, i) for n, page in enumerate(CUTS) for i, r in enumerate(page.runs) if r and r.words.startswith("#4")
    ]
    pages = [without_runs(page, [i for n, i in everywhere if n == number]) for number, page in enumerate(CUTS)]
    assert ("cuts.pdf", "piece #4", "on the cut sheet", "nowhere") in told(
        audit_numbers.cuts(pages, small(), "cuts.pdf")
    )


def test_the_table_of_columns_on_the_cut_sheet() -> None:
    sheet = CUTS[0]
    column = next(c for c in small().columns if c.name == "B1")
    start = at(sheet, "B1")
    off, long = show(column.offset, INCH), show(column.length, INCH)
    assert (off, long) == ('1 11/16"', "18'-2 7/16\"")
    assert cuts(0, reworded(sheet, "1", "2", after=start)) == [("p1", "column B1, offset", off, '2 11/16"')]
    assert cuts(0, reworded(sheet, "18'–2", "18'–3", after=start)) == [
        ("p1", "column B1, length", long, "18'-3 7/16\"")
    ]


def test_a_height_in_the_mark_table() -> None:
    """Told where it stands, and of the column as a whole."""
    page = CUTS[MARK_TABLE]
    label = MARK_TABLE + 1
    mark = next(m for m in marks_of(small(), A1) if m.mark.name == "Top girt")
    want = show(mark.up, INCH)
    assert want == "11'-9 1/2\""
    start = next(i for i, r in enumerate(page.runs) if r and r.words.startswith("Top girt"))
    other = "11'-8 1/2\""
    assert cuts(MARK_TABLE, reworded(page, "11'–9", "11'–8", after=start)) == [
        (f"p{label}", "mark table, Top girt 2x4 bottom, A1", want, other),
        ("cuts.pdf", "mark table, A1", want, other),
    ]


def test_figures_missing_from_a_mark_table_and_one_too_many() -> None:
    bare = told(audit_numbers.cuts(CUTS[:MARK_TABLE], small(), "cuts.pdf"))
    assert bare == [
        ("cuts.pdf", f"mark table, {c.name}", " ".join(show(m.up, INCH) for m in marks_of(small(), c)), "missing")
        for c in small().columns
    ]
    head, row = group("", text(3.0, 2.0, "A1")), group("", text(1.0, 1.5, "Other"), text(3.0, 1.5, '9"'))
    more = seen(plan(head, row), "more")
    assert told(audit_numbers.cuts([*CUTS, more], small(), "cuts.pdf")) == [
        ("cuts.pdf", "mark table, A1", "nothing more", '9"')
    ]


@pytest.mark.parametrize("kind", ["tags", "walls", "cuts"])
def test_nothing_is_told_twice_of_a_page_without_its_words(kind: str) -> None:
    """A page that has lost all its words tells as much as is missing, each thing once."""
    first = sheets(kind)[0]
    empty = without_runs(first, range(len(first.runs)))
    found = {"tags": lambda: tags(empty), "walls": lambda: wall(empty, PAGES[1]), "cuts": lambda: cuts(0, empty)}[
        kind
    ]()
    assert len(set(found)) == len(found)
    assert found or kind == "cuts"
