"""Wall diagrams: the wall as it lies, outside face up, seen by a man who stands outside at its foot.

To a stated scale: columns with their offsets, the grade line, every board with its piece number and length, the
dimensions along the grade line. Long walls go over several pages that meet at a column; a wall with more pieces or rows
than stand under and beside its picture has them on a sheet of their own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import fonts
from layouts.building import Building
from layouts.fields import Job
from layouts.lengths import Style, show
from layouts.rods import board_mark
from layouts.walls import Piece, Wall
from sheets import chains, elevation
from sheets.cuts import ends
from sheets.frame import Body
from sheets.lettering import fit, pt, width, wrap, write
from sheets.paper import Area, Paper
from sheets.shapes import MEDIUM, Recorder
from sheets.tables import Column, Flow
from sheets.view import View, even, span, windows

HEAD = 0.88
TABLE = 1.68  # under the wall, with the piece table
ROW = 0.165
TABLE_ROWS = 8
TEXT = pt(10)

CAUTION = (
    "LIFTING A WALL CAN KILL. Work out its weight before the lift: it is not on this sheet. Boots, props and tag lines"
    " ready; one voice calls the lift; only the lifters near it, nobody under it; restraints at the foot before"
    " walls of 10 ft and more go up by hand, a machine from 18 ft (Utah R614-7-4). No lift in gusts. Brace before"
    " release. Nail guns: full sequential trigger, eye protection. Guard against falls from 6 ft (29 CFR 1926.501)."
    " Hot-dip galvanised nails in treated wood; gloves and mask when cutting it, never burn it. Your plan, code and"
    " engineer rule. This is not a lift plan."
)


@dataclass(frozen=True)
class Plot:
    """How a wall is put on its pages: *views*, one a page, and whether its pieces stand *overleaf*."""

    views: tuple[View, ...]
    overleaf: bool


def pages(building: Building, paper: Paper) -> list[Body]:
    """Every wall of the building, in walking order."""
    found: list[Body] = []
    for wall in building.walls:
        found += _wall(building, wall, paper.lying())
    return found


def _wall(building: Building, wall: Wall, paper: Paper) -> list[Body]:
    plan = plot(building, wall, paper.body)
    found = []
    for i, view in enumerate(plan.views, 1):
        pen = Recorder(paper.width, paper.height)
        part = f", part {i} of {len(plan.views)}" if len(plan.views) > 1 else ""
        _head(pen, paper.body, wall, part)
        elevation.draw(pen, view, wall, building.job)
        chains.draw(pen, view, wall, building.job.style)
        _below(pen, paper.body, building, wall, view, plan.overleaf)
        found.append(Body("walls", f"Wall {wall.name}{part}", pen.drawing(), paper))
    return [*found, *_overleaf(building, wall, paper)] if plan.overleaf else found


# --- where it stands on the page ------------------------------------------------------------------------------------


def plot(building: Building, wall: Wall, area: Area) -> Plot:
    """The views of *wall*: with its pieces under the picture if all of it can be read so, else with them overleaf and
    a larger picture."""
    if len({p.mark for c in wall.courses for p in c.pieces}) <= 2 * TABLE_ROWS:
        views = _views(building, wall, area, TABLE)
        crowded = any(
            elevation.labels(v, wall).crowded or elevation.row_gap(v, wall) < elevation.ROW_GAP * 0.8 for v in views
        )
        if not crowded:
            return Plot(views, False)
    return Plot(_views(building, wall, area, _below_tall(building, wall, area)), True)


def _views(building: Building, wall: Wall, area: Area, table: float) -> tuple[View, ...]:
    """One scale for all pages of a wall; the chain under it grows when the words of small bays step down."""
    style = building.job.style
    over = chains.overhang(wall, style)
    names = max(width(elevation.row_text(c, building.job), elevation.ROW_NAME) for c in wall.courses)
    left = max(names + elevation.ASIDE + 0.08, over + 0.75)
    room = area.width - left - max(over, 0.15) - 0.05
    top, deep = _reach(wall)
    # a wall too high for the least scale is drawn smaller anyway: no use in parting it for that scale
    parts = windows(wall, room, (area.height - HEAD - table - 1.05) / (top + deep))
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
                area.x1,
                area.y1 - HEAD - 0.1,
                low_y,
            )
            for a, b in parts
        )
        needed = max(chains.height(v, wall, style) for v in views)
        if needed <= chain + 1e-9:
            return views
        chain = needed


def _reach(wall: Wall) -> tuple[float, float]:
    """How far the wall reaches above and below the grade line, inches."""
    top = max(max(h for s in wall.stands for _, h in s.top), max(c.row.high for c in wall.courses))
    return top, max([s.column.offset for s in wall.stands if s.column] + [0.0])


# --- over the wall --------------------------------------------------------------------------------------------------


def _head(pen: Recorder, area: Area, wall: Wall, part: str) -> None:
    kind = {"left": "left sidewall", "right": "right sidewall", "front": "front endwall", "back": "back endwall"}
    title = f"WALL {wall.name}: {kind[wall.line.side]}{part}"
    taken = write(pen, area.x0, area.y1 - 0.3, title, pt(24), fonts.BOLD)
    up = "OUTSIDE FACE UP"
    room = area.width - taken - 0.3
    write(pen, area.x1, area.y1 - 0.3, up, fit(up, pt(24), fonts.BOLD, room), fonts.BOLD, "right")
    large = "COLUMN BOTTOMS DO NOT LINE UP. THE GRADE LINE DOES: string it across all columns."
    write(pen, area.x0, area.y1 - 0.56, large, fit(large, pt(15), fonts.BOLD, area.width), fonts.BOLD)
    first, last = wall.line.columns[0], wall.line.columns[-1]
    corners = "" if wall.owns_corners else f" {first} and {last} stand in the sidewalls: not in this lift."
    how = (
        f"You stand outside at its foot and look along it to the top. {first} is on your LEFT, {last} on your RIGHT."
        f" It lies inside of the building.{corners}"
    )
    write(pen, area.x0, area.y1 - 0.77, how, fit(how, pt(11), fonts.REGULAR, area.width))


# --- under the wall -------------------------------------------------------------------------------------------------


def _totals(building: Building, wall: Wall, scale: float) -> list[str]:
    style = building.job.style
    low, high = span(wall)
    long = wall.line.length
    boards = f"boards run past to {show(high - low, style)}" if high > long else "boards stop at the columns"
    ratio = round(1 / scale)
    said = f"Scale 1:{ratio}." if style.unit == "mm" else f"Scale: 1 in is {show(ratio, style)}."
    return [
        f"Columns out to out {show(long, style)}; {boards}.",
        f"Marks are the {edges_marked(building.job)}; stations up from the grade line.",
        f"Running dimensions from the outside of {wall.line.columns[0]}. {said}",
    ]


def _notes(building: Building, wall: Wall, scale: float, overleaf: bool, room: float) -> list[str]:
    """The bold lines under a wall."""
    totals = _totals(building, wall, scale)
    if not overleaf:
        return totals
    text = " ".join([*totals, f"PIECES AND ROWS: on the sheet Wall {wall.name}, pieces."])
    return wrap(text, TEXT, fonts.BOLD, room)


def _below_tall(building: Building, wall: Wall, area: Area) -> float:
    """What stands under a wall whose pieces are overleaf."""
    notes = _notes(building, wall, 1 / 84, True, area.width)
    return ROW * len(notes) + 0.1 + len(wrap(CAUTION, TEXT, fonts.REGULAR, area.width - 0.2)) * TEXT * 1.25 + 0.1


def _below(pen: Recorder, area: Area, building: Building, wall: Wall, view: View, overleaf: bool) -> None:
    """Totals and the caution, over the whole width or to the left of the wall's own piece table."""
    right = area.x1 if overleaf else area.x0 + area.width * 0.47 - 0.1
    room = right - area.x0
    y = area.y0 + (_below_tall(building, wall, area) if overleaf else TABLE) - 0.18
    for line in _notes(building, wall, view.scale, overleaf, room):
        write(pen, area.x0, y, line, fit(line, TEXT, fonts.BOLD, room), fonts.BOLD)
        y -= ROW
    top = y + 0.08
    size, lines = TEXT, wrap(CAUTION, TEXT, fonts.REGULAR, room - 0.2)
    while len(lines) * size * 1.25 > top - area.y0 - 0.1:
        size *= 0.97
        lines = wrap(CAUTION, size, fonts.REGULAR, room - 0.2)
    pen.box(area.x0, area.y0 + 0.02, right, top, None, MEDIUM)
    y = top - 0.03
    for line in lines:
        y -= size * 1.25
        write(pen, area.x0 + 0.1, y + size * 0.2, line, size)
    if not overleaf:
        _table(pen, Area(right + 0.15, area.y0, area.x1, area.y0 + TABLE - 0.05), wall, building.job.style)


