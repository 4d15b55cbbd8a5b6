"""Printer profiles: what a printed page measures against what was drawn, and the correction that undoes it.

Along is the paper's long side, across its short side, told on a sheet that stands upright. A point drawn at
(x across, y along), both from the middle of the sheet, lands on paper at (x·across + skew·y, y·along), so it is drawn
where that undoes itself. Coordinates are corrected, never the page; the middle of the sheet stays where it is, so that
at 2 % no point of an 11 in sheet moves by more than 0.11 in.

How profiles are kept in a file is in ``sheets.printers``.
"""

from __future__ import annotations

import math

from msgspec import Struct
from msgspec.structs import astuple

from sheets.shapes import Drawing, Group, Line, Point, Polygon, Shape, Text

MOST_SCALE = 0.02  # real printers are off by under 1 % (common practice, no source); a dialog's fit by 3 to 6 %
MOST_SKEW = 0.01
AGREE = 0.125  # inches: four numbers each read to 1/16 in or better fit one rectangle within this
DIGITS = 6  # decimals that are kept: 0.00001 in on a 10 in bar


class BadMeasure(ValueError):
    """What was measured cannot be the printer's own error; the message says what it most likely is."""


class Profile(Struct, frozen=True):
    """*along* and *across* are printed over drawn; *skew* how far a point of an upright sheet moves to the right for
    each inch it stands higher; *edge* the unprintable edge, inches; *date* when it was measured (ISO, or empty if it
    never was); *residual* the larger error, inches in 10, that a page printed with a profile showed when it was
    measured again, ``None`` if nobody looked."""

    printer: str = ""
    paper: str = ""
    along: float = 1.0
    across: float = 1.0
    skew: float = 0.0
    edge: float = 0.5
    date: str = ""
    residual: float | None = None

    @property
    def plain(self) -> bool:
        """Whether it changes nothing."""
        return self.along == self.across == 1.0 and self.skew == 0.0

    def words(self, metric: bool = False) -> str:
        """The line that pages corrected by it carry: which profile, of what day, and what error is left."""
        if not self.date:
            return "printer not measured, nothing corrected"
        axes = f"along {_off(self.along)}, across {_off(self.across)}, skew {abs(self.skew) * 100:.2f} %"
        if self.residual is None:
            left = "not measured again"
        elif metric:
            left = f"left over {self.residual * 25:.1f} mm in 250"
        else:
            left = f"left over {self.residual:.2f} in in 10"
        return f"{self.printer}, {self.paper}, {self.date}: {axes}: corrected, {left}"

    def brief(self, metric: bool = False) -> str:
        """The same for a footer: nothing where nothing was measured."""
        if not self.date:
            return ""
        if self.residual is None:
            left = "not measured again"
        else:
            left = f"{self.residual * 25:.1f} mm in 250" if metric else f"{self.residual:.2f} in 10 in"
            left = f"left over {left}"
        return f"{self.printer} {self.date}, corrected, {left}"

    def drawn(self, drawing: Drawing, point: Point) -> Point:
        """Where a point of *drawing* has to be drawn to land in its place."""
        across, along = _upright(drawing, point)
        along /= self.along
        return _back(drawing, ((across - self.skew * along) / self.across, along))

    def printed(self, drawing: Drawing, point: Point) -> Point:
        """Where a point drawn on *drawing* lands on paper."""
        across, along = _upright(drawing, point)
        return _back(drawing, (across * self.across + self.skew * along, along * self.along))

    def margin(self, width: float, height: float) -> float:
        """What has to stay blank round a page of *width* x *height* inches, so that nothing on it, corrected, is drawn
        nearer than ``edge`` to its border: a printer that prints short has it drawn further out."""
        a, b = sorted((width / 2, height / 2))
        along = b - (b - self.edge) * self.along
        # what stands highest leans furthest: a - m + skew * (b - m) / along is (a - edge) * across at the most
        lean = abs(self.skew) / self.along
        across = (a - (a - self.edge) * self.across + lean * b) / (1 + lean)
        return max(self.edge, along, across)

    def correct(self, drawing: Drawing) -> Drawing:
        """*drawing* with every coordinate moved so that it lands where it should, and letters of the size that fills
        their place as it is printed. Strokes keep their width."""
        if self.plain:
            return drawing
        sizes = {turn: self._grown(drawing, turn) for turn in (0, 90)}
        return Drawing(drawing.width, drawing.height, tuple(self._moved(drawing, s, sizes) for s in drawing.shapes))

    def _grown(self, drawing: Drawing, turn: int) -> float:
        """How many times as long a line that runs at *turn* degrees is drawn."""
        end = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        return math.dist(self.drawn(drawing, (0.0, 0.0)), self.drawn(drawing, end))

    def _moved(self, drawing: Drawing, shape: Shape, sizes: dict[int, float]) -> Shape:
        if isinstance(shape, Group):
            return Group(shape.name, tuple(self._moved(drawing, s, sizes) for s in shape.shapes), shape.title)
        if isinstance(shape, Polygon):
            return Polygon(tuple(self.drawn(drawing, p) for p in shape.points), shape.grey, shape.width)
        if isinstance(shape, Line):
            x0, y0 = self.drawn(drawing, (shape.x0, shape.y0))
            x1, y1 = self.drawn(drawing, (shape.x1, shape.y1))
            return Line(x0, y0, x1, y1, shape.width, shape.dash)
        x, y = self.drawn(drawing, (shape.x, shape.y))
        return Text(x, y, shape.text, shape.size * sizes[shape.turn], shape.cut, shape.turn, shape.grey)


