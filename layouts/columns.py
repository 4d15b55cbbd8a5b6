"""Each column: its offset, every mark from its bottom end, where its top is cut, and what stock it takes.

A mark on a column, from its bottom end, is offset + station: always from the datum, never a chain of rounded steps.
The top of a column is one general thing: the roof surface over the stretch the column stands under. A sidewall column
stands under its depth, so it has a short and a long point; an endwall column under its face along the gable, so it has
a low and a high edge; one that stands under the ridge has two slopes.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from layouts import seats
from layouts.fields import Job
from layouts.grade import Grade, words
from layouts.lengths import Style, show
from layouts.piers import PLAIN, Fit, delivered, fit, untagged
from layouts.plan import Plan, Spot, WallLine
from layouts.readings import Readings
from layouts.roof import Roof
from layouts.stock import shortest

STANDING = "the standing wall"
PLY, ON_BLOCK = "centre ply", "top of the seat block"


class Cut(Struct, frozen=True):
    """A cut on top of a column. *key* is stable for programs; *name* and *where* are read by people; *station* is above
    the grade line; *part* is the plies it goes through: ``ears``, ``centre`` or ``all``."""

    key: str
    name: str
    where: str
    station: float
    part: str


class Top(Struct, frozen=True):
    """The top of a column: *ears* and *centre* are outlines (place along the column's face from its left or outer
    edge, station), *left* and *right* say what lies to either side of that view."""

    ears: tuple[tuple[float, float], ...]
    centre: tuple[tuple[float, float], ...]
    left: str
    right: str


class Column(Struct, frozen=True):
    """One column that was read. Lengths in inches; *offset* from its bottom end as it is set up (on its packing, if it
    has one: *fit*); *flagged* if its seat is to be shot again first; *stock* and *drop* are ``None`` where no stock is
    long enough; of a made top the stock is the column as delivered."""

    name: str
    role: str
    walls: tuple[str, ...]
    neighbours: tuple[str, str]
    reading: float
    offset: float
    seat: str
    longer: str
    flagged: bool
    cuts: tuple[Cut, ...]
    top: Top
    length: float
    stock: float | None
    drop: float | None
    note: str
    fit: Fit = PLAIN

    def up(self, station: float) -> float:
        """A *station* as it is measured on this column: from its bottom end."""
        return self.offset + station


def cuts(job: Job, roof: Roof, plan: Plan, spot: Spot) -> tuple[tuple[Cut, ...], Top]:
    """The cuts of the column at *spot*, and its top as a picture."""
    return _endwall(job, roof, plan, spot) if spot.role == "end" else _sidewall(job, roof, spot)


def _sidewall(job: Job, roof: Roof, spot: Spot) -> tuple[tuple[Cut, ...], Top]:
    surface = roof.surface(job.tops.sidewall_ears).lowered(job.tops.clearance)
    bearing = roof.at(spot.sidewall).bearing
    deep = spot.u1 - spot.u0
    # seen with the outside to the left, whichever wall it is
    outer, inner = (spot.u0, spot.u1) if spot.u0 == 0.0 else (spot.u1, spot.u0)
    whole = delivered(job)
    if whole is not None:
        return _made(job, whole, bearing, deep)
    if job.tops.seat == "flat":
        return _flat(job, bearing, deep)
    out, into = surface.over(outer), surface.over(inner)
    block = job.column.centre_ply is not None
    low, high = ("outside face", "inside face") if out <= into else ("inside face", "outside face")
    found = (
        Cut("bearing", "BEARING", ON_BLOCK if block else seats.said(job, job.style), bearing, "centre"),
        Cut("short_point", "SHORT POINT", low, min(out, into), "ears"),
        Cut("long_point", "LONG POINT", high, max(out, into), "ears"),
    )
    top = Top(((0.0, out), (deep, into)), ((0.0, bearing), (deep, bearing)), "OUTSIDE", "INSIDE")
    return found, top


def _flat(job: Job, bearing: float, deep: float) -> tuple[tuple[Cut, ...], Top]:
    """A level top, and the shoulders of carriers that are let in."""
    level, low = seats.level_top(job, bearing), seats.carrier_low(job, bearing)
    found = [
        Cut("bearing", "BEARING", seats.said(job, job.style), level, "all")
        if level == bearing
        else Cut("level", "LEVEL CUT", "under the carrier", level, "all")
    ]
    faces = seats.shouldered(job)
    if faces and low is not None:
        where = f"{' and '.join(faces)} face, {show(job.carrier.let_in, job.style)} deep"
        found.append(Cut("shoulder", "SHOULDER", where, low, "shoulder"))
    outline = _notched(job, level, low or level, deep, faces)
    return tuple(found), Top(outline, outline, "OUTSIDE", "INSIDE")


def _notched(
    job: Job, level: float, low: float, deep: float, faces: tuple[str, ...]
) -> tuple[tuple[float, float], ...]:
    """A level top with shoulders on its *faces*, from the outside in."""
    cut = job.carrier.let_in
    first = ((0.0, low), (cut, low), (cut, level)) if "outside" in faces else ((0.0, level),)
    last = ((deep - cut, level), (deep - cut, low), (deep, low)) if "inside" in faces else ((deep, level),)
    return (*first, *last)


def _made(job: Job, whole: float, bearing: float, deep: float) -> tuple[tuple[Cut, ...], Top]:
    """A top that is made in the factory is not cut: its notch is the bearing, or its seat block comes up to it."""
    block = job.column.centre_ply is not None
    # where a block takes the offset the ears stand as high as the seat lets them: here as on a seat on the grade line
    ears = whole if block else bearing + job.column.ears
    where = ON_BLOCK if block else "made notch, not cut"
    top = Top(((0.0, ears), (deep, ears)), ((0.0, bearing), (deep, bearing)), "OUTSIDE", "INSIDE")
    return (Cut("bearing", "BEARING", where, bearing, "centre"),), top


def _endwall(job: Job, roof: Roof, plan: Plan, spot: Spot) -> tuple[tuple[Cut, ...], Top]:
    wall = next(w for w in plan.walls if spot.name in w.columns and w.gable)
    left, right = _beside(wall, spot.name)
    surface = roof.surface(_gable_top(job.tops.endwall_ears)).lowered(job.tops.clearance)
    ears = _seen(surface.profile(spot.u0, spot.u1), wall, spot)
    centre_of = job.tops.endwall_centre
    own = centre_of not in ("ears", job.tops.endwall_ears)
    centre = ears
    if own:
        centre = _seen(roof.surface(_gable_top(centre_of)).profile(*_centre_ply(job, spot)), wall, spot)
    found = [*_edges(ears, left, right, "ears" if own else "all", "", job)]
    if own:
        found += _edges(centre, left, right, "centre", "centre_", job)
    return tuple(found), Top(ears, centre, f"to {left}", f"to {right}")


def _beside(wall: WallLine, name: str) -> tuple[str, str]:
    """What stands to the left and to the right of a column in its wall: columns, or the standing wall of a lean-to."""
    i = wall.columns.index(name)
    left = wall.columns[i - 1] if i else STANDING
    return left, wall.columns[i + 1] if i + 1 < len(wall.columns) else STANDING


def _gable_top(name: str) -> str:
    """The surface that a top of an endwall column means: its chord is that of the endwall truss."""
    return f"end {name}" if name.startswith("chord") else name


def _centre_ply(job: Job, spot: Spot) -> tuple[float, float]:
    """The stretch of the gable the centre ply stands under: the whole face where the plies lie along the truss, else
    the ply (two of four) in the middle."""
    if job.column.endwall_face == "depth":
        return spot.u0, spot.u1
    ply = job.column.width / job.column.plies
    return spot.u0 + ply, spot.u1 - ply


def _seen(points: tuple[tuple[float, float], ...], wall: WallLine, spot: Spot) -> tuple[tuple[float, float], ...]:
    """Roof points as seen from outside of *wall*, from the left edge of the column."""
    if wall.side == "front":
        return tuple((u - spot.u0, h) for u, h in points)
    return tuple((spot.u1 - u, h) for u, h in reversed(points))


def _edges(
    points: tuple[tuple[float, float], ...], left: str, right: str, part: str, prefix: str, job: Job
) -> list[Cut]:
    """Cuts of a sloped top: low and high edge, or both edges and the ridge between, with its place across the face."""
    what = f"{seats.inner(job).upper()} " if prefix else ""
    first, last = points[0][1], points[-1][1]
    if len(points) > 2:
        peak = max(h for _, h in points)
        if abs(first - last) < 1e-6:
            return [
                Cut(f"{prefix}edges", f"{what}BOTH EDGES", "double cut", first, part),
                Cut(f"{prefix}ridge", f"{what}RIDGE", "middle", peak, part),
            ]
        return [
            Cut(f"{prefix}left_edge", f"{what}EDGE", f"toward {left}", first, part),
            Cut(f"{prefix}ridge", f"{what}RIDGE", _from_edge(points, left, right, job.style), peak, part),
            Cut(f"{prefix}right_edge", f"{what}EDGE", f"toward {right}", last, part),
        ]
    if abs(first - last) < 1e-9:
        return [Cut(f"{prefix}level", f"{what}LEVEL CUT" if what else "LEVEL CUT", "square", first, part)]
    low, high = (left, right) if first < last else (right, left)
    return [
        Cut(f"{prefix}low_edge", f"{what}LOW EDGE", f"toward {low}", min(first, last), part),
        Cut(f"{prefix}high_edge", f"{what}HIGH EDGE", f"toward {high}", max(first, last), part),
    ]


def _from_edge(points: tuple[tuple[float, float], ...], left: str, right: str, style: Style) -> str:
    """Where the ridge stands across the cut, from the nearer edge of the same plies."""
    first, ridge, last = points[0][0], max(points, key=lambda p: p[1])[0], points[-1][0]
    if ridge - first <= last - ridge:
        return f"{show(ridge - first, style)} from the edge toward {left}"
    return f"{show(last - ridge, style)} from the edge toward {right}"


def lay(job: Job, plan: Plan, roof: Roof, grade: Grade, readings: Readings) -> tuple[Column, ...]:
    """Every column that was read, in walking order; one whose cuts would fall below its bottom end is left out: its
    reading or the line reading cannot be right."""
    of: dict[str, tuple[str, ...]] = {}
    for wall in plan.walls:
        for name in wall.columns:
            of[name] = (*of.get(name, ()), wall.name)
    around = neighbours(plan)
    found = []
    for spot in plan.spots:
        if spot.name in grade.offsets:
            shape, offset = cuts(job, roof, plan, spot), grade.offsets[spot.name]
            # a made column that cannot come to stand right on its seat: no tag
            if offset + min(c.station for c in shape[0]) > 0 and not untagged(job, spot.role != "end", offset):
                found.append(_column(job, grade, readings, spot, of[spot.name], around[spot.name], shape))
    return tuple(found)


def tops(job: Job, roof: Roof, plan: Plan) -> dict[str, float]:
    """The station of every column's highest cut."""
    return {s.name: max(c.station for c in cuts(job, roof, plan, s)[0]) for s in plan.spots}


