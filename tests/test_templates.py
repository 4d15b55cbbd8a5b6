"""Templates: cuts as steep as they are to be, held against arithmetic, framing squares, shapely and
what is read back."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import pdfplumber
import pytest
import shapely
from jobs import METRIC, build, every, job
from shapely import affinity
from shapely.ops import split
from test_roof_shapes import LEAN

from layouts import templates as layout
from layouts.building import Building, lay_out
from layouts.lengths import Style
from layouts.template import Template
from sheets import packet, templates
from sheets.audit import differences
from sheets.packet import Packet
from sheets.paper import PAPERS
from sheets.profile import Profile
from sheets.shapes import THICK, Drawing, Group, Line, Shape, moved

LEVEL_SOFFIT = {"truss.top_chord": "2x6", "roof.overhang": "18", "roof.soffit": "level", "roof.fascia": "9 1/4"}
SHAPES: dict[str, dict[str, Any]] = {
    "gable": {},
    "offset ridge": {"roof.ridge": "12'"},
    "two pitches": {"truss.far_pitch": "6/12", "roof.overhang": "12", "truss.top_chord": "2x6"},
    "unequal eaves": {"truss.far_bearing": "14'"},
    "mono-slope": {"roof.shape": "mono-slope", "truss.pitch": "2/12", "roof.overhang": "12"},
    "lean-to": {**LEAN, "truss.pitch": "2/12"},
    "dropped endwall truss": {"truss.endwall_drop": "5 1/2", "roof.end_overhang": "12"},
    "girts between": {"girts.place": "between"},
    "rakes": {"girts.rake": "2x6", "truss.top_chord": "2x6", "roof.overhang": "18"},
    "level soffit": LEVEL_SOFFIT,
    "square fascia, level soffit": {**LEVEL_SOFFIT, "roof.fascia_cut": "square"},
    "square fascia": {"truss.top_chord": "2x4", "roof.overhang": "18", "roof.fascia_cut": "square"},
    "no top chord given": {"roof.overhang": "18"},
    "shoulder": {"column.make": "solid", "tops.seat": "shoulder", "tops.shoulder": "back"},
    "carriers": {"tops.seat": "flat", "carrier.board": "2x12", "carrier.let_in": "1 1/2"},
    "steep": {"truss.pitch": "18/12"},
    "turned": {"column.endwall_face": "depth", "tops.endwall_centre": "bearing", "tops.endwall_ears": "roof"},
    "deep columns": {"column.width": "8", "column.depth": "16", "column.endwall_face": "depth", "truss.pitch": "12/12"},
    "many names": {"building.length": "400'", "building.bays": 50},
}
SQUARE = {2: 12.17, 3: 12.37, 4: 12.65, 5: 13.00, 6: 13.42, 8: 14.42, 10: 15.62, 12: 16.97, 18: 21.63}
"""Inches of rafter a foot of run, as stamped on framing squares (seen); the third digit at 2 is stamped 16 too."""


def laid(one: Building) -> tuple[Template, ...]:
    return layout.lay(one.job, one.plan, one.roof, one.rows)


def only(changes: Mapping[str, Any], kind: str, head: str = "") -> list[Template]:
    found = [t for t in laid(build(dict(changes))) if t.key.endswith(f"-{kind}")]
    return [t for t in found if t.title.startswith(head)]


def said(one: Template, metric: bool = False) -> list[str]:
    return [figure.text(Style("mm" if metric else "in")) for figure in one.figures]


def flat(one: Template) -> list[float]:
    """The coordinates of its cuts, one after the other."""
    return [c for path in one.cuts for p in path for c in p]


def long(one: Template) -> float:
    return math.fsum(math.dist(a, b) for path in one.cuts for a, b in pairwise(path))


# --- tops of columns ------------------------------------------------------------------------------------------------


def test_ears_rise_by_the_pitch_over_the_depth_of_the_column() -> None:
    """5 1/2 at 4/12: 1 5/6 (practice: long point = short + d·m); 29.33/16, so 1 13/16."""
    (ears,) = only({}, "top", "EARS")
    assert flat(ears) == pytest.approx([0.0, 0.0, 5.5, 5.5 / 3])
    assert said(ears) == ['RISE 1 13/16" over 5 1/2"']
    assert [f.text(Style("in", 32)) for f in ears.figures] == ['RISE 1 27/32" over 5 1/2"']  # 58.67/32
    assert set(ears.whom) == {s.name for s in build({}).plan.spots if s.role != "end"}


@pytest.mark.parametrize("pitch", SQUARE)
def test_cuts_are_as_long_as_the_framing_square_says(pitch: int) -> None:
    """Over 5 1/2 of depth and a foot of it the cut is as much longer as a rafter over its run: two decimals a foot."""
    changes = {"truss.pitch": f"{pitch}/12", "truss.top_chord": "2x6", "roof.overhang": "6"}
    near = 0.0101 * 5.5 / 12
    (ears,) = only(changes, "top", "EARS")
    assert long(ears) == pytest.approx(5.5 * SQUARE[pitch] / 12, abs=near)
    (tail,) = only(changes, "tail")  # a plumb cut through 5 1/2 square
    assert long(tail) == pytest.approx(5.5 * SQUARE[pitch] / 12, abs=near)
    (girt,) = only(changes, "girt")  # 3 1/2 of rise
    assert long(girt) == pytest.approx(3.5 * SQUARE[pitch] / pitch, abs=0.0101 * 3.5 / pitch)


def test_the_far_wall_of_a_single_slope_has_its_long_point_outside() -> None:
    """2/12: 5 1/2 rise 11/12."""
    near, far = only(SHAPES["mono-slope"], "top", "EARS")
    assert flat(near) == pytest.approx([0.0, 0.0, 5.5, 11 / 12])
    assert flat(far) == pytest.approx([0.0, 11 / 12, 5.5, 0.0])
    assert {name[0] for name in near.whom} == {"A"}
    assert {name[0] for name in far.whom} == {"G"}


def test_endwall_cuts_are_drawn_across_their_width() -> None:
    """4 1/2 at 4/12 is 1 1/2 (practice: difference = w·m = 1 1/2). C1 stands at the front left of the ridge, seen from
    outside high on its right; B7 at the back, where the near slope is on the right hand."""
    tops = only({}, "top", "TOP")
    assert [said(t) for t in tops] == [['RISE 1 1/2" over 4 1/2"']] * 2
    shapes = {name: t.cuts[0] for t in tops for name in t.whom}
    assert shapes["C1"] == ((0.0, 0.0), (4.5, 1.5))
    assert shapes["B7"] == ((0.0, 1.5), (4.5, 0.0))


def test_a_turned_endwall_column_is_cut_across_its_depth() -> None:
    """5 1/2 at 4/12 again; the centre ply ends level at the bearing, and needs no pattern."""
    tops = only(SHAPES["turned"], "top", "TOP")
    assert {abs(t.cuts[0][-1][1] - t.cuts[0][0][1]) for t in tops} == {round(5.5 / 3, 9)}
    assert all("OUTER PLIES" in t.title for t in tops)


def test_a_double_cut_has_its_ridge_where_it_stands_in_the_column() -> None:
    """Ridge 12 ft from the building line, 142 1/2 from the columns; a column centred at 12 ft 1 has it 1 1/4 from its
    left edge at the front: 142 1/2 - (143 1/2 - 2 1/4). The far slope falls 47 1/2 over 238 1/2 (like bearings)."""
    changes = {"roof.ridge": "12'", "building.front_columns": ["12'-1", "22'"]}
    (ridge,) = [t for t in only(changes, "top", "RIDGE") if len(t.whom) == 1]
    left, right = 1.25 / 3, 3.25 * 47.5 / 238.5
    assert flat(ridge) == pytest.approx([0.0, right - left, 1.25, right, 4.5, 0.0])
    assert said(ridge) == ['LEFT of the ridge: RISE 7/16" over 1 1/4"', 'RIGHT of it: RISE 5/8" over 3 1/4"']
    assert ridge.whom == ("C1",)


def test_every_column_has_the_pattern_of_its_own_tag() -> None:
    """Patterns against the cuts that stand on the tags, printed from other numbers: high less low, edge by edge."""
    for name, changes in SHAPES.items():
        made = job(changes)
        one = lay_out(made, every(made))
        tops = [t for t in laid(one) if t.key.endswith("-top") and "CENTRE" not in t.title]
        found = Counter(who for t in tops for who in t.whom if " " not in who)
        assert set(found.values()) <= {1}, name
        for column in one.columns:
            cuts = {c.key: c.station for c in column.cuts}
            pairs = (("short_point", "long_point"), ("low_edge", "high_edge"))
            for low, high in pairs:
                if low in cuts and cuts[high] - cuts[low] > 1e-6:
                    own = [t for t in tops if column.name in t.whom or any(" all " in f" {w} " for w in t.whom)]
                    rises = {round(max(y for _, y in t.cuts[0]), 6) for t in own}
                    assert round(cuts[high] - cuts[low], 6) in rises, (name, column.name)


# --- slots and shoulders ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "head", "figure", "away", "across"),
    [
        ({}, "SLOT", 'SLOT 1 1/2"', [1.5], "depth"),
        ({"column.plies": "4", "column.width": "6", "truss.each": "2"}, "SLOT", 'SLOT 3"', [3.0], "depth"),
        (SHAPES["shoulder"], "SHOULDER for the truss", 'NOTCH 1 1/2"', [1.5], "depth"),
        (
            {**SHAPES["shoulder"], "tops.shoulder": "both"},
            "SHOULDER for the truss",
            'NOTCH 1 1/2"',
            [1.5, 1.5],
            "depth",
        ),
        (SHAPES["carriers"], "SHOULDERS for carriers", 'LET IN 1 1/2"', [1.5, 1.5], "width"),
    ],
)
def test_gauges_are_the_end_of_the_column(
    changes: dict[str, Any], head: str, figure: str, away: list[float], across: str
) -> None:
    """What falls away is as much of the column's end as it is to be, where the word stands."""
    gauges = only(changes, "gauge")
    assert len(gauges) == (2 if changes.get("tops.shoulder") == "back" else 1)
    for gauge in gauges:
        assert gauge.title.startswith(head)
        assert said(gauge)[0] == figure
        column = build(changes).job.column
        end = shapely.Polygon(gauge.edges[0])
        assert end.area == pytest.approx(column.width * column.depth)
        pieces = split(end, shapely.MultiLineString(gauge.cuts[:1]))
        for cut in gauge.cuts[1:]:
            pieces = shapely.GeometryCollection(
                [p for g in pieces.geoms for p in split(g, shapely.LineString(cut)).geoms]
            )
        words = [shapely.Point(label.at) for label in gauge.labels if label.word in ("WASTE", "SLOT")]
        found = [p.area for p in pieces.geoms if any(p.contains(word) for word in words)]
        other = column.depth if across == "depth" else column.width
        assert found == pytest.approx([inches * other for inches in away])


