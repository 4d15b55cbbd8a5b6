"""Prices that clash or that no plan uses, by the boards that a small barn buys."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import build, job_text, problems

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
        ([GIRT, "2x4 8' 30", "2x4 20' 90"], []),
        (["2x10 16' 9", GIRT, "2x12 16' 8"], ["No untreated 2x10, 2x12 is bought: a price in lumber.prices is not used."]),
        (
            ["2x8 16' 19", "2x4 treated 16' 14"],
            [
                "No untreated 2x8 is bought: a price in lumber.prices is not used. Is treated 2x8 meant, which is?",
                "No treated 2x4 is bought: a price in lumber.prices is not used. Is untreated 2x4 meant, which is?",
            ],
        ),
        # another name of the board is another board to the plan
        (['1 1/2" x 3 1/2" 16\' 9.80'], ['No untreated 1 1/2" x 3 1/2" is bought: a price in lumber.prices is not used.']),
    ],
)
def test_a_price_that_no_plan_uses_is_told(prices: list[str], says: list[str]) -> None:
    assert told({"lumber.prices": prices}) == says
