"""The roof sheet: how long the slopes are, where purlins and lookouts lie, where the trusses stand along the eave."""

from __future__ import annotations

from layouts import purlins
from layouts.building import Building
from layouts.fascia import in_the_way, member
from layouts.lengths import show
from layouts.pitch import shown
from layouts.purlins import Slope, last_at_top, lookout_deep
from sheets.frame import Body
from sheets.lettering import pt
from sheets.paper import Paper
from sheets.tables import Column, Flow

GROUPS = 3  # of a table of places, side by side
CAUTION = (
    "FALLS: guard the edge, tie off, or work from below; nobody walks on loose purlins (29 CFR 1926.501).",
    "Trusses are set and braced by their maker's sheet and the sealed plan before anything lies on them.",
    "Measure one real truss and the standing building before {} are cut.",
)


def pages(building: Building, paper: Paper) -> list[Body]:
    """One sheet, as long as it takes."""
    flow = Flow("roof", "Roof sheet", paper)
    flow.heading("ROOF SHEET", pt(24))
    flow.para(
        "The roof rod goes on every truss of a slope alike: set its foot on the upper corner of the tail, lay it along "
        "the top of the chord, and mark the downhill edges. The X stands uphill of the mark.",
        pt(12),
        bold=True,
    )
    cut = "purlins, fascia or sheets" if purlins.has_fascia(building.job) else "purlins or sheets"
    flow.boxed("CAUTION", [line.format(cut) for line in CAUTION], pt(10.5))
    found = purlins.slopes(building.job, building.roof)
    for one in found if building.roof.plain is False or len(found) < 2 else found[:1]:
        _slope(flow, building, one, len(found) > 1 and building.roof.plain)
    _trusses(flow, building)
    return flow.bodies()


def _slope(flow: Flow, building: Building, one: Slope, both: bool) -> None:
    """The lengths and the places of one slope."""
    style, job = building.job.style, building.job
    wall = next(w.name for w in building.plan.walls if w.side == one.side)
    name = "BOTH SLOPES" if both else f"SLOPE OVER WALL {wall}"
    top = {"gable": "the ridge", "lean-to": "the standing wall", "mono-slope": "the upper corner at the high end"}
    flow.heading(f"{name}, {shown(one.slope, style)}", pt(15), 2.0)
    rows = [
        ["tail's upper corner, level from the outside of the columns", show(one.tail, style)],
        [f"level from there to {top[job.roof.shape]}", show(one.run, style)],
        ["LENGTH ALONG THE CHORD", show(one.length, style)],
        ["purlins: how many", str(len(one.purlins))],
        [_first(building, one), show(one.purlins[0], style)],
        ["first space, downhill edge to downhill edge", show(one.first, style)],
        ["last space", show(one.last, style)],
        ["from the last one's uphill edge to the end", show(one.length - one.purlins[-1] - one.thick, style)],
        *_at_top(building, one),
    ]
    if one.slide:
        rows.append(
            ["on the dropped endwall trusses: set the rod's foot uphill of the tail by", show(one.slide, style)]
        )
    if one.lookouts and (deep := lookout_deep(job, one)):
        how = "flush with the other chords" if job.truss.endwall_drop else "as the purlins are"
        rows.append([f"lookouts: their depth, square to the slope, {how}", show(deep, style)])
    flow.table([Column("", 5), Column("", 1.6, "right", True)], rows, pt(12))
    flow.gap()
    _places(
        flow, "PURLINS, downhill edges", "purlin", [(f"P{i}", show(at, style)) for i, at in enumerate(one.purlins, 1)]
    )
    if one.lookouts:
        places = [(f"L{i}", show(at, style)) for i, at in enumerate(one.lookouts, 1)]
        _places(flow, "LOOKOUTS at the endwalls, middles, from the same corner (Lookout rod)", "lookout", places)


def _first(building: Building, one: Slope) -> str:
    """What the first purlin's place is measured from, and why it is there."""
    if one.clears(building.job):
        way = in_the_way(building.job, building.roof.at(one.side))
        return f"first purlin's downhill edge: its top clears {way}"
    return "first purlin's downhill edge, from the tail's upper corner"


def _at_top(building: Building, one: Slope) -> list[list[str]]:
    """How far the last purlin's top is from the end of the roof sheets: what a ridge cap or a flashing has to reach."""
    job = building.job
    if job.roof.shape == "mono-slope" or not member(job):
        return []
    end = "where the sheets meet" if job.roof.shape == "gable" else "the standing wall"
    far = show(last_at_top(job, building.roof, one), job.style)
    return [[f"the same at its top, which leans downhill, to {end}", far]]


def _trusses(flow: Flow, building: Building) -> None:
    """The trusses along the fascia, from its front end; without one along the eave, from the end of the columns."""
    job, plan, style = building.job, building.plan, building.job.style
    long, places = purlins.along_eave(job, plan)
    hangs = purlins.has_fascia(job)
    flow.heading("FASCIA AND TRUSSES" if hangs else "TRUSSES ALONG THE EAVE", pt(15), 1.6)
    hook = (
        f"The fascia is {show(long, style)} long, end to end. Hook the tape on its FRONT end."
        if hangs
        else f"The columns are {show(long, style)} out to out. Hook the tape on their FRONT end."
    )
    name = purlins.FASCIA if hangs else purlins.TRUSSES
    rod = f" The {name} has them at full scale." if job.roof.fascia_rod == "rod" else ""
    flow.para(
        f"{hook} Marks are the front faces of the trusses, which are {show(job.truss.thickness, style)} thick and "
        f"stand BEHIND the mark.{rod}",
        pt(12),
    )
    found = [(f"T{i}", show(at, style)) for i, at in enumerate(places, 1)]
    _places(flow, "TRUSSES, front faces", "truss", found)


def _places(flow: Flow, head: str, what: str, places: list[tuple[str, str]]) -> None:
    """Names and stations, down one column and then the next."""
    deep = -(-len(places) // GROUPS)
    rows = [[text for place in places[i::deep] for text in place] for i in range(deep)]
    flow.heading(head, pt(12.5), 0.9)
    columns = [Column(what, 1), Column("at", 1.8, "right", True)] * GROUPS
    flow.table(columns, [row + [""] * (2 * GROUPS - len(row)) for row in rows], pt(13))
    flow.gap()
