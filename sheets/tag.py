"""Column tags: one a column, two a page, cut apart and stapled on.

Biggest first: the name, which end is up and which face is out, the offset, high or low in words, the cuts from the
bottom end. A sidewall tag goes on a side face (the slope shows there), an endwall tag on the outside face.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import fonts
from layouts.building import Building, ColumnMark, marks_of
from layouts.columns import Column
from layouts.lengths import Style, show
from layouts.piers import Fit
from layouts.readings import taken
from layouts.rods import Mark
from sheets.frame import Body, stamp, words
from sheets.lettering import Align, extent, fit, pt, wrap, write
from sheets.paper import Area, Paper
from sheets.shapes import HAIR, HEAVY, MEDIUM, THICK, THIN, Drawing, Point, Recorder

WIDE, TALL = 4.9, 6.8  # two go on Letter and on A4 lying down
PAD = 0.14
NAME_TOP = TALL - 1.08
OFFSET_LOW = NAME_TOP - 1.25
WORDS_LOW = OFFSET_LOW - 0.68
FACTS_TOP = 1.42
CUTS_TOP = WORDS_LOW - 0.24
ROW = (CUTS_TOP - FACTS_TOP) / 3  # height of a cut's row where there are no more than three
MARKS_HEAD = 0.22  # over the marks that other columns have not
BIG, LEAST = 42.0, 24.0  # points of a cut's figures
# points of figure an inch of row takes: a stacked fraction with air, and with a hair of it
LOOSE, TIGHT = 62.0, 67.5
SKETCH = 1.55
FACT, FACT_LEAD = 10.5, 1.22  # points, and line height over type size
AGAIN = "SHOOT AGAIN BEFORE CUTTING"


def pages(building: Building, paper: Paper) -> list[Body]:
    """The tags of all columns that were read, in walking order."""
    paper = max((paper.lying(), paper.lying().turned()), key=lambda p: _grid(p.body)[0] * _grid(p.body)[1])
    area = paper.body
    across, up = _grid(area)
    step_x, step_y = _step(area.width, WIDE, across), _step(area.height, TALL, up)
    found = []
    for first in range(0, len(building.columns), across * up):
        held = building.columns[first : first + across * up]
        pen = Recorder(paper.width, paper.height)
        parts = []
        for i, column in enumerate(held):
            drawing, code = tag(building, column)
            top = area.y1 - (area.height - TALL) / 2 if up == 1 else area.y1
            pen.place(drawing.shapes, area.x0 + i % across * step_x, top - TALL - i // across * step_y)
            parts.append((f"Tag {column.name}", code))
        last = f" and {held[-1].name}" if len(held) == 2 else f" to {held[-1].name}"
        title = f"Tags {held[0].name}{last}" if len(held) > 1 else f"Tag {held[0].name}"
        found.append(Body("tags", title, pen.drawing(), paper, parts=tuple(parts)))
    return found


def _grid(area: Area) -> tuple[int, int]:
    """How many tags stand side by side and one above the other."""
    return int(area.width / WIDE + 1e-9), int(area.height / TALL + 1e-9)


def _step(room: float, size: float, count: int) -> float:
    """From one tag to the next, spread over the page."""
    return (room - size) / (count - 1) if count > 1 else 0.0


def tag(building: Building, column: Column) -> tuple[Drawing, str]:
    """One tag, and its stamp."""
    style = building.job.style
    pen = Recorder(WIDE, TALL)
    pen.begin(f"tag-{column.name}", f"tag of column {column.name}")
    pen.stroke(0, 0, WIDE, 0, THIN, (0.1, 0.06))
    pen.stroke(0, TALL, WIDE, TALL, THIN, (0.1, 0.06))
    pen.stroke(0, 0, 0, TALL, THIN, (0.1, 0.06))
    pen.stroke(WIDE, 0, WIDE, TALL, THIN, (0.1, 0.06))
    _name(pen, column)
    _offset(pen, column, style)
    _cuts(pen, column, own_marks(building, column), style)
    _sketch(pen, column)
    _facts(pen, building, column)
    pen.end()
    code = stamp(words(pen.drawing().shapes))
    pen.begin("stamp")
    tail = "  ·  ".join(w for w in (building.job.job.date, f"stamp {code}") if w)
    write(pen, WIDE - PAD, 0.08, tail, pt(10), fonts.BOLD, "right")
    pen.end()
    return pen.drawing(), code


def _rule(pen: Recorder, y: float) -> None:
    pen.stroke(PAD, y, WIDE - PAD, y, MEDIUM)


def _name(pen: Recorder, column: Column) -> None:
    """Name in the middle, OUTSIDE to its left as in the sketch below, TOP to its right."""
    middle = (NAME_TOP + TALL) / 2
    left, right = PAD + 0.5, WIDE - PAD - 0.34
    arrow(pen, (right, middle - 0.18), (right, TALL - 0.12), 0.2)
    write(pen, right, NAME_TOP + 0.12, "TOP", pt(18), fonts.BOLD, "center")
    size = fit(column.name, pt(84), fonts.BOLD, WIDE - 2.2, fractions=False)
    centre = (left + right) / 2 + 0.08
    _, above, below = extent(column.name, size, fonts.BOLD, fractions=False)
    write(pen, centre, middle - (above - below) / 2, column.name, size, fonts.BOLD, "center", fractions=False)
    if column.role == "end":
        write(pen, left, middle + 0.12, "THIS FACE", pt(15), fonts.BOLD, "center")
        write(pen, left, middle - 0.16, "OUTSIDE", pt(15), fonts.BOLD, "center")
    else:
        arrow(pen, (PAD + 1.0, middle + 0.08), (PAD, middle + 0.08), 0.2)
        write(pen, left, NAME_TOP + 0.12, "OUTSIDE", pt(18), fonts.BOLD, "center")
    _rule(pen, NAME_TOP)


def arrow(pen: Recorder, tail: Point, tip: Point, half: float) -> None:
    """A solid arrow along one axis from *tail* to *tip*, its head 2 x *half* wide."""
    along_x = tail[1] == tip[1]
    way = 1 if (tip[0] - tail[0] if along_x else tip[1] - tail[1]) > 0 else -1
    back = half * 1.2 * way
    if along_x:
        neck = tip[0] - back
        head = [(neck, tip[1] + half), tip, (neck, tip[1] - half)]
        pen.box(tail[0], tail[1] - half * 0.3, neck, tail[1] + half * 0.3, 0.0, 0.0)
    else:
        neck = tip[1] - back
        head = [(tip[0] - half, neck), tip, (tip[0] + half, neck)]
        pen.box(tail[0] - half * 0.3, tail[1], tail[0] + half * 0.3, neck, 0.0, 0.0)
    pen.shape(head, 0.0, 0.0)


def _offset(pen: Recorder, column: Column, style: Style) -> None:
    """The one personal number, and high or low in words."""
    write(pen, PAD, NAME_TOP - 0.19, f"OFFSET: the grade line, {offset_from(column)}", pt(13), fonts.BOLD)
    text = show(abs(column.offset), style)
    size = fit(text, pt(66), fonts.BOLD, WIDE - 2 * PAD)
    write(pen, WIDE / 2, OFFSET_LOW + 0.185, text, size, fonts.BOLD, "center")
    _rule(pen, OFFSET_LOW)
    lines = [column.seat, column.longer]
    if column.flagged:
        lines = [f"{column.seat}, {column.longer}", AGAIN]
        for y in (WORDS_LOW + 0.02, OFFSET_LOW - 0.345):
            pen.stroke(PAD, y, WIDE - PAD, y, HEAVY)
    for text, y in zip(lines, (OFFSET_LOW - 0.27, OFFSET_LOW - 0.59), strict=True):
        size = fit(text, pt(19), fonts.BOLD, WIDE - 2 * PAD - 0.2 * column.flagged)
        write(pen, WIDE / 2, y, text, size, fonts.BOLD, "center")
    _rule(pen, WORDS_LOW)


def offset_from(column: Column) -> str:
    """From where an offset is measured, and which way, before its figure."""
    new = "NEW " if column.fit.cut_off else ""
    return f"up from the {new}bottom end" if column.offset >= 0 else f"BELOW THE {new}BOTTOM END by"


def own_marks(building: Building, column: Column) -> list[tuple[str, ColumnMark]]:
    """Headers and sills of *column*, highest first, by the openings beside it: a rod's mark may name more."""
    found = []
    for own in reversed(marks_of(building, column)):
        mark = own.mark
        if mark.only:
            kind = mark.name.split()[0]
            names = [
                o.name
                for wall in building.walls
                for o in wall.openings
                for board in o.levels
                if board.key == kind.lower() and column.name in board.columns and abs(board.low - mark.low) < 1e-6
            ]
            found.append((f"{kind} {', '.join(names)}".upper(), own))
    return found


