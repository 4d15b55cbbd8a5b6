"""The type of a tag: its form, what may be read on it, and one way to set words on it.

Nothing that is read at the saw horse falls under ``READ``; captions, rules and figures are thin where that leaves ink
for larger type.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

import fonts
from sheets.lettering import pt
from sheets.shapes import HAIR, THIN
from sheets.tag_words import Words

Head = Literal["beside", "over", "close"]
Rows = Literal["two lines", "one line", "under"]

READ = 9.0  # points: the least that is read at a saw horse
LARGE = 36.0  # points: the least of name and offset
FIGURE = 15.0  # points of a height: the figures of its fraction have 0.6 of that, READ
CAP = 0.70  # em: a capital
FRACTION = (0.87, 0.175)  # em: a stacked fraction above and below the line
HIGH, DEEP = 0.76, 0.21  # em: letters above and below the line
LEAD = 1.2  # of lines of words
BOLDER = 0.75  # scale: under it captions and rules are thin
LEAST = 0.2  # scale: all type is as small as it may be
LEVELS = ("all", "no picture", "walls", "ends", "one line")


class Form(Struct, frozen=True):
    """A tag of *wide* x *tall* inches whose words keep *pad* from its edges; *framed* by cut lines. *most* is the scale
    that it is set to where there is room (1: a figure of 42 points), *ink* the square inches that it may take;
    *large* print on a label leaves out small print for larger type. A tag that has a page (*whole*) leaves nothing
    out while its words go in smaller type."""

    wide: float
    tall: float
    pad: float
    framed: bool
    most: float
    ink: float
    large: bool = False
    whole: bool = False


class Way(Struct, frozen=True):
    """One way to set the words of a tag on a form: the *scale* of all type, how *head* and *rows* stand, the *level* of
    what is left out (a place in ``LEVELS``), *thin* figures."""

    words: Words
    form: Form
    scale: float
    head: Head = "beside"
    rows: Rows = "two lines"
    level: int = 0
    thin: bool = False

    def size(self, points: float, least: float = READ) -> float:
        """Type of *points* at scale 1, in inches."""
        return pt(max(points * self.scale, least))

    @property
    def room(self) -> float:
        """Across, for words."""
        return self.form.wide - 2 * self.form.pad

    @property
    def air(self) -> float:
        """Between words and rules."""
        return max(0.09 * self.scale, 0.035)

    @property
    def light(self) -> bool:
        """Whether captions and rules are thin: small type has the ink."""
        return self.scale < BOLDER

    @property
    def small_cut(self) -> str:
        """Of names of cuts and what else is small: bold where that leaves ink enough."""
        return fonts.REGULAR if self.light or self.thin else fonts.BOLD

    @property
    def figure_cut(self) -> str:
        """Of figures: thin ones are larger for the same ink."""
        return fonts.REGULAR if self.thin else fonts.BOLD

    @property
    def line(self) -> float:
        """The rules between blocks."""
        return HAIR if self.light else THIN
