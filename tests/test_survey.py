"""Set-ups joined, loops closed, rounds laid together: all of it from the text of a file, as a crew writes it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise
from typing import Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import job

from layouts import book
from layouts.fields_wall import ReadingsPart
from layouts.lengths import Style
from layouts.problems import JobRefused
from layouts.readings import of
from layouts.survey import Loop, Survey, reduce, told

INCHES = Style("in")
LIMITS = job().readings  # 1/8 in for each set-up, the latest round
LOOSE = replace(LIMITS, misclosure=100.0, differ=100.0)
MEAN = replace(LIMITS, rounds="mean")
COLUMNS = [f"{letter}{n}" for letter in "ABCDG" for n in range(1, 10)]
FULL = "column,reading,set-up,round"

Row = tuple[str, ...]
Seen = tuple[str, int, int]  # point, set-up, sixteenths


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


# --- what must change nothing -----------------------------------------------------------------------------------------


@st.composite
def tours(draw: st.DrawFn) -> list[Seen]:
    """Sights from several set-ups, each joined to earlier ones by points they have read. Readings are true but for a
    few sixteenths, so that loops have something to spread. Of a set-up each point once."""
    true = {name: draw(st.integers(0, 96)) for name in COLUMNS[: draw(st.integers(2, 9))]}
    seen: list[str] = []
    sights = []
    for setup in range(1, draw(st.integers(1, 5)) + 1):
        beam = draw(st.integers(20 * 16, 80 * 16))
        joints = draw(st.lists(st.sampled_from(seen), min_size=1, max_size=3, unique=True)) if seen else []
        more = draw(st.lists(st.sampled_from(list(true)), min_size=not seen, max_size=5, unique=True))
        here = list(dict.fromkeys([*joints, *more]))
        sights += [(p, setup, beam + true[p] + draw(st.integers(-2, 2))) for p in here]
        seen += [p for p in here if p not in seen]
    return sights


def inches(sixteenths: int) -> str:
    sign, (whole, rest) = "-" * (sixteenths < 0), divmod(abs(sixteenths), 16)
    return sign + (f"{whole} {rest}/16" if rest else str(whole))


def text_of(sights: Iterable[Seen]) -> str:
    return file((point, inches(n), str(setup)) for point, setup, n in sights)


@given(tours(), st.data())
def test_a_constant_on_one_set_up_changes_nothing(sights: list[Seen], data: st.DataObject) -> None:
    which = data.draw(st.sampled_from([setup for _, setup, _ in sights]))
    by = data.draw(st.integers(-200, 200))
    was = survey(text_of(sights), LOOSE)
    now = survey(text_of((p, s, n + by * (s == which)) for p, s, n in sights), LOOSE)
    assert close(differences(now), differences(was))
    assert offs(now) == pytest.approx(offs(was))


@given(tours(), st.data())
def test_the_order_of_rows_within_a_set_up_changes_no_value(sights: list[Seen], data: st.DataObject) -> None:
    turned: list[Seen] = []
    for _, group in groupby(sights, lambda sight: sight[1]):
        first, *rest = group
        turned += [first, *data.draw(st.permutations(rest))]
    was, now = survey(text_of(sights), LOOSE), survey(text_of(turned), LOOSE)
    assert close({p: now.values[p] for p in was.values}, dict(was.values))
    assert len(offs(now)) == len(offs(was))


@given(st.lists(st.integers(0, 96), min_size=2, max_size=12), st.integers(-300, 300), st.data())
def test_moving_the_set_up_in_the_middle_of_a_round_changes_nothing(
    heights: list[int], by: int, data: st.DataObject
) -> None:
    """Joined by seats read exactly alike from both."""
    sights = [(name, 1, 50 * 16 + h) for name, h in zip(COLUMNS, heights, strict=False)]
    at = data.draw(st.integers(1, len(sights)))
    joints = data.draw(st.lists(st.sampled_from(sights[:at]), min_size=1, max_size=3, unique=True))
    found = survey(text_of([*sights[:at], *((p, 2, n + by) for p, _, n in [*joints, *sights[at:]])]))
    assert close(dict(found.values), dict(survey(text_of(sights)).values))
    assert offs(found) == [0] * (len(joints) - 1)


PER = {"inches": Fraction(1), "feet": Fraction(12), "mm": Fraction(5, 127)}


@given(tours(), st.sampled_from(list(PER)), st.booleans())
def test_another_unit_or_sense_changes_nothing(sights: list[Seen], unit: str, up: bool) -> None:
    """Decimals of 15 figures: 1/16 in is 1.5875 mm, and 0.005208333333333 ft."""
    rows = [(p, f"{'-' * up}{float(Fraction(n, 16) / PER[unit]):.15f}", str(s)) for p, s, n in sights]
    was = survey(text_of(sights), LOOSE)
    now = survey(file(rows, head=f"unit,{unit}\nsense,{'up' if up else 'down'}"), LOOSE)
    assert close(dict(now.values), dict(was.values))
    assert offs(now) == pytest.approx(offs(was), abs=1e-9)


@given(tours(), st.integers(1, 96))
def test_the_plate_shifts_all_seats_alike(sights: list[Seen], plate: int) -> None:
    was = survey(text_of(sights), LOOSE)
    head = f"read on,concrete\nplate,{inches(plate)}"
    now = survey(file(((p, inches(n), str(s)) for p, s, n in sights), head=head), LOOSE)
    assert close(dict(now.values), {p: v - plate / 16 for p, v in was.values.items()})
    assert close(differences(now), differences(was))


@given(tours())
def test_values_and_residuals_are_least_squares(sights: list[Seen]) -> None:
    """Against numpy: a reading is the point, down from the first beam, and its own beam, up from the first."""
    points = list(dict.fromkeys(p for p, _, _ in sights))
    beams = list(dict.fromkeys(s for _, s, _ in sights))[1:]
    design = np.zeros((len(sights), len(points) + len(beams)))
    for row, (point, setup, _) in enumerate(sights):
        design[row, points.index(point)] = 1
        if setup in beams:
            design[row, len(points) + beams.index(setup)] = 1
    read = np.array([n / 16 for _, _, n in sights])
    solved = np.linalg.lstsq(design, read, rcond=None)[0]
    found = survey(text_of(sights), LOOSE)
    assert len(offs(found)) == len(sights) - design.shape[1]  # every sight too many closes a loop
    assert close(dict(found.values), {p: float(solved[i]) for i, p in enumerate(points)})
    residuals = {s.place: by for s, by in found.rounds[0].residuals}
    for at, by in enumerate(design @ solved - read):
        assert residuals.get(f"line {at + 2}", 0.0) == pytest.approx(float(by), abs=1e-9)


@given(st.lists(st.tuples(st.integers(300, 900), st.integers(300, 900)), min_size=2, max_size=9), st.integers(-8, 8))
def test_the_misclosure_of_a_loop_is_the_sum_round_it(steps: list[tuple[int, int]], off: int) -> None:
    """The model: the last sight is off by all foresights less all backsights. Benchmarks may read minus."""
    *others, (back, _) = steps
    steps = [*others, (back, back + sum(b - f for b, f in others) + off)]
    names = [f"TP{n}" for n in range(len(steps))]
    rows: list[Row] = []
    for n, (back, fore) in enumerate(steps):
        rows += [(names[n], inches(back), f"S{n}"), (names[(n + 1) % len(steps)], inches(fore), f"S{n}")]
    found = survey(file(rows, head="\n".join(f"benchmark,{name}" for name in names)), LOOSE)
    (loop,) = found.rounds[0].loops
    assert loop.off == (sum(f for _, f in steps) - sum(b for b, _ in steps)) / 16
    assert sorted(loop.setups) == sorted(f"S{n}" for n in range(len(steps)))


@given(tours(), st.lists(st.integers(-3, 3), min_size=60, max_size=60), st.integers(-300, 300))
def test_a_constant_on_the_second_round_changes_nothing(sights: list[Seen], differ: list[int], by: int) -> None:
    def two(more: int) -> Survey:
        again = [(p, s, n + d + more) for (p, s, n), d in zip(sights, differ, strict=False)]
        return survey(
            file(((p, inches(n), str(s), r) for r, x in (("1", sights), ("2", again)) for p, s, n in x), FULL), LOOSE
        )

    was, now = two(0), two(by)
    assert close(dict(now.values), dict(was.values))
    assert close(dict(now.laid[0].differs), dict(was.laid[0].differs))
    assert now.laid[0].shift - was.laid[0].shift == pytest.approx(by / 16)


@given(tours(), st.integers(-300, 300), st.sampled_from(["latest", "mean"]))
def test_a_round_shot_again_exactly_changes_nothing(
    sights: list[Seen], by: int, which: Literal["latest", "mean"]
) -> None:
    rows = ((p, inches(n + more), str(s), r) for r, more in (("1", 0), ("2", by)) for p, s, n in sights)
    found = survey(file(rows, FULL), replace(LOOSE, rounds=which))
    assert close(dict(found.values), dict(survey(text_of(sights), LOOSE).values))
    assert found.read_twice == set(found.values)


# --- loops ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("last", ["44 5/8", "44 3/8"])
def test_a_check_back_may_be_off_by_the_limit(last: str) -> None:
    """44 1/2 and an eighth to either side."""
    assert not survey(setups(f"A1 44 1/2, A2 45, A1 {last}")).rounds[0].refused


@pytest.mark.parametrize("last", ["44 41/64", "44 23/64"])
def test_a_64th_more_is_refused(last: str) -> None:
    assert len(refused(setups(f"A1 44 1/2, A2 45, A1 {last}"))) == 1


def test_the_limit_is_the_jobs() -> None:
    text = setups("A1 44 1/2, A2 45, A1 45")
    assert not survey(text, job({"readings.misclosure": "1/2"}).readings).rounds[0].refused
    assert refused(text, job({"readings.misclosure": "7/16"}).readings)


def test_a_check_back_is_shared_between_its_two_readings() -> None:
    """44 1/2 and 44 5/8: the mean. What was read between has no second reading and stays."""
    found = survey(setups("A1 44 1/2, A2 45, A1 44 5/8"))
    assert found.values == {"A1": 44.5625, "A2": 45}
    assert found.read_twice == {"A1"}


TOUR = "A1 44, A2 45", "A2 46, A3 47"  # set-up 2 stands 1 higher; A3 is 46 from set-up 1


def test_the_limit_grows_with_the_set_ups_of_the_loop() -> None:
    """Set-up 3 stands by A3 50 - 46 = 4 higher, so A1 should read 48 from it. Three set-ups: 3/8 allowed."""
    (loop,) = survey(setups(*TOUR, "A3 50, A1 48 3/8")).rounds[0].loops
    assert (loop.off, loop.allowed, loop.closes) == (3 / 8, 3 / 8, True)
    assert len(refused(setups(*TOUR, "A3 50, A1 48 7/16"))) == 1


def test_two_points_that_close_a_tour_are_held_against_each_other() -> None:
    """Set-up 3 should read A1 48 and B1 49. Either is off by 3/8, which three set-ups may be; but from set-up 1 to
    set-up 3 they differ by 3/4, and two set-ups may be off by 1/4. In whichever order they are read."""
    for last in ("A3 50, A1 48 3/8, B1 48 5/8", "A3 50, B1 48 5/8, A1 48 3/8"):
        (line,) = refused(setups(f"B1 45, {TOUR[0]}", TOUR[1], last))
        assert 'read again is 3/4" off over 2 set-ups, 1/4" allowed: refused.' in line


def test_of_three_shared_points_the_one_that_does_not_fit_is_named() -> None:
    """A1 is joined first, so A2 and A3 seem off by 2; but those two agree. Its reading alone is told to be wrong."""
    lines = refused(setups("A1 44, A2 45, A3 44", "A1 47, A2 46, A3 45"))
    assert [line.split(" = ")[0] for line in lines] == ["readings.csv: line 6, A2", "readings.csv: line 7, A3"]
    told = "Of the points that set-ups 1 and 2 share, A1 stands out: read it again from both."
    assert all(line.endswith(told) for line in lines)


def test_of_two_shared_points_neither_is_named() -> None:
    (line,) = refused(setups("A1 44, A2 45", "A1 47, A2 46"))
    assert line == (
        'readings.csv: line 5, A2 = 46: round 1: A2 read again is 2" off over 2 set-ups, 1/4" allowed: refused. '
        "The laser has moved, or a reading is wrong: shoot the round again."
    )


def test_a_point_that_only_joins_set_ups_is_no_check_back() -> None:
    """A1 is read twice, but nothing says whether either reading is right."""
    joined = survey(setups("A1 44, A2 45", "A1 47, A3 48"))
    assert not joined.rounds[0].back
    assert joined.read_twice == frozenset()
    # a second shared point makes a loop of both
    twice = survey(setups("A1 44, A2 45", "A1 47, A2 48, A3 48"))
    assert twice.rounds[0].back
    assert twice.read_twice == {"A1", "A2"}


def test_a_round_that_is_not_read_back() -> None:
    (found,) = survey(setups("A1 44, A2 45")).rounds
    assert (found.first, found.back, found.loops, found.refused) == ("A1", False, (), False)


def test_set_ups_may_be_joined_by_a_later_one() -> None:
    """Set-up 2 shares nothing with set-up 1, set-up 3 something with both. It stands 5 higher than set-up 1 by A1, and
    60 - 54 = 6 higher than set-up 2 by B1."""
    found = survey(setups("A1 44", "B1 54", "A1 49, B1 60"))
    assert found.values == {"A1": 44, "B1": 55}
    assert found.rounds[0].beams == {"1": 0, "2": -1, "3": 5}


def test_set_ups_may_be_written_in_turns() -> None:
    rows = [("A1", "44", "1"), ("A1", "47", "2"), ("A2", "45", "1"), ("A3", "48", "2"), ("A1", "44", "1")]
    found = survey(file(rows))
    assert found.values == {"A1": 44, "A2": 45, "A3": 45}
    assert offs(found) == [0]


def test_a_check_back_is_a_loop_of_its_own_set_up_whatever_was_read_meanwhile() -> None:
    rows = [("A1", "44", "1"), ("A2", "45", "1"), ("A2", "47", "2"), ("B1", "50", "2"), ("B1", "51", "3")]
    found = survey(file([*rows, ("A1", "44 1/8", "1")]))
    assert [(loop.setups, loop.off) for loop in found.rounds[0].loops] == [(("1",), 1 / 8)]


def test_readings_in_mm_that_agree_are_exactly_as_before() -> None:
    """As floats of inches they differ in the last figure, which is nobody's misclosure."""
    rows = [("A1", "1100", "1"), ("A2", "1114", "1"), ("A1", "1201", "2"), ("A2", "1215", "2"), ("A1", "1201", "2")]
    found = survey(file(rows, head="unit,mm"))
    one, two, three, four, _ = (Fraction(s.down) for s in found.book.sights)
    assert three - one != four - two
    assert offs(found) == [0, 0]
    assert found.rounds[0].residuals == ()


