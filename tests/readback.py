"""Reads finished files back, with nothing of the code that wrote them: PDF by PDFium and pdfminer, SVG by the standard
library. Everything comes out in inches, y up."""

from __future__ import annotations

import ctypes
import re
import xml.etree.ElementTree as ET
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from io import BytesIO
from pathlib import Path
from typing import Any

import pdfplumber
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from fontTools.ttLib import TTFont
from pdfminer.pdfdevice import PDFTextDevice
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdftypes import resolve1

NEAR = 0.001  # inches, the promise
SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"

Path2 = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Words:
    """One run of words, or a length set in several runs: the words as typed, where they begin, and how large."""

    text: str
    x: float
    y: float
    size: float
    turned: bool


@dataclass
class Sheet:
    """What stands on a page: corner points of every line and polygon, and all words, in drawing order."""

    width: float
    height: float
    paths: list[Path2] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)

    @property
    def strokes(self) -> list[Path2]:
        """The lines."""
        return [p for p in self.paths if len(p) == 2]

    @cached_property
    def verticals(self) -> list[tuple[float, float, float]]:
        """Upright lines: place, lower end, upper end."""
        upright = [(a, b) for a, b in self.strokes if abs(a[0] - b[0]) < 1e-4]
        return [(a[0], min(a[1], b[1]), max(a[1], b[1])) for a, b in upright]

    @property
    def texts(self) -> list[str]:
        """The words alone."""
        return [w.text for w in self.words]


def assert_same(found: Sequence[Path2], wanted: Sequence[Path2], near: float = NEAR) -> None:
    """The same paths in the same order, every corner within *near* inches."""
    assert [len(path) for path in found] == [len(path) for path in wanted]
    for one, other in zip(found, wanted, strict=True):
        assert [c for p in one for c in p] == pytest.approx([c for p in other for c in p], abs=near)


# --- PDF -------------------------------------------------------------------------------------------------------------


def pdf_sheets(path: Path) -> list[Sheet]:
    """All pages of a PDF file, by PDFium."""
    with pypdfium2.PdfDocument(path) as document:
        return [_pdf_sheet(page) for page in document]


def pdf_paths(path: Path) -> list[Path2]:
    """Corner points of every path of the first page."""
    return pdf_sheets(path)[0].paths


def _pdf_sheet(page: Any) -> Sheet:
    left, low, right, high = page.get_mediabox()
    sheet = Sheet((right - left) / 72, (high - low) / 72)
    text_page = page.get_textpage()
    last = None
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH, pdfium.FPDF_PAGEOBJ_TEXT]):
        if item.type == pdfium.FPDF_PAGEOBJ_PATH:
            sheet.paths.append(points_of(item))
            continue
        mark, words = _typed(item)
        if mark is None or mark != last:
            sheet.words.append(_words(item, words if mark else _shown(item, text_page)))
        last = mark
    return sheet


def points_of(item: Any) -> Path2:
    """The corners of one path object."""
    a, b, c, d, e, f = item.get_matrix().get()
    x, y = ctypes.c_float(), ctypes.c_float()
    points = []
    for index in range(pdfium.FPDFPath_CountSegments(item)):
        segment = pdfium.FPDFPath_GetPathSegment(item, index)
        assert pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        points.append(((a * x.value + c * y.value + e) / 72, (b * x.value + d * y.value + f) / 72))
    # PDFium closes an axis-parallel box with its first corner once more
    return tuple(points[:-1] if len(points) > 2 and points[0] == points[-1] else points)


def _typed(item: Any) -> tuple[int | None, str]:
    """The marked content a text object belongs to and its ActualText, if any."""
    for number in range(pdfium.FPDFPageObj_CountMarks(item)):
        mark = pdfium.FPDFPageObj_GetMark(item, number)
        size, buffer = ctypes.c_ulong(), (ctypes.c_ubyte * 512)()
        if pdfium.FPDFPageObjMark_GetParamBlobValue(mark, b"ActualText", buffer, 512, size):
            words = bytes(buffer)[: size.value]
            utf16 = words.startswith(b"\xfe\xff")  # ISO 32000-1, 7.9.2.2 (seen)
            typed = words[2:].decode("utf-16-be") if utf16 else words.decode("ascii")
            return ctypes.cast(mark, ctypes.c_void_p).value, typed
    return None, ""


