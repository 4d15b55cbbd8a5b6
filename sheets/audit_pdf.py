"""Reads a PDF of ours back by PDFium, which shares nothing with the code that wrote it. The only module of the
package that knows pypdfium2.

Every page object is looked at; what is neither a stroke, an outline nor a run of words is named in ``Read.odd``. Words
that the file gives a reader to copy (``ActualText``, ISO 32000-1, 14.9.4) are kept apart and taken off first, so that
the words of a run are those of the glyphs that show.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from msgspec import Struct

from sheets.audit_model import Read, Run
from sheets.audit_svg import Unreadable

POINT = 72.0
_MOST = 8192  # bytes of one run's words
# the raw library's names for these, told here so that importing this module costs nothing
_SIMPLEX, _FILLED, _LINE, _MOVE = 1, 0, 0, 2


class Document(Struct, frozen=True):
    """A PDF: its *pages*, and what is *wrong* with the file as a whole as (place, want, found)."""

    pages: tuple[Read, ...]
    wrong: tuple[tuple[str, str, str], ...]


def read(data: bytes) -> Document:
    """Every page of a PDF file. ``Unreadable`` if PDFium cannot open it."""
    with _opened(data) as (raw, document):
        reader = _Reader(raw, document)
        pages = tuple(reader.page(i) for i in range(raw.FPDF_GetPageCount(document)))
        return Document(pages, tuple(_wrong(raw, document, data)))


def wrong(data: bytes) -> tuple[tuple[str, str, str], ...]:
    """What is wrong with a PDF file as a whole, its pages unseen, as in ``Document``. ``Unreadable`` as by ``read``."""
    with _opened(data) as (raw, document):
        return tuple(_wrong(raw, document, data))


@contextmanager
def _opened(data: bytes) -> Iterator[tuple[Any, Any]]:
    """PDFium, and the file in it."""
    from pypdfium2 import raw

    document = raw.FPDF_LoadMemDocument64(data, len(data), None)
    if not document:
        raise Unreadable(f"not to be read (PDFium error {raw.FPDF_GetLastError()})")
    try:
        yield raw, document
    finally:
        raw.FPDF_CloseDocument(document)


def _wrong(raw: Any, document: Any, data: bytes) -> Iterator[tuple[str, str, str]]:
    if raw.FPDF_VIEWERREF_GetPrintScaling(document):
        yield "viewer preferences", "PrintScaling None", "no PrintScaling None"
    if raw.FPDF_VIEWERREF_GetDuplex(document) != _SIMPLEX:
        yield "viewer preferences", "Duplex Simplex", "another Duplex"
    if not data.rstrip().endswith(b"%%EOF"):
        yield "end of the file", "%%EOF", "cut off"
    if b"/UserUnit" in data:
        yield "page", "points of 1/72 in", "a UserUnit"


class _Calls:
    """The calls that are made for every object, by plain addresses: pypdfium2 makes an object of every pointer it is
    given, and lets other threads run meanwhile; both take longer than the call."""

    def __init__(self, raw: Any) -> None:
        at, whole = ctypes.c_void_p, ctypes.c_int

        def plain(name: str, result: Any, *arguments: Any) -> Any:
            address = ctypes.cast(getattr(raw, name), ctypes.c_void_p).value
            assert address
            return ctypes.PYFUNCTYPE(result, *arguments)(address)

        self.item = plain("FPDFPage_GetObject", at, at, whole)
        self.kind = plain("FPDFPageObj_GetType", whole, at)
        self.clip = plain("FPDFPageObj_GetClipPath", at, at)
        self.clipped = plain("FPDFClipPath_CountPaths", whole, at)
        self.matrix = plain("FPDFPageObj_GetMatrix", whole, at, at)
        self.fill = plain("FPDFPageObj_GetFillColor", whole, at, at, at, at, at)
        self.stroke = plain("FPDFPageObj_GetStrokeColor", whole, at, at, at, at, at)
        self.bounds = plain("FPDFPageObj_GetBounds", whole, at, at, at, at, at)
        self.mode = plain("FPDFPath_GetDrawMode", whole, at, at, at)
        self.stroke_width = plain("FPDFPageObj_GetStrokeWidth", whole, at, at)
        self.dashes = plain("FPDFPageObj_GetDashCount", whole, at)
        self.corners = plain("FPDFPath_CountSegments", whole, at)
        self.corner = plain("FPDFPath_GetPathSegment", at, at, whole)
        self.point = plain("FPDFPathSegment_GetPoint", whole, at, at, at)
        self.way = plain("FPDFPathSegment_GetType", whole, at)
        self.closes = plain("FPDFPathSegment_GetClose", whole, at)
        self.marks = plain("FPDFPageObj_CountMarks", whole, at)
        self.mark = plain("FPDFPageObj_GetMark", at, at, ctypes.c_ulong)
        self.blob = plain("FPDFPageObjMark_GetParamBlobValue", whole, at, ctypes.c_char_p, at, ctypes.c_ulong, at)
        self.unmark = plain("FPDFPageObj_RemoveMark", whole, at, at)
        self.text = plain("FPDFTextObj_GetText", ctypes.c_ulong, at, at, at, ctypes.c_ulong)
        self.shows = plain("FPDFTextObj_GetTextRenderMode", whole, at)
        self.size = plain("FPDFTextObj_GetFontSize", whole, at, at)


class _Reader:
    """Pages of one document. Buffers are made once: a packet has tens of thousands of objects."""

    def __init__(self, raw: Any, document: Any) -> None:
        self.raw = raw
        self.document = document
        self.call = _Calls(raw)
        self.matrix = (ctypes.c_float * 6)()
        self.matrix_at = ctypes.addressof(self.matrix)
        self.floats = (ctypes.c_float * 4)()
        self.float_at = [ctypes.addressof(self.floats) + 4 * i for i in range(4)]
        self.modes = (ctypes.c_int * 2)()
        self.mode_at = [ctypes.addressof(self.modes) + 4 * i for i in range(2)]
        self.colour = (ctypes.c_uint * 4)()
        self.colour_at = [ctypes.addressof(self.colour) + 4 * i for i in range(4)]
        self.words = (ctypes.c_ushort * (_MOST // 2))()
        self.words_at = ctypes.addressof(self.words)
        self.blob = (ctypes.c_ubyte * _MOST)()
        self.length = ctypes.c_ulong()
        self.mark: tuple[int, str] = (0, "")  # read last

    def page(self, number: int) -> Read:
        """One page."""
        raw, call = self.raw, self.call
        page = raw.FPDF_LoadPage(self.document, number)
        if not page:
            raise Unreadable(f"page {number + 1} is not to be read")
        try:
            read = self._sized(page)
            self.mark = (0, "")
            texts: list[tuple[int, str | None]] = []
            path, text = raw.FPDF_PAGEOBJ_PATH, raw.FPDF_PAGEOBJ_TEXT
            at = ctypes.cast(page, ctypes.c_void_p).value
            for index in range(raw.FPDFPage_CountObjects(page)):
                item = call.item(at, index)
                kind = call.kind(item)
                if kind == path:
                    self._path(item, read, len(texts))
                elif kind == text:
                    texts.append((item, self._typed(item) if call.marks(item) else None))
                else:
                    read.odd.append("a picture or a form")
                if call.clipped(call.clip(item)) >= 0:
                    read.odd.append("something that is clipped")
            self._texts(page, texts, read)
        finally:
            raw.FPDF_ClosePage(page)
        return read

    def _sized(self, page: Any) -> Read:
        raw = self.raw
        asked = (raw.FPDFPage_GetMediaBox, raw.FPDFPage_GetCropBox)
        sides = [ctypes.c_float() for _ in range(4)]
        boxes = [[side.value for side in sides] for get in asked if get(page, *sides)]
        left, low, right, high = boxes[0] if boxes else [0.0] * 4
        read = Read((right - left) / POINT, (high - low) / POINT)
        if (left, low) != (0.0, 0.0) or boxes[1:] not in ([], boxes[:1]):
            read.odd.append("a page box that begins elsewhere or is cropped")
        if raw.FPDFPage_GetRotation(page):
            read.odd.append("a page that is turned")
        if raw.FPDFPage_GetAnnotCount(page):
            read.odd.append("an annotation")
        return read

    # --- strokes and outlines ----------------------------------------------------------------------------------------

    def _path(self, item: int, read: Read, runs: int) -> None:
        """A stroke or an outline, so many *runs* before it: their words are read when all else is."""
        call = self.call
        call.mode(item, *self.mode_at)
        fill, stroke = self.modes[:]
        corners = self._corners(item)
        width = 0.0
        if stroke:
            call.stroke_width(item, self.float_at[0])
            width = self.floats[0] / POINT
            if self._grey(item, call.stroke):
                read.odd.append("a line of colour")
        if len(corners) == 4 and not fill:
            read.strokes.append((*corners, width, 1.0 if call.dashes(item) > 0 else 0.0))
        else:
            if not self._outline(item):
                read.odd.append("a path that is neither strokes nor an outline")
            read.outlines.append((*corners, self._grey(item, call.fill) if fill else -1.0, width))
            read.under.append((len(read.strokes), runs))

    def _outline(self, item: int) -> bool:
        """Whether a path is one way of straight parts that ends where it began."""
        call = self.call
        parts = [call.corner(item, index) for index in range(call.corners(item))]
        ways = [call.way(part) for part in parts]
        return ways == [_MOVE, *[_LINE] * (len(ways) - 1)] and bool(call.closes(parts[-1]))

    def _corners(self, item: int) -> list[float]:
        corner, point = self.call.corner, self.call.point
        floats, (x_at, y_at, *_) = self.floats, self.float_at
        self.call.matrix(item, self.matrix_at)
        a, b, c, d, e, f = self.matrix[:]
        corners = []
        for index in range(self.call.corners(item)):
            point(corner(item, index), x_at, y_at)
            x, y = floats[:2]
            corners.append((a * x + c * y + e) / POINT)
            corners.append((b * x + d * y + f) / POINT)
        # PDFium closes an upright box with its first corner once more
        return corners[:-2] if len(corners) > 6 and corners[:2] == corners[-2:] else corners

    def _grey(self, item: int, get: Any) -> float:
        """0 black to 1 white; 2 for colours and what shines through: of a line or of what is filled."""
        get(item, *self.colour_at)
        red, green, blue, solid = self.colour[:]
        return red / 255 if red == green == blue and solid == 255 else 2.0

    # --- words -------------------------------------------------------------------------------------------------------

    def _typed(self, item: int) -> str | None:
        """The words that the file gives a reader instead of the glyphs."""
        call = self.call
        for number in range(call.marks(item)):
            mark = call.mark(item, number)
            if mark == self.mark[0]:
                return self.mark[1]  # the runs of a length share theirs
            if call.blob(mark, b"ActualText", self.blob, _MOST, ctypes.byref(self.length)):
                words = ctypes.string_at(self.blob, min(self.length.value, _MOST))
                # ISO 32000-1, 7.9.2.2: UTF-16 if it begins with the mark for it
                wide = words.startswith(b"\xfe\xff")
                self.mark = mark, words[2:].decode("utf-16-be", "replace") if wide else words.decode("latin-1")
                return self.mark[1]
        return None

    def _unmark(self, item: int) -> None:
        """Take the marks off, so that PDFium tells the glyphs. The runs of a length share theirs: read them before."""
        call = self.call
        while call.marks(item) > 0 and call.unmark(item, call.mark(item, 0)):
            pass

    def _texts(self, page: Any, texts: list[tuple[int, str | None]], read: Read) -> None:
        for item, typed in texts:
            if typed is not None:
                self._unmark(item)
        text_page = self.raw.FPDFText_LoadPage(page)
        at = ctypes.cast(text_page, ctypes.c_void_p).value or 0
        try:
            read.runs = [Run(*self._run(item, at, read), typed) for item, typed in texts]
        finally:
            self.raw.FPDFText_ClosePage(text_page)

    def _run(self, item: int, text_page: int, read: Read) -> tuple[float, float, float, float, float, str, float]:
        """The place, the size, the turn, the grey, the words and the length of a run."""
        call = self.call
        size = min(call.text(item, text_page, self.words_at, _MOST), _MOST)
        words = ctypes.string_at(self.words_at, max(size - 2, 0)).decode("utf-16-le", "replace")
        if "\x02" in words or "\ufffe" in words:  # a hyphen where PDFium sees a word go on in the next line
            words = words.replace("\x02", "-").replace("\ufffe", "-")
        call.matrix(item, self.matrix_at)
        a, b, c, d, e, f = self.matrix[:]
        risen = b != 0
        if not (b == -c > 0 == a == d if risen else a == d > 0 == c):
            read.odd.append(f"a run that is twisted: {words}")
        if call.shows(item) != _FILLED:
            read.odd.append(f"a run that is not filled: {words}")
        call.size(item, self.float_at[0])
        em = self.floats[0] * (b if risen else a) / POINT
        call.bounds(item, *self.float_at)
        _, _, right, top = self.floats[:]
        end = top - f if risen else right - e
        return e / POINT, f / POINT, em, 1.0 if risen else 0.0, self._grey(item, call.fill), words, end / POINT
