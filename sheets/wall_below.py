"""What stands under the picture of a wall: its openings, its totals, what to beware of, its pieces if they go there."""

from __future__ import annotations

from collections import Counter

from msgspec import Struct

import fonts
from layouts.amounts import weight
from layouts.boards import Wall
from layouts.building import Building
from layouts.lengths import Style, show
from layouts.lift import Lift
from layouts.lift_words import verdict
from layouts.pieces import pieces_of
from sheets import cautions, openings_drawn
from sheets.boards import board_text, counted
from sheets.lettering import fit, pt, width, write
from sheets.paper import Area
from sheets.row_names import STARRED, STRAIGHTEST
from sheets.shapes import MEDIUM, Recorder
from sheets.view import View
from sheets.wall_labels import SAID
from sheets.wrapping import wrap

TABLE = 1.84  # under the wall, with the piece table
ROW = 0.165
TABLE_ROWS = 8
TEXT, SMALL = pt(10), pt(8)
VERDICT = pt(17)
BESIDE = 0.5  # what the verdict and the weight take, beside a caution of one or two lines
OPENING, OPENING_ROW = pt(9), 0.15
MOST_LINES = 9  # of words about openings under a picture


class Below(Struct, frozen=True):
    """What goes under the picture of *wall*, as it is drawn: its pieces or not (*overleaf*), its openings in words or
    not; *lift* is its lift."""

    building: Building
    wall: Wall
    lift: Lift
    overleaf: bool
    told: bool = True

    @property
    def style(self) -> Style:
        """How lengths are shown."""
        return self.building.job.style

    @property
    def sheet(self) -> str:
        """The sheet on which the rest stands."""
        return f"Wall {self.wall.name}, {'pieces, ' if self.overleaf or not self.told else ''}lift and nails"

    def openings(self, low: float, high: float, room: float) -> list[tuple[str, bool]]:
        """The lines about openings between two places along the wall, and whether each is bold."""
        found: list[tuple[str, bool]] = []
        for opening in self.wall.openings if self.told else ():
            if low < opening.right and opening.left < high:
                corner = self.wall.stands[0].name
                found.append((openings_drawn.line(opening, corner, self.style), True))
                parts = openings_drawn.boards(self.wall, opening, self.building.job)
                found += [(text, False) for text in openings_drawn.packed(parts, OPENING, room - 0.15)]
        return found

    def tall(self, area: Area, low: float, high: float) -> float:
        """Inches that all of it takes up on a page that shows the wall between two places."""
        lines = self.openings(low, high, area.width)
        block = OPENING_ROW * len(lines) + 0.06 if lines else 0.0
        return block + (self._narrow(area) if self.overleaf else TABLE)

    def _narrow(self, area: Area) -> float:
        """What it takes up without the pieces."""
        side = self._says(area.width)
        notes = _notes(self, 1 / 84, area.width, starred=True)
        return ROW * len(notes) + 0.1 + max(len(side) * TEXT * 1.25, BESIDE) + 0.12

    def _says(self, width_: float) -> list[str]:
        """The caution beside its verdict."""
        return wrap(
            cautions.of_wall(self.sheet, self.building.job.style), TEXT, fonts.REGULAR, width_ - 0.35 - self.aside
        )

    @property
    def aside(self) -> float:
        """How wide the verdict stands beside the caution."""
        return max(width(text, size, fonts.BOLD) for text, size in _verdict(self))

    def draw(self, pen: Recorder, area: Area, view: View, starred: bool = False) -> None:
        """All of it; *starred*: there are rows with a star."""
        y = area.y0 + self.tall(area, view.low, view.high)
        lines = self.openings(view.low, view.high, area.width)
        for text, bold in lines:
            cut = fonts.BOLD if bold else fonts.REGULAR
            x, room = (area.x0, area.width) if bold else (area.x0 + 0.15, area.width - 0.15)
            write(pen, x, y - 0.13, text, fit(text, OPENING, cut, room), cut)
            y -= OPENING_ROW
        y -= 0.06 if lines else 0.0
        right = area.x1 if self.overleaf else area.x0 + area.width * 0.47 - 0.1
        top = y
        y -= 0.18
        for text in _notes(self, view.scale, right - area.x0, starred):
            write(pen, area.x0, y, text, fit(text, TEXT, fonts.BOLD, right - area.x0), fonts.BOLD)
            y -= ROW
        box = Area(area.x0, area.y0 + 0.02, right, y + 0.08)
        if self.overleaf:
            _wide(pen, box, self)
        else:
            _square(pen, box, self)
            _table(pen, Area(right + 0.15, area.y0, area.x1, top - 0.05), self.wall, self.style)


