"""Loops in a round of sights: points read again, from the same set-up or by way of others, and how far they are off.

Set-ups are neighbours where both have read a point. A loop goes the shortest way round, over as few set-ups as can be:
two points that close a tour of the building also close a loop of its first and its last set-up, whose limit is tighter.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from layouts.book import Sight


class Closing(Struct, frozen=True):
    """The sight of number *at* closes a loop over these *setups*, by these *points* (its own first). *off* inches: its
    reading less what the readings before it make of it."""

    at: int
    off: Fraction
    setups: tuple[str, ...]
    points: tuple[str, ...]


class _Net:
    """What has been read so far, first readings only. *links*: of each set-up its neighbours, and by which point."""

    def __init__(self) -> None:
        self.read: dict[str, dict[str, Fraction]] = {}
        self.by: dict[str, list[str]] = {}
        self.links: dict[str, dict[str, str]] = {}

    def add(self, setup: str, point: str, down: Fraction) -> None:
        if point in self.read.setdefault(setup, {}):
            return
        self.read[setup][point] = down
        for other in self.by.setdefault(point, []):
            self.links.setdefault(setup, {}).setdefault(other, point)
            self.links.setdefault(other, {}).setdefault(setup, point)
        self.by[point].append(setup)

    def reached(self, start: str, ends: Collection[str] = ()) -> dict[str, str]:
        """Set-ups joined to *start*, the nearest first, each with the one it is reached from: all of them, or only as
        far as the first of *ends*."""
        came = {start: start}
        todo = [start]
        for setup in todo:
            if setup in ends:
                return {s: came[s] for s in todo[: todo.index(setup) + 1]}
            for other in self.links.get(setup, {}):
                if other not in came:
                    came[other] = setup
                    todo.append(other)
        return came

    def way(self, setup: str, point: str) -> list[str]:
        """The shortest row of set-ups from *setup* to one that has read *point*; empty if none is joined."""
        ends = self.by.get(point, [])
        came = self.reached(setup, ends)
        row = [list(came)[-1]]
        if row[0] not in ends:
            return []
        while row[-1] != setup:
            row.append(came[row[-1]])
        return row[::-1]

    def made(self, row: Sequence[str], point: str) -> tuple[Fraction, list[str]]:
        """What *point* reads from the first set-up of *row* by way of the others, and the points that join them."""
        down, joints = self.read[row[-1]][point], []
        for one, other in pairwise(row):
            joint = self.links[one][other]
            down += self.read[one][joint] - self.read[other][joint]
            joints.append(joint)
        return down, joints


def closings(sights: Sequence[Sight]) -> list[Closing]:
    """Every sight that closes a loop with those before it, in their order. The others join something new."""
    net, found = _Net(), []
    for at, sight in enumerate(sights):
        row = net.way(sight.setup, sight.point)
        if row:
            down, joints = net.made(row, sight.point)
            found.append(Closing(at, Fraction(sight.down) - down, tuple(row), (sight.point, *joints)))
        net.add(sight.setup, sight.point, Fraction(sight.down))
    return found


def hanging(sights: Sequence[Sight], looped: Collection[str]) -> dict[str, str]:
    """Set-ups of one round that have read more than one point and are not *looped*, each with the one point it is tied
    by: on the way to the first set-up, or of that one on the way to any other."""
    net = _Net()
    for sight in sights:
        net.add(sight.setup, sight.point, Fraction(sight.down))
    found = {}
    for setup, before in net.reached(sights[0].setup).items():
        links = net.links.get(setup, {})
        if setup not in looped and len(net.read[setup]) > 1 and links:
            found[setup] = links.get(before, next(iter(links.values())))
    return found


def tied(rounds: Sequence[Sequence[Sight]]) -> set[tuple[str, str, str]]:
    """What loops over several rounds prove: round, set-up and each point by which such a loop comes to it."""
    labels = list(dict.fromkeys((s.round, s.setup) for sights in rounds for s in sights))
    key = {label: str(at) for at, label in enumerate(labels)}
    every = [replace(s, setup=key[s.round, s.setup]) for sights in rounds for s in sights]
    return {(*labels[int(setup)], point) for c in closings(every) for setup in c.setups for point in c.points}


def parts(sights: Sequence[Sight]) -> list[list[str]]:
    """The set-ups in groups that no shared point joins to one another, in the order of the file."""
    net = _Net()
    for sight in sights:
        net.add(sight.setup, sight.point, Fraction(sight.down))
    found: list[list[str]] = []
    for setup in net.read:
        if not any(setup in part for part in found):
            joined = net.reached(setup)
            found.append([s for s in net.read if s in joined])
    return found
