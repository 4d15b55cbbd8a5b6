"""What to buy for the pieces: which stock length each piece is cut from. All lengths are inches.

Kerf rule: between two pieces of one stick the saw takes one kerf, so n pieces need their sum and n - 1
kerfs. What is then left over costs one more kerf to cut off; a remainder no longer than the kerf goes to
dust and leaves no drop. This makes raw L + k with pieces l + k and no kerf the same problem as raw L, pieces
l and kerf k. Trim, if any, is cut off one end of every stick first, its saw cut included.

Cost is the total length bought, to 1/64 in, 0.1 mm or else 1/1000 in, or the price, to a thousandth. Nothing here
looks at a clock: a search is limited by counting, so the same job gives the same plan on a slow machine.
"""

from __future__ import annotations

import math
from collections import Counter, deque
from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from layouts import fitting, search
from layouts.cutting import EFFORT, Effort
from layouts.patterns import Cutting, Pattern, Problem
from layouts.search import Goal, Solve, Sought

FIT = 1e-6  # inches: a piece, or pieces, longer than their stock by no more than this still fit
_FINE = 10**9  # parts of an inch that lengths are taken to; all the noise of floats is below it
_UNITS = (Fraction(_FINE, 64), Fraction(_FINE, 254), Fraction(_FINE, 1000))  # of the total length, in such parts
_PRICE = 1000  # parts that prices are taken to
_MOST_PRICE = 1e6

Cut = tuple[str, float]  # mark, length


class TooLong(ValueError):
    """A wanted piece (`mark`, `length` in inches) is longer than `longest`, what the longest stock gives."""

    def __init__(self, mark: str, length: float, longest: float) -> None:
        self.mark, self.length, self.longest = mark, length, longest
        super().__init__(f"{mark}: {length:g} in is longer than the longest stock, {longest:g} in")


class Want(Struct, frozen=True):
    """`count` pieces of one mark and length (inches). Raises ValueError unless length > 0 and count >= 0."""

    mark: str
    length: float
    count: int

    def __post_init__(self) -> None:
        if not (math.isfinite(self.length) and self.length > 0):
            raise ValueError(f"{self.mark}: a piece must be longer than zero, not {self.length} in")
        if self.count < 0:
            raise ValueError(f"{self.mark}: cannot want {self.count} pieces")


class Stick(Struct, frozen=True):
    """One board as bought: its stock length, its cuts in order (longest first) and what drops off, inches."""

    stock: float
    cuts: tuple[Cut, ...]
    drop: float

    @property
    def kind(self) -> tuple[float, ...]:
        """Stock length, then the length of each cut: like sticks have like kinds, whatever their marks."""
        return (self.stock, *(length for _, length in self.cuts))


class Plan(Struct, frozen=True):
    """Every stick to buy. `cost` is their total length (inches), or their price where `priced`, and no plan costs less
    than `bound`. With the goal `least`, `proved` says that no plan costs less than this one; with `fewest`, that none
    costing no more than `limit` has fewer different sticks: there are at least `least_kinds` in each."""

    sticks: tuple[Stick, ...]
    bound: float
    cost: float = 0.0
    proved: bool = False
    goal: Goal = "least"
    priced: bool = False
    limit: float = 0.0
    least_kinds: int = 0

    @property
    def gap(self) -> float:
        """How much dearer than the cheapest this plan may be: the part of `bound` that it costs more."""
        return (self.cost - self.bound) / self.bound if self.bound else 0.0

    @property
    def kinds(self) -> int:
        """How many different sticks there are: of other stock, or cut to other lengths."""
        return len({stick.kind for stick in self.sticks})


def shortest(length: float, stock: Sequence[float]) -> float | None:
    """The smallest stock length that holds `length`, inches; None when none does."""
    return min((s for s in stock if s >= length - FIT), default=None)


def plan(
    wants: Sequence[Want],
    stock: Sequence[float],
    kerf: float = 0.125,
    *,
    trim: float = 0.0,
    prices: Mapping[float, float] | None = None,
    goal: Goal = "least",
    over: float = 0.05,
    effort: Effort = EFFORT,
    solve: Solve = search.solve,
) -> Plan:
    """Every wanted piece cut once, for the least total length, or the least price where `prices` (of one stick, by
    stock length) are given: a stock length without a price is then not bought.

    `fewest` asks for the fewest different sticks instead (of other stock, or cut to other lengths), of all plans that
    cost no more than the part `over` above the cheapest one found.

    Best fit comes first; where adding up proves it there is no search. Otherwise see `layouts.cutting`: proved, or with
    an honest bound where `effort` did not go far enough. Of equal plans that the search sees it takes one with the
    fewest sticks. The order of `wants` and of `stock` does not matter. `solve` does the search.
    Raises TooLong, and ValueError for no stock (or none with a price), stock or a price not above zero, a kerf, trim or
    `over` below zero, stock that the trim uses up, and a price of a length that is no stock.
    """
    lengths = _checked(stock, kerf, trim, prices, over)
    cuts = [(want.mark, want.length) for want in wants for _ in range(want.count)]
    longest = max(cuts, key=lambda cut: (cut[1], cut[0]), default=None)
    if longest and longest[1] > lengths[-1] - trim + FIT:
        raise TooLong(*longest, lengths[-1] - trim)
    if not cuts:
        return Plan((), 0.0, proved=True, goal=goal, priced=prices is not None)
    job, unit = _problem([length for _, length in cuts], lengths, kerf, trim, prices)
    sought = Sought(job, fitting.best_fit(job), fitting.bound(job), goal, over, effort)
    found = search.added_up(sought) or solve(sought)
    sticks = _sticks(job, found.cutting, cuts, lengths, kerf, trim)
    cost = math.fsum(stick.stock if prices is None else prices[stick.stock] for stick in sticks)
    # the same number to the last bit where the bound is reached
    bound = cost if job.cost(found.cutting) <= found.bound else min(float(found.bound * unit), cost)
    priced, limit = prices is not None, float(found.limit * unit)
    return Plan(sticks, bound, cost, found.proved, goal, priced, limit, found.least_kinds)


