"""What of a job's sheets cannot be."""

from __future__ import annotations

from layouts.cladding import base, split
from layouts.fields import Job
from layouts.lengths import show
from layouts.problems import Problem
from layouts.roof import build
from layouts.sheeting import SAME


def problems(job: Job, file: str) -> list[Problem]:
    """What is wrong with the sheets of *job*."""
    part, style = job.cladding, job.style
    if part.cover is None:
        return []
    found = []

    def say(key: str, inches: float, wrong: str, right: str) -> None:
        found.append(Problem(file, f"cladding.{key}", show(inches, style), wrong, right))

    for key, cut, cover in (
        ("first_cut", part.first_cut, part.cover),
        ("roof_first_cut", part.roof_first_cut, part.roof_cover or part.cover),
    ):
        if cut >= cover - SAME:
            say(key, cut, "leaves nothing of the first sheet.", f"Less than its cover, {show(cover, style)}.")
    if part.longest < 3 * part.lap:
        say("lap", part.lap, "is most of the longest sheet.", f"A third of {show(part.longest, style)} at most.")
    roof = build(job)
    sides = (roof.left,) if job.roof.shape == "lean-to" else (roof.left, roof.right)
    top = min(e.eave if e.soffit is None else e.soffit for e in sides) - part.top
    low, at = base(job), split(job)
    if low >= top - SAME:
        say("uncovered", part.uncovered, "leaves no wall to clad.", f"Sheets end at {show(top, style)}.")
    elif at is not None and not low + SAME < at < top - part.split_gap - SAME:
        right = (
            f"Between {show(low - job.floor_shift, style)} and {show(top - part.split_gap - job.floor_shift, style)}."
        )
        say("split", part.split or 0.0, "is not a height between the sheets' edges.", right)
    return found
