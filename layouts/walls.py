"""Walls as they lie, seen from outside: rows of boards cut into pieces, columns, and the dimensions along one line.

Places along a wall are inches from the left outer corner of its columns, seen from outside; boards that run past the
corner begin below zero. Heights are stations above the grade line.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace

from layouts import joints
from layouts.columns import Column, Top, cuts
from layouts.fields import Job
from layouts.plan import Plan, WallLine
from layouts.roof import Roof, Surface
from layouts.rows import Row, Rows

SAME = 1e-6


@dataclass(frozen=True)
class Piece:
    """One board. *low* and *high* are its stretch along the wall at the bottom and the top edge; *mark* is its number
    in the cut list; *length* the long edge, *short* the short edge; *left_back* and *right_back* how far the end is
    cut back over *cut_rise* inches of width."""

    mark: str
    row: Row
    low: tuple[float, float]
    high: tuple[float, float]
    left_rise: float
    right_rise: float

    @property
    def length(self) -> float:
        """The long edge, inches."""
        return max(self.low[1], self.high[1]) - min(self.low[0], self.high[0])

    @property
    def short(self) -> float:
        """The short edge, inches."""
        return min(self.low[1], self.high[1]) - max(self.low[0], self.high[0])

    @property
    def backs(self) -> tuple[float, float]:
        """How far the left and the right end are cut back."""
        return abs(self.high[0] - self.low[0]), abs(self.low[1] - self.high[1])


@dataclass(frozen=True)
class Stand:
    """A column in a wall: its stretch along the wall, *top* as an outline along the wall, and the column with its
    numbers, ``None`` where it was not read."""

    name: str
    left: float
    right: float
    top: tuple[tuple[float, float], ...]
    column: Column | None

    @property
    def centre(self) -> float:
        """Its middle along the wall."""
        return (self.left + self.right) / 2


@dataclass(frozen=True)
class Course:
    """A row of a wall with its *pieces*, left to right."""

    row: Row
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class Wall:
    """One wall seen from outside. *owns_corners* says whether the corner columns are nailed into this wall; *past* is
    how far its girts run past the columns; *shared* names the columns on
    which rows that touch both break, because no stock length staggers them."""

    line: WallLine
    stands: tuple[Stand, ...]
    courses: tuple[Course, ...]
    past: float
    grade_past: float
    owns_corners: bool
    shared: tuple[str, ...]

    @property
    def name(self) -> str:
        """The wall's letter or number."""
        return self.line.name


def lay(job: Job, plan: Plan, roof: Roof, rows: Rows, columns: tuple[Column, ...]) -> tuple[Wall, ...]:
    """All walls, their pieces numbered through the building.

    Raises ``joints.NoJoint`` where a bay is longer than the longest board.
    """
    known = {c.name: c for c in columns}
    return _numbered(tuple(_wall(job, plan, roof, rows, line, known) for line in plan.walls))


def _wall(job: Job, plan: Plan, roof: Roof, rows: Rows, line: WallLine, known: dict[str, Column]) -> Wall:
    kind = "end" if line.gable else "side"
    past = job.girts.board.thick if job.girts.runs_past == kind else 0.0
    grade_past = job.grade.board.thick if job.girts.grade_board_runs_past == kind else 0.0
    stands = tuple(_stand(job, plan, roof, line, name, known.get(name)) for name in line.columns)
    limit = _limit(line, roof)
    ends = [
        _ends(row, grade_past if row.key == "grade board" else past, line.length, limit)
        for row in (rows.end if line.gable else rows.side)
    ]
    kept = [e for e in ends if e is not None]
    try:
        courses, shared = _courses(job, stands, kept)
    except joints.NoJoint as error:
        error.wall = line.side
        raise
    return Wall(line, stands, courses, past, grade_past, not line.gable, shared)


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


def _limit(line: WallLine, roof: Roof) -> Surface | None:
    """What the boards of a gable end under: the chord, as seen along the wall. Sidewalls have none."""
    if not line.gable:
        return None
    if line.side == "front":
        return roof.chord
    mirrored = tuple(replace(p, at=line.length - p.at, slope=-p.slope) for p in roof.chord.planes)
    return Surface(mirrored)


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
        return _Span(row, (start, end), (start, end), (row.section.wide, row.section.wide))
    low, high = limit.under(row.low, start, end), limit.under(row.high, start, end)
    if low is None or high is None:
        return None
    # a board that meets the slope only with its upper corner is cut over part of its width
    left = row.high - max(row.low, limit.over(start)) if high[0] > start + SAME else row.section.wide
    right = row.high - max(row.low, limit.over(end)) if high[1] < end - SAME else row.section.wide
    return _Span(row, low, high, (left, right))


