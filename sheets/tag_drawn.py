"""Draws a tag as ``sheets.tag_fit`` has set it: its blocks from the top, each in its own height."""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct

import fonts
from layouts.columns import Column, Top
from sheets.language import SLASH, Said, turn
from sheets.lettering import Align, extent, fit, pt, write
from sheets.shapes import HAIR, MEDIUM, THICK, THIN, Point, Recorder
from sheets.tag_fit import Fit
from sheets.tag_type import CAP, DEEP, FRACTION, HIGH, LEAD, READ
from sheets.tag_words import MARKS, Row

DOTTED = (0.02, 0.06)
LOOSE = 0.3  # of its least height, that a row takes more where there is room


class Frame(Struct, frozen=True):
    """Where a tag's words stand: left, right, and the *levels* between its blocks from the top down; *row* is the
    height of a row."""

    x0: float
    x1: float
    levels: tuple[float, ...]
    row: float


def frame(found: Fit) -> Frame:
    """The places of the blocks: what is left over goes to rows first, then to all blocks alike."""
    form = found.form
    count = len(found.all_rows)
    spare = max(found.spare, 0.0)
    more = min(spare / count, found.row * LOOSE)
    rest = (spare - more * count) / 5
    tall = [*found.blocks]
    tall[3] += more * count
    y = form.tall - min(form.pad, 0.06 if form.framed else 1.0)
    levels = [y]
    for block in tall:
        y -= block + rest
        levels.append(y)
    return Frame(form.pad, form.wide - form.pad, tuple(levels), found.row + more + rest / count)


def draw(pen: Recorder, found: Fit, column: Column) -> None:
    """All of a tag but its date and stamp."""
    form, at = found.form, frame(found)
    if form.framed:
        for a, b in pairwise([(0.0, 0.0), (form.wide, 0.0), (form.wide, form.tall), (0.0, form.tall), (0.0, 0.0)]):
            pen.stroke(*a, *b, found.line, (0.06, 0.12) if found.light else (0.1, 0.08))
    _head(pen, found, at)
    _offset(pen, found, at)
    _said(pen, found, at)
    _rows(pen, found, at)
    _under(pen, found, at, column.top)
    for y in at.levels[1:-1] if found.head != "close" else at.levels[2:-1]:
        pen.stroke(at.x0, y, at.x1, y, found.line)


# --- head and offset -------------------------------------------------------------------------------------------------


def _head(pen: Recorder, found: Fit, at: Frame) -> None:
    """Name in the middle, OUTSIDE to its left as in the picture, TOP to its right; or the two over it."""
    high, low = at.levels[:2]
    if found.head != "beside":
        _strip(pen, found, at, high)
        if found.head == "over":
            _name(pen, found, (at.x0 + at.x1) / 2, low, high - found.strip, "center")
        return
    left, right = found.cells
    label, middle, tall = found.label, (low + high) / 2, high - low
    out, top = at.x0 + left / 2, at.x1 - right / 2
    arrow_low = low + found.air + label * CAP + 0.05
    size = min(max(0.45 * found.scale, 0.24), high - found.air * 0.7 - arrow_low)
    rise = max(0.0, (tall - found.air * 1.7 - label * CAP - 0.05 - size) / 2)
    base = low + found.air + rise
    write(pen, top, base, "TOP", label, found.small_cut, "center")
    arrow(pen, (top, base + label * CAP + 0.05), (top, base + label * CAP + 0.05 + size), size * 0.4)
    if found.words.outside:
        write(pen, out, middle + label * 0.12, "THIS FACE", label, found.small_cut, "center")
        write(pen, out, middle - label * 0.95, "OUTSIDE", label, found.small_cut, "center")
    else:
        y = base + label * CAP + 0.05 + size / 2
        write(pen, out, base, "OUTSIDE", label, found.small_cut, "center")
        arrow(pen, (at.x0 + left, y), (at.x0, y), size * 0.4)
    _name(pen, found, (at.x0 + left + at.x1 - right) / 2, low, high, "center")


def _name(pen: Recorder, found: Fit, x: float, low: float, high: float, align: Align) -> None:
    name, size = found.words.name, found.name
    _, above, below = extent(name, size, fonts.BOLD, fractions=False)
    write(pen, x, (low + high) / 2 - (above - below) / 2, name, size, fonts.BOLD, align, fractions=False)


