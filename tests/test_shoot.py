"""A session at the prompt from the first question to the last word."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jobs
import pytest
from shooters import ALL, AS_USUAL, HEAD, PLAIN, csv, session, write_job

from layouts.problems import JobRefused
from sheets import shoot
from sheets.figures import HIGH, large
from sheets.load import load


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file alone in its folder."""
    return write_job(tmp_path)


# --- a whole round ----------------------------------------------------------------------------------------------------


def test_a_whole_round_is_what_the_layout_then_reads(job: Path) -> None:
    script = session(job, *AS_USUAL, *ALL, "45")
    building = load(job)
    assert [str(w) for w in building.warnings if "read" in w.lower()] == []
    assert building.readings.values["A2"] == 45.125
    assert csv(job).startswith(HEAD + "column,reading,note\nA1,45,\n")
    assert script.said[-2].startswith("Highest seat")


def test_questions_are_asked_once(job: Path) -> None:
    first = session(job, "feet", "higher", "concrete", "3/8", "a1", "a2", "+0.10")
    assert [p.partition("?")[0] for p in first.asked[:4]] == [
        "Is the rod read in inches, feet or mm",
        "Does a larger reading mean that the seat is lower or higher",
        "Does the rod stand on the seat or concrete",
        "How thick is the plate from the concrete up to the seat",
    ]
    words = "unit,feet\nsense,up\nread on,concrete\nplate,3/8\nhighest,A1\nlowest,A2\n"
    assert csv(job) == words + "column,reading,note\nA1,+0.10,\n"
    assert session(job, "+0.12").asked[0] == "A2 (2 of 19): "


def test_concrete_without_a_plate_is_said_so(job: Path) -> None:
    """Beside a benchmark, which stands on no concrete, a file that leaves it open is refused."""
    session(job, "", "", "concrete", "", "", "", *ALL, "45")
    assert "read on,concrete\nplate,0\n" in csv(job)
    assert load(job).readings.values["A1"] == 45


def test_only_what_the_file_does_not_say_is_asked(job: Path) -> None:
    job.with_suffix(".csv").write_text("unit,feet\nsense,up\ncolumn;reading\nA1;\n")
    script = session(job, "", "+.04")
    assert script.asked[:2] == ["Does the rod stand on the seat or concrete? [seat] ", "A1 (1 of 19): "]
    assert csv(job) == "unit,feet\nsense,up\nread on;seat\ncolumn;reading\nA1;+.04\n"


def test_a_file_of_readings_is_asked_nothing(job: Path) -> None:
    job.with_suffix(".csv").write_text("column,reading\nA1,45\n")
    script = session(job, "45 1/8")
    assert script.asked[0] == "A2 (2 of 19): "
    assert csv(job) == "column,reading\nA1,45\nA2,45 1/8\n"


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["yards"], "yards is no answer to that. Known: inches, feet, mm."),
        (["", "sideways"], "sideways is no answer to that. Known: lower, higher."),
        (["", "", "concrete", "9"], "9 is no plate."),
        (["", "", "", "Z9"], "Z9 is not a column of this job."),
        (["45 1/8"], "45 1/8 is no answer to that. Readings come after these questions. Enter goes on."),
        (["", "", "", "", "45"], "45 is no answer to that. Readings come after these questions. Enter goes on."),
    ],
)
def test_what_is_no_answer_is_asked_again(job: Path, typed: list[str], told: str) -> None:
    script = session(job, *typed)
    assert told in script.told
    assert script.asked[-1] == script.asked[-2]
    assert not job.with_suffix(".csv").exists()


def test_the_words_of_a_prompt_work_before_the_first_reading_too(job: Path) -> None:
    """As where a job is asked for: ? tells the words, back asks the question before again, quit ends."""
    script = session(job, "back", "?", "feet", "higher", "back", "lower", "quit")
    words = [a.partition("?")[0].split()[-1] for a in script.asked]
    assert words == ["mm", "mm", "mm", "higher", "concrete", "higher", "concrete"]
    assert "This is the first question." in script.told
    assert (
        "Enter takes what stands in [ ]; back goes one question back; quit ends, and nothing is written." in script.told
    )
    assert "barn.csv is as it was: nothing was entered." in script.told
    assert not job.with_suffix(".csv").exists()


def test_a_question_mark_tells_the_words_of_a_round(job: Path) -> None:
    assert "Every entry is saved at once." in session(job, *AS_USUAL, "?").told


