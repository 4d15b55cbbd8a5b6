"""Whole jobs for the tests: the text of a job file with the file of its readings, as a crew writes both down.

A building of `random_buildings` (every roof, make, seat and place of girts, in inches or millimetres) gets openings,
names, and any other fields that there are, mostly with values a crew would write. What is drawn at its limits, past
them, or of another kind is to be refused in words. Where no field was changed that the second opinion does not know,
it can be asked what the numbers of the sheets are.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import opened
import random_buildings
from hypothesis import strategies as st
from jobs import Raw, problems, toml_text
from random_buildings import Drawn
from random_written import IN, MM, defaults
from whole_fields import FIELDS, OF_OPENING, WORDS, odd, usual
from whole_readings import Book, books

from layouts import job as job_reader
from layouts.languages import CHOICES
from layouts.problems import JobRefused

TOLD = frozenset({*defaults(IN), *(n for i in range(40) for n in random_buildings.drawn(i).given)})
"""Fields that the second opinion works with."""
CHANGES = (
    TOLD
    | {name for name in FIELDS if name.startswith("carrier.")}
    | {
        *("truss.bearing", "truss.eave", "truss.far_bearing", "truss.far_eave", "truss.far_heel", "truss.far_pitch"),
        *("truss.wall_height", "truss.top_chord", "roof.ridge", "roof.far_overhang", "girts.top", "wainscot.nailer"),
        *("column.notch", "column.centre_ply", "grade.most", "grade.benchmark", "grade.floor_at", "grade.floor_within"),
        *("grade.cover", "grade.shim", "job.units"),
    }
)
"""Fields that change numbers the second opinion works out; it is not told of what is drawn for them here."""
BESIDE = sorted(FIELDS.keys() - CHANGES)
SHEETS = ("job.paper", "job.language", "job.tags", "job.print")
"""Fields that say how sheets are printed; all of them are drawn often."""
BOARDS = ("girts.rake", "girts.blocking", "corners.board", "corners.fillers")
"""Fields that make boards which are in no row of the second opinion."""
CARRIERS: dict[str, dict[str, Any]] = {
    IN: {"tops.seat": "flat", "carrier.board": "2x10", "carrier.let_in": "1 1/2", "roof.soffit": "none"},
    MM: {"tops.seat": "flat", "carrier.board": "38x240", "carrier.let_in": 38, "roof.soffit": "none"},
}


@dataclass(frozen=True, repr=False)
class Whole:
    """A job file and its readings (``None``: no file). *of* is what the building is, as far as that is known exactly,
    and *called* the crew's names by those of the grid; *rows* whether its rows are all in the second opinion."""

    toml: str
    csv: str | None
    of: Drawn | None
    called: Mapping[str, str]
    rows: bool

    def __repr__(self) -> str:
        return f"\n{self.toml}--- readings\n{self.csv}"


@st.composite
def jobs(draw: st.DrawFn) -> Whole:
    """Any job: about half of them can be printed."""
    of = random_buildings.drawn(draw(st.integers(0, 10**6)))
    unit = MM if of.given.get("job.units") == "metric" else IN
    parts = tomllib.loads(of.toml)
    fields: dict[str, Any] = {f"{part}.{key}": v for part, keys in parts.items() for key, v in keys.items()}
    changed = draw(_changes(unit))
    names = draw(_names(list(of.down)))
    fields |= changed | {f"names.{grid}": name for grid, name in names.items()}
    fields |= draw(_openings(fields, unit)) if draw(st.integers(0, 2)) == 0 else {}
    spoilt = draw(_spoilt(unit))
    text = toml_text(spoilt | fields | spoilt)  # what stands at the head of a file comes first
    book = draw(books(of, names)) if draw(st.integers(0, 19)) else None
    known = not spoilt and not CHANGES & changed.keys() and book is not None and not book.odd
    rows = "opening" not in fields and not any(name in changed for name in BOARDS)
    return Whole(text, book.csv if book else None, _read(of, book) if known and book else None, names, rows)


