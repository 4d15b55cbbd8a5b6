"""Nails for the order: every place where a board is nailed to a column or a jamb, times what the schedule gives it.

A board is nailed to a column if half of the column's width is behind it: all that it crosses, the corners where it
ends, and the two columns on which it meets its neighbours, each end by itself. So it is to a jamb post or a cripple.
Boards between columns, and uprights among them, are nailed at both ends.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from layouts.boards import Course, Piece, Rake, Stand, Wall
from layouts.fields import Job
from layouts.framed import Upright
from layouts.nails import JOINTS, Key, Nail, Nailing
from layouts.rows import Key as RowKey

Schedule = Mapping[Key, Nailing | None]
NAMES: dict[Key, str] = {joint.key: joint.name for joint in JOINTS}
_OF_ROW: dict[RowKey, Key] = {
    "grade board": "grade",
    "wainscot nailer": "wainscot",
    "soffit nailer": "soffit",
    "girt": "girt",
    "top girt": "girt",
    "gable girt": "girt",
    "header": "header",
    "sill": "header",
    "track board": "header",
    "carrier": "carrier",
}
SPLICE = " (splice)"  # what is nailed at the ends of boards that meet on a column
NEAR = 1 / 8  # inches: what nails draw up (common practice, no source)
FITS = 1.0  # inches: a board between columns ends no further from one: girts.gap is two inches at most


class Tally(Struct, frozen=True):
    """How often a *joint* occurs: *count* nailings, *treated* of them with treated wood on either side. *spliced*:
    these are ends of boards that meet on a column."""

    joint: Key
    spliced: bool
    count: int
    treated: int


class Bought(Struct, frozen=True):
    """One nail for the order: *count* that are driven, *order* with the spares, and the *joints* by name."""

    nail: Nail
    count: int
    order: int
    joints: tuple[str, ...]


def tallies(job: Job, walls: Sequence[Wall], treated_up: float) -> tuple[Tally, ...]:
    """Every place where the boards of *walls* are nailed to columns; corner columns are nailed from both walls. Where
    only the lower ends of columns are treated they are so over *treated_up* inches."""
    whole = {"all": math.inf, "none": -math.inf, "end": treated_up}[job.column.treated]
    found: list[_Place] = []
    for wall in walls:
        found += _rows(wall, whole)
        found += _uprights(job, wall, whole)
        found += _rakes(job, wall, whole)
        found += _on_corner_boards(job, wall)
    all_of: Counter[tuple[Key, bool]] = Counter()
    treated: Counter[tuple[Key, bool]] = Counter()
    for place in found:
        all_of[place.joint, place.spliced] += place.count
        treated[place.joint, place.spliced] += place.count * place.treated
    order = list(NAMES)
    kinds = sorted((k for k in all_of if all_of[k]), key=lambda k: (order.index(k[0]), k[1]))
    return tuple(Tally(*kind, all_of[kind], treated[kind]) for kind in kinds)


class _Place(Struct, frozen=True):
    """One place with *count* nailings."""

    joint: Key
    spliced: bool
    count: int
    treated: bool


def _rows(wall: Wall, whole: float) -> Iterator[_Place]:
    """Boards that lie level, on every column."""
    for course in wall.all_courses:
        key = _OF_ROW[course.row.key]
        for stand in wall.stands:
            ends = nailed(course, stand)
            between = course.row.layer == "between"
            hot = course.row.treated or course.row.low < _treated_to(stand, whole)
            yield _Place(key, ends > 1 and not between, ends, hot)


def _treated_to(stand: Stand, whole: float) -> float:
    """The station up to which a column is treated, *whole* inches of it. One that was not read is taken to stand on
    the grade line: it stands lower."""
    return (-stand.column.offset if stand.column else 0.0) + whole


def _uprights(job: Job, wall: Wall, whole: float) -> Iterator[_Place]:
    """Jamb posts and cripples where boards lap them; corner boards on their column at each row that comes to it;
    fillers and blocks at both ends."""
    of_openings = {u.name for o in wall.openings for u in o.uprights}
    lapping = [c for c in (*wall.courses, *wall.levels) if c.row.key != "track board"]
    for upright in wall.uprights:
        key: Key = "jamb" if upright.name in of_openings else "corner"
        if upright.layer == "among":
            yield from _among(wall, upright, key)
            continue
        for course in _touched(job, wall, upright, lapping) if key == "jamb" else lapping:
            if course.row.low < upright.high - 1e-6 and course.row.high > upright.low + 1e-6:
                if key == "corner":
                    yield from _corner(wall, course, upright, whole)
                    continue
                ends = sum(_laps(p, upright.left, upright.right) for p in course.pieces)
                yield _Place(key, False, ends, upright.treated or course.row.treated)


def _among(wall: Wall, upright: Upright, key: Key) -> Iterator[_Place]:
    """What stands between boards that lie between the columns, at both ends; and the boards that end against a jamb
    post: the header and the sill have no other place, and are nailed there as the schedule says of them."""
    ends = Counter[Key]({key: 2})
    if key == "jamb":
        for course in wall.all_courses:
            joint = _OF_ROW[course.row.key]
            ends["header" if joint == "header" else key] += sum(_abuts(piece, upright) for piece in course.pieces)
    for joint, count in ends.items():
        hot = count if upright.treated else _on_treated(wall, upright) if joint == key else 0
        yield _Place(joint, False, hot, True)
        yield _Place(joint, False, count - hot, False)


def _touched(job: Job, wall: Wall, post: Upright, lapping: Sequence[Course]) -> list[Course]:
    """The rows that a post or a cripple behind the girts touches: those on the girts' face of the columns, and those on
    the other face too, carriers among them, where it is as deep as the columns."""
    face = "inside" if job.girts.place == "inside" else "outside"
    deep = job.column.endwall_deep if wall.line.gable else job.column.depth
    through = post.section.wide > deep - NEAR
    rows = (*lapping, *wall.inner, *wall.carriers)
    return [c for c in rows if c.row.layer == face or (through and c.row.layer != "on top")]


def _corner(wall: Wall, course: Course, board: Upright, whole: float) -> Iterator[_Place]:
    """A corner board on its column, at a row that comes to that column: a header far from it does not."""
    stand = wall.stands[0 if board.left + board.right < wall.line.length else -1]
    if _comes_to(course, stand, wall):
        yield _Place("corner", False, 1, board.treated or course.row.low < _treated_to(stand, whole))


def _comes_to(course: Course, stand: Stand, wall: Wall) -> bool:
    """Whether a row comes to a corner column."""
    if stand is wall.stands[0]:
        return any(min(p.low[0], p.high[0]) <= stand.right + FITS for p in course.pieces)
    return any(max(p.low[1], p.high[1]) >= stand.left - FITS for p in course.pieces)


def _on_corner_boards(job: Job, wall: Wall) -> Iterator[_Place]:
    """Endwall rows inside that run past end beyond the corner columns, on the edges of the corner boards: these stand
    on the grade line, treated."""
    if job.corners.board and wall.line.gable and job.girts.runs_past == "end":
        for course in (c for c in wall.all_courses if c.row.layer == "inside"):
            ends = sum(_comes_to(course, stand, wall) for stand in (wall.stands[0], wall.stands[-1]))
            yield _Place(_OF_ROW[course.row.key], False, ends, True)


def _on_treated(wall: Wall, block: Upright) -> int:
    """How many ends of a block between boards are nailed to a treated one."""
    rows = [c.row for c in wall.all_courses if c.row.treated and c.row.layer != "inside"]
    below = any(abs(row.high - block.low) < FITS for row in rows)
    return below + any(abs(row.low - block.high) < FITS for row in rows)


def _abuts(piece: Piece, upright: Upright) -> bool:
    """Whether a board between columns ends against a post that stands among them."""
    row = piece.row
    if row.layer != "between" or row.high <= upright.low + 1e-6 or row.low >= upright.high - 1e-6:
        return False
    return _ends_at(piece, upright)


def _rakes(job: Job, wall: Wall, whole: float) -> Iterator[_Place]:
    """Nailers along the slope, on every column under them; between the columns, at each end that a column stands at."""
    between = job.girts.place == "between"
    for rake in wall.rakes:
        for stand in wall.stands:
            for at in _rake_ends(rake, stand) if between else _rake_over(rake, stand):
                yield _Place("rake", False, 1, _under(rake, at) < _treated_to(stand, whole))


def _rake_over(rake: Rake, stand: Stand) -> tuple[float, ...]:
    """The middle of a column, if half of it is behind a rake."""
    half = (stand.right - stand.left) / 2 - 1e-6
    over = min(rake.end[0], stand.right) - max(rake.start[0], stand.left) >= half
    return (stand.centre,) if over else ()


def _rake_ends(rake: Rake, stand: Stand) -> list[float]:
    """The faces of a column at which a rake between columns ends."""
    both = ((rake.start[0], stand.right), (rake.end[0], stand.left))
    return [face for end, face in both if abs(end - face) <= FITS]


def _under(rake: Rake, at: float) -> float:
    """The station of a rake's lower edge at a place along the wall."""
    (x, y), (end, top) = rake.start, rake.end
    slope = (top - y) / (end - x)
    return y + slope * (at - x) - rake.section.wide * math.hypot(1.0, slope)


