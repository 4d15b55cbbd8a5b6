"""Each file as a file: page sizes, viewer preferences, fonts, bookmarks; names, sizes and order in the SVG."""

from __future__ import annotations

import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from itertools import pairwise
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest
from pdfplumber.utils.pdfinternals import resolve_all
from readback import HREF, SVG
from reportlab.pdfgen.canvas import Canvas
from specimen import as_pdf, as_svg, specimen

from sheets import lettering, pdf, svg
from sheets.pages import Page
from sheets.shapes import Drawing, Group, Line, Recorder, Shape, Text


@pytest.mark.parametrize("compress", [True, False])
def test_pages_are_exactly_as_large_as_their_drawings(tmp_path: Path, compress: bool) -> None:
    sizes = [(8.5, 11.0), (11.0, 17.0), (210 / 25.4, 297 / 25.4), (200.0, 3.0), (17.25, 1.0)]
    drawings = [Drawing(width, height, ()) for width, height in sizes]
    path = as_pdf(tmp_path / "a.pdf", *drawings, compress=compress)
    assert path.read_bytes().startswith(b"%PDF-1.7")
    with pypdfium2.PdfDocument(path) as document:
        for page, (width, height) in zip(document, sizes, strict=True):
            assert page.get_mediabox() == pytest.approx((0, 0, width * 72, height * 72), abs=1e-3)
            assert page.get_rotation() == 0
    with pdfplumber.open(path) as document:
        for page in document.pages:
            boxes = [resolve_all(page.page_obj.attrs[box]) for box in ("MediaBox", "CropBox", "TrimBox")]
            assert boxes[0] == boxes[1] == boxes[2], "what is shown and what it is cut to is the page"


def test_the_printer_is_told_not_to_scale_nor_to_turn_the_sheet_over(tmp_path: Path) -> None:
    """ISO 32000-1, table 150 (seen); ``Enforce`` is of ISO 32000-2, table 147 (memory)."""
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", specimen())) as document:
        wishes = resolve_all(document.doc.catalog["ViewerPreferences"])
        language = resolve_all(document.doc.catalog["Lang"])
    assert {key: value.name for key, value in wishes.items() if hasattr(value, "name")} == {
        "PrintScaling": "None",
        "Duplex": "Simplex",
    }
    assert [name.name for name in wishes["Enforce"]] == ["PrintScaling"]
    assert wishes["PickTrayByPDFSize"] is True
    assert wishes["DisplayDocTitle"] is True
    assert language == b"en-US"


def test_what_a_viewer_is_asked_for_changes_nothing_in_the_library(tmp_path: Path) -> None:
    """Its own table of preferences is as long as before."""
    as_pdf(tmp_path / "a.pdf", Drawing(8, 8, ()))
    with pytest.raises(ValueError, match="PickTrayByPDFSize"):
        Canvas(str(tmp_path / "b.pdf")).setViewerPreference("PickTrayByPDFSize", "true")


@pytest.mark.parametrize("first", [1, 12])
def test_a_viewer_calls_a_page_by_its_section_and_printed_number(tmp_path: Path, first: int) -> None:
    """Page labels (ISO 32000-1, 12.4.2, seen) as PDFium reads them."""
    blank = Drawing(8.5, 11, ())
    sections = ["Index", "Rod strips", "Rod strips", "Column tags – Ø"]
    pdf.write(tmp_path / "a.pdf", [Page(blank, "Sheet", section) for section in sections], "Barn", first=first)
    with pypdfium2.PdfDocument(tmp_path / "a.pdf") as document:
        found = [document.get_page_label(index) for index in range(len(document))]
    assert found == [f"{section} {number}" for number, section in enumerate(sections, first)]


def test_only_our_fonts_and_all_of_them_embedded(tmp_path: Path) -> None:
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", specimen())) as document:
        resources = resolve_all(document.pages[0].page_obj.resources)
    names = set()
    for font in resources["Font"].values():
        assert font["Subtype"].name == "TrueType"
        assert font["FontDescriptor"]["FontFile2"].get_data()[:4] in (b"\0\1\0\0", b"true")
        names.add(font["BaseFont"].name.split("+")[1])
    assert names == {"IBMPlexSansCond-Regular", "IBMPlexSansCond-SemiBold"}


def test_bookmarks_lead_through_sections_and_pages(tmp_path: Path) -> None:
    blank = Drawing(8.5, 11, ())
    rows = [("Index", "Index"), ("Tags", "A1"), ("Tags", "A2 – Ø"), ("Walls", "North")]
    pdf.write(tmp_path / "a.pdf", [Page(blank, title, section) for section, title in rows], "Barn (1) – é")
    with pypdfium2.PdfDocument(tmp_path / "a.pdf") as document:
        found = [(b.level, b.get_title(), b.get_dest().get_index()) for b in document.get_toc()]
        about = document.get_metadata_dict()
    assert found == [
        (0, "Index", 0),
        (1, "Index", 0),
        (0, "Tags", 1),
        (1, "A1", 1),
        (1, "A2 – Ø", 2),
        (0, "Walls", 3),
        (1, "North", 3),
    ]
    assert (about["Title"], about["Author"]) == ("Barn (1) – é", "rodwright")


