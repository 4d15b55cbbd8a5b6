"""The file of readings as lines that are added to and changed: what a person wrote in it stays as it stands.

Texts go in and out whole, without a byte order mark. They are files that ``layouts.book`` has read: its rules say what
is a heading, a remark, a mark between cells. Nothing here judges what it is given to write: read the text again.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from layouts.book import KNOWN, MARKS, ONE, cells, is_empty
from layouts.book_head import KEYS
from layouts.problems import BOM

HEADING = "column,reading,note"  # of a file that has none yet; set-up and round are added when they are needed


class Row(Struct, frozen=True):
    """One line after the heading: *at* counts the file's lines from 0, the rest is what its cells say."""

    at: int
    point: str
    reading: str
    setup: str
    round: str
    note: str


class _Heading(Struct, frozen=True):
    at: int
    mark: str
    names: tuple[str, ...]


def has_heading(text: str) -> bool:
    """Whether readings can be written into *text* as it is."""
    return _heading(text.splitlines()) is not None


def begun(text: str, words: Sequence[tuple[str, str]]) -> str:
    """*text* with *words* (each a word and what it is) before its heading, and with a heading."""
    lines = text.splitlines(keepends=True)
    end = _end(lines)
    if not has_heading(text):
        lines = [*_closed(lines, end), HEADING + end]
    at = _found(lines)
    new = [_said(at.mark, *word) + end for word in words]
    return "".join([*lines[: at.at], *new, *lines[at.at :]])


def named(text: str, name: str, where: str) -> str:
    """*text* with the benchmark *name*, and *where* it is, before its heading."""
    lines = text.splitlines(keepends=True)
    at = _found(lines)
    return "".join([*lines[: at.at], _said(at.mark, "benchmark", name, where) + _end(lines), *lines[at.at :]])


def rows(text: str) -> tuple[Row, ...]:
    """Every line after the heading that is not empty and no remark."""
    lines = text.splitlines()
    head = _heading(lines)
    if head is None:
        return ()
    found = []
    for at, line in enumerate(lines[head.at + 1 :], head.at + 1):
        if not is_empty(line):
            own = dict.fromkeys(KNOWN, "") | dict(zip(head.names, cells(line, head.mark), strict=False))
            labels = own["set-up"] or ONE, own["round"] or ONE
            found.append(Row(at, own["column"], own["reading"], *labels, own["note"]))
    return tuple(row for row in found if row.point or row.reading or row.note)


def added(text: str, row: Row) -> str:
    """*text* with one more line behind the others; *row.at* does not matter."""
    text = _widened(text, row)
    lines = text.splitlines(keepends=True)
    head, end = _found(lines), _end(lines)
    own = {"column": row.point, "reading": row.reading, "set-up": row.setup, "round": row.round, "note": row.note}
    line = head.mark.join(_cell(own.get(name, ""), head.mark) for name in head.names) + end
    at = max(i for i, before in enumerate(lines) if before.strip()) + 1
    return "".join([*_closed(lines[:at], end), line, *lines[at:]])


def changed(text: str, row: Row) -> str:
    """*text* with the reading and the note of *row* in the line where it stands."""
    text = _widened(text, row)
    lines = text.splitlines(keepends=True)
    head, old = _found(lines), lines[row.at]
    bare = old.splitlines()[0]
    found = cells(bare, head.mark)
    found += [""] * (len(head.names) - len(found))
    for name, value in (("reading", row.reading), ("note", row.note)):
        if name in head.names:
            found[head.names.index(name)] = value
    lines[row.at] = head.mark.join(_cell(cell, head.mark) for cell in found) + old[len(bare) :]
    return "".join(lines)


def _widened(text: str, row: Row) -> str:
    """*text* whose heading has the columns that *row* needs."""
    lines = text.splitlines(keepends=True)
    head = _found(lines)
    needed = {"set-up": row.setup != ONE, "round": row.round != ONE, "note": row.note != ""}
    more = [name for name, wanted in needed.items() if wanted and name not in head.names]
    if not more:
        return text
    old = lines[head.at]
    bare = old.splitlines()[0]
    kept = cells(bare.removeprefix(BOM), head.mark)[: len(head.names)]
    before = BOM if bare.startswith(BOM) else ""
    lines[head.at] = before + head.mark.join([*kept, *more]) + old[len(bare) :]
    return "".join(lines)


# --- lines and cells ------------------------------------------------------------------------------------------------


def _heading(lines: Sequence[str]) -> _Heading | None:
    """The first line that is no word about how it was read."""
    for at, line in enumerate(lines):
        plain = line.removeprefix(BOM) if at == 0 else line
        mark = max(MARKS, key=plain.count)
        found = [] if is_empty(plain) else [cell.lower() for cell in cells(plain.splitlines()[0], mark)]
        if found and found[0] not in KEYS:
            while not found[-1] and len(found) > 1:
                found.pop()
            return _Heading(at, mark, tuple("set-up" if f in ("setup", "set up") else f for f in found))
    return None


def _found(lines: Sequence[str]) -> _Heading:
    head = _heading(lines)
    if head is None:
        raise ValueError("this file has no heading: begin it first")
    return head


def _end(lines: Sequence[str]) -> str:
    """How lines end in this file."""
    first = next((line for line in lines if line.endswith(("\n", "\r"))), "\n")
    return first[len(first.rstrip("\r\n")) :]


def _closed(lines: Sequence[str], end: str) -> list[str]:
    """*lines*, the last of which has an end too."""
    if not lines or lines[-1].splitlines()[0] != lines[-1]:
        return list(lines)
    return [*lines[:-1], lines[-1] + end]


def _said(mark: str, *words: str) -> str:
    """A line about how it was read. Its mark is known by its count: words must not bring others along."""
    clean = [" ".join(word.translate(dict.fromkeys(map(ord, MARKS), " ")).split()) for word in words]
    return mark.join(word for word in clean if word)


def _cell(value: str, mark: str) -> str:
    """A cell that reads back as *value*; a line must not become a remark."""
    if mark in value or value.startswith(('"', "#")):
        return '"' + value.replace('"', '""') + '"'
    return value
