"""What a file gives away about itself: no alarm on ordinary files, one on each slip that crews make."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import METRIC, job

from layouts import book, doubts
from layouts.lengths import Style, Unit, mixed
from layouts.problems import JobRefused
from layouts.readings import of

COLUMNS = [f"{letter}{n}" for letter in "ABCDG" for n in range(1, 10)]


def questioned(text: str, unit: Unit = "in") -> tuple[list[str], list[str]]:
    """What warns of a file, and what stops it."""
    written = book.read(text, COLUMNS, unit)
    found = of(written, job(base=METRIC) if unit == "mm" else job()).survey
    assert found
    stops = doubts.refused(written, found, Style(unit))
    return doubts.questions(written, found, Style(unit)), [str(p) for p in stops]


def alarms(text: str, unit: Unit = "in") -> list[str]:
    """All that is said about a file, by its reader too."""
    try:
        warns, stops = questioned(text, unit)
    except JobRefused as error:
        return [str(p) for p in error.problems]
    return [*warns, *stops]


def file(readings: Sequence[str], *head: str) -> str:
    rows = [f"{name},{text}" for name, text in zip(COLUMNS, readings, strict=False)]
    return "\n".join([*(h for h in head if h), "column,reading", *rows])


# --- ordinary piers, as many crews write them -------------------------------------------------------------------------


def piers(seed: int, least: int = 1) -> list[float]:
    """Inches down from the beam: 20 to 80, and seats up to 6 apart."""
    draw = Random(seed)
    beam, spread = draw.uniform(20, 74), draw.uniform(0, 6)
    return [beam + draw.uniform(0, spread) for _ in range(draw.randint(least, 24))]


def sixteenths(inches: float) -> Fraction:
    return Fraction(round(inches * 16), 16)


def feet_and_inches(inches: float) -> str:
    feet, rest = divmod(sixteenths(inches), 12)
    return f"{feet}' {mixed(rest)}\""


Hand = Callable[[float], str]
HANDS: dict[str, tuple[str, Hand]] = {
    "fractions": ("inches", lambda x: mixed(sixteenths(x))),
    "decimal inches": ("inches", lambda x: f"{x:.2f}"),
    "eighths as decimals": ("inches", lambda x: f"{round(x * 8) / 8}"),
    "hundredths": ("feet", lambda x: f"{x / 12:.2f}"),
    "hundredths in a spreadsheet": ("feet", lambda x: f"{x / 12:.2f}".rstrip("0").rstrip(".")),
    "tenths": ("feet", lambda x: f"{x / 12:.1f}"),
    "feet and inches": ("feet", feet_and_inches),
    "mm": ("mm", lambda x: f"{x * 25.4:.0f}"),
    "half mm": ("mm", lambda x: f"{round(x * 50.8) / 2:.1f}"),
}
hands = pytest.mark.parametrize("hand", list(HANDS))
seeds = st.integers(0, 2**32)


def written(hand: str, inches: Sequence[float], *, signs: bool = False) -> list[str]:
    """As a crew writes them; with *signs* as a receiver shows them, nought without."""
    texts = [HANDS[hand][1](abs(x)) for x in inches]
    if not signs:
        return texts
    return [("-+"[x > 0] if set(t) & set("123456789") else "") + t for t, x in zip(texts, inches, strict=True)]


def near_zero(seed: int, least: int = 1) -> list[float]:
    """A receiver's plus and minus: seats up to 6 apart, its zero among them; of several, one is an inch from it."""
    seats = piers(seed, least)
    zero = Random(seed).uniform(min(seats), max(seats))
    return [zero - s for s in seats] + [1.01] * (least > 1)


@hands
@given(seed=seeds)
def test_no_alarm_on_rods_down_from_the_beam(hand: str, seed: int) -> None:
    unit, _ = HANDS[hand]
    assert alarms(file(written(hand, piers(seed)), f"unit,{unit}", "sense,down")) == []


@pytest.mark.parametrize("hand", [h for h, (unit, _) in HANDS.items() if unit != "feet"])
@given(seed=seeds)
def test_no_alarm_on_files_that_say_nothing_and_are_in_the_jobs_unit(hand: str, seed: int) -> None:
    unit: Unit = "mm" if HANDS[hand][0] == "mm" else "in"
    assert alarms(file(written(hand, piers(seed))), unit) == []


@hands
@given(seed=seeds)
def test_no_alarm_on_direct_elevation_rods(hand: str, seed: int) -> None:
    """Larger is higher, and no signs."""
    assert alarms(file(written(hand, piers(seed)), f"unit,{HANDS[hand][0]}", "sense,up")) == []


@hands
@given(seed=seeds)
def test_no_alarm_on_receivers_with_plus_and_minus(hand: str, seed: int) -> None:
    assert alarms(file(written(hand, near_zero(seed), signs=True), f"unit,{HANDS[hand][0]}", "sense,up")) == []


