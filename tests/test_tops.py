"""Tops of columns: slots, shoulders, level tops; and tops of endwall columns. Numbers worked by hand.

The job of ``jobs.BASE``: bearing 12 ft, heel 9 1/4 at the column face, 4/12, purlins 2x6 on edge, columns 4 1/2 by
5 1/2.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest
from jobs import every, job, job_text, problems

from layouts import seats
from layouts.building import Building, lay_out
from layouts.columns import Cut

CARRIED: dict[str, Any] = {"tops.seat": "flat", "carrier.board": "2x12"}
P = 5.5 * math.sqrt(1 + 1 / 9)  # a purlin 2x6 on edge, plumb: 5.7975


def made(changes: Mapping[str, Any]) -> Building:
    one = job(changes)
    return lay_out(one, every(one))


def cuts(built: Building, name: str) -> dict[str, Cut]:
    return {c.key: c for c in next(c for c in built.columns if c.name == name).cuts}


def refused(changes: Mapping[str, Any], drop: tuple[str, ...] = ()) -> str:
    found = problems(job_text(changes, drop=drop))
    assert len(found) == 1, [str(p) for p in found]
    return str(found[0])


def test_what_is_left_out_follows_what_it_stands_on() -> None:
    """A seat that would not go with the column is not taken by default; what is written is never changed."""
    assert made({"column.make": "solid"}).job.tops.seat == "shoulder"
    assert made({"carrier.board": "2x12"}).job.tops.seat == "flat"
    assert made({"column.make": "solid", "carrier.board": "2x12"}).job.tops.seat == "flat"
    assert made({}).job.tops.seat == "slot"
    lean = made({"roof.shape": "lean-to", "truss.pitch": "2/12"}).job.girts
    assert (lean.runs_past, lean.grade_board_runs_past) == ("side", "side")
    assert "runs into the standing wall" in refused(
        {"roof.shape": "lean-to", "truss.pitch": "2/12", "girts.runs_past": "end"}
    )


# --- sidewalls ------------------------------------------------------------------------------------------------------


def test_a_shoulder_is_cut_at_the_bearing_and_the_rest_runs_on() -> None:
    """Short point 144 + 9 1/4 + 5.7975 = 159.0475, long point 5 1/2 / 3 more, as with a slot."""
    found = cuts(made({"column.make": "solid", "tops.seat": "shoulder"}), "A2")
    assert found["bearing"].station == 144
    assert found["bearing"].where == 'shoulder, front side, 1 1/2" deep'
    assert found["short_point"].station == pytest.approx(144 + 9.25 + P)
    assert found["long_point"].station == pytest.approx(144 + 9.25 + P + 5.5 / 3)


@pytest.mark.parametrize(
    ("changes", "wide", "trusses_wide", "warned"),
    [
        ({}, 1.5, 1.5, ""),
        ({"column.width": "4 1/8"}, 1.375, 1.5, "The slot left by the centre ply is 1 3/8"),  # glued and planed
        ({"column.plies": "4", "column.width": "6", "truss.each": "2"}, 3.0, 3.0, ""),
        ({"column.plies": "4", "column.width": "5 1/2", "truss.each": "2"}, 2.75, 3.0, "the 2 trusses 3"),
        ({"truss.each": "2"}, 1.5, 3.0, "they do not go in"),
        ({"tops.seat": "shoulder"}, 1.5, 1.5, ""),
        ({"tops.seat": "shoulder", "tops.shoulder": "both", "truss.each": "2"}, 1.5, 1.5, ""),
        ({"tops.seat": "shoulder", "truss.each": "2"}, 1.5, 3.0, "stand out beyond the column"),
        ({"tops.seat": "shoulder", "tops.shoulder_depth": "3", "truss.each": "2"}, 3.0, 3.0, ""),
        ({"tops.seat": "shoulder", "tops.shoulder_depth": "1 3/4"}, 1.75, 1.5, ""),
        ({"tops.seat": "shoulder", "tops.shoulder_depth": "2"}, 2.0, 1.5, '1/2" of it carries nothing. Is tops.shou'),
    ],
)
def test_the_place_of_the_trusses_is_held_against_them(
    changes: dict[str, Any], wide: float, trusses_wide: float, warned: str
) -> None:
    built = made(changes)
    assert seats.room(built.job) == pytest.approx((wide, trusses_wide))
    told = [w for w in built.warnings if "slot" in w or "shoulder" in w.lower()]
    assert len(told) == bool(warned)
    assert warned in "".join(told)


@pytest.mark.parametrize(("least", "told"), [("15", 0), ("15 1/16", 1)])
def test_ears_are_held_against_the_least_that_is_wanted(least: str, told: int) -> None:
    """They stand 9 1/4 + 5.7975 = 15.0475 above the bearing at the short point."""
    found = [w for w in made({"tops.least_ears": least}).warnings if "reach only" in w]
    assert len(found) == told
    if told:
        assert '15" above the bearing' in found[0]


def test_a_level_top_ends_at_the_bearing() -> None:
    built = made({"tops.seat": "flat"})
    assert [(c.key, c.station, c.part) for c in cuts(built, "A2").values()] == [("bearing", 144, "all")]
    assert max(row.high for row in built.rows.side) == 144


def test_weights_tell_what_is_cut_away() -> None:
    """Wood that stands above the bearing: two of three plies beside a slot, three quarters of a ply more beside a
    shoulder of 1 1/8, nothing on a level top. Area over the bearing: 5 1/2 by the mean of both points, 15.964."""
    density = {k: made(c).lifts[0].dry.pounds for k, c in {
        "slot": {}, "shoulder": {"tops.seat": "shoulder", "tops.shoulder_depth": "1 1/8"}, "flat": {"tops.seat": "flat"}
    }.items()}  # fmt: skip
    slot, shoulder, flat = (density[k] for k in ("slot", "shoulder", "flat"))
    assert (slot - flat) / (shoulder - flat) == pytest.approx(3.0 / (4.5 - 1.125))


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"column.make": "solid", "tops.seat": "slot"}, "needs plies, and the column is solid"),
        (
            {"column.make": "solid", "tops.seat": "shoulder", "tops.endwall_centre": "bearing"},
            "is a top of the centre ply, and the column is solid",
        ),
        ({"tops.seat": "shoulder", "column.centre_ply": "11'"}, "is for a seat block in the slot"),
        (
            {"tops.seat": "shoulder", "tops.shoulder": "both", "tops.shoulder_depth": "2 1/4"},
            "leaves nothing of the column",
        ),
        ({"tops.endwall_ears": "chord bottom"}, "needs the size of the top chord"),
        ({"carrier.board": "2x12", "tops.seat": "slot"}, "does not go with carriers"),
        ({**CARRIED, "carrier.let_in": "1 1/2", "truss.each": "2"}, "truss.each = 2: does not go with carriers"),
        ({**CARRIED, "carrier.let_in": "2"}, "is deeper than the carriers"),
        ({**CARRIED, "carrier.let_in": "1/2"}, 'leaves the carriers 1" outside of the columns'),
        (
            {
                **CARRIED,
                "carrier.where": "outside",
                "carrier.boards": "3",
                "carrier.let_in": "4 1/2",
                "column.depth": "4 1/2",
            },
            "leaves nothing of the column",
        ),
        (
            {**CARRIED, "carrier.let_in": "1 1/2", "roof.overhang": "12", "roof.soffit": "level"},
            "lies in the carriers, or stands above the level tops",
        ),
    ],
)
def test_what_does_not_go_together_is_refused_with_the_reason(changes: dict[str, Any], says: str) -> None:
    assert says in refused(changes)


# --- endwalls -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ears", "low"),
    [
        ("bearing", 144.0),
        # a chord 2x6 is 5 1/2 square to the slope, 5.7975 plumb
        ("chord bottom", None),
        ("chord", None),
        ("roof", None),
    ],
)
def test_endwall_columns_end_where_they_are_told_to(ears: str, low: float | None) -> None:
    built = made({"tops.endwall_ears": ears, "truss.top_chord": "2x6"})
    column = next(c for c in built.columns if c.role == "end")
    spot = built.plan.spot(column.name)
    edge = min(spot.u0, built.plan.across - spot.u1)
    shift = {"bearing": 0.0, "chord bottom": -P, "chord": 0.0, "roof": P}[ears]
    want = low if low is not None else 144 + 9.25 + edge / 3 + shift
    assert min(c.station for c in column.cuts) == pytest.approx(want)


def test_rows_above_low_endwall_columns_are_told() -> None:
    told = [w for w in made({"tops.endwall_ears": "bearing"}).warnings if w.startswith("Endwalls: ")]
    assert len(told) == 1
    assert "nailed to the endwall truss" in told[0]
    assert not [w for w in made({}).warnings if w.startswith("Endwalls: ")]


def test_ears_and_centre_ply_have_each_their_own_top() -> None:
    built = made({"tops.endwall_ears": "bearing", "tops.endwall_centre": "chord bottom", "truss.top_chord": "2x4"})
    found = cuts(built, next(c.name for c in built.columns if c.role == "end"))
    assert {k for k in found if k.startswith("centre")} == {"centre_low_edge", "centre_high_edge"}
    assert found["level"].station == 144


# --- how deep carriers are let in -----------------------------------------------------------------------------------


def test_carriers_that_stand_out_are_told_how_deep_they_are_let_in() -> None:
    """Three of 1 1/2 are 4 1/2: flush with the columns at that, with the girts of 1 1/2 at 3; a face is 5 1/2 deep."""
    three = {**CARRIED, "carrier.boards": "3", "carrier.where": "outside"}
    want = 'Let in 4 1/2" they are flush with the columns, let in 3" they are flush with the girts.'
    assert refused(three).endswith(want)
    for deep in ("4 1/2", "3"):
        assert not problems(job_text({**three, "carrier.let_in": deep}))


def test_carriers_that_cannot_be_let_in_are_told_what_can_be_done() -> None:
    """Three on both faces take 3 of each to be flush with the girts, 6 in all of a column of 5 1/2. Two take 1 1/2."""
    three = {**CARRIED, "carrier.boards": "3"}
    want = 'take carrier.boards = 2, carrier.where = "inside", or a column deeper than 6".'
    for deep in ("0", "3", "4 1/2"):
        assert refused({**three, "carrier.let_in": deep}).endswith(want)
    assert not problems(job_text({**three, "carrier.where": "inside"}))
    assert not problems(job_text({**three, "column.depth": "7 1/4", "carrier.let_in": "3"}))
    two = refused({**CARRIED, "carrier.boards": "2"})
    assert two.endswith('Let in 1 1/2" they are flush with the girts.')
    assert not problems(job_text({**CARRIED, "carrier.boards": "2", "carrier.let_in": "1 1/2"}))


def test_carriers_without_girts_outside_are_flush_with_the_columns() -> None:
    """One board of 1 1/2, girts between the columns: no other plane to be flush with."""
    one = {**CARRIED, "girts.place": "between"}
    assert refused(one).endswith('Let in 1 1/2" they are flush with the columns.')
    assert not problems(job_text({**one, "carrier.let_in": "1 1/2"}))


def test_carriers_of_thick_boards_are_told_what_can_be_done() -> None:
    """Two of 3 1/2 end at 7, or at 5 1/2 with the girts: columns are let in 6 at most, and 11 of 5 1/2 cannot go. One
    is flush with the girts at 2. Three end at 10 1/2 or 9: no depth of any column goes."""
    boards = {**CARRIED, "carrier.board": "4x12"}
    two = refused({**boards, "carrier.boards": "2"})
    assert two.endswith('take carrier.boards = 1, carrier.where = "inside", or a column deeper than 11".')
    assert not problems(job_text({**boards, "carrier.let_in": "2"}))
    assert refused({**boards, "carrier.boards": "3"}).endswith('take carrier.boards = 1, carrier.where = "inside".')
