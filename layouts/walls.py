"""Walls as they lie, seen from outside: rows of boards cut into pieces, and the columns they are nailed to.

What a wall is made of stands in ``layouts.boards``, how its rows are cut in ``layouts.courses``, its numbers in
``layouts.pieces``, boards that are in no row in ``layouts.members``.
"""

from __future__ import annotations

from msgspec import Struct

from layouts import carriers, joints, members, seats
from layouts.boards import Course as Course
from layouts.boards import Piece as Piece
from layouts.boards import Rake as Rake
from layouts.boards import Stand as Stand
from layouts.boards import Wall as Wall
from layouts.columns import Column, Top, cuts
from layouts.courses import cut_rows, level_course, span_of
from layouts.fields import Job
from layouts.openings import Opening, Upright
from layouts.pieces import PieceLine as PieceLine
from layouts.pieces import numbered
from layouts.pieces import piece_lines as piece_lines
from layouts.pieces import pieces_of as pieces_of
from layouts.plan import Plan, WallLine
from layouts.roof import Roof, Surface
from layouts.rows import Row, Rows, under_rake


def lay(
    job: Job,
    plan: Plan,
    roof: Roof,
    rows: Rows,
    columns: tuple[Column, ...],
    openings: tuple[Opening, ...] = (),
) -> tuple[Wall, ...]:
    """All walls, their pieces numbered through the building.

    Raises ``joints.NoJoint`` where a bay is longer than the longest board.
    """
    known = {c.name: c for c in columns}
    of = {line.name: tuple(o for o in openings if o.wall == line.name) for line in plan.walls}
    return numbered(tuple(_wall(job, plan, roof, rows, line, known, of[line.name]) for line in plan.walls))


def _wall(
    job: Job,
    plan: Plan,
    roof: Roof,
    rows: Rows,
    line: WallLine,
    known: dict[str, Column],
    openings: tuple[Opening, ...],
) -> Wall:
    own, bearing = rows.of(line), roof.at(line.side).bearing
    pasts = {row: _past(job, row, "end" if line.gable else "side") for row in own}
    past = _girts_past(pasts)
    stands = tuple(_stand(job, plan, roof, line, name, known.get(name)) for name in line.columns)
    lone = () if line.gable else tuple(row for row in carriers.rows(job, bearing) if row not in own)
    try:
        made = _boards(job, roof, rows, line, stands, openings, pasts, past, lone)
    except joints.NoJoint as error:
        error.wall = line.side
        raise
    return Wall(
        line,
        stands,
        courses=tuple(c for c in made.courses if c.row not in lone),
        past=past,
        grade_past=pasts[own[0]],
        # corners go up with the sidewalls; the last column at a lean-to's standing wall with its endwall
        theirs=tuple(name for name in line.columns if line.gable and plan.spot(name).role == "corner"),
        shared=tuple(s.name for s in stands if s.name in made.shared),
        openings=openings,
        levels=made.levels,
        uprights=_uprights(job, line, bearing, stands, openings, made, _beside(job, plan, rows, line), past),
        inner=made.inner,
        rakes=made.rakes,
        carriers=(*(c for c in made.courses if c.row in lone), *made.held),
    )


class _Boards(Struct, frozen=True):
    """What of a wall is cut before anything stands: the rows outside or between, *held* carriers apart from them, rows
    inside, *levels* of openings, rakes; and the columns that neighbouring rows *shared* a break on."""

    courses: tuple[Course, ...]
    held: tuple[Course, ...]
    inner: tuple[Course, ...]
    levels: tuple[Course, ...]
    rakes: tuple[Rake, ...]
    shared: tuple[str, ...]


def _boards(
    job: Job,
    roof: Roof,
    rows: Rows,
    line: WallLine,
    stands: tuple[Stand, ...],
    openings: tuple[Opening, ...],
    pasts: dict[Row, float],
    past: float,
    lone: tuple[Row, ...],
) -> _Boards:
    """*pasts* is how far each row outside runs past the corners, *past* the girts; *lone* are carriers in no row."""
    limit, among, within = _limit(job, line, roof), seats.in_girts(job), members.inner_ends(job, line)
    ends = [span_of(row, pasts[row], line.length, limit) for row in rows.of(line)]
    beside = [span_of(row, past, line.length, None) for row in lone if among and row.layer == "outside"]
    carried = [span_of(row, 0.0, line.length, None) for row in lone if not (among and row.layer == "outside")]
    inside = [span_of(row, within, line.length, limit) for row in rows.inner(line)]
    # a second board beside a carrier among the girts breaks on other columns than that one
    courses, shared = cut_rows(job, stands, [e for e in (*ends, *beside) if e], openings)
    held, alike = cut_rows(job, stands, [e for e in carried if e], ())
    inner, twice = cut_rows(job, stands, [e for e in inside if e], openings)
    reach = within if job.girts.place == "inside" else past
    levels = tuple(
        level_course(job, stands, level, reach) for o in openings for level in (o.header, o.sill, o.track) if level
    )
    rakes = members.rakes(job, line, roof, stands) if line.gable else ()
    return _Boards(courses, held, inner, levels, rakes, (*shared, *twice, *alike))


