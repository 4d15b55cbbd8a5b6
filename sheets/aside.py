"""Work done in two processes: in a second one beside this where the system forks one cheaply, else in one alone."""

from __future__ import annotations

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


def shared(*tasks: Callable[[], Result]) -> list[Result]:
    """Do all *tasks*, and return their results in the same order.

    A second process takes them from the end, this one from the beginning, until none is left: so both are done at the
    same time, and tasks that stand together are mostly done in one. There may be 256. A result must be one that pickle
    takes. The second process is made only on Linux, with a second core and no other thread that it could catch in the
    middle of something. If it dies, what it took is done here after all: a task must be one that can be begun again.
    An error in one is then met here. It never outlives this process, nor this call.
    """
    tokens = bytes(range(len(tasks)))  # more than 256 is a ValueError: any pipe holds so many
    (take, give), (come, go) = os.pipe(), os.pipe()
    os.write(give, tokens)
    os.close(give)
    home = os.getpid()
    child = _forked() if len(tasks) > 1 else None
    if child == 0:
        _work(tasks, take, go, home)
    os.close(go)
    waited: list[int] = []
    try:
        with os.fdopen(come, "rb") as pipe:
            done = [tasks[number]() for number in _turns(take)]
            told = pipe.read()
        if child is not None:
            waited.append(os.waitpid(child, 0)[1])
    finally:
        os.close(take)
        if child is not None and not waited:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
    if waited == [0]:
        return [*done, *reversed(pickle.loads(told))]
    return [*done, *[task() for task in tasks[len(done) :]]]


def _turns(take: int) -> Iterator[int]:
    """How many tasks were begun here before, each time that there is one left: of the tokens in the pipe *take*, one is
    drawn for each task, whoever does it."""
    number = 0
    while os.read(take, 1):
        yield number
        number += 1


@contextmanager
def ready(begin: Callable[[], Callable[[Asked], Result]]) -> Iterator[Callable[[Asked], Result]]:
    """Do what *begin* does before the first question, which comes later, and answer the questions by what it gives.

    The second process is made where ``shared`` makes one; what goes to and fro must be what pickle takes. Where there
    is none, where it dies, or an answer fails in it, *begin* is called here, and an error is met here.
    """
    hear, tell = os.pipe(), os.pipe()
    home = os.getpid()
    child = _forked()
    if child == 0:
        _answer(begin, hear, tell, home)
    os.close(hear[1])
    os.close(tell[0])
    if child is None:
        os.close(hear[0])
        os.close(tell[1])
        yield lambda asked: begin()(asked)
        return
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


def _forked() -> int | None:
    """fork(2); ``None`` where it would not be cheap, or no further process is to be had."""
    try:
        return os.fork() if _cheap() else None
    except OSError:
        return None


# --- the other process: nothing of it may go on in the program, whatever happens --------------------------------------


def _work(  # pragma: no cover - runs in the forked process only
    tasks: tuple[Callable[[], object], ...], take: int, go: int, home: int
) -> None:
    """Tasks from the end, until none is left; then all their results."""
    try:
        _die_with(home)
        told = pickle.dumps([tasks[-1 - number]() for number in _turns(take)])
        with os.fdopen(go, "wb") as pipe:
            pipe.write(told)
        os._exit(0)
    finally:
        os._exit(1)


def _answer(  # pragma: no cover - runs in the forked process only
    begin: Callable[[], Callable[[Asked], Result]], tell: tuple[int, int], hear: tuple[int, int], home: int
) -> None:
    """An answer to every question until it is killed."""
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
    import ctypes

    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != home:
        os._exit(1)
