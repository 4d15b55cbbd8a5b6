"""Loops of a survey: what they may be off by, how it is shared, and what hangs on nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from jobs import job
from msgspec.structs import replace
from test_survey import FULL, INCHES, LIMITS, file, offs, refused, rounds, setups, survey

from layouts.lengths import Style
from layouts.survey import Loop, told, unproved

# --- loops ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("last", ["44 5/8", "44 3/8"])
def test_a_check_back_may_be_off_by_the_limit(last: str) -> None:
    """44 1/2 and an eighth to either side."""
    assert not survey(setups(f"A1 44 1/2, A2 45, A1 {last}")).rounds[0].refused


@pytest.mark.parametrize("last", ["44 41/64", "44 23/64"])
def test_a_64th_more_is_refused(last: str) -> None:
    assert len(refused(setups(f"A1 44 1/2, A2 45, A1 {last}"))) == 1


def test_the_limit_is_the_jobs() -> None:
    text = setups("A1 44 1/2, A2 45, A1 45")
    assert not survey(text, job({"readings.misclosure": "1/2"}).readings).rounds[0].refused
    assert refused(text, job({"readings.misclosure": "7/16"}).readings)


def test_a_check_back_is_shared_between_its_two_readings() -> None:
    """44 1/2 and 44 5/8: the mean. What was read between has no second reading and stays."""
    found = survey(setups("A1 44 1/2, A2 45, A1 44 5/8"))
    assert found.values == {"A1": 44.5625, "A2": 45}
    assert found.read_twice == {"A1"}


TOUR = "A1 44, A2 45", "A2 46, A3 47"  # set-up 2 stands 1 higher; A3 is 46 from set-up 1


def test_the_limit_grows_with_the_set_ups_of_the_loop() -> None:
    """Set-up 3 stands by A3 50 - 46 = 4 higher, so A1 should read 48 from it. Three set-ups: 3/8 allowed."""
    (loop,) = survey(setups(*TOUR, "A3 50, A1 48 3/8")).rounds[0].loops
    assert (loop.off, loop.allowed, loop.closes) == (3 / 8, 3 / 8, True)
    assert len(refused(setups(*TOUR, "A3 50, A1 48 7/16"))) == 1


def test_two_points_that_close_a_tour_are_held_against_each_other() -> None:
    """Set-up 3 should read A1 48 and B1 49. Either is off by 3/8, which three set-ups may be; but from set-up 1 to
    set-up 3 they differ by 3/4, and two set-ups may be off by 1/4. In whichever order they are read."""
    for last in ("A3 50, A1 48 3/8, B1 48 5/8", "A3 50, B1 48 5/8, A1 48 3/8"):
        (line,) = refused(setups(f"B1 45, {TOUR[0]}", TOUR[1], last))
        assert 'read again is 3/4" off over 2 set-ups, 1/4" allowed: refused.' in line


def test_of_three_shared_points_the_one_that_does_not_fit_is_named() -> None:
    """A1 is joined first, so A2 and A3 seem off by 2; but those two agree. Its reading alone is told to be wrong."""
    lines = refused(setups("A1 44, A2 45, A3 44", "A1 47, A2 46, A3 45"))
    assert [line.split(" = ")[0] for line in lines] == ["readings.csv: line 6, A2", "readings.csv: line 7, A3"]
    told = "Of the points that set-ups 1 and 2 share, A1 stands out: read it again from both."
    assert all(line.endswith(told) for line in lines)


def test_of_two_shared_points_neither_is_named() -> None:
    (line,) = refused(setups("A1 44, A2 45", "A1 47, A2 46"))
    assert line == (
        'readings.csv: line 5, A2 = 46: round 1: A2 read again is 2" off over 2 set-ups, 1/4" allowed: refused. '
        "The laser has moved, or a reading is wrong: shoot the round again."
    )


def test_a_point_that_only_joins_set_ups_is_no_check_back() -> None:
    """A1 is read twice, but nothing says whether either reading is right."""
    joined = survey(setups("A1 44, A2 45", "A1 47, A3 48"))
    assert not joined.rounds[0].back
    assert joined.read_twice == frozenset()
    # a second shared point makes a loop of both
    twice = survey(setups("A1 44, A2 45", "A1 47, A2 48, A3 48"))
    assert twice.rounds[0].back
    assert twice.read_twice == {"A1", "A2"}


def test_a_round_that_is_not_read_back() -> None:
    (found,) = survey(setups("A1 44, A2 45")).rounds
    assert (found.first, found.back, found.loops, found.refused) == ("A1", False, (), False)


HANGS = "Round 1: set-up {} hangs on {} alone and was not read back, nothing proves it. "
HANGS += "Read one more seat from it that another one has read, or shoot another round."
STILL = "Round 1 was not read back on its first point, A1: nobody knows whether the laser stood still."


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        (("A1 44, B1 45, A1 44", "B1 50, B2 51"), [HANGS.format(2, "B1")]),
        (("A1 44, B1 45, A1 44", "B1 50, B2 51", "B2 54, B3 55"), [HANGS.format(2, "B1"), HANGS.format(3, "B2")]),
        (("A1 44, B1 45", "B1 50, B2 51"), [STILL, HANGS.format(2, "B1")]),  # and set-up 1 is told once
        (("A1 44, B1 45", "A1 50, B2 51", "A1 54, B2 55"), [HANGS.format(1, "A1")]),  # 2 and 3 prove A1, not 1
        (("A1 44, B1 45, A1 44", "B1 50, A1 49, B2 51"), []),  # two points in common
        (("A1 44, B1 45, A1 44", "B1 50, B2 51, B1 50"), []),  # read back
        (("A1 44, B1 45, A1 44", "B1 50, B2 51", "B2 54, A1 52"), []),  # three set-ups in one loop
        (("A1 44, B1 45, A1 44", "B1 50"), []),  # nothing hangs on it
        (("A1 44, B1 45",), [STILL]),
    ],
)
def test_a_set_up_that_hangs_on_one_point_and_is_in_no_loop_is_named(
    readings: tuple[str, ...], told: list[str]
) -> None:
    (found,) = survey(setups(*readings)).rounds
    assert unproved(found) == told


def test_a_benchmark_and_a_seat_tie_a_set_up() -> None:
    rows = [("BM", "30", "1"), ("A1", "44", "1"), ("BM", "30", "1"), ("BM", "35", "2"), ("A2", "50", "2")]
    alone, both = (survey(file(more, head="benchmark,BM")) for more in (rows, [*rows, ("A1", "49", "2")]))
    assert [unproved(r) for f in (alone, both) for r in f.rounds] == [[HANGS.format(2, "BM")], []]


def test_another_round_proves_a_set_up_that_hangs_where_it_ties_it_to_the_others_again() -> None:
    """Round 2 reads B2 of set-up 2 and A1 of set-up 1: it would show a slip in B1. B2 and B3 of set-up 2 would not."""
    one = [("A1", "44", "1", "1"), ("B1", "45", "1", "1"), ("A1", "44", "1", "1")]
    one += [("B1", "50", "2", "1"), ("B2", "51", "2", "1"), ("B3", "52", "2", "1")]
    for other, says in (("A1", []), ("B3", [HANGS.format(2, "B1")])):
        text = file([*one, ("B2", "56", "1", "2"), (other, "57", "1", "2"), ("B2", "56", "1", "2")], FULL)
        assert [unproved(r) for r in survey(text, replace(LIMITS, differ=9.0)).rounds] == [says, []]


def test_set_ups_may_be_joined_by_a_later_one() -> None:
    """Set-up 2 shares nothing with set-up 1, set-up 3 something with both. It stands 5 higher than set-up 1 by A1, and
    60 - 54 = 6 higher than set-up 2 by B1."""
    found = survey(setups("A1 44", "B1 54", "A1 49, B1 60"))
    assert found.values == {"A1": 44, "B1": 55}
    assert found.rounds[0].beams == {"1": 0, "2": -1, "3": 5}


def test_set_ups_may_be_written_in_turns() -> None:
    rows = [("A1", "44", "1"), ("A1", "47", "2"), ("A2", "45", "1"), ("A3", "48", "2"), ("A1", "44", "1")]
    found = survey(file(rows))
    assert found.values == {"A1": 44, "A2": 45, "A3": 45}
    assert offs(found) == [0]


def test_a_check_back_is_a_loop_of_its_own_set_up_whatever_was_read_meanwhile() -> None:
    rows = [("A1", "44", "1"), ("A2", "45", "1"), ("A2", "47", "2"), ("B1", "50", "2"), ("B1", "51", "3")]
    found = survey(file([*rows, ("A1", "44 1/8", "1")]))
    assert [(loop.setups, loop.off) for loop in found.rounds[0].loops] == [(("1",), 1 / 8)]


def test_readings_in_mm_that_agree_are_exactly_as_before() -> None:
    """As floats of inches they differ in the last figure, which is nobody's misclosure."""
    rows = [("A1", "1100", "1"), ("A2", "1114", "1"), ("A1", "1201", "2"), ("A2", "1215", "2"), ("A1", "1201", "2")]
    found = survey(file(rows, head="unit,mm"))
    one, two, three, four, _ = (Fraction(s.down) for s in found.book.sights)
    assert three - one != four - two
    assert offs(found) == [0, 0]
    assert found.rounds[0].residuals == ()