def test_a_shoulder_on_one_side_changes_hands_at_the_wall_opposite() -> None:
    """Looking out at wall A the front of the building is on the left; looking out at the wall opposite on the right."""
    near, far = only({**SHAPES["shoulder"], "tops.shoulder": "front"}, "gauge")
    wide = build(SHAPES["shoulder"]).job.column.width
    assert near.cuts[0][0][0] == 1.5
    assert far.cuts[0][0][0] == wide - 1.5
    for one, words in ((near, ("FRONT", "BACK")), (far, ("BACK", "FRONT"))):
        places = {label.word: label.at[0] for label in one.labels}
        assert places[words[0]] < 0 < wide < places[words[1]]


def test_a_slot_is_as_deep_as_from_the_bearing_to_the_short_point() -> None:
    """Heel 9 1/4 and a 2x6 on edge at 4/12: 9.25 + 5.5·sqrt(10)/3 = 15.0475 less the clearance."""
    (gauge,) = only({}, "gauge")
    deep = next(f.inches for f in gauge.figures if f.name.startswith("DEEP"))
    assert deep == pytest.approx(9.25 + 5.5 * math.sqrt(10) / 3 - build({}).job.tops.clearance)
    two = [f for f in only(SHAPES["two pitches"], "gauge")[0].figures if f.name.startswith("DEEP")]
    # steeper over the same heel: the purlin takes more, 5.5·sqrt(5)/2
    assert two[1].inches - two[0].inches == pytest.approx(5.5 * (math.sqrt(5) / 2 - math.sqrt(10) / 3))


