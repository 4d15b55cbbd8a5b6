"""The roof in words: its shape, its pitches, which way it rises."""

from __future__ import annotations

from layouts.building import Building
from layouts.lengths import show
from layouts.pitch import shown
from layouts.sums import WALLS, Sum


def described(building: Building) -> tuple[str, str]:
    """Shape and pitch, and where its highest place is."""
    job, plan, roof = building.job, building.plan, building.roof
    pitch, right = shown(roof.left.inward, job.style), plan.on("right")
    if job.roof.shape == "lean-to":
        return f"lean-to, {pitch}", "rises from wall A to the standing wall"
    assert right
    if job.roof.shape == "mono-slope":
        return f"one slope, {pitch}", f"rises from wall A to wall {right.name}"
    ridge = f"ridge {show(roof.ridge + plan.inset, job.style)} from the building line at wall A"
    far = shown(roof.right.inward, job.style)
    if far != pitch:
        return f"gable, {pitch} over wall A, {far} over wall {right.name}", ridge
    return f"gable, {pitch}", ridge


def named(total: Sum, building: Building) -> str:
    """What a sum is of; the wall opposite by its letter."""
    right = building.plan.on("right")
    return total.name.replace(WALLS["right"], f"wall {right.name}") if right else total.name
