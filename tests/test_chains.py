"""Words under a wall of narrow openings: an opening's two edges side by side; no number beyond the picture."""

from __future__ import annotations

from itertools import pairwise

import boxes
import opened
import pytest
from opened import WINDOW, at
from test_wall_openings import AREA, LETTER, first

import fonts
from layouts.lengths import Style
from sheets import chains, wall
from sheets.chains import Strand, Word
from sheets.grid import Grid

NARROW = {**WINDOW, "width": "16", "height": "2' 6"}
BOTH = (("W", 24), ("V", 60))
MANY = tuple({**NARROW, "name": f"{w}{i}", **at(f"{place + 96 * i}")} for i in range(6) for w, place in BOTH)
"""Two windows of 16 inches in every bay of a wall."""


def test_words_of_one_opening_stand_on_one_level() -> None:
    """One word of 1 inch at 0 and one that begins there: a second level. The pair is 2.1 wide and stands on it whole,
    though its second word would go on the first."""
    wide = Word(0.0, "0").wide(1.0, fonts.BOLD)
    words = (Word(0.0, "0"), Word(wide * 0.6, "0", "W"), Word(wide * 1.8, "0", "W"), Word(wide * 4.0, "0", "V"))
    assert Strand("", 1.0, fonts.BOLD, 0.2, True, words).levels() == [0, 1, 1, 0]
    alone = tuple(Word(w.x, w.text) for w in words)
    assert Strand("", 1.0, fonts.BOLD, 0.2, True, alone).levels() == [0, 1, 0, 0]


@pytest.mark.parametrize(
    ("wide", "apart", "aside"),
    [
        ((0.6, 0.7), 0.5, 0.105),  # half of 0.65 + 0.06 - 0.5
        ((0.6, 0.7), 0.71, 0.0),
        ((0.6, 0.7), 3.0, 0.0),
    ],
)
def test_how_far_they_give_way(wide: tuple[float, float], apart: float, aside: float) -> None:
    assert chains._aside(wide, apart) == pytest.approx(aside)


def test_many_narrow_openings_are_read_one_after_the_other() -> None:
    """Left edge, then right edge, each over its own tick, on as few levels as there are openings in the way."""
    found, view, body = first(*MANY)
    strand = chains.strands(view, found, Style())[4]
    reach = [word.reach(strand.size, strand.cut) for word in strand.words]
    assert [w.of for w in strand.words[::2]] == [w.of for w in strand.words[1::2]]
    assert [a[1] + chains.AIR for a in reach[::2]] == pytest.approx([b[0] for b in reach[1::2]])
    levels = strand.levels()
    assert levels[::2] == levels[1::2]
    assert max(levels) == 2  # a pair is about 1.4 wide, and another begins every 0.6
    assert all(low < tick < high for (low, high), tick in zip(reach, strand.ticks, strict=True))
    for level in set(levels):
        on = [ends for ends, own in zip(reach, levels, strict=True) if own == level]
        assert all(a[1] + chains.AIR <= b[0] + 1e-9 for a, b in pairwise(on))
    written = list(boxes.written(body.drawing.shapes))
    assert boxes.overlaps(written) == []


def test_no_number_stands_beyond_the_picture() -> None:
    """Where there is no room near a board, its number went out over the arrow at the right."""
    made = opened.read(*({**part, "sill": "40"} for part in MANY))
    view, body = wall.plot(made, made.walls[0], AREA).views[0], wall.pages(made, LETTER)[0]
    numbers = [boxes.of_shape(group) for group in boxes.groups(body.drawing.shapes, "number-")]
    assert len(numbers) > 60
    assert max(number.x1 for number in numbers) <= view.right + 1e-9


def test_what_is_beyond_a_grid_is_taken_however_far() -> None:
    """A grid of 1 inch, 100 cells; a box of 10 cells goes at the first 91, and at none of a thousand beyond."""
    for row in Grid((0.0, 0.0, 1.0, 1.0)).blocked(0.1, 0.1, 0.0, 1.0).values():
        assert [row >> i & 1 for i in range(1100)] == [0] * 91 + [1] * 1009
