"""The upper ends of columns on a wall are seen: no number lies on white over one, or it would seem to end lower. What
stands highest on a wall stands clear under its heading.
"""

from __future__ import annotations

import boxes
import pytest
import stress
import test_wall
from jobs import TRADE, build, every, job

from layouts.building import Building, lay_out
from sheets import wall
from sheets.shapes import Drawing, Polygon, flat

# columns close together under a roof whose slopes differ: numbers of the short girts above have little room beside them
CLOSE = {
    **TRADE,
    "building.width": "28'",
    "building.front_columns": ["8'", "15'-9", "20'"],
    "building.back_columns": ["8'", "15'-9", "20'"],
    "truss.pitch": "7/12",
    "lumber.stock": ["10'", "12'", "14'", "16'"],
    "job.fraction": 32,
}


def hidden(drawing: Drawing) -> list[str]:
    """Columns whose upper end lies under something white that was painted later."""
    ends: dict[str, tuple[float, float]] = {}
    for group in boxes.groups(drawing.shapes, "column-"):
        outline = next((s for s in flat(group.shapes) if isinstance(s, Polygon)), None)
        if outline:
            high = sorted(outline.points, key=lambda p: p[1])[-2:]
            ends[group.name] = (sum(x for x, _ in high) / 2, sum(y for _, y in high) / 2)
    white = [s for s in flat(drawing.shapes) if isinstance(s, Polygon) and s.grey == 1.0 and not s.width]
    return [
        name
        for name, (x, y) in ends.items()
        if any(min(p[0] for p in s.points) < x < max(p[0] for p in s.points) for s in white if _over(s, y))
    ]


def _over(shape: Polygon, y: float) -> bool:
    return min(p[1] for p in shape.points) < y < max(p[1] for p in shape.points)


def check(case: str | Building, paper: str) -> int:
    building = stress.building(case) if isinstance(case, str) else case
    seen = 0
    for found in building.walls:
        for body in test_wall.bodies(case, paper, found.name):
            assert hidden(body.drawing) == [], body.title
            seen += len(list(boxes.groups(body.drawing.shapes, "column-")))
    return seen


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_no_number_lies_over_the_top_of_a_column(name: str, paper: str) -> None:
    assert check(name, paper)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_columns_close_together_under_short_girts(paper: str) -> None:
    made = job(CLOSE)
    assert check(lay_out(made, every(made)), paper)


def test_a_hidden_end_is_found() -> None:
    (body, *_) = test_wall.bodies("plain", "letter", "1")
    groups = boxes.groups(body.drawing.shapes, "column-")
    drawn = [(g.name, s) for g in groups for s in flat(g.shapes) if isinstance(s, Polygon)]
    name, outline = drawn[0]
    x, y = max(outline.points, key=lambda p: p[1])
    white = Polygon(((x - 1, y - 0.1), (x + 1, y - 0.1), (x + 1, y + 0.1), (x - 1, y + 0.1)), 1.0, 0.0)
    spoilt = Drawing(body.drawing.width, body.drawing.height, (*body.drawing.shapes, white))
    assert hidden(spoilt) == [name]


@pytest.mark.parametrize("large", ["normal", "large"])
def test_nailers_that_meet_over_the_columns_stand_clear_of_the_heading(large: str) -> None:
    """A gable without a column under its ridge: a bearing of 12' and a heel of 9 1/4 are 153 1/4, and 12/12 over
    half of the 381 in between the columns' outsides is 190 1/2 more: 343 3/4, where the nailers meet."""
    building = build({"truss.pitch": "12/12", "girts.rake": "2x6", "job.print": large})
    (body,) = test_wall.bodies(building, "letter", "1")[:1]
    pieces = [s for group in boxes.groups(body.drawing.shapes, "piece-") for s in flat(group.shapes)]
    highest = max(y for s in pieces if isinstance(s, Polygon) for _, y in s.points)
    heading = [t.line for t in boxes.written(body.drawing.shapes) if t.line > body.paper.body.y1 - wall.HEAD]
    assert len(heading) == 5  # the title and the face, what does not line up, and how it lies on two lines
    assert highest < min(heading) - 0.08
    view = wall.plot(building, building.walls[3], body.paper.body).views[0]
    assert highest == pytest.approx(view.at(0.0, 343.75)[1])
