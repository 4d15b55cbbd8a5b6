"""The files of a packet: which are missing, none, too short, of other pages, and what is told of those that
hold other things than the layout."""

from __future__ import annotations

import gc
from functools import cache
from pathlib import Path

import faults
import pytest
from msgspec.structs import replace
from pages_seen import small, text, told

from sheets import audit, packet, pdf, svg
from sheets.audit import differences, kept_numbers, manifest, no_collector
from sheets.audit_model import Plan, Read
from sheets.changes import Changes
from sheets.held import Held
from sheets.packet import MANIFEST, NUMBERS, Packet, Sheet
from sheets.paper import PAPERS
from sheets.profile import Profile

PLAIN = Profile()


@cache
def built(kind: str) -> Packet:
    return packet.build(small(), PAPERS["letter"], kind)


def an_audit(folder: Path, kind: str = "tags", profile: Profile = PLAIN) -> audit._Audit:
    return audit._Audit(built(kind), small(), folder, profile)


# --- the collector ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("runs", [True, False])
def test_the_collector_is_as_it_was(runs: bool) -> None:
    before = gc.isenabled()
    try:
        (gc.enable if runs else gc.disable)()
        with no_collector():
            assert not gc.isenabled()
        assert gc.isenabled() is runs
        with pytest.raises(KeyError), no_collector():
            raise KeyError
        assert gc.isenabled() is runs
    finally:
        (gc.enable if before else gc.disable)()


# --- the manifest and the numbers ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "found"),
    [
        (None, {}),
        (b"", {}),
        (b"{", {}),
        (b"[1]", {}),
        (b"\xff", {}),
        (b'{"files": ["a"]}', {"files": ["a"]}),
        ('{"a": "é"}'.encode(), {"a": "é"}),
    ],
)
def test_what_a_packet_lists_of_itself(data: bytes | None, found: dict[str, object], tmp_path: Path) -> None:
    if data is not None:
        (tmp_path / MANIFEST).write_bytes(data)
    assert manifest(tmp_path) == found
    assert manifest(tmp_path / MANIFEST) == {}, "no folder"


def test_the_numbers_that_a_packet_keeps(tmp_path: Path) -> None:
    one = built("tags")
    assert told(kept_numbers(one, tmp_path)) == [(NUMBERS, "file", "there", "missing")]
    (tmp_path / NUMBERS).write_bytes(one.numbers.encode() + b" ")
    assert told(kept_numbers(one, tmp_path)) == [(NUMBERS, "file", "the numbers that were printed", "something else")]
    (tmp_path / NUMBERS).write_bytes(one.numbers.encode())
    assert told(kept_numbers(one, tmp_path)) == []


# --- which files there are -------------------------------------------------------------------------------------------


def sheet(kind: str, name: str, *parts: str) -> Sheet:
    """A sheet by its title, or those of its parts."""
    own = built("tags").sheets[0]
    return replace(own, kind=kind, title=name, parts=tuple((part, "22222") for part in parts))


def test_the_pdf_files_of_a_packet() -> None:
    rods, tags, more = sheet("rods", "a"), sheet("tags", "b"), sheet("rods", "c")
    assert audit.pdfs(replace(built("tags"), sheets=(rods, rods))) == [("rods.pdf", [rods, rods])]
    assert audit.pdfs(replace(built("tags"), sheets=(rods, tags, more))) == [
        ("packet.pdf", [rods, tags, more]),
        ("rods.pdf", [rods, more]),
        ("tags.pdf", [tags]),
    ]


def test_files_that_are_missing_or_cannot_be_read(tmp_path: Path) -> None:
    run = an_audit(tmp_path)
    assert run._svg("a.svg") is None
    (tmp_path / "b.svg").write_bytes(b"<a")
    assert run._svg("b.svg") is None
    (tmp_path / "c.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="1in" height="2in" viewBox="0 0 1 2"/>'
    )
    assert run._svg("c.svg") == Read(1.0, 2.0)
    assert told(run.told) == [
        ("a.svg", "file", "there", "missing"),
        ("b.svg", "file", "an SVG", "not to be read (unclosed token: line 1, column 0)"),
    ]


def test_pdf_files_that_are_missing_none_or_too_short(tmp_path: Path) -> None:
    run = an_audit(tmp_path)
    pages = list(built("tags").sheets)
    run._pdf("tags.pdf", pages, {})
    (tmp_path / "tags.pdf").write_bytes(b"%PDF")
    run._pdf("tags.pdf", pages, {})
    pdf.write(tmp_path / "tags.pdf", [one.page for one in pages[:2]], "short")
    run._pdf("tags.pdf", pages, {})
    data = (tmp_path / "tags.pdf").read_bytes().replace(b"/PrintScaling /None", b"/PrintScaling /Auto")
    (tmp_path / "tags.pdf").write_bytes(data)
    run._pdf("tags.pdf", pages, {})
    assert told(run.told) == [
        ("tags.pdf", "file", "there", "missing"),
        ("tags.pdf", "file", "a PDF", "not to be read (PDFium error 3)"),
        ("tags.pdf", "pages", "5", "2"),
        ("tags.pdf", "viewer preferences", "PrintScaling None", "no PrintScaling None"),
        ("tags.pdf", "pages", "5", "2"),
    ]


