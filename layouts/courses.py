"""Rows of a wall cut into boards: where each ends at a corner, a slope or an opening, and where its pieces meet."""

from __future__ import annotations

import itertools
import math

from msgspec import Struct
from msgspec.structs import replace

from layouts import joints
from layouts.boards import Course, Piece, Stand
from layouts.fields import Job
from layouts.openings import Level, Opening
from layouts.roof import Surface
from layouts.rows import Row

SAME = 1e-6


class Span(Struct, frozen=True):
    """A row before it is cut into pieces: where it begins and ends at its *low* and its *high* edge, inches along the
    wall, and how much of its width each end is cut over (*rise*)."""

    row: Row
    low: tuple[float, float]
    high: tuple[float, float]
    rise: tuple[float, float]


def span_of(row: Row, past: float, length: float, limit: Surface | None) -> Span | None:
    """Where a row begins and ends at its bottom and top edge; ``None`` where the slope leaves nothing of it."""
    start, end = -past, length + past
    if limit is None:
        return Span(row, (start, end), (start, end), (row.high - row.low, row.high - row.low))
    low, high = limit.under(row.low, start, end), limit.under(row.high, start, end)
    if low is None or high is None:
        return None
    # a board that meets the slope only with its upper corner is cut over part of its width
    tall = row.high - row.low
    left = row.high - max(row.low, limit.over(start)) if high[0] > start + SAME else tall
    right = row.high - max(row.low, limit.over(end)) if high[1] < end - SAME else tall
    return Span(row, low, high, (left, right))


def cut_rows(
    job: Job, stands: tuple[Stand, ...], spans: list[Span], openings: tuple[Opening, ...]
) -> tuple[tuple[Course, ...], tuple[str, ...]]:
    """Every row cut into pieces that meet on columns and end at openings, neighbours staggered; and the names of the
    columns on which two neighbours both break.

    Raises ``joints.NoJoint`` where a bay is longer than the longest board."""
    centres = tuple(s.centre for s in stands[1:-1])  # a corner column carries ends, no joints
    # a joint needs the board's full width: none in the sloped end of a gable girt
    between = tuple(Course(s.row, _bays(job, stands, s, openings)) for s in spans if s.row.layer == "between")
    opened = [made for s in spans if s.row.layer != "between" and (made := _opened(s, stands, openings))]
    rows = [
        joints.Row(*s.low, tuple(c for c in centres if s.high[0] < c < s.high[1]), _stock(job, s.row), gaps)
        for s, gaps in opened
    ]
    found = joints.stagger(rows)
    courses = tuple(Course(s.row, _pieces(s, f, gaps)) for (s, gaps), f in zip(opened, found, strict=True))
    both = sorted((*courses, *(c for c in between if c.pieces)), key=lambda c: c.row.low)
    return tuple(both), _shared(stands, found)


def level_course(job: Job, stands: tuple[Stand, ...], level: Level, past: float) -> Course:
    """A header, sill or track board; it ends like the girts it lies with: at a corner past the column, between columns
    short of them. Raises ``joints.NoJoint``."""
    start, end = level.start, level.end
    if level.layer == "between":
        start, end = start + job.girts.gap / 2, end - job.girts.gap / 2
    elif not level.outside:
        start -= past if start <= stands[0].left + SAME else 0.0
        end += past if end >= stands[-1].right - SAME else 0.0
    row = Row(level.key, level.name, level.section, level.low, level.high, layer=level.layer)
    ends = Span(row, (start, end), (start, end), (level.section.wide, level.section.wide))
    centres = tuple(s.centre for s in stands)
    breaks = joints.split(joints.Row(start, end, centres, job.boards(level.section.name)))
    return Course(row, _pieces(ends, breaks, ()))