def order(plan: Plan) -> tuple[tuple[float, int], ...]:
    """How many of each stock length (inches) to buy, shortest stock first."""
    return tuple(sorted(Counter(stick.stock for stick in plan.sticks).items()))


def spares(bought: Sequence[tuple[float, int]], percent: float = 0.0, count: int = 0) -> tuple[tuple[float, int], ...]:
    """Sticks to buy besides `bought` (stock length, how many) in case some are bad: `percent` of them, rounded up, or
    `count` if that is more; nothing where nothing is bought. All of the longest length bought, which can stand in for
    any other (common practice, no source). Raises ValueError for less than zero."""
    if not (math.isfinite(percent) and percent >= 0 and count >= 0):
        raise ValueError(f"spares must be zero or more, not {percent} % or {count}")
    total = sum(n for _, n in bought)
    wanted = max(math.ceil(total * Fraction(percent) / 100), count) if total else 0
    return ((max(length for length, n in bought if n), wanted),) if wanted else ()


def _checked(
    stock: Sequence[float], kerf: float, trim: float, prices: Mapping[float, float] | None, over: float
) -> list[float]:
    """The stock lengths that can be bought, shortest first."""
    if not stock or not all(math.isfinite(s) and s > 0 for s in stock):
        raise ValueError("stock: give at least one length, each above zero")
    for name, value in {"kerf": kerf, "trim": trim, "over": over}.items():
        if not (math.isfinite(value) and value >= 0):
            raise ValueError(f"{name} must be zero or more, not {value}")
    if min(stock) <= trim:
        raise ValueError(f"trim: {trim:g} in leaves nothing of stock of {min(stock):g} in")
    if prices is None:
        return sorted(set(stock))
    for length, price in prices.items():
        if length not in stock:
            raise ValueError(f"prices: {length:g} in is not a stock length")
        if not 1 / _PRICE <= price <= _MOST_PRICE:
            raise ValueError(f"prices: {price} for {length:g} in is not a price")
    if not prices:
        raise ValueError("prices: no stock length has one")
    return sorted(prices)


def _problem(
    pieces: Sequence[float], lengths: Sequence[float], kerf: float, trim: float, prices: Mapping[float, float] | None
) -> tuple[Problem, Fraction]:
    """The cutting problem in whole numbers, and what one of its costs is in inches or money."""
    saw = round(kerf * _FINE)
    wanted = Counter(round(length * _FINE) + saw for length in pieces)
    order = sorted(wanted, reverse=True)
    rooms = tuple(round((length - trim + FIT) * _FINE) + saw for length in lengths)
    if prices is None:
        costs, unit = _length_costs(lengths)
    else:
        costs, unit = [round(prices[length] * _PRICE) for length in lengths], Fraction(1, _PRICE)
    step = math.gcd(*costs)
    problem = Problem(tuple(order), tuple(wanted[p] for p in order), rooms, tuple(cost // step for cost in costs))
    return problem, unit * step


def _length_costs(lengths: Sequence[float]) -> tuple[list[int], Fraction]:
    """Stock lengths in the first of the units that all are whole numbers of; in the last they are rounded."""
    for unit in _UNITS:
        costs = [round(length * _FINE / unit) for length in lengths]
        if all(abs(cost * unit - round(length * _FINE)) <= 1 for cost, length in zip(costs, lengths, strict=True)):
            break
    return costs, unit / _FINE


def _sticks(
    job: Problem, found: Cutting, cuts: Sequence[Cut], lengths: Sequence[float], kerf: float, trim: float
) -> tuple[Stick, ...]:
    """The sticks with their marks: longest pieces first, like sticks together, like marks as far as they go."""
    saw = round(kerf * _FINE)
    marks: dict[int, deque[Cut]] = {piece: deque() for piece in job.pieces}
    for cut in sorted(cuts):
        marks[round(cut[1] * _FINE) + saw].append(cut)

    def long(pattern: Pattern) -> tuple[int, ...]:
        return tuple(piece for piece, n in zip(job.pieces, pattern.counts, strict=True) for _ in range(n))

    sticks = []
    for pattern in sorted(found, key=lambda p: (long(p), p.stock), reverse=True):
        for _ in range(found[pattern]):
            taken = sorted((marks[piece].popleft() for piece in long(pattern)), key=lambda cut: (-cut[1], cut[0]))
            need = math.fsum(length for _, length in taken) + (len(taken) - 1) * kerf
            drop = lengths[pattern.stock] - trim - need - kerf
            sticks.append(Stick(lengths[pattern.stock], tuple(taken), drop if drop > FIT else 0.0))
    return tuple(sticks)
