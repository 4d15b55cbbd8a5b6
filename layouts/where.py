"""Where in a file's text a problem stands: the line, and the letters of it that are meant.

``tomllib`` tells a value without its line. So the text of a job is scanned once more, and only when something is wrong:
keys, headings and how far each value reaches. The scan takes a text that ``tomllib`` has read; of another one, or of
one that is odder than a job can be, it finds less, and never raises.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from functools import lru_cache

from msgspec import Struct

from layouts.fields import NAMES, OPENING, PARTS
from layouts.fields_openings import OpeningPart
from layouts.problems import Problem

Path = tuple[str | int, ...]

MOST_DEEP = 20  # lists and tables in one another: a job needs two
_KEY = re.compile(r"""[ \t]*("(?:[^"\\\n]|\\.)*"|'[^'\n]*'|[A-Za-z0-9_-]+)[ \t]*""")
_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}' + r"|'''.*?'{3,5}" + r'|"(?:[^"\\\n]|\\.)*"' + r"|'[^'\n]*'", re.DOTALL
)
_PLAIN = re.compile(r"[^\s,\]}#]+(?: \d[^\s,\]}#]*)?")  # a number, a word, a day with its time
_AT = re.compile(r"line (\d+), column (\d+)")
_LINE = re.compile(r"line (\d+)")
_NUMBERED = re.compile(r"(\w+) (\d+)")


class Where(Struct, frozen=True):
    """A place in a text: its *line*, from 1, and the *text* of that; the letters before it (*start*), and how many are
    meant (*width*, at least 1)."""

    line: int
    text: str
    start: int
    width: int


class _Found(Struct, frozen=True):
    """Where a field stands: letters *key* to *key_end* of the text are its name, *value* to *end* what it says."""

    key: int
    key_end: int
    value: int
    end: int


def find(problem: Problem, text: str) -> Where | None:
    """Where in *text*, the whole of its file, a problem stands; ``None`` where it stands nowhere in it.

    A field that is not there is looked for at the heading of its part. Lines are told as ``str.splitlines`` counts them
    in readings, and by line feeds in TOML.
    """
    place = problem.place
    if not place:
        return None
    if (at := _AT.fullmatch(place)) and not problem.text:  # else it is a column of readings that is called by figures
        return _of_syntax(text, int(at[1]), int(at[2]))
    if line := _LINE.match(place):
        return _in_line(_lines(text), int(line[1]) - 1, place, problem.text)
    first, _, name = place.partition(" ")
    if first in ("column", "benchmark") and name and "." not in place:
        lines = _lines(text)
        return next((_in_line(lines, i, place, problem.text) for i in _naming(lines, name, problem.text)), None)
    return _in_job(place, text)


@lru_cache(maxsize=2)
def _lines(text: str) -> list[str]:
    return text.splitlines()


# --- readings ---------------------------------------------------------------------------------------------------------


def _naming(lines: list[str], name: str, text: str) -> Iterator[int]:
    """The lines that have *name* in a cell of its own, those that hold all words of *text* first."""
    cell = re.compile(rf'(?:^|[,;\t])\s*"?{re.escape(name)}"?\s*(?:[,;\t]|$)')
    found = [i for i, line in enumerate(lines) if cell.search(line)]
    words = text.split()
    yield from sorted(found, key=lambda i: -sum(word in lines[i] for word in words))


def _in_line(lines: list[str], number: int, place: str, text: str) -> Where | None:
    """In a line of readings: the cell that is wrong, else the line as far as it says something."""
    if not 0 <= number < len(lines):
        return None
    line = lines[number]
    for wanted in (text, place.rpartition("column ")[2], place.rpartition(", ")[2]):
        cell = re.search(rf'(?:^|[,;\t"])\s*({re.escape(wanted)})\s*(?:[,;\t"]|$)', line) if wanted else None
        if cell:
            return Where(number + 1, line, cell.start(1), len(wanted))
    said = line.strip()
    start = line.find(text) if text and text in line else len(line) - len(line.lstrip())
    return Where(number + 1, line, start, max(len(text if text and text in line else said), 1))


# --- the job ----------------------------------------------------------------------------------------------------------


def _of_syntax(text: str, number: int, column: int) -> Where | None:
    """The place where a TOML reader stopped: the word there; at the end of a line the place after its last letter."""
    lines = text.split("\n")
    if number > len(lines):
        return None
    line = lines[number - 1].rstrip("\r")
    start = min(column - 1, len(line))
    word = re.match(r"\w+", line[start:])
    return Where(number, line, start, len(word[0]) if word else 1)


def _in_job(place: str, text: str) -> Where | None:
    found = _scanned(text)
    path = _path(place)
    if path in found:
        return _spot(text, *_meant(path, found[path]))
    for more in (path[:-1], path[:1]):
        if more in found:
            return _spot(text, found[more].key, found[more].key_end)
    return None


def _meant(path: Path, hit: _Found) -> tuple[int, int]:
    """Of a field its value; its name where there is no such field; of the user's own names both."""
    part = path[0]
    if hit.value == hit.end:
        return hit.key, hit.key_end
    if len(path) == 1:
        return (hit.value, hit.end) if part in (*PARTS, NAMES, OPENING) else (hit.key, hit.key_end)
    known = OpeningPart if part == OPENING else PARTS.get(str(part))
    if known is None:
        return hit.key, hit.end
    return (hit.value, hit.end) if path[-1] in known.specs else (hit.key, hit.key_end)


