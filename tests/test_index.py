"""The index: sums, string lines and diagonals, warnings, the grade line, and every sheet and tag with its stamp."""

from __future__ import annotations

import boxes
import pytest
import stress
from jobs import build

from layouts.building import Building
from sheets.index import pages
from sheets.packet import build as packed
from sheets.paper import PAPERS, USUAL
from sheets.plan import plan_drawing
from sheets.shapes import Line


def words(building: Building, paper: str = "letter") -> list[str]:
    return [t.words for b in pages(building, PAPERS[paper], []) for t in boxes.written(b.drawing.shapes)]


def after(found: list[str], head: str) -> list[str]:
    return found[found.index(head) + 1 :]


def test_stack_up_sums() -> None:
    # the trade's own arithmetic, common practice, no source: a 3 1/2 in purlin on 4/12 stands 3 11/16 in plumb;
    # 12'-0" + 15 1/2" + 3 11/16" = 13'-7 3/16"; less 4" (12" of overhang) and 5 1/2" of fascia = 12'-9 11/16"
    building = build(
        {
            "truss.bearing": "12'",
            "truss.heel": "15 1/2",
            "truss.heel_at": "girt",
            "roof.purlin": "2x4",
            "roof.overhang": "12",
            "roof.fascia": "5 1/2",
            "roof.soffit": "level",
        }
    )
    found = words(building)
    eave = after(found, "EAVE LINE (PURLIN TOPS AT THE OUTSIDE OF THE GIRTS)")
    assert eave[:8] == [
        "bearing above grade line",
        "12'-0\"",
        "heel at the girt face",
        '15 1/2"',
        "purlin 2x4 on edge, plumb",
        '3 11/16"',
        "SUM, above the grade line (added exactly, rounded once)",
        "13'-7 3/16\"",
    ]
    soffit = after(found, "SOFFIT NAILER TOP (LEVEL SOFFIT)")
    assert soffit[6:12] == [
        "less fall over the overhang",
        '– 4"',
        "less fascia depth",
        '– 5 1/2"',
        "SUM, above the grade line (added exactly, rounded once)",
        "12'-9 11/16\"",
    ]


def test_string_lines_and_both_diagonals() -> None:
    # 36 x 48 ft to the columns: 60'-0" corner to corner (computed, 3-4-5)
    building = build({"building.width": "36'", "building.line": "columns"})
    found = words(building)
    assert "building diagonal 60'-0\"" in found
    assert "COLUMN diagonal 60'-0\"" in found
    # to the outside of 1 1/2 in girts the columns are 3 in less each way: 35'-9" x 47'-9",
    # sqrt(429^2 + 573^2) = 715.80 = 59'-7 13/16"
    found = words(build({"building.width": "36'", "building.line": "girts"}))
    assert "building diagonal 60'-0\"" in found
    assert "35'-9\" x 47'-9\"" in found
    assert "COLUMN diagonal 59'-7 13/16\"" in found


def test_where_no_girt_is_outside_the_building_line_is_that_of_the_columns() -> None:
    found = words(build({"building.width": "36'", "girts.place": "between", "truss.heel_at": "girt"}))
    assert "Building line, outside of columns" in found
    assert {"building diagonal 60'-0\"", "COLUMN diagonal 60'-0\""} <= set(found)
    assert "EAVE LINE (PURLIN TOPS AT THE OUTSIDE OF THE COLUMNS)" in found
    assert "heel at the column face" in found
    assert not [text for text in found if "of girts" in text or "of the girts" in text.lower()]


