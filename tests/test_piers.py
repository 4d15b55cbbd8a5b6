"""Piers out of tolerance: what is wrong with each, by how much, what can be done, and when the engineer is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import BASE, METRIC, build, job

from layouts.piers import judge, misfits

TOP = 160.0  # inches: the station of the highest cut, here by itself
BOTTOM = {"column.trims": "bottom", "column.treated": "all", "column.notch": "146 in", "column.ears": "16"}
NEITHER = {"column.trims": "none", "column.notch": "146 in", "column.ears": "16"}  # bearing 144: 2 of offset is bare
BLOCK = {"column.trims": "none", "column.centre_ply": "134 in", "column.ears": "24"}  # length 158


def found(
    changes: Mapping[str, Any], offset: float, *, side: bool = True, top: float = TOP, base: Mapping[str, Any] = BASE
) -> list[tuple[str, float]]:
    return [(kind, round(by, 9)) for kind, by in misfits(job(changes, base=base), side, offset, top)]


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
