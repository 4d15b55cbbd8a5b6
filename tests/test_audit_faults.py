"""Every fault that is put into a file or a drawing is found, and told with its sheet, its place and both values."""

from __future__ import annotations

import re
from pathlib import Path

import faults
import pytest
from faults import Bench, reads, scaled, shifted, without

from layouts.lengths import show
from sheets import packet, svg
from sheets.audit import AuditFailed, Difference
from sheets.shapes import Drawing, Line, Text

OFF = 0.003  # inches: three times the promise


@pytest.fixture
def rods(tmp_path: Path) -> Bench:
    """Rod strips alone."""
    return faults.bench(tmp_path / "rods", "rods")


@pytest.fixture
def tags(tmp_path: Path) -> Bench:
    """Tags alone."""
    return faults.bench(tmp_path / "tags", "tags")


@pytest.fixture
def walls(tmp_path: Path) -> Bench:
    """Wall diagrams alone."""
    return faults.bench(tmp_path / "walls", "walls")


@pytest.fixture
def cuts(tmp_path: Path) -> Bench:
    """Cut sheets and mark tables alone."""
    return faults.bench(tmp_path / "cuts", "cuts")


def told(found: list[Difference], *words: str) -> Difference:
    """The difference whose line holds all *words*."""
    lines = "\n".join(map(str, found))
    fitting = [d for d in found if all(word in str(d) for word in words)]
    assert fitting, f"{words} in none of:\n{lines}"
    return fitting[0]


def a_mark(bench: Bench) -> tuple[int, str, float]:
    """A page with a board's mark, its group, and its station."""
    rod = bench.building.rods[0]
    mark = next(m for m in rod.marks if m.name == "Girt 2")
    for number, sheet in enumerate(bench.packet.sheets, 1):
        if "-mark-girt-2" in repr(sheet.page.drawing):
            return number, "-mark-girt-2", mark.station
    raise AssertionError("no such mark")


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
    column = next(c for c in tags.building.columns if 0 < c.offset % 1 and c.offset > 1)
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
    column = next(c for c in tags.building.columns if show(c.up(c.cuts[0].station), tags.building.job.style)[-4:-3] == "/")
    cut = column.cuts[0]
    want = show(column.up(cut.station), tags.building.job.style)
    page = next(n for n, s in enumerate(tags.packet.sheets, 1) if f"Tag {column.name}" in dict(s.parts))
    assert want.endswith('/16"')
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
    missing = told(spoil(1, faults.edited(tags.drawing(1), without("TOP"), "tag-")), "page" if form == "pdf" else "001", "'TOP'")
    assert missing.found == "nothing"
    drawing = tags.drawing(1)
    line = Line(1.0, 1.0, 2.0, 1.0)
    extra = told(spoil(1, Drawing(drawing.width, drawing.height, (*drawing.shapes, line))), "a line (1.0000, 1.0000)")
    assert extra.want == "nothing"


@pytest.mark.parametrize("form", ["pdf", "svg"])
def test_a_style_changed(rods: Bench, form: str) -> None:
    """A dashed line is a board's other edge, a solid one its mark."""
    spoil = rods.spoil_pdf if form == "pdf" else rods.spoil_svg
    solid = faults.edited(
        rods.drawing(1), lambda s: [Line(s.x0, s.y0, s.x1, s.y1, s.width)] if isinstance(s, Line) else [s], "-lane-", 1
    )
    told(spoil(1, solid), "a dashed line", "is a line")
    white = faults.edited(
        rods.drawing(1), lambda s: [Text(s.x, s.y, s.text, s.size, s.cut, s.turn, 1.0)] if isinstance(s, Text) else [s], "", 1
    )
    assert spoil(1, white), "white words"
    smaller = faults.edited(
        rods.drawing(1), lambda s: [Text(s.x, s.y, s.text, s.size * 0.9, s.cut)] if isinstance(s, Text) else [s], "", 1
    )
    told(spoil(1, smaller), " pt,")
    bolder = faults.edited(
        rods.drawing(1), lambda s: [Text(s.x, s.y, s.text, s.size, "regular")] if isinstance(s, Text) else [s], "", 1
    )
    told(spoil(1, bolder), " long")


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
    from sheets import pdf

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


# --- drawings that are not what the layout says ----------------------------------------------------------------------


