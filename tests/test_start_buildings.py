"""Five buildings typed from a plain description, nothing edited by hand: each is laid out with readings."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import jobs
import pytest
from starters import Asked, by_prompt

from layouts import seats
from layouts.building import Building, lay_out
from sheets import packet, report
from sheets.audit import differences
from sheets.paper import PAPERS

# What a crew lead says of each is in the answers: prompts that are not named get Enter.
LEAN_TO: dict[str, Any] = {
    # a lean-to of 14 ft against the long barn, 40 ft along it, five bays; the barn's wall takes the sheets at 12'-9
    "Name": "Ott calf shed",
    "Roof": "lean",
    "Width:": "14'",
    "Length": "40'",
    "Bays": "5",
    "Front endwall": "7'",
    "Height at the standing wall": "12'-9",
    "Pitch": "2/12",
    "Heel:": "6",
    "Overhang at the eaves": "12",
}
MONO: dict[str, Any] = {
    # metric: 7.2 m by 10.8 m, one slope of 7 degrees, three plies of 45 mm
    "Name": "Rossi bike store",
    "Units": "mm",
    "Roof": "mono",
    "Width:": "7200",
    "Length": "10.8 m",
    "Bays": "3600, 3600, 3600",
    "Front endwall": "2400, 4800",
    "Width across": "135",
    "Pitch": "7 deg",
    "Bearing:": "2700",
    "Heel:": "200",
    "Right": ["", "no"],  # purlins as they stand; girts one by one
    "Girts are": "between",
    "No further apart": "550",
}
CARRIERS: dict[str, Any] = {
    # 48 ft by 72 ft, solid 6x6 columns 12 ft apart, trusses every 4 ft on doubled 2x12 let in on both faces
    "Name": "Fenn feed store",
    "Width:": "48'",
    "Width [": "5 1/2",
    "Length": "72'",
    "Bays": "6",
    "Front endwall": "12', 24', 36'",
    "Columns:": "solid",
    "Depth": "5 1/2",
    "Pitch": "3/12",
    "Bearing:": "14'",
    "Heel:": "10 1/2",
    "Seat": "flat",
    "Carriers [none]": "2x12",
    "Let into": "0",
    "Trusses no further": "4'",
}
DOORS: dict[str, Any] = {
    # a workshop with a wainscot, an overhead door in front, a walk door and two windows
    "Name": "Abara workshop",
    "Place": "Canal Street",
    "Width:": ["28'", "9'", "3'", "4'", "36"],
    "Length": "36'",
    "Bays": "9', 9', 9', 9'",
    "Front endwall": "9', 19'",
    "Back endwall": "9' 4, 18' 8",
    "Heights are from the": "floor",
    "Pitch": "6/12",
    "Bearing:": "eave 11'",
    "Heel:": "11 1/2",
    "Overhang at the eaves": "18",
    "Soffit": "level",
    "Right": ["", "no"],
    "Wainscot nailer [": "2x6",
    "Name of one": ["OH", "WD", "N1", "N2", ""],
    "Wall:": ["front", "right", "A", "a"],
    "Kind": ["", "walk", "window", "win"],
    "Height:": ["8'", "6' 8", "3'", "30"],
    "Sill": ["4'", "4'"],
    "Place:": ["14'", "left 3'", "bay 2", "bay 3"],
}
SALT_BOX: dict[str, Any] = {
    # the ridge stands off the middle, four-ply columns, a sliding door that goes to the left
    "Name": "Grisham sugar house",
    "Width:": ["26'", "8'"],
    "Width across": "6",
    "Length": "32'",
    "Bays": "4",
    "Front endwall": "8', 17'",
    "Plies": "4",
    "Depth": "7 1/4",
    "Pitch": "8/12",
    "Ridge": "10'",
    "Bearing:": "9'",
    "Bearing at": "10'",
    "Heel:": "9 1/4",
    "Overhang at the endwalls": "12",
    "Name of one": ["SD", ""],
    "Wall:": "back",
    "Kind": "sliding",
    "Height:": "7'",
    "Slides": "left",
    "Place:": "13' 6",
}
DESCRIBED: dict[str, Mapping[str, Any]] = {
    "lean-to": LEAN_TO,
    "mono-slope": MONO,
    "carriers": CARRIERS,
    "doors": DOORS,
    "salt box": SALT_BOX,
}
NAMES = list(DESCRIBED)


@cache
def told(name: str) -> Asked:
    """The session."""
    return by_prompt(DESCRIBED[name])


@cache
def building(name: str) -> Building:
    """The layout of what was written, with a reading for every column: steps of 1/8 in or 2 mm."""
    job = told(name).job
    metric = job.style.unit == "mm"
    names = enumerate(jobs.every(job).values)
    rows = {c: 1100 + 2 * (i % 5) if metric else f"44 {1 + 2 * (i % 5)}/16" for i, c in names}
    return lay_out(job, jobs.readings(rows, job))


@pytest.mark.parametrize("name", NAMES)
def test_it_is_laid_out_with_a_tag_for_every_column(name: str) -> None:
    made = building(name)
    assert len(made.columns) == len(made.plan.spots) == len(made.readings.values)
    assert all(c.cuts for c in made.columns)
    assert report.as_text(made).startswith(made.job.job.name)  # what `check` shows


def test_the_lean_tos_bearing_follows_from_the_wall() -> None:
    """153 at the wall; across 14' less a girt, 166.5, at 1/6: 27.75; purlin plumb 5.5 * sqrt(1 + 1/36) = 5.5759; heel
    6: 153 - 27.75 - 5.5759 - 6 = 113.6741."""
    assert building("lean-to").roof.bearing == pytest.approx(113.6741, abs=1e-4)


def test_the_mono_slope_rises_at_7_degrees() -> None:
    """Girts between: the building line is the columns' own, 7200 out to out; the roof rises 7200 * tan 7 = 884.049."""
    over = building("mono-slope").roof
    assert (over.top.over(7200 / 25.4) - over.top.over(0)) * 25.4 == pytest.approx(884.049, abs=0.001)
    assert over.left.bearing * 25.4 == pytest.approx(2700)


