"""A page as it was read, held against the drawing it was made from: the same strokes, outlines and runs of words,
each within a thousandth of an inch, none missing, none besides.

Places are compared where they land on paper: what a printer profile has moved is moved back by what the printer does.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from itertools import chain
from operator import sub
from typing import Generic, TypeVar
from unicodedata import normalize

from msgspec import Struct

from sheets import audit_order
from sheets.audit_model import NEAR, Difference, Numbers, Plan, Read, Run, Seen, Span, along, up
from sheets.profile import Profile

REACH = 0.5  # inches: a thing that is nearer to where one is missing is taken for it
GRID = 0.01
MOST = 6  # differences told of one page; the others are counted
SET = 0.1  # em: how far the ink of a run may end from where its letters put it
FAINT = 0.1  # a grey is compared by a tenth of it: files hold it in 255 steps

Affine = tuple[float, float, float, float, float, float]
Thing = TypeVar("Thing", Numbers, Run)


def landing(plan: Plan, profile: Profile) -> Affine | None:
    """What the printer makes of a place on this page, as x' = a·x + c·y + e, y' = b·x + d·y + f; ``None``: nothing."""
    if profile.plain:
        return None
    (e, f), (ae, bf), (ce, df) = (profile.printed(plan.drawing, at) for at in ((0, 0), (1, 0), (0, 1)))
    return ae - e, bf - f, ce - e, df - f, e, f


def compare(label: str, plan: Plan, read: Read, landed: Affine | None = None) -> tuple[Seen, list[Difference]]:
    """The page *read* in the order of its *plan*, and every difference."""
    strokes, outlines = read.strokes, read.outlines
    runs, under = _joined(read, plan.runs) if len(read.runs) > len(plan.runs) else (read.runs, read.under)
    if landed is not None:
        strokes = [_moved(s, 4, landed) for s in strokes]
        outlines = [_moved(o, len(o) - 2, landed) for o in outlines]
        runs = [_landed(run, landed) for run in runs]
    told = [*_page(label, plan, read)]
    seen = Seen(
        label,
        plan,
        _aligned(label, plan, STROKES, plan.strokes, strokes, told),
        _aligned(label, plan, OUTLINES, plan.outlines, outlines, told),
        _aligned(label, plan, RUNS, plan.runs, runs, told),
    )
    if not told:
        told += _off(label, read)
        told += audit_order.told(seen, audit_order.Painted(strokes, outlines, runs, under))
    if len(told) > MOST:
        told[MOST:] = [Difference(label, "elsewhere too", "as drawn", f"otherwise in {len(told) - MOST} more places")]
    return seen, told


def _moved(numbers: Sequence[float], count: int, affine: Affine) -> Numbers:
    """*numbers* with the first *count*, which are places, moved."""
    a, b, c, d, e, f = affine
    moved: list[float] = []
    for i in range(0, count, 2):
        x, y = numbers[i], numbers[i + 1]
        moved += (a * x + c * y + e, b * x + d * y + f)
    return (*moved, *numbers[count:])


def _landed(run: Run, affine: Affine) -> Run:
    x, y = _moved((run.x, run.y), 2, affine)
    a, b, c, d, _, _ = affine
    larger = math.hypot(c, d) if run.turned else math.hypot(a, b)
    return run._replace(x=x, y=y, size=run.size * larger, wide=run.wide * larger)


def _page(label: str, plan: Plan, read: Read) -> Iterator[Difference]:
    want, found = (plan.drawing.width, plan.drawing.height), (read.width, read.height)
    # half a thousandth of a point: what single precision keeps of a page of 200 in
    if max(abs(a - b) for a, b in zip(want, found, strict=True)) > 1e-5:
        yield Difference(label, "page", _sides(want), _sides(found))
    for odd in dict.fromkeys(read.odd):
        yield Difference(label, "page", "lines, outlines and words of ours alone", odd)


def _off(label: str, read: Read) -> Iterator[Difference]:
    """What the file has beside its paper."""
    places = [*(s[:4] for s in read.strokes), *(o[:-2] for o in read.outlines), *((r.x, r.y) for r in read.runs)]
    for axis, side in enumerate((read.width, read.height)):
        along = [at for place in places for at in place[axis::2]]
        if along and (min(along) < -NEAR or max(along) > side + NEAR):
            span = f"{min(along):.4f} to {max(along):.4f} in {('across', 'up')[axis]}"
            yield Difference(label, "page", f"all of it on the paper, 0 to {side:.4f}", span)


def _sides(size: tuple[float, float]) -> str:
    return f"{size[0]:.4f} x {size[1]:.4f} in"


# --- the three kinds of things ---------------------------------------------------------------------------------------


class _Kind(Struct, Generic[Thing], frozen=True):
    """How things of one kind are compared: the *numbers* that have to agree, the *key* that a thing keeps when it is
    moved, whether one that stands in its place is the *same*; and how one is *told*. *part* of a span holds them."""

    part: Callable[[Span], tuple[int, int]]
    numbers: Callable[[Thing], Numbers]
    key: Callable[[Thing], str]
    same: Callable[[Thing, Thing], bool]
    told: Callable[[Thing], str]
    flat: Callable[[Sequence[Thing]], list[float]]


def _chained(things: Sequence[Numbers]) -> list[float]:
    return list(chain.from_iterable(things))


def _stroke(stroke: Numbers) -> str:
    x0, y0, x1, y1, width, dashed = stroke
    return f"a {'dashed ' if dashed else ''}line ({x0:.4f}, {y0:.4f}) to ({x1:.4f}, {y1:.4f}), {width:.4f} wide"


def _outline(outline: Numbers) -> str:
    *corners, grey, width = outline
    places = " ".join(f"({x:.4f}, {y:.4f})" for x, y in zip(corners[::2], corners[1::2], strict=True))
    return f"an outline {places}, {f'grey {grey:.2f}' if grey >= 0 else 'not filled'}, its line {width:.4f} wide"


def _run(run: Run) -> str:
    copied = f", copied as {run.typed!r}" if run.typed not in (None, _words(run)) else ""
    turned = ", reading up" if run.turned else ""
    grey = f", grey {run.grey:.2f}" if run.grey else ""
    size = f"{run.size * 72:.2f} pt{turned}{grey}"
    return f"{_words(run)!r} at ({run.x:.4f}, {run.y:.4f}), {size}, {run.wide:.3f} long{copied}"


def _words(run: Run) -> str:
    return " ".join(run.words.split())


def _squeezed(words: str) -> str:
    return "".join(normalize("NFKD", words).split())


def _reads(want: Run, found: Run) -> bool:
    """Whether a run says what it should, to the eye and to who copies it, and is as long as its words are."""
    if found.words != want.words:
        words = _words(found)
        if words != want.words and _squeezed(words) != _squeezed(want.words):
            return False
    typed = found.typed
    if typed != want.typed and (
        want.typed is not None or (typed != found.words and typed and typed.split() != want.words.split())
    ):
        return False
    return abs(found.wide - want.wide) <= SET * want.size


STROKES: _Kind[Numbers] = _Kind(
    lambda span: span.strokes, lambda s: s, lambda s: "", lambda a, b: True, _stroke, _chained
)
OUTLINES: _Kind[Numbers] = _Kind(
    lambda span: span.outlines,
    lambda o: (*o[:-2], o[-2] * FAINT, o[-1]),
    lambda o: str(len(o)),
    lambda a, b: True,
    _outline,
    _chained,
)
RUNS: _Kind[Run] = _Kind(
    lambda span: span.runs,
    lambda r: (*r[:4], r[4] * FAINT),
    _words,
    _reads,
    _run,
    lambda runs: [n for x, y, size, turned, grey, *_ in runs for n in (x, y, size, turned, grey)],
)


# --- finding each thing ----------------------------------------------------------------------------------------------


def _aligned(
    label: str,
    plan: Plan,
    kind: _Kind[Thing],
    wanted: Sequence[Thing],
    found: Sequence[Thing],
    told: list[Difference],
) -> Sequence[Thing | None]:
    """What was *found*, in the order of what was *wanted*; differences are added to *told*."""
    if len(wanted) == len(found) and _all_close(kind, wanted, found) and all(map(kind.same, wanted, found)):
        return found
    matched, left = _matched(kind, wanted, found)
    for index, thing in enumerate(wanted):
        if matched[index] is None:
            other = _nearest(kind, thing, left)
            if other is not None:
                left.remove(other)
            place = plan.place(index, kind.part)
            told.append(Difference(label, place, kind.told(thing), kind.told(other) if other else "nothing"))
            matched[index] = other
    told += [Difference(label, "page", "nothing", kind.told(thing)) for thing in left]
    return matched


def _all_close(kind: _Kind[Thing], wanted: Sequence[Thing], found: Sequence[Thing]) -> bool:
    """Whether all numbers agree, in the order they stand: the way it is in every file that is right."""
    if _close(kind.flat(wanted), kind.flat(found)):
        return True
    return all(_close(kind.numbers(a), kind.numbers(b)) for a, b in zip(wanted, found, strict=True))


def _close(some: Sequence[float], others: Sequence[float]) -> bool:
    """Whether as many numbers are each near the other; what is no number is near to none."""
    if len(some) != len(others):
        return False
    apart = list(map(sub, some, others))
    return not apart or (max(apart) <= NEAR and min(apart) >= -NEAR and math.isfinite(sum(apart)))


def _matched(
    kind: _Kind[Thing], wanted: Sequence[Thing], found: Sequence[Thing]
) -> tuple[list[Thing | None], list[Thing]]:
    """For each thing that is wanted the one in its place, if there is one, and all others that were found."""
    cells: dict[tuple[int, int], list[Thing]] = {}
    for thing in found:
        cells.setdefault(_cell(kind.numbers(thing)), []).append(thing)
    matched: list[Thing | None] = []
    for thing in wanted:
        x, y = _cell(kind.numbers(thing))
        near = ((other, cells[at]) for at in _around(x, y) if at in cells for other in cells[at])
        hit = next(
            ((o, c) for o, c in near if _close(kind.numbers(thing), kind.numbers(o)) and kind.same(thing, o)), None
        )
        if hit:
            hit[1].remove(hit[0])
        matched.append(hit[0] if hit else None)
    return matched, [thing for cell in cells.values() for thing in cell]


def _cell(numbers: Numbers) -> tuple[int, int]:
    x, y = numbers[:2]
    return (round(x / GRID), round(y / GRID)) if math.isfinite(x) and math.isfinite(y) else (0, 0)


def _around(x: int, y: int) -> Iterator[tuple[int, int]]:
    return ((x + i, y + j) for i in (0, -1, 1) for j in (0, -1, 1))


def _nearest(kind: _Kind[Thing], thing: Thing, left: Sequence[Thing]) -> Thing | None:
    """What most likely is *thing*, moved or changed: the nearest with the same words or corners, else the nearest
    within reach."""
    key = kind.key(thing)
    ranked = [(math.dist(kind.numbers(thing)[:2], kind.numbers(other)[:2]), other) for other in left]
    alike = [pair for pair in ranked if kind.key(pair[1]) == key]
    for pairs in (alike, ranked):
        best = min(pairs, key=lambda pair: pair[0], default=None)
        if best and (best[0] <= REACH or (pairs is alike and kind is RUNS)):
            return best[1]
    return None


def _joined(read: Read, wanted: Sequence[Run]) -> tuple[list[Run], list[tuple[int, int]]]:
    """Runs put together that a file holds in parts because one font subset does not have all of their letters; and what
    is under each outline, counted in these."""
    runs = read.runs
    joined: list[Run] = []
    begun: list[int] = []
    at = 0
    for want in wanted:
        if at >= len(runs):
            break
        begun.append(at)
        run, at = runs[at], at + 1
        whole = _squeezed(want.words)
        while (
            at < len(runs) and _squeezed(run.words) != whole and whole.startswith(_squeezed(run.words + runs[at].words))
        ):
            if not _goes_on(run, runs[at]):
                break
            run, at = _one(run, runs[at]), at + 1
        joined.append(run)
    begun += range(at, len(runs))
    return [*joined, *runs[at:]], [(strokes, bisect_left(begun, before)) for strokes, before in read.under]


def _goes_on(run: Run, after: Run) -> bool:
    """Whether *after* stands on the line of *run*, behind it."""
    return run[2:5] == after[2:5] and up(run) == up(after) and along(after) >= along(run)


def _one(run: Run, after: Run) -> Run:
    return run._replace(words=run.words + after.words, wide=max(run.wide, along(after) + after.wide - along(run)))
