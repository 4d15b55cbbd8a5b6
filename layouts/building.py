"""The whole layout: a job and its readings in, every number that is printed out."""

from __future__ import annotations

from collections import Counter

from msgspec import Struct

from layouts import (
    checks,
    cladding,
    lift,
    lumber_warnings,
    nail_count,
    nail_warnings,
    nails,
    openings,
    piers,
    purlins,
    search,
    stock,
    walls,
)
from layouts import columns as column_layout
from layouts import grade as grade_layout
from layouts import plan as plan_layout
from layouts import rods as rod_layout
from layouts import roof as roof_layout
from layouts import rows as row_layout
from layouts import warnings as warning_texts
from layouts.bundles import Block, Bundle, blocks, bundles, unordered
from layouts.columns import Column
from layouts.costs import Cost, Warned, dearest_first, each
from layouts.fields import Job
from layouts.grade import Grade
from layouts.joints import NoJoint
from layouts.lengths import show
from layouts.lift import Lift
from layouts.nail_count import Bought
from layouts.piers import Pier
from layouts.plan import Plan
from layouts.problems import JobRefused, Problem
from layouts.readings import NONE, Readings
from layouts.rods import Mark, Rod
from layouts.roof import Roof
from layouts.rows import Rows
from layouts.search import Solve
from layouts.sheeting import Face
from layouts.walls import PieceLine, Wall


class Order(Struct, frozen=True):
    """What to buy of one board section: *sticks* as (stock length, count), the cutting plan behind it, and *spare*
    ones to buy besides. Inches."""

    section: str
    treated: bool
    sticks: tuple[tuple[float, int], ...]
    plan: stock.Plan
    spare: tuple[tuple[float, int], ...] = ()


class Building(Struct, frozen=True):
    """All numbers of a job. Lengths in inches, heights as stations above the grade line. What is to be printed of it
    may hold some of its *rods* only: *all_rods* are those that its columns carry the marks of. *bundles* are columns as
    they are ordered, *unordered* the names of those that are not, *blocks* the seat blocks."""

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
    bundles: tuple[Bundle, ...]
    unordered: tuple[str, ...]
    blocks: tuple[Block, ...]
    all_rods: tuple[Rod, ...]
    lifts: tuple[Lift, ...]
    nails: tuple[Bought, ...]
    cladding: tuple[Face, ...]
    warned: tuple[Warned, ...]

    @property
    def column_order(self) -> tuple[tuple[float, int], ...]:
        """How many columns of each stock length are wanted, shortest first, spares left out."""
        found: Counter[float] = Counter()
        for one in self.bundles:
            if not one.spare:
                found[one.stock] += one.count
        return tuple(sorted(found.items()))

    @property
    def warnings(self) -> tuple[str, ...]:
        """Every warning in words, what costs most first: in this order they are told everywhere."""
        return tuple(one.text for one in self.warned)


