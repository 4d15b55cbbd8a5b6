"""Every roof on every seat with girts in every place: drawn once and read back, or refused with the reason, as the
README's table says."""

from __future__ import annotations

import os
from itertools import product
from pathlib import Path
from typing import Any

import boxes
import numbered
import pytest
from effort import HOW
from jobs import BASE, METRIC, every, job, refusal
from test_metric import IMPERIAL

from layouts.building import Building, lay_out
from sheets import packet
from sheets.audit import differences
from sheets.paper import PAPERS

README = Path(__file__).parent.parent / "README.md"
SMALL: dict[str, Any] = {
    "building.width": "12'",
    "building.length": "12'",
    "building.bays": 2,
    "building.front_columns": ["6'"],
    "building.back_columns": ["6'"],
    "cladding.cover": "36",
    "roof.overhang": "12",
    "truss.bearing": "8'",
}
SMALL_METRIC: dict[str, Any] = {
    "building.width": 3600,
    "building.length": 3600,
    "building.bays": 2,
    "building.front_columns": [1800],
    "building.back_columns": [1800],
    "cladding.cover": 900,
    "roof.overhang": 300,
    "truss.bearing": 2400,
}
ROOFS: dict[str, dict[str, Any]] = {
    "gable": {},
    "gable, ridge off the middle": {"roof.ridge": "5'"},
    "gable, two pitches": {"truss.far_pitch": "6/12"},
    "gable, unequal eaves": {"truss.far_bearing": "9'"},
    "mono-slope": {"roof.shape": "mono-slope", "truss.pitch": "3/12"},
    "lean-to": {
        "roof.shape": "lean-to",
        "truss.pitch": "2/12",
        "girts.runs_past": "side",
        "girts.grade_board_runs_past": "side",
    },
}
IN_MM: dict[str, Any] = {"roof.ridge": 1500, "truss.far_bearing": 2700, "truss.pitch": "10 deg"}
SEATS: dict[str, dict[str, Any]] = {
    "slot": {"tops.seat": "slot"},
    "shoulder": {"tops.seat": "shoulder"},
    "level top": {"tops.seat": "flat"},
    "carriers": {"tops.seat": "flat", "carrier.board": "2x10", "carrier.let_in": "1 1/2"},
}
CARRIERS_MM = {"carrier.board": "38x240", "carrier.let_in": 38}
MAKES = ("laminated", "solid")
GIRTS = ("outside", "between", "inside", "both")


def changes(roof: str, seat: str, girts: str, make: str, metric: bool) -> dict[str, Any]:
    given = {**ROOFS[roof], **SEATS[seat], "girts.place": girts, "column.make": make}
    if seat in ("slot", "shoulder"):
        given["roof.soffit"] = "level"  # over level tops there is nothing to nail it to
    if metric:
        mm = {**IN_MM, **CARRIERS_MM}
        return {**SMALL_METRIC, **{key: mm.get(key, value) for key, value in given.items()}}
    return {**SMALL, **given}


def promised() -> dict[tuple[str, str, str, str], str]:
    """The README's table: for every roof, make, seat and place of girts what a cell that says no says; else nothing."""
    lines = README.read_text(encoding="utf-8").splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith("| roof |"))
    head = [cell.strip() for cell in lines[start].strip("|").split("|")]
    found: dict[tuple[str, str, str, str], str] = {}
    for line in lines[start + 2 :]:
        if not line.startswith("|"):
            break
        cells = dict(zip(head, (cell.strip() for cell in line.strip("|").split("|")), strict=True))
        for make, seat, girts in product(MAKES, SEATS, GIRTS):
            said = [cells[f"{make}: {seat}"], cells[f"girts {girts}"]]
            found[cells["roof"], make, seat, girts] = "; ".join(s for s in said if s != "yes")
    return found


PROMISED = promised()
ALL = list(product(ROOFS, MAKES, SEATS, GIRTS))


LONG = int(os.environ.get("RODWRIGHT_JOBS", "1")) > 1


def test_the_table_has_every_combination() -> None:
    assert set(PROMISED) == set(ALL)


def drawn(building: Building, paper: str, folder: Path | None) -> set[str]:
    """The texts of the whole packet; where there is a *folder*, once it has been written and read back."""
    printed = packet.build(building, PAPERS[paper])
    if folder:
        packet.save(printed, folder)
        assert differences(printed, building, folder) == []
    shapes = [s.page.drawing.shapes for s in printed.sheets]
    assert [fault for drawing in shapes for fault in numbered.faults(drawing)] == []
    return {t.words for s in printed.sheets for t in boxes.written(s.page.drawing.shapes)}


@pytest.mark.parametrize(("number", "roof", "make", "seat", "girts"), [(i, *case) for i, case in enumerate(ALL)])
def test_a_combination_is_drawn_and_read_back_or_refused(
    number: int, roof: str, make: str, seat: str, girts: str, tmp_path: Path
) -> None:
    """Every other one is in millimetres on A4, and nothing imperial is left on its sheets. All are drawn; two of eight
    are written and read back too, where all tests are run two of four, in a long run (``RODWRIGHT_JOBS``, as of
    ``test_whole_jobs``) all of them."""
    metric = (number + number // len(GIRTS)) % 2 == 1
    base = METRIC if metric else BASE
    given = changes(roof, seat, girts, make, metric)
    if no := PROMISED[roof, make, seat, girts]:
        said = refusal(given, base=base)
        reasons = [part.removeprefix("no: ") for part in no.split("; ")]
        assert all(part.startswith("no: ") for part in no.split("; "))
        assert any(reason in said for reason in reasons), said  # the second is told when the first is mended
        return
    made = job(given, base=base)
    folder = tmp_path / "t" if LONG or number // 2 % (2 if HOW == "all" else 4) == 0 else None
    words = drawn(lay_out(made, every(made)), "a4" if metric else "letter", folder)
    assert "SHEETS TO ORDER" in words
    assert "ROOF SHEET" in words
    if metric:
        assert [text for text in words if IMPERIAL.search(text.replace("29 CFR 1926", ""))] == []
