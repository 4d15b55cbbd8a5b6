"""Wall diagrams: boards to scale, walls the right way round, words that keep out of each other's way."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import boxes
import pytest
import stress

from layouts.boards import Course
from layouts.building import Building
from layouts.lengths import show
from layouts.rods import board_mark
from layouts.walls import Wall
from sheets import boards, chains, row_names, view, wall, wall_below
from sheets.frame import Body
from sheets.paper import PAPERS, USUAL
from sheets.shapes import Polygon

LYING = {name: paper.turned().body for name, paper in PAPERS.items() if name in USUAL}


@cache
def cased(case: str, paper: str) -> list[Body]:
    """All wall pages of a stress case, drawn once."""
    return wall.pages(stress.building(case), PAPERS[paper])


def bodies(case: str | Building, paper: str, name: str) -> list[Body]:
    """The pages of one wall of a stress case, or of any building."""
    pages = cased(case, paper) if isinstance(case, str) else wall.pages(case, PAPERS[paper])
    return [b for b in pages if b.title.split(",")[0] == f"Wall {name}"]


def words(body: Body) -> list[str]:
    return [t.words for t in boxes.written(body.drawing.shapes)]


# --- the boards -----------------------------------------------------------------------------------------------------


def corners(v: view.View, found: Wall) -> list[tuple[str, list[tuple[float, float]]]]:
    """Every board's corners as the page should show them, by number."""
    want = []
    for course in found.courses:
        for p in course.pieces:
            if v.clipped(min(p.low[0], p.high[0]), max(p.low[1], p.high[1])) is None:
                continue
            sides = [(p.low[0], p.row.low), (p.low[1], p.row.low), (p.high[1], p.row.high), (p.high[0], p.row.high)]
            shown = [(min(max(x, v.low), v.high), y) for x, y in sides]
            want.append((p.mark, [(v.x0 + v.scale * x, v.y0 + v.scale * y) for x, y in shown]))
    return want


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_every_board_is_drawn_to_scale_where_it_lies(name: str, paper: str) -> None:
    building = stress.building(name)
    for found in building.walls:
        plot = wall.plot(building, found, LYING[paper])
        pages = bodies(name, paper, found.name)
        for v, body in zip(plot.views, pages, strict=False):
            drawn = [
                (g.title, next(s for s in g.shapes if isinstance(s, Polygon)).points)
                for g in boxes.groups(body.drawing.shapes, "piece-")
            ]
            want = corners(v, found)
            assert [mark for mark, _ in drawn] == [mark for mark, _ in want]
            for (_, points), (_, outline) in zip(drawn, want, strict=True):
                for x, y in outline:
                    assert any(abs(x - px) < 1e-9 and abs(y - py) < 1e-9 for px, py in points)


def test_a_board_in_literal_inches() -> None:
    # 32 ft x 48 ft: wall A is 48 ft less two girts of 1 1/2 out to out. At 1 in to 6 ft a 2x4 girt of 16 ft is
    # 192 / 72 = 2 2/3 in long and 3 1/2 / 72 wide on the page
    building = stress.building("plain")
    body = bodies(building, "letter", "A")[0]
    assert "Running dimensions from the outside of A7. Scale: 1 in is 6'-0\"." in words(body)
    girt = next(p for c in building.walls[0].courses for p in c.pieces if p.length == 192.0 and p.row.key == "girt")
    group = next(g for g in boxes.groups(body.drawing.shapes, "piece-") if g.title == girt.mark)
    box = boxes.of_shape(next(s for s in group.shapes if isinstance(s, Polygon)))
    assert box.x1 - box.x0 == pytest.approx(192 / 72)
    assert box.y1 - box.y0 == pytest.approx(3.5 / 72)


def test_a_sloped_end_is_cut_back() -> None:
    # 4/12: over a 3 1/2 in board the end goes back 3.5 x 12 / 4 = 10 1/2 in
    building = stress.building("plain")
    gable = next(w for w in building.walls if w.line.gable)
    piece = gable.courses[-1].pieces[0]
    outline = boards.outline(piece)
    assert outline[0][0] - outline[-1][0] == pytest.approx(-10.5)
    assert len(outline) == 4


