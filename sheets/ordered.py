"""What is said of the columns in the order, and of what is not in it: the same on the cut sheet and in ``check``."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.building import Building
from layouts.bundles import Bundle
from layouts.fields import Job
from layouts.lengths import show
from layouts.seats import inner


def size(job: Job) -> str:
    """What a yard has to be told of columns but their length: how they are made, their size, what of them is
    treated."""
    part, style = job.column, job.style
    make = "solid" if part.make == "solid" else f"{part.plies} ply"
    treated = {"end": "lower end treated", "all": "treated", "none": "not treated"}[part.treated]
    return f"{make}, {show(part.width, style)} x {show(part.depth, style)}, {treated}"


def top(job: Job, bundle: Bundle, short: bool = False) -> str:
    """What the factory makes of the tops: where from the bottom end, and how much of the ears stands over that. Nothing
    of columns that are cut on site. *short* for a table that is not to be wide."""
    part, style = job.column, job.style
    ears = show(part.ears, style) if part.trims != "top" and part.ears else ""
    if bundle.made == "notch" and part.notch is not None:
        what, at = "TOP MADE: notch", part.notch
    elif bundle.made == "short centre" and part.centre_ply is not None:
        made = "TOP MADE" if part.trims != "top" else "MADE"
        what, at = f"{made}: {inner(job)} {'ends' if part.plies == 3 else 'end'}", part.centre_ply
    else:
        return ""
    if short:
        return f"{what} at {show(at, style)}" + (f", ears {ears}" if ears else "")
    return f"{what} {show(at, style)} from the bottom end" + (f", ears {ears} over that" if ears else "")


def left_out(building: Building) -> Iterator[str]:
    """What is to be ordered but is in no list of the order."""
    style, missing = building.job.style, building.unordered
    if missing:
        which = f"{', '.join(missing)}: no tag, or too long for the stock"
        yield f"column{'s' if len(missing) > 1 else ''} {which}"
    packed = [
        f"{o.name}, {' and '.join(f'{side} {show(room, style)}' for side, room in o.packing)}"
        for wall in building.walls
        for o in wall.openings
        if o.packing
    ]
    if packed:
        yield f"packing on columns that are jambs: {'; '.join(packed)}"
    count = sum(len(b.columns) for b in building.blocks)
    if count:
        yield (
            f"{count} seat blocks, listed under the columns" if count > 1 else "1 seat block, listed under the columns"
        )