@pytest.mark.parametrize(("typed", "unit"), [("", "mm"), ("in", "inches"), ("ft", "feet"), ("MM", "mm")])
def test_the_jobs_own_unit_is_what_enter_means(tmp_path: Path, typed: str, unit: str) -> None:
    job = write_job(tmp_path, base=jobs.METRIC)
    session(job, typed, *AS_USUAL[1:])
    assert csv(job).startswith(f"unit,{unit}\n")


def test_numbers_that_answer_no_question_begin_nothing(job: Path) -> None:
    """A pipe of bare numbers into a file that does not say its unit."""
    script = session(job, "45", "45 1/8")
    assert "barn.csv is as it was: nothing was entered." in script.told
    assert not job.with_suffix(".csv").exists()


def test_a_metric_round(tmp_path: Path) -> None:
    job = write_job(tmp_path, base=jobs.METRIC)
    script = session(job, *AS_USUAL, "1143", "1150")
    assert "A2 reads 1150 mm; SEAT LOW 7 mm against A1: COLUMN 7 mm LONGER" in script.told
    assert load(job).readings.values["A2"] == pytest.approx(1150 / 25.4)


# --- left and taken up ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", [EOFError, KeyboardInterrupt])
def test_a_session_broken_off_tells_what_is_missing(job: Path, end: type[BaseException]) -> None:
    script = session(job, *AS_USUAL, "45", "45", end)
    assert csv(job) == PLAIN + "A1,45,\nA2,45,\n"
    assert "NOT READ: A3, " in script.told
    assert "NO CHECK-BACK: A1 was not read again" in script.told


@pytest.mark.parametrize("at", range(0, 25, 3))
def test_taken_up_after_any_entry_gives_the_bytes_of_one_go(tmp_path: Path, at: int) -> None:
    (tmp_path / "one").mkdir()
    (tmp_path / "two").mkdir()
    one, two = write_job(tmp_path / "one"), write_job(tmp_path / "two")
    lines = [*ALL[:7], "54", *ALL[7:12], "benchmark BM1, the pole", "47", *ALL[12:], "45"]
    session(one, *AS_USUAL, *lines)
    split = at + (at == 14)  # a benchmark named and not read yet is named again
    session(two, *AS_USUAL, *lines[:split])
    session(two, *lines[split:])
    assert csv(two) == csv(one)


def test_rounds_and_set_ups_by_name(job: Path) -> None:
    session(job, *AS_USUAL, *ALL, "45")
    session(job, *ALL[:3], round_="rain")
    again = session(job)
    assert again.asked == ["A4 (4 of 19, round rain): "]
    assert session(job, setup="noon").asked[0].startswith("Which seat or benchmark read before")


@pytest.mark.parametrize("name", ["x" * 21, "a\nb", "\u2603"])
def test_names_that_cannot_be_printed_are_refused(job: Path, name: str) -> None:
    with pytest.raises(JobRefused, match=r"--round.*is no name that can be printed"):
        session(job, round_=name)


# --- what is shown ----------------------------------------------------------------------------------------------------


def test_a_terminal_shows_the_number_large(job: Path) -> None:
    script = session(job, *AS_USUAL, "45 1/8", wide=80)
    at = script.said.index('A1 reads 45 1/8"')
    assert tuple(script.said[at - 1 - HIGH : at - 1]) == large("45 1/8", 79)
    assert all(len(line) < 80 for line in script.said)


@pytest.mark.parametrize("wide", [0, 30])
def test_a_pipe_and_a_narrow_screen_get_plain_lines(job: Path, wide: int) -> None:
    script = session(job, *AS_USUAL, "45 1/8", wide=wide)
    assert "#" not in script.told
    assert 'A1 reads 45 1/8"' in script.told.replace("\n  ", " ")
    assert wide == 0 or all(len(line) < wide for line in script.said)


@pytest.fixture
def piped(monkeypatch: pytest.MonkeyPatch) -> Callable[[bytes], None]:
    """What stands on the standard input."""

    def put(raw: bytes) -> None:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(raw), encoding="utf-8"))

    return put


def test_plain_input_and_output(job: Path, piped: Any, capsys: pytest.CaptureFixture[str]) -> None:
    job.with_suffix(".csv").write_text(PLAIN)
    piped(b"45\n45 1/8 note \xff\n45 1/4")
    shoot.run(job)
    out = capsys.readouterr().out
    assert 'A1 (1 of 19): 45\nA1 reads 45"; REFERENCE SEAT' in out
    assert csv(job) == PLAIN + "A1,45,\nA3,45 1/4,\n".replace("A3", "A2")
    assert "\x1b" not in out  # no colour
