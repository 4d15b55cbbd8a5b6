"""The pattern worth most, when it is known what each piece is worth: a knapsack, for all stock lengths at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec import Struct

from layouts.patterns import HAIR, Counts, Problem

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

_GRAINS = 1 << 14  # of the longest stock, where there are too many states

Chunk = tuple[int, int]  # piece, how many at once


class Best(Struct, frozen=True):
    """No pattern of its stock is worth more than *most*; *counts* is one worth *worth*."""

    most: int
    worth: int
    counts: Counts


def best(job: Problem, values: Sequence[int], targets: Sequence[int], states: int) -> list[Best | None]:
    """For each stock its best pattern; None where no pattern is worth more than the target.

    Takes piece after piece. Of the patterns so far it keeps those that none beats in less room, and drops those that
    reach no target however well the rest is filled. Exact as long as no more than *states* are kept. Beyond that (many
    small pieces of odd lengths) the room they use is rounded down until fewer differ, so *most* may be too large.
    """
    order = sorted((i for i, v in enumerate(values) if v), key=lambda i: (-values[i] / job.pieces[i], i))
    chunks = [(i, n) for i in order for n in _chunks(min(job.wanted[i], job.rooms[-1] // job.pieces[i]))]
    search = _Search(job, targets, states)
    for (i, n), (j, _) in pairwise([*chunks, (-1, 0)]):
        search.add(n * job.pieces[i], n * values[i], values[j] / job.pieces[j] if j >= 0 else 0.0)
    return [search.answer(room, target, chunks) for room, target in zip(job.rooms, targets, strict=True)]


def _chunks(most: int) -> Iterator[int]:
    """Whole numbers of which every count up to *most* is a sum: 1, 2, 4 and so on, and the rest."""
    size = 1
    while most > 0:
        yield min(size, most)
        most -= size
        size *= 2


class _Search:
    """What ``best`` has kept so far: states by the room they use, each worth more than those before it."""

    def __init__(self, job: Problem, targets: Sequence[int], states: int) -> None:
        import numpy

        self.np = numpy
        self.job = job
        self.states = states
        self.rooms: Ints = numpy.array(job.rooms, numpy.int64)
        self.reached: Ints = numpy.array(targets, numpy.int64)
        self.used: Ints = numpy.zeros(1, numpy.int64)
        self.worth: Ints = numpy.zeros(1, numpy.int64)
        self.grain = -(-job.rooms[-1] // _GRAINS)
        self.rough = 0  # a state uses at most this much more than it says
        self.steps: list[tuple[Ints, int]] = []

    def add(self, piece: int, value: int, rate: float) -> None:
        """Every state also with *piece*. *rate*: what comes next is worth no more than this for its length."""
        size = len(self.used)
        fits = int(self.np.searchsorted(self.used, self.rooms[-1] - piece, "right"))
        self.used = self.np.concatenate((self.used, self.used[:fits] + piece))
        self.worth = self.np.concatenate((self.worth, self.worth[:fits] + value))
        kept = self._undominated()
        if len(kept) > self.states:
            self.used -= self.used % self.grain
            self.rough += self.grain
            kept = self._undominated()
        self.used, self.worth = self.used[kept], self.worth[kept]
        alive = self._hopeful(rate)
        self.used, self.worth = self.used[alive], self.worth[alive]
        self.steps.append((kept[alive], size))

    def _undominated(self) -> Ints:
        order: Ints = self.np.lexsort((-self.worth, self.used))
        most = self.np.maximum.accumulate(self.worth[order])
        better = self.np.ones(len(order), bool)
        better[1:] = most[1:] > most[:-1]
        return order[better]

    def _hopeful(self, rate: float) -> Ints:
        """The states that may still beat what is reached in some stock, and those that reached it."""
        ends = self.np.searchsorted(self.used, self.rooms, "right") - 1
        sure = self.np.searchsorted(self.used, self.rooms - self.rough, "right") - 1
        self.reached = self.np.maximum(self.reached, self.worth[ends])
        alive = self.np.zeros(len(self.used), bool)
        for room, goal in zip(self.rooms, self.reached, strict=True):
            alive |= (self.used <= room) & ((self.worth + rate * (room - self.used)) * (1 + HAIR) > goal)
        alive[sure[sure >= 0]] = True
        return self.np.flatnonzero(alive)

    def answer(self, room: int, target: int, chunks: Sequence[Chunk]) -> Best | None:
        """The best pattern of a stock that holds *room*."""
        last = int(self.np.searchsorted(self.used, room, "right")) - 1
        if last < 0 or self.worth[last] <= target:
            return None
        most = int(self.worth[last])
        end = int(self.np.searchsorted(self.used, room - self.rough, "right")) - 1
        if end < 0:
            return Best(most, 0, (0,) * len(self.job.pieces))
        return Best(most, int(self.worth[end]), self._traced(chunks, end))

    def _traced(self, chunks: Sequence[Chunk], end: int) -> Counts:
        counts = [0] * len(self.job.pieces)
        for (i, n), (kept, size) in zip(reversed(chunks), reversed(self.steps), strict=True):
            end = int(kept[end])
            if end >= size:
                counts[i] += n
                end -= size
        return tuple(counts)