# --- tails ------------------------------------------------------------------------------------------------------------


def turned(one: Template, slope: float) -> list[shapely.LineString]:
    """Its cuts as they lie when the truss stands."""
    return [
        affinity.rotate(shapely.LineString(path), math.atan(slope), origin=(0, 0), use_radians=True)
        for path in one.cuts
    ]


def test_a_plumb_tail_goes_back_by_its_depth_times_the_pitch() -> None:
    """2x6 at 4/12: 5 1/2 / 3 = 1 5/6; its plumb cut is 5 1/2 · 1.0541 = 5.797 long, and plumb when the truss stands."""
    (tail,) = only(SHAPES["rakes"], "tail")
    assert flat(tail) == pytest.approx([0.0, 5.5, -5.5 / 3, 0.0])
    assert said(tail) == ['PLUMB CUT: TOP edge BACK 1 13/16" on 5 1/2"']
    (cut,) = turned(tail, 1 / 3)
    x0, y0, x1, y1 = cut.bounds
    assert x1 - x0 == pytest.approx(0.0, abs=1e-8)
    assert y1 - y0 == pytest.approx(5.7975, abs=1e-4)  # references: 5.5 at 4/12


def test_the_high_tail_of_a_single_slope_is_plumb_too() -> None:
    """2/12. Inward is downhill there: standing, the chord falls to the right."""
    low, high = only({**SHAPES["mono-slope"], "truss.top_chord": "2x6"}, "tail")
    for tail, slope, word in ((low, 1 / 6, "TOP"), (high, -1 / 6, "BOTTOM")):
        (cut,) = turned(tail, slope)
        assert cut.bounds[2] - cut.bounds[0] == pytest.approx(0.0, abs=1e-8)
        assert cut.length == pytest.approx(5.5 * math.sqrt(37) / 6)
        assert said(tail) == [f'PLUMB CUT: {word} edge BACK 15/16" on 5 1/2"']  # 11/12 is 14.67/16


