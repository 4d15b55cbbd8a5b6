"""The fields that say what a wall weighs, how it is lifted, and what it is nailed with."""

from __future__ import annotations

from typing import Literal

from layouts.nails import Nailing
from layouts.spec import FOOT, Part, take
from layouts.wood import SPECIES


class WoodPart(Part, frozen=True, kw_only=True):
    """``[wood]``"""

    species: str = take("choice", "What the lumber is, for its weight.", "southern pine", choices=tuple(SPECIES))
    density: float | None = take(
        "density",
        "Its weight in a cubic foot (metre) at the moisture of `dry`; left out, the species tells.",
        none=True,
    )
    dry: int = take("count", "Moisture of dry wood, percent.", "19", most=30)
    wet: int = take("count", "Moisture of wood that was rained on, percent.", "30", most=100)
    treated: int = take("count", "Moisture of wood fresh from treating, percent.", "90", most=150)


class LiftPart(Part, frozen=True, kw_only=True):
    """``[lift]``"""

    lies: Literal["inside", "outside"] = take(
        "choice",
        "Where a wall lies before it goes up: inside or outside of the footprint.",
        "inside",
        choices=("inside", "outside"),
    )
    hold: float = take(
        "length",
        "Where it is first held, from the lowest column bottom.",
        "9'",
        metric="2.7 m",
        least=12,
        most=60 * FOOT,
    )
    people: int = take("count", "Most people for a lift by hand; more is a machine lift.", "6", least=1, most=40)
    wind: float = take("speed", "No lift in gusts over this.", "15 mph", metric="25 km/h")
    extra: int = take("count", "Percent added to the weight for nails and blocks.", "10", most=50)
    treated_up: float = take(
        "length",
        "How far up columns with a treated end are treated.",
        "5'",
        metric="1.5 m",
        most=30 * FOOT,
    )


def _nailing(joint: str) -> Nailing | None:
    """A field of the nail schedule."""
    found: Nailing | None = take("nailing", f"{joint}: how many of which nail, like 2 of 4 x .177 ring HDG.", "")
    return found


class NailsPart(Part, frozen=True, kw_only=True):
    """``[nails]``: the plan's schedule, empty unless filled in."""

    girt: Nailing | None = _nailing("Girt to column")
    splice: Nailing | None = _nailing("Board splice, each end")
    grade: Nailing | None = _nailing("Grade board to column")
    grade_splice: Nailing | None = _nailing("Grade board splice, each end")
    wainscot: Nailing | None = _nailing("Wainscot nailer to column")
    soffit: Nailing | None = _nailing("Soffit nailer to column")
    carrier: Nailing | None = _nailing("Carrier to column")
    rake: Nailing | None = _nailing("Rake nailer")
    corner: Nailing | None = _nailing("Corner board, filler, block")
    jamb: Nailing | None = _nailing("Jamb")
    header: Nailing | None = _nailing("Header, sill, track board")
    spare: int = take("count", "Spare nails for the order, percent.", "10", most=100)
