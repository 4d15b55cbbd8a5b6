"""The carriers of a sidewall, board by board, and where the trusses stand on them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import fonts
from layouts import seats
from layouts.boards import Course
from layouts.carriers import trusses
from layouts.lengths import show
from sheets.frame import Body
from sheets.lettering import fit, pt, width, write
from sheets.paper import Paper
from sheets.shapes import HAIR, MEDIUM, THICK, Drawing, Recorder
from sheets.tables import Column, Flow
from sheets.view import even
from sheets.wall_below import Below

STRIP, BETWEEN = 0.34, 0.12  # how tall a board is drawn, and what is left between two
LABEL, LEAST, NAME = pt(12), pt(7), pt(9)
TRUSS = 0.42  # over the boards
ACROSS = 4  # groups of the table of trusses side by side


def pages(below: Below, paper: Paper) -> list[Body]:
    """The sheet of one wall; none where it has no carriers."""
    job, wall = below.building.job, below.wall
    found = [c for c in wall.courses if c.row.key == "carrier"] + list(wall.carriers)
    if not found or job.carrier.board is None:
        return []
    flow = Flow("walls", f"Wall {wall.name}, carriers", paper)
    flow.heading(f"WALL {wall.name}: CARRIERS AND TRUSSES", pt(22), 0.5)
    flow.para(_said(below), pt(12), bold=True)
    if below.lift.lie.mirrored:
        flow.para("Drawn as the wall lies, its inside face up.", pt(11))
    flow.draw(_picture(below, found, flow.area.width))
    flow.para(
        f"{breaks(below, found)} Lengths are to scale, heights are not. Size, splices, bolts and the places of the "
        "trusses: your plan and engineer rule.",
        pt(10.5),
    )
    _table(flow, below)
    return flow.bodies()


def _said(below: Below) -> str:
    """What they are and where they lie."""
    job, style = below.building.job, below.style
    part, bearing = job.carrier, below.building.roof.at(below.wall.line.side).bearing
    assert part.board
    where = {
        "both": "on the outside and the inside of the columns",
        "outside": "on the outside of the columns",
        "inside": "on the inside of the columns",
        "on top": "on the tops of the columns",
    }[part.where]
    each = f"{part.boards} boards {part.board.name}" if part.boards > 1 else f"{part.board.name}"
    let = f", let in {show(part.let_in, style)}" if seats.shouldered(job) else ""
    low = bearing - part.board.wide
    return f"{each} {where}{let}: underside {show(low, style)}, top {show(bearing, style)} above the grade line."


def breaks(below: Below, found: Sequence[Course]) -> str:
    """Where the boards break, as it is: boards side by side on one face of the columns, and the faces."""
    at = {c.row.name: {round(p.low[1], 6) for p in c.pieces[:-1]} for c in found}
    if not any(at.values()):
        return "Every board is in one piece."
    said = ["Boards break over columns."]
    pairs = [(a, b) for a, b in pairwise(found) if a.row.layer == b.row.layer]
    shared = _names(below, [at[a.row.name] & at[b.row.name] for a, b in pairs])
    if shared:
        said.append(f"NO STOCK LENGTH STAGGERS boards side by side on one face: they break together on {shared}.")
    elif pairs:
        said.append("Boards side by side on one face of the columns break on different columns.")
    faces = [set().union(*(at[c.row.name] for c in found if c.row.layer == face)) for face in ("outside", "inside")]
    both = _names(below, [faces[0] & faces[1]])
    if both:
        said.append(f"The boards on the outside and those on the inside both break on {both}.")
    return " ".join(said)


def _names(below: Below, places: Sequence[set[float]]) -> str:
    """The columns of breaks, in a row."""
    wanted = set().union(*places)
    return ", ".join(s.name for s in below.wall.stands if any(s.left < x < s.right for x in wanted))


def _picture(below: Below, found: Sequence[Course], wide: float) -> Drawing:
    """Trusses over the boards, one strip each, and the columns behind them."""
    wall, style = below.wall, below.style
    left = max(width(c.row.name, NAME) for c in found) + 0.15
    over = max(0.0, -min(p.low[0] for c in found for p in c.pieces))
    scale = even((wide - left - 0.2) / (wall.line.length + 2 * over), style.unit == "mm")
    tall = TRUSS + len(found) * (STRIP + BETWEEN) + 0.35
    pen = Recorder(wide, tall)
    x0 = left + over * scale
    for stand in wall.stands:
        a, b = x0 + stand.left * scale, x0 + stand.right * scale
        for x in (a, b):
            pen.stroke(x, 0.28, x, tall - TRUSS, HAIR, (0.05, 0.04))
        name = f"at {stand.name}"
        size = fit(name, NAME, fonts.BOLD, 0.6, fractions=False)
        write(pen, (a + b) / 2, 0.1, name, size, fonts.BOLD, "center", fractions=False)
    for i, course in enumerate(found):
        y = tall - TRUSS - (i + 1) * (STRIP + BETWEEN) + BETWEEN
        write(pen, 0.0, y + STRIP / 2 - NAME * 0.35, course.row.name, NAME)
        for piece in course.pieces:
            a, b = x0 + piece.low[0] * scale, x0 + piece.low[1] * scale
            pen.box(a, y, b, y + STRIP, 1.0, MEDIUM)
            full = f"{piece.mark} {show(piece.length, style)}"
            size = fit(full, LABEL, fonts.BOLD, b - a - 0.08)
            text = full if size >= LEAST else piece.mark
            size = fit(text, LABEL, fonts.BOLD, b - a - 0.04)
            if size >= LEAST:
                write(pen, (a + b) / 2, y + STRIP / 2 - size * 0.35, text, size, fonts.BOLD, "center")
    _trusses(pen, below, x0, tall - TRUSS, scale)
    return pen.drawing()


def _trusses(pen: Recorder, below: Below, x0: float, y: float, scale: float) -> None:
    """Every truss as a line at its front face and its thickness beside it, numbered from the front."""
    building, wall = below.building, below.wall
    places, thick = trusses(building.job, building.plan), building.job.truss.thickness
    forward = (wall.line.side == "right") != below.lift.lie.mirrored  # the front is at the left end
    step = abs(places[1] - places[0]) * scale if len(places) > 1 else 1.0
    every = 1 if step > 0.22 else 5
    for i, at in enumerate(places, 1):
        a, b = (at, at + thick) if forward else (wall.line.length - at, wall.line.length - at - thick)
        low, high = sorted((x0 + a * scale, x0 + b * scale))
        pen.box(low, y, high, y + 0.16, 0.75, HAIR)
        pen.stroke(x0 + a * scale, y, x0 + a * scale, y + 0.2, THICK)
        if i % every == 0 or i in (1, len(places)):
            write(pen, x0 + a * scale, y + 0.24, f"T{i}", NAME, fonts.BOLD, "center")


def _table(flow: Flow, below: Below) -> None:
    """Where the front face of every truss stands."""
    building, style = below.building, below.style
    places = trusses(building.job, building.plan)
    corner = (
        building.plan.walls[0].columns[-1] if below.wall.line.side == "left" else below.building.plan.front.columns[-1]
    )
    flow.heading("TRUSSES: front faces, the mark, and the truss BEHIND it", pt(13), 0.8)
    flow.para(
        f"Hook the tape on the outside of {corner}, at the front, and mark all of them from there. The first and the "
        "last are the trusses of the endwalls, flush with the outside of the columns.",
        pt(11),
    )
    cells = [(f"T{i}", show(at, style)) for i, at in enumerate(places, 1)]
    deep = -(-len(cells) // ACROSS)
    rows = []
    for i in range(deep):
        row = [text for cell in cells[i::deep] for text in cell]
        rows.append(row + [""] * (2 * ACROSS - len(row)))
    flow.table([Column("truss", 1), Column("front face", 2, "right", True)] * ACROSS, rows, pt(13))
