"""Rod strips on pages: full scale, in lanes that are each set to the tape by their own numbers.

A page holds as many lanes as it takes, side by side; how one lane is drawn is in ``sheets.strip``.
"""

from __future__ import annotations

from collections.abc import Iterator

import fonts
from layouts.building import Building
from layouts.lengths import Style
from layouts.rods import Rod
from sheets.frame import Body
from sheets.labels import label_all
from sheets.lanes import CLEAR, Lane, break_up
from sheets.lettering import fit, pt, write
from sheets.paper import Area, Paper
from sheets.shapes import Drawing, Recorder
from sheets.strip import GAP, HEIGHT, LEAD, TAIL, draw_lane, tape, title

BAR = 0.24  # room for the check bar up the side
HEAD = 0.44
SHORTEST = 3.0  # inches: a lane shorter than this is all edge


def pages(building: Building, paper: Paper) -> list[Body]:
    """All rods of *building* on *paper*, turned on its side."""
    found: list[Body] = []
    for rod in building.rods:
        found += _rod_pages(rod, building.job.style, paper.turned())
    return found


def whole(building: Building) -> list[tuple[str, Drawing]]:
    """Each rod in one piece at full scale, by its title."""
    return [(title(rod), _one_piece(rod, building.job.style)) for rod in building.rods]


def lanes_of(rod: Rod, style: Style, area: Area) -> tuple[Lane, ...]:
    """The lanes of *rod* on pages with this drawing area."""
    labels = label_all(rod, style)
    edges = {e for m in rod.marks for e in (m.station, m.low, m.high)}
    hard = [(e - CLEAR, e + CLEAR) for e in sorted(edges) if e > 0]
    soft = [label.stretch for label in labels]
    return break_up(rod.length, area.width - LEAD - TAIL - BAR, tape(style).step, hard, soft, SHORTEST)


def _rod_pages(rod: Rod, style: Style, paper: Paper) -> Iterator[Body]:
    area = paper.body
    lanes = lanes_of(rod, style, area)
    labels = label_all(rod, style)
    each = int((area.height - HEAD + GAP) / (HEIGHT + GAP) + 1e-9)
    for first in range(0, len(lanes), each):
        held = lanes[first : first + each]
        pen = Recorder(paper.width, paper.height)
        span = f"lanes {held[0].number} to {held[-1].number}" if len(held) > 1 else f"lane {held[0].number}"
        name = f"{title(rod)}: {span} of {len(lanes)}"
        _heading(pen, area, name)
        for i, lane in enumerate(held):
            y = area.y1 - HEAD - i * (HEIGHT + GAP) - HEIGHT
            draw_lane(pen, area.x0 + LEAD, y, rod, lane, len(lanes), labels, style)
        yield Body("rods", name, pen.drawing(), paper, tall_bar=True)


def _heading(pen: Recorder, area: Area, name: str) -> None:
    size = fit(name.upper(), pt(15), fonts.BOLD, area.width - BAR)
    write(pen, area.x0, area.y1 - 0.17, name.upper(), size, fonts.BOLD)
    how = (
        "Hook a steel tape on the rod's foot. Cut each lane on its left line and lay it with both end lines on their"
        " tape numbers; its tail goes under the next lane. Never set a lane by its neighbour."
    )
    write(pen, area.x0, area.y1 - 0.36, how, fit(how, pt(10), fonts.REGULAR, area.width - BAR))


def _one_piece(rod: Rod, style: Style) -> Drawing:
    pen = Recorder(rod.length + 2 * LEAD, HEIGHT + 2 * LEAD)
    lane = Lane(1, 0.0, rod.length, True)
    draw_lane(pen, LEAD, LEAD, rod, lane, 1, label_all(rod, style), style)
    return pen.drawing()
