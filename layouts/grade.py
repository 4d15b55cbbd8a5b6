"""The grade line against the seats: which line reading, each column's offset, and high or low in words.

offset = reading − line reading, both down from the beam: how far the grade line stands above a column's bottom end. One
constant added to all readings and to the line reading changes no offset. Here it is that of an end on the bare seat:
packing comes off it (``layouts.piers.Fit.offset``).
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from statistics import median

from msgspec import Struct

from layouts import choose, line_doubts
from layouts.choose import Candidate, Seat
from layouts.doubts import wild
from layouts.fields import Job
from layouts.lengths import Style, show, show_fine, up
from layouts.piers import PLAIN, Fit, fit
from layouts.plan import Plan
from layouts.problems import JobRefused, Problem, nearest
from layouts.readings import Readings
from layouts.why import SAME, Choice

SHOWN = 4  # candidates told to either side of the line


class Grade(Struct, frozen=True):
    """*line* is the line reading, inches down from the beam (``None`` without readings); *why* says how it came about;
    *offsets* and *lower* go by column name, inches, for the columns that were read: *lower* is how much lower a seat is
    than the reference. *again*: why a seat is to be shot again. *candidates*: lines round the one taken and what they
    cost, the proposed one among them; *proposed* the one we would take; *floor* what would be read on the finished
    floor wanted; *highest* the seat that a chosen line hangs on, empty where something else decided."""

    line: float | None
    why: str
    reference: str
    offsets: Mapping[str, float]
    lower: Mapping[str, float]
    unread: tuple[str, ...]
    again: Mapping[str, str]
    wild: Mapping[str, float]
    candidates: tuple[Candidate, ...] = ()
    proposed: Candidate | None = None
    floor: float | None = None
    highest: str = ""

    def taken(self) -> Candidate | None:
        """What the line that is taken costs."""
        return next((c for c in self.candidates if c.down == self.line), None)


def lay(
    job: Job, plan: Plan, readings: Readings, tops: Mapping[str, float] | None = None, file: str = "job.toml"
) -> Grade:
    """The grade line of *job* for these *readings*; *tops* are the highest stations of the columns.

    Raises ``JobRefused`` where a line or a benchmark is named that these readings cannot have, or a line whose bare
    number is another unit's.
    """
    read = {s.name: readings.values[s.name] for s in plan.spots if s.name in readings.values}
    unread = tuple(s.name for s in plan.spots if s.name not in read)
    given = None if job.grade.line is None else readings.down(job.grade.line)
    if not read:
        return Grade(given, "No readings.", "", {}, {}, unread, {}, {})
    _below_the_beam(job, readings, file)
    twice = readings.survey.read_twice if readings.survey else frozenset()
    alone = {name: by for name, by in wild(read).items() if name not in twice}
    floor = _floor(job, readings, file)
    seats = _seats(job, plan, {n: v for n, v in read.items() if n not in alone}, tops or {})
    found = choose.candidates(job, seats, floor, not readings.up)
    proposed = choose.propose(job, found)
    line_doubts.check(job, readings, proposed.down, file)
    line = proposed.down if given is None else given
    reference = job.grade.reference if job.grade.reference in read else next(n for n in readings.values if n in read)
    lower = {name: value - read[reference] for name, value in read.items()}
    here = choose.weigh(job, seats, line, floor)
    choice = Choice(job, readings, seats, found, proposed, tuple(alone))
    return Grade(
        line,
        choice.why() if given is None else choice.given(here),
        reference,
        {name: value - line for name, value in read.items()},
        lower,
        unread,
        _again(job, plan, readings, lower, alone, reference),
        alone,
        _shown(found, here, proposed),
        proposed,
        floor,
        choice.high if given is None and choice.by_seat else "",
    )


def _below_the_beam(job: Job, readings: Readings, file: str) -> None:
    """Refuse a line that no rod down from the beam can read."""
    if job.grade.line is not None and job.grade.line < 0 and not readings.up:
        text = show(job.grade.line, job.style)
        raise JobRefused([Problem(file, "grade.line", text, "is above the beam.", "Readings go down from it.")])


def _seats(job: Job, plan: Plan, read: Mapping[str, float], tops: Mapping[str, float]) -> dict[str, Seat]:
    return {s.name: Seat(read[s.name], s.role != "end", tops.get(s.name, 0.0)) for s in plan.spots if s.name in read}


def _floor(job: Job, readings: Readings, file: str) -> float | None:
    """What the rod would read on the finished floor wanted, inches down."""
    name = job.grade.benchmark
    if not name:
        return None
    known = {**readings.values, **readings.benchmarks}
    if name not in known:
        raise JobRefused([Problem(file, "grade.benchmark", name, "was not read.", nearest(name, known))])
    return known[name] - job.grade.floor_at


def _shown(found: tuple[Candidate, ...], line: Candidate, proposed: Candidate) -> tuple[Candidate, ...]:
    """Candidates to either side of the line that is taken, itself and the proposed one, the highest line first."""
    others = [c for c in found if abs(c.down - line.down) > SAME]
    above = [c for c in others if c.down < line.down]
    below = [c for c in others if c.down > line.down]
    first = [c for c in above[:-SHOWN] if c is proposed]
    last = [c for c in below[SHOWN:] if c is proposed]
    return (*first, *above[-SHOWN:], line, *below[:SHOWN], *last)


# --- to be shot again -----------------------------------------------------------------------------------------------


def _again(
    job: Job,
    plan: Plan,
    readings: Readings,
    lower: Mapping[str, float],
    alone: Mapping[str, float],
    reference: str,
) -> dict[str, str]:
    """Why a seat is to be shot again before its column is cut; the strongest reason alone. A reference that stands far
    from most others comes first, and those are then held against the middle of all."""
    style, most = job.style, job.grade.flag + 1e-9
    apart = readings.survey.apart if readings.survey else {}
    twice = readings.survey.read_twice if readings.survey else frozenset()
    middle, flag = median(lower.values()), show(job.grade.flag, style)
    stray = {reference} if len(lower) > 2 and abs(middle) > most else set()
    base, against = (middle, "the middle of all seats") if stray else (0.0, reference)
    spikes = _spikes(job, plan, {n: v for n, v in lower.items() if n not in alone and n not in stray})
    torn, found = _torn(job, readings), {}
    for name in sorted(lower, key=lambda n: n not in stray):
        if name in torn:
            found[name] = torn[name]
        elif name in apart:
            differ = job.readings.differ
            found[name] = (
                f"its rounds are {_over(abs(apart[name]), differ, style)} apart, {show(differ, style)} allowed"
            )
        elif name in alone:
            found[name] = f"seat {_how(alone[name], style)} against the middle of all seats, it stands out"
        elif name in stray:
            how = "LOW" if middle > 0 else "HIGH"
            found[name] = f"most others are {how} against it, the reference, by more than {flag}"
        elif abs(lower[name] - base) > most:
            found[name] = f"seat {_how(lower[name] - base, style, job.grade.flag)} against {against}, more than {flag}"
        elif name in spikes and name not in twice:
            found[name] = spikes[name]
    return found


def _how(lower: float, style: Style, bound: float = 0.0) -> str:
    """How far a seat is low or high, in words; where it is over a *bound*, so that it is more than that."""
    return f"{'LOW' if lower > 0 else 'HIGH'} {_over(abs(lower), bound, style)}"


def _over(value: float, bound: float, style: Style) -> str:
    """A length over a *bound*, finer where it would be told by the bound's own number: 1 in, more than 1 in."""
    text = show(value, style)
    return show_fine(value, style) if text == show(bound, style) else text


