"""A packet as it lies in its folder, and the lanes of its rods found by what is printed on them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, Literal

import jobs
from readback import Sheet, Words, pdf_sheets, svg_sheet

from layouts.building import Building
from sheets import packet
from sheets.load import load
from sheets.paper import PAPERS

Form = Literal["pdf", "svg"]

# --- lanes -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class FoundLane:
    """A lane as it is found on a page by its tape numbers: what they say (inches), where their lines stand, and the
    band of the page it takes."""

    start: float
    end: float | None
    x: float
    x_end: float | None
    low: float
    high: float

    def tall(self, sheet: Sheet) -> list[float]:
        """Where lines stand that go over at least half of the height of the lane, outline left out."""
        heights: dict[float, float] = {}
        for x, low, high in sheet.verticals:
            overlap = min(high, self.high) - max(low, self.low)
            if overlap > 0:
                at = next((known for known in heights if abs(known - x) < 1e-5), x)
                heights[at] = heights.get(at, 0.0) + overlap
        return sorted(x for x, height in heights.items() if height >= (self.high - self.low) / 2)

    def texts(self, sheet: Sheet) -> list[str]:
        """The words in the lane."""
        return [w.text for w in sheet.words if self.low < w.y < self.high and not w.turned]


def reach(number: Words) -> float:
    """How far a number's figures go at least from where they begin, inches."""
    return len(number.text) * number.size / 2


def lanes_on(sheet: Sheet, per_inch: float) -> Iterator[FoundLane]:
    """The lanes of a page from the top: large bare numbers are tape numbers, *per_inch* to an inch."""
    numbers = [w for w in sheet.words if re.fullmatch(r"\d+", w.text) and not w.turned]
    largest = max(w.size for w in numbers)
    ends = [w for w in numbers if w.size > largest * 0.6]
    for y in sorted({round(w.y, 3) for w in ends}, reverse=True):
        left, *right = sorted((w for w in ends if abs(w.y - y) < 0.01), key=lambda w: w.x)
        crossing = [v for v in sheet.verticals if v[1] < y < v[2]]
        x = max(v[0] for v in crossing if v[0] <= left.x)
        low, high = max(((v[1], v[2]) for v in crossing if abs(v[0] - x) < 1e-4), key=lambda e: e[1] - e[0])
        assert len(right) <= 1
        end = int(right[0].text) / per_inch if right else None
        # figures are half an em wide or more: a line that is nearer goes through the number
        x_end = min(v[0] for v in crossing if v[0] > right[0].x + reach(right[0])) if right else None
        yield FoundLane(int(left.text) / per_inch, end, x, x_end, low, high)


# --- a packet --------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Printed:
    """A packet on the disk, and the building it is of."""

    building: Building
    folder: Path
    paper: tuple[float, float]

    @property
    def metric(self) -> bool:
        """Whether it is in millimetres."""
        return self.building.job.job.units == "metric"

    @cached_property
    def manifest(self) -> Any:
        """``packet.json``."""
        return json.loads((self.folder / "packet.json").read_text(encoding="utf-8"))

    @cached_property
    def pages(self) -> list[str]:
        """The names of the SVG pages in printing order."""
        return [n for n in self.manifest["files"] if n.endswith(".svg") and "full-scale" not in n]

    @cached_property
    def _all(self) -> dict[Form, dict[str, Sheet]]:
        pdf = pdf_sheets(self.folder / "packet.pdf")
        svg = [svg_sheet(self.folder / name) for name in self.pages]
        return {
            "pdf": dict(zip(self.pages, pdf, strict=True)),
            "svg": dict(zip(self.pages, svg, strict=True)),
        }

    def sheets(self, form: Form, kind: str = "") -> list[Sheet]:
        """The pages of a kind, or all, as they stand in the packet's PDF or in the SVG files."""
        return [sheet for name, sheet in self._all[form].items() if name.startswith(kind)]


# A tower of a barn in millimetres: fixed steps, tops marked, purlins flat, four plies, no soffit.
METRIC_JOB: dict[str, Any] = {
    "job.name": "Ålesund boat house",
    "building.width": 8400,
    "building.length": 12600,
    "building.bays": [3000, 3300, 3300, 3000],
    "building.front_columns": [2700, 5700],
    "building.back_columns": [2100, 4200, 6300],
    "column.plies": 4,
    "truss.bearing": 3350,
    "truss.heel": 287,
    "truss.pitch": "5/12",
    "roof.purlins": "flat",
    "girts.spacing": "fixed",
    "girts.step": 570,
    "girts.edge": "top",
}


def metric_building() -> Building:
    """The metric job with readings that differ by up to 47 mm, one column not read."""
    made = jobs.job(METRIC_JOB, base=jobs.METRIC)
    names = list(jobs.every(made).values)
    rows = {name: 1111 + (i * 19) % 48 for i, name in enumerate(names) if i != 3}
    return jobs.build(METRIC_JOB, rows, base=jobs.METRIC)


def demo_job() -> Path:
    """The demo's job file; its readings lie beside it."""
    return Path(__file__).parents[1] / "gallery" / "larkspur" / "job.toml"


def print_out(name: str, folder: Path) -> Printed:
    """The demo on ``letter`` or ``a4``, or the metric job on A4 (``mm``), written to *folder*."""
    building = metric_building() if name == "mm" else load(demo_job())
    paper = PAPERS["letter" if name == "letter" else "a4"]
    packet.save(packet.build(building, paper), folder)
    # ANSI A is 8.5 x 11 in, ISO 216 A4 210 x 297 mm (seen)
    return Printed(building, folder, (8.5, 11.0) if name == "letter" else (210 / 25.4, 297 / 25.4))
