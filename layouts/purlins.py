"""Along the slopes: where purlins and lookouts lie on the top chords, and where the trusses meet the fascia.

Stations run along the top of the top chord from the upper corner of the truss's tail, which is cut short of the fascia.
A level run r on slope m is r·sqrt(1 + m²) long; what is lowered plumb by d lies d·m/sqrt(1 + m²) further downhill
(identities). All trusses of a slope are marked alike.
"""

from __future__ import annotations

import math

from msgspec import Struct

from layouts import carriers, fascia
from layouts.fields import Job
from layouts.heights import over_chord, plumb
from layouts.plan import Plan
from layouts.rods import Mark, Rod, ended
from layouts.roof import Eave, Roof

NAME, LOOKOUTS, FASCIA, TRUSSES = "Roof rod", "Lookout rod", "Fascia rod", "Truss rod"


class Slope(Struct, frozen=True):
    """One slope of the roof, inches. *side* is its sidewall; *tail* the level way from the outside of the columns to
    the tail's upper corner, outward; *run* level from there to the ridge, or to the high end; *slope* rise over run;
    *length* along the chord; *purlins* the downhill edges, *thick* what a purlin covers uphill from there, *clear* the
    least first one, whose top stands in nothing; *slide* how much further uphill of its own tail the same marks lie on
    a dropped endwall truss; *lookouts* are middles, of boards that lie as purlins do."""

    side: str
    tail: float
    run: float
    slope: float
    length: float
    purlins: tuple[float, ...]
    thick: float
    clear: float
    slide: float
    lookouts: tuple[float, ...]

    def clears(self, job: Job) -> bool:
        """Whether the first purlin stands where it just clears what is in its way."""
        return job.roof.purlin_first is None and self.clear > 0

    @property
    def first(self) -> float:
        """The first space, downhill edge to downhill edge."""
        return self.purlins[1] - self.purlins[0] if len(self.purlins) > 1 else 0.0

    @property
    def last(self) -> float:
        """The last one."""
        return self.purlins[-1] - self.purlins[-2] if len(self.purlins) > 1 else 0.0


def slopes(job: Job, roof: Roof) -> tuple[Slope, ...]:
    """Every slope of the roof: one, or wall A's first."""
    if job.roof.shape == "gable":
        return tuple(_slope(job, roof, eave) for eave in (roof.left, roof.right))
    return (_slope(job, roof, roof.left),)


def _slope(job: Job, roof: Roof, eave: Eave) -> Slope:
    """The slope over one sidewall, up to the ridge; of a roof of one slope up to its high end."""
    m, tail = eave.inward, fascia.tail(job, eave)
    run = tail + (roof.ridge if eave.side == "left" else roof.across - roof.ridge)
    rest = job.roof.purlin_ridge
    if job.roof.shape == "mono-slope":
        run = tail + roof.across + fascia.tail(job, roof.right)
        rest = 0.0
    length = plumb(run, m)
    thick = job.roof.purlin.wide if job.roof.purlins == "flat" else job.roof.purlin.thick
    clear = fascia.clear(job, eave, fascia.member(job))
    first = clear if job.roof.purlin_first is None else job.roof.purlin_first
    places = _spaced(first, length - rest - thick, job.roof.purlin_step, job.roof.purlin_spacing == "equal", thick)
    slide = job.truss.endwall_drop * m / plumb(1.0, m)
    lookouts = _lookouts_of(job, roof, eave, length, thick, slide) if job.roof.end_overhang > 0 else ()
    return Slope(eave.side, tail, run, m, length, places, thick, clear, slide, lookouts)


def _lookouts_of(job: Job, roof: Roof, eave: Eave, length: float, thick: float, slide: float) -> tuple[float, ...]:
    """Their middles: the first one clears the fascia, the last one stands over the ridge, or with its uphill edge at
    the standing wall or at the high end. They stand on top chords that may be dropped, square to these."""
    m = eave.inward
    low = fascia.clear(job, eave, fascia.member(job) - job.truss.endwall_drop / plumb(1.0, m))
    if job.roof.shape == "gable":
        return _spaced(low + thick / 2, length, job.roof.lookout_step, True)
    # a fascia square to the slope ends with the chord, all else plumb over its end
    square = roof.right.overhang > 0 and job.roof.fascia_cut == "square"
    high = length if square else length - slide
    return _spaced(low + thick / 2, high - thick / 2, job.roof.lookout_step, True)


def _spaced(first: float, last: float, step: float, equal: bool, thick: float = 0.0) -> tuple[float, ...]:
    """Places from *first* to *last*, in equal steps or with the rest last; *first* alone where there is no room.
    Where the last but one would lie in the last one, *thick* as they are, it stands in the middle of the last two."""
    span = last - first
    if span <= 0:
        return (first,)
    if equal:
        count = max(math.ceil(span / step - 1e-9), 1)
        return tuple(first + span * i / count for i in range(count + 1))
    whole = math.floor(span / step + 1e-9)
    places = [first + step * i for i in range(whole + 1)]
    if last - places[-1] <= 1e-6:
        return tuple(places)
    if len(places) > 1 and last - places[-1] < thick - 1e-6:
        # too near for two: the last two spaces share what is left, so that none is over the step
        places[-1] = (places[-2] + last) / 2
    return (*places, last)


def lookout_deep(job: Job, one: Slope) -> float:
    """How deep lookouts have to be, square to the slope, inches, that the roof stays plane out over the endwalls: on a
    truss that is *d* lower, plumb, they fill d/sqrt(1 + m²) and end flush with the other chords, under the purlins; on
    one that is as high as the others they lie between the purlins, as deep as these. 0 where there is no room."""
    drop = job.truss.endwall_drop
    return drop / plumb(1.0, one.slope) if drop else fascia.member(job)