@hands
@given(seed=seeds)
def test_no_alarm_where_the_eye_was_right(hand: str, seed: int) -> None:
    seats = piers(seed, 2)
    named = [f"{word},{COLUMNS[seats.index(which(seats))]}" for word, which in (("highest", min), ("lowest", max))]
    if max(seats) - min(seats) < 2.4:  # a tenth of a foot is 1.2: both may read alike
        seats = [s if s < max(seats) else s + 2.4 for s in seats]
    assert alarms(file(written(hand, seats), f"unit,{HANDS[hand][0]}", *named, "sense,down")) == []


# --- the sense --------------------------------------------------------------------------------------------------------


@hands
@given(seed=seeds)
def test_a_rod_read_the_other_way_is_told_where_highest_and_lowest_are_named(hand: str, seed: int) -> None:
    """A direct-elevation rod taken as one down from the beam, and the other way round."""
    seats = piers(seed, 2)
    high, low = seats.index(min(seats)), seats.index(max(seats))
    seats[low] = seats[high] + 3
    named = f"highest,{COLUMNS[high]}", f"lowest,{COLUMNS[low]}"
    up = [150 - s for s in seats]
    for texts, sense in ((written(hand, up), "down"), (written(hand, seats), "up")):
        warns, stops = questioned(file(texts, f"unit,{HANDS[hand][0]}", f"sense,{sense}", *named))
        assert any("is the rod read the other way?" in line for line in warns)
        assert stops == []


SWAPPED = "column,reading\nA1,45\nA2,44\nA3,44 1/2\n"


def test_a_file_that_has_not_said_its_sense_is_stopped() -> None:
    warns, stops = questioned("highest,A1\nlowest,A2\n" + SWAPPED)
    said = (
        "By eye A1 is the highest seat and A2 the lowest; the readings, taken as larger is lower, say the opposite: is "
        "the rod read the other way?"
    )
    assert warns == [said]
    assert stops == [
        f'readings.csv: {said} Say which: a line "sense,down" (larger is lower) or "sense,up" before the heading.'
    ]


@pytest.mark.parametrize("named", ["highest,A1", "lowest,A2"])
def test_one_seat_named_by_eye_is_enough(named: str) -> None:
    """A1 reads the lowest of all, A2 the highest."""
    warns, stops = questioned(f"{named}\n{SWAPPED}")
    assert (len(warns), len(stops)) == (1, 1)


@pytest.mark.parametrize("named", ["highest,A3", "lowest,A3", "highest,A2", "lowest,A1", "highest,B1\nlowest,A2"])
def test_an_eye_that_was_nearly_right_is_not_questioned(named: str) -> None:
    """A3 reads in the middle; B1 is not read yet, and A2 is then held against all."""
    said = alarms(f"{named}\n{SWAPPED}")
    assert (said == []) == (named != "highest,B1\nlowest,A2")


def test_seats_that_read_alike_say_nothing_of_the_sense() -> None:
    warns, stops = questioned("highest,A1\nlowest,A2\ncolumn,reading\nA1,44\nA2,44\nA3,45\n")
    assert warns == ["A1 is the highest seat by eye and A2 the lowest, and both read alike."]
    assert stops == []


def test_one_level_floor_is_not_questioned() -> None:
    assert alarms("highest,A1\ncolumn,reading\nA1,44\nA2,44\nA3,44\n") == []


# --- spread, plate, benchmarks ----------------------------------------------------------------------------------------


def test_seats_further_apart_than_piers_are_are_questioned() -> None:
    """12 may be, on a slope; half of them in another unit may not."""
    assert alarms(file(["40", "46", "52"])) == []
    warns, stops = questioned(file(["40 1/16", "46", "52 1/8"]))
    assert warns == ['A3 reads 12 1/16" lower than A1: is the unit right, and were both read on their seats?']
    assert stops == []


def test_one_seat_that_stands_out_is_not_a_matter_of_the_unit() -> None:
    """It is named as such elsewhere; unless it was read twice."""
    one = ["44", "44 1/4", "44 1/2", "44", "44 3/8", "60"]
    assert alarms(file(one)) == []
    twice = file(one).replace("reading", "reading,round") + "".join(
        f"\n{name},{text},2" for name, text in zip(COLUMNS, one, strict=False)
    )
    assert len(alarms(twice)) == 1


def test_concrete_and_seats_together_need_the_plate() -> None:
    text = "column,reading,on\nA1,44,\nA2,45,concrete\n"
    assert alarms(text) == [
        "readings.csv: line 3, column A2 = 45: is read on the concrete and A1 is not, and nothing says how thick the "
        'plate between them is. Say so: a line "plate,3/8" before the heading; "plate,0" if there is none.'
    ]
    assert alarms(f"plate,3/8\n{text}") == alarms(f"plate,0\n{text}") == []


