"""The floor that is wanted, and the line that it decides."""

from __future__ import annotations

import pytest
from jobs import build
from shots import benchmarked, line
from test_choose import LEVEL

from layouts.problems import JobRefused


@pytest.mark.parametrize(
    ("floor_at", "makes"),
    [
        # height of instrument: BM reads 52, so the beam stands 52 over it. A floor 4 above BM would read 52 - 4 = 48;
        # the line 3 1/2 under the floor reads 51 1/2
        ("4", 51.5),
        ("0", 55.5),
        ("-4", 59.5),  # below BM: reads more
    ],
)
def test_the_floor_wanted_decides_the_line(floor_at: str, makes: float) -> None:
    found = benchmarked({"grade.floor_at": floor_at}, "52", dict.fromkeys(LEVEL, "61"))
    assert line(found) == makes
    here = found.grade.taken()
    assert here is not None
    assert here.floor == 0
    assert found.grade.floor == makes - 3.5
    assert 'chosen: the finished floor comes as wanted from BM, nearest on 1/2" steps of the rod' in found.grade.why
    assert found.grade.highest == ""


def test_a_lower_line_brings_the_floor_lower() -> None:
    """BM 52, floor 4 above: wanted line 51 1/2. Given 52, floor and all come 1/2 lower."""
    found = benchmarked({"grade.floor_at": "4", "grade.line": "52"}, "52", dict.fromkeys(LEVEL, "60"))
    here = found.grade.taken()
    assert here is not None
    assert here.floor == -0.5
    # the wanted floor is where a rod reads 48, the board's bottom edge where it reads 52
    assert here.below == 4
    assert here.shows == 7.25 - 4  # a 2x8


def test_floor_and_line_stand_as_the_job_says_on_every_candidate() -> None:
    found = benchmarked({"grade.floor_at": "4"}, "52", {"A1": "53 1/8", "A2": "54"}).grade
    assert found.floor == 48
    for c in found.candidates:
        assert c.floor is not None
        assert c.below is not None
        assert c.shows is not None
        comes = c.down - 3.5  # what a rod reads on the floor of this line
        assert c.floor == 48 - comes  # a larger reading is lower
        assert c.below + c.shows == 7.25
        assert c.below == 3.5 - c.floor


def test_the_floor_may_come_off_as_far_as_it_is_allowed_for_a_pier_s_sake() -> None:
    """Wanted line 51 1/2 leaves A1 (52) 1/2 of 1 inch: at 51 the floor comes 1/2 higher, and nothing is out."""
    rows = {"A1": "52", "A2": "53"}
    found = benchmarked({"grade.floor_at": "4"}, "52", rows)
    assert line(found) == 51
    assert 'the finished floor comes 1/2" higher than wanted from BM; 51 1/2" would bring it nearer, but there 1 pier '
    assert "but there 1 pier would be out of tolerance" in found.grade.why
    near = benchmarked({"grade.floor_at": "4", "grade.floor_within": "1/4"}, "52", rows)
    assert line(near) == 51.5
    assert [p.kind for p in near.piers] == ["high"]


def test_a_floor_too_fine_for_the_steps_is_met_by_the_nearest() -> None:
    """Wanted 51 5/8 on halves, nothing allowed: 51 1/2 is nearest, and that it is off is told."""
    found = benchmarked({"grade.floor_at": "3 7/8", "grade.floor_within": "0"}, "52", dict.fromkeys(LEVEL, "60"))
    assert line(found) == 51.5
    assert any(
        w
        == 'The finished floor comes 1/8" higher than wanted from BM, 0" allowed. A line reading of 51 5/8" brings it '
        "as wanted."
        for w in found.warnings
    )


def test_the_board_reaches_below_the_floor_as_far_as_asked() -> None:
    """Board 3 1/2 below its floor. 4 asked below the floor wanted: a line 1/2 lower, the floor with it."""
    rows = dict.fromkeys(LEVEL, "60")
    found = benchmarked({"grade.floor_at": "4", "grade.cover": "4"}, "52", rows)
    assert line(found) == 52
    assert '51 1/2" would bring it nearer, but there the grade board reaches 3 1/2" below' in found.grade.why
    told = benchmarked({"grade.floor_at": "4", "grade.cover": "3 3/4", "grade.line": "51 1/2"}, "52", rows)
    assert any('reaches 3 1/2" below the floor wanted, 3 3/4" asked: take' in w for w in told.warnings)


def test_a_far_off_floor_is_met_even_so() -> None:
    """Seats 20 in below where the line has to be: no range of candidates may miss it."""
    found = benchmarked({"grade.floor_at": "4", "grade.round": "quarter"}, "52", dict.fromkeys(LEVEL, "71 1/2"))
    assert line(found) == 51.5


def test_a_column_may_be_the_benchmark() -> None:
    """The floor 3 1/2 above the seat of A1, which reads 47: 43 1/2; the line 3 1/2 under it is A1's own reading."""
    found = build({"grade.benchmark": "A1", "grade.floor_at": "3 1/2", "grade.least": "0"}, {"A1": "47", "A2": "48"})
    assert line(found) == 47
    assert found.grade.offsets == {"A1": 0, "A2": 1}


def test_a_benchmark_that_was_not_read_refuses_the_job() -> None:
    with pytest.raises(JobRefused, match=r"grade\.benchmark = BM2: was not read"):
        build({"grade.benchmark": "BM2"}, {"A1": "45"})