def test_a_level_soffit_cuts_the_tail_level() -> None:
    """Fascia 9 1/4 down from the purlin tops, and 2x6 purlins there take 5.7975 of it. The tail's corner is 1 1/2 short
    of the overhang, where the slope is 1/2 higher: 3.9525 of plumb cut are left, then level to the underside."""
    (tail,) = only(LEVEL_SOFFIT, "tail")
    plumb_cut, level = turned(tail, 1 / 3)
    assert plumb_cut.length == pytest.approx(9.25 - 5.5 * math.sqrt(10) / 3 + 0.5)
    assert plumb_cut.bounds[2] - plumb_cut.bounds[0] == pytest.approx(0.0, abs=1e-8)
    assert level.bounds[3] - level.bounds[1] == pytest.approx(0.0, abs=1e-8)
    assert tail.cuts[1][-1][1] == 0.0
    # what is left of the chord's depth over what is level: as the pitch
    down, over = next((f.inches, f.on) for f in tail.figures if f.name.startswith("LEVEL"))
    assert over is not None
    assert down / over == pytest.approx(1 / 3)


def test_a_square_tail_is_square_and_its_soffit_level() -> None:
    (tail,) = only(SHAPES["square fascia"], "tail")
    assert tail.cuts == (((0.0, 3.5), (0.0, 0.0)),)
    (tail,) = only(SHAPES["square fascia, level soffit"], "tail")
    assert tail.cuts[0][0][0] == tail.cuts[0][1][0] == 0.0
    level = turned(tail, 1 / 3)[1]
    assert level.bounds[3] - level.bounds[1] == pytest.approx(0.0, abs=1e-8)


