"""Under a wall's grade line: names and offsets of its columns, one line of bays, one line of running dimensions.

Words that would touch their neighbours step down a level; the chain grows with its levels.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.boards import Stand, Wall
from layouts.lengths import Style, show
from sheets.lettering import pt, width, write
from sheets.shapes import HAIR, THIN, Recorder
from sheets.view import View

CAPTION = pt(9)
AIR = 0.06  # between words on one level
BELOW = 0.06  # clear under the lowest column bottom
NEAR = 48.0  # an opening's edge this near to a corner (inches) has words that may stand out beyond it


class Word(Struct, frozen=True):
    """A text centred at *x* on the page."""

    x: float
    text: str

    def wide(self, size: float, cut: str) -> float:
        """Its width."""
        return width(self.text, size, cut)


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
        return levels([(w.x, w.wide(self.size, self.cut)) for w in self.words])

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
        *((Strand("openings", pt(9), fonts.BOLD, 0.16, True, edges, tuple(w.x for w in edges)),) if edges else ()),
    ]
    more = view.larger
    return tuple(replace(s, size=s.size * more, level=s.level * more) for s in found) if more != 1 else tuple(found)


def edge_text(name: str, edge: float, style: Style) -> str:
    """What stands under an edge of a rough opening: whose it is, and where."""
    return f"{name}  {show(edge, style)}"


def _edges(view: View, wall: Wall, style: Style) -> tuple[Word, ...]:
    """The edges of the rough openings, running from the same corner as the columns."""
    places = sorted((edge, o.name) for o in wall.openings for edge in (o.left, o.right))
    return tuple(
        Word(view.at(edge, 0.0)[0], edge_text(name, edge, style))
        for edge, name in places
        if view.low - 1e-6 <= edge <= view.high + 1e-6
    )


def height(view: View, wall: Wall, style: Style) -> float:
    """What the chain takes up under the lowest column bottom."""
    return BELOW + sum(s.tall for s in strands(view, wall, style)) + 0.05


def overhang(wall: Wall, style: Style) -> float:
    """How far words may stand out beyond the first and last column."""
    texts = [(s.name, pt(13)) for s in wall.stands]
    texts += [(show(s.column.offset, style) if s.column else "NO TAG", pt(11)) for s in wall.stands]
    texts += [(show(place(wall, s), style), pt(9)) for s in wall.stands]
    long = wall.line.length
    near = [(o.name, edge) for o in wall.openings for edge in (o.left, o.right) if min(edge, long - edge) < NEAR]
    texts += [(edge_text(name, edge, style), pt(9)) for name, edge in near]
    return max(width(text, size, fonts.BOLD) for text, size in texts) / 2


def draw(pen: Recorder, view: View, wall: Wall, style: Style) -> None:
    """The whole chain."""
    found = strands(view, wall, style)
    left = min(w.x - w.wide(s.size, s.cut) / 2 for s in found for w in s.words)
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
