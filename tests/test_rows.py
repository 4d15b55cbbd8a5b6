"""Rows of boards: where girts stand between the grade board and the top, and up the gable."""

from __future__ import annotations

import subprocess
import sys
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from jobs import TRADE, build, buildings, job_text, refusal

from layouts.building import Building
from layouts.lengths import Style, show
from layouts.rows import Row, Rows


def rows(changes: dict[str, Any] | None = None, base: dict[str, Any] = TRADE) -> Rows:
    return build({**base, **(changes or {})}).rows


def bottoms(found: tuple[Row, ...], *keys: str) -> list[str]:
    return [show(r.low, Style()) for r in found if r.key in keys]


def test_equal_steps_of_the_trade() -> None:
    """Above floor 23 5/8, 47, 70 3/8, 93 3/4, 117 1/8, 140 1/2; each 3 1/2 more above the grade line."""
    found = rows()
    assert [r.low - 3.5 for r in found.side if r.key in ("girt", "top girt")] == [
        23.625,
        47,
        70.375,
        93.75,
        117.125,
        140.5,
    ]
    assert found.step == 23.375  # 140 1/4 in six steps
    assert found.notes == ()


def test_a_gable_goes_on_with_the_same_step() -> None:
    """Above floor 13'-7 7/8", 15'-7 1/4", 17'-6 5/8"."""
    found = rows()
    assert [show(r.low - 3.5, Style()) for r in found.end if r.key == "gable girt"] == [
        "13'-7 7/8\"",
        "15'-7 1/4\"",
        "17'-6 5/8\"",
    ]
    assert [r.name for r in found.end] == ["Grade board", *(f"Girt {i}" for i in range(1, 10))]
    assert [r.name for r in found.side] == ["Grade board", *(f"Girt {i}" for i in range(1, 6)), "Top girt"]


def test_a_hair_over_the_step_does_not_cost_a_row() -> None:
    """140 1/4 in steps of 28 is 5.009 of them: within the tolerance of 1/4 it is five; without it six."""
    assert rows({"girts.step": "28"}).step == pytest.approx(140.25 / 5)
    assert rows({"girts.step": "28", "girts.tolerance": 0}).step == pytest.approx(140.25 / 6)


def test_fixed_steps_leave_the_rest_last() -> None:
    found = rows({"girts.spacing": "fixed", "girts.step": "24"})
    # from 3 3/4: five steps of 24 to 123 3/4, the rest to 144 is 20 1/4
    assert [r.low for r in found.side] == [0, 27.75, 51.75, 75.75, 99.75, 123.75, 144]
    assert found.step == 24
    assert found.notes == ()


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("27", 'only 5 1/4"'),  # 140 1/4 - 5 x 27
        ("34 1/2", "is more than the step"),  # rest 36 3/4 over three: the fourth would lie in the top girt
    ],
)
def test_a_rest_that_wants_a_look_is_said(step: str, says: str) -> None:
    (note,) = rows({"girts.spacing": "fixed", "girts.step": step}).notes
    assert says in note


def test_girts_are_counted_from_the_wainscot_nailer_where_there_is_one() -> None:
    found = rows({"wainscot.nailer": "2x6", "wainscot.height": "3'"})
    # nailer bottom at 36 + 3 1/2 = 39 1/2; 144 - 39 1/2 = 104 1/2 in five steps of 20.9
    assert found.step == pytest.approx(20.9)
    assert [r.key for r in found.side[:3]] == ["grade board", "wainscot nailer", "girt"]
    assert (found.side[1].low, found.side[1].high) == (39.5, 45)
    assert found.side[2].low == pytest.approx(60.4)


def test_with_tops_marked_the_tops_are_in_step() -> None:
    found = rows({"wainscot.nailer": "2x6", "wainscot.height": "3'", "girts.edge": "top"})
    tops = [r.high for r in found.side[1:]]
    # nailer top 45, top girt top 147 1/2: 102 1/2 in five steps of 20 1/2
    assert tops == pytest.approx([45, 65.5, 86, 106.5, 127, 147.5])


def test_the_top_row_is_the_soffit_nailer_where_the_soffit_is_level() -> None:
    found = rows({"roof.soffit": "level", "roof.overhang": "12", "roof.soffit_nailer": "2x6"})
    top = found.side[-1]
    assert top.name == "Soffit nailer"
    # bearing 147 1/2 + heel 3 15/16 + 3.6893 - 4 - 5 1/2 = 145.6268
    assert top.high == pytest.approx(145.6268, abs=1e-4)
    assert top.high - top.low == 5.5
    assert found.end[len(found.side) - 1].key == "girt"  # a gable has no soffit nailer
    assert found.end[len(found.side) - 1].low == pytest.approx(top.low)


