"""Where things stand on a wall's page: parts, scales, names and levels that give way, in literal numbers."""

from __future__ import annotations

import pytest

from sheets import chains, view


def test_parted() -> None:
    assert view.parted(0, 100, [30, 60, 90], 60) == [(0, 60), (60, 100)]
    assert view.parted(0, 100, [30, 60, 90], 35) == [(0, 30), (30, 60), (60, 90), (90, 100)]
    assert view.parted(0, 50, [], 60) == [(0, 50)]


def test_scales_that_can_be_said() -> None:
    # 1/61 of full size: 1 in is 5'-6" = 66; metric 1:65
    assert 1 / view.even(1 / 61, False) == pytest.approx(66)
    assert 1 / view.even(1 / 61, True) == pytest.approx(65)
    assert 1 / view.even(1 / 60, False) == pytest.approx(60)


def test_spread() -> None:
    assert view.spread([1.0, 1.05, 3.0], 0.15, 0.0, 4.0) == pytest.approx([1.0, 1.15, 3.0])
    # two at the top go down, not over the edge
    assert view.spread([3.95, 4.0], 0.15, 0.0, 4.0) == pytest.approx([3.85, 4.0])
    # five at least 1 apart do not go in 2: every 1/2
    assert view.spread([0.0] * 5, 1.0, 0.0, 2.0) == pytest.approx([0.0, 0.5, 1.0, 1.5, 2.0])
    assert view.spread([], 1.0, 0.0, 2.0) == []


def test_levels() -> None:
    # 1 wide at 0, 1, 3: the first two touch, so the second steps down; the third is back on top
    assert chains.levels([(0.0, 1.0), (1.0, 1.0), (3.0, 1.0)]) == [0, 1, 0]
    assert chains.levels([(0.0, 2.0), (0.5, 2.0), (1.0, 2.0)]) == [0, 1, 2]
    assert chains.levels([]) == []
