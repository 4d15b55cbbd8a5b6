"""Rod strips: full scale, in lanes that are each set to the tape by their own numbers.

A lane lies along the page: the rod's foot to the left. From its upper edge down: the tape band (ticks and numbers of a
tape hooked on the rod's end), the boards (line, X, footprint, name, station), the cuts and lines, and a foot with the
lane's own name.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import fonts
from layouts.building import Building
from layouts.lengths import Style, show
from layouts.rods import Mark, Rod
from sheets.frame import Body
from sheets.lanes import CLEAR, Lane, break_up
from sheets.lettering import fit, pt, width, write
from sheets.paper import MM, Area, Paper
from sheets.shapes import HAIR, MEDIUM, THICK, THIN, Drawing, Recorder

BAND, BOARDS, CUTS, FOOT = 0.32, 0.88, 0.75, 0.17
HEIGHT = BAND + BOARDS + CUTS + FOOT
GAP = 0.06
LEAD = 0.06  # paper kept to the left of a lane's set line, cut away
TAIL = CLEAR  # paper beyond the end line, goes under the next lane
BAR = 0.24  # room for the check bar up the side
HEAD = 0.44
CROSS = 0.42  # size of the X
PAD = 0.07
BIG, NAME = pt(36), pt(15)
LEAST = 0.4  # a label may shrink to this share before it is let into a joint


@dataclass(frozen=True)
class Tape:
    """How this job's tape is numbered: *tick* inches from number to number, set lines on multiples of *step*."""

    tick: float
    step: float
    style: Style

    def number(self, place: float) -> str:
        """A place as the tape shows it."""
        return str(round(place / MM)) if self.style.unit == "mm" else str(round(place))


@dataclass(frozen=True)
class Label:
    """Words beside a mark: on stretch *x0* to *x1* of the rod, *scale* under 1 where room is short."""

    mark: Mark
    x0: float
    x1: float
    scale: float


def tape(style: Style) -> Tape:
    """Whole inches, or 10 mm ticks with set lines on 50 mm."""
    return Tape(10 * MM, 50 * MM, style) if style.unit == "mm" else Tape(1.0, 1.0, style)


def pages(building: Building, paper: Paper) -> list[Body]:
    """All rods of *building* on *paper*, turned on its side."""
    found: list[Body] = []
    for rod in building.rods:
        found += _rod_pages(rod, building.job.style, paper.turned())
    return found


def whole(building: Building) -> list[tuple[str, Drawing]]:
    """Each rod in one piece at full scale, by its title."""
    return [(title(rod), _one_piece(rod, building.job.style)) for rod in building.rods]


def title(rod: Rod) -> str:
    """What a rod is called on sheets."""
    return f"{rod.name}, {'walls' if len(rod.walls) > 1 else 'wall'} {' and '.join(rod.walls)}"


def lanes_of(rod: Rod, style: Style, area: Area) -> tuple[Lane, ...]:
    """The lanes of *rod* on pages with this drawing area."""
    labels = label_all(rod, style)
    edges = {e for m in rod.marks for e in (m.station, m.low, m.high)}
    hard = [(e - CLEAR, e + CLEAR) for e in sorted(edges) if e > 0]
    soft = [(label.x0 - PAD, label.x1 + PAD) for label in labels]
    return break_up(rod.length, area.width - LEAD - TAIL - BAR, tape(style).step, hard, soft)


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
    write(pen, area.x0, area.y1 - 0.19, name.upper(), size, fonts.BOLD)
    how = (
        "Hook a steel tape on the rod's foot. Cut each lane on its left line and lay it with both end lines on their"
        " tape numbers; its tail goes under the next lane. Never set a lane by its neighbour."
    )
    write(pen, area.x0, area.y1 - 0.38, how, fit(how, pt(10), fonts.REGULAR, area.width - BAR))


def _one_piece(rod: Rod, style: Style) -> Drawing:
    pen = Recorder(rod.length + 2 * LEAD, HEIGHT + 2 * LEAD)
    lane = Lane(1, 0.0, rod.length, True)
    draw_lane(pen, LEAD, LEAD, rod, lane, 1, label_all(rod, style), style)
    return pen.drawing()


# --- labels ---------------------------------------------------------------------------------------------------------


def station_text(mark: Mark, style: Style) -> str:
    """The mark's station as printed."""
    return show(mark.station, style)


def name_text(mark: Mark) -> str:
    """The mark's name as printed."""
    if mark.kind == "board":
        return f"{mark.name.upper()} {mark.board} {mark.edge}"
    if mark.kind == "cut":
        return f"CUT {mark.name} {mark.where}"
    return mark.name.upper()


def _wanted(mark: Mark, style: Style) -> float:
    return max(width(station_text(mark, style), BIG, fonts.BOLD), width(name_text(mark), NAME, fonts.BOLD))


