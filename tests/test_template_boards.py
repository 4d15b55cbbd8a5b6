"""Templates of boards: tails of trusses, and the ends of gable girts."""

from __future__ import annotations

import math

import pytest
import shapely
from jobs import build
from shapely import affinity
from test_templates import LEVEL_SOFFIT, SHAPES, flat, only, said

from layouts.template import Template

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
