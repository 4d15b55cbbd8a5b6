"""What to buy for the pieces: which stock length each piece is cut from. All lengths are inches.

Kerf rule: between two pieces of one stick the saw takes one kerf, so n pieces need their sum and n - 1
kerfs. What is then left over costs one more kerf to cut off; a remainder no longer than the kerf goes to
dust and leaves no drop. This makes raw L + k with pieces l + k and no kerf the same problem as raw L, pieces
l and kerf k.
"""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

FIT = 1e-6  # inches: a piece longer than its stock by no more than this still fits

Cut = tuple[str, float]  # mark, length


class TooLong(ValueError):
    """A wanted piece (`mark`, `length` in inches) is longer than `longest`, the longest stock."""

    def __init__(self, mark: str, length: float, longest: float) -> None:
        self.mark, self.length, self.longest = mark, length, longest
        super().__init__(f"{mark}: {length:g} in is longer than the longest stock, {longest:g} in")


@dataclass(frozen=True)
class Want:
    """`count` pieces of one mark and length (inches). Raises ValueError unless length > 0 and count >= 0."""

    mark: str
    length: float
    count: int

    def __post_init__(self) -> None:
        if not (math.isfinite(self.length) and self.length > 0):
            raise ValueError(f"{self.mark}: a piece must be longer than zero, not {self.length} in")
        if self.count < 0:
            raise ValueError(f"{self.mark}: cannot want {self.count} pieces")


@dataclass(frozen=True)
class Stick:
    """One board as bought: its stock length, its cuts in order (longest first) and what drops off, inches."""

    stock: float
    cuts: tuple[Cut, ...]
    drop: float


@dataclass(frozen=True)
class Plan:
    """Every stick to buy; `bound` is a total stock length (inches) that no plan can go under."""

    sticks: tuple[Stick, ...]
    bound: float


def shortest(length: float, stock: Sequence[float]) -> float | None:
    """The smallest stock length that holds `length`, inches; None when none does."""
    return min((s for s in stock if s >= length - FIT), default=None)


def plan(wants: Sequence[Want], stock: Sequence[float], kerf: float = 0.125) -> Plan:
    """Cut every wanted piece once, by best fit decreasing; not proved least (compare the total with `bound`).

    Pieces are taken longest first (then by mark). Each goes to the open stick it leaves the least room in
    (the earliest opened of equals), else opens a stick of the longest stock. At the end every stick shrinks
    to the shortest stock that holds its cuts. The order of `wants` and of `stock` does not matter.
    Raises TooLong, and ValueError for no stock, stock not above zero or a kerf below zero.
    """
    lengths = _checked(stock, kerf)
    cuts = _cuts(wants, lengths[-1])
    sticks = tuple(_stick(group, lengths, kerf) for group in _best_fit(cuts, lengths[-1], kerf))
    return Plan(sticks, _bound([length for _, length in cuts], lengths, kerf))


def order(plan: Plan) -> tuple[tuple[float, int], ...]:
    """How many of each stock length (inches) to buy, shortest stock first."""
    return tuple(sorted(Counter(stick.stock for stick in plan.sticks).items()))


def _checked(stock: Sequence[float], kerf: float) -> list[float]:
    if not stock or not all(math.isfinite(s) and s > 0 for s in stock):
        raise ValueError("stock: give at least one length, each above zero")
    if not (math.isfinite(kerf) and kerf >= 0):
        raise ValueError(f"kerf must be zero or more, not {kerf} in")
    return sorted(set(stock))


def _cuts(wants: Sequence[Want], longest: float) -> list[Cut]:
    cuts = [(want.mark, want.length) for want in wants for _ in range(want.count)]
    cuts.sort(key=lambda cut: (-cut[1], cut[0]))
    if cuts and cuts[0][1] > longest + FIT:
        raise TooLong(*cuts[0], longest)
    return cuts


def _best_fit(cuts: Sequence[Cut], longest: float, kerf: float) -> list[list[Cut]]:
    groups: list[list[Cut]] = []
    rooms: list[tuple[float, int]] = []  # (longest piece the open stick still takes, stick), ascending
    for mark, length in cuts:
        at = bisect_left(rooms, (length - FIT, -1))
        if at < len(rooms):
            room, stick = rooms.pop(at)
        else:
            room, stick = longest, len(groups)
            groups.append([])
        groups[stick].append((mark, length))
        # rounded far below FIT, so that rooms equal but for the order of adding tie
        insort(rooms, (round(room - length - kerf, 9), stick))
    return groups


def _stick(cuts: Sequence[Cut], lengths: Sequence[float], kerf: float) -> Stick:
    need = sum(length for _, length in cuts) + (len(cuts) - 1) * kerf
    # The adding may leave the need a hair over the longest stock, which is known to hold the cuts.
    stock = shortest(need, lengths) or lengths[-1]
    drop = stock - need - kerf
    return Stick(stock, tuple(cuts), drop if drop > FIT else 0.0)


def _bound(pieces: Sequence[float], lengths: Sequence[float], kerf: float) -> float:
    """Total stock length no plan goes under, the larger of two bounds, both taken up to a multiple of the
    greatest common measure of the stock lengths (every total is one).

    Material: a stick of length S holds pieces with sum(l + k) <= S + k, and (S + k) / S is largest for the
    shortest stock s, so the total is at least sum(l + k) * s / (s + k). Long pieces: two that do not go
    together in the longest stock need two sticks, each at least the shortest stock that holds the piece.
    """
    if not pieces:
        return 0.0
    least = lengths[0]
    material = sum(length + kerf for length in pieces) * least / (least + kerf + FIT)
    alone = [length for length in pieces if 2 * length + kerf > lengths[-1] + FIT] or [max(pieces)]
    apart = sum(shortest(length, lengths) or lengths[-1] for length in alone)
    # Millionths of an inch; metric stock without a common measure there only rounds up less.
    measure = math.gcd(*(round(length * 1e6) for length in lengths)) / 1e6
    return math.ceil(max(material, apart) / measure - FIT) * measure
