"""What a file of readings gives away about itself: another unit, the other sense, a reading that stands out.

Nothing is put right here. What the file has not said itself, and looks otherwise, refuses it until it does; what it has
said is questioned in the warnings. Which signs are looked for is common practice, no source, but for the robust test.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import median

from layouts.book import Book, Sight
from layouts.book_number import FEW, PER_UNIT, elevations, is_bare, sign
from layouts.lengths import Style, show
from layouts.problems import Problem
from layouts.survey import Survey

WILD = 3.5
"""Modified z-score, 0.6745 (x - median) / MAD, beyond which a value stands out: Iglewicz and Hoaglin's recommendation,
seen quoted in public articles; the book itself not seen."""
CALM = 1 / 2
"""Inches: seats that all read alike do not make one that is half an inch off stand out: piers may be that far out (ACI
117 as quoted by the trade: tops of footings + 1/2 in; the standard itself not seen)."""
NEAR_FEET = 15.0  # a bare number below this may be feet: no beam is so near to a seat in inches on a whole building
FAR = 15.0  # feet: no beam is so high above a seat
MM_LEAST = 150.0  # a beam in mm is above this
INCHES_MOST = 200.0  # inches: 16 ft, the longest rod (common practice, no source)
SIXTEENTH = 16
ZERO_FEET = 0.99  # a receiver's plus and minus in feet stays within a foot of its zero
NEARLY = 4  # within this part of all that the seats differ by, a seat is nearly the highest, or nearly the lowest
SPREAD = 12.0  # inches between the highest and the lowest seat (ACI 117 as told lets footings be out by 2 1/2)


def questions(book: Book, survey: Survey, style: Style) -> list[str]:
    """What looks otherwise than the file says, each in words."""
    sights = _of_seats(book)
    if not sights:
        return []
    tall = [f"{text} {right}" for text, right in _elevations(book, sights)]
    found = tall or _unit(book, sights, style)
    return [*found, *_spread(survey, style), *_sense(book, survey, asked=True), *_hit(survey, style)]


def refused(book: Book, survey: Survey | None, style: Style, line: float | None = None) -> list[Problem]:
    """The questions that stop a file: about what it has left unsaid. Without a *survey*, which a loop that does not
    close has refused, those that the numbers alone give rise to: a wrong unit may be why. *line* is the line reading
    that the job gives, inches."""
    sights, found = _of_seats(book), []
    if "unit" not in book.head.said and sights:
        right = 'Say which: a line "unit,inches", "unit,feet" or "unit,mm" before the heading.'
        told = _unit(book, sights, style) or _near_zero(book, sights)
        asked = _elevations(book, sights) or [(text, right) for text in told]
        found += [Problem(book.file, "", "", *one) for one in asked]
    if "sense" not in book.head.said and survey:
        right = 'Say which: a line "sense,down" (larger is lower) or "sense,up" before the heading.'
        found += [Problem(book.file, "", "", text, right) for text in _sense(book, survey)]
    return [*found, *_no_plate(book, line)]


def _of_seats(book: Book) -> list[Sight]:
    return [s for s in book.sights if s.point not in book.head.benchmarks]


# --- the unit -------------------------------------------------------------------------------------------------------


def _unit(book: Book, sights: Sequence[Sight], style: Style) -> list[str]:
    """Whether the numbers are of the size, and the fineness, that their unit makes."""
    bare = [s for s in sights if is_bare(s.text)]
    if not bare:
        return []
    unit = book.head.unit
    numbers = [abs(s.raw) / PER_UNIT[unit] for s in bare]
    small = _small_up if book.head.up else _small_down
    other = small(unit, bare, numbers) or _large(unit, median(numbers))
    if other:
        return [_looks(max(bare, key=lambda s: abs(s.raw)), unit, other, style)]
    return _feet_and_inches(book, bare, style)


def _elevations(book: Book, sights: Sequence[Sight]) -> list[tuple[str, str]]:
    """Heights of the seats above some zero, in decimal feet, taken as a rod's readings; and what to do."""
    bare = [s for s in sights if is_bare(s.text)]
    right = elevations([s.text for s in bare])
    if not right:
        return []
    first = f"{bare[0].point} {bare[0].text}"
    text = f"The readings are taken as {book.head.unit}, and look like elevations in decimal feet: {first}."
    return [(text, right)]