def _verdict(below: Below) -> list[tuple[str, float]]:
    """Hands or machine, and about how heavy, with the sizes of both."""
    heavy = f"about {weight(below.lift.wet.pounds, below.style)} wet"
    return [(verdict(below.lift), VERDICT), (heavy, pt(12))]


def _wide(pen: Recorder, box: Area, below: Below) -> None:
    """The caution over the whole width: the verdict to its left."""
    pen.box(box.x0, box.y0, box.x1, box.y1, None, MEDIUM)
    (first, large), (second, small) = _verdict(below)
    write(pen, box.x0 + 0.1, box.y1 - 0.27, first, large, fonts.BOLD)
    write(pen, box.x0 + 0.1, box.y1 - 0.5, second, small, fonts.BOLD)
    room = box.width - 0.35 - below.aside
    _paragraph(pen, Area(box.x0 + 0.25 + below.aside, box.y0, box.x0 + 0.25 + below.aside + room, box.y1), below)


def _square(pen: Recorder, box: Area, below: Below) -> None:
    """The caution under the totals: the verdict over it."""
    pen.box(box.x0, box.y0, box.x1, box.y1, None, MEDIUM)
    (first, large), (second, small) = _verdict(below)
    room = box.width - 0.3
    after = width(second, small, fonts.BOLD)
    size = fit(first, large, fonts.BOLD, room - after - 0.1)
    write(pen, box.x0 + 0.1, box.y1 - 0.24, first, size, fonts.BOLD)
    write(pen, box.x1 - 0.1, box.y1 - 0.24, second, small, fonts.BOLD, "right")
    _paragraph(pen, Area(box.x0 + 0.1, box.y0, box.x1 - 0.1, box.y1 - 0.28), below)


def _paragraph(pen: Recorder, box: Area, below: Below) -> None:
    """The caution in *box*, smaller where it has to be."""
    text = cautions.of_wall(below.sheet, below.building.job.style)
    size, lines = TEXT, wrap(text, TEXT, fonts.REGULAR, box.width)
    while len(lines) * size * 1.25 > box.height - 0.06:
        size *= 0.97
        lines = wrap(text, size, fonts.REGULAR, box.width)
    y = box.y1 - 0.03
    for part in lines:
        y -= size * 1.25
        write(pen, box.x0, y + size * 0.2, part, size)


# --- totals ---------------------------------------------------------------------------------------------------------


def _totals(below: Below, scale: float) -> list[str]:
    style, wall = below.style, below.wall
    ratio = round(1 / scale)
    said = f"Scale 1:{ratio}." if style.unit == "mm" else f"Scale: 1 in is {show(ratio, style)}."
    return [
        f"{_ends(below)}.",
        f"Marks are the {edges_marked(below.building)}; stations up from the grade line.",
        f"Running dimensions from the outside of {wall.stands[0].name}. {said}",
        SAID,
    ]


