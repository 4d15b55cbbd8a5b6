"""Set-ups joined, loops closed, rounds laid together: the text of a file against published tables and by pencil."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

import pytest
from jobs import job
from msgspec.structs import replace

from layouts import book
from layouts.fields_wall import ReadingsPart
from layouts.lengths import Style
from layouts.problems import JobRefused
from layouts.survey import Survey, reduce

INCHES = Style("in")
LIMITS = job().readings  # 1/8 in for each set-up, the latest round
MEAN = replace(LIMITS, rounds="mean")
COLUMNS = [f"{letter}{n}" for letter in "ABCDG" for n in range(1, 10)]
FULL = "column,reading,set-up,round"

Row = tuple[str, ...]


def survey(text: str, limits: ReadingsPart = LIMITS, columns: Sequence[str] = COLUMNS) -> Survey:
    return reduce(book.read(text, columns, "in"), limits, INCHES)


def refused(text: str, limits: ReadingsPart = LIMITS) -> list[str]:
    with pytest.raises(JobRefused) as caught:
        survey(text, limits)
    return [str(p) for p in caught.value.problems]


def file(rows: Iterable[Row], heading: str = "column,reading,set-up", head: str = "") -> str:
    return "\n".join([*head.splitlines(), heading, *(",".join(row) for row in rows)])


def setups(*readings: str) -> str:
    """A file of set-ups 1, 2, ...: of each ``A1 44, A2 45``."""
    return file((*r.split(maxsplit=1), str(n)) for n, s in enumerate(readings, 1) for r in s.split(", "))


def rounds(*readings: str, head: str = "") -> str:
    """The same of rounds 1, 2, ... of one set-up."""
    rows = ((*r.split(maxsplit=1), str(n)) for n, s in enumerate(readings, 1) for r in s.split(", "))
    return file(rows, "column,reading,round", head)


def differences(found: Survey) -> dict[str, float]:
    """Every point against the first: what a crew uses."""
    first = next(iter(found.values.values()))
    return {point: value - first for point, value in found.values.items()}


def close(found: dict[str, float], wanted: dict[str, float]) -> bool:
    return found.keys() == wanted.keys() and all(abs(found[n] - wanted[n]) < 1e-9 for n in wanted)


def offs(found: Survey) -> list[float]:
    return [loop.off for r in found.rounds for loop in r.loops]


# --- published tables, written as a file (references.md, 3) -----------------------------------------------------------

# A surveying study guide (seen), feet.
L1 = [("BM1", "4.20", "1"), ("TP1", "2.50", "1"), ("TP1", "5.15", "2"), ("TP2", "3.50", "2"), ("TP2", "3.05", "3")]
L1 += [("BM2", "4.10", "3")]
L1_HEIGHTS = {"BM1": 100.00, "TP1": 101.70, "TP2": 103.35, "BM2": 102.30}
# A published page (seen), feet; the end is known as 94.91.
L2 = [("A", "3.10", "1"), ("TP1", "9.82", "1"), ("TP1", "6.44", "2"), ("TP2", "6.96", "2"), ("TP2", "8.76", "3")]
L2 += [("TP3", "3.27", "3"), ("TP3", "7.12", "4"), ("B", "10.42", "4")]
L2_HEIGHTS = {"A": 100.00, "TP1": 93.28, "TP2": 92.76, "TP3": 98.25, "B": 94.95}
# A published page (seen), metres, here as mm; D is an intermediate sight.
L4 = [("A", "422", "1"), ("B", "684", "1"), ("B", "1285", "2"), ("C", "506", "2"), ("C", "1793", "3")]
L4 += [("D", "4462", "3"), ("E", "2416", "3"), ("E", "3120", "4"), ("F", "1517", "4"), ("F", "1234", "5")]
L4 += [("G", "1232", "5")]
L4_HEIGHTS = {"A": 481.923, "B": 481.661, "C": 482.440, "D": 479.771, "E": 481.817, "F": 483.420, "G": 483.422}


def elevations(found: Survey, start: float, per: float) -> dict[str, float]:
    """Heights in a table's own unit, *per* inches each, from that of its first point: lower by what reads more."""
    return {point: start - by / per for point, by in differences(found).items()}


@pytest.mark.parametrize(
    ("rows", "unit", "per", "heights"),
    [(L1, "feet", 12, L1_HEIGHTS), (L2, "feet", 12, L2_HEIGHTS), (L4, "mm", 1000 / 25.4, L4_HEIGHTS)],
    ids=["L1", "L2", "L4"],
)
def test_a_published_table_gives_its_elevations(
    rows: list[Row], unit: str, per: float, heights: dict[str, float]
) -> None:
    """To a billionth of its unit, which is more than the thousandth they are told to; no loop is closed in them."""
    found = survey(file(rows, head=f"unit,{unit}"), columns=list(heights))
    assert close(elevations(found, next(iter(heights.values())), per), heights)
    assert offs(found) == []


def test_the_misclosure_of_a_published_table() -> None:
    """L2 (seen): B comes to 94.95, known as 94.91: +0.04. Here the two ends are read once more from one place, which
    makes a loop of five set-ups: A 1.00, so that B has to read 1.00 + 100 - 94.91 = 6.09; by way of the others
    1.00 + 100 - 94.95 = 6.05."""
    found = survey(file([*L2, ("A", "1.00", "5"), ("B", "6.09", "5")], head="unit,feet"), columns=list(L2_HEIGHTS))
    (loop,) = found.rounds[0].loops
    assert loop.off / 12 == pytest.approx(0.04, abs=1e-9)
    assert sorted(loop.setups) == ["1", "2", "3", "4", "5"]
    assert loop.allowed == 5 / 8