def _torn(job: Job, readings: Readings) -> dict[str, str]:
    """Points by which a round hangs on the others, and which do not agree."""
    allowed = show(job.readings.differ, job.style)
    return {
        name: f"it ties round {laid.round} and disagrees with {', '.join(other)} by "
        f"{show(laid.split, job.style, rounded=up)} where {allowed} is allowed"
        for laid in (readings.survey.laid if readings.survey else ())
        for half, other in zip(laid.halves, laid.halves[::-1], strict=True)
        for name in half
    }


def _spikes(job: Job, plan: Plan, lower: Mapping[str, float]) -> dict[str, str]:
    """Seats that stand out from both neighbours the same way (common practice, no source)."""
    names = [s.name for s in plan.spots if s.name in lower]
    if len(names) < 3:
        return {}
    found = {}
    ring = [names[-1], *names, names[0]]
    for (before, name), after in zip(pairwise(ring), ring[2:], strict=False):
        by = (lower[name] - lower[before], lower[name] - lower[after])
        least = min(abs(b) for b in by)
        if by[0] * by[1] > 0 and least > job.readings.neighbour + 1e-9:
            how = "LOW" if by[0] > 0 else "HIGH"
            found[name] = f"seat {how} {show(least, job.style)} or more against both {before} and {after}"
    return found


def words(job: Job, grade: Grade, name: str, stands: Fit = PLAIN) -> tuple[str, str]:
    """High or low, longer or shorter, against the reference column, in words that are read out on the site: longer than
    it would be cut for the reference's seat. A column that is not cut to its seat is no longer or shorter: what it
    *stands* on is told instead."""
    lower = grade.lower[name]
    by = show(abs(lower), job.style)
    level = by == show(0.0, job.style)
    seat = f"SEAT {'LOW' if lower > 0 else 'HIGH'} {by} against {grade.reference}"
    if name == grade.reference:
        seat = "REFERENCE SEAT"
    elif level:
        seat = f"SEAT LEVEL WITH {grade.reference}"
    if stands.made and not stands.cut_off:
        return seat, _stands(job, stands)
    if name == grade.reference:
        return seat, "the others are told against this one"
    return seat, _cut(job, grade, name, stands)


def _cut(job: Job, grade: Grade, name: str, stands: Fit) -> str:
    """Longer or shorter than on the reference's seat, where packing may stand in for a part of its length."""
    there = fit(job, stands.made, grade.offsets[grade.reference])
    longer = grade.lower[name] - stands.packing + there.packing
    by = show(abs(longer), job.style)
    if by == show(0.0, job.style):
        return "column as on that seat"
    return f"COLUMN {by} {'LONGER' if longer > 0 else 'SHORTER'}"


def _stands(job: Job, stands: Fit) -> str:
    """What takes the offset of a column that is not cut."""
    if stands.seat_block:
        return f"SEAT BLOCK {show(stands.seat_block, job.style)}"
    if stands.packing < 0:
        return f"SEAT {show(-stands.packing, job.style)} TOO HIGH FOR ITS MADE TOP"
    return f"PACKED UP {show(stands.packing, job.style)}" if stands.packing else "ON THE BARE SEAT"
