"""What trusses stand on: the slot of a laminated column, a shoulder, a level top; and what carriers leave of a column.

*bearing* is the station of the trusses' underside. Carriers are boards from column to column; their tops are at the
bearing (common practice, no source: the plan rules).
"""

from __future__ import annotations

from layouts.fields import Job
from layouts.fields_tops import CarrierPart
from layouts.lengths import Style, show
from layouts.lumber import Section
from layouts.problems import Problem

SAME = 1e-6
AIR = 1 / 16
"""Inches that a slot should be wider than its trusses (common practice, no source: 1/16 to 1/8)."""
LOOSE = 1 / 4
"""Inches that a slot may be wider than its trusses before they stand loose (common practice, no source)."""


def cut_wide(job: Job) -> float:
    """How much of a sidewall column's width ends at the bearing, inches."""
    column, tops = job.column, job.tops
    if tops.seat == "flat":
        return column.width
    if tops.seat == "shoulder":
        return tops.shoulder_depth * (2 if tops.shoulder == "both" else 1)
    return column.width / column.plies * (column.plies - 2)


def room(job: Job) -> tuple[float, float]:
    """How wide the place of the trusses is, and how wide they are, inches; a level top has any room."""
    each = job.truss.each
    if job.tops.seat == "shoulder":
        sides = 2 if job.tops.shoulder == "both" else 1
        return job.tops.shoulder_depth, job.truss.thickness * -(-each // sides)
    return cut_wide(job), job.truss.thickness * each


def inner(job: Job) -> str:
    """What of a laminated column stands between its outer plies."""
    return "centre ply" if job.column.plies == 3 else "inner plies"


def said(job: Job, style: Style) -> str:
    """Where the bearing is cut, on a tag and a rod."""
    tops, deep = job.tops, show(job.tops.shoulder_depth, style)
    if tops.seat == "slot":
        return "centre ply" if job.column.plies == 3 else f"both {inner(job)}"
    if tops.seat == "shoulder":
        side = "front and back" if tops.shoulder == "both" else tops.shoulder
        return f"shoulder, {side} side, {deep} deep"
    return "level cut, top of the carriers" if job.carrier.board else "level cut under the truss"


def level_top(job: Job, bearing: float) -> float:
    """Where a sidewall column with a level top ends: under carriers that lie on it, else at the bearing."""
    board = job.carrier.board
    return bearing - board.wide if board and job.carrier.where == "on top" else bearing


def carrier_low(job: Job, bearing: float) -> float | None:
    """The underside of the carriers, ``None`` where there are none."""
    return bearing - job.carrier.board.wide if job.carrier.board else None


def stands_out(job: Job, face: str) -> float:
    """How far carriers stand out from the columns on a *face*, ``outside`` or ``inside``, inches."""
    part = job.carrier
    if part.board is None or part.where not in ("both", face):
        return 0.0
    return max(part.boards * part.board.thick - part.let_in, 0.0)


def in_way(job: Job, start: float, end: float) -> bool:
    """Whether carriers lie where a board of a sidewall stands *start* to *end* inches in from the columns' outer faces:
    behind a face where they are let in, at any depth where they lie on the tops."""
    part, deep = job.carrier, job.column.depth
    if part.board is None:
        return False
    if part.where == "on top":
        return start < deep - AIR and end > AIR
    thick, depths = part.boards * part.board.thick, list[tuple[float, float]]()
    if part.where != "inside":
        depths.append((part.let_in - thick, part.let_in))
    if part.where != "outside":
        depths.append((deep - part.let_in, deep - part.let_in + thick))
    return any(min(end, far) - max(start, near) > AIR + SAME for near, far in depths)


def shouldered(job: Job) -> tuple[str, ...]:
    """The faces of columns that are cut for carriers."""
    part = job.carrier
    if part.board is None or part.where == "on top" or not part.let_in:
        return ()
    return ("outside", "inside") if part.where == "both" else (part.where,)


def problems(job: Job, file: str) -> list[Problem]:
    """What does not go together on the tops of the columns."""
    return [*_made(job, file), *_shoulder(job, file), *_ends(job, file), *_carriers(job, file)]


def _made(job: Job, file: str) -> list[Problem]:
    """What a solid column has not, and what a level top takes."""
    column, tops, found = job.column, job.tops, []
    if column.make == "solid" and tops.seat == "slot":
        right = 'Give tops.seat = "shoulder" or "flat".'
        found.append(Problem(file, "tops.seat", tops.seat, "needs plies, and the column is solid.", right))
    if column.make == "solid" and tops.endwall_centre != "ears":
        wrong = "is a top of the centre ply, and the column is solid."
        found.append(Problem(file, "tops.endwall_centre", tops.endwall_centre, wrong, 'Give "ears".'))
    if column.centre_ply is not None and tops.seat != "slot":
        text, right = show(column.centre_ply, job.style), 'Leave it out, or give tops.seat = "slot".'
        found.append(Problem(file, "column.centre_ply", text, "is for a seat block in the slot.", right))
    return found


def _shoulder(job: Job, file: str) -> list[Problem]:
    """A shoulder leaves something of the column, across it and along it."""
    column, tops, style, found = job.column, job.tops, job.style, []
    deep = show(tops.shoulder_depth, style)
    if tops.seat == "shoulder" and cut_wide(job) >= column.width - SAME:
        right = f"The column is {show(column.width, style)} wide."
        found.append(Problem(file, "tops.shoulder_depth", deep, "leaves nothing of the column.", right))
    cut = job.carrier.let_in * len(shouldered(job))
    if cut >= column.depth - SAME:
        text, right = show(job.carrier.let_in, style), f"The column is {show(column.depth, style)} deep."
        right += f" {_let_in(job)}" if job.carrier.where != "inside" else ""
        found.append(Problem(file, "carrier.let_in", text, "leaves nothing of the column.", right))
    return found


def _ends(job: Job, file: str) -> list[Problem]:
    """The underside of a chord needs the chord."""
    tops = job.tops
    if job.truss.top_chord or "chord bottom" not in (tops.endwall_ears, tops.endwall_centre):
        return []
    key = "endwall_ears" if tops.endwall_ears == "chord bottom" else "endwall_centre"
    right = "Give truss.top_chord, from the truss drawing."
    return [Problem(file, f"tops.{key}", "chord bottom", "needs the size of the top chord.", right)]


def _carriers(job: Job, file: str) -> list[Problem]:
    """Carriers on columns that end level, in the plane of the girts or of the columns."""
    part, tops, style = job.carrier, job.tops, job.style
    if part.board is None:
        return []
    found = []
    if tops.seat != "flat":
        wrong, right = "does not go with carriers.", 'Columns end level under them: give tops.seat = "flat".'
        found.append(Problem(file, "tops.seat", tops.seat, wrong, right))
    if job.column.trims != "top":
        wrong = "does not go with carriers: these tops are cut."
        found.append(Problem(file, "column.trims", job.column.trims, wrong, 'Give "top".'))
    if job.truss.each != 1:
        right = "Leave it out: trusses stand on the carriers, carrier.step apart at the most."
        found.append(Problem(file, "truss.each", str(job.truss.each), "does not go with carriers.", right))
    thick = part.boards * part.board.thick
    if part.let_in > thick + SAME:
        right = f"The boards are {show(thick, style)} thick in all."
        found.append(Problem(file, "carrier.let_in", show(part.let_in, style), "is deeper than the carriers.", right))
    out, girts = stands_out(job, "outside"), job.girt_out
    if min(abs(out), abs(out - girts)) > AIR:
        wrong = f"leaves the carriers {show(out, style)} outside of the columns."
        found.append(Problem(file, "carrier.let_in", show(part.let_in, style), wrong, _let_in(job)))
    return found


def _depths(job: Job, boards: int) -> dict[str, float]:
    """How deep so many boards on the outside are let in to end in a plane, by the name of that plane, inches."""
    thick = boards * job.carrier.board.thick if job.carrier.board else 0.0
    planes = {"columns": thick} | ({"girts": thick - job.girt_out} if job.girt_out else {})
    return {plane: deep for plane, deep in planes.items() if 0 <= deep <= CarrierPart.specs["let_in"].most}


def _let_in(job: Job) -> str:
    """How deep carriers can be let in; where no depth leaves anything of the column, what else can be done."""
    column, part, style = job.column, job.carrier, job.style
    faces = 2 if part.where == "both" else 1

    def go(boards: int) -> dict[str, float]:
        return {p: deep for p, deep in _depths(job, boards).items() if deep * faces < column.depth - SAME}

    if fits := [f"{show(deep, style)} they are flush with the {plane}" for plane, deep in go(part.boards).items()]:
        return f"Let in {', let in '.join(fits)}."
    fewer = next((f"carrier.boards = {n}, " for n in range(part.boards - 1, 0, -1) if go(n)), "")
    deeper = [deep * faces for deep in _depths(job, part.boards).values()]
    deep = f", or a column deeper than {show(min(deeper), style)}" if deeper else ""
    return f'They are too thick to be let in: take {fewer}carrier.where = "inside"{deep}.'


def in_girts(job: Job) -> bool:
    """Whether carriers stand in the plane of the girts outside: they are then the highest row there."""
    return stands_out(job, "outside") > AIR


def section(job: Job) -> Section | None:
    """What the carriers are, if there are any."""
    return job.carrier.board
