"""Sheets of walls and roof: the numbers of practice, common differences, areas by shapely, and what cannot be."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import pytest
import shapely
import shapely.ops
from effort import examples
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import Raw, build, refusal
from test_roof_shapes import LEAN, whole

from layouts import cladding
from layouts.building import Building
from layouts.sheeting import Face, order
from sheets import packet
from sheets.audit import differences
from sheets.paper import PAPERS

CLAD = {"cladding.cover": "36", "building.line": "girts", "building.width": "36'"}
DOOR = """{name = "OH", wall = "1", kind = "overhead", width = "9'", height = "9'", at = "16'"}"""
WINDOW = """{name = "WN", wall = "A", kind = "window", width = "4'", height = "3'", sill = "4'", at = "13' 6"}"""
OPEN = {"opening": Raw(f"[{DOOR}, {WINDOW}]"), **CLAD}
SHAPES: dict[str, dict[str, Any]] = {
    "plain": CLAD,
    "from the right": {**CLAD, "cladding.start": "right", "cladding.first_cut": "7"},
    "from the middle": {**CLAD, "cladding.start": "middle", "building.width": "32'", "cladding.roof_start": "back"},
    "two parts": {**OPEN, "cladding.split": "36"},
    "openings whole": {**OPEN, "cladding.openings": "whole"},
    "short sheets": {**OPEN, "cladding.longest": "9'", "cladding.lap": "8"},
    "soffit": {**CLAD, "roof.overhang": "18", "roof.soffit": "level", "roof.end_overhang": "12"},
    "to the chord": {**CLAD, "cladding.gable_top": "chord", "truss.endwall_drop": "3 1/2", "roof.end_overhang": "12"},
    "square fascia": {**CLAD, "roof.overhang": "12", "roof.fascia_cut": "square"},
    "two pitches": {**CLAD, "truss.far_pitch": "6/12", "roof.ridge": "14'"},
    "lean-to": {**LEAN, "cladding.cover": "30"},
    "mono-slope": {"roof.shape": "mono-slope", "truss.pitch": "3/12", "cladding.cover": "36", "roof.overhang": "12"},
    "a narrow strip": {**CLAD, "building.width": "36' 1"},
    "many narrow sheets": {**CLAD, "building.length": "200'", "building.bays": 20, "cladding.cover": "6"},
    "steep": {**OPEN, "truss.pitch": "18/12", "cladding.longest": "16'"},
    "girts between": {**CLAD, "girts.place": "between"},
    "girts inside": {**CLAD, "girts.place": "inside", "cladding.longest": "9'"},
}


def made(changes: Mapping[str, Any]) -> Building:
    return build(dict(changes))


def face(changes: Mapping[str, Any], name: str) -> Face:
    return next(f for f in made(changes).cladding if f.name == name)


# --- numbers of practice --------------------------------------------------------------------------------------------


def test_gable_sheets_of_practice() -> None:
    """Practice, gable panels: 36 in cover at 4/12 grow by 36·4/12 = 12 in; with the eave 151.13 + 2 in above the
    sheets' bottom edge and 1/2 in of clearance 13'-8 5/8" to 18'-8 5/8", six each side. Here that edge is 4 in above
    the grade line: the eave stands at 157.13."""
    one = whole({**CLAD, "truss.eave": "157.13", "cladding.step": "1/32"}, ("truss.bearing",))
    assert one.roof.eave == pytest.approx(157.13)
    found = next(f for f in one.cladding if f.name == "Wall 1")
    want = [13 * 12 + 8.625 + 12 * i for i in range(6)]
    assert [s.length for s in found.sheets] == pytest.approx([*want, *reversed(want)], abs=0.01)
    # 153.13 less 1/2 is 12'-8 5/8" (practice, wall panel)
    (side,) = {round(s.length, 6) for s in next(f for f in one.cladding if f.name == "Wall A").sheets}
    assert side == pytest.approx(12 * 12 + 8.625, abs=0.01)


def test_a_start_that_is_offset_changes_every_length() -> None:
    """Practice: offset by k, every length changes by k·m; here 6 in at 4/12 is 2 in."""
    plain, moved = (face({**CLAD, "cladding.first_cut": k}, "Wall 1") for k in ("0", "6"))
    for one, other in zip(plain.sheets[:5], moved.sheets[:5], strict=True):
        assert one.length - other.length == pytest.approx(6 * 4 / 12)


def test_a_roof_sheet_of_practice() -> None:
    """Practice, roof panel: 240 in of run at 4/12 are 252.98 = 21'-1"; 1 1/2 out at the eave and 1 1/2 open at the
    ridge leave it as long. The run is to the outside of girts: 480 wide there."""
    one = made(
        {**CLAD, "building.width": "40'", "building.front_columns": ["13'", "20'", "27'"], "lumber.stock": ["24'"]}
    )
    for found in one.cladding[-2:]:
        assert found.roof
        assert {round(s.length, 3) for s in found.sheets} == {252.982}
        assert {s.order for s in found.sheets} == {252.875}


@pytest.mark.parametrize(
    ("rise", "spacing", "want"), [(4, 36, 12), (6, 16, 8), (5, 36, 15), (3, 30, 7.5), (12, 36, 36)]
)
def test_common_differences(rise: int, spacing: int, want: float) -> None:
    """The common difference of uprights under a slope is their spacing times the slope: 16 in at 6/12 are 8 in
    (practice, gable ends)."""
    found = face({**CLAD, "truss.pitch": f"{rise}/12", "cladding.cover": str(spacing)}, "Wall 1")
    left = [s.length for s in found.sheets if s.right < 216 - 1.5 - spacing]
    assert len(left) > 2
    assert [b - a for a, b in pairwise(left)] == pytest.approx([want] * (len(left) - 1))


def test_roof_sheets_over_two_pitches_by_pythagoras() -> None:
    """Both slopes end at one ridge of the roof sheets, 1 1/2 below it; the purlins' depth stands square to each, so
    that it is not over the chords' ridge."""
    one = made(SHAPES["two pitches"])
    for found, corner in zip(one.cladding[-2:], (-1.5, one.roof.across + 1.5), strict=True):
        (long,) = {round(s.length, 6) for s in found.sheets}
        planes = one.roof.cover.planes
        at = (planes[1].over(0) - planes[0].over(0)) / (planes[0].slope - planes[1].slope)
        rise = one.roof.cover.over(at) - one.roof.cover.over(corner)
        assert long == pytest.approx(math.hypot(at - corner, rise), abs=1e-5)  # 1 1/2 out and 1 1/2 open