def test_tails_of_unknown_chords_are_drawn_for_the_usual_depths() -> None:
    """4/12 on 3 1/2 and 5 1/2 (PS 20): 1.1667, 1.8333."""
    (tail,) = only(SHAPES["no top chord given"], "tail")
    assert [f.inches for f in tail.figures] == pytest.approx([3.5 / 3, 5.5 / 3])
    ends = [edge[0] for edge in tail.edges[1:]]
    assert [5.5 - y for _, y in ends] == [3.5, 5.5]
    assert [-x for x, _ in ends] == pytest.approx([3.5 / 3, 5.5 / 3])


def test_only_sides_with_an_overhang_have_tails() -> None:
    assert only({}, "tail") == []
    (one,) = only({"roof.overhang": "18", "roof.far_overhang": "0"}, "tail")
    assert one.whom == ("wall A",)


# --- boards of the gables --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pitch", "text"),
    [
        ("4/12", '10 1/2" back on 3 1/2"'),
        ("5/12", '8 3/8" back on 3 1/2"'),
        ("2/12", '21" back on 3 1/2"'),
        ("18/12", '2 5/16" back on 3 1/2"'),
    ],
)
def test_a_gable_girts_end_goes_back_by_its_width_over_the_pitch(pitch: str, text: str) -> None:
    """3 1/2 wide at 4/12: 10 1/2 (practice: taper each end = 3.5/m); 3.5·12/5 = 8.4; 3.5/1.5 = 2.333."""
    (end,) = only({"truss.pitch": pitch}, "girt")
    assert said(end) == [text]
    (path,) = end.cuts
    rise = float(pitch.partition("/")[0])
    assert path[1][0] == pytest.approx(3.5 * 12 / rise)
    # the triangle that falls away is half of what the rectangle over it would be
    assert shapely.Polygon([*path, (0.0, 3.5)]).area == pytest.approx(3.5 * path[1][0] / 2)


def test_girts_between_columns_are_cut_over_their_thickness() -> None:
    (end,) = only({"girts.place": "between"}, "girt")
    assert said(end) == ['4 1/2" back on 1 1/2"']
    assert "lying flat" in end.title


def test_two_pitches_have_two_patterns_each_and_say_toward_which_wall() -> None:
    changes = {**SHAPES["two pitches"], "girts.rake": "2x4"}
    for kind in ("girt", "rake", "tail"):
        near, far = only(changes, kind)
        assert "4/12" in near.title
        assert "6/12" in far.title
        assert near.whom[-1].endswith("wall A")
        assert far.whom[-1].endswith("wall G")
    ears = only(changes, "top", "EARS")
    assert sorted(max(y for _, y in t.cuts[0]) for t in ears) == pytest.approx([5.5 / 3, 2.75])


def test_girts_that_do_not_reach_the_slope_have_no_sloped_end() -> None:
    """Heel 5 ft over the bearing: no row comes up to the chord at the walls but those above it."""
    names = only({"truss.heel": "60"}, "girt")[0].whom[0]
    one = build({"truss.heel": "60"})
    low = one.roof.end_chord.over(0.0)
    first = next(row for row in one.rows.end if row.high > low)
    assert names.startswith(first.name)


# --- mirrored, metric, alike ------------------------------------------------------------------------------------------


