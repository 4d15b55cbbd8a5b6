"""Work done beside other work: in a process of its own where the system forks one cheaply, else later in this one."""

from __future__ import annotations

import ctypes
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeVar

Result = TypeVar("Result")
_PR_SET_PDEATHSIG = 1  # linux/prctl.h


@contextmanager
def begun(work: Callable[[], Result]) -> Iterator[Callable[[], Result]]:
    """Begin *work*; what is given waits for its result, which must be one that pickle takes.

    A second process is made only on Linux, with a second core and no other thread that it could catch in the middle of
    something. If it dies, the work is done here after all: it must be one that can be begun again. An error in it is
    then met here. It never outlives this process, nor the block, if an error leaves it before the result is wanted.
    """
    if sys.platform != "linux" or (os.cpu_count() or 1) < 2 or threading.active_count() > 1:
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


def _work(work: Callable[[], object], go: int, home: int) -> None:  # pragma: no cover - runs in the forked process only
    """The other process: nothing of it may go on in the program, whatever happens."""
    try:
        # prctl(2): killed when the process that made it ends, so that nothing is written to its folder any more
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        if os.getppid() != home:
            os._exit(1)
        told = pickle.dumps(work())
        with os.fdopen(go, "wb") as pipe:
            pipe.write(told)
        os._exit(0)
    finally:
        os._exit(1)