def _large(unit: str, middle: float) -> str:
    """The unit of numbers that are too large for theirs."""
    if unit == "inches" and middle > INCHES_MOST:
        return "mm"
    if unit == "feet" and middle > FAR:
        return "mm" if middle > INCHES_MOST else "inches"
    return ""


def _small_down(unit: str, bare: Sequence[Sight], numbers: Sequence[float]) -> str:
    """The unit of numbers that are too small for theirs, where they hang down from the beam."""
    middle = median(numbers)
    if unit == "inches" and middle < NEAR_FEET and not any(_has_fraction(s.text) for s in bare):
        return "feet"
    if unit == "mm" and middle < MM_LEAST:
        return "feet" if middle < NEAR_FEET else "inches"
    return ""


def _small_up(unit: str, bare: Sequence[Sight], numbers: Sequence[float]) -> str:
    """The same where larger is higher. A number may be small there: a receiver tells how far it is from its zero, with
    a plus or a minus. Then only its fineness speaks: nobody reads whole inches, and nobody less than half a mm."""
    signed, middle = any(sign(s.text) for s in bare), median(numbers)
    whole = all(n == round(n) for n in numbers)
    finer = any(abs(2 * n - round(2 * n)) > 1e-6 for n in numbers)
    if unit == "inches" and signed and whole and len(set(numbers)) > 2:
        return "mm"
    if unit == "inches" and not signed and middle < NEAR_FEET and _odd(bare):
        return "feet"
    if unit == "feet" and signed and max(numbers) > ZERO_FEET + 1e-9:
        return "mm" if whole else "inches"
    if unit == "mm" and middle < MM_LEAST and (finer or not (signed or whole)):
        return "inches" if signed or middle > NEAR_FEET else "feet"
    return ""


def _has_fraction(text: str) -> bool:
    return "/" in text or any(c.isnumeric() and not c.isdecimal() for c in text)


def _odd(bare: Sequence[Sight]) -> bool:
    """Whether most readings are decimals that no rod in sixteenths shows."""
    odd = [s for s in bare if "." in s.text and (s.raw * SIXTEENTH) % 1]
    return 2 * len(odd) > len(bare)


def _near_zero(book: Book, sights: Sequence[Sight]) -> list[str]:
    """Decimals near a receiver's zero may be inches or feet: only the file can say."""
    odd = [s for s in sights if is_bare(s.text)]
    if book.head.unit != "inches" or not book.head.up or not _odd(odd) or median(abs(s.raw) for s in odd) > NEAR_FEET:
        return []
    return [f"Decimals near zero may be inches or feet: {odd[0].point} {odd[0].text}."]


def _looks(sight: Sight, unit: str, other: str, style: Style) -> str:
    here = abs(sight.raw)
    there = here / PER_UNIT[unit] * PER_UNIT[other]
    return (
        f"The readings are taken as {unit}, and look like {other}: {sight.point} {sight.text} would be "
        f"{show(here, style)} in {unit}, {show(there, style)} in {other}."
    )


def _feet_and_inches(book: Book, bare: Sequence[Sight], style: Style) -> list[str]:
    """4.11 in a book of decimal feet may be 4 ft 11 in. Then no figures after the point are over 11, and there are
    single ones, or a jump to the next foot: hundredths that stay within .11 have no such jump."""
    after = [s.text.partition(".")[2] for s in bare]
    if book.head.unit != "feet" or not all(a == "" or (len(a) < 3 and a.isdecimal() and int(a) < 12) for a in after):
        return []
    tall = [s for s, a in zip(bare, after, strict=True) if a in ("10", "11")]
    mixed = any(len(a) == 1 for a in after) and all(len(a) < 2 or a[0] != "0" for a in after)
    feet = {s.text[len(sign(s.text)) :].strip().partition(".")[0] for s in bare}
    jump = len(feet) > 1 and all(len(a) == 2 for a in after)
    if len(bare) < FEW or not tall or not (mixed or jump):
        return []
    sight = tall[0]
    whole, _, inches = sight.text[len(sign(sight.text)) :].strip().partition(".")
    return [
        f"No reading has more than 11 after its point: are they feet and inches? {sight.point} {sight.text} is "
        f"{show(abs(sight.raw), style)} in decimal feet; feet and inches are written {whole}' {inches}\"."
    ]


# --- heights --------------------------------------------------------------------------------------------------------