def _cuts(pen: Recorder, column: Column, own: Sequence[tuple[str, ColumnMark]], style: Style) -> None:
    """Every cut from the bottom end, highest first, as the column lies from top to bottom; then what goes on or under
    it; then the marks that other columns have not."""
    ordered = sorted(column.cuts, key=lambda c: -c.station)
    rows = [(c.name, c.where, column.up(c.station)) for c in ordered] + fitted(column.fit)
    room = CUTS_TOP - FACTS_TOP - (MARKS_HEAD if own else 0.0)
    row = min(ROW, room / (len(rows) + len(own)))
    head = "FROM THE BOTTOM END" if column.fit.made else "CUTS, from the bottom end"
    write(pen, PAD, WORDS_LOW - 0.18, head, pt(11), fonts.BOLD)
    y = CUTS_TOP
    for name, where, inches in rows:
        y -= row
        _cut(pen, name, where, show(inches, style), y, row)
    if own:
        _rule(pen, y)
        y -= MARKS_HEAD
        write(pen, PAD, y + 0.05, "MARK ONLY, from the bottom end: DO NOT CUT", pt(11), fonts.BOLD)
    for name, found in own:
        y -= row
        _cut(pen, name, _edge(found.mark, style), show(found.up, style), y, row)
    _rule(pen, FACTS_TOP)


