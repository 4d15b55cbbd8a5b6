"""Templates: cuts as steep as they are to be, held against arithmetic and framing squares."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import pytest
import shapely
from jobs import METRIC, build, every, job
from shapely.ops import split
from test_roof_shapes import LEAN

from layouts import templates as layout
from layouts.building import Building, lay_out
from layouts.lengths import Style
from layouts.template import Template
from sheets import packet, templates
from sheets.audit import differences
from sheets.paper import PAPERS

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


def test_of_very_many_columns_a_wall_is_named_only_if_all_of_it_is_meant() -> None:
    """Two pitches: each sidewall of 26 columns has ears of its own. One pitch: both have the same, and no gable is
    named whole, for only its corners have ears. Of 24 and fewer each is named."""
    long = {"building.length": "200'", "building.bays": 25, "truss.pitch": "4/12"}
    whom = tuple(name for ears in only({**long, "truss.far_pitch": "5/12"}, "top", "EARS") for name in ears.whom)
    assert whom == ("all columns of wall A (A26 to A1)", "all columns of wall G (G1 to G26)")
    assert only(long, "top", "EARS")[0].whom == whom
    near, _ = only({**long, "building.bays": 23, "truss.far_pitch": "5/12"}, "top", "EARS")
    assert near.whom == tuple(f"A{i}" for i in range(1, 25))


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
