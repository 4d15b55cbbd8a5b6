"""Wall diagrams: the wall as it lies, outside face up, seen by a man who stands outside at its foot.

To a stated scale: columns with their offsets, the grade line, every board with its piece number and length, the
dimensions along the grade line. Long walls go over several pages that meet at a column.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import fonts
from layouts.building import Building
from layouts.lengths import Style, show
from layouts.walls import Piece, Stand, Wall
from sheets.frame import Body
from sheets.lettering import fit, pt, width, wrap, write
from sheets.paper import Area, Paper
from sheets.shapes import HAIR, HEAVY, MEDIUM, THIN, Point, Recorder

HEAD = 0.86
TABLE = 1.72
CHAINS = 1.0
NAMES = 1.62  # room for the row names on the left
SMALL = pt(9)
LEAST_SCALE = 1 / 84  # one inch for seven feet: smaller is not read at arm's length

CAUTION = (
    "LIFTING A WALL CAN KILL. Work out its weight before the lift: it is not on this sheet. Boots, props and tag lines"
    " ready; one voice calls the lift; only the lifters near it, nobody under it; restraints at the foot before"
    " walls of 10 ft and more go up by hand, a machine from 18 ft (Utah R614-7-4). No lift in gusts. Brace before"
    " release. Nail guns: full sequential trigger, eye protection. Guard against falls from 6 ft (29 CFR 1926.501)."
    " Hot-dip galvanised nails in treated wood; gloves and mask when cutting it, never burn it. Your plan, code and"
    " engineer rule. This is not a lift plan."
)


@dataclass(frozen=True)
class View:
    """Wall places and stations on the page: *x0* is where the left corner of the columns would stand, *y0* the grade
    line, *scale* page inches for an inch of wall; *low* to *high* is the stretch that this page shows."""

    x0: float
    y0: float
    scale: float
    low: float
    high: float

    def at(self, place: float, station: float) -> Point:
        """A place of the wall on the page."""
        return self.x0 + place * self.scale, self.y0 + station * self.scale

    def clipped(self, a: float, b: float) -> tuple[float, float] | None:
        """The part of a stretch that this page shows."""
        low, high = max(a, self.low), min(b, self.high)
        return (low, high) if high - low > 1e-6 else None


def pages(building: Building, paper: Paper) -> list[Body]:
    """Every wall of the building, in walking order."""
    found: list[Body] = []
    for wall in building.walls:
        found += _wall(building, wall, paper.turned())
    return found


def _wall(building: Building, wall: Wall, paper: Paper) -> list[Body]:
    windows = _windows(wall, paper.body.width - NAMES)
    found = []
    for i, (low, high) in enumerate(windows):
        pen = Recorder(paper.width, paper.height)
        part = f", part {i + 1} of {len(windows)}" if len(windows) > 1 else ""
        _head(pen, paper.body, building, wall, part)
        view = _view(wall, paper.body, low, high, building.job.style.unit == "mm")
        _draw(pen, view, wall, building.job.style)
        _chains(pen, view, wall, building.job.style)
        _below(pen, paper.body, building, wall, view)
        found.append(Body("walls", f"Wall {wall.name}{part}", pen.drawing(), paper))
    return found


def _span(wall: Wall) -> tuple[float, float]:
    """From the first to the last thing on the wall, run-past boards included."""
    over = max(wall.past, wall.grade_past)
    return -over, wall.line.length + over


def _windows(wall: Wall, room: float) -> list[tuple[float, float]]:
    """Stretches of the wall for one page each, parted at columns."""
    low, high = _span(wall)
    most = room / LEAST_SCALE
    stops = [s.centre for s in wall.stands[1:-1]]
    windows = []
    while high - low > most:
        end = max((s for s in stops if low < s <= low + most), default=low + most)
        windows.append((low, end))
        low = end
    return [*windows, (low, high)]


def _view(wall: Wall, area: Area, low: float, high: float, metric: bool) -> View:
    top = max(max(h for s in wall.stands for _, h in s.top), max(c.row.high for c in wall.courses))
    deep = max([s.column.offset for s in wall.stands if s.column] + [0.0])
    room_y = area.height - HEAD - TABLE - CHAINS - 0.15
    room_x = area.width - NAMES - 0.25
    scale = _even(min(room_x / (high - low), room_y / (top + deep)), metric)
    x0 = area.x0 + NAMES + (room_x - (high - low) * scale) / 2 - low * scale
    y0 = area.y0 + TABLE + CHAINS + deep * scale
    return View(x0, y0 + max(0.0, (room_y - (top + deep) * scale) / 2), scale, low, high)


def _even(scale: float, metric: bool) -> float:
    """The next smaller scale that can be said: half feet to the inch, or a ratio in fives."""
    step = 5 if metric else 6
    return 1 / (math.ceil(1 / scale / step - 1e-9) * step)


def _scale_text(view: View, style: Style) -> str:
    ratio = round(1 / view.scale)
    return f"Scale 1:{ratio}." if style.unit == "mm" else f"Scale: 1 in is {show(ratio, style)}."


def _head(pen: Recorder, area: Area, building: Building, wall: Wall, part: str) -> None:
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


# --- the wall -------------------------------------------------------------------------------------------------------


def _draw(pen: Recorder, view: View, wall: Wall, style: Style) -> None:
    for stand in wall.stands:
        if view.clipped(stand.left, stand.right):
            _stand(pen, view, wall, stand)
    for course in wall.courses:
        for piece in course.pieces:
            _piece(pen, view, piece)
    size = _label_size(view, wall)
    for course in wall.courses:
        for piece in course.pieces:
            _piece_label(pen, view, wall, piece, style, size)
    low, high = view.low, view.high
    pen.begin("grade-line", "grade line")
    x0, y = view.at(low, 0.0)
    x1, _ = view.at(high, 0.0)
    pen.stroke(x0 - 0.12, y, x1 + 0.12, y, HEAVY)
    pen.end()
    _row_names(pen, view, wall, style)


def _stand(pen: Recorder, view: View, wall: Wall, stand: Stand) -> None:
    """A column: its bottom end at minus its offset, its top as cut. A corner that stands in another wall is dashed."""
    bottom = -stand.column.offset if stand.column else 0.0
    points = [(stand.left, bottom), *stand.top, (stand.right, bottom)]
    outline = [view.at(*p) for p in points]
    theirs = not wall.owns_corners and stand in (wall.stands[0], wall.stands[-1])
    pen.begin(f"column-{stand.name}", stand.name)
    if theirs or stand.column is None:
        for a, b in pairwise([*outline, outline[0]]):
            pen.stroke(*a, *b, THIN, (0.05, 0.04))
    else:
        pen.shape(outline, 0.88, MEDIUM)
    pen.end()


def _piece(pen: Recorder, view: View, piece: Piece) -> None:
    """A board at its real shape."""
    seen = view.clipped(min(piece.low[0], piece.high[0]), max(piece.low[1], piece.high[1]))
    if seen is None:
        return
    low, high = piece.row.low, piece.row.high
    left_turn = high - piece.left_rise
    right_turn = high - piece.right_rise
    outline = [(piece.low[0], low), (piece.low[1], low)]
    if piece.backs[1] > 1e-6 and right_turn > low + 1e-6:
        outline.append((piece.low[1], right_turn))
    outline += [(piece.high[1], high), (piece.high[0], high)]
    if piece.backs[0] > 1e-6 and left_turn > low + 1e-6:
        outline.append((piece.low[0], left_turn))
    clipped = [(min(max(x, view.low), view.high), y) for x, y in outline]
    pen.begin(f"piece-{piece.mark[1:]}", piece.mark)
    pen.shape([view.at(*p) for p in clipped], 1.0, THIN)
    pen.end()


def _label_size(view: View, wall: Wall) -> float:
    """The size at which words fit between the two rows that stand closest."""
    clear = min((b.row.low - a.row.high for a, b in pairwise(wall.courses)), default=24.0) * view.scale
    return max(pt(6), min(pt(12), clear * 0.85))


def _piece_label(pen: Recorder, view: View, wall: Wall, piece: Piece, style: Style, size: float) -> None:
    """Number and length above a board, between two columns if it can be; else over a column, on white."""
    seen = view.clipped(piece.high[0], piece.high[1])
    if seen is None:
        return
    low, high = _clear_stretch(wall, seen)
    text = f"{piece.mark}  {show(piece.length, style)}"
    wanted = width(text, size, fonts.BOLD) + 0.08
    if (high - low) * view.scale < wanted:
        low, high = seen
    room = (high - low) * view.scale - 0.06
    if fit(text, size, fonts.BOLD, room) < pt(7):
        if piece.right_rise and piece.backs[1]:  # nothing stands beyond the slope: the words can
            x, y = view.at(piece.low[1], piece.row.low)
            write(pen, x + 0.08, y, text, size, fonts.BOLD)
            return
        text = piece.mark
    size = fit(text, size, fonts.BOLD, room)
    x, y = view.at((low + high) / 2, piece.row.high)
    half, base = width(text, size, fonts.BOLD) / 2 + 0.02, y + 0.015 + size * 0.18
    pen.box(x - half, y + 0.01, x + half, base + size * 0.9, 1.0, 0.0)
    write(pen, x, base, text, size, fonts.BOLD, "center")


def _clear_stretch(wall: Wall, seen: tuple[float, float]) -> tuple[float, float]:
    """The widest stretch of a board between column edges, the leftmost of equal ones."""
    inside = [s for s in wall.stands if s.right > seen[0] and s.left < seen[1]]
    starts = [seen[0], *(s.right for s in inside)]
    ends = [*(s.left for s in inside), seen[1]]
    stretches = [(max(a, seen[0]), min(b, seen[1])) for a, b in zip(starts, ends, strict=True)]
    return max(stretches, key=lambda s: (round(s[1] - s[0]), -s[0]))


def _row_names(pen: Recorder, view: View, wall: Wall, style: Style) -> None:
    """Row names and stations up the left side, spread so that they never touch, tied to their rows."""
    right = view.at(view.low, 0.0)[0] - 0.32
    wanted = [view.at(0.0, c.row.low)[1] for c in wall.courses]
    for course, y, at in zip(wall.courses, spread(wanted, 0.15), wanted, strict=True):
        text = f"{course.row.name}  {show(course.row.low, style)}"
        size = fit(text, SMALL, fonts.REGULAR, NAMES - 0.35)
        write(pen, right, y - 0.02, text, size, align="right")
        pen.stroke(right + 0.03, y + 0.02, right + 0.16, at, HAIR)


def spread(wanted: Sequence[float], gap: float) -> list[float]:
    """Ascending places at least *gap* apart, each as near to its wanted one as a sweep up and down gives."""
    places = list(wanted)
    for i in range(1, len(places)):
        places[i] = max(places[i], places[i - 1] + gap)
    return places


def _chains(pen: Recorder, view: View, wall: Wall, style: Style) -> None:
    """Under the grade line: names and offsets, then one line of bays, then one line of running dimensions."""
    deep = max([s.column.offset for s in wall.stands if s.column] + [0.0])
    top = view.at(0.0, -deep)[1] - 0.05
    left = view.at(view.low, 0.0)[0]
    right = left - 0.32
    seen = [s for s in wall.stands if view.low - 1e-6 <= _chain_place(wall, s) <= view.high + 1e-6]
    for text, y in (("column", 0.16), ("offset", 0.34), ("bays", 0.58), ("running", 0.84)):
        write(pen, right, top - y, text, SMALL, align="right")
    for stand in seen:
        x = view.at(stand.centre, 0.0)[0]
        room = _room(view, wall, stand)
        write(pen, x, top - 0.17, stand.name, fit(stand.name, pt(13), fonts.BOLD, room), fonts.BOLD, "center", 0)
        text = show(stand.column.offset, style) if stand.column else "NOT READ"
        write(pen, x, top - 0.35, text, fit(text, pt(11), fonts.BOLD, room), fonts.BOLD, "center")
    places = [(_chain_place(wall, s), s) for s in seen]
    for (a, _), (b, _) in pairwise(places):
        x, room = view.at((a + b) / 2, 0.0)[0], (b - a) * view.scale - 0.1
        text = show(b - a, style)
        write(pen, x, top - 0.59, text, fit(text, SMALL, fonts.REGULAR, room), align="center")
    ends = [view.at(p, 0.0)[0] for p, _ in places]
    for y in (0.64, 0.9):
        pen.stroke(ends[0], top - y, ends[-1], top - y, HAIR)
        for x in ends:
            pen.stroke(x - 0.03, top - y - 0.03, x + 0.03, top - y + 0.03, THIN)
    for place, stand in places:
        text = show(place, style)
        x = view.at(stand.centre, 0.0)[0]
        write(pen, x, top - 0.85, text, fit(text, SMALL, fonts.BOLD, _room(view, wall, stand)), fonts.BOLD, "center")


def _chain_place(wall: Wall, stand: Stand) -> float:
    """Where a column is dimensioned: corners at their outer face, the others at their centre."""
    if stand is wall.stands[0]:
        return stand.left
    return stand.right if stand is wall.stands[-1] else stand.centre


def _room(view: View, wall: Wall, stand: Stand) -> float:
    """Width for words under a column: up to halfway to its neighbours."""
    centres = [s.centre for s in wall.stands]
    nearest = min(abs(c - stand.centre) for c in centres if c != stand.centre)
    return nearest * view.scale - 0.06


# --- under the wall -------------------------------------------------------------------------------------------------


def _below(pen: Recorder, area: Area, building: Building, wall: Wall, view: View) -> None:
    """Totals and the caution to the left, the wall's own piece table to the right."""
    style = building.job.style
    half = area.x0 + area.width * 0.47
    y = area.y0 + TABLE - 0.18
    for line in _totals(building, wall, view):
        write(pen, area.x0, y, line, fit(line, pt(10), fonts.BOLD, half - area.x0 - 0.1), fonts.BOLD)
        y -= 0.165
    size = pt(10)
    lines = wrap(CAUTION, size, fonts.REGULAR, half - area.x0 - 0.25)
    while len(lines) * size * 1.25 > y - area.y0 - 0.02:
        size *= 0.97
        lines = wrap(CAUTION, size, fonts.REGULAR, half - area.x0 - 0.25)
    pen.box(area.x0, area.y0 + 0.02, half - 0.1, y + 0.08, None, MEDIUM)
    for line in lines:
        y -= size * 1.22
        write(pen, area.x0 + 0.07, y + 0.06, line, size)
    _table(pen, Area(half, area.y0, area.x1, area.y0 + TABLE - 0.05), wall, style)


