"""Flowing pages: tables that turn the page, frames that go on, headings that keep company."""

from __future__ import annotations

import boxes
import pytest

from sheets.frame import Body
from sheets.lettering import pt
from sheets.paper import PAPERS
from sheets.shapes import Recorder
from sheets.tables import AGAIN, LEAD, Column, Flow

COLUMNS = [Column("name", 1, bold=True), Column("length", 1, "right"), Column("where", 2)]


def flow() -> Flow:
    return Flow("cuts", "Any sheet", PAPERS["letter"])


def words(body: Body) -> list[str]:
    return [t.words for t in boxes.written(body.drawing.shapes)]


def test_one_page_has_the_plain_title() -> None:
    pages = flow()
    pages.table(COLUMNS, [["a", '1"', "here"]])
    assert [b.title for b in pages.bodies()] == ["Any sheet"]


def test_a_page_turn_repeats_the_head_and_loses_no_row() -> None:
    pages = flow()
    pages.table(COLUMNS, [[f"row {i}", f'{i}"', "here"] for i in range(120)])
    bodies = pages.bodies()
    # 10 - 0.44 in of page, a row of 12 pt takes 12 x 1.32 / 72 + 0.03 = 0.25: 120 rows are 30 in, four pages
    assert [b.title for b in bodies] == [f"Any sheet {i}" for i in (1, 2, 3, 4)]
    for body in bodies:
        assert words(body)[:3] == ["name", "length", "where"]
        assert not boxes.faults(body.drawing, PAPERS["letter"])
    rows = [w for b in bodies for w in words(b) if w.startswith("row ")]
    assert rows == [f"row {i}" for i in range(120)]


def test_figures_stand_at_the_right() -> None:
    pages = flow()
    pages.table(COLUMNS, [["a", '1"', ""], ["b", "12'-10 13/16\"", ""]])
    texts = {t.words: t.box for t in boxes.written(pages.bodies()[0].drawing.shapes)}
    # 7 1/2 in shared 1 : 1 : 2; the second column ends at 1/2 + 3 3/4, its cells 0.05 before that
    for text in ("length", '1"', "12'-10 13/16\""):
        assert texts[text].x1 == pytest.approx(0.5 + 3.75 - 0.05)
    assert texts["a"].x0 == texts["b"].x0 == pytest.approx(0.55)


def test_a_long_cell_is_wrapped_and_read_in_order() -> None:
    text = "nine words that do not go on one line " * 4
    pages = flow()
    pages.table(COLUMNS, [["a", '1"', text], ["b", '2"', ""]])
    found = [t for t in boxes.written(pages.bodies()[0].drawing.shapes) if "words" in t.words or "line" in t.words]
    assert len(found) > 2
    assert " ".join(t.words for t in found).split() == text.split()
    assert [t.box.y0 for t in found] == sorted((t.box.y0 for t in found), reverse=True)
    second = next(t for t in boxes.written(pages.bodies()[0].drawing.shapes) if t.words == "b")
    assert second.box.y1 < min(t.box.y0 for t in found)


def test_a_row_that_no_page_holds_goes_on_overleaf() -> None:
    text = " ".join(f"word{i}" for i in range(1200))
    pages = flow()
    pages.table(COLUMNS, [["a", '1"', text], ["b", '2"', "after"]])
    bodies = pages.bodies()
    assert len(bodies) > 1
    for body in bodies:
        assert not boxes.faults(body.drawing, PAPERS["letter"])
    told = " ".join(w for b in bodies for w in words(b) if "word" in w)
    assert told.split() == text.split()
    assert "after" in words(bodies[-1])


def test_a_frame_goes_on_overleaf() -> None:
    pages = flow()
    pages.heading("FIRST")
    pages.boxed("WARNINGS", [f"{i}. warning" for i in range(1, 101)])
    bodies = pages.bodies()
    assert len(bodies) > 1
    # a frame of many lines begins under the heading that is there, and says that it goes on
    assert words(bodies[0])[:3] == ["FIRST", "WARNINGS", "1. warning"]
    assert words(bodies[1])[0] == "WARNINGS" + AGAIN
    assert [w for b in bodies for w in words(b) if w.endswith("warning")] == [f"{i}. warning" for i in range(1, 101)]
    for body in bodies:
        assert not boxes.faults(body.drawing, PAPERS["letter"])


def test_a_short_frame_stays_whole() -> None:
    pages = flow()
    for i in range(42):
        pages.para(f"line {i}", pt(11))
    pages.boxed("CAUTION", ["one", "two", "three", "four", "five", "six", "seven", "eight"])
    bodies = pages.bodies()
    assert words(bodies[-1])[0] == "CAUTION"
    assert "CAUTION" not in words(bodies[0])


@pytest.mark.parametrize("lines", range(28, 46))
def test_a_heading_is_never_alone_at_the_foot_of_a_page(lines: int) -> None:
    pages = flow()
    for i in range(lines):
        pages.para(f"line {i}", pt(11))
    pages.heading("ALONE?")
    pages.para("What the table is about.", pt(11))
    pages.table(COLUMNS, [["first row", '1"', "here"], ["second row", '2"', "here"]])
    home = next(b for b in pages.bodies() if "ALONE?" in words(b))
    assert "first row" in words(home)


@pytest.mark.parametrize("lines", range(20, 46))
def test_a_heading_keeps_the_head_and_two_rows_of_its_table(lines: int) -> None:
    pages = flow()
    for i in range(lines):
        pages.para(f"line {i}", pt(11))
    pages.heading("BOARDS")
    pages.para("Words between the heading and the table.", pt(11))
    long = "a place that takes some lines of a narrow column, " * 4
    pages.table(COLUMNS, [[f"row {i}", f'{i}"', long] for i in range(6)])
    bodies = pages.bodies()
    home = next(b for b in bodies if "BOARDS" in words(b))
    assert {"name", "row 0", "row 1"} <= set(words(home))
    told = [w for b in bodies for w in words(b)]
    assert [told.count(w) for w in ("BOARDS", "Words between the heading and the table.", "row 5")] == [1, 1, 1]
    for body in bodies:
        assert not boxes.faults(body.drawing, PAPERS["letter"])


def test_a_heading_stays_with_the_heading_over_it_and_with_a_drawing() -> None:
    for lines in range(20, 46):
        pages = flow()
        for i in range(lines):
            pages.para(f"line {i}", pt(11))
        pages.heading("ALL OF IT", keep=0.0)
        pages.heading("PART", keep=0.0)
        picture = Recorder(2.0, 2.5)
        picture.begin("picture")
        picture.box(0.0, 0.0, 2.0, 2.5)
        picture.end()
        pages.draw(picture.drawing())
        (home,) = (b for b in pages.bodies() if list(boxes.groups(b.drawing.shapes, "picture")))
        assert {"ALL OF IT", "PART"} <= set(words(home))


@pytest.mark.parametrize("long", range(1, 9))
def test_no_line_of_a_paragraph_stands_alone(long: int) -> None:
    """Of a paragraph that goes on overleaf two lines at least stand on either page."""
    for lines in range(36, 52):
        pages = flow()
        for i in range(lines):
            pages.para(f"line {i}", pt(11))
        pages.para("\n".join(f"part {i}" for i in range(long)), pt(11))
        pages.para("end", pt(11))
        counts = [c for b in pages.bodies() if (c := sum(w.startswith("part") for w in words(b)))]
        assert sum(counts) == long
        assert len(counts) == 1 or min(counts) >= 2, (lines, counts)


def test_lead_is_more_than_a_stacked_fraction_takes() -> None:
    assert LEAD > 1.08
