"""A round taken up again, a second one, a laser that was moved, benchmarks."""

from __future__ import annotations

import pytest
from shooters import PLAIN, SITE, SLOPE, Shot, seats, shot, site, sixteenths, whole

from layouts.shooting_end import ending, greeting
from layouts.shooting_view import ODD

WALK = SITE.columns
ALL = seats()


# --- taken up again ---------------------------------------------------------------------------------------------------

MOVES = [*ALL[:4], "51", "45 3/8", *ALL[5:9], "moved", "A1", "46", "A9" if "A9" in WALK else "A5", "46 3/8"]
SCRIPTS = {
    "plain": [*ALL, "45 1/16"],
    "odd": [*ALL[:5], "54", "54", *ALL[6:], "45"],
    "odd and replaced": [*ALL[:5], "54", ALL[5], *ALL[6:], "45 1/2", "45"],
    "moved": [*MOVES, *(sixteenths(16 + n) for n in SLOPE[9:]), "46"],
    "benchmark": [*ALL[:3], "benchmark BM1, nail in the pole", "47", *ALL[3:], "45"],
    "notes": ["45 note mud", *ALL[1:6], "note wet", *ALL[6:], "45"],
}


@pytest.mark.parametrize("name", SCRIPTS)
def test_taken_up_after_any_answer_gives_the_file_of_one_go(name: str) -> None:
    """Every line in a session of its own. What was only asked for, and not read yet, is asked for again."""
    lines = SCRIPTS[name]
    one = shot(SITE, lines)
    assert one.over
    text, pending = PLAIN, []
    for line in lines:
        pending.append(line)
        found = shot(SITE, pending, text)
        if found.text != text:
            text, pending = found.text, []
    assert text == one.text


def test_a_whole_round_taken_up_again_asks_for_nothing_more() -> None:
    found = shot(SITE, [""], whole("45").text)
    assert found.asked == ["Nothing more to read. Enter ends, go NAME changes one: "]
    assert found.over


def test_a_whole_round_without_its_check_back_asks_for_that() -> None:
    assert shot(SITE, ["45"], whole().text).asked == ["CHECK-BACK, A1 (1 of 19) again: "]


def test_more_seats_after_a_check_back_want_another_one() -> None:
    early = shot(SITE, ["45", "45", "done", "45"])
    late = shot(SITE, [*ALL[2:], "45"], early.text)
    assert late.over
    assert [row.partition(",")[0] for row in late.rows].count("A1") == 3


def test_greeting_tells_where_it_stands() -> None:
    lines = greeting(shot(SITE, ["45", "45"]).state)
    assert lines[0] == "Tamarack hay barn: 19 columns, round 1, set-up 1, into readings.csv"
    assert lines[1] == "Read in inches, larger is lower, on the seat."
    assert lines[2] == "2 read so far. If the laser was moved or set up anew since, type moved."
    assert all(len(line) <= 80 for line in lines)


# --- rounds -----------------------------------------------------------------------------------------------------------


def test_a_second_round_is_laid_on_the_first() -> None:
    """Every reading 1/4 more: the beam stood higher; the seats are where they were."""
    first = whole("45")
    found = shot(site(round_="2"), [*(sixteenths(4 + n) for n in SLOPE), "45 1/4"], first.text)
    assert found.over
    assert found.asked[0] == "A1 (1 of 19, round 2): "
    assert found.rows[20] == "A1,45.25,,2"
    assert found.text.splitlines()[3] == "column,reading,note,round"
    assert found.values() == pytest.approx(first.values(), abs=1e-12)


def test_rounds_that_differ_on_a_seat_ask_for_it_again() -> None:
    """A4 reads 1/4 more than the others' shift: 1/8 allowed."""
    lines = [*ALL[:3], sixteenths(SLOPE[3] + 4)]
    found = shot(site(round_="2"), lines, whole("45").text)
    assert 'ODD: Its rounds are 1/4" apart, 1/8" allowed' in found.said
    assert found.rows[-1].endswith(f"{ODD},2")


def test_a_round_that_does_not_close_can_be_shot_again() -> None:
    bad = whole("45 1/2", "45 1/2")
    assert bad.over
    assert "--round 2" in "\n".join(ending(bad.state))
    again = shot(site(round_="2"), [*ALL, "45"], bad.text)
    assert again.over
    assert again.values()["A2"] == 45.125


# --- set-ups ----------------------------------------------------------------------------------------------------------


def _joined(*joints: str) -> Shot:
    """The laser moved after A5, one inch up, joined by seats read before."""
    read = dict(zip(WALK, SLOPE, strict=True))
    lines = [*ALL[:5], "moved"]
    for name in joints:
        lines += [name, sixteenths(16 + read[name])]
    if len(joints) < 2:
        lines.append("")
    return shot(SITE, [*lines, *(sixteenths(16 + n) for n in SLOPE[5:]), sixteenths(16 + read[joints[0]])])


