"""A line reading that is given, held against the seats: another unit's number is refused, a far one is asked about."""

from __future__ import annotations

import pytest
from graded import booked
from jobs import METRIC, build, refusal

from layouts.building import Building
from layouts.costs import Cost
from layouts.problems import JobRefused

FEET = "unit,feet\nsense,down\ncolumn,reading\nA1,3.73\nA2,3.75\nA3,3.70\n"
MM = {"A1": 1137, "A2": 1150, "A3": 1154}
ROWS = {"A1": "45", "A2": "45 1/4", "A3": "44 1/2"}


def asked(building: Building) -> list[str]:
    """What is asked about the line."""
    found = [w for w in building.warned if "as given is" in w.text]
    assert all(w.cost is Cost.EVERY for w in found)
    return [w.text for w in found]


def test_a_number_of_a_rod_in_tenths_of_a_foot() -> None:
    """Read in feet, 3.58 means 42.96 in; in the job, 3.58 in, over three feet above every seat."""
    with pytest.raises(JobRefused) as error:
        booked(FEET, {"grade.line": "3.58"})
    assert str(error.value) == (
        'job.toml: grade.line = 3 9/16": is far from every seat that was read. '
        'Write "3.58 ft" if that is meant; 3\'-7" is near.'
    )
    found = booked(FEET, {"grade.line": "3.58 ft"})
    assert found.grade.offsets["A1"] == pytest.approx(12 * 3.73 - 12 * 3.58)


def test_a_number_of_a_rod_in_mm_in_a_job_in_inches() -> None:
    """45 of a rod in inches is 1143 mm, 45 mm is no line of a metric job; 90 of a rod in mm is not 90 in."""
    seats = "unit,mm\nsense,down\ncolumn,reading\nA1,137\nA2,150\nA3,154\n"
    with pytest.raises(JobRefused, match='Write "90 mm" if that is meant'):
        booked(seats, {"grade.line": "90"})
    inches = "unit,inches\nsense,down\ncolumn,reading\nA1,45\nA2,45 1/4\nA3,44 1/2\n"
    with pytest.raises(JobRefused, match=r'Write "43\.5 in" if that is meant'):
        booked(inches, {**METRIC, "grade.line": "43.5"})


@pytest.mark.parametrize(("line", "near"), [("3.6", "3.6 ft would be near."), ("4", "4 ft would be near.")])
def test_a_number_that_would_be_near_in_another_unit(line: str, near: str) -> None:
    """Proposed is 43 1/2: 3.6 ft are 43.2, and 4 ft 48."""
    (told,) = asked(build({"grade.line": line}, ROWS))
    assert told.endswith(f"every column is cut to it. {near}")


def test_a_digit_that_is_lost_is_asked_about() -> None:
    """Highest seat 44 1/2, an inch off and down to the half: 43 1/2 is proposed. 4 is 39 1/2 above it."""
    (told,) = asked(build({"grade.line": "4"}, ROWS))
    said = 'Line reading 4" as given is 3\'-3 1/2" above the one proposed, 43 1/2": every column is cut to it.'
    assert told.startswith(f"IS THIS RIGHT? {said}")
    (told,) = asked(build({"grade.line": "114"}, MM, base=METRIC))
    assert "Line reading 114 mm as given is 996 mm above the one proposed, 1110 mm" in told


def test_a_line_far_below_the_seats_is_asked_about() -> None:
    (told,) = asked(build({"grade.line": "60"}, ROWS))
    assert 'Line reading 60" as given is 16 1/2" below the one proposed, 43 1/2": every column is cut to it.' in told
    assert "would be near" not in told


@pytest.mark.parametrize("line", ["31 1/2", "43 1/2", "55 1/2", "choose"])
def test_a_line_within_a_foot_of_the_one_proposed_is_not(line: str) -> None:
    assert asked(build({"grade.line": line}, ROWS)) == []


def test_a_rod_whose_larger_readings_are_higher() -> None:
    """A receiver's plus and minus round its zero: a line of -1 1/2 is near, one of -40 is not."""
    signed = "sense,up\nunit,inches\ncolumn,reading\nA1,+0.5\nA2,-0.25\nA3,+0.25\n"
    assert asked(booked(signed, {"grade.line": "-1 1/2"})) == []
    (told,) = asked(booked(signed, {"grade.line": "-40"}))
    assert "below the one proposed" in told


def test_no_readings_no_question() -> None:
    assert asked(build({"grade.line": "4"}, None)) == []
    assert "grade.line" not in str(refusal({"grade.line": "4", "truss.pitch": "no"}))
