"""What of a wall's rows can be built but wants a look first, in words: a floor over the grade board, girts wider than
their columns, wide stretches without a row, rows that an opening leaves out, ends and boards that nothing holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import structs

from layouts import members
from layouts.boards import Course, Piece
from layouts.costs import Cost, Warned, each
from layouts.fields import Job
from layouts.framed import SAME, Level, Opening, Upright
from layouts.lengths import show, up
from layouts.nail_count import FITS, nailed
from layouts.plan import Plan
from layouts.roof import Eave, Roof
from layouts.row import Row, Rows
from layouts.spec import FOOT
from layouts.walls import Wall

STRETCH = FOOT
"""Inches that a stretch without a row may be longer than the step (common practice, no source)."""


def all_of(job: Job, plan: Plan, roof: Roof, rows: Rows, laid: Sequence[Wall]) -> tuple[Warned, ...]:
    """Every warning of the rows."""
    return (
        *each(Cost.CUT, _floor(job)),
        *each(Cost.CUT, _wide(job, plan)),
        *each(Cost.CUT, dict.fromkeys(_stretches(job, roof, rows))),
        *_left_out(rows, laid),
        *each(Cost.CUT, _ends(job, laid)),
        *each(Cost.LOOK, _unheld(job, laid)),
    )


def _floor(job: Job) -> Iterator[str]:
    """A floor whose edge no board holds."""
    part, style = job.grade, job.style
    top = part.boards * part.board.wide
    if part.floor > top + SAME:
        boards = "board" if part.boards == 1 else "boards"
        yield (
            f"The finished floor is {show(part.floor, style)} above the grade line, over the top of the grade {boards} "
            f"at {show(top, style)}: is grade.floor right?"
        )


def _wide(job: Job, plan: Plan) -> Iterator[str]:
    """Girts that lie between columns shallower than they are wide."""
    if job.girts.place != "between":
        return
    column, style, wide = job.column, job.style, job.girts.board.wide
    deep = {"Sidewalls": column.depth}
    if any(spot.role == "end" for spot in plan.spots):
        deep["Endwalls"] = column.depth if column.endwall_face == "width" else column.width
    for walls, depth in deep.items():
        if wide > depth + SAME:
            yield (
                f"{walls}: girts that lie between the columns are {show(wide, style)} wide, the columns "
                f"{show(depth, style)} deep: they stand out by {show(wide - depth, style, rounded=up)}."
            )


# --- stretches without a row ------------------------------------------------------------------------------------------


def _stretches(job: Job, roof: Roof, rows: Rows) -> Iterator[str]:
    """Walls that a height has left a wide stretch of without a row, below the wainscot nailer or over the top girt."""
    for i, eave in enumerate((roof.left, roof.right)[: 1 if job.roof.shape == "lean-to" else 2]):
        inside = rows.inner_sides[i] if job.girts.place == "inside" else ()
        kind = sorted((*rows.sides[i], *inside), key=lambda row: row.low)
        for a, b in pairwise(kind):
            if (a.key, b.key) == ("grade board", "wainscot nailer"):
                yield from _stretch(job, "the grade board", a.high, "the wainscot nailer", b.low, "wainscot.height")
        if job.girts.top is not None:
            yield from _over(job, eave, kind)


def _over(job: Job, eave: Eave, kind: Sequence[Row]) -> Iterator[str]:
    """What stands open over the highest girt, where the job says how high that is: up to the soffit nailer, a carrier,
    or the bearing."""
    top = max(row.high for row in kind if row.key == "top girt")
    above = next((row for row in kind if row.low >= top - SAME and row.key in ("soffit nailer", "carrier")), None)
    if above is None:
        yield from _stretch(job, "the top girt", top, "the bearing", eave.bearing, "girts.top")
    else:
        yield from _stretch(job, "the top girt", top, f"the {above.key}", above.low, "girts.top")


def _stretch(job: Job, below: str, low: float, above: str, high: float, field: str) -> Iterator[str]:
    style, step = job.style, job.girts.step
    if high - low > step + STRETCH + SAME:
        yield (
            f"No row between {below}, up to {show(low, style)}, and {above}, from {show(high, style)}: "
            f"{show(high - low, style)} of wall, and girts.step is {show(step, style)}. Is {field} right?"
        )


# --- rows that an opening leaves out ----------------------------------------------------------------------------------


def _left_out(rows: Rows, laid: Sequence[Wall]) -> Iterator[Warned]:
    """Rows without a board in a whole bay, where a header or a sill lies across them and does not take their place."""
    found = [(row, one) for wall in laid for row, one in _crossed(rows, wall)]
    nailers = [said for row, said in found if row.key == "wainscot nailer"]
    if nailers:
        end = "nothing holds the wainscot's edge there. Move wainscot.height or the opening."
        yield Warned(Cost.CUT, f"Left out of a whole bay, as a header or sill lies across: {'; '.join(nailers)}: {end}")
    others = [said for row, said in found if row.key != "wainscot nailer"]
    if others:
        end = "What is nailed to it is nailed to that header or sill there, at another height."
        yield Warned(Cost.LOOK, f"Left out of a whole bay, as a header or sill lies across: {'; '.join(others)}. {end}")


def _crossed(rows: Rows, wall: Wall) -> Iterator[tuple[Row, str]]:
    """The rows of a wall that are left out, each with its bay in words."""
    for row in (*rows.of(wall.line), *rows.inner(wall.line)):
        for opening in wall.openings:
            for board in opening.levels:
                if row.key != "grade board" and _across(wall, opening, board, row):
                    bay = f"wall {wall.name}, {opening.columns[0]} to {opening.columns[1]}"
                    yield row, f"{row.name.lower()}, {bay}, {board.key} {opening.name}"


def _across(wall: Wall, opening: Opening, board: Level, row: Row) -> bool:
    """Whether *board* goes from column to column, meets *row* and does not cover it."""
    ends = [stand.centre for stand in wall.stands if stand.name in opening.columns]
    whole = board.start <= min(ends) + SAME and board.end >= max(ends) - SAME
    meets = row.layer == board.layer and row.low < board.high - SAME and row.high > board.low + SAME
    return (
        whole
        and meets
        and row.layer != "between"
        and not (row.low >= board.low - SAME and row.high <= board.high + SAME)
    )


# --- ends -------------------------------------------------------------------------------------------------------------


def _ends(job: Job, laid: Sequence[Wall]) -> Iterator[str]:
    """Rows inside that begin beyond the corner column, where no corner board stands for them."""
    if job.corners.board is not None:
        return
    bare = [
        wall.name
        for wall in laid
        if wall.inner and -members.inner_ends(job, wall.line) >= wall.stands[0].right - wall.stands[0].left - SAME
    ]
    if bare:
        yield (
            f"Wall{'s' * (len(bare) > 1)} {', '.join(bare)}: rows inside end beyond the corner columns, nailed to "
            "nothing there: corners.board gives them nailing."
        )


def _unheld(job: Job, laid: Sequence[Wall]) -> Iterator[str]:
    """Girts high up in a gable that no column and no jamb post is behind. Of columns that all end low it is told with
    their tops."""
    if job.tops.endwall_ears in ("bearing", "chord bottom"):
        return
    bare = [
        f"{course.row.name.lower()}, wall {wall.name}"
        for wall in laid
        for course in wall.all_courses
        if course.row.key == "gable girt" and not all(_held(wall, course, piece) for piece in course.pieces)
    ]
    if bare:
        end = "What has none is nailed to the endwall truss once that stands, not before the lift."
        yield f"No column is behind: {'; '.join(bare)}. {end}"


def _held(wall: Wall, course: Course, piece: Piece) -> bool:
    """Whether a board of a row is nailed to anything that stands in its wall."""
    alone = structs.replace(course, pieces=(piece,))
    posts = (post for opening in wall.openings for post in opening.uprights)
    return any(nailed(alone, stand) for stand in wall.stands) or any(_at_post(piece, post) for post in posts)


def _at_post(piece: Piece, post: Upright) -> bool:
    """Whether a board lies on a jamb post or a cripple, or ends at one."""
    start, end = min(piece.low[0], piece.high[0]), max(piece.low[1], piece.high[1])
    beside = post.right >= start - FITS and post.left <= end + FITS
    return beside and post.low < piece.row.high - SAME and post.high > piece.row.low + SAME
