"""Files that are not what was drawn, or broken: every fault is told with its sheet, its place and both values."""

from __future__ import annotations

import re
from pathlib import Path

import faults
import pytest
from faults import Bench, a_mark, reads, retext, scaled, shifted, told, without
from msgspec.structs import replace

import fonts
from layouts.lengths import show
from sheets import packet, pdf, svg
from sheets.audit import Difference
from sheets.shapes import Drawing, Line, Text, flat

OFF = 0.003  # inches: three times the promise


@pytest.fixture
def rods(tmp_path: Path) -> Bench:
    """Rod strips alone."""
    return faults.bench(tmp_path / "rods", "rods")


@pytest.fixture
def tags(tmp_path: Path) -> Bench:
    """Tags alone."""
    return faults.bench(tmp_path / "tags", "tags")


# --- files that are not what was drawn -------------------------------------------------------------------------------


def test_a_mark_moved_in_a_pdf(rods: Bench) -> None:
    page, name, station = a_mark(rods)
    found = rods.spoil_pdf(page, faults.edited(rods.drawing(page), shifted(OFF), name))
    on_tape = told(found, f"rods.pdf page {page}", "Girt 2", f"{station:.4f} in on the tape")
    assert on_tape.found == f"at {station + OFF:.4f} in on the tape"
    line = told(found, f"rods.pdf page {page}", name, "a line (")
    assert line.want != line.found
    assert all(d.sheet.startswith("rods.pdf") for d in found), "the SVG is right"


def test_a_mark_moved_in_an_svg(rods: Bench) -> None:
    page, name, station = a_mark(rods)
    found = rods.spoil_svg(page, faults.edited(rods.drawing(page), shifted(-OFF), name))
    on_tape = told(found, f"rods-{page:03d}.svg", "Girt 2", f"{station:.4f} in on the tape")
    assert on_tape.found == f"at {station - OFF:.4f} in on the tape"
    assert not [d for d in found if "pdf" in d.sheet]


def test_a_mark_moved_less_than_the_promise_is_none(rods: Bench) -> None:
    page, name, _ = a_mark(rods)
    drawing = faults.edited(rods.drawing(page), shifted(0.0004), name)
    assert rods.spoil_pdf(page, drawing) == []
    assert rods.spoil_svg(page, drawing) == []


def test_a_mark_moved_on_the_rod_in_one_piece(rods: Bench) -> None:
    name, drawing, title = next(d for d in packet.drawings(rods.packet) if d[0].startswith("rod-"))
    station = a_mark(rods)[2]
    svg.write(rods.folder / f"{name}.svg", faults.edited(drawing, shifted(OFF), "-mark-girt-2"), title)
    found = told(rods.found(), f"{name}.svg", "Girt 2", f"a line at {station:.4f} in on the tape")
    assert found.found == f"at {station + OFF:.4f} in on the tape"


def test_an_offset_changed_on_a_tag(tags: Bench) -> None:
    column = next(c for c in tags.building.columns if c.offset % 1 > 0 and c.offset > 1)
    page = next(n for n, s in enumerate(tags.packet.sheets, 1) if f"Tag {column.name}" in dict(s.parts))
    whole = str(int(column.offset))
    drawing = faults.edited(tags.drawing(page), reads(whole, "9"), f"tag-{column.name}", 1)
    want = show(column.offset, tags.building.job.style)
    for found in (tags.spoil_pdf(page, drawing), tags.spoil_svg(page, drawing)):
        offset = told(found, f"tag {column.name}, offset")
        assert (offset.want, offset.found) == (want, re.sub(r"^\d+", "9", want))
    told(found, f"tags-{page:03d}.svg", f"'{whole}' at", "'9' at")


def test_a_fraction_changed_on_a_tag_though_it_is_copied_right(tags: Bench) -> None:
    """What shows is read, not what the file says for copying: the title of the group is left as it was."""
    column = next(
        c for c in tags.building.columns if show(c.up(c.cuts[0].station), tags.building.job.style)[-4:-3] == "/"
    )
    cut = column.cuts[0]
    want = show(column.up(cut.station), tags.building.job.style)
    page = next(n for n, s in enumerate(tags.packet.sheets, 1) if f"Tag {column.name}" in dict(s.parts))
    drawing = faults.edited(tags.drawing(page), reads("16", "32"), f"tag-{column.name}")
    told(tags.spoil_pdf(page, drawing), f"tag {column.name}, cut {cut.name}", want, want.replace("/16", "/32"))


def test_a_page_scaled_by_a_thousandth(rods: Bench) -> None:
    found = rods.spoil_pdf(1, scaled(rods.drawing(1), 1.001))
    bar = told(found, "rods.pdf page 1", "check-bar-along", "as it says")
    assert float(bar.found.split()[0]) == pytest.approx(float(bar.want.split()[0]) * 1.001, abs=1e-4)
    told(found, "rods.pdf page 1", "more places")
    assert len([d for d in found if "rods.pdf page 1" in d.sheet]) < 40, "the rest is counted"


def test_a_page_a_hundredth_too_wide(rods: Bench) -> None:
    drawing = rods.drawing(1)
    wide = Drawing(drawing.width + 0.01, drawing.height, drawing.shapes)
    for found in (rods.spoil_pdf(1, wide), rods.spoil_svg(1, wide)):
        told(found, "page", "11.0000 x 8.5000 in", "11.0100 x 8.5000 in")


