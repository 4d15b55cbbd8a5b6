"""Rod strips as they are in the files, held against the layout's numbers as a man with a tape would: a lane is laid by
the tape number beside its line, and every mark has to stand at its station then.

Which words are tape numbers and which lines belong to a mark is told by the names of the groups; what they say and
where they stand is taken from the file.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from layouts.building import Building
from layouts.lengths import Style
from layouts.rods import Mark, Rod
from sheets.audit_model import NEAR, Difference, Numbers, Seen, Span, Word, shown, upright

MM = 25.4
BESIDE = 0.2  # inches: a set line is no further from its number
CLOSE = 0.1  # inches: an X begins no further from the line that it belongs to
_LANE = re.compile(r".*-lane-[0-9]+")


class _Lane(Struct, frozen=True):
    """A lane as its numbers set it: on the page *seen*, its left line at *x* where the tape reads *start*, its right
    one at *x_end* where it reads *end* (``None`` both where that number is missing). *layered* if its words are a layer
    of their own: a mark then finds its words among those of the whole lane."""

    seen: Seen
    span: Span
    start: float
    x: float
    end: float | None
    x_end: float | None
    layered: bool = False

    def at(self, station: float) -> float:
        """Where a station belongs on the page."""
        return self.x + station - self.start

    def reads(self, x: float) -> float:
        """What the tape reads at *x*."""
        return x - self.x + self.start


class _Found(Struct):
    """The group of a mark: its lane, its lines, its words and its Xs, each from its left to its right."""

    lane: _Lane
    name: str
    lines: list[float]
    words: list[str]
    crosses: list[tuple[float, float]]


def check(pages: Sequence[Seen], building: Building, name: str) -> list[Difference]:
    """Differences between the rods on *pages*, in printing order, and those of *building*; *name* is the file's."""
    told: list[Difference] = []
    lanes = list(_lanes(pages, building.job.style, told))
    if told:
        return told  # the rest of a rod is held by lanes that are set
    starts = [i for i, lane in enumerate(lanes) if lane.start == 0.0]
    if len(starts) != len(building.rods) or starts[:1] != [0]:
        found = f"{len(starts)} lanes that begin at 0"
        return [Difference(name, "rods", f"{len(building.rods)} rods from 0 up", found)]
    for rod, (low, high) in zip(building.rods, pairwise([*starts, len(lanes)]), strict=True):
        told += _rod(rod, lanes[low:high], building.job.style)
    return told


def whole(page: Seen, rod: Rod, style: Style) -> list[Difference]:
    """The same for a rod in one piece, its lines and its words in layers of their own."""
    span = Span(rod.name, "", (0, len(page.strokes)), (0, len(page.outlines)), (0, len(page.runs)))
    lane = _lane(page, span, style)
    if isinstance(lane, Difference):
        return [lane]
    if lane.start != 0.0:
        return [Difference(page.label, rod.name, "one lane from 0 up", f"a lane from {lane.start:g} to {lane.end}")]
    return _rod(rod, [replace(lane, layered=True)], style)


# --- lanes -----------------------------------------------------------------------------------------------------------


def _lanes(pages: Sequence[Seen], style: Style, told: list[Difference]) -> Iterator[_Lane]:
    for seen in pages:
        for span in seen.spans():
            if _LANE.fullmatch(span.name):
                lane = _lane(seen, span, style)
                if isinstance(lane, Difference):
                    told.append(lane)
                else:
                    yield lane


def _lane(seen: Seen, span: Span, style: Style) -> _Lane | Difference:
    """A lane by its one or two tape numbers."""
    ends: list[tuple[float, float]] = []
    numbers = [seen.words_in(part)[:1] for part in seen.spans(span) if part.name == "tape-number"]
    words = sorted((word for found in numbers for word in found), key=lambda w: w.x)
    for word, left in zip(words, (True, False), strict=False):
        if not re.fullmatch("[0-9]+", word.text):
            return Difference(seen.label, span.name, "a whole tape number", repr(word.text))
        x = _set_line(seen, span, word, left)
        if x is None:
            return Difference(seen.label, span.name, f"a set line beside the tape number {word.text}", "none")
        ends.append((int(word.text) / (MM if style.unit == "mm" else 1.0), x))
    if not ends or len(words) > 2:
        return Difference(seen.label, span.name, "one or two tape numbers", str(len(words)))
    end, x_end = ends[1] if len(ends) == 2 else (None, None)
    return _Lane(seen, span, *ends[0], end, x_end)


