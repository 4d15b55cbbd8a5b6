"""The file of printer profiles: TOML, one ``[[printer]]`` table for each printer and paper.

It is read whole or refused with every mistake in it, and written whole or not at all.
"""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
import tomllib
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from layouts import toml_words
from layouts.problems import BOM, JobRefused, Problem, nearest
from sheets.lettering import missing
from sheets.profile import DIGITS, MOST_SCALE, MOST_SKEW, Profile

MOST_EDGE = 2.0
MOST_NAME = 32  # it must go on every page
FILE = "printers.toml"
HEAD = "# Printer profiles, written by rodwright ruler: printed over drawn, skew, edge in inches, residual in 10 in.\n"

Wrong = tuple[str, str] | None  # what is wrong, and what would be right


def _text(value: Any) -> Wrong:
    if not isinstance(value, str) or not value.strip() or len(value) > MOST_NAME:
        return f"is a name of 1 to {MOST_NAME} letters in quotes.", ""
    if missing(value):
        return "has letters that the fonts cannot print.", "Write it in plain letters."
    return None


def _number(low: float, high: float, right: str) -> Callable[[Any], Wrong]:
    def check(value: Any) -> Wrong:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return "is not a number.", right
        return None if low <= value <= high else ("is out of range.", right)  # not a number is in no range

    return check


def _day(value: Any) -> Wrong:
    with contextlib.suppress(ValueError):
        if value == "" or type(value) is date or (isinstance(value, str) and date.fromisoformat(value)):
            return None
    return "is not a date.", 'Write it as "2026-09-14".'


_SCALE = _number(1 - MOST_SCALE, 1 + MOST_SCALE, "Printed over drawn runs from 0.98 to 1.02; run rodwright ruler.")
KEYS: dict[str, Callable[[Any], Wrong]] = {
    "name": _text,
    "paper": _text,
    "along": _SCALE,
    "across": _SCALE,
    "skew": _number(-MOST_SKEW, MOST_SKEW, "It runs from -0.01 to 0.01; run rodwright ruler."),
    "edge": _number(0, MOST_EDGE, "The unprintable edge runs from 0 to 2 in."),
    "date": _day,
    "residual": _number(0, 10 * MOST_SCALE, "It runs from 0 to 0.2 in in 10 in."),
}
NEEDED = ("name", "paper", "along", "across")


def read(text: str, file: str = FILE) -> tuple[Profile, ...]:
    """The profiles in *text*, in its order. Raises ``JobRefused`` with every mistake; *file* names it in them."""
    try:
        tree = tomllib.loads(text.removeprefix(BOM))
    except tomllib.TOMLDecodeError as error:
        place, wrong, right = toml_words.told(str(error), text.removeprefix(BOM))
        raise JobRefused([Problem(file, place, "", f"is not valid TOML: {wrong}", right)], {file: text}) from None
    problems = [
        Problem(file, key, "", "is not known here.", nearest(key, ["printer"])) for key in tree if key != "printer"
    ]
    tables = tree.get("printer", [])
    if not isinstance(tables, list) or not all(isinstance(table, dict) for table in tables):
        problems.append(Problem(file, "printer", "", "is not a list of tables.", "Head each one with [[printer]]."))
        tables = []
    seen: set[tuple[str, str]] = set()
    for number, table in enumerate(tables, 1):
        problems += _mistakes(table, file, f"printer {number}", seen)
    if problems:
        raise JobRefused(problems, {file: text})
    return tuple(_profile(table) for table in tables)


def _mistakes(table: Mapping[str, Any], file: str, place: str, seen: set[tuple[str, str]]) -> Iterable[Problem]:
    for key, value in table.items():
        if key not in KEYS:
            yield Problem(file, f"{place}, {key}", "", "is not known here.", nearest(key, KEYS))
        elif wrong := KEYS[key](value):
            yield Problem(file, f"{place}, {key}", str(value), *wrong)
    for key in NEEDED:
        if key not in table:
            yield Problem(file, f"{place}, {key}", "", "is missing.")
    if "name" in table and "paper" in table:
        one = _key(str(table["name"]), str(table["paper"]))
        if one in seen:
            yield Problem(file, place, f"{table['name']}, {table['paper']}", "is there twice.", "Keep the newer one.")
        seen.add(one)


def _key(printer: str, paper: str) -> tuple[str, str]:
    return printer.casefold(), paper.casefold()


def _profile(table: Mapping[str, Any]) -> Profile:
    rest = {key: float(value) for key, value in table.items() if key not in ("name", "paper", "date")}
    return Profile(table["name"], table["paper"], date=str(table.get("date", "")), **rest)


def load(path: Path) -> tuple[Profile, ...]:
    """The profiles in the file at *path*; none if it is not there. Raises ``JobRefused`` and ``OSError``."""
    try:
        return read(path.read_bytes().decode("utf-8"), path.name)
    except FileNotFoundError:
        return ()
    except UnicodeDecodeError as error:
        raise JobRefused([Problem(path.name, f"byte {error.start}", "", "is not UTF-8 text.")]) from None


def choose(profiles: Iterable[Profile], paper: str, printer: str = "", file: str = FILE) -> Profile:
    """The profile for *paper* of *printer*, or of the only printer that has one; a plain one if none has and none is
    named. Raises ``JobRefused`` if a named printer has none, or if several have one and none is named."""
    held = [p for p in profiles if p.paper.casefold() == paper.casefold()]
    names = [p.printer for p in held]
    if printer:
        held = [p for p in held if p.printer.casefold() == printer.casefold()]
        if not held:
            right = nearest(printer, names) or "Print and measure rodwright ruler first."
            raise JobRefused([Problem(file, "--printer", printer, f"has no profile for {paper}.", right)])
    if len(held) > 1:
        raise JobRefused(
            [Problem(file, "--printer", "", f"is missing: several have profiles for {paper}.", nearest("", names))]
        )
    return held[0] if held else Profile(paper=paper)


def save(path: Path, profile: Profile) -> None:
    """Put *profile* into the file at *path*, in the place of the one for the same printer and paper. The others are
    kept, comments are not. Raises ``JobRefused``, then and on ``OSError`` the file is as it was."""
    path = path.resolve()
    kept = list(load(path))
    places = [_key(p.printer, p.paper) for p in kept]
    one = _key(profile.printer, profile.paper)
    if one in places:
        kept[places.index(one)] = profile
    else:
        kept.append(profile)
    text = HEAD + "".join(map(_table, kept))
    read(text, path.name)  # nothing is written that would be refused
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, new = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(text.encode())
            out.flush()
            os.fsync(out.fileno())
        os.replace(new, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(new)
        raise


def _table(profile: Profile) -> str:
    lines = [f"name = {_string(profile.printer)}", f"paper = {_string(profile.paper)}"]
    lines += [f"{key} = {getattr(profile, key):.{DIGITS}f}" for key in ("along", "across", "skew", "edge")]
    if profile.date:
        lines.append(f"date = {_string(profile.date)}")
    if profile.residual is not None:
        lines.append(f"residual = {profile.residual:.{DIGITS}f}")
    return "\n[[printer]]\n" + "".join(f"{line}\n" for line in lines)


def _string(words: str) -> str:
    """A TOML basic string: JSON's escapes are all TOML's too, but TOML wants DEL escaped as well."""
    return json.dumps(words, ensure_ascii=False).replace("\x7f", "\\u007f")
