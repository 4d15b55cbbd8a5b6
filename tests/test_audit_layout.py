"""Drawings that are not what the layout says: the files hold what was drawn, only the layout's own numbers can tell.

Each fault stands for a slip in the code of a sheet. It is drawn into the packet itself before that is written.
"""

from __future__ import annotations

import re
from pathlib import Path

import faults
import opened
import pytest
from faults import Bench, a_mark, reads, retext, shifted, told
from msgspec.structs import replace

from layouts.lengths import show
from sheets import packet
from sheets.paper import PAPERS
from sheets.shapes import Drawing, Group, Line, Polygon, Text, flat, moved

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


def test_a_mark_that_the_sheet_draws_wrong(rods: Bench) -> None:
    """Files hold what was drawn; only the layout's own number can tell."""
    page, name, station = a_mark(rods)
    found = rods.drawn_wrong(page, faults.edited(rods.drawing(page), shifted(OFF), name))
    assert {d.sheet.split()[0] for d in found} == {"rods.pdf", f"rods-{page:03d}.svg"}
    assert told(found, "Girt 2").found == f"at {station + OFF:.4f} in on the tape"


def test_a_footprint_that_the_sheet_draws_wrong(rods: Bench) -> None:
    page, _, _ = a_mark(rods)
    drawing = rods.drawing(page)
    lane = next(line for line in repr(drawing).split("'") if "-lane-" in line)
    boxes = faults.edited(
        drawing,
        lambda s: [moved(s, OFF, 0) if isinstance(s, Polygon) else s],
        lane,
    )
    edges = [s for s in flat(drawing.shapes) if isinstance(s, Line) and s.dash and abs(s.y1 - s.y0) < 1]
    dashes = faults.edited(boxes, lambda s: [] if s in edges else [s], lane)
    told(rods.drawn_wrong(page, dashes), "edge of the board", "on the tape")


def tape_numbers(bench: Bench, page: int) -> list[str]:
    """The large ones, lane by lane."""
    return re.findall(r"Group\(name='tape-number', .*?text='(\d+)'", repr(bench.drawing(page)))


def test_two_lanes_with_each_others_numbers(rods: Bench) -> None:
    numbers = tape_numbers(rods, 2)
    assert numbers[1] == numbers[2], "a lane ends as the next begins"
    two, three = numbers[2], numbers[4]
    assert len(two) == len(three)
    drawing = rods.drawing(2)
    for old, new in ((two, "x"), (three, two), ("x", three)):
        drawing = faults.edited(drawing, reads(old, new), "tape-number")
    found = rods.drawn_wrong(2, drawing)
    for sheet in ("rods.pdf page 2", "rods-002.svg"):
        # the ends still agree with one another: only the marks and lines tell
        end = told(found, sheet, "lane-4, set line at its end")
        assert (end.want, end.found) == (f"at {int(three):.4f} in on the tape", f"at {int(two):.4f} in on the tape")


def test_a_tape_number_that_is_wrong_at_one_end(rods: Bench) -> None:
    end = tape_numbers(rods, 2)[1]
    wrong = faults.edited(rods.drawing(2), reads(end, str(int(end) + 1)), "-lane-4", 1)
    found = rods.drawn_wrong(2, wrong)
    told(found, "-lane-4, tape number at its end", f"{end} as on the lane that follows", str(int(end) + 1))


def test_a_small_tape_number_beside_its_tick(rods: Bench) -> None:
    aside = retext(lambda t: replace(t, x=t.x + 0.5), lambda t: t.text == "5")
    small = faults.edited(rods.drawing(1), aside, "-lane-1", 1)
    told(rods.drawn_wrong(1, small), "-lane-1, tape number 5", "over its tick")


def test_a_mark_on_two_lanes_or_on_none(rods: Bench) -> None:
    page, name, _ = a_mark(rods)
    none = faults.edited(rods.drawing(page), lambda s: [], name)
    told(rods.drawn_wrong(page, none), "Girt 2", "no such mark")
    drawing = rods.drawing(page)
    lane = next(g for g in drawing.shapes if isinstance(g, Group) and "-lane-" in g.name and name in repr(g))
    twice = Drawing(drawing.width, drawing.height, (*drawing.shapes[:-1], lane, drawing.shapes[-1]))
    assert rods.drawn_wrong(page, twice)


def test_a_cut_height_that_the_tag_has_wrong(tags: Bench) -> None:
    column = tags.building.columns[0]
    high = max(column.cuts, key=lambda c: c.station)
    feet = show(column.up(high.station), tags.building.job.style).split("'")[0]
    more = retext(
        lambda t: replace(t, text=t.text.replace(feet, str(int(feet) + 1), 1)),
        lambda t: t.text.startswith(f"{feet}'–") and t.size > 0.3,
    )
    drawing = faults.edited(tags.drawing(1), more, f"tag-{column.name}", 1)
    found = told(tags.drawn_wrong(1, drawing), f"tag {column.name}, cut {high.name}")
    assert found.want == show(column.up(high.station), tags.building.job.style)
    assert found.found == found.want.replace(f"{feet}'", f"{int(feet) + 1}'", 1)


def test_a_piece_length_that_the_wall_has_wrong(walls: Bench) -> None:
    texts = [s.text for s in flat(walls.drawing(1).shapes) if isinstance(s, Text)]
    said = next(t for t in texts if re.fullmatch(r"#\d+  \d+'–\d.*", t))
    mark, feet = re.findall(r"\d+", said)[:2]
    line = next(p for p in walls.building.pieces if p.mark == f"#{mark}")
    wrong = said.replace(f"  {feet}'", f"  {int(feet) + 1}'")
    found = walls.drawn_wrong(1, faults.edited(walls.drawing(1), reads(said, wrong), "", 1))
    for sheet in ("walls.pdf page 1", "walls-001.svg"):
        piece = told(found, sheet, f"piece #{mark}")
        assert piece.want == show(line.length, walls.building.job.style)
        assert piece.found == piece.want.replace(f"{feet}'", f"{int(feet) + 1}'", 1)


