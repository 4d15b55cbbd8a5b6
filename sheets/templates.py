"""Templates: patterns at full scale to cut out, tape on the board and trace, each with check bars.

A pattern larger than the page goes over several, in rows and columns of pages; what lies beyond a match line is drawn
again on the page before it. The drawing itself stands in ``sheets.template_drawn``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property

from msgspec import Struct

import fonts
from layouts import templates as layout
from layouts.building import Building
from layouts.lengths import Style
from layouts.template import Template
from sheets.frame import Body
from sheets.lettering import fit, pt, width, write
from sheets.paper import Area, Paper
from sheets.shapes import Recorder
from sheets.tables import Flow
from sheets.template_drawn import bounds, draw
from sheets.template_tiles import LAP, Tile
from sheets.wrapping import wrap

BAR = 0.3  # room for the check bar up the side
TITLE, FIGURE, TEXT, CAUTION = pt(18), pt(26), pt(13), pt(11.5)
LEADING, APART = 1.26, 0.35
SCALES = (1.0, 0.88, 0.78)  # smaller words only where they save a page
CARE = (
    "BEFORE USE check both bars with a steel rule: if one is off, use nothing. The THICK line is the cut: cut the sheet"
    " out along its middle, tape it on with the thin lines on the edges of the board, trace: the traced line is the cut"
    " line."
)
JOIN = "Cut this sheet off at MATCH LINE {lines} and lay it on that of {parts}: thick and thin lines run straight on."
CHECK = "Tape the parts together, then measure the numbers above over the joint."
NONE = "No cut of this job is sloped, and no slot or shoulder is made: there is nothing to trace."


def pages(building: Building, paper: Paper) -> list[Body]:
    """Every pattern of the building; nothing where there is none."""
    found: list[Body] = []
    for one in layout.lay(building.job, building.plan, building.roof, building.rows):
        found += drawn(one, paper, building.job.style)
    return found


def nothing(paper: Paper) -> list[Body]:
    """The page that says so."""
    flow = Flow("templates", "Templates", paper)
    flow.para(NONE, TEXT)
    return flow.bodies()


def number(one: Template) -> str:
    """The number of a pattern, as it stands in the titles of its pages."""
    return one.key.partition("-")[0]


def drawn(one: Template, paper: Paper, style: Style) -> Iterator[Body]:
    """The pages of a pattern, upright or lying and with larger or smaller words, whichever are fewer."""
    ways = [(p, _Head(one, style, _area(p).width, scale)) for scale in SCALES for p in (paper, paper.turned())]
    sheet, head = min(ways, key=lambda way: len(tiled(one, *way)))
    tiles = tiled(one, sheet, head)
    for tile in tiles:
        pen = Recorder(sheet.width, sheet.height)
        part = f", part {tile.number} of {len(tiles)}" if len(tiles) > 1 else ""
        area = _area(sheet)
        head.write(pen, area, f"{one.title}{part}", tile)
        draw(pen, Area(area.x0, area.y0, area.x1, area.y1 - head.deep), one, tile)
        # the page's own words say the rest
        title = f"Template {number(one)}: {one.title.partition(':')[0]}{part}"
        yield Body("templates", title, pen.drawing(), sheet, tall_bar=True)


def _area(paper: Paper) -> Area:
    """What a page has beside its check bar."""
    body = paper.body
    return Area(body.x0, body.y0, body.x1 - BAR, body.y1)


def tiled(one: Template, paper: Paper, head: _Head) -> list[Tile]:
    """The pages of a pattern on a paper, from the lower left along the rows."""
    whole, area = bounds(one), _area(paper)
    room_x, room_y = area.width, area.height - head.deep
    across = 1 if whole.width <= room_x else math.ceil(whole.width / (room_x - LAP))
    up = 1 if whole.height <= room_y else math.ceil(whole.height / (room_y - LAP))
    xs = [whole.x0 + whole.width * i / across for i in range(across + 1)]
    ys = [whole.y0 + whole.height * j / up for j in range(up + 1)]
    return [Tile(xs[i], ys[j], xs[i + 1], ys[j + 1], i, j, across, up) for j in range(up) for i in range(across)]


# --- words over it ---------------------------------------------------------------------------------------------------


class _Line(Struct, frozen=True):
    """*texts* beside one another on a line."""

    texts: tuple[str, ...]
    size: float
    cut: str


class _Head(Struct, frozen=True, dict=True):
    """The words over a pattern in a *room* inches wide, all sizes times *scale*."""

    one: Template
    style: Style
    room: float
    scale: float

    @property
    def _whom(self) -> str:
        return f"FOR: {self.one.what} {', '.join(self.one.whom)}."

    def _set(self, *texts: tuple[str, float, str]) -> list[_Line]:
        """Lines with their sizes and cuts."""
        found = []
        for text, size, cut in texts:
            found += [_Line((line,), size * self.scale, cut) for line in wrap(text, size * self.scale, cut, self.room)]
        return found

    @cached_property
    def figures(self) -> list[_Line]:
        """The numbers, as many on a line as fit."""
        size, found = FIGURE * self.scale, list[list[str]]()
        at = self.room
        for figure in self.one.figures:
            said = figure.text(self.style)
            wide = width(said, size, fonts.BOLD)
            if at + APART + wide <= self.room:
                found[-1].append(said)
                at += APART + wide
            else:
                found.append([said])
                at = wide
        return [
            _Line(tuple(line), fit(line[0], size, fonts.BOLD, self.room) if len(line) == 1 else size, fonts.BOLD)
            for line in found
        ]

    @cached_property
    def lines(self) -> list[_Line]:
        """What stands over the first part."""
        return [
            *self.figures,
            *self._set(
                (self._whom, TEXT, fonts.BOLD),
                (self.one.laid, TEXT, fonts.BOLD),
                (self.one.hold, TEXT, fonts.REGULAR),
                (CARE, CAUTION, fonts.REGULAR),
            ),
        ]

    def joined(self, tile: Tile) -> list[_Line]:
        """What stands over the other parts."""
        joints = [joint for joint in tile.joints if joint.first]
        lines = " and ".join(str(joint.number) for joint in joints)
        said = JOIN.format(lines=lines, parts=" and ".join(f"part {joint.before}" for joint in joints))
        return [
            *self.figures,
            *self._set(
                (self._whom, TEXT, fonts.BOLD),
                (said, TEXT, fonts.BOLD),
                (CHECK, TEXT, fonts.REGULAR),
                (CARE, CAUTION, fonts.REGULAR),
            ),
        ]

    @cached_property
    def deep(self) -> float:
        """How much of a page the words take: the most that those of any part do."""
        # the longest that a part can say: it is joined at two sides
        corner = Tile(0, 0, 1, 1, 1, 1, 9, 9)
        most = max(sum(line.size for line in lines) for lines in (self.lines, self.joined(corner)))
        return TITLE * 1.4 + most * LEADING + 0.15

    def write(self, pen: Recorder, area: Area, title: str, tile: Tile) -> None:
        """Writes them at the top of *area*."""
        text = title.upper()
        write(pen, area.x0, area.y1 - TITLE, text, fit(text, TITLE, fonts.BOLD, area.width), fonts.BOLD)
        y = area.y1 - TITLE * 1.4
        for line in self.lines if tile.number == 1 else self.joined(tile):
            y -= line.size * LEADING
            x = area.x0
            for text in line.texts:
                x += write(pen, x, y + line.size * 0.25, text, line.size, line.cut) + APART
