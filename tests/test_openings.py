"""Openings: their boards, by hand."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from opened import DOOR, OVERHEAD, SLIDING, WINDOW, at, one, opened, wrongs

from layouts.openings import Opening, Upright

# Columns 4 1/2 wide along the sidewalls, 5 1/2 deep, 1 1/2 inside of the building line; sidewall centres every 96 from
# 94 1/2, front ones at 130 1/2 and 250 1/2, back ones at 94 1/2, 190 1/2 and 286 1/2. Sidewalls are 573 long, endwalls
# 381. The floor stands 3 1/2 over the grade line; girts of 3 1/2 begin 26.54, 49.33, 72.13, 94.92, 117.71 and the top
# girt 140 1/2 over it; bearing 144.


def stretch(found: Opening) -> tuple[float, float]:
    return found.left, found.right


def named(found: Opening, name: str) -> list[Upright]:
    return [u for u in found.uprights if u.name.startswith(name)]


# --- its boards -----------------------------------------------------------------------------------------------------


def test_a_header_goes_from_the_middle_of_one_column_to_that_of_the_next() -> None:
    """Rough opening up to 3 1/2 + 82 = 85 1/2; a 2x6 on it; columns A6 and A5 at 94 1/2 and 190 1/2."""
    header = one(DOOR).header
    assert (header.low, header.high, header.start, header.end) == pytest.approx((85.5, 91, 94.5, 190.5))
    assert header.columns == ("A6", "A5")
    assert header.section.name == "2x6"


def test_at_a_corner_a_header_ends_as_the_girts_do() -> None:
    """At the outer face of the corner column; endwall girts run 1 1/2 past it."""
    found = opened({**DOOR, "wall": "1", "bay": 1})
    wall = next(w for w in found.walls if w.name == "1")
    assert wall.openings[0].header.start == 0
    (course,) = wall.levels
    assert [p.low for p in course.pieces] == [(-1.5, 130.5)]


def test_a_window_has_a_sill_under_it() -> None:
    """Bottom at 45 1/2, and 5 1/2 of board below it; header from 82 to 87 1/2."""
    found = one(WINDOW)
    assert found.sill is not None
    assert (found.sill.low, found.sill.high) == (40, 45.5)
    assert (found.header.low, found.header.high) == (82, 87.5)
    assert (found.sill.start, found.sill.end) == (94.5, 190.5)
    assert one(DOOR).sill is None


def test_jamb_posts_stand_beside_the_opening_from_the_row_below_to_the_row_above() -> None:
    """Rough opening 142 1/2 -+ 18 1/4. Under the sill's 40 is girt 1, 26.5417 up; over the header's 87 1/2 girt 4, its
    top 94.9167 + 3 1/2."""
    posts = named(one(WINDOW), "Jamb post")
    assert [(u.left, u.right) for u in posts] == [(122.75, 124.25), (160.75, 162.25)]
    for post in posts:
        assert (post.low, post.high) == pytest.approx((26.541667, 98.416667))
        assert not post.treated
        assert post.layer == "behind"


def test_a_door_s_posts_go_down_to_the_grade_line_and_are_treated() -> None:
    for post in named(one(DOOR), "Jamb post"):
        assert (post.low, post.treated) == (0, True)


def test_a_column_at_the_rough_opening_is_its_jamb() -> None:
    """Bay 2 is clear from 96 3/4 to 188 1/4, 91 1/2: 88 1/2 and 3."""
    assert named(one({**OVERHEAD, "width": "88 1/2"}), "Jamb post") == []
    # its left edge at the column, a post to its right
    beside = one({**OVERHEAD, **at("8'-3 3/4", measured_to="left"), "width": "36"})
    assert stretch(beside) == pytest.approx((96.75, 135.75))
    assert [u.left for u in named(beside, "Jamb post")] == pytest.approx([beside.right])


def test_jambs_that_are_columns_are_packed_out() -> None:
    """Bay 2 is 91 1/2 wide; 84 and 3 leave 2 1/4 to either side."""
    found = one({**OVERHEAD, "jambs": "columns"})
    assert named(found, "Jamb post") == []
    assert found.notes == (
        'D9: pack the column on its left out by 2 1/4".',
        'D9: pack the column on its right out by 2 1/4".',
    )
    assert one(OVERHEAD).notes == ()


def test_little_room_over_an_overhead_door_is_told() -> None:
    """Rough opening up to 3 1/2 + 127 + 1 1/2 = 132: 12 under the bearing. A walk door needs none."""
    assert one({**OVERHEAD, "height": "127"}).notes == ()
    assert one({**OVERHEAD, "height": "128"}).notes == (
        'D9: only 11" from its top to the bearing. Ask what the door needs.',
    )
    assert one({**DOOR, "height": "128"}).notes == ()


def test_what_a_track_board_lies_on_is_told_and_how_far_nothing_is_behind_it() -> None:
    """A door of 72 slides right on two leaves of 76: its track board runs from 104 1/2 to 256 1/2, its header to the
    middle of the column at 190 1/2, 66 less. Its place, 99 1/2 to 105, is between girt 4 (to 98.4167) and girt 5."""
    lies = "D9: the track board lies on the outside of"
    bare = "past its header, where no girt is behind it: put backing"
    asked = "Ask what the door needs."
    found = one(SLIDING)
    assert found.track
    assert (found.track.start, found.track.end, found.header.end) == (104.5, 256.5, 190.5)
    assert found.notes == (
        f'{lies} its header and of the girts. It runs 5\'-6" {bare} there, 1 1/2" out from the columns. {asked}',
    )
    # a foot higher it goes from 111 1/2 to 117, 6 in more from 117 1/2 to 123: girt 5 from 117.7083 is behind it
    assert one({**SLIDING, "height": "9'"}).notes == found.notes
    assert one({**SLIDING, "height": "9'-6"}).notes == (f"{lies} its header and of the girts.",)
    # between the columns the header ends at the rough opening, at 180, and the track board at 106 + 2 times 76, 258
    between = one(SLIDING, girts__place="between").notes
    assert between == (f"{lies} its header and the columns. It runs 6'-6\" {bare} between the columns there. {asked}",)
    assert one(SLIDING, girts__place="inside").notes == (f"{lies} the columns.",)


@pytest.mark.parametrize(("most", "count"), [("4'", 1), ("87", 0), ("29", 2), ("28", 3), ("1'", 7)])
def test_cripples_stand_no_further_apart_than_they_may(most: str, count: int) -> None:
    """Rough opening 87: in 48s 2 spaces, in 29s 3, in 28s 4, in 12s 8 (7 1/4)."""
    found = one({**OVERHEAD, "cripples": most, "height": "7'-6"})
    cripples = named(found, "Cripple")
    assert len(cripples) == count
    places = [found.left, *((u.left + u.right) / 2 for u in cripples), found.right]
    steps = [b - a for a, b in pairwise(places)]
    assert steps == pytest.approx([87 / (count + 1)] * (count + 1))


def test_cripples_lap_the_header_and_the_row_above() -> None:
    """Header 3 1/2 + 90 + 1 1/2 = 95 to 100 1/2, girt 5 from 117.7083 to 121.2083."""
    (cripple,) = named(one({**OVERHEAD, "height": "7'-6"}), "Cripple")
    assert (cripple.low, cripple.high) == pytest.approx((95, 121.208333))


def test_no_cripple_where_the_next_row_is_near() -> None:
    """A 2x6 header from 87 3/4 to 93 1/4 leaves 1.67 to girt 4 at 94.9167; one from 88 1/2 leaves 0.92."""
    assert named(one({**OVERHEAD, "height": "82 3/4"}), "Cripple")
    assert named(one({**OVERHEAD, "height": "83 1/2"}), "Cripple") == []


def test_cripples_under_a_sill() -> None:
    """A 6 ft window, 72 1/2: one cripple over it and one under, from girt 1 at 26.5417 to the sill's top."""
    under, over = sorted(named(one({**WINDOW, "width": "6'"}), "Cripple"), key=lambda u: u.low)
    assert (under.low, under.high) == pytest.approx((26.541667, 45.5))
    assert (over.low, over.high) == pytest.approx((82, 98.416667))


