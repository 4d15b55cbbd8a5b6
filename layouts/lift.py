"""How heavy a wall is to lift, where its weight is, and who or what should lift it. An estimate, not a lift plan.

Sources: NIOSH 94-110 (51 lb a person, under ideal conditions); Utah Admin. Code R614-7-4 (restraints at the foot of
hand-lifted walls of 10 ft and more, machines from 18 ft); an OSHA bulletin on walls raised by hand (controlled zone:
height of the wall and 4 ft). All else is common practice, no source, and where it is a number it is a setting.
"""

from __future__ import annotations

import math
from typing import Literal, Protocol

from msgspec import Struct

from layouts import bodies
from layouts.bodies import Body, Weight
from layouts.fields import Job
from layouts.plan import Plan, Side
from layouts.roof import Roof
from layouts.walls import Stand, Wall
from layouts.wood import Settings as WoodSettings
from layouts.wood import Wood
from layouts.wood import of as wood_of

IDEAL = 51.0
"""Pounds a person, under ideal conditions (NIOSH 94-110)."""

REALISTIC = 35.0
"""Pounds a person, in a row at a wall (common practice, no source)."""

RESTRAINED = 10 * 12.0
"""Inches: walls of this height and more need restraints at the foot before they go up by hand (Utah R614-7-4)."""

MECHANICAL = 18 * 12.0
"""Inches: walls of this height and more are lifted by machine (Utah R614-7-4)."""

BEYOND = 4 * 12.0
"""Inches that the controlled zone reaches beyond the height of the wall, over its whole length (OSHA bulletin)."""

REACH = 6 * 12.0
"""Inches from the ground to the hands of those who walk a wall up (common practice, no source)."""

EQUAL_BENDING = 0.207
"""Of the length, from each end: where two picks bend a long even body least (statics)."""

PICK_HEIGHT = (2 / 3, 3 / 4)
"""Of a column's length, from its bottom end (common practice, no source)."""

OPEN_FRAME = 1.8
"""Force coefficient of flat pieces in an open frame, 10 to 29 % solid (ASCE 7-16, table 29.4-2; 1.6 where more is)."""

Face = Literal["outside", "inside"]
Reason = Literal["people", "height"]


def first_lift(weight: Weight, foot: float, hold: float) -> float:
    """Pounds that take a wall off the ground, held *hold* inches from its foot: W·y/a, both arms from *foot*, the
    station of the line it turns about. Raises ValueError unless the hold is above the foot."""
    if not hold > 0:
        raise ValueError(f"nothing is lifted by its foot: held at {hold:g} in")
    return weight.pounds * (weight.up - foot) / hold


def walking(weight: Weight, foot: float, hold: float) -> float:
    """Pounds that walk it up from there, pushed square to it at the height of hands: W·y·sin·cos/reach of the angle,
    hardest half way up, or at the start where hands begin further down the wall than that."""
    angle = math.pi / 4 if hold > REACH * math.sqrt(2) else math.asin(min(REACH / hold, 1.0))
    return weight.pounds * (weight.up - foot) * math.sin(angle) * math.cos(angle) / REACH


def hands(force: float, each: float) -> int:
    """People needed for *force* pounds at *each* pounds a person."""
    return max(math.ceil(force / each - 1e-9), 1)


def wind(mph: float, square_feet: float) -> float:
    """Pounds that a wind square to a bare frame pushes with: 0.00256·V² psf on its solid area, times 1.8."""
    return 0.00256 * mph**2 * OPEN_FRAME * square_feet


class Pick(Struct, frozen=True):
    """A column to lift by. *pounds* it carries when the wall hangs; *along* its middle; *low* and *high* say how far
    from its bottom end the sling goes, above the centre of gravity. Inches."""

    name: str
    along: float
    pounds: float
    low: float
    high: float


