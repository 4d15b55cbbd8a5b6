"""The picture of a wall or a slope with its sheets, numbered as they are set.

Every sheet is an outline in a group of its own, ``clad-NAME``; openings lie over them on white, dashed. A slope is seen
from its eave: over wall A its front end is on the right.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import fonts
from layouts.lengths import Style, show
from layouts.openings import Opening
from layouts.sheeting import Face, Sheet
from sheets.lettering import fit, pt, width, write
from sheets.paper import Paper
from sheets.shapes import HEAVY, MEDIUM, THIN, Drawing, Recorder
from sheets.view import even

FOOT = 0.5  # under the picture: the widths of the first and the last strip
LABEL, LEAST, SMALL = pt(12), pt(7.5), pt(10.5)
TEXT = 3.4  # inches of a page that words and a short table take
MOST = 0.035  # inches of page for an inch of building: larger says nothing more


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
    lying = paper.lying()
    upright = lying.turned()
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
        pen.shape([(x0 + _across(face, x) * scale, FOOT + y * scale) for x, y in sheet.outline], 1.0, THIN)
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
        size = _fitted(o.name, LABEL, b - a - 0.06)
        if size >= LEAST:
            write(pen, (a + b) / 2, (c + d) / 2 - size * 0.35, o.name, size, fonts.BOLD, "center", fractions=False)
        else:
            size = _fitted(o.name, LABEL, d - c - 0.06)
            write(pen, (a + b) / 2 + size * 0.35, (c + d) / 2, o.name, size, fonts.BOLD, "center", 90, fractions=False)


def _fitted(text: str, size: float, room: float) -> float:
    """The em at which a text fits; nothing where there is no room."""
    return fit(text, size, fonts.BOLD, room) if room > 0 else 0.0


def _label(pen: Recorder, face: Face, sheet: Sheet, style: Style, x0: float, scale: float) -> None:
    """Number and length up the sheet, where openings leave most room; of narrow ones every fifth number. What has
    no room is told in the table."""
    a, b = sorted(x0 + _across(face, x) * scale for x in (sheet.left, sheet.right))
    most = min(LABEL, (b - a) * 0.75)
    low, high = max(_free(face, sheet, most / scale), key=lambda run: run[1] - run[0], default=(0.0, 0.0))
    x, y, room = (a + b) / 2, FOOT + (low + high) / 2 * scale, (high - low) * scale - 0.06
    if face.cover * scale < LEAST / 0.75:
        size = _fitted(sheet.name, LABEL, face.cover * scale * 4)
        if (sheet.number % 5 == 0 or sheet.number == 1) and size < room:
            _on_white(pen, x, y, sheet.name, size)
        return
    for text in (f"{sheet.name}: {show(sheet.order, style)}", sheet.name):
        size = _fitted(text, most, room)
        if size >= LEAST:
            write(pen, x + size * 0.35, y, text, size, fonts.BOLD, "center", 90)
            return
    level = _fitted(sheet.name, LABEL, b - a - 0.04)
    if LEAST <= level < room:
        write(pen, x, y - level * 0.35, sheet.name, level, fonts.BOLD, "center")


def _on_white(pen: Recorder, x: float, y: float, text: str, size: float) -> None:
    half = width(text, size, fonts.BOLD) / 2 + 0.02
    pen.box(x - half, y - size * 0.5, x + half, y + size * 0.5, 1.0, 0.0)
    write(pen, x, y - size * 0.35, text, size, fonts.BOLD, "center")


def _free(face: Face, sheet: Sheet, wide: float) -> Iterator[tuple[float, float]]:
    """What openings leave of a sheet for words *wide* inches of the building wide in its middle, under its upper
    edge."""
    middle = (sheet.left + sheet.right) / 2
    low, high = sheet.low, sheet.low + min(sheet.over(middle + off) for off in (-wide / 2, wide / 2))
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