@pytest.mark.parametrize("joints", [("A1", "A5"), ("A5", "A2"), ("A1",)])
def test_a_moved_laser_joined_by_seats_gives_the_values_of_one_set_up(joints: tuple[str, ...]) -> None:
    found = _joined(*joints)
    assert found.over
    assert {s.setup for s in found.book.sights} == {"1", "2"}
    assert found.values() == pytest.approx(whole("45").values(), abs=1e-12)


def test_the_second_joint_tells_how_it_closes() -> None:
    assert (
        'round 1: A5 read again is exactly as before over 2 set-ups, 1/4" allowed: it closes.'
        in _joined("A1", "A5").said
    )


def test_a_joint_that_does_not_close_is_asked_for_again() -> None:
    """A5 reads 45 3/8; one inch up and 3/8 off, 1/8 a set-up allowed."""
    found = shot(SITE, [*ALL[:5], "moved", "", "46", "A5", "46 3/4"])
    assert found.said[-2] == 'ODD: round 1: A5 read again is 3/8" off over 2 set-ups, 1/4" allowed: IT DOES NOT CLOSE.'
    assert shot(SITE, ["46 3/8"], found.text).asked == ["A5 (5 of 19, set-up 2) AGAIN: "]


def test_the_list_says_from_which_set_up_a_number_is() -> None:
    """A1 45 and, an inch up, A5 46 3/8: the numbers of two beams stand under one another and do not compare."""
    found = shot(SITE, [*ALL[:5], "moved", "", "46", "A5", "46 3/8", "list"])
    listed = [line.split("  ")[-1] for line in found.said if line.startswith(("  A1 ", "  A2 ", "  A5 "))]
    assert listed == ["set-up 2", "set-up 1", "set-up 2"]
    assert not any("set-up" in line for line in shot(SITE, [*ALL[:3], "list"]).said)


def test_only_what_was_read_before_joins() -> None:
    found = shot(SITE, ["45", "45", "moved", "A7", "47", "skip", "a2", "46"])
    assert found.said[7] == "A7 was not read before in this round: name what you read. Known: A1, A2."
    assert found.rows[-1] == "A2,46,,2"


def test_back_takes_a_move_back() -> None:
    found = shot(SITE, ["45", "moved", "back", "45"])
    assert found.said[-4] == "Not moved: set-up 1 goes on."
    assert found.rows == ["A1,45,", "A2,45,"]


def test_a_seat_read_again_from_a_second_set_up_changes_nothing_of_the_first() -> None:
    found = shot(SITE, [*ALL[:5], "moved", "A1", "46", "", "go A3", "46 1/4"])
    assert found.rows[2] == "A3,45.25,"
    assert found.rows[-1] == "A3,46 1/4,,2"


def test_nothing_can_be_moved_before_it_is_read() -> None:
    assert shot(SITE, ["moved"]).said == ["Nothing is read from set-up 1 yet: it may be moved as you like."]


def test_a_set_up_named_at_the_start_is_joined_first() -> None:
    found = shot(SITE, ["", "46", ""], shot(SITE, ALL[:5]).text, setup="noon")
    assert found.asked[0] == "Which seat or benchmark read before do you read again? [A1] "
    assert found.rows[-1] == "A1,46,,noon"


def test_the_end_of_set_ups_that_are_not_joined() -> None:
    text = PLAIN.replace("note", "note,set-up") + "A1,45,,1\nA2,46,,2\n"
    found = shot(SITE, ["done"], text)
    assert "NOT JOINED" in "\n".join(ending(found.state))
    assert any("shares no point" in line for line in greeting(shot(SITE, [], text).state))


def test_the_end_asks_for_the_rounds_first_point_where_only_a_later_one_was_read_back() -> None:
    """A5 alone joins the set-ups: whether the laser stood still before it nobody knows."""
    assert "NO CHECK-BACK over all set-ups: A1 is in no loop" in "\n".join(ending(_joined("A5").state))
    assert "NO CHECK-BACK" not in "\n".join(ending(_joined("A5", "A1").state))


# --- benchmarks -------------------------------------------------------------------------------------------------------


def test_a_benchmark_is_named_in_the_file_and_read() -> None:
    found = shot(SITE, ["45", "benchmark BM1, nail in the pole", "47", "45"])
    assert found.asked[2:] == ["BM1: ", "A2 (2 of 19): "]
    assert dict(found.book.head.benchmarks) == {"BM1": "nail in the pole"}
    assert found.rows[1] == "BM1,47,"
    assert 'BM1 reads 47"' in found.said


def test_a_benchmark_that_nobody_read_leaves_nothing_behind() -> None:
    assert shot(SITE, ["benchmark BM1", "skip"]).text == PLAIN


def test_a_benchmark_may_join_set_ups() -> None:
    found = shot(SITE, ["benchmark BM1", "47", "45", "moved", "bm1", "48", "", "46"])
    assert found.values() == {"A1": 45.0, "A2": 45.0}


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("benchmark", "benchmark NAME: none is named yet"),
        ("benchmark a1", "A1 is a column of this job: go A1"),
    ],
)
def test_no_benchmark(typed: str, told: str) -> None:
    assert shot(SITE, [typed]).said[0].casefold() == told.casefold()


