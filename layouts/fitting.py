"""A cutting plan by best fit, and a bound by adding up: both at once, often the plan is proved best by them already."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from math import ceil, gcd

from layouts.patterns import Cutting, Problem

_MOST_TOTAL = 1 << 20  # totals up to this are looked at one by one


def best_fit(job: Problem) -> Cutting:
    """The cheapest plan by best fit decreasing, tried once with every stock length to open sticks of (longer ones for
    what does not fit); of equals the one with the fewest sticks, then kinds of sticks, then of the longest stock."""
    tries = [_fitted(job, stock) for stock in reversed(job.useful)]
    return min(tries, key=lambda plan: (job.cost(plan), sum(plan.values()), len(plan)))


def _fitted(job: Problem, opened: int) -> Cutting:
    """Pieces longest first, each into the stick it leaves the least room in (the earliest opened of equals), else into
    a new one. At the end every stick is the cheapest that holds its pieces."""
    sticks: list[list[int]] = []
    rooms: list[tuple[int, int]] = []  # (room, stick), ascending
    for i, (piece, wanted) in enumerate(zip(job.pieces, job.wanted, strict=True)):
        for _ in range(wanted):
            at = bisect_left(rooms, (piece, -1))
            if at < len(rooms):
                room, stick = rooms.pop(at)
            else:
                room, stick = job.rooms[max(opened, job.cheapest(piece))], len(sticks)
                sticks.append([0] * len(job.pieces))
            sticks[stick][i] += 1
            insort(rooms, (room - piece, stick))
    return {job.pattern(counts): n for counts, n in Counter(map(tuple, sticks)).items()}  # many sticks are cut alike


def bound(job: Problem) -> int:
    """What no plan can cost less than, by adding up; the larger of two.

    Material: all pieces at the least that any stock costs for its length. Alone: of the pieces of which no two go
    together in the longest stock each needs a stick of its own, at least the cheapest that holds it.
    """
    if not job.wanted:
        return 0
    rate = min(Fraction(cost, room) for cost, room in zip(job.costs, job.rooms, strict=True))
    material = rate * job.used(job.wanted)
    own = {piece: job.costs[job.cheapest(piece)] for piece in job.pieces}
    alone = sum(own[p] * n for p, n in zip(job.pieces, job.wanted, strict=True) if 2 * p > job.rooms[-1])
    return attainable(max(material, Fraction(max(alone, *own.values()))), job.costs)


def attainable(least: Fraction, costs: Sequence[int]) -> int:
    """The smallest sum of *costs*, each taken any number of times, that is not under *least*. For very large sums a
    multiple of their greatest common measure, which is never more."""
    step = gcd(*costs)
    start = ceil(least / step)
    if start > _MOST_TOTAL:
        return start * step
    size = start + min(costs) // step
    sums = 1  # bit n stands for the sum n
    for shift in sorted({cost // step for cost in costs}):
        while shift <= size:
            sums |= sums << shift & ((2 << size) - 1)
            shift *= 2
    over = sums >> start
    return (start + (over & -over).bit_length() - 1) * step
