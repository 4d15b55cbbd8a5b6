"""Work in a second process: its result, its errors, and its death."""

from __future__ import annotations

import os
import signal
import sys
import threading
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from sheets import aside

APART = sys.platform == "linux"
LATE = 0.2  # seconds


def result(work: Callable[[], Any]) -> Any:
    with aside.begun(work) as wait:
        return wait()


def slowly(path: Path) -> None:
    time.sleep(LATE)
    path.touch()


def test_the_result_comes_back() -> None:
    assert result(lambda: {"a": [1, 2.5], "where": "there"}) == {"a": [1, 2.5], "where": "there"}


def test_it_is_another_process_where_there_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    assert (result(os.getpid) != os.getpid()) == (APART and threading.active_count() == 1)


def test_with_one_core_or_another_thread_it_waits_here(monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "cpu_count", lambda: 1)
        assert result(os.getpid) == os.getpid()
    done = threading.Event()
    other = threading.Thread(target=done.wait)
    other.start()
    try:
        assert result(os.getpid) == os.getpid()
    finally:
        done.set()
        other.join()


def test_work_whose_process_dies_is_done_here() -> None:
    home = os.getpid()

    def frail() -> str:
        if os.getpid() != home:
            os._exit(7)
        return "done"

    assert result(frail) == "done"


def test_an_error_in_the_work_is_met_here() -> None:
    def wrong() -> None:
        raise ValueError("as it is")

    with aside.begun(wrong) as wait, pytest.raises(ValueError, match="as it is"):
        wait()


def test_a_long_result_does_not_jam_the_pipe() -> None:
    with aside.begun(lambda: "x" * 3_000_000) as wait:
        time.sleep(0.05)
        assert len(wait()) == 3_000_000


@pytest.mark.skipif(not APART, reason="no second process here")
def test_an_error_here_ends_the_work_there(tmp_path: Path) -> None:
    with pytest.raises(KeyError), aside.begun(partial(slowly, tmp_path / "late")):
        raise KeyError
    time.sleep(2 * LATE)
    assert not (tmp_path / "late").exists()


@pytest.mark.skipif(not APART, reason="no second process here")
def test_it_ends_with_the_process_that_began_it(tmp_path: Path) -> None:
    child = os.fork()
    if child == 0:
        try:
            with aside.begun(partial(slowly, tmp_path / "late")):
                time.sleep(LATE / 2)
                os.kill(os.getpid(), signal.SIGKILL)
        finally:
            os._exit(1)
    os.waitpid(child, 0)
    time.sleep(2 * LATE)
    assert not (tmp_path / "late").exists()
