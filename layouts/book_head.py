"""How readings were taken, as their file says it in lines before its heading, a word and what it is::

unit,feet                decimal feet; else inches or mm (by default the job's)
sense,up                 larger is higher, plus and minus; else down: rod or tape from the beam, larger is lower
read on,concrete         else the seat
plate,3/8                from the concrete up to the seat: inches, in a file of mm mm
benchmark,BM1,nail in the power pole
highest,G5               by eye; also lowest
weather,windy            also date, read by, wrote, rod: kept for the grade sheet
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Literal

from msgspec import Struct, field
from msgspec.structs import replace

from layouts import days
from layouts.lengths import LengthError, Style, Unit, parse, show, unechoed
from layouts.problems import nearest, shorten

UNITS = ("inches", "feet", "mm")
KEPT = ("date", "weather", "read by", "wrote", "rod")
CHOICES: Mapping[str, tuple[str, ...]] = {"unit": UNITS, "sense": ("down", "up"), "read on": ("seat", "concrete")}
WRONG = {"unit": "no unit of a rod", "sense": "no sense of a rod", "read on": "nothing a rod is read on"}
KEYS = ("unit", "sense", "read on", "plate", "benchmark", "highest", "lowest", *KEPT)
MOST_PLATE = 6.0
LEAST_PLATE = 1 / 16  # thinner is no plate but one in feet
MOST_LABEL = 20

Name = Literal["inches", "feet", "mm"]
Say = Callable[..., object]


class Head(Struct, frozen=True):
    """How the readings were taken. *unit* and *up* (larger is higher) as said in the file or taken for granted; *said*
    holds the words the file has said itself; *plate* inches from the concrete up to the seat; *benchmarks* by name with
    where they are; *highest* and *lowest* by eye; *kept* whatever else is noted."""

    unit: Name = "inches"
    up: bool = False
    concrete: bool = False
    plate: float = 0.0
    benchmarks: Mapping[str, str] = field(default_factory=dict)
    highest: str = ""
    lowest: str = ""
    kept: Mapping[str, str] = field(default_factory=dict)
    said: frozenset[str] = frozenset()


class HeadReader:
    """The lines being read; *say* is told what is wrong: place, text, what is wrong, what would be right."""

    def __init__(self, columns: Collection[str], unit: Unit, called: Mapping[str, str], say: Say) -> None:
        self.columns, self.unit, self.called, self.say = columns, unit, called, say
        self.head = Head("mm" if unit == "mm" else "inches")
        self.plate: tuple[str, str] | None = None  # its place and text: in which unit is known at the end
        self.eye = ""  # the line that names a seat by eye, the last of them

    def line(self, place: str, found: list[str]) -> None:
        """One line: a word, what it is, and perhaps more."""
        key, what = found[0].lower(), " ".join(found[1:2]).strip()
        more = " ".join(c for c in found[2:] if c)
        if key not in KEYS:
            self.say(place, found[0], "says nothing that is known.", nearest(key, KEYS))
        elif not what:
            self.say(place, found[0], "says nothing.", "Write what it is after a comma, or leave the line out.")
        elif key == "benchmark":
            self._benchmark(place, what, more)
        elif key in self.head.said:
            self.say(place, found[0], "is said a second time.", "Keep one of them.")
        elif key == "date" and days.impossible(what):
            self.say(place, what, days.WRONG, days.RIGHT)
        elif key in KEPT:
            words = shorten(f"{what} {more}".strip())
            self.head = replace(self.head, kept={**self.head.kept, key: words}, said=self.head.said | {key})
        elif more:
            self.say(place, f"{what}, {more}", f"is more than one {key}.", "One word or number; decimals take a point.")
        else:
            self.head = replace(self._with(place, key, what), said=self.head.said | {key})

    def done(self) -> Head:
        """The head, once all its lines are read."""
        if self.plate:
            self.head = replace(self.head, plate=self._thick(*self.plate))
        both = self.head.highest
        if both and both == self.head.lowest:
            self.say(
                self.eye, both, "cannot be both highest and lowest.", "Name another seat, or leave the two lines out."
            )
        return self.head

    def _with(self, place: str, key: str, what: str) -> Head:
        """The head with one word more that tells how to take the numbers."""
        small = what.lower()
        if key == "plate":
            self.plate = place, what
        elif key in ("highest", "lowest"):
            return self._by_eye(place, key, what)
        elif small not in CHOICES[key]:
            self.say(place, what, f"is {WRONG[key]}.", f"Choose from {', '.join(CHOICES[key])}.")
        elif key == "unit":
            return replace(self.head, unit="feet" if small == "feet" else "mm" if small == "mm" else "inches")
        elif key == "sense":
            return replace(self.head, up=small == "up")
        else:
            return replace(self.head, concrete=small == "concrete")
        return self.head

    def _by_eye(self, place: str, key: str, what: str) -> Head:
        """A seat; by its grid name too, though the crew calls it otherwise."""
        self.eye = place
        name = what if what in self.columns else self.called.get(what, what)
        if name not in self.columns:
            self.say(place, what, "is not a column of this job.", nearest(what, self.columns))
            return self.head
        return replace(self.head, highest=name) if key == "highest" else replace(self.head, lowest=name)

    def _thick(self, place: str, text: str) -> float:
        """The plate in inches."""
        unit: Unit = "mm" if self.head.unit == "mm" else "in"
        try:
            value = parse(text, unit)
        except LengthError as error:
            self.say(place, text, unechoed(error, text) + ".")
            return 0.0
        if value > MOST_PLATE or 0 < value < LEAST_PLATE:
            style = Style(unit)
            right = f"{show(LEAST_PLATE, style)} to {show(MOST_PLATE, style)}, or 0 for none."
            self.say(place, text, "is no plate.", right)
        return value

    def _benchmark(self, place: str, name: str, where: str) -> None:
        if name in self.columns or name in self.called:
            self.say(place, name, "is a column of this job.", "A seat that is read twice joins set-ups as it is.")
        elif name in self.head.benchmarks:
            self.say(place, name, "is named a second time.", "Keep one of them.")
        elif len(name) > MOST_LABEL:
            self.say(place, name, f"is {len(name)} letters long.", f"At most {MOST_LABEL}.")
        else:
            self.head = replace(self.head, benchmarks={**self.head.benchmarks, name: shorten(where)})
