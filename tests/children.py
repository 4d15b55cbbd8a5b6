"""Processes that this one has made (Linux): which there are, how two of them wait for each other, and when one ends."""

from __future__ import annotations

import multiprocessing
import os
import select
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from multiprocessing.synchronize import Event
from pathlib import Path

PATIENCE = 60.0  # seconds until a test fails that waits in vain; no test lasts so long that goes well


def children() -> set[int]:
    """The numbers of those not yet waited for: a browser of other tests may be among them.

    By proc(5): the parent is the second field after the name, which ends with the last bracket.
    """
    found = set()
    for place in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            if int(place.read_text().rpartition(")")[2].split()[1]) == os.getpid():
                found.add(int(place.parent.name))
    return found


def event() -> Event:
    """What is set in one process and waited for in another that was forked meanwhile."""
    return multiprocessing.get_context("fork").Event()


def reached(happens: Event) -> None:
    """Wait for what another process sets."""
    assert happens.wait(PATIENCE), "the other process does not come so far"


def outlast(over: Event) -> None:
    """Work that goes on when whoever waits for its end has lost patience; *over* is set then."""
    time.sleep(3 * PATIENCE)
    over.set()


@contextmanager
def all_end() -> Iterator[None]:
    """Every process that is forked in the block, by whomever, has ended when it is over: each holds a pipe open."""
    take, give = os.pipe()
    with open(take, closefd=True):
        try:
            yield
        finally:
            os.close(give)
        assert select.select([take], [], [], PATIENCE)[0], "a process lives on"
