"""Tops of columns: slots, shoulders, level tops, carriers; and tops of endwall columns. Numbers worked by hand.

The job of ``jobs.BASE``: bearing 12 ft, heel 9 1/4 at the column face, 4/12, purlins 2x6 on edge, columns 4 1/2 by
5 1/2.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import opened
import pytest
from jobs import METRIC, build, every, job, job_text, problems

from layouts import seats
from layouts.building import Building, lay_out
from layouts.carriers import trusses
from layouts.columns import Cut
from sheets import packet, wall
from sheets.audit import differences
from sheets.paper import PAPERS

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


# --- carriers -------------------------------------------------------------------------------------------------------


def test_carriers_are_marked_where_they_are() -> None:
    """Tops at the bearing, 144; a 2x12 is 11 1/4: undersides at 132 3/4, where columns are shouldered."""
    built = made({**CARRIED, "carrier.let_in": "1 1/2"})
    rod = next(r for r in built.rods if not r.gable)
    marks = {m.name: (m.low, m.high) for m in rod.marks}
    assert marks["Carrier"] == (132.75, 144)
    assert marks["SHOULDER"] == (132.75, 132.75)
    assert not [w for w in built.warnings if "carrier" in w.lower() and "shoulder" in w.lower()]


def test_boards_side_by_side_never_break_on_one_column() -> None:
    for where in ("both", "outside", "inside", "on top"):
        let = {} if where in ("inside", "on top") else {"carrier.let_in": "1 1/2"}
        boards = {} if where == "both" else {"carrier.boards": "2"}
        built = made({**CARRIED, "carrier.where": where, **let, **boards})
        for found in (w for w in built.walls if not w.line.gable):
            rows = [c for c in found.courses if c.row.key == "carrier"] + list(found.carriers)
            assert len(rows) == 2, where
            breaks = [{round(p.low[1], 6) for p in c.pieces[:-1]} for c in rows]
            assert all(breaks), where
            assert not breaks[0] & breaks[1], where


def test_trusses_stand_in_equal_spaces_over_the_whole_length() -> None:
    """Columns 573 out to out; 571 1/2 to the last one's front face; 4 ft go 11.9 times: 12 spaces of 47 5/8."""
    built = made(CARRIED | {"carrier.let_in": "1 1/2"})
    places = trusses(built.job, built.plan)
    assert len(places) == 13
    assert [b - a for a, b in pairwise(places)] == pytest.approx([47.625] * 12)
    assert places[-1] + 1.5 == built.plan.along


def test_an_opening_must_end_under_the_carriers() -> None:
    """A rough opening's top at 3 1/2 + 10 ft 9 1/4 = 132 3/4 just goes; a sixteenth more does not. The header takes
    5 1/2 more and stands beside the carriers on the girts' side."""
    fields = {**CARRIED, "carrier.where": "inside", "girts.top": "11'-10"}
    door = {**opened.SLIDING, "width": "4'", "height": "10'-9 1/4", "track": "2x4"}
    assert not problems(job_text(opened.with_openings(fields, door)))
    found = problems(job_text(opened.with_openings(fields, {**door, "height": "10'-9 5/16"})))
    assert [p.place for p in found] == ["opening 1.height"]
    assert "above the carriers' underside, 11'-0 3/4" in str(found[0])


def test_jamb_posts_may_go_up_to_the_bearing_or_the_slope() -> None:
    """A post of the gable's door ends under the chord: its edges 1 1/2 apart, the ends 1/2 apart at 4/12."""
    door = {**opened.DOOR, "jamb_tops": "full"}
    side = opened.one(door)
    assert {u.tops for u in side.uprights if u.name.startswith("Jamb")} == {(144.0, 144.0)}
    end = opened.one({**door, "wall": "1"})
    for post in (u for u in end.uprights if u.name.startswith("Jamb")):
        assert abs(post.tops[0] - post.tops[1]) == pytest.approx(0.5)
        # 153 1/4 over the column's outer face, and a third of the way in
        far = min(post.left, 381 - post.right)
        assert min(post.tops) == pytest.approx(153.25 + far / 3)


