"""Pages to a PDF file. The only module that knows reportlab.

Reportlab keeps the document: fonts and their subsets, page boxes, bookmarks, viewer preferences. What
stands on a page comes from ``sheets.operators``.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFArray, PDFName, ViewerPreferencesPDFDictionary, checkPDFBoolean
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

import fonts
from layouts.languages import ENGLISH_CODE
from sheets import operators
from sheets.pages import Page, spoken
from sheets.shapes import Drawing

LONGEST = 200.0  # inches; ISO 32000-1 annex C.2, implementation limits: a page side is at most 14 400 units


@lru_cache(maxsize=len(fonts.CUTS))
def _font(cut: str) -> TTFont:
    """The cut, registered once in a process under a name of our own: reportlab ignores a second
    registration."""
    font = TTFont(f"rodwright-{cut}", BytesIO(fonts.data(cut)), asciiReadable=False, shapable=False)
    pdfmetrics.registerFont(font)
    return font


class Shared(Struct):
    """What the files of one packet share: the operators of every page that was written into the first of them, by the
    ``id`` of its drawing, and the characters of each cut in the order of their codes. With the same codes a page has
    the same bytes in each file. The drawings have to outlive it."""

    pages: dict[int, str] = field(default_factory=dict)
    characters: dict[str, str] = field(default_factory=dict)


class _Coder:
    """Puts the words of pages into the codes of one *document*: its subsets grow with the characters it is given, after
    those that are *shared* with another."""

    def __init__(self, document: Any, shared: Shared) -> None:
        self._document = document
        self._shared = shared
        self._known: dict[tuple[str, str], list[tuple[str, str]]] = {}
        for cut, characters in shared.characters.items():
            self._coded(cut, characters)

    def _coded(self, cut: str, text: str) -> list[tuple[str, str]]:
        """Subset and codes of each part of *text*: a character that has its code keeps it. A ``ValueError`` names
        characters that have no glyph in the *cut*."""
        found = self._known.get((cut, text))
        if found is None:
            font = _font(cut)
            absent = [c for c in spoken(text) if ord(c) not in font.face.charToGlyph]
            if absent:
                raise ValueError(f"no glyph in the {cut} cut for {absent!r}")
            parts = font.splitString(text, self._document)
            found = [(font.getSubsetInternalName(subset, self._document), codes.hex()) for subset, codes in parts]
            self._known[cut, text] = found
        return found

    def page(self, drawing: Drawing) -> str:
        """The operators of a page."""
        written = self._shared.pages.get(id(drawing))
        if written is None:
            written = self._shared.pages[id(drawing)] = self._written(operators.content(drawing))
        return written

    def keep(self) -> None:
        """Share the characters met so far."""
        met: dict[str, dict[str, None]] = {}
        for cut, text in self._known:
            met.setdefault(cut, {}).update(dict.fromkeys(text))
        self._shared.characters.update({cut: "".join(characters) for cut, characters in met.items()})

    def _written(self, content: operators.Content) -> str:
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


def _show(canvas: Canvas, pages: Sequence[Page], first: int, shared: Shared) -> None:
    """Every page with its bookmarks and its label."""
    coder = _Coder(canvas._doc, shared)
    section = None
    for number, page in enumerate(pages, 1):
        _boxes(canvas, page.drawing)
        if page.section != section:
            section = page.section
            _bookmark(canvas, f"section{number}", section, 0)
            canvas.addPageLabel(number - 1, "ARABIC", first + number - 1, f"{section} ")
        _bookmark(canvas, f"page{number}", page.title, 1)
        canvas.addLiteral(coder.page(page.drawing))
        canvas.showPage()
    coder.keep()


def write(
    path: Path,
    pages: Sequence[Page],
    title: str,
    author: str = "rodwright",
    compress: bool = False,
    first: int = 1,
    lang: str = ENGLISH_CODE,
    shared: Shared | None = None,
) -> None:
    """Write *pages* to *path*: true size, fonts embedded, no scaling asked for, the same bytes every time.

    Each page is exactly as large as its drawing, at most 200 in a side. Bookmarks: a section, its pages
    below it. A viewer calls a page by its section and the number printed on it, counted from *first*; *lang* is
    the language of its words (BCP 47). To
    *compress* makes a third of the size, and bytes that depend on the zlib of the machine. Pages that go
    into several files are drawn once, with the same bytes and fonts in each, if what was *shared* with the
    first of them is given to the others. A ``ValueError`` names a page of no or too large a size,
    a place that is not finite, a character that no glyph shows; then nothing is written.
    """
    if not pages:
        raise ValueError("a file without pages")
    target = BytesIO()
    canvas = _canvas(target, title, author, compress, lang)
    _show(canvas, pages, first, shared or Shared())
    canvas.showOutline()
    with_ascii, rl_config.useA85 = rl_config.useA85, 0  # plain bytes: a fifth smaller, and quicker
    try:
        canvas.save()
    finally:
        rl_config.useA85 = with_ascii
    path.write_bytes(target.getvalue())
