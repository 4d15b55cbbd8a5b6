"""What the files of a packet printed earlier hold, against its job: one line for each, to the last word."""

from __future__ import annotations

from pathlib import Path

import faults
import pytest
from faults import Bench
from msgspec.structs import replace
from test_audit_told_stale import bench, built

from sheets import packet, pdf, svg
from sheets.audit_model import Difference, Plan, Read, Run
from sheets.audit_stale import _Check, _Old
from sheets.packet import MANIFEST, Sheet
from sheets.profile import Profile

__all__ = ["bench"]

# --- what the files hold ---------------------------------------------------------------------------------------------


def pages() -> list[_Old]:
    return [_Old(n, "tags", f"tags-{n:03d}.svg", s.parts) for n, s in enumerate(built().sheets, 1)]


def check(folder: Path, *changed: str, old: list[_Old] | None = None, profile: Profile | None = None) -> _Check:
    return _Check(folder, built(), profile or Profile(), pages() if old is None else old, changed)


def difference(place: str, want: str = "a", found: str = "b") -> Difference:
    return Difference("p", place, want, found)


def test_one_line_for_a_page(tmp_path: Path) -> None:
    one = check(tmp_path, "b.pdf: changed on disk")
    assert list(one._first("a.svg", "Tag A1", [])) == []
    assert list(one._first("a.svg", "Tag A1", [difference("tag-A1")])) == [
        "a.svg (Tag A1): stale: tag-A1: the job gives a, it holds b"
    ]
    assert list(one._first("a.svg", "", [difference("tag-A1"), difference("x"), difference("y")])) == [
        "a.svg: stale: tag-A1: the job gives a, it holds b (and 2 more)"
    ]
    assert list(one._first("b.pdf page 3", "Tag A1", [difference("footer"), difference("y")])) == [
        "b.pdf page 3 (Tag A1): changed: footer: the job gives a, it holds b (and 1 more)"
    ]
    assert one.footers == []
    dated = [difference("footer"), difference("stamp")]
    assert list(one._first("a.pdf page 2", "Tag A1", dated)) == []
    assert one.footers == [("a.pdf page 2", dated[0])]
    one.footers.clear()
    assert list(one._first("b.pdf page 2", "T", dated)) == [
        "b.pdf page 2 (T): changed: footer: the job gives a, it holds b (and 1 more)"
    ]
    assert one.footers == []
    assert list(one._first("a.svg", "T", [*dated, difference("x")])) == [
        "a.svg (T): stale: footer: the job gives a, it holds b (and 2 more)"
    ]


def test_dates_alone_are_told_in_one_line(tmp_path: Path) -> None:
    one = check(tmp_path)
    one.footers = [
        ("a.pdf page 2", difference("footer", "x", "y")),
        ("b", difference("stamp")),
        ("c", difference("stamp")),
    ]
    assert list(one.files([])) == [
        "a.pdf page 2 and 2 other pages: stale: only the date, the job's name or the page number:"
        " the job gives x, it holds y"
    ]


def read_of(sheet: Sheet) -> Read:
    one = Plan(sheet.page.drawing)
    return Read(one.drawing.width, one.drawing.height, [*one.strokes], [*one.outlines], [*one.runs], [*one.under])


def test_the_stamps_on_a_page(tmp_path: Path) -> None:
    one, (first, *_) = check(tmp_path), pages()
    sheet = built().sheets[0]
    assert list(one._page("p", first, read_of(sheet))) == []
    (name, code), (other, second) = first.rows
    read = read_of(sheet)
    read.runs = [run for run in read.runs if code not in run.words]
    left = " ".join(sorted((sheet.stamp, second)))
    assert list(one._page("p", first, read)) == [f"p ({name}): carries stamp {left}, {MANIFEST} lists {code}"]
    ((place, said),) = one.footers
    assert (place, said.place, said.found) == ("p", "stamp", "nothing")
    old = replace(first, rows=((name, "22222"), (other, "33333")))
    every = " ".join(sorted((sheet.stamp, code, second)))
    assert list(one._page("p", old, read_of(sheet))) == [
        f"p ({name}): carries stamp {every}, {MANIFEST} lists 22222",
        f"p ({other}): carries stamp {every}, {MANIFEST} lists 33333",
    ]
    assert list(one._page("p", old, Read(1, 1))) == [
        f"p ({name}): carries stamp none, {MANIFEST} lists 22222",
        f"p ({other}): carries stamp none, {MANIFEST} lists 33333",
    ]


STAMPS = {
    "stamp  23456": True,
    "STAMP 23456": False,
    "stamp 234567": False,
    "stamp 12345": False,
    "the stamp 23456.": True,
}


@pytest.mark.parametrize(("words", "is_"), STAMPS.items())
def test_a_stamp_as_it_is_printed(words: str, is_: bool, tmp_path: Path) -> None:
    one, old = check(tmp_path), _Old(1, "tags", "a", (("T", "23456"),))
    read = Read(1, 1, runs=[Run(0, 0, 0.1, 0, 0, "x", 1, None), Run(0, 0, 0.1, 0, 0, words, 1, None)])
    assert (list(one._page("p", old, read)) == []) is is_


