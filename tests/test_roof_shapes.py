"""Roofs of other shapes: one slope, two eaves, a lean-to; and heights worked back."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

import pytest
import sympy
from hypothesis import assume, given
from hypothesis import strategies as st
from jobs import build, job_text

from layouts import job as job_reader
from layouts import pitch
from layouts.building import Building, lay_out
from layouts.fields import Job
from layouts.heights import plumb, slope_of
from layouts.lengths import Style
from layouts.roof import Roof
from layouts.roof import build as build_roof

SIDE_PAST = {"girts.runs_past": "side", "girts.grade_board_runs_past": "side"}
LEAN: dict[str, Any] = {"roof.shape": "lean-to", **SIDE_PAST}


def job(changes: Mapping[str, Any], drop: tuple[str, ...] = ()) -> Job:
    return job_reader.read(job_text(changes, drop=drop))


def roof(changes: Mapping[str, Any], drop: tuple[str, ...] = ()) -> Roof:
    return build_roof(job(changes, drop))


def whole(changes: Mapping[str, Any], drop: tuple[str, ...] = ()) -> Building:
    return lay_out(job(changes, drop))


# --- pitches --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("slope", "inches", "metric"),
    [
        (4 / 12, "4/12", "18.4°"),  # atan(1/3) = 18.435 degrees
        (4.5 / 12, "4 1/2/12", "20.6°"),
        (1.0, "12/12", "45°"),
        (2 - math.sqrt(3), "3.22/12", "15°"),  # 12 tan 15° = 3.2154
    ],
)
def test_a_pitch_is_printed_as_the_crew_writes_it(slope: float, inches: str, metric: str) -> None:
    assert pitch.shown(slope, Style("in")) == inches
    assert pitch.shown(-slope, Style("mm")) == metric


# --- one slope ------------------------------------------------------------------------------------------------------


def test_a_mono_slope_by_hand() -> None:
    """32' to the outside of 1 1/2 in girts: columns 381 in out to out. 3/12, bearing 144, heel 10 at the column face,
    2x6 flush (nothing), so chord and roof plane at wall A's face stand at 154, at the far face at 154 + 381/4 =
    249.25. The far wall's outer face is the high one: short point inside, 5.5/4 = 1.375 lower."""
    made = whole({"roof.shape": "mono-slope", "truss.pitch": "3/12", "truss.heel": "10", "roof.purlins": "flush"})
    over = made.roof
    assert over.top.over(0) == 154
    assert over.top.over(381) == 249.25
    assert over.ridge == 381
    assert over.left.eave == 154 - 0.375
    assert over.right.eave == 249.25 + 0.375
    cuts = {c.key: c for c in made_column(made, "G3")}
    assert (cuts["long_point"].station, cuts["long_point"].where) == (249.25, "outside face")
    assert (cuts["short_point"].station, cuts["short_point"].where) == (247.875, "inside face")
    cuts = {c.key: c for c in made_column(made, "A3")}
    assert (cuts["short_point"].station, cuts["short_point"].where) == (154, "outside face")
    # an endwall column 4 1/2 wide at 11' - 1 1/2: its high edge 4.5/4 over its low edge, toward the high wall
    cuts = {c.key: c for c in made_column(made, "C1")}
    assert cuts["high_edge"].station - cuts["low_edge"].station == pytest.approx(1.125)
    assert cuts["high_edge"].station == pytest.approx(154 + (132 - 1.5 + 2.25) / 4)
    assert cuts["high_edge"].where == "toward E1"


def made_column(made: Building, name: str) -> Any:
    from layouts.columns import cuts

    return cuts(made.job, made.roof, made.plan, made.plan.spot(name))[0]


def test_the_high_wall_goes_up_to_the_chord() -> None:
    """Its girts keep the stations of the low wall's and go on with the same step; the last space is the rest."""
    made = whole({"roof.shape": "mono-slope", "truss.pitch": "3/12", "truss.heel": "10", "roof.purlins": "flush"})
    low, high = made.rows.sides
    common = [r.low for r in low if r.key == "girt"]
    assert [r.low for r in high if r.key == "girt"][: len(common)] == common
    edges = [r.low for r in high if r.key in ("girt", "top girt")]
    steps = [b - a for a, b in pairwise(edges)]
    assert steps[:-1] == pytest.approx([made.rows.step] * (len(steps) - 1))
    assert 3.5 < steps[-1] <= made.rows.step + 3.5 + 1
    assert high[-1].high == 249.25
    assert low[-1].high == 144
    ends = [r.low for r in made.rows.end if r.key in ("girt", "gable girt")]
    assert set(common) <= set(ends)


