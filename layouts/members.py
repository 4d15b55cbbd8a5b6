"""Boards of a wall that are in no row: corner boards, fillers, blocking, nailers along the rake; and where rows inside
end.

A corner column is as deep as the sidewall's others, and its inner face is in their plane; along the sidewall it is
only as wide as a column, so that the endwall's inner plane passes it by. The corner board stands on its inner face with
its edge in that plane, and is what the endwall's rows inside are nailed to.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from layouts import joints
from layouts.boards import Course, Rake, Stand
from layouts.fields import Job
from layouts.lumber import Section
from layouts.openings import Opening, Upright
from layouts.plan import WallLine
from layouts.roof import Roof, Surface
from layouts.rows import Row, girt_tall

LEAST_BLOCK = 3.0  # inches; shorter ones split at their nails, and are left out (common practice, no source)
SAME = 1e-6


def seen(surface: Surface, line: WallLine) -> Surface:
    """A roof surface as it is seen along an endwall from outside."""
    return surface if line.side == "front" else surface.turned(line.length)


def corner_boards(job: Job, bearing: float, *corners: Stand) -> tuple[Upright, ...]:
    """A board flat on the inside of each corner column of a sidewall, its edge in the plane of the endwall's inner
    faces: from the grade line, where the rod's foot stands, to the *bearing*; in equal parts where no stock is that
    long. What stands on the grade line is treated."""
    section = job.corners.board
    if section is None:
        return ()
    parts = math.ceil(bearing / max(job.boards(section.name)) - SAME)
    steps = list(pairwise(bearing * i / parts for i in range(parts + 1)))
    found = []
    for i, stand in enumerate(corners):
        far = max(_endwall_deep(job), section.wide)  # a wider board stands in: it must not stand out at the corner
        left = far - section.wide if i == 0 else stand.right - far
        name = f"Corner board {stand.name}"
        ends = (left, left + section.wide)
        found += [Upright(name, section, *ends, low, (high, high), low <= SAME, layer="inside") for low, high in steps]
    return tuple(found)


def _endwall_deep(job: Job) -> float:
    """How deep an endwall column stands into the building."""
    return job.column.depth if job.column.endwall_face == "width" else job.column.width


def fillers(
    job: Job, stands: Sequence[Stand], courses: Sequence[Course], others: Sequence[Sequence[Row]], past: float
) -> tuple[Upright, ...]:
    """Blocks as thick as a girt between the rows at both ends of a wall whose girts run past, on the side of the corner
    columns. They leave out the rows of the other walls that run past there too, *others* at the left and the right end:
    their grade board may be the one that does."""
    if job.corners.fillers == "none" or past <= 0.0 or not job.girt_out:
        return ()
    found = []
    for stand, at, other in ((stands[0], -past, others[0]), (stands[-1], stands[-1].right, others[1])):
        theirs = [(row.low, row.high) for row in other]
        mine = [(c.row.low, c.row.high) for c in courses if c.row.layer == "outside" and _covers(c, at, at + past)]
        top = max((high for _, high in mine), default=0.0)
        for low, high in _free((*mine, *theirs), top):
            name = f"Filler {stand.name}"
            found.append(Upright(name, job.girts.board, at, at + past, low, (high, high), layer="among"))
    return tuple(found)


def _free(taken: Sequence[tuple[float, float]], top: float) -> list[tuple[float, float]]:
    """What *taken* stretches leave free between each other, up to *top*."""
    found = []
    reach: float | None = None
    for low, high in sorted(taken):
        if reach is not None and min(low, top) - reach >= LEAST_BLOCK:
            found.append((reach, min(low, top)))
        reach = high if reach is None else max(reach, high)
    return found


def _covers(course: Course, left: float, right: float) -> bool:
    """Whether one board of a row passes a stretch with its full width."""
    return any(
        max(p.low[0], p.high[0]) <= left + SAME and min(p.low[1], p.high[1]) >= right - SAME for p in course.pieces
    )


def blocking(
    job: Job, stands: Sequence[Stand], courses: Sequence[Course], openings: Sequence[Opening]
) -> tuple[Upright, ...]:
    """Blocks between the rows in the middle of every bay whose clear width is over the job's limit: they keep the rows
    from sagging and turning. Under girts that lie between the columns the lowest one stands behind the grade board and
    laps it, as jamb posts do (common practice, no source); at the grade line it is treated."""
    limit, board = job.girts.blocking, job.girts.board
    if limit is None:
        return ()
    wide = girt_tall(job)  # a block lies as the girts do: flat in the wall's plane, or edge on between columns
    found = []
    for one, other in pairwise(stands):
        if other.left - one.right <= limit + SAME:
            continue
        left = (one.right + other.left - wide) / 2
        passing = [c.row for c in courses if c.row.key != "track board" and _covers(c, left, left + wide)]
        # a row that an opening takes out leaves no place for a block
        for low, high in _free(_held(job, passing), math.inf):
            if not any(_stands_in(o, left, left + wide, low, high) for o in openings):
                name = f"Blocking {one.name}-{other.name}"
                treated = low <= SAME  # as all that stands on the grade line
                found.append(Upright(name, board, left, left + wide, low, (high, high), treated, "among"))
    return tuple(found)


def _held(job: Job, rows: Sequence[Row]) -> list[tuple[float, float]]:
    """The stretches that *rows* take among the blocks between them. Behind the highest grade board that lies before
    blocks between the columns one begins at that board's lower edge."""
    before = [row for row in rows if job.girts.place == "between" and row.layer == "outside"]
    found = [(row.low, row.high) for row in rows if row not in before]
    return [*found, *((row.low, row.low) for row in before[-1:])]


