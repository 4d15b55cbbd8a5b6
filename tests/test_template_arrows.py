"""Arrows and words of a pattern that goes over several pages: whole on their page, clear of the match lines. An arrow
that a match line cuts in two points nowhere once the sheets are cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import boxes
import pytest
from boxes import Box
from jobs import build
from msgspec.structs import replace
from test_template_pages import walk_groups
from test_templates import SHAPES, laid, only

from layouts.template import Arrow, Template
from sheets import templates
from sheets.frame import Body
from sheets.paper import PAPERS
from sheets.shapes import THICK, Group, Line, Polygon, Shape

DEEP = {"column.depth": "7 1/4"}
EARS = {**DEEP, "truss.pitch": "5/12"}  # too high for a page that lies


def pattern(body: Body) -> Group:
    (found,) = (g for g in walk_groups(body.drawing.shapes) if g.title and g.name.count("-") > 1 and is_pattern(g))
    return found


def is_pattern(group: Group) -> bool:
    return group.name.startswith("template-") and group.name.split("-")[1].isdigit()


def joints(group: Group) -> list[Line]:
    return [
        s
        for g in walk_groups(group.shapes)
        if g.name.startswith("template-match-")
        for s in g.shapes
        if isinstance(s, Line)
    ]


def shafts(group: Group) -> list[Line]:
    """What is thick and no cut."""
    return [s for s in group.shapes if isinstance(s, Line) and s.width == THICK]


def heads(group: Group) -> list[Polygon]:
    return [s for s in group.shapes if isinstance(s, Polygon)]


def off(box: Box, line: Line) -> float:
    """How far a box is from an upright or level line, inches; 0 where it lies on it."""
    if line.x0 == line.x1:
        return max(line.x0 - box.x1, box.x0 - line.x0, 0.0)
    return max(line.y0 - box.y1, box.y0 - line.y0, 0.0)


def bodies(one: Template, paper: str = "letter") -> list[Body]:
    return list(templates.drawn(one, PAPERS[paper], build({}).job.style))


def near(found: Sequence[Body]) -> Iterator[str]:
    """Arrows and words that come nearer to a match line than they may."""
    for number, body in enumerate(found, 1):
        group = pattern(body)
        for line in joints(group):
            arrows: list[Shape] = [*shafts(group), *heads(group)]
            for part in arrows:
                if off(boxes.of_shape(part), line) < 0.1:
                    yield f"part {number}: an arrow at a match line"
            for text in boxes.written(group.shapes):
                if not text.words.startswith("MATCH LINE") and off(text.box, line) < 0.05:
                    yield f"part {number}: {text.words} at a match line"


def test_the_arrow_to_the_outside_ends_before_the_match_line() -> None:
    """Ears across 7 1/4: 0.4 round it make 8.05, on letter two parts of 4.025, so the match line is at 3.625. The arrow
    goes from 0.55 x 7.25 = 3.9875 to 0.15: 0.3625 of it lay beyond the line. Now it begins at 3.625 - 0.25 = 3.375, and
    the 0.1125 that the other part would have are left out."""
    (ears,) = only(EARS, "top", "EARS")
    first, second = (pattern(body) for body in bodies(ears))
    (joint,) = joints(first)
    (level,) = (s for s in shafts(first) if s.y0 == s.y1)
    assert joint.x0 - level.x0 == pytest.approx(0.25)
    tip = min(x for head in heads(first) for x, _ in head.points)
    assert level.x0 - tip == pytest.approx(3.375 - 0.15)
    assert not [s for s in shafts(second) if s.y0 == s.y1]
    assert [t.words for t in boxes.written(first.shapes) if t.words == "OUTSIDE"]


def test_an_arrow_over_a_match_line_is_drawn_on_either_page() -> None:
    """The end of a column 7 1/4 deep, in two parts of 4.025, line at 3.625. The arrow beside it goes from 1.8125 to
    5.4375: from 1.8125 to 3.375 on the first, from 3.875 to 5.4375 on the second, 1.5625 each, where none was drawn at
    all. 0.18 of each is its head."""
    (gauge,) = only(DEEP, "gauge")
    found = [pattern(body) for body in bodies(gauge)]
    assert len(found) == 2
    for group in found:
        (shaft,) = shafts(group)
        (head,) = heads(group)
        assert shaft.y1 - shaft.y0 == pytest.approx(1.5625 - 0.18)
        assert max(y for _, y in head.points) - shaft.y0 == pytest.approx(1.5625)
    assert list(near(bodies(gauge))) == []


def test_a_short_arrow_on_a_match_line_is_moved_aside() -> None:
    """An arrow 0.6 long up the pattern at 3.6, 0.025 before the match line: it is moved to 3.375, on the first page."""
    (ears,) = only(EARS, "top", "EARS")
    first, second = (pattern(body) for body in bodies(replace(ears, arrows=(Arrow((3.6, -1.5), (3.6, -0.9), "TOP"),))))
    (joint,) = joints(first)
    (shaft,) = shafts(first)
    assert joint.x0 - shaft.x0 == pytest.approx(0.25)
    assert shaft.x0 == shaft.x1
    assert shaft.y1 - shaft.y0 == pytest.approx(0.6 - 0.18)
    assert not shafts(second)


@pytest.mark.parametrize("paper", ["letter", "a4", "legal"])
@pytest.mark.parametrize("name", SHAPES)
def test_no_arrow_and_no_word_of_any_pattern_is_at_a_match_line(name: str, paper: str) -> None:
    for deep in ({}, DEEP, {"column.depth": "11 1/4"}):
        for one in laid(build({**SHAPES[name], **deep})):
            found = bodies(one, paper)
            assert list(near(found)) == [], one.title
            for arrow in one.arrows:
                words = [t.words for body in found for t in boxes.written(pattern(body).shapes)]
                assert arrow.word in words or not arrow.word, (one.title, arrow)
            drawn = sum(len(heads(pattern(body))) for body in found)
            assert drawn >= len(one.arrows)


def words_of(body: Body) -> list[boxes.Written]:
    return list(boxes.written(pattern(body).shapes))


@pytest.mark.parametrize(
    ("changes", "kind", "parts", "word"),
    [
        # 2/12: 21 in back, over three pages
        ({"truss.pitch": "2/12"}, "girt", 3, "WASTE"),
        (EARS, "top", 2, "WASTE"),
        (DEEP, "gauge", 2, "SLOT"),
        ({**SHAPES["shoulder"], **DEEP}, "gauge", 2, "WASTE"),
        ({**SHAPES["level soffit"], "roof.fascia": "5 1/2", "truss.pitch": "5/12"}, "tail", 3, "WASTE"),
    ],
)
def test_every_part_says_what_falls_away(changes: dict[str, str], kind: str, parts: int, word: str) -> None:
    one = only(changes, kind)[0]
    found = bodies(one)
    assert len(found) == parts
    assert all(word in [t.words for t in words_of(body)] for body in found), one.title


def test_the_waste_of_a_long_end_is_above_its_cut_on_every_part() -> None:
    """The cut of a 2x4 rises 3.5 over 21: a word whose middle is at x stands higher than x / 6 over the lower edge."""
    (end,) = only({"truss.pitch": "2/12"}, "girt")
    for body in bodies(end):
        group = pattern(body)
        (cut,) = (g for g in walk_groups(group.shapes) if g.name == "template-cut-1")
        (line,) = (s for s in cut.shapes if isinstance(s, Line))
        (waste,) = (t.box for t in words_of(body) if t.words == "WASTE")
        assert (line.y1 - line.y0) / (line.x1 - line.x0) == pytest.approx(1 / 6)
        assert waste.y0 > line.y0 + (waste.x1 - line.x0) / 6


def test_the_word_of_an_arrow_in_a_narrow_board_reads_up_the_arrow() -> None:
    """On a ply 1 1/2 wide the arrow is 0.75 from either edge: a word over 0.75 - 0.12 - 0.04 = 0.59 wide beside it is
    over an edge; turned, its letters 0.19 high, it is not."""
    (ears,) = only({}, "top", "EARS")
    edges = tuple(((x, -1.7), (x, 1.0)) for x in (0.0, 1.5))
    arrow = Arrow((0.75, -1.6), (0.75, -0.45), "UPHILL")
    (body,) = bodies(replace(ears, edges=edges, cuts=(((0.0, 0.0), (1.5, 0.5)),), aids=(), labels=(), arrows=(arrow,)))
    (word,) = words_of(body)
    assert word.box.y1 - word.box.y0 > word.box.x1 - word.box.x0
    assert boxes.crossed(pattern(body).shapes) == []
