"""Templates on paper: at full scale, parted at match lines, and read back."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from pathlib import Path

import boxes
import pdfplumber
import pytest
from jobs import build
from msgspec.structs import replace
from test_templates import SHAPES, laid, only

from layouts.lengths import Style
from sheets import packet, templates
from sheets.audit import differences
from sheets.packet import Packet
from sheets.paper import PAPERS
from sheets.profile import Profile
from sheets.shapes import THICK, Drawing, Group, Line, Shape, moved

# --- on paper ---------------------------------------------------------------------------------------------------------

NEEDED = {
    "top": {"WASTE", "TOP"},
    "gauge": {"OUTSIDE", "INSIDE"},
    "tail": {"WASTE", "UPHILL"},
    "girt": {"WASTE", "END"},
    "rake": {"WASTE", "UPHILL"},
}


@pytest.mark.parametrize("paper", ["letter", "a4", "legal", "arch-c"])
@pytest.mark.parametrize("name", SHAPES)
def test_patterns_are_printed_at_full_scale_and_read_back(name: str, paper: str, tmp_path: Path) -> None:
    built = build(SHAPES[name])
    printed = packet.build(built, PAPERS[paper], "templates")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, built, tmp_path / "t") == []
    for one in laid(built):
        words: set[str] = set()
        for body in templates.drawn(one, PAPERS[paper], built.job.style):
            written = list(boxes.written(body.drawing.shapes))
            words |= {t.words for t in written}
            assert boxes.overlaps(written) == []
            width, height = body.paper.width, body.paper.height
            area = boxes.Box(body.paper.body.x0 - 0.01, body.paper.body.y0 - 0.01, width - 0.49, height - 0.49)
            assert boxes.outside(written, area) == []
        assert NEEDED[one.key.partition("-")[2]] <= words, (one.title, words)


def test_a_printer_profile_is_honoured(tmp_path: Path) -> None:
    """Off by 0.4 % along and 0.3 % across: nominal pages pass without the profile, corrected ones only with it."""
    office = Profile("office", "letter", 1.0043, 0.9971, 0.0008, 0.5, "2026-09-01", 0.01)
    built = build(SHAPES["level soffit"])
    printed = packet.build(built, PAPERS["letter"], "templates", office)
    packet.save(printed, tmp_path / "t")
    assert differences(printed, built, tmp_path / "t", office) == []
    assert any("along its line" in str(d) or "long" in str(d) for d in differences(printed, built, tmp_path / "t"))


def test_a_line_in_the_file_rises_as_it_is_to(tmp_path: Path) -> None:
    """Read by another parser: of the thick lines of the first page one rises 132 points over 396 (5 1/2 in)."""
    printed = packet.build(build({}), PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "t")
    with pdfplumber.open(tmp_path / "t" / "templates.pdf") as pdf:
        page = pdf.pages[0]
        thick = [line for line in page.lines if abs(line["linewidth"] - THICK * 72) < 0.01]
        over = [(line["width"], line["height"]) for line in thick if line["height"] > 1 and line["width"] > 1]
    assert over == [(pytest.approx(396, abs=0.07), pytest.approx(132, abs=0.07))]


def strokes(drawing: Drawing, kind: str) -> Iterator[Line]:
    def walk(shapes: Iterable[Shape], inside: bool) -> Iterator[Line]:
        for shape in shapes:
            if isinstance(shape, Group):
                yield from walk(shape.shapes, inside or shape.name.startswith(f"template-{kind}-"))
            elif isinstance(shape, Line) and inside:
                yield shape

    return walk(drawing.shapes, False)


def length(found: Iterable[Line]) -> float:
    return math.fsum(math.hypot(s.x1 - s.x0, s.y1 - s.y0) for s in found)


def test_a_long_end_goes_over_several_pages_and_is_drawn_once() -> None:
    """2/12: 21 in back. The thick line is parted at the match lines; what is drawn again is thinner, and every match
    line is on two pages."""
    one = build({"truss.pitch": "2/12"})
    (end,) = only({"truss.pitch": "2/12"}, "girt")
    bodies = list(templates.drawn(end, PAPERS["letter"], one.job.style))
    assert len(bodies) == 3
    assert length(s for b in bodies for s in strokes(b.drawing, "cut")) == pytest.approx(math.hypot(21, 3.5), abs=1e-6)
    assert length(s for b in bodies for s in strokes(b.drawing, "again")) > 0.3
    words = [t.words for b in bodies for t in boxes.written(b.drawing.shapes)]
    assert words.count("MATCH LINE 1") == words.count("MATCH LINE 2") == 2
    assert "Cut this sheet off at MATCH LINE 2 and lay it on that of part 2" in " ".join(words)


def test_match_lines_of_rows_and_columns_join_like_with_like() -> None:
    """A pattern of three by two pages: every match line stands on two pages, at one place of the pattern."""
    one = replace(only({"truss.pitch": "2/12"}, "girt")[0], edges=(((0.0, 0.0), (20.0, 0.0), (20.0, 12.0)),))
    bodies = list(templates.drawn(one, PAPERS["letter"], Style("in")))
    assert len(bodies) > 4
    lines: dict[str, list[tuple[float, float]]] = {}
    for body in bodies:
        for shape in walk_groups(body.drawing.shapes):
            if shape.name.startswith("template-match-"):
                line = next(s for s in shape.shapes if isinstance(s, Line))
                lines.setdefault(shape.name, []).append((line.x1 - line.x0, line.y1 - line.y0))
    assert lines
    for found in lines.values():
        assert len(found) == 2
        assert found[0] == pytest.approx(found[1])


def walk_groups(shapes: Iterable[Shape]) -> Iterator[Group]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield shape
            yield from walk_groups(shape.shapes)


# --- the audit looks -------------------------------------------------------------------------------------------------


def changed(printed: Packet, group: str, by: tuple[float, float], turn: float = 0.0) -> Packet:
    """The packet with every stroke of the groups called *group* moved, and its right end lifted by *turn*."""

    def walk(shapes: tuple[Shape, ...], inside: bool) -> tuple[Shape, ...]:
        found: list[Shape] = []
        for shape in shapes:
            if isinstance(shape, Group):
                found.append(Group(shape.name, walk(shape.shapes, inside or shape.name == group), shape.title))
            elif isinstance(shape, Line) and inside:
                found.append(moved(replace(shape, y1=shape.y1 + turn), *by))
            else:
                found.append(shape)
        return tuple(found)

    sheets = tuple(
        replace(s, page=replace(s.page, drawing=replace(s.page.drawing, shapes=walk(s.page.drawing.shapes, False))))
        for s in printed.sheets
    )
    return replace(printed, sheets=sheets)


@pytest.mark.parametrize(
    ("group", "by", "turn", "want"),
    [
        ("template-cut-1", (0.0, 0.003), 0.0, "cut 1 along its line"),
        ("template-cut-1", (0.0, 0.0), 0.002, "cut 1 along its line"),
        ("template-edge-1", (0.003, 0.003), 0.0, "edge 1 along its line"),
        ("template-match-1", (0.02, 0.0), 0.0, ""),
    ],
)
def test_a_drawing_that_is_off_is_found(
    group: str, by: tuple[float, float], turn: float, want: str, tmp_path: Path
) -> None:
    """Drawn and written alike, and yet not where the layout has it: by two and three thousandths."""
    built = build(SHAPES["level soffit"])
    printed = packet.build(built, PAPERS["letter"], "templates")
    wrong = changed(printed, group, by, turn)
    if "match" in group:  # on one of the two pages alone
        keep = next(i for i, s in enumerate(printed.sheets) if "part 1" in s.title)
        wrong = replace(printed, sheets=(*printed.sheets[:keep], wrong.sheets[keep], *printed.sheets[keep + 1 :]))
    packet.save(wrong, tmp_path / "t")
    told = [str(d) for d in differences(wrong, built, tmp_path / "t")]
    assert told
    assert any(want in line for line in told), told


def test_another_jobs_templates_are_found_out(tmp_path: Path) -> None:
    """A packet of 4/12 is not that of 4 1/16 / 12; one of two slopes is not that of one."""
    built = build({})
    printed = packet.build(built, PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "t")
    told = [str(d) for d in differences(printed, build({"truss.pitch": "4 1/16 / 12"}), tmp_path / "t")]
    assert any("along its line" in line or "in long" in line for line in told)
    assert any("not so on the page" in line for line in told)
    other = build({"truss.far_pitch": "6/12"})
    assert any("none" in str(d) for d in differences(printed, other, tmp_path / "t"))
    printed = packet.build(other, PAPERS["letter"], "templates")
    packet.save(printed, tmp_path / "u")
    assert any("no such pattern" in str(d) for d in differences(printed, built, tmp_path / "u"))


def test_keys_number_the_patterns() -> None:
    found = laid(build(SHAPES["rakes"]))
    assert [t.key.partition("-")[0] for t in found] == [str(i) for i in range(1, len(found) + 1)]
