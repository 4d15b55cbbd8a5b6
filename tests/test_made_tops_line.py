"""The line for made tops: as high as a notch asks, and what a seat that is too high costs."""

from __future__ import annotations

from jobs import METRIC, build, job
from test_made_tops import BLOCK, BOTTOM, NEITHER, column

from layouts.piers import PLAIN, fit

# --- a seat that is too high ----------------------------------------------------------------------------------------


def test_a_made_column_on_a_seat_too_high_has_no_tag() -> None:
    """Notch 145 wants an offset of 1: A3 has 1/2."""
    building = build({**NEITHER, "grade.line": "44", "grade.least": "1/2"}, {"A2": "45", "A3": "44 1/2"})
    assert [c.name for c in building.columns] == ["A2"]
    (told,) = [w for w in building.warnings if w.startswith("A3:")]
    assert told.startswith('A3: its seat is 1/2" too high for a column whose top is made and whose bottom is not cut.')
    assert told.endswith(" No tag.")


def test_one_whose_bottom_is_cut_has_one() -> None:
    building = build({**BOTTOM, "grade.line": "44"}, {"A2": "45", "A3": "44 1/2"})
    assert [(c.name, c.fit.cut_off) for c in building.columns] == [("A2", 5), ("A3", 5.5)]


def test_ears_that_end_below_the_truss_have_no_tag() -> None:
    """160 long, bearing 144: an offset of 17 puts the bearing 1 over the ears."""
    building = build({**BLOCK, "grade.line": "44"}, {"A2": "45", "A3": "61"})
    assert [c.name for c in building.columns] == ["A2"]
    (told,) = [w for w in building.warnings if "end 1" in w]
    assert told.startswith('A3: its made ears end 1" BELOW the bearing')
    assert told.endswith(" No tag.")


def test_a_hair_of_float_noise_is_neither_a_seat_too_high_nor_packing() -> None:
    """Notches from 3603 to 3699 over a bearing of 3600, each on a seat that is just right."""
    for over in range(3, 100, 4):
        made = job({"column.trims": "none", "column.notch": 3600 + over, "column.ears": 300}, base=METRIC)
        for reading in range(1101, 1201, 9):
            assert fit(made, True, reading / 25.4 - (reading - over) / 25.4).packing == 0.0, (over, reading)


def test_such_a_hair_costs_no_tag_and_says_nothing() -> None:
    changes = {"column.trims": "none", "column.ears": 300, "grade.line": 1100}
    for over in range(25, 100, 4):
        building = build({**changes, "column.notch": 3600 + over}, {"A2": 1100 + over}, base=METRIC)
        assert [(c.longer, c.fit.packing) for c in building.columns] == [("ON THE BARE SEAT", 0.0)], over
        assert building.piers == ()


# --- the line for made tops -----------------------------------------------------------------------------------------


def test_the_line_goes_as_high_as_a_notch_asks() -> None:
    """Notch 147: no less than 3 under the line. Highest seat 45: line 42, not 44."""
    building = build({**NEITHER, "column.notch": "147"}, {"A1": "45 1/4", "A2": "45"})
    assert building.grade.line == 42
    assert building.grade.why == (
        'Line reading 42" chosen: A2 reads 45", and as it is made wants 3" up to the line, on 1/2" steps of the rod.'
    )
    assert [c.fit.packing for c in building.columns] == [0.25, 0]


def test_an_endwall_seat_asks_for_no_notch() -> None:
    """C1 at 43 asks for its one inch, A1 at 45 for 3: both 42."""
    building = build({**NEITHER, "column.notch": "147"}, {"A1": "45", "C1": "43 1/2"})
    assert building.grade.line == 42
    assert column(building, "C1").fit == PLAIN


def test_thick_packing_is_told_once_for_all() -> None:
    building = build({**NEITHER, "grade.shim": "1/2"}, {"A1": "45", "A2": "46", "A3": "46 1/4"})
    told = [w for w in building.warnings if "packing" in w]
    # line 44: offsets 1, 2, 2 1/4 less the 1 of notch over bearing
    assert len(told) == 1
    assert told[0].startswith('A3: its column, with the top as it is made, stands on 1 1/4" of packing, 1/2" at most.')
    assert told[0].endswith(" A2: the same, by as much or less.")


def test_a_bottom_that_is_cut_asks_for_no_higher_line() -> None:
    """The notch of 150 is 6 over the bearing: what is too much comes off below."""
    found = build(BOTTOM, {"A1": "45", "A2": "46"}).grade
    assert (found.line, found.highest) == (44, "A1")
    assert "highest seat A1" in found.why


def test_endwall_columns_are_weighed_by_their_own_stock() -> None:
    """C1: high edge 144 + 9 1/4 + 132 3/4 / 3 = 197 1/2, offset 1 and 1/2 to trim make 199: 18 ft. A1 as delivered."""
    here = build(NEITHER, {"A1": "45", "C1": "45"}).grade.taken()
    assert here is not None
    assert dict(here.stocks) == {"A1": 159, "C1": 216}
