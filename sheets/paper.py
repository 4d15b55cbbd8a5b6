"""Paper: exact page sizes, the edge a printer leaves unprinted, and what is left to draw on. Inches.

Sheets: ISO 216 A sizes, ANSI A to E and ARCH A to E1 (ANSI Y14.1; sizes as commonly published, the standard itself not
seen), legal. Rolls have a width and are cut where the drawing ends.
"""

from __future__ import annotations

import re

from msgspec import Struct
from msgspec.structs import replace

from layouts.lengths import LengthError, parse
from layouts.problems import nearest

MM = 1 / 25.4
FOOTER = 0.44
LONGEST = 200.0  # inches: longer pages show blank or at half size in common viewers
LEAST_MARGIN = 0.25


class NoPaper(ValueError):
    """No paper is called that; the message says what would be right."""


class Area(Struct, frozen=True):
    """A rectangle to draw in: left, bottom, right, top."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Across."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Up and down."""
        return self.y1 - self.y0


class Paper(Struct, frozen=True):
    """A sheet of *width* x *height* inches; *margin* stays blank all round (half an inch where the printer is not
    known: common practice, no source). A *roll* is *width* wide; its *height* is the longest page it is cut to."""

    name: str
    width: float
    height: float
    margin: float = 0.5
    roll: bool = False

    def turned(self) -> Paper:
        """The same sheet on its side."""
        return replace(self, width=self.height, height=self.width)

    def lying(self) -> Paper:
        """The sheet with its long side across."""
        return self if self.width >= self.height else self.turned()

    def within(self, edge: float) -> Paper:
        """The sheet for a printer that leaves *edge* inches unprinted, and a quarter inch at the least."""
        return replace(self, margin=max(edge, LEAST_MARGIN))

    @property
    def body(self) -> Area:
        """Inside the margins and above the footer."""
        m = self.margin
        return Area(m, m + FOOTER, self.width - m, self.height - m)


def _sheet(name: str, width: float, height: float, unit: float = 1.0) -> Paper:
    return Paper(name, width * unit, height * unit)


_SHEETS = (
    _sheet("letter", 8.5, 11),
    _sheet("a4", 210, 297, MM),
    _sheet("legal", 8.5, 14),
    _sheet("tabloid", 11, 17),
    _sheet("a3", 297, 420, MM),
    _sheet("ansi-c", 17, 22),
    _sheet("ansi-d", 22, 34),
    _sheet("ansi-e", 34, 44),
    _sheet("arch-a", 9, 12),
    _sheet("arch-b", 12, 18),
    _sheet("arch-c", 18, 24),
    _sheet("arch-d", 24, 36),
    _sheet("arch-e", 36, 48),
    _sheet("arch-e1", 30, 42),
    Paper("roll-24in", 24, LONGEST, roll=True),
    Paper("roll-36in", 36, LONGEST, roll=True),
    Paper("roll-610mm", 610 * MM, LONGEST, roll=True),
    Paper("roll-914mm", 914 * MM, LONGEST, roll=True),
)
PAPERS = {paper.name: paper for paper in _SHEETS}
USUAL = ("letter", "a4")
SMALLEST = (8.0, 10.0)  # a tag and a wall diagram must go on it
_CUSTOM = re.compile(r"([^x×]{1,20})[x×]([^x×]{1,20})")


def find(name: str) -> Paper:
    """The paper called *name*, or one of a size of its own like ``12x18`` (inches) or ``300x420mm``.

    Raises ``NoPaper`` where there is none, or it is too small or too large.
    """
    known = PAPERS.get(name.strip().lower())
    if known:
        return known
    found = _CUSTOM.fullmatch(name.strip().lower())
    if not found:
        raise NoPaper(f"is not a paper. {nearest(name, PAPERS)} Or give its size, like 12x18 or 300x420mm.")
    unit = "mm" if found[2].strip().endswith("mm") else "in"
    try:
        sides = sorted(parse(side.strip(), "mm" if unit == "mm" else "in") for side in found.groups())
    except LengthError as error:
        raise NoPaper(f"is not a size of paper: {error}.") from None
    if sides[0] < SMALLEST[0] or sides[1] < SMALLEST[1]:
        raise NoPaper(f"is too small: at least {SMALLEST[0]:g} x {SMALLEST[1]:g} in.")
    if sides[1] > LONGEST:
        raise NoPaper(f"is too long: no side over {LONGEST:g} in. Rolls: roll-24in and others.")
    return Paper(name.strip().lower(), sides[0], sides[1])
