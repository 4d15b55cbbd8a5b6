"""How heavy wood is: density from species and moisture, in pounds a cubic foot.

Two published forms look alike and take two different specific gravities. Each has its own type here, so that the one
is never given the other's number:

- *Wood Handbook* (FPL): the weight is taken oven-dry, the volume at the moisture content itself (``AtMoisture``).
- NDS Supplement: weight and volume oven-dry (``OvenDry``); the form swells the wood to its moisture content.

Wood swells up to fibre saturation only (*Wood Handbook*, chapter 4: about 30 %), so the NDS form holds up to there;
wetter wood is the *Wood Handbook* form with the volume at saturation.
"""

from __future__ import annotations

from typing import NewType, Protocol

from msgspec import Struct

AtMoisture = NewType("AtMoisture", float)
"""Specific gravity: oven-dry weight, volume at the moisture content that is spoken of."""

OvenDry = NewType("OvenDry", float)
"""Specific gravity: oven-dry weight and volume."""

SATURATION = 30.0
"""Percent of moisture above which wood swells no more."""

SWELLING = 0.009
"""Of the NDS form: volume gained for each percent of moisture and unit of specific gravity."""


class Species(Struct, frozen=True):
    """A species group as lumber is stamped: its oven-dry specific gravity, and where that is from."""

    name: str
    gravity: OvenDry
    source: str


SPECIES: dict[str, Species] = {
    s.name: s
    for s in (
        Species("southern pine", OvenDry(0.55), "NDS Supplement, table 4B"),
        Species("douglas fir-larch", OvenDry(0.50), "NDS, from memory"),
        Species("hem-fir", OvenDry(0.43), "NDS, from memory"),
        Species("spruce-pine-fir", OvenDry(0.42), "NDS, from memory"),
    )
}


def handbook_density(gravity: AtMoisture, moisture: float) -> float:
    """*Wood Handbook* (FPL): 62.43·Gx·(1 + x/100), lb/ft³; *moisture* x in percent is the one of *gravity*.

    Raises ValueError outside of 0 to 250 %.
    """
    return 62.43 * gravity * (1 + _percent(moisture) / 100)


def nds_density(gravity: OvenDry, moisture: float) -> float:
    """NDS Supplement: 62.4·G/(1 + 0.009·G·m)·(1 + m/100), lb/ft³; *moisture* m in percent, up to saturation.

    Raises ValueError outside of 0 to 30 %: beyond it the form would swell the wood on and on.
    """
    if not 0 <= moisture <= SATURATION:
        raise ValueError(f"the NDS form is for 0 to {SATURATION:g} % of moisture, not {moisture:g} %")
    return 62.4 * gravity / (1 + SWELLING * gravity * moisture) * (1 + moisture / 100)


def saturated(gravity: OvenDry) -> AtMoisture:
    """The specific gravity on the volume at fibre saturation and beyond, swollen as the NDS form swells it."""
    return AtMoisture(gravity / (1 + SWELLING * gravity * SATURATION))


def density(gravity: OvenDry, moisture: float) -> float:
    """lb/ft³ at any *moisture* percent: the NDS form up to saturation, the *Wood Handbook* form beyond.

    Raises ValueError outside of 0 to 250 %.
    """
    if _percent(moisture) <= SATURATION:
        return nds_density(gravity, moisture)
    return handbook_density(saturated(gravity), moisture)


def gravity_of(pounds: float, moisture: float) -> OvenDry:
    """The oven-dry specific gravity of wood that weighs *pounds* a cubic foot at *moisture* percent: the NDS form
    turned round. Raises ValueError outside of 0 to 30 %."""
    if not 0 <= moisture <= SATURATION:
        raise ValueError(f"wood is weighed at 0 to {SATURATION:g} % of moisture, not {moisture:g} %")
    return OvenDry(pounds / (62.4 * (1 + moisture / 100) - SWELLING * moisture * pounds))


def _percent(moisture: float) -> float:
    if not 0 <= moisture <= 250:
        raise ValueError(f"no wood holds {moisture:g} % of moisture")
    return moisture


class Densities(Struct, frozen=True):
    """lb/ft³ of wood that is *plain* and of wood that is *treated*."""

    plain: float
    treated: float

    def of(self, treated: bool) -> float:
        """The one or the other."""
        return self.treated if treated else self.plain


class Settings(Protocol):
    """What the job says of its wood: *species* (a key of ``SPECIES``), its own *density* in lb/ft³ as it stands at
    *dry* moisture instead, and three moistures in percent: *dry*, *wet* (rained on) and *treated* (fresh from the
    treating plant)."""

    @property
    def species(self) -> str:
        """A key of ``SPECIES``."""

    @property
    def density(self) -> float | None:
        """Its own density at *dry* moisture, lb/ft³; ``None``: that of its species."""

    @property
    def dry(self) -> int:
        """Moisture of boards that were kept dry, percent."""

    @property
    def wet(self) -> int:
        """Moisture of boards that were rained on, percent."""

    @property
    def treated(self) -> int:
        """Moisture of boards fresh from the treating plant, percent."""


class Wood(Struct, frozen=True):
    """The wood of a job as it weighs *dry* (treated wood dried back) and *wet* (rained on; treated wood fresh); *name*
    is how it is printed."""

    name: str
    dry: Densities
    wet: Densities


def of(settings: Settings) -> Wood:
    """The wood that the job describes.

    What the preservative itself weighs is left out: it is less than the water's uncertainty by far. With 90 % moisture
    freshly treated southern pine comes to 57 lb/ft³, which is what a table in the trade gives for treated lumber (2x4
    2.1, 2x6 3.2, 2x8 4.4, 2x10 5.5, 2x12 6.6 lb/ft; secondary source). Raises ValueError where moistures are out of
    bounds.
    """
    own = settings.density
    gravity = SPECIES[settings.species].gravity if own is None else gravity_of(own, settings.dry)
    dry = density(gravity, settings.dry)
    return Wood(
        settings.species if own is None else "own density",
        Densities(dry, dry),
        Densities(density(gravity, settings.wet), density(gravity, settings.treated)),
    )
