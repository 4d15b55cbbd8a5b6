"""The highest and the lowest seat by eye where one of them is named, and reads nearly as the other end does."""

from __future__ import annotations

from test_doubts import alarms, questioned

NEARLY = "unit,inches\nsense,down\n{}\ncolumn,reading\nA1,44 3/4\nA2,45 1/8\nA3,44 5/8\nA4,45 5/8\n"


def test_an_eye_that_names_a_seat_near_the_other_end_is_asked_about() -> None:
    """The seats differ by 45 5/8 - 44 5/8 = 1 in, a quarter of it is 1/4: A1, the lowest by eye, reads 1/8 lower than
    the highest of all; with the rod read the other way it would stand 1/8 over the lowest. A2 reads 1/2 in from either
    end, which tells nothing."""
    end = "is the rod read the other way?"
    warns, stops = questioned(NEARLY.format("lowest,A1"))
    taken = "the readings, taken as larger is lower, say it is one of the"
    assert warns == [f"By eye A1 is the lowest seat; {taken} highest: {end}"]
    assert stops == []
    assert alarms(NEARLY.format("lowest,A2")) == alarms(NEARLY.format("highest,A1")) == []
    turned = NEARLY.format("highest,A1").replace("down", "up")
    assert alarms(turned) == [f"By eye A1 is the highest seat; {taken.replace('lower', 'higher')} lowest: {end}"]


def test_seats_within_half_an_inch_are_no_matter_for_the_eye() -> None:
    """45 5/8 becomes 45 1/16: 7/16 in all, which nobody sees."""
    assert alarms(NEARLY.format("lowest,A1").replace("45 5/8", "45 1/16").replace("45 1/8", "45")) == []
