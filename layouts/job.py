"""Read a job file (TOML) into a ``Job``: every mistake in one go, nothing guessed.

A job is refused with ``JobRefused``, which lists each mistake with its field, the offending text and what would be
right. Files are read by the caller; this module takes text.
"""

from __future__ import annotations

import reprlib
import tomllib
from collections.abc import Callable
from dataclasses import replace
from datetime import date, time
from functools import partial
from math import isfinite
from typing import Any

from layouts import amounts, checks, nails, pitch, tag_size, toml_words
from layouts.fields import NAMES, OPENING, PARTS, Job, Spec, specs
from layouts.fields_openings import MANY, OpeningPart
from layouts.lengths import LengthError, Style, Unit, parse, show, unechoed
from layouts.lumber import Price, Section, price, section
from layouts.problems import BOM, JobRefused, Problem, nearest

MOST_TEXT = 60
MOST_NAME = 6
MOST_BYTES = 1_000_000

Say = Callable[..., None]


class _Wrong(Exception):
    """One field cannot be read: what is wrong, and what would be right."""

    def __init__(self, wrong: str, right: str = "") -> None:
        super().__init__(wrong)
        self.right = right


def read(text: str, file: str = "job.toml", also: Callable[[Job], list[Problem]] | None = None) -> Job:
    """The job in *text*. *file* names it in messages; *also* may find more in the fields that could be read.

    Raises ``JobRefused`` with every problem found: fields that cannot be read, and what several fields together tell
    as far as all of them could be.
    """
    tree = _tree(text, file)
    problems: list[Problem] = []
    bad: set[str] = set()

    def say(place: str, value: Any, wrong: str, right: str = "") -> None:
        bad.add(place)
        problems.append(Problem(file, place, _echo(value), wrong, right))

    for key in tree:
        if key not in PARTS and key not in (NAMES, OPENING):
            say(key, None, "is not a part of a job.", nearest(key, [*PARTS, OPENING, NAMES]))
    unit = _unit(tree)
    parts = {name: part(**_part(name, part, tree.get(name, {}), unit, say)) for name, part in PARTS.items()}
    parts = _followed(parts, tree)
    openings = _openings(tree.get(OPENING, []), unit, say)
    job = Job(**parts, openings=openings, names=_names(tree.get(NAMES, {}), say))
    problems += checks.problems(job, [place for place in bad if _is_field(place)], file)
    if also:
        problems += [p for p in also(job) if p.place not in bad]
    if problems:
        raise JobRefused(problems)
    return job


def _followed(parts: dict[str, Any], tree: dict[str, Any]) -> dict[str, Any]:
    """Defaults that follow what was chosen elsewhere, where the usual one would not go with it."""
    follow = {
        "girts": dict.fromkeys(("runs_past", "grade_board_runs_past"), "side")
        if parts["roof"].shape == "lean-to"
        else {},
        "tops": {"seat": "flat"}
        if parts["carrier"].board
        else {"seat": "shoulder"}
        if parts["column"].make == "solid"
        else {},
    }
    for name, values in follow.items():
        given = tree.get(name, {})
        left = {key: value for key, value in values.items() if isinstance(given, dict) and key not in given}
        parts = {**parts, name: replace(parts[name], **left)}
    return parts


def _is_field(place: str) -> bool:
    """Whether a place is a field or a part of a job: an unknown key leaves what is known to be judged."""
    part, _, key = place.partition(".")
    if part.startswith(f"{OPENING} "):
        return not key or key in dict(specs(OpeningPart))
    return part == NAMES or (part in PARTS and (not key or key in dict(specs(PARTS[part]))))


def _tree(text: str, file: str) -> dict[str, Any]:
    """The TOML as it stands."""
    if len(text) > MOST_BYTES:
        right = "Keep it under a million letters."
        raise JobRefused([Problem(file, "", "", "is larger than a job file can be.", right)])
    try:
        return tomllib.loads(text.removeprefix(BOM))
    except tomllib.TOMLDecodeError as error:
        place, wrong, right = toml_words.told(str(error), text.removeprefix(BOM))
        raise JobRefused([Problem(file, place, "", f"is not valid TOML: {wrong}", right)]) from None
    except (RecursionError, MemoryError):
        raise JobRefused([Problem(file, "", "", "is nested too deeply for a job.")]) from None
    except ValueError:
        raise JobRefused([Problem(file, "", "", "holds a number of thousands of figures.")]) from None


def _unit(tree: dict[str, Any]) -> Unit:
    part = tree.get("job")
    return "mm" if isinstance(part, dict) and part.get("units") == "metric" else "in"