# --- in a gable -----------------------------------------------------------------------------------------------------


def test_a_window_in_a_gable() -> None:
    """Bay 2 of wall 1, columns at 130 1/2 and 250 1/2: chord there 153.25 + 130.5 / 3 = 196.75. Sill 13 ft over the
    floor, 159 1/2; header 196 to 201 1/2 is too high, with 2 ft of window 184 to 189 1/2."""
    found = one({**WINDOW, "wall": "1", "sill": "13'", "height": "2'"})
    assert (found.header.low, found.header.high) == (184, 189.5)
    assert (found.header.start, found.header.end) == (130.5, 250.5)
    # girt 8 from 186.08 lies in the header; girt 9's top, 212.375, is over the slope at the posts, 210.2 and less
    assert [u.high for u in named(found, "Jamb post")] == [189.5, 189.5]


def test_a_header_that_the_slope_leaves_no_room_for_on_a_column_ends_on_its_post() -> None:
    """The chord over the corner is 144 + 9 1/4 = 153 1/4; the header's top 3 1/2 + 114 + 36 1/2 + 5 1/2 = 159 1/2. Left
    post 1 1/2 beside the rough opening at 66.875 - 18.25: its middle 47.875, where the chord is at 169.2."""
    found = one({**WINDOW, "wall": "1", "bay": 1, "sill": "9'-6"})
    assert (found.header.start, found.header.end) == pytest.approx((47.875, 130.5))
    assert found.header.columns == ("C1",)
    # the next row, 163.29 to 166.79, is over the slope at the left post (169.0 at its foot): it is under it
    assert [u.high for u in named(found, "Jamb post")] == pytest.approx([166.791667, 166.791667])


