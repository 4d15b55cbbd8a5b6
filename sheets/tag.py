"""Column tags: one a column, cut apart and stapled on, or each on a label or sheet of its own.

Biggest first: the name, which end is up and which face is out, the offset, high or low in words, the cuts from the
bottom end. A sidewall tag goes on a side face (the slope shows there), an endwall tag on the outside face. What is said
stands in ``tag_words``, how it finds room in ``tag_fit``, and ``tag_drawn`` draws it; here are the sizes of tags and
their pages.
"""

from __future__ import annotations

from msgspec.structs import replace

from layouts.building import Building
from layouts.columns import Column
from layouts.fields import Job
from layouts.languages import BESIDE
from layouts.problems import JobRefused, Problem
from layouts.tag_size import COUNTS, MOST
from layouts.tag_size import size as size_text
from sheets import tag_choose, tag_drawn
from sheets.frame import Body
from sheets.ink import inked
from sheets.language import both
from sheets.lettering import fit, write
from sheets.paper import Area, Paper
from sheets.shapes import Drawing, Recorder
from sheets.tag_choose import NoRoom
from sheets.tag_fit import Fit
from sheets.tag_type import Form
from sheets.tag_words import Words, words

INK = 0.07  # of a page, with its footer a little more: under 8 % of it comes out dark, as letters spread
ALONE = 0.075  # of a label, which has no footer
PAGE = 8.5 * 11  # the sheet that the sizes go by
# tags of a page: their size goes on Letter and on A4 with half an inch blank all round; and the scale of their type
SIZES = {
    1: (7.2, 9.5, 0.2, 1.0),
    2: (4.9, 6.8, 0.14, 0.92),
    4: (3.6, 4.75, 0.11, 0.66),
    6: (3.3, 3.4, 0.1, 0.52),
}
LARGER = {1: (1, 1.4), 2: (1, 1.25), 4: (2, 0.92), 6: (4, 0.66)}  # large print: a larger tag, and its scale
WIDE, TALL = SIZES[2][:2]
EDGE = 0.17  # of a label: what printers leave blank (1/6 in on many, common practice, no source)
LABEL = 0.29, 1.25  # the scale of a label's type by the root of its square inches; large print that much more


def form(job: Job) -> Form:
    """The tag that *job* asks for."""
    asked, large = job.job.tags, job.job.print == "large"
    if asked.count:
        count, scale = LARGER[asked.count] if large else (asked.count, SIZES[asked.count][3])
        if job.job.language.startswith(BESIDE):  # twice the words: a tag as large as that of one step fewer
            count = LARGER[count][0]
        wide, tall, pad, _ = SIZES[count]
        return Form(wide, tall, pad, True, scale, INK * PAGE / count, large, count == 1)
    area = asked.wide * asked.tall
    scale = min(LABEL[0] * area**0.5 * 0.5, 1.4) * (LABEL[1] if large else 1.0)
    return Form(asked.wide, asked.tall, EDGE, False, scale, ALONE * area, large)


def standard(job: Job) -> Form:
    """The tag of two to a page, of one in two languages, for where there is no paper."""
    count = 1 if job.job.language.startswith(BESIDE) else 2
    wide, tall, pad, scale = SIZES[count]
    return Form(wide, tall, pad, True, scale, INK * PAGE / count, whole=count == 1)


def pages(building: Building, paper: Paper) -> list[Body]:
    """The tags of all columns that were read, in walking order. Raises ``JobRefused`` where the job's tags are too
    small for one of them."""
    job = building.job
    if not job.job.tags.count:
        return [_label(building, column) for column in building.columns]
    own = form(job)
    paper = max((paper.lying(), paper.lying().turned()), key=lambda p: _fits(p.body, own))
    across, up = _grid(paper.body, own)
    own = _on(own, paper, across * up)
    return [
        _page(building, building.columns[first : first + across * up], own, paper, across)
        for first in range(0, len(building.columns), across * up)
    ]


def _on(own: Form, paper: Paper, count: int) -> Form:
    """The tag on this paper: no larger than what of it is left, no more ink than its share."""
    area = paper.body
    ink = min(own.ink, INK * paper.width * paper.height / count)
    return replace(own, wide=min(own.wide, area.width), tall=min(own.tall, area.height), ink=ink)


