"""A round shot at the prompt, without files: what is asked, what an answer does, what stands in the file afterwards."""

from __future__ import annotations

import jobs
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from shooters import PLAIN, SITE, SLOPE, Shot, seats, shot, site, whole

from layouts.shooting import prompt, start
from layouts.shooting_end import ending
from layouts.shooting_steps import answer
from layouts.shooting_view import ODD

WALK = SITE.columns
ALL = seats()


# --- the walk ---------------------------------------------------------------------------------------------------------


def test_columns_are_asked_in_walking_order() -> None:
    found = shot(SITE, ALL)
    assert [p.partition(" ")[0] for p in found.asked] == WALK
    assert found.asked[4] == "A5 (5 of 19): "
    assert found.rows == [f"{name},{text}," for name, text in zip(WALK, ALL, strict=True)]


def test_all_read_leads_to_the_check_back_and_the_end() -> None:
    found = whole("45")
    assert found.asked[-1] == "CHECK-BACK, A1 (1 of 19) again: "
    assert found.over
    assert found.rows[-1] == "A1,45,"
    assert 'round 1: A1 read again is exactly as before, 1/8" allowed: it closes.' in found.said
    assert found.values() == {n: 45 + s / 16 for n, s in zip(WALK, SLOPE, strict=True)}


@pytest.mark.parametrize("typed", ["", "   ", "\t", "\x00"])
def test_nothing_typed_asks_the_same_again(typed: str) -> None:
    found = shot(SITE, [typed, "45"])
    assert found.asked == ["A1 (1 of 19): "] * 2
    assert found.rows == ["A1,45,"]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("bakc", "bakc is no reading and no word. Did you mean back?"),
        ("quit", "quit is no reading and no word. Type done;"),
        ("rod", "rod is no reading and no word. A reading is typed like 45 1/8; help shows the words."),
        ("45 1/7", "NOT TAKEN: 45 1/7: a tape has halves"),
        ("44,5", "NOT TAKEN: 44,5: no commas"),
        ("-3", "NOT TAKEN: -3 is above the beam."),
        ("0", "NOT TAKEN: 0 is in the beam itself."),
        ("1143", "NOT TAKEN: 1143 is longer than any rod"),
        ("a2", "a2 is a column: go a2 goes there."),
        ("\x1b[A", "[A is no reading"),
        ("45 note \u2603", "No sheet can print"),
        ("45 note 3/8", "NOT TAKEN: 3/8 is a fraction where a note stands."),
    ],
)
def test_what_is_no_reading_is_told_and_not_written(typed: str, told: str) -> None:
    found = shot(replace(SITE, unprintable=lambda text: "".join(c for c in text if ord(c) > 0x2000)), [typed])
    assert found.text == PLAIN
    assert found.said[0].startswith(told)


def test_the_offset_is_provisional_until_all_are_read() -> None:
    """Highest of those read so far 45, less the least offset of 1, on half inches: 44."""
    found = shot(SITE, ["45", "45 1/8"])
    assert found.said[3:] == [
        'A2 reads 45 1/8"',
        'SEAT LOW 1/8" against A1: COLUMN 1/8" LONGER',
        'offset 1 1/8" PROVISIONAL, from line reading 44" so far',
    ]


def test_the_offset_is_sure_where_the_line_is_given() -> None:
    found = shot(site({"grade.line": "43 1/2"}), ["45 1/8"])
    assert found.said[-1] == 'offset 1 5/8" from line reading 43 1/2"'


def test_the_offset_is_sure_once_all_are_read() -> None:
    """Highest seat 45 - 4/16 = 44 3/4, at least 1 below it: 43 1/2; C1 reads 44 15/16."""
    found = shot(SITE, ALL)
    assert found.said[-1] == 'offset 1 7/16" from line reading 43 1/2"'


# --- going about ------------------------------------------------------------------------------------------------------


def test_back_changes_the_reading_before() -> None:
    found = shot(SITE, ["45", "45 1/8", "back", "45 1/4", "45"])
    assert found.asked[3:] == ["A2 (2 of 19) is 45 1/8, Enter keeps it: ", "A3 (3 of 19): "]
    assert found.rows == ["A1,45,", "A2,45 1/4,", "A3,45,"]


def test_back_and_enter_keeps_it() -> None:
    found = shot(SITE, ["45", "45 1/8", "back", "back", "", "45 1/4"])
    assert found.asked[4:] == ["A1 (1 of 19) is 45, Enter keeps it: ", "A3 (3 of 19): "]
    assert found.rows == ["A1,45,", "A2,45 1/8,", "A3,45 1/4,"]