def test_the_top_row_may_be_given() -> None:
    top = rows({"girts.top": "11'"}).side[-1]
    assert (top.name, top.high) == ("Top girt", 132)


def test_several_grade_boards_lie_on_each_other() -> None:
    found = rows({"grade.boards": 2, "grade.board": "2x6"}).side
    assert [(r.name, r.low, r.high, r.treated) for r in found[:3]][:2] == [
        ("Grade board 1", 0, 5.5, True),
        ("Grade board 2", 5.5, 11, True),
    ]
    assert not any(r.treated for r in found[2:])


@pytest.mark.parametrize(
    ("changes", "place", "says"),
    [
        ({"wainscot.nailer": "2x6", "wainscot.height": "11'-6"}, "wainscot.height", "leaves no wall"),
        ({"wainscot.nailer": "2x6", "wainscot.height": "6"}, "wainscot.height", "lie in one another"),
        ({"girts.top": "14'"}, "girts.top", "above the eave line"),
    ],
)
def test_rows_that_cannot_be_built(changes: dict[str, Any], place: str, says: str) -> None:
    found = refusal({**TRADE, "truss.heights_from": "grade line", **changes})
    assert place in found
    assert says in found


_RUN = """
import sys
try:
    import resource
    resource.setrlimit(resource.RLIMIT_AS, (1 << 29, 1 << 29))
except ImportError:
    pass
from layouts.building import lay_out
from layouts.job import read
from layouts.problems import JobRefused
try:
    lay_out(read(sys.stdin.read()))
except JobRefused as refused:
    print(refused)
"""


@pytest.mark.parametrize(
    "changes",
    [
        {"wainscot.nailer": "2x6", "wainscot.height": "12'"},
        {"wainscot.nailer": "2x4", "wainscot.height": "140 1/2"},
        {"wainscot.nailer": "2x4", "wainscot.height": "4'", "girts.top": "3'"},
        {"truss.pitch": "12/12", "roof.overhang": "8'", "roof.soffit": "level", "truss.bearing": "7'"},
    ],
    ids=["nailer above", "nailer in the top girt", "top below the nailer", "soffit in the ground"],
)
def test_a_top_below_the_start_is_refused_and_does_not_run_for_ever(changes: dict[str, Any]) -> None:
    """In a process of its own: there a step of zero or less cannot take the whole test run with it."""
    text = job_text({"truss.bearing": "12'", **changes})
    ran = subprocess.run(
        [sys.executable, "-c", _RUN], input=text, capture_output=True, text=True, timeout=30, check=False
    )
    assert ran.returncode == 0, ran.stderr[-500:]
    assert "leaves no wall between them" in ran.stdout
    assert len(ran.stdout.splitlines()) < 6, "one mistake, not a line for every row of the gable"


@given(buildings())
def test_rows_lie_clear_of_each_other_and_below_the_roof(building: Building) -> None:
    found = building.rows
    for kind in (found.side, found.end):
        assert kind[0].low == 0
        assert all(a.high <= b.low + 1e-9 for a, b in pairwise(kind))
        assert all(r.high - r.low == pytest.approx(r.section.wide) for r in kind)
    peak = building.roof.chord.over(building.roof.ridge)
    assert found.end[-1].high < peak <= found.end[-1].high + max(found.step, found.end[-1].section.wide) + 1e-6
    assert found.side[-1].high <= building.roof.bearing + 1e-9


@given(buildings())
def test_no_space_is_over_the_step_and_the_tolerance(building: Building) -> None:
    girts = building.job.girts
    edges = [r.low if girts.edge == "bottom" else r.high for r in building.rows.side if r.key in ("girt", "top girt")]
    spaces = [b - a for a, b in pairwise(edges)]
    said = any("more than the step" in note for note in building.rows.notes)
    assert all(space <= girts.step + girts.tolerance + 1e-9 for space in spaces[:-1])
    assert said or not spaces or spaces[-1] <= girts.step + girts.tolerance + 1e-9
    if girts.spacing == "equal":
        assert not said
        assert spaces == pytest.approx([building.rows.step] * len(spaces))


@given(buildings())
def test_rows_run_straight_round_the_corners(building: Building) -> None:
    """All but the top row stand on the same stations on all walls, and that one meets by its marked edge."""
    side, end = building.rows.side, building.rows.end
    assert end[: len(side) - 1] == side[:-1]
    edge = "low" if building.job.girts.edge == "bottom" else "high"
    assert getattr(end[len(side) - 1], edge) == pytest.approx(getattr(side[-1], edge))
