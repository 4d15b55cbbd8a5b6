"""The sums that are printed on the index: from what to what a height is made of."""

from __future__ import annotations

import math

from msgspec import Struct
from msgspec.structs import replace

from layouts.fields import Job
from layouts.heights import Heights, over_chord, plumb
from layouts.lengths import show
from layouts.pitch import shown


class Step(Struct, frozen=True):
    """One line of a printed sum: what is added (inches, negative is taken off)."""

    name: str
    inches: float


class Sum(Struct, frozen=True):
    """A printed sum: *steps* add up to *total*, a station; *name* says from what to what."""

    name: str
    steps: tuple[Step, ...]

    @property
    def total(self) -> float:
        """The sum of the steps."""
        return math.fsum(s.inches for s in self.steps)


WALLS = {"left": "wall A", "right": "the wall opposite"}


def on_wall(total: Sum, side: str) -> Sum:
    """*total*, called by the sidewall that it is of."""
    return replace(total, name=f"{total.name}, {WALLS[side]}")


def _start(job: Job, found: Heights, far: bool) -> tuple[Step, ...]:
    """From the grade line to the chord top at the face the heel is given at."""
    floor = (Step("finished floor above grade line", job.floor_shift),) if job.floor_shift else ()
    name = "bearing above finished floor" if floor else "bearing above grade line"
    bearing, heel = (found.far_bearing, found.far_heel) if far else (found.bearing, found.heel)
    return (
        *floor,
        Step(name, bearing - job.floor_shift),
        Step(f"heel at the {'girt' if job.heel_out else 'column'} face", heel),
    )


def _chord_face(job: Job, found: Heights) -> tuple[Step, ...]:
    """From the grade line to the chord top at the outer face of wall A's columns."""
    rise = job.girt_out * found.pitch
    if job.truss.heel_at == "column" or not rise:
        return _start(job, found, far=False)
    return (*_start(job, found, far=False), Step("rise from outside of girts to the column face", rise))


def _side_start(job: Job, found: Heights, far: bool) -> tuple[Step, ...]:
    """The same at the wall opposite: of a single slope from wall A and up over the width."""
    if not far or job.roof.shape == "gable":
        return _start(job, found, far)
    face = job.heel_out
    run = job.across + 2 * face
    rise = Step(f"rise over {show(run, job.style)} at {shown(found.pitch, job.style)}", found.pitch * run)
    return (*_start(job, found, far=False), rise)


def _over_steps(job: Job, slope: float, sheathing: bool) -> tuple[Step, ...]:
    """Purlin and sheathing on the chord, plumb."""
    how = {"edge": "on edge, plumb", "flat": "flat, plumb", "flush": "flush"}[job.roof.purlins]
    depth = over_chord(job) - job.roof.sheathing
    steps = (Step(f"purlin {job.roof.purlin.name} {how}", plumb(depth, slope)),)
    if not sheathing or not job.roof.sheathing:
        return steps
    return (*steps, Step("sheathing, plumb", plumb(job.roof.sheathing, slope)))


def eave(job: Job, found: Heights, far: bool) -> Sum:
    """Eave line: the roof plane at the outside of the girts (as ANSI/ASABE S618 is quoted by the trade)."""
    inward = found.far_pitch if far else found.pitch
    top = "top of the sheathing" if job.roof.sheathing else "purlin tops"
    what = f"Eave line ({top} at the outside of the {'girts' if job.girt_out else 'columns'})"
    from_face = job.truss.heel_at == "column" and job.girt_out
    verb = "drop" if inward > 0 else "rise"
    drop = (Step(f"{verb} from column face to outside of girts", -job.girt_out * inward),) if from_face else ()
    return Sum(what, (*_side_start(job, found, far), *_over_steps(job, inward, True), *drop))


