"""Slips of the unit and readings that look like another one: told, however many crews write them."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_doubts import alarms, file, near_zero, piers, questioned, seeds, written

SLIPS = [
    # written in, taken as, words of the question
    ("hundredths", "inches", "look like feet"),
    ("hundredths in a spreadsheet", "inches", "look like feet"),
    ("tenths", "inches", "look like feet"),
    ("mm", "inches", "Are they mm?"),
    ("half mm", "inches", "Are they mm?"),
    ("fractions", "feet", "inches"),
    ("decimal inches", "feet", "inches"),
    ("eighths as decimals", "feet", "inches"),
    ("mm", "feet", "Are they mm?"),
    ("fractions", "mm", "inches"),
    ("decimal inches", "mm", "look like inches"),
    ("eighths as decimals", "mm", "look like inches"),
    ("hundredths", "mm", "look like feet"),
    ("tenths", "mm", "look like feet"),
]


@pytest.mark.parametrize(("hand", "taken", "words"), SLIPS)
@given(seed=seeds, said=st.booleans())
def test_another_unit_down_from_the_beam_is_told(hand: str, taken: str, words: str, seed: int, said: bool) -> None:
    """However few readings there are; where the file has not said its unit it is stopped."""
    text = file(written(hand, piers(seed)), f"unit,{taken}" if said or taken == "feet" else "")
    told = alarms(text, "mm" if taken == "mm" else "in")
    assert any(words in line for line in told), told
    if not said and taken != "feet":
        assert any(line.startswith("readings.csv") for line in told)


@pytest.mark.parametrize(
    ("hand", "taken", "words"), [s for s in SLIPS if s[:2] not in {("tenths", "inches"), ("tenths", "mm")}]
)
@given(seed=seeds)
def test_another_unit_of_a_direct_elevation_rod_is_told(hand: str, taken: str, words: str, seed: int) -> None:
    """Seats that all read the same quarter of a foot may be inches."""
    texts = written(hand, piers(seed, 8))
    told = alarms(file(texts, f"unit,{taken}", "sense,up"))
    assert any(words in line for line in told) or len(set(texts)) < 3, told


@given(seed=seeds)
def test_mm_of_a_receiver_taken_as_inches_are_told(seed: int) -> None:
    """Nobody reads whole inches."""
    told = alarms(file(written("mm", near_zero(seed, 8), signs=True), "unit,inches", "sense,up"))
    if len(set(written("mm", near_zero(seed, 8)))) >= 3:
        assert "look like mm" in told[0]


@given(seed=seeds)
def test_inches_of_a_receiver_taken_as_mm_are_told(seed: int) -> None:
    """Nobody reads hundredths of a mm."""
    told = alarms(file(written("decimal inches", near_zero(seed, 8), signs=True), "unit,mm", "sense,up"))
    assert "look like inches" in told[0]


@pytest.mark.parametrize(("hand", "other"), [("decimal inches", "inches"), ("mm", "mm")])
@given(seed=seeds)
def test_a_receivers_feet_over_99_hundredths_are_told(hand: str, other: str, seed: int) -> None:
    told = alarms(file(written(hand, near_zero(seed, 8), signs=True), "unit,feet", "sense,up"))
    assert any(f"look like {other}" in line or f"Are they {other}?" in line for line in told)


@given(seed=seeds)
def test_decimals_near_zero_stop_a_file_that_has_not_said_its_unit(seed: int) -> None:
    """0.21 may be 2 1/2 in or 3/16: nothing but the file can say. Quarters are no such decimals."""
    texts = written("hundredths", near_zero(seed, 8), signs=True)
    odd = sum(t[-2:] not in ("00", "25", "50", "75") for t in texts)
    told = alarms(file(texts, "sense,up"))
    assert any("Decimals near zero may be inches or feet" in line for line in told) == (2 * odd > len(texts))
    assert not any("Decimals" in line for line in alarms(file(texts, "unit,inches", "sense,up")))


@given(seed=seeds)
def test_feet_and_inches_written_with_a_point_are_told(seed: int) -> None:
    """4 ft 11 in as 4.11, with 5 ft 1 in as 5.1 or 4 ft 9 in as 4.9: seats on both sides of such a number."""
    draw = Random(seed)
    whole = [draw.choice([-2, -1, 1, 2, 3]) for _ in range(draw.randint(3, 20))]
    inches = [12 * draw.randint(2, 6) + 11 + w for w in [*whole, 0, draw.choice([-2, 1])]]
    foot = inches[-2] // 12 * 12
    texts = [f"{x // 12}.{x % 12}" for x in (foot + i % 12 for i in inches)]
    (line,) = alarms(file(texts, "unit,feet"))[:1]
    assert line.startswith("No reading has more than 11 after its point: are they feet and inches?")


@pytest.mark.parametrize(
    "readings",
    [
        ["4.02", "4.11", "4.07", "4.00", "4.10"],  # a good site
        ["4.02", "4.5", "4.11", "4.1", "5"],  # a spreadsheet's hundredths
        ["4.9", "4.11", "4.12", "4.4", "4.5"],
        ["4.9", "4.110", "5.1", "4.8", "5"],  # thousandths
        ["4.1", "4.2", "4.3", "4", "4.9"],  # tenths
        ["4.1", "4.11", "4.2", "4.9"],  # four may be chance
    ],
)
def test_decimal_feet_that_cannot_be_feet_and_inches(readings: list[str]) -> None:
    assert alarms(file(readings, "unit,feet")) == []


@pytest.mark.parametrize(
    "readings",
    [
        ["4.9", "4.10", "4.8", "4.7", "4.9"],
        ["4.09", "4.11", "5.01", "4.10", "5.00"],
        ["4.11", "5", "5.1", "5.2", "5.3"],
        ["+4.11", "+5", "+5.1", "+4.9", "+4.8"],
    ],
)
def test_decimal_feet_that_may_be_feet_and_inches(readings: list[str]) -> None:
    told = alarms(file(readings, "unit,feet", "sense,down"))
    assert "are they feet and inches?" in told[0]


def test_the_words_of_a_question_show_both_readings() -> None:
    """4.2 ft is 50.4."""
    warns, stops = questioned(file(["4.04", "4.2", "4.11"]))
    said = (
        'The readings are taken as inches, and look like feet: A2 4.2 would be 4 3/16" in inches, 4\'-2 3/8" in feet.'
    )
    assert warns == [said]
    right = 'Say which: a line "unit,inches", "unit,feet" or "unit,mm" before the heading.'
    assert stops == [f"readings.csv: {said} {right}"]


def test_the_words_of_4_11() -> None:
    """4.11 ft is 49.32, which is 4'-1 5/16"."""
    assert alarms(file(["4.9", "4.11", "5.1", "4.8", "4.9"], "unit,feet")) == [
        "No reading has more than 11 after its point: are they feet and inches? A2 4.11 is 4'-1 5/16\" in decimal "
        "feet; feet and inches are written 4' 11\"."
    ]


