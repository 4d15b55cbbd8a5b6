"""Openings in walls: all of a job, and what they do to one another.

The rough opening is the nominal size and an allowance (common practice, no source: the unit's label rules): half of
what it is wider to either side, all of what it is higher at the top. Heights are from the finished floor. What one
opening is made of stands in ``layouts.framed``, how it is laid in ``layouts.framing``.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import combinations, permutations

from msgspec.structs import replace

from layouts.fields import Job
from layouts.framed import SAME, lies_on
from layouts.framed import Level as Level
from layouts.framed import Opening as Opening
from layouts.framed import Upright as Upright
from layouts.framed import rough as rough
from layouts.framing import Maker
from layouts.plan import UNLIKE, Plan, in_capitals
from layouts.problems import Problem
from layouts.roof import Roof, Surface
from layouts.rows import Rows, under_rake

Box = tuple[float, float, float, float]


def lay(
    job: Job,
    plan: Plan,
    roof: Roof,
    rows: Rows,
    file: str = "job.toml",
    skip: Collection[int] = (),
) -> tuple[tuple[Opening, ...], list[Problem]]:
    """All openings that can be laid, and what is wrong with the others. Those whose number is in *skip* hold stand-ins
    for what could not be read: nothing is said of them."""
    found: dict[int, Opening] = {}
    problems: list[Problem] = []
    limits = _limits(job, plan, roof)

    def maker(number: int, others: Sequence[Opening] = ()) -> Maker:
        return Maker(job, plan, roof, rows, job.openings[number - 1], f"opening {number}", file, others)

    for number in range(1, len(job.openings) + 1):
        if number in skip:
            continue
        made = maker(number)
        opening = made.opening(limits)
        problems += named(job, plan, number, file)
        problems += made.problems
        if opening and not made.problems:
            found[number] = opening
    told = dict(_lying(found))
    if not told:
        found, marked = _apart(found), {line.name: rows.marked(line) for line in plan.walls}
        for number, opening in found.items():
            others = [o for o in found.values() if o.wall == opening.wall and o is not opening]
            again = maker(number, others).opening(limits) if others else None
            # a window over a door stands on the door's header, not in the door
            opening = replace(opening, uprights=again.uprights) if again else opening
            found[number] = replace(opening, notes=(*opening.notes, *lies_on(job, opening, marked[opening.wall])))
        told = dict((*_crossed(found), *_close(found)))
    for number, wrong in told.items():
        key = "at" if found[number].part.bay is None else "bay"
        problems.append(Problem(file, f"opening {number}.{key}", found[number].name, wrong, "Move one of them."))
    return tuple(found.values()), problems


def named(job: Job, plan: Plan, number: int, file: str) -> list[Problem]:
    """A name on the sheets means one thing."""
    name, place = job.openings[number - 1].name, f"opening {number}.name"
    before, columns = [p.name for p in job.openings[: number - 1]], [s.name for s in plan.spots]
    if name in before:
        return [Problem(file, place, name, "is the name of another opening.", "No two alike.")]
    if name in columns:
        return [Problem(file, place, name, "is the name of a column.", "A name on the sheets means one thing.")]
    others = [(f"opening {i}", n) for i, n in enumerate(before, 1)] + [(f"column {s.grid}", s.name) for s in plan.spots]
    for what, other in others:
        if in_capitals(other) == in_capitals(name):
            return [Problem(file, place, name, f"is the name of {what} but for capitals.", UNLIKE)]
    return []


def _limits(job: Job, plan: Plan, roof: Roof) -> dict[str, Surface]:
    """By wall what the boards of a gable end under, as seen along it: the chord, or the nailer along it."""
    under = under_rake(job, roof)
    return {
        line.name: under if line.side == "front" else under.turned(line.length) for line in plan.walls if line.gable
    }


# --- what lies in one another ---------------------------------------------------------------------------------------


def _box(board: Level) -> Box:
    return board.start, board.end, board.low, board.high


def _hole(opening: Opening) -> Box:
    return opening.left, opening.right, opening.low, opening.high


def _meet(a: Box, b: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return all(a[i] < b[i + 1] - SAME and b[i] < a[i + 1] - SAME for i in (0, 2))


def _pairs(found: dict[int, Opening]) -> Iterator[tuple[int, Opening, Opening]]:
    """Openings of one wall two by two, with the number of the second."""
    for (_, a), (number, b) in combinations(found.items(), 2):
        if a.wall == b.wall:
            yield number, a, b


def _lying(found: dict[int, Opening]) -> Iterator[tuple[int, str]]:
    """Openings in one another."""
    for number, a, b in _pairs(found):
        if _meet(_hole(a), _hole(b)):
            yield number, f"lies in {a.name}."


def _close(found: dict[int, Opening]) -> Iterator[tuple[int, str]]:
    """Uprights in one another or in openings, and track boards in one another."""
    for number, a, b in _pairs(found):
        first, second = ([(u.left, u.right, u.low, u.high) for u in o.uprights] for o in (a, b))
        if any(_meet(u, v) for u in (*first, _hole(a)) for v in (*second, _hole(b))):
            yield number, f"stands too near to {a.name}: there is no room for the jamb posts and cripples of both."
        elif a.track and b.track and _meet(_box(a.track), _box(b.track)):
            yield number, f"has its track board in that of {a.name}."


def _apart(found: dict[int, Opening]) -> dict[int, Opening]:
    """The openings with headers and sills that end on their own jamb post where another opening, or its header or
    sill, is in their way; and with notes of doors that slide over others."""
    made = dict(found)
    for (one, a), (_, b) in permutations(found.items(), 2):
        if a.wall != b.wall:
            continue
        others = [_hole(b), *(_box(board) for board in b.levels)]
        header = _held(a, a.header, made[one].header, b, others)
        sill = made[one].sill
        if a.sill and sill:
            sill = _held(a, a.sill, sill, b, others)
        notes = made[one].notes
        if a.track and a.track.start < b.right and b.left < a.track.end and b.low < a.high:
            notes = (*notes, f"{a.name} slides over {b.name}.")
        made[one] = replace(made[one], header=header, sill=sill, notes=notes)
    return made


def _held(a: Opening, board: Level, now: Level, b: Opening, others: list[Box]) -> Level:
    """A board of *a* as far as *b* lets it go; *now* is what is left of it already."""
    if not any(_meet(_box(board), other) for other in others):
        return now
    middle = a.part.jamb.thick / 2
    if b.left >= a.right and a.framed[1] > a.right:
        kept = tuple(c for c in now.columns if c != a.columns[1])
        return replace(now, end=min(now.end, a.right + middle), columns=kept)
    if b.right <= a.left and a.framed[0] < a.left:
        kept = tuple(c for c in now.columns if c != a.columns[0])
        return replace(now, start=max(now.start, a.left - middle), columns=kept)
    return now


def _crossed(found: dict[int, Opening]) -> Iterator[tuple[int, str]]:
    """Headers, sills and track boards that are still in another opening; headers and sills in those of another."""
    for number, a, b in _pairs(found):
        for one, other in ((a, b), (b, a)):
            if one.track and _meet(_box(one.track), _hole(other)):
                yield number, f"stands too near to {a.name}: {one.track.name} would run through {other.name}."
            for board in one.levels:
                if _meet(_box(board), _hole(other)):
                    yield number, f"stands too near to {a.name}: {board.name} would run through {other.name}."
                for crossed in other.levels:
                    if _meet(_box(board), _box(crossed)):
                        yield number, f"stands too near to {a.name}: {board.name} would lie in {crossed.name}."