def picks(wall: Wall, weight: Weight) -> tuple[Pick, Pick] | None:
    """The two columns to lift *wall* by; ``None`` where no two reach well above the centre of gravity with it between.

    Wanted are the places of equal bending, as far apart as 0.207 of the length from both ends leaves them, moved so
    that the centre of gravity is midway and the loads are even. Taken are the two columns nearest to them.
    """
    stands = [s for s in bodies.own(wall) if _sling(wall, s)[1] > weight.up - bodies.bottom(wall, s)]
    apart = wall.line.length * (1 - 2 * EQUAL_BENDING)
    lefts = [s for s in stands if s.centre < weight.along - 1e-6]
    rights = [s for s in stands if s.centre > weight.along + 1e-6]
    pairs = [(a, b) for a in lefts for b in rights]
    if not pairs:
        return None

    def off(pair: tuple[Stand, Stand]) -> tuple[float, float, float]:
        left, right = weight.along - pair[0].centre, pair[1].centre - weight.along
        # equal pairs: the one that shares the load better, then the left one
        return round(abs(left - apart / 2) + abs(right - apart / 2), 6), round(abs(left - right), 6), pair[0].centre

    first, second = min(pairs, key=off)
    span = second.centre - first.centre
    return (
        _pick(wall, first, weight, (second.centre - weight.along) / span),
        _pick(wall, second, weight, (weight.along - first.centre) / span),
    )


def _pick(wall: Wall, stand: Stand, weight: Weight, share: float) -> Pick:
    low, high = _sling(wall, stand)
    return Pick(stand.name, stand.centre, weight.pounds * share, max(low, weight.up - bodies.bottom(wall, stand)), high)


def _sling(wall: Wall, stand: Stand) -> tuple[float, float]:
    """How far from a column's bottom end a sling goes."""
    length = min(h for _, h in stand.top) - bodies.bottom(wall, stand)
    return PICK_HEIGHT[0] * length, PICK_HEIGHT[1] * length


class Lie(Struct, frozen=True):
    """How a wall lies before it goes up: its foot on the line, its top *inside* of the building or *outside* of it.
    *up* is the face that is up; *left* and *right* are the columns at its ends for a man at its foot who looks to its
    top, *theirs* those of them that stand in other walls and are not lifted with this one. *mirrored*: he sees it the
    other way round than it is seen from outside when it stands. *toward* is the way from its foot to its top on the
    plan (across, along): the arrow. *outer* names the kinds of boards on the outside of its columns, *between* whether
    there are boards between them, *inner* whether there are any on their inside."""

    where: Face
    up: Face
    left: str
    right: str
    theirs: tuple[str, ...]
    mirrored: bool
    toward: tuple[int, int]
    outer: tuple[str, ...] = ()
    between: bool = False
    inner: bool = False


_INWARD: dict[Side, tuple[int, int]] = {"left": (1, 0), "right": (-1, 0), "front": (0, 1), "back": (0, -1)}


def lie(wall: Wall, where: Face) -> Lie:
    """How *wall* lies *where* it is built flat: inside or outside of the footprint."""
    first, last = wall.line.columns[0], wall.line.columns[-1]
    across, along = _INWARD[wall.line.side]
    if where == "inside":
        return Lie(where, "outside", first, last, wall.theirs, False, (across, along), *_layers(wall))
    return Lie(where, "inside", last, first, wall.theirs, True, (-across, -along), *_layers(wall))


def _layers(wall: Wall) -> tuple[tuple[str, ...], bool, bool]:
    """The kinds of boards outside of the columns, whether any lie between them, and whether any lie on their inside.
    Headers and sills lie with the girts; boards on the tops of the columns are none of these."""
    rows = [c.row for c in wall.all_courses]
    outer = tuple(dict.fromkeys(row.key for row in rows if row.layer == "outside"))
    inner = any(row.layer == "inside" for row in rows) or any(u.layer == "inside" for u in wall.uprights)
    return outer, any(row.layer == "between" for row in rows), inner


class Settings(Protocol):
    """What the job says of its lifts: how the walls lie (*lies*), how far from the foot they are first held (*hold*;
    ``None``: at the top of the lowest column), the most *people* for one by hand, the *wind* limit in mph, *extra*
    percent for what is not drawn, and how far up the columns are treated (*treated_up*) where only their ends are."""

    @property
    def lies(self) -> Face:
        """Where a wall lies before it goes up: inside or outside of the footprint."""

    @property
    def hold(self) -> float | None:
        """Inches from the lowest column bottom to where it is first held; ``None``: the top of the lowest column."""

    @property
    def people(self) -> int:
        """The most for a lift by hand; more is a machine lift."""

    @property
    def wind(self) -> float:
        """No lift in gusts over this, mph."""

    @property
    def extra(self) -> int:
        """Percent added to the weight for what is not drawn."""

    @property
    def treated_up(self) -> float:
        """How far up columns are treated, inches, where only their ends are."""


