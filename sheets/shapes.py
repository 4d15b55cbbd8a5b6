"""The drawing model: a few frozen shapes in inches, x right, y up, and the pen that receives them.

One protocol, ``Pen``, four calls. A ``Recorder`` keeps what it is told as a ``Drawing``; a drawing is measured,
placed (moved) and replayed into another pen: a writer's page or a larger drawing. Nothing here knows a file format.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Protocol

from msgspec import Struct

from sheets.language import turn

HAIR = 0.004
THIN = 0.008
MEDIUM = 0.014
THICK = 0.028
HEAVY = 0.055

Point = tuple[float, float]


class Line(Struct, frozen=True):
    """A straight stroke from (x0, y0) to (x1, y1), *width* inches wide, centred on it; *dash* on/off inches."""

    x0: float
    y0: float
    x1: float
    y1: float
    width: float = THIN
    dash: tuple[float, ...] = ()


class Polygon(Struct, frozen=True):
    """A closed outline. *grey* fills it (0 black to 1 white, ``None`` no fill); *width* 0 draws no outline."""

    points: tuple[Point, ...]
    grey: float | None = None
    width: float = THIN


class Text(Struct, frozen=True):
    """One run in one cut: *x*, *y* is the left end of the baseline, *size* the em in inches, *turn* 0 or 90 degrees
    anticlockwise about that point, *grey* 0 black to 1 white. Runs are made by ``sheets.lettering``."""

    x: float
    y: float
    text: str
    size: float
    cut: str
    turn: int = 0
    grey: float = 0.0


class Group(Struct, frozen=True):
    """Shapes that belong together, with the name an SVG layer and the read-back know them by; *title* is the words of
    the whole group as a person would read them."""

    name: str
    shapes: tuple[Shape, ...]
    title: str = ""


Shape = Line | Polygon | Text | Group


class Pen(Protocol):
    """Whatever can be drawn on: the recorder and each writer's page."""

    def line(self, shape: Line) -> None:
        """Draw a line."""

    def polygon(self, shape: Polygon) -> None:
        """Draw a polygon, filled or not."""

    def text(self, shape: Text) -> None:
        """Draw a run of words in one cut and size."""

    def group(self, shape: Group) -> None:
        """Draw the shapes of a group, in order, under its name."""


def replay(shapes: Iterable[Shape], pen: Pen) -> None:
    """Give every shape to *pen*, in order."""
    for shape in shapes:
        if isinstance(shape, Line):
            pen.line(shape)
        elif isinstance(shape, Text):
            pen.text(shape)
        elif isinstance(shape, Polygon):
            pen.polygon(shape)
        else:
            pen.group(shape)


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """*shape* shifted by (dx, dy) inches."""
    if isinstance(shape, Line):
        return Line(shape.x0 + dx, shape.y0 + dy, shape.x1 + dx, shape.y1 + dy, shape.width, shape.dash)
    if isinstance(shape, Text):
        return Text(shape.x + dx, shape.y + dy, shape.text, shape.size, shape.cut, shape.turn, shape.grey)
    if isinstance(shape, Polygon):
        return Polygon(tuple((x + dx, y + dy) for x, y in shape.points), shape.grey, shape.width)
    return Group(shape.name, tuple(moved(s, dx, dy) for s in shape.shapes), shape.title)


def flat(shapes: Iterable[Shape]) -> Iterable[Line | Polygon | Text]:
    """Every shape with the groups opened."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from flat(shape.shapes)
        else:
            yield shape


class Drawing(Struct, frozen=True):
    """What a recorder was told; *width* and *height* are the page, tag or strip it is meant for, in inches."""

    width: float
    height: float
    shapes: tuple[Shape, ...]


class Recorder:
    """A pen that remembers. Coordinates must be finite: anything else is a ``ValueError`` at the place it was drawn."""

    def __init__(self, width: float, height: float) -> None:
        self.width = width
        self.height = height
        self._stack: list[list[Shape]] = [[]]
        self._names: list[tuple[str, str]] = []

    # the four calls of the protocol
    def line(self, shape: Line) -> None:
        """Keep a line. Raises ``ValueError`` where an end is not finite."""
        self._keep(shape, (shape.x0, shape.y0, shape.x1, shape.y1))

    def polygon(self, shape: Polygon) -> None:
        """Keep a polygon. Raises ``ValueError`` where a corner is not finite."""
        self._keep(shape, (c for p in shape.points for c in p))

    def text(self, shape: Text) -> None:
        """Keep a run of words. Raises ``ValueError`` where its place or its size is not finite."""
        self._keep(shape, (shape.x, shape.y, shape.size))

    def group(self, shape: Group) -> None:
        """Keep a group as it is: its shapes are taken to be finite."""
        self._stack[-1].append(shape)

    def _keep(self, shape: Shape, coordinates: Iterable[float]) -> None:
        if not all(math.isfinite(c) for c in coordinates):
            raise ValueError(f"not a finite place: {shape}")
        self._stack[-1].append(shape)

    # shorthand for sheets
    def stroke(
        self, x0: float, y0: float, x1: float, y1: float, width: float = THIN, dash: tuple[float, ...] = ()
    ) -> None:
        """A ``Line`` by its numbers."""
        self.line(Line(x0, y0, x1, y1, width, dash))

    def shape(self, points: Sequence[Point], grey: float | None = None, width: float = THIN) -> None:
        """A ``Polygon`` by its points."""
        self.polygon(Polygon(tuple(points), grey, width))

    def box(self, x0: float, y0: float, x1: float, y1: float, grey: float | None = None, width: float = THIN) -> None:
        """An upright rectangle from corner to corner."""
        self.shape(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), grey, width)

    def place(self, shapes: Iterable[Shape], dx: float = 0.0, dy: float = 0.0) -> None:
        """Replay *shapes* here, moved by (dx, dy)."""
        self._stack[-1].extend(shapes if dx == dy == 0.0 else (moved(s, dx, dy) for s in shapes))

    @property
    def count(self) -> int:
        """How many shapes it holds at the top, a group being one."""
        return len(self._stack[0])

    def cut_off(self, count: int) -> list[Shape]:
        """Take off all but the first *count* shapes, and give what was taken."""
        kept, cut = self._stack[0][:count], self._stack[0][count:]
        self._stack[0] = kept
        return cut

    def begin(self, name: str, title: str = "") -> None:
        """Open a named group; every shape until the matching ``end`` belongs to it. Its title, unless it is but the
        name again, is said in the language that is spoken."""
        self._names.append((name, turn(title) if title != name else title))
        self._stack.append([])

    def end(self) -> None:
        """Close the group opened last."""
        name, title = self._names.pop()
        shapes = tuple(self._stack.pop())
        self._stack[-1].append(Group(name, shapes, title))

    def drawing(self) -> Drawing:
        """All that was drawn; open groups are a ``ValueError``."""
        if self._names:
            raise ValueError(f"group left open: {self._names[-1][0]}")
        return Drawing(self.width, self.height, tuple(self._stack[0]))
