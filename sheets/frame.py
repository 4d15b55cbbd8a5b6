"""What stands round every sheet: the footer with job, title, page, stamp and check bar; and the stamp itself."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from msgspec import Struct

import fonts
from sheets.language import Said, turn
from sheets.lettering import Align, extent, fit, pt, width, write
from sheets.pages import Page
from sheets.paper import FOOTER, MM, Paper
from sheets.shapes import MEDIUM, THIN, Drawing, Recorder, Shape, Text, flat

# no I, O, 0 or 1: a stamp is read off a wet sheet
ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
LETTERS = 5
WORDS, BAR = 0.30, 0.07  # heights of the footer's words and of the bar along above the margin
LEFT: Align = "left"
RIGHT: Align = "right"
TICK = 0.07  # half a bar's end tick
MUST = pt(9)  # type of what a bar must measure
OVER, CLEAR = 0.03, 0.015  # from a bar to the line of its words, and at the least to what hangs under that: pulg


class Body(Struct, frozen=True):
    """A sheet before its footer: *kind* files it, *title* names it, *tall_bar* asks for a check bar up the side
    too; *parts* are things on it with stamps of their own (title, stamp); a *bare* one, a label, has no footer."""

    kind: str
    title: str
    drawing: Drawing
    paper: Paper
    tall_bar: bool = False
    parts: tuple[tuple[str, str], ...] = ()
    bare: bool = False


class Footer(Struct, frozen=True):
    """What all footers of a packet share; *printer* says what was corrected."""

    job: str
    date: str
    metric: bool
    printer: str = ""


def stamp(content: Iterable[str]) -> str:
    """Five letters made from the words and numbers of a sheet: same content, same stamp."""
    digest = hashlib.sha256("\n".join(content).encode()).digest()
    return Said("".join(ALPHABET[b % 32] for b in digest[:LETTERS]))  # letters that say nothing in any language


def words(shapes: Iterable[Shape]) -> list[str]:
    """Every run of text in *shapes*, in drawing order."""
    return [s.text for s in flat(shapes) if isinstance(s, Text)]


def finish(body: Body, footer: Footer, number: int, count: int) -> tuple[Page, str]:
    """The sheet with its footer, and its stamp."""
    code = stamp(words(body.drawing.shapes))
    if body.bare:
        return Page(body.drawing, f"{body.title} · {body.parts[0][1]}", SECTIONS[body.kind]), code
    pen = Recorder(body.paper.width, body.paper.height)
    pen.place(body.drawing.shapes)
    pen.begin("footer")
    _footer(pen, body, footer, f"page {number} of {count}", code)
    pen.end()
    return Page(pen.drawing(), f"{turn(body.title)} · {code}", turn(SECTIONS[body.kind])), code


SECTIONS = {
    "index": "Index",
    "field": "Field sheet",
    "grade": "Grade sheet",
    "rods": "Rod strips",
    "tags": "Column tags",
    "walls": "Wall diagrams",
    "roof": "Roof sheet",
    "templates": "Templates",
    "cladding": "Sheets of walls and roof",
    "cuts": "Cut sheets",
    "ruler": "Ruler page",
}


def _footer(pen: Recorder, body: Body, footer: Footer, page: str, code: str) -> None:
    paper = body.paper
    left, right, low = paper.margin, paper.width - paper.margin, paper.margin
    right_text = f"{page}  ·  stamp {code}"
    taken = write(pen, right, low + WORDS, right_text, pt(9), fonts.BOLD, "right")
    words = "  ·  ".join(w for w in (footer.job, body.title, footer.date) if w)
    size = fit(words, pt(9), fonts.REGULAR, right - left - taken - 0.2, fractions=False)
    write(pen, left, low + WORDS, words, size, fractions=False)
    bar = bar_length(right - left, footer.metric)
    bar_along(pen, left, low + BAR, bar, footer.metric)
    _corrected(pen, footer.printer, left, low + BAR, bar, footer.metric)
    if body.tall_bar:
        room = paper.height - 2 * paper.margin - FOOTER
        bar_across(pen, right, low + FOOTER, bar_length(room, footer.metric), footer.metric)


def _corrected(pen: Recorder, printer: str, x: float, y: float, bar: float, metric: bool) -> None:
    """Which printer a page was corrected for, either side of what the bar at *y* must measure."""
    middle = width(_must_text(bar, metric), MUST, fonts.BOLD)
    room = (bar - middle) / 2 - 0.2
    whose, _, what = printer.partition(", ")
    for text, at, align in ((whose, x + 0.08, LEFT), (what, x + bar - 0.08, RIGHT)):
        if text:
            size = fit(text, pt(8), fonts.REGULAR, room, fractions=False)
            write(pen, at, y + _over(text, size, fonts.REGULAR), text, size, align=align, fractions=False)


def bar_length(room: float, metric: bool) -> float:
    """The longest bar of whole inches (or 50 mm) that fits in *room* inches."""
    step = 50 * MM if metric else 1.0
    return int(room / step + 1e-9) * step


def bar_name(length: float, metric: bool) -> str:
    """What a bar must measure."""
    return f"{round(length / MM)} mm" if metric else f"{round(length)} in"


def bar_along(pen: Recorder, x: float, y: float, length: float, metric: bool) -> None:
    """A check bar from *x* to *x* + *length*, measured between the middles of its end ticks; what it must measure
    stands over it."""
    pen.begin("check-bar-along", f"check bar {bar_name(length, metric)}")
    pen.stroke(x, y, x + length, y, MEDIUM)
    for at in (x, x + length):
        pen.stroke(at, y - TICK, at, y + TICK, THIN)
    words = _must_text(length, metric)
    write(pen, x + length / 2, y + _over(words, MUST, fonts.BOLD), words, MUST, fonts.BOLD, "center")
    pen.end()


def bar_across(pen: Recorder, x: float, y: float, length: float, metric: bool) -> None:
    """A check bar up the page whose ticks end at *x*."""
    pen.begin("check-bar-across", f"check bar {bar_name(length, metric)}")
    line = x - TICK
    pen.stroke(line, y, line, y + length, MEDIUM)
    for at in (y, y + length):
        pen.stroke(line - TICK, at, line + TICK, at, THIN)
    words = _must_text(length, metric)
    write(pen, line - _over(words, MUST, fonts.BOLD), y + length / 2, words, MUST, fonts.BOLD, "center", 90)
    pen.end()


def _over(words: str, size: float, cut: str) -> float:
    """How far over a bar its words stand, so that no p or g of them touches it."""
    return max(OVER, MEDIUM / 2 + CLEAR + extent(words, size, cut, fractions=False)[2])


def _must_text(length: float, metric: bool) -> str:
    return f"THIS BAR MUST MEASURE {bar_name(length, metric)}"
