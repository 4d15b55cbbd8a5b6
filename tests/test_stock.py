"""Cutting plans: against proved optima, and as properties."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.stock import Plan, Stick, TooLong, Want, order, plan, shortest

FEET = (96.0, 120.0, 144.0, 168.0, 192.0, 216.0, 240.0)

# Data from the sources named; every optimum was computed and proved with an integer-programming solver.
PROVED = [
    pytest.param(
        5600.0,
        "1380x22 1520x25 1560x12 1710x14 1820x18 1880x18 1930x20 2000x10 2050x12 2100x14 2140x16 2150x18 2200x20",
        73,
        id="5600 mm rolls, a widely published example (optimum computed)",
    ),
    pytest.param(
        100.0, "45x97 36x610 31x395 14x211", 453, id="Chvatal, Linear Programming, 1983, ch. 13 (optimum computed)"
    ),
    pytest.param(110.0, "20x48 45x35 50x24 55x10 75x8", 47, id="raw 110, AMPL book (memory; optimum computed)"),
    pytest.param(10.0, "7x2 5x2 3x4", 4, id="raw 10, MiniZinc example (optimum computed)"),
]


def wanted(text: str) -> list[Want]:
    pairs = [item.split("x") for item in text.split()]
    return [Want(f"P{length}", float(length), int(count)) for length, count in pairs]


eighths = st.integers(8, 96 * 8).map(lambda n: n / 8)
wants = st.lists(st.builds(Want, st.sampled_from("ABCDEF"), eighths, st.integers(0, 6)), max_size=12)
stocks = st.lists(st.sampled_from(FEET), min_size=1, max_size=4)
kerfs = st.sampled_from((0.0, 0.125, 0.1875))


@given(wants, stocks, kerfs)
def test_every_piece_is_cut_once_and_every_stick_adds_up(asked: list[Want], stock: list[float], kerf: float) -> None:
    done = plan(asked, stock, kerf)
    cut = Counter(piece for stick in done.sticks for piece in stick.cuts)
    asked_for: Counter[tuple[str, float]] = Counter()
    for want in asked:
        asked_for[want.mark, want.length] += want.count
    assert cut == +asked_for
    for stick in done.sticks:
        assert stick.stock in stock
        saw_cuts = len(stick.cuts) - 1 + (stick.drop > 0)
        used = math.fsum(length for _, length in stick.cuts) + saw_cuts * kerf + stick.drop
        dust = stick.stock - used  # a remainder within one kerf leaves no drop
        assert dust == pytest.approx(0, abs=1e-6) if stick.drop else -1e-6 <= dust <= kerf + 1e-6
        shorter = [s for s in stock if s < stick.stock]
        assert all(s < math.fsum(x for _, x in stick.cuts) + (len(stick.cuts) - 1) * kerf for s in shorter)


@given(wants, stocks, kerfs)
def test_bound_and_order_agree_with_the_sticks(asked: list[Want], stock: list[float], kerf: float) -> None:
    done = plan(asked, stock, kerf)
    bought = order(done)
    assert list(bought) == sorted(bought)
    total = sum(length * count for length, count in bought)
    assert total == sum(stick.stock for stick in done.sticks)
    assert done.bound <= total + 1e-6
    assert total == 0 or done.bound >= max(want.length for want in asked if want.count)


@given(wants, st.sampled_from(FEET), st.sampled_from((0.125, 0.25)))
def test_kerf_is_the_same_as_longer_pieces_from_longer_stock(asked: list[Want], stock: float, kerf: float) -> None:
    longer = [Want(want.mark, want.length + kerf, want.count) for want in asked]
    with_kerf, without = plan(asked, [stock], kerf), plan(longer, [stock + kerf], 0.0)
    assert [len(stick.cuts) for stick in with_kerf.sticks] == [len(stick.cuts) for stick in without.sticks]


@given(wants.flatmap(lambda asked: st.tuples(st.just(asked), st.permutations(asked))), stocks)
def test_the_order_of_asking_does_not_matter(both: tuple[list[Want], list[Want]], stock: list[float]) -> None:
    asked, mixed = both
    assert plan(mixed, stock[::-1]) == plan(asked, stock)


@pytest.mark.parametrize(("raw", "data", "optimum"), PROVED)
def test_near_the_proved_optimum_and_never_under_it(raw: float, data: str, optimum: int) -> None:
    done = plan(wanted(data), [raw], kerf=0)
    assert optimum <= len(done.sticks) <= 1.2 * optimum
    assert done.bound <= optimum * raw


@pytest.mark.parametrize(("raw", "data", "optimum"), PROVED)
@pytest.mark.parametrize("kerf", [0.125, 1.5])
def test_proved_optima_hold_with_a_kerf_taken_out(raw: float, data: str, optimum: int, kerf: float) -> None:
    # raw - k and pieces - k with kerf k is the same problem, so it has the same optimum and the same plan.
    shorter = [Want(want.mark, want.length - kerf, want.count) for want in wanted(data)]
    sticks = plan(shorter, [raw - kerf], kerf).sticks
    assert optimum <= len(sticks) == len(plan(wanted(data), [raw], 0).sticks)


def test_material_bound_by_hand() -> None:
    # Three pieces of 95 in: 285 3/8 in with a kerf each, over one 16 ft stick, so two.
    assert plan([Want("A", 95.0, 3)], [192.0]).bound == 384.0
    # Two pieces of 95 15/16 in and the kerf between them are just one 16 ft stick: a second kerf is not needed.
    assert plan([Want("A", 95.9375, 2)], [192.0]).bound == 192.0
    # Two pieces of 8'-1" do not go together in 16 ft, so two 10 ft sticks whatever the adding says.
    assert plan([Want("A", 97.0, 2)], [120.0, 192.0]).bound == 240.0


def test_kerf_between_pieces() -> None:
    # Two 8 ft pieces and a kerf do not come out of 16 ft; 1/8 in less does.
    assert [s.stock for s in plan([Want("A", 96.0, 2)], [192.0]).sticks] == [192.0, 192.0]
    done = plan([Want("A", 96.0, 1), Want("B", 95.875, 1)], [192.0])
    assert done.sticks == (Stick(192.0, (("A", 96.0), ("B", 95.875)), 0.0),)


def test_drop_is_what_is_left_after_its_own_kerf() -> None:
    assert plan([Want("A", 90.0, 1)], [96.0]).sticks[0].drop == 5.875
    assert plan([Want("A", 95.9375, 1)], [96.0]).sticks[0].drop == 0.0


def test_sticks_shrink_to_the_shortest_that_holds() -> None:
    done = plan([Want("A", 100.0, 1), Want("B", 190.0, 1), Want("C", 40.0, 1)], FEET)
    assert order(done) == ((120.0, 1), (240.0, 1))
    assert {stick.stock: [mark for mark, _ in stick.cuts] for stick in done.sticks} == {
        240.0: ["B", "C"],
        120.0: ["A"],
    }


def test_nothing_wanted() -> None:
    assert plan([Want("A", 50.0, 0)], FEET) == Plan((), 0.0)
    assert order(plan([], FEET)) == ()


def test_metric_lengths_that_fill_a_stick_exactly() -> None:
    done = plan([Want("A", 1000 / 25.4, 12)], [6000 / 25.4], kerf=0)
    assert [len(stick.cuts) for stick in done.sticks] == [6, 6]


def test_too_long() -> None:
    with pytest.raises(TooLong, match="G7: 241 in") as refused:
        plan([Want("A", 90.0, 1), Want("G7", 241.0, 2)], FEET)
    assert (refused.value.mark, refused.value.length, refused.value.longest) == ("G7", 241.0, 240.0)


def test_shortest() -> None:
    assert shortest(96.0, FEET) == 96.0
    assert shortest(96.01, FEET[::-1]) == 120.0
    assert shortest(240.5, FEET) is None


@pytest.mark.parametrize(("stock", "kerf"), [([], 0.125), ([0.0], 0.125), ([96.0], -0.1), ([math.nan], 0.0)])
def test_stock_that_is_no_stock(stock: list[float], kerf: float) -> None:
    with pytest.raises(ValueError, match=r"stock|kerf"):
        plan([Want("A", 50.0, 1)], stock, kerf)


@pytest.mark.parametrize(("length", "count"), [(0.0, 1), (-3.0, 1), (math.inf, 1), (50.0, -1)])
def test_wants_that_are_no_wants(length: float, count: int) -> None:
    with pytest.raises(ValueError, match="A:"):
        Want("A", length, count)
