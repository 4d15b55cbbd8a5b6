"""What other grade lines would cost: the part of the grade sheet that the line is chosen from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise

from layouts.building import Building
from layouts.choose import Candidate
from layouts.fields import Job
from layouts.lengths import Style, show
from layouts.piers import Kind, delivered
from layouts.readings import taken
from sheets.lettering import pt
from sheets.tables import Column, Flow

SIZE = pt(9.5)
SAME = 1e-6  # inches
SHORT: dict[Kind, str] = {
    "below": "above the line",
    "high": "too high",
    "low": "too low",
    "stock": "no stock long enough",
    "notch": "too high for its made top",
    "block": "packing too thick",
    "centre ply": "centre ply too long",
}


def add(flow: Flow, building: Building) -> None:
    """The table of lines weighed."""
    grade, found = building.grade, rows(building)
    flow.heading("LINES THAT WERE WEIGHED", keep=1.8)
    flow.para(
        f"The grade board's bottom edge is the line: {_shows(building.job)} Longer stock: which columns need longer "
        "stock than on the line taken. Seats that stand out have no say."
    )
    if grade.floor is None:
        flow.para(f"On every line the floor goes with it: {_board(building)}.")
    parts = [
        Column("line reading", 1.15, "left", True),
        Column("offsets" if delivered(building.job) is None else "seats below", 1.1),
        Column("piers out", 2.0),
        Column("column stock", 1.3),
        Column("longer stock", 1.2),
    ]
    if grade.floor is not None:
        parts += [Column("floor", 0.95), Column("board", 1.15)]
    flow.table(parts, found, SIZE)


def _shows(job: Job) -> str:
    """What shows below the board, and what a lower line costs a column."""
    if delivered(job) is None:
        return (
            "a column's bottom end shows below the board by its offset, so the greatest offset is the most that shows. "
            "A larger offset takes a longer column."
        )
    takes = "less is cut off a column with a made top, then it is packed up"
    if job.column.trims == "none":
        takes = f"a column with a made top takes {'thicker packing' if job.column.notch else 'a longer seat block'}"
    return (
        "a column with its packing shows below the board as far as its seat is below it, the most at the lowest seat. "
        f"On a lower seat {takes}; any other column is longer."
    )


def _board(building: Building) -> str:
    """How much of the grade board shows to either side of a floor that follows the line."""
    style, floor = building.job.style, building.job.grade.floor
    board = board_tall(building)
    if board < floor:
        return f"the grade board, {show(board, style)}, ends {show(floor - board, style)} below the floor"
    return (
        f"of the {show(board, style)} of grade board {show(floor, style)} are below the floor, "
        f"{show(board - floor, style)} above it"
    )


def board_tall(building: Building) -> float:
    """All of the grade board, inches."""
    return building.job.grade.boards * building.job.grade.board.wide


def rows(building: Building) -> list[list[str]]:
    """A line of the table for every candidate, the highest line first."""
    here = building.grade.taken()
    order = tuple(s.name for s in building.plan.spots)
    return [_row(building, c, here, order) for c in building.grade.candidates]


def _row(building: Building, c: Candidate, here: Candidate | None, order: tuple[str, ...]) -> list[str]:
    grade, style = building.grade, building.job.style
    words = [
        *(["TAKEN"] if here and abs(c.down - here.down) < SAME else []),
        *(["PROPOSED"] if grade.proposed and abs(c.down - grade.proposed.down) < SAME else []),
    ]
    line = taken(building.readings, c.down, style)
    found = [
        f"{'→ ' if words else ''}{line} {' AND '.join(words)}".strip(),
        f"{show(c.least, style)} to {show(c.most, style)}",
        _out(c, order),
        stocks(c, style),
        runs(longer(c, here), order) if here else "",
    ]
    if c.floor is None or c.below is None or c.shows is None:
        return found
    board = f"{show(c.below, style)} below the floor wanted, {show(c.shows, style)} above it"
    return [*found, _floor(c.floor, style), board if c.covers else f"{board}: TOO LITTLE BELOW"]


def _floor(higher: float, style: Style) -> str:
    by = show(abs(higher), style)
    return "as wanted" if by == show(0.0, style) else f"{by} {'HIGHER' if higher > 0 else 'LOWER'}"


def _out(c: Candidate, order: tuple[str, ...]) -> str:
    """The seats that are out of tolerance, by what is wrong."""
    kinds: dict[Kind, list[str]] = {}
    for name in order:
        for kind, _ in c.out.get(name, ()):
            kinds.setdefault(kind, []).append(name)
    return "; ".join(f"{SHORT[k]}: {runs(names, order)}" for k, names in kinds.items()) or "none"


def stocks(c: Candidate, style: Style) -> str:
    """How many columns of each stock length; nothing that a line may break in."""
    counted = Counter(c.stocks.values())
    known = sorted(length for length in counted if length is not None)
    said = [f"{counted[length]}×{show(length, style)}" for length in known]
    return ", ".join([*said, *([f"{counted[None]} with none long enough"] if None in counted else [])])


def longer(c: Candidate, here: Candidate) -> list[str]:
    """The columns that need longer stock than on the line taken, or for which there is none any more."""

    def long(stocks: Mapping[str, float | None], name: str) -> float:
        found = stocks[name]
        return float("inf") if found is None else found

    return [n for n in c.stocks if long(c.stocks, n) > long(here.stocks, n) + SAME]


def runs(names: Sequence[str], order: tuple[str, ...]) -> str:
    """Names in walking order, three and more that follow one another drawn together: ``A1 to A7, G2``."""
    places = sorted(order.index(n) for n in names)
    if not places:
        return "none"
    starts = [0, *(i for i, (a, b) in enumerate(pairwise(places), 1) if b != a + 1)]
    said = []
    for first, after in zip(starts, [*starts[1:], len(places)], strict=True):
        part = [order[p] for p in places[first:after]]
        said += [f"{part[0]} to {part[-1]}"] if len(part) > 2 else part
    return ", ".join(said)
