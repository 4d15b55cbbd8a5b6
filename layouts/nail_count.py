"""Nails for the order: every place where a board is nailed to a column, times what the schedule gives it.

A board is nailed to a column if half of the column's width is behind it: all that it crosses, the corners where it
ends, and the two columns on which it meets its neighbours, each end by itself.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from layouts.fields import Job
from layouts.lengths import Style
from layouts.nails import JOINTS, Key, Nail, Nailing, question, show_nail
from layouts.rows import Key as RowKey
from layouts.walls import Course, Piece, Stand, Wall

Schedule = Mapping[Key, Nailing | None]
NAMES: dict[Key, str] = {joint.key: joint.name for joint in JOINTS}
_OF_ROW: dict[RowKey, Key] = {
    "grade board": "grade",
    "wainscot nailer": "wainscot",
    "soffit nailer": "soffit",
    "girt": "girt",
    "top girt": "girt",
    "gable girt": "girt",
}


@dataclass(frozen=True)
class Tally:
    """How often a *joint* occurs: *count* nailings, *treated* of them with treated wood on either side. *spliced*:
    these are ends of boards that meet on a column."""

    joint: Key
    spliced: bool
    count: int
    treated: int


@dataclass(frozen=True)
class Bought:
    """One nail for the order: *count* that are driven, *order* with the spares, and the *joints* by name."""

    nail: Nail
    count: int
    order: int
    joints: tuple[str, ...]


def tallies(job: Job, walls: Sequence[Wall], treated_up: float) -> tuple[Tally, ...]:
    """Every place where the boards of *walls* are nailed to columns; corner columns are nailed from both walls. Where
    only the lower ends of columns are treated they are so over *treated_up* inches."""
    whole = {"all": math.inf, "none": -math.inf, "end": treated_up}[job.column.treated]
    all_of: Counter[tuple[Key, bool]] = Counter()
    treated: Counter[tuple[Key, bool]] = Counter()
    for wall in walls:
        for course in wall.courses:
            key = _OF_ROW[course.row.key]
            for stand in wall.stands:
                ends = _nailed(course, stand)
                kind = (key, ends > 1)
                all_of[kind] += ends
                # a column that was not read is taken to stand on the grade line: it stands lower
                foot = -stand.column.offset if stand.column else 0.0
                if course.row.treated or course.row.low < foot + whole:
                    treated[kind] += ends
    order = list(NAMES)
    kinds = sorted((k for k in all_of if all_of[k]), key=lambda k: (order.index(k[0]), k[1]))
    return tuple(Tally(*kind, all_of[kind], treated[kind]) for kind in kinds)


def _nailed(course: Course, stand: Stand) -> int:
    """How many boards of a row are nailed to a column: none, one, or two that meet on it."""
    if max(h for _, h in stand.top) < (course.row.low + course.row.high) / 2:
        return 0
    return sum(_behind(piece, stand) for piece in course.pieces)


def _behind(piece: Piece, stand: Stand) -> bool:
    """Whether half of a column is behind a board, at mid-width where the ends are sloped."""
    left, right = ((a + b) / 2 for a, b in zip(piece.low, piece.high, strict=True))
    return min(right, stand.right) - max(left, stand.left) >= (stand.right - stand.left) / 2 - 1e-6


def _nailing(schedule: Schedule, tally: Tally) -> Nailing | None:
    """What the schedule gives a joint; ends that meet on a column are nailed as a crossing unless it says otherwise."""
    plain = schedule.get(tally.joint)
    if not tally.spliced:
        return plain
    return schedule.get("grade_splice" if tally.joint == "grade" else "splice") or plain


def order(schedule: Schedule, found: Sequence[Tally], spare: int) -> tuple[Bought, ...]:
    """Every nail of *schedule* with how many are driven at *found* and how many to buy with *spare* percent more,
    longest first. Joints without a nail are not in it."""
    counts: Counter[Nail] = Counter()
    joints: dict[Nail, list[str]] = {}
    for tally in found:
        given = _nailing(schedule, tally)
        if given is not None:
            counts[given.nail] += given.count * tally.count
            joints.setdefault(given.nail, []).append(NAMES[tally.joint])
    return tuple(
        Bought(nail, counts[nail], -(-counts[nail] * (100 + spare) // 100), tuple(dict.fromkeys(joints[nail])))
        for nail in sorted(counts, key=_longest)
    )


def _longest(nail: Nail) -> tuple[float, float, str, str]:
    return -nail.length, -nail.diameter, nail.shank, nail.coat


def warnings(schedule: Schedule, found: Sequence[Tally], style: Style) -> tuple[str, ...]:
    """What is worth a look: nails that rust in treated wood, nails that no table holds, joints left out. Nothing where
    the schedule is empty: it is the user's to fill."""
    given = {nailing.nail for nailing in schedule.values() if nailing}
    if not given:
        return ()
    lines = _rusting(schedule, found, style)
    asked = (question(nail, style) for nail in sorted(given, key=_longest))
    # one question for a nail, whatever its coat
    lines += dict.fromkeys(text for text in asked if text)
    missing: Counter[Key] = Counter()
    for tally in found:
        if _nailing(schedule, tally) is None:
            missing[tally.joint] += tally.count
    if missing:
        each = ", ".join(f"{NAMES[key].lower()} ({count})" for key, count in missing.items())
        lines.append(f"No nails are given for: {each}. They are not in the count.")
    return tuple(lines)


def _rusting(schedule: Schedule, found: Sequence[Tally], style: Style) -> list[str]:
    """Joints with treated wood whose nail is not fit for it."""
    counts: dict[tuple[Key, Nail], list[int]] = {}
    for tally in found:
        given = _nailing(schedule, tally)
        if given is not None and not given.nail.lasting:
            both = counts.setdefault((tally.joint, given.nail), [0, 0])
            both[0] += tally.treated
            both[1] += tally.count
    return [
        f"{NAMES[key]}: {'all' if some == all_of else f'{some} of'} {all_of} touch treated wood, and "
        f"{show_nail(nail, style)} is not HDG: it rusts there (IRC R317.3)."
        for (key, nail), (some, all_of) in counts.items()
        if some
    ]
