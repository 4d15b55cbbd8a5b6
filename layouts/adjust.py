"""Least-squares adjustment of a net of height differences, exact: Fractions in, Fractions out, any one unit.

The normal equations are our own because the program does not depend on numpy; the tests hold them against
numpy.linalg.lstsq. They are the Laplacian of the weighted net, so it is kept as a net: a weight between two
neighbours, a weight to firm ground, a right side. Taking a point out leaves such a net again (its neighbours are
joined to one another by the product of their weights over the sum of all), and nothing is ever subtracted from a
weight. Points are taken out by least degree (of equals the one named first), so thousands of points that hang on a
few set-ups cost time in proportion to their number. Weights of small numbers (1/3, 1/40) keep the exact Fractions
short; those made from floats do not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from heapq import heapify, heappop, heappush

from msgspec import Struct

Weights = dict[str, dict[str, Fraction]]


class NotJoined(ValueError):
    """The points *names* hang on no fixed one, so they have no height."""

    def __init__(self, names: Iterable[str]) -> None:
        self.names = tuple(names)
        super().__init__("not joined to any fixed point: " + ", ".join(self.names))


class Difference(Struct, frozen=True):
    """*end* was found to stand *rise* above *start*. *weight* is counted against the other differences only: 1 over
    the number of set-ups, or 1 over the distance, between the two. Raises ValueError unless weight > 0."""

    start: str
    end: str
    rise: Fraction
    weight: Fraction = Fraction(1)

    def __post_init__(self) -> None:
        if not self.weight > 0:
            raise ValueError(f"{self.start} to {self.end}: a weight must be more than zero, not {self.weight}")


class Adjusted(Struct, frozen=True):
    """*heights* of all points, the fixed ones first, else as they were first named. *residuals* are adjusted rise
    minus observed, in the order of the differences. *redundancy*: how many differences there are beyond the needed."""

    heights: Mapping[str, Fraction]
    residuals: tuple[Fraction, ...]
    redundancy: int


def adjust(differences: Sequence[Difference], fixed: Mapping[str, Fraction]) -> Adjusted:
    """The heights that make the weighted sum of squared residuals least; those of *fixed* stay as given.

    A misclosure between two fixed points spreads in proportion to 1 / weight: equally, by set-ups or by distance.
    Raises NotJoined with every point that no chain of differences joins to a fixed one.
    """
    names = dict.fromkeys([*fixed, *(name for d in differences for name in (d.start, d.end))])
    free = [name for name in names if name not in fixed]
    _refuse_loose(differences, fixed, free)
    solved = _solve(_Net(differences, fixed, free))
    heights = {name: fixed[name] if name in fixed else solved[name] for name in names}
    residuals = tuple(heights[d.end] - heights[d.start] - d.rise for d in differences)
    return Adjusted(heights, residuals, len(differences) - len(free))


def _refuse_loose(differences: Sequence[Difference], fixed: Iterable[str], free: Iterable[str]) -> None:
    beside: dict[str, list[str]] = {}
    for d in differences:
        beside.setdefault(d.start, []).append(d.end)
        beside.setdefault(d.end, []).append(d.start)
    joined = set(fixed)
    walk = list(joined)
    while walk:
        fresh = {name for name in beside.get(walk.pop(), ()) if name not in joined}
        joined |= fresh
        walk += fresh
    loose = [name for name in free if name not in joined]
    if loose:
        raise NotJoined(loose)


class _Net:
    """The normal equations. For every free point p the sum of w·(h_p − h_q) over its free neighbours q, with
    ground·h_p added, is the right side. Parallel differences add their weights."""

    def __init__(self, differences: Sequence[Difference], fixed: Mapping[str, Fraction], free: Sequence[str]) -> None:
        self.between: Weights = {name: {} for name in free}
        self.ground = dict.fromkeys(free, Fraction(0))
        self.right = dict.fromkeys(free, Fraction(0))
        for d in differences:
            # a line that ends where it began moves no height
            if d.start != d.end:
                self._see(d.end, d.start, d.rise, d.weight, fixed)
                self._see(d.start, d.end, -d.rise, d.weight, fixed)

    def _see(self, name: str, other: str, above: Fraction, weight: Fraction, fixed: Mapping[str, Fraction]) -> None:
        if name in fixed:
            return
        self.right[name] += weight * above
        if other in fixed:
            self.right[name] += weight * fixed[other]
            self.ground[name] += weight
        else:
            self._join(name, other, weight)

    def _join(self, name: str, other: str, weight: Fraction) -> None:
        self.between[name][other] = self.between[name].get(other, Fraction(0)) + weight

    def take_out(self, name: str) -> tuple[dict[str, Fraction], Fraction]:
        """Take a point out. Its height is the sum of the shares given, each times that neighbour's height, and the
        rest given."""
        weights = self.between.pop(name)
        whole = self.ground[name] + sum(weights.values())
        shares = {other: weight / whole for other, weight in weights.items()}
        for other, share in shares.items():
            del self.between[other][name]
            self.right[other] += share * self.right[name]
            self.ground[other] += share * self.ground[name]
            for third, weight in weights.items():
                if third != other:
                    self._join(other, third, share * weight)
        return shares, self.right[name] / whole


def _solve(net: _Net) -> dict[str, Fraction]:
    place = {name: i for i, name in enumerate(net.between)}
    queue = [(len(beside), place[name], name) for name, beside in net.between.items()]
    heapify(queue)
    steps: list[tuple[str, dict[str, Fraction], Fraction]] = []
    while queue:
        degree, _, name = heappop(queue)
        # a degree that has changed since stands in the queue a second time
        if name not in net.between or degree != len(net.between[name]):
            continue
        shares, rest = net.take_out(name)
        steps.append((name, shares, rest))
        for other in shares:
            heappush(queue, (len(net.between[other]), place[other], other))
    heights: dict[str, Fraction] = {}
    for name, shares, rest in reversed(steps):
        heights[name] = sum((share * heights[other] for other, share in shares.items()), rest)
    return heights