def _ends(below: Below) -> str:
    """What the wall measures from end to end: which boards run past the corner columns, and which stop at them."""
    wall, style = below.wall, below.style
    past = _pasts(wall)
    columns = show(wall.line.length, style)
    if not any(past.values()):
        return f"Columns out to out {columns}; boards stop at the columns"
    if len({round(over, 6) for over in past.values()}) == 1 and GIRTS in past:
        return f"Columns out to out {columns}; boards run past to {show(wall.line.length + 2 * past[GIRTS], style)}"
    others = past.get(GIRTS, past.get(NAILERS))
    told = [
        f"{what} {show(wall.line.length + 2 * over, style)}"
        for what, over in past.items()
        if over and not (what == WAINSCOT and over == others)
    ]
    rest = "" if all(past.values()) and GIRTS in past else "; the rest stops at the columns"
    return f"Out to out: columns {columns}; {'; '.join(told)}{rest}"


GRADE, WAINSCOT, GIRTS, NAILERS = "grade board", "wainscot nailer", "girts and nailers", "nailers"


def _pasts(wall: Wall) -> dict[str, float]:
    """How far each kind of board outside runs past the corner columns at most, inches."""
    rows = [c for c in wall.courses if c.row.layer == "outside" and c.pieces]
    girts = any("girt" in c.row.key for c in rows)
    found: dict[str, float] = {}
    for course in rows:
        first, last = course.pieces[0], course.pieces[-1]
        over = max(0.0, -min(first.low[0], first.high[0]), max(last.low[1], last.high[1]) - wall.line.length)
        key = course.row.key if course.row.key in (GRADE, WAINSCOT) else GIRTS if girts else NAILERS
        found[key] = max(found.get(key, 0.0), over)
    return found


def edges_marked(building: Building) -> str:
    """Which edge of the boards is marked: the grade board always stands on its line."""
    if building.job.girts.edge == "bottom":
        return "bottom edge of every board"
    return "top edge of every board but the grade board"


def _notes(below: Below, scale: float, room: float, starred: bool) -> list[str]:
    """The bold lines under a wall; *starred*: with what the star at a row is."""
    totals = _totals(below, scale)
    if not below.overleaf:
        return totals
    what = "PIECES AND ROWS" if below.told else "OPENINGS, PIECES AND ROWS"
    if below.wall.carriers or any(c.row.key == "carrier" for c in below.wall.courses):
        totals.append(f"CARRIERS AND TRUSSES: on the sheet Wall {below.wall.name}, carriers.")
    where = f"{what}: on the sheet {below.sheet}{f'; {STARRED}' if starred else ''}."
    return wrap(" ".join([*totals, where]), TEXT, fonts.BOLD, room)


def straightest(wall: Wall) -> dict[str, str]:
    """Of piece numbers that go where the eye goes: for how many of them the straightest boards are, in words."""
    boards = Counter(board.mark for board, _ in pieces_of(wall))
    straight = Counter(p.mark for course in wall.all_courses if course.straightest for p in course.pieces)
    return {m: f"{STRAIGHTEST} boards" if n == boards[m] else f"{STRAIGHTEST} for {n}" for m, n in straight.items()}


def _table(pen: Recorder, area: Area, wall: Wall, style: Style) -> None:
    """Every piece of this wall: number, how many, board, length; in two columns."""
    head = "PIECES OF THIS WALL  (number, how many, board, long edge)"
    write(pen, area.x0, area.y1 - 0.13, head, pt(9), fonts.BOLD)
    wide, straight = area.width / 2, straightest(wall)
    for i, (board, count) in enumerate(counted(wall)):
        x, y = area.x0 + (i // TABLE_ROWS) * wide, area.y1 - 0.32 - (i % TABLE_ROWS) * ROW
        text = f"{count} pc  {board_text(board)}  {show(board.length, style)}"
        used = write(pen, x, y, board.mark, TEXT, fonts.BOLD)
        start = max(used + 0.08, 0.36)
        told = straight.get(board.mark, "")
        room = wide - start - 0.08 - (width(told, SMALL) + 0.1 if told else 0.0)
        taken = write(pen, x + start, y, text, fit(text, TEXT, fonts.REGULAR, room))
        write(pen, x + start + taken + 0.1, y, told, SMALL)
