"""The plan from above, for the index: columns by name, walls, and which way the front faces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

import fonts
from layouts.building import Building
from layouts.plan import SIDES, Plan, Side, Spot
from sheets.lettering import Align, Turn, pt, width, write
from sheets.shapes import HAIR, MEDIUM, Drawing, Recorder
from sheets.wrapping import wrap

WIDE, TALL = 7.0, 3.4  # the whole drawing, inches
NAME, WORDS = pt(10), pt(10)
LINE = 0.165  # from line to line
BLOCK = 0.045  # half a column's block
NEAR = 0.1  # from a column's middle to its name
STANDING = 0.09  # how deep the standing wall of a lean-to is drawn


class Frame(Struct, frozen=True):
    """The building on the drawing: its left lower corner, its size, inches to an inch, and the room that names take up
    on its four sides."""

    x0: float
    y0: float
    wide: float
    tall: float
    scale: float
    names: dict[Side, float]


def plan_drawing(building: Building) -> Drawing:
    """The plan with the eaves lying across, wall A at the top."""
    plan = building.plan
    faces = building.job.building.front_faces
    front = [f"FRONT, wall {plan.front.name}", *([f"faces {faces}"] if faces else [])]
    right = plan.on("right")
    words: dict[Side, list[str]] = {
        "left": [f"LEFT, wall {plan.walls[0].name}"],
        "back": [f"BACK, wall {plan.walls[1].name}"],
        "right": [f"RIGHT, wall {right.name}" if right else "RIGHT: THE STANDING WALL"],
        "front": [part for line in front for part in wrap(line, WORDS, fonts.REGULAR, TALL * 0.7)],
    }
    members = _members(plan)
    f = _frame(plan, members, words)
    pen = Recorder(WIDE, TALL)
    pen.begin("plan", "plan from above")
    x1, y1 = f.x0 + f.wide, f.y0 + f.tall
    pen.box(f.x0, f.y0, x1, y1, None, HAIR)
    pen.stroke(f.x0, f.y0, x1, y1, HAIR, (0.1, 0.06))
    if right is None:
        hatch(pen, f.x0, x1, f.y0, STANDING)
    for side, spots in members.items():
        _columns(pen, f, side, spots)
        _words(pen, f, side, words[side])
    pen.end()
    return pen.drawing()


def hatch(pen: Recorder, x0: float, x1: float, y: float, deep: float) -> None:
    """The wall that a lean-to leans against: a hatched band under *y*."""
    pen.begin("standing-wall", "the standing wall")
    pen.box(x0, y - deep, x1, y, None, MEDIUM)
    for i in range(int((x1 - x0) / deep)):
        pen.stroke(x0 + i * deep, y - deep, x0 + (i + 1) * deep, y, HAIR)
    pen.end()


def _members(plan: Plan) -> dict[Side, list[Spot]]:
    """The columns of each wall; corners go with the sidewalls."""
    sides: dict[str, Side] = {}
    for wall in sorted(plan.walls, key=lambda w: not w.gable):
        sides.update(dict.fromkeys(wall.columns, wall.side))
    return {side: [s for s in plan.spots if sides[s.name] == side] for side in SIDES}


def _along(side: Side, spot: Spot) -> float:
    """Where a column stands along its wall on the drawing: eaves to the right, gable down."""
    return (spot.v0 + spot.v1) / 2 if side in ("left", "right") else (spot.u0 + spot.u1) / 2


def _turned(spots: Sequence[Spot], step: float) -> bool:
    """Whether names along an eave must stand on their heads' side to keep clear of each other."""
    return any(width(s.name, NAME, fonts.BOLD, fractions=False) + 0.06 > step for s in spots)


def _step(side: Side, spots: Sequence[Spot], scale: float) -> float:
    """The closest two columns of a wall stand on the drawing, inches."""
    places = sorted(_along(side, s) for s in spots)
    return min((b - a for a, b in pairwise(places)), default=math.inf) * scale


