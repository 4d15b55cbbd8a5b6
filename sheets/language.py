"""Words in the language of the job.

Sheets and messages are made in English where they are made, and turned at the edge: where they are measured and drawn
(``sheets.lettering``), and where the terminal prints. One language is spoken at a time (``speaking``); none is English,
which costs nothing. A text is turned whole or not at all. What the job put into it (numbers, names, sizes: its values)
goes over as it stands: a text whose values came out otherwise stays English.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import cached_property

from layouts.languages import ENGLISH_CODE, Catalogue

# A number with whatever stands close to it: 2x6, #12, 13'-9 1/16", 5/12, 18.4°, 3/16, 1,045 lb, 2026-10-05, 2×16'-0"
_NUMBER = (
    r"""(?<![\w.])[#±+\-−~]?\.?\d(?:[\w/.,×:°'"–-]*[\w/°'"])?%?(?:[ ]\d+/\d+(?:/\d+)?["']?)?"""
    r"""(?:[ ](?:mm|kg|lb|lb/ft|mph|km/h|pt|MM|KG|LB|MPH|KM/H)(?!\w))?"""
)
_NAME = r"(?<!\w)[A-Z]{1,3}\d+(?:[.-]\d+)*[A-Z]?(?:-[A-Z]{1,3}\d+)?(?!\w)|(?<!\w)[a-z]\d+(?!\w)"  # of a column: A1, AB12; of a code: R614-7-4
# of a wall: A. Not the article: "A tag", "NOT A PLAN"
_WALL = r"(?<![\w'’-])[A-Z](?!\w|[.'’]\w|[ ](?!(?:AND|TO|OR|OF|OVER)(?!\w))[A-Z]{2}|[ ](?!(?:and|to|or|of|over|is|stands|was|has|from|at)(?!\w))[a-z])"
_STAMP = r"(?<=stamp )[2-9A-HJ-NP-Z]{5}(?!\w)"
_FILE = r"(?<!\w)[\w-]+\.(?:toml|csv|pdf|svg|json|png)(?!\w)"
_PAPER = r"(?<!\w)(?:(?:roll|arch|ansi)-\w+|tabloid|legal|letter|a[34])(?!\w)"
_ONE = "|".join([_FILE, _PAPER, _STAMP, _NAME, _NUMBER, _WALL])
_VALUE = re.compile(_ONE)
_LINKS = r", | and | to | of | or | AND | TO | OF | OR | x | × | pc | treated | "
_DIGITS = re.compile(r"\d+")
_LETTERS = re.compile(r"[^\W\d_]{2}")
_HOLE = re.compile(r"\{(\d*)\}")
_BARE_STAMP = re.compile(r"[2-9A-HJ-NP-Z]{5}")
# Where a text may be taken apart, the widest parts first
_SPLITS = tuple(
    re.compile(f"({gap})")
    for gap in (
        r"\n",
        r"(?<=[.!?])(?<!Admin\.) (?=[A-Z{(])",
        r" {2}· {2}",
        r" · ",
        r" \| ",
        r"; ",
        r": ",
        r" \((?=.*\))|\) |\)$",
        ", ",
    )
)
_SENTENCES = 7  # of them down to the colon: what stands between commas is told with its sentence
_SHOUT = re.compile(r"[A-Z][A-Z ]+(?= \{\}.*[a-z])")  # the name of a mark in capitals before its size
_ENDS = ".:;,!"
SLASH = " / "  # between the two languages of a tag
_AROUND = f" {_ENDS}·"

Template = tuple[str | int, ...]  # words, and the numbers of values between them


class Said(str):
    """A text that is in the language of the sheet already, or is none's: it is not turned again."""

    __slots__ = ()


