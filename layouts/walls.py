"""Walls as they lie, seen from outside: rows of boards cut into pieces, and the columns they are nailed to.

What a wall is made of stands in ``layouts.boards``, its numbers in ``layouts.pieces``, boards that are in no row in
``layouts.members``.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace

from layouts import carriers, joints, members, seats
from layouts.boards import Course as Course
from layouts.boards import Piece as Piece
from layouts.boards import Rake as Rake
from layouts.boards import Stand as Stand
from layouts.boards import Wall as Wall
from layouts.columns import Column, Top, cuts
from layouts.fields import Job
from layouts.openings import Level, Opening
from layouts.pieces import PieceLine as PieceLine
from layouts.pieces import numbered
from layouts.pieces import piece_lines as piece_lines
from layouts.pieces import pieces_of as pieces_of
from layouts.plan import Plan, WallLine
from layouts.roof import Roof, Surface
from layouts.rows import Row, Rows, under_rake

SAME = 1e-6


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
    kind = "end" if line.gable else "side"
    own = rows.of(line)
    pasts = {row: _past(job, row, kind) for row in own}
    past = max((p for row, p in pasts.items() if row.key != "grade board"), default=0.0)
    grade_past = pasts[own[0]]
    stands = tuple(_stand(job, plan, roof, line, name, known.get(name)) for name in line.columns)
    limit = _limit(job, line, roof)
    ends = [_ends(row, pasts[row], line.length, limit) for row in own]
    bearing = roof.at(line.side).bearing
    lone = () if line.gable else tuple(row for row in carriers.rows(job, bearing) if row not in own)
    among = seats.in_girts(job)
    beside = [_ends(row, past, line.length, None) for row in lone if among and row.layer == "outside"]
    carried = [_ends(row, 0.0, line.length, None) for row in lone if not (among and row.layer == "outside")]
    within = members.inner_ends(job, line)
    reach = within if job.girts.place == "inside" else past
    inside = [_ends(row, within, line.length, limit) for row in rows.inner(line)]
    try:
        # a second board beside a carrier among the girts breaks on other columns than that one
        courses, shared = _courses(job, stands, [e for e in (*ends, *beside) if e], openings)
        held, alike = _courses(job, stands, [e for e in carried if e], ())
        inner, twice = _courses(job, stands, [e for e in inside if e], openings)
        levels = tuple(
            _level(job, stands, level, reach) for o in openings for level in (o.header, o.sill, o.track) if level
        )
        rakes = members.rakes(job, line, roof, stands) if line.gable else ()
    except joints.NoJoint as error:
        error.wall = line.side
        raise
    uprights = (
        *(u for o in openings for u in o.uprights),
        *(
            members.corner_boards(job, carriers.ceiling(job, bearing, "inside"), stands[0], stands[-1])
            if not line.gable
            else ()
        ),
        *members.fillers(job, stands, (*courses, *levels), _beside(plan, rows, line), past),
    )
    blocks = members.blocking(job, stands, (*(inner if job.girts.place == "inside" else courses), *levels), openings)
    shared = tuple(s.name for s in stands if s.name in (*shared, *twice, *alike))
    carrying = (*(c for c in courses if c.row in lone), *held)
    courses = tuple(c for c in courses if c.row not in lone)
    # corners go up with the sidewalls; the last column at a lean-to's standing wall with its endwall
    theirs = tuple(name for name in line.columns if line.gable and plan.spot(name).role == "corner")
    return Wall(
        line,
        stands,
        courses,
        past,
        grade_past,
        theirs,
        shared,
        openings,
        levels,
        (*uprights, *blocks),
        inner,
        rakes,
        carrying,
    )


def _beside(plan: Plan, rows: Rows, line: WallLine) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """The rows of the walls at the left and at the right end of a wall; none at a lean-to's standing wall."""
    at = {name: other for other in plan.walls if other is not line for name in other.columns}
    left, right = (at.get(line.columns[i]) for i in (0, -1))
    return rows.of(left) if left else (), rows.of(right) if right else ()