def nailed(course: Course, stand: Stand) -> int:
    """How many boards of a row are nailed to a column: none, one, or two that meet on it."""
    on_it = course.row.layer == "on top"
    if not on_it and max(h for _, h in stand.top) < (course.row.low + course.row.high) / 2:
        return 0
    if course.row.layer == "between":
        return sum(_ends_at(piece, stand) for piece in course.pieces)
    return sum(_laps(piece, stand.left, stand.right) for piece in course.pieces)


def _laps(piece: Piece, left: float, right: float) -> bool:
    """Whether half of a column or post is behind a board, at mid-width where the ends are sloped."""
    start, end = ((a + b) / 2 for a, b in zip(piece.low, piece.high, strict=True))
    return min(end, right) - max(start, left) >= (right - left) / 2 - 1e-6


def _ends_at(piece: Piece, place: Stand | Upright) -> bool:
    """Whether a board between columns ends against this one, or this post, less half of the gap."""
    return abs(piece.low[0] - place.right) <= FITS or abs(piece.low[1] - place.left) <= FITS


def asked(tally: Tally) -> tuple[Key, ...]:
    """The lines of the schedule that tell how a joint is nailed: the first that is given counts. Ends that meet on a
    column are nailed as a splice, else as a crossing; carriers, which bear the trusses, never as a mere splice."""
    if not tally.spliced or tally.joint == "carrier":
        return (tally.joint,)
    return ("grade_splice" if tally.joint == "grade" else "splice", tally.joint)


