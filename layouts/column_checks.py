"""What of a job's columns cannot be: which end is cut, and what goes with tops that are made as delivered."""

from __future__ import annotations

from layouts import roof
from layouts.fields import Job
from layouts.lengths import down, show, up
from layouts.piers import delivered
from layouts.problems import Problem


def tops(job: Job, file: str) -> list[Problem]:
    """What goes with the end of the columns that is cut."""
    part, style = job.column, job.style
    if part.trims == "top":
        right = 'Give column.trims = "bottom" or "none".'
        made = {"notch": part.notch, "ears": part.ears or None}
        return [
            Problem(file, f"column.{key}", show(inches, style), "is of a made top, and the top is cut.", right)
            for key, inches in made.items()
            if inches is not None
        ]
    return [*_bottom(job, file), *_neither(job, file)]


def _bottom(job: Job, file: str) -> list[Problem]:
    """Columns with made tops that are cut at the bottom: the notch tells how much."""
    part, found = job.column, []
    if part.trims != "bottom":
        return []
    if part.treated == "end":
        right = 'Give column.treated = "none" or "all", or cut the top.'
        found.append(Problem(file, "column.trims", part.trims, "would cut off the treated end.", right))
    if part.centre_ply is not None:
        text, right = show(part.centre_ply, job.style), 'Give column.trims = "top" or "none", or leave it out.'
        wrong = "asks for a seat block, and the bottom takes the offset."
        found.append(Problem(file, "column.centre_ply", text, wrong, right))
    if part.notch is None:
        right = "Measure from the bottom end, as delivered, up to the notch."
        found.append(Problem(file, "column.notch", "", 'must be given where column.trims = "bottom".', right))
    return found


def _neither(job: Job, file: str) -> list[Problem]:
    """Columns that are not cut: packing under them takes the offset, or a seat block does."""
    part = job.column
    if part.trims != "none":
        return []
    if part.notch is None and part.centre_ply is None:
        wrong = 'must be given where column.trims = "none".'
        right = (
            "Measure from the bottom end, as delivered, up to the notch; or give column.centre_ply for a seat block."
        )
        return [Problem(file, "column.notch", "", wrong, right)]
    if part.centre_ply is None:
        return []
    text, right = show(part.centre_ply, job.style), "Packing under the column takes the offset, or a seat block does."
    if part.notch is not None:
        return [Problem(file, "column.centre_ply", text, "stands beside column.notch: give one of them.", right)]
    return []


def ears(job: Job, file: str) -> list[Problem]:
    """Made ears stand beside the truss, whatever its seat block."""
    part = job.column
    if part.trims != "none" or part.centre_ply is None or part.centre_ply + part.ears > job.bearing:
        return []
    wrong = f"must reach past the bearing, {show(job.bearing, job.style)}."
    right = "From the top of the short centre ply up to the top of the ears: they stand beside the truss."
    return [Problem(file, "column.ears", show(part.ears, job.style), wrong, right)]


def cut_ears(job: Job, file: str) -> list[Problem]:
    """Ears that are cut end above the bearing at their lower point, on both walls: they stand beside the truss."""
    if job.tops.seat == "flat" or delivered(job) is not None:
        return []
    over, style = roof.build(job), job.style
    surface, deep = over.surface(job.tops.sidewall_ears), job.column.depth
    left = min(surface.over(0.0), surface.over(deep)) - over.left.bearing
    right = min(surface.over(over.across - deep), surface.over(over.across)) - over.right.bearing
    room = left if job.roof.shape == "lean-to" else min(left, right)  # up to what they are cut to, less nothing
    short = job.tops.clearance - room
    if short < -1e-6:
        return []
    where = f"{show(short, style, rounded=up)} BELOW the bearing" if short > 1e-6 else "at the bearing"
    if room > 1e-6:
        place, given = "tops.clearance", job.tops.clearance
        can = f"Less than {show(room, style, rounded=down)}: they stand beside the truss."
    else:  # the high wall of one slope, whose inner face is the lower one
        place, given = "truss.far_bearing", over.right.bearing - job.floor_shift
        can = "Lower it: they stand beside the truss."
    return [Problem(file, place, show(given, style), f"ends the ears of sidewall columns {where}.", can)]


def corner_board(job: Job, file: str) -> list[Problem]:
    """A corner board that the columns it stands on cover."""
    board, deep = job.corners.board, job.column.depth
    if board is None or board.wide <= deep + 1e-6:
        return []
    wrong = f"is {show(board.wide, job.style)} wide, and the corner columns are {show(deep, job.style)} deep."
    return [Problem(file, "corners.board", board.name, wrong, "No wider than they are deep; or leave it out.")]
