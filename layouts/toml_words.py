"""What a TOML reader complains of, in plain words, and where.

``tomllib`` tells line and column in its message alone, as ``... (at line 3, column 8)``; what it says is meant for
programmers. Its messages are those of Python 3.11 to 3.14; one that is not known here is told as it is.
"""

from __future__ import annotations

import re

from layouts import days
from layouts.problems import shorten

_AT = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)
QUOTES = 'A length stands in double quotes without the last inch mark: "13\'-6 1/2".'
_NOT_CLOSED = "a text in quotes does not end: it needs its closing quote, on the same line."
_WORDS = (
    (r"Illegal character '\\[nr]", _NOT_CLOSED),
    (r"Unterminated string|Expected [\"']['\"]", _NOT_CLOSED),
    (r"Illegal character|Found invalid character", "a character stands here that may not: write plain text."),
    (r"Expected '=' after a key", "after the name of a field comes an = sign."),
    (r"Invalid value", "what stands here is neither text in quotes nor a number."),
    (r"Expected newline or end of document", "the value has ended and more stands on its line: a quote too many?"),
    (r"Cannot overwrite a value", "a name is given a second time: keep one of them."),
    (r"Cannot declare|Cannot mutate", "a part stands there a second time: put its fields under one heading."),
    (r"Expected '\]", "a heading ends with ], one of an opening with ]]."),
    (r"Unclosed array", "a list needs a comma between its entries and a ] at its end."),
    (r"Unclosed inline table", "a table on one line needs a } at its end."),
    (
        r"Invalid initial character for a key|Invalid statement",
        "a line begins with a [heading] or with a field's name.",
    ),
    (r"Unescaped '\\'|Invalid hex", "a backslash may not stand in double quotes: write / instead."),
)
"""How each complaint begins, and what is said instead."""


_SURE = ("Cannot", "Expected '", "Unclosed", "Invalid i", "Unescaped")
"""What has nothing to do with how a length is quoted."""


def _date(message: str, line: str) -> re.Match[str] | None:
    """The day in figures that a *line* of a file gives a field without quotes, if the *message* may be of it."""
    begins = re.search(r"=[ \t]*", line) if message.startswith(("Expected newline", "Invalid date")) else None
    return re.compile(rf"{days.DATE}(?![0-9./-])").match(line, begins.end()) if begins else None


def told(message: str, text: str) -> tuple[str, str, str]:
    """Where in *text* (``line 3, column 8``), what is wrong, and what would be right, of a *message* of ``tomllib``."""
    found = _AT.fullmatch(message)
    if found is None:
        return "", f"{shorten(message, 160)}.", QUOTES
    line = text.split("\n")[int(found[2]) - 1] if found[2] else ""
    if (day := _date(found[1], line)) and day.start() < int(found[3]) <= day.end():
        wrong = days.WRONG if days.impossible(day[0]) else "is not how a day is written here."
        return f"line {found[2]}, column {day.start() + 1}", f"{day[0]} {wrong}", days.RIGHT
    said = next((words for begins, words in _WORDS if re.match(begins, found[1])), f"{shorten(found[1], 160)}.")
    right = "" if found[1].startswith(_SURE) and said != _NOT_CLOSED else QUOTES
    if found[2]:
        return f"line {found[2]}, column {found[3]}", said, right
    lines = text.rstrip().split("\n")  # at the end of the text: after the last letter that says something
    return f"line {len(lines)}, column {len(lines[-1]) + 1}", said, right