def _set_line(seen: Seen, span: Span, word: Word, left: bool) -> float | None:
    """The nearest line that crosses the height of a number's figures, on its *left* or its right."""
    middle = word.y + word.size * 0.3
    crossing = [s[0] for s in seen.strokes_in(span) if upright(s) and min(s[1], s[3]) < middle < max(s[1], s[3])]
    if left:
        return max((x for x in crossing if word.x - BESIDE < x <= word.x + NEAR), default=None)
    end = word.x + word.wide
    return min((x for x in crossing if end - 0.1 * word.size <= x < end + BESIDE), default=None)


def _rod(rod: Rod, lanes: Sequence[_Lane], style: Style) -> list[Difference]:
    told: list[Difference] = []
    for lane, after in pairwise(lanes):
        if lane.end != after.start:
            want = f"{_tape(after.start, style)} as on the lane that follows"
            found = "none" if lane.end is None else _tape(lane.end, style)
            told.append(Difference(lane.seen.label, f"{lane.span.name}, tape number at its end", want, found))
    last = lanes[-1]
    if last.end is None or abs(last.end - rod.length) > NEAR:
        found = "none" if last.end is None else _tape(last.end, style)
        place = f"{last.span.name}, tape number at its end"
        told.append(Difference(last.seen.label, place, _tape(rod.length, style), found))
    for lane in lanes:
        if lane.end is not None and lane.x_end is not None and abs(lane.reads(lane.x_end) - lane.end) > NEAR:
            place = f"{lane.span.name}, set line at its end"
            told.append(Difference(lane.seen.label, place, _on(lane.end), _on(lane.reads(lane.x_end))))
        told += _ticks(lane, rod, style)
        told += _footprints(lane, rod)
    return told + _marks(rod, lanes, style)


def _tape(place: float, style: Style) -> str:
    return str(round(place * MM)) if style.unit == "mm" else f"{place:g}"


def _on(place: float) -> str:
    return f"at {place:.4f} in on the tape"


# --- what stands on a lane -------------------------------------------------------------------------------------------


def _marks(rod: Rod, lanes: Sequence[_Lane], style: Style) -> list[Difference]:
    """Every mark of the rod on exactly one lane, its words the layout's and its lines at its station."""
    left = [found for lane in lanes for found in _found(lane)]
    told: list[Difference] = []
    sheet = lanes[0].seen.label
    for mark in rod.marks:
        known = [f for f in left if _says(f.words, mark, style)]
        if not known:
            want = f"{mark.name.upper()} {mark.board or mark.where} at {shown(mark.station, style)} on a lane"
            told.append(Difference(sheet, f"{rod.name}, {mark.name}", want, _likely(left, mark)))
            continue
        best = min(known, key=lambda f: _off(mark, f))
        left.remove(best)
        told += _lines(rod, mark, best)
    for extra in left:
        found = " ".join(extra.words)
        told.append(Difference(extra.lane.seen.label, extra.name, "one mark of the layout, on one lane", found))
    return told


def _off(mark: Mark, found: _Found) -> tuple[float, bool]:
    """How little a group is a mark's: how far off its line is, and of two on one line the one whose X is not its."""
    away = abs(found.lane.at(mark.station) - (found.lines or [0.0])[0])
    return round(away, 6), any(True for _ in _sides(mark, found, ""))


def _found(lane: _Lane) -> Iterator[_Found]:
    seen = lane.seen
    layer = [word.text for word in seen.words_in(lane.span)] if lane.layered else None
    for span in seen.spans(lane.span):
        if "-mark-" in span.name:
            strokes = seen.strokes_in(span)
            lines = [s[0] for s in strokes if upright(s)]
            own = [word.text for word in seen.words_in(span)] if layer is None else layer
            yield _Found(lane, span.name, lines, own, _crosses(strokes))


def _crosses(strokes: Sequence[Numbers]) -> list[tuple[float, float]]:
    """Where two slanting strokes are the diagonals of one box."""
    boxes = Counter(
        (round(min(x0, x1), 3), round(max(x0, x1), 3), round(min(y0, y1), 3), round(max(y0, y1), 3))
        for x0, y0, x1, y1, *_ in strokes
        if abs(x1 - x0) > NEAR and abs(y1 - y0) > NEAR
    )
    return [box[:2] for box, count in boxes.items() if count == 2]


