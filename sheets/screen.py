"""What a terminal shows with rich: the tables of ``check``, and lines that stand out. Colour and bold only repeat what
words and numbers say already.

Imported only where there is a terminal. Tables are fitted here, not by rich: it would shorten a number to make room.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from itertools import groupby
from typing import TextIO

from msgspec.structs import replace
from rich import box
from rich.console import Console
from rich.table import Table as Grid
from rich.text import Text

from layouts.building import Building
from layouts.costs import Cost, Warned
from sheets import tongue
from sheets.language import Said
from sheets.report_tables import Table, tables
from sheets.terminal import coloured, width, wrapped

STYLES = {Cost.EVERY: "bold red", Cost.PART: "bold red", Cost.CUT: "bold yellow", Cost.LOOK: "bold"}
GAPS = (2, 1)  # blanks between the columns of a table; fewer where it would not fit
DASHES = box.Box("    \n    \n -- \n    \n    \n    \n    \n    \n", ascii=True)  # box.SIMPLE_HEAD for code pages


def console(stream: TextIO, across: int = 0) -> Console:
    """rich on a terminal: as wide as it is or at least *across*, in colour if it takes any."""
    return Console(
        file=stream,
        force_terminal=True,
        color_system="auto" if coloured(stream) else None,
        no_color=not coloured(stream),
        width=max(width(stream), across),
        highlight=False,
        markup=False,
        emoji=False,
    )


def line(text: str, style: str, stream: TextIO) -> None:
    """One line in a style, as it is."""
    console(stream, len(text) + 1).print(Text(text, style), overflow="ignore", no_wrap=True, crop=False)


def check(building: Building) -> None:
    """All that ``check`` says: warnings first, what costs most before the rest, then the tables."""
    stream = sys.stdout
    put(Said(building.job.job.name), "bold", stream)
    put(building.grade.why, "", stream)
    warnings(building.warned, stream)
    for table in tables(building):
        print(file=stream)
        put(table.title, "bold", stream)
        grid(table, stream)


def put(text: str, style: str, stream: TextIO, indent: str = "") -> None:
    """A paragraph, wrapped between words and never within a number."""
    for part in wrapped(tongue.turned(text), width(stream), indent):
        line(part, style, stream)


def warnings(warned: Sequence[Warned], stream: TextIO) -> None:
    """Warnings under what is at stake, numbered as on the index sheet."""
    print(file=stream)
    put(f"WARNINGS: {len(warned) or 'none'}", "bold", stream)
    number = 0
    for cost, found in groupby(warned, key=lambda one: one.cost):
        put(f"  {cost.words}", STYLES[cost], stream)
        for one in found:
            number += 1
            head = f"  {number:>{len(str(len(warned)))}}. "
            put(Said(f"{head}{tongue.turned(one.text)}"), "", stream, " " * (len(head) - 2))


def grid(table: Table, stream: TextIO) -> None:
    """A table as wide as the terminal at most; where its numbers alone are wider, it is, and nothing is left out."""
    table, widths, gap = fitted(table, width(stream))
    whole = sum(widths) + gap * (len(widths) - 1)
    shape = Grid(
        box=box.SIMPLE_HEAD if (stream.encoding or "").lower().startswith("utf") else DASHES,
        padding=(0, gap - 1, 0, 0),  # the box has a blank of its own between columns
        pad_edge=False,
        show_edge=False,
        header_style="bold",
    )
    for name, wide in zip(table.head, widths, strict=True):
        shape.add_column(name, width=wide, overflow="fold")  # nothing is ever cut off
    for row in table.rows:
        shape.add_row(*(Text("\n".join(wrapped(cell, wide))) for cell, wide in zip(row, widths, strict=True)))
    console(stream, whole + gap).print(shape)


def fitted(table: Table, room: int) -> tuple[Table, list[int], int]:
    """A table as it goes into *room* letters: with its long or its short head, how wide its columns are, and the blanks
    between them. Columns that may wrap give way, down to their longest word; numbers never do."""
    short = replace(table, head=table.narrow) if table.narrow else table
    least: list[int] = []
    for one, gap in [(t, g) for g in GAPS for t in (table, short)]:
        cells = list(zip(one.head, *one.rows, strict=True))
        natural = [max(map(len, column)) for column in cells]
        least = [
            max(len(word) for cell in column for word in wrapped(cell, 1)) if name in one.may_wrap else wide
            for name, wide, column in zip(one.head, natural, cells, strict=True)
        ]
        gaps = gap * (len(natural) - 1)
        if sum(natural) + gaps <= room:
            return one, natural, gap
        if one is short and sum(least) + gaps <= room:
            return one, _shared(least, natural, room - gaps, cells), gap
    return short, least, GAPS[-1]


def _shared(least: Sequence[int], natural: Sequence[int], room: int, cells: Sequence[Sequence[str]]) -> list[int]:
    """Widths of *room* in all, none under its *least*: what is over goes where fewest lines have to be parted. At most
    two columns give way."""
    spare = room - sum(least)
    first, *others = [i for i, (low, high) in enumerate(zip(least, natural, strict=True)) if low < high]
    found = []
    for given in range(spare + 1):
        widths = list(least)
        widths[first] = min(natural[first], least[first] + given)
        for other in others[:1]:
            widths[other] = min(natural[other], least[other] + spare - given)
        lines = sum(
            max(len(wrapped(cells[i][row], widths[i])) for i in (first, *others)) for row in range(len(cells[first]))
        )
        found.append((lines, widths))
    return min(found, key=lambda one: one[0])[1]
