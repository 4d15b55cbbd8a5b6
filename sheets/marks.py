"""Mark tables: every mark of every column from its bottom end, for a tape where the rod is not at hand."""

from __future__ import annotations

from layouts.building import Building, ColumnMark, marks_of
from layouts.columns import Column
from layouts.lengths import Style, show
from sheets.frame import Body
from sheets.labels import only_text
from sheets.lettering import pt
from sheets.paper import Paper
from sheets.tables import Column as Part
from sheets.tables import Flow

EACH = 6  # columns side by side
NONE = "–"


def pages(building: Building, paper: Paper) -> list[Body]:
    """The mark tables, upright; none where no column was read."""
    if not building.columns:
        return []
    flow = Flow("cuts", "Mark table", paper)
    flow.heading("EVERY MARK, FROM EACH COLUMN'S BOTTOM END")
    flow.para("The rod and the tags say the same. Use one of them and check with the other.")
    for members in _alike(building):
        for first in range(0, len(members), EACH):
            _table(flow, building, members[first : first + EACH])
    return flow.bodies()


def _alike(building: Building) -> list[list[Column]]:
    """Columns that carry the same marks but for headers and sills, in walking order."""
    groups: dict[tuple[str, ...], list[Column]] = {}
    for column in building.columns:
        common = sorted(label_of(m) for m in marks_of(building, column) if not m.mark.some)
        groups.setdefault(tuple(common), []).append(column)
    return list(groups.values())


def label_of(found: ColumnMark) -> str:
    """What a mark is called in its row."""
    mark = found.mark
    parts = (mark.name, mark.board, mark.edge if mark.kind == "board" else mark.where)
    return " ".join(part for part in parts if part) + only_text(mark)


def _table(flow: Flow, building: Building, members: list[Column]) -> None:
    """Marks down the side, highest first as they stand; one column of the building a column of the table, and a dash
    where a header or a sill is none of it."""
    style: Style = building.job.style
    found = [marks_of(building, column) for column in members]
    heights = [{label_of(m): m.up for m in marks} for marks in found]
    stations = {label_of(m): m.mark.station for marks in found for m in marks}
    order = sorted(stations, key=lambda name: (-stations[name], name))
    rows = [[name, *(show(h[name], style) if name in h else NONE for h in heights)] for name in order]
    blanks = EACH - len(members)
    parts = [Part("", 2.3), *(Part(c.name, 1, "right", True) for c in members), *(Part("", 1) for _ in range(blanks))]
    flow.table(parts, [[*row, *[""] * blanks] for row in rows], pt(10))
    flow.gap()
