"""The roof as JSON for programs."""

from __future__ import annotations

from typing import Any

from layouts import purlins
from layouts.building import Building
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
                "lookouts": [shown(at) for at in one.lookouts],
            }
            for one in purlins.slopes(job, building.roof)
        ],
        "trusses": [shown(at) for at in purlins.trusses(job, building.plan)],
    }
