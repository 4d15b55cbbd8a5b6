"""A wall as bodies of wood: what it weighs and where, against shapely."""

from __future__ import annotations

import math
from typing import Any

import opened
import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jobs import buildings, every, job
from msgspec.structs import astuple, replace
from test_lift import lifted, read

from layouts import bodies
from layouts.area import union
from layouts.bodies import Body, Weight, box, weigh
from layouts.building import Building, lay_out
from layouts.columns import cuts
from layouts.walls import Wall
from layouts.wood import Densities


def test_a_gable_weighs_and_balances_as_published() -> None:
    """Computed with shapely: (0,0)(10,0)(10,8)(5,10.5)(0,8): area 92.5, centroid (5, 4.653153). One inch thick at
    1728 lb/ft3 a square inch weighs a pound."""
    gable = ((0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (5.0, 10.5), (0.0, 8.0))
    found = weigh((Body("gable", gable, 1.0, 1728.0),))
    assert found.pounds == pytest.approx(92.5)
    assert found.along == pytest.approx(5)
    assert found.up == pytest.approx(4.653153, abs=1e-6)


def test_two_boxes_balance_between_them() -> None:
    """10 lb at 5 and 30 lb at 45: (50 + 1350) / 40 = 35; heights .5 and 1.5: (5 + 45) / 40 = 1.25. A tenth more is
    44 lb in the same place."""
    pair = (Body("a", box(0, 10, 0, 1), 1, 1728), Body("b", box(40, 50, 0, 3), 1, 1728))
    assert astuple(weigh(pair)) == pytest.approx((40, 35, 1.25))
    assert astuple(weigh(pair, 10)) == pytest.approx((44, 35, 1.25))


def test_a_body_seen_from_its_end_weighs_in_its_middle() -> None:
    found = weigh((Body("column", box(0, 5.5, 0, 100), 4.5, 36, middle=300),))
    assert astuple(found) == pytest.approx((5.5 * 100 * 4.5 * 36 / 1728, 300, 50))


def test_nothing_weighs_nothing() -> None:
    with pytest.raises(ValueError, match="nothing to weigh"):
        weigh(())
    with pytest.raises(ValueError, match="nothing to weigh"):
        weigh((Body("flat", ((0, 0), (1, 0), (2, 0)), 1, 36),))


corner = st.tuples(st.floats(-500, 500), st.floats(-500, 500))


@given(st.lists(corner, min_size=3, max_size=9), corner)
def test_centroids_against_shapely(points: list[tuple[float, float]], away: tuple[float, float]) -> None:
    """Any convex polygon, far from the origin too, in either direction."""
    hull = shapely.MultiPoint([(x + 9 * away[0], y + 9 * away[1]) for x, y in points]).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1e-2:
        return
    ring = tuple(hull.exterior.coords[:-1])
    for outline in (ring, ring[::-1]):
        area, x, y = bodies.centroid(outline)
        assert area == pytest.approx(hull.area, rel=1e-6)
        assert x == pytest.approx(hull.centroid.x, abs=1e-3)
        assert y == pytest.approx(hull.centroid.y, abs=1e-3)


@given(st.lists(corner, min_size=3, max_size=9), corner, corner)
def test_clipping_against_shapely(
    points: list[tuple[float, float]], a: tuple[float, float], b: tuple[float, float]
) -> None:
    hull = shapely.MultiPoint(points).convex_hull
    long = math.dist(a, b)
    if hull.geom_type != "Polygon" or hull.area < 1 or long < 1:
        return
    dx, dy = (b[0] - a[0]) / long * 1e4, (b[1] - a[1]) / long * 1e4
    left = shapely.Polygon(
        [
            (a[0] - dx, a[1] - dy),
            (a[0] + dx, a[1] + dy),
            (a[0] + dx - dy, a[1] + dy + dx),
            (a[0] - dx - dy, a[1] - dy + dx),
        ]
    )
    area, _, _ = bodies.centroid(bodies.clip(tuple(hull.exterior.coords[:-1]), a, b))
    assert area == pytest.approx(hull.intersection(left).area, abs=1e-3)


def by_shapely(building: Building, wall: Wall, densities: Densities, treated_up: float) -> Weight:
    """The wall again with shapely alone: boards by their four edges, columns as solids ply by ply, treated or not by
    intersection."""
    made, weight, along, up = building.job, 0.0, 0.0, 0.0

    def add(shape: Any, thick: float, density: float, middle: float | None = None) -> None:
        nonlocal weight, along, up
        if shape.is_empty:
            return
        part = shape.area * thick * density / 1728
        weight += part
        along += part * (shape.centroid.x if middle is None else middle)
        up += part * shape.centroid.y

    for course in wall.all_courses:
        row = course.row
        full = shapely.box(-1e4, row.low, 1e4, row.high)
        for piece in course.pieces:
            # on edge, or lying between columns with its thickness upright
            deep = row.section.wide if row.layer == "between" and row.key not in LEVELS else row.section.thick
            add(full.intersection(edges(piece)), deep, densities.of(row.treated))
    for u in wall.uprights:
        shape = shapely.Polygon([(u.left, u.low), (u.right, u.low), (u.right, u.tops[1]), (u.left, u.tops[0])])
        area = u.section.thick * u.section.wide
        add(shape, area / (u.right - u.left), densities.of(u.treated))
    for rake in wall.rakes:
        add(band(rake), rake.section.thick, densities.plain)
    ply, inner = made.column.width / made.column.plies, made.column.plies - 2
    low_of_all = min((-s.column.offset for s in bodies.own(wall) if s.column), default=0.0)
    for stand in bodies.own(wall):
        spot = building.plan.spot(stand.name)
        _, top = cuts(made, building.roof, building.plan, spot)
        low = -stand.column.offset if stand.column else low_of_all
        side = spot.role != "end"
        left = 0.0 if side else stand.left
        ears, centre = (
            shapely.Polygon([(left + t[0][0], low), *((left + x, h) for x, h in t), (left + t[-1][0], low)])
            for t in (top.ears, top.centre)
        )
        if side or made.column.endwall_face == "depth":
            shapes = [(ears, 2 * ply), (centre, inner * ply)]
        else:
            middle = shapely.box(stand.left + ply, -1e4, stand.right - ply, 1e4)
            shapes = [(ears.difference(middle), made.column.depth), (centre.intersection(middle), made.column.depth)]
        below = shapely.box(-1e4, -1e4, 1e4, low + treated_up)
        for shape, thick in shapes:
            add(shape.intersection(below), thick, densities.treated, stand.centre if side else None)
            add(shape.difference(below), thick, densities.plain, stand.centre if side else None)
    return Weight(weight, along / weight, up / weight)


LEVELS = ("header", "sill", "track board")


def band(rake: Any) -> Any:
    """A nailer along the slope, square to it, cut plumb at its ends."""
    (x0, y0), (x1, y1) = rake.start, rake.end
    line = shapely.LineString([(x0 - (x1 - x0), y0 - (y1 - y0)), (x1 + (x1 - x0), y1 + (y1 - y0))])
    wide = line.buffer(rake.section.wide, cap_style="flat", single_sided=True)
    if wide.centroid.y > line.centroid.y:
        wide = line.buffer(-rake.section.wide, cap_style="flat", single_sided=True)
    return wide.intersection(shapely.box(x0, -1e4, x1, 1e4))


def edges(piece: Any) -> Any:
    """A board by the cuts of its ends: what lies between them, over its whole width."""
    (a, b), (c, d) = piece.low, piece.high
    high = piece.row.high
    points = [(a, -1e4), (b, -1e4), (b, high - piece.right_rise), (d, high), (c, high), (a, high - piece.left_rise)]
    return shapely.Polygon(points)


@given(st.one_of(buildings(), opened.buildings(("outside", "both"))), st.sampled_from([0.0, 40.0, 60.0, 119.0]))
@settings(suppress_health_check=[HealthCheck.too_slow])
def test_every_wall_weighs_what_shapely_says(building: Building, treated_up: float) -> None:
    densities = Densities(37.0, 57.0)
    for wall in building.walls:
        found = weigh(bodies.of_wall(building.job, building.plan, building.roof, wall, densities, treated_up))
        want = by_shapely(building, wall, densities, treated_up)
        assert found.pounds == pytest.approx(want.pounds, rel=1e-9)
        assert found.along == pytest.approx(want.along, abs=1e-6)
        assert found.up == pytest.approx(want.up, abs=1e-6)


@pytest.mark.parametrize("face", ["width", "depth"])
@pytest.mark.parametrize("plies", ["3", "4"])
def test_every_ply_is_weighed_to_its_own_top(plies: str, face: str) -> None:
    building = read(
        {
            "column.plies": plies,
            "column.width": "6",
            "column.endwall_face": face,
            "tops.endwall_ears": "roof",
            "tops.endwall_centre": "bearing",
        }
    )
    densities = Densities(37.0, 57.0)
    for wall in building.walls:
        found = weigh(bodies.of_wall(building.job, building.plan, building.roof, wall, densities, 60))
        assert astuple(found) == pytest.approx(astuple(by_shapely(building, wall, densities, 60)))


def faces(wall: Wall) -> list[Any]:
    """Every board and column of a wall, as the wind sees them."""
    shapes = [shapely.Polygon(bodies.outline(p)) for c in wall.all_courses for p in c.pieces]
    shapes += [shapely.Polygon(bodies.standing(u)) for u in wall.uprights]
    shapes += [band(r) for r in wall.rakes]
    for stand in bodies.own(wall):
        low = bodies.bottom(wall, stand)
        shapes.append(shapely.Polygon([(stand.left, low), *stand.top, (stand.right, low)]))
    return shapes


@given(st.one_of(buildings(), opened.buildings(("outside", "both"))))
@settings(suppress_health_check=[HealthCheck.too_slow])
def test_the_wind_finds_what_shapely_finds(building: Building) -> None:
    for wall in building.walls:
        assert bodies.solid(wall) * 144 == pytest.approx(shapely.union_all(faces(wall)).area, rel=1e-6)


@given(
    st.lists(
        st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), min_size=3, max_size=6), min_size=1, max_size=6
    )
)
def test_areas_together_against_shapely(corners: list[list[tuple[int, int]]]) -> None:
    """Convex shapes in any place, in one another, one another's twins, side by side."""
    hulls = [shapely.MultiPoint(points).convex_hull for points in corners]
    shapes = [h for h in hulls if h.geom_type == "Polygon"]
    if shapes:
        outlines = [tuple(h.exterior.coords[:-1]) for h in shapes]
        assert union(outlines) == pytest.approx(shapely.union_all(shapes).area, abs=1e-6)
        assert union([o[::-1] for o in outlines]) == pytest.approx(union(outlines), abs=1e-6)


