"""The solver, loaded in a second process while this one loads the rest of the program and the job.

With numpy it takes as long to import as all of the layout. Nothing is imported here that the first moments of a command
could do without.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING, Any

from sheets import aside

if TYPE_CHECKING:
    from layouts.search import Solve

LAY_OUT = frozenset({"audit", "check", "demo", "print"})  # commands that lay one building out
SOLVER = "highspy"
_begun: list[tuple[Callable[[Any], Any], ExitStack]] = []


@contextmanager
def begun(words: Sequence[str]) -> Iterator[None]:
    """Send for the solver if the *words* of a command line want a building laid out and it is not here yet."""
    with ExitStack() as process:
        if LAY_OUT.intersection(words[:1]) and "--help" not in words and SOLVER not in sys.modules:
            _begun.append((process.enter_context(aside.ready(_loaded)), process))
        try:
            yield
        finally:
            _begun.clear()


@contextmanager
def solver() -> Iterator[Solve]:
    """What searches for cutting plans, for as long as one building is laid out: where nobody was sent for, in this
    process."""
    if not _begun:
        yield _ready()
        return
    solve, process = _begun.pop()
    with process:
        yield solve


def _ready() -> Solve:
    from layouts import search

    return search.solve


def _loaded() -> Solve:
    from layouts import highs

    highs.load()
    return _ready()
