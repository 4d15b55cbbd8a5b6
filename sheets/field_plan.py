"""The plan page of the field sheet: columns in walking order, string lines, bays and both diagonals, seen from above;
what the drawing cannot hold legibly stands in a table on the sheet after it."""

from __future__ import annotations

from collections.abc import Sequence

import fonts
from layouts.building import Building
from layouts.lengths import show
from layouts.plan import Side, Spot
from sheets import field_lay as lay
from sheets.field_lay import CAP, GAP, NAME, NEAR, SMALL, WORDS, Mode, Sketch
from sheets.field_strings import table
from sheets.field_walls import GROUP, Edge, Word, chains, edges, middle, words
from sheets.frame import Body
from sheets.lettering import Align, Turn, fit, pt, width, write
from sheets.paper import Area, Paper
from sheets.plan import hatch
from sheets.shapes import HAIR, MEDIUM, THIN, Recorder
from sheets.tag_drawn import arrow
from sheets.wrapping import wrap

BLOCK = 0.05  # half a column's block
OUT = 0.06  # the building line is drawn so far outside of the columns, whatever the scale
INSIDE = 0.2  # from a wall to the arrow of the walk
WHICH: dict[Side, str] = {"left": "LEFT", "right": "RIGHT", "front": "FRONT", "back": "BACK"}


def pages(building: Building, paper: Paper) -> list[Body]:
    """The plan, on its side where it comes out larger so, and the table of what it could not hold."""
    on, sketch = lay.best(building, (paper, paper.lying()))
    pen = Recorder(on.width, on.height)
    _head(pen, on.body, building)
    pen.begin("field-plan", "plan from above")
    draw(pen, building, sketch)
    pen.end()
    lines = lay.legend(building, sketch.ways, on.body.width)
    for i, line in enumerate(lines, 1):
        write(pen, on.body.x0, on.body.y0 + SMALL * ((len(lines) - i) * lay.LEADING + 0.3), line, SMALL)
    return [Body("field", "Field sheet, plan", pen.drawing(), on), *table(building, paper, sketch.ways)]


def _head(pen: Recorder, area: Area, building: Building) -> None:
    """What it is, what the front faces, and how to walk."""
    faces = building.job.building.front_faces
    front = building.plan.front.name
    taken = write(pen, area.x0, area.y1 - 0.3, "FIELD SHEET", pt(24), fonts.BOLD)
    down = "YOU LOOK DOWN ON IT"
    size = fit(down, pt(20), fonts.BOLD, area.width - taken - 0.3)
    write(pen, area.x1, area.y1 - 0.3, down, size, fonts.BOLD, "right")
    large = f"FRONT, wall {front}, faces {faces}" if faces else f"FRONT is wall {front}"
    size = fit(large, pt(15), fonts.BOLD, area.width, fractions=False)
    write(pen, area.x0, area.y1 - 0.57, large, size, fonts.BOLD, fractions=False)
    how = "Walk in the order of the framed figures, the way of the arrows, from START. Bold: the column's name."
    write(pen, area.x0, area.y1 - 0.78, how, fit(how, pt(11), fonts.REGULAR, area.width))


# --- the drawing ----------------------------------------------------------------------------------------------------


def draw(pen: Recorder, building: Building, sketch: Sketch) -> None:
    """The plan with everything round it and in it."""
    s = sketch
    pen.stroke(s.x0, s.y0, s.x1, s.y1, HAIR, (0.1, 0.06))
    pen.stroke(s.x0, s.y1, s.x1, s.y0, HAIR, (0.1, 0.06))
    pen.box(s.x0, s.y0, s.x1, s.y1, None, MEDIUM)
    lean = building.plan.on("right") is None
    if building.job.building_line != "columns":
        _dashed(pen, s, lean)
    if lean:
        _standing(pen, s)
    _diagonals(pen, building, s)
    for side, edge in edges(building.plan).items():
        _walk(pen, s, edge)
        _columns(pen, building, s, edge)
        out = lay.labels(building, edge, s.ways)
        mode = s.ways.modes[GROUP[side]]
        for chain in chains(building.plan, side) if mode != "table" else ():
            found = words(building, edge, chain)
            _chain(pen, s, edge, chain, found, mode, out)
            out += lay.band(found, mode, s.ways.size)
        _overall(pen, building, s, edge)
    _start(pen, building, s)


