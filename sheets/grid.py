"""A picture as a fine grid of cells that are taken or free: where a box goes is known for all of it at once."""

from __future__ import annotations

import math

from sheets.taken import Box, Stroke

CELL = 0.01  # inches
HAIR = 1e-6


class Grid:
    """Cells over *area*, each row of them an integer whose bits are taken cells; what is beyond counts as taken."""

    def __init__(self, area: Box) -> None:
        self.area = area
        self.wide = math.floor((area[2] - area[0]) / CELL + HAIR)
        self.rows = [0] * max(math.floor((area[3] - area[1]) / CELL + HAIR), 0)

    def fill(self, box: Box) -> None:
        """Take every cell that a box has something of."""
        left, right = self._cells(box[0] - self.area[0], box[2] - self.area[0], self.wide)
        low, high = self._cells(box[1] - self.area[1], box[3] - self.area[1], len(self.rows))
        if right > left:
            mask = (1 << (right - left)) - 1 << left
            for i in range(low, high):
                self.rows[i] |= mask

    @staticmethod
    def _cells(low: float, high: float, count: int) -> tuple[int, int]:
        return max(math.floor(low / CELL + HAIR), 0), min(math.ceil(high / CELL - HAIR), count)

    def stroke(self, line: Stroke) -> None:
        """Take the cells along a line."""
        steps = max(math.ceil(math.dist(*line) / CELL), 1)
        (x0, y0), (x1, y1) = line
        for i in range(steps + 1):
            x, y = x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps
            self.fill((x - CELL / 2, y - CELL / 2, x + CELL / 2, y + CELL / 2))

    def blocked(self, wide: float, tall: float, low: float, high: float) -> dict[int, int]:
        """Row by row between two heights, in bits, the cells at which a box of that size cannot have its lower left
        corner."""
        across, up = math.ceil(wide / CELL - HAIR), math.ceil(tall / CELL - HAIR)
        beyond = -1 << self.wide  # without end: a line may reach farther out than words are wide
        first, last = self._cells(low - self.area[1], high - self.area[1], len(self.rows))
        rows = _smeared([row | beyond for row in self.rows[first:last]], up)
        return {i: _smeared_bits(row, across) for i, row in enumerate(rows[: max(len(rows) - up + 1, 0)], first)}

    def cell(self, x: float, y: float) -> tuple[int, int]:
        """The column and row of the cell that a place lies in or next to."""
        return round((x - self.area[0]) / CELL), round((y - self.area[1]) / CELL)

    def corner(self, column: int, row: int) -> tuple[float, float]:
        """The lower left corner of a cell."""
        return self.area[0] + column * CELL, self.area[1] + row * CELL


def _smeared(rows: list[int], count: int) -> list[int]:
    """Every row with the next ones, *count* in all."""
    done = 1
    while done < count:
        step = min(done, count - done)
        rows = [row | rows[i + step] if i + step < len(rows) else row for i, row in enumerate(rows)]
        done += step
    return rows


def _smeared_bits(row: int, count: int) -> int:
    """Every bit with the next ones, *count* in all."""
    done = 1
    while done < count:
        step = min(done, count - done)
        row |= row >> step
        done += step
    return row
