"""HTML as text, escaped once. Nothing of the user's becomes ``Html`` but by ``text`` and ``element`` here and by the
pictures of ``sheets.picture``: a name that looks like markup stays a name."""

from __future__ import annotations

from html import escape
from typing import NewType

from sheets.language import turn
from sheets.pages import spoken
from sheets.wrapping import tied

Html = NewType("Html", str)

READ = frozenset({"aria_label"})
"""Attributes that are read aloud: they are turned like words."""
VOID = frozenset({"meta", "input"})
"""Elements without an end tag (HTML Living Standard, 13.1.2, from memory); those that are used here."""


KEPT = "\u00a0"
"""The space that ends no line."""


def text(words: str) -> Html:
    """*words* as they read, in the language that is spoken; a length is never torn over two lines. A control character
    is a ``ValueError``."""
    return Html(escape(spoken(tied(turn(words), KEPT, KEPT))))


def element(name: str, /, *inner: Html, **attributes: str) -> Html:
    """An element with all that is *inner*. Attributes are called as in HTML, with ``_`` for a hyphen, and one at the
    end where Python has the word for itself: ``class_``, ``aria_label``. A control character is a ``ValueError``."""
    told = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(spoken(turn(value) if key in READ else value))}"'
        for key, value in attributes.items()
    )
    return Html(f"<{name}{told}>" if name in VOID else f"<{name}{told}>{''.join(inner)}</{name}>")


def raw_style(rules: str) -> Html:
    """A style sheet of our own; one that could end its element early is a ``ValueError``."""
    if "<" in rules:
        raise ValueError("a style sheet with markup in it")
    return Html(f"<style>\n{rules}</style>")


def document(language: str, head: Html, body: Html) -> str:
    """A whole file."""
    inner = f"<head>\n{head}\n</head>\n<body>\n{body}\n</body>"
    return f'<!DOCTYPE html>\n<html lang="{escape(language)}">\n{inner}\n</html>\n'