def _stands_in(opening: Opening, left: float, right: float, low: float, high: float) -> bool:
    """Whether a block would stand in an opening or one of its uprights."""
    boxes = [
        (opening.left, opening.right, opening.low, opening.high),
        *((u.left, u.right, u.low, u.high) for u in opening.uprights),
    ]
    return any(a < right - SAME and b > left + SAME and c < high - SAME and d > low + SAME for a, b, c, d in boxes)


def rakes(job: Job, line: WallLine, roof: Roof, stands: Sequence[Stand]) -> tuple[Rake, ...]:
    """Nailers under both slopes of a gable, their upper edges at the chord's top, in the plane of the girts: from end
    to end of the columns with pieces that meet on them, or between them. All cuts are plumb. Raises
    ``joints.NoJoint`` where no stock reaches."""
    section = job.girts.rake
    if section is None:
        return ()
    surface = seen(roof.end_chord, line)
    found = []
    for left, right in _rake_runs(job, line, stands, surface, section):
        start, end = (left, surface.over(left)), (right, surface.over(right))
        factor, back = _along(surface, left, right, section)
        found.append(Rake(f"Rake nailer {line.name}", section, start, end, (right - left) * factor + back, back))
    return tuple(found)


def _along(surface: Surface, left: float, right: float, section: Section) -> tuple[float, float]:
    """Length along the slope for an inch of level run between *left* and *right*, and how far the plumb end of a board
    goes back over its width."""
    slope = abs(surface.at((left + right) / 2).slope)
    return math.hypot(1.0, slope), section.wide * slope


def _rake_runs(
    job: Job, line: WallLine, stands: Sequence[Stand], surface: Surface, section: Section
) -> list[tuple[float, float]]:
    """Level runs of the rake nailers, left to right."""
    within = -inner_ends(job, line) if job.girts.place == "inside" else 0.0
    turns, lengths = surface.breaks(), job.boards(section.name)
    ends: list[tuple[float, float]] = [(within, line.length - within)]
    centres = tuple(s.centre for s in stands[1:-1])
    if job.girts.place == "between":
        gap = job.girts.gap / 2
        ends, centres = [(one.right + gap, other.left - gap) for one, other in pairwise(stands)], ()
    found = []
    for start, end in ends:
        for a, b in pairwise((start, *(t for t in turns if start < t < end), end)):
            factor, back = _along(surface, a, b, section)
            # a board holds its run along the slope and one plumb end more
            stock = tuple((length - back) / factor for length in lengths if length > back + 1) or (1.0,)
            try:
                if not centres and b - a > stock[-1] + SAME:
                    raise joints.NoJoint(a, b, stock[-1])
                inner = joints.split(joints.Row(a, b, tuple(c for c in centres if a < c < b), stock))
            except joints.NoJoint as error:
                along = (error.end - error.start) * factor + back
                raise joints.NoJoint(error.start, error.end, lengths[-1], along) from None
            found += list(pairwise((a, *inner, b)))
    return found


def inner_ends(job: Job, line: WallLine) -> float:
    """How far a row inside runs past the outer face of the first column, inches: it is less than nothing, or nothing.

    Endwall rows that run past go to the sidewall columns' inner faces, where the corner board holds them. Sidewall rows
    that run past are nailed across the corner columns, or stop at the corner boards on them. The others stop at
    the rows that run past."""
    size = job.girts.inside if job.girts.place == "both" else job.girts.board
    board, deep = job.corners.board, _endwall_deep(job)
    wide = board.wide if board else 0.0
    # beside a board wider than the endwall's columns are deep, rows end at its face, not on its edge
    stands_in = board.thick if board and wide > deep + SAME else 0.0
    if line.gable:
        own = job.girts.runs_past == "end"
        return -job.column.depth - (stands_in if own else max(size.thick, stands_in))
    if job.girts.runs_past == "side":
        return -max(deep, wide) if board else 0.0
    return -(wide if stands_in else deep + size.thick)
