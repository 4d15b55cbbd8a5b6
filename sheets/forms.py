"""Normal forms of English texts: what a job or the layout puts into one, its values, taken out, so that a catalogue can
know it; and templates, which put them in again.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from sheets.language import SLASH

# What a rod in other units reads, with the length that it is: 3.516 ft (42.192"), 41 3/8" (1050.925 mm); a number with
# whatever stands close to it: 2x6, #12, 13'-9 1/16", 5/12, 18.4°, 3/16, 1,045 lb, 2026-10-05, 2×16'-0"
_NUMBER = (
    r"""(?<![\w.])[+\-−]?\d[\d.]* (?:ft|FT) \(-?\d[^()A-Z\n]*(?:"|mm|MM)\)|"""
    r"""(?<![\w.])[+\-−]?\d[\d.]* (?:mm|MM) \(-?\d[^()A-Z\n]*"\)|"""
    r"""(?<![\w.])[+\-−]?\d[\d. /]*" \(-?\d[\d.]* (?:mm|MM)\)|"""
    r"""(?<![\w.])[#±+\-−~]?\.?\d(?:[\w/.,×:°'"–-]*[\w/°'"])?%?(?:[ ]\d+/\d+(?:/\d+)?["']?)?"""
    r"""(?:[ ](?:mm|kg|lb|lb/ft|mph|km/h|pt|MM|KG|LB|MPH|KM/H)(?!\w))?"""
)
# of a column: A1, AB12; of a block between two; of a code: R614-7-4; a name that a message wrote small: w3
_NAME = (
    r"(?<!\w)[A-Z]{1,3}\d+(?:[.-]\d+)*[A-Z]?(?:-[A-Z]{1,3}\d+)?(?!\w)"
    r"|(?<!\w)[a-z]\d+(?!\w)"
)
# of a wall: A, of the 25th AA. Not the article: "A tag", "NOT A PLAN"
_WALL = (
    r"(?:(?<=Walls [A-Z] and )|(?<=[Ww]all ))[A-Z]{2}(?!\w)|"
    r"(?<![\w'’-])[A-Z](?!\w|[.'’]\w|[ ](?!(?:AND|TO|OR|OF|OVER)(?!\w))[A-Z]{2}"
    r"|[ ](?!(?:and|to|or|of|over|is|stands|was|has|from|at)(?!\w))[a-z])"
)
_STAMP = r"(?<=stamp )[2-9A-HJ-NP-Z]{5}(?!\w)"
_FILE = r"(?<!\w)[\w-]+\.(?:toml|csv|pdf|svg|json|png)(?!\w)"
_PAPER = r"(?<!\w)(?:(?:roll|arch|ansi)-\w+|tabloid|legal|letter|a[34])(?!\w)"
_ONE = "|".join([_FILE, _PAPER, _STAMP, _NAME, _NUMBER, _WALL])
# What a terminal quotes besides: what was typed or stands in a file, fields of it, options, answers, folders
_QUOTED = "|".join(
    (
        r'(?<![\w.])[a-z_]+(?:\.[a-z_]+)? = (?:"[^"\n]*"|[\d.]+)',
        r"(?<![\w.])[a-z_]+(?: \d+)?\.[a-z_]+ = [a-z][a-z ]*(?=: )",
        r'"[^"\n]*"(?!\w)|`[^`\n]*`|\[\[?[^\]\n]*\]\]?|(?<![\w"\'])\'[^\'\n]+\'(?!\w)',
        r"(?<!\w)rodwright(?: (?:demo|check|print|compare|audit|shoot|ruler|start))?(?!\w)",
        r"(?<![\w-])--[a-z][\w-]*|(?<![\w.])[a-z_]+(?: \d+)?\.[a-z_]+(?!\w)",
        r"(?<![\w.)])(?:\.{0,2}/|~/|[A-Za-z]:\\)[^\s:,]+",
        r"(?<=Did you mean )[^?\n]+(?=\?)|(?:(?<=Choose from )|(?<=Known: ))(?:[^.\n]|\.(?=\S))+(?=\.)",
        r"(?<![\w.])(?:[a-z]+_[a-z_]+|[a-z]+(?= must be given)|bays(?= add up))(?!\w)",
        r"(?<!\w)(?:benchmark|column),\S.*\Z",
        r"\A\S+(?= is no (?:reading|answer))|(?<=is called )\S+(?= in this job)|(?<=Write )[A-Z]{3,}(?=\.)",
        r"(?<=is in )\S+(?=, which has no)|(?<=, which has no )\S(?=\.)|(?<=sheet can print )\S+(?=:)",
        r"(?<=has column ).+?(?= standing )|(?<=for the tag of )[^,]+(?=,)|(?:\A|(?<=\]: ))[^:]+(?=: .*; write \d)",
        r"(?<=should be ).*(?=, is )|(?<=, is )(?!more than the step).*\Z|(?<=of round ).+?(?=, set-up )",
        r"(?<=, set-up ).+?(?=, after line )|(?<=has )\w+(?=, which is not known)",
        r"(?:(?<=job now gives )|(?<=stamps )|(?<=one is )|(?<=ones are ))"
        r"[2-9A-HJ-NP-Z]{5}(?:, [2-9A-HJ-NP-Z]{5})*(?!\w)",
        r"\S+(?= has no place in a length)|(?<!\w)\w+(?= is not a (?:unit used here|word for nails))",
        r"(?<=is not a word for nails: )[A-Za-z, ]+(?=;)",
    )
)
_VALUE = re.compile(_ONE)
_AS_WRITTEN = r'"[^"\n]*"|`[^`\n]*`|\[[^\]\n]*\]'  # no word of it is ours
_LINKS = r", | and | to | of | or | AND | TO | OF | OR | x | × | pc | treated | |-"
DIGITS = re.compile(r"\d+")
LETTERS = re.compile(r"[^\W\d_]{2}")
_HOLE = re.compile(r"\{(\d*)\}")
# Where a text may be taken apart, the widest parts first
SPLITS = tuple(
    re.compile(f"({gap})")
    for gap in (
        r"\n",
        r"(?<=[.!?])(?<!Admin\.)(?<! No\.) (?=[A-Z{(])",
        r" {2}· {2}",
        r" · ",
        r" \| ",
        r"; ",
        r": ",
        # why a line was chosen
        r", (?=on \{\} steps |nearest on |which makes |and the line cannot )|(?<=, but there) ",
        r"(?<=\}) and (?=[a-z ]+\{\} stand )| (?=stand (?:at one height|less than ))",  # of two marks
        r"(?<=\ACENTRE PLY) |(?<=\AINNER PLIES) ",  # before what is cut of them
        r"(?<=\ARows) |(?<=\AColumns) (?=all )|(?<=\}) to (?=(?:G|[A-Z][a-z ]+ g)irt \{\})",  # whom a pattern is for
        r", (?=(?:part|PART) \{\}$)",
        r"(?<=\)), ",
        r" \((?=.*\))|\) |\)$",
        ", ",
    )
)
SENTENCES = 7  # of them down to the colon: what stands between commas is told with its sentence
SHOUT = re.compile(r"[A-Z][A-Z ]+(?= \{\}.*[a-z])")  # the name of a mark in capitals before its size
ENDS = ".:;,!"
_AROUND = f" {ENDS}·"

Template = tuple[str | int, ...]  # words, and the numbers of values between them


def beside(english: Template, other: Template, values: Sequence[str]) -> str:
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


def first_letter(text: str, capital: bool) -> str:
    """*text* with a capital or a small first letter; as it stands where a value comes first."""
    for at, letter in enumerate(text):
        if letter.isalpha():
            return text[:at] + (letter.upper() if capital else letter.lower()) + text[at + 1 :]
        if letter == "{":
            break
    return text


def parsed(text: str) -> Template:
    """A text with ``{}`` or ``{0}`` as a template; bare ones are counted."""
    found: list[str | int] = []
    at = count = 0
    for hole in _HOLE.finditer(text):
        found += [text[at : hole.start()]] * (hole.start() > at)
        found.append(int(hole[1]) if hole[1] else count)
        at, count = hole.end(), count + 1
    return (*found, text[at:]) if at < len(text) else tuple(found)


def runs(own: frozenset[str], quoted: bool = False) -> re.Pattern[str]:
    """Runs of values; *quoted*: what a terminal quotes is one too."""
    strange = [word for word in own if word and not _VALUE.fullmatch(word)]
    words = "|".join(map(_once, sorted(strange, key=lambda w: (-len(w), w))))
    names = [rf"(?<!\w)(?i:{words})(?!\w)"] if words else []
    one = "|".join([*names, *([_QUOTED] if quoted else ()), _ONE])
    return re.compile(f"(?:{one})(?:(?:{_LINKS})(?:{one}))*")


def _once(word: str) -> str:
    """A word of others; said again at once it is ours: an opening that is called Walk is Walk WALK."""
    return rf"(?<!{re.escape(word)} ){re.escape(word)}"


LINK = re.compile(r" (and|to|of|or|pc|treated|AND|TO|OF|OR|(?:ft|FT)(?= \()) ")
_LINK = re.compile(_LINKS)


def kept(own: frozenset[str], quoted: bool = False) -> re.Pattern[str] | None:
    """What of a run of values is as it was written, words like *and* in it too: *own* words of somebody, and what a
    terminal quotes. Values in a row that somebody wrote, ``A1 and A2``, are told as ours are."""
    linked = [w for w in own if LINK.search(w) and not all(map(_VALUE.fullmatch, _LINK.split(w)))]
    words = "|".join(re.escape(word) for word in sorted(linked, key=lambda w: (-len(w), w)))
    either = [*([_AS_WRITTEN] if quoted else ()), *([rf"(?<!\w)(?i:{words})(?!\w)"] if words else ())]
    return re.compile(f"({'|'.join(either)})") if either else None


def taken_out(pattern: re.Pattern[str], text: str, values: list[str]) -> str:
    """The normal form of *text*; its values go to *values*."""

    def hole(found: re.Match[str]) -> str:
        values.append(found[0])
        return "{}"

    return pattern.sub(hole, text.replace("{", "(").replace("}", ")"))


_ENGLISH = runs(frozenset())


def normal(text: str, own: frozenset[str] = frozenset()) -> str:
    """The normal form of *text*: what a catalogue knows it by."""
    return taken_out(runs(own) if own else _ENGLISH, text, [])
