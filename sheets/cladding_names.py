"""Where the names of sheets stand in the picture of a wall or a slope.

A sheet has its name, and its length where there is room, in what is seen of it: not under an end lap, not in an
opening. Where an opening takes the middle of a strip its name stands beside it; where nothing of a sheet has room,
outside of the picture, over or under its own strip, with a stroke to it. Places are inches of the page, from the left
edge and the zero line of the picture; stretches of a face are inches of the building.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from msgspec import Struct

import fonts
from layouts.lengths import Style, show
from layouts.openings import Opening
from layouts.sheeting import SAME, Face, Sheet, Strip
from sheets.lettering import fit, pt, width

LABEL, LEAST = pt(12), pt(7.5)
AIR = 0.06  # inches that words leave free of what they stand between
REACH, GAP = 0.06, 0.07  # inches of a stroke to a name: into its sheet, and out to the words
APART = LEAST * 1.1  # inches between names outside of the picture
EVERY = 5  # of strips too narrow for words every fifth is named


class Name(Struct, frozen=True):
    """Words of a sheet: the middle of their line at (*x*, *y*), their *size* (em), *turned* up the page or level,
    *white* on a ground of their own; a *stroke* leads from its first point, in the sheet, to the words."""

    sheet: str
    words: str
    x: float
    y: float
    size: float
    turned: bool = True
    white: bool = False
    stroke: tuple[float, float, float, float] | None = None

    @property
    def half(self) -> float:
        """Half of what its words take along their line, inches."""
        return width(self.words, self.size, fonts.BOLD) / 2


def across(face: Face, x: float) -> float:
    """From the left edge of the picture, inches of the building: a slope over wall A has its front on the right."""
    return face.right - x if face.roof and face.side == "left" else x - face.left


def fitted(text: str, size: float, room: float) -> float:
    """The em at which a text fits into *room* inches; nothing where there is no room."""
    return fit(text, size, fonts.BOLD, room) if room > 0 else 0.0


def names(face: Face, style: Style, scale: float) -> tuple[list[Name], list[str]]:
    """The names in the picture of a face at a *scale*, and those of sheets that have no place."""
    if face.cover * scale < LEAST / 0.75:
        return [name for sheet in face.sheets for name in _fifth(face, sheet, scale)], []
    found: list[Name] = []
    left: list[Sheet] = []
    for sheet in face.sheets:
        name = _inside(face, sheet, style, scale)
        if name is None:
            left.append(sheet)
        else:
            found.append(name)
    for above in (False, True):
        outside = list(_outside(face, left, scale, above))
        found += outside
        left = [sheet for sheet in left if sheet.name not in {name.sheet for name in outside}]
    return found, [sheet.name for sheet in left]


def _inside(face: Face, sheet: Sheet, style: Style, scale: float) -> Name | None:
    """Number and length up the sheet, or the number alone, or the number level."""
    stretches = list(_stretches(face.openings, sheet))
    for text in (f"{sheet.name}: {show(sheet.order, style)}", sheet.name):
        for a, b in stretches:
            most = min(LABEL, (b - a) * scale * 0.75)
            low, high = _room(face, sheet, (a, b), most / scale)
            size = fitted(text, most, (high - low) * scale - AIR)
            if size >= LEAST:
                return Name(sheet.name, text, across(face, (a + b) / 2) * scale, (low + high) / 2 * scale, size)
    for a, b in stretches:
        most = fitted(sheet.name, LABEL, (b - a) * scale - 0.04)
        for size in (most, LEAST):
            low, high = _room(face, sheet, (a, b), width(sheet.name, size, fonts.BOLD) / scale)
            if LEAST <= size <= most and size < (high - low) * scale - AIR:
                x, y = across(face, (a + b) / 2) * scale, (low + high) / 2 * scale
                return Name(sheet.name, sheet.name, x, y, size, turned=False)
    return None


def _fifth(face: Face, sheet: Sheet, scale: float) -> Iterator[Name]:
    """Of narrow strips every fifth number, on white, over its neighbours."""
    if sheet.number % EVERY and sheet.number != 1:
        return
    middle, size = (sheet.left + sheet.right) / 2, fitted(sheet.name, LABEL, face.cover * scale * (EVERY - 1))
    half = width(sheet.name, size, fonts.BOLD) / scale / 2
    low, high = _room(face, sheet, (middle - half, middle + half), 0.0)
    if size < (high - low) * scale - AIR:
        x, y = across(face, middle) * scale, (low + high) / 2 * scale
        yield Name(sheet.name, sheet.name, x, y, size, turned=False, white=True)


# --- what is seen of a sheet ------------------------------------------------------------------------------------------


def _stretches(openings: Sequence[Opening], sheet: Sheet) -> list[Strip]:
    """The whole width of a sheet, then what the sides of openings part it into, widest first."""
    sides = (x for o in openings for x in (o.left, o.right) if sheet.left < x < sheet.right)
    return sorted(combinations(sorted({sheet.left, sheet.right, *sides}), 2), key=lambda s: s[0] - s[1])


def _room(face: Face, sheet: Sheet, stretch: Strip, wide: float) -> Strip:
    """The longest run of a stretch that is seen: between openings, under its upper edge for words *wide* in the middle
    of it, and under the sheet that laps over it."""
    (a, b), middle = stretch, sum(stretch) / 2
    low, high = sheet.low, sheet.low + min(sheet.over(middle + off) for off in (-wide / 2, wide / 2))
    high = min([high, *(s.low for s in _later(face, sheet))])
    runs = []
    for o in sorted((o for o in face.openings if o.left < b and a < o.right), key=lambda o: o.low):
        runs.append((low, min(o.low, high)))
        low = max(low, o.high)
    return max((*runs, (low, high)), key=lambda run: run[1] - run[0])


def _later(face: Face, sheet: Sheet) -> list[Sheet]:
    """The sheets of the same strip that are set over it."""
    return [s for s in face.sheets if s.number == sheet.number and s.low > sheet.low + SAME]


# --- names outside ----------------------------------------------------------------------------------------------------


def _outside(face: Face, sheets: Sequence[Sheet], scale: float, above: bool) -> Iterator[Name]:
    """Names over the upper edge of the face, or under its lower one, turned, each clear of the one before."""
    at = -1.0
    for sheet in sorted(sheets, key=lambda s: across(face, (s.left + s.right) / 2)):
        edge = _edge(face, sheet, scale, above)
        if edge is None:
            continue
        middle = sum(edge) / 2
        x0 = across(face, middle) * scale
        at = x = max(x0, at + APART)
        half = width(sheet.name, LEAST, fonts.BOLD) / 2
        if above:
            ends = [middle + (x - x0 + off) / scale for off in (-LEAST / 2, 0.0, LEAST / 2)]
            y, y0 = max(_top(face, end) for end in ends) * scale + GAP, _top(face, middle) * scale - REACH
            yield Name(sheet.name, sheet.name, x, y + 0.02 + half, LEAST, stroke=(x0, y0, x, y))
        else:
            y, y0 = min(0.0, sheet.low * scale) - GAP, sheet.low * scale + REACH
            yield Name(sheet.name, sheet.name, x, y - 0.02 - half, LEAST, stroke=(x0, y0, x, y))


def _edge(face: Face, sheet: Sheet, scale: float, above: bool) -> Strip | None:
    """The widest stretch of a sheet's upper or lower edge that the face ends at and no opening hides."""
    if _later(face, sheet) if above else sheet.low > min(s.low for s in face.sheets) + SAME:
        return None
    for a, b in _stretches(face.openings, sheet):
        end = sheet.low + sheet.over((a + b) / 2) if above else sheet.low
        inner = end - REACH / scale if above else end + REACH / scale
        low, high = sorted((end, inner))
        if not any(o.left < b and a < o.right and o.low < high and low < o.high for o in face.openings):
            return a, b
    return None


def _top(face: Face, x: float) -> float:
    """How high the sheets of a face stand at *x*."""
    return max((s.low + s.over(x) for s in face.sheets), default=0.0)
