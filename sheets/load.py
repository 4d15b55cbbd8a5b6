"""From files to a building: the one place that reads what the user wrote."""

from __future__ import annotations

import codecs
from pathlib import Path
from typing import Any

from layouts import book as readings_file
from layouts import doubts, search
from layouts import job as job_file
from layouts.book import MOST_LETTERS, Book
from layouts.building import Building, lay_out
from layouts.fields import PARTS, Job
from layouts.plan import lay
from layouts.problems import JobRefused, Problem
from layouts.readings import NONE, Readings, of
from layouts.search import Solve
from sheets.lettering import missing
from sheets.paper import NoPaper, find

CP1252 = "cp1252"  # what Windows spreadsheets write where they do not write UTF-8: Latin-1 and a few letters more
MOST_BYTES = 4 * MOST_LETTERS  # of a file of readings: more is not read, and refused as too large
MOST_OF_A_JOB = 4 * job_file.MOST_LETTERS  # bytes; UTF-8 takes four for a letter at most
WORKBOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # how a spreadsheet's own files begin


def load(job_path: Path, readings_path: Path | None = None, solve: Solve = search.solve) -> Building:
    """The building of a job file and its readings, by default the CSV beside it with the same name.

    *solve* searches for its cutting plans. Raises ``JobRefused`` with everything that is wrong in both files. Without
    a CSV there are no readings.
    """
    texts: dict[str, str] = {}
    try:
        return _load(job_path, readings_path, texts, solve)
    except JobRefused as refused:
        raise JobRefused(refused.problems, texts) from None


def _load(job_path: Path, readings_path: Path | None, texts: dict[str, str], solve: Solve) -> Building:
    """The same; every text that was read is kept in *texts*, by the name it has in the messages."""
    texts[job_path.name] = text = read_text(job_path)
    job = job_file.read(text, job_path.name, lambda read: unprintable(read, job_path.name))
    spots = lay(job, job_path.name).spots
    columns = [s.name for s in spots]
    called = {s.grid: s.name for s in spots if s.grid != s.name}
    source = readings_path or job_path.with_suffix(".csv")
    readings = NONE
    if readings_path or source.exists():
        texts[source.name] = text = read_text(source, CP1252)
        written = readings_file.read(text, columns, job.style.unit, source.name, called)
        readings = _believed(written, job)
    return lay_out(job, readings, job_path.name, solve)


def _believed(written: Book, job: Job) -> Readings:
    """What the layout takes of a book; raises ``JobRefused`` with all that speaks against it."""
    readings = NONE
    open_: tuple[Problem, ...] = ()
    try:
        readings = of(written, job)
    except JobRefused as refused:
        open_ = refused.problems
    # first what the file has left unsaid: where the unit is wrong no loop closes
    bad = [*unprintable_notes(written), *doubts.refused(written, readings.survey, job.style, job.grade.line), *open_]
    if bad:
        raise JobRefused(bad)
    return readings


def unprintable_notes(book: Book) -> list[Problem]:
    """Words of the readings' file that would print as boxes."""
    words = {
        **{f"benchmark {name}": f"{name} {where}" for name, where in book.head.benchmarks.items()},
        **book.head.kept,
        **{f"column {name}": note for name, note in book.notes.items()},
        **{f"{s.place}, set-up": s.setup for s in book.sights},
        **{f"{s.place}, round": s.round for s in book.sights},
    }
    return [Problem(book.file, p, text, _cannot(text), "Leave them out.") for p, text in words.items() if missing(text)]


def read_text(path: Path, else_: str = "") -> str:
    """A text file whole, UTF-8 with or without a byte order mark; or, where *else_* is given, any code that a
    spreadsheet writes: UTF-16 too and, where it is none of them, *else_*."""
    try:
        with path.open("rb") as file:
            if else_:
                return _any_code(file.read(MOST_BYTES + 1), path.name, else_)
            found = file.read(MOST_OF_A_JOB + 1)
        if len(found) > MOST_OF_A_JOB:
            raise job_file.too_large(path.name)
        return found.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise JobRefused(
            [Problem(path.name, f"byte {error.start}", "", "is not UTF-8 text.", "Save it as UTF-8 and try again.")]
        ) from None
    except FileNotFoundError:
        raise JobRefused([Problem(str(path), "", "", "is not there.", "Check the name of the file.")]) from None
    except OSError as error:
        raise JobRefused([Problem(str(path), "", "", f"cannot be read: {error.strerror}.")]) from None


def _any_code(found: bytes, name: str, else_: str) -> str:
    """The text of a spreadsheet's file; raises ``JobRefused`` where it is a workbook."""
    if found.startswith(WORKBOOKS):
        right = "Save it from the spreadsheet as CSV."
        raise JobRefused([Problem(name, "", "", "is a workbook, not a text file.", right)])
    if found[:2] in (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE):
        return found.decode("utf-16")
    if b"\0" in found[:2]:  # the first letter of a heading takes one byte of two
        return found.decode("utf-16-be" if found[:1] == b"\0" else "utf-16-le")
    try:
        return found.decode("utf-8-sig")
    except UnicodeDecodeError:
        return found.decode(else_, "replace")


def unprintable(job: Job, file: str) -> list[Problem]:
    """Words whose letters the fonts do not hold, which would print as boxes, and paper that is none."""
    found = []
    for name, part in PARTS.items():
        for key, spec in part.specs.items():
            value: Any = getattr(getattr(job, name), key)
            if spec.kind in ("text", "name", "date") and missing(value):
                found.append(Problem(file, f"{name}.{key}", value, _cannot(value), "Write it in plain letters."))
    try:
        find(job.job.paper)
    except NoPaper as error:
        found.append(Problem(file, "job.paper", job.job.paper, str(error)))
    for key, value in job.names:
        if missing(value):
            found.append(Problem(file, f"names.{key}", value, _cannot(value), "Write it in plain letters."))
    return found


def _cannot(text: str) -> str:
    letters = " ".join(dict.fromkeys(missing(text)))
    return f"has letters that the fonts cannot print: {letters}."