def test_a_post_does_not_go_through_the_slope() -> None:
    """The same 2 ft further to the left: the chord over the post's outer edge, 22.5, is 160.8, under girt 7's 166.8."""
    found = one({**WINDOW, **at("3'-6 3/4"), "wall": "1", "sill": "9'-6"})
    low, high = (u.high for u in named(found, "Jamb post"))
    assert low == found.header.high
    assert high == pytest.approx(166.791667)


def test_the_back_gable_is_seen_from_its_own_left() -> None:
    """Mirrored columns: the same window, turned over, gets the same boards."""
    ends: dict[str, Any] = {"building__front_columns": ["11'", "21'"], "building__back_columns": ["11'", "21'"]}
    front = one({**WINDOW, "wall": "1", "bay": 1, "sill": "9'-6"}, **ends)
    back = one({**WINDOW, "wall": "7", "bay": 1, "sill": "9'-6"}, **ends)
    assert (back.header.start, back.header.end) == pytest.approx((front.header.start, front.header.end))
    assert [(u.left, u.high) for u in back.uprights] == [(u.left, u.high) for u in front.uprights]
    assert front.header.columns == ("B1",)
    assert back.header.columns == ("C7",)


# --- sliding --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("slides", "ends"),
    [
        # opening 298 1/2 to 370 1/2; a leaf laps both jambs by 2: 76
        ("right", (296.5, 448.5)),
        ("left", (220.5, 372.5)),
        # two leaves of 36 + 2: each goes its own length to its side of the middle, 334 1/2
        ("both", (258.5, 410.5)),
    ],
)
def test_a_track_is_twice_as_long_as_its_leaves(slides: str, ends: tuple[float, float]) -> None:
    track = one({**SLIDING, **at("28'"), "slides": slides}).track
    assert track is not None
    assert (track.start, track.end) == pytest.approx(ends)
    assert (track.low, track.high, track.outside) == (99.5, 105, True)  # on the rough opening's top


def test_the_lap_and_the_track_board_are_the_user_s() -> None:
    track = one({**SLIDING, **at("28'"), "lap": "3 1/2", "track": "2x8"}).track
    assert track is not None
    assert (track.start, track.end) == pytest.approx((295, 453))  # leaf 79
    assert track.high - track.low == 7.25


