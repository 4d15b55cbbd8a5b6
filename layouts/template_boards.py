"""Patterns for boards: the tails of the trusses, the sloped ends of gable girts, the plumb ends of rake nailers.

A plumb end of a board that follows a slope of m goes back b·m over its width b; a level cut through a board on the
slope, and a sloped end of a level board, b/m (identities). On boards along the slope *x* runs along them, *y* square
to it.
"""

from __future__ import annotations

from collections.abc import Iterator

from layouts import purlins
from layouts.fields import Job
from layouts.heights import plumb
from layouts.lengths import show
from layouts.pitch import shown
from layouts.plan import Plan
from layouts.roof import Eave, Roof
from layouts.rows import Rows, under_rake
from layouts.template import SAME, Aid, Arrow, Figure, Label, Path, Point, Template, clean

SIZES = {"in": (3.5, 5.5), "mm": (90 / 25.4, 140 / 25.4)}
"""Depths of chords that a tail is drawn for where the job does not tell its own (PS 20 dry sizes; common metric ones,
no source)."""
PAST = 1.4
"""Inches of board drawn beyond a cut."""


def lay(job: Job, plan: Plan, roof: Roof, rows: Rows) -> tuple[Template, ...]:
    """Every pattern for boards, like ones once."""
    return (*_tails(job, plan, roof), *_girts(job, plan, roof, rows), *_rakes(job, plan, roof))


# --- the trusses' tails ----------------------------------------------------------------------------------------------


def _tails(job: Job, plan: Plan, roof: Roof) -> Iterator[Template]:
    """The end of the top chord under an overhang: plumb or square, and level where a soffit is."""
    groups: dict[tuple[bool, tuple[Path, ...]], list[tuple[str, Eave]]] = {}
    for wall in (w for w in plan.walls if not w.gable):
        eave = roof.at(wall.side)
        if eave.overhang:
            paths = tuple(clean(path) for path in _tail(job, roof, eave))
            groups.setdefault((eave.inward > 0, paths), []).append((wall.name, eave))
    for (low, paths), found in groups.items():
        yield _pattern(job, found[0][1], low, paths, tuple(f"wall {name}" for name, _ in found))


def _tail(job: Job, roof: Roof, eave: Eave) -> tuple[Path, ...]:
    """The end cut from the upper corner down, and the level cut of a soffit that meets the chord; along the chord
    inward is *x*, square to it *y*, the upper corner at (0, width)."""
    m, one, wide = eave.inward, plumb(1.0, eave.inward), _wide(job)
    if job.roof.fascia_cut == "plumb":
        down, whole, of_drop = (-m / one, -1 / one), wide * one, 1.0
    else:
        down, whole, of_drop = (0.0, -1.0), wide, one
    if m > 0 and job.truss.top_chord and job.roof.soffit == "level" and eave.soffit is not None:
        # how far down the end cut the soffit is met: plumb inches are those of a plumb cut, more along a square one
        tail = next(s.tail for s in purlins.slopes(job, roof) if s.side == eave.side)
        corner = roof.chord.over(-tail if eave.side == "left" else roof.across + tail)
        along = (corner - eave.soffit) * of_drop
        if SAME < along < whole - SAME:
            x, y = down[0] * along, wide + down[1] * along
            return ((0.0, wide), (x, y)), ((x, y), (x + y / m, 0.0))
    return (((0.0, wide), (down[0] * whole, wide + down[1] * whole)),)


def _wide(job: Job) -> float:
    """How deep the top chord is, or the deepest that is drawn."""
    return job.truss.top_chord.wide if job.truss.top_chord else SIZES[job.style.unit][-1]