def test_a_count_and_an_offset_that_the_wall_has_wrong(walls: Bench) -> None:
    more = retext(lambda t: replace(t, text=re.sub(r"^\d+ pc", "77 pc", t.text)), lambda t: " pc  " in t.text)
    drawing = faults.edited(walls.drawing(1), more, "", 1)
    assert told(walls.drawn_wrong(1, drawing), "how many").found == "77"
    drawing = faults.edited(walls.drawing(1), reads("NO TAG", "TAGGED"))
    assert told(walls.drawn_wrong(1, drawing), "offset under", "NO TAG").found == "TAGGED"


def test_a_height_that_the_mark_table_has_wrong(cuts: Bench) -> None:
    page = next(n for n, s in enumerate(cuts.packet.sheets, 1) if s.title.startswith("Mark table"))
    column = cuts.building.columns[0]
    wrong = retext(lambda t: replace(t, text="7'–"), lambda t: "'–" in t.text)
    drawing = faults.edited(cuts.drawing(page), wrong, "", 1)
    found = cuts.drawn_wrong(page, drawing)
    told(found, "mark table", "is 7'")
    told(found, f"cuts.pdf: mark table, {column.name}")


def test_a_check_bar_that_says_more_than_it_measures(rods: Bench) -> None:
    eight = retext(lambda t: replace(t, text="THIS BAR MUST MEASURE 8 in"))
    drawing = faults.edited(rods.drawing(1), eight, "check-bar-along")
    bar = told(rods.drawn_wrong(1, drawing), "check-bar-along")
    assert bar.want == "8.0000 in long, as it says"
    none = faults.edited(rods.drawing(1), lambda s: [], "footer")
    assert rods.drawn_wrong(1, none)


def test_words_in_one_another_and_beyond_the_page(tags: Bench) -> None:
    drawing = tags.drawing(1)
    top = next(s for s in flat(drawing.shapes) if isinstance(s, Text) and s.text == "TOP")
    over = Text(top.x + 0.05, top.y + 0.05, "OVER", top.size, top.cut)
    off = Text(drawing.width - 0.1, 4.0, "OFF", top.size, top.cut)
    found = tags.drawn_wrong(1, Drawing(drawing.width, drawing.height, (*drawing.shapes, over, off)))
    assert told(found, "'OVER'", "'TOP'").want == "clear of other words"
    assert told(found, "'OFF'").want == "inside 11.000 x 8.500 in"


# --- marks for some columns only ------------------------------------------------------------------------------------


def with_door(tmp_path: Path, kind: str) -> Bench:
    building = opened.read(opened.DOOR)
    built = packet.build(building, PAPERS["letter"], kind)
    packet.save(built, tmp_path / "door")
    return Bench(building, built, tmp_path / "door")


def other_words(old: str, new: str) -> faults.Edit:
    """A text with other words in the place of *old*."""
    return faults.retext(lambda t: replace(t, text=t.text.replace(old, new)), lambda t: old in t.text)


def page_with(bench: Bench, words: str) -> int:
    return next(n for n, sheet in enumerate(bench.packet.sheets, 1) if words in repr(sheet.page.drawing))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("A6, A5, jambs only", "A6, A4, jambs only"),
        (": A6, A5, jambs only", ""),
        ("A6, A5, jambs only", "A6, jambs only"),
    ],
)
def test_a_header_on_a_rod_for_other_columns(tmp_path: Path, old: str, new: str) -> None:
    bench = with_door(tmp_path, "rods")
    page = page_with(bench, "A6, A5, jambs only")
    wrong = faults.edited(bench.drawing(page), other_words(old, new))
    told(bench.drawn_wrong(page, wrong), "Sidewall rod, Header D9", "on a lane")


def test_a_row_on_a_rod_that_is_said_to_be_for_some_columns(tmp_path: Path) -> None:
    bench = with_door(tmp_path, "rods")
    page = page_with(bench, "GIRT 2 2x4 bottom")
    wrong = faults.edited(bench.drawing(page), other_words("GIRT 2 2x4 bottom", "GIRT 2 2x4 bottom: A6 only"))
    told(bench.drawn_wrong(page, wrong), "Sidewall rod, Girt 2", "on a lane")


def test_a_header_on_a_tag_that_is_wrong(tmp_path: Path) -> None:
    bench = with_door(tmp_path, "tags")
    page = page_with(bench, "HEADER D9")
    high = faults.edited(bench.drawing(page), other_words("7'–3", "7'–4"), count=1)
    found = told(bench.drawn_wrong(page, high), "HEADER D9")
    assert (found.want, found.found) == ("7'-3 1/2\"", "7'-4 1/2\"")
    other = faults.edited(bench.drawing(page), other_words("HEADER D9", "HEADER D8"))
    told(bench.drawn_wrong(page, other), "HEADER D9", "no such")
    told(bench.drawn_wrong(page, other), "HEADER D8", "none of this name")


def test_a_height_in_the_mark_table_of_a_column_that_has_none(tmp_path: Path) -> None:
    bench = with_door(tmp_path, "cuts")
    page = page_with(bench, "Header D9 2x6")
    wrong = faults.edited(
        bench.drawing(page), faults.retext(lambda t: replace(t, text="7'–3"), lambda t: t.text == "–"), count=1
    )
    told(bench.drawn_wrong(page, wrong), "mark table")
