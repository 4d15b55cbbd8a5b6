"""Piers out of tolerance: too high for the board, too low for the stock, and what can be done about each.

All limits are the job's. What a remedy may cost the structure is the engineer's to say, not ours: where that is so, the
advice says that he is asked. A seat that is moved or packed is shot again: its tag is made for where it stood.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from msgspec import Struct

from layouts.fields import Job
from layouts.lengths import down, show, up

Kind = Literal["below", "high", "low", "stock", "notch", "block", "centre ply", "end"]
ENGINEER = "Ask the engineer before a bracket is re-set or a column lifted."
AGAIN = "and shoot it again"
NOISE = 1e-9


class Pier(Struct, frozen=True):
    """One thing wrong with a seat. *by* inches beyond the limit; *text* what is wrong; *can* what can be done, each in
    words; *engineer* whether he is to be asked before it is done."""

    name: str
    kind: Kind
    by: float
    text: str
    can: tuple[str, ...]
    engineer: bool

    @property
    def advice(self) -> str:
        """What can be done, in a sentence or two."""
        what = "; ".join(self.can)
        return f"{what[:1].upper()}{what[1:]}." + (f" {ENGINEER}" if self.engineer else "")

    @property
    def said(self) -> str:
        """All of it in a few sentences."""
        return f"{self.name}: {self.text} {self.advice}"


class Fit(Struct, frozen=True):
    """How a column with a made top, or with a seat block, comes to stand right. Inches: *cut_off* its bottom end,
    *packing* under it, *seat_block* on its centre ply up to the bearing; 0 where there is none. *made* says that its
    top is made; *length* is then what is left of it, else 0. Packing below zero: its seat is too high for its top."""

    made: bool = False
    cut_off: float = 0.0
    packing: float = 0.0
    seat_block: float = 0.0
    length: float = 0.0

    def offset(self, seat: float) -> float:
        """How far the grade line stands above the bottom end, inches, where it is so far above the *seat*."""
        return seat - max(self.packing, 0.0)


PLAIN = Fit()


def delivered(job: Job) -> float | None:
    """How long the sidewall columns come where their tops are made, inches; ``None`` where tops are cut."""
    part = job.column
    if part.trims == "top":
        return None
    if part.centre_ply is not None:
        return part.centre_ply + part.ears
    return None if part.notch is None else part.notch + part.ears


def needs(job: Job, side: bool) -> float:
    """The least offset at which the top of a column (*side* for one that carries a truss) comes to stand right: a top
    that is made stands no lower than its seat lets it. Minus infinity where any will do."""
    part = job.column
    if not side or part.trims == "bottom":
        return float("-inf")
    fixed = part.notch if part.centre_ply is None else part.centre_ply
    return float("-inf") if fixed is None else fixed - job.bearing


def fit(job: Job, side: bool, offset: float) -> Fit:
    """The fit of a column (*side* for one that carries a truss) whose seat is *offset* below the grade line."""
    part, whole = job.column, delivered(job)
    if not side:
        return PLAIN
    block = 0.0 if part.centre_ply is None else _clean(offset + job.bearing - part.centre_ply)
    if whole is None or part.notch is None:
        return Fit(made=whole is not None, seat_block=max(block, 0.0), length=whole or 0.0)
    short = _clean(offset + job.bearing - part.notch)
    if part.trims == "bottom" and short < 0:
        return Fit(made=True, cut_off=-short, length=whole + short)
    return Fit(made=True, packing=short, length=whole)


def _clean(inches: float) -> float:
    """Without the hair of float noise that would make a cut, or a seat too high, of nothing."""
    return 0.0 if abs(inches) < NOISE else inches


def untagged(job: Job, side: bool, offset: float) -> bool:
    """Whether a made column cannot come to stand right on its seat: its notch too high, its ears below the truss."""
    found = fit(job, side, offset)
    return found.made and (found.packing < 0 or _past_ears(job, found, offset) > NOISE)


def _past_ears(job: Job, found: Fit, offset: float) -> float:
    """How far the bearing stands above the made ears of a column that takes a seat block."""
    return offset + job.bearing - found.length if job.column.centre_ply is not None else 0.0


def misfits(job: Job, side: bool, offset: float, top: float) -> Iterator[tuple[Kind, float]]:
    """What is wrong with a seat, and by how many inches; *top* is the station of the column's highest point."""
    part, grade = job.column, job.grade
    found = fit(job, side, offset)
    if offset < -NOISE:
        yield "below", -offset
    elif offset < grade.least - NOISE:
        yield "high", grade.least - offset
    if grade.most is not None and offset > grade.most + NOISE:
        yield "low", offset - grade.most
    if found.packing < 0:
        yield "notch", -found.packing
    elif found.packing > grade.shim + NOISE:
        yield "block", found.packing - grade.shim
    if side and part.centre_ply is not None and needs(job, side) > offset + NOISE:
        yield "centre ply", needs(job, side) - offset
    over = _past_ears(job, found, offset) if found.made else offset + top + part.trim - max(part.stock)
    if over > NOISE:
        yield "stock", over
    # the end stands on its seat, or on what packs it up from there
    clear = max(found.packing, 0.0) - offset - grade.floor
    if part.treated == "none" and clear < part.above_floor - NOISE:
        yield "end", part.above_floor - clear


