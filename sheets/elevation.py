"""The picture of a wall: columns, boards with their numbers and lengths, joints, the grade line, names of the rows.

What is up is drawn last: boards over columns where the outside face is up, columns over boards where the inside is.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from layouts.boards import Course, Piece, Stand, Wall
from layouts.fields import Job
from layouts.lift import Face, Lift
from layouts.openings import Opening, Upright
from sheets import lift_drawn, openings_drawn
from sheets.boards import Board, cut_out, outline
from sheets.row_names import ASIDE, aside, row_names
from sheets.shapes import HEAVY, MEDIUM, THIN, Point, Recorder
from sheets.taken import Taken
from sheets.view import View
from sheets.wall_labels import Writer

DASH = (0.05, 0.04)
JOINT = 0.02  # how thick the tick of a joint is
TICK = 0.03  # what the tick of a joint stands out beyond the board


def draw(pen: Recorder, view: View, wall: Wall, job: Job, lift: Lift, face: Face = "outside") -> list[Course]:
    """Everything above the chain; the boards are on that *face* of the columns. Gives the rows with boards whose
    numbers have no room on the picture: their names say so."""
    under = lift.lie.up == face
    if under:
        _frame(pen, view, wall)
    for opening in _seen(view, wall):
        openings_drawn.cross(pen, view, opening)
    for course in (*wall.courses, *wall.levels):
        for piece in course.pieces:
            _board(pen, view, piece, cut_out(piece, wall.openings))
    among: list[Board] = [u for u in wall.uprights if u.layer == "among"]
    for board in [*among, *wall.rakes]:
        _board(pen, view, board)
    if not under:
        _frame(pen, view, wall)
    for course in (*wall.courses, *wall.levels):
        _joints(pen, view, course)
    for opening in _seen(view, wall):
        openings_drawn.edges(pen, view, opening)
    words = Recorder(pen.width, pen.height)
    straight, overleaf = _words(words, view, wall, job, lift)
    # under the words: these stand on white
    row_names(pen, view, wall, job, straight, overleaf)
    pen.place(words.drawing().shapes)
    _grade_line(pen, view)
    return overleaf


def _seen(view: View, wall: Wall) -> Iterator[Opening]:
    return (o for o in wall.openings if view.clipped(o.left, o.right))


def _words(pen: Recorder, view: View, wall: Wall, job: Job, lift: Lift) -> tuple[list[Course], list[Course]]:
    """All words of the picture, what has least choice first. Gives the rows that take the straightest boards and have
    no room to say so, and those with boards whose numbers have no room."""
    taken = Taken(
        (view.at(view.low, 0.0)[0] - aside(wall) + ASIDE / 2, view.y0 + HEAVY / 2, view.right, view.top + 0.1)
    )
    lift_drawn.marks(pen, view, wall, lift, taken)
    writer = Writer(pen, view, wall, job.style, taken)
    kept = [box for o in _seen(view, wall) if (box := openings_drawn.kept(view, o, job.style, taken))]
    taken.boxes += kept
    for course in wall.levels:
        for piece in course.pieces:
            writer.number(piece)
    for upright in wall.uprights:
        if upright.layer == "behind":
            writer.number(upright)
    for box in kept:
        taken.release(box)
    for opening in _seen(view, wall):
        if not openings_drawn.name(pen, view, wall, opening, job.style, taken):
            writer.name(opening)
    labelled: set[str] = set()
    for upright in wall.uprights:
        if upright.layer != "behind" and writer.number(upright, alone=upright.mark in labelled):
            labelled.add(upright.mark)  # of blocks and boards that are all alike one tells the length
    overleaf = _rows(writer, view, wall)
    for rake in wall.rakes:
        writer.number(rake)
    return [c for c in wall.courses if c.straightest and not writer.straightest(c)], overleaf


def _rows(writer: Writer, view: View, wall: Wall) -> list[Course]:
    """The numbers of the boards in rows: those without a place of their own first, then the short ones. Gives the rows
    of those that have no room."""
    pieces = [
        (bool(writer.how.of(piece)), seen[1] - seen[0], i, piece)
        for i, piece in enumerate(p for c in wall.courses for p in c.pieces)
        if (seen := view.clipped(*piece.high))
    ]
    left_out = {piece.row for *_, piece in sorted(pieces, key=lambda p: p[:3]) if not writer.number(piece)}
    return [course for course in wall.courses if course.row in left_out]


def _grade_line(pen: Recorder, view: View) -> None:
    pen.begin("grade-line", "grade line")
    x0, y = view.at(view.low, 0.0)
    x1, _ = view.at(view.high, 0.0)
    pen.stroke(x0 - 0.12, y, x1 + 0.12, y, HEAVY)
    pen.end()


def _frame(pen: Recorder, view: View, wall: Wall) -> None:
    """Columns, and the boards that stand with them."""
    for stand in wall.stands:
        if view.clipped(stand.left, stand.right):
            _stand(pen, view, wall, stand)
    for upright in wall.uprights:
        if upright.layer == "behind":
            _board(pen, view, upright)
        elif upright.layer == "inside":
            _hidden(pen, view, upright)


def _stand(pen: Recorder, view: View, wall: Wall, stand: Stand) -> None:
    """A column: its bottom end at minus its offset, its top as cut. A corner that stands in another wall is dashed."""
    bottom = -stand.column.offset if stand.column else 0.0
    points = [(stand.left, bottom), *stand.top, (stand.right, bottom)]
    corners = [view.at(*p) for p in points]
    pen.begin(f"column-{stand.name}", stand.name)
    if stand.name in wall.theirs or stand.column is None:
        _dashed(pen, corners)
    else:
        pen.shape(corners, 0.88, MEDIUM)
    pen.end()


def _dashed(pen: Recorder, corners: list[Point]) -> None:
    for a, b in pairwise([*corners, corners[0]]):
        pen.stroke(*a, *b, THIN, DASH)


def _hidden(pen: Recorder, view: View, board: Upright) -> None:
    """A board behind the columns."""
    if view.clipped(board.left, board.right) is None:
        return
    pen.begin(f"piece-{board.mark[1:]}", board.mark)
    _dashed(pen, [view.at(*p) for p in outline(board)])
    pen.end()


def _board(pen: Recorder, view: View, board: Board, cut: list[tuple[float, float]] | None = None) -> None:
    """A board at its real shape; where it goes on overleaf its end stays open, where it is *cut* out when the wall
    stands it is dashed."""
    corners = outline(board)
    ends = min(x for x, _ in corners), max(x for x, _ in corners)
    if view.clipped(*ends) is None:
        return
    shown = [(min(max(x, view.low), view.high), y) for x, y in corners]
    clipped = [edge for edge, end in ((view.low, ends[0]), (view.high, ends[1])) if edge not in (ends[0], ends[1])]
    open_at = [edge for edge in clipped if ends[0] < edge < ends[1]]
    pen.begin(f"piece-{board.mark[1:]}", board.mark)
    pen.shape([view.at(*p) for p in shown], 1.0, 0.0 if open_at or cut else THIN)
    if open_at or cut:
        for a, b in pairwise([*shown, shown[0]]):
            if a != b and not (a[0] == b[0] and a[0] in open_at):
                _edge(pen, view, a, b, cut or [])
    pen.end()


def _edge(pen: Recorder, view: View, a: Point, b: Point, cut: list[tuple[float, float]]) -> None:
    """One edge of a board, dashed over the stretches that are cut out."""
    turns = sorted({x for pair in cut for x in pair if min(a[0], b[0]) < x < max(a[0], b[0])}, reverse=a[0] > b[0])
    for p, q in pairwise([a[0], *turns, b[0]]):
        out = a[0] != b[0] and any(low <= (p + q) / 2 <= high for low, high in cut)
        y0, y1 = (a[1], b[1]) if not turns else (a[1], a[1])
        pen.stroke(*view.at(p, y0), *view.at(q, y1), THIN, DASH if out else ())


def _joints(pen: Recorder, view: View, course: Course) -> None:
    """A tick across every joint: it stands out beyond the boards that meet there."""
    for one, other in pairwise(course.pieces):
        if abs(one.low[1] - other.low[0]) < 1e-6 and view.low <= one.low[1] <= view.high:
            _tick(pen, view, one)


def _tick(pen: Recorder, view: View, piece: Piece) -> None:
    x, y0 = view.at(piece.low[1], piece.row.low)
    y1 = view.at(piece.low[1], piece.row.high)[1]
    pen.begin("joint")
    pen.stroke(x, max(y0 - TICK, view.y0) if piece.row.low >= 0 else y0, x, y1 + TICK, JOINT)
    pen.end()
