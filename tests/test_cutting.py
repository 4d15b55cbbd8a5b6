"""What is proved about cutting plans: against plans found by trying everything, and by another solver."""

from __future__ import annotations

import math
import os
import random
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from cutting_plain import Case, best_cost, least_kinds, solved
from effort import examples
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.cutting import EFFORT, Effort
from layouts.search import Goal
from layouts.stock import Plan, Want, order, plan

ROOT = Path(__file__).parents[1]
FEET = tuple(12 * 8 * feet for feet in (8, 10, 12, 14, 16, 18, 20))  # eighths of an inch
NOTHING = Effort(rounds=0, dives=0, few=0, patterns=0, kinds=0, work=0)

# Best fit and adding up do not prove the least of these, so that the solver is needed.
TWELVE = [Want(f"{n}", 20.0 + 7 * n + n * n / 16, 3 + n % 5) for n in range(12)]


@st.composite
def cases(draw: st.DrawFn, lengths: int = 4, pieces: int = 10, priced: bool = False) -> Case:
    stock = tuple(sorted(draw(st.sets(st.sampled_from(FEET), min_size=1, max_size=3))))
    trim = draw(st.sampled_from((0, 0, 4)))
    sizes = draw(st.sets(st.integers(160, stock[-1] - trim), min_size=1, max_size=lengths))
    wanted: Counter[int] = Counter(sizes)
    wanted.update(draw(st.lists(st.sampled_from(sorted(sizes)), max_size=pieces - len(sizes))))
    costs = tuple(draw(st.integers(300, 2000)) for _ in stock) if priced else stock
    found = sorted(wanted.items(), reverse=True)
    return Case(
        tuple(x for x, _ in found), tuple(n for _, n in found), stock, costs, draw(st.sampled_from((0, 1))), trim
    )


def asked(case: Case, goal: Goal = "least", over: float = 0.05, effort: Effort = EFFORT) -> Plan:
    """The plan of *case*; where its costs are not its lengths they are prices in cents."""
    wants = [Want(f"P{x}", x / 8, n) for x, n in zip(case.lengths, case.wanted, strict=True)]
    prices = {s / 8: c / 100 for s, c in zip(case.stock, case.costs, strict=True)}
    return plan(
        wants,
        [s / 8 for s in case.stock],
        case.kerf / 8,
        trim=case.trim / 8,
        prices=None if case.stock == case.costs else prices,
        goal=goal,
        over=over,
        effort=effort,
    )


def holds(case: Case, done: Plan) -> None:
    """Every wanted piece once, no stick too full, the cost what the sticks cost."""
    cut = Counter(length * 8 for stick in done.sticks for _, length in stick.cuts)
    assert cut == dict(zip(case.lengths, case.wanted, strict=True))
    for stick in done.sticks:
        need = sum(x for _, x in stick.cuts) * 8 + (len(stick.cuts) - 1) * case.kerf + case.trim
        assert need <= stick.stock * 8
    cost = dict(zip(case.stock, case.costs, strict=True))
    part = 8 if case.stock == case.costs else 100
    assert done.cost == pytest.approx(sum(cost[round(stick.stock * 8)] for stick in done.sticks) / part)


def costs(case: Case, done: Plan) -> int:
    return round(done.cost * (8 if case.stock == case.costs else 100))


@given(cases())
def test_the_least_length(case: Case) -> None:
    done = asked(case)
    holds(case, done)
    assert (costs(case, done), done.proved, done.bound) == (best_cost(case), True, done.cost)


@given(cases(priced=True))
def test_the_least_price(case: Case) -> None:
    done = asked(case)
    holds(case, done)
    assert (costs(case, done), done.proved, done.bound) == (best_cost(case), True, done.cost)


@pytest.mark.parametrize("number", range(12))
def test_the_least_of_larger_ones_by_another_solver(number: int) -> None:
    at_random = random.Random(number)
    lengths = sorted(at_random.sample(range(30 * 8, 190 * 8), 8), reverse=True)
    stock = tuple(sorted({*at_random.sample(FEET, 3), FEET[-1]}))
    prices = tuple(round(s / 8 * at_random.uniform(5, 7)) for s in stock)
    wanted = tuple(at_random.randint(1, 9) for _ in lengths)
    case = Case(tuple(lengths), wanted, stock, prices if number % 2 else stock)
    done = asked(case)
    holds(case, done)
    assert (costs(case, done), done.proved) == (solved(case), True)


@given(cases(), st.sampled_from((0.0, 0.05, 0.5)))
@settings(max_examples=examples(60))
def test_the_fewest_different_sticks(case: Case, over: float) -> None:
    cheapest = best_cost(case)
    limit = math.floor(cheapest * (1 + over))
    done = asked(case, "fewest", over)
    holds(case, done)
    assert costs(case, done) <= limit
    assert (done.kinds, done.least_kinds, done.proved) == (least_kinds(case, limit), done.kinds, True)
    assert done.bound == pytest.approx(cheapest / 8)


def test_fewer_different_sticks_for_more_length() -> None:
    # Three of 110 in and three of 60 in are 510 in, so from 10 ft and 20 ft 600 in is least: 110 from 10 ft three times
    # and 3 x 60 (180 1/4 in with the kerfs) from 20 ft, two kinds. One kind, 110 + 60 from 20 ft three times, is
    # 720 in, 20 % more.
    wants = [Want("A", 110.0, 3), Want("B", 60.0, 3)]
    assert plan(wants, [120.0, 240.0]).cost == 600.0
    few = plan(wants, [120.0, 240.0], goal="fewest", over=0.2)
    assert (few.cost, few.limit, few.kinds, few.least_kinds, few.proved) == (720.0, 720.0, 1, 1, True)
    less = plan(wants, [120.0, 240.0], goal="fewest", over=0.19)
    assert (less.cost, less.kinds, less.least_kinds, less.proved) == (600.0, 2, 2, True)


