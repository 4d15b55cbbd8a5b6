"""What makes no roof: refused with the reason."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from jobs import METRIC, build, job_text, problems
from test_roof_shapes import LEAN, job

from layouts import heights
from layouts.fields import Job


def wrong(changes: Mapping[str, Any], drop: tuple[str, ...] = ()) -> str:
    """The one reason why a job is refused."""
    found = problems(job_text(changes, drop=drop))
    assert len(found) == 1, [str(p) for p in found]
    return str(found[0])


@pytest.mark.parametrize(
    ("changes", "drop", "place", "why"),
    [
        ({}, ("truss.bearing",), "truss.bearing", "must be given"),
        ({}, ("truss.pitch",), "truss.pitch", "must be given"),
        ({"truss.eave": "13'"}, (), "truss.eave", "stands beside truss.bearing"),
        ({"truss.far_eave": "13'", "truss.far_bearing": "12'"}, (), "truss.far_eave", "stands beside"),
        ({"truss.wall_height": "18'"}, (), "truss.wall_height", "is not of a roof"),
        ({"truss.far_bearing": "40'"}, (), "truss.far_bearing", "leaves no ridge"),
        ({"truss.far_eave": "40'"}, (), "truss.far_eave", "leaves no ridge"),
        ({"roof.ridge": "33'"}, (), "roof.ridge", "is not over the building"),
        ({"roof.ridge": "31'"}, (), "roof.ridge", "makes a slope of"),
        ({"roof.ridge": "12'", "truss.far_pitch": "4/12", "truss.far_bearing": "12'"}, (), "roof.ridge", "not agree"),
        ({"truss.far_bearing": "13'", "girts.top": "11'"}, (), "girts.top", "the sidewalls have two"),
        ({"roof.shape": "mono-slope", "truss.far_heel": "9"}, (), "truss.far_heel", "is not of a roof"),
        ({"roof.shape": "mono-slope", "truss.far_pitch": "3/12"}, (), "truss.far_pitch", "is not of a roof"),
        (
            {"roof.shape": "mono-slope", "truss.far_eave": "20'"},
            ("truss.bearing",),
            "truss.bearing",
            "bearing = \"8'-0",
        ),
        (
            {"roof.shape": "mono-slope", "truss.far_bearing": "40'"},
            (),
            "truss.far_bearing = 40'-0\"",
            "is not under the chord there. Lower it, or steepen the roof.",
        ),
        ({"roof.shape": "mono-slope", "truss.far_eave": "15'"}, (), "truss.far_eave", "does not agree"),
        (
            # the tall wall as wall A
            {"roof.shape": "mono-slope", "truss.far_eave": "12'"},
            ("truss.pitch",),
            "truss.far_eave",
            "From 0.5/12 to 24/12. The roof rises from wall A: that is its low side.",
        ),
        (
            # the roof sheets 144 + 9.25 + 5.5 = 158.75 over wall A, 159 over the other: it does rise
            {"roof.shape": "mono-slope", "truss.far_eave": "13'-3"},
            ("truss.pitch",),
            "truss.far_eave",
            "makes a slope of 0.01/12. From 0.5/12 to 24/12.",
        ),
        ({"roof.shape": "mono-slope", "roof.ridge": "12'"}, (), "roof.ridge", "is not of a roof"),
        ({**LEAN, "girts.place": "inside"}, (), "girts.place", "not laid out for a lean-to"),
        ({**LEAN, "girts.runs_past": "end"}, (), "girts.runs_past", "runs into the standing wall"),
        ({**LEAN, "roof.far_overhang": "12"}, (), "roof.far_overhang", "is not of a roof"),
        (
            {"roof.shape": "mono-slope", "roof.soffit": "level", "roof.overhang": "3'"},
            (),
            "roof.overhang",
            'take roof.soffit = "sloped"',
        ),
    ],
)
def test_what_makes_no_roof_is_refused_with_the_reason(
    changes: dict[str, Any], drop: tuple[str, ...], place: str, why: str
) -> None:
    line = wrong(changes, drop)
    assert place in line
    assert why in line


def test_made_tops_want_one_bearing() -> None:
    made = {"column.trims": "bottom", "column.notch": "12'", "column.treated": "all"}
    assert "Made tops stand at one bearing" in wrong({**made, "truss.far_bearing": "13'"})


def test_a_metric_roof_in_degrees() -> None:
    """practice: 15 degrees, half-span 4.5 m: rise 1206 mm; 90 mm purlin plumb 93; column 140 deep: + 38 (37.5)."""
    changes = {"truss.pitch": "15 deg", "building.width": 9000, "building.line": "columns", "roof.purlin": "45x90"}
    ends = {"building.front_columns": [3000, 6000], "building.back_columns": [3000, 6000]}
    made = build({**changes, **ends}, base=METRIC).roof
    assert round((made.chord.over(made.ridge) - made.chord.over(0)) * 25.4) == 1206
    assert round((made.top.over(0) - made.chord.over(0)) * 25.4) == 93
    assert (made.top.over(140 / 25.4) - made.top.over(0)) * 25.4 == pytest.approx(37.5, abs=0.02)


def test_unsettled_says_where() -> None:
    with pytest.raises(heights.Unsettled) as caught:
        heights.work_out(lay_job())
    assert caught.value.place == "truss.far_bearing"


def lay_job() -> Job:
    """A job that the reader would refuse."""
    from msgspec.structs import replace

    good = job({})
    return replace(good, truss=replace(good.truss, far_bearing=480.0))


@pytest.mark.parametrize(
    ("changes", "why", "right"),
    [
        ({"truss.endwall_drop": "8"}, 'a heel of only 1 1/4".', 'Up to 7 1/4": at least 2" of heel are wanted.'),
        ({"truss.endwall_drop": "9 1/4"}, "no heel.", 'Up to 7 1/4": at least 2" of heel are wanted.'),
        ({"truss.endwall_drop": "12"}, "no heel.", 'Up to 7 1/4": at least 2" of heel are wanted.'),
        # the lower heel of the two
        ({"truss.endwall_drop": "3 1/2", "truss.far_heel": "5"}, 'a heel of only 1 1/2".', 'Up to 3": at least 2"'),
        ({"truss.endwall_drop": "1", "truss.heel": "2"}, 'a heel of only 1".', 'Leave it out: at least 2" of heel'),
        # one slope of 4/12: the chord over wall G is 144 + 9.25 + 127 = 280.25, 4 1/4 over a bearing of 23 ft
        (
            {"truss.endwall_drop": "3", "roof.shape": "mono-slope", "truss.far_bearing": "23'"},
            'a heel of only 1 1/4".',
            'Up to 2 1/4": at least 2" of heel are wanted.',
        ),
    ],
)
def test_a_drop_that_leaves_no_heel_is_refused(changes: dict[str, Any], why: str, right: str) -> None:
    """The heel is 9 1/4; no truss is taken with less than 2."""
    (found,) = problems(job_text({"roof.end_overhang": "12", **changes}))
    assert found.place == "truss.endwall_drop"
    assert found.wrong == f"leaves the endwall trusses {why}"
    assert found.right.startswith(right)


def test_a_drop_that_leaves_a_heel_is_not() -> None:
    assert not problems(job_text({"roof.end_overhang": "12", "truss.endwall_drop": "7 1/4"}))


def test_only_what_falls_is_told_which_side_is_low() -> None:
    rises = wrong({"roof.shape": "mono-slope", "truss.far_eave": "13'-3"}, ("truss.pitch",))
    assert "low side" not in rises
    assert "low side" not in wrong({"roof.ridge": "31'"})