def test_a_mono_slope_and_a_lean_to() -> None:
    """One slope: from fascia to fascia flush at the high side, 1 1/2 out at the low one; of a lean-to 1 1/2 open at the
    wall that stands."""
    mono = made(SHAPES["mono-slope"])
    m, across = mono.roof.left.inward, mono.roof.across + 24
    assert mono.cladding[-1].sheets[0].length == pytest.approx(across * math.hypot(1, m) + 1.5)
    lean = made(SHAPES["lean-to"])
    m, across = lean.roof.left.inward, lean.roof.across + lean.job.girt_out
    assert lean.cladding[-1].sheets[0].length == pytest.approx(across * math.hypot(1, m))
    assert len(lean.cladding) == 4  # three walls and a slope


# --- areas ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SHAPES)
def test_sheets_cover_the_walls_and_nothing_twice(name: str) -> None:
    """By shapely: the union of a wall's sheets is the wall under its line less openings that sheets stand over; what is
    covered twice are end laps. What is left bare in a sheet's strip are openings and the gap over lower sheets."""
    one = made(SHAPES[name])
    part = one.job.cladding
    for found in one.cladding:
        shapes = [shapely.Polygon(s.outline) for s in found.sheets]
        assert all(s.is_valid and s.area > 0 for s in shapes)
        union = shapely.ops.unary_union(shapes)
        twice = sum(s.area for s in shapes) - union.area
        if found.roof:
            long = cladding.slope_length(one.job, one.roof, found.side)
            whole = shapely.box(found.left, 0, found.right, long)
            lapped = len(found.laps) * part.lap * (found.right - found.left)
        else:
            line = next(w for w in one.plan.walls if w.side == found.side)
            top = cladding.upper(one.job, one.roof, line).profile(found.left, found.right)
            whole = shapely.Polygon([(found.left, part.uncovered), *top, (found.right, part.uncovered)])
            if (at := cladding.split(one.job)) is not None:
                whole -= shapely.box(found.left, at, found.right, at + part.split_gap)
            for s in found.sheets if part.openings == "parts" else ():
                for o in found.openings:
                    if o.left <= s.left + 1e-6 and s.right <= o.right + 1e-6:
                        whole -= shapely.box(s.left, o.low, s.right, o.high)
            lapped = twice if found.laps else 0.0
        assert union.symmetric_difference(whole).area == pytest.approx(0.0, abs=1e-3)
        assert twice == pytest.approx(lapped, abs=1e-3)


