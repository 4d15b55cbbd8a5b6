"""A wall as bodies of wood: what each weighs and where, in the wall's own plane.

Places are inches along the wall from the left outer corner of its columns, seen from outside, and stations above the
grade line. A body is a polygon of one thickness and density, so sloped ends count to the last corner.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct

from layouts import seats
from layouts.area import Outline, Point, union
from layouts.boards import Piece, Rake, Stand, Wall
from layouts.columns import Top, cuts
from layouts.fields import Job
from layouts.framed import Upright
from layouts.lumber import Section
from layouts.plan import Plan
from layouts.roof import Roof, plumb
from layouts.wood import Densities

CUBIC_FOOT = 12.0**3


class Body(Struct, frozen=True):
    """A piece of wood. *outline* is its corners in order, *thick* its thickness through them (inches), *density* in
    lb/ft³.

    *middle* is given where the outline is one seen along the wall, from the end (across the wall, station): its middle
    along the wall.
    """

    name: str
    outline: Outline
    thick: float
    density: float
    middle: float | None = None


class Weight(Struct, frozen=True):
    """*pounds*, and the centre of gravity: inches *along* the wall, *up* as a station."""

    pounds: float
    along: float
    up: float


def box(left: float, right: float, low: float, high: float) -> Outline:
    """The corners of a box."""
    return ((left, low), (right, low), (right, high), (left, high))


def weigh(bodies: tuple[Body, ...], extra: float = 0.0) -> Weight:
    """What *bodies* weigh together, and where: exact areas and moments. *extra* percent is added for what is not
    drawn (nails, blocks), spread like the rest. Raises ValueError where there is nothing to weigh."""
    parts = [(area * body.thick * body.density, x, y) for body in bodies for area, x, y in [_area(body)]]
    total = math.fsum(weight for weight, _, _ in parts)
    if total <= 0:
        raise ValueError("nothing to weigh")
    along = math.fsum(weight * x for weight, x, _ in parts) / total
    up = math.fsum(weight * y for weight, _, y in parts) / total
    return Weight(total / CUBIC_FOOT * (1 + extra / 100), along, up)


def _area(body: Body) -> tuple[float, float, float]:
    """Area (square inches) and centroid of a body as it stands in the wall."""
    area, x, y = centroid(body.outline)
    return area, x if body.middle is None else body.middle, y


def centroid(outline: Outline) -> tuple[float, float, float]:
    """Area and centroid of a polygon, corners in either direction (the surveyor's sums)."""
    if not outline:
        return 0.0, 0.0, 0.0
    x0, y0 = outline[0]  # small numbers keep their digits
    points = [(x - x0, y - y0) for x, y in outline]
    crosses = [(a, b, a[0] * b[1] - b[0] * a[1]) for a, b in pairwise([*points, points[0]])]
    twice = math.fsum(c for _, _, c in crosses)
    if twice == 0:
        return 0.0, x0, y0
    x = math.fsum((a[0] + b[0]) * c for a, b, c in crosses) / (3 * twice)
    y = math.fsum((a[1] + b[1]) * c for a, b, c in crosses) / (3 * twice)
    return abs(twice) / 2, x0 + x, y0 + y


def clip(outline: Outline, a: Point, b: Point) -> Outline:
    """What of a polygon lies to the left of the line from *a* to *b*."""
    kept: list[Point] = []
    sides = [(b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) for x, y in outline]
    corners = list(zip(outline, sides, strict=True))
    for (p, s), (q, t) in pairwise([*corners, *corners[:1]]):
        if s >= 0:
            kept.append(p)
        if s * t < 0:
            f = s / (s - t)
            kept.append((p[0] + f * (q[0] - p[0]), p[1] + f * (q[1] - p[1])))
    return tuple(kept)


def own(wall: Wall) -> tuple[Stand, ...]:
    """The columns that go up with this wall: without the corners where they stand in another one."""
    return tuple(s for s in wall.stands if s.name not in wall.theirs)


def unread(wall: Wall) -> tuple[str, ...]:
    """Columns of this wall whose bottom ends are not known."""
    return tuple(s.name for s in own(wall) if s.column is None)


def bottom(wall: Wall, stand: Stand) -> float:
    """The station of a column's bottom end. One that was not read is taken as long as the longest of its wall; with
    none read, as standing on the grade line."""
    if stand.column is not None:
        return -stand.column.offset
    return min((-s.column.offset for s in own(wall) if s.column), default=0.0)


def of_wall(job: Job, plan: Plan, roof: Roof, wall: Wall, density: Densities, treated_up: float) -> tuple[Body, ...]:
    """Every column and board that goes up with *wall*. Where only the lower ends of columns are treated they are so
    over *treated_up* inches."""
    bodies = list(_boards(wall, density))
    whole = {"all": math.inf, "none": 0.0, "end": treated_up}[job.column.treated]
    for stand in own(wall):
        low = bottom(wall, stand)
        top = stand.column.top if stand.column else cuts(job, roof, plan, plan.spot(stand.name))[1]
        side = plan.spot(stand.name).role != "end"
        for shape, thick in _plies(job, stand, top, low, side):
            middle = stand.centre if side else None
            for part, treated in _parted(shape, low + whole):
                bodies.append(Body(stand.name, part, thick, density.of(treated), middle))
    return tuple(bodies)


def _boards(wall: Wall, density: Densities) -> Iterator[Body]:
    """Every board that is no column: rows, what belongs to openings, corners and slopes."""
    for course in wall.all_courses:
        for p in course.pieces:
            yield Body(
                p.row.name, outline(p), _through(p.row.section, p.row.high - p.row.low), density.of(p.row.treated)
            )
    for u in wall.uprights:
        yield Body(u.name, standing(u), _through(u.section, u.right - u.left), density.of(u.treated))
    for r in wall.rakes:
        yield Body(r.name, sloping(r), r.section.thick, density.of(False))


def _through(section: Section, shown: float) -> float:
    """How thick a board is through the wall where its face there is *shown* inches."""
    return section.thick * section.wide / shown


def _plies(job: Job, stand: Stand, top: Top, low: float, side: bool) -> list[tuple[Outline, float]]:
    """The outer plies and the centre ply of a column, each up to its own top, with their thickness."""
    column = job.column
    ply = column.width / column.plies
    if side or column.endwall_face == "depth":
        left = 0.0 if side else stand.left
        inner = seats.cut_wide(job) if side else ply * (column.plies - 2)
        found = [(_under(top.ears, left, low), column.width - inner), (_under(top.centre, left, low), inner)]
        return [(shape, thick) for shape, thick in found if thick > 1e-9]
    if top.centre == top.ears:
        return [(_under(top.ears, stand.left, low), column.depth)]
    ears = _under(top.ears, stand.left, low)
    return [
        (clip(ears, (stand.left + ply, 0.0), (stand.left + ply, 1.0)), column.depth),
        (_under(top.centre, stand.left, low), column.depth),
        (clip(ears, (stand.right - ply, 1.0), (stand.right - ply, 0.0)), column.depth),
    ]


def _under(top: Outline, left: float, low: float) -> Outline:
    """The area from *low* up to a top whose places count from *left*."""
    points = [(left + x, h) for x, h in top]
    return ((points[0][0], low), (points[-1][0], low), *reversed(points))


def _parted(shape: Outline, level: float) -> list[tuple[Outline, bool]]:
    """A shape cut at *level*: what is below it is treated. Nothing is left out, and no empty part kept."""
    if math.isinf(level):
        return [(shape, True)]
    parts = [(clip(shape, (0.0, level), (1.0, level)), False), (clip(shape, (1.0, level), (0.0, level)), True)]
    return [(part, treated) for part, treated in parts if centroid(part)[0] > 0]


def outline(piece: Piece) -> Outline:
    """The corners of a board, the cuts of its ends as deep as they go; where an end is square two of them are one."""
    low, high = piece.row.low, piece.row.high
    return (
        (piece.low[0], low),
        (piece.low[1], low),
        (piece.low[1], high - piece.right_rise),
        (piece.high[1], high),
        (piece.high[0], high),
        (piece.low[0], high - piece.left_rise),
    )


def standing(upright: Upright) -> Outline:
    """The corners of a board that stands."""
    low, (left, right) = upright.low, upright.tops
    return (upright.left, low), (upright.right, low), (upright.right, right), (upright.left, left)


def sloping(rake: Rake) -> Outline:
    """The corners of a nailer along a slope: its ends are plumb."""
    (x0, y0), (x1, y1) = rake.start, rake.end
    deep = plumb(rake.section.wide, (y1 - y0) / (x1 - x0))
    return (x0, y0 - deep), (x1, y1 - deep), (x1, y1), (x0, y0)


def solid(wall: Wall) -> float:
    """What the wind finds of a bare wall, square feet: every board and column, once where they lie before each
    other."""
    shapes = [outline(p) for course in wall.all_courses for p in course.pieces]
    shapes += [standing(u) for u in wall.uprights]
    shapes += [sloping(r) for r in wall.rakes]
    for stand in own(wall):
        low = bottom(wall, stand)
        shapes.append(((stand.left, low), (stand.right, low), *reversed(stand.top)))
    return union(shapes) / 144
