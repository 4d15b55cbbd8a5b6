"""From sights to readings that can be believed: set-ups joined, loops closed, rounds held against one another.

Every set-up of the laser is a beam of unknown height, every point read from it hangs that much below. The first set-up
of the first round that closes is the datum: all readings are told as if taken from there. Within a round the sights are
a net of height differences (``layouts.adjust``): a set-up that shares one point with the others is joined by it, each
further shared point closes a loop (``layouts.loops``). A set-up's first point read again closes a loop of that set-up.

A loop may be off by the limit for every set-up in it (differential levelling: the misclosure of a loop grows with its
set-ups); then least squares spread it, equally over the set-ups of a plain loop. A loop that is off by more refuses its
round. Later rounds are laid on the first (``layouts.laid``).
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from fractions import Fraction
from statistics import median

from msgspec import Struct, field
from msgspec.structs import replace

from layouts.adjust import Difference, adjust
from layouts.book import ONE, Book, Sight
from layouts.fields_wall import ReadingsPart
from layouts.laid import Laid, lay
from layouts.lengths import NOISE, Style, show
from layouts.loops import closings, hanging, parts, tied
from layouts.problems import JobRefused, Problem


class Loop(Struct, frozen=True):
    """A point read again: from the same set-up (its check-back), or by way of others. *off* inches: the later reading
    less what the earlier ones make of it; *allowed* the limit times the *setups* in the loop; *points* those that join
    them, its own first."""

    round: str
    point: str
    setups: tuple[str, ...]
    off: float
    allowed: float
    place: str
    points: tuple[str, ...] = ()

    @property
    def closes(self) -> bool:
        """Whether it is within the limit; a hair of float noise is."""
        return abs(self.off) <= self.allowed + NOISE


class Round(Struct, frozen=True):
    """One round, adjusted. *values*: inches down from the beam of its first set-up, by point; *residuals*: adjusted
    less read, for the sights that were moved; *back*: whether its first point was read again so that it closes a loop
    (a point that only joins two set-ups proves nothing); *beams*: how far each set-up's beam stood above that of the
    first; *hanging*: set-ups that no loop proves, with the one point each is tied by."""

    name: str
    first: str
    setups: tuple[str, ...]
    loops: tuple[Loop, ...]
    values: Mapping[str, float]
    residuals: tuple[tuple[Sight, float], ...]
    beams: Mapping[str, float]
    back: bool
    hanging: Mapping[str, str] = field(default_factory=dict)

    @property
    def refused(self) -> bool:
        """Whether some loop does not close."""
        return not all(loop.closes for loop in self.loops)


class Survey(Struct, frozen=True):
    """All of it. *values*: what each point reads in the end, inches down, in the order of the file: the latest round or
    the mean, but of a benchmark that was hit the first; *read_twice*: points with two readings that agree; *apart*:
    points whose rounds differ by more than the limit, later less earlier."""

    book: Book
    rounds: tuple[Round, ...]
    laid: tuple[Laid, ...]
    values: Mapping[str, float]
    read_twice: frozenset[str]
    apart: Mapping[str, float]


def reduce(book: Book, limits: ReadingsPart, style: Style) -> Survey:
    """The survey of *book*; *style* is for the messages.

    Raises ``JobRefused``: a set-up that shares no point with its round, a round with none in common with the first, a
    loop that does not close and whose seats no other round has read.
    """
    rounds: list[Round] = []
    problems: list[Problem] = []
    for name in dict.fromkeys(s.round for s in book.sights):
        sights = [s for s in book.sights if s.round == name]
        first, *loose = parts(sights)
        problems += [_no_shared(book, name, first[0], part) for part in loose]
        if not loose:
            rounds.append(_round(name, sights, limits))
    good = [r for r in rounds if not r.refused]
    read = {point for r in good for point in r.values}
    for r in rounds:
        if r.refused and not {p for p in r.values if p not in book.head.benchmarks} <= read:
            problems += [_not_closed(book, loop, style) for loop in r.loops if not loop.closes]
    laid, apart = lay(good, book, limits)
    problems += [_no_common(book, r.name, good[0].name) for r in apart]
    if problems:
        raise JobRefused(problems)
    return _survey(book, _proved(rounds, good, book), good, laid, limits)


# --- one round ------------------------------------------------------------------------------------------------------


def _round(name: str, sights: Sequence[Sight], limits: ReadingsPart) -> Round:
    loops = []
    closed = closings(sights)
    for c in closed:
        off = float(c.off) if abs(c.off) > NOISE else 0.0  # what two mm readings differ by in their last binary figure
        allowed = limits.misclosure * len(c.setups)
        loops.append(Loop(name, c.points[0], c.setups, off, allowed, sights[c.at].place, c.points))
    net = [Difference(f"setup {s.setup}", f"point {s.point}", -Fraction(s.down)) for s in sights]
    found = adjust(net, {f"setup {sights[0].setup}": Fraction(0)})
    setups = tuple(dict.fromkeys(s.setup for s in sights))
    first = sights[0].point
    return Round(
        name,
        first,
        setups,
        tuple(loops),
        {s.point: -float(found.heights[f"point {s.point}"]) for s in sights},
        tuple((s, -float(r)) for s, r in zip(sights, found.residuals, strict=True) if abs(r) > NOISE),
        {s: float(found.heights[f"setup {s}"]) for s in setups},
        any(first in loop.points for loop in loops),
        hanging(sights, {setup for c in closed for setup in c.setups}) if len(setups) > 1 else {},
    )


# --- rounds together ------------------------------------------------------------------------------------------------


def _proved(rounds: Sequence[Round], good: Sequence[Round], book: Book) -> Sequence[Round]:
    """*rounds*, their set-ups no longer hanging where another round ties them to the others a second time."""
    if len(good) < 2 or not any(r.hanging for r in good):
        return rounds
    by = tied([[s for s in book.sights if s.round == r.name] for r in good])
    return [replace(r, hanging={s: p for s, p in r.hanging.items() if (r.name, s, p) not in by}) for r in rounds]


def _survey(
    book: Book, rounds: Sequence[Round], good: Sequence[Round], laid: Sequence[Laid], limits: ReadingsPart
) -> Survey:
    shifts = {found.round: found.shift for found in laid}
    hit = {point for found in laid for point in found.hit}
    read: dict[str, list[float]] = {}
    for r in good:
        for point, value in r.values.items():
            read.setdefault(point, []).append(value - shifts.get(r.name, 0.0))
    apart = {p: max(v) - min(v) if v[-1] >= v[0] else min(v) - max(v) for p, v in read.items()}
    apart = {p: d for p, d in apart.items() if abs(d) > limits.differ + NOISE}
    again = {p for r in good for loop in r.loops for p in loop.points} | {p for p, v in read.items() if len(v) > 1}
    take = (lambda v: sum(v) / len(v)) if limits.rounds == "mean" else (lambda v: v[-1])
    order = [p for p in dict.fromkeys(s.point for s in book.sights) if p in read]
    return Survey(
        book,
        tuple(rounds),
        tuple(laid),
        {p: read[p][0] if p in hit else take(read[p]) for p in order},
        frozenset(again - {*apart, *(p for found in laid for half in found.halves for p in half)}),
        apart,
    )


# --- what is wrong --------------------------------------------------------------------------------------------------


def named(round_: str, setup: str = "") -> str:
    """A round, and a set-up in it, in words."""
    return f"round {round_}" + (f", set-up {setup}" if setup else "")


def unproved(r: Round) -> list[str]:
    """What nothing says of a round: whether the laser stood still, and whether a set-up hangs where it should."""
    lines = []
    if not r.back:
        lines.append(
            f"Round {r.name} was not read back on its first point, {r.first}: nobody knows whether the laser stood "
            "still."
        )
    return lines + hung(r, () if r.back else r.setups[:1])


def hung(r: Round, told: Collection[str]) -> list[str]:
    """Set-ups of a round that hang on one point, in words, but those of which it is *told* already."""
    return [
        f"Round {r.name}: set-up {setup} hangs on {point} alone and was not read back, nothing proves it. "
        "Read one more seat from it that another one has read, or shoot another round."
        for setup, point in r.hanging.items()
        if setup not in told
    ]


def _no_shared(book: Book, name: str, first: str, part: Sequence[str]) -> Problem:
    """*part*: set-ups that share points with one another, perhaps, but none with the *first* set-up."""
    sight = next(s for s in book.sights if s.round == name and s.setup == part[0])
    place = f"{sight.place}, {named(name, part[0]) if name != ONE else f'set-up {part[0]}'}"
    wrong = f"shares no point with set-up {first}, nor with one that is joined to it."
    right = "Read one seat, better two, or a benchmark from both, and write it down with each."
    return Problem(book.file, place, "", wrong, right)


def _no_common(book: Book, name: str, first: str) -> Problem:
    sight = next(s for s in book.sights if s.round == name)
    wrong = f"has no point in common with round {first}."
    return Problem(book.file, f"{sight.place}, round {name}", "", wrong, "Read one of its seats or a benchmark again.")


def _not_closed(book: Book, loop: Loop, style: Style) -> Problem:
    sight = next(s for s in book.sights if s.place == loop.place)
    right = "The laser has moved, or a reading is wrong: shoot the round again."
    odd = _odd(book, loop)
    if odd:
        here, there = loop.setups
        right = f"Of the points that set-ups {there} and {here} share, {odd} stands out: read it again from both."
    return Problem(book.file, f"{loop.place}, {loop.point}", sight.text, f"{told(loop, style)}: refused.", right)


def _odd(book: Book, loop: Loop) -> str:
    """The one point shared by two set-ups that does not fit the others; of two neither does. Empty if there is none."""
    if len(loop.setups) != 2:
        return ""
    read: tuple[dict[str, float], dict[str, float]] = ({}, {})
    for sight in book.sights:
        if sight.round == loop.round and sight.setup in loop.setups:
            read[loop.setups.index(sight.setup)].setdefault(sight.point, sight.down)
    differ = {p: down - read[1][p] for p, down in read[0].items() if p in read[1]}
    middle = median(differ.values())
    odd = [p for p, d in differ.items() if abs(d - middle) > loop.allowed + NOISE]
    return odd[0] if len(odd) == 1 else ""


def told(loop: Loop, style: Style) -> str:
    """How a loop closes, in words."""
    off, allowed = show(abs(loop.off), style), show(loop.allowed, style)
    how = f"{off} off" if loop.off else "exactly as before"
    if loop.off and off == show(0.0, style):
        how = f"less than {show(1 / 25.4 if style.unit == 'mm' else 1 / style.fraction, style)} off"
    elif not loop.closes and off == allowed:
        how = f"a little more than {off} off"
    by = f" over {len(loop.setups)} set-ups" if len(loop.setups) > 1 else ""
    return f"round {loop.round}: {loop.point} read again is {how}{by}, {allowed} allowed"
