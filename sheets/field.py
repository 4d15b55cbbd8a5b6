"""The field sheet: what goes out on a clipboard to shoot the readings, before there are any.

The plan (``field_plan``), a sheet of what is to be settled and noted before the round, and the booking sheets, a row a
column in walking order. How to read, to check the laser by turning it, to read the first point again, to join two
set-ups by a seat read from both, and to name the highest and the lowest seat by eye: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.book_head import Head
from layouts.building import Building
from layouts.lengths import show
from layouts.plan import Spot
from sheets import field_plan
from sheets.frame import Body
from sheets.lettering import Align, fit, pt, width, write
from sheets.paper import Area, Paper
from sheets.shapes import MEDIUM, THIN, Drawing, Recorder
from sheets.tables import Flow
from sheets.wrapping import wrap

ROW, TALLEST = 0.34, 0.5  # inches: a gloved hand with a pencil writes in the least row
HEAD = 0.58  # over the rows of a booking sheet
HEADS = 0.22  # the row of headings
ROUNDS = ("ROUND 1", "ROUND 2")
SHARES = (0.62, 1.35, 1.75, 1.75, 0.7, 2.2)  # order, column, two rounds, set-up, note
SMALL, CAPTION = pt(10), pt(9.5)
TICK = 0.17

HOW = (
    "One reads, another repeats it aloud and writes it down.",
    "Walk in the order of the numbers. Read the first point again at the end of every sheet and of the round.",
    "Check the laser first: read a mark, turn the laser 180° where it stands, read the mark again. The difference is"
    " TWICE its error.",
    "Before the first reading write down which seat is highest and which is lowest by eye. If the readings say the"
    " opposite, the rod was read the wrong way round.",
)


def pages(building: Building, paper: Paper) -> list[Body]:
    """The whole field sheet. How far a point and its check-back may be apart is the job's own limit."""
    limit, style = building.job.readings.misclosure, building.job.style
    # a seat read from two set-ups closes a loop over both
    apart, joined = show(limit, style), show(2 * limit, style)
    return [*field_plan.pages(building, paper), *_before(building, paper, joined), *_readings(building, paper, apart)]


def _how(head: Head) -> tuple[str, ...]:
    """How to shoot, as the file of readings says that it is done, else on the seat and down from the beam. A rod that
    leans finds its seat too low: what reads it highest counts, whichever way the rod is numbered."""
    return (
        "Read on the CONCRETE, as the file of readings says, not on the seat."
        if head.concrete
        else "Read on the SEAT that the column will stand on, not on the concrete.",
        "Read as heights: LARGER IS HIGHER." if head.up else "Rod or tape down from the beam: LARGER IS LOWER.",
        f"Rock the rod to and fro: the {'LARGEST' if head.up else 'SMALLEST'} reading counts.",
        *HOW,
    )


def _in_short(head: Head) -> str:
    """The same over every booking sheet."""
    where = "Concrete, not seat." if head.concrete else "Seat, not concrete."
    if head.up:
        return f"{where} Rock the rod: the largest reading. Read as heights: larger is higher."
    return f"{where} Rock the rod: the smallest reading. Rod down from the beam: larger is lower."


# --- boxes ----------------------------------------------------------------------------------------------------------


class Cell(Struct, frozen=True):
    """A box of a row: its *share* of the width, what is printed in it, and the *name* of the group that a box to be
    filled in is found by. A *caption* stands small at the upper left, other words are wrapped; of what is *plain*, the
    name of a column, nothing is ever read as a length."""

    share: float
    text: str = ""
    size: float = SMALL
    cut: str = fonts.REGULAR
    align: Align = "left"
    name: str = ""
    caption: bool = False
    plain: bool = False


def _row(pen: Recorder, x: float, y: float, wide: float, tall: float, cells: Sequence[Cell]) -> None:
    """Boxes side by side, their upper edge at *y*."""
    total = sum(cell.share for cell in cells)
    for cell in cells:
        across = wide * cell.share / total
        if cell.name:
            pen.begin(cell.name)
        pen.box(x, y - tall, x + across, y, None, THIN)
        if cell.name:
            pen.end()
        if cell.text:
            _words(pen, x, y, across, tall, cell)
        x += across


