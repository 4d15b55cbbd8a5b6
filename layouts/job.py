"""Read a job file (TOML) into a ``Job``: every mistake in one go, nothing guessed.

A job is refused with ``JobRefused``, which lists each mistake with its field, the offending text and what would be
right. Files are read by the caller; this module takes text.
"""

from __future__ import annotations

import re
import reprlib
import tomllib
from collections.abc import Callable
from typing import Any

from msgspec.structs import replace

from layouts import checks, toml_words
from layouts.field_values import Wrong, convert
from layouts.fields import NAMES, OPENING, PARTS, Job, Spec
from layouts.fields_openings import MANY, OpeningPart
from layouts.lengths import LengthError, Style, Unit, show, unechoed
from layouts.problems import BOM, JobRefused, Problem, nearest
from layouts.spec import Part

MOST_LETTERS = 1_000_000
MOST_DOTS = (
    50  # of a key, in a heading or a table on one line too: tomllib takes the square of them, and a job needs one
)
_KEY = r"""(?:"(?:[^"\\\n]|\\.){0,100}+"|'[^'\n]{0,100}+'|(?<![\w-])[\w-]++)"""  # bounded: so is the search
_DEEP = re.compile(rf"(?:{_KEY}[ \t]*+\.[ \t]*+){{{MOST_DOTS + 1}}}")

MOST_HEADS = 3  # that are told of a field that stands under another

Say = Callable[..., None]


def read(text: str, file: str = "job.toml", also: Callable[[Job], list[Problem]] | None = None) -> Job:
    """The job in *text*. *file* names it in messages; *also* may find more in the fields that could be read.

    Raises ``JobRefused`` with every problem found: fields that cannot be read, and what several fields together tell
    as far as all of them could be.
    """
    tree = parsed(text, file)
    problems: list[Problem] = []
    bad: set[str] = set()

    def say(place: str, value: Any, wrong: str, right: str = "") -> None:
        bad.add(place)
        problems.append(Problem(file, place, _echo(value), wrong, right))

    for key, value in tree.items():
        if key not in PARTS and key not in (NAMES, OPENING):
            right = nearest(key, [*PARTS, OPENING, NAMES]) if isinstance(value, (dict, list)) else _elsewhere(key, "")
            say(key, None, "is not a part of a job.", right or nearest(key, [*PARTS, OPENING, NAMES]))
    unit = _unit(tree)
    parts: dict[str, Any] = {
        name: part(**_part(name, part, tree.get(name, {}), unit, say)) for name, part in PARTS.items()
    }
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
        return not key or key in OpeningPart.specs
    return part == NAMES or (part in PARTS and (not key or key in PARTS[part].specs))


def parsed(text: str, file: str) -> dict[str, Any]:
    """The TOML of a job as it stands. Raises ``JobRefused`` where there is none, or more of it than any job has."""
    if len(text) > MOST_LETTERS:
        raise too_large(file)
    if _DEEP.search(text):
        raise _too_deep(file)
    try:
        return tomllib.loads(text.removeprefix(BOM))
    except tomllib.TOMLDecodeError as error:
        place, wrong, right = toml_words.told(str(error), text.removeprefix(BOM))
        raise JobRefused([Problem(file, place, "", f"is not valid TOML: {wrong}", right)]) from None
    except (RecursionError, MemoryError):
        raise _too_deep(file) from None
    except ValueError:
        raise JobRefused([Problem(file, "", "", "holds a number of thousands of figures.")]) from None


def too_large(file: str) -> JobRefused:
    """What a job *file* of more than ``MOST_LETTERS`` is told."""
    right = "Keep it under a million letters."
    return JobRefused([Problem(file, "", "", "is larger than a job file can be.", right)])


def _too_deep(file: str) -> JobRefused:
    return JobRefused([Problem(file, "", "", "is nested too deeply for a job.")])


def _unit(tree: dict[str, Any]) -> Unit:
    part = tree.get("job")
    return "mm" if isinstance(part, dict) and part.get("units") == "metric" else "in"


