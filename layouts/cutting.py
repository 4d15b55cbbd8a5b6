"""The cheapest cutting plan and the bound that proves it, or shows how far off it may be.

What sticks in fractions would cost is the bound (``layouts.master``). Mostly a plan that costs no more is found by
buying the whole sticks of that plan step by step. Where none is, whole numbers of sticks are sought among the patterns
found, then among all patterns that a plan cheaper than the best so far may have: these are few, since what a stick
costs above the worth of its pieces comes on top of the bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from layouts import highs
from layouts.fitting import attainable, best_fit
from layouts.master import Master, Worth, column
from layouts.patterns import Cutting, Pattern, Problem, near

_WHOLE = 1 - 1e-9  # a stick, as far as the solver's fractions can be told from it
_TINY = 10_000  # factors of a programme in whole numbers: a smaller one is searched as long as one of this size
_LEAST_NODES = 20  # a search shorter than that is not worth beginning


class Effort(Struct, frozen=True):
    """How much is tried before a plan is handed over unproved. Counted, never timed, so that the same job gives the
    same plan on any machine, slow or fast: *rounds* of looking for patterns, and *few* in each of the *dives*, steps
    to a plan in whole sticks; *patterns* that one programme in whole numbers may have, *kinds* where the fewest
    different sticks are sought; *work* in one, its patterns times its rows times its branchings."""

    rounds: int = 300
    dives: int = 60
    few: int = 3
    patterns: int = 6_000
    kinds: int = 1_500
    work: int = 4_000_000

    def nodes(self, patterns: int, rows: int) -> int:
        """The branchings that a programme of so many *patterns* and *rows* is allowed."""
        return self.work // max(patterns * rows, _TINY)


EFFORT = Effort()


class Answer(Struct, frozen=True):
    """The cheapest plan found; none costs less than *bound*. *worth* and *pool*, the patterns seen, help to go on."""

    cutting: Cutting
    bound: int
    worth: Worth
    pool: tuple[Pattern, ...]


def least(job: Problem, start: Cutting, bound: int, effort: Effort) -> Answer:
    """The cheapest plan, no dearer than *start*, and what no plan costs less than: *bound*, or more.

    Of plans of one cost that the search sees it takes one with the fewest sticks.
    """
    master = Master(job, start)
    worth = master.priced(effort.rounds)
    bound = max(bound, attainable(worth.bound, job.costs))
    plan = min(start, _dive(job, master, bound, effort), key=job.cost)
    pool = tuple(master.pool)
    if job.cost(plan) > bound or len(job.useful) > 1:
        found = _whole(job, pool, (bound, job.cost(plan)), effort)[0]
        plan = min(found or plan, plan, key=lambda cutting: (job.cost(cutting), sum(cutting.values())))
    plan, bound = _closed(job, plan, bound, worth, effort)
    return Answer(plan, bound, worth, pool)


def _closed(job: Problem, plan: Cutting, bound: int, worth: Worth, effort: Effort) -> tuple[Cutting, int]:
    """*plan* and *bound* brought together as far as *effort* goes."""
    while job.cost(plan) > bound:
        top = job.cost(plan) - 1
        found, complete = _below(job, worth, top, effort)
        if not complete:  # then see at least whether there is a plan at the bound
            top = bound
            found, complete = _below(job, worth, top, effort)
        better, finished = _whole(job, found, (bound, top), effort)
        if better is not None and job.cost(better) <= top:
            plan = better
        elif better is None and complete and finished:
            bound = attainable(Fraction(top + 1), job.costs)
        else:
            break
    return plan, bound


def _below(job: Problem, worth: Worth, top: int, effort: Effort) -> tuple[list[Pattern], bool]:
    """The patterns that a plan of cost *top* or less may have; and whether these are all."""
    return near(job, worth.values, worth.scale, top * worth.scale - worth.total, effort.patterns)


def _dive(job: Problem, master: Master, bound: int, effort: Effort) -> Cutting:
    """The cheapest of the plans found by buying, step by step, the whole sticks of the plan in fractions (where there
    is none, one of what it has most of), looking for patterns for what is left, and the rest by best fit."""
    bought: Cutting = {}
    found = best_fit(job)
    left = list(job.wanted)
    for _ in range(effort.dives):
        for counts, n in _whole_sticks(master, left):
            _put(bought, job.pattern(counts), n)
            left = [m - n * c for m, c in zip(left, counts, strict=True)]
        whole = dict(bought)
        for pattern, n in best_fit(replace(job, wanted=tuple(left))).items():
            _put(whole, pattern, n)
        found = min(found, whole, key=job.cost)
        if job.cost(found) <= bound or not any(left):
            break
        master.want(left)
        master.priced(effort.few)
    return found


def _put(cutting: Cutting, pattern: Pattern, n: int) -> None:
    cutting[pattern] = cutting.get(pattern, 0) + n


def _whole_sticks(master: Master, wanted: Sequence[int]) -> list[tuple[tuple[int, ...], int]]:
    """Counts and sticks of the plan in fractions, rounded down, none with more pieces than *wanted*; one at least."""
    left = list(wanted)
    sticks: list[tuple[tuple[int, ...], int]] = []
    # the first patterns have amounts, those found since have none yet
    for pattern, amount in sorted(zip(master.pool, master.amounts, strict=False), key=lambda s: -s[1]):
        if sticks and amount < _WHOLE:
            break
        counts = tuple(min(c, m) for c, m in zip(pattern.counts, left, strict=True))
        if any(counts):
            n = min(max(int(amount + 1 - _WHOLE), 1), *(m // c for c, m in zip(counts, left, strict=True) if c))
            sticks.append((counts, n))
            left = [m - n * c for m, c in zip(left, counts, strict=True)]
    return sticks


def _whole(
    job: Problem, pool: Sequence[Pattern], costs: tuple[int, int], effort: Effort
) -> tuple[Cutting | None, bool]:
    """The cheapest plan of the patterns of *pool* that costs from the first to the second of *costs*, of those the one
    with the fewest sticks; and whether the search came to its end."""
    if not pool:
        return None, True
    pieces = len(job.wanted)
    nodes = effort.nodes(len(pool), pieces)
    if nodes < _LEAST_NODES:
        return None, False
    # how many sticks of each stock are unknowns of their own, for the solver to branch on: there are few of them
    row = {stock: pieces + 1 + i for i, stock in enumerate(job.useful)}
    plain = [column(job, pattern) for pattern in pool]
    columns = [highs.Column(0.0, (*c.entries, (row[p.stock], 1.0)), c.most) for p, c in zip(pool, plain, strict=True)]
    sticks = sum(job.wanted) + 1  # more than there can be: what a plan costs is settled before its sticks count
    for stock, at in row.items():
        cost = job.costs[stock]
        columns.append(highs.Column(float(cost * sticks + 1), ((pieces, float(cost)), (at, -1.0)), costs[1] // cost))
    rows = [*((float(n), highs.INF) for n in job.wanted), (float(costs[0]), float(costs[1])), *[(0.0, 0.0)] * len(row)]
    found = highs.whole(columns, rows, nodes, slack=0.5)
    if found.counts is None:
        return None, found.finished
    return _exact(job, {p: n for p, n in zip(pool, found.counts, strict=False) if n}), found.finished


def _exact(job: Problem, cutting: Cutting) -> Cutting:
    """*cutting* without the pieces that it cuts beyond those wanted, every stick the cheapest that holds the rest."""
    for i, wanted in enumerate(job.wanted):
        over = sum(p.counts[i] * n for p, n in cutting.items()) - wanted
        while over > 0:
            # all sticks of a pattern where that goes, so that there are no more kinds of sticks
            _, n, pattern = max((n <= over, min(n, over), p) for p, n in cutting.items() if p.counts[i])
            fewer = tuple(c - (j == i) for j, c in enumerate(pattern.counts))
            cutting = {**cutting, pattern: cutting[pattern] - n}
            if any(fewer):
                _put(cutting, job.pattern(fewer), n)
            cutting = {p: m for p, m in cutting.items() if m}
            over -= n
    return cutting