@dataclass
class Speech:
    """A language being spoken: its *catalogue*, the job's *own* words, which no language changes, and whether English
    stands *beside* it. *missed* are the texts that stayed English, *used* the
    entries of the catalogue that were wanted."""

    catalogue: Catalogue
    own: frozenset[str] = frozenset()
    beside: bool = False
    missed: set[str] = field(default_factory=set)
    used: set[str] = field(default_factory=set)
    _turned: dict[str, Said] = field(default_factory=dict)
    _sources: dict[str, str] = field(default_factory=dict)
    _forms: dict[str, Template | None] = field(default_factory=dict)

    @property
    def code(self) -> str:
        """The language of most of its words (BCP 47)."""
        return ENGLISH_CODE if self.beside else self.catalogue.code

    def turned(self, text: str) -> Said:
        """*text* in this language; in English if the catalogue lacks a part of it."""
        found = self._turned.get(text)
        if found is None:
            found = self._turned[text] = Said(self._turn(text))
            self._sources.setdefault(" ".join(found.split()), text)
        return found

    def source(self, said: str) -> str:
        """The English of a text that was turned before, however it is spaced; any other stays as it is."""
        return self._sources.get(said, said)

    def _turn(self, text: str) -> str:
        if not _LETTERS.search(text) or (_BARE_STAMP.fullmatch(text) and self._form(text) is None):
            return text
        for pattern in self._patterns:
            values: list[str] = []
            form = _normal(pattern, text, values)
            if not _LETTERS.search(form):
                return "".join(self._filled(_parsed(form), values))
            template = self._form(form)
            if template is not None:
                if self.beside:
                    return _beside(_parsed(form), template, values)
                turned = "".join(self._filled(template, values))
                if Counter(_DIGITS.findall(turned)) == Counter(_DIGITS.findall(text)):
                    return turned
        self.missed.add(text)
        return text

    def lacking(self, text: str) -> list[str]:
        """The normal forms of the smallest parts of *text* that the catalogue lacks."""
        return self._lacking(_normal(self._patterns[0], text, []))

    def _lacking(self, form: str) -> list[str]:
        if self._form(form) is not None:
            return []
        for split in _SPLITS[:_SENTENCES]:
            parts = split.split(form)[::2]
            if len(parts) > 1:
                return [lacking for part in parts if part for lacking in self._lacking(part)]
        return [form.rstrip(_ENDS)]

    @cached_property
    def _patterns(self) -> Sequence[re.Pattern[str]]:
        """How values are told: with the job's own words first, else without them, if it has called something by a
        word of ours."""
        return [_pattern(self.own), _pattern(frozenset())] if self.own else [_pattern(frozenset())]

    def _filled(self, template: Template, values: Sequence[str]) -> Iterator[str]:
        for part in template:
            yield part if isinstance(part, str) else self._joined(values[part])

    def _joined(self, run: str) -> str:
        """A run of values, the words that join them turned."""
        joins = self.catalogue.joins

        def turned(found: re.Match[str]) -> str:
            word = joins.get(found[1].lower(), found[1])
            return f" {word.upper() if found[1].isupper() else word} "

        return _LINK.sub(turned, run)

    # --- forms -------------------------------------------------------------------------------------------------------

    def _form(self, form: str) -> Template | None:
        """The template of a normal form, or ``None``."""
        if form not in self._forms:
            self._forms[form] = self._known(form) or self._apart(form)
        return self._forms[form]

    def _known(self, form: str) -> Template | None:
        """From the catalogue: as it stands, in capitals, or with a small or capital first letter or another end."""
        if (turned := self._entry(form)) is not None:
            return _parsed(turned)
        if (turned := self._entry(form[:1].swapcase() + form[1:])) is not None:
            return _parsed(_first(turned, form[:1].isupper()))
        if form.isupper() and (turned := self._entry(self._capitals.get(form, ""))) is not None:
            return _parsed(turned.upper())
        shout = _SHOUT.match(form)
        if shout and (turned := self._entry(shout[0].capitalize() + form[shout.end() :])):
            return _parsed(turned[: turned.index("{")].upper() + turned[turned.index("{") :])
        if form[-1:] in _ENDS and len(form) > 1:
            inner = self._known(form[:-1])
            return (*inner, form[-1]) if inner else None
        if not _LETTERS.search(form):
            return _parsed(form)
        return None

    def _entry(self, form: str) -> str | None:
        """An entry of the catalogue as it stands there; it counts as used."""
        turned = self.catalogue.texts.get(form)
        if turned is not None:
            self.used.add(form)
        return turned

    @cached_property
    def _capitals(self) -> dict[str, str]:
        return {form.upper(): form for form in self.catalogue.texts}

    def _apart(self, form: str) -> Template | None:
        """A form put together from its parts, all of them known."""
        for split in _SPLITS:
            parts = split.split(form)
            if len(parts) < 2:
                continue
            whole: list[str | int] = []
            at = 0
            for place, part in enumerate(parts):
                template: Template | None = (part,) if place % 2 else self._form(part) if part else ()
                if template is None:
                    break
                whole += (piece + at if isinstance(piece, int) else piece for piece in template)
                at += 0 if place % 2 else part.count("{}")
            else:
                return tuple(whole)
        return None