def test_readings_with_units_of_their_own_are_not_questioned() -> None:
    assert alarms(file(["4.04 ft", "4.2'", "50.4 in", "1280 mm"])) == []


@pytest.mark.parametrize("readings", [["8 3/4", "9", "8 1/2"], ["8¾", "9", "8½"]])
def test_fractions_are_inches_however_low_the_beam(readings: list[str]) -> None:
    assert alarms(file(readings)) == []


def test_whole_inches_of_a_direct_elevation_rod_are_not_questioned() -> None:
    assert alarms(file(["44", "45", "46", "45"], "unit,inches", "sense,up")) == []


def test_benchmarks_are_not_questioned() -> None:
    """They may hang anywhere."""
    assert alarms("benchmark,BM\ncolumn,reading\nBM,2.25\nA1,44 1/2\nA2,45\n") == []


# --- elevations in decimal feet ---------------------------------------------------------------------------------------

FEET = ["100.00", "99.97", "100.06", "100.01", "99.99"]
OFF = 'Take 95 off each, so that 100.00 is 5.00, and say so: lines "unit,feet" and "sense,up" before the heading.'


@pytest.mark.parametrize("head", ["", "sense,up", "unit,inches", "unit,mm"])
def test_elevations_in_feet_are_no_inches(head: str) -> None:
    """As inches they would be a beam 8'-4" above seats that are all within 3/32 of one another. 99.97 - 4 is 95 whole
    feet. Nothing says which unit to write but feet."""
    unit = "mm" if "mm" in head else "inches"
    said = f"The readings are taken as {unit}, and look like elevations in decimal feet: A1 100.00."
    warns, stops = questioned(file(FEET, *head.split()))
    assert warns == [f"{said} {OFF}"]
    assert stops == ([] if head.startswith("unit") else [f"readings.csv: {said} {OFF}"])


@pytest.mark.parametrize("texts", [FEET, ["845.23", "845.20", "845.31", "845.27", "845.22"]])
def test_elevations_that_are_longer_than_any_rod_are_not_said_to_be_inches_or_mm(texts: list[str]) -> None:
    (told,) = alarms(file(texts, "unit,feet" if texts is FEET else "", "sense,up"))
    off = OFF if texts is FEET else OFF.replace("95", "841").replace("100.00 is 5.00", "845.23 is 4.23")
    assert told.endswith(f"So are 4 more. Are they elevations in feet? {off}")


def test_elevations_told_as_they_are_advised_are_not_questioned() -> None:
    assert alarms(file(["5.00", "4.97", "5.06", "5.01", "4.99"], "unit,feet", "sense,up")) == []


@pytest.mark.parametrize(
    "texts",
    [
        ["44.06", "45.19", "44.75", "44.88", "44.50"],  # an ordinary rod
        ["100.06", "101.19", "100.75", "100.88", "100.50"],  # seats 1 1/8 apart
        ["100.00", "99.97", "100.06", "100.01", "100.23"],  # 0.26 apart
        ["100.06", "100.19", "100.00", "100.12", "100.25"],  # sixteenths of a tape
        ["100.0", "99.97", "100.06", "100.01", "99.99"],
        ["89.97", "90.00", "90.06", "90.01", "90.02"],  # 90 in, and as feet
        ["100.00", "99.97", "100.06", "100.01"],  # four may be chance
        ["44.01", "44.03", "44.07", "44.05", "44.02"],  # level seats, a beam of usual height
    ],
)
@pytest.mark.parametrize("head", ["", "unit,inches"])
def test_decimal_inches_are_no_elevations(texts: list[str], head: str) -> None:
    assert alarms(file(texts, head)) == []


def test_seats_just_as_level_and_as_low_as_elevations_are_questioned() -> None:
    """90 and more, 1/4 apart."""
    told = alarms(file(["90.00", "90.25", "90.06", "90.01", "90.02"]))
    assert any("elevations in decimal feet: A1 90.00." in line for line in told)
