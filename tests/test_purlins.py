"""Purlins, lookouts and trusses along the fascia: numbers of the framing square, of practice, and by hand."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import build, job_text, problems
from test_roof_shapes import LEAN

from layouts import purlins
from layouts.building import Building
from layouts.purlins import Slope
from sheets import packet, roof_sheet
from sheets.audit import differences
from sheets.paper import PAPERS


def made(changes: Mapping[str, Any]) -> Building:
    return build(dict(changes))


def slopes(changes: Mapping[str, Any]) -> tuple[Slope, ...]:
    one = made(changes)
    return purlins.slopes(one.job, one.roof)


# length of a common rafter per foot run, as on a framing square (to its hundredth)
SQUARE = {3: 12.37, 4: 12.65, 5: 13.00, 6: 13.42, 8: 14.42, 12: 16.97}


@pytest.mark.parametrize(("rise", "per_foot"), SQUARE.items())
def test_slopes_are_as_long_as_the_framing_square_says(rise: int, per_foot: float) -> None:
    """Half of 381 in is 190 1/2: 15.875 ft of run."""
    (one, other) = slopes({"truss.pitch": f"{rise}/12"})
    assert one.run == 190.5
    assert one.length == pytest.approx(15.875 * per_foot, abs=15.875 * 0.005)
    assert one.length == other.length


def test_the_numbers_of_practice() -> None:
    """240 in of run at 4/12 are 252.98; less 3 at the ridge, at 24: 11 spaces of 22.73 (practice, purlin rod). Here the
    run is 20 ft with no overhang, the first purlin at its end as there, purlins lie on edge, and 1 1/2 of the last one
    is kept off too."""
    changes = {
        "building.width": "40'",
        "building.line": "columns",
        "building.front_columns": ["13'", "20'", "27'"],
        "building.back_columns": ["20'"],
        "lumber.stock": ["12'", "20'", "24'"],
        "roof.purlin_ridge": "3",
        "roof.purlin_first": "0",
    }
    one = slopes(changes)[0]
    assert one.run == 240
    assert one.length == pytest.approx(252.98, abs=0.005)
    assert len(one.purlins) == 12
    assert [one.first, one.last] == pytest.approx([(252.982 - 3 - 1.5) / 11] * 2, abs=1e-3)
    assert one.length - one.purlins[-1] - one.thick == pytest.approx(3)


def test_the_rest_goes_to_the_ridge_where_the_step_is_fixed() -> None:
    """Length 190 1/2 · 1.05409 = 200.805; last downhill edge 200.805 - 4 - 1 1/2 = 195.305: eight of 24, rest 3.305."""
    one = slopes({"roof.purlin_spacing": "fixed", "roof.purlin_first": "0"})[0]
    assert [b - a for a, b in pairwise(one.purlins)] == pytest.approx([24] * 8 + [3.305], abs=1e-3)


@pytest.mark.parametrize(
    ("changes", "tail"),
    [
        ({}, 0.0),
        ({"roof.overhang": "18"}, 16.5),  # 18 less the fascia's 1 1/2
        ({"roof.overhang": "18", "truss.heel_at": "girt"}, 18.0),  # and the girt's 1 1/2
        # leaning: 5 1/2 of purlin at m / sqrt(1 + m²) = 0.31623 and 1 1/2 along the slope, at 0.94868
        ({"roof.overhang": "18", "roof.fascia_cut": "square"}, 18 - 5.5 * 0.316228 - 1.5 * 0.948683),
    ],
)
def test_where_the_tail_ends(changes: dict[str, Any], tail: float) -> None:
    one = slopes(changes)[0]
    assert one.tail == pytest.approx(tail, abs=1e-5)
    assert one.length == pytest.approx((190.5 + tail) * math.sqrt(10) / 3, abs=1e-4)


def test_a_square_fascia_stands_where_the_overhang_says() -> None:
    """Its outer face passes the roof plane at the overhang: from the tail's corner 1 1/2 down the slope to it, then up
    square to the slope by the purlin's 5 1/2."""
    one = slopes({"roof.overhang": "18", "roof.fascia_cut": "square"})[0]
    cos, sin = 3 / math.sqrt(10), 1 / math.sqrt(10)
    out = one.tail + 1.5 * cos + 5.5 * sin
    assert out == pytest.approx(18)


def test_one_slope_runs_from_tail_to_tail() -> None:
    """381 and two overhangs of 12 less 1 1/2, at 2/12; nothing is kept off at the high end."""
    (one,) = slopes({"roof.shape": "mono-slope", "truss.pitch": "2/12", "roof.overhang": "12"})
    assert one.run == 381 + 21
    assert one.length - one.purlins[-1] - one.thick == pytest.approx(0.0)


def test_a_lean_to_ends_at_the_standing_wall() -> None:
    (one,) = slopes({**LEAN, "truss.pitch": "2/12"})
    assert one.run == 382.5
    assert one.length - one.purlins[-1] - one.thick == pytest.approx(4)


