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
from math import ceil, floor, isqrt
from typing import Any

import mpmath

Given = Mapping[str, Any]
HALF = Fraction(1, 2)
MP = mpmath.MPContext()
MP.dps = 45
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # the geometry page: no letters O and I in column names


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
    girt = job["girts.board"].thick if outside else Fraction(0)
    inset = girt if job["building.line"] == "girts" else Fraction(0)
    far = 0 if job["roof.shape"] == "lean-to" else inset
    bays = job["building.bays"]
    if isinstance(bays, int):
        bays = [job["building.length"] / bays] * bays
    across, along = job["building.width"] - inset - far, job["building.length"] - 2 * inset
    side = tuple(sum(bays[:k], Fraction(0)) - inset for k in range(1, len(bays)))
    half = job[f"column.{job['column.endwall_face']}"] / 2
    last = (across - half,) if job["roof.shape"] == "lean-to" else ()
    front, back = (
        tuple(x - inset for x in job[f"building.{end}_columns"]) + last for end in ("front", "back")
    )
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
    return {"edge": board.wide, "flat": board.thick, "flush": Fraction(0)}[job["roof.purlins"]]


def up(job: Given, name: str) -> Fraction | None:
    """A height of the truss as a station (README truss.heights_from); nothing where it is left out."""
    if name not in job:
        return None
    from_floor = job["truss.heights_from"] == "floor"
    found: Fraction = job[name] + (job["grade.floor"] if from_floor else 0)
    return found


def laid_roof(job: Given, plan: Plan) -> Roof:
    """Chord top = bearing + heel + m·u; a heel at the girt face raises it at the column face by girt·m."""
    at = plan.girt if job["truss.heel_at"] == "girt" else Fraction(0)
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
    job: Given, plan: Plan, left: Plane, known: tuple[Fraction, Fraction | None, Fraction | None, Fraction], at: Fraction
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


def eave_lines(job: Given, plan: Plan, roof: Roof) -> list[Fraction]:
    """Roof plane at the outside of the girts, on either side; with sheathing, its top (README truss.eave)."""
    ends = (-plan.girt, plan.across + plan.girt)
    return [roof.cover[-far].at(ends[far]) for far in ((0, 1) if roof.two else (0,))]


def soffits(job: Given, plan: Plan, roof: Roof) -> list[Fraction]:
    """Soffit nailer tops: roof plane at the heel line − overhang·m − fascia; along the slope, without the overhang."""
    if job["roof.soffit"] == "none":
        return []
    at = plan.girt if job["truss.heel_at"] == "girt" else 0
    out = []
    for far in (0, 1) if roof.two else (0,):
        over = job.get("roof.far_overhang", job["roof.overhang"]) if far else job["roof.overhang"]
        fall = over * roof.slope(bool(far)) if job["roof.soffit"] == "level" else 0
        out.append(roof.top[-far].at(plan.across + at if far else Fraction(-at)) - fall - job["roof.fascia"])
    return out


def sidewall_cuts(job: Given, plan: Plan, roof: Roof, far: bool) -> dict[str, Fraction]:
    """Bearing; short and long point, at the outer and the inner face, long − short = depth·m."""
    bearing = roof.bearings[far]
    if job["tops.seat"] == "flat":
        return {"bearing": bearing}
    surface = roof.top if job["tops.sidewall_ears"] == "roof" else roof.chord
    faces = (plan.across, plan.across - job["column.depth"]) if far else (Fraction(0), job["column.depth"])
    ends = sorted(height(surface, u) - job["tops.clearance"] for u in faces)
    return {"bearing": bearing, "short_point": ends[0], "long_point": ends[1]}


def end_surface(job: Given, plan: Plan, roof: Roof, to: str) -> Surface:
    """What the plies of an endwall column run to (README tops.endwall_ears, truss.endwall_drop)."""
    low, high = roof.bearings
    chord = lifted(roof.chord, lambda m: -job["truss.endwall_drop"])
    if to == "roof":
        return roof.top
    if to == "bearing":
        return (Plane(low, (high - low) / plan.across),)
    return chord if to == "chord" else lifted(chord, lambda m: -plumb(job["truss.top_chord"].wide, m))


def edges(surface: Surface, at: Fraction, wide: Fraction, less: Fraction, prefix: str) -> dict[str, Fraction]:
    """Heights at the low and high edge, ± width/2 · m; at the ridge a double cut. *wide* is minus from behind.

    Left and right are as seen from outside (README cladding.start, opening.bay: all of a wall is).
    """
    left, right = (height(surface, at + s * wide / 2) - less for s in (-1, 1))
    wide = abs(wide)
    ridge = kink(surface)
    if ridge is not None and abs(ridge - at) < wide / 2:
        sides = {"edges": left} if left == right else {"left_edge": left, "right_edge": right}
        found = {**sides, "ridge": height(surface, ridge) - less}
    elif left == right:
        found = {"level": left}
    else:
        found = {"low_edge": min(left, right), "high_edge": max(left, right)}
    return {prefix + k: v for k, v in found.items()}