def test_sixty_set_ups_close_a_tour_of_the_building() -> None:
    """Each reads a point 60 and the next 60 1/2; the last reads the first again, 30 lower. Off 1/16 by the last: a
    120th of it to each sight, so the first point comes 1/16/120 lower than read, the point before the last higher."""
    names = [f"T{n}" for n in range(60)]
    rows = [(names[(n + i) % 60], text, str(n)) for n in range(60) for i, text in ((0, "60"), (1, "60 1/2"))]
    rows[-1] = (names[0], "30 9/16", "59")
    found = survey(file(rows), columns=names)
    (loop,) = found.rounds[0].loops
    assert (loop.off, loop.allowed) == (1 / 16, 7.5)
    assert found.values["T0"] == pytest.approx(60 + 1 / 16 / 120)
    assert found.values["T59"] == pytest.approx(60 + 59 / 2 + 1 / 16 / 120 * (1 - 2 * 59))


def test_more_set_ups_than_a_file_may_hold() -> None:
    rows = [("A1", "60", str(n)) for n in range(61)]
    assert refused(file(rows)) == ["readings.csv: has more than 60 set-ups. Make a file of each round."]


@pytest.mark.parametrize("off", [0.0, 1e-12])
def test_a_loop_closes_but_for_float_noise(off: float) -> None:
    assert Loop("1", "A1", ("1",), 0.125 + off, 0.125, "line 4").closes


