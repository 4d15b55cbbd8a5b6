"""One lane of a rod strip, at full scale.

A lane lies along the page: the rod's foot to the left. From its upper edge down: the tape band (ticks and numbers of a
tape hooked on the rod's end), the boards (line, X, footprint, name, station), the cuts and lines and the boards that
are for some columns only, and a foot with the lane's own name.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from msgspec import Struct

import fonts
from layouts.lengths import Style, show
from layouts.rods import Mark, Rod, numbered
from sheets.crosses import AWAY, box, pieces
from sheets.flag_rooms import between, name_size
from sheets.flags import on_lane
from sheets.labels import BIG, BOARDS, CUTS, NAME, Flag, Label, name_text, station_text, upper
from sheets.lanes import CLEAR, Lane
from sheets.lettering import extent, fit, pt, width, write
from sheets.paper import MM
from sheets.shapes import HAIR, MEDIUM, THICK, THIN, Recorder

# three lanes and the heading go on A4 lying down: the whole is what its 210 mm leave
BAND, FOOT = 0.30, 0.19
HEIGHT = BAND + BOARDS + CUTS + FOOT
GAP = 0.05
LEAD = 0.06  # paper kept to the left of a lane's set line, cut away
TAIL = CLEAR  # paper beyond the end line, goes under the next lane


class Tape(Struct, frozen=True):
    """How this job's tape is numbered: *tick* inches from number to number, set lines on multiples of *step*."""

    tick: float
    step: float
    style: Style

    def number(self, place: float) -> str:
        """A place as the tape shows it."""
        return str(round(place / MM)) if self.style.unit == "mm" else str(round(place))


def tape(style: Style) -> Tape:
    """Whole inches, or 10 mm ticks with set lines on 50 mm."""
    return Tape(numbered(style), 50 * MM if style.unit == "mm" else 1.0, style)


def title(rod: Rod) -> str:
    """What a rod is called on sheets."""
    whom = f"{'walls' if len(rod.walls) > 1 else 'wall'} {' and '.join(rod.walls)}"
    return ", ".join((rod.name, rod.of or whom, *rod.users))


def draw_lane(
    pen: Recorder, x: float, y: float, rod: Rod, lane: Lane, count: int, labels: Sequence[Label], style: Style
) -> None:
    """One lane with its set line at *x* and its lower edge at *y*."""
    end = lane.end if lane.last else lane.end + TAIL
    tall = Window(x - lane.start, y, lane.start, lane.end, end)
    pen.begin(f"{_slug(title(rod))}-lane-{lane.number}")
    _edges(pen, tall, lane)
    _tape_band(pen, tall, tape(style), rod)
    found = on_lane(labels, lane, style)
    for mark in rod.marks:
        if mark.kind == "board":
            _footprint(pen, tall, mark, found)
    for label in found:
        pen.begin(f"{_slug(title(rod))}-mark-{_slug(label.mark.name)}")
        if label.flag:
            _flagged(pen, tall, label, label.flag, style)
        else:
            _mark(pen, tall, label, style)
        pen.end()
    _foot(pen, tall, rod, lane, count)
    pen.end()


class Window(Struct, frozen=True):
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
        middle = (w.boards + 0.12 + w.top) / 2  # clear of a footprint that goes on
        for i, words in enumerate(("GOES UNDER", "THE NEXT LANE")):
            write(pen, w.at(w.end) + TAIL * (0.42 + 0.32 * i), middle, words, pt(9), align="center", turn=90)


def _tape_band(pen: Recorder, w: Window, numbers: Tape, rod: Rod) -> None:
    """Ticks and numbers of the tape, large at both ends."""
    base = w.top - BAND
    pen.stroke(w.at(w.start), base, w.at(w.end), base, HAIR)
    lines = [m.station for m in rod.marks]
    first, low = _end_number(pen, w, numbers, w.start, lines)
    last, high = _end_number(pen, w, numbers, w.end, lines)
    tick = numbers.tick
    n = int(w.start / tick + 1 - 1e-9)
    named = 1 if numbers.style.unit == "in" else 5
    while n * tick < w.end - 1e-6:
        place = n * tick
        if w.start + low < place < w.end - high:
            pen.stroke(w.at(place), w.top, w.at(place), w.top - (0.12 if n % named == 0 else 0.07), HAIR)
            text = numbers.number(place)
            half = width(text, pt(9)) / 2 + 0.03
            clear = place - half > w.start + first and place + half < w.end - last
            if n % named == 0 and clear and all(abs(place - line) > half for line in lines):
                write(pen, w.at(place), base + 0.06, text, pt(9), align="center")
        n += 1


