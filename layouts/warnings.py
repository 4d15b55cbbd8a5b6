"""What can be built but wants a look first, in words, and what it costs if nobody looks."""

from __future__ import annotations

from collections.abc import Iterator

from layouts import doubts, line_doubts, opening_warnings, roof_warnings, row_warnings, survey, top_warnings
from layouts.columns import Column
from layouts.costs import Cost, Warned, each, of_readings
from layouts.fields import Job
from layouts.grade import Grade
from layouts.laid import torn
from layouts.lengths import down, show, up
from layouts.piers import Kind, Pier
from layouts.plan import Plan
from layouts.readings import Readings, taken
from layouts.rods import Rod, crowded
from layouts.roof import Roof
from layouts.rows import Rows
from layouts.walls import Wall
from layouts.why import reaches

NEAR = 48.0 - 1e-6  # inches: columns stand no nearer to one another along the eaves (common practice, no source)


def all_of(
    job: Job,
    plan: Plan,
    roof: Roof,
    rows: Rows,
    readings: Readings,
    grade: Grade,
    piers: tuple[Pier, ...],
    columns: tuple[Column, ...],
    rods: tuple[Rod, ...],
    laid: tuple[Wall, ...],
) -> tuple[Warned, ...]:
    """Every warning of a building; of those that cost the same, in the order a crew lead has to act on them."""
    return (
        *of_readings(_read(job, plan, readings, grade, piers, columns)),
        *each(Cost.PART, _bays(job)),
        *each(Cost.PART, top_warnings.all_of(job, plan, roof, columns)),
        *each(Cost.LOOK, _ends_low(job, roof, rows, plan)),
        *roof_warnings.all_of(job, plan, roof),
        *opening_warnings.all_of(job, laid),
        *row_warnings.all_of(job, plan, roof, rows, laid),
        *_made(job, roof, columns),
        *each(Cost.CUT, rows.notes),
        *each(
            Cost.CUT,
            (
                f"Wall {w.name}: rows above each other break on {', '.join(w.shared)}: no stock length staggers them."
                for w in laid
                if w.shared
            ),
        ),
        *each(Cost.CUT, _crowded(job, rods)),
    )


def _read(
    job: Job,
    plan: Plan,
    readings: Readings,
    grade: Grade,
    piers: tuple[Pier, ...],
    columns: tuple[Column, ...],
) -> Iterator[Warned]:
    """What comes of the readings and the line."""
    yield from _unread(grade, plan)
    yield from each(Cost.EVERY, _chosen(grade))
    yield from each(Cost.EVERY, line_doubts.far(job, readings, grade))
    yield from each(Cost.EVERY, _survey(job, readings))
    yield from each(Cost.PART, _impossible(grade, piers, columns))
    yield from each(Cost.EVERY, _floor(job, readings, grade))
    yield from each(Cost.LOOK, _reference(job, grade))
    yield from each(Cost.PART, (f"{name}: {why}: shoot it again before cutting." for name, why in grade.again.items()))
    yield from _piers(piers, columns)


def _unread(grade: Grade, plan: Plan) -> tuple[Warned, ...]:
    if len(grade.unread) == len(plan.spots):
        return each(Cost.EVERY, ["No readings: no column has a tag, no offset is known."])
    if grade.unread:
        return each(Cost.PART, [f"No reading, no tag: {', '.join(grade.unread)}."])
    return ()


def _survey(job: Job, readings: Readings) -> list[str]:
    """How the readings were taken, where that leaves a doubt."""
    found, style = readings.survey, job.style
    if found is None:
        return []
    lines = [f"IS THIS RIGHT? {text}" for text in doubts.questions(found.book, found, style)]
    for r in found.rounds:
        if r.refused:
            lines += [
                f"ROUND {r.name} IS LEFT OUT: {survey.told(loop, style)}. Its seats are taken from another round."
                for loop in r.loops
                if not loop.closes
            ]
        else:
            lines += survey.unproved(r)
    for later in found.laid:
        lines += torn(later, job.readings, style)
        if later.moved:
            names, seats = ", ".join(later.benchmarks), later.seats(found.book)
            differ = "most of its seats differ" if len(seats) > 1 else f"its seat {seats[0]} differs"
            lines.append(
                f"Round {later.round} is laid on the others by {names}, and {differ} by "
                f"{show(abs(later.moved), style)}: was {names} hit?"
            )
    return lines


def _impossible(grade: Grade, piers: tuple[Pier, ...], columns: tuple[Column, ...]) -> list[str]:
    known = {c.name for c in columns} | {p.name for p in piers if p.kind in ("notch", "stock")}
    return [
        f"{name}: its cuts would fall below its bottom end. Its reading or the line reading is wrong. No tag."
        for name in grade.offsets
        if name not in known
    ]