def _counted(wall: Wall) -> list[tuple[Piece, int]]:
    """Each kind of piece with how many of it this wall has, in number order."""
    pieces = [p for c in wall.courses for p in c.pieces]
    counts = Counter(p.mark for p in pieces)
    first = {p.mark: p for p in reversed(pieces)}
    return [(first[mark], counts[mark]) for mark in sorted(counts, key=lambda m: int(m[1:]))]


def board_text(piece: Piece) -> str:
    """The board a piece is cut from."""
    return f"{piece.row.section.name}{' treated' if piece.row.treated else ''}"


def _table(pen: Recorder, area: Area, wall: Wall, style: Style) -> None:
    """Every piece of this wall: number, how many, board, length; in two columns."""
    head = "PIECES OF THIS WALL  (number, how many, board, long edge)"
    write(pen, area.x0, area.y1 - 0.13, head, pt(9), fonts.BOLD)
    wide = area.width / 2
    for i, (piece, count) in enumerate(_counted(wall)):
        x, y = area.x0 + (i // TABLE_ROWS) * wide, area.y1 - 0.32 - (i % TABLE_ROWS) * ROW
        text = f"{count} pc  {board_text(piece)}  {show(piece.length, style)}"
        used = write(pen, x, y, piece.mark, TEXT, fonts.BOLD)
        start = max(used + 0.08, 0.36)
        write(pen, x + start, y, text, fit(text, TEXT, fonts.REGULAR, wide - start - 0.08))


def _overleaf(building: Building, wall: Wall, paper: Paper) -> list[Body]:
    """The pieces and the rows of a wall on sheets of their own."""
    style = building.job.style
    cut = {line.mark: line for line in building.pieces}
    flow = Flow("walls", f"Wall {wall.name}, pieces", paper)
    flow.heading(f"WALL {wall.name}: ITS PIECES")
    flow.table(
        [
            Column("piece", 1, bold=True),
            Column("pieces", 1, "right", True),
            Column("board", 1.8),
            Column("long edge", 1.8, "right", True),
            Column("ends", 5),
        ],
        [
            [piece.mark, str(count), board_text(piece), show(piece.length, style), ends(cut[piece.mark], style)]
            for piece, count in _counted(wall)
        ],
        pt(13),
    )
    flow.heading(f"WALL {wall.name}: ITS ROWS, TOP TO BOTTOM", keep=0.8)
    rows = []
    for course in reversed(wall.courses):
        mark = board_mark(course.row, building.job)
        rows.append([course.row.name, mark.edge, show(mark.station, style), _in_order([p.mark for p in course.pieces])])
    flow.table(
        [
            Column("row", 2.2),
            Column("edge", 0.9),
            Column("at", 1.5, "right", True),
            Column("pieces, left to right", 5.5),
        ],
        rows,
        pt(13),
    )
    return flow.bodies()


def edges_marked(job: Job) -> str:
    """Which edge of the boards is marked: the grade board always stands on its line."""
    return "bottom edge of every board" if job.girts.edge == "bottom" else "top edge of every board but the grade board"


def _in_order(marks: Sequence[str]) -> str:
    return ", ".join(marks)
