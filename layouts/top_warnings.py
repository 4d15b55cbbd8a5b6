"""What of the tops of columns can be cut but wants a look first, in words: seats and the ears beside them."""

from __future__ import annotations

from layouts import seats
from layouts.columns import Column, cuts
from layouts.fields import Job
from layouts.lengths import down, show, up
from layouts.plan import Plan
from layouts.roof import Roof

LOW = 2.0
"""Inches: a clearance of more is asked about (common practice, no source: 1/4 to 1/2 keeps ears off the purlins)."""


LEFT = 1 / 3
"""Of a column's thickness: where less is left beside a seat the engineer is asked (common practice, no source: of three
plies the centre one, between two shoulders)."""
SLENDER = 1 / 24
"""Of its bay: carriers of less depth are asked about (common practice, no source: 1/10 to 1/20)."""


def all_of(job: Job, plan: Plan, roof: Roof, columns: tuple[Column, ...]) -> list[str]:
    """Every warning of the tops."""
    ears = (*_least_ears(job, columns), *_under(job, plan, roof), *_cut_low(job))
    return [*_tops(job), *_thin(job), *_carriers(job), *ears]


def _tops(job: Job) -> list[str]:
    """The trusses against the place that is cut for them."""
    style, (wide, trusses) = job.style, seats.room(job)
    slot = job.tops.seat == "slot"
    if job.tops.seat == "flat" or wide - seats.LOOSE - 1e-9 <= trusses <= wide + 1e-9:
        return []
    what = "truss" if job.truss.each == 1 else f"{job.truss.each} trusses"
    if not slot:
        said = f"A shoulder is {show(wide, style)} deep, and {show(trusses, style)} of truss stand on it: "
        if trusses > wide:
            return [said + "they stand out beyond the column. Ask the engineer."]
        return [f"{said}{show(wide - trusses, style)} of it carries nothing. Is tops.shoulder_depth right?"]
    ply = "the centre ply" if job.column.plies == 3 else "the inner plies"
    said = f"The slot left by {ply} is {show(wide, style)}, the {what} {show(trusses, style)}: "
    if trusses > wide:
        goes = "it does" if job.truss.each == 1 else "they do"
        return [f"{said}{goes} not go in. Saw the slot wider, or ask for another seat."]
    stands = "it stands" if job.truss.each == 1 else "they stand"
    return [f"{said}{stands} loose in it. {_meant(job, trusses)}Ask the engineer what fills it."]


def _meant(job: Job, trusses: float) -> str:
    """What a slot that is too wide may come of; empty where nothing would make it fit."""
    part = job.column

    def fits(width: float, plies: int, wood: float) -> bool:
        return -1e-9 <= width / plies * (plies - 2) - wood <= seats.LOOSE + 1e-9

    if fits(part.depth, part.plies, trusses):
        return "Are column.width and column.depth swapped? "
    other = 4 if part.plies == 3 else 3
    if fits(part.width, other, trusses):
        return f"Is it column.plies = {other}? "
    return "Are they two, truss.each = 2? " if job.truss.each == 1 and fits(part.width, part.plies, 2 * trusses) else ""


def _thin(job: Job) -> list[str]:
    """Shoulders that leave little of a column, across it or along it: how much must stay is not ours to say."""
    column, style = job.column, job.style
    cuts = [("its carriers", job.carrier.let_in * len(seats.shouldered(job)), column.depth)]
    if job.tops.seat == "shoulder":
        cuts.append(("its trusses", seats.cut_wide(job), column.width))
    return [
        f"Shouldered for {what}, a column keeps only {show(whole - cut, style, rounded=down)} of its "
        f"{show(whole, style)} there: ask the engineer before it is cut."
        for what, cut, whole in cuts
        if cut and whole - cut < whole * LEFT - 1e-6
    ]


def _carriers(job: Job) -> list[str]:
    """Carriers that do not lie on their columns, and such as nobody would expect to reach over a bay."""
    part, bays, style = job.carrier, job.building.bays, job.style
    if part.board is None:
        return []
    found, thick, deep = [], part.boards * part.board.thick, job.column.depth
    if part.where == "on top" and thick > deep + seats.AIR:
        found.append(
            f"The carriers are {show(thick, style)} thick, and the columns they lie on {show(deep, style)} deep: "
            f"they stand out by {show(thick - deep, style)}. Ask the engineer."
        )
    bay = max(bays) if isinstance(bays, tuple) else job.building.length / bays
    if part.board.wide < bay * SLENDER - 1e-6:
        found.append(
            f"The carriers are only {show(part.board.wide, style)} deep over bays of {show(bay, style)}: is "
            "carrier.board right? Ask the engineer."
        )
    return found


def _least_ears(job: Job, columns: tuple[Column, ...]) -> list[str]:
    """Ears that are too short for what holds the truss."""
    least, style = job.tops.least_ears, job.style
    if least is None or job.tops.seat == "flat":
        return []
    short: dict[float, list[str]] = {}
    for column in columns:
        bearing = [c.station for c in column.cuts if c.key == "bearing"]
        if column.role != "end" and bearing:
            reach = min(h for _, h in column.top.ears) - bearing[0]
            if reach < least - 1e-9:
                short.setdefault(round(reach, 6), []).append(column.name)
    return [
        f"Ears of {', '.join(names)} reach only {show(reach, style, rounded=down)} above the bearing at the short "
        f"point, {show(least, style)} are wanted: ask the engineer."
        for reach, names in sorted(short.items())
    ]


def _under(job: Job, plan: Plan, roof: Roof) -> list[str]:
    """Endwall columns whose ears end under the truss that they should stand beside: a low chord, less a clearance."""
    if job.tops.endwall_ears == "bearing":
        return []  # that is what they are to do
    bearing, under = roof.surface("bearing"), dict[str, float]()
    for spot in (s for s in plan.spots if s.role == "end"):
        ears = max(h for _, h in cuts(job, roof, plan, spot)[1].ears)
        short = bearing.over((spot.u0 + spot.u1) / 2) - ears
        if short > 1e-6:
            under[spot.name] = short
    if not under:
        return []
    return [
        f"Ears of {', '.join(under)} end up to {show(max(under.values()), job.style, rounded=up)} BELOW the bearing of "
        "the endwall truss: nothing of them stands beside it. Ask the engineer how it is held."
    ]


def _cut_low(job: Job) -> list[str]:
    """A clearance that may be in another unit, or meant for another top."""
    clear, style = job.tops.clearance, job.style
    if clear <= LOW + 1e-9:
        return []
    unit = "mm" if style.unit == "mm" else "inches"
    return [
        f"Ears are cut {show(clear, style)} lower than what they run to: is tops.clearance right? "
        f"A bare number is {unit}."
    ]
