"""Published values and outside mathematics, each with its source beside it.

*Seen*: the text or number was read in a copy of the place named. Identities are proved with sympy; whole columns are
computed again in fifty digits with mpmath, from geometry and not from the code under test.
"""

from __future__ import annotations

import math
from typing import Any

import mpmath
import pytest
import shapely
import sympy
from jobs import build, job

from layouts.lengths import Style, show
from layouts.roof import Plane, Surface, plumb
from layouts.roof import build as build_roof


def printed(inches: float) -> str:
    return show(inches, Style())


# Rafter table as stamped on framing squares, inches of rafter per foot of run (seen; sqrt(144 + rise^2) agrees).
# A rafter on a foot of run is as long as a foot of depth is plumb: both are times sqrt(1 + m^2).
TABLE = {3: 12.37, 4: 12.65, 5: 13.00, 6: 13.42, 7: 13.89, 8: 14.42, 9: 15.00}
TABLE |= {10: 15.62, 11: 16.28, 12: 16.97, 18: 21.63}


@pytest.mark.parametrize(("rise", "per_foot"), TABLE.items())
def test_rafter_table_of_framing_squares(rise: int, per_foot: float) -> None:
    assert plumb(12, rise / 12) == pytest.approx(per_foot, abs=0.005)


def test_rafter_table_at_two_in_twelve() -> None:
    """Some squares stamp 12.16, some 12.17 (seen)."""
    assert 12.16 <= plumb(12, 2 / 12) <= 12.17


def test_rafter_of_navedtra_14044() -> None:
    """NAVEDTRA 14044, Builder 3 & 2, vol. 2 (seen): rise 7, span 16 ft: 13.89 x 8 = 111.12 = 9'-3 1/8"."""
    assert printed(plumb(16 / 2 * 12, 7 / 12)) == "9'-3 1/8\""
    assert printed(13.89 * 8) == "9'-3 1/8\""


def test_rafter_of_griffith() -> None:
    """Ira S. Griffith, Carpentry, 1916, section 17 (seen): span 25 ft, 6 in 12: 12.5 x 13.42 = 167.75. Two decimals of
    a table: within 1/16."""
    assert plumb(12.5 * 12, 6 / 12) == pytest.approx(167.75, abs=1 / 16)
    assert printed(12.5 * 13.42) == "13'-11 3/4\""


def test_rafter_of_en5156() -> None:
    """US Army EN5156 (seen): rise 13 in a foot, run 10'-4": 15'-3", which is to the whole inch."""
    assert round(plumb(10 * 12 + 4, 13 / 12)) == 15 * 12 + 3


@pytest.mark.parametrize(("depth", "rise", "plumb_depth"), [(5.5, 4, 5.7975), (7.25, 6, 8.1057), (9.25, 12, 13.0815)])
def test_plumb_depths(depth: float, rise: int, plumb_depth: float) -> None:
    """Computed: depth times sqrt(1 + m^2), four decimals."""
    assert plumb(depth, rise / 12) == pytest.approx(plumb_depth, abs=5e-5)


@pytest.mark.parametrize(
    ("width", "length", "diagonal"), [(24, 30, "38'-5\""), (36, 48, "60'-0\""), (40, 60, "72'-1 5/16\"")]
)
def test_squaring_diagonals_of_a_real_job(width: int, length: int, diagonal: str) -> None:
    """Computed; equal diagonals and 3-4-5 square a building: US Army EN0069A (seen)."""
    ends: dict[str, object] = {
        "lumber.stock": ["12'", "16'", "24'"],
        "building.front_columns": [f"{width // 2}'"],
        "building.back_columns": [f"{width // 2}'"],
    }
    size = {"building.width": f"{width}'", "building.length": f"{length}'", "building.bays": 3}
    plan = build({**size, **ends, "building.line": "columns"}).plan
    assert printed(plan.column_diagonal) == printed(plan.building_diagonal) == diagonal
    # outside of girts the building's diagonal is the same, and that of the columns is another one
    plan = build({**size, **ends, "building.line": "girts"}).plan
    assert printed(plan.building_diagonal) == diagonal
    assert printed(plan.column_diagonal) != diagonal
    corners = [(s.u0 if s.u0 == 0 else s.u1, s.v0 if s.v0 == 0 else s.v1) for s in plan.spots if s.role == "corner"]
    assert plan.column_diagonal == pytest.approx(math.dist(corners[0], corners[2]))
    assert plan.column_diagonal == pytest.approx(math.dist(corners[1], corners[3]))


