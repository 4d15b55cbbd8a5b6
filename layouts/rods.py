"""Rods: the marks along one direction that all columns of a kind share.

A rod starts on the grade line, so a mark's station is also what a tape hooked on the rod's end reads. Walls whose
boards stand at the same stations share one rod. A sidewall rod carries the cuts, which all of its columns share; each
endwall column has a top of its own, a fraction from the next one's, so its cuts stand on its tag alone. Headers and
sills are marks for some of the columns only.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from layouts.carriers import FIRST
from layouts.columns import Cut, cuts
from layouts.fields import Job
from layouts.lengths import Style
from layouts.openings import Opening
from layouts.plan import Plan, WallLine
from layouts.roof import Roof
from layouts.rows import Row, Rows

Kind = Literal["board", "line", "cut"]
NEAR = 1.0  # inches
LISTED = 3  # openings that a mark is named by
PAST = 4.0  # inches of rod beyond the last mark, at least: room for its words


class Mark(Struct, frozen=True):
    """One mark of a rod. *station* is the edge that is marked; *low* and *high* the board's real footprint (the
    station for lines and cuts); *edge* says which edge: ``bottom``, ``top`` or ``line``; *board* the size; *where*
    the face or ply of a cut, or the edge of a board that has no bottom; *only* the columns it is for, if not for all,
    and *jambs* whether it is for the jamb posts of its opening too, or for these alone; *note* says on its lane why it
    stands there."""

    name: str
    kind: Kind
    station: float
    low: float
    high: float
    edge: Literal["bottom", "top", "line"]
    board: str = ""
    where: str = ""
    treated: bool = False
    only: tuple[str, ...] = ()
    jambs: bool = False
    note: str = ""

    @property
    def in_words(self) -> str:
        """Its name within a sentence: of a board, which may be named by openings, in its own letters but the first."""
        return self.name[:1].lower() + self.name[1:] if self.kind == "board" else self.name.lower()

    @property
    def some(self) -> bool:
        """Whether it is not for all columns."""
        return bool(self.only) or self.jambs


class Rod(Struct, frozen=True):
    """*marks* from the grade line up; *walls* it is for; *length* in inches, past the last mark, on a
    number of the tape. A rod that is for no
    wall says in *of* what it is for, and begins there; *users* are who else it is for than the columns: they stand with
    their foot on the grade line."""

    name: str
    walls: tuple[str, ...]
    gable: bool
    marks: tuple[Mark, ...]
    length: float
    of: str = ""
    users: tuple[str, ...] = ()


def lay(job: Job, plan: Plan, roof: Roof, rows: Rows, openings: tuple[Opening, ...] = ()) -> tuple[Rod, ...]:
    """The rods of a building: walls with like boards share one."""
    shared: dict[tuple[tuple[Mark, ...], tuple[Mark, ...]], list[WallLine]] = {}
    for wall in plan.walls:
        boards = tuple(board_mark(row, job) for row in rows.marked(wall))
        # walls of two bearings have rods of their own
        tops = () if wall.gable else _cut_marks(job, plan, roof, [wall])
        shared.setdefault((boards, tops), []).append(wall)
    found = [
        replace(_rod(job, plan, roof, boards, walls, openings), users=_users(job, rows, walls, openings))
        for (boards, _), walls in shared.items()
    ]
    names = [rod.name for rod in found]
    return tuple(
        replace(rod, name=f"{rod.name} {', '.join(rod.walls)}") if names.count(rod.name) > 1 else rod for rod in found
    )


def level_marks(job: Job, walls: list[WallLine], openings: tuple[Opening, ...]) -> tuple[Mark, ...]:
    """The marks of headers and sills for the columns of *walls* that they are nailed to, at the edge that this job
    marks; like boards at one height are one mark.

    A corner column is marked with the rod of its sidewall, so that rod carries what an endwall nails to the corner.
    """
    names = [w.name for w in walls]
    side = not walls[0].gable
    found: dict[Mark, tuple[list[str], list[str], list[bool]]] = {}
    for opening in openings:
        own = opening.wall in names
        for level in opening.levels:
            columns = [c for c in level.columns if own or (side and any(c in w.columns for w in walls))]
            posts = own and has_posts(opening)
            if columns or posts:
                # equal stations must meet in one mark whatever way they were computed
                low, high = round(level.low, 9), round(level.high, 9)
                edge, station = job.girts.edge, low if job.girts.edge == "bottom" else high
                like = Mark(level.key.capitalize(), "board", station, low, high, edge, level.section.name)
                called, nailed, held = found.setdefault(like, ([], [], []))
                called.append(opening.name)
                nailed += columns
                held.append(posts)
    return tuple(
        replace(mark, name=f"{mark.name} {_listed(called)}", only=tuple(dict.fromkeys(nailed)), jambs=any(held))
        for mark, (called, nailed, held) in found.items()
    )


def has_posts(opening: Opening) -> bool:
    """Whether an opening has jamb posts."""
    return any(u.name.startswith("Jamb post") for u in opening.uprights)


def _users(job: Job, rows: Rows, walls: list[WallLine], openings: tuple[Opening, ...]) -> tuple[str, ...]:
    """Who else carries the marks of these walls: jamb posts, and corner boards those of the endwalls' rows inside."""
    names = [w.name for w in walls]
    jambs = ("jamb posts",) if any(o.wall in names and has_posts(o) for o in openings) else ()
    inside = job.corners.board and walls[0].gable and rows.inner_end
    return (*jambs, *(("corner boards",) if inside else ()))


