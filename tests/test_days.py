"""Days that no calendar has, wherever they are written."""

from __future__ import annotations

import pytest
from jobs import job_text, problems
from test_book import read as book
from test_book import refused

from layouts.days import impossible


@pytest.mark.parametrize(
    "text",
    ["2026-13-14", "2026-02-29", "31.02.2026", "02/30/2026", "13/13/2026", "2026-00-10", "0/5/26", "29.2.2025"],
)
def test_a_day_that_no_calendar_has(text: str) -> None:
    assert impossible(text)


@pytest.mark.parametrize(
    "text", ["2026-03-14", "2024-02-29", "14.03.2026", "03/14/2026", "3/14/26", "Monday", "14 May", "", "31.", "1-2"]
)
def test_a_day_or_what_says_nothing_of_one(text: str) -> None:
    assert not impossible(text)


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("2026-13-14", "is not valid TOML: 2026-13-14 is no day of the calendar."),
        ("2026-02-30", "is not valid TOML: 2026-02-30 is no day of the calendar."),
        ("2026-3-14", "is not valid TOML: 2026-3-14 is not how a day is written here."),
        ("03/14/2026", "is not valid TOML: 03/14/2026 is not how a day is written here."),
        ("14.03.2026 # wet", "is not valid TOML: 14.03.2026 is not how a day is written here."),
    ],
)
def test_a_day_without_quotes_is_no_length_with_a_quote_too_many(written: str, says: str) -> None:
    text = job_text({"job.crew": "x"}).replace('crew = "x"', f"date = {written}")
    assert f"date = {written}" in text
    (found,) = problems(text)
    assert (found.wrong, found.right) == (says, "Write it like 2026-03-14.")
    line = next(i for i, each in enumerate(text.split("\n"), 1) if each.startswith("date"))
    assert found.place == f"line {line}, column 8"
    assert not problems(text.replace(f"date = {written}", "date = 2026-03-14"))


def test_what_looks_like_no_day_is_told_as_ever() -> None:
    (found,) = problems('[job]\nname = "Barn" 2026-03-14\n')
    assert "a quote too many" in found.wrong


def test_a_day_in_quotes_is_held_against_the_calendar_too() -> None:
    (found,) = problems(job_text({"job.date": "2026-02-31"}))
    assert str(found).endswith("job.date = 2026-02-31: is no day of the calendar. Write it like 2026-03-14.")
    assert not problems(job_text({"job.date": "late in May"}))


def test_readings_of_a_day_that_never_was() -> None:
    wrong = "line 1 = 31.02.2026: is no day of the calendar. Write it like 2026-03-14."
    assert refused("date,31.02.2026\ncolumn,reading\nA1,44\n") == [wrong]
    assert book("date,2026-03-14\ncolumn,reading\nA1,44\n").head.kept == {"date": "2026-03-14"}
    assert book("date,Monday\ncolumn,reading\nA1,44\n").head.kept == {"date": "Monday"}
