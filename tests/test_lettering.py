"""Widths, stacked fractions and the breaking of lines, held against the font files themselves."""

from __future__ import annotations

import re
import subprocess
import sys
from functools import lru_cache
from io import BytesIO
from itertools import pairwise
from typing import Any

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

import fonts
from sheets import lettering, wrapping
from sheets.shapes import Group, Line, Point, Polygon, Recorder, Shape, Text, flat

LENGTH = "13'-9 1/16\""
WORDS = st.text(st.sampled_from("abcXYZ 0123456789'\"-/.–½é"), max_size=40)
CUTS = st.sampled_from(sorted(fonts.CUTS))


@lru_cache
def opened(cut: str) -> Any:
    return TTFont(BytesIO(fonts.data(cut)))


def drawn(text: str, size: float = 1.0, **how: Any) -> tuple[Shape, ...]:
    recorder = Recorder(100, 100)
    lettering.write(recorder, 0.0, 0.0, text, size, **how)
    return recorder.drawing().shapes


def runs(text: str, **how: Any) -> list[str]:
    return [s.text for s in flat(drawn(text, **how)) if isinstance(s, Text)]


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_every_character_taken_for_granted_has_a_glyph_of_its_own(cut: str) -> None:
    font = opened(cut)
    names = font.getBestCmap()
    for char in sorted(lettering.KNOWN):
        assert names.get(ord(char), ".notdef") != ".notdef", char
        if char != " ":
            assert font["glyf"][names[ord(char)]].numberOfContours != 0, char


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_figures_are_tabular(cut: str) -> None:
    font = opened(cut)
    names = font.getBestCmap()
    assert len({font["hmtx"][names[ord(digit)]][0] for digit in "0123456789"}) == 1


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_figures_and_letters_that_are_mistaken_for_each_other_differ(cut: str) -> None:
    outline = lettering.face(cut).outline
    assert len({outline(char) for char in "1Il7|"}) == 5
    assert len({outline(char) for char in "0Oo8B6"}) == 6


def test_missing_names_each_character_once_in_order() -> None:
    assert lettering.missing("Ångström 3 × 4½″") == ""
    assert lettering.missing("a✕b▲c✕") == "✕▲"
    assert lettering.missing("a\tb\x00c\u202ed\x7f") == "\t\x00\u202e\x7f"
    assert lettering.missing("日本") == "日本"


def test_a_character_without_a_glyph_is_refused_by_name() -> None:
    for call in (
        lambda: lettering.width("A✕", 1.0),
        lambda: drawn("A✕"),
        lambda: lettering.face("bold").outline("✕"),
    ):
        with pytest.raises(ValueError, match="✕"):
            call()


@given(WORDS, CUTS, st.floats(0.01, 3))
def test_width_of_plain_words_is_the_sum_of_the_advances_in_the_font(text: str, cut: str, size: float) -> None:
    font = opened(cut)
    names, metrics = font.getBestCmap(), font["hmtx"]
    units = sum(metrics[names[ord(char)]][0] for char in text)
    want = units / font["head"].unitsPerEm * size
    assert lettering.width(text, size, cut, fractions=False) == pytest.approx(want, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        (LENGTH, ["13'–9", "1", "16", '"']),
        ("2 1/8", ["2", "1", "8"]),
        ("15/32", ["15", "32"]),
        ("A3 5/8 LONGER", ["A3 ", "5", "8", " LONGER"]),  # A3 is a name, not three inches
        ("2x6 1/2", ["2x6 ", "1", "2"]),
        ("-1/2", ["-", "1", "2"]),
        ("(3/4)", ["(", "3", "4", ")"]),
        ("1 1/2 × 5 1/2", ["1", "1", "2", " × 5", "1", "2"]),
    ],
)
def test_tape_fractions_are_stacked(text: str, pieces: list[str]) -> None:
    (group,) = drawn(text)
    assert isinstance(group, Group)
    assert (group.name, group.title) == ("text", text)
    assert runs(text) == pieces


