"""What of a roof can be built but wants a look first, in words: tails and soffits, purlins and ears, one slope's
bearings."""

from __future__ import annotations

from layouts import purlins
from layouts.costs import Cost, Warned, each
from layouts.fields import Job
from layouts.heights import over_chord, plumb
from layouts.lengths import down, show, up
from layouts.piers import delivered
from layouts.plan import Plan
from layouts.purlins import Slope
from layouts.roof import Roof

NAILED = 1.5
"""Less of a tail than this, plumb inches, holds no soffit's nails: common practice, no source."""


def all_of(job: Job, plan: Plan, roof: Roof) -> tuple[Warned, ...]:
    """Every warning of the roof."""
    return (
        *_bearings(job, plan, roof),
        *each(Cost.CUT, _in_ears(job, plan, roof)),
        *each(Cost.PART, _tails(job, plan, roof)),
    )


def _bearings(job: Job, plan: Plan, roof: Roof) -> tuple[Warned, ...]:
    """Of one slope: the bearing that was taken for the high wall, and one that lies under the low wall's."""
    if job.roof.shape != "mono-slope":
        return ()
    style, high = job.style, next(w.name for w in plan.walls if w.side == "right")
    low = next(w.name for w in plan.walls if w.side == "left")
    if job.truss.far_bearing is None:
        level = show(roof.right.bearing - job.floor_shift, style)
        said = (
            f"Wall {high}: its bearing is taken as high as at wall {low}, {level}, for trusses with a level underside. "
            "Where it is another one, give truss.far_bearing."
        )
        return (Warned(Cost.LOOK, said),)
    under = roof.left.bearing - roof.right.bearing
    if under <= 1e-9:
        return ()
    said = (
        f"Wall {high}: its bearing is {show(under, style)} LOWER than at wall {low}, and the roof is higher there. "
        "Is truss.far_bearing right?"
    )
    return (Warned(Cost.PART, said),)


# --- purlins and ears -------------------------------------------------------------------------------------------------


def _in_ears(job: Job, plan: Plan, roof: Roof) -> list[str]:
    """Purlins and lookouts over the trusses that stand where ears go up to the roof."""
    if job.tops.seat == "flat" or job.tops.sidewall_ears != "roof" or job.roof.purlins == "flush":
        return []
    if delivered(job) is not None:
        return []
    found: dict[tuple[str, ...], list[str]] = {}
    for one in purlins.slopes(job, roof):
        for side in ("left", "right") if job.roof.shape == "mono-slope" else (one.side,):
            stands = _met(job, one, roof, side)
            if stands:
                wall = next(w.name for w in plan.walls if w.side == side)
                found.setdefault(stands, []).append(wall)
    return [
        f"{_walls(walls)}: {' and '.join(stands)} {_stand(stands)} where the ears go up to the roof: "
        'end them at the ears, from truss to truss, or take tops.sidewall_ears = "chord".'
        for stands, walls in found.items()
    ]


def _met(job: Job, one: Slope, roof: Roof, side: str) -> tuple[str, ...]:
    """The purlins of a slope, and its lookouts, that cross the ears of a sidewall, in words."""
    # level from the outer face of the columns at the slope's own wall, inward
    face = roof.across - job.column.depth if side != one.side else 0.0
    low, high = face, face + job.column.depth
    deep, across = over_chord(job) - job.roof.sheathing, plumb(1.0, one.slope)

    def crosses(first: float, last: float) -> bool:
        """Whether what covers the chord from *first* to *last* does, from the chord up to its top edge."""
        ends = [at / across - one.tail for at in (first, last)]
        lean = deep * one.slope / across  # its upper end stands this far downhill
        return min(ends[0], ends[0] - lean) < high - 1e-6 and max(ends[1], ends[1] - lean) > low + 1e-6

    hit = [i for i, at in enumerate(one.purlins, 1) if crosses(at, at + one.thick)]
    half = job.roof.purlin.thick / 2
    held = [i for i, at in enumerate(one.lookouts, 1) if crosses(at + one.slide - half, at + one.slide + half)]
    return tuple(_numbered(name, numbers) for name, numbers in (("purlin", hit), ("lookout", held)) if numbers)


def _numbered(name: str, numbers: list[int]) -> str:
    return f"{name}{'s' * (len(numbers) > 1)} {', '.join(map(str, numbers))}"


def _stand(stands: tuple[str, ...]) -> str:
    return "stands" if len(stands) == 1 and "s " not in stands[0] else "stand"


def _walls(names: list[str]) -> str:
    return f"Wall{'s' * (len(names) > 1)} {' and '.join(names)}"


# --- tails and soffits ------------------------------------------------------------------------------------------------


def _tails(job: Job, plan: Plan, roof: Roof) -> list[str]:
    """Tails that a level soffit cuts nearly away, and nailers that stand in their way; known where the job tells the
    top chord. What may be cut off a truss its maker says."""
    chord = job.truss.top_chord
    found: dict[tuple[float, float], list[str]] = {}
    if chord is None or job.roof.soffit != "level":
        return []
    for one in purlins.slopes(job, roof):
        eave, m = roof.at(one.side), one.slope
        if not eave.overhang or eave.soffit is None or m <= 0:
            continue
        deep, outer = plumb(chord.wide, m), -job.roof.soffit_nailer.thick
        chord_at = roof.chord.over if one.side == "left" else roof.chord.turned(roof.across).over
        left, into = chord_at(-one.tail) - eave.soffit, eave.soffit - (chord_at(outer) - deep)
        wall = next(w.name for w in plan.walls if w.side == one.side)
        found.setdefault((round(left, 6), round(into, 6)), []).append(wall)
    return [line for (left, into), walls in found.items() for line in _cut_away(job, _walls(walls), left, into)]


def _cut_away(job: Job, walls: str, left: float, into: float) -> list[str]:
    """What a level soffit does to the tails over *walls*: *left* of their ends, the nailer *into* them."""
    style, found = job.style, []
    advice = ' Ask the truss maker before a tail is cut; a deeper fascia or roof.soffit = "sloped" takes less off.'
    if left < NAILED - 1e-9:
        rest = f"only {show(left, style, rounded=down)}" if left > 0 else "nothing"
        found.append(f"{walls}: the level soffit leaves {rest} of the tails at their ends, plumb." + advice)
    if into > 1e-9:
        found.append(
            f"{walls}: the soffit nailer comes {show(into, style, rounded=up)} into the tails at the wall: the "
            "level cut goes on past it." + (advice if not found else "")
        )
    return found
