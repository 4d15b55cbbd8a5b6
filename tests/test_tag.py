"""Column tags: the layout's own numbers, biggest first, inside the cut lines."""

from __future__ import annotations

import re

import boxes
import jobs
import opened
import pytest
import stress
from boxes import POINT, Box, Written

from layouts.building import Building
from layouts.columns import Column
from layouts.lengths import Style, show
from sheets.paper import PAPERS, USUAL
from sheets.shapes import Group, Polygon
from sheets.tag import TALL, WIDE, pages, tag

TAG = Box(0, 0, WIDE, TALL)


def texts(name: str, column: str) -> list[Written]:
    building = stress.building(name)
    drawing, _ = tag(building, next(c for c in building.columns if c.name == column))
    return list(boxes.written(drawing.shapes))


def figures(found: list[Written], column: Column, style: Style) -> list[Written]:
    """Texts that are one of the column's cuts, in drawing order."""
    wanted = {show(column.up(c.station), style) for c in column.cuts}
    return [t for t in found if t.words in wanted and t.box.x1 > WIDE / 2 and t.size >= 20 * POINT]


def test_worked_column() -> None:
    # 5 1/2 in deep at 5/12: the roof plane at the outer face is 162 + 11 7/8 + 5.5 x sqrt(1 + (5/12)^2) = 179.8333, at
    # the inner face 5.5 x 5/12 = 2.2917 more, 182.1250. Offset 47 5/8 - 45 1/2 = 2 1/8; from the column's bottom:
    # bearing 164 1/8, short point 181.9583, long point 184 1/4 in
    building = jobs.build(
        {
            "truss.bearing": "13'-6",
            "truss.heel": "11 7/8",
            "truss.pitch": "5/12",
            "roof.overhang": "18",
            "roof.fascia": "7 1/4",
            "grade.line": "45 1/2",
        },
        {"A1": "47", "A3": "47 5/8"},
    )
    drawing, _ = tag(building, next(c for c in building.columns if c.name == "A3"))
    words = [t.words for t in boxes.written(drawing.shapes)]
    assert {"A3", '2 1/8"', "15'-4 1/4\"", "15'-1 15/16\"", "13'-8 1/8\""} <= set(words)
    # 47 5/8 against 47 on A1 is 5/8 lower: the column is longer
    assert {'SEAT LOW 5/8" against A1', 'COLUMN 5/8" LONGER'} <= set(words)
    # 184 1/4 and 1/2 for trimming fit 16 ft = 192: drop 7 3/4
    assert 'STOCK 16\'-0"  ·  drop 7 3/4"' in words
    assert 'Reading 47 5/8", line 45 1/2".' in words


READ = [name for name in stress.CASES if name != "no readings"]


@pytest.mark.parametrize("name", READ)
def test_offset_and_cuts_are_the_layouts(name: str) -> None:
    building = stress.building(name)
    assert building.columns
    style = building.job.style
    for column in building.columns:
        found = list(boxes.written(tag(building, column)[0].shapes))
        words = [t.words for t in found]
        assert show(abs(column.offset), style) in words
        ordered = sorted(column.cuts, key=lambda c: -c.station)
        cuts = [show(column.up(c.station), style) for c in ordered]
        start = words.index("CUTS, from the bottom end") + 1
        # figure, name and where, cut by cut, as the column lies from its top
        assert words[start : start + 3 * len(cuts) : 3] == cuts
        assert words[start + 1 : start + 3 * len(cuts) : 3] == [c.name for c in ordered]
        assert words[start + 2 : start + 3 * len(cuts) : 3] == [c.where for c in ordered]


@pytest.mark.parametrize("name", READ)
def test_figures_are_read_at_arms_length(name: str) -> None:
    building = stress.building(name)
    for column in building.columns:
        found = list(boxes.written(tag(building, column)[0].shapes))
        sizes = [t.size / POINT for t in figures(found, column, building.job.style)]
        assert len(sizes) >= len(column.cuts)
        # more than four cuts: a ridge column whose centre ply has a top of its own
        assert min(sizes) >= (30 if len(column.cuts) <= 4 else 24) - 1e-6
        offset = next(t for t in found if t.words == show(abs(column.offset), building.job.style))
        assert offset.size / POINT >= 48
        assert offset.size / POINT > max(sizes)


def test_sizes_go_down_from_name_to_offset_to_cuts() -> None:
    found = {t.words: t.size for t in texts("plain", "A2")}
    building = stress.building("plain")
    column = next(c for c in building.columns if c.name == "A2")
    cut = show(column.up(column.cuts[0].station), building.job.style)
    offset = show(column.offset, building.job.style)
    assert found["A2"] > found[offset] > found[cut] > found["BEARING"] > found["centre ply"]
    assert found["A2"] / POINT > 72


@pytest.mark.parametrize("name", READ)
def test_words_stay_in_their_tag(name: str) -> None:
    building = stress.building(name)
    for column in building.columns:
        drawing, _ = tag(building, column)
        found = list(boxes.written(drawing.shapes))
        assert not boxes.outside(found, TAG)
        assert not boxes.overlaps(found)
        assert not boxes.small(found)
        assert not boxes.crossed(drawing.shapes)
        solid = [boxes.of_shape(s) for g in drawing.shapes if isinstance(g, Group) for s in polygons(g)]
        assert not [t.words for t in found for b in solid if t.box.shares(b)]