def test_a_last_space_over_the_step_is_told() -> None:
    """A girt that would lie in the top row is left out: what is then left over the step is a warning."""
    told = 0
    for pitch_ in ("2/12", "2.5/12", "3/12", "3.5/12", "4/12"):
        made = whole({"roof.shape": "mono-slope", "truss.pitch": pitch_, "roof.purlins": "flush"})
        edges = [r.low for r in made.rows.sides[1] if r.key in ("girt", "top girt")]
        over = edges[-1] - edges[-2] > made.rows.step + 0.5
        assert over == any("last girt space of the higher wall" in w for w in made.warnings)
        told += over
    assert 0 < told < 5


def test_a_mono_slope_from_two_eaves() -> None:
    """Eaves 13' and 21' over 32' at the outside of the girts: 96/384 = 3/12, whatever purlins and heel."""
    made = roof(
        {"roof.shape": "mono-slope", "truss.eave": "13'", "truss.far_eave": "21'", "roof.sheathing": "3/4"},
        ("truss.bearing", "truss.pitch"),
    )
    assert made.left.inward == pytest.approx(0.25)
    assert (made.left.eave, made.right.eave) == pytest.approx((156, 252))
    # 156 - (5.5 + 0.75)·sqrt(1 + 1/16) - 9.25 + 1.5/4
    assert made.left.bearing == pytest.approx(156 - 6.25 * math.sqrt(17) / 4 - 9.25 + 0.375)


def test_a_mono_slope_from_bearing_and_high_eave() -> None:
    made = roof({"roof.shape": "mono-slope", "truss.far_eave": "20'"}, ("truss.pitch",))
    assert made.right.eave == pytest.approx(240)
    assert made.left.bearing == 144
    again = roof({"roof.shape": "mono-slope", "truss.far_eave": "20'", "truss.heel_at": "girt"}, ("truss.pitch",))
    assert again.right.eave == pytest.approx(240)
    assert again.chord.over(-1.5) == pytest.approx(144 + 9.25)


# --- lean-to --------------------------------------------------------------------------------------------------------


def test_a_lean_to_has_three_walls_and_a_column_at_the_standing_wall() -> None:
    made = whole({**LEAN, "truss.pitch": "2/12"})
    assert [w.line.side for w in made.walls] == ["left", "back", "front"]
    front = made.walls[-1].line
    assert front.length == 384 - 1.5  # from the outside of wall A's columns to the standing wall
    last = made.plan.spot(front.columns[-1])
    assert (last.role, last.u1) == ("end", 382.5)
    assert made.roof.at("right").soffit is None
    from layouts.columns import neighbours

    around = neighbours(made.plan)
    assert around[front.columns[-1]] == (front.columns[-2], "the standing wall")
    back = made.walls[1].line
    assert around[back.columns[0]] == ("the standing wall", back.columns[1])
    # no board of an endwall runs into the standing wall
    for wall in made.walls[1:]:
        for course in wall.courses:
            for piece in course.pieces:
                assert piece.low[0] >= -1e-9
                assert piece.low[1] <= wall.line.length + 1e-9


def test_the_height_at_the_standing_wall_tells_the_bearing_or_the_pitch() -> None:
    """Bearing = 200 - 5.5·sqrt(1 + 1/36) - 382.5/6 - 9.25 at 2/12."""
    want = 200 - 5.5 * math.sqrt(37) / 6 - 63.75 - 9.25
    by_pitch = roof({**LEAN, "truss.pitch": "2/12", "truss.wall_height": 200}, ("truss.bearing",))
    assert by_pitch.left.bearing == pytest.approx(want)
    assert by_pitch.sums[0].total == pytest.approx(want)
    by_bearing = roof({**LEAN, "truss.bearing": "10' 9", "truss.wall_height": 200}, ("truss.pitch",))
    assert by_bearing.cover.over(382.5) == pytest.approx(200)
    assert by_bearing.left.bearing == 129
    both = roof({**LEAN, "truss.pitch": "2/12", "truss.wall_height": "18'-6 9/16"})
    assert both.left.bearing == 144  # they agree to the printed sixteenth


