"""Nails: what the user writes down for each joint, held against published sizes. The schedule is his, never ours.

A nail is a length and a diameter. Penny fixes the length alone (a 16d is 3 1/2 in long whatever its wire), so a penny
needs a diameter, or the word *common*, whose wires a table gives. Hints are hints: they say so.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal, get_args

from msgspec import Struct

from layouts.lengths import TAPE, LengthError, Style, Unit, echo, mixed, parse_exact, to_unit

LONGEST = 60
"""Characters of a nail's text."""

Shank = Literal["", "common", "ring", "spiral", "smooth", "box", "sinker", "duplex"]
Coat = Literal["", "HDG", "stainless"]

COMMON = {
    6: (2.0, 0.113),
    8: (2.5, 0.131),
    10: (3.0, 0.148),
    12: (3.25, 0.148),
    16: (3.5, 0.162),
    20: (4.0, 0.192),
    30: (4.5, 0.207),
    40: (5.0, 0.225),
    50: (5.5, 0.244),
    60: (6.0, 0.262),
}
"""Common nails: penny to length and diameter, inches (an open university textbook, seen; 60d is .263 elsewhere)."""

RING = {
    0.135: (3.0, 3.5),
    0.148: (3.0, 3.5, 4.0, 4.5),
    0.177: (3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 8.0),
    0.200: (3.5, 4.0, 4.5, 5.0, 6.0, 8.0),
    0.207: (4.0, 4.5, 5.0, 6.0, 8.0),
}
"""Post-frame ring-shank nails: diameter to lengths, inches (AF&PA/AWC Design Aid No. 4, 2007, seen)."""

_WIRE = 0.0015  # inches: .262 and .263 are one nail
_RIGHT: dict[Unit, str] = {"in": "4 x .177 ring HDG, or 16d common", "mm": "100 x 4.5 ring HDG"}
_NAILING: dict[Unit, str] = {unit: f"2 of {right}" for unit, right in _RIGHT.items()}

_SHANKS: dict[str, Shank] = {
    **{shank: shank for shank in get_args(Shank) if shank},
    **dict.fromkeys(("ringshank", "ring-shank", "ringed"), "ring"),
    "screw": "spiral",
}
_HOT = {"hdg", "hot-dip", "hot-dipped", "hotdip", "hot", "dip", "dipped"}
_ZINC = {"galv", "galv.", "galvanized", "galvanised", "zinc", "eg", "electrogalvanized", "electrogalvanised"}
_PLAIN = {"shank", "nail", "nails", "steel", "bright"}
_PENNY = re.compile(r"([0-9]{1,2}) ?d", re.IGNORECASE)
_COUNT = re.compile(r"\(([0-9]{1,3})\) *|([0-9]{1,3}) *of +", re.IGNORECASE)
_CROSS = re.compile(r"\s*[xX\u00d7]\s*")


class NailError(LengthError):
    """A nail that cannot be read; the message says what is wrong and what would be right."""


class Nail(Struct, frozen=True):
    """A nail, inches. *shank* and *coat* are empty where nothing is said of them."""

    length: float
    diameter: float
    shank: Shank = ""
    coat: Coat = ""

    @property
    def lasting(self) -> bool:
        """Whether it may stand in treated wood: hot-dip galvanised to ASTM A153 or stainless (IRC R317.3)."""
        return self.coat != ""


class Nailing(Struct, frozen=True):
    """What a joint gets: *count* of a *nail* at each crossing, or at each end of a board."""

    count: int
    nail: Nail


def nailing(text: str, unit: Unit) -> Nailing | None:
    """``2 of 4 x .177 ring HDG`` or ``(2) 16d common``; ``None`` for an empty text. Raises NailError."""
    clean = " ".join(text.split())
    if not clean:
        return None
    found = _COUNT.match(clean)
    if found is None:
        raise NailError(f"{echo(clean)}: say how many at each crossing; write {_NAILING[unit]}")
    count = int(found[1] or found[2])
    if not 1 <= count <= 40:
        raise NailError(f"{echo(clean)}: 1 to 40 nails at a crossing; write {_NAILING[unit]}")
    return Nailing(count, parse(clean[found.end() :], unit))


