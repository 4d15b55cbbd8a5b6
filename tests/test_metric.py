"""A metric building whole: millimetres, degrees, 300 mm stock, A-series paper, and nothing imperial on any sheet."""

from __future__ import annotations

import re

import boxes
import pytest
from jobs import METRIC, build, every, job, job_text
from msgspec.structs import replace

from layouts import job as job_reader
from layouts.book_head import Head
from layouts.building import Building, lay_out
from layouts.lengths import Style
from sheets import cautions, packet
from sheets.paper import PAPERS

IMPERIAL = re.compile(r"""\d\s*["']|\d\s*(?:in(?! all)|ft|lb|lbs|mph)\b|\binch|\bfeet\b|of a foot|\d/12\b|PS 20""")


# two doors, a window, all that a wall can hold; degrees for the pitch
WHOLE = {
    "truss.pitch": "15 deg",
    "roof.overhang": 450,
    "roof.soffit": "level",
    "roof.fascia": 190,
    "wainscot.nailer": "45x140",
    "girts.rake": "45x90",
    "girts.blocking": 1000,
    "corners.board": "45x140",
    "corners.fillers": "between rows",
    "lumber.prices": ["45x90 4.8 m 19.50"],
}
OPENINGS = """
[[opening]]
name = "W9"
wall = "A"
kind = "window"
width = 1200
height = 900
sill = 1200
bay = 2

[[opening]]
name = "S9"
wall = "F"
kind = "sliding"
width = 3000
height = 2400
bay = 3
jambs = "posts"
"""


@pytest.fixture(scope="module")
def building() -> Building:
    changes = {k: v for k, v in WHOLE.items() if not k.startswith("nails")}
    made = job_reader.read(
        job_text(changes, base=METRIC) + OPENINGS.replace('"F"', f'"{_far()}"').replace("3000", "1500")
    )
    return lay_out(made, replace(every(made), head=Head("mm")))  # a rod of the job's own unit


def _far() -> str:
    """The letter of the wall opposite wall A."""
    return build(base=METRIC).walls[2].line.name


def test_nothing_imperial_stands_on_a_sheet(building: Building) -> None:
    made = packet.build(building, PAPERS["a4"])
    found = {
        text.words
        for sheet in made.sheets
        for text in boxes.written(sheet.page.drawing.shapes)
        if IMPERIAL.search(text.words.replace("29 CFR 1926", ""))
    }
    assert found == set()


def test_nothing_imperial_is_told_in_the_numbers_file(building: Building) -> None:
    made = packet.build(building, PAPERS["a4"])
    assert '"units": "mm"' in made.numbers
    assert not re.search(r'\d\\"|\d\'-', made.numbers)


def test_the_check_can_fail() -> None:
    for text in ('3 1/2"', "12'-6", "36 in", "10 ft", "51 lb", "4/12", "an inch", "15 mph"):
        assert IMPERIAL.search(text), text
    for text in ("in 12 mm steps", "at the foot first", "rod's foot", "450 mm", "15°", "2 in one row"[:1]):
        assert not IMPERIAL.search(text), text


def test_stock_comes_in_steps_of_300_mm() -> None:
    made = job(base=METRIC)
    for lengths in (made.lumber.stock, made.column.stock):
        assert all(
            (length * 25.4) % 300 == pytest.approx(0, abs=1e-6) or (length * 25.4) % 300 > 299.99 for length in lengths
        )


def test_cautions_have_the_limits_of_their_sources_in_both_units() -> None:
    """10 ft = 3.048 m, 18 ft = 5.486 m, 6 ft = 1.829 m, 51 lb = 23.13 kg: rounded to the safe side."""
    imperial, metric = " ".join(cautions.of_job(Style("in"))), " ".join(cautions.of_job(Style("mm")))
    for text in ("10 ft", "18 ft", "6 ft", "51 lb"):
        assert text in imperial
    for text, most in (("3 m", 3.048), ("5.4 m", 5.486), ("1.8 m", 1.829)):
        assert text in metric
        assert float(text.split()[0]) <= most
    assert "23 kg" in metric