def _past(job: Job, row: Row, kind: str) -> float:
    """How far a row outside of the columns runs past the corner in walls of a *kind*: the thickness of what meets it
    there. Where no girt is outside that is the other wall's nailer, as thick as this one."""
    if row.key == "grade board":
        return job.grade.board.thick if job.girts.grade_board_runs_past == kind else 0.0
    if row.layer != "outside" or job.girts.runs_past != kind:
        return 0.0
    return job.girt_out or row.section.thick


def _level(job: Job, stands: tuple[Stand, ...], level: Level, past: float) -> Course:
    """A header, sill or track board; it ends like the girts it lies with: at a corner past the column, between columns
    short of them."""
    start, end = level.start, level.end
    if level.layer == "between":
        start, end = start + job.girts.gap / 2, end - job.girts.gap / 2
    elif not level.outside:
        start -= past if start <= stands[0].left + SAME else 0.0
        end += past if end >= stands[-1].right - SAME else 0.0
    row = Row(level.key, level.name, level.section, level.low, level.high, layer=level.layer)
    span = _Span(row, (start, end), (start, end), (level.section.wide, level.section.wide))
    centres = tuple(s.centre for s in stands)
    breaks = joints.split(joints.Row(start, end, centres, job.boards(level.section.name)))
    return Course(row, _pieces(span, breaks, ()))


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


@dataclass(frozen=True)
class _Span:
    """A row's ends before it is cut into pieces."""

    row: Row
    low: tuple[float, float]
    high: tuple[float, float]
    rise: tuple[float, float]


def _ends(row: Row, past: float, length: float, limit: Surface | None) -> _Span | None:
    """Where a row begins and ends at its bottom and top edge; ``None`` where the slope leaves nothing of it."""
    start, end = -past, length + past
    if limit is None:
        return _Span(row, (start, end), (start, end), (row.high - row.low, row.high - row.low))
    low, high = limit.under(row.low, start, end), limit.under(row.high, start, end)
    if low is None or high is None:
        return None
    # a board that meets the slope only with its upper corner is cut over part of its width
    tall = row.high - row.low
    left = row.high - max(row.low, limit.over(start)) if high[0] > start + SAME else tall
    right = row.high - max(row.low, limit.over(end)) if high[1] < end - SAME else tall
    return _Span(row, low, high, (left, right))


def _courses(
    job: Job, stands: tuple[Stand, ...], spans: list[_Span], openings: tuple[Opening, ...]
) -> tuple[tuple[Course, ...], tuple[str, ...]]:
    """Every row cut into pieces that meet on columns and end at openings, neighbours staggered."""
    centres = tuple(s.centre for s in stands[1:-1])  # a corner column carries ends, no joints
    # a joint needs the board's full width: none in the sloped end of a gable girt
    between = tuple(Course(s.row, _bays(job, stands, s, openings)) for s in spans if s.row.layer == "between")
    opened = [made for s in spans if s.row.layer != "between" and (made := _opened(s, stands, openings))]
    rows = [
        joints.Row(*s.low, tuple(c for c in centres if s.high[0] < c < s.high[1]), _stock(job, s.row), gaps)
        for s, gaps in opened
    ]
    found = joints.stagger(rows)
    courses = tuple(Course(s.row, _pieces(s, f, gaps)) for (s, gaps), f in zip(opened, found, strict=True))
    both = sorted((*courses, *(c for c in between if c.pieces)), key=lambda c: c.row.low)
    return tuple(both), _shared(stands, found)


def _bays(job: Job, stands: tuple[Stand, ...], span: _Span, openings: tuple[Opening, ...]) -> tuple[Piece, ...]:
    """The pieces of a row that lies between the columns: one a bay, less where an opening stands, each shorter than
    its place by the gap."""
    gaps = sorted(gap for o in openings if (gap := o.gap(span.row)))
    found = []
    for left, right in itertools.pairwise(stands):
        edges = sorted([left.right, *(at for gap in gaps for at in gap if left.right < at < right.left), right.left])
        for a, b in itertools.pairwise(edges):
            if any(start <= (a + b) / 2 <= end for start, end in gaps):
                continue
            piece = _in_bay(span, a + job.girts.gap / 2, b - job.girts.gap / 2)
            if piece:
                found.append(piece)
    longest = max(_stock(job, span.row))
    for piece in found:
        if piece.length > longest + SAME:
            raise joints.NoJoint(piece.low[0], piece.low[1], longest)
    return tuple(found)


