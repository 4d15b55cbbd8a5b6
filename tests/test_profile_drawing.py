"""The profile of the seats: true to both of its scales, as they are printed, and legible however many there are."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

import boxes
import pytest
import stress
from graded import NAMES, rows, shapes, strips, words
from hypothesis import given
from hypothesis import strategies as st
from jobs import build
from printed import demo_job

from layouts.building import Building
from layouts.lengths import show
from sheets.load import load
from sheets.profile_drawing import flags
from sheets.profile_labels import Label, spread
from sheets.shapes import Group, Polygon


def scales(building: Building, paper: str = "letter") -> tuple[float, float, float]:
    """How many times too tall, lengths 1 to, heights 1 to, as they are printed."""
    said = " ".join(words(building, paper))
    found = re.search(
        r"DRAWN ([\d.]+) TIMES TOO TALL: lengths along the walk 1:(\d+), heights (at full size|1:(\d+))", said
    )
    assert found
    return float(found[1]), float(found[2]), float(found[4] or 1)


def blocks(strip: Group) -> Iterator[tuple[str, boxes.Box]]:
    """Each seat of a strip by its title, and its block; a seat that was not read has none."""
    for group in boxes.groups(strip.shapes, "seat-"):
        for shape in group.shapes:
            if isinstance(shape, Polygon):
                yield group.title, boxes.of_shape(shape)


def line_of(strip: Group) -> float:
    (group,) = boxes.groups(strip.shapes, "grade-line")
    (line,) = boxes.lines(group.shapes)
    assert line.y0 == line.y1
    assert line.width == max(s.width for s in boxes.lines(strip.shapes))
    return line.y0


CASES = {
    "demo": lambda: load(demo_job()),
    "metric": lambda: stress.building("metric"),
    "above": lambda: stress.building("below the seats"),
    "many": lambda: stress.building("long, long names"),
    "wide": lambda: stress.building("wide"),
    "floor": lambda: stress.building("from floor"),
    "small": lambda: stress.building("small"),
}


@pytest.mark.parametrize("name", CASES)
def test_a_seat_is_drawn_as_deep_as_its_offset(name: str) -> None:
    """drawn depth = offset x scale of lengths x exaggeration, all three as they are printed."""
    building = CASES[name]()
    times, along, tall = scales(building)
    assert times == pytest.approx(along / tall)
    seen = set()
    for strip in strips(building):
        for title, block in blocks(strip):
            column, _, said = title.partition(": ")
            offset = building.grade.offsets[column]
            assert said == f"seat {show(offset, building.job.style)} below the grade line"
            assert line_of(strip) - block.y1 == pytest.approx(offset / along * times, abs=1e-9)
            seen.add(column)
    assert seen == set(building.grade.offsets)


def test_the_walk_is_drawn_to_scale_and_comes_back_to_the_first_column() -> None:
    # 32' x 48' to the outside of 1 1/2 in girts: columns 381 x 573 in. A2 stands 8 ft from the building line,
    # 94 1/2 in along the walk, A7 at the corner, B7 (8 ft from wall A) at 573 + 94 1/2
    building = stress.building("plain")
    _, along, _ = scales(building)
    walked: list[str] = []
    for strip in strips(building):
        found = [(title.partition(":")[0], (block.x0 + block.x1) / 2) for title, block in blocks(strip)]
        at = dict(found)
        if "A2" in at:
            first = at["A1"]
            for name, inches in (("A2", 94.5), ("A3", 190.5), ("A7", 573)):
                assert (at[name] - first) * along == pytest.approx(inches, abs=1e-6)
        if "B7" in at and "A7" in at:
            assert (at["B7"] - at["A7"]) * along == pytest.approx(94.5, abs=1e-6)
        walked += [n for n, _ in found]
    # every strip begins with the corner that the last one ended on
    order = [a for a, b in pairwise([*walked, ""]) if a != b]
    assert order == [*NAMES, "A1"]


def test_walls_are_named_and_corners_marked() -> None:
    building = stress.building("plain")
    walls, corners = [], 0
    for strip in strips(building):
        texts = list(boxes.written(strip.shapes))
        walls += [t.words.partition(",")[0] for t in texts if t.words.startswith("WALL")]
        dotted = {s.x0 for s in boxes.lines(strip.shapes) if s.x0 == s.x1 and s.dash == (0.03, 0.04)}
        at = {(block.x0 + block.x1) / 2 for title, block in blocks(strip) if title[:2] in ("A1", "A7", "G7", "G1")}
        assert sorted(dotted) == pytest.approx(sorted(at))
        corners += sum(t.words == "CORNER" for t in texts)
    assert walls == ["WALL A", "WALL 7", "WALL G", "WALL 1"]
    # four corners, the first again at the end, and each that a strip ends on again at the head of the next
    assert corners == 5 + len(strips(building)) - 1


def test_the_highest_and_the_lowest_seat_are_named() -> None:
    building = build({"grade.line": "43"}, rows("A3=44 1/4", "G5=46 1/8"))
    said = " ".join(words(building))
    assert 'Highest seat A3, 1 1/4" below the grade line; lowest seat G5, 3 1/8" below the grade line.' in said
    for word, name in (("HIGHEST", "A3"), ("LOWEST", "G5")):
        (place,) = [
            (t.box.x0 + t.box.x1) / 2 - (block.x0 + block.x1) / 2
            for strip in strips(building)
            for t in boxes.written(strip.shapes)
            for title, block in blocks(strip)
            if t.words == word and title.startswith(f"{name}:")
        ]
        assert abs(place) < 0.1
    assert 'All seats alike, 2" below the grade line.' in words(build({"grade.line": "43"}, rows()))


def boards(strip: Group) -> list[boxes.Box]:
    return [boxes.of_shape(s) for s in strip.shapes if isinstance(s, Polygon) and s.grey == 0.93]


def test_the_board_is_drawn_to_scale_where_it_fits() -> None:
    # seats up to 24 in under the line, on 1 1/2 in of paper: heights 1:16 or smaller, a 7 1/4 in board under 1/2 in
    building = build({"grade.line": "40"}, {n: 46 + i for i, n in enumerate(NAMES)})
    _, _, tall = scales(building)
    assert "zigzag" not in " ".join(words(building))
    for strip in strips(building):
        (board,) = boards(strip)
        assert board.y0 == pytest.approx(line_of(strip))
        assert board.y1 - board.y0 == pytest.approx(7.25 / tall)
        levels = [s for s in boxes.lines(strip.shapes) if s.dash == (0.12, 0.05)]
        assert [s.y0 - line_of(strip) for s in levels] == pytest.approx([3.5 / tall])  # finished floor


def test_a_board_that_is_too_tall_is_broken() -> None:
    building = build({"grade.line": "44"}, rows("A3=44 1/2"))
    _, _, tall = scales(building)
    assert "Above the zigzag nothing is to scale." in " ".join(words(building))
    for strip in strips(building):
        lower, upper = sorted(boards(strip), key=lambda b: b.y0)
        assert lower.y0 == pytest.approx(line_of(strip))
        assert lower.y1 < upper.y0
        assert upper.y1 - line_of(strip) < 7.25 / tall
    assert words(building).count('2x8: 7 1/4"') == len(strips(building))


def test_the_scale_bar_measures_heights() -> None:
    building = load(demo_job())
    _, _, tall = scales(building)
    for strip in strips(building):
        (bar,) = boxes.groups(strip.shapes, "height-bar")
        ticks = sorted(s.y0 - line_of(strip) for s in boxes.lines(bar.shapes) if s.y0 == s.y1 and s.x1 - s.x0 < 0.1)
        numbers = [t.words for t in boxes.written(bar.shapes)]
        # whole inches, told upwards: 3 2 1 0 under the line, then up again
        assert [abs(round(y * tall, 6)) for y in ticks] == [float(n.removesuffix('"')) for n in numbers]
        assert 0 in [round(y, 9) for y in ticks]


def test_heights_are_drawn_as_large_as_seats_leave_room_for() -> None:
    """Eighths of an inch between seats are seen; whole feet still go in."""
    assert scales(build({"grade.line": "44"}, rows("A3=45 1/8")))[2] <= 2
    assert scales(build({"grade.line": "44"}, rows("A3=75")))[2] <= 2  # stands out: its block is cut short
    deep = scales(build({"grade.line": "20"}, rows("A3=47 1/2", "B7=49", "G1=43")))[2]
    assert 29 / deep <= 1.5


def test_a_seat_that_stands_out_does_not_flatten_the_others() -> None:
    building = build({"grade.line": "44"}, rows("A3=75", "B7=12"))
    assert "The seat of a jagged block is off the picture." in " ".join(words(building))
    _, _, tall = scales(building)
    for strip in strips(building):
        for title, block in blocks(strip):
            name = title.partition(":")[0]
            true = line_of(strip) - building.grade.offsets[name] / tall
            if name in ("A3", "B7"):
                assert abs(block.y1 - true) > 10
            else:
                assert block.y1 == pytest.approx(true)


def test_a_long_building_is_split_and_every_name_is_legible() -> None:
    building = stress.building("long, long names")
    assert len(building.plan.spots) > 50
    found = strips(building)
    assert len(found) > 2
    named = set()
    for strip in found:
        texts = [t for t in boxes.written(strip.shapes) if t.words in {s.name for s in building.plan.spots}]
        named |= {t.words for t in texts}
        assert min(t.size for t in texts) * 72 >= 12
    assert named == {s.name for s in building.plan.spots}
    # two strips on a page
    counts = [sum(1 for _ in boxes.groups(page, "profile")) for page in shapes(building)]
    assert max(counts) == 2


def test_what_is_wrong_with_a_seat_is_told_by_shape_and_word() -> None:
    given = rows("A3=46 3/4", "B7=44 1/8", "G5=80")
    del given["C1"]
    building = build({"grade.most": "2", "grade.flag": "1"}, given)
    told = {name: flags(building, name) for name in ("A2", "A3", "G5", "C1")}
    assert told == {
        "A2": (),
        "A3": ("SHOOT AGAIN", "TOO LOW"),
        "G5": ("STANDS OUT", "SHOOT AGAIN", "TOO LOW"),
        "C1": ("NOT READ",),
    }
    marks: dict[str, list[int]] = {}
    for strip in strips(building):
        for title, block in blocks(strip):
            middle = (block.x0 + block.x1) / 2
            under = [s for s in strip.shapes if isinstance(s, Polygon) and s.grey in (0.0, None)]
            near = [s for s in under if abs(sum(x for x, _ in s.points) / len(s.points) - middle) < 0.13]
            marks[title.partition(":")[0]] = [len(s.points) for s in near if boxes.of_shape(s).y1 < block.y0]
    assert marks["A2"] == []
    assert marks["A3"] == [3, 4]  # triangle and box
    assert marks["G5"] == [4, 4]  # diamond and box
    assert [s for strip in strips(building) for s in boxes.groups(strip.shapes, "seat-") if s.title == "C1: not read"]


def test_words_share_the_lines_there_are() -> None:
    label = Label("A1", '1"', ("STANDS OUT", "SHOOT AGAIN", "SEAT ABOVE THE LINE"), (), ("CORNER", "HIGHEST"))
    assert [text for text, _ in label.lines(5)] == [*label.flags, *label.plain]
    assert [text for text, _ in label.lines(3)] == ["STANDS OUT, SHOOT AGAIN", "SEAT ABOVE THE LINE", "CORNER, HIGHEST"]
    assert [text for text, _ in label.lines(1)] == [", ".join([*label.flags, *label.plain])]
    assert Label("A1", '1"', (), (), ("CORNER", "LOWEST")).lines(1) == [("CORNER, LOWEST", "regular")]


@given(st.lists(st.floats(0, 6), min_size=1, max_size=20), st.floats(0.05, 0.3))
def test_labels_are_moved_apart_and_no_further(places: list[float], step: float) -> None:
    wanted = sorted(places)
    found = spread(wanted, step, 0.0, 6.0)
    assert all(b - a >= step - 1e-9 for a, b in pairwise(found))
    assert found[0] >= -1e-9
    assert found[-1] <= 6 + 1e-9
    if all(b - a >= step for a, b in pairwise(wanted)):
        assert found == pytest.approx(wanted, abs=1e-9)


def test_two_labels_on_one_place_are_moved_alike() -> None:
    assert spread([2, 2], 1, 0, 9) == [1.5, 2.5]
    assert spread([0, 0], 1, 0, 9) == [0, 1]
    assert spread([9, 9], 1, 0, 9) == [8, 9]