def test_a_mark_that_the_sheet_draws_wrong(rods: Bench) -> None:
    """Files hold what was drawn; only the layout's own number can tell."""
    page, name, station = a_mark(rods)
    found = rods.drawn_wrong(page, faults.edited(rods.drawing(page), shifted(OFF), name))
    assert {d.sheet.split()[0] for d in found} == {"rods.pdf", f"rods-{page:03d}.svg"}
    assert told(found, "Girt 2").found == f"at {station + OFF:.4f} in on the tape"


def test_a_footprint_that_the_sheet_draws_wrong(rods: Bench) -> None:
    page, name, _ = a_mark(rods)
    drawing = rods.drawing(page)
    lane = next(line for line in repr(drawing).split("'") if "-lane-" in line)
    boxes = faults.edited(
        drawing,
        lambda s: [type(s)(tuple((x + OFF, y) for x, y in s.points), s.grey, s.width)] if hasattr(s, "points") else [s],
        lane,
    )
    dashes = faults.edited(boxes, lambda s: [s] if not isinstance(s, Line) or not s.dash else [], lane)
    told(rods.drawn_wrong(page, dashes), "edge of the board", "on the tape")


def test_two_lanes_with_each_others_numbers(rods: Bench) -> None:
    drawing = rods.drawing(1)
    first = [w for w in re.findall(r"Group\(name='tape-number', .*?text='(\d+)'", repr(drawing))]
    assert len(set(first)) >= 3
    two, three = first[2], first[4]
    assert first[1] == two, "a lane ends as the next begins"
    swapped = faults.edited(drawing, reads(two, "x"), "tape-number")
    swapped = faults.edited(swapped, reads(three, two), "tape-number")
    swapped = faults.edited(swapped, reads("x", three), "tape-number")
    found = rods.drawn_wrong(1, swapped)
    assert told(found, "rods.pdf page 1", "set line at its end", "on the tape")
    assert told(found, "SVG", "set line at its end") if False else told(found, "rods-001.svg", "on the tape")


def test_a_tape_number_that_is_wrong_at_one_end(rods: Bench) -> None:
    numbers = re.findall(r"Group\(name='tape-number', .*?text='(\d+)'", repr(rods.drawing(1)))
    end = numbers[1]
    wrong = faults.edited(rods.drawing(1), reads(end, str(int(end) + 1)), "-lane-1", 1)
    found = rods.drawn_wrong(1, wrong)
    told(found, "-lane-1, tape number at its end", f"{end} as on the lane that follows", str(int(end) + 1))


def test_a_small_tape_number_beside_its_tick(rods: Bench) -> None:
    small = faults.edited(
        rods.drawing(1),
        lambda s: [moved_text(s, 0.5)] if isinstance(s, Text) and s.text == "5" else [s],
        "-lane-1",
        1,
    )
    told(rods.drawn_wrong(1, small), "-lane-1, tape number 5", "over its tick")


def moved_text(text: Text, dx: float) -> Text:
    return Text(text.x + dx, text.y, text.text, text.size, text.cut)


def test_a_mark_on_two_lanes_or_on_none(rods: Bench) -> None:
    page, name, _ = a_mark(rods)
    none = faults.edited(rods.drawing(page), lambda s: [], name)
    told(rods.drawn_wrong(page, none), "Girt 2", "no such mark")
    drawing = rods.drawing(page)
    lane = next(g for g in drawing.shapes if "-mark-girt-2" in repr(g) and "-lane-" in g.name)  # type: ignore[union-attr]
    twice = Drawing(drawing.width, drawing.height, (*drawing.shapes[:-1], lane, drawing.shapes[-1]))
    assert rods.drawn_wrong(page, twice)


def test_a_cut_height_that_the_tag_has_wrong(tags: Bench) -> None:
    column = tags.building.columns[0]
    high = max(column.cuts, key=lambda c: c.station)
    feet = show(column.up(high.station), tags.building.job.style).split("'")[0]
    drawing = faults.edited(
        tags.drawing(1),
        lambda s: [
            Text(s.x, s.y, s.text.replace(f"{feet}'", f"{int(feet) + 1}'", 1), s.size, s.cut)
            if isinstance(s, Text) and s.text.startswith(f"{feet}'–") and s.size > 0.3
            else s
        ],
        f"tag-{column.name}",
        1,
    )
    found = told(tags.drawn_wrong(1, drawing), f"tag {column.name}, cut {high.name}")
    assert found.want == show(column.up(high.station), tags.building.job.style)
    assert found.found == found.want.replace(f"{feet}'", f"{int(feet) + 1}'", 1)


