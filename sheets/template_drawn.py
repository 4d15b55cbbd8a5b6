"""A pattern on its pages: edges, cuts, helping lines, arrows, and the match lines where it is parted.

Groups are named for the read-back: ``template-edge-N``, ``template-cut-N`` (each part of a cut on one page alone),
``template-again-N`` (drawn again beyond a match line) and ``template-match-N`` (one line on two pages).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import chain, pairwise, product

from msgspec import Struct, field

import fonts
from layouts.template import Arrow, Path, Point, Template
from sheets.lettering import Turn, pt, width, write
from sheets.paper import Area
from sheets.shapes import HAIR, MEDIUM, THICK, THIN, Recorder
from sheets.template_tiles import Tile

AROUND = 0.4  # what stands round a pattern: names of its edges
WORD, SMALL = pt(15), pt(11)
HEAD = 0.18  # of an arrow
OFF, FREE = 0.25, 0.1  # from match lines to arrows, and to words
LEAST = 0.7  # of an arrow that goes on over a match line: shorter parts are left out
WASTE = ("WASTE", "SLOT")  # what falls away: said on every page
AIR = 0.04  # between words and lines, where there is room
SHORT, LONG = (0.05, 0.05), (0.3, 0.1)  # dashes of helping lines, of match lines


def bounds(one: Template) -> Area:
    """What a pattern takes with all that stands round it."""
    x0, y0, x1, y1 = one.box()
    xs, ys = [x0 - AROUND, x1 + AROUND], [y0 - AROUND, y1 + AROUND]
    for arrow in one.arrows:
        for x, y in (arrow.start, arrow.end):  # with its head
            xs += [x - HEAD / 2 - AIR, x + HEAD / 2 + AIR]
            ys += [y - HEAD / 2 - AIR, y + HEAD / 2 + AIR]
        if _level(arrow):  # its word stands under it or over it
            middle, half = (arrow.start[0] + arrow.end[0]) / 2, width(arrow.word, WORD, fonts.BOLD) / 2 + 0.05
            xs += [middle - half, middle + half]
            ys += [arrow.start[1] - 0.4, arrow.start[1] + 0.4]
    for label in one.labels:
        along, half = width(label.word, WORD, fonts.BOLD) / 2 + 0.05, WORD * 0.75
        wide, high = (half, along) if label.turned else (along, half)
        xs += [label.at[0] - wide, label.at[0] + wide]
        ys += [label.at[1] - high, label.at[1] + high]
    return Area(min(xs), min(ys), max(xs), max(ys))


def _level(arrow: Arrow) -> bool:
    return abs(arrow.start[1] - arrow.end[1]) < 1e-9


class _Words(Struct):
    """Words of a page as they are written, and what they and lines take up."""

    pen: Recorder
    tile: Tile
    dx: float
    dy: float
    taken: list[Area] = field(default_factory=list)
    lines: list[Path] = field(default_factory=list)

    def box(self, at: Point, word: str, size: float, turned: bool) -> Area:
        """What a word takes whose baseline's middle is at *at*."""
        half, high = width(word, size, fonts.BOLD) / 2, size * 0.9
        if turned:
            return Area(at[0] - high, at[1] - half, at[0] + size * 0.2, at[1] + half)
        return Area(at[0] - half, at[1] - size * 0.2, at[0] + half, at[1] + high)

    def free(self, box: Area, lines: bool = True, joint: bool = False) -> bool:
        """Whether nothing stands in a box, and all of it is on the page, clear of match lines but for the words of a
        *joint*; *lines* too are kept clear of."""
        page = self.tile.shown if joint else self.tile.clear(FREE)
        if box.x0 < page.x0 or box.x1 > page.x1 or box.y0 < page.y0 or box.y1 > page.y1:
            return False
        if any(b.x0 < box.x1 and box.x0 < b.x1 and b.y0 < box.y1 and box.y0 < b.y1 for b in self.taken):
            return False
        wide = Area(box.x0 - AIR, box.y0 - AIR, box.x1 + AIR, box.y1 + AIR)
        return not lines or not any(True for path in self.lines for _ in parts(path, wide))

    def put(self, at: Point, word: str, size: float, turned: bool = False) -> None:
        """Write a word; *at* is the middle of its baseline."""
        turn: Turn = 90 if turned else 0
        write(self.pen, at[0] + self.dx, at[1] + self.dy, word, size, fonts.BOLD, "center", turn)
        self.taken.append(self.box(at, word, size, turned))

    def first(
        self,
        spots: Iterable[Point],
        word: str,
        size: float,
        turned: bool = False,
        lines: bool = True,
        joint: bool = False,
    ) -> bool:
        """Write a word at the first of *spots* that is free, if there is one: says whether."""
        for at in spots:
            if self.free(self.box(at, word, size, turned), lines, joint):
                self.put(at, word, size, turned)
                return True
        return False

    def near(self, at: Point) -> Iterator[Point]:
        """Places round one on the same side of every edge and cut, from there on outward."""
        steps = [i * 0.2 for i in range(-12, 13)]
        for dx, dy in sorted(product(steps, steps), key=lambda step: (math.hypot(*step), step)):
            place = (at[0] + dx, at[1] + dy)
            if not any(_cross(at, place, a, b) for path in self.lines for a, b in pairwise(path)):
                yield place