class Lift(Struct, frozen=True):
    """The lift of one wall. Pounds, inches. *ends* are its outermost columns (name and outer edge along the wall; the
    ends of the boards, without a name, if it has none), *foot* the station of its lowest bottom end, which is that of
    the column *lowest*, *height* from there to its highest point. *force* is the first lift at *hold* and *later* what
    it takes to walk it up from there, both wet; *ideal* and *realistic* the people for the harder of the two; *machine*
    why it is a machine lift, empty for one by hand; *zone* how far to keep clear; *push* the wind's at the limit *mph*;
    *assumed* the columns that were not read."""

    wall: str
    wood: Wood
    dry: Weight
    wet: Weight
    ends: tuple[tuple[str, float], tuple[str, float]]
    foot: float
    lowest: str
    height: float
    hold: float
    force: float
    later: float
    ideal: int
    realistic: int
    machine: tuple[Reason, ...]
    restrained: bool
    picks: tuple[Pick, Pick] | None
    zone: float
    mph: float
    push: float
    lie: Lie
    people: int
    extra: int
    assumed: tuple[str, ...]


def lay(job: Job, plan: Plan, roof: Roof, wall: Wall, wood: WoodSettings, settings: Settings) -> Lift:
    """The lift of *wall*. It turns about its lowest bottom end: that is the longest arm, so the force is rather too
    large. All that is judged is judged wet."""
    found = wood_of(wood)
    dry = bodies.of_wall(job, plan, roof, wall, found.dry, settings.treated_up)
    wet = bodies.of_wall(job, plan, roof, wall, found.wet, settings.treated_up)
    weight = bodies.weigh(wet, settings.extra)
    heights = [y for body in wet for _, y in body.outline]
    foot, height = min(heights), max(heights) - min(heights)
    hold = min(_reach(wall, foot, height) if settings.hold is None else settings.hold, height)
    force = first_lift(weight, foot, hold)
    later = walking(weight, foot, hold)
    realistic = hands(max(force, later), REALISTIC)
    machine = _machine(realistic, settings.people, height)
    return Lift(
        wall=wall.name,
        wood=found,
        dry=bodies.weigh(dry, settings.extra),
        wet=weight,
        ends=_ends(wall, wet),
        foot=foot,
        lowest=min(bodies.own(wall), key=lambda s: bodies.bottom(wall, s)).name if bodies.own(wall) else "",
        height=height,
        hold=hold,
        force=force,
        later=later,
        ideal=hands(max(force, later), IDEAL),
        realistic=realistic,
        machine=machine,
        restrained=not machine and height >= RESTRAINED - 1e-9,
        picks=picks(wall, weight),
        zone=height + BEYOND,
        mph=settings.wind,
        push=wind(settings.wind, bodies.solid(wall)),
        lie=lie(wall, settings.lies),
        people=settings.people,
        extra=settings.extra,
        assumed=bodies.unread(wall),
    )


def _ends(wall: Wall, found: tuple[Body, ...]) -> tuple[tuple[str, float], tuple[str, float]]:
    """What the centre of gravity is measured from: columns that are lifted, not corners that stand elsewhere."""
    if stands := bodies.own(wall):
        return (stands[0].name, stands[0].left), (stands[-1].name, stands[-1].right)
    places = [x for body in found for x, _ in body.outline]
    return ("", min(places)), ("", max(places))


def _machine(realistic: int, people: int, height: float) -> tuple[Reason, ...]:
    """Why a wall is no lift by hand."""
    found: list[Reason] = []
    if realistic > people:
        found.append("people")
    if height >= MECHANICAL - 1e-9:
        found.append("height")
    return tuple(found)


def _reach(wall: Wall, foot: float, height: float) -> float:
    """From the foot to the top of the lowest column: all along the wall there is something to hold there."""
    return min((min(h for _, h in s.top) - foot for s in bodies.own(wall)), default=height)
