"""Cutting plans the plain way, to hold the solver's against: every way to cut a stick is written out.

Whole numbers throughout (eighths of an inch): n pieces need their sum and n - 1 kerfs. ``best_cost`` and
``least_kinds`` try everything and use no solver; ``solved`` gives all ways to scipy.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

Ways = tuple[tuple[tuple[int, ...], int], ...]  # how many of each piece, and what the cheapest stock for it costs


@dataclass(frozen=True)
class Case:
    """Lengths and stock in eighths; *costs* of the stock, in whole numbers."""

    lengths: tuple[int, ...]
    wanted: tuple[int, ...]
    stock: tuple[int, ...]
    costs: tuple[int, ...]
    kerf: int = 1
    trim: int = 0

    @property
    def ways(self) -> Ways:
        """Every way to cut a stick."""
        return tuple(self._ways())

    def _ways(self) -> Iterator[tuple[tuple[int, ...], int]]:
        longest = max(self.stock) - self.trim
        most = [
            min(n, (longest + self.kerf) // (x + self.kerf)) for n, x in zip(self.wanted, self.lengths, strict=True)
        ]
        for counts in product(*(range(n + 1) for n in most)):
            need = sum(n * x for n, x in zip(counts, self.lengths, strict=True)) + (sum(counts) - 1) * self.kerf
            costs = [c for s, c in zip(self.stock, self.costs, strict=True) if s - self.trim >= need]
            if any(counts) and costs:
                yield counts, min(costs)


def best_cost(case: Case) -> int:
    """The least cost: the longest piece left is in some stick."""
    ways = case.ways

    @cache
    def rest(left: tuple[int, ...]) -> int:
        first = next((i for i, n in enumerate(left) if n), None)
        if first is None:
            return 0
        return min(
            cost + rest(tuple(n - c for n, c in zip(left, counts, strict=True)))
            for counts, cost in ways
            if counts[first] and all(c <= n for n, c in zip(left, counts, strict=True))
        )

    return rest(case.wanted)


def solved(case: Case) -> int:
    """The least cost by scipy, over every way to cut a stick."""
    ways = case.ways
    cut = LinearConstraint(np.array([counts for counts, _ in ways]).T, case.wanted, case.wanted)
    done = milp([cost for _, cost in ways], constraints=cut, integrality=np.ones(len(ways)), bounds=Bounds(0, np.inf))
    assert done.success
    return round(float(done.fun))


def least_kinds(case: Case, limit: int) -> int:
    """The fewest ways to cut a stick that all pieces can be cut in for no more than *limit*."""
    ways = case.ways
    return next(k for k in range(1, len(case.lengths) + sum(case.wanted)) if _cut_in(ways, case.wanted, k, limit))


def _cut_in(ways: Ways, left: Sequence[int], kinds: int, spare: int) -> bool:
    first = next((i for i, n in enumerate(left) if n), None)
    if first is None:
        return True
    if not kinds:
        return False
    for counts, cost in ways:
        if counts[first]:
            most = min(n // c for n, c in zip(left, counts, strict=True) if c)
            for sticks in range(1, min(most, spare // cost) + 1):
                after = [n - sticks * c for n, c in zip(left, counts, strict=True)]
                if _cut_in(ways, after, kinds - 1, spare - sticks * cost):
                    return True
    return False
