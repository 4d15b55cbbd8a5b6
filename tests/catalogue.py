"""What a language's catalogue has to know: many jobs drawn in it, and the texts that stayed English.

``python tests/catalogue.py spanish`` prints every normal form that is missing, with a text it stands for: each is a
line to be written into ``layouts/languages/spanish.toml``.
"""

from __future__ import annotations

import sys
import tomllib
from collections.abc import Iterator, Sequence
from importlib.resources import files
from itertools import product
from pathlib import Path
from typing import Any

import graded
import jobs
import opened
import printed
import test_combinations as combinations
import test_grade_sheet as grade_sheet
import test_made_tops as made_tops
import test_wall_openings as openings

from layouts import languages
from layouts.building import Building, lay_out
from layouts.languages import catalogue
from sheets import packet
from sheets.language import speaking, turn
from sheets.load import load
from sheets.paper import PAPERS
from sheets.speech import Speech

SMALL = combinations.SMALL
SMALL_IN_ENGLISH = {"la pared existente"}
"""Words that the tag of a lean-to sets too small in English too."""
SOME: tuple[tuple[dict[str, Any], tuple[str | None, ...]], ...] = (
    ({"grade.line": "45", "grade.floor": "3 1/2", "truss.heights_from": "floor"}, ("grade", "field", "tags")),
    (
        {"girts.edge": "top", "wainscot.nailer": "2x6", "roof.soffit": "level", "roof.overhang": 12},
        ("rods", "walls", "cuts"),
    ),
    (
        {"girts.place": "both", "girts.edge": "top", "corners.board": "2x6", "corners.fillers": "between rows"},
        ("rods", "walls", "cuts"),
    ),
    (
        {"cladding.cover": "36", "cladding.longest": "10'", "cladding.start": "right", "cladding.roof_start": "back"},
        ("cladding",),
    ),
    (
        {"cladding.cover": "36", "cladding.split": "3'", "cladding.start": "middle", "cladding.first_cut": "6"},
        ("cladding",),
    ),
    (
        {"grade.most": "3", "grade.reference": "A2", "column.stock": ["12'", "14'"], "lift.lies": "outside"},
        ("grade", "tags", "walls", "cuts"),
    ),
    (
        {"nails.girt": "2 of 4 x .177 ring HDG", "nails.grade": "3 of 16d common", "nails.splice": "2 of 20d common"},
        ("walls", "cuts"),
    ),
    ({"roof.end_overhang": 18, "roof.overhang": 18, "truss.top_chord": "2x6"}, ("rods", "roof", "templates")),
    (
        {"lumber.prices": ["2x4 16' 9.80", "2x4 18' 11.40"], "lumber.spares": "5", "lumber.column_spares": "1"},
        ("cuts",),
    ),
    (
        {
            **{"tops.seat": "shoulder", "tops.shoulder": "both", "column.make": "solid", "truss.top_chord": "2x6"},
            **{"roof.fascia_cut": "square", "roof.soffit": "level", "roof.overhang": 18, "roof.sheathing": "1/2"},
        },
        ("tags", "rods", "templates", "grade", None),
    ),
    (
        {
            **{
                "truss.each": 2,
                "roof.purlins": "flush",
                "roof.fascia_rod": "rod",
                "roof.overhang": 12,
                "lift.extra": 0,
            },
            **{"wood.density": "36 lb/ft3", "lumber.trim": 1, "cladding.gable_top": "chord", "cladding.cover": "36"},
            **{"girts.edge": "top", "nails.girt": "2 of 4 x .177 ring"},
        },
        (None,),
    ),
)
FEET = """unit,feet
plate,3/8
rod,no. 3
date,2026-05-14
highest,A1
column,reading,set-up,round,on,note
A1,3.75,1,1,,
A2,3.812,1,1,concrete,
A3,4.104,1,1,,
A1,3.75,1,1,,
A3,4.104,2,1,,
A4,4.2,2,1,,
A1,3.9,1,2,,
A2,3.96,1,2,,
A3,4.25,1,2,,
A1,3.9,1,2,,
"""
"""Decimal feet, on a plate and once on the concrete, from two set-ups and in two rounds without a benchmark."""
GALLERY = Path(__file__).parents[1] / "gallery"


def spoken(text: str, language: str) -> str:
    """A job file's text in a *language*."""
    return text.replace("[job]\n", f'[job]\nlanguage = "{language}"\n', 1)


Case = tuple[str, Building, tuple[str | None, ...]]
"""A name, a building, and the kinds of its sheets that are drawn: ``None`` is the whole packet."""


def gallery(language: str, folder: Path) -> Iterator[Case]:
    """The gallery's jobs in a *language*; their files go to *folder*."""
    for job in sorted(GALLERY.glob("*/job.toml")):
        own = folder / job.parent.name
        own.mkdir(exist_ok=True)
        (own / "job.toml").write_text(spoken(job.read_text(encoding="utf-8"), language), encoding="utf-8")
        (own / "job.csv").write_bytes(job.with_suffix(".csv").read_bytes())
        yield job.parent.name, load(own / "job.toml"), (None,)


