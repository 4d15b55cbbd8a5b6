"""Templates and the roof sheet as they are in the files, held against the layout: every edge and cut where it is to be,
every number that is printed.

Lines are told by the names of their groups; where they lie is taken from the file. Pages of one pattern are laid
together as a crew does it, match line on match line, and the whole is laid on the layout's outline.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct

from layouts import purlins, templates
from layouts.building import Building
from layouts.fascia import past_ends
from layouts.template import Path, Template
from sheets.audit_model import NEAR, Difference, Numbers, Seen, shown
from sheets.language import says

_NAME = re.compile("template-(edge|cut|again|match)-([0-9]+)")
_TITLE = re.compile("Template ([0-9]+): ")

Stroke = tuple[float, float, float, float]


class _Laid(Struct, frozen=True):
    """A stroke of a pattern, of the group *kind* with its *number*, where it lies once pages are laid together."""

    kind: str
    number: int
    stroke: Stroke


def check(pages: Sequence[tuple[str, Seen]], building: Building, name: str) -> list[Difference]:
    """Differences between the templates on *pages* (by title) and those of *building*; *name* is the file's."""
    told: list[Difference] = []
    left = list(pages)
    for one in templates.lay(building.job, building.plan, building.roof, building.rows):
        own = [page for page in left if (found := _TITLE.match(page[0])) and found[1] == one.key.partition("-")[0]]
        left = [page for page in left if page not in own]
        if not own:
            told.append(Difference(name, one.title, "a page", "none"))
            continue
        seen = [page for _, page in own]
        told += _words(one, seen, building)
        told += (Difference(seen[0].label, one.title, *what) for what in _outline(one, seen))
    return told + [Difference(seen.label, title, "no such pattern", "a page") for title, seen in left]


# --- words -----------------------------------------------------------------------------------------------------------


def _words(one: Template, pages: Sequence[Seen], building: Building) -> Iterator[Difference]:
    """Every number and every name of a pattern on each of its pages, the way it is laid on the first."""
    for number, seen in enumerate(pages):
        words = " ".join(w.text for w in seen.words_in())
        want = [figure.text(building.job.style) for figure in one.figures]
        want.append(f"FOR: {one.what} {', '.join(one.whom)}.")
        want += [one.laid, one.hold] if number == 0 else []
        for text in want:
            if not says(words, text):
                yield Difference(seen.label, one.title, text, "not so on the page")


# --- lines -----------------------------------------------------------------------------------------------------------


def _outline(one: Template, pages: Sequence[Seen]) -> Iterator[tuple[str, str]]:
    """Edges and cuts of a pattern over all its pages: what was to be, what was found."""
    laid = _together([_read(seen) for seen in pages])
    if laid is None:
        yield "pages that match lines join", "one that none does"
        return
    drawn = [one_line for one_line in laid if one_line.kind in ("edge", "cut", "again")]
    if not drawn:
        yield "an outline", "none"
        return
    x0, y0, _, _ = one.box()
    by_x = x0 - min(min(line.stroke[0], line.stroke[2]) for line in drawn)
    by_y = y0 - min(min(line.stroke[1], line.stroke[3]) for line in drawn)
    near = NEAR * len(pages)  # each page adds its own thousandth
    for kind, paths in (("edge", one.edges), ("cut", one.cuts)):
        for number, path in enumerate(paths, 1):
            found = [_by(line.stroke, by_x, by_y) for line in drawn if (line.kind, line.number) == (kind, number)]
            yield from _path(f"{kind} {number}", path, found, near, once=kind == "cut")
            again = [_by(line.stroke, by_x, by_y) for line in drawn if (line.kind, line.number) == ("again", number)]
            if kind == "cut" and any(_off(path, stroke) > near for stroke in again):
                yield f"{kind} {number}, drawn again, along its line", "a stroke that leaves it"


def _read(seen: Seen) -> list[_Laid]:
    """The strokes of a page that belong to its pattern."""
    found = []
    for span in seen.spans():
        if name := _NAME.fullmatch(span.name):
            strokes = seen.strokes_in(span)
            found += [_Laid(name[1], int(name[2]), _stroke(stroke)) for stroke in strokes]
    return found


def _stroke(numbers: Numbers) -> Stroke:
    return numbers[0], numbers[1], numbers[2], numbers[3]