def test_an_opening_weighs_what_its_boards_do() -> None:
    """A 3 x 6-8 door in bay 2 of wall A takes out 38 in of a 2x8 (treated) and of three 2x4, puts in 96 in of 2x6 and
    two treated posts of 98.4167: at 36 and 54 lb/ft3, in cubic inches 38 x (10.875 x 54 + 3 x 5.25 x 36) off, 8.25 x
    (96 x 36 + 2 x 98.4167 x 54) on."""
    densities = Densities(36.0, 54.0)
    bare, door = (opened.read(*parts) for parts in ((), (opened.DOOR,)))

    def pounds(building: Building) -> float:
        return weigh(bodies.of_wall(building.job, building.plan, building.roof, building.walls[0], densities, 0)).pounds

    off = 38 * (10.875 * 54 + 3 * 5.25 * 36)
    on = 8.25 * (96 * 36 + 2 * 98.416667 * 54)
    assert pounds(door) - pounds(bare) == pytest.approx((on - off) / 1728)


@pytest.mark.parametrize(("treated", "zone"), [("all", math.inf), ("none", 0.0)])
def test_a_column_that_is_all_treated_or_not_at_all(treated: str, zone: float) -> None:
    building = read({"column.treated": treated})
    found = bodies.of_wall(building.job, building.plan, building.roof, building.walls[0], Densities(1.0, 2.0), 60)
    columns = [b.density for b in found if b.name in building.walls[0].line.columns]
    assert set(columns) == {2.0 if zone else 1.0}


def test_treated_ends_weigh_more_and_draw_the_centre_down() -> None:
    wall = read().walls[0]
    building = read()
    plain, heavy = (
        weigh(bodies.of_wall(building.job, building.plan, building.roof, wall, Densities(37, d), 60)) for d in (37, 57)
    )
    assert heavy.pounds > plain.pounds
    assert heavy.up < plain.up


def test_a_column_that_was_not_read_is_as_long_as_the_longest() -> None:
    made = job({"grade.line": "43"})
    full = dict(every(made).values)
    deep = lay_out(made, replace(every(made), values={**full, "A3": 47.0, "A5": 47.0}))
    gap = lay_out(
        made, replace(every(made), values={n: 47.0 if n == "A3" else v for n, v in full.items() if n != "A5"})
    )
    assert lifted(gap, "A").wet.pounds == pytest.approx(lifted(deep, "A").wet.pounds)
    assert (lifted(gap, "A").assumed, lifted(deep, "A").assumed) == (("A5",), ())
    assert lifted(gap, "A").foot == -4.0  # reading 47, line 43
