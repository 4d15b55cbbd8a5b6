"""Openings that cannot be: refused by their field, with what would be right."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import BASE, Raw, problems, toml_text
from opened import DOOR, OVERHEAD, SLIDING, WINDOW, at, one, opened, wrongs


@pytest.mark.parametrize(
    ("part", "place", "says"),
    [
        ({**DOOR, "wall": "B"}, "wall", "is not a wall of this job"),
        ({**DOOR, "bay": 7}, "bay", "is not there. Wall A has 6 bays."),
        ({**DOOR, "at": "5'"}, "bay", "one of the two"),
        ({**DOOR, "bay": Raw("")}, "bay", "or `at` must be given"),
        ({**DOOR, **at("8'")}, "width", "has column A6 standing in its rough opening"),
        ({**OVERHEAD, "width": "20'"}, "width", "has column A6, A5 standing in its rough opening"),
        ({**DOOR, **at("60'")}, "at", "puts the opening out of the wall. Wall A is 48'-0\" long."),
        ({**DOOR, "name": "A3"}, "name", "is the name of a column"),
        ({**DOOR, "sill": "1'"}, "sill", "is of a window"),
        # 88 and 3 in a bay of 91 1/2 leave 1/4 to either side
        ({**OVERHEAD, "width": "88"}, "jambs", 'leaves 1/4" to the column on its left'),
        # 76 and 3: 6 1/4
        ({**OVERHEAD, "width": "76", "jambs": "columns"}, "jambs", "too far for packing"),
        # header 139 to 144 1/2
        ({**OVERHEAD, "height": "134"}, "height", "puts the header's top at 12'-0 1/2\", above the top girt, 11'-8"),
        # header 138 to 143 1/2: the lower half of the top girt
        ({**OVERHEAD, "height": "133"}, "height", "above the top girt, 11'-8 1/2\""),
        ({**WINDOW, "sill": "9"}, "sill", 'in the grade board. The grade board ends at 7 1/4"'),  # 3 1/2 + 9 - 5 1/2
        ({**WINDOW, "sill": Raw("")}, "sill", "in the grade board"),
        # header to 213 1/2; chord over the middle of the left post 153 1/4 + 171 1/2 / 3 = 210.4167
        ({**WINDOW, "wall": "1", "sill": "14'"}, "height", "above the chord, 17'-6 7/16\""),
        ({**SLIDING, "bay": 6}, "slides", "needs a track board"),
        ({**DOOR, "slides": "right"}, "slides", 'is of a sliding door. Leave it out, or give kind = "sliding".'),
        ({**WINDOW, "slides": "both"}, "slides", "is of a sliding door."),
        ({**SLIDING, "bay": 1, "slides": "left"}, "slides", "Let it slide the other way"),
        ({**SLIDING, "height": "136"}, "track", "puts the track board's top at 12'-1\", above the bearing"),
        ({**DOOR, "width": "four"}, "width", ""),
        ({**DOOR, "colour": "red"}, "colour", "is not a field"),
        ({**DOOR, "wall": Raw("")}, "wall", "must be given"),
    ],
)
def test_what_cannot_be_is_refused_by_its_field(part: dict[str, Any], place: str, says: str) -> None:
    found = wrongs(part)
    assert f"opening 1.{place}" in [p for p, _ in found]
    assert any(says in words for p, words in found if p == f"opening 1.{place}")


def test_places_of_what_is_refused_are_told_from_where_they_are_given() -> None:
    """A door of 3 ft at 8 ft from the building line: 96 - 38 / 2 = 77 to 115, and so it is told, not 1 1/2 less from
    the corner column: who moved a column by that was refused again. At 1 ft its left side stands at 12 - 19 = -7: out
    of the wall, whatever column it meets there."""
    ((_, words),) = wrongs({**DOOR, **at("8'")})
    assert words.startswith(
        "has column A6 standing in its rough opening, 6'-5\" to 9'-7\" from the building line at the"
    )
    (place, words) = wrongs({**DOOR, **at("1'")})[0]
    assert (place, words) == ("opening 1.at", "puts the opening out of the wall. Wall A is 48'-0\" long.")


def test_a_header_under_the_top_girt_or_in_its_place_is_let_be() -> None:
    """135 to 140 1/2, and 138 1/2 to 144 instead of it: the girt then has a gap from A6 to A5."""
    assert wrongs({**OVERHEAD, "height": "130"}) == []
    found = opened({**OVERHEAD, "height": "133 1/2"})
    top = next(c for c in found.walls[0].courses if c.row.key == "top girt")
    assert (94.5, 190.5) not in [p.low for p in top.pieces]
    assert [p.low for p in top.pieces if p.low[0] < 100] == [(0, 94.5)]


def test_a_header_of_the_same_board_may_take_the_place_of_the_top_girt() -> None:
    """3 1/2 + 135 1/2 + 1 1/2 over the opening = 140 1/2 to 144, like the girt."""
    part = {**OVERHEAD, "height": "135 1/2", "header": "2x4"}
    header = one(part).header
    assert (header.low, header.high) == (140.5, 144)
    ((_, words),) = wrongs({**part, "height": "135"})
    assert words.startswith("puts the header's top at 11'-11 1/2\", above the top girt, 11'-8 1/2\"")


def test_a_header_has_to_stay_under_the_soffit() -> None:
    """Soffit nailer top 144 + 9 1/4 + 5.7975 - 24/3 - 5 1/2 = 145.5475, less 3 1/2: 142.0475."""
    soffit: dict[str, Any] = {"roof__overhang": "24", "roof__soffit": "level"}
    assert wrongs({**OVERHEAD, "height": "131 1/2"}, **soffit) == []  # header to 142
    ((place, words),) = wrongs({**OVERHEAD, "height": "131 5/8"}, **soffit)
    assert place == "opening 1.height"
    assert "above the soffit nailer" in words


@pytest.mark.parametrize(
    ("other", "says"),
    [
        ({**DOOR, "name": "D8"}, "lies in D9"),
        ({**WINDOW, "name": "D8", "sill": "2'"}, "lies in D9"),
        # rough openings 102.25 to 140.25 and 142.25 to ...: 2 between, and two posts take 3
        ({**WINDOW, "name": "D8", **at("13'-6 3/4")}, "stands too near to D9"),
        # over it: sill 88 1/2 to 94, in the header to 91
        ({**WINDOW, "name": "D8", "wall": "A", **at("10'-2 3/4"), "sill": "7'-6 1/2"}, "stands too near to D9"),
    ],
)
def test_openings_in_one_another_are_refused(other: dict[str, Any], says: str) -> None:
    first = DOOR if "at" not in other else {**DOOR, **at("10'-2 3/4")}
    ((place, words),) = wrongs(first, other)
    assert place in ("opening 2.bay", "opening 2.at")
    assert says in words


def test_tracks_in_one_another_are_refused() -> None:
    """The first's track to 448 1/2, the second's from 400 1/2 - 2 - 64 = 334 1/2 on."""
    other = {**SLIDING, "name": "D8", **at("36'"), "width": "5'", "slides": "left"}
    found = wrongs({**SLIDING, **at("28'")}, other)
    assert [(p, "in that of D9" in words) for p, words in found] == [("opening 2.at", True)]


def test_a_track_across_another_opening_is_refused() -> None:
    """The track board at 99 1/2 to 105 runs to 448 1/2, past a door of 9 ft in bay 5, from 384 to 480; a window that
    ends at 82 is under it."""
    track = {**SLIDING, **at("28'"), "wall": "G"}
    found = wrongs(track, {**OVERHEAD, "name": "D8", "wall": "G", "bay": 5, "height": "9'"})
    says = "stands too near to D9: Track board D9 would run through D8. Move one of them."
    assert found == [("opening 2.bay", says)]
    assert wrongs(track, {**WINDOW, "wall": "G", "bay": 5}) == []


def test_two_names_alike_are_refused_once() -> None:
    assert wrongs(DOOR, {**DOOR, "bay": 3}) == [("opening 2.name", "is the name of another opening. No two alike.")]


@pytest.mark.parametrize(("first", "second"), [("O1", "o1"), ("o1", "O1"), ("ta\u00dfe", "TASSE")])
def test_two_names_that_are_alike_in_capitals_are_refused(first: str, second: str) -> None:
    """Rods and tags set both in capitals: whoever reads HEADER O1 there has to know which."""
    wrong = "is the name of opening 1 but for capitals. No two alike, for sheets have names in capitals too."
    assert wrongs({**DOOR, "name": first}, {**DOOR, "name": second, "bay": 3}) == [("opening 2.name", wrong)]


def test_an_opening_and_a_column_that_are_alike_in_capitals_are_refused() -> None:
    found = wrongs({**DOOR, "name": "a3"})
    assert [(p, "is the name of column A3 but for capitals." in words) for p, words in found] == [
        ("opening 1.name", True)
    ]


def test_a_job_with_many_mistakes_lists_them_all() -> None:
    places = [
        place
        for place, _ in wrongs(
            {**DOOR, "wall": "Q"},
            {**DOOR, "name": "D8", "bay": 9},
            {**DOOR, "name": "N7", "sill": "1'", "height": "20'"},
            {**OVERHEAD, "name": "D6", "width": "20'"},
            {**WINDOW, "name": "D8", "bay": 4},
        )
    ]
    assert places == [
        "opening 1.wall",
        "opening 2.bay",
        "opening 3.sill",
        "opening 3.height",
        "opening 4.width",
        "opening 5.name",
    ]


def test_mistakes_of_openings_stand_beside_those_of_other_fields() -> None:
    found = wrongs({**DOOR, "wall": "Q"}, {**DOOR, "name": "D8", "width": "wide"}, job__fraction="7")
    assert {place for place, _ in found} == {"opening 1.wall", "opening 2.width", "job.fraction"}


@pytest.mark.parametrize(
    ("given", "says"),
    [('"x"', "must be tables"), ("[1]", "must be tables"), ("[" + "{}, " * 61 + "]", "At most 60")],
)
def test_openings_that_are_no_tables(given: str, says: str) -> None:
    found = problems(toml_text({**BASE, "opening": Raw(given)}))
    assert [p.place for p in found] == ["opening"]
    assert says in str(found[0])
