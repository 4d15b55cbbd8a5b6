"""Tags of every size: to a page, on labels, in large print. All is said, read, in its place, and in little ink."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import boxes
import jobs
import numpy as np
import opened
import pypdfium2
import pytest
import stress
from boxes import POINT, Box, Written
from msgspec.structs import replace

from layouts import tag_size
from layouts.building import Building
from layouts.columns import Column
from layouts.lengths import Unit, show
from layouts.problems import JobRefused
from layouts.tag_size import TagSizeError
from sheets import audit, own_words, packet, pdf
from sheets.compare import compare
from sheets.ink import inked
from sheets.kinds import KINDS
from sheets.language import speaking
from sheets.load import load
from sheets.pages import Page
from sheets.paper import PAPERS, USUAL
from sheets.shapes import Line, Polygon, Text, flat
from sheets.sides import of_job
from sheets.tag import form, pages, tag

GALLERY = Path(__file__).parents[1] / "gallery"
SIZES = ("1", "2", "4", "6", "3 x 5 in", "4 x 6 in", "100 x 150 mm", "5 x 7 in")
LAYOUTS = [(size, large) for size in SIZES for large in (0, 1)]
PRESSING = ("plain", "metric", "long names", "off ridge", "centre bearing", "below the seats", "no stock", "all warned")
each = pytest.mark.parametrize(("size", "large"), LAYOUTS)


def asked(building: Building, size: str, large: int = 0) -> Building:
    """The same building, its tags in another size."""
    job = building.job
    wish = replace(job.job, tags=tag_size.read(size, job.style.unit), print="large" if large else "normal")
    return replace(building, job=replace(job, job=wish))


@cache
def shop(name: str) -> Building:
    """One of the gallery's buildings."""
    return load(GALLERY / name / "job.toml")


def two_windows() -> Building:
    """Column A5 has three cuts and the headers and sills of two windows."""
    return opened.read({**opened.WINDOW, "bay": 2}, {**opened.WINDOW, "name": "W8", "bay": 3, "sill": "3'"})


def two_warned() -> Building:
    """A building of many warnings, a column of each kind: the words in a box take ink."""
    building = stress.building("all warned")
    return replace(building, columns=tuple(one_of_each(building)))


def one_of_each(building: Building) -> list[Column]:
    """A column of each kind, by its cuts, marks and words."""
    found = {(c.role, len(c.cuts), c.flagged, c.offset < 0, len(c.name), bool(c.note)): c for c in building.columns}
    return list(found.values())


def texts(building: Building, column: Column) -> list[Written]:
    return list(boxes.written(tag(building, column)[0].shapes))


# --- what is asked for -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "unit", "count", "wide", "tall"),
    [
        ("6", "in", 6, 0, 0),
        ("4 x 6", "in", 0, 4, 6),
        ("6x4", "in", 0, 4, 6),
        ("3 1/2 x 5", "in", 0, 3.5, 5),
        ("102 x 152 mm", "in", 0, 102 / 25.4, 152 / 25.4),
        ("4 x 6 in", "mm", 0, 4, 6),
        ("100 × 150", "mm", 0, 100 / 25.4, 150 / 25.4),
    ],
)
def test_a_count_or_a_size(text: str, unit: Unit, count: int, wide: float, tall: float) -> None:
    found = tag_size.read(text, unit)
    assert found.count == count
    assert (found.wide, found.tall) == pytest.approx((wide, tall))


@pytest.mark.parametrize(
    ("text", "unit", "right"),
    [
        ("3", "in", '"4 x 6"'),
        ("2 x 3", "in", "3 x 5 in"),
        ("70 x 120", "mm", "75 x 125 mm"),
        ("20 x 30", "in", "12 x 18"),
    ],
)
def test_what_is_no_size_is_told_what_would_be(text: str, unit: Unit, right: str) -> None:
    with pytest.raises(TagSizeError) as caught:
        tag_size.read(text, unit)
    assert right in caught.value.right


def test_a_job_says_it_with_its_field() -> None:
    [problem] = jobs.problems(jobs.job_text({"job.tags": "2 x 2"}))
    assert problem.place == "job.tags"
    assert "At least 3 x 5 in." in problem.right
    assert jobs.job({"job.tags": 4}).job.tags.count == 4