# --- left and right -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "left_to_right"),
    [
        # from outside: wall A shows the back of the building to the left, wall G to the right; the front wall has
        # wall A to its left, the back wall to its right
        ("A", ["A7", "A6", "A5", "A4", "A3", "A2", "A1"]),
        ("G", ["G1", "G2", "G3", "G4", "G5", "G6", "G7"]),
        ("1", ["A1", "C1", "E1", "G1"]),
        ("7", ["G7", "F7", "D7", "B7", "A7"]),
    ],
)
@pytest.mark.parametrize("paper", USUAL)
def test_left_and_right_as_seen_from_outside(paper: str, name: str, left_to_right: list[str]) -> None:
    body = bodies("plain", paper, name)[0]
    columns = list(boxes.groups(body.drawing.shapes, "column-"))
    columns.sort(key=lambda g: boxes.of_shape(g).x0)
    assert [g.title for g in columns] == left_to_right
    told = " ".join(words(body))
    assert f"{left_to_right[0]} is on your LEFT, {left_to_right[-1]} on your RIGHT" in told
    named = sorted((t for t in boxes.written(body.drawing.shapes) if t.words in left_to_right), key=lambda t: t.box.x0)
    assert [t.words for t in named] == left_to_right
    for group, text in zip(columns, named, strict=True):
        box = boxes.of_shape(group)
        assert (box.x0 + box.x1) / 2 == pytest.approx((text.box.x0 + text.box.x1) / 2, abs=0.01)


@pytest.mark.parametrize(("name", "kind"), [("A", "left sidewall"), ("7", "back endwall"), ("1", "front endwall")])
def test_walls_are_named_by_their_side(name: str, kind: str) -> None:
    assert f"WALL {name}: {kind}" in words(bodies("plain", "letter", name)[0])


def test_column_bottoms_lie_under_the_grade_line_by_their_offsets() -> None:
    building = stress.building("plain")
    found = building.walls[0]
    v = wall.plot(building, found, LYING["letter"]).views[0]
    body = bodies(building, "letter", "A")[0]
    for group in boxes.groups(body.drawing.shapes, "column-"):
        column = next(c for c in building.columns if c.name == group.title)
        assert boxes.of_shape(group).y0 == pytest.approx(v.y0 - column.offset * v.scale)


def test_dimensions_in_literal_feet() -> None:
    # 48 ft in six bays to the outside of 1 1/2 in girts: the columns begin 1 1/2 in inside, so the first stands at
    # 8' - 1 1/2" = 7'-10 1/2", each 8 ft on, and the far corner at 48' - 3" = 47'-9"
    building = stress.building("plain")
    found = building.walls[0]
    v = wall.plot(building, found, LYING["letter"]).views[0]
    _, _, bays, running = chains.strands(v, found, building.job.style)
    assert [w.text for w in bays.words] == ["7'-10 1/2\"", *["8'-0\""] * 4, "7'-10 1/2\""]
    assert [w.text for w in running.words] == [
        '0"',
        "7'-10 1/2\"",
        "15'-10 1/2\"",
        "23'-10 1/2\"",
        "31'-10 1/2\"",
        "39'-10 1/2\"",
        "47'-9\"",
    ]


# --- words ----------------------------------------------------------------------------------------------------------


def test_row_names_tell_the_marked_edge() -> None:
    building = stress.building("top edges")
    body = bodies(building, "letter", "A")[0]
    # a 2x6 nailer whose bottom is at 3 ft has its top at 3'-5 1/2"
    assert "Wainscot nailer  3'-5 1/2\"" in words(body)
    assert 'Grade board bottom  0"' in words(body)
    assert "Marks are the top edge of every board but the grade board; stations up from the grade line." in words(body)


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_every_row_is_named_and_its_line_ends_at_the_row(name: str, paper: str) -> None:
    building = stress.building(name)
    for found in building.walls:
        plot = wall.plot(building, found, LYING[paper])
        for v, body in zip(plot.views, bodies(name, paper, found.name), strict=False):
            texts = {t.words: t for t in boxes.written(body.drawing.shapes)}
            seen = [c for c in found.courses if v.clipped(c.pieces[0].low[0], c.pieces[-1].low[1])]
            for course in seen:
                called = row_names.row_text(course, building.job)
                said = (called, f"straightest: {called}")
                text = next(texts[words] for words in said if words in texts)
                y = v.y0 + board_mark(course.row, building.job).station * v.scale
                end = v.x0 + max(v.low, course.pieces[0].low[0]) * v.scale
                near = abs((text.box.y0 + text.box.y1) / 2 - y) < 0.06 and end - text.box.x1 < 0.45
                strokes = boxes.lines(body.drawing.shapes)
                tied = any(abs(s.y1 - y) < 1e-6 and abs(s.x1 - end) < 0.03 for s in strokes)
                assert near or tied, course.row.name


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_every_piece_is_told_on_its_wall(name: str, paper: str) -> None:
    building = stress.building(name)
    for found in building.walls:
        told = [w for b in bodies(name, paper, found.name) for w in words(b)]
        counted = set(pairwise(told))
        for piece, count in boards.counted(found):
            assert piece.mark in told
            length = show(piece.length, building.job.style)
            short = f"{count} pc  {boards.board_text(piece)}  {length}"
            assert (piece.mark, str(count)) in counted or short in told
            assert length in told or short in told


