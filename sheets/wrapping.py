"""Words in lines: where a line ends, and what must not be torn apart."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheets.language import Said
from sheets.language import turn as spoken
from sheets.lettering import set_width

_KEPT = re.compile(r"(?<![\w./])(\d+) (?=\d{1,2}/(?:2|4|8|16|32|64)(?![\d/]))")
_UNIT = re.compile(r"(?<=\d) (?=mm\b|in\b|ft\b)")
_TIE = "\x00"  # stands for a space that must not end a line


def _words(paragraph: str) -> Iterator[str]:
    for word in _UNIT.sub(_TIE, _KEPT.sub(rf"\1{_TIE}", paragraph)).split():
        yield word.replace(_TIE, " ")


def wrap(text: str, size: float, cut: str, room: float, fractions: bool = True) -> list[str]:
    """*text* in lines of at most *room* inches. Breaks at spaces and line ends only, never inside a length
    such as ``13'-9 1/16"``; a single word wider than the room stands on a line of its own (``fit`` it). The lines
    are said already in the language that is spoken."""
    lines: list[str] = []
    space = set_width(" ", size, cut)
    for paragraph in spoken(text).split("\n"):
        line, used = "", 0.0
        for word in _words(paragraph):
            wide = set_width(word, size, cut, fractions)
            if line and used + space + wide > room:
                lines.append(line)
                line, used = word, wide
            else:
                line, used = (f"{line} {word}", used + space + wide) if line else (word, wide)
        lines.append(line)
    return [Said(line) for line in lines]
