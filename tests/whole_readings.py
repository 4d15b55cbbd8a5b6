"""The readings of a random building written in all the ways a crew does: with gaps, set-ups, rounds and notes, or with
one line that is wrong. What they say stays the same: the second opinion needs no more than which seats are read."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

import stress
from hypothesis import strategies as st
from random_buildings import Drawn
from random_written import decimal, mixed

NOTES = ("", "", "", "mud on the seat", "wet; wiped", 'read by "Lev"', "é", stress.NOTE)
HEADS = ("date,2026-05-14", "weather,windy", "read by,Ana", "rod,no. 3", "wrote,Lev", "highest,A1", "# after the rain")
WRONG = (
    *("X9,45", "A1", "A1,nan", "A1,52,7/8", ",45", "A1,-45", "A1,0", "A1,999999", "A2,1e3", "A1,45,2,2,seat", '"A1,45'),
    *("unit,yards", "sense,sideways", "column,reading", "A1,45\x07", "小,45", "A1,45,1,1,moon,", "A1,4 5", "A1,45;"),
)


@dataclass(frozen=True)
class Book:
    """A file of readings; the seats *read*, and whether it says what the building does (else a line is *odd*)."""

    csv: str
    read: tuple[str, ...]
    odd: bool = False


@dataclass(frozen=True)
class Line:
    """One reading: *value* in the unit of the file."""

    name: str
    value: Fraction
    setup: int = 1
    round: int = 1


def number(text: str) -> Fraction:
    """A reading as the building has it written: ``52 7/8``, ``4.375``."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


@st.composite
def books(draw: st.DrawFn, of: Drawn, called: Mapping[str, str]) -> Book:
    """The readings of a building whose crew has *called* some of its columns otherwise."""
    head, _, rows = of.csv.partition("column,reading\n")
    said = dict(row.split(",") for row in rows.splitlines())
    seats = [Line(called.get(name, name), number(text)) for name, text in said.items()]
    kept = draw(st.sampled_from(["all", "all", "all", "some", "some", "one", "none"]))
    if kept != "all":
        seats = [seat for seat in seats if draw(st.booleans())] if kept == "some" else seats[: kept == "one"]
    back = {called.get(name, name): name for name in said}
    lines = draw(_shot(seats))
    if seats and draw(st.integers(0, 4)) == 0:
        head += "benchmark,BM1,nail in the pole\n"
        lines.insert(1, replace(lines[0], name="BM1"))
    more = draw(st.lists(st.sampled_from(HEADS), max_size=2, unique=True))
    decimals = all("/" not in text for text in said.values())
    text = draw(_written([*head.splitlines(), *more], lines, decimals))
    odd = draw(st.integers(0, 9)) == 0
    return Book(draw(_spoilt(text)) if odd else text, tuple(back[seat.name] for seat in seats), odd)


@st.composite
def _shot(draw: st.DrawFn, seats: list[Line]) -> list[Line]:
    """The seats from one set-up or two that share a seat, perhaps all of them once more in a second round; every set-up
    ends with its first point, as it should."""
    if not seats:
        return []
    found: list[Line] = []
    for number_of in range(1, 1 + draw(st.sampled_from([1, 1, 1, 2]))):
        at = draw(st.integers(1, len(seats))) if draw(st.integers(0, 3)) == 0 else len(seats)
        stands = [seats[:at], seats[at - 1 :] if at < len(seats) else []]
        for setup, points in enumerate(stands, 1):
            higher = 0 if (number_of, setup) == (1, 1) else draw(st.integers(0, 2))
            shot = [replace(p, value=p.value + higher, setup=setup, round=number_of) for p in points]
            found += [*shot, *shot[: len(shot) > 1]]
    return found


@st.composite
def _written(draw: st.DrawFn, head: list[str], lines: list[Line], decimals: bool) -> str:
    """The file: its cells parted in any way, with columns for what is said of each reading where there is any."""
    mark = draw(st.sampled_from([",", ",", ";", "\t"]))
    full = len({(line.setup, line.round) for line in lines}) > 1 or draw(st.booleans())
    rows = [["column", "reading", *(["set-up", "round", "on", "note"] if full else [])]]
    for line in lines:
        told = decimal(line.value) if decimals else mixed(line.value)
        more = [str(line.setup), str(line.round), "", draw(st.sampled_from(NOTES))]
        rows.append([line.name, told or "", *(more if full else [])])
    out = io.StringIO()
    csv.writer(out, delimiter=mark, lineterminator="\n").writerows(rows)
    return "\n".join([*head, out.getvalue()])


@st.composite
def _spoilt(draw: st.DrawFn, text: str) -> str:
    """The same with one line more, which is wrong, or one less."""
    lines = text.splitlines()
    at = draw(st.integers(0, len(lines) - 1))
    wrong = draw(st.none() | st.sampled_from(WRONG))
    return "\n".join([*lines[:at], *([wrong] if wrong else []), *lines[at + (not wrong) :]]) + "\n"
