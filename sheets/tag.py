"""Column tags: one a column, two a page, cut apart and stapled on.

Biggest first: the name, which end is up and which face is out, the offset, high or low in words, the cuts from the
bottom end. A sidewall tag goes on a side face (the slope shows there), an endwall tag on the outside face.
"""

from __future__ import annotations

from itertools import pairwise

import fonts
from layouts.building import Building
from layouts.columns import Column, Cut
from layouts.lengths import Style, show, show_inches
from sheets.frame import Body, stamp, words
from sheets.lettering import fit, pt, wrap, write
from sheets.paper import Paper
from sheets.shapes import HAIR, MEDIUM, THICK, THIN, Drawing, Point, Recorder

WIDE, TALL = 4.9, 7.0
EACH = 2
PAD = 0.14
NAME_TOP = TALL - 1.12
OFFSET_LOW = NAME_TOP - 1.36
WORDS_LOW = OFFSET_LOW - 0.72
FACTS_TOP = 1.6
ROW = 0.58
SKETCH = 1.55


def pages(building: Building, paper: Paper) -> list[Body]:
    """The tags of all columns that were read, in walking order."""
    paper = paper.turned()
    area = paper.body
    step = (area.width - EACH * WIDE) / (EACH - 1) + WIDE
    found = []
    for first in range(0, len(building.columns), EACH):
        held = building.columns[first : first + EACH]
        pen = Recorder(paper.width, paper.height)
        parts = []
        for i, column in enumerate(held):
            drawing, code = tag(building, column)
            pen.place(drawing.shapes, area.x0 + i * step, area.y0 + (area.height - TALL) / 2)
            parts.append((f"Tag {column.name}", code))
        title = f"Tag{'s' if len(held) > 1 else ''} {' and '.join(c.name for c in held)}"
        found.append(Body("tags", title, pen.drawing(), paper, parts=tuple(parts)))
    return found


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
    _cuts(pen, column, style)
    _sketch(pen, column)
    _facts(pen, building, column)
    pen.end()
    code = stamp(words(pen.drawing().shapes))
    pen.begin("stamp")
    tail = "  ·  ".join(w for w in (building.job.job.date, f"stamp {code}") if w)
    write(pen, WIDE - PAD, 0.1, tail, pt(10), fonts.BOLD, "right")
    pen.end()
    return pen.drawing(), code


def _rule(pen: Recorder, y: float) -> None:
    pen.stroke(PAD, y, WIDE - PAD, y, MEDIUM)


def _name(pen: Recorder, column: Column) -> None:
    """Name in the middle, TOP to its left, OUTSIDE to its right."""
    middle = (NAME_TOP + TALL) / 2
    arrow(pen, (0.48, middle - 0.18), (0.48, TALL - 0.12), 0.2)
    write(pen, 0.48, NAME_TOP + 0.13, "TOP", pt(18), fonts.BOLD, "center")
    size = fit(column.name, pt(84), fonts.BOLD, WIDE - 2.6, fractions=False)
    write(pen, WIDE / 2 - 0.1, middle - size * 0.35, column.name, size, fonts.BOLD, "center", fractions=False)
    right = WIDE - 0.62
    if column.role == "end":
        write(pen, right, middle + 0.12, "THIS FACE", pt(15), fonts.BOLD, "center")
        write(pen, right, middle - 0.16, "OUTSIDE", pt(15), fonts.BOLD, "center")
    else:
        arrow(pen, (WIDE - 0.12, middle + 0.08), (WIDE - 1.12, middle + 0.08), 0.2)
        write(pen, right, NAME_TOP + 0.13, "OUTSIDE", pt(18), fonts.BOLD, "center")
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
    where = "up from the bottom end" if column.offset >= 0 else "BELOW THE BOTTOM END by"
    write(pen, PAD, NAME_TOP - 0.22, f"OFFSET: the grade line, {where}", pt(13), fonts.BOLD)
    write(pen, WIDE / 2, OFFSET_LOW + 0.28, show(abs(column.offset), style), pt(66), fonts.BOLD, "center")
    _rule(pen, OFFSET_LOW)
    for text, y, size in ((column.seat, OFFSET_LOW - 0.28, 19), (column.longer, OFFSET_LOW - 0.62, 19)):
        write(pen, WIDE / 2, y, text, fit(text, pt(size), fonts.BOLD, WIDE - 2 * PAD), fonts.BOLD, "center")
    _rule(pen, WORDS_LOW)


