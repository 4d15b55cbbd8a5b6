"""Pages to a PDF file. The only module that knows reportlab.

Reportlab keeps the document: fonts and their subsets, page boxes, bookmarks, viewer preferences. What
stands on a page is written here as plain drawing operators in points (inches times 72, never a scaled
canvas: matrix factors are rounded), and an operator that changes nothing is left out.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import Any, NamedTuple

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFArray, PDFName, ViewerPreferencesPDFDictionary, checkPDFBoolean
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

import fonts
from layouts.languages import ENGLISH_CODE
from sheets.pages import Page, spoken
from sheets.shapes import Drawing, Group, Line, Polygon, Text, replay

LONGEST = 200.0  # inches; ISO 32000-1 annex C.2, implementation limits: a page side is at most 14 400 units
_FAR = 1e6  # points; nothing on a page is so far away, and not-a-number is not less than it


@lru_cache(maxsize=50000)
def _n(inches: float) -> str:
    """*inches* as points to 1/10 000 (under a millionth of an inch); not finite is a ``ValueError``."""
    points = inches * 72.0
    if not -_FAR < points < _FAR:
        raise ValueError(f"not a place on a page: {inches} in")
    written = f"{points:.4f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _literal(words: str) -> str:
    """*words* as a PDF text string: plain where ASCII allows, else UTF-16 (ISO 32000-1, 7.9.2.2)."""
    if words.isascii():
        escaped = re.sub(r"([\\()])", r"\\\1", words)
        return f"({escaped})"
    return f"<FEFF{words.encode('utf-16-be').hex().upper()}>"


@lru_cache(maxsize=len(fonts.CUTS))
def _font(cut: str) -> TTFont:
    """The cut, registered once in a process under a name of our own: reportlab ignores a second
    registration."""
    font = TTFont(f"rodwright-{cut}", BytesIO(fonts.data(cut)), asciiReadable=False, shapable=False)
    pdfmetrics.registerFont(font)
    return font


@lru_cache(maxsize=20000)
def _all_shown(cut: str, words: str) -> None:
    """Every character of *words* has a glyph in the cut, or a ``ValueError`` names those that have none."""
    absent = [c for c in spoken(words) if ord(c) not in _font(cut).face.charToGlyph]
    if absent:
        raise ValueError(f"no glyph in the {cut} cut for {absent!r}")


class Words(NamedTuple):
    """Words between operators: how they are coded is settled by each file's own subsets of the fonts."""

    cut: str
    text: str
    size: str


Content = list[str | Words]


class _Content:
    """A pen that writes the operators of one page and remembers the graphics state it has left."""

    def __init__(self) -> None:
        self.operators: Content = []
        self._state: dict[str, str] = {"w": "1", "d": "[] 0", "g": "0"}  # how every page begins

    def _set(self, operator: str, operands: str) -> None:
        if self._state.get(operator) != operands:
            self._state[operator] = operands
            self.operators.append(f"{operands} {operator}")

    def _grey(self, grey: float) -> None:
        if not 0.0 <= grey <= 1.0:
            raise ValueError(f"grey runs from 0 to 1, not {grey}")
        self._set("g", f"{grey:.3f}".rstrip("0").rstrip("."))

    def _stroke(self, width: float, dash: tuple[float, ...]) -> None:
        self._set("w", _n(width))
        self._set("d", f"[{' '.join(map(_n, dash))}] 0")

    def line(self, shape: Line) -> None:
        self._stroke(shape.width, shape.dash)
        ends = f"{_n(shape.x0)} {_n(shape.y0)} m {_n(shape.x1)} {_n(shape.y1)} l S"
        self.operators.append(ends)

    def polygon(self, shape: Polygon) -> None:
        outlined, filled = shape.width > 0, shape.grey is not None
        if len(shape.points) < 3:
            raise ValueError(f"a polygon has three corners or more: {shape}")
        if not (outlined or filled):
            return
        if outlined:
            self._stroke(shape.width, ())
        if shape.grey is not None:
            self._grey(shape.grey)
        corners = " l ".join(f"{_n(x)} {_n(y)}" for x, y in shape.points).replace(" l ", " m ", 1)
        paint = {(True, True): "b", (True, False): "s", (False, True): "h f"}[outlined, filled]
        self.operators.append(f"{corners} l {paint}")

    def text(self, shape: Text) -> None:
        self._grey(shape.grey)
        _all_shown(shape.cut, shape.text)
        place = f"{_n(shape.x)} {_n(shape.y)}"
        self.operators.append(f"BT {place} Td" if shape.turn == 0 else f"BT 0 1 -1 0 {place} Tm")
        self.operators.append(Words(shape.cut, shape.text, _n(shape.size)))
        self.operators.append("ET")

    def group(self, shape: Group) -> None:
        # Only a lone line of words is marked: what a reader copies and searches is then the words as typed.
        marked = shape.name == "text" and shape.title
        if marked:
            self.operators.append(f"/Span << /ActualText {_literal(spoken(shape.title))} >> BDC")
        replay(shape.shapes, self)
        if marked:
            self.operators.append("EMC")


def _content(drawing: Drawing) -> Content:
    pen = _Content()
    replay(drawing.shapes, pen)
    return pen.operators


