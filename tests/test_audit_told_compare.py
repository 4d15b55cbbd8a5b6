"""A page held against its drawing: what is told of one thing that is elsewhere, another, missing or too many, to the
last word, and nothing of what is within the promise."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace
from pages_seen import DASH, as_read, group, ink, line, plan, text, told

from sheets.audit_compare import compare
from sheets.audit_model import NEAR, Read, Run
from sheets.shapes import Polygon

TOP = "TOP"
PAGE = plan(
    line(1.0, 1.0, 2.0, 1.5),
    group(
        "lane", line(3.0, 1.0, 3.0, 2.0, 0.02, DASH), group("mark", Polygon(((1.0, 2.0), (2.0, 2.0), (2.0, 3.0)), 0.6))
    ),
    group("words", text(1.0, 4.0, TOP), text(5.0, 4.0, "SEAT", 0.3, 90, 0.4)),
)
FIRST = "a line (1.0000, 1.0000) to (2.0000, 1.5000), 0.0100 wide"
SECOND = "a dashed line (3.0000, 1.0000) to (3.0000, 2.0000), 0.0200 wide"
OUTLINE = "an outline (1.0000, 2.0000) (2.0000, 2.0000) (2.0000, 3.0000), grey 0.60, its line 0.0080 wide"
LONG = ink(TOP)
RUN = f"'TOP' at (1.0000, 4.0000), 14.40 pt, {LONG:.3f} long"
TALL = f"'SEAT' at (5.0000, 4.0000), 21.60 pt, reading up, grey 0.40, {ink('SEAT', 0.3):.3f} long"
WITHIN, BEYOND = NEAR * 0.99, NEAR * 1.01


def found(read: Read) -> list[tuple[str, str, str, str]]:
    return told(compare("one", PAGE, read)[1])


def test_the_page_that_was_drawn() -> None:
    read = as_read(PAGE)
    page, differences = compare("one", PAGE, read)
    assert differences == []
    assert (page.label, page.plan) == ("one", PAGE)
    assert (page.strokes, page.outlines, page.runs) == (read.strokes, read.outlines, read.runs)


# --- the page itself -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("wide", "high"), [(9e-6, 0.0), (0.0, 9e-6), (-9e-6, -9e-6)])
def test_sides_that_are_right(wide: float, high: float) -> None:
    assert found(replace(as_read(PAGE), width=8.0 + wide, height=6.0 + high)) == []


@pytest.mark.parametrize(("wide", "high"), [(1.1e-5, 0.0), (0.0, 1.1e-5), (0.0, -1.1e-5), (0.25, 0.0), (0.0, -1.0)])
def test_sides_that_are_wrong(wide: float, high: float) -> None:
    sides = f"{8 + wide:.4f} x {6 + high:.4f} in"
    assert found(replace(as_read(PAGE), width=8.0 + wide, height=6.0 + high)) == [
        ("one", "page", "8.0000 x 6.0000 in", sides)
    ]


def test_what_is_none_of_ours_is_told_once() -> None:
    ours = "lines, outlines and words of ours alone"
    assert found(replace(as_read(PAGE), odd=["a picture", "a link", "a picture"])) == [
        ("one", "page", ours, "a picture"),
        ("one", "page", ours, "a link"),
    ]


# --- one number ------------------------------------------------------------------------------------------------------


def put(read: Read, kind: str, index: int, number: int, by: float) -> Read:
    """One number of one thing changed."""
    made = replace(read)
    things = list(getattr(read, kind))
    numbers = list(things[index])
    numbers[number] += by
    things[index] = Run(*numbers) if kind == "runs" else tuple(numbers)
    setattr(made, kind, things)
    return made


@pytest.mark.parametrize("by", [WITHIN, -WITHIN])
@pytest.mark.parametrize("number", range(5))
def test_a_stroke_within_the_promise(number: int, by: float) -> None:
    assert found(put(as_read(PAGE), "strokes", 0, number, by)) == []
    assert found(put(as_read(PAGE), "outlines", 0, number, by)) == []


@pytest.mark.parametrize("by", [BEYOND, -BEYOND])
@pytest.mark.parametrize("number", range(5))
def test_a_stroke_beyond_the_promise(number: int, by: float) -> None:
    n = [1.0, 1.0, 2.0, 1.5, 0.01]
    n[number] += by
    is_ = f"a line ({n[0]:.4f}, {n[1]:.4f}) to ({n[2]:.4f}, {n[3]:.4f}), {n[4]:.4f} wide"
    assert found(put(as_read(PAGE), "strokes", 0, number, by)) == [("one", "page", FIRST, is_)]


def test_a_dash_is_told() -> None:
    assert found(put(as_read(PAGE), "strokes", 0, 5, 1.0)) == [
        ("one", "page", FIRST, FIRST.replace("a line", "a dashed line"))
    ]
    assert found(put(as_read(PAGE), "strokes", 1, 5, -1.0)) == [("one", "lane", SECOND, SECOND.replace("dashed ", ""))]


@pytest.mark.parametrize("by", [BEYOND, -BEYOND])
@pytest.mark.parametrize("number", [0, 1, 2, 3, 4, 5, 7])
def test_an_outline_beyond_the_promise(number: int, by: float) -> None:
    n = [1.0, 2.0, 2.0, 2.0, 2.0, 3.0, 0.6, 0.008]
    n[number] += by
    is_ = (
        f"an outline ({n[0]:.4f}, {n[1]:.4f}) ({n[2]:.4f}, {n[3]:.4f}) ({n[4]:.4f}, {n[5]:.4f}), grey 0.60,"
        f" its line {n[7]:.4f} wide"
    )
    assert found(put(as_read(PAGE), "outlines", 0, number, by)) == [("one", "mark", OUTLINE, is_)]


@pytest.mark.parametrize(("kind", "index", "number"), [("outlines", 0, 6), ("runs", 1, 4)])
def test_a_grey_is_held_to_a_hundredth(kind: str, index: int, number: int) -> None:
    for by in (0.0099, -0.0099):
        assert found(put(as_read(PAGE), kind, index, number, by)) == []
    for by in (0.0101, -0.0101):
        (one,) = found(put(as_read(PAGE), kind, index, number, by))
        grey = 0.6 if kind == "outlines" else 0.4
        want = OUTLINE if kind == "outlines" else TALL
        place = "mark" if kind == "outlines" else "words"
        assert one == ("one", place, want, want.replace(f"grey {grey:.2f}", f"grey {grey + by:.2f}"))


def test_an_outline_that_is_not_filled() -> None:
    assert found(put(as_read(PAGE), "outlines", 0, 6, -1.6)) == [
        ("one", "mark", OUTLINE, OUTLINE.replace("grey 0.60", "not filled"))
    ]
    assert found(put(as_read(PAGE), "outlines", 0, 6, -0.6)) == [
        ("one", "mark", OUTLINE, OUTLINE.replace("grey 0.60", "grey 0.00"))
    ]


@pytest.mark.parametrize("by", [1, -1])
@pytest.mark.parametrize("number", range(3))
def test_a_run_at_its_place_and_of_its_size(number: int, by: int) -> None:
    assert found(put(as_read(PAGE), "runs", 0, number, by * WITHIN)) == []
    n = [1.0, 4.0, 0.2]
    n[number] += by * BEYOND
    is_ = f"'TOP' at ({n[0]:.4f}, {n[1]:.4f}), {n[2] * 72:.2f} pt, {LONG:.3f} long"
    assert found(put(as_read(PAGE), "runs", 0, number, by * BEYOND)) == [("one", "words", RUN, is_)]


def test_a_run_that_is_turned() -> None:
    assert found(put(as_read(PAGE), "runs", 0, 3, 1.0)) == [
        ("one", "words", RUN, RUN.replace(" pt,", " pt, reading up,"))
    ]


@pytest.mark.parametrize("by", [1, -1])
def test_the_ink_of_a_run_ends_where_its_letters_put_it(by: int) -> None:
    """Within a tenth of its size."""
    assert found(put(as_read(PAGE), "runs", 0, 6, by * 0.0199)) == []
    is_ = f"'TOP' at (1.0000, 4.0000), 14.40 pt, {LONG + by * 0.0201:.3f} long"
    assert found(put(as_read(PAGE), "runs", 0, 6, by * 0.0201)) == [("one", "words", RUN, is_)]


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("number", [0, 4])
def test_what_is_no_number_is_near_to_none(bad: float, number: int) -> None:
    read = put(as_read(PAGE), "strokes", 0, number, bad)
    assert found(read)[0][:3] == ("one", "page", FIRST)
    assert len(found(read)) == (2 if number == 0 else 1)


# --- words -----------------------------------------------------------------------------------------------------------


def says(
    words: str | None = None, typed: str | None = None, drawn: str | None = None
) -> list[tuple[str, str, str, str]]:
    """What is told where the first run of the page reads so and is copied so; *drawn* is what should be copied."""
    read = as_read(PAGE)
    read.runs[0] = read.runs[0]._replace(words=TOP if words is None else words, typed=typed)
    of = plan(*PAGE.drawing.shapes)
    of.runs[0] = of.runs[0]._replace(typed=drawn)
    return told(compare("one", of, read)[1])


@pytest.mark.parametrize("words", [TOP, " TOP ", "T OP", "ＴＯＰ"])
def test_words_that_show_as_they_should(words: str) -> None:
    """However they are spaced, and whatever form a letter has."""
    assert says(words) == []


@pytest.mark.parametrize("words", ["TIP", "TOPS", "TO", "top", ""])
def test_words_that_show_otherwise(words: str) -> None:
    assert says(words) == [("one", "words", RUN, RUN.replace("TOP", words, 1))]


@pytest.mark.parametrize(
    ("words", "typed", "drawn"),
    [
        *((TOP, None, None), (TOP, TOP, None), (TOP, "", None), (TOP, " TOP ", None), ("T OP", "T OP", None)),
        *((TOP, TOP, TOP), (TOP, "A TOP", "A TOP")),
    ],
)
def test_words_that_are_copied_as_they_should(words: str, typed: str | None, drawn: str | None) -> None:
    assert says(words, typed, drawn) == []


def test_words_that_are_copied_otherwise() -> None:
    assert says(typed="TIP") == [("one", "words", RUN, f"{RUN}, copied as 'TIP'")]
    assert says(typed=None, drawn="A TOP") == [("one", "words", f"{RUN}, copied as 'A TOP'", RUN)]
    assert says(typed="", drawn="A TOP") == [("one", "words", f"{RUN}, copied as 'A TOP'", f"{RUN}, copied as ''")]
    assert says(typed="A  TOP", drawn="A TOP") == [
        ("one", "words", f"{RUN}, copied as 'A TOP'", f"{RUN}, copied as 'A  TOP'")
    ]
    assert says(typed=" TOP", drawn=TOP) == [("one", "words", RUN, f"{RUN}, copied as ' TOP'")]


# --- one missing, one too many, one elsewhere ------------------------------------------------------------------------

KINDS = [
    ("strokes", 0, "page", FIRST),
    ("strokes", 1, "lane", SECOND),
    ("outlines", 0, "mark", OUTLINE),
    ("runs", 0, "words", RUN),
    ("runs", 1, "words", TALL),
]


@pytest.mark.parametrize(("kind", "index", "place", "said"), KINDS)
def test_one_missing_and_one_twice(kind: str, index: int, place: str, said: str) -> None:
    read = as_read(PAGE)
    (gone,) = [getattr(read, kind).pop(index)]
    page, differences = compare("one", PAGE, read)
    assert told(differences) == [("one", place, said, "nothing")]
    held = getattr(page, kind)
    assert held[index] is None
    assert [one for one in held if one is not None] == getattr(read, kind)
    read = as_read(PAGE)
    getattr(read, kind).insert(0, gone)
    page, differences = compare("one", PAGE, read)
    assert told(differences) == [("one", "page", "nothing", said)]
    assert list(getattr(page, kind)) == list(getattr(PAGE, kind))


def test_things_may_stand_in_any_order() -> None:
    read = as_read(PAGE)
    read.strokes.reverse()
    read.runs.reverse()
    page, differences = compare("one", PAGE, read)
    assert differences == []
    assert (page.strokes, page.runs) == (PAGE.strokes, PAGE.runs)


def test_a_thing_elsewhere_within_reach_and_beyond_it() -> None:
    near = "a line (1.2900, 1.4000) to (2.0000, 1.5000), 0.0100 wide"
    off = "a line (1.3100, 1.4000) to (2.0000, 1.5000), 0.0100 wide"
    read = as_read(PAGE)
    read.strokes[0] = (1.29, 1.4, 2.0, 1.5, 0.01, 0.0)
    page, differences = compare("one", PAGE, read)
    assert told(differences) == [("one", "page", FIRST, near)]
    assert page.strokes[0] == read.strokes[0]
    read.strokes[0] = (1.31, 1.4, 2.0, 1.5, 0.01, 0.0)
    page, differences = compare("one", PAGE, read)
    assert told(differences) == [("one", "page", FIRST, "nothing"), ("one", "page", "nothing", off)]
    assert page.strokes[0] is None


def test_the_same_words_are_found_anywhere_and_others_within_reach() -> None:
    read = as_read(PAGE)
    read.runs[0] = read.runs[0]._replace(x=7.0, y=1.0)
    assert found(read) == [("one", "words", RUN, RUN.replace("(1.0000, 4.0000)", "(7.0000, 1.0000)"))]
    read.runs[0] = read.runs[0]._replace(words="TIP", x=1.4, y=4.2)
    assert found(read) == [("one", "words", RUN, RUN.replace("TOP' at (1.0000, 4.0000)", "TIP' at (1.4000, 4.2000)"))]
    read.runs[0] = read.runs[0]._replace(x=1.4, y=4.4)
    assert found(read) == [
        ("one", "words", RUN, "nothing"),
        ("one", "page", "nothing", RUN.replace("TOP' at (1.0000, 4.0000)", "TIP' at (1.4000, 4.4000)")),
    ]


def test_what_is_alike_is_taken_before_what_is_nearer() -> None:
    read = as_read(PAGE)
    nearer = read.runs[0]._replace(words="TIP", x=1.1)
    read.runs[0] = read.runs[0]._replace(x=1.3)
    read.runs.append(nearer)
    assert found(read) == [
        ("one", "words", RUN, RUN.replace("(1.0000,", "(1.3000,")),
        ("one", "page", "nothing", RUN.replace("TOP' at (1.0000,", "TIP' at (1.1000,")),
    ]
    read = as_read(PAGE)
    read.outlines[0] = (1.3, 2.0, 2.0, 2.0, 2.0, 3.0, 0.6, 0.008)
    read.outlines.append((1.1, 2.0, 2.0, 2.0, 0.6, 0.008))
    assert found(read) == [
        ("one", "mark", OUTLINE, OUTLINE.replace("(1.0000, 2.0000)", "(1.3000, 2.0000)")),
        ("one", "page", "nothing", "an outline (1.1000, 2.0000) (2.0000, 2.0000), grey 0.60, its line 0.0080 wide"),
    ]
