"""String lines of the field sheet: bays, running measures, both lines and both diagonals."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import boxes
import jobs
import pytest
from test_field import CASES, building, cased, found, plan_of, words

from layouts.building import Building
from layouts.lengths import parse, show
from layouts.plan import Side
from sheets import field, field_walls
from sheets.paper import PAPERS


def told(building: Building) -> str:
    return " ".join(words(field.pages(building, PAPERS["letter"])))


def chain(name: str, which: str, side: Side) -> list[str]:
    """The words of a chain of the plan, in the order of the wall."""
    return [t.words for g in found(plan_of(name), f"{which}-{side}") for t in boxes.written(g.shapes)]


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
    plan, style = made.plan, made.job.style
    line = "columns" if plan.width == plan.across else "girts"
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


@pytest.mark.parametrize("place", ["inside", "between"])
def test_where_no_girt_is_outside_the_building_line_is_the_outside_of_columns(place: str) -> None:
    # 36 x 48 ft, and nothing stands outside of the columns: 3-4-5, 60'-0" both
    made = jobs.build({"building.width": "36'", "girts.place": place, "girts.board": "2x4"})
    found, lead = told(made), words(field.pages(made, PAPERS["letter"]))
    assert "COLUMN DIAGONAL 60'-0\"" in found
    assert "The building line is the outside of columns here: the same." in found
    assert "BUILDING LINE, outside of columns: 48'-0\"" in lead
    assert "BUILDING LINE, outside of columns: 36'-0\"" in lead
    assert "Never square" not in found
    assert "girts" not in found


def test_a_building_line_of_columns_is_not_drawn_twice() -> None:
    """A dashed line outside of the columns is where girts stand, and only there."""
    for place, sides in (("outside", 4), ("between", 0)):
        plan = field.pages(jobs.build({"girts.place": place}), PAPERS["letter"])[0].drawing
        assert len([s for s in boxes.lines(plan.shapes) if s.dash == (0.06, 0.04)]) == sides


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


# --- before the round -----------------------------------------------------------------------------------------------


def test_places_on_an_edge() -> None:
    """Corners at their outer face, the others at their centre, from the front and from wall A."""
    front = field_walls.edges(building("plain").plan)["front"]
    assert [s.name for s in front.spots] == ["A1", "C1", "E1", "G1"]
    assert front.places == pytest.approx((0, 130.5, 250.5, 381))  # 11' - 1 1/2", 21' - 1 1/2", 32' - 3"
    assert [s.name for s in front.named] == ["C1", "E1"]
