"""The ruler page: what is drawn is what is to be measured, and what is typed after it is understood."""

from __future__ import annotations

import math
import shlex
from pathlib import Path

import boxes
import pytest
from readback import Sheet, pdf_sheets

from sheets import frame, pdf, ruler
from sheets.frame import Footer, finish
from sheets.pages import Page
from sheets.paper import MM, PAPERS, Paper, find
from sheets.printers import MOST_NAME
from sheets.profile import Profile, Taped, measured
from sheets.shapes import Line, flat

PLAIN = Profile()
SHED = Profile("Shed laser", "letter", 1.0031, 0.9988, 0.002, 0.25, "2026-09-14", 0.01)
LONG = Profile("W" * MOST_NAME, "letter", 1.0031, 0.9988, 0.002, 0.25, "2026-09-14", 0.01)
PAGES = [(name, metric) for name in (*PAPERS, "8x10", "300x420mm") for metric in (False, True)]


@pytest.fixture(autouse=True)
def section(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(frame.SECTIONS, "ruler", "Ruler page")


def page(paper: Paper, metric: bool = False, profile: Profile = PLAIN) -> Page:
    (body,) = ruler.pages(paper, metric, profile)
    return finish(body, Footer("Printer check", "2026-09-14", metric), 1, 1)[0]


def bar(sheet: Page, name: str) -> Line:
    (group,) = boxes.groups(sheet.drawing.shapes, name)
    (line,) = boxes.lines(group.shapes)
    return line


# letter lying down: 11 - 2 x 1/2 = 10; up 8.5 - 1 - 0.44 = 7.06. A4: 297 mm - 25.4 = 271.6, up 210 - 25.4 - 11.2 =
# 173.4 mm. Legal 14 - 1 = 13, of which 10; 8 x 10: 10 - 1 = 9, up 8 - 1.44 = 6.56
@pytest.mark.parametrize(
    ("name", "metric", "along", "across"),
    [
        ("letter", False, 10, 7),
        ("a4", True, 250 * MM, 150 * MM),
        ("a4", False, 10, 6),
        ("legal", False, 10, 7),
        ("8x10", False, 9, 6),
        ("arch-d", False, 10, 10),
        ("a3", True, 250 * MM, 250 * MM),
        ("roll-24in", False, 10, 10),
    ],
)
def test_bars_are_ten_inches_or_what_the_paper_allows(name: str, metric: bool, along: float, across: float) -> None:
    assert ruler.bars(find(name), metric) == pytest.approx((along, across), abs=1e-9)


@pytest.mark.parametrize(("name", "metric"), PAGES)
@pytest.mark.parametrize("profile", [PLAIN, SHED, LONG], ids=["plain", "corrected", "long name"])
def test_words_keep_clear_of_each_other_of_lines_and_of_the_edge(name: str, metric: bool, profile: Profile) -> None:
    paper = find(name)
    sheet = page(paper, metric, profile)
    lying = Paper(name, sheet.drawing.width, sheet.drawing.height, paper.margin)
    assert not boxes.faults(sheet.drawing, lying)
    assert not boxes.crossed(sheet.drawing.shapes)
    assert not slanted(sheet)


def slanted(sheet: Page) -> list[str]:
    """Words that a diagonal runs through: points along it that lie in a box of ink."""
    found = []
    texts = [(t.words, t.box) for t in boxes.written(sheet.drawing.shapes)]
    for name in ("ruler-rising", "ruler-falling"):
        (group,) = boxes.groups(sheet.drawing.shapes, name)
        for line in boxes.lines(group.shapes):
            for n in range(101):
                x, y = (a + (b - a) * n / 100 for a, b in ((line.x0, line.x1), (line.y0, line.y1)))
                found += [words for words, box in texts if box.x0 < x < box.x1 and box.y0 < y < box.y1]
    return found


@pytest.mark.parametrize(("name", "metric"), PAGES)
def test_the_long_side_of_the_page_lies_along(name: str, metric: bool) -> None:
    sheet = page(find(name), metric)
    assert sheet.drawing.width > sheet.drawing.height
    along, across = bar(sheet, "ruler-along"), bar(sheet, "ruler-across")
    assert along.y0 == along.y1
    assert across.x0 == across.x1
    assert (along.x1 - along.x0, across.y1 - across.y0) == pytest.approx(ruler.bars(find(name), metric))


@pytest.mark.parametrize("metric", [False, True])
def test_diagonals_lead_from_corner_to_corner(metric: bool) -> None:
    sheet = page(PAPERS["letter"], metric)
    along, across = bar(sheet, "ruler-along"), bar(sheet, "ruler-across")
    for name, y0, y1 in (("rising", across.y0, across.y1), ("falling", across.y1, across.y0)):
        (group,) = boxes.groups(sheet.drawing.shapes, f"ruler-{name}")
        slope = (y1 - y0) / (along.x1 - along.x0)
        for line in boxes.lines(group.shapes):
            for x, y in ((line.x0, line.y0), (line.x1, line.y1)):
                assert y == pytest.approx(y0 + slope * (x - along.x0))
        said = math.hypot(along.x1 - along.x0, across.y1 - across.y0)
        assert group.title == ("about 292 mm" if metric else 'about 12 7/32"')
        assert said == pytest.approx(291.5 * MM if metric else 12 + 7 / 32, abs=1 / 64)


@pytest.mark.parametrize(("metric", "step", "count"), [(False, 1 / 16, 16), (True, MM, 20)])
def test_ticks_tell_sixteenths_or_millimetres_from_the_far_end(metric: bool, step: float, count: int) -> None:
    sheet = page(PAPERS["letter"], metric)
    along, across = bar(sheet, "ruler-along"), bar(sheet, "ruler-across")
    lines = [s for s in flat(sheet.drawing.shapes) if isinstance(s, Line) and s.width < along.width]
    level = sorted(along.x1 - s.x0 for s in lines if s.x0 == s.x1 and s.y0 == along.y0)
    upright = sorted(across.y1 - s.y0 for s in lines if s.y0 == s.y1 and s.x0 == across.x0)
    assert level == pytest.approx([step * n for n in range(1, count + 1)])
    assert upright == pytest.approx(level)


def test_the_printed_page_measures_what_it_says(tmp_path: Path) -> None:
    """Read back from the file, measured as with a tape, it gives a profile of a printer that is true."""
    pdf.write(tmp_path / "ruler.pdf", [page(PAPERS["letter"])], "Ruler page")
    (found,) = pdf_sheets(tmp_path / "ruler.pdf")
    profile = measured(ruler.bars(PAPERS["letter"], False), taped(found), "any", "letter", "2026-09-14")
    assert (profile.along, profile.across, profile.skew) == pytest.approx((1, 1, 0), abs=1e-4)


def test_a_corrected_page_measures_what_undoes_the_printer(tmp_path: Path) -> None:
    whole = page(PAPERS["letter"], profile=SHED)
    pdf.write(tmp_path / "ruler.pdf", [Page(SHED.correct(whole.drawing), "Ruler", "Ruler")], "Ruler page")
    (found,) = pdf_sheets(tmp_path / "ruler.pdf")
    got = taped(found)
    # along 10 / 1.0031 = 9.96910, and the lean of 0.02 in the square root adds 0.00002
    assert got.along == pytest.approx(9.9691, abs=1e-3)
    assert got.across == pytest.approx(7 / 0.9988, abs=1e-3)


def taped(sheet: Sheet) -> Taped:
    """The four numbers of the largest four-sided figure that single lines make on a page."""
    level = [s for s in sheet.strokes if abs(s[1][0] - s[0][0]) > 5 and s[0][1] > 0.8]
    low, high = min(level, key=lambda s: s[0][1]), max(level, key=lambda s: s[0][1])
    (a, b), (d, c) = sorted(low), sorted(high)
    return Taped(math.dist(a, b), math.dist(a, d), math.dist(a, c), math.dist(d, b))


# --- words ----------------------------------------------------------------------------------------------------------


def test_the_command_says_which_printer_paper_units_and_profile() -> None:
    plain = shlex.split(ruler.command(PAPERS["letter"], False, Profile()))
    assert plain[:6] == ["rodwright", "ruler", "--printer", "NAME", "--paper", "letter"]
    assert [w for w in plain if w.startswith("--")][2:] == ["--along", "--across", "--rising", "--falling"]
    for name in ("Shed's", 'the "big" one', "$HOME `x`", "A-1"):
        assert shlex.split(ruler.command(PAPERS["a4"], True, Profile(name)))[3] == name
    again = shlex.split(ruler.command(PAPERS["a4"], True, SHED))
    assert again[3] == "Shed laser"
    assert {"--metric", "--again"} < set(again)


def test_the_page_carries_the_command_and_how_to_measure() -> None:
    words = " ".join(t.words for t in boxes.written(page(PAPERS["letter"], profile=SHED).drawing.shapes))
    assert ruler.command(PAPERS["letter"], False, SHED) in words
    for needed in ("ACTUAL SIZE, 100 %", "between the middles of the lines", "profile of 2026-09-14"):
        assert needed in words
    for box in ("1 ALONG", "2 ACROSS", "3 RISING", "4 FALLING"):
        assert f"{box} measures" in words


def test_a_page_too_small_for_its_words_is_refused() -> None:
    with pytest.raises(ValueError, match="does not go on letter with 2 in"):
        ruler.pages(PAPERS["letter"].within(2.0), False, Profile())
