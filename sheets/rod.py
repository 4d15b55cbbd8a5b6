"""Rod strips on pages: full scale, in lanes that are each set to the tape by their own numbers.

A page holds as many lanes as it takes, side by side; how one lane is drawn is in ``sheets.strip``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.building import Building
from layouts.lengths import Style
from layouts.problems import JobRefused, Problem
from layouts.rods import Mark, Rod
from sheets.flag_rooms import reach
from sheets.flags import SMALL, TINY, label_all, on_lane
from sheets.frame import Body
from sheets.labels import BIG, READ, Label, station_text
from sheets.lanes import CLEAR, Lane, Stretch, break_up
from sheets.language import spoken
from sheets.lettering import fit, pt, width, write
from sheets.paper import LONGEST, Area, Paper
from sheets.shapes import MEDIUM, THIN, Drawing, Recorder
from sheets.strip import GAP, HEIGHT, LEAD, TAIL, Tape, draw_lane, tape, title

if TYPE_CHECKING:
    from sheets.speech import Speech

BAR = 0.24  # room for the check bar up the side
HEAD = 0.44
SHORTEST = 3.0  # inches: a lane shorter than this is all edge
WEIGHTS = (0.0, 0.02, 0.1, 0.5, 2.0)  # what a lane costs, in shares of a label, tried until the pages are fewest
SHARES = (1.0, 0.8, 0.6, 0.45)  # of a lane that marks which stand close may take with their words, tried in turn
WIDER = (1.25, 1.15, 1.05)  # the same where no words are read so: some find room on the lane they come to lie on
SHORTER = (0.95, 0.9, 0.7, 0.5)  # of the longest lane, tried last: fewer marks stand on each


class Laid(Struct, frozen=True):
    """How a rod lies on paper: its *lanes*, the *pages* they take, the *least* that this paper allows any rod so long,
    and the words of its marks."""

    rod: Rod
    lanes: tuple[Lane, ...]
    pages: int
    least: int
    labels: tuple[Label, ...]


def pages(building: Building, paper: Paper) -> list[Body]:
    """All rods of *building* on *paper*; on a roll side by side, each page cut where it ends."""
    style = building.job.style
    sheet, laid = _way(paper, style), lay_all(building, paper)
    if paper.roll:
        return list(_roll_pages(laid, style, sheet))
    return [body for one in laid for body in _rod_pages(one, style, sheet)]


def lay_all(building: Building, paper: Paper) -> list[Laid]:
    """Every rod as it lies on *paper*."""
    sheet = _way(paper, building.job.style)
    large = building.job.job.print == "large"
    return [lay(rod, building.job.style, sheet.body, large) for rod in building.rods]


def _way(paper: Paper, style: Style) -> Paper:
    """The sheet lying or upright, whichever holds more rod; lying if it is the same."""
    lying = paper.lying()
    if paper.roll:
        return lying
    return max((lying, lying.turned()), key=lambda p: _most(p.body, style)[1] * _each(p.body))


def _each(area: Area) -> int:
    """Lanes side by side."""
    return max(int((area.height - HEAD + GAP) / (HEIGHT + GAP) + 1e-9), 1)


def _most(area: Area, style: Style) -> tuple[float, float]:
    """The longest lane that fits, and the longest that ends on a set line."""
    most = area.width - LEAD - TAIL - BAR
    step = tape(style).step
    return most, math.floor(most / step + 1e-9) * step


def lay(rod: Rod, style: Style, area: Area, large: bool = False) -> Laid:
    """*rod* on pages with this drawing area: the fewest pages on which every word is read at arm's length, in *large*
    print the fewest on which no joint makes words smaller; then the largest words, then the fewest lanes."""
    return _lay(rod, style, area, large, spoken())


@lru_cache(maxsize=64)
def _lay(rod: Rod, style: Style, area: Area, large: bool, speech: Speech | None) -> Laid:
    """The same once for each language that is spoken: in another one words are as long as they are there."""
    best, small = None, dict.fromkeys(rod.marks, -1.0)
    longest, _ = _most(area, style)
    ways = [(longest, SHARES), (longest, WIDER), *((longest * share, SHARES) for share in SHORTER)]
    for length, shares in ways:
        for laid in _ways(rod, style, area, large, length, shares):
            found = {v.mark: v.scale * BIG for lane in laid.lanes for v in on_lane(laid.labels, lane, style)}
            if min(found.values(), default=BIG) > min(small.values(), default=-1.0):
                best, small = laid, found
            if best and min(small.values(), default=BIG) >= SMALL:
                return best
        if best and min(small.values(), default=BIG) >= TINY:
            return best
    raise _refused(rod, [mark for mark, size in small.items() if size < TINY] if best else [], style)


def _ways(rod: Rod, style: Style, area: Area, large: bool, longest: float, shares: Sequence[float]) -> Iterator[Laid]:
    """*rod* in lanes of at most *longest*, of which close marks may take so large *shares* with their words."""
    # a stretch of so many inches finds a lane that holds it, wherever it stands between the numbers of the tape
    most = longest - 2 * tape(style).tick - 2 * CLEAR
    for share in shares:
        labels = label_all(rod, style, most * share)
        for hard, step in _spared(rod, labels, tape(style)):
            laid = _laid(rod, labels, hard, area, style, step, large, longest)
            if laid:
                yield laid


def _spared(rod: Rod, labels: Sequence[Label], steps: Tape) -> Iterator[tuple[list[Stretch], float]]:
    """What no joint may come near, and what it stands on multiples of: edges of boards, and flags; where that does not
    do, marks alone and flags, then any tick of the tape; then the same without flags, whose words then have to find
    room on the lane they come to lie on."""
    stations = {m.station for m in rod.marks if m.station > 0}
    edges = stations | {e for m in rod.marks for e in (m.low, m.high) if e > 0}
    flags = [(low - CLEAR, high + CLEAR) for low, high in (reach(v) for v in labels if v.flag)]
    for more in (flags, []) if flags else ([],):
        for step in dict.fromkeys((steps.step, steps.tick)):
            for places in (edges, stations):
                yield [*((e - CLEAR, e + CLEAR) for e in sorted(places)), *more], step


def _laid(
    rod: Rod,
    labels: tuple[Label, ...],
    hard: list[Stretch],
    area: Area,
    style: Style,
    step: float,
    large: bool,
    longest: float,
) -> Laid | None:
    """*rod* in lanes of at most *longest* with joints on multiples of *step*, clear of *hard* stretches, if there are
    such."""
    most, on_line = _most(area, style)
    each = _each(area)
    least = math.ceil((math.ceil(max(rod.length - most, 0.0) / on_line - 1e-9) + 1) / each)
    soft = [label.stretch for label in labels if not label.movable and label.flag is None]
    light = [label.stretch for label in labels if label.movable and label.flag is None]
    best: Laid | None = None
    for weight in WEIGHTS:
        try:
            lanes = break_up(rod.length, longest, step, hard, soft, SHORTEST, weight, light)
        except ValueError:
            return None
        count = math.ceil(len(lanes) / each)
        if best is None or (count < best.pages and _readable(lanes, labels, style, large)):
            best = Laid(rod, lanes, count, least, labels)
        if best.pages <= least:
            break
    return best


def _refused(rod: Rod, small: Sequence[Mark], style: Style) -> JobRefused:
    """Marks that stand too close for a joint between them, or for their words."""
    shown = "; ".join(f"{mark.name}, {station_text(mark, style)}" for mark in small[:6])
    wrong = (
        f"its words have no room: {shown}. They stand too close." if shown else "its marks leave no room for a joint."
    )
    right = "Bring openings to like heights, or move them farther apart."
    return JobRefused([Problem(title(rod), "", "", wrong, right)])


def _readable(lanes: Sequence[Lane], labels: Sequence[Label], style: Style, large: bool) -> bool:
    """Whether no joint takes so much of a mark's words that they are no longer read at arm's length; in *large* print
    anything of them."""
    whole = {v.mark: v.scale for v in labels}
    least = 1.0 if large else READ
    return all(v.scale >= min(least, whole[v.mark]) - 1e-9 for lane in lanes for v in on_lane(labels, lane, style))


def whole(building: Building) -> list[tuple[str, Drawing]]:
    """Each rod in one piece at full scale, by its title."""
    return [(title(rod), _one_piece(rod, building.job.style)) for rod in building.rods]


def _rod_pages(laid: Laid, style: Style, paper: Paper) -> Iterator[Body]:
    area, rod, lanes = paper.body, laid.rod, laid.lanes
    each = _each(area)
    for first in range(0, len(lanes), each):
        held = lanes[first : first + each]
        pen = Recorder(paper.width, paper.height)
        span = f"lanes {held[0].number} to {held[-1].number}" if len(held) > 1 else f"lane {held[0].number}"
        name = f"{title(rod)}: {span} of {len(lanes)}"
        _heading(pen, area, name, [] if first else [laid])
        for i, lane in enumerate(held):
            y = area.y1 - HEAD - i * (HEIGHT + GAP) - HEIGHT
            draw_lane(pen, area.x0 + LEAD, y, rod, lane, len(lanes), laid.labels, style)
        yield Body("rods", name, pen.drawing(), paper, tall_bar=True)


def _roll_pages(laid: Sequence[Laid], style: Style, roll: Paper) -> Iterator[Body]:
    """Panels of all rods side by side across the roll; a page is as long as its longest panel."""
    panels = [(one, lane) for one in laid for lane in one.lanes]
    each = _each(roll.body)
    for first in range(0, len(panels), each):
        held = panels[first : first + each]
        longest = max(lane.end - lane.start for _, lane in held) + LEAD + TAIL + BAR + 2 * roll.margin
        # the run of a roll stays the long side, as on its ruler page
        paper = replace(roll, width=min(max(math.ceil(longest), roll.height + 1), LONGEST))
        area = paper.body
        pen = Recorder(paper.width, paper.height)
        rods = list(dict.fromkeys(title(one.rod) for one, _ in held))
        name = "; ".join(rods) + (f" (page {first // each + 1})" if len(panels) > each else "")
        _heading(pen, area, name, [])
        for i, (one, lane) in enumerate(held):
            y = area.y1 - HEAD - i * (HEIGHT + GAP) - HEIGHT
            draw_lane(pen, area.x0 + LEAD, y, one.rod, lane, len(one.lanes), one.labels, style)
        yield Body("rods", name, pen.drawing(), paper, tall_bar=True)


def _heading(pen: Recorder, area: Area, name: str, overview: Sequence[Laid]) -> None:
    """The title, the one line that says how; on a rod's first page its overview beside the title."""
    room = area.width - BAR
    share = 0.58 if overview else 1.0
    size = fit(name.upper(), pt(15), fonts.BOLD, room * share)
    taken = write(pen, area.x0, area.y1 - 0.17, name.upper(), size, fonts.BOLD)
    for laid in overview:
        _overview(pen, Area(area.x0 + taken + 0.25, area.y1 - 0.21, area.x0 + room, area.y1), laid)
    how = (
        "Hook a steel tape on the rod's foot. Cut each lane on its left line and lay it with both end lines on their"
        " tape numbers; its tail goes under the next lane. Never set a lane by its neighbour."
    )
    write(pen, area.x0, area.y1 - 0.36, how, fit(how, pt(10), fonts.REGULAR, room))


