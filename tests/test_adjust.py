"""Least-squares heights: published lines and nets, random nets against numpy, and what no adjustment may change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from layouts.adjust import Difference, NotJoined, adjust

F = Fraction
Net = tuple[tuple[Difference, ...], dict[str, Fraction]]


def line(heights: Sequence[str], names: str, weights: Sequence[Fraction] | None = None) -> list[Difference]:
    """A levelled line through points of these unadjusted heights."""
    found = [F(h) for h in heights]
    each = weights or [F(1)] * len(names[1:])
    steps = zip(pairwise(names), pairwise(found), each, strict=True)
    return [Difference(start, end, high - low, weight) for (start, end), (low, high), weight in steps]


def by_numpy(differences: Sequence[Difference], fixed: Mapping[str, Fraction]) -> tuple[dict[str, float], list[float]]:
    """Heights and residuals by orthogonal factors of the design matrix: no normal equations anywhere."""
    names = dict.fromkeys(n for d in differences for n in (d.start, d.end) if n not in fixed)
    place = {name: i for i, name in enumerate(names)}
    design = np.zeros((len(differences), len(names)))
    known = np.zeros(len(differences))  # what the fixed ends give to each rise
    for row, d in enumerate(differences):
        for name, sign in ((d.end, 1.0), (d.start, -1.0)):
            if name in fixed:
                known[row] += sign * float(fixed[name])
            else:
                design[row, place[name]] += sign
    observed = np.array([float(d.rise) for d in differences])
    root = np.sqrt([float(d.weight) for d in differences])
    heights = np.linalg.lstsq(design * root[:, None], (observed - known) * root, rcond=None)[0]
    residuals = design @ heights + known - observed
    return {name: float(heights[i]) for name, i in place.items()}, [float(r) for r in residuals]


def pulls(differences: Sequence[Difference], residuals: Sequence[Fraction]) -> dict[str, Fraction]:
    """Weight times residual at every point, ends up and starts down: zero wherever the heights are least squares."""
    found: dict[str, Fraction] = {}
    for d, residual in zip(differences, residuals, strict=True):
        found[d.end] = found.get(d.end, F(0)) + d.weight * residual
        found[d.start] = found.get(d.start, F(0)) - d.weight * residual
    return found


sixteenths = st.integers(-1600, 1600).map(lambda n: F(n, 16))
weights = st.fractions(F(1, 40), F(20), max_denominator=40)


@st.composite
def nets(draw: st.DrawFn) -> Net:
    """Points that hang on earlier ones in a tree with one or more fixed, and some differences more: loops, doubled
    ones, lines between fixed points, now and then a line that ends where it began."""
    names = [f"P{i}" for i in range(draw(st.integers(2, 9)))]
    fixed = {name: draw(sixteenths) for name in names[: draw(st.integers(1, 3))]}
    pairs = [(names[draw(st.integers(0, i - 1))], names[i]) for i in range(1, len(names))]
    pairs += draw(st.lists(st.tuples(st.sampled_from(names), st.sampled_from(names)), max_size=12))
    ways = draw(st.permutations(pairs))
    turned = [pair[::-1] if draw(st.booleans()) else pair for pair in ways]
    return tuple(Difference(a, b, draw(sixteenths), draw(weights)) for a, b in turned), fixed


# --- published lines and nets


def test_a_misclosure_over_five_set_ups_is_spread_equally() -> None:
    """Lecture slides on levelling (seen): 0.05 over five set-ups corrects -0.01 a set-up."""
    found = adjust(line(["100", "101.2", "103.1", "102.8", "104.4", "105.05"], "ABCDEF"), {"A": F(100), "F": F(105)})
    assert found.residuals == (F("-0.01"),) * 5
    # each point is corrected by the set-ups up to it: 101.2 - .01, 103.1 - .02, 102.8 - .03, 104.4 - .04
    assert [found.heights[n] for n in "BCDE"] == [F("101.19"), F("103.08"), F("102.77"), F("104.36")]
    assert found.redundancy == 1


def test_a_misclosure_is_spread_by_set_ups() -> None:
    """0.06 over 1, 2 and 3 set-ups: 0.01, 0.02 and 0.03."""
    run = line(["10", "12", "11", "15.06"], "ABCD", [F(1), F(1, 2), F(1, 3)])
    assert adjust(run, {"A": F(10), "D": F(15)}).residuals == (F("-0.01"), F("-0.02"), F("-0.03"))


# A loop from a bench mark of 728.730 m back to itself, closing at 728.486 after 30.500 km: km, height as levelled,
# height adjusted by distance (a textbook problem, seen; its adjusted heights computed: 0.244 / 30.5 = 0.008 m a km).
LOOP = (
    ("5.245", "783.213", "783.255"),
    ("11.271", "891.764", "891.854"),
    ("17.718", "843.195", "843.337"),
    ("21.964", "739.708", "739.884"),
    ("25.247", "702.956", "703.158"),
)


def test_a_loop_of_the_textbook_is_spread_by_distance() -> None:
    at = [F(0), *(F(km) for km, _, _ in LOOP), F("30.5")]
    heights = ["728.730", *(h for _, h, _ in LOOP), "728.486"]
    run = line(heights, "S12345S", [1 / (b - a) for a, b in pairwise(at)])
    found = adjust(run, {"S": F("728.73")})
    assert [float(found.heights[n]) for n in "12345"] == pytest.approx([float(h) for _, _, h in LOOP], abs=5e-4)
    # exactly: 8 mm a kilometre
    assert [found.heights[n] for n in "12345"] == [F(h) + F(km) * F("0.008") for km, h, _ in LOOP]
    assert found.heights["S"] == F("728.73")


# Mikhail and Ackermann, 1976, table 7-1 (seen in an open manual): rise in m, length of line in km.
MIKHAIL = [
    Difference(a, b, F(rise), 1 / F(km))
    for a, b, rise, km in (
        ("A", "B", "25.42", "18.1"),
        ("B", "C", "10.34", "9.4"),
        ("C", "A", "-35.20", "14.2"),
        ("B", "D", "-15.54", "17.6"),
        ("D", "E", "21.32", "13.5"),
        ("E", "C", "4.82", "9.9"),
        ("E", "A", "-31.02", "13.8"),
        ("C", "D", "-26.11", "14.0"),
    )
]


def test_the_net_of_mikhail_and_ackermann() -> None:
    """Heights with A = 0, computed by weighted least squares from the published lines."""
    found = adjust(MIKHAIL, {"A": F(0)})
    known = {"A": 0, "B": 25.2206, "C": 35.5354, "D": 9.5339, "E": 30.8460}
    assert {n: float(h) for n, h in found.heights.items()} == pytest.approx(known, abs=1e-4)
    assert found.redundancy == 4  # eight lines for four heights


def test_the_net_of_mikhail_and_ackermann_by_numpy() -> None:
    found = adjust(MIKHAIL, {"A": F(0)})
    heights, residuals = by_numpy(MIKHAIL, {"A": F(0)})
    assert {n: float(found.heights[n]) for n in "BCDE"} == pytest.approx(heights, abs=1e-9)
    assert [float(r) for r in found.residuals] == pytest.approx(residuals, abs=1e-9)


# --- any net


@given(nets())
def test_any_net_as_numpy_has_it(net: Net) -> None:
    found = adjust(*net)
    heights, residuals = by_numpy(*net)
    assert {n: float(found.heights[n]) for n in heights} == pytest.approx(heights, abs=1e-9)
    assert [float(r) for r in found.residuals] == pytest.approx(residuals, abs=1e-9)


@given(nets())
def test_residuals_stand_square_to_the_net(net: Net) -> None:
    """The normal equations hold to the last figure, and so does what a residual is."""
    differences, fixed = net
    found = adjust(*net)
    assert all(pull == 0 for name, pull in pulls(differences, found.residuals).items() if name not in fixed)
    for d, residual in zip(differences, found.residuals, strict=True):
        assert residual == found.heights[d.end] - found.heights[d.start] - d.rise


@given(nets())
def test_what_is_fixed_stays_and_all_is_counted(net: Net) -> None:
    differences, fixed = net
    found = adjust(*net)
    assert {n: found.heights[n] for n in fixed} == fixed
    assert set(found.heights) == {n for d in differences for n in (d.start, d.end)} | set(fixed)
    assert found.redundancy == len(differences) - len(set(found.heights) - set(fixed))


@given(nets(), sixteenths)
def test_a_higher_datum_lifts_everything(net: Net, lift: Fraction) -> None:
    differences, fixed = net
    plain, lifted = adjust(*net), adjust(differences, {n: h + lift for n, h in fixed.items()})
    assert lifted.heights == {n: h + lift for n, h in plain.heights.items()}
    assert lifted.residuals == plain.residuals


@given(nets(), st.data())
def test_a_difference_read_from_its_other_end_is_the_same(net: Net, data: st.DataObject) -> None:
    differences, fixed = net
    at = data.draw(st.integers(0, len(differences) - 1))
    d = differences[at]
    other = (*differences[:at], Difference(d.end, d.start, -d.rise, d.weight), *differences[at + 1 :])
    plain, back = adjust(*net), adjust(other, fixed)
    assert back.heights == plain.heights
    assert back.residuals[at] == -plain.residuals[at]


@given(nets(), weights)
def test_only_the_ratio_of_weights_counts(net: Net, times: Fraction) -> None:
    differences, fixed = net
    assert adjust([replace(d, weight=d.weight * times) for d in differences], fixed) == adjust(*net)


@given(nets(), st.randoms(use_true_random=False))
def test_the_order_of_differences_changes_no_height(net: Net, random: Random) -> None:
    differences, fixed = net
    shuffled = list(differences)
    random.shuffle(shuffled)
    assert adjust(shuffled, fixed).heights == adjust(*net).heights


@given(nets())
def test_rises_without_error_are_left_alone(net: Net) -> None:
    """Rises made from heights come back as these heights, whatever the weights."""
    differences, fixed = net
    truth = {
        n: F(3 * i * i - 40, 7) for i, n in enumerate(dict.fromkeys(n for d in differences for n in (d.start, d.end)))
    }
    true = [replace(d, rise=truth[d.end] - truth[d.start]) for d in differences]
    found = adjust(true, {n: truth[n] for n in fixed if n in truth})
    assert found.heights == truth
    assert set(found.residuals) == {F(0)}


@given(nets(), sixteenths)
def test_a_point_that_hangs_on_one_difference_tells_nothing(net: Net, rise: Fraction) -> None:
    differences, fixed = net
    plain, hung = adjust(*net), adjust([*differences, Difference("P1", "hanging", rise)], fixed)
    assert hung.residuals == (*plain.residuals, F(0))
    assert hung.heights == {**plain.heights, "hanging": plain.heights["P1"] + rise}
    assert hung.redundancy == plain.redundancy


# --- refused


def test_points_joined_to_no_fixed_one_are_named() -> None:
    apart = [
        Difference("A", "B", F(1)),
        Difference("Q", "P", F(1)),  # a second net, with a loop
        Difference("P", "R", F(1)),
        Difference("R", "Q", F(1)),
        Difference("B", "C", F(1)),
        Difference("X", "X", F(0)),  # seen from nowhere but itself
    ]
    with pytest.raises(NotJoined, match=r"not joined to any fixed point: Q, P, R, X$") as caught:
        adjust(apart, {"A": F(0)})
    assert caught.value.names == ("Q", "P", "R", "X")


def test_without_a_fixed_point_nothing_has_a_height() -> None:
    with pytest.raises(NotJoined) as caught:
        adjust(MIKHAIL, {})
    assert caught.value.names == ("A", "B", "C", "D", "E")


def test_two_nets_with_a_fixed_point_each_are_adjusted_together() -> None:
    apart = [*MIKHAIL, *(replace(d, start=d.start + "2", end=d.end + "2") for d in MIKHAIL)]
    both = adjust(apart, {"A": F(0), "A2": F(1)}).heights
    one = adjust(MIKHAIL, {"A": F(0)}).heights
    assert both == {**one, **{n + "2": h + 1 for n, h in one.items()}}


@pytest.mark.parametrize("weight", [F(0), F(-1), F(-1, 1000)])
def test_a_weight_is_more_than_zero(weight: Fraction) -> None:
    with pytest.raises(ValueError, match=f"A to B: a weight must be more than zero, not {weight}"):
        Difference("A", "B", F(1), weight)