def _courses(job: Job, stands: tuple[Stand, ...], spans: list[_Span]) -> tuple[tuple[Course, ...], tuple[str, ...]]:
    """Every row cut into pieces that meet on columns, neighbours staggered."""
    centres = tuple(s.centre for s in stands[1:-1])  # a corner column carries ends, no joints
    # a joint needs the board's full width: none in the sloped end of a gable girt
    rows = [joints.Row(*s.low, tuple(c for c in centres if s.high[0] < c < s.high[1]), job.lumber.stock) for s in spans]
    found = joints.stagger(rows)
    courses = tuple(Course(s.row, _pieces(s, f)) for s, f in zip(spans, found, strict=True))
    return courses, _shared(stands, found)


def _shared(stands: tuple[Stand, ...], found: tuple[tuple[float, ...], ...]) -> tuple[str, ...]:
    """Columns on which two neighbouring rows both break, left to right."""
    twice = {place for first, second in itertools.pairwise(found) for place in first if place in second}
    return tuple(s.name for s in stands if s.centre in twice)


def _pieces(span: _Span, breaks: tuple[float, ...]) -> tuple[Piece, ...]:
    lows = list(zip((span.low[0], *breaks), (*breaks, span.low[1]), strict=True))
    highs = list(zip((span.high[0], *breaks), (*breaks, span.high[1]), strict=True))
    last = len(lows) - 1
    return tuple(
        Piece("", span.row, low, high, span.rise[0] if i == 0 else 0.0, span.rise[1] if i == last else 0.0)
        for i, (low, high) in enumerate(zip(lows, highs, strict=True))
    )


@dataclass(frozen=True)
class PieceLine:
    """Like pieces of the building: *count* of them, *where* they go (wall, row). Lengths in inches."""

    mark: str
    section: str
    treated: bool
    length: float
    short: float
    backs: tuple[float, float]
    rise: float
    count: int
    where: tuple[str, ...]


def _like(piece: Piece) -> tuple[str, bool, float, float, tuple[float, float], float]:
    """What makes two pieces one line of the cut list, to a thousandth; turned end for end they are still alike."""
    backs = tuple(sorted(round(b, 3) for b in piece.backs))
    rise = round(max(piece.left_rise, piece.right_rise), 3) if backs[1] else 0.0
    return (
        piece.row.section.name,
        piece.row.treated,
        -round(piece.length, 3),
        -round(piece.short, 3),
        (backs[0], backs[1]),
        rise,
    )


def _numbered(walls: tuple[Wall, ...]) -> tuple[Wall, ...]:
    """The walls with every piece's number: by section, longest first."""
    kinds = sorted({_like(p) for w in walls for c in w.courses for p in c.pieces})
    number = {kind: f"#{i}" for i, kind in enumerate(kinds, 1)}
    return tuple(
        replace(
            wall,
            courses=tuple(
                Course(c.row, tuple(replace(p, mark=number[_like(p)]) for p in c.pieces)) for c in wall.courses
            ),
        )
        for wall in walls
    )


def piece_lines(walls: tuple[Wall, ...]) -> tuple[PieceLine, ...]:
    """The cut list: like pieces of all *walls* counted together, in number order."""
    groups: dict[str, list[tuple[Wall, Piece]]] = {}
    for wall in walls:
        for course in wall.courses:
            for piece in course.pieces:
                groups.setdefault(piece.mark, []).append((wall, piece))
    lines = []
    for mark in sorted(groups, key=lambda m: int(m[1:])):
        first = groups[mark][0][1]
        kind = _like(first)
        where = tuple(dict.fromkeys(f"{w.name}: {p.row.name}" for w, p in groups[mark]))
        lines.append(
            PieceLine(mark, kind[0], kind[1], first.length, first.short, kind[4], kind[5], len(groups[mark]), where)
        )
    return tuple(lines)