def _page(building: Building, held: tuple[Column, ...], own: Form, paper: Paper, across: int) -> Body:
    """As many tags as go on a page."""
    area = paper.body
    up = _grid(area, own)[1]
    step_x, step_y = _step(area.width, own.wide, across), _step(area.height, own.tall, up)
    pen = Recorder(paper.width, paper.height)
    parts = []
    for i, column in enumerate(held):
        drawing, code = tag(building, column, own)
        top = area.y1 - (area.height - own.tall) / 2 if up == 1 else area.y1
        pen.place(drawing.shapes, area.x0 + i % across * step_x, top - own.tall - i // across * step_y)
        parts.append((f"Tag {column.name}", code))
    last = f" and {held[-1].name}" if len(held) == 2 else f" to {held[-1].name}"
    title = f"Tags {held[0].name}{last}" if len(held) > 1 else f"Tag {held[0].name}"
    return Body("tags", title, pen.drawing(), paper, parts=tuple(parts))


def _label(building: Building, column: Column) -> Body:
    """One tag that fills its page."""
    drawing, code = tag(building, column)
    name = size_text(drawing.width, drawing.height, building.job.style.unit)
    paper = Paper(name, drawing.width, drawing.height, EDGE)
    return Body("tags", f"Tag {column.name}", drawing, paper, parts=((f"Tag {column.name}", code),), bare=True)


def _fits(area: Area, own: Form) -> int:
    return int(area.width / own.wide + 1e-9) * int(area.height / own.tall + 1e-9)


def _grid(area: Area, own: Form) -> tuple[int, int]:
    """How many tags stand side by side and one above the other: one at the least."""
    return max(int(area.width / own.wide + 1e-9), 1), max(int(area.height / own.tall + 1e-9), 1)


def _step(room: float, size: float, count: int) -> float:
    """From one tag to the next, spread over the page."""
    return (room - size) / (count - 1) if count > 1 else 0.0


@both()
def tag(building: Building, column: Column, own: Form | None = None) -> tuple[Drawing, str]:
    """One tag, and its stamp; *own* is its form if paper has made it smaller. Raises ``JobRefused`` where it is too
    small."""
    said = words(building, column)
    own = own or form(building.job)
    try:
        found = tag_choose.choose(said, own, lambda way: inked(_drawn(building, column, way).shapes))
    except NoRoom:
        raise _too_small(building, column, said, own) from None
    return _drawn(building, column, found), said.stamp


def _drawn(building: Building, column: Column, found: Fit) -> Drawing:
    """The tag with its date and stamp."""
    form = found.form
    pen = Recorder(form.wide, form.tall)
    pen.begin(f"tag-{column.name}", f"tag of column {column.name}")
    tag_drawn.draw(pen, found, column)
    pen.end()
    pen.begin("stamp")
    tail = "  ·  ".join(w for w in (building.job.job.date, f"stamp {found.words.stamp}") if w)
    low = (0.08 if form.framed else form.pad + 0.02) + found.stamp * 0.02
    write(
        pen,
        form.wide - form.pad,
        low,
        tail,
        fit(tail, found.stamp, found.small_cut, found.under),
        found.small_cut,
        "right",
    )
    pen.end()
    return pen.drawing()


def _too_small(building: Building, column: Column, said: Words, own: Form) -> JobRefused:
    """What is wrong, and the least size that would do."""

    def goes(wide: float, tall: float) -> bool:
        larger = replace(own, wide=wide, tall=tall, ink=own.ink * wide * tall / (own.wide * own.tall))
        try:
            tag_choose.choose(said, larger, lambda way: inked(_drawn(building, column, way).shapes))
        except NoRoom:
            return False
        return True

    asked, unit = building.job.job.tags, building.job.style.unit
    rows = f"{len(said.cuts)} cuts" + (f" and {len(said.marks)} marks" if said.marks else "")
    wrong = f"is too small for the tag of {said.name}, with {rows}."
    if asked.count:
        fewer = [n for n in COUNTS if n < asked.count and goes(*SIZES[n][:2])]
        right = f"At most {max(fewer)} to a page." if fewer else "Take large labels."
        return JobRefused([Problem("job.tags", "", asked.text, wrong, right)])
    wide, tall = own.wide, own.tall
    while tall < MOST[1] and not goes(wide, tall):
        wide, tall = (wide, tall + 0.25) if tall < 1.6 * wide else (wide + 0.25, tall)
    return JobRefused([Problem("job.tags", "", asked.text, wrong, f"At least {size_text(wide, tall, unit)}.")])
