"""The roof, and the sheets on it and on the walls, as JSON for programs."""

from __future__ import annotations

from typing import Any

from layouts import purlins, templates
from layouts.building import Building
from layouts.sheeting import order
from sheets.report_walls import Shown


def roof(building: Building, shown: Shown) -> dict[str, Any]:
    """Slopes with their purlins and lookouts, and the trusses' front faces from the front end of the columns."""
    job = building.job
    return {
        "slopes": [
            {
                "side": one.side,
                "tail": shown(one.tail),
                "run": shown(one.run),
                "length": shown(one.length),
                "slide": shown(one.slide),
                "purlins": [shown(at) for at in one.purlins],
                "last_at_top": shown(purlins.last_at_top(job, building.roof, one)),
                "lookouts": [shown(at) for at in one.lookouts],
                "lookout_deep": shown(purlins.lookout_deep(job, one)) if one.lookouts else None,
            }
            for one in purlins.slopes(job, building.roof)
        ],
        "trusses": [shown(at) for at in purlins.trusses(job, building.plan)],
    }


def patterns(building: Building, shown: Shown) -> list[dict[str, Any]]:
    """Every pattern at full scale: whom it is for, its numbers, and its cuts as points across and up its board."""
    return [
        {
            "key": one.key,
            "title": one.title,
            "for": list(one.whom),
            "figures": [
                {"name": f.name, "length": shown(f.inches), "on": None if f.on is None else shown(f.on)}
                for f in one.figures
            ],
            "cuts": [[[shown(x), shown(y)] for x, y in path] for path in one.cuts],
        }
        for one in templates.lay(building.job, building.plan, building.roof, building.rows)
    ]


def cladding(building: Building, shown: Shown) -> dict[str, Any] | None:
    """Every wall and slope with its sheets, and what to order; ``None`` where the job says nothing of sheets."""
    if not building.cladding:
        return None
    faces = [
        {
            "name": face.name,
            "begin": face.begin,
            "cover": shown(face.cover),
            "laps": [{"middle": shown(at), "over": over} for at, over in face.laps],
            "sheets": [
                {
                    "name": one.name,
                    "kind": one.kind,
                    "where": one.where,
                    "left": shown(one.left),
                    "right": shown(one.right),
                    "low": shown(one.low),
                    "edges": [shown(edge) for edge in one.edges],
                    "length": shown(one.length),
                    "order": shown(one.order),
                }
                for one in face.sheets
            ],
        }
        for face in building.cladding
    ]
    listed = order(building.cladding)
    return {
        "faces": faces,
        "order": [{"kind": kind, "length": shown(long), "count": count} for kind, long, count in listed],
    }