def test_a_misclosure_is_spread_equally_over_the_set_ups() -> None:
    """Lecture slides on levelling (seen): 0.05 over five set-ups corrects -0.01 a set-up. So 101.20, 103.10, 102.80 and
    104.40 become 101.19, 103.08, 102.77, 104.36, and 100.05 is the start again."""
    heights, names = [100, 101.2, 103.1, 102.8, 104.4, 100.05], "ABCDEA"
    rows = []
    for n, ((one, low), (other, high)) in enumerate(pairwise(zip(names, heights, strict=True))):
        rows += [(one, "5.00", f"S{n}"), (other, f"{5 - (high - low):.2f}", f"S{n}")]
    found = survey(file(rows, head="unit,feet"), columns=list("ABCDE"))
    assert close(elevations(found, 100, 12), {"A": 100, "B": 101.19, "C": 103.08, "D": 102.77, "E": 104.36})
    # a set-up's rise is its backsight less its foresight; a residual is what is added to a reading
    back, fore = ([by / 12 for _, by in found.rounds[0].residuals[i::2]] for i in (0, 1))
    assert [b - f for b, f in zip(back, fore, strict=True)] == [pytest.approx(-0.01, abs=1e-9)] * 5


def test_an_inverted_sight_on_a_benchmark() -> None:
    """A rod held upside down against a mark above the beam reads minus (common practice, no source). The mark is 24
    above the beam, the seat 36 below it: 60 between them."""
    found = survey(file([("BM", "-24"), ("A1", "36")], "column,reading", "benchmark,BM,underside of the beam"))
    assert differences(found) == {"BM": 0, "A1": 60}


def test_a_set_up_moved_as_worked_in_the_trade() -> None:
    """Common practice, no source: A1 reads 48 1/2 from set-up 1 and 52 1/4 from set-up 2: subtract 3 3/4 from all
    set-up-2 readings; A9 read 52 7/8, so 49 1/8."""
    found = survey(
        setups("A1 48 1/2, A2 48 7/8", "A1 52 1/4, A9 52 7/8").replace("set-up", "setup", 1), columns=COLUMNS
    )
    assert found.values == {"A1": 48.5, "A2": 48.875, "A9": 49.125}
    assert found.rounds[0].beams == {"1": 0, "2": 3.75}


# --- by pencil --------------------------------------------------------------------------------------------------------

PENCIL = """column,reading,set-up,round
A1,44 1/2,1,1
A2,45,1,1
A3,45 1/4,1,1
A3,47 1/4,2,1
A4,46 7/8,2,1
A1,46 9/16,2,1
A1,50,1,2
A2,50 1/2,1,2
A3,50 3/4,1,2
A4,50 3/8,1,2
A1,50,1,2
"""


def test_two_set_ups_and_two_rounds_by_pencil() -> None:
    """Round 1. Set-up 2 stands by A3 47 1/4 - 45 1/4 = 2 higher. So A1 should read 44 1/2 + 2 = 46 1/2 from it, and
    reads 46 9/16: off 1/16; over two set-ups 1/4 is allowed. Four sights make the loop (A1 and A3 from either set-up),
    each is moved by a quarter of it, 1/64: A1 44 33/64 and A3 45 15/64 from set-up 1, A3 47 17/64 and A1 46 35/64 from
    set-up 2. Both say now that set-up 2 stands 2 2/64 higher. A4 is 46 7/8 - 2 1/32 = 44 27/32; A2 is in no loop: 45.

    Round 2 against it: A1 50 - 44 33/64 = 5 31/64, A2 50 1/2 - 45 = 5 32/64, A3 50 3/4 - 45 15/64 = 5 33/64,
    A4 50 3/8 - 44 27/32 = 5 34/64. The median is 5 32.5/64; less that they differ by -1.5, -.5, +.5, +1.5 64ths.
    """
    found = survey(PENCIL)
    one, two = found.rounds
    assert offs(found) == [1 / 16, 0]
    assert [loop.allowed for loop in one.loops] == [1 / 4]
    assert one.beams == {"1": 0, "2": 2 + 1 / 32}
    assert one.values == {"A1": 44 + 33 / 64, "A2": 45, "A3": 45 + 15 / 64, "A4": 44 + 27 / 32}
    moved = [(s.point, s.setup, by * 64) for s, by in one.residuals]
    assert moved == [("A1", "1", 1), ("A3", "1", -1), ("A3", "2", 1), ("A1", "2", -1)]
    (laid,) = found.laid
    assert laid.shift == 5 + 32.5 / 64
    assert laid.differs == {"A1": -1.5 / 64, "A2": -0.5 / 64, "A3": 0.5 / 64, "A4": 1.5 / 64}
    assert found.values == {n: v - laid.shift for n, v in two.values.items()}
    assert survey(PENCIL, MEAN).values["A4"] == 44 + 27 / 32 + 0.75 / 64
    assert found.apart == {}
    assert found.read_twice == {"A1", "A2", "A3", "A4"}
