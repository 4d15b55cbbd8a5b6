"""Numbers that stand apart from their boards: where there is room for them, and the line that leads to the board."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice
from typing import NamedTuple

import fonts
from layouts.boards import Rake, Wall
from layouts.openings import Upright
from sheets.boards import Board, outline
from sheets.grid import Grid
from sheets.lettering import width, write
from sheets.shapes import HAIR, THIN, Point, Recorder
from sheets.taken import DROP, GROUND, INK, Box, Stroke, Taken, runs_through
from sheets.view import View

DOT = 0.016  # radius of the dot in which a line ends, on its board
TRIES = 400  # places that are looked at
STEPS = (0.05, 0.08, 0.12, 0.18, 0.25, 0.35, 0.45, 0.6, 0.8, 1.0, 1.3)
ASIDE = (0.0, 0.07, -0.07, 0.15, -0.15, 0.25, -0.25, 0.4, -0.4, 0.6, -0.6)
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
        lying = [p for c in (*wall.courses, *wall.levels) for p in c.pieces]
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
        for box in self.columns:
            self.over.fill(box)
        self._known = 0, 0

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
        (x0, y0), (x1, y1), deep = points[3], points[2], points[3][1] - points[0][1]
        for i in range(PIECES):
            a, b = x0 + (x1 - x0) * i / PIECES, x0 + (x1 - x0) * (i + 1) / PIECES
            if part := self.view.clipped(a, b):
                ends = [y0 + (y1 - y0) * (x - x0) / (x1 - x0) for x in part]
                yield (*self.view.at(part[0], min(ends) - deep), *self.view.at(part[1], max(ends)))

    # --- where the line ends ----------------------------------------------------------------------------------------

    def tips(self, board: Board, first: float = 0.5) -> list[Point]:
        """Points of a board where a line may end, those near the share *first* of its length first: seen, and on no
        other board if it has such a place."""
        own = [box for one, box in self.boards if one is board]
        if not own:
            return []
        found = [
            p
            for box in own
            for p in _points(box, isinstance(board, Upright), 3 if len(own) > 1 else 7, first)
            if not any(_in(p, taken) for taken in self.taken.boxes)
        ]
        others = [box for one, box in self.boards if one is not board] + self.columns
        return [p for p in found if not any(_in(p, box) for box in others)] or found

    # --- where the words stand --------------------------------------------------------------------------------------

    def lead(self, board: Board, text: str, kind: Kind, first: float = 0.5) -> bool:
        """Write *text* clear of all boards, with a line to its *board*, about the share *first* of its length; in a
        ring it may stand over boards. Whether there was room."""
        tips, (size, far, ring, over) = self.tips(board, first), kind
        if not tips:
            return False
        wide, tall = width(text, size, fonts.BOLD) + 2 * GROUND, size * INK
        if ring:
            wide = tall = math.hypot(wide, tall) + 0.02
        self._catch_up()
        free = list(islice(self._free(tips, wide, tall, far, self.over if ring else self.clear), TRIES))
        own = [box for one, box in self.boards if one is board]
        others = [box for _, box in self.boards if box not in own] + self.columns
        others = [box for box in others if not any(_in(tip, box) for tip in tips)]
        # a line over another board still ends in a dot on its own, but one that crosses none is plainer
        for crossed in (others, ())[: 1 + over]:
            for box, line in free:
                if self.taken.open(line) and not any(runs_through(line, other) for other in crossed):
                    self._draw(text, size, box, line, ring)
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
        for dx, dy in _offsets(round(wide, 3), round(tall, 3), far):
            for tip in tips:
                column, row = grid.cell(tip[0] + dx, tip[1] + dy)
                if column >= 0 and row in blocked and not blocked[row] >> column & 1:
                    left, low = grid.corner(column, row)
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
def _offsets(wide: float, tall: float, far: float) -> Sequence[Point]:
    """From the end of a line to the lower left corner of the words it comes from, the shortest line first: beside,
    over and under, and askew."""
    found = []
    for step in (s for s in STEPS if s <= far):
        for aside in ASIDE:
            for dx, dy in ((step, 0), (-step, 0), (0, step), (0, -step)):
                left = dx - (wide if dx < 0 else 0.0) if dx else aside - wide / 2
                low = dy - (tall if dy < 0 else 0.0) if dy else aside - tall / 2
                long = math.dist(*_line((0.0, 0.0), (left, low, left + wide, low + tall)))
                found.append((round(long, 4), len(found), (left, low)))
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


def _in(point: Point, box: Box) -> bool:
    return box[0] < point[0] < box[2] and box[1] < point[1] < box[3]
