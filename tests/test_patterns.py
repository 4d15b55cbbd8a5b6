"""The patterns a plan is made of: all that are near enough, and the one worth most, against every way to cut."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from layouts import highs
from layouts.cutting import Effort, least
from layouts.fitting import attainable, best_fit, bound
from layouts.master import Master
from layouts.patterns import Pattern, Problem, near
from layouts.pricing import best

SCALE = 64


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    rooms = sorted(draw(st.sets(st.integers(20, 60), min_size=1, max_size=3)))
    pieces = sorted(draw(st.sets(st.integers(4, rooms[-1]), min_size=1, max_size=5)), reverse=True)
    wanted = tuple(draw(st.integers(1, 4)) for _ in pieces)
    return Problem(tuple(pieces), wanted, tuple(rooms), tuple(draw(st.integers(1, 40)) for _ in rooms))


@st.composite
def valued(draw: st.DrawFn) -> tuple[Problem, tuple[int, ...]]:
    job = draw(problems())
    return job, tuple(draw(st.integers(0, 20 * SCALE)) for _ in job.pieces)


def every(job: Problem) -> list[tuple[int, ...]]:
    """Counts that the longest stock holds."""
    ways = product(*(range(n + 1) for n in job.wanted))
    return [counts for counts in ways if any(counts) and job.used(counts) <= job.rooms[-1]]


def worth(values: tuple[int, ...], counts: tuple[int, ...]) -> int:
    return sum(v * n for v, n in zip(values, counts, strict=True))


def cheapest(job: Problem, counts: tuple[int, ...]) -> int:
    return min(c for room, c in zip(job.rooms, job.costs, strict=True) if room >= job.used(counts))


@given(valued(), st.integers(0, 60 * SCALE))
def test_near_finds_every_pattern(both: tuple[Problem, tuple[int, ...]], gap: int) -> None:
    job, values = both
    found, complete = near(job, values, SCALE, gap, 10**6, full=False)
    want = [c for c in every(job) if cheapest(job, c) * SCALE - worth(values, c) <= gap]
    assert complete
    assert sorted(pattern.counts for pattern in found) == sorted(want)
    assert all(job.costs[p.stock] == cheapest(job, p.counts) for p in found)


@given(valued(), st.integers(0, 60 * SCALE))
def test_full_patterns_stand_for_all_others(both: tuple[Problem, tuple[int, ...]], gap: int) -> None:
    job, values = both
    every_, _ = near(job, values, SCALE, gap, 10**6, full=False)
    full, complete = near(job, values, SCALE, gap, 10**6)
    assert complete
    assert {p.counts for p in full} <= {p.counts for p in every_}
    for pattern in every_:
        assert any(
            job.costs[f.stock] <= job.costs[pattern.stock]
            and all(more >= n for more, n in zip(f.counts, pattern.counts, strict=True))
            for f in full
        )


def test_near_tells_when_it_was_cut_short() -> None:
    # 5 and 3 in 11: 5 5, 5 3 3, 3 3 3
    job = Problem((5, 3), (9, 9), (11,), (1,))
    found, complete = near(job, (0, 0), 1, 1, 10)
    assert ({p.counts for p in found}, complete) == ({(2, 0), (1, 2), (0, 3)}, True)
    assert near(job, (0, 0), 1, 1, 2)[1] is False


@given(valued())
def test_the_best_pattern(both: tuple[Problem, tuple[int, ...]]) -> None:
    job, values = both
    targets = [cost * SCALE for cost in job.costs]
    for room, target, found in zip(job.rooms, targets, best(job, values, targets, 10**6), strict=True):
        most = max((worth(values, c) for c in every(job) if job.used(c) <= room), default=0)
        if most <= target:
            assert found is None
        else:
            assert found is not None
            assert found.most == found.worth == worth(values, found.counts) == most
            assert job.used(found.counts) <= room
            assert all(n <= wanted for n, wanted in zip(found.counts, job.wanted, strict=True))


@given(valued(), st.integers(1, 4))
def test_a_rough_best_pattern_is_never_too_small(both: tuple[Problem, tuple[int, ...]], states: int) -> None:
    job, values = both
    # A grain is a 2**14th of the longest stock, here 18 at most, and there are no more than 15 steps: what is rounded
    # off is far less than the 5000 that a pattern may be shorter than its stock by, if it is shorter.
    job = Problem(tuple(p * 5000 + 7 for p in job.pieces), job.wanted, tuple(r * 5000 for r in job.rooms), job.costs)
    assume(job.pieces[0] <= job.rooms[-1])
    targets = [cost * SCALE for cost in job.costs]
    for room, target, found in zip(job.rooms, targets, best(job, values, targets, states), strict=True):
        most = max((worth(values, c) for c in every(job) if job.used(c) <= room), default=0)
        if found is None:
            assert most <= target
        else:
            assert found.most >= most == found.worth == worth(values, found.counts)
            assert job.used(found.counts) <= room


@given(valued(), st.integers(1, 4))
def test_a_rough_best_pattern_fits(both: tuple[Problem, tuple[int, ...]], states: int) -> None:
    # Here patterns fill their stock to the last, or are over it by less than a grain.
    job, values = both
    job = Problem(tuple(p * 5000 for p in job.pieces), job.wanted, tuple(r * 5000 for r in job.rooms), job.costs)
    longer = Problem(tuple(p + 1 for p in job.pieces), job.wanted, (*job.rooms[:-1], job.rooms[-1] + 1), job.costs)
    for each in (job, longer):
        targets = [cost * SCALE for cost in job.costs]
        for room, target, found in zip(each.rooms, targets, best(each, values, targets, states), strict=True):
            most = max((worth(values, c) for c in every(each) if each.used(c) <= room), default=0)
            assert (found.most if found else target) >= most
            assert found is None or each.used(found.counts) <= room


@given(st.lists(st.integers(1, 40), min_size=1, max_size=4), st.fractions(0, 300))
def test_attainable(costs: list[int], least: Fraction) -> None:
    sums = {0}
    for cost in costs:
        sums = {s + n * cost for s in sums for n in range(400 // cost + 1) if s + n * cost <= 400}
    assert attainable(least, costs) == min(s for s in sums if s >= least)


def test_attainable_of_very_large_sums() -> None:
    # never more than the sum itself: here a multiple of the common measure, 2
    assert attainable(Fraction(2**22 + 1), [4, 6]) == 2**22 + 2


@given(problems())
def test_best_fit_cuts_all_and_costs_no_less_than_the_bound(job: Problem) -> None:
    cutting = best_fit(job)
    assert job.wanted == tuple(sum(p.counts[i] * n for p, n in cutting.items()) for i in range(len(job.pieces)))
    assert all(job.used(p.counts) <= job.rooms[p.stock] for p in cutting)
    assert bound(job) <= job.cost(cutting)


def test_two_that_just_go_together_need_no_stick_each() -> None:
    assert bound(Problem((6,), (2,), (12,), (1,))) == 1
    assert bound(Problem((7,), (2,), (13,), (1,))) == 2


def test_the_better_of_the_best_fits() -> None:
    # 19 4 and 10 from sticks of 24 make 24 + 10; opened at 20, 19 and 10 4 make 20 + 14.
    job = Problem((19, 10, 4), (1, 1, 1), (10, 14, 20, 24), (10, 14, 20, 26))
    assert best_fit(job) == {Pattern(2, (1, 0, 0)): 1, Pattern(1, (0, 1, 1)): 1}


@given(problems())
def test_the_worths_are_a_bound(job: Problem) -> None:
    found = Master(job, best_fit(job)).priced(100)
    # no pattern is worth more than it costs, whatever the solver thought
    assert all(worth(found.values, c) <= cheapest(job, c) * found.scale for c in every(job))
    assert found.total == worth(found.values, job.wanted)
    assert found.bound <= job.cost(best_fit(job))


@given(problems())
def test_the_bound_is_that_of_all_patterns(job: Problem) -> None:
    found = Master(job, best_fit(job)).priced(100)
    ways = every(job)
    cut = -np.array(ways).T
    done = linprog([cheapest(job, counts) for counts in ways], A_ub=cut, b_ub=[-n for n in job.wanted])
    assert float(found.bound) == pytest.approx(done.fun, rel=1e-6)


@given(problems(), st.integers(0, 6))
def test_the_bound_never_passes_the_plan(job: Problem, patterns: int) -> None:
    effort = Effort(dives=0, patterns=patterns)
    answer = least(job, best_fit(job), bound(job), effort)
    assert bound(job) <= answer.bound <= job.cost(answer.cutting) <= job.cost(best_fit(job))


def test_the_bound_of_a_published_problem() -> None:
    # Chvatal, Linear Programming, 1983, ch. 13: in fractions 452.25 rolls
    job = Problem((45, 36, 31, 14), (97, 610, 395, 211), (100,), (1,))
    found = Master(job, best_fit(job)).priced(100)
    assert float(found.bound) == pytest.approx(452.25, abs=1e-6)
    assert found.bound <= Fraction(1809, 4)


def test_stock_that_is_never_worth_buying() -> None:
    # 12 holds more than 10 and costs less; 20 costs as much as 24
    job = Problem((5,), (1,), (10, 12, 20, 24), (6, 5, 9, 9))
    assert job.useful == (1, 3)
    assert job.pattern((1,)) == Pattern(1, (1,))


def test_no_plan_in_whole_numbers() -> None:
    # 2 x = 3
    column = highs.Column(1.0, ((0, 2.0),), 9.0)
    done = highs.whole([column], [(3.0, 3.0)], 10)
    assert (done.counts, done.finished) == (None, True)


def test_a_plan_in_whole_numbers() -> None:
    # least 3 x + 2 y with 2 x + y >= 5: 2 x and 1 y is 8, 3 x is 9
    columns = [highs.Column(3.0, ((0, 2.0),), 9.0), highs.Column(2.0, ((0, 1.0),), 9.0)]
    done = highs.whole(columns, [(5.0, highs.INF)], 10)
    assert (done.counts, done.finished) == ((2, 1), True)
    assert done.bound == pytest.approx(8.0)
