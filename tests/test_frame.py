"""What stands round every sheet, and the words of every sheet: none on another, none outside, none too small."""

from __future__ import annotations

import boxes
import pytest
import stress

from sheets.frame import ALPHABET, Body, Footer, bar_length, bar_name, finish, stamp
from sheets.lettering import pt, write
from sheets.packet import build
from sheets.paper import MM, PAPERS, Paper
from sheets.shapes import Drawing, Recorder


def body(*words: str, paper: Paper = PAPERS["letter"], tall: bool = False) -> Body:
    pen = Recorder(paper.width, paper.height)
    for i, text in enumerate(words):
        write(pen, 2.0, 8.0 - i, text, pt(12))
    return Body("rods", "Any sheet", pen.drawing(), paper, tall)


FOOTER = Footer("Any job", "2026-09-14", False)


# --- stamps ---------------------------------------------------------------------------------------------------------


def test_same_content_same_stamp() -> None:
    first, second = stamp(["A1", '2 1/8"']), stamp(["A1", '2 1/8"'])
    assert first == second
    assert len(first) == 5
    assert set(first) <= set(ALPHABET)


@pytest.mark.parametrize(
    "other", [["A1", '2 3/16"'], ["A2", '2 1/8"'], ["A1"], ["A1", '2 1/8"', ""], ['A12 1/8"'], ['2 1/8"', "A1"]]
)
def test_any_change_changes_the_stamp(other: list[str]) -> None:
    assert stamp(other) != stamp(["A1", '2 1/8"'])


def test_stamps_have_no_letters_that_are_taken_for_figures() -> None:
    assert not set("IO01") & set(ALPHABET)
    assert len(set(ALPHABET)) == 32
    assert set("".join(stamp([str(i)]) for i in range(500))) == set(ALPHABET)


def test_a_sheets_stamp_is_its_content_not_its_place_in_the_packet() -> None:
    _, first = finish(body("A1"), FOOTER, 1, 9)
    _, moved = finish(body("A1"), FOOTER, 5, 12)
    _, changed = finish(body("A2"), FOOTER, 1, 9)
    assert first == moved != changed


def test_only_the_tags_that_changed_change_their_stamps() -> None:
    plain = stress.building("plain")
    other = stress.build(stress.Case({}, lambda i: 44 + (i * 7 % 23) / 16 + (0.25 if i == 3 else 0.0)))
    old = {t: c for s in build(plain, PAPERS["letter"], "tags").sheets for t, c in s.parts}
    new = {t: c for s in build(other, PAPERS["letter"], "tags").sheets for t, c in s.parts}
    assert {t for t in old if old[t] != new[t]} == {"Tag A4"}


# --- check bars -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("room", "inches"), [(10.0, 10), (9.99, 9), (7.06, 7), (0.5, 0)])
def test_bars_are_whole_inches(room: float, inches: int) -> None:
    assert bar_length(room, False) == inches
    assert bar_name(inches, False) == f"{inches} in"


def test_metric_bars_are_fifties() -> None:
    # 10.69 in of A4 lying down is 271.5 mm: 250 mm
    assert bar_length(10.69, True) == pytest.approx(250 * MM)
    assert bar_name(250 * MM, True) == "250 mm"


# paper lying down, less half an inch on both sides: 11 - 1 = 10; 297 mm - 1 in = 10.69. Up: 8.5 - 1 - 0.44 = 7.06;
# 210 mm - 1.44 in = 6.83
@pytest.mark.parametrize(("paper", "along", "across"), [("letter", 10.0, 7.0), ("a4", 10.0, 6.0)])
def test_every_rod_page_has_both_bars_at_their_length(paper: str, along: float, across: float) -> None:
    sheets = [s for s in stress.printed("plain", paper).sheets if s.kind == "rods"]
    assert sheets
    for sheet in sheets:
        level = bar(sheet.page.drawing, "check-bar-along")
        upright = bar(sheet.page.drawing, "check-bar-across")
        assert level.x1 - level.x0 == pytest.approx(along, abs=1e-9)
        assert level.y0 == level.y1
        assert upright.y1 - upright.y0 == pytest.approx(across, abs=1e-9)
        assert upright.x0 == upright.x1


def test_a_bars_ticks_stand_where_it_is_measured() -> None:
    drawing = stress.printed("metric", "a4").sheets[0].page.drawing
    (group,) = boxes.groups(drawing.shapes, "check-bar-along")
    line, *ticks = boxes.lines(group.shapes)
    assert [t.x0 for t in ticks] == [t.x1 for t in ticks] == [line.x0, line.x1]
    assert line.x1 - line.x0 == pytest.approx(150 / 25.4)  # 210 mm - 1 in leaves 184 mm
    assert "150 mm" in group.title


def bar(drawing: Drawing, name: str) -> boxes.Box:
    (group,) = boxes.groups(drawing.shapes, name)
    return boxes.of_shape(boxes.lines(group.shapes)[0])


# --- every sheet of every building ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_words_keep_clear_of_each_other_and_on_the_page(name: str, paper: str) -> None:
    for sheet in stress.printed(name, paper).sheets:
        drawing = sheet.page.drawing
        upright = PAPERS[paper]
        laid = upright if drawing.width == pytest.approx(upright.width) else upright.turned()
        assert (drawing.width, drawing.height) == pytest.approx((laid.width, laid.height))
        assert not boxes.faults(drawing, laid), sheet.title


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_no_stroke_runs_through_words(name: str, paper: str) -> None:
    for sheet in stress.printed(name, paper).sheets:
        shapes = sheet.page.drawing.shapes
        assert not boxes.crossed(shapes), sheet.title


def test_the_checker_sees_what_it_is_for() -> None:
    pen = Recorder(8.5, 11)
    write(pen, 2, 5, 'A1 2 1/8"', pt(12))
    write(pen, 2.2, 5.05, "on it", pt(12))
    write(pen, 8.3, 5, "off the page", pt(12))
    write(pen, 4, 5, "small", pt(5))
    write(pen, 5, 5, "up", pt(12), turn=90)
    pen.stroke(4.95, 4, 4.95, 6)
    drawing = pen.drawing()
    texts = list(boxes.written(drawing.shapes))
    assert len(boxes.overlaps(texts)) == 1
    assert len(boxes.outside(texts, boxes.page(PAPERS["letter"]))) == 1
    assert len(boxes.small(texts)) == 1
    assert len(boxes.crossed(drawing.shapes)) == 1
