"""What each piece is worth in the cheapest plan where sticks may be bought in fractions: column generation.

The worths are a bound that needs no trust in the solver. They are taken to whole numbers and brought down until no
pattern is worth more than its stick costs (``pricing.best`` looks at all patterns); then no plan costs less than all
pieces are worth.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from layouts import highs
from layouts.fitting import attainable
from layouts.patterns import Pattern, Problem
from layouts.pricing import Best, best

_BITS = 61  # of the whole numbers that numpy adds up
_HAIR = Fraction(1, 10**9)  # of a cost: the solver's answers are off by less
_STATES = (20_000, 100_000)  # kept while looking for the best pattern; the second where the first is too rough


class Worth(Struct, frozen=True):
    """What each piece is worth, times *scale*: no pattern is worth more than its stick costs. *total*: all pieces."""

    values: tuple[int, ...]
    scale: int
    total: int

    @property
    def bound(self) -> Fraction:
        """No plan costs less."""
        return Fraction(self.total, self.scale)


class Master:
    """The patterns found so far, *pool*, and how many of each the cheapest plan in fractions has, *amounts*."""

    def __init__(self, job: Problem, start: Iterable[Pattern]) -> None:
        self.job = job
        most = min(sum(job.wanted), job.rooms[-1] // job.pieces[-1])
        self.scale = 1 << max(_BITS - most.bit_length() - max(job.costs).bit_length(), 0)
        self.targets = [cost * self.scale for cost in job.costs]
        self.solver = highs.Relaxed(job.wanted)
        self.pool: dict[Pattern, None] = {}
        self.amounts: tuple[float, ...] = ()
        for pattern in (*start, *_alone(job)):
            self.add(pattern)

    def add(self, pattern: Pattern) -> bool:
        """Take *pattern* in. False if it is known."""
        if pattern in self.pool:
            return False
        self.pool[pattern] = None
        self.solver.add(column(self.job, pattern))
        return True

    def want(self, wanted: Sequence[int]) -> None:
        """Go on with other numbers of the same pieces."""
        self.job = replace(self.job, wanted=tuple(wanted))
        self.solver.want(wanted)

    def priced(self, rounds: int) -> Worth:
        """What the pieces are worth after so many *rounds* of looking for patterns, or when there are none to find."""
        good = Worth((0,) * len(self.job.pieces), self.scale, 0)
        fine = False
        for _ in range(rounds):
            solved = self.solver.solve()
            if solved is None:
                break
            self.amounts, duals = solved
            values = [max(int(dual * self.scale), 0) for dual in duals]
            found = best(self.job, values, self.targets, _STATES[fine])
            good = max(good, self._worth(values, found), key=lambda worth: worth.total)
            if self._taken(found):
                continue
            if fine or self._enough(values, found, good):
                break
            fine = True
        return good

    def _worth(self, values: Sequence[int], found: Sequence[Best | None]) -> Worth:
        """*values*, brought down by as much as a pattern may be worth over its cost."""
        over = max((Fraction(f.most, t) for f, t in zip(found, self.targets, strict=True) if f), default=Fraction(1))
        down = tuple(value * over.denominator // over.numerator for value in values)
        return Worth(down, self.scale, sum(v * n for v, n in zip(down, self.job.wanted, strict=True)))

    def _taken(self, found: Sequence[Best | None]) -> int:
        """How many of the patterns *found* are worth more than they cost, and new."""
        worth_it = [
            self.job.pattern(f.counts)
            for stock, f in enumerate(found)
            if f and f.worth - self.targets[stock] > _HAIR * self.targets[stock]
        ]
        return sum([self.add(pattern) for pattern in worth_it])

    def _enough(self, values: Sequence[int], found: Sequence[Best | None], good: Worth) -> bool:
        """Whether a closer look at the patterns cannot raise the bound."""
        if all(f is None or f.worth == f.most for f in found):
            return True
        cost = Fraction(sum(v * n for v, n in zip(values, self.job.wanted, strict=True)), self.scale)
        return attainable(cost * (1 - _HAIR), self.job.costs) <= attainable(good.bound, self.job.costs)


def _alone(job: Problem) -> Iterator[Pattern]:
    """Each piece by itself, as often as a stick holds it, in every stock that can."""
    for i, piece in enumerate(job.pieces):
        for stock in job.useful:
            n = min(job.rooms[stock] // piece, job.wanted[i])
            if n:
                yield job.pattern(tuple(n if j == i else 0 for j in range(len(job.pieces))))


def column(job: Problem, pattern: Pattern) -> highs.Column:
    """*pattern* in a programme whose rows are the pieces: no more sticks of it than any of its pieces needs."""
    entries = tuple((i, float(n)) for i, n in enumerate(pattern.counts) if n)
    most = max(-(-job.wanted[i] // pattern.counts[i]) for i, _ in entries)
    return highs.Column(float(job.costs[pattern.stock]), entries, float(most))
