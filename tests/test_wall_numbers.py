"""Every board that is drawn on a wall has its number, and it is clear whose number it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import boxes
import numbered
import opened
import pytest
import stress
import test_wall
import test_wall_openings as walls
from jobs import build
from opened import OVERHEAD, SLIDING
from test_gallery import GALLERY

from sheets import wall
from sheets.frame import Body
from sheets.load import load
from sheets.paper import PAPERS
from sheets.row_names import STARRED
from sheets.wall_labels import SAID

LETTER = PAPERS["letter"]
ONE_SLOPE: dict[str, Any] = {
    "building.width": "20'",
    "building.bays": 4,
    "building.line": "columns",
    "building.front_columns": ["10'"],
    "building.back_columns": ["10'"],
    "truss.bearing": "10'-3",
    "truss.heel": "7 1/4",
    "truss.pitch": "3/12",
    "roof.shape": "mono-slope",
    "roof.overhang": "12",
    "girts.board": "2x6",
    "girts.place": "between",
    "wainscot.nailer": "2x6",
}


def pictures(bodies: Sequence[Body]) -> list[Body]:
    """The pages of walls with boards on them."""
    return [b for b in bodies if list(boxes.groups(b.drawing.shapes, "piece-"))]


def words(body: Body) -> str:
    return " ".join(t.words for t in boxes.written(body.drawing.shapes))


def check(bodies: Sequence[Body], full: int = 0) -> None:
    """Every board has its number; on pages that are *full* at most so many have not, and their rows say so."""
    found = pictures(bodies)
    assert found
    left_out = 0
    for body in found:
        shapes = body.drawing.shapes
        wrong = numbered.faults(shapes)
        missing = [text for text in wrong if text.endswith("a board without a number")]
        assert wrong == missing, body.title
        assert bool(missing) == bool(numbered.rows_overleaf(shapes)) == (STARRED in words(body)), (body.title, missing)
        assert SAID in words(body)
        left_out += len(missing)
    assert left_out <= full


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_every_board_has_its_number(name: str, paper: str) -> None:
    check(test_wall.cased(name, paper))


# rows that run through between windows: the page has no room for the number of one board
FULL = {"through, mirrored": 1}


@pytest.mark.parametrize("case", walls.CASES)
def test_every_board_of_a_wall_with_openings_has_its_number(case: str) -> None:
    check(walls.pages(case), FULL.get(case, 0))


@pytest.mark.parametrize("job", ["cooper", "larkspur"])
def test_every_board_of_the_gallery_has_its_number(job: str) -> None:
    check(wall.pages(load(GALLERY / job / "job.toml"), LETTER))


@pytest.mark.parametrize(
    "changes",
    [
        ONE_SLOPE,
        {**ONE_SLOPE, "girts.place": "both"},
        {"girts.rake": "2x4", "girts.board": "2x6", "truss.pitch": "6/12"},
        {"grade.boards": 2, "girts.place": "inside", "corners.board": "2x6"},
        {"tops.seat": "flat", "carrier.board": "2x12", "carrier.let_in": "0", "girts.board": "2x6"},
    ],
)
def test_every_board_of_other_walls_has_its_number(changes: dict[str, Any]) -> None:
    check(wall.pages(build(changes), LETTER))


def test_what_the_check_finds() -> None:
    shapes = next(b for b in walls.pages("four") if "part" not in b.title or "part 1" in b.title).drawing.shapes
    assert numbered.faults(shapes) == []
    mark = next(boxes.groups(shapes, "number-")).title
    name = f"number-{mark[1:]}"
    assert f"{mark}: a board without a number" in numbered.faults(numbered.without(shapes, name))
    assert f"{mark}: a number at no board" in numbered.faults(numbered.without(shapes, f"piece-{mark[1:]}"))
    assert f"{mark}: words are '#999'" in numbered.faults(numbered.renumbered(shapes, name, "#999"))


def test_two_rows_close_by_do_not_take_the_numbers_of_the_others() -> None:
    """A girt 3 in under the top one, between columns: its numbers are led to it, all of them in full."""
    made = build(ONE_SLOPE)
    found = next(w for w in made.walls if w.name == "C")
    low, top = [c.row for c in found.courses][-2:]
    assert top.low - low.high < 3
    (body,) = pictures([b for b in wall.pages(made, LETTER) if b.title.startswith("Wall C")])
    groups = list(boxes.groups(body.drawing.shapes, "number-"))
    assert len(groups) == sum(len(c.pieces) for c in found.courses)
    assert all("'" in text.words for g in groups for text in boxes.written(g.shapes))


@pytest.mark.parametrize("part", [{**SLIDING, "width": "8'"}, {**OVERHEAD, "width": "10'", "height": "10'"}])
def test_numbers_of_headers_tracks_cripples_and_jambs_are_read(part: dict[str, Any]) -> None:
    """9 pt at the least."""
    made = opened.opened(part, building__bays=4, girts__board="2x6")
    found = next(w for w in made.walls if w.openings)
    mine = {b.mark for b in found.uprights} | {p.mark for c in found.levels for p in c.pieces}
    (body,) = pictures([b for b in wall.pages(made, LETTER) if b.title.startswith("Wall A")])
    texts = [(g.title, t) for g in boxes.groups(body.drawing.shapes, "number-") for t in boxes.written(g.shapes)]
    assert mine <= {mark for mark, _ in texts}
    assert min(t.size for mark, t in texts if mark in mine) >= 9 / 72 - 1e-9