def _pattern(job: Job, eave: Eave, low: bool, paths: tuple[Path, ...], whom: tuple[str, ...]) -> Template:
    """A tail; *low* if it is at the lower end of its chord."""
    chord, wide, style = job.truss.top_chord, _wide(job), job.style
    plumb_cut = job.roof.fascia_cut == "plumb"
    far = max(x for path in paths for x, _ in path) + PAST
    depths = (chord.wide,) if chord else SIZES[style.unit]
    # a chord's lower edge begins where the cut comes out of it
    lower = (((_at(paths, wide - deep), wide - deep), (far, wide - deep)) for deep in depths)
    edges: tuple[Path, ...] = (((0.0, wide), (far, wide)), *lower)
    name = f"top chord {chord.name}" if chord else "size of the top chord not given"
    way = "RIGHT" if low else "LEFT"
    labels = [Label((min(x for path in paths for x, _ in path) - 0.45, wide * 0.8), "WASTE", True)]
    labels += [] if chord else [Label((far - 0.9, wide - d + 0.14), f"{show(d, style)} deep") for d in depths]
    return Template(
        key="tail",
        title=f"TAIL of the trusses, {name}, {shown(eave.inward, style)}, fascia {job.roof.fascia_cut}",
        edges=edges,
        cuts=paths,
        whom=whom,
        what="Trusses over",
        laid=f"On the side of the top chord, its TOP edge up, UPHILL to your {way}. On its other side: turn the"
        " cut-out over.",
        hold="Upper corner where the roof sheet puts the tail. Cut a truss only where its maker allows it."
        + ("" if chord else " Give truss.top_chord, and the level cut for the soffit is drawn too."),
        figures=(*_ends(eave, paths, depths, plumb_cut), *_level(eave, paths)),
        aids=(Aid((0.0, wide), (0.0, 0.0)),) if plumb_cut else (),
        arrows=(_uphill(far, wide, low),),
        labels=tuple(labels),
    )


def _uphill(far: float, wide: float, low: bool) -> Arrow:
    """Which way is uphill, over the top edge."""
    a, b, y = far - 1.3, far - 0.1, wide + 0.3
    return Arrow((a, y), (b, y), "UPHILL") if low else Arrow((b, y), (a, y), "UPHILL")


def _at(paths: tuple[Path, ...], y: float) -> float:
    """Where cuts that go down a board are at *y*."""
    for path in paths:
        (x0, y0), (x1, y1) = path
        if min(y0, y1) - SAME <= y <= max(y0, y1) + SAME and abs(y1 - y0) > SAME:
            return round(x0 + (x1 - x0) * (y - y0) / (y1 - y0), 9) + 0.0
    return 0.0


def _ends(eave: Eave, paths: tuple[Path, ...], depths: tuple[float, ...], plumb_cut: bool) -> Iterator[Figure]:
    """What the end cut says; of one that a soffit ends early how long it is."""
    m, edge = abs(eave.inward), "TOP" if eave.inward > 0 else "BOTTOM"
    for i, deep in enumerate(depths):
        name = "" if i else f"PLUMB CUT: {edge} edge BACK" if plumb_cut else "SQUARE CUT across"
        yield Figure(name, deep * m, deep, "on") if plumb_cut else Figure(name, deep)
    if len(paths) > 1:
        (x0, y0), (x1, y1) = paths[0]
        yield Figure("cut down to the soffit", ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)


def _level(eave: Eave, paths: tuple[Path, ...]) -> Iterator[Figure]:
    """What the level cut says: down over along the chord."""
    for (x0, y0), (x1, y1) in paths[1:]:
        yield Figure("LEVEL CUT: DOWN", y0 - y1, x1 - x0)


# --- boards of the gables --------------------------------------------------------------------------------------------


def _gables(plan: Plan, roof: Roof) -> Iterator[tuple[float, tuple[str, ...]]]:
    """The slopes over the gables, without sign, and the sides that they go down to, like ones together."""
    found: dict[float, list[str]] = {}
    for plane in roof.end_chord.planes:
        if abs(plane.slope) > SAME:
            found.setdefault(round(abs(plane.slope), 9), []).append("left" if plane.slope > 0 else "right")
    yield from ((m, tuple(sides)) for m, sides in found.items())


def _walls(plan: Plan, sides: tuple[str, ...]) -> str:
    """The sidewalls on these sides, in words."""
    names = [w.name for w in plan.walls if not w.gable and w.side in sides]
    return f"wall{'s' if len(names) > 1 else ''} {' and '.join(names)}"


