"""What the program reports of a job, for tests that compare its numbers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

import layouts.building
from layouts import book
from layouts import job as job_reader
from layouts import plan as plan_layout
from layouts.readings import of as readings_of
from sheets.report import as_json


def reported(toml: str, csv: str) -> dict[str, Any]:
    """What ``rodwright check --json`` says of a job file and its readings."""
    job = job_reader.read(toml)
    names = [spot.name for spot in plan_layout.lay(job).spots]
    readings = readings_of(book.read(csv, names, job.style.unit), job)
    return as_json(layouts.building.lay_out(job, readings))


@pytest.fixture(scope="module")
def no_cutting_plan() -> Iterator[None]:
    """What boards to buy is not asked, and takes most of the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(layouts.building, "_orders", lambda *_, **__: ())
        yield
