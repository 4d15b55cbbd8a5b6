"""What stands on the lanes of a rod: marks, their words and lines, footprints of boards, small tape numbers."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import line, plan, seen, text, told
from test_audit_told_lanes import (
    BEYOND,
    CUT,
    GIRT,
    INCH,
    METRIC,
    ROD,
    WITHIN,
    board,
    built,
    check,
    cross,
    first,
    lane,
    mark,
    number,
    page,
    second,
    up,
)

from layouts.rods import Rod
from sheets import audit_rods
from sheets.audit_model import NEAR
from sheets.shapes import Group, Shape

GIRT_WORDS = '12"', "GIRT 1 2x4 bottom"


def girt(by: float = 0.0, *words: str) -> Shape:
    """The first lane with its girt elsewhere, or with other words."""
    return first(mark(13.0 + by, "girt", *(words or GIRT_WORDS)))


# --- marks -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [WITHIN, -WITHIN, BEYOND, -BEYOND, 0.25])
def test_a_mark_at_its_station(by: float) -> None:
    want = ("p", "rod, Girt 1, rod-mark-girt", "a line at 12.0000 in on the tape", f"at {12 + by:.4f} in on the tape")
    assert check(girt(by), second()) == ([want] if abs(by) > NEAR else [])


def test_every_line_of_a_mark_is_at_its_station() -> None:
    two = Group(
        "rod-mark-girt", (up(13.0), up(13.002), line(12.0, 1.0, 14.0, 1.0), *mark(13.0, "x", *GIRT_WORDS).shapes[1:])
    )
    want = ("p", "rod, Girt 1, rod-mark-girt", "a line at 12.0000 in on the tape", "at 12.0020 in on the tape")
    assert check(first(two), second()) == [want]
    none = Group("rod-mark-girt", mark(13.0, "x", *GIRT_WORDS).shapes[1:])
    assert check(first(none), second()) == [
        ("p", "rod, Girt 1, rod-mark-girt", "a line at 12.0000 in on the tape", "none")
    ]


def test_a_mark_that_is_missing_there_twice_or_none_of_the_rod() -> None:
    lacks = ("p", "rod, Girt 1", 'GIRT 1 2x4 at 12" on a lane', "no such mark")
    assert check(first(up(13.0)), second()) == [lacks]
    twice = first(mark(13.0, "girt", *GIRT_WORDS), mark(13.0, "girt", *GIRT_WORDS))
    extra = ("p", "rod-mark-girt", "one mark of the layout, on one lane", '12" GIRT 1 2x4 bottom')
    assert check(twice, second()) == [extra]
    other = first(mark(13.0, "girt", *GIRT_WORDS), mark(9.0, "girt-2", '8"', "GIRT 2 2x4"))
    assert check(other, second()) == [("p", "rod-mark-girt-2", "one mark of the layout, on one lane", '8" GIRT 2 2x4')]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (('13"', "GIRT 1 2x4 bottom"), '13" GIRT 1 2x4 bottom'),
        (('12"', "GIRT 1 2x6 bottom"), '12" GIRT 1 2x6 bottom'),
        (('12"', "GIRT 2 2x4 bottom"), "no such mark"),
        (('12"', "GIRT 12x4 bottom"), "no such mark"),
        (('12"', "GIRT 1 2x4 bottom: A1 only"), '12" GIRT 1 2x4 bottom: A1 only'),
        (('12"', "GIRT 1", "2x4 ONLY"), None),
        (('12"', "girt 1 2X4"), None),
    ],
)
def test_the_words_of_a_mark(words: tuple[str, ...], found: str | None) -> None:
    differences = check(girt(0.0, *words), second())
    if found is None:
        assert differences == []
        return
    extra = ("p", "rod-mark-girt", "one mark of the layout, on one lane", " ".join(words))
    assert differences == [("p", "rod, Girt 1", 'GIRT 1 2x4 at 12" on a lane', found), extra]


def test_the_face_of_a_cut_and_where_all_is_told() -> None:
    """A mark that is found nowhere is told of the first lane's page, a line of the page it is on."""
    pages = [page(first()), replace(page(second(mark(6.0, "bearing", '20"', "BEARING near ply"))), label="q")]
    building = built()
    assert told(audit_rods.check(pages, building, "rods.pdf")) == [
        ("p", "rod, Bearing", 'BEARING centre ply at 20" on a lane', '20" BEARING near ply'),
        ("q", "rod-mark-bearing", "one mark of the layout, on one lane", '20" BEARING near ply'),
    ]
    pages[1] = replace(page(second(mark(6.5, "bearing", '20"', "BEARING centre ply"))), label="q")
    assert told(audit_rods.check(pages, building, "rods.pdf")) == [
        ("q", "rod, Bearing, rod-mark-bearing", "a line at 20.0000 in on the tape", "at 20.5000 in on the tape")
    ]


def test_of_two_with_its_words_the_nearer_is_the_mark() -> None:
    far, near = mark(15.0, "far", *GIRT_WORDS), mark(13.0, "near", *GIRT_WORDS)
    for pair in ((far, near), (near, far)):
        assert check(first(*pair), second()) == [
            ("p", "rod-mark-far", "one mark of the layout, on one lane", '12" GIRT 1 2x4 bottom')
        ]


