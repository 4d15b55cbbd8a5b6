"""Piers that are out of tolerance, in words: what is wrong and what can be done."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from jobs import BASE, METRIC, job
from test_piers import BLOCK, BOTTOM, NEITHER, TOP

from layouts.piers import ENGINEER, Pier, judge


def one(changes: Mapping[str, Any], offset: float, *, side: bool = True, base: Mapping[str, Any] = BASE) -> Pier:
    (pier,) = judge(job(changes, base=base), "A3", side, offset, TOP)
    return pier


def test_a_seat_above_the_line() -> None:
    """The bracket comes down to the line and by the least offset, 1/2 and 1; with no least by 1/2."""
    told = one({"grade.least": "0"}, -0.5)
    assert told.said == (
        'A3: the grade line is 1/2" BELOW its seat: the grade board does not pass. Take a higher line; or re-set the '
        'bracket 1/2" lower and shoot it again. Ask the engineer before a bracket is re-set or a column lifted.'
    )
    for line in ({}, {"grade.line": "46"}):
        assert one(line, -0.5).can[-1] == 'or re-set the bracket 1 1/2" lower and shoot it again'


def test_a_seat_near_the_line() -> None:
    told = one({}, 0.25)
    assert told.text == 'only 1/4" from its seat up to the grade line, 1" wanted.'
    assert told.can == (
        "let it be if the board passes",
        "take a higher line",
        'or re-set the bracket 3/4" lower and shoot it again',
    )
    assert told.engineer


def test_a_given_line_is_held_against_the_least_as_one_that_is_chosen() -> None:
    near = job({"grade.line": "46"})
    assert judge(near, "A3", True, 0.25, TOP) == judge(job(), "A3", True, 0.25, TOP) != ()
    assert [p.kind for p in judge(near, "A3", True, -0.0625, TOP)] == ["below"]
    assert judge(job({"grade.line": "46", "grade.least": "0"}), "A3", True, 0.0, TOP) == ()


@pytest.mark.parametrize(
    ("shim", "last", "engineer"),
    [
        ('1/2"', 'or pack the seat up 1/2" with steel over all of it and shoot it again', False),
        ('3/4"', 'or pack the seat up 1/2" with steel over all of it and shoot it again', False),
        ('3/8"', 'or re-set the bracket 1/2" higher and shoot it again (too much to pack: 3/8" at most)', True),
        ('0"', 'or re-set the bracket 1/2" higher and shoot it again (too much to pack: 0" at most)', True),
    ],
)
def test_the_shim_limit_decides_what_lifts_a_low_seat(shim: str, last: str, engineer: bool) -> None:
    told = one({"grade.most": "3", "grade.shim": shim}, 3.5)
    assert told.kind == "low"
    assert told.text == 'its seat is 1/2" lower than the 3" allowed below the line.'
    assert told.can == ("let it be, its column is cut longer", "take a lower line", last)
    assert told.engineer is engineer
    assert told.said.endswith(ENGINEER) is engineer


@pytest.mark.parametrize(
    ("changes", "side", "says"),
    [
        ({}, True, "its column is cut longer"),
        ({**BOTTOM, "column.notch": "160 in"}, True, "less is cut off its column"),
        ({**NEITHER, "grade.shim": "3"}, True, "it takes thicker packing"),
        (BLOCK, True, "it takes a longer seat block"),
        ({**NEITHER, "grade.shim": "3"}, False, "its column is cut longer"),
    ],
)
def test_a_low_seat_is_told_what_it_comes_to(changes: dict[str, Any], side: bool, says: str) -> None:
    assert one({**changes, "grade.most": "3"}, 3.5, side=side).can[0] == f"let it be, {says}"


@pytest.mark.parametrize(
    ("offset", "lift", "engineer"),
    [
        (8.0, 'pack the seat up 1/2" with steel over all of it and shoot it again', False),
        (8.25, 're-set the bracket 3/4" higher and shoot it again (too much to pack: 1/2" at most)', True),
    ],
)
def test_a_column_no_stock_is_long_enough_for(offset: float, lift: str, engineer: bool) -> None:
    """160 + 8 + 1/2 = 168 1/2: half an inch over 14 ft, as much as may be packed."""
    told = one({"column.stock": ["12'", "14'"]}, offset)
    length = {8.0: "14'-0", 8.25: "14'-0 1/4"}[offset]
    assert told.text == f'{length}" and 1/2" for trimming is longer than the longest column stock, 14\'-0".'
    assert told.can == ("take a lower line", lift, "or order a longer column")
    assert told.engineer is engineer


def test_a_made_column_on_too_high_a_seat() -> None:
    told = one(NEITHER, 1.75)
    assert told.text == 'its seat is 1/4" too high for a column whose top is made and whose bottom is not cut.'
    assert told.can == (
        "take a higher line",
        're-set the bracket 1/4" lower and shoot it again',
        "or order a shorter column",
    )
    assert told.engineer


@pytest.mark.parametrize("changes", [NEITHER, BOTTOM])
def test_packing_past_the_limit_asks_for_the_engineer(changes: dict[str, Any]) -> None:
    """3 1/4 - 2 = 1 1/4 of packing, 3/4 more than may be."""
    told = one(changes, 3.25)
    assert told.by == 0.75
    assert told.text == 'its column, with the top as it is made, stands on 1 1/4" of packing, 1/2" at most.'
    assert told.can[:2] == ("take a lower line", 're-set the bracket 3/4" higher and shoot it again')
    assert told.engineer


def test_ears_that_end_below_the_truss() -> None:
    assert one(BLOCK, 14.5).text == 'its made ears end 1/2" BELOW the bearing: the truss stands free of them.'


def test_a_centre_ply_over_the_bearing_is_cut_off_without_the_engineer() -> None:
    told = one({"column.centre_ply": "146"}, 1.5)
    assert told.said == (
        'A3: its centre ply stands 1/2" above the bearing: no seat block goes in. Cut the centre ply off at the '
        "bearing."
    )
    assert not told.engineer


@pytest.mark.parametrize(
    ("changes", "offset", "where"),
    [
        ({}, 1.5, 'stands 5" BELOW the finished floor, at least 1" above it is wanted (local code rules).'),
        ({"grade.floor": "0", "column.above_floor": "2"}, 1.5, 'stands 1 1/2" BELOW the finished floor, at least 2"'),
        ({"grade.line": "46", "grade.floor": "0", "grade.least": "0"}, 0.0, 'stands 0" above the finished floor'),
    ],
)
def test_an_untreated_end_at_the_floor(changes: dict[str, Any], offset: float, where: str) -> None:
    told = one({"column.treated": "none", **changes}, offset)
    assert where in told.text
    assert told.can[0] == "take a treated column"
    assert told.engineer


def test_words_in_millimetres() -> None:
    told = one({"grade.most": 75}, 100 / 25.4, base=METRIC)
    assert told.said == (
        "A3: its seat is 25 mm lower than the 75 mm allowed below the line. Let it be, its column is cut longer; take "
        "a lower line; or re-set the bracket 25 mm higher and shoot it again (too much to pack: 12 mm at most). Ask "
        "the engineer before a bracket is re-set or a column lifted."
    )


@pytest.mark.parametrize(
    ("changes", "offset", "says"),
    [
        ({}, 0.99, 'only 15/16" from its seat'),  # not 1 where 1 is wanted
        ({"grade.most": "3"}, 3.01, 'its seat is 1/16" lower'),
        ({"grade.line": "46"}, -0.01, 'the grade line is 1/16" BELOW'),
        (NEITHER, 1.99, 'its seat is 1/16" too high'),
        (NEITHER, 2.51, 'stands on 9/16" of packing, 1/2" at most'),
        ({"column.centre_ply": "146"}, 1.99, 'stands 1/16" above the bearing'),
        ({"column.stock": ["14'"]}, 7.51, '13\'-11 9/16" and 1/2" for trimming'),
    ],
)
def test_a_hair_over_a_limit_never_reads_as_on_it(changes: dict[str, Any], offset: float, says: str) -> None:
    assert says in one(changes, offset).text