# --- identities -----------------------------------------------------------------------------------------------------


def test_the_slope_from_a_rise_is_proved() -> None:
    """sympy: the root taken solves run·m + depth·sqrt(1 + m²) = rise."""
    m, run, depth = sympy.symbols("m run depth", positive=True)
    rise = run * m + depth * sympy.sqrt(1 + m**2)
    under = rise**2 + run**2 - depth**2
    # under is the square of run·sqrt(1 + m²) + depth·m
    assert sympy.simplify(sympy.expand(under - (run * sympy.sqrt(1 + m**2) + depth * m) ** 2)) == 0
    root = (rise * run - depth * (run * sympy.sqrt(1 + m**2) + depth * m)) / (run**2 - depth**2)
    assert sympy.simplify(root - m) == 0


@given(st.floats(-1.5, 1.5), st.floats(100, 900), st.floats(0, 12))
def test_the_slope_from_a_rise(slope: float, run: float, depth: float) -> None:
    assert slope_of(run, depth, run * slope + plumb(depth, slope)) == pytest.approx(slope, abs=1e-9)


@given(st.data())
def test_an_eave_gives_back_its_bearing(data: st.DataObject) -> None:
    """Lay a roof out from its bearings, read the eaves off, lay it out from them: the same roof."""
    draw = data.draw
    shape = draw(st.sampled_from(["gable", "mono-slope"]))
    changes: dict[str, Any] = {
        "roof.shape": shape,
        "truss.pitch": f"{draw(st.integers(1, 9))}/12",
        "truss.heel_at": draw(st.sampled_from(["column", "girt"])),
        "roof.purlins": draw(st.sampled_from(["edge", "flat", "flush"])),
        "roof.sheathing": draw(st.sampled_from(["0", "5/8"])),
        "truss.heights_from": draw(st.sampled_from(["floor", "grade line"])),
        "girts.place": draw(st.sampled_from(["outside", "between"])),
        "building.line": draw(st.sampled_from(["girts", "columns"])),
    }
    if shape == "gable":
        changes["truss.far_pitch"] = f"{draw(st.integers(2, 9))}/12"
        changes["truss.far_bearing"] = draw(st.integers(138, 160))
    one = roof(changes)
    assume(one.ridge > 0)
    shift = 3.5 if changes["truss.heights_from"] == "floor" else 0.0
    changes |= {"truss.eave": one.left.eave - shift}
    if shape == "gable":
        del changes["truss.far_bearing"]
        changes |= {"truss.far_eave": one.right.eave - shift}
    other = roof(changes, ("truss.bearing",))
    for side in ("left", "right"):
        assert other.at(side).bearing == pytest.approx(one.at(side).bearing, abs=1e-6)
        assert other.at(side).eave == pytest.approx(one.at(side).eave, abs=1e-6)
    for printed in other.sums:
        if printed.name.startswith("Bearing"):
            side = "right" if printed.name.endswith("opposite") else "left"
            assert printed.total == pytest.approx(one.at(side).bearing, abs=1e-6)
    for eave in (other.left, other.right):
        assert eave.sums[0].total == pytest.approx(eave.eave)


def test_a_gable_with_two_like_sides_is_the_plain_one() -> None:
    plain = roof({})
    same = roof({"truss.far_pitch": "4/12", "truss.far_bearing": "12'", "truss.far_heel": "9 1/4", "roof.ridge": "16'"})
    assert same.plain
    assert same.sums == plain.sums
    assert len(build({"truss.far_pitch": "4/12"}).rods) == len(build().rods) == 3  # sidewalls, endwalls, roof


def test_walls_of_two_heights_have_rods_of_their_own() -> None:
    made = whole({"truss.far_bearing": "14'"})
    assert [r.name for r in made.rods][:3] == ["Sidewall rod A", "Endwall rod", "Sidewall rod G"]
    # two slopes of two lengths
    assert [(r.name, r.walls) for r in made.rods][3:] == [("Roof rod", ()), ("Roof rod", ())]
    bearings = [next(m.station for m in r.marks if m.name == "BEARING") for r in made.rods if r.walls and not r.gable]
    assert bearings == [144, 168]
