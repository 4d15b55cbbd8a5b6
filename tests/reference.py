"""A second opinion: the numbers of a building, worked from the words alone and by none of the code under test.

Written from the geometry page (words, geometry, rows) and the README's table of fields, and from nothing else. All
lengths are in the job's own unit, inches or millimetres, as exact fractions; only a square root, a tangent and the
root of an equation are taken by mpmath, to 40 places. Heights are stations above the grade line; *u* is level, inward
from the outer face of the columns of wall A; a slope is rise over run, positive where the roof rises inward.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor, isqrt
from typing import Any

import mpmath

Given = Mapping[str, Any]
ZERO = Fraction(0)
HALF = Fraction(1, 2)
MP = mpmath.MPContext()
MP.dps = 45


def exact(value: Any) -> Fraction:
    """A number of mpmath as a fraction, to 40 places."""
    return Fraction(int(MP.nint(value * MP.mpf(10) ** 40)), 10**40)


def root(of: Fraction) -> Fraction:
    """A square root; exact where it comes out even, as for 5/12: 13/12."""
    up, down = isqrt(of.numerator), isqrt(of.denominator)
    if (up * up, down * down) == (of.numerator, of.denominator):
        return Fraction(up, down)
    return exact(MP.sqrt(MP.mpf(of.numerator) / of.denominator))


def of_degrees(angle: Fraction) -> Fraction:
    """The slope of a pitch in degrees."""
    return exact(MP.tan(MP.radians(MP.mpf(angle.numerator) / angle.denominator)))


def solved(error: Callable[[Any], Any]) -> Fraction:
    """The slope at which *error*, of a slope as mpmath has it, is nothing."""
    return exact(MP.findroot(error, (MP.mpf("0.1"), MP.mpf("0.3"))))


def plumb(member: Fraction, slope: Fraction) -> Fraction:
    """Plumb depth of a member on the slope (geometry page: d·sqrt(1 + m²))."""
    return member * root(1 + slope * slope)


@dataclass(frozen=True)
class Board:
    """A board's real size."""

    thick: Fraction
    wide: Fraction


@dataclass(frozen=True)
class Plane:
    """Height at the outer face of wall A's columns, and rise a unit of run from there."""

    height: Fraction
    slope: Fraction

    def at(self, u: Fraction) -> Fraction:
        """Its height at *u*."""
        return self.height + self.slope * u


Surface = tuple[Plane, ...]


def height(surface: Surface, u: Fraction) -> Fraction:
    """Two slopes meet at a ridge: the lower of their planes counts."""
    return min(p.at(u) for p in surface)


def kink(surface: Surface) -> Fraction | None:
    """Where the two slopes meet (geometry page: x = (H_R − H_L + m_R·W) / (m_L + m_R))."""
    if len(surface) == 1:
        return None
    left, right = surface
    return (right.height - left.height) / (left.slope - right.slope)


def lifted(surface: Surface, by: Callable[[Fraction], Fraction]) -> Surface:
    """Each plane raised by what *by* says of its slope."""
    return tuple(Plane(p.height + by(p.slope), p.slope) for p in surface)


@dataclass(frozen=True)
class Plan:
    """Out to out of the columns; a lean-to's goes to the standing wall (README building.line, girts.place)."""

    girt: Fraction  # thickness of the girts outside the columns; none, 0
    inset: Fraction
    across: Fraction
    along: Fraction
    side: tuple[Fraction, ...]  # centres of the sidewall columns between the corners, from the front
    ends: tuple[tuple[Fraction, ...], tuple[Fraction, ...]]  # centres of the endwall columns, front and back


def laid_plan(job: Given) -> Plan:
    """Bays, first and last from the building line (README building.bays); endwall columns from wall A's line."""
    outside = job["girts.place"] in ("outside", "both")
    girt = job["girts.board"].thick if outside else ZERO
    inset = girt if job["building.line"] == "girts" else ZERO
    far = 0 if job["roof.shape"] == "lean-to" else inset
    bays = job["building.bays"]
    if isinstance(bays, int):
        bays = [job["building.length"] / bays] * bays
    across, along = job["building.width"] - inset - far, job["building.length"] - 2 * inset
    side = tuple(sum(bays[:k], ZERO) - inset for k in range(1, len(bays)))
    half = job[f"column.{job['column.endwall_face']}"] / 2
    last = (across - half,) if job["roof.shape"] == "lean-to" else ()
    front, back = (tuple(x - inset for x in job[f"building.{end}_columns"]) + last for end in ("front", "back"))
    return Plan(girt, inset, across, along, side, (front, back))


@dataclass(frozen=True)
class Roof:
    """Bearings at wall A and at the wall opposite, and the surfaces of the roof."""

    bearings: tuple[Fraction, Fraction]
    chord: Surface
    top: Surface  # purlin tops
    cover: Surface  # what the roof sheets lie on
    two: bool  # walls with an eave: a lean-to has one

    def slope(self, far: bool) -> Fraction:
        """Rise inward of the plane over wall A, or over the wall opposite."""
        return -self.chord[-1].slope if far else self.chord[0].slope


