"""Strategies of what may stand in any field of a job file, made from its ``Spec`` alone: what a crew would write, what
is at the limits or just past them, and what is wrong. A field that is added is drawn without a change here."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from random import Random
from typing import Any

import stress
from hypothesis import strategies as st
from jobs import Raw
from random_written import IN, MM, decimal, mixed, written

from layouts.fields import PARTS, Spec
from layouts.fields_openings import OpeningPart
from layouts.lengths import parse
from sheets.paper import PAPERS

Values = st.SearchStrategy[Any]

FIELDS: dict[str, Spec] = {f"{name}.{key}": spec for name, part in PARTS.items() for key, spec in part.specs.items()}
OF_OPENING: dict[str, Spec] = OpeningPart.specs
WORDS = ("Tamarack", "north, by the creek", "Ålesund", "D'Arcy & Sons", "50 % / 4x4 (a)", 'the "old" barn', stress.LONG)
SECTIONS = {
    IN: ("2x4", "2x6", "2x8", "2x10", "1 5/8 x 3 5/8", "3x6", "6x6", '1 1/2" x 5 3/8"'),
    MM: ("45x90", "35x90", "45x140", "45x190", "38x240", "140x140", "45.5 x 95 mm"),
}
PITCHES = ("1/12", "2.5/12", "4/12", "4 1/2/12", "7/12", "12/12", "1:4", "18.5 deg")
NAILS = {
    IN: ("2 of 4 x .177 ring HDG", "(3) 16d common", "2 of 3 1/2 x .162 stainless", "40 of 60d common"),
    MM: ("2 of 100 x 4.5 ring HDG", "3 of 90 x 4"),
}
PRICES = {IN: ("2x4 16' 9.80", "2x4 12' 7", "2x8 treated 16' 24.50", "2x6 10' 8.125"), MM: ("45x90 4.8 m 9.80",)}
SPECIAL: dict[str, tuple[str, ...]] = {
    "job.paper": (*PAPERS, "8x10", "12x18", "11 x 14.5", "300x420mm", "250 x 260 mm", "20x200"),
    "grade.benchmark": ("BM1", "BM1", ""),
    "grade.reference": ("A1", "A2", "B1"),
}
"""Fields whose words are taken from a list that their spec does not hold."""


def example(spec: Spec, unit: str) -> Fraction:
    """About how long a length of this field is, in inches or millimetres: its default, else between its limits."""
    by = 1.0 if unit == IN else 25.4
    default = spec.metric if unit == MM and spec.metric is not None else spec.default
    usual = parse(str(default), "mm" if unit == MM else "in") if isinstance(default, str) and default != "choose" else 0
    return Fraction(round((usual or spec.least * 1.5 or min(spec.most / 8, 12)) * by * 16), 16)


def _length(spec: Spec, unit: str) -> Values:
    """From half to twice of what is usual, in quarter inches or whole millimetres, written in any way."""
    size = Fraction(1, 4) if unit == IN else Fraction(1)
    about, by = example(spec, unit), 1.0 if unit == IN else 25.4
    low = max(about / 2, Fraction(spec.least * by))
    high = max(min(about * 2, Fraction(spec.most * by)), low)
    steps = st.integers(-int(-low // size), max(int(high // size), -int(-low // size)))
    return st.builds(lambda n, seed: written(Random(seed), n * size, unit), steps, st.integers(0, 99))


def _lengths(spec: Spec, unit: str) -> Values:
    foot = 12 if unit == IN else 300
    return st.lists(st.integers(4, 24).map(lambda n: n * foot), min_size=1, max_size=8)


def _signed(spec: Spec, unit: str) -> Values:
    return st.builds(lambda sign, value: f"{sign}{value}", st.sampled_from(["", "-", "+", "−"]), _length(spec, unit))


def _of(*words: Any) -> Callable[[Spec, str], Values]:
    return lambda spec, unit: st.sampled_from(words)


def _by_unit(words: dict[str, tuple[str, ...]]) -> Callable[[Spec, str], Values]:
    return lambda spec, unit: st.sampled_from(words[unit])


USUAL: dict[str, Callable[[Spec, str], Values]] = {
    "text": _of(*WORDS),
    "name": _of("A1", "N1", "W-2", "ÄÖÜ", "@@@@@6"),
    "length": _length,
    "lengths": _lengths,
    "section": _by_unit(SECTIONS),
    "choice": lambda spec, unit: st.sampled_from(spec.choices),
    "count": lambda spec, unit: st.integers(int(spec.least), min(int(spec.most), int(spec.least) + 30)),
    "pitch": _of(*PITCHES),
    "bays": lambda spec, unit: st.integers(2, 6),
    "line": lambda spec, unit: st.just("choose") | _length(spec, unit),
    "height": _signed,
    "density": _of("36", "36 lb/ft3", "580 kg/m3", 600, 32.5),
    "speed": _of("15 mph", "25 km/h", "7 m/s"),
    "nailing": _by_unit(NAILS),
    "prices": lambda spec, unit: st.lists(st.sampled_from(PRICES[unit]), max_size=3, unique=True),
    "date": _of(Raw("2026-05-14"), "14 May", ""),
    "tags": _of("1", "2", 4, "6", "4 x 6", "102 x 152 mm", "3 x 5 in", "12 x 18 in", "8.5 in x 11 in"),
}
"""By kind of field and by unit, what a crew would write."""

WRONG: tuple[Any, ...] = (
    *("", " ", "abc", "nan", "-3", "1/0", "4x4x4", "12' 13\"", "٣", "小屋", "\x07", "x" * 80, "1e3", "0"),
    *(-1, 0, 10**15, 1.5, 1e-9, [], [[]], ["x"] * 700, Raw("nan"), Raw("inf"), Raw("true"), Raw("{}")),
    *(Raw("2026-05-14"), Raw("2026-05-14T10:00:00"), Raw("07:32:00"), Raw("'''\n'''"), Raw("0x1F"), Raw("{a = 1}")),
)


def usual(name: str, spec: Spec, unit: str) -> Values:
    """What a crew would write in field *name* of a job in *unit*."""
    return st.sampled_from(SPECIAL[name]) if name in SPECIAL else USUAL[spec.kind](spec, unit)


def odd(spec: Spec, unit: str) -> Values:
    """A value at a limit of the field, just past it, or of another kind."""
    wrong = st.sampled_from(WRONG)
    if not spec.most:
        return wrong
    by, step = (Fraction(1), Fraction(1, 16)) if unit == IN else (Fraction(127, 5), Fraction(1))
    if spec.kind == "pitch":
        edges: list[Any] = [f"{float(limit) * 12:g}/12" for limit in (spec.least, spec.most, spec.most + 0.01)]
    elif spec.kind == "count":
        edges = [int(spec.least), int(spec.most), int(spec.most) + 1, int(spec.least) - 1]
    else:
        limits = [Fraction(spec.least) * by, Fraction(spec.most) * by]
        at = [limits[0], limits[1], limits[0] - step, limits[1] + step]
        edges = [decimal(v) or mixed(Fraction(round(v * 16), 16)) for v in at]
        edges = [[e] for e in edges] if spec.kind in ("lengths", "bays") else edges
    return st.sampled_from(edges) | wrong
