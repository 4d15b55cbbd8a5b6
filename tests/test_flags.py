"""Marks that stand close on a rod: every word is read, none lies on another or under a line, on any lane."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from typing import Literal

import boxes
import opened
import pytest
from effort import examples
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from layouts.building import Building
from layouts.lengths import Style
from layouts.problems import JobRefused
from layouts.rods import Mark, Rod
from sheets import packet
from sheets import rod as rods
from sheets.audit import differences
from sheets.flags import TINY, on_lane
from sheets.labels import BIG, Label, upper
from sheets.paper import PAPERS
from sheets.shapes import Line, Recorder, Shape
from sheets.strip import HEIGHT, draw_lane

INCH = Style("in", 16)
POKES = 0.06  # inches that a stacked fraction of a station 36 pt large may stand into the other band
GIRTS = tuple(
    Mark(f"Girt {i}", "board", at, at, at + 3.5, "bottom", "2x4") for i, at in enumerate((24.0, 47.0, 70.0), 1)
)


Edge = Literal["bottom", "top"]


def sill(
    number: int, at: float, wide: float = 5.5, edge: Edge = "bottom", only: tuple[str, ...] = ("A1", "A2")
) -> Mark:
    station = at if edge == "bottom" else at + wide
    return Mark(f"Sill W{number}", "board", station, at, at + wide, edge, "2x6", only=only)


def rod_of(marks: Sequence[Mark]) -> Rod:
    ordered = tuple(sorted((*GIRTS, *marks), key=lambda m: (m.station, m.name)))
    return Rod("Sidewall rod", ("A",), False, ordered, math.ceil(max(m.high for m in ordered) + 4))


def lay(rod: Rod, style: Style, paper: str) -> rods.Laid | str:
    """A rod on a paper, or why it is refused."""
    try:
        return rods.lay(rod, style, PAPERS[paper].turned().body)
    except JobRefused as refused:
        return str(refused)


def lanes(laid: rods.Laid, style: Style = INCH) -> list[tuple[list[Label], tuple[Shape, ...], float]]:
    """Of every lane its labels, what is drawn, and how long it is; its set line at 1, its lower edge at 1."""
    found = []
    for lane in laid.lanes:
        pen = Recorder(20, HEIGHT + 2)
        draw_lane(pen, 1, 1, laid.rod, lane, len(laid.lanes), laid.labels, style)
        labels = list(on_lane(laid.labels, lane, style))
        found.append((labels, pen.drawing().shapes, lane.end - lane.start))
    return found


def faults(laid: rods.Laid, style: Style) -> list[str]:
    """What is wrong with the words of any lane."""
    found = []
    for _, shapes, long in lanes(laid, style):
        texts = list(boxes.written(shapes))
        found += [*boxes.overlaps(texts), *boxes.small(texts), *crossed(texts, boxes.lines(shapes))]
        frame = boxes.Box(1, 1, 1 + long, 1 + HEIGHT)
        found += boxes.outside([t for t in texts if any("-mark-" in name for name in t.groups)], frame)
    return found


def crossed(texts: Sequence[boxes.Written], lines: Sequence[Line]) -> list[str]:
    """Words with a stroke of any slope in them."""
    return [f"{t.words!r} crossed by {line}" for t in texts for line in lines if _through(line, t.box)]


def _through(line: Line, box: boxes.Box) -> bool:
    """Whether a stroke runs through a box: the part of it between the box's sides, then between its ends."""
    x0, x1, y0, y1 = box.x0 + 0.01, box.x1 - 0.01, box.y0 + POKES, box.y1 - POKES
    start, end = 0.0, 1.0
    for at, way, low, high in ((line.x0, line.x1 - line.x0, x0, x1), (line.y0, line.y1 - line.y0, y0, y1)):
        if abs(way) < 1e-12:
            if not low < at < high:
                return False
        else:
            a, b = sorted(((low - at) / way, (high - at) / way))
            start, end = max(start, a), min(end, b)
    return start < end


