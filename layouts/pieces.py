"""The cut list: every board of every wall, like ones under one number."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from layouts.boards import Course, Piece, Rake, Wall
from layouts.openings import Upright

SAME = 1e-6


class PieceLine(Struct, frozen=True):
    """Like pieces of the building: *count* of them, *where* they go (wall, row). Each end is cut back by one of *backs*
    over the same one of *rises* of its width: all of it, or what of a corner the slope takes off. *straightest*: how
    many of them the straightest boards are for. Lengths in inches."""

    mark: str
    section: str
    treated: bool
    length: float
    short: float
    backs: tuple[float, float]
    rises: tuple[float, float]
    count: int
    where: tuple[str, ...]
    straightest: int = 0


Kind = tuple[str, bool, float, float, tuple[float, float], tuple[float, float]]


def like(piece: Piece | Upright | Rake) -> Kind:
    """What makes two pieces one line of the cut list, to a thousandth; turned end for end they are still alike."""
    if isinstance(piece, Rake):
        slants = round(piece.back, 3), round(piece.back, 3)
        sizes = -round(piece.length, 3), -round(piece.short, 3)
        wide = round(piece.section.wide, 3)
        return piece.section.name, False, *sizes, slants, (wide, wide)
    if isinstance(piece, Upright):
        back = round(piece.right - piece.left, 3) if piece.length - piece.short > SAME else 0.0
        rise = round(piece.length - piece.short, 3)
        # the end's slope as what is cut back over the board's width: along the board, so back and rise change places
        ends = (0.0, rise) if back else (0.0, 0.0)
        return piece.section.name, piece.treated, -round(piece.length, 3), -round(piece.short, 3), ends, (0.0, back)
    rises = piece.left_rise, piece.right_rise
    cuts = sorted((round(b, 3), round(r, 3) if round(b, 3) else 0.0) for b, r in zip(piece.backs, rises, strict=True))
    return (
        piece.row.section.name,
        piece.row.treated,
        -round(piece.length, 3),
        -round(piece.short, 3),
        (cuts[0][0], cuts[1][0]),
        (cuts[0][1], cuts[1][1]),
    )


def numbered(walls: tuple[Wall, ...]) -> tuple[Wall, ...]:
    """The walls with every piece's number: by section, longest first."""
    kinds = sorted({like(p) for w in walls for p, _ in pieces_of(w)})
    number = {kind: f"#{i}" for i, kind in enumerate(kinds, 1)}

    def marked(courses: tuple[Course, ...]) -> tuple[Course, ...]:
        return tuple(Course(c.row, tuple(replace(p, mark=number[like(p)]) for p in c.pieces)) for c in courses)

    return tuple(
        replace(
            wall,
            courses=marked(wall.courses),
            levels=marked(wall.levels),
            inner=marked(wall.inner),
            carriers=marked(wall.carriers),
            uprights=tuple(replace(u, mark=number[like(u)]) for u in wall.uprights),
            rakes=tuple(replace(r, mark=number[like(r)]) for r in wall.rakes),
        )
        for wall in walls
    )


def pieces_of(wall: Wall) -> Iterator[tuple[Piece | Upright | Rake, str]]:
    """Every board of *wall* and what it is."""
    for course in wall.all_courses:
        yield from ((piece, course.row.name) for piece in course.pieces)
    yield from ((upright, upright.name) for upright in wall.uprights)
    yield from ((rake, rake.name) for rake in wall.rakes)


def piece_lines(walls: tuple[Wall, ...]) -> tuple[PieceLine, ...]:
    """The cut list: like pieces of all *walls* counted together, in number order."""
    groups: dict[str, list[tuple[Wall, Piece | Upright | Rake, str]]] = {}
    for wall in walls:
        for piece, what in pieces_of(wall):
            groups.setdefault(piece.mark, []).append((wall, piece, what))
    lines = []
    for mark in sorted(groups, key=lambda m: int(m[1:])):
        first = groups[mark][0][1]
        kind = like(first)
        where = tuple(dict.fromkeys(f"{w.name}: {what}" for w, _, what in groups[mark]))
        straight = sum(isinstance(p, Piece) and p.row.straightest for _, p, _ in groups[mark])
        count = len(groups[mark])
        lines.append(
            PieceLine(mark, kind[0], kind[1], first.length, first.short, kind[4], kind[5], count, where, straight)
        )
    return tuple(lines)
