"""Dates as people write them: whether there is such a day at all."""

from __future__ import annotations

import re
from datetime import date

DATE = r"(?:[0-9]{4}[-./][0-9]{1,2}[-./][0-9]{1,2}|[0-9]{1,2}[-./][0-9]{1,2}[-./](?:[0-9]{4}|[0-9]{2}))"
"""A day in figures alone: year, month and day, or day and month in either order and the year."""
WRONG = "is no day of the calendar."
RIGHT = "Write it like 2026-03-14."


def impossible(text: str) -> bool:
    """Whether *text* is a day in figures, and no calendar has it, whichever of its figures is the month. What else a
    man writes for a date (Monday, 14 May) says nothing of that."""
    if not re.fullmatch(DATE, text.strip()):
        return False
    first, middle, last = re.split("[-./]", text.strip())
    if len(first) == 4:
        return not _is(first, middle, last)
    return not (_is(last, middle, first) or _is(last, first, middle))


def _is(year: str, month: str, day: str) -> bool:
    """Whether these make a day; a year of two figures is of this century."""
    try:
        date(int(year) + (2000 if len(year) == 2 else 0), int(month), int(day))
    except ValueError:
        return False
    return True
