"""What stands in a job file, by dotted names: ``building.width``, ``opening 2.at``, ``names.A1``.

The values are raw, as TOML has them: text, whole numbers, lists, a date. They are judged by the job reader
(``layouts.job``) and by nothing else; here they are only taken from a file or from what was typed, and tidied.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from fractions import Fraction
from typing import Any

from msgspec import Struct

from layouts import job as job_file
from layouts import job_text, pitch
from layouts.fields import NAMES, NAMES_HELP, OPENING, PARTS, Job, Spec
from layouts.fields_openings import OpeningPart
from layouts.lengths import LengthError, Style, mixed, parse, show
from layouts.lumber import Section, section
from layouts.problems import BOM, JobRefused, Problem

Values = Mapping[str, Any]
Also = Callable[[Job], list[Problem]]
NAME = Spec("name", NAMES_HELP, none=True)
NONE = {"none", "-", "leave it out", "leave out", "left out"}  # what leaves a field out
LISTS = {"lengths", "prices"}
HIGH = 48.0  # inches: from here up a bare number is written in feet
_OPENING = re.compile(rf"{OPENING}[. ]([0-9]{{1,4}})\.(.+)")
_WORDS = re.compile(r"[a-z]", re.IGNORECASE)


def spec_of(path: str) -> Spec | None:
    """The spec of a field; nothing where there is no such field."""
    part, _, key = path.partition(".")
    if part == NAMES:
        return NAME if key else None
    if number_of(path):
        return OpeningPart.specs.get(key)
    return PARTS[part].specs.get(key) if part in PARTS else None


def number_of(path: str) -> int:
    """The number of the opening that a field is of; 0 where it is of none."""
    found = _OPENING.fullmatch(path)
    return int(found[1]) if found else 0


def openings_in(values: Values) -> list[int]:
    """The numbers of the openings, ascending."""
    return sorted({n for path in values if (n := number_of(path))})


def value_of(job: Job, path: str) -> Any:
    """What the reader made of a field; ``KeyError`` where it has no such field."""
    part, _, key = path.partition(".")
    if part == NAMES:
        return dict(job.names)[key]
    holder = job.openings[number_of(path) - 1] if number_of(path) else getattr(job, part, None)
    if not hasattr(holder, key):
        raise KeyError(path)
    return getattr(holder, key)


# --- from a file, from what was typed -------------------------------------------------------------------------------


def flat(text: str) -> dict[str, Any]:
    """The values in a job file that the reader takes, by their dotted names, in its order."""
    tree = tomllib.loads(text.removeprefix(BOM))
    found: dict[str, Any] = {}
    for name, given in tree.items():
        tables = [(f"{OPENING} {i}", t) for i, t in enumerate(given, 1)] if name == OPENING else [(name, given)]
        found |= {f"{part}.{key}": value for part, table in tables for key, value in table.items()}
    return found


def set_by(flag: str) -> tuple[str, str]:
    """The field and what is said of it in a flag, ``building.width=30'``. Raises ValueError where there is no =."""
    path, equals, text = flag.partition("=")
    if not equals:
        raise ValueError(flag)
    path = path.strip()
    found = _OPENING.fullmatch(path)
    return (f"{OPENING} {int(found[1])}.{found[2]}" if found else path), text.strip()


def typed(text: str, spec: Spec | None) -> Any:
    """A raw value from what was typed for a field; ``None`` leaves it out. Whether it is right the reader says."""
    plain = text.strip()
    if plain.startswith(("[", '"')):
        try:
            return tomllib.loads(f"it = {plain}")["it"]
        except tomllib.TOMLDecodeError:
            pass
    if spec is None:
        return plain
    if plain.lower() in NONE and plain.lower() not in spec.choices and spec.kind != "line":
        return [] if spec.kind in LISTS else None if spec.none or spec.default == "" else plain
    if spec.kind == "choice":
        return _choice(plain, spec)
    several = re.split(r"[,;]", plain)
    if spec.kind in LISTS or (spec.kind == "bays" and len(several) > 1):
        return [item.strip() for item in several if item.strip()]
    return plain


def _choice(plain: str, spec: Spec) -> str:
    """A choice by its first letters, in small or large."""
    small = plain.casefold()
    fits = [c for c in spec.choices if c == small] or [c for c in spec.choices if small and c.startswith(small)]
    return fits[0] if len(fits) == 1 else plain


# --- judged ---------------------------------------------------------------------------------------------------------