@pytest.mark.parametrize(
    ("off", "setups", "words"),
    [
        (0, 1, 'exactly as before, 1/8" allowed'),
        (-1 / 16, 1, '1/16" off, 1/8" allowed'),
        (0.01, 1, 'less than 1/16" off, 1/8" allowed'),
        (0.14, 1, 'a little more than 1/8" off, 1/8" allowed'),
        (1 / 2, 2, '1/2" off over 2 set-ups, 1/4" allowed'),
    ],
)
def test_how_a_loop_closes_is_told(off: float, setups: int, words: str) -> None:
    loop = Loop("2", "B1", ("1", "2")[:setups], off, setups / 8, "")
    assert told(loop, INCHES) == f"round 2: B1 read again is {words}"


def test_how_a_loop_closes_is_told_in_mm() -> None:
    loop = Loop("1", "A1", ("1",), 0.01, 3 / 25.4, "")
    assert told(loop, Style("mm")) == "round 1: A1 read again is less than 1 mm off, 3 mm allowed"


# --- what is refused --------------------------------------------------------------------------------------------------


def test_a_set_up_without_a_shared_point_is_named_with_its_line() -> None:
    assert refused(setups("A1 44, A2 45", "B1 46, B2 47")) == [
        "readings.csv: line 4, set-up 2: shares no point with set-up 1, nor with one that is joined to it. "
        "Read one seat, better two, or a benchmark from both, and write it down with each."
    ]


