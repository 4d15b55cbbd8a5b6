"""A rod on which the headers of two walls stand close: their words find room though no lane as long as the paper has it
leaves them any."""

from __future__ import annotations

from typing import Any

import opened
import pytest

from sheets import rod
from sheets.flags import TINY, on_lane
from sheets.labels import BIG
from sheets.paper import PAPERS

WINDOW: dict[str, Any] = {**opened.WINDOW, "width": "3'"}
# heads at 88, 94 and 84 to 87, sills and girts between them
LEFT = [{**WINDOW, "name": "W1", "height": "3'", "sill": "4'", "bay": 2}]
RIGHT = [{**WINDOW, "name": "W2", "wall": "G", "height": "2'-6", "sill": "5'", "bay": 1}]
JOB: dict[str, Any] = {
    "building__width": "40'",
    "building__length": "61'",
    "truss__bearing": "12'-9",
    "truss__heel": "12 5/8",
    "truss__pitch": "5/12",
    "roof__overhang": "14",
    "roof__fascia": "5 1/2",
    "roof__soffit": "level",
    "grade__floor": "3 1/2",
    "girts__step": "24",
    "wainscot__nailer": "2x6",
    "wainscot__height": "3'-2",
}


@pytest.mark.parametrize("paper", ["letter", "tabloid", "a4"])
@pytest.mark.parametrize("height", ["3'-10", "3'-11", "3'-11 1/2", "4'", "4'-4"])
def test_words_of_close_headers_are_read(height: str, paper: str) -> None:
    third = {**WINDOW, "name": "W3", "wall": "G", "height": height, "sill": "2'-8", "bay": 4}
    end = {**opened.DOOR, "name": "WE", "wall": "7", "height": "7'", "bay": 1}
    building = opened.opened(*LEFT, *RIGHT, third, end, **JOB)
    for laid in rod.lay_all(building, PAPERS[paper]):
        sizes = [v.scale * BIG for lane in laid.lanes for v in on_lane(laid.labels, lane, building.job.style)]
        assert min(sizes) >= TINY - 1e-9, laid.rod.name
        marks = [v.mark for lane in laid.lanes for v in on_lane(laid.labels, lane, building.job.style)]
        assert sorted(m.station for m in marks) == sorted(m.station for m in laid.rod.marks)
