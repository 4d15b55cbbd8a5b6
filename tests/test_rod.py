"""Rod strips: every mark at its place, both lanes of a joint on one tape number, the X on the covered side."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import boxes
import jobs
import pytest
import stress
from boxes import Box
from msgspec.structs import replace

from layouts.building import Building
from layouts.lengths import Style
from layouts.rods import Mark, Rod
from sheets import rod as rods
from sheets.flags import label_all
from sheets.labels import BIG, READ, Label, kept
from sheets.lanes import Lane
from sheets.paper import MM, PAPERS, USUAL
from sheets.shapes import MEDIUM, THICK, Drawing, Group, Line, Polygon, Recorder
from sheets.strip import HEIGHT, LEAD, draw_lane, tape

INCH = Style("in", 16)
GIRT = Mark("Girt 1", "board", 24.0, 24.0, 27.5, "bottom", "2x4")


@cache
def lanes(name: str, paper: str) -> list[tuple[Rod, Lane, Group]]:
    """Of one of the stress cases, drawn once."""
    return lane_groups(stress.building(name), paper)


def lane_groups(building: Building, paper: str) -> list[tuple[Rod, Lane, Group]]:
    """Every lane drawn for a building, with the rod and lane it is for, in order."""
    laid = PAPERS[paper]
    wanted = [(r, lane) for r in building.rods for lane in rods.lay(r, building.job.style, laid.turned().body).lanes]
    drawn = [
        g
        for page in rods.pages(building, laid)
        for g in boxes.groups(page.drawing.shapes, holds="-lane-")
        if not g.name.startswith("tape")
    ]
    assert len(drawn) == len(wanted)
    return [(r, lane, g) for (r, lane), g in zip(wanted, drawn, strict=True)]


def upright(group: Group, width: float) -> list[Line]:
    """Its upright strokes of one width."""
    return [s for s in boxes.lines(group.shapes) if s.x0 == s.x1 and s.width == width]


def set_line(group: Group) -> float:
    """Where a lane's left line stands: its first stroke over the whole height."""
    return next(s.x0 for s in upright(group, MEDIUM) if abs(s.y1 - s.y0) == pytest.approx(HEIGHT))


def one(mark: Mark, length: float = 60.0, style: Style = INCH) -> Drawing:
    """One mark on a rod in one piece, its foot at x = 1, lower edge at y = 1."""
    rod = Rod("Sidewall rod", ("A",), False, (mark,), length)
    pen = Recorder(length + 2, HEIGHT + 2)
    draw_lane(pen, 1.0, 1.0, rod, Lane(1, 0.0, length, True), 1, label_all(rod, style, 60.0), style)
    return pen.drawing()


def mark_group(drawing: Drawing) -> Group:
    (group,) = boxes.groups(drawing.shapes, holds="-mark-")
    return group


# --- where marks stand ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_every_mark_stands_at_its_station(name: str, paper: str) -> None:
    building = stress.building(name)
    seen = []
    for rod, lane, group in lanes(name, paper):
        x0 = set_line(group)
        assert x0 == pytest.approx(0.5 + LEAD)
        inside = [m for m in rod.marks if lane.start <= m.station < lane.end]
        found = [upright(g, MEDIUM) + upright(g, THICK) for g in boxes.groups(group.shapes, holds="-mark-")]
        assert len(found) == len(inside)
        for strokes, mark in zip(found, sorted(inside, key=order), strict=True):
            # page x = lane x + station - start, for every stroke of the mark's line
            assert strokes
            assert all(s.x0 == pytest.approx(x0 + mark.station - lane.start, abs=1e-9) for s in strokes)
        seen += [(rod.name, m) for m in inside]
    assert seen == [(r.name, m) for r in building.rods for m in r.marks]


def order(mark: Mark) -> tuple[bool, float]:
    """Boards are drawn first."""
    return mark.kind != "board", mark.station


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_both_lanes_of_a_joint_carry_its_tape_number(name: str, paper: str) -> None:
    building = stress.building(name)
    unit = MM if building.job.style.unit == "mm" else 1.0
    for (rod, a, left), (next_rod, b, right) in pairwise(lanes(name, paper)):
        if rod is not next_rod:
            continue
        ends = [g.title for g in boxes.groups(left.shapes, "tape-number")]
        starts = [g.title for g in boxes.groups(right.shapes, "tape-number")]
        assert ends[-1] == starts[0] == str(round(a.end / unit))
        assert ends[0] == str(round(a.start / unit))
        # the line under which the next lane's set line comes to lie
        at = set_line(left) + a.end - a.start
        dashed = [s for s in boxes.lines(left.shapes) if s.dash and s.x0 == s.x1 == pytest.approx(at, abs=1e-9)]
        assert any(abs(s.y1 - s.y0) == pytest.approx(HEIGHT) for s in dashed)
        assert b.start == a.end


