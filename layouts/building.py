"""The whole layout: a job and its readings in, every number that is printed out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from layouts import checks, piers, stock, walls
from layouts import columns as column_layout
from layouts import grade as grade_layout
from layouts import plan as plan_layout
from layouts import rods as rod_layout
from layouts import roof as roof_layout
from layouts import rows as row_layout
from layouts import warnings as warning_texts
from layouts.columns import Column
from layouts.fields import Job
from layouts.grade import Grade
from layouts.joints import NoJoint
from layouts.piers import Pier
from layouts.plan import Plan
from layouts.problems import JobRefused
from layouts.readings import NONE, Readings
from layouts.rods import Mark, Rod
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
    piers: tuple[Pier, ...]
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
    rows = row_layout.lay(job, roof, roof.ridge, file)
    tops = column_layout.tops(job, roof, plan)
    grade = grade_layout.lay(job, plan, readings, tops, file)
    judged = tuple(
        pier
        for s in plan.spots
        if s.name in grade.offsets
        for pier in piers.judge(job, s.name, s.role != "end", grade.offsets[s.name], tops[s.name])
    )
    columns = column_layout.lay(job, plan, roof, grade, readings)
    rods = rod_layout.lay(job, plan, roof, rows)
    try:
        laid = walls.lay(job, plan, roof, rows, columns)
    except NoJoint as error:
        raise JobRefused([checks.no_joint(job, error, file)]) from None
    pieces = walls.piece_lines(laid)
    orders = _orders(job, pieces)
    lengths = Counter(c.stock for c in columns if c.stock is not None)
    warnings = warning_texts.all_of(job, plan, roof, rows, readings, grade, judged, columns, rods, laid)
    return Building(
        job=job,
        readings=readings,
        plan=plan,
        roof=roof,
        rows=rows,
        grade=grade,
        piers=judged,
        columns=columns,
        rods=rods,
        walls=laid,
        pieces=pieces,
        orders=orders,
        column_order=tuple(sorted(lengths.items())),
        warnings=warnings,
    )


@dataclass(frozen=True)
class ColumnMark:
    """A mark as it is measured on one column: *up* inches from its bottom end."""

    mark: Mark
    up: float


def marks_of(building: Building, column: Column) -> tuple[ColumnMark, ...]:
    """Every mark of *column* from its bottom end, lowest first: its rod's boards and lines, and its own cuts.

    Marks that would fall below the bottom end (a grade line under the seat) or above the top are left out.
    """
    gable = column.role == "end"
    rod = next(r for r in building.rods if r.gable == gable and set(r.walls) & set(column.walls))
    shared = [m for m in rod.marks if m.kind != "cut"]
    own = [rod_layout.cut_mark(cut) for cut in column.cuts]
    found = (ColumnMark(mark, column.up(mark.station)) for mark in (*shared, *own))
    return tuple(sorted((m for m in found if 0 <= m.up <= column.length + 1e-6), key=lambda m: (m.up, m.mark.name)))


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
