"""What a pattern at full scale is: edges of the board, cuts to trace, numbers, and how it is laid on.

Every pattern is drawn on the face it is laid on: *x* across the paper, *y* up, inches.
"""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct

from layouts.lengths import Style, show

Point = tuple[float, float]
Path = tuple[Point, ...]
SAME = 1e-6


class Figure(Struct, frozen=True):
    """A number on a pattern: *inches*, or *inches* ``over`` (or ``back on``) a length *on* that is measured on the real
    board."""

    name: str
    inches: float
    on: float | None = None
    joint: str = "over"

    def text(self, style: Style) -> str:
        """As printed, to the job's fraction, so that it agrees with the tags: a cut is traced and not measured."""
        size = show(self.inches, style)
        on = f" {self.joint} {show(self.on, style)}" if self.on is not None else ""
        return f"{self.name} {size}{on}".strip()


class Aid(Struct, frozen=True):
    """A thin dashed line that is not cut, from *start* to *end*: what a slope is measured from; its *text* stands
    under it."""

    start: Point
    end: Point
    text: str = ""


class Arrow(Struct, frozen=True):
    """An arrow from *start* to *end*, with a *word* where it starts."""

    start: Point
    end: Point
    word: str


class Label(Struct, frozen=True):
    """A *word* whose middle is at *at*; *turned* reads up the page."""

    at: Point
    word: str
    turned: bool = False


class Template(Struct, frozen=True, kw_only=True):
    """One pattern. *key* is stable for programs; *edges* are those of the board, *cuts* what is traced; *whom* it is
    for, by name, *what* these are; *laid* says on which side and which way, *hold* where on the board; *aids*,
    *arrows* and *labels* help to lay it on right."""

    key: str
    title: str
    edges: tuple[Path, ...]
    cuts: tuple[Path, ...]
    whom: tuple[str, ...]
    what: str = ""
    laid: str
    hold: str
    figures: tuple[Figure, ...]
    aids: tuple[Aid, ...] = ()
    arrows: tuple[Arrow, ...] = ()
    labels: tuple[Label, ...] = ()

    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of edges and cuts, inches."""
        points = [p for path in (*self.edges, *self.cuts) for p in path]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)


def legs(path: Path) -> list[tuple[float, float]]:
    """Rise and run of every straight part of *path*, both without sign, inches."""
    return [(abs(y1 - y0), abs(x1 - x0)) for (x0, y0), (x1, y1) in pairwise(path)]


def clean(path: Path) -> Path:
    """*path* free of the last digits, so that like ones compare alike."""
    return tuple((round(x, 9) + 0.0, round(y, 9) + 0.0) for x, y in path)
