"""A drawing laid out for the audit and a page of words as a person reads it: every number of the lists, every group,
the spelling of lengths."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import DASH, group, ink, line, plan, run, seen, text, without_runs

import fonts
from layouts.lengths import Style, show
from sheets.audit_model import Run, Span, Word, edge, inked, shown, spelled, upright
from sheets.lettering import face
from sheets.shapes import Polygon, Text

TRIANGLE = ((0.0, 0.0), (1.0, 0.0), (1.0, 2.0))


def test_a_drawing_laid_out() -> None:
    drawn = plan(
        line(0, 1, 2, 3, 0.02),
        group(
            "outer",
            line(1, 1, 1, 2, 0.03, DASH),
            Polygon(TRIANGLE, 0.5, 0.0),
            group("inner", Polygon(TRIANGLE, None, 0.04), text(1, 2, " A  B ", 0.5), title="Inner"),
            text(3, 4, "C", 0.25, 90, 0.4),
            group("text", text(5, 5, "9", 0.5), text(5.5, 5.2, "1"), line(5.5, 5.1, 5.7, 5.1), title="9 1/2"),
            title="Outer",
        ),
        Polygon(TRIANGLE, None, 0.0),
        group("empty"),
        Text(6, 1, "R", 0.2, fonts.REGULAR),
    )
    assert drawn.strokes == [
        (0, 1, 2, 3, 0.02, 0.0),
        (1, 1, 1, 2, 0.03, 1.0),
        (5.5, 5.1, 5.7, 5.1, 0.01, 0.0),
    ]
    assert drawn.outlines == [
        (0.0, 0.0, 1.0, 0.0, 1.0, 2.0, 128 / 255, 0.0),
        (0.0, 0.0, 1.0, 0.0, 1.0, 2.0, -1.0, 0.04),
    ]
    assert drawn.runs == [
        Run(1, 2, 0.5, 0.0, 0.0, "A B", inked(fonts.BOLD, " A  B") * 0.5, None),
        Run(3, 4, 0.25, 1.0, 0.4, "C", ink("C", 0.25), None),
        Run(5, 5, 0.5, 0.0, 0.0, "9", ink("9", 0.5), "9 1/2"),
        Run(5.5, 5.2, 0.2, 0.0, 0.0, "1", ink("1"), "9 1/2"),
        Run(6, 1, 0.2, 0.0, 0.0, "R", ink("R", cut=fonts.REGULAR), None),
    ]
    assert drawn.cuts == [fonts.BOLD] * 4 + [fonts.REGULAR]
    assert drawn.units == [(0, 1), (1, 2), (2, 4), (4, 5)]
    assert drawn.spans == [
        Span("outer", "Outer", (1, 3), (0, 2), (0, 4)),
        Span("inner", "Inner", (2, 2), (1, 2), (0, 1)),
        Span("empty", "", (3, 3), (2, 2), (4, 4)),
    ]


@pytest.mark.parametrize(("grey", "held"), [(0.0, 0.0), (1.0, 1.0), (0.5, 128 / 255), (0.92, 235 / 255)])
def test_greys_are_held_as_files_hold_them(grey: float, held: float) -> None:
    assert plan(Polygon(TRIANGLE, grey, 0.0)).outlines == [(0.0, 0.0, 1.0, 0.0, 1.0, 2.0, held, 0.0)]


def test_ink_ends_where_the_last_letter_does() -> None:
    of = face(fonts.BOLD)
    for words in ("A", "AB", "ABCDE", "Ag", "fj"):
        want = (of.advance(words[:-1]) + edge(fonts.BOLD, words[-1])) / of.units_per_em
        assert inked(fonts.BOLD, words) == pytest.approx(want)
    assert inked(fonts.BOLD, "") == 0.0
    assert inked(fonts.BOLD, " ") == 0.0
    # behind a space it ends before the line does
    assert inked(fonts.BOLD, "A ") == pytest.approx(edge(fonts.BOLD, "A") / of.units_per_em)


def test_an_accent_of_its_own_ends_before_the_letter_it_is_on() -> None:
    of = face(fonts.BOLD)
    narrow = next((c for c in map(chr, range(0x300, 0x370)) if of.advances.get(c) == 0), None)
    letters = "AWM" if narrow is None else f"W{narrow}"
    ends = [of.advance(letters[:i]) + edge(fonts.BOLD, c) for i, c in enumerate(letters)]
    assert inked(fonts.BOLD, letters) == pytest.approx(max(ends) / of.units_per_em)


@pytest.mark.parametrize("char", "AgQ1i—'\"é")
def test_the_edge_of_a_letter_is_its_farthest_point(char: str) -> None:
    """Against the bounds that fontTools finds."""
    from fontTools.pens.boundsPen import ControlBoundsPen

    pen = ControlBoundsPen(face(fonts.BOLD).glyphs)
    face(fonts.BOLD).draw(char, pen)
    assert edge(fonts.BOLD, char) == round(pen.bounds[2])


def test_a_length_as_it_is_printed() -> None:
    assert shown(26.5625, Style()) == show(26.5625, Style())


# --- a page -----------------------------------------------------------------------------------------------------------

DRAWN = plan(
    text(1, 1, "LOOSE"),
    group(
        "lane",
        line(2, 1, 2, 2),
        line(1, 1, 3, 1),
        line(4, 2, 4.0004, 1),
        Polygon(((5, 1), (6, 1), (6, 2)), 0.5),
        group("mark", line(7, 1, 7, 2), text(2, 1, "GIRT"), group("text", text(2, 2, "9"), text(2.3, 2.05, "A"))),
        text(3, 1, "TAIL", turn=90),
    ),
    group("lane", line(7.5, 1, 7.5, 2), text(7, 1, "NEXT")),
)
LANE, MARK, NEXT = DRAWN.spans


def test_the_groups_of_a_page() -> None:
    page = seen(DRAWN)
    assert [span.name for span in page.spans()] == ["lane", "mark", "lane"]
    assert page.spans(LANE) == [MARK]
    assert page.spans(MARK) == []
    assert page.spans(NEXT) == []
    assert page.spans(Span("", "", (0, 5), (0, 1), (0, 6))) == [LANE, MARK, NEXT]
    # one that reaches further in one list is not inside
    again = MARK._replace(name="again")
    assert page.spans(again) == [MARK]
    for by, to in ((1, 0), (0, -1)):
        for part in (MARK.strokes, MARK.runs):
            short = (part[0] + by, part[1] + to)
            less = again._replace(strokes=short) if part is MARK.strokes else again._replace(runs=short)
            assert page.spans(less) == []


def test_the_strokes_of_a_group() -> None:
    page = seen(DRAWN)
    assert page.strokes_in(LANE) == DRAWN.strokes[:4]
    assert page.strokes_in(MARK) == DRAWN.strokes[3:4]
    page = replace(page, strokes=[DRAWN.strokes[0], None, *DRAWN.strokes[2:]])
    assert page.strokes_in(LANE) == [DRAWN.strokes[0], *DRAWN.strokes[2:4]]


def test_the_edges_of_a_group() -> None:
    page = seen(DRAWN)
    assert page.edges_in(LANE) == [2, 4, 7, 5, 6, 6]
    assert page.edges_in(MARK) == [7]
    assert page.edges_in(NEXT) == [7.5]
    assert replace(page, outlines=[None], strokes=[None] * 5).edges_in(LANE) == []


@pytest.mark.parametrize(
    ("stroke", "is_"),
    [
        ((1, 1, 1, 2, 0, 0), True),
        ((1, 2, 1, 1, 0, 0), True),
        ((1, 1, 1.00049, 2, 0, 0), True),
        ((1, 1, 0.99951, 2, 0, 0), True),
        ((1, 1, 1.00051, 2, 0, 0), False),
        ((1, 1, 0.99949, 2, 0, 0), False),
        ((1, 1, 1, 1.00051, 0, 0), True),
        ((1, 1, 1, 1.00049, 0, 0), False),
        ((1, 1, 2, 1, 0, 0), False),
    ],
)
def test_a_stroke_straight_up(stroke: tuple[float, ...], is_: bool) -> None:
    assert upright(stroke) is is_


def test_the_words_of_a_page_and_of_a_group() -> None:
    page = seen(DRAWN)
    wide = {name: ink(name) for name in ("LOOSE", "GIRT", "TAIL", "NEXT")}
    length = Word("9A", 2, 2, 0.2, False, 2.3 + ink("A") - 2)
    assert page.words_in() == [
        Word("LOOSE", 1, 1, 0.2, False, wide["LOOSE"]),
        Word("GIRT", 2, 1, 0.2, False, wide["GIRT"]),
        length,
        Word("TAIL", 3, 1, 0.2, True, wide["TAIL"]),
        Word("NEXT", 7, 1, 0.2, False, wide["NEXT"]),
    ]
    assert [w.text for w in page.words_in(LANE)] == ["GIRT", "9A", "TAIL"]
    assert [w.text for w in page.words_in(MARK)] == ["GIRT", "9A"]
    assert [w.text for w in page.words_in(NEXT)] == ["NEXT"]
    assert [w.text for w in without_runs(page, [1, 3]).words_in(LANE)] == ["9", "TAIL"]
    assert [w.text for w in page.words_in(MARK._replace(runs=(1, 3)))] == ["GIRT"], "no part of a length"


# --- spelling ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "said"),
    [
        *(("TOP", "TOP"), (" A  B ", "A B"), ("13'–9\"", "13'-9\""), ("A – B", "A – B"), ("9–10", "9–10")),
        *(("'–A", "'–A"), ("1'–2 3'–4", "1'-2 3'-4"), ("", "")),
    ],
)
def test_one_run_as_it_is_typed(words: str, said: str) -> None:
    one = run(words, 1.5, 2.5, 0.3, 0.7, 1.0)
    assert spelled([one]) == Word(said, 1.5, 2.5, 0.3, True, 0.7)
    assert spelled([one._replace(turned=0.0)]).turned is False


WHOLE = run("9", 1.0, 1.0, 0.4, 0.2)
OVER, UNDER = run("1", 1.3, 1.2, 0.2, 0.1), run("16", 1.25, 1.0, 0.2, 0.2)
MARK_OF = run('"', 1.5, 1.0, 0.4, 0.1)


@pytest.mark.parametrize(
    ("runs", "said"),
    [
        ([WHOLE, OVER, UNDER, MARK_OF], '9 1/16"'),
        ([MARK_OF, UNDER, OVER, WHOLE], '9 1/16"'),
        ([WHOLE, OVER._replace(y=1.0), UNDER._replace(y=1.2)], "9 16/1"),
        ([OVER, UNDER, MARK_OF], '1/16"'),
        ([WHOLE._replace(words="over"), OVER, UNDER], "over1/16"),
        ([WHOLE._replace(words="x", wide=0.1), OVER, UNDER], "x 1/16"),
        # a gap of more than 0.15 of the size is a space: from 1.25 back to 1.19
        ([WHOLE._replace(words="x", wide=0.191), OVER, UNDER], "x1/16"),
        ([WHOLE._replace(words="x", wide=0.189), OVER, UNDER], "x 1/16"),
        ([WHOLE._replace(words="9 "), OVER, UNDER], "9 1/16"),
        ([WHOLE, OVER._replace(words=" 1 "), UNDER._replace(words="16 ")], "9 1/16"),
        # not one above the other
        ([WHOLE, OVER, UNDER._replace(x=1.41)], "9116"),
        ([WHOLE, OVER, UNDER._replace(x=1.39)], "9 1/16"),
        ([WHOLE, OVER._replace(x=1.1), UNDER], "9116"),
        # not small: 0.8 of the line's size and more
        ([WHOLE, OVER._replace(size=0.3201), UNDER], "9161"),
        ([WHOLE, OVER, UNDER._replace(size=0.3201)], "9161"),
        ([WHOLE, OVER._replace(size=0.319), UNDER._replace(size=0.319)], "9 1/16"),
        ([WHOLE, OVER], "91"),
        ([WHOLE._replace(words="3'–9"), OVER, UNDER, MARK_OF], "3'-9 1/16\""),
    ],
)
def test_figures_one_above_the_other_are_a_fraction(runs: list[Run], said: str) -> None:
    assert spelled(runs).text == said


def test_where_a_length_stands_and_what_it_takes_up() -> None:
    found = spelled([OVER, WHOLE, MARK_OF, UNDER])
    assert found[1:5] == (1.0, 1.0, 0.4, False)
    assert found.wide == pytest.approx(0.6)
    # turned, it reads up: the line stands at x, over is to the left
    over, under = run("1", 0.8, 1.3, 0.2, 0.1, 1.0), run("16", 1.0, 1.25, 0.2, 0.2, 1.0)
    found = spelled([run("9", 1.0, 1.0, 0.4, 0.2, 1.0), under, over])
    assert found[:5] == ("9 1/16", 1.0, 1.0, 0.4, True)
    assert found.wide == pytest.approx(0.45)
    assert spelled([run("9", 1.0, 1.0, 0.4, 0.2), run("x", 0.5, 2.0, 0.2, 2.0)])[:4] == ("x9", 0.5, 1.0, 0.4)
    assert spelled([run("9", 1.0, 1.0, 0.4, 0.2), run("x", 0.5, 2.0, 0.2, 2.0)]).wide == pytest.approx(2.0)