def test_of_set_ups_that_hang_together_but_on_nothing_the_first_is_named() -> None:
    """Set-up 3 has a point in common with set-up 2: mending one mends both."""
    (line,) = refused(setups("A1 44", "B1 46", "B1 47, B2 50"))
    assert "line 3, set-up 2" in line


def test_a_set_up_is_named_with_its_round() -> None:
    text = file([("A1", "44", "1", "1"), ("A1", "44", "1", "2"), ("B1", "50", "2", "2")], FULL)
    (line,) = refused(text)
    assert line.startswith("readings.csv: line 4, round 2, set-up 2: shares no point")


def test_every_loop_that_does_not_close_and_every_set_up_that_hangs_on_nothing_are_told_in_one_run() -> None:
    rows = [("A1", "44", "1", "1"), ("A2", "44", "1", "1"), ("A1", "45", "1", "1")]
    rows += [("A1", "44", "1", "2"), ("B1", "44", "2", "2"), ("G1", "44", "1", "3"), ("G2", "44", "1", "3")]
    lines = refused(file(rows, FULL))
    assert [line.split(":")[1].strip() for line in lines] == ["line 6, round 2, set-up 2", "line 4, A1 = 45"]


def test_a_round_with_no_point_in_common() -> None:
    (line,) = refused(rounds("A1 44, A2 45, A1 44", "B1 46, B2 47, B1 46"))
    wrong = "has no point in common with round 1. Read one of its seats or a benchmark again."
    assert line == f"readings.csv: line 5, round 2: {wrong}"


