"""Shapes to the operators that draw a page (ISO 32000-1, annex A), in points: inches times 72, never a scaled canvas,
whose factors are rounded. An operator that changes nothing is left out."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from sheets.pages import spoken
from sheets.shapes import Drawing, Group, Line, Polygon, Text, replay

_FAR = 1e6  # points; nothing on a page is so far away, and not-a-number is not less than it


@lru_cache(maxsize=50000)
def _n(inches: float) -> str:
    """*inches* as points to 1/10 000 (under a millionth of an inch); not finite is a ``ValueError``."""
    points = inches * 72.0
    if not -_FAR < points < _FAR:
        raise ValueError(f"not a place on a page: {inches} in")
    written = f"{points:.4f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _literal(words: str) -> str:
    """*words* as a PDF text string: plain where ASCII allows, else UTF-16 (ISO 32000-1, 7.9.2.2)."""
    if words.isascii():
        escaped = re.sub(r"([\\()])", r"\\\1", words)
        return f"({escaped})"
    return f"<FEFF{words.encode('utf-16-be').hex().upper()}>"


class Words(NamedTuple):
    """Words between operators: how they are coded is settled by each file's own subsets of the fonts."""

    cut: str
    text: str
    size: str


Content = list[str | Words]


class _Pen:
    """A pen that writes the operators of one page and remembers the graphics state it has left."""

    def __init__(self) -> None:
        self.operators: Content = []
        self._state: dict[str, str] = {"w": "1", "d": "[] 0", "g": "0"}  # how every page begins

    def _set(self, operator: str, operands: str) -> None:
        if self._state.get(operator) != operands:
            self._state[operator] = operands
            self.operators.append(f"{operands} {operator}")

    def _grey(self, grey: float) -> None:
        if not 0.0 <= grey <= 1.0:
            raise ValueError(f"grey runs from 0 to 1, not {grey}")
        self._set("g", f"{grey:.3f}".rstrip("0").rstrip("."))

    def _stroke(self, width: float, dash: tuple[float, ...]) -> None:
        self._set("w", _n(width))
        self._set("d", f"[{' '.join(map(_n, dash))}] 0")

    def line(self, shape: Line) -> None:
        self._stroke(shape.width, shape.dash)
        ends = f"{_n(shape.x0)} {_n(shape.y0)} m {_n(shape.x1)} {_n(shape.y1)} l S"
        self.operators.append(ends)

    def polygon(self, shape: Polygon) -> None:
        outlined, filled = shape.width > 0, shape.grey is not None
        if len(shape.points) < 3:
            raise ValueError(f"a polygon has three corners or more: {shape}")
        if not (outlined or filled):
            return
        if outlined:
            self._stroke(shape.width, ())
        if shape.grey is not None:
            self._grey(shape.grey)
        corners = " l ".join(f"{_n(x)} {_n(y)}" for x, y in shape.points).replace(" l ", " m ", 1)
        paint = {(True, True): "b", (True, False): "s", (False, True): "h f"}[outlined, filled]
        self.operators.append(f"{corners} l {paint}")

    def text(self, shape: Text) -> None:
        self._grey(shape.grey)
        place = f"{_n(shape.x)} {_n(shape.y)}"
        self.operators.append(f"BT {place} Td" if shape.turn == 0 else f"BT 0 1 -1 0 {place} Tm")
        self.operators.append(Words(shape.cut, shape.text, _n(shape.size)))
        self.operators.append("ET")

    def group(self, shape: Group) -> None:
        # Only a lone line of words is marked: what a reader copies and searches is then the words as typed.
        marked = shape.name == "text" and shape.title
        if marked:
            self.operators.append(f"/Span << /ActualText {_literal(spoken(shape.title))} >> BDC")
        replay(shape.shapes, self)
        if marked:
            self.operators.append("EMC")


def content(drawing: Drawing) -> Content:
    """The operators of a page. A ``ValueError`` names a place that is not finite, a polygon of fewer than three
    corners, a grey that is none."""
    pen = _Pen()
    replay(drawing.shapes, pen)
    return pen.operators
