"""A line reading that is given stays; which seats have a say in one that is chosen; rods of either sense and unit."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import METRIC, build, job
from shots import benchmarked, line, shot

from layouts.grade import SHOWN, Grade
from layouts.problems import JobRefused
from layouts.readings import taken

LEVEL = {"A1": "45", "A2": "45", "A3": "45", "G1": "45", "G2": "45", "G3": "45"}


def grade(changes: Mapping[str, Any], rows: Mapping[str, Any]) -> Grade:
    return build(changes, rows).grade


# --- a line that is given -------------------------------------------------------------------------------------------


@given(st.integers(30 * 8, 60 * 8).map(lambda n: n / 8), st.lists(st.integers(0, 96), min_size=2, max_size=8))
def test_a_given_line_is_never_moved_and_the_proposal_is_said(fixed: float, eighths: list[int]) -> None:
    names = ("A1", "A2", "A3", "A4", "A5", "A6", "A7", "G7")
    rows = {name: str(45 + n / 8) for name, n in zip(names, eighths, strict=False)}
    found = grade({"grade.line": str(fixed)}, rows)
    free = grade({}, rows)
    assert found.line == fixed
    assert {n: float(v) - fixed for n, v in rows.items()} == found.offsets
    assert found.proposed is not None
    assert found.proposed.down == free.line
    assert found.why.startswith("Line reading ")
    assert "as given" in found.why
    assert ("and it is the one proposed" in found.why) == (fixed == free.line)
    assert (f"Proposed is {taken(build().readings, found.proposed.down, job().style)}:" in found.why) == (
        fixed != free.line
    )
    assert {fixed, free.line} <= {c.down for c in found.candidates}


def test_a_given_line_tells_its_own_cost_and_why_another_is_proposed() -> None:
    found = grade({"grade.line": "46"}, {"A1": "45", "A2": "47"})
    assert found.why == (
        'Line reading 46" as given; 1 pier out of tolerance. Proposed is 44": highest seat A1 reads 45", at least 1" '
        'wanted below the line, on 1/2" steps of the rod.'
    )


def test_a_given_line_that_is_near_its_seats_is_told_where_less_is_not_allowed() -> None:
    """A1 is 1/4 under the line, an inch is wanted, or only that quarter."""
    rows = {"A1": "45", "A2": "47"}
    found = build({"grade.line": "44 3/4"}, rows)
    assert found.grade.why.startswith('Line reading 44 3/4" as given; 1 pier out of tolerance. Proposed is 44"')
    assert [(p.name, p.kind, p.by) for p in found.piers] == [("A1", "high", 0.75)]
    found = build({"grade.line": "44 3/4", "grade.least": "1/4"}, rows)
    assert found.grade.why.startswith('Line reading 44 3/4" as given. Proposed is 44 1/2"')
    assert found.piers == ()


def test_a_given_line_tells_how_its_floor_comes() -> None:
    found = benchmarked({"grade.floor_at": "4", "grade.line": "53"}, "52", dict.fromkeys(LEVEL, "60"))
    assert found.grade.why.startswith(
        'Line reading 53" as given: the finished floor comes 1 1/2" lower than wanted from BM. Proposed is 51 1/2": '
    )


def test_the_candidates_shown_are_the_ones_round_the_line() -> None:
    rows = {"A1": "45", "A2": "51", "A3": "48"}
    for fixed in ("choose", "44", "46 1/8", "60", "12"):
        found = grade({"grade.line": fixed}, rows)
        downs = [c.down for c in found.candidates]
        assert downs == sorted(downs)
        here = found.taken()
        assert here is not None
        assert here.down == found.line
        assert found.proposed in found.candidates or found.proposed == here
        assert sum(d < here.down for d in downs) <= SHOWN + 1
        assert sum(d > here.down for d in downs) <= SHOWN + 1


# --- who has a say --------------------------------------------------------------------------------------------------

CALM = "A1,52 1/2\nA2,52 5/8\nA3,52 3/8\nA4,52 1/4\nA5,52 1/2\nA6,52 5/8\n"


def test_a_wild_seat_read_once_has_no_say() -> None:
    """A7 42 3/4: ten inches above the middle of all. Without it the highest seat is A4: 52 1/4 - 1, down to a half."""
    found = shot({}, f"column,reading\n{CALM}A7,42 3/4\nA1,52 1/2\n").grade
    assert found.line == 51
    assert set(found.wild) == {"A7"}
    assert found.highest == "A4"
    assert found.why.endswith(" A7 had no say: far from all others, and no other reading bears it out.")
    assert all("A7" not in c.stocks for c in found.candidates)
    assert found.offsets["A7"] == -8.25  # told all the same


def test_a_wild_seat_that_was_read_twice_has_its_say() -> None:
    text = f"column,reading,round\n{CALM.replace(chr(10), ',1' + chr(10))}A7,42 3/4,1\nA1,52 1/2,1\n"
    again = "A1,52 1/2,2\nA2,52 5/8,2\nA7,42 13/16,2\nA1,52 1/2,2\n"
    found = shot({}, text + again).grade
    assert set(found.wild) == set()
    assert found.line == 41.5  # 42 13/16 less 1, down to a half
    assert found.highest == "A7"
    assert "no say" not in found.why


def test_a_second_reading_that_does_not_agree_gives_no_say() -> None:
    text = f"column,reading,round\n{CALM.replace(chr(10), ',1' + chr(10))}A7,42 3/4,1\nA1,52 1/2,1\n"
    again = "A1,52 1/2,2\nA2,52 5/8,2\nA7,43 3/4,2\nA1,52 1/2,2\n"
    found = shot({}, text + again).grade
    assert set(found.wild) == {"A7"}
    assert found.line == 51


def test_a_round_that_does_not_close_has_no_say() -> None:
    """Round 2 reads A4 an inch higher, and its check-back is 3/4 off: left out."""
    text = f"column,reading,round\n{CALM.replace(chr(10), ',1' + chr(10))}A1,52 1/2,1\n"
    again = "A1,52 1/2,2\nA4,51 1/4,2\nA1,53 1/4,2\n"
    found = shot({}, text + again)
    assert line(found) == 51
    assert any("ROUND 2 IS LEFT OUT" in w for w in found.warnings)


# --- other rods -----------------------------------------------------------------------------------------------------


@given(st.lists(st.integers(0, 48), min_size=2, max_size=8), st.sampled_from([80, 100, 112.5]))
def test_a_rod_that_reads_up_gives_the_same_offsets_and_its_own_line(sixteenths: list[int], zero: float) -> None:
    """The same piers, read as so much above a plane *zero* below the beam."""
    names = ("A1", "A2", "A3", "A4", "A5", "A6", "A7", "G7")
    seats = {name: 45 + n / 16 for name, n in zip(names, sixteenths, strict=False)}

    def text(value: Any) -> str:
        lines = [f"{name},{value(v)}" for name, v in seats.items()]
        return "column,reading\n" + "\n".join([*lines, lines[0]])

    down = shot({}, text(lambda v: v))
    up = shot({}, "sense,up\n" + text(lambda v: zero - v))
    assert up.grade.offsets == down.grade.offsets
    assert up.grade.lower == down.grade.lower
    assert up.readings.down(line(up)) == zero - line(down)
    said = taken(up.readings, line(up), up.job.style)
    assert said == taken(down.readings, zero - line(down), down.job.style)
    assert up.grade.why.startswith(f"Line reading {said} chosen: ")
    assert {c.name: (c.length, c.stock) for c in up.columns} == {c.name: (c.length, c.stock) for c in down.columns}


def test_a_rod_that_reads_up_may_read_a_minus_line() -> None:
    """Seats at +1 and + 1/2 from the beam's zero: the highest is +1, the line 1 above it is +2; wanted lower than that
    a given -3 is a line, not a mistake."""
    text = "sense,up\ncolumn,reading\nA1,+1\nA2,1/2\nA1,+1\n"
    assert shot({}, text).grade.why.startswith('Line reading 2" chosen')
    fixed = shot({"grade.line": "-3"}, text)
    assert fixed.grade.offsets == {"A1": -4, "A2": -3.5}
    assert fixed.grade.why.startswith('Line reading -3" as given')


def test_a_line_above_the_beam_is_refused_where_readings_go_down() -> None:
    with pytest.raises(JobRefused, match=r"grade\.line.*above the beam"):
        build({"grade.line": "-3"}, {"A1": "45"})


def test_the_floor_is_the_same_from_a_rod_that_reads_up() -> None:
    down = benchmarked({"grade.floor_at": "4"}, "52", {"A1": "60", "A2": "61"})
    up = benchmarked({"grade.floor_at": "4"}, "48", {"A1": "40", "A2": "39"}, "sense,up\n")
    assert up.grade.offsets == down.grade.offsets == {"A1": 8.5, "A2": 9.5}
    assert up.readings.down(line(up)) == 100 - line(down)


def test_decimal_feet_are_said_in_feet() -> None:
    """3.75 ft is 45 in, less 1 is 44 in: 3.667 ft."""
    found = shot({}, "unit,feet\ncolumn,reading\nA1,3.75\nA2,3.80\nA1,3.75\n")
    assert line(found) == 44
    assert found.grade.why.startswith('Line reading 3.667 ft (44") chosen: highest seat A1 reads 3.75 ft (45")')


def test_a_metric_floor() -> None:
    """BM 1300, floor 100 above it reads 1200, the line 90 under that 1290."""
    text = "benchmark,BM,peg\ncolumn,reading\nA1,1400\nA2,1412\nBM,1300\nA1,1400\n"
    found = shot({"grade.benchmark": "BM", "grade.floor_at": 100}, text, METRIC)
    assert line(found) * 25.4 == pytest.approx(1290)
    assert found.grade.why == (
        "Line reading 1290 mm chosen: the finished floor comes as wanted from BM, nearest on 5 mm steps of the rod."
    )
