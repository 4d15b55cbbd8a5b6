"""The grade line against the seats: offsets, the line reading that is chosen, and high or low in words."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import METRIC, build, buildings, every, job
from msgspec.structs import replace

from layouts.building import Building, lay_out
from layouts.grade import Grade, words
from layouts.lengths import Style
from layouts.readings import NONE, Readings, taken


def grade(changes: dict[str, Any], rows: dict[str, Any] | None) -> Grade:
    return build(changes, rows).grade


# Common practice, no source: 41 3/8 on a 40 line gives 1 3/8, 41 15/16 gives 1 15/16
def test_an_offset_is_reading_less_line_reading() -> None:
    found = grade({"grade.line": "40"}, {"A1": "41 3/8", "A2": "41 15/16", "A3": "40", "C1": "39 1/2"})
    assert found.offsets == {"A1": 1.375, "A2": 1.9375, "A3": 0, "C1": -0.5}
    assert found.line == 40
    assert "as given" in found.why


@pytest.mark.parametrize(
    ("least", "step", "line"),
    [
        ("1", "half", 43.5),  # 44 3/4 - 1 = 43 3/4, down to a half
        ("1", "whole", 43),
        ("1 1/4", "half", 43.5),  # exactly on the step
        ("1 5/16", "half", 43),  # 43 7/16
        ("0", "half", 44.5),
        ("3/4", "whole", 44),
    ],
)
def test_the_line_is_chosen_from_the_highest_seat(least: str, step: str, line: float) -> None:
    """The highest seat has the smallest reading; the line leaves it at least the least offset."""
    found = grade({"grade.least": least, "grade.round": step}, {"A1": "45 1/8", "B7": "44 3/4", "A4": "46"})
    assert found.line == line
    assert 'highest seat B7 reads 44 3/4"' in found.why


def test_a_metric_line_is_chosen_on_whole_and_half_centimetres() -> None:
    # 1137 - 25 = 1112: on steps of 5 mm 1110, of 10 mm 1110; 1142 - 25 = 1117: 1115 and 1110
    cases = ((1137, "half", 1110), (1137, "whole", 1110), (1142, "half", 1115), (1142, "whole", 1110))
    for reading, step, line in cases:
        found = build({"grade.round": step}, {"A1": reading, "A2": reading + 9}, base=METRIC).grade
        assert found.line is not None
        assert found.line * 25.4 == pytest.approx(line, abs=1e-9)


def test_a_line_on_the_step_in_millimetres_does_not_lose_a_step_to_float_noise() -> None:
    for reading in range(1100, 1200, 5):
        found = build({}, {"A1": reading}, base=METRIC).grade
        assert found.line is not None
        assert found.line * 25.4 == pytest.approx(reading - 25, abs=1e-9)


def test_a_line_never_falls_below_the_beam() -> None:
    assert grade({"grade.least": "5"}, {"A1": "3"}).line == 0


def test_no_readings_no_offsets() -> None:
    found = grade({}, None)
    assert (found.line, found.offsets, found.lower) == (None, {}, {})
    assert len(found.unread) == 19  # 14 on the sidewalls, 2 and 3 between


def test_columns_without_reading_are_named_not_assumed() -> None:
    found = grade({}, {"A1": "45", "A3": "", "C1": "44"})
    assert set(found.offsets) == {"A1", "C1"}
    assert "A3" in found.unread
    assert len(found.unread) == 17


def test_the_reference_is_the_one_asked_for_or_the_first_read() -> None:
    rows = {"A3": "45", "A2": "44"}
    assert grade({"grade.reference": "A2"}, rows).reference == "A2"
    assert grade({"grade.reference": "C1"}, rows).reference in rows  # C1 was not read
    assert grade({}, {"A3": "45"}).reference == "A3"


def test_the_first_one_read_is_the_first_in_the_file() -> None:
    """``grade.reference``: the first one read if empty."""
    assert grade({}, {"A3": "45", "A2": "44"}).reference == "A3"


@pytest.mark.parametrize(
    ("reading", "seat", "length"),
    [
        ("45", "SEAT LEVEL WITH A1", "column as on that seat"),
        ("45 1/2", 'SEAT LOW 1/2" against A1', 'COLUMN 1/2" LONGER'),
        ("44 5/8", 'SEAT HIGH 3/8" against A1', 'COLUMN 3/8" SHORTER'),
        ("45 1/64", "SEAT LEVEL WITH A1", "column as on that seat"),  # prints as 0
        ("45 1/32", 'SEAT LOW 1/16" against A1', 'COLUMN 1/16" LONGER'),  # half up
    ],
)
def test_high_and_low_longer_and_shorter_in_words(reading: str, seat: str, length: str) -> None:
    """A larger reading down from the beam is a lower seat, and a lower seat wants a longer column."""
    made = job({"grade.reference": "A1"})
    found = build({"grade.reference": "A1"}, {"A1": "45", "A2": reading}).grade
    assert words(made, found, "A2") == (seat, length)
    assert words(made, found, "A1")[0] == "REFERENCE SEAT"


@given(buildings(), st.integers(-40 * 16, 40 * 16))
def test_a_constant_on_all_readings_and_the_line_changes_nothing(building: Building, sixteenths: int) -> None:
    by = sixteenths / 16

    def shot(add: float) -> Building:
        made = replace(building.job, grade=replace(building.job.grade, line=45.5 + add))
        return lay_out(made, Readings({name: v + add for name, v in building.readings.values.items()}, {}))

    first, second = shot(0.0), shot(by)
    assert second.grade.offsets == first.grade.offsets
    assert second.grade.lower == first.grade.lower
    assert [(c.length, c.stock, c.drop, c.seat, c.longer) for c in second.columns] == [
        (c.length, c.stock, c.drop, c.seat, c.longer) for c in first.columns
    ]
    assert second.rods == first.rods


@given(buildings())
def test_the_chosen_line_leaves_the_least_offset_and_no_more_than_a_step(building: Building) -> None:
    found = building.grade
    if not found.offsets:
        assert found.line is None
        return
    assert found.line is not None
    assert found.line % 0.5 == 0
    trusted = {n: offset for n, offset in found.offsets.items() if n not in found.wild}
    assert 1 <= min(trusted.values()) < 1.5  # least 1, on halves
    assert min(found.offsets, key=lambda n: found.offsets[n]) == min(found.lower, key=lambda n: found.lower[n])


@given(st.sampled_from([40.0, 45.5, 61.3125]))
def test_seats_all_level_are_all_level(value: float) -> None:
    made = job()
    found = lay_out(made, every(made, value))
    assert set(found.grade.lower.values()) == {0}
    assert {c.seat for c in found.columns} == {"REFERENCE SEAT", "SEAT LEVEL WITH A1"}


def test_a_line_chosen_from_a_wild_seat_is_told_first() -> None:
    """42 3/4 for 52 3/4: ten inches too high, and every offset with it."""
    found = build({}, {"A1": "52 1/2", "A2": "52 5/8", "A3": "42 3/4"})
    assert found.grade.line == 41.5  # 42 3/4 less 1, down to a half
    assert "THE LINE READING WAS CHOSEN FROM A3" in next(w for w in found.warnings if "No reading" not in w)
    assert [c.name for c in found.columns if c.flagged] == ["A3"]


@pytest.mark.parametrize(
    ("inches", "text"), [(53.0625, '53 1/16"'), (53.03125, '53 1/32"'), (53.03, '53.03"'), (44.75, '44 3/4"')]
)
def test_a_reading_is_shown_as_it_was_taken(inches: float, text: str) -> None:
    assert taken(NONE, inches, Style("in")) == text


# --- why ------------------------------------------------------------------------------------------------------------


@given(buildings(), st.sampled_from([None, 2.0, 3.5]))
def test_why_names_what_decided(building: Building, most: float | None) -> None:
    """The seat that is named is the highest that has a say, and the line follows from it as the sentence says; or the
    line that would follow is named, with what is worse there."""
    part = replace(building.job.grade, most=most)
    found = lay_out(replace(building.job, grade=part), building.readings).grade
    if found.line is None or found.proposed is None:
        assert found.why == "No readings."
        return
    trusted = {n: v for n, v in building.readings.values.items() if n not in found.wild}
    asked = math.floor((min(trusted.values()) - 1) * 2) / 2  # least 1, on halves
    seat = found.why.partition("highest seat ")[2].partition(" ")[0]
    assert trusted[seat] == min(trusted.values())
    assert found.highest == (seat if found.line == asked else "")
    assert ("steps of the rod" in found.why) == (found.line == asked)
    assert (f"which makes {taken(NONE, asked, Style())}, but there" in found.why) == (found.line != asked)
    out = len(found.proposed.out)
    assert (f"; {out} pier" in found.why) == (out > 0)
    assert all((name in found.why.partition(".")[2]) for name in found.wild)


def test_why_without_readings() -> None:
    assert grade({}, None).why == "No readings."
    assert grade({"grade.line": "44"}, None).line == 44


# --- to be shot again -----------------------------------------------------------------------------------------------


def test_a_seat_that_stands_out_from_both_neighbours_is_shot_again() -> None:
    """Common practice, no source: more than 1/2 against both. A2 stands 9/16 below both, A4 1/2 below A3 alone."""
    rows = {"A1": "45", "A2": "45 9/16", "A3": "45", "A4": "45 1/2", "A5": "45 1/2"}
    assert grade({}, rows).again == {"A2": 'seat LOW 9/16" or more against both A1 and A3'}
    assert grade({"readings.neighbour": '9/16"'}, rows).again == {}
    rows["A2"] = "44 3/8"
    assert grade({}, rows).again == {"A2": 'seat HIGH 5/8" or more against both A1 and A3'}


def test_the_walk_closes_round_the_last_seat() -> None:
    """Of A1, A2 and C1, which stands before A1 again, C1 stands out."""
    assert list(grade({}, {"A1": "45", "A2": "45", "C1": "45 3/4"}).again) == ["C1"]


def test_a_slope_is_no_seat_that_stands_out() -> None:
    """A2 and A3 stand 3/4 from either neighbour, one way up and the other way down; A5 and A1 close the walk."""
    rows = {"A1": "45", "A2": "45 3/4", "A3": "46 1/2", "A4": "46 1/2", "A5": "45"}
    assert grade({"grade.flag": "2"}, rows).again == {}


def test_two_seats_are_no_neighbours_on_both_sides() -> None:
    assert grade({}, {"A1": "45", "A2": "45 3/4"}).again == {}


def test_the_strongest_reason_alone_is_told() -> None:
    """A3 is wild, over the flag and out of line with its neighbours."""
    rows = dict.fromkeys(("A1", "A2", "A4", "A5", "A6"), "52 1/2") | {"A3": "42 3/4"}
    assert grade({}, rows).again == {"A3": 'seat HIGH 9 3/4" against the middle of all seats, it stands out'}


def test_a_reference_that_stands_far_from_most_is_told_and_not_all_the_others() -> None:
    """The middle of 0, 2 1/8, 2, 2, 1 7/8 and 3 1/8 is 2, more than 1: A6 alone is more than 1 from that, 1 1/8.
    A2 is not held against A1, which is its neighbour."""
    rows = {"A1": "43", "A2": "45 1/8", "A3": "45", "A4": "45", "A5": "44 7/8", "A6": "46 1/8"}
    again = {
        "A1": 'most others are LOW against it, the reference, by more than 1"',
        "A6": 'seat LOW 1 1/8" against the middle of all seats, more than 1"',
    }
    assert grade({}, rows).again == again
    named = grade({"grade.reference": "A3"}, rows | {"A1": "45", "A3": "47", "A6": "45"}).again
    assert list(named) == ["A3"]
    assert named["A3"] == 'most others are HIGH against it, the reference, by more than 1"'


def test_of_a_reference_and_one_other_seat_nobody_knows_which_is_wrong() -> None:
    assert grade({}, {"A1": "43", "A2": "45"}).again == {"A2": 'seat LOW 2" against A1, more than 1"'}


def test_a_seat_a_hair_over_the_flag_is_not_told_by_the_flag_itself() -> None:
    """46.02 - 45 = 1.02 in, which is 1 in to the sixteenth: "1 in, more than 1 in" helps nobody. 1.04 is 1 1/16."""
    assert grade({}, {"A1": "45", "A2": "46.02"}).again == {"A2": 'seat LOW 1.02" against A1, more than 1"'}
    assert grade({}, {"A1": "45", "A2": "46.04"}).again == {"A2": 'seat LOW 1 1/16" against A1, more than 1"'}


def test_half_of_the_seats_do_not_accuse_the_reference() -> None:
    """0, 0, 0, 2 and 2: the middle is 0."""
    rows = {"A1": "43", "A2": "43", "A3": "43", "A4": "45", "A5": "45"}
    assert list(grade({}, rows).again) == ["A4", "A5"]


def test_a_neighbour_that_stands_out_itself_accuses_nobody() -> None:
    """A3 is wild. A2 is 9/16 above A1 and far above A3; A4, the next one, is 1/8 lower. Were A3 45, A2 would be 9/16
    above both."""
    rows = {"A1": "45", "A2": "44 7/16", "A3": "56", "A4": "44 9/16", "A5": "44 3/4", "A6": "45"}
    assert list(grade({}, rows).again) == ["A3"]
    assert list(grade({}, rows | {"A3": "45"}).again) == ["A2"]


def test_a_line_is_not_said_to_be_chosen_from_a_seat_that_only_a_wrong_reference_accuses() -> None:
    """A1 is read 2 too low: A2 is the highest seat, 2 above it and level with the others."""
    rows = dict.fromkeys(("A2", "A3", "A4"), "45") | {"A1": "47"}
    found = build({"grade.reference": "A1"}, rows)
    assert found.grade.highest == "A2"
    assert not any("WAS CHOSEN FROM" in w for w in found.warnings)
    high = build({"grade.reference": "A1"}, rows | {"A1": "43"})
    assert any("THE LINE READING WAS CHOSEN FROM A1" in w for w in high.warnings)


def test_a_line_not_chosen_from_a_doubtful_seat_does_not_blame_it() -> None:
    """A3, 1 1/2 above the others, is to be shot again. It decides the line only while nothing else does."""
    rows = {"A1": "45", "A2": "45", "A3": "43 1/2"}
    says = "THE LINE READING WAS CHOSEN FROM A3"
    assert any(says in w for w in build({}, rows).warnings)
    for changes in ({"grade.line": "42"}, {"grade.benchmark": "A1", "grade.floor_at": "6"}):
        found = build(changes, rows)
        assert "A3" in found.grade.again
        assert found.grade.highest == ""
        assert not any(says in w for w in found.warnings)