def lay_out(job: Job, readings: Readings = NONE, file: str = "job.toml", solve: Solve = search.solve) -> Building:
    """Lay out *job* with its *readings*; *solve* searches for its cutting plans.

    Raises ``JobRefused`` where the job cannot be built as it is described; what can be built but wants a look is in
    ``Building.warnings``, what costs most first.
    """
    # long because each step needs those before it, and half of it is the list of what they found
    plan = plan_layout.lay(job, file)
    roof = roof_layout.build(job)
    rows = row_layout.lay(job, roof, file)
    tops = column_layout.tops(job, roof, plan)
    grade = grade_layout.lay(job, plan, readings, tops, file)
    judged = tuple(
        pier
        for s in plan.spots
        if s.name in grade.offsets
        for pier in piers.judge(job, s.name, s.role != "end", grade.offsets[s.name], tops[s.name])
    )
    columns = column_layout.lay(job, plan, roof, grade, readings)
    opened = openings.lay(job, plan, roof, rows, file)[0]
    rods = (*rod_layout.lay(job, plan, roof, rows, opened), *purlins.rods(job, plan, roof))
    try:
        laid = walls.lay(job, plan, roof, rows, columns, opened)
    except NoJoint as error:
        raise JobRefused([checks.no_joint(job, error, file)]) from None
    pieces = walls.piece_lines(laid)
    schedule = {joint.key: getattr(job.nails, joint.key) for joint in nails.JOINTS}
    nailed = nail_count.tallies(job, laid, job.lift.treated_up)
    warned = warning_texts.all_of(job, plan, roof, rows, readings, grade, judged, columns, rods, laid)
    warned += each(Cost.CUT, nail_warnings.warnings(schedule, nailed, job.style))
    warned += lumber_warnings.all_of(job, pieces)
    clad = cladding.lay(job, plan, roof, rows, opened)
    warned += each(Cost.CUT, (f"Sheets, {face.name}: {note}" for face in clad for note in face.notes))
    lifts = tuple(lift.lay(job, plan, roof, wall, job.wood, job.lift) for wall in laid)
    orders = _orders(job, pieces, file, solve)  # last: whoever solves may have to make ready first
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
        bundles=bundles(job, columns),
        unordered=unordered(plan, columns),
        blocks=blocks(job, columns),
        all_rods=rods,
        lifts=lifts,
        nails=nail_count.order(schedule, nailed, job.nails.spare),
        cladding=clad,
        warned=dearest_first(warned),
    )


class ColumnMark(Struct, frozen=True):
    """A mark as it is measured on one column: *up* inches from its bottom end."""

    mark: Mark
    up: float


def marks_of(building: Building, column: Column) -> tuple[ColumnMark, ...]:
    """Every mark of *column* from its bottom end, lowest first: its rod's boards and lines, and its own cuts.

    Marks that would fall below the bottom end (a grade line under the seat) or above the top are left out.
    """
    gable = column.role == "end"
    rod = next(r for r in building.all_rods if r.gable == gable and set(r.walls) & set(column.walls))
    shared = [m for m in rod.marks if m.kind != "cut" and (not m.some or column.name in m.only)]
    own = [rod_layout.cut_mark(cut) for cut in column.cuts]
    found = (ColumnMark(mark, column.up(mark.station)) for mark in (*shared, *own))
    return tuple(sorted((m for m in found if 0 <= m.up <= column.length + 1e-6), key=lambda m: (m.up, m.mark.name)))


def _orders(job: Job, pieces: tuple[PieceLine, ...], file: str, solve: Solve) -> tuple[Order, ...]:
    """Boards to buy, section by section. Raises ``JobRefused`` where a board is longer than any that the yard has."""
    groups: dict[tuple[str, bool], list[stock.Want]] = {}
    for line in pieces:
        groups.setdefault((line.section, line.treated), []).append(stock.Want(line.mark, line.length, line.count))
    found = []
    for (section, treated), wants in sorted(groups.items()):
        part = job.lumber
        prices = {p.length: p.cost for p in part.prices if (p.section, p.treated) == (section, treated)}
        try:
            cutting = stock.plan(
                wants, part.stock, part.kerf, trim=part.trim, prices=prices or None, goal=part.cutting, solve=solve
            )
        except stock.TooLong as error:
            where = next(line.where[0] for line in pieces if line.mark == error.mark)
            raise JobRefused([_too_long(job, error, where, file)]) from None
        sticks = stock.order(cutting)
        found.append(Order(section, treated, sticks, cutting, stock.spares(sticks, part.spares)))
    return tuple(found)


def _too_long(job: Job, error: stock.TooLong, where: str, file: str) -> Problem:
    """A board of one piece that no stock gives, by its wall and what it is: a jamb post, a corner board. Its number
    stands on no sheet yet."""
    wall, _, what = where.partition(": ")
    length, longest = show(error.length, job.style), show(error.longest, job.style)
    which = f"{what[:1].lower()}{what[1:]}, wall {wall}"
    wrong = f"give {longest} at most, and {length} are needed in one piece: {which}."
    priced = " (with its price)" if job.lumber.prices else ""
    right = f"Add a longer board{priced}, or make what needs it shorter."
    return Problem(file, "lumber.stock", "", wrong, right)
