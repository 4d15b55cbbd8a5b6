"""A bar for work of over half a second: on standard error, in a terminal alone, gone when the work is done.

rich is imported when the bar is first shown: short work does not pay for it. There is no thread beside the work but
while nothing can be counted (``waiting``): the audit makes a second process, and only where there is no other thread.
"""

from __future__ import annotations

import os
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sheets import terminal, tongue

if TYPE_CHECKING:
    from rich.progress import Progress

PATIENCE = 0.5  # seconds before anything is shown
EVERY = 0.08  # seconds between two pictures of the bar
WORDS = 22  # letters that what is done takes, so that the bar does not jump


class Bar:
    """How far the work is. As a ``Step`` it is told what is counted; other processes than its own tell it nothing."""

    def __init__(self) -> None:
        self.began = self.drawn = time.monotonic()
        self.process = os.getpid()
        self.shown: Progress | None = None
        self.lock = threading.Lock()

    def __call__(self, what: str, done: int, of: int) -> None:
        """So many of *what* are done."""
        self.tell(what, done, of)

    def tell(self, what: str, done: int, of: int | None) -> None:
        """The same; without *of* nobody knows of how many."""
        now = time.monotonic()
        if os.getpid() != self.process or now - self.began < PATIENCE or (now - self.drawn < EVERY and done != of):
            return
        with self.lock:
            self.drawn = now
            what = tongue.turned(what)
            count = tongue.turned(f"{done} of {of}") if of else ""
            if self.shown is None:
                self.shown = _bar()
                self.shown.add_task(what.ljust(WORDS), completed=done, total=of, count=count)
                self.shown.start()
                return
            task = self.shown.task_ids[0]
            self.shown.update(task, description=what.ljust(WORDS), completed=done, total=of, count=count)
            self.shown.refresh()

    @contextmanager
    def waiting(self, what: str) -> Iterator[None]:
        """While something is done that counts nothing."""
        over = threading.Event()

        def beside() -> None:
            while not over.wait(EVERY):
                self.tell(what, 0, None)

        thread = threading.Thread(target=beside, daemon=True)
        thread.start()
        try:
            yield
        finally:
            over.set()
            thread.join()

    def end(self) -> None:
        """Take it away."""
        if self.shown is not None and os.getpid() == self.process:
            self.shown.stop()


def _bar() -> Progress:
    from rich.progress import BarColumn, Progress, TextColumn

    from sheets import screen

    columns = (TextColumn("{task.description}"), BarColumn(30), TextColumn("{task.fields[count]}"))
    return Progress(*columns, console=screen.console(sys.stderr), auto_refresh=False, transient=True)


class _Nobody(Bar):
    """No terminal to tell anything."""

    def tell(self, what: str, done: int, of: int | None) -> None:
        """Nothing."""

    @contextmanager
    def waiting(self, what: str) -> Iterator[None]:
        """Nothing."""
        yield


@contextmanager
def bar(quiet: bool = False) -> Iterator[Bar]:
    """A bar, unless it is to be *quiet* or there is no terminal, or one that cannot draw over what it has drawn."""
    seen = not quiet and terminal.width(sys.stderr) and os.environ.get("TERM") != "dumb"
    found = Bar() if seen else _Nobody()
    try:
        yield found
    finally:
        found.end()
