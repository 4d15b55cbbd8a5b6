"""The field sheet: walking order, string lines and diagonals, and a box for every reading that is to be taken."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import pairwise

import boxes
import jobs
import pytest
import stress
from hypothesis import given

from layouts.building import Building
from layouts.lengths import parse, show
from layouts.plan import Side
from layouts.readings import NONE
from sheets import field, field_plan, field_walls
from sheets.frame import Body
from sheets.lettering import pt
from sheets.paper import PAPERS, find
from sheets.shapes import Group, Polygon

PRINTED = ("letter", "a4", "legal")
FORTY = [f"{5 * i}'" for i in range(1, 12)]
# 40 and 60 columns along a wall, 12 bays in an endwall, a lean shed 8 ft wide, a hall wider than it is long
EXTRA: dict[str, stress.Case] = {
    "forty": stress.Case(
        {
            "building.width": "60'",
            "building.length": "390'",
            "building.bays": 39,
            "building.front_columns": FORTY,
            "building.back_columns": FORTY,
        }
    ),
    "sixty": stress.Case(
        {
            "building.width": "60'",
            "building.length": "590'",
            "building.bays": 59,
            "building.front_columns": FORTY,
            "building.back_columns": ["15'", "30'", "45'"],
        }
    ),
    "lean": stress.Case(
        {
            "building.width": "8'",
            "building.length": "40'",
            "building.bays": 5,
            "building.front_columns": ["4'"],
            "building.back_columns": [],
        }
    ),
    "lean and long": stress.Case(
        {
            "building.width": "8'",
            "building.length": "600'",
            "building.bays": 60,
            "building.front_columns": ["4'"],
            "building.back_columns": [],
        }
    ),
    "broad": stress.Case(
        {
            "building.width": "200'",
            "building.length": "8'",
            "building.bays": 1,
            "building.front_columns": [f"{5 * i}'" for i in range(1, 40)],
            "building.back_columns": [f"{10 * i}'" for i in range(1, 20)],
        }
    ),
    "small bays": stress.Case(
        {"building.length": "32'", "building.bays": ["2'", "2'", "12'", "12'", "2'", "2'"], "names.B7": "1/2"}
    ),
    "metric, long": stress.Case(
        {"building.length": 60000, "building.bays": 12, "names.A1": "WMWMWM", "names.C1": "MMMMMM"}, base=jobs.METRIC
    ),
}
CASES = [*stress.CASES, *EXTRA]
USUAL = ("plain", "metric", "long names", "off ridge", "small", "wide", "many kinds", "lean", "broad", "small bays")


@cache
def building(name: str) -> Building:
    return stress.build(EXTRA[name]) if name in EXTRA else stress.building(name)


@cache
def cased(name: str, paper: str = "letter") -> tuple[Body, ...]:
    """The field sheet of a stress case, drawn once."""
    return tuple(field.pages(building(name), find(paper)))


def words(bodies: Iterable[Body]) -> list[str]:
    return [t.words for b in bodies for t in boxes.written(b.drawing.shapes)]


def told(building: Building) -> str:
    return " ".join(words(field.pages(building, PAPERS["letter"])))


def plan_of(name: str, paper: str = "letter") -> Body:
    return cased(name, paper)[0]


def booking(name: str, paper: str = "letter") -> list[Body]:
    return [b for b in cased(name, paper) if b.title.startswith("Field sheet, readings")]


def found(body: Body, prefix: str) -> list[Group]:
    return list(boxes.groups(body.drawing.shapes, prefix))


def chain(name: str, which: str, side: Side) -> list[str]:
    """The words of a chain of the plan, in the order of the wall."""
    return [t.words for g in found(plan_of(name), f"{which}-{side}") for t in boxes.written(g.shapes)]


# --- nothing in one another -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [*PRINTED, "8x10", "arch-d"])
@pytest.mark.parametrize("name", CASES)
def test_words_keep_clear_of_each_other_and_of_lines(name: str, paper: str) -> None:
    for body in cased(name, paper):
        assert not boxes.faults(body.drawing, body.paper)
        assert not boxes.crossed(body.drawing.shapes)
        area = body.paper.body
        assert not boxes.outside(boxes.written(body.drawing.shapes), boxes.Box(area.x0, area.y0, area.x1, area.y1))


@given(jobs.buildings())
def test_words_keep_clear_on_any_building(building: Building) -> None:
    for body in field.pages(building, PAPERS["letter"]):
        assert not boxes.faults(body.drawing, body.paper)


@pytest.mark.parametrize("paper", PRINTED)
@pytest.mark.parametrize("name", CASES)
def test_columns_with_their_frames_keep_clear_on_the_plan(name: str, paper: str) -> None:
    body = plan_of(name, paper)
    frames = [
        (g.title, boxes.of_shape(next(s for s in g.shapes if isinstance(s, Polygon)))) for g in found(body, "spot-")
    ]
    assert not [(a, b) for i, (a, one) in enumerate(frames) for b, other in frames[:i] if one.shares(other)]
    arrows = [boxes.of_shape(g) for g in found(body, "walk-")]
    for text in boxes.written(body.drawing.shapes):
        own = any(g.startswith("spot-") for g in text.groups) and text.words.isdigit()
        assert own or not [name for name, frame in frames if text.box.shares(frame)], text.words
    assert not [name for name, frame in frames if any(arrow.shares(frame) for arrow in arrows)]


# --- columns and the walk -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", USUAL)
def test_every_column_of_a_common_building_has_its_number_in_walking_order(name: str) -> None:
    spots = building(name).plan.spots
    marked = {int(g.name.removeprefix("spot-")): g for g in found(plan_of(name), "spot-")}
    if name != "broad":
        assert sorted(marked) == list(range(1, len(spots) + 1))
    for number, group in marked.items():
        assert {t.words for t in boxes.written(group.shapes)} == {str(number), spots[number - 1].name}


def test_columns_stand_where_the_plan_has_them() -> None:
    # 32 x 48 ft: wall A at the top from A1 to A7, wall G below it, the front with C1 and E1 to the left
    spots = {g.title: boxes.of_shape(g) for g in found(plan_of("plain"), "spot-")}
    assert [n for n, _ in sorted(spots.items(), key=lambda s: s[1].x0) if n[0] == "A"] == [f"A{i}" for i in range(1, 8)]
    assert spots["A1"].y0 > spots["C1"].y1 > spots["E1"].y1 > spots["G1"].y1
    assert spots["C1"].x1 < spots["A1"].x0 < spots["A7"].x1 < spots["B7"].x1
    order = [g.title for g in sorted(found(plan_of("plain"), "spot-"), key=lambda g: int(g.name[5:]))]
    assert " ".join(order) == "A1 A2 A3 A4 A5 A6 A7 B7 D7 F7 G7 G6 G5 G4 G3 G2 G1 E1 C1"


def test_arrows_point_the_way_the_numbers_go() -> None:
    body = plan_of("plain")
    spots = {int(g.name[5:]): boxes.of_shape(g) for g in found(body, "spot-")}
    # 1 to 7 along wall A, 8 to 10 in the back, 11 to 17 along wall G, 18 and 19 in the front
    walls: dict[str, tuple[int, int]] = {"left": (1, 7), "back": (8, 10), "right": (11, 17), "front": (18, 19)}
    for side, (first, last) in walls.items():
        shaft, head = next(g for g in found(body, f"walk-{side}")).shapes
        tail, tip = boxes.of_shape(shaft), boxes.of_shape(head)
        a, b = spots[first], spots[last]
        across = (b.x0 - a.x0) * (tip.x0 + tip.x1 - tail.x0 - tail.x1)
        up = (b.y0 - a.y0) * (tip.y0 + tip.y1 - tail.y0 - tail.y1)
        assert (across if side in ("left", "right") else up) > 0, side


def test_start_stands_beside_the_first_column() -> None:
    body = plan_of("plain")
    first = boxes.of_shape(next(g for g in found(body, "spot-1") if g.name == "spot-1"))
    start = next(t for t in boxes.written(body.drawing.shapes) if t.words == "START")
    assert 0 < first.x0 - start.box.x1 < 0.4
    assert first.y0 < start.box.y0 < start.box.y1 < first.y1


@pytest.mark.parametrize("name", ["forty", "sixty", "lean and long", "long, long names"])
def test_where_names_do_not_go_some_are_left_out_and_it_is_said(name: str) -> None:
    spots = building(name).plan.spots
    named = {g.title for g in found(plan_of(name), "spot-")}
    assert {s.name for s in spots if s.role == "corner"} <= named
    said = " ".join(words([plan_of(name)]))
    assert ("A black block without a name is a column too" in said) == (len(named) < len(spots))
    blocks = found(plan_of(name), "field-plan")
    black = [s for g in blocks for s in g.shapes if isinstance(s, Polygon) and s.grey == 0.0 and len(s.points) == 4]
    small = [b for b in map(boxes.of_shape, black) if abs(b.x1 - b.x0 - 2 * field_plan.BLOCK) < 1e-9]
    assert len([b for b in small if abs(b.y1 - b.y0 - 2 * field_plan.BLOCK) < 1e-9]) == len(spots)


def test_walls_and_what_the_front_faces() -> None:
    found = words([plan_of("plain")])
    assert {"LEFT, wall A", "BACK, wall 7", "RIGHT, wall G", "FRONT, wall 1", "FRONT is wall 1"} <= set(found)
    assert "YOU LOOK DOWN ON IT" in found
    faces = words(field.pages(jobs.build({"building.front_faces": "the mill road"}), PAPERS["letter"]))
    assert "FRONT, wall 1, faces the mill road" in faces


def test_a_long_building_lies_on_its_side_a_wide_one_stands() -> None:
    assert plan_of("plain").paper.width == 11
    assert plan_of("small").paper.width == 8.5


@pytest.mark.parametrize(("name", "kept"), [("plain", True), ("small", True), ("lean", False), ("sixty", False)])
def test_what_is_not_to_scale_says_so(name: str, kept: bool) -> None:
    body, plan = plan_of(name), building(name).plan
    group = next(g for g in found(body, "field-plan"))
    outline = boxes.of_shape(next(s for s in group.shapes if isinstance(s, Polygon)))
    ratio = (outline.x1 - outline.x0) / (outline.y1 - outline.y0)
    assert (ratio == pytest.approx(plan.along / plan.across)) == kept
    assert any("NOT TO SCALE" in w for w in words([body])) != kept


# --- string lines ---------------------------------------------------------------------------------------------------


def test_bays_as_they_are_laid_out_on_the_string() -> None:
    # 32 x 48 ft to the outside of 1 1/2 in girts: the first bay of 8 ft begins at the outer face of the corner column,
    # 8' - 1 1/2" = 7'-10 1/2"; front columns at 11' and 21' stand 10'-10 1/2" and 19... from it
    assert chain("plain", "bays", "left") == ["7'-10 1/2\"", *["8'-0\""] * 4, "7'-10 1/2\""]
    running = ["7'-10 1/2\"", "15'-10 1/2\"", "23'-10 1/2\"", "31'-10 1/2\"", "39'-10 1/2\"", "47'-9\""]
    assert chain("plain", "running", "right") == ['0"', *running]
    # 11' - 1 1/2" = 10'-10 1/2"; 21' - 11' = 10'; 31'-9" - 20'-10 1/2" = 10'-10 1/2"
    assert chain("plain", "bays", "front") == ["10'-10 1/2\"", "10'-0\"", "10'-10 1/2\""]
    assert chain("plain", "running", "front") == ['0"', "10'-10 1/2\"", "20'-10 1/2\"", "31'-9\""]
    # 8', 16' and 24' from the building line, from the same corner, that at wall A
    assert chain("plain", "bays", "back") == ["7'-10 1/2\"", "8'-0\"", "8'-0\"", "7'-10 1/2\""]
    assert chain("plain", "running", "back") == ['0"', "7'-10 1/2\"", "15'-10 1/2\"", "23'-10 1/2\"", "31'-9\""]


def test_metric_bays() -> None:
    # 9600 x 14400 mm to the outside of 45 mm girts: 2400 - 45 = 2355; 14400 - 90 = 14310
    assert chain("metric", "bays", "left") == ["2355 mm", *["2400 mm"] * 4, "2355 mm"]
    assert chain("metric", "running", "right")[-1] == "14310 mm"
    assert chain("metric", "bays", "front") == ["3255 mm", "3000 mm", "3255 mm"]


def strung(name: str) -> Iterator[tuple[str, list[str], list[str], float]]:
    """Of every wall the bays and running measures that are printed, on the plan or in the table, and its string."""
    plan, tables = building(name).plan, [b for b in cased(name) if "string lines" in b.title]
    listed = words(tables)
    for wall in plan.walls:
        side: Side = wall.side
        bays = chain(name, "bays", "left" if side == "right" else side)
        running = chain(name, "running", "right" if side == "left" else side)[1:]
        if not bays:
            members = wall.columns if side in ("front", "right") else wall.columns[::-1]
            rows = [listed.index(f"{a} to {b}") for a, b in pairwise(members)]
            step = 1 if wall.gable or side == "right" else 2
            bays, running = [listed[i + step] for i in rows], [listed[i + step + 1] for i in rows]
        yield wall.name, bays, running, wall.length


@pytest.mark.parametrize("name", CASES)
def test_bays_add_up_to_the_string_line_on_every_wall(name: str) -> None:
    made = building(name)
    unit = made.job.style.unit
    for wall, bays, running, length in strung(name):
        count = len(next(w.columns for w in made.plan.walls if w.name == wall))
        assert len(bays) == len(running) == count - 1
        # each is rounded once, to a sixteenth or a millimetre: off by half of that at the most
        half = 0.5 / 25.4 if unit == "mm" else 0.5 / made.job.job.fraction
        lengths = [parse(b, unit) for b in bays]
        assert sum(lengths) == pytest.approx(length, abs=half * len(bays) + 1e-9)
        assert parse(running[-1], unit) == pytest.approx(length, abs=half + 1e-9)
        for bay, (a, b) in zip(lengths, pairwise([0.0, *(parse(r, unit) for r in running)]), strict=True):
            assert bay == pytest.approx(b - a, abs=3 * half + 1e-9)


@pytest.mark.parametrize("name", CASES)
def test_lines_and_diagonals_are_named_in_words(name: str) -> None:
    made = building(name)
    plan, style, line = made.plan, made.job.style, made.job.building.line
    found = words([plan_of(name)])
    assert f"COLUMN STRING LINE, outside of columns: {show(plan.along, style)}" in found
    assert f"COLUMN STRING LINE, outside of columns: {show(plan.across, style)}" in found
    assert f"BUILDING LINE, outside of {line}: {show(plan.length, style)}" in found
    assert f"BUILDING LINE, outside of {line}: {show(plan.width, style)}" in found
    assert f"COLUMN DIAGONAL {show(plan.column_diagonal, style)}" in found
    assert f"BUILDING DIAGONAL {show(plan.building_diagonal, style)}" in found
    assert not [w for w in found if "DIAGONAL" in w and not w.startswith(("COLUMN ", "BUILDING "))]


def test_which_diagonal_squares_the_columns() -> None:
    # 36 x 48 ft to the outside of 1 1/2 in girts: columns 35'-9" x 47'-9", sqrt(429^2 + 573^2) = 715.80 in =
    # 59'-7 13/16"; the building line's is 60'-0" (3-4-5)
    found = words(field.pages(jobs.build({"building.width": "36'"}), PAPERS["letter"]))
    at = found.index("COLUMN DIAGONAL 59'-7 13/16\"")
    assert " ".join(found[at + 1 : found.index("BUILDING DIAGONAL 60'-0\"")]).endswith("Square with it.")
    assert "Outside of girts. Never square the columns with it." in " ".join(found)


def test_building_line_and_columns_in_one() -> None:
    found = told(jobs.build({"building.width": "36'", "building.line": "columns"}))
    assert "COLUMN DIAGONAL 60'-0\"" in found
    assert "BUILDING DIAGONAL 60'-0\"" in found
    assert "The building line is the outside of columns here: the same." in found
    assert "Never square" not in found


@pytest.mark.parametrize(
    ("name", "sent"), [("plain", False), ("wide", False), ("sixty", True), ("lean and long", True)]
)
def test_chains_that_do_not_go_stand_in_a_table(name: str, sent: bool) -> None:
    assert any("string lines" in b.title for b in cased(name)) == sent
    assert ("on the sheet STRING LINES." in " ".join(words([plan_of(name)]))) == sent


def test_one_chain_to_a_line() -> None:
    """Words of a chain stand on one line, no other chain's on it."""
    for side, along in (("left", False), ("right", False), ("front", True), ("back", True)):
        lines = []
        for which in ("bays", "running"):
            for group in found(plan_of("plain"), f"{which}-{side}"):
                at = [t.box for t in boxes.written(group.shapes)]
                lines.append((min(b.x0 if along else b.y0 for b in at), max(b.x1 if along else b.y1 for b in at)))
        lines.sort()
        assert all(a[1] < b[0] for a, b in pairwise(lines))