def _overview(pen: Recorder, area: Area, laid: Laid) -> None:
    """The whole rod small: its lanes numbered, its marks, and the tape above it with its hook on the foot."""
    pen.begin("overview", "the whole rod, its lanes numbered")
    scale = (area.width - 0.06) / laid.rod.length
    x0, low, high = area.x0 + 0.06, area.y0, area.y1 - 0.06
    pen.box(x0, low, x0 + laid.rod.length * scale, high, None, THIN)
    pen.stroke(x0 - 0.05, area.y1 - 0.02, x0 + laid.rod.length * scale, area.y1 - 0.02, THIN)
    pen.stroke(x0 - 0.04, area.y1 - 0.02, x0 - 0.04, high - 0.06, THIN)
    for mark in laid.rod.marks:
        pen.stroke(x0 + mark.station * scale, low, x0 + mark.station * scale, low + 0.025, MEDIUM)
    size = pt(6.5)
    apart = min(lane.end - lane.start for lane in laid.lanes[:-1] or laid.lanes) * scale
    every = next(n for n in (1, 2, 5, 10, 20, 50, 1000) if apart * n > width(str(len(laid.lanes)), size) + 0.02)
    for lane in laid.lanes[1:]:
        # where numbers stand for several lanes the joints keep above them
        pen.stroke(x0 + lane.start * scale, low if every == 1 else high - 0.025, x0 + lane.start * scale, high, THIN)
    for lane in laid.lanes:
        if lane.number == 1 or lane.number % every == 0:
            room = (lane.end - lane.start) * scale * (every if every > 1 else 1)
            if room > width(str(lane.number), size) + 0.01:
                middle = (lane.start + lane.end) / 2 * scale
                write(pen, x0 + middle, low + 0.045, str(lane.number), size, align="center")
    pen.end()


def _one_piece(rod: Rod, style: Style) -> Drawing:
    pen = Recorder(rod.length + 2 * LEAD, HEIGHT + 2 * LEAD)
    lane = Lane(1, 0.0, rod.length, True)
    draw_lane(pen, LEAD, LEAD, rod, lane, 1, label_all(rod, style, rod.length), style)
    return pen.drawing()