# --- how many, how large ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", USUAL)
@pytest.mark.parametrize("count", [1, 2, 4, 6])
def test_so_many_to_a_page_and_apart(paper: str, count: int) -> None:
    building = asked(stress.building("plain"), str(count))
    found = pages(building, PAPERS[paper])
    assert [len(page.parts) for page in found[:-1]] == [count] * (len(found) - 1)
    for page in found:
        frames = [boxes.of_shape(g) for g in boxes.groups(page.drawing.shapes, "tag-")]
        body = page.paper.body
        assert all(Box(body.x0, body.y0, body.x1, body.y1).holds(f, 1e-9) for f in frames)
        assert not [1 for i, a in enumerate(frames) for b in frames[i + 1 :] if a.shares(b, -0.02)]


@pytest.mark.parametrize(("size", "wide", "tall"), [("4 x 6", 4, 6), ("100 x 150 mm", 100 / 25.4, 150 / 25.4)])
def test_a_label_is_a_page_of_its_size(size: str, wide: float, tall: float) -> None:
    building = asked(stress.building("plain"), size)
    built = packet.build(building, PAPERS["letter"], "tags")
    assert [s.parts[0][0] for s in built.sheets] == [f"Tag {c.name}" for c in building.columns]
    for sheet in built.sheets:
        assert (sheet.page.drawing.width, sheet.page.drawing.height) == pytest.approx((wide, tall))


@each
@pytest.mark.parametrize("name", PRESSING)
def test_all_that_must_be_read_is_there_and_read(name: str, size: str, large: int) -> None:
    building = asked(stress.building(name), size, large)
    style, own = building.job.style, form(building.job)
    if (name, size, large) == ("long names", "6", 0):
        with pytest.raises(JobRefused, match="is too small for the tag of"):  # WMWMWM at 36 points
            pages(building, PAPERS["letter"])
        return
    for column in one_of_each(building):
        found = texts(building, column)
        words = {t.words: t for t in found}
        assert not boxes.overlaps(found)
        assert not boxes.outside(found, Box(0, 0, own.wide, own.tall))
        assert not boxes.crossed(tag(building, column)[0].shapes)
        beside = {w for text in (column.top.left, column.top.right) for w in text.split()}
        assert not boxes.small([t for t in found if t.words not in beside and "stamp" not in t.groups], 9.0)
        assert not boxes.small([t for t in found if "stamp" in t.groups], 8.0)
        assert words[column.name].size >= 36 * POINT - 1e-9
        assert words[show(abs(column.offset), style)].size >= 36 * POINT - 1e-9
        for cut in column.cuts:
            assert words[show(column.up(cut.station), style)].size >= 15 * POINT - 1e-9  # its fraction's figures: 9 pt
            assert cut.name in words
        everything = " ".join(words)
        assert column.seat in everything
        assert column.longer in everything
        assert ("SHOOT AGAIN BEFORE CUTTING" in everything) == column.flagged
        assert "STOCK" in everything
        assert "Cut the top only" in everything or "CUT THE TOP ONLY" in everything
        assert "TOP" in words
        assert {"OUTSIDE", "THIS FACE OUTSIDE"} & set(words)
        assert ("BELOW" in everything) == (column.offset < 0)


def test_biggest_first_on_every_tag() -> None:
    for size, large in LAYOUTS:
        building = asked(shop("cooper"), size, large)
        column = next(c for c in building.columns if c.name == "A3")
        words = {t.words: t.size for t in texts(building, column)}
        offset, cut = (
            show(column.offset, building.job.style),
            show(column.up(column.cuts[0].station), building.job.style),
        )
        assert words[column.name] >= words[offset] > words[cut] > words[column.cuts[0].name]


@pytest.mark.parametrize("size", ["1", "2", "4", "6"])
def test_large_print_is_a_quarter_larger(size: str) -> None:
    """On a usual column; on one with five heights ink leaves it less."""
    normal, large = (asked(shop("cooper"), size, i) for i in (0, 1))
    style = normal.job.style
    for column in (normal.columns[1], *one_of_each(normal)):
        before = {t.words: t.size for t in texts(normal, column)}
        after = {t.words: t.size for t in texts(large, column)}
        told = [column.name, *(show(column.up(c.station), style) for c in column.cuts), *(c.name for c in column.cuts)]
        assert min(after[w] / before[w] for w in told) >= (1.24 if column is normal.columns[1] else 1.08)


