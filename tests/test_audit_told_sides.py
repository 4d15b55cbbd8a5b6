"""The X of a mark on a rod, held against the side that the board covers: made-up Xs that are right, off and wrong."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import group, line, plan, seen, text, told
from test_audit_told_lanes import CUT, GIRT, INCH, ROD, board, check, cross, first, mark, number, second, up

from sheets import audit_rods
from sheets.shapes import Group, Line, Shape

WORDS = '12"', "GIRT 1 2x4 bottom"
PLACE = "rod, Girt 1, rod-mark-girt"


def girt(*own: Line, words: tuple[str, ...] = WORDS) -> Shape:
    """The first lane, which begins at 1 in, with a girt at 12 and what is drawn beside it."""
    return first(group("rod-mark-girt", up(13.0), *own, *(text(13.1, 1.0 - i * 0.3, w) for i, w in enumerate(words))))


@pytest.mark.parametrize(
    ("start", "found"),
    [
        (13.0, None),
        (13.07, None),
        (13.099, None),
        (13.101, "12.1010 to 12.4010"),
        (12.9, "11.9000 to 12.2000"),
        (12.63, "11.6300 to 11.9300"),
    ],
)
def test_a_board_that_begins_at_its_line_has_its_x_beyond_it(start: float, found: str | None) -> None:
    want = ("p", PLACE, "one X just past 12.0000 in on the tape", f"{found} in on the tape")
    assert check(girt(*cross(start)), second()) == ([] if found is None else [want])


@pytest.mark.parametrize(("start", "found"), [(12.63, None), (13.07, "12.0700 to 12.3700")])
def test_a_board_that_ends_at_its_line_has_its_x_before_it(start: float, found: str | None) -> None:
    """The same board from 8 1/2 to 12, marked at its top edge."""
    top = replace(GIRT, low=8.5, high=12.0, edge="top")
    rod = replace(ROD, marks=(top, *ROD.marks[1:]))
    lane = group("b", line(9.5, 0, 9.5, 1)), girt(*cross(start), words=('12"', "GIRT 1 2x4 top"))
    want = ("p", PLACE, "one X just short of 12.0000 in on the tape", f"{found} in on the tape")
    made = replace(lane[1], shapes=(*lane[1].shapes, *lane[0].shapes))  # type: ignore[union-attr]
    assert check(made, second(), rod=rod) == ([] if found is None else [want])


def test_an_x_that_is_missing_twice_or_half() -> None:
    past = "one X just past 12.0000 in on the tape"
    assert check(girt(), second()) == [("p", PLACE, past, "none")]
    assert check(girt(cross(13.07)[0]), second()) == [("p", PLACE, past, "none")]
    two = "12.0700 to 12.3700 in on the tape and 12.5000 to 12.8000 in on the tape"
    assert check(girt(*cross(13.07), *cross(13.5)), second()) == [("p", PLACE, past, two)]


def test_a_cut_has_no_x() -> None:
    made = mark(6.0, "bearing", '20"', "BEARING centre ply")
    wrong = replace(made, shapes=(*made.shapes, *cross(6.07)))
    want = ("p", "rod, Bearing, rod-mark-bearing", "no X", "20.0700 to 20.3700 in on the tape")
    assert check(first(), second(wrong)) == [want]


def test_of_two_groups_on_one_line_the_one_with_its_x_is_the_marks() -> None:
    """A rod in one piece has its words in a layer of their own: they tell nothing of which group is whose."""
    at = replace(CUT, station=12.0, low=12.0, high=12.0)
    rod = replace(ROD, marks=(at, GIRT))
    board_, cut = Group("rod-mark-girt", (up(13.0), *cross(13.07))), Group("rod-mark-bearing", (up(13.0),))
    words = [text(13.1, 1.0 - i * 0.2, one) for i, one in enumerate((*WORDS, "BEARING centre ply"))]
    own = up(1.0), up(27.0), number(1.05, "0"), number(26.7, "26"), board(13.0)
    for pair in ((board_, cut), (cut, board_)):
        made = seen(plan(*own, *pair, *words, width=40.0), "rod.svg")
        assert told(audit_rods.whole(made, rod, INCH)) == []
