"""Sheets of walls and roof: the numbers of practice, common differences, areas by shapely, and what is printed."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import pytest
import shapely
import shapely.ops
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import METRIC, Raw, build, refusal
from test_roof_shapes import LEAN, whole

from layouts import cladding, purlins
from layouts.building import Building
from layouts.lengths import show
from layouts.sheeting import Face, order, parted, strips
from sheets import compare_sheets, packet, report
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


# --- strips and laps ------------------------------------------------------------------------------------------------


@given(
    st.floats(-10, 0), st.floats(60, 900), st.floats(12, 48), st.sampled_from(["left", "right", "middle"]),
    st.floats(0, 11.9),
)  # fmt: skip
def test_strips_cover_a_wall_once(left: float, right: float, cover: float, start: str, cut: float) -> None:
    found = sorted(strips(left, right, cover, start, cut))
    assert found[0][0] == left
    assert found[-1][1] == right
    assert all(a[1] == pytest.approx(b[0]) for a, b in pairwise(found))
    whole = found[1:-1]
    assert [b - a for a, b in whole] == pytest.approx([cover] * len(whole))
    assert max(found[0][1] - found[0][0], found[-1][1] - found[-1][0]) <= cover + 1e-5
    if start == "left" and cover - cut > 1e-5:
        assert found[0][1] - found[0][0] == pytest.approx(min(cover - cut, right - left))
    if start == "middle":
        joint = (left + right) / 2 + cut
        assert any(abs(a - joint) < 1e-4 for a, _ in found[1:]) or joint >= right


@given(st.floats(100, 2000), st.floats(48, 480), st.floats(1, 15), st.lists(st.floats(0, 2000), max_size=40))
def test_laps_join_a_run(long: float, longest: float, lap: float, stops: list[float]) -> None:
    pieces, laps = parted(0.0, long, sorted(stops), longest, lap)
    assert pieces[0][0] == 0.0
    assert pieces[-1][1] == long
    assert all(b - a <= longest + 1e-5 for a, b in pieces)
    assert [a[1] - b[0] for a, b in pairwise(pieces)] == pytest.approx([lap] * (len(pieces) - 1))
    assert [(a[1] + b[0]) / 2 for a, b in pairwise(pieces)] == pytest.approx([at for at, _ in laps])
    assert all(any(abs(at - s) < 1e-9 for s in stops) for at, on in laps if on)


def test_end_laps_lie_over_girts_and_purlins() -> None:
    one = made({**CLAD, "cladding.longest": "9'", "cladding.lap": "8"})
    rows = [(r.low + r.high) / 2 for r in one.rows.end]
    gable = next(f for f in one.cladding if f.name == "Wall 1")
    assert gable.laps
    assert all(over == "a girt" and any(abs(at - y) < 1e-5 for y in rows) for at, over in gable.laps)
    # the gable's lower laps go on from the sidewalls': one line all round
    side = next(f for f in one.cladding if f.name == "Wall A")
    assert side.laps[0] == gable.laps[0]


def test_a_roofs_laps_lie_over_purlins_by_plain_vectors() -> None:
    """The purlin's foot on the chord plus its depth along the normal of the slope is where the sheet lies on it."""
    one = made({**SHAPES["square fascia"], "cladding.longest": "11'"})
    slope = purlins.slopes(one.job, one.roof)[0]
    m = slope.slope
    along, normal = (1 / math.hypot(1, m), m / math.hypot(1, m)), (-m / math.hypot(1, m), 1 / math.hypot(1, m))
    edge = (-12.0, one.roof.cover.over(-12.0))  # overhang 12 from the columns, at the roof sheets' height
    places = []
    for at in slope.purlins:
        foot = (-slope.tail, one.roof.chord.over(-slope.tail))
        middle = [foot[i] + along[i] * (at + 0.75) + normal[i] * 5.5 for i in (0, 1)]
        places.append(sum((middle[i] - edge[i]) * along[i] for i in (0, 1)) + 1.5)
        assert one.roof.cover.over(middle[0]) == pytest.approx(middle[1])
    (lap,) = next(f for f in one.cladding if f.roof).laps
    assert lap[1] == "a purlin"
    assert any(abs(lap[0] - at) < 1e-6 for at in places)


