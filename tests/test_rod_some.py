"""Marks of a rod that are for some columns only."""

from __future__ import annotations

import boxes
import opened
import pytest
from effort import examples
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from test_rod import GIRT, INCH, crosses, footprint, lane_groups, mark_group, one, upright

from layouts.building import Building
from layouts.rods import Mark, Rod
from sheets import packet
from sheets.audit import differences
from sheets.flags import label_all
from sheets.lanes import Lane
from sheets.paper import PAPERS
from sheets.shapes import MEDIUM, Group, Recorder
from sheets.strip import HEIGHT, draw_lane

HEADER = Mark("Header D9", "board", 24.0, 24.0, 29.5, "bottom", "2x6", only=("A6", "A5"))


def said(mark: Mark) -> list[str]:
    return [t.words for t in boxes.written(mark_group(one(mark)).shapes)]


def test_a_mark_for_some_columns_says_which() -> None:
    assert said(HEADER) == ["2'-0\"", "HEADER D9 2x6 bottom: A6, A5 only"]


def test_a_mark_for_many_columns_says_how_many() -> None:
    names = tuple(f"A{i}" for i in range(1, 6))
    assert "HEADER D9 2x6 bottom: 5 columns only, see tags" in said(replace(HEADER, only=names))
    assert "HEADER D9 2x6 bottom: A1, A2, A3, A4 only" in said(replace(HEADER, only=names[:4]))


def test_a_mark_for_some_columns_stands_in_the_lower_band() -> None:
    """Beside a girt that begins at the same height both are read whole: one over the other."""
    girt = replace(GIRT, name="Girt 2")
    rod = Rod("Sidewall rod", ("A",), False, (girt, HEADER), 60.0)
    labels = {v.mark.name: v for v in label_all(rod, INCH, 8.0)}
    assert labels["Girt 2"].scale == labels["Header D9"].scale == 1
    pen = Recorder(62, HEIGHT + 2)
    draw_lane(pen, 1, 1, rod, Lane(1, 0.0, 60.0, True), 1, list(labels.values()), INCH)
    groups = {g.name: g for g in boxes.groups(pen.drawing().shapes, holds="-mark-")}
    words = [
        t.box
        for name in ("header-d9", "girt-2")
        for t in boxes.written(groups[f"sidewall-rod-wall-a-mark-{name}"].shapes)
    ]
    assert max(b.y1 for b in words[:2]) < min(b.y0 for b in words[2:])


def test_its_line_x_and_footprint_are_there_all_the_same() -> None:
    drawing = one(HEADER)
    group = mark_group(drawing)
    assert {s.x0 for s in upright(group, MEDIUM)} == {25.0}  # foot at 1, station 24
    cross = crosses(group)
    assert 25 < cross.x0 < cross.x1 < 25 + 5.5  # on the side the board covers
    assert (footprint(drawing).x0, footprint(drawing).x1) == (25.0, 30.5)


def texts_of(group: Group) -> list[boxes.Written]:
    return list(boxes.written(group.shapes))


def test_headers_a_quarter_inch_apart_are_read_one_over_the_other() -> None:
    """A door's header at 85 1/2, a window's at 85 3/4."""
    window = {**opened.WINDOW, "wall": "G", "bay": 4, "sill": "3'-9 3/4"}
    groups = [g for _, _, g in lane_groups(opened.read(opened.DOOR, window), "letter")]
    marks = [g for group in groups for g in boxes.groups(group.shapes, holds="-mark-header")]
    assert len(marks) == 2
    # beside the first line its X would lie across the second one: the line farther from the words is the taller
    ends = [(min(t.box.y0 for t in found), max(t.box.y1 for t in found)) for found in map(texts_of, marks)]
    assert ends[0][0] > ends[1][1]
    words = [t for g in marks for t in texts_of(g)]
    assert boxes.overlaps(words) == []
    assert min(t.size for t in words if t.words.startswith("7'")) >= 30 / 72


@settings(max_examples=examples(5), suppress_health_check=[HealthCheck.too_slow])
@given(opened.buildings(), st.sampled_from(["letter", "a4"]))
def test_rods_tags_and_tables_with_any_openings_pass_the_audit(
    tmp_path_factory: pytest.TempPathFactory, building: Building, paper: str
) -> None:
    for kind in ("rods", "tags", "cuts"):
        folder = tmp_path_factory.mktemp("any") / kind
        built = packet.build(building, PAPERS[paper], kind)
        packet.save(built, folder)
        assert differences(built, building, folder) == []