def _words(pen: Recorder, x: float, y: float, wide: float, tall: float, cell: Cell) -> None:
    """What is printed in a box."""
    at = {"left": x + 0.06, "center": x + wide / 2, "right": x + wide - 0.06}[cell.align]
    room, size = wide - 0.12, cell.size
    if cell.caption:
        size = fit(cell.text, CAPTION, cell.cut, room)
        write(pen, at, y - 0.03 - size * 0.85, cell.text, size, cell.cut, cell.align)
        return
    lines = [cell.text] if cell.plain else wrap(cell.text, size, cell.cut, room)
    size = min(size, (tall - 0.04) / len(lines) / 1.1)
    base = y - tall / 2 + size * (1.1 * (len(lines) - 1) / 2 - 0.35)
    for line in lines:
        fitted = fit(line, size, cell.cut, room, fractions=not cell.plain)
        write(pen, at, base, line, fitted, cell.cut, cell.align, fractions=not cell.plain)
        base -= size * 1.1


# --- before the round -----------------------------------------------------------------------------------------------


def _before(building: Building, paper: Paper, apart: str) -> list[Body]:
    """Who, with what, how; benchmarks and set-ups, whose common seats may be so far *apart*."""
    flow = Flow("field", "Field sheet, before the round", paper)
    imperial = ("inches and fractions", "tenths of a foot", "decimal inches", "mm")
    units = ("mm",) if building.job.style.unit == "mm" else imperial
    flow.heading("BEFORE THE ROUND", pt(18))
    _blanks(flow, (("DATE", 1.0), ("WEATHER", 1.4), ("READ BY", 1.3), ("WROTE", 1.3)))
    _blanks(flow, (("LASER", 1.2), ("ROD OR TAPE", 1.2), ("LASER CHECK: a mark reads", 1.2), ("turned 180°", 1.2)))
    flow.gap(0.08)
    for head, choices in (
        ("IT READS IN", units),
        ("IT IS READ", ("down from the beam: larger is LOWER", "as heights: larger is HIGHER")),
        ("READ ON", ("the seat", "the concrete; plate thickness _________")),
    ):
        flow.draw(_ticks(flow.area, head, choices))
    flow.gap(0.08)
    _blanks(flow, (("HIGHEST BY EYE: column", 1.0), ("LOWEST BY EYE: column", 1.0)))
    flow.gap()
    flow.boxed("HOW TO SHOOT", [f"{i}. {line}" for i, line in enumerate(_how(building.readings.head), 1)], pt(11))
    flow.heading("BENCHMARKS", pt(13), keep=HEADS + 3 * ROW)
    _grid(flow, (("name", 1.0), ("where it is", 3.2), ("ROUND 1", 1.5), ("ROUND 2", 1.5)), [""] * 3, "benchmark")
    flow.gap()
    flow.heading("IF THE LASER IS MOVED", pt(13), keep=1.2 + HEADS + 2 * ROW)
    flow.para(
        "Read one seat (better two) from the new set-up that you have read before, and book both readings here. Two"
        f" seats give the same difference; more than {apart} apart: read them again. From there on check back on the"
        " first of them, not on START.",
        pt(11),
    )
    flow.gap(0.06)
    heads = (("set-up", 1.0), ("seat read before", 1.5), ("read before", 1.5), ("read anew", 1.5), ("difference", 1.5))
    _grid(flow, heads, ["2, first seat", "2, second seat", "3, first seat", "3, second seat"], "set-up")
    return flow.bodies()


def _blanks(flow: Flow, items: Sequence[tuple[str, float]], tall: float = 0.46) -> None:
    """Boxes with small captions, the whole width across."""
    flow.need(tall)
    cells = [Cell(share, text, name=f"blank-{text}", caption=True) for text, share in items]
    _row(flow.pen, flow.area.x0, flow.y, flow.area.width, tall, cells)
    flow.y -= tall


def _grid(flow: Flow, heads: Sequence[tuple[str, float]], firsts: Sequence[str], name: str) -> None:
    """Blank rows under headings; *firsts* stand in the first box of each."""
    flow.need(HEADS + ROW * len(firsts))
    top = [Cell(share, text, SMALL, fonts.BOLD) for text, share in heads]
    _row(flow.pen, flow.area.x0, flow.y, flow.area.width, HEADS, top)
    flow.y -= HEADS
    for i, first in enumerate(firsts, 1):
        cells = [Cell(share, name=f"{name}-{i}-{text}") for text, share in heads[1:]]
        _row(flow.pen, flow.area.x0, flow.y, flow.area.width, ROW, [Cell(heads[0][1], first, SMALL), *cells])
        flow.y -= ROW


