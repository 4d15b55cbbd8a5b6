"""Carriers: where they are marked, where their boards break, and their sheet."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import opened
import pytest
from jobs import METRIC, build, job_text, problems
from test_tops import CARRIED, made

from layouts.carriers import trusses
from sheets import packet, wall
from sheets.audit import differences
from sheets.paper import PAPERS


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


@pytest.mark.parametrize(("board", "top"), [("2x6", 144), ("2x8", 132.75)])
def test_girts_between_columns_end_under_a_carrier_inside_that_they_reach(board: str, top: float) -> None:
    """Columns 7 1/4 deep, the carrier let in 1 1/2 from their inner face: from 5 3/4. A 2x6 ends at 5 1/2, a 2x8 at
    7 1/4: its top girt lies under the carrier, 144 - 11 1/4."""
    fields = {**CARRIED, "carrier.where": "inside", "carrier.let_in": "1 1/2", "column.depth": "7 1/4"}
    built = made({**fields, "girts.place": "between", "girts.board": board})
    assert built.rows.side[-1].key == "top girt"
    assert built.rows.side[-1].high == top


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


# --- what a column keeps, and what carriers lie on ------------------------------------------------------------------

SHOULDER = {"tops.seat": "shoulder"}
ON_TOP = {**CARRIED, "carrier.where": "on top"}


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        # of 4 1/2 a third is 1 1/2: just what two shoulders of 1 1/2 leave
        ({**SHOULDER, "tops.shoulder": "both", "truss.each": "2"}, ""),
        (
            {**SHOULDER, "tops.shoulder": "both", "tops.shoulder_depth": "1 9/16", "truss.each": "2"},
            'for its trusses, a column keeps only 1 3/8" of its 4 1/2" there',
        ),
        ({**SHOULDER, "tops.shoulder_depth": "3", "truss.each": "2"}, ""),
        ({**SHOULDER, "tops.shoulder_depth": "4", "truss.thickness": "4"}, 'keeps only 1/2" of its 4 1/2"'),
        # of 5 1/2 a third is 1.83
        ({**CARRIED, "carrier.let_in": "1 1/2"}, ""),  # both faces: 2 1/2 is left
        (
            {**CARRIED, "carrier.where": "outside", "carrier.boards": "3", "carrier.let_in": "4 1/2"},
            'for its carriers, a column keeps only 1" of its 5 1/2" there',
        ),
        ({**CARRIED, "carrier.where": "outside", "carrier.boards": "2", "carrier.let_in": "3"}, ""),
    ],
)
def test_a_column_that_keeps_little_beside_its_seat_is_told(changes: dict[str, Any], says: str) -> None:
    found = [w for w in build(changes).warnings if "a column keeps only" in w]
    assert len(found) == bool(says)
    assert says in "".join(found)
    assert all("ask the engineer before it is cut" in w for w in found)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({**ON_TOP, "carrier.boards": "3"}, ""),  # 4 1/2 on 5 1/2
        (
            {**ON_TOP, "carrier.boards": "3", "column.depth": "3 1/2"},
            'are 4 1/2" thick, and the columns they lie on 3 1/2" deep: they stand out by 1". Ask the engineer.',
        ),
        # beside the columns they do not lie on them
        ({**CARRIED, "carrier.where": "inside", "carrier.boards": "3", "column.depth": "3 1/2"}, ""),
    ],
)
def test_carriers_that_are_thicker_than_their_columns_are_told(changes: dict[str, Any], says: str) -> None:
    found = [w for w in build(changes).warnings if "they stand out by" in w]
    assert len(found) == bool(says)
    assert says in "".join(found)


@pytest.mark.parametrize(
    ("board", "bays", "says"),
    [
        # a 24th of 8 ft is 4, of 11 ft 5 1/2
        ("2x4", "6", 'only 3 1/2" deep over bays of 8\'-0": is carrier.board right? Ask the engineer.'),
        ("2x6", "6", ""),
        ("2x6", ["11'", "11'", "9'", "8'", "9'"], ""),
        ("2x6", ["11'-1", "10'-11", "9'", "8'", "9'"], 'only 5 1/2" deep over bays of 11\'-1"'),
    ],
)
def test_carriers_that_are_slender_over_their_bays_are_asked_about(board: str, bays: object, says: str) -> None:
    changes = {**ON_TOP, "carrier.board": board, "building.length": "48'", "building.bays": bays}
    found = [w for w in build(changes).warnings if "carrier.board right?" in w]
    assert len(found) == bool(says)
    assert says in "".join(found)
