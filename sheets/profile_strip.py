"""One strip of the profile: the grade line, the board over it, seats as blocks, and their names under them."""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct

import fonts
from layouts.lengths import Style, show_inches
from sheets.lettering import fit, pt, width, write
from sheets.profile_labels import NAME, SMALL, Label, Rows, spread
from sheets.shapes import HAIR, HEAVY, MEDIUM, THICK, THIN, Drawing, Point, Recorder

LEFT, RIGHT = 1.05, 0.5  # inches: names of the levels, scale bar
BAND = 0.4  # over the picture: which wall it is
STUB = 0.18  # of a block, under the lowest seat
BREAK = 0.16  # what is left out of the board takes up so much
STEP = 0.29  # from level to level of their names
ZIG = 0.12
TICKS = {"in": (0.25, 0.5, 1, 2, 3, 6, 12, 24, 36, 60, 120, 240), "mm": (5, 10, 20, 50, 100, 200, 500, 1000, 2000)}
LEAST_TICK = 0.2


class Stand(Struct, frozen=True):
    """A column of the walk: *at* inches along it; *depth* of its seat under the grade line, inches, ``None`` where it
    was not read; *grid* its name on the plan."""

    grid: str
    at: float
    depth: float | None
    corner: bool
    label: Label


class Level(Struct, frozen=True):
    """A level line beside the grade line: its words, its *height* above it in inches, and where it is drawn, inches of
    paper above it."""

    words: tuple[str, str]
    height: float
    drawn: float


class Heights(Struct, frozen=True):
    """How heights are drawn, 1:*tall*. *up* and *down*: inches of paper that are true over and under the grade line;
    *line*: words of the line; *board* and *floor*: levels over it; *top*: the highest thing drawn."""

    tall: float
    up: float
    down: float
    line: tuple[str, str]
    board: Level
    floor: Level | None

    @property
    def levels(self) -> tuple[Level, ...]:
        """All level lines, the lowest first."""
        found = [Level(self.line, 0.0, 0.0), self.board, *([self.floor] if self.floor else [])]
        return tuple(sorted(found, key=lambda v: v.height))

    @property
    def broken(self) -> bool:
        """Whether something stands higher than is drawn true."""
        return any(self.off(v) for v in self.levels)

    def off(self, level: Level) -> bool:
        """Whether a level is not drawn at its height."""
        return abs(level.drawn - level.height / self.tall) > 1e-9

    def holds(self, depth: float) -> bool:
        """Whether a seat *depth* inches under the line is drawn at its height."""
        return -self.up - 1e-9 <= depth / self.tall < self.down + STUB * 0.6

    @property
    def top(self) -> float:
        """Inches of paper over the grade line."""
        return max(self.up, *(v.drawn for v in self.levels))


class Strip(Struct, frozen=True):
    """Columns of a stretch of the walk, *walls* on it (name, from, to), labels *level* or up the page, *step* inches
    from each to the next, lengths drawn 1:*along*."""

    stands: tuple[Stand, ...]
    walls: tuple[tuple[str, float, float], ...]
    level: bool
    step: float
    along: float

    @property
    def places(self) -> list[float]:
        """Where the blocks stand, inches from the left of the drawing."""
        start = self.stands[0].at
        return [LEFT + self.step / 2 + (s.at - start) / self.along for s in self.stands]

    def labels(self, wide: float) -> list[float]:
        """Where their labels stand."""
        return spread(self.places, self.step, LEFT + self.step / 2, wide - RIGHT - self.step / 2)

    def rows(self, wide: float) -> Rows:
        """What stands under the blocks."""
        return Rows(tuple(s.label for s in self.stands), tuple(self.labels(wide)), self.level)


def draw(strip: Strip, heights: Heights, wide: float, style: Style) -> Drawing:
    """The whole strip, *wide* inches across."""
    rows = strip.rows(wide)
    tall = rows.tall + heights.down + STUB + heights.top + BAND
    pen = Recorder(wide, tall)
    base = rows.tall + STUB + heights.down
    pen.begin("profile", "profile of the seats")
    _ground(pen, strip, heights, wide, base, style)
    for stand, x in zip(strip.stands, strip.places, strict=True):
        _seat(pen, stand, x, _bar(strip), heights, base)
    pen.begin("grade-line", "grade line")
    pen.stroke(LEFT, base, wide - RIGHT, base, HEAVY)
    pen.end()
    _walls(pen, strip, base + heights.top + 0.12)
    _levels(pen, heights, base, tall)
    rows.draw(pen, strip.places, LEFT)
    pen.end()
    return pen.drawing()


# --- the picture ----------------------------------------------------------------------------------------------------


def _bar(strip: Strip) -> float:
    """Half the width of a block."""
    return min(0.13, 0.35 * min((b - a for a, b in pairwise(strip.places)), default=1.0))


