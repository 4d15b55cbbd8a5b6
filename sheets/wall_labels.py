"""Numbers and lengths of boards on the picture of a wall, and the names of its rows beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import fonts
from layouts.boards import Course, Piece, Rake, Wall
from layouts.fields import Job
from layouts.lengths import Style, show
from layouts.openings import Upright
from layouts.rods import board_mark
from sheets.boards import Board, belongs, outline
from sheets.lettering import Align, fit, pt, width, write
from sheets.shapes import HAIR, HEAVY, Recorder
from sheets.taken import DROP, INK, Block, Taken, around, clear, middles
from sheets.view import View, spread

LARGE, READABLE, SMALLEST = pt(12), pt(8), pt(6)
STEPS = (pt(10), pt(9), pt(8), pt(7))  # of labels that go where there is room
OFF_GRADE = HEAVY / 2 + 0.005  # words stay this far above the grade line
ROW_NAME, ROW_GAP = pt(9), 0.15
ASIDE = 0.2  # from a row's end to its name
AIR = 0.015  # from a board to the words on it
STRAIGHTEST = "straightest"  # which boards go into a row that the eye follows
ALWAYS = float("-inf"), float("inf")


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
    rows, large = [c.row for c in wall.courses], LARGE * view.larger
    room = [(b.low - a.high) * view.scale for a, b in pairwise(rows)] + [large * 2]
    over = [c >= READABLE * INK + AIR for c in room]
    on = min((r.high - r.low for r, free in zip(rows, over, strict=True) if not free), default=24.0) * view.scale / INK
    above = frozenset(r.low for r, free in zip(rows, over, strict=True) if free)
    if on >= SMALLEST:
        size = min((c - AIR) / INK for c, free in zip(room, over, strict=True) if free)
        return Labels(min(large, size), min(large, on), above, True, False)
    return _on_all([(r.low + r.high) / 2 * view.scale for r in rows])


def _on_all(heights: list[float]) -> Labels:
    """Labels on boards whose middles stand at *heights* above the grade line on the page."""
    step = min((b - a for a, b in pairwise(heights)), default=LARGE * 2)
    # the lowest one is lifted off the grade line, so the one above it needs more room
    lifted = (heights[1] if len(heights) > 1 else LARGE * 4) - OFF_GRADE
    for tall, full in ((INK, True), (0.75, False)):
        size = min(step / tall, lifted / (tall + DROP + 0.35), LARGE)
        if size >= SMALLEST:
            return Labels(0.0, size if full else SMALLEST, frozenset(), full, True)
    return Labels(0.0, 0.0, frozenset(), False, True)


def blocks(wall: Wall) -> list[Block]:
    """What words between two boards keep out of: columns, boards that stand, rough openings."""
    found: list[Block] = [(s.left, s.right, *ALWAYS) for s in wall.stands]
    found += [(u.left, u.right, u.low, u.high) for u in wall.uprights]
    return [*found, *((o.left, o.right, o.low, o.high) for o in wall.openings)]


def text_of(board: Board, style: Style) -> str:
    """Number and length."""
    return f"{board.mark}  {show(board.length, style)}"


class Writer:
    """Writes the labels of one page of a wall, each where *taken* leaves room."""

    def __init__(self, pen: Recorder, view: View, wall: Wall, style: Style, taken: Taken) -> None:
        self.pen, self.view, self.wall, self.style, self.taken = pen, view, wall, style, taken
        self.blocks = blocks(wall)
        self.how = labels(view, wall)

    # --- rows -------------------------------------------------------------------------------------------------------

    def row(self, piece: Piece) -> bool:
        """Number and length of a board in a row: between two columns if it can be, else over a column, on white;
        beyond the slope where the board is too short; the number alone where there is no room for more."""
        seen, size = self.view.clipped(piece.high[0], piece.high[1]), self.how.of(piece)
        if seen is None or not size:
            return False
        base = self._base(piece)
        full = text_of(piece, self.style) if self.how.full else piece.mark
        bottom = (base - size * DROP - self.view.y0) / self.view.scale
        open_ = clear(self.blocks, *seen, bottom, bottom + size * INK / self.view.scale)
        if self._within(full, size, base, open_) or self._within(full, size := min(size, LARGE), base, open_):
            return True
        if self._over(full, size, base, seen, min(size, READABLE)):
            return True
        x = self.view.at(piece.low[1], 0.0)[0] + 0.08
        if piece.backs[1] > 1e-6 and piece.low[1] <= self.view.high:
            # nothing stands beyond the slope: the words can
            x1 = x + width(full, size, fonts.BOLD)
            if x1 < self.view.right and self.taken.write(self.pen, x, base, full, size, "left"):
                return True
        return self._within(piece.mark, size, base, open_) or self._over(piece.mark, size, base, seen, SMALLEST)

    def _within(self, text: str, size: float, base: float, stretches: Sequence[tuple[float, float]]) -> bool:
        """In one of *stretches* at full size."""
        wide = width(text, size, fonts.BOLD) + 0.08
        for low, high in stretches:
            for x in middles(self._x(low), self._x(high), wide):
                if self.taken.write(self.pen, x, base, text, size):
                    return True
        return False

    def _over(self, text: str, size: float, base: float, seen: tuple[float, float], least: float) -> bool:
        """Anywhere on a stretch, over what stands there, in type of *least* and more."""
        low, high = self._x(seen[0]), self._x(seen[1])
        room = high - low - 0.06
        if room <= 0 or (size := fit(text, size, fonts.BOLD, room)) < least:
            return False
        tried = (size, least) if size > least else (size,)
        return any(
            self.taken.write(self.pen, x, base, text, small)
            for small in tried
            for x in middles(low, high, width(text, small, fonts.BOLD) + 0.04)
        )

    def _x(self, place: float) -> float:
        return self.view.at(place, 0.0)[0]

    def straightest(self, course: Course) -> bool:
        """Which boards a row takes, once on a page: where the numbers of its boards leave room."""
        for text, size in ((text, size) for text in (f"{STRAIGHTEST} boards", STRAIGHTEST) for size in STEPS[1:]):
            for piece in course.pieces:
                seen, base = self.view.clipped(*piece.high), self._base(piece, size)
                bottom = (base - size * DROP - self.view.y0) / self.view.scale
                top = bottom + size * INK / self.view.scale
                if seen and self._within(text, size, base, clear(self.blocks, *seen, bottom, top)):
                    return True
        return False

    def _base(self, piece: Piece, size: float = 0.0) -> float:
        """The line that a board's words stand on: the same for all boards of a row. *size* is not that of its number
        and length."""
        size = size or self.how.of(piece)
        if piece.row.low in self.how.above:
            return self.view.at(0.0, piece.row.high)[1] + AIR + size * DROP
        base = self.view.at(0.0, (piece.row.low + piece.row.high) / 2)[1] - size * 0.35
        return max(base, self.view.y0 + OFF_GRADE + size * DROP)  # never on the grade line

    # --- what belongs to openings -----------------------------------------------------------------------------------

    def level(self, piece: Piece) -> bool:
        """A header, a sill, a track board: over or under it, wherever there is room."""
        seen = self.view.clipped(*piece.high)
        if seen is None:
            return False
        stands = [b for b in self.blocks if (b[0], b[1]) not in {(o.left, o.right) for o in self.wall.openings}]
        for text in (text_of(piece, self.style), piece.mark):
            for size in STEPS:
                for low, high in self._bands(piece, size):
                    base = low + DROP * size + (high - low - size * INK) / 2
                    bottom, top = ((y - self.view.y0) / self.view.scale for y in (low, high))
                    if self._within(text, size, base, clear(stands, *seen, bottom, top)):
                        return True
        middle = self.view.at(0.0, (piece.row.low + piece.row.high) / 2)[1] - SMALLEST * 0.35
        return self._over(piece.mark, SMALLEST, middle, seen, SMALLEST)

    def _bands(self, piece: Piece, size: float) -> Iterator[tuple[float, float]]:
        """Where words of a size go under and over a board: under a header and over a sill they are in the opening."""
        row, need = piece.row, (size * INK + AIR) / self.view.scale
        under, over = row.low, row.high
        for other in (p for c in (*self.wall.courses, *self.wall.levels) for p in c.pieces):
            if other.low[0] < piece.low[1] and other.low[1] > piece.low[0]:
                if other.row.high <= row.low:
                    under = min(under, row.low - other.row.high)
                if other.row.low >= row.high:
                    over = min(over, other.row.low - row.high)
        y0, y1 = self.view.at(0.0, row.low)[1], self.view.at(0.0, row.high)[1]
        bands = [(y0 - size * INK - AIR, y0 - AIR)] if under >= need else []
        if over >= need:
            bands.append((y1 + AIR, y1 + AIR + size * INK))
        yield from reversed(bands) if row.key != "header" else bands

    def upright(self, board: Upright) -> bool:
        """A board that stands: beside it, between two boards that lie."""
        if self.view.clipped(board.left, board.right) is None:
            return False
        x0, x1 = self._x(board.left), self._x(board.right)
        corner = self.wall.line.length / 2
        away = next((o.left >= board.right - 0.1 for o in self.wall.openings if belongs(board, o)), board.left > corner)
        sides: list[tuple[float, Align]] = [(x0 - 0.03, "right"), (x1 + 0.03, "left")]
        for text in (text_of(board, self.style), board.mark):
            for size in (pt(9), pt(8), pt(7), SMALLEST):
                for low, high in self._free(board):
                    base = (low + high - size * INK) / 2 + size * DROP
                    if high - low < size * INK:
                        continue
                    for x, align in sides if away else reversed(sides):
                        if self._beside(text, x, base, size, align):
                            return True
        return False

    def _beside(self, text: str, x: float, base: float, size: float, align: Align) -> bool:
        """Words beside a board that stands, if nothing else stands there."""
        box = around(x, base, text, size, align)
        left, right = ((edge - self.view.x0) / self.view.scale for edge in (box[0] + 0.02, box[2] - 0.02))
        bottom, top = ((y - self.view.y0) / self.view.scale for y in (box[1], box[3]))
        rooms = {(o.left, o.right) for o in self.wall.openings}
        hit = any(
            b[0] < right and b[1] > left and b[2] < top and b[3] > bottom
            for b in self.blocks
            if (b[0], b[1]) not in rooms
        )
        return not hit and self.taken.write(self.pen, x, base, text, size, align)

    def _free(self, board: Upright) -> list[tuple[float, float]]:
        """The heights beside a board that no level board crosses, on the page, the middle one first."""
        rows = [
            (c.row.low, c.row.high)
            for c in (*self.wall.courses, *self.wall.levels)
            if any(p.low[0] < board.right + 12 and p.low[1] > board.left - 12 for p in c.pieces)
        ]
        edges = [board.low, *(y for r in sorted(rows) if board.low < (r[0] + r[1]) / 2 < board.high for y in r)]
        edges.append(board.high)
        found = [
            (self.view.at(0.0, a)[1], self.view.at(0.0, b)[1]) for a, b in zip(edges[::2], edges[1::2], strict=True)
        ]
        middle = self.view.at(0.0, (board.low + board.high) / 2)[1]
        return sorted(found, key=lambda s: (-round(min(s[1] - s[0], 0.2), 2), abs((s[0] + s[1]) / 2 - middle)))

    def rake(self, board: Rake) -> bool:
        """A nailer along the slope: over it, on the side where it falls."""
        points = outline(board)
        rising = points[2][1] > points[3][1]
        for share in (0.5, 0.4, 0.6, 0.25, 0.75):
            x = points[3][0] + (points[2][0] - points[3][0]) * share
            y = points[3][1] + (points[2][1] - points[3][1]) * share
            if self.view.clipped(x - 1, x + 1) is None:
                continue
            at = self.view.at(x, y)
            for text in (text_of(board, self.style), board.mark):
                align: Align = "right" if rising else "left"
                if self.taken.write(self.pen, at[0], at[1] + 0.14, text, pt(9), align):
                    return True
        return False


# --- names of rows --------------------------------------------------------------------------------------------------


def row_gap(view: View, wall: Wall) -> float:
    """How far apart the row names stand."""
    return min(ROW_GAP, (view.top - view.y0) / max(len(wall.courses) - 1, 1))


def row_text(course: Course, job: Job) -> str:
    """A row and the station of its marked edge; the edge is named where it is not the one of all the others."""
    mark = board_mark(course.row, job)
    odd = "" if mark.edge == job.girts.edge else f" {mark.edge}"
    return f"{course.row.name}{odd}  {show(mark.station, job.style)}"


def row_names(pen: Recorder, view: View, wall: Wall, job: Job, straight: Sequence[Course] = ()) -> None:
    """Row names and stations up the left side. A row that ends far from its name, or whose name had to give way, is
    tied to it by a line that ends at the row. Of *straight* rows the name says that they take the straightest
    boards."""
    seen = [(c, start) for c in wall.courses if (start := _start(view, c)) is not None]
    wanted = [view.at(0.0, board_mark(c.row, job).station)[1] for c, _ in seen]
    gap = row_gap(view, wall)
    size = min(ROW_NAME, gap * 0.92)
    right = view.at(view.low, 0.0)[0] - ASIDE
    for (course, start), y, at in zip(seen, spread(wanted, gap, view.y0, view.top), wanted, strict=True):
        text = f"{STRAIGHTEST}: {row_text(course, job)}" if course in straight else row_text(course, job)
        fitted = fit(text, size, fonts.REGULAR, right - view.left)
        write(pen, right, y - fitted * 0.35, text, fitted, align="right")
        end = view.at(start, 0.0)[0] - 0.02
        turn = right + ASIDE / 2
        if abs(y - at) > 0.02:
            pen.stroke(right + 0.03, y, turn, at, HAIR)
        if end - right > ASIDE or abs(y - at) > 0.02:
            pen.stroke(turn, at, end, at, HAIR, (0.03, 0.03) if end - turn > ASIDE else ())


def _start(view: View, course: Course) -> float | None:
    """Where a row begins on this page; ``None`` where it has nothing here."""
    seen = [p for p in course.pieces if view.clipped(*p.low)]
    return max(view.low, seen[0].low[0]) if seen else None
