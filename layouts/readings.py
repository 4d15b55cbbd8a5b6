"""Read the laser readings (CSV): column, reading, and a note if one likes.

A reading is the rod from the beam down to the bracket seat: larger is lower. Readings stay in inches as read.
"""

from __future__ import annotations

import csv
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from layouts.lengths import LengthError, Unit, parse
from layouts.problems import JobRefused, Problem, nearest, shorten

NEEDED = ("column", "reading")
KNOWN = (*NEEDED, "note")
MOST_READING = 30 * 12.0
MOST_ROWS = 5000
MOST_LETTERS = 1_000_000


@dataclass(frozen=True)
class Readings:
    """*values*: inches by column name, in the order of the file. *notes*: what was written beside a reading."""

    values: Mapping[str, float]
    notes: Mapping[str, str]


NONE = Readings({}, {})


def read(text: str, columns: Collection[str], unit: Unit, file: str = "readings.csv") -> Readings:
    """The readings in *text* of a building with these *columns*; bare numbers are in *unit*.

    A row without a number, or a column without a row, is simply not read: the layout names it. Lines that begin with
    ``#`` are remarks. Raises ``JobRefused`` with every problem found: unknown or doubled columns, text that is no
    length, a missing heading.
    """
    problems: list[Problem] = []
    values: dict[str, float] = {}
    notes: dict[str, str] = {}
    for line, row in _rows(text, file):
        name, number = row["column"], row["reading"]
        problem = _wrong_name(name, columns, values)
        if problem:
            problems.append(Problem(file, f"line {line}", name, *problem))
            continue
        if row.get("note"):
            notes[name] = shorten(row["note"])
        if not number:
            continue
        try:
            value = parse(number, unit)
        except LengthError as error:
            problems.append(Problem(file, f"line {line}, column {name}", number, str(error)))
            continue
        if value > MOST_READING:
            problems.append(
                Problem(file, f"line {line}, column {name}", number, "is longer than any rod.", "Up to 30'.")
            )
        values[name] = value
    if problems:
        raise JobRefused(problems)
    return Readings(values, notes)


def _wrong_name(name: str, columns: Collection[str], values: Mapping[str, float]) -> tuple[str, str] | None:
    if not name:
        return "has no column name.", "Each line is: column, reading."
    if name not in columns:
        return "is not a column of this job.", nearest(name, columns)
    if name in values:
        return "stands here a second time.", "Keep one line for each column."
    return None


def _rows(text: str, file: str) -> Iterator[tuple[int, dict[str, str]]]:
    """Each row with its line number, heading checked. Commas, semicolons and tabs are all met in spreadsheets."""
    lines = text.removeprefix("\N{ZERO WIDTH NO-BREAK SPACE}").splitlines()
    if len(lines) > MOST_ROWS or len(text) > MOST_LETTERS:
        raise JobRefused(
            [Problem(file, "", "", "has more lines than any building has columns.", f"At most {MOST_ROWS}.")]
        )
    kept = [(i, line) for i, line in enumerate(lines, 1) if line.strip() and not line.lstrip().startswith("#")]
    if not kept:
        return
    mark = max(",;\t", key=lambda m: kept[0][1].count(m))
    heading = [h.strip().lower() for h in _cells(kept[0][1], mark)]
    unknown = [h for h in heading if h not in KNOWN]
    if unknown or any(heading.count(n) != 1 for n in NEEDED):
        place = f"line {kept[0][0]}"
        raise JobRefused(
            [
                Problem(
                    file,
                    place,
                    kept[0][1],
                    "is not the heading of a readings file.",
                    "The first line is: column,reading",
                )
            ]
        )
    for number, line in kept[1:]:
        cells = [c.strip() for c in _cells(line, mark)]
        if len(cells) > len(heading) and any(cells[len(heading) :]):
            raise JobRefused(
                [
                    Problem(
                        file,
                        f"line {number}",
                        line,
                        "has more entries than the heading.",
                        "One column and its reading.",
                    )
                ]
            )
        yield number, dict(zip(heading, cells + [""] * len(heading), strict=False))


def _cells(line: str, mark: str) -> list[str]:
    """The cells of one line; an inch mark inside a cell is no quote."""
    return next(csv.reader([line], delimiter=mark), [])
