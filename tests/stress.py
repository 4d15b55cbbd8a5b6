"""Buildings that press on the sheets: every option, long words, close rows, very small and very large."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import jobs

from layouts.building import Building, lay_out
from layouts.plan import lay
from layouts.readings import Readings
from sheets import packet
from sheets.packet import Packet
from sheets.paper import PAPERS, USUAL

LONG = "WWWW MMMM the longest name a job can have, all sixty letters"
NOTE = "mud on the bracket seat, wiped and shot twice by the foreman"


@dataclass(frozen=True)
class Case:
    """A job by its changes to *base*; *reading* gives a column's reading (inches) from its number in walking order."""

    changes: Mapping[str, Any]
    reading: Callable[[int], float | None] = lambda i: 44 + (i * 7 % 23) / 16
    base: Mapping[str, Any] = None  # type: ignore[assignment]
    note: str = ""


def _no_reading(_: int) -> None:
    return None


CASES: dict[str, Case] = {
    "plain": Case({}),
    "metric": Case({"roof.overhang": 400, "roof.soffit": "level", "wainscot.nailer": "45x140"}, base=jobs.METRIC),
    "long names": Case(
        {
            "job.name": LONG,
            "job.place": LONG,
            "job.crew": LONG,
            "job.date": "14 September 2026 AD",
            "building.front_faces": LONG,
            "names.A1": "WMWMWM",
            "names.A2": "MWMWM2",
            "names.A3": "WWWWW3",
            "names.C1": "MMMMM4",
            "names.B7": "WQWQW5",
            "names.D7": "@@@@@6",
            "grade.reference": "WMWMWM",
        },
        note=NOTE,
    ),
    "four ply": Case({"column.plies": 4, "column.width": "6", "column.depth": "7 1/4", "truss.thickness": "3"}),
    "top edges": Case({"girts.edge": "top", "wainscot.nailer": "2x6", "roof.overhang": "12", "roof.soffit": "level"}),
    "fixed steep": Case({"girts.spacing": "fixed", "girts.step": "20", "truss.pitch": "12/12"}),
    "flat roof": Case({"truss.pitch": "2/12", "roof.purlins": "flat", "building.line": "columns"}),
    "chord ears": Case({"tops.sidewall_ears": "chord", "tops.clearance": "1/2", "roof.purlins": "flush"}),
    "centre bearing": Case({"tops.endwall_centre": "bearing", "building.back_columns": ["8'", "16'", "24'"]}),
    "centre roof": Case({"tops.endwall_centre": "roof", "column.endwall_face": "depth", "job.fraction": 32}),
    "off ridge": Case(
        {
            "tops.endwall_ears": "roof",
            "tops.endwall_centre": "chord",
            "building.back_columns": ["8'", "16'-1", "24'"],
            "building.front_columns": ["8'", "15'-11", "24'"],
            "job.fraction": 32,
        },
        lambda i: 44 + (i * 7 % 47) / 32,
    ),
    "from floor": Case(
        {"truss.heights_from": "floor", "grade.floor": "8", "wainscot.nailer": "2x6", "wainscot.height": "40"}
    ),
    "tiny overhang": Case({"roof.overhang": "3", "roof.soffit": "level", "roof.fascia": "7 1/4"}),
    "close rows": Case({"girts.step": "8", "girts.spacing": "fixed", "wainscot.nailer": "2x6"}),
    "two grade boards": Case({"grade.boards": 2, "girts.runs_past": "side", "grade.board": "2x12"}),
    "long": Case({"building.length": "200'", "building.bays": 20}, note=NOTE),
    "long, long names": Case(
        {"building.length": "200'", "building.bays": 25} | {f"names.A{i}": f"WMWM{i:02}" for i in range(1, 27)}
    ),
    "small": Case(
        {
            "building.width": "8'",
            "building.length": "8'",
            "building.bays": 2,
            "building.front_columns": [],
            "building.back_columns": ["4'"],
            "truss.bearing": "7'",
        }
    ),
    "tall": Case({"truss.bearing": "30'", "column.stock": ["40'"], "building.line": "columns"}),
    "wide": Case(
        {
            "building.width": "80'",
            "building.front_columns": [f"{i}'" for i in range(8, 80, 8)],
            "building.back_columns": [f"{i}'" for i in range(10, 80, 10)],
            "truss.pitch": "3/12",
            "truss.bearing": "16'",
        }
    ),
    "no readings": Case({}, _no_reading),
    "below the seats": Case({"grade.line": "60"}),
    "no stock": Case({"column.stock": ["8'", "10'"]}, note=NOTE),
    "all warned": Case({"building.length": "120'", "building.bays": 15, "grade.flag": "1/16"}, lambda i: 30 + i * 1.5),
    "deep seats": Case({"grade.line": "10"}, lambda i: 100 + i + i / 16),
    "many kinds": Case(
        {
            "building.bays": [f"{n} in" for n in (73, 79, 83, 89, 97, 101, 103, 107, 109, 113)],
            "building.length": "954 in",
            "girts.step": "12",
            "lumber.stock": ["8'", "10'"],
            "building.front_columns": [77, 150, 239, 310],
            "wainscot.nailer": "2x6",
        }
    ),
}


def build(case: Case) -> Building:
    """The whole layout of a case."""
    job = jobs.job(case.changes, base=case.base or jobs.BASE)
    names = [s.name for s in lay(job).spots]
    found = {name: value for i, name in enumerate(names) if (value := case.reading(i)) is not None}
    notes = dict.fromkeys(found, case.note) if case.note else {}
    return lay_out(job, Readings(found, notes))


@cache
def building(name: str) -> Building:
    """The building of one of ``CASES``."""
    return build(CASES[name])


@cache
def printed(name: str, paper: str) -> Packet:
    """Its packet."""
    return packet.build(building(name), PAPERS[paper])


BOTH = ("plain", "metric", "long names", "off ridge", "wide")
# every case on one paper in turn, those that differ most on both
PRINTED = [
    (name, paper)
    for i, name in enumerate(CASES)
    for j, paper in enumerate(USUAL)
    if name in BOTH or i % len(USUAL) == j
]
