"""Openings under the picture of their wall: edges, pieces and sizes in words, clear of each other and of strokes."""

from __future__ import annotations

from itertools import pairwise

import boxes
import opened
import pytest
from opened import DOOR, SLIDING, WINDOW, at
from test_wall_openings import AREA, CASES, FOUR, LETTER, LONG, bodies, building, first, pages, words

from layouts.lengths import show
from layouts.pieces import pieces_of
from sheets import boards, chains, wall, wall_below
from sheets.paper import PAPERS
from sheets.wall_labels import labels

# --- under it -------------------------------------------------------------------------------------------------------


def test_edges_run_from_the_same_corner_as_the_columns() -> None:
    # bay 2 from 94 1/2 to 190 1/2: its middle 142 1/2, a window of 3' + 1/2 in from 124 1/4 to 160 3/4
    found, v, body = first(WINDOW)
    strand = chains.strands(v, found, opened.opened(WINDOW).job.style)[4]
    assert [w.text for w in strand.words] == ["W9  10'-4 1/4\"", "W9  13'-4 3/4\""]
    assert strand.ticks == pytest.approx([v.at(124.25, 0)[0], v.at(160.75, 0)[0]])
    assert "Running dimensions from the outside of A7." in " ".join(words(body))


def test_an_opening_is_told_in_words() -> None:
    # sill 3'-6 over a floor of 3 1/2: 45 1/2 = 3'-9 1/2; top 45 1/2 + 36 1/2 = 82 = 6'-10; the sill of 5 1/2 begins
    # at 40 = 3'-4
    _, _, body = first(WINDOW)
    told = words(body)
    line = next(w for w in told if w.startswith("W9 WINDOW 3'-0\""))
    assert line == (
        "W9 WINDOW 3'-0\" x 3'-0\" · RO 3'-0 1/2\" x 3'-0 1/2\" · 10'-4 1/4\" to 13'-4 3/4\" from A7"
        " · bottom 3'-9 1/2\", top 6'-10\" · between A6 and A5"
    )
    said = " ".join(told)
    assert "header 2x6 #" in said
    assert "8'-0\", bottom at 6'-10\";" in said
    assert "8'-0\", bottom at 3'-4\";" in said
    assert "jamb post 2 pc 2x6 #" in said


@pytest.mark.parametrize(
    ("slides", "ends"),
    [
        # bay 2 from 94 1/2 to 190 1/2, its middle 142 1/2: a door of 6' from 106 1/2 to 178 1/2; a lap of 2 to either
        # side makes a leaf of 76, and the track is two leaves: 104 1/2 + 152 = 256 1/2 and 180 1/2 - 152 = 28 1/2
        ("right", "8'-8 1/2\" to 21'-4 1/2\""),
        ("left", "2'-4 1/2\" to 15'-0 1/2\""),
        # two leaves of 36 + 2, twice as much to either side of the middle: 142 1/2 - 76 and 142 1/2 + 76
        ("both", "5'-6 1/2\" to 18'-2 1/2\""),
    ],
)
def test_where_a_track_board_begins_and_ends_is_told(slides: str, ends: str) -> None:
    found, _, body = first({**SLIDING, "slides": slides})
    (track,) = [c for c in found.levels if c.row.key == "track board"]
    (mark,) = {p.mark for p in track.pieces}
    said = " ".join(words(body))
    assert f"along the wall from {ends};" in said
    assert said.index(f"track board 2x6 {mark} ") < said.index(f"along the wall from {ends}")
    assert said.count("along the wall from") == 1


def test_marked_at_the_top_a_header_is_told_by_its_top() -> None:
    # its bottom at 82, its top at 82 + 5 1/2 = 87 1/2 = 7'-3 1/2
    _, _, body = first(WINDOW, girts__edge="top")
    assert "top at 7'-3 1/2\"" in " ".join(words(body))


def test_columns_as_jambs_are_told_to_be_packed() -> None:
    _, _, body = first({**DOOR, "width": "7'", "jambs": "columns"})
    assert "pack the column on its left out by" in " ".join(words(body))


def test_more_words_than_go_under_a_picture_are_overleaf() -> None:
    parts = tuple({**WINDOW, "name": f"W{i}", "width": "2'", "bay": i} for i in range(1, 7))
    made = opened.opened(*parts)
    plan = wall.plot(made, made.walls[0], AREA)
    assert (plan.overleaf, plan.told) == (True, False)
    mine = [b for b in wall.pages(made, LETTER) if b.title.startswith("Wall A")]
    assert "OPENINGS, PIECES AND ROWS: on the sheet Wall A, pieces, lift and nails." in " ".join(words(mine[0]))
    told = words(*(b for b in mine if "pieces" in b.title))
    assert all(any(w.startswith(f"W{i} WINDOW 2'-0\"") for w in told) for i in range(1, 7))


@pytest.mark.parametrize("case", CASES)
def test_every_piece_of_every_kind_is_told_on_its_wall(case: str) -> None:
    style = building(case).job.style
    for found in building(case).walls:
        told = words(*bodies(case, found.name))
        assert [b.mark for b, _ in boards.counted(found)] == sorted(
            {b.mark for b, _ in pieces_of(found)}, key=lambda m: int(m[1:])
        )
        for board, count in boards.counted(found):
            length = show(board.length, style)
            short = f"{count} pc {boards.board_text(board)} {length}"
            assert board.mark in told
            assert short in told or ((board.mark, str(count)) in set(pairwise(told)) and length in told)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("case", CASES)
def test_words_keep_clear_of_each_other_and_of_strokes(case: str, paper: str) -> None:
    for body in pages(case) if paper == "letter" else wall.pages(building(case), PAPERS[paper]):
        assert not boxes.faults(body.drawing, body.paper), body.title
        assert not boxes.crossed(body.drawing.shapes), body.title


# --- at its place ---------------------------------------------------------------------------------------------------


def test_a_door_at_a_corner_keeps_its_words_on_the_page() -> None:
    made = opened.opened({**DOOR, **at("3'"), "name": "D8"})
    body = wall.pages(made, LETTER)[0]
    assert not boxes.faults(body.drawing, body.paper)
    assert any(w.startswith("D8 ") and "WALK" not in w for w in words(body))


def test_openings_take_the_room_they_need() -> None:
    """Pieces go overleaf where the picture would be much smaller with them under it."""
    made = opened.opened(*FOUR, **LONG)
    found = made.walls[0]
    plan = wall.plot(made, found, AREA)
    assert plan.overleaf
    under = wall._plot(made, found, found, AREA, False, True)
    assert under.views[0].scale * wall.SMALLER < plan.views[0].scale
    assert len(boards.counted(found)) > wall_below.TABLE_ROWS
    assert labels(plan.views[0], found).full
