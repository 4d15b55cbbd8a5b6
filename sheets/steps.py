"""How long work tells how far it is: a step is what is done, how many of it, and of how many."""

from __future__ import annotations

from collections.abc import Callable

Step = Callable[[str, int, int], None]


def untold(what: str, done: int, of: int) -> None:
    """For whoever does not want to know."""
