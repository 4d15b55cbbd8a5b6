"""Piers out of tolerance: what is wrong with each, by how much, what can be done, and when the engineer is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import BASE, METRIC, build, job

from layouts.piers import ENGINEER, Pier, judge, misfits

TOP = 160.0  # inches: the station of the highest cut, here by itself
BOTTOM = {"column.trims": "bottom", "column.treated": "all", "column.notch": "146 in", "column.ears": "16"}
NEITHER = {"column.trims": "none", "column.notch": "146 in", "column.ears": "16"}  # bearing 144: 2 of offset is bare
BLOCK = {"column.trims": "none", "column.centre_ply": "134 in", "column.ears": "24"}  # length 158


def found(
    changes: Mapping[str, Any], offset: float, *, side: bool = True, top: float = TOP, base: Mapping[str, Any] = BASE
) -> list[tuple[str, float]]:
    return [(kind, round(by, 9)) for kind, by in misfits(job(changes, base=base), side, offset, top)]


def one(changes: Mapping[str, Any], offset: float, *, side: bool = True, base: Mapping[str, Any] = BASE) -> Pier:
    (pier,) = judge(job(changes, base=base), "A3", side, offset, TOP)
    return pier


# --- where each limit stands ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "offset", "says"),
    [
        ({}, 1.0, []),  # the least offset, exactly
        ({}, 0.9375, [("high", 0.0625)]),
        ({}, 0.0, [("high", 1.0)]),  # seat on the line
        ({}, -0.5, [("below", 0.5)]),
        ({"grade.least": "0"}, 0.0, []),
        ({"grade.least": "2 1/2"}, 1.0, [("high", 1.5)]),
        ({"grade.most": "3"}, 3.0, []),
        ({"grade.most": "3"}, 3.0625, [("low", 0.0625)]),
        ({}, 40.0, []),  # without a greatest offset only the stock says what is too low
        # 160 + 1/2 to trim: 14 ft takes offsets to 7 1/2
        ({"column.stock": ["14'"]}, 7.5, []),
        ({"column.stock": ["14'"]}, 7.625, [("stock", 0.125)]),
        ({"column.stock": ["14'"], "column.trim": "0"}, 8.0, []),
        ({"column.stock": ["14'", "16'"]}, 7.625, []),
        ({"column.stock": ["14'"], "grade.most": "3"}, 8.0, [("low", 5.0), ("stock", 0.5)]),
    ],
)
def test_limits_of_a_plain_column(changes: dict[str, Any], offset: float, says: list[tuple[str, float]]) -> None:
    assert found(changes, offset) == says
    assert found(changes, offset, side=False) == says


@pytest.mark.parametrize(
    ("changes", "offset", "says"),
    [
        # neither end cut, notch 146 over a bearing of 144: an offset of 2 stands on the bare seat
        (NEITHER, 2.0, []),
        (NEITHER, 1.75, [("notch", 0.25)]),
        (NEITHER, 2.5, []),  # 1/2 of packing, as much as may be
        (NEITHER, 2.5625, [("block", 0.0625)]),
        ({**NEITHER, "grade.shim": "3"}, 5.0, []),
        # bottom cut: a high seat is cut, a low one packed
        (BOTTOM, 1.0, []),
        (BOTTOM, 2.0, []),
        (BOTTOM, 2.5, []),
        (BOTTOM, 3.0, [("block", 0.5)]),
        # seat block on a centre ply of 134: 144 + offset - 134
        (BLOCK, 1.0, []),
        (BLOCK, 13.9375, []),  # bearing at 157 15/16 of 158
        (BLOCK, 14.5, [("stock", 0.5)]),
        # cut at the top, with a seat block: the ply may not stand over the bearing
        ({"column.centre_ply": "145 1/2"}, 1.5, []),
        ({"column.centre_ply": "145 1/2"}, 1.25, [("centre ply", 0.25)]),
    ],
)
def test_limits_of_made_tops_and_seat_blocks(changes: dict[str, Any], offset: float, says: list[Any]) -> None:
    assert found(changes, offset) == says


@pytest.mark.parametrize("changes", [BOTTOM, NEITHER, BLOCK, {"column.centre_ply": "150"}])
def test_an_endwall_column_has_no_made_top(changes: dict[str, Any]) -> None:
    assert found(changes, 1.5, side=False) == []


def test_the_bottom_that_is_cut_takes_any_high_seat() -> None:
    """Only the board then says what is too high."""
    assert found(BOTTOM, -3.0) == [("below", 3.0)]
    assert found(NEITHER, -3.0) == [("below", 3.0), ("notch", 5.0)]


# Untreated columns stand on pedestals at least 1 in above a concrete floor (IRC, older text, as told in a trade brief)
@pytest.mark.parametrize(
    ("changes", "offset", "says"),
    [
        # floor 3 1/2 above the line: a seat 1 1/2 below the line is 5 below the floor, 6 less than wanted
        ({"column.treated": "none"}, 1.5, [("end", 6.0)]),
        ({"column.treated": "none", "column.above_floor": "2"}, 1.5, [("end", 7.0)]),
        ({"column.treated": "end"}, 1.5, []),
        ({"column.treated": "all"}, 1.5, []),
        # a pier that stands 4 1/2 above the line stands 1 above the floor: what is wrong then is the board alone
        ({"column.treated": "none"}, -4.5, [("below", 4.5)]),
        ({"column.treated": "none"}, -4.4375, [("below", 4.4375), ("end", 0.0625)]),
        # on packing: notch 139 1/2, bearing 144, offset 1: the end stands 5 1/2 over its seat, 4 1/2 over the line
        ({**NEITHER, "column.notch": "139 1/2 in", "column.treated": "none", "grade.shim": "6"}, 1.0, []),
        ({**NEITHER, "column.notch": "140 in", "column.treated": "none", "grade.shim": "6"}, 1.0, [("end", 0.5)]),
    ],
)
def test_untreated_ends_keep_clear_of_the_floor(changes: dict[str, Any], offset: float, says: list[Any]) -> None:
    assert found(changes, offset) == says


def test_limits_in_millimetres() -> None:
    """Least 25, shim 12: as a metric crew sets them."""
    mm = {"grade.most": 75}
    assert found(mm, 25 / 25.4, base=METRIC) == []
    assert found(mm, 75 / 25.4, base=METRIC) == []
    assert found(mm, 24 / 25.4, base=METRIC) == [("high", round(1 / 25.4, 9))]
    assert found(mm, 76 / 25.4, base=METRIC) == [("low", round(1 / 25.4, 9))]


@given(st.floats(-20, 40), st.sampled_from([{}, {"grade.most": "3"}, BOTTOM, NEITHER, BLOCK]), st.booleans())
def test_whatever_is_wrong_is_wrong_by_more_than_nothing(offset: float, changes: dict[str, Any], side: bool) -> None:
    of = job({**changes, "column.stock": ["14'"]} | ({} if "column.treated" in changes else {"column.treated": "none"}))
    kinds = [kind for kind, _ in misfits(of, side, offset, TOP)]
    assert len(kinds) == len(set(kinds))
    assert all(by > 0 for _, by in misfits(of, side, offset, TOP))
    assert not {"below", "high"} <= set(kinds)
    for pier in judge(of, "A3", side, offset, TOP):
        assert pier.text.endswith((".", ")."))
        assert pier.can


# --- in words -------------------------------------------------------------------------------------------------------


def test_a_seat_above_the_line() -> None:
    """Given: the bracket comes down to the line. Chosen: the least offset is wanted too, 1/2 and 1."""
    told = one({"grade.line": "46"}, -0.5)
    assert told.said == (
        'A3: the grade line is 1/2" BELOW its seat: the grade board does not pass. Take a higher line; or re-set the '
        'bracket 1/2" lower and shoot it again. Ask the engineer before a bracket is re-set or a column lifted.'
    )
    assert one({}, -0.5).can[-1] == 'or re-set the bracket 1 1/2" lower and shoot it again'


def test_a_seat_near_the_line() -> None:
    told = one({}, 0.25)
    assert told.text == 'only 1/4" from its seat up to the grade line, 1" wanted.'
    assert told.can == (
        "let it be if the board passes",
        "take a higher line",
        'or re-set the bracket 3/4" lower and shoot it again',
    )
    assert told.engineer


def test_a_given_line_may_be_as_near_as_it_likes_but_not_above() -> None:
    near = job({"grade.line": "46"})
    assert judge(near, "A3", True, 0.0, TOP) == ()
    assert [p.kind for p in judge(near, "A3", True, -0.0625, TOP)] == ["below"]


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


# --- in the building ------------------------------------------------------------------------------------------------


def test_every_pier_that_was_read_is_judged_even_one_without_a_say() -> None:
    rows = dict.fromkeys(("A1", "A2", "A4", "A5", "A6"), "52 1/2") | {"A3": "42 3/4"}
    building = build({}, rows)
    # 52 1/2 - 1 = 51 1/2; A3 stands 8 3/4 above it
    assert building.grade.line == 51.5
    assert [(p.name, p.kind, p.by) for p in building.piers] == [("A3", "below", 8.75)]


def test_piers_out_and_the_cost_of_the_line_tell_the_same() -> None:
    rows = {"A1": "45", "A2": "46", "A3": "49 1/2", "G1": "45 1/2"}
    building = build({"grade.most": "3", "column.stock": ["14'"]}, rows)
    here = building.grade.taken()
    assert here is not None
    told = {n: tuple((p.kind, p.by) for p in building.piers if p.name == n) for n in {p.name for p in building.piers}}
    assert told == dict(here.out)
    assert told
