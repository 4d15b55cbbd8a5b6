"""The three parsers of what a user wrote, fed with any bytes: what they read makes sense, and what they do not read is
refused in words. ``test_corpus`` replays what is kept in ``corpus``; DEVELOPERS.md tells how atheris looks for more.

    python tests/fuzz_parsers.py job|readings|length [options of libFuzzer] [folders of files to begin with]
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from importlib import import_module
from math import isfinite
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from layouts.problems import JobRefused

COLUMNS = ("A1", "A2", "A3", "B1", "B3", "C1", "C2", "C3")
CALLED = {"B2": "RIDGE"}


def job(data: bytes) -> None:
    """A job file: it is read, and to the same job again, or every problem has its words and its place."""
    from layouts import job as job_reader
    from layouts.problems import JobRefused

    text = data.decode("utf-8", "replace")
    try:
        found = job_reader.read(text)
    except JobRefused as refused:
        _refused(refused, "job.toml", text)
    else:
        assert job_reader.read(text) == found


def readings(data: bytes) -> None:
    """A file of readings, in inches and in millimetres: every reading is a number of no great size, or it is refused
    likewise."""
    from layouts import book
    from layouts.problems import JobRefused

    text = data.decode("utf-8", "replace")
    for unit in ("in", "mm"):
        try:
            found = book.read(text, [*COLUMNS, *CALLED.values()], unit, "job.csv", CALLED)
        except JobRefused as refused:
            _refused(refused, "job.csv", text)
            continue
        for sight in found.sights:
            assert isfinite(sight.down)
            assert abs(sight.raw) <= 360  # inches: 30 ft, which no rod is longer than
            assert sight.point in (*COLUMNS, *CALLED.values(), *found.head.benchmarks)


def length(data: bytes) -> None:
    """A length, in inches and in millimetres: what it is printed as is read as what was printed."""
    from layouts.lengths import LONGEST, LengthError, Style, nearest, parse, show, show_inches, to_unit

    text = data.decode("utf-8", "replace")
    for style in (Style("in", 16), Style("in", 32), Style("mm")):
        try:
            inches = parse(text, style.unit)
        except LengthError as error:
            _in_words(str(error))
            continue
        assert 0 <= inches <= LONGEST
        printed = float(nearest(inches, style))
        for shown in (show(inches, style), show_inches(inches, style)):
            assert abs(to_unit(parse(shown, style.unit), style) - printed) < 1e-6, shown


TARGETS: dict[str, Callable[[bytes], None]] = {"job": job, "readings": readings, "length": length}


def _refused(refused: JobRefused, file: str, text: str) -> None:
    """Every problem names its file, says in one line what is wrong, and stands in a line of the file, or nowhere."""
    from layouts.where import find

    assert refused.problems
    lines = len(text.splitlines()) + text.count("\n") + 1
    for problem in refused.problems:
        assert problem.file == file
        assert problem.wrong
        _in_words(str(problem))
        where = find(problem, text)
        assert where is None or 1 <= where.line <= lines


def _in_words(text: str) -> None:
    """Something is said, and in one line that a terminal shows as it stands."""
    assert text
    assert text.isprintable(), repr(text)


# --- by atheris ------------------------------------------------------------------------------------------------------


def words() -> list[str]:
    """What the mutations put in now and then: every field, choice and word that the parsers know."""
    from layouts.book import KNOWN
    from layouts.book_head import CHOICES, KEYS
    from layouts.fields import PARTS
    from layouts.fields_openings import OpeningPart

    found = {"[[opening]]", "[names]", "true", "1:4", " deg", "/12", "'-", " 1/2", "choose", "\t", ";", "\\u00bd"}
    parts: dict[str, type[Any]] = {**PARTS, "opening": OpeningPart}
    for name, part in parts.items():
        found.add(f"[{name}]")
        for key, spec in part.specs.items():
            found |= {f"{key} = ", *spec.choices}
    found |= {*KNOWN, *KEYS, *(word for choices in CHOICES.values() for word in choices), *COLUMNS, *CALLED}
    return sorted(found)


def main() -> None:
    """Let atheris look for what breaks one of them."""
    import atheris

    with atheris.instrument_imports(include=["layouts", "tomllib"]):
        for name in ("job", "book", "where"):
            import_module(f"layouts.{name}")
    target, *options = sys.argv[1:]
    with tempfile.NamedTemporaryFile("w", suffix=".dict", encoding="utf-8") as known:
        known.writelines(
            f'"{word.replace(chr(92), chr(92) * 2).replace(chr(34), chr(92) + chr(34))}"\n' for word in words()
        )
        known.flush()
        atheris.Setup([sys.argv[0], f"-dict={known.name}", *options], TARGETS[target])
        atheris.Fuzz()


if __name__ == "__main__":
    main()