def soffit(job: Job, found: Heights, far: bool, over: float) -> Sum:
    """Soffit nailer top: the roof plane at the heel line, less the fall over the overhang where the soffit is level and
    to the nailer's own face where it is not, less what the fascia reaches down."""
    inward = found.far_pitch if far else found.pitch
    level = job.roof.soffit == "level"
    deep = _fascia(job, inward)
    verb = "fall" if inward > 0 else "rise"
    fall = (Step(f"{verb} over the overhang", -over * inward),) if level else _to_nailer(job, inward)
    name = "fascia depth" if deep == job.roof.fascia else f"fascia {show(job.roof.fascia, job.style)} deep, plumb"
    steps = (*_side_start(job, found, far), *_over_steps(job, inward, False), *fall, Step(name, -deep))
    return Sum("Soffit nailer top (level soffit)" if level else "Soffit nailer top (soffit along the slope)", steps)


def _to_nailer(job: Job, inward: float) -> tuple[Step, ...]:
    """From the face the heel is given at to the corner of the nailer that a soffit along the slope touches first: its
    outer one where the roof falls outward, else the one at the column."""
    outer = 0.0 if inward < 0 or job.girts.place == "between" else job.roof.soffit_nailer.thick
    out = outer - job.heel_out
    if abs(out) < 1e-9:
        return ()
    verb = "drop" if out * inward > 0 else "rise"
    start = "outside of girts" if job.heel_out else "column face"
    return (Step(f"{verb} from {start} to the nailer's {'outside' if outer else 'column'}", -out * inward),)


def _fascia(job: Job, inward: float) -> float:
    """How far the soffit lies under the roof plane at its outer end, plumb. A square fascia leans in at its foot: there
    it reaches down depth / sqrt(1 + m²), and a soffit along the slope keeps its depth square to the slope."""
    if job.roof.fascia_cut == "plumb":
        return job.roof.fascia
    factor = plumb(1.0, inward)
    return job.roof.fascia / factor if job.roof.soffit == "level" else job.roof.fascia * factor


def worked_back(job: Job, found: Heights, far: bool) -> Sum:
    """A bearing that was worked back from the eave line, or from where a lean-to meets the standing wall."""
    part, shift = job.truss, job.floor_shift
    inward = found.far_pitch if far else found.pitch
    heel = found.far_heel if far else found.heel
    floor = (Step("finished floor above grade line", shift),) if shift else ()
    down = tuple(replace(s, inches=-s.inches) for s in _over_steps(job, inward, True))
    given = part.far_eave if far else part.eave
    above = "finished floor" if shift else "grade line"
    if given is None:
        assert part.wall_height is not None
        run = job.across + job.heel_out
        first = Step(f"roof at the standing wall above {above}", part.wall_height)
        fall = Step(f"fall over {show(run, job.style)} at {shown(inward, job.style)}", -run * inward)
        name, steps = "Bearing, worked back from the standing wall", (first, fall, *down)
    else:
        first = Step(f"eave line above {above}", given)
        rise = job.girt_out * inward if part.heel_at == "column" else 0.0
        back = (Step("rise from outside of girts to the column face", rise),) if rise else ()
        name, steps = "Bearing, worked back from the eave line", (first, *back, *down)
    total = Sum(name, (*floor, *steps, Step(f"heel at the {'girt' if job.heel_out else 'column'} face", -heel)))
    return on_wall(total, "right") if far else total


def standing(job: Job, found: Heights) -> Sum:
    """Of a lean-to, what the roof sheets lie on where they meet the standing wall."""
    run = job.across + job.heel_out
    rise = Step(f"rise over {show(run, job.style)} at {shown(found.pitch, job.style)}", found.pitch * run)
    steps = (*_start(job, found, far=False), rise, *_over_steps(job, found.pitch, True))
    return Sum("Roof at the standing wall (what the sheets lie on)", steps)


def peak(job: Job, found: Heights, ridge: float) -> Sum:
    """The chords where they meet, over *ridge* inches from the outer face of wall A's columns."""
    run = Step(f"rise over {show(ridge, job.style)} at {shown(found.pitch, job.style)}", found.pitch * ridge)
    return Sum("Ridge of the chords", (*_chord_face(job, found), run))