def judge(job: Job, name: str, side: bool, offset: float, top: float) -> tuple[Pier, ...]:
    """All that is wrong with one seat, and what can be done."""
    return tuple(_pier(job, name, kind, by, side, offset) for kind, by in misfits(job, side, offset, top))


def _pier(job: Job, name: str, kind: Kind, by: float, side: bool, offset: float) -> Pier:
    """One misfit in words. What is over a limit is shown rounded up: it must never read as nothing."""
    says = {"below": _above_line, "high": _near_line, "low": _too_low, "stock": _too_long}
    if kind in says:
        text, can, engineer = says[kind](job, by, side, offset)
    else:
        text, can, engineer = _of_made(job, kind, by)
    return Pier(name, kind, by, text, can, engineer)


Words = tuple[str, tuple[str, ...], bool]


def _far(job: Job, by: float) -> str:
    return show(by, job.style, rounded=up)


def _lower(job: Job, by: float) -> str:
    return f"re-set the bracket {_far(job, by)} lower {AGAIN}"


def _higher(job: Job, by: float) -> str:
    return f"re-set the bracket {_far(job, by)} higher {AGAIN}"


def _raised(job: Job, by: float) -> tuple[str, bool]:
    """What lifts a low seat, and whether the engineer is asked first: thin packing is not asked for."""
    if by <= job.grade.shim + NOISE:
        return f"pack the seat up {_far(job, by)} with steel over all of it {AGAIN}", False
    most = show(job.grade.shim, job.style, rounded=down)
    return f"{_higher(job, by)} (too much to pack: {most} at most)", True


def _above_line(job: Job, by: float, side: bool, offset: float) -> Words:
    # its bracket is to clear the least offset too, else it is told again as too high
    text = f"the grade line is {_far(job, by)} BELOW its seat: the grade board does not pass."
    return text, ("take a higher line", f"or {_lower(job, by + job.grade.least)}"), True


def _near_line(job: Job, by: float, side: bool, offset: float) -> Words:
    between, least = show(offset, job.style, rounded=down), show(job.grade.least, job.style)
    text = f"only {between} from its seat up to the grade line, {least} wanted."
    return text, ("let it be if the board passes", "take a higher line", f"or {_lower(job, by)}"), True


def _too_low(job: Job, by: float, side: bool, offset: float) -> Words:
    text = f"its seat is {_far(job, by)} lower than the {show(job.grade.most or 0, job.style)} allowed below the line."
    raised, asked = _raised(job, by)
    return text, (f"let it be, {_longer(job, side)}", "take a lower line", f"or {raised}"), asked


def _longer(job: Job, side: bool) -> str:
    """What a low seat comes to by itself: its tag says it all."""
    if not side or job.column.trims == "top":
        return "its column is cut longer"
    if job.column.trims == "bottom":
        return "less is cut off its column"
    return "it takes thicker packing" if job.column.centre_ply is None else "it takes a longer seat block"


def _too_long(job: Job, by: float, side: bool, offset: float) -> Words:
    raised, asked = _raised(job, by)
    can = ("take a lower line", raised, "or order a longer column")
    if side and delivered(job) is not None:
        return f"its made ears end {_far(job, by)} BELOW the bearing: the truss stands free of them.", can, asked
    longest = max(job.column.stock)
    length, trim = show(longest + by - job.column.trim, job.style, rounded=up), show(job.column.trim, job.style)
    text = f"{length} and {trim} for trimming is longer than the longest column stock, {show(longest, job.style)}."
    return text, can, asked


def _of_made(job: Job, kind: Kind, by: float) -> Words:
    """What is wrong with made tops, seat blocks and untreated ends."""
    far = _far(job, by)
    if kind == "notch":
        text = f"its seat is {far} too high for a column whose top is made and whose bottom is not cut."
        return text, ("take a higher line", _lower(job, by), "or order a shorter column"), True
    if kind == "block":
        thick, most = _far(job, by + job.grade.shim), show(job.grade.shim, job.style, rounded=down)
        text = f"its column, with the top as it is made, stands on {thick} of packing, {most} at most."
        return text, ("take a lower line", _higher(job, by), "or order a longer column"), True
    if kind == "centre ply":
        text = f"its centre ply stands {far} above the bearing: no seat block goes in."
        return text, ("cut the centre ply off at the bearing",), False
    clear = job.column.above_floor - by
    where = f"{show(clear, job.style, rounded=down)} above" if clear >= 0 else f"{_far(job, -clear)} BELOW"
    text = (
        f"its untreated bottom end stands {where} the finished floor, at least "
        f"{show(job.column.above_floor, job.style)} above it is wanted (local code rules)."
    )
    return text, ("take a treated column", f"or lift its end {far} on a steel stand-off {AGAIN}"), True