def test_sixty_set_ups_close_a_tour_of_the_building() -> None:
    """Each reads a point 60 and the next 60 1/2; the last reads the first again, 30 lower. Off 1/16 by the last: a
    120th of it to each sight, so the first point comes 1/16/120 lower than read, the point before the last higher."""
    names = [f"T{n}" for n in range(60)]
    rows = [(names[(n + i) % 60], text, str(n)) for n in range(60) for i, text in ((0, "60"), (1, "60 1/2"))]
    rows[-1] = (names[0], "30 9/16", "59")
    found = survey(file(rows), columns=names)
    (loop,) = found.rounds[0].loops
    assert (loop.off, loop.allowed) == (1 / 16, 7.5)
    assert found.values["T0"] == pytest.approx(60 + 1 / 16 / 120)
    assert found.values["T59"] == pytest.approx(60 + 59 / 2 + 1 / 16 / 120 * (1 - 2 * 59))


def test_more_set_ups_than_a_file_may_hold() -> None:
    rows = [("A1", "60", str(n)) for n in range(61)]
    assert refused(file(rows)) == ["readings.csv: has more than 60 set-ups. Make a file of each round."]


@pytest.mark.parametrize("off", [0.0, 1e-12])
def test_a_loop_closes_but_for_float_noise(off: float) -> None:
    assert Loop("1", "A1", ("1",), 0.125 + off, 0.125, "line 4").closes