def test_a_mirrored_building_has_mirrored_patterns() -> None:
    """The pitches change sides, and the endwall columns with them: the patterns of the endwalls are mirror images."""
    wide = 32 * 12
    places = [100, 230, 300]  # the ridge is at 1.5 + 381·(1/2)/(1/3 + 1/2) = 230.1
    one = {"building.front_columns": places, "building.back_columns": [150], "truss.far_pitch": "6/12"}
    other = {
        "building.front_columns": [wide - p for p in reversed(places)],
        "building.back_columns": [wide - 150],
        "truss.pitch": "6/12",
        "truss.far_pitch": "4/12",
    }

    def shapes(changes: dict[str, Any], head: str) -> Counter[tuple[tuple[float, float], ...]]:
        found: Counter[tuple[tuple[float, float], ...]] = Counter()
        for t in only(changes, "top", head):
            found[tuple((round(x, 6), round(y, 6)) for x, y in t.cuts[0])] += len(t.whom)
        return found

    def mirrored(path: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple((round(path[-1][0] - x, 6), y) for x, y in reversed(path))

    for head in ("TOP", "RIDGE"):
        mine, theirs = shapes(one, head), shapes(other, head)
        assert Counter({mirrored(path): n for path, n in mine.items()}) == theirs
    assert mine  # one of them stands under the ridge
    assert mine != theirs
    # seen with the outside to the left sidewall patterns keep their hand
    assert shapes(one, "EARS") == shapes(other, "EARS")


def test_like_cuts_are_drawn_once() -> None:
    for changes in SHAPES.values():
        found = [(t.key.partition("-")[2], t.title, t.cuts, t.edges) for t in laid(build(dict(changes)))]
        assert len(set(found)) == len(found)


def test_a_metric_pattern_says_millimetres() -> None:
    """140 deep at 15 degrees: 140·tan 15° = 37.51, and 90 wide at 15° 90/tan 15° = 335.9."""
    built = build({"truss.pitch": "15 deg", "roof.overhang": 450, "truss.top_chord": "45x140"}, base=METRIC)
    words = " ".join(t.words for b in templates.pages(built, PAPERS["a4"]) for t in boxes.written(b.drawing.shapes))
    assert '"' not in words
    assert " in " not in words.replace(" in the ", "")
    assert "RISE 38 mm over 140 mm" in words
    assert "336 mm back on 90 mm" in words
    assert "15°" in words


def test_many_columns_are_told_by_their_wall() -> None:
    (ears,) = only(SHAPES["many names"], "top", "EARS")
    assert ears.whom == ("all columns of wall A (A51 to A1)", "all columns of wall G (G1 to G51)")


def test_nothing_to_trace_is_said(tmp_path: Path) -> None:
    """Level tops, no columns and no girts in the gables."""
    changes = {
        "tops.seat": "flat",
        "building.front_columns": [],
        "building.back_columns": [],
        "building.width": "10'",
        "building.length": "24'",
        "building.bays": 3,
        "truss.pitch": "0.5/12",
    }
    built = build(changes)
    assert laid(built) == ()
    printed = packet.build(built, PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, built, tmp_path / "t") == []
    assert "nothing to trace" in " ".join(t.words for t in boxes.written(printed.sheets[0].page.drawing.shapes))


# --- on paper ---------------------------------------------------------------------------------------------------------


NEEDED = {
    "top": {"WASTE", "TOP"},
    "gauge": {"OUTSIDE", "INSIDE"},
    "tail": {"WASTE", "UPHILL"},
    "girt": {"WASTE", "END"},
    "rake": {"WASTE", "UPHILL"},
}


@pytest.mark.parametrize("paper", ["letter", "a4", "legal", "arch-c"])
@pytest.mark.parametrize("name", SHAPES)
def test_patterns_are_printed_at_full_scale_and_read_back(name: str, paper: str, tmp_path: Path) -> None:
    built = build(SHAPES[name])
    printed = packet.build(built, PAPERS[paper], "templates")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, built, tmp_path / "t") == []
    for one in laid(built):
        words: set[str] = set()
        for body in templates.drawn(one, PAPERS[paper], built.job.style):
            written = list(boxes.written(body.drawing.shapes))
            words |= {t.words for t in written}
            assert boxes.overlaps(written) == []
            width, height = body.paper.width, body.paper.height
            area = boxes.Box(body.paper.body.x0 - 0.01, body.paper.body.y0 - 0.01, width - 0.49, height - 0.49)
            assert boxes.outside(written, area) == []
        assert NEEDED[one.key.partition("-")[2]] <= words, (one.title, words)


