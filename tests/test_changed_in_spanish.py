"""What has changed, in Spanish: on the sheet on top of what is printed anew, and in the sums that are told first."""

from __future__ import annotations

from pathlib import Path

import boxes
import catalogue as drawn
import told
from random_buildings import drawn as building_drawn

from layouts import job as reader
from layouts import roof
from layouts.building import Building, lay_out
from layouts.problems import JobRefused
from sheets import changes
from sheets.compare import compare
from sheets.language import speaking, turn
from sheets.own_words import speech
from sheets.paper import PAPERS
from sheets.sides import of_job

JOBS = range(200)


def test_every_sum_has_a_name_in_every_language() -> None:
    """Of 200 random roofs of all kinds: what makes a height is told first where it has changed."""
    names = set()
    for number in JOBS:
        try:
            names |= {total.name for total in roof.build(reader.read(building_drawn(number).toml)).sums}
        except JobRefused:
            continue
    assert len(names) > 6
    lacking = {name: list(told.parts(told.speech("spanish"), f'{name}: was 1", now 2"')) for name in names}
    assert {name: parts for name, parts in lacking.items() if parts} == {}


def larkspur(folder: Path, line: str, other: str) -> Building:
    """The shed of the gallery in Spanish, with another *line* in its job."""
    (case,) = [c for c in drawn.gallery("spanish", folder) if c[0] == "larkspur"]
    text = drawn.spoken((drawn.GALLERY / "larkspur" / "job.toml").read_text(encoding="utf-8"), "spanish")
    assert line in text
    return lay_out(reader.read(text.replace(line, other)), case[1].readings)


def test_the_sheet_that_lies_on_top_is_whole_in_spanish_on_all_of_its_pages(tmp_path: Path) -> None:
    """Every tag, rod and wall is another where the bearing is an inch higher: more than one page of them."""
    (case,) = [c for c in drawn.gallery("spanish", tmp_path) if c[0] == "larkspur"]
    higher = larkspur(tmp_path, 'bearing = "11\'-4"', 'bearing = "11\'-5"')
    found = compare(of_job(case[1], "antes"), of_job(higher, "ahora"))
    spoken = speech(case[1], "antes", "ahora")
    assert spoken
    with speaking(spoken):
        pages = changes.pages(found, case[1].job.job.name, PAPERS["letter"])
        titles = [turn(page.title) for page in pages]
    texts = [t for page in pages for t in boxes.written(page.drawing.shapes)]
    assert titles[:2] == ["Cambios 1", "Cambios 2"]
    assert drawn.leaves(spoken) == {}
    assert not {"lámina", "Láminas"} & {word for text in texts for word in text.words.split()}
