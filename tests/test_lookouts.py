"""How deep lookouts have to be, that the roof stays plane out over the endwalls."""

from __future__ import annotations

from typing import Any

import boxes
import pytest
from jobs import BASE, METRIC, build

from layouts import purlins
from sheets import roof_sheet
from sheets.paper import PAPERS

OUT = {"roof.end_overhang": "18", "roof.overhang": "18"}


def told(changes: dict[str, Any], base: dict[str, Any] = BASE) -> list[str]:
    return [w for w in build({**OUT, **changes}, base=base).warnings if "endwall_drop" in w]


@pytest.mark.parametrize(
    ("changes", "deep"),
    [
        # 4/12: sqrt(1 + 1/9) = 1.05409. As high as the other trusses: between the purlins, as deep as these
        ({}, [5.5, 5.5]),
        ({"roof.purlins": "flat"}, [1.5, 1.5]),
        ({"roof.sheathing": "1/2"}, [5.5, 5.5]),  # it lies on both
        ({"roof.purlins": "flush"}, [0.0, 0.0]),
        # lower by d plumb: d/1.05409 square to the slope, whatever the purlins that run over them are
        ({"truss.endwall_drop": "3 1/2"}, [3.3204, 3.3204]),
        ({"truss.endwall_drop": "3 1/2", "roof.purlins": "flat"}, [3.3204, 3.3204]),
        # 3 1/2 · 1.05409 = 3.6893, and back
        ({"truss.endwall_drop": "3 11/16"}, [3.4983, 3.4983]),
        # 6/12 and 12/12: 4/1.11803 and 4/1.41421
        ({"truss.endwall_drop": "4", "truss.pitch": "6/12", "truss.far_pitch": "12/12"}, [3.5777, 2.8284]),
    ],
)
def test_how_deep_lookouts_have_to_be(changes: dict[str, Any], deep: list[float]) -> None:
    one = build({**OUT, **changes})
    found = [purlins.lookout_deep(one.job, s) for s in purlins.slopes(one.job, one.roof)]
    assert found == pytest.approx(deep, abs=1e-4)


def test_they_fill_what_is_between_the_chords() -> None:
    """The planes of the chords, 3 1/2 apart plumb, are as far apart square to the slope as a lookout is deep."""
    one = build({**OUT, "truss.endwall_drop": "3 1/2"})
    deep = purlins.lookout_deep(one.job, purlins.slopes(one.job, one.roof)[0])
    assert one.roof.end_chord.square(-deep).over(50.0) == pytest.approx(one.roof.chord.over(50.0))


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({}, ""),
        # 4/12: 2x4 on edge wants 3 1/2 · 1.05409 = 3.689 and flat 1.581, 2x6 5.797; an eighth is let off
        ({"truss.endwall_drop": "3 11/16"}, ""),
        ({"truss.endwall_drop": "3 13/16"}, ""),
        ({"truss.endwall_drop": "1 1/2"}, ""),
        ({"truss.endwall_drop": "5 13/16"}, ""),
        (
            {"truss.endwall_drop": "3 1/2"},
            'Walls A and G: the endwall trusses are 3 1/2" lower, plumb, which is room for lookouts 3 5/16" deep, '
            'square to the slope, and no board is. One of 3 1/2" wants 3 11/16": is truss.endwall_drop right?',
        ),
        ({"truss.endwall_drop": "3 1/2", "roof.purlin": '1 1/2" x 3 5/16"'}, ""),  # ripped, as the purlins are
        # 2/12: 3 1/2 · 1.01379 = 3.548
        ({"truss.endwall_drop": "3 1/2", "truss.pitch": "2/12"}, ""),
        # of two pitches one fits: 1.01379, and 1.20185 at 8/12 wants 4.206
        (
            {"truss.endwall_drop": "3 1/2", "truss.pitch": "2/12", "truss.far_pitch": "8/12"},
            'Wall G: the endwall trusses are 3 1/2" lower, plumb, which is room for lookouts 2 15/16" deep, '
            'square to the slope, and no board is. One of 3 1/2" wants 4 3/16": is truss.endwall_drop right?',
        ),
        (
            {"roof.purlins": "flush"},
            "The purlins hang flush with the chords, and lookouts over endwall trusses as high as the others stand "
            "above the roof: give truss.endwall_drop, as much as they are deep, plumb.",
        ),
        ({"roof.purlins": "flush", "truss.endwall_drop": "3 11/16"}, ""),
        ({"roof.purlins": "flush", "roof.end_overhang": "0"}, ""),
    ],
)
def test_lookouts_that_do_not_fit_are_told(changes: dict[str, Any], says: str) -> None:
    assert told(changes) == ([says] if says else [])


def test_a_metric_job_knows_timber_sold_in_mm() -> None:
    """18.43 degrees: 90 mm want 94.87, 70 mm 73.79 and 89 (2x4) 93.7; 80 are off by more than 3.2."""
    at = {"roof.end_overhang": 450, "roof.overhang": 450}
    assert not told({**at, "truss.endwall_drop": 95}, METRIC)
    assert not told({**at, "truss.endwall_drop": 74}, METRIC)
    (found,) = told({**at, "truss.endwall_drop": 80}, METRIC)
    assert "room for lookouts 76 mm deep, square to the slope, and no board is. One of 70 mm wants 74 mm" in found


@pytest.mark.parametrize(
    ("changes", "row"),
    [
        ({"truss.endwall_drop": "3 11/16"}, 'flush with the other chords | 3 1/2"'),
        ({}, 'as the purlins are | 5 1/2"'),
        ({"roof.purlins": "flush"}, ""),
        ({"roof.end_overhang": "0"}, ""),
    ],
)
def test_the_roof_sheet_says_how_deep_they_have_to_be(changes: dict[str, Any], row: str) -> None:
    found = roof_sheet.pages(build({**OUT, **changes}), PAPERS["letter"])
    said = " | ".join(t.words for b in found for t in boxes.written(b.drawing.shapes))
    start = "lookouts: their depth, square to the slope, "
    assert start + row in said if row else start not in said


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        # 5 1/2 · 1.05409 = 5.7975 plumb from the chord up to the roof sheets
        (
            {"cladding.gable_top": "chord", "roof.end_overhang": "0"},
            'Gable sheets end up to 5 13/16" below the roof sheets, for lookouts, and without roof.end_overhang there '
            "are none: is cladding.gable_top right?",
        ),
        ({"cladding.gable_top": "chord"}, ""),
        ({"roof.end_overhang": "0"}, ""),
        (
            {},
            'Lookouts run out through the upper 5 13/16" of the gable sheets: notch these for them, or take '
            'cladding.gable_top = "chord".',
        ),
        # 3 11/16 lower: 9.485
        (
            {"truss.endwall_drop": "3 11/16"},
            'Lookouts run out through the upper 9 1/2" of the gable sheets: notch these for them, or take '
            'cladding.gable_top = "chord".',
        ),
        # nothing between the chord and the roof sheets
        ({"cladding.gable_top": "chord", "roof.end_overhang": "0", "roof.purlins": "flush"}, ""),
    ],
)
def test_gable_sheets_end_where_lookouts_are(changes: dict[str, Any], says: str) -> None:
    found = build({**OUT, "cladding.cover": "36", **changes})
    assert [w for w in found.warnings if "able sheets" in w] == ([says] if says else [])


def test_without_sheets_nothing_is_said_of_them() -> None:
    assert not [w for w in build(OUT).warnings if "able sheets" in w]
