"""Which way a tag's words are set on its form: the largest that goes, against what each way of setting them costs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product

from msgspec.structs import replace

from sheets.tag_fit import Fit
from sheets.tag_type import LEAST, LEVELS, Form, Head, Rows
from sheets.tag_words import Words

DROPPED = (0.0, 0.06, 0.12, 0.18, 0.3)  # what a level costs, in scale: it is given up for that much larger type
HEADS: dict[Head, float] = {"beside": 0.0, "over": 0.1, "close": 0.12}
LOW: dict[Head, float] = {"close": 0.0, "beside": 0.12, "over": 0.14}  # the same on a tag that is not much of a height
ROWS: dict[Rows, float] = {"two lines": 0.0, "one line": 0.04, "under": 0.1}
THINNER = 0.25  # what thin figures cost, but on a label in large print


class NoRoom(ValueError):
    """A tag's words do not go on it at a size that is read."""


def choose(words: Words, form: Form, inked: Callable[[Fit], float]) -> Fit:
    """The words as they are set on *form*: as large as they go and as their ink (*inked*, square inches) lets them, and
    larger type before small print; but where the form is a page nothing is left out that goes in smaller type.

    Raises ``NoRoom``."""
    found = _best(words, form, inked, range(1)) if form.whole else None
    found = found or _best(words, form, inked, range(len(LEVELS)))
    if found is None:
        raise NoRoom(f"no room for the tag of {words.name}")
    return found


def _best(words: Words, form: Form, inked: Callable[[Fit], float], levels: range) -> Fit | None:
    """The best of all ways that leave out one of *levels*; nothing where none goes."""
    best: tuple[float, Fit] | None = None
    wet: set[tuple[int, bool]] = set()  # what ink has held back already: no other way to set it takes less
    for cost, way in _ways(words, form, levels):
        if best and best[0] >= 1 - cost:
            break
        if (way.level, way.thin) in wet:
            continue
        found = _largest(way, form.most)
        if found is None or (best and found.scale / form.most - cost <= best[0]):
            continue
        lighter = _lighter(found, inked, (best[0] + cost) * form.most if best else LEAST)
        if lighter != found:
            wet.add((way.level, way.thin))
        if lighter:
            best = (lighter.scale / form.most - cost, lighter)
    return best[1] if best else None


def _lighter(found: Fit, inked: Callable[[Fit], float], least: float) -> Fit | None:
    """The same in smaller type until it takes no more ink than it may; nothing where that is under a *least* scale."""
    while (ink := inked(found)) > found.form.ink:
        share = min((found.form.ink / ink) ** 0.5, 0.985)
        if found.scale <= least:
            return None
        found = replace(found, scale=max(found.scale * share, least))
    return found


def _ways(words: Words, form: Form, levels: range) -> Iterator[tuple[float, Fit]]:
    """Every way to set them and what it costs, cheapest first."""
    ways = []
    heads = HEADS if form.tall > 1.2 * form.wide else LOW
    for head, rows, level, thin in product(heads, ROWS, levels, (False, True)):
        light = THINNER * thin * (form.framed or not form.large)
        cost = heads[head] + ROWS[rows] + DROPPED[level] * (1.0 if form.framed or not form.large else 0.3) + light
        ways.append((cost, Fit(words, form, LEAST, head, rows, level, thin)))
    yield from sorted(ways, key=lambda way: way[0])


def _largest(way: Fit, most: float) -> Fit | None:
    """The same at the largest scale that goes."""
    found = replace(way, scale=most)
    if found.goes:
        return found
    if not way.goes:
        return None
    high = most
    for _ in range(7):
        found = replace(way, scale=(way.scale + high) / 2)
        way, high = (found, high) if found.goes else (way, found.scale)
    return way
