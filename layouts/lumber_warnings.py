"""What of the lumber can be had but wants a look first, in words: treated wood that is drier than the
rest, prices that no plan uses, and prices far from others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import median

from layouts.costs import Cost, Warned, each
from layouts.fields import Job
from layouts.lengths import show
from layouts.lumber import Price, bought_as
from layouts.pieces import PieceLine

FAR = 2.0
"""A board that costs so many times what others of its size do by the foot, or so many times less, is asked about: long
ones cost more by the foot, but not that much more (common practice, no source)."""


def all_of(job: Job, pieces: Sequence[PieceLine]) -> tuple[Warned, ...]:
    """Every warning of the lumber that *pieces* are cut from."""
    return each(Cost.LOOK, (*_dry_treated(job), *_idle_prices(job, pieces), *_odd_prices(job)))


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


def _odd_prices(job: Job) -> Iterator[str]:
    """Prices that are far from those of the same board in other lengths, by the foot: a figure too many, or a decimal
    point that slipped. The plan would buy none of it, or nothing else."""
    kinds: dict[tuple[str, bool], list[Price]] = {}
    for price in job.lumber.prices:
        kinds.setdefault((price.section, price.treated), []).append(price)
    for (section, treated), prices in kinds.items():
        name = bought_as(section, treated)
        by_foot = sorted((p.cost / p.length, show(p.length, job.style)) for p in prices)
        (least, cheap), (most, dear) = by_foot[0], by_foot[-1]
        if len(prices) == 2 and most > FAR * least:
            yield f"{name}: {dear} costs over twice what {cheap} does by the foot. Is lumber.prices right?"
        elif len(prices) > 2:
            yield from _odd(name, by_foot)


def _odd(name: str, by_foot: Sequence[tuple[float, str]]) -> Iterator[str]:
    """Lengths of one board that are far from the middle one of them all."""
    middle = median(cost for cost, _ in by_foot)
    few = [length for cost, length in by_foot if cost * FAR < middle]
    many = [length for cost, length in by_foot if cost > FAR * middle]
    for some, words in ((few, "under half"), (many, "over twice")):
        if some:
            yield f"{name} {', '.join(some)}: {words} what other lengths cost by the foot. Is lumber.prices right?"
