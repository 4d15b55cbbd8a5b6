"""Warnings of a building: piers that are out, untreated ends, and the floor that is wanted."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import build
from shots import shot
from test_building import warned


def test_untreated_ends_are_told_together() -> None:
    """Line 44, floor 3 1/2 over it: ends of 45 and 45 1/2 stand 4 1/2 and 5 below the floor, 1 above it wanted."""
    building = build({"column.treated": "none"}, {"A1": "45", "A2": "45 1/2", "A3": "45 1/4"})
    told = [w for w in building.warnings if "untreated" in w]
    assert len(told) == 1
    assert told[0].startswith('A2: its untreated bottom end stands 5" BELOW the finished floor, at least 1" above it')
    assert told[0].endswith(" A1, A3: the same, by as much or less.")


def test_one_untreated_end_is_told_alone() -> None:
    (told,) = [w for w in build({"column.treated": "none"}, {"A1": "45"}).warnings if "untreated" in w]
    assert "the same" not in told


def test_untreated_ends_do_not_move_the_line() -> None:
    """None of the lines above the floor would mend them."""
    rows = {"A1": "45", "A2": "46"}
    plain, bare = build({}, rows).grade, build({"column.treated": "none"}, rows).grade
    assert bare.line == plain.line
    assert bare.why == plain.why


def test_what_is_wrong_with_piers_is_told_worst_first() -> None:
    """Line 45: A1 on 44 1/2, A2 4 under the line with 3 allowed, C1 15: its top is at 197 and over 15 ft
    on any seat."""
    changes = {"grade.line": "45", "grade.most": "3", "column.stock": ["162 in", "15'"]}
    building = build(changes, {"A1": "44 1/2", "A2": "49", "C1": "60"})
    told = [(p.name, p.kind) for p in building.piers]
    assert told == [("A1", "below"), ("A2", "low"), ("C1", "low"), ("C1", "stock")]
    lines = [w for w in building.warnings if "shoot it again before" not in w and w[:3] in ("A1:", "A2:", "C1:")]
    assert [w[:2] for w in lines] == ["A1", "C1", "A2", "C1"]
    assert "BELOW its seat" in lines[0]
    assert "longest column stock" in lines[1]


def test_every_pier_that_is_out_is_in_the_warnings() -> None:
    limits = {"grade.line": "45", "grade.least": "1/2", "grade.most": "1"}
    building = build(limits, {"A1": "44", "A2": "46 1/2", "A3": "45 1/2"})
    assert [p.name for p in building.piers] == ["A1", "A2"]
    assert all(p.said in building.warnings for p in building.piers)


BENCH = "benchmark,BM,nail in the pole\ncolumn,reading\nBM,52\nA1,60\nA2,60 1/2\nBM,52\n"
FLOOR = {"grade.benchmark": "BM", "grade.floor_at": "4"}  # reads 48; its line 51 1/2


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"grade.line": "52"}, ""),  # 1/2 lower, as far as is allowed
        ({"grade.line": "52 1/4"}, 'The finished floor comes 3/4" lower than wanted from BM, 1/2" allowed.'),
        ({"grade.line": "50"}, 'The finished floor comes 1 1/2" higher than wanted from BM, 1/2" allowed.'),
        ({"grade.line": "50"}, 'A line reading of 51 1/2" brings it as wanted.'),
        ({"grade.line": "51", "grade.cover": "3"}, ""),  # 51 - 48
        (
            {"grade.line": "51", "grade.cover": "3 1/4"},
            'The grade board reaches 3" below the floor wanted, 3 1/4" asked',
        ),
    ],
)
def test_the_floor_wanted_is_warned_of(changes: dict[str, Any], says: str) -> None:
    found = shot({**FLOOR, **changes}, BENCH).warnings
    about = [w for w in found if w.startswith(("The finished floor", "The grade board"))]
    assert any(says in w for w in about) if says else about == []


@pytest.mark.parametrize(("line", "within"), [("52", "31/64"), ("51 31/32", "7/16")])
def test_a_floor_over_its_limit_by_a_hair_does_not_read_as_on_it(line: str, within: str) -> None:
    """1/2 and 15/32 lower than wanted."""
    found = shot({**FLOOR, "grade.line": line, "grade.floor_within": within}, BENCH).warnings
    assert any('comes 1/2" lower than wanted from BM, 7/16" allowed' in w for w in found)


def test_a_benchmark_that_the_rounds_do_not_agree_on_is_told() -> None:
    """Round 2 is laid on BM and BM2 (their median): BM reads 1/2 more in it, BM2 nothing: BM comes 1/4 apart."""
    head = "benchmark,BM,nail\nbenchmark,BM2,peg\ncolumn,reading,round\n"
    text = head + "BM,52,1\nBM2,50,1\nA1,60,1\nBM,52,1\nBM,52 1/2,2\nBM2,50,2\nA1,60 1/4,2\nBM,52 1/2,2\n"
    found = shot({**FLOOR, "readings.differ": "1/8"}, text).warnings
    assert 'The floor hangs on BM, whose rounds are 1/4" apart: shoot it again.' in found


def test_a_reading_that_cannot_be_is_told_from_a_seat_too_high() -> None:
    """An offset of -150 puts the bearing of 144 below the bottom end."""
    building = build({"grade.line": "200"}, {"A1": "201", "A2": "50"})
    assert [c.name for c in building.columns] == ["A1"]
    assert warned(building, "A2: its cuts would fall below its bottom end. Its reading or the line reading is wrong.")
    assert warned(building, "A2: the grade line is 12'-6\" BELOW its seat")