def test_a_page_lands_where_its_printer_puts_it(tmp_path: Path) -> None:
    one = check(tmp_path, profile=Profile("o", "letter", along=1.001))
    (line_,) = one._page("p", pages()[0], read_of(built().sheets[0]))
    assert line_.startswith("p (Tag A1, Tag A2): stale: tag-A1: the job gives a dashed line (0.5000, ")


def test_the_pdf_and_the_svg_files(bench: Bench) -> None:
    folder = bench.folder
    names = ["tags.pdf", *(page.file for page in pages())]
    assert list(check(folder).files(names)) == []
    short = [sheet.page for sheet in built().sheets[:2]]
    pdf.write(folder / "tags.pdf", short, "short")
    assert list(check(folder).files(names)) == ["tags.pdf: 2 pages, packet.json lists 5"]
    assert list(check(folder).files(names[1:])) == [], "it is not listed"
    data = (folder / "tags.pdf").read_bytes().replace(b"/PrintScaling /None", b"/PrintScaling /Auto")
    (folder / "tags.pdf").write_bytes(data)
    assert list(check(folder, old=pages()[:2]).files(["tags.pdf"])) == [
        "tags.pdf: viewer preferences: should be PrintScaling None, is no PrintScaling None"
    ]
    (folder / "tags.pdf").write_bytes(b"%PDF")
    (folder / "tags-004.svg").write_bytes(b"<a")
    assert list(check(folder).files(names)) == [
        "tags.pdf: not to be read (PDFium error 3)",
        "tags-004.svg: not to be read (unclosed token: line 1, column 0)",
    ]


def test_every_pdf_is_held_to_its_own_pages(bench: Bench) -> None:
    """The whole packet, and each kind: here the first two pages are called another."""
    old = [replace(page, kind="rods" if page.number < 3 else "tags") for page in pages()]
    all_pages = [sheet.page for sheet in built().sheets]
    pdf.write(bench.folder / "packet.pdf", all_pages, "all")
    pdf.write(bench.folder / "rods.pdf", all_pages[:2], "two")
    pdf.write(bench.folder / "tags.pdf", all_pages[2:], "three")
    names = ["packet.pdf", "rods.pdf", "tags.pdf"]
    assert list(check(bench.folder, old=old).files(names)) == []
    pdf.write(bench.folder / "rods.pdf", [all_pages[1], all_pages[0]], "two")
    lines = list(check(bench.folder, old=old).files(names))
    assert [one.partition(" (")[0] for one in lines][::3] == ["rods.pdf page 1", "rods.pdf page 2"]


def test_parts_that_are_listed(bench: Bench) -> None:
    """Lanes and tags alone, only if they are listed; of one that is unknown only that."""
    parts = {name: (drawing, said) for name, drawing, said in built().parts()}
    drawing, said = parts["tag-A2"]
    path = bench.folder / "tag-A2.svg"
    svg.write(path, drawing, said)
    one = check(bench.folder)
    assert list(one._others(["tags-001.svg", "tags.pdf"])) == []
    assert list(one._others(["tag-A2.svg", "tag-A3.svg"])) == []
    assert list(one._others(["tag-Z9.svg", "b.svg", "rod-9.svg"])) == [
        f"{name}: stale: the job no longer gives it" for name in ("b.svg", "rod-9.svg", "tag-Z9.svg")
    ]
    svg.write(path, faults.edited(drawing, faults.reads("A2", "A9")), said)
    (line_,) = one._others(["tag-A2.svg"])
    named = said.partition(": ")[2]
    start = f"tag-A2.svg ({named})" if named else "tag-A2.svg"
    assert line_.startswith(f"{start}: stale: tag-A2: the job gives 'A2' at (")
    path.write_bytes(b"<a")
    assert list(one._others(["tag-A2.svg"])) == ["tag-A2.svg: not to be read (unclosed token: line 1, column 0)"]


def test_rods_in_one_piece_that_are_listed(tmp_path: Path) -> None:
    name, drawing, said = next(one for one in packet.drawings(built("rods")) if one[0].startswith("rod-"))
    svg.write(tmp_path / f"{name}.svg", faults.edited(drawing, faults.shifted(0.01), "-mark-girt-2", 1), said)
    one = _Check(tmp_path, built("rods"), Profile(), [], [])
    page = "rods-001.svg"
    svg.write(tmp_path / page, built("rods").sheets[0].page.drawing, "a page")
    assert list(one._others([page])) == [f"{page}: stale: the job no longer gives it"], "pages are looked at as pages"
    (line_,) = one._others([f"{name}.svg"])
    assert line_.startswith(f"{name}.svg ({said.partition(': ')[2]}): stale: ")
