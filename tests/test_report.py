"""Numbers for programs: one unit a job, and one number for what is one length."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import BASE, METRIC, build

from sheets.report import as_json


@pytest.mark.parametrize(
    ("base", "cover", "step"),
    [
        (METRIC, 900, 1.0),  # millimetres, each length a whole one
        (BASE, 36, 1 / 8),  # inches, to an eighth
    ],
)
def test_sheets_to_order_are_as_long_as_those_of_the_walls(base: dict[str, Any], cover: float, step: float) -> None:
    """On the way through inches 5456 mm came out as 214.803150 in, and that as 5456.00001 mm."""
    told = as_json(build({"cladding.cover": cover}, base=base))["cladding"]
    ordered = {line["length"]["value"] for line in told["order"]}
    assert ordered == {one["order"]["value"] for face in told["faces"] for one in face["sheets"]}
    assert all((long / step).is_integer() for long in ordered)


@pytest.mark.parametrize(
    ("base", "nail", "diameter"),
    [
        (METRIC, "2 of 100 x 4.5 ring HDG", {"value": 4.5, "text": "4.5 mm"}),
        (BASE, "2 of 4 x .177 ring HDG", {"value": 0.177, "text": '0.177"'}),
        (BASE, "2 of 4 x 3/16 ring HDG", {"value": 0.1875, "text": '3/16"'}),
    ],
)
def test_a_nail_is_as_thick_as_it_was_given_in_the_jobs_unit(
    base: dict[str, Any], nail: str, diameter: dict[str, Any]
) -> None:
    """A nail of 4.5 mm was 0.177 beside its 100 mm of length."""
    (found,) = as_json(build({"nails.girt": nail}, base=base))["nails"]
    assert found["diameter"] == diameter
