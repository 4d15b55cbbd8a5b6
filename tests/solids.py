"""A building put together in space from what is printed, by plain vector algebra and shapely: what stands where.

Nothing here comes from ``layouts`` but printed numbers: offsets, cuts as they are measured from each column's bottom
end, and each board's ends. Places are worked out again from the numbers of the job. Every member is a polygon across
the building (u, z) drawn out along it (v0, v1), so that two members meet where their stretches and their polygons do.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, combinations

from shapely import Polygon, box
from shapely.affinity import scale, translate

from layouts.boards import Wall
from layouts.building import Building

Point = tuple[float, float]


@dataclass(frozen=True)
class Shed:
    """The numbers of a building, as the test wrote them into its job. Heights above the grade line, slopes rise over
    run; *far_slope* is ``None`` where the roof is one slope; *standing* for a lean-to."""

    across: float
    bays: tuple[float, ...]
    ends: tuple[float, ...]
    face: float
    deep: float
    girt: float
    chord: float
    slope: float
    far_chord: float | None
    far_slope: float | None
    bearing: float
    far_bearing: float
    purlin: float
    standing: bool = False
    seat: str = "slot"
    carrier: float = 0.0
    let_in: float = 0.0
    where: str = ""

    def chord_top(self, u: float) -> float:
        """The top of the top chord at *u* from the outer face of wall A's columns."""
        near = self.chord + self.slope * u
        if self.far_slope is None or self.far_chord is None:
            return near
        return min(near, self.far_chord + self.far_slope * (self.across - u))

    def purlin_top(self, u: float) -> float:
        """The top of the purlins, which stand square on each slope."""
        near = self.chord + self.slope * u + self.purlin * math.hypot(1, self.slope)
        if self.far_slope is None or self.far_chord is None:
            return near
        far = self.far_chord + self.far_slope * (self.across - u)
        return min(near, far + self.purlin * math.hypot(1, self.far_slope))

    @property
    def along(self) -> float:
        """Out to out of the columns along the eaves."""
        return sum(self.bays)


@dataclass(frozen=True)
class Solid:
    """One member: *shape* across the building, from *v0* to *v1* along it."""

    kind: str
    name: str
    shape: Polygon
    v0: float
    v1: float

    def meets(self, other: Solid) -> float:
        """What two members have in common, cubic inches."""
        stretch = min(self.v1, other.v1) - max(self.v0, other.v0)
        if stretch <= 1e-6:
            return 0.0
        return float(self.shape.intersection(other.shape).area) * stretch


def columns(shed: Shed, built: Building) -> Iterator[Solid]:
    """Every column as its tag has it cut, ply by ply, stood on its seat: that is as far under the grade line as its
    reading is over the line reading."""
    line = built.grade.line
    assert line is not None
    last = max(built.plan.spots, key=lambda s: s.u1).grid.rstrip("0123456789")
    runs = list(accumulate(shed.bays))[:-1]
    for column in built.columns:
        foot = line - column.reading
        letter, number = column.name.rstrip("0123456789"), int("".join(filter(str.isdigit, column.name)))
        up = {c.key: foot + column.up(c.station) for c in column.cuts}
        if column.role == "end":
            yield from _end(shed, built, column.name, number, foot, up)
            continue
        v0 = 0.0 if number == 1 else shed.along - shed.face
        if column.role == "side":
            v0 = runs[number - 2] - shed.face / 2
        if shed.seat == "flat":
            yield _level(shed, column.name, letter == "A", foot, up, v0)
            continue
        outer, inner = (0.0, shed.deep) if letter == "A" else (shed.across, shed.across - shed.deep)
        low, high = ("short_point", "long_point")
        cut = {c.key: c.where for c in column.cuts}
        at = (outer, inner) if cut[low] == "outside face" else (inner, outer)
        assert letter in ("A", last)
        ears = Polygon([(at[0], foot), (at[1], foot), (at[1], up[high]), (at[0], up[low])])
        ply = shed.face / 3
        if shed.seat == "front":
            yield Solid("ear", column.name, ears, v0 + ply, v0 + shed.face)
            yield Solid("centre", column.name, box(min(at), foot, max(at), up["bearing"]), v0, v0 + ply)
            continue
        yield Solid("ear", column.name, ears, v0, v0 + ply)
        yield Solid("ear", column.name, ears, v0 + 2 * ply, v0 + shed.face)
        centre = box(min(at), foot, max(at), up["bearing"])
        yield Solid("centre", column.name, centre, v0 + ply, v0 + 2 * ply)


def _level(shed: Shed, name: str, at_a: bool, foot: float, up: dict[str, float], v0: float) -> Solid:
    """A column with a level top, less the shoulders of carriers that are let in."""
    top = up["bearing"] if "bearing" in up else up["level"]
    shape = box(0.0, foot, shed.deep, top)
    if "shoulder" in up:
        for face, cut in (
            ("outside", box(0.0, up["shoulder"], shed.let_in, top)),
            ("inside", box(shed.deep - shed.let_in, up["shoulder"], shed.deep, top)),
        ):
            shape = shape.difference(cut) if shed.where in ("both", face) else shape
    if not at_a:
        shape = scale(translate(shape, shed.across - shed.deep), -1, 1, origin=(shed.across - shed.deep / 2, 0))
    return Solid("centre", name, shape, v0, v0 + shed.face)


