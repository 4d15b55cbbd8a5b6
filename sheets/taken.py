"""Room for words on a picture: what is written first is kept clear of by what comes after."""

from __future__ import annotations

from collections.abc import Iterable

import fonts
from sheets.lettering import Align, width, write
from sheets.shapes import Point, Recorder

INK = 1.08  # what a stacked fraction takes up and down, of its type size
DROP = 0.18  # and how much of that hangs below the line
GROUND = 0.02  # white to either side of words

Box = tuple[float, float, float, float]
"""Left, bottom, right, top on the page."""

Block = tuple[float, float, float, float]
"""What words keep out of on the wall: its stretch along the wall, and its stations from low to high."""

Stroke = tuple[Point, Point]


class Taken:
    """Where words and the lines that lead to them stand already; *area* is where words may stand at all."""

    def __init__(self, area: Box) -> None:
        self.area = area
        self.boxes: list[Box] = []
        self.lines: list[Stroke] = []

    def free(self, box: Box) -> bool:
        """Whether nothing stands in *box*, and it lies in the area."""
        x0, y0, x1, y1 = box
        a = self.area
        if x0 < a[0] or y0 < a[1] or x1 > a[2] or y1 > a[3]:
            return False
        if any(x0 < b[2] and b[0] < x1 and y0 < b[3] and b[1] < y1 for b in self.boxes):
            return False
        return not any(runs_through(line, box) for line in self.lines)

    def take(self, box: Box) -> None:
        """Keep *box* for what is drawn there."""
        self.boxes.append(box)

    def release(self, box: Box) -> None:
        """Give up a place that was kept for words."""
        self.boxes[self.boxes.index(box)] = (box[0], box[1], box[0], box[1])

    def middle(self, low: float, high: float, bottom: float, top: float, wide: float) -> float | None:
        """Where the middle of words *wide* goes between *low* and *high* on the page: as near to the middle of that
        stretch as what stands there lets it be; ``None`` where there is no room."""
        low, high = max(low, self.area[0]), min(high, self.area[2])
        if bottom < self.area[1] or top > self.area[3] or high - low < wide:
            return None
        cuts = [(b[0], b[2]) for b in self.boxes if b[1] < top and b[3] > bottom]
        cuts += [
            (min(p[0], q[0]), max(p[0], q[0]))
            for p, q in self.lines
            if min(p[1], q[1]) < top and max(p[1], q[1]) > bottom
        ]
        half, best = wide / 2, (low + high) / 2
        places = [min(max(best, a + half), b - half) for a, b in gaps(cuts, low, high) if b - a >= wide]
        return min(places, key=lambda x: (round(abs(x - best), 6), x), default=None)

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


def runs_through(line: Stroke, box: Box) -> bool:
    """Whether a stroke has a point inside of a box (Liang and Barsky's clipping, 1984)."""
    (x0, y0), (x1, y1) = line
    if (x0 < box[0] and x1 < box[0]) or (x0 > box[2] and x1 > box[2]):
        return False
    if (y0 < box[1] and y1 < box[1]) or (y0 > box[3] and y1 > box[3]):
        return False
    dx, dy = x1 - x0, y1 - y0
    start, end = 0.0, 1.0
    for step, room in ((-dx, x0 - box[0]), (dx, box[2] - x0), (-dy, y0 - box[1]), (dy, box[3] - y0)):
        if step == 0.0:
            if room <= 0.0:
                return False
        elif step < 0.0:
            start = max(start, room / step)
        else:
            end = min(end, room / step)
    return start < end - 1e-9


def cross(one: Stroke, other: Stroke) -> bool:
    """Whether two strokes cross or touch."""
    (p, q), (r, s) = one, other
    return _side(p, q, r) * _side(p, q, s) <= 0 and _side(r, s, p) * _side(r, s, q) <= 0


def _side(p: Point, q: Point, r: Point) -> float:
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def clear(blocks: Iterable[Block], low: float, high: float, bottom: float, top: float) -> list[tuple[float, float]]:
    """What *blocks* leave free of a stretch along the wall between two stations, the widest first, the leftmost of
    equal ones."""
    cuts = [(b[0], b[1]) for b in blocks if b[0] < high and b[1] > low and b[2] < top and b[3] > bottom]
    return sorted(gaps(cuts, low, high), key=lambda s: (-round(s[1] - s[0]), s[0]))


def gaps(taken: Iterable[tuple[float, float]], low: float, high: float) -> list[tuple[float, float]]:
    """What stretches leave free between *low* and *high*, from the low end up."""
    found, at = [], low
    for a, b in sorted(taken):
        if a > at:
            found.append((at, min(a, high)))
        at = max(at, b)
    if high > at:
        found.append((at, high))
    return [(a, b) for a, b in found if b > a]