def _ticks(area: Area, head: str, choices: Sequence[str]) -> Drawing:
    """Boxes to tick, as many lines as they need."""
    size, line, indent = pt(11), 0.27, 1.05
    places: list[tuple[float, int, str]] = []
    x, row = indent, 0
    for text in choices:
        wide = TICK + 0.07 + width(text, size)
        if x > indent and x + wide > area.width:
            x, row = indent, row + 1
        places.append((x, row, text))
        x += wide + 0.28
    tall = line * (row + 1)
    pen = Recorder(area.width, tall)
    pen.begin(f"ticks-{head}", head)
    write(pen, 0.0, tall - 0.2, head, size, fonts.BOLD)
    for x, row, text in places:
        y = tall - 0.2 - row * line
        pen.box(x, y - 0.02, x + TICK, y - 0.02 + TICK, None, MEDIUM)
        write(pen, x + TICK + 0.07, y, text, fit(text, size, fonts.REGULAR, area.width - x - TICK - 0.07))
    pen.end()
    return pen.drawing()


# --- booking sheets -------------------------------------------------------------------------------------------------


def _readings(building: Building, paper: Paper, apart: str) -> list[Body]:
    """A row a column in walking order, as many a sheet as rows of the least height leave room for, spread evenly; the
    starting point over them and the check-back on it under them on every sheet."""
    spots = list(enumerate(building.plan.spots, 1))
    room = paper.body.height - HEAD - HEADS - 0.06
    most = int(room / ROW + 1e-9) - 3
    count = -(-len(spots) // most)
    fits = -(-len(spots) // count)
    parts = [spots[i : i + fits] for i in range(0, len(spots), fits)]
    tall = min(room / (fits + 3), TALLEST)
    how = _in_short(building.readings.head)
    return [_sheet(paper, part, (number, len(parts)), tall, apart, how) for number, part in enumerate(parts, 1)]


def _sheet(
    paper: Paper, part: Sequence[tuple[int, Spot]], which: tuple[int, int], tall: float, apart: str, how: str
) -> Body:
    """One booking sheet, *which* of how many."""
    area, (number, many) = paper.body, which
    of = f", sheet {number} of {many}" if many > 1 else ""
    pen = Recorder(paper.width, paper.height)
    write(pen, area.x0, area.y1 - 0.26, f"READINGS{of}", pt(20), fonts.BOLD)
    order = f"{part[0][0]} to {part[-1][0]}"
    write(pen, area.x1, area.y1 - 0.26, order, pt(20), fonts.BOLD, "right")
    write(pen, area.x0, area.y1 - 0.48, how, fit(how, SMALL, fonts.REGULAR, area.width))
    y = area.y1 - HEAD
    heads = ("order", "column", *ROUNDS, "set-up", "note")
    _row(
        pen,
        area.x0,
        y,
        area.width,
        HEADS,
        [Cell(s, h, SMALL, fonts.BOLD, "center") for h, s in zip(heads, SHARES, strict=True)],
    )
    y -= HEADS
    first = "START ON which point:" if number == 1 else "START, as on sheet 1:"
    rows = [("start", _start(first))]
    rows += [(f"row-{i}", _column(i, spot)) for i, spot in part]
    rows += [("check-back", _wide("CHECK-BACK on START: read it again")), ("difference", _difference(apart))]
    for name, cells in rows:
        pen.begin(name, cells[0].text)
        _row(pen, area.x0, y, area.width, tall, cells)
        pen.end()
        y -= tall
    title = f"Field sheet, readings {number}" if many > 1 else "Field sheet, readings"
    return Body("field", title, pen.drawing(), paper)


def _column(number: int, spot: Spot) -> list[Cell]:
    """The row of a column."""
    return [
        Cell(SHARES[0], str(number), pt(15), align="center"),
        Cell(SHARES[1], spot.name, pt(22), fonts.BOLD, "center", plain=True),
        *_boxes(),
    ]


def _start(text: str) -> list[Cell]:
    """The row of the point the round starts on, with room for its name."""
    *boxes, note = _boxes()
    first = Cell(SHARES[0] + SHARES[1], text, cut=fonts.BOLD, name="start-name", caption=True)
    return [first, *boxes, replace(note, text="date, hour", caption=True)]


def _wide(text: str) -> list[Cell]:
    """A row that is no column's."""
    return [Cell(SHARES[0] + SHARES[1], text, pt(11), fonts.BOLD), *_boxes()]


def _boxes() -> list[Cell]:
    """What is filled in, right of a name."""
    names = ("round-1", "round-2", "set-up", "note")
    return [Cell(share, name=name) for share, name in zip(SHARES[2:], names, strict=True)]


def _difference(apart: str) -> list[Cell]:
    """The last row: check-back less start, and what is to be done about it."""
    said = f"More than {apart} apart:\nSHOOT THE ROUND AGAIN."
    return [*_wide("DIFFERENCE: check-back less START")[:3], Cell(sum(SHARES[4:]), said, pt(12), fonts.BOLD)]