# --- rounds -----------------------------------------------------------------------------------------------------------


def test_latest_or_mean() -> None:
    """Round 2 stands 2 higher by the median of 2, 2 and 2 1/8: A3 is 46 then, or 46 1/16."""
    text = rounds("A1 44, A2 45, A3 46, A1 44", "A1 46, A2 47, A3 48 1/8, A1 46")
    assert survey(text).values == {"A1": 44, "A2": 45, "A3": 46.125}
    assert survey(text, MEAN).values == {"A1": 44, "A2": 45, "A3": 46.0625}


def test_seats_that_differ_by_more_than_the_limit_are_flagged_the_later_less_the_earlier() -> None:
    """1/8 may be; 3/16 lower and 1/4 higher may not."""
    text = rounds("A1 44, A2 45, A3 46, A4 44, A5 44", "A1 44, A2 45, A3 46 1/8, A4 44 3/16, A5 43 3/4")
    found = survey(text)
    assert found.apart == {"A4": 3 / 16, "A5": -1 / 4}
    assert found.read_twice == {"A1", "A2", "A3"}
    assert survey(text, replace(LIMITS, differ=0.25)).apart == {}


def test_a_seat_of_one_round_alone_is_kept() -> None:
    found = survey(rounds("A1 44, A2 45", "A1 50, A3 52"))
    assert found.values == {"A1": 44, "A2": 45, "A3": 46}
    assert found.read_twice == {"A1"}


