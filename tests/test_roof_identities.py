"""Identities of roofs of every shape, proved with sympy from lines alone, and the same numbers of the layout.

A roof is built here from straight lines: the chord's top through the heel, the roof plane as its parallel square to it
(``sympy.Line.parallel_line``, no formula for a plumb depth), the ridge as the point where two of them meet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest
import sympy
from jobs import job
from sympy import Line, Point, Rational, sqrt, symbols
from test_roof_shapes import LEAN

from layouts.columns import cuts
from layouts.plan import lay as lay_plan
from layouts.roof import Roof
from layouts.roof import build as build_roof

B, H, M, D, U, W, G = symbols("B H m d u W g", positive=True)
FAR_B, FAR_H, FAR_M = symbols("B2 H2 m2", positive=True)
"""Bearing, heel and slope at wall A, depth over the chord, a place, the width of the columns, the girts' thickness; and
those at the wall opposite."""


def line(at: Any, height: Any, slope: Any) -> Line:
    return Line(Point(at, height), Point(at + 1, height + slope))


def at(of: Line, u: Any) -> Any:
    """The height of a line at *u*."""
    first, second = of.points
    return first.y + (second.y - first.y) / (second.x - first.x) * (u - first.x)


def raised(of: Line, depth: Any, slope: Any) -> Line:
    """The parallel *depth* further up, square to a line of *slope*."""
    foot = of.points[0]
    one = sqrt(1 + slope**2)
    return of.parallel_line(Point(foot.x - slope / one * depth, foot.y + depth / one))


def same(one: Any, other: Any) -> bool:
    return bool(sympy.simplify(one - other) == 0)


# --- proved ----------------------------------------------------------------------------------------------------------


def test_short_and_long_point_on_every_slope() -> None:
    """Ears across a column c deep: long less short is c·m, up or down, whatever lies over the chord."""
    c, clear = symbols("c clear", positive=True)
    for slope in (M, -M):
        top = raised(line(0, B + H, slope), D, slope)
        assert same(at(top, U + c) - clear - (at(top, U) - clear), c * slope)


def test_a_ridge_cut_is_two_cuts() -> None:
    """A column as wide as c with the ridge e right of its left edge: up e·m, down (c - e)·m2."""
    c, e, x = symbols("c e x", positive=True)
    left, right = line(x, B, M), line(x, B, -FAR_M)
    assert same(at(left, x) - at(left, x - e), e * M)
    assert same(at(right, x) - at(right, x + c - e), (c - e) * FAR_M)


def test_the_ridge_from_both_sides() -> None:
    """Two pitches, two heels and two bearings: one ridge, whichever wall it is reckoned from; the roof planes meet over
    another place than the chords wherever the pitches differ."""
    left, right = line(0, B + H, M), line(W, FAR_B + FAR_H, -FAR_M)
    (x,) = sympy.solve(at(left, U) - at(right, U), U)
    assert same(x, (FAR_B + FAR_H - B - H + FAR_M * W) / (M + FAR_M))
    assert same(at(left, x), at(right, x))
    assert same(B + H + M * x, FAR_B + FAR_H + FAR_M * (W - x))
    over, opposite = raised(left, D, M), raised(right, D, -FAR_M)
    (top,) = sympy.solve(at(over, U) - at(opposite, U), U)
    apart = D * (sqrt(1 + FAR_M**2) - sqrt(1 + M**2)) / (M + FAR_M)
    assert same(top - x, apart)
    assert same(apart.subs(FAR_M, M), 0)


def test_a_plain_gable_has_its_ridge_in_the_middle() -> None:
    left, right = line(0, B + H, M), line(W, B + H, -M)
    (x,) = sympy.solve(at(left, U) - at(right, U), U)
    assert same(x, W / 2)


def test_an_eave_gives_back_its_bearing_on_every_slope() -> None:
    """Heel at the outside of the columns or of the girts; on the high side of one slope the girts add what they take
    on the low one."""
    for slope in (M, -M):
        for face in (0, G):
            chord = line(-face, B + H, slope)
            eave = at(raised(chord, D, slope), -G)
            assert same(eave - D * sqrt(1 + slope**2) - H + G * slope - face * slope, B)


def test_one_slope_from_both_of_its_eaves() -> None:
    """Between the eaves of one slope lies its pitch times all of the roof from girt to girt."""
    top = raised(line(0, B + H, M), D, M)
    assert same(at(top, W + G) - at(top, -G), M * (W + 2 * G))


def test_a_lean_to_meets_its_wall() -> None:
    """The height at the standing wall less what lies on the chord, plumb, and the pitch over the run: bearing and
    heel."""
    wall = at(raised(line(0, B + H, M), D, M), W)
    assert same(wall - D * sqrt(1 + M**2) - M * W, B + H)


def test_a_level_soffit_is_the_same_from_the_wall_and_from_the_tail() -> None:
    """Over an overhang o the roof plane falls o·m: a fascia f deep hangs from it there."""
    o, f = symbols("o f", positive=True)
    top = raised(line(0, B + H, M), D, M)
    assert same(at(top, -o) - f, at(top, 0) - o * M - f)


def test_a_dropped_truss_slides_along_its_slope() -> None:
    """A chord that is lowered plumb by y is the same line, square to it y/sqrt(1+m²) lower: what stood square over a
    place of the one stands y·m/sqrt(1+m²) further along the other."""
    y = symbols("y", positive=True)
    high = Point(U, at(line(0, B, M), U))
    low = line(0, B - y, M)
    foot = low.projection(high)
    plumb_under = Point(U, at(low, U))
    assert same(foot.distance(plumb_under) ** 2, (y * M / sqrt(1 + M**2)) ** 2)


def test_purlins_along_the_chord() -> None:
    """Equal level steps are equal steps along the slope, each times sqrt(1 + m²)."""
    s = symbols("s", positive=True)
    chord = line(0, B, M)
    for i in range(3):
        here, there = (Point(s * k, at(chord, s * k)) for k in (i, i + 1))
        assert same(here.distance(there), s * sqrt(1 + M**2))


# --- and the same of the layout ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Kind:
    """A roof as a job and as exact numbers: heights at wall A and opposite, slopes inward; ``None`` where there is no
    second slope."""

    changes: dict[str, Any]
    near: tuple[Any, Any, Any] = (Rational(144), Rational(37, 4), Rational(1, 3))
    far: tuple[Any, Any, Any] | None = (Rational(144), Rational(37, 4), Rational(1, 3))
    heel_out: Any = 0


KINDS = {
    "gable": Kind({}),
    "gable, heel at the girts": Kind({"truss.heel_at": "girt"}, heel_out=Rational(3, 2)),
    "ridge off the middle": Kind(
        # 12 ft from the building line, 142.5 from the columns: 153.25 + 142.5/3 = 200.75 - (381 - 142.5)/4 = 141.125
        {"roof.ridge": "12'", "truss.far_pitch": "3/12"},
        far=(Rational(1055, 8), Rational(37, 4), Rational(1, 4)),
    ),
    "two pitches": Kind({"truss.far_pitch": "7/12"}, far=(Rational(144), Rational(37, 4), Rational(7, 12))),
    "unequal eaves": Kind(
        {"truss.far_bearing": "13'-1 1/2", "truss.far_heel": "12"}, far=(Rational(315, 2), Rational(12), Rational(1, 3))
    ),
    "mono-slope": Kind({"roof.shape": "mono-slope"}, far=None),
    "mono-slope, heel at the girts": Kind(
        {"roof.shape": "mono-slope", "truss.heel_at": "girt"}, far=None, heel_out=Rational(3, 2)
    ),
    "lean-to": Kind({**LEAN, "truss.pitch": "2/12"}, (Rational(144), Rational(37, 4), Rational(1, 6)), None),
}
P = Rational(11, 2)  # purlins 2x6 on edge
GIRT = Rational(3, 2)


def lines(kind: Kind, across: Any) -> list[tuple[Line, Any]]:
    """The roof planes of a kind, and their slopes to the right."""
    bearing, heel, m = kind.near
    found = [(line(-kind.heel_out, bearing + heel, m), m)]
    if kind.far:
        bearing, heel, m = kind.far
        found.append((line(across + kind.heel_out, bearing + heel, -m), -m))
    return [(raised(one, P, slope), slope) for one, slope in found]


def laid(kind: Kind) -> tuple[Roof, Any]:
    roof = build_roof(job(kind.changes))
    across = Rational(384) - (GIRT if kind.changes.get("roof.shape") == "lean-to" else 2 * GIRT)
    assert roof.across == float(across)
    return roof, across


@pytest.mark.parametrize("name", KINDS)
def test_the_roof_plane_everywhere(name: str) -> None:
    """Every tenth inch and a bit of the width, outside the girts too: the lowest of the lines."""
    roof, across = laid(KINDS[name])
    tops = lines(KINDS[name], across)
    for u in (-GIRT, Rational(0), *(across * i / 37 for i in range(1, 37)), across, across + GIRT):
        want = min(at(one, u).evalf(30) for one, _ in tops)
        assert roof.top.over(float(u)) == pytest.approx(float(want), abs=1e-9), u


@pytest.mark.parametrize("name", KINDS)
def test_the_eaves(name: str) -> None:
    roof, across = laid(KINDS[name])
    tops = [one for one, _ in lines(KINDS[name], across)]
    assert roof.left.eave == pytest.approx(float(at(tops[0], -GIRT).evalf(30)), abs=1e-9)
    if "lean-to" in name:
        assert roof.right.eave == pytest.approx(float(at(tops[0], across).evalf(30)), abs=1e-9)
    else:
        assert roof.right.eave == pytest.approx(float(at(tops[-1], across + GIRT).evalf(30)), abs=1e-9)


@pytest.mark.parametrize("name", KINDS)
def test_the_points_of_the_ears(name: str) -> None:
    """Every sidewall column's short and long point: the roof plane over its two faces, 5 1/2 apart."""
    kind = KINDS[name]
    roof, across = laid(kind)
    made = job(kind.changes)
    plan = lay_plan(made)
    tops = lines(kind, across)
    for spot in plan.spots:
        if spot.role == "end":
            continue
        want = [min(at(one, Rational(u)).evalf(30) for one, _ in tops) for u in (spot.u0, spot.u1)]
        found = {c.key: c.station for c in cuts(made, roof, plan, spot)[0]}
        assert sorted(found[key] for key in ("short_point", "long_point")) == pytest.approx(
            sorted(float(w) for w in want), abs=1e-9
        ), spot.name
