"""Fields of a random job, one after the other: each drawn as an exact number and written in one of the ways the README
allows.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import Any

from random_written import IN, MM, board, decimal, defaults, written
from reference import of_degrees


class Fields:
    """The fields of one job: as drawn in *given*, as written in *lines*. A job of its own for every number."""

    def __init__(self, number: int) -> None:
        """A building of its own for every number."""
        self.rng = Random(number)
        self.unit = MM if self.rng.random() < 0.3 else IN
        self.given = defaults(self.unit)
        self.lines: dict[str, Any] = {"job.name": f"Shed {number}"}
        if self.unit == MM:
            self.lines["job.units"] = self.given["job.units"] = "metric"
        else:
            self.one_of("job.fraction", "16", "32", chance=0.3)

    def say(self, name: str, value: Any, said: Any = None) -> Any:
        """One field, and how it is written."""
        self.given[name] = value
        if said is None:
            said = written(self.rng, value, self.unit) if isinstance(value, Fraction) else value
        self.lines[name] = said
        return value

    def length(self, name: str, low: float, high: float, step: str = "1/4", mm: int = 1, chance: float = 1.0) -> None:
        """A length from *low* to *high* inches, in whole steps; in a metric job about as long, in whole mm."""
        if self.rng.random() < chance:
            self.say(name, self.between(low, high, step, mm))

    def between(self, low: float, high: float, step: str = "1/4", mm: int = 1) -> Fraction:
        """The same, not yet said."""
        size = Fraction(step) if self.unit == IN else Fraction(mm)
        by = 1.0 if self.unit == IN else 25.4
        return Fraction(self.rng.randint(round(low * by / float(size)), round(high * by / float(size)))) * size

    def one_of(self, name: str, *values: Any, chance: float = 1.0) -> None:
        """One of some words or numbers."""
        if self.rng.random() < chance:
            value = self.rng.choice(values)
            self.say(name, value, str(value) if isinstance(value, int) and name == "column.plies" else value)

    def wood(self, name: str, imperial: str, metric: str, chance: float = 1.0) -> None:
        """One of some boards, by name."""
        if self.rng.random() < chance:
            said = self.rng.choice((imperial if self.unit == IN else metric).split(","))
            self.say(name, board(said), said)

    def pitch(self, name: str, low: int, high: int) -> None:
        """Rise on 12, one to so many, or degrees."""
        rise = Fraction(self.rng.randint(2 * low, 2 * high), 2)
        way = self.rng.random()
        if way < 0.6:
            said, slope = f"{decimal(rise)}/12", rise / 12
        elif way < 0.75:
            to = self.rng.randint(2, 5)
            said, slope = f"1:{to}", Fraction(1, to)
        else:
            angle = Fraction(self.rng.randint(12 * low, 9 * high), 2)
            said, slope = f"{decimal(angle)} deg", of_degrees(angle)
        self.say(name, slope, said)

    def parts(self, whole: Fraction, least: float, most: float) -> list[Fraction]:
        """*whole* in bays of no more than *most* inches, about alike."""
        by = 1 if self.unit == IN else Fraction("25.4")
        count = max(2, -int(-whole // Fraction(self.rng.randint(int(least), int(most)) * by)))
        cuts = [
            Fraction(round(whole * (i + Fraction(self.rng.randint(-10, 10), 100)) / count)) for i in range(1, count)
        ]
        ends = [Fraction(0), *cuts, whole]
        return [b - a for a, b in pairwise(ends)]
