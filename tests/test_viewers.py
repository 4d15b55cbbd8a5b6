"""Every PDF of a packet opens without a word of complaint in the programs that people and printers read PDF with."""

from __future__ import annotations

import re
import shutil
import subprocess
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from printed import Printed

# Debian's mutool says so of itself, whatever the file.
OF_ITSELF = "warning: ICC support is not available\n"
QPDF_IS_CONTENT = """No syntax or stream encoding errors found; the file may still contain
errors that qpdf cannot detect
"""

PDFS = ("packet.pdf", "index.pdf", "rods.pdf", "tags.pdf", "walls.pdf", "cuts.pdf")

# (what may be missing, its Debian package, the command; FILE is the PDF and OUT a folder to write into)
READERS = {
    "poppler pdfinfo": ("pdfinfo", "poppler-utils", "-box FILE"),
    "poppler pdftotext": ("pdftotext", "poppler-utils", "FILE OUT/text"),
    "poppler pdftoppm": ("pdftoppm", "poppler-utils", "-r 40 -gray FILE OUT/page"),
    "poppler pdffonts": ("pdffonts", "poppler-utils", "FILE"),
    "mupdf info": ("mutool", "mupdf-tools", "info FILE"),
    "mupdf draw": ("mutool", "mupdf-tools", "draw -q -r 40 -o OUT/%d.pgm FILE"),
    "mupdf clean": ("mutool", "mupdf-tools", "clean -gggg -z FILE OUT/clean.pdf"),
    "ghostscript": ("gs", "ghostscript", "-q -dNOPAUSE -dBATCH -dPDFSTOPONWARNING -sDEVICE=nullpage FILE"),
    "qpdf": ("qpdf", "qpdf", "--check FILE"),
}


def read(reader: str, path: Path, out: Path) -> tuple[int, str, str]:
    """Let a reader have a file: its exit code, what it says, and what it complains of."""
    program, package, words = READERS[reader]
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not installed (Debian: {package})")
    arguments = [w.replace("FILE", str(path)).replace("OUT", str(out)) for w in words.split()]
    done = subprocess.run([program, *arguments], capture_output=True, text=True)
    return done.returncode, done.stdout, done.stderr.replace(OF_ITSELF, "")


@pytest.mark.parametrize("reader", READERS)
def test_no_reader_has_anything_to_complain_of(printed: Printed, tmp_path: Path, reader: str) -> None:
    for name in PDFS:
        code, said, complaint = read(reader, printed.folder / name, tmp_path)
        assert (code, complaint) == (0, ""), name
        assert not re.search(r"\b(error|warning|repair)", said.replace(QPDF_IS_CONTENT, ""), re.I)


def test_a_reader_would_complain_of_a_broken_file(printed: Printed, tmp_path: Path) -> None:
    """What this test file relies on: each of them says when something is wrong."""
    data = (printed.folder / "tags.pdf").read_bytes()
    broken = tmp_path / "broken.pdf"
    broken.write_bytes(data[: len(data) // 2])
    asked = 0
    for reader in ("poppler pdfinfo", "mupdf info", "ghostscript", "qpdf"):
        if shutil.which(READERS[reader][0]):
            code, _, complaint = read(reader, broken, tmp_path)
            assert code != 0 or complaint, reader
            asked += 1
    if not asked:
        pytest.skip("no reader is installed")


def test_poppler_sees_the_paper_the_title_and_the_version(printed: Printed, tmp_path: Path) -> None:
    _, said, _ = read("poppler pdfinfo", printed.folder / "packet.pdf", tmp_path)
    about = dict(line.split(":", 1) for line in said.splitlines())
    assert about["PDF version"].strip() == "1.7"
    assert about["Title"].strip() == printed.building.job.job.name
    assert about["JavaScript"].strip() == "no"
    assert about["Encrypted"].strip() == "no"
    boxes = {about[box].split()[0] and about[box].strip() for box in ("MediaBox", "CropBox", "TrimBox")}
    assert len(boxes) == 1
    left, low, *sides = map(float, boxes.pop().split())
    assert (left, low) == (0, 0)
    assert sorted(sides) == pytest.approx(sorted(side * 72 for side in printed.paper), abs=0.01)


def test_poppler_sees_every_font_embedded_and_subset(printed: Printed, tmp_path: Path) -> None:
    for name in PDFS:
        _, said, _ = read("poppler pdffonts", printed.folder / name, tmp_path)
        rows = [line.split() for line in said.splitlines()[2:]]
        assert rows
        for row in rows:
            embedded, subset, unicode = row[-5:-2]
            assert (embedded, subset, unicode) == ("yes", "yes", "yes")


def test_every_reader_finds_the_same_number_of_pages(printed: Printed, tmp_path: Path) -> None:
    """And poppler's text is PDFium's, but for the order and the spaces."""
    with pypdfium2.PdfDocument(printed.folder / "packet.pdf") as document:
        count = len(document)
        words = sorted("".join(page.get_textpage().get_text_range() for page in document).split())
    assert count == len(printed.pages)
    _, said, _ = read("poppler pdfinfo", printed.folder / "packet.pdf", tmp_path)
    assert re.search(rf"^Pages: +{count}$", said, re.M)
    read("poppler pdftotext", printed.folder / "packet.pdf", tmp_path)
    text = (tmp_path / "text").read_text(encoding="utf-8")
    assert sorted("".join(words)) == sorted("".join(text.split()))
    read("mupdf clean", printed.folder / "packet.pdf", tmp_path)
    with pypdfium2.PdfDocument(tmp_path / "clean.pdf") as document:
        assert len(document) == count


def test_pdfium_opens_every_page_and_knows_what_is_asked_of_the_printer(printed: Printed) -> None:
    """PDFium's own answers: no scaling, one side, bookmarks for every page, labels that count up."""
    for name in PDFS:
        with pypdfium2.PdfDocument(printed.folder / name) as document:
            assert document.get_version() == 17
            assert not pdfium.FPDF_VIEWERREF_GetPrintScaling(document)
            assert pdfium.FPDF_VIEWERREF_GetDuplex(document) == pdfium.Simplex
            labels = [document.get_page_label(index) for index in range(len(document))]
            numbers = [int(label.rsplit(" ", 1)[1]) for label in labels]
            assert all(b == a + 1 for a, b in pairwise(numbers))
            led = {b.get_dest().get_index() for b in document.get_toc() if b.level == 1}
            assert led == set(range(len(document)))
            for page in document:
                assert page.render(scale=0.1).to_pil().getextrema()[0][0] < 250, "a blank page"
