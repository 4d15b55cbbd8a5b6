"""What the audit compares: pages as they were read from a finished file, and pages as they should be.

Inches, y up. A page that was read is three flat lists, in the order of the file: strokes, outlines, runs of words. A
``Plan`` is a drawing in the same three lists, with its groups as stretches of them, so that what was found can be told
by the name of the group it belongs to.
"""

from __future__ import annotations

import math
import re
from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from msgspec import Struct, field

from layouts.lengths import Style, show
from sheets.language import source
from sheets.lettering import face
from sheets.shapes import Drawing, Group, Line, Polygon, Shape, Text

NEAR = 0.001  # inches: the promise

Numbers = tuple[float, ...]

_COMMAND = re.compile("([MLHVQC])([^A-Z]*)")
_VALUE = re.compile("-?[0-9.]+")


class Difference(Struct, frozen=True):
    """What a finished file does not hold as it should: the *sheet* (file and page), the *place* on it, what was to be
    there and what was *found*."""

    sheet: str
    place: str
    want: str
    found: str

    def __str__(self) -> str:
        return f"{self.sheet}: {self.place}: should be {self.want}, is {self.found}"


class Run(NamedTuple):
    """Words of one size on one line: the left end of the baseline, the *size* (em), 1 in *turned* if they read up the
    page, *grey* 0 (black) to 1, how far their ink reaches along the line, and the words that the file gives a reader
    for them (``None``: none)."""

    x: float
    y: float
    size: float
    turned: float
    grey: float
    words: str
    wide: float
    typed: str | None


class Read(Struct):
    """A page as it was read. A stroke is (x0, y0, x1, y1, width, dashed); an outline is its corners, its grey (-1:
    not filled) and the width of its line (0: none). *under* tells of each outline how many strokes and runs were
    painted before it: one that is filled covers them. *odd* names what has no business on a page of ours."""

    width: float
    height: float
    strokes: list[Numbers] = field(default_factory=list)
    outlines: list[Numbers] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    under: list[tuple[int, int]] = field(default_factory=list)
    odd: list[str] = field(default_factory=list)


class Span(NamedTuple):
    """A group of a drawing: its name and title, and its stretch in each of the three lists."""

    name: str
    title: str
    strokes: tuple[int, int]
    outlines: tuple[int, int]
    runs: tuple[int, int]


class Plan:
    """A drawing laid out for comparison. *units* are runs that belong together: a length with its stacked fraction."""

    def __init__(self, drawing: Drawing) -> None:
        self.drawing = drawing
        self.strokes: list[Numbers] = []
        self.outlines: list[Numbers] = []
        self.runs: list[Run] = []
        self.under: list[tuple[int, int]] = []
        self.cuts: list[str] = []
        self.units: list[tuple[int, int]] = []
        self.spans: list[Span] = []
        self._walk(drawing.shapes)

    def place(self, index: int, part: Callable[[Span], tuple[int, int]]) -> str:
        """The innermost group that a thing belongs to, by its *index* in one of the lists, whose stretch *part* tells:
        groups stand in the order they were opened."""
        inside = [span.name for span in self.spans if part(span)[0] <= index < part(span)[1]]
        return inside[-1] if inside else "page"

    def _walk(self, shapes: Iterable[Shape]) -> None:
        for shape in shapes:
            if isinstance(shape, Text):
                self.units.append((len(self.runs), len(self.runs) + 1))
                self._text(shape, None)
            elif isinstance(shape, Line):
                dashed = 1.0 if shape.dash else 0.0
                self.strokes.append((shape.x0, shape.y0, shape.x1, shape.y1, shape.width, dashed))
            elif isinstance(shape, Polygon):
                self._polygon(shape)
            else:
                self._group(shape)

    def _text(self, shape: Text, typed: str | None) -> None:
        self.cuts.append(shape.cut)
        turned, words = float(shape.turn == 90), " ".join(shape.text.split())
        wide = inked(shape.cut, shape.text.rstrip()) * shape.size
        self.runs.append(Run(shape.x, shape.y, shape.size, turned, shape.grey, words, wide, typed))

    def _polygon(self, shape: Polygon) -> None:
        if shape.grey is None and not shape.width > 0:
            return  # nothing to be seen
        corners = [c for p in shape.points for c in p]
        self.under.append((len(self.strokes), len(self.runs)))
        self.outlines.append((*corners, -1.0 if shape.grey is None else round(shape.grey * 255) / 255, shape.width))

    def _group(self, group: Group) -> None:
        at = len(self.strokes), len(self.outlines), len(self.runs)
        if group.name == "text":
            for shape in group.shapes:
                if isinstance(shape, Text):
                    self._text(shape, group.title)
                else:
                    self._walk([shape])
            self.units.append((at[2], len(self.runs)))
            return
        place = len(self.spans)
        self._walk(group.shapes)
        ends = len(self.strokes), len(self.outlines), len(self.runs)
        ranges = [(a, b) for a, b in zip(at, ends, strict=True)]
        self.spans.insert(place, Span(group.name, group.title, ranges[0], ranges[1], ranges[2]))


