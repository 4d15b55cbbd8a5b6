"""The job that is compared in the tests, its packet, and what is found between it and another one."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import jobs
import pytest
from faults import BUILDING

from layouts.building import Building
from sheets import packet
from sheets.audit import Difference, differences
from sheets.changes import Changes, Item
from sheets.compare import compare
from sheets.packet import Packet
from sheets.paper import PAPERS, Paper
from sheets.sides import of_job

LETTER = PAPERS["letter"]
# the line stands still whatever is read; B1, which no test reads again, is the one that the others are told against
FIXED = {**BUILDING, "grade.line": "43", "grade.reference": "B1"}
READ: dict[str, Any] = {
    "B1": "45",
    "A1": "44 3/4",
    "A2": "45 5/8",
    "A3": "45 7/16",
    "A4": "45 1/2",
    "B4": "45 1/4",
    "C4": "45 3/16",
    "C3": "44 7/8",
    "C2": "45 5/16",
    "C1": "44 13/16",
}
AGAIN = {"A3": "45 13/16"}


def building(given: Mapping[str, Any] | None = None, rows: Mapping[str, Any] | None = None) -> Building:
    """Ten columns, read as above but for *rows*."""
    return _building(json.dumps([{**FIXED, **(given or {})}, {**READ, **(rows or {})}]))


@cache
def _building(described: str) -> Building:
    return jobs.build(*json.loads(described))


def changed(
    given: Mapping[str, Any] | None = None,
    rows: Mapping[str, Any] | None = None,
    before: Mapping[str, Any] | None = None,
) -> Changes:
    """From the job as above, or with *before*, to the same with other fields and readings."""
    return compare(of_job(building(before), "old"), of_job(building({**(before or {}), **(given or {})}, rows), "new"))


def names(found: Changes) -> list[str]:
    return [item.name for item in found.items]


def item(found: Changes, name: str) -> Item:
    return next(i for i in found.items if i.name == name)


def words(found: Changes, name: str) -> tuple[str, ...]:
    return item(found, name).words


def codes(made: Building, paper: Paper = LETTER, only: str | None = None) -> dict[str, str]:
    """Every stamp of a whole packet, or of one kind, by its title, as it is printed."""
    sheets = packet.build(made, paper, only).sheets
    return {title: code for sheet in sheets for title, code in sheet.parts or ((sheet.title, sheet.stamp),)}


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packet of the job as above, for all to copy."""
    folder = tmp_path_factory.mktemp("compared") / "printed"
    packet.save(packet.build(building(), LETTER), folder)
    return folder


@pytest.fixture
def printed(saved: Path, tmp_path: Path) -> Path:
    """A copy of it, to change."""
    return Path(shutil.copytree(saved, tmp_path / "printed"))


def release(built: Packet | None, made: Building, folder: Path) -> list[Difference]:
    """Save a packet and read it back."""
    assert built is not None
    packet.save(built, folder)
    return differences(built, made, folder)
