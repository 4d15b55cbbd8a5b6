"""Later rounds laid on the first: by their shared benchmarks, else by the median of what their seats differ.

A benchmark is left out of that where most of three seats or more agree that it has moved (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import median
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace

from layouts.book import Book
from layouts.fields_wall import ReadingsPart
from layouts.lengths import NOISE, Style, show, up

if TYPE_CHECKING:
    from layouts.survey import Round

SURE = 3  # seats that say the same against a benchmark


class Laid(Struct, frozen=True):
    """A later round laid on the first: *shift* inches taken off its readings, by the *benchmarks* named or, without
    any, the median of the seats; *differs*: later less earlier of each point that both have read. Where the seats are
    too few to tell, *moved* is how far their median stands from the benchmarks, if that is more than may be; where they
    can tell, *hit* are the benchmarks left out for them, with how much lower each has come to stand. *halves*: the
    points that lay it, where one half of them disagrees with the other by more than rounds may differ."""

    round: str
    shift: float
    benchmarks: tuple[str, ...]
    differs: Mapping[str, float]
    moved: float = 0.0
    hit: Mapping[str, float] = field(default_factory=dict)
    halves: tuple[tuple[str, ...], ...] = ()

    @property
    def split(self) -> float:
        """By how much the *halves* disagree, inches: the round is laid half way between."""
        if not self.halves:
            return 0.0
        less, more = self.halves
        return min(self.differs[p] for p in more) - max(self.differs[p] for p in less)

    def seats(self, book: Book) -> tuple[str, ...]:
        """The seats that were read before, of all points that were."""
        return tuple(p for p in self.differs if p not in book.head.benchmarks)


def lay(good: Sequence[Round], book: Book, limits: ReadingsPart) -> tuple[tuple[Laid, ...], list[Round]]:
    """Each later round laid on those before it, as soon as it has a point in common; and the rounds that never have."""
    laid: list[Laid] = []
    known: dict[str, float] = dict(good[0].values) if good else {}
    todo = list(good[1:])
    while later := next((r for r in todo if any(p in known for p in r.values)), None):
        todo.remove(later)
        found = _laid(later, known, book, limits)
        laid.append(found)
        for point, value in later.values.items():
            known.setdefault(point, value - found.shift)
    return tuple(laid), todo


def _laid(later: Round, known: Mapping[str, float], book: Book, limits: ReadingsPart) -> Laid:
    differ = {p: v - known[p] for p, v in later.values.items() if p in known}
    marks = {p: d for p, d in differ.items() if p in book.head.benchmarks}
    seats = [d for p, d in differ.items() if p not in marks]
    middle = median(seats) if seats else 0.0
    agree = sum(abs(d - middle) <= limits.differ + NOISE for d in seats)
    moved, hit = 0.0, {}
    if agree >= SURE and 2 * agree > len(seats):
        hit = {p: d - middle for p, d in marks.items() if abs(d - middle) > limits.misclosure + NOISE}
    stood = {p: d for p, d in marks.items() if p not in hit}
    ties = stood or {p: d for p, d in differ.items() if p not in marks}
    shift = median(ties.values())
    if stood and seats and abs(middle - shift) > limits.misclosure + NOISE:
        moved = middle - shift
    laid = Laid(later.name, shift, tuple(stood), {p: d - shift for p, d in differ.items()}, moved, hit, _halves(ties))
    return laid if laid.split > limits.differ + NOISE else replace(laid, halves=())


def _halves(ties: Mapping[str, float]) -> tuple[tuple[str, ...], ...]:
    """An even number of points in two halves, those that differ less and those that differ more; none of them stands in
    the middle."""
    order = sorted(ties, key=lambda point: ties[point])
    return () if len(order) % 2 else (tuple(order[: len(order) // 2]), tuple(order[len(order) // 2 :]))


def torn(laid: Laid, limits: ReadingsPart, style: Style) -> list[str]:
    """That the points which lay a round do not agree, in words."""
    if not laid.halves:
        return []
    less, more = (", ".join(half) for half in laid.halves)
    by = f"{show(laid.split, style, rounded=up)} where {show(limits.differ, style)} is allowed"
    return [
        f"Round {laid.round} is laid on the others half way between {less} and {more}, which disagree by {by}. "
        "Read one more of their seats in it, or shoot another round."
    ]
