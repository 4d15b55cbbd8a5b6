"""Where the fascia hangs: how far out the tails reach, and the overhang that it needs at least.

A fascia that is square to the slope leans in at its foot: what is *d* deep square to slope m reaches d·m/sqrt(1 + m²)
further in, and what is thick along the slope takes thick/sqrt(1 + m²) of level way (identities).
"""

from __future__ import annotations

from layouts.fields import Job
from layouts.heights import over_chord, plumb
from layouts.roof import Eave


def member(job: Job) -> float:
    """What of a purlin stands over the chord, square to it, inches."""
    return over_chord(job) - job.roof.sheathing


def tail(job: Job, eave: Eave) -> float:
    """How far the upper corner of the tail stands outside of the columns, inches: the fascia's outside is at the
    overhang. A square fascia leans: at the chord it stands further in than at the roof plane."""
    if not eave.overhang:
        return job.heel_out
    if job.roof.fascia_cut == "plumb":
        return job.heel_out + eave.overhang - job.roof.fascia_thick
    # at the high end of one slope it leans the other way: there the chord reaches further out than the roof plane
    return job.heel_out + eave.overhang - _leaning(job, eave.inward, member(job))


def least(job: Job, slope: float) -> float:
    """The least overhang, inches, whose fascia hangs outside of the girts and of the faces of the trusses' heels: a
    square one to its foot, and its tail. *slope* is inward from the wall."""
    out = max(job.girt_out - job.heel_out, 0.0)
    if job.roof.fascia_cut == "plumb":
        return out + job.roof.fascia_thick
    return out + max(_leaning(job, slope, max(member(job), job.roof.fascia)), job.roof.fascia_thick)


def _leaning(job: Job, slope: float, deep: float) -> float:
    """From the upper outer corner of a square fascia in to its back, *deep* under its top, level inches."""
    return (deep * slope + job.roof.fascia_thick) / plumb(1.0, slope)


def clear(job: Job, eave: Eave, deep: float) -> float:
    """From the tail's upper corner up the slope, inches along it, to the lower edge of what reaches *deep* over the
    chord and clears what stands there: the back of a plumb fascia; without one the outside of the girts, where the wall
    sheets go up to the eave line. What stands square to slope m leans deep·m/sqrt(1 + m²) out; a square fascia too."""
    if eave.overhang and job.roof.fascia_cut == "square":
        return 0.0
    room = 0.0 if eave.overhang else job.girt_out - job.heel_out
    return max(deep * eave.inward - plumb(room, eave.inward), 0.0)


def in_the_way(job: Job, eave: Eave) -> str:
    """What the first purlin has to clear, in words."""
    if eave.overhang:
        return "the back of the fascia"
    return "the outside of the girts" if job.girt_out else "the outside of the columns"


def past_ends(job: Job) -> float:
    """How far the roof, its sheets and its fascia, runs past the ends of the columns, level inches: as far as it hangs
    out over the endwalls, and over the girts at least."""
    return max(job.inset + job.roof.end_overhang, job.girt_out)
