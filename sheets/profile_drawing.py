"""The profile of the seats: the walk round the building unrolled, the grade line level, every seat as a block at its
true height below it, heights drawn larger than lengths.

Left to right is walking order, so walls are seen as from inside. A strip shows whole walls; names that stand too close
are turned up the page and moved apart, with a line from each to its block.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

import fonts
from layouts.building import Building
from layouts.lengths import Unit, show
from layouts.piers import Kind
from layouts.plan import SIDES, Plan, Spot
from layouts.readings import taken
from sheets.lettering import width
from sheets.profile_labels import NAME, OFFSET, Label, Mark
from sheets.profile_strip import BAND, BREAK, LEFT, RIGHT, STUB, Heights, Level, Stand, Strip, draw
from sheets.shapes import Drawing

ABOVE, BELOW = 1.25, 1.5  # inches of paper over and under the grade line
TURNED = 0.27  # from label to label where they stand up the page
APART = 0.12  # a label that lies level may be moved so far from its block
FEW = 2.0  # how many times smaller the picture may get for the floor to be in it
AIR = 0.08
CLEAR = 0.05  # from what is drawn true to what was left out
LEAST = 0.25  # inches of paper over the line that are true, whatever stands there
GAP = 0.1  # from strip to strip
LOWEST = 0.5  # share of the usual paper that heights get at the least
FAR = 0.24  # from what was left out, and from level to level over it

LENGTHS = {
    "in": [12.0 * n for n in (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 20, 24, 30, 36, 40, 50, 60, 80, 100, 150, 200)],
    "mm": [20.0, 25, 50, 75, 100, 150, 200, 250, 300, 400, 500, 600, 800, 1000, 1500, 2000, 3000, 6000],
}
TALL = [1.0, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 25, 30, 40, 50, 60, 75, 80, 100, 120, 150, 200, 240, 300, 400, 600]

OUT: dict[Kind, str] = {
    "below": "SEAT ABOVE THE LINE",
    "high": "TOO HIGH",
    "low": "TOO LOW",
    "stock": "STOCK TOO SHORT",
    "notch": "TOO HIGH FOR ITS TOP",
    "block": "PACKING TOO THICK",
    "centre ply": "PLY TOO LONG",
    "end": "END TOO NEAR THE FLOOR",
}


class Picture(Struct, frozen=True):
    """The whole profile: its *strips*, lengths drawn 1:*along* and heights 1:*tall*; *broken* where the board or
    the floor is not at its height, *cut* where a seat is not."""

    strips: tuple[Drawing, ...]
    along: float
    tall: float
    broken: bool
    cut: bool

    @property
    def exaggeration(self) -> float:
        """How many times larger heights are drawn than lengths."""
        return self.along / self.tall

    @property
    def words(self) -> str:
        """The scales, as printed."""
        times = self.exaggeration
        how = "AS LENGTHS ARE" if times == 1 else f"{times:g} TIMES TOO TALL" if times > 1 else "SMALLER THAN LENGTHS"
        full = "at full size" if self.tall == 1 else f"1:{self.tall:g}"
        return (
            f"HEIGHTS ARE DRAWN {how}: lengths along the walk 1:{self.along:g}, heights {full}, scale bar at right of "
            f"each strip.{' Above the zigzag nothing is to scale.' if self.broken else ''}"
            f"{' The seat of a jagged block is off the picture.' if self.cut else ''}"
        )


def flags(building: Building, name: str) -> tuple[str, ...]:
    """What is to be known of a seat before its column is cut, in words; read on the drawing and in the table."""
    grade = building.grade
    if name in grade.unread:
        return ("NOT READ",)
    again = ("STANDS OUT", "SHOOT AGAIN") if name in grade.wild else ("SHOOT AGAIN",)
    out = [OUT[p.kind] for p in building.piers if p.name == name]
    tag = () if any(c.name == name for c in building.columns) else ("NO TAG",)
    return (*(again if name in grade.again else ()), *out, *tag)


def _marks(building: Building, name: str) -> tuple[Mark, ...]:
    grade = building.grade
    again: tuple[Mark, ...] = ("wild",) if name in grade.wild else ("again",)
    return (*(again if name in grade.again else ()), *(("out",) if any(p.name == name for p in building.piers) else ()))


def extremes(building: Building) -> tuple[list[str], list[str]]:
    """The highest and the lowest seats by name, all that read alike; none where all do."""
    offsets = building.grade.offsets
    high, low = min(offsets.values()), max(offsets.values())
    if low - high < 1e-9:
        return [], []
    return [n for n, v in offsets.items() if v - high < 1e-9], [n for n, v in offsets.items() if low - v < 1e-9]


def picture(building: Building, wide: float, tall: float, rest: float) -> Picture:
    """The profile of *building*, at least one seat read, in strips *wide* inches across; lower than usual where that
    brings the first one into the *rest* of a page, and of three and more two on a page *tall* inches high."""
    stands = walk(building)
    step = {level: _step(stands, level) for level in (True, False)}
    runs, level, along = _runs(stands, step, wide, building.job.style.unit)
    walls = _walls(building.plan, stands)
    strips = [_strip(stands, run, walls, level, step[level], along) for run in runs]
    share = _share(strips, wide, tall, rest)
    heights = _heights(building, along, share)
    drawn = tuple(draw(strip, heights, wide, building.job.style) for strip in strips)
    cut = any(s.depth is not None and not heights.holds(s.depth) for s in stands)
    return Picture(drawn, along, heights.tall, heights.broken, cut)


# --- the walk -------------------------------------------------------------------------------------------------------


def walk(building: Building) -> list[Stand]:
    """Every column in walking order with its way along the walk, inches, and the first one again at the end."""
    plan, style, grade = building.plan, building.job.style, building.grade
    high, low = extremes(building)
    # a lean-to's endwalls end at the standing wall
    what = "seat below" if any(c.fit.packing for c in building.columns) else "offset"
    standing = set() if plan.on("right") else {plan.walls[1].columns[0], plan.front.columns[-1]}
    found: list[Stand] = []
    for spot in (*plan.spots, plan.spots[0]):
        name = spot.name
        plain = ["CORNER"] if spot.role == "corner" else []
        plain += ["HIGHEST"] if name in high else ["LOWEST"] if name in low else []
        depth = grade.offsets.get(name)
        label = Label(
            name,
            "–" if depth is None else show(depth, style),
            flags(building, name),
            _marks(building, name),
            tuple(plain),
            what,
        )
        at = _at(plan, spot) if len(found) < len(plan.spots) else 2 * (plan.along + plan.across)
        found.append(Stand(spot.grid, at, depth, spot.role == "corner" or name in standing, label))
    return found


def _at(plan: Plan, spot: Spot) -> float:
    """Inches along the outside of the columns from the first corner: corners at their outer corner, the others at
    their centre."""
    u, v = (spot.u0 + spot.u1) / 2, (spot.v0 + spot.v1) / 2
    if spot.role == "corner":
        u, v = (plan.across if u > plan.across / 2 else 0.0), (plan.along if v > plan.along / 2 else 0.0)
    side = next(w.side for w in plan.walls if spot.name in w.columns)
    # corners are the sidewalls' here; the back corner of wall A comes to the same either way
    if side == "left":
        return v
    if spot.role != "end":
        return 2 * plan.along + plan.across - v
    return plan.along + u if side == "back" else 2 * (plan.along + plan.across) - u


def _walls(plan: Plan, stands: Sequence[Stand]) -> list[tuple[str, float, float]]:
    """The four walls, each with where it begins and ends on the walk; one may be the standing wall of a lean-to."""
    corners = [s.at for s in stands if s.corner]
    walls = [plan.on(side) for side in SIDES]
    names = [f"WALL {w.name}, {w.side}" if w else "THE STANDING WALL" for w in walls]
    return [(name, a, b) for name, (a, b) in zip(names, pairwise(corners), strict=True)]


Run = tuple[int, int]  # the first and the last column of a strip


def _runs(stands: Sequence[Stand], step: dict[bool, float], wide: float, unit: Unit) -> tuple[list[Run], bool, float]:
    """The strips, whether their labels lie level, and the scale of lengths: all walls on one strip, two, or one, else
    parts of a wall."""
    corners = [i for i, s in enumerate(stands) if s.corner]
    ways = [[(corners[i], corners[i + n]) for i in range(0, 4, n)] for n in (4, 2, 1)]
    for level in (True, False):
        for runs in ways if level else ways[1:]:
            along = _scale(stands, runs, step[level], wide, unit)
            if all(_fits(_strip(stands, run, [], level, step[level], along), wide) for run in runs):
                return runs, level, along
    most = max(2, int((wide - LEFT - RIGHT) / TURNED))
    runs = [part for run in ways[2] for part in _parts(run, most)]
    return runs, False, _scale(stands, runs, TURNED, wide, unit)


def _parts(run: Run, most: int) -> list[Run]:
    """A wall in parts of at most *most* columns, the last one of a part again the first of the next."""
    a, b = run
    count = -(-(b - a) // (most - 1))
    return list(pairwise(a + (b - a) * i // count for i in range(count + 1)))


def _scale(stands: Sequence[Stand], runs: Sequence[Run], step: float, wide: float, unit: Unit) -> float:
    """How many times smaller lengths are drawn for the longest strip to fit."""
    least = max(stands[b].at - stands[a].at for a, b in runs) / (wide - LEFT - RIGHT - step)
    return next((n for n in LENGTHS[unit] if n >= least), math.ceil(least))


def _fits(strip: Strip, wide: float) -> bool:
    """Whether the labels of a strip find room; level ones near their blocks."""
    if strip.step * len(strip.stands) > wide - LEFT - RIGHT:
        return False
    apart = zip(strip.places, strip.labels(wide), strict=True)
    return not strip.level or all(abs(a - b) <= APART for a, b in apart)


def _step(stands: Sequence[Stand], level: bool) -> float:
    """From label to label."""
    if not level:
        return TURNED
    labels = [s.label for s in stands]
    names = [width(v.name, NAME, fonts.BOLD, fractions=False) for v in labels]
    return max(*names, *(width(v.offset, OFFSET, fonts.BOLD) for v in labels)) + AIR


def _strip(
    stands: Sequence[Stand],
    run: Run,
    walls: Sequence[tuple[str, float, float]],
    level: bool,
    step: float,
    along: float,
) -> Strip:
    """The strip of a run, with as much of each wall as lies on it."""
    some = stands[run[0] : run[1] + 1]
    start, end = some[0].at, some[-1].at
    on = [(n if a >= start - 1e-6 else f"{n}, on", max(a, start), min(b, end)) for n, a, b in walls]
    return Strip(tuple(some), tuple(w for w in on if w[2] - w[1] > 1e-6), level, step, along)


def _share(strips: Sequence[Strip], wide: float, tall: float, rest: float) -> float:
    """How much of the usual paper the heights of these strips get."""

    def lowered(strip: Strip, room: float) -> float:
        return (room - strip.rows(wide).tall - BAND - STUB - BREAK - 2 * FAR) / (ABOVE + BELOW)

    shares = [1.0, lowered(strips[0], rest)]
    if len(strips) > 2:
        shares.append(min(lowered(strip, (tall - GAP) / 2) for strip in strips))
    return min(share for share in shares if share >= LOWEST)


# --- heights --------------------------------------------------------------------------------------------------------


def _heights(building: Building, along: float, share: float) -> Heights:
    """As large as the seats leave room for, so that the floor goes in too if that costs little, on a *share* of the
    usual paper. Of seats that stand out so far that the others would lie flat, only the foot or the top is drawn."""
    job, grade = building.job, building.grade
    offsets = list(grade.offsets.values())
    calm = [v for n, v in grade.offsets.items() if n not in grade.wild] or offsets
    tall = _tall(offsets, along, share)
    if tall > FEW * _tall(calm, along, share):
        tall, offsets = _tall(calm, along, share), calm
    seats = max(0.0, -min(offsets)), max(0.0, max(offsets))
    floor = job.grade.floor
    larger = _tall([*offsets, -floor], along, share)
    tall = larger if larger <= FEW * tall else tall
    board = job.grade.boards * job.grade.board.wide
    levels = {h: h / tall for h in sorted({board, floor})}
    true = max(seats[0] / tall, LEAST, *(y for y in levels.values() if y <= ABOVE * share + 1e-9))
    at = true + CLEAR + BREAK
    drawn = {h: y if y <= true + 1e-9 else (at := at + FAR) for h, y in levels.items()}
    return Heights(
        tall,
        true + (CLEAR if drawn != levels else 0.0),
        seats[1] / tall,
        ("GRADE LINE", _reads(building)),
        Level(("TOP OF BOARD", _board(building, board)), board, drawn[board]),
        Level(("FINISHED FLOOR", f"{show(floor, job.style)} up"), floor, drawn[floor]) if floor > 0 else None,
    )


def _tall(depths: Sequence[float], along: float, share: float) -> float:
    """How many times smaller heights are drawn for all *depths* under the line to go in."""
    least = max(-min(depths) / ABOVE, max(depths) / BELOW) / share
    even = (t for t in TALL if t >= least - 1e-9 and (along % t == 0 or t % along == 0))
    return next(even, float(math.ceil(max(least, 1.0))))


def _reads(building: Building) -> str:
    line = building.grade.line
    if building.job.grade.floor <= 0 or line is None:
        return "and finished floor"
    return f"reads {taken(building.readings, line, building.job.style)}"


def _board(building: Building, tall: float) -> str:
    count, board = building.job.grade.boards, building.job.grade.board.name
    return f"{f'{count} of ' if count > 1 else ''}{board}: {show(tall, building.job.style)}"
