"""Tags, walls, cut sheets and mark tables against the layout: how words are paired, to a hundredth of an inch."""

from __future__ import annotations

from collections import Counter

import pytest
from msgspec.structs import replace
from pages_seen import group, plan, seen, small, text, word

from layouts.columns import Column
from layouts.lengths import Style, show
from sheets import audit_numbers
from sheets.audit_model import Word

INCH = Style()
Yielded = list[tuple[str, str, str]]


def column(**changes: object) -> Column:
    """A1 with other values."""
    return replace(small().columns[0], **changes)


def test_level_words_are_rows_from_the_top() -> None:
    a, b, c = word("a", 3.0, 5.0), word("b", 1.0, 5.0099), word("c", 2.0, 4.9)
    turned = word("t", 0.0, 5.0, True)
    assert audit_numbers._rows([c, a, turned, b]) == [[b, a], [c]]
    assert audit_numbers._rows([a, word("b", 1.0, 5.0101)]) == [[word("b", 1.0, 5.0101)], [a]]
    # each within a hundredth of the first of its line
    stairs = [word(str(i), float(i), 5.0 - i * 0.006) for i in range(3)]
    assert audit_numbers._rows(stairs) == [stairs[:2], stairs[2:]]
    assert audit_numbers._rows([]) == []


def test_the_footer_is_no_part_of_a_page() -> None:
    words = text(1.0, 2.0, "A"), text(1.0, 1.0, "B")
    foot = group("footer", text(1.0, 0.5, "PAGE"))
    assert [w.text for w in audit_numbers._body(seen(plan(*words, foot, text(1.0, 0.2, "MORE"))))] == ["A", "B"]
    assert [w.text for w in audit_numbers._body(seen(plan(*words, group("foot", text(1.0, 0.5, "PAGE")))))] == [
        "A",
        "B",
        "PAGE",
    ]


# --- the offset ------------------------------------------------------------------------------------------------------

UP = "OFFSET: the grade line, up from the bottom end"
BELOW = "OFFSET: the grade line, BELOW THE bottom end"
CAPTION = word(UP, 1.0, 5.0, wide=3.0)


def offset(*words: Word, inches: float = 2.5) -> Yielded:
    return list(audit_numbers._offset(words, column(offset=inches), INCH))


def test_the_offset_under_its_caption() -> None:
    figure = word('2 1/2"', 2.0, 4.0)
    assert offset(CAPTION, figure) == []
    assert offset(figure) == [("offset", "a caption", "nothing")]
    assert offset(CAPTION) == [("offset", '2 1/2"', UP)]
    assert offset(CAPTION, word('3 1/2"', 2.0, 4.0)) == [("offset", '2 1/2"', '3 1/2"')]
    assert offset(word("THE OFFSET", 1.0, 6.0), CAPTION, figure) == []


@pytest.mark.parametrize(
    ("y", "x", "turned", "hit"),
    [
        (4.9899, 2.0, False, True),
        (4.9901, 2.0, False, False),
        (4.5, 0.501, False, True),
        (4.5, 0.499, False, False),
        (4.5, 9.0, False, True),
        (4.5, 2.0, True, False),
        (3.9, 2.0, False, False),
    ],
)
def test_the_nearest_words_under_it_are_the_offset(y: float, x: float, turned: bool, hit: bool) -> None:
    """Under its line, and not all of them left of it."""
    found = offset(CAPTION, word("7", x, y, turned), word('2 1/2"', 2.0, 4.0))
    assert found == ([("offset", '2 1/2"', "7")] if hit else [])


def test_whether_it_is_above_or_below() -> None:
    figure = word('2 1/2"', 2.0, 4.0)
    assert offset(CAPTION, figure, inches=-2.5) == [("offset", "below the bottom end", UP)]
    below = CAPTION._replace(text=BELOW)
    assert offset(below, figure, inches=-2.5) == []
    assert offset(below, figure) == [("offset", "up from the bottom end", BELOW)]
    assert offset(CAPTION, word('0"', 2.0, 4.0), inches=0.0) == []


# --- the figure of a cut ---------------------------------------------------------------------------------------------

NAME, FACE = word("BEARING", 1.0, 5.0, wide=1.0), word("on the block", 1.0, 4.8, wide=1.5)
HEIGHT = word("12'-1\"", 4.0, 5.0)


def figure(*words: Word) -> Yielded:
    return list(audit_numbers._figure(words, "BEARING", "on the block", "12'-1\""))


