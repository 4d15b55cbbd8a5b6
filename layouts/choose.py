"""The line reading that suits the piers: what each candidate costs, and which is proposed.

A larger line reading is a lower grade line: columns get shorter and less stock is bought, until a seat stands too high
for the grade board. Candidates are steps of the rod: from a few above the line that the highest seat asks for down to
the lowest seat, and round the line that puts the finished floor where it is wanted. Proposed is, in this order,

1. the one whose floor comes within what is allowed, else nearest to it,
2. whose grade board reaches far enough below the floor wanted,
3. with the fewest piers that cannot be built on as they are (no board passes, no stock is long enough, a made top does
   not come to stand right), then the fewest out of tolerance, then the fewest too high of those that cannot be built
   on, then the fewest things wrong in all,
4. with the floor nearest to where it is wanted,
5. with the fewest inches that its piers are out of tolerance in all,
6. with the fewest columns that no stock is long enough for, then the least column stock,
7. the lowest.

Seats that stand out from all others (``layouts.doubts.wild``) and were read only once have no say.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from msgspec import Struct

from layouts.fields import Job
from layouts.piers import Kind, delivered, misfits, needs
from layouts.stock import shortest

STEP_IN = {"whole": 1.0, "half": 0.5, "quarter": 0.25}
STEP_MM = {"whole": 10 / 25.4, "half": 5 / 25.4, "quarter": 2 / 25.4}
ABOVE = 4  # candidates above the line that the highest seat asks for: they cost more, and show how much
MANY = 150  # candidates weighed at most from there down, and to either side of the floor
STUCK: tuple[Kind, ...] = ("below", "notch")
HARD: tuple[Kind, ...] = (*STUCK, "stock")
NOISE = 1e-9


class Seat(Struct, frozen=True):
    """What the choice knows of a column: its reading (inches down), whether it carries a truss, its highest station."""

    down: float
    side: bool
    top: float


class Candidate(Struct, frozen=True):
    """One line reading, inches *down*, and its cost. *out*: what is wrong with which seat, by name (untreated ends are
    not the line's to mend); *stocks*: the stock length each column takes, ``None`` where none is long enough; *least*
    and *most* offset; *floor*: how much higher than wanted the finished floor comes, *below*: how far the grade board
    reaches below it, *shows*: how much of the boards stands above it, all ``None`` where no floor is wanted; *covers*
    is false where it reaches too little below."""

    down: float
    out: Mapping[str, tuple[tuple[Kind, float], ...]]
    stocks: Mapping[str, float | None]
    least: float
    most: float
    floor: float | None
    below: float | None
    covers: bool
    shows: float | None = None

    @property
    def bought(self) -> float:
        """All column stock, inches; columns that no stock is long enough for are left out."""
        return sum(length or 0.0 for length in self.stocks.values())


def step(job: Job) -> float:
    """What the line reading is rounded to, inches."""
    return (STEP_MM if job.style.unit == "mm" else STEP_IN)[job.grade.round]


def asks(job: Job, seat: Seat) -> float:
    """The lowest line, inches down, that leaves *seat* the least offset and lets its top come to stand right."""
    return seat.down - max(job.grade.least, needs(job, seat.side))


def weigh(job: Job, seats: Mapping[str, Seat], down: float, floor: float | None) -> Candidate:
    """What the line reading *down* costs; *floor* is what would be read on the finished floor wanted."""
    offsets = {name: seat.down - down for name, seat in seats.items()}
    out = {n: tuple(f for f in misfits(job, s.side, offsets[n], s.top) if f[0] != "end") for n, s in seats.items()}
    whole = delivered(job)
    stocks = {
        n: shortest(offsets[n] + s.top + job.column.trim, job.column.stock) if whole is None or not s.side else whole
        for n, s in seats.items()
    }
    # a floor always stands grade.floor above the line: the lower the line, the lower the floor
    higher = None if floor is None else floor + job.grade.floor - down
    below = None if floor is None else down - floor
    return Candidate(
        down,
        {n: found for n, found in out.items() if found},
        stocks,
        min(offsets.values()),
        max(offsets.values()),
        higher,
        below,
        below is None or below >= job.grade.cover - NOISE,
        None if below is None else job.grade.board.wide * job.grade.boards - below,
    )


def candidates(job: Job, seats: Mapping[str, Seat], floor: float | None, beam: bool = True) -> tuple[Candidate, ...]:
    """The line readings worth weighing, the highest line first. *seats* has one seat at the least. *beam* says that the
    rod cannot read above the beam."""
    by = step(job)
    top = asked(job, seats)
    # below its lowest seat a line finds all of them too high
    last = math.floor(max(seat.down for seat in seats.values()) / by + NOISE)
    numbers = set(range(top - ABOVE, min(max(last, top), top + MANY) + 1))
    if floor is not None:
        wanted, within = (floor + job.grade.floor) / by, min(job.grade.floor_within / by, MANY)
        numbers |= set(range(math.floor(wanted - within + NOISE), math.ceil(wanted + within - NOISE) + 1))
    if beam:
        numbers = {n for n in numbers if n >= 0} or {0}
    return tuple(weigh(job, seats, n * by, floor) for n in sorted(numbers))


def asked(job: Job, seats: Mapping[str, Seat]) -> int:
    """The lowest line that no seat is too high for, in steps of the rod."""
    # a hair of float noise must not cost a whole step
    return math.floor(min(asks(job, seat) for seat in seats.values()) / step(job) + NOISE)


class Cost(NamedTuple):
    """What a candidate is held against the others by, in the order told above; less is better."""

    off: float
    bare: bool
    hard: int
    out: int
    stuck: int
    wrong: int
    near: float
    inches: float
    short: int
    stock: float
    lowest: float


def cost(job: Job, c: Candidate) -> Cost:
    """The cost of one candidate; floats are rounded far below what a tape shows, so that noise decides nothing."""
    wrong = [one for found in c.out.values() for one in found]
    off = abs(c.floor or 0.0)
    return Cost(
        round(max(off - job.grade.floor_within, 0.0), 6),
        not c.covers,
        sum(any(kind in HARD for kind, _ in found) for found in c.out.values()),
        len(c.out),
        sum(any(kind in STUCK for kind, _ in found) for found in c.out.values()),
        len(wrong),
        round(off, 6),
        round(sum(by for _, by in wrong), 6),
        sum(length is None for length in c.stocks.values()),
        round(c.bought, 6),
        -c.down,
    )


def propose(job: Job, found: tuple[Candidate, ...]) -> Candidate:
    """The one that costs least."""
    return min(found, key=lambda c: cost(job, c))