@pytest.mark.parametrize(
    "text",
    ["5/12 pitch", "3/4/2026", "4/4", "9/8", "0/2", "1/3", "123/4", "1/128", "x1/2", "1.1/2", "A/B", ""],
)
def test_what_is_no_tape_fraction_stays_as_typed(text: str) -> None:
    assert runs(text) == ([text] if text else [])
    assert not any(isinstance(shape, Group) for shape in drawn(text))


def test_feet_and_inches_are_joined_by_a_dash_and_known_as_typed() -> None:
    (group,) = drawn("14'-11\"")
    assert isinstance(group, Group)
    assert group.title == "14'-11\""
    assert runs("14'-11\"") == ["14'–11\""]
    assert runs("the men's-2") == ["the men's-2"]
    assert runs(LENGTH, fractions=False) == [LENGTH]


def parts(cut: str, text: str = "9 1/16") -> tuple[Text, Text, Text, Polygon]:
    whole, above, below, bar = flat(drawn(text, cut=cut))
    assert isinstance(whole, Text)
    assert isinstance(above, Text)
    assert isinstance(below, Text)
    assert isinstance(bar, Polygon)
    return whole, above, below, bar


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_a_fraction_is_large_clear_and_centred(cut: str) -> None:
    whole, above, below, bar = parts(cut)
    cap = opened(cut)["OS/2"].sCapHeight / 1000
    left, right = bar.points[0][0], bar.points[1][0]
    low, high = bar.points[0][1], bar.points[2][1]
    assert (low + high) / 2 == pytest.approx(cap / 2)
    assert above.size == below.size
    assert 0.55 <= above.size <= 0.65
    # digits are at most cap high and reach a hair below their baseline: air on both sides of the bar
    assert above.y - high > 0.04
    assert low - (below.y + cap * below.size) > 0.04
    for number in (above, below):
        wide = lettering.width(number.text, number.size, cut)
        assert number.x + wide / 2 == pytest.approx((left + right) / 2)
        assert left <= number.x
        assert number.x + wide <= right
    end = whole.x + lettering.width(whole.text, whole.size, cut)
    assert 0.05 < left - end < lettering.width(" ", 1.0, cut)


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_a_fraction_stays_within_the_line_of_the_font(cut: str) -> None:
    table = opened(cut)["hhea"]
    _, above, below = lettering.extent("13'-9 15/16\"", 1.0, cut)
    assert above <= table.ascent / 1000
    assert below <= -table.descent / 1000


@given(WORDS, CUTS, st.floats(0.05, 2), st.sampled_from(["left", "center", "right"]), st.floats(0, 1))
def test_turned_text_is_the_level_text_turned_about_its_anchor(
    text: str, cut: str, size: float, align: lettering.Align, grey: float
) -> None:
    level, turned = Recorder(50, 50), Recorder(50, 50)
    wide = lettering.write(level, 3.0, 4.0, text, size, cut, align, 0, grey)
    assert lettering.write(turned, 3.0, 4.0, text, size, cut, align, 90, grey) == wide
    assert wide == lettering.width(text, size, cut)
    for flat_one, upright in zip(flat(level.drawing().shapes), flat(turned.drawing().shapes), strict=True):
        before, after = corners(flat_one), corners(upright)
        want = [place for x, y in before for place in (3 - (y - 4), 4 + (x - 3))]
        assert [place for point in after for place in point] == pytest.approx(want)
        assert not isinstance(flat_one, Line)
        assert not isinstance(upright, Line)
        assert grey == flat_one.grey == upright.grey


def corners(shape: Line | Polygon | Text) -> list[Point]:
    assert not isinstance(shape, Line)
    return [(shape.x, shape.y)] if isinstance(shape, Text) else list(shape.points)


@given(WORDS.filter(str.strip), CUTS, st.floats(0.05, 2))
def test_alignment_moves_by_the_width(text: str, cut: str, size: float) -> None:
    places = []
    for align in ("left", "center", "right"):
        first = next(iter(flat(drawn(text, size, cut=cut, align=align))))
        places.append(corners(first)[0][0])
    wide = lettering.width(text, size, cut)
    assert places[0] - places[1] == pytest.approx(wide / 2, abs=1e-9)
    assert places[0] - places[2] == pytest.approx(wide, abs=1e-9)


