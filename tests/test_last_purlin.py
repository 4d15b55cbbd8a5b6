"""The last purlin at its top, where a ridge cap or a flashing has to reach: it leans away from the ridge."""

from __future__ import annotations

from typing import Any

import boxes
import pytest
from test_purlins import made, slopes
from test_roof_shapes import LEAN

from layouts import purlins
from sheets import roof_sheet
from sheets.paper import PAPERS


@pytest.mark.parametrize(
    ("changes", "far"),
    [
        # 6/12 turns by 26.565°: the foot of a 2x6 4 from the ridge is 4·0.89443 = 3.5777 level from it, its top
        # 5 1/2·0.44721 = 2.4597 farther, 6.0374; along the slope that is 6.0374/0.89443
        ({"truss.pitch": "6/12"}, 6.75),
        ({"truss.pitch": "12/12"}, 9.5),  # 4 + 5 1/2
        ({"truss.pitch": "6/12", "roof.purlins": "flat"}, 4.75),
        ({"truss.pitch": "6/12", "roof.purlins": "flush"}, 4.0),
        ({"truss.pitch": "6/12", "roof.sheathing": "1/2"}, 7.0),  # as the sheets lie, 6 over the chord
        ({"truss.pitch": "6/12", "roof.purlin_ridge": "0"}, 2.75),  # the feet touch, the tops do not
        ({**LEAN, "truss.pitch": "2/12"}, 4 + 5.5 / 6),
    ],
)
def test_the_last_purlin_is_farther_from_the_end_at_its_top(changes: dict[str, Any], far: float) -> None:
    one = made(changes)
    assert [purlins.last_at_top(one.job, one.roof, s) for s in slopes(changes)] == pytest.approx(
        [far] * len(slopes(changes))
    )
    assert [s.length - s.purlins[-1] - s.thick for s in slopes(changes)] == pytest.approx(
        [0.0 if "roof.purlin_ridge" in changes else 4.0] * len(slopes(changes))
    )


def test_of_two_pitches_the_sheets_meet_where_both_are_as_far_from_their_chords() -> None:
    """6/12 and 12/12 turn by 26.565° and 45°: the line from the chords' ridge to the sheets' halves the angle between
    the two slopes, so on both of them it leans by (26.565 + 45)/2 = 35.782°, whose tangent is 0.72076: 5 1/2 times that
    are 3.9642, and 4."""
    one = made({"truss.pitch": "6/12", "truss.far_pitch": "12/12"})
    assert [purlins.last_at_top(one.job, one.roof, s) for s in purlins.slopes(one.job, one.roof)] == pytest.approx(
        [7.9642] * 2, abs=1e-4
    )


@pytest.mark.parametrize(
    ("changes", "row"),
    [
        ({"truss.pitch": "6/12"}, 'to where the sheets meet | 6 3/4"'),
        ({**LEAN, "truss.pitch": "2/12"}, 'to the standing wall | 4 15/16"'),  # 4.9167
        ({"roof.purlins": "flush"}, ""),
        ({"roof.shape": "mono-slope", "truss.pitch": "2/12"}, ""),
    ],
)
def test_the_sheet_tells_what_a_ridge_cap_has_to_reach(changes: dict[str, Any], row: str) -> None:
    found = roof_sheet.pages(made(changes), PAPERS["letter"])
    said = " | ".join(t.words for b in found for t in boxes.written(b.drawing.shapes))
    start = "the same at its top, which leans downhill, "
    assert start + row in said if row else start not in said


CLAD = {"cladding.cover": "36"}


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        # 4/12: the top of the last purlin 4 + 5 1/2/3 = 5.8333 from where the sheets meet, its middle 3/4 farther
        ({"cladding.ridge_gap": "6 9/16"}, []),  # 6.5833
        ({"cladding.ridge_gap": "7"}, ['7/16"'] * 2),  # 0.4167, rounded up
        ({"cladding.ridge_gap": "7", "roof.sheathing": "1/2"}, []),  # held by that
        # flush: its top is its foot
        ({"roof.purlins": "flush", "roof.purlin_ridge": "0"}, ['3/4"'] * 2),  # 1 1/2 - 3/4
        ({"roof.purlins": "flush", "roof.purlin_ridge": "0", "cladding.ridge_gap": "3/4"}, []),
        # 12/12 and 4/12: 45° and 18.435° halve to 31.717°, 5 1/2·0.61803 = 3.3992, and 4 and 3/4: 8.1492
        ({"truss.far_pitch": "12/12", "cladding.ridge_gap": "8 1/8"}, []),
        ({"truss.far_pitch": "12/12", "cladding.ridge_gap": "8 1/4"}, ['1/8"'] * 2),  # 0.1008
        ({**LEAN, "truss.pitch": "2/12", "cladding.ridge_gap": "6"}, ['3/8"']),  # 6 - 4 - 5 1/2/6 - 3/4 = 0.3333
        ({"roof.shape": "mono-slope", "truss.pitch": "2/12", "cladding.ridge_gap": "12"}, []),
    ],
)
def test_roof_sheets_that_end_below_the_last_purlin_are_told(changes: dict[str, Any], says: list[str]) -> None:
    found = [w for w in made({**CLAD, **changes}).warnings if "last purlin" in w]
    walls = ["A", "G"][: len(says)]
    assert found == [
        f"Sheets, Roof over wall {wall}: The sheets end {short} below the middle of the last purlin: give a smaller "
        "cladding.ridge_gap or a larger roof.purlin_ridge."
        for wall, short in zip(walls, says, strict=True)
    ]