def _dashed(pen: Recorder, s: Sketch, lean: bool) -> None:
    """The building line; that of a *lean*-to ends at the standing wall."""
    x0, y0, x1, y1 = s.x0 - OUT, s.y0 - (0.0 if lean else OUT), s.x1 + OUT, s.y1 + OUT
    for a, b, c, d in ((x0, y0, x1, y0), (x1, y0, x1, y1), (x1, y1, x0, y1), (x0, y1, x0, y0)):
        if not (lean and b == d == y0):
            pen.stroke(a, b, c, d, THIN, (0.06, 0.04))


def _standing(pen: Recorder, s: Sketch) -> None:
    """The wall that a lean-to leans against, and its words under it."""
    hatch(pen, s.x0 - 2 * OUT, s.x1 + 2 * OUT, s.y0, lay.STANDING)
    write(pen, (s.x0 + s.x1) / 2, s.y0 - lay.STANDING - WORDS, "THE STANDING WALL", WORDS, fonts.BOLD, "center")


def _beside(
    pen: Recorder, s: Sketch, side: Side, inches: float, out: float, text: str, size: float, mode: Mode = "along"
) -> None:
    """Words centred on a place along a wall, whose near edge stands *out* inches outside of it, along the wall or
    across it. Text along a gable reads up the page."""
    x, y = s.at(side, inches, out)
    half = size * CAP / 2
    places: dict[tuple[Side, bool], tuple[float, float, Align, Turn]] = {
        ("left", True): (x, y + size * lay.BELOW, "center", 0),
        ("right", True): (x, y - size * lay.ABOVE, "center", 0),
        ("front", True): (x - size * lay.BELOW, y, "center", 90),
        ("back", True): (x + size * lay.ABOVE, y, "center", 90),
        ("left", False): (x + half, y, "left", 90),
        ("right", False): (x + half, y, "right", 90),
        ("front", False): (x, y - half, "right", 0),
        ("back", False): (x, y - half, "left", 0),
    }
    px, py, align, turn = places[side, mode == "along"]
    write(pen, px, py, text, size, fonts.BOLD, align, turn)


def _columns(pen: Recorder, building: Building, s: Sketch, edge: Edge) -> None:
    """Every column as a block with its outer face on the line; its number in walking order in a frame, and its name."""
    side = edge.wall.side
    order = {spot.name: i for i, spot in enumerate(building.plan.spots, 1)}
    named = lay.shown(s, edge)
    for spot in edge.named:
        x, y = s.at(side, middle(side, spot), -BLOCK)
        x, y = min(max(x, s.x0 + BLOCK), s.x1 - BLOCK), min(max(y, s.y0 + BLOCK), s.y1 - BLOCK)
        pen.box(x - BLOCK, y - BLOCK, x + BLOCK, y + BLOCK, 0.0, 0.0)
        if spot in named:
            pen.begin(f"spot-{order[spot.name]}", spot.name)
            _label(pen, building, s, side, spot, order[spot.name])
            pen.end()


def _label(pen: Recorder, building: Building, s: Sketch, side: Side, spot: Spot, number: int) -> None:
    place, across = middle(side, spot), s.ways.turned[side]
    deep = lay.frame(building.plan) if across else lay.FRAME
    half = (lay.FRAME if across else lay.frame(building.plan)) / 2
    x, y = s.at(side, place, NEAR + deep / 2)
    wide, tall = (half, deep / 2) if GROUP[side] == "sides" else (deep / 2, half)
    pen.box(x - wide, y - tall, x + wide, y + tall, None, THIN)
    cap = lay.NUMBER * CAP / 2
    turned = across and GROUP[side] == "sides"
    at = (x + cap, y) if turned else (x, y - cap)
    write(pen, *at, str(number), lay.NUMBER, align="center", turn=90 if turned else 0)
    px, py = s.at(side, place, NEAR + deep + GAP)
    _name(pen, px, py, side, spot.name, across)