def _spread(survey: Survey, style: Style) -> list[str]:
    """Seats further apart than piers are. Those that stand out from all others are named as such."""
    values = _believed(survey)
    low, high = max(values, key=lambda n: values[n]), min(values, key=lambda n: values[n])
    by = values[low] - values[high]
    if by <= SPREAD:
        return []
    return [f"{low} reads {show(by, style)} lower than {high}: is the unit right, and were both read on their seats?"]


def _sense(book: Book, survey: Survey, *, asked: bool = False) -> list[str]:
    """The highest and the lowest seat by eye against the readings. What may be the eye's fault refuses no file, and is
    *asked* alone: both read alike, or the one that was named reads nearly as the other end does."""
    values, highest, lowest = _seats(survey), book.head.highest, book.head.lowest
    taken = f"the readings, taken as larger is {'higher' if book.head.up else 'lower'}, say"
    end = f"{taken} the opposite: is the rod read the other way?"
    if highest in values and lowest in values:
        if values[highest] > values[lowest]:
            return [f"By eye {highest} is the highest seat and {lowest} the lowest; {end}"]
        if values[highest] == values[lowest] and asked:
            return [f"{highest} is the highest seat by eye and {lowest} the lowest, and both read alike."]
        return []
    if len(set(values.values())) < 2:
        return []
    if highest in values and values[highest] == max(values.values()):
        return [f"By eye {highest} is the highest seat; {end}"]
    if lowest in values and values[lowest] == min(values.values()):
        return [f"By eye {lowest} is the lowest seat; {end}"]
    believed = _believed(survey)
    high, low = min(believed.values()), max(believed.values())
    if not asked or len(believed) < NEARLY or low - high < CALM:
        return []
    near, end = (low - high) / NEARLY, "is the rod read the other way?"
    if highest in believed and low - believed[highest] <= near:
        return [f"By eye {highest} is the highest seat; {taken} it is one of the lowest: {end}"]
    if lowest in believed and believed[lowest] - high <= near:
        return [f"By eye {lowest} is the lowest seat; {taken} it is one of the highest: {end}"]
    return []


def _believed(survey: Survey) -> dict[str, float]:
    """The seats without those that stand out from all others: one wrong reading would tell of all of them."""
    values = _seats(survey)
    alone = set(wild(values)) - survey.read_twice
    return {n: v for n, v in values.items() if n not in alone}


def _hit(survey: Survey, style: Style) -> list[str]:
    """Benchmarks that the seats have left out of the laying together of two rounds."""
    found = []
    for laid in survey.laid:
        by = " and ".join(laid.benchmarks) or "the seats that both have read"
        found += [
            f"{name} stands {show(abs(d), style)} {'lower' if d > 0 else 'higher'} in round {laid.round} than before, "
            f"and the seats do not: was it hit? Round {laid.round} is laid on the others by {by}, and of {name} the "
            "first reading is kept."
            for name, d in laid.hit.items()
        ]
    return found


def _no_plate(book: Book, line: float | None) -> list[Problem]:
    """The plate makes a difference where not everything was read below it; and where the *line* is given: it is told
    to the seats, so every offset would be too long by the plate."""
    below = [s for s in book.sights if s.concrete]
    other = next((s for s in book.sights if not s.concrete), None)
    if not below or "plate" in book.head.said or (other is None and line is None):
        return []
    wrong = (
        "is read on the concrete, and nothing says how thick the plate up to the seat is: the line reading is given."
    )
    if other:
        wrong = (
            f"is read on the concrete and {other.point} is not, and nothing says how thick the plate between them is."
        )
    right = 'Say so: a line "plate,3/8" before the heading; "plate,0" if there is none.'
    return [Problem(book.file, f"{below[0].place}, column {below[0].point}", below[0].text, wrong, right)]


def _seats(survey: Survey) -> dict[str, float]:
    return {p: v for p, v in survey.values.items() if p not in survey.book.head.benchmarks}


def wild(values: Mapping[str, float]) -> dict[str, float]:
    """Readings that stand out from all others by the robust test, with how far each is from their median, inches."""
    if len(values) < FEW:  # so few say little
        return {}
    middle = median(values.values())
    spread = max(median(abs(v - middle) for v in values.values()), CALM)
    return {name: v - middle for name, v in values.items() if 0.6745 * abs(v - middle) / spread > WILD}