def _floor(job: Job, readings: Readings, grade: Grade) -> list[str]:
    """The finished floor where it is wanted from a benchmark."""
    here, style, lines = grade.taken(), job.style, []
    if here is None or here.floor is None or here.below is None:
        return []
    if readings.survey and job.grade.benchmark in readings.survey.apart:
        apart = show(abs(readings.survey.apart[job.grade.benchmark]), style)
        lines.append(f"The floor hangs on {job.grade.benchmark}, whose rounds are {apart} apart: shoot it again.")
    if abs(here.floor) > job.grade.floor_within + 1e-9:
        off = f"{show(abs(here.floor), style, rounded=up)} {'higher' if here.floor > 0 else 'lower'}"
        exact = taken(readings, here.down + here.floor, style)
        within = show(job.grade.floor_within, style, rounded=down)
        lines.append(
            f"The finished floor comes {off} than wanted from {job.grade.benchmark}, {within} allowed. A line reading "
            f"of {exact} brings it as wanted."
        )
    if not here.covers:
        cover = show(job.grade.cover, style)
        lines.append(
            f"The grade board {reaches(here.below, style)} the floor wanted, {cover} asked: take a lower line."
        )
    return lines


def _piers(piers: tuple[Pier, ...], columns: tuple[Column, ...]) -> list[Warned]:
    """Piers out of tolerance, the worst first: what is below nothing can be nailed to. Seats too near to the line,
    packing that is too thick, and ends too near to the floor, are mostly the same all round: each is told once."""
    tagged = {c.name for c in columns}
    order: tuple[Kind, ...] = ("below", "notch", "centre ply", "stock", "low", "high", "block", "end")
    lines = []
    for kind in order:
        found = [p for p in piers if p.kind == kind]
        cost = Cost.LOOK if kind in ("low", "high") else Cost.PART  # may be let be as they are
        if kind in ("high", "block", "end") and len(found) > 1:
            worst = max(found, key=lambda p: p.by)
            others = ", ".join(p.name for p in found if p is not worst)
            lines.append(Warned(cost, f"{worst.said} {others}: the same, by as much or less."))
            continue
        for pier in found:
            bare = kind in ("notch", "stock") and pier.name not in tagged
            lines.append(Warned(cost, pier.said + (" No tag." if bare else "")))
    return lines


def _reference(job: Job, grade: Grade) -> list[str]:
    wanted = job.grade.reference
    if wanted and grade.offsets and wanted != grade.reference:
        return [f"The reference {wanted} was not read: HIGH and LOW are told against {grade.reference}."]
    return []


def _chosen(grade: Grade) -> list[str]:
    """A line chosen from a seat that nobody should trust moves every number of the packet."""
    if grade.highest not in grade.again:
        return []
    return [f"THE LINE READING WAS CHOSEN FROM {grade.highest}, which is to be shot again: every offset hangs on it."]


def _bays(job: Job) -> list[str]:
    """A number of equal bays that may be how long each was to be: 10 of 3 ft for three of 10 ft."""
    many, style = job.building.bays, job.style
    if isinstance(many, tuple) or job.building.length / many >= NEAR:
        return []
    each_ = show(job.building.length / many, style)
    return [f"{many} bays along the eaves are only {each_} each: is building.bays how many there are?"]


def _ends_low(job: Job, roof: Roof, rows: Rows, plan: Plan) -> list[str]:
    """Rows of a gable above columns that end at the bearing or under the chord."""
    if job.tops.endwall_ears not in ("bearing", "chord bottom"):
        return []
    spots = [s for s in plan.spots if s.role == "end"]
    surface = roof.surface("bearing" if job.tops.endwall_ears == "bearing" else "end chord bottom")
    top = min((surface.over((s.u0 + s.u1) / 2) for s in spots), default=0.0)
    first = next((row for row in rows.end if row.high > top and row.key != "grade board"), None)
    if first is None or not spots:
        return []
    return [
        f"Endwalls: {first.name.lower()} and those above it stand above the top of a column: they are nailed to the "
        "endwall truss, and a joint there wants a stud of it."
    ]


def _made(job: Job, roof: Roof, columns: tuple[Column, ...]) -> list[Warned]:
    """Tops that come made against the roof over them, which is lowest at the outer face; bottom ends that are cut."""
    lines, style = [], job.style
    surface = roof.surface(job.tops.sidewall_ears).lowered(job.tops.clearance)
    over = min(surface.over(0.0), surface.over(roof.across))
    high = max((c.top.ears[0][1] - over for c in columns if c.fit.made), default=0.0)
    if high > 1e-9:
        said = (
            f"The made ears come {show(high, style, rounded=up)} too high at the outer face: they would stand in the "
        )
        lines.append(Warned(Cost.PART, said + "roof. Have them cut to the pitch."))
    if job.column.treated == "all" and any(c.fit.cut_off for c in columns):
        said = "Bottom ends of treated columns are cut off: treat every fresh cut again before it is set up."
        lines.append(Warned(Cost.LOOK, said))
    return lines


def _crowded(job: Job, rods: tuple[Rod, ...]) -> list[str]:
    style = job.style
    near = "25 mm" if style.unit == "mm" else "an inch"
    found = []
    for rod in rods:
        for a, b in crowded(rod):
            heights = show(a.station, style), show(b.station, style)
            how = "stand at one height" if heights[0] == heights[1] else f"stand less than {near} apart"
            found.append(
                f"{rod.name}: {a.in_words} {heights[0]} and {b.in_words} {heights[1]} {how}: "
                "do not take one for the other."
            )
    return found