def test_set_line_and_stations_in_literal_inches() -> None:
    # letter lying down: set line at 1/2 + 0.06; lane 35 to 44 in; the mark at 36 stands an inch from it
    building = jobs.build({"wainscot.nailer": "2x6"})
    found = [(lane, g) for _, lane, g in lane_groups(building, "letter") if lane.start <= 36.0 < lane.end]
    lane, group = found[0]
    wainscot = next(g for g in boxes.groups(group.shapes, holds="mark-wainscot"))
    assert lane.start == 35.0
    assert [s.x0 for s in upright(wainscot, MEDIUM)] == [pytest.approx(0.56 + 1.0)] * 2


# --- one mark -------------------------------------------------------------------------------------------------------


def footprint(drawing: Drawing) -> Box:
    bars = [s for g in drawing.shapes if isinstance(g, Group) for s in g.shapes if isinstance(s, Polygon)]
    return boxes.of_shape(bars[0])


def crosses(group: Group) -> Box:
    return boxes.of_shape(Group("x", tuple(s for s in boxes.lines(group.shapes) if s.x0 != s.x1)))


def test_bottom_edge_covers_upward() -> None:
    drawing = one(GIRT)
    bar = footprint(drawing)
    # PS 20: a dry 2x4 is 3 1/2 in wide; rod place 24 is page x 25
    assert (bar.x0, bar.x1) == pytest.approx((25.0, 28.5))
    x = crosses(mark_group(drawing))
    assert 25.0 < x.x0 < x.x1 < 28.5
    assert x.x1 - x.x0 > 0.4


def test_top_edge_covers_downward() -> None:
    drawing = one(replace(GIRT, station=27.5, edge="top"))
    bar = footprint(drawing)
    assert (bar.x0, bar.x1) == pytest.approx((25.0, 28.5))
    x = crosses(mark_group(drawing))
    assert 25.0 < x.x0 < x.x1 < 28.5
    assert x.x1 < 28.5 < x.x1 + 0.1


def test_a_mark_says_its_name_board_edge_and_station() -> None:
    words = [t.words for t in boxes.written(mark_group(one(GIRT)).shapes)]
    assert words == ["2'-0\"", "GIRT 1 2x4 bottom"]


def test_a_cut_has_no_x_and_no_footprint() -> None:
    cut = Mark("SHORT POINT", "cut", 40.0, 40.0, 40.0, "line", where="outside face")
    drawing = one(cut)
    assert not [s for s in boxes.lines(mark_group(drawing).shapes) if s.x0 != s.x1]
    assert not [s for g in drawing.shapes if isinstance(g, Group) for s in g.shapes if isinstance(s, Polygon)]
    # 3'-4" is 40 in
    assert [t.words for t in boxes.written(mark_group(drawing).shapes)] == ["3'-4\"", "CUT SHORT POINT outside face"]


def test_end_numbers_of_a_lane() -> None:
    rod = Rod("Sidewall rod", ("A",), False, (), 60.0)
    pen = Recorder(11, 8.5)
    draw_lane(pen, 1.0, 1.0, rod, Lane(3, 18.0, 27.0, False), 7, (), INCH)
    numbers = list(boxes.groups(pen.drawing().shapes, "tape-number"))
    assert [g.title for g in numbers] == ["18", "27"]
    first, last = (list(boxes.written(g.shapes)) for g in numbers)
    # beside their lines, at x = 1 and x = 1 + 9, and as a tape with feet reads them
    assert [t.words for t in first] == ["18", "TAPE"]
    assert [t.words for t in last] == ["27", "2'-3\""]
    assert first[0].box.x0 == pytest.approx(1.05)
    assert last[0].box.x1 == pytest.approx(9.95)
    small = {t.words: t.box for t in boxes.written(pen.drawing().shapes)}
    # the figure 22 stands over its tick, 4 in from the set line
    assert (small["22"].x0 + small["22"].x1) / 2 == pytest.approx(5.0)


def test_the_last_lane_has_a_number_at_both_ends() -> None:
    """A rod of 205 in: its last lane, from 196, is 9 in of paper; the line at its end, at x = 1 + 9, is that of 205."""
    pen = Recorder(11, 8.5)
    draw_lane(pen, 1.0, 1.0, Rod("Sidewall rod", ("A",), False, (), 205.0), Lane(4, 196.0, 205.0, True), 4, (), INCH)
    numbers = list(boxes.groups(pen.drawing().shapes, "tape-number"))
    assert [g.title for g in numbers] == ["196", "205"]
    assert max(t.box.x1 for t in boxes.written(numbers[1].shapes)) == pytest.approx(9.95)


def test_metric_ticks_and_numbers() -> None:
    style = Style("mm")
    assert tape(style).step == pytest.approx(50 / 25.4)
    rod = Rod("Sidewall rod", ("A",), False, (), 1000 * MM)
    pen = Recorder(11, 8.5)
    draw_lane(pen, 1.0, 1.0, rod, Lane(2, 250 * MM, 450 * MM, False), 5, (), style)
    words = {t.words: t.box for t in boxes.written(pen.drawing().shapes)}
    # 300 mm is 50 mm from the set line
    assert (words["300"].x0 + words["300"].x1) / 2 == pytest.approx(1.0 + 50 / 25.4)
    assert {"250", "300", "350", "400", "450"} <= set(words)


