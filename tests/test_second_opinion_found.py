"""What the second opinion found, each as the smallest job that showed it; numbers by hand from the README's words."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from random_written import toml
from reported import no_cutting_plan, reported

__all__ = ["no_cutting_plan"]
pytestmark = pytest.mark.usefixtures("no_cutting_plan")

SMALL: dict[str, Any] = {
    "job.name": "Small barn",
    "building.width": "30'",
    "building.length": "40'",
    "building.bays": 4,
    "building.front_columns": ["10'", "20'"],
    "building.back_columns": ["10'", "20'"],
    "truss.bearing": "12'",
    "truss.heel": "9 1/4",
    "truss.pitch": "4/12",
    "grade.line": "43",
}


def small(changes: dict[str, Any]) -> dict[str, Any]:
    """The report of a small building with some changes, one column read."""
    return reported(toml({**SMALL, **changes}), "column,reading\nA1,45\n")


def marks(report: dict[str, Any], rod: int, word: str) -> list[dict[str, Any]]:
    """The marks of a rod that are called by a word."""
    return [mark for mark in report["rods"][rod]["marks"] if word in mark["name"]]


LEVEL = {"roof.soffit": "level", "roof.overhang": "12"}


def test_tops_of_a_nailer() -> None:
    """girts.step: edge to like edge. Tops of a 2x6 soffit nailer and 2x4 girts: equal steps, no more than 24."""
    report = small({**LEVEL, "girts.edge": "top", "roof.soffit_nailer": "2x6"})
    tops = [mark["station"]["value"] for word in ("Girt", "Soffit") for mark in marks(report, 0, word)]
    assert max(b - a for a, b in pairwise(tops)) <= 24.25


def test_a_wide_space_of_the_higher_wall_is_told() -> None:
    """No more than 22.8 wanted, and the last space of wall E is 26.8: that is laid out, and has to be told."""
    report = small({"girts.step": "22.8", "truss.far_bearing": "12'-4"})
    rows = [mark["station"]["value"] for word in ("Girt", "Top") for mark in marks(report, -3, word)]
    wide = max(b - a for a, b in pairwise(rows)) > 22.8 + 0.25
    assert not wide or any("girt space" in warning for warning in report["warnings"])


def test_a_sloped_soffit_is_the_same_however_the_heel_is_told() -> None:
    """One roof, its heel told at the column (9 1/4) or 1 1/2 further out at the girt (8 3/4): all else is alike."""
    sloped = {"roof.soffit": "sloped", "roof.overhang": "12"}
    one, two = small(sloped), small({**sloped, "truss.heel_at": "girt", "truss.heel": "8 3/4"})
    assert one["columns"][0]["cuts"] == two["columns"][0]["cuts"]
    assert marks(one, 0, "Soffit")[0]["station"] == marks(two, 0, "Soffit")[0]["station"]


def test_a_soffit_keeps_its_nailer() -> None:
    """roof.soffit: a level soffit with a nailer on the sidewalls; girts.top is of the highest row of girts."""
    assert marks(small({**LEVEL, "girts.top": "11'"}), 0, "Soffit")


def test_purlins_lap() -> None:
    """No two purlins lie in one another: purlin 9 from 181.6 to 183.1 and purlin 10 from 182.66 on."""
    report = small({"roof.purlin_spacing": "fixed", "roof.purlin_step": "22.7"})
    assert min(b - a for a, b in pairwise(s["value"] for s in report["roof"]["slopes"][0]["purlins"])) >= 1.5


def test_one_top_for_walls_that_are_alike() -> None:
    """girts.top is refused where sidewalls have two heights; without a soffit, overhangs make none."""
    found = small({"girts.top": "8'", "roof.overhang": "18", "roof.far_overhang": "12"})
    for rod in range(len(found["rods"])):
        assert [mark["high"]["value"] for mark in marks(found, rod, "Top girt")] in ([96.0], [])  # eight feet, if any
    assert marks(found, 0, "Top girt")


def test_a_square_fascia() -> None:
    """One slope, 2/12, overhangs 18, fascia 1 1/2 square to the slope, 2x6 purlins on edge: cos 0.98639, sin 0.16440.

    The fascia's upper outer corner is 18 out. Square to it, the chord's end is 1.5 cos = 1.4796 in; from the purlin's
    top down to the chord it goes 5.5 sin = 0.9042 in on the low side, and as much out on the high side. So the run is
    357 + (18 − 1.4796 − 0.9042) + (18 − 1.4796 + 0.9042) = 390.0408.
    """
    square = {"roof.shape": "mono-slope", "truss.pitch": "2/12", "roof.overhang": "18", "roof.fascia_cut": "square"}
    slope = small(square)["roof"]["slopes"][0]
    assert slope["tail"]["value"] == pytest.approx(18 - 1.4796 - 0.9042, abs=1e-3)
    assert slope["run"]["value"] == pytest.approx(390.0408, abs=1e-3)
