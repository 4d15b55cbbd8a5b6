"""The audit of walls with openings: nothing in what is printed, and everything that is told wrong."""

from __future__ import annotations

from pathlib import Path

import faults
import opened
import pytest
from opened import WINDOW
from test_wall_openings import LETTER, building, words

from sheets import audit_openings, packet, wall
from sheets.audit import differences


@pytest.mark.parametrize("case", ["through, mirrored", "every board", "inside", "many", "metric"])
def test_the_audit_finds_nothing_in_what_is_printed(case: str, tmp_path: Path) -> None:
    built = packet.build(building(case), LETTER, "walls")
    packet.save(built, tmp_path / "walls")
    assert not differences(built, building(case), tmp_path / "walls")


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        # header and sill from column to column
        ("2 pc  2x6  8'–0\"", "2 pc  2x6  8'–1\"", ""),
        ("2 pc  2x6  8'–0\"", "3 pc  2x6  8'–0\"", ", how many"),
    ],
)
def test_the_audit_finds_a_board_of_an_opening_that_is_told_wrong(
    old: str, new: str, where: str, tmp_path: Path
) -> None:
    made = opened.opened(WINDOW)
    header = next(c.pieces[0].mark for c in made.walls[0].levels)
    spoilt = faults.Bench(made, packet.build(made, LETTER, "walls"), tmp_path / "walls")
    found = spoilt.drawn_wrong(1, faults.edited(spoilt.drawing(1), faults.reads(old, new)))
    assert faults.told(found, f"piece {header}{where}: should be")


@pytest.mark.parametrize("lies", ["inside", "outside"])
def test_the_audit_finds_an_opening_that_is_told_wrong(lies: str) -> None:
    made = opened.opened(WINDOW, lift__lies=lies)
    found = made.walls[0]
    told = words(*(b for b in wall.pages(made, LETTER) if b.title.startswith("Wall A")))
    assert not list(audit_openings.openings(told, found, made))
    edges = [w for w in told if w.startswith("W9 ") and len(w) < 20 and "'" in w]
    assert len(edges) == 2
    for edge in edges:
        wrong = [w.replace("'-4", "'-5") if w == edge else w for w in told]
        assert [what for what, _, _ in audit_openings.openings(wrong, found, made)] == ["opening W9, edge"]
    for right, off in (("bottom 3'-9 1/2\"", "bottom 3'-9\""), ("RO 3'-0 1/2\"", "RO 3'-0\""), (" from A", " from B")):
        wrong = [w.replace(right, off) for w in told]
        assert [what for what, _, _ in audit_openings.openings(wrong, found, made)] == ["opening W9"]


@pytest.mark.parametrize("lies", ["inside", "outside"])
def test_the_audit_finds_a_wrong_face(lies: str) -> None:
    made = opened.opened(WINDOW, lift__lies=lies)
    found = made.walls[0]
    told = words(*(b for b in wall.pages(made, LETTER) if b.title.startswith("Wall A")))
    assert not list(audit_openings.lift(told, found, made))
    swapped = {"INSIDE FACE UP": "OUTSIDE FACE UP", "OUTSIDE FACE UP": "INSIDE FACE UP"}
    wrong = [swapped.get(w, w) for w in told]
    assert [what for what, _, _ in audit_openings.lift(wrong, found, made)] == ["lift", "face"]
