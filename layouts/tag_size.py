"""How many tags go on a page, or the size of the label or sheet that each is printed on alone."""

from __future__ import annotations

import re

from msgspec import Struct

from layouts.lengths import LengthError, Style, Unit, parse, show

COUNTS = (1, 2, 4, 6)
MM = 1 / 25.4
LEAST = (75 * MM, 125 * MM)
"""Inches, short and long side: on less the figures of a column with five cuts are not read at a saw horse."""
MOST = (12.0, 18.0)
_MARK = re.compile(r" ?(?:[a-z]+|[\"'])$")
_SIZE = re.compile(r"([^x×]{1,20})[x×]([^x×]{1,20})")


class TagSizeError(ValueError):
    """What was written is neither a count nor a size; its text says what is wrong, *right* what would be right."""

    def __init__(self, wrong: str, right: str) -> None:
        super().__init__(wrong)
        self.right = right


class TagSize(Struct, frozen=True):
    """Either *count* tags to a page, or (*count* 0) one on each label, *wide* x *tall* inches, short side across: a tag
    hangs upright on its column. *text* is what was written."""

    text: str
    count: int = 0
    wide: float = 0.0
    tall: float = 0.0


def read(text: str, unit: Unit) -> TagSize:
    """``2``, ``4``, ``6`` or ``1`` to a page, or a size like ``4 x 6`` or ``102 x 152 mm``; *unit* is that of bare
    numbers. Raises ``TagSizeError``."""
    text = text.strip().lower()
    if text in map(str, COUNTS):
        return TagSize(text, int(text))
    found = _SIZE.fullmatch(text)
    if not found:
        raise TagSizeError("is neither a number of tags to a page nor a size.", _right(unit))
    first, second = (side.strip() for side in found.groups())
    unit_of = _MARK.search(second)
    if unit_of and not _MARK.search(first):
        first += unit_of[0]  # "102 x 152 mm" says it once for both
    try:
        wide, tall = sorted((parse(first, unit), parse(second, unit)))
    except LengthError as error:
        raise TagSizeError(f"is not a size: {error}.", _right(unit)) from None
    if wide < LEAST[0] - 1e-6 or tall < LEAST[1] - 1e-6:
        raise TagSizeError("is too small for a tag.", f"At least {least(unit)}.")
    if wide > MOST[0] + 1e-6 or tall > MOST[1] + 1e-6:
        raise TagSizeError("is too large for a tag.", f"At most {size(*MOST, unit)}.")
    return TagSize(text, 0, wide, tall)


def size(wide: float, tall: float, unit: Unit) -> str:
    """A size as it is written in the job file: inches or millimetres."""
    if unit == "mm":
        return f"{round(wide / MM)} x {round(tall / MM)} mm"
    style = Style("in")
    return f"{show(wide, style)} x {show(tall, style)}".replace('"', "") + " in"


def least(unit: Unit) -> str:
    """The least size, rounded to what a crew would buy."""
    return "75 x 125 mm" if unit == "mm" else "3 x 5 in"


def _right(unit: Unit) -> str:
    like = "100 x 150 mm" if unit == "mm" else "4 x 6"
    return f'Tags to a page: "1", "2", "4" or "6"; or the size of a label or sheet for each, like "{like}".'
