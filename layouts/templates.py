"""Patterns at full scale: cuts to trace on the real board, by rise and run on its real size; no protractor needed.

A slope of m rises b·m over a board b wide (identity). Here the tops of columns; boards of the roof and the gables in
``layouts.template_boards``. Every number is taken from where the cuts are laid out, none is worked out anew.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from layouts import seats, template_boards
from layouts.columns import cuts
from layouts.fields import Job
from layouts.lengths import show
from layouts.piers import delivered
from layouts.pitch import shown
from layouts.plan import Plan, WallLine
from layouts.roof import Roof
from layouts.rows import Rows
from layouts.template import SAME, Aid, Arrow, Figure, Label, Path, Template, clean, legs

BELOW, ABOVE = 1.7, 0.4
"""Inches of column drawn under and over a cut: an arrow stands under it."""
MANY = 24
"""More columns than these are told by their wall where all of it is meant."""


def lay(job: Job, plan: Plan, roof: Roof, rows: Rows) -> tuple[Template, ...]:
    """Every pattern of a building, like ones once."""
    found = (*_tops(job, plan, roof), *_gauges(job, plan, roof), *template_boards.lay(job, plan, roof, rows))
    return tuple(replace(one, key=f"{i}-{one.key}") for i, one in enumerate(found, 1))


# --- tops of columns ------------------------------------------------------------------------------------------------


def _tops(job: Job, plan: Plan, roof: Roof) -> Iterator[Template]:
    """Sloped tops, like ones together: sidewall columns seen from the side, endwall columns from outside."""
    groups: dict[tuple[bool, str, Path], list[str]] = {}
    for spot in plan.spots:
        side = spot.role != "end"
        if side and (delivered(job) is not None or job.tops.seat == "flat"):
            continue  # made in the factory, or level
        _, top = cuts(job, roof, plan, spot)
        own = [("", top.ears)]
        if not side and top.centre != top.ears:
            own = [("OUTER PLIES", top.ears), (seats.inner(job).upper(), top.centre)]
        for part, outline in own:
            shape = _based(outline)
            if max(y for _, y in shape) > SAME:
                groups.setdefault((side, part, shape), []).append(spot.name)
    for (side, part, shape), names in groups.items():
        whom = _whom(plan, names)
        yield _ears(job, shape, whom) if side else _endwall(job, part, shape, whom)


def _based(outline: Path) -> Path:
    """A top with its lowest point at 0 and its left edge at 0."""
    low = min(y for _, y in outline)
    return clean(tuple((x - outline[0][0], y - low) for x, y in outline))


def _whom(plan: Plan, names: list[str]) -> tuple[str, ...]:
    """Names of columns; of very many those of a whole sidewall as such."""
    if len(names) <= MANY:
        return tuple(names)
    left, found = list(names), []
    for wall in plan.walls:
        if not wall.gable and set(_of(plan, wall)) <= set(left):
            found.append(f"all columns of wall {wall.name} ({wall.columns[0]} to {wall.columns[-1]})")
            left = [name for name in left if name not in wall.columns]
    return (*found, *left)


def _of(plan: Plan, wall: WallLine) -> list[str]:
    return [name for name in wall.columns if plan.spot(name).role != "end"]


def _column(shape: Path) -> tuple[float, float, tuple[Path, ...]]:
    """How wide and how high a top is, and the edges of its column."""
    wide, high = shape[-1][0], max(y for _, y in shape)
    return wide, high, tuple(((x, -BELOW), (x, high + ABOVE)) for x in (0.0, wide))


def _slope(job: Job, shape: Path) -> tuple[tuple[Figure, ...], tuple[Aid, ...]]:
    """What a top says by rise and run, and the level line that it rises from."""
    wide, style = shape[-1][0], job.style
    both = legs(shape)
    if len(both) == 1:
        figure = Figure("RISE", *both[0])
        return (figure,), (Aid((0.0, 0.0), (wide, 0.0), figure.text(style)),)
    ridge = max(shape, key=lambda p: p[1])
    left, right = Figure("LEFT of the ridge: RISE", *both[0]), Figure("RIGHT of it: RISE", *both[-1])
    return (left, right), (Aid((0.0, 0.0), (wide, 0.0)), Aid((ridge[0], 0.0), ridge))


def _ears(job: Job, shape: Path, whom: tuple[str, ...]) -> Template:
    """The pitch cut across the depth of a sidewall column."""
    wide, high, edges = _column(shape)
    figures, aids = _slope(job, shape)
    return Template(
        key="top",
        title=f"EARS of sidewall columns, {shown(high / wide, job.style)}: pitch cut across {show(wide, job.style)}",
        edges=edges,
        cuts=(shape,),
        whom=whom,
        what="Columns",
        laid="On a SIDE face of the column, top up, OUTSIDE of the building to your LEFT. On the other side face:"
        " turn the cut-out over.",
        hold="Low end of the line on SHORT POINT, high end on LONG POINT, as the tag gives them.",
        figures=figures,
        aids=aids,
        arrows=(
            Arrow((wide * 0.78, -BELOW + 0.1), (wide * 0.78, -0.45), "TOP"),
            Arrow((wide * 0.55, -1.1), (0.15, -1.1), "OUTSIDE"),
        ),
        labels=(Label((wide / 2, high + ABOVE / 2), "WASTE"),),
    )


def _endwall(job: Job, part: str, shape: Path, whom: tuple[str, ...]) -> Template:
    """A cut across the face of an endwall column; a double cut where it stands under the ridge."""
    wide, high, edges = _column(shape)
    figures, aids = _slope(job, shape)
    ridge = len(shape) > 2
    plies = f", {part}" if part else ""
    way = "" if ridge else f", {shown(high / wide, job.style)}, high on the {'right' if shape[-1][1] else 'left'}"
    return Template(
        key="top",
        title=f"{'RIDGE CUT' if ridge else 'TOP'} of endwall columns{plies}{way}: across {show(wide, job.style)}",
        edges=edges,
        cuts=(shape,),
        whom=whom,
        what="Columns",
        laid="On the OUTSIDE face of the column, top up, as you look at it from outside: left is your left.",
        hold=f"The ends of the line on the heights of the tag{f' for the {part.lower()}' if part else ''}. On the"
        " inside face: turn the cut-out over.",
        figures=figures,
        aids=aids,
        arrows=(Arrow((wide / 2, -BELOW + 0.1), (wide / 2, -0.45), "TOP"),),
        labels=(
            Label((wide / 2, high + ABOVE / 2), "WASTE"),
            Label((-0.2, -BELOW / 2), "LEFT", True),
            Label((wide + 0.2, -BELOW / 2), "RIGHT", True),
        ),
    )


# --- slot, shoulder ------------------------------------------------------------------------------------------------


def _gauges(job: Job, plan: Plan, roof: Roof) -> Iterator[Template]:
    """The end of a sidewall column as it is looked down on: the slot of the truss, or what is cut off its sides."""
    tops = job.tops
    names = [s.name for s in plan.spots if s.role != "end"]
    whom = _whom(plan, names)
    if tops.seat == "slot":
        yield _slot(job, _deep(job, plan, roof, [w for w in plan.walls if not w.gable]), whom)
    if tops.seat == "shoulder":
        yield from _shoulders(job, plan, roof)
    faces = seats.shouldered(job)
    if faces:
        cut, deep, wide = job.carrier.let_in, job.column.depth, job.column.width
        heights = [y for face, y in (("inside", cut), ("outside", deep - cut)) if face in faces]
        waste = [y for face, y in (("inside", cut / 2), ("outside", deep - cut / 2)) if face in faces]
        yield _gauge(
            job,
            "SHOULDERS for carriers",
            tuple(((0.0, y), (wide, y)) for y in heights),
            (Figure("LET IN", cut),),
            tuple(Label((wide / 2, y), "WASTE") for y in waste),
            whom,
        )


def _deep(job: Job, plan: Plan, roof: Roof, walls: list[WallLine]) -> tuple[Figure, ...]:
    """How far the place of the truss goes down at the outside: from the end of the ears there to the bearing, wall by
    wall where walls differ; with a seat block every column has its own."""
    if job.column.centre_ply is not None:
        return ()
    found: dict[float, list[str]] = {}
    for wall in walls:
        _, top = cuts(job, roof, plan, plan.spot(_of(plan, wall)[0]))
        found.setdefault(round(top.ears[0][1] - top.centre[0][1], 9), []).append(wall.name)
    if len(found) == 1:
        return (Figure("DEEP at the outside", next(iter(found))),)
    return tuple(Figure(f"DEEP at the outside, wall {' and '.join(names)}:", deep) for deep, names in found.items())


def _slot(job: Job, deep: tuple[Figure, ...], whom: tuple[str, ...]) -> Template:
    """The slot in a laminated column."""
    wide, cut = job.column.width, seats.cut_wide(job)
    across = Figure("TRUSS" if job.truss.each == 1 else "TWO TRUSSES", seats.room(job)[1])
    a, b = (wide - cut) / 2, (wide + cut) / 2
    paths = tuple(((x, 0.0), (x, job.column.depth)) for x in (a, b))
    open_ = Label((wide / 2, job.column.depth / 2), "SLOT", cut < 1.0)
    return _gauge(job, "SLOT for the truss", paths, (Figure("SLOT", cut), across, *deep), (open_,), whom)


def _shoulders(job: Job, plan: Plan, roof: Roof) -> Iterator[Template]:
    """Shoulders beside the column. Standing inside before a column its front side is to the left at one sidewall and to
    the right at the other: a pattern each, unless both sides are cut."""
    side, walls = job.tops.shoulder, [w for w in plan.walls if not w.gable]
    if side == "both":
        yield _shoulder(job, plan, roof, walls, ("left", "right"))
        return
    for wall in walls:
        # looking out from inside: at wall A, u = 0, the front is on the left hand
        yield _shoulder(job, plan, roof, [wall], ("left" if (wall.side == "left") == (side == "front") else "right",))


def _shoulder(job: Job, plan: Plan, roof: Roof, walls: list[WallLine], hands: tuple[str, ...]) -> Template:
    """Shoulders on these *hands* of the columns of *walls*."""
    cut, wide, deep = job.tops.shoulder_depth, job.column.width, job.column.depth
    paths = tuple(((x, 0.0), (x, deep)) for x in (cut if h == "left" else wide - cut for h in hands))
    at = tuple(cut / 2 if h == "left" else wide - cut / 2 for h in hands)
    labels = [Label((x, deep / 2), "WASTE", cut < 1.0) for x in at]
    if len(walls) == 1:
        names = ("FRONT", "BACK") if walls[0].side == "left" else ("BACK", "FRONT")
        labels += [Label((x, deep / 2), name, True) for x, name in zip((-0.2, wide + 0.2), names, strict=True)]
    title = "SHOULDER for the truss" + (f", wall {walls[0].name}" if len(walls) == 1 else ", both sides")
    figures = (Figure("NOTCH", cut), Figure("TRUSS", seats.room(job)[1]), *_deep(job, plan, roof, walls))
    whom = _whom(plan, [name for wall in walls for name in _of(plan, wall)])
    return _gauge(job, title, paths, figures, tuple(labels), whom)


def _gauge(
    job: Job,
    name: str,
    paths: tuple[Path, ...],
    figures: tuple[Figure, ...],
    labels: tuple[Label, ...],
    whom: tuple[str, ...],
) -> Template:
    """A pattern for the end of a sidewall column."""
    wide, deep, style = job.column.width, job.column.depth, job.style
    made = delivered(job) is not None
    return Template(
        key="gauge",
        title=f"{name}: column {show(wide, style)} by {show(deep, style)}",
        edges=(((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep), (0.0, 0.0)),),
        cuts=paths,
        whom=whom,
        what="Columns",
        laid="On the top END of the column, you stand INSIDE before it, the arrow to the OUTSIDE of the building.",
        hold="Measure the column first: if it is not that size, this sheet is not for it."
        + (" Made in the factory: hold the sheet against it, cut nothing." if made else ""),
        figures=figures,
        arrows=(Arrow((wide + 0.6, deep * 0.25), (wide + 0.6, deep * 0.75), ""),),
        labels=(*labels, Label((wide / 2, deep + 0.22), "OUTSIDE"), Label((wide / 2, -0.22), "INSIDE")),
    )
