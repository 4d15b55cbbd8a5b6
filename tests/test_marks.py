"""The mark table: every mark of every column, and a dash where a header or a sill is none of it."""

from __future__ import annotations

import boxes
import opened
from boxes import Written

from layouts.building import Building
from sheets.marks import pages
from sheets.paper import PAPERS


def rows(building: Building) -> dict[str, list[str]]:
    """The lines of the first table by their label: what stands to its right."""
    found: dict[float, list[Written]] = {}
    for text in boxes.written(pages(building, PAPERS["letter"])[0].drawing.shapes):
        found.setdefault(round(text.box.y0, 1), []).append(text)
    lines = [[t.words for t in sorted(line, key=lambda t: t.box.x0)] for line in found.values()]
    return {line[0]: line[1:] for line in lines if len(line) > 6}


def texts(building: Building) -> list[str]:
    return [t.words for p in pages(building, PAPERS["letter"]) for t in boxes.written(p.drawing.shapes)]


def test_a_header_has_a_height_on_its_columns_and_a_dash_on_the_others() -> None:
    """Bay 2 of wall A, between A6 and A5: 85 1/2 and the offset of 2. Columns stand as they are walked, A1 to A6
    first."""
    line = next(cells for label, cells in rows(opened.read(opened.DOOR)).items() if label.startswith("Header D9"))
    assert line == ["–", "–", "–", "–", "7'-3 1/2\"", "7'-3 1/2\""]


def test_only_the_tables_of_its_columns_name_a_header() -> None:
    """24 columns stand in several tables; one of them holds A5 and A6."""
    words = texts(opened.read(opened.DOOR))
    assert sum(w.startswith("Header D9") for w in words) == 1
    assert words.count("–") == 4
    assert "–" not in texts(opened.read())


def test_the_label_says_which_columns() -> None:
    words = " ".join(texts(opened.read(opened.DOOR)))
    assert "Header D9 2x6 bottom: A6, A5, jambs only" in words