def test_back_goes_by_the_order_of_reading() -> None:
    found = shot(SITE, ["45", "go B7", "45", "back", "", "back"])
    assert "B7" in found.asked[4]
    assert found.asked[5].startswith(WALK[WALK.index("B7") + 1])
    assert shot(SITE, ["back"]).said == ["Nothing was read before it."]


def test_skip_leaves_a_seat_out_and_it_is_asked_no_more() -> None:
    found = shot(SITE, ["45", "skip", *ALL[2:]])
    assert found.rows[1].startswith("A3,")
    assert found.state.ask.nth == 1  # the check-back is next


def test_a_skipped_seat_is_asked_first_when_the_round_is_taken_up_again() -> None:
    found = shot(SITE, ["45", "skip", "45"])
    assert shot(SITE, ["45"], found.text).asked == ["A2 (2 of 19): "]


def test_go_walks_on_from_there_and_round_to_what_is_left() -> None:
    found = shot(SITE, ["45", "go c1", "45", "45"])
    assert found.asked[2:] == ["C1 (19 of 19): ", "A2 (2 of 19): "]


def test_go_to_nowhere_is_told_the_nearest() -> None:
    assert shot(SITE, ["go a-2"]).said == ["a-2: no such column. Did you mean A2?"]


def test_go_knows_the_crews_names_and_the_grid_names() -> None:
    named = site({"names.A2": "SHED"})
    for name in ("SHED", "shed", "A2", "a2"):
        assert shot(named, [f"go {name}", "45"]).rows == ["SHED,45,"]


def test_done_names_what_is_missing_and_asks_for_the_check_back() -> None:
    found = shot(SITE, ["45", "45", "done", "45 1/16"])
    assert found.said[6] == f"Not read: {', '.join(WALK[2:])}."
    assert found.over
    assert found.rows[-1] == "A1,45 1/16,"


@pytest.mark.parametrize("last", ["done", "skip"])
def test_done_at_the_check_back_ends_without_it(last: str) -> None:
    found = shot(SITE, ["45", "45", "done", last])
    assert found.over
    assert "NO CHECK-BACK: A1 was not read again" in "\n".join(ending(found.state))


@pytest.mark.parametrize("last", ["done", "skip"])
def test_done_at_an_odd_check_back_ends_with_it_marked(last: str) -> None:
    found = shot(SITE, ["45", "45", "done", "46", last])
    assert found.over
    assert found.rows[-1].endswith(ODD)
    assert "IT DOES NOT CLOSE" in "\n".join(ending(found.state))


def test_one_reading_alone_has_no_check_back() -> None:
    assert shot(SITE, ["45", "done"]).over


def test_words_behind_a_reading_are_told_where_they_go() -> None:
    """They were told to be no unit."""
    found = shot(SITE, ["45 1/8 mud on the rod"], PLAIN)
    assert found.said[-1] == 'NOT TAKEN: words go behind the word note, like "45 1/8 note mud on the rod".'
    assert found.rows == []
    assert "unit" in shot(SITE, ["45 1/8 x 3"], PLAIN).said[-1]
    assert shot(SITE, ["45 1/8 in"], PLAIN).rows[-1].startswith("A1,45 1/8 in")


def test_list_and_help_write_nothing() -> None:
    found = shot(SITE, ["45", "list", "help"], PLAIN)
    assert found.rows == ["A1,45,"]
    assert "  A1      45  REFERENCE SEAT" in found.said
    assert "  A2       -  NOT READ" in found.said
    assert any(line.startswith("  benchmark NAME") for line in found.said)


# --- notes, and lines that stand there already ------------------------------------------------------------------------


def test_a_note_waits_for_its_reading() -> None:
    found = shot(SITE, ["45", "note form still in", "skip", "45", "go A2", "45 1/8"])
    assert found.rows == ["A1,45,", "A2,45 1/8,form still in", "A3,45,"]


def test_a_note_before_the_first_reading_does_not_spoil_the_check_back() -> None:
    found = shot(SITE, ["note form still in", "skip", "45", "45", "done", "45"])
    assert found.over
    assert found.rows == ["A1,,form still in", "A2,45,", "A3,45,", "A2,45,"]


def test_a_line_that_waits_for_its_reading_is_filled_where_it_stands() -> None:
    text = PLAIN + "A1,,\nA2,,mind the hole\nA3,,\n"
    found = shot(SITE, ["45", "45 1/8", "45"], text)
    assert found.rows == ["A1,45,", "A2,45 1/8,mind the hole", "A3,45,"]


WAITING = PLAIN + "A1,,\nA2,,\nA3,,\n"


