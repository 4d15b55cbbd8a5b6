"""Room for words on a picture: what is written first is kept clear of by what comes after."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import fonts
from sheets.lettering import Align, width, write
from sheets.shapes import Recorder

INK = 1.08  # what a stacked fraction takes up and down, of its type size
DROP = 0.18  # and how much of that hangs below the line
GROUND = 0.02  # white to either side of words

Box = tuple[float, float, float, float]
"""Left, bottom, right, top on the page."""

Block = tuple[float, float, float, float]
"""What words keep out of on the wall: its stretch along the wall, and its stations from low to high."""


class Taken:
    """Where words stand already; *area* is where words may stand at all."""

    def __init__(self, area: Box) -> None:
        self.area = area
        self.boxes: list[Box] = []

    def free(self, box: Box) -> bool:
        """Whether nothing stands in *box*, and it lies in the area."""
        x0, y0, x1, y1 = box
        a = self.area
        if x0 < a[0] or y0 < a[1] or x1 > a[2] or y1 > a[3]:
            return False
        return not any(x0 < b[2] and b[0] < x1 and y0 < b[3] and b[1] < y1 for b in self.boxes)

    def take(self, box: Box) -> None:
        """Keep *box* for what is drawn there."""
        self.boxes.append(box)

    def write(
        self, pen: Recorder, x: float, base: float, text: str, size: float, align: Align = "center", cut: str = ""
    ) -> bool:
        """Write on white if there is room; whether there was."""
        cut = cut or fonts.BOLD
        box = around(x, base, text, size, align, cut)
        if not self.free(box):
            return False
        self.take(box)
        pen.box(*box, 1.0, 0.0)
        write(pen, x, base, text, size, cut, align)
        return True


def around(x: float, base: float, text: str, size: float, align: Align = "center", cut: str = "") -> Box:
    """The box of words on a line, with the white to either side of them."""
    wide = width(text, size, cut or fonts.BOLD)
    left = x - {"left": 0.0, "center": wide / 2, "right": wide}[align]
    return left - GROUND, base - size * DROP, left + wide + GROUND, base + size * (INK - DROP)


def clear(blocks: Iterable[Block], low: float, high: float, bottom: float, top: float) -> list[tuple[float, float]]:
    """What *blocks* leave free of a stretch along the wall between two stations, the widest first, the leftmost of
    equal ones."""
    cuts = sorted((b[0], b[1]) for b in blocks if b[0] < high and b[1] > low and b[2] < top and b[3] > bottom)
    found, at = [], low
    for left, right in cuts:
        if left > at:
            found.append((at, left))
        at = max(at, right)
    if high > at:
        found.append((at, high))
    return sorted(found, key=lambda s: (-round(s[1] - s[0]), s[0]))


def middles(low: float, high: float, wide: float) -> Iterator[float]:
    """Where the middle of words goes in a stretch of the page: the middle of it, then aside, then at its ends."""
    slack = (high - low - wide) / 2
    if slack < 0:
        return
    middle = (low + high) / 2
    yield middle
    if slack > 0.1:
        for share in (-0.5, 0.5, -1.0, 1.0):
            yield middle + share * slack


def gaps(taken: Sequence[tuple[float, float]], low: float, high: float) -> list[tuple[float, float]]:
    """What stretches leave free between *low* and *high*, from the top down."""
    found, at = [], high
    for a, b in sorted(taken, key=lambda s: -s[1]):
        if b < at:
            found.append((max(b, low), at))
        at = min(at, a)
    if at > low:
        found.append((low, at))
    return [(a, b) for a, b in found if b > a]