def _end_number(pen: Recorder, w: Window, numbers: Tape, place: float, lines: Sequence[float]) -> tuple[float, float]:
    """The large tape number at a set line; gives the room it takes among the numbers, and among the ticks. Its small
    reading gives way to a mark."""
    left = place == w.start
    text = numbers.number(place)
    small = "TAPE" if numbers.style.unit == "mm" or place < 24 else show(place, numbers.style)
    way: Literal[-1, 1] = 1 if left else -1
    base = w.top - BAND
    near = min((gap for line in lines if (gap := (line - place) * way) > 1e-6), default=CLEAR * 10)
    half = (w.end - w.start) / 2
    size = fit(text, pt(20), fonts.BOLD, min(near, half) - 0.1)
    first = 0.05 + width(text, size, fonts.BOLD)
    second = first + 0.07 + width(small, pt(10))
    pen.begin("tape-number", text)
    _aside(pen, w.at(place) + way * 0.05, base + 0.06, text, size, left)
    clear = min(near, half) > second + 0.05
    if clear:
        _aside(pen, w.at(place) + way * (first + 0.07), base + 0.06, small, pt(10), left)
    pen.end()
    return (second if clear else first) + 0.08, first + 0.02


def _aside(pen: Recorder, x: float, y: float, text: str, size: float, left: bool) -> None:
    """Words that begin at a set line on their left, or end at one on their right."""
    write(pen, x, y, text, size, fonts.BOLD if size > pt(12) else fonts.REGULAR, "left" if left else "right")


def _footprint(pen: Recorder, w: Window, mark: Mark, labels: Sequence[Label]) -> None:
    """The board's real footprint: a hatched bar, and its other edge dashed, broken where words or an X stand."""
    low, high = max(mark.low, w.start), min(mark.high, w.paper_end)
    if high - low <= 1e-6:
        return
    floor, tall = (w.boards, BOARDS) if upper(mark) else (w.cuts, CUTS)
    y0, y1 = (floor + 0.01, floor + 0.1) if upper(mark) else (floor + 0.005, floor + 0.055)
    pen.box(w.at(low), y0, w.at(high), y1, None, THIN)
    n = int(low / 0.25) + 1
    while n * 0.25 < high - 1e-6:
        place = n * 0.25
        if place - 0.1 > low:
            pen.stroke(w.at(place - 0.1), y0, w.at(place), y1, HAIR)
        n += 1
    other = mark.high if mark.edge == "bottom" else mark.low
    if w.start < other < w.end:
        worded = any(v.x0 - 0.03 < other < v.x1 + 0.03 for v in labels if upper(v.mark) == upper(mark) or v.flag)
        crosses = [box(v) for v in labels if upper(v.mark) == upper(mark)]
        worded |= any(c.x0 - AWAY < other < c.x1 + AWAY for c in crosses if c)
        pen.stroke(w.at(other), floor, w.at(other), y1 if worded else floor + tall, THIN, (0.06, 0.05))


def _mark(pen: Recorder, w: Window, label: Label, style: Style) -> None:
    """Line, X and words of one mark. The line runs to both edges of the strip, broken only by the other band."""
    mark = label.mark
    x = w.at(mark.station)
    if upper(mark):
        pen.stroke(x, w.boards, x, w.top, MEDIUM)
        pen.stroke(x, w.y, x, w.cuts, MEDIUM)
        base = w.boards + 0.16
    elif mark.kind == "board":
        pen.stroke(x, w.y, x, w.cuts + CUTS, MEDIUM)
        pen.stroke(x, w.top - BAND, x, w.top, MEDIUM)
        base = w.cuts + 0.09
    else:
        heavy, dash = (THICK, ()) if mark.kind == "cut" else (MEDIUM, (0.14, 0.05, 0.03, 0.05))
        pen.stroke(x, w.y, x, w.cuts + CUTS, heavy, dash)
        pen.stroke(x, w.top - BAND, x, w.top, MEDIUM)
        base = w.cuts + 0.05
    _cross(pen, w, label, THICK)
    left = w.at(label.x0)
    station, name = station_text(mark, style), name_text(mark)
    write(pen, left, base + _over(station, name, label.scale), station, BIG * label.scale, fonts.BOLD)
    write(pen, left, base, name, NAME * label.scale, fonts.BOLD)


