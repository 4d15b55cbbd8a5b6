"""Read the laser readings (CSV): column, reading, and a note if one likes.

A reading is the rod from the beam down to the bracket seat: larger is lower. Readings stay in inches as read.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from layouts.lengths import LengthError, Style, Unit, parse, show, unechoed
from layouts.problems import BOM, JobRefused, Problem, nearest, shorten

NEEDED = ("column", "reading")
KNOWN = (*NEEDED, "note")
MOST_READING = 30 * 12.0
MOST_ROWS = 5000
MOST_LETTERS = 1_000_000
_FRACTION = re.compile(r'\d{1,2}/\d{1,2} ?"?')  # a reading that a comma has cut in two


@dataclass(frozen=True)
class Readings:
    """*values*: inches by column name, in the order of the file. *notes*: what was written beside a reading."""

    values: Mapping[str, float]
    notes: Mapping[str, str]


NONE = Readings({}, {})


def read(
    text: str,
    columns: Collection[str],
    unit: Unit,
    file: str = "readings.csv",
    called: Mapping[str, str] | None = None,
) -> Readings:
    """The readings in *text* of a building with these *columns*; bare numbers are in *unit*. *called* tells the crew's
    own name of a column by its grid name, for the messages.

    A row without a number, or a column without a row, is simply not read: the layout names it. Lines that begin with
    ``#`` are remarks. Raises ``JobRefused`` with every problem found: unknown or doubled columns, text that is no
    length, a missing heading.
    """
    problems: list[Problem] = []
    values: dict[str, float] = {}
    notes: dict[str, str] = {}
    first: dict[str, str] = {}
    for place, row in _rows(text, file, problems):
        name = row["column"]
        wrong = _wrong_name(name, columns, first, called or {})
        if wrong:
            problems.append(Problem(file, place, name, *wrong))
            continue
        first.setdefault(name, place)
        if _FRACTION.fullmatch(row["note"]):
            right = f"Is the reading {row['reading']} {row['note']}?"
            problems.append(Problem(file, place, row["note"], "is a fraction where a note stands.", right))
        elif row["note"]:
            notes[name] = shorten(row["note"])
        if row["reading"]:
            values[name] = _value(row["reading"], unit, file, f"{place}, column {name}", problems)
    if problems:
        raise JobRefused(problems)
    return Readings(values, notes)


def _value(text: str, unit: Unit, file: str, place: str, problems: list[Problem]) -> float:
    """A reading in inches; what cannot be one is added to *problems*."""
    try:
        value = parse(text, unit)
    except LengthError as error:
        problems.append(Problem(file, place, text, unechoed(error, text) + "."))
        return 0.0
    if value <= 0:
        problems.append(Problem(file, place, text, "is in the beam itself.", "Leave it empty until it is read."))
    if value > MOST_READING:
        most = show(MOST_READING, Style(unit))
        problems.append(Problem(file, place, text, "is longer than any rod.", f"Up to {most}."))
    return value


def _wrong_name(
    name: str, columns: Collection[str], first: Mapping[str, str], called: Mapping[str, str]
) -> tuple[str, str] | None:
    if not name:
        return "has no column name.", "Each line is: column, reading."
    if name not in columns and name in called:
        return f"is called {called[name]} in this job.", f"Write {called[name]}."
    if name not in columns:
        return "is not a column of this job.", nearest(name, columns)
    if name in first:
        return f"stands here a second time, after {first[name]}.", "Keep one of them."
    return None


def _rows(text: str, file: str, problems: list[Problem]) -> Iterator[tuple[str, dict[str, str]]]:
    """Each row with its place in the file. Commas, semicolons and tabs are all met in spreadsheets."""
    lines = text.removeprefix(BOM).splitlines()
    if len(lines) > MOST_ROWS or len(text) > MOST_LETTERS:
        problems.append(Problem(file, "", "", "is larger than any building's readings.", f"At most {MOST_ROWS} lines."))
        return
    kept = [
        (f"line {i}", line) for i, line in enumerate(lines, 1) if line.strip() and not line.lstrip().startswith("#")
    ]
    if not kept:
        return
    mark = max(",;\t", key=kept[0][1].count)
    heading = [h.lower() for h in _cells(kept[0][1], mark)]
    if any(h not in KNOWN for h in heading) or any(heading.count(n) != 1 for n in NEEDED):
        right = "The first line is: column,reading"
        problems.append(Problem(file, kept[0][0], kept[0][1], "is not the heading of a readings file.", right))
        return
    for place, line in kept[1:]:
        cells = _cells(line, mark)
        if any(cells[len(heading) :]):
            right = "One column and its reading; decimals take a point."
            problems.append(Problem(file, place, line, "has more entries than the heading.", right))
            continue
        yield place, {"note": "", **dict(zip(heading, cells + [""] * len(heading), strict=False))}


def _cells(line: str, mark: str) -> list[str]:
    """The cells of one line; an inch mark inside a cell is no quote. A line too long for the reader is one cell."""
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=mark), [])]
    except csv.Error:
        return [line]
