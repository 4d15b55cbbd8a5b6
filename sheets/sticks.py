"""Each stick drawn with its cuts in cutting order: what the man at the saw looks at."""

from __future__ import annotations

from collections import Counter

import fonts
from layouts.amounts import run
from layouts.building import Building, Order
from layouts.lengths import Style, show, show_fine
from layouts.lumber import bought_as
from layouts.stock import Stick
from sheets.lettering import fit, pt, width, write
from sheets.shapes import MEDIUM, THIN, Drawing, Recorder
from sheets.tables import Flow
from sheets.wrapping import wrap

HEAD, WORDS, LEAD = pt(15), pt(13), 1.3
TALL = 0.34  # of a stick
LEAST = pt(8)


def board_name(order: Order) -> str:
    """A section as it is ordered."""
    return bought_as(order.section, order.treated)


def draw(flow: Flow, building: Building) -> None:
    """All sticks of the plan, like ones once, section by section, as they are cut from the left."""
    style = building.job.style
    kerf, trim = building.job.lumber.kerf, building.job.lumber.trim
    flow.heading("HOW TO CUT THE STICKS")
    first = f"First cut {show_fine(trim, style)} off the left end. " if trim else ""
    flow.para(f"{first}From left to right, {show_fine(kerf, style)} for the saw between cuts. Grey is what is left.")
    for order in building.orders:
        longest = max((s.stock for s in order.plan.sticks), default=1.0)
        like: dict[tuple[object, ...], list[Stick]] = {}
        for stick in order.plan.sticks:
            like.setdefault((stick.stock, stick.cuts), []).append(stick)
        for sticks in like.values():
            flow.draw(_stick(order, sticks[0], len(sticks), longest, (trim, kerf), flow.area.width, style))


def _stick(
    order: Order, stick: Stick, count: int, longest: float, taken: tuple[float, float], wide: float, style: Style
) -> Drawing:
    """One kind of stick: how many, what, its cuts in words and as a picture. *taken* by trim and saw, inches."""
    head = f"{count} of  {board_name(order)}  {show(stick.stock, style)}"
    drop = f"drop {show(stick.drop, style)}"
    words = wrap(", ".join(_cuts(stick, style)), WORDS, fonts.REGULAR, wide)
    tall = HEAD * LEAD + len(words) * WORDS * LEAD + TALL + 0.2
    pen = Recorder(wide, tall)
    pen.begin("stick", head)
    y = tall - HEAD
    used = width(drop, WORDS, fonts.REGULAR)
    write(pen, 0.0, y, head, fit(head, HEAD, fonts.BOLD, wide - used - 0.2), fonts.BOLD)
    write(pen, wide, y, drop, WORDS, align="right")
    y -= HEAD * (LEAD - 1)
    for line in words:
        y -= WORDS
        write(pen, 0.0, y, line, WORDS)
        y -= WORDS * (LEAD - 1)
    _picture(pen, stick, y - 0.03, wide / longest, taken)
    pen.end()
    return pen.drawing()


def _cuts(stick: Stick, style: Style) -> list[str]:
    """The cuts in order, each as it reads on the tape; runs of like ones counted."""
    found = Counter(stick.cuts)
    return [(f"{n} of " if n > 1 else "") + f"{mark} {show(length, style)}" for (mark, length), n in found.items()]


def _picture(pen: Recorder, stick: Stick, top: float, scale: float, taken: tuple[float, float]) -> None:
    """The stick to scale: pieces white with their numbers, the rest grey."""
    trim, kerf = taken
    low = top - TALL
    pen.box(0.0, low, stick.stock * scale, top, 0.85, MEDIUM)
    at = trim
    for mark, length in stick.cuts:
        x0, x1 = at * scale, (at + length) * scale
        pen.box(x0, low, x1, top, 1.0, THIN)
        size = fit(mark, pt(14), fonts.BOLD, max(x1 - x0 - 0.04, 0.01), fractions=False)
        if size >= LEAST and width(mark, size, fonts.BOLD, fractions=False) < x1 - x0:
            write(pen, (x0 + x1) / 2, low + TALL * 0.32, mark, size, fonts.BOLD, "center", fractions=False)
        at += length + kerf


def said(order: Order, style: Style) -> str:
    """How good the plan is, honestly."""
    plan = order.plan
    have = f"{plan.cost:.2f} in all" if plan.priced else f"{run(plan.cost, style)} in all"
    if plan.goal == "fewest":
        kinds = f"{plan.kinds} different stick{'s' if plan.kinds != 1 else ''}"
        proof = "proved the fewest" if plan.proved else f"at least {plan.least_kinds} are needed"
        return f"{board_name(order)}: {have}; {kinds}, no more than a twentieth over the least, {proof}."
    takes = "costs" if plan.priced else "takes"
    if plan.proved:
        return f"{board_name(order)}: {have}. PROVED: no plan {takes} less."
    bound = f"{plan.bound:.2f}" if plan.priced else run(plan.bound, style)
    return f"{board_name(order)}: {have}, at most {plan.gap:.1%} over the least. No plan {takes} less than {bound}."