@lru_cache(maxsize=2000)
def edge(cut: str, char: str) -> float:
    """How far the ink of a character reaches to the right of where it begins, font units."""
    reached = -math.inf
    for command, numbers in _COMMAND.findall(face(cut).outline(char)):
        values = [float(n) for n in _VALUE.findall(numbers)]
        if command != "V":
            reached = max(reached, *(values if command == "H" else values[::2]))
    return reached


@lru_cache(maxsize=20000)
def inked(cut: str, words: str) -> float:
    """How far the ink of *words* reaches along the line, em: an accent of its own ends before the letter it is on."""
    measured = face(cut)
    at, reached = measured.advance(words), 0.0
    for char in reversed(words[-3:]):
        at -= measured.advances[char]
        reached = max(reached, at + edge(cut, char))
    return reached / measured.units_per_em


@lru_cache(maxsize=20000)
def shown(inches: float, style: Style) -> str:
    """A length as it is printed: asked for again for every file."""
    return show(inches, style)


class Word(NamedTuple):
    """A text as a person reads it, figures and fraction together, its place, its size and what it takes up."""

    text: str
    x: float
    y: float
    size: float
    turned: bool
    wide: float


class Seen(Struct):
    """A page of a file held against its plan: everything found, on paper, in the order of the plan; ``None`` where
    something is missing. *label* names the page."""

    label: str
    plan: Plan
    strokes: Sequence[Numbers | None]
    outlines: Sequence[Numbers | None]
    runs: Sequence[Run | None]

    def strokes_in(self, span: Span) -> list[Numbers]:
        """The strokes of a group."""
        return [s for s in self.strokes[span.strokes[0] : span.strokes[1]] if s is not None]

    def edges_in(self, span: Span) -> list[float]:
        """Where upright strokes and the corners of outlines stand in a group."""
        found = [s[0] for s in self.strokes_in(span) if upright(s)]
        for outline in self.outlines[span.outlines[0] : span.outlines[1]]:
            found += outline[:-2:2] if outline else ()
        return found

    def words_in(self, span: Span | None = None) -> list[Word]:
        """The words of a group, or of the page: of those in another language the English they were turned from."""
        units = self.plan.units
        low, high = span.runs if span else (0, len(self.runs))
        found = []
        for a, b in units[bisect_left(units, (low, low)) :]:
            if b > high:
                break
            runs = [run for run in self.runs[a:b] if run is not None]
            if runs:
                word = spelled(runs)
                found.append(word._replace(text=source(word.text)))
        return found

    def spans(self, inside: Span | None = None) -> list[Span]:
        """The groups of the page, or those *inside* one of them."""
        if inside is None:
            return self.plan.spans
        return [s for s in self.plan.spans if s is not inside and _holds(inside, s)]


def _holds(outer: Span, inner: Span) -> bool:
    return all(
        a <= c and d <= b
        for (a, b), (c, d) in (
            (outer.strokes, inner.strokes),
            (outer.outlines, inner.outlines),
            (outer.runs, inner.runs),
        )
    )


def upright(stroke: Numbers) -> bool:
    """Whether a stroke goes straight up the page."""
    return abs(stroke[0] - stroke[2]) < NEAR / 2 < abs(stroke[1] - stroke[3])


SMALL = 0.8  # of the line's size: smaller figures are of a fraction
_DASH = re.compile("'–(?=[0-9])")


def spelled(runs: Sequence[Run]) -> Word:
    """What *runs* say to the eye: figures that stand one above the other are a fraction, the dash after feet is the
    hyphen of a typed length. Nothing is taken from what the file says of them."""
    base = runs[0] if len(runs) == 1 else max(runs, key=lambda r: r.size)
    if len(runs) == 1:
        return Word(_plain(base.words), base.x, base.y, base.size, bool(base.turned), base.wide)
    placed = sorted((along(r), along(r) + r.wide, up(r), r.words, r.size < base.size * SMALL) for r in runs)
    text, at = "", 0
    while at < len(placed):
        start, end, high, words, small = placed[at]
        after = placed[at + 1] if at + 1 < len(placed) else None
        if small and after and after[4] and after[0] < end and start < after[1]:
            over, under = (words, after[3]) if high > after[2] else (after[3], words)
            before = placed[at - 1][1] if at else start
            text += f"{' ' if text[-1:].isdigit() else _gap(before, start, base)}{over.strip()}/{under.strip()}"
            at += 1
        else:
            text += words
        at += 1
    first = min(runs, key=along)
    wide = max(p[1] for p in placed) - placed[0][0]
    return Word(_plain(text), first.x, base.y, base.size, bool(base.turned), wide)


def _plain(words: str) -> str:
    """Words as they are typed: PDFium ends some runs with a space of its own."""
    return " ".join((_DASH.sub("'-", words) if "–" in words else words).split())


def _gap(end: float, start: float, base: Run) -> str:
    return " " if start - end > base.size * 0.15 else ""


def along(run: Run) -> float:
    """Where a run begins on its line."""
    return run.y if run.turned else run.x


def up(run: Run) -> float:
    """Where its line stands."""
    return -run.x if run.turned else run.y
