"""One opening as it is framed: its rough opening, and the boards that belong to it.

Places along a wall are inches from the left outer corner of its columns, seen from outside; heights are stations.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from layouts.fields import Job
from layouts.fields_openings import OpeningPart
from layouts.lengths import show
from layouts.lumber import Section
from layouts.rows import Key, Layer, Row

SAME = 1e-6

SNUG = 1 / 16  # a column this near to the rough opening is its jamb
PACKING = 6.0  # inches: packing on a column is a jamb up to this, more is a wall (common practice, no source)
HEADROOM = 12.0  # inches over an overhead door, for its track and spring (common practice, no source)
WIDER = {"overhead": 3.0, "sliding": 0.0, "walk": 2.0, "window": 0.5}
HIGHER = {"overhead": 1.5, "sliding": 0.0, "walk": 2.0, "window": 0.5}
WIDER_MM = {"overhead": 75 / 25.4, "sliding": 0.0, "walk": 50 / 25.4, "window": 12 / 25.4}
HIGHER_MM = {"overhead": 38 / 25.4, "sliding": 0.0, "walk": 50 / 25.4, "window": 12 / 25.4}

Stretch = tuple[float, float]
Packing = tuple[tuple[str, float], ...]


class Side(Struct, frozen=True):
    """One side of an opening: the *edge* of the rough opening, the *column* (its number in the wall), its *face* and
    the *end* of a board that is nailed to it. *room* is from the edge to the face; *post* where a jamb post stands."""

    name: str
    edge: float
    column: int
    face: float
    end: float
    post: Stretch | None

    @property
    def room(self) -> float:
        """From the rough opening to the column."""
        return abs(self.edge - self.face)

    @property
    def outer(self) -> float:
        """The far side of its jamb post; the column where that is the jamb, with its packing."""
        if self.post is None:
            return self.face
        return self.post[0] if self.name == "left" else self.post[1]


class Level(Struct, frozen=True):
    """A board that lies level: header, sill or track board. *low*, *high* stations, *start*, *end* along the wall;
    *layer* is that of the girts it lies with, *outside* says that it lies before them (a track board); *columns* are
    those that it is nailed to and marked on."""

    key: Key
    name: str
    section: Section
    low: float
    high: float
    start: float
    end: float
    outside: bool = False
    layer: Layer = "outside"
    columns: tuple[str, ...] = ()


class Upright(Struct, frozen=True):
    """A board that stands: its stretch along the wall and its stations; *tops* are its stations at the left and the
    right edge where it ends under a slope. *layer*: behind the girts, among them, or inside."""

    name: str
    section: Section
    left: float
    right: float
    low: float
    tops: Stretch
    treated: bool = False
    layer: str = "behind"
    mark: str = ""

    @property
    def short(self) -> float:
        """Its short edge, inches."""
        return min(self.tops) - self.low

    @property
    def high(self) -> float:
        """Its long edge's top."""
        return max(self.tops)

    @property
    def length(self) -> float:
        """Its long edge, inches."""
        return self.high - self.low


class Opening(Struct, frozen=True):
    """One opening. *left*, *right*, *low*, *high*: the rough opening; *framed* its stretch with its jamb posts;
    *columns* to either side; *bearing* the station that trusses sit at over it; *notes* for the wall's sheet;
    *packing* on its columns by their side, seen from outside."""

    part: OpeningPart
    wall: str
    left: float
    right: float
    low: float
    high: float
    framed: Stretch
    columns: tuple[str, str]
    bearing: float
    header: Level
    sill: Level | None
    track: Level | None
    uprights: tuple[Upright, ...]
    notes: tuple[str, ...]
    packing: Packing

    @property
    def name(self) -> str:
        """What it is called."""
        return self.part.name

    @property
    def through(self) -> bool:
        """Whether boards run through it and are cut out when the wall stands."""
        return self.part.girts == "through"

    @property
    def levels(self) -> tuple[Level, ...]:
        """Its header and its sill: what lies with the girts."""
        return (self.header, self.sill) if self.sill else (self.header,)

    def gap(self, row: Row) -> Stretch | None:
        """The stretch where *row* has no board because of this opening: all of the header's where the row would lie in
        a header or a sill, else the rough opening; ``None`` where the row passes. Boards that lie between the columns
        stop at the jamb posts, which stand there too."""
        edges = self.framed if row.layer == "between" else (self.left, self.right)
        for board in self.levels:
            if board.layer == row.layer and _meet(row, board.low, board.high):
                return edges if row.layer == "between" else (board.start, board.end)
        return edges if not self.through and _meet(row, self.low, self.high) else None


def _meet(row: Row, low: float, high: float) -> bool:
    return row.low < high - SAME and row.high > low + SAME


def rough(job: Job, part: OpeningPart) -> tuple[float, float]:
    """Width and height of the rough opening of *part*."""
    metric = job.style.unit == "mm"
    wider = part.wider if part.wider is not None else (WIDER_MM if metric else WIDER)[part.kind]
    higher = part.higher if part.higher is not None else (HIGHER_MM if metric else HIGHER)[part.kind]
    return part.width + wider, part.height + higher


def packing_of(part: OpeningPart, sides: tuple[Side, Side]) -> Packing:
    """What columns that are jambs are packed out by: side and inches, where that is anything at all."""
    return tuple((side.name, side.room) for side in sides if part.jambs == "columns" and side.room > SNUG)


def notes_of(job: Job, part: OpeningPart, packing: Packing, bearing: float, high: float) -> tuple[str, ...]:
    """What to see to at an opening: *packing* on columns that are its jambs; how far its rough opening's top, at
    *high*, is under the *bearing* of an overhead door, or over it in a gable. Stations, inches."""
    room = bearing - high
    notes = [f"{part.name}: pack the column on its {side} out by {show(room, job.style)}." for side, room in packing]
    if room < -SAME:
        notes.append(across(job, part.name, bearing, high))
    elif part.kind == "overhead" and room < HEADROOM - SAME:
        notes.append(f"{part.name}: only {show(room, job.style)} from its top to the bearing. Ask what the door needs.")
    return tuple(notes)


def across(job: Job, name: str, bearing: float, high: float) -> str:
    """That an endwall's truss stands in an opening up to *high*, which is over the *bearing*; stations, inches."""
    heights = f"the bearing is at {show(bearing, job.style)}, its rough opening's top at {show(high, job.style)}"
    said = f"{name}: the truss of the endwall stands across it from its bearing up; {heights}."
    return f"{said} Ask who designs it; do not cut the truss."


def lies_on(job: Job, opening: Opening, rows: Sequence[Row]) -> tuple[str, ...]:
    """What the track board of a sliding door lies on: its header and the girts where they are on the columns, else the
    columns; and how far it runs past the header where no row of *rows* is behind it (common practice, no source)."""
    track, header = opening.track, opening.header
    if track is None:
        return ()
    lies = f"{opening.name}: the track board lies on the outside of"
    if header.layer == "inside":
        return (f"{lies} the columns.",)
    said = f"{lies} its header and {'of the girts' if header.layer == 'outside' else 'the columns'}."
    past = max(header.start - track.start, track.end - header.end)
    if past <= SNUG or any(row.layer == header.layer and _meet(row, track.low, track.high) for row in rows):
        return (said,)
    bare = f"It runs {show(past, job.style)} past its header, where no girt is behind it"
    if header.layer == "between":
        return (f"{said} {bare}: put backing between the columns there. Ask what the door needs.",)
    out = show(header.section.thick, job.style)
    return (f"{said} {bare}: put backing there, {out} out from the columns. Ask what the door needs.",)