def _part(name: str, part: type[Any], given: Any, unit: Unit, say: Say) -> dict[str, Any]:
    """The values of one part; where one cannot be read it is reported, and a stand-in keeps its place."""
    if not isinstance(given, dict):
        say(name, given, "must be a table.", f"Write [{name}] on a line of its own.")
        given = {}
    known = dict(specs(part))
    for key, value in given.items():
        if key not in known:
            say(f"{name}.{key}", value, "is not a field.", nearest(key, known))
    values: dict[str, Any] = {}
    for key, spec in known.items():
        place = f"{name}.{key}"
        if key not in given:
            if spec.required:
                say(place, None, "must be given.", f"{spec.help} For example: {key} = {_example(spec, unit)}")
            values[key] = _stand_in(spec, unit)
            continue
        values[key] = _stand_in(spec, unit)
        try:
            values[key] = _convert(given[key], spec, unit)
        except _Wrong as error:
            say(place, given[key], str(error), error.right)
        except LengthError as error:
            say(place, given[key], unechoed(error, _echo(given[key])) + ".")
    return values


def _openings(given: Any, unit: Unit, say: Say) -> tuple[OpeningPart, ...]:
    """Every ``[[opening]]``, called by its number in the file."""
    if not isinstance(given, list) or not all(isinstance(item, dict) for item in given):
        say(OPENING, given, "must be tables.", f"Write [[{OPENING}]] over each one.")
        return ()
    if len(given) > MANY:
        say(OPENING, None, f"stands there {len(given)} times.", f"At most {MANY}.")
        return ()
    return tuple(
        OpeningPart(**_part(f"{OPENING} {i}", OpeningPart, item, unit, say)) for i, item in enumerate(given, 1)
    )


def _stand_in(spec: Spec, unit: Unit) -> Any:
    """The default; for a field that must be given, any value of its kind: nothing is worked out from it."""
    if spec.required:
        return {"text": "", "name": "", "bays": 1}.get(spec.kind, spec.least)
    return _convert(spec.metric if unit == "mm" and spec.metric is not None else spec.default, spec, unit)


def _convert(value: Any, spec: Spec, unit: Unit) -> Any:
    if value is None:
        return None
    return _READERS[spec.kind](value, spec, unit)


def _plain(value: Any) -> str:
    """A scalar as text; lists, tables and booleans are refused."""
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        raise _Wrong("must be text or a number.", "")
    if isinstance(value, int) and abs(value) > 10**12:
        raise _Wrong("is absurdly large.")
    if isinstance(value, float):
        if not isfinite(value):
            raise _Wrong("is not a number.")
        return f"{value:.9f}".rstrip("0").rstrip(".")
    return str(value)


def _text(value: Any, spec: Spec, unit: Unit, most: int = MOST_TEXT) -> str:
    text = _plain(value).strip()
    if len(text) > most:
        raise _Wrong(f"is {len(text)} letters long.", f"At most {most} fit on the sheets.")
    if not text.isprintable():
        raise _Wrong("holds characters that cannot be printed.", "Use one line of plain text.")
    if spec.required and not text:
        raise _Wrong("is empty.", spec.help)
    return text


def _length(value: Any, spec: Spec, unit: Unit) -> float:
    inches = parse(_plain(value), unit)
    if not spec.least - 1e-9 <= inches <= spec.most + 1e-9:
        style = Style(unit)
        hint = f"From {show(spec.least, style)} to {show(spec.most, style)}."
        feet = inches * 12
        if unit == "in" and inches < spec.least <= feet <= spec.most and _plain(value).strip().isdigit():
            hint += f' A bare number is inches; for feet write "{_plain(value).strip()}\'".'
        raise _Wrong("is out of bounds.", hint)
    return inches


def _lengths(value: Any, spec: Spec, unit: Unit) -> tuple[float, ...]:
    if not isinstance(value, (list, tuple)):
        raise _Wrong("must be a list.", 'Like ["12\'", "24\'"].')
    if len(value) > spec.many:
        raise _Wrong(f"has {len(value)} items.", f"At most {spec.many}.")
    return tuple(_length(item, spec, unit) for item in value)


def _ascending(value: Any, spec: Spec, unit: Unit) -> tuple[float, ...]:
    """A list whose order says nothing: stock lengths, places along a wall."""
    return tuple(sorted(_lengths(value, spec, unit)))


def _choice(value: Any, spec: Spec, unit: Unit) -> str | int:
    text = "true" * value or "false" if isinstance(value, bool) else _plain(value)
    if text not in spec.choices:
        hint = nearest(text, spec.choices)
        raise _Wrong("is not one of the choices.", f"{hint} " * hint.startswith("Did") + _all(spec.choices))
    return int(text) if text.isdigit() else text


def _all(choices: tuple[str, ...]) -> str:
    return "Choose from " + ", ".join(f'"{c}"' for c in choices) + "."


