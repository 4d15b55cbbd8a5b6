"""Why a line reading was taken, in a sentence that is true: what decided it, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from layouts import choose
from layouts.choose import Candidate, Seat
from layouts.fields import Job
from layouts.lengths import Style, down, show, up
from layouts.readings import Readings, taken

SAME = 1e-6  # inches between two lines that are one


class Choice(Struct, frozen=True):
    """What decided which line is proposed, in words. *found* are the candidates, *alone* the seats without a say."""

    job: Job
    readings: Readings
    seats: Mapping[str, Seat]
    found: tuple[Candidate, ...]
    proposed: Candidate
    alone: tuple[str, ...]

    def _show(self, inches: float) -> str:
        return show(inches, self.job.style)

    def _reads(self, down: float) -> str:
        return taken(self.readings, down, self.job.style)

    @property
    def high(self) -> str:
        """The seat that asks for the highest line."""
        return min(self.seats, key=lambda name: (choose.asks(self.job, self.seats[name]), name))

    @property
    def by_seat(self) -> bool:
        """Whether the line is the one this seat asks for, and nothing else had a say."""
        down = choose.asked(self.job, self.seats) * choose.step(self.job)
        return self.proposed.floor is None and abs(self.proposed.down - down) < SAME

    def why(self) -> str:
        """Why the line that is chosen was chosen."""
        return f"Line reading {self._reads(self.proposed.down)} chosen: {self._reason()}{self._tail()}"

    def given(self, line: Candidate) -> str:
        """Of a line that was given: what it costs, whether it would be the one proposed, and if not which one is."""
        best, text = self._reads(self.proposed.down), f"Line reading {self._reads(line.down)} as given"
        if abs(line.down - self.proposed.down) < SAME:
            return f"{text}, and it is the one proposed: {self._reason()}{self._tail()}"
        if line.floor is not None:
            text += f": the finished floor comes {floor_comes(self.job, line.floor)}"
        return f"{text}{_out(len(line.out))}. Proposed is {best}: {self._reason()}{self._tail()}"

    def _tail(self) -> str:
        names = ", ".join(self.alone)
        text = f"{_out(len(self.proposed.out))}."
        return f"{text} {names} had no say: far from all others, and no other reading bears it out." if names else text

    def _reason(self) -> str:
        if self.proposed.floor is not None:
            return self._by_floor()
        high, steps = self._asking(), self._show(choose.step(self.job))
        if self.by_seat:
            return f"{high}, on {steps} steps of the rod"
        asked = choose.asked(self.job, self.seats) * choose.step(self.job)
        if asked < self.found[0].down - SAME:
            high += ", and the line cannot stand above the beam (set the laser higher)"
            asked = self.found[0].down
            if abs(self.proposed.down - asked) < SAME:
                return high
        there = next(c for c in self.found if abs(c.down - asked) < SAME)
        return f"{high}, which makes {self._reads(asked)}, but there {self._worse(there)}"

    def _asking(self) -> str:
        """The seat that asks for the highest line, and why it does."""
        seat = self.seats[self.high]
        reads, room = self._reads(seat.down), seat.down - choose.asks(self.job, seat)
        if room > self.job.grade.least + SAME:
            return f"{self.high} reads {reads}, and as it is made wants {self._show(room)} up to the line"
        return f"highest seat {self.high} reads {reads}, at least {self._show(room)} wanted below the line"

    def _by_floor(self) -> str:
        """The floor decided, unless another line comes nearer to it."""
        here, near = self.proposed, min(self.found, key=lambda c: abs(c.floor or 0.0))
        text = f"the finished floor comes {floor_comes(self.job, here.floor or 0.0)}"
        if abs(near.floor or 0.0) > abs(here.floor or 0.0) - SAME:
            return f"{text}, nearest on {self._show(choose.step(self.job))} steps of the rod"
        return f"{text}; {self._reads(near.down)} would bring it nearer, but there {self._worse(near)}"

    def _worse(self, there: Candidate) -> str:
        """What is worse about another line than about the one proposed: the first thing in which it costs more."""
        costs = choose.cost(self.job, there), choose.cost(self.job, self.proposed)
        first = next(key for key, a, b in zip(costs[0]._fields, *costs, strict=True) if a > b)
        hard, out, stuck, short = costs[0].hard, costs[0].out, costs[0].stuck, costs[0].short
        if first == "hard" and hard == short:
            first = "short"
        return {
            "off": "the floor would come further off",
            "bare": f"the grade board {reaches(there.below or 0.0, self.job.style)} the floor",
            "hard": f"{_piers(hard)} could not be built on as they are",
            "out": f"{_piers(out)} would be out of tolerance",
            "stuck": f"{_piers(stuck)} would be too high for the board or for a made top",
            "wrong": f"more would be wrong with {_piers(out)}",
            "near": "the floor would come further off",
            "inches": f"{_piers(out)} would be further out of tolerance",
            "short": f"no stock is long enough for {short} column{'s' if short != 1 else ''}",
            "stock": "the columns would take more stock",
            "lowest": "the line would be no better, and higher",
        }[first]


def _out(count: int) -> str:
    return f"; {_piers(count)} out of tolerance" if count else ""


def _piers(count: int) -> str:
    return f"{count} pier{'s' if count != 1 else ''}"


def reaches(below: float, style: Style) -> str:
    """How far the grade board reaches below a floor, in words."""
    if below < -SAME:
        return f"ends {show(-below, style, rounded=up)} ABOVE"
    return f"reaches {show(below, style, rounded=down)} below"


def floor_comes(job: Job, higher: float) -> str:
    """How the finished floor comes, *higher* inches than wanted, in words."""
    off = show(abs(higher), job.style)
    if off == show(0.0, job.style):
        return f"as wanted from {job.grade.benchmark}"
    return f"{off} {'higher' if higher > 0 else 'lower'} than wanted from {job.grade.benchmark}"