# --- how far it is ---------------------------------------------------------------------------------------------------


def test_it_tells_how_many_pages_are_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sheets.aside.sys.platform", "none")  # in one process
    bench = faults.bench(tmp_path / "tags", "tags")
    steps: list[tuple[str, int, int]] = []
    assert differences(bench.packet, bench.building, bench.folder, step=lambda *step: steps.append(step)) == []
    assert steps == [("Reading them back", n, 10) for n in range(1, 11)], "five pages in PDF and in SVG"


def test_words_that_lie_in_others_are_told_of_their_sheet_once(tmp_path: Path) -> None:
    """They are the same in every file."""
    one = built("tags").sheets[1]
    twice = replace(one.page.drawing, shapes=(text(1.0, 1.0, "ONE", 0.5), text(1.1, 1.0, "TWO", 0.5)))
    of = replace(built("tags"), sheets=(replace(one, page=replace(one.page, drawing=twice)),))
    assert told(audit._Audit(of, small(), tmp_path, PLAIN).words("tags")) == [
        ("Tags A3 and B4", "'ONE'", "clear of other words", "in 'TWO'")
    ]


def test_all_that_is_told_of_a_packet(tmp_path: Path) -> None:
    bench = faults.bench(tmp_path / "tags", "tags")
    (bench.folder / NUMBERS).unlink()
    assert told(bench.found()) == [(NUMBERS, "file", "there", "missing")]
    (bench.folder / NUMBERS).write_bytes(bench.packet.numbers.encode())
    holds = Held(frozenset(), frozenset(), frozenset(), frozenset(["tags", "roof"]), Changes("old", "new"))
    found = told(differences(replace(bench.packet, held=holds), replace(small(), columns=()), bench.folder))
    own = [one for one in found if one[0] == "packet"]
    tags = sorted(title for sheet in bench.packet.sheets for title, _ in sheet.parts)
    assert own == [
        *(("packet", title, "not among the tags of this packet", "on a sheet") for title in tags),
        ("packet", "roof", "in this packet", "no sheet of them"),
    ]
    assert found[-len(own) :] == own


def test_a_drawing_is_laid_out_once(tmp_path: Path) -> None:
    run = an_audit(tmp_path)
    drawing = built("tags").sheets[0].page.drawing
    first = run._plan(drawing)
    assert first.drawing is drawing
    assert run._plan(drawing) is first
    assert run._plan(built("tags").sheets[1].page.drawing) is not first


def as_drawn(of: Sheet) -> Read:
    """A page as it should be read."""
    one = Plan(of.page.drawing)
    return Read(one.drawing.width, one.drawing.height, one.strokes, one.outlines, one.runs, one.under)


def test_a_page_is_held_against_its_drawing_and_its_bars(tmp_path: Path) -> None:
    run = an_audit(tmp_path)
    one = built("tags").sheets[0]
    read = as_drawn(one)
    seen = run._page("p", one, read)
    assert (seen.label, seen.plan.drawing, run.told, run.count.done) == ("p", one.page.drawing, [], 1)
    other = replace(as_drawn(one), width=9.0)
    run._page("q", one, other)
    assert told(run.told) == [("q", "page", "11.0000 x 8.5000 in", "9.0000 x 8.5000 in")]
    run = an_audit(tmp_path)
    bare = replace(one, page=replace(one.page, drawing=replace(one.page.drawing, shapes=())))
    run._page("r", bare, Read(11.0, 8.5))
    assert told(run.told) == ([] if one.bare else [("r", "check bar", "one on every page", "none")])


def test_a_page_lands_where_its_printer_puts_it(tmp_path: Path) -> None:
    """Along the page, to the right on one that lies, by a thousandth more: the bar of 10 in is long."""
    one = built("tags").sheets[0]
    run = an_audit(tmp_path, profile=Profile("office", "letter", along=1.001))
    run._page("p", one, as_drawn(one))
    (bar,) = [d for d in run.told if d.place == "check-bar-along" and "as it says" in d.want]
    assert (bar.want, bar.found) == ("10.0000 in long, as it says", "10.0100 in")


# --- pages and parts in SVG ------------------------------------------------------------------------------------------


def test_svg_files_of_pages(tmp_path: Path) -> None:
    bench = faults.bench(tmp_path / "tags", "tags")
    (bench.folder / "tags-001.svg").unlink()
    run = audit._Audit(bench.packet, bench.building, bench.folder, PLAIN)
    run.svgs("tags")
    assert told(run.told) == [("tags-001.svg", "file", "there", "missing")]
    assert run.count.done == 4
    run = audit._Audit(bench.packet, replace(small(), columns=small().columns[:8]), bench.folder, PLAIN)
    svg.write(bench.folder / "tags-001.svg", bench.drawing(1), "again")
    run.svgs("tags")
    assert told(run.told) == [("SVG pages", "tags", "8 tags", "9")]
