"""The rough opening: its size, its place along the wall and its heights."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import METRIC
from opened import DOOR, OVERHEAD, SLIDING, WINDOW, at, one
from test_openings import stretch

from layouts.openings import Opening


def tall(found: Opening) -> tuple[float, float]:
    return found.low, found.high


@pytest.mark.parametrize(
    ("part", "wide", "high"),
    [
        ({**OVERHEAD, "width": "7'", "height": "8'"}, 87, 97.5),  # 84 + 3, 96 + 1 1/2
        (DOOR, 38, 82),  # 36 + 2, 80 + 2
        (WINDOW, 36.5, 36.5),  # 1/2 each way
        (SLIDING, 72, 96),  # the clear opening
        ({**DOOR, "wider": "2 1/2", "higher": "1 1/4"}, 38.5, 81.25),
        ({**DOOR, "wider": 0, "higher": 0}, 36, 80),
    ],
)
def test_the_rough_opening_is_the_nominal_size_and_its_allowance(
    part: dict[str, Any], wide: float, high: float
) -> None:
    found = one(part)
    assert found.right - found.left == pytest.approx(wide)
    assert found.high - found.low == pytest.approx(high)


@pytest.mark.parametrize(
    ("kind", "wide", "high"),
    [("overhead", 2075, 2138), ("walk", 2050, 2150), ("window", 2012, 2112), ("sliding", 2000, 2100)],
)
def test_allowances_of_a_metric_job(kind: str, wide: float, high: float) -> None:
    sill = {"sill": 900} if kind == "window" else {}
    found = one({**DOOR, "kind": kind, "width": 2000, "height": 2100, **sill}, METRIC, truss__bearing=4200)
    assert (found.right - found.left) * 25.4 == pytest.approx(wide)
    assert (found.high - found.low) * 25.4 == pytest.approx(high)


@pytest.mark.parametrize(
    ("wall", "columns"), [("A", ("A7", "A6")), ("7", ("G7", "F7")), ("G", ("G1", "G2")), ("1", ("A1", "C1"))]
)
def test_a_place_counts_from_the_left_as_seen_from_outside(wall: str, columns: tuple[str, str]) -> None:
    """60 from the building line is 58 1/2 from the columns' corner; 19 to either side."""
    found = one({**DOOR, **at("5'"), "wall": wall})
    assert stretch(found) == pytest.approx((39.5, 77.5))
    assert found.columns == columns


def test_a_building_line_by_the_columns_is_their_corner() -> None:
    assert stretch(one({**DOOR, **at("5'")}, building__line="columns")) == pytest.approx((41, 79))


@pytest.mark.parametrize(("to", "ends"), [("left", (57.5, 83.5)), ("centre", (45.5, 71.5)), ("right", (33.5, 59.5))])
def test_a_place_is_that_of_the_centre_or_of_a_nominal_edge(to: str, ends: tuple[float, float]) -> None:
    """A 24 in door at 58 1/2 from the corner: its edge there, its rough opening an inch beyond."""
    assert stretch(one({**DOOR, **at("5'"), "width": "24", "measured_to": to})) == pytest.approx(ends)


@pytest.mark.parametrize(
    ("wall", "bay", "middle"),
    [
        ("A", 2, 142.5),  # clear from 96 3/4 to 188 1/4
        ("A", 1, 48.375),  # from the corner column's 4 1/2 to 92 1/4
        ("G", 6, 524.625),  # 573 - 48 3/8
        ("1", 1, 66.875),  # 5 1/2 to 128 1/4
        ("1", 2, 190.5),
        ("7", 4, 332.625),  # 288 3/4 to 381 - 5 1/2 = 375 1/2; 332 1/8
    ],
)
def test_a_bay_is_counted_from_the_left_and_its_clear_middle_taken(wall: str, bay: int, middle: float) -> None:
    found = one({**DOOR, "wall": wall, "bay": bay})
    want = middle if (wall, bay) != ("7", 4) else 332.125
    assert sum(stretch(found)) / 2 == pytest.approx(want)


@pytest.mark.parametrize("floor", ["3 1/2", "0", "10"])
def test_heights_are_from_the_finished_floor(floor: str) -> None:
    up = {"3 1/2": 3.5, "0": 0.0, "10": 10.0}[floor]
    assert tall(one(DOOR, grade__floor=floor)) == pytest.approx((up, up + 82))
    assert tall(one(WINDOW, grade__floor=floor)) == pytest.approx((up + 42, up + 42 + 36.5))


def test_heights_are_from_the_floor_wherever_the_bearing_is_told_from() -> None:
    assert tall(one(DOOR, truss__heights_from="floor")) == pytest.approx((3.5, 85.5))