def test_the_figure_on_the_line_of_a_cut() -> None:
    place, want = "cut BEARING on the block", "12'-1\""
    assert figure(NAME, FACE, HEIGHT) == []
    assert figure(HEIGHT, FACE, NAME, word("13'", 4.0, 4.5), word("14'", 4.0, 5.6)) == []
    assert figure(NAME, FACE, HEIGHT._replace(text="12'-2\"")) == [(place, want, "12'-2\"")]
    assert figure(NAME, FACE) == [(place, want, "BEARING")]
    for words in ((NAME,), (FACE,), (HEIGHT,), ()):
        assert figure(*words, HEIGHT) == [(place, f"{want} beside its name", "no such cut")]
    # words that read up, and words that begin before the name ends, are no figure of it
    assert figure(NAME, FACE, HEIGHT._replace(text="9", turned=True)) == [(place, want, "BEARING")]
    assert figure(NAME, FACE, HEIGHT._replace(text="9", x=2.01), HEIGHT._replace(y=5.1)) == [(place, want, "9")]
    assert figure(NAME, FACE, HEIGHT._replace(text="9", x=2.0), HEIGHT._replace(y=5.1)) == []


@pytest.mark.parametrize(
    ("x", "y", "is_"),
    [
        (1.0, 4.8, True),
        (1.0099, 4.8, True),
        (0.9901, 4.8, True),
        (1.0101, 4.8, False),
        (0.9899, 4.8, False),
        (1.0, 5.0, False),
        (1.0, 5.2, False),
        (2.01, 5.0, True),
        (2.01, 5.0099, True),
        (2.01, 4.9901, True),
        (2.01, 5.0101, False),
        (2.01, 4.9899, False),
        (2.0, 5.0, False),
    ],
)
def test_the_face_stands_under_the_name_or_behind_it(x: float, y: float, is_: bool) -> None:
    found = figure(NAME, FACE._replace(x=x, y=y), HEIGHT)
    assert (found == []) is is_
    assert is_ or found == [("cut BEARING on the block", "12'-1\" beside its name", "no such cut")]


def test_the_face_that_is_nearest_to_a_name_is_its_own() -> None:
    low = NAME._replace(y=4.0)
    assert figure(NAME, low, FACE._replace(y=3.8), HEIGHT._replace(y=4.0), HEIGHT._replace(text="9")) == []
    left = NAME._replace(x=0.995, y=5.5)
    assert figure(NAME, left, FACE, HEIGHT, HEIGHT._replace(text="9", y=5.5)) == []
    # behind its face: the figure begins where that ends
    behind = FACE._replace(x=2.1, y=5.0)
    assert figure(NAME, behind, HEIGHT._replace(text="9", x=3.5), HEIGHT._replace(y=5.2)) == []
    assert figure(NAME, behind, HEIGHT._replace(text="9", x=3.7), HEIGHT._replace(y=5.2)) != []


# --- pieces ----------------------------------------------------------------------------------------------------------


def lengths(*row: str, counts: dict[str, int] | None = None) -> tuple[Yielded, set[str]]:
    """What is told of one line of words on a wall or cut sheet, and the numbers that are met."""
    known: set[str] = set()
    line = [word(one, float(i), 1.0) for i, one in enumerate(row)]
    told = list(audit_numbers._lengths([line], small(), Counter(counts or {"#5": 12}), known))
    return told, known


FIVE = "7'-10 1/2\""


def test_the_length_with_a_number() -> None:
    assert {p.mark: show(p.length, INCH) for p in small().pieces}["#5"] == FIVE
    assert lengths(f"#5 {FIVE}") == ([], {"#5"})
    assert lengths(f"see #5  {FIVE}, and") == ([], {"#5"})
    assert lengths(f"#5 {FIVE}; #3 15'-4\"") == ([], {"#3", "#5"})
    assert lengths("#5 7'-10\"") == ([("piece #5", FIVE, "7'-10\"")], {"#5"})
    assert lengths("#99 7'-10\"") == ([("piece #99", "no piece", "7'-10\"")], {"#99"})
    assert lengths("#5") == ([], set())
    assert lengths("5 7'-10\"", "#5") == ([], set())


