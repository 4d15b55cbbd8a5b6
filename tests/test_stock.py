"""Cutting plans as asked for: proved optima, what is bought, kerf and trim. What is proved is held against other
solvers in ``test_cutting``."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.stock import Plan, Stick, TooLong, Want, order, plan, shortest, spares

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
def test_the_optimum_and_proved(raw: float, data: str, optimum: int) -> None:
    done = plan(wanted(data), [raw], kerf=0)
    assert (len(done.sticks), done.proved) == (optimum, True)
    assert done.cost == done.bound == optimum * raw


@pytest.mark.parametrize(("raw", "data", "optimum"), PROVED)
@pytest.mark.parametrize("kerf", [0.125, 1.5])
def test_proved_optima_hold_with_a_kerf_taken_out(raw: float, data: str, optimum: int, kerf: float) -> None:
    # raw - k and pieces - k with kerf k is the same problem, so it has the same optimum and the same plan.
    shorter = [Want(want.mark, want.length - kerf, want.count) for want in wanted(data)]
    done = plan(shorter, [raw - kerf], kerf)
    assert (len(done.sticks), done.proved) == (optimum, True)
    assert [[m for m, _ in s.cuts] for s in done.sticks] == [
        [m for m, _ in s.cuts] for s in plan(wanted(data), [raw], 0).sticks
    ]


@pytest.mark.parametrize(("raw", "data", "optimum"), PROVED)
def test_proved_optima_hold_with_a_trim_put_on(raw: float, data: str, optimum: int) -> None:
    # A stick 2 longer that is trimmed by 2 is the same stick.
    done = plan(wanted(data), [raw + 2], 0, trim=2)
    assert (len(done.sticks), done.proved) == (optimum, True)


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
    # 190 + 40 and 100 take 20 ft and 10 ft, 360 in; 190 and 100 + 40 (140 1/8 in) take 16 ft and 12 ft, 336 in. Less
    # than 14 x 24 = 336 does not go: 330 3/8 in with the kerfs is more than 13 x 24 = 312.
    done = plan([Want("A", 100.0, 1), Want("B", 190.0, 1), Want("C", 40.0, 1)], FEET)
    assert order(done) == ((144.0, 1), (192.0, 1))
    assert {stick.stock: [mark for mark, _ in stick.cuts] for stick in done.sticks} == {192.0: ["B"], 144.0: ["A", "C"]}
    assert done.proved


def test_nothing_wanted() -> None:
    assert plan([Want("A", 50.0, 0)], FEET) == Plan((), 0.0, proved=True)
    assert order(plan([], FEET)) == ()


def test_metric_lengths_that_fill_a_stick_exactly() -> None:
    done = plan([Want("A", 1000 / 25.4, 12)], [6000 / 25.4], kerf=0)
    assert [len(stick.cuts) for stick in done.sticks] == [6, 6]


def test_too_long() -> None:
    with pytest.raises(TooLong, match="G7: 241 in") as refused:
        plan([Want("A", 90.0, 1), Want("G7", 241.0, 2)], FEET)
    assert (refused.value.mark, refused.value.length, refused.value.longest) == ("G7", 241.0, 240.0)


def test_too_long_for_what_the_trim_leaves() -> None:
    plan([Want("A", 239.5, 1)], FEET, trim=0.5)
    with pytest.raises(TooLong) as refused:
        plan([Want("A", 239.625, 1)], FEET, trim=0.5)
    assert refused.value.longest == 239.5


def test_trim_comes_off_every_stick() -> None:
    # 96 - 1/2 trim - 90 piece - 1/8 kerf = 5 3/8
    assert plan([Want("A", 90.0, 1)], [96.0], trim=0.5).sticks[0].drop == 5.375
    # 2 x 95 15/16 + 1/8 is just 16 ft, with nothing to trim
    assert len(plan([Want("A", 95.9375, 2)], [192.0], trim=0.0625).sticks) == 2


def test_the_cheaper_sticks_are_bought() -> None:
    # Two 90 in pieces: from one 16 ft stick at 12.00, or from two 8 ft sticks at 5.50 each, 11.00.
    done = plan([Want("A", 90.0, 2)], [96.0, 192.0], prices={96.0: 5.5, 192.0: 12.0})
    assert (order(done), done.cost, done.proved, done.priced) == (((96.0, 2),), 11.0, True, True)
    dear = plan([Want("A", 90.0, 2)], [96.0, 192.0], prices={96.0: 6.5, 192.0: 12.0})
    assert (order(dear), dear.cost, dear.bound) == (((192.0, 1),), 12.0, 12.0)


def test_a_longer_stick_is_bought_where_it_costs_less() -> None:
    done = plan([Want("A", 90.0, 3)], [96.0, 120.0], prices={96.0: 6.0, 120.0: 5.0})
    assert (order(done), done.cost) == (((120.0, 3),), 15.0)
    assert done.sticks[0].drop == 120 - 90 - 0.125


def test_stock_without_a_price_is_not_bought() -> None:
    done = plan([Want("A", 90.0, 2)], FEET, prices={120.0: 5.0})
    assert order(done) == ((120.0, 2),)
    with pytest.raises(TooLong) as refused:
        plan([Want("A", 130.0, 1)], FEET, prices={120.0: 5.0})
    assert refused.value.longest == 120.0


def test_as_dear_a_plan_has_no_more_sticks_than_it_must() -> None:
    # Prices by the foot: 2 x 90 in and the kerf cost the same from one 16 ft stick as from two 8 ft sticks.
    assert order(plan([Want("A", 90.0, 2)], [96.0, 192.0])) == ((192.0, 1),)


@pytest.mark.parametrize(
    "prices", [{}, {96.0: 0.0}, {96.0: -1.0}, {96.0: math.inf}, {96.0: math.nan}, {95.0: 4.0}, {96.0: 1e7}]
)
def test_prices_that_are_no_prices(prices: dict[float, float]) -> None:
    with pytest.raises(ValueError, match="prices"):
        plan([Want("A", 50.0, 1)], [96.0], prices=prices)


@pytest.mark.parametrize(("trim", "over"), [(-0.1, 0.0), (math.nan, 0.0), (96.0, 0.0), (0.0, -0.1), (0.0, math.inf)])
def test_trim_and_allowance_that_are_none(trim: float, over: float) -> None:
    with pytest.raises(ValueError, match=r"trim|over"):
        plan([Want("A", 50.0, 1)], [96.0], trim=trim, over=over)


def test_marks_of_one_length_are_kept_together() -> None:
    # Two of these fill a stick: A A, A B, B and not A B, A B, A.
    done = plan([Want("B", 90.0, 2), Want("A", 90.0, 3)], [192.0])
    assert [[mark for mark, _ in stick.cuts] for stick in done.sticks] == [["A", "A"], ["A", "B"], ["B"]]
    assert done.kinds == 2


def test_the_gap_is_told_as_a_part_of_the_bound() -> None:
    assert Plan((), bound=200.0, cost=210.0).gap == pytest.approx(0.05)
    assert Plan((), bound=0.0).gap == 0.0


@pytest.mark.parametrize(
    ("bought", "percent", "count", "more"),
    [
        (((96.0, 30), (192.0, 11)), 5, 0, ((192.0, 3),)),  # 5 % of 41 is 2.05
        (((96.0, 30), (192.0, 10)), 5, 0, ((192.0, 2),)),  # 5 % of 40 is just 2
        (((96.0, 30), (192.0, 10)), 5, 4, ((192.0, 4),)),  # 4 is more than 2
        (((96.0, 30),), 0, 0, ()),
        ((), 10, 2, ()),
    ],
)
def test_spares(
    bought: tuple[tuple[float, int], ...], percent: float, count: int, more: tuple[tuple[float, int], ...]
) -> None:
    assert spares(bought, percent, count) == more


@pytest.mark.parametrize(("percent", "count"), [(-1.0, 0), (math.nan, 0), (0.0, -1)])
def test_spares_below_zero(percent: float, count: int) -> None:
    with pytest.raises(ValueError, match="spares"):
        spares(((96.0, 1),), percent, count)


def test_shortest() -> None:
    assert shortest(96.0, FEET) == 96.0
    assert shortest(96.01, FEET[::-1]) == 120.0
    assert shortest(240.5, FEET) is None


@pytest.mark.parametrize("stock", [[], [0.0], [96.0, -96.0], [math.nan], [math.inf]])
def test_stock_that_is_no_stock(stock: list[float]) -> None:
    with pytest.raises(ValueError, match=r"stock: give at least one length, each above zero"):
        plan([Want("A", 50.0, 1)], stock)


@pytest.mark.parametrize("kerf", [-0.1, math.nan, math.inf])
def test_a_kerf_that_is_no_kerf(kerf: float) -> None:
    with pytest.raises(ValueError, match=f"kerf must be zero or more, not {kerf}"):
        plan([Want("A", 50.0, 1)], [96.0], kerf)


@pytest.mark.parametrize(("length", "count"), [(0.0, 1), (-3.0, 1), (math.inf, 1), (50.0, -1)])
def test_wants_that_are_no_wants(length: float, count: int) -> None:
    with pytest.raises(ValueError, match="A:"):
        Want("A", length, count)
