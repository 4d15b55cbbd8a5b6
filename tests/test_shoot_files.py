"""The file of a session: kept as it was typed elsewhere, refused, saved, and whole whatever happens."""

from __future__ import annotations

import codecs
import os
import subprocess
import sys
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from shooters import ALL, AS_USUAL, PLAIN, Script, csv, session, write_job

from layouts.problems import JobRefused
from sheets import cli_run, shoot
from sheets.load import load


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file alone in its folder."""
    return write_job(tmp_path)


# --- files ------------------------------------------------------------------------------------------------------------

TYPED = "# Müller\r\n\r\nunit;inches\r\nsense;down\r\nread on;seat\r\ncolumn;reading;note\r\nA1;45;nass\r\n"


@pytest.mark.parametrize(
    ("mark", "code"),
    [(b"", "utf-8"), (codecs.BOM_UTF8, "utf-8"), (b"", "cp1252"), (codecs.BOM_UTF16_LE, "utf-16-le")],
)
def test_a_file_typed_elsewhere_keeps_its_code_and_its_marks(job: Path, mark: bytes, code: str) -> None:
    path = job.with_suffix(".csv")
    path.write_bytes(mark + TYPED.encode(code))
    session(job, "45 1/8 note über dem Rohr", "back", "45 1/4")
    assert path.read_bytes() == mark + (TYPED + "A2;45 1/4;über dem Rohr\r\n").encode(code)


def test_a_letter_that_the_files_code_has_not_is_told(job: Path) -> None:
    path = job.with_suffix(".csv")
    path.write_bytes(TYPED.encode("cp1252"))
    script = session(job, "45 1/8 note L\u0151rinc", "45")
    assert "NOT SAVED: barn.csv is in cp1252, which has no \u0151." in script.told
    assert path.read_bytes() == (TYPED + "A2;45;\r\n").encode("cp1252")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("column,reading\nZ9,45\n", "line 2 = Z9: is not a column of this job."),
        ("column,reading\nA1,45\nA2,nan\n", "line 3"),
        ("height,reading\nA1,45\n", "is not the heading"),
        ("column,reading\nA1,4.04\nA2,4.07\n", "look like feet"),
        ("column,reading,note\nA1,45,\u2603\n", "cannot print"),
    ],
)
def test_bad_files_are_refused_before_any_question_and_left(job: Path, text: str, told: str) -> None:
    path = job.with_suffix(".csv")
    path.write_text(text, encoding="utf-8")
    script = Script([])
    with pytest.raises(JobRefused, match=told):
        shoot.run(job, at=script.console)
    assert script.asked == []
    assert path.read_text(encoding="utf-8") == text


def test_all_mistakes_come_in_one_run(job: Path) -> None:
    job.with_suffix(".csv").write_text("column,reading\nZ9,45\nA2,nan\n")
    with pytest.raises(JobRefused) as refused:
        session(job, round_="x" * 30)
    assert len(refused.value.problems) == 3


def test_a_job_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(JobRefused, match="is not there"):
        session(tmp_path / "none.toml")


def test_a_place_that_cannot_be_written_is_told_before_any_question(job: Path) -> None:
    script = Script([])
    with pytest.raises(OSError, match=r"no such folder: make it first: '.*none'"):
        shoot.run(job, job.parent / "none" / "x.csv", at=script.console)
    assert script.asked == []


def test_a_folder_that_is_not_there_is_named_and_nothing_is_said_to_be_saved(
    job: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = job.parent.resolve() / "none"
    for words in (["shoot", str(job), "--readings", str(folder / "x.csv")], ["start", str(folder / "x.toml")]):
        monkeypatch.setattr(sys, "argv", ["rodwright", *words])
        with pytest.raises(SystemExit) as left:
            cli_run.main()
        assert left.value.code == 3
        told = capsys.readouterr().err
        assert told == f"{folder}: there is no such folder: make it first\nNothing was written.\n"
    folder.mkdir()
    shoot.run(job, folder / "x.csv", at=Script([*AS_USUAL, "45", EOFError]).console)
    assert "A1,45," in (folder / "x.csv").read_text()


def test_a_round_that_does_not_close_may_be_shot_again(job: Path) -> None:
    """``check`` refuses the file until then."""
    session(job, *AS_USUAL, *ALL, "46", "46")
    with pytest.raises(JobRefused, match="refused"):
        load(job)
    script = session(job, *ALL, "45", round_="2")
    assert "! barn.csv: line" in script.told
    assert load(job).readings.values["A2"] == 45.125


# --- saving -----------------------------------------------------------------------------------------------------------


def test_every_entry_is_on_the_disk_before_the_next_question(job: Path) -> None:
    seen: list[int] = []

    def then(number: int) -> None:
        if number >= len(AS_USUAL):
            seen.append(len(csv(job).splitlines()))

    session(job, *AS_USUAL, *ALL[:5], then=then)
    assert seen == [4, 5, 6, 7, 8, 9]


def failing(monkeypatch: pytest.MonkeyPatch, step: str, at: int) -> None:
    """The *at*-th of these steps fails, and no other."""
    right, number = getattr(os, step), count(1)

    def wrong(*given: Any, **named: Any) -> Any:
        if next(number) == at:
            raise OSError(28, "No space left on device")
        return right(*given, **named)

    monkeypatch.setattr(os, step, wrong)


def test_a_disk_that_is_full_for_a_while_loses_nothing(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    job.with_suffix(".csv").write_text(PLAIN)
    failing(monkeypatch, "replace", 2)
    script = session(job, "45", "45 1/8", "45 1/8", "45 1/4")
    assert script.asked[1:3] == ["A2 (2 of 19): "] * 2
    assert "NOT SAVED: No space left on device. barn.csv holds all before it." in script.told
    assert csv(job) == PLAIN + "A1,45,\nA2,45 1/8,\nA3,45 1/4,\n"


def test_a_disk_that_stays_full_is_an_error_at_the_end(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    job.with_suffix(".csv").write_text(PLAIN)
    failing(monkeypatch, "replace", 2)
    with pytest.raises(OSError, match="No space"):
        session(job, "45", "45 1/8")
    assert csv(job) == PLAIN + "A1,45,\n"


def test_what_another_program_writes_meanwhile_is_taken_up(job: Path) -> None:
    path = job.with_suffix(".csv")
    path.write_text(PLAIN)

    def then(number: int) -> None:
        if number == 1:
            path.write_text(csv(job) + "# by hand\nA7,45 1/2,\n")

    script = session(job, "45", "45 1/8", "45 1/8", "45", then=then)
    assert "another program has changed barn.csv" in script.told
    assert csv(job) == PLAIN + "A1,45,\n# by hand\nA7,45 1/2,\nA2,45 1/8,\nA3,45,\n"


def test_a_check_back_is_asked_for_anew_where_its_seat_was_taken_away(job: Path) -> None:
    path = job.with_suffix(".csv")
    path.write_text(PLAIN)

    def then(number: int) -> None:
        if number == 3:
            path.write_text(PLAIN + "A2,45,\nA3,45 1/8,\n")

    script = session(job, "45", "45", "done", "45", "45 1/16", then=then)
    assert script.asked[-1] == "CHECK-BACK, A2 (2 of 19) again: "
    assert csv(job) == PLAIN + "A2,45,\nA3,45 1/8,\nA2,45 1/16,\n"


def test_what_another_program_spoils_meanwhile_is_refused_and_left(job: Path) -> None:
    path = job.with_suffix(".csv")
    path.write_text(PLAIN)

    def then(number: int) -> None:
        if number == 1:
            path.write_text("something else\n")

    with pytest.raises(JobRefused, match="is not the heading"):
        session(job, "45", "45 1/8", then=then)
    assert csv(job) == "something else\n"


@pytest.mark.skipif(not hasattr(os, "fork"), reason="a child is killed")
def test_killed_at_any_line_of_what_saves_the_file_is_whole(job: Path) -> None:
    """The entries of the file only ever grow with the line that the session is killed at. One save is 22 lines, three
    saves are shot: every third line of all is every line of one."""
    done = subprocess.run(
        [sys.executable, str(Path(__file__).with_name("killing_shoot.py")), str(job), str(job.with_suffix(".csv"))],
        input="".join(f"{n}\n" for n in (0, *range(1, 124, 3))),
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[1])},
    )
    ends = [line.rpartition(" ") for line in done.stdout.splitlines()]
    assert ends[0][::2] == ("ended 0", "3")
    killed = [int(entries) for how, _, entries in ends if how == "killed"]
    assert killed == sorted(killed)
    assert set(killed) == {0, 1, 2, 3}
