"""Heights of the roof: planes over the width of the columns, as stations above the grade line.

A surface is the lower envelope of straight planes, so gable, offset ridge and single slope are one thing: each plane
has a height at a place and a slope, the surface is the lowest of them. *u* is inches from the outer face of wall A's
columns. Plumb depth of a member of depth d on slope m is d·sqrt(1 + m²); a level run falls run·m (identities).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from layouts.fields import Job


@dataclass(frozen=True)
class Plane:
    """A straight slope: *height* at *at*, rising *slope* per inch to the right."""

    at: float
    height: float
    slope: float

    def over(self, u: float) -> float:
        """Its height at *u*."""
        return self.height + self.slope * (u - self.at)


@dataclass(frozen=True)
class Surface:
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


@dataclass(frozen=True)
class Step:
    """One line of a printed sum: what is added (inches, negative is taken off)."""

    name: str
    inches: float


@dataclass(frozen=True)
class Sum:
    """A printed sum: *steps* add up to *total*, a station; *name* says from what to what."""

    name: str
    steps: tuple[Step, ...]

    @property
    def total(self) -> float:
        """The sum of the steps."""
        return math.fsum(s.inches for s in self.steps)


@dataclass(frozen=True)
class Roof:
    """*bearing* is a station; *chord* the chord tops, *top* the roof plane (purlin tops); *ridge* the place of the
    ridge; *soffit* the top edge of the soffit nailer, ``None`` without one; *sums* are printed on the index."""

    bearing: float
    slope: float
    chord: Surface
    top: Surface
    ridge: float
    eave: float
    soffit: float | None
    sums: tuple[Sum, ...]

    def surface(self, name: str) -> Surface:
        """``bearing``, ``chord`` or ``roof`` as a surface."""
        level = Surface((Plane(0.0, self.bearing, 0.0),))
        return {"bearing": level, "chord": self.chord, "roof": self.top}[name]


def plumb(depth: float, slope: float) -> float:
    """Plumb depth of a member *depth* inches deep on *slope* (rise over run): depth·sqrt(1 + slope²)."""
    return depth * math.sqrt(1 + slope * slope)


def build(job: Job, across: float) -> Roof:
    """The gable roof of *job* over columns *across* inches out to out, one pitch, ridge in the middle."""
    slope = job.truss.pitch
    girt = job.girt_out
    to_face = girt * slope if job.truss.heel_at == "girt" else 0.0
    at_column = job.bearing + job.truss.heel + to_face
    purlin = _purlin(job, slope)
    chord = Surface((Plane(0.0, at_column, slope), Plane(across, at_column, -slope)))
    top = chord.lowered(-purlin)
    soffit_sum = _soffit(job, slope, purlin)
    eave_sum = _eave(job, slope, purlin, to_face)
    sums = (eave_sum, soffit_sum) if job.roof.soffit == "level" else (eave_sum,)
    soffit = soffit_sum.total if job.roof.soffit == "level" else None
    return Roof(job.bearing, slope, chord, top, chord.breaks()[0], eave_sum.total, soffit, sums)


def _purlin(job: Job, slope: float) -> float:
    """What the purlins add above the chord, plumb: on edge, flat, or nothing where they hang flush."""
    section = job.roof.purlin
    depth = {"edge": section.wide, "flat": section.thick, "flush": 0.0}[job.roof.purlins]
    return plumb(depth, slope)


def _start(job: Job) -> tuple[Step, ...]:
    """From the grade line to the chord top at the face the heel is given at."""
    floor = (Step("finished floor above grade line", job.floor_shift),) if job.floor_shift else ()
    name = "bearing above finished floor" if floor else "bearing above grade line"
    return (
        *floor,
        Step(name, job.truss.bearing),
        Step(f"heel at the {job.truss.heel_at} face", job.truss.heel),
    )


def _purlin_step(job: Job, purlin: float) -> Step:
    how = {"edge": "on edge, plumb", "flat": "flat, plumb", "flush": "flush"}[job.roof.purlins]
    return Step(f"purlin {job.roof.purlin.name} {how}", purlin)


def _eave(job: Job, slope: float, purlin: float, to_face: float) -> Sum:
    """Eave line: the roof plane at the outside of the girts (as ANSI/ASABE S618 is quoted by the trade)."""
    drop = () if to_face else (Step("drop from column face to outside of girts", -job.girt_out * slope),)
    return Sum(
        "Eave line (purlin tops at the outside of the girts)",
        (*_start(job), _purlin_step(job, purlin), *drop),
    )


def _soffit(job: Job, slope: float, purlin: float) -> Sum:
    """Soffit nailer top: the roof plane at the heel line, less the fall over the overhang, less the fascia."""
    steps = (
        *_start(job),
        _purlin_step(job, purlin),
        Step("fall over the overhang", -job.roof.overhang * slope),
        Step("fascia depth", -job.roof.fascia),
    )
    return Sum("Soffit nailer top (level soffit)", steps)