def test_gable_area_and_centroid() -> None:
    """Computed with shapely: (0,0) (10,0) (10,8) (5,10.5) (0,8): area 92.5, centroid (5, 4.653153)."""
    surface = Surface((Plane(0, 8, 0.5), Plane(10, 8, -0.5)))
    wall = shapely.Polygon([(0, 0), (10, 0), *reversed(surface.profile(0, 10))])
    assert wall.area == pytest.approx(92.5)
    assert (wall.centroid.x, wall.centroid.y) == pytest.approx((5, 4.653153), abs=1e-6)


def test_plumb_depth_is_what_geometry_says() -> None:
    """sympy: two parallels of slope m, d apart square to them, stand d sqrt(1 + m^2) apart plumb."""
    d, m, c = sympy.symbols("d m c", positive=True)
    # distance of the line y = m x + c from the origin is |c| / sqrt(1 + m^2); set it to d
    foot = sympy.Point(-m * c / (1 + m**2), c / (1 + m**2))
    assert sympy.simplify(foot.y - m * foot.x - c) == 0  # on the line
    assert sympy.simplify(foot.y * m + foot.x) == 0  # square to it
    (height,) = sympy.solve(sympy.sqrt(sympy.simplify(foot.x**2 + foot.y**2)) - d, c)
    assert sympy.simplify(height - d * sympy.sqrt(1 + m**2)) == 0
    for depth, rise in ((5.5, 4), (7.25, 6.5), (1.5, 12)):
        assert plumb(depth, rise / 12) == pytest.approx(float(height.subs({d: depth, m: rise / 12})), abs=1e-12)


def test_drop_over_a_level_run() -> None:
    """sympy: a line of slope m falls u m over a run u."""
    u, m, h = sympy.symbols("u m h", positive=True)
    line = h + m * u
    assert sympy.simplify(line - line.subs(u, 0) - u * m) == 0
    plane = Plane(10, 100, -4 / 12)
    assert plane.over(10) - plane.over(10 + 18) == pytest.approx(18 * 4 / 12)


@pytest.mark.parametrize("face", ["column", "girt"])
@pytest.mark.parametrize("purlins", ["edge", "flat", "flush"])
def test_eave_stack_up(face: str, purlins: str) -> None:
    """sympy: the roof plane through the heel, met at the outside of the girts, is the printed sum."""
    bearing, heel, p, m, g, u = sympy.symbols("B H p m g u", positive=True)
    at = 0 if face == "column" else -g
    chord = bearing + heel + m * (u - at)
    eave = (chord + p * sympy.sqrt(1 + m**2)).subs(u, -g)
    formula = bearing + heel + p * sympy.sqrt(1 + m**2) - (g * m if face == "column" else 0)
    assert sympy.simplify(eave - formula) == 0
    depth = {"edge": sympy.Rational(11, 2), "flat": sympy.Rational(3, 2), "flush": sympy.Integer(0)}[purlins]
    slope, girt = sympy.Rational(5, 12), sympy.Rational(3, 2)
    want = eave.subs({bearing: 136, heel: sympy.Rational(53, 4), p: depth, m: slope, g: girt})
    changes = {"truss.bearing": "11'-4", "truss.heel": "13 1/4", "truss.pitch": "5/12", "roof.purlin": "2x6"}
    roof = build_roof(job({**changes, "roof.purlins": purlins, "truss.heel_at": face}))
    assert roof.eave == pytest.approx(float(want), abs=1e-12)
    assert math.fsum(s.inches for s in roof.sums[0].steps) == pytest.approx(float(want), abs=1e-12)


