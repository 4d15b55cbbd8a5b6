"""The rows of boards that run round the building: grade board, wainscot nailer, girts, soffit nailer, gable rows.

Every row is a pair of stations, its bottom and top edge. Marks are one edge throughout. A row keeps its station on all
walls, so that it runs straight round the corners; a gable goes on upward with the same step.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from layouts.fields import Job
from layouts.lengths import show
from layouts.lumber import Section
from layouts.problems import JobRefused, Problem
from layouts.roof import Roof

Key = Literal["grade board", "wainscot nailer", "girt", "soffit nailer", "top girt", "gable girt"]


LEAST_STEP = 8.0  # inches; closer rows are hardly meant (common practice, no source)


@dataclass(frozen=True)
class Row:
    """One row of boards of one *section*: *low* and *high* are the stations of its edges, inches."""

    key: Key
    name: str
    section: Section
    low: float
    high: float
    treated: bool = False


@dataclass(frozen=True)
class Rows:
    """Rows of a sidewall and of an endwall, bottom to top; *step* is the girt step; *notes* say what to look at."""

    side: tuple[Row, ...]
    end: tuple[Row, ...]
    step: float
    notes: tuple[str, ...]


def lay(job: Job, roof: Roof, middle: float, file: str = "job.toml") -> Rows:
    """All rows of *job*; *middle* is the place of the ridge over the endwall columns, where a gable is highest.

    Raises ``JobRefused`` where the highest sidewall row would not stand above the lowest ones.
    """
    below = (*_grade(job), *_wainscot(job))
    top = _top(job, roof)
    start = _start_edge(below[-1], job)
    if top.low <= below[-1].high:
        raise JobRefused([_too_low(job, top, below[-1], file)])
    bottoms, step, notes = _spread(job, start, top.low)
    girts = tuple(_row("girt", f"Girt {i}", job.girts.board, low) for i, low in enumerate(bottoms, 1))
    side = (*below, *girts, top)
    corner = _row("girt", f"Girt {len(girts) + 1}", job.girts.board, _like(top, job))
    gable = _gable(job, roof, corner.low, step, middle, len(girts) + 2)
    return Rows(side, (*below, *girts, corner, *gable), step, notes)


def _too_low(job: Job, top: Row, below: Row, file: str) -> Problem:
    place = "truss.bearing" if job.girts.top is None else "girts.top"
    if below.key == "wainscot nailer":
        place = "wainscot.height"
    elif top.key == "soffit nailer":
        place = "roof.overhang"
    edges = show(top.low, job.style), show(below.high, job.style)
    text = f"{top.name} from {edges[0]}, {below.name} up to {edges[1]}"
    return Problem(file, place, text, "leaves no wall between them.", "Raise the one or lower the other.")


def _row(key: Key, name: str, section: Section, low: float, treated: bool = False) -> Row:
    return Row(key, name, section, low, low + section.wide, treated)


def _grade(job: Job) -> tuple[Row, ...]:
    board = job.grade.board
    count = job.grade.boards
    return tuple(
        _row(
            "grade board",
            "Grade board" if count == 1 else f"Grade board {i + 1}",
            board,
            i * board.wide,
            True,
        )
        for i in range(count)
    )


def _wainscot(job: Job) -> tuple[Row, ...]:
    nailer = job.wainscot.nailer
    if nailer is None:
        return ()
    return (_row("wainscot nailer", "Wainscot nailer", nailer, job.wainscot.height + job.floor_shift),)


def _top(job: Job, roof: Roof) -> Row:
    """The highest sidewall row: where the job says, else under the soffit, else flush with the bearing."""
    if roof.soffit is not None and job.girts.top is None:
        section = job.roof.soffit_nailer
        return _row("soffit nailer", "Soffit nailer", section, roof.soffit - section.wide)
    section = job.girts.board
    edge = job.bearing if job.girts.top is None else job.girts.top
    return _row("top girt", "Top girt", section, edge - section.wide)


def _like(top: Row, job: Job) -> float:
    """Bottom of an endwall girt whose marked edge meets that of the sidewall's highest row."""
    return top.low if job.girts.edge == "bottom" else top.high - job.girts.board.wide


def _start_edge(last: Row, job: Job) -> float:
    """Bottom of the girt that the first step is counted from: in line with the wainscot nailer by the marked edge, or
    flush with the top of the grade board."""
    if last.key == "wainscot nailer" and job.girts.edge == "bottom":
        return last.low
    return last.high - job.girts.board.wide


def _spread(job: Job, start: float, end: float) -> tuple[list[float], float, tuple[str, ...]]:
    """Bottoms of the girts between *start* and *end* (bottoms too), the step, and what is worth a warning."""
    span, most, style = end - start, job.girts.step, job.style
    if job.girts.spacing == "equal":
        count = max(math.ceil((span - job.girts.tolerance) / most - 1e-9), 1)
        step = span / count
        near = (f"The girt step is only {show(step, style)}: is the span right?",) if step < LEAST_STEP else ()
        return [start + step * i for i in range(1, count)], step, near
    wide = job.girts.board.wide
    count = max(math.floor((span - wide) / most + 1e-9), 0)
    rest = span - count * most
    notes: list[str] = []
    if rest > most + job.girts.tolerance:
        notes.append(
            f"The last girt space, {show(rest, style)}, is more than the step: choose equal steps or another step."
        )
    elif rest < LEAST_STEP:
        notes.append(f"The last girt space is only {show(rest, style)}: choose equal steps or another step.")
    return [start + most * i for i in range(1, count + 1)], most, tuple(notes)


def _gable(job: Job, roof: Roof, low: float, step: float, middle: float, number: int) -> tuple[Row, ...]:
    """Rows above the eave with the same step, as long as a board's top edge still has length under the chord."""
    rows: list[Row] = []
    peak = roof.chord.over(middle)
    section = job.girts.board
    while (low := low + step) + section.wide < peak - 1e-6:
        rows.append(_row("gable girt", f"Girt {number + len(rows)}", section, low))
    return tuple(rows)