UNMEASURED = Profile()


def _upright(drawing: Drawing, point: Point) -> Point:
    """*point* as (across, along) from the middle of the upright sheet: one that is wider than tall is turned back."""
    x, y = point[0] - drawing.width / 2, point[1] - drawing.height / 2
    return (x, y) if drawing.height >= drawing.width else (-y, x)


def _back(drawing: Drawing, place: Point) -> Point:
    """What ``_upright`` did, undone."""
    x, y = place if drawing.height >= drawing.width else (place[1], -place[0])
    return x + drawing.width / 2, y + drawing.height / 2


def _off(scale: float) -> str:
    if abs(scale - 1) < 0.00005:
        return "true"
    return f"{abs(scale - 1) * 100:.2f} % {'long' if scale > 1 else 'short'}"


# --- from what was measured -----------------------------------------------------------------------------------------


class Taped(Struct, frozen=True):
    """What a tape says of the ruler page's rectangle, inches: its long and its short side, and its diagonals from
    lower left (*rising*) and from upper left (*falling*), the page lying on its side."""

    along: float
    across: float
    rising: float
    falling: float


def _leaning(got: Taped, long: float) -> float:
    """The skew that the diagonals tell (the sums stand in ``measured``); ``BadMeasure`` if it is more than 1 %."""
    skew = (got.falling**2 - got.rising**2) / (4 * got.across * long)
    if abs(skew) > MOST_SKEW:
        raise BadMeasure(
            f"The diagonals say the page leans by {abs(skew) * 100:.1f} %: the sheet ran in askew, or a diagonal was"
            " misread. Print the page again with the tray guides against the paper, and measure again."
        )
    return skew


def measured(
    drawn: tuple[float, float],
    got: Taped,
    printer: str,
    paper: str,
    day: str,
    edge: float = 0.5,
    previous: Profile | None = None,
) -> Profile:
    """The profile that corrects a printer whose rectangle, *drawn* (along, across) inches, was *got* by tape.

    *previous* is the profile that the measured page was printed with, ``None`` if it was printed plain. Its error is
    then what the page still shows: scales multiply, and the larger of what both scales are off in 10 in is kept as
    ``residual``. Raises ``BadMeasure`` where a scale is off by more than 2 %, the skew by more than 1 %, or the four
    numbers are not of one parallelogram.

    The short side lands as A = (0, a), a measured; the long side, L drawn, as B = (L·along, -L·skew), b long. The
    diagonals are |B + A| and |B - A|, so falling² - rising² = -4 A·B = 4 a L skew, and b² = L² (along² + skew²): both
    are exact. The parallelogram law, rising² + falling² = 2 (a² + b²), holds whatever the printer does: numbers that
    break it were misread. On a page printed with *previous* P the printer is what was measured after what P undid,
    M·P as matrices ((across, skew), (0, along)).
    """
    # long because the sums are shown above, where what they give is told
    long, short = drawn
    _plausible(got, drawn)
    skew = _leaning(got, long)
    along = math.sqrt((got.along / long) ** 2 - skew**2)
    across = got.across / short
    error = 10 * max(abs(along - 1), abs(across - 1))
    before = previous or Profile()
    whole = Profile(
        printer,
        paper,
        round(along * before.along, DIGITS),
        round(across * before.across, DIGITS),
        round(across * before.skew + skew * before.along, DIGITS),
        edge,
        day,
        round(error, DIGITS) if previous else None,
    )
    if max(abs(whole.along - 1), abs(whole.across - 1)) > MOST_SCALE or abs(whole.skew) > MOST_SKEW:
        raise BadMeasure("With what the old profile corrects it comes to more than 2 %. Measure a page printed plain.")
    return whole


def _plausible(got: Taped, drawn: tuple[float, float]) -> None:
    """``BadMeasure`` if these numbers cannot come of a printer left alone."""
    if not all(0 < length < math.inf for length in astuple(got)):
        raise BadMeasure("All four numbers are lengths above 0.")
    for name, length, bar in (("along", got.along, drawn[0]), ("across", got.across, drawn[1])):
        off = length / bar - 1
        if abs(off) > MOST_SCALE:
            raise BadMeasure(
                f"The bar {name} measures {abs(off) * 100:.1f} % {'long' if off > 0 else 'short'}, more than any"
                " printer is off: the print dialog has scaled the page (fit to page shrinks by 3 to 6 %), or the bar"
                " was misread. Print the ruler page at actual size, 100 %, and measure again."
            )
    bars = math.hypot(got.along, got.across)
    gap = abs(math.hypot(got.rising, got.falling) / math.sqrt(2) - bars)
    if gap > AGREE:
        raise BadMeasure(
            f"The four numbers are not of one rectangle: bars and diagonals differ by {gap:.2f} in"
            f" ({gap * 25.4:.0f} mm). One of them was misread; measure all four again."
        )