def test_more_pieces_than_fit_go_on_a_sheet_of_their_own() -> None:
    building = stress.building("many kinds")
    found = building.walls[0]
    kinds = {p.mark for c in found.courses for p in c.pieces}
    assert len(kinds) > 2 * wall_below.TABLE_ROWS
    titles = [b.title for b in bodies(building, "letter", found.name)]
    assert any(t.startswith(f"Wall {found.name}, pieces") for t in titles)
    told = [w for b in bodies(building, "letter", found.name) if "pieces" in b.title for w in words(b)]
    assert kinds <= set(told)
    rows = {
        f"{c.row.name}{', straightest' * c.straightest}": ", ".join(p.mark for p in c.pieces) for c in found.courses
    }
    assert set(rows) | set(rows.values()) <= set(told)


# --- straight boards ------------------------------------------------------------------------------------------------


def said_of(course: Course, v: view.View, texts: list[boxes.Written], name: str) -> bool:
    """Whether it stands in a row's own band, between two columns, or in its name, that it takes straight boards."""
    low, high = (v.y0 + edge * v.scale for edge in (course.row.low, course.row.high))
    beside = [t for t in texts if t.words in ("straightest boards", "straightest")]
    band = [t for t in beside if low - 0.02 < (t.box.y0 + t.box.y1) / 2 < high + 0.2 and t.size >= 7 / 72 - 1e-9]
    return bool(band) or any(t.words == f"straightest: {name}" for t in texts)


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_rows_that_the_eye_follows_say_so_beside_them(name: str, paper: str) -> None:
    building = stress.building(name)
    for found in building.walls:
        plot = wall.plot(building, found, LYING[paper])
        for v, body in zip(plot.views, bodies(name, paper, found.name), strict=False):
            texts = list(boxes.written(body.drawing.shapes))
            seen = [c for c in found.courses if any(v.clipped(*p.high) for p in c.pieces)]
            for course in seen:
                called = row_names.row_text(course, building.job)
                assert said_of(course, v, texts, called) or not course.straightest, course.row.name
            count = sum(t.words.startswith("straightest") and not t.words[-1].isdigit() for t in texts)
            told = sum(c.straightest for c in seen)
            # in the picture and its names once a row; the table of pieces has its own
            table = [t for t in wall_below.straightest(found).values() if t == "straightest boards"]
            assert told <= count <= told + len(table)


def test_pieces_of_a_wall_say_how_many_of_the_straightest_they_are() -> None:
    """Wall A: its top row and its grade board take them, the other rows what is left."""
    building = stress.building("plain")
    found = building.walls[0]
    want: dict[str, int] = {}
    for course in found.courses:
        for piece in course.pieces if course.row.key in ("grade board", "top girt", "soffit nailer") else ():
            want[piece.mark] = want.get(piece.mark, 0) + 1
    all_of = {mark: sum(p.mark == mark for c in found.courses for p in c.pieces) for mark in want}
    told = {m: "straightest boards" if n == all_of[m] else f"straightest for {n}" for m, n in want.items()}
    assert wall_below.straightest(found) == told
    assert len(told) > 1
    said = [w for b in bodies("plain", "letter", found.name) for w in words(b)]
    assert set(told.values()) <= {part for w in said for part in (w, w.partition(", ")[2])}