def test_an_offset_ridge_has_two_rods_and_a_plain_gable_one() -> None:
    """From 12 ft the ridge is 142 1/2 from one side's columns and 238 1/2 from the other's."""
    one, other = slopes({"roof.ridge": "12'"})
    assert (one.run, other.run) == (142.5, 238.5)
    names = [r.of for r in made({"roof.ridge": "12'"}).rods if r.of]
    assert names == ["slope over wall A, from the tail up", "slope over wall G, from the tail up"]
    assert [r.of for r in made({}).rods if r.of] == ["both slopes, from the tail up"]


@pytest.mark.parametrize(
    ("changes", "end"),
    [
        ({}, "Ridge"),
        ({**LEAN, "truss.pitch": "2/12"}, "Standing wall"),
        ({"roof.shape": "mono-slope", "truss.pitch": "2/12", "roof.overhang": "12"}, "High end"),
    ],
)
def test_a_purlin_covers_what_it_is_thick_up_the_slope(changes: dict[str, Any], end: str) -> None:
    """A 2x6 on edge: from its downhill edge 1 1/2 on."""
    (rod,) = [r for r in made(changes).rods if r.of]
    *boards, last = rod.marks
    assert {(m.low - m.station, round(m.high - m.low, 6)) for m in boards} == {(0, 1.5)}
    assert (last.name, last.low, last.high) == (end, last.station, last.station)


def test_lookouts_have_a_rod_of_their_own_for_the_end_trusses() -> None:
    """200.805 along the slope in nine spaces, the last at the ridge; the first one's lower edge as much up the slope as
    that of the first purlin, 5 1/2 / 3 - 1 1/2 · 1.05409 = 0.252, and its middle 3/4 more."""
    found = {r.name: r for r in made({"roof.end_overhang": "12"}).rods}
    rod = found["Lookout rod"]
    assert rod.of == "end trusses, both slopes, from the tail up"
    assert [m.name for m in rod.marks] == [f"Lookout {i} middle" for i in range(1, 11)]
    assert [m.station for m in rod.marks] == pytest.approx(
        [1.002 + (200.805 - 1.002) * i / 9 for i in range(10)], abs=1e-3
    )
    assert "Lookout rod" not in [r.name for r in made({}).rods]


@pytest.mark.parametrize("each", [1, 2])
def test_the_fascia_has_a_rod_where_it_is_wanted(each: int) -> None:
    """A bay of 8 ft from the line to the second column's middle, less half a truss, with 12 past the endwall: 107 1/4;
    of two trusses the joint is in the middle."""
    changes = {
        "roof.overhang": "12",
        "roof.end_overhang": "12",
        "truss.each": each,
        "column.plies": 4,
        "column.width": "6",
    }
    assert "Fascia rod" not in [r.name for r in made(changes).rods]
    one = made({**changes, "roof.fascia_rod": "rod"})
    rod = next(r for r in one.rods if r.name == "Fascia rod")
    bay = 96 + 12 - each * 1.5 / 2
    second = rod.marks[each]
    assert (second.name, second.where) == (f"Truss {each + 1}", "front face")
    assert (second.station, second.high) == (bay, bay + 1.5)
    assert (rod.marks[-1].name, rod.marks[-1].station) == ("Back end", one.job.building.length + 24)


def test_without_an_overhang_nothing_is_said_of_a_fascia() -> None:
    """Columns 573 out to out, the second truss's front face half a truss short of the middle of a bay of 94 1/2."""
    one = made({"roof.fascia_rod": "rod"})
    long, places = purlins.along_eave(one.job, one.plan)
    assert (long, places[1]) == (573, 94.5 - 0.75)
    said = " ".join(t.words for b in roof_sheet.pages(one, PAPERS["letter"]) for t in boxes.written(b.drawing.shapes))
    assert "fascia" not in said.lower()
    assert "The columns are 47'-9\" out to out. Hook the tape on their FRONT end." in said
    assert "The Truss rod has them at full scale." in said
    rod = next(r for r in one.rods if r.name == "Truss rod")
    assert rod.of == "from the front end of the columns"
    assert [m.station for m in rod.marks] == [*places, 573]


@pytest.mark.parametrize(
    ("changes", "has"),
    [
        ({"roof.overhang": "12"}, True),
        ({"roof.far_overhang": "12"}, True),
        ({"roof.end_overhang": "12"}, False),
        ({**LEAN, "truss.pitch": "2/12"}, False),
        ({"roof.overhang": "12", "roof.far_overhang": "0"}, True),
    ],
)
def test_a_fascia_hangs_on_an_overhang(changes: dict[str, Any], has: bool) -> None:
    one = made(changes)
    assert purlins.has_fascia(one.job) == has
    said = " ".join(t.words for b in roof_sheet.pages(one, PAPERS["letter"]) for t in boxes.written(b.drawing.shapes))
    assert ("The fascia is" in said) == has


