"""Large figures: each is one, five lines high, and none stands for another."""

from __future__ import annotations

import pytest

from sheets.figures import _GLYPHS, HIGH, large


@pytest.mark.parametrize(
    "text", ["45 1/8", "4.04", "+0.12", "-3/8", "12'-9 11/16\"", "1143", "1143 mm", "4 ft 2 in", "0123456789", "114 cm"]
)
def test_every_figure_is_five_lines_of_plain_characters(text: str) -> None:
    lines = large(text, 200)
    assert len(lines) == HIGH
    assert set("".join(lines)) == {"#", " "}


def test_no_two_figures_are_alike_and_each_is_a_block() -> None:
    assert len(set(_GLYPHS.values())) == len(_GLYPHS)
    assert all(len({len(row) for row in rows}) == 1 and len(rows) == HIGH for rows in _GLYPHS.values())


def test_signs_are_one_sign_however_they_are_typed() -> None:
    assert large("12′ 9 11/16″", 200) == large("12' 9 11/16\"", 200)
    assert large("\N{MINUS SIGN}3/8", 200) == large("-3/8", 200)


@pytest.mark.parametrize(("text", "width"), [("45 ½", 200), ("", 200), ("45 1/8", 32), ("45", -1)])
def test_no_large_figures_where_they_would_not_be_right(text: str, width: int) -> None:
    assert large(text, width) == ()
