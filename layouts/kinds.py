"""The plan with the fewest different sticks: as few settings of the saw, and drawings to read, as can be.

Two sticks are of one kind when they are cut from the same stock length to the same lengths. Sought is the fewest kinds
that all pieces can be cut from, each exactly once, for a total no higher than allowed. Every pattern that a plan within
that total may have is weighed, also those that leave room for more; where these are too many for the effort only those
known are, and nothing is proved.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from msgspec import Struct

from layouts import highs
from layouts.cutting import Answer, Effort
from layouts.patterns import Cutting, Pattern, Problem, near

_HAIR = 1e-6  # the solver's bounds are believed as far as that
_SLOW = 20  # a branching takes that much longer here than in ``layouts.cutting``


class Few(Struct, frozen=True):
    """A plan; no plan within the total allowed has fewer kinds of sticks than *bound*."""

    cutting: Cutting
    bound: int


def fewest(job: Problem, cheap: Answer, limit: int, effort: Effort) -> Few:
    """The plan with the fewest kinds of sticks that costs no more than *limit*; *cheap* is the cheapest plan.

    Of the mixes of the kinds chosen the cheapest.
    """
    start = cheap.cutting
    bound = _simple(job)
    if len(start) <= bound:
        return Few(start, bound)
    pool, complete = _pool(job, cheap, limit, effort)
    nodes = max(effort.nodes(_SLOW * len(pool), 2 * len(job.pieces)), 1)
    begin = [start.get(pattern, 0) for pattern in pool]
    columns, rows = _programme(job, cheap, pool, limit)
    done = highs.whole(columns, rows, nodes, [*begin, *map(bool, begin)], 1 - _HAIR)
    if complete:
        bound = max(bound, ceil(done.bound - _HAIR))
    if done.counts is None:
        return Few(start, bound)
    few = {pattern: n for pattern, n in zip(pool, done.counts, strict=False) if n}
    return Few(_mixed(job, few, nodes) if len(few) < len(start) else start, bound)


def _simple(job: Problem) -> int:
    """As many kinds as it takes for every length to be in one, were they filled with short pieces."""
    room, together = job.rooms[-1], 0
    for piece in reversed(job.pieces):
        room -= piece
        together += room >= 0
    return ceil(len(job.pieces) / together)


def _pool(job: Problem, cheap: Answer, limit: int, effort: Effort) -> tuple[list[Pattern], bool]:
    """The patterns that a plan of cost *limit* or less may have, or if these are too many the cheaper ones of them;
    and whether these are all."""
    worth = cheap.worth
    gap = spare = limit * worth.scale - worth.total
    while True:
        found, complete = near(job, worth.values, worth.scale, gap, effort.kinds, full=False)
        if complete or not gap:
            return list(dict.fromkeys((*cheap.cutting, *found))), complete and gap == spare
        gap //= 2


def _programme(
    job: Problem, cheap: Answer, pool: Sequence[Pattern], limit: int
) -> tuple[list[highs.Column], list[highs.Row]]:
    """How many sticks of each pattern, then whether there are any: that is what counts. Rows: each length as often as
    it is wanted; each in one kind at least; the cost; no sticks of a pattern that is not counted."""
    lengths = len(job.pieces)
    worth = cheap.worth
    spare = limit * worth.scale - worth.total
    sticks, any_ = [], []
    for row, p in enumerate(pool, 2 * lengths + 1):
        most = min(wanted // n for wanted, n in zip(job.wanted, p.counts, strict=True) if n)
        above = job.costs[p.stock] * worth.scale - sum(n * v for n, v in zip(p.counts, worth.values, strict=True))
        if above > 0:
            most = min(most, spare // above)
        cost = float(job.costs[p.stock])
        cut = tuple((i, float(n)) for i, n in enumerate(p.counts) if n)
        sticks.append(highs.Column(0.0, (*cut, (2 * lengths, cost), (row, 1.0)), float(most)))
        any_.append(highs.Column(1.0, (*((lengths + i, 1.0) for i, _ in cut), (row, -float(most))), 1.0))
    exact = [(float(n), float(n)) for n in job.wanted]
    rows = [*exact, *[(1.0, highs.INF)] * lengths, (0.0, float(limit)), *[(-highs.INF, 0.0)] * len(pool)]
    return [*sticks, *any_], rows


def _mixed(job: Problem, few: Cutting, nodes: int) -> Cutting:
    """The cheapest plan of the same kinds of sticks as *few*."""
    columns = [
        highs.Column(float(job.costs[p.stock]), tuple((i, float(n)) for i, n in enumerate(p.counts) if n)) for p in few
    ]
    done = highs.whole(columns, [(float(n), float(n)) for n in job.wanted], nodes, list(few.values()), _HAIR)
    if done.counts is None:
        return few
    return {pattern: n for pattern, n in zip(few, done.counts, strict=True) if n}
