"""A line reading that was given, held against the seats: a slip there moves every column by the same, and no tag looks
odd beside the others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from layouts.book_number import PER_UNIT
from layouts.fields import Job
from layouts.lengths import show
from layouts.problems import JobRefused, Problem
from layouts.readings import Readings, taken

if TYPE_CHECKING:
    from layouts.grade import Grade

FAR = 12.0  # inches from the line that would be proposed (common practice, no source)
MARKS = {"inches": "in", "feet": "ft", "mm": "mm"}


def check(job: Job, readings: Readings, proposed: float, file: str) -> None:
    """Raises ``JobRefused`` where the line of *job* is far from the one *proposed* (inches down), and its bare number
    would be near it in the unit that the rod was read in."""
    line = job.grade.line
    if line is None or readings.survey is None or abs(readings.down(line) - proposed) <= FAR:
        return
    unit, number = readings.survey.book.head.unit, _number(job, line)
    if PER_UNIT[unit] == PER_UNIT[_own(job)] or abs(readings.down(number * PER_UNIT[unit]) - proposed) > FAR:
        return
    right = f'Write "{number:g} {MARKS[unit]}" if that is meant; {show(abs(proposed), job.style)} is near.'
    wrong = "is far from every seat that was read."
    raise JobRefused([Problem(file, "grade.line", show(line, job.style), wrong, right)])


def far(job: Job, readings: Readings, grade: Grade) -> list[str]:
    """That the line given is far from the one proposed, in words; and the unit in which its number would be near."""
    line = job.grade.line
    if line is None or grade.line is None or grade.proposed is None:
        return []
    best = grade.proposed.down
    if abs(grade.line - best) <= FAR:
        return []
    where = "below" if grade.line > best else "above"
    told = [taken(readings, down, job.style) for down in (grade.line, best)]
    apart = show(abs(grade.line - best), job.style)
    said = f"Line reading {told[0]} as given is {apart} {where} the one proposed, {told[1]}: every column is cut to it."
    number = _number(job, line)
    near = [u for u, per in PER_UNIT.items() if abs(readings.down(number * per) - best) <= FAR / 2]
    return [f"IS THIS RIGHT? {said}" + "".join(f" {number:g} {MARKS[unit]} would be near." for unit in near[:1])]


def _own(job: Job) -> str:
    """The unit of a bare number in the job file."""
    return "mm" if job.style.unit == "mm" else "inches"


def _number(job: Job, line: float) -> float:
    return round(line / PER_UNIT[_own(job)], 6)