@st.composite
def clusters(draw: st.DrawFn) -> Rod:
    """Two to six marks within 2 in, for some columns or for all, somewhere along a rod with girts."""
    edge: Edge = "bottom" if draw(st.booleans()) else "top"
    at, wide = draw(st.integers(16 * 15, 16 * 60)) / 16, draw(st.sampled_from([1.5, 5.5, 9.25]))
    places = draw(st.lists(st.integers(0, 32), min_size=2, max_size=6))
    whom = st.sampled_from([("A1", "A2"), ("A1", "A2", "A3", "A4"), tuple(f"A{i}" for i in range(1, 8))])
    marks = [sill(i, at + n / 16, wide, edge, draw(whom)) for i, n in enumerate(places)]
    rows = draw(st.integers(0, 2))
    # rows inside beside rows outside are marks for all columns
    return rod_of([replace(m, name=f"Girt inside {i}", only=()) if i < rows else m for i, m in enumerate(marks)])


@settings(max_examples=examples(40))
@given(clusters(), st.sampled_from(["letter", "a4"]), st.sampled_from([INCH, Style("in", 32), Style("mm")]))
def test_any_cluster_is_read_or_refused_with_the_reason(rod: Rod, paper: str, style: Style) -> None:
    laid = lay(rod, style, paper)
    if isinstance(laid, str):
        assert "too close" in laid or "no room for a joint" in laid
        assert len(rod.marks) - len(GIRTS) > 4  # fewer always find room
        return
    assert faults(laid, style) == []
    labels = [v for found, _, _ in lanes(laid, style) for v in found]
    assert sorted(v.mark.name for v in labels) == sorted(m.name for m in rod.marks)
    assert min(v.scale * BIG for v in labels) >= TINY


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6])
@pytest.mark.parametrize("apart", [1 / 16, 3 / 8, 0.4])
def test_sills_close_together_are_read_clear_of_girts(count: int, apart: float) -> None:
    """Between girts both bands are free: six rows over 1.5 in are some 15 pt, and three of them 30."""
    laid = rods.lay(rod_of([sill(i, 34 + i * apart) for i in range(count)]), INCH, PAPERS["letter"].turned().body)
    assert faults(laid, INCH) == []
    sizes = [v.scale * 36 for found, _, _ in lanes(laid) for v in found if v.mark.only]
    assert len(sizes) == count
    assert min(sizes) >= (20 if count <= 4 else 14)


def test_the_line_of_a_flag_is_higher_the_farther_it_is_from_its_words() -> None:
    """So no leader crosses another mark's line."""
    laid = rods.lay(rod_of([sill(i, 34 + i * 3 / 8) for i in range(4)]), INCH, PAPERS["letter"].turned().body)
    flags = [v for found, _, _ in lanes(laid) for v in found if v.flag]
    assert len(flags) >= 3
    for right in (True, False):
        side = [v for v in flags if (v.x0 > v.mark.station) == right]
        ordered = sorted(side, key=lambda v: abs(v.mark.station - v.x0))
        tops = [v.flag.top for v in ordered if v.flag]
        bases = [v.flag.base for v in ordered if v.flag]
        assert tops == sorted(tops)
        assert bases == sorted(bases)


def test_marks_at_one_and_the_same_height_have_words_of_their_own() -> None:
    """A header and a sill, boards of two sizes."""
    laid = rods.lay(
        rod_of([sill(1, 36), replace(sill(2, 36), name="Header D1", high=47.25, board="2x12")]),
        INCH,
        PAPERS["letter"].turned().body,
    )
    assert faults(laid, INCH) == []
    words = {t.words for _, shapes, _ in lanes(laid) for t in boxes.written(shapes)}
    assert {"SILL W1 2x6 bottom: A1, A2 only", "HEADER D1 2x12 bottom: A1, A2 only"} <= words