def _ground(pen: Recorder, strip: Strip, heights: Heights, wide: float, base: float, style: Style) -> None:
    """The board and the floor over the line, the scale bar with its level lines, corners."""
    x0, x1 = LEFT, wide - RIGHT
    top = base + heights.board.drawn
    if heights.off(heights.board):
        low = base + heights.up + BREAK * 0.25
        upper = _zigzag(x0, x1, low + BREAK * 0.5)
        pen.shape([(x0, base), *_zigzag(x0, x1, low), (x1, base)], 0.93, THIN)
        pen.shape([(x0, top), *upper, (x1, top)], 0.93, THIN)
    else:
        pen.box(x0, base, x1, top, 0.93, THIN)
        if heights.broken:
            for up in (0.25, 0.75):
                points = _zigzag(x0, x1, base + heights.up + BREAK * up)
                for (a, b), (c, d) in pairwise(points):
                    pen.stroke(a, b, c, d, THIN)
    _scale(pen, heights, x0, x1, base, style)
    if heights.floor:
        pen.stroke(x0, base + heights.floor.drawn, x1, base + heights.floor.drawn, MEDIUM, (0.12, 0.05))
    for stand, x in zip(strip.stands, strip.places, strict=True):
        if stand.corner:
            pen.stroke(x, base - heights.down - STUB, x, base + heights.top + 0.12, THIN, (0.03, 0.04))


def _zigzag(x0: float, x1: float, y: float) -> list[Point]:
    count = max(2, round((x1 - x0) / ZIG))
    return [(x0 + (x1 - x0) * i / count, y + (0.025 if i % 2 else -0.025)) for i in range(count + 1)]


def _scale(pen: Recorder, heights: Heights, x0: float, x1: float, base: float, style: Style) -> None:
    """The bar that heights are measured with: 0 on the grade line, a hairline through the picture at every tick."""
    per = (1 / 25.4 if style.unit == "mm" else 1.0) / heights.tall
    unit = next((t for t in TICKS[style.unit] if t * per >= LEAST_TICK), TICKS[style.unit][-1])
    down, up = int((heights.down + STUB * 0.5) / (unit * per) + 1e-9), int(heights.up / (unit * per) + 1e-9)
    down = max(down, 1 - up)
    x = x1 + 0.1
    pen.begin("height-bar", f"scale bar of heights 1:{heights.tall:g}")
    pen.stroke(x, base - down * unit * per, x, base + up * unit * per, MEDIUM)
    for i in range(-down, up + 1):
        y = base + i * unit * per
        if i < 0:
            pen.stroke(x0, y, x1, y, HAIR, (0.02, 0.05))
        pen.stroke(x - 0.04, y, x + 0.04, y, THIN)
        text = show_inches(abs(i) * unit / (25.4 if style.unit == "mm" else 1.0), style).removesuffix(" mm")
        write(pen, x + 0.08, y - SMALL * 0.35, text, fit(text, SMALL, fonts.REGULAR, RIGHT - 0.18))
    pen.end()
    word = "mm" if style.unit == "mm" else "inches"
    write(pen, x + RIGHT - 0.12, base + up * unit * per + 0.12, word, SMALL, align="right")


def _seat(pen: Recorder, stand: Stand, x: float, half: float, heights: Heights, base: float) -> None:
    """The block that stands for a pier: its top is the seat. One that was not read is an empty outline."""
    foot = base - heights.down - STUB
    name, depth = stand.label.name, stand.depth
    if depth is None:
        pen.begin(f"seat-{stand.grid}", f"{name}: not read")
        pen.stroke(x - half, foot, x + half, foot, THIN, (0.04, 0.04))
        for side in (-half, half):
            pen.stroke(x + side, foot, x + side, base - HEAVY, THIN, (0.04, 0.04))
        pen.end()
        return
    top = base - depth / heights.tall
    pen.begin(f"seat-{stand.grid}", f"{name}: seat {stand.label.offset} below the grade line")
    if heights.holds(depth):
        pen.box(x - half, foot, x + half, top, 0.72, THIN)
        pen.stroke(x - half, top, x + half, top, THICK)
    else:
        end = min(max(top, foot + STUB * 0.4), base + heights.up)
        jag = [(x + half * k, end + (0.03 if i % 2 else -0.03)) for i, k in enumerate((1.0, 0.33, -0.33, -1.0))]
        pen.shape([(x - half, foot), (x + half, foot), *jag], 0.72, THIN)
    pen.end()


def _walls(pen: Recorder, strip: Strip, y: float) -> None:
    """Over the picture each wall's name and the way of the walk."""
    start, first = strip.stands[0].at, strip.places[0]
    for name, a, b in strip.walls:
        x0, x1 = first + (a - start) / strip.along, first + (b - start) / strip.along
        pen.stroke(x0, y, x1, y, THIN)
        for x in (x0, x1):
            pen.stroke(x, y - 0.04, x, y + 0.04, THIN)
        short = name.partition(",")[0]
        text = f"{name} →" if width(f"{name} →", NAME, fonts.BOLD) <= x1 - x0 - 0.1 else short
        size = max(pt(8), fit(text, NAME, fonts.BOLD, max(x1 - x0 - 0.06, 0.1), fractions=False))
        write(pen, (x0 + x1) / 2, y + 0.06, text, size, fonts.BOLD, "center", fractions=False)


def _levels(pen: Recorder, heights: Heights, base: float, tall: float) -> None:
    """The names of the level lines, left of the picture."""
    levels = heights.levels
    wanted = [base + v.drawn for v in levels]
    for level, at in zip(levels, spread(wanted, STEP, STEP / 2, tall - STEP / 2), strict=True):
        pen.stroke(LEFT - 0.09, at, LEFT, base + level.drawn, HAIR)
        for i, (text, cut) in enumerate(zip(level.words, (fonts.BOLD, fonts.REGULAR), strict=True)):
            size = fit(text, SMALL, cut, LEFT - 0.12)
            write(pen, LEFT - 0.11, at + 0.02 - i * 0.135, text, size, cut, "right")
