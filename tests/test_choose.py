"""Choosing the line reading: what each candidate costs, which one is proposed, and why."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import BASE, METRIC, build, job

from layouts import choose
from layouts.choose import Seat
from layouts.fields import Job
from layouts.grade import Grade

LEVEL = {"A1": "45", "A2": "45", "A3": "45", "G1": "45", "G2": "45", "G3": "45"}


def grade(changes: Mapping[str, Any], rows: Mapping[str, Any]) -> Grade:
    return build(changes, rows).grade


# --- what a candidate costs -----------------------------------------------------------------------------------------


def stock_by_hand(name: str, reading: float, down: float) -> float:
    """The base job's columns: bearing 144, heel 9 1/4, 4/12, 2x6 purlins on edge, 32 ft wide with 1 1/2 of girt."""
    side = 144 + 9.25 + 5.5 * math.sqrt(1 + 1 / 9) + 5.5 / 3  # roof plane, long point inside
    end = 144 + 9.25 + (132 - 1.5 + 2.25) / 3  # C1, 11 ft from the line at A: its high edge, to the chord
    top = side if name[0] in "AG" else end
    need = reading - down + top + 0.5  # to trim
    return next(feet * 12.0 for feet in range(8, 31, 2) if feet * 12 >= need)


def test_the_column_stock_of_every_candidate_is_what_a_hand_works_out() -> None:
    rows = {"A1": 49.0, "A2": 50.5, "G3": 52.25, "C1": 49.75, "G7": 47.0}
    found = grade({}, rows)
    assert len(found.candidates) > 4
    for c in found.candidates:
        assert dict(c.stocks) == {name: stock_by_hand(name, v, c.down) for name, v in rows.items()}, c.down
    # the roof plane's long point is 160.88: 14 ft takes offsets to 6 5/8, so lines differ
    assert len({c.bought for c in found.candidates}) > 1


def test_a_candidate_tells_least_and_most_offset_and_who_is_out() -> None:
    found = grade({"grade.most": "3"}, {"A1": "45", "A2": "46 1/4", "A3": "48 1/2"})
    # least 1 under 45: line 44, offsets 1, 2 1/4, 4 1/2
    at = {c.down: c for c in found.candidates}
    assert (at[44].least, at[44].most) == (1, 4.5)
    assert dict(at[44].out) == {"A3": (("low", 1.5),)}
    assert dict(at[45].out) == {"A1": (("high", 1.0),), "A3": (("low", 0.5),)}
    assert dict(at[45.5].out) == {"A1": (("below", 0.5),), "A2": (("high", 0.25),)}


def test_a_seat_may_be_out_in_two_ways() -> None:
    # long point 160.8808 + 1/2 to trim: 162 holds offsets to 0.62
    found = grade({"column.stock": ["162 in"], "grade.most": "1/2", "grade.least": "0"}, {"A1": "45 3/4"})
    at = {c.down: c for c in found.candidates}
    assert [(kind, round(by, 3)) for kind, by in at[44.5].out["A1"]] == [("low", 0.75), ("stock", 0.631)]
    assert at[44.5].stocks == {"A1": None}
    assert at[44.5].bought == 0


@pytest.mark.parametrize(
    ("base", "round_", "step"),
    [
        (BASE, "whole", 1),
        (BASE, "half", 0.5),
        (BASE, "quarter", 0.25),
        (METRIC, "whole", 10),
        (METRIC, "half", 5),
        (METRIC, "quarter", 2),
    ],
)
def test_every_candidate_stands_on_a_step_of_the_rod(base: Mapping[str, Any], round_: str, step: float) -> None:
    unit = 25.4 if base is METRIC else 1
    rows = {"A1": 1143 if base is METRIC else "45 3/16", "A2": 1157 if base is METRIC else "45 11/16"}
    found = build({"grade.round": round_}, rows, base=base).grade
    steps = [c.down * unit / step for c in found.candidates]
    assert steps == pytest.approx([round(s) for s in steps], abs=1e-9)
    assert len(steps) >= 5
    assert [b - a for a, b in pairwise(steps)] == pytest.approx([1] * (len(steps) - 1))


# --- which one is proposed ------------------------------------------------------------------------------------------


def by_hand(of: Job, seats: Mapping[str, Seat], down: float, floor: float | None) -> tuple[float, ...]:
    """The stated order, for plain columns, worked out apart from the module: less is better."""
    part, stock, trim = of.grade, of.column.stock, of.column.trim
    high = 0.0 if floor is None else floor - (down - part.floor)  # where the floor comes less where it is wanted
    hard = out = stuck = wrong = short = 0
    inches = bought = 0.0
    for seat in seats.values():
        offset = seat.down - down
        found = []
        if offset < part.least - 1e-9:
            found.append(-offset if offset < -1e-9 else part.least - offset)
            stuck += offset < -1e-9
        if part.most is not None and offset > part.most + 1e-9:
            found.append(offset - part.most)
        holds = [s for s in stock if s >= offset + seat.top + trim - 1e-6]
        if not holds:
            found.append(offset + seat.top + trim - max(stock))
        hard += offset < -1e-9 or not holds
        out, wrong, inches = out + bool(found), wrong + len(found), inches + sum(found)
        short, bought = short + (not holds), bought + min(holds, default=0)
    return (
        round(max(abs(high) - part.floor_within, 0), 6),
        floor is not None and down - floor < part.cover - 1e-9,
        hard,
        out,
        stuck,
        wrong,
        round(abs(high), 6),
        round(inches, 6),
        short,
        round(bought, 6),
        -down,
    )