def test_text_turned_otherwise_is_refused() -> None:
    with pytest.raises(ValueError, match="45"):
        drawn("A", turn=45)


@given(WORDS, CUTS, st.floats(0.05, 2), st.floats(0.01, 20))
def test_fit_never_enlarges_and_always_fits(text: str, cut: str, size: float, room: float) -> None:
    fitted = lettering.fit(text, size, cut, room)
    assert fitted <= size
    assert lettering.width(text, fitted, cut) <= room
    if lettering.width(text, size, cut) > room:
        assert lettering.width(text, fitted, cut) == pytest.approx(room, rel=1e-9)


@pytest.mark.parametrize("room", [0.0, -1.0, float("nan")])
def test_no_room_is_refused(room: float) -> None:
    with pytest.raises(ValueError, match="no room"):
        lettering.fit("A", 1.0, "bold", room)


@given(WORDS, CUTS, st.floats(0.5, 30))
def test_wrapped_lines_fit_and_lose_nothing(text: str, cut: str, room: float) -> None:
    lines = wrapping.wrap(text, 1.0, cut, room)
    assert " ".join(lines).split() == text.split()
    for line in lines:
        length = re.fullmatch(r"\S*\d \d{1,2}/\d{1,2}\S*", line)
        assert lettering.width(line, 1.0, cut) <= room + 1e-9 or " " not in line or length
    for line, following in pairwise(lines):
        head = re.match(r"\S*\d \d{1,2}/\d{1,2}\S*|\S*", following)
        assert head is not None
        assert lettering.width(f"{line} {head[0]}", 1.0, cut) > room - 1e-9


def test_a_length_is_never_split() -> None:
    text = 'cut 13\'-9 1/16" and 2 1/8" here'
    for room in (0.1, 2.0, 4.0, 6.0, 9.0):
        joined = wrapping.wrap(text, 1.0, "regular", room)
        assert any("13'-9 1/16\"" in line for line in joined)
        assert any('2 1/8"' in line for line in joined)
    assert wrapping.wrap(text, 1.0, "regular", 0.1) == ["cut", "13'-9 1/16\"", "and", '2 1/8"', "here"]
    assert wrapping.wrap("one\n\ntwo", 1.0, "regular", 9.0) == ["one", "", "two"]


@pytest.mark.parametrize(
    "whole",
    [
        "7'-1 1/2\"",
        "12 ft",
        "3.5 m",
        "1,320 lb",
        "10 %",
        "15 mph",
        "5 pies",
        "40 people",
        "555 0142",
        "(555) 010 0142",
        "+1 555 010 0142",
        "Sept 14, 2026",
        "14 de septiembre de 2026",
        '1 1/2 x 5 3/8"',
        "29 CFR 1926.501",
        "wall 7",
    ],
)
def test_what_is_one_number_stands_in_one_line(whole: str) -> None:
    """Whatever the room is that it goes into: of a page it is never torn over two lines."""
    alone = lettering.width(whole, 1.0, "regular")
    for more in range(40):
        lines = wrapping.wrap(f"girt at {whole} or so, and {whole} again", 1.0, "regular", alone + more * 0.2)
        assert sum(line.count(whole) for line in lines) == 2


def test_a_number_for_the_telephone_that_is_wider_than_its_room_is_broken() -> None:
    """Lengths are not: each of them stands on a line of its own."""
    assert wrapping.wrap("call 555 0142", 1.0, "regular", 2.0) == ["call", "555", "0142"]
    assert wrapping.wrap("12 ft", 1.0, "regular", 0.1) == ["12 ft"]


def test_points_are_seventy_second_parts_of_an_inch() -> None:
    assert lettering.pt(36) == 0.5


def test_plain_words_are_checked_without_opening_a_font() -> None:
    script = (
        "import sys; from sheets import lettering, wrapping;"
        "assert lettering.missing('A1 column 3 × 4½ – up ↑') == '';"
        "assert not [m for m in sys.modules if m.startswith(('fontTools', 'reportlab', 'svgwrite'))]"
    )
    subprocess.run([sys.executable, "-c", script], check=True)