# --- words ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", stress.CASES)
def test_stations_are_read_at_arms_length(name: str) -> None:
    building = stress.building(name)
    squeezed = [v for r in building.rods for v in label_all(r, building.job.style, 8.0) if v.scale < READ - 1e-9]
    points = READ * BIG * 72
    assert points == pytest.approx(30)
    assert not squeezed


def test_crowded_marks_are_read_at_arms_length() -> None:
    # boards 2 in apart: past the X, 0.49 + 0.07 in, some 1.3 in are left for words that want more than 2
    marks = tuple(Mark(f"Gable girt {at}", "board", at, at, at + 1.5, "bottom", "2x2") for at in (120.0, 122.0, 124.0))
    rod = Rod("Endwall rod", ("1",), True, marks, 140.0)
    first, second, last = label_all(rod, INCH, 8.0)
    assert second.flag
    assert min(v.scale for v in (first, second, last)) >= READ
    assert first.x1 <= 120.0
    assert second.x1 <= 122.0
    assert last.scale == 1.0
    assert last.x0 > 124.0


def test_words_that_a_joint_cannot_spare_get_smaller_beside_their_mark() -> None:
    right = Label(GIRT, 24.56, 27.0, 1.0)
    assert kept(right, Lane(2, 20.0, 29.0, False)) == right
    # a joint at 27 leaves 27 - 0.5 - 24.56 = 1.94 of 2.44 in
    cut = kept(right, Lane(2, 20.0, 27.0, False))
    assert (cut.x0, cut.x1) == pytest.approx((24.56, 26.5))
    assert cut.scale == pytest.approx(1.94 / 2.44)
    # the rod's own end is no joint: words may come within 0.07 of it
    assert kept(right, Lane(2, 20.0, 27.07, True)) == right
    left = Label(GIRT, 21.0, 23.93, 1.0)
    assert kept(left, Lane(2, 22.0, 30.0, False)).x0 == pytest.approx(22.5)
    # a joint at 24 1/2 leaves nothing on that side: they go to the other
    moved = kept(replace(right, spare=3.0), Lane(2, 20.0, 24.5, False))
    assert (moved.x0, moved.x1, moved.scale) == pytest.approx((24.0 - 0.07 - 2.44, 23.93, 1.0))
    assert right.stretch == pytest.approx((24.0, 27.5))
    assert left.stretch == pytest.approx((24.0, 20.5))


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_words_stay_in_their_lane(name: str, paper: str) -> None:
    for _, lane, group in lanes(name, paper):
        x0 = set_line(group)
        end = x0 + lane.end - lane.start
        bottom = boxes.of_shape(group).y0
        frame = Box(x0, bottom, end, bottom + HEIGHT)
        tail = Box(end, bottom, end + 0.5, bottom + HEIGHT)
        texts = list(boxes.written(group.shapes))
        in_tail = [t for t in texts if t.words in ("GOES UNDER", "THE NEXT LANE")]
        assert not boxes.outside(in_tail, tail)
        assert not boxes.outside([t for t in texts if t not in in_tail], frame)
        assert len(in_tail) == (0 if lane.last else 2)
        bars = [boxes.of_shape(s) for s in group.shapes if isinstance(s, Polygon)]
        assert not [t.words for t in texts for b in bars if t.box.shares(b)]


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_every_lane_says_which_it_is(name: str, paper: str) -> None:
    for rod, lane, group in lanes(name, paper):
        words = [t.words for t in boxes.written(group.shapes)]
        told = [w for w in words if w.startswith((rod.name, rod.name[0])) and str(lane.number) in w]
        assert told, words


def test_three_lanes_a_page_on_either_paper() -> None:
    for paper in USUAL:
        pages = rods.pages(stress.building("plain"), PAPERS[paper])
        counts = [len(list(boxes.groups(p.drawing.shapes, holds="-lane-"))) for p in pages]
        assert counts[0] == 3


def test_the_whole_rod_in_one_piece_is_full_scale() -> None:
    building = stress.building("plain")
    for (title, drawing), rod in zip(rods.whole(building), building.rods, strict=True):
        assert title.startswith(rod.name)
        assert drawing.width == pytest.approx(rod.length + 2 * LEAD)
        found = list(boxes.groups(drawing.shapes, holds="-mark-"))
        for group, mark in zip(found, sorted(rod.marks, key=order), strict=True):
            strokes = [*upright(group, MEDIUM), *upright(group, THICK)]
            assert strokes
            assert all(s.x0 == pytest.approx(LEAD + mark.station, abs=1e-9) for s in strokes)