def _strip(pen: Recorder, found: Fit, at: Frame, high: float) -> None:
    """TOP and OUTSIDE with their arrows in one row."""
    label, tall = found.label, found.strip
    middle = high - tall / 2
    base = middle - label * CAP / 2
    size, (side, begin) = found.strip_arrow, found.strip_side
    arrow(pen, (at.x1 - size * 0.4, middle - size / 2), (at.x1 - size * 0.4, middle + size / 2), size * 0.4)
    write(pen, at.x1 - found.strip_top, base, "TOP", label, found.small_cut, "right")
    if begin:
        arrow(pen, (at.x0 + size * 1.5, middle), (at.x0, middle), size * 0.4)
    write(pen, at.x0 + begin, base, side, label, found.small_cut)


def arrow(pen: Recorder, tail: Point, tip: Point, half: float, shaft: float = 0.2) -> None:
    """A solid arrow along one axis from *tail* to *tip*, its head 2 x *half* wide, its shaft *shaft* of that."""
    along_x = tail[1] == tip[1]
    way = 1 if (tip[0] - tail[0] if along_x else tip[1] - tail[1]) > 0 else -1
    back = half * 1.2 * way
    thin = half * shaft
    if along_x:
        neck = tip[0] - back
        head = [(neck, tip[1] + half), tip, (neck, tip[1] - half)]
        pen.box(tail[0], tail[1] - thin, neck, tail[1] + thin, 0.0, 0.0)
    else:
        neck = tip[1] - back
        head = [(tip[0] - half, neck), tip, (tip[0] + half, neck)]
        pen.box(tail[0] - thin, tail[1], tail[0] + thin, neck, 0.0, 0.0)
    pen.shape(head, 0.0, 0.0)


def _offset(pen: Recorder, found: Fit, at: Frame) -> None:
    """The one personal number under its caption; close to the name where room is short."""
    high, low = at.levels[1:3]
    size, caption = found.offset, found.caption
    close = found.head == "close"
    cap = high - found.air - caption * CAP
    base = (cap - found.air * 0.4 + low) / 2 - (FRACTION[0] - FRACTION[1]) * size / 2
    if close:
        write(pen, at.x1, cap, found.words.short, caption, found.caption_cut, "right")
        write(pen, at.x1, base, found.words.offset, size, found.figure_cut, "right")
        _name(pen, found, at.x0, low, high, "left")
    else:
        write(pen, at.x0, cap, found.words.caption, caption, found.caption_cut)
        write(pen, (at.x0 + at.x1) / 2, base, found.words.offset, size, found.figure_cut, "center")


