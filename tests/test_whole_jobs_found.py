"""What whole jobs found, each as the smallest job that showed it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jobs import BASE, every, job
from whole_tried import left_in_english

from layouts.building import Building, lay_out
from layouts.problems import JobRefused
from sheets import packet
from sheets.audit import differences
from sheets.paper import PAPERS


def read(changes: dict[str, Any]) -> Building:
    """A building whose columns are all read."""
    made = job(changes, base=BASE)
    return lay_out(made, every(made))


def found(building: Building, only: str, folder: Path, paper: str = "letter") -> list[str]:
    """What the audit finds in its sheets of a kind."""
    printed = packet.build(building, PAPERS[paper], only)
    packet.save(printed, folder / "packet")
    return [str(difference) for difference in differences(printed, building, folder / "packet")]


@pytest.mark.parametrize("only", ["tags", "grade"])
def test_a_kind_without_sheets_is_refused(only: str) -> None:
    """No reading, no tag: there is nothing to print."""
    with pytest.raises(JobRefused, match=f"--only = {only}: has no sheet: no column is read yet"):
        packet.build(lay_out(job()), PAPERS["letter"], only)


@pytest.mark.parametrize("bearing", ["11'-3 7/16", "12'-3 5/16"])
def test_a_fraction_of_a_name_is_clear_of_the_stations(bearing: str, tmp_path: Path) -> None:
    """Of `CUT BEARING shoulder, front side, 1 1/2" deep` the fraction stands under that of the station."""
    changes = {"tops.seat": "shoulder", "truss.bearing": bearing}
    assert found(read(changes), "rods", tmp_path) == []


def test_a_board_of_a_real_size_is_no_length(tmp_path: Path) -> None:
    """`3 pc  1 5/8" x 3 5/8"  19'-6"`: the length comes last."""
    assert found(read({"girts.board": "1 5/8 x 3 5/8"}), "walls", tmp_path) == []


def test_a_bearing_worked_back_from_the_far_eave_is_told_in_spanish() -> None:
    """The other wall is named: its bearing alone is worked back."""
    changes = {"job.language": "spanish", "truss.far_eave": "14'", "tops.seat": "flat"}
    made = packet.build(read(changes), PAPERS["letter"], "grade")
    assert left_in_english(packet.build(read(changes), PAPERS["letter"])) == left_in_english(made) == {}


@pytest.mark.parametrize("paper", ["letter", "a4", "arch-b"])
@pytest.mark.parametrize("language", ["english", "spanish", "english and spanish"])
def test_a_page_that_says_nothing_of_sheets_is_read_back(language: str, paper: str, tmp_path: Path) -> None:
    """In Spanish its sentences take two lines on some paper."""
    assert found(read({"job.language": language}), "cladding", tmp_path, paper) == []
