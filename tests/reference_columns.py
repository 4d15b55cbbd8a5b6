"""The second opinion on columns: names, cuts, offsets, lengths and what to buy; units and signs as in `reference`.

From the geometry page (words, sidewall column, endwall column) and the README's fields grade, column and tops.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from reference import ZERO, Given, Plan, Plane, Roof, Surface, height, kink, lifted, plumb

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # the geometry page: no letters O and I in column names


def sidewall_cuts(job: Given, plan: Plan, roof: Roof, far: bool) -> dict[str, Fraction]:
    """Bearing; short and long point, at the outer and the inner face, long − short = depth·m."""
    bearing = roof.bearings[far]
    if job["tops.seat"] == "flat":
        return {"bearing": bearing}
    surface = roof.top if job["tops.sidewall_ears"] == "roof" else roof.chord
    faces = (plan.across, plan.across - job["column.depth"]) if far else (ZERO, job["column.depth"])
    ends = sorted(height(surface, u) - job["tops.clearance"] for u in faces)
    return {"bearing": bearing, "short_point": ends[0], "long_point": ends[1]}


def end_surface(job: Given, plan: Plan, roof: Roof, to: str) -> Surface:
    """What the plies of an endwall column run to (README tops.endwall_ears, truss.endwall_drop)."""
    low, high = roof.bearings
    chord = lifted(roof.chord, lambda m: -job["truss.endwall_drop"])
    if to == "roof":
        return roof.top
    if to == "bearing":
        return (Plane(low, (high - low) / plan.across),)
    return chord if to == "chord" else lifted(chord, lambda m: -plumb(job["truss.top_chord"].wide, m))


def edges(surface: Surface, at: Fraction, wide: Fraction, less: Fraction, prefix: str) -> dict[str, Fraction]:
    """Heights at the low and high edge, ± width/2 · m; at the ridge a double cut. *wide* is minus from behind.

    Left and right are as seen from outside (README cladding.start, opening.bay: all of a wall is).
    """
    left, right = (height(surface, at + s * wide / 2) - less for s in (-1, 1))
    wide = abs(wide)
    ridge = kink(surface)
    if ridge is not None and abs(ridge - at) < wide / 2:
        sides = {"edges": left} if left == right else {"left_edge": left, "right_edge": right}
        found = {**sides, "ridge": height(surface, ridge) - less}
    elif left == right:
        found = {"level": left}
    else:
        found = {"low_edge": min(left, right), "high_edge": max(left, right)}
    return {prefix + k: v for k, v in found.items()}


def endwall_cuts(job: Given, plan: Plan, roof: Roof, at: Fraction, back: bool) -> dict[str, Fraction]:
    """Ears, less the clearance, and a centre ply with a top of its own, which has none (README tops.clearance)."""
    face, ears, centre = job["column.endwall_face"], job["tops.endwall_ears"], job["tops.endwall_centre"]
    wide = job[f"column.{face}"] * (-1 if back else 1)
    found = edges(end_surface(job, plan, roof, ears), at, wide, job["tops.clearance"], "")
    if centre not in ("ears", ears):
        inner = Fraction(job["column.plies"] - 2, job["column.plies"]) if face == "width" else 1
        found |= edges(end_surface(job, plan, roof, centre), at, wide * inner, ZERO, "centre_")
    return found


def toward(job: Given, plan: Plan, name: str) -> tuple[str, str]:
    """What stands beside an endwall column: toward wall A, and away from it."""
    every = names(job, plan)
    wall = every[name][0]
    corner = 0 if wall == "front" else len(plan.side) + 1
    ends = {key: u for key, (kind, u) in every.items() if kind == wall}
    for kind in ("left", "right"):
        ends |= dict([(key, u) for key, (found, u) in every.items() if found == kind][corner : corner + 1])
    row = [*sorted(ends, key=lambda key: ends[key]), "the standing wall"]
    return row[row.index(name) - 1], row[row.index(name) + 1]


def where(job: Given, plan: Plan, roof: Roof, name: str) -> dict[str, str]:
    """Which face or edge a sloped cut's heights are at: outside or inside, toward which column."""
    wall, u = names(job, plan)[name]
    if wall in ("left", "right"):
        falls = roof.slope(wall == "right") < 0
        faces = ("inside face", "outside face") if falls else ("outside face", "inside face")
        return dict(zip(("short_point", "long_point"), faces, strict=True))
    low, high = (f"toward {beside}" for beside in toward(job, plan, name))
    found = {"left_edge": low, "right_edge": high} if wall == "front" else {"left_edge": high, "right_edge": low}
    out: dict[str, str] = {}
    for key, to in (("", job["tops.endwall_ears"]), ("centre_", job["tops.endwall_centre"])):
        surface = end_surface(job, plan, roof, to if to != "ears" else job["tops.endwall_ears"])
        rises = height(surface, u + 1) > height(surface, u - 1)
        out |= {key + edge: side for edge, side in found.items()}
        out |= {key + "low_edge": low if rises else high, key + "high_edge": high if rises else low}
    return out


