"""Whether the rows of a job can be built: none in another, none above its eave, none inside above its bearing."""

from __future__ import annotations

from itertools import pairwise

from layouts import carriers, roof, rows
from layouts.fields import Job
from layouts.lengths import show
from layouts.problems import JobRefused, Problem
from layouts.roof import Eave
from layouts.row import Row

SAME = 1e-6


def problems(job: Job, file: str) -> list[Problem]:
    """What is wrong with the rows of *job*."""
    over = roof.build(job)
    try:
        laid = rows.lay(job, over, file)
    except JobRefused as refused:
        return list(refused.problems)
    kinds = dict.fromkeys((*laid.sides, laid.end, *laid.inner_sides, laid.inner_end))
    found = [_overlap(job, a, b, file) for kind in kinds for a, b in pairwise(kind) if b.low < a.high - SAME]
    for i, eave in enumerate((over.left, over.right)):
        found += _too_high(job, laid.sides[i][-1], eave, file)
        found += _no_column(job, (*laid.sides[i], *laid.inner_sides[i]), eave, file)
        if job.girts.place == "inside" and laid.inner_sides[i]:
            found += _in_truss(job, laid.inner_sides[i][-1], eave, file)
    return list(dict.fromkeys(found))


def _too_high(job: Job, top: Row, eave: Eave, file: str) -> list[Problem]:
    """A wall above its own eave."""
    if top.high <= eave.eave + SAME:
        return []
    right = f"The eave line is at {show(eave.eave, job.style)}."
    if eave.inward < 0 and job.roof.soffit == "level":
        right += ' On the high side of one slope the soffit rises: take roof.soffit = "sloped".'
    place, text = _place(job, top, top), f"{top.name} up to {show(top.high, job.style)}"
    return [Problem(file, place, text, "puts it above the eave line.", right)]


def _no_column(job: Job, kind: tuple[Row, ...], eave: Eave, file: str) -> list[Problem]:
    """Rows above a level top, or in carriers."""
    if job.tops.seat != "flat":
        return []
    found = []
    for row in kind:
        top = carriers.ceiling(job, eave.bearing, "inside" if row.layer == "inside" else "outside")
        if row.key != "carrier" and row.high > top + SAME:
            text, right = f"{row.name} up to {show(row.high, job.style)}", f"Up to {show(top, job.style)}."
            wrong = "lies in the carriers, or stands above the level tops of the columns."
            found.append(Problem(file, _place(job, row, row), text, wrong, right))
    return found


def _in_truss(job: Job, top: Row, eave: Eave, file: str) -> list[Problem]:
    """A row on the inside where the trusses stand."""
    if top.high <= eave.bearing + SAME:
        return []
    wrong = "puts a row on the inside above the bearing, where the trusses stand."
    right = f"Up to the bearing, {show(eave.bearing, job.style)}; or leave it out."
    return [Problem(file, "girts.top", show(top.high, job.style), wrong, right)]


def _overlap(job: Job, a: Row, b: Row, file: str) -> Problem:
    low, high, other = (show(edge, job.style) for edge in (a.low, a.high, b.low))
    text = f"{a.name} {low} to {high}, {b.name} from {other}"
    return Problem(file, _place(job, a, b), text, "lie in one another.", "Move one, or change its size.")


def _place(job: Job, first: Row, second: Row) -> str:
    """The field to look at."""
    if first.layer == "inside" and job.girts.place == "both":
        return "girts.inside"
    if "wainscot nailer" in (first.key, second.key):
        return "wainscot.height"
    if "soffit nailer" in (first.key, second.key):
        return "roof.soffit" if job.tops.seat == "flat" else "roof.overhang"
    if "carrier" in (first.key, second.key):
        return "carrier.board"
    if second.key == "top girt":
        return "truss.bearing" if job.girts.top is None else "girts.top"
    return "girts.step"
