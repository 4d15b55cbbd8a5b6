"""The line of a file that a problem stands in, with a caret under what is meant."""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, TextIO

from msgspec.structs import asdict, replace

from layouts.problems import JobRefused, Problem, shorten
from layouts.where import Where, find
from sheets import tongue
from sheets.terminal import USUAL, shown, styled, width, wrapped

TAB = "    "
CUT = "..."
MOST_TOLD = 100
LEAST = 8  # letters of the line that are left before and after what is meant


def tell(problems: Iterable[Problem], texts: Mapping[str, str]) -> None:
    """Every problem on standard error; of very many, which stand there by one mistake or by no hand, the first."""
    known = list(problems)
    for style, line in told(known[:MOST_TOLD], texts, sys.stderr):
        styled(line, style, sys.stderr)
    if len(known) > MOST_TOLD:
        styled(tongue.turned(f"And {len(known) - MOST_TOLD} more: mend these first."), "bold", sys.stderr)


def told(problems: Iterable[Problem], texts: Mapping[str, str], stream: TextIO) -> Iterator[tuple[str, str]]:
    """The lines of every problem as *stream* shows them, each with its style: ``file:line: field``, the line, a caret
    under the value, what is wrong and what would be right. *texts* are the files by their names; what is in none of
    them, or stands nowhere in its own, is told in one sentence. Lines are wrapped in a terminal alone."""
    across = width(stream)
    for problem in problems:
        text = texts.get(problem.file)
        where = find(problem, text) if text is not None else None
        if text is None or where is None:
            yield from (("", line) for line in wrapped(whole(problem), across, "  "))
            continue
        yield from (("bold", line) for line in wrapped(_head(problem, where), across, "  "))
        yield from zip(("", "bold red"), pointed(where, across or USUAL - 1, stream), strict=True)
        yield from (
            ("", line) for line in wrapped(tongue.turned(f"  {problem.wrong} {problem.right}".rstrip()), across)
        )


def whole(problem: Problem) -> str:
    """A problem in one sentence, in the language that the terminal speaks."""
    said = tongue.turned(f"{problem.wrong} {problem.right}".rstrip())
    return str(replace(problem, place=tongue.place(problem.place), wrong=said, right=""))


def as_json(refused: JobRefused) -> dict[str, Any]:
    """All that is wrong, for programs: each in one sentence, and the same in parts. Line and column count from 1; they
    are ``null`` where a problem has no place in its file."""
    found = []
    for problem in refused.problems:
        text = refused.texts.get(problem.file)
        where = find(problem, text) if text is not None else None
        at = {"line": where.line, "column": where.start + 1} if where else {"line": None, "column": None}
        found.append({**asdict(problem), **at})
    return {"problems": [str(problem) for problem in refused.problems], "refused": found}


def _head(problem: Problem, where: Where) -> str:
    """File and line as editors take them, then the field, and what it says where the line does not show it."""
    place = problem.place
    for known in (f"line {where.line}, ", f"line {where.line}"):
        place = place.removeprefix(known)
    if not problem.text and place.removeprefix("column ").isdigit():  # of a TOML reader: the caret tells it
        place = ""
    text = shorten(problem.text)
    seen = shorten(where.text, len(where.text) + 1)
    said = f" = {text}" if text and text.rstrip("…") not in seen and place else ""
    return f"{problem.file}:{where.line}:" + (f" {shorten(tongue.place(place))}{said}" if place else "")


def pointed(where: Where, across: int, stream: TextIO) -> tuple[str, str]:
    """Two lines of at most *across*: the line after its number, cut round what is meant, and carets under that."""
    line, end = where.text, where.start + where.width
    gutter = f"  {where.line} | "
    before, meant, after = (_plain(p, stream) for p in (line[: where.start], line[where.start : end], line[end:]))
    room = max(across - cells(gutter), 3 * LEAST)
    if cells(before + meant + after) > room:
        before, meant, after = _cut(before, meant, after, room)
    blank = " " * (len(gutter) - 2)
    pointer = f"{blank}| {' ' * cells(before)}{'^' * max(cells(meant), 1)}"
    return f"{gutter}{before}{meant}{after}".rstrip(), pointer


def _cut(before: str, meant: str, after: str, room: int) -> tuple[str, str, str]:
    """The same within *room*: as much as goes before and after what is meant, dots where something is left out."""
    if cells(meant) > room - 2 * LEAST:
        meant = _first(meant, room - 2 * LEAST - len(CUT)) + CUT
    rest = room - cells(meant)
    right = min(cells(after), max(rest // 2, rest - cells(before)))
    if cells(before) > rest - right:
        before = CUT + _last(before, rest - right - len(CUT))
    if cells(after) > right:
        after = _first(after, right - len(CUT)) + CUT
    return before, meant, after


def _first(text: str, most: int) -> str:
    """The letters that go into *most* places."""
    taken = 0
    for i, letter in enumerate(text):
        taken += cells(letter)
        if taken > most:
            return text[:i]
    return text


def _last(text: str, most: int) -> str:
    """The last letters that go into *most* places; a mark is not parted from its letter."""
    taken, i = 0, len(text)
    while i and taken + cells(text[i - 1]) <= most:
        i -= 1
        taken += cells(text[i])
    while i < len(text) and cells(text[i]) == 0:
        i += 1
    return text[i:]


def _plain(text: str, stream: TextIO) -> str:
    """As it stands in a terminal: tabs as blanks, what cannot be printed as one sign."""
    letters = (TAB if c == "\t" else c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)
    return shown("".join(letters), stream)


def cells(text: str) -> int:
    """Places that *text* takes in a terminal: two for wide letters (UAX 11), none for marks set over others."""
    return sum(_cell(c) for c in text)


def _cell(letter: str) -> int:
    if letter.isascii():
        return 1
    if unicodedata.category(letter) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1
