"""The area that shapes cover together, each point counted once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

Point = tuple[float, float]
Outline = tuple[Point, ...]

NEAR = 1e-9


def union(shapes: Sequence[Outline]) -> float:
    """The area under *shapes*, polygons that bulge outward everywhere, corners in either direction; exact.

    Between two neighbouring places where a corner stands or two edges cross, what is covered grows evenly: there its
    height in the middle tells the area.
    """
    known = sorted((min(x for x, _ in s), max(x for x, _ in s), s) for s in shapes)
    places = sorted({x for shape in shapes for x, _ in shape} | _crossings(shapes))
    found: list[float] = []
    now: list[tuple[float, float, Outline]] = []
    i = 0
    for a, b in pairwise(places):
        if b - a <= NEAR:
            continue
        middle = (a + b) / 2
        while i < len(known) and known[i][0] < middle:
            now.append(known[i])
            i += 1
        now = [shape for shape in now if shape[1] > middle]
        found.append((b - a) * _covered([_section(shape, middle) for _, _, shape in now]))
    return math.fsum(found)


def _covered(stretches: list[Point]) -> float:
    """How much of a line *stretches* cover together."""
    total, reached = 0.0, -math.inf
    for low, high in sorted(stretches):
        if high > reached:
            total += high - max(low, reached)
            reached = high
    return total


def _section(shape: Outline, x: float) -> Point:
    """Where a shape begins and ends on the upright line at *x*."""
    if len(shape) == 4:
        (left, low), (right, _), (_, high), _ = shape
        if shape == ((left, low), (right, low), (right, high), (left, high)):
            return min(low, high), max(low, high)  # a box, as most boards are, is the same all along
    heights = [
        p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0])
        for p, q in pairwise([*shape, shape[0]])
        if min(p[0], q[0]) <= x <= max(p[0], q[0]) and p[0] != q[0]
    ]
    return min(heights), max(heights)


def _crossings(shapes: Sequence[Outline]) -> set[float]:
    """Where edges that are neither level nor upright cross others."""
    edges = [(p, q) for s in shapes for p, q in pairwise([*s, s[0]]) if p[0] != q[0]]
    slopes = [(p, q) for p, q in edges if p[1] != q[1]]
    found = set()
    for p, q in slopes:
        slope = (q[1] - p[1]) / (q[0] - p[0])
        low, high = min(p[0], q[0]), max(p[0], q[0])
        for a, b in edges:
            other = (b[1] - a[1]) / (b[0] - a[0])
            if slope == other:
                continue
            x = (a[1] - p[1] + slope * p[0] - other * a[0]) / (slope - other)
            if low < x < high and min(a[0], b[0]) < x < max(a[0], b[0]):
                found.add(x)
    return found
