"""The worst error of a rod against rods that are made a hundred thousand times, mark by mark, and laid to a tape.

The simulation knows no formula: it prints coordinates, lets paper grow, lays each lane and looks where marks stand.
"""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from layouts.lengths import Style
from sheets.profile import Profile
from sheets.rod_error import ACROSS_GRAIN, ALONG_GRAIN, READ, TAPE, UNKNOWN, chained, lines, printer_error, worst

PRINTER, GROWTH, LANE = 0.001, 0.002, 10.0
MEASURED = Profile("Shed", "letter", 1.003, 0.998, date="2026-09-14", residual=0.05)
Array = np.ndarray[tuple[int, ...], np.dtype[np.float64]]


def either(rng: np.random.Generator, most: float, shape: tuple[int, ...]) -> Array:
    return rng.uniform(-most, most, shape)


def laid(rng: np.random.Generator, runs: int, lanes: int, split: bool = False) -> Array:
    """How far the worst mark of each of *runs* rods stands from the tape. A packet has one printer and one damp, a lane
    its own setting; a mark stands on every inch."""
    marks = np.arange(0.0, LANE + 0.5)
    scale = 1 + either(rng, PRINTER, (runs, 1, 1))
    damp = 1 + either(rng, GROWTH, (runs, 1, 1))
    paper = marks * scale * damp  # where marks are on the strip, from its first line
    tape_numbers = np.arange(lanes)[None, :, None] * LANE
    if split:
        paper = paper - (paper[..., -1:] - LANE) / 2
    stands = tape_numbers + either(rng, TAPE, (runs, lanes, 1)) + paper
    off: Array = np.abs(stands - (tape_numbers + marks))
    worst_marks: Array = off.max(axis=(1, 2))
    return worst_marks


def butted(rng: np.random.Generator, runs: int, lanes: int, habit: bool) -> Array:
    """How far the far end of a rod of sheets laid edge to edge stands off. By *habit* all joints of a rod err alike."""
    sheet = LANE * (1 + either(rng, PRINTER, (runs,))) * (1 + either(rng, GROWTH, (runs,)))
    joints = either(rng, TAPE, (runs, 1 if habit else lanes - 1)) * np.ones((1, lanes - 1))
    off: Array = lanes * sheet + joints.sum(axis=1) - lanes * LANE
    return off


# --- by hand --------------------------------------------------------------------------------------------------------


def test_worst_by_hand() -> None:
    # 10 in: printer 0.01, paper 0.02, both together 10 x 0.001 x 0.002 = 0.00002 more; tape 1/32 = 0.03125
    assert worst(10, 0.001, 0.002) == pytest.approx(0.06127, abs=1e-9)
    assert worst(10, 0.001, 0.002, split=True) == pytest.approx(0.015 + 0.00001 + 0.03125, abs=1e-9)
    assert worst(10, 0, 0, 0) == 0


def test_chained_by_hand() -> None:
    # 24 ft in 29 sheets: 0.1 % of 290 in is 0.29 in; 28 joints of 1/32 are 7/8 in
    assert chained(29, 10, 0.001, 0, 0) == pytest.approx(0.29)
    assert chained(29, 10, 0, 0, 1 / 32) == pytest.approx(0.875)
    assert chained(1, 10, 0.001, 0.002, 1 / 32) == pytest.approx(worst(10, 0.001, 0.002, 0))


def test_paper_moves_more_across_the_grain() -> None:
    # common practice, no source: 0.1 to 0.2 % along, 0.2 to 0.4 % across
    assert (ALONG_GRAIN, ACROSS_GRAIN) == ((0.001, 0.002), (0.002, 0.004))