def _count(value: Any, spec: Spec, unit: Unit) -> int:
    text = _plain(value)
    if not (text.isascii() and text.isdigit() and len(text) <= 6 and spec.least <= int(text) <= spec.most):
        raise _Wrong("is not a count that fits.", f"A whole number from {spec.least:g} to {spec.most:g}.")
    return int(text)


def _section(value: Any, spec: Spec, unit: Unit) -> Section:
    return section(_plain(value), unit)


def _pitch(value: Any, spec: Spec, unit: Unit) -> float:
    """A pitch as a slope, rise over run."""
    try:
        slope = pitch.read(_plain(value), metric=unit == "mm")
    except pitch.PitchError as error:
        raise _Wrong(str(error), pitch.RIGHT) from None
    if not spec.least - 1e-9 <= slope <= spec.most + 1e-9:
        raise _Wrong("is out of bounds.", f"From {spec.least * 12:g}/12 to {spec.most * 12:g}/12.")
    return slope


def _tags(value: Any, spec: Spec, unit: Unit) -> tag_size.TagSize:
    try:
        return tag_size.read(_plain(value), unit)
    except tag_size.TagSizeError as error:
        raise _Wrong(str(error), error.right) from None


def _bays(value: Any, spec: Spec, unit: Unit) -> tuple[float, ...] | int:
    if isinstance(value, list):
        if not value:
            raise _Wrong("is empty.", "Give each bay, or how many equal ones.")
        return _lengths(value, spec, unit)
    text = _plain(value)
    if not (text.isascii() and text.isdigit() and 1 <= len(text) <= 4 and 1 <= int(text) <= spec.many):
        raise _Wrong("is not a number of bays.", 'A whole number like 6, or a list like ["10\'", "12\'", "10\'"].')
    return int(text)


def _line(value: Any, spec: Spec, unit: Unit) -> float | None:
    return None if value == "choose" else _height(value, spec, unit)


def _height(value: Any, spec: Spec, unit: Unit) -> float:
    """A length that may have a sign."""
    text = _plain(value).strip().replace("\N{MINUS SIGN}", "-")
    if not text.startswith(("-", "+")):
        return _length(text, spec, unit)
    inches = _length(text[1:].strip(), spec, unit)
    return inches if text[0] == "+" else -inches


def _prices(value: Any, spec: Spec, unit: Unit) -> tuple[Price, ...]:
    if not isinstance(value, (list, tuple)):
        raise _Wrong("must be a list.", 'Like ["2x4 16\' 9.80"].')
    if len(value) > spec.many:
        raise _Wrong(f"has {len(value)} items.", f"At most {spec.many}.")
    return tuple(price(_plain(item), unit) for item in value)


def _date(value: Any, spec: Spec, unit: Unit) -> str:
    if isinstance(value, (date, time)) and type(value) is not date:
        raise _Wrong("holds a time of day.", "The day alone, like 2026-05-14.")
    return value.isoformat() if type(value) is date else _text(value, spec, unit, 20)


_READERS: dict[str, Callable[[Any, Spec, Unit], Any]] = {
    "text": _text,
    "name": partial(_text, most=MOST_NAME),
    "length": _length,
    "lengths": _ascending,
    "section": _section,
    "choice": _choice,
    "count": _count,
    "pitch": _pitch,
    "bays": _bays,
    "line": _line,
    "height": _height,
    "density": lambda value, spec, unit: amounts.density(_plain(value), unit),
    "speed": lambda value, spec, unit: amounts.speed(_plain(value), unit),
    "prices": _prices,
    "nailing": lambda value, spec, unit: nails.nailing(_plain(value), unit),
    "date": _date,
    "tags": _tags,
}


def _names(given: Any, say: Say) -> tuple[tuple[str, str], ...]:
    if not isinstance(given, dict):
        say(NAMES, given, "must be a table.", f"Write [{NAMES}] on a line of its own.")
        return ()
    spec = Spec("name", "A short name.", required=True)
    pairs = []
    for key, value in given.items():
        try:
            pairs.append((key, _text(value, spec, "in", MOST_NAME)))
        except _Wrong as error:
            say(f"{NAMES}.{key}", value, str(error), error.right)
    return tuple(pairs)


def _example(spec: Spec, unit: Unit) -> str:
    shown = {
        "text": '"Pole barn"',
        "pitch": '"4/12"',
        "bays": "6",
    }.get(spec.kind)
    if shown:
        return shown
    step = 300 / 25.4 if unit == "mm" else 12.0
    about = 2 * spec.least or step
    text = show(max(round(about / step), 1) * step if about >= step else 4.0, Style(unit))
    return f'"{text}"'.replace('""', '"')


def _echo(value: Any) -> str:
    """What stands in the file, however large or deep it is."""
    if value is None or isinstance(value, str):
        return value or ""
    try:
        return reprlib.repr(value)
    except ValueError:
        return "a huge number"