def test_a_third_round_may_hang_on_the_second_or_come_before_it() -> None:
    """A3 is 46 by round 2, so round 3 stands 4 higher. Written in the other order it is the same."""
    parts = "A1 44", "A1 50, A3 52", "A3 50, A4 60"
    for text in (rounds(*parts), rounds(parts[0], parts[2], parts[1])):
        found = survey(text)
        assert found.values == {"A1": 44, "A3": 46, "A4": 56}
        assert len(found.laid) == 2


def test_a_refused_round_is_left_out_where_another_has_its_seats() -> None:
    """Round 2 is the datum then. Benchmarks are no seats: that one was not shot again."""
    text = rounds("A1 44, A2 45, BM 20, A1 45", "A1 46, A2 47, A1 46", head="benchmark,BM")
    found = survey(text)
    assert [r.refused for r in found.rounds] == [True, False]
    assert found.values == {"A1": 46, "A2": 47}
    assert found.read_twice == {"A1"}


def test_a_refused_round_with_a_seat_of_its_own_refuses_the_file() -> None:
    (line,) = refused(rounds("A1 44, A2 45, A3 44, A1 45", "A1 46, A2 47, A1 46"))
    assert line.startswith('readings.csv: line 5, A1 = 45: round 1: A1 read again is 1" off, 1/8" allowed: refused.')


def test_two_refused_rounds_are_no_help_to_each_other() -> None:
    lines = refused(rounds("A1 44, A2 45, A1 45", "A1 46, A2 47, A1 47"))
    assert ["round 1" in lines[0], "round 2" in lines[1], len(lines)] == [True, True, 2]


def test_a_given_line_reading_does_not_outlive_the_round_it_hangs_from() -> None:
    """46 from a beam that was left out is no 46 from another."""
    text = rounds("A1 44, A2 45, A1 45", "A1 46, A2 47, A1 46")
    written = book.read(text, COLUMNS, "in")
    assert of(written, job()).values == {"A1": 46, "A2": 47}
    with pytest.raises(JobRefused) as caught:
        of(written, job({"grade.line": "46"}))
    assert str(caught.value) == (
        "readings.csv: round 1: does not close, and grade.line in the job is told by its beam. Take round 1 out, and "
        "tell grade.line by the first set-up that is left."
    )
    last = book.read(rounds("A1 46, A2 47, A1 46", "A1 44, A2 45, A1 45"), COLUMNS, "in")
    assert of(last, job({"grade.line": "46"})).values == {"A1": 46, "A2": 47}