def test_a_mark_on_the_lane_that_holds_its_station() -> None:
    """Within a thousandth before it; on the last lane to the end of the rod."""
    place = "rod, Girt 1, rod-mark-girt"
    off = second(mark(-2.0, "girt", *GIRT_WORDS), mark(6.0, "bearing", '20"', "BEARING centre ply"))
    own = lane(1, up(1.0), up(17.0), number(1.05, "0"), number(16.7, "16"), board(13.0))
    assert check(own, off) == [("p", place, "at 12.0000 in on the tape", "on the lane from 16 to 26")]
    late = replace(ROD, length=19.0)
    cut = mark(6.0, "bearing", '20"', "BEARING centre ply")
    ends = lane(2, up(2.0), up(5.0), number(2.05, "16"), number(4.7, "19"), cut)
    assert check(first(), ends, rod=late) == [
        ("p", "rod, Bearing, rod-mark-bearing", "at 20.0000 in on the tape", "on the lane from 16 to 19")
    ]
    early = first(mark(13.0, "girt", *GIRT_WORDS), mark(21.0, "bearing", '20"', "BEARING centre ply"))
    assert check(early, second(up(2.0))) == [
        ("p", "rod, Bearing, rod-mark-bearing", "at 20.0000 in on the tape", "on the lane from 0 to 16")
    ]


@pytest.mark.parametrize(("station", "ok"), [(16.0, True), (16 - WITHIN, True), (16 - BEYOND, False)])
def test_a_mark_at_the_beginning_of_a_lane(station: float, ok: bool) -> None:
    at = replace(CUT, station=station, low=station, high=station)
    rod = replace(ROD, marks=(GIRT, at))
    here = second(mark(2.0 + station - 16, "bearing", '16"', "BEARING centre ply"))
    want = ("p", "rod, Bearing, rod-mark-bearing", f"at {station:.4f} in on the tape", "on the lane from 16 to 26")
    assert check(first(), here, rod=rod) == ([] if ok else [want])


# --- for some columns only -------------------------------------------------------------------------------------------

FEW = ("A1", "A2", "A3", "A4")


@pytest.mark.parametrize(
    ("only", "jambs", "said"),
    [
        ((), False, ""),
        (("A1",), False, "A1 only"),
        (FEW, False, "A1, A2, A3, A4 only"),
        ((*FEW, "A5"), False, "5 columns only"),
        ((), True, "jambs only"),
        (("A1", "A2"), True, "A1, A2, jambs only"),
    ],
)
def test_what_is_said_of_a_mark_for_some(only: tuple[str, ...], jambs: bool, said: str) -> None:
    some = replace(GIRT, only=only, jambs=jambs)
    assert audit_rods._only(some) == said
    words = ['12"', f"GIRT 1 2x4 bottom: {said}"]
    assert audit_rods._says(words, some, INCH)
    assert audit_rods._says(['12"', "GIRT 1 2x4"], some, INCH) is (not said)
    assert audit_rods._says(words, GIRT, INCH) is (not said)


@pytest.mark.parametrize(
    ("words", "is_"),
    [
        (["305 mm", "GIRT 1 2x4"], True),
        (["305", "GIRT 1 2x4"], False),
        (["GIRT 1 2x4"], False),
        (["305 mm", "2x4"], False),
        (["305 mm", "GIRT 1", "2x4"], True),
        (["305 mm", "GIRT 1 A2x4"], False),
        (["305 mm GIRT 1 2x4"], False),
        (["305 mm", "GIRT 1 2x4", "OTHER ONLY"], True),
        (["305 mm", "GIRT 1 2x4 ONLY", "GIRT 1 2x4"], True),
    ],
)
def test_the_words_that_make_a_mark(words: list[str], is_: bool) -> None:
    assert audit_rods._says(words, GIRT, METRIC) is is_


# --- footprints ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [WITHIN, -WITHIN, BEYOND, -BEYOND])
def test_the_edges_of_a_board(by: float) -> None:
    own = up(1.0), up(17.0), number(1.05, "0"), number(16.7, "16"), mark(13.0, "girt", *GIRT_WORDS)
    made = lane(1, *own, board(13.0 + by))
    place = "rod, Girt 1, edge of the board"
    want = ("p", place, "at 15.5000 in on the tape", f"at {15.5 + by:.4f} in on the tape")
    assert check(made, second()) == ([want] if abs(by) > NEAR else [])


