"""Rounds of a survey laid on one another: by their seats, and by their benchmarks."""

from __future__ import annotations

import pytest
from jobs import job
from msgspec.structs import replace
from test_survey import COLUMNS, INCHES, LIMITS, MEAN, refused, rounds, survey

from layouts import book
from layouts.laid import torn
from layouts.problems import JobRefused
from layouts.readings import of

MARKS = "benchmark,BM1\nbenchmark,BM2"

# --- rounds -----------------------------------------------------------------------------------------------------------


def test_latest_or_mean() -> None:
    """Round 2 stands 2 higher by the median of 2, 2 and 2 1/8: A3 is 46 then, or 46 1/16."""
    text = rounds("A1 44, A2 45, A3 46, A1 44", "A1 46, A2 47, A3 48 1/8, A1 46")
    assert survey(text).values == {"A1": 44, "A2": 45, "A3": 46.125}
    assert survey(text, MEAN).values == {"A1": 44, "A2": 45, "A3": 46.0625}


def test_seats_that_differ_by_more_than_the_limit_are_flagged_the_later_less_the_earlier() -> None:
    """1/8 may be; 3/16 lower and 1/4 higher may not."""
    text = rounds("A1 44, A2 45, A3 46, A4 44, A5 44", "A1 44, A2 45, A3 46 1/8, A4 44 3/16, A5 43 3/4")
    found = survey(text)
    assert found.apart == {"A4": 3 / 16, "A5": -1 / 4}
    assert found.read_twice == {"A1", "A2", "A3"}
    assert survey(text, replace(LIMITS, differ=0.25)).apart == {}


def test_a_seat_of_one_round_alone_is_kept() -> None:
    found = survey(rounds("A1 44, A2 45", "A1 50, A3 52"))
    assert found.values == {"A1": 44, "A2": 45, "A3": 46}
    assert found.read_twice == {"A1"}


def test_a_third_round_may_hang_on_the_second_or_come_before_it() -> None:
    """A3 is 46 by round 2, so round 3 stands 4 higher. Written in the other order it is the same."""
    parts = "A1 44", "A1 50, A3 52", "A3 50, A4 60"
    for text in (rounds(*parts), rounds(parts[0], parts[2], parts[1])):
        found = survey(text)
        assert found.values == {"A1": 44, "A3": 46, "A4": 56}
        assert len(found.laid) == 2


def test_a_refused_round_is_left_out_where_another_has_its_seats() -> None:
    """Round 2 is the datum then. Benchmarks are no seats: that one was not shot again."""
    text = rounds("A1 44, A2 45, BM 20, A1 45", "A1 46, A2 47, A1 46", head="benchmark,BM")
    found = survey(text)
    assert [r.refused for r in found.rounds] == [True, False]
    assert found.values == {"A1": 46, "A2": 47}
    assert found.read_twice == {"A1"}


def test_a_refused_round_with_a_seat_of_its_own_refuses_the_file() -> None:
    (line,) = refused(rounds("A1 44, A2 45, A3 44, A1 45", "A1 46, A2 47, A1 46"))
    assert line.startswith('readings.csv: line 5, A1 = 45: round 1: A1 read again is 1" off, 1/8" allowed: refused.')


def test_two_refused_rounds_are_no_help_to_each_other() -> None:
    lines = refused(rounds("A1 44, A2 45, A1 45", "A1 46, A2 47, A1 47"))
    assert ["round 1" in lines[0], "round 2" in lines[1], len(lines)] == [True, True, 2]


def test_a_given_line_reading_does_not_outlive_the_round_it_hangs_from() -> None:
    """46 from a beam that was left out is no 46 from another."""
    text = rounds("A1 44, A2 45, A1 45", "A1 46, A2 47, A1 46")
    written = book.read(text, COLUMNS, "in")
    assert of(written, job()).values == {"A1": 46, "A2": 47}
    with pytest.raises(JobRefused) as caught:
        of(written, job({"grade.line": "46"}))
    assert str(caught.value) == (
        "readings.csv: round 1: does not close, and grade.line in the job is told by its beam. Take round 1 out, and "
        "tell grade.line by the first set-up that is left."
    )
    last = book.read(rounds("A1 46, A2 47, A1 46", "A1 44, A2 45, A1 45"), COLUMNS, "in")
    assert of(last, job({"grade.line": "46"})).values == {"A1": 46, "A2": 47}


# --- seats that do not agree ------------------------------------------------------------------------------------------

TIES = "A1 44 3/4, A2 45 1/8, A3 44 5/8, A4 44 7/8, A1 44 3/4"
SPLIT = 'Round 2 is laid on the others half way between {} and {}, which disagree by {} where 1/8" is allowed. '
SPLIT += "Read one more of their seats in it, or shoot another round."