@pytest.mark.parametrize("name", CASES)
def test_chains_are_read_without_glasses(name: str) -> None:
    for group in [*found(plan_of(name), "bays-"), *found(plan_of(name), "running-"), *found(plan_of(name), "spot-")]:
        assert not boxes.small(boxes.written(group.shapes), 9.5)


# --- booking --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PRINTED)
@pytest.mark.parametrize("name", CASES)
def test_a_row_a_column_in_walking_order_with_two_rounds_and_a_note(name: str, paper: str) -> None:
    rows = [g for b in booking(name, paper) for g in found(b, "row-")]
    spots = building(name).plan.spots
    assert [g.name for g in rows] == [f"row-{i}" for i in range(1, len(spots) + 1)]
    for number, (row, spot) in enumerate(zip(rows, spots, strict=True), 1):
        assert [t.words for t in boxes.written(row.shapes)] == [str(number), spot.name]
        blanks = {g.name: boxes.of_shape(g) for g in boxes.groups(row.shapes)}
        assert list(blanks) == ["round-1", "round-2", "set-up", "note"]
        assert all(b.y1 - b.y0 >= 0.32 for b in blanks.values())
        assert min(blanks["round-1"].x1 - blanks["round-1"].x0, blanks["round-2"].x1 - blanks["round-2"].x0) > 1.3
        assert not [t for t in boxes.written(row.shapes) if any(t.box.shares(b) for b in blanks.values())]


