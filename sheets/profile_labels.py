"""What stands under the blocks of the profile: marks, names, offsets and words, in rows as tall as their tallest."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise
from typing import Literal

from msgspec import Struct

import fonts
from sheets.lettering import pt, width, write
from sheets.shapes import HAIR, MEDIUM, Recorder

NAME, OFFSET, SMALL, FLAG = pt(13), pt(11), pt(8.5), pt(8.5)
PITCH = 0.125  # from line to line of words that stand up the page
LEADER = 0.14  # from a block to what belongs to it
MARK = 0.058  # half a mark

Mark = Literal["again", "wild", "out"]


class Label(Struct, frozen=True):
    """What stands under a block: the *name*, the *offset*, *flags*: what is wrong, with a *marks* shape for each kind
    of it, and *plain* words; *what* the figure is that stands for the offset."""

    name: str
    offset: str
    flags: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()
    plain: tuple[str, ...] = ()
    what: str = "offset"

    def lines(self, most: int) -> list[tuple[str, str]]:
        """The words in at most so many lines, each with its cut; what is wrong in bold and first."""
        flags, plain = list(self.flags), list(self.plain)
        while len(flags) + len(plain) > max(most, 2):
            _joined(min((some for some in (flags, plain) if len(some) > 1), key=_two_shortest))
        if len(flags) + len(plain) > most:
            flags, plain = ([", ".join([*flags, *plain])], []) if flags else ([], [", ".join(plain)])
        return [*((f, fonts.BOLD) for f in flags), *((p, fonts.REGULAR) for p in plain)]


def _two_shortest(words: Sequence[str]) -> int:
    return sum(sorted(map(len, words))[:2])


def _joined(words: list[str]) -> None:
    """Put the two shortest on one line, in their order."""
    short = sorted(sorted(range(len(words)), key=lambda i: len(words[i]))[:2])
    words[short[0]] += f", {words.pop(short[1])}"


def spread(wanted: Sequence[float], step: float, low: float, high: float) -> list[float]:
    """Places in order, *step* apart at the least, as near to those *wanted* as can be, between *low* and *high*."""
    blocks: list[tuple[float, int]] = []  # sum and count of neighbours that touch, less what they stand apart
    for i, place in enumerate(wanted):
        total, count = place - i * step, 1
        while blocks and blocks[-1][0] / blocks[-1][1] > total / count:
            before, many = blocks.pop()
            total, count = total + before, count + many
        blocks.append((total, count))
    found: list[float] = []
    for total, count in blocks:
        found += [total / count + (len(found) + k) * step for k in range(count)]
    last = len(found) - 1
    return [min(max(x, low + i * step), high - (last - i) * step) for i, x in enumerate(found)]


class Rows(Struct, frozen=True, dict=True):
    """The rows of *labels* at *places*, side by side if they are *level*, else up the page."""

    labels: tuple[Label, ...]
    places: tuple[float, ...]
    level: bool

    @cached_property
    def words(self) -> list[list[tuple[str, str]]]:
        """The lines of words of every label, as many as go between two labels."""
        gap = min((b - a for a, b in pairwise(self.places)), default=1.0)
        return [label.lines(max(1, int((gap - 0.02) / PITCH + 1e-9))) for label in self.labels]

    @property
    def marked(self) -> float:
        """The row of marks, inches."""
        return 2 * MARK + 0.05 if any(v.marks for v in self.labels) else 0.0

    @cached_property
    def named(self) -> float:
        """The row of names."""
        if self.level:
            return NAME * 1.15
        return max(width(v.name, NAME, fonts.BOLD, fractions=False) for v in self.labels) + 0.07

    @cached_property
    def offset(self) -> float:
        """The row of offsets."""
        return OFFSET * 1.5 if self.level else max(width(v.offset, OFFSET, fonts.BOLD) for v in self.labels) + 0.08

    @property
    def tall(self) -> float:
        """All of it."""
        worded = max((width(t, FLAG, cut) for lines in self.words for t, cut in lines), default=0.0)
        return LEADER + self.marked + self.named + self.offset + worded + 0.06

    def draw(self, pen: Recorder, blocks: Sequence[float], left: float) -> None:
        """All of it, from the lower edge of the drawing up; *blocks* are the places that the labels belong to; what the
        rows are stands left of *left*."""
        top = self.tall
        y = top - LEADER - self.marked - self.named
        for text, at in (("column", y + self.named - NAME * 0.8), (self.labels[0].what, y - OFFSET * 0.95)):
            write(pen, left - 0.05, at, text, SMALL, align="right")
        for label, x, block, words in zip(self.labels, self.places, blocks, self.words, strict=True):
            pen.stroke(block, top - 0.01, x, top - LEADER + 0.02, HAIR)
            _marks(pen, label.marks, x, top - LEADER - MARK)
            self._one(pen, label, x, y)
            first = x - (len(words) - 1) / 2 * PITCH + FLAG * 0.35
            for i, (text, cut) in enumerate(words):
                write(pen, first + i * PITCH, y - self.offset, text, FLAG, cut, "right", 90, fractions=False)

    def _one(self, pen: Recorder, label: Label, x: float, y: float) -> None:
        """Name and offset of a label, with *y* between them."""
        if self.level:
            write(pen, x, y + NAME * 0.3, label.name, NAME, fonts.BOLD, "center", fractions=False)
            write(pen, x, y - self.offset + OFFSET * 0.5, label.offset, OFFSET, fonts.BOLD, "center")
            return
        write(pen, x + NAME * 0.35, y + self.named, label.name, NAME, fonts.BOLD, "right", 90, fractions=False)
        write(pen, x + OFFSET * 0.35, y, label.offset, OFFSET, fonts.BOLD, "right", 90)


def _marks(pen: Recorder, marks: Sequence[Mark], x: float, y: float) -> None:
    """A black triangle where a seat is to be shot again, a diamond where it stands out from all, a crossed box where it
    is out of tolerance."""
    x -= (len(marks) - 1) * (MARK + 0.005)
    m = MARK
    for mark in marks:
        if mark == "again":
            pen.shape([(x - m, y - m), (x + m, y - m), (x, y + m)], 0.0, 0.0)
        elif mark == "wild":
            pen.shape([(x - m, y), (x, y - m), (x + m, y), (x, y + m)], 0.0, 0.0)
        else:
            n = m * 0.85
            pen.box(x - n, y - n, x + n, y + n, None, MEDIUM)
            pen.stroke(x - n, y - n, x + n, y + n, MEDIUM)
            pen.stroke(x - n, y + n, x + n, y - n, MEDIUM)
        x += 2 * MARK + 0.01
