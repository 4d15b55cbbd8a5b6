"""Warnings of a roof: purlins at ears, the far bearing of one slope, rows too near, soffits on one side."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import build, job_text, problems

IN = "where the ears go up to the roof"


def told(changes: dict[str, Any], what: str) -> list[str]:
    return [w for w in build(changes).warnings if what in w]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        # no overhang: purlin 1 covers the first 1 1/2 of the slope from the outside of the columns
        ({}, "Walls A and G: purlin 1 stand"),
        # 20 in: the tail 18 1/2 out, the slope (18 1/2 + 190 1/2)·1.0541 = 220.31; from 1.83 on, less 4 and 1 1/2, in
        # nine spaces of 23.66: the second purlin begins 25.50/1.0541 - 18.5 = 5.69 inside at its foot, 1.74 less at its
        # top, and ears are 5 1/2 deep
        ({"roof.overhang": "20"}, "Walls A and G: purlin 2 stand"),
        ({"roof.overhang": "20", "roof.far_overhang": "0"}, "Wall G: purlin 1 stand"),
        # 224.52 along the slope, from 1/2 on, less 4 and 5 1/2 that a flat one covers, in nine spaces of 23.84: 24.34
        # up the slope, 0.59 inside
        ({"roof.overhang": "24", "roof.purlins": "flat"}, "Walls A and G: purlin 2 stand"),
        ({"roof.shape": "mono-slope", "truss.pitch": "2/12"}, "Wall G: purlin 18 stand"),
        ({"roof.end_overhang": "12", "roof.overhang": "20"}, "Walls A and G: purlin 2 stand"),
    ],
)
def test_purlins_at_the_ears_are_told(changes: dict[str, Any], says: str) -> None:
    assert [w for w in told(changes, IN) if w.startswith(says)]


@pytest.mark.parametrize(
    "changes",
    [
        {"tops.sidewall_ears": "chord"},
        {"roof.purlins": "flush"},
        {"tops.seat": "flat"},
        # the tail 28 1/2 out, (28.5 + 190.5)·1.0541 = 230.85, from 1.83 on, less 5 1/2, in ten spaces of 22.35: 22.94
        # of level way to the second purlin and 1.42 over it, 4.1 short of the columns; the third 15.6 inside
        {"roof.overhang": "30"},
    ],
)
def test_purlins_beside_the_ears_are_not(changes: dict[str, Any]) -> None:
    assert not told(changes, IN)


def test_the_ends_of_what_a_purlin_covers() -> None:
    """Square to 4/12 a 2x6 leans 5 1/2/3·0.9487 = 1.74 out at its top: 7.24 from the outside of columns 5 1/2 deep it
    is clear of their ears at its foot and just at its top; 1/8 less and it is not."""
    # purlin_first is along the slope: 7.24·1.0541 = 7.631
    clear = {"roof.purlin_first": "7 3/4", "roof.purlin_step": "60"}
    assert not told(clear, IN)
    assert told({**clear, "roof.purlin_first": "7 1/2"}, IN)


def test_one_slope_says_which_bearing_it_took() -> None:
    mono = {"roof.shape": "mono-slope", "truss.pitch": "2/12"}
    assert told(mono, "taken as high as at wall A, 12'-0\"")
    assert told({**mono, "truss.far_bearing": "11'"}, '12" LOWER than at wall A')
    high = build({**mono, "truss.far_bearing": "14'"}).warnings
    assert not [w for w in high if "LOWER" in w or "taken as high" in w]
    assert not told({}, "taken as high")


def test_a_row_just_under_the_highest_one_is_told() -> None:
    """From 1/2 to 4 in of room under the top row of the high wall, through pitches that put it everywhere."""
    seen = set()
    for tenths in range(20, 45):
        one = build({"roof.shape": "mono-slope", "truss.pitch": f"{tenths / 10}/12"})
        below, top = one.rows.sides[1][-2:]
        near = top.low - below.high < 4
        assert near == any("clear under the top girt of the higher wall" in w for w in one.warnings), tenths
        seen.add(near)
    assert seen == {True, False}


def test_a_soffit_may_be_on_one_side() -> None:
    """Wall A has 18 in and a nailer, wall G neither; without any overhang a soffit is refused."""
    changes = {"roof.overhang": "18", "roof.far_overhang": "0", "roof.soffit": "level", "roof.fascia": "9 1/4"}
    one = build(changes)
    keys = [[row.key for row in side] for side in one.rows.sides]
    assert "soffit nailer" in keys[0]
    assert "soffit nailer" not in keys[1]
    # 144 + 9 1/4 + 5 1/2·1.0541 - 18/3 - 9 1/4
    assert one.roof.left.soffit == pytest.approx(143.7975, abs=1e-4)
    assert one.roof.right.soffit is None
    other = build({**changes, "roof.overhang": "0", "roof.far_overhang": "18"})
    assert other.roof.left.soffit is None
    assert other.roof.right.soffit == pytest.approx(143.7975, abs=1e-4)
    (wrong,) = problems(job_text({"roof.soffit": "level"}))
    assert "needs an overhang" in str(wrong)
    (wrong,) = problems(job_text({"roof.soffit": "level", "roof.far_overhang": "0"}))
    assert "needs an overhang" in str(wrong)


def test_a_fascia_hangs_outside_of_the_girts() -> None:
    """1 1/2 of girt and 1 1/2 of fascia: 3 from the columns, 1 1/2 from the girts; none is none."""
    for changes, least in (({}, '3"'), ({"truss.heel_at": "girt"}, '1 1/2"'), ({"girts.place": "between"}, '1 1/2"')):
        (wrong,) = problems(job_text({"roof.overhang": "1", **changes}))
        assert (wrong.place, wrong.right) == ("roof.overhang", f"At least {least}, or 0 for none.")
        build({"roof.overhang": least.rstrip('"'), **changes})
    (wrong,) = problems(job_text({"roof.overhang": "12", "roof.far_overhang": "2"}))
    assert wrong.place == "roof.far_overhang"
    build({"roof.overhang": "12", "roof.far_overhang": "0"})


def test_a_drop_without_lookouts_is_asked_about() -> None:
    drop = {"truss.endwall_drop": "3 1/2"}
    (found,) = told(drop, "lower for lookouts")
    assert found == (
        'The endwall trusses are 3 1/2" lower for lookouts, and without roof.end_overhang there are none: '
        "is truss.endwall_drop right?"
    )
    assert not told({**drop, "roof.end_overhang": "12"}, "lower for lookouts")
    assert not told({}, "lower for lookouts")


LOW = "less than the top chord is deep, plumb"


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        # 5 1/2·sqrt(1 + 1/9) = 5.7975, shown rounded up
        (
            {"truss.heel": "3"},
            'Walls A and G: the heel is 3", less than the top chord is deep, plumb: 5 13/16". Is one',
        ),
        ({"truss.heel": "5 5/8"}, 'Walls A and G: the heel is 5 5/8", '),
        ({"truss.far_heel": "4"}, 'Wall G: the heel is 4", '),
        # 9 1/4 - 4
        (
            {"truss.endwall_drop": "4", "roof.end_overhang": "12"},
            'Walls A and G: the heel of the dropped endwall trusses is 5 1/4", less',
        ),
        # told once where the heel is too low without a drop
        ({"truss.heel": "5", "truss.endwall_drop": "3", "roof.end_overhang": "12"}, 'Walls A and G: the heel is 5", '),
        # 144 + 9.25 + 127 = 280.25 is 4 1/4 over a bearing of 23 ft
        ({"roof.shape": "mono-slope", "truss.far_bearing": "23'"}, 'Wall G: the heel is 4 1/4", '),
    ],
)
def test_a_heel_that_is_less_than_its_chord_is_asked_about(changes: dict[str, Any], says: str) -> None:
    (found,) = told({"truss.top_chord": "2x6", **changes}, LOW)
    assert found.startswith(says)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"truss.heel": "5 3/4"},  # as it may be rounded
        {"truss.endwall_drop": "3 1/2", "roof.end_overhang": "12"},  # 5 3/4 again
        {"roof.shape": "lean-to", "truss.pitch": "2/12"},
    ],
)
def test_a_heel_that_holds_its_chord_is_not(changes: dict[str, Any]) -> None:
    assert not told({"truss.top_chord": "2x6", **changes}, LOW)
    assert not told({**changes, "truss.heel": "3", "truss.endwall_drop": "0"}, LOW)  # nobody knows the chord