def test_numbers_of_plan_and_book_are_the_same() -> None:
    marked = {g.name[5:]: g.title for g in found(plan_of("plain"), "spot-")}
    rows = [[t.words for t in boxes.written(g.shapes)] for g in found(booking("plain")[0], "row-")]
    assert dict(rows) == marked


@pytest.mark.parametrize("paper", PRINTED)
@pytest.mark.parametrize("name", ["plain", "metric", "long", "sixty"])
def test_every_sheet_begins_on_start_and_ends_on_the_check_back(name: str, paper: str) -> None:
    allowed = "3 mm" if name == "metric" else '1/8"'
    sheets = booking(name, paper)
    for i, body in enumerate(sheets):
        parts = [g for g in body.drawing.shapes if isinstance(g, Group)]
        order = [g for g in parts if g.name in ("start", "check-back", "difference") or g.name.startswith("row-")]
        assert [g.name for g in (order[0], *order[-2:])] == ["start", "check-back", "difference"]
        tops = [boxes.of_shape(g).y1 for g in order]
        assert tops == sorted(tops, reverse=True)
        for group in (order[0], order[-2], order[-1]):
            assert {"round-1", "round-2"} <= {g.name for g in boxes.groups(group.shapes)}
        assert [t.words for t in boxes.written(order[-1].shapes)][-2:] == [
            f"More than {allowed} apart:",
            "SHOOT THE ROUND AGAIN.",
        ]
        start = [t.words for t in boxes.written(order[0].shapes)]
        assert start[0] == ("START, as on sheet 1:" if i else "START ON which point:")
    assert len(sheets) == math.ceil(len(building(name).plan.spots) / len(found(sheets[0], "row-")))


