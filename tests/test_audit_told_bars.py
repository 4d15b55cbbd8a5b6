"""What every page has to keep: check bars as long as they say, words inside the page and clear of one another."""

from __future__ import annotations

import pytest
from pages_seen import group, ink, line, plan, seen, text, told

import fonts
from sheets import audit_page
from sheets.audit_model import NEAR
from sheets.lettering import face
from sheets.shapes import Group, Line, Text

# --- check bars ------------------------------------------------------------------------------------------------------


def bar(words: str, *strokes: Line, name: str = "check-bar-along") -> list[tuple[str, str, str, str]]:
    """What is told of a page with one bar."""
    return told(audit_page.bars(seen(plan(group("footer", group(name, *strokes, text(3.0, 1.1, words)))), "p")))


def ticks(left: float, right: float, up: float = 0.0) -> tuple[Line, Line]:
    return line(left, 0.9 + up, left, 1.1 + up), line(right, 0.9 + up, right, 1.1 + up)


def test_a_page_without_a_bar() -> None:
    assert told(audit_page.bars(seen(plan(group("footer", line(1.0, 1.0, 1.0, 2.0))), "p"))) == [
        ("p", "check bar", "one on every page", "none")
    ]


@pytest.mark.parametrize(
    ("words", "long"),
    [
        ("THIS BAR MUST MEASURE 7 in", 7.0),
        ("2.5 in", 2.5),
        ("127 mm", 5.0),
        ("25.4 mm OR 1 in", 1.0),
        ("bar 10 in", 10.0),
    ],
)
def test_a_bar_as_long_as_it_says(words: str, long: float) -> None:
    for by in (0.0, NEAR * 0.99, -NEAR * 0.99):
        end = 0.5 + long + by
        assert bar(words, line(0.5, 1.0, end, 1.0), *ticks(0.5, end)) == []
    for by in (NEAR * 1.01, -NEAR * 1.01):
        end = 0.5 + long + by
        want = ("p", "check-bar-along", f"{long:.4f} in long, as it says", f"{long + by:.4f} in")
        assert bar(words, *ticks(0.5, end), line(0.5, 1.0, end, 1.0)) == [want]


def test_a_bar_up_the_page_and_one_askew() -> None:
    level = line(0.9, 1.0, 1.1, 1.0), line(0.9, 6.0, 1.1, 6.0)
    assert bar("5 in", line(1.0, 1.0, 1.0, 6.0), *level, name="check-bar-across") == []
    assert bar("5 in", line(1.0, 1.0, 4.0, 5.0), line(0.9, 1.0, 1.1, 1.0), line(3.9, 5.0, 4.1, 5.0)) == []


def test_a_bar_without_ticks_where_it_ends() -> None:
    def want(x: float) -> tuple[str, str, str, str]:
        return "p", "check-bar-along", f"a tick at its end ({x:.4f}, 1.0000)", "none"

    whole = line(0.5, 1.0, 2.5, 1.0)
    assert bar("2 in", whole) == [want(0.5), want(2.5)]
    for at, told_of in ((NEAR * 0.99, []), (NEAR * 1.01, [want(0.5)]), (-NEAR * 1.01, [want(0.5)])):
        assert bar("2 in", whole, *ticks(0.5 + at, 2.5)) == told_of
        assert bar("2 in", whole, ticks(0.5, 0.5, at)[0], ticks(2.5, 2.5)[0]) == told_of
    assert bar("2 in", whole, *ticks(0.5, 2.502)) == [want(2.5)]


@pytest.mark.parametrize(("words", "strokes"), [("2 ft", 1), ("2in", 1), ("2 in", 0), ("", 1)])
def test_a_bar_or_its_measure_that_is_missing(words: str, strokes: int) -> None:
    assert bar(words, *(line(0.5, 1.0, 2.5, 1.0),) * strokes) == [
        ("p", "check-bar-along", "a bar and its measure", "one of them missing")
    ]