def _name(pen: Recorder, x: float, y: float, side: Side, name: str, across: bool) -> None:
    """A column's name, whose near end is at (x, y): never read as a length."""
    half = NAME * CAP / 2
    places: dict[Side, tuple[float, float, Align, Turn]] = {
        "left": (x + half, y, "left", 90) if across else (x, y + NAME * lay.BELOW, "center", 0),
        "right": (x + half, y, "right", 90) if across else (x, y - NAME * CAP, "center", 0),
        "front": (x, y - half, "right", 0),
        "back": (x, y - half, "left", 0),
    }
    px, py, align, turn = places[side]
    write(pen, px, py, name, NAME, fonts.BOLD, align, turn, fractions=False)


def _chain(pen: Recorder, s: Sketch, edge: Edge, caption: str, chain: Sequence[Word], mode: Mode, out: float) -> None:
    """A line with a slanted tick at every column, and its words outside of it; what it is stands beyond an end, at
    another corner of the drawing on each wall."""
    side = edge.wall.side
    _rule(pen, s, side, edge.places, out + lay.RULE / 2)
    pen.begin(f"{caption.lower()}-{side}", f"{caption.lower()} of wall {edge.wall.name}")
    for word in chain:
        _beside(pen, s, side, word.at, out + lay.RULE, word.text, s.ways.size, mode)
    pen.end()
    over = (
        width(chain[0].text, s.ways.size, fonts.BOLD) / 2 + 0.12 if caption == "RUNNING" and mode == "along" else 0.14
    )
    low = side in ("left", "back")  # left of the upper wall, over the right one
    x, y = s.at(side, 0.0 if low else edge.places[-1], out + lay.RULE / 2)
    if not low:
        over = max(over, width(chain[-1].text, s.ways.size, fonts.BOLD) / 2 + 0.12)
    half = SMALL * CAP / 2
    if GROUP[side] == "sides":
        write(pen, x - over if low else x + over, y - half, caption, SMALL, align="right" if low else "left")
    else:
        write(pen, x + half, y + over if low else y - over, caption, SMALL, align="left" if low else "right", turn=90)


def _rule(pen: Recorder, s: Sketch, side: Side, places: Sequence[float], out: float, past: float = 0.0) -> None:
    """A dimension line, *past* the first and the last place by so much page."""
    ends = [s.at(side, place, out) for place in (places[0], places[-1])]
    dx, dy = (past, 0.0) if GROUP[side] == "sides" else (0.0, -past)
    (x0, y0), (x1, y1) = (ends[0][0] - dx, ends[0][1] - dy), (ends[1][0] + dx, ends[1][1] + dy)
    pen.stroke(x0, y0, x1, y1, THIN)
    for x, y in ((x0, y0), *(s.at(side, place, out) for place in places[1:-1]), (x1, y1)):
        pen.stroke(x - 0.035, y - 0.035, x + 0.035, y + 0.035, THIN)


def _overall(pen: Recorder, building: Building, s: Sketch, edge: Edge) -> None:
    """The column string line beyond the left wall and the front, the building line beyond the others."""
    side, plan, style = edge.wall.side, building.plan, building.job.style
    out = lay.overall(building, edge, s.ways)
    length = edge.places[-1]
    if side in ("left", "front"):
        text, past = f"COLUMN STRING LINE, outside of columns: {show(length, style)}", 0.0
        if plan.on("right") is None and side == "left" and plan.inset:
            # no wall on the right carries it
            text += f" (outside of {building.job.building_line}: {show(plan.length, style)})"
    else:
        line = building.job.building_line
        whole = plan.length if GROUP[side] == "sides" else plan.width
        text, past = f"BUILDING LINE, outside of {line}: {show(whole, style)}", OUT if line != "columns" else 0.0
    _rule(pen, s, side, (0.0, length), out + lay.RULE / 2, past)
    _beside(pen, s, side, length / 2, out + lay.RULE, text, WORDS)