def test_marks_of_a_dropped_truss_slide_uphill() -> None:
    """Dropped by 2x6 purlins' 5 1/2 · 1.0541 = 5.797 at 4/12, they slide by depth times pitch: 1 13/16 (practice)."""
    drop = 5.5 * math.sqrt(10) / 3
    one = slopes({"truss.endwall_drop": f"{drop:.4f}"})[0]
    assert one.slide == pytest.approx(5.5 / 3, abs=1e-4)


def test_lookouts_stand_no_further_apart_than_they_may() -> None:
    """From 1.002 to 200.805 along the slope, 24 at the most: nine spaces."""
    one = slopes({"roof.end_overhang": "12"})[0]
    steps = [b - a for a, b in pairwise(one.lookouts)]
    assert steps == pytest.approx([199.803 / 9] * 9, abs=1e-3)
    assert slopes({})[0].lookouts == ()


@pytest.mark.parametrize(
    ("changes", "places"),
    [
        # columns 4 1/2 wide, centres 96 apart, the first and last flush with the ends: 573 out to out
        ({}, [1.5, *(94.5 + 96 * i - 0.75 for i in range(5)), 573 - 3]),
        ({"tops.seat": "shoulder"}, [0.0, *(94.5 + 96 * i - 2.25 for i in range(5)), 573 - 4.5]),
        ({"tops.seat": "shoulder", "tops.shoulder": "back"}, [3.0, *(94.5 + 96 * i + 0.75 for i in range(5)), 571.5]),
        (
            {"column.plies": "4", "column.width": "6", "truss.each": "2"},
            [1.5, 3.0, *(94.5 + 96 * i + d for i in range(5) for d in (-1.5, 0.0)), 573 - 4.5, 573 - 3],
        ),
    ],
)
def test_front_faces_of_the_trusses(changes: dict[str, Any], places: list[float]) -> None:
    one = made(changes)
    assert purlins.trusses(one.job, one.plan) == pytest.approx(places)


@given(
    st.integers(1, 18),
    st.just(0) | st.integers(3, 30),
    st.sampled_from(["edge", "flat", "flush"]),
    st.sampled_from(["equal", "fixed"]),
    st.integers(12, 48),
)
def test_purlins_never_lie_in_one_another_and_never_too_far_apart(
    rise: int, over: int, lie: str, spacing: str, step: int
) -> None:
    changes = {
        "truss.pitch": f"{rise}/12",
        "roof.overhang": over,
        "roof.purlins": lie,
        "roof.purlin_spacing": spacing,
        "roof.purlin_step": step,
    }
    for one in slopes(changes):
        steps = [b - a for a, b in pairwise(one.purlins)]
        assert max(steps) <= step + 1e-6
        # what is deep square to the slope leans deep·m out, measured along it; without a fascia 1 1/2 of girt are free
        deep, m = {"edge": 5.5, "flat": 1.5, "flush": 0.0}[lie], rise / 12
        free = 0.0 if over else 1.5 * math.hypot(1, m)
        assert one.purlins[0] == pytest.approx(max(deep * m - free, 0.0))
        assert one.length - one.purlins[-1] - one.thick == pytest.approx(4)
        if spacing == "equal":
            assert max(steps) - min(steps) < 1e-6


@pytest.mark.parametrize(
    "changes",
    [{}, {"roof.ridge": "12'", "roof.end_overhang": "12"}, {**LEAN, "truss.pitch": "2/12", "roof.overhang": "12"}],
)
def test_roof_rods_and_sheet_are_read_back(changes: dict[str, Any], tmp_path: Path) -> None:
    one = made(changes)
    for kind in ("rods", "roof"):
        printed = packet.build(one, PAPERS["letter"], kind)
        packet.save(printed, tmp_path / kind)
        assert differences(printed, one, tmp_path / kind) == []
    # 195.3 in over 23 are nine spaces as over 24: a step that makes a tenth
    other = made({**changes, "roof.purlin_step": "20"})
    assert differences(printed, other, tmp_path / "roof")


def test_a_step_that_may_have_purlins_lie_in_one_another_is_refused() -> None:
    """Flat 2x6 cover 5 1/2, and a space may be half a step: 11."""
    (wrong,) = problems(job_text({"roof.purlins": "flat", "roof.purlin_step": "10 7/8"}))
    assert (wrong.place, wrong.right) == ("roof.purlin_step", 'At least 11".')
    assert not problems(job_text({"roof.purlins": "flat", "roof.purlin_step": "11"}))


@given(
    st.integers(1, 18),
    st.integers(48, 300),
    st.sampled_from(["2x4", "2x6", "2x8"]),
    st.sampled_from(["equal", "fixed"]),
)
def test_flat_purlins_never_lap(rise: int, eighths: int, size: str, spacing: str) -> None:
    wide = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25}[size]
    step = max(eighths / 8, 2 * wide)
    flat = {"roof.purlins": "flat", "roof.purlin": size, "roof.purlin_spacing": spacing, "roof.purlin_step": step}
    for one in slopes({**flat, "truss.pitch": f"{rise}/12"}):
        gaps = [b - a for a, b in pairwise(one.purlins)]
        assert min(gaps) >= wide - 1e-6
        assert max(gaps) <= step + 1e-6