def test_a_printer_profile_is_honoured(tmp_path: Path) -> None:
    """Off by 0.4 % along and 0.3 % across: nominal pages pass without the profile, corrected ones only with it."""
    office = Profile("office", "letter", 1.0043, 0.9971, 0.0008, 0.5, "2026-09-01", 0.01)
    built = build(SHAPES["level soffit"])
    printed = packet.build(built, PAPERS["letter"], "templates", office)
    packet.save(printed, tmp_path / "t")
    assert differences(printed, built, tmp_path / "t", office) == []
    assert any("along its line" in str(d) or "long" in str(d) for d in differences(printed, built, tmp_path / "t"))


def test_a_line_in_the_file_rises_as_it_is_to(tmp_path: Path) -> None:
    """Read by another parser: of the thick lines of the first page one rises 132 points over 396 (5 1/2 in)."""
    printed = packet.build(build({}), PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "t")
    with pdfplumber.open(tmp_path / "t" / "templates.pdf") as pdf:
        page = pdf.pages[0]
        thick = [line for line in page.lines if abs(line["linewidth"] - THICK * 72) < 0.01]
        over = [(line["width"], line["height"]) for line in thick if line["height"] > 1 and line["width"] > 1]
    assert over == [(pytest.approx(396, abs=0.07), pytest.approx(132, abs=0.07))]


def strokes(drawing: Drawing, kind: str) -> Iterator[Line]:
    def walk(shapes: Iterable[Shape], inside: bool) -> Iterator[Line]:
        for shape in shapes:
            if isinstance(shape, Group):
                yield from walk(shape.shapes, inside or shape.name.startswith(f"template-{kind}-"))
            elif isinstance(shape, Line) and inside:
                yield shape

    return walk(drawing.shapes, False)


def length(found: Iterable[Line]) -> float:
    return math.fsum(math.hypot(s.x1 - s.x0, s.y1 - s.y0) for s in found)


def test_a_long_end_goes_over_several_pages_and_is_drawn_once() -> None:
    """2/12: 21 in back. The thick line is parted at the match lines; what is drawn again is thinner, and every match
    line is on two pages."""
    one = build({"truss.pitch": "2/12"})
    (end,) = only({"truss.pitch": "2/12"}, "girt")
    bodies = list(templates.drawn(end, PAPERS["letter"], one.job.style))
    assert len(bodies) == 3
    assert length(s for b in bodies for s in strokes(b.drawing, "cut")) == pytest.approx(math.hypot(21, 3.5), abs=1e-6)
    assert length(s for b in bodies for s in strokes(b.drawing, "again")) > 0.3
    words = [t.words for b in bodies for t in boxes.written(b.drawing.shapes)]
    assert words.count("MATCH LINE 1") == words.count("MATCH LINE 2") == 2
    assert "Cut this sheet off at MATCH LINE 2 and lay it on that of part 2" in " ".join(words)


