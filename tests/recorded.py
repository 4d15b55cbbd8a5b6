"""Jobs with what came of them, as they stand in two files: in ``tests/records.txt`` all numbers of a printed job and
one kind of its sheets by their digests, every warning, and all that is wrong with a job that is refused; in
``tests/words.txt`` the warnings and refusals alone."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from layouts.problems import JobRefused, Problem
from sheets import packet, report
from sheets.kinds import KINDS
from sheets.load import load
from sheets.paper import find
from sheets.shapes import Group, Line, Polygon, Shape, Text

RECORDS = Path(__file__).with_name("records.txt")
WORDS = Path(__file__).with_name("words.txt")
HEAD, READINGS, FOUND = "=== ", "--- readings", "--- found"
FIGURES = 8  # of a digest
READ = ("tags", "grade")  # kinds that there are of columns that were read alone
PLAIN = ("job", "head", "units", "at_stake", "not_read")  # what a job or its warnings say already


@dataclass(frozen=True)
class Record:
    """A job, its readings (``None``: no file), and what came of it, line by line."""

    number: int
    toml: str
    csv: str | None
    found: tuple[str, ...]

    def __str__(self) -> str:
        readings = "" if self.csv is None else f"{READINGS}\n{self.csv}"
        return f"{HEAD}{self.number}\n{self.toml}{readings}{FOUND}\n" + "".join(f"{line}\n" for line in self.found)


def records(text: str) -> Iterator[Record]:
    """The records of a file."""
    for number, block in enumerate(text.split(f"\n{HEAD}")):
        _, _, rest = block.partition("\n")
        given, _, found = rest.partition(f"{FOUND}\n")
        toml, marked, csv = given.partition(f"{READINGS}\n")
        yield Record(number, toml, csv if marked else None, tuple(found.splitlines()))


def outcome(number: int, toml: str, csv: str | None, words: bool = False) -> Iterator[str]:
    """What comes of a job; the *number* says which kind of its sheets is drawn, if not *words* alone are wanted."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "any.toml"
        path.write_text(toml, encoding="utf-8", newline="\n")
        if csv is not None:
            path.with_suffix(".csv").write_text(csv, encoding="utf-8", newline="\n")
        try:
            building = load(path)
            if words:
                yield from (f"! {warning}" for warning in building.warnings)
                return
            kinds = [kind for kind in KINDS if building.columns or kind not in READ]
            kind = kinds[number % len(kinds)]
            sheets = packet.build(building, find(building.job.job.paper), kind).sheets
        except JobRefused as refused:
            yield from map(_wrong, refused.problems)
            return
    numbers = report.as_json(building)
    yield from (f"! {warning}" for warning in numbers.pop("warnings"))
    yield " ".join(f"{name} {_digest(json.dumps(value))}" for name, value in numbers.items() if name not in PLAIN)
    yield f"{kind} {len(sheets)} {_digest(''.join(_drawn(s.page.drawing.shapes) for s in sheets))}"


def _wrong(problem: Problem) -> str:
    place = problem.place or "whole"
    return f"refused: {problem.file}, {place}: {problem.text!r} {problem.wrong} {problem.right}".strip()


def _digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()[:FIGURES]


def _drawn(shapes: Iterable[Shape]) -> str:
    """Every shape, its places to a thousandth of an inch."""
    return "\n".join(_shape(shape) for shape in shapes)


def _shape(shape: Shape) -> str:
    if isinstance(shape, Group):
        return f"{shape.name} {shape.title} ({_drawn(shape.shapes)})"
    values: list[Any] = [type(shape).__name__]
    if isinstance(shape, Line):
        values += [shape.x0, shape.y0, shape.x1, shape.y1, shape.width, *shape.dash]
    elif isinstance(shape, Polygon):
        values += [*(side for point in shape.points for side in point), shape.width, shape.grey]
    elif isinstance(shape, Text):
        values += [shape.x, shape.y, shape.size, shape.text, shape.cut, shape.turn, shape.grey]
    return " ".join(f"{value + 0.0:.3f}" if isinstance(value, float) else str(value) for value in values)


def rewritten(jobs: Iterable[tuple[str, str | None]], words: bool = False) -> str:
    """The file for some jobs."""
    made = (Record(n, toml, csv, tuple(outcome(n, toml, csv, words))) for n, (toml, csv) in enumerate(jobs))
    return "".join(map(str, made))


def rewrite(path: Path) -> None:
    """What comes of the jobs of a file now."""
    text = rewritten([(r.toml, r.csv) for r in records(path.read_text(encoding="utf-8"))], path == WORDS)
    path.write_text(text, encoding="utf-8", newline="\n")
