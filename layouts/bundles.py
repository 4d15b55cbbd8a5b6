"""Columns as they are ordered: how many of a length, whose tops are made in the factory, the spares; and the seat
blocks that go on short centre plies. Inches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from layouts.columns import Column
from layouts.fields import Job
from layouts.plan import Plan
from layouts.seats import cut_wide
from layouts.stock import spares

Made = Literal["", "notch", "short centre"]


class Bundle(Struct, frozen=True):
    """*count* columns of a *stock* length that are alike. *made* is what the factory makes of their tops: a ``notch``,
    a ``short centre`` ply (or two) under a seat block, or nothing; *spare* that no tag asks for them."""

    stock: float
    count: int
    made: Made = ""
    spare: bool = False


class Block(Struct, frozen=True):
    """Seat blocks of one *length* on the *columns*: *thick* across the plies, *plies* of them, *deep* along a ply."""

    length: float
    columns: tuple[str, ...]
    thick: float
    plies: int
    deep: float


def made(job: Job, column: Column) -> Made:
    """What the factory makes of a column's top: endwall columns come plain."""
    if column.role == "end":
        return ""
    if job.column.centre_ply is not None:
        return "short centre"
    return "notch" if column.fit.made else ""


def bundles(job: Job, columns: Sequence[Column]) -> tuple[Bundle, ...]:
    """All columns that are known, shortest first, then the spares: of the longest, made as most of those are."""
    found = Counter((c.stock, made(job, c)) for c in columns if c.stock is not None)
    known = [Bundle(stock, count, how) for (stock, how), count in sorted(found.items())]
    alike = {b.stock: b.made for b in sorted(known, key=lambda b: b.count)}
    spare = spares([(b.stock, b.count) for b in known], count=job.lumber.column_spares)
    return (*known, *(Bundle(stock, count, alike[stock], spare=True) for stock, count in spare))


def unordered(plan: Plan, columns: Sequence[Column]) -> tuple[str, ...]:
    """The columns that are to be ordered once they are known, in walking order."""
    known = {c.name for c in columns if c.stock is not None}
    return tuple(s.name for s in plan.spots if s.name not in known)


def blocks(job: Job, columns: Sequence[Column]) -> tuple[Block, ...]:
    """The seat blocks, shortest first; lengths that are the same to a thousandth are one."""
    found: dict[float, list[Column]] = {}
    for column in columns:
        if column.fit.seat_block:
            found.setdefault(round(column.fit.seat_block, 3), []).append(column)
    return tuple(
        Block(
            alike[0].fit.seat_block, tuple(c.name for c in alike), cut_wide(job), job.column.plies - 2, job.column.depth
        )
        for _, alike in sorted(found.items())
    )
