"""The whole layout: a job and its readings in, every number that is printed out."""

from __future__ import annotations

import itertools
from collections import Counter
from dataclasses import dataclass

from layouts import columns as column_layout
from layouts import grade as grade_layout
from layouts import plan as plan_layout
from layouts import rods as rod_layout
from layouts import roof as roof_layout
from layouts import rows as row_layout
from layouts import stock, walls
from layouts.columns import Column
from layouts.fields import Job
from layouts.grade import Grade
from layouts.joints import NoJoint
from layouts.lengths import show
from layouts.plan import Plan
from layouts.problems import JobRefused, Problem
from layouts.readings import NONE, Readings
from layouts.rods import Rod
from layouts.roof import Roof
from layouts.rows import Rows
from layouts.walls import PieceLine, Wall


@dataclass(frozen=True)
class Order:
    """What to buy of one board section: *sticks* as (stock length, count), the cutting plan behind it, and *bound*:
    no plan can do with less than this length in all. Inches."""

    section: str
    treated: bool
    sticks: tuple[tuple[float, int], ...]
    plan: stock.Plan


@dataclass(frozen=True)
class Building:
    """All numbers of a job. Lengths in inches, heights as stations above the grade line."""

    job: Job
    readings: Readings
    plan: Plan
    roof: Roof
    rows: Rows
    grade: Grade
    columns: tuple[Column, ...]
    rods: tuple[Rod, ...]
    walls: tuple[Wall, ...]
    pieces: tuple[PieceLine, ...]
    orders: tuple[Order, ...]
    column_order: tuple[tuple[float, int], ...]
    warnings: tuple[str, ...]


def lay_out(job: Job, readings: Readings = NONE, file: str = "job.toml") -> Building:
    """Lay out *job* with its *readings*.

    Raises ``JobRefused`` where the job cannot be built as it is described; what can be built but wants a look is in
    ``Building.warnings``, what costs most first.
    """
    plan = plan_layout.lay(job, file)
    roof = roof_layout.build(job, plan.across)
    rows = row_layout.lay(job, roof, roof.ridge)
    _check_rows(job, rows, roof, file)
    grade = grade_layout.lay(job, plan, readings)
    columns = column_layout.lay(job, plan, roof, grade, readings)
    rods = rod_layout.lay(job, plan, roof, rows)
    try:
        laid = walls.lay(job, plan, roof, rows, columns)
    except NoJoint as error:
        raise JobRefused([_no_joint(job, error, file)]) from None
    pieces = walls.piece_lines(laid)
    orders = _orders(job, pieces)
    lengths = Counter(c.stock for c in columns if c.stock is not None)
    warnings = _warnings(job, plan, roof, rows, grade, columns, rods, laid)
    return Building(
        job=job,
        readings=readings,
        plan=plan,
        roof=roof,
        rows=rows,
        grade=grade,
        columns=columns,
        rods=rods,
        walls=laid,
        pieces=pieces,
        orders=orders,
        column_order=tuple(sorted(lengths.items())),
        warnings=warnings,
    )


def _no_joint(job: Job, error: NoJoint, file: str) -> Problem:
    style = job.style
    return Problem(
        file,
        "lumber.stock",
        show(error.longest, style),
        f"does not reach over a stretch of {show(error.end - error.start, style)} without a column to break on.",
        "Name a longer board, or add a column.",
    )


def _check_rows(job: Job, rows: Rows, roof: Roof, file: str) -> None:
    """Rows that lie in one another cannot be built."""
    problems = []
    for kind in (rows.side, rows.end):
        for a, b in itertools.pairwise(kind):
            if b.low < a.high - 1e-6:
                edges = [show(edge, job.style) for edge in (a.low, a.high, b.low)]
                text = f"{a.name} {edges[0]} to {edges[1]}, {b.name} from {edges[2]}"
                problems.append(
                    Problem(
                        file,
                        _place(a.key, b.key),
                        text,
                        "lie in one another.",
                        "Move one, or change its size.",
                    )
                )
    top = rows.side[-1]
    if top.high > roof.eave + 1e-6:
        right = f"The eave line is at {show(roof.eave, job.style)}."
        problems.append(Problem(file, "girts.top", show(top.high, job.style), "is above the eave line.", right))
    if problems:
        raise JobRefused(list(dict.fromkeys(problems)))


def _place(first: str, second: str) -> str:
    if "wainscot nailer" in (first, second):
        return "wainscot.height"
    return "roof.overhang" if second == "soffit nailer" else "girts.step"


def _orders(job: Job, pieces: tuple[PieceLine, ...]) -> tuple[Order, ...]:
    """Boards to buy, section by section."""
    groups: dict[tuple[str, bool], list[stock.Want]] = {}
    for line in pieces:
        groups.setdefault((line.section, line.treated), []).append(stock.Want(line.mark, line.length, line.count))
    found = []
    for (section, treated), wants in sorted(groups.items()):
        cutting = stock.plan(wants, job.lumber.stock, job.lumber.kerf)
        found.append(Order(section, treated, stock.order(cutting), cutting))
    return tuple(found)


def _warnings(
    job: Job,
    plan: Plan,
    roof: Roof,
    rows: Rows,
    grade: Grade,
    columns: tuple[Column, ...],
    rods: tuple[Rod, ...],
    laid: tuple[Wall, ...],
) -> tuple[str, ...]:
    return (
        *_unread(grade, plan),
        *_seats(job, grade),
        *_lengths(job, columns),
        *_tops(job, roof),
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
        if abs(lower) > job.grade.flag + 1e-9:
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


def _tops(job: Job, roof: Roof) -> list[str]:
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
    return [
        f"{rod.name}: {a.name.lower()} {show(a.station, style)} and {b.name.lower()} {show(b.station, style)} stand "
        "less than an inch apart: do not take one for the other."
        for rod in rods
        for a, b in rod_layout.crowded(rod)
    ]
