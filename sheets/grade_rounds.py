"""Readings as they were written and how well they close: check-backs and loops, what least squares moved, rounds held
against one another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from layouts.book import ONE, Sight
from layouts.building import Building
from layouts.laid import Laid, torn
from layouts.lengths import Style, nearest, show, show_inches, to_unit
from layouts.survey import Loop, Round, Survey, unproved
from sheets.lettering import pt
from sheets.tables import Column, Flow

SIZE = pt(10.5)
NOISE = 1e-6  # inches: nothing
ROUNDS = 3  # rounds that have a column of the table each
SIDE = 4  # pairs side by side in the table of differences


def how(building: Building) -> list[str]:
    """How the readings were taken, as their file says it."""
    found, style = building.readings.survey, building.job.style
    if found is None:
        return []
    head = found.book.head
    unit = {"inches": "inches", "feet": "decimal feet", "mm": "mm"}[head.unit]
    # a seat is higher than the concrete by its plate: heights grow by it, readings from the beam down get less
    done = "added" if head.up else "taken off"
    on = f"on the concrete, {show(head.plate, style)} of plate {done}" if head.concrete else "on the seats"
    lines = [f"Read in {unit}, {on}; larger is {'HIGHER' if head.up else 'LOWER'}."]
    if head.plate and not head.concrete:
        lines[0] += f" Where the concrete was read {show(head.plate, style)} of plate is {done}."
    kept = [f"{word} {text}" for word, text in head.kept.items()]
    eye = [f"{word} seat by eye {name}" for word, name in (("highest", head.highest), ("lowest", head.lowest)) if name]
    if kept or eye:
        said = "; ".join([*kept, *eye])
        lines.append(f"{said[0].upper()}{said[1:]}.")
    return lines


class Written:
    """The readings as they were written, a column of the table for each round, for all together where there are many;
    none where they come from no file."""

    def __init__(self, building: Building) -> None:
        found = building.readings.survey
        sights = found.book.sights if found else ()
        self.up = building.readings.up
        self.setups = len({(s.round, s.setup) for s in sights}) > len({s.round for s in sights})
        rounds = list(dict.fromkeys(s.round for s in sights))
        self.apart = len(rounds) <= ROUNDS
        self.of: Mapping[str, list[Sight]] = {s.point: [t for t in sights if t.point == s.point] for s in sights}
        self.rounds = rounds
        self.one = len(rounds) == 1
        self.refused = {r.name for r in found.rounds if r.refused} if found else set()

    @property
    def heads(self) -> list[str]:
        """What stands over them."""
        if not self.rounds:
            return []
        if self.one or not self.apart:
            return ["as written"]
        return [f"round {r}{', LEFT OUT' if r in self.refused else ''}" for r in self.rounds]

    def cells(self, name: str) -> list[str]:
        """What was written of a point."""
        found = self.of.get(name, [])
        if not self.rounds:
            return []
        if self.one or self.apart:
            return ["\n".join(self._said(s, found) for s in found if s.round == r) for r in self.rounds]
        return ["\n".join(f"round {s.round}: {self._said(s, found)}" for s in found)]

    def _said(self, sight: Sight, found: Sequence[Sight]) -> str:
        """A reading with what it needs to be understood: its set-up, whether it is the check-back, what it was on."""
        same = [s for s in found if (s.round, s.setup) == (sight.round, sight.setup)]
        more = [
            *([f"set-up {sight.setup}"] if self.setups or sight.setup != ONE else []),
            *(["read back"] if sight is not same[0] else []),
            *(["concrete"] if abs(sight.down - (-sight.raw if self.up else sight.raw)) > 1e-9 else []),
        ]
        return f"{sight.text} ({', '.join(more)})" if more else sight.text


def add(flow: Flow, building: Building) -> None:
    """The whole part; nothing where the readings come from no file."""
    found = building.readings.survey
    if found is None:
        return
    style = building.job.style
    flow.heading("HOW WELL IT CLOSES", keep=1.4)
    _loops(flow, building, found)
    for r in found.rounds:
        _beams(flow, r, style)
    _residuals(flow, found, style)
    if len(found.rounds) > 1:
        _rounds(flow, building, found)
    flow.gap()


# --- one round ------------------------------------------------------------------------------------------------------


def _loops(flow: Flow, building: Building, found: Survey) -> None:
    """Every point read again within a round, and the rounds that were not read back."""
    style, limit = building.job.style, building.job.readings.misclosure
    for r in found.rounds:
        for text in () if r.refused else unproved(r):
            flow.para(text, bold=True)
    loops = [loop for r in found.rounds for loop in r.loops]
    if not loops:
        flow.para("No point was read twice in a round: no loop closes.")
        return
    flow.para(f"Allowed are {show(limit, style)} for each set-up in a loop; a round that is off by more is left out.")
    parts = [
        Column("round", 0.8),
        Column("read again", 1.1, bold=True),
        Column("over set-ups", 1.4),
        Column("off by", 1.9, bold=True),
        Column("allowed", 0.9, "right"),
        Column("", 1.5),
        Column("in the file", 1.0),
    ]
    flow.table(parts, [_loop(loop, building) for loop in loops], SIZE)


def _loop(loop: Loop, building: Building) -> list[str]:
    style = building.job.style
    larger = (loop.off > 0) != building.readings.up
    off = (
        f"reads {fine(loop.off, style)} {'larger' if larger else 'smaller'}"
        if abs(loop.off) > NOISE
        else "exactly as before"
    )
    verdict = "closes" if loop.closes else "ROUND REFUSED"
    return [loop.round, loop.point, ", ".join(loop.setups), off, show(loop.allowed, style), verdict, loop.place]


def _beams(flow: Flow, r: Round, style: Style) -> None:
    """How the set-ups of a round are joined."""
    first, *others = r.setups
    for setup in others:
        by = r.beams[setup] - r.beams[first]
        how = "as high as" if abs(by) < NOISE else f"{fine(by, style)} {'above' if by > 0 else 'below'}"
        flow.para(f"Round {r.name}: the beam of set-up {setup} stood {how} that of set-up {first}.")


def _residuals(flow: Flow, found: Survey, style: Style) -> None:
    """What each sight of a point read more than once was moved by."""
    rows = [
        [r.name, sight.point, sight.setup, sight.text, f"{fine(by, style)} {'lower' if by > 0 else 'higher'}", ""]
        for r in found.rounds
        if not r.refused
        for sight, by in r.residuals
        if abs(by) > NOISE
    ]
    if not rows:
        return
    flow.para(
        "Least squares spread what a loop is off by over its sights. Residuals: the point was taken so much lower or "
        "higher than this sight alone says."
    )
    parts = [
        Column("round", 0.8),
        Column("point", 1.0, bold=True),
        Column("set-up", 1.0),
        Column("as written", 1.4),
        Column("residual", 1.6, "right", True),
        Column("", 1.2),
    ]
    flow.table(parts, rows, SIZE)


def fine(inches: float, style: Style) -> str:
    """A small difference without its sign: as a fraction where it is one, else finer than lengths are printed."""
    finest = Style(style.unit, 32)
    if abs(float(nearest(abs(inches), finest)) - abs(to_unit(inches, finest))) < NOISE:
        return show_inches(abs(inches), finest)
    places = 1 if style.unit == "mm" else 3
    number = f"{abs(to_unit(inches, style)):.{places}f}"
    if not float(number):
        number = f"less than {10**-places:g}"
    return f"{number} mm" if style.unit == "mm" else f'{number}"'


# --- rounds ---------------------------------------------------------------------------------------------------------


def _rounds(flow: Flow, building: Building, found: Survey) -> None:
    """How later rounds were laid on, the rule between them, and what they differ by."""
    part, style = building.job.readings, building.job.style
    rule = "THE LATEST READING COUNTS" if part.rounds == "latest" else "THE MEAN COUNTS"
    flow.para(
        f"Of a point read in several rounds {rule}; they may differ by {show(part.differ, style)}, more is "
        "to be shot again.",
        bold=True,
    )
    for r in found.rounds:
        if r.refused:
            flow.para(f"ROUND {r.name} IS LEFT OUT: its loop does not close. Its seats are taken from another round.")
    for laid in found.laid:
        _laid(flow, building, found, laid)


def _laid(flow: Flow, building: Building, found: Survey, laid: Laid) -> None:
    style, limit = building.job.style, building.job.readings.differ
    by = f"benchmark{'s' if len(laid.benchmarks) > 1 else ''} {', '.join(laid.benchmarks)}"
    if not laid.benchmarks:
        by = f"the median of the {len(laid.differs)} seats that were read before"
    how = (
        "as high as"
        if abs(laid.shift) < NOISE
        else f"{fine(laid.shift, style)} {'above' if laid.shift > 0 else 'below'}"
    )
    flow.para(
        f"Round {laid.round} is laid on what was read before by {by}: its beam stood {how} that of the first set-up."
    )
    for text in torn(laid, building.job.readings, style):
        flow.para(text, bold=True)
    if laid.moved:
        seats = laid.seats(found.book)
        differ = "Most seats differ" if len(seats) > 1 else f"Seat {seats[0]} differs"
        flow.para(f"{differ} by {fine(laid.moved, style)} from {', '.join(laid.benchmarks)}: was it hit?", bold=True)
    if not laid.differs:
        return
    cells = [[name, _differs(by, limit, style)] for name, by in laid.differs.items()]
    cells += [["", ""]] * (-len(cells) % SIDE)
    table = [[text for cell in cells[i : i + SIDE] for text in cell] for i in range(0, len(cells), SIDE)]
    flow.para(f"Round {laid.round} against the readings before it:")
    flow.table(
        [part for _ in range(SIDE) for part in (Column("point", 0.9, bold=True), Column("reads", 1.5))], table, SIZE
    )


def _differs(by: float, limit: float, style: Style) -> str:
    if abs(by) < NOISE:
        return "the same"
    text = f"{fine(by, style)} {'lower' if by > 0 else 'higher'}"
    return f"{text}: TOO MUCH" if abs(by) > limit + 1e-9 else text
