"""Reads an SVG of ours back, with the standard library's parser and nothing of the code that wrote it.

What is not a stroke, an outline or a run of glyphs is named in ``Read.odd``. A run is spelled from the names of its
glyphs (``b-31`` is U+0031 in the bold cut) and from where each stands: a gap as wide as a space is a space. What the
glyphs look like is held against the typeface.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from functools import lru_cache
from pathlib import Path

import fonts
from sheets.audit_model import Read, Run, edge
from sheets.lettering import face

_NS = "{http://www.w3.org/2000/svg}"
_HREF = "{http://www.w3.org/1999/xlink}href"
_G, _PATH, _USE, _TITLE, _DEFS = (f"{_NS}{name}" for name in ("g", "path", "use", "title", "defs"))
_SILENT = {f"{_NS}{name}" for name in ("title", "desc", "metadata")}
_MM = 25.4
_GLYPH = re.compile(r"#([rb])-([0-9A-F]+)")
_CUTS = {"r": fonts.REGULAR, "b": fonts.BOLD}
_SIDE = re.compile(r"([0-9.]+)(in|mm)")
_MATRIX = re.compile(r"matrix\(([^(),]*(?:,[^(),]*){3})")
_GREY = re.compile(r"rgb\(([0-9]+),([0-9]+),([0-9]+)\)")
_ALLOWED = {
    _PATH: {"d", "fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-miterlimit", "id"},
    _G: {"id", "transform", "fill"},
}
_DEFINED = {"id", "d"}
_ROOT = {"width", "height", "viewBox", "version", "baseProfile"}
_SPACES = " \u00a0\u2002\u2003\u2009\u200a\u202f"
LOST = "\ufffd"  # stands where glyphs are not where their words put them


class Unreadable(ValueError):
    """The file cannot be read at all; the message says why."""


def read(path: Path) -> Read:
    """The page in *path*. ``Unreadable`` if it is no SVG, ``OSError`` if it is not there."""
    try:
        data = path.read_bytes()
        page = _Reader(ET.fromstring(data)).page
    except (ET.ParseError, ValueError, LookupError) as error:
        raise Unreadable(f"not to be read ({error})") from None
    if b"<?" in data[2:]:  # one stands at the head of a file: what it is; the parser passes others over
        page.odd.append("an instruction")
    return page


def _inches(side: str) -> float:
    found = _SIDE.fullmatch(side)
    if not found:
        raise ValueError(f"a side of {side}")
    return float(found[1]) / (_MM if found[2] == "mm" else 1.0)


class _Reader:
    """Walks the tree once, down every group."""

    def __init__(self, root: ET.Element) -> None:
        self.page = Read(_inches(root.attrib["width"]), _inches(root.attrib["height"]))
        left, top, wide, high = map(float, root.attrib["viewBox"].split())
        self.left, self.top = left, top
        self.x, self.y = self.page.width / wide, self.page.height / high
        self.high = high
        if abs(self.x - self.y) > max(1e-6, 0.006 / min(wide, high)) * self.x:  # sides are written to 1/100 000 in
            self.page.odd.append("a view box of another shape than the page")
        if not root.attrib.keys() <= _ROOT:
            self.page.odd.append(_name(root))
        self.glyphs: dict[str, str] = {}
        for defs in root.findall(_DEFS):
            self._define(defs)
        self._judge_glyphs()
        self._walk(root, "", top=True)

    def _define(self, defs: ET.Element) -> None:
        """The glyphs in *defs*; a style there would change how all the rest looks."""
        for element in defs:
            if element.tag == _PATH and element.attrib.keys() <= _DEFINED and not len(element):
                self.glyphs[f"#{element.get('id', '')}"] = element.get("d", "")
            else:
                self.page.odd.append(_name(element))

    def _judge_glyphs(self) -> None:
        for name, outline in self.glyphs.items():
            cut, char, _, _ = _glyph(name)
            if not cut or face(cut).outline(char) != outline:
                self.page.odd.append(f"a glyph {name[1:]} of another shape than in the typeface")

    def _walk(self, parent: ET.Element, typed: str, top: bool = False) -> None:
        for element in parent:
            tag = element.tag
            if (tag in _SILENT and not len(element)) or (tag == _DEFS and top):
                continue
            attributes = element.attrib
            if tag not in _ALLOWED or not attributes.keys() <= _ALLOWED[tag]:
                self.page.odd.append(_name(element))
            elif tag == _PATH:
                self._path(attributes)
            elif "transform" in attributes:
                self._run(element, typed)
            else:
                title = element.find(_TITLE)
                self._walk(element, typed if title is None else title.text or "")

    def _corners(self, outline: str) -> list[float]:
        numbers = list(map(float, outline.replace("M", " ").replace("L", " ").split()))
        numbers[::2] = [(x - self.left) * self.x for x in numbers[::2]]
        numbers[1::2] = [(self.high - (y - self.top)) * self.y for y in numbers[1::2]]
        return numbers

    def _path(self, attributes: dict[str, str]) -> None:
        outline = attributes["d"]
        width = float(attributes.get("stroke-width", "1")) * self.x if "stroke" in attributes else 0.0
        filled = attributes.get("fill", "#000") != "none"
        closed = outline.endswith("Z")
        numbers = self._corners(outline.removesuffix("Z"))
        starts = outline.count("M")
        if closed and starts == 1:
            grey = _grey(attributes.get("fill", "#000")) if filled else -1.0
            self.page.outlines.append((*numbers, grey, width))
            self.page.under.append((len(self.page.strokes), len(self.page.runs)))
        elif not closed and not filled and len(numbers) == 4 * starts and outline.count("L") == starts:
            style = (width, 1.0 if "stroke-dasharray" in attributes else 0.0)
            self.page.strokes += [(*numbers[i : i + 4], *style) for i in range(0, len(numbers), 4)]
        else:
            self.page.odd.append(f"a path that is neither strokes nor an outline: {outline[:40]}")
        if "stroke" in attributes and attributes["stroke"] != "#000":
            self.page.odd.append(f"a line of colour {attributes['stroke']}")

    def _run(self, element: ET.Element, typed: str) -> None:
        glyphs = list(element)
        if glyphs and glyphs[0].tag == _TITLE:
            typed = glyphs.pop(0).text or ""
        names = tuple([glyph.attrib.get(_HREF, "") for glyph in glyphs])
        places = tuple([glyph.attrib.get("x") for glyph in glyphs])
        cut, words, along, references = _spell(names, places)
        told = sum([len(glyph.attrib) for glyph in glyphs])
        if [glyph.tag for glyph in glyphs].count(_USE) < len(glyphs) or told > 2 * len(glyphs) - places.count(None):
            self.page.odd.append(f"a run of more than glyphs: {words}")
        attributes = element.attrib
        *head, e, f = attributes["transform"].rsplit(",", 2)
        scale, risen = _scale("".join(head))
        if not scale or not references <= self.glyphs.keys():
            self.page.odd.append(f"a run that is turned or twisted, or lacks glyphs: {typed}")
            return
        em = face(cut).units_per_em * scale * self.x
        x, y = (float(e) - self.left) * self.x, (self.high - (float(f.rstrip(")")) - self.top)) * self.y
        grey = _grey(attributes["fill"]) if "fill" in attributes else 0.0
        self.page.runs.append(Run(x, y, em, risen, grey, words, along * em, typed or None))


def _name(element: ET.Element) -> str:
    tag = str(element.tag).rpartition("}")[2]
    return f"an element {tag} {' '.join(f'{k}={v[:20]}' for k, v in element.attrib.items())}".strip()


def _grey(fill: str) -> float:
    found = _GREY.fullmatch(fill)
    if fill == "#000":
        return 0.0
    if not found or len(set(found.groups())) > 1:
        raise ValueError(f"a fill of {fill}")
    return int(found[1]) / 255


@lru_cache(maxsize=2000)
def _scale(head: str) -> tuple[float, float]:
    """The scale of a run and 1 if it is turned, from a matrix without its place; scale 0 if it is twisted."""
    found = _MATRIX.fullmatch(head)
    a, b, c, d = map(float, (found[1] if found else "0,0,0,0").split(","))
    if a == -d and b == c == 0 < a:
        return a, 0.0
    return (-b, 1.0) if a == d == 0 and b == c < 0 else (0.0, 0.0)


@lru_cache(maxsize=2000)
def _glyph(reference: str) -> tuple[str, str, int, float]:
    """The cut, the character, the advance and the edge of a glyph; no cut if it is called by no name of ours."""
    found = _GLYPH.fullmatch(reference)
    if not found:
        return "", LOST, 0, 0.0
    cut, char = _CUTS[found[1]], chr(int(found[2], 16))
    return cut, char, face(cut).advances.get(char, 0), edge(cut, char)


@lru_cache(maxsize=20000)
def _spell(names: tuple[str, ...], places: tuple[str | None, ...]) -> tuple[str, str, float, frozenset[str]]:
    """The cut, the words, the reach of the ink (em) and the glyphs of a run, read from left to right as they stand."""
    cut = next((own for own, *_ in map(_glyph, names[:1])), "") or fonts.REGULAR
    words: list[str] = []
    at, end = 0, 0.0
    for name, place in zip(names, places, strict=True):
        own, char, advance, reach = _glyph(name)
        x = int(place) if place else 0
        if x != at:
            words.append(_gap(cut, x - at))
        words.append(char if own == cut else LOST)
        at, end = x + advance, max(end, x + reach)
    return cut, "".join(words), end / face(cut).units_per_em, frozenset(names)


@lru_cache(maxsize=2000)
def _gap(cut: str, units: int) -> str:
    """The spaces that leave such a gap."""
    space = face(cut).advances[" "]
    count = round(units / space)
    if count > 0 and units == count * space:
        return " " * count
    if any(units == face(cut).advances.get(char) for char in _SPACES):
        return " "
    return LOST
