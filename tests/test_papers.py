"""Rods on every paper: the fewest pages against a bound worked by hand, rolls in one piece, overview and reassembly."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import boxes
import pytest
import stress

from layouts.lengths import Style
from layouts.rods import Mark, Rod
from sheets import rod as rods
from sheets import tag, wall
from sheets.lanes import CLEAR
from sheets.paper import LONGEST, PAPERS, Paper, find
from sheets.strip import title


def bare(length: float, stations: tuple[float, ...] = ()) -> Rod:
    """A rod with girts at *stations* and nothing else."""
    marks = tuple(Mark(f"Girt {i}", "board", s, s, s + 3.5, "bottom", "2x4") for i, s in enumerate(stations, 1))
    return Rod("Any rod", ("A",), False, marks, length)


# Letter lying down: 11 - 2 x 1/2 - 0.06 - 0.5 - 0.24 = 9.2, so 9 in from set line to set line, 9.2 for the last;
# 8.5 - 1 - 0.44 - 0.44 = 6.62 over 2.09 + 0.05 each: three lanes a page.
@pytest.mark.parametrize(
    ("length", "lanes", "pages"),
    [
        (164.0, 19, 7),  # (164 - 9.2) / 9 = 17.2: 18 and the last one; 19 / 3 = 6.3
        (171.2, 19, 7),  # (171.2 - 9.2) / 9 = 18 just: 18 and the last one
        (480.0, 54, 18),  # a 40-ft rod: (480 - 9.2) / 9 = 52.3: 53 and the last one; 54 / 3 = 18
    ],
)
def test_the_bound_on_pages_is_the_one_worked_by_hand(length: float, lanes: int, pages: int) -> None:
    laid = rods.lay(bare(length), Style("in"), find("letter").lying().body)
    assert laid.least == pages
    assert (len(laid.lanes), laid.pages) == (lanes, pages)


def test_a_40_ft_rod_with_its_marks_takes_no_more_pages_than_the_bound() -> None:
    rod = bare(480.0, tuple(23.0 + 23.375 * i for i in range(19)))
    laid = rods.lay(rod, Style("in"), find("letter").lying().body)
    assert laid.pages == laid.least == 18


@pytest.mark.parametrize("name", PAPERS)
def test_every_paper_takes_rods_tags_and_walls(name: str) -> None:
    building, paper = stress.building("plain"), PAPERS[name]
    for body in rods.pages(building, paper):
        assert body.drawing.width <= LONGEST
        assert body.drawing.height <= LONGEST
        faults = boxes.faults(body.drawing, body.paper)
        assert not faults, (name, body.title)
        assert not boxes.crossed(body.drawing.shapes), (name, body.title)
    if paper.roll:
        return
    tags = tag.pages(building, paper)
    assert sum(len(page.parts) for page in tags) == len(building.columns)
    for body in [*tags, *wall.pages(building, paper)]:
        assert (body.paper.width, body.paper.height) in ((paper.width, paper.height), (paper.height, paper.width))
        assert not boxes.faults(body.drawing, body.paper), (name, body.title)


@pytest.mark.parametrize("name", [n for n in PAPERS if PAPERS[n].roll])
def test_a_roll_holds_a_rod_in_one_piece(name: str) -> None:
    """A longer one in whole panels, none over 200 in, parted where no mark is."""
    building = stress.building("plain")
    laid = rods.lay_all(building, PAPERS[name])
    assert len(laid[0].lanes) == 1
    tall = rods.lay_all(stress.building("tall"), PAPERS[name])
    assert len(tall[0].lanes) == math.ceil(tall[0].rod.length / 198.2)  # 200 - 1 - 0.8
    for one in tall:
        edges = [e for m in one.rod.marks for e in (m.low, m.high, m.station)]
        assert all(abs(lane.end - e) >= CLEAR for lane in one.lanes[:-1] for e in edges)


def test_a_rolls_page_is_cut_where_the_drawing_ends() -> None:
    (body,) = rods.pages(stress.building("plain"), PAPERS["roll-24in"])
    longest = max(one.rod.length for one in rods.lay_all(stress.building("plain"), PAPERS["roll-24in"]))
    assert body.paper.height == 24
    if longest <= 198:
        assert body.paper.width == math.ceil(longest + 0.06 + 0.5 + 0.24 + 1)


@pytest.mark.parametrize("name", ["letter", "tabloid", "arch-d"])
def test_the_overview_shows_every_lane_of_the_rod_on_its_first_page(name: str) -> None:
    building, paper = stress.building("plain"), PAPERS[name]
    bodies = rods.pages(building, paper)
    for laid in rods.lay_all(building, paper):
        (first,) = [b for b in bodies if b.title.startswith(title(laid.rod)) and re.search(r": lanes? 1\b", b.title)]
        (view,) = boxes.groups(first.drawing.shapes, "overview")
        numbers = [int(t.words) for t in boxes.written(view.shapes)]
        assert numbers[0] == 1
        assert numbers == sorted(numbers)
        every = numbers[2] - numbers[1] if len(numbers) > 2 else 1
        assert numbers[-1] > len(laid.lanes) - every - 1


def test_a_pair_of_lanes_put_together_by_their_tape_numbers_gives_the_stations() -> None:
    """Each lane laid by its own numbers on a tape: every mark stands at its station, whatever its neighbour does."""
    building = stress.building("plain")
    for laid in rods.lay_all(building, find("letter")):
        for one, other in pairwise(laid.lanes):
            assert one.end == other.start
            assert other.start == round(other.start)
        found = sorted(m.station for lane in laid.lanes for m in laid.rod.marks if lane.start <= m.station < lane.end)
        assert found == pytest.approx([m.station for m in laid.rod.marks])


def test_custom_paper_holds_what_its_size_holds() -> None:
    small = Paper("own", 8, 10)
    for body in rods.pages(stress.building("plain"), small):
        assert not boxes.faults(body.drawing, body.paper), body.title