def neighbours(plan: Plan) -> dict[str, tuple[str, str]]:
    """Left and right neighbour of every column as seen from outside; a corner has one on each of its walls."""
    names = [s.name for s in plan.spots]
    # walking order is clockwise from above: seen from outside, the walk goes to the left
    found = {name: (names[(i + 1) % len(names)], names[i - 1]) for i, name in enumerate(names)}
    for wall in plan.walls:
        # a lean-to's endwalls end at the standing wall
        for end, name in ((0, wall.columns[0]), (1, wall.columns[-1])):
            if wall.gable and plan.spot(name).role == "end":
                found[name] = (STANDING, found[name][1]) if end == 0 else (found[name][0], STANDING)
    return found


def _column(
    job: Job,
    grade: Grade,
    readings: Readings,
    spot: Spot,
    walls: tuple[str, ...],
    around: tuple[str, str],
    shape: tuple[tuple[Cut, ...], Top],
) -> Column:
    found, top = shape
    stands = fit(job, spot.role != "end", grade.offsets[spot.name])
    offset = stands.offset(grade.offsets[spot.name])
    length = stands.length if stands.made else offset + max(c.station for c in found)
    stock = length + stands.cut_off if stands.made else shortest(length + job.column.trim, job.column.stock)
    found, top = _stood(found, top, stands, offset)
    seat, longer = words(job, grade, spot.name, stands)
    return Column(
        name=spot.name,
        role=spot.role,
        walls=walls,
        neighbours=around,
        reading=readings.values[spot.name],
        offset=offset,
        seat=seat,
        longer=longer,
        flagged=spot.name in grade.again,
        cuts=found,
        top=top,
        length=length,
        stock=stock,
        drop=None if stock is None else stock - length,
        note=readings.notes.get(spot.name, ""),
        fit=stands,
    )


def _stood(found: tuple[Cut, ...], top: Top, stands: Fit, offset: float) -> tuple[tuple[Cut, ...], Top]:
    """Cuts and top on one seat, where a seat block makes them its own."""
    if not stands.seat_block:  # its centre ply reaches the bearing, and is cut there
        return tuple(replace(c, where=PLY) if c.where == ON_BLOCK else c for c in found), top
    if stands.made:
        ears = stands.length - offset
        top = replace(top, ears=tuple((x, ears) for x, _ in top.ears))
    return found, top
