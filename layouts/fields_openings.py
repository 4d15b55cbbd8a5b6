"""The fields of an opening: one ``[[opening]]`` table for each."""

from __future__ import annotations

from typing import Literal

from layouts.lumber import Section
from layouts.spec import FOOT, Part, take

MANY = 60


class OpeningPart(Part, frozen=True, kw_only=True):
    """``[[opening]]``"""

    name: str = take("name", "What the opening is called on all sheets, no two alike.")
    wall: str = take("name", "The wall it stands in, by its grid line.")
    kind: Literal["overhead", "sliding", "walk", "window"] = take(
        "choice",
        "What goes into it.",
        "overhead",
        choices=("overhead", "sliding", "walk", "window"),
    )
    width: float = take("length", "Nominal width; of a sliding door the clear opening's.", least=6, most=40 * FOOT)
    height: float = take("length", "Nominal height.", least=6, most=30 * FOOT)
    bay: int | None = take(
        "count",
        "The bay it stands in the middle of, counted from the left as seen from outside.",
        none=True,
        least=1,
        most=300,
    )
    at: float | None = take(
        "length",
        "Or its place: from the building line at the left end of the wall, as seen from outside.",
        none=True,
        most=1000 * FOOT,
    )
    measured_to: Literal["centre", "left", "right"] = take(
        "choice",
        "What `at` goes to: the opening's centre, or its left or right edge by the nominal width.",
        "centre",
        choices=("centre", "left", "right"),
    )
    sill: float = take("length", "Of a window: its rough opening's bottom above the finished floor.", "0", most=300)
    wider: float | None = take(
        "length",
        "The rough opening is wider by this, half of it to either side. Left out: overhead 3 in, walk 2 in, window"
        " 1/2 in, sliding nothing (75, 50, 12 and 0 mm). Read the label of the unit.",
        none=True,
        most=24,
    )
    higher: float | None = take(
        "length",
        "The rough opening is higher by this, at its top. Left out: overhead 1 1/2 in, walk 2 in, window 1/2 in,"
        " sliding nothing (38, 50, 12 and 0 mm).",
        none=True,
        most=24,
    )
    jambs: Literal["posts", "columns"] = take(
        "choice",
        "Its sides: jamb posts behind the girts, or the columns to either side, packed out where they are near.",
        "posts",
        choices=("posts", "columns"),
    )
    jamb_tops: Literal["row", "full"] = take(
        "choice",
        "Jamb posts end at the next board over the header, or go up to the bearing or to a carrier in their"
        " way, in a gable to the slope.",
        "row",
        choices=("row", "full"),
    )
    jamb: Section = take("section", "Size of jamb posts and cripples, edge to the opening.", "2x6", metric="45x140")
    header: Section = take(
        "section",
        "Size of the header, from column to column; between jambs where girts lie between the columns.",
        "2x6",
        metric="45x140",
    )
    sill_board: Section = take("section", "Size of a window's sill.", "2x6", metric="45x140")
    cripples: float = take(
        "length",
        "Cripples over the header and under the sill stand no further apart than this.",
        "4'",
        metric="1200 mm",
        least=FOOT,
        most=20 * FOOT,
    )
    girts: Literal["stop", "through"] = take(
        "choice",
        "Boards stop at the opening, or run through it and are cut out when the wall stands.",
        "stop",
        choices=("stop", "through"),
    )
    slides: Literal["left", "right", "both"] = take(
        "choice",
        "Of a sliding door: the way it goes, seen from outside; both with two leaves.",
        "right",
        choices=("left", "right", "both"),
    )
    lap: float = take("length", "Of a sliding door: what a leaf laps over each jamb.", "2", metric="50 mm", most=12)
    track: Section = take("section", "Of a sliding door: its track board.", "2x6", metric="45x140")
