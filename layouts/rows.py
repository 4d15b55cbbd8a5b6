"""The rows of boards that run round the building: grade board, wainscot nailer, girts, soffit nailer, gable rows.

Every row is a pair of stations, its bottom and top edge. Marks are one edge throughout. A row keeps its station on all
walls, so that it runs straight round the corners; a gable goes on upward with the same step.
"""

from __future__ import annotations

import math

from msgspec.structs import replace

from layouts import carriers
from layouts.carriers import as_girt, ceiling
from layouts.fields import Job
from layouts.lengths import show
from layouts.lumber import Section
from layouts.problems import JobRefused, Problem
from layouts.roof import Eave, Roof, Surface
from layouts.row import Key as Key
from layouts.row import Layer as Layer
from layouts.row import Row as Row
from layouts.row import Rows as Rows

LEAST_SPACE = 1.0  # inches between a row and the next: for a nail and a hand (common practice, no source)
NEAR = 4.0  # inches clear; a row so near to the highest one of a wall is for nothing (common practice, no source)
LEAST_STEP = 8.0  # inches; closer rows are hardly meant (common practice, no source)


def lay(job: Job, roof: Roof, file: str = "job.toml") -> Rows:
    """All rows of *job*. Rows keep their stations on all walls: where one sidewall is higher than the other, its rows
    go on upward with the same step, as the gables do.

    Raises ``JobRefused`` where the highest row of a sidewall would not stand above the lowest ones.
    """
    below = (*_grade(job), *_wainscot(job))
    start = _start_edge(below[-1], job)
    eaves = (roof.left,) if job.roof.shape == "lean-to" else (roof.left, roof.right)
    tops = [_highest(job, eave, below[-1], file) for eave in eaves]
    lower = min(tops, key=lambda row: row.low)
    bottoms, step, notes = _spread(job, start, _like(lower, job), lower.low)
    girts = tuple(_girt(job, "girt", f"Girt {i}", low) for i, low in enumerate(bottoms, 1))
    corner = _girt(job, "girt", f"Girt {len(girts) + 1}", _like(lower, job))
    gable = _gable(job, roof, corner.low, step, len(girts) + 2)
    both = [(*girts, *_higher(job, corner, step, top, lower), top) for top in tops]
    both = [(*kind, *_carrier(job, eave, kind[-1])) for kind, eave in zip(both, eaves, strict=True)]
    left, right = both[0], both[-1]
    notes += _rest(job, both)
    notes += _open(job, eaves)
    end, edge = (*girts, corner, *gable), job.girts.edge
    carried = [carriers.mark(job, e.bearing) for e in eaves]
    held = carried[0], carried[-1]
    if job.girts.place == "inside":
        nailers = [(*below, *((n,) if (n := _soffit_nailer(job, e)) else ())) for e in eaves]
        return Rows((nailers[0], nailers[-1]), below, step, notes, (left, right), end, edge, held)
    outer = tuple(
        (*below, *_with(kind, _kept(job, e))) for kind, e in zip((left, right), (eaves[0], eaves[-1]), strict=True)
    )
    notes += _in_truss(job, end, min(e.bearing for e in eaves))
    if job.girts.place == "both":
        bearings = [ceiling(job, e.bearing, "inside") for e in eaves]
        twins = _twins(job, left, bearings[0]), _twins(job, right, bearings[-1])
        return Rows(
            (outer[0], outer[1]), (*below, *end), step, notes, twins, _twins(job, end, min(bearings)), edge, held
        )
    return Rows((outer[0], outer[1]), (*below, *end), step, notes, edge=edge, carried=held)


def _highest(job: Job, eave: Eave, below: Row, file: str) -> Row:
    """The highest row of a sidewall; it has to leave a wall above the lowest ones."""
    nailer, top = _soffit_nailer(job, eave), _top(job, eave)
    for row in (nailer, top):
        if row and row.low <= below.high:
            raise JobRefused([_too_low(job, row, below, file)])
    return top


def _rest(job: Job, both: list[tuple[Row, ...]]) -> tuple[str, ...]:
    """What is said of the last space of a wall that is higher than the other."""
    least, found = min(kind[-1].low for kind in both), list[str]()
    for below, top in (kind[-2:] for kind in both if len(kind) > 1 and kind[-1].low > least + 1e-6):
        space, clear = _marked(job, top) - _marked(job, below), top.low - below.high
        if clear < NEAR:
            said = f"{below.name} lies only {show(clear, job.style)} clear under the {top.name.lower()}"
            found.append(f"{said} of the higher wall: leave it out there, or choose another step.")
        elif space > job.girts.step + job.girts.tolerance + 1e-6:
            said = f"The last girt space of the higher wall, {show(space, job.style)}, is more than the step"
            found.append(f"{said}: choose another step.")
    return tuple(found)