def _edge(mark: Mark, style: Style) -> str:
    """The board of a mark, its edge, and what a rod reads there."""
    return f"{mark.board} {mark.edge}, rod {show(mark.station, style)}"


def fitted(fit: Fit) -> list[tuple[str, str, float]]:
    """What else a column takes to stand right: name, where, inches."""
    rows = []
    if fit.made and fit.cut_off:
        rows.append(("CUT OFF FIRST", "at the bottom end", fit.cut_off))
    if fit.packing:
        rows.append(("BLOCK UNDER IT", "over the whole seat", fit.packing))
    if fit.seat_block:
        rows.append(("SEAT BLOCK", "on the centre ply, up to the bearing", fit.seat_block))
    return rows


def _cut(pen: Recorder, name: str, where: str, text: str, y: float, row: float) -> None:
    size = fit(text, pt(max(min(BIG, row * LOOSE), min(LEAST, row * TIGHT))), fonts.BOLD, (WIDE - 2 * PAD) * 0.62)
    _, above, below = extent(text, size, fonts.BOLD)
    taken = write(pen, WIDE - PAD, y + (row - above + below) / 2, text, size, fonts.BOLD, "right")
    room = WIDE - 2 * PAD - taken - 0.12
    write(pen, PAD, y + row * 0.52, name, fit(name, pt(min(18, row * 36)), fonts.BOLD, room), fonts.BOLD)
    write(pen, PAD, y + row * 0.15, where, fit(where, pt(min(13, row * 26)), fonts.REGULAR, room))
    if y > FACTS_TOP + 0.01:
        pen.stroke(PAD, y, WIDE - PAD, y, HAIR)