def test_what_a_check_back_may_be_off() -> None:
    found = " ".join(words(field.pages(jobs.build({"readings.misclosure": "3/16"}), PAPERS["letter"])[1:]))
    assert found.count('More than 3/16" apart:') == 1
    assert 'more than 3/16" apart: read them again' in found
    assert '1/8"' not in found


def test_names_are_set_large_and_bold_and_never_as_lengths() -> None:
    rows = [t for b in booking("small bays") for g in found(b, "row-") for t in boxes.written(g.shapes)]
    own = next(t for t in rows if t.words == "1/2")
    assert own.size == pytest.approx(pt(22))


def test_it_needs_no_readings_and_is_the_same_with_them() -> None:
    made = building("plain")
    without = jobs.build({}, None)
    assert made.readings.values
    assert without.readings == NONE
    letter = PAPERS["letter"]
    assert [b.drawing for b in field.pages(made, letter)] == [b.drawing for b in field.pages(without, letter)]


# --- before the round -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PRINTED)
def test_what_is_written_down_before_the_round(paper: str) -> None:
    sheet = [b for b in cased("plain", paper) if "before the round" in b.title]
    assert len(sheet) == 1
    blanks = {g.name.removeprefix("blank-") for g in found(sheet[0], "blank-")}
    assert {"DATE", "WEATHER", "READ BY", "WROTE", "LASER", "ROD OR TAPE"} <= blanks
    assert {"HIGHEST BY EYE: column", "LOWEST BY EYE: column"} <= blanks
    assert len(found(sheet[0], "benchmark-")) == 3 * 3
    assert len(found(sheet[0], "set-up-")) == 4 * 4
    assert all(boxes.of_shape(g).y1 - boxes.of_shape(g).y0 > 0.32 for g in found(sheet[0], "benchmark-"))


