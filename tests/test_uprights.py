"""Jamb posts and cripples: where what is in their way ends them."""

from __future__ import annotations

from typing import Any

import pytest
from opened import OVERHEAD, one, opened

# columns 7 1/4 deep, bearing 144; a 2x10 is 9 1/4 high: its underside at 144 - 9 1/4 = 134 3/4
CARRIED: dict[str, Any] = {
    "column__make": "solid",
    "column__width": "5 1/2",
    "column__depth": "7 1/4",
    "tops__seat": "flat",
    "carrier__board": "2x10",
}
# floor 3 1/2, 120 high and 1 1/2 more: its header from 125 to 130 1/2; over it are the carriers, or girts beside them
DOOR = {**OVERHEAD, "height": "10'", "cripples": "2'"}


def tops(where: str, let_in: str, jamb_tops: str, **fields: Any) -> set[tuple[str, float]]:
    """Jamb posts and cripples, with the stations that they end at."""
    changes = {**CARRIED, "carrier__where": where, "carrier__let_in": let_in, **fields}
    jamb = changes.pop("jamb", "2x6")
    found = one({**DOOR, "jamb_tops": jamb_tops, "jamb": jamb}, **changes)
    return {(u.name.partition(" D9")[0], top) for u in found.uprights for top in u.tops}


@pytest.mark.parametrize("jamb_tops", ["row", "full"])
@pytest.mark.parametrize(
    ("where", "let_in", "top"),
    [
        ("outside", "1 1/2", 134.75),  # 0 to 1 1/2 in from the outer face, a 2x6 post 0 to 5 1/2
        ("both", "1 1/2", 134.75),
        ("outside", "0", 144),  # on the outer face: a post laps it as it laps girts
        ("both", "0", 144),  # and the one inside begins at 7 1/4
    ],
)
def test_a_jamb_post_ends_under_a_carrier_that_is_let_in_where_it_stands(
    jamb_tops: str, where: str, let_in: str, top: float
) -> None:
    assert ("Jamb post", top) in tops(where, let_in, jamb_tops)


@pytest.mark.parametrize(
    ("jamb", "let_in", "top"),
    [
        ("2x6", "1 1/2", 144),  # let in from 7 1/4: it begins at 5 3/4, the post ends at 5 1/2
        ("2x6", "2", 134.75),  # let in 1 1/2 flush and 1/2 more: from 5 1/4
        ("2x8", "1 1/2", 134.75),  # 7 1/4 of a post
        ("2x10", "0", 134.75),  # 9 1/4: it stands out by 2, where the carrier is
    ],
)
def test_a_carrier_inside_is_in_the_way_of_posts_that_reach_it(jamb: str, let_in: str, top: float) -> None:
    changes = {"jamb": jamb} | ({"carrier__boards": "2"} if let_in == "2" else {})
    assert ("Jamb post", top) in tops("inside", let_in, "full", **changes)


def test_posts_before_girts_inside_stand_at_the_columns_inner_faces() -> None:
    """A 2x6 post from 7 1/4 - 5 1/2 = 1 3/4 to 7 1/4: clear of a carrier outside that is let in 1 1/2,
    in the way of one inside."""
    inside = {"girts__place": "inside"}
    assert ("Jamb post", 144) in tops("outside", "1 1/2", "full", **inside)
    assert ("Jamb post", 134.75) in tops("inside", "1 1/2", "full", **inside)


def test_carriers_on_top_of_columns_end_every_post() -> None:
    assert ("Jamb post", 134.75) in tops("on top", "0", "full")


def test_cripples_end_there_too() -> None:
    """From the header's underside: 134 3/4 - 125 = 9 3/4."""
    found = one(DOOR, **CARRIED, carrier__where="outside", carrier__let_in="1 1/2")
    cripples = [u for u in found.uprights if u.name.startswith("Cripple")]
    assert len(cripples) == 3
    assert {(u.low, u.high, u.length) for u in cripples} == {(125, 134.75, 9.75)}


@pytest.mark.parametrize(("higher", "count"), [("4 3/16", 3), ("4 1/4", 0)])
def test_no_cripple_where_the_carrier_is_as_near_as_a_board_is_thick(higher: str, count: int) -> None:
    """The header's top at 123 1/2 + 4 1/4 + 5 1/2 = 133 1/4: to the carrier 1 1/2 are left, and a 2x6 is as thick."""
    found = one({**DOOR, "higher": higher}, **CARRIED, carrier__where="outside", carrier__let_in="1 1/2")
    assert len([u for u in found.uprights if u.name.startswith("Cripple")]) == count


def test_carriers_are_in_no_endwall() -> None:
    fields = {**CARRIED, "carrier__where": "outside", "carrier__let_in": "1 1/2"}
    found = one({**DOOR, "wall": "1", "jamb_tops": "full"}, **fields)
    assert all(top > 144 for u in found.uprights for top in u.tops if u.name.startswith("Jamb"))


def test_posts_meet_girts_between_the_columns_and_lap_those_outside() -> None:
    """A 2x6 header from 101 to 106 1/2. Between: 7 1/4 to the top girt's middle at 143 1/4 in six, girt 5 flat at
    119.708. Outside: girt 5, a 2x4 on edge, ends at 121.208."""
    door = {**OVERHEAD, "jamb_tops": "row", "cripples": "2'"}
    for place, edge in (("between", 0), ("outside", 1)):
        made = opened(door, girts__place=place)
        girt = next(row for row in made.rows.sides[0] if row.name == "Girt 5")
        end = (girt.low, girt.high)[edge]
        assert end == pytest.approx((119.7083333, 121.2083333)[edge])
        found = made.walls[0].openings[0].uprights
        assert {u.name.partition(" D9")[0] for u in found} == {"Jamb post", "Cripple"}
        assert {top for u in found for top in u.tops} == {end}
