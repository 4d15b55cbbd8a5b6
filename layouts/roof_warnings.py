"""What of a roof can be built but wants a look first, in words: tails and soffits, purlins and ears, one slope's
bearings."""

from __future__ import annotations

from layouts import fascia, purlins
from layouts.costs import Cost, Warned, each
from layouts.fields import Job
from layouts.heights import AGREE, over_chord, plumb, work_out
from layouts.lengths import down, show, up
from layouts.lumber import section
from layouts.piers import delivered
from layouts.plan import Plan
from layouts.purlins import Slope
from layouts.roof import Roof

NAILED = 1.5
"""Less of a tail than this, plumb inches, holds no soffit's nails: common practice, no source."""

ROUNDED = 1 / 8
"""Inches that a heel is let off: it is told rounded (common practice, no source)."""

DRESSED = (1.5, *(section(f"2x{wide}", "in").wide for wide in (4, 6, 8, 10, 12)))
"""How deep boards lie flat or stand on edge, inches (PS 20)."""

METRIC = (35, 45, 70, 90, 120, 140, 190, 240, 290)
"""The same in mm of timber that is sold in mm (common practice, no source)."""


def all_of(job: Job, plan: Plan, roof: Roof) -> tuple[Warned, ...]:
    """Every warning of the roof."""
    return (
        *_bearings(job, plan, roof),
        *each(Cost.PART, _low_heels(job, plan)),
        *each(Cost.PART, _idle_drop(job)),
        *each(Cost.PART, _lookouts_fit(job, plan, roof)),
        *_gable_sheets(job, roof),
        *each(Cost.CUT, _in_fascia(job, plan, roof)),
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


def _low_heels(job: Job, plan: Plan) -> list[str]:
    """Heels that are less than the top chord's own depth, plumb: one of the two is mistyped, for its underside would
    lie below the bearing. Dropped endwall trusses have less."""
    drop = job.truss.endwall_drop
    found = _lower(job, plan, "the heel", 0.0)
    return found or (_lower(job, plan, "the heel of the dropped endwall trusses", drop) if drop else [])


def _lower(job: Job, plan: Plan, whose: str, less: float) -> list[str]:
    """The same of heels that have so much *less* than the job tells."""
    chord, style, high = job.truss.top_chord, job.style, work_out(job)
    short: dict[tuple[str, str], list[str]] = {}
    for side, heel, m in (("left", high.heel, high.pitch), ("right", high.far_heel, high.far_pitch)):
        deep = plumb(chord.wide, m) if chord else 0.0
        if heel - less < deep - ROUNDED and (side == "left" or job.roof.shape != "lean-to"):
            said = show(heel - less, style, rounded=down), show(deep, style, rounded=up)
            short.setdefault(said, []).append(next(w.name for w in plan.walls if w.side == side))
    return [
        f"{_walls(walls)}: {whose} is {heel}, less than the top chord is deep, plumb: {deep}. Is one of the two wrong?"
        for (heel, deep), walls in short.items()
    ]


def _idle_drop(job: Job) -> list[str]:
    """Endwall trusses that are lowered for lookouts that there are not."""
    drop = job.truss.endwall_drop
    if not drop or job.roof.end_overhang:
        return []
    return [
        f"The endwall trusses are {show(drop, job.style)} lower for lookouts, and without roof.end_overhang there are "
        "none: is truss.endwall_drop right?"
    ]


def _lookouts_fit(job: Job, plan: Plan, roof: Roof) -> list[str]:
    """Lookouts that no board is deep enough for, or too deep: the roof would not be plane out over the endwalls."""
    drop, style = job.truss.endwall_drop, job.style
    found: dict[tuple[str, str, str], list[str]] = {}
    for one in purlins.slopes(job, roof):
        if not one.lookouts:
            continue
        deep = purlins.lookout_deep(job, one)
        if not deep:
            return [
                "The purlins hang flush with the chords, and lookouts over endwall trusses as high as the others stand "
                "above the roof: give truss.endwall_drop, as much as they are deep, plumb."
            ]
        board = min(_depths(job), key=lambda b: abs(plumb(b, one.slope) - drop))
        if drop and abs(plumb(board, one.slope) - drop) > ROUNDED + 1e-9:
            said = show(deep, style), show(board, style), show(plumb(board, one.slope), style)
            found.setdefault(said, []).append(next(w.name for w in plan.walls if w.side == one.side))
    return [
        f"{_walls(walls)}: the endwall trusses are {show(drop, style)} lower, plumb, which is room for lookouts {deep} "
        f"deep, square to the slope, and no board is. One of {board} wants {wanted}: is truss.endwall_drop right?"
        for (deep, board, wanted), walls in found.items()
    ]


def _gable_sheets(job: Job, roof: Roof) -> tuple[Warned, ...]:
    """Sheets of the gables that end under lookouts that there are not, or that lookouts run through."""
    over = max(plumb(over_chord(job), abs(eave.inward)) for eave in (roof.left, roof.right)) + job.truss.endwall_drop
    chord, out = job.cladding.gable_top == "chord", job.roof.end_overhang > 0
    if job.cladding.cover is None or over < AGREE or chord == out:
        return ()
    gap = show(over, job.style)
    if chord:
        said = f"Gable sheets end up to {gap} below the roof sheets, for lookouts, and without roof.end_overhang there "
        return (Warned(Cost.CUT, said + "are none: is cladding.gable_top right?"),)
    said = f"Lookouts run out through the upper {gap} of the gable sheets: notch these for them, or take "
    return (Warned(Cost.LOOK, said + 'cladding.gable_top = "chord".'),)


def _depths(job: Job) -> set[float]:
    """How deep boards stand or lie, inches: the purlin's, PS 20, and in a metric job besides the usual ones there."""
    own = {job.roof.purlin.thick, job.roof.purlin.wide, *DRESSED}
    return own | {mm / 25.4 for mm in METRIC} if job.style.unit == "mm" else own


# --- the first purlins, and ears --------------------------------------------------------------------------------------


def _in_fascia(job: Job, plan: Plan, roof: Roof) -> list[str]:
    """First purlins that stand too far down: they lean out at their top, into the fascia or past the girts."""
    found: dict[tuple[str, float, float], list[str]] = {}
    for one in purlins.slopes(job, roof):
        # what the roof sheet prints may be typed in
        if one.purlins[0] < one.clear - AGREE:
            into = f"past {fascia.in_the_way(job, roof.at(one.side))}"
            out = (one.clear - one.purlins[0]) / plumb(1.0, one.slope)
            wall = next(w.name for w in plan.walls if w.side == one.side)
            found.setdefault((into, round(out, 9), round(one.clear, 9)), []).append(wall)
    style = job.style
    return [
        f"{_walls(walls)}: purlin 1 leans out at its top, {show(out, style, rounded=up)} {into}. Give "
        f"{show(clear, style, rounded=up)} or more as roof.purlin_first, or leave it out."
        for (into, out, clear), walls in found.items()
    ]


def _in_ears(job: Job, plan: Plan, roof: Roof) -> list[str]:
    """Purlins over the trusses, and lookouts over those of the endwalls, that stand where ears go up past the chord."""
    if job.tops.seat == "flat" or delivered(job) is not None:
        return []
    found: dict[str, list[str]] = {}
    for one in purlins.slopes(job, roof):
        for side in ("left", "right") if job.roof.shape == "mono-slope" else (one.side,):
            wall = next(w.name for w in plan.walls if w.side == side)
            for text in (_purlins_met(job, one, roof, side), _lookouts_met(job, one, roof, side)):
                if text:
                    found.setdefault(text, []).append(wall)
    return [f"{_walls(walls)}: {text}" for text, walls in found.items()]


def _over(job: Job, slope: float) -> float:
    """How far ears stand above the chord, plumb: up to the purlins' tops, or not at all, less the clearance."""
    past = over_chord(job) - job.roof.sheathing if job.tops.sidewall_ears == "roof" else 0.0
    return plumb(past, slope) - job.tops.clearance


def _purlins_met(job: Job, one: Slope, roof: Roof, side: str) -> str:
    """The purlins of a slope that cross the ears of a sidewall, in words; empty where none does."""
    deep = _over(job, one.slope) / plumb(1.0, one.slope)
    stretches = [(at, at + one.thick) for at in one.purlins]
    hit = _crossing(job, one, roof, side, deep, stretches)
    if not hit:
        return ""
    return (
        f"{_numbered('purlin', hit)} {'stands' if len(hit) == 1 else 'stand'} where the ears go up to the roof: "
        'end them at the ears, from truss to truss, or take tops.sidewall_ears = "chord".'
    )


def _lookouts_met(job: Job, one: Slope, roof: Roof, side: str) -> str:
    """The lookouts of a slope that cross the ears of a sidewall's corner columns, beside the endwall trusses: these
    ears are cut like the others, and the chord may be a dropped one. Empty where none does."""
    drop, half, square = job.truss.endwall_drop, one.thick / 2, plumb(1.0, one.slope)
    above = _over(job, one.slope) + drop
    # as deep as what they lie in: the drop, or the purlins
    deep = min(above, drop) / square if drop else above / square
    stretches = [(at + one.slide - half, at + one.slide + half) for at in one.lookouts]
    hit = _crossing(job, one, roof, side, deep, stretches)
    if not hit:
        return ""
    can = [] if {1, len(one.lookouts)} & set(hit) else ["choose another roof.lookout_step"]
    if job.tops.sidewall_ears == "roof" and drop <= job.tops.clearance + 1e-9:
        can.append('take tops.sidewall_ears = "chord"')
    else:
        can.append(f"cut those ears {show(above, job.style, rounded=up)} lower than their tags say")
    return (
        f"{_numbered('lookout', hit)} {'runs' if len(hit) == 1 else 'run'} through the ears of the corner columns, "
        f"which stand up past the chord of the endwall truss: {', or '.join(can)}."
    )


def _crossing(
    job: Job, one: Slope, roof: Roof, side: str, deep: float, stretches: list[tuple[float, float]]
) -> list[int]:
    """The numbers of what covers a *stretch* of the chord and crosses ears that reach *deep* above it, square to it."""
    if deep <= 1e-6:
        return []
    # level from the outer face of the columns at the slope's own wall, inward
    face = roof.across - job.column.depth if side != one.side else 0.0
    low, high = face, face + job.column.depth
    across, lean = plumb(1.0, one.slope), deep * one.slope / plumb(1.0, one.slope)  # the upper end stands downhill
    hit = []
    for number, (first, last) in enumerate(stretches, 1):
        begins, ends = first / across - one.tail, last / across - one.tail
        if begins - lean < high - 1e-6 and ends > low + 1e-6:
            hit.append(number)
    return hit


def _numbered(name: str, numbers: list[int]) -> str:
    return f"{name}{'s' * (len(numbers) > 1)} {', '.join(map(str, numbers))}"


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