def _path(place: str) -> Path:
    """``building.width`` and ``opening 2.at`` as the scan has them; of a printer ``printer 1, along``."""
    part, _, key = place.partition(".")
    if part not in PARTS and part != NAMES:
        head, _, key = (part, "", key) if key else place.partition(", ")
        numbered = _NUMBERED.fullmatch(head)
        if not numbered:
            return (place,)
        return (numbered[1], int(numbered[2]), key) if key else (numbered[1], int(numbered[2]))
    return (part, key) if key else (part,)


def _spot(text: str, start: int, end: int) -> Where:
    """Letters *start* to *end* of the text, as far as their first line goes."""
    begin = text.rfind("\n", 0, start) + 1
    stop = text.find("\n", start)
    last = min(end, stop if stop >= 0 else len(text))
    said = text[start:last].rstrip()
    line = text[begin : stop if stop >= 0 else len(text)].rstrip("\r")
    return Where(text.count("\n", 0, start) + 1, line, start - begin, max(len(said), 1))


@lru_cache(maxsize=2)
def _scanned(text: str) -> dict[Path, _Found]:
    """Every field and heading of a TOML text by its path; entries of a list by their number, from 1."""
    scan = _Scan(text)
    scan.run()
    return scan.found


class _Scan:
    """One walk over a TOML text."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.found: dict[Path, _Found] = {}
        self.counts: dict[Path, int] = {}

    def run(self) -> None:
        """The whole text; it ends where something is that no TOML has."""
        at = 0
        table: Path = ()
        while (at := self._blank(at)) < len(self.text):
            if self.text[at] == "[":
                found = self._heading(at)
                if found is None:
                    return
                table, at = found
                continue
            stop = self._pair(at, table, 0)
            if stop is None:
                return
            at = stop

    def _blank(self, at: int) -> int:
        found = _BLANK.match(self.text, at)
        return found.end() if found else at

    def _keys(self, at: int) -> tuple[list[tuple[str, int, int]], int]:
        """A dotted name: each part with where it stands, and where it ends."""
        parts = []
        while found := _KEY.match(self.text, at):
            parts.append((_plain(found[1]), found.start(1), found.end(1)))
            at = found.end()
            if self.text[at : at + 1] != ".":
                break
            at += 1
        return parts, at

    def _heading(self, at: int) -> tuple[Path, int] | None:
        """A heading's path and where it ends."""
        many = self.text.startswith("[[", at)
        parts, end = self._keys(at + 1 + many)
        if not parts or not self.text.startswith("]]" if many else "]", end):
            return None
        path = self._placed(parts[:-1], ())
        last, end = parts[-1][0], end + 1 + many
        path = (*path, last)
        here = _Found(at, end, at, at)
        self.found.setdefault(path, here)
        if many:
            self.counts[path] = self.counts.get(path, 0) + 1
            path = (*path, self.counts[path])
            self.found.setdefault(path, here)
        return path, end

    def _placed(self, parts: list[tuple[str, int, int]], path: Path) -> Path:
        """The path down dotted names: of a list it is the last one so far."""
        for name, start, end in parts:
            path = (*path, name)
            self.found.setdefault(path, _Found(start, end, start, start))
            if path in self.counts:
                path = (*path, self.counts[path])
        return path

    def _pair(self, at: int, table: Path, deep: int) -> int | None:
        """A name and its value, from *at*; where they end."""
        parts, end = self._keys(at)
        if not parts or self.text[end : end + 1] != "=":
            return None
        path = (*self._placed(parts[:-1], table), parts[-1][0])
        value = next(i for i in range(end + 1, len(self.text) + 1) if self.text[i : i + 1] not in (" ", "\t"))
        stop = self._value(value, path, deep)
        if stop is None:
            return None
        self.found.setdefault(path, _Found(parts[0][1], parts[-1][2], value, stop))
        return stop

    def _value(self, at: int, path: Path, deep: int) -> int | None:
        """A value from *at*; where it ends."""
        if deep > MOST_DEEP:
            return None
        mark = self.text[at : at + 1]
        if mark in ("[", "{") and mark:
            return self._many(at + 1, path, deep + 1, "]" if mark == "[" else "}")
        found = _STRING.match(self.text, at) or _PLAIN.match(self.text, at)
        return found.end() if found else None

    def _many(self, at: int, path: Path, deep: int, close: str) -> int | None:
        """What stands in a list or an inline table, from *at*; where it ends."""
        number = 0
        while True:
            at = self._blank(at)
            if self.text.startswith(close, at):
                return at + 1
            number += 1
            start = at
            own = (*path, number)
            stop = self._value(at, own, deep) if close == "]" else self._pair(at, path, deep)
            if stop is None:
                return None
            if close == "]":
                self.found.setdefault(own, _Found(start, stop, start, stop))
            at = self._blank(stop)
            if self.text.startswith(",", at):
                at += 1


def _plain(key: str) -> str:
    """A key without its quotes."""
    if key[0] == "'":
        return key[1:-1]
    if key[0] != '"':
        return key
    try:
        return next(iter(tomllib.loads(f"{key} = 0")))
    except (tomllib.TOMLDecodeError, StopIteration):
        return key[1:-1]