def nailing(schedule: Schedule, tally: Tally) -> Nailing | None:
    """What the schedule gives a joint, None where it gives nothing."""
    return next((found for key in asked(tally) if (found := schedule.get(key))), None)


def order(schedule: Schedule, found: Sequence[Tally], spare: int) -> tuple[Bought, ...]:
    """Every nail of *schedule* with how many are driven at *found* and how many to buy with *spare* percent more,
    longest first. Joints without a nail are not in it."""
    counts: Counter[Nail] = Counter()
    joints: dict[Nail, list[str]] = {}
    for tally in found:
        given = nailing(schedule, tally)
        if given is not None:
            counts[given.nail] += given.count * tally.count
            joints.setdefault(given.nail, []).append(NAMES[tally.joint] + SPLICE * tally.spliced)
    return tuple(
        Bought(nail, counts[nail], -(-counts[nail] * (100 + spare) // 100), _once(joints[nail]))
        for nail in sorted(counts, key=longest)
    )


def _once(names: Sequence[str]) -> tuple[str, ...]:
    """Each joint once; its splices only where they have a nail of their own."""
    return tuple(dict.fromkeys(n for n in names if not (n.endswith(SPLICE) and n.removesuffix(SPLICE) in names)))


def longest(nail: Nail) -> tuple[float, float, str, str]:
    """Sorts nails, the longest first, then the thickest."""
    return -nail.length, -nail.diameter, nail.shank, nail.coat
