"""Tasks that two processes share, in the language that is spoken: what it learns in the other is learnt here too."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar

from sheets import aside
from sheets.language import spoken

if TYPE_CHECKING:
    from sheets.speech import Learnt

Result = TypeVar("Result")


def done(*tasks: Callable[[], Result]) -> list[Result]:
    """The results of all *tasks*, in the same order; ``aside.shared`` tells who does them."""
    speech = spoken()
    if speech is None:
        return aside.shared(*tasks)

    def learning(task: Callable[[], Result]) -> Callable[[], tuple[Result, Learnt]]:
        return lambda: (task(), speech.learnt())

    found = aside.shared(*map(learning, tasks))
    # what comes from the other process is one object, whatever number of its tasks it comes with
    for learnt in {id(learnt[0]): learnt for _, learnt in found}.values():
        if learnt[0] is not speech.learnt()[0]:
            speech.learn(*learnt)
    return [result for result, _ in found]
