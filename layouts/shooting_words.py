"""What a man at the prompt may type instead of a reading: a few plain words, and what each does."""

from __future__ import annotations

import re

from msgspec import Struct

from layouts.book_head import Head
from layouts.problems import nearest, shorten

WORDS = {
    "back": "to the reading before: Enter keeps it, a number replaces it",
    "skip": "leave this one out for now",
    "go NAME": "to that column",
    "note WORDS": "beside the seat asked for; it may follow a reading",
    "moved": "the laser was moved or bumped: a new set-up begins",
    "benchmark NAME": "read a benchmark; a comma and where it is may follow",
    "list": "what is read and what is not",
    "help": "these words",
    "done": "to the check-back, and the end",
}
LINE = f"Words: {', '.join(WORDS)}."
_FIRST = {word.partition(" ")[0] for word in WORDS}
ENDS = {"quit", "exit", "end", "stop"}  # what others call it
_NOTE = re.compile(r"\s+note\s+", re.IGNORECASE)


class Typed(Struct, frozen=True):
    """A line as it was meant: a *word* of ours with what follows it, or no word; *note* stood behind a reading."""

    word: str
    rest: str
    note: str = ""


def understood(line: str) -> Typed:
    """What was typed, on one line without anything that is no letter."""
    plain = " ".join("".join(c if c.isprintable() else " " for c in line).split())
    first, _, rest = ("help" if plain == "?" else plain).partition(" ")
    if first.lower() in _FIRST:
        return Typed(first.lower(), rest)
    reading, *note = _NOTE.split(plain, 1)
    return Typed("", reading, *note)


def example(head: Head) -> str:
    """A reading as this rod has them."""
    if head.up:
        return {"feet": "+0.12", "mm": "+35"}.get(head.unit, "+1 1/4")
    return {"feet": "4.04", "mm": "1143"}.get(head.unit, "45 1/8")


def help_(head: Head) -> tuple[str, ...]:
    """Every word and what it does."""
    return (
        f"  {example(head):<16}a reading",
        *(f"  {word:<16}{what}" for word, what in WORDS.items()),
        "Every entry is saved at once.",
    )


def strange(text: str, head: Head) -> str:
    """Something that is no word and cannot be a reading; empty if it may be one."""
    if any(c.isdigit() or c.isnumeric() for c in text):
        return ""
    first = text.partition(" ")[0]
    right = "Type done; Ctrl-C ends at once, and nothing is lost." if first.lower() in ENDS else nearest(first, _FIRST)
    if right.startswith("Known"):
        right = f"A reading is typed like {example(head)}; help shows the words."
    return f"{shorten(text, 30)} is no reading and no word. {right}"
