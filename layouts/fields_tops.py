"""The fields that say how columns end at the top, and what carries the trusses where they stand between columns."""

from __future__ import annotations

from typing import Literal

from layouts.lumber import Section
from layouts.spec import FOOT, Part, take

EndTop = Literal["roof", "chord", "chord bottom", "bearing"]


class TopsPart(Part, frozen=True, kw_only=True):
    """``[tops]``"""

    seat: Literal["slot", "shoulder", "flat"] = take(
        "choice",
        "What a truss stands on: the slot that the inner plies leave, a shoulder cut in a side of the column, or its"
        " level top. Left out: under carriers the level top, of solid columns the shoulder.",
        "slot",
        choices=("slot", "shoulder", "flat"),
    )
    shoulder: Literal["front", "back", "both"] = take(
        "choice",
        "The side that the shoulder is cut in: to the front of the building, to its back, or both for two trusses.",
        "front",
        choices=("front", "back", "both"),
    )
    shoulder_depth: float = take(
        "length",
        "How deep a shoulder is cut; your engineer rules.",
        '1 1/2"',
        metric="38 mm",
        least=0.5,
        most=8,
    )
    least_ears: float | None = take(
        "length",
        "The least that ears reach above the bearing, for the bolts that the plan shows; less is warned of.",
        none=True,
        most=60,
    )
    sidewall_ears: Literal["roof", "chord"] = take(
        "choice",
        "Ears of the sidewall columns run to the roof plane (purlin tops) or the chord top.",
        "roof",
        choices=("roof", "chord"),
    )
    endwall_ears: EndTop = take(
        "choice",
        "Outer plies of the endwall columns run to the roof plane, the chord top, the underside of the top chord or the"
        " bearing.",
        "chord",
        choices=("roof", "chord", "chord bottom", "bearing"),
    )
    endwall_centre: Literal["ears", "roof", "chord", "chord bottom", "bearing"] = take(
        "choice",
        "Centre ply of the endwall columns: with the ears, or to a top of its own.",
        "ears",
        choices=("ears", "bearing", "chord bottom", "chord", "roof"),
    )
    clearance: float = take("length", "Ears stay this far below, plumb.", "0", most=12)


class CarrierPart(Part, frozen=True, kw_only=True):
    """``[carrier]``"""

    board: Section | None = take(
        "section",
        "Boards from column to column that carry the trusses, or leave it out where a truss stands on every column.",
        none=True,
    )
    where: Literal["both", "outside", "inside", "on top"] = take(
        "choice",
        "On the outside and the inside of the columns, on one of the two, or on their tops.",
        "both",
        choices=("both", "outside", "inside", "on top"),
    )
    boards: int = take(
        "choice",
        "Boards side by side: on each face, or on top.",
        "1",
        choices=("1", "2", "3"),
    )
    let_in: float = take("length", "How deep columns are shouldered for them; your engineer rules.", "0", most=6)
    step: float = take(
        "length",
        "Trusses on the carriers stand no further apart, front face to front face.",
        "4'",
        metric="1200 mm",
        least=FOOT,
        most=12 * FOOT,
    )
