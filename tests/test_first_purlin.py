"""The first purlin and the lookouts stand in nothing, by plain trigonometry; rod, sheet and warnings say so."""

from __future__ import annotations

import math
import re
from typing import Any

import boxes
import pytest
from jobs import build
from test_roof_shapes import LEAN

from layouts import purlins
from layouts.building import Building
from sheets import rod, roof_sheet
from sheets.paper import PAPERS

# 5 1/2 of purlin at 4/12 lean 5 1/2/3 = 1.8333 out along the slope, 1.7393 level; the girts take 1 1/2 · 1.0541 of it
EDGE = {"roof.overhang": "12"}


@pytest.mark.parametrize(
    ("changes", "first"),
    [
        (EDGE, 5.5 / 3),
        ({**EDGE, "truss.heel_at": "girt"}, 5.5 / 3),
        ({**EDGE, "roof.sheathing": "7/16"}, 5.5 / 3),  # it lies on the fascia too
        ({**EDGE, "roof.purlins": "flat"}, 0.5),
        ({**EDGE, "roof.purlins": "flush"}, 0.0),
        ({**EDGE, "roof.fascia_cut": "square"}, 0.0),
        ({**EDGE, "roof.purlin_first": "3"}, 3.0),
        ({**EDGE, "roof.purlin_first": "0"}, 0.0),  # as it is said, and warned of
        ({}, 5.5 / 3 - 1.5811),
        ({"truss.heel_at": "girt"}, 5.5 / 3),  # there the chord ends at the girts
        ({"girts.place": "between"}, 5.5 / 3),
        ({"roof.purlin": "2x4"}, 0.0),  # 3 1/2 lean 1.107 level, and 1 1/2 are free
    ],
)
def test_the_first_purlin_clears_what_is_in_its_way(changes: dict[str, Any], first: float) -> None:
    one = build(dict(changes))
    assert [s.purlins[0] for s in purlins.slopes(one.job, one.roof)] == pytest.approx([first] * 2, abs=1e-4)


@pytest.mark.parametrize(("pitch", "over"), [("4/12", "12"), ("3.5/12", "23"), ("12/12", "20"), ("18/12", "9 1/2")])
def test_no_corner_of_a_purlin_stands_in_a_plumb_fascia(pitch: str, over: str) -> None:
    """By plain vectors: from the tail's corner up the slope to the purlin's foot, and square to it up to its top."""
    one = build({"truss.pitch": pitch, "roof.overhang": over})
    slope = purlins.slopes(one.job, one.roof)[0]
    turn = math.atan(slope.slope)
    back = slope.tail
    foot, top = slope.purlins[0] * math.cos(turn), 5.5 * math.sin(turn)
    assert -back + foot - top == pytest.approx(-back)
    # and its outer top corner lies where the fascia's top, which stands at the roof plane, meets its back
    rise = slope.purlins[0] * math.sin(turn) + 5.5 * math.cos(turn)
    assert rise == pytest.approx(one.roof.top.over(-back) - one.roof.chord.over(-back))


def test_both_eaves_have_their_own_first_purlin() -> None:
    """6/12 and 3 1/2/12: 5 1/2 · 0.5 = 2.75 and 5 1/2 · 0.29167 = 1.6042."""
    one = build({"truss.pitch": "6/12", "truss.far_pitch": "3.5/12", "roof.overhang": "14", "roof.far_overhang": "23"})
    assert [s.purlins[0] for s in purlins.slopes(one.job, one.roof)] == pytest.approx([2.75, 1.6042], abs=1e-4)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        # level (1.8333 − 0)/1.0541 = 1.7393 too far out, rounded up; 1 13/16 is what the sheet prints
        ({**EDGE, "roof.purlin_first": "0"}, 'leans out at its top, 1 3/4" past the back of the fascia. Give'),
        ({**EDGE, "roof.purlin_first": "1"}, 'leans out at its top, 13/16" past the back of the fascia. Give'),
        ({**EDGE, "roof.purlin_first": "1 13/16"}, ""),
        # 1 3/4 on edge may be too near, flat it is not
        ({**EDGE, "roof.purlin_first": "1 3/4"}, 'leans out at its top, 1/8" past the back of the fascia. Give'),
        ({**EDGE, "roof.purlin_first": "1 3/4", "roof.purlins": "flat"}, ""),
        ({**EDGE, "roof.purlin_first": "0", "roof.fascia_cut": "square"}, ""),
        ({"roof.purlin_first": "0"}, 'leans out at its top, 1/4" past the outside of the girts. Give'),
        ({"roof.purlin_first": "0", "girts.place": "between"}, "past the outside of the columns. Give"),
        (EDGE, ""),
    ],
)
def test_a_first_purlin_that_is_too_low_is_told(changes: dict[str, Any], said: str) -> None:
    told = [w for w in build(changes).warnings if "leans out" in w]
    assert len(told) == bool(said)
    assert all(w.startswith("Walls A and G: purlin 1 ") and said in w for w in told)


