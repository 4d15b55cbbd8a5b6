"""How long work tells how far it is: a step is what is done, how many of it, and of how many."""

from __future__ import annotations

from collections.abc import Callable

Step = Callable[[str, int, int], None]


class Count:
    """How much of *what* is done, of how many: *step* is told whenever it is more, here or in another process."""

    def __init__(self, step: Step, what: str, of: int) -> None:
        self.step, self.what, self.of, self.done = step, what, of, 0

    def more(self, by: int = 1) -> None:
        """So many more, done in this process."""
        self.reach(self.done + by)

    def reach(self, done: int) -> None:
        """So many in all, by whomever they were done."""
        if done > self.done:
            self.done = done
            self.step(self.what, done, self.of)


def untold(what: str, done: int, of: int) -> None:
    """For whoever does not want to know."""
