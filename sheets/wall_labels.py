"""Numbers and lengths of boards on the picture of a wall: every board that is drawn has its number, on it or just above
it, or a line leads from the number to the board."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from msgspec import Struct

import fonts
from layouts.boards import Course, Piece, Rake, Wall
from layouts.lengths import Style, show
from layouts.openings import Opening, Upright
from sheets.boards import Board, along_slope, outline
from sheets.leaders import PIECES, Kind, Leaders
from sheets.lettering import pt, width
from sheets.row_names import STRAIGHTEST
from sheets.shapes import HEAVY, Recorder
from sheets.taken import DROP, INK, Block, Taken, clear
from sheets.view import View

SAID = "A piece's number stands on it or just above it, or a line leads from the number to it."
LARGE, READABLE, SMALLEST = pt(12), pt(9), pt(6)
STEPS = (pt(12), pt(11), pt(10), pt(9))  # of words that may be smaller than they are wanted, never under what is read
LAST = (pt(8), pt(7), SMALLEST)  # where there is no other way
FAR = 1.3  # no number stands farther from its board
NEAR = (Kind(pt(12), 0.35), Kind(pt(10), 0.35), Kind(READABLE, 0.6))  # lines that cross no other board
AWAY = (Kind(pt(10), 0.6, over=True), Kind(READABLE, FAR, over=True))
FOOT, QUARTER, MIDDLE = 0.15, 0.25, 0.5  # where a line ends on its board
OFF_GRADE = HEAVY / 2 + 0.005  # words stay this far above the grade line
TOP = 2.0  # inches of a column that are seen of its top
AIR = 0.015  # from a board to the words on it
LEVELS = ("header", "sill", "track board")
STRAIGHT = (pt(9), pt(8), pt(7))  # of words that say which boards a row takes
ALWAYS = float("-inf"), float("inf")


class Labels(Struct, frozen=True):
    """How the boards of rows are labelled on one wall: by the station of their bottom the *sizes* of type, those in
    *above* over the board, the others on it, rows without a size beside it; *full* with the length, else the number
    alone. *crowded*: not every row has room of its own."""

    sizes: Mapping[float, float]
    above: frozenset[float]
    full: bool
    crowded: bool

    def of(self, piece: Piece) -> float:
        """The type size of a board's label."""
        return self.sizes.get(piece.row.low, 0.0)


def labels(view: View, wall: Wall) -> Labels:
    """The largest labels that keep clear of the rows above and below: over the boards; on those that have another
    right above them; on all of them where most rows are close."""
    rows = sorted((c.row for c in wall.courses), key=lambda row: (row.low, row.high))
    large = LARGE * view.larger
    room = [(b.low - a.high) * view.scale for a, b in pairwise(rows)] + [large * 2]
    over = {r.low: (free - AIR) / INK for r, free in zip(rows, room, strict=True)}
    on = {r.low: (r.high - r.low) * view.scale / INK for r in rows}
    above = frozenset(low for low, size in over.items() if size >= READABLE)
    sizes = {low: min(large, size if low in above else on[low]) for low, size in over.items()}
    sizes = {low: size for low, size in sizes.items() if size >= SMALLEST}
    close = len(over) - len(sizes)
    if close * 2 > len(over):
        size, full = _on_all([(r.low + r.high) / 2 * view.scale for r in rows])
        if size:
            return Labels(dict.fromkeys(over, size), frozenset(), full, True)
    return Labels(sizes, above, True, close * 2 > len(over))


def _on_all(heights: list[float]) -> tuple[float, bool]:
    """The type of labels on boards whose middles stand at *heights* above the grade line on the page, and whether
    they are in full; 0 where they have no room."""
    step = min((b - a for a, b in pairwise(heights)), default=LARGE * 2)
    # the lowest one is lifted off the grade line, so the one above it needs more room
    lifted = (heights[1] if len(heights) > 1 else LARGE * 4) - OFF_GRADE
    for tall, full in ((INK, True), (0.75, False)):
        size = min(step / tall, lifted / (tall + DROP + 0.35), LARGE)
        if size >= SMALLEST:
            return size if full else SMALLEST, full
    return 0.0, False


def blocks(wall: Wall) -> list[Block]:
    """What words over a row keep out of: columns, rough openings, and every board that is in no row."""
    found: list[Block] = [(s.left, s.right, *ALWAYS) for s in wall.stands]
    found += [(o.left, o.right, o.low, o.high) for o in wall.openings]
    return found + boards_beside(wall)