def label_all(rod: Rod, style: Style) -> list[Label]:
    """Where every mark's words go. Boards and cuts have a band each, so that only like marks can crowd each other."""
    boards = [m for m in rod.marks if m.kind == "board"]
    others = [m for m in rod.marks if m.kind != "board"]
    return [*_place(boards, rod.length, style), *_place(others, rod.length, style)]


def _place(marks: Sequence[Mark], length: float, style: Style) -> Iterator[Label]:
    """Words go to the side the board covers, else to the other side, else they shrink into the larger room."""
    free_from = 0.0
    for i, mark in enumerate(marks):
        after = marks[i + 1].station if i + 1 < len(marks) else length
        wanted = _wanted(mark, style)
        cross = CROSS + PAD if mark.kind == "board" else 0.0
        up = mark.edge != "top"
        right0 = mark.station + PAD + (cross if up else 0.0)
        left1 = mark.station - PAD - (0.0 if up else cross)
        right_room, left_room = after - PAD - right0, left1 - free_from - PAD
        sides = [(right_room, True), (left_room, False)] if up else [(left_room, False), (right_room, True)]
        room, to_right = next((s for s in sides if s[0] >= wanted), max(sides))
        scale = min(1.0, max(room, wanted * LEAST) / wanted)
        taken = wanted * scale
        x0 = right0 if to_right else left1 - taken
        free_from = max(x0 + taken, mark.station)
        yield Label(mark, x0, x0 + taken, scale)


# --- drawing --------------------------------------------------------------------------------------------------------


def draw_lane(
    pen: Recorder, x: float, y: float, rod: Rod, lane: Lane, count: int, labels: Sequence[Label], style: Style
) -> None:
    """One lane with its set line at *x* and its lower edge at *y*."""
    end = lane.end if lane.last else lane.end + TAIL
    tall = Window(x - lane.start, y, lane.start, lane.end, end)
    pen.begin(f"{_slug(title(rod))}-lane-{lane.number}")
    _edges(pen, tall, lane)
    _tape_band(pen, tall, tape(style), rod)
    for mark in rod.marks:
        if mark.kind == "board":
            _footprint(pen, tall, mark)
    for label in labels:
        if lane.start - 1e-9 <= label.mark.station < lane.end - 1e-9 or (
            lane.last and label.mark.station >= lane.start
        ):
            pen.begin(f"{_slug(title(rod))}-mark-{_slug(label.mark.name)}")
            _mark(pen, tall, label, style)
            pen.end()
    _foot(pen, tall, rod, lane, count)
    pen.end()


@dataclass(frozen=True)
class Window:
    """A lane on the page: rod place 0 would stand at *x0*, lower edge at *y*; it shows *start* to *end* and its paper
    goes on to *paper_end*."""

    x0: float
    y: float
    start: float
    end: float
    paper_end: float

    def at(self, place: float) -> float:
        """A place of the rod on the page."""
        return self.x0 + place

    @property
    def top(self) -> float:
        """Upper edge."""
        return self.y + HEIGHT

    @property
    def boards(self) -> float:
        """Lower edge of the boards' band."""
        return self.y + FOOT + CUTS

    @property
    def cuts(self) -> float:
        """Lower edge of the band of cuts and lines."""
        return self.y + FOOT


def _edges(pen: Recorder, w: Window, lane: Lane) -> None:
    """The outline: cut on the left line; the end line is where the next lane's edge lies."""
    left, right = w.at(w.start), w.at(w.paper_end)
    for y in (w.y, w.top):
        pen.stroke(left - LEAD, y, right, y, THIN)
    pen.stroke(left, w.y, left, w.top, MEDIUM)
    pen.stroke(w.at(w.end), w.y, w.at(w.end), w.top, MEDIUM if lane.last else THIN, () if lane.last else (0.12, 0.06))
    if not lane.last:
        pen.stroke(right, w.y, right, w.top, HAIR)
        middle = (w.y + w.top) / 2
        write(pen, w.at(w.end) + TAIL * 0.62, middle, "GOES UNDER THE NEXT LANE", pt(8), align="center", turn=90)


def _tape_band(pen: Recorder, w: Window, numbers: Tape, rod: Rod) -> None:
    """Ticks and numbers of the tape, large at both ends."""
    base = w.top - BAND
    pen.stroke(w.at(w.start), base, w.at(w.end), base, HAIR)
    lines = [m.station for m in rod.marks]
    first = _end_number(pen, w, numbers, w.start, lines)
    last = 0.0 if w.end == rod.length else _end_number(pen, w, numbers, w.end, lines)
    tick = numbers.tick
    n = int(w.start / tick + 1 - 1e-9)
    named = 1 if numbers.style.unit == "in" else 5
    while n * tick < w.end - 1e-6:
        place = n * tick
        if place > w.start + 1e-6:
            pen.stroke(w.at(place), w.top, w.at(place), w.top - (0.12 if n % named == 0 else 0.07), HAIR)
            text = numbers.number(place)
            half = width(text, pt(9)) / 2 + 0.03
            clear = place - half > w.start + first and place + half < w.end - last
            if n % named == 0 and clear and all(abs(place - line) > half for line in lines):
                write(pen, w.at(place), base + 0.05, text, pt(9), align="center")
        n += 1


