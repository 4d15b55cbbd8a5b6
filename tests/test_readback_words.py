"""The numbers on tags and wall diagrams, read back as text from both files."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from printed import Form, Printed, print_out
from readback import Sheet, Words, svg_sheet

from layouts.lengths import Style, show, show_inches
from layouts.walls import Piece

forms = pytest.mark.parametrize("form", ["pdf", "svg"])


def tags(sheets: list[Sheet], names: list[str]) -> dict[str, list[str]]:
    """The words of each tag. A tag is drawn whole before the next; the largest words on it are its column's name."""
    found: dict[str, list[str]] = {}
    for sheet in sheets:
        large = max((w.size for w in sheet.words if w.text in names), default=0.0)
        now: list[str] | None = None
        for word in sheet.words:
            if word.text in names and word.size > large * 0.7:
                assert word.text not in found, "two tags of one column"
                now = found[word.text] = []
            if now is not None:
                now.append(word.text)
    return found


@forms
def test_each_tag_has_its_columns_numbers_and_no_other_has_one(printed: Printed, form: Form) -> None:
    building, style = printed.building, printed.building.job.style
    line = building.grade.line
    assert line is not None
    found = tags(printed.sheets(form, "tags"), [s.name for s in building.plan.spots])
    assert list(found) == [c.name for c in building.columns]
    assert building.grade.unread
    assert not set(building.grade.unread) & set(found), "no reading, no tag"
    for column in building.columns:
        words, text = found[column.name], "\n".join(found[column.name])
        offset = building.readings.values[column.name] - line
        assert show(offset, style) in words
        for cut in column.cuts:
            height = words.index(show(offset + cut.station, style))
            near = words[max(0, height - 2) : height + 3]
            assert cut.name in near
            assert cut.where in near
        assert column.stock is not None
        assert f"STOCK {show(column.stock, style)}" in text
        assert show_inches(building.readings.values[column.name], style) in text
        assert column.seat in text
        assert column.longer in text
        assert ("SHOOT AGAIN BEFORE CUTTING" in words) == column.flagged


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Printed:
    """The demo on Letter."""
    return print_out("letter", tmp_path_factory.mktemp("words") / "demo")


@forms
def test_the_demos_first_tag_says_what_was_worked_out_by_hand(demo: Printed, form: Form) -> None:
    """A1 of the demo, worked by hand (computed): reading 44 3/4, line 43, so offset 1 3/4; bearing 11'-4" + 1 3/4.
    Purlin 5 1/2 on 4/12 stands 5.5·sqrt(1 + 1/9) = 5.7975 plumb; short point 136 + 13.25 + 5.7975 - 0.25 + 1.75 =
    156.5475; long point + 5.5·4/12 = 158.3809."""
    words = tags(demo.sheets(form, "tags"), [c.name for c in demo.building.columns])["A1"]
    for text in ('1 3/4"', "11'-5 3/4\"", "13'-0 9/16\"", "13'-2 3/8\""):
        assert text in words


def rows(sheet: Sheet) -> Iterator[str]:
    """The level words of a page, those on one line joined from the left."""
    lines: dict[float, list[Words]] = {}
    for word in sheet.words:
        if not word.turned:
            lines.setdefault(round(word.y, 3), []).append(word)
    for line in lines.values():
        yield " ".join(w.text for w in sorted(line, key=lambda w: w.x))


def said(row: str, mark: str, length: str) -> bool:
    """Whether a line of words gives a piece by number and, before the next number, its length."""
    return re.search(rf"{mark}\b[^#]*?(?<![\d'-]){re.escape(length)}", row) is not None


@forms
def test_every_wall_piece_is_listed_with_its_length(printed: Printed, form: Form) -> None:
    style = printed.building.job.style
    sheets = printed.sheets(form, "walls")
    for wall in printed.building.walls:
        mine = [s for s in sheets if any(re.match(rf"WALL {wall.name}\b", text) for text in s.texts)]
        assert mine
        lines = [row for sheet in mine for row in rows(sheet)]
        pieces = [piece for course in wall.courses for piece in course.pieces]
        counts = Counter(piece.mark for piece in pieces)
        for piece in pieces:
            assert any(said(row, piece.mark, show(long_edge(piece), style)) for row in lines), piece.mark
        for mark, count in counts.items():
            assert any(re.search(rf"{mark} {count}\b", row) for row in lines), mark
        for stand in wall.stands:
            if stand.column:
                assert any(show(stand.column.offset, style) in sheet.texts for sheet in mine)


def long_edge(piece: Piece) -> float:
    """From the leftmost to the rightmost point of a board, inches."""
    ends = (*piece.low, *piece.high)
    return max(ends) - min(ends)


@forms
def test_pieces_of_a_row_and_the_cut_list_add_up(printed: Printed, form: Form) -> None:
    """Every piece of the cut list is on the cut sheets with its number, how many, and length."""
    style = printed.building.job.style
    lines = [row for sheet in printed.sheets(form, "cuts") for row in rows(sheet)]
    for piece in printed.building.pieces:
        text = show(piece.length, style)
        assert any(re.match(rf"{piece.mark} {piece.count}\b", row) and said(row, piece.mark, text) for row in lines)


def test_walls_carry_their_columns_and_boards_as_named_layers(printed: Printed) -> None:
    """An SVG program finds each piece and each column by name."""
    pages = [(printed.folder / n).read_text(encoding="utf-8") for n in printed.pages if n.startswith("walls")]
    for wall in printed.building.walls:
        mine = "".join(page for page in pages if f"WALL {wall.name}:" in page)
        assert all(f"<title>{stand.name}</title>" in mine for stand in wall.stands)
        assert all(f"<title>{p.mark}</title>" in mine for c in wall.courses for p in c.pieces)


def test_a_length_is_copied_as_it_is_typed(demo: Printed, tmp_path: Path) -> None:
    """Feet and inches with a stacked fraction come out of the file as plain text, in figures a tape shows."""
    typed = [w.text for s in demo.sheets("pdf", "tags") for w in s.words if "'-" in w.text and "/" in w.text]
    assert len(typed) > 20
    exact = [t for t in typed if re.fullmatch(r"\d+'-\d+ \d+/(2|4|8|16)\"", t)]
    assert len(exact) > 20
    assert show(165.0833, Style()) == "13'-9 1/16\""
    assert svg_sheet(demo.folder / "tags-001.svg").texts == demo.sheets("pdf", "tags")[0].texts
