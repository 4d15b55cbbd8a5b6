"""Numbers that stand apart from their boards: where there is room for them, and the line that leads to the board."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice
from typing import NamedTuple

import fonts
from layouts.boards import Piece, Rake, Wall
from layouts.openings import Opening, Upright
from sheets.boards import Board, along_slope, outline
from sheets.grid import CELL, Grid
from sheets.lettering import width, write
from sheets.shapes import HAIR, THIN, Point, Recorder
from sheets.taken import DROP, GROUND, INK, Box, Stroke, Taken, cross, runs_through
from sheets.view import View

DOT = 0.016  # radius of the dot in which a line ends, on its board
TIPS = 7  # ends of a line that are tried
TRIES = 60  # places that are looked at
STEPS = (0.05, 0.08, 0.12, 0.18, 0.25, 0.35, 0.5, 0.7, 0.95, 1.25)
ASIDE = (0.0, 0.08, -0.08, 0.18, -0.18, 0.32, -0.32, 0.5, -0.5)
PIECES = 12  # of a board along the slope, each as a box


class Kind(NamedTuple):
    """Words that are led to a board: their *size*, how *far* off they may stand, whether they are in a *ring*, and
    whether their line may lie *over* other boards."""

    size: float
    far: float
    ring: bool = False
    over: bool = False


class Leaders:
    """The boards and columns on one page of a wall, and words led to them where *taken* leaves room."""

    def __init__(self, pen: Recorder, view: View, wall: Wall, taken: Taken) -> None:
        self.pen, self.view, self.taken = pen, view, taken
        lying: list[Board] = [p for c in (*wall.courses, *wall.levels) for p in c.pieces]
        self.boards: list[tuple[Board, Box]] = [
            (board, box) for board in (*lying, *wall.uprights, *wall.rakes) for box in self._boxes(board)
        ]
        seen = [s for s in wall.stands if view.clipped(s.left, s.right)]
        self.columns = [
            (*view.at(s.left, min(0.0, *(y for _, y in s.top))), *view.at(s.right, max(y for _, y in s.top)))
            for s in seen
        ]
        self.clear, self.over = Grid(taken.area), Grid(taken.area)
        for box in (*(box for _, box in self.boards), *self.columns):
            self.clear.fill(box)
        self._known = 0, 0
        self._asked, self._tips = (0, 0.0, -1), list[Point]()

    def _boxes(self, board: Board) -> Iterator[Box]:
        """What a board covers on this page; one along the slope in parts."""
        points = outline(board)
        low, high = min(x for x, _ in points), max(x for x, _ in points)
        if (seen := self.view.clipped(low, high)) is None:
            return
        if not isinstance(board, Rake):
            ys = [y for _, y in points]
            yield (*self.view.at(seen[0], min(ys)), *self.view.at(seen[1], max(ys)))
            return
        for a, b, bottom, top in along_slope(board, PIECES):
            if part := self.view.clipped(a, b):
                yield (*self.view.at(part[0], bottom), *self.view.at(part[1], top))

    # --- where the line ends ----------------------------------------------------------------------------------------

    def tips(self, board: Board, first: float = 0.5) -> list[Point]:
        """Points of a board where a line may end, those near the share *first* of its length first: seen, and on no
        other board if it has such a place."""
        own = [box for one, box in self.boards if one is board]
        if isinstance(board, Piece):  # over half of its width: ends may slant
            ends = [(low + high) / 2 for low, high in zip(board.low, board.high, strict=True)]
            seen = self.view.clipped(*ends)
            own = [(self.view.at(seen[0], 0.0)[0], b[1], self.view.at(seen[1], 0.0)[0], b[3]) for b in own if seen]
        if not own:
            return []
        found = [
            p
            for box in own
            for p in _points(box, isinstance(board, Upright), 3 if len(own) > 1 else 15, first)
            if not any(_in(p, taken) for taken in self.taken.boxes)
        ]
        others = [box for one, box in self.boards if one is not board] + self.columns
        return ([p for p in found if not any(_in(p, box) for box in others)] or found)[:TIPS]

    def hidden(self, board: Board) -> bool:
        """Whether a line cannot end on a board where no other one is."""
        return all(any(_in(p, box) for one, box in self.boards if one is not board) for p in self.tips(board))

    # --- where the words stand --------------------------------------------------------------------------------------

    def lead(self, board: Board, text: str, kind: Kind, first: float = 0.5) -> bool:
        """Write *text* clear of all boards, with a line to its *board*, about the share *first* of its length; in a
        ring it may stand over boards, and its line cross others. Whether there was room."""
        asked = id(board), first, len(self.taken.boxes)
        if self._asked != asked:  # kinds of words are tried one after the other
            self._asked, self._tips = asked, self.tips(board, first)
        return self._lead(self._tips, [box for one, box in self.boards if one is board], text, kind)

    def into(self, opening: Opening, kind: Kind) -> bool:
        """Write the name of an *opening* clear of all boards, with a line that ends in it, clear of them too if it has
        such a place. Whether there was room."""
        (x0, y0), (x1, y1) = self.view.at(opening.left, opening.low), self.view.at(opening.right, opening.high)
        shares = sorted((i / 8 for i in range(1, 8)), key=lambda s: (abs(s - 0.5), s))
        found = [(x0 + (x1 - x0) * a, y0 + (y1 - y0) * b) for b in shares for a in shares]
        taken = [*self.taken.boxes, *(box for _, box in self.boards), *self.columns]
        return self._lead([p for p in found if not any(_in(p, b) for b in taken)][:TIPS], [], opening.name, kind)

    def _lead(self, tips: Sequence[Point], own: Sequence[Box], text: str, kind: Kind) -> bool:
        """Write *text* with a line to one of *tips*, which lie on the boxes of their *own* board."""
        size, far, ring, over = kind
        if not tips:
            return False
        wide, tall = width(text, size, fonts.BOLD) + 2 * GROUND, size * INK
        if ring:
            wide = tall = math.hypot(wide, tall) + 0.02
        self._catch_up()
        free = islice(
            self._free(tips, wide, tall, far, self.over if ring else self.clear), TRIES * 10 if ring else TRIES
        )
        reach = far + wide + tall
        words = [box for box in self.taken.boxes if _near(tips, box, reach)]
        lines = [line for line in self.taken.lines if _near(tips, _hull(line), reach)]
        others = [box for _, box in self.boards if box not in own] + self.columns
        others = [b for b in others if _near(tips, b, reach) and not any(_in(tip, b) for tip in tips)]
        second: tuple[Box, Stroke] | None = None
        third: tuple[Box, Stroke] | None = None
        for box, line in free:
            if any(runs_through(line, b) for b in words):
                continue
            if any(cross(line, other) for other in lines):
                third = third or ((box, line) if ring else None)
                continue
            if not any(runs_through(line, b) for b in others):
                self._draw(text, size, box, line, ring)
                return True
            second = second or (box, line)
        if over and (last := second or third):  # a line over another board still ends in a dot on its own
            self._draw(text, size, *last, ring)
            return True
        return False

    def _catch_up(self) -> None:
        """Take up what was written since the last time."""
        boxes, lines = self._known
        for grid in (self.clear, self.over):
            for box in self.taken.boxes[boxes:]:
                grid.fill(box)
            for line in self.taken.lines[lines:]:
                grid.stroke(line)
        self._known = len(self.taken.boxes), len(self.taken.lines)

    def _free(
        self, tips: Sequence[Point], wide: float, tall: float, far: float, grid: Grid
    ) -> Iterator[tuple[Box, Stroke]]:
        """Where words go about the ends of a line, the nearest first."""
        reach = far + max(wide, tall) + max(ASIDE)
        blocked = grid.blocked(wide, tall, min(y for _, y in tips) - reach, max(y for _, y in tips) + reach)
        ends = [(tip, *grid.cell(*tip)) for tip in tips]
        for dx, dy in _offsets(round(wide, 3), round(tall, 3), far):
            for tip, column, row in ends:
                found = blocked.get(row + dy)
                if found is not None and column + dx >= 0 and not found >> (column + dx) & 1:
                    left, low = grid.corner(column + dx, row + dy)
                    box = left, low, left + wide, low + tall
                    yield box, _line(tip, box)

    def _draw(self, text: str, size: float, box: Box, line: Stroke, ring: bool) -> None:
        (x0, y0), (x1, y1) = line
        self.pen.stroke(x0, y0, x1, y1, THIN)
        self.pen.shape(_circle((x1, y1), DOT), 0.0, 0.0)
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        if ring:
            self.pen.shape(_circle((x, y), (box[2] - box[0]) / 2), 1.0, HAIR)
        else:
            self.pen.box(*box, 1.0, 0.0)
        write(self.pen, x, y - size * INK / 2 + size * DROP, text, size, fonts.BOLD, "center")
        self.taken.take(box)
        self.taken.take((x1 - DOT, y1 - DOT, x1 + DOT, y1 + DOT))
        self.taken.lines.append(line)


def _points(box: Box, upright: bool, count: int, first: float) -> Iterator[Point]:
    """Points along the middle of a box, those near the share *first* first."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    for share in sorted((i / (count + 1) for i in range(1, count + 1)), key=lambda s: (round(abs(s - first), 6), s)):
        yield (x, box[1] + share * (box[3] - box[1])) if upright else (box[0] + share * (box[2] - box[0]), y)


