"""Made-up pages for tests of the audit: what is drawn, what is read, and a page held against its drawing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

import faults

import fonts
from layouts.building import Building
from sheets.audit_model import Difference, Plan, Read, Run, Seen, Word, inked
from sheets.packet import build
from sheets.paper import PAPERS
from sheets.shapes import Drawing, Group, Line, Shape, Text

Told = tuple[str, str, str, str]
DASH = (0.1, 0.1)


def told(found: Iterable[Difference]) -> list[Told]:
    """All four fields of every difference."""
    return [(d.sheet, d.place, d.want, d.found) for d in found]


def plan(*shapes: Shape, width: float = 8.0, height: float = 6.0) -> Plan:
    """A drawing laid out for comparison."""
    return Plan(Drawing(width, height, shapes))


def text(x: float, y: float, words: str, size: float = 0.2, turn: int = 0, grey: float = 0.0) -> Text:
    """Bold words."""
    return Text(x, y, words, size, fonts.BOLD, turn, grey)


def line(x0: float, y0: float, x1: float, y1: float, width: float = 0.01, dash: tuple[float, ...] = ()) -> Line:
    """A stroke of a hundredth."""
    return Line(x0, y0, x1, y1, width, dash)


def group(name: str, *shapes: Shape, title: str = "") -> Group:
    """Shapes under a name."""
    return Group(name, shapes, title)


def ink(words: str, size: float = 0.2, cut: str = fonts.BOLD) -> float:
    """How far words reach along their line, inches."""
    return inked(cut, words) * size


def as_read(of: Plan) -> Read:
    """The page that holds what was drawn and nothing else."""
    return Read(of.drawing.width, of.drawing.height, [*of.strokes], [*of.outlines], [*of.runs], [*of.under])


def seen(of: Plan, label: str = "page") -> Seen:
    """The page where all of it was found."""
    return Seen(label, of, [*of.strokes], [*of.outlines], [*of.runs])


def word(words: str, x: float, y: float, turned: bool = False, wide: float = 0.5, size: float = 0.2) -> Word:
    """A text as a person reads it."""
    return Word(words, x, y, size, turned, wide)


def run(words: str, x: float = 0.0, y: float = 0.0, size: float = 0.2, wide: float = 0.5, turned: float = 0.0) -> Run:
    """Black words that nothing is told to copy for."""
    return Run(x, y, size, turned, 0.0, words, wide, None)


def reworded(page: Seen, old: str, new: str, count: int = 1, after: int = 0) -> Seen:
    """A page whose first *count* runs *old*, from the run *after* on, read *new*; the length of the ink stays."""
    runs = list(page.runs)
    hits = [i for i, one in enumerate(runs) if i >= after and one is not None and one.words == old][:count]
    assert len(hits) == count, f"{old} stands there {len(hits)} times"
    for i in hits:
        one = runs[i]
        assert one is not None
        runs[i] = one._replace(words=new)
    return Seen(page.label, page.plan, page.strokes, page.outlines, runs)


def without_runs(page: Seen, gone: Sequence[int]) -> Seen:
    """A page that lacks some of its runs."""
    runs = [None if i in gone else one for i, one in enumerate(page.runs)]
    return Seen(page.label, page.plan, page.strokes, page.outlines, runs)


@cache
def small() -> Building:
    """The small building of the faults."""
    return faults.small()


@cache
def drawn(kind: str) -> tuple[tuple[str, Plan], ...]:
    """Its sheets of one kind: their titles, and what is on them."""
    return tuple((sheet.title, Plan(sheet.page.drawing)) for sheet in build(small(), PAPERS["letter"], kind).sheets)


def sheets(kind: str) -> list[Seen]:
    """The same, found as they were drawn; their labels are their numbers."""
    return [seen(of, f"p{number}") for number, (_, of) in enumerate(drawn(kind), 1)]


def titled(building: Building, kind: str) -> list[tuple[str, Plan]]:
    """The sheets of one kind of another building: their titles, and what is on them."""
    return [(sheet.title, Plan(sheet.page.drawing)) for sheet in build(building, PAPERS["letter"], kind).sheets]


def plan_of(building: Building, kind: str) -> list[Plan]:
    """What is on them."""
    return [one for _, one in titled(building, kind)]