@pytest.mark.parametrize(
    ("lengths", "wanted", "stock", "over"),
    [
        ((320, 304, 176), (3, 4, 4), (768,), 0.2),
        ((968, 416, 360), (2, 4, 2), (960, 1536), 0.2),
        ((744, 536, 240), (4, 3, 2), (960, 1152), 0.05),
        ((728, 672, 592), (4, 3, 4), (1920,), 0.3),
    ],
)
def test_no_kinds_of_sticks_that_go_past_what_is_allowed(
    lengths: tuple[int, ...], wanted: tuple[int, ...], stock: tuple[int, ...], over: float
) -> None:
    # Were more allowed there would be fewer kinds, or other ones, each no dearer by itself.
    case = Case(lengths, wanted, stock, stock)
    limit = math.floor(best_cost(case) * (1 + over))
    done = asked(case, "fewest", over)
    holds(case, done)
    assert costs(case, done) <= limit
    assert (done.kinds, done.proved) == (least_kinds(case, limit), True)


def test_of_the_fewest_kinds_the_cheapest_mix() -> None:
    # One kind at any price: A alone, from the shortest stick that holds it.
    few = plan([Want("A", 100.0, 4)], [96.0, 120.0, 192.0], goal="fewest", over=9.0)
    assert order(few) == ((120.0, 4),)


@given(cases(lengths=6, pieces=24))
@settings(max_examples=examples(40))
def test_without_any_effort_the_gap_is_honest(case: Case) -> None:
    done, best = asked(case, effort=NOTHING), asked(case)
    holds(case, done)
    assert done.bound <= best.cost <= done.cost
    assert done.proved == (done.bound == done.cost)


@given(cases(lengths=6, pieces=24))
@settings(max_examples=examples(40))
def test_without_any_effort_the_kinds_are_honest(case: Case) -> None:
    done, best = asked(case, "fewest", 0.0, NOTHING), asked(case, "fewest", 0.0)
    assert done.least_kinds <= done.kinds
    assert done.proved == (done.least_kinds == done.kinds)
    if done.limit == best.limit:
        assert done.least_kinds <= best.kinds


def test_not_proved_is_told() -> None:
    done = plan(TWELVE, [192.0], effort=NOTHING)
    best = plan(TWELVE, [192.0])
    assert best.proved
    assert not done.proved
    assert done.bound <= best.cost < done.cost
    assert done.gap == (done.cost - done.bound) / done.bound > 0


@pytest.mark.parametrize("raw", [144.0, 192.0])
def test_every_step_of_effort_is_honest(raw: float) -> None:
    best = plan(TWELVE, [raw]).cost
    for effort in (
        Effort(rounds=1, dives=0),
        Effort(rounds=3, dives=1, few=1, patterns=5),
        Effort(dives=0, work=0),
        Effort(dives=0),
        Effort(dives=1),
    ):
        done = plan(TWELVE, [raw], effort=effort)
        assert done.bound <= best <= done.cost
        assert done.proved == (done.bound == done.cost)


def test_lengths_on_no_grid() -> None:
    # 192 3/10 in is no 64th: three of 64 1/10 in are 192 3/10 in, with no kerf.
    done = plan([Want("A", 64.1, 6)], [192.3, 96.7], kerf=0.0)
    assert (order(done), done.proved) == (((192.3, 2),), True)
    assert done.bound == done.cost == pytest.approx(384.6)


def test_metric_stock_is_proved_by_its_common_measure() -> None:
    # 6 x 2.1 m from 2.4 m and 4.8 m: with 3 mm kerf two make 4203 mm, so 3 x 4.8 m or 6 x 2.4 m, 14.4 m.
    done = plan([Want("A", 2100 / 25.4, 6)], [2400 / 25.4, 4800 / 25.4], kerf=3 / 25.4)
    assert done.proved
    assert done.bound == done.cost == pytest.approx(14400 / 25.4)


def ran(script: str, **env: str) -> subprocess.CompletedProcess[str]:
    start = f"import sys\nfrom layouts.stock import Want, plan\nseven = {TWELVE[5:]!r}\n"
    command = [sys.executable, "-c", start + script]
    return subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT, env={**os.environ, **env})


def test_the_solver_says_nothing() -> None:
    # The file descriptors themselves: the solver writes past Python's own.
    script = "for goal in ('least', 'fewest'): plan(seven, [144.0, 192.0], goal=goal)\nassert 'highspy' in sys.modules"
    done = ran(script)
    assert (done.stdout, done.stderr) == ("", "")


def test_an_easy_plan_never_loads_the_solver() -> None:
    # Four of 8 ft from 8 ft: adding up proves it.
    script = "assert plan([Want('A', 96.0, 4)], [96.0, 192.0]).proved\nprint(*{'highspy', 'numpy'} & {*sys.modules})"
    assert ran(script).stdout.strip() == ""


@pytest.mark.parametrize("goal", ["least", "fewest"])
def test_same_job_same_plan_in_every_process(goal: str) -> None:
    script = f"print(plan(seven, [96.0, 144.0, 192.0], goal={goal!r}))"
    first, second = (ran(script, PYTHONHASHSEED=hashing).stdout for hashing in ("1", "2"))
    assert first == second != ""


@pytest.mark.parametrize("goal", ["least", "fewest"])
def test_the_order_of_asking_does_not_matter_to_the_solver(goal: Goal) -> None:
    seven = TWELVE[5:]
    mixed = [seven[i] for i in (3, 0, 6, 2, 5, 1, 4)]
    assert plan(mixed, [192.0, 96.0], goal=goal) == plan(seven, [96.0, 192.0], goal=goal)