@pytest.mark.parametrize("paper", USUAL)
def test_every_sheet_and_tag_is_listed_with_its_stamp(paper: str) -> None:
    packet = stress.printed("plain", paper)
    index = [s for s in packet.sheets if s.kind == "index"]
    rest = [(n, s) for n, s in enumerate(packet.sheets, 1) if s.kind != "index"]
    told = [t.words for s in index for t in boxes.written(s.page.drawing.shapes)]
    triples = set(zip(told, told[1:], told[2:], strict=False))
    for number, sheet in rest:
        for title, code in sheet.parts or ((sheet.title, sheet.stamp),):
            assert (title, str(number), code) in triples
    names = {c.name for c in stress.building("plain").columns}
    assert names == {w.removeprefix("Tag ") for w, _, _ in triples if w.startswith("Tag ")}
    # and each tag carries the stamp that the index lists
    for _, sheet in rest:
        for _title, code in sheet.parts:
            written = [t.words for t in boxes.written(sheet.page.drawing.shapes)]
            assert any(code in w for w in written)


def test_many_warnings_flow() -> None:
    building = stress.building("all warned")
    assert len(building.warnings) > 30
    told = " ".join(words(building))
    for i, text in enumerate(building.warnings, 1):
        assert f"{i}. {text}" in told


def test_no_warning_is_said() -> None:
    # all seats level, and gable bays of 8 ft on which boards of 8 and 16 ft stagger
    quiet = stress.build(
        stress.Case({"building.front_columns": ["8'", "16'", "24'"], "tops.sidewall_ears": "chord"}, lambda _: 44.0)
    )
    assert not quiet.warnings
    assert words(quiet)[2:4] == ["WARNINGS", "None."]
    assert "None." not in words(build({}, None))


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_no_heading_is_the_last_word_of_a_page(name: str, paper: str) -> None:
    for sheet in stress.printed(name, paper).sheets:
        if sheet.kind not in ("index", "cuts"):
            continue
        texts = [t for t in boxes.written(sheet.page.drawing.shapes) if "footer" not in t.groups]
        low = min(texts, key=lambda t: t.line)
        assert low.size * 72 < 14.5 or not low.words.isupper(), low.words


def test_only_one_kind_has_no_index() -> None:
    assert {s.kind for s in packed(stress.building("small"), PAPERS["letter"], "cuts").sheets} == {"cuts"}


# --- the plan -------------------------------------------------------------------------------------------------------


def test_plan_names_every_column_of_a_common_building_where_it_stands() -> None:
    building = stress.building("plain")
    drawing = plan_drawing(building)
    texts = {t.words: t.box for t in boxes.written(drawing.shapes)}
    assert {s.name for s in building.plan.spots} <= set(texts)
    # wall A at the top with its front to the left, wall 7 to the right
    assert texts["A1"].x0 < texts["A2"].x0 < texts["A7"].x0
    assert texts["A1"].y0 > texts["C1"].y0 > texts["E1"].y0 > texts["G1"].y0
    assert texts["B7"].x0 > texts["A7"].x0 - 0.2 > texts["C1"].x1
    assert texts["FRONT, wall 1"].x1 < texts["C1"].x0
    assert texts["LEFT, wall A"].y0 > texts["A4"].y1


def test_plan_is_to_scale() -> None:
    # 31'-9" x 47'-9": the outline keeps 573 to 381, the diagonal joins its corners
    drawing = plan_drawing(stress.building("plain"))
    outline = boxes.of_shape(drawing.shapes[0])
    dashed = next(s for s in boxes.lines(drawing.shapes) if isinstance(s, Line) and s.dash)
    assert (dashed.x1 - dashed.x0) / (dashed.y1 - dashed.y0) == pytest.approx(573 / 381)
    assert outline.x1 <= drawing.width
    assert outline.y1 <= drawing.height


@pytest.mark.parametrize("name", stress.CASES)
def test_plan_words_keep_clear(name: str) -> None:
    drawing = plan_drawing(stress.building(name))
    texts = list(boxes.written(drawing.shapes))
    assert not boxes.overlaps(texts)
    assert not boxes.outside(texts, boxes.Box(0, 0, drawing.width, drawing.height))
    assert not boxes.crossed(drawing.shapes)
    for corner in ("A1", "G1"):
        spot = next(s for s in stress.building(name).plan.spots if s.grid == corner or s.role == "corner")
        assert spot.name in {t.words for t in texts}
