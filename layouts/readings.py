"""The readings as the layout takes them: one number a seat, and all that is known of how good it is.

A reading is inches from the beam of the first set-up down to the bracket seat: larger is lower. Of a rod whose larger
readings are higher it is minus the reading; ``taken`` turns it back for people.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from layouts import survey as surveying
from layouts.book import Book
from layouts.book_head import Head
from layouts.fields import Job
from layouts.lengths import Style, show_fine
from layouts.problems import JobRefused, Problem
from layouts.survey import Survey

FOOT = 12.0
MM = 25.4
"""To an inch."""


class Readings(Struct, frozen=True):
    """*values*: inches by column name, in the order of the file. *notes*: what was written beside a reading.
    *benchmarks*: like values. *survey* tells where they come from; ``None`` where they come from no file. *head* says
    how they are taken, before there are any too."""

    values: Mapping[str, float]
    notes: Mapping[str, str]
    benchmarks: Mapping[str, float] = field(default_factory=dict)
    survey: Survey | None = None
    head: Head = Head()

    @property
    def up(self) -> bool:
        """Whether larger readings are higher on the rod they were taken with."""
        return self.head.up

    @property
    def feet(self) -> bool:
        """Whether the rod reads decimal feet."""
        return self.head.unit == "feet"

    def down(self, line: float) -> float:
        """A reading of this rod, inches, as inches down from the beam; it turns them back too."""
        return -line if self.up else line


NONE = Readings({}, {})


def of(book: Book, job: Job) -> Readings:
    """The readings in *book*, by the limits of *job*. Raises ``JobRefused`` as ``layouts.survey.reduce``, and where
    ``grade.line`` is given and the round whose beam it hangs from is refused: no other beam is as high."""
    if not book.sights:
        return Readings({}, book.notes, head=book.head)
    found = surveying.reduce(book, job.readings, job.style)
    first = found.rounds[0]
    if first.refused and job.grade.line is not None:
        wrong = "does not close, and grade.line in the job is told by its beam."
        right = f"Take round {first.name} out, and tell grade.line by the first set-up that is left."
        raise JobRefused([Problem(book.file, f"round {first.name}", "", wrong, right)])
    marks = book.head.benchmarks
    return Readings(
        {name: value for name, value in found.values.items() if name not in marks},
        book.notes,
        {name: value for name, value in found.values.items() if name in marks},
        found,
        book.head,
    )


def taken(readings: Readings, down: float, style: Style) -> str:
    """A reading, inches *down*, as the rod it was taken with says it: finer than this job prints its lengths where it
    was read finer, with its sign where larger is higher; first in decimal feet, mm or inches where the rod has them and
    the job has not."""
    value = readings.down(down)
    text = show_fine(abs(value), style)
    if readings.feet:
        text = f"{_plain(abs(value) / FOOT)} ft ({text})"
    elif readings.head.unit == "mm" and style.unit != "mm":
        text = f"{_plain(abs(value) * MM)} mm ({text})"
    elif readings.head.unit == "inches" and style.unit == "mm" and "unit" in readings.head.said:
        text = f"{show_fine(abs(value), Style())} ({text})"
    return ("-" if value < 0 and any(c in "123456789" for c in text) else "") + text


def _plain(number: float) -> str:
    return f"{number:.3f}".rstrip("0").rstrip(".")