def test_an_edge_that_is_nowhere_and_one_that_the_lane_does_not_show() -> None:
    place = "rod, Girt 1, edge of the board"
    own = up(1.0), up(17.0), number(1.05, "0"), number(16.7, "16"), mark(13.0, "girt", *GIRT_WORDS)
    assert check(lane(1, *own), second()) == [("p", place, "at 15.5000 in on the tape", "at 16.0000 in on the tape")]
    # a board over the joint: its upper edge is on the second lane, where it is looked for too
    over = replace(ROD, marks=(replace(GIRT, high=17.0), CUT))
    assert check(first(), second(), rod=over) == [
        ("p", place, "at 17.0000 in on the tape", "at 16.0000 in on the tape")
    ]
    shown = second(up(3.0), mark(6.0, "bearing", '20"', "BEARING centre ply"))
    assert check(first(), shown, rod=over) == []
    # one that ends with the lane is shown by the next, and cuts have no edges
    ends = replace(ROD, marks=(replace(GIRT, high=16.0), CUT))
    assert check(first(), second(), rod=ends) == []
    past = replace(ROD, marks=(replace(GIRT, high=26.0), CUT))
    assert check(first(), second(), rod=past) == []
    within = replace(ROD, marks=(replace(GIRT, high=25.9), CUT))
    assert check(first(), second(), rod=within) == [
        ("p", place, "at 25.9000 in on the tape", "at 26.0000 in on the tape")
    ]


# --- small tape numbers ----------------------------------------------------------------------------------------------


def small(words: str, x: float, *more: Shape) -> list[tuple[str, str, str, str]]:
    """A small number in the first lane, which is set at 1 in."""
    return check(first(mark(13.0, "girt", *GIRT_WORDS), text(x, 1.2, words), *more), second())


WIDE = 0.112  # of a figure of a fifth


def test_a_small_number_over_its_tick() -> None:
    assert small("5", 5.95, up(6.0)) == []
    assert small("x5", 5.95) == []
    assert small("5", 5.95, up(6.0 + WITHIN)) == []
    for stroke in (up(6.0 + BEYOND), up(6.0 - BEYOND), line(6.0, 1.0, 7.0, 1.0)):
        (one,) = small("5", 5.95, stroke)
        assert one[:3] == ("p", "rod-lane-1, tape number 5", "over its tick at 6.0000 in")
    (one,) = small("5", 6.0, up(6.0))
    assert one[1:3] == ("rod-lane-1, tape number 5", "over its tick at 6.0000 in")
    assert small("5", 5.999, up(6.0)) == []


def test_where_a_small_number_is_told_to_be() -> None:
    held = page(lane(1, up(1.0), up(6.0), number(1.05, "0"), text(4.0, 1.0, "5")))
    made = audit_rods._lane(held, held.spans()[0], INCH)
    assert isinstance(made, audit_rods._Lane)
    (_, five) = held.runs
    assert five is not None
    wide = five.wide
    want = ("p", "rod-lane-1, tape number 5", "over its tick at 6.0000 in", f"at {4 + wide / 2:.4f} in")
    assert told(audit_rods._ticks(made, ROD, INCH)) == [want]
    # its ink may end a thousandth before the tick
    for by, ok in ((WITHIN, True), (BEYOND, False)):
        runs = [held.runs[0], five._replace(x=6.0 - wide - by)]
        found = told(audit_rods._ticks(replace(made, seen=replace(held, runs=runs)), ROD, INCH))
        assert (found == []) is ok
    assert told(audit_rods._ticks(replace(made, seen=replace(held, runs=[held.runs[0], None])), ROD, INCH)) == []
    # in millimetres 5 is just behind the foot
    assert told(audit_rods._ticks(made, ROD, METRIC))[0][2] == f"over its tick at {1 + 5 / 25.4:.4f} in"


# --- rods in one piece -----------------------------------------------------------------------------------------------


def whole(*shapes: Shape, rod: Rod = ROD) -> list[tuple[str, str, str, str]]:
    return told(audit_rods.whole(seen(plan(*shapes, width=40.0), "rod.svg"), rod, INCH))


def test_a_rod_in_one_piece() -> None:
    """Its words stand in a layer of their own, so any of its marks may find them."""
    marks = Group("rod-mark-girt", (up(13.0), *cross(13.07))), Group("rod-mark-bearing", (up(21.0),))
    words = [text(13.1, 1.0 - i * 0.2, one) for i, one in enumerate((*GIRT_WORDS, '20"', "BEARING centre ply"))]
    own = up(1.0), up(27.0), number(1.05, "0"), number(26.7, "26"), board(13.0)
    assert whole(*own, *marks, *words) == []
    off = Group("rod-mark-girt", (up(13.01), *cross(13.08))), marks[1]
    assert whole(*own, *off, *words) == [
        ("rod.svg", "rod, Girt 1, rod-mark-girt", "a line at 12.0000 in on the tape", "at 12.0100 in on the tape")
    ]
    assert whole(*own, *marks, *words[:1], *words[2:]) == [
        ("rod.svg", "rod, Girt 1", 'GIRT 1 2x4 at 12" on a lane', "no such mark"),
        ("rod.svg", "rod-mark-girt", "one mark of the layout, on one lane", '0 26 12" 20" BEARING centre ply'),
    ]
    assert whole(number(1.05, "0")) == [("rod.svg", "rod", "a set line beside the tape number 0", "none")]
    assert whole(up(1.0), number(1.05, "3")) == [("rod.svg", "rod", "one lane from 0 up", "a lane from 3 to None")]
    two = up(1.0), number(1.05, "0"), number(16.7, "16"), up(17.0)
    assert whole(*two)[0] == ("rod.svg", "rod, tape number at its end", "26", "16")
