"""The job's own words: names, places and notes that somebody wrote, which no language changes; how a job is spoken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from layouts.building import Building
from layouts.fields import PARTS, Job
from layouts.languages import BESIDE, ENGLISH, catalogue
from layouts.readings import Readings

if TYPE_CHECKING:
    from sheets.speech import Speech

OURS = {"job.paper"}
"""Fields whose words are ours, though they are text."""
NOTES = {"check-back"}
"""What we ask for beside a point that is read again: it is our word, and stands in texts of ours."""


def speech(building: Building, *also: str) -> Speech | None:
    """What the sheets of *building* are spoken in; ``None`` is English. *also* are words that somebody else wrote."""
    return of_job(building.job, building.readings, *also)


def of_job(job: Job, readings: Readings | None = None, *also: str) -> Speech | None:
    """The same of a job and what readings there are."""
    name = job.job.language
    if name == ENGLISH:
        return None
    from sheets.speech import Speech

    own = words(job, readings) | frozenset(also)
    return Speech(catalogue(name.removeprefix(BESIDE)), own, beside=name.startswith(BESIDE))


def words(job: Job, readings: Readings | None = None) -> frozenset[str]:
    """All that somebody wrote into a job and its readings."""
    found = [*_of_job(job), *(_of_readings(readings) if readings else ())]
    return frozenset(word for word in (" ".join(w.split()) for w in found) if word and word not in NOTES)


def of_numbers(numbers: Mapping[str, Any]) -> frozenset[str]:
    """The same of what a packet keeps of its job: names, place, crew and the notes of its columns."""
    head = numbers.get("head", {})
    found = [numbers.get("job"), head.get("place"), head.get("crew")]
    for column in numbers.get("columns", ()):
        found += [column.get("name"), column.get("note")]
    found += [o.get("name") for wall in numbers.get("walls", ()) for o in wall.get("openings", ())]
    return frozenset(w for word in found if isinstance(word, str) and (w := " ".join(word.split())) and w not in NOTES)


def _of_job(job: Job) -> Iterator[str]:
    for name, part in PARTS.items():
        for key, spec in part.specs.items():
            value: Any = getattr(getattr(job, name), key)
            if spec.kind in ("text", "name", "date") and f"{name}.{key}" not in OURS:
                yield value or ""
    yield from (opening.name for opening in job.openings)
    yield from (value for _, value in job.names)


def _of_readings(readings: Readings) -> Iterator[str]:
    yield from readings.notes.values()
    if readings.survey is None:
        return
    book = readings.survey.book
    yield from book.head.kept.values()
    yield from book.head.benchmarks
    yield from book.head.benchmarks.values()
    for sight in book.sights:
        yield from (sight.setup, sight.round, sight.note)
    yield book.file
