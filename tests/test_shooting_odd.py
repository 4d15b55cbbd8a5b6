"""Readings that are odd: told at once, written down with a note, confirmed or replaced."""

from __future__ import annotations

import pytest
from shooters import PLAIN, SITE, seats, shot

from layouts.shooting import start
from layouts.shooting_end import ending, greeting
from layouts.shooting_view import ODD, TWICE, unread

WALK = SITE.columns
ALL = seats()


ODD_ONES = {
    "out of the flag": (["45", "46 1/8"], 'Seat LOW 1 1/8" against A1, more than 1"'),
    "stands out from all": ([*ALL[:6], "48"], 'Seat LOW 2 11/16" against the middle of all seats'),
    "in feet": (["4.04"], "look like feet: A1 4.04"),
    "one in feet": (["45", "45", "3.78"], 'In feet it would be 3\'-9 3/8", near the others; in inches it is 3 3/4".'),
    "check-back": (["45", "45", "done", "45 1/4"], 'A1 read again is 1/4" off, 1/8" allowed: IT DOES NOT CLOSE.'),
}


@pytest.mark.parametrize("name", ODD_ONES)
def test_an_odd_reading_is_kept_with_a_note_and_asked_for_again(name: str) -> None:
    lines, why = ODD_ONES[name]
    found = shot(SITE, [*lines, ""])
    assert why in "\n".join(line for line in found.said if line.startswith("ODD: "))
    assert found.asked[-1].endswith(" AGAIN: ")
    assert found.rows[-1].endswith(f",{lines[-1]},{ODD}")


@pytest.mark.parametrize("name", ODD_ONES)
def test_the_same_number_confirms_it(name: str) -> None:
    lines, _ = ODD_ONES[name]
    found = shot(SITE, [*lines, lines[-1]])
    assert found.rows[-1].endswith(f",{lines[-1]},{TWICE}")
    assert found.state.ask != shot(SITE, lines).state.ask


def test_a_beam_far_from_the_first_one_is_no_other_unit() -> None:
    """The laser goes up four feet."""
    text = "unit,feet\nsense,down\ncolumn,reading\n"
    found = shot(SITE, ["4.00", "4.04", "moved", "", "8.00", "A2", "8.04"], text)
    assert not any(line.startswith("ODD") for line in found.said)


def test_another_number_replaces_it() -> None:
    found = shot(SITE, ["45", "54", "45 1/4", "45"])
    assert found.rows == ["A1,45,", "A2,45 1/4,", "A3,45,"]


def test_another_odd_number_is_asked_for_once_more() -> None:
    found = shot(SITE, ["45", "54", "53", "53"])
    assert found.rows == ["A1,45,", f"A2,53,{TWICE}"]


def test_the_same_number_in_other_words_confirms_it() -> None:
    assert shot(SITE, ["45", "54 1/2", "4'-6 1/2\""]).rows[-1] == f"A2,54 1/2,{TWICE}"


def test_an_odd_reading_that_is_left_stays_marked_and_counts() -> None:
    """A1 and A2 of 19 are read. A2 counts at the end as it does in the packet: it is the lowest seat."""
    found = shot(SITE, ["45", "54", "skip", "done"])
    assert found.rows[-1] == f"A2,54,{ODD}"
    assert found.values() == {"A1": 45, "A2": 54}
    assert found.said[-2:] == [f"Not read: {', '.join(WALK[2:])}.", "Odd, not read again: A2."]
    assert ending(found.state)[:3] == (
        "Round 1: 2 of 19 seats are read.",
        f"NOT READ: {', '.join(WALK[2:])}.",
        "ODD, NOT READ AGAIN: A2. Tags are made from what was read.",
    )
    assert any(line.startswith('Highest seat A1 45", lowest seat A2 54"') for line in ending(found.state))
    assert greeting(found.state)[2].startswith("2 read so far.")


def test_an_odd_reading_is_asked_for_again_when_the_round_goes_on() -> None:
    found = shot(SITE, ["45", "54", "skip"])
    later = start(SITE, found.text)
    assert "A2" in unread(SITE, found.book)
    assert (later.ask.point, later.ask.nth) == ("A2", 0)


def test_the_note_of_a_man_stays_before_ours() -> None:
    found = shot(SITE, ["45", "54 note in the creek", "54"])
    assert found.rows[-1] == f"A2,54,in the creek; {TWICE}"
    assert shot(SITE, ["45", "54 note in the creek", "45"]).rows[-1] == "A2,45,in the creek"


def test_a_seat_is_held_against_its_neighbours_once_both_are_read() -> None:
    """A2 is 5/8 lower than both, 1/2 allowed; until A3 is read it may be a slope."""
    found = shot(SITE, ["45", "45 5/8", "45"])
    assert not any(line.startswith("ODD") for line in found.said)
    assert found.said[-1] == 'Now A2 stands out: seat LOW 5/8" or more against both A1 and A3. go A2'


def test_a_wrong_reference_is_asked_about_and_not_every_seat() -> None:
    """A1 is 2 in wrong: A2 is out of the flag against it, from A3 on most are."""
    found = shot(SITE, ["43", "45", "45", "45", "45"])
    assert found.asked[2:] == ["A2 (2 of 19) AGAIN: ", "A3 (3 of 19): ", "A4 (4 of 19): "]
    assert found.said[-1] == "Most seats stand far from A1: is A1 right itself? go A1"


def test_the_sense_is_doubted_when_the_eye_says_otherwise() -> None:
    text = PLAIN.replace("column", "highest,A1\nlowest,A2\ncolumn", 1)
    found = shot(SITE, ["45", "44 1/2"], text)
    assert found.said[-1].startswith("By eye A1 is the highest seat and A2 the lowest")
    assert found.rows[-1] == "A2,44 1/2,"  # read right: it is the words that are wrong
