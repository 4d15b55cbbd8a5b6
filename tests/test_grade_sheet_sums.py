"""The sum from a seat to the eave line: of which column, of which wall, each step and the whole."""

from __future__ import annotations

from typing import Any

import pytest
from graded import words
from jobs import BASE, TRADE, build

from layouts.lengths import show
from sheets.grade_sheet import stacked


def after(found: list[str], head: str, count: int) -> list[str]:
    at = found.index(head) + 1
    return found[at : at + count]


def test_the_sum_from_a_seat_to_the_eave() -> None:
    # common practice, no source: 144 + heel 3 15/16 + 3 1/2 up to the floor + purlin 3 1/2·sqrt(1 + 1/9) = 3.6893 less
    # 1 1/2·4/12 = 1/2: the eave line 154.6268 over the grade line; A1 stands 2 1/8 below that: 156.7518, 13'-0 3/4
    building = build({"grade.line": "43"}, {"A1": "45 1/8", "A2": "45"}, base=TRADE | {"job.name": "x", **_plan()})
    found = after(words(building), "FROM THE SEAT OF A1 TO THE EAVE LINE", 17)
    eave = building.roof.eave
    assert eave == pytest.approx(154.6268, abs=1e-4)
    assert found[1:3] == ["seat of A1 up to the grade line (its offset)", '2 1/8"']
    at = found.index("SUM, from the seat of A1 to the eave line")
    assert found[at : at + 4] == [
        "SUM, from the seat of A1 to the eave line",
        "13'-0 3/4\"",
        "the eave line above the grade line",
        "12'-10 5/8\"",
    ]
    assert show(2.125 + eave, building.job.style) == found[at + 1]
    assert found[3:5] == ["finished floor above grade line", '3 1/2"']


def _plan() -> dict[str, Any]:
    return {"building.length": "48'", "building.bays": 6}


def test_the_sum_of_a_seat_above_the_line() -> None:
    building = build({"grade.line": "46"}, {"A1": "45 1/8"})
    found = after(words(building), "FROM THE SEAT OF A1 TO THE EAVE LINE", 20)
    assert found[1:3] == ["less the seat of A1 down to the grade line", '– 7/8"']
    at = found.index("SUM, from the seat of A1 to the eave line")
    assert found[at + 1] == show(building.roof.eave - 0.875, building.job.style)


def test_the_sum_where_the_eave_line_is_what_is_given() -> None:
    """Not that of the bearing, which is worked back from it: 12'-6 and the offset 2 1/8 are 12'-8 1/8."""
    given = {"grade.line": "43", "truss.eave": "12'-6"}
    base = {key: value for key, value in BASE.items() if key != "truss.bearing"}
    found = words(build(given, {"A1": "45 1/8", "A2": "45"}, base=base))
    at = found.index("SUM, from the seat of A1 to the eave line")
    assert found[at + 1 : at + 4] == ["12'-8 1/8\"", "the eave line above the grade line", "12'-6\""]
    assert "Eave line (purlin tops at the outside of the girts). Added exactly, rounded once." in found


@pytest.mark.parametrize(("name", "wall", "total"), [("A2", "wall A", "12'-11 5/16"), ("G2", "wall G", "10'-9 7/8")])
def test_the_sum_is_of_the_wall_that_the_column_stands_in(name: str, wall: str, total: str) -> None:
    # wall A: 144 + heel 9 1/4 + purlin 5 1/2·sqrt(1 + 1/9) = 5.7975 - 1 1/2·4/12 = 1/2, in all 158.5475, less the seat
    # 3 1/4 up: 155.2975. The wall opposite, 12/12 there: 10' + heel 6 + 5 1/2·sqrt(2) = 7.7782 - 1 1/2 = 132.2782;
    # less 2 3/8: 129.9032
    given = {"grade.line": "44", "grade.reference": name, "truss.far_bearing": "10'", "truss.far_heel": "6"}
    building = build(given | {"truss.far_pitch": "12/12"}, {"A2": "40 3/4", "G2": "41 5/8"})
    found = words(building)
    at = found.index(f"SUM, from the seat of {name} to the eave line")
    assert found[at + 1].startswith(total)
    assert f"Eave line (purlin tops at the outside of the girts), {wall}. Added exactly, rounded once." in found


def test_the_sum_is_of_the_reference_or_of_the_highest_seat_under_the_eaves() -> None:
    given = {"A1": "45", "A2": "44 3/4", "C1": "44"}
    assert stacked(build({"grade.reference": "A1"}, given)) == "A1"
    # an endwall column stands under no eave
    assert stacked(build({"grade.reference": "C1"}, given)) == "A2"
    assert stacked(build({"grade.reference": "C1"}, {"C1": "44"})) == "C1"
