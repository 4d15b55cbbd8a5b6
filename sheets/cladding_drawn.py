"""The picture of a wall or a slope with its sheets, numbered as they are set.

Every sheet is an outline in a group of its own, ``clad-NAME``; openings lie over them on white, dashed. A slope is seen
from its eave: over wall A its front end is on the right.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import fonts
from layouts.lengths import Style, show
from layouts.openings import Opening
from layouts.sheeting import Face, Point, Sheet
from sheets.lettering import fit, pt, width, write
from sheets.paper import Paper
from sheets.shapes import HEAVY, MEDIUM, THIN, Drawing, Recorder
from sheets.view import even

FOOT = 0.5  # under the picture: the widths of the first and the last strip
LABEL, LEAST, SMALL = pt(12), pt(7.5), pt(10.5)
TEXT = 3.4  # inches of a page that words and a short table take
MOST = 0.035  # inches of page for an inch of building: larger says nothing more


def outline(face: Face, sheet: Sheet) -> list[Point]:
    """The corners of a sheet as the picture has them, inches of the building: from the face's left edge and, of a wall,
    the grade line."""
    points = [(sheet.left, sheet.low), *sheet.top, (sheet.right, sheet.low)]
    if abs(sheet.top[0][1] - sheet.low) < 1e-6 or sheet.top[0][0] > sheet.left + 1e-6:
        points = points[1:]
    if abs(sheet.top[-1][1] - sheet.low) < 1e-6 or sheet.top[-1][0] < sheet.right - 1e-6:
        points = points[:-1]
    return [(_across(face, x), y) for x, y in points]


def _across(face: Face, x: float) -> float:
    """From the left edge of the picture."""
    return face.right - x if face.roof and face.side == "left" else x - face.left


def _size(face: Face) -> tuple[float, float]:
    """How wide and how high it is, inches of the building."""
    return face.right - face.left, max(y for s in face.sheets for _, y in s.top)


def _scale(face: Face, wide: float, tall: float) -> float:
    across, high = _size(face)
    return min(wide / across, (tall - FOOT) / high, MOST)


def best(face: Face, paper: Paper) -> Paper:
    """Upright, or lying where that shows a face larger."""
    lying = paper.turned() if paper.height > paper.width else paper
    upright = paper if paper.height > paper.width else paper.turned()
    scales = [_scale(face, p.body.width, p.body.height - TEXT) for p in (upright, lying)]
    return lying if scales[1] > scales[0] * 1.2 else upright


def picture(face: Face, style: Style, wide: float, tall: float) -> Drawing:
    """The face in at most *wide* by *tall* inches."""
    scale = even(_scale(face, wide, tall), style.unit == "mm")
    across, high = (inches * scale for inches in _size(face))
    pen = Recorder(wide, high + FOOT + 0.1)
    x0 = (wide - across) / 2
    for sheet in face.sheets:
        pen.begin(f"clad-{sheet.name}", f"sheet {sheet.name}")
        pen.shape([(x0 + x * scale, FOOT + y * scale) for x, y in outline(face, sheet)], 1.0, THIN)
        pen.end()
    _openings(pen, face, x0, scale)
    for sheet in face.sheets:
        _label(pen, face, sheet, style, x0, scale)
    if not face.roof:
        pen.stroke(x0 - 0.05, FOOT, x0 + across + 0.05, FOOT, HEAVY)
    _foot(pen, face, style, x0, x0 + across)
    return pen.drawing()


def _openings(pen: Recorder, face: Face, x0: float, scale: float) -> None:
    """Openings with their names."""
    for o in face.openings:
        a, b = (x0 + _across(face, x) * scale for x in (o.left, o.right))
        c, d = FOOT + o.low * scale, FOOT + o.high * scale
        pen.box(a, c, b, d, 1.0, 0.0)
        for p, q in (((a, c), (b, c)), ((b, c), (b, d)), ((b, d), (a, d)), ((a, d), (a, c))):
            pen.stroke(*p, *q, MEDIUM, (0.05, 0.04))
        size = fit(o.name, LABEL, fonts.BOLD, b - a - 0.06, fractions=False)
        if size >= LEAST:
            write(pen, (a + b) / 2, (c + d) / 2 - size * 0.35, o.name, size, fonts.BOLD, "center", fractions=False)
        else:
            size = fit(o.name, LABEL, fonts.BOLD, d - c - 0.06, fractions=False)
            write(pen, (a + b) / 2 + size * 0.35, (c + d) / 2, o.name, size, fonts.BOLD, "center", 90, fractions=False)


def _label(pen: Recorder, face: Face, sheet: Sheet, style: Style, x0: float, scale: float) -> None:
    """Number and length up the sheet, where openings leave most room; of narrow ones every fifth number."""
    a, b = sorted(x0 + _across(face, x) * scale for x in (sheet.left, sheet.right))
    low, high = max(_free(face, sheet), key=lambda run: run[1] - run[0], default=(0.0, 0.0))
    y0, y1 = FOOT + low * scale, FOOT + high * scale
    if y1 - y0 < LEAST * 1.4:
        return  # told in the table
    most = min(LABEL, (b - a) * 0.75)
    for text in (f"{sheet.name}: {show(sheet.order, style)}", sheet.name):
        size = fit(text, most, fonts.BOLD, y1 - y0 - 0.06)
        if size >= LEAST:
            write(pen, (a + b) / 2 + size * 0.35, (y0 + y1) / 2, text, size, fonts.BOLD, "center", 90)
            return
    upright = fit(sheet.name, LABEL, fonts.BOLD, b - a - 0.04)
    if upright >= LEAST and y1 - y0 > upright * 1.4:
        write(pen, (a + b) / 2, (y0 + y1) / 2 - upright * 0.35, sheet.name, upright, fonts.BOLD, "center")
    elif b - a < LEAST / 0.75 and (sheet.number % 5 == 0 or sheet.number == 1):
        size = fit(sheet.name, LABEL, fonts.BOLD, (b - a) * 4)
        if y1 - y0 > size * 1.4:
            _on_white(pen, (a + b) / 2, (y0 + y1) / 2, sheet.name, size)


def _on_white(pen: Recorder, x: float, y: float, text: str, size: float) -> None:
    half = width(text, size, fonts.BOLD) / 2 + 0.02
    pen.box(x - half, y - size * 0.5, x + half, y + size * 0.5, 1.0, 0.0)
    write(pen, x, y - size * 0.35, text, size, fonts.BOLD, "center")


def _free(face: Face, sheet: Sheet) -> Iterator[tuple[float, float]]:
    """What openings leave of a sheet over its whole width, under the lower one of its edges."""
    low, high = sheet.low, max(min(sheet.edges), sheet.length / 2) + sheet.low
    for o in sorted(_over(face.openings, sheet), key=lambda o: o.low):
        if o.low > low:
            yield low, min(o.low, high)
        low = max(low, o.high)
    if high > low:
        yield low, high


def _over(openings: Sequence[Opening], sheet: Sheet) -> Iterator[Opening]:
    return (o for o in openings if o.left < sheet.right and sheet.left < o.right)


def _foot(pen: Recorder, face: Face, style: Style, left: float, right: float) -> None:
    """Where setting starts, and the widths of the first and the last strip."""
    first, last = show(face.first, style), show(face.last, style)
    flipped = face.roof and face.side == "left"
    from_right = (face.begin == "right") if not face.roof else ((face.begin == "front") == flipped)
    ends = (f"last one {last}", f"SET FIRST: {first}") if from_right else (f"SET FIRST: {first}", f"last one {last}")
    names = ("", "")
    if face.roof:
        names = ("BACK, ", "FRONT, ") if flipped else ("FRONT, ", "BACK, ")
    texts = [f"{name}{end}" for name, end in zip(names, ends, strict=True)]
    room = (right - left) / 2 - 0.1
    y = FOOT - 0.28
    sizes = [fit(text, SMALL, fonts.BOLD, max(room, 1.2)) for text in texts]
    write(pen, left, y, texts[0], sizes[0], fonts.BOLD, "left")
    write(pen, right, y, texts[1], sizes[1], fonts.BOLD, "right")
