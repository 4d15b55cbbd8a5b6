"""The promise of the sheets: what was computed, what the PDF holds and what the SVG holds is the same, to 0.001 in.

What is wanted is worked out here from the layout's numbers; nothing of the code that draws is asked.
"""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pdfplumber
import pytest
from printed import Form, FoundLane, Printed, lanes_on, reach
from readback import NEAR, Sheet, SvgReader, svg_sheet

from layouts.lengths import show
from layouts.rods import Mark, Rod

FORMS: tuple[Form, ...] = ("pdf", "svg")
JOINT_CLEAR = 0.25  # inches; nearer than that a mark is easily set by the wrong sheet (common practice, no source)

forms = pytest.mark.parametrize("form", FORMS)


def rods_with_lanes(printed: Printed, form: Form) -> list[tuple[Rod, list[tuple[Sheet, FoundLane]]]]:
    """Every rod of the building with its lanes in printing order: a lane that starts at 0 starts a rod."""
    per_inch = 25.4 if printed.metric else 1.0
    runs: list[list[tuple[Sheet, FoundLane]]] = []
    for sheet in printed.sheets(form, "rods"):
        for lane in lanes_on(sheet, per_inch):
            if lane.start == 0.0:
                runs.append([])
            runs[-1].append((sheet, lane))
    return list(zip(printed.building.rods, runs, strict=True))


def lane_of(lanes: list[tuple[Sheet, FoundLane]], mark: Mark) -> tuple[Sheet, FoundLane]:
    """The one lane whose stretch holds a mark."""
    held = [
        (sheet, lane)
        for sheet, lane in lanes
        if lane.start - 1e-9 <= mark.station and (lane.end is None or mark.station < lane.end - 1e-9)
    ]
    assert len(held) == 1
    return held[0]


def has(places: list[float], wanted: float) -> bool:
    """Whether one of *places* is *wanted*, as near as promised."""
    return any(abs(place - wanted) < NEAR for place in places)


# --- rods ------------------------------------------------------------------------------------------------------------


@forms
def test_every_mark_stands_at_its_place_on_the_tape(printed: Printed, form: Form) -> None:
    style = printed.building.job.style
    for rod, lanes in rods_with_lanes(printed, form):
        for mark in rod.marks:
            sheet, lane = lane_of(lanes, mark)
            assert has(lane.tall(sheet), lane.x + mark.station - lane.start), (rod.name, mark.name)
            words = lane.texts(sheet)
            assert show(mark.station, style) in words
            assert any(mark.name.upper() in text and mark.board in text for text in words)


@forms
def test_no_line_looks_like_a_mark_that_is_none(printed: Printed, form: Form) -> None:
    for rod, lanes in rods_with_lanes(printed, form):
        known = [edge for mark in rod.marks for edge in (mark.station, mark.low, mark.high)]
        for sheet, lane in lanes:
            end = lane.x + rod.length - lane.start if lane.x_end is None else lane.x_end
            for x in lane.tall(sheet):
                if lane.x + NEAR < x < end - NEAR:
                    assert has(known, x - lane.x + lane.start)


@forms
def test_the_board_is_shown_on_the_side_it_covers(printed: Printed, form: Form) -> None:
    """The board's other edge has a line at its real size, and the X lies between the two, nowhere beyond."""
    for rod, lanes in rods_with_lanes(printed, form):
        for mark in (m for m in rod.marks if m.kind == "board"):
            sheet, lane = lane_of(lanes, mark)
            low, high = (lane.x + edge - lane.start for edge in (mark.low, mark.high))
            assert high - low == pytest.approx(mark.high - mark.low)
            inside = [v[0] for v in sheet.verticals if lane.low < (v[1] + v[2]) / 2 < lane.high]
            for edge, x in ((mark.low, low), (mark.high, high)):
                if lane.start < edge and (lane.end is None or edge < lane.end):
                    assert has(inside, x)
            crosses = [
                (min(a[0], b[0]), max(a[0], b[0]))
                for a, b in sheet.strokes
                if abs(a[0] - b[0]) > 0.1 < abs(a[1] - b[1]) and lane.low < (a[1] + b[1]) / 2 < lane.high
            ]
            covered = [c for c in crosses if low < c[0] and c[1] < high]
            assert len(covered) >= 2, (rod.name, mark.name)
            at = lane.x + mark.station - lane.start
            assert not [c for c in crosses if c[0] < at - NEAR and c[1] > at + NEAR], "an X across its own line"


