"""Where everything stands on the plan of the field sheet: the scale, names and numbers, chains of dimensions.

Seen from above, eaves lying across, wall A at the top and the front to the left, as on the index. Names that would
touch are turned across their wall and at last left out; chains that do not go legibly are sent to a table.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from msgspec import Struct

import fonts
from layouts.building import Building
from layouts.plan import Plan, Side, Spot
from sheets.field_walls import GROUP, Edge, Group, Word, chains, edges, middle, words
from sheets.lettering import pt, width
from sheets.paper import Area, Paper
from sheets.shapes import Point
from sheets.wrapping import wrap

NAME, NUMBER, WORDS, SMALL = pt(13), pt(10.5), pt(11), pt(10)
CHAINS_SET = (pt(11), pt(9.5))  # dimensions: the larger type unless the smaller one holds more of them
ABOVE, BELOW, CAP = 0.87, 0.2, 0.7  # em: a stacked fraction over and under its line, a capital
HEAD, LEADING = 0.88, 1.3
NEAR, FRAME, GAP, AIR = 0.15, 0.18, 0.04, 0.06  # wall to number, its frame's height, frame to name, between words
RULE = 0.11  # from where a chain begins to its words; its line lies halfway
STANDING = 0.12  # how deep the standing wall of a lean-to is drawn
UNDER = 1.15  # what it takes with its words, and with what stands at the ends of the gables' chains
LEAST_WIDE, LEAST_TALL = 3.9, 1.9  # what is narrower is drawn wider than it is

Mode = Literal["along", "across", "table"]


class Ways(Struct, frozen=True):
    """How words stand: the type *size* of chains, whether names are *turned* across their wall, where chains stand,
    whether names are *skipped* and whether the plan is *stretched* one way."""

    size: float
    turned: dict[Side, bool]
    modes: dict[Group, Mode]
    skipped: bool = False
    stretched: bool = False


class Sketch(Struct, frozen=True):
    """The plan on its page: the outside of the columns from (x0, y0) to (x1, y1), page inches for an inch *along* the
    eaves and *across* the gable, words as in *ways*."""

    x0: float
    y0: float
    x1: float
    y1: float
    along: float
    across: float
    ways: Ways

    @property
    def scale(self) -> float:
        """The smaller of the two, which are the same unless the plan is stretched."""
        return min(self.along, self.across)

    def place(self, side: Side, inches: float) -> float:
        """A place along a wall on the page."""
        return self.x0 + inches * self.along if GROUP[side] == "sides" else self.y1 - inches * self.across

    def at(self, side: Side, inches: float, out: float) -> Point:
        """A place along a wall, *out* inches of page outside of its line."""
        place = self.place(side, inches)
        return {
            "left": (place, self.y1 + out),
            "right": (place, self.y0 - out),
            "front": (self.x0 - out, place),
            "back": (self.x1 + out, place),
        }[side]


# --- the frame ------------------------------------------------------------------------------------------------------


def best(building: Building, papers: Sequence[Paper]) -> tuple[Paper, Sketch]:
    """The paper, and the plan on it, that names all columns if any does, sends the fewest chains to a table and turns
    the fewest; then the one with the larger type, and the larger plan."""

    def poor(found: tuple[Paper, Sketch]) -> tuple[bool, int, int, float, float]:
        ways, modes = found[1].ways, list(found[1].ways.modes.values())
        return ways.skipped, modes.count("table"), modes.count("across"), -ways.size, -round(found[1].scale, 9)

    return min(((p, arrange(building, p.body, size)) for p in papers for size in CHAINS_SET), key=poor)


def arrange(building: Building, area: Area, size: float = CHAINS_SET[0]) -> Sketch:
    """The plan as large as the words round it leave room for in *area*, chains in type of *size*."""
    walls = edges(building.plan)
    turned = {side: GROUP[side] != "sides" for side in walls}
    ways = Ways(size, turned, dict.fromkeys(("sides", "front", "back"), "along"))
    while True:
        sketch = _placed(building, area, walls, ways)
        eased = _eased(building, sketch, walls)
        if eased == ways:
            return sketch
        ways = eased


def _placed(building: Building, area: Area, walls: dict[Side, Edge], ways: Ways) -> Sketch:
    plan = building.plan
    deep = {side: _deep(building, edge, ways) for side, edge in walls.items()}
    deep.setdefault("right", UNDER)
    foot = len(legend(building, ways, area.width)) * SMALL * LEADING + 0.12
    wide, tall = area.width - deep["front"] - deep["back"], area.height - HEAD - foot - deep["left"] - deep["right"]
    scale = min(wide / plan.along, tall / plan.across)
    drawn = max(plan.along * scale, min(LEAST_WIDE, wide)), max(plan.across * scale, min(LEAST_TALL, tall))
    x0 = area.x0 + deep["front"] + (wide - drawn[0]) / 2
    y0 = area.y0 + foot + deep["right"] + (tall - drawn[1]) / 2
    return Sketch(x0, y0, x0 + drawn[0], y0 + drawn[1], drawn[0] / plan.along, drawn[1] / plan.across, ways)


def _eased(building: Building, sketch: Sketch, walls: dict[Side, Edge]) -> Ways:
    """The ways of a sketch, a step further where words would touch or leave nothing for the drawing."""
    ways, modes = sketch.ways, dict(sketch.ways.modes)
    for side, edge in walls.items():
        found = [words(building, edge, chain) for chain in chains(building.plan, side)]
        while not all(_fits(sketch, side, chain, modes[GROUP[side]]) for chain in found):
            modes[GROUP[side]] = "across" if modes[GROUP[side]] == "along" else "table"
    squeezed = {"sides": sketch.y1 - sketch.y0 < LEAST_TALL - 1e-9, "ends": sketch.x1 - sketch.x0 < LEAST_WIDE - 1e-9}
    for group, mode in modes.items():
        if mode == "across" and squeezed["sides" if group == "sides" else "ends"]:
            modes[group] = "table"
    return Ways(
        ways.size,
        {side: ways.turned[side] or not _level(building, sketch, edge) for side, edge in walls.items()},
        modes,
        ways.skipped or any(len(shown(sketch, edge)) < len(edge.named) for edge in walls.values()),
        ways.stretched or abs(sketch.along - sketch.across) > 1e-9,
    )


def _fits(sketch: Sketch, side: Side, chain: Sequence[Word], mode: Mode) -> bool:
    """Whether the words of a chain keep inside of their bays and clear of each other."""
    if mode == "table":
        return True
    em = sketch.ways.size
    sizes = [width(w.text, em, fonts.BOLD) if mode == "along" else em * (ABOVE + BELOW) for w in chain]
    places = [abs(sketch.place(side, w.at) - sketch.place(side, 0.0)) for w in chain]
    bays = [abs(sketch.place(side, w.bay) - sketch.place(side, 0.0)) for w in chain]
    inside = all(size <= bay for size, bay in zip(sizes, bays, strict=True) if bay)
    apart = zip(pairwise(sizes), pairwise(places), strict=True)
    return inside and all((a + b) / 2 + AIR <= q - p for (a, b), (p, q) in apart)


# --- names and numbers ----------------------------------------------------------------------------------------------


def frame(plan: Plan) -> float:
    """How wide the frame of a number is, the same for all."""
    return width("0" * max(2, len(str(len(plan.spots)))), NUMBER) + 0.08


def _wide(spot: Spot) -> float:
    return width(spot.name, NAME, fonts.BOLD, fractions=False)


def _level(building: Building, sketch: Sketch, edge: Edge) -> bool:
    """Whether names go side by side along a wall."""
    side = edge.wall.side
    sizes = [max(frame(building.plan), _wide(s)) for s in edge.named]
    places = [sketch.place(side, middle(side, s)) for s in edge.named]
    apart = zip(pairwise(sizes), pairwise(places), strict=True)
    return all((a + b) / 2 + AIR <= abs(q - p) for (a, b), (p, q) in apart)


def shown(sketch: Sketch, edge: Edge) -> list[Spot]:
    """The columns of a wall that are named: all or, where names are turned and still too close, those that keep clear,
    the first and the last of a sidewall always."""
    side = edge.wall.side
    if not sketch.ways.turned[side]:
        return list(edge.named)

    def near(one: Spot, other: Spot) -> bool:
        apart = sketch.place(side, middle(side, one)) - sketch.place(side, middle(side, other))
        return abs(apart) < max(FRAME, NAME * (CAP + BELOW)) + GAP / 3

    corners = [s for s in edge.named if s.role == "corner"]
    found: list[Spot] = []
    for spot in edge.named:
        kept = spot in corners or not any(near(spot, other) for other in [*found[-1:], *corners[1:]])
        found += [spot] if kept else []
    return found


# --- what stands outside of a wall ----------------------------------------------------------------------------------


def _deep(building: Building, edge: Edge, ways: Ways) -> float:
    """What everything outside of a wall takes up, page inches."""
    return overall(building, edge, ways) + RULE + WORDS * (ABOVE + BELOW) + 0.02


def overall(building: Building, edge: Edge, ways: Ways) -> float:
    """Where the line over the whole of a wall begins, beyond its chains."""
    deep, mode = labels(building, edge, ways), ways.modes[GROUP[edge.wall.side]]
    drawn = chains(building.plan, edge.wall.side) if mode != "table" else ()
    return deep + sum(band(words(building, edge, chain), mode, ways.size) for chain in drawn)


def labels(building: Building, edge: Edge, ways: Ways) -> float:
    """Where the chains begin, beyond numbers and names."""
    if ways.turned[edge.wall.side]:
        return NEAR + frame(building.plan) + GAP + max(map(_wide, edge.named), default=0.0) + AIR
    return NEAR + FRAME + GAP + NAME * (CAP + BELOW) + AIR


def band(chain: Sequence[Word], mode: Mode, size: float) -> float:
    """What a chain takes up."""
    if mode == "along":
        return RULE + size * (ABOVE + BELOW) + GAP
    return RULE + max(width(w.text, size, fonts.BOLD) for w in chain) + GAP


def legend(building: Building, ways: Ways, room: float) -> list[str]:
    """The lines under the plan."""
    walls = edges(building.plan)
    drawn = [group for group, mode in ways.modes.items() if mode != "table"]
    said = []
    if drawn:
        said.append(
            "BAYS as they are laid out on the string: the first and the last from the OUTSIDE of the corner column to"
            " the centre of the next, the others centre to centre. RUNNING: from the outside of the corner column at 0"
            " to each centre. Mark by RUNNING, check by BAYS."
        )
        if building.plan.on("right") is None:
            said.append("On the gables the far end of both is the face of the standing wall.")
    sent = [f"wall {e.wall.name}" for side, e in walls.items() if ways.modes[GROUP[side]] == "table"]
    if sent:
        said.append(f"Bays of {', '.join(sent)}: on the sheet STRING LINES.")
    if ways.skipped:
        said.append("A black block without a name is a column too: all are on the sheets READINGS.")
    if ways.stretched:
        said.append("NOT TO SCALE: drawn wider one way than it is.")
    return wrap(" ".join(said), SMALL, fonts.REGULAR, room)