def test_what_is_read_first_stays_first_in_the_file() -> None:
    """A line that waits above it is left: its reading goes to the end, or the check-back would be another seat's."""
    found = shot(SITE, ["go A2", "45", "go A1", "45 1/8", "done", "45 1/16"], WAITING)
    assert found.asked[-1] == "CHECK-BACK, A2 (2 of 19) again: "
    assert found.rows == ["A1,,", "A2,45,", "A3,,", "A1,45 1/8,", "A2,45 1/16,"]


def test_what_is_read_after_a_check_back_wants_another_one() -> None:
    early = shot(SITE, ["45", "skip", "45", "done", "45"], WAITING)
    late = shot(SITE, ["45 1/8", "done", "45"], early.text)
    assert late.over
    assert late.rows == ["A1,45,", "A2,,", "A3,45,", "A1,45,", "A2,45 1/8,", "A1,45,"]


def test_no_note_where_no_seat_is_asked_for() -> None:
    assert "A note is written" in shot(SITE, ["45", "moved", "note x"]).said[-1]


# --- units and sense --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "base", "lines", "values"),
    [
        # 4.04 and 4.07 ft are 48.48 and 48.84 in
        ("unit,feet\nsense,down\n", jobs.BASE, ["4.04", "4.07"], [48.48, 48.84]),
        # 12.7 mm are half an inch
        ("unit,mm\nsense,down\n", jobs.METRIC, ["1143", "1155.7"], [45, 45.5]),
        # larger is higher: minus the reading is down
        ("unit,inches\nsense,up\n", jobs.BASE, ["+1/8", "-3/8", "0"], [-0.125, 0.375, 0]),
        ("unit,feet\nsense,up\n", jobs.BASE, ["+.01", "-0.03"], [-0.12, 0.36]),
        # on the concrete, the seat 3/8 above it
        ("unit,inches\nread on,concrete\nplate,3/8\n", jobs.BASE, ["45", "45 1/4"], [44.625, 44.875]),
    ],
)
def test_what_is_typed_is_what_the_layout_reads(
    words: str, base: dict[str, object], lines: list[str], values: list[float]
) -> None:
    found = shot(site(base=base), lines, f"{words}column,reading,note\n")
    assert [s.text for s in found.book.sights] == lines
    assert list(found.values().values()) == pytest.approx(values, abs=1e-9)


def test_a_reading_on_the_concrete_tells_the_seat() -> None:
    found = shot(SITE, ["45"], "unit,inches\nread on,concrete\nplate,3/8\ncolumn,reading\n")
    assert found.said[0] == 'A1 reads 45" on the concrete, 44 5/8" to the seat'


def test_higher_is_higher_where_larger_is_higher() -> None:
    found = shot(SITE, ["+1/8", "+1/2"], "unit,inches\nsense,up\ncolumn,reading\n")
    assert 'SEAT HIGH 3/8" against A1: COLUMN 3/8" SHORTER' in found.said


# --- the end ----------------------------------------------------------------------------------------------------------


def test_the_end_names_all_that_matters() -> None:
    """Highest 45 - 4/16, lowest 45 + 6/16; 1 below the highest on half inches: 43 1/2."""
    lines = ending(whole("45").state)
    assert lines[:3] == (
        "Round 1: 19 of 19 seats are read.",
        'Round 1: A1 read again is exactly as before, 1/8" allowed: it closes.',
        f'Highest seat {WALK[12]} 44 3/4", lowest seat {WALK[4]} 45 3/8".',
    )
    assert lines[3].startswith('Line reading 43 1/2" chosen')
    assert len(lines) == 4


def test_the_end_names_seats_to_be_shot_again() -> None:
    found = shot(SITE, [*ALL[:5], "50", "50", *ALL[6:], "45"])
    assert [line.partition(":")[0] for line in ending(found.state)][-1] == "SHOOT AGAIN A6"
    assert ending(found.state)[-1].endswith("; read twice.")


TYPED = ["45", "45 1/8", "45 1/8 note a;b", "54", "46", "99'", "+1", "A1", "x", "", "note x", "back", "skip", "list"]
WORDS = ["moved", "done", "go a1", "go A5", "benchmark BM1, the pole", "benchmark"]


@given(lines=st.lists(st.sampled_from([*TYPED, *WORDS]), max_size=20), waiting=st.booleans())
def test_whatever_is_typed_the_file_can_be_read_and_taken_up(lines: list[str], waiting: bool) -> None:
    found = Shot(start(SITE, WAITING if waiting else PLAIN), [], [])
    for line in lines:
        step = answer(found.state, line)
        found.state = step.state
        assert prompt(found.state)
        assert found.book == found.state.book
        assert ending(found.state)
        if step.over:
            break
    assert start(SITE, found.text).book == found.book


def test_the_end_of_nothing() -> None:
    lines = ending(shot(SITE, []).state)
    assert lines[0] == "Round 1: 0 of 19 seats are read."
    assert len(lines) == 2