def _said(pen: Recorder, found: Fit, at: Frame) -> None:
    """High or low, longer or shorter; in a box if it is to be shot again first."""
    high, low = at.levels[2:4]
    size, lines = found.said_size, found.said
    tall = size * (FRACTION[0] + FRACTION[1] + (len(lines) - 1) * found.said_lead)
    y = (high + low + tall) / 2 - size * FRACTION[0]
    for i, line in enumerate(lines):
        write(pen, (at.x0 + at.x1) / 2, y - i * size * found.said_lead, line, size, found.figure_cut, "center")
    if found.words.again:
        x0, y0, x1, y1 = at.x0, low + found.air * 0.6, at.x1, high - found.air * 0.6
        for a, b in pairwise([(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]):
            pen.stroke(*a, *b, max(THICK * found.scale, MEDIUM))


# --- cuts and marks --------------------------------------------------------------------------------------------------


def _rows(pen: Recorder, found: Fit, at: Frame) -> None:
    """Every cut from the bottom end, highest first, as the column lies from top to bottom; then what goes on or under
    it; then the marks that other columns have not."""
    y = at.levels[3] - found.row_head
    write(pen, at.x0, y + found.air * 0.7, found.words.head, found.caption, found.caption_cut)
    for i, row in enumerate(found.words.cuts):
        if i:
            pen.stroke(at.x0, y, at.x1, y, HAIR, DOTTED if found.light else ())
        y -= at.row
        _row(pen, found, at, row, y)
    if found.words.marks:
        pen.stroke(at.x0, y, at.x1, y, THIN)
        y -= found.row_head
        write(pen, at.x0, y + found.air * 0.7, MARKS, found.caption, fonts.BOLD)
    for i, row in enumerate(found.words.marks):
        if i:
            pen.stroke(at.x0, y, at.x1, y, HAIR, DOTTED if found.light else ())
        y -= at.row
        _row(pen, found, at, row, y)


def _row(pen: Recorder, found: Fit, at: Frame, row: Row, y: float) -> None:
    """One height with its name, on a row whose lower edge is *y*."""
    name, where, text = row
    size, called, small = found.cut_figure, found.cut_name, found.where
    floor = y + small * 1.05 if found.rows == "under" else y
    middle = (floor + y + at.row) / 2
    base = middle - (FRACTION[0] - FRACTION[1]) * size / 2
    write(pen, at.x1, base, text, size, found.figure_cut, "right")
    if found.rows == "two lines":
        gap = max(0.0, at.row - called * (CAP + DEEP) - small * (HIGH + DEEP)) * 0.4  # less between the two
        write(pen, at.x0, y + at.row - gap - called * CAP, name, called, found.small_cut)
        write(pen, at.x0, y + gap + small * DEEP, where, small)
        return
    line = middle - called * CAP / 2
    taken = write(pen, at.x0, line, name, called, found.small_cut)
    if found.rows == "one line":
        write(pen, at.x0 + taken + 0.08, line, where, small)
    else:
        write(pen, at.x0, y + small * 0.28, where, small)


# --- under them ------------------------------------------------------------------------------------------------------


def _under(pen: Recorder, found: Fit, at: Frame, top: Top) -> None:
    """Stock, which end is cut, where it stands, and the reading behind it all; beside a picture of the top."""
    high, low = at.levels[4:6]
    x = at.x0 + found.picture
    y = high - found.air * 0.6 - found.stock_size * FRACTION[0]
    write(pen, x, y, found.stock, found.stock_size, found.small_cut)
    y -= found.stock_size * FRACTION[1]
    for line in found.lines:
        y -= found.small * LEAD
        write(pen, x, y + found.small * 0.2, line, found.small)
    if found.picture:
        _picture(pen, top, (at.x0, low + 0.03, found.picture - 0.1, high - low - 0.1))


def _picture(pen: Recorder, top: Top, box: tuple[float, float, float, float]) -> None:
    """The top of the column at its true slope, seen on the face that the tag is stapled to."""
    x, y, room, tall = box
    points = [*top.ears, *top.centre]
    wide = max(u for u, _ in points)
    low, high = min(h for _, h in points), max(h for _, h in points)
    scale = min(room * 0.32 / wide, 0.7 * tall / max(high - low, 1.0))
    x0 = x + (room - wide * scale) / 2
    foot = y + max(0.2, 0.5 * (tall - (high - low) * scale)) * (1.0 if high - low > 1 else 1.4)
    foot = min(foot, y + tall - (high - low) * scale)

    def at(u: float, h: float) -> Point:
        return x0 + u * scale, foot + (h - low) * scale

    pen.shape([(x0, y), *(at(*p) for p in top.ears), (x0 + wide * scale, y)], None, MEDIUM)
    if top.centre != top.ears:
        for a, b in pairwise([at(*p) for p in top.centre]):
            pen.stroke(*a, *b, THICK, (0.08, 0.05))
    side = (room - wide * scale) / 2 - 0.05
    _beside(pen, top.left, x0 - 0.05, y + 0.06, side, "right")
    _beside(pen, top.right, x0 + wide * scale + 0.05, y + 0.06, side, "left")


def _beside(pen: Recorder, text: str, x: float, y: float, room: float, align: Align) -> None:
    """What lies to one side of the picture, a word a line."""
    said = turn(text)
    parts = [Said(text) for text in (said.split(SLASH) if SLASH in said else said.split(" ", 1))]
    if any(fit(text, pt(READ), fonts.BOLD, room, fractions=False) < pt(READ) * 0.8 for text in parts):
        parts = [Said(text) for text in said.split()]  # such as the standing wall's: a word a line
    for i, part in enumerate(reversed(parts)):
        size = fit(part, pt(READ), fonts.BOLD, room, fractions=False)
        write(pen, x, y + i * 0.15, part, size, fonts.BOLD, align, fractions=False)
