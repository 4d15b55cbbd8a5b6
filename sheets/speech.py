"""How a text is turned into the language of the job.

A text is turned whole or not at all. What the job put into it (numbers, names, sizes: its values) goes over as it
stands: a text whose values came out otherwise stays English.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence, Set
from functools import cached_property

from msgspec import Struct, field

from layouts.languages import ENGLISH_CODE, Catalogue
from sheets import forms
from sheets.forms import (
    DIGITS,
    ENDS,
    LETTERS,
    LINK,
    SENTENCES,
    SHOUT,
    SPLITS,
    Template,
    first_letter,
    parsed,
    runs,
    taken_out,
)
from sheets.language import Said

_RAISED = str.maketrans("²³", "23")
Learnt = tuple[dict[str, Said], set[str], set[str]]


class Speech(Struct, dict=True, eq=False):
    """A language being spoken: its *catalogue*, the job's *own* words, which no language changes, and whether English
    stands *beside* it; *quoted* in a terminal, which quotes what was *typed*. *missed* are the texts that stayed
    English, *used* the entries of the catalogue that were wanted. It is like none but itself."""

    catalogue: Catalogue
    own: frozenset[str] = frozenset()
    beside: bool = False
    quoted: bool = False
    typed: frozenset[str] = frozenset()
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
            found = Said(self._turn(text))
            self._keep(text, found)
        return found

    def _keep(self, text: str, found: Said) -> None:
        self._turned[text] = found
        self._sources.setdefault(" ".join(found.split()), text)

    def source(self, said: str) -> str:
        """The English of a text that was turned before, however it is spaced; any other stays as it is."""
        return self._sources.get(said, said)

    def learnt(self) -> Learnt:
        """What was turned until now, what of it was missed, and the entries that were used."""
        return self._turned, self.missed, self.used

    def learn(self, turned: Mapping[str, Said], missed: Set[str], used: Set[str]) -> None:
        """Take over what this language has learnt in another process."""
        for text, found in turned.items():
            self._keep(text, found)
        self.missed |= missed
        self.used |= used

    def _turn(self, text: str) -> str:
        if not LETTERS.search(text):
            return text
        for pattern in self._patterns:
            values: list[str] = []
            form = taken_out(pattern, text, values)
            if not LETTERS.search(form):
                return "".join(self._filled(parsed(form), values))
            template = self._form(form)
            if template is not None:
                if self.beside:
                    return forms.beside(parsed(form), template, values)
                turned = "".join(self._filled(template, values))
                if _figures(turned) == _figures(text):
                    return turned
        self.missed.add(text)
        return text

    def knows(self, text: str) -> bool:
        """Whether the catalogue has the whole of *text*."""
        return any(self._form(taken_out(pattern, text, [])) is not None for pattern in self._patterns)

    def lacking(self, text: str) -> list[str]:
        """The normal forms of the smallest parts of *text* that the catalogue lacks."""
        return self._lacking(taken_out(self._patterns[0], text, []))

    def _lacking(self, form: str) -> list[str]:
        if self._form(form) is not None:
            return []
        for split in SPLITS[:SENTENCES]:
            parts = split.split(form)[::2]
            if len(parts) > 1:
                return [lacking for part in parts if part for lacking in self._lacking(part)]
        return [form.rstrip(ENDS)]

    @cached_property
    def _patterns(self) -> Sequence[re.Pattern[str]]:
        """How values are told: with all words of others first, then without those that were typed, then with none: a
        word of ours may have been typed, or something called by it."""
        words = dict.fromkeys((self.own | self.typed, self.own, frozenset()))
        return [runs(own, self.quoted) for own in words]

    def _filled(self, template: Template, values: Sequence[str]) -> Iterator[str]:
        for part in template:
            yield part if isinstance(part, str) else self._joined(values[part])

    def _joined(self, run: str) -> str:
        """A run of values, the words that join them turned."""
        joins = self.catalogue.joins

        def turned(found: re.Match[str]) -> str:
            word = joins.get(found[1].lower(), found[1])
            return f" {word.upper() if found[1].isupper() else word} "

        kept = self._kept
        parts = kept.split(run) if kept else [run]
        return "".join(part if i % 2 else LINK.sub(turned, part) for i, part in enumerate(parts))

    @cached_property
    def _kept(self) -> re.Pattern[str] | None:
        """What of a run stays as somebody wrote it, though words that join values stand in it: ``Pete and Sons``."""
        return forms.kept(self.own | self.typed, self.quoted)

    # --- forms -------------------------------------------------------------------------------------------------------

    def _form(self, form: str) -> Template | None:
        """The template of a normal form, or ``None``."""
        if form not in self._forms:
            self._forms[form] = self._known(form) or self._apart(form) or self._ended(form)
        return self._forms[form]

    def _ended(self, form: str) -> Template | None:
        """A form of several parts with a stop behind them: ``pack it out (seen from outside);``."""
        inner = self._form(form[:-1]) if form[-1:] in ENDS and len(form) > 1 else None
        return (*inner, form[-1]) if inner else None

    def _known(self, form: str) -> Template | None:
        """From the catalogue: as it stands, in capitals, or with a small or capital first letter or another end."""
        if (turned := self._entry(form)) is not None:
            return parsed(turned)
        if (turned := self._entry(form[:1].swapcase() + form[1:])) is not None:
            return parsed(first_letter(turned, form[:1].isupper()))
        if form.isupper() and (turned := self._entry(self._capitals.get(form, ""))) is not None:
            return parsed(turned.upper())
        shout = SHOUT.match(form)
        if shout and (turned := self._entry(shout[0].capitalize() + form[shout.end() :])):
            return parsed(turned[: turned.index("{")].upper() + turned[turned.index("{") :])
        if form[-1:] in ENDS and len(form) > 1:
            inner = self._known(form[:-1])
            return (*inner, form[-1]) if inner else None
        if not LETTERS.search(form):
            return parsed(form)
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
        for split in SPLITS:
            parts = split.split(form)
            if len(parts) < 2:
                continue
            whole: list[str | int] = []
            at = 0
            for place, part in enumerate(parts):
                gap = (self._joined(part),)  # may be an "and"
                template: Template | None = gap if place % 2 else self._form(part) if part else ()
                if template is None:
                    break
                whole += (piece + at if isinstance(piece, int) else piece for piece in template)
                at += 0 if place % 2 else part.count("{}")
            else:
                return tuple(whole)
        return None


def _figures(text: str) -> Counter[str]:
    """The numbers of *text*; a raised figure is one too: a language may write ft³ for ft3."""
    return Counter(DIGITS.findall(text.translate(_RAISED)))
