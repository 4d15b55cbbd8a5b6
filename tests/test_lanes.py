"""Rods broken into lanes: as few as can be, set lines on the tape's numbers, nothing in a joint."""

from __future__ import annotations

from itertools import pairwise

import pytest
import stress
from hypothesis import given
from hypothesis import strategies as st

from sheets.lanes import CLEAR, Lane, Stretch, break_up
from sheets.paper import MM, PAPERS, USUAL
from sheets.rod import lay


def bare(length: float, most: float, step: float = 1.0) -> tuple[Lane, ...]:
    return break_up(length, most, step, ())


def test_fewest_lanes_of_a_bare_rod() -> None:
    # 164 / 9 = 18.2: nineteen lanes, eighteen of 9 in and one of 164 - 162 = 2 in
    lanes = bare(164, 9)
    assert len(lanes) == 19
    assert [lane.end - lane.start for lane in lanes] == [9.0] * 18 + [2.0]
    assert [lane.number for lane in lanes] == list(range(1, 20))
    assert [lane.last for lane in lanes] == [False] * 18 + [True]


def test_a_short_rod_is_one_lane() -> None:
    assert bare(9, 9) == (Lane(1, 0.0, 9, True),)


def test_set_lines_stand_on_whole_inches() -> None:
    # 9.19 in of page: the farthest whole inch is 9
    assert [lane.end for lane in bare(40, 9.19)] == [9.0, 18.0, 27.0, 36.0, 40]


def test_set_lines_stand_on_fifties_of_a_metric_tape() -> None:
    # 240 mm of page, set lines on 50 mm: 200, 400, ... and the rod ends at 1010 mm
    lanes = bare(1010 * MM, 240 * MM, 50 * MM)
    assert [round(lane.end / MM) for lane in lanes] == [200, 400, 600, 800, 1010]


def test_a_mark_pushes_the_set_line_back() -> None:
    # a mark at 8 3/4 may have no joint between 8 1/4 and 9 1/4: 8 in is the farthest whole inch left
    lanes = break_up(20, 9.5, 1.0, [(8.75 - CLEAR, 8.75 + CLEAR)])
    assert lanes[0].end == 8.0
    # and half an inch off is far enough: mark at 8 1/2, joint at 9
    assert break_up(20, 9.5, 1.0, [(8.0, 9.0)])[0].end == 9.0


def test_a_label_is_spared_where_there_is_another_way() -> None:
    assert break_up(20, 9.0, 1.0, [], [(5.5, 9.5)])[0].end == 5.0
    # words over all of the first 9 in: the joint goes through them, but never through a mark
    lanes = break_up(20, 9.0, 1.0, [(8.5, 9.5)], [(0.1, 12.0)])
    assert lanes[0].end == 8.0


def test_an_earlier_lane_gives_way_so_that_a_later_one_need_not() -> None:
    # 16 in at most 9: a joint at 9 leaves 7, but lies in the words from 8 1/2 to 15 1/2; 8 does not
    assert [lane.end for lane in break_up(16, 9.0, 1.0, [], [(8.5, 15.5)])] == [8.0, 16]
    # words to 7 1/2 and from 9.2 to 17 1/2: 9 spares both and reaches 18 in one lane of 9
    assert [lane.end for lane in break_up(27, 9.5, 1.0, [], [(9.2, 17.5), (0.2, 7.5)])] == [9.0, 18.0, 27]


def test_words_lose_as_little_as_can_be() -> None:
    # words tied to a mark at 2, reaching to 12, marks that take 1/2 to 2 1/2 and 8 1/2 to 9 1/2: 8 takes the least
    assert [lane.end for lane in break_up(14, 9.0, 1.0, [(0.5, 2.5), (8.5, 9.5)], [(2.0, 12.0)])] == [8.0, 14]
    # tied at 12, reaching down to 2 1/2: nearest to that end, 14 - 9 = 5 is the first that one joint can do
    assert [lane.end for lane in break_up(14, 9.0, 1.0, [(11.0, 13.5)], [(12.0, 2.5)])] == [5.0, 14]


def test_very_short_lanes_are_avoided() -> None:
    # 19 in at most 9 takes three lanes: 9, 9, 1 would leave an inch; 9, 7, 3 does not
    assert [lane.end for lane in break_up(19, 9.0, 1.0, [], [], 3.0)] == [9.0, 16.0, 19]


def test_no_place_for_a_joint() -> None:
    with pytest.raises(ValueError, match="no place for a joint between 0 and 9 in"):
        break_up(20, 9.0, 1.0, [(0.0, 10.0)])


@given(
    length=st.integers(5, 120),
    most=st.integers(5, 12),
    marks=st.lists(st.integers(1, 240).map(lambda n: n / 2 + 0.25), max_size=25),
)
def test_never_more_lanes_than_a_search_of_all_ways_finds(length: int, most: int, marks: list[float]) -> None:
    hard: list[Stretch] = [(m - CLEAR, m + CLEAR) for m in marks]
    lawful = [n for n in range(1, length) if not any(a + 1e-9 < n < b - 1e-9 for a, b in hard)]
    fewest = {0: 0}
    for place in [*lawful, length]:
        before = [fewest[p] for p in fewest if place - most <= p < place]
        if before:
            fewest[place] = min(before) + 1
    try:
        lanes = break_up(length, most, 1.0, hard)
    except ValueError:
        assert length not in fewest
        return
    assert len(lanes) == fewest[length]


@pytest.mark.parametrize("name", stress.CASES)
@pytest.mark.parametrize("paper", USUAL)
def test_marks_and_edges_keep_half_an_inch_from_joints(name: str, paper: str) -> None:
    building = stress.building(name)
    area = PAPERS[paper].turned().body
    for rod in building.rods:
        lanes = lay(rod, building.job.style, area).lanes
        assert lanes[0].start == 0.0
        assert lanes[-1].end == rod.length
        assert all(a.end == b.start for a, b in pairwise(lanes))
        step = 50 * MM if building.job.style.unit == "mm" else 1.0
        for lane in lanes[:-1]:
            assert lane.end / step == pytest.approx(round(lane.end / step), abs=1e-9)
            for mark in rod.marks:
                for edge in (mark.station, mark.low, mark.high):
                    assert abs(lane.end - edge) >= 0.5 - 1e-9, (mark, lane)