def _beside(english: Template, other: Template, values: Sequence[str]) -> str:
    """Both languages in one line, every value once: ``Wall / Pared A``; one after the other where the other language
    wants the values in another order."""
    holes, words = _parted(english)
    same, others = _parted(other)
    if holes != same:
        return SLASH.join("".join(p if isinstance(p, str) else values[p] for p in t) for t in (english, other))
    pairs = [_pair(a, b) for a, b in zip(words, others, strict=True)]
    return "".join(f"{words}{value}" for words, value in zip(pairs, [*(values[i] for i in holes), ""], strict=True))


def _parted(template: Template) -> tuple[list[int], list[str]]:
    """The values of a template in order, and the words before, between and after them."""
    holes: list[int] = []
    words = [""]
    for part in template:
        if isinstance(part, str):
            words[-1] += part
        else:
            holes.append(part)
            words.append("")
    return holes, words


def _pair(english: str, other: str) -> str:
    """The same words in both languages, with the English ones' blanks and stops around them."""
    core, twin = english.strip(_AROUND), other.strip(_AROUND)
    if not twin or core == twin:
        return english
    if not core:
        return other
    return english.replace(core, f"{core}{SLASH}{twin}", 1)


def _first(text: str, capital: bool) -> str:
    for at, letter in enumerate(text):
        if letter.isalpha():
            return text[:at] + (letter.upper() if capital else letter.lower()) + text[at + 1 :]
        if letter == "{":
            break
    return text


def _parsed(text: str) -> Template:
    """A text with ``{}`` or ``{0}`` as a template; bare ones are counted."""
    found: list[str | int] = []
    at = count = 0
    for hole in _HOLE.finditer(text):
        found += [text[at : hole.start()]] * (hole.start() > at)
        found.append(int(hole[1]) if hole[1] else count)
        at, count = hole.end(), count + 1
    return (*found, text[at:]) if at < len(text) else tuple(found)


def _pattern(own: frozenset[str]) -> re.Pattern[str]:
    """Runs of values."""
    strange = [word for word in own if word and not _VALUE.fullmatch(word)]
    words = "|".join(re.escape(word) for word in sorted(strange, key=lambda w: (-len(w), w)))
    names = [rf"(?<!\w)(?i:{words})(?!\w)"] if words else []
    one = "|".join([*names, _ONE])
    return re.compile(f"(?:{one})(?:(?:{_LINKS})(?:{one}))*")


_LINK = re.compile(r" (and|to|of|or|pc|treated|AND|TO|OF|OR) ")


def _normal(pattern: re.Pattern[str], text: str, values: list[str]) -> str:
    """The normal form of *text*; its values go to *values*."""

    def hole(found: re.Match[str]) -> str:
        values.append(found[0])
        return "{}"

    return pattern.sub(hole, text.replace("{", "(").replace("}", ")"))


_ENGLISH = _pattern(frozenset())


def normal(text: str, own: frozenset[str] = frozenset()) -> str:
    """The normal form of *text*: what a catalogue knows it by."""
    return _normal(_pattern(own) if own else _ENGLISH, text, [])


# --- what is spoken -------------------------------------------------------------------------------------------------

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
