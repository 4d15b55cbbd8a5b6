"""What can be built but wants a look first, in words."""

from __future__ import annotations

from layouts.columns import Column
from layouts.fields import Job
from layouts.grade import Grade, odd
from layouts.lengths import show
from layouts.plan import Plan
from layouts.rods import Rod, crowded
from layouts.rows import Rows
from layouts.walls import Wall


def all_of(
    job: Job,
    plan: Plan,
    rows: Rows,
    grade: Grade,
    columns: tuple[Column, ...],
    rods: tuple[Rod, ...],
    laid: tuple[Wall, ...],
) -> tuple[str, ...]:
    """Every warning of a building, in the order a crew lead has to act on them."""
    return (
        *_unread(grade, plan),
        *_chosen(job, grade),
        *_impossible(grade, columns),
        *_least(job, grade),
        *_reference(job, grade),
        *_seats(job, grade),
        *_lengths(job, columns),
        *_tops(job),
        *rows.notes,
        *(
            f"Wall {w.name}: rows above each other break on {', '.join(w.shared)}: no stock length staggers them."
            for w in laid
            if w.shared
        ),
        *_crowded(job, rods),
    )


def _unread(grade: Grade, plan: Plan) -> list[str]:
    if len(grade.unread) == len(plan.spots):
        return ["No readings: no column has a tag, no offset is known."]
    if grade.unread:
        return [f"No reading, no tag: {', '.join(grade.unread)}."]
    return []


def _impossible(grade: Grade, columns: tuple[Column, ...]) -> list[str]:
    known = {c.name for c in columns}
    return [
        f"{name}: its cuts would fall below its bottom end. Its reading or the line reading is wrong. No tag."
        for name in grade.offsets
        if name not in known
    ]


def _reference(job: Job, grade: Grade) -> list[str]:
    wanted = job.grade.reference
    if wanted and grade.offsets and wanted != grade.reference:
        return [f"The reference {wanted} was not read: HIGH and LOW are told against {grade.reference}."]
    return []


def _chosen(job: Job, grade: Grade) -> list[str]:
    """A line chosen from a seat that nobody should trust moves every number of the packet."""
    if job.grade.line is not None or not grade.offsets:
        return []
    high = min(grade.offsets, key=lambda n: (grade.offsets[n], n))
    if not odd(job, grade, high):
        return []
    return [f"THE LINE READING WAS CHOSEN FROM {high}, which is to be shot again: every offset hangs on it."]


def _least(job: Job, grade: Grade) -> list[str]:
    """A line that was chosen but could not leave the highest seat its least offset."""
    if job.grade.line is not None or not grade.offsets:
        return []
    name = min(grade.offsets, key=lambda n: (grade.offsets[n], n))
    if grade.offsets[name] >= job.grade.least - 1e-9:
        return []
    offset, least = show(grade.offsets[name], job.style), show(job.grade.least, job.style)
    return [f"{name}: only {offset} between its seat and the grade line, {least} wanted: the beam is too low."]


def _seats(job: Job, grade: Grade) -> list[str]:
    style = job.style
    found = []
    for name, offset in grade.offsets.items():
        if offset < 0:
            found.append(
                f"{name}: the grade line is {show(-offset, style)} BELOW its seat: the grade board does not pass. "
                "Choose a lower line reading, or reset the bracket."
            )
    for name, lower in grade.lower.items():
        if odd(job, grade, name):
            word = "LOW" if lower > 0 else "HIGH"
            found.append(
                f"{name}: seat {word} {show(abs(lower), style)} against {grade.reference}, more than "
                f"{show(job.grade.flag, style)}: shoot it again before cutting."
            )
    return found


def _lengths(job: Job, columns: tuple[Column, ...]) -> list[str]:
    longest = show(max(job.column.stock), job.style)
    return [
        f"{c.name}: {show(c.length, job.style)} and {show(job.column.trim, job.style)} for trimming is longer than the "
        f"longest column stock, {longest}."
        for c in columns
        if c.stock is None
    ]


def _tops(job: Job) -> list[str]:
    """The truss against the ply it replaces."""
    style = job.style
    ply = job.column.width / job.column.plies * (job.column.plies - 2)
    if ply < job.truss.thickness - 1e-9:
        return [
            f"The slot left by the centre ply is {show(ply, style)}, the truss {show(job.truss.thickness, style)}: "
            "it does not go in. Saw the slot wider, or ask for another seat."
        ]
    return []


def _crowded(job: Job, rods: tuple[Rod, ...]) -> list[str]:
    style = job.style
    near = "25 mm" if style.unit == "mm" else "an inch"
    found = []
    for rod in rods:
        for a, b in crowded(rod):
            heights = show(a.station, style), show(b.station, style)
            how = "stand at one height" if heights[0] == heights[1] else f"stand less than {near} apart"
            found.append(
                f"{rod.name}: {a.name.lower()} {heights[0]} and {b.name.lower()} {heights[1]} {how}: "
                "do not take one for the other."
            )
    return found
