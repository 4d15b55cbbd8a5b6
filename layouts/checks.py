"""What only several fields together can tell: does the job describe a building that can be built?

Each check names the fields it stands on, so that a file with a field that cannot be read is still told everything else
that is wrong with it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection

from layouts import (
    cladding_checks,
    column_checks,
    fascia_checks,
    openings,
    plan,
    roof,
    roof_shape,
    row_checks,
    rows,
    seats,
    walls,
)
from layouts.fields import OPENING, PARTS, Job
from layouts.joints import NoJoint
from layouts.lengths import show, up
from layouts.lumber import bought_as
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
    if job.openings and not any(_touches(place, UNDER_OPENINGS) for place in (*bad, *(p.place for p in found))):
        # one that cannot be read leaves the others to be judged
        parts = [place.partition(".")[0].split() for place in bad]
        found += _openings(job, file, {int(p[1]) for p in parts if len(p) == 2 and p[0] == OPENING})
    return list(dict.fromkeys(found))


def _touches(place: str, stands_on: Collection[str]) -> bool:
    """Whether a bad *place* is among the fields, or the parts, of *stands_on*."""
    part = place.partition(".")[0]
    return place in stands_on or part in stands_on or part.partition(" ")[0] in stands_on


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
    spec = PARTS["building"].specs["bays"]
    bay = part.length / part.bays
    if spec.least <= bay <= spec.most:
        return []
    right = f"From {show(spec.least, style)} to {show(spec.most, style)}."
    return [Problem(file, "building.bays", str(part.bays), f"makes bays of {show(bay, style)}.", right)]


def _column_stock(job: Job, file: str) -> list[Problem]:
    return [] if job.column.stock else [_no_stock(file, "column.stock")]


def _board_stock(job: Job, file: str) -> list[Problem]:
    return [] if job.lumber.stock else [_no_stock(file, "lumber.stock")]


def _prices(job: Job, file: str) -> list[Problem]:
    """Prices of boards that the yard has, longer than what is trimmed off them; a board has one price."""
    part, style = job.lumber, job.style
    found = [
        Problem(
            file, "lumber.prices", f"{p.section} {show(p.length, style)}", "is no length in lumber.stock.", "Add it."
        )
        for p in part.prices
        if p.length not in part.stock
    ]
    counted = Counter((p.section, p.treated, p.length) for p in part.prices)
    for (section, treated, length), times in counted.items():
        if times > 1:
            text = f"{bought_as(section, treated)} {show(length, style)}"
            found.append(Problem(file, "lumber.prices", text, f"has {times} prices.", "A board has one: keep that."))
    if part.stock and part.trim >= part.stock[0]:
        right = f"The shortest board is {show(part.stock[0], style)}."
        found.append(Problem(file, "lumber.trim", show(part.trim, style), "leaves nothing of a board.", right))
    return found


def _no_stock(file: str, place: str) -> Problem:
    return Problem(file, place, "", "is empty.", "Name at least one length the yard has.")


def _bearing(job: Job, file: str) -> list[Problem]:
    """Room for a wall under the truss."""
    board = job.grade.board.wide * job.grade.boards
    low = roof.build(job).bearing
    if low >= board + 2 * job.girts.board.wide + 12:
        return []
    right = f"It must clear the grade board, {show(board, job.style)}, and at least one girt."
    place, text = _bearing_field(job), show(low - job.floor_shift, job.style)
    return [Problem(file, place, text, "is too low.", right)]


def _bearing_field(job: Job) -> str:
    """The field that the lower bearing comes from."""
    part, over = job.truss, roof.build(job)
    if over.right.bearing < over.left.bearing:
        return "truss.far_eave" if part.far_eave is not None else "truss.far_bearing"
    if part.bearing is None:
        return "truss.wall_height" if part.eave is None else "truss.eave"
    return "truss.bearing"


def _edges(job: Job, file: str) -> list[Problem]:
    """Tops are marked on one grade board at the most: the lowest one's bottom is the grade line."""
    if job.girts.edge == "bottom" or job.grade.boards == 1:
        return []
    wrong = "cannot be more than one where tops are marked."
    return [Problem(file, "grade.boards", str(job.grade.boards), wrong, 'Use girts.edge = "bottom".')]


def _limits(job: Job, file: str) -> list[Problem]:
    """Limits of the grade line that leave room for one."""
    part, style, found = job.grade, job.style, []
    if part.line is None and part.most is not None and part.most < part.least:
        right = f"At least grade.least, {show(part.least, style)}."
        found.append(Problem(file, "grade.most", show(part.most, style), "leaves no room for a line.", right))
    if not part.benchmark and part.floor_at:
        text, right = show(part.floor_at, style), "Name the point it is measured from: grade.benchmark."
        found.append(Problem(file, "grade.floor_at", text, "is above or below no point.", right))
    most = part.floor + (part.floor_within if part.benchmark else 0.0)
    if part.cover > most + 1e-9:
        right = f"Up to {show(most, style)}, or a higher grade.floor."
        found.append(Problem(file, "grade.cover", show(part.cover, style), "is more than any line gives.", right))
    return found


def _soffit(job: Job, file: str) -> list[Problem]:
    """A soffit is under an overhang, of one side at least."""
    part = job.roof
    if part.soffit == "none" or part.overhang > 0 or (part.far_overhang or 0.0) > 0:
        return []
    right = 'Give roof.overhang, or roof.soffit = "none".'
    return [Problem(file, "roof.soffit", job.roof.soffit, "needs an overhang.", right)]


