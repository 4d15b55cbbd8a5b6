"""What must change nothing of a survey: set-ups moved, rows in another order, another unit, a round shot again."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import groupby
from typing import Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from test_survey import COLUMNS, FULL, LIMITS, Row, close, differences, file, offs, survey

from layouts.survey import Survey

LOOSE = replace(LIMITS, misclosure=100.0, differ=100.0)
Seen = tuple[str, int, int]  # point, set-up, sixteenths


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
