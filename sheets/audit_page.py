"""What every page has to keep, whatever stands on it: check bars as long as they say, words inside the page, no words
in one another."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from functools import lru_cache

from sheets.audit_model import NEAR, Difference, Numbers, Plan, Seen
from sheets.lettering import face
from sheets.shapes import Drawing

TOUCH = 0.005  # inches that two boxes may share: advance boxes end beyond the ink
TALLEST = (0.81, 0.22)  # em: the ink of letters, figures and signs of ASCII above and below the line, in both cuts
MM = 25.4
_MEASURE = re.compile(r"([0-9]+(?:\.[0-9]+)?) (in|mm)")

Box = tuple[float, float, float, float]  # left, bottom, right, top


def bars(seen: Seen) -> Iterator[Difference]:
    """Every check bar of a page measures what stands beside it, from the middle of one end tick to that of the other;
    a page without any is told."""
    spans = [span for span in seen.spans() if span.name.startswith("check-bar")]
    if not spans:
        yield Difference(seen.label, "check bar", "one on every page", "none")
    for span in spans:
        said = _MEASURE.search(" ".join(word.text for word in seen.words_in(span)))
        strokes = sorted(seen.strokes_in(span), key=_long)
        if said is None or not strokes:
            yield Difference(seen.label, span.name, "a bar and its measure", "one of them missing")
            continue
        *ticks, bar = strokes
        want = float(said[1]) / (MM if said[2] == "mm" else 1.0)
        if abs(_long(bar) - want) > NEAR:
            yield Difference(seen.label, span.name, f"{want:.4f} in long, as it says", f"{_long(bar):.4f} in")
        for end in (bar[:2], bar[2:4]):
            if not any(math.dist(end, _middle(tick)) <= NEAR for tick in ticks):
                yield Difference(seen.label, span.name, f"a tick at its end ({end[0]:.4f}, {end[1]:.4f})", "none")


def _long(stroke: Numbers) -> float:
    return math.hypot(stroke[2] - stroke[0], stroke[3] - stroke[1])


def _middle(stroke: Numbers) -> tuple[float, float]:
    return (stroke[0] + stroke[2]) / 2, (stroke[1] + stroke[3]) / 2


# --- boxes of words --------------------------------------------------------------------------------------------------


def words(label: str, plan: Plan) -> Iterator[Difference]:
    """Words of a drawing that leave the page or lie in others. What the files hold is the same to a thousandth: that is
    looked at elsewhere, so this is asked once of a page, not of every file."""
    page = plan.drawing
    boxes = [(_box(plan, number, False), number) for number, (a, b) in enumerate(plan.units) if a < b]
    for rough, number in boxes:
        if _leaves(rough, page) and _leaves(box := _box(plan, number, True), page):
            place = f"({box[0]:.3f}, {box[1]:.3f}) to ({box[2]:.3f}, {box[3]:.3f})"
            yield Difference(label, _said(plan, number), f"inside {page.width:.3f} x {page.height:.3f} in", place)
    boxes.sort(key=lambda b: b[0][1])
    for i, (box, number) in enumerate(boxes):
        left, _, right, top = box
        for other, another in boxes[i + 1 :]:
            if other[1] >= top:
                break
            if left < other[2] and other[0] < right and _share(_box(plan, number, True), _box(plan, another, True)):
                yield Difference(label, _said(plan, number), "clear of other words", f"in {_said(plan, another)}")


def _leaves(box: Box, page: Drawing) -> bool:
    return min(box[:2]) < -TOUCH or box[2] > page.width + TOUCH or box[3] > page.height + TOUCH


def _share(one: Box, other: Box) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    return across > TOUCH and min(one[3], other[3]) - max(one[1], other[1]) > TOUCH


def _said(plan: Plan, number: int) -> str:
    a, b = plan.units[number]
    return repr(plan.runs[a].typed or " ".join(run.words for run in plan.runs[a:b]))


@lru_cache(maxsize=20000)
def _ink(words: str, cut: str) -> tuple[float, float]:
    return face(cut).ink(words)


def _box(plan: Plan, number: int, exact: bool) -> Box:
    """The box of a text: *exact* by its ink, else by what plain letters take at the most, which is quicker."""
    a, b = plan.units[number]
    boxes: list[Box] = []
    for run, cut in zip(plan.runs[a:b], plan.cuts[a:b], strict=True):
        above, below = _ink(run.words, cut) if exact or not run.words.isascii() else TALLEST
        above, below = above * run.size, below * run.size
        if run.turned:
            boxes.append((run.x - above, run.y, run.x + below, run.y + run.wide))
        else:
            boxes.append((run.x, run.y - below, run.x + run.wide, run.y + above))
    if len(boxes) == 1:
        return boxes[0]
    left, low, right, high = zip(*boxes, strict=True)
    return min(left), min(low), max(right), max(high)