def _uprights(
    job: Job,
    line: WallLine,
    bearing: float,
    stands: tuple[Stand, ...],
    openings: tuple[Opening, ...],
    made: _Boards,
    beside: tuple[tuple[Row, ...], tuple[Row, ...]],
    past: float,
) -> tuple[Upright, ...]:
    """What stands in a wall, and its blocking. *beside* are the rows of the walls at its ends that run past there."""
    corners = (
        ()
        if line.gable
        else members.corner_boards(job, carriers.ceiling(job, bearing, "inside"), stands[0], stands[-1])
    )
    nailed = made.inner if job.girts.place == "inside" else made.courses
    return (
        *(u for o in openings for u in o.uprights),
        *corners,
        *members.fillers(job, stands, (*made.courses, *made.levels), beside, past),
        *members.blocking(job, stands, (*nailed, *made.levels), openings),
    )


def _beside(job: Job, plan: Plan, rows: Rows, line: WallLine) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """The rows of the walls at the left and at the right end of a wall that run past the corner, and take its place;
    none at a lean-to's standing wall."""
    at = {name: other for other in plan.walls if other is not line for name in other.columns}
    left, right = (at.get(line.columns[i]) for i in (0, -1))
    return _passing(job, rows, left), _passing(job, rows, right)


def _passing(job: Job, rows: Rows, line: WallLine | None) -> tuple[Row, ...]:
    if line is None:
        return ()
    return tuple(row for row in rows.of(line) if _past(job, row, "end" if line.gable else "side") > 0.0)


def _girts_past(pasts: dict[Row, float]) -> float:
    """How far girts run past the corners; where none is outside, a nailer."""
    outside = {row: past for row, past in pasts.items() if row.layer == "outside" and row.key != "grade board"}
    girts = [past for row, past in outside.items() if row.key != "wainscot nailer"]
    return max(girts or outside.values(), default=0.0)


def _past(job: Job, row: Row, kind: str) -> float:
    """How far a row outside of the columns runs past the corner in walls of a *kind*: the thickness of what meets it
    there. That is the other wall's grade board or wainscot nailer, as thick as this one; its girts; where no girt is
    outside, a nailer like this one."""
    if row.key == "grade board":
        return job.grade.board.thick if job.girts.grade_board_runs_past == kind else 0.0
    if row.layer != "outside" or job.girts.runs_past != kind:
        return 0.0
    return row.section.thick if row.key == "wainscot nailer" else job.girt_out or row.section.thick


def _stand(job: Job, plan: Plan, roof: Roof, line: WallLine, name: str, column: Column | None) -> Stand:
    spot = plan.spot(name)
    left, right = line.along(spot)
    top = column.top if column else cuts(job, roof, plan, spot)[1]
    return Stand(name, left, right, _outline(spot.role, line, left, right, top), column)


def _outline(role: str, line: WallLine, left: float, right: float, top: Top) -> tuple[tuple[float, float], ...]:
    """The column's top as seen from outside of this wall."""
    if role == "end":
        return tuple((left + x, h) for x, h in top.ears)
    if not line.gable:
        # square on to the slope: the inside face shows behind the outside face
        peak = max(h for _, h in top.ears)
        return ((left, peak), (right, peak))
    # a corner column seen in the gable: its outer face is at the wall's end
    points = tuple((left + x, h) for x, h in top.ears)
    if left < line.length / 2:
        return points
    return tuple((left + right - x, h) for x, h in reversed(points))


def _limit(job: Job, line: WallLine, roof: Roof) -> Surface | None:
    """What the boards of a gable end under: the chord, or the nailer along it, as seen along the wall. Sidewalls have
    none."""
    if not line.gable:
        return None
    return members.seen(under_rake(job, roof), line)