def test_the_state_of_one_page_is_not_taken_for_the_state_of_the_next(tmp_path: Path) -> None:
    recorder = Recorder(4, 4)
    recorder.stroke(1, 1, 3, 1, 0.028, (0.1, 0.1))
    lettering.write(recorder, 1, 2, "grey", 0.3, "bold", grey=0.5)
    path = as_pdf(tmp_path / "a.pdf", recorder.drawing(), recorder.drawing(), recorder.drawing())
    with pdfplumber.open(path) as document:
        pages = [
            [(line["linewidth"], line["dash"]) for line in page.lines]
            + [(c["fontname"], c["size"], c["non_stroking_color"]) for c in page.chars]
            for page in document.pages
        ]
    assert all(one == other for one, other in pairwise(pages))
    assert pages[0][0][0] == pytest.approx(0.028 * 72, abs=1e-3)


@pytest.mark.parametrize("size", [(0.0, 5.0), (5.0, -1.0), (200.5, 5.0), (float("nan"), 5.0)])
def test_a_page_of_no_or_too_large_a_size_is_refused(tmp_path: Path, size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="side"):
        as_pdf(tmp_path / "a.pdf", Drawing(*size, ()))
    with pytest.raises(ValueError, match="without pages"):
        pdf.write(tmp_path / "a.pdf", [], "Job")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("title", ["a\x00", "a\nb", "\ud800"])
def test_control_characters_in_a_title_are_refused(tmp_path: Path, title: str) -> None:
    blank = Drawing(8, 8, ())
    with pytest.raises(ValueError):
        as_svg(tmp_path / "a.svg", blank, title)
    for page, name in (
        (Page(blank, title, "S"), "J"),
        (Page(blank, "P", title), "J"),
        (Page(blank, "P", "S"), title),
    ):
        with pytest.raises(ValueError):
            pdf.write(tmp_path / "a.pdf", [page], name)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(("unit", "sizes"), [("in", ("8.5in", "11in")), ("mm", ("215.9mm", "279.4mm"))])
def test_the_svg_has_its_true_size(tmp_path: Path, unit: svg.Unit, sizes: tuple[str, str]) -> None:
    root = ET.parse(as_svg(tmp_path / "a.svg", Drawing(8.5, 11, ()), unit=unit)).getroot()
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == (*sizes, "0 0 8500 11000")
    assert root.get("version") == "1.1"


def test_group_names_become_unique_xml_names(tmp_path: Path) -> None:
    names = ["wall", "wall", "wall-2", "1 north", "ß<>", "", "b-31", "a:b", "-", "wall"]
    line = Line(0, 0, 1, 1)
    shapes: tuple[Shape, ...] = (*(Group(name, (line,)) for name in names), Text(1, 1, "11", 0.3, "bold"))
    root = ET.parse(as_svg(tmp_path / "a.svg", Drawing(8, 8, shapes))).getroot()
    ids = [e.attrib["id"] for e in root.iter() if "id" in e.attrib]
    assert len(ids) == len(set(ids)) == len(names) + 1
    assert all(re.fullmatch(r"[A-Za-z_][\w.-]*", name, re.ASCII) for name in ids)
    groups = [e.attrib["id"] for e in root.findall(f"{SVG}g[@id]")]
    assert groups[:4] == ["wall", "wall-2", "wall-2-2", "n-1-north"]
    targets = {e.attrib[HREF] for e in root.iter(f"{SVG}use")}
    defined = {f"#{e.attrib['id']}" for e in root.findall(f"{SVG}defs/{SVG}path")}
    assert targets == defined


def test_lines_of_one_style_share_a_path_and_the_order_of_painting_is_kept(tmp_path: Path) -> None:
    recorder = Recorder(8, 8)
    for row in range(3):
        recorder.stroke(1, row, 2, row)
    recorder.box(0, 0, 5, 5, 1.0, 0.0)
    recorder.stroke(1, 4, 2, 4)
    root = ET.parse(as_svg(tmp_path / "a.svg", recorder.drawing())).getroot()
    assert [e.attrib["d"].count("M") for e in root.findall(f"{SVG}path")] == [3, 1, 1]


def test_no_writer_knows_the_library_of_another() -> None:
    for module, other in (("pdf", "svgwrite"), ("svg", "reportlab"), ("preview", "svgwrite")):
        script = f"import sys, sheets.{module}; assert not [m for m in sys.modules if m.startswith({other!r})]"
        subprocess.run([sys.executable, "-c", script], check=True)