def parse(text: str, unit: Unit) -> Nail:
    """A nail from ``3 1/2 x .162``, ``16d common``, ``20d x .192``, ``4 x .177 ring HDG`` or, where *unit* is mm,
    ``100 x 4.5 ring``. Either side may come first. Raises NailError, and LengthError for a side that is no length."""
    if len(text) > LONGEST:
        raise NailError(f"{echo(text)}: longer than {LONGEST} characters; write {_RIGHT[unit]}")
    size, shank, coat = _words(text, unit)
    sides = _CROSS.split(size)
    if len(sides) == 1 and (penny := _PENNY.fullmatch(sides[0])):
        return _by_penny(text, int(penny[1]), shank, coat, unit)
    if len(sides) != 2 or not all(sides):
        given = f"{echo(text.strip())}: " if text.strip() else ""
        raise NailError(f"{given}a nail is its length x its diameter; write {_RIGHT[unit]}")
    length, diameter = sorted((_side(text, side, unit) for side in sides), reverse=True)
    if not (Fraction(3, 4) <= length <= 12 and Fraction(1, 20) <= diameter <= Fraction(1, 2) and length > 8 * diameter):
        raise NailError(f"{echo(text.strip())}: no nail is {_size(length, diameter, unit)}; write {_RIGHT[unit]}")
    return Nail(float(length), float(diameter), shank, coat)


def _words(text: str, unit: Unit) -> tuple[str, Shank, Coat]:
    """The size, and what the words after it say."""
    words = text.replace(",", " ").split()
    shank: Shank = ""
    coat: Coat = ""
    zinc = ""
    while words and any(c.isalpha() for c in words[-1]) and not any(c.isdigit() for c in words[-1]):
        word = words[-1].lower()
        if word in _SHANKS:
            shank = _SHANKS[word]
        elif word in _HOT:
            coat = "HDG"
        elif word == "stainless":
            coat = "stainless"
        elif word in _ZINC:
            zinc = word
        elif word not in _PLAIN:
            break
        words.pop()
    if zinc and not coat:
        raise NailError(f"{echo(text.strip())}: {zinc} says not how; write HDG if it is hot-dip galvanised (ASTM A153)")
    return " ".join(words), shank, coat


def _by_penny(text: str, penny: int, shank: Shank, coat: Coat, unit: Unit) -> Nail:
    """A common nail by its name; any other needs its diameter."""
    length, diameter = _penny(text, penny, unit)
    if shank == "common":
        return Nail(length, diameter, shank, coat)
    long = mixed(Fraction(length))
    raise NailError(
        f"{echo(text.strip())}: {penny}d is {long} in long, but how thick? Write {long} x its diameter, "
        f"or {penny}d common for .{diameter * 1000:.0f}"
    )


def _penny(text: str, penny: int, unit: Unit) -> tuple[float, float]:
    if penny not in COMMON:
        known = ", ".join(f"{d}d" for d in COMMON)
        raise NailError(f"{echo(text.strip())}: {penny}d is not one of {known}; write {_RIGHT[unit]}")
    return COMMON[penny]


def _side(text: str, side: str, unit: Unit) -> Fraction:
    """A length or a diameter; penny stands for its length."""
    if penny := _PENNY.fullmatch(side):
        return Fraction(_penny(text, int(penny[1]), unit)[0])
    odd = [word for word in re.findall(r"[a-z-]{3,}", side.lower()) if word not in ("inch", "inches")]
    if odd:
        known = ", ".join((*(s for s in get_args(Shank) if s), "HDG", "stainless"))
        raise NailError(f"{echo(text.strip())}: {odd[0]} is not a word for nails: {known}; write {_RIGHT[unit]}")
    return parse_exact(side, unit)


def show_nail(nail: Nail, style: Style) -> str:
    """As printed, always length and diameter: ``4" x .177" ring, HDG`` or ``100 x 4.5 mm ring, HDG``."""
    shank = f" {nail.shank}" if nail.shank else ""
    coat = f", {nail.coat}" if nail.coat else ""
    return _size(nail.length, nail.diameter, style.unit) + shank + coat