def test_a_benchmark_the_job_wants_is_asked_for_at_both_ends() -> None:
    found = shot(site({"grade.benchmark": "BM1"}), ["45"])
    assert "benchmark BM1" in "\n".join(greeting(found.state))
    assert "NOT READ: BM1, which the job wants its floor from." in ending(found.state)
    assert "PROVISIONAL" in found.said[-1]


# --- how it ends ------------------------------------------------------------------------------------------------------


def test_a_round_that_does_not_close_is_not_told_to_lack_its_check_back() -> None:
    """A5 is 3/8 off from set-up 2; A1 was its joint, and may not have been read again from there."""
    found = shot(SITE, [*ALL[:5], "moved", "A1", "46", "A5", "46 3/4", "46 3/4"])
    told = "\n".join(ending(found.state))
    assert "IT DOES NOT CLOSE." in told
    assert "NO CHECK-BACK" not in told
    assert "--round 2" in told


def test_no_seat_and_no_line_is_told_of_a_round_that_does_not_close() -> None:
    """A5 reads 45 3/8, and from set-up 2, an inch up, 64 3/8 for 46 3/8, its digits turned: 18 in off. Half of it would
    be spread over the seats read from there, A6 among them, which would be told to be shot again."""
    found = shot(SITE, [*ALL[:5], "moved", "A1", "46", "A5", "64 3/8", "64 3/8", "80"])
    told = ending(found.state)
    assert told[-1] == "Nothing of this round counts until it closes."
    assert "ODD, NOT READ AGAIN: A6." in told  # no tag is made of it
    assert not any(line.startswith(("SHOOT AGAIN", "Highest", "Line reading")) for line in told)
    mended = ending(shot(SITE, ["go A5", "46 3/8"], found.text).state)
    assert any(line.startswith("Highest seat") for line in mended)


def test_what_is_advised_to_close_a_tour_closes_it() -> None:
    """A5 ties set-up 2, an inch up, and is read back: A1, 45, is in no loop. A3, 45 1/4, another seat of set-up 1,
    closes a loop of its own and leaves A1 out; A1 itself is what closes the tour."""
    lone = shot(SITE, [*ALL[:5], "moved", "A5", "46 3/8", "", "46 1/2", "done", "46 3/8"])
    unsure = "NO CHECK-BACK over all set-ups: A1 is in no loop, nobody knows whether the laser stood still. "
    assert f"{unsure}Read A1 again." in ending(lone.state)
    back = ["go A3", "46 1/4", "done", "46 3/8"]
    assert f"{unsure}Read A1 again." in ending(shot(SITE, back, lone.text).state)
    back[:2] = "go A1", "46"
    assert not any(line.startswith("NO CHECK-BACK") for line in ending(shot(SITE, back, lone.text).state))


def test_a_check_back_that_more_seats_follow_is_missing_at_the_end_alone() -> None:
    """A1 was read again after A2, and A3 after that."""
    found = shot(SITE, [*ALL[2:3], "done"], shot(SITE, [*ALL[:2], "done", "45"]).text)
    told = ending(found.state)
    assert 'Round 1: A1 read again is exactly as before, 1/8" allowed: it closes.' in told
    unsure = "nobody knows whether the laser stood still. Run this again to read it."
    assert f"NO CHECK-BACK: A1 was not read again at the end, {unsure}" in told
    moved = shot(SITE, [*ALL[:5], "moved", "A1", "46", "A5", "46 3/8"])
    assert f"NO CHECK-BACK: A1 was not read again at the end of set-up 2, {unsure}" in ending(moved.state)


def test_a_seat_read_twice_by_the_same_number_is_not_said_to_be_read_once() -> None:
    """A5 is 7 in lower than all others, and was read again on request."""
    found = shot(SITE, [*ALL[:4], "52", "52", *ALL[5:], "45"])
    told = "\n".join(ending(found.state))
    assert "A5 had no say: far from all others, and no other reading bears it out." in told
    assert "it stands out; read twice." in told
    assert "read once" not in told


def test_a_seat_that_was_read_twice_is_told_what_its_tag_waits_for() -> None:
    """A2 reads 46.02, 1.02 in lower than A1 and A3, more than the flag of 1 and 1/2 of neighbours: 1 1/16 is the next
    sixteenth that lets it be, and both are wanted. One that was not read again is to be read again."""
    said = 'A2 was read twice: if it stands so, give grade.flag 1 1/16" or more{}, else its tag says SHOOT AGAIN.'
    two, three = shot(SITE, ["45", "46.02", "46.02"]), shot(SITE, ["45", "46.02", "46.02", "45"])
    assert ending(two.state)[-1] == said.format("")
    assert ending(three.state)[-1] == said.format(' and readings.neighbour 1 1/16" or more')
    assert not any("was read twice" in line for line in ending(shot(SITE, ["45", "46.02", "skip"]).state))
    let = site({"grade.flag": "1 1/16", "readings.neighbour": "1 1/16"})
    assert not any("SHOOT AGAIN" in line for line in ending(shot(let, [], three.text).state))
