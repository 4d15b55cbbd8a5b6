"""Work done beside other work: in a process of its own where the system forks one cheaply, else later in this one."""

from __future__ import annotations

import os
import pickle
import sys
import threading
from collections.abc import Callable
from typing import TypeVar

Result = TypeVar("Result")


def begin(work: Callable[[], Result]) -> Callable[[], Result]:
    """Begin *work*, which only reads; what is returned waits for its result, which must be one that pickle takes.

    A second process is made only on Linux, with a second core and no other thread that it could catch in the middle of
    something. If it dies, the work is done here after all; an error in it is then met here.
    """
    if sys.platform != "linux" or (os.cpu_count() or 1) < 2 or threading.active_count() > 1:
        return work
    come, go = os.pipe()
    child = os.fork()
    if child == 0:
        _work(work, go)
    os.close(go)

    def wait() -> Result:
        with os.fdopen(come, "rb") as pipe:
            told = pipe.read()
        _, status = os.waitpid(child, 0)
        if status != 0 or not told:
            return work()
        result: Result = pickle.loads(told)
        return result

    return wait


def _work(work: Callable[[], object], go: int) -> None:  # pragma: no cover - runs in the forked process only
    """The other process: nothing of it may go on in the program, whatever happens."""
    try:
        told = pickle.dumps(work())
        with os.fdopen(go, "wb") as pipe:
            pipe.write(told)
        os._exit(0)
    finally:
        os._exit(1)