def _says(words: Sequence[str], mark: Mark, style: Style) -> bool:
    """Whether a mark's words are its station, its name and its board or face, and the columns if not all of them."""
    if shown(mark.station, style) not in words:
        return False
    said = f" {' '.join(words)} ".upper()
    parts = (part for part in (mark.name, mark.board, mark.where, _only(mark)) if part)
    if not all(f" {part.upper()} " in said for part in parts):
        return False
    # a mark for all columns must not say that it is for some
    name = mark.name.upper()
    return mark.some or any(name in text and " ONLY" not in text for text in map(str.upper, words))


def _only(mark: Mark) -> str:
    """What has to be said of a mark that is for some columns."""
    many = len(mark.only) > 4
    whom = [f"{len(mark.only)} columns" if many else ", ".join(mark.only)] if mark.only else []
    whom += ["jambs"] * mark.jambs
    return ", ".join(whom) + " only" if whom else ""


def _likely(left: Sequence[_Found], mark: Mark) -> str:
    name = f" {mark.name.upper()} "
    named = [" ".join(f.words) for f in left if not f.lane.layered and name in f" {' '.join(f.words)} ".upper()]
    return " or ".join(named) or "no such mark"


def _lines(rod: Rod, mark: Mark, found: _Found) -> Iterator[Difference]:
    lane, place = found.lane, f"{rod.name}, {mark.name}, {found.name}"
    low, high = lane.start - NEAR, rod.length if lane.end is None else lane.end
    if not low <= mark.station <= high:
        yield Difference(lane.seen.label, place, _on(mark.station), f"on the lane from {lane.start:g} to {high:g}")
    if not found.lines:
        yield Difference(lane.seen.label, place, f"a line {_on(mark.station)}", "none")
    for x in found.lines:
        if abs(x - lane.at(mark.station)) > NEAR:
            yield Difference(lane.seen.label, place, f"a line {_on(mark.station)}", _on(lane.reads(x)))
    yield from _sides(mark, found, place)


def _sides(mark: Mark, found: _Found, place: str) -> Iterator[Difference]:
    """A board has one X, close to its line and on the side that the board covers; what is no board has none."""
    lane = found.lane
    line = lane.reads(found.lines[0]) if found.lines else mark.station
    seen = [(lane.reads(low), lane.reads(high)) for low, high in found.crosses]
    told = " and ".join(f"{low:.4f} to {high:.4f} in on the tape" for low, high in seen) or "none"
    if mark.kind != "board":
        if seen:
            yield Difference(lane.seen.label, place, "no X", told)
        return
    up = mark.low + mark.high > 2 * mark.station
    off = [(low - line if up else line - high) for low, high in seen]
    if len(off) != 1 or not -NEAR < off[0] < CLOSE:
        side = "past" if up else "short of"
        yield Difference(lane.seen.label, place, f"one X just {side} {line:.4f} in on the tape", told)


def _footprints(lane: _Lane, rod: Rod) -> Iterator[Difference]:
    """Both edges of every board have a line or a corner where the lane shows them."""
    edges = lane.seen.edges_in(lane.span)
    end = rod.length if lane.end is None else lane.end
    for mark in rod.marks:
        for edge in {mark.low, mark.high} if mark.kind == "board" else ():
            if lane.start <= edge < end and not any(abs(x - lane.at(edge)) <= NEAR for x in edges):
                nearest = min(edges, key=lambda x: abs(x - lane.at(edge)), default=0.0)
                place = f"{rod.name}, {mark.name}, edge of the board"
                yield Difference(lane.seen.label, place, _on(edge), _on(lane.reads(nearest)))


def _ticks(lane: _Lane, rod: Rod, style: Style) -> Iterator[Difference]:
    """The small tape numbers between: each over its own tick."""
    named = [part.runs for part in lane.seen.spans(lane.span)]
    strokes = [s[0] for s in lane.seen.strokes_in(lane.span) if upright(s)]
    for index in range(*lane.span.runs):
        run = lane.seen.runs[index]
        if run is None or any(a <= index < b for a, b in named) or not re.fullmatch("[0-9]+", run.words.strip()):
            continue
        at = lane.at(int(run.words) / (MM if style.unit == "mm" else 1.0))
        if not run.x < at < run.x + run.wide + NEAR or not any(abs(x - at) <= NEAR for x in strokes):
            place = f"{lane.span.name}, tape number {run.words.strip()}"
            yield Difference(
                lane.seen.label, place, f"over its tick at {at:.4f} in", f"at {run.x + run.wide / 2:.4f} in"
            )
