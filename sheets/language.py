"""Words in the language of the job.

Sheets and messages are made in English where they are made, and turned at the edge: where they are measured and drawn
(``sheets.lettering``), and where the terminal prints. One language is spoken at a time (``speaking``); none is English,
which costs nothing: how a text is turned (``sheets.speech``) is not even loaded.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sheets.speech import Speech

SLASH = " / "  # between the two languages of a tag


class Said(str):
    """A text that is in the language of the sheet already, or is none's: it is not turned again."""

    __slots__ = ()


_SPOKEN: ContextVar[Speech | None] = ContextVar("spoken", default=None)
_BOTH: ContextVar[bool] = ContextVar("both", default=False)


def spoken() -> Speech | None:
    """What is being spoken; ``None`` is English."""
    return _SPOKEN.get()


@contextmanager
def speaking(speech: Speech | None) -> Iterator[None]:
    """Speak it in the block."""
    token = _SPOKEN.set(speech)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


@contextmanager
def both() -> Iterator[None]:
    """What is drawn here is read by everybody: a job in two languages has both of them in the block."""
    token = _BOTH.set(True)
    try:
        yield
    finally:
        _BOTH.reset(token)


def turn(text: str) -> str:
    """*text* as it is said in the language that is spoken."""
    speech = _SPOKEN.get()
    if speech is None or type(text) is Said or (speech.beside and not _BOTH.get()):
        return text
    return speech.turned(text)


def source(text: str) -> str:
    """The English that was turned into *text*: what a read-back holds against the layout. A text that never was, or
    that a file has changed, stays as it is."""
    speech = _SPOKEN.get()
    return text if speech is None else " ".join(speech.source(text).split())


def says(words: str, text: str) -> bool:
    """Whether *text* stands among *words* that were read back, in English or as it is said in the language that is
    spoken: of a text that was wrapped only the whole was turned."""
    return any(" ".join(form.split()) in words for form in (text, turn(text)))