def _shown(item: Any, text_page: Any) -> str:
    size = pdfium.FPDFTextObj_GetText(item, text_page, None, 0)
    buffer = (ctypes.c_ushort * (size // 2 + 1))()
    pdfium.FPDFTextObj_GetText(item, text_page, buffer, size)
    return bytes(buffer)[: size - 2].decode("utf-16-le")


def _words(item: Any, text: str) -> Words:
    a, b, _, _, e, f = item.get_matrix().get()
    size = ctypes.c_float()
    assert pdfium.FPDFTextObj_GetFontSize(item, size)
    return Words(" ".join(text.split()), e / 72, f / 72, size.value / 72, abs(b) > abs(a))


class _Codes(PDFTextDevice):
    """Keeps, for each embedded font, the character codes that a page shows in it."""

    def __init__(self, resources: PDFResourceManager) -> None:
        super().__init__(resources)
        self.shown: dict[str, tuple[bytes, set[int]]] = {}

    def render_string(self, textstate: Any, seq: Any, ncs: Any, graphicstate: Any) -> None:
        font = textstate.font
        _, codes = self.shown.setdefault(font.fontname, (resolve1(font.descriptor["FontFile2"]).get_data(), set()))
        codes.update(code for part in seq if isinstance(part, bytes) for code in font.decode(part))


def boxes_shown(path: Path) -> tuple[int, list[str]]:
    """How many different glyphs a PDF file shows, and those that its embedded fonts have no outline for."""
    resources = PDFResourceManager()
    device = _Codes(resources)
    with pdfplumber.open(path) as document:
        for page in document.pages:
            PDFPageInterpreter(resources, device).process_page(page.page_obj)
    shown, bad = 0, []
    for name, (data, codes) in device.shown.items():
        font = TTFont(BytesIO(data))
        tables = [t.cmap for t in font["cmap"].tables]
        for code in sorted(codes):
            shown += 1
            glyph = next((t[code] for t in tables if code in t), ".notdef")
            if font.getGlyphID(glyph) == 0:
                bad.append(f"{name}: {code}")
    return shown, bad


# --- SVG -------------------------------------------------------------------------------------------------------------


class SvgReader:
    """An SVG of ours read with the standard library: paths, runs and words in inches, y up."""

    def __init__(self, path: Path) -> None:
        self.root = ET.parse(path).getroot()
        _, _, wide, high = map(float, self.root.attrib["viewBox"].split())
        width, height = (self.inches(self.root.attrib[side]) for side in ("width", "height"))
        self.width, self.height, self.high = width, height, high
        self.x, self.y = width / wide, height / high
        self.paths: list[Path2] = []
        self.runs: list[tuple[str, float, float, tuple[float, ...], list[float]]] = []
        self.words: list[Words] = []
        for child in self.root:
            self.read(child)

    @staticmethod
    def inches(size: str) -> float:
        """A size with its unit."""
        number, unit = re.fullmatch(r"([\d.]+)(in|mm)", size).groups()  # type: ignore[union-attr]
        return float(number) / {"in": 1.0, "mm": 25.4}[unit]

    def place(self, x: float, y: float) -> tuple[float, float]:
        """A place of the view box in inches, y up."""
        return x * self.x, (self.high - y) * self.y

    def read(self, element: ET.Element, typed: str = "") -> None:
        """Take in *element* and all in it; *typed* are the words of the length it is part of."""
        if element.tag == f"{SVG}defs":
            return
        if element.tag == f"{SVG}path":
            for part in element.attrib["d"].split("M")[1:]:
                points = [tuple(map(float, p.split())) for p in part.rstrip("Z").split("L")]
                self.paths.append(tuple(self.place(x, y) for x, y in points))
        if "transform" in element.attrib:
            self.run(element, typed)
            return
        if re.fullmatch(r"text(-\d+)?", element.get("id", "")) and not typed:
            typed, before = element.findtext(f"{SVG}title", ""), len(self.words)
            for child in element:
                self.read(child, typed)
            del self.words[before + 1 :]  # the length begins where its first run does
            return
        for child in element:
            self.read(child, typed)

    def run(self, element: ET.Element, typed: str) -> None:
        """One run of glyphs."""
        *turn, e, f = map(float, re.findall(r"-?[\d.]+", element.attrib["transform"]))
        uses = element.findall(f"{SVG}use")
        codes = [re.fullmatch(r"#[rb]-([0-9A-F]+)", use.attrib[HREF]) for use in uses]
        words = "".join(chr(int(code[1], 16)) for code in codes if code)
        along = [float(use.get("x", 0)) for use in uses]
        self.runs.append((words, *self.place(e, f), tuple(turn), along))
        text = typed or element.findtext(f"{SVG}title", words)
        size = max(abs(turn[0]), abs(turn[1])) * 1000 * self.x
        self.words.append(Words(" ".join(text.split()), *self.place(e, f), size, abs(turn[1]) > abs(turn[0])))


def svg_sheet(path: Path) -> Sheet:
    """An SVG file as a sheet."""
    found = SvgReader(path)
    return Sheet(found.width, found.height, found.paths, found.words)