# --- benchmarks between rounds ----------------------------------------------------------------------------------------

MARKS = "benchmark,BM1\nbenchmark,BM2"


def test_rounds_are_laid_by_their_benchmarks() -> None:
    """Both stand 2 higher in round 2; a seat that differs has no say."""
    (laid,) = survey(rounds("BM1 20, BM2 30, A1 44", "BM1 22, BM2 32, A1 46 1/8", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (2, ("BM1", "BM2"), 0, {})
    assert laid.differs == {"BM1": 0, "BM2": 0, "A1": 1 / 8}


def test_of_two_seats_and_a_benchmark_that_disagree_nobody_knows_which() -> None:
    """It is laid by the benchmark, and told: the seats differ by 1 from it."""
    (laid,) = survey(rounds("BM1 20, A1 44, A2 45", "BM1 20, A1 45, A2 46", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (0, ("BM1",), 1, {})


def test_a_benchmark_that_was_hit_between_rounds_is_left_out() -> None:
    """Three seats say that the beam stands 2 higher in round 2. The benchmark reads 21 where 22 would be as before, so
    it stands 1 higher now. A4, of round 2 alone, is 48 - 2; the benchmark's first reading is kept, whichever counts."""
    text = rounds("BM1 20, A1 44, A2 45, A3 46", "BM1 21, A1 46, A2 47, A3 48, A4 48", head=MARKS)
    for limits in (LIMITS, MEAN):
        found = survey(text, limits)
        (laid,) = found.laid
        assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (2, (), 0, {"BM1": -1})
        assert found.values == {"BM1": 20, "A1": 44, "A2": 45, "A3": 46, "A4": 46}
    assert found.apart == {"BM1": -1}


def test_of_two_benchmarks_the_one_that_was_hit_is_left_out() -> None:
    text = rounds("BM1 20, BM2 30, A1 44, A2 45, A3 46", "BM1 23, BM2 32, A1 46, A2 47, A3 48", head=MARKS)
    (laid,) = survey(text).laid
    assert (laid.shift, laid.benchmarks, laid.hit) == (2, ("BM2",), {"BM1": 1})


def test_seats_that_do_not_agree_cannot_tell_that_a_benchmark_was_hit() -> None:
    """1, 2 and 3 apart: which of them is right?"""
    (laid,) = survey(rounds("BM1 20, A1 44, A2 45, A3 46", "BM1 20, A1 45, A2 47, A3 49", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (0, ("BM1",), 2, {})


def test_three_seats_that_agree_against_four_cannot_tell_either() -> None:
    """0, 1, 2, 2, 2, 3 and 4 apart: three of seven say the median."""
    seats = {"A1": 44, "A2": 45, "A3": 46, "A4": 46, "A5": 46, "A6": 47, "A7": 48}
    first, later = (", ".join(f"{n} {r}" for n, r in x) for x in ([(n, 44) for n in seats], seats.items()))
    (laid,) = survey(rounds(f"BM1 20, {first}", f"BM1 20, {later}", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (0, ("BM1",), 2, {})


def test_a_benchmark_within_the_limit_was_not_hit() -> None:
    (laid,) = survey(rounds("BM1 20, A1 44, A2 45, A3 46", "BM1 20 1/8, A1 44, A2 45, A3 46", head=MARKS)).laid
    assert (laid.shift, laid.benchmarks, laid.moved, laid.hit) == (1 / 8, ("BM1",), 0, {})
