"""A drawing to an SVG 1.1 file. The only module that knows svgwrite.

True size in inches or millimetres, 1000 units an inch, y turned over here in the numbers themselves. Words
are the outlines of the embedded typeface: every glyph is defined once and used by reference, so the file
needs no font and prints the same everywhere; what stands there is said by ``<title>`` and by the glyph
names, ``b-31`` being U+0031 in the bold cut. Svgwrite checks nothing (its validation is slow): numbers and
words are checked before they reach it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from pathlib import Path
from typing import Any, Literal
from xml.etree.ElementTree import Element, tostring
from xml.sax.saxutils import escape

import svgwrite
from svgwrite.base import BaseElement

from sheets.lettering import face
from sheets.pages import spoken
from sheets.shapes import Drawing, Line, Polygon, Shape, Text

Unit = Literal["in", "mm"]

SCALE = 1000.0  # units of the viewBox an inch
MM = 25.4
_FAR = 1e7  # units; not-a-number is not less than it
STAND_IN = "made"
_STAND_IN = re.compile(f'<{STAND_IN} n="([0-9]+)" ?/>')  # words cannot hold it: their "<" is escaped
_GLYPH = re.compile("[rb]-[0-9A-F]+")  # such names are of glyphs alone
_NAME = re.compile(r"[^A-Za-z0-9_.-]+")


@lru_cache(maxsize=50000)
def _n(units: float) -> str:
    """*units* to 1/100 (a hundred-thousandth of an inch); not finite is a ``ValueError``."""
    if not -_FAR < units < _FAR:
        raise ValueError(f"not a place on a page: {units / SCALE} in")
    written = f"{units:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _long(value: float) -> str:
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _grey(grey: float) -> str:
    if not 0.0 <= grey <= 1.0:
        raise ValueError(f"grey runs from 0 to 1, not {grey}")
    level = round(grey * 255)
    return f"rgb({level},{level},{level})"


class _Made(BaseElement):  # type: ignore[misc]
    """Stands for what is made already: svgwrite takes 20 µs for each element of its own, a tree 3 µs, and a page has
    hundreds of paths. They are put in its place in the text of the file, their attributes in the order of their names,
    which is how svgwrite writes them."""

    def __init__(self, number: int) -> None:
        self._xml = Element(STAND_IN, {"n": str(number)})

    def get_xml(self) -> Element:
        return self._xml


@lru_cache(maxsize=20000)
def _uses(cut: str, words: str) -> tuple[str, tuple[str, ...]]:
    """The glyphs of a run, side by side, as XML, and those of its characters that have ink, as they come."""
    measured = face(cut)
    along = 0
    found, inked = [], []
    for char in words:
        if measured.outline(char):
            at = f' x="{along}"' if along else ""
            found.append(f'<use xlink:href="#{_glyph(cut, char)}"{at} />')
            inked.append(char)
        along += measured.advance(char)
    return "".join(found), tuple(dict.fromkeys(inked))


def _glyph(cut: str, char: str) -> str:
    """What a glyph is called."""
    return f"{cut[0]}-{ord(char):X}"


class _Builder:
    """Turns shapes into XML, page height known, names unique, glyphs collected as they are met."""

    def __init__(self, height: float) -> None:
        self.height = height * SCALE
        self.glyphs: dict[tuple[str, str], str] = {}
        self._names: set[str] = set()
        self._counts: dict[str, int] = {}
        self._runs: dict[tuple[str, str], str] = {}

    def name(self, wanted: str) -> str:
        """*wanted* as an XML name that no other element of this file bears."""
        stem = _NAME.sub("-", wanted).strip("-.") or "group"
        name = stem = stem if stem[0].isalpha() or stem[0] == "_" else f"n-{stem}"
        while name in self._names or _GLYPH.fullmatch(name):
            self._counts[stem] = self._counts.get(stem, 1) + 1
            name = f"{stem}-{self._counts[stem]}"
        self._names.add(name)
        return name

    def run(self, cut: str, words: str) -> str:
        """The glyphs of a run; one that is met for the first time in this file is defined."""
        key = (cut, words)
        found = self._runs.get(key)
        if found is None:
            found, inked = _uses(cut, words)
            self._runs[key] = found
            for char in inked:
                if (cut, char) not in self.glyphs:
                    outline = face(cut).outline(char)
                    self.glyphs[cut, char] = f'<path d="{outline}" id="{_glyph(cut, char)}" />'
        return found

    def place(self, x: float, y: float) -> str:
        return f"{_n(x * SCALE)} {_n(self.height - y * SCALE)}"

    def lines(self, lines: Iterable[Line], width: float, dash: tuple[float, ...]) -> str:
        strokes = "".join([f"M{self.place(s.x0, s.y0)}L{self.place(s.x1, s.y1)}" for s in lines])
        dashed = f' stroke-dasharray="{",".join(_n(d * SCALE) for d in dash)}"' if dash else ""
        return f'<path d="{strokes}" fill="none" stroke="#000"{dashed} stroke-width="{_n(width * SCALE)}" />'

    def polygon(self, shape: Polygon) -> str:
        if len(shape.points) < 3:
            raise ValueError(f"a polygon has three corners or more: {shape}")
        outline = "M" + "L".join([self.place(x, y) for x, y in shape.points]) + "Z"
        # the miter limit of PDF, so that both files show the same corners
        line = f' stroke="#000" stroke-miterlimit="10" stroke-width="{_n(shape.width * SCALE)}"'
        fill = "none" if shape.grey is None else _grey(shape.grey)
        return f'<path d="{outline}" fill="{fill}"{line if shape.width > 0 else ""} />'

    def text(self, shape: Text, titled: bool) -> str:
        """A run of words."""
        measured = face(shape.cut)
        place = self.place(shape.x, shape.y).replace(" ", ",")
        scale = _long(shape.size * SCALE / measured.units_per_em)
        turned = f"{scale},0,0,-{scale}" if shape.turn == 0 else f"0,-{scale},-{scale},0"
        fill = f'fill="{_grey(shape.grey)}" ' if shape.grey else ""
        words = spoken(shape.text)
        title = f"<title>{escape(words)}</title>" if titled and words else ""
        return f'<g {fill}transform="matrix({turned},{place})">{title}{self.run(shape.cut, shape.text)}</g>'

    def fill(self, shapes: Iterable[Shape], titled: bool) -> Iterator[str]:
        """*shapes* in order; neighbouring lines of one style become one path. *titled* says whether a run of text has
        to say itself what it reads."""
        for style, some in groupby(shapes, lambda s: (s.width, s.dash) if isinstance(s, Line) else None):
            if style is None:
                yield from [self._single(shape, titled) for shape in some]
            else:
                yield self.lines((s for s in some if isinstance(s, Line)), *style)

    def _single(self, shape: Shape, titled: bool) -> str:
        if isinstance(shape, Text):
            return self.text(shape, titled)
        if isinstance(shape, Polygon):
            return self.polygon(shape)
        if isinstance(shape, Line):
            return self.lines([shape], shape.width, shape.dash)
        name = self.name(shape.name)
        title = f"<title>{escape(spoken(shape.title))}</title>" if shape.title else ""
        inner = title + "".join(self.fill(shape.shapes, titled and not (shape.name == "text" and shape.title)))
        return f'<g id="{name}">{inner}</g>' if inner else f'<g id="{name}" />'


def _size(inches: float, unit: Unit) -> str:
    if not 0 < inches * SCALE < _FAR:
        raise ValueError(f"not a size of a page: {inches} in")
    return f"{_long(inches if unit == 'in' else inches * MM)}{unit}"


def write(path: Path, drawing: Drawing, title: str, unit: Unit = "in") -> None:
    """Write *drawing* to *path*, its true size in *unit*; the same bytes every time.

    A ``ValueError`` names a place that is not finite, a character without a glyph or one no XML file may
    hold; then nothing is written.
    """
    builder = _Builder(drawing.height)
    size = _size(drawing.width, unit), _size(drawing.height, unit)
    box = f"0 0 {_n(drawing.width * SCALE)} {_n(builder.height)}"
    paper: Any = svgwrite.Drawing(size=size, viewBox=box, debug=False)
    paper.set_desc(title=spoken(title))
    page = "".join(builder.fill(drawing.shapes, True))
    made = [page, "".join(builder.glyphs.values())]
    paper.elements.append(_Made(0))
    if builder.glyphs:
        paper.defs.elements.append(_Made(1))
    root = paper.get_xml()
    root.attrib.pop("xmlns:ev", None)  # nothing here is scripted, and the SVG 1.1 DTD does not know it
    # Drawing.tostring encodes every small piece by itself: a quarter of the whole time
    text = _STAND_IN.sub(lambda found: made[int(found[1])], tostring(root, encoding="unicode"))
    head = '<?xml version="1.0" encoding="utf-8"?>\n'
    path.write_bytes(f"{head}{text}\n".encode())