def test_a_piece_length_that_the_wall_has_wrong(walls: Bench) -> None:
    line = next(p for p in walls.building.pieces if p.length % 12 == 0)
    want = show(line.length, walls.building.job.style)
    wrong = show(line.length + 12, walls.building.job.style)
    typed = want.replace("'-", "'–")
    drawing = faults.edited(
        walls.drawing(1),
        lambda s: [
            Text(s.x, s.y, s.text.replace(typed, wrong.replace("'-", "'–")), s.size, s.cut)
            if isinstance(s, Text) and s.text.startswith(f"{line.mark}  ")
            else s
        ],
        "",
        1,
    )
    found = told(walls.drawn_wrong(1, drawing), "walls.pdf page 1", f"piece {line.mark}")
    assert (found.want, found.found) == (want, wrong)


def test_a_count_and_an_offset_that_the_wall_has_wrong(walls: Bench) -> None:
    drawing = faults.edited(
        walls.drawing(1),
        lambda s: [
            Text(s.x, s.y, re.sub(r"^\d+ pc", "77 pc", s.text), s.size, s.cut)
            if isinstance(s, Text) and " pc  " in s.text
            else s
        ],
        "",
        1,
    )
    assert told(walls.drawn_wrong(1, drawing), "how many").found == "77"
    drawing = faults.edited(walls.drawing(1), reads("NO TAG", "TAGGED"))
    assert told(walls.drawn_wrong(1, drawing), "offset under", "NO TAG").found == "TAGGED"


def test_a_height_that_the_mark_table_has_wrong(cuts: Bench) -> None:
    page = next(n for n, s in enumerate(cuts.packet.sheets, 1) if s.title.startswith("Mark table"))
    column = cuts.building.columns[0]
    drawing = faults.edited(
        cuts.drawing(page),
        lambda s: [Text(s.x, s.y, "7'–", s.size, s.cut) if isinstance(s, Text) and "'–" in s.text else s],
        "",
        1,
    )
    found = cuts.drawn_wrong(page, drawing)
    told(found, "mark table", "is 7'")
    told(found, f"mark table, {column.name}") if False else told(found, "cuts.pdf: mark table")


def test_a_check_bar_that_says_more_than_it_measures(rods: Bench) -> None:
    drawing = faults.edited(
        rods.drawing(1),
        lambda s: [Text(s.x, s.y, "THIS BAR MUST MEASURE 8 in", s.size, s.cut) if isinstance(s, Text) else s],
        "check-bar-along",
    )
    bar = told(rods.drawn_wrong(1, drawing), "check-bar-along")
    assert bar.want == "8.0000 in long, as it says"
    none = faults.edited(rods.drawing(1), lambda s: [], "footer")
    assert rods.drawn_wrong(1, none)


def test_words_in_one_another_and_beyond_the_page(tags: Bench) -> None:
    drawing = tags.drawing(1)
    top = next(s for s in faults.flat(drawing.shapes) if isinstance(s, Text) and s.text == "TOP")
    over = Text(top.x + 0.05, top.y + 0.05, "OVER", top.size, top.cut)
    off = Text(drawing.width - 0.1, 4.0, "OFF", top.size, top.cut)
    found = tags.drawn_wrong(1, Drawing(drawing.width, drawing.height, (*drawing.shapes, over, off)))
    assert told(found, "'OVER'", "'TOP'").want == "clear of other words"
    assert told(found, "'OFF'").want == "inside 11.000 x 8.500 in"


# --- how it is told --------------------------------------------------------------------------------------------------


def test_a_failed_audit_tells_every_difference() -> None:
    found = [Difference("rods.pdf page 2", "Girt 1", "12 in", "13 in"), Difference("tags.pdf", "file", "there", "missing")]
    failed = AuditFailed(found)
    assert failed.differences == tuple(found)
    assert str(failed).splitlines() == [
        "rods.pdf page 2: Girt 1: should be 12 in, is 13 in",
        "tags.pdf: file: should be there, is missing",
    ]
