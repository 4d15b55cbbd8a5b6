"""Sheets of walls and roof as they are in the files, held against the layout: what is ordered, every row of every face,
and the outline of every sheet in its picture.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from layouts.building import Building
from layouts.sheeting import Face, Sheet, order
from sheets.audit_model import NEAR, Difference, Seen, shown
from sheets.cladding import NOTHING, groups, laps, named
from sheets.language import says

Corners = list[tuple[float, float]]


def check(pages: Sequence[tuple[str, Seen]], building: Building, name: str) -> list[Difference]:
    """Differences between the *pages* (by title) of the file *name* and the sheets of *building*."""
    if not pages or not building.cladding:
        at = pages[0][1].label if pages else name
        said = " ".join(w.text for _, seen in pages for w in seen.words_in())
        alike = not building.cladding and says(" ".join(said.split()), NOTHING)
        return [] if alike else [Difference(at, "sheets", "those of the job", "others")]
    told = list(_listed([seen for title, seen in pages if title.startswith("Sheets to order")], building, name))
    left = {title: seen for title, seen in pages if title.startswith("Sheets, ")}
    for face in building.cladding:
        # a table that goes on overleaf numbers its pages
        own = [
            t for t in left if t == f"Sheets, {face.name}" or re.fullmatch(f"Sheets, {re.escape(face.name)} [0-9]+", t)
        ]
        seen = [left.pop(title) for title in own]
        if not seen:
            told.append(Difference(name, face.name, "a page", "none"))
            continue
        told += (Difference(seen[0].label, face.name, *what) for what in _face(face, seen, building))
    return told + [Difference(seen.label, title, "no such face", "a page") for title, seen in left.items()]


def _said(pages: Sequence[Seen]) -> str:
    return " | ".join(w.text for seen in pages for w in seen.words_in())


def _listed(pages: Sequence[Seen], building: Building, name: str) -> Iterator[Difference]:
    """Every line of the list."""
    said, style = _said(pages), building.job.style
    for _, long, count in order(building.cladding):
        want = f"{count} | {shown(long, style)}"
        if f"| {want} |" not in said:
            yield Difference(pages[0].label if pages else name, "list to order", want, "not so on the sheet")


def _face(face: Face, pages: Sequence[Seen], building: Building) -> Iterator[tuple[str, str]]:
    """Lengths that stand behind the sheets' names, and their outlines."""
    said, style = _said(pages), building.job.style
    flat = said.replace(" | ", " ")  # long lists of names are wrapped
    for alike in groups(face):
        lengths = [shown(x, style) for x in (alike[0].order, *alike[0].edges)]
        want = " ".join((named(alike), str(len(alike)), *lengths))
        if f" {want} " not in f" {flat} ":
            yield want, "not so on the sheet"
    for line in laps(face, building.job):
        if not says(flat, line):
            yield line, "not so on the sheet"
    yield from _outlines(face, pages)


def _outlines(face: Face, pages: Sequence[Seen]) -> Iterator[tuple[str, str]]:
    """Every sheet once, all at one scale, each where the layout has it."""
    drawn: dict[str, Corners] = {}
    for seen in pages:
        for span in seen.spans():
            if span.name.startswith("clad-"):
                for outline in seen.outlines[span.outlines[0] : span.outlines[1]]:
                    points = outline[:-2] if outline else ()
                    drawn[span.name.removeprefix("clad-")] = list(zip(points[::2], points[1::2], strict=True))
    names = {one.name for one in face.sheets}
    if drawn.keys() != names:
        yield f"sheets {', '.join(sorted(names))}", ", ".join(sorted(drawn)) or "none"
        return
    xs = [x for corners in drawn.values() for x, _ in corners]
    scale = (max(xs) - min(xs)) / (face.right - face.left)
    foot = min(y for corners in drawn.values() for _, y in corners) - min(s.low for s in face.sheets) * scale
    for one in face.sheets:
        want = [(min(xs) + x * scale, foot + y * scale) for x, y in _corners(face, one)]
        found = drawn[one.name]
        off = max((max(abs(a - x), abs(b - y)) for (a, b), (x, y) in zip(found, want, strict=False)), default=0.0)
        if len(found) != len(want):
            yield f"sheet {one.name} of {len(want)} corners", f"{len(found)} corners" if found else "none"
        elif off > 2 * NEAR:
            yield f"sheet {one.name} in its place", f"off by {off:.4f} in"


def _corners(face: Face, one: Sheet) -> Corners:
    """Corners of a sheet from the left end of its picture: the slope over wall A has its front on the right."""
    flipped = face.roof and face.side == "left"
    return [(face.right - x if flipped else x - face.left, y) for x, y in one.outline]