def member(job: Given) -> Fraction:
    """What a purlin puts on the chord, square to the slope (geometry page: on edge or flat on top, or flush, 0)."""
    board: Board = job["roof.purlin"]
    return {"edge": board.wide, "flat": board.thick, "flush": ZERO}[job["roof.purlins"]]


def up(job: Given, name: str) -> Fraction | None:
    """A height of the truss as a station (README truss.heights_from); nothing where it is left out."""
    if name not in job:
        return None
    from_floor = job["truss.heights_from"] == "floor"
    found: Fraction = job[name] + (job["grade.floor"] if from_floor else 0)
    return found


def laid_roof(job: Given, plan: Plan) -> Roof:
    """Chord top = bearing + heel + m·u; a heel at the girt face raises it at the column face by girt·m."""
    at = plan.girt if job["truss.heel_at"] == "girt" else ZERO
    thick = member(job) + job["roof.sheathing"]
    heel, far_heel = job["truss.heel"], job.get("truss.far_heel", job["truss.heel"])
    shape, wide, girt = job["roof.shape"], plan.across, plan.girt
    bearing, eave = up(job, "truss.bearing"), up(job, "truss.eave")
    high = up(job, "truss.wall_height") if shape == "lean-to" else up(job, "truss.far_eave")
    end = wide if shape == "lean-to" else wide + girt  # where that height is told
    slope = job.get("truss.pitch")
    if slope is None and eave is not None and high is not None:
        slope = (high - eave) / (end + girt)
    elif slope is None:
        assert bearing is not None
        assert high is not None
        slope = one_slope(bearing + heel - high, end + at, thick)
    if bearing is None and eave is not None:
        bearing = eave - plumb(thick, slope) + girt * slope - at * slope - heel
    elif bearing is None:
        assert high is not None
        bearing = high - plumb(thick, slope) - (end + at) * slope - heel
    left = Plane(bearing + heel + at * slope, slope)
    far_bearing = up(job, "truss.far_bearing")
    if shape != "gable":
        chord: Surface = (left,)
        far_bearing = bearing if far_bearing is None else far_bearing
    else:
        chord, far_bearing = far_slope(job, plan, left, (bearing, far_bearing, high, far_heel), at)
    top = lifted(chord, lambda m: plumb(member(job), m))
    cover = lifted(chord, lambda m: plumb(member(job), m) + plumb(job["roof.sheathing"], m))
    return Roof((bearing, far_bearing), chord, top, cover, shape != "lean-to")


def one_slope(short: Fraction, run: Fraction, thick: Fraction) -> Fraction:
    """The slope at which the roof reaches its high side: m·run + thick·sqrt(1 + m²) makes up what is *short*."""
    s, r, t = (MP.mpf(x.numerator) / x.denominator for x in (short, run, thick))
    return solved(lambda m: s + m * r + t * MP.sqrt(1 + m * m))


def far_slope(
    job: Given,
    plan: Plan,
    left: Plane,
    known: tuple[Fraction, Fraction | None, Fraction | None, Fraction],
    at: Fraction,
) -> tuple[Surface, Fraction]:
    """The other slope of a gable, and its bearing (README roof.ridge: left out, the pitches and bearings tell)."""
    bearing, far, eave, heel = known
    wide, girt, thick = plan.across, plan.girt, member(job) + job["roof.sheathing"]
    slope: Fraction | None = job.get("truss.far_pitch")
    if "roof.ridge" in job:
        ridge = job["roof.ridge"] - plan.inset
        peak, run = left.at(ridge), wide - ridge
        if slope is not None:
            far = peak - slope * run - at * slope - heel
        elif eave is None:
            far = bearing if far is None else far
            slope = (peak - far - heel) / (run + at)
        else:  # eave = peak − m·(run + girt) + thick·sqrt(1 + m²)
            slope = -one_slope(peak - eave, run + girt, thick)
    slope = job["truss.pitch"] if slope is None else slope
    if eave is not None:
        far = eave - plumb(thick, slope) + girt * slope - at * slope - heel
    far = bearing if far is None else far
    return (left, Plane(far + heel + at * slope + slope * wide, -slope)), far


def text(value: Fraction, part_of: int, *, feet: bool = True) -> str:
    """As it is printed: once rounded, half up, to 1/16 or 1/32 (*part_of*), or 1 mm (1); feet from 2 ft on."""
    steps = floor(value * part_of + HALF)
    if part_of == 1:
        return f"{steps} mm"
    sign, n = "-" if steps < 0 else "", abs(steps)
    whole, part = divmod(n, part_of)
    foot, inch = divmod(whole, 12) if feet and whole >= 24 else (0, whole)
    piece = str(Fraction(part, part_of)) if part else ""
    shown = " ".join(x for x in ((str(inch) if inch or not piece or foot else ""), piece) if x)
    return f"{sign}{foot}'-{shown}\"" if foot else f'{sign}{shown}"'
