"""Strips of sheets and their laps: every strip once, and end laps over boards."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import boxes
import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_cladding import CLAD, SHAPES, face, made, printed_words

from layouts import purlins
from layouts.sheeting import parted, strips
from sheets import packet
from sheets.audit import differences
from sheets.cladding import laps
from sheets.paper import PAPERS


@given(
    st.floats(-10, 0), st.floats(60, 900), st.floats(12, 48), st.sampled_from(["left", "right", "middle"]),
    st.floats(0, 11.9),
)  # fmt: skip
def test_strips_cover_a_wall_once(left: float, right: float, cover: float, start: str, cut: float) -> None:
    found = sorted(strips(left, right, cover, start, cut))
    assert found[0][0] == left
    assert found[-1][1] == right
    assert all(a[1] == pytest.approx(b[0]) for a, b in pairwise(found))
    whole = found[1:-1]
    assert [b - a for a, b in whole] == pytest.approx([cover] * len(whole))
    assert max(found[0][1] - found[0][0], found[-1][1] - found[-1][0]) <= cover + 1e-5
    if start == "left" and cover - cut > 1e-5:
        assert found[0][1] - found[0][0] == pytest.approx(min(cover - cut, right - left))
    if start == "middle":
        joint = (left + right) / 2 + cut
        assert any(abs(a - joint) < 1e-4 for a, _ in found[1:]) or joint >= right


@given(st.floats(100, 2000), st.floats(48, 480), st.floats(1, 15), st.lists(st.floats(0, 2000), max_size=40))
def test_laps_join_a_run(long: float, longest: float, lap: float, stops: list[float]) -> None:
    pieces, found = parted(0.0, long, sorted(stops), longest, lap)
    assert pieces[0][0] == 0.0
    assert pieces[-1][1] == long
    assert all(b - a <= longest + 1e-5 for a, b in pieces)
    assert [a[1] - b[0] for a, b in pairwise(pieces)] == pytest.approx([lap] * (len(pieces) - 1))
    assert [(a[1] + b[0]) / 2 for a, b in pairwise(pieces)] == pytest.approx([at for at, _ in found])
    assert all(any(abs(at - s) < 1e-9 for s in stops) for at, on in found if on)


def test_end_laps_lie_over_girts_and_purlins() -> None:
    one = made({**CLAD, "cladding.longest": "9'", "cladding.lap": "8"})
    rows = [(r.low + r.high) / 2 for r in one.rows.end]
    gable = next(f for f in one.cladding if f.name == "Wall 1")
    assert gable.laps
    assert all(over == "a girt" and any(abs(at - y) < 1e-5 for y in rows) for at, over in gable.laps)
    # the gable's lower laps go on from the sidewalls': one line all round
    side = next(f for f in one.cladding if f.name == "Wall A")
    assert side.laps[0] == gable.laps[0]


def test_a_lap_says_where_its_upper_sheets_begin() -> None:
    """Girt 5 from 3 3/4 up by 5 of 6 equal steps to 140 1/2: 3.75 + 5 x 22.792 = 117.708, its middle 119.458, and half
    of a 12 inch lap below that 113.458. One number alone could be either."""
    one = made({**CLAD, "cladding.longest": "11'"})
    (said,) = laps(next(f for f in one.cladding if f.name == "Wall A"), one.job)
    assert said == (
        'End lap of 12": upper sheets begin 9\'-5 7/16" over the grade line, the middle of the lap is at '
        "9'-11 7/16\", over a girt."
    )


def test_a_roofs_laps_lie_over_purlins_by_plain_vectors() -> None:
    """The purlin's foot on the chord plus its depth along the normal of the slope is where the sheet lies on it."""
    one = made({**SHAPES["square fascia"], "cladding.longest": "11'"})
    slope = purlins.slopes(one.job, one.roof)[0]
    m = slope.slope
    along, normal = (1 / math.hypot(1, m), m / math.hypot(1, m)), (-m / math.hypot(1, m), 1 / math.hypot(1, m))
    edge = (-12.0, one.roof.cover.over(-12.0))  # overhang 12 from the columns, at the roof sheets' height
    places = []
    for at in slope.purlins:
        foot = (-slope.tail, one.roof.chord.over(-slope.tail))
        middle = [foot[i] + along[i] * (at + 0.75) + normal[i] * 5.5 for i in (0, 1)]
        places.append(sum((middle[i] - edge[i]) * along[i] for i in (0, 1)) + 1.5)
        assert one.roof.cover.over(middle[0]) == pytest.approx(middle[1])
    (lap,) = next(f for f in one.cladding if f.roof).laps
    assert lap[1] == "a purlin"
    assert any(abs(lap[0] - at) < 1e-6 for at in places)


def test_laps_that_are_said_in_two_lines_of_another_language_are_read_back(tmp_path: Path) -> None:
    """22 ft of slope in sheets of 11 ft at the most: where a lap is takes two lines of a Letter page in Spanish."""
    one = made({**CLAD, "cladding.longest": "11'", "job.language": "spanish"})
    assert any(f.roof and f.laps for f in one.cladding)
    done = packet.build(one, PAPERS["letter"], "cladding")
    packet.save(done, tmp_path / "t")
    second = "abajo de las láminas, el centro del traslape queda en 9'-4 7/16\", sobre una correa."
    assert second in [w.words for s in done.sheets for w in boxes.written(s.page.drawing.shapes)]
    assert differences(done, one, tmp_path / "t") == []


def test_a_lap_over_nothing_is_said() -> None:
    found = face(SHAPES["girts inside"], "Wall 1")
    assert found.laps
    assert all(over == "" for _, over in found.laps)
    assert "over NOTHING: add a board there" in printed_words(made(SHAPES["girts inside"]))
