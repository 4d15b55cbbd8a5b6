"""What covers what: a page on which a filled outline is painted over other things than it was drawn over is told,
though all of it is there; an order that changes nothing to be seen is not."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import faults
import pytest
from faults import Bench
from msgspec.structs import replace
from pages_seen import as_read, group, line, plan, text, told
from pdf_by_hand import file

from sheets import audit_html, audit_pdf, svg
from sheets.audit_compare import compare, landing
from sheets.audit_model import Plan
from sheets.audit_svg import read as read_svg
from sheets.profile import Profile
from sheets.shapes import Drawing, Group, Polygon, Shape

WORDS, BELOW, ABOVE = text(1.0, 1.0, "NO"), line(1.0, 1.0, 2.0, 1.0), line(3.0, 1.0, 4.0, 1.0)
FRAME = Polygon(((0.5, 0.5), (4.5, 0.5), (4.5, 2.0), (0.5, 2.0)), None, 0.01)
WHITE = Polygon(((0.9, 0.9), (2.1, 0.9), (2.1, 1.5), (0.9, 1.5)), 1.0, 0.01)
GREY = Polygon(((3.0, 0.9), (4.0, 0.9), (4.0, 1.5)), 0.8, 0.0)
DRAWN = (BELOW, FRAME, group("box", WHITE, WORDS), GREY, ABOVE, text(3.0, 1.0, "9"), text(1.0, 3.0, "UP", turn=90))
WRONG = ("over what it is drawn over", "over other things")


def covered(*order: Shape) -> list[tuple[str, str, str, str]]:
    """What is told of ``DRAWN`` painted in another order."""
    return told(compare("one", plan(*DRAWN), as_read(plan(*order)))[1])


def in_order(*moves: tuple[int, int]) -> list[tuple[str, str, str, str]]:
    """The same with things moved from one place to another of: below, frame, white, words, grey, above, 9, up."""
    left = list(flattened(DRAWN))
    for source, target in moves:
        left.insert(target, left.pop(source))
    return covered(*left)


def flattened(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    for shape in shapes:
        yield from flattened(shape.shapes) if isinstance(shape, Group) else [shape]


def test_the_order_of_the_drawing() -> None:
    assert covered(*DRAWN) == []
    assert plan(*DRAWN).under == [(1, 0), (1, 0), (1, 1)]


@pytest.mark.parametrize(
    ("moves", "place"),
    [
        ([(3, 2)], "box"),  # the words go under their white box
        ([(0, 2)], "box"),  # the line comes out from under it
        ([(5, 4)], "page"),  # the upper line goes under the grey
        ([(6, 4)], "page"),  # a figure goes under the grey
        ([(3, 4)], "page"),  # words come out from under the grey
        ([(1, 2)], "box"),  # the frame comes out from under the white
        ([(2, 4)], "box"),  # the white goes over words and the grey
        ([(5, 0), (1, 6)], "box"),  # one line goes under the white for another
        ([(6, 3), (4, 5)], "page"),  # one word goes under the grey for another
    ],
)
def test_an_order_that_covers_something_else(moves: list[tuple[int, int]], place: str) -> None:
    assert in_order(*moves) == [("one", place, *WRONG)]


@pytest.mark.parametrize("moves", [[(0, 1)], [(5, 7)], [(6, 7)], [(7, 5)], [(5, 6), (6, 7)]])
def test_an_order_that_covers_the_same(moves: list[tuple[int, int]]) -> None:
    """Nothing that is filled comes between."""
    assert in_order(*moves) == []


def test_only_the_first_is_told() -> None:
    two = plan(WHITE, GREY, WORDS)
    assert told(compare("one", two, as_read(plan(WORDS, WHITE, GREY)))[1]) == [("one", "page", *WRONG)]


def test_something_missing_is_told_alone() -> None:
    found = covered(BELOW, WORDS, WHITE, GREY, ABOVE, text(3.0, 1.0, "9"), text(1.0, 3.0, "UP", turn=90))
    assert [(place, is_) for _, place, _, is_ in found] == [("page", "nothing")]


def test_where_a_printer_moves_all() -> None:
    profile = Profile(printer="Office", date="2026-05-04", edge=0.25, along=1.002, across=0.998)
    page = plan(*DRAWN)
    drawn = Plan(profile.correct(page.drawing))
    assert compare("one", page, as_read(drawn), landing(page, profile))[1] == []
    under = Plan(profile.correct(plan(*DRAWN[:2], WORDS, WHITE, *DRAWN[3:]).drawing))
    assert told(compare("one", page, as_read(under), landing(page, profile))[1]) == [("one", "box", *WRONG)]


def test_runs_in_parts_are_counted_as_one() -> None:
    page = plan(text(1.0, 1.0, "ABC DEF"), WHITE, text(1.0, 3.0, "TOP"))
    read = as_read(page)
    whole = read.runs[0]
    parts = [whole._replace(words="ABC ", wide=0.1), whole._replace(x=1.2, words="DEF", wide=whole.wide - 0.2)]
    read.runs[:1] = parts
    read.under = [(0, 2)]
    assert compare("one", page, read)[1] == []
    for other in (0, 1, 3):
        read.under = [(0, other)]
        assert bool(compare("one", page, read)[1]) == (other != 1), "a part is no place to paint between"


# --- what the readers tell of it -------------------------------------------------------------------------------------


def test_the_order_in_an_svg(tmp_path: Path) -> None:
    svg.write(tmp_path / "one.svg", plan(*DRAWN).drawing, "one")
    assert read_svg(tmp_path / "one.svg").under == [(1, 0), (1, 0), (1, 1)]


def test_the_order_in_a_pdf() -> None:
    box, stroke, words = "0 0 m 9 0 l 9 9 l h f", "0 0 m 9 9 l S", "BT /H 10 Tf 1 0 0 1 5 5 Tm (NO) Tj ET"
    (read,) = audit_pdf.read(file("\n".join([box, stroke, box, words, stroke, box, words, words, box]))).pages
    assert read.under == [(0, 0), (1, 0), (2, 1), (2, 3)]


def test_the_order_on_the_page_for_the_phone() -> None:
    box, stroke = '<path d="M0 0L9 0L9 9Z" fill="#ffffff"/>', '<path d="M0 0L9 9M1 1L2 2" fill="none"/>'
    words = '<text x="0" y="0" font-size="100" textLength="100">NO</text>'
    source = f'<svg viewBox="0 0 1000 1000">{box}{stroke}{box}{words}{stroke}{box}</svg>'
    assert audit_html.read(source.encode()).pictures[0].under == [(0, 0), (2, 0), (4, 1)]


# --- whole packets ---------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def tags(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    """Tags alone."""
    return faults.bench(tmp_path_factory.mktemp("order") / "tags", "tags")


def over(drawing: Drawing, white: Polygon, first: bool) -> Drawing:
    """A white box over the page, or under all of it."""
    shapes = (white, *drawing.shapes) if first else (*drawing.shapes, white)
    return Drawing(drawing.width, drawing.height, shapes)


@pytest.mark.parametrize("form", ["pdf", "svg"])
def test_a_white_box_over_a_tag_where_one_is_drawn_under_it(tags: Bench, form: str) -> None:
    """The audit of the packet that is drawn with the box under all else."""
    drawing = tags.drawing(1)
    white = Polygon(((1.0, 1.0), (4.0, 1.0), (4.0, 4.0), (1.0, 4.0)), 1.0, 0.0)
    packet = replace(tags.packet, sheets=tags.spoilt(1, over(drawing, white, True)))
    spoil = tags.spoil_pdf if form == "pdf" else tags.spoil_svg
    spoil(1, over(drawing, white, True))
    assert not [d for d in tags.found(packet) if form in d.sheet]
    spoil(1, over(drawing, white, False))
    found = [d for d in tags.found(packet) if form in d.sheet]
    assert [(d.want, d.found) for d in found] == [WRONG]
