"""The field book: the file of laser readings (CSV) as it was written, line by line.

First, if they are wanted, lines that say how the readings were taken (``layouts.book_head``). Then the heading and a
line a reading: ``column,reading`` and, as one likes, ``set-up``, ``round``, ``on`` and ``note``. A set-up's first point
may stand in it again: that is its check-back. Lines that begin with ``#`` are remarks.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Collection, Iterator, Mapping

from msgspec import Struct

from layouts.book_head import KEYS, MOST_LABEL, Head, HeadReader
from layouts.book_number import Numbers
from layouts.lengths import Unit
from layouts.problems import BOM, JobRefused, Problem, nearest, shorten

NEEDED = ("column", "reading")
KNOWN = (*NEEDED, "set-up", "round", "on", "note")
ONE = "1"  # the set-up, and the round, where none is named
MOST_ROWS = 5000
MOST_LETTERS = 1_000_000
MOST_SETUPS = 60
MARKS = ",;\t"  # between cells: all three are met in spreadsheets
_HINT = re.compile(rf'"?sep=[{MARKS}]+"?[{MARKS}]*', re.IGNORECASE)


class Sight(Struct, frozen=True):
    """One reading. *down*: inches from the beam down to the seat (or the benchmark); of a rod whose larger readings are
    higher it is minus the reading. *text* is what was written, *raw* the same in inches as the rod reads, the plate not
    taken off; *concrete* whether it was read below the plate; *place* the line of the file."""

    point: str
    setup: str
    round: str
    down: float
    text: str
    raw: float
    note: str
    place: str
    concrete: bool = False


class Book(Struct, frozen=True):
    """A whole file. *notes* hold all that was written beside a point, read or not; *file* names it in messages."""

    head: Head
    sights: tuple[Sight, ...]
    notes: Mapping[str, str]
    file: str


def read(
    text: str,
    columns: Collection[str],
    unit: Unit,
    file: str = "readings.csv",
    called: Mapping[str, str] | None = None,
) -> Book:
    """The book in *text* of a building with these *columns*; *unit* is the job's, for what the file does not say.
    *called* tells the crew's own name of a column by its grid name, for the messages.

    A row without a number is not read: the layout names its column. Raises ``JobRefused`` with every problem found:
    unknown or doubled columns, text that is no length, a missing heading, words that say nothing known.
    """
    return _Reader(columns, unit, file, called or {}).book(text)


class _Reader:
    """One file being read; what is wrong is gathered in *problems*."""

    def __init__(self, columns: Collection[str], unit: Unit, file: str, called: Mapping[str, str]) -> None:
        self.columns, self.unit, self.file, self.called = columns, unit, file, called
        self.problems: list[Problem] = []
        self.how = HeadReader(columns, unit, self.called, self.say)
        self.lines: dict[tuple[str, str], dict[str, str]] = {}  # of every round and set-up: points read, and where
        self.last: dict[
            tuple[str, str], tuple[str, str]
        ] = {}  # of each the point of its last line and where, read or not
        self.numbers = Numbers(unit, self.say)

    @property
    def head(self) -> Head:
        """How the readings were taken, as far as it has been read."""
        return self.how.head

    def say(self, place: str, text: str, wrong: str, right: str = "") -> Problem:
        """Note a problem."""
        self.problems.append(Problem(self.file, place, text, wrong, right))
        return self.problems[-1]

    def book(self, text: str) -> Book:
        """The whole of it; raises ``JobRefused``."""
        sights: list[Sight] = []
        notes: dict[str, list[str]] = {}
        for place, row in self._rows(text):
            found = self._sight(place, row)
            if row["note"] and row["column"] and row["note"] not in notes.setdefault(row["column"], []):
                notes[row["column"]].append(row["note"])
            if found:
                sights.append(found)
        if len({(s.round, s.setup) for s in sights}) > MOST_SETUPS:
            self.say("", "", f"has more than {MOST_SETUPS} set-ups.", "Make a file of each round.")
        if self.problems:
            raise JobRefused(self.numbers.told(self.problems, self.head))
        return Book(self.head, tuple(sights), {n: shorten("; ".join(said)) for n, said in notes.items()}, self.file)

    # --- lines ------------------------------------------------------------------------------------------------------

    def _rows(self, text: str) -> Iterator[tuple[str, dict[str, str]]]:
        """Each row with its place in the file."""
        lines = text.removeprefix(BOM).splitlines()
        if len(lines) > MOST_ROWS or len(text) > MOST_LETTERS:
            self.say("", "", "is larger than any building's readings.", f"At most {MOST_ROWS} lines.")
            return
        kept = [(f"line {i}", line) for i, line in enumerate(lines, 1) if not is_empty(line)]
        at = next((i for i, (_, line) in enumerate(kept) if _is_heading(line)), None)
        for place, line in self._before(kept, at):
            # its own mark: a spreadsheet fills short lines with empty cells, a hand does not
            self.how.line(place, cells(line, max(MARKS, key=line.count)))
        self.how.done()
        if at is None:
            return
        mark = max(MARKS, key=kept[at][1].count)
        heading = _heads(kept[at][1], mark)
        if not self._heading(*kept[at], heading):
            return
        for place, line in kept[at + 1 :]:
            found = cells(line, mark)
            if any(found[len(heading) :]) or any(c for h, c in zip(heading, found, strict=False) if not h):
                right = "One column and its reading; decimals take a point."
                self.say(place, line, "has more entries than the heading.", right)
            else:
                yield place, dict.fromkeys(KNOWN, "") | dict(zip(heading, found, strict=False))

    def _before(self, kept: list[tuple[str, str]], at: int | None) -> list[tuple[str, str]]:
        """The lines before the heading; where there is none, the first line that says nothing else is named."""
        if at is not None:
            return kept[:at]
        known = [_heads(line, max(MARKS, key=line.count))[0] in KEYS for _, line in kept]
        if not all(known):
            right = "The first line, or the one after the words about how it was read, is: column,reading"
            self.say(*kept[known.index(False)], "is not the heading of a readings file.", right)
            return []
        return kept

    def _heading(self, place: str, line: str, heading: list[str]) -> bool:
        """Whether rows can be read under this heading; what is wrong with it is said."""
        odd = list(dict.fromkeys(h for h in heading if h and h not in KNOWN))
        doubled = [h for h in KNOWN if heading.count(h) > 1]
        missing = [h for h in NEEDED if h not in heading]
        wrong = [f"has no {h}" for h in missing] + [f"has {h} twice" for h in doubled]
        wrong += [f"has {shorten(h, 20)}, which is not known" for h in odd]
        if wrong:
            right = f"It is: column,reading and, as one likes, {', '.join(KNOWN[2:])}."
            self.say(place, line, f"is not the heading of a readings file: it {', '.join(wrong)}.", right)
        return not missing and not doubled

    # --- one reading ------------------------------------------------------------------------------------------------

    def _sight(self, place: str, row: dict[str, str]) -> Sight | None:
        """The reading in a row; none where there is no number yet, or where something is wrong with it."""
        name, text, note = row["column"], row["reading"], row["note"]
        labels = (row["round"] or ONE, row["set-up"] or ONE)
        wrong = self._wrong_name(name, labels, place, text != "")
        if wrong:
            self.say(place, name, *wrong)
            return None
        self.numbers.note(place, text, note)
        for label in labels:
            if len(label) > MOST_LABEL:
                self.say(place, label, f"is {len(label)} letters long.", f"At most {MOST_LABEL}.")
        on = row["on"].lower()
        if on not in ("", "seat", "concrete"):
            self.say(place, row["on"], "is not what is read on.", "Choose from seat, concrete.")
        if not text:
            return None
        raw = self.numbers.inches(text, f"{place}, column {name}", self.head, name in self.head.benchmarks)
        concrete = name not in self.head.benchmarks and (on == "concrete" or (not on and self.head.concrete))
        down = (-raw if self.head.up else raw) - (self.head.plate if concrete else 0.0)
        return Sight(name, labels[1], labels[0], down, text, raw, note, place, concrete)

    def _wrong_name(self, name: str, labels: tuple[str, str], place: str, read: bool) -> tuple[str, str] | None:
        (before, at), self.last[labels] = self.last.get(labels, ("", "")), (name, place)
        if not name:
            return "has no column name.", "Each line is: column, reading."
        if name not in self.columns and name not in self.head.benchmarks:
            return self._unknown(name)
        lines = self.lines.setdefault(labels, {})
        if not read:
            return None
        where = "" if labels == (ONE, ONE) else f" of round {labels[0]}, set-up {labels[1]}"
        if name in lines and before == name == next(iter(lines)):
            again = f"is read again here{where} with nothing read since {at}."
            return again, "Keep one of them; the first point is read back after other seats."
        if name in lines and name != next(iter(lines)):
            return (
                f"stands here a second time{where}, after {lines[name]}.",
                "Keep one of them; only the first point of a set-up is read back.",
            )
        lines.setdefault(name, place)
        return None

    def _unknown(self, name: str) -> tuple[str, str]:
        if name in self.called:
            return f"is called {self.called[name]} in this job.", f"Write {self.called[name]}."
        if name.lower() in KEYS:
            return "is not a column of this job.", "How the rod was read is said before the heading."
        right = nearest(name, self.columns)
        if len(name) <= MOST_LABEL and not right.startswith("Did"):
            right += f" A benchmark is named before the heading: benchmark,{name}"
        return "is not a column of this job.", right


def is_empty(line: str) -> bool:
    """Whether a line says nothing: a remark, an emptied row, which a spreadsheet keeps as bare commas, or its hint of
    what stands between cells (``sep=;``), which is seen in the other lines anyway."""
    if _HINT.fullmatch(line.strip(" \r\n")):
        return True
    return line.lstrip().startswith("#") or all(c in MARKS or c.isspace() for c in line.replace('""', ""))


def _is_heading(line: str) -> bool:
    """Whether a line names columns: the words about how it was read never begin so."""
    heading = _heads(line, max(MARKS, key=line.count))
    return heading[0] not in KEYS and any(h in NEEDED for h in heading)


def _heads(line: str, mark: str) -> list[str]:
    """The names of a heading; a set-up may be written in several ways."""
    found = [h.lower() for h in cells(line, mark)]
    while found and not found[-1]:
        found.pop()
    return ["set-up" if h in ("setup", "set up") else h for h in found] or [""]


def cells(line: str, mark: str) -> list[str]:
    """The cells of one line; an inch mark inside a cell is no quote. A line too long for the reader is one cell."""
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=mark), [])] or [""]
    except csv.Error:
        return [line]