def _part(name: str, part: type[Part], given: Any, unit: Unit, say: Say) -> dict[str, Any]:
    """The values of one part; where one cannot be read it is reported, and a stand-in keeps its place."""
    if not isinstance(given, dict):
        say(name, given, "must be a table.", f"Write [{name}] on a line of its own.")
        given = {}
    known = part.specs
    for key, value in given.items():
        if key not in known:
            slip = nearest(key, known, 0.8)  # bays in an opening
            right = slip if slip.startswith("Did") else _elsewhere(key, name) or nearest(key, known)
            say(f"{name}.{key}", value, "is not a field.", right)
    values: dict[str, Any] = {}
    for key, spec in known.items():
        place = f"{name}.{key}"
        if key not in given:
            if spec.required:
                say(place, None, "must be given.", f"{spec.help} For example: {key} = {_example(key, spec, unit)}")
            values[key] = _stand_in(spec, unit)
            continue
        values[key] = _stand_in(spec, unit)
        try:
            values[key] = convert(given[key], spec, unit)
        except Wrong as error:
            say(place, given[key], str(error), error.right)
        except LengthError as error:
            say(place, given[key], unechoed(error, _echo(given[key])) + ".")
    return values


def _elsewhere(key: str, name: str) -> str:
    """Where a field belongs that stands in part *name*, or in none, and is one of others; nothing where it is of none,
    or of too many to say."""
    heads = {f"[{part}]": made.specs for part, made in PARTS.items() if part != name}
    heads |= {f"[[{OPENING}]]": OpeningPart.specs} if name in PARTS or not name else {}
    of = [head for head, specs in heads.items() if key in specs]
    return f"It stands under {' or '.join(of)}: is that heading missing?" if 1 <= len(of) <= MOST_HEADS else ""


def _openings(given: Any, unit: Unit, say: Say) -> tuple[OpeningPart, ...]:
    """Every ``[[opening]]``, called by its number in the file."""
    if not isinstance(given, list) or not all(isinstance(item, dict) for item in given):
        say(OPENING, given, "must be tables.", f"Write [[{OPENING}]] over each one.")
        return ()
    if len(given) > MANY:
        say(OPENING, None, f"stands there {len(given)} times.", f"At most {MANY}.")
        return ()
    parts = [OpeningPart(**_part(f"{OPENING} {i}", OpeningPart, item, unit, say)) for i, item in enumerate(given, 1)]
    for i, (part, item) in enumerate(zip(parts, given, strict=True), 1):
        if "slides" in item and part.kind != "sliding" and item.get("kind", part.kind) == part.kind:
            right = 'Leave it out, or give kind = "sliding".'
            say(f"{OPENING} {i}.slides", item["slides"], "is of a sliding door.", right)
    return tuple(parts)


def _stand_in(spec: Spec, unit: Unit) -> Any:
    """The default; for a field that must be given, any value of its kind: nothing is worked out from it."""
    if spec.required:
        return {"text": "", "name": "", "bays": 1}.get(spec.kind, spec.least)
    return convert(spec.metric if unit == "mm" and spec.metric is not None else spec.default, spec, unit)


def _names(given: Any, say: Say) -> tuple[tuple[str, str], ...]:
    if not isinstance(given, dict):
        say(NAMES, given, "must be a table.", f"Write [{NAMES}] on a line of its own.")
        return ()
    spec = Spec("name", "A short name.", required=True)
    pairs = []
    for key, value in given.items():
        try:
            pairs.append((key, _no_remark(convert(value, spec, "in"))))
        except Wrong as error:
            say(f"{NAMES}.{key}", value, str(error), error.right)
    return tuple(pairs)


def _no_remark(name: str) -> str:
    """A name that a line of a file of readings may begin with. Raises ``Wrong``."""
    if name.startswith("#"):
        wrong = "begins with #, and a line of readings that begins so is a remark."
        raise Wrong(wrong, f"Leave the # out{f', like {name[1:]}' if name[1:] else ''}.")
    return name


def _example(key: str, spec: Spec, unit: Unit) -> str:
    shown = {"text": '"Pole barn"', "name": '"A"' if key == "wall" else '"OH1"', "bays": "6"}.get(spec.kind)
    if shown:
        return shown
    step = 300 / 25.4 if unit == "mm" else 12.0
    about = (2 if spec.least > step else 6) * spec.least or step  # no door is a foot wide
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
