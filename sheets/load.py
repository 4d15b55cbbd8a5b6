"""From files to a building: the one place that reads what the user wrote."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from layouts import job as job_file
from layouts import readings as readings_file
from layouts.building import Building, lay_out
from layouts.fields import PARTS, Job, specs
from layouts.plan import lay
from layouts.problems import JobRefused, Problem
from sheets.lettering import missing
from sheets.paper import NoPaper, find


def load(job_path: Path, readings_path: Path | None = None) -> Building:
    """The building of a job file and its readings, by default the CSV beside it with the same name.

    Raises ``JobRefused`` with everything that is wrong in both files. A CSV that is not there means no readings.
    """
    job = job_file.read(_text(job_path), job_path.name, lambda read: _unprintable(read, job_path.name))
    spots = lay(job, job_path.name).spots
    columns = [s.name for s in spots]
    called = {s.grid: s.name for s in spots if s.grid != s.name}
    source = readings_path or job_path.with_suffix(".csv")
    readings = readings_file.NONE
    if readings_path or source.exists():
        readings = readings_file.read(_text(source), columns, job.style.unit, source.name, called)
        bad = [
            Problem(source.name, f"column {name}", note, _cannot(note), "Leave them out.")
            for name, note in readings.notes.items()
            if missing(note)
        ]
        if bad:
            raise JobRefused(bad)
    return lay_out(job, readings, job_path.name)


def _text(path: Path) -> str:
    """A text file whole; UTF-8, with or without a byte order mark."""
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise JobRefused(
            [Problem(path.name, f"byte {error.start}", "", "is not UTF-8 text.", "Save it as UTF-8 and try again.")]
        ) from None
    except FileNotFoundError:
        raise JobRefused([Problem(str(path), "", "", "is not there.", "Check the name of the file.")]) from None
    except OSError as error:
        raise JobRefused([Problem(str(path), "", "", f"cannot be read: {error.strerror}.")]) from None


def _unprintable(job: Job, file: str) -> list[Problem]:
    """Words whose letters the fonts do not hold, which would print as boxes, and paper that is none."""
    found = []
    for name, part in PARTS.items():
        for key, spec in specs(part):
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