def test_a_lap_over_nothing_is_said() -> None:
    found = face(SHAPES["girts inside"], "Wall 1")
    assert found.laps
    assert all(over == "" for _, over in found.laps)
    assert "over NOTHING: add a board there" in printed_words(made(SHAPES["girts inside"]))


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


@settings(max_examples=30, deadline=None)
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


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", SHAPES)
def test_sheets_are_printed_and_read_back(name: str, paper: str, tmp_path: Path) -> None:
    one = made(SHAPES[name])
    printed = packet.build(one, PAPERS[paper], "cladding")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, one, tmp_path / "t") == []
    for sheet in printed.sheets:
        written = list(boxes.written(sheet.page.drawing.shapes))
        assert boxes.overlaps(written) == [], sheet.title
        assert boxes.crossed(sheet.page.drawing.shapes) == [], sheet.title
    assert "MEASURE THE STANDING BUILDING BEFORE YOU ORDER" in words_of(printed)


@pytest.mark.parametrize(
    "changes",
    [
        {"cladding.cover": "35"},
        {"cladding.first_cut": "1"},
        {"cladding.uncovered": "4 1/2"},
        {"cladding.step": "1/4"},
        {"cladding.drip": "2"},
        {"truss.pitch": "4 1/4 / 12"},
    ],
)
def test_other_jobs_sheets_are_found_out(changes: dict[str, Any], tmp_path: Path) -> None:
    one = made(CLAD)
    printed = packet.build(one, PAPERS["letter"], "cladding")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, made({**CLAD, **changes}), tmp_path / "t")


def test_a_metric_wall_is_in_millimetres() -> None:
    """15 degrees: 1000·tan 15° = 267.9."""
    one = build({"cladding.cover": 1000, "truss.pitch": "15 deg"}, base=METRIC)
    words = printed_words(one, "a4")
    assert '"' not in words
    assert "'" not in words.replace("sheets'", "").replace("maker's", "")
    gable = next(f for f in one.cladding if f.name in ("Wall 1", "Wall S"))
    lengths = [s.length * 25.4 for s in gable.sheets[:3]]
    assert [b - a for a, b in pairwise(lengths)] == pytest.approx([267.949] * 2, abs=1e-3)


def test_json_and_changes_tell_of_sheets() -> None:
    old, new = (report.as_json(made(c)) for c in (CLAD, {**CLAD, "cladding.first_cut": "6"}))
    assert old["cladding"]["order"][0]["count"] == 4
    assert old["cladding"]["faces"][1]["sheets"][0]["length"]["text"]
    assert report.as_json(made({}))["cladding"] is None
    told = compare_sheets.lists(old, new)
    assert told["cladding", "Sheets, Wall 1"][0].startswith("other sheets 1, 2, 3")
    assert told["cladding", "Sheets to order"]
    assert told["cladding", "Sheets, Roof over wall A"] == ()


def test_a_sheet_that_is_drawn_wrong_is_found(tmp_path: Path) -> None:
    """A layout whose third sheet is an inch longer than the job's."""
    one = made(CLAD)
    sheets = list(one.cladding[1].sheets)
    sheets[2] = replace(sheets[2], top=tuple((x, y + 1.0) for x, y in sheets[2].top))
    wrong = replace(one, cladding=(one.cladding[0], replace(one.cladding[1], sheets=tuple(sheets)), *one.cladding[2:]))
    printed = packet.build(wrong, PAPERS["letter"], "cladding")
    packet.save(printed, tmp_path / "t")
    assert any("sheet 3 in its place" in str(d) for d in differences(printed, one, tmp_path / "t"))


def test_check_lists_what_sheets_to_order() -> None:
    """As on the sheet: as many of each kind and length."""
    one = made(CLAD)
    shown = report.as_text(one).partition("SHEETS TO ORDER")[2].splitlines()[2:]
    assert [" ".join(line.split()) for line in shown if line.strip()] == [
        f"{n} {kind} {show(long, one.job.style)}" for kind, long, n in order(one.cladding)
    ]
    assert "SHEETS TO ORDER" not in report.as_text(made({}))