def _marked(job: Job, row: Row) -> float:
    """The edge of a row that is marked."""
    return row.low if job.girts.edge == "bottom" else row.high


def _open(job: Job, eaves: tuple[Eave, ...]) -> tuple[str, ...]:
    """The stretch of a high wall between its level columns, or its rows inside, and the roof."""
    if job.tops.seat != "flat" and job.girts.place != "inside":
        return ()
    gaps = [e.wall_top - e.bearing for e in eaves]
    if (most := max(gaps)) < LEAST_STEP or job.girts.top is not None:
        return ()
    if job.tops.seat != "flat":
        said = f"The high wall has no girts inside over the bearing, {show(most, job.style)} up to the chord"
        return (f"{said}: the trusses stand there.",)
    said = f"The high wall is open over the level tops of its columns, {show(most, job.style)} up to the chord"
    return (f"{said}: no column stands there to nail girts to.",)


def _in_truss(job: Job, end: tuple[Row, ...], bearing: float) -> tuple[str, ...]:
    """Girts between the columns of an endwall stand where its truss does, if that sits in the corner columns."""
    first = next((row for row in end if row.layer == "between" and row.high > bearing + 1e-6), None)
    if first is None:
        return ()
    said = f"Endwalls: {first.name.lower()} and those above it lie in the plane of the endwall truss"
    return (f"{said}, if that stands in the corner columns: ask where it goes before you nail them.",)


def _higher(job: Job, corner: Row, step: float, top: Row, lower: Row) -> tuple[Row, ...]:
    """The girts of a sidewall above the lower wall's highest row: with the same step, the rest last."""
    if top.low <= lower.low + 1e-6:
        return ()
    found: list[Row] = []
    number, row = int(corner.name.rpartition(" ")[2]), corner
    while row.high <= top.low - LEAST_SPACE:
        found.append(row)
        row = _girt(job, "girt", f"Girt {number + len(found)}", row.low + step)
    return tuple(found)


def _twins(job: Job, rows: tuple[Row, ...], bearing: float) -> tuple[Row, ...]:
    """Rows inside, for a liner, at the marks of those outside: the marked edges meet. None stands above the *bearing*,
    where trusses and ceiling are: the last one is lowered to be flush with it."""
    size = job.girts.inside
    found: list[Row] = []
    for row in rows:
        beside = row.low if job.girts.edge == "bottom" else row.high - size.wide
        if row.key == "carrier":
            beside = bearing - size.wide
        low = min(beside, bearing - size.wide)
        if low == beside or not found or low >= found[-1].high - 1e-9:
            key: Key = "girt" if row.key in ("girt", "gable girt") else "top girt"
            name = "Inside top girt" if key == "top girt" else f"Inside {row.name.lower()}"
            found.append(Row(key, name, size, low, low + size.wide, layer="inside"))
    return tuple(found)


def girt_tall(job: Job) -> float:
    """How high a girt stands: its width, or lying between columns its thickness."""
    return job.girts.board.thick if job.girts.place == "between" else job.girts.board.wide


def _girt(job: Job, key: Key, name: str, low: float) -> Row:
    layer: Layer = "outside"
    if job.girts.place in ("between", "inside"):
        layer = job.girts.place
    return Row(key, name, job.girts.board, low, low + girt_tall(job), layer=layer)


def _too_low(job: Job, top: Row, below: Row, file: str) -> Problem:
    place = "truss.bearing" if job.girts.top is None else "girts.top"
    if below.key == "wainscot nailer":
        place = "wainscot.height"
    elif top.key == "soffit nailer":
        place = "roof.overhang"
    edges = show(top.low, job.style), show(below.high, job.style)
    text = f"{top.name} from {edges[0]}, {below.name} up to {edges[1]}"
    return Problem(file, place, text, "leaves no wall between them.", "Raise the one or lower the other.")


def _row(key: Key, name: str, section: Section, low: float, treated: bool = False) -> Row:
    return Row(key, name, section, low, low + section.wide, treated)


def _nailer(job: Job, key: Key, name: str, section: Section, low: float) -> Row:
    """A nailer stands in the plane of the girts, so that the siding lies on both: between columns where they are."""
    row = _row(key, name, section, low)
    return replace(row, layer="between") if job.girts.place == "between" else row


def _grade(job: Job) -> tuple[Row, ...]:
    board = job.grade.board
    count = job.grade.boards
    return tuple(
        _row(
            "grade board",
            "Grade board" if count == 1 else f"Grade board {i + 1}",
            board,
            i * board.wide,
            True,
        )
        for i in range(count)
    )


