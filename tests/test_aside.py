"""Work in a second process: its result, its errors, and its death."""

from __future__ import annotations

import os
import threading
import time

import pytest

from sheets import aside


def test_the_result_comes_back() -> None:
    assert aside.begin(lambda: {"a": [1, 2.5], "where": "there"})() == {"a": [1, 2.5], "where": "there"}


def test_it_is_another_process_where_there_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    alone = threading.active_count() == 1 and hasattr(os, "fork") and os.uname().sysname == "Linux"
    assert (aside.begin(os.getpid)() != os.getpid()) == alone


def test_with_one_core_or_another_thread_it_waits_here(monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "cpu_count", lambda: 1)
        assert aside.begin(os.getpid)() == os.getpid()
    done = threading.Event()
    other = threading.Thread(target=done.wait)
    other.start()
    try:
        assert aside.begin(os.getpid)() == os.getpid()
    finally:
        done.set()
        other.join()


def test_work_whose_process_dies_is_done_here() -> None:
    home = os.getpid()

    def frail() -> str:
        if os.getpid() != home:
            os._exit(7)
        return "done"

    assert aside.begin(frail)() == "done"


def test_an_error_in_the_work_is_met_here() -> None:
    def wrong() -> None:
        raise ValueError("as it is")

    wait = aside.begin(wrong)
    with pytest.raises(ValueError, match="as it is"):
        wait()


def test_a_long_result_does_not_jam_the_pipe() -> None:
    wait = aside.begin(lambda: "x" * 3_000_000)
    time.sleep(0.05)
    assert len(wait()) == 3_000_000
