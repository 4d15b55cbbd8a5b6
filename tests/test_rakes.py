"""Nailers along the rake of a gable, by hand and on any building."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from jobs import BASE, TRADE, build, problems, slope, toml_text
from test_members import PLACED, walls
from test_walls import outline as board

from layouts.building import Building
from layouts.lengths import Style, show
from layouts.walls import Rake


def test_rake_pieces_of_the_trade() -> None:
    """35'-9" of columns: 214 1/2 to the ridge at 4/12, a 2x6. Slope 214.5·sqrt(10)/3 = 226.1029, and one plumb end
    more, 5 1/2·1/3 = 1.8333: 227.9362 = 18'-11 15/16", in one board of 20'."""
    rakes = walls({"girts.rake": "2x6"})["1"].rakes
    assert len(rakes) == 2
    for rake in rakes:
        assert show(rake.length, Style()) == "18'-11 15/16\""
        assert rake.short == pytest.approx(226.1029, abs=1e-4)  # both edges are as long
        assert rake.back == pytest.approx(5.5 / 3)
    assert [r.start[0] for r in rakes] == [0, 214.5]
    assert rakes[0].start[1] == 147.5 + 3.9375


def test_gable_girts_end_under_the_rake_nailer() -> None:
    """Its plumb depth, 5 1/2·sqrt(10)/3 = 5.7975, moves each end in by three times that, 17.3925: of 333 3/8 are left
    298.5900."""
    for name in "17":
        found = next(c for c in walls({"girts.rake": "2x6"})[name].courses if c.row.name == "Girt 7")
        assert found.pieces[-1].low[1] - found.pieces[0].low[0] == pytest.approx(298.59, abs=1e-3)


def test_no_gable_row_is_marked_that_the_rake_nailer_leaves_nothing_of() -> None:
    """The peak is at 222.9375; girt 9 stands up to 217.625, and a 2x6 along the rake leaves 217.1400."""
    with_it, without = (build({**TRADE, **more}).rows.end for more in ({"girts.rake": "2x6"}, {}))
    assert [r.name for r in without][-1] == "Girt 9"
    assert [r.name for r in with_it][-1] == "Girt 8"


def test_a_rake_too_long_for_the_stock_meets_on_a_column() -> None:
    wall = walls({"girts.rake": "2x4", "lumber.stock": ["8'", "12'"]})["1"]
    centres = {s.centre for s in wall.stands}
    assert all(a.end[0] in centres or a.end[0] == 214.5 for a in wall.rakes[:-1])
    assert len(wall.rakes) == 4


def outline(rake: Rake, slope: float) -> shapely.Polygon:
    """From its tips: the plumb depth is wide·sqrt(1 + m²)."""
    tall = rake.section.wide * math.hypot(1, slope)
    (a, y), (b, z) = rake.start, rake.end
    return shapely.Polygon([(a, y), (b, z), (b, z - tall), (a, y - tall)])


@given(PLACED)
def test_rakes_run_from_eave_to_ridge_under_the_chord(building: Building) -> None:
    made, m = building.job, slope(building.job)
    for wall in building.walls:
        if not wall.line.gable or made.girts.rake is None:
            assert wall.rakes == ()
            continue
        wide, half = made.girts.rake.wide, wall.line.length / 2
        centres = [s.centre for s in wall.stands[1:-1]]
        for rake in wall.rakes:
            run = rake.end[0] - rake.start[0]
            assert rake.length == pytest.approx(run * math.hypot(1, m) + wide * m)
            assert rake.length <= max(made.lumber.stock) + 1e-6
            # against its outline turned level: the length of the smallest box along the slope
            turned = shapely.affinity.rotate(
                outline(rake, m), -math.degrees(math.atan2(rake.end[1] - rake.start[1], run))
            )
            low, _, high, _ = turned.bounds
            assert high - low == pytest.approx(rake.length)
            for x, y in (rake.start, rake.end):
                u = x if wall.line.side == "front" else wall.line.length - x
                assert y == pytest.approx(building.roof.chord.over(u))
        runs = [r.end[0] - r.start[0] for r in wall.rakes]
        if made.girts.place == "between":
            ends = [x for r in wall.rakes for x in (r.start[0], r.end[0])]
            assert all(x <= s.left or x >= s.right for x in ends for s in wall.stands)
            continue
        left = sum(run for run, r in zip(runs, wall.rakes, strict=True) if r.end[0] <= half + 1e-6)
        within = made.column.depth * (made.girts.place == "inside")
        if made.girts.place == "inside":
            # what stands there: the sidewalls' own rows, or a corner board wider than the endwall's columns are deep
            deep = made.column.depth if made.column.endwall_face == "width" else made.column.width
            board = made.corners.board
            stands = board.thick if board and board.wide > deep + 1e-6 else 0.0
            within += max(stands, made.girts.board.thick if made.girts.runs_past == "side" else 0.0)
        assert left == pytest.approx(half - within)
        assert sum(runs) == pytest.approx(wall.line.length - 2 * within)
        assert all(a.end == pytest.approx(b.start) for a, b in pairwise(wall.rakes))
        for rake in wall.rakes[:-1]:
            assert any(abs(rake.end[0] - c) < 1e-6 for c in (*centres, half))


@given(PLACED)
def test_boards_of_a_gable_and_its_rakes_do_not_overlap(building: Building) -> None:
    for wall in building.walls:
        nailers = [outline(r, slope(building.job)) for r in wall.rakes]
        rows = wall.inner if building.job.girts.place == "inside" else wall.courses
        for found in rows:
            for piece in found.pieces:
                assert all(board(piece).intersection(n).area < 1e-6 for n in nailers)


def test_a_rake_nailer_that_no_board_gives_is_told_by_its_own_length() -> None:
    """The first column stands 108 - 1 1/2 = 106 1/2 from the corner, which boards of 9 ft span level; along the slope
    106.5·sqrt(10)/3 and 5 1/2·1/3 at its plumb end are 112.261 + 1.833 = 114.094."""
    made = {**BASE, **TRADE, "girts.rake": "2x6", "lumber.stock": ["9'"]}
    (told,) = problems(toml_text(made))
    assert told.place == "girts.rake"
    wrong = "takes 9'-6 1/8\" along the slope over 8'-10 1/2\" without a column, and the longest board is 9'-0\"."
    assert told.wrong == wrong
    assert problems(toml_text({**made, "lumber.stock": ["9'", "10'"]})) == []
