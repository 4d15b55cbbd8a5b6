"""Drawings outside the pages: every lane and every tag alone, and a whole rod in layers for a cutter or plotter."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator

from layouts.building import Building
from sheets import rod, tag
from sheets.paper import Paper
from sheets.shapes import HAIR, Drawing, Group, Line, Polygon, Recorder, Shape, Text, flat
from sheets.strip import HEIGHT, LEAD, TAIL, draw_lane, title

_PLAIN = re.compile(r"[^A-Za-z0-9_]+")


def drawings(building: Building, paper: Paper, kinds: Collection[str]) -> Iterator[tuple[str, Drawing, str]]:
    """Lanes and tags of *building*, each true to size on a drawing of its own: file name without ending, drawing,
    title. Lanes are those of the pages of *paper*; only what belongs to *kinds* of sheets."""
    job = building.job.job.name
    if "rods" in kinds:
        for number, laid in enumerate(rod.lay_all(building, paper), 1):
            for lane in laid.lanes:
                pen = Recorder(lane.end - lane.start + (0.0 if lane.last else TAIL) + 2 * LEAD, HEIGHT + 2 * LEAD)
                count = len(laid.lanes)
                draw_lane(pen, LEAD, LEAD, laid.rod, lane, count, laid.labels, building.job.style)
                name = f"{job}: {title(laid.rod)}, lane {lane.number} of {count}"
                yield f"lane-{number}-{lane.number:02d}", pen.drawing(), name
    if "tags" in kinds:
        names = file_names(column.name for column in building.columns)
        for name, column in zip(names, building.columns, strict=True):
            yield f"tag-{name}", tag.tag(building, column)[0], f"{job}: Tag {column.name}"


def file_names(names: Iterable[str]) -> list[str]:
    """For each of *names*, which the user chose, what every file system takes: plain letters, digits and hyphens, and
    no two alike, capital or not."""
    found: list[str] = []
    taken: set[str] = set()
    for name in names:
        stem = plain = _PLAIN.sub("-", name).strip("-") or "x"
        count = 1
        while plain.lower() in taken:
            count += 1
            plain = f"{stem}-{count}"
        taken.add(plain.lower())
        found.append(plain)
    return found


# --- layers ---------------------------------------------------------------------------------------------------------


def layered(drawing: Drawing) -> Drawing:
    """A lane or rod for a machine that follows lines: all strokes hairlines, in the layers ``cut-lines`` (its outline),
    ``marks`` and ``words``, each to be cut, drawn or left out by itself. Every place stays."""
    lines = [shape for shape in flat(drawing.shapes) if isinstance(shape, Line)]
    ends = {line.y0 for line in lines} | {line.y1 for line in lines}
    low, high = min(ends), max(ends)

    def outline(line: Line) -> bool:
        """Along the lower or upper edge, or across from edge to edge."""
        return line.y0 in (low, high) and line.y1 in (low, high)

    layers = (
        Group("cut-lines", tuple(_hair(line) for line in lines if outline(line))),
        Group("marks", tuple(_marks(drawing.shapes, outline))),
        Group("words", tuple(_words(drawing.shapes))),
    )
    return Drawing(drawing.width, drawing.height, layers)


def _hair(line: Line) -> Line:
    return Line(line.x0, line.y0, line.x1, line.y1, min(line.width, HAIR), line.dash)


def _marks(shapes: Iterable[Shape], outline: Callable[[Line], bool]) -> Iterator[Shape]:
    """What is neither outline nor words, in its groups."""
    for shape in shapes:
        if isinstance(shape, Line):
            if not outline(shape):
                yield _hair(shape)
        elif isinstance(shape, Polygon):
            yield Polygon(shape.points, shape.grey, min(shape.width, HAIR))
        elif isinstance(shape, Group) and shape.name != "text":
            inner = tuple(_marks(shape.shapes, outline))
            if inner:
                yield Group(shape.name, inner, shape.title)


def _words(shapes: Iterable[Shape]) -> Iterator[Shape]:
    """Words, and the groups that say what they read."""
    for shape in shapes:
        if isinstance(shape, Text) or (isinstance(shape, Group) and shape.name == "text"):
            yield shape
        elif isinstance(shape, Group):
            inner = tuple(_words(shape.shapes))
            if inner and shape.title:
                yield Group(shape.name, inner, shape.title)
            else:
                yield from inner
