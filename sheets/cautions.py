"""What every sheet warns of, in one place: the usual cautions with their sources; local code and the engineer rule.

Limits are those of the sources named, in the unit of the job; a metric one is rounded to the safe side.
"""

from __future__ import annotations

from layouts import amounts
from layouts.book_head import Head
from layouts.lengths import Style
from layouts.lift import IDEAL


def _limits(style: Style) -> dict[str, str]:
    """The limits that the texts name."""
    metric = style.unit == "mm"
    return {
        "hands": "3 m" if metric else "10 ft",
        "machine": "5.4 m" if metric else "18 ft",
        "fall": "1.8 m" if metric else "6 ft",
        "person": amounts.limit(IDEAL, style),
        "dig": "" if metric else ", call 811",
        "sizes": "real sizes of boards are those the job gives"
        if metric
        else "real sizes of boards are the dry sizes of PS 20 unless the job gives its own",
    }


CAUTIONS = (
    "rodwright marks and cuts. It does not design structure: the sealed plan, the local code and your engineer rule.",
    "Lifting: nobody but the lifters near a wall until it is braced; hand-lifted walls of {hands} and more are"
    " restrained at the foot first, {machine} and more take a machine (Utah Admin. Code R614-7-4). {person} a person is"
    " the limit under ideal conditions (NIOSH 94-110). Know the weight before the lift.",
    "Nail guns: full sequential trigger, eye protection (NIOSH and OSHA nail gun guide). Falls: guard or arrest at"
    " {fall} (29 CFR 1926.501). Digging: have utilities located first (29 CFR 1926.651){dig}.",
    "Treated wood: mask, goggles, gloves; never burn it (Wood Handbook, chapter 15). Hot-dip galvanised nails in it.",
    "Measure one real truss (heel, span, butt) before the first column is cut.",
)
ASSUMED = (
    "Heights are stations above the grade line, the bottom edge of the grade board. {readings}.",
    "Columns are cut at the top, unless the job says that their bottoms are trimmed. Every mark is measured from the"
    " datum and rounded once.",
    "Boards meet on column centres; {sizes}.",
)
WALL = (
    "LIFTING A WALL CAN KILL. What it takes stands on the sheet {sheet}. Nobody under it; one voice calls the lift;"
    " brace before release. Nail guns: full sequential trigger, eye protection. Guard against falls from {fall} (29 CFR"
    " 1926.501). Hot-dip galvanised nails in treated wood; gloves and mask when cutting it, never burn it. Your plan,"
    " code and engineer rule. Not a lift plan."
)
WORK = (
    "NAIL GUNS: full sequential trigger, eye protection. FALLS: guard against them from {fall} (29 CFR 1926.501).",
    "TREATED WOOD: hot-dip galvanised nails in it; gloves and mask when cutting it, never burn it.",
)


def of_job(style: Style) -> list[str]:
    """The index's cautions."""
    return [text.format(**_limits(style)) for text in CAUTIONS]


def assumed(style: Style, head: Head) -> list[str]:
    """What is taken for granted, on the index; *head* says how readings are taken."""
    readings = "Readings are rod or tape from the beam down to the bracket seat: larger is lower"
    if head.up:
        readings = "Readings are heights of the bracket seat: larger is higher"
    return [text.format(readings=readings, **_limits(style)) for text in ASSUMED]


def of_wall(sheet: str, style: Style) -> str:
    """The box on a wall's picture; *sheet* is where its lift is told."""
    return WALL.format(sheet=sheet, **_limits(style))


def of_work(style: Style) -> list[str]:
    """What the sheet of a wall's lift and nails warns of."""
    return [text.format(**_limits(style)) for text in WORK]