# --- Monte Carlo ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("split", [False, True])
@pytest.mark.parametrize("lanes", [1, 3, 24])
def test_laid_to_a_tape_no_rod_is_worse_and_some_come_near(lanes: int, split: bool) -> None:
    off = laid(np.random.default_rng(7 + lanes), 300_000 // lanes, lanes, split)
    most = worst(LANE, PRINTER, GROWTH, split=split)
    assert np.mean(off <= most) >= 0.999
    assert 0.93 * most < off.max()


def test_laid_to_a_tape_a_long_rod_is_no_worse_than_a_short_one() -> None:
    rng = np.random.default_rng(11)
    short, long = laid(rng, 60_000, 2), laid(rng, 6_000, 40)
    assert long.max() < worst(LANE, PRINTER, GROWTH) < 1.1 * short.max()


@pytest.mark.parametrize("habit", [False, True])
def test_butted_no_rod_is_worse_than_chained(habit: bool) -> None:
    for lanes in (2, 5, 10, 20, 40):
        off = np.abs(butted(np.random.default_rng(lanes), 100_000, lanes, habit))
        most = chained(lanes, LANE, PRINTER, GROWTH)
        assert np.mean(off <= most) >= 0.999
        assert off.max() > (0.95 if habit else 0.4) * most


def test_butted_the_error_grows_lane_by_lane_as_chained_says() -> None:
    counts = np.array([5, 10, 20, 40])
    seen = [np.abs(butted(np.random.default_rng(3), 200_000, int(n), True)).max() for n in counts]
    said = [chained(int(n), LANE, PRINTER, GROWTH) for n in counts]
    slope_seen, slope_said = np.polyfit(counts, seen, 1)[0], np.polyfit(counts, said, 1)[0]
    assert slope_seen == pytest.approx(slope_said, rel=0.05)
    assert slope_said == pytest.approx(LANE * (PRINTER + GROWTH + PRINTER * GROWTH) + TAPE)


def test_butting_passes_the_tape_at_the_second_lane() -> None:
    assert chained(2, LANE, PRINTER, GROWTH) > worst(LANE, PRINTER, GROWTH)
    assert chained(24, LANE, PRINTER, GROWTH) > 20 * worst(LANE, PRINTER, GROWTH)


# --- the printer ----------------------------------------------------------------------------------------------------


def test_what_is_left_of_the_printer() -> None:
    assert printer_error(Profile()) == UNKNOWN
    assert printer_error(MEASURED) == pytest.approx(0.005)
    # a residual of 0 says no more than that a tape shows none: 1/32 in 10 in
    for residual in (None, 0.0, 0.01):
        assert printer_error(replace(MEASURED, residual=residual)) == pytest.approx(READ / 10)


def test_a_bar_read_on_a_tape_leaves_no_more_than_that() -> None:
    # both ends of a 10 in bar up to 1/64 off: what a profile learns is off by at most 1/32 in 10
    rng = np.random.default_rng(5)
    true = 1 + either(rng, 0.01, (50_000,))
    read = 10 * true + either(rng, 1 / 64, (50_000,)) + either(rng, 1 / 64, (50_000,))
    left = np.abs(true / (read / 10) - 1)
    most = printer_error(replace(MEASURED, residual=None))
    assert np.mean(left <= most * 1.01) >= 0.999
    assert left.max() > 0.9 * most


# --- words ----------------------------------------------------------------------------------------------------------


def test_lines_say_the_worst_its_parts_and_that_it_does_not_grow() -> None:
    # 10 in lanes: printer 0.05, paper 0.04, tape 0.03125, together 0.1215 in: up to the next 32nd is 1/8
    found = lines(10, 17, MEASURED, Style("in", 16))
    assert len(found) == 2
    assert 'up to 1/8" off (printer 0.05 in, paper dry to damp 0.04 in, tape 0.03 in)' in found[0]
    assert "does not grow" in found[0]
    assert "up to 2'-0 1/16\"" not in found[1]
    # 170 x ((1.005)(1.004) - 1) + 16 / 32 = 170 x 0.00902 + 0.5 = 2.0334: up to 2 1/16
    assert '17 lanes could be up to 2 1/16" off' in found[1]


def test_lines_in_millimetres() -> None:
    # 250 mm: 1.6 + 1.0 + 0.8 mm, and 250 x 0.0064 x 0.004 = 0.006: 3.4, up to 4 mm
    found = lines(250 / 25.4, 1, replace(MEASURED, residual=0.064), Style("mm"))
    assert found[0].count("up to 4 mm off (printer 1.6 mm, paper dry to damp 1.0 mm, tape 0.8 mm)") == 1
    assert len(found) == 1


def test_a_printer_not_measured_is_named() -> None:
    found = lines(10, 9, Profile(), Style())
    assert "rodwright ruler" in found[-1]
    # 10 x ((1.01)(1.004) - 1) + 1/32 = 0.1717: up to 3/16
    assert '3/16"' in found[0]
