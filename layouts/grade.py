"""The grade line against the seats: which line reading, each column's offset, and high or low in words.

offset = reading − line reading: how far the grade line stands above a column's bottom end. One constant added to all
readings and to the line reading changes no offset.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from layouts.fields import Job
from layouts.lengths import Style, nearest, show, show_inches, to_unit
from layouts.plan import Plan
from layouts.readings import Readings

ROUND_IN = {"whole": 1.0, "half": 0.5}
ROUND_MM = {"whole": 10 / 25.4, "half": 5 / 25.4}


@dataclass(frozen=True)
class Grade:
    """*line* is the line reading (``None`` without readings); *why* says how it came about; *offsets* and *lower* go
    by column name, inches, for the columns that were read: *lower* is how much lower a seat is than the reference."""

    line: float | None
    why: str
    reference: str
    offsets: Mapping[str, float]
    lower: Mapping[str, float]
    unread: tuple[str, ...]


def lay(job: Job, plan: Plan, readings: Readings) -> Grade:
    """The grade line of *job* for these *readings*."""
    read = {s.name: readings.values[s.name] for s in plan.spots if s.name in readings.values}
    unread = tuple(s.name for s in plan.spots if s.name not in read)
    if not read:
        return Grade(job.grade.line, "No readings.", "", {}, {}, unread)
    line, why = _line(job, read)
    reference = job.grade.reference if job.grade.reference in read else next(n for n in readings.values if n in read)
    return Grade(
        line,
        why,
        reference,
        {name: value - line for name, value in read.items()},
        {name: value - read[reference] for name, value in read.items()},
        unread,
    )


def _line(job: Job, read: Mapping[str, float]) -> tuple[float, str]:
    """The line reading given, or the largest one on the step that leaves the highest seat its least offset."""
    style = job.style
    if job.grade.line is not None:
        return job.grade.line, f"Line reading {show_inches(job.grade.line, style)} as given."
    step = (ROUND_MM if style.unit == "mm" else ROUND_IN)[job.grade.round]
    high = min(read, key=lambda name: (read[name], name))
    # a hair of float noise must not cost a whole step
    line = max(math.floor((read[high] - job.grade.least) / step + 1e-9), 0) * step
    why = (
        f"Line reading {show_inches(line, style)} chosen: highest seat {high} reads {show_inches(read[high], style)}, "
        f"at least {show(job.grade.least, style)} wanted below the line, on {show(step, style)} steps of the rod."
    )
    return line, why


def odd(job: Job, grade: Grade, name: str) -> bool:
    """Whether a seat is further from the reference than the job's flag: it is to be shot again."""
    return abs(grade.lower[name]) > job.grade.flag + 1e-9


def as_read(inches: float, style: Style) -> str:
    """A reading as it was taken: finer than this job prints its lengths where it was read finer."""
    for finer in (style, Style(style.unit, 32)):
        if abs(float(nearest(inches, finer)) - to_unit(inches, finer)) < 1e-6:
            return show_inches(inches, finer)
    return f"{to_unit(inches, style):.3f}".rstrip("0") + ("" if style.unit == "in" else " mm")


def words(job: Job, grade: Grade, name: str) -> tuple[str, str]:
    """High or low, longer or shorter, against the reference column, in words that are read out on the site."""
    lower = grade.lower[name]
    by = show(abs(lower), job.style)
    if name == grade.reference:
        return "REFERENCE SEAT", "the others are told against this one"
    if by == show(0.0, job.style):
        return f"SEAT LEVEL WITH {grade.reference}", "column as on that seat"
    if lower > 0:
        return f"SEAT LOW {by} against {grade.reference}", f"COLUMN {by} LONGER"
    return f"SEAT HIGH {by} against {grade.reference}", f"COLUMN {by} SHORTER"
