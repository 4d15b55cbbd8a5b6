"""Numbers on the pictures of walls, held against the boards that are drawn: each its own, and it is clear whose it is.

A board is a group called piece-N, its number a group called number-N. A number stands on its board, or just above it,
or its line ends on it.
"""

from __future__ import annotations

from collections.abc import Iterable

import boxes
from shapely import MultiPoint, Point, box
from shapely.geometry.base import BaseGeometry

from sheets.shapes import Group, Line, Polygon, Shape, Text, flat

ABOVE = 0.05  # inches from a board to the number just above it, at the most


def faults(shapes: Iterable[Shape]) -> list[str]:
    """Boards without a number and numbers without a board on one page; numbers that stand on another board."""
    shapes = list(shapes)
    boards = [(g.title, _outline(g)) for g in boxes.groups(shapes, "piece-")]
    numbers = list(boxes.groups(shapes, "number-"))
    found: list[str] = []
    for mark in sorted({title for title, _ in boards} | {g.title for g in numbers}):
        mine = [shape for title, shape in boards if title == mark]
        said = [g for g in numbers if g.title == mark]
        reach = [[i for i, shape in enumerate(mine) if _tells(number, shape)] for number in said]
        paired = _pairs(reach)
        found += [f"{mark}: a number at no board"] * (len(said) - paired)
        found += [f"{mark}: a board without a number"] * (len(mine) - paired)
        found += [f"{mark}: words are {_words(g)!r}" for g in said if not _words(g).startswith(mark)]
    return found + [f"{g.title}: stands on {other}" for g in numbers for other in _under(g, boards)]


def rows_overleaf(shapes: Iterable[Shape]) -> int:
    """How many rows of a page say that not all of their numbers stand here."""
    return sum(t.words == "*" for t in boxes.written(shapes))


def _outline(group: Group) -> BaseGeometry:
    points = [p for s in flat(group.shapes) for p in _points(s)]
    return MultiPoint(points).convex_hull


def _points(shape: Shape) -> list[tuple[float, float]]:
    if isinstance(shape, Polygon):
        return list(shape.points)
    return [(shape.x0, shape.y0), (shape.x1, shape.y1)] if isinstance(shape, Line) else []


def _words(group: Group) -> str:
    return " ".join(t.words for t in boxes.written(group.shapes))


def _ink(group: Group) -> BaseGeometry:
    """The words of a number, as they stand."""
    (text,) = (t.box for t in boxes.written(group.shapes))
    return box(text.x0, text.y0, text.x1, text.y1)


def _tip(group: Group) -> Point | None:
    """The end of its line."""
    lines = [s for s in flat(group.shapes) if isinstance(s, Line)]
    return Point(lines[0].x1, lines[0].y1) if lines else None


def _tells(group: Group, shape: BaseGeometry) -> bool:
    """Whether a number is that of a board."""
    tip, words = _tip(group), _ink(group)
    if tip is not None:
        return bool(shape.distance(tip) < 1e-6)
    middle = (words.bounds[1] + words.bounds[3]) / 2
    return bool(shape.distance(words) <= ABOVE and middle >= shape.bounds[1])


def _under(group: Group, boards: list[tuple[str, BaseGeometry]]) -> list[str]:
    """Boards that a number stands on which is led to another one, unless a ring parts it from them; or that stands over
    its own."""
    if any(isinstance(s, Polygon) and len(s.points) > 4 and s.grey == 1.0 for s in group.shapes):
        return []
    words = _ink(group).buffer(-0.01)
    on = [title for title, shape in boards if shape.intersects(words)]
    return [title for title in on if title != group.title and group.title not in on]


def _pairs(reach: list[list[int]]) -> int:
    """The most numbers that can each have a board of their own (augmenting paths)."""
    owner: dict[int, int] = {}

    def give(number: int, tried: set[int]) -> bool:
        for board in reach[number]:
            if board not in tried:
                tried.add(board)
                if board not in owner or give(owner[board], tried):
                    owner[board] = number
                    return True
        return False

    return sum(give(number, set()) for number in range(len(reach)))


def without(shapes: Iterable[Shape], name: str) -> list[Shape]:
    """The same page with one group of that name left out."""
    left = [name]

    def kept(shape: Shape) -> Shape | None:
        if not isinstance(shape, Group):
            return shape
        if shape.name == name and left:
            left.pop()
            return None
        return Group(shape.name, tuple(s for inner in shape.shapes if (s := kept(inner)) is not None), shape.title)

    return [s for shape in shapes if (s := kept(shape)) is not None]


def renumbered(shapes: Iterable[Shape], name: str, mark: str) -> list[Shape]:
    """The same page with another number written in the groups of that name."""

    def new(shape: Shape, inside: bool) -> Shape:
        if isinstance(shape, Group):
            inner = inside or shape.name == name
            title = mark if inside and shape.name == "text" else shape.title
            return Group(shape.name, tuple(new(s, inner) for s in shape.shapes), title)
        if isinstance(shape, Text) and inside:
            return Text(shape.x, shape.y, mark, shape.size, shape.cut)
        return shape

    return [new(shape, False) for shape in shapes]