@forms
def test_lanes_are_set_by_numbers_that_stand_on_both_of_them(printed: Printed, form: Form) -> None:
    step = 50 / 25.4 if printed.metric else 1.0
    for rod, lanes in rods_with_lanes(printed, form):
        assert lanes[0][1].start == 0.0
        for (sheet, lane), (_, after) in pairwise(lanes):
            assert lane.end is not None
            assert lane.x_end is not None
            assert lane.x_end - lane.x == pytest.approx(lane.end - lane.start, abs=NEAR)
            assert lane.end == after.start, "the same number ends one lane and starts the next"
            assert math.isclose(lane.end / step, round(lane.end / step), abs_tol=1e-9)
            assert all(abs(mark.station - lane.end) > JOINT_CLEAR for mark in rod.marks)
            # overlap, never butt: the paper goes on beyond the joint
            beyond = [b[0] for a, b in sheet.strokes if abs(a[1] - b[1]) < 1e-4 and abs(a[1] - lane.low) < 1e-4]
            assert max(beyond) > lane.x_end + JOINT_CLEAR
        # the last one ends with the rod, on a number of the tape too: whole inches, or 10 mm
        sheet, last = lanes[-1]
        assert last.end is not None
        assert last.x_end is not None
        assert last.end == pytest.approx(rod.length, abs=NEAR)
        assert last.x_end - last.x == pytest.approx(last.end - last.start, abs=NEAR)
        tick = 10 / 25.4 if printed.metric else 1.0
        assert math.isclose(rod.length / tick, round(rod.length / tick), abs_tol=1e-9)


@forms
def test_numbers_between_stand_on_their_ticks(printed: Printed, form: Form) -> None:
    per_inch = 25.4 if printed.metric else 1.0
    for rod, lanes in rods_with_lanes(printed, form):
        for sheet, lane in lanes:
            ticks = [v[0] for v in sheet.verticals if lane.low < v[2] <= lane.high + NEAR]
            end = rod.length if lane.end is None else lane.end
            seen = 0
            for word in sheet.words:
                if lane.low < word.y < lane.high and re.fullmatch(r"\d+", word.text):
                    place = int(word.text) / per_inch
                    assert lane.start <= place <= end
                    at = lane.x + place - lane.start
                    assert has(ticks, at)
                    assert at - 1.3 * reach(word) - 0.1 < word.x < at + 0.1, "beside its own tick"
                    seen += 1
            assert seen >= (1 if lane.end is None else 2)


@forms
def test_no_line_goes_through_a_tape_number(printed: Printed, form: Form) -> None:
    for _, lanes in rods_with_lanes(printed, form):
        for sheet, lane in lanes:
            crossing = [v[0] for v in sheet.verticals if lane.low < v[2] <= lane.high + NEAR]
            for word in sheet.words:
                if lane.low < word.y < lane.high and re.fullmatch(r"\d+", word.text):
                    over = [v for v in sheet.verticals if v[1] < word.y < v[2] and v[0] in crossing]
                    assert not [v for v in over if word.x < v[0] < word.x + reach(word)], word.text


