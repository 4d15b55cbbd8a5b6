"""The language that the terminal speaks: the one place where what is said there is turned into it.

Words are made in English and turned as they are said, like those of the sheets, but apart from them: sheets are in the
language of the job, the terminal may be in that of whoever sits at it.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from contextvars import ContextVar
from itertools import groupby
from typing import TYPE_CHECKING

from layouts.languages import ENGLISH, NAMES, catalogue, code_of
from layouts.problems import JobRefused
from sheets.language import Said

if TYPE_CHECKING:
    from layouts.fields import Job
    from layouts.languages import Catalogue
    from layouts.readings import Readings
    from sheets.speech import Speech

WISH = "RODWRIGHT_LANGUAGE"
MACHINE = ("LC_ALL", "LC_MESSAGES", "LANG")  # the first that is set counts (POSIX, Environment Variables)
_FIELD = re.compile(r"\w+\.\S+")
_LANGUAGE = re.compile(r"""^\s*language\s*=\s*["']([a-z ]+)["']""", re.MULTILINE)
_QUOTED = re.compile(r'"([^"\n]{1,80})"')
_HEAD = re.compile(r"\s*(?:! )?")
GAP = re.compile(r"(?<=\S) {2,}(?=\S)")
MOST_TYPED = 30  # words
MOST_READ = 20_000  # letters of a job that is refused
TYPED = frozenset({"back"})  # our words at a prompt that sheets say too, of the building
_OWN: ContextVar[frozenset[str]] = ContextVar("own", default=frozenset())
_SPOKEN: ContextVar[Speech | None] = ContextVar("terminal", default=None)


def speak(name: str, own: Iterable[str] = ()) -> None:
    """Speak the language of this *name* from now on, unless whoever sits there wants another; *own* are words that no
    language changes. A job in two languages is told in English."""
    wanted = _wished() or (name if name in NAMES else "") or _of_machine()
    words = frozenset(own)
    _OWN.set(words)
    _SPOKEN.set(_speech(catalogue(wanted), words) if wanted in NAMES else None)


def speak_of(job: Job, readings: Readings | None = None) -> None:
    """The same of a job: its language, and all that somebody wrote into it."""
    from sheets import own_words

    speak(job.job.language, own_words.words(job, readings))


def heard(line: str) -> None:
    """What was typed is told as it was typed, until more is heard."""
    speech = _SPOKEN.get()
    if speech is not None:
        _SPOKEN.set(_speech(speech.catalogue, _OWN.get(), typed(line)))


def also(*words: object) -> None:
    """Words that no language changes either, like the name of a folder."""
    speech = _SPOKEN.get()
    if speech is not None:
        _OWN.set(_OWN.get() | frozenset(map(str, words)))
        _SPOKEN.set(_speech(speech.catalogue, _OWN.get()))


def _speech(spoken: Catalogue, own: frozenset[str], typed: frozenset[str] = frozenset(), quoted: bool = True) -> Speech:
    """What turns words, of a terminal if *quoted*; English does not load it."""
    from sheets.speech import Speech

    return Speech(spoken, own, quoted=quoted, typed=typed)


def typed(line: str) -> frozenset[str]:
    """What may be told again of a line that was typed: each of its words, and all that stands behind one."""
    words = line.split()[:MOST_TYPED]
    return frozenset(part for n in range(len(words)) for part in (" ".join(words[n:]), words[n]))


def language() -> str:
    """The name of what is spoken."""
    speech = _SPOKEN.get()
    return speech.catalogue.name if speech else ENGLISH


def on_paper(*own: str) -> Speech | None:
    """The same for what is printed of no job: the ruler page. *own* are words that no language changes."""
    speech = _SPOKEN.get()
    return _speech(speech.catalogue, frozenset(own), quoted=False) if speech else None


def of_texts(texts: Mapping[str, str]) -> str:
    """The language that the first of *texts*, a job file, asks for, even where the job is refused."""
    from layouts.job import parsed  # loaded by now, if there is a job

    text = next(iter(texts.values()), "")
    match = _LANGUAGE.search(text)
    found: object = match[1] if match else ""
    with suppress(JobRefused, KeyError, TypeError):
        found = parsed(text, "")["job"]["language"]
    return found if isinstance(found, str) else ""


def quoted_in(texts: Mapping[str, str]) -> set[str]:
    """What stands in quotes in the first of *texts*: names that nobody turns, though the job is refused."""
    return set(_QUOTED.findall(next(iter(texts.values()), "")[:MOST_READ]))


def _wished() -> str:
    """What the environment asks for by our own name: English too, or nothing."""
    name = os.environ.get(WISH, "").strip().lower()
    return name if name in (ENGLISH, *NAMES) else ""


def _of_machine() -> str:
    """The language of the machine, if there is a catalogue of it."""
    told = next((os.environ[key] for key in MACHINE if os.environ.get(key)), "")
    code = re.split(r"[_.@-]", told.lower())[0]
    return next((name for name in NAMES if code_of(name).partition("-")[0] == code), "")


# --- what is said ---------------------------------------------------------------------------------------------------


def asked(text: str) -> str:
    """A question as it is asked: what Enter takes stands in brackets at its end, as it is."""
    head, bracket, rest = text.rpartition(" [")
    return turned(head) + bracket + rest if bracket else turned(text)


def turned(text: str) -> str:
    """*text* as the terminal says it; blanks and the mark of a warning before it stay."""
    speech = _SPOKEN.get()
    if speech is None or type(text) is Said:
        return text
    head = _HEAD.match(text)
    assert head
    words = text[head.end() :]
    if speech.knows(words) or not GAP.search(words):
        return head[0] + speech.turned(words)
    return head[0] + next(_columns(speech, [words]))


def place(text: str) -> str:
    """A place in a file: what is a name there stays, and the other words are turned one by one."""
    return ", ".join(part if _FIELD.fullmatch(part) else turned(part) for part in text.split(", "))


def lines(texts: Iterable[str]) -> Iterator[str]:
    """Lines one under another as they are said: those that are put together of several texts stand in columns."""
    speech = _SPOKEN.get()
    if speech is None:
        yield from texts
        return
    for many, some in groupby(texts, lambda text: len(GAP.split(text.lstrip(" ")))):
        rows = list(some)
        if many == 1:
            yield from map(turned, rows)
            continue
        yield from _columns(speech, rows)


def _columns(speech: Speech, rows: list[str]) -> Iterator[str]:
    """Rows of as many texts each, turned and set under one another."""
    cells = [[c if c in TYPED else speech.turned(c) for c in GAP.split(row.lstrip(" "))] for row in rows]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)][:-1]
    for row, own in zip(cells, rows, strict=True):
        blanks = own[: len(own) - len(own.lstrip(" "))]
        yield blanks + "  ".join([*(c.ljust(w) for c, w in zip(row, widths, strict=False)), row[-1]])