def last_at_top(job: Job, roof: Roof, one: Slope) -> float:
    """From the last purlin's uphill edge at its top, along the roof sheets, to where they meet those of the other
    slope, or the standing wall; inches. Farther than at the chord: what stands *d* square to slope m leans downhill,
    its top d·m farther along the slope from the plumb line that its foot is measured to. Of two pitches the sheets meet
    beside the ridge of the chords."""
    rest = one.length - one.purlins[-1] - one.thick
    nearer = 0.0
    if job.roof.shape == "gable":
        nearer = (roof.ridge - roof.cover.breaks()[0]) * (1.0 if one.side == "left" else -1.0)
    return rest + over_chord(job) * one.slope - plumb(nearer, one.slope)


def rods(job: Job, plan: Plan, roof: Roof) -> tuple[Rod, ...]:
    """The rod of every slope, and that of its lookouts; one for both where they are alike. The fascia's, if wanted."""
    found: dict[tuple[str, tuple[Mark, ...]], list[str]] = {}
    for one in slopes(job, roof):
        found.setdefault((NAME, _marks(job, roof, one)), []).append(one.side)
    for one in slopes(job, roof):
        if one.lookouts:
            found.setdefault((LOOKOUTS, _lookouts(one)), []).append(one.side)
    rods = [_rod(name, marks, _of(job, plan, name, sides), job) for (name, marks), sides in found.items()]
    if job.roof.fascia_rod == "rod":
        name, of = (FASCIA, "from its front end") if has_fascia(job) else (TRUSSES, "from the front end of the columns")
        rods.append(_rod(name, _along_eave(job, plan), of, job))
    return tuple(rods)


def _rod(name: str, marks: tuple[Mark, ...], of: str, job: Job) -> Rod:
    return Rod(name, (), False, marks, ended(marks, job.style), of)


def _of(job: Job, plan: Plan, name: str, sides: list[str]) -> str:
    """Which slope a rod is for, and which trusses."""
    whom = "end trusses, " if name == LOOKOUTS else ""
    if job.roof.shape != "gable":
        return f"{whom}from the tail up"
    if len(sides) > 1:
        return f"{whom}both slopes, from the tail up"
    wall = next(w.name for w in plan.walls if w.side == sides[0])
    return f"{whom}slope over wall {wall}, from the tail up"


def _marks(job: Job, roof: Roof, one: Slope) -> tuple[Mark, ...]:
    """Purlins at their downhill edge, and where the chord ends at the top."""
    size, places = job.roof.purlin.name, [round(at, 9) for at in one.purlins]
    way = fascia.in_the_way(job, roof.at(one.side))
    why = f"purlin 1 clears {way} at its top" if one.clears(job) else ""
    marks = [
        Mark(
            f"Purlin {i}",
            "board",
            at,
            at,
            round(at + one.thick, 9),
            "bottom",
            size,
            where="downhill edge",
            note=why if i == 1 else "",
        )
        for i, at in enumerate(places, 1)
    ]
    end = round(one.length, 9)
    name = {"gable": "Ridge", "lean-to": "Standing wall", "mono-slope": "High end"}[job.roof.shape]
    return (*marks, Mark(name, "line", end, end, end, "line"))


def _lookouts(one: Slope) -> tuple[Mark, ...]:
    """Lookouts at their middle: the last one lies at the end of the chord."""
    return tuple(
        Mark(f"Lookout {i} middle", "line", at, at, at, "line")
        for i, at in ((i, round(at, 9)) for i, at in enumerate(one.lookouts, 1))
    )


def _along_eave(job: Job, plan: Plan) -> tuple[Mark, ...]:
    """Trusses by their front faces, and the back end."""
    long, places = along_eave(job, plan)
    marks = [
        Mark(f"Truss {i}", "board", at, at, round(at + job.truss.thickness, 9), "bottom", where="front face")
        for i, at in ((i, round(at, 9)) for i, at in enumerate(places, 1))
    ]
    return (*marks, Mark("Back end", "line", long, long, long, "line"))


def has_fascia(job: Job) -> bool:
    """Whether there is a fascia at an eave: only an overhang has one."""
    far = job.roof.overhang if job.roof.far_overhang is None else job.roof.far_overhang
    return job.roof.overhang > 0 or (job.roof.shape != "lean-to" and far > 0)


def along_eave(job: Job, plan: Plan) -> tuple[float, tuple[float, ...]]:
    """How long the fascia is, and the front faces of the trusses from its front end, inches; without a fascia the
    columns out to out, and from the front end of these."""
    before = fascia.past_ends(job) if has_fascia(job) else 0.0
    return plan.along + 2 * before, tuple(at + before for at in trusses(job, plan))


def trusses(job: Job, plan: Plan) -> tuple[float, ...]:
    """The front faces of all trusses, inches from the front end of the columns."""
    if job.carrier.board:
        return carriers.trusses(job, plan)
    thick, each, tops = job.truss.thickness, job.truss.each, job.tops
    places: list[float] = []
    for spot in sorted((s for s in plan.spots if s.u0 == 0.0 and s.role != "end"), key=lambda s: s.v0):
        if tops.seat != "shoulder":
            start = (spot.v0 + spot.v1 - each * thick) / 2
            places += [start + i * thick for i in range(each)]
            continue
        # against the rest of the column, out from there
        front = spot.v0 + tops.shoulder_depth
        back = spot.v1 - tops.shoulder_depth
        sides = ("front", "back") if tops.shoulder == "both" else (tops.shoulder,) * each
        for i, side in enumerate(sides):
            n = 0 if tops.shoulder == "both" else i
            places.append(front - (n + 1) * thick if side == "front" else back + n * thick)
    return tuple(sorted(places))
