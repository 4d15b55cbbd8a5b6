"""The level page against published ones, and instrument checks against instruments bent by a known error."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from levelling import Page, Pegs, Sight, booked, curvature, turned, two_peg

from layouts.adjust import Difference, adjust

F = Fraction


def back(point: str, reading: str) -> Sight:
    return Sight(point, back=F(reading))


def turn(point: str, fore: str, back: str) -> Sight:
    return Sight(point, fore=F(fore), back=F(back))


def between(point: str, reading: str) -> Sight:
    return Sight(point, between=F(reading))


def fore(point: str, reading: str) -> Sight:
    return Sight(point, fore=F(reading))


# A surveying study guide (seen), feet.
L1 = booked(
    [back("BM1", "4.20"), turn("TP1", "2.50", "5.15"), turn("TP2", "3.50", "3.05"), fore("BM2", "4.10")], F(100)
)
# A published page (seen), feet; the end is known as 94.91.
L2 = booked(
    [
        back("A", "3.10"),
        turn("TP1", "9.82", "6.44"),
        turn("TP2", "6.96", "8.76"),
        turn("TP3", "3.27", "7.12"),
        fore("B", "10.42"),
    ],
    F(100),
)
# A published page (seen), metres; D is an intermediate sight.
L4 = booked(
    [
        back("A", "0.422"),
        turn("B", "0.684", "1.285"),
        turn("C", "0.506", "1.793"),
        between("D", "4.462"),
        turn("E", "2.416", "3.120"),
        turn("F", "1.517", "1.234"),
        fore("G", "1.232"),
    ],
    F("481.923"),
)
PUBLISHED = (
    (L1, {"BM1": "100.00", "TP1": "101.70", "TP2": "103.35", "BM2": "102.30"}),
    (L2, {"A": "100.00", "TP1": "93.28", "TP2": "92.76", "TP3": "98.25", "B": "94.95"}),
    (
        L4,
        {
            "A": "481.923",
            "B": "481.661",
            "C": "482.440",
            "D": "479.771",
            "E": "481.817",
            "F": "483.420",
            "G": "483.422",
        },
    ),
)


@pytest.mark.parametrize(("page", "elevations"), PUBLISHED, ids=["L1", "L2", "L4"])
def test_elevations_as_published(page: Page, elevations: dict[str, str]) -> None:
    """Exactly, which is more than the thousandth they are told to."""
    assert {x.point: x.elevation for x in page.lines} == {n: F(e) for n, e in elevations.items()}


@pytest.mark.parametrize(
    ("page", "beams"),
    [(L1, ["104.20", "106.85", "106.40"]), (L2, ["103.10", "99.72", "101.52", "105.37"])],
    ids=["L1", "L2"],
)
def test_beams_as_published(page: Page, beams: list[str]) -> None:
    """The last point is left with the beam it was seen by."""
    assert [x.beam for x in page.lines] == [F(b) for b in [*beams, beams[-1]]]


@pytest.mark.parametrize(("page", "backs", "fores"), [(L1, "12.40", "10.10"), (L2, "25.42", "30.47")], ids=["L1", "L2"])
def test_sums_as_published(page: Page, backs: str, fores: str) -> None:
    assert (page.backs, page.fores) == (F(backs), F(fores))


def test_an_intermediate_sight_is_in_no_sum() -> None:
    """Computed: .422 + 1.285 + 1.793 + 3.120 + 1.234 and .684 + .506 + 2.416 + 1.517 + 1.232."""
    assert (L4.backs, L4.fores) == (F("7.854"), F("6.355"))
    assert L4.rise == F("1.499")


def test_misclosure_as_published() -> None:
    """L2 (seen): +0.04 against the known 94.91."""
    assert L2.lines[-1].elevation - F("94.91") == F("0.04")


def test_a_page_is_adjusted_to_its_known_end() -> None:
    """0.04 over four set-ups is 0.01 each: 93.28 - .01, 92.76 - .02, 98.25 - .03, 94.95 - .04."""
    run = [Difference(a.point, b.point, b.elevation - a.elevation) for a, b in pairwise(L2.lines)]
    found = adjust(run, {"A": F(100), "B": F("94.91")}).heights
    assert [found[n] for n in ("TP1", "TP2", "TP3")] == [F("93.27"), F("92.74"), F("98.22")]


readings = st.fractions(-50, 200, max_denominator=32)


@st.composite
def pages(draw: st.DrawFn) -> tuple[list[Sight], Fraction]:
    """A page of any length, some of its sights inverted."""
    amid: list[Sight] = []
    for i in range(draw(st.integers(0, 8))):
        reading = draw(readings)
        amid.append(
            Sight(f"P{i}", between=reading)
            if draw(st.booleans())
            else Sight(f"P{i}", fore=reading, back=draw(readings))
        )
    return [Sight("first", back=draw(readings)), *amid, Sight("last", fore=draw(readings))], draw(readings)


@given(pages())
def test_the_page_check(page: tuple[list[Sight], Fraction]) -> None:
    """Sum of backsights less sum of foresights is last less first."""
    found = booked(*page)
    assert found.rise == found.lines[-1].elevation - found.lines[0].elevation
    assert found.lines[0].elevation == page[1]


@given(pages())
def test_a_page_levelled_back_falls_as_it_rose(page: tuple[list[Sight], Fraction]) -> None:
    """The line run the other way: every foresight is a backsight and the other way about."""
    sights, start = page
    there = booked(sights, start)
    back_again = [Sight(s.point, back=s.fore, between=s.between, fore=s.back) for s in reversed(sights)]
    home = booked(back_again, there.lines[-1].elevation)
    assert [(x.point, x.elevation) for x in reversed(home.lines)] == [(x.point, x.elevation) for x in there.lines]


def test_a_larger_reading_is_a_lower_point() -> None:
    page = booked([back("A", "48"), between("B", "48.625"), fore("C", "47")], F(0))
    assert [x.elevation for x in page.lines] == [0, F("-0.625"), 1]


def test_an_inverted_sight_is_above_the_beam() -> None:
    """Beam at 10 + 4 = 14; the underside of a beam 6 above it; from there down again: 20 - 5 = 15, and 15 - 3 = 12."""
    page = booked([back("A", "4"), turn("truss", "-6", "-5"), between("purlin", "-2"), fore("B", "3")], F(10))
    assert [(x.elevation, x.beam) for x in page.lines] == [
        (F(e), F(b)) for e, b in ((10, 14), (20, 15), (17, 15), (12, 15))
    ]


@pytest.mark.parametrize(
    ("sights", "place"),
    [
        ([fore("A", "4"), fore("B", "4")], "A"),
        ([between("A", "4"), fore("B", "4")], "A"),
        ([turn("A", "4", "4"), fore("B", "4")], "A"),
        ([back("A", "4"), back("B", "4")], "B"),
        ([back("A", "4"), between("B", "4")], "B"),
        ([back("A", "4"), turn("B", "4", "4")], "B"),
        ([back("A", "4"), fore("B", "4"), fore("C", "4")], "B"),
        ([back("A", "4"), fore("B", "4"), back("B", "4"), fore("C", "4")], "B"),
        ([back("A", "4"), back("B", "4"), fore("C", "4")], "B"),
        ([back("A", "4")], "A"),
        ([between("A", "4")], "A"),
    ],
)
def test_a_broken_page_is_refused_where_it_breaks(sights: list[Sight], place: str) -> None:
    with pytest.raises(ValueError, match=f"^{place}: a page runs from a backsight"):
        booked(sights, F(0))


def test_an_empty_page_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing is booked"):
        booked([], F(0))


@pytest.mark.parametrize(
    "given",
    [
        {},
        {"back": F(1), "between": F(1)},
        {"fore": F(1), "between": F(1)},
        dict.fromkeys(("back", "between", "fore"), F(1)),
    ],
)
def test_a_line_of_the_page_is_one_thing(given: dict[str, Fraction]) -> None:
    with pytest.raises(ValueError, match=r"^TP1: a line has"):
        Sight("TP1", **given)


# --- curvature


def test_curvature_at_a_hundred_feet() -> None:
    """0.021·K² ft (seen): 0.0025 in at 100 ft. 0.021·0.1² = 0.00021 ft = 0.00252 in."""
    assert curvature(F(1200)) == F("0.00252")


def test_curvature_grows_with_the_square() -> None:
    """0.021 ft at a thousand feet; four times as much at two thousand."""
    assert curvature(F(12_000)) == F("0.021") * 12
    assert curvature(F(24_000)) == F("0.084") * 12


# --- instruments that are off

slopes = st.fractions(F(-1, 100), F(1, 100), max_denominator=10_000)
lengths = st.fractions(1, 4000, max_denominator=16)
heights = st.fractions(-40, 40, max_denominator=32)


@given(
    slopes, heights, lengths, lengths, st.fractions(30, 90, max_denominator=8), st.fractions(30, 90, max_denominator=8)
)
def test_two_pegs_tell_rise_and_error_of_a_bent_line_of_sight(
    error: Fraction, rise: Fraction, half: Fraction, near: Fraction, first: Fraction, second: Fraction
) -> None:
    """Beams *first* and *second* above peg A; near is on the line beyond A, so B is the whole distance further."""
    middle = (first + error * half, first - rise + error * half)
    far = near + 2 * half
    outside = (second + error * near, second - rise + error * far)
    assert two_peg(middle, outside, near, far) == Pegs(rise, error)


@given(slopes, heights, st.fractions(1, 99, max_denominator=16))
def test_two_pegs_with_the_second_set_up_between_them(error: Fraction, rise: Fraction, near: Fraction) -> None:
    """Pegs 200 apart, the second set-up within a hundred of B, so A is the far one."""
    middle = (50 + error * 100, 50 - rise + error * 100)
    inside = (60 + error * (200 - near), 60 - rise + error * near)
    assert two_peg(middle, inside, 200 - near, near) == Pegs(rise, error)


def test_two_pegs_by_hand() -> None:
    """Pegs 100 ft apart. From the middle A reads 50 and B 47: B is 3 above A. From A itself A reads 55, so B should
    read 52; it reads 52 3/16: 3/16 too high in 1200 in, 1/6400 in per inch."""
    found = two_peg((F(50), F(47)), (F(55), F(52) + F(3, 16)), F(0), F(1200))
    assert found == Pegs(F(3), F(1, 6400))


@given(slopes.filter(bool), heights)
def test_two_pegs_do_not_see_a_tilted_plane(slope: Fraction, rise: Fraction) -> None:
    """Pegs 200 apart, a plane that climbs from A to B, set up half way and then 20 from A, facing the same way: it is
    100 times the slope too low at A and too high at B, then 20 too low and 180 too high. No error comes out, and the
    rise is wrong by 200 times the slope."""
    middle = (50 - 100 * slope, 50 - rise + 100 * slope)
    near = (60 - 20 * slope, 60 - rise + 180 * slope)
    assert two_peg(middle, near, F(20), F(180)) == Pegs(rise - 200 * slope, F(0))


@pytest.mark.parametrize(("to_a", "to_b"), [(100, 100), (0, 0), (-10, 100), (100, -10)])
def test_two_pegs_at_sights_that_tell_nothing(to_a: int, to_b: int) -> None:
    with pytest.raises(ValueError, match="one peg must be nearer"):
        two_peg((F(50), F(47)), (F(55), F(52)), F(to_a), F(to_b))


@given(slopes, lengths, heights)
def test_a_laser_turned_tells_the_tilt_of_its_plane(slope: Fraction, sight: Fraction, level: Fraction) -> None:
    first, second = level + slope * sight, level - slope * sight
    assert turned(first, second, sight) == slope
    assert (first + second) / 2 == level


def test_a_laser_turned_by_hand() -> None:
    """Common practice, no source: marks 3/16 apart at 100 ft are 3/32 off at 100 ft, and near 1/16 at 60 ft."""
    error = turned(F(48) + F(3, 16), F(48), F(1200))
    assert error * 1200 == F(3, 32)
    assert error * 720 == F(9, 160)  # 0.056


@given(slopes, lengths)
def test_a_laser_turned_does_not_tell_an_error_that_is_the_same_all_round(error: Fraction, sight: Fraction) -> None:
    mark = 48 + error * sight
    assert turned(mark, mark, sight) == 0


@pytest.mark.parametrize("sight", [F(0), F(-1200)])
def test_a_laser_is_turned_at_a_distance(sight: Fraction) -> None:
    with pytest.raises(ValueError, match="checked at a distance"):
        turned(F(48), F(47), sight)