def test_match_lines_of_rows_and_columns_join_like_with_like() -> None:
    """A pattern of three by two pages: every match line stands on two pages, at one place of the pattern."""
    one = replace(only({"truss.pitch": "2/12"}, "girt")[0], edges=(((0.0, 0.0), (20.0, 0.0), (20.0, 12.0)),))
    bodies = list(templates.drawn(one, PAPERS["letter"], Style("in")))
    assert len(bodies) > 4
    lines: dict[str, list[tuple[float, float]]] = {}
    for body in bodies:
        for shape in walk_groups(body.drawing.shapes):
            if shape.name.startswith("template-match-"):
                line = next(s for s in shape.shapes if isinstance(s, Line))
                lines.setdefault(shape.name, []).append((line.x1 - line.x0, line.y1 - line.y0))
    assert lines
    for found in lines.values():
        assert len(found) == 2
        assert found[0] == pytest.approx(found[1])


def walk_groups(shapes: Iterable[Shape]) -> Iterator[Group]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield shape
            yield from walk_groups(shape.shapes)


# --- the audit looks -------------------------------------------------------------------------------------------------


def changed(printed: Packet, group: str, by: tuple[float, float], turn: float = 0.0) -> Packet:
    """The packet with every stroke of the groups called *group* moved, and its right end lifted by *turn*."""

    def walk(shapes: tuple[Shape, ...], inside: bool) -> tuple[Shape, ...]:
        found: list[Shape] = []
        for shape in shapes:
            if isinstance(shape, Group):
                found.append(Group(shape.name, walk(shape.shapes, inside or shape.name == group), shape.title))
            elif isinstance(shape, Line) and inside:
                found.append(moved(replace(shape, y1=shape.y1 + turn), *by))
            else:
                found.append(shape)
        return tuple(found)

    sheets = tuple(
        replace(s, page=replace(s.page, drawing=replace(s.page.drawing, shapes=walk(s.page.drawing.shapes, False))))
        for s in printed.sheets
    )
    return replace(printed, sheets=sheets)


@pytest.mark.parametrize(
    ("group", "by", "turn", "want"),
    [
        ("template-cut-1", (0.0, 0.003), 0.0, "cut 1 along its line"),
        ("template-cut-1", (0.0, 0.0), 0.002, "cut 1 along its line"),
        ("template-edge-1", (0.003, 0.003), 0.0, "edge 1 along its line"),
        ("template-match-1", (0.02, 0.0), 0.0, ""),
    ],
)
def test_a_drawing_that_is_off_is_found(
    group: str, by: tuple[float, float], turn: float, want: str, tmp_path: Path
) -> None:
    """Drawn and written alike, and yet not where the layout has it: by two and three thousandths."""
    built = build(SHAPES["level soffit"])
    printed = packet.build(built, PAPERS["letter"], "templates")
    wrong = changed(printed, group, by, turn)
    if "match" in group:  # on one of the two pages alone
        keep = next(i for i, s in enumerate(printed.sheets) if "part 1" in s.title)
        wrong = replace(printed, sheets=(*printed.sheets[:keep], wrong.sheets[keep], *printed.sheets[keep + 1 :]))
    packet.save(wrong, tmp_path / "t")
    told = [str(d) for d in differences(wrong, built, tmp_path / "t")]
    assert told
    assert any(want in line for line in told), told


def test_another_jobs_templates_are_found_out(tmp_path: Path) -> None:
    """A packet of 4/12 is not that of 4 1/16 / 12; one of two slopes is not that of one."""
    built = build({})
    printed = packet.build(built, PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "t")
    told = [str(d) for d in differences(printed, build({"truss.pitch": "4 1/16 / 12"}), tmp_path / "t")]
    assert any("along its line" in line or "in long" in line for line in told)
    assert any("not so on the page" in line for line in told)
    other = build({"truss.far_pitch": "6/12"})
    assert any("none" in str(d) for d in differences(printed, other, tmp_path / "t"))
    printed = packet.build(other, PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "u")
    assert any("no such pattern" in str(d) for d in differences(printed, built, tmp_path / "u"))


def test_keys_number_the_patterns() -> None:
    found = laid(build(SHAPES["rakes"]))
    assert [t.key.partition("-")[0] for t in found] == [str(i) for i in range(1, len(found) + 1)]
