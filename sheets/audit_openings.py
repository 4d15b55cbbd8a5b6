"""What a wall's sheets say of its openings and its lift, as they are in the files, held against the layout."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from layouts.boards import Wall
from layouts.building import Building
from layouts.lift import Lift
from layouts.lift_words import verdict
from sheets.audit_model import shown


def openings(texts: Sequence[str], drawn: Wall, building: Building) -> Iterator[tuple[str, str, str]]:
    """Of every opening its edges under the wall, and its sizes and stations in words."""
    style = building.job.style
    for opening in drawn.openings:
        left, right = opening.left, opening.right
        corner = drawn.stands[0].name
        if _lifted(building, drawn).lie.mirrored:
            left, right = drawn.line.length - right, drawn.line.length - left
            corner = drawn.stands[-1].name
        edges = shown(left, style), shown(right, style)
        name = f"{opening.name} "
        said = [t for t in texts if t.startswith(name)]
        for edge in edges:
            if f"{name}{edge}" not in said:
                yield f"opening {opening.name}, edge", edge, " or ".join(t for t in said if len(t) < 40) or "nothing"
        rough = f"RO {shown(right - left, style)} x {shown(opening.high - opening.low, style)}"
        stations = f"bottom {shown(opening.low, style)}, top {shown(opening.high, style)}"
        for want in (rough, f"{edges[0]} to {edges[1]} from {corner}", stations):
            if not any(_says(text, want) for text in said):
                found = " or ".join(t for t in said if "RO" in t)
                yield f"opening {opening.name}", want, found or "nothing"


def _says(text: str, want: str) -> bool:
    """Whether *want* is one of the parts of a line about an opening."""
    return want in text.split(" · ")


def _lifted(building: Building, drawn: Wall) -> Lift:
    return next(lift for lift in building.lifts if lift.wall == drawn.name)


def lift(texts: Sequence[str], drawn: Wall, building: Building) -> Iterator[tuple[str, str, str]]:
    """Which face is up, and whether hands or a machine lift it."""
    found = _lifted(building, drawn)
    other = "INSIDE FACE UP" if found.lie.up == "outside" else "OUTSIDE FACE UP"
    for want in (f"{found.lie.up.upper()} FACE UP", verdict(found)):
        if want not in texts:
            yield "lift", want, "nowhere"
    if other in texts:
        yield "face", f"{found.lie.up} up", other
