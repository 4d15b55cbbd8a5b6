"""What a question about a building is, and of which buildings it is asked."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from msgspec import Struct


def always(_: Any) -> bool:
    """Asked of every building."""
    return True


class Either(Struct, frozen=True):
    """A *word* before an answer that makes it one of another *field*, and what it *sets* besides."""

    word: str
    field: str
    sets: tuple[tuple[str, str], ...] = ()


class Question(Struct, frozen=True):
    """*ask* is the prompt, *picture* says in words what is meant and from where to where it is measured. It is asked
    *when* that holds of the job so far (of an opening: of that opening). *left* is what leaving the field out means, if
    Enter may do that; *like* names the field whose value is the default, *fresh* is the default whatever stood there
    before; *either* are other ways to answer, *also* other words for choices. Fields of an opening are named
    ``opening.width``."""

    field: str
    ask: str
    picture: str
    when: Callable[[Any], bool] = always
    left: str = ""
    like: str = ""
    fresh: str = ""
    either: tuple[Either, ...] = ()
    also: tuple[tuple[str, str], ...] = ()
    none: bool = False  # not the default of the spec: *left* is the default, or it must be said

    @property
    def fields(self) -> tuple[str, ...]:
        """Every field that an answer may go to."""
        return (self.field, *(e.field for e in self.either if e.field != self.field))


class Group(Struct, frozen=True):
    """A question as a crew lead counts them, in one or more steps. *together*: shown first as it would be by default,
    and gone through step by step only if that is not right."""

    title: str
    questions: tuple[Question, ...]
    together: bool = False


def gable(job: Any) -> bool:
    """Whether the roof has two slopes."""
    return bool(job.roof.shape == "gable")


def mono(job: Any) -> bool:
    """Whether it rises from one sidewall to the other."""
    return bool(job.roof.shape == "mono-slope")


def lean_to(job: Any) -> bool:
    """Whether it rises to a wall that stands already."""
    return bool(job.roof.shape == "lean-to")


def no_lean_to(job: Any) -> bool:
    """Whether it does not."""
    return not lean_to(job)


def solid(job: Any) -> bool:
    """Whether a column is one timber."""
    return bool(job.column.make == "solid")


def laminated(job: Any) -> bool:
    """Whether it is nailed up of plies."""
    return not solid(job)


def high(job: Any) -> bool:
    """Whether the high side of a roof of one slope is given."""
    return (mono(job) and job.truss.far_eave is not None) or (lean_to(job) and job.truss.wall_height is not None)


def settled(job: Any) -> bool:
    """Whether a lean-to's bearing follows from its wall and its pitch."""
    return bool(lean_to(job) and job.truss.wall_height is not None and job.truss.pitch is not None)