def _size(length: float | Fraction, diameter: float | Fraction, unit: Unit) -> str:
    if unit == "mm":
        long, thick = (f"{to_unit(v, Style('mm')):.2f}".rstrip("0").rstrip(".") for v in (length, diameter))
        return f"{long} x {thick} mm"
    near = Fraction(length).limit_denominator(64)
    exact = abs(near - Fraction(length)) < 1e-9 and near.denominator in (1, *TAPE)
    long = mixed(near) if exact else f"{float(length):.3f}".rstrip("0").rstrip(".")
    return f'{long}" x {float(diameter):.3f}"'.replace("x 0.", "x .")


def question(nail: Nail, style: Style) -> str:
    """What to ask about a nail that no table holds, in words; empty for one that is known, and in metric jobs: the
    tables are of inch nails.

    Ring shank is held against Design Aid No. 4, common against the common table, a nail without a word against both.
    """
    if style.unit == "mm" or (nail.shank in ("", "ring") and _is_ring(nail)):
        return ""
    if nail.shank in ("", "common") and _is_common(nail):
        return ""
    said = show_nail(Nail(nail.length, nail.diameter, nail.shank), style)
    if nail.shank == "ring":
        sizes = ", ".join(f".{d * 1000:.0f}" for d, lengths in RING.items() if nail.length in lengths)
        have = f"in that length it has {sizes}" if sizes else "it has no such length"
        return f"Is {said} right? It is not a post-frame ring shank of AWC Design Aid No. 4: {have}."
    if nail.shank == "common":
        wires = [d for length, d in COMMON.values() if length == nail.length]
        have = f"in that length it is .{wires[0] * 1000:.0f}" if wires else "there is none of that length"
        return f"Is {said} right? It is not a common nail: {have}."
    return f"Is {said} right? It is in no table at hand: its strength is not that of another of its length."


def _is_ring(nail: Nail) -> bool:
    return any(abs(nail.diameter - d) <= _WIRE / 2 and nail.length in lengths for d, lengths in RING.items())


def _is_common(nail: Nail) -> bool:
    return any(nail.length == length and abs(nail.diameter - d) <= _WIRE for length, d in COMMON.values())


Key = Literal[
    "girt", "splice", "grade", "grade_splice", "wainscot", "soffit", "carrier", "rake", "corner", "jamb", "header"
]


class Joint(Struct, frozen=True):
    """A kind of joint. *hint* is what is common (common practice, no source); its places take *inches* or, in a metric
    job, *metric*."""

    key: Key
    name: str
    hint: str = ""
    inches: tuple[str, ...] = ()
    metric: tuple[str, ...] = ()


JOINTS: tuple[Joint, ...] = (
    Joint(
        "girt",
        "Girt to column",
        "up to {} wide 2 ring shank {} long at each crossing, or 3 to 4 gun nails {} to {} long; up to {} wide 3 ring"
        " shank",
        ('3 1/2"', '4"', '3 1/2"', '4"', '5 1/2"'),
        ("90 mm", "100 mm", "90", "100 mm", "140 mm"),
    ),
    Joint(
        "splice",
        "Board splice, each end",
        "2 at each end, staggered, {} from the end, drilled where dry",
        ('3/4"',),
        ("20 mm",),
    ),
    Joint("grade", "Grade board to column", "up to {} wide 3, wider 4; HDG", ('7 1/4"',), ("190 mm",)),
    Joint("grade_splice", "Grade board splice, each end", "2 to 3 at each end; HDG"),
    Joint("wainscot", "Wainscot nailer to column", "as a girt of its width"),
    Joint("soffit", "Soffit nailer to column", "as a girt of its width"),
    Joint(
        "carrier",
        "Carrier to column",
        "the engineer's; often 2 bolts {} thick, or 6 to 12 ring shank",
        ('1/2"',),
        ("12 mm",),
    ),
    Joint("rake", "Rake nailer"),
    Joint("corner", "Corner board, filler, block"),
    Joint("jamb", "Jamb"),
    Joint("header", "Header, sill, track board"),
)


def hint(joint: Joint, style: Style) -> str:
    """What is common at a joint, marked as what it is; empty where nothing is known."""
    if not joint.hint:
        return ""
    return f"Hint, not a schedule: {joint.hint.format(*(joint.metric if style.unit == 'mm' else joint.inches))}."