def test_offset_ridge() -> None:
    """sympy: two slopes meet at x = (H_R - H_L + m_R W) / (m_L + m_R)."""
    x, left, right, ml, mr, width = sympy.symbols("x HL HR mL mR W", positive=True)
    (meet,) = sympy.solve(left + ml * x - (right + mr * (width - x)), x)
    assert sympy.simplify(meet - (right - left + mr * width) / (ml + mr)) == 0
    values = {left: 118, right: 140, ml: sympy.Rational(3, 12), mr: sympy.Rational(6, 12), width: 430}
    surface = Surface((Plane(0, 118, 3 / 12), Plane(430, 140, -6 / 12)))
    assert surface.breaks() == pytest.approx((float(meet.subs(values)),))


JOB: dict[str, Any] = {
    "building.width": "33'-7 3/16",
    "building.length": "47'-5 1/2",
    "building.bays": 5,
    "building.front_columns": ["9'-1 5/16", "21'-2 1/8"],
    "building.back_columns": ["11'", "23'"],
    "column.width": "4 3/16",
    "column.depth": "5 7/16",
    "truss.bearing": "13'-1 3/16",
    "truss.heel": "11 13/16",
    "truss.pitch": "4.5/12",
    "truss.heel_at": "girt",
    "roof.purlin": "1 1/2 x 5 3/8",
    "tops.endwall_ears": "roof",
    "tops.endwall_centre": "chord",
    "tops.clearance": "3/16",
    "grade.line": "45 3/16",
}


def test_whole_columns_in_fifty_digits() -> None:
    """mpmath, 50 digits: every cut of a sidewall and an endwall column from the job's numbers alone."""
    with mpmath.workdps(50):
        f = mpmath.mpf
        m = f(45) / 120
        inset = f(3) / 2
        across = f(33 * 12 + 7) + f(3) / 16 - 2 * inset
        chord_at_face = f(13 * 12 + 1) + f(3) / 16 + f(11) + f(13) / 16 + inset * m
        purlin = (f(5) + f(3) / 8) * mpmath.sqrt(1 + m * m)
        clear = f(3) / 16
        offset = f(47) + f(9) / 16 - f(45) - f(3) / 16
        short = chord_at_face + purlin - clear
        centre = f(9 * 12 + 1) + f(5) / 16 - inset
        low, high = centre - f(67) / 32, centre + f(67) / 32  # half of 4 3/16
        third = (f(4) + f(3) / 16) / 3
        want = {
            "A2": {
                "bearing": f(13 * 12 + 1) + f(3) / 16,
                "short_point": short,
                "long_point": short + (f(5) + f(7) / 16) * m,
            },
            "B1": {
                "low_edge": short + low * m,
                "high_edge": short + high * m,
                "centre_low_edge": chord_at_face + (low + third) * m,
                "centre_high_edge": chord_at_face + (high - third) * m,
            },
            # D1 stands beyond the ridge: 21'-2 1/8 - 1 1/2 = 252 5/8 of 400.1875, low edge away from wall A
            "D1": {
                "low_edge": short + (across - (f(252) + f(5) / 8) - f(67) / 32) * m,
                "high_edge": short + (across - (f(252) + f(5) / 8) + f(67) / 32) * m,
                "centre_low_edge": chord_at_face + (across - (f(252) + f(5) / 8) - f(67) / 32 + third) * m,
                "centre_high_edge": chord_at_face + (across - (f(252) + f(5) / 8) + f(67) / 32 - third) * m,
            },
        }
        want_up = {name: {key: float(offset + at) for key, at in cuts.items()} for name, cuts in want.items()}
    building = build(JOB, {"A2": "47 9/16", "B1": "47 9/16", "D1": "47 9/16"})
    got = {c.name: {cut.key: c.up(cut.station) for cut in c.cuts} for c in building.columns}
    assert set(got) == set(want_up)
    for name, cuts in want_up.items():
        assert got[name] == pytest.approx(cuts, abs=1e-10), name
