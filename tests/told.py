"""All that the program tells in a terminal while tests run, whatever they are about: every text has to be in every
catalogue.

What is told goes through ``sheets.tongue``; what is refused, what is warned of, and what is said at a prompt, is taken
where it is made, because many tests read it there. What is warned of stands on sheets too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from typing import Any

from msgspec.structs import replace

from layouts import building, warnings
from layouts.costs import Warned
from layouts.fields import PARTS, Job
from layouts.fields_openings import OpeningPart
from layouts.languages import NAMES, catalogue
from layouts.problems import JobRefused
from layouts.readings import Readings
from layouts.spec import Part
from sheets import changes, compare, tongue
from sheets.forms import LETTERS
from sheets.language import Said
from sheets.own_words import words
from sheets.speech import Speech

NOTHING: frozenset[str] = frozenset()
USERS = frozenset({"OH", "WD", "SD", "OH1", "Office", "Shed laser", "rain", "noon", "Tamarack hay barn", "WMWM0"})
USERS |= {"Other barn", "Mo and Ada", "Lower field"}
"""Names that tests give where they print without a command, which would know them from the job."""
TABLES: tuple[type[Part], ...] = (*PARTS.values(), OpeningPart)
"""All parts of a job, and an opening."""
TYPED = {choice for part in TABLES for spec in part.specs.values() for choice in spec.choices}
TYPED |= {"choose", "none", "many", "x"}
"""Words that are typed as they are in every language."""
MADE_UP = ("is wrong", "is not a pitch. is not a pitch")
"""What tests of how a refusal is told make up begins so."""
OURS = {"old", "new", "one", "other", "printed", "roll"}
"""Words of ours by which tests call what they compare."""
_new: dict[str, tuple[frozenset[str], frozenset[str]]] = {}
_printed: dict[str, frozenset[str]] = {}
_known: set[str] = set()
_own = _typed = NOTHING
_laid: tuple[Job, Readings]  # of what is laid out now


@cache
def speech(name: str, own: frozenset[str] = NOTHING, typed: frozenset[str] = NOTHING) -> Speech:
    """A language as the terminal speaks it."""
    return Speech(catalogue(name), own, quoted=True, typed=typed)


@cache
def on_paper(name: str, own: frozenset[str] = NOTHING) -> Speech:
    """A language as sheets speak it."""
    return Speech(catalogue(name), own)


def take(text: str) -> None:
    """A text that was told."""
    if type(text) is not Said and text not in _known and not text.strip().startswith(MADE_UP):
        _new.setdefault(text, (_own | USERS, _typed))


def session(said: Iterable[Any], line: str, own: frozenset[str]) -> None:
    """What was said at a prompt after a *line* was typed; *own* are the job's own words."""
    global _own, _typed
    _own, _typed = own, tongue.typed(line)
    _lines(said)
    _own = _typed = NOTHING


def missing() -> dict[str, str]:
    """What catalogues lack of the texts that were told since this was asked last, each with a text that holds it."""
    found = {}
    for text, (own, typed) in _new.items():
        for name in NAMES:
            for part in parts(speech(name, own, typed), text):
                found[f"{name}: {part}"] = text
    for text, own in _printed.items():
        for name in NAMES:
            found |= {f"{name}, printed: {part}": text for part in parts(on_paper(name, own), text)}
    _known.update(_new)
    _new.clear()
    _printed.clear()
    return found


def parts(spoken: Speech, text: str) -> Iterator[str]:
    """What *spoken* lacks of a text."""
    plain = re.sub(r"^\s*(?:! )?", "", text)
    if spoken.knows(plain):
        return
    plain = plain.rstrip()
    cells = [plain] if spoken.knows(plain) else tongue.GAP.split(plain)
    for cell in cells:
        if LETTERS.search(cell) and cell not in TYPED and not spoken.knows(cell):
            yield from spoken.lacking(cell)


def listen() -> None:
    """Take down all that is told from now on."""
    _after(JobRefused, _refused)
    plain, many, speak, hear, add = tongue.turned, tongue.lines, tongue.speak, tongue.heard, tongue.also

    def turned(text: str) -> str:
        take(text)
        return plain(text)

    def lines(texts: Iterable[str]) -> Iterator[str]:
        told = list(texts)
        _lines(told)
        return many(told)

    def spoken(name: str, own: Iterable[str] = ()) -> None:
        global _own, _typed
        _own, _typed = frozenset(own), NOTHING
        speak(name, _own)

    def heard(line: str) -> None:
        global _typed
        _typed = tongue.typed(line)
        hear(line)

    def also(*words: object) -> None:
        global _own
        _own |= frozenset(map(str, words))
        add(*words)

    tongue.turned, tongue.lines, tongue.speak, tongue.heard, tongue.also = turned, lines, spoken, heard, also
    _calls(compare, "Changes", _changed)
    _calls(building, "dearest_first", _warned)
    all_of = warnings.all_of

    def of(job: Job, *parts: Any) -> tuple[Warned, ...]:
        global _laid
        _laid = job, next(part for part in parts if isinstance(part, Readings))
        return all_of(job, *parts)

    setattr(warnings, "all_of", of)  # noqa: B010 (it is called before the rest is warned of)


def _refused(refused: JobRefused) -> None:
    for problem in refused.problems:
        take(f"{problem.wrong} {problem.right}".rstrip())


def _warned(found: Iterable[Warned]) -> None:
    """What a building warns of, as a terminal tells it and as it is printed."""
    new = [one.text for one in found if one.text not in _known]
    if new:
        own = words(*_laid) | USERS
        for text in new:
            _new.setdefault(text, (own, NOTHING))
            _printed.setdefault(text, own)


def _changed(found: changes.Changes) -> None:
    """How two packets differ, as both a terminal and a sheet tell it; column names are called anew in some tests."""
    if found.old == "one.toml":
        return  # of the copy below
    notes = () if OURS & {found.old, found.new} else found.notes  # tests call them by words of ours
    for line in changes.lines(replace(found, old="one.toml", new="other.toml", notes=notes)):
        if line not in _known:
            _new.setdefault(line, (USERS | {"Door", found.old, found.new, *found.own} - OURS, NOTHING))


def _lines(said: Iterable[Any]) -> None:
    for item in said:
        for line in [item] if isinstance(item, str) else item.lines:
            take(line)


def _calls(module: Any, name: str, then: Callable[[Any], None]) -> None:
    """Do *then* with everything that a module makes by what it calls *name*: structs do not ask their ``__init__``."""
    plain = getattr(module, name)

    def call(*given: Any, **named: Any) -> Any:
        found = plain(*given, **named)
        then(found)
        return found

    setattr(module, name, call)


def _after(kind: Any, then: Callable[[Any], None]) -> None:
    """Do *then* with everything that is made of this *kind*."""
    plain = kind.__init__

    def init(self: Any, *given: Any, **named: Any) -> None:
        plain(self, *given, **named)
        then(self)

    kind.__init__ = init