def _listed(names: list[str]) -> str:
    """Names in a row, not more than go beside a mark."""
    more = len(names) - LISTED
    return ", ".join(names[:LISTED]) + (f" and {more} more" if more > 0 else "")


def board_mark(row: Row, job: Job) -> Mark:
    """The mark of a row of boards, at the edge that this job marks; the grade board always stands on its line."""
    edge = "bottom" if row.key == "grade board" else job.girts.edge
    station = row.low if edge == "bottom" else row.high
    name = FIRST if row.key == "carrier" else row.name
    lies = row.layer == "between" and row.key in ("girt", "top girt", "gable girt")
    size = f"{row.section.name} flat" if lies else row.section.name
    return Mark(name, "board", station, row.low, row.high, edge, size, treated=row.treated)


def numbered(style: Style) -> float:
    """Inches from one number of a tape to the next: whole inches, or 10 mm."""
    return 10 / 25.4 if style.unit == "mm" else 1.0


def ended(marks: Sequence[Mark], style: Style) -> float:
    """Where a rod with these marks ends, inches: on a number of the tape, so that its last lane, with the cuts, is laid
    between two of them like any other."""
    tick = numbered(style)
    return math.ceil((max(mark.high for mark in marks) + PAST) / tick - 1e-9) * tick


def floor_mark(job: Job) -> Mark:
    """Finished floor."""
    floor = job.grade.floor
    return Mark("Finished floor", "line", floor, floor, floor, "line")


def _rod(
    job: Job,
    plan: Plan,
    roof: Roof,
    boards: tuple[Mark, ...],
    walls: list[WallLine],
    openings: tuple[Opening, ...],
) -> Rod:
    lines = (floor_mark(job),) if job.grade.floor > 0 else ()
    gable = walls[0].gable
    found = () if gable else _cut_marks(job, plan, roof, walls)
    own = level_marks(job, walls, openings)
    marks = tuple(sorted((*boards, *lines, *own, *found), key=lambda m: (m.station, m.name)))
    name = ("Endwall" if gable else "Sidewall") + " rod"
    return Rod(name, tuple(sorted(w.name for w in walls)), gable, marks, ended(marks, job.style))


def _cut_marks(job: Job, plan: Plan, roof: Roof, walls: list[WallLine]) -> tuple[Mark, ...]:
    """The cuts that the columns of sidewalls share."""
    found = (cut for w in walls for name in w.columns for cut in cuts(job, roof, plan, plan.spot(name))[0])
    return tuple(dict.fromkeys(cut_mark(cut) for cut in found))


def cut_mark(cut: Cut) -> Mark:
    """A column's cut as a mark."""
    # equal stations must meet in one mark whatever way they were computed
    station = round(cut.station, 9)
    return Mark(cut.name, "cut", station, station, station, "line", where=cut.where)


def crowded(rod: Rod) -> tuple[tuple[Mark, Mark], ...]:
    """Neighbouring marks of *rod* that stand less than an inch apart on some column: easily taken for one another."""
    pairs = zip(rod.marks, rod.marks[1:], strict=False)
    return tuple((a, b) for a, b in pairs if b.station - a.station < NEAR and _together(a, b) and not _one(a, b))


def _one(a: Mark, b: Mark) -> bool:
    """Whether two marks are one place: a carrier and the shoulder that is cut for it."""
    return a.station == b.station and {a.name, b.name} == {FIRST, "SHOULDER"}


def _together(a: Mark, b: Mark) -> bool:
    """Whether some column carries both."""
    return not (a.some and b.some) or bool(set(a.only) & set(b.only))
