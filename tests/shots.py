"""Buildings from whole files of readings: benchmarks, rounds, rods of either sense."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from jobs import BASE, toml_text

from layouts import book
from layouts import job as job_reader
from layouts import plan as plan_layout
from layouts.building import Building, lay_out
from layouts.readings import of


def shot(changes: Mapping[str, Any], text: str, base: Mapping[str, Any] = BASE) -> Building:
    """The layout of a job and a whole file of readings."""
    made = job_reader.read(toml_text({**base, **changes}))
    names = [s.name for s in plan_layout.lay(made).spots]
    return lay_out(made, of(book.read(text, names, made.style.unit), made))


def benchmarked(changes: Mapping[str, Any], mark: str, rows: Mapping[str, Any], head: str = "") -> Building:
    """Seats read once round and back, and a benchmark that reads *mark*."""
    first = next(iter(rows))
    lines = [f"{name},{value}" for name, value in {**rows, "BM": mark}.items()]
    text = f"{head}benchmark,BM,nail in the pole\ncolumn,reading\n" + "\n".join([*lines, f"{first},{rows[first]}"])
    return shot({"grade.benchmark": "BM", **changes}, text)


def line(building: Building) -> float:
    """The line reading that was taken, inches down."""
    assert building.grade.line is not None
    return building.grade.line
