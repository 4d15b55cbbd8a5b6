"""The walls that the plan of the field sheet shows: their columns, where each is dimensioned, and what their chains of
dimensions say.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from msgspec import Struct

from layouts.building import Building
from layouts.lengths import show
from layouts.plan import Plan, Side, Spot, WallLine

Group = Literal["sides", "front", "back"]
GROUP: dict[Side, Group] = {"left": "sides", "right": "sides", "front": "front", "back": "back"}
# the sidewalls have the same bays: one carries them, the other the running measures
CHAINS: dict[Side, tuple[str, ...]] = {
    "left": ("BAYS",),
    "right": ("RUNNING",),
    "front": ("BAYS", "RUNNING"),
    "back": ("BAYS", "RUNNING"),
}


class Edge(Struct, frozen=True):
    """One wall: its columns from the front on, or from wall A on, and where each is dimensioned, inches from the outer
    face of the first: corners at their outer face, the others at their centre. *named*: those whose names stand along
    this wall; corners go with the sidewalls."""

    wall: WallLine
    spots: tuple[Spot, ...]
    places: tuple[float, ...]
    named: tuple[Spot, ...]

    @property
    def bays(self) -> tuple[float, ...]:
        """Each bay as it is laid out on the string, inches."""
        return tuple(b - a for a, b in pairwise(self.places))


class Word(Struct, frozen=True):
    """Words of a chain, centred *at* inches along the wall; *bay* is the stretch they belong to, 0 for a point."""

    at: float
    text: str
    bay: float


def chains(plan: Plan, side: Side) -> tuple[str, ...]:
    """The chains along a wall: of a lean-to its one sidewall carries both."""
    return ("BAYS", "RUNNING") if plan.on("right") is None else CHAINS[side]


def edges(plan: Plan) -> dict[Side, Edge]:
    """The walls by their side."""
    corners = {s.name for s in plan.spots if s.role == "corner"}
    found: dict[Side, Edge] = {}
    for wall in plan.walls:
        spots = sorted(map(plan.spot, wall.columns), key=lambda s: middle(wall.side, s))
        centres = [middle(wall.side, s) for s in spots]
        named = tuple(s for s in spots if not (wall.gable and s.name in corners))
        found[wall.side] = Edge(wall, tuple(spots), (0.0, *centres[1:-1], wall.length), named)
    return found


def middle(side: Side, spot: Spot) -> float:
    """The middle of a column along its wall, from the front or from wall A."""
    return (spot.v0 + spot.v1) / 2 if GROUP[side] == "sides" else (spot.u0 + spot.u1) / 2


def words(building: Building, edge: Edge, chain: str) -> list[Word]:
    """What a chain says."""
    style = building.job.style
    if chain == "RUNNING":
        return [Word(place, show(place, style), 0.0) for place in edge.places]
    return [Word((a + b) / 2, show(b - a, style), b - a) for a, b in pairwise(edge.places)]
