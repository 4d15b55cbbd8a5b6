"""What hangs on a roof, as the second opinion has it: eave lines, soffits, tails and purlins.

Written as ``reference`` is, from the words alone.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from reference import ZERO, Board, Given, Plan, Roof, kink, member, plumb


def eave_lines(job: Given, plan: Plan, roof: Roof) -> list[Fraction]:
    """Roof plane at the outside of the girts, on either side; with sheathing, its top (README truss.eave)."""
    ends = (-plan.girt, plan.across + plan.girt)
    return [roof.cover[-far].at(ends[far]) for far in ((0, 1) if roof.two else (0,))]


def soffits(job: Given, plan: Plan, roof: Roof) -> list[Fraction]:
    """Soffit nailer tops: roof plane at the heel line − overhang·m − fascia; along the slope, over the nailer's lower
    corner − fascia (the nailer is as thick as the girts' plane is deep, or lies between the columns).

    Of a fascia square to the slope the lower corner stands its depth·cos lower than the outer one, a soffit along the
    slope its plumb depth under the roof.
    """
    if job["roof.soffit"] == "none":
        return []
    at = plan.girt if job["truss.heel_at"] == "girt" else 0
    out = []
    for far in (0, 1) if roof.two else (0,):
        over = job.get("roof.far_overhang", job["roof.overhang"]) if far else job["roof.overhang"]
        level, slope, deep = job["roof.soffit"] == "level", roof.slope(bool(far)), job["roof.fascia"]
        if job["roof.fascia_cut"] == "square":
            deep = deep / plumb(Fraction(1), slope) if level else plumb(deep, slope)
        fall = over * slope
        if not level:
            thick = 0 if job["girts.place"] == "between" or slope < 0 else job["roof.soffit_nailer"].thick
            fall = (thick - at) * slope
        out.append(roof.top[-far].at(plan.across + at if far else Fraction(-at)) - fall - deep)
    return out


def past_wall(job: Given, over: Fraction, slope: Fraction) -> Fraction:
    """The chord's end past the heel line: overhang less the fascia (README roof.overhang, fascia_thick, fascia_cut).

    A fascia square to the slope takes its thickness·cos, and purlins on the chord reach out further than the chord, on
    the low side, by their height·sin.
    """
    if not over:
        return ZERO
    if job["roof.fascia_cut"] == "plumb":
        return over - Fraction(job["roof.fascia_thick"])
    across: Fraction = job["roof.fascia_thick"] + member(job) * slope
    return over - across / plumb(Fraction(1), slope)


def first_purlin(job: Given, at: Fraction, over: Fraction, slope: Fraction) -> Fraction:
    """The first purlin's distance up the slope from the tail, given or what clears (README roof.purlin_first).

    Its upper edge leans out by its height·sin, level, from a foot that stands distance·cos in: as far as the back of
    the fascia, which a square one leans with, or without one to the outside of the girts; *at* is the heel's face.
    """
    if "roof.purlin_first" in job:
        return Fraction(job["roof.purlin_first"])
    if over and job["roof.fascia_cut"] == "square":
        return ZERO
    factor = plumb(Fraction(1), slope)
    out = job["girts.board"].thick if job["girts.place"] in ("outside", "both") else ZERO
    leans = member(job) * slope / factor
    return max(leans - (ZERO if over else out - at), ZERO) * factor


def purlins(job: Given, plan: Plan, roof: Roof, far: bool) -> tuple[Fraction, Fraction, list[Fraction]]:
    """Run and length of a slope from the end of the tail, and the purlins' downhill edges along it.

    Equal spaces, or fixed ones with the rest at the ridge (README roof.purlin_spacing), shared where it is too small.
    """
    at = plan.girt if job["truss.heel_at"] == "girt" else ZERO
    near_over, far_over = job["roof.overhang"], job.get("roof.far_overhang", job["roof.overhang"])
    over = far_over if far else near_over
    ridge = kink(roof.chord)
    tail = at + past_wall(job, over, roof.slope(far))
    run = tail + (plan.across if ridge is None else plan.across - ridge if far else ridge)
    gap = job["roof.purlin_ridge"]
    if job["roof.shape"] == "mono-slope":
        run += at + past_wall(job, far_over, roof.slope(True))
        gap = ZERO
    length = plumb(run, roof.slope(far))
    board: Board = job["roof.purlin"]
    wide = board.wide if job["roof.purlins"] == "flat" else board.thick
    last = length - gap - wide
    first, step = first_purlin(job, at, over, roof.slope(far)), job["roof.purlin_step"]
    count = ceil((last - first) / step)
    if job["roof.purlin_spacing"] == "equal":
        return run, length, [first + (last - first) * k / count for k in range(count + 1)]
    marks = [first + k * step for k in range(count)]
    if count > 1 and marks[-1] + wide > last:  # too near for two: the last two spaces are alike
        marks[-1] = (marks[-2] + last) / 2
    return run, length, [*marks, last]