@pytest.mark.parametrize(
    ("head", "choices"),
    [
        ("IT READS IN", ["inches and fractions", "tenths of a foot", "decimal inches", "mm"]),
        ("IT IS READ", ["down from the beam: larger is LOWER", "as heights: larger is HIGHER"]),
        ("READ ON", ["the seat", "the concrete; plate thickness _________"]),
    ],
)
def test_a_box_to_tick_for_every_choice(head: str, choices: list[str]) -> None:
    group = next(g for b in cased("plain") for g in found(b, f"ticks-{head}"))
    assert [t.words for t in boxes.written(group.shapes)] == [head, *choices]
    squares = [boxes.of_shape(s) for s in group.shapes if isinstance(s, Polygon)]
    assert len(squares) == len(choices)
    assert all(s.x1 - s.x0 == pytest.approx(s.y1 - s.y0) for s in squares)


@pytest.mark.parametrize(
    "says",
    [
        "on the SEAT that the column will stand on, not on the concrete",
        "LARGER IS LOWER",
        "the SMALLEST reading counts",
        "another repeats it aloud",
        "Read the first point again at the end of every sheet",
        "The difference is TWICE its error",
        "which seat is highest and which is lowest by eye",
        "Read one seat (better two) from the new set-up that you have read before",
    ],
)
def test_how_to_shoot(says: str) -> None:
    assert says in " ".join(words(cased("plain")))


def test_titles_are_its_own() -> None:
    titles = [b.title for b in cased("sixty")]
    assert len(set(titles)) == len(titles)
    assert {b.kind for b in cased("sixty")} == {"field"}


def test_places_on_an_edge() -> None:
    """Corners at their outer face, the others at their centre, from the front and from wall A."""
    front = field_walls.edges(building("plain").plan)["front"]
    assert [s.name for s in front.spots] == ["A1", "C1", "E1", "G1"]
    assert front.places == pytest.approx((0, 130.5, 250.5, 381))  # 11' - 1 1/2", 21' - 1 1/2", 32' - 3"
    assert [s.name for s in front.named] == ["C1", "E1"]