@pytest.mark.parametrize(
    "row",
    [
        ("#5", f"12 pc  2x4  {FIVE}"),
        ("#5", f"12 pc 2x4 {FIVE}"),
        ("#5", f'12 pc  1 5/8" x 3 5/8"  {FIVE}'),
        ("#5", f"12 pc  2x4 treated  {FIVE}"),
        ("#5", "12", "2x4", FIVE),
        ("#5", "12", "2x4", FIVE, "square"),
    ],
)
def test_a_line_of_a_table_of_pieces(row: tuple[str, ...]) -> None:
    assert lengths(*row) == ([], {"#5"})
    assert lengths(*row, counts={"#5": 11}) == ([("piece #5, how many", "11", "12")], {"#5"})
    other = tuple(one.replace("7'", "8'") for one in row)
    assert lengths(*other) == ([("piece #5", FIVE, "8'-10 1/2\"")], {"#5"})
    both = [("piece #5", FIVE, "8'-10 1/2\""), ("piece #5, how many", "3", "12")]
    assert lengths(*other, counts={"#5": 3}) == (both, {"#5"})
    assert lengths("#98", *other[1:], counts={"#98": 12})[0] == [("piece #98", "no piece", "8'-10 1/2\"")]


@pytest.mark.parametrize(
    "row", [("#5", "2x4", "12", FIVE), ("#5", "12", "2x4"), ("#5", "12 of 2x4"), ("#5", f"pc 2x4 {FIVE}")]
)
def test_what_is_no_line_of_a_table(row: tuple[str, ...]) -> None:
    assert lengths(*row) == ([], set())


def test_a_number_of_two_lengths(monkeypatch: pytest.MonkeyPatch) -> None:
    """Boards that are alike to a millionth may be printed with two fractions: either is right."""
    monkeypatch.setattr(audit_numbers, "_of", lambda building: {"#5": ['1"', '2"']})
    want = [("piece #5", '1" or 2"', '3"')]
    assert lengths('#5 1"') == lengths('#5 2"') == ([], {"#5"})
    assert lengths('#5 3"') == (want, {"#5"})
    assert lengths("#5", "12", "2x4", '2"') == ([], {"#5"})
    assert lengths("#5", "12", "2x4", '3"') == (want, {"#5"})


def test_a_line_may_begin_with_other_words() -> None:
    assert lengths("wall A", "#5", "11", "2x4", FIVE) == ([("piece #5, how many", "12", "11")], {"#5"})
    assert lengths("wall A", "#5", "11") == ([], set())


# --- offsets under columns -------------------------------------------------------------------------------------------


def under(x: float, y: float, words: str = "7", wide: float = 0.4) -> Yielded:
    """What is told of wall A with words near the name of its column A2, whose middle is at 3."""
    names = word("A2", 2.9, 2.0, wide=0.2), word(words, x, y, wide=wide)
    return list(audit_numbers._offsets(names, small().walls[0], INCH))


OF_A2 = show(small().columns[1].offset, INCH)


@pytest.mark.parametrize(
    ("x", "y", "hit"),
    [
        (2.8, 1.5, True),
        (2.8799, 1.5, True),
        (2.7201, 1.5, True),
        (2.8801, 1.5, False),
        (2.7199, 1.5, False),
        (2.8, 1.9899, True),
        (2.8, 1.9901, False),
        (2.8, 2.5, False),
    ],
)
def test_the_offset_under_a_column(x: float, y: float, hit: bool) -> None:
    assert small().columns[1].name == "A2"
    assert under(x, y) == ([("offset under A2", OF_A2, "7")] if hit else [])
    assert under(x, y, OF_A2) == []


def test_the_nearest_under_a_column_counts_and_one_without_a_tag_says_so() -> None:
    words = [word("A2", 2.9, 2.0, wide=0.2), word(OF_A2, 2.8, 1.8, wide=0.4), word("7", 2.8, 1.5, wide=0.4)]
    wall = small().walls[0]
    assert list(audit_numbers._offsets(words, wall, INCH)) == []
    words[1] = words[1]._replace(y=1.4)
    assert list(audit_numbers._offsets(words, wall, INCH)) == [("offset under A2", OF_A2, "7")]
    words = [word("A4", 2.9, 2.0, wide=0.2), word("NO TAG", 2.8, 1.8, wide=0.4)]
    assert list(audit_numbers._offsets(words, wall, INCH)) == []
    words[1] = words[1]._replace(text='1"')
    assert list(audit_numbers._offsets(words, wall, INCH)) == [("offset under A4", "NO TAG", '1"')]
