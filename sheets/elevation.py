"""The picture of a wall: columns, boards with their numbers and lengths, the grade line, the names of the rows."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import fonts
from layouts.fields import Job
from layouts.lengths import Style, show
from layouts.rods import board_mark
from layouts.walls import Course, Piece, Stand, Wall
from sheets.lettering import fit, pt, width, write
from sheets.shapes import HAIR, HEAVY, MEDIUM, THIN, Point, Recorder
from sheets.view import View, spread

LARGE, READABLE, SMALLEST = pt(12), pt(8), pt(6)
INK = 1.08  # what a stacked fraction takes up and down, of its type size
DROP = 0.18  # and how much of that hangs below the line
OFF_GRADE = HEAVY / 2 + 0.005  # words stay this far above the grade line
ROW_NAME, ROW_GAP = pt(9), 0.15
ASIDE = 0.2  # from a row's end to its name


@dataclass(frozen=True)
class Labels:
    """How boards are labelled on one wall: rows whose bottom stands in *above* over the board in type of *size*, the
    others on the board in *on_size*; *full* with the length, else the number alone; size 0 is no label. *crowded*: the
    picture alone does not tell all at a glance."""

    size: float
    on_size: float
    above: frozenset[float]
    full: bool
    crowded: bool

    def of(self, piece: Piece) -> float:
        """The type size of a board's label."""
        return self.size if piece.row.low in self.above else self.on_size


def labels(view: View, wall: Wall) -> Labels:
    """The largest labels that keep clear of the rows above and below: over the boards; on those that have another
    right above them; on all of them where rows are close."""
    rows = [c.row for c in wall.courses]
    clear = [(b.low - a.high) * view.scale for a, b in pairwise(rows)] + [LARGE * 2]
    over = [c >= READABLE * INK + 0.015 for c in clear]
    on = min((r.high - r.low for r, free in zip(rows, over, strict=True) if not free), default=24.0) * view.scale / INK
    above = frozenset(r.low for r, free in zip(rows, over, strict=True) if free)
    if on >= SMALLEST:
        size = min((c - 0.015) / INK for c, free in zip(clear, over, strict=True) if free)
        return Labels(min(LARGE, size), min(LARGE, on), above, True, False)
    return _on_all([(r.low + r.high) / 2 * view.scale for r in rows])


def _on_all(middles: list[float]) -> Labels:
    """Labels on boards whose middles stand *middles* above the grade line on the page."""
    step = min((b - a for a, b in pairwise(middles)), default=LARGE * 2)
    # the lowest one is lifted off the grade line, so the one above it needs more room
    lifted = (middles[1] if len(middles) > 1 else LARGE * 4) - OFF_GRADE
    for tall, full in ((INK, True), (0.75, False)):
        size = min(step / tall, lifted / (tall + DROP + 0.35), LARGE)
        if size >= SMALLEST:
            return Labels(0.0, size if full else SMALLEST, frozenset(), full, True)
    return Labels(0.0, 0.0, frozenset(), False, True)


def row_gap(view: View, wall: Wall) -> float:
    """How far apart the row names stand."""
    return min(ROW_GAP, (view.top - view.y0) / max(len(wall.courses) - 1, 1))


def row_text(course: Course, job: Job) -> str:
    """A row and the station of its marked edge; the edge is named where it is not the one of all the others."""
    mark = board_mark(course.row, job)
    odd = "" if mark.edge == job.girts.edge else f" {mark.edge}"
    return f"{course.row.name}{odd}  {show(mark.station, job.style)}"


def draw(pen: Recorder, view: View, wall: Wall, job: Job) -> None:
    """Everything above the chain."""
    for stand in wall.stands:
        if view.clipped(stand.left, stand.right):
            _stand(pen, view, wall, stand)
    pieces = [p for c in wall.courses for p in c.pieces]
    for piece in pieces:
        _piece(pen, view, piece)
    how = labels(view, wall)
    for piece in [p for p in pieces if how.of(p) > 0]:
        _label(pen, view, wall, piece, job.style, how)
    pen.begin("grade-line", "grade line")
    x0, y = view.at(view.low, 0.0)
    x1, _ = view.at(view.high, 0.0)
    pen.stroke(x0 - 0.12, y, x1 + 0.12, y, HEAVY)
    pen.end()
    _row_names(pen, view, wall, job)


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


def outline(piece: Piece) -> list[Point]:
    """The corners of a board, along the wall and as stations."""
    low, high = piece.row.low, piece.row.high
    corners = [(piece.low[0], low), (piece.low[1], low)]
    right_turn, left_turn = high - piece.right_rise, high - piece.left_rise
    if piece.backs[1] > 1e-6 and right_turn > low + 1e-6:
        corners.append((piece.low[1], right_turn))
    corners += [(piece.high[1], high), (piece.high[0], high)]
    if piece.backs[0] > 1e-6 and left_turn > low + 1e-6:
        corners.append((piece.low[0], left_turn))
    return corners


