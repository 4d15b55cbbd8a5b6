"""What of openings can be built but wants a look first, in words: an endwall truss across one, sizes that look like a
slip of the pen, uprights wider than their columns are deep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from layouts.costs import Cost, Warned
from layouts.fields import Job
from layouts.framed import SAME, Opening, across
from layouts.lengths import show, up
from layouts.spec import FOOT
from layouts.walls import Wall

NARROW, LOW = 2 * FOOT, 5 * FOOT
"""Inches: no door is narrower or lower (common practice, no source)."""
NARROW_MM, LOW_MM = 600 / 25.4, 1500 / 25.4


def all_of(job: Job, laid: Sequence[Wall]) -> tuple[Warned, ...]:
    """Every warning of the openings, wall by wall."""
    found = [o for wall in laid for o in wall.openings]
    return (
        *(Warned(Cost.PART, across(job, o.name, o.bearing, o.high)) for o in found if o.high > o.bearing + SAME),
        *(one for o in found for one in _sizes(job, o)),
        *(one for wall in laid for o in wall.openings for one in _stands_out(job, wall, o)),
    )


def _stands_out(job: Job, wall: Wall, opening: Opening) -> Iterator[Warned]:
    """Jamb posts and cripples that are wider than the columns are deep, where rows or sheets lie on both of their
    faces: girts between them, or inside."""
    column, style, wide = job.column, job.style, opening.part.jamb.wide
    deep = column.width if wall.line.gable and column.endwall_face == "depth" else column.depth
    if job.girts.place != "outside" and opening.uprights and wide > deep + SAME:
        yield Warned(
            Cost.CUT,
            f"{opening.name}: its jamb posts and cripples are {show(wide, style)} wide, the columns "
            f"{show(deep, style)} deep: they stand out by {show(wide - deep, style, rounded=up)}.",
        )


def _sizes(job: Job, opening: Opening) -> Iterator[Warned]:
    """A door too small for anybody, and a walk door that lies. A window may be as small as its fields let it be."""
    part, style = opening.part, job.style
    if part.kind == "window":
        return
    least = (NARROW_MM, LOW_MM) if style.unit == "mm" else (NARROW, LOW)
    wide, tall = show(part.width, style), show(part.height, style)
    small = [
        f"{text} {how}"
        for text, how, size, limit in (
            (wide, "wide", part.width, least[0]),
            (tall, "high", part.height, least[1]),
        )
        if size < limit - SAME
    ]
    asked = "is it mm? A bare number is mm." if style.unit == "mm" else "is it feet? A bare number is inches."
    if small:
        yield Warned(Cost.CUT, f"{part.name}: this door is only {' and '.join(small)}: {asked}")
    elif part.kind == "walk" and part.width > part.height + SAME:
        said = f"{part.name}: this walk door is {wide} wide and {tall} high: are width and height swapped?"
        yield Warned(Cost.CUT, said)