def _girts(job: Job, plan: Plan, roof: Roof, rows: Rows) -> Iterator[Template]:
    """The sloped ends of rows of the gables, by what they are cut of: those that reach the slope at its low end."""
    under = under_rake(job, roof)
    low = {"left": under.over(0.0), "right": under.over(roof.across)}
    for m, sides in _gables(plan, roof):
        found: dict[tuple[str, float, bool], list[str]] = {}
        for row in (*rows.end, *rows.inner_end):
            if row.high > min(low[side] for side in sides) + SAME:
                tall = row.high - row.low
                size = row.section.name, round(tall, 9), tall < row.section.wide - SAME
                found.setdefault(size, []).append(row.name)
        for size, names in found.items():
            yield _girt(job, m, size, _named(names), (_gable_walls(plan), _walls(plan, sides)))


def _gable_walls(plan: Plan) -> str:
    return "walls " + " and ".join(w.name for w in plan.walls if w.gable)


def _named(names: list[str]) -> str:
    """Rows by name: the first and the last of many."""
    return ", ".join(names) if len(names) < 5 else f"{names[0]} to {names[-1]}"


def _girt(job: Job, m: float, size: tuple[str, float, bool], names: str, walls: tuple[str, str]) -> Template:
    """The sloped end of a board of a gable: printed name, how high it stands, whether it lies flat."""
    name, tall, flat = size
    edges, path = _sloped(tall / m, tall)
    return Template(
        key="girt",
        title=f"END of gable girts {name} {'lying flat' if flat else 'standing'}, {shown(m, job.style)}",
        edges=edges,
        cuts=(path,),
        whom=(names, walls[0], f"ends toward {walls[1]}"),
        what="Rows",
        laid="On the girt as it is seen from OUTSIDE, its BOTTOM edge down: so it is an end on your LEFT. An end on"
        " your RIGHT: turn the cut-out over.",
        hold="Lower end of the line at the LONG point of the piece. "
        + ("Its thickness is cut: lay it on the narrow edge." if flat else "Its width is cut."),
        figures=(Figure("", tall / m, tall, "back on"),),
        arrows=(Arrow((0.9, -0.35), (-0.6, -0.35), "END"),),
        labels=_waste(tall / m, tall),
    )


def _rakes(job: Job, plan: Plan, roof: Roof) -> Iterator[Template]:
    """The plumb end of a nailer along the slope."""
    board = job.girts.rake
    if board is None:
        return
    for m, sides in _gables(plan, roof):
        wide, figure = board.wide, Figure("PLUMB CUT: TOP edge BACK", board.wide * m, board.wide, "on")
        edges, path = _sloped(wide * m, wide)
        yield Template(
            key="rake",
            title=f"END of rake nailers {board.name}, {shown(m, job.style)}: plumb",
            edges=edges,
            cuts=(path,),
            whom=(f"slope over {_walls(plan, sides)}",),
            what="Nailers of the",
            laid="On the face of the nailer, its TOP edge up, UPHILL to your RIGHT: so it is the lower end. The upper"
            " end slants the same way. On the other face: turn the cut-out over.",
            hold="Bottom end of the line at the lower tip of the board.",
            figures=(figure,),
            aids=(Aid((0.0, 0.0), (0.0, wide)),),
            arrows=(_uphill(wide * m + PAST, wide, True),),
            labels=(Label((-0.45, wide * 0.8), "WASTE", True),),
        )


def _sloped(back: float, wide: float) -> tuple[tuple[Path, ...], Path]:
    """A board *wide* inches wide, and an end that goes back from its lower left corner."""
    end: Point = (back, wide)
    edges: tuple[Path, ...] = (((0.0, 0.0), (back + PAST, 0.0)), (end, (back + PAST, wide)))
    return tuple(map(clean, edges)), clean(((0.0, 0.0), end))


def _waste(back: float, wide: float) -> tuple[Label, ...]:
    """The side of an end that falls away: left of the line, in the upper part of the board."""
    return (Label((back * 0.4 - 0.4, wide * 0.8), "WASTE"),)