class _Coder:
    """Puts the words of pages into the codes of one *document*: its subsets grow with the characters it is given."""

    def __init__(self, document: Any) -> None:
        self._document = document
        self._known: dict[tuple[str, str], list[tuple[str, str]]] = {}

    def _coded(self, cut: str, text: str) -> list[tuple[str, str]]:
        """Subset and codes of each part of *text*: a character that has its code keeps it."""
        found = self._known.get((cut, text))
        if found is None:
            font = _font(cut)
            parts = font.splitString(text, self._document)
            found = [(font.getSubsetInternalName(subset, self._document), codes.hex()) for subset, codes in parts]
            self._known[cut, text] = found
        return found

    def page(self, content: Content) -> str:
        """The operators of a page."""
        written: list[str] = []
        set_in = ""
        for part in content:
            if isinstance(part, str):
                written.append(part)
                continue
            for subset, codes in self._coded(part.cut, part.text):
                if set_in != (set_in := f"{subset} {part.size} Tf"):
                    written.append(set_in)
                written.append(f"<{codes}> Tj")
        return "\n".join(written)


def _sized(drawing: Drawing) -> tuple[float, float]:
    for side in (drawing.width, drawing.height):
        if not 0 < side <= LONGEST:
            raise ValueError(f"a page side is up to {LONGEST:g} in, not {side}")
    return drawing.width * 72.0, drawing.height * 72.0


def _canvas(target: BytesIO, title: str, author: str, compress: bool, lang: str) -> Canvas:
    first = _font(fonts.REGULAR)  # as initial font it keeps reportlab's own Helvetica out of the file
    canvas = Canvas(
        target,
        pageCompression=int(compress),
        invariant=1,
        pdfVersion=(1, 7),
        initialFontName=first.fontName,
        lang=lang,
    )
    canvas.setTitle(spoken(title))
    canvas.setAuthor(author)
    canvas.setCreator(author)
    canvas.setSubject("")
    canvas.setCatalogEntry("ViewerPreferences", _wishes())
    return canvas


def _wishes() -> Any:
    """What a viewer is asked for: no scaling, the tray that holds this page's size, no backs (ISO 32000-1, table 150;
    ``Enforce``, which keeps the print dialog from undoing ``PrintScaling``, is of ISO 32000-2, and a reader that does
    not know the key passes over it)."""
    # Reportlab's table lacks two of the keys; this one dictionary gets a longer table, the library's own is left alone.
    known = {
        **ViewerPreferencesPDFDictionary.validate,
        "PickTrayByPDFSize": checkPDFBoolean,
        "Enforce": lambda names: PDFArray([PDFName(name) for name in names]),
    }
    wishes = ViewerPreferencesPDFDictionary(validate=known)
    wishes["PrintScaling"] = "None"
    wishes["Enforce"] = ["PrintScaling"]
    wishes["PickTrayByPDFSize"] = "true"
    wishes["Duplex"] = "Simplex"
    wishes["DisplayDocTitle"] = "true"
    return wishes


def _bookmark(canvas: Canvas, key: str, title: str, level: int) -> None:
    """Lead from *title* to the page at hand. A *key* for each: reportlab keeps one title a key."""
    canvas.bookmarkPage(key)
    canvas.addOutlineEntry(spoken(title), key, level)


def _boxes(canvas: Canvas, drawing: Drawing) -> None:
    """The page at hand is as large as *drawing*, and that is what is shown and what it is cut to (ISO 32000-1,
    14.11.2)."""
    size = _sized(drawing)
    canvas.setPageSize(size)
    for box in ("crop", "trim"):
        canvas.setCropBox((0, 0, *size), box)


def _show(canvas: Canvas, pages: Sequence[Page], first: int, known: dict[int, Content]) -> None:
    """Every page with its bookmarks and its label; what is drawn of it is in *known*, or goes there."""
    coder = _Coder(canvas._doc)
    section = None
    for number, page in enumerate(pages, 1):
        _boxes(canvas, page.drawing)
        if page.section != section:
            section = page.section
            _bookmark(canvas, f"section{number}", section, 0)
            canvas.addPageLabel(number - 1, "ARABIC", first + number - 1, f"{section} ")
        _bookmark(canvas, f"page{number}", page.title, 1)
        content = known.get(id(page.drawing))
        if content is None:
            content = known[id(page.drawing)] = _content(page.drawing)
        canvas.addLiteral(coder.page(content))
        canvas.showPage()


def write(
    path: Path,
    pages: Sequence[Page],
    title: str,
    author: str = "rodwright",
    compress: bool = False,
    first: int = 1,
    lang: str = ENGLISH_CODE,
    drawn: dict[int, Content] | None = None,
) -> None:
    """Write *pages* to *path*: true size, fonts embedded, no scaling asked for, the same bytes every time.

    Each page is exactly as large as its drawing, at most 200 in a side. Bookmarks: a section, its pages
    below it. A viewer calls a page by its section and the number printed on it, counted from *first*; *lang* is
    the language of its words (BCP 47). To
    *compress* makes a third of the size, and bytes that depend on the zlib of the machine. Pages that go
    into several files are drawn once if these share *drawn*, which keeps what was drawn by the ``id`` of
    its drawing: the drawings have to outlive it. A ``ValueError`` names a page of no or too large a size,
    a place that is not finite, a character that no glyph shows; then nothing is written.
    """
    if not pages:
        raise ValueError("a file without pages")
    target = BytesIO()
    canvas = _canvas(target, title, author, compress, lang)
    _show(canvas, pages, first, drawn if drawn is not None else {})
    canvas.showOutline()
    with_ascii, rl_config.useA85 = rl_config.useA85, 0  # plain bytes: a fifth smaller, and quicker
    try:
        canvas.save()
    finally:
        rl_config.useA85 = with_ascii
    path.write_bytes(target.getvalue())