def test_a_rod_in_one_piece_is_full_scale(printed: Printed) -> None:
    names = [n for n in printed.manifest["files"] if n.endswith("full-scale.svg")]
    unit, per_inch = ("mm", 25.4) if printed.metric else ("in", 1.0)
    for rod, name in zip(printed.building.rods, names, strict=True):
        found = SvgReader(printed.folder / name)
        assert found.root.attrib["width"].endswith(unit)
        assert found.root.attrib["height"].endswith(unit)
        assert found.x == pytest.approx(found.y, rel=1e-6), "stretched"
        assert rod.length < found.width < rod.length + 1.0
        sheet = svg_sheet(printed.folder / name)
        (lane,) = lanes_on(sheet, per_inch)
        assert lane.start == 0.0
        for mark in rod.marks:
            assert has(lane.tall(sheet), lane.x + mark.station), mark.name
            assert show(mark.station, printed.building.job.style) in sheet.texts


def test_pdfplumber_finds_the_marks_where_pdfium_does(printed: Printed) -> None:
    """A third parser, on the first page of each rod: lines by pdfminer's reading of the file."""
    names = printed.pages
    rods = [name for name in names if name.startswith("rods")]
    with pdfplumber.open(printed.folder / "packet.pdf") as document:
        page = document.pages[names.index(rods[0])]
        found = sorted(v for line in page.lines for v in (line["x0"] / 72, line["x1"] / 72))
    wanted = sorted(c for a, b in printed.sheets("pdf", "rods")[0].strokes for c in (a[0], b[0]))
    assert found == pytest.approx(wanted, abs=NEAR)


# --- all sheets ------------------------------------------------------------------------------------------------------


def test_pdf_and_svg_hold_the_same_page_by_page(printed: Printed) -> None:
    pages = list(zip(printed.sheets("pdf"), printed.sheets("svg"), strict=True))
    assert len(pages) > 15
    for pdf, svg in pages:
        assert (pdf.width, pdf.height) == pytest.approx((svg.width, svg.height), abs=1e-4)
        assert sorted(pdf.texts) == sorted(svg.texts)
        for axis in (0, 1):
            one, other = (sorted(p[axis] for path in sheet.paths for p in path) for sheet in (pdf, svg))
            assert one == pytest.approx(other, abs=NEAR)
        places = [sorted((w.text, round(w.x, 2), round(w.y, 2)) for w in sheet.words) for sheet in (pdf, svg)]
        for a, b in zip(*places, strict=True):
            assert a[0] == b[0]
            assert a[1:] == pytest.approx(b[1:], abs=0.011)


@forms
def test_check_bars_are_as_long_as_they_say(printed: Printed, form: Form) -> None:
    unit = "mm" if printed.metric else "in"
    for kind in ("index", "rods", "tags", "walls", "cuts"):
        for sheet in printed.sheets(form, kind):
            bars = [(w, re.search(r"MUST MEASURE (\d+) (in|mm)$", w.text)) for w in sheet.words]
            labels = [(w, m) for w, m in bars if m]
            # along and across on the pages that are taped up: a printer is off differently either way
            assert {w.turned for w, _ in labels} == ({False, True} if kind == "rods" else {False}), kind
            for word, label in labels:
                assert label[2] == unit
                length = int(label[1]) / (25.4 if printed.metric else 1.0)
                assert not printed.metric or int(label[1]) % 50 == 0
                assert bar_of(sheet, word.turned, length), (kind, label[0])


def bar_of(sheet: Sheet, upright: bool, length: float) -> bool:
    """Whether the page has a stroke *length* long, upright or level, with a tick across each of its ends."""
    along, across = (1, 0) if upright else (0, 1)
    for a, b in sheet.strokes:
        low, high = sorted((a[along], b[along]))
        if abs(a[across] - b[across]) > 1e-4 or abs(high - low - length) > NEAR:
            continue
        ticked = [
            [
                s
                for s in sheet.strokes
                if abs(s[0][along] - end) < NEAR
                and abs(s[1][along] - end) < NEAR
                and min(s[0][across], s[1][across]) < a[across] < max(s[0][across], s[1][across])
            ]
            for end in (low, high)
        ]
        if all(ticked):
            return True
    return False
