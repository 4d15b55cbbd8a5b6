"""The sheet STRING LINES of the field sheet: bays and running measures of the walls that the plan has no room for."""

from __future__ import annotations

from collections.abc import Sequence

from layouts.building import Building
from layouts.lengths import show
from sheets.field_lay import Ways
from sheets.field_walls import GROUP, Edge, edges
from sheets.frame import Body
from sheets.lettering import pt
from sheets.paper import Paper
from sheets.tables import Column, Flow


def table(building: Building, paper: Paper, ways: Ways) -> list[Body]:
    """Bays and running measures of the walls whose chains did not go into the drawing."""
    sent = [group for group, mode in ways.modes.items() if mode == "table"]
    if not sent:
        return []
    flow = Flow("field", "Field sheet, string lines", paper)
    flow.heading("STRING LINES: where the columns stand")
    flow.para(
        "A bay is laid out on the string: the first and the last from the OUTSIDE of the corner column to the centre of"
        " the next, the others centre to centre. Mark by the running measures, check by the bays."
    )
    flow.gap()
    walls = edges(building.plan)
    for group in sent:
        _bays(flow, building, [edge for side, edge in walls.items() if GROUP[side] == group])
    return flow.bodies()


def _bays(flow: Flow, building: Building, alike: Sequence[Edge]) -> None:
    """One wall, or the two sidewalls, which are alike."""
    style, first = building.job.style, alike[0]
    name = " and ".join(f"WALL {edge.wall.name}" for edge in alike)
    corner = " and ".join(edge.spots[0].name for edge in alike)
    flow.heading(f"{name}: column string line {show(first.places[-1], style)}, from the outside of {corner}", pt(13))
    columns = [Column(f"wall {edge.wall.name}", 2.2, bold=True) for edge in alike]
    columns += [Column("bay", 1.5, "right"), Column("running", 1.6, "right", True)]
    rows = []
    for i, bay in enumerate(first.bays):
        between = [f"{edge.spots[i].name} to {edge.spots[i + 1].name}" for edge in alike]
        rows.append([*between, show(bay, style), show(first.places[i + 1], style)])
    flow.table(columns, rows)