def draw(pen: Recorder, area: Area, one: Template, tile: Tile) -> None:
    """The pattern as far as it is on this page, in the middle of *area*."""
    shown = tile.shown
    dx = area.x0 + (area.width - shown.width) / 2 - shown.x0
    dy = area.y0 + (area.height - shown.height) / 2 - shown.y0
    words = _Words(pen, tile, dx, dy)
    words.lines += [*one.edges, *one.cuts, *((aid.start, aid.end) for aid in one.aids)]
    words.lines += [(joint.start, joint.end) for joint in tile.joints]
    pen.begin(f"template-{one.key}", one.title)
    for number, path in enumerate(one.edges, 1):
        _lines(pen, f"template-edge-{number}", path, shown, (dx, dy), THIN)
    for number, path in enumerate(one.cuts, 1):
        _lines(pen, f"template-cut-{number}", path, tile.own, (dx, dy), THICK)
        for window in _beyond(tile):
            _lines(pen, f"template-again-{number}", path, window, (dx, dy), MEDIUM)
    for aid in one.aids:
        for a, b in parts((aid.start, aid.end), shown):
            pen.stroke(a[0] + dx, a[1] + dy, b[0] + dx, b[1] + dy, HAIR, SHORT)
    _arrows(words, one)
    _names(words, one)
    _matches(words, tile)
    pen.end()


def _lines(pen: Recorder, name: str, path: Path, window: Area, by: Point, thick: float) -> None:
    """What of a path is in a window, as a group."""
    pen.begin(name)
    for a, b in parts(path, window):
        pen.stroke(a[0] + by[0], a[1] + by[1], b[0] + by[0], b[1] + by[1], thick)
    pen.end()


def _beyond(tile: Tile) -> Iterator[Area]:
    """What of a page lies beyond its match lines: to the right, and above."""
    own, shown = tile.own, tile.shown
    if shown.x1 > own.x1:
        yield Area(own.x1, own.y0, shown.x1, shown.y1)
    if shown.y1 > own.y1:
        yield Area(own.x0, own.y1, own.x1, shown.y1)


# --- what helps ------------------------------------------------------------------------------------------------------


def _arrows(words: _Words, one: Template) -> None:
    """Arrows with their words: each whole on its page, clear of match lines."""
    for arrow in filter(None, (_within(arrow, words.tile) for arrow in one.arrows)):
        (x0, y0), (x1, y1) = arrow.start, arrow.end
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        _arrow(words, arrow)
        half, page = width(arrow.word, WORD, fonts.BOLD) / 2, words.tile.clear(FREE)
        if _level(arrow):
            x = min(max(middle[0], page.x0 + half), page.x1 - half)
            spots, along = [(x, y0 - 0.33), (x, y0 + 0.16)], list[Point]()
        else:
            steps = (0.5, 0.3, 0.7)
            spots = [(x0 + side * (half + 0.12), y0 + (y1 - y0) * s - WORD * 0.35) for side in (1, -1) for s in steps]
            along = [(x0 + 0.12 + WORD * 0.9, middle[1]), (x0 - 0.12 - WORD * 0.2, middle[1])]
        if arrow.word:
            # an arrow says nothing without it: on a narrow board it reads up the arrow, else it stands across lines
            ways = ((spots, False, True), (along, True, True), (spots, False, False))
            any(words.first(places, arrow.word, WORD, turned, lines) for places, turned, lines in ways)
        words.taken.append(Area(min(x0, x1) - 0.1, min(y0, y1) - 0.1, max(x0, x1) + 0.1, max(y0, y1) + 0.1))


def _within(arrow: Arrow, tile: Tile) -> Arrow | None:
    """What is drawn of an arrow on a page: as much as is clear of match lines, an arrow of its own on every page it
    goes over. One that leaves too little everywhere is moved aside on the page that holds its middle."""
    page = tile.clear(OFF)
    long = math.dist(arrow.start, arrow.end)
    for start, end in parts((arrow.start, arrow.end), page):
        if math.dist(start, end) >= min(LEAST, long) - 1e-9:
            return Arrow(start, end, arrow.word)
    (x0, y0), (x1, y1) = arrow.start, arrow.end
    if not _holds(tile.own, ((x0 + x1) / 2, (y0 + y1) / 2)):
        return None
    dx = _back(min(x0, x1), max(x0, x1), page.x0, page.x1)
    dy = _back(min(y0, y1), max(y0, y1), page.y0, page.y1)
    return Arrow((x0 + dx, y0 + dy), (x1 + dx, y1 + dy), arrow.word)


def _back(low: float, high: float, least: float, most: float) -> float:
    """How far a stretch is moved to lie between *least* and *most*."""
    return least - low if low < least else min(most - high, 0.0)


def _holds(area: Area, point: Point) -> bool:
    return area.x0 <= point[0] <= area.x1 and area.y0 <= point[1] <= area.y1


