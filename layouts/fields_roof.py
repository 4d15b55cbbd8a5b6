"""The fields that say what the trusses and the roof are."""

from __future__ import annotations

from typing import Literal

from layouts.lumber import Section
from layouts.spec import FOOT, Part, take


class TrussPart(Part, frozen=True, kw_only=True):
    """``[truss]``"""

    bearing: float | None = take(
        "length",
        "Underside of the truss at its seat; or give `truss.eave`, and the bearing is worked back from it.",
        none=True,
        least=4 * FOOT,
        most=50 * FOOT,
    )
    eave: float | None = take(
        "length",
        "The eave line instead of the bearing: what the roof sheets lie on, at the outside of the girts, at wall A.",
        none=True,
        least=4 * FOOT,
        most=60 * FOOT,
    )
    far_bearing: float | None = take(
        "length",
        "Bearing at the wall opposite wall A, where it is another one.",
        none=True,
        least=4 * FOOT,
        most=60 * FOOT,
    )
    far_eave: float | None = take(
        "length", "Eave line at the wall opposite wall A, instead of its bearing.", none=True, least=4 * FOOT, most=900
    )
    heights_from: Literal["grade line", "floor"] = take(
        "choice",
        "What the bearing, the eave and the wainscot height are measured from.",
        "grade line",
        choices=("grade line", "floor"),
    )
    heel: float = take("length", "Bearing to the top of the top chord, plumb; raised or not.", least=2, most=60)
    far_heel: float | None = take(
        "length", "The same at the wall opposite wall A, where it is another one.", none=True, least=2, most=60
    )
    heel_at: Literal["column", "girt"] = take(
        "choice",
        "The face the heel is given at: outside of the column or outside of the girts.",
        "column",
        choices=("column", "girt"),
    )
    pitch: float | None = take(
        "pitch",
        "Rise on a run of 12, `4/12`, or `18.5 deg`, or `1:4`. A roof of one slope may leave it out and give the height"
        " of its high side.",
        none=True,
        least=0.5 / 12,
        most=24 / 12,
    )
    far_pitch: float | None = take(
        "pitch",
        "The pitch of the slope over the wall opposite wall A, where it is another one.",
        none=True,
        least=0.5 / 12,
        most=24 / 12,
    )
    wall_height: float | None = take(
        "length",
        "Of a lean-to: what the roof sheets lie on, where it meets the standing wall; instead of the bearing or pitch.",
        none=True,
        least=4 * FOOT,
        most=80 * FOOT,
    )
    thickness: float = take(
        "length",
        "Truss thickness, checked against the ply it replaces.",
        '1 1/2"',
        metric="38 mm",
        least=0.5,
        most=8,
    )
    each: int = take("choice", "Trusses that stand on one column.", "1", choices=("1", "2"))
    top_chord: Section | None = take(
        "section", "Size of the top chord: only where columns end at its underside.", none=True
    )
    endwall_drop: float = take(
        "length",
        "The top chords of the endwall trusses are this much lower, plumb, for lookouts that run out over them.",
        "0",
        most=24,
    )


class RoofPart(Part, frozen=True, kw_only=True):
    """``[roof]``"""

    shape: Literal["gable", "mono-slope", "lean-to"] = take(
        "choice",
        "Two slopes; one that rises from wall A to the wall opposite; or one that rises from wall A to a wall that"
        " stands already.",
        "gable",
        choices=("gable", "mono-slope", "lean-to"),
    )
    ridge: float | None = take(
        "length",
        "Where the ridge stands, from the building line at wall A. Left out, the pitches and the bearings tell.",
        none=True,
        least=2 * FOOT,
        most=200 * FOOT,
    )
    purlin: Section = take("section", "Purlin size.", "2x6", metric="45x140")
    purlins: Literal["edge", "flat", "flush"] = take(
        "choice",
        "Purlins stand on edge on the trusses, lie flat on them, or hang flush between them.",
        "edge",
        choices=("edge", "flat", "flush"),
    )
    purlin_spacing: Literal["equal", "fixed"] = take(
        "choice",
        "Purlins in equal spaces no more than `purlin_step`, or `purlin_step` each with the rest at the ridge: a rest"
        " too small for a purlin is shared by the last two spaces.",
        "equal",
        choices=("equal", "fixed"),
    )
    purlin_step: float = take(
        "length", "Along the slope, downhill edge to downhill edge.", '24"', metric="600 mm", least=6, most=10 * FOOT
    )
    purlin_first: float | None = take(
        "length",
        "From the end of the truss's tail, along the slope, to the first purlin. Left out: what its top, which leans"
        " out, needs to clear the back of a plumb fascia, without one the outside of the girts.",
        none=True,
        most=4 * FOOT,
    )
    purlin_ridge: float = take(
        "length",
        "From the uphill edge of the last purlin, along the top chord, to the ridge or the standing wall; its top leans"
        " downhill and is farther from it.",
        '4"',
        metric="100 mm",
        most=4 * FOOT,
    )
    lookout_step: float = take(
        "length",
        "Lookouts under an overhang at the endwalls stand no further apart, along the slope.",
        '24"',
        metric="600 mm",
        least=6,
        most=10 * FOOT,
    )
    fascia_rod: Literal["table", "rod"] = take(
        "choice",
        "Where the trusses meet the fascia: a table for the tape, or a rod at full scale too, which takes many pages.",
        "table",
        choices=("table", "rod"),
    )
    sheathing: float = take("length", "Sheathing on top of the purlins, under the roof sheets.", "0", most=6)
    overhang: float = take(
        "length",
        "Level, from the face the heel is given at to the outside of the fascia.",
        "0",
        most=8 * FOOT,
    )
    far_overhang: float | None = take(
        "length", "The same at the wall opposite wall A, where it is another one.", none=True, most=8 * FOOT
    )
    end_overhang: float = take(
        "length", "How far the roof runs out over the endwalls, level, from the building line.", "0", most=8 * FOOT
    )
    fascia: float = take("length", "Fascia depth.", '5 1/2"', metric="140 mm", most=24)
    fascia_thick: float = take(
        "length", "How thick the board is that the tails are cut short for.", '1 1/2"', metric="38 mm", most=6
    )
    fascia_cut: Literal["plumb", "square"] = take(
        "choice", "The fascia stands plumb, or square to the slope.", "plumb", choices=("plumb", "square")
    )
    soffit: Literal["level", "sloped", "none"] = take(
        "choice",
        "A level soffit with a nailer on the sidewalls that have an overhang, one along the slope, or none.",
        "none",
        choices=("level", "sloped", "none"),
    )
    soffit_nailer: Section = take(
        "section", "Soffit nailer size, on the flat against the columns.", "2x4", metric="45x90"
    )