def test_the_carriers_hang_under_the_bearing() -> None:
    """A 2x12 is 11 1/4 wide (PS 20): its underside is at 14' less that."""
    made = building("carriers")
    assert seats.carrier_low(made.job, made.roof.bearing) == 168 - 11.25
    assert made.job.column.make == "solid"


def test_the_workshops_bearing_is_worked_back_from_its_eave() -> None:
    """Eave 11' above a floor 3 1/2 up: 135.5; purlin plumb 5.5 * sqrt(1.25) = 6.1492; heel 11.5 at the column, the
    eave 1.5 further out at 6/12: 135.5 - 6.1492 - 11.5 + 0.75 = 118.6008. Openings from the left end seen outside."""
    made = building("doors")
    assert made.roof.bearing == pytest.approx(118.6008, abs=1e-4)
    assert [(o.name, o.wall, o.kind) for o in made.job.openings] == [
        ("OH", "1", "overhead"),
        ("WD", "F", "walk"),
        ("N1", "A", "window"),
        ("N2", "A", "window"),
    ]


def test_the_salt_boxs_far_pitch_follows_from_its_ridge() -> None:
    """Ridge 120 - 1.5 in from the columns; peak 108 + 9.25 + 118.5 * 8/12 = 196.25; over the far wall 120 + 9.25 =
    129.25, which is 309 - 118.5 = 190.5 away: 67 / 190.5."""
    assert -building("salt box").roof.right.inward == pytest.approx(-67 / 190.5, abs=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_it_is_printed_and_read_back(tmp_path: Path, name: str) -> None:
    made = building(name)
    printed = packet.build(made, PAPERS["a4" if made.job.job.units == "metric" else "letter"])
    packet.save(printed, tmp_path / "packet")
    assert differences(printed, made, tmp_path / "packet") == []
    assert sum(len(sheet.parts) for sheet in printed.sheets if sheet.kind == "tags") == len(made.columns)
