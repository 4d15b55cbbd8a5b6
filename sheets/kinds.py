"""Which kinds of sheets there are, and the sheets of each kind, drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from msgspec.structs import replace

from layouts.building import Building
from sheets import cladding, cuts, field, grade_sheet, marks, rod, roof_sheet, tag, templates, wall
from sheets.frame import Body, stamp, words
from sheets.held import PARTED, Held
from sheets.paper import PAPERS, Paper
from sheets.steps import Count, Step, untold

KINDS: dict[str, Callable[[Building, Paper], list[Body]]] = {
    "field": field.pages,
    "grade": grade_sheet.pages,
    "rods": rod.pages,
    "tags": tag.pages,
    "walls": wall.pages,
    "roof": roof_sheet.pages,
    "templates": templates.pages,
    "cladding": cladding.pages,
    "cuts": lambda building, paper: [*cuts.pages(building, paper), *marks.pages(building, paper)],
}
LONG = {"rods", "tags"}  # to draw, each a fifth or a quarter of the whole
NOTHING: dict[str, Callable[[Paper], list[Body]]] = {"templates": templates.nothing, "cladding": cladding.nothing}
"""What is printed of a kind that is asked for alone where a job has nothing of it."""


def stamps_of(bodies: Iterable[Body]) -> list[tuple[str, str, str]]:
    """Kind, title and stamp of every one of them; a page of tags or lanes is told part by part."""
    return [
        (body.kind, title, code)
        for body in bodies
        for title, code in body.parts or ((body.title, stamp(words(body.drawing.shapes))),)
    ]


def usual_sheet(building: Building, paper: Paper) -> Paper:
    """What all but the rods are printed on."""
    usual = PAPERS["a4" if building.job.job.units == "metric" else "letter"]
    return replace(usual, margin=paper.margin) if paper.roll else paper


def bodies_of(building: Building, paper: Paper, kinds: Iterable[str], held: Held | None = None) -> list[Body]:
    """The sheets of these *kinds*, or what of them is *held*: tags, rods and walls one by one, other kinds whole."""
    sheet = usual_sheet(building, paper)
    part = held.part(building) if held else building
    found: list[Body] = []
    for kind in kinds:
        if kind in PARTED:
            found += KINDS[kind](part, paper if kind == "rods" else sheet)
        elif held is None or kind in held.kinds:
            found += KINDS[kind](building, sheet)
    return found


def drawing(
    building: Building, paper: Paper, kinds: Sequence[str], held: Held | None = None, step: Step = untold
) -> dict[str, Callable[[], list[Body]]]:
    """What draws the sheets of each of these *kinds* (``bodies_of``), those first that take long. *step* is told
    whenever one is begun in this process."""
    count = Count(step, "Drawing the sheets", len(kinds))

    def draw(kind: str) -> list[Body]:
        count.more()
        return bodies_of(building, paper, [kind], held)

    return {kind: partial(draw, kind) for kind in sorted(kinds, key=lambda kind: kind not in LONG)}