def names(job: Given, plan: Plan) -> dict[str, tuple[str, Fraction]]:
    """Grid names: letters across the gable, shared by both endwalls; numbers along the eaves. Its wall, and u."""
    last = len(plan.side) + 2
    places = sorted({*plan.ends[0], *plan.ends[1]})
    letter = {u: LETTERS[1 + i] for i, u in enumerate(places)}
    found = {f"A{k}": ("left", ZERO) for k in range(1, last + 1)}
    if job["roof.shape"] != "lean-to":
        found |= {f"{LETTERS[len(places) + 1]}{k}": ("right", plan.across) for k in range(1, last + 1)}
    for kind, end, number in (("front", plan.ends[0], 1), ("back", plan.ends[1], last)):
        found |= {f"{letter[u]}{number}": (kind, u) for u in end}
    return found


def stations(job: Given, plan: Plan, roof: Roof) -> dict[str, tuple[str, dict[str, Fraction]]]:
    """Every column's wall, and its cuts above the grade line."""
    out = {}
    for name, (wall, u) in names(job, plan).items():
        side = wall in ("left", "right")
        cuts = (
            sidewall_cuts(job, plan, roof, wall == "right")
            if side
            else endwall_cuts(job, plan, roof, u, wall == "back")
        )
        out[name] = wall, cuts
    return out


def line_reading(job: Given, down: Iterable[Fraction]) -> Fraction:
    """Given; or chosen: the least offset wanted at the highest seat, on whole steps of the rod (README grade.line).

    Readings and line are told down from the beam, an upward rod's with a minus.
    """
    highest = min(down)
    if job["grade.line"] != "choose":
        return Fraction(abs(job["grade.line"]) * (-1 if highest < 0 else 1))
    step: Fraction = job["grade.round"]
    least: Fraction = job["grade.least"]
    return floor((highest - least) / step) * step


@dataclass(frozen=True)
class Stood:
    """A column as it stands: offset, cuts and length from its bottom end, what to buy, and what is done to it."""

    offset: Fraction
    cuts: dict[str, Fraction]
    length: Fraction
    stock: Fraction | None
    cut_off: Fraction = ZERO
    packing: Fraction = ZERO
    block: Fraction = ZERO


def stood(job: Given, kind: str, cuts: dict[str, Fraction], offset: Fraction) -> Stood | None:
    """Cut at the top: mark = offset + station. With its top made (README column.trims, notch, ears, centre_ply): so
    much is cut off its bottom, or it stands on so much packing, or takes such a seat block; or it is too long, nothing.
    """
    if job["column.trims"] == "top" or kind in ("front", "back"):
        marks = {key: offset + station for key, station in cuts.items()}
        return Stood(offset, marks, max(marks.values()), stock(job, max(marks.values())))
    bearing, ears = offset + cuts["bearing"], job["column.ears"]
    if "column.centre_ply" in job:
        whole = job["column.centre_ply"] + ears
        block = bearing - job["column.centre_ply"]
        return Stood(offset, {"bearing": bearing}, whole, whole, block=block) if 0 < block <= ears else None
    notch = job["column.notch"]
    too_long, short = max(ZERO, notch - bearing), max(ZERO, bearing - notch)
    if too_long and job["column.trims"] == "none":
        return None
    made = {"bearing": bearing - short}
    return Stood(offset - short, made, made["bearing"] + ears, notch + ears, cut_off=too_long, packing=short)


def stock(job: Given, length: Fraction) -> Fraction | None:
    """The shortest the yard has, with the trim (README column.trim)."""
    return min((s for s in job["column.stock"] if s >= length + job["column.trim"]), default=None)
