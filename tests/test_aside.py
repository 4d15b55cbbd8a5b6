"""Work shared with a second process: its results, its errors, and its death."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest
from children import all_end, children, event, outlast, reached

from sheets import aside

APART = pytest.mark.skipif(sys.platform != "linux" or threading.active_count() > 1, reason="no second process here")


@pytest.fixture(autouse=True)
def _two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


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


@APART
def test_two_processes_share_it_where_there_are_two() -> None:
    """One from the beginning and one from the end: each is at its task before the other has ended its own."""
    here, there = event(), event()

    def first() -> int:
        here.set()
        reached(there)
        return os.getpid()

    def last() -> int:
        there.set()
        reached(here)
        return os.getpid()

    found = aside.shared(first, last)
    assert found[0] == os.getpid() != found[1]


@APART
def test_who_is_free_first_takes_the_next_one() -> None:
    """While the other process is at the last task, all others are done here."""
    begun, done = event(), event()

    def first() -> int:
        reached(begun)
        return os.getpid()

    def last_but_one() -> int:
        done.set()
        return os.getpid()

    def last() -> int:
        begun.set()
        reached(done)
        return os.getpid()

    found = aside.shared(first, *[os.getpid] * 29, last_but_one, last)
    assert found[:-1] == [os.getpid()] * 31
    assert found[-1] != os.getpid()


def test_with_one_core_or_another_thread_it_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "cpu_count", lambda: 1)
        assert aside.shared(*[os.getpid] * 9) == [os.getpid()] * 9
    done = threading.Event()
    other = threading.Thread(target=done.wait)
    other.start()
    try:
        assert aside.shared(*[os.getpid] * 9) == [os.getpid()] * 9
    finally:
        done.set()
        other.join()


@APART
@pytest.mark.parametrize("how", ["ends", "killed", "raises"])
def test_what_a_process_took_that_dies_is_done_here(how: str) -> None:
    home, begun = os.getpid(), event()

    def first() -> str:
        reached(begun)
        return "done"

    def frail() -> str:
        if os.getpid() != home:
            begun.set()
            if how == "ends":
                os._exit(7)
            if how == "killed":
                os.kill(os.getpid(), signal.SIGKILL)
            raise RuntimeError
        return "done"

    assert aside.shared(first, *[frail] * 3, partial(str, 5)) == ["done", "done", "done", "done", "5"]


@pytest.mark.parametrize("place", [0, 1, 4])
def test_an_error_in_a_task_is_met_here(place: int) -> None:
    def wrong() -> int:
        raise ValueError("as it is")

    tasks = [os.getpid] * 5
    tasks[place] = wrong
    with pytest.raises(ValueError, match="as it is"):
        aside.shared(*tasks)


@APART
def test_an_error_there_is_met_here() -> None:
    begun = event()

    def wrong() -> None:
        begun.set()
        raise ValueError("as it is")

    with pytest.raises(ValueError, match="as it is"):
        aside.shared(partial(reached, begun), wrong)


@APART
def test_a_result_that_does_not_travel_is_made_here() -> None:
    """A function of its own kind is nothing that pickle takes."""
    begun = event()

    def made() -> Callable[[], int]:
        begun.set()
        return lambda: 5

    found: list[Any] = aside.shared(partial(reached, begun), made)
    assert found[1]() == 5


@APART
def test_a_long_result_does_not_jam_the_pipe() -> None:
    begun = event()

    def long() -> str:
        begun.set()
        return "x" * 3_000_000

    found: list[Any] = aside.shared(partial(reached, begun), long)
    assert found == [None, "x" * 3_000_000]


@APART
def test_no_process_and_no_pipe_is_left() -> None:
    before, others = len(os.listdir("/proc/self/fd")), children()
    for _ in range(3):
        aside.shared(*[os.getpid] * 9)
        assert children() <= others
    assert len(os.listdir("/proc/self/fd")) == before


@APART
def test_an_error_here_ends_the_work_there() -> None:
    begun, over, others = event(), event(), children()

    def wrong() -> None:
        reached(begun)
        raise KeyError

    def long() -> None:
        begun.set()
        outlast(over)

    with all_end(), pytest.raises(KeyError):
        aside.shared(wrong, long)
    assert not over.is_set()
    assert children() <= others, "nobody is left to be waited for"


@APART
def test_it_ends_with_the_process_that_began_it() -> None:
    begun, over = event(), event()

    def killed() -> None:
        reached(begun)
        os.kill(os.getpid(), signal.SIGKILL)

    def long() -> None:
        begun.set()
        outlast(over)

    with all_end():
        child = os.fork()
        if child == 0:
            try:
                aside.shared(killed, long)
            finally:
                os._exit(1)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