@pytest.mark.parametrize(("name", "language"), [("cooper", "english"), ("tern", "english and spanish")])
@pytest.mark.parametrize("size", ["1", "2", "4"])
def test_large_print_on_a_page_leaves_nothing_out(name: str, language: str, size: str) -> None:
    """Two to a page, 4.9 x 6.8 in, become one of 7.2 x 9.5 in: 2.05 times the area for type 1.25 times as large, 1.56
    times the area. So picture, walls, reading, ends and note all go on: the same words as on a page in normal print."""
    read = []
    for building in (asked(shop(name), "1"), asked(shop(name), size, 1)):
        job = replace(building.job, job=replace(building.job.job, language=language))
        building = replace(building, job=job)
        with speaking(own_words.speech(building)):
            tags = [" ".join(t.words for t in texts(building, c)) for c in building.columns[:6]]
        read.append([sorted(tag.split()) for tag in tags])
    assert read[0] == read[1]


@pytest.mark.parametrize("size", ["3 x 5 in", "4 x 6 in", "5 x 7 in"])
def test_large_print_on_a_label_is_larger(size: str) -> None:
    normal, large = (asked(shop("cooper"), size, i) for i in (0, 1))
    for column in one_of_each(normal):
        style = normal.job.style
        cut = show(column.up(column.cuts[0].station), style)
        before, after = ({t.words: t.size for t in texts(b, column)}[cut] for b in (normal, large))
        assert after > before * 1.08


def test_what_has_no_room_is_refused_with_what_would_do() -> None:
    with pytest.raises(JobRefused, match=r"A5, with 3 cuts and 4 marks. At most 4 to a page"):
        pages(asked(two_windows(), "6"), PAPERS["letter"])
    assert pages(asked(two_windows(), "4"), PAPERS["letter"])


def test_a_stamp_is_the_same_on_every_tag() -> None:
    building = shop("cooper")
    codes = {tuple(tag(asked(building, s, g), c)[1] for c in building.columns[2:4]) for s, g in LAYOUTS}
    assert len(codes) == 1


def test_another_size_of_tag_makes_none_stale() -> None:
    building = stress.building("plain")
    found = compare(of_job(building, "old"), of_job(asked(building, "4 x 6 in", 1), "new"))
    assert not [item for item in found.items if item.kind == "tags"]


# --- ink -------------------------------------------------------------------------------------------------------------


def share(page: Page) -> float:
    """The share of a page that its drawing covers."""
    return inked(page.drawing.shapes) / (page.drawing.width * page.drawing.height)


def dark(page: Page, file: Path) -> float:
    """The share of a page that is dark at 100 dots to the inch."""
    pdf.write(file, [page], "tags")
    with pypdfium2.PdfDocument(file) as document:
        picture = document[0].render(scale=100 / 72, grayscale=True).to_pil().convert("L")
    return float((np.asarray(picture) < 128).mean())


@pytest.mark.parametrize(
    ("size", "large"), [("1", 1), ("2", 0), ("4", 0), ("6", 0), ("3 x 5 in", 0), ("4 x 6 in", 0), ("4 x 6 in", 1)]
)
def test_at_most_eight_percent_of_a_page_is_inked(size: str, large: int, tmp_path: Path) -> None:
    """The page that takes most of each job, as a picture."""
    for building in (shop("larkspur"), two_warned(), shop("cooper")):
        built = packet.build(asked(building, size, large), PAPERS["letter"], "tags")
        drawings = [s.page for s in built.sheets]
        worst = max(drawings, key=share)
        inky = dark(worst, tmp_path / "worst.pdf")
        assert inky <= 0.08
        assert inky == pytest.approx(share(worst), rel=0.12)


def test_tags_and_strips_are_pure_black() -> None:
    for kind in ("tags", "rods"):
        for body in KINDS[kind](shop("cooper"), PAPERS["letter"]):
            greys = {s.grey for s in flat(body.drawing.shapes) if isinstance(s, (Text, Polygon))}
            assert greys <= {0.0, None}
            wide = [s.width for s in flat(body.drawing.shapes) if isinstance(s, Line)]
            assert max(wide) <= 0.03


# --- read back -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("size", "large"), [("6", 0), ("4", 0), ("4 x 6", 1)])
def test_every_layout_is_read_back_and_a_wrong_figure_is_told(size: str, large: int, tmp_path: Path) -> None:
    building = asked(shop("cooper"), size, large)
    built = packet.build(building, PAPERS["letter"], "tags")
    packet.save(built, tmp_path / "out")
    assert audit.differences(built, building, tmp_path / "out") == []
    first = building.columns[0]
    other = replace(building, columns=(replace(first, offset=first.offset + 1), *building.columns[1:]))
    told = {d.place for d in audit.differences(built, other, tmp_path / "out")}
    assert f"tag {first.name}, offset" in told
    assert {f"tag {first.name}, cut {c.name} {c.where}" for c in first.cuts} <= told
