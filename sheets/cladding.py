"""Sheets of the walls and the roof: a list to order, and each wall and slope with its sheets as they are set."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from layouts import amounts
from layouts import cladding as layout
from layouts.building import Building
from layouts.fields import Job
from layouts.lengths import show
from layouts.pitch import shown
from layouts.sheeting import Face, Sheet, order
from sheets.cladding_drawn import best, picture
from sheets.frame import Body
from sheets.lettering import pt
from sheets.paper import Paper
from sheets.tables import Column, Flow

CAUTION = (
    "MEASURE THE STANDING BUILDING BEFORE YOU ORDER: walls, slopes and diagonals. These lengths are those of the job"
    " file, and nothing here knows what was built.",
    "Sheets cut hands and sail in wind: gloves and sleeves, no loose sheet up there, stop when it blows.",
    "FALLS: guard the edge, tie off, or work from below; never step on a sheet that is not fastened (29 CFR 1926.501).",
    "Fasteners, laps, side laps, closures and least slope: the maker's sheet and local code rule.",
)
NOTHING = "This job says nothing of sheets. Give cladding.cover, and their lengths and a list to order are laid out."
NAMES = {"wall": "WALL SHEETS", "lower wall": "LOWER WALL SHEETS", "roof": "ROOF SHEETS"}


def pages(building: Building, paper: Paper) -> list[Body]:
    """The list, then the walls, then the slopes; nothing where the job says nothing of sheets."""
    if not building.cladding:
        return []
    found = _list(building, paper)
    for face in building.cladding:
        found += _face(building, face, paper)
    return found


def nothing(paper: Paper) -> list[Body]:
    """The page that says so."""
    flow = Flow("cladding", "Sheets", paper)
    flow.para(NOTHING, pt(13))
    return flow.bodies()


# --- the list -------------------------------------------------------------------------------------------------------


def _list(building: Building, paper: Paper) -> list[Body]:
    """What to order, and the rules it comes from."""
    style = building.job.style
    flow = Flow("cladding", "Sheets to order", paper)
    flow.heading("SHEETS TO ORDER", pt(24))
    flow.boxed("CAUTION", CAUTION, pt(11))
    listed = order(building.cladding)
    for kind, rows in groupby(listed, key=lambda line: line[0]):
        cover = next(face.cover for face in building.cladding if face.roof == (kind == "roof"))
        flow.heading(f"{NAMES[kind]}, cover {show(cover, style)}", pt(15), 1.2)
        cells = [[str(count), show(long, style), _users(building.cladding, kind, long)] for _, long, count in rows]
        columns = [Column("how many", 1, "right", True), Column("long", 1.6, "right", True), Column("where", 5)]
        flow.table(columns, cells, pt(13))
        run = sum(long * count for k, long, count in listed if k == kind)
        flow.para(f"Together {amounts.run(run, style)} of sheet.", pt(11.5))
        flow.gap()
    flow.heading("WHERE THEY BEGIN AND END", pt(13), 0.8)
    for line in _rules(building):
        flow.para(line, pt(11.5))
    return flow.bodies()


def _users(faces: Sequence[Face], kind: str, long: float) -> str:
    """Which walls take how many of a length."""
    found = []
    for face in faces:
        count = sum(s.kind == kind and abs(s.order - long) < 1e-5 for s in face.sheets)
        if count:
            found.append(f"{face.name[0].lower()}{face.name[1:]}: {count}")
    return ", ".join(found)


def _rules(building: Building) -> Iterator[str]:
    """What was taken off and added, from what to what."""
    job, roof = building.job, building.roof
    part, style = job.cladding, job.style
    floor = job.grade.floor - layout.base(job)
    below = f"{show(abs(floor), style)} {'below' if floor > 0 else 'above'} the finished floor"
    below = below if abs(floor) > 1e-6 else "level with the finished floor"
    yield (
        f"Wall sheets begin {show(part.uncovered, style)} over the bottom edge of the grade board, {below}, and end"
        f" {show(part.top, style)} below the soffit, or below the roof sheets where there is none."
    )
    ends = "the roof sheets" if part.gable_top == "roof" else "the top chord of the endwall truss"
    yield f"Gable sheets end {show(part.top, style)}, plumb, below {ends}: order the long edge, cut along the slope."
    if part.split is not None:
        at, gap = show(layout.split(job) or 0.0, style), show(part.split_gap, style)
        yield f"Lower sheets end {at} over the grade line; upper ones begin {gap} over that."
    high = {
        "gable": "and end {} below the ridge, along the slope",
        "lean-to": "and end {} below the standing wall, along the slope",
        "mono-slope": "and end flush at the high side",
    }[job.roof.shape].format(show(part.ridge_gap, style))
    eaves = {bool(roof.left.overhang)} | ({bool(roof.right.overhang)} if job.roof.shape != "lean-to" else set())
    both = "the fascia, or past the girts where there is no overhang"
    from_ = both if len(eaves) > 1 else "the fascia" if eaves == {True} else "the girts"
    yield f"Roof sheets run {show(part.drip, style)} past {from_}, along the slope, {high}."
    yield (
        f"End laps are {show(part.lap, style)}, no sheet is longer than {show(part.longest, style)}. Lengths go in"
        f" steps of {show(part.step, style)}: down, but up where a sheet is cut along a gable."
    )


# --- walls and slopes -----------------------------------------------------------------------------------------------


def _face(building: Building, face: Face, paper: Paper) -> list[Body]:
    """A wall or a slope: the picture and its sheets."""
    job, style = building.job, building.job.style
    sheet = best(face, paper)
    flow = Flow("cladding", f"Sheets, {face.name}", sheet)
    pitch = f", {shown(face.slope, style)}" if face.roof else ""
    flow.heading(f"SHEETS ON {_upper(face)}{pitch}", pt(20), 1.0)
    for line in _said(face, job):
        flow.para(line, pt(12), bold=True)
    for note in face.notes:
        flow.para(f"! {note}", pt(12), bold=True)
    drawing, nameless = picture(face, style, flow.area.width, flow.y - flow.area.y0 - 1.5)
    flow.draw(drawing)
    if nameless:
        flow.para(f"Numbers that have no room in the picture: {', '.join(nameless)}.", pt(11))
    _table(flow, face, job)
    return flow.bodies()


def _upper(face: Face) -> str:
    """Its name, the wall's own as it is written."""
    head, _, name = face.name.rpartition(" ")
    return f"{head.upper()} {name}"


