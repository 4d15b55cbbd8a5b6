"""A whole job taken the way of the command line: read, laid out, drawn, written, read back, released; or refused.

What is released is held against the second opinion too, which shares nothing with the layout, as far as it knows the
building, and leaves nothing in English where the job wants another language.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import catalogue
import opinions as second
from whole_jobs import Whole

from layouts.building import Building
from layouts.problems import JobRefused
from layouts.where import find as find_line
from sheets import packet
from sheets.audit import differences
from sheets.load import load
from sheets.packet import Packet
from sheets.paper import find

KINDS = ("field", "grade", "tags", "walls", "roof", "templates", "cladding", "cuts") * 3 + ("rods",)
"""Kinds of sheets as often as they are tried: a rod takes many pages, and its numbers are the same on all of them."""
FILES = ("any.toml", "any.csv", "--only", "job.tags")
"""What a problem is of: a file, or what is asked for where it is the sheet that has no room; a rod is called by its
title."""
REFUSED, PRINTED = "refused", "printed"


class NotReleased(Exception):
    """Files that do not hold what they should."""


def tried(whole: Whole, only: str | None, folder: Path) -> str:
    """Print *whole*, one kind of its sheets or all, below *folder*, which is empty: whether it is refused or printed.

    Raises ``AssertionError`` where a refusal has no words, the second opinion is another one, or a text has stayed in
    English, ``NotReleased`` where the audit is of another opinion; what else is raised is a fault.
    """
    (folder / "any.toml").write_text(whole.toml, encoding="utf-8", newline="\n")
    if whole.csv is not None:
        (folder / "any.csv").write_text(whole.csv, encoding="utf-8", newline="\n")
    try:
        building = load(folder / "any.toml")
        made = packet.build(building, find(building.job.job.paper), only)
    except JobRefused as refused:
        in_words(refused)
        return REFUSED
    written = packet.save(made, folder / "packet", check=lambda new: _read_back(made, building, new))
    assert {path.name for path in written} >= {"packet.json", packet.NUMBERS, "index.html"}
    numbers = json.loads((folder / "packet" / packet.NUMBERS).read_text(encoding="utf-8"))
    wrong = list(other_numbers(whole, numbers))
    assert not wrong, "\n".join(wrong[:20])
    assert left_in_english(made) == {}
    return PRINTED


def left_in_english(made: Packet) -> dict[str, str]:
    """What a packet in another language says in English, each with a text that holds it."""
    return catalogue.leaves(made.speech) if made.speech else {}


def _read_back(made: Packet, building: Building, new: Path) -> None:
    found = differences(made, building, new)
    if found:
        raise NotReleased("\n".join(str(difference) for difference in found[:20]))


def in_words(refused: JobRefused) -> None:
    """Every problem names what it is of, says what is wrong, and its line is one of the file, if it has one."""
    assert refused.problems
    for problem in refused.problems:
        assert problem.file in FILES or " rod" in problem.file, problem
        assert problem.wrong, problem
        assert str(problem).isprintable(), problem
        text = refused.texts.get(problem.file, "")
        where = find_line(problem, text)
        assert where is None or 1 <= where.line <= len(text.splitlines()) + 1, problem


# --- the second opinion ----------------------------------------------------------------------------------------------


def other_numbers(whole: Whole, numbers: dict[str, Any]) -> Iterator[str]:
    """What the second opinion has otherwise."""
    if whole.of is None:
        return
    found = by_grid(numbers, {crew: grid for grid, crew in whole.called.items()})
    parts = [(second.roof_worked, second.roof_found)]
    if whole.of.down:
        parts.append((second.columns_worked, second.columns_found))
    if whole.rows:
        parts += [(second.rows_worked, second.rows_found), (second.rod_worked, second.rod_found)]
    for worked, report in parts:
        yield from second.differences(worked(whole.of), report(found), whole.of.steps)


def by_grid(numbers: dict[str, Any], grid: dict[str, str]) -> dict[str, Any]:
    """The numbers with their columns called by the grid, those alone that are read."""
    columns = [{**c, "name": grid.get(c["name"], c["name"])} for c in numbers["columns"] if c["reading"]]
    return {**numbers, "columns": columns}
