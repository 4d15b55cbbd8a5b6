"""What only several fields of a job together can tell."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import job, job_text, problems

NO_ENDS: dict[str, Any] = {"building.front_columns": [], "building.back_columns": []}


@pytest.mark.parametrize(
    ("changes", "place", "says"),
    [
        ({"building.bays": ["24'", "23'-11"]}, "building.bays", "add up to 47'-11\". They must add up to"),
        ({"building.bays": 1}, "building.bays", "makes bays of 48'-0\". From 2'-0\" to 30'-0\"."),
        ({"building.bays": 25}, "building.bays", 'makes bays of 23 1/16"'),  # 576 / 25 = 23.04
        ({"lumber.stock": []}, "lumber.stock", "is empty"),
        ({"column.stock": []}, "column.stock", "is empty"),
        # 4 x 9 1/4 and two girts of 3 1/2 and a foot make 56, over 48
        ({"truss.bearing": "4'", "grade.board": "2x10", "grade.boards": 4}, "truss.bearing", "is too low"),
        ({"girts.edge": "top", "grade.boards": 2}, "grade.boards", "where tops are marked"),
        ({"roof.soffit": "level"}, "roof.soffit", "needs an overhang"),
    ],
)
def test_fields_that_do_not_go_together(changes: dict[str, Any], place: str, says: str) -> None:
    found = problems(job_text(changes))
    assert [p.place for p in found] == [place]
    assert says in str(found[0])


def test_bays_may_be_off_by_rounding_only() -> None:
    assert job({"building.bays": ["24'", "23'-11 31/32"], "lumber.stock": ["24'"]}).building.bays == (288, 287.96875)
    assert problems(job_text({"building.bays": ["24'", "23'-11 15/16"]}))


def test_the_largest_column_goes_into_the_narrowest_building() -> None:
    """16 + 12 is under half of 8 ft."""
    smallest = {"building.width": "8'", "column.depth": "16", "column.width": "12"} | NO_ENDS
    assert problems(job_text(smallest)) == []


def test_several_of_them_come_in_one_run() -> None:
    text = job_text({"building.bays": 1, "roof.soffit": "level", "lumber.stock": []})
    assert {p.place for p in problems(text)} == {"building.bays", "roof.soffit", "lumber.stock"}


def test_heights_are_from_the_grade_line_unless_the_job_says_floor() -> None:
    assert job({"grade.floor": "4"}).bearing == 144
    from_floor = job({"grade.floor": "4", "truss.heights_from": "floor"})
    assert from_floor.floor_shift == 4
    assert from_floor.bearing == 148  # 144 + 4
