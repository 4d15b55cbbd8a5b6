"""A reading as it is written, in inches as the rod says it: signs, decimal feet, and what cannot have been read."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from statistics import median

from layouts.book_head import Head
from layouts.lengths import LengthError, Style, Unit, parse, show, unechoed
from layouts.problems import Problem

MOST_READING = 30 * 12.0
MOST_BEAM = 15 * 12.0  # no beam is so high above a seat (common practice, no source)
PER_UNIT = {"inches": 1.0, "feet": 12.0, "mm": 1 / 25.4}
"""Inches."""

Say = Callable[..., Problem]

TALL = 90.0
"""Inches, or mm: no beam stands so high above the seats of a building that are all within LEVEL of one another, and are
written finer than a tape has it; decimal feet are that large as elevations (common practice, no source)."""
LEVEL = 1 / 4
FEW = 5  # readings that show a way of writing
SIXTEENTHS = 0.08  # of a sixteenth: what hundredths of an inch round off

_HUNDREDTHS = re.compile(r"[0-9]{2,}\.[0-9]{2}")
_DECIMAL = re.compile(r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+")
_DASHES = dict.fromkeys(map(ord, "‐‑‒–—\N{MINUS SIGN}"), "-")
_MARKS = "'\"‘’′ʹ“”″ʺ"
# A reading that a comma has cut in two: 52,7/8 or 44,75.
_WHOLE = re.compile(rf"[+-]?(?:[0-9]+ ?[{_MARKS}] ?-? ?)?[0-9]+")
_CUT_OFF = re.compile(rf"[0-9]{{1,2}}/[0-9]{{1,2}} ?[{_MARKS}]?|[0-9]{{1,4}}")
# ... and one whose feet and inches it has: 3,9 1/8 or 3',9 1/8.
_FEET = re.compile(r"[+-]?[0-9]+ ?['‘’′ʹ]?")
_INCHES = re.compile(rf"[0-9]{{1,2}}[ -][0-9]{{1,2}}/[0-9]{{1,2}} ?[{_MARKS}]?")


def sign(text: str) -> str:
    """The sign that *text* begins with, ``+`` or ``-`` however that is typed; empty if there is none."""
    first = text[:1].translate(_DASHES)
    return first if first in ("+", "-") else ""


def is_bare(text: str) -> bool:
    """Whether a number is written without a unit of its own."""
    return not any(c.isalpha() or c in _MARKS for c in text)


def elevations(texts: Sequence[str]) -> str:
    """What to do about bare readings of seats that look like elevations in decimal feet: large, all in hundredths and
    close together, and not all sixteenths of a tape. Empty where they do not."""
    if len(texts) < FEW or not all(_HUNDREDTHS.fullmatch(text) for text in texts):
        return ""
    found = [float(text) for text in texts]
    odd = any(abs(n * 16 - round(n * 16)) > SIXTEENTHS + 1e-9 for n in found)
    if not odd or min(found) < TALL or max(found) - min(found) > LEVEL + 1e-9:
        return ""
    whole = int(min(found)) - 4
    now = f"so that {texts[0]} is {found[0] - whole:.2f}"
    return f'Take {whole} off each, {now}, and say so: lines "unit,feet" and "sense,up" before the heading.'


class Numbers:
    """The readings of one file. *say* is told what is wrong: place, text, what is wrong, what would be right; it gives
    back the problem. *unit* is the job's, for the messages."""

    def __init__(self, unit: Unit, say: Say) -> None:
        self.unit, self.say = unit, say
        self.bare: list[float] = []
        self.texts: list[str] = []  # of seats
        self.long: list[Problem] = []

    def inches(self, text: str, place: str, head: Head, benchmark: bool) -> float:
        """*text* in inches. Only where larger is higher may a seat have a minus; a *benchmark* above the beam is read
        with the rod upside down, and written with one."""
        minus = sign(text)
        number = text[len(minus) :].strip()
        value = self._number(text, number, place, head)
        if value is None:
            return 0.0
        self.bare += [value] * is_bare(number)
        self.texts += [text] * (is_bare(number) and not benchmark)
        if value > MOST_READING:
            told = self.say(place, text, "is longer than any rod.", f"Up to {show(MOST_READING, Style(self.unit))}.")
            self.long += [told] * is_bare(number)
        elif not head.up and not benchmark:
            self._down(text, place, head, value)
        return -value if minus == "-" and value else value

    def _down(self, text: str, place: str, head: Head, value: float) -> None:
        """Say what no seat can read where larger is lower."""
        if not value:
            self.say(place, text, "is in the beam itself.", "Leave it empty until it is read.")
        elif sign(text) == "-":
            self.say(place, text, "is above the beam.", 'Where larger is higher, say so: a line "sense,up".')
        elif sign(text) == "+" and "sense" not in head.said:
            right = 'Is larger higher? Say so: a line "sense,up"; or "sense,down".'
            self.say(place, text, "has a plus, and a rod down from the beam has none.", right)

    def _number(self, text: str, number: str, place: str, head: Head) -> float | None:
        """A number without its sign in inches; ``None`` if it is none."""
        if head.unit == "feet" and _DECIMAL.fullmatch(number):
            number += " ft"
        elif head.unit == "feet" and is_bare(number) and "," not in number and any(c.isnumeric() for c in number):
            self.say(place, text, "is not decimal feet.", "Write 4.04, or mark feet with ' and inches with \".")
            return None
        try:
            return parse(number, "mm" if head.unit == "mm" else "in")
        except LengthError as error:
            self.say(place, text, unechoed(error, number) + ".")
            return None

    def note(self, place: str, text: str, note: str) -> None:
        """Say so if *note* is the rest of a reading that a comma has cut in two, or the reading itself."""
        mixed, plain = _INCHES.fullmatch(note), _CUT_OFF.fullmatch(note)
        feet = text and _FEET.fullmatch(text) and (mixed or text[-1:] in _MARKS)
        whole = not text or (plain and _WHOLE.fullmatch(text.translate(_DASHES)))
        if not (mixed or plain) or not (feet or whole):
            return
        what, between = ("fraction", " ") if "/" in note and not mixed else ("number", ".")
        right = f"Is the reading {text}{between}{note}?" if text else "Is it the reading?"
        if feet:
            right = f"Is the reading {text.rstrip(_MARKS).rstrip()}' {note.rstrip(_MARKS).rstrip()}\"?"
        self.say(place, note, f"is a {what} where a note stands.", right)

    def told(self, problems: Sequence[Problem], head: Head) -> list[Problem]:
        """*problems*; but where readings are longer than any rod, and most numbers larger than a beam is high (of a
        receiver near its zero: all the long ones whole), it is the unit that is wrong, and told once."""
        whole = head.up and all(p.text[len(sign(p.text)) :].strip().isdecimal() for p in self.long)
        if not self.long or (median(self.bare) < MOST_BEAM and not whole):
            return list(problems)
        one, *more = self.long
        number = float(_DECIMAL.findall(one.text)[0])
        other = "mm" if head.unit == "inches" or number > MOST_READING or whole else "inches"
        others = f" So are {len(more)} more." if more else ""
        right = f'Are they {other}? Say so: a line "unit,{other}" before the heading.'
        if heights := elevations(self.texts):
            right = f"Are they elevations in feet? {heights}"
        unit = Problem(one.file, one.place, one.text, f"is longer than any rod, taken as {head.unit}.{others}", right)
        left_out = {id(p) for p in more}
        return [unit if p is one else p for p in problems if id(p) not in left_out]
