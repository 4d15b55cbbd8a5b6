"""Pages of a packet's files that are the same to the byte are looked at once; a file in which anything else stands is
looked at in full."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path

import faults
import pytest
from faults import Bench, told
from msgspec.structs import replace
from printed import Printed

from sheets import audit_pdf, audit_same, pdf
from sheets.pages import Page
from sheets.shapes import Drawing, Text, flat


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    """A whole packet."""
    return faults.bench(tmp_path / "out", None)


@pytest.fixture
def looked(monkeypatch: pytest.MonkeyPatch) -> list[bytes]:
    """The files whose pages PDFium is asked for, in one process."""
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    files: list[bytes] = []
    read = audit_pdf.read

    def noted(data: bytes) -> audit_pdf.Document:
        files.append(data)
        return read(data)

    monkeypatch.setattr(audit_pdf, "read", noted)
    return files


def kinds(folder: Path) -> list[Path]:
    """The files that hold one kind of sheets."""
    return sorted(path for path in folder.glob("*.pdf") if path.name != "packet.pdf")


def test_every_page_of_a_kind_is_a_page_of_the_packet_and_reads_the_same(printed: Printed) -> None:
    data = (printed.folder / "packet.pdf").read_bytes()
    stand = audit_same.pages(data)
    read = audit_pdf.read(data).pages
    assert len(stand) == len(set(stand)) == len(read), "no two pages of a packet are alike: each has its number"
    count = 0
    for path in kinds(printed.folder):
        own = audit_same.pages(path.read_bytes())
        count += len(own)
        for page, looks in zip(own, audit_pdf.read(path.read_bytes()).pages, strict=True):
            assert looks == read[stand.index(page)], "PDFium, which knows nothing of the one, sees the other"
    assert count == len(stand)


def test_a_right_packet_is_looked_at_once(bench: Bench, looked: list[bytes]) -> None:
    assert bench.found() == []
    assert sorted(looked) == sorted(path.read_bytes() for path in kinds(bench.folder)), "not the packet, which is these"


def test_a_kind_alone_is_looked_at(tmp_path: Path, looked: list[bytes]) -> None:
    bench = faults.bench(tmp_path / "tags", "tags")
    assert bench.found() == []
    assert looked == [(bench.folder / "tags.pdf").read_bytes()]


MOVED = re.compile(rb"\n(\d)(\d+\.\d+ \d+\.\d+ m \d+\.\d+ \d+\.\d+ l S\n)")


@pytest.mark.parametrize("name", ["rods.pdf", "packet.pdf"])
def test_a_line_moved_in_one_file_is_told_of_that_file(bench: Bench, looked: list[bytes], name: str) -> None:
    path = bench.folder / name
    data = path.read_bytes()
    line = MOVED.search(data)
    assert line
    path.write_bytes(data[: line.start(1)] + (b"1" if line[1] != b"1" else b"2") + data[line.end(1) :])
    found = bench.found()
    assert {d.sheet.partition(" ")[0] for d in found} == {name}
    assert told(found, f"{name} page ", "line (")
    assert len(looked) == len(kinds(bench.folder)) + 1, "the packet too"


def test_words_changed_on_a_kind_alone_are_told_of_that_kind(bench: Bench) -> None:
    """As above, in a file that is written as ours are: its fonts and its codes are others."""
    sheets = [s for s in bench.packet.sheets if s.kind == "tags"]
    texts = [shape for shape in flat(sheets[0].page.drawing.shapes) if isinstance(shape, Text)]
    words = next(text.text for text in texts if "offset" in text.text.lower())
    changed = faults.edited(sheets[0].page.drawing, faults.reads(words, "onset"))
    pages = [replace(sheets[0].page, drawing=changed), *(s.page for s in sheets[1:])]
    pdf.write(bench.folder / "tags.pdf", pages, "spoilt")
    found = bench.found()
    assert {d.sheet.partition(" ")[0] for d in found} == {"tags.pdf"}
    assert told(found, "tags.pdf page 1", "onset")


@pytest.mark.parametrize("name", ["rods.pdf", "packet.pdf"])
def test_a_file_with_a_page_lost_or_too_many_vouches_for_none(bench: Bench, looked: list[bytes], name: str) -> None:
    pages = [s.page for s in bench.packet.sheets if name in ("packet.pdf", f"{s.kind}.pdf")]
    for others in (pages[1:], [*pages, pages[0]]):
        looked.clear()
        pdf.write(bench.folder / name, others, "spoilt")
        (difference,) = bench.found()
        assert (difference.sheet, difference.place) == (name, "pages")
        assert len(looked) == 1 + len(kinds(bench.folder))


def test_without_the_file_of_a_kind_the_packet_is_looked_at(bench: Bench, looked: list[bytes]) -> None:
    (bench.folder / "rods.pdf").unlink()
    (difference,) = bench.found()
    assert (difference.sheet, difference.found) == ("rods.pdf", "missing")
    assert (bench.folder / "packet.pdf").read_bytes() in looked


def test_what_is_wrong_with_a_kind_as_a_whole_is_told(bench: Bench) -> None:
    found = bench.rewrite("walls.pdf", b"/PrintScaling /None", b"/PrintScaling /AppD")
    assert [(d.sheet, d.place) for d in found] == [("walls.pdf", "viewer preferences")]


# --- what stands for a page ------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A file of two pages, with words in both cuts: objects 2 and 3, under the tree 18."""
    path = tmp_path_factory.mktemp("two") / "two.pdf"
    words = [(Text(1, 1, "Girt 2", 0.2, "regular"), Text(1, 2, f"{n}", 0.3, "bold")) for n in (1, 2)]
    pdf.write(path, [Page(Drawing(5, 7, shapes), "page", "section") for shapes in words], "two")
    return path.read_bytes()


