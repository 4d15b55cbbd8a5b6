"""What the picture of a wall shows of its lift: the centre of gravity, where to pick it, which way its top goes."""

from __future__ import annotations

import math

import fonts
from layouts import bodies
from layouts.boards import Wall
from layouts.lift import Lift, Pick
from sheets.lettering import fit, pt, write
from sheets.shapes import MEDIUM, THICK, Recorder
from sheets.taken import Taken
from sheets.view import View

SIDE = 0.36  # what the arrow takes up beside the wall
RADIUS = 0.075
HEAD = 0.13  # of the arrow
SIZE = pt(9)


def marks(pen: Recorder, view: View, wall: Wall, lift: Lift, taken: Taken) -> None:
    """The wet centre of gravity as a ringed cross, and brackets beside the columns to pick by, where the sling goes."""
    along = _place(wall, lift, lift.wet.along)
    if view.low <= along <= view.high:
        _centre(pen, *view.at(along, lift.wet.up), taken)
    for pick in lift.picks or ():
        stand = next(s for s in wall.stands if s.name == pick.name)
        if view.low <= stand.left and stand.right <= view.high:
            foot = bodies.bottom(wall, stand)
            _pick(pen, view, pick, (stand.left, stand.right), foot, taken)


def _place(wall: Wall, lift: Lift, along: float) -> float:
    """A place of the lift on the wall as it is drawn."""
    return wall.line.length - along if lift.lie.mirrored else along


def _centre(pen: Recorder, x: float, y: float, taken: Taken) -> None:
    pen.begin("centre-of-gravity", "centre of gravity")
    ring = [(x + RADIUS * math.cos(a * math.pi / 8), y + RADIUS * math.sin(a * math.pi / 8)) for a in range(16)]
    pen.shape(ring, 1.0, MEDIUM)
    pen.stroke(x - RADIUS, y, x + RADIUS, y, MEDIUM)
    pen.stroke(x, y - RADIUS, x, y + RADIUS, MEDIUM)
    pen.end()
    taken.take((x - RADIUS, y - RADIUS, x + RADIUS, y + RADIUS))
    _beside(pen, taken, (x - RADIUS - 0.04, x + RADIUS + 0.04), y, "CG")


def _beside(pen: Recorder, taken: Taken, sides: tuple[float, float], y: float, words: str) -> None:
    """Words to the right of a mark, or to its left where there is no room."""
    base = y - SIZE * 0.35
    if not taken.write(pen, sides[1], base, words, SIZE, "left"):
        taken.write(pen, sides[0], base, words, SIZE, "right")


def _pick(pen: Recorder, view: View, pick: Pick, sides: tuple[float, float], foot: float, taken: Taken) -> None:
    """Thick strokes on both sides of a column over the height where the sling goes."""
    x0, y0 = view.at(sides[0], foot + pick.low)
    x1, y1 = view.at(sides[1], foot + pick.high)
    pen.begin(f"pick-{pick.name}", f"pick {pick.name}")
    for x in (x0 - 0.035, x1 + 0.035):
        pen.stroke(x, y0, x, y1, THICK)
    pen.end()
    taken.take((x0 - 0.05, y0, x1 + 0.05, y1))
    _beside(pen, taken, (x0 - 0.07, x1 + 0.07), (y0 + y1) / 2, "PICK")


def arrow(pen: Recorder, x1: float, low: float, high: float, words: str) -> None:
    """An arrow from the wall's foot to its top along the right side of the picture, its words beside it reading up."""
    x = x1 - HEAD / 2
    pen.begin("to-the-top", words)
    pen.stroke(x, low, x, high - HEAD, THICK)
    pen.shape([(x - HEAD / 2, high - HEAD * 1.2), (x + HEAD / 2, high - HEAD * 1.2), (x, high)], 0.0, 0.0)
    size = fit(words, pt(13), fonts.BOLD, high - low)
    write(pen, x - 0.09, (low + high) / 2, words, size, fonts.BOLD, "center", 90)
    pen.end()
