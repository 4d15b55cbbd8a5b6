"""The ruler page: a rectangle with its diagonals, to be measured with a steel tape, that tells what a printer does.

The page lies on its side, like the rods, and its long side is what a profile calls along. Four numbers are measured:
both bars, which are the lower and the left side of the rectangle, and both diagonals.
"""

from __future__ import annotations

import math
import shlex

from msgspec import Struct
from msgspec.structs import replace

import fonts
from layouts.lengths import Style, show_inches
from sheets.frame import Body, bar_length, bar_name
from sheets.language import Said, turn
from sheets.lettering import fit, pt, width, write
from sheets.paper import MM, Paper
from sheets.profile import Profile
from sheets.shapes import HAIR, MEDIUM, THIN, Recorder
from sheets.wrapping import wrap

KIND = "ruler"
MOST = (10.0, 250 * MM)  # inches: the longest bar, of inches and of millimetres
LEAST = (6.5, 4.5)  # inches: a smaller rectangle does not hold its own words
CORNER = 1.3  # inches from a corner along a diagonal that are left to the ticks
APART = 0.15  # from a diagonal to words beside it
BOX = (1.55, 0.5)
LEAD = 1.32  # line height over type size
SHORTEST = 1.6  # inches: a shorter line is left blank
NAMES = ("along", "across", "rising", "falling")


def bars(paper: Paper, metric: bool) -> tuple[float, float]:
    """How long the bars along and across are drawn, inches: 10 in or 250 mm where *paper* allows, else the most whole
    inches or 50 mm. A ``ValueError`` if the page is too small for its own words."""
    area = _page(paper).body
    along, across = (min(bar_length(side, metric), MOST[metric]) for side in (area.width, area.height))
    if along < LEAST[0] or across < LEAST[1]:
        raise ValueError(f"a ruler page does not go on {paper.name} with {paper.margin:g} in left blank round it")
    return along, across


def command(paper: Paper, metric: bool, profile: Profile) -> str:
    """What is typed after measuring."""
    name = profile.printer or "NAME"
    if not name.isalnum():
        # double quotes serve every shell; what they do not keep from one is quoted the POSIX way
        name = shlex.quote(name) if set(name) & set('"$`\\!%') else f'"{name}"'
    values = " ".join(f"--{bar} ___" for bar in NAMES)
    again = "" if profile.plain else " --again"
    unit = " --metric" if metric else ""
    return f"rodwright ruler --printer {name} --paper {paper.name}{unit}{again} {values}"


def pages(paper: Paper, metric: bool, profile: Profile) -> list[Body]:
    """The ruler page for *paper*. *profile* is what the page will be corrected by, and only named here."""
    along, across = bars(paper, metric)
    page = _page(paper)
    area = page.body
    pen = Recorder(page.width, page.height)
    frame = _Frame(area.x0 + (area.width - along) / 2, area.y0 + (area.height - across) / 2, along, across)
    _sides(pen, frame, metric)
    _diagonals(pen, frame, metric)
    _above(pen, frame, paper, metric, profile)
    _below(pen, frame, Said(command(paper, metric, profile)), metric)
    for i, name in enumerate(NAMES):
        x = frame.x + 0.6 if i < 2 else frame.x + frame.along - 0.6 - BOX[0]
        _box(pen, x, frame.middle[1] + (0.14 if i % 2 == 0 else -0.72), f"{i + 1} {name.upper()} measures", metric)
    return [Body(KIND, f"Ruler page, {paper.name}", pen.drawing(), page)]


def _page(paper: Paper) -> Paper:
    """The sheet on its side. A roll is cut a little longer than it is wide: its run stays the long side."""
    return replace(paper.lying(), width=paper.width + 1) if paper.roll else paper.lying()


class _Frame(Struct, frozen=True):
    """The rectangle: its lower left corner and its sides. The diagonals part it in four triangles for words."""

    x: float
    y: float
    along: float
    across: float

    @property
    def middle(self) -> tuple[float, float]:
        """Where the diagonals cross."""
        return self.x + self.along / 2, self.y + self.across / 2

    def room(self, deep: float) -> float:
        """How wide words may be *deep* inches from the upper or the lower side, clear of both diagonals."""
        return self.along * (1 - 2 * deep / self.across) - 2 * APART


def _sides(pen: Recorder, frame: _Frame, metric: bool) -> None:
    """The four sides; the lower and the left one are the bars, with ticks near the far end."""
    right, top = frame.x + frame.along, frame.y + frame.across
    for name, length, ends in (
        ("ruler-along", frame.along, (frame.x, frame.y, right, frame.y)),
        ("ruler-across", frame.across, (frame.x, frame.y, frame.x, top)),
    ):
        pen.begin(name, f"must measure {bar_name(length, metric)}")
        pen.stroke(*ends, THIN)
        pen.end()
    pen.stroke(frame.x, top, right, top, THIN)
    pen.stroke(right, frame.y, right, top, THIN)
    for below, high in _ticks(metric):
        at = right - below
        pen.stroke(at, frame.y, at, frame.y + high, HAIR)
        at = top - below
        pen.stroke(frame.x, at, frame.x + high, at, HAIR)
    x, y = frame.middle[0], frame.y + 0.1
    write(pen, x, y, f"1  ALONG must measure {bar_name(frame.along, metric)}", pt(15), fonts.BOLD, "center")
    x, y = frame.x + 0.27, frame.middle[1]
    write(pen, x, y, f"2  ACROSS must measure {bar_name(frame.across, metric)}", pt(15), fonts.BOLD, "center", 90)


