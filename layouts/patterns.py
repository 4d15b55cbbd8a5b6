"""Which pieces go into one stick together: the cutting problem in whole numbers, and the patterns worth having.

Lengths are billionths of an inch, so that what fits is decided without rounding and the same on every machine. A piece
counts with one kerf and a stick with one kerf more than its length (see ``layouts.stock``), so sums decide.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from msgspec import Struct

HAIR = 1e-12  # of a float sum: no bound is believed within it

Counts = tuple[int, ...]  # how many of each piece


class Pattern(Struct, frozen=True, order=True):
    """One way to cut a stick of stock number *stock*: how many of each piece."""

    stock: int
    counts: Counts


Cutting = dict[Pattern, int]  # how many sticks of each pattern


class Problem(Struct, frozen=True, dict=True):
    """*pieces*: lengths wanted, each once, longest first; *wanted*: how many of each; *rooms*: what the stock lengths
    hold, shortest first; *costs*: what one of each costs. The longest stock holds every piece."""

    pieces: tuple[int, ...]
    wanted: tuple[int, ...]
    rooms: tuple[int, ...]
    costs: tuple[int, ...]

    @cached_property
    def useful(self) -> tuple[int, ...]:
        """Stock numbers worth buying, cheapest first: none that another of its cost or less holds as much as."""
        found: list[int] = []
        for stock in sorted(range(len(self.rooms)), key=lambda s: (self.costs[s], -self.rooms[s])):
            if not found or self.rooms[stock] > self.rooms[found[-1]]:
                found.append(stock)
        return tuple(found)

    def used(self, counts: Sequence[int]) -> int:
        """What *counts* take of a stick."""
        return sum(n * piece for n, piece in zip(counts, self.pieces, strict=True))

    def cheapest(self, used: int) -> int:
        """The number of the cheapest stock that holds *used*. Raises StopIteration where none does."""
        return next(s for s in self.useful if self.rooms[s] >= used)

    def pattern(self, counts: Sequence[int]) -> Pattern:
        """*counts* cut from the cheapest stock that holds them."""
        return Pattern(self.cheapest(self.used(counts)), tuple(counts))

    def cost(self, cutting: Mapping[Pattern, int]) -> int:
        """What all sticks of *cutting* cost."""
        return sum(self.costs[pattern.stock] * n for pattern, n in cutting.items())


def near(
    job: Problem, values: Sequence[int], scale: int, gap: int, most: int, full: bool = True
) -> tuple[list[Pattern], bool]:
    """Every pattern that costs, times *scale*, no more than *gap* above the *values* of its pieces; and whether these
    are all, or the search was cut short at *most* patterns or a hundred times as many steps.

    *full*: only patterns that nothing more can be put into. A pattern stands with the cheapest stock that holds it.
    """
    search = _Near(job, values, scale, gap, most, full)
    complete = all(search.walk(stock) for stock in job.useful)
    return search.found, complete


class _Near:
    """The search of ``near``: piece after piece, those worth most for their length first."""

    def __init__(self, job: Problem, values: Sequence[int], scale: int, gap: int, most: int, full: bool) -> None:
        self.job, self.scale, self.gap, self.most, self.full = job, scale, gap, most, full
        self.order = sorted(range(len(job.pieces)), key=lambda i: (-values[i] / job.pieces[i], i))
        self.items = [(job.pieces[i], values[i], job.wanted[i]) for i in self.order]
        self.rates = [value / piece for piece, value, _ in self.items]
        self.counts = [0] * len(self.items)
        self.found: list[Pattern] = []
        self.steps = 0

    def walk(self, stock: int) -> bool:
        """All patterns of one stock; false when cut short."""
        self.stock, self.need = stock, self.job.costs[stock] * self.scale - self.gap
        return self._fill(0, self.job.rooms[stock], 0)

    def _fill(self, start: int, room: int, worth: int) -> bool:
        self.steps += 1
        if len(self.found) >= self.most or self.steps > 100 * self.most:
            return False
        if worth >= self.need:
            self._keep(room)
        for at in range(start, len(self.items)):
            if (worth + self.rates[at] * room) * (1 + HAIR) < self.need:
                break
            piece, value, wanted = self.items[at]
            for n in range(min(wanted, room // piece), 0, -1):
                self.counts[at] = n
                if not self._fill(at + 1, room - n * piece, worth + n * value):
                    return False
            self.counts[at] = 0
        return True

    def _keep(self, room: int) -> None:
        counts = [0] * len(self.items)
        for i, n in zip(self.order, self.counts, strict=True):
            counts[i] = n
        if not any(counts) or (self.full and self._more(room)):
            return
        pattern = self.job.pattern(counts)
        if pattern.stock == self.stock:
            self.found.append(pattern)

    def _more(self, room: int) -> bool:
        """Whether one more piece goes in."""
        return any(p <= room and n < wanted for (p, _, wanted), n in zip(self.items, self.counts, strict=True))
