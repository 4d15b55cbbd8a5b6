"""The caution box of a wall: what its lift comes to, in words."""

from __future__ import annotations

import math
from collections.abc import Callable

from msgspec import Struct

from layouts.amounts import heavy, limit, weight, wind
from layouts.lengths import Style, show, to_unit
from layouts.lift import IDEAL, MECHANICAL, REACH, REALISTIC, RESTRAINED, Lie, Lift

STANDING = (
    "Nobody under it or in that zone but the lifters, until it is braced.",
    "ONE VOICE CALLS THE LIFT. Tag lines at both ends, restraints at the foot, props at hand.",
    "BRACE BEFORE RELEASE: both ends and every second column. Brackets alone hold no wall up.",
    "An estimate, NOT A LIFT PLAN. Your plan, code and engineer rule.",
)


def _nearest(value: float) -> int:
    return math.floor(value + 0.5 + 1e-6)


def _up(value: float) -> int:
    return math.ceil(value - 1e-6)


class Words(Struct, frozen=True):
    """What is printed of a lift: *verdict* largest, *lie* how the wall lies, *arrow* beside the arrow from its foot to
    its top, *lines* the caution box from the top down."""

    verdict: str
    lie: str
    arrow: str
    lines: tuple[str, ...]


def words(lift: Lift, style: Style) -> Words:
    """All of it, in the order in which it is needed."""
    assumed = (f"Not read, taken as long as the longest: {', '.join(lift.assumed)}.",) if lift.assumed else ()
    lines = (_weight(lift, style), *assumed, _centre(lift, style), _first(lift, style), *_why(lift, style))
    return Words(
        verdict(lift),
        lies(lift.lie),
        "TOP INTO THE BUILDING" if lift.lie.where == "inside" else "TOP AWAY FROM THE BUILDING",
        (*lines, _picks(lift, style), _zone(lift, style), STANDING[0], _wind(lift, style), *STANDING[1:]),
    )


def verdict(lift: Lift) -> str:
    """Hands or machine."""
    if lift.machine:
        return "MACHINE LIFT"
    return f"BY HAND: {lift.realistic} {'PERSON' if lift.realistic == 1 else 'PEOPLE'} AT THE LEAST"


def lies(lie: Lie) -> str:
    """Where a wall lies, which face is up, which end is left."""
    names = " and ".join(lie.theirs)
    stand = "stand in other walls" if len(lie.theirs) > 1 else "stands in another wall"
    theirs = f" {names} {stand}: not in this lift." if names else ""
    ends = f"{lie.left} is on your LEFT, {lie.right} on your RIGHT.{theirs}"
    if lie.where == "inside":
        return (
            f"It lies INSIDE the building, its foot on the line, OUTSIDE FACE UP: {laid(lie)}. "
            f"Stand outside at its foot and look to its top: {ends}"
        )
    return (
        f"It lies OUTSIDE the building, its foot on the line, INSIDE FACE UP: {laid(lie)}. "
        f"Stand inside at its foot and look out to its top: {ends}"
    )


def laid(lie: Lie) -> str:
    """What is laid down first, what after it: boards lie under the columns, between them or on them."""
    out, named = _outer(lie), _named(lie)
    inner = "inside boards" if lie.inner else ""
    under, over = (inner, out) if lie.up == "outside" else (out, inner)
    if not lie.between and not (under and over):
        return f"{under} down first, columns on top" if under else f"columns down first, {over or 'boards'} on top"
    columns = f"then columns{' on top' if not lie.between and not over else ''}" if under else "columns down first"
    first = f"down first: {under}" if named and under == out else f"{under} down first"
    last = f"then on top: {over}" if named and over == out else f"then {over} on top"
    between = "boards between them" if lie.between else ""
    steps = [first if under else "", columns, between, last if over else ""]
    return ("; " if named else ", ").join(step for step in steps if step)


def _named(lie: Lie) -> bool:
    """Whether the boards outside of the columns are told by name: where the girts are elsewhere."""
    return bool(lie.outer) and "girt" not in lie.outer and bool(lie.between or lie.inner)


