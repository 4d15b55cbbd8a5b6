"""The languages a packet can be printed in: English, and one catalogue, a TOML file in this folder, for each other.

A catalogue says how every English text of ours reads in its language. Texts are kept in their normal form: what a job
or the layout puts in (numbers, lengths, names of columns and walls, sizes of boards, the job's own words) is ``{}``.
The other side of an entry has ``{0}``, ``{1}`` and so on where these go, each once, in whatever order the language
wants. ``sheets.speech`` does the turning.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path

from msgspec import Struct

ENGLISH = "english"
ENGLISH_CODE = "en-US"
BESIDE = "english and "


class Catalogue(Struct, frozen=True):
    """One language: its *code* (BCP 47), the words that join values (``and``, ``to``), and its *texts* by the normal
    form of the English ones."""

    name: str
    code: str
    joins: dict[str, str]
    texts: dict[str, str]


_HERE = Path(__file__).parent  # importlib.resources takes longer to load than to read what is wanted
NAMES = tuple(sorted(path.stem for path in _HERE.glob("*.toml")))
CHOICES = (ENGLISH, *(choice for name in NAMES for choice in (name, BESIDE + name)))
"""What ``job.language`` may be: English, another language, or English with the tags in both."""


_CODE = re.compile(r'^code = "([A-Za-z-]+)"', re.MULTILINE)


def code_of(name: str) -> str:
    """The code (BCP 47) of a language that there is, without the rest of its catalogue, which takes long."""
    found = _CODE.search(_text(name))
    return found[1] if found else ""


def _text(name: str) -> str:
    return (_HERE / f"{name}.toml").read_text(encoding="utf-8")


@cache
def catalogue(name: str) -> Catalogue:
    """The catalogue of a language that there is; read once. Entries stand in tables of any name, by what they are
    read on; an English text that stands in two of them is a ``ValueError``."""
    read = tomllib.loads(_text(name))
    texts: dict[str, str] = {}
    for part in read["texts"].values():
        if twice := texts.keys() & part.keys():
            raise ValueError(f"{name}: twice: {', '.join(sorted(twice))}")
        texts.update(part)
    return Catalogue(name, read["code"], read["joins"], texts)