def _sketch(pen: Recorder, column: Column) -> None:
    """The top of the column at its true slope, seen on the face that the tag is stapled to."""
    points = [*column.top.ears, *column.top.centre]
    wide = max(x for x, _ in points)
    low, high = min(h for _, h in points), max(h for _, h in points)
    scale = min(SKETCH * 0.36 / wide, 0.9 / max(high - low, 1.0))
    x0, base = PAD + (SKETCH - wide * scale) / 2, 0.14
    foot = base + (0.2 if high - low > 1 else 0.6)

    def at(x: float, h: float) -> Point:
        return x0 + x * scale, foot + (h - low) * scale

    ears = [at(x, h) for x, h in column.top.ears]
    pen.shape([(x0, base), *ears, (x0 + wide * scale, base)], 0.9, MEDIUM)
    if column.top.centre != column.top.ears:
        centre = [at(x, h) for x, h in column.top.centre]
        for a, b in pairwise(centre):
            pen.stroke(*a, *b, THICK, (0.08, 0.05))
    room = (SKETCH - wide * scale) / 2 - 0.06
    _beside(pen, column.top.left, x0 - 0.06, base + 0.1, room, "right")
    _beside(pen, column.top.right, x0 + wide * scale + 0.06, base + 0.1, room, "left")


def _beside(pen: Recorder, text: str, x: float, y: float, room: float, align: Align) -> None:
    """What lies to one side of the sketch, a word a line."""
    parts = text.split(" ", 1)
    for i, part in enumerate(reversed(parts)):
        size = fit(part, pt(11), fonts.BOLD, room, fractions=False)
        write(pen, x, y + i * 0.17, part, size, fonts.BOLD, align, fractions=False)


def _facts(pen: Recorder, building: Building, column: Column) -> None:
    """Stock, where it stands, what else is on it, and the reading behind it all."""
    style = building.job.style
    x = PAD + SKETCH + 0.12
    room = WIDE - PAD - x
    if column.stock is None or column.drop is None:
        stock = "NO STOCK IS LONG ENOUGH"
    else:
        stock = f"STOCK {show(column.stock, style)}  ·  drop {show(column.drop, style)}"
        if column.fit.made:
            stock = f"STOCK {show(column.stock, style)}  ·  as delivered"
    write(pen, x, FACTS_TOP - 0.26, stock, fit(stock, pt(16), fonts.BOLD, room), fonts.BOLD)
    left, right = column.neighbours
    walls = " and ".join(column.walls)
    lines = [
        f"Wall{'s' if len(column.walls) > 1 else ''} {walls}. From outside: {left} to the left, {right} to the right.",
        f"Reading {taken(building.readings, column.reading, style)}, line {_line(building, style)}.",
        _ends(column),
    ]
    top, low = FACTS_TOP - 0.32, 0.26
    size, parts = _set(lines + [column.note] * bool(column.note), room, top - low)
    for i, part in enumerate(parts):
        write(pen, x, top - size - i * size * FACT_LEAD, part, size)


def _ends(column: Column) -> str:
    """Which end may be cut."""
    if not column.fit.made:
        return "Cut the top only. Bottom end stays as it is."
    if column.fit.cut_off:
        return "Cut the bottom only. The top is made. All marks are from the NEW bottom end."
    return "Cut neither end: the top is made."


def _line(building: Building, style: Style) -> str:
    """The line reading as the rod says it."""
    line = building.grade.line
    return "unknown" if line is None else taken(building.readings, line, style)


def _set(lines: Sequence[str], room: float, tall: float) -> tuple[float, list[str]]:
    """The largest type in which *lines*, wrapped, stand in *room* by *tall* inches."""
    points = FACT
    while True:
        size = pt(points)
        parts = [part for line in lines for part in wrap(line, size, fonts.REGULAR, room)]
        if len(parts) * size * FACT_LEAD <= tall or points <= 6:
            return size, parts
        points -= 0.25
