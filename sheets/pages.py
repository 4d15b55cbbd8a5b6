"""A page of a finished file: one drawing and the words that lead to it."""

from __future__ import annotations

import unicodedata

from msgspec import Struct

from sheets.shapes import Drawing


def spoken(words: str) -> str:
    """*words* if every character may stand in a file as text; a control character is a ``ValueError``."""
    if words.isascii() and words.isprintable():
        return words
    bad = sorted({c for c in words if unicodedata.category(c) in ("Cc", "Cs", "Cn")})
    if bad:
        raise ValueError(f"characters that cannot be written: {bad!r}")
    return words


class Page(Struct, frozen=True):
    """*drawing* with its bookmark: *title*, found under *section*."""

    drawing: Drawing
    title: str
    section: str