def _together(pages: list[list[_Laid]]) -> list[_Laid] | None:
    """All strokes in the frame of the first page; ``None`` where a page shares no match line with the others."""
    found, waiting = list(pages[0]), pages[1:]
    while waiting:
        for page in waiting:
            by = _shift(found, page)
            if by is not None:
                found += [_Laid(line.kind, line.number, _by(line.stroke, *by)) for line in page]
                waiting.remove(page)
                break
        else:
            return None
    return found


def _shift(found: list[_Laid], page: list[_Laid]) -> tuple[float, float] | None:
    """How far a page is moved so that a match line lies on its like."""
    lines = {line.number: line.stroke for line in found if line.kind == "match"}
    for line in page:
        if line.kind == "match" and line.number in lines:
            mine, theirs = _middle(line.stroke), _middle(lines[line.number])
            return theirs[0] - mine[0], theirs[1] - mine[1]
    return None


def _middle(stroke: Stroke) -> tuple[float, float]:
    return (stroke[0] + stroke[2]) / 2, (stroke[1] + stroke[3]) / 2


def _by(stroke: Stroke, dx: float, dy: float) -> Stroke:
    return stroke[0] + dx, stroke[1] + dy, stroke[2] + dx, stroke[3] + dy


def _path(name: str, path: Path, found: list[Stroke], near: float, once: bool) -> Iterator[tuple[str, str]]:
    """A path is drawn from end to end, and nothing beside it; a cut *once* everywhere."""
    off = max((_off(path, stroke) for stroke in found), default=0.0)
    if off > near:
        yield f"{name} along its line", f"a stroke that leaves it by {off:.4f} in"
        return
    bare = sum(_bare(a, b, found, near) for a, b in pairwise(path))
    if bare > near:
        yield f"{name} from end to end", f"{bare:.4f} in of it missing"
    long = math.fsum(math.dist(a, b) for a, b in pairwise(path))
    drawn = math.fsum(math.hypot(s[2] - s[0], s[3] - s[1]) for s in found)
    if once and abs(drawn - long) > near:
        yield f"{name} {long:.4f} in long", f"{drawn:.4f} in"


def _off(path: Path, stroke: Stroke) -> float:
    """How far a stroke strays from the straight part of a path that it follows best."""
    ends = ((stroke[0], stroke[1]), (stroke[2], stroke[3]))
    return min(max(_away(a, b, p) for p in ends) for a, b in pairwise(path))


def _away(a: tuple[float, float], b: tuple[float, float], p: tuple[float, float]) -> float:
    """How far *p* is from the straight way from *a* to *b*."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    at = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    at = min(max(at, 0.0), 1.0)
    return math.dist(p, (a[0] + at * dx, a[1] + at * dy))


def _bare(a: tuple[float, float], b: tuple[float, float], found: list[Stroke], near: float) -> float:
    """How much of the way from *a* to *b* no stroke covers, inches."""
    far = math.dist(a, b)
    way = ((b[0] - a[0]) / far, (b[1] - a[1]) / far)
    spans = []
    for stroke in found:
        if max(_away(a, b, stroke[:2]), _away(a, b, stroke[2:])) <= near:
            ends = sorted((x - a[0]) * way[0] + (y - a[1]) * way[1] for x, y in (stroke[:2], stroke[2:]))
            spans.append((ends[0], ends[1]))
    at, bare = 0.0, 0.0
    for start, end in sorted(spans):
        bare += max(start - at, 0.0)
        at = max(at, end)
    return bare + max(far - at, 0.0)


# --- the roof sheet --------------------------------------------------------------------------------------------------


def roof(pages: Sequence[Seen], building: Building) -> list[Difference]:
    """Differences between the roof sheet on *pages* and the layout: the places of purlins, lookouts and trusses."""
    job, plan, style = building.job, building.plan, building.job.style
    rows = [word.text for seen in pages for word in seen.words_in()]
    said = " | ".join(rows)
    eaves = building.roof.left.overhang, building.roof.right.overhang
    before = past_ends(job) if any(eaves) else 0.0
    want = [(f"T{i}", at + before) for i, at in enumerate(purlins.trusses(job, plan), 1)]
    for one in purlins.slopes(job, building.roof):
        want += [(f"P{i}", at) for i, at in enumerate(one.purlins, 1)]
        want += [(f"L{i}", at) for i, at in enumerate(one.lookouts, 1)]
        want += [("LENGTH ALONG THE CHORD", one.length)]
    missing = [(name, shown(at, style)) for name, at in want if f"{name} | {shown(at, style)}" not in said]
    return [Difference(pages[0].label, name, text, "not so on the sheet") for name, text in missing]