def _cuts(pen: Recorder, column: Column, style: Style) -> None:
    """Every cut from the bottom end, highest first, as the column lies from top to bottom."""
    ordered = sorted(column.cuts, key=lambda c: -c.station)
    row = min(ROW, (WORDS_LOW - 0.26 - FACTS_TOP) / len(ordered))
    write(pen, PAD, WORDS_LOW - 0.19, "CUTS, from the bottom end", pt(11), fonts.BOLD)
    y = WORDS_LOW - 0.26
    for cut in ordered:
        y -= row
        _cut(pen, cut, column, style, y, row)
    _rule(pen, FACTS_TOP)


def _cut(pen: Recorder, cut: Cut, column: Column, style: Style, y: float, row: float) -> None:
    size = pt(36) * row / ROW
    text = show(column.up(cut.station), style)
    taken = write(pen, WIDE - PAD, y + row * 0.19, text, size, fonts.BOLD, "right")
    room = WIDE - 2 * PAD - taken - 0.12
    write(pen, PAD, y + row * 0.49, cut.name, fit(cut.name, pt(16), fonts.BOLD, room), fonts.BOLD)
    write(pen, PAD, y + row * 0.14, cut.where, fit(cut.where, pt(12), fonts.REGULAR, room))
    pen.stroke(PAD, y, WIDE - PAD, y, HAIR)


def _sketch(pen: Recorder, column: Column) -> None:
    """The top of the column at its true slope, seen on the face that the tag is stapled to."""
    points = [*column.top.ears, *column.top.centre]
    wide = max(x for x, _ in points)
    low, high = min(h for _, h in points), max(h for _, h in points)
    scale = min(SKETCH * 0.36 / wide, 0.94 / max(high - low, 1.0))
    x0, base = PAD + (SKETCH - wide * scale) / 2, 0.2
    foot = base + 0.2

    def at(x: float, h: float) -> Point:
        return x0 + x * scale, foot + (h - low) * scale

    ears = [at(x, h) for x, h in column.top.ears]
    pen.shape([(x0, base), *ears, (x0 + wide * scale, base)], 0.9, MEDIUM)
    if column.top.centre != column.top.ears:
        centre = [at(x, h) for x, h in column.top.centre]
        for a, b in pairwise(centre):
            pen.stroke(*a, *b, THICK, (0.08, 0.05))
    room = (SKETCH - wide * scale) / 2 - 0.06
    for text, x, align in ((column.top.left, x0 - 0.06, "right"), (column.top.right, x0 + wide * scale + 0.06, "left")):
        size = fit(text, pt(11), fonts.BOLD, room, fractions=False)
        write(pen, x, base + 0.1, text, size, fonts.BOLD, "right" if align == "right" else "left", fractions=False)


def _facts(pen: Recorder, building: Building, column: Column) -> None:
    """Stock, where it stands, what else is on it, and the reading behind it all."""
    style = building.job.style
    x = PAD + SKETCH + 0.12
    room = WIDE - PAD - x
    if column.stock is None or column.drop is None:
        stock = "NO STOCK IS LONG ENOUGH"
    else:
        stock = f"STOCK {show(column.stock, style)}  ·  drop {show(column.drop, style)}"
    write(pen, x, FACTS_TOP - 0.27, stock, fit(stock, pt(16), fonts.BOLD, room), fonts.BOLD)
    left, right = column.neighbours
    walls = " and ".join(column.walls)
    lines = [
        f"Wall{'s' if len(column.walls) > 1 else ''} {walls}. From outside: {left} to the left, {right} to the right.",
        f"Reading {show_inches(column.reading, style)}, line {show_inches(column.reading - column.offset, style)}.",
        "Cut the top only. Bottom end stays as it is.",
    ]
    y = FACTS_TOP - 0.48
    for part in [part for line in lines for part in wrap(line, pt(10.5), fonts.REGULAR, room)]:
        write(pen, x, y, part, pt(10.5))
        y -= 0.19
    if column.note:
        write(pen, x, y, column.note, fit(column.note, pt(10.5), fonts.REGULAR, room))
