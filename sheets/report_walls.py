"""Walls as JSON for programs: their boards, openings, lifts, and the nails of the building."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from layouts.amounts import KILOGRAMS
from layouts.boards import Piece, Wall
from layouts.building import Building
from layouts.lengths import show_fine
from layouts.lift import Lift
from layouts.openings import Opening

Shown = Callable[[float], dict[str, Any]]  # a length: its value and its text


def wall(building: Building, index: int, shown: Shown) -> dict[str, Any]:
    """One wall. Places along it are from the left outer corner of its columns, seen from outside."""
    drawn = building.walls[index]
    return {
        "name": drawn.name,
        "columns": list(drawn.line.columns),
        "length": shown(drawn.line.length),
        "pieces": [_piece(piece, shown) for course in drawn.all_courses for piece in course.pieces],
        "uprights": [
            {
                "mark": upright.mark,
                "name": upright.name,
                "board": upright.section.name,
                "layer": upright.layer,
                "length": shown(upright.length),
                "from": shown(upright.left),
                "to": shown(upright.right),
                "low": shown(upright.low),
                "tops": [shown(top) for top in upright.tops],
            }
            for upright in drawn.uprights
        ],
        "rakes": _rakes(drawn, shown),
        "openings": [_opening(opening, shown) for opening in drawn.openings],
        "lift": _lift(building.lifts[index], shown, building.job.style.unit == "mm"),
    }


def _piece(piece: Piece, shown: Shown) -> dict[str, Any]:
    return {
        "mark": piece.mark,
        "row": piece.row.name,
        "board": piece.row.section.name,
        "treated": piece.row.treated,
        "layer": piece.row.layer,
        "length": shown(piece.length),
        "from": shown(min(piece.low[0], piece.high[0])),
        "to": shown(max(piece.low[1], piece.high[1])),
        "low": shown(piece.row.low),
        "high": shown(piece.row.high),
        "back": [shown(back) for back in piece.backs],
    }


def _rakes(drawn: Wall, shown: Shown) -> list[dict[str, Any]]:
    return [
        {
            "mark": rake.mark,
            "board": rake.section.name,
            "length": shown(rake.length),
            "back": shown(rake.back),
            "from": [shown(n) for n in rake.start],
            "to": [shown(n) for n in rake.end],
        }
        for rake in drawn.rakes
    ]


def _opening(opening: Opening, shown: Shown) -> dict[str, Any]:
    return {
        "name": opening.name,
        "kind": opening.part.kind,
        "nominal": [shown(opening.part.width), shown(opening.part.height)],
        "left": shown(opening.left),
        "right": shown(opening.right),
        "low": shown(opening.low),
        "high": shown(opening.high),
        "between": list(opening.columns),
        "cut_out_after_lifting": opening.through,
        "notes": list(opening.notes),
    }


def _lift(lift: Lift, shown: Shown, metric: bool) -> dict[str, Any]:
    """Weights and forces in pounds, or kilograms; estimates."""

    def heavy(pounds: float) -> float:
        return round(pounds * (KILOGRAMS if metric else 1.0), 3)

    return {
        "unit": "kg" if metric else "lb",
        "dry": heavy(lift.dry.pounds),
        "wet": heavy(lift.wet.pounds),
        "centre_along": shown(lift.wet.along),
        "centre_up": shown(lift.wet.up),
        "hold": shown(lift.hold),
        "first_lift": heavy(lift.force),
        "people": lift.realistic,
        "machine": bool(lift.machine),
        "picks": [pick.name for pick in lift.picks or ()],
        "clear_zone": shown(lift.zone),
        "face_up": "inside" if lift.lie.mirrored else "outside",
    }


def nails(building: Building, shown: Shown) -> list[dict[str, Any]]:
    """Nails to order, by the schedule; none where it is empty. A diameter as fine as it was given."""
    style = building.job.style
    return [
        {
            "length": shown(bought.nail.length),
            "diameter": {**shown(bought.nail.diameter), "text": show_fine(bought.nail.diameter, style)},
            "shank": bought.nail.shank,
            "coat": bought.nail.coat,
            "driven": bought.count,
            "order": bought.order,
            "joints": list(bought.joints),
        }
        for bought in building.nails
    ]
