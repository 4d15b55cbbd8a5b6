"""Rods against the layout, lane by lane: made-up lanes, numbers and marks that are right, a little off and wrong."""

from __future__ import annotations

import faults
import pytest
from msgspec.structs import replace
from pages_seen import group, line, plan, seen, text, told, word

from layouts.building import Building
from layouts.lengths import Style
from layouts.rods import Mark, Rod
from sheets import audit_rods
from sheets.audit_model import NEAR, Seen
from sheets.audit_rods import _Lane
from sheets.shapes import Group, Line, Polygon, Shape

INCH, METRIC = Style(), Style("mm")
WITHIN, BEYOND = NEAR * 0.99, NEAR * 1.01
GIRT = Mark("Girt 1", "board", 12.0, 12.0, 15.5, "bottom", "2x4")
CUT = Mark("Bearing", "cut", 20.0, 20.0, 20.0, "line", "", "centre ply")
ROD = Rod("rod", ("A",), False, (GIRT, CUT), 26.0)


def number(x: float, words: str, y: float = 1.5) -> Shape:
    """A tape number."""
    return group("tape-number", text(x, y, words))


def up(x: float, low: float = 0.0, high: float = 2.0) -> Line:
    """A stroke straight up."""
    return line(x, low, x, high)


def cross(x: float) -> tuple[Line, Line]:
    """An X from *x* on."""
    return line(x, 0.2, x + 0.3, 0.5), line(x, 0.5, x + 0.3, 0.2)


def mark(x: float, name: str, *words: str) -> Group:
    """The group of a mark; a board's has its X."""
    own = () if name == "bearing" else cross(x + 0.07)
    written = (text(x + 0.1, 1.0 - i * 0.3, one) for i, one in enumerate(words))
    return group(f"rod-mark-{name}", up(x), *own, *written)


def lane(index: int, *shapes: Shape) -> Group:
    return group(f"rod-lane-{index}", *shapes)


def board(low: float) -> Polygon:
    """A footprint of 3.5."""
    return Polygon(((low, 0.0), (low + 3.5, 0.0), (low + 3.5, 1.0)), 0.5)


def first(*more: Shape) -> Shape:
    """From 0 at 1 in to 16 at 17 in, with the girt at 12."""
    own = up(1.0), up(17.0), number(1.05, "0"), number(16.7, "16"), board(13.0)
    return lane(1, *own, *(more or (mark(13.0, "girt", '12"', "GIRT 1 2x4 bottom"),)))


def second(*more: Shape) -> Shape:
    """The last, from 16 at 2 in to 26 at 12 in, with the cut at 20."""
    return lane(
        2,
        up(2.0),
        up(12.0),
        number(2.05, "16"),
        number(11.7, "26"),
        *(more or (mark(6.0, "bearing", '20"', "BEARING centre ply"),)),
    )


def page(*shapes: Shape) -> Seen:
    return seen(plan(*shapes, width=40.0), "p")


def built(rod: Rod = ROD, style: Style = INCH) -> Building:
    """A building of one rod."""
    made = faults.small(metric=style == METRIC)
    return replace(made, rods=(rod,))


def check(*shapes: Shape, rod: Rod = ROD) -> list[tuple[str, str, str, str]]:
    return told(audit_rods.check([page(*shapes)], built(rod), "rods.pdf"))


def test_a_rod_that_is_right() -> None:
    assert check(first(), second()) == []
    assert told(audit_rods.check([page(first()), page(second())], built(), "rods.pdf")) == []


# --- tape numbers ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shapes", "want", "found"),
    [
        ((up(1.0),), "one or two tape numbers", "0"),
        ((up(1.0), number(1.05, "0"), number(5.0, "1"), number(8.0, "2"), up(5.2)), "one or two tape numbers", "3"),
        ((up(1.0), number(1.05, "0x")), "a whole tape number", "'0x'"),
        ((up(1.0), number(1.05, "0"), number(5.0, "1 1/2")), "a whole tape number", "'1 1/2'"),
        ((number(1.05, "0"),), "a set line beside the tape number 0", "none"),
        ((up(1.0), number(1.05, "0"), number(5.0, "12")), "a set line beside the tape number 12", "none"),
    ],
)
def test_a_lane_that_cannot_be_set(shapes: tuple[Shape, ...], want: str, found: str) -> None:
    assert check(lane(1, *shapes)) == [("p", "rod-lane-1", want, found)]
    # nothing else is told of the rod then
    assert check(lane(1, *shapes), second()) == [("p", "rod-lane-1", want, found)]


@pytest.mark.parametrize(
    ("x", "hit"),
    [(1.0, True), (0.801, True), (0.799, False), (1.0 + WITHIN, True), (1.0 + BEYOND, False), (1.5, False)],
)
def test_the_set_line_on_the_left_of_its_number(x: float, hit: bool) -> None:
    """Within a fifth of an inch, and not behind where the number begins."""
    held = page(lane(1, up(x), number(1.0, "0")))
    found = audit_rods._set_line(held, held.spans()[0], word("0", 1.0, 1.5), True)
    assert found == (x if hit else None)


@pytest.mark.parametrize(
    ("x", "hit"),
    [(3.0, True), (2.981, True), (2.979, False), (3.199, True), (3.201, False), (1.0, False)],
)
def test_the_set_line_on_the_right_of_its_number(x: float, hit: bool) -> None:
    """Behind its last tenth of an em."""
    held = page(lane(1, up(x), number(2.5, "0")))
    found = audit_rods._set_line(held, held.spans()[0], word("0", 2.5, 1.5), False)
    assert found == (x if hit else None)


