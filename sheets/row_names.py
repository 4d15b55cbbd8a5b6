"""The names of a wall's rows, up the left side of its picture."""

from __future__ import annotations

from collections.abc import Collection

import fonts
from layouts.boards import Course, Wall
from layouts.fields import Job
from layouts.lengths import show
from layouts.rods import board_mark
from sheets.lettering import fit, pt, write
from sheets.shapes import HAIR, Recorder
from sheets.view import View, spread

SIZE, GAP = pt(9), 0.15
ASIDE, WIDER = 0.2, 0.55  # from a row's end to its name; where numbers of short boards stand between
SHORT = 36.0  # inches: the number of a shorter board may not go on it
STRAIGHTEST = "straightest"  # which boards go into a row that the eye follows
STAR = "*"  # at a row with boards whose numbers have no room
STARRED = f"rows with {STAR}: all numbers there"


def aside(wall: Wall) -> float:
    """How far the names stand off: beside a door in the first bay short boards have their numbers there."""
    ends = [p for c in wall.courses for p in c.pieces if min(p.low[0], p.high[0]) < wall.stands[0].right]
    return WIDER if any(p.length < SHORT for p in ends) else ASIDE


def row_gap(view: View, wall: Wall) -> float:
    """How far apart the row names stand."""
    return min(GAP, (view.top - view.y0) / max(len(wall.courses) - 1, 1))


def row_text(course: Course, job: Job) -> str:
    """A row and the station of its marked edge; the edge is named where it is not the one of all the others."""
    mark = board_mark(course.row, job)
    odd = "" if mark.edge == job.girts.edge else f" {mark.edge}"
    return f"{course.row.name}{odd}  {show(mark.station, job.style)}"


def row_names(
    pen: Recorder,
    view: View,
    wall: Wall,
    job: Job,
    straight: Collection[Course] = (),
    overleaf: Collection[Course] = (),
) -> None:
    """Row names and stations up the left side. A row that ends far from its name, or whose name had to give way, is
    tied to it by a line that ends at the row. Of *straight* rows the name says that they take the straightest
    boards; those *overleaf* have a star: not all of their numbers stand here."""
    seen = [(c, start) for c in wall.courses if (start := _start(view, c)) is not None]
    wanted = [view.at(0.0, board_mark(c.row, job).station)[1] for c, _ in seen]
    gap = row_gap(view, wall)
    size = min(SIZE, gap * 0.92)
    right = view.at(view.low, 0.0)[0] - aside(wall)
    for (course, start), y, at in zip(seen, spread(wanted, gap, view.y0, view.top), wanted, strict=True):
        text = f"{STRAIGHTEST}: {row_text(course, job)}" if course in straight else row_text(course, job)
        fitted = fit(text, size, fonts.REGULAR, right - view.left)
        taken = write(pen, right, y - fitted * 0.35, text, fitted, align="right")
        if course in overleaf:
            write(pen, right - taken - 0.04, y - fitted * 0.35, STAR, fitted, align="right")
        end = view.at(start, 0.0)[0] - 0.02
        turn = right + ASIDE / 2
        if abs(y - at) > 0.02:
            pen.stroke(right + 0.03, y, turn, at, HAIR)
        if end - right > ASIDE or abs(y - at) > 0.02:
            pen.stroke(turn, at, end, at, HAIR, (0.03, 0.03) if end - turn > ASIDE else ())


def _start(view: View, course: Course) -> float | None:
    """Where a row begins on this page; ``None`` where it has nothing here."""
    seen = [p for p in course.pieces if view.clipped(*p.low)]
    return max(view.low, seen[0].low[0]) if seen else None