class Look(Struct, frozen=True):
    """What the reader says of values: the *job* as far as it can be read, and what is wrong or missing."""

    job: Job
    problems: tuple[Problem, ...]

    def at(self, *paths: str) -> tuple[Problem, ...]:
        """What is wrong at fields."""
        return tuple(p for p in self.problems if p.place in paths)


def look(values: Values, file: str, also: Also) -> Look:
    """The job in *values*, which may be a part of one."""
    seen: list[Job] = []

    def keep(job: Job) -> list[Problem]:
        seen.append(job)
        return also(job)

    try:
        job_file.read(job_text.bare(values), file, keep)
    except JobRefused as refused:
        if not seen:
            raise
        return Look(seen[0], refused.problems)
    return Look(seen[0], ())


# --- tidied ---------------------------------------------------------------------------------------------------------


def tidied(values: Values, found: Look, paths: Iterable[str] | None = None) -> dict[str, Any]:
    """*values* as a man writes them, where the reader takes both for the same; of *paths*, else of all of them. What
    the reader *found* wrong stays as it is."""
    made, bad = dict(values), {p.place for p in found.problems}
    for path in list(made) if paths is None else paths:
        spec = spec_of(path)
        if spec is not None and path in made and path not in bad:
            made[path] = _tidy(made[path], value_of(found.job, path), spec, found.job.style)
    return made


def renumbered(values: Values) -> dict[str, Any]:
    """The same with openings numbered 1, 2, 3 as they stand in the file."""
    new = {old: i for i, old in enumerate(openings_in(values), 1)}
    made: dict[str, Any] = {}
    for path, value in values.items():
        n = number_of(path)
        made[f"{OPENING} {new[n]}.{path.partition('.')[2]}" if n else path] = value
    return made


def _tidy(raw: Any, value: Any, spec: Spec, style: Style) -> Any:
    if spec.kind in ("choice", "count"):
        return value
    if spec.kind in ("length", "height", "line"):
        return "choose" if value is None else wood(raw, value, style)
    if spec.kind in ("lengths", "bays"):
        return _all_wood(raw, value, spec, style)
    if spec.kind == "section" and value is not None:
        return _section(raw, value, style)
    if spec.kind == "pitch" and value is not None:
        return _pitch(raw, value, style)
    if spec.kind in ("text", "name"):
        return value
    return _day(value) if spec.kind == "date" else raw


def _all_wood(raw: Any, value: Any, spec: Spec, style: Style) -> Any:
    """Each length of a list; bays keep their order, of others it says nothing."""
    if not isinstance(raw, (list, tuple)):
        return value
    try:
        both = [(parse(str(item), style.unit), item) for item in raw]
    except LengthError:
        return list(raw)
    both = both if spec.kind == "bays" else sorted(both, key=lambda pair: pair[0])
    return [wood(item, inches, style) for inches, item in both]


def wood(raw: Any, inches: float, style: Style) -> Any:
    """A length as it is written on wood, without the last inch mark; as it was typed (*raw*) where that says more."""
    text = str(raw).strip()
    if style.unit == "mm":
        own = "'" in text or '"' in text or re.search("[fi]", text, re.IGNORECASE)
        made = text if own else show(inches, style)
    elif _WORDS.search(text) and not re.search("f|in", text, re.IGNORECASE):
        made = text  # millimetres in an imperial job
    elif inches < HIGH and not re.search("['f]", text, re.IGNORECASE):
        made = mixed(Fraction(inches).limit_denominator(64))
    else:
        made = show(inches, Style("in", 32)).removesuffix('"').removesuffix("-0")
    try:
        return made if parse(made, style.unit) == inches else raw
    except LengthError:
        return raw  # one with a sign


def _section(raw: Any, value: Section, style: Style) -> Any:
    for text in (value.name.replace('"', ""), value.name):
        try:
            if section(text, style.unit) == value:
                return text
        except LengthError:
            continue
    return raw


def _pitch(raw: Any, value: float, style: Style) -> Any:
    """A pitch on 12 in an imperial job; degrees and ratios as they were typed."""
    text = str(raw).strip()
    if style.unit == "mm" or ":" in text or _WORDS.search(text) or "°" in text:
        return text
    made = pitch.shown(value, style)
    try:
        return made if pitch.read(made) == value else text
    except pitch.PitchError:
        return text


def _day(value: str) -> Any:
    try:
        return date.fromisoformat(value)
    except ValueError:
        return value