def _over(station: str, name: str, scale: float) -> float:
    """From the line of a mark's name up to its station's: where both have fractions, one may stand over the other."""
    _, above, _ = extent(name, NAME * scale, fonts.BOLD)
    _, _, below = extent(station, BIG * scale, fonts.BOLD)
    return max(0.247, above + below + 0.002)


def _flagged(pen: Recorder, w: Window, label: Label, flag: Flag, style: Style) -> None:
    """One mark of several that stand close: its line ends in its own band, and a leader goes off to its words."""
    mark, x, top = label.mark, w.at(label.mark.station), w.cuts + flag.top
    line = THICK if mark.kind == "cut" else MEDIUM
    dash = (0.14, 0.05, 0.03, 0.05) if mark.kind == "line" else ()
    if upper(mark):
        pen.stroke(x, w.y, x, w.cuts, line)
    for low, high in pieces(flag, CUTS if upper(mark) else -FOOT):
        pen.stroke(x, w.cuts + low, x, w.cuts + high, line, dash)
    pen.stroke(x, w.top - BAND, x, w.top, MEDIUM)
    _cross(pen, w, label, MEDIUM)
    size = label.scale * BIG
    right = label.x0 > label.mark.station
    turn, end = w.at(flag.turn), w.at(label.x0) - 0.05 if right else w.at(label.x1) + 0.05
    pen.stroke(x, top, turn, top, THIN)
    pen.stroke(turn, top, end, w.cuts + flag.base + 0.35 * size, THIN)
    station = station_text(mark, style)
    write(pen, w.at(label.x0), w.cuts + flag.base, station, size, fonts.BOLD)
    after = width(station, size, fonts.BOLD) + between(size)
    write(pen, w.at(label.x0) + after, w.cuts + flag.base, name_text(mark), name_size(size), fonts.BOLD)


def _cross(pen: Recorder, w: Window, label: Label, line: float) -> None:
    """The X on the side the board covers."""
    if found := box(label):
        x0, x1, y0, y1 = w.at(found.x0), w.at(found.x1), w.cuts + found.y0, w.cuts + found.y1
        pen.stroke(x0, y0, x1, y1, line)
        pen.stroke(x0, y1, x1, y0, line)


def _foot(pen: Recorder, w: Window, rod: Rod, lane: Lane, count: int) -> None:
    """The lane's own name and why its marks stand where they do, in the widest stretch that no line crosses, as full as
    it goes there."""
    inside = [m.station for m in rod.marks if w.start < m.station < w.end]
    stops = [w.start, *inside, w.end]
    low, high = max(pairwise(stops), key=lambda s: s[1] - s[0])
    lane_text = f"lane {lane.number} of {count}"
    follows = "rod's top end →" if lane.last else f"next lane {lane.number + 1} →"
    walls = rod.of or " ".join(rod.walls)
    notes = "".join(f"  ·  {m.note}" for m in rod.marks if m.note and lane.start <= m.station <= lane.end)
    texts = [
        f"{title(rod)}  ·  {lane_text}  ·  {follows}{notes}",
        f"{title(rod)}  ·  {lane_text}{notes}",
        f"{rod.name} {walls}  ·  {lane.number} of {count}{notes}",
        f"{title(rod)}  ·  {lane_text}  ·  {follows}",
        f"{title(rod)}  ·  {lane_text}",
        f"{rod.name} {walls}  ·  {lane.number} of {count}",
        f"{rod.name[0]} {walls} · {lane.number}",
    ]
    room = high - low - 0.2
    text = next((t for t in texts if width(t, pt(9.5)) <= room), texts[-1])
    write(pen, w.at(low) + 0.1, w.y + 0.045, text, fit(text, pt(9.5), fonts.REGULAR, room))


def _slug(text: str) -> str:
    return "-".join("".join(c if c.isalnum() else " " for c in text.lower()).split())
