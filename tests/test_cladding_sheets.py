"""Sheets on paper: printed, read back, told in JSON and by check."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

import boxes
import pytest
from jobs import METRIC, build
from msgspec.structs import replace
from test_cladding import CLAD, SHAPES, made, printed_words, words_of

from layouts.lengths import show
from layouts.sheeting import order
from sheets import compare_sheets, packet, report
from sheets.audit import differences
from sheets.paper import PAPERS


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", SHAPES)
def test_sheets_are_printed_and_read_back(name: str, paper: str, tmp_path: Path) -> None:
    one = made(SHAPES[name])
    printed = packet.build(one, PAPERS[paper], "cladding")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, one, tmp_path / "t") == []
    for sheet in printed.sheets:
        written = list(boxes.written(sheet.page.drawing.shapes))
        assert boxes.overlaps(written) == [], sheet.title
        assert boxes.crossed(sheet.page.drawing.shapes) == [], sheet.title
    assert "MEASURE THE STANDING BUILDING BEFORE YOU ORDER" in words_of(printed)


@pytest.mark.parametrize(
    "changes",
    [
        {"cladding.cover": "35"},
        {"cladding.first_cut": "1"},
        {"cladding.uncovered": "4 1/2"},
        {"cladding.step": "1/4"},
        {"cladding.drip": "2"},
        {"truss.pitch": "4 1/4 / 12"},
    ],
)
def test_other_jobs_sheets_are_found_out(changes: dict[str, Any], tmp_path: Path) -> None:
    one = made(CLAD)
    printed = packet.build(one, PAPERS["letter"], "cladding")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, made({**CLAD, **changes}), tmp_path / "t")


def test_a_metric_wall_is_in_millimetres() -> None:
    """15 degrees: 1000·tan 15° = 267.9."""
    one = build({"cladding.cover": 1000, "truss.pitch": "15 deg"}, base=METRIC)
    words = printed_words(one, "a4")
    assert '"' not in words
    assert "'" not in words.replace("sheets'", "").replace("maker's", "")
    gable = next(f for f in one.cladding if f.name in ("Wall 1", "Wall S"))
    lengths = [s.length * 25.4 for s in gable.sheets[:3]]
    assert [b - a for a, b in pairwise(lengths)] == pytest.approx([267.949] * 2, abs=1e-3)


def test_json_and_changes_tell_of_sheets() -> None:
    old, new = (report.as_json(made(c)) for c in (CLAD, {**CLAD, "cladding.first_cut": "6"}))
    assert old["cladding"]["order"][0]["count"] == 4
    assert old["cladding"]["faces"][1]["sheets"][0]["length"]["text"]
    assert report.as_json(made({}))["cladding"] is None
    told = compare_sheets.lists(old, new)
    assert told["cladding", "Sheets, Wall 1"][0].startswith("other sheets 1, 2, 3")
    assert told["cladding", "Sheets to order"]
    assert told["cladding", "Sheets, Roof over wall A"] == ()


def test_a_sheet_that_is_drawn_wrong_is_found(tmp_path: Path) -> None:
    """A layout whose third sheet is an inch longer than the job's."""
    one = made(CLAD)
    sheets = list(one.cladding[1].sheets)
    sheets[2] = replace(sheets[2], top=tuple((x, y + 1.0) for x, y in sheets[2].top))
    wrong = replace(one, cladding=(one.cladding[0], replace(one.cladding[1], sheets=tuple(sheets)), *one.cladding[2:]))
    printed = packet.build(wrong, PAPERS["letter"], "cladding")
    packet.save(printed, tmp_path / "t")
    assert any("sheet 3 in its place" in str(d) for d in differences(printed, one, tmp_path / "t"))


def test_check_lists_what_sheets_to_order() -> None:
    """As on the sheet: as many of each kind and length."""
    one = made(CLAD)
    shown = report.as_text(one).partition("SHEETS TO ORDER")[2].splitlines()[2:]
    assert [" ".join(line.split()) for line in shown if line.strip()] == [
        f"{n} {kind} {show(long, one.job.style)}" for kind, long, n in order(one.cladding)
    ]
    assert "SHEETS TO ORDER" not in report.as_text(made({}))
