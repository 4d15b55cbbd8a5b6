"""Words in lines: where a line ends, and what must not be torn apart."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheets.language import Said
from sheets.language import turn as spoken
from sheets.lettering import set_width

_TIE = "\x00"  # stands for a space that never ends a line
_SOFT = "\x01"  # for one that ends a line only where what it ties is wider than the room
_MONTH = (
    "(?:[Jj]an|[Ff]eb|[Mm]ar|[Aa]pr|[Mm]ay|[Jj]un|[Jj]ul|[Aa]ug|[Ss]ep|[Oo]ct|[Nn]ov|[Dd]ec"
    r"|[Ee]ne|[Aa]br|[Aa]go|[Dd]ic)[a-z]*\.?"
)
# The space behind each of these stays: a whole number before its fraction, a number before its unit
_TIES = re.compile(
    r"(?<![\w./])\d+ (?=\d{1,2}/(?:2|4|8|16|32|64)(?![\d/]))|"
    r"\d (?=(?:mm|cm|m|in|ft|pies?|lb|kg|mph|km/h|pc|pz|people|personas)(?!\w)|%)"
)
# And of these, if there is room: parts of a telephone's number, of a date, of a size, of a law's number
_SOFT_TIES = re.compile(
    r"(?<![\w/.,'-])(?:\+?\d{1,4}|\(\d{2,4}\)) (?=\(?\d{2,4}\)?(?![\w/.'\"]))|"
    rf"(?<![\w/])\d{{1,2}} (?=(?:de )?{_MONTH}(?!\w))|(?<=\d de) (?={_MONTH}(?!\w))|"
    rf"(?<!\w){_MONTH} (?=\d{{1,2}}(?!\w)|20[2-9]\d(?!\w))|"
    r"(?:(?<=\d,)|(?<=[a-z] de)) (?=20[2-9]\d(?![\w.'\"]))|(?<=[a-z]) (?=de 20[2-9]\d(?!\w))|"
    r"(?<=[\d\"']) (?=[x×] [\d.])|(?<=[\d\"'] [x×]) (?=[\d.])|(?<=\d) (?=CFR )|(?<= CFR) (?=\d)|(?<=NIOSH) (?=\d)"
)
_NAMES = re.compile(r"(?<!\w)(?:[Ww]all|WALL|[Pp]ared|PARED|[Gg]irt|[Ll]arguero) (?=(?:\d{1,2}|[A-Z]{1,2})(?!\w))")


def tied(text: str, hard: str, soft: str) -> str:
    """*text* with *hard* for each space that ends no line, in a length or before a unit, and *soft* for each that ends
    one only for want of room, in a date, a size or a number for the telephone."""
    text = _TIES.sub(lambda found: found[0][:-1] + hard, text)
    return _SOFT_TIES.sub(lambda found: found[0][:-1] + soft, text)


def _words(paragraph: str, size: float, cut: str, room: float, fractions: bool) -> Iterator[tuple[str, float]]:
    """What stands in one line, and how wide it is."""
    for word in _NAMES.sub(lambda found: found[0][:-1] + _SOFT, tied(paragraph, _TIE, _SOFT)).split():
        whole = word.replace(_TIE, " ").replace(_SOFT, " ")
        wide = set_width(whole, size, cut, fractions)
        if _SOFT in word and wide > room:
            for part in word.replace(_TIE, " ").split(_SOFT):
                yield part, set_width(part, size, cut, fractions)
        else:
            yield whole, wide


def wrap(text: str, size: float, cut: str, room: float, fractions: bool = True) -> list[str]:
    """*text* in lines of at most *room* inches. Breaks at spaces and line ends only, never inside a length
    such as ``13'-9 1/16"``, inside a date, a size or a number for the telephone only where that is wider; a single
    word wider than the room stands on a line of its own (``fit`` it). The lines are said already in the language that
    is spoken."""
    lines: list[str] = []
    space = set_width(" ", size, cut)
    for paragraph in spoken(text).split("\n"):
        line, used = "", 0.0
        for word, wide in _words(paragraph, size, cut, room, fractions):
            if line and used + space + wide > room:
                lines.append(line)
                line, used = word, wide
            else:
                line, used = (f"{line} {word}", used + space + wide) if line else (word, wide)
        lines.append(line)
    return [Said(line) for line in lines]