def _piece(pen: Recorder, view: View, piece: Piece) -> None:
    """A board at its real shape; where it goes on overleaf its end stays open."""
    corners = outline(piece)
    ends = min(x for x, _ in corners), max(x for x, _ in corners)
    if view.clipped(*ends) is None:
        return
    shown = [(min(max(x, view.low), view.high), y) for x, y in corners]
    cut = [edge for edge, end in ((view.low, ends[0]), (view.high, ends[1])) if edge not in (ends[0], ends[1])]
    open_at = [edge for edge in cut if ends[0] < edge < ends[1]]
    pen.begin(f"piece-{piece.mark[1:]}", piece.mark)
    pen.shape([view.at(*p) for p in shown], 1.0, 0.0 if open_at else THIN)
    if open_at:
        for a, b in pairwise([*shown, shown[0]]):
            if a != b and not (a[0] == b[0] and a[0] in open_at):
                pen.stroke(*view.at(*a), *view.at(*b), THIN)
    pen.end()


def _label(pen: Recorder, view: View, wall: Wall, piece: Piece, style: Style, how: Labels) -> None:
    """Number and length of a board, between two columns if it can be, else over a column, on white; beyond the slope
    where the board is too short; the number alone where there is no room at all."""
    seen = view.clipped(piece.high[0], piece.high[1])
    if seen is None:
        return
    text = f"{piece.mark}  {show(piece.length, style)}" if how.full else piece.mark
    most = how.of(piece)
    wide = width(text, most, fonts.BOLD) + 0.08
    low, high = _clear_stretch(wall, seen)
    if (high - low) * view.scale < wide:
        low, high = seen
    room = (high - low) * view.scale - 0.06
    base = _base(view, piece, how)
    least = min(most, READABLE)
    x = view.at(piece.low[1], 0.0)[0] + 0.08
    if room <= 0 or fit(text, most, fonts.BOLD, room) < least:
        # nothing stands beyond the slope: the words can
        if piece.backs[1] > 1e-6 and piece.low[1] <= view.high and x + wide < view.right:
            write(pen, x, base, text, most, fonts.BOLD)
            return
        text = piece.mark
        if room <= 0 or fit(text, most, fonts.BOLD, room) < SMALLEST:
            return
    size = fit(text, most, fonts.BOLD, room)
    middle = view.at((low + high) / 2, 0.0)[0]
    half = width(text, size, fonts.BOLD) / 2 + 0.02
    pen.box(middle - half, base - size * DROP, middle + half, base + size * (INK - DROP), 1.0, 0.0)
    write(pen, middle, base, text, size, fonts.BOLD, "center")


def _base(view: View, piece: Piece, how: Labels) -> float:
    """The line that a board's words stand on: the same for all boards of a row."""
    size = how.of(piece)
    if piece.row.low in how.above:
        return view.at(0.0, piece.row.high)[1] + 0.015 + size * DROP
    base = view.at(0.0, (piece.row.low + piece.row.high) / 2)[1] - size * 0.35
    return max(base, view.y0 + OFF_GRADE + size * DROP)  # never on the grade line


def _clear_stretch(wall: Wall, seen: tuple[float, float]) -> tuple[float, float]:
    """The widest stretch of a board between column edges, the leftmost of equal ones."""
    inside = [s for s in wall.stands if s.right > seen[0] and s.left < seen[1]]
    starts = [seen[0], *(s.right for s in inside)]
    ends = [*(s.left for s in inside), seen[1]]
    stretches = [(max(a, seen[0]), min(b, seen[1])) for a, b in zip(starts, ends, strict=True)]
    return max(stretches, key=lambda s: (round(s[1] - s[0]), -s[0]))


def _row_names(pen: Recorder, view: View, wall: Wall, job: Job) -> None:
    """Row names and stations up the left side. A row that ends far from its name, or whose name had to give way, is
    tied to it by a line that ends at the row."""
    seen = [c for c in wall.courses if view.clipped(c.pieces[0].low[0], c.pieces[-1].low[1])]
    wanted = [view.at(0.0, board_mark(c.row, job).station)[1] for c in seen]
    gap = row_gap(view, wall)
    size = min(ROW_NAME, gap * 0.92)
    right = view.at(view.low, 0.0)[0] - ASIDE
    for course, y, at in zip(seen, spread(wanted, gap, view.y0, view.top), wanted, strict=True):
        text = row_text(course, job)
        fitted = fit(text, size, fonts.REGULAR, right - view.left)
        write(pen, right, y - fitted * 0.35, text, fitted, align="right")
        end = view.at(max(view.low, course.pieces[0].low[0]), 0.0)[0] - 0.02
        turn = right + ASIDE / 2
        if abs(y - at) > 0.02:
            pen.stroke(right + 0.03, y, turn, at, HAIR)
        if end - right > ASIDE or abs(y - at) > 0.02:
            pen.stroke(turn, at, end, at, HAIR, (0.03, 0.03) if end - turn > ASIDE else ())
