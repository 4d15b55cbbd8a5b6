"""A drawing as a picture on a page of HTML: SVG in which words are words.

The SVG files of a packet draw every letter, because a cutter has no typeface. A page that is read on a phone holds the
typeface itself, once, so words are ``text`` here: a fifth of the size, found by the browser's search, and still the
right number where a viewer throws the typeface away: ``textLength`` then keeps each run as long as it was laid out, its
letters narrower and none in another.
1000 units an inch, whole units: nothing is measured off a screen.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from html import escape
from itertools import groupby

import fonts
from sheets.html import Html
from sheets.language import turn
from sheets.lettering import face
from sheets.pages import spoken
from sheets.shapes import Drawing, Line, Polygon, Shape, Text, flat

SCALE = 1000.0  # units an inch
_LOOSE = re.compile(r"^ | $|(?<= ) ")  # spaces that HTML drops
_FAR = 1e7


def picture(drawing: Drawing, label: str, name: str = "") -> Html:
    """*drawing* as an ``svg`` element that is called *label*, and *name* by its class.

    A ``ValueError`` names a place that is not finite, a character without a glyph or a control character.
    """
    wide, high = (f"{side * SCALE:.2f}".rstrip("0").rstrip(".") for side in (drawing.width, drawing.height))
    inner = "\n".join(_shapes(drawing))
    # how wide it is on paper: the style sheet makes it legible by that
    told = f'role="img" aria-label="{escape(spoken(turn(label)))}" style="--in:{drawing.width:.4g}"'
    return Html(f'<svg class="{escape(name)}" viewBox="0 0 {wide} {high}" {told}>\n{inner}\n</svg>')


def _n(inches: float) -> str:
    units = inches * SCALE
    if not -_FAR < units < _FAR:
        raise ValueError(f"not a place on a page: {inches} in")
    return str(round(units))


def _fine(inches: float) -> str:
    """Type sizes and widths, to a tenth of a unit: they are small."""
    return f"{inches * SCALE:.1f}".removesuffix(".0")


def _grey(grey: float) -> str:
    level = round(grey * 255)
    return f"#{level:02x}{level:02x}{level:02x}"


def _shapes(drawing: Drawing) -> Iterator[str]:
    """Every shape in order; neighbouring lines of one style are one path."""
    style: tuple[float, tuple[float, ...]] | None
    for style, some in groupby(flat(drawing.shapes), lambda s: (s.width, s.dash) if isinstance(s, Line) else None):
        if style is not None:
            yield _lines(some, drawing.height, *style)
            continue
        for shape in some:
            if isinstance(shape, Text):
                yield _text(shape, drawing.height)
            elif isinstance(shape, Polygon) and (shape.grey is not None or shape.width > 0):
                yield _polygon(shape, drawing.height)


def _lines(lines: Iterable[Shape], height: float, width: float, dash: tuple[float, ...]) -> str:
    places = "".join(
        f"M{_n(s.x0)} {_n(height - s.y0)}L{_n(s.x1)} {_n(height - s.y1)}" for s in lines if isinstance(s, Line)
    )
    dashed = f' stroke-dasharray="{",".join(map(_fine, dash))}"' if dash else ""
    return f'<path d="{places}" fill="none" stroke="#000" stroke-width="{_fine(width)}"{dashed}/>'


def _polygon(shape: Polygon, height: float) -> str:
    corners = "L".join(f"{_n(x)} {_n(height - y)}" for x, y in shape.points)
    fill = "none" if shape.grey is None else _grey(shape.grey)
    stroke = f' stroke="#000" stroke-width="{_fine(shape.width)}"' if shape.width > 0 else ""
    return f'<path d="M{corners}Z" fill="{fill}"{stroke}/>'


def _text(shape: Text, height: float) -> str:
    x, y = _n(shape.x), _n(height - shape.y)
    place = f'transform="translate({x} {y})rotate(-90)"' if shape.turn else f'x="{x}" y="{y}"'
    cut = ' class="b"' if shape.cut == fonts.BOLD else ""
    fill = f' fill="{_grey(shape.grey)}"' if shape.grey else ""
    words, ems = _words(shape.cut, shape.text)
    long = _fine(ems * shape.size)
    size = f'font-size="{_fine(shape.size)}" textLength="{long}" lengthAdjust="spacingAndGlyphs"'
    return f"<text {place} {size}{cut}{fill}>{words}</text>"


@lru_cache(maxsize=20000)
def _words(cut: str, words: str) -> tuple[str, float]:
    """A run as HTML, and how many em it is long: most stand on many sheets."""
    return _LOOSE.sub("\u00a0", escape(spoken(words))), face(cut).width(words)
