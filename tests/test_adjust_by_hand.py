"""Small nets of levelling, adjusted by hand."""

from __future__ import annotations

from test_adjust import F

from layouts.adjust import Adjusted, Difference, adjust


def test_a_doubled_difference_is_one_of_their_mean() -> None:
    twice = [Difference("A", "B", F(10)), Difference("A", "B", F(13), F(2))]
    found = adjust(twice, {"A": F(0)})
    assert found.heights["B"] == 12  # (10 + 2·13) / 3
    assert found.residuals == (F(2), F(-1))
    # the same as one of weight 3, whatever else pulls at B: (3·12 + 1·20) / 4
    other = Difference("C", "B", F(20))
    fixed = {"A": F(0), "C": F(0)}
    assert adjust([*twice, other], fixed).heights["B"] == 14
    assert adjust([Difference("A", "B", F(12), F(3)), other], fixed).heights["B"] == 14


def test_a_difference_between_fixed_points_tells_its_misclosure_alone() -> None:
    found = adjust([Difference("A", "B", F(5)), Difference("B", "C", F(1))], {"A": F(0), "B": F(4)})
    assert found == Adjusted({"A": F(0), "B": F(4), "C": F(5)}, (F(-1), F(0)), 1)


def test_a_line_that_ends_where_it_began_tells_its_misclosure_alone() -> None:
    found = adjust([Difference("A", "B", F(5)), Difference("B", "B", F(1, 8))], {"A": F(0)})
    assert found == Adjusted({"A": F(0), "B": F(5)}, (F(0), F(-1, 8)), 1)


def test_three_fixed_points_pull_by_weight() -> None:
    pulled = [Difference(n, "P", F(rise), F(w)) for n, rise, w in (("A", 3, 1), ("B", 6, 2), ("C", 9, 3))]
    assert adjust(pulled, {"A": F(0), "B": F(1), "C": F(2)}).heights["P"] == F(50, 6)  # (1·3 + 2·7 + 3·11) / 6


def test_a_fixed_point_that_no_one_looked_at_keeps_its_height() -> None:
    assert adjust([], {"A": F(7)}) == Adjusted({"A": F(7)}, (), 0)


def test_nothing_at_all() -> None:
    assert adjust([], {}) == Adjusted({}, (), 0)


def test_fixed_points_come_first_then_the_order_of_naming() -> None:
    run = [Difference("C", "B", F(1)), Difference("B", "A", F(1)), Difference("Z", "C", F(1))]
    assert list(adjust(run, {"Z": F(0)}).heights) == ["Z", "C", "B", "A"]


def test_two_thousand_points_from_two_set_ups() -> None:
    """Set-up T stands a mean of (reading from S less reading from T) under S, every point at the mean of what the two
    beams say. Readings in sixteenths; S is 48 in above the bench mark."""
    count = 2000
    from_s = [F(700 + i * 37 % 160, 16) for i in range(count)]
    from_t = [r - F(31, 16) + F(i * 11 % 5 - 2, 16) for i, r in enumerate(from_s)]
    seen = [Difference("BM", "S", F(48))]
    for i in range(count):
        seen += [Difference("S", f"P{i}", -from_s[i]), Difference("T", f"P{i}", -from_t[i])]
    found = adjust(seen, {"BM": F(0)})
    t = 48 + sum((b - a for a, b in zip(from_s, from_t, strict=True)), F(0)) / count
    assert found.heights["T"] == t
    assert [found.heights[f"P{i}"] for i in range(count)] == [
        (48 - a + t - b) / 2 for a, b in zip(from_s, from_t, strict=True)
    ]
    assert found.redundancy == 4001 - 2002