def put(data: bytes, old: bytes, new: bytes) -> bytes:
    """*data* with the last *old* replaced by *new*, of the same length: objects stay where the table says."""
    assert len(old) == len(new)
    before, found, after = data.rpartition(old)
    assert found
    return before + new + after


def test_two_pages_stand_for_themselves(two: bytes) -> None:
    first, second = audit_same.pages(two)
    assert first != second


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"72 144 Td", b"72 145 Td"),  # an operator
        (b"/CropBox [ 0 0 360 504 ]", b"/CropBox [ 0 0 360 503 ]"),
        (b"/MediaBox [ 0 0 360 504 ]", b"/MediaBox [ 0 0 306 504 ]"),
        (b"/Rotate 0", b"/Rotate 9"),
        (b"/Contents 20 0 R", b"/Contents 19 0 R"),
    ],
)
def test_a_change_on_a_page_is_one_of_that_page_alone(two: bytes, old: bytes, new: bytes) -> None:
    first, second = audit_same.pages(two)
    changed = audit_same.pages(put(two, old, new))
    assert changed[0] == first
    assert changed[1] != second


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"<01> <0047>", b"<01> <0048>"),  # which letter a code is: only those who copy it see it
        (b"fpgm", b"fpgn"),  # in the font itself
        (b"/StemV 87", b"/StemV 88"),
        (b"/F1+0 7 0 R", b"/F1+1 7 0 R"),
        (b"/F1+0 7 0 R /F2+0 11 0 R", b"/F1+0 11 0 R /F2+0 7 0 R"),
    ],
)
def test_a_change_of_what_pages_share_is_one_of_all(two: bytes, old: bytes, new: bytes) -> None:
    now = audit_same.pages(put(two, old, new))
    assert len(now) == 2
    assert not set(audit_same.pages(two)) & set(now)


def test_what_a_page_takes_over_is_its_own(two: bytes) -> None:
    """Table 31 of ISO 32000-1: a page without a box of its own has that of the tree."""
    now = audit_same.pages(put(two, b"/Type /Pages", b"/Typ /Pages "))
    assert len(now) == 2
    assert not set(audit_same.pages(two)) & set(now)


def test_pages_in_another_order_stand_in_that_order(two: bytes) -> None:
    now = audit_same.pages(put(two, b"2 0 R 3 0 R", b"3 0 R 2 0 R"))
    assert now == audit_same.pages(two)[::-1]


def at(data: bytes, number: int) -> int:
    """Where the table says that an object begins."""
    row = data.index(b"xref\n0 ") + len(b"xref\n0 22\n") + 20 * number
    return int(data[row : row + 10])


def moved(data: bytes, number: int, by: int) -> bytes:
    """The object begins elsewhere, says the table."""
    place = at(data, number)
    return put(data, b"%010d 00000 n" % place, b"%010d 00000 n" % (place + by))


@pytest.mark.parametrize(
    "change",
    [
        lambda data: b"",
        lambda data: data[:-30],
        lambda data: data[:-1] + b"1 0 obj\nnull\nendobj\n",
        lambda data: data.replace(b"%%EOF", b"%%EOF\nxref\n0 1\n0000000000 65535 f \ntrailer\n<<\n>>"),
        lambda data: data + data[data.rindex(b"xref\n0 ") :],
        lambda data: data.replace(b"1 0 obj", b"9 0 obj", 1),
        lambda data: data.replace(b"2 0 obj", b"2 1 obj", 1),
        lambda data: moved(data, 5, 1),
        lambda data: moved(data, 1, -9),
        lambda data: put(data, b"00000 n", b"00000 f"),
        lambda data: put(data, b"00000 n", b"00001 n"),
        lambda data: put(data, b"/Size ", b"/Prev "),
        lambda data: put(data, b"/Root ", b"/Toor "),
        lambda data: data.replace(b"/Size ", b"/Encrypt 4 0 R /Size "),
        lambda data: put(data, b"/Pages 18 0 R", b"/Pages 98 0 R"),
        lambda data: put(data, b"/Kids", b"/Sons"),
        lambda data: data.replace(b"/Root 12 0 R\n", b"/Root 12 0 R\n/Root 12 0 R\n"),
        lambda data: data.replace(b"/Root 12 0 R", b"/Root %s 0 R" % (b"1" * 5000)),
        lambda data: put(data, b"/Type /Pages", b"/Kids [ 2 ] "),
        lambda data: put(data, b"2 0 R 3 0 R", b"2 0 R 1 0 R"),
        lambda data: put(data, b"/Parent 18 0 R", b"/Parent 17 0 R"),
        lambda data: put(data, b"/Contents 20 0 R", b"/Contents 20 1 R"),
        lambda data: put(data, b"/Contents 20 0 R", b"/Contents 3 0 R "),
        lambda data: put(data, b"/Contents 20 0 R", b"/Contents 90 0 R"),
        lambda data: put(data, b"endstream", b"endstreem"),
        lambda data: put(data, b"%PDF-1.7\n", b"1 0 obj\n\n"),
    ],
)
def test_what_is_laid_out_otherwise_has_no_pages(two: bytes, change: Callable[[bytes], bytes]) -> None:
    """A reader may take such a file in its own way: it is for PDFium to say what stands on its pages."""
    changed = change(two)
    assert changed != two
    assert audit_same.pages(changed) == ()
