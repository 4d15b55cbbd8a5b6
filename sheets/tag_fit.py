"""How a tag's words find room: the sizes of type on a tag of any size, what stands beside what, and what is left out.

A tag has five blocks: head (name, TOP, OUTSIDE), offset, what is said of the seat, rows of cuts and marks, and lines
under them. One number, *scale*, sets all type; nothing that is read at the saw horse falls under ``READ``. Where a tag
is small the blocks are set closer first, then what matters least is left out: the picture, reading and note, the walls.
What is cut, which end, the stock and the stamp are never left out. What all blocks share stands in ``tag_type``.
"""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise

import fonts
from sheets.lettering import extent, fit, pt, width
from sheets.tag_type import CAP, DEEP, FIGURE, FRACTION, HIGH, LARGE, LEAD, LEVELS, READ, Way
from sheets.tag_words import AGAIN, MARKS, Row
from sheets.wrapping import wrap

BOXED = 0.16  # inches: what the box round a warning takes of a line
SHARE = 0.62  # of a row, that its figure may take


class Fit(Way, frozen=True, dict=True):
    """The words of a tag, set one way: the type and the height of each block, and whether all of it goes."""

    # --- head and offset ---------------------------------------------------------------------------------------------

    @cached_property
    def label(self) -> float:
        """TOP and OUTSIDE."""
        return self.size(17)

    @cached_property
    def cells(self) -> tuple[float, float]:
        """What OUTSIDE and TOP take to the left and right of the name."""
        side = "THIS FACE" if self.words.outside else "OUTSIDE"
        return width(side, self.label, self.small_cut), max(width("TOP", self.label, self.small_cut), 0.3)

    @cached_property
    def offset(self) -> float:
        """The figure of the offset."""
        return fit(self.words.offset, self.size(66, LARGE), self.figure_cut, self.room)

    @cached_property
    def name(self) -> float:
        """The column's name; nothing under 36 points."""
        room = self.room
        if self.head == "beside":
            room -= sum(self.cells) + 0.3
        elif self.head == "close":
            room -= max(width(self.words.offset, self.offset, self.figure_cut), self._short) + 0.2
        return fit(self.words.name, self.size(84, LARGE), fonts.BOLD, max(room, 0.1), fractions=False)

    @property
    def _short(self) -> float:
        return width(self.words.short, self.caption, self.caption_cut)

    @property
    def caption_cut(self) -> str:
        """Captions are bold where that leaves ink enough."""
        return fonts.REGULAR if (self.light or self.thin) and "BELOW" not in self.words.caption else fonts.BOLD

    @cached_property
    def caption(self) -> float:
        """What stands over figures; it keeps to its line."""
        long = self.words.caption if self.head != "close" else MARKS
        return fit(max(long, MARKS * bool(self.words.marks), key=len), self.size(12.5), fonts.BOLD, self.room)

    @property
    def strip(self) -> float:
        """The row of TOP and OUTSIDE over the name."""
        return max(self.label * CAP + 2 * self.air, 0.26)

    @property
    def strip_arrow(self) -> float:
        """How tall the arrow of TOP is in that row."""
        return min(self.strip - 0.02, max(0.4 * self.scale, 0.24))

    @property
    def strip_side(self) -> tuple[str, float]:
        """What says where outside is in that row, and how far from the left end its words begin: behind an arrow, or
        at once where it is this face."""
        return ("THIS FACE OUTSIDE", 0.0) if self.words.outside else ("OUTSIDE", self.strip_arrow * 1.5 + 0.07)

    @property
    def strip_top(self) -> float:
        """How far from the right end TOP ends, before its arrow."""
        return self.strip_arrow * 0.8 + 0.06

    @property
    def strip_goes(self) -> bool:
        """Whether the words of that row keep clear of one another."""
        side, begin = self.strip_side
        taken = width(side, self.label, self.small_cut) + width("TOP", self.label, self.small_cut)
        return begin + taken + self.strip_top + 0.1 <= self.room

    @property
    def figure(self) -> float:
        """The height of an offset's figure, with or without a fraction."""
        return sum(FRACTION) * self.offset

    @property
    def head_tall(self) -> float:
        """The block of the name."""
        if self.head == "close":
            return self.strip
        name = self.name * CAP + 2 * self.air
        if self.head == "over":
            return self.strip + name
        lines = 2 if self.words.outside else 1
        return max(name, self.label * (CAP + 0.15) * lines + 2 * self.air + (0.0 if self.words.outside else 0.26))

    @property
    def offset_tall(self) -> float:
        """The block of the offset."""
        return self.caption * CAP + self.figure + 2.6 * self.air

    # --- the seat, cuts and marks ------------------------------------------------------------------------------------

    @cached_property
    def said(self) -> tuple[str, ...]:
        """The lines about the seat."""
        if self.words.again:
            both = ", ".join(self.words.said)
            fits = width(both, pt(10), self.figure_cut) <= self.room - BOXED
            return (both, AGAIN) if fits else (*self.words.said, AGAIN)
        one = "  ·  ".join(self.words.said)
        close = self.head == "close" and width(one, self.size(19, 10), self.figure_cut) <= self.room
        return (one,) if close else self.words.said

    @cached_property
    def said_size(self) -> float:
        """One size for all of them."""
        room = self.room - BOXED * self.words.again
        return min(fit(line, self.size(19, 10), self.figure_cut, room) for line in self.said)

    @property
    def said_tall(self) -> float:
        """Their block."""
        box = 2 * self.air * self.words.again
        return self.said_size * (0.87 + 0.175 + (len(self.said) - 1) * self.said_lead) + 1.6 * self.air + box

    @cached_property
    def said_lead(self) -> float:
        """From one of them to the next, em: accents on capitals reach up to the line above."""
        ink = [extent(line, 1.0, self.figure_cut)[1:] for line in self.said]
        return max([1.12, *(below + above + 0.03 for (_, below), (above, _) in pairwise(ink))])

    @property
    def all_rows(self) -> tuple[Row, ...]:
        """Cuts, then marks."""
        return (*self.words.cuts, *self.words.marks)

    @cached_property
    def cut_figure(self) -> float:
        """The figures of heights, all of one size."""
        room = self.room * SHARE
        return min(fit(text, self.size(42, FIGURE), self.figure_cut, room) for _, _, text in self.all_rows)

    @cached_property
    def beside(self) -> float:
        """What the widest figure leaves of a row."""
        return self.room - max(width(text, self.cut_figure, self.figure_cut) for _, _, text in self.all_rows) - 0.1

    @cached_property
    def cut_name(self) -> float:
        """The names of cuts."""
        room = self.beside
        return min(fit(name, self.size(18), self.small_cut, room) for name, _, _ in self.all_rows)

    @cached_property
    def where(self) -> float:
        """Where they are cut."""
        size = self.size(13)
        if self.rows == "one line":
            taken = [width(name, self.cut_name, self.small_cut) + 0.08 for name, _, _ in self.all_rows]
            rooms = [self.beside - t for t in taken]
        else:
            rooms = [self.room if self.rows == "under" else self.beside] * len(self.all_rows)
        return min(
            fit(where, size, fonts.REGULAR, max(room, 0.05)) if where else size
            for (_, where, _), room in zip(self.all_rows, rooms, strict=True)
        )

    @property
    def row(self) -> float:
        """The least height of a row."""
        tall = sum(FRACTION) * self.cut_figure + 0.05
        if self.rows == "under":
            return tall + self.where * 1.05
        two = self.cut_name * (CAP + DEEP) + self.where * (HIGH + DEEP) + 0.07
        return max(tall, two) if self.rows == "two lines" else tall

    @property
    def row_head(self) -> float:
        """A caption over rows."""
        return self.caption * CAP + 1.7 * self.air

    @property
    def rows_tall(self) -> float:
        """The block of cuts and marks."""
        heads = 2 if self.words.marks else 1
        return heads * self.row_head + self.row * len(self.all_rows)

    # --- under them --------------------------------------------------------------------------------------------------

    @property
    def picture(self) -> float:
        """What the picture of the top takes across."""
        return 1.55 * max(self.scale, 0.8) + 0.1 if self.level == 0 else 0.0

    @property
    def under(self) -> float:
        """What lines have across, beside the picture."""
        return self.room - self.picture

    @cached_property
    def stock(self) -> str:
        """The first of the lines."""
        return f"{self.words.stock}  ·  {self.words.end}" if self.level == len(LEVELS) - 1 else self.words.stock

    @cached_property
    def stock_size(self) -> float:
        """Its type."""
        return fit(self.stock, self.size(16, 9.5), self.small_cut, self.under)

    @property
    def small(self) -> float:
        """The type of the other lines."""
        return self.size(10.5)

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """The other lines, broken."""
        said = self.words
        parts = [said.walls, said.reading, said.ends, said.note]
        if self.level > 1:
            parts = [[said.walls, said.ends], [said.ends], []][self.level - 2]
        return tuple(line for part in parts if part for line in wrap(part, self.small, fonts.REGULAR, self.under))

    @property
    def stamp(self) -> float:
        """The type of date and stamp."""
        return self.size(10)

    @property
    def under_tall(self) -> float:
        """The block of them all."""
        lines = len(self.lines) * self.small * LEAD
        stamp = self.stamp * (CAP + 0.25) + self.air * 0.5
        tall = self.stock_size * 1.045 + lines + stamp + 1.2 * self.air
        return max(tall, 1.25 * self.scale, 0.8) if self.level == 0 else tall

    # --- all of it ---------------------------------------------------------------------------------------------------

    @property
    def blocks(self) -> tuple[float, ...]:
        """The least height of every block."""
        return self.head_tall, self.offset_tall, self.said_tall, self.rows_tall, self.under_tall

    @property
    def spare(self) -> float:
        """Inches that are left over."""
        return self.form.tall - 2 * min(self.form.pad, 0.06 if self.form.framed else 1.0) - sum(self.blocks)

    @property
    def goes(self) -> bool:
        """Whether all of it is there, at sizes that are read."""
        near = 1 - 1e-6
        read = min(self.said_size, self.cut_name, self.where, self.caption, self.stock_size) >= pt(READ) * near
        large = min(self.name, self.offset) >= pt(LARGE) * near and self.cut_figure >= pt(FIGURE) * near
        lines = all(width(line, self.small) <= self.under for line in self.lines)
        return read and large and lines and (self.head == "beside" or self.strip_goes) and self.spare >= 0