def test_a_gable_with_parts_over_and_under_an_opening() -> None:
    """A door of 9 ft at 16 ft, its rough opening 136 1/2 to 247 1/2 from the corner: joints stand every 36, so that
    sheets 5 (144 to 180) and 6 (to 216) stand over it whole. A window from 137 3/4 to 186 1/4 has sheet 5 in two
    parts."""
    gable = face(OPEN, "Wall 1")
    over = [s for s in gable.sheets if s.where]
    assert [(s.name, s.where) for s in over] == [("5", "over OH"), ("6", "over OH")]
    assert all(s.low == pytest.approx(gable.openings[0].high) for s in over)
    side = face(OPEN, "Wall A")
    (window,) = side.openings
    parts = [s for s in side.sheets if s.part]
    assert [(s.name, s.where) for s in parts] == [("5a", "under WN"), ("5b", "over WN")]
    assert parts[0].low + parts[0].length == pytest.approx(window.low)
    assert parts[1].low == pytest.approx(window.high)


# --- what is ordered ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SHAPES)
def test_the_order_is_every_sheet_once(name: str) -> None:
    one = made(SHAPES[name])
    listed = order(one.cladding)
    sheets = [s for f in one.cladding for s in f.sheets]
    assert sum(n for *_, n in listed) == len(sheets)
    assert math.fsum(long * n for _, long, n in listed) == pytest.approx(math.fsum(s.order for s in sheets))
    for s in sheets:
        off = s.order - s.length
        sloped = max(y for _, y in s.top) - min(y for _, y in s.top) > 1e-6
        assert (0 <= off < 0.125) if sloped else (-0.125 < off <= 1e-6) or off == pytest.approx(0)


@settings(max_examples=examples(30), deadline=None)
@given(st.integers(2, 24), st.floats(12, 48), st.floats(0, 11))
def test_mirrored_walls_have_mirrored_sheets(rise: int, cover: float, cut: float) -> None:
    """The front from the left is the back from the right."""
    size = {**CLAD, "truss.far_pitch": f"{rise}/12", "cladding.cover": cover, "cladding.first_cut": cut}
    front = next(f for f in made(size).cladding if f.name == "Wall 1")
    back = next(f for f in made({**size, "cladding.start": "right"}).cladding if f.name == "Wall 7")
    assert [s.order for s in front.sheets] == pytest.approx([s.order for s in back.sheets])
    assert [s.edges for s in front.sheets] == [pytest.approx(s.edges[::-1], abs=1e-6) for s in back.sheets]


# --- refused --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "want"),
    [
        ({"cladding.first_cut": "36"}, "leaves nothing of the first sheet"),
        ({"cladding.roof_cover": "24", "cladding.roof_first_cut": "30"}, "leaves nothing of the first sheet"),
        ({"cladding.longest": "4'", "cladding.lap": "20"}, "is most of the longest sheet"),
        ({"cladding.split": "14'"}, "is not a height between the sheets' edges"),
        ({"cladding.split": "6", "cladding.uncovered": "7"}, "is not a height between the sheets' edges"),
        ({"cladding.cover": "2"}, "cladding.cover"),
    ],
)
def test_what_cannot_be_is_refused(changes: dict[str, Any], want: str) -> None:
    assert want in refusal({**CLAD, **changes})


def test_what_wants_a_look_is_said() -> None:
    assert any("narrow strip" in w for w in made({**CLAD, "building.width": "36' 1"}).warnings)
    assert any("do not reach down" in w for w in made({**CLAD, "cladding.uncovered": "8"}).warnings)
    assert any("notched round the tails" in w for w in made({**CLAD, "roof.overhang": "12"}).warnings)
    assert not [w for w in made(SHAPES["soffit"]).warnings if w.startswith("Sheets")]


def test_nothing_is_laid_out_where_nothing_is_said(tmp_path: Path) -> None:
    plain = made({})
    assert plain.cladding == ()
    assert not [s for s in packet.build(plain, PAPERS["letter"]).sheets if s.kind == "cladding"]
    only = packet.build(plain, PAPERS["letter"], "cladding")
    assert "says nothing of sheets" in " ".join(t.words for t in boxes.written(only.sheets[0].page.drawing.shapes))
    packet.save(only, tmp_path / "t")
    assert differences(only, plain, tmp_path / "t") == []
    assert differences(only, made(CLAD), tmp_path / "t")


# --- on paper -------------------------------------------------------------------------------------------------------


def printed_words(one: Building, paper: str = "letter") -> str:
    return words_of(packet.build(one, PAPERS[paper], "cladding"))


def words_of(printed: packet.Packet) -> str:
    return " ".join(t.words for s in printed.sheets for t in boxes.written(s.page.drawing.shapes))
