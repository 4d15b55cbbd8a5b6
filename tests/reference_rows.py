"""The second opinion on rows: where grade boards, nailers and girts stand on each wall, and how long each row is.

From the geometry page ("Rows of girts", "building line", "gable girts") and the README's fields girts, wainscot, grade
and corners; units and signs as in `reference`. A row's length is that of its pieces together, each at its longer edge.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from reference import Board, Given, Plan, Roof, height, kink, lifted
from reference_roof import soffits

ZERO = Fraction(0)


@dataclass(frozen=True)
class Row:
    """A row of boards: its edges above the grade line, and where it is nailed."""

    low: Fraction
    high: Fraction
    layer: str
    kind: str


def girt_height(job: Given) -> Fraction:
    """Girts between the columns lie; all others stand flat against them (README girts.place)."""
    board: Board = job["girts.board"]
    return board.thick if job["girts.place"] == "between" else board.wide


def main_layer(job: Given) -> str:
    """Where the rows of girts are."""
    return "outside" if job["girts.place"] == "both" else str(job["girts.place"])


def nailer_layer(job: Given) -> str:
    """Nailers are outside unless the girts lie between the columns."""
    return "between" if job["girts.place"] == "between" else "outside"


def by_edge(job: Given, edge: Fraction, tall: Fraction, layer: str, kind: str = "girt") -> Row:
    """A row by its marked edge (README girts.edge)."""
    low = edge if job["girts.edge"] == "bottom" else edge - tall
    return Row(low, low + tall, layer, kind)


def edge_of(job: Given, row: Row) -> Fraction:
    """The marked edge of a row."""
    return row.low if job["girts.edge"] == "bottom" else row.high


def lowest(job: Given) -> list[Row]:
    """Grade boards, the lowest on the grade line, and the wainscot nailer by its bottom edge."""
    tall = job["grade.board"].wide
    rows = [Row(i * tall, (i + 1) * tall, "outside", "grade") for i in range(job["grade.boards"])]
    if "wainscot.nailer" in job:
        low = job["wainscot.height"] + (job["grade.floor"] if job["truss.heights_from"] == "floor" else 0)
        rows.append(Row(low, low + job["wainscot.nailer"].wide, nailer_layer(job), "wainscot"))
    return rows


def first_edge(job: Given) -> Fraction:
    """What steps are counted from: the wainscot nailer, or a girt flush with the grade board's top."""
    last = lowest(job)[-1]
    if last.kind == "wainscot":
        return edge_of(job, last)
    return edge_of(job, Row(last.high - girt_height(job), last.high, "", ""))


def top_rows(job: Given, plan: Plan, roof: Roof) -> list[Row]:
    """The highest row of each sidewall: its soffit nailer, else flush with the bearing, or as given.

    The wall under the high side of a roof of one slope goes up to the chord, where its columns do; inside, trusses
    are in the way.
    """
    nailers = soffits(job, plan, roof)
    rows = []
    for far in (0, 1) if roof.two else (0,):
        if nailers and job["girts.place"] != "inside":
            tall = job["roof.soffit_nailer"].wide
            rows.append(Row(nailers[far] - tall, nailers[far], nailer_layer(job), "soffit"))
            continue
        high = roof.bearings[far]
        if far and job["roof.shape"] == "mono-slope" and job["tops.seat"] != "flat" and main_layer(job) != "inside":
            high = roof.chord[0].at(plan.across)
        high = job.get("girts.top", high)
        rows.append(Row(high - girt_height(job), high, main_layer(job), "girt"))
    return rows


def steps(job: Given, last: Fraction) -> tuple[Fraction, list[Fraction]]:
    """The step, and the marked edges between first and *last* (geometry page: n = ceil(D / max), a tolerance)."""
    first, most = first_edge(job), job["girts.step"]
    if job["girts.spacing"] == "equal":
        count = max(1, ceil((last - first - job["girts.tolerance"]) / most))
        step = (last - first) / count
        return step, [first + k * step for k in range(1, count)]
    return most, [first + k * most for k in range(1, ceil((last - first) / most))]


def rows_of(job: Given, plan: Plan, roof: Roof) -> tuple[list[list[Row]], list[Row]]:
    """The main rows of the sidewalls, and of the endwalls: there the same spacing goes on up the gable.

    The lower wall's spacing is everybody's; the highest row of a wall has its place. No two boards lap, and under the
    highest row of the higher wall an inch is left.
    """
    tops = top_rows(job, plan, roof)
    low = min(tops, key=lambda row: edge_of(job, row))
    tall, layer = girt_height(job), main_layer(job)
    last = edge_of(job, low)
    step, found = steps(job, last)
    girts = [row for row in (by_edge(job, e, tall, layer) for e in found) if row.high <= low.low]
    peak = max(height(roof.chord, u) for u in (ZERO, plan.across, kink(roof.chord) or ZERO)) - job["truss.endwall_drop"]
    k = 0
    while True:
        row = by_edge(job, last + k * step, tall, layer)
        if row.high >= peak:
            break
        girts.append(row)
        k += 1
    below = lowest(job)
    inch = Fraction("25.4") if job.get("job.units") == "metric" else 1
    sides = [
        [*below, *(r for r in girts if r.high <= top.low - (inch if edge_of(job, top) > last else 0)), top]
        for top in tops
    ]
    if job["girts.place"] == "inside":
        for side, nailer in zip(sides, soffits(job, plan, roof), strict=False):
            side.append(Row(nailer - job["roof.soffit_nailer"].wide, nailer, "outside", "soffit"))
    return sides, [*below, *girts]


