"""A wall as it is seen from its other side: left and right change places, nothing else does.

A wall that lies outside of the building has its inside face up: who stands at its foot and looks to its top sees it the
other way round than it stands. Its diagram is drawn from these numbers, so that all words stay upright.
"""

from __future__ import annotations

from msgspec.structs import replace

from layouts.boards import Course, Piece, Rake, Stand, Wall
from layouts.openings import Level, Opening, Upright

Stretch = tuple[float, float]


def mirrored(wall: Wall) -> Wall:
    """*wall* from its other side; places count from the other corner."""
    long = wall.line.length
    return replace(
        wall,
        stands=tuple(_stand(s, long) for s in reversed(wall.stands)),
        courses=_courses(wall.courses, long),
        shared=tuple(reversed(wall.shared)),
        openings=tuple(opening(o, long) for o in reversed(wall.openings)),
        levels=_courses(wall.levels, long),
        uprights=tuple(_upright(u, long) for u in wall.uprights),
        inner=_courses(wall.inner, long),
        carriers=_courses(wall.carriers, long),
        rakes=tuple(_rake(r, long) for r in reversed(wall.rakes)),
    )


def _turned(stretch: Stretch, long: float) -> Stretch:
    return long - stretch[1], long - stretch[0]


def _stand(stand: Stand, long: float) -> Stand:
    left, right = _turned((stand.left, stand.right), long)
    return replace(stand, left=left, right=right, top=tuple((long - x, y) for x, y in reversed(stand.top)))


def _courses(courses: tuple[Course, ...], long: float) -> tuple[Course, ...]:
    return tuple(replace(c, pieces=tuple(_piece(p, long) for p in reversed(c.pieces))) for c in courses)


def _piece(piece: Piece, long: float) -> Piece:
    low, high = _turned(piece.low, long), _turned(piece.high, long)
    return replace(piece, low=low, high=high, left_rise=piece.right_rise, right_rise=piece.left_rise)


def _upright(upright: Upright, long: float) -> Upright:
    left, right = _turned((upright.left, upright.right), long)
    return replace(upright, left=left, right=right, tops=(upright.tops[1], upright.tops[0]))


def _rake(rake: Rake, long: float) -> Rake:
    (x0, y0), (x1, y1) = rake.start, rake.end
    return replace(rake, start=(long - x1, y1), end=(long - x0, y0))


def _level(level: Level, long: float) -> Level:
    start, end = _turned((level.start, level.end), long)
    return replace(level, start=start, end=end)


def opening(found: Opening, long: float) -> Opening:
    """An opening of a wall that is *long* from its other side. Its notes say left and right as seen from outside."""
    left, right = _turned((found.left, found.right), long)
    return replace(
        found,
        left=left,
        right=right,
        columns=(found.columns[1], found.columns[0]),
        header=_level(found.header, long),
        sill=found.sill and _level(found.sill, long),
        track=found.track and _level(found.track, long),
        uprights=tuple(_upright(u, long) for u in found.uprights),
        notes=tuple(f"{note[:-1]} (seen from outside)." if " on its " in note else note for note in found.notes),
    )
