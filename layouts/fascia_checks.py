"""What of overhangs cannot be: a fascia, or an end of the roof, that would stand in the girts."""

from __future__ import annotations

from layouts import fascia, roof
from layouts.fields import Job
from layouts.lengths import show, up
from layouts.problems import Problem

IN_GIRTS = "puts the fascia in the girts."


def overhang(job: Job, file: str) -> list[Problem]:
    """A fascia that hangs outside of the girts, if there is one."""
    part, style, found = job.roof, job.style, []
    # what holds whatever the slope is; a square one that leans may need more
    plain = fascia.least(job, 0.0)
    for key, over in (("overhang", part.overhang), ("far_overhang", part.far_overhang)):
        if over and over < plain - 1e-6:
            right = f"At least {show(plain, style, rounded=up)}, or 0 for none."
            found.append(Problem(file, f"roof.{key}", show(over, style), IN_GIRTS, right))
    return found


def end_overhang(job: Job, file: str) -> list[Problem]:
    """A roof that runs out over the girts of the endwalls, if it runs out over these at all."""
    least, over = job.girt_out - job.inset, job.roof.end_overhang
    if not over or over >= least - 1e-6:
        return []
    right = f"At least {show(least, job.style, rounded=up)}, or 0 for none."
    return [Problem(file, "roof.end_overhang", show(over, job.style), "ends the roof in the girts.", right)]


def leaning(job: Job, file: str) -> list[Problem]:
    """The same of a fascia square to the slope: it leans, and so needs more of an overhang."""
    if job.roof.fascia_cut == "plumb":
        return []
    part, style, over = job.roof, job.style, roof.build(job)
    found: dict[str, tuple[float, float]] = {}
    for eave in (over.left, over.right):
        least = fascia.least(job, eave.inward)
        if eave.overhang and eave.overhang < least - 1e-6:
            # both eaves may hang on one field: the one that needs more says what would do
            own = eave.side == "right" and part.far_overhang is not None
            place = "roof.far_overhang" if own else "roof.overhang"
            found[place] = (eave.overhang, max(least, found.get(place, (0.0, 0.0))[1]))
    return [
        Problem(
            file,
            place,
            show(given, style),
            IN_GIRTS,
            f"At least {show(least, style, rounded=up)}, or 0 for none: a square fascia leans in at its foot.",
        )
        for place, (given, least) in found.items()
    ]