def polygons(group: Group) -> list[Polygon]:
    """Arrows and the sketch, not the bars of fractions."""
    return [s for s in group.shapes if isinstance(s, Polygon)]


@pytest.mark.parametrize("paper", USUAL)
def test_two_tags_a_page_apart_and_on_the_page(paper: str) -> None:
    laid = PAPERS[paper].turned()
    found = pages(stress.building("plain"), PAPERS[paper])
    names = []
    for page in found:
        frames = [boxes.of_shape(g) for g in boxes.groups(page.drawing.shapes, "tag-")]
        names += [g.name.removeprefix("tag-") for g in boxes.groups(page.drawing.shapes, "tag-")]
        body = Box(laid.body.x0, laid.body.y0, laid.body.x1, laid.body.y1)
        assert all(body.holds(f, 1e-9) for f in frames)
        assert len(frames) < 2 or frames[0].x1 < frames[1].x0
    assert names == [c.name for c in stress.building("plain").columns]


def test_no_reading_no_tag() -> None:
    assert pages(stress.building("no readings"), PAPERS["letter"]) == []
    building = jobs.build({}, {"A1": "44", "A3": "45"})
    titles = [title for page in pages(building, PAPERS["letter"]) for title, _ in page.parts]
    assert titles == ["Tag A1", "Tag A3"]


def test_a_seat_above_the_line_is_said_in_capitals() -> None:
    # line reading 60, A1 reads 44: the grade line is 16 in below its bottom end
    words = [t.words for t in texts("below the seats", "A1")]
    assert '16"' in words
    assert "OFFSET: the grade line, BELOW THE BOTTOM END by" in words
    assert '-16"' not in words


def test_no_stock_is_said() -> None:
    words = " ".join(t.words for t in texts("no stock", "A1"))
    assert "NO STOCK IS LONG ENOUGH" in words
    assert stress.NOTE in re.sub(r"\s+", " ", words)


@pytest.mark.parametrize(("column", "arrows"), [("A2", 2), ("G2", 2), ("B7", 1)])
def test_top_and_outside_on_every_tag(column: str, arrows: int) -> None:
    found = texts("plain", column)
    where = {t.words: t.box for t in found}
    assert where["TOP"].x0 > WIDE * 0.75
    assert where["OUTSIDE"].x1 < WIDE / 3
    assert ("THIS FACE" in where) == (arrows == 1)


# --- headers and sills ----------------------------------------------------------------------------------------------


def tag_of(building: Building, name: str) -> list[Written]:
    drawing, _ = tag(building, next(c for c in building.columns if c.name == name))
    return list(boxes.written(drawing.shapes))


def test_a_tag_tells_the_headers_of_its_column_and_of_no_other() -> None:
    """Door and window in bays 2 and 3 of wall A; A5 has both. Headers 85 1/2 and 82, sill 40, all 2 up from the bottom
    ends."""
    building = opened.read(opened.DOOR, {**opened.WINDOW, "bay": 3})
    words = {name: [t.words for t in tag_of(building, name)] for name in ("A7", "A6", "A5", "A4")}
    head = "MARK ONLY, from the bottom end: DO NOT CUT"
    assert head not in words["A7"]
    assert not [w for w in words["A7"] if w.startswith(("HEADER", "SILL"))]
    assert {head, "HEADER D9", "2x6 bottom, rod 7'-1 1/2\"", "7'-3 1/2\""} <= set(words["A6"])
    assert "HEADER W9" not in words["A6"]
    assert {"HEADER D9", "HEADER W9", "SILL W9", "7'-3 1/2\"", "7'-0\"", "3'-6\""} <= set(words["A5"])
    assert "HEADER D9" not in words["A4"]
    assert {"HEADER W9", "SILL W9"} <= set(words["A4"])


def test_a_tag_names_the_openings_beside_its_column_though_a_rod_names_more() -> None:
    windows = [{**opened.WINDOW, "name": f"W{bay}", "bay": bay} for bay in (2, 3, 5)]
    building = opened.read(*windows)
    assert "HEADER W2, W3" in [t.words for t in tag_of(building, "A5")]
    assert "HEADER W5" in [t.words for t in tag_of(building, "A2")]


def test_words_stay_in_a_tag_with_many_marks() -> None:
    """Four marks under three cuts, every figure still read at arm's length: 18 points and more."""
    building = opened.read({**opened.WINDOW, "bay": 2}, {**opened.WINDOW, "name": "W8", "bay": 3, "sill": "3'"})
    found = tag_of(building, "A5")
    assert boxes.overlaps(found) == []
    assert boxes.outside(found, TAG) == []
    marks = [t for t in found if t.words.startswith(("HEADER", "SILL"))]
    assert len(marks) == 4
    assert min(t.size for t in found if t.words.endswith('"') and t.box.x1 > WIDE - 0.2) >= 18 * POINT
