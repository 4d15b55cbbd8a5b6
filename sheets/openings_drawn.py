"""Openings on the picture of a wall: the rough opening with its light cross, its name and sizes; and a line of words
that tells all of one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import fonts
from layouts.boards import Wall
from layouts.fields import Job
from layouts.lengths import Style, show
from layouts.openings import Opening
from layouts.rods import board_mark
from layouts.rows import Row
from sheets.boards import Board, belongs, board_text, cut_out
from sheets.language import Said, turn
from sheets.lettering import pt, width
from sheets.shapes import HAIR, MEDIUM, Recorder
from sheets.taken import DROP, GROUND, INK, Box, Stroke, Taken, gaps
from sheets.view import View
from sheets.wrapping import wrap

LARGEST, LEAST = 18, (9, 9, 8, 6)  # points of words in an opening: all of them, fewer, and the name alone
PITCH = 1.2  # from line to line, of the type size
KEPT, SHARE = 11, 0.7  # points of words that a place is kept for, and how much of an opening's height
CUT_OUT = "CUT OUT AFTER LIFTING"
Bands = Sequence[tuple[float, float]]


def cross(pen: Recorder, view: View, opening: Opening) -> None:
    """The light cross over a rough opening."""
    x0, y0 = view.at(opening.left, opening.low)
    x1, y1 = view.at(opening.right, opening.high)
    pen.begin(f"opening-{opening.name}", opening.name)
    pen.stroke(x0, y0, x1, y1, HAIR)
    pen.stroke(x0, y1, x1, y0, HAIR)
    pen.end()


def edges(pen: Recorder, view: View, opening: Opening) -> None:
    """The edges of a rough opening, over the boards that run through it."""
    pen.begin(f"edges-{opening.name}", opening.name)
    pen.box(*view.at(opening.left, opening.low), *view.at(opening.right, opening.high), None, MEDIUM)
    pen.end()


def kept(view: View, opening: Opening, style: Style, taken: Taken) -> Box | None:
    """The middle of an opening, which numbers of boards leave to its name and sizes: as much as these take in middling
    type, but no more than is free and leaves room for the numbers."""
    x0, y0 = view.at(opening.left, opening.low)
    x1, y1 = view.at(opening.right, opening.high)
    for tries, least in zip(_says(opening, style), LEAST, strict=True):
        for points in range(KEPT, least - 1, -1):
            for lines in tries:
                wide, tall = _wide(lines, pt(points)) / 2, pt(points) * (INK + (len(lines) - 1) * PITCH) / 2
                if 2 * wide + 0.04 <= x1 - x0 and 2 * tall <= (y1 - y0) * SHARE:
                    x, y = (x0 + x1) / 2, (y0 + y1) / 2
                    if taken.free(box := (x - wide, y - tall, x + wide, y + tall)):
                        return box
    return None


# --- its name in it -------------------------------------------------------------------------------------------------


def name(pen: Recorder, view: View, wall: Wall, opening: Opening, style: Style, taken: Taken) -> bool:
    """The name of an opening in it, as large as it goes, with its sizes if they go too. Whether it goes at all."""
    x0, y0 = view.at(opening.left, opening.low)
    x1, y1 = view.at(opening.right, opening.high)
    crossed = [
        (view.at(0.0, p.row.low)[1], view.at(0.0, p.row.high)[1])
        for c in wall.courses
        for p in c.pieces
        if any(a < opening.right and b > opening.left for a, b in cut_out(p, (opening,)))
    ]
    middle = (x0 + x1) / 2

    def bands(wide: float) -> Bands:
        """What is free over a width about the middle, from the top down."""
        low, high = middle - wide / 2, middle + wide / 2
        words = [(b[1], b[3]) for b in taken.boxes if b[0] < high and b[2] > low]
        lines = [part for line in taken.lines if (part := _over(line, low, high))]
        return gaps([*crossed, *words, *lines], max(y0, taken.area[1]) + 0.02, y1 - 0.02)[::-1]

    for tries, least in zip(_says(opening, style), LEAST, strict=True):
        best = max(((size, lines) for lines in tries if (size := _largest(lines, bands, x1 - x0, least))), default=None)
        if best:
            free = bands(_wide(best[1], pt(best[0])))
            for base, line in zip(_set(best[1], free, pt(best[0])), best[1], strict=True):
                taken.write(pen, middle, base, line, pt(best[0]))
            return True
    return False


def _over(line: Stroke, low: float, high: float) -> tuple[float, float] | None:
    """From where to where up the page a line runs over a stretch across it."""
    (x0, y0), (x1, y1) = sorted(line)
    if x0 >= high or x1 <= low:
        return None
    rise = (y1 - y0) / (x1 - x0) if x1 - x0 > 1e-9 else 0.0
    if rise:
        y0, y1 = y0 + (max(low, x0) - x0) * rise, y0 + (min(high, x1) - x0) * rise
    return min(y0, y1), max(y0, y1)


def _wide(lines: Sequence[str], size: float) -> float:
    """How wide the widest of them is, with the white to its sides."""
    return max(width(line, size, fonts.BOLD) for line in lines) + 2 * GROUND


def _says(opening: Opening, style: Style) -> Iterator[list[list[str]]]:
    """What is said in an opening, each in the ways it can be parted into lines: all of it, its rough size, its name
    and kind, its name."""
    nominal, size = _nominal(opening, style), _rough(opening, style)
    firsts = [title(opening)], [opening.name, opening.part.kind.upper()]
    ends = ([CUT_OUT], ["CUT OUT AFTER", "LIFTING"], ["CUT OUT", "AFTER", "LIFTING"]) if opening.through else ([],)
    wide, tall = (show(v, style) for v in (opening.right - opening.left, opening.high - opening.low))
    broad, high = (show(v, style) for v in (opening.part.width, opening.part.height))
    rough = [f"RO {size}"], [f"RO {wide}", f"x {tall}"]
    heads = [[f"{title(opening)} {nominal}"], *([*f, *n] for f in firsts for n in ([nominal], [broad, f"x {high}"]))]
    yield [[*head, *ro, *end] for head in heads for ro in rough for end in ends]
    yield [[*first, *ro, *end] for first in firsts for ro in rough for end in ends]
    yield [[*first, *end] for first in firsts for end in (*ends, *([[]] if opening.through else []))]
    yield [[opening.name]]


def _largest(lines: Sequence[str], bands: Callable[[float], Bands], room: float, least: int) -> int:
    """The largest type, in points, in which *lines* stand in the *bands* that their width leaves; 0 if that is less
    than *least*."""
    for points in range(LARGEST, least - 1, -1):
        wide = _wide(lines, pt(points))
        if wide + 0.04 <= room and _set(lines, bands(wide), pt(points)):
            return points
    return 0


def _set(lines: Sequence[str], bands: Bands, size: float) -> list[float]:
    """The baselines of *lines* in *bands* from the top down: all in the middle of the tallest if they go there, else
    wherever there is room; none where there is not enough."""
    tall = size * INK + (len(lines) - 1) * size * PITCH
    low, high = max(bands, key=lambda b: b[1] - b[0], default=(0.0, 0.0))
    if high - low >= tall:
        top = (low + high + tall) / 2
        return [top - size * (INK - DROP) - i * size * PITCH for i in range(len(lines))]
    found: list[float] = []
    for low, high in bands:
        at = high
        while len(found) < len(lines) and at - size * INK >= low:
            found.append(at - size * (INK - DROP))
            at -= size * PITCH
    return found if len(found) == len(lines) else []


# --- all of it in words ---------------------------------------------------------------------------------------------


def title(opening: Opening) -> str:
    """Its name and kind."""
    return f"{opening.name} {opening.part.kind.upper()}"


def _nominal(opening: Opening, style: Style) -> str:
    return f"{show(opening.part.width, style)} x {show(opening.part.height, style)}"


def _rough(opening: Opening, style: Style) -> str:
    return f"{show(opening.right - opening.left, style)} x {show(opening.high - opening.low, style)}"


def line(opening: Opening, corner: str, style: Style) -> str:
    """Its sizes and where it is; places along the wall from the outside of the column called *corner*."""
    along = f"{show(opening.left, style)} to {show(opening.right, style)} from {corner}"
    up = f"bottom {show(opening.low, style)}, top {show(opening.high, style)}"
    between = f"between {opening.columns[0]} and {opening.columns[1]}"
    sizes = f"{title(opening)} {_nominal(opening, style)} · RO {_rough(opening, style)}"
    return f"{sizes} · {along} · {up} · {between}"


def boards(wall: Wall, opening: Opening, job: Job) -> list[str]:
    """Its boards, each kind with its number, length and station; what its notes say."""
    style = job.style
    said = []
    levels = (opening.header, opening.sill, opening.track)
    for course in wall.levels:
        if course.row.name in {level.name for level in levels if level}:
            mark = board_mark(course.row, job)
            what = _kinds(course.pieces, style)
            said.append(f"{_kind(course.row, opening)} {what}, {mark.edge} at {show(mark.station, style)}")
            if opening.track and course.row.name == opening.track.name:
                ends = f"{show(opening.track.start, style)} to {show(opening.track.end, style)}"
                said[-1] += f", along the wall from {ends}"
    of: dict[str, list[Board]] = {}
    for upright in wall.uprights:
        if belongs(upright, opening):
            low = show(upright.low, style)
            of.setdefault(f"{upright.name.removesuffix(f' {opening.name}').lower()} up from {low}", []).append(upright)
    for what, found in of.items():
        kind, _, low = what.partition(" up from ")
        said.append(f"{kind} {_kinds(found, style)}, up from {low}")
    if opening.through:
        said.append(f"boards that run through: {CUT_OUT}")
    said += [note.removeprefix(f"{opening.name}: ").rstrip(".") for note in opening.notes]
    return [*(f"{text};" for text in said[:-1]), f"{said[-1]}."]


def packed(parts: Sequence[str], size: float, room: float) -> list[str]:
    """*parts* of a sentence in lines, none of them broken that goes on a line."""
    lines: list[str] = []
    for part in map(turn, parts):
        joined = Said(f"{lines[-1]} {part}") if lines else Said(part)
        if lines and width(joined, size) <= room:
            lines[-1] = joined
        else:
            lines += wrap(part, size, fonts.REGULAR, room)
    return lines


def _kind(row: Row, opening: Opening) -> str:
    return row.name.removesuffix(f" {opening.name}").lower()


def _kinds(found: Sequence[Board], style: Style) -> str:
    """Like boards once, with how many there are."""
    first = {b.mark: b for b in reversed(found)}
    counts = {mark: sum(b.mark == mark for b in found) for mark in first}
    return ", ".join(
        f"{f'{counts[mark]} pc ' if counts[mark] > 1 else ''}{board_text(b)} {mark} {show(b.length, style)}"
        for mark, b in sorted(first.items(), key=lambda item: int(item[0][1:]))
    )
