"""What it costs if nobody heeds a warning: the one order in which warnings are told, on paper and in the terminal.

The order is common practice, no source: what moves every column comes before what scraps one, that before a wrong cut.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum

from msgspec import Struct
from msgspec.structs import replace


class Cost(IntEnum):
    """What is at stake, the dearest first."""

    EVERY = 0
    """Every column and every rod: the line is doubtful, a round is left out, the unit may be another."""
    PART = 1
    """A column, a wall or a truss, which is scrapped or cannot be made."""
    CUT = 2
    """A board, a sheet or a nail that is cut, set or driven wrong."""
    LOOK = 3
    """Nothing yet: it wants a look."""

    @property
    def words(self) -> str:
        """The same for people, in capitals: colour alone says nothing."""
        return WORDS[self]


WORDS = {
    Cost.EVERY: "EVERY COLUMN HANGS ON IT",
    Cost.PART: "A COLUMN, A WALL OR A TRUSS IS AT STAKE",
    Cost.CUT: "A WRONG CUT, BOARD OR NAIL",
    Cost.LOOK: "WANTS A LOOK",
}


class Warned(Struct, frozen=True):
    """One warning: what is at stake, and its *text*; *read* where it comes of the readings, and another round or line
    moves it."""

    cost: Cost
    text: str
    read: bool = False


def each(cost: Cost, texts: Iterable[str]) -> tuple[Warned, ...]:
    """Warnings that all cost the same."""
    return tuple(Warned(cost, text) for text in texts)


def of_readings(found: Iterable[Warned]) -> tuple[Warned, ...]:
    """Warnings that come of the readings."""
    return tuple(replace(one, read=True) for one in found)


def dearest_first(found: Iterable[Warned]) -> tuple[Warned, ...]:
    """The order of telling: by what is at stake; those that cost the same stay as they were."""
    return tuple(sorted(found, key=lambda warned: warned.cost))