def _bays(job: Job, stands: tuple[Stand, ...], span: Span, openings: tuple[Opening, ...]) -> tuple[Piece, ...]:
    """The pieces of a row that lies between the columns: one a bay, less where an opening stands, each shorter than
    its place by the gap."""
    gaps = sorted(gap for o in openings if (gap := o.gap(span.row)))
    found = []
    for left, right in itertools.pairwise(stands):
        edges = sorted([left.right, *(at for gap in gaps for at in gap if left.right < at < right.left), right.left])
        for a, b in itertools.pairwise(edges):
            if any(start <= (a + b) / 2 <= end for start, end in gaps):
                continue
            piece = _in_bay(span, a + job.girts.gap / 2, b - job.girts.gap / 2)
            if piece:
                found.append(piece)
    longest = max(_stock(job, span.row))
    for piece in found:
        if piece.length > longest + SAME:
            raise joints.NoJoint(piece.low[0], piece.low[1], longest)
    return tuple(found)


def _in_bay(span: Span, a: float, b: float) -> Piece | None:
    """The part of a row from *a* to *b*; none where the slope leaves no upper edge."""
    low = max(a, span.low[0]), min(b, span.low[1])
    high = max(a, span.high[0]), min(b, span.high[1])
    if high[1] - high[0] <= SAME:
        return None
    # of a slope that begins beside a column only a part is in the bay, and as much of its rise
    rises = [
        span.rise[i] * (high[i] - low[i]) / (span.high[i] - span.low[i]) if low[i] != high[i] else 0.0 for i in (0, 1)
    ]
    return Piece("", span.row, low, high, *rises)


def _opened(
    span: Span, stands: tuple[Stand, ...], openings: tuple[Opening, ...]
) -> tuple[Span, tuple[tuple[float, float], ...]] | None:
    """What openings leave of a row: its ends, and the gaps between them, left to right; ``None`` where that is
    nothing."""
    gaps: list[tuple[float, float]] = []
    for start, end in sorted(gap for o in openings if (gap := o.gap(span.row))):
        # a header at a corner goes past it, as the row would
        start = -math.inf if start <= stands[0].left + SAME else start
        end = math.inf if end >= stands[-1].right - SAME else end
        if gaps and start <= gaps[-1][1] + SAME:
            before = gaps.pop()
            start, end = before[0], max(before[1], end)
        gaps.append((start, end))
    wide = span.row.high - span.row.low
    while gaps and gaps[0][0] <= span.high[0] + SAME:
        at = gaps.pop(0)[1]
        low, high = max(at, span.low[0]), max(at, span.high[0])
        # an opening in the sloped end leaves the rest of the slope
        rise = span.rise[0] * (high - low) / (span.high[0] - span.low[0]) if high > at else wide
        span = replace(span, low=(low, span.low[1]), high=(high, span.high[1]), rise=(rise, span.rise[1]))
    while gaps and gaps[-1][1] >= span.high[1] - SAME:
        at = gaps.pop()[0]
        low, high = min(at, span.low[1]), min(at, span.high[1])
        rise = span.rise[1] * (high - low) / (span.high[1] - span.low[1]) if high < at else wide
        span = replace(span, low=(span.low[0], low), high=(span.high[0], high), rise=(span.rise[0], rise))
    return (span, tuple(gaps)) if span.high[1] - span.high[0] > SAME else None


def _shared(stands: tuple[Stand, ...], found: tuple[tuple[float, ...], ...]) -> tuple[str, ...]:
    """Columns on which two neighbouring rows both break, left to right."""
    twice = {place for first, second in itertools.pairwise(found) for place in first if place in second}
    return tuple(s.name for s in stands if s.centre in twice)


def _pieces(span: Span, breaks: tuple[float, ...], gaps: tuple[tuple[float, float], ...]) -> tuple[Piece, ...]:
    """The boards between a row's ends, its *breaks* and its *gaps*."""
    cuts = sorted([*((b, b) for b in breaks), *gaps])
    lows = list(zip((span.low[0], *(b for _, b in cuts)), (*(a for a, _ in cuts), span.low[1]), strict=True))
    highs = list(zip((span.high[0], *(b for _, b in cuts)), (*(a for a, _ in cuts), span.high[1]), strict=True))
    last = len(lows) - 1
    return tuple(
        Piece("", span.row, low, high, span.rise[0] if i == 0 else 0.0, span.rise[1] if i == last else 0.0)
        for i, (low, high) in enumerate(zip(lows, highs, strict=True))
    )


def _stock(job: Job, row: Row) -> tuple[float, ...]:
    """The lengths that a row's boards can have at most."""
    return job.boards(row.section.name, row.treated)
