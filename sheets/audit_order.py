"""The order in which a page is painted: what is filled covers what was painted before it, and only that. Words under a
white box are on the page and cannot be read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from sheets.audit_model import Difference, Numbers, Run, Seen


class Painted(NamedTuple):
    """A page as it was read and landed, each list in the order of the file; *under* as in ``Read``."""

    strokes: Sequence[Numbers]
    outlines: Sequence[Numbers]
    runs: Sequence[Run]
    under: Sequence[tuple[int, int]]


def told(seen: Seen, painted: Painted) -> Iterator[Difference]:
    """The first outline that covers other things than it is drawn over. All that is on the page has been *seen*: only
    the order may differ. Any order will do of things that nothing filled stands between."""
    for index, outline in enumerate(seen.plan.outlines):
        if outline[-2] >= 0 and not _right(seen, painted, index):
            place = seen.plan.place(index, lambda span: span.outlines)
            yield Difference(seen.label, place, "over what it is drawn over", "over other things")
            return


def _right(seen: Seen, painted: Painted, index: int) -> bool:
    strokes, runs = under = seen.plan.under[index]
    return (
        painted.under[index] == under
        and (seen.outlines is painted.outlines or seen.outlines[: index + 1] == painted.outlines[: index + 1])
        and _alike(seen.strokes, painted.strokes, strokes)
        and _alike(seen.runs, painted.runs, runs)
    )


def _alike(some: Sequence[object], others: Sequence[object], count: int) -> bool:
    """Whether the first *count* of both are the same, in any order."""
    return some is others or Counter(some[:count]) == Counter(others[:count])
