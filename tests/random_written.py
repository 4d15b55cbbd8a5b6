"""How a user writes a job down: lengths in the ways the README allows, boards by name, and its table's defaults."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from random import Random
from typing import Any

from reference import Board

IN, MM = "in", "mm"
# American softwood lumber standard PS 20, dry sizes; metric names are real sizes
WIDE = {"4": "3 1/2", "6": "5 1/2", "8": "7 1/4", "10": "9 1/4", "12": "11 1/4"}


def defaults(unit: str) -> dict[str, Any]:
    """What the README's table says of fields that are left out, as far as the second opinion needs them."""

    def pick(inch: int | str, mm: int) -> Fraction:
        return Fraction(inch) if unit == IN else Fraction(mm)

    size = 12 if unit == IN else 600
    lengths = range(8, 32, 2) if unit == IN else range(4, 16)
    return {
        "job.fraction": "16",
        "building.line": "girts",
        "column.make": "laminated",
        "column.plies": 3,
        "column.width": pick("9/2", 114),
        "column.depth": pick("11/2", 140),
        "column.endwall_face": "width",
        "column.trim": pick("1/2", 12),
        "column.trims": "top",
        "column.ears": Fraction(0),
        "column.stock": [Fraction(n * size) for n in lengths],
        "truss.heights_from": "grade line",
        "truss.heel_at": "column",
        "truss.endwall_drop": Fraction(0),
        "roof.shape": "gable",
        "roof.purlin": board("2x6" if unit == IN else "45x140"),
        "roof.purlins": "edge",
        "roof.purlin_spacing": "equal",
        "roof.purlin_step": pick(24, 600),
        "roof.purlin_ridge": pick(4, 100),
        "roof.sheathing": Fraction(0),
        "roof.overhang": Fraction(0),
        "roof.fascia": pick("11/2", 140),
        "roof.fascia_thick": pick("3/2", 38),
        "roof.fascia_cut": "plumb",
        "roof.soffit": "none",
        "roof.soffit_nailer": board("2x4" if unit == IN else "45x90"),
        "tops.seat": "slot",
        "tops.sidewall_ears": "roof",
        "tops.endwall_ears": "chord",
        "tops.endwall_centre": "ears",
        "tops.clearance": Fraction(0),
        "grade.board": board("2x8" if unit == IN else "45x190"),
        "grade.boards": 1,
        "grade.line": "choose",
        "grade.least": pick(1, 25),
        "grade.round": pick("1/2", 5),
        "grade.floor": pick("7/2", 90),
        "girts.board": board("2x4" if unit == IN else "45x90"),
        "girts.place": "outside",
        "girts.inside": board("2x4" if unit == IN else "45x90"),
        "girts.gap": pick("1/8", 3),
        "girts.spacing": "equal",
        "girts.step": pick(24, 600),
        "girts.tolerance": pick("1/4", 6),
        "girts.edge": "bottom",
        "girts.runs_past": "end",
        "girts.grade_board_runs_past": "end",
        "wainscot.height": pick(36, 900),
    }


def inches(text: str) -> Fraction:
    """``3 1/2`` as a number."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def board(name: str) -> Board:
    """``2x6``, its dry size; ``45x140`` or ``1 1/2 x 5 3/8``, its real size."""
    thick, wide = (part.strip() for part in name.split("x"))
    if thick == "2":
        return Board(Fraction(3, 2), inches(WIDE[wide]))
    return Board(inches(thick), inches(wide))


def mixed(value: Fraction, dash: str = " ") -> str:
    """``41 3/8``."""
    whole, part = divmod(value, 1)
    return f"{whole}{dash}{part}" if whole and part else str(part or whole)


def decimal(value: Fraction) -> str | None:
    """``41.375``, where it comes out even."""
    for places in range(5):
        if (value * 10**places).denominator == 1:
            return f"{float(value):.{places}f}"
    return None


def written(rng: Random, value: Fraction, unit: str) -> Any:
    """A length in one of the ways a user writes it, as a value for the job file."""
    if unit == MM:
        ways: list[Any] = [decimal(value), f"{decimal(value)} mm"]
        ways += [int(value)] if value.denominator == 1 else []
        ways += [f"{decimal(value / 1000)} m"] if decimal(value / 1000) else []
        return rng.choice(ways)
    foot, rest = divmod(value, 12)
    ways = [mixed(value), mixed(value, "-") + '"', mixed(value) + " in"]
    if foot:
        ways += [f"{foot}'-{mixed(rest)}\"", f"{foot}' {mixed(rest, '-')}\"", f"{foot}'-{mixed(rest)}"] * 2
        ways += [f"{foot} ft {rest} in"] if rest.denominator == 1 else []
        ways += [f"{foot}'"] if not rest else []
    ways += [float(value)] if decimal(value) else []
    return rng.choice(ways)


def toml(fields: Mapping[str, Any]) -> str:
    """A job file of dotted names."""
    parts: dict[str, list[str]] = {}
    for name, value in fields.items():
        part, key = name.split(".")
        parts.setdefault(part, []).append(f"{key} = {json.dumps(value)}")
    return "\n".join(line for part, lines in parts.items() for line in (f"[{part}]", *lines)) + "\n"