def _said(face: Face, job: Job) -> Iterator[str]:
    """Where setting starts, how wide the first and the last strip are, where end laps are."""
    style = job.style
    whole = f"each covers {show(face.cover, style)}"
    strips = {s.number: s.wide for s in face.sheets}
    odd = [
        f"{'first' if number == 1 else 'last'} one {show(wide, style)}"
        for number, wide in strips.items()
        if number in (1, len(strips)) and abs(wide - face.cover) > 1e-6
    ]
    seen = "The slope seen from its eave" if face.roof else "Seen from OUTSIDE"
    yield f"{seen}. Set from {_begin(face, job)}: {len(strips)} strips, {', '.join([whole, *odd])}."
    yield from laps(face, job)


def laps(face: Face, job: Job) -> Iterator[str]:
    """Where the upper sheets of its end laps begin, where the middle of each lap is, and what that lies over."""
    lap, style = job.cladding.lap, job.style
    what = "up the slope from the sheets' lower edge" if face.roof else "over the grade line"
    for at, over in face.laps:
        lies = f"over {over}" if over else "over NOTHING: add a board there"
        begin, middle = show(at - lap / 2, style), show(at, style)
        yield (
            f"End lap of {show(lap, style)}: upper sheets begin {begin} {what}, the middle of the lap is at {middle}, "
            f"{lies}."
        )


def _begin(face: Face, job: Job) -> str:
    """The end that setting starts at."""
    if face.begin != "middle":
        return f"the {face.begin.upper()}"
    off = (
        f"{show(job.cladding.first_cut, job.style)} right of the MIDDLE" if job.cladding.first_cut else "in the MIDDLE"
    )
    return f"the LEFT, so that a joint stands {off}"


def _table(flow: Flow, face: Face, job: Job) -> None:
    """Sheets that are alike in one row."""
    style = job.style
    columns = [
        Column("sheet", 2.2, bold=True),
        Column("how many", 0.9, "right"),
        Column("ORDER", 1.5, "right", True),
        Column("left edge", 1.4, "right"),
        Column("right edge", 1.4, "right"),
        Column("what", 2.4),
    ]
    rows = []
    for alike in groups(face):
        one = alike[0]
        left, right = (show(edge, style) for edge in one.edges)
        peak = "" if one.length <= max(one.edges) + 1e-6 else f"peak {show(one.length, style)}"
        kind = "lower" if one.kind == "lower wall" else ""
        what = ", ".join(filter(None, (kind, one.where, peak)))
        rows.append([named(alike), str(len(alike)), show(one.order, style), left, right, what])
    flow.table(columns, rows, pt(12))


def groups(face: Face) -> list[list[Sheet]]:
    """Sheets that are alike, in the order they are set."""
    found: dict[tuple[object, ...], list[Sheet]] = {}
    for one in face.sheets:
        shape = tuple(round(edge, 4) for edge in (*one.edges, one.length, one.order))
        found.setdefault((one.kind, one.part, shape, one.where), []).append(one)
    return list(found.values())


def named(alike: Sequence[Sheet]) -> str:
    """Their numbers, of a run the first and the last."""
    runs: list[list[Sheet]] = []
    for one in alike:
        if runs and one.number == runs[-1][-1].number + 1:
            runs[-1].append(one)
        else:
            runs.append([one])
    return ", ".join(
        f"{run[0].name} to {run[-1].name}" if len(run) > 2 else ", ".join(one.name for one in run) for run in runs
    )
