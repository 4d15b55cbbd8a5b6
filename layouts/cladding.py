"""Sheets on walls and roof: how long each is by the rules the crew sets.

A gable's sheets grow by cover·m from one to the next on a slope of m, the common difference of uprights under a slope
(identity); a roof sheet is run·sqrt(1 + m²) long, plus what it runs out, less what is left open at its upper end.
Inches; places are those of ``layouts.sheeting``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from layouts.fields import Job
from layouts.heights import over_chord, plumb
from layouts.members import seen
from layouts.openings import Opening
from layouts.plan import Plan, WallLine
from layouts.purlins import slopes
from layouts.roof import Roof
from layouts.rows import Rows
from layouts.sheeting import KINDS as KINDS
from layouts.sheeting import SAME, Kind, Point, Strip, parted, strips
from layouts.sheeting import Face as Face
from layouts.sheeting import Sheet as Sheet
from layouts.sheeting import order as order
from layouts.surface import Plane, Surface

NARROW = 3.0  # inches: a narrower strip is hardly held (common practice, no source)


def lay(job: Job, plan: Plan, roof: Roof, rows: Rows, opened: Sequence[Opening]) -> tuple[Face, ...]:
    """Every wall and slope with its sheets; nothing where ``cladding.cover`` is not given."""
    if job.cladding.cover is None:
        return ()
    walls = (_wall(job, plan, roof, rows, opened, line) for line in plan.walls)
    return (*walls, *_slopes(job, plan, roof))


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
    if len(plan.walls) < 4 and line.gable:
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


def _wall(job: Job, plan: Plan, roof: Roof, rows: Rows, opened: Sequence[Opening], line: WallLine) -> Face:
    part, cover = job.cladding, _cover(job)
    left, right = ends(job, plan, line)
    mine = tuple(o for o in opened if o.wall == line.name)
    top = upper(job, roof, line)
    stops = sorted((r.low + r.high) / 2 for r in rows.of(line) if r.layer in ("outside", "between"))
    stops = [y for y in stops if y > base(job)]
    sheets: list[Sheet] = []
    laps: dict[float, str] = {}
    for number, strip in enumerate(strips(left, right, cover, part.start, part.first_cut), 1):
        levels, lapped = _levels(job, max(y for _, y in top.profile(*strip)), stops)
        sheets += _strip(job, number, strip, top, levels, mine)
        laps |= {round(y, 6): what for y, what in lapped}
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
        notes=(*_narrow(sheets), *_bare(job, roof, line)),
    )


Level = tuple[float, float, Kind]


def _levels(job: Job, high: float, stops: Sequence[float]) -> tuple[list[Level], list[tuple[float, str]]]:
    """From where to where the sheets of a strip that ends at *high* go from its bottom up, laps in both, and where the
    laps are: at the same stations all along a wall, as long as a strip needs them."""
    part, low, at = job.cladding, base(job), split(job)
    runs: list[Level] = [(low, math.inf, "wall")]
    if at is not None:
        runs = [(low, at, "lower wall"), (at + part.split_gap, math.inf, "wall")]
    found: list[Level] = []
    laps: list[tuple[float, str]] = []
    for start, end, kind in runs:
        pieces, lapped = parted(start, min(end, high), stops, part.longest, part.lap)
        laps += [(y, "a girt" if on else "") for y, on in lapped]
        found += [(a, b, kind) for a, b in pieces[:-1]]
        found.append((pieces[-1][0], end, kind))
    return found, laps


def _strip(
    job: Job, number: int, strip: Strip, top: Surface, levels: Sequence[Level], opened: Sequence[Opening]
) -> list[Sheet]:
    """The sheets of one strip, from the bottom up."""
    left, right = strip
    holes = [o for o in opened if o.left <= left + SAME and right <= o.right + SAME]
    holes = sorted(holes, key=lambda o: o.low) if job.cladding.openings == "parts" else []
    found: list[tuple[float, tuple[Point, ...], Kind, str]] = []
    for low, high, kind in levels:
        for a, b, where in _around(low, high, holes):
            outline = _outline(top, strip, a, b)
            if outline:
                found.append((a, outline, kind, where))
    letters = [chr(97 + i) for i in range(len(found))] if len(found) > 1 else [""]
    return [
        Sheet(number, part, kind, left, right, low, outline, _ordered(job, low, outline), where)
        for part, (low, outline, kind, where) in zip(letters, found, strict=False)
    ]


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


def _bare(job: Job, roof: Roof, line: WallLine) -> list[str]:
    """What the crew meets at the edges of the sheets."""
    found = []
    if job.cladding.uncovered >= job.grade.boards * job.grade.board.wide:
        found.append("The sheets do not reach down over the grade board.")
    if not line.gable and roof.at(line.side).overhang and roof.at(line.side).soffit is None:
        found.append("No soffit: the sheets are notched round the tails of the trusses.")
    return found


def _cover(job: Job) -> float:
    assert job.cladding.cover is not None
    return job.cladding.cover


# --- roof -----------------------------------------------------------------------------------------------------------


def _slopes(job: Job, plan: Plan, roof: Roof) -> Iterator[Face]:
    """Both slopes of a gable, or the one."""
    part, cover = job.cladding, job.cladding.roof_cover or _cover(job)
    out = max(plan.inset + job.roof.end_overhang, job.girt_out)
    left, right = -out, plan.along + out
    start = "left" if part.roof_start == "front" else "right"
    for side in ("left", "right") if job.roof.shape == "gable" else ("left",):
        long, m = slope_length(job, roof, side), roof.at(side).inward
        pieces, laps = parted(0.0, long, _purlins(job, roof, side), part.longest, part.lap)
        sheets = []
        for number, (x0, x1) in enumerate(strips(left, right, cover, start, part.roof_first_cut), 1):
            letters = [chr(97 + i) for i in range(len(pieces))] if len(pieces) > 1 else [""]
            for letter, (y0, y1) in zip(letters, pieces, strict=True):
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
            notes=tuple(_narrow(sheets)),
        )


def _out(job: Job, roof: Roof, side: str) -> float:
    """From the outside of the columns out to where a slope ends, level: the fascia, or the girts."""
    face = job.girt_out if job.truss.heel_at == "girt" else 0.0
    over = roof.at(side).overhang
    return face + over if over else job.girt_out


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