def _frame(plan: Plan, members: dict[Side, list[Spot]], words: dict[Side, list[str]]) -> Frame:
    """As large as the names and words round the building leave room for."""
    longest = {
        side: max((width(s.name, NAME, fonts.BOLD, fractions=False) for s in spots), default=0.0)
        for side, spots in members.items()
    }
    # names stand level beside the gables; over the eaves they may have to be turned, which takes as much
    names = {side: NEAR + longest[side] for side in members}
    if not members["right"]:
        names["right"] = STANDING
    for side in ("left", "right"):
        room = (WIDE - names["front"] - names["back"] - 4 * LINE) / plan.along
        scale = min(room, TALL * 0.6 / plan.across)
        if members[side] and not _turned(members[side], _step(side, members[side], scale)):
            names[side] = NEAR + NAME
    around = {side: names[side] + LINE * (len(words[side]) + 0.5) for side in members}
    scale = min(
        (WIDE - around["front"] - around["back"]) / plan.along, (TALL - around["left"] - around["right"]) / plan.across
    )
    wide, tall = plan.along * scale, plan.across * scale
    x0 = around["front"] + (WIDE - around["front"] - around["back"] - wide) / 2
    y0 = around["right"] + (TALL - around["left"] - around["right"] - tall) / 2
    return Frame(x0, y0, wide, tall, scale, names)


def _columns(pen: Recorder, f: Frame, side: Side, spots: Sequence[Spot]) -> None:
    """Columns as blocks, names outside of the building; where there are too many only every so manieth is named."""
    level = side in ("front", "back")
    step = _step(side, spots, f.scale)
    turn: Turn = 90 if not level and _turned(spots, step) else 0
    every = math.ceil((NAME * 0.95) / step - 1e-9) if turn or level else 1
    ordered = sorted(spots, key=lambda s: _along(side, s))
    for i, spot in enumerate(ordered):
        x = f.x0 + (spot.v0 + spot.v1) / 2 * f.scale
        y = f.y0 + f.tall - (spot.u0 + spot.u1) / 2 * f.scale
        pen.box(x - BLOCK, y - BLOCK, x + BLOCK, y + BLOCK, 0.0, 0.0)
        last = len(ordered) - 1
        if i == last or (i % every == 0 and last - i >= every):
            _name(pen, side, spot.name, x, y, turn)


def _name(pen: Recorder, side: Side, name: str, x: float, y: float, turn: Turn) -> None:
    half = NAME * 0.35
    places: dict[Side, tuple[float, float, Align]] = {
        "front": (x - NEAR, y - half, "right"),
        "back": (x + NEAR, y - half, "left"),
        "left": (x + half, y + NEAR, "left") if turn else (x, y + NEAR, "center"),
        "right": (x + half, y - NEAR, "right") if turn else (x, y - NEAR - 2 * half, "center"),
    }
    px, py, align = places[side]
    write(pen, px, py, name, NAME, fonts.BOLD, align, turn, fractions=False)


def _words(pen: Recorder, f: Frame, side: Side, lines: Sequence[str]) -> None:
    """The name of a wall, beyond those of its columns."""
    x, y = f.x0 + f.wide / 2, f.y0 + f.tall / 2
    count = len(lines)
    for i, line in enumerate(lines):
        beyond = f.names[side] + LINE * 0.3
        if side == "left":
            write(pen, x, f.y0 + f.tall + beyond + (count - 1 - i) * LINE, line, WORDS, align="center")
        elif side == "right":
            write(pen, x, f.y0 - beyond - WORDS * 0.75 - i * LINE, line, WORDS, align="center")
        elif side == "front":
            write(pen, f.x0 - beyond - (count - 1 - i) * LINE, y, line, WORDS, align="center", turn=90)
        else:
            write(pen, f.x0 + f.wide + beyond + WORDS * 0.75 + i * LINE, y, line, WORDS, align="center", turn=90)
