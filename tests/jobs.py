"""Jobs for the tests: TOML text made from dotted names, and hypothesis strategies of whole buildings.

The building is our own invention; tests that hold against someone's worked numbers set those numbers themselves.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from msgspec.structs import asdict, replace

from layouts import book
from layouts import job as job_reader
from layouts import plan as plan_layout
from layouts.building import Building, lay_out
from layouts.fields import Job
from layouts.problems import JobRefused, Problem
from layouts.readings import Readings
from layouts.readings import of as readings_of

BASE: dict[str, Any] = {
    "job.name": "Tamarack hay barn",
    "building.width": "32'",
    "building.length": "48'",
    "building.bays": 6,
    "building.front_columns": ["11'", "21'"],
    "building.back_columns": ["8'", "16'", "24'"],
    "truss.bearing": "12'",
    "truss.heel": "9 1/4",
    "truss.pitch": "4/12",
}

# As worked in the trade (common practice, no source): heights from the floor, grade line 3 1/2 below it, bearing 12',
# 2x8 grade board, 2x4 girts, step at most 24
TRADE: dict[str, Any] = {
    "building.width": "36'",
    "building.front_columns": ["9'", "18'", "27'"],
    "building.back_columns": ["9'", "18'", "27'"],
    "truss.bearing": "12'",
    "truss.heel": "3 15/16",
    "truss.pitch": "4/12",
    "truss.heights_from": "floor",
    "grade.floor": "3 1/2",
    "roof.purlin": "2x4",
}

METRIC: dict[str, Any] = {
    "job.name": "Tamarack hay barn",
    "job.units": "metric",
    "building.width": 9600,
    "building.length": 14400,
    "building.bays": 6,
    "building.front_columns": [3300, 6300],
    "building.back_columns": [2400, 4800, 7200],
    "truss.bearing": 3600,
    "truss.heel": 235,
    "truss.pitch": "4/12",
}


@dataclass(frozen=True)
class Raw:
    """TOML that goes into the file as it stands."""

    toml: str


def toml_value(value: Any) -> str:
    """A value in TOML; strings get double quotes and escapes."""
    if isinstance(value, Raw):
        return value.toml
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(toml_value(v) for v in value) + "]"
    return json.dumps(value)


def toml_text(given: Mapping[str, Any]) -> str:
    """A job file of ``part.key`` names; a name without a dot stands at the head of the file."""
    parts: dict[str, list[str]] = {}
    for name, value in given.items():
        part, dot, key = name.partition(".")
        line = f"{key if dot else part} = {toml_value(value)}"
        parts.setdefault(part if dot else "", []).append(line)
    head = parts.pop("", [])
    return "\n".join([*head, *(f"[{p}]\n" + "\n".join(lines) for p, lines in parts.items())]) + "\n"


def job_text(
    changes: Mapping[str, Any] | None = None, *, drop: Iterable[str] = (), base: Mapping[str, Any] = BASE
) -> str:
    """The text of a job file: *base* with *changes* laid over it, less the fields named in *drop*."""
    laid = {**base, **(changes or {})}
    return toml_text({name: value for name, value in laid.items() if name not in set(drop)})


def job(changes: Mapping[str, Any] | None = None, *, base: Mapping[str, Any] = BASE) -> Job:
    """The same, read, and read once: property tests ask for it in every example."""
    return _read(job_text(changes, base=base))


@lru_cache(maxsize=256)
def _read(text: str) -> Job:
    return job_reader.read(text)


def replaced(of: Job, part: str, **changes: Any) -> Job:
    """A job that has been read, with other values in one of its parts."""
    return replace(of, **{part: replace(getattr(of, part), **changes)})


def problems(text: str) -> list[Problem]:
    """What is wrong with a job file, by the reader alone, each with the name of the file; nothing if it is read."""
    found: list[Problem] = []
    try:
        job_reader.read(text, "shed.toml")
    except JobRefused as refused:
        found += refused.problems
    assert {problem.file for problem in found} <= {"shed.toml"}
    return found


def refusal(changes: Mapping[str, Any], *, base: Mapping[str, Any] = BASE) -> str:
    """Why the whole layout refuses a job; empty if it does not."""
    try:
        lay_out(job(changes, base=base))
    except JobRefused as refused:
        return str(refused)
    return ""


def readings(rows: Mapping[str, Any], of: Job) -> Readings:
    """Readings as from a file, for the columns of a job; the first one is read back, as it should be."""
    names = [s.name for s in plan_layout.lay(of).spots]
    lines = [f"{name},{value}" for name, value in rows.items()]
    text = "\n".join(["column,reading", *lines, *lines[: len(lines) > 1]])
    return readings_of(book.read(text, names, of.style.unit), of)


def build(
    changes: Mapping[str, Any] | None = None,
    rows: Mapping[str, Any] | None = None,
    *,
    base: Mapping[str, Any] = BASE,
) -> Building:
    """The whole layout of a job and its readings, laid out once however many tests ask for it."""
    return _laid(job_text(changes, base=base), None if rows is None else tuple((k, str(v)) for k, v in rows.items()))


@lru_cache(maxsize=64)
def _laid(text: str, rows: tuple[tuple[str, str], ...] | None) -> Building:
    return lay_anew(text, None if rows is None else dict(rows))


def lay_anew(text: str, rows: Mapping[str, Any] | None = None) -> Building:
    """The whole layout of a job file and its readings, nothing of it kept from before."""
    made = job_reader.read(text)
    return lay_out(made, readings(rows, made) if rows is not None else Readings({}, {}))


def every(of: Job, value: float = 45.0) -> Readings:
    """One and the same reading, inches, for every column."""
    return Readings({s.name: value for s in plan_layout.lay(of).spots}, {})


@st.composite
def job_fields(draw: st.DrawFn) -> dict[str, Any]:
    """Jobs that can be built: bays of 6 to 12 ft, endwall columns no further apart than a board reaches."""
    bays = draw(st.lists(st.integers(72, 144), min_size=2, max_size=9))
    across = draw(st.lists(st.integers(72, 144), min_size=2, max_size=5))
    ends = [sum(across[: i + 1]) for i in range(len(across) - 1)]
    return {
        "job.name": "Any barn",
        "building.width": sum(across),
        "building.length": sum(bays),
        "building.line": draw(st.sampled_from(["girts", "columns"])),
        "building.bays": bays,
        "building.front_columns": ends,
        "building.back_columns": draw(st.sampled_from([ends, ends[::-1]])),
        "column.endwall_face": draw(st.sampled_from(["width", "depth"])),
        "truss.bearing": draw(st.integers(108, 240)),
        "truss.heel": draw(st.integers(4, 24)),
        "truss.heel_at": draw(st.sampled_from(["column", "girt"])),
        "truss.heights_from": draw(st.sampled_from(["grade line", "floor"])),
        "truss.pitch": f"{draw(st.sampled_from(['2', '3.5', '4', '5', '6', '8']))}/12",
        "roof.purlins": draw(st.sampled_from(["edge", "flat", "flush"])),
        "tops.sidewall_ears": draw(st.sampled_from(["roof", "chord"])),
        "tops.endwall_ears": draw(st.sampled_from(["roof", "chord"])),
        "tops.endwall_centre": draw(st.sampled_from(["ears", "bearing", "chord", "roof"])),
        "tops.clearance": draw(st.sampled_from(["0", "1/4", "1/2"])),
        "girts.spacing": draw(st.sampled_from(["equal", "fixed"])),
        "girts.step": draw(st.integers(16, 40)),
        "girts.edge": draw(st.sampled_from(["bottom", "top"])),
        "girts.runs_past": draw(st.sampled_from(["end", "side"])),
        "girts.grade_board_runs_past": draw(st.sampled_from(["end", "side"])),
        "wainscot.height": draw(st.integers(30, 42)),
    } | draw(st.sampled_from([{}, {"wainscot.nailer": "2x6"}]))


@st.composite
def placed_fields(draw: st.DrawFn) -> dict[str, Any]:
    """The same with girts in all places, and boards that are in no row: some of each."""
    some: list[dict[str, Any]] = [
        {"girts.rake": draw(st.sampled_from(["2x4", "2x6"]))},
        {"girts.blocking": draw(st.integers(72, 120))},
        {"corners.board": draw(st.sampled_from(["2x4", "2x6"]))},
        {"corners.fillers": "between rows"},
        {"roof.soffit": "level", "roof.overhang": 12},
        {"girts.inside": "2x6"},
    ]
    given = draw(st.lists(st.sampled_from(range(len(some))), unique=True))
    chosen = {key: value for i in given for key, value in some[i].items()}
    place = draw(st.sampled_from(["outside", "between", "inside", "both"]))
    found = (
        draw(job_fields()) | {"girts.place": place, "girts.gap": draw(st.sampled_from(["0", "1/8", "1/4"]))} | chosen
    )
    # a fixed step may leave a last space that 2x6 inside do not go into: that is refused
    return found | ({"girts.spacing": "equal"} if problems(toml_text(found)) else {})


class Drawn(Building, frozen=True, kw_only=True):
    """A building that shows itself by the job it was made from: short enough to be read when a test fails."""

    text: str

    def __repr__(self) -> str:
        return f"{self.text}{dict(self.readings.values)}"

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        """What hypothesis prints it by."""
        printer.text(repr(self))


SIXTEENTHS = st.none() | st.integers(42 * 16, 48 * 16)
MOST_COLUMNS = 28  # of `job_fields`: ten along either side, four more in either gable
POOL = 300  # six times as many buildings as a test tries


def buildings(of: st.SearchStrategy[dict[str, Any]] | None = None) -> st.SearchStrategy[Building]:
    """Whole buildings with a reading, in sixteenths, for some of the columns; *of* are the jobs, else `job_fields`.

    Those of `job_fields` are some hundreds, which all tests share, each laid out when it is first met: laying out is
    what costs. They stand in order of their length, so that what fails is shown by the shortest of them that does.
    """
    if of is None:
        return st.integers(0, len(_pool()) - 1).map(_of_pool)
    return st.builds(_drawn, of.map(toml_text), st.lists(SIXTEENTHS, min_size=MOST_COLUMNS, max_size=MOST_COLUMNS))


@cache
def _pool() -> list[tuple[str, list[int | None]]]:
    found: list[tuple[str, list[int | None]]] = []

    @settings(max_examples=POOL, phases=[Phase.generate], database=None, derandomize=True, deadline=None)
    @given(job_fields(), st.lists(SIXTEENTHS, min_size=MOST_COLUMNS, max_size=MOST_COLUMNS))
    def keep(given: dict[str, Any], sixteenths: list[int | None]) -> None:
        found.append((toml_text(given), sixteenths))

    keep()
    return sorted(found, key=lambda one: len(one[0]))


@cache
def _of_pool(number: int) -> Drawn:
    return _drawn(*_pool()[number])


def _drawn(text: str, sixteenths: list[int | None]) -> Drawn:
    made = job_reader.read(text)
    names = [s.name for s in plan_layout.lay(made).spots]
    assert len(names) <= len(sixteenths)
    found = {name: n / 16 for name, n in zip(names, sixteenths, strict=False) if n is not None}
    laid = lay_out(made, Readings(found, {}))
    return Drawn(**asdict(laid), text=text)


def slope(job: Job) -> float:
    """The pitch of a job that gives it, as rise over run."""
    assert job.truss.pitch is not None
    return job.truss.pitch