@st.composite
def choices(draw: st.DrawFn) -> tuple[Job, dict[str, Seat], float | None]:
    sixteenths = st.integers(-48, 48).map(lambda n: 60 + n / 16)
    seats = draw(
        st.lists(st.builds(Seat, sixteenths, st.booleans(), st.sampled_from([160.875, 187.5])), min_size=1, max_size=9)
    )
    limits: dict[str, Any] = {
        "grade.round": "quarter",
        "grade.least": draw(st.sampled_from(["0", "1/2", "1", "2"])),
        "grade.floor_within": draw(st.sampled_from(["0", "1/4", "1/2", "2"])),
        "column.stock": draw(st.sampled_from([["14'", "16'", "18'"], ["162 in", "15'", "16'"], ["13'"]])),
    }
    limits |= draw(st.sampled_from([{}, {"grade.most": "2"}, {"grade.most": "3"}]))
    floor = draw(st.none() | st.integers(-80, 48).map(lambda n: 60 + n / 16))
    if floor is not None:
        limits |= {"grade.benchmark": "BM", "grade.cover": draw(st.sampled_from(["0", "3", "3 1/2"]))}
    return job(limits), {f"S{i}": seat for i, seat in enumerate(seats)}, floor


@given(choices())
def test_no_line_at_all_costs_less_than_the_one_proposed(drawn: tuple[Job, dict[str, Seat], float | None]) -> None:
    """Held against every quarter inch from 40 to 80 by a cost that is worked out here."""
    of_job, seats, floor = drawn
    found = choose.candidates(of_job, seats, floor)
    proposed = choose.propose(of_job, found)
    every = min((n / 4 for n in range(160, 321)), key=lambda down: by_hand(of_job, seats, down, floor))
    assert proposed.down == every
    assert proposed in found


@given(choices())
def test_without_a_floor_the_line_is_never_above_what_the_highest_seat_asks(
    drawn: tuple[Job, dict[str, Seat], float | None],
) -> None:
    of_job, seats, _ = drawn
    proposed = choose.propose(of_job, choose.candidates(of_job, seats, None))
    top = math.floor((min(s.down for s in seats.values()) - of_job.grade.least) * 4) / 4
    assert proposed.down >= top
    assert proposed.down == top or choose.weigh(of_job, seats, top, None).out


def test_the_highest_seat_decides_where_nothing_is_out() -> None:
    found = grade({}, {"A1": "45", "A2": "46 1/4"})
    assert found.line == 44
    assert found.highest == "A1"
    assert found.why == (
        'Line reading 44" chosen: highest seat A1 reads 45", at least 1" wanted below the line, on 1/2" steps of the '
        "rod."
    )


def test_the_greatest_offset_may_outvote_the_highest_seat() -> None:
    """Three seats at 48 and one at 45, at most 3 below the line: line 44 has three out, line 45 only the high one."""
    rows = dict.fromkeys(("A2", "A3", "G1"), "48") | {"A1": "45"}
    found = grade({"grade.most": "3"}, rows)
    assert found.line == 45
    assert found.highest == ""
    assert found.why == (
        'Line reading 45" chosen: highest seat A1 reads 45", at least 1" wanted below the line, which makes 44", but '
        "there 3 piers would be out of tolerance; 1 pier out of tolerance."
    )


def test_the_stock_may_outvote_the_highest_seat() -> None:
    """14 ft holds 168 - 1/2 - 160.88 = 6.62 of offset: at line 44 seats of 51 take 7, at 44 1/2 they take 6 1/2."""
    rows = dict.fromkeys(("A2", "A3", "G1"), "51") | {"A1": "45"}
    found = grade({"column.stock": ["14'"]}, rows)
    assert found.line == 44.5
    assert 'which makes 44", but there no stock is long enough for 3 columns; 1 pier out of tolerance.' in found.why


def test_no_pier_is_left_above_the_line_for_the_sake_of_others_that_are_cut_longer() -> None:
    """At most 2 below the line: at 43 1/2, as A1 asks, three are too low. A line at 46 would suit those three and leave
    A1 1 1/2 above it: one pier out instead of three, and no board on it."""
    rows = dict.fromkeys(("A2", "A3", "G1"), "48") | {"A1": "44 1/2"}
    found = grade({"grade.most": "2"}, rows)
    assert found.line == 43.5
    here = found.taken()
    assert here is not None
    assert {(n, kind) for n, wrong in here.out.items() for kind, _ in wrong} == {
        ("A2", "low"),
        ("A3", "low"),
        ("G1", "low"),
    }


def test_where_all_are_out_anyway_no_seat_is_left_above_the_line() -> None:
    """No stock holds any column: a line far below the seats would need shorter ones, and no board would pass."""
    found = grade({"column.stock": ["12'"]}, LEVEL)
    assert found.line == 44
    assert "6 piers out of tolerance" in found.why


def test_a_line_that_the_beam_stops_says_so() -> None:
    found = grade({"grade.least": "5"}, {"A1": "3", "A2": "3 1/2"})
    assert found.line == 0
    assert "the line cannot stand above the beam (set the laser higher)" in found.why
