"""Flowing pages: headings, paragraphs, tables and small drawings, one under the other, page after page."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

import fonts
from sheets.frame import Body
from sheets.lettering import Align, fit, pt, write
from sheets.paper import Paper
from sheets.shapes import HAIR, MEDIUM, THIN, Drawing, Recorder
from sheets.wrapping import wrap

LEAD = 1.32  # line height over type size
FRAME = 0.1  # between a frame and its words
AGAIN = " (continued)"


class Column(Struct, frozen=True):
    """One column of a table: heading, share of the width, how its cells stand, and whether they are figures."""

    head: str
    share: float
    align: Align = "left"
    bold: bool = False


class Flow:
    """Pages filled from the top. Everything is drawn at once; a table that does not fit goes on overleaf, its head
    again at the top. A heading, and the words between it and what it is of, go overleaf with that; a page holds at
    least two lines of a paragraph and two rows of a table."""

    def __init__(self, kind: str, title: str, paper: Paper) -> None:
        self.kind, self.title, self.paper = kind, title, paper
        self.area = paper.body
        self._pages: list[Recorder] = []
        self._turn()

    def _turn(self) -> None:
        self.pen = Recorder(self.paper.width, self.paper.height)
        self._pages.append(self.pen)
        self.y = self.area.y1
        self._headed = self.y  # where a head at the top of this page ends: no row stands above it
        self._lead: tuple[int, float] | None = None  # where the last heading begins, if nothing but words came after

    def need(self, room: float) -> None:
        """Turn the page unless *room* inches are left. A heading that would be left alone goes overleaf too."""
        if self.y - room >= self.area.y0 or self.y >= self.area.y1:
            return
        shapes, start = self._lead or (0, self.area.y1)
        tall = start - self.y
        if self._lead is None or start >= self.area.y1 or tall + room > self.area.height:
            self._turn()
            return
        words = self.pen.cut_off(shapes)
        self._turn()
        self.pen.place(words, 0.0, self.area.y1 - start)
        self.y -= tall
        self._lead = 0, self.area.y1

    def gap(self, inches: float = 0.12) -> None:
        """Blank space, dropped at the top of a page."""
        if self.y < self.area.y1:
            self.y -= inches

    def heading(self, text: str, size: float = pt(15), keep: float = 1.2) -> None:
        """A heading that keeps *keep* inches with it."""
        if self._lead and self.pen.count > self._lead[0] + 1:
            self._lead = None  # two headings, one under the other, stay together; words between them part them
        self.need(size * LEAD + keep)
        self._lead = self._lead or (self.pen.count, self.y)
        self.y -= size
        write(self.pen, self.area.x0, self.y, text, fit(text, size, fonts.BOLD, self.area.width), fonts.BOLD)
        self.y -= size * 0.42

    def para(self, text: str, size: float = pt(11), bold: bool = False, indent: float = 0.0) -> None:
        """A paragraph, wrapped: where it goes on overleaf, two lines of it at least are on either page."""
        cut = fonts.BOLD if bold else fonts.REGULAR
        lines = wrap(text, size, cut, self.area.width - indent)
        for i, line in enumerate(lines):
            left = len(lines) - i
            whole = len(lines) if len(lines) < 4 else 2  # of three lines no page can have two without a lone one
            if i and self._lead and self.y - size * LEAD < self.area.y0:
                self._lead = None  # words of its own stand under the heading already
            self.need(size * LEAD * (whole if i == 0 else 2 if left == 2 else 1))
            self.y -= size
            write(self.pen, self.area.x0 + indent, self.y, line, size, cut)
            self.y -= size * (LEAD - 1)

    def boxed(self, head: str, lines: Sequence[str], size: float = pt(10.5)) -> None:
        """A heading and paragraphs in a frame: on one page if that costs no more than half of one, else the frame is
        closed at the foot of the page and goes on overleaf."""
        rest = [p for t in lines for p in wrap(t, size, fonts.REGULAR, self.area.width - 2 * FRAME)]
        line = size * LEAD
        if (len(rest) + 1) * line + 2 * FRAME <= self.area.height / 2:
            self.need((len(rest) + 1) * line + 2 * FRAME)
        while True:
            self.need(4 * line + 2 * FRAME)
            self._lead = None
            fits = int((self.y - self.area.y0 - 2 * FRAME) / line + 1e-9) - 1
            self._framed(head, rest[:fits], size)
            rest = rest[fits:]
            if not rest:
                break
            self._turn()
            head = head.removesuffix(AGAIN) + AGAIN
        self.gap(0.1)

    def _framed(self, head: str, lines: Sequence[str], size: float) -> None:
        top = self.y
        self.y -= FRAME
        for i, text in enumerate([head, *lines]):
            self.y -= size
            write(self.pen, self.area.x0 + FRAME, self.y, text, size, fonts.REGULAR if i else fonts.BOLD)
            self.y -= size * (LEAD - 1)
        self.y -= FRAME
        self.pen.box(self.area.x0, self.y, self.area.x1, top, None, MEDIUM)

    def draw(self, drawing: Drawing) -> None:
        """A small drawing, in the middle of the width."""
        self.need(drawing.height)
        self._lead = None
        self.y -= drawing.height
        self.pen.place(drawing.shapes, self.area.x0 + (self.area.width - drawing.width) / 2, self.y)

    def table(self, columns: Sequence[Column], rows: Sequence[Sequence[str]], size: float = pt(12)) -> None:
        """A ruled table; cells that are too long are wrapped."""
        total = sum(c.share for c in columns)
        widths = [c.share / total * self.area.width for c in columns]
        wrapped = [
            [_cell(text, size, c, w - 0.1) for c, w, text in zip(columns, widths, row, strict=True)] for row in rows
        ]
        first = sum(max(map(len, cells)) * size * LEAD + 0.03 for cells in wrapped[:2])
        head = _head_tall(size)
        # rows that no page holds are parted anyway
        self.need(head + (first if head + first < self.area.height / 2 else size * LEAD * 2))
        self._lead = None
        self._head(columns, widths, size)
        for cells in wrapped:
            while any(cells):
                cells = self._part(columns, widths, cells, size)
        self.gap(0.1)

    def _part(
        self, columns: Sequence[Column], widths: Sequence[float], cells: Sequence[list[str]], size: float
    ) -> list[list[str]]:
        """A row, overleaf if it does not go here; of one that no page holds what goes here. Gives what is left of
        it."""
        line = size * LEAD
        most = max(len(c) for c in cells)
        if self.y - most * line - 0.03 < self.area.y0 and self.y < self._headed:
            self._turn()
            self._head(columns, widths, size)
        fits = max(1, min(most, int((self.y - self.area.y0 - 0.03) / line + 1e-9)))
        self._row(columns, widths, [c[:fits] for c in cells], size, fits * line + 0.03)
        return [c[fits:] for c in cells]

    def _head(self, columns: Sequence[Column], widths: Sequence[float], size: float) -> None:
        small, tall = size * 0.86, _head_tall(size)
        self.need(tall + size * LEAD * 2)
        at_top = self.y == self.area.y1
        if any(c.head for c in columns):
            heads = [[c.head] for c in columns]
            self._row([Column(c.head, c.share, c.align, True) for c in columns], widths, heads, small, tall)
        self.pen.stroke(self.area.x0, self.y, self.area.x1, self.y, THIN)
        if at_top:
            self._headed = self.y

    def _row(
        self,
        columns: Sequence[Column],
        widths: Sequence[float],
        cells: Sequence[Sequence[str]],
        size: float,
        tall: float,
    ) -> None:
        x = self.area.x0
        for column, wide, lines in zip(columns, widths, cells, strict=True):
            at = {"left": x + 0.05, "center": x + wide / 2, "right": x + wide - 0.05}[column.align]
            for i, line in enumerate(lines):
                fitted = fit(line, size, _cut(column), wide - 0.06)
                write(self.pen, at, self.y - size * (1.02 + i * LEAD), line, fitted, _cut(column), column.align)
            x += wide
        self.y -= tall
        self.pen.stroke(self.area.x0, self.y, self.area.x1, self.y, HAIR)

    def bodies(self) -> list[Body]:
        """The finished pages."""
        many = len(self._pages) > 1
        return [
            Body(self.kind, f"{self.title} {i}" if many else self.title, pen.drawing(), self.paper)
            for i, pen in enumerate(self._pages, 1)
        ]


def _cell(text: str, size: float, column: Column, room: float) -> list[str]:
    """The lines of a cell: words are wrapped, figures, which stand at the right, are not."""
    return [text] if column.align == "right" else wrap(text, size, _cut(column), room)


def _head_tall(size: float) -> float:
    """What the head of a table takes up whose rows are of a *size*."""
    return size * 0.86 * LEAD + 0.02


def _cut(column: Column) -> str:
    return fonts.BOLD if column.bold else fonts.REGULAR