def inner(job: Given, bearing: Fraction, outer: list[Row]) -> list[Row]:
    """Rows inside as well, a liner's nailers (README girts.place, girts.inside): by the edges of the rows outside.

    They end at the bearing: a row flush with it where the next one would stand over it, and there is room.
    """
    if job["girts.place"] != "both":
        return []
    tall = job["girts.inside"].wide
    rows = [by_edge(job, edge_of(job, row), tall, "inside") for row in outer if row.kind in ("girt", "soffit")]
    found = [row for row in rows if row.high <= bearing]
    if len(found) < len(rows) and (not found or found[-1].high <= bearing - tall):
        found.append(Row(bearing - tall, bearing, "inside", "girt"))
    return found


def past(job: Given, row: Row, end: bool) -> Fraction:
    """How far a row outside runs past the corner columns, to cover the end of what meets it: the grade board and the
    wainscot nailer that of the other wall's, all above that of girts where they are outside."""
    if row.kind == "grade":
        runs, over = job["girts.grade_board_runs_past"], job["grade.board"]
    else:
        runs = job["girts.runs_past"]
        nailer = {"wainscot": "wainscot.nailer", "soffit": "roof.soffit_nailer"}.get(row.kind, "girts.board")
        over = job[nailer if job["girts.place"] == "inside" or row.kind == "wainscot" else "girts.board"]
    thick: Fraction = over.thick
    return thick if (runs == "end") == end else ZERO


def clear(job: Given, plan: Plan, centres: tuple[Fraction, ...], end: bool) -> Iterator[tuple[Fraction, Fraction]]:
    """The bays of a wall, less what girts between the columns are cut shorter by, half at either end."""
    corner = job["column.depth"] if end else job["column.width"]
    wide = job[f"column.{job['column.endwall_face']}"] if end else job["column.width"]
    whole, gap = (plan.across if end else plan.along), job["girts.gap"] / 2
    posts = [(ZERO, corner), *((c - wide / 2, c + wide / 2) for c in centres)]
    if not (end and job["roof.shape"] == "lean-to"):
        posts.append((whole - corner, whole))
    for (_, left), (right, _) in pairwise(posts):
        yield left + gap, right - gap


def spans(job: Given, plan: Plan, row: Row, wall: str) -> Iterator[tuple[Fraction, Fraction]]:
    """From where to where boards of a row run, before a gable's slope."""
    end = wall in ("front", "back")
    whole = plan.across if end else plan.along
    lean = end and job["roof.shape"] == "lean-to"
    if row.layer == "between":
        yield from clear(job, plan, plan.side if not end else plan.ends[wall == "back"], end)
    elif row.layer == "inside":
        board: Board = job["girts.inside"] if job["girts.place"] == "both" else job["girts.board"]
        stops = (job["girts.runs_past"] == "side") == end
        other = "depth" if job["column.endwall_face"] == "width" else "width"
        face = job["column.depth"] if end else job[f"column.{other}"]
        cut = face + board.thick if stops else face if end else ZERO
        yield cut, whole - cut
    else:
        over = past(job, row, end)
        yield -over, whole + (ZERO if lean else over)


def slopes(job: Given, roof: Roof, at: Fraction) -> tuple[Fraction | None, Fraction | None]:
    """Where a level line meets the top of the endwall truss's chord, on either side."""
    low, high = None, None
    for plane in lifted(roof.chord, lambda m: -job["truss.endwall_drop"]):
        met = (at - plane.height) / plane.slope
        low, high = (met, high) if plane.slope > 0 else (low, met)
    return low, high


def clipped(span: tuple[Fraction, Fraction], ends: tuple[Fraction | None, Fraction | None]) -> Fraction:
    """How much of a span lies between two ends."""
    low = span[0] if ends[0] is None else max(span[0], ends[0])
    high = span[1] if ends[1] is None else min(span[1], ends[1])
    return max(ZERO, high - low)


def lengths(job: Given, plan: Plan, roof: Roof, row: Row, wall: str) -> tuple[Fraction, Fraction]:
    """All pieces of a row together, along their bottom and their top edges; a scrap without a top edge is no piece."""
    found = list(spans(job, plan, row, wall))
    if wall not in ("front", "back"):
        return (sum((b - a for a, b in found), ZERO),) * 2
    low, high = slopes(job, roof, row.low), slopes(job, roof, row.high)
    pieces = [(clipped(span, low), top) for span in found if (top := clipped(span, high))]
    return sum((p[0] for p in pieces), ZERO), sum((p[1] for p in pieces), ZERO)


def walls(job: Given, plan: Plan, roof: Roof) -> dict[str, list[tuple[Row, Fraction, Fraction]]]:
    """Every row of every wall with the lengths of its pieces together, at their bottom and top edges."""
    sides, gable = rows_of(job, plan, roof)
    found = {}
    for name, side, bearing in zip(("left", "right"), sides, roof.bearings, strict=False):
        found[name] = side + inner(job, bearing, side)
    found["front"] = found["back"] = gable + inner(job, min(roof.bearings), gable)
    out = {}
    for wall, rows in found.items():
        long = [(row, *lengths(job, plan, roof, row, wall)) for row in rows]
        out[wall] = [each for each in long if each[1] > 0]
    return out
