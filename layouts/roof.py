"""Heights of the roof over the columns: bearings, chords, purlin tops, eaves and soffits, whatever its shape.

*u* is inches from the outer face of wall A's columns. What is printed as a sum stands in ``layouts.sums``.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from layouts import sums as written
from layouts.fields import Job
from layouts.heights import Heights, over_chord, work_out
from layouts.heights import plumb as plumb
from layouts.sums import Step as Step
from layouts.sums import Sum as Sum
from layouts.surface import Plane as Plane
from layouts.surface import Surface as Surface

SIDES: tuple[Literal["left"], Literal["right"]] = ("left", "right")


class Eave(Struct, frozen=True):
    """The roof at one sidewall. *bearing*, *eave* (what the roof sheets lie on, at the outside of the girts) and
    *soffit* (top edge of its nailer, ``None`` without one) are stations; *wall_top* is where a wall without a soffit
    ends: the bearing, or the chord's top where one slope leaves the bearing far below it; *inward* the slope inward
    from the wall, less than nothing at the high wall of a single slope; *overhang* level, *fascia* its depth; *sums*
    are printed."""

    side: Literal["left", "right"]
    bearing: float
    inward: float
    eave: float
    soffit: float | None
    wall_top: float
    overhang: float
    fascia: float
    sums: tuple[Sum, ...]


class Roof(Struct, frozen=True):
    """*left* is the roof at wall A, *right* at the wall opposite (of a lean-to where it meets the standing wall);
    *chord* the chord tops, *end_chord* those of the endwall trusses, *end_under* the undersides of these top chords;
    *top* the roof plane (purlin tops), *cover* what the roof sheets lie on; *ridge* the place of the highest point;
    *sums* are printed on the index."""

    left: Eave
    right: Eave
    chord: Surface
    end_chord: Surface
    end_under: Surface
    top: Surface
    cover: Surface
    ridge: float
    across: float
    sums: tuple[Sum, ...]

    def at(self, side: str) -> Eave:
        """The roof at the sidewall that is ``left`` or ``right``."""
        return self.right if side == "right" else self.left

    @property
    def bearing(self) -> float:
        """The lower one of the two bearings."""
        return min(self.left.bearing, self.right.bearing)

    @property
    def plain(self) -> bool:
        """Whether both sides are alike."""
        return _levels(self.left) == _levels(self.right)

    @property
    def eave(self) -> float:
        """The eave line at wall A."""
        return self.left.eave

    @property
    def soffit(self) -> float | None:
        """The top edge of the soffit nailer at wall A."""
        return self.left.soffit

    def surface(self, name: str) -> Surface:
        """``bearing``, ``chord``, ``end chord``, ``end chord bottom`` or ``roof`` as a surface."""
        rise = (self.right.bearing - self.left.bearing) / self.across
        level = Surface((Plane(0.0, self.left.bearing, rise),))
        ends = {"end chord": self.end_chord, "end chord bottom": self.end_under}
        return {"bearing": level, "chord": self.chord, "roof": self.top, **ends}[name]


def _levels(eave: Eave) -> tuple[float | None, ...]:
    """What of the two sides is compared, free of the last digit."""
    found = (eave.bearing, eave.inward, eave.eave, eave.soffit, eave.overhang)
    return tuple(None if value is None else round(value, 9) for value in found)


def build(job: Job) -> Roof:
    """The roof of *job*. Raises ``heights.Unsettled`` where its fields do not tell one."""
    found, across = work_out(job), job.across
    face = job.heel_out
    planes = [Plane(0.0, found.bearing + found.heel + face * found.pitch, found.pitch)]
    if job.roof.shape == "gable":
        far = found.far_bearing + found.far_heel + face * found.far_pitch
        planes.append(Plane(across, far, -found.far_pitch))
    chord = Surface(tuple(planes))
    top, cover = chord.square(job.roof.sheathing - over_chord(job)), chord.square(-over_chord(job))
    left, right = (_eave(job, found, side, cover) for side in SIDES)
    ridge = chord.breaks()[0] if len(planes) > 1 else across
    sums = _sums(job, found, left, right, ridge)
    end_chord = chord.lowered(job.truss.endwall_drop)
    end_under = end_chord.square(job.truss.top_chord.wide if job.truss.top_chord else 0.0)
    return Roof(left, right, chord, end_chord, end_under, top, cover, ridge, across, sums)


def _eave(job: Job, found: Heights, side: Literal["left", "right"], cover: Surface) -> Eave:
    """The roof at one sidewall."""
    far = side == "right"
    inward, bearing = (found.far_pitch, found.far_bearing) if far else (found.pitch, found.bearing)
    over = job.roof.far_overhang if far and job.roof.far_overhang is not None else job.roof.overhang
    if far and job.roof.shape == "lean-to":
        return Eave(side, bearing, inward, cover.over(job.across), None, bearing, 0.0, job.roof.fascia, ())
    face = job.heel_out
    eave = cover.over(job.across + job.girt_out if far else -job.girt_out)
    sums = [written.eave(job, found, far)]
    soffit = None
    if job.roof.soffit != "none" and over > 0:
        sums.append(written.soffit(job, found, far, over))
        soffit = sums[-1].total
    chord = found.bearing + found.heel + (job.across + face) * found.pitch
    wall_top = chord if inward < 0 else bearing
    return Eave(side, bearing, inward, eave, soffit, wall_top, over, job.roof.fascia, tuple(sums))


def _sums(job: Job, found: Heights, left: Eave, right: Eave, ridge: float) -> tuple[Sum, ...]:
    """The sums of the index: of both sides where they differ, of bearings that were worked back, of the ridge."""
    part = job.truss
    worked = [written.worked_back(job, found, far=False)] if part.bearing is None else []
    if job.roof.shape == "gable" and part.far_eave is not None:
        worked.append(written.worked_back(job, found, far=True))
    if job.roof.shape == "lean-to":
        return (*worked, *left.sums, written.standing(job, found))
    if _levels(left) == _levels(right):
        return (*worked, *left.sums)
    named = tuple(written.on_wall(total, eave.side) for eave in (left, right) for total in eave.sums)
    if job.roof.shape == "mono-slope":
        return (*worked, *named)
    return (*worked, *named, written.peak(job, found, ridge))
