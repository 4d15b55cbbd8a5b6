"""How much ink a drawing takes: the area that its strokes, fills and letters cover."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cache
from itertools import pairwise

from sheets.lettering import face
from sheets.shapes import Line, Polygon, Shape, Text, flat

WET = 0.003  # inches that a stroke grows by, both sides together, on the way to paper: measured on rasters
LEAST = 0.01  # and the least that it comes out as: a dot of 100 to the inch


@cache
def _glyph(char: str, cut: str) -> float:
    """The area of a character at an em of 1."""
    from fontTools.pens.areaPen import AreaPen

    pen = AreaPen(face(cut).glyphs)
    face(cut).draw(char, pen)
    area: float = abs(pen.value) / face(cut).units_per_em ** 2
    return area


def inked(shapes: Iterable[Shape]) -> float:
    """Square inches of ink that *shapes* take, each by itself: what lies on something else is counted twice."""
    return sum(_one(shape) for shape in flat(shapes))


def _one(shape: Line | Polygon | Text) -> float:
    if isinstance(shape, Text):
        return (1 - shape.grey) * shape.size**2 * sum(_glyph(c, shape.cut) for c in shape.text)
    if isinstance(shape, Line):
        long = math.dist((shape.x0, shape.y0), (shape.x1, shape.y1))
        drawn = shape.dash[0] / sum(shape.dash[:2]) if len(shape.dash) > 1 else 1.0
        return long * drawn * max(shape.width + WET, LEAST)
    around = [*shape.points, shape.points[0]]
    fill = 0.0
    if shape.grey is not None:
        fill = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(around))) / 2 * (1 - shape.grey)
    return fill + sum(math.dist(a, b) for a, b in pairwise(around)) * shape.width
