"""Wall diagrams: the wall as it lies, seen from the side that is up by a man who stands at its foot.

To a stated scale: columns with their offsets, the grade line, every board with its piece number and length, openings,
the dimensions along the grade line. Long walls go over several pages that meet at a column. Rows on the inside of the
columns have pages of their own. The lift and the nails stand on a sheet of their own, and with them the pieces and rows
of a wall that has more of them than stand under and beside its picture.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.boards import Wall
from layouts.building import Building
from layouts.lift import Face, Lift
from layouts.lift_words import lies, words
from layouts.openings import Upright
from sheets import carrier_sheet, chains, elevation, lift_drawn, row_names, wall_labels, wall_sheet
from sheets.boards import Board, counted, outline
from sheets.frame import Body
from sheets.lettering import extent, fit, pt, width, write
from sheets.mirrored import mirrored
from sheets.paper import Area, Paper
from sheets.shapes import Drawing, Recorder
from sheets.view import View, even, windows
from sheets.wall_below import MOST_LINES, TABLE_ROWS, Below
from sheets.wrapping import wrap

HEAD = 1.03
LIES = pt(11)
INSIDE = "rows inside"
SMALLER = 1.2  # times
LARGER = 1.25  # times, in large print: names, offsets, dimensions, and boards where they have room


Picture = tuple[Drawing, bool]
"""The boards of a wall on one page, and whether there are rows whose numbers have no room."""


class Plot(Struct, frozen=True):
    """How a wall is put on its pages: *views*, one a page, and whether its pieces stand *overleaf*; *told*: its
    openings are told in words under the picture. *drawn* is what is drawn on each page, *inside* how the
    rows on the inside are put on theirs, if it is known already."""

    views: tuple[View, ...]
    overleaf: bool
    told: bool = True
    drawn: tuple[Picture, ...] = ()
    inside: Plot | None = None


def pages(building: Building, paper: Paper) -> list[Body]:
    """Every wall of the building, in walking order."""
    found: list[Body] = []
    for wall in building.walls:
        found += _wall(building, wall, paper.lying())
    return found


def _wall(building: Building, laid: Wall, paper: Paper) -> list[Body]:
    lift = wall_sheet.lift_of(building, laid.name)
    wall = mirrored(laid) if lift.lie.mirrored else laid
    plan = plot(building, wall, paper.body)
    below = Below(building, wall, lift, plan.overleaf, plan.told)
    found = _pictures(below, _outside(wall), plan, paper)
    if wall.inner:
        within = _within(wall)
        inside = plan.inside or _plot(building, wall, within, paper.body, plan.overleaf, plan.told)
        found += _pictures(below, within, inside, paper, "inside")
    return [*found, *carrier_sheet.pages(below, paper), *wall_sheet.pages(below, paper)]


def _outside(wall: Wall) -> Wall:
    """The wall without what is among rows on the inside of the columns."""
    own = _within_names(wall)
    levels = tuple(c for c in wall.levels if c.row.name not in own)
    return replace(wall, levels=levels, uprights=tuple(u for u in wall.uprights if not _inner(wall, u)))


def _within(wall: Wall) -> Wall:
    """The rows on the inside of the columns, and what is among them; jamb posts, if these rows are the only ones."""
    own = _within_names(wall)
    levels = tuple(c for c in wall.levels if c.row.name in own)
    uprights = [replace(u, layer="among") for u in wall.uprights if u.layer == "inside" or _inner(wall, u)]
    uprights += [u for u in wall.uprights if u.layer == "behind" and levels]
    return replace(wall, courses=wall.inner, levels=levels, uprights=tuple(uprights), inner=(), rakes=())


def _within_names(wall: Wall) -> set[str]:
    """Headers and sills that lie with girts on the inside."""
    return {level.name for opening in wall.openings for level in opening.levels if level.layer == "inside"}


def _inner(wall: Wall, upright: Upright) -> bool:
    """Whether a block among the girts is inside, with all of them."""
    outer = any(c.row.key in ("girt", "top girt", "gable girt") for c in wall.courses)
    return upright.layer == "among" and bool(wall.inner) and not outer


def _pictures(below: Below, wall: Wall, plan: Plot, paper: Paper, face: Face = "outside") -> list[Body]:
    """The pages with the boards on one *face* of the columns."""
    found = []
    drawn = plan.drawn or _drawn(below.building, wall, plan.views, below.lift, face)
    for i, (view, (picture, starred)) in enumerate(zip(plan.views, drawn, strict=True), 1):
        pen = Recorder(paper.width, paper.height)
        part = f", {INSIDE}" if face == "inside" else ""
        part += f", part {i} of {len(plan.views)}" if len(plan.views) > 1 else ""
        _head(pen, paper.body, wall, below.lift, part, face)
        pen.place(picture.shapes)
        top = max(view.at(0.0, _reach(wall)[0])[1], view.y0 + 1.2)
        lift_drawn.arrow(pen, paper.body.x1, view.y0, top, words(below.lift, below.style).arrow)
        chains.draw(pen, view, wall, below.style)
        below.draw(pen, paper.body, view, starred)
        found.append(Body("walls", f"Wall {wall.name}{part}", pen.drawing(), paper))
    return found


def _drawn(building: Building, wall: Wall, views: tuple[View, ...], lift: Lift, face: Face) -> tuple[Picture, ...]:
    """The boards of a wall on each of its pages."""
    found = []
    for view in views:
        pen = Recorder(view.right, view.top)
        starred = bool(elevation.draw(pen, view, wall, building.job, lift, face))
        found.append((pen.drawing(), starred))
    return tuple(found)


# --- where it stands on the page ------------------------------------------------------------------------------------


def plot(building: Building, wall: Wall, area: Area) -> Plot:
    """The views of *wall*, as it is drawn: with its pieces under the picture if all of it can be read so, else with
    them overleaf and a larger picture; so it is in large print always."""
    if len(counted(wall)) <= 2 * TABLE_ROWS and building.job.job.print == "normal":
        found = _plot(building, wall, wall, area, False, True)
        crowded = any(
            wall_labels.labels(v, wall).crowded or row_names.row_gap(v, wall) < row_names.GAP * 0.8 for v in found.views
        )
        apart = _plot(building, wall, wall, area, True, True)
        # openings need the room: they are read on a picture that is not much smaller than it could be
        small = bool(wall.openings) and found.views[0].scale * SMALLER < apart.views[0].scale
        if not crowded and not small and not _many(building, wall, found, area):
            whole = _with_pictures(building, wall, found, area)
            if not any(starred for _, starred in (*whole.drawn, *(whole.inside.drawn if whole.inside else ()))):
                return whole
    found = _plot(building, wall, wall, area, True, True)
    return found if not _many(building, wall, found, area) else _plot(building, wall, wall, area, True, False)


def _with_pictures(building: Building, wall: Wall, plan: Plot, area: Area) -> Plot:
    """A plan with what is drawn, on the outside and on the inside."""
    lift = wall_sheet.lift_of(building, wall.name)
    plan = replace(plan, drawn=_drawn(building, _outside(wall), plan.views, lift, "outside"))
    if not wall.inner:
        return plan
    inside = _plot(building, wall, _within(wall), area, plan.overleaf, plan.told)
    drawn = _drawn(building, _within(wall), inside.views, lift, "inside")
    return replace(plan, inside=replace(inside, drawn=drawn))


def _many(building: Building, wall: Wall, plan: Plot, area: Area) -> bool:
    """Whether there are more words about openings than go under one of the pictures."""
    below = Below(building, wall, wall_sheet.lift_of(building, wall.name), plan.overleaf)
    return any(len(below.openings(v.low, v.high, area.width)) > MOST_LINES for v in plan.views)


def _plot(building: Building, wall: Wall, drawn: Wall, area: Area, overleaf: bool, told: bool) -> Plot:
    """One scale for all pages of a wall; *drawn* is what of it is drawn. The chain under it grows when the words of
    small bays step down."""
    style = building.job.style
    below = Below(building, wall, wall_sheet.lift_of(building, wall.name), overleaf, told)
    larger = LARGER if building.job.job.print == "large" else 1.0
    over = chains.overhang(drawn, style) * larger
    names = max(width(row_names.row_text(c, building.job), row_names.SIZE) for c in drawn.courses)
    left = max(names + row_names.aside(drawn) + 0.08, over + 0.75)
    room = area.width - left - max(over, 0.15) - 0.05 - lift_drawn.SIDE
    top, deep = _reach(drawn)
    # a wall too high for the least scale is drawn smaller anyway: no use in parting it for that scale
    least = below.tall(area, 0.0, 0.0)
    parts = windows(drawn, room, (area.height - HEAD - least - 1.05) / (top + deep))
    table = max(below.tall(area, a, b) for a, b in parts)
    chain = 0.9
    while True:
        tall = area.height - HEAD - table - chain - 0.15
        scale = min(room / max(b - a for a, b in parts), tall / (top + deep))
        scale = even(scale, style.unit == "mm")
        low_y = area.y0 + table + chain + max(0.0, (tall - (top + deep) * scale) / 2)
        views = tuple(
            View(
                area.x0 + left + (room - (b - a) * scale) / 2 - a * scale,
                low_y + deep * scale,
                scale,
                a,
                b,
                area.x0,
                area.x1 - lift_drawn.SIDE,
                area.y1 - HEAD - 0.1,
                low_y,
                larger,
            )
            for a, b in parts
        )
        needed = max(chains.height(v, drawn, style) for v in views)
        if needed <= chain + 1e-9:
            return Plot(views, overleaf, told)
        chain = needed


def _reach(wall: Wall) -> tuple[float, float]:
    """How far the wall reaches above and below the grade line, inches."""
    boards: list[Board] = [p for c in (*wall.courses, *wall.levels) for p in c.pieces]
    boards += [*wall.uprights, *wall.rakes]
    heights = [h for s in wall.stands for _, h in s.top] + [o.high for o in wall.openings]
    top = max(*heights, *(h for b in boards for _, h in outline(b)))
    return top, max([s.column.offset for s in wall.stands if s.column] + [0.0])


# --- over the wall --------------------------------------------------------------------------------------------------


def _head(pen: Recorder, area: Area, wall: Wall, lift: Lift, part: str, face: Face) -> None:
    kind = {"left": "left sidewall", "right": "right sidewall", "front": "front endwall", "back": "back endwall"}
    title = f"WALL {wall.name}: {kind[wall.line.side]}{part}"
    taken = write(pen, area.x0, area.y1 - 0.3, title, fit(title, pt(24), fonts.BOLD, area.width * 0.68), fonts.BOLD)
    up = f"{lift.lie.up.upper()} FACE UP"
    room = area.width - taken - 0.3
    write(pen, area.x1, area.y1 - 0.3, up, fit(up, pt(24), fonts.BOLD, room), fonts.BOLD, "right")
    large = "COLUMN BOTTOMS DO NOT LINE UP. THE GRADE LINE DOES: string it across all columns."
    _, tall, _ = extent(large, 1.0, fonts.BOLD)  # capitals with accents stand taller: clear of the title
    size = min(fit(large, pt(15), fonts.BOLD, area.width), 0.185 / tall)
    write(pen, area.x0, area.y1 - 0.56, large, size, fonts.BOLD)
    size, said = LIES, lies(lift.lie)
    if face == "inside":
        where = "ON the columns" if lift.lie.up == face else "UNDER the columns, drawn as seen through them"
        said = f"These boards are {where} as the wall lies. {said}"
    while len(lines := wrap(said, size, fonts.REGULAR, area.width)) > 2:
        size *= 0.97
    for i, line in enumerate(lines):
        write(pen, area.x0, area.y1 - 0.77 - i * 0.17, line, fit(line, size, fonts.REGULAR, area.width))