def _arrow(words: _Words, arrow: Arrow) -> None:
    """A straight arrow with a black head."""
    (x0, y0), (x1, y1) = arrow.start, arrow.end
    far = math.hypot(x1 - x0, y1 - y0)
    way = ((x1 - x0) / far, (y1 - y0) / far)
    base = (x1 - way[0] * HEAD, y1 - way[1] * HEAD)
    dx, dy = words.dx, words.dy
    words.pen.stroke(x0 + dx, y0 + dy, base[0] + dx, base[1] + dy, THICK)
    side = (-way[1] * HEAD / 2, way[0] * HEAD / 2)
    points = ((x1, y1), (base[0] + side[0], base[1] + side[1]), (base[0] - side[0], base[1] - side[1]))
    words.pen.shape([(x + dx, y + dy) for x, y in points], 0.0, THIN)


def _names(words: _Words, one: Template) -> None:
    """What falls away, what lies at the edges, and what helping lines say."""
    for label in one.labels:
        # the middle of the letters, not of the baseline
        x, y = label.at
        at = (x + WORD * 0.35, y) if label.turned else (x, y - WORD * 0.35)
        here = words.near(at) if _holds(words.tile.own, label.at) else iter(())
        # a page without it would leave open which side of the cut is kept
        there = _seen(at, one, words.tile) if label.word in WASTE else iter(())
        words.first(chain(here, there), label.word, WORD, label.turned)
    for aid in one.aids:
        middle = ((aid.start[0] + aid.end[0]) / 2, aid.start[1] - WORD * 1.35)
        room = abs(aid.end[0] - aid.start[0])
        if aid.text and width(aid.text, WORD, fonts.BOLD) < room - 0.1 and _holds(words.tile.own, middle):
            words.first([middle], aid.text, WORD)


def _seen(at: Point, one: Template, tile: Tile) -> Iterator[Point]:
    """Places of a page, on the pattern, that no edge and no cut parts from *at* on another page; the nearest first."""
    x0, y0, x1, y1 = one.box()
    own = tile.own
    places = product(_steps(max(x0, own.x0), min(x1, own.x1)), _steps(max(y0, own.y0), min(y1, own.y1)))
    for place in sorted(places, key=lambda place: math.dist(at, place)):
        if not any(_cross(at, place, a, b) for path in (*one.edges, *one.cuts) for a, b in pairwise(path)):
            yield place


def _steps(low: float, high: float) -> list[float]:
    """Places 0.15 apart from *low* to *high*."""
    return [low + 0.15 * i for i in range(int((high - low) / 0.15) + 1)]


def _matches(words: _Words, tile: Tile) -> None:
    """Match lines with their numbers, where their words are clear of all else."""
    shown = tile.shown
    for joint in tile.joints:
        (x0, y0), (x1, y1) = joint.start, joint.end
        words.pen.begin(f"template-match-{joint.number}", f"match line {joint.number}")
        words.pen.stroke(x0 + words.dx, y0 + words.dy, x1 + words.dx, y1 + words.dy, THIN, LONG)
        text = f"MATCH LINE {joint.number}"
        steps = [i / 24 for i in range(25)]
        left, right = -0.06 - SMALL * 0.2, 0.06 + SMALL * 0.8
        own, other = (right, left) if joint.first else (left, right)
        # right beside it, beyond it, or further from it where an arrow stands there
        away = [own, other, *(own + (0.25 if joint.first else -0.25) * i for i in (1, 2, 3))]
        if x0 == x1:
            spots = [(x0 + off, shown.y0 + shown.height * s) for off in away for s in steps]
        else:
            spots = [(shown.x0 + shown.width * s, y0 + off) for off in (0.08, -0.06 - SMALL * 0.8) for s in steps]
        # its number is needed: where all is crossed it stands across lines
        any(words.first(spots, text, SMALL, x0 == x1, lines, joint=True) for lines in (True, False))
        words.pen.end()


def _cross(p: Point, q: Point, a: Point, b: Point) -> bool:
    """Whether the way from *p* to *q* crosses that from *a* to *b*."""

    def side(o: Point, d: Point, x: Point) -> float:
        return (d[0] - o[0]) * (x[1] - o[1]) - (d[1] - o[1]) * (x[0] - o[0])

    return side(p, q, a) * side(p, q, b) < 0 and side(a, b, p) * side(a, b, q) < 0


def parts(path: Path, window: Area) -> Iterator[tuple[Point, Point]]:
    """What of a path is in a window (Liang and Barsky)."""
    for (x0, y0), (x1, y1) in pairwise(path):
        start, end = 0.0, 1.0
        for at, way, low, high in ((x0, x1 - x0, window.x0, window.x1), (y0, y1 - y0, window.y0, window.y1)):
            if abs(way) < 1e-12:
                if not low <= at <= high:
                    end = -1.0
                continue
            a, b = sorted(((low - at) / way, (high - at) / way))
            start, end = max(start, a), min(end, b)
        if end - start > 1e-9:
            yield (
                (x0 + (x1 - x0) * start, y0 + (y1 - y0) * start),
                (x0 + (x1 - x0) * end, y0 + (y1 - y0) * end),
            )