# --- inside ---------------------------------------------------------------------------------------------------------


def _walk(pen: Recorder, s: Sketch, edge: Edge) -> None:
    """The arrow of the walk along a wall, inside, and which wall it is. Walking order is clockwise seen from above."""
    side, length = edge.wall.side, edge.places[-1]
    ends = [s.at(side, length * part, -INSIDE) for part in (0.1, 0.9)]
    tail, tip = ends if side in ("left", "back") else ends[::-1]
    pen.begin(f"walk-{side}", f"walk along wall {edge.wall.name}")
    arrow(pen, tail, tip, 0.07)
    pen.end()
    text = f"{WHICH[side]}, wall {edge.wall.name}"
    x, y = s.at(side, length / 2, -INSIDE)
    along, up = width(text, WORDS, fonts.BOLD) / 2 + 0.06, WORDS * 0.6
    wide, tall = (along, up) if GROUP[side] == "sides" else (up, along)
    pen.box(x - wide, y - tall, x + wide, y + tall, 1.0, 0.0)
    half = WORDS * CAP / 2
    turn: Turn = 0 if GROUP[side] == "sides" else 90
    write(pen, x + half * bool(turn), y - half * (not turn), text, WORDS, fonts.BOLD, "center", turn)


def _diagonals(pen: Recorder, building: Building, s: Sketch) -> None:
    """Both diagonals in words, in the middle of the plan."""
    plan, style, line = building.plan, building.job.style, building.job.building_line
    room = s.x1 - s.x0 - 4 * INSIDE - 0.05
    column = f"COLUMN DIAGONAL {show(plan.column_diagonal, style)}"
    whole = f"BUILDING DIAGONAL {show(plan.building_diagonal, style)}"
    first = "Outside of columns, corner to corner; the same both ways. Square with it."
    if plan.on("right") is None:
        first = "From the outside of a corner column to the standing wall's face; the same both ways. Square with it."
    last = f"Outside of {line}. Never square the columns with it."
    if line == "columns":
        last = "The building line is the outside of columns here: the same."
    rows: list[tuple[str, float, str]] = [(column, pt(15), fonts.BOLD)]
    rows += [(text, SMALL, fonts.REGULAR) for text in wrap(first, SMALL, fonts.REGULAR, room)]
    rows += [(whole, pt(12), fonts.BOLD)]
    rows += [(text, SMALL, fonts.REGULAR) for text in wrap(last, SMALL, fonts.REGULAR, room)]
    rows = [(text, fit(text, size, cut, room), cut) for text, size, cut in rows]
    wide = max(width(text, size, cut) for text, size, cut in rows) / 2 + 0.08
    tall = sum(size * lay.LEADING for _, size, _ in rows)
    x, y = (s.x0 + s.x1) / 2, (s.y0 + s.y1) / 2 + tall / 2
    pen.box(x - wide, y - tall - 0.06, x + wide, y + 0.06, 1.0, 0.0)
    for text, size, cut in rows:
        y -= size * lay.LEADING
        write(pen, x, y + size * 0.28, text, size, cut, "center")


def _start(pen: Recorder, building: Building, s: Sketch) -> None:
    """START beside the first column's number, in the corner that names and chains leave free."""
    first, turned = building.plan.spots[0], s.ways.turned["left"]
    deep, wide = (lay.frame(building.plan), lay.FRAME) if turned else (lay.FRAME, lay.frame(building.plan))
    x, y = s.at("left", middle("left", first), NEAR + deep / 2)
    tip = x - wide / 2 - 0.03
    arrow(pen, (tip - 0.2, y), (tip, y), 0.07)
    write(pen, tip - 0.24, y - WORDS * CAP / 2, "START", WORDS, fonts.BOLD, "right")


# --- the table ------------------------------------------------------------------------------------------------------