def test_rows_inside_close_to_rows_outside_are_read() -> None:
    inside = [
        Mark(f"Girt inside {i}", "board", m.low + 3 / 8, m.low + 3 / 8, m.high, "bottom", "2x4")
        for i, m in enumerate(GIRTS)
    ]
    laid = rods.lay(rod_of(inside), INCH, PAPERS["letter"].turned().body)
    assert all(upper(m) for m in laid.rod.marks)
    assert faults(laid, INCH) == []
    assert min(v.scale * 36 for found, _, _ in lanes(laid) for v in found) >= 24


def test_no_joint_parts_a_flag_from_its_mark() -> None:
    laid = rods.lay(rod_of([sill(i, 34 + i * 3 / 8) for i in range(6)]), INCH, PAPERS["letter"].turned().body)
    ends = [lane.end for lane in laid.lanes[:-1]]
    for label in (v for v in laid.labels if v.flag):
        low, high = sorted((label.mark.station, label.x0 if label.x0 < label.mark.station else label.x1))
        assert not [end for end in ends if low - 0.5 < end < high + 0.5]


def test_what_leaves_no_room_is_refused_with_the_marks() -> None:
    marks = [sill(i, 30 + i * 1 / 4) for i in range(40)]
    with pytest.raises(JobRefused) as refused:
        rods.lay(rod_of(marks), INCH, PAPERS["letter"].turned().body)
    (problem,) = refused.value.problems
    assert problem.file == "Sidewall rod, wall A"
    assert "no room for a joint" in problem.wrong
    assert "like heights" in problem.right


# --- whole jobs ------------------------------------------------------------------------------------------------------


def windows(sills: Sequence[float], **changes: str) -> Building:
    """One window in each bay of a wall of eight, a sill for each."""
    parts = [{**opened.WINDOW, "name": f"W{i}", "bay": i, "sill": at} for i, at in enumerate(sills, 1)]
    return opened.read(*parts, building__length="64'", building__bays=8, **changes)


@pytest.mark.parametrize("edge", ["bottom", "top"])
@pytest.mark.parametrize(("paper", "apart"), [("letter", 3 / 8), ("a4", 1 / 8), ("letter", 1 / 16)])
def test_windows_with_sills_close_together_pass_the_audit(paper: str, apart: float, edge: str, tmp_path: Path) -> None:
    building = windows([36 + i * apart for i in range(4)], girts__edge=edge)
    rod = next(r for r in building.rods if r.name == "Sidewall rod")
    stations = sorted(m.station for m in rod.marks if m.name.startswith("Sill"))
    assert [b - a for a, b in pairwise(stations)] == pytest.approx([apart] * 3)
    for kind in ("rods", "tags", "walls"):
        built = packet.build(building, PAPERS[paper], kind)
        packet.save(built, tmp_path / kind, svg_parts=True)
        assert differences(built, building, tmp_path / kind) == []
    for page in rods.pages(building, PAPERS[paper]):
        assert boxes.overlaps(list(boxes.written(page.drawing.shapes))) == []


@settings(max_examples=examples(6))
@given(st.lists(st.integers(0, 32), min_size=2, max_size=6), st.integers(20, 60))
def test_any_windows_within_two_inches_print_or_are_refused_with_the_reason(
    tmp_path_factory: pytest.TempPathFactory, places: list[int], at: int
) -> None:
    building = windows([at + n / 16 for n in places])
    if any(isinstance(lay(rod, INCH, "letter"), str) for rod in building.rods):
        assert len(places) > 4
        with pytest.raises(JobRefused):
            packet.build(building, PAPERS["letter"], "rods")
        return
    built = packet.build(building, PAPERS["letter"], "rods")
    folder = tmp_path_factory.mktemp("close") / "rods"
    packet.save(built, folder)
    assert differences(built, building, folder) == []