def _purlins(job: Job, file: str) -> list[Problem]:
    """Purlins that do not lie in one another, whatever is left over: equal spaces, and the last two of fixed ones, are
    at least half a step."""
    part, style = job.roof, job.style
    least = 2 * (part.purlin.wide if part.purlins == "flat" else part.purlin.thick)
    if part.purlin_step >= least - 1e-6:
        return []
    text, right = show(part.purlin_step, style), f"At least {show(least, style, rounded=up)}."
    return [Problem(file, "roof.purlin_step", text, "has purlins lie in one another.", right)]


def _wood(job: Job, file: str) -> list[Problem]:
    """Wood that was rained on holds no less water than dry wood: what is lifted is judged wet."""
    part = job.wood
    if part.wet >= part.dry:
        return []
    right = f"At least wood.dry, {part.dry} percent."
    return [Problem(file, "wood.wet", str(part.wet), "is drier than dry wood.", right)]


def _plan(job: Job, file: str) -> list[Problem]:
    """Columns and their names."""
    try:
        plan.lay(job, file)
    except JobRefused as refused:
        return list(refused.problems)
    return []


def _openings(job: Job, file: str, skip: Collection[int] = ()) -> list[Problem]:
    """Openings that go where they are wanted; nothing of those whose number is in *skip*."""
    try:
        stands = plan.lay(job, file)
        over = roof.build(job)
        laid = rows.lay(job, over, file)
    except JobRefused:
        return []  # told by another check
    return openings.lay(job, stands, over, laid, file, skip)[1]


def _joints(job: Job, file: str) -> list[Problem]:
    """Every bay is spanned by some board."""
    try:
        stands = plan.lay(job, file)
        over = roof.build(job)
        laid = rows.lay(job, over, file)
        opened, wrong = openings.lay(job, stands, over, laid, file)
        if not wrong:
            walls.lay(job, stands, over, laid, (), opened)
    except JobRefused:
        return []  # told by another check
    except NoJoint as error:
        return [no_joint(job, error, file)]
    return []


def no_joint(job: Job, error: NoJoint, file: str) -> Problem:
    """A stretch of wall that no board reaches over."""
    place = {"front": "building.front_columns", "back": "building.back_columns"}.get(error.wall, "building.bays")
    longest, stretch = show(error.longest, job.style), show(error.end - error.start, job.style)
    if error.along is not None:
        long = show(error.along, job.style)
        wrong = f"takes {long} along the slope over {stretch} without a column, and the longest board is {longest}."
        return Problem(file, "girts.rake", "", wrong, "Add a column, or a longer board to lumber.stock.")
    wrong = f"leaves a stretch of {stretch} without a column, and the longest board is {longest}."
    return Problem(file, place, "", wrong, "Add a column, or a longer board to lumber.stock.")


ACROSS = ("building.width", "building.line", "girts.board", "girts.place", "roof.shape")
HEIGHTS = ("truss", "roof", "grade.floor", *ACROSS)
LIMITS = tuple(
    f"grade.{key}" for key in ("line", "least", "most", "benchmark", "floor", "floor_at", "floor_within", "cover")
)
UNDER_OPENINGS = ("building", "column", "truss", "roof", "grade", "girts", "wainscot", "names")
CHECKS: tuple[tuple[Check, tuple[str, ...]], ...] = (
    (_bays, ("building.bays", "building.length")),
    (_column_stock, ("column.stock",)),
    (_board_stock, ("lumber.stock",)),
    (_prices, ("lumber.prices", "lumber.stock", "lumber.trim")),
    (roof_shape.given, roof_shape.TELLING),
    (roof_shape.problems, HEIGHTS),
    (_bearing, (*HEIGHTS, "grade.board", "grade.boards", "girts.board")),
    (_edges, ("girts.edge", "grade.boards")),
    (column_checks.tops, ("column.trims", "column.notch", "column.ears", "column.treated", "column.centre_ply")),
    (column_checks.ears, ("column", *HEIGHTS)),
    (column_checks.cut_ears, ("column", "tops", "carrier", *HEIGHTS)),
    (seats.problems, ("column", "tops", "carrier", "truss.top_chord", "truss.each", "girts.board", "girts.place")),
    (_limits, LIMITS),
    (column_checks.corner_board, ("corners.board", "column.depth")),
    (_soffit, ("roof.soffit", "roof.overhang", "roof.far_overhang")),
    (
        fascia_checks.overhang,
        ("roof.overhang", "roof.far_overhang", "roof.fascia_thick", "girts.board", "girts.place", "truss.heel_at"),
    ),
    (fascia_checks.end_overhang, ("roof.end_overhang", "building.line", "girts.board", "girts.place")),
    (fascia_checks.leaning, HEIGHTS),
    (_wood, ("wood.wet", "wood.dry")),
    (_purlins, ("roof.purlin", "roof.purlins", "roof.purlin_step")),
    (cladding_checks.problems, ("cladding", "grade.board", "grade.boards", *HEIGHTS)),
    (_plan, ("building", "column", "girts.board", "roof.shape", "names", "grade.reference")),
    (
        row_checks.problems,
        ("building.width", "building.line", "truss", "roof", "grade", "girts", "wainscot", "tops", "carrier"),
    ),
    (
        _joints,
        ("building", "column", "tops", "carrier", "truss", "roof", "grade", "girts", "wainscot", "lumber", "opening"),
    ),
)
