"""Joints of rows: against full enumeration on small walls, and as properties on any wall."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from itertools import combinations, pairwise

import numpy as np
import pytest
from effort import examples
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from layouts import joints as joints_module
from layouts.joint_tracks import ready
from layouts.joints import NoJoint, Row, split, stagger

STOCKS = (
    (192.0,),
    (144.0, 192.0),
    (96.0, 120.0, 144.0, 168.0, 192.0),
    (192.0, 216.0, 240.0),
    (120.0, 168.0),
)
BAYS = (48.0, 62.5, 84.0, 96.0, 96.0, 108.0, 120.0)
Cost = tuple[int, int, int]  # shared, pieces, waste in sixteenths
Joints = Sequence[float]


def row_cost(row: Row, joints: Joints) -> tuple[int, int] | None:
    """(pieces, waste in sixteenths), or None if a piece is over the longest stock; positions are sixteenths."""
    edges = sorted([row.start, *joints, *(at for gap in row.gaps for at in gap), row.end])
    pieces = [round((b - a) * 16) for a, b in pairwise(edges) if (a, b) not in row.gaps]
    stock = [round(s * 16) for s in row.stock]
    if max(pieces) > max(stock):
        return None
    return len(pieces), sum(min(s for s in stock if s >= piece) - piece for piece in pieces)


def wall_cost(rows: Sequence[Row], plan: Sequence[Joints]) -> Cost:
    own = [row_cost(row, joints) for row, joints in zip(rows, plan, strict=True)]
    assert None not in own
    good = [cost for cost in own if cost]
    shared = sum(len(set(a) & set(b)) for a, b in pairwise(plan))
    return shared, sum(c[0] for c in good), sum(c[1] for c in good)


def every(row: Row) -> list[tuple[float, ...]]:
    inner = [at for at in row.supports if row.start < at < row.end and not any(a <= at <= b for a, b in row.gaps)]
    sets = (joints for n in range(len(inner) + 1) for joints in combinations(inner, n))
    return [joints for joints in sets if row_cost(row, joints)]


def brute(rows: Sequence[Row]) -> Cost:
    """Least cost over every combination of joint sets of all rows at once (a full table, no dynamic programme)."""
    choices = [every(row) for row in rows]
    table = np.zeros([len(c) for c in choices], dtype=np.int64)
    for r, (row, sets) in enumerate(zip(rows, choices, strict=True)):
        own = [cost[0] * 2**24 + cost[1] for cost in (row_cost(row, joints) for joints in sets) if cost]
        table += np.array(own).reshape([-1 if k == r else 1 for k in range(len(rows))])
    for r in range(len(rows) - 1):
        meet = np.array([[len(set(a) & set(b)) for b in choices[r + 1]] for a in choices[r]])
        table += 2**40 * meet.reshape([meet.shape[k - r] if k in (r, r + 1) else 1 for k in range(len(rows))])
    least = int(table.min())
    return least >> 40, (least >> 24) & 0xFFFF, least & 0xFFFFFF


def columns(bays: Sequence[float]) -> tuple[float, ...]:
    return tuple(math.fsum(bays[:k]) for k in range(len(bays) + 1))


@st.composite
def walls(draw: st.DrawFn, mixed: bool = True) -> list[Row]:
    """Up to four rows over at most five inner columns, bays irregular; mixed rows differ in ends and stock."""
    at = columns(draw(st.lists(st.sampled_from(BAYS), min_size=1, max_size=6)))
    count = draw(st.integers(1, 4))
    rows: list[Row] = []
    while len(rows) < count:
        stock = draw(st.sampled_from(STOCKS))
        left, right = (draw(st.sampled_from((1.5, 0.0, -1.5, 20.0, 47.0))) for _ in range(2))
        row = Row(left, max(at[-1] - right, left + 1), at, stock)
        rows += [row] * (draw(st.integers(1, count - len(rows))) if mixed else count)
    return rows


@st.composite
def gapped(draw: st.DrawFn, mixed: bool = True) -> list[Row]:
    """The same with one or two openings in some of the rows."""
    rows = draw(walls(mixed))
    made = {}
    for row in dict.fromkeys(rows):
        long = row.end - row.start
        cuts = sorted(draw(st.lists(st.integers(1, 30), min_size=2, max_size=4, unique=True)))
        edges = [row.start + long * cut / 32 for cut in cuts]
        gaps = tuple(zip(edges[::2], edges[1::2], strict=False))
        made[row] = replace(row, gaps=draw(st.sampled_from([(), gaps])))
    found = [made[row] for row in rows]
    assume(all(every(row) for row in found))
    return found


@settings(deadline=None, max_examples=examples(200))
@given(gapped(mixed=False))
def test_like_rows_with_openings_cost_the_least_possible(rows: list[Row]) -> None:
    assert wall_cost(rows, stagger(rows)) == brute(rows)


@settings(deadline=None, max_examples=examples(200))
@given(gapped())
def test_mixed_rows_with_openings_cost_the_least_possible(rows: list[Row]) -> None:
    assert wall_cost(rows, stagger(rows)) == brute(rows)


def test_no_joint_stands_in_or_on_the_edge_of_an_opening() -> None:
    # a 12 ft door over the second column: 6 ft and 10 ft of board are left to either side of it
    at = columns([96.0] * 3)
    row = Row(0.0, 288.0, at, (96.0, 120.0, 192.0), ((72.0, 168.0),))
    assert split(row) == ()
    wide = Row(0.0, 480.0, columns([96.0] * 5), (96.0, 120.0, 192.0), ((72.0, 168.0),))
    assert split(wide) == (288.0,)  # 168 to 288 and on to 480: 120 and 192, no waste


def test_a_stretch_beside_an_opening_that_no_board_reaches_over_is_told() -> None:
    with pytest.raises(NoJoint) as found:
        split(Row(0.0, 480.0, (0.0, 480.0), (192.0,), ((200.0, 300.0),)))
    assert (found.value.start, found.value.end) == (0.0, 200.0)


@pytest.mark.parametrize("gaps", [((-5.0, 10.0),), ((10.0, 10.0),), ((50.0, 60.0), (55.0, 70.0)), ((90.0, 100.0),)])
def test_gaps_that_are_none_are_refused(gaps: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ValueError, match="gaps of a row"):
        Row(0.0, 100.0, (), (192.0,), gaps)


def test_sixteens_on_eight_foot_bays() -> None:
    # Common practice, no source: 16 ft pieces on 8 ft bays, endwall girts running past by 1 1/2 in.
    row = Row(1.5, 576 - 1.5, columns([96.0] * 6), (96.0, 120.0, 144.0, 168.0, 192.0))
    plan = stagger([row] * 5)
    pieces = [[b - a for a, b in pairwise((row.start, *joints, row.end))] for joints in plan]
    odd, even = [190.5, 192.0, 190.5], [94.5, 192.0, 192.0, 94.5]
    assert pieces == [odd, even, odd, even, odd]
    assert pieces[0][0] == 15 * 12 + 10.5  # the first piece, corner to the centre of column 3: 15'-10 1/2"


@settings(deadline=None, max_examples=examples(150))
@given(walls(mixed=False))
def test_like_rows_cost_the_least_possible(rows: list[Row]) -> None:
    assert wall_cost(rows, stagger(rows)) == brute(rows)


@settings(deadline=None, max_examples=examples(150))
@given(walls())
def test_mixed_rows_cost_the_least_possible(rows: list[Row]) -> None:
    assert wall_cost(rows, stagger(rows)) == brute(rows)


@settings(deadline=None)
@given(walls(mixed=False), st.sets(st.integers(0, 6)))
def test_one_row_around_columns_to_avoid(rows: list[Row], taken: set[int]) -> None:
    row = rows[0]
    avoid = frozenset(row.supports[k] for k in taken if k < len(row.supports))

    def cost(joints: Joints) -> tuple[int, tuple[int, int] | None]:
        return len(avoid & set(joints)), row_cost(row, joints)

    best = min(every(row), key=cost)
    assert cost(split(row, avoid)) == cost(best)


def test_searched_walls_come_close_to_solved_ones() -> None:
    """Searching a stretch at a time is not proved. Held to what it reaches: over 150 walls of 2 to 12 mixed rows
    and 14 to 16 columns, at most 1 wall in 20 shares a joint more than its solved plan, and 1 % more pieces."""
    made = random.Random(11)
    worse, pieces, least_pieces = 0, 0, 0
    for _ in range(150):
        at = columns(made.choices(BAYS, k=made.randint(13, 15)))
        stock = made.choice(STOCKS)
        ends = [made.choice((1.5, 20.0, 47.0, 110.0)) for _ in range(made.randint(2, 12))]
        rows = [Row(end, at[-1] - end, at, stock) for end in ends]
        solved = wall_cost(rows, stagger(rows))
        tracks, _ = ready(rows)
        plan = joints_module._search(tracks)
        searched = wall_cost(rows, [track.at(joints) for track, joints in zip(tracks, plan, strict=True)])
        assert solved <= searched
        worse += searched[0] > solved[0]
        pieces, least_pieces = pieces + searched[1], least_pieces + solved[1]
    assert worse <= 150 // 20
    assert pieces <= 1.01 * least_pieces


@st.composite
def any_walls(draw: st.DrawFn) -> list[Row]:
    at = columns(draw(st.lists(st.floats(12, 119.9), min_size=1, max_size=40)))
    rows = []
    for _ in range(draw(st.integers(1, 12))):
        left, right = draw(st.floats(-2, 60)), draw(st.floats(-2, 60))
        rows.append(Row(left, max(at[-1] - right, left + 1), at, draw(st.sampled_from(STOCKS[:4]))))
    return rows


@settings(deadline=None, max_examples=examples(60))
@given(any_walls())
def test_every_row_can_be_built(rows: list[Row]) -> None:
    for row, joints in zip(rows, stagger(rows), strict=True):
        pieces = [b - a for a, b in pairwise((row.start, *joints, row.end))]
        assert math.fsum(pieces) == pytest.approx(row.end - row.start, abs=1e-6)
        assert 0 < min(pieces) <= max(pieces) <= row.stock[-1] + 1e-6
        assert all(row.start < at < row.end and at in row.supports for at in joints)


def test_long_gable_never_breaks_twice_on_a_column() -> None:
    # Rows breaking on odd and on even columns in turn share nothing, so no plan of this wall needs to.
    at = columns([96.0] * 60)
    rows = [Row(1.5 + 36 * k, at[-1] - 1.5 - 36 * k, at, (96.0, 144.0, 192.0)) for k in range(20)]
    assert wall_cost(rows, stagger(rows))[0] == 0


def test_columns_off_by_a_rounding_are_one_column() -> None:
    at = columns([96.0] * 4)
    near = tuple(c + 4e-7 for c in at)
    first, second = stagger([Row(0.0, 384.0, at, (192.0,)), Row(0.0, 384.0, near, (192.0,))])
    assert all(abs(a - b) > 1 for a in first for b in second)
    assert split(Row(0.0, 192.0 + 5e-7, at, (192.0,))) == ()  # half a millionth over still fits


def test_a_joint_is_never_put_on_the_end_of_a_row() -> None:
    row = Row(96.0, 288.0, columns([96.0] * 3), (96.0, 192.0))
    assert split(row) == ()
    assert split(row, {96.0, 288.0}) == ()


def test_ties_fall_late() -> None:
    # Two pieces either way and the same waste: the later column.
    assert split(Row(0.0, 300.0, (0.0, 120.0, 180.0, 300.0), (192.0,))) == (180.0,)


def test_a_single_row_is_at_its_best_by_itself() -> None:
    row = Row(-1.5, 289.5, columns([96.0] * 3), (144.0, 192.0))
    assert wall_cost([row], stagger([row])) == brute([row])
    assert stagger([row]) == (split(row),)


def test_no_column_in_reach() -> None:
    with pytest.raises(NoJoint, match="from 96 to 300 in") as refused:
        stagger([Row(0.0, 396.0, (0.0, 96.0, 300.0, 396.0), (144.0, 192.0))])
    assert (refused.value.start, refused.value.end, refused.value.longest) == (96.0, 300.0, 192.0)


def test_no_rows() -> None:
    assert stagger([]) == ()


@pytest.mark.parametrize(
    ("start", "end", "at", "stock"),
    [
        (10.0, 10.0, (), (96.0,)),
        (0.0, 90.0, (), ()),
        (0.0, 90.0, (), (0.0, 96.0)),
        (0.0, 90.0, (60.0, 30.0), (96.0,)),
        (0.0, 90.0, (), (120.0, 96.0)),
        (0.0, math.nan, (), (96.0,)),
    ],
)
def test_rows_that_are_no_rows(start: float, end: float, at: tuple[float, ...], stock: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="a row needs"):
        Row(start, end, at, stock)
