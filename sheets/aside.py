"""Work done beside other work: in a process of its own where the system forks one cheaply, else later in this one."""

from __future__ import annotations

import ctypes
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from typing import TypeVar

Asked = TypeVar("Asked")
Result = TypeVar("Result")
_PR_SET_PDEATHSIG = 1  # linux/prctl.h


@contextmanager
def begun(work: Callable[[], Result]) -> Iterator[Callable[[], Result]]:
    """Begin *work*; what is given waits for its result, which must be one that pickle takes.

    A second process is made only on Linux, with a second core and no other thread that it could catch in the middle of
    something. If it dies, the work is done here after all: it must be one that can be begun again. An error in it is
    then met here. It never outlives this process, nor the block, if an error leaves it before the result is wanted.
    """
    if not _cheap():
        yield work
        return
    come, go = os.pipe()
    home = os.getpid()
    child = os.fork()
    if child == 0:
        _work(work, go, home)
    os.close(go)
    with os.fdopen(come, "rb") as pipe:
        waited: list[int] = []

        def wait() -> Result:
            told = pipe.read()
            waited.append(os.waitpid(child, 0)[1])
            if waited[-1] != 0 or not told:
                return work()
            result: Result = pickle.loads(told)
            return result

        try:
            yield wait
        finally:
            if not waited:
                os.kill(child, signal.SIGKILL)
                os.waitpid(child, 0)


@contextmanager
def ready(begin: Callable[[], Callable[[Asked], Result]]) -> Iterator[Callable[[Asked], Result]]:
    """Do what *begin* does before the first question, which comes later, and answer the questions by what it gives.

    The second process is made where ``begun`` makes one; what goes to and fro must be what pickle takes. Where there is
    none, where it dies, or an answer fails in it, *begin* is called here, and an error is met here.
    """
    if not _cheap():
        yield lambda asked: begin()(asked)
        return
    hear, tell = os.pipe(), os.pipe()
    home = os.getpid()
    child = os.fork()
    if child == 0:
        _answer(begin, hear, tell, home)
    os.close(hear[1])
    os.close(tell[0])
    questions = os.fdopen(tell[1], "wb")
    with os.fdopen(hear[0], "rb") as answers:

        def ask(asked: Asked) -> Result:
            try:
                pickle.dump(asked, questions)
                questions.flush()
                answer: Result = pickle.load(answers)
            except (OSError, EOFError, pickle.UnpicklingError):
                return begin()(asked)
            return answer

        try:
            yield ask
        finally:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            with suppress(OSError):  # a question that it did not hear
                questions.close()


def _cheap() -> bool:
    """Whether a second process costs little here, and cannot catch another thread in the middle of something."""
    return sys.platform == "linux" and (os.cpu_count() or 1) > 1 and threading.active_count() == 1


def _work(work: Callable[[], object], go: int, home: int) -> None:  # pragma: no cover - runs in the forked process only
    """The other process: nothing of it may go on in the program, whatever happens."""
    try:
        _die_with(home)
        told = pickle.dumps(work())
        with os.fdopen(go, "wb") as pipe:
            pipe.write(told)
        os._exit(0)
    finally:
        os._exit(1)


def _answer(  # pragma: no cover - runs in the forked process only
    begin: Callable[[], Callable[[Asked], Result]], tell: tuple[int, int], hear: tuple[int, int], home: int
) -> None:
    """The other process: an answer to every question until it is killed."""
    try:
        _die_with(home)
        os.close(tell[0])
        os.close(hear[1])
        answer = begin()
        with os.fdopen(hear[0], "rb") as questions, os.fdopen(tell[1], "wb") as answers:
            while True:
                pickle.dump(answer(pickle.load(questions)), answers)
                answers.flush()
    finally:
        os._exit(1)


def _die_with(home: int) -> None:  # pragma: no cover - runs in the forked process only
    """prctl(2): killed when the process that made it ends, so that nothing is written to its folder any more."""
    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != home:
        os._exit(1)
