"""Under a wall's grade line: names and offsets of its columns, one line of bays, one line of running dimensions.

Words that would touch their neighbours step down a level; the chain grows with its levels. The two edges of an opening
stand on one level: where it is too narrow for that their words stand out from its middle.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.boards import Stand, Wall
from layouts.lengths import Style, show
from layouts.openings import Opening
from sheets.lettering import pt, width, write
from sheets.shapes import HAIR, THIN, Recorder
from sheets.view import LEAST_SCALE, View

CAPTION = pt(9)
EDGE = pt(9)  # of the edges of openings
AIR = 0.06  # between words on one level
BELOW = 0.06  # clear under the lowest column bottom
NEAR = 48.0  # an opening's edge this near to a corner (inches) has words that may stand out beyond it


class Word(Struct, frozen=True):
    """A text centred at *x* on the page; words *of* one thing, one after the other, stand on one level."""

    x: float
    text: str
    of: str = ""

    def wide(self, size: float, cut: str) -> float:
        """Its width."""
        return width(self.text, size, cut)

    def reach(self, size: float, cut: str) -> tuple[float, float]:
        """Where it begins and ends on the page."""
        return self.x - self.wide(size, cut) / 2, self.x + self.wide(size, cut) / 2


class Strand(Struct, frozen=True):
    """One kind of words under the wall: *level* inches from level to level, *ruled* with a dimension line under it,
    whose *ticks* are places on the page (none: those of the columns)."""

    caption: str
    size: float
    cut: str
    level: float
    ruled: bool
    words: tuple[Word, ...]
    ticks: tuple[float, ...] = ()

    def levels(self) -> list[int]:
        """The level each word stands on, 0 the highest."""
        blocks = [list(found) for _, found in groupby(self.words, key=lambda w: w.of or id(w))]
        ends = [(block[0].reach(self.size, self.cut)[0], block[-1].reach(self.size, self.cut)[1]) for block in blocks]
        found = levels([((a + b) / 2, b - a) for a, b in ends])
        return [level for level, block in zip(found, blocks, strict=True) for _ in block]

    @property
    def tall(self) -> float:
        """What it takes up."""
        return self.level * (max(self.levels(), default=0) + 1) + (0.09 if self.ruled else 0.0)


def levels(words: Sequence[tuple[float, float]]) -> list[int]:
    """For words (middle, width) from left to right the first level where each keeps clear of the one before it."""
    ends: list[float] = []
    found = []
    for x, wide in words:
        level = next((i for i, end in enumerate(ends) if x - wide / 2 >= end + AIR), len(ends))
        ends[level:] = [x + wide / 2, *ends[level + 1 :]]
        found.append(level)
    return found


def place(wall: Wall, stand: Stand) -> float:
    """Where a column is dimensioned: corners at their outer face, the others at their centre."""
    if stand is wall.stands[0]:
        return stand.left
    return stand.right if stand is wall.stands[-1] else stand.centre


def strands(view: View, wall: Wall, style: Style) -> tuple[Strand, ...]:
    """All words under the stretch of wall that *view* shows."""
    seen = [s for s in wall.stands if view.low - 1e-6 <= place(wall, s) <= view.high + 1e-6]
    at = [view.at(s.centre, 0.0)[0] for s in seen]
    places = [place(wall, s) for s in seen]
    offsets = [show(s.column.offset, style) if s.column else "NO TAG" for s in seen]
    bays = [Word(view.at((a + b) / 2, 0.0)[0], show(b - a, style)) for a, b in pairwise(places)]
    names = tuple(Word(x, s.name) for x, s in zip(at, seen, strict=True))
    running = tuple(Word(x, show(p, style)) for x, p in zip(at, places, strict=True))
    edges = _edges(view, wall, style)
    found = [
        Strand("column", pt(13), fonts.BOLD, 0.19, False, names),
        Strand("offset", pt(11), fonts.BOLD, 0.24, False, tuple(map(Word, at, offsets))),
        Strand("bays", pt(9), fonts.REGULAR, 0.16, True, tuple(bays)),
        Strand("running", pt(9), fonts.BOLD, 0.16, True, running),
        *((Strand("openings", EDGE, fonts.BOLD, 0.16, True, edges, _ticks(view, wall)),) if edges else ()),
    ]
    more = view.larger
    return tuple(replace(s, size=s.size * more, level=s.level * more) for s in found) if more != 1 else tuple(found)


def edge_text(name: str, edge: float, style: Style) -> str:
    """What stands under an edge of a rough opening: whose it is, and where."""
    return f"{name}  {show(edge, style)}"


def _edges(view: View, wall: Wall, style: Style) -> tuple[Word, ...]:
    """The edges of the rough openings, running from the same corner as the columns."""
    found: list[Word] = []
    for opening in sorted(wall.openings, key=lambda o: (o.left, o.right)):
        words = [
            Word(view.at(edge, 0.0)[0], edge_text(opening.name, edge, style), opening.name)
            for edge in (opening.left, opening.right)
            if view.low - 1e-6 <= edge <= view.high + 1e-6
        ]
        if len(words) == 2:
            left, right = words
            wide = [w.wide(EDGE * view.larger, fonts.BOLD) for w in words]
            by = _aside(wide, right.x - left.x)
            words = [replace(left, x=left.x - by), replace(right, x=right.x + by)]
        found += words
    return tuple(found)


def _ticks(view: View, wall: Wall) -> tuple[float, ...]:
    """Where these edges are on the page, from left to right."""
    places = sorted(edge for o in wall.openings for edge in (o.left, o.right))
    return tuple(view.at(edge, 0.0)[0] for edge in places if view.low - 1e-6 <= edge <= view.high + 1e-6)


def _aside(wide: Sequence[float], apart: float) -> float:
    """How far two words so *wide*, centred at places so far *apart*, give way to both sides to keep clear."""
    return max(sum(wide) / 2 + AIR - apart, 0.0) / 2


def height(view: View, wall: Wall, style: Style) -> float:
    """What the chain takes up under the lowest column bottom."""
    return BELOW + sum(s.tall for s in strands(view, wall, style)) + 0.05


def overhang(wall: Wall, style: Style) -> float:
    """How far words may stand out beyond the first and last column."""
    texts = [(s.name, pt(13)) for s in wall.stands]
    texts += [(show(s.column.offset, style) if s.column else "NO TAG", pt(11)) for s in wall.stands]
    texts += [(show(place(wall, s), style), pt(9)) for s in wall.stands]
    out = max(width(text, size, fonts.BOLD) for text, size in texts) / 2
    return max([out, *(_stands_out(wall, o, style) for o in wall.openings)])


def _stands_out(wall: Wall, opening: Opening, style: Style) -> float:
    """How far the words of an opening's edges may do so: on the smallest picture they stand farthest apart."""
    edges = opening.left, opening.right
    wide = [width(edge_text(opening.name, edge, style), EDGE, fonts.BOLD) for edge in edges]
    aside = _aside(wide, (opening.right - opening.left) * LEAST_SCALE)
    in_by = opening.left, wall.line.length - opening.right
    near = [w / 2 for w, edge in zip(wide, edges, strict=True) if min(edge, wall.line.length - edge) < NEAR]
    return max([0.0, *near, *(w / 2 + aside - by * LEAST_SCALE for w, by in zip(wide, in_by, strict=True))])


def draw(pen: Recorder, view: View, wall: Wall, style: Style) -> None:
    """The whole chain."""
    found = strands(view, wall, style)
    left = min(w.reach(s.size, s.cut)[0] for s in found for w in s.words)
    caption = min(left, view.at(view.low, 0.0)[0] - 0.12) - 0.1
    ends = [
        view.at(place(wall, s), 0.0)[0] for s in wall.stands if view.low - 1e-6 <= place(wall, s) <= view.high + 1e-6
    ]
    y = view.foot - BELOW
    for strand in found:
        first = y - strand.size * 0.9 - 0.03
        write(pen, caption, first, strand.caption, CAPTION, align="right")
        for word, level in zip(strand.words, strand.levels(), strict=True):
            write(pen, word.x, first - level * strand.level, word.text, strand.size, strand.cut, "center")
        y -= strand.tall
        if strand.ruled:
            _rule(pen, strand.ticks or ends, y + 0.05)


def _rule(pen: Recorder, ends: Sequence[float], y: float) -> None:
    """A dimension line with a slanted tick at every column."""
    pen.stroke(ends[0], y, ends[-1], y, HAIR)
    for x in ends:
        pen.stroke(x - 0.03, y - 0.03, x + 0.03, y + 0.03, THIN)