def test_seats_on_concrete_and_a_benchmark_need_the_plate() -> None:
    text = "read on,concrete\nbenchmark,BM\ncolumn,reading\nBM,40\nA1,44\n"
    assert "line 5, column A1 = 44: is read on the concrete and BM is not" in alarms(text)[0]
    assert alarms(text.replace("benchmark,BM\n", "").replace("BM,40\n", "")) == []


def test_a_benchmark_that_was_hit_is_told() -> None:
    rows = "BM,20,1\nA1,44,1\nA2,45,1\nA3,46,1\nBM,21,2\nA1,46,2\nA2,47,2\nA3,48,2\n"
    assert alarms(f"benchmark,BM\ncolumn,reading,round\n{rows}") == [
        'BM stands 1" higher in round 2 than before, and the seats do not: was it hit? Round 2 is laid on the others '
        "by the seats that both have read, and of BM the first reading is kept."
    ]
    two = f"benchmark,BM\nbenchmark,PIN\ncolumn,reading,round\nPIN,10,1\nPIN,12,2\n{rows.replace('BM,21', 'BM,23')}"
    assert alarms(two) == [
        'BM stands 1" lower in round 2 than before, and the seats do not: was it hit? Round 2 is laid on the others by '
        "PIN, and of BM the first reading is kept."
    ]


def test_without_a_survey_the_numbers_alone_are_doubted() -> None:
    """A loop in another unit does not close: then the unit is told."""
    written = book.read(file(["4.04", "4.2", "4.11"]), COLUMNS, "in")
    (stop,) = doubts.refused(written, None, Style("in"))
    assert "look like feet" in stop.wrong


def test_three_whole_numbers_with_a_sign_are_hardly_inches() -> None:
    """Two may be, the third one that is another makes chance of it no more: a receiver's inches have fractions."""
    up = "sense,up"
    assert not [t for t in alarms(file(["+3", "-4", "+3", "-4"], "unit,inches", up)) if "mm" in t]
    assert [t for t in alarms(file(["+3", "-4", "+5", "-4"], "unit,inches", up)) if "mm" in t]


def test_nothing_read_is_not_doubted() -> None:
    assert doubts.refused(book.read("column,reading\nA1,\n", COLUMNS, "in"), None, Style("in")) == []


# --- the robust test --------------------------------------------------------------------------------------------------


def test_a_wild_reading_is_named() -> None:
    """The middle of 44, 44 1/4, 44 1/2, 44 3/4, 54 3/8 is 44 1/2; they are 1/2, 1/4, 0, 1/4, 9 7/8 from it, the middle
    of which is 1/4, taken as the calm 1/2. 0.6745 x 9.875 / 0.5 = 13.3, more than 3.5."""
    values = {"A1": 44.0, "A2": 44.25, "A3": 44.5, "A4": 44.75, "A5": 54.375}
    assert doubts.wild(values) == {"A5": 9.875}
    assert doubts.wild(dict(list(values.items())[1:])) == {}  # of four seats nobody can tell


def test_the_robust_test_against_its_formula() -> None:
    """Iglewicz and Hoaglin's modified z-score beyond 3.5 (as told in public articles). With a median deviation of 1 it
    is 3.5 / 0.6745 = 5.189 inches."""
    calm = {f"B{n}": v for n, v in enumerate([43.0, 44.0, 45.0, 44.0, 43.0, 45.0])}
    assert doubts.wild({**calm, "A1": 44 + 5.18}) == {}
    assert doubts.wild({**calm, "A1": 44 + 5.2}) == {"A1": pytest.approx(5.2)}
    assert doubts.wild({**calm, "A1": 44 - 5.2}) == {"A1": pytest.approx(-5.2)}


def test_seats_that_read_alike_do_not_make_one_wild_that_is_two_inches_out() -> None:
    """The calm 1/2 stands for their nought: 3.5 x 0.5 / 0.6745 = 2.594 inches."""
    alike = dict.fromkeys(["B1", "B2", "B3", "B4"], 44.0)
    assert doubts.wild({**alike, "A1": 46.59}) == {}
    assert doubts.wild({**alike, "A1": 46.6}) == {"A1": pytest.approx(2.6)}


@given(st.lists(st.floats(40, 46), min_size=5, max_size=30), st.floats(-500, 500))
def test_a_constant_makes_nothing_wild(values: list[float], by: float) -> None:
    """And ordinary piers never hide one that is two feet out."""
    seats = dict(zip(COLUMNS, values, strict=False))
    assert doubts.wild({n: v + by for n, v in seats.items()}).keys() == doubts.wild(seats).keys()
    assert "Z1" in doubts.wild({**seats, "Z1": 24 + max(values)})
