"""What goes with which shape of roof, and whether its heights tell one: each mistake with its reason."""

from __future__ import annotations

from layouts import heights, pitch, roof
from layouts.fields import Job
from layouts.fields_roof import TrussPart
from layouts.lengths import down, show
from layouts.problems import Problem

TELLING = ("roof.shape", *(f"truss.{key}" for key in ("bearing", "eave", "pitch", "far_eave", "wall_height")))
MADE = "Made tops stand at one bearing on both walls."
NOT_OF = {
    # field, for which shapes it has no meaning, why
    "truss.far_heel": (("mono-slope", "lean-to"), "One slope has one heel: what stands over the far wall follows."),
    "truss.far_pitch": (("mono-slope", "lean-to"), "It has one slope."),
    "truss.far_bearing": (("lean-to",), "There are no columns at the standing wall."),
    "truss.far_eave": (("lean-to",), "Give truss.wall_height: where the roof meets the standing wall."),
    "truss.wall_height": (("gable", "mono-slope"), 'It is of roof.shape = "lean-to".'),
    "roof.ridge": (("mono-slope", "lean-to"), "It has no ridge."),
    "roof.far_overhang": (("lean-to",), "The roof ends at the standing wall."),
}


def given(job: Job, file: str) -> list[Problem]:
    """What a roof cannot do without: a bearing and a pitch, or what tells them."""
    part, shape = job.truss, job.roof.shape
    high = {"gable": None, "mono-slope": part.far_eave, "lean-to": part.wall_height}[shape]
    missing = []
    if part.bearing is None and part.eave is None and (shape != "lean-to" or high is None or part.pitch is None):
        example = "2400 mm" if job.style.unit == "mm" else "8'-0"
        right = f'Underside of the truss at its seat; or truss.eave. For example: bearing = "{example}"'
        missing.append(("truss.bearing", right))
    if part.pitch is None and high is None:
        example = "18.5 deg" if job.style.unit == "mm" else "4/12"
        field = {"mono-slope": "truss.far_eave", "lean-to": "truss.wall_height"}.get(shape)
        instead = f". Or give {field}, the height of the high side, and the pitch follows." if field else ""
        missing.append(("truss.pitch", f'{pitch.RIGHT} For example: pitch = "{example}"{instead}'))
    return [Problem(file, place, "", "must be given.", right) for place, right in missing]


def problems(job: Job, file: str) -> list[Problem]:
    """What is wrong with the roof of *job*: fields that its shape has no use for, too little or too much given, and
    what this shape cannot be built with."""
    found = []
    for place, (shapes, why) in NOT_OF.items():
        part, key = place.split(".")
        value = getattr(getattr(job, part), key)
        if value is not None and job.roof.shape in shapes:
            text = pitch.shown(value, job.style) if key == "far_pitch" else show(value, job.style)
            found.append(Problem(file, place, text, f'is not of a roof whose shape is "{job.roof.shape}".', why))
    if found:
        return found
    try:
        over = roof.build(job)
    except heights.Unsettled as error:
        text = "" if error.inches is None else show(error.inches, job.style)
        return [Problem(file, error.place, text, error.wrong, error.right)]
    return [
        *_dropped(job, file),
        *_unlike(job, over, file),
        *(_lean_to(job, file) if job.roof.shape == "lean-to" else ()),
    ]


def _dropped(job: Job, file: str) -> list[Problem]:
    """Endwall trusses keep what any truss has at least of heel, on both sides."""
    drop, style, least = job.truss.endwall_drop, job.style, TrussPart.specs["heel"].least
    found = heights.work_out(job)
    heel = min(found.heel, found.far_heel)
    left = heel - drop
    if not drop or left >= least - 1e-9:
        return []
    rest = f"a heel of only {show(left, style, rounded=down)}" if left > 1e-9 else "no heel"
    most = f"Up to {show(heel - least, style, rounded=down)}" if heel > least else "Leave it out"
    right = f"{most}: at least {show(least, style)} of heel are wanted."
    return [Problem(file, "truss.endwall_drop", show(drop, style), f"leaves the endwall trusses {rest}.", right)]


def _unlike(job: Job, over: roof.Roof, file: str) -> list[Problem]:
    """What wants both sidewalls of one height."""
    if over.plain or job.roof.shape == "lean-to":
        return []
    found = []
    if job.column.trims != "top" and abs(over.left.bearing - over.right.bearing) > 1e-9:
        found.append(Problem(file, "column.trims", job.column.trims, "does not go with two bearings.", MADE))
    heights = [(round(e.bearing, 6), round(e.wall_top, 6)) for e in (over.left, over.right)]
    if job.girts.top is not None and heights[0] != heights[1]:
        text, right = show(job.girts.top, job.style), "Leave it out: each wall has its own top row."
        found.append(Problem(file, "girts.top", text, "is one height, and the sidewalls have two.", right))
    return found


def _lean_to(job: Job, file: str) -> list[Problem]:
    """The standing wall is in the way of boards that run past, and of what ends at a corner column inside."""
    found = []
    for key in ("runs_past", "grade_board_runs_past"):
        if getattr(job.girts, key) != "side":
            right = f'Give girts.{key} = "side": boards of the endwalls end at the standing wall.'
            found.append(Problem(file, f"girts.{key}", getattr(job.girts, key), "runs into the standing wall.", right))
    if job.girts.place in ("inside", "both"):
        right = 'Girts of a lean-to go "outside" or "between": rows inside would need a corner at the standing wall.'
        found.append(Problem(file, "girts.place", job.girts.place, "is not laid out for a lean-to.", right))
    return found
