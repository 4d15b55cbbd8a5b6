"""The level page as a surveyor books it, and how an instrument is checked. Fractions in, Fractions out.

A reading is taken down from the beam: larger is lower. An inverted sight, the rod held upside down against the
underside of something above the beam, is negative. An instrument's error is told in inches per inch of sight: plus
where its beam is too high, which makes readings too large.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Sight:
    """One line of the page: what was read on *point*. *back* and *fore* together are a turning point; *between*
    stands alone (an intermediate sight). Raises ValueError for any other mixture."""

    point: str
    back: Fraction | None = None
    between: Fraction | None = None
    fore: Fraction | None = None

    def __post_init__(self) -> None:
        if (self.between is None) == (self.back is None and self.fore is None):
            raise ValueError(f"{self.point}: a line has a backsight, a foresight or both, or an intermediate sight")


@dataclass(frozen=True)
class Booked:
    """One line reduced: *elevation* of the point, and *beam*, the elevation of the beam when the point was left."""

    point: str
    elevation: Fraction
    beam: Fraction


@dataclass(frozen=True)
class Page:
    """The *lines* in order, and the sums of the backsights and of the foresights."""

    lines: tuple[Booked, ...]
    backs: Fraction
    fores: Fraction

    @property
    def rise(self) -> Fraction:
        """From the first point to the last one by the sums alone. The page check: it is the last elevation less the
        first, so a page whose elevations were reckoned by hand or rounded is held against it."""
        return self.backs - self.fores


def booked(sights: Sequence[Sight], start: Fraction) -> Page:
    """Reduce a page by height of instrument, from the elevation *start* of its first point, all in one unit.

    beam = elevation + backsight; elevation = beam − foresight or intermediate sight. Raises ValueError unless the
    page runs from a backsight over turning points and intermediate sights to a foresight.
    """
    _refuse_broken(sights)
    lines: list[Booked] = []
    beam = start
    for sight in sights:
        read = sight.fore if sight.between is None else sight.between
        elevation = start if read is None else beam - read
        if sight.back is not None:
            beam = elevation + sight.back
        lines.append(Booked(sight.point, elevation, beam))
    backs = sum((s.back for s in sights if s.back is not None), Fraction(0))
    fores = sum((s.fore for s in sights if s.fore is not None), Fraction(0))
    return Page(tuple(lines), backs, fores)


def _refuse_broken(sights: Sequence[Sight]) -> None:
    if not sights:
        raise ValueError("nothing is booked on this page")
    last = len(sights) - 1
    for at, sight in enumerate(sights):
        came, goes = at > 0, at < last
        if sight.between is None:
            right = (sight.fore is not None, sight.back is not None) == (came, goes)
        else:
            right = came and goes
        if not right:
            raise ValueError(f"{sight.point}: a page runs from a backsight over turning points to a foresight")


def curvature(sight: Fraction) -> Fraction:
    """How many inches too large a reading is over a *sight* of so many inches, for the curve of the earth less the
    bending of light: 0.021·K² ft, K the sight in thousands of feet (a rule of surveying, seen). 0.0025 in at 100 ft:
    negligible on a site, so it is never applied."""
    return Fraction(21, 1000) * (sight / 12_000) ** 2 * 12


@dataclass(frozen=True)
class Pegs:
    """*rise* of peg B above peg A, inches; *error* of the line of sight, inches per inch."""

    rise: Fraction
    error: Fraction


def two_peg(middle: tuple[Fraction, Fraction], near: tuple[Fraction, Fraction], to_a: Fraction, to_b: Fraction) -> Pegs:
    """The two-peg test, for an instrument that is off by the same angle all round, as a telescope is.

    *middle*: readings on pegs A and B from half way between. Equal sights have equal errors, so the rise a − b of B
    above A is true. *near*: readings a', b' from near one peg, with sights of *to_a* and *to_b* inches. There the
    error shows: error = ((b' − a') − (b − a)) / (to_b − to_a).

    A rotating laser whose plane is tilted is not found out so. While it faces the same way it is too high towards one
    peg and too low towards the other, by the same sum from either set-up: no error comes out and the rise is false.
    `turned` finds that.

    Common practice, no source. Raises ValueError unless the sights differ and neither is below zero.
    """
    if to_a == to_b or min(to_a, to_b) < 0:
        raise ValueError(f"sights of {to_a} and {to_b} in: one peg must be nearer than the other")
    rise = middle[0] - middle[1]
    return Pegs(rise, (rise - (near[0] - near[1])) / (to_b - to_a))


def turned(first: Fraction, second: Fraction, sight: Fraction) -> Fraction:
    """How far the plane of a rotating laser is tilted, inches per inch, plus where it was too high at *first*.

    *first* and *second* are the heights of the beam (inches) on one wall or rod, *sight* inches away, before and
    after the laser was turned by 180 degrees on its tripod. One is too high by as much as the other is too low, so
    the marks differ by twice the error: error = (first − second) / (2·sight), and level is half way between. The
    other axis is checked likewise. An error that is the same all round does not show here: `two_peg` finds that.

    Common practice, no source. Raises ValueError unless sight > 0.
    """
    if not sight > 0:
        raise ValueError(f"a laser is checked at a distance, not at {sight} in")
    return (first - second) / (2 * sight)
