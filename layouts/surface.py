"""Surfaces over the width of the columns, as stations above the grade line: the lower envelope of straight planes.

Gable, offset ridge and single slope are one thing: each plane has a height at a place and a slope, the surface is the
lowest of them. *u* is inches from the outer face of wall A's columns. Plumb depth of a member of depth d on slope m is
d·sqrt(1 + m²); a level run falls run·m (identities).
"""

from __future__ import annotations

from itertools import combinations

from msgspec import Struct
from msgspec.structs import replace

from layouts.heights import plumb


class Plane(Struct, frozen=True):
    """A straight slope: *height* at *at*, rising *slope* per inch to the right."""

    at: float
    height: float
    slope: float

    def over(self, u: float) -> float:
        """Its height at *u*."""
        return self.height + self.slope * (u - self.at)


class Surface(Struct, frozen=True):
    """The lowest of its *planes* everywhere."""

    planes: tuple[Plane, ...]

    def over(self, u: float) -> float:
        """Its height at *u*."""
        return min(p.over(u) for p in self.planes)

    def breaks(self) -> tuple[float, ...]:
        """Where two planes meet on the surface: the ridge, if there is one."""
        found = set()
        for a, b in combinations(self.planes, 2):
            if a.slope != b.slope:
                u = (b.over(0.0) - a.over(0.0)) / (a.slope - b.slope)
                if abs(a.over(u) - self.over(u)) < 1e-9:
                    found.add(u)
        return tuple(sorted(found))

    def profile(self, u0: float, u1: float) -> tuple[tuple[float, float], ...]:
        """The surface from *u0* to *u1* as points, with the ridge where it lies between."""
        inside = [u for u in self.breaks() if u0 + 1e-6 < u < u1 - 1e-6]
        return tuple((u, self.over(u)) for u in (u0, *inside, u1))

    def lowered(self, by: float) -> Surface:
        """The same surface *by* inches further down, plumb."""
        return Surface(tuple(Plane(p.at, p.height - by, p.slope) for p in self.planes))

    def square(self, depth: float) -> Surface:
        """The same surface *depth* inches further down, measured square to each of its planes."""
        return Surface(tuple(Plane(p.at, p.height - plumb(depth, p.slope), p.slope) for p in self.planes))

    def turned(self, across: float) -> Surface:
        """The same surface seen from the other side of a width of *across* inches."""
        return Surface(tuple(replace(p, at=across - p.at, slope=-p.slope) for p in self.planes))

    def at(self, u: float) -> Plane:
        """The plane that is the lowest at *u*."""
        return min(self.planes, key=lambda p: p.over(u))

    def under(self, height: float, u0: float, u1: float) -> tuple[float, float] | None:
        """The stretch of [u0, u1] where the surface is at or above *height*; ``None`` where it is nowhere."""
        for plane in self.planes:
            if plane.slope > 0:
                u0 = max(u0, plane.at + (height - plane.height) / plane.slope)
            elif plane.slope < 0:
                u1 = min(u1, plane.at + (height - plane.height) / plane.slope)
            elif plane.height < height:
                return None
        return (u0, u1) if u1 > u0 else None
