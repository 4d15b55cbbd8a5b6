"""Pictures on the page for the phone: drawings as SVG whose words are words."""

from __future__ import annotations

from io import BytesIO

import pytest
from fontTools.ttLib import TTFont

import fonts
from sheets.picture import picture
from sheets.shapes import Drawing, Line, Polygon, Text


def drawn(*shapes: Line | Polygon | Text) -> str:
    return picture(Drawing(4.0, 3.0, shapes), "a picture")


def test_a_picture_is_in_thousandths_of_an_inch_from_its_top() -> None:
    found = drawn(
        Line(0.5, 1.0, 2.0, 1.0, 0.008), Line(0.5, 2.0, 2.0, 2.0, 0.008), Polygon(((0, 0), (1, 0), (1, 1)), 0.8, 0.0)
    )
    assert 'viewBox="0 0 4000 3000"' in found
    assert '<path d="M500 2000L2000 2000M500 1000L2000 1000" fill="none" stroke="#000" stroke-width="8"/>' in found
    assert '<path d="M0 3000L1000 3000L1000 2000Z" fill="#cccccc"/>' in found


def test_words_are_words_as_long_as_they_were_laid_out() -> None:
    """Ten figures, all of one width, 1/10 in high: their length by the font file's own tables."""
    found = drawn(Text(1.0, 1.0, "0123456789", 0.1, fonts.REGULAR), Text(1, 1, "&", 0.1, fonts.BOLD, 90, 0.5))
    font = TTFont(BytesIO(fonts.data(fonts.REGULAR)))
    wide = font["hmtx"][font.getBestCmap()[ord("0")]][0] / font["head"].unitsPerEm
    assert f'font-size="100" textLength="{wide * 1000:g}" lengthAdjust="spacingAndGlyphs">0123456789</text>' in found
    assert 'transform="translate(1000 2000)rotate(-90)"' in found
    assert 'class="b" fill="#808080">&amp;</text>' in found


def test_spaces_that_html_would_drop_are_kept() -> None:
    assert ">\u00a0a \u00a0b\u00a0</text>" in drawn(Text(1, 1, " a  b ", 0.1, fonts.REGULAR))


@pytest.mark.parametrize(
    ("shape", "wrong"),
    [
        (Line(0, 0, float("nan"), 0), "not a place"),
        (Line(0, 0, float("inf"), 0), "not a place"),
        (Text(0, 0, "\u4e00", 0.1, fonts.REGULAR), "no glyph"),
        (Text(0, 0, "a\x01", 0.1, fonts.REGULAR), "cannot be written"),
    ],
)
def test_what_cannot_be_drawn_is_refused(shape: Line | Text, wrong: str) -> None:
    with pytest.raises(ValueError, match=wrong):
        drawn(shape)