def _wainscot(job: Job) -> tuple[Row, ...]:
    nailer = job.wainscot.nailer
    if nailer is None:
        return ()
    low = job.wainscot.height + job.floor_shift
    return (_nailer(job, "wainscot nailer", "Wainscot nailer", nailer, low),)


def _soffit_nailer(job: Job, eave: Eave) -> Row | None:
    """The nailer under a soffit."""
    if eave.soffit is None:
        return None
    section = job.roof.soffit_nailer
    return _nailer(job, "soffit nailer", "Soffit nailer", section, eave.soffit - section.wide)


def _top(job: Job, eave: Eave) -> Row:
    """The highest row of a sidewall: where the job says, else under the soffit, else flush with the bearing. Girts
    inside go up to the bearing, whatever is outside of them."""
    nailer = _soffit_nailer(job, eave)
    if nailer and job.girts.top is None and job.girts.place != "inside":
        return nailer
    edge = job.girts.top
    if edge is None and (carrier := as_girt(job, eave.bearing)):
        return carrier
    if edge is None:
        inside = job.girts.place == "inside"
        edge = ceiling(job, eave.bearing, "inside" if inside else "outside")
        if not inside and job.tops.seat != "flat":
            edge = eave.wall_top
    return _girt(job, "top girt", "Top girt", edge - girt_tall(job))


def _kept(job: Job, eave: Eave) -> Row | None:
    """The soffit nailer where it is not the highest row of girts itself."""
    return _soffit_nailer(job, eave) if job.girts.top is not None else None


def _with(kind: tuple[Row, ...], more: Row | None) -> tuple[Row, ...]:
    """Rows and one more, from the bottom up."""
    return tuple(sorted((*kind, more), key=lambda row: row.low)) if more else kind


def _carrier(job: Job, eave: Eave, top: Row) -> tuple[Row, ...]:
    """A carrier in the plane of the girts, over the highest row where it is not that itself."""
    found = as_girt(job, eave.bearing)
    return (found,) if found and top.key != "carrier" else ()


def _like(top: Row, job: Job) -> float:
    """Bottom of an endwall girt whose marked edge meets that of the sidewall's highest row."""
    return top.low if job.girts.edge == "bottom" else top.high - girt_tall(job)


def _start_edge(last: Row, job: Job) -> float:
    """Bottom of the girt that the first step is counted from: in line with the wainscot nailer by the marked edge, or
    flush with the top of the grade board."""
    if last.key == "wainscot nailer" and job.girts.edge == "bottom":
        return last.low
    return last.high - girt_tall(job)


def _spread(job: Job, start: float, end: float, over: float) -> tuple[list[float], float, tuple[str, ...]]:
    """Bottoms of the girts between *start* and *end* (bottoms too, of girts whose marked edges are those of the rows
    there), all under *over*; the step, and what is worth a warning."""
    span, most, style = end - start, job.girts.step, job.style
    if job.girts.spacing == "equal":
        count = max(math.ceil((span - job.girts.tolerance) / most - 1e-9), 1)
        step = span / count
        near = (f"The girt step is only {show(step, style)}: is the span right?",) if step < LEAST_STEP else ()
        return [start + step * i for i in range(1, count)], step, near
    wide = girt_tall(job)
    count = max(math.floor((over - start - wide) / most + 1e-9), 0)
    rest = span - count * most
    notes: list[str] = []
    if rest > most + job.girts.tolerance:
        notes.append(
            f"The last girt space, {show(rest, style)}, is more than the step: choose equal steps or another step."
        )
    elif rest < LEAST_STEP:
        notes.append(f"The last girt space is only {show(rest, style)}: choose equal steps or another step.")
    return [start + most * i for i in range(1, count + 1)], most, tuple(notes)


def under_rake(job: Job, roof: Roof) -> Surface:
    """What the boards of a gable end under: the endwall truss's chord, or the nailer along it."""
    return roof.end_chord.square(job.girts.rake.wide if job.girts.rake else 0.0)


def _gable(job: Job, roof: Roof, low: float, step: float, number: int) -> tuple[Row, ...]:
    """Rows above the eave with the same step, as long as a board's top edge still has length under the chord, or under
    the nailer along it."""
    rows: list[Row] = []
    peak = under_rake(job, roof).over(roof.ridge)
    while (low := low + step) + girt_tall(job) < peak - 1e-6:
        rows.append(_girt(job, "gable girt", f"Girt {number + len(rows)}", low))
    return tuple(rows)