def test_the_warning_says_what_would_do() -> None:
    """1.8333, rounded up; and that much is not warned of."""
    (told,) = (w for w in build({**EDGE, "roof.purlin_first": "0"}).warnings if "leans out" in w)
    assert told.endswith('Give 1 7/8" or more as roof.purlin_first, or leave it out.')
    assert not [w for w in build({**EDGE, "roof.purlin_first": "1 7/8"}).warnings if "leans out" in w]


LOW = {**LEAN, "truss.pitch": "2/12", "roof.end_overhang": "12", **EDGE}


@pytest.mark.parametrize(
    ("changes", "first", "short"),
    [
        # the middle 3/4 from the lower edge, which clears the fascia as a purlin does; the last one over the ridge
        ({**EDGE, "roof.end_overhang": "12"}, 5.5 / 3 + 0.75, 0.0),
        ({**EDGE, "roof.end_overhang": "12", "roof.purlins": "flat"}, 0.5 + 2.75, 0.0),
        # dropped by 3 1/2 plumb, 3.3204 square: 2.1796 over the chord, a third of it
        ({**EDGE, "roof.end_overhang": "12", "truss.endwall_drop": "3 1/2"}, 2.1796 / 3 + 0.75, 0.0),
        # dropped by a purlin's plumb depth they end at the chord, and clear the fascia at its corner
        ({**EDGE, "roof.end_overhang": "12", "truss.endwall_drop": "5.7975"}, 0.75, 0.0),
        ({**EDGE, "roof.end_overhang": "12", "roof.fascia_cut": "square"}, 0.75, 0.0),
        # 2/12: 5 1/2/6; the upper edge of the last one at the standing wall, or at the high fascia
        (LOW, 5.5 / 6 + 0.75, 0.75),
        ({**LOW, "roof.shape": "mono-slope"}, 5.5 / 6 + 0.75, 0.75),
        # dropped by 3 1/2 plumb, 3.4524 square, its foot stands 3.4524/6 further on: 2.0476 over the chord
        ({**LOW, "truss.endwall_drop": "3 1/2"}, 2.0476 / 6 + 0.75, 0.75 + 3.4524 / 6),
        ({**LOW, "roof.shape": "mono-slope", "roof.fascia_cut": "square", "truss.endwall_drop": "3 1/2"}, 0.75, 0.75),
    ],
)
def test_lookouts_stand_clear_of_fascia_and_wall(changes: dict[str, Any], first: float, short: float) -> None:
    one = build(changes)
    for slope in purlins.slopes(one.job, one.roof):
        assert slope.lookouts[0] == pytest.approx(first, abs=1e-4)
        assert slope.length - slope.lookouts[-1] == pytest.approx(short, abs=1e-4)


@pytest.mark.parametrize("shape", ["gable", "mono-slope"])
def test_rod_and_sheet_say_why_the_first_purlin_stands_there(shape: str) -> None:
    one = build({**EDGE, "roof.shape": shape})
    rods, sheet = said_of(one, "rods"), said_of(one, "roof")
    assert "purlin 1 clears the back of the fascia at its top" in rods
    (row,) = re.findall(r"first purlin's downhill edge: (.*?) \| (.*?) \|", sheet)
    assert row == ("its top clears the back of the fascia", '1 13/16"')
    given = build({**EDGE, "roof.shape": shape, "roof.purlin_first": "3"})
    assert "clears" not in said_of(given, "rods") + said_of(given, "roof")


def said_of(one: Building, kind: str) -> str:
    """All that stands on a kind of sheets."""
    pages = (rod if kind == "rods" else roof_sheet).pages(one, PAPERS["letter"])
    return " | ".join(t.words for page in pages for t in boxes.written(page.drawing.shapes))
