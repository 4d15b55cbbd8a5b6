"""What of the lumber can be had but wants a look first, in words: treated wood that is drier than the
rest, prices that no plan uses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from layouts.costs import Cost, Warned, each
from layouts.fields import Job
from layouts.pieces import PieceLine


def all_of(job: Job, pieces: Sequence[PieceLine]) -> tuple[Warned, ...]:
    """Every warning of the lumber that *pieces* are cut from."""
    return each(Cost.LOOK, (*_dry_treated(job), *_idle_prices(job, pieces)))


def _dry_treated(job: Job) -> Iterator[str]:
    """Treated wood that holds less water than wood that was rained on, which it may be too: what is lifted is judged
    wet, and its grade board and column ends would be weighed too light. ``wood.wet`` is no drier than ``wood.dry``."""
    part = job.wood
    if part.treated < part.wet:
        drier = ("dry wood", part.dry) if part.treated < part.dry else ("wood that was rained on", part.wet)
        yield (
            f"Treated wood is weighed at {part.treated} percent of moisture, drier than {drier[0]} at {drier[1]} "
            "percent: walls may be heavier than is said. Is wood.treated right?"
        )


def _idle_prices(job: Job, pieces: Sequence[PieceLine]) -> Iterator[str]:
    """Boards with a price that the job buys none of: mistyped, or meant for the same board treated or not."""
    bought = {(line.section, line.treated) for line in pieces}
    priced = dict.fromkeys((p.section, p.treated) for p in job.lumber.prices)
    for treated in (False, True):
        idle = [section for section, how in priced if how == treated and (section, how) not in bought]
        if not idle:
            continue
        how, other = ("treated", "untreated") if treated else ("untreated", "treated")
        text = f"No {how} {', '.join(idle)} is bought: a price in lumber.prices is not used."
        unlike = [section for section in idle if (section, not treated) in bought]
        yield text + (f" Is {other} {', '.join(unlike)} meant, which is?" if unlike else "")