def _end(shed: Shed, built: Building, name: str, number: int, foot: float, up: dict[str, float]) -> Iterator[Solid]:
    """An endwall column, all plies to one top, its left edge to wall A."""
    spot = built.plan.spot(name)
    left, right = spot.u0, spot.u1
    if "ridge" in up:
        return  # a double cut: held by hand elsewhere
    heights = (up["low_edge"], up["high_edge"]) if "low_edge" in up else (up["level"], up["level"])
    rises = shed.chord_top(right) > shed.chord_top(left)
    top = heights if rises else heights[::-1]
    shape = Polygon([(left, foot), (right, foot), (right, top[1]), (left, top[0])])
    v0 = 0.0 if number == 1 else shed.along - shed.deep
    yield Solid("end", name, shape, v0, v0 + shed.deep)


def trusses(shed: Shed, deep: float, thick: float) -> Iterator[Solid]:
    """A truss at every pair of sidewall columns: both chords, *deep* and *thick*, in the plane of the centre ply."""
    inner = [v - thick / 2 for v in list(accumulate(shed.bays))[:-1]]
    places = [shed.face / 2 - thick / 2, *inner, shed.along - shed.face / 2 - thick / 2]
    if shed.seat == "front":  # in the front ply's place
        places = [v - shed.face / 3 for v in places]
    if shed.carrier:  # no more than four feet apart, the endwalls' flush with the columns
        count = math.ceil((shed.along - thick) / 48)
        places = [(shed.along - thick) * i / count for i in range(count + 1)]
    turns = [u for u in _turns(shed) if 0 < u < shed.across]
    line = [(u, shed.chord_top(u)) for u in (0.0, *turns, shed.across)]
    under = [(u, z - deep * math.hypot(1, shed.slope)) for u, z in line]
    top = Polygon([*line, *reversed(under)])
    # made with level seats: the bottom chord slopes from one column's inner face to the other's
    low, high, into = shed.bearing, shed.far_bearing, shed.deep
    seats = [(0.0, low), (into, low), (shed.across - into, high), (shed.across, high)]
    bottom = Polygon([*seats, *((u, z + deep) for u, z in reversed(seats))])
    for i, v in enumerate(places, 1):
        yield Solid("chord", f"truss {i}", top, v, v + thick)
        yield Solid("chord", f"truss {i}", bottom, v, v + thick)


def _turns(shed: Shed) -> list[float]:
    if shed.far_slope is None or shed.far_chord is None:
        return []
    return [(shed.far_chord - shed.chord + shed.far_slope * shed.across) / (shed.slope + shed.far_slope)]


def boards(shed: Shed, wall: Wall) -> Iterator[Solid]:
    """Every board of a wall's rows, stood up with it."""
    side = wall.line.side
    for course in wall.all_courses:
        row = course.row
        if row.key == "carrier":
            out, into = _carrier(shed, row.name, row.layer, row.section.thick)
        else:
            out, into = _depth(shed, row.layer, row.section.thick, row.section.wide, wall.line.gable)
        for piece in course.pieces:
            points = [(piece.low[0], row.low), (piece.low[1], row.low), (piece.high[1], row.high)]
            points.append((piece.high[0], row.high))
            name = f"{row.name} {piece.mark} wall {wall.line.name}"
            if wall.line.gable:
                turned = [(x if side == "front" else shed.across - x, z) for x, z in points]
                v = (out, into) if side == "front" else (shed.along - into, shed.along - out)
                yield Solid("board", name, Polygon(turned), *v)
            else:
                u = (out, into) if side == "left" else (shed.across - into, shed.across - out)
                ends = (piece.low[0], piece.low[1])
                v = ends if side == "right" else (shed.along - ends[1], shed.along - ends[0])
                yield Solid("board", name, box(u[0], row.low, u[1], row.high), *v)


def _depth(shed: Shed, layer: str, thick: float, wide: float, gable: bool) -> tuple[float, float]:
    """From the outer face of the columns in: where a board of a layer lies."""
    deep = shed.deep
    return {"outside": (-thick, 0.0), "between": (0.0, wide), "inside": (deep, deep + thick)}[layer]


def _carrier(shed: Shed, name: str, layer: str, thick: float) -> tuple[float, float]:
    """Where a board of a carrier lies: the first one of a face farthest out, of the inside nearest to the column."""
    number = int(name[-1]) if name[-1].isdigit() else 1
    deep, cut = shed.deep, shed.let_in
    if layer == "on top":
        return (number - 1) * thick, number * thick
    if layer == "inside":
        return deep - cut + (number - 1) * thick, deep - cut + number * thick
    return cut - number * thick, cut - (number - 1) * thick


def clashes(solids: list[Solid]) -> list[str]:
    """Members that run through one another."""
    found = []
    for one, other in combinations(solids, 2):
        if one.v1 <= other.v0 or other.v1 <= one.v0 or {one.kind, other.kind} == {"end", "chord"}:
            continue  # the endwall truss goes beside or between the endwall columns: that is the crew's choice
        a, b = one.shape.bounds, other.shape.bounds
        if a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]:
            continue
        if one.meets(other) > 1e-3:
            found.append(f"{one.name} runs through {other.name}")
    return found
