"""Where the words of a drawing stand: ink boxes of every text as it is written, and what they may not do.

A text is a lone ``Text`` or a ``Group`` called ``text`` (a length with its stacked fraction). Its box is the ink above
and below the baseline and the advance along it; a text turned 90 degrees reads up the page.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from sheets.lettering import extent
from sheets.paper import Paper
from sheets.shapes import Drawing, Group, Line, Polygon, Shape, Text, flat

TOUCH = 0.005  # inches that two boxes may share: advance boxes end beyond the ink
POINT = 1 / 72


@dataclass(frozen=True)
class Box:
    """A rectangle: left, bottom, right, top, inches."""

    x0: float
    y0: float
    x1: float
    y1: float

    def shares(self, other: Box, touch: float = TOUCH) -> bool:
        """Whether the two lie in one another by more than *touch* both ways."""
        across = min(self.x1, other.x1) - max(self.x0, other.x0)
        up = min(self.y1, other.y1) - max(self.y0, other.y0)
        return across > touch and up > touch

    def holds(self, other: Box, touch: float = TOUCH) -> bool:
        """Whether *other* lies inside."""
        return (
            self.x0 - touch <= other.x0
            and self.y0 - touch <= other.y0
            and other.x1 <= self.x1 + touch
            and other.y1 <= self.y1 + touch
        )


@dataclass(frozen=True)
class Written:
    """A text as it is written: its *box*, the *words*, the *size* of the line (em, inches), the *groups* it is in,
    outermost first, and where its *line* stands (baseline, to a thousandth; of a turned one its left end)."""

    box: Box
    words: str
    size: float
    groups: tuple[str, ...]
    line: float


@lru_cache(maxsize=20000)
def _ink(text: str, size: float, cut: str) -> tuple[float, float, float]:
    return extent(text, size, cut, fractions=False)


def _run(text: Text) -> Box:
    wide, above, below = _ink(text.text, text.size, text.cut)
    if text.turn == 90:
        return Box(text.x - above, text.y, text.x + below, text.y + wide)
    return Box(text.x, text.y - below, text.x + wide, text.y + above)


def _around(boxes: Sequence[Box]) -> Box:
    return Box(min(b.x0 for b in boxes), min(b.y0 for b in boxes), max(b.x1 for b in boxes), max(b.y1 for b in boxes))


def of_shape(shape: Shape) -> Box:
    """The box of anything drawn, widths of strokes left out."""
    if isinstance(shape, Text):
        return _run(shape)
    if isinstance(shape, Line):
        xs, ys = (shape.x0, shape.x1), (shape.y0, shape.y1)
        return Box(min(xs), min(ys), max(xs), max(ys))
    if isinstance(shape, Polygon):
        return Box(
            min(x for x, _ in shape.points),
            min(y for _, y in shape.points),
            max(x for x, _ in shape.points),
            max(y for _, y in shape.points),
        )
    return _around([of_shape(s) for s in shape.shapes])


def written(shapes: Iterable[Shape], groups: tuple[str, ...] = ()) -> Iterator[Written]:
    """Every text in *shapes*."""
    for shape in shapes:
        if isinstance(shape, Text):
            yield Written(_run(shape), shape.text, shape.size, groups, round(shape.y, 3))
        elif isinstance(shape, Group) and shape.name == "text":
            runs = [s for s in flat(shape.shapes) if isinstance(s, Text)]
            base = max(runs, key=lambda r: r.size)  # the figures of a fraction are smaller and stand off the line
            yield Written(of_shape(shape), shape.title, base.size, groups, round(base.y, 3))
        elif isinstance(shape, Group):
            yield from written(shape.shapes, (*groups, shape.name))


def groups(shapes: Iterable[Shape], prefix: str = "", holds: str = "") -> Iterator[Group]:
    """Every group, however deep, whose name begins with *prefix* and holds *holds*."""
    for shape in shapes:
        if isinstance(shape, Group):
            if shape.name.startswith(prefix) and holds in shape.name:
                yield shape
            yield from groups(shape.shapes, prefix, holds)


def lines(shapes: Iterable[Shape]) -> list[Line]:
    """Every stroke, groups opened."""
    return [s for s in flat(shapes) if isinstance(s, Line)]


def overlaps(texts: Sequence[Written]) -> list[str]:
    """Pairs of texts that lie in one another."""
    found = []
    ordered = sorted(texts, key=lambda t: t.box.y0)
    for i, a in enumerate(ordered):
        for b in ordered[i + 1 :]:
            if b.box.y0 >= a.box.y1:
                break
            if a.box.shares(b.box):
                found.append(f"{a.words!r} on {b.words!r}")
    return found


def outside(texts: Iterable[Written], frame: Box) -> list[str]:
    """Texts that do not lie inside *frame*."""
    return [f"{t.words!r} {t.box} leaves {frame}" for t in texts if not frame.holds(t.box)]


def small(texts: Iterable[Written], least: float = 6.0) -> list[str]:
    """Texts under *least* points."""
    return [f"{t.words!r} {t.size / POINT:.1f} pt" for t in texts if t.size < least * POINT - 1e-9]


def crossed(shapes: Iterable[Shape], touch: float = TOUCH) -> list[str]:
    """Texts that an upright or level stroke runs through; what is under a text's own white ground does not."""
    found = []
    drawn = list(_in_order(shapes))
    straight = [(i, s, of_shape(s)) for i, s in enumerate(drawn) if isinstance(s, Line) and _straight(s)]
    grounds = [(i, of_shape(s)) for i, s in enumerate(drawn) if isinstance(s, Polygon) and s.grey == 1.0]
    for text in [t for t in drawn if isinstance(t, Written)]:
        box = text.box
        inner = Box(box.x0 + touch, box.y0 + touch, box.x1 - touch, box.y1 - touch)
        over = max((i for i, ground in grounds if ground.holds(box, 0.02)), default=-1)
        for i, stroke, at in straight:
            if i > over and at.x0 < inner.x1 and inner.x0 < at.x1 and at.y0 < inner.y1 and inner.y0 < at.y1:
                found.append(f"{text.words!r} crossed by {stroke}")
    return found


def _straight(stroke: Line) -> bool:
    return stroke.x0 == stroke.x1 or stroke.y0 == stroke.y1


def _in_order(shapes: Iterable[Shape]) -> Iterator[Written | Line | Polygon]:
    """Everything as it is drawn, texts whole."""
    for shape in shapes:
        if isinstance(shape, Text) or (isinstance(shape, Group) and shape.name == "text"):
            yield from written([shape])
        elif isinstance(shape, Group):
            yield from _in_order(shape.shapes)
        else:
            yield shape


def page(paper: Paper) -> Box:
    """What may be drawn on: everything inside the margins."""
    m = paper.margin
    return Box(m, m, paper.width - m, paper.height - m)


def faults(drawing: Drawing, paper: Paper) -> list[str]:
    """What is wrong with the words of a finished page of any kind."""
    texts = list(written(drawing.shapes))
    return [*overlaps(texts), *outside(texts, page(paper)), *small(texts)]
