"""Carriers: boards from column to column with their tops at the bearing, and the trusses that stand on them.

Each board beside another one is a row of its own, so that none breaks on the column where its neighbour does. The
trusses of both endwalls stand flush with the outside of the columns, the others in equal spaces between their front
faces (common practice, no source: the plan rules).
"""

from __future__ import annotations

import math
from typing import Literal

from msgspec.structs import replace

from layouts import seats
from layouts.fields import Job
from layouts.plan import Plan
from layouts.row import Layer, Row

FIRST = "Carrier"


def rows(job: Job, bearing: float) -> tuple[Row, ...]:
    """Every board of the carriers on one sidewall, from the outside in; none where trusses stand on columns."""
    part = job.carrier
    if part.board is None:
        return ()
    faces: tuple[Layer, ...] = ("outside", "inside") if part.where == "both" else (part.where,)
    found = []
    for face in faces:
        for number in range(1, part.boards + 1):
            words = (FIRST, face * (part.where == "both"), str(number) * (part.boards > 1))
            name = " ".join(word for word in words if word)
            found.append(Row("carrier", name, part.board, bearing - part.board.wide, bearing, layer=face))
    return tuple(found)


def mark(job: Job, bearing: float) -> tuple[Row, ...]:
    """The carriers as the one board that columns are marked for; none where they lie on top."""
    found = rows(job, bearing)
    return (replace(found[0], name=FIRST),) if found and found[0].layer != "on top" else ()


def as_girt(job: Job, bearing: float) -> Row | None:
    """The outermost board where it stands in the plane of the girts: it is then the highest row of the wall."""
    return rows(job, bearing)[0] if seats.in_girts(job) else None


def ceiling(job: Job, bearing: float, face: Literal["outside", "inside"]) -> float:
    """How high rows on a *face* of the columns, or between them, may reach: to a level top, and under carriers that
    stand in their way."""
    low = seats.carrier_low(job, bearing)
    top = seats.level_top(job, bearing) if job.tops.seat == "flat" else bearing
    if low is None or job.carrier.where == "on top":
        return top
    lying = face == "outside" and job.girts.place == "between"
    between = lying and seats.in_way(job, 0.0, job.girts.board.wide)
    return low if between or seats.stands_out(job, face) > seats.AIR else top


def trusses(job: Job, plan: Plan) -> tuple[float, ...]:
    """The front faces of all trusses, inches from the front end of the columns: the first at 0, the last with its back
    face flush with the back end. Empty where trusses stand on the columns."""
    if job.carrier.board is None:
        return ()
    last = plan.along - job.truss.thickness
    count = max(math.ceil(last / job.carrier.step - 1e-9), 1)
    return tuple(last * i / count for i in range(count + 1))