def _totals(building: Building, wall: Wall, view: View) -> list[str]:
    style = building.job.style
    line = wall.line
    low, high = _span(wall)
    boards = f"boards run past to {show(high - low, style)}" if high > line.length else "boards stop at the columns"
    return [
        f"Columns out to out {show(line.length, style)}; {boards}.",
        f"Marks are the {building.job.girts.edge} edge of every board; stations up from the grade line.",
        f"Running dimensions from the outside of {line.columns[0]}. {_scale_text(view, style)}",
    ]


def _table(pen: Recorder, area: Area, wall: Wall, style: Style) -> None:
    """Every piece of this wall: number, how many, board, length; in as many columns as it needs."""
    counts: Counter[str] = Counter()
    first: dict[str, Piece] = {}
    for course in wall.courses:
        for piece in course.pieces:
            counts[piece.mark] += 1
            first.setdefault(piece.mark, piece)
    marks = sorted(counts, key=lambda m: int(m[1:]))
    row = 0.165
    each = int((area.height - 0.2) / row)
    columns = -(-len(marks) // each)
    wide = area.width / max(columns, 2)
    write(pen, area.x0, area.y1 - 0.13, "PIECES OF THIS WALL  (number, how many, board, long edge)", pt(9), fonts.BOLD)
    for i, mark in enumerate(marks):
        x, y = area.x0 + (i // each) * wide, area.y1 - 0.32 - (i % each) * row
        piece = first[mark]
        treated = " tr." if piece.row.treated else ""
        text = f"{counts[mark]} pc  {piece.row.section.name}{treated}  {show(piece.length, style)}"
        used = write(pen, x, y, mark, pt(10), fonts.BOLD)
        write(pen, x + max(used + 0.08, 0.36), y, text, fit(text, pt(10), fonts.REGULAR, wide - 0.5))
