"""A second process that makes itself ready and then answers: its answers, its errors, its death."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable

import pytest
from children import all_end, children, event, outlast, reached

from sheets import aside

APART = sys.platform == "linux" and threading.active_count() == 1


@pytest.fixture(autouse=True)
def _two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def doubling() -> Callable[[int], int]:
    return lambda n: 2 * n


def who() -> Callable[[str], int]:
    return lambda _: os.getpid()


def test_every_question_has_its_answer() -> None:
    with aside.ready(doubling) as ask:
        assert [ask(n) for n in (1, 2, 21)] == [2, 4, 42]


def test_it_is_another_process_where_there_is_one() -> None:
    with aside.ready(who) as ask:
        assert (ask("") != os.getpid()) == APART


def test_with_one_core_it_is_made_ready_when_first_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[int] = []

    def begin() -> Callable[[int], int]:
        begun.append(os.getpid())
        return doubling()

    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    with aside.ready(begin) as ask:
        assert begun == []
        assert ask(4) == 8
        assert begun == [os.getpid()]


@pytest.mark.skipif(not APART, reason="no second process here")
def test_one_that_is_never_asked_is_gone_with_the_block() -> None:
    begun, over, others = event(), event(), children()

    def begin() -> Callable[[int], int]:
        begun.set()
        outlast(over)
        return doubling()

    with all_end(), aside.ready(begin):
        reached(begun)
    assert not over.is_set()
    assert children() <= others, "nobody is left to be waited for"


@pytest.mark.parametrize("dies", ["before", "between", "asked"])
def test_where_it_dies_the_answer_is_found_here(dies: str) -> None:
    home = os.getpid()

    def frail(n: int) -> int:
        if os.getpid() != home and n == 13:
            os._exit(7)
        return 2 * n

    def begin() -> Callable[[int], int]:
        if os.getpid() != home and dies == "before":
            os.kill(os.getpid(), signal.SIGKILL)
        return frail

    with aside.ready(begin) as ask:
        if dies == "between":
            assert ask(3) == 6
            assert ask(13) == 26
        assert ask(13 if dies == "asked" else 5) == (26 if dies == "asked" else 10)
        assert ask(6) == 12  # and the next one too


def test_an_error_is_met_here() -> None:
    def wrong(n: int) -> int:
        raise ValueError(f"{n} as it is")

    with aside.ready(lambda: wrong) as ask, pytest.raises(ValueError, match="7 as it is"):
        ask(7)


def test_one_that_cannot_begin_says_so_here() -> None:
    def begin() -> Callable[[int], int]:
        raise ModuleNotFoundError("no solver", name="solver")

    with aside.ready(begin) as ask, pytest.raises(ModuleNotFoundError, match="no solver"):
        ask(7)


def test_an_error_of_the_block_goes_through_as_it_is() -> None:
    full = OSError("the disk is full")
    with pytest.raises(OSError, match="the disk is full"), aside.ready(doubling):
        raise full


def test_long_questions_and_answers_do_not_jam_the_pipes() -> None:
    def twice() -> Callable[[str], str]:
        return lambda text: text * 2

    with aside.ready(twice) as ask:
        assert [len(ask("x" * 1_500_000)) for _ in range(2)] == [3_000_000] * 2


@pytest.mark.skipif(not APART, reason="no second process here")
def test_it_ends_with_the_process_that_began_it() -> None:
    begun, over = event(), event()

    def begin() -> Callable[[int], int]:
        begun.set()
        outlast(over)
        return doubling()

    with all_end():
        child = os.fork()
        if child == 0:
            try:
                with aside.ready(begin):
                    reached(begun)
                    os.kill(os.getpid(), signal.SIGKILL)
            finally:
                os._exit(1)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
