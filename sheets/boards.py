"""Any board of a wall: its corners, what it is cut from, how many like it the wall has."""

from __future__ import annotations

import math
from collections import Counter
from itertools import pairwise

from msgspec.structs import replace

from layouts.boards import Piece, Rake, Wall
from layouts.lumber import bought_as
from layouts.openings import Opening, Upright
from layouts.pieces import pieces_of
from sheets.shapes import Point

Board = Piece | Upright | Rake


def outline(board: Board) -> list[Point]:
    """The corners of a board, along the wall and as stations, from the lower left one on."""
    if isinstance(board, Rake):
        return _sloped(board)
    if isinstance(board, Upright):
        (left, right), (one, other) = (board.left, board.right), board.tops
        return [(left, board.low), (right, board.low), (right, other), (left, one)]
    low, high = board.row.low, board.row.high
    corners = [(board.low[0], low), (board.low[1], low)]
    right_turn, left_turn = high - board.right_rise, high - board.left_rise
    if board.backs[1] > 1e-6 and right_turn > low + 1e-6:
        corners.append((board.low[1], right_turn))
    corners += [(board.high[1], high), (board.high[0], high)]
    if board.backs[0] > 1e-6 and left_turn > low + 1e-6:
        corners.append((board.low[0], left_turn))
    return corners


def _sloped(board: Rake) -> list[Point]:
    """A nailer along a slope with plumb ends."""
    (x0, y0), (x1, y1) = board.start, board.end
    deep = board.section.wide * math.hypot(x1 - x0, y1 - y0) / (x1 - x0)
    return [(x0, y0 - deep), (x1, y1 - deep), (x1, y1), (x0, y0)]


def along_slope(board: Rake, parts: int) -> list[tuple[float, float, float, float]]:
    """A nailer along a slope as upright boxes, left to right: along the wall from and to, stations from and to."""
    points = outline(board)
    (x0, y0), (x1, y1), deep = points[3], points[2], points[3][1] - points[0][1]
    places = [x0 + (x1 - x0) * i / parts for i in range(parts + 1)]
    heights = [y0 + (y1 - y0) * i / parts for i in range(parts + 1)]
    ends = zip(pairwise(places), pairwise(heights), strict=True)
    return [(a, b, min(one, other) - deep, max(one, other)) for (a, b), (one, other) in ends]


def board_text(board: Board) -> str:
    """What a board is cut from."""
    if isinstance(board, Rake):
        return board.section.name
    of = board.row if isinstance(board, Piece) else board
    return bought_as(of.section.name, of.treated)


def counted(wall: Wall) -> list[tuple[Board, int]]:
    """Each kind of board with how many of it this wall has, in number order."""
    boards = [board for board, _ in pieces_of(wall)]
    counts = Counter(b.mark for b in boards)
    first = {b.mark: b for b in reversed(boards)}
    return [(first[mark], counts[mark]) for mark in sorted(counts, key=lambda m: int(m[1:]))]


def cut_out(piece: Piece, openings: tuple[Opening, ...]) -> list[tuple[float, float]]:
    """The stretches of a board that runs through openings and is cut out when the wall stands, left to right."""
    row = piece.row
    found = [
        (max(o.left, piece.low[0]), min(o.right, piece.low[1]))
        for o in openings
        if o.through and row.low < o.high - 1e-6 and row.high > o.low + 1e-6 and o.gap(row) is None
    ]
    return sorted((a, b) for a, b in found if b > a + 1e-6)


def belongs(upright: Upright, opening: Opening) -> bool:
    """Whether a board of the wall is one of *opening*: it has its number, those of the opening have none."""
    return replace(upright, mark="") in opening.uprights
