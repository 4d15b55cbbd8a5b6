"""The bar: after half a second, in a terminal alone, and gone when the work is done."""

from __future__ import annotations

import io
import os
import threading
from contextlib import redirect_stderr
from pathlib import Path

import jobs
import pytest
from streams import Screen

from sheets import cli_app, cli_work, progress


@pytest.fixture
def stream(monkeypatch: pytest.MonkeyPatch) -> Screen:
    """A terminal for standard error, and no patience."""
    found = Screen()
    for name in ("NO_COLOR", "TTY_COMPATIBLE", "TTY_INTERACTIVE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(progress, "PATIENCE", -1.0)
    monkeypatch.setattr(progress, "EVERY", -1.0)
    return found


def test_a_step_is_shown_with_its_count_and_taken_away(stream: Screen) -> None:
    with redirect_stderr(stream), progress.bar() as told:
        told("Drawing the sheets", 3, 9)
        assert "Drawing the sheets" in stream.raw_text
        assert "3 of 9" in stream.raw_text
        assert threading.active_count() == 1, "the audit forks only where there is no other thread"
    assert stream.raw_text.endswith("\x1b[2K"), "the line is cleared"


def test_short_work_shows_nothing(stream: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(progress, "PATIENCE", 60.0)
    with redirect_stderr(stream), progress.bar() as told:
        told("Drawing the sheets", 9, 9)
    assert stream.raw_text == ""


def test_waiting_shows_what_for(stream: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(progress, "EVERY", 0.001)
    with redirect_stderr(stream), progress.bar() as told, told.waiting("Laying out the job"):
        for _ in range(10_000):
            if "Laying out the job" in stream.raw_text:
                break
            threading.Event().wait(0.001)
    assert "Laying out the job" in stream.raw_text
    assert threading.active_count() == 1


def test_another_process_says_nothing(stream: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    with redirect_stderr(stream), progress.bar() as told:
        monkeypatch.setattr(os, "getpid", lambda: -1)
        told("Reading them back", 1, 2)
        monkeypatch.undo()
    assert stream.raw_text == ""


@pytest.mark.parametrize("why", ["no terminal", "quiet", "dumb"])
def test_nobody_is_shown_nothing(stream: Screen, monkeypatch: pytest.MonkeyPatch, why: str) -> None:
    plain = io.StringIO()
    told_to = plain if why == "no terminal" else stream
    if why == "dumb":
        monkeypatch.setenv("TERM", "dumb")
    with redirect_stderr(told_to), progress.bar(why == "quiet") as told, told.waiting("Laying out the job"):
        told("Drawing the sheets", 3, 9)
    assert stream.raw_text + plain.getvalue() == ""


def test_a_packet_tells_every_step(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each count goes up by one to its end."""
    told: dict[str, list[tuple[int, int]]] = {}

    class Listener(progress._Nobody):
        def tell(self, what: str, done: int, of: int | None) -> None:
            told.setdefault(what, []).append((done, of or 0))

    monkeypatch.setattr(progress, "_Nobody", Listener)
    monkeypatch.setattr("sheets.aside.sys.platform", "none")  # in one process
    job = tmp_path / "job.toml"
    job.write_text(jobs.job_text(), encoding="utf-8")
    cli_work.printed(job, None, tmp_path / "out", cli_app.Wish(only="cuts", quiet=True), {})
    assert list(told) == ["Drawing the sheets", "Writing the files", "Reading them back"]
    for what, counts in told.items():
        assert {of for _, of in counts} == {len(counts)}, what
        assert [done for done, _ in counts] == [*range(1, len(counts) + 1)], what
