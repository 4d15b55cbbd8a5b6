"""The plate between the concrete and the seat, where the line reading is given: it would be in every offset."""

from __future__ import annotations

from pathlib import Path

import pytest
from shooters import ALL, csv, session, write_job

from layouts.problems import JobRefused
from sheets.load import load

UNSAID = "read on,concrete\ncolumn,reading\nA1,45\nA2,45 1/8\nA1,45\n"
TOLD = (
    "job.csv: line 3, column A1 = 45: is read on the concrete, and nothing says how thick the plate up to the seat is: "
    'the line reading is given. Say so: a line "plate,3/8" before the heading; "plate,0" if there is none.'
)
ASKED = "How thick is the plate from the concrete up to the seat, 0 if there is none? "
NEEDED = (
    "The line reading is given, and every offset would be too long by the plate. "
    "Measure it and type it, like 3/8; type 0 if there is none."
)


@pytest.mark.parametrize(
    ("line", "text", "offset"),
    [
        ("choose", UNSAID, 0.0),  # the line moves with the seats
        ("42 1/2", UNSAID, None),
        ("42 1/2", UNSAID.replace("read on,concrete\ncolumn,reading\n", "#\ncolumn,reading\n"), 2.5),
        ("42 1/2", f"plate,3/8\n{UNSAID}", 2.125),
        ("42 1/2", f"plate,0\n{UNSAID}", 2.5),
    ],
)
def test_the_plate_is_to_be_told_where_the_line_is_given(
    tmp_path: Path, line: str, text: str, offset: float | None
) -> None:
    """Concrete at 45 and a seat 3/8 above it: 45 - 3/8 - 42 1/2 = 2 1/8 up to the line, not 2 1/2."""
    job = write_job(tmp_path, {"grade.line": line})
    job.with_suffix(".csv").write_text(text)
    if offset is None:
        with pytest.raises(JobRefused) as refused:
            load(job)
        assert str(refused.value) == TOLD.replace("job.csv", job.with_suffix(".csv").name)
        return
    offsets = load(job).grade.offsets
    assert offsets["A2"] - offsets["A1"] == 0.125
    assert line == "choose" or offsets["A1"] == offset


def test_concrete_in_a_column_of_the_file_needs_the_plate_too(tmp_path: Path) -> None:
    job = write_job(tmp_path, {"grade.line": "42 1/2"})
    job.with_suffix(".csv").write_text("column,reading,on\nA1,45,concrete\nA2,45,concrete\nA1,45,concrete\n")
    with pytest.raises(JobRefused, match="line 2, column A1 = 45: is read on the concrete, and nothing says how thick"):
        load(job)


@pytest.mark.parametrize(("typed", "plate"), [("0", 0.0), ("3/8", 0.375)])
def test_the_plate_is_asked_for_until_it_is_told(tmp_path: Path, typed: str, plate: float) -> None:
    """With the line given Enter is no answer; 0 is one."""
    job = write_job(tmp_path, {"grade.line": "42 1/2"})
    script = session(job, "", "", "concrete", "", "", typed, "", "", *ALL, "45")
    assert script.asked[3:6] == [ASKED] * 3
    assert script.told.count(NEEDED) == 2
    assert f"read on,concrete\nplate,{typed}\n" in csv(job)
    assert load(job).grade.offsets["A1"] == 45 - plate - 42.5


def test_a_line_that_is_chosen_leaves_the_plate_to_enter(tmp_path: Path) -> None:
    script = session(write_job(tmp_path), "", "", "concrete", "")
    assert script.asked[3] == "How thick is the plate from the concrete up to the seat? [none] "
    assert NEEDED not in script.told


def test_a_file_that_leaves_the_plate_open_is_not_written_on(tmp_path: Path) -> None:
    job = write_job(tmp_path, {"grade.line": "42 1/2"})
    job.with_suffix(".csv").write_text(UNSAID)
    with pytest.raises(JobRefused, match="nothing says how thick the plate up to the seat is"):
        session(job, "45")
    assert csv(job) == UNSAID
