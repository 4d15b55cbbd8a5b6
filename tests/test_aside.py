"""Work shared with a second process: its results, its errors, and its death."""

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
from children import children

from sheets import aside

APART = sys.platform == "linux"
LATE = 0.2  # seconds


@pytest.fixture(autouse=True)
def _two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def slowly(path: Path | None = None) -> int:
    """Where it is done; *path* tells when it is over."""
    time.sleep(LATE)
    if path:
        path.touch()
    return os.getpid()


@pytest.mark.parametrize("count", [0, 1, 2, 3, 7, 256])
def test_results_come_in_the_order_of_the_tasks(count: int) -> None:
    assert aside.shared(*[partial(pow, n, 2) for n in range(count)]) == [n * n for n in range(count)]


def test_more_than_it_can_share_is_refused_before_anything_is_done() -> None:
    done: list[int] = []
    with pytest.raises(ValueError, match="256"):
        aside.shared(*[partial(done.append, n) for n in range(257)])
    assert done == []


def test_results_are_what_they_were() -> None:
    found = aside.shared(lambda: {"a": [1, 2.5], "where": "there"}, lambda: {"a": [], "where": "here"})
    assert found == [{"a": [1, 2.5], "where": "there"}, {"a": [], "where": "here"}]


def test_two_processes_share_it_where_there_are_two() -> None:
    """This one from the beginning, the other from the end: the long task at the beginning is one of few here."""
    found = aside.shared(slowly, *[os.getpid] * 4)
    assert found[0] == os.getpid()
    if APART and threading.active_count() == 1:
        assert len(set(found)) == 2
        assert os.getpid() not in found[1:], "the other has done the rest meanwhile"
    else:
        assert set(found) == {os.getpid()}


@pytest.mark.skipif(not APART, reason="no second process here")
def test_who_is_free_first_takes_the_next_one() -> None:
    def shortly() -> int:
        time.sleep(LATE / 4)
        return os.getpid()

    found = aside.shared(shortly, *[os.getpid] * 30, slowly)
    assert found[-1] != os.getpid()
    assert found.count(os.getpid()) == 31


def test_with_one_core_or_another_thread_it_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "cpu_count", lambda: 1)
        assert aside.shared(slowly, os.getpid) == [os.getpid()] * 2
    done = threading.Event()
    other = threading.Thread(target=done.wait)
    other.start()
    try:
        assert aside.shared(slowly, os.getpid) == [os.getpid()] * 2
    finally:
        done.set()
        other.join()


@pytest.mark.parametrize("how", ["ends", "killed", "raises"])
def test_what_a_process_took_that_dies_is_done_here(how: str) -> None:
    home = os.getpid()

    def frail() -> str:
        if os.getpid() != home:
            if how == "ends":
                os._exit(7)
            if how == "killed":
                os.kill(os.getpid(), signal.SIGKILL)
            raise RuntimeError
        return "done"

    assert aside.shared(slowly, *[frail] * 3, partial(str, 5)) == [home, "done", "done", "done", "5"]


def test_an_error_in_a_task_is_met_here() -> None:
    def wrong() -> int:
        raise ValueError("as it is")

    for tasks in ([wrong, slowly], [slowly, wrong]):
        with pytest.raises(ValueError, match="as it is"):
            aside.shared(*tasks)


def test_a_result_that_does_not_travel_is_made_here() -> None:
    """A function of its own kind is nothing that pickle takes."""

    def made() -> Callable[[], int]:
        return lambda: 5

    found: list[Any] = aside.shared(slowly, made)
    assert found[1]() == 5


def test_a_long_result_does_not_jam_the_pipe() -> None:
    found: list[Any] = aside.shared(slowly, partial(str.__mul__, "x", 3_000_000))
    assert len(found[1]) == 3_000_000


@pytest.mark.skipif(not APART, reason="no second process here")
def test_no_process_and_no_pipe_is_left() -> None:
    before, others = len(os.listdir("/proc/self/fd")), children()
    for _ in range(3):
        aside.shared(slowly, os.getpid)
        assert children() <= others
    assert len(os.listdir("/proc/self/fd")) == before


@pytest.mark.skipif(not APART, reason="no second process here")
def test_an_error_here_ends_the_work_there(tmp_path: Path) -> None:
    def wrong() -> int:
        time.sleep(LATE / 4)
        raise KeyError

    with pytest.raises(KeyError):
        aside.shared(wrong, partial(slowly, tmp_path / "late"))
    time.sleep(2 * LATE)
    assert not (tmp_path / "late").exists()


@pytest.mark.skipif(not APART, reason="no second process here")
def test_it_ends_with_the_process_that_began_it(tmp_path: Path) -> None:
    def killed() -> int:
        time.sleep(LATE / 2)
        os.kill(os.getpid(), signal.SIGKILL)
        return 0

    child = os.fork()
    if child == 0:
        try:
            aside.shared(killed, partial(slowly, tmp_path / "late"))
        finally:
            os._exit(1)
    os.waitpid(child, 0)
    time.sleep(2 * LATE)
    assert not (tmp_path / "late").exists()