def _end_number(pen: Recorder, w: Window, numbers: Tape, place: float, lines: Sequence[float]) -> float:
    """The large tape number at a set line; returns the room it takes. Its small reading gives way to a mark."""
    left = place == w.start
    text = numbers.number(place)
    small = "TAPE" if numbers.style.unit == "mm" or place < 24 else show(place, numbers.style)
    way: Literal[-1, 1] = 1 if left else -1
    base = w.top - BAND
    first = 0.05 + width(text, pt(20), fonts.BOLD)
    second = first + 0.07 + width(small, pt(10))
    pen.begin("tape-number", text)
    _aside(pen, w.at(place) + way * 0.05, base + 0.07, text, pt(20), left)
    near = [abs(line - place) for line in lines if (line - place) * way >= 0]
    clear = all(gap > second + 0.05 or gap < 1e-6 for gap in near)
    if clear:
        _aside(pen, w.at(place) + way * (first + 0.07), base + 0.07, small, pt(10), left)
    pen.end()
    return (second if clear else first) + 0.08


def _aside(pen: Recorder, x: float, y: float, text: str, size: float, left: bool) -> None:
    """Words that begin at a set line on their left, or end at one on their right."""
    write(pen, x, y, text, size, fonts.BOLD if size > pt(12) else fonts.REGULAR, "left" if left else "right")


def _footprint(pen: Recorder, w: Window, mark: Mark) -> None:
    """The board's real footprint: a hatched bar, and its other edge dashed."""
    low, high = max(mark.low, w.start), min(mark.high, w.paper_end)
    if high - low <= 1e-6:
        return
    y0, y1 = w.boards + 0.02, w.boards + 0.11
    pen.box(w.at(low), y0, w.at(high), y1, None, THIN)
    n = int(low / 0.25) + 1
    while n * 0.25 < high - 1e-6:
        place = n * 0.25
        if place - 0.1 > low:
            pen.stroke(w.at(place - 0.1), y0, w.at(place), y1, HAIR)
        n += 1
    other = mark.high if mark.edge == "bottom" else mark.low
    if w.start < other < w.paper_end:
        pen.stroke(w.at(other), w.boards, w.at(other), w.boards + BOARDS, THIN, (0.06, 0.05))


def _mark(pen: Recorder, w: Window, label: Label, style: Style) -> None:
    """Line, X and words of one mark. The line runs to both edges of the strip, broken only by the other band."""
    mark = label.mark
    x = w.at(mark.station)
    if mark.kind == "board":
        pen.stroke(x, w.boards, x, w.top, MEDIUM)
        pen.stroke(x, w.y, x, w.cuts, MEDIUM)
        _cross(pen, x, w.boards, 1 if mark.edge == "bottom" else -1)
        base = w.boards + 0.14
    else:
        heavy, dash = (THICK, ()) if mark.kind == "cut" else (MEDIUM, (0.14, 0.05, 0.03, 0.05))
        pen.stroke(x, w.y, x, w.cuts + CUTS, heavy, dash)
        pen.stroke(x, w.top - BAND, x, w.top, MEDIUM)
        base = w.cuts + 0.04
    left = w.at(label.x0)
    write(pen, left, base + 0.275, station_text(mark, style), BIG * label.scale, fonts.BOLD)
    write(pen, left, base + 0.015, name_text(mark), NAME * label.scale, fonts.BOLD)


def _cross(pen: Recorder, x: float, base: float, way: int) -> None:
    """The X on the side the board covers."""
    x0, x1 = x + way * PAD, x + way * (PAD + CROSS)
    y0, y1 = base + 0.28, base + 0.28 + CROSS
    pen.stroke(x0, y0, x1, y1, THICK)
    pen.stroke(x0, y1, x1, y0, THICK)


def _foot(pen: Recorder, w: Window, rod: Rod, lane: Lane, count: int) -> None:
    """The lane's own name, in the widest stretch that no line crosses."""
    inside = [m.station for m in rod.marks if w.start < m.station < w.end]
    stops = [w.start, *inside, w.end]
    low, high = max(pairwise(stops), key=lambda s: s[1] - s[0])
    follows = "rod's top end" if lane.last else f"next lane {lane.number + 1}"
    text = f"{title(rod)}  ·  lane {lane.number} of {count}  ·  {follows} →"
    size = fit(text, pt(10), fonts.REGULAR, high - low - 0.2)
    write(pen, w.at(low) + 0.1, w.y + 0.04, text, size)


def _slug(text: str) -> str:
    return "-".join("".join(c if c.isalnum() else " " for c in text.lower()).split())
