"""Sheets on walls and roof: how long each is by the rules the crew sets.

A gable's sheets grow by cover·m from one to the next on a slope of m, the common difference of uprights under a slope
(identity); a roof sheet is run·sqrt(1 + m²) long, plus what it runs out, less what is left open at its upper end.
Inches; places are those of ``layouts.sheeting``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from layouts.fascia import past_ends
from layouts.fields import Job
from layouts.heights import over_chord, plumb
from layouts.lengths import show, up
from layouts.members import seen
from layouts.openings import Opening
from layouts.plan import Plan, WallLine
from layouts.purlins import slopes
from layouts.roof import Roof
from layouts.rows import Rows
from layouts.sheeting import SAME, Face, Kind, Point, Sheet, Strip, lettered, parted, strips
from layouts.surface import Plane, Surface

NARROW = 3.0  # inches: a narrower strip is hardly held (common practice, no source)
SHORT = 2.0  # inches: nor is a shorter sheet (common practice, no source)


def lay(job: Job, plan: Plan, roof: Roof, rows: Rows, opened: Sequence[Opening]) -> tuple[Face, ...]:
    """Every wall and slope with its sheets; nothing where ``cladding.cover`` is not given."""
    if job.cladding.cover is None:
        return ()
    cover = job.cladding.cover
    walls = (_wall(job, plan, roof, rows, opened, line, cover) for line in plan.walls)
    return (*walls, *_slopes(job, plan, roof, job.cladding.roof_cover or cover))


def base(job: Job) -> float:
    """The station of the wall sheets' bottom edge: the grade board's bottom edge is the grade line."""
    return job.cladding.uncovered


def split(job: Job) -> float | None:
    """The station of the top of lower wall sheets."""
    return None if job.cladding.split is None else job.cladding.split + job.floor_shift


# --- walls ----------------------------------------------------------------------------------------------------------


def ends(job: Job, plan: Plan, line: WallLine) -> Strip:
    """From where to where a wall is clad: to the outside of its girts, or to the wall that stands already."""
    left, right = -job.girt_out, line.length + job.girt_out
    if line.gable and plan.on("right") is None:
        return (0.0, right) if line.side == "back" else (left, line.length)
    return left, right


def upper(job: Job, roof: Roof, line: WallLine) -> Surface:
    """What the sheets of a wall end at, as seen along it from outside."""
    if line.gable:
        over = roof.end_chord if job.cladding.gable_top == "chord" else roof.cover
        return seen(over, line).lowered(job.cladding.top)
    eave = roof.at(line.side)
    top = eave.eave if eave.soffit is None else eave.soffit
    return Surface((Plane(0.0, top - job.cladding.top, 0.0),))


def _wall(
    job: Job, plan: Plan, roof: Roof, rows: Rows, opened: Sequence[Opening], line: WallLine, cover: float
) -> Face:
    part, (left, right) = job.cladding, ends(job, plan, line)
    mine = tuple(o for o in opened if o.wall == line.name)
    top = upper(job, roof, line)
    stops = [(r.low + r.high) / 2 for r in rows.of(line) if r.layer in ("outside", "between")]
    sheets: list[Sheet] = []
    laps: dict[float, str] = {}
    for number, strip in enumerate(strips(left, right, cover, part.start, part.first_cut), 1):
        own, lapped = _strip(job, number, strip, top, stops, mine)
        sheets += own
        laps |= {round(y, 6): "a girt" if on else "" for y, on in lapped}
    return Face(
        name=f"Wall {line.name}",
        side=line.side,
        roof=False,
        left=left,
        right=right,
        cover=cover,
        begin=part.start,
        slope=0.0,
        sheets=tuple(sheets),
        laps=tuple(sorted(laps.items())),
        openings=mine,
        notes=(*_narrow(sheets), *_short(job, sheets), *_bare(job, roof, line)),
    )


def _runs(job: Job) -> list[tuple[float, float, Kind]]:
    """From where to where lower and upper sheets go."""
    low, at = base(job), split(job)
    if at is None:
        return [(low, math.inf, "wall")]
    return [(low, at, "lower wall"), (at + job.cladding.split_gap, math.inf, "wall")]


def _strip(
    job: Job, number: int, strip: Strip, top: Surface, stops: Sequence[float], opened: Sequence[Opening]
) -> tuple[list[Sheet], list[tuple[float, bool]]]:
    """The sheets of one strip, from the bottom up, and its end laps: what openings leave is parted, so that a lap is
    made only where a sheet would be too long."""
    part, (left, right) = job.cladding, strip
    holes = [o for o in opened if o.left <= left + SAME and right <= o.right + SAME]
    holes = sorted(holes, key=lambda o: o.low) if part.openings == "parts" else []
    high = max(y for _, y in top.profile(left, right))
    found: list[tuple[float, tuple[Point, ...], Kind, str]] = []
    laps: list[tuple[float, bool]] = []
    for start, end, kind in _runs(job):
        for low, upto, where in _around(start, end, holes):
            pieces, lapped = parted(low, min(upto, high), stops, part.longest, part.lap)
            laps += lapped
            pieces[-1] = (pieces[-1][0], upto)
            outlines = [(a, _outline(top, strip, a, b)) for a, b in pieces]
            found += [(a, outline, kind, where) for a, outline in outlines if outline]
    return [
        Sheet(number, letter, kind, left, right, low, outline, _ordered(job, low, outline), where)
        for letter, (low, outline, kind, where) in zip(lettered(len(found)), found, strict=True)
    ], laps


def _around(low: float, high: float, holes: Sequence[Opening]) -> Iterator[tuple[float, float, str]]:
    """What openings leave of a run, and what to call it."""
    where = ""
    for hole in holes:
        if hole.high <= low + SAME or hole.low >= high - SAME:
            continue
        if hole.low > low + SAME:
            yield low, hole.low, f"{where} and under {hole.name}" if where else f"under {hole.name}"
        low, where = hole.high, f"over {hole.name}"
    if high - low > SAME:
        yield low, high, where


def _outline(top: Surface, strip: Strip, low: float, high: float) -> tuple[Point, ...]:
    """The upper edge of a sheet from *low* up to *high* or to the roof; nothing where the roof is below it."""
    under = Surface((*top.planes, Plane(0.0, high, 0.0))) if math.isfinite(high) else top
    stretch = under.under(low, *strip)
    if stretch is None:
        return ()
    outline = under.profile(*stretch)
    return outline if max(y for _, y in outline) > low + SAME else ()


def _ordered(job: Job, low: float, outline: Sequence[Point]) -> float:
    """The length to order: up where the sheet is cut along a slope, down where it ends under something."""
    sloped = max(y for _, y in outline) - min(y for _, y in outline) > SAME
    step, long = job.cladding.step, max(y for _, y in outline) - low
    return (math.ceil(long / step - SAME) if sloped else math.floor(long / step + SAME)) * step


def _narrow(sheets: Sequence[Sheet]) -> list[str]:
    """Strips too narrow to hold."""
    slim = next((s for s in (sheets[0], sheets[-1]) if s.wide < NARROW), None)
    return [] if slim is None else [f"Sheet {slim.number} is a narrow strip: choose another width for the first one."]


def _short(job: Job, sheets: Sequence[Sheet]) -> list[str]:
    """Sheets too short to hold: under a door whose floor is hardly over their bottom edge."""
    small = [s.name for s in sheets if s.length < SHORT - SAME]
    if not small:
        return []
    short = f"shorter than {show(SHORT, job.style)}, too short to be held"
    if len(small) == 1:
        return [f"Sheet {small[0]} is {short}: leave it off the order, or move the edge that ends it."]
    return [f"Sheets {', '.join(small)} are {short}: leave them off the order, or move the edge that ends them."]


def _bare(job: Job, roof: Roof, line: WallLine) -> list[str]:
    """What the crew meets at the edges of the sheets."""
    found = []
    if job.cladding.uncovered >= job.grade.boards * job.grade.board.wide:
        found.append("The sheets do not reach down over the grade board.")
    if not line.gable and roof.at(line.side).overhang and roof.at(line.side).soffit is None:
        found.append("No soffit: the sheets are notched round the tails of the trusses.")
    return found


# --- roof -----------------------------------------------------------------------------------------------------------


def _slopes(job: Job, plan: Plan, roof: Roof, cover: float) -> Iterator[Face]:
    """Both slopes of a gable, or the one."""
    part = job.cladding
    out = past_ends(job)
    left, right = -out, plan.along + out
    start = "left" if part.roof_start == "front" else "right"
    for side in ("left", "right") if job.roof.shape == "gable" else ("left",):
        long, m = slope_length(job, roof, side), roof.at(side).inward
        pieces, laps = parted(0.0, long, _purlins(job, roof, side), part.longest, part.lap)
        sheets = []
        for number, (x0, x1) in enumerate(strips(left, right, cover, start, part.roof_first_cut), 1):
            for letter, (y0, y1) in zip(lettered(len(pieces)), pieces, strict=True):
                outline = ((x0, y1), (x1, y1))
                sheets.append(Sheet(number, letter, "roof", x0, x1, y0, outline, _ordered(job, y0, outline)))
        yield Face(
            name=f"Roof over wall {next(w.name for w in plan.walls if w.side == side)}",
            side=side,
            roof=True,
            left=left,
            right=right,
            cover=cover,
            begin=part.roof_start,
            slope=m,
            sheets=tuple(sheets),
            laps=tuple((y, "a purlin" if on else "") for y, on in laps),
            openings=(),
            notes=(*_narrow(sheets), *_short(job, sheets), *_unheld(job, roof, side, long)),
        )


def _unheld(job: Job, roof: Roof, side: str, long: float) -> list[str]:
    """Roof sheets so *long* that do not reach the middle of the last purlin: nothing holds their upper edge."""
    by = _purlins(job, roof, side)[-1] - long
    if job.roof.sheathing or by < SAME:
        return []
    said = f"The sheets end {show(by, job.style, rounded=up)} below the middle of the last purlin: "
    return [said + "give a smaller cladding.ridge_gap or a larger roof.purlin_ridge."]


def _out(job: Job, roof: Roof, side: str) -> float:
    """From the outside of the columns out to where a slope ends, level: the fascia, or the girts."""
    over = roof.at(side).overhang
    return job.heel_out + over if over else job.girt_out


def slope_length(job: Job, roof: Roof, side: str) -> float:
    """How long a roof sheet is from its lower to its upper edge where it is of one piece. A roof of one slope ends
    flush with the fascia, or the girts, at its high end."""
    m, part = roof.at(side).inward, job.cladding
    if job.roof.shape == "mono-slope":
        return plumb(_out(job, roof, "left") + roof.across + _out(job, roof, "right"), m) + part.drip
    ridge = roof.cover.breaks()[0] if job.roof.shape == "gable" else roof.across
    run = _out(job, roof, side) + (ridge if side == "left" else roof.across - ridge)
    return plumb(run, m) + part.drip - part.ridge_gap


def _purlins(job: Job, roof: Roof, side: str) -> list[float]:
    """The middles of the purlins, up the slope from the sheets' lower edge: what stands square on the chord at s lies
    d·m/sqrt(1 + m²) further out, level, at the height d over it (identity)."""
    one = next(s for s in slopes(job, roof) if s.side == side)
    factor, m = plumb(1.0, one.slope), one.slope
    lower = _out(job, roof, side) - one.tail - over_chord(job) * m / factor
    return [lower * factor + job.cladding.drip + at + one.thick / 2 for at in one.purlins]
