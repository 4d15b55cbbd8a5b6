"""The picture of a wall or a slope with its sheets, numbered as they are set.

Every sheet is an outline in a group of its own, ``clad-NAME``; openings lie over them on white, dashed. A slope is seen
from its eave: over wall A its front end is on the right.
"""

from __future__ import annotations

import fonts
from layouts.lengths import Style, show
from layouts.sheeting import Face
from sheets.cladding_names import LABEL, LEAST, Name, across, fitted, names
from sheets.lettering import fit, pt, write
from sheets.paper import Paper
from sheets.shapes import HEAVY, MEDIUM, THIN, Drawing, Recorder
from sheets.view import even

FOOT = 0.5  # under the picture: the widths of the first and the last strip
SMALL = pt(10.5)
TEXT = 3.4  # inches of a page that words and a short table take
MOST = 0.035  # inches of page for an inch of building: larger says nothing more


def _size(face: Face) -> tuple[float, float]:
    """How wide and how high it is, inches of the building."""
    return face.right - face.left, max(y for s in face.sheets for _, y in s.top)


def _scale(face: Face, wide: float, tall: float) -> float:
    long, high = _size(face)
    return min(wide / long, (tall - FOOT) / high, MOST)


def best(face: Face, paper: Paper) -> Paper:
    """Upright, or lying where that shows a face larger."""
    lying = paper.lying()
    upright = lying.turned()
    scales = [_scale(face, p.body.width, p.body.height - TEXT) for p in (upright, lying)]
    return lying if scales[1] > scales[0] * 1.2 else upright


def picture(face: Face, style: Style, wide: float, tall: float) -> tuple[Drawing, list[str]]:
    """The face in at most *wide* by *tall* inches and what names outside of it take, and the sheets whose names have no
    place."""
    scale = even(_scale(face, wide, tall), style.unit == "mm")
    wall, high = (inches * scale for inches in _size(face))
    named, nameless = names(face, style, scale)
    outside = [name for name in named if name.stroke is not None]
    low = max((name.half - name.y for name in outside if name.y < 0), default=0.0)
    high = max([high, *(name.y + name.half for name in outside)])
    x0, y0 = (wide - wall) / 2, FOOT + low
    pen = Recorder(wide, y0 + high + 0.1)
    for sheet in face.sheets:
        pen.begin(f"clad-{sheet.name}", f"sheet {sheet.name}")
        pen.shape([(x0 + across(face, x) * scale, y0 + y * scale) for x, y in sheet.outline], 1.0, THIN)
        pen.end()
    _openings(pen, face, x0, y0, scale)
    for name in named:
        _name(pen, name, x0, y0)
    if not face.roof:
        pen.stroke(x0 - 0.05, y0, x0 + wall + 0.05, y0, HEAVY)
    _foot(pen, face, style, x0, x0 + wall)
    return pen.drawing(), nameless


def _openings(pen: Recorder, face: Face, x0: float, y0: float, scale: float) -> None:
    """Openings with their names."""
    for o in face.openings:
        a, b = (x0 + across(face, x) * scale for x in (o.left, o.right))
        c, d = y0 + o.low * scale, y0 + o.high * scale
        pen.box(a, c, b, d, 1.0, 0.0)
        for p, q in (((a, c), (b, c)), ((b, c), (b, d)), ((b, d), (a, d)), ((a, d), (a, c))):
            pen.stroke(*p, *q, MEDIUM, (0.05, 0.04))
        size = fitted(o.name, LABEL, b - a - 0.06)
        if size >= LEAST:
            write(pen, (a + b) / 2, (c + d) / 2 - size * 0.35, o.name, size, fonts.BOLD, "center", fractions=False)
        else:
            size = fitted(o.name, LABEL, d - c - 0.06)
            write(pen, (a + b) / 2 + size * 0.35, (c + d) / 2, o.name, size, fonts.BOLD, "center", 90, fractions=False)


def _name(pen: Recorder, name: Name, x0: float, y0: float) -> None:
    """The words of a sheet, on white where they lie over edges, with their stroke where they stand outside."""
    x, y, down = x0 + name.x, y0 + name.y, name.size * 0.35
    if name.white:
        half = name.half + 0.02
        pen.box(x - half, y - name.size * 0.5, x + half, y + name.size * 0.5, 1.0, 0.0)
    if name.stroke is not None:
        xa, ya, xb, yb = name.stroke
        pen.stroke(x0 + xa, y0 + ya, x0 + xb, y0 + yb, THIN)
    place = (x + down, y) if name.turned else (x, y - down)
    write(pen, *place, name.words, name.size, fonts.BOLD, "center", 90 if name.turned else 0)


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
