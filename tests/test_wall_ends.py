"""What a wall measures from end to end: which of its boards run past the corner columns is said, and agrees with the
boards themselves."""

from __future__ import annotations

from typing import Any

import boxes
import pytest
from jobs import build

from layouts.building import Building
from sheets import wall
from sheets.paper import PAPERS

COLUMNS = {"building.line": "columns"}
BOTH_SIDE = {"girts.runs_past": "side", "girts.grade_board_runs_past": "side"}
CROSSED = {"girts.runs_past": "side", "girts.grade_board_runs_past": "end"}
BETWEEN = {**COLUMNS, "girts.place": "between", "wainscot.nailer": "2x6"}
INSIDE = {**COLUMNS, "girts.place": "inside", "wainscot.nailer": "2x6", "girts.runs_past": "end"}

# 32 by 48 ft to the outside of girts 1 1/2 thick: columns 31'-9 by 47'-9; to the columns: 32 by 48, past it 3 more
CASES: list[tuple[dict[str, Any], str, str]] = [
    (
        BOTH_SIDE,
        "Columns out to out 47'-9\"; boards run past to 48'-0\".",
        "Columns out to out 31'-9\"; boards stop at",
    ),
    (
        CROSSED,
        "Out to out: columns 47'-9\"; girts and nailers 48'-0\"; the rest stops at the columns.",
        "Out to out: columns 31'-9\"; grade board 32'-0\"; the rest stops at the columns.",
    ),
    (
        {**BETWEEN, "girts.grade_board_runs_past": "end"},
        "Columns out to out 48'-0\"; boards stop at the columns.",
        "Out to out: columns 32'-0\"; grade board 32'-3\"; the rest stops at the columns.",
    ),
    (
        {**INSIDE, "girts.grade_board_runs_past": "end"},
        "Columns out to out 48'-0\"; boards stop at the columns.",
        "Out to out: columns 32'-0\"; grade board 32'-3\"; wainscot nailer 32'-3\"; the rest stops at the columns.",
    ),
    (
        {**INSIDE, "girts.grade_board_runs_past": "side"},
        "Out to out: columns 48'-0\"; grade board 48'-3\"; the rest stops at the columns.",
        "Out to out: columns 32'-0\"; wainscot nailer 32'-3\"; the rest stops at the columns.",
    ),
    (
        {**COLUMNS, **BOTH_SIDE, "girts.board": "1 1/4 x 3 1/2", "wainscot.nailer": "1 1/4 x 5 1/2"},
        "Out to out: columns 48'-0\"; grade board 48'-3\"; girts and nailers 48'-2 1/2\".",
        "Columns out to out 32'-0\"; boards stop at the columns.",
    ),
    # a nailer thicker than the girts runs past as far as the one that ends behind it is thick
    (
        {**COLUMNS, **BOTH_SIDE, "girts.board": "1 1/4 x 3 1/2", "wainscot.nailer": "2x6"},
        "Out to out: columns 48'-0\"; grade board 48'-3\"; wainscot nailer 48'-3\"; girts and nailers 48'-2 1/2\".",
        "Columns out to out 32'-0\"; boards stop at the columns.",
    ),
]


def said(building: Building, name: str) -> str:
    """The words on the pages of a wall."""
    pages = wall.pages(building, PAPERS["letter"])
    return "  ".join(
        t.words for b in pages if b.title.split(",")[0] == f"Wall {name}" for t in boxes.written(b.drawing.shapes)
    )


@pytest.mark.parametrize(("changes", "side", "end"), CASES)
def test_what_runs_past_is_said(changes: dict[str, Any], side: str, end: str) -> None:
    building = build(changes)
    assert side in said(building, "A")
    assert end in said(building, "1")


def test_a_wainscot_nailer_thicker_than_the_girts_covers_the_end_of_the_other() -> None:
    """Endwall 32 ft over the columns: nailer 1 1/2 thick, girts 1 1/4: 384 + 3 and 384 + 2 1/2 with their pieces."""
    given = {**COLUMNS, "girts.board": "1 1/4 x 3 1/2", "wainscot.nailer": "2x6", "lumber.stock": ["12'", "16'"]}
    building = build(given)
    wall_1 = next(w for w in building.walls if w.name == "1")
    whole = {c.row.name: sum(p.length for p in c.pieces) for c in wall_1.courses}
    assert whole["Wainscot nailer"] == 387.0
    assert whole["Girt 1"] == 386.5