def _outer(lie: Lie) -> str:
    """The boards outside of the columns."""
    if not lie.outer:
        return ""
    if not _named(lie):
        return "outside boards" if lie.inner else "boards"
    return ", ".join(f"{key}s" if key == "carrier" else key for key in lie.outer)


def _weight(lift: Lift, style: Style) -> str:
    extra = f", {lift.extra} % added for nails and blocks" if lift.extra else ""
    wood = lift.wood
    return (
        f"WEIGHT about {weight(lift.dry.pounds, style)} dry, {weight(lift.wet.pounds, style)} wet, no cladding: "
        f"estimated from the sizes entered, {wood.name}, {heavy(wood.dry.plain, style)} dry, "
        f"{heavy(wood.wet.plain, style)} rained on, {heavy(wood.wet.treated, style)} fresh from treating{extra}."
    )


def _centre(lift: Lift, style: Style) -> str:
    name, place = lift.ends[1 if lift.lie.mirrored else 0]
    along = (lift.wet.along - place) * (-1 if lift.lie.mirrored else 1)
    side = "right" if along >= 0 else "left"
    edge = f"edge of {name}" if name else "end"
    foot = f", {_about(lift.wet.up - lift.foot, style)} from the bottom of {lift.lowest}" if lift.lowest else ""
    return (
        f"CENTRE OF GRAVITY {_about(abs(along), style)} {side} of the left {edge}, "
        f"{_about(lift.wet.up, style)} above the grade line{foot}."
    )


def _first(lift: Lift, style: Style) -> str:
    """What it takes to lift it, and to walk it up from there: where it is held no higher up the wall than hands reach
    they stay there until it stands."""
    then = f"walked up with hands at {_about(REACH, style)}: up to {weight(lift.later, style)}"
    if lift.hold <= REACH:
        then = "hands stay there until it stands"
    return (
        f"FIRST LIFT, held {_about(lift.hold, style)} from the foot: about {weight(lift.force, style)}; {then}. "
        f"That is {_people(lift.ideal)} at {limit(IDEAL, style)} under ideal conditions (NIOSH 94-110), "
        f"{_people(lift.realistic)} at {limit(REALISTIC, style)}."
    )


def _people(count: int) -> str:
    return "1 person" if count == 1 else f"{count} people"


def _why(lift: Lift, style: Style) -> list[str]:
    """Why it is a machine lift, or what a lift by hand needs."""
    reasons = {
        "people": f"it takes {_people(lift.realistic)}, {lift.people} are allowed",
        "height": f"walls of {show(MECHANICAL, style)} and more are lifted by machine (Utah R614-7-4)",
    }
    if lift.machine:
        return [f"MACHINE LIFT: {'; '.join(reasons[r] for r in lift.machine)}. Check its reach and load chart."]
    if lift.restrained:
        return [f"{show(RESTRAINED, style)} high or more: restraints at the foot BEFORE it goes up (Utah R614-7-4)."]
    return []


def _picks(lift: Lift, style: Style) -> str:
    if lift.picks is None:
        return (
            "PICKS: no two columns reach well above the centre of gravity with it between them. Ask whoever plans the "
            "lift."
        )
    first, second = lift.picks if not lift.lie.mirrored else reversed(lift.picks)
    each = [
        f"{p.name} ({weight(p.pounds, style)}; {_about(p.low, style)} to {_about(p.high, style)} from its bottom)"
        for p in (first, second)
    ]
    return f"PICK BY COLUMNS, never by girts: {each[0]} and {each[1]}."


def _zone(lift: Lift, style: Style) -> str:
    return f"KEEP CLEAR {_about(lift.zone, style, _up)} from the foot, the whole length, on both sides."


def _wind(lift: Lift, style: Style) -> str:
    return (
        f"WIND: no lift in gusts over {wind(lift.mph, style)}, which push this bare wall with about "
        f"{weight(lift.push, style)}, a clad one with far more: never lift a clad wall by hand."
    )


def _about(inches: float, style: Style, whole: Callable[[float], int] = _nearest) -> str:
    """An estimate of a length: to the inch, or to 10 mm."""
    if style.unit == "mm":
        return f"{whole(to_unit(inches, style) / 10) * 10} mm"
    return show(whole(inches), style)
