"""The grade sheet of a building as it is drawn: its words, line by line, and the strips of its profile."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import boxes
from jobs import BASE, job

from layouts import book
from layouts.building import Building, lay_out
from layouts.plan import lay
from layouts.readings import of
from sheets.grade_sheet import pages
from sheets.paper import PAPERS
from sheets.shapes import Group, Shape

NAMES = [s.name for s in lay(job()).spots]


def shapes(building: Building, paper: str = "letter") -> list[tuple[Shape, ...]]:
    return [body.drawing.shapes for body in pages(building, PAPERS[paper])]


def words(building: Building, paper: str = "letter") -> list[str]:
    return [t.words for page in shapes(building, paper) for t in boxes.written(page)]


def booked(text: str, changes: Mapping[str, Any] | None = None, *, base: Mapping[str, Any] = BASE) -> Building:
    """A building with its file of readings."""
    made = job(changes, base=base)
    names = [s.name for s in lay(made).spots]
    return lay_out(made, of(book.read(text, names, made.style.unit), made))


def rows(*changed: str, value: str = "45") -> dict[str, str]:
    """The same reading for all but those in ``A1=44 1/2`` form."""
    return dict.fromkeys(NAMES, value) | dict(c.split("=", 1) for c in changed)


def lines_of(building: Building) -> list[list[str]]:
    """Level words line by line, from left to right."""
    found: list[list[str]] = []
    for page in shapes(building):
        rows: dict[float, list[boxes.Written]] = {}
        for text in boxes.written(page):
            if "profile" not in text.groups:
                rows.setdefault(text.line, []).append(text)
        found += [[t.words for t in sorted(rows[y], key=lambda t: t.box.x0)] for y in sorted(rows, reverse=True)]
    return found


def row(building: Building, first: str, least: int = 3) -> list[str]:
    """The first line of a table that begins with *first*."""
    return next(line for line in lines_of(building) if line[0] == first and len(line) >= least)


def strips(building: Building, paper: str = "letter") -> list[Group]:
    """The strips of the profile, in order."""
    return [g for page in shapes(building, paper) for g in boxes.groups(page, "profile")]


def clear(building: Building, paper: str) -> None:
    for body in pages(building, PAPERS[paper]):
        assert not boxes.faults(body.drawing, PAPERS[paper])
        assert not boxes.crossed(body.drawing.shapes)