@pytest.mark.parametrize(
    "changes",
    [
        {**CARRIED, "carrier.let_in": "1 1/2"},
        {**CARRIED, "carrier.where": "outside"},
        {**CARRIED, "carrier.where": "inside", "carrier.boards": "2", "lift.lies": "outside"},
        {**CARRIED, "carrier.where": "on top", "carrier.boards": "3"},
        {"column.make": "solid", "tops.seat": "shoulder", "tops.shoulder": "both", "truss.each": "2"},
        {"tops.endwall_ears": "chord bottom", "truss.top_chord": "2x6", "tops.endwall_centre": "bearing"},
    ],
)
def test_packets_of_all_tops_pass_their_audit(changes: dict[str, Any], tmp_path: Path) -> None:
    built = made(changes)
    for kind in ("rods", "tags", "walls", "cuts"):
        printed = packet.build(built, PAPERS["letter"], kind)
        packet.save(printed, tmp_path / kind)
        assert differences(printed, built, tmp_path / kind) == []


def test_the_carriers_sheet_has_every_board_and_every_truss() -> None:
    built = made({**CARRIED, "carrier.where": "outside", "carrier.boards": "2", "carrier.let_in": "1 1/2"})
    pages = [b for b in wall.pages(built, PAPERS["letter"]) if b.title.endswith("carriers")]
    assert [b.title for b in pages] == ["Wall A, carriers", "Wall F, carriers"] or len(pages) == 2
    for body in pages:
        texts = list(boxes.written(body.drawing.shapes))
        assert boxes.overlaps(texts) == []
        words = {t.words for t in texts}
        assert {f"T{i}" for i in range(1, 14)} <= words
        held = next(w for w in built.walls if f"Wall {w.name}," in body.title)
        marks = {p.mark for c in (*held.courses, *held.carriers) if c.row.key == "carrier" for p in c.pieces}
        assert {m for m in marks if not any(w.startswith(f"{m} ") or w == m for w in words)} == set()


@pytest.mark.parametrize(
    ("changes", "want"),
    [
        # bays of 8 ft: two of them in a board of 16
        ({"carrier.boards": "2"}, "Boards break over columns. Boards side by side on one face of the columns break on"),
        ({"carrier.where": "both"}, "Boards break over columns. Lengths"),
        # bays of 12 ft: no board of 20 holds two
        (
            {"carrier.where": "both", "building.bays": 4},
            "Boards break over columns. The boards on the outside and those on the inside both break on A4, A3, A2.",
        ),
        (
            {"carrier.boards": "2", "building.bays": 4},
            "Boards break over columns. NO STOCK LENGTH STAGGERS boards side by side on one face: they break together "
            "on A4, A3, A2.",
        ),
        ({"building.length": "16'", "building.bays": 2}, "Every board is in one piece."),
    ],
)
def test_the_carriers_sheet_says_where_boards_break_as_they_are_drawn(changes: dict[str, Any], want: str) -> None:
    built = made({**CARRIED, "carrier.where": "outside", "carrier.let_in": "1 1/2", **changes})
    page = next(b for b in wall.pages(built, PAPERS["letter"]) if b.title == "Wall A, carriers")
    assert want in " ".join(t.words for t in boxes.written(page.drawing.shapes))


def test_a_metric_job_says_it_in_millimetres() -> None:
    built = build({"tops.seat": "flat", "carrier.board": "45x240", "carrier.let_in": "45 mm"}, base=METRIC)
    (page, *_) = [b for b in wall.pages(built, PAPERS["a4"]) if b.title.endswith("carriers")]
    words = " ".join(t.words for t in boxes.written(page.drawing.shapes))
    assert '"' not in words
    assert "45 mm" in words