def combined(language: str, step: int = 1) -> Iterator[Case]:
    """Every *step*-th of the roofs, seats and places of girts that go together."""
    possible = [case for case in combinations.ALL if not combinations.PROMISED[case]]
    for number, (roof, make, seat, girts) in enumerate(possible[::step]):
        metric = number % 2 == 1
        given = {**combinations.changes(roof, seat, girts, make, metric), "job.language": language}
        made = jobs.job(given, base=jobs.METRIC if metric else jobs.BASE)
        yield f"{roof}, {make}, {seat}, {girts}", lay_out(made, jobs.every(made)), (None,)


def metric(language: str) -> Building:
    """The metric job of the printed packets."""
    given: dict[str, Any] = {**printed.METRIC_JOB, "job.language": language}
    made = jobs.job(given, base=jobs.METRIC)
    names = list(jobs.every(made).values)
    rows = {name: 1111 + (i * 19) % 48 for i, name in enumerate(names) if i != 3}
    return jobs.build(given, rows, base=jobs.METRIC)


def jobs_of(language: str) -> Iterator[Case]:
    """Jobs that have what the others have not: openings of all kinds, made tops, rounds of readings, odd seats."""
    yield "metric", metric(language), (None,)
    said = {"job.language": language}
    rows = {"A1": 45, "A2": "45 3/8", "A3": 47, "G1": "42 1/2", "G2": 44, "C1": 45, "E1": 44}
    for name, (parts, changes) in openings.CASES.items():
        base = {**changes.get("base", jobs.BASE), **said}
        kinds = ("walls", "rods", "cuts") if name in ("many", "every board, mirrored") else ("walls",)
        yield name, opened.opened(*parts, **{**changes, "base": base}), kinds
    for name, fields in made_tops.KINDS.items():
        yield f"made tops, {name}", jobs.build({**fields, **said}, rows), ("tags", "templates", "grade", "cuts")
    yield "rounds", graded.booked(grade_sheet.TWO, said), ("grade", "tags")
    yield "decimal feet", graded.booked(FEET, said), ("grade", "tags")
    for girts, metric_too in product(("between", "both"), (False, True)):
        given = {**combinations.changes("gable", "slot", girts, "laminated", metric_too), **said}
        made = jobs.job(given, base=jobs.METRIC if metric_too else jobs.BASE)
        yield f"girts {girts}", lay_out(made, jobs.every(made)), ("rods", "walls", "templates", "cuts")
    for some, wanted in SOME:
        yield str(some), jobs.build({**some, **said}, rows), wanted


def draw(building: Building, kinds: Sequence[str | None] = (None,)) -> list[packet.Packet]:
    """The packet of a building on the usual paper of its units, or those *kinds* of its sheets; its lanes and tags
    alone are drawn too, its files named and its warnings told."""
    paper = PAPERS["a4" if building.job.job.units == "metric" else "letter"]
    made = [packet.build(building, paper, kind) for kind in kinds]
    for one in made:
        for _ in one.parts():
            pass
        with speaking(one.speech):
            for _ in packet.drawings(one):
                pass
            if one.only in (None, "tags"):
                one.page()
            for text in (*(sheet.kind for sheet in one.sheets), *building.warnings):
                turn(text)
    return made


def leaves(speech: Speech) -> dict[str, str]:
    """The smallest parts that are missing, in their normal form, each with a text that holds it."""
    found: dict[str, str] = {}
    for text in sorted(speech.missed):
        for part in speech.lacking(text):
            found.setdefault(part, text)
    return found


def seldom(language: str) -> set[str]:
    """The texts that are known to be on no sheet of the jobs here."""
    read = tomllib.loads(files(languages).joinpath(f"{language}.toml").read_text(encoding="utf-8"))
    return set(read["texts"]["seldom"])


def main(language: str) -> None:
    import tempfile

    found: dict[str, str] = {}
    used: set[str] = set()
    with tempfile.TemporaryDirectory() as folder:
        cases = [*gallery(language, Path(folder)), *jobs_of(language), *combined(language, 3)]
    for _, building, kinds in cases:
        for made in draw(building, kinds):
            assert made.speech
            used |= made.speech.used
            for part, text in leaves(made.speech).items():
                found.setdefault(part, text)
    for part, text in sorted(found.items()):
        print(f"{part!r}   <- {text!r}")
    print(len(found), "missing", file=sys.stderr)
    for form in catalogue(language).texts:
        if form not in used:
            print(f"not seen{' (seldom)' * (form in seldom(language))}: {form!r}", file=sys.stderr)


if __name__ == "__main__":
    main(sys.argv[1])
