"""One value of a job file, read as the ``Spec`` of its field wants it: what stands in the TOML in, inches, slopes,
sections, counts out.

What cannot be read is ``Wrong``, or a ``LengthError`` of what reads lengths and sizes; neither names the place.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, time
from functools import partial
from math import isfinite
from typing import Any

from layouts import amounts, days, nails, pitch, tag_size
from layouts.fields import Spec
from layouts.lengths import LengthError, Style, Unit, parse, show
from layouts.lumber import Price, Section, price, section
from layouts.problems import nearest

MOST_TEXT = 60
MOST_NAME = 6


class Wrong(Exception):
    """One field cannot be read: what is wrong, and what would be right."""

    def __init__(self, wrong: str, right: str = "") -> None:
        super().__init__(wrong)
        self.right = right


def convert(value: Any, spec: Spec, unit: Unit) -> Any:
    """*value* as its field has it; *unit* is what a bare number counts. Nothing stays ``None``.

    Raises ``Wrong`` for what the field does not take, ``LengthError`` for a length or a size that cannot be read.
    """
    if value is None:
        return None
    return _READERS[spec.kind](value, spec, unit)


def _plain(value: Any) -> str:
    """A scalar as text; lists, tables and booleans are refused."""
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        raise Wrong("must be text or a number.", "")
    if isinstance(value, int) and abs(value) > 10**12:
        raise Wrong("is absurdly large.")
    if isinstance(value, float):
        if not isfinite(value):
            raise Wrong("is not a number.")
        return f"{value:.9f}".rstrip("0").rstrip(".")
    return str(value)


def _text(value: Any, spec: Spec, unit: Unit, most: int = MOST_TEXT) -> str:
    text = _plain(value).strip()
    if len(text) > most:
        raise Wrong(f"is {len(text)} letters long.", f"At most {most} fit on the sheets.")
    if not text.isprintable():
        raise Wrong("holds characters that cannot be printed.", "Use one line of plain text.")
    if spec.required and not text:
        raise Wrong("is empty.", spec.help)
    return text


def _length(value: Any, spec: Spec, unit: Unit) -> float:
    inches = _inches(_plain(value), unit)
    if not spec.least - 1e-9 <= inches <= spec.most + 1e-9:
        style = Style(unit)
        hint = f"From {show(spec.least, style)} to {show(spec.most, style)}."
        bare = _plain(value).strip()
        larger = inches * (12 if unit == "in" else 1000)  # what it would be in feet, or in metres
        if inches < spec.least <= larger <= spec.most and bare.replace(".", "", 1).isdecimal():
            feet = f' A bare number is inches; for feet write "{bare}\'".'
            hint += feet if unit == "in" else f' A bare number is mm; for metres write "{bare} m".'
        raise Wrong("is out of bounds.", hint)
    return inches


def _inches(text: str, unit: Unit) -> float:
    """A length; a board's size where one length is asked for is told as the two that it measures."""
    try:
        return parse(text, unit)
    except LengthError as error:
        try:
            board = section(text, unit)
        except LengthError:
            raise error from None
    style = Style(unit, 32)
    sides = f"{show(board.thick, style)} or {show(board.wide, style)}"
    raise Wrong("is the size of a board; a length is asked for.", f"Write {sides}, whichever is meant.")


def _lengths(value: Any, spec: Spec, unit: Unit) -> tuple[float, ...]:
    if not isinstance(value, (list, tuple)):
        raise Wrong("must be a list.", 'Like ["12\'", "24\'"].')
    if len(value) > spec.many:
        raise Wrong(f"has {len(value)} items.", f"At most {spec.many}.")
    return tuple(_length(item, spec, unit) for item in value)


def _ascending(value: Any, spec: Spec, unit: Unit) -> tuple[float, ...]:
    """A list whose order says nothing: stock lengths, places along a wall."""
    return tuple(sorted(_lengths(value, spec, unit)))


def _choice(value: Any, spec: Spec, unit: Unit) -> str | int:
    text = "true" * value or "false" if isinstance(value, bool) else _plain(value)
    if text not in spec.choices:
        hint = nearest(text, spec.choices)
        raise Wrong("is not one of the choices.", f"{hint} " * hint.startswith("Did") + _all(spec.choices))
    return int(text) if text.isdigit() else text


def _all(choices: tuple[str, ...]) -> str:
    return "Choose from " + ", ".join(f'"{c}"' for c in choices) + "."


def _count(value: Any, spec: Spec, unit: Unit) -> int:
    text = _plain(value)
    if not (text.isascii() and text.isdigit() and len(text) <= 6 and spec.least <= int(text) <= spec.most):
        raise Wrong("is not a count that fits.", f"A whole number from {spec.least:g} to {spec.most:g}.")
    return int(text)


def _section(value: Any, spec: Spec, unit: Unit) -> Section:
    return section(_plain(value), unit)


def _pitch(value: Any, spec: Spec, unit: Unit) -> float:
    """A pitch as a slope, rise over run."""
    try:
        slope = pitch.read(_plain(value), metric=unit == "mm")
    except pitch.PitchError as error:
        raise Wrong(str(error), error.right) from None
    if not spec.least - 1e-9 <= slope <= spec.most + 1e-9:
        raise Wrong("is out of bounds.", f"From {spec.least * 12:g}/12 to {spec.most * 12:g}/12.")
    return slope


def _tags(value: Any, spec: Spec, unit: Unit) -> tag_size.TagSize:
    try:
        return tag_size.read(_plain(value), unit)
    except tag_size.TagSizeError as error:
        raise Wrong(str(error), error.right) from None


def _bays(value: Any, spec: Spec, unit: Unit) -> tuple[float, ...] | int:
    if isinstance(value, list):
        if not value:
            raise Wrong("is empty.", "Give each bay, or how many equal ones.")
        return _lengths(value, spec, unit)
    text = _plain(value)
    if not (text.isascii() and text.isdigit() and 1 <= len(text) <= 4 and 1 <= int(text) <= spec.many):
        raise Wrong("is not a number of bays.", 'A whole number like 6, or a list like ["10\'", "12\'", "10\'"].')
    return int(text)


def _line(value: Any, spec: Spec, unit: Unit) -> float | None:
    if value == "choose":
        return None
    if isinstance(value, str) and not any(c.isdigit() for c in value):
        raise Wrong("is no reading.", f'Write one, like {"41 3/8" if unit == "in" else 1050}, or "choose".')
    return _height(value, spec, unit)


def _height(value: Any, spec: Spec, unit: Unit) -> float:
    """A length that may have a sign."""
    text = _plain(value).strip().replace("\N{MINUS SIGN}", "-")
    if not text.startswith(("-", "+")):
        return _length(text, spec, unit)
    inches = _length(text[1:].strip(), spec, unit)
    return inches if text[0] == "+" else -inches


def _prices(value: Any, spec: Spec, unit: Unit) -> tuple[Price, ...]:
    if not isinstance(value, (list, tuple)):
        raise Wrong("must be a list.", 'Like ["2x4 16\' 9.80"].')
    if len(value) > spec.many:
        raise Wrong(f"has {len(value)} items.", f"At most {spec.many}.")
    return tuple(price(_plain(item), unit) for item in value)


def _date(value: Any, spec: Spec, unit: Unit) -> str:
    if isinstance(value, (date, time)) and type(value) is not date:
        raise Wrong("holds a time of day.", "The day alone, like 2026-05-14.")
    text = value.isoformat() if type(value) is date else _text(value, spec, unit, 20)
    if days.impossible(text):
        raise Wrong(days.WRONG, days.RIGHT)
    return text


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