@pytest.mark.parametrize("left", [True, False])
def test_a_set_line_crosses_the_figures_and_is_the_nearest(left: bool) -> None:
    """Three tenths of the size above the line: 1.56."""
    at = 1.0 if left else 3.0

    def found(*strokes: Line) -> float | None:
        held = page(lane(1, *strokes))
        return audit_rods._set_line(held, held.spans()[0], word("0", 1.0 if left else 2.5, 1.5), left)

    assert found(up(at, 1.561, 3.0)) is None
    assert found(up(at, 1.559, 3.0)) == at
    assert found(up(at, 3.0, 1.559)) == at
    assert found(up(at, 0.0, 1.559)) is None
    assert found(up(at, 0.0, 1.561)) == at
    assert found(line(at, 0.0, at + 0.01, 3.0)) is None
    nearer, further = (0.95, 0.9) if left else (3.05, 3.1)
    assert found(up(further), up(nearer)) == nearer
    assert found() is None


def test_what_the_tape_reads_in_inches_and_in_millimetres() -> None:
    held = page(lane(1, up(1.0), up(11.0), number(10.6, "254"), number(1.05, "127")))
    made = audit_rods._lane(held, held.spans()[0], METRIC)
    assert made == _Lane(held, held.spans()[0], 5.0, 1.0, 10.0, 11.0)
    assert (made.at(7.0), made.reads(3.0)) == (3.0, 7.0)
    made = audit_rods._lane(held, held.spans()[0], INCH)
    assert made == _Lane(held, held.spans()[0], 127.0, 1.0, 254.0, 11.0)
    held = page(lane(1, up(1.0), number(1.05, "3")))
    assert audit_rods._lane(held, held.spans()[0], INCH) == _Lane(held, held.spans()[0], 3.0, 1.0, None, None)


def test_the_first_words_of_a_tape_number_are_the_number() -> None:
    held = page(
        lane(1, up(1.0), group("tape-number", text(1.05, 1.5, "3"), text(1.4, 1.5, "3 in")), number(4.0, "5"), up(4.2))
    )
    made = audit_rods._lane(held, held.spans()[0], INCH)
    assert isinstance(made, _Lane)
    assert (made.start, made.end) == (3.0, 5.0)


@pytest.mark.parametrize(
    ("starts", "found"),
    [
        (("0", "0"), "2 lanes that begin at 0"),
        (("16",), "0 lanes that begin at 0"),
        (("5", "0"), "1 lanes that begin at 0"),
    ],
)
def test_rods_begin_at_0(starts: tuple[str, ...], found: str) -> None:
    lanes = [lane(i, up(1.0), number(1.05, start)) for i, start in enumerate(starts, 1)]
    assert check(*lanes) == [("rods.pdf", "rods", "1 rods from 0 up", found)]


def test_a_lane_ends_as_the_next_begins() -> None:
    place = "rod-lane-1, tape number at its end"
    own = up(2.0), up(11.0), number(2.05, "17"), number(10.7, "26")
    other = lane(2, *own, mark(5.0, "bearing", '20"', "BEARING centre ply"))
    assert check(first(), other) == [("p", place, "17 as on the lane that follows", "16")]
    alone = lane(1, up(1.0), number(1.05, "0"), board(13.0), mark(13.0, "girt", '12"', "GIRT 1 2x4 bottom"))
    assert check(alone, second()) == [("p", place, "16 as on the lane that follows", "none")]


def test_the_last_lane_ends_with_the_rod_on_a_tape_number() -> None:
    """From 16 at 2 in the rod's end, 26, belongs at 12 in: no number, another one, and its line a hundredth off."""
    place = "rod-lane-2, tape number at its end"
    cut = mark(6.0, "bearing", '20"', "BEARING centre ply")
    bare = lane(2, up(2.0), number(2.05, "16"), cut)
    assert check(first(), bare) == [("p", place, "26", "none")]
    short = lane(2, up(2.0), up(11.0), number(2.05, "16"), number(10.7, "25"), cut)
    assert check(first(), short) == [("p", place, "26", "25")]
    off = lane(2, up(2.0), up(12.01), number(2.05, "16"), number(11.7, "26"), cut)
    want = ("p", "rod-lane-2, set line at its end", "at 26.0000 in on the tape", "at 26.0100 in on the tape")
    assert check(first(), off) == [want]


def test_tape_numbers_are_told_as_they_are_printed() -> None:
    assert audit_rods._tape(5.0, METRIC) == "127"
    assert audit_rods._tape(5.02, METRIC) == "128"
    assert audit_rods._tape(5.5, INCH) == "5.5"
    assert audit_rods._tape(5.0, INCH) == "5"


@pytest.mark.parametrize("by", [WITHIN, -WITHIN, BEYOND, -BEYOND])
def test_the_set_line_at_the_end(by: float) -> None:
    own = lane(1, up(1.0), up(17.0 + by), number(1.05, "0"), number(16.7, "16"), board(13.0))
    made = group("rod-lane-1", *own.shapes, mark(13.0, "girt", '12"', "GIRT 1 2x4 bottom"))
    place = "rod-lane-1, set line at its end"
    want = [("p", place, "at 16.0000 in on the tape", f"at {16 + by:.4f} in on the tape")]
    assert check(made, second()) == (want if abs(by) > NEAR else [])
