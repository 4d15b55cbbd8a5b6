"""What stands round every sheet, and the words of every sheet: none on another, none outside, none too small."""

from __future__ import annotations

import boxes
import jobs
import pytest
import stress

from sheets import own_words
from sheets.frame import ALPHABET, Body, Footer, bar_length, bar_name, finish, stamp
from sheets.language import Said, speaking
from sheets.lettering import extent, pt, write
from sheets.packet import build
from sheets.paper import MM, PAPERS, Paper
from sheets.shapes import MEDIUM, Drawing, Recorder, Text, flat


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


@pytest.mark.parametrize("language", ["english", "spanish"])
def test_no_letter_of_a_bars_words_touches_it(language: str) -> None:
    """A p or g of 9 points hangs 0.21 em, 0.026 in, under its line, and half of the bar is 0.007 in thick: 0.033 in, so
    words 0.03 in over the middle of the bar, as those without such letters stand, would lie in it."""
    job = jobs.job({"job.language": language})
    with speaking(own_words.of_job(job)):
        page, _ = finish(body("A1", tall=True), Footer("Any job", "", False, "Olympus, skewed by type"), 1, 1)
        shapes = page.drawing.shapes
        level, upright = bar(page.drawing, "check-bar-along"), bar(page.drawing, "check-bar-across")
        told = [t for t in flat(shapes) if isinstance(t, Text)]
        over = [t for t in told if not t.turn and level.y0 < t.y < level.y0 + 0.1]
        beside = [t for t in told if t.turn and upright.x0 - 0.1 < t.x < upright.x0]
        clear = [t.y - extent(Said(t.text), t.size, t.cut)[2] - level.y0 for t in over]
        clear += [upright.x0 - t.x - extent(Said(t.text), t.size, t.cut)[2] for t in beside]
    assert ("pulg" in " ".join(t.text for t in over)) == (language == "spanish")
    assert len(over) >= 3
    assert beside
    assert min(clear) >= MEDIUM / 2 + 0.014


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
