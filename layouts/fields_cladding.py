"""The fields that say how sheets go on walls and roof. None of them is a rule of ours: the crew sets them."""

from __future__ import annotations

from typing import Literal

from layouts.spec import FOOT, Part, take


class CladdingPart(Part, frozen=True, kw_only=True):
    """``[cladding]``"""

    cover: float | None = take(
        "length",
        "Cover width of a sheet: what it covers once it is lapped. Left out, no sheets are laid out.",
        none=True,
        least=6,
        most=5 * FOOT,
    )
    roof_cover: float | None = take(
        "length", "Cover width of a roof sheet, where it is another one.", none=True, least=6, most=5 * FOOT
    )
    start: Literal["left", "right", "middle"] = take(
        "choice",
        "Where the first sheet of a wall is set, seen from outside; `middle`: a joint stands in the middle.",
        "left",
        choices=("left", "right", "middle"),
    )
    first_cut: float = take(
        "length",
        "The first sheet of a wall is narrower by this; with `middle` the joint stands this far right of the middle.",
        "0",
        most=5 * FOOT,
    )
    roof_start: Literal["front", "back"] = take(
        "choice",
        "The end of the roof where the first sheets are set, on all slopes, so that ribs and screws line up.",
        "front",
        choices=("front", "back"),
    )
    roof_first_cut: float = take("length", "The first sheet of a slope is narrower by this.", "0", most=5 * FOOT)
    uncovered: float = take(
        "length",
        "What stays bare of the lowest grade board: from its bottom edge up to the sheets' bottom edge.",
        '4"',
        metric="100 mm",
        most=4 * FOOT,
    )
    top: float = take(
        "length",
        "Wall sheets end this much, plumb, below the soffit; without one below the roof sheets.",
        '1/2"',
        metric="12 mm",
        most=24,
    )
    gable_top: Literal["roof", "chord"] = take(
        "choice",
        "Gable sheets go up to the roof sheets, or to the top chord of the endwall truss where lookouts lie over it.",
        "roof",
        choices=("roof", "chord"),
    )
    split: float | None = take(
        "length",
        "Height of the top of lower wall sheets, a wainscot; upper ones go on from there. Left out, there is none.",
        none=True,
        least=6,
        most=20 * FOOT,
    )
    split_gap: float = take(
        "length", "Upper sheets begin this much over lower ones, for the trim.", '1/2"', metric="12 mm", most=12
    )
    openings: Literal["parts", "whole"] = take(
        "choice",
        "Sheets that stand over an opening with their whole width come in parts over and under it, or whole.",
        "parts",
        choices=("parts", "whole"),
    )
    drip: float = take(
        "length",
        "Roof sheets run out past the fascia by this, along the slope; without an overhang past the girts.",
        '1 1/2"',
        metric="40 mm",
        most=12,
    )
    ridge_gap: float = take(
        "length",
        "Roof sheets end this much below the ridge or the standing wall, along the slope.",
        '1 1/2"',
        metric="40 mm",
        most=24,
    )
    longest: float = take(
        "length",
        "The longest sheet there is. What is longer is parted, with an end lap over a girt or a purlin.",
        "40'",
        metric="12 m",
        least=4 * FOOT,
        most=100 * FOOT,
    )
    lap: float = take("length", "An end lap.", '12"', metric="300 mm", least=1, most=3 * FOOT)
    step: float = take(
        "length",
        "Lengths to order go in this step: down where a sheet ends below something, up where it is cut along a gable.",
        '1/8"',
        metric="1 mm",
        least=1 / 32,
        most=FOOT,
    )
