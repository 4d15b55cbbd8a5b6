"""Words and figures: what a run measures, how a length is set, and the runs that draw it.

Sizes are the em in inches (``pt`` turns printer's points into it), places are inches, y up. A length typed as
``13'-9 1/16"`` is set with an en dash between feet and inches and with a stacked fraction; it is drawn as one
group whose title is the words as typed, so that search, screen reader and read-back all know the whole of it.

Words come here in English and are turned here into the language that is spoken, before they are measured or set.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cached_property, lru_cache
from io import BytesIO
from typing import Any, Literal

from msgspec import Struct

import fonts
from fonts import REGULAR
from sheets.language import turn as spoken
from sheets.shapes import Group, Pen, Point, Polygon, Text

Align = Literal["left", "center", "right"]
Turn = Literal[0, 90]

# How a fraction is stacked, in em of the line it stands in. Sizes by eye: digits as large as two rows allow
# without leaving the line's own ascent and descent, so that they are still read where the whole number is.
DIGITS = 0.60  # size of the small digits
GAP = 0.10  # from the whole number, instead of the space
SIDE = 0.03  # the bar stands out this far beyond the wider number
AFTER = 0.03  # clear space behind the fraction
AIR = 0.06  # between bar and digits, above and below
BAR = {fonts.REGULAR: 0.055, fonts.BOLD: 0.075}

# Characters both cuts are known to hold (a test proves it): most words are checked without opening a font.
KNOWN = frozenset(map(chr, range(32, 127))) | frozenset("–—×°½′″·→↑↓←")

# A fraction of a tape has a power of two below: 5/12, a pitch, and 3/4/2026, a date, stay as they are.
_FRACTION = re.compile(r"(?<![^\s\-–—(+±=×])(\d{1,2})/(2|4|8|16|32|64)(?![\d/])")
_WHOLE = re.compile(r"(?<![\w./])\d+ $")  # "9 " before a fraction, but not "A9 ", which is a name
_FEET_DASH = re.compile(r"(?<=\d)'-(?=\d)")


def pt(points: float) -> float:
    """*points* (1/72 in) in inches."""
    return points / 72.0


class Face:
    """One cut, measured: everything in em except ``outline`` and ``advance``, which are in font units."""

    def __init__(self, cut: str) -> None:
        from fontTools.ttLib import TTFont

        self.cut = cut
        self._font: Any = TTFont(BytesIO(fonts.data(cut)), lazy=True)
        self.units_per_em: int = self._font["head"].unitsPerEm
        self._names: dict[int, str] = self._font.getBestCmap()
        metrics = self._font["hmtx"].metrics
        self.advances: dict[str, int] = {
            chr(code): metrics[name][0]
            for code, name in self._names.items()
            if not unicodedata.category(chr(code)).startswith("C")
        }
        self.cap: float = self._font["OS/2"].sCapHeight / self.units_per_em
        self._outlines: dict[str, str] = {}
        self._inks: dict[str, tuple[float, float]] = {}

    def missing(self, text: str) -> str:
        """The characters of *text* this cut cannot print, each once, in order."""
        return "".join(dict.fromkeys(c for c in text if c not in self.advances))

    def advance(self, text: str) -> int:
        """How far the pen moves for *text*, font units; a character the cut lacks is a ``ValueError``."""
        try:
            return sum(map(self.advances.__getitem__, text))
        except KeyError:
            raise ValueError(f"no glyph in the {self.cut} cut for {self.missing(text)!r}") from None

    def width(self, text: str) -> float:
        """How far the pen moves for *text*, em. Sum of advances: no kerning, as the writers set none."""
        return self.advance(text) / self.units_per_em

    @cached_property
    def glyphs(self) -> Any:
        """All outlines, by the names the font has for them, as fontTools gives them."""
        return self._font.getGlyphSet()

    def draw(self, char: str, pen: Any) -> None:
        """Give the outline of *char*, font units, to a *pen* of fontTools."""
        self.advance(char)
        self.glyphs[self._names[ord(char)]].draw(pen)

    def outline(self, char: str) -> str:
        """The outline of *char* as SVG path data in font units, y up; empty for a space."""
        found = self._outlines.get(char)
        if found is None:
            from fontTools.pens.svgPathPen import SVGPathPen

            pen = SVGPathPen(self.glyphs, ntos=lambda v: str(round(v)))
            self.draw(char, pen)
            found = self._outlines[char] = pen.getCommands()
        return found

    def ink(self, text: str) -> tuple[float, float]:
        """How far the ink of *text* reaches above and below the baseline, em, both at least 0."""
        above = below = 0.0
        for char in set(text):
            if char not in self._inks:
                self._inks[char] = self._measured(char)
            up, down = self._inks[char]
            above, below = max(above, up), max(below, down)
        return above, below

    def _measured(self, char: str) -> tuple[float, float]:
        from fontTools.pens.boundsPen import BoundsPen

        pen = BoundsPen(self.glyphs)
        self.draw(char, pen)
        _, low, _, high = pen.bounds or (0, 0, 0, 0)
        return max(0.0, high / self.units_per_em), max(0.0, -low / self.units_per_em)


@lru_cache(maxsize=4)
def face(cut: str) -> Face:
    """The measured cut, opened once; *cut* as in ``fonts``."""
    return Face(cut)


def missing(text: str) -> str:
    """The characters of *text* that a cut we print in lacks, once each, in order; control characters too."""
    if KNOWN.issuperset(text):
        return ""
    return "".join(c for c in dict.fromkeys(text) if any(face(cut).missing(c) for cut in fonts.CUTS))


class _Run(Struct, frozen=True):
    """Plain characters at (x, y) em from the start of the line, *size* em of the line."""

    x: float
    y: float
    text: str
    size: float


class _Setting(Struct, frozen=True):
    """A line as it is set, in em: the runs, the bars (left, right, middle) and the width."""

    runs: tuple[_Run, ...]
    bars: tuple[tuple[float, float, float], ...]
    width: float
    changed: bool  # what stands there is not, letter by letter, what was typed


def _plain(text: str, cut: str) -> _Setting:
    runs = (_Run(0.0, 0.0, text, 1.0),) if text.strip() else ()
    return _Setting(runs, (), face(cut).width(text), False)


def _stack(x: float, top: str, bottom: str, cut: str) -> tuple[tuple[_Run, _Run], float]:
    """The two numbers of a fraction whose bar begins at *x*, half a capital high, and where the bar ends."""
    measured = face(cut)
    wide_top, wide_bottom = measured.width(top) * DIGITS, measured.width(bottom) * DIGITS
    right = x + max(wide_top, wide_bottom) + 2 * SIDE
    middle, clear = measured.cap / 2, BAR[cut] / 2 + AIR
    centre = (x + right) / 2
    above = _Run(centre - wide_top / 2, middle + clear, top, DIGITS)
    below = _Run(centre - wide_bottom / 2, middle - clear - measured.cap * DIGITS, bottom, DIGITS)
    return (above, below), right


def _is_tape(found: re.Match[str]) -> bool:
    return 0 < int(found[1]) < int(found[2])


@lru_cache(maxsize=16384)
def _set(text: str, cut: str, fractions: bool) -> _Setting:
    """*text* laid out at an em of 1."""
    if not fractions or ("/" not in text and "'-" not in text):
        return _plain(text, cut)
    dashed = _FEET_DASH.sub("'–", text)
    found = [f for f in _FRACTION.finditer(dashed) if _is_tape(f)]
    if not found:
        plain = _plain(dashed, cut)
        return _Setting(plain.runs, plain.bars, plain.width, dashed != text)
    measured = face(cut)
    runs: list[_Run] = []
    bars: list[tuple[float, float, float]] = []
    x, at = 0.0, 0
    for fraction in found:
        words = dashed[at : fraction.start()]
        gap = 0.0
        if _WHOLE.search(dashed, at, fraction.start()):
            words, gap = words[:-1], GAP
        if words.strip():
            runs.append(_Run(x, 0.0, words, 1.0))
        x += measured.width(words) + gap
        numbers, right = _stack(x, fraction[1], fraction[2], cut)
        runs += numbers
        bars.append((x, right, measured.cap / 2))
        x, at = right + AFTER, fraction.end()
    rest = dashed[at:]
    if rest.strip():
        runs.append(_Run(x, 0.0, rest, 1.0))
    return _Setting(tuple(runs), tuple(bars), x + measured.width(rest), True)


def width(text: str, size: float, cut: str = REGULAR, fractions: bool = True) -> float:
    """What ``write`` will take up along the line, inches."""
    return set_width(spoken(text), size, cut, fractions)


def set_width(said: str, size: float, cut: str = REGULAR, fractions: bool = True) -> float:
    """The same of words, or a part of them, that are *said* already in the language that is spoken, inches."""
    return _set(said, cut, fractions).width * size


def extent(text: str, size: float, cut: str = REGULAR, fractions: bool = True) -> tuple[float, float, float]:
    """Width along the line and how far the ink reaches above and below the baseline, inches."""
    setting = _set(spoken(text), cut, fractions)
    above = below = 0.0
    for run in setting.runs:
        up, down = face(cut).ink(run.text)
        above, below = max(above, run.y + up * run.size), max(below, down * run.size - run.y)
    return setting.width * size, above * size, below * size


_BACK = {"left": 0.0, "center": 0.5, "right": 1.0}


def write(
    pen: Pen,
    x: float,
    y: float,
    text: str,
    size: float,
    cut: str = REGULAR,
    align: Align = "left",
    turn: Turn = 0,
    grey: float = 0.0,
    fractions: bool = True,
) -> float:
    """Draw *text*, the left end, middle or right end of its baseline at (x, y); gives its width in inches. *turn* 90
    runs up the page. A ``ValueError`` names characters the cut lacks. One bare ``Text`` comes of words that are set as
    they are typed; a length (en dash, stacked fraction) comes as a ``Group`` named ``text``, its title the words as
    typed."""
    text = spoken(text)
    setting = _set(text, cut, fractions)
    if turn not in (0, 90):
        raise ValueError(f"text is turned 0 or 90 degrees, not {turn}")
    back = setting.width * _BACK[align]

    def at(along: float, up: float) -> Point:
        along, up = (along - back) * size, up * size
        return (x + along, y + up) if turn == 0 else (x - up, y + along)

    runs = [Text(*at(run.x, run.y), run.text, run.size * size, cut, turn, grey) for run in setting.runs]
    if not setting.changed:
        for run in runs:
            pen.text(run)
        return setting.width * size
    half = BAR[cut] / 2
    bars = [
        Polygon((at(a, m - half), at(b, m - half), at(b, m + half), at(a, m + half)), grey, 0.0)
        for a, b, m in setting.bars
    ]
    pen.group(Group("text", (*runs, *bars), text))
    return setting.width * size


def fit(text: str, size: float, cut: str, room: float, fractions: bool = True) -> float:
    """The largest em up to *size* at which *text* takes at most *room* inches; no room is a
    ``ValueError``."""
    if not room > 0:
        raise ValueError(f"no room for {text!r}: {room} in")
    natural = width(text, size, cut, fractions)
    # a hair less than the quotient, so that the product never comes out above the room
    return size if natural <= room else size * room / natural * (1 - 1e-12)
