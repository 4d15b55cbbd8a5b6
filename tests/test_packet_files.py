"""Every PDF and SVG of a packet as a file: exact paper, no scaling, fonts embedded and subset, no glyph missing."""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest
from fontTools.ttLib import TTFont
from pdfplumber.utils.pdfinternals import resolve_all
from printed import Printed
from readback import HREF, SVG, SvgReader, boxes_shown

import fonts


def pdfs(printed: Printed) -> list[Path]:
    """Every PDF of the packet."""
    found = sorted(printed.folder.glob("*.pdf"))
    kinds = {"index", "field", "grade", "rods", "tags", "walls", "roof", "templates", "cuts"}
    assert {path.stem for path in found} == {*kinds, "packet"}
    return found


def test_pages_are_exactly_the_paper(printed: Printed) -> None:
    """MediaBox in points, 72 to the inch (ISO 32000-1, 7.7.3.3, seen); upright or lying, never turned by a flag."""
    upright = tuple(side * 72 for side in printed.paper)
    for path in pdfs(printed):
        with pypdfium2.PdfDocument(path) as document:
            for page in document:
                left, low, right, high = page.get_mediabox()
                assert (left, low) == (0, 0)
                assert sorted((right, high)) == pytest.approx(sorted(upright), abs=1e-3)
                assert page.get_cropbox() == page.get_mediabox()
                assert page.get_rotation() == 0
        assert b"UserUnit" not in path.read_bytes()


def test_svg_pages_are_exactly_the_paper_in_the_jobs_own_unit(printed: Printed) -> None:
    for name in printed.pages:
        found = SvgReader(printed.folder / name)
        assert sorted((found.width, found.height)) == pytest.approx(sorted(printed.paper), abs=1e-5)
        assert found.root.attrib["width"].endswith("mm" if printed.metric else "in")
        assert found.x == pytest.approx(found.y, rel=1e-6)


def test_no_printer_is_asked_to_scale(printed: Printed) -> None:
    """PrintScaling None (ISO 32000-1, 12.2, seen)."""
    for path in pdfs(printed):
        with pdfplumber.open(path) as document:
            wishes = resolve_all(document.doc.catalog["ViewerPreferences"])
            assert wishes["PrintScaling"].name == "None"
            assert wishes["Duplex"].name == "Simplex", "a tag or a lane on a back is cut away with the front"


def test_fonts_are_embedded_as_subsets(printed: Printed) -> None:
    """A subset's name has six letters and a plus before it (ISO 32000-1, 9.6.4, seen)."""
    whole = {cut: fonts.data(cut) for cut in fonts.CUTS}
    least = min(len(data) for data in whole.values())
    with pdfplumber.open(printed.folder / "packet.pdf") as document:
        names = set()
        for page in document.pages:
            for font in resolve_all(page.page_obj.resources).get("Font", {}).values():
                prefix, plus, name = font["BaseFont"].name.partition("+")
                assert plus
                assert len(prefix) == 6
                assert prefix.isupper()
                data = font["FontDescriptor"]["FontFile2"].get_data()
                assert len(data) < least
                assert TTFont(BytesIO(data))["maxp"].numGlyphs < 257
                names.add(name)
    assert len(names) == len(fonts.CUTS)


def test_no_letter_prints_as_a_box(printed: Printed) -> None:
    for path in pdfs(printed):
        shown, bad = boxes_shown(path)
        assert shown > 20
        assert bad == []
    for name in printed.pages:
        found = SvgReader(printed.folder / name)
        drawn = {f"#{e.get('id')}" for e in found.root.iter(f"{SVG}path") if len(e.get("d", "")) > 10}
        used = {use.attrib[HREF] for use in found.root.iter(f"{SVG}use")}
        assert len(used) > 10
        assert used <= drawn


def test_bookmarks_lead_to_every_sheet_with_its_stamp(printed: Printed) -> None:
    with pypdfium2.PdfDocument(printed.folder / "packet.pdf") as document:
        marks = [(b.level, b.get_title(), b.get_dest().get_index()) for b in document.get_toc()]
        count = len(document)
    sections = [title for level, title, _ in marks if level == 0]
    assert len(sections) == len(set(sections)) == 9  # of the kinds of sheets that are in it
    pages = [(title, page) for level, title, page in marks if level == 1]
    assert [page for _, page in pages] == list(range(count))
    assert all(a[1] <= b[1] for a, b in pairwise([(t, p) for _, t, p in marks]))
    stamps = {sheet["stamp"] for sheet in printed.manifest["sheets"]}
    tags = {page for title, page in pages if title.startswith("Tag")}
    assert all(title.split(" · ")[-1] in stamps for title, page in pages if page not in tags)


def test_a_viewer_shows_the_number_that_is_printed_on_the_page(printed: Printed) -> None:
    """In the packet and in the file of a kind."""
    for path in pdfs(printed):
        with pypdfium2.PdfDocument(path) as document:
            for index, page in enumerate(document):
                label = document.get_page_label(index)
                number = label.rsplit(" ", 1)[1]
                assert f"page {number} of {len(printed.pages)}" in page.get_textpage().get_text_range()
                assert label.rsplit(" ", 1)[0] in [b.get_title() for b in document.get_toc() if b.level == 0]


def test_one_file_a_kind_holds_the_pages_of_the_packet(printed: Printed) -> None:
    for kind in ("index", "rods", "tags", "walls", "cuts"):
        with pypdfium2.PdfDocument(printed.folder / f"{kind}.pdf") as document:
            found = [page.get_textpage().get_text_range() for page in document]
        with pypdfium2.PdfDocument(printed.folder / "packet.pdf") as document:
            numbers = [i for i, name in enumerate(printed.pages) if name.startswith(kind)]
            assert found == [document[i].get_textpage().get_text_range() for i in numbers]