@pytest.mark.parametrize(
    ("off", "setups", "words"),
    [
        (0, 1, 'exactly as before, 1/8" allowed'),
        (-1 / 16, 1, '1/16" off, 1/8" allowed'),
        (0.01, 1, 'less than 1/16" off, 1/8" allowed'),
        (0.14, 1, 'a little more than 1/8" off, 1/8" allowed'),
        (1 / 2, 2, '1/2" off over 2 set-ups, 1/4" allowed'),
    ],
)
def test_how_a_loop_closes_is_told(off: float, setups: int, words: str) -> None:
    loop = Loop("2", "B1", ("1", "2")[:setups], off, setups / 8, "")
    assert told(loop, INCHES) == f"round 2: B1 read again is {words}"


def test_how_a_loop_closes_is_told_in_mm() -> None:
    loop = Loop("1", "A1", ("1",), 0.01, 3 / 25.4, "")
    assert told(loop, Style("mm")) == "round 1: A1 read again is less than 1 mm off, 3 mm allowed"


# --- what is refused --------------------------------------------------------------------------------------------------


def test_a_set_up_without_a_shared_point_is_named_with_its_line() -> None:
    assert refused(setups("A1 44, A2 45", "B1 46, B2 47")) == [
        "readings.csv: line 4, set-up 2: shares no point with set-up 1, nor with one that is joined to it. "
        "Read one seat, better two, or a benchmark from both, and write it down with each."
    ]


def test_of_set_ups_that_hang_together_but_on_nothing_the_first_is_named() -> None:
    """Set-up 3 has a point in common with set-up 2: mending one mends both."""
    (line,) = refused(setups("A1 44", "B1 46", "B1 47, B2 50"))
    assert "line 3, set-up 2" in line


def test_a_set_up_is_named_with_its_round() -> None:
    text = file([("A1", "44", "1", "1"), ("A1", "44", "1", "2"), ("B1", "50", "2", "2")], FULL)
    (line,) = refused(text)
    assert line.startswith("readings.csv: line 4, round 2, set-up 2: shares no point")


def test_every_loop_that_does_not_close_and_every_set_up_that_hangs_on_nothing_are_told_in_one_run() -> None:
    rows = [("A1", "44", "1", "1"), ("A2", "44", "1", "1"), ("A1", "45", "1", "1")]
    rows += [("A1", "44", "1", "2"), ("B1", "44", "2", "2"), ("G1", "44", "1", "3"), ("G2", "44", "1", "3")]
    lines = refused(file(rows, FULL))
    assert [line.split(":")[1].strip() for line in lines] == ["line 6, round 2, set-up 2", "line 4, A1 = 45"]


def test_a_round_with_no_point_in_common() -> None:
    (line,) = refused(rounds("A1 44, A2 45, A1 44", "B1 46, B2 47, B1 46"))
    wrong = "has no point in common with round 1. Read one of its seats or a benchmark again."
    assert line == f"readings.csv: line 5, round 2: {wrong}"
