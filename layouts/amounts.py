"""Densities and speeds as a crew writes them, in; weights, densities and speeds, out. Held as lb/ft³, mph and pounds.

Lengths have their own grammar (``layouts.lengths``); what is here has one number and one unit. Weights are estimates,
so they are rounded up when they are shown and nowhere else.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from layouts.lengths import LONGEST_TEXT, LengthError, Style, Unit, echo, show

KILOGRAMS = 0.45359237
"""In a pound, exactly: the agreement of 1959 that made the inch 25.4 mm."""

KILOMETRES = 1.609344
"""In a mile, exactly: 5280 feet of 0.3048 m."""

PER_CUBIC_METRE = 0.3048**3 / KILOGRAMS
"""lb/ft³ in a kg/m³."""

STEP = 5
"""Weights are shown to the next 5 lb or 5 kg: an estimate has no better figures."""

_FORM = re.compile(r"([0-9]+(?:\.[0-9]+)?|\.[0-9]+) ?([a-z/3³]*)")
_DENSITIES = {
    **dict.fromkeys(("lb/ft3", "lb/ft³", "pcf"), 1.0),
    **dict.fromkeys(("kg/m3", "kg/m³"), PER_CUBIC_METRE),
}
_SPEEDS = {
    "mph": 1.0,
    **dict.fromkeys(("km/h", "kmh"), 1 / KILOMETRES),
    "m/s": 3.6 / KILOMETRES,
}


class AmountError(LengthError):
    """A density or a speed that cannot be read; the message says what is wrong and what would be right."""


def density(text: str, unit: Unit) -> float:
    """lb/ft³ from ``36``, ``36 lb/ft3`` or ``580 kg/m3``. Bare numbers are lb/ft³, in metric jobs (*unit* mm) kg/m³.

    Raises AmountError, also beyond 10 to 80 lb/ft³: no lumber floats that lightly, and 80 is heavier than soaked wood.
    """
    right = "36 lb/ft3" if unit == "in" else "580 kg/m3"
    found = _read(text, _DENSITIES, "lb/ft3" if unit == "in" else "kg/m3", right)
    if not 10 <= found <= 80:
        raise AmountError(f"{echo(text.strip())}: no lumber weighs that, dry or wet; write {right}")
    return found


def speed(text: str, unit: Unit) -> float:
    """mph from ``15``, ``15 mph``, ``25 km/h`` or ``7 m/s``. Bare numbers are mph, in metric jobs (*unit* mm) km/h.

    Raises AmountError, also over 60 mph: nothing is lifted in a storm.
    """
    right = "15 mph" if unit == "in" else "25 km/h"
    found = _read(text, _SPEEDS, "mph" if unit == "in" else "km/h", right)
    if not 0 < found <= 60:
        raise AmountError(f"{echo(text.strip())}: no wind to lift a wall in; write {right}")
    return found


def _read(text: str, units: Mapping[str, float], bare: str, right: str) -> float:
    """One number and one of *units*, or none."""
    clean = " ".join(text.lower().split())
    found = _FORM.fullmatch(clean) if len(text) <= LONGEST_TEXT else None
    if found is None:
        given = f"{echo(text.strip())}: " if clean else ""
        raise AmountError(f"{given}one number and its unit; write {right}")
    unit = found[2] or bare
    if unit not in units:
        known = ", ".join(name for name in units if name.isascii())  # as they can be typed
        raise AmountError(f"{echo(text.strip())}: its unit is none of {known}; write {right}")
    return float(found[1]) * units[unit]


def weight(pounds: float, style: Style) -> str:
    """A weight or a force as printed: up to the next 5, ``1,375 lb`` or ``625 kg`` (of force: kilograms to hold)."""
    value, unit = (pounds * KILOGRAMS, "kg") if style.unit == "mm" else (pounds, "lb")
    return f"{math.ceil(value / STEP - 1e-9) * STEP:,} {unit}"


def run(inches: float, style: Style) -> str:
    """The length of much material together: as any length, in metric over 10 m in metres, ``197.01 m``."""
    metres = inches * 0.0254  # exact
    return f"{metres:.2f} m" if style.unit == "mm" and metres > 10 else show(inches, style)


def limit(pounds: float, style: Style) -> str:
    """A limit as printed, to the nearest whole: ``51 lb`` or ``23 kg``."""
    return f"{pounds * KILOGRAMS:.0f} kg" if style.unit == "mm" else f"{pounds:.0f} lb"


def wind(mph: float, style: Style) -> str:
    """A speed as printed: ``15 mph`` or ``25 km/h``."""
    return f"{mph * KILOMETRES:.0f} km/h" if style.unit == "mm" else f"{mph:.0f} mph"


def heavy(pounds: float, style: Style) -> str:
    """A density (*pounds* a cubic foot) as printed: ``36.3 lb/ft³`` or ``581 kg/m³``."""
    return f"{pounds / PER_CUBIC_METRE:.0f} kg/m³" if style.unit == "mm" else f"{pounds:.1f} lb/ft³"
