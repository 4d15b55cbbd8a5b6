"""Prices that clash or that no plan uses, by the boards that a small barn buys; treated wood that is drier than dry."""

from __future__ import annotations

from typing import Any

import pytest
from both_ways import hold
from jobs import build, job, job_text, problems

from layouts import wood

USED = "a price in lumber.prices is not used."
# the barn buys 2x4 girts and one treated 2x8 of grade board, and nothing else
GIRT, GRADE = "2x4 16' 9.80", "2x8 treated 16' 24.50"


def told(changes: dict[str, Any]) -> list[str]:
    return [w for w in build(changes).warnings if "lumber.prices" in w]


@pytest.mark.parametrize(
    ("prices", "text"),
    [
        # 16 ft are 192 in, and 2x4 is 4x2
        (["2x4 16' 9.80", "2x4 16' 10"], "2x4 16'-0\""),
        (["2x4 16' 9.80", "4x2 192 9.80"], "2x4 16'-0\""),
        ([GRADE, "2x8 treated 16ft 25", "2x8 16' 19"], "2x8 treated 16'-0\""),
    ],
)
def test_two_prices_of_one_board_are_refused(prices: list[str], text: str) -> None:
    (found,) = problems(job_text({"lumber.prices": prices}))
    assert str(found) == f"shed.toml: lumber.prices = {text}: has 2 prices. A board has one: keep that."


def test_boards_that_differ_have_a_price_each() -> None:
    assert not problems(job_text({"lumber.prices": [GIRT, "2x4 12' 7", "2x4 treated 16' 14", GRADE]}))


@pytest.mark.parametrize(
    ("prices", "says"),
    [
        ([GIRT, GRADE], []),
        # lengths that the cheapest plan leaves at the yard are no slip
        ([GIRT, "2x4 8' 8.50", "2x4 20' 23"], []),
        (
            ["2x10 16' 9", GIRT, "2x12 16' 8"],
            [f"No untreated 2x10, 2x12 is bought: {USED}"],
        ),
        (
            ["2x8 16' 19", "2x4 treated 16' 14"],
            [
                f"No untreated 2x8 is bought: {USED} Is treated 2x8 meant, which is?",
                f"No treated 2x4 is bought: {USED} Is untreated 2x4 meant, which is?",
            ],
        ),
        # another name of the board is another board to the plan
        (
            ['1 1/2" x 3 1/2" 16\' 9.80'],
            [f'No untreated 1 1/2" x 3 1/2" is bought: {USED}'],
        ),
    ],
)
def test_a_price_that_no_plan_uses_is_told(prices: list[str], says: list[str]) -> None:
    assert told({"lumber.prices": prices}) == says


@pytest.mark.parametrize(
    ("moistures", "says"),
    [
        ({}, ""),  # 90, rained on 30, dry 19
        ({"wood.treated": 30}, ""),
        # dried in the kiln after treating: rain wets it as it does the rest
        ({"wood.treated": 29}, "at 29 percent of moisture, drier than wood that was rained on at 30 percent"),
        ({"wood.treated": 19}, "at 19 percent of moisture, drier than wood that was rained on at 30 percent"),
        ({"wood.treated": 18}, "at 18 percent of moisture, drier than dry wood at 19 percent"),
        ({"wood.treated": 12, "wood.dry": 12, "wood.wet": 12}, ""),
    ],
)
def test_treated_wood_that_is_drier_than_the_rest_is_asked_about(moistures: dict[str, Any], says: str) -> None:
    found = [w for w in build(moistures).warnings if "wood.treated" in w]
    whole = f"Treated wood is weighed {says}: walls may be heavier than is said. Is wood.treated right?"
    assert found == ([whole] if says else [])


def test_why_it_is_asked() -> None:
    """Southern pine, NDS form: at 19 % 62.4·0.55/(1 + 0.009·0.55·19)·1.19 = 37.33, rained on at 30 %
    62.4·0.55/(1 + 0.009·0.55·30)·1.3 = 38.85: a grade board at 19 % is weighed 1.5 lb/ft³ lighter."""
    found = wood.of(job({"wood.treated": 19}).wood)
    assert (found.wet.plain, found.wet.treated) == pytest.approx((38.85, 37.33), abs=0.005)


@pytest.mark.parametrize(
    ("prices", "says"),
    [
        # by the foot 0.6125, 0.5833, 0.85: long ones cost more
        ([GIRT, "2x4 12' 7", "2x4 20' 17"], []),
        # 0.6125 against twice as much, and a cent more
        ([GIRT, "2x4 12' 14.70"], []),
        ([GIRT, "2x4 12' 14.71"], ["2x4: 12'-0\" costs over twice what 16'-0\" does by the foot."]),
        # 0.5833, 0.6125, 6: a point that slipped
        ([GIRT, "2x4 12' 7", "2x4 10' 60"], ["2x4 10'-0\": over twice what other lengths cost by the foot."]),
        # 0.07, 0.5833, 0.6125, 8.5: the middle is 0.598
        (
            [*(f"2x8 treated {p}" for p in ("16' 9.80", "12' 7", "20' 170", "10' 0.7"))],
            [
                "2x8 treated 10'-0\": under half what other lengths cost by the foot.",
                "2x8 treated 20'-0\": over twice what other lengths cost by the foot.",
            ],
        ),
        # another board, treated or not, is no measure
        (["2x4 16' 9.80", GRADE], []),
    ],
)
def test_a_price_far_from_those_of_other_lengths_is_asked_about(prices: list[str], says: list[str]) -> None:
    found = told({"lumber.prices": prices})
    assert found == [f"{text} Is lumber.prices right?" for text in says]
    for text in found:
        hold(text)