def _in_bay(span: _Span, a: float, b: float) -> Piece | None:
    """The part of a row from *a* to *b*; none where the slope leaves no upper edge."""
    low = max(a, span.low[0]), min(b, span.low[1])
    high = max(a, span.high[0]), min(b, span.high[1])
    if high[1] - high[0] <= SAME:
        return None
    # of a slope that begins beside a column only a part is in the bay, and as much of its rise
    rises = [
        span.rise[i] * (high[i] - low[i]) / (span.high[i] - span.low[i]) if low[i] != high[i] else 0.0 for i in (0, 1)
    ]
    return Piece("", span.row, low, high, *rises)


def _opened(
    span: _Span, stands: tuple[Stand, ...], openings: tuple[Opening, ...]
) -> tuple[_Span, tuple[tuple[float, float], ...]] | None:
    """What openings leave of a row: its ends, and the gaps between them, left to right; ``None`` where that is
    nothing."""
    gaps: list[tuple[float, float]] = []
    for start, end in sorted(gap for o in openings if (gap := o.gap(span.row))):
        # a header at a corner goes past it, as the row would
        start = -math.inf if start <= stands[0].left + SAME else start
        end = math.inf if end >= stands[-1].right - SAME else end
        if gaps and start <= gaps[-1][1] + SAME:
            before = gaps.pop()
            start, end = before[0], max(before[1], end)
        gaps.append((start, end))
    wide = span.row.high - span.row.low
    while gaps and gaps[0][0] <= span.high[0] + SAME:
        at = gaps.pop(0)[1]
        low, high = max(at, span.low[0]), max(at, span.high[0])
        # an opening in the sloped end leaves the rest of the slope
        rise = span.rise[0] * (high - low) / (span.high[0] - span.low[0]) if high > at else wide
        span = replace(span, low=(low, span.low[1]), high=(high, span.high[1]), rise=(rise, span.rise[1]))
    while gaps and gaps[-1][1] >= span.high[1] - SAME:
        at = gaps.pop()[0]
        low, high = min(at, span.low[1]), min(at, span.high[1])
        rise = span.rise[1] * (high - low) / (span.high[1] - span.low[1]) if high < at else wide
        span = replace(span, low=(span.low[0], low), high=(span.high[0], high), rise=(span.rise[0], rise))
    return (span, tuple(gaps)) if span.high[1] - span.high[0] > SAME else None


def _shared(stands: tuple[Stand, ...], found: tuple[tuple[float, ...], ...]) -> tuple[str, ...]:
    """Columns on which two neighbouring rows both break, left to right."""
    twice = {place for first, second in itertools.pairwise(found) for place in first if place in second}
    return tuple(s.name for s in stands if s.centre in twice)


def _pieces(span: _Span, breaks: tuple[float, ...], gaps: tuple[tuple[float, float], ...]) -> tuple[Piece, ...]:
    """The boards between a row's ends, its *breaks* and its *gaps*."""
    cuts = sorted([*((b, b) for b in breaks), *gaps])
    lows = list(zip((span.low[0], *(b for _, b in cuts)), (*(a for a, _ in cuts), span.low[1]), strict=True))
    highs = list(zip((span.high[0], *(b for _, b in cuts)), (*(a for a, _ in cuts), span.high[1]), strict=True))
    last = len(lows) - 1
    return tuple(
        Piece("", span.row, low, high, span.rise[0] if i == 0 else 0.0, span.rise[1] if i == last else 0.0)
        for i, (low, high) in enumerate(zip(lows, highs, strict=True))
    )


def _stock(job: Job, row: Row) -> tuple[float, ...]:
    """The lengths that a row's boards can have at most."""
    return job.boards(row.section.name, row.treated)