def test_a_door_that_slides_over_a_window_says_so() -> None:
    """Track to 448 1/2; a window in bay 5 of wall G begins before that."""
    both = opened({**SLIDING, **at("28'"), "wall": "G"}, {**WINDOW, "wall": "G", "bay": 5})
    assert both.walls[2].openings[0].notes[0] == "D9 slides over W9."
    away = opened({**SLIDING, **at("28'"), "wall": "G", "slides": "left"}, {**WINDOW, "wall": "G", "bay": 5})
    assert not any("slides over" in note for note in away.walls[2].openings[0].notes)


# --- two in a bay ---------------------------------------------------------------------------------------------------


def test_headers_of_two_windows_in_a_bay_end_on_their_own_posts() -> None:
    """Windows of 2 ft at 120 and 162: rough openings 106.25 to 130.75 and 148.25 to 172.75 from the corner."""
    left, right = (
        o
        for o in opened({**WINDOW, **at("10'"), "width": "2'"}, {**WINDOW, **at("13'-6"), "width": "2'", "name": "W8"})
        .walls[0]
        .openings
    )
    for board in left.levels:
        assert (board.start, board.end, board.columns) == (94.5, 131.5, ("A6",))  # 130.75 + 3/4
    for board in right.levels:
        assert (board.start, board.end, board.columns) == (147.5, 190.5, ("A5",))  # 148.25 - 3/4


def test_a_window_over_a_door_stands_on_the_door_s_header() -> None:
    """Door's header 101 to 106 1/2; the window's sill 3 1/2 + 109 - 5 1/2 = 107 to 112 1/2. Both headers whole; the
    window's posts lap the door's header, the door's cripples the window's sill."""
    door, window = opened({**OVERHEAD, "wall": "1"}, {**WINDOW, "wall": "1", "sill": "109"}).walls[3].openings
    assert (door.header.start, door.header.end) == (window.header.start, window.header.end) == (130.5, 250.5)
    assert [u.low for u in named(window, "Jamb post")] == [101, 101]
    assert [u.high for u in named(door, "Jamb post")] == [112.5, 112.5]


def test_a_window_over_the_rows_that_a_door_parts_stands_on_what_is_left() -> None:
    """Over an 8 ft door girt 5 is whole, from 117.7083: a window over it stands on that, and not on girt 4."""
    window = opened({**OVERHEAD, "wall": "1"}, {**WINDOW, "wall": "1", "sill": "128"}).walls[3].openings[1]
    assert [u.low for u in named(window, "Jamb post")] == pytest.approx([117.708333] * 2)


# --- girts between the columns --------------------------------------------------------------------------------------

BETWEEN: dict[str, Any] = {"girts__place": "between"}


def test_among_girts_between_columns_a_header_goes_from_jamb_to_jamb() -> None:
    """No girt outside: the columns stand on the building line, bay 2 clear from 98 1/4 to 189 3/4, its middle 144."""
    found = one(WINDOW, **BETWEEN)
    assert stretch(found) == pytest.approx((125.75, 162.25))
    assert found.framed == pytest.approx((124.25, 163.75))
    for board in found.levels:
        assert (board.start, board.end) == pytest.approx(stretch(found))
        assert (board.layer, board.columns) == ("between", ())
    for post in named(found, "Jamb post"):
        assert post.layer == "among"


def test_there_a_jamb_that_is_a_column_takes_the_header() -> None:
    """84 and 3 leave 2 1/4 to either column: packing is in the way of header and rows, so they go to the column."""
    found = one({**OVERHEAD, "jambs": "columns"}, **BETWEEN)
    assert (found.header.start, found.header.end) == pytest.approx((98.25, 189.75)) == found.framed
    assert found.header.columns == ("A6", "A5")


def test_there_boards_cannot_run_through() -> None:
    ((place, words),) = wrongs({**DOOR, "girts": "through"}, **BETWEEN)
    assert place == "opening 1.girts"
    assert "these lie between them" in words
