"""Heights of the roof: planes, the printed sums, and the trade's own arithmetic."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from jobs import build, buildings, job

from layouts.building import Building
from layouts.lengths import Style, show
from layouts.roof import Plane, Roof, Step, Sum, Surface, plumb
from layouts.roof import build as build_roof

GABLE = Surface((Plane(0.0, 100.0, 0.5), Plane(40.0, 100.0, -0.5)))


def roof(changes: dict[str, Any], across: float = 429.0) -> Roof:
    """The roof over columns *across* inches out to out."""
    return build_roof(job({"building.line": "columns", "building.width": across, **changes}))


def printed(inches: float) -> str:
    return show(inches, Style())


def test_a_surface_is_the_lowest_of_its_planes() -> None:
    assert [GABLE.over(u) for u in (-2, 0, 10, 20, 30, 40)] == [99, 100, 105, 110, 105, 100]
    assert GABLE.breaks() == (20,)
    assert GABLE.lowered(3).over(20) == 107


def test_a_profile_bends_only_where_the_ridge_is() -> None:
    assert GABLE.profile(0, 10) == ((0, 100), (10, 105))
    assert GABLE.profile(10, 24) == ((10, 105), (20, 110), (24, 108))
    assert GABLE.profile(20, 40) == ((20, 110), (40, 100))


@pytest.mark.parametrize(
    ("height", "stretch"),
    [(90, (0, 40)), (100, (0, 40)), (104, (8, 32)), (109.5, (19, 21)), (110, None), (111, None)],
)
def test_what_lies_under_a_surface(height: float, stretch: tuple[float, float] | None) -> None:
    assert GABLE.under(height, 0, 40) == stretch


def test_a_level_plane_is_all_or_nothing() -> None:
    level = Surface((Plane(0, 144, 0),))
    assert level.under(144, 0, 10) == (0, 10)
    assert level.under(145, 0, 10) is None
    assert level.breaks() == ()


def test_an_offset_ridge_from_eaves_of_two_heights() -> None:
    """x = (H_R - H_L + m_R W) / (m_L + m_R): 40' wide, eaves 10' and 12', both 4/12: ridge 17'-8" at 23'-0"."""
    uneven = Surface((Plane(0, 120, 4 / 12), Plane(480, 144, -4 / 12)))
    (ridge,) = uneven.breaks()
    assert printed(ridge) == "23'-0\""  # (24 + 160) / (2/3) = 276
    assert printed(uneven.over(ridge)) == "17'-8\""  # 120 + 92


def test_a_single_slope() -> None:
    single = Surface((Plane(0, 120, 2 / 12),))
    assert single.over(360) == pytest.approx(180)  # 30' at 2/12 rises 5'
    assert single.breaks() == ()
    assert single.under(150, 0, 360) == pytest.approx((180, 360))


# common practice, no source
@pytest.mark.parametrize(("depth", "pitch", "says"), [(3.5, 4, '3 11/16"'), (5.5, 4, '5 13/16"'), (1.5, 4, '1 9/16"')])
def test_purlins_stand_taller_plumb(depth: float, pitch: float, says: str) -> None:
    assert printed(plumb(depth, pitch / 12)) == says


def test_stack_up_and_soffit_of_the_trade() -> None:
    """Common practice, no source: 12'-0" + 15 1/2" + 3 11/16" = 13'-7 3/16", less 4" and 5 1/2" = 12'-9 11/16"."""
    found = roof(
        {
            "truss.bearing": "12'-0",
            "truss.heel": "15 1/2",
            "truss.pitch": "4/12",
            "roof.purlin": "2x4",
            "roof.purlins": "edge",
            "roof.overhang": "12",
            "roof.fascia": "5 1/2",
            "roof.soffit": "level",
        }
    )
    assert printed(found.top.over(0)) == "13'-7 3/16\""
    steps = {s.name: printed(s.inches) for s in found.sums[1].steps}
    assert steps == {
        "bearing above grade line": "12'-0\"",
        "heel at the column face": '15 1/2"',
        "purlin 2x4 on edge, plumb": '3 11/16"',
        "fall over the overhang": '-4"',
        "fascia depth": '-5 1/2"',
    }
    assert found.soffit is not None
    assert printed(found.soffit) == printed(found.sums[1].total) == "12'-9 11/16\""


# Worked in the trade (common practice, no source): 12' bearing, 4/12, 2x4 purlins on edge, heel 3 15/16 at the column
@pytest.mark.parametrize(
    ("bearing", "heel", "purlins", "eave"),
    [
        ("12'", "3 15/16", "edge", "12'-7 1/8\""),  # 144 + 3.94 + 3.69 - 0.50
        ("11'-4 7/8", "3 15/16", "edge", "12'-0\""),  # solved back for an eave of 12'
        ("11'-0 1/2", "12", "flush", "12'-0\""),  # the same eave with a raised heel, purlins flush
    ],
)
def test_eave_lines(bearing: str, heel: str, purlins: str, eave: str) -> None:
    changes = {"truss.bearing": bearing, "truss.heel": heel, "roof.purlin": "2x4", "roof.purlins": purlins}
    found = roof(changes)
    assert printed(found.eave) == eave
    assert "outside of the girts" in found.sums[0].name


def test_purlins_flat_and_flush() -> None:
    base = {"truss.bearing": "12'", "truss.heel": "10", "roof.purlin": "2x6"}
    assert roof({**base, "roof.purlins": "flush"}).top.over(0) == 154  # 144 + 10
    flat = roof({**base, "roof.purlins": "flat"})
    assert flat.top.over(0) == pytest.approx(154 + 1.5 * math.sqrt(10) / 3)  # sqrt(1 + 1/9) = sqrt(10) / 3
    assert flat.chord.over(0) == 154


def test_a_heel_at_the_girt_face_raises_the_chord_at_the_column() -> None:
    """By girt thickness times slope: 1 1/2 at 4/12 is 1/2 (common practice, no source)."""
    at_column = roof({"truss.heel_at": "column"})
    at_girt = roof({"truss.heel_at": "girt"})
    assert at_girt.chord.over(0) - at_column.chord.over(0) == pytest.approx(0.5)
    assert at_girt.eave - at_column.eave == pytest.approx(0.5)
    assert [s.name for s in at_girt.sums[0].steps][-1] == "purlin 2x6 on edge, plumb"
    assert [printed(s.inches) for s in at_column.sums[0].steps][-1] == '-1/2"'


def test_the_ridge_is_in_the_middle() -> None:
    found = roof({"truss.bearing": "12'", "truss.heel": "9"}, across=429)
    assert found.ridge == pytest.approx(214.5)
    assert found.chord.over(found.ridge) == pytest.approx(144 + 9 + 71.5)  # 214.5 / 3


def test_heights_from_the_floor_say_so() -> None:
    found = roof({"truss.heights_from": "floor", "grade.floor": "3 1/2"})
    assert found.bearing == 147.5
    assert [(s.name, s.inches) for s in found.sums[0].steps[:2]] == [
        ("finished floor above grade line", 3.5),
        ("bearing above finished floor", 144),
    ]


def test_no_soffit_no_sum() -> None:
    found = roof({"roof.overhang": "12"})
    assert found.soffit is None
    assert len(found.sums) == 1


def test_surfaces_by_name() -> None:
    found = roof({})
    assert found.surface("bearing").over(99) == 144
    assert found.surface("chord") is found.chord
    assert found.surface("roof") is found.top


def test_a_sum_adds_its_steps() -> None:
    assert Sum("x", (Step("a", 0.1), Step("b", 0.2), Step("c", -0.3))).total == pytest.approx(0, abs=1e-15)


@given(buildings())
def test_printed_sums_meet_the_roof_they_speak_of(building: Building) -> None:
    """The eave sum is added up from the job; the plane is laid over the columns: they meet outside of the girts."""
    found = building.roof
    assert found.sums[0].total == pytest.approx(found.top.over(-building.job.girts.board.thick), abs=1e-9)
    assert found.top.over(building.plan.across) == pytest.approx(found.top.over(0), abs=1e-9)


def test_build_uses_the_columns_width() -> None:
    assert build({"building.line": "columns"}).roof.ridge == pytest.approx(192)  # 384 / 2
    assert build().roof.ridge == pytest.approx(190.5)  # (384 - 3) / 2