def test_every_bar_of_a_page_is_measured() -> None:
    def one(name: str, words: str) -> Group:
        return group(name, line(0.5, 1.0, 2.5, 1.0), *ticks(0.5, 2.5), text(3.0, 1.1, words))

    drawn = plan(one("check-bar-along", "rule"), one("check-bar-across", "3 in"), one("check-bar-up", "4 in"))
    assert told(audit_page.bars(seen(drawn, "p"))) == [
        ("p", "check-bar-along", "a bar and its measure", "one of them missing"),
        ("p", "check-bar-across", "3.0000 in long, as it says", "2.0000 in"),
        ("p", "check-bar-up", "4.0000 in long, as it says", "2.0000 in"),
    ]


# --- boxes of words --------------------------------------------------------------------------------------------------


def boxes(*texts: Text, width: float = 4.0) -> list[tuple[str, str, str, str]]:
    return told(audit_page.words("p", plan(*texts, width=width, height=3.0)))


UP, DOWN = (part * 0.5 for part in face(fonts.BOLD).ink("Ag"))
WIDE = ink("Ag", 0.5)
LEAST = 0.005


def ag(x: float, y: float, turn: int = 0) -> Text:
    return text(x, y, "Ag", 0.5, turn)


def place(left: float, low: float, right: float, high: float) -> list[tuple[str, str, str, str]]:
    at = f"({left:.3f}, {low:.3f}) to ({right:.3f}, {high:.3f})"
    return [("p", "'Ag'", "inside 4.000 x 3.000 in", at)]


@pytest.mark.parametrize("by", [LEAST - 1e-6, LEAST + 1e-6])
def test_words_at_the_edge_of_the_page(by: float) -> None:
    """The ink may be over it by five thousandths."""
    ok = by < LEAST
    for x, y in ((-by, 1.0), (4 - WIDE + by, 1.0), (1.0, DOWN - by), (1.0, 3 - UP + by)):
        assert boxes(ag(x, y)) == ([] if ok else place(x, y - DOWN, x + WIDE, y + UP))
    for x, y in ((UP - by, 1.0), (4 - DOWN + by, 1.0), (1.0, -by), (1.0, 3 - WIDE + by)):
        assert boxes(ag(x, y, 90)) == ([] if ok else place(x - UP, y, x + DOWN, y + WIDE))


def inside(one: str, other: str) -> list[tuple[str, str, str, str]]:
    return [("p", f"'{one}'", "clear of other words", f"in '{other}'")]


@pytest.mark.parametrize("by", [LEAST - 1e-6, LEAST + 1e-6])
def test_words_in_one_another(by: float) -> None:
    """They may share five thousandths."""
    a = face(fonts.BOLD).ink("H")[0] * 0.5
    wide = ink("H", 0.5)

    def pair(dx: float, dy: float) -> list[tuple[str, str, str, str]]:
        return boxes(text(1.0, 1.0, "H", 0.5), text(1.0 + dx, 1.0 + dy, "HH", 0.5))

    ok = by < LEAST
    assert pair(wide - by, 0.0) == ([] if ok else inside("H", "HH"))
    assert pair(0.0, a - by) == ([] if ok else inside("H", "HH"))
    assert pair(-ink("HH", 0.5) + by, -0.0) == ([] if ok else inside("H", "HH"))
    assert pair(0.0, -a + by) == ([] if ok else inside("HH", "H"))
    assert pair(wide - by, a - by) == ([] if ok else inside("H", "HH"))
    assert pair(wide - 0.002, a / 2) == []
    assert pair(wide / 2, a - 0.002) == []


def test_words_of_three_texts_and_of_a_length() -> None:
    """A length is one with its figures; of what is copied otherwise the words for that are told."""
    typed = group("text", text(1.0, 1.0, "9", 0.5), text(1.3, 1.2, "1", 0.2), title="9 1/2")
    plain = group("text", text(1.05, 1.05, "A", 0.5), text(1.5, 1.05, "B", 0.5))
    assert told(audit_page.words("p", plan(typed, plain, text(1.1, 1.1, "TOP", 0.5)))) == [
        ("p", "'9 1/2'", "clear of other words", "in 'A B'"),
        ("p", "'9 1/2'", "clear of other words", "in 'TOP'"),
        ("p", "'A B'", "clear of other words", "in 'TOP'"),
    ]
