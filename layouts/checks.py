"""What only several fields together can tell: does the job describe a building that can be built?

Each check names the fields it stands on, so that a file with a field that cannot be read is still told everything else
that is wrong with it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from itertools import pairwise

from layouts import plan, roof, rows, walls
from layouts.fields import PARTS, Job, specs
from layouts.joints import NoJoint
from layouts.lengths import show
from layouts.problems import JobRefused, Problem

Check = Callable[[Job, str], list[Problem]]


def problems(job: Job, bad: Collection[str], file: str) -> list[Problem]:
    """All that is wrong with *job* beyond single fields. *bad* are fields that hold stand-ins: what stands on one of
    them is not judged."""
    found: list[Problem] = []
    for check, stands_on in CHECKS:
        # what follows from a mistake is not told beside it
        if not any(_touches(place, stands_on) for place in (*bad, *(p.place for p in found))):
            found += check(job, file)
    return list(dict.fromkeys(found))


def _touches(place: str, stands_on: Collection[str]) -> bool:
    """Whether a bad *place* is among the fields, or the parts, of *stands_on*."""
    return place in stands_on or place.partition(".")[0] in stands_on


def _bays(job: Job, file: str) -> list[Problem]:
    """Listed bays add up; equal ones are neither too short nor too long."""
    part, style = job.building, job.style
    if isinstance(part.bays, tuple):
        total = sum(part.bays)
        if abs(total - part.length) <= 1 / 32:
            return []
        off = show(abs(total - part.length), style)
        how = f"{off} too {'short' if total < part.length else 'long'}"
        right = f"They must add up to building.length, {show(part.length, style)}: {how}."
        return [Problem(file, "building.bays", "", f"add up to {show(total, style)}.", right)]
    spec = dict(specs(PARTS["building"]))["bays"]
    bay = part.length / part.bays
    if spec.least <= bay <= spec.most:
        return []
    right = f"From {show(spec.least, style)} to {show(spec.most, style)}."
    return [Problem(file, "building.bays", str(part.bays), f"makes bays of {show(bay, style)}.", right)]


def _column_stock(job: Job, file: str) -> list[Problem]:
    return [] if job.column.stock else [_no_stock(file, "column.stock")]


def _board_stock(job: Job, file: str) -> list[Problem]:
    return [] if job.lumber.stock else [_no_stock(file, "lumber.stock")]


def _no_stock(file: str, place: str) -> Problem:
    return Problem(file, place, "", "is empty.", "Name at least one length the yard has.")


def _bearing(job: Job, file: str) -> list[Problem]:
    """Room for a wall under the truss."""
    board = job.grade.board.wide * job.grade.boards
    if job.bearing >= board + 2 * job.girts.board.wide + 12:
        return []
    right = f"It must clear the grade board, {show(board, job.style)}, and at least one girt."
    return [Problem(file, "truss.bearing", show(job.truss.bearing, job.style), "is too low.", right)]


def _edges(job: Job, file: str) -> list[Problem]:
    """Tops are marked on one grade board at the most: the lowest one's bottom is the grade line."""
    if job.girts.edge == "bottom" or job.grade.boards == 1:
        return []
    wrong = "cannot be more than one where tops are marked."
    return [Problem(file, "grade.boards", str(job.grade.boards), wrong, 'Use girts.edge = "bottom".')]


def _soffit(job: Job, file: str) -> list[Problem]:
    if job.roof.soffit == "none" or job.roof.overhang > 0:
        return []
    right = 'Give roof.overhang, or roof.soffit = "none".'
    return [Problem(file, "roof.soffit", job.roof.soffit, "needs an overhang.", right)]


def _plan(job: Job, file: str) -> list[Problem]:
    """Columns and their names."""
    try:
        plan.lay(job, file)
    except JobRefused as refused:
        return list(refused.problems)
    return []


def _rows(job: Job, file: str) -> list[Problem]:
    """Rows that lie in one another cannot be built, nor a wall above its own eave."""
    over = roof.build(job, plan.across(job))
    try:
        laid = rows.lay(job, over, over.ridge, file)
    except JobRefused as refused:
        return list(refused.problems)
    found = [
        _overlap(job, a, b, file) for kind in (laid.side, laid.end) for a, b in pairwise(kind) if b.low < a.high - 1e-6
    ]
    top = laid.side[-1]
    if top.high > over.eave + 1e-6:
        right = f"The eave line is at {show(over.eave, job.style)}."
        place = _place(job, top.key, top.key)
        found.append(Problem(file, place, show(top.high, job.style), "puts the top row above the eave line.", right))
    return found


def _joints(job: Job, file: str) -> list[Problem]:
    """Every bay is spanned by some board."""
    try:
        stands = plan.lay(job, file)
        over = roof.build(job, stands.across)
        walls.lay(job, stands, over, rows.lay(job, over, over.ridge, file), ())
    except JobRefused:
        return []  # told by another check
    except NoJoint as error:
        return [no_joint(job, error, file)]
    return []


def no_joint(job: Job, error: NoJoint, file: str) -> Problem:
    """A stretch of wall that no board reaches over."""
    place = {"front": "building.front_columns", "back": "building.back_columns"}.get(error.wall, "building.bays")
    longest, stretch = show(error.longest, job.style), show(error.end - error.start, job.style)
    wrong = f"leaves a stretch of {stretch} without a column, and the longest board is {longest}."
    return Problem(file, place, "", wrong, "Add a column, or a longer board to lumber.stock.")


def _overlap(job: Job, a: rows.Row, b: rows.Row, file: str) -> Problem:
    low, high, other = (show(edge, job.style) for edge in (a.low, a.high, b.low))
    text = f"{a.name} {low} to {high}, {b.name} from {other}"
    return Problem(file, _place(job, a.key, b.key), text, "lie in one another.", "Move one, or change its size.")


def _place(job: Job, first: str, second: str) -> str:
    if "wainscot nailer" in (first, second):
        return "wainscot.height"
    if second == "soffit nailer":
        return "roof.overhang"
    if second == "top girt":
        return "truss.bearing" if job.girts.top is None else "girts.top"
    return "girts.step"


CHECKS: tuple[tuple[Check, tuple[str, ...]], ...] = (
    (_bays, ("building.bays", "building.length")),
    (_column_stock, ("column.stock",)),
    (_board_stock, ("lumber.stock",)),
    (_bearing, ("truss.bearing", "truss.heights_from", "grade.floor", "grade.board", "grade.boards", "girts.board")),
    (_edges, ("girts.edge", "grade.boards")),
    (_soffit, ("roof.soffit", "roof.overhang")),
    (_plan, ("building", "column", "girts.board", "names", "grade.reference")),
    (_rows, ("building.width", "building.line", "truss", "roof", "grade", "girts", "wainscot")),
    (_joints, ("building", "column", "truss", "roof", "grade", "girts", "wainscot", "lumber")),
)