def _ticks(metric: bool) -> list[tuple[float, float]]:
    """Ticks by how far they stand before the end, and how high they are: 16ths over an inch, or millimetres over 20."""
    if metric:
        return [(n * MM, 0.22 if n % 10 == 0 else 0.15 if n % 5 == 0 else 0.09) for n in range(1, 21)]
    heights = {0: 0.28, 8: 0.22, 4: 0.17, 12: 0.17}
    return [(n / 16, heights.get(n % 16, 0.13 if n % 2 == 0 else 0.09)) for n in range(1, 17)]


def _diagonals(pen: Recorder, frame: _Frame, metric: bool) -> None:
    """Both diagonals, drawn clear of the corners and of their own words; they are measured from corner to corner."""
    long = math.hypot(frame.along, frame.across)
    about = show_inches(long, Style("mm" if metric else "in", 32))
    words = (f"3  RISING about {about}", f"4  FALLING about {about}")
    high = pt(13)
    for name, text, up, at in (("rising", words[0], 1, 0.33), ("falling", words[1], -1, 0.67)):
        wide = width(text, high, fonts.BOLD)
        # the line stops where the words begin: at the sides of their box, or above and below it, whichever is nearer
        half = min((wide / 2 + 0.08) / frame.along, (high / 2 + 0.06) / frame.across)
        pen.begin(f"ruler-{name}", f"about {about}")
        for start, end in ((CORNER / long, at - half), (at + half, 1 - CORNER / long)):
            (x0, y0), (x1, y1) = _on(frame, start, up), _on(frame, end, up)
            pen.stroke(x0, y0, x1, y1, HAIR, (0.1, 0.06))
        pen.end()
        x, y = _on(frame, at, up)
        write(pen, x, y - high * 0.34, text, high, fonts.BOLD, "center")


def _on(frame: _Frame, share: float, up: int) -> tuple[float, float]:
    """A point of a diagonal, by the share of its length from the left."""
    rise = share if up > 0 else 1 - share
    return frame.x + share * frame.along, frame.y + rise * frame.across


def _above(pen: Recorder, frame: _Frame, paper: Paper, metric: bool, profile: Profile) -> None:
    """What page this is and how it is measured, under the upper side, each line as wide as the diagonals leave."""
    x, top = frame.middle[0], frame.y + frame.across
    name = f"RULER PAGE  ·  {paper.name}"
    write(pen, x, top - 0.42, name, fit(name, pt(20), fonts.BOLD, frame.room(0.5)), fonts.BOLD, "center")
    line, unit = ("100 mm", "half a millimetre") if metric else ("1 in", "1/32 in")
    with_what = "It is printed plain." if profile.plain else f"Printed with the profile of {profile.date}."
    rest = (
        "Print at ACTUAL SIZE, 100 %, never fit to page. With one steel tape measure 1 to 4 from corner to corner,"
        f" between the middles of the lines, to {unit}. Leave the tape's hook alone: hold its {line} line on one corner"
        f" and take {line} off what the other shows. Along and across are the sides with ticks; rising goes from lower"
        f" left to upper right, falling from upper left to lower right. {with_what}"
    )
    for deep, size, text in _tapered(frame, rest):
        write(pen, x, top - deep, text, size, align="center")


def _tapered(frame: _Frame, words: str) -> list[tuple[float, float, str]]:
    """*words* in lines that get shorter as the diagonals close in, (depth, size, line), as large as they go there."""
    for size in (pt(points / 2) for points in range(24, 15, -1)):
        found, rest, deep = [], turn(words), 0.46 + size * LEAD
        while rest and frame.room(deep + 0.05) > SHORTEST:
            line = wrap(rest, size, fonts.REGULAR, frame.room(deep + 0.05))[0]
            found.append((deep, size, line))
            rest = Said(rest[len(line) :].lstrip())
            deep += size * LEAD
        if not rest:
            return found
    raise ValueError(f"no room for {words!r}")


def _below(pen: Recorder, frame: _Frame, typed: str, metric: bool) -> None:
    """What the ticks say and what is typed next, over the lower side; a command too long for a line takes two."""
    tick, high = "1 mm" if metric else "1/16 in", 0.76
    if width(typed, pt(9), fonts.BOLD) > frame.room(high + pt(12)):
        head, tail = typed.split(" --along")
        rows: list[tuple[float, str, float, str]] = [
            (high, Said(f"--along{tail}"), 12, fonts.BOLD),
            (high + 0.2, Said(head), 12, fonts.BOLD),
        ]
    else:
        rows = [(high, typed, 12, fonts.BOLD)]
    rows += [
        (
            0.46,
            f"Each tick is {tick}: if the tape's full length falls among them, the print is that much long.",
            10.5,
            "",
        ),
        (rows[-1][0] + 0.22, "Write the four numbers down and type, all on one line:", 10.5, ""),
    ]
    for up, text, size, face in rows:
        cut = face or fonts.REGULAR
        fitted = fit(text, pt(size), cut, frame.room(up + pt(size)))
        write(pen, frame.middle[0], frame.y + up, text, fitted, cut, "center")


def _box(pen: Recorder, x: float, y: float, words: str, metric: bool) -> None:
    """A box to write a number in, its name over it."""
    write(pen, x, y + BOX[1] + 0.06, words, pt(11), fonts.BOLD)
    pen.box(x, y, x + BOX[0], y + BOX[1], None, MEDIUM)
    write(pen, x + BOX[0] - 0.06, y + 0.08, "mm" if metric else "in", pt(11), align="right")