def test_viewers_are_let_scale(rods: Bench) -> None:
    found = rods.rewrite("rods.pdf", b"/PrintScaling /None", b"/PrintScaling /Auto")
    told(found, "rods.pdf", "viewer preferences", "PrintScaling None", "no PrintScaling None")


@pytest.mark.parametrize("form", ["pdf", "svg"])
def test_words_left_out_and_a_line_too_many(tags: Bench, form: str) -> None:
    spoil = tags.spoil_pdf if form == "pdf" else tags.spoil_svg
    missing = told(
        spoil(1, faults.edited(tags.drawing(1), without("TOP"), "tag-")), "page" if form == "pdf" else "001", "'TOP'"
    )
    assert missing.found == "nothing"
    drawing = tags.drawing(1)
    line = Line(1.0, 1.0, 2.0, 1.0)
    extra = told(spoil(1, Drawing(drawing.width, drawing.height, (*drawing.shapes, line))), "a line (1.0000, 1.0000)")
    assert extra.want == "nothing"


@pytest.mark.parametrize("form", ["pdf", "svg"])
def test_a_style_changed(rods: Bench, form: str) -> None:
    """A dashed line is a board's other edge, a solid one its mark."""
    spoil = rods.spoil_pdf if form == "pdf" else rods.spoil_svg
    drawing = rods.drawing(1)
    solid = faults.edited(drawing, lambda s: [replace(s, dash=()) if isinstance(s, Line) else s], "-lane-", 1)
    told(spoil(1, solid), "a dashed line", "is a line")
    assert spoil(1, faults.edited(drawing, retext(lambda t: replace(t, grey=1.0)), "", 1)), "white words"
    told(spoil(1, faults.edited(drawing, retext(lambda t: replace(t, size=t.size * 0.9)), "", 1)), " pt,")
    thin = faults.edited(drawing, retext(lambda t: replace(t, cut=fonts.REGULAR)), "", 1)
    told(spoil(1, thin), f"{title_of(drawing)!r} at", " long")


def title_of(drawing: Drawing) -> str:
    """The first words of a page."""
    return next(s.text for s in flat(drawing.shapes) if isinstance(s, Text))


# --- files that are broken -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kept", [0.5, 0.999])
def test_a_pdf_cut_off(rods: Bench, kept: float) -> None:
    path = rods.folder / "rods.pdf"
    data = path.read_bytes()
    path.write_bytes(data[: int(len(data) * kept)])
    assert [d for d in rods.found() if d.sheet.startswith("rods.pdf")]


def test_an_svg_cut_off_and_one_missing(rods: Bench) -> None:
    path = rods.folder / "rods-001.svg"
    path.write_bytes(path.read_bytes()[:5000])
    (rods.folder / "rods-002.svg").unlink()
    (rods.folder / "rods.pdf").write_bytes(b"%PDF-1.7 not at all")
    found = rods.found()
    told(found, "rods-001.svg", "file", "an SVG", "not to be read")
    told(found, "rods-002.svg", "file", "there", "missing")
    told(found, "rods.pdf", "file", "a PDF", "not to be read")


def test_pages_lost(rods: Bench) -> None:
    pages = [sheet.page for sheet in rods.packet.sheets]
    pdf.write(rods.folder / "rods.pdf", pages[:-1], "short")
    told(rods.found(), "rods.pdf", "pages", str(len(pages)), str(len(pages) - 1))


SLIPS = {
    "a glyph of another shape": (rb'(<path d="M[0-9]+ )', rb"\g<1>9"),
    "glyphs that have changed places": (rb'(<use xlink:href="#b-54" )x="[0-9]+"', rb'\g<1>x="7"'),
    "a glyph for another": (rb'xlink:href="#b-54"', rb'xlink:href="#b-4F"'),
    "a name for another": (rb"(<title>)TOP<", rb"\g<1>TIP<"),
    "a script": (rb"</defs>", b"</defs><script>1</script>"),
    "something hidden": (rb"<g transform", b'<g display="none" transform'),
    "a picture of another shape": (rb'viewBox="0 0 11000 ', b'viewBox="0 0 11011 '),
    "a coordinate that is none": (rb"(L)[0-9.]+ ", rb"\g<1>nan "),
    "a run moved another way": (rb'transform="matrix[(][^)]*[)]"', b'transform="translate(3,4)"'),
    "a run that is twisted": (rb"(transform=.matrix[(][0-9.]+),0", rb"\g<1>,0.1"),
    "a curve": (rb"L([0-9.]+ [0-9.]+)", rb"Q\g<1> \g<1>"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_in_an_svg(tags: Bench, slip: str) -> None:
    path = tags.folder / "tags-001.svg"
    head, defs, body = path.read_bytes().partition(b"</defs>")
    old, new = SLIPS[slip]
    start = b"" if slip in ("a glyph of another shape", "a picture of another shape") else head
    text, count = re.subn(old, new, (head + defs + body)[len(start) :], count=1)
    assert count == 1
    path.write_bytes(start + text)
    found = tags.found()
    assert found
    assert all(d.sheet.startswith("tags-001.svg") or d.sheet == "SVG pages" for d in found), found


# --- how it is told --------------------------------------------------------------------------------------------------


def test_a_difference_says_what_should_be_and_what_is() -> None:
    found = [
        Difference("rods.pdf page 2", "Girt 1", "12 in", "13 in"),
        Difference("tags.pdf", "file", "there", "missing"),
    ]
    assert [str(difference) for difference in found] == [
        "rods.pdf page 2: Girt 1: should be 12 in, is 13 in",
        "tags.pdf: file: should be there, is missing",
    ]