def _read(of: Drawn, book: Book) -> Drawn:
    """The building as far as its seats are read."""
    down: dict[str, Fraction] = {name: of.down[name] for name in book.read}
    return Drawn(of.number, of.given, of.toml, of.csv, down)


@st.composite
def _changes(draw: st.DrawFn, unit: str) -> dict[str, Any]:
    """Fields that say more than the building does, and now and then some that say otherwise."""
    some = draw(st.lists(st.sampled_from(BESIDE), max_size=8, unique=True))
    some += draw(st.lists(st.sampled_from(SHEETS), max_size=4, unique=True)) if draw(st.booleans()) else []
    if draw(st.integers(0, 3)) == 0:
        some += draw(st.lists(st.sampled_from(sorted(FIELDS)), min_size=1, max_size=3, unique=True))
    found = {name: draw(usual(name, FIELDS[name], unit)) for name in some}
    if draw(st.booleans()):  # all that sheets say is to be in every language, tags in both
        found["job.language"] = draw(st.sampled_from(CHOICES[1:]))
    if draw(st.integers(0, 2)) == 0:
        found["cladding.cover"] = draw(st.integers(16, 42)) if unit == IN else draw(st.integers(400, 1100))
    return found | (CARRIERS[unit] if draw(st.integers(0, 9)) == 0 else {})


@st.composite
def _names(draw: st.DrawFn, columns: list[str]) -> dict[str, str]:
    """The crew's own names of some columns."""
    if draw(st.integers(0, 3)):
        return {}
    some = draw(st.lists(st.sampled_from(columns), min_size=1, max_size=4, unique=True))
    return {grid: draw(st.sampled_from(["K{}", "W-{}", "ÄÖ {}", "WMWM{}"])).format(i) for i, grid in enumerate(some)}


@st.composite
def _openings(draw: st.DrawFn, fields: Mapping[str, Any], unit: str) -> dict[str, Any]:
    """Some openings; mostly those of them alone that go where they are wanted."""
    try:
        made = job_reader.read(toml_text(fields))
    except JobRefused:
        return opened.of(opened.DOOR)
    found = [draw(_opening(opened.parts(made, i), unit)) for i in range(draw(st.integers(1, 5)))]
    if draw(st.integers(0, 4)):
        said = problems(toml_text({**opened.of(*found), **fields}))
        wrong = {int(p.place.split(".")[0].split()[1]) for p in said if p.place.startswith("opening ")}
        found = [part for number, part in enumerate(found, 1) if number not in wrong]
    return opened.of(*found) if found else {}


@st.composite
def _opening(draw: st.DrawFn, parts: st.SearchStrategy[dict[str, Any]], unit: str) -> dict[str, Any]:
    """One opening, with some more of its fields."""
    found = draw(parts)
    if unit == MM:
        inches = {key: f"{found[key]} in" for key in ("width", "height", "sill", "at") if key in found}
        found |= inches | {"header": "45x140"}
    free = [key for key in OF_OPENING if key not in (*found, "bay", "at", "slides")]
    some = draw(st.lists(st.sampled_from(free), max_size=3, unique=True))
    return found | {key: draw(usual(f"opening.{key}", OF_OPENING[key], unit)) for key in some}


@st.composite
def _spoilt(draw: st.DrawFn, unit: str) -> dict[str, Any]:
    """Mostly nothing; else fields at or past their limits, of another kind, or that there are none of."""
    if draw(st.integers(0, 3)):
        return {}
    some = draw(st.lists(st.sampled_from(sorted(FIELDS)), max_size=3, unique=True))
    found = {name: draw(odd(FIELDS[name], unit)) for name in some}
    strange = [
        {},
        {},
        {"job.naem": "Barn"},
        {"sauna.stove": 1},
        {"names.ZZ9": "N1"},
        {"names.A1": "A2"},
        {"building": 3},
    ]
    whole = [{}, {"opening": Raw("[3]")}, {"opening": Raw("[{}]")}, {"names": draw(st.sampled_from(WORDS))}]
    return found | draw(st.sampled_from(strange)) | draw(st.sampled_from(whole))