@pytest.mark.parametrize(
    ("later", "told"),
    [
        ("A1 48 1/8, A3 48 1/4", [SPLIT.format("A1", "A3", '1/4"')]),  # 3 3/8 and 3 5/8 higher
        ("A1 48 1/8, A3 48 1/8", []),  # 3 3/8 and 3 1/2: as much as two rounds may differ
        ("A1 48 1/8, A3 48 9/64", [SPLIT.format("A1", "A3", '3/16"')]),  # 9/64, and not told as the 1/8 allowed
        ("A1 48 1/8, A3 48 1/4, A2 48 1/2", []),  # A2 is 3 3/8 higher like A1, so it is A3 that is out
        ("A1 48 1/8, A3 48 1/4, A2 48 1/2, A4 48 1/2", [SPLIT.format("A1, A2", "A3, A4", '1/4"')]),  # two and two
        ("A1 48 1/8", []),
    ],
)
def test_seats_that_tie_a_round_and_disagree_are_told(later: str, told: list[str]) -> None:
    (laid,) = survey(rounds(TIES, later)).laid
    assert torn(laid, LIMITS, INCHES) == told


def test_two_seats_that_tie_a_round_and_disagree_are_no_seats_that_agree() -> None:
    """3 3/8 and 3 5/8 higher: 3 1/2 is taken off, so each is 1/8 from before, as far as a seat may be, and the two are
    1/4 from one another."""
    found = survey(rounds(TIES, "A1 48 1/8, A3 48 1/4"))
    assert found.values == {"A1": 44.625, "A2": 45.125, "A3": 44.75, "A4": 44.875}
    assert (found.laid[0].shift, found.laid[0].split, found.apart) == (3.5, 0.25, {})
    assert found.read_twice == frozenset()
    assert survey(rounds(TIES, "A1 48 1/8, A3 48 1/8")).read_twice == {"A1", "A3"}


def test_two_benchmarks_that_lay_a_round_and_disagree_are_told() -> None:
    (laid,) = survey(rounds("BM1 20, BM2 30, A1 44", "BM1 22, BM2 32 1/4, A1 46", head=MARKS)).laid
    assert (laid.halves, laid.split) == ((("BM1",), ("BM2",)), 0.25)


# --- benchmarks between rounds ----------------------------------------------------------------------------------------


def test_rounds_are_laid_by_their_benchmarks() -> None:
    """Both stand 2 higher in round 2; a seat that differs has no say."""
    (laid,) = survey(rounds("BM1 20, BM2 30, A1 44", "BM1 22, BM2 32, A1 46 1/8", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (2, ("BM1", "BM2"), 0, {})
    assert laid.differs == {"BM1": 0, "BM2": 0, "A1": 1 / 8}


def test_of_two_seats_and_a_benchmark_that_disagree_nobody_knows_which() -> None:
    """It is laid by the benchmark, and told: the seats differ by 1 from it."""
    (laid,) = survey(rounds("BM1 20, A1 44, A2 45", "BM1 20, A1 45, A2 46", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (0, ("BM1",), 1, {})


def test_a_benchmark_that_was_hit_between_rounds_is_left_out() -> None:
    """Three seats say that the beam stands 2 higher in round 2. The benchmark reads 21 where 22 would be as before, so
    it stands 1 higher now. A4, of round 2 alone, is 48 - 2; the benchmark's first reading is kept, whichever counts."""
    text = rounds("BM1 20, A1 44, A2 45, A3 46", "BM1 21, A1 46, A2 47, A3 48, A4 48", head=MARKS)
    for limits in (LIMITS, MEAN):
        found = survey(text, limits)
        (laid,) = found.laid
        assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (2, (), 0, {"BM1": -1})
        assert found.values == {"BM1": 20, "A1": 44, "A2": 45, "A3": 46, "A4": 46}
    assert found.apart == {"BM1": -1}


def test_of_two_benchmarks_the_one_that_was_hit_is_left_out() -> None:
    text = rounds("BM1 20, BM2 30, A1 44, A2 45, A3 46", "BM1 23, BM2 32, A1 46, A2 47, A3 48", head=MARKS)
    (laid,) = survey(text).laid
    assert (laid.shift, laid.benchmarks, laid.hit) == (2, ("BM2",), {"BM1": 1})


def test_seats_that_do_not_agree_cannot_tell_that_a_benchmark_was_hit() -> None:
    """1, 2 and 3 apart: which of them is right?"""
    (laid,) = survey(rounds("BM1 20, A1 44, A2 45, A3 46", "BM1 20, A1 45, A2 47, A3 49", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (0, ("BM1",), 2, {})


def test_three_seats_that_agree_against_four_cannot_tell_either() -> None:
    """0, 1, 2, 2, 2, 3 and 4 apart: three of seven say the median."""
    seats = {"A1": 44, "A2": 45, "A3": 46, "A4": 46, "A5": 46, "A6": 47, "A7": 48}
    first, later = (", ".join(f"{n} {r}" for n, r in x) for x in ([(n, 44) for n in seats], seats.items()))
    (laid,) = survey(rounds(f"BM1 20, {first}", f"BM1 20, {later}", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (0, ("BM1",), 2, {})


def test_a_benchmark_within_the_limit_was_not_hit() -> None:
    (laid,) = survey(rounds("BM1 20, A1 44, A2 45, A3 46", "BM1 20 1/8, A1 44, A2 45, A3 46", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (1 / 8, ("BM1",), 0, {})