@lru_cache(maxsize=256)
def _offsets(wide: float, tall: float, far: float) -> Sequence[tuple[int, int]]:
    """From the end of a line to the lower left corner of the words it comes from, in cells, the shortest line first:
    beside, over and under, and askew."""
    found: list[tuple[float, int, tuple[int, int]]] = []
    for step in (s for s in STEPS if s <= far):
        for aside in ASIDE:
            for dx, dy in ((step, 0), (-step, 0), (0, step), (0, -step)):
                left = dx - (wide if dx < 0 else 0.0) if dx else aside - wide / 2
                low = dy - (tall if dy < 0 else 0.0) if dy else aside - tall / 2
                long = math.dist(*_line((0.0, 0.0), (left, low, left + wide, low + tall)))
                found.append((round(long, 4), len(found), (round(left / CELL), round(low / CELL))))
    return [place for long, _, place in sorted(found) if long <= far]


def _line(tip: Point, box: Box) -> Stroke:
    """From the edge of words to the end of their line."""
    x, y = min(max(tip[0], box[0]), box[2]), min(max(tip[1], box[1]), box[3])
    if x != tip[0] and not box[1] < tip[1] < box[3]:  # askew: from the middle of the side
        y = (box[1] + box[3]) / 2
    return (x, y), tip


def _circle(middle: Point, radius: float) -> list[Point]:
    turns = (math.tau * i / 20 for i in range(20))
    return [(middle[0] + radius * math.cos(a), middle[1] + radius * math.sin(a)) for a in turns]


def _hull(line: Stroke) -> Box:
    (x0, y0), (x1, y1) = line
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _near(tips: Sequence[Point], box: Box, reach: float) -> bool:
    """Whether a box comes within reach of some of the points."""
    return any(box[0] - reach < x < box[2] + reach and box[1] - reach < y < box[3] + reach for x, y in tips)


def _in(point: Point, box: Box) -> bool:
    return box[0] < point[0] < box[2] and box[1] < point[1] < box[3]