def tops(wall: Wall) -> list[Block]:
    """The upper ends of columns: under a word they would seem to end below it."""
    ends = [(s, [height for _, height in s.top]) for s in wall.stands]
    return [(s.left, s.right, min(heights) - TOP, max(heights)) for s, heights in ends]


def boards_beside(wall: Wall) -> list[Block]:
    """Boards in no row: words over a row would be taken for theirs, or hide them."""
    found: list[Block] = [(u.left, u.right, u.low, u.high) for u in wall.uprights]
    found += [part for rake in wall.rakes for part in along_slope(rake, PIECES)]
    return found + [(p.low[0], p.low[1], p.row.low, p.row.high) for c in wall.levels for p in c.pieces]


def text_of(board: Board, style: Style) -> str:
    """Number and length."""
    return f"{board.mark}  {show(board.length, style)}"


def down_from(size: float) -> Iterator[float]:
    """*size* and the smaller ones that are still read."""
    yield size
    yield from (step for step in STEPS if step < size)


class Writer:
    """Writes the labels of one page of a wall, each where *taken* leaves room."""

    def __init__(self, pen: Recorder, view: View, wall: Wall, style: Style, taken: Taken) -> None:
        self.pen, self.view, self.wall, self.style, self.taken = pen, view, wall, style, taken
        self.blocks, self.over = blocks(wall), [*boards_beside(wall), *tops(wall)]
        self.rows = [(p.low[0], p.low[1], p.row.low, p.row.high) for c in wall.courses for p in c.pieces]
        self.how = labels(view, wall)
        self.leaders = Leaders(pen, view, wall, taken)

    def number(self, board: Board, alone: bool = False) -> bool:
        """A board's number and length, the number *alone* if that will do: on it or just above it; led to it; the
        number without the length in the same way; in a ring over what stands there; in small type. Whether it has its
        number; a board that is not on this page needs none."""
        points = outline(board)
        if self.view.clipped(min(x for x, _ in points), max(x for x, _ in points)) is None:
            return True
        before = self.pen.count
        self.pen.begin(f"number-{board.mark[1:]}", board.mark)
        found = self._numbered(board, alone)
        self.pen.end()
        if not found:
            self.pen.cut_off(before)
        return found

    def _numbered(self, board: Board, alone: bool) -> bool:
        full, mark, first = text_of(board, self.style), board.mark, self._first(board)
        row = isinstance(board, Piece) and board.row.low in self.how.sizes
        # of a header behind a track board, what it is tells which of the two is meant
        told = isinstance(board, Piece) and board.row.key in LEVELS and self.leaders.hidden(board)
        for text in (mark,) if alone or (row and not self.how.full) else (full, mark):
            said = f"{text}, {board.row.key}" if told and isinstance(board, Piece) else text
            near = NEAR[1:] if alone else NEAR
            if self._direct(board, text) or any(self.leaders.lead(board, said, kind, first) for kind in near):
                return True
        if any(self.leaders.lead(board, mark, kind, first) for kind in AWAY):
            return True
        ringed = (Kind(size, FAR, ring=True, over=True) for size in LAST)
        return any(
            self.leaders.lead(board, mark, kind, first) or self._direct(board, mark, kind.size) for kind in ringed
        )

    def name(self, opening: Opening) -> bool:
        """The name of an opening that has no room in it, with a line that ends in it. Whether it has one."""
        before = self.pen.count
        self.pen.begin(f"name-{opening.name}", opening.name)
        kinds = (*NEAR, *AWAY, *(Kind(size, FAR, ring=True, over=True) for size in LAST))
        found = any(self.leaders.into(opening, kind) for kind in kinds)
        self.pen.end()
        if not found:
            self.pen.cut_off(before)
        return found

    def _first(self, board: Board) -> float:
        """Where on a board the line to it ends if it can: low on those that stand in or beside an opening, whose name
        is in the middle of it; away from the middle of a row that has no room, where the next row has its numbers."""
        if isinstance(board, Upright):
            return FOOT if board.layer == "behind" else MIDDLE
        return (
            QUARTER if isinstance(board, Piece) and not self.how.of(board) and board.row.key not in LEVELS else MIDDLE
        )

    def _direct(self, board: Board, text: str, last: float = 0.0) -> bool:
        """On a board or just above it; in the *last* type that there is if it is given."""
        if isinstance(board, Rake):
            return self._slope(board, text)
        if isinstance(board, Upright):
            return False
        if board.row.key in LEVELS:
            return any(self._level(board, text, size) for size in ((last,) if last else STEPS))
        size = last or self.how.of(board)
        if not size or (size < READABLE and not last and not self.how.crowded):
            return False
        return any(self._row(board, text, small) for small in ((last,) if last else down_from(size)))

    # --- boards that lie --------------------------------------------------------------------------------------------

    def _row(self, piece: Piece, text: str, size: float) -> bool:
        """Between two columns if it can be, else over one, on white; never over the top of one, or a board that is in
        no row."""
        return self._beside(piece, text, size, self.blocks) or self._beside(piece, text, size, self.over)

    def _beside(self, piece: Piece, text: str, size: float, keep: Sequence[Block]) -> bool:
        """In what a list of blocks leaves free of a board's upper edge."""
        seen = self.view.clipped(*piece.high)
        if seen is None:
            return False
        base = self._base(piece, size)
        bottom = (base - size * DROP - self.view.y0) / self.view.scale
        return self._within(text, size, base, clear(keep, *seen, bottom, bottom + size * INK / self.view.scale))

    def _within(self, text: str, size: float, base: float, stretches: Sequence[tuple[float, float]]) -> bool:
        """In one of *stretches*, as near to its middle as other words let it be."""
        wide = width(text, size, fonts.BOLD) + (0.08 if size > SMALLEST else 0.0)
        low, high = base - size * DROP, base + size * (INK - DROP)
        for a, b in stretches:
            x = self.taken.middle(self._x(a), self._x(b), low, high, wide)
            if x is not None and self.taken.write(self.pen, x, base, text, size):
                return True
        return False

    def _x(self, place: float) -> float:
        return self.view.at(place, 0.0)[0]

    def straightest(self, course: Course) -> bool:
        """Which boards a row takes, once on a page: where the numbers of its boards leave room."""
        for text, size in ((text, size) for text in (f"{STRAIGHTEST} boards", STRAIGHTEST) for size in STRAIGHT):
            if any(self._beside(piece, text, size, self.blocks) for piece in course.pieces):
                return True
        return False

    def _base(self, piece: Piece, size: float) -> float:
        """The line that words of a *size* stand on, for a board in a row."""
        if piece.row.low in self.how.above:
            return self.view.at(0.0, piece.row.high)[1] + AIR + size * DROP
        base = self.view.at(0.0, (piece.row.low + piece.row.high) / 2)[1] - size * 0.35
        return max(base, self.view.y0 + OFF_GRADE + size * DROP)  # never on the grade line

    def _level(self, piece: Piece, text: str, size: float) -> bool:
        """On a header, a sill or a track board, or just above it, where no other of them lies in front of it or behind
        it: the number would be taken for theirs."""
        seen, row = self.view.clipped(*piece.high), piece.row
        if seen is None:
            return False
        own = (piece.low[0], piece.low[1], row.low, row.high)
        boxes = [b for b in (*self.blocks, *self.rows) if b != own]
        shared = [(b[0], b[1], *ALWAYS) for b in boxes if b[2] < row.high and b[3] > row.low and b[3] < ALWAYS[1]]
        tall, low = size * INK, self.view.at(0.0, row.high)[1] + AIR
        if (row.high - row.low) * self.view.scale >= tall:
            low = self.view.at(0.0, (row.low + row.high) / 2)[1] - tall / 2
        bottom, top = ((y - self.view.y0) / self.view.scale for y in (low, low + tall))
        return self._within(text, size, low + DROP * size, clear([*boxes, *shared], *seen, bottom, top))

    # --- boards along the slope -------------------------------------------------------------------------------------

    def _slope(self, board: Rake, text: str) -> bool:
        """Over a nailer along the slope, on the side where it falls."""
        points = outline(board)
        rising = points[2][1] > points[3][1]
        for size in STEPS:
            for share in (0.5, 0.4, 0.6, 0.25, 0.75):
                x = points[3][0] + (points[2][0] - points[3][0]) * share
                y = points[3][1] + (points[2][1] - points[3][1]) * share
                if self.view.clipped(x - 1, x + 1) is None:
                    continue
                at = self.view.at(x, y)
                if self.taken.write(
                    self.pen, at[0], at[1] + AIR + size * DROP, text, size, "right" if rising else "left"
                ):
                    return True
        return False