def endwall_cuts(job: Given, plan: Plan, roof: Roof, at: Fraction, back: bool) -> dict[str, Fraction]:
    """Ears, less the clearance, and a centre ply with a top of its own, which has none (README tops.clearance)."""
    face, ears, centre = job["column.endwall_face"], job["tops.endwall_ears"], job["tops.endwall_centre"]
    wide = job[f"column.{face}"] * (-1 if back else 1)
    found = edges(end_surface(job, plan, roof, ears), at, wide, job["tops.clearance"], "")
    if centre not in ("ears", ears):
        inner = Fraction(job["column.plies"] - 2, job["column.plies"]) if face == "width" else 1
        found |= edges(end_surface(job, plan, roof, centre), at, wide * inner, Fraction(0), "centre_")
    return found


def names(job: Given, plan: Plan) -> dict[str, tuple[str, Fraction]]:
    """Grid names: letters across the gable, shared by both endwalls; numbers along the eaves. Its wall, and u."""
    last = len(plan.side) + 2
    places = sorted({*plan.ends[0], *plan.ends[1]})
    letter = {u: LETTERS[1 + i] for i, u in enumerate(places)}
    found = {f"A{k}": ("left", Fraction(0)) for k in range(1, last + 1)}
    if job["roof.shape"] != "lean-to":
        found |= {f"{LETTERS[len(places) + 1]}{k}": ("right", plan.across) for k in range(1, last + 1)}
    for kind, end, number in (("front", plan.ends[0], 1), ("back", plan.ends[1], last)):
        found |= {f"{letter[u]}{number}": (kind, u) for u in end}
    return found


def stations(job: Given, plan: Plan, roof: Roof) -> dict[str, dict[str, Fraction]]:
    """The cuts of every column, above the grade line."""
    return {
        name: sidewall_cuts(job, plan, roof, kind == "right")
        if kind in ("left", "right")
        else endwall_cuts(job, plan, roof, u, kind == "back")
        for name, (kind, u) in names(job, plan).items()
    }


def stock(job: Given, length: Fraction) -> Fraction | None:
    """The shortest the yard has, with the trim (README column.trim)."""
    return min((s for s in job["column.stock"] if s >= length + job["column.trim"]), default=None)


def purlins(job: Given, plan: Plan, roof: Roof, far: bool) -> tuple[Fraction, Fraction, list[Fraction]]:
    """Run and length of a slope from the end of the tail, and the purlins' downhill edges along it."""
    at = plan.girt if job["truss.heel_at"] == "girt" else Fraction(0)
    near_over, far_over = job["roof.overhang"], job.get("roof.far_overhang", job["roof.overhang"])
    over = far_over if far else near_over
    ridge = kink(roof.chord)
    tail = at + (over - job["roof.fascia_thick"] if over else 0)
    run = tail + (plan.across if ridge is None else plan.across - ridge if far else ridge)
    gap = job["roof.purlin_ridge"]
    if job["roof.shape"] == "mono-slope":
        run += at + (far_over - job["roof.fascia_thick"] if far_over else 0)
        gap = Fraction(0)
    length = plumb(run, roof.slope(far))
    board: Board = job["roof.purlin"]
    last = length - gap - (board.wide if job["roof.purlins"] == "flat" else board.thick)
    count = ceil((last - job["roof.purlin_first"]) / job["roof.purlin_step"])
    step = (last - job["roof.purlin_first"]) / count
    return run, length, [job["roof.purlin_first"] + k * step for k in range(count + 1)]


def text(value: Fraction, unit: str, *, feet: bool = True) -> str:
    """As it is printed: once rounded, half up, to 1/16 or 1 mm; feet from 2 ft on."""
    if unit == "mm":
        return f"{floor(value + HALF)} mm"
    sixteenths = floor(value * 16 + HALF)
    sign, n = "-" if sixteenths < 0 else "", abs(sixteenths)
    whole, part = divmod(n, 16)
    foot, inch = divmod(whole, 12) if feet and whole >= 24 else (0, whole)
    piece = str(Fraction(part, 16)) if part else ""
    shown = " ".join(x for x in ((str(inch) if inch or not piece or foot else ""), piece) if x)
    return f"{sign}{foot}'-{shown}\"" if foot else f'{sign}{shown}"'
