"""Nails counted: every crossing, end, splice and upright, and what is ordered for them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args

import opened
import pytest
from hypothesis import given
from jobs import TRADE, build, buildings, every, job
from test_nails import INCH, METRIC, RING

from layouts import nail_count, nail_warnings, nails, rows
from layouts.building import Building, lay_out
from layouts.nail_count import Schedule, Tally
from layouts.nails import Nailing

HOT = nails.parse("4 x .177 ring HDG", "in")


def whole(changes: Mapping[str, Any] | None = None) -> Building:
    made = job({**TRADE, "grade.line": "43", **(changes or {})})
    return lay_out(made, every(made))


def of(building: Building, *walls: str, treated_up: float = 0.0) -> dict[tuple[str, bool], Tally]:
    chosen = [w for w in building.walls if w.name in walls or not walls]
    return {(t.joint, t.spliced): t for t in nail_count.tallies(building.job, chosen, treated_up)}


def test_every_crossing_of_a_sidewall() -> None:
    """Seven columns, six rows of girts and a grade board: 42 and 7 crossings, of which each joint makes two ends."""
    building = whole()
    wall = next(w for w in building.walls if w.name == "A")
    found = of(building, "A")
    for key, rows_of in (("girt", 6), ("grade", 1)):
        courses = [c for c in wall.courses if (c.row.key == "grade board") is (key == "grade")]
        meet = sum(len(c.pieces) - 1 for c in courses)
        assert len(courses) == rows_of
        assert found[key, True].count == 2 * meet
        assert found[key, False].count == 7 * rows_of - meet


def test_a_gable_row_is_nailed_where_it_has_a_column_behind_it() -> None:
    """Columns at both corners and 9, 18, 27 ft: five on girts 1 to 6. Girt 7 begins 47 13/16 to 58 5/16 in: the three
    between. Girts 8 and 9 begin at 117 15/16 and 188: the middle one alone. 30 + 3 + 1 + 1 = 35."""
    found = of(whole(), "1")
    assert found["girt", False].count + found["girt", True].count / 2 == 35


@given(buildings())
def test_boards_are_nailed_at_both_ends(building: Building) -> None:
    """Every board that is not cut to the slope ends on a column, at the corner or in a joint: two nailings at least."""
    for wall in building.walls:
        found = nail_count.tallies(building.job, [wall], 60)
        level = [p for c in wall.courses if c.row.key != "gable girt" for p in c.pieces]
        assert sum(t.count for t in found) >= 2 * len(level)
        joints = sum(len(c.pieces) - 1 for c in wall.courses)
        assert sum(t.count for t in found if t.spliced) == 2 * joints
        assert all(0 <= t.treated <= t.count for t in found)
        assert sum(t.count - t.treated for t in found if t.joint == "grade") == 0


@pytest.mark.parametrize(("treated_up", "rows_of"), [(28, 0), (30, 1), (52, 1), (53, 2), (60, 2)])
def test_crossings_in_the_treated_ends_of_columns(treated_up: float, rows_of: int) -> None:
    """Bottoms 2 below the grade line; girts of the trade begin 27 1/8, 50 1/2 and 73 7/8 above it: 29 1/8 and 52 1/2
    from the bottoms. Seven columns a row, of which each joint makes two ends."""
    found = of(whole(), "A", treated_up=treated_up)
    assert found["girt", False].treated + found["girt", True].treated / 2 == 7 * rows_of


@pytest.mark.parametrize(("treated", "share"), [("all", 1), ("none", 0)])
def test_columns_that_are_all_treated_or_not_at_all(treated: str, share: int) -> None:
    for tally in of(whole({"column.treated": treated}), treated_up=60).values():
        assert tally.treated == tally.count * (1 if tally.joint == "grade" else share)


def test_wainscot_and_soffit_nailers_are_counted_by_themselves() -> None:
    changes = {"wainscot.nailer": "2x6", "roof.soffit": "level", "roof.overhang": "18"}
    found = of(whole(changes), "A")
    for key in ("wainscot", "soffit"):
        assert found[key, False].count + found[key, True].count / 2 == 7


def test_every_row_of_boards_is_some_joint() -> None:
    assert set(get_args(rows.Key)) == set(nail_count._OF_ROW)


def test_the_boards_of_an_opening_are_nailed() -> None:
    """A door in bay 2 of wall A: its header on two columns; either post on the grade board, three girts it parts, the
    header and the girt above, 12 in all, and all of them treated. The girts' and grade board's ends stay where they
    are: on the columns to either side."""
    bare, door = opened.read(), opened.read(opened.DOOR)
    before, after = of(bare, "A"), of(door, "A")
    assert after["header", False].count == 2
    assert (after["jamb", False].count, after["jamb", False].treated) == (12, 12)
    assert ("jamb", False) not in before
    for key in ("girt", "grade"):
        ends = [sum(t.count for k, t in found.items() if k[0] == key) for found in (before, after)]
        joints = [sum(t.count for k, t in found.items() if k == (key, True)) / 2 for found in (before, after)]
        assert ends[0] - joints[0] == ends[1] - joints[1]  # a joint makes two ends of one crossing


@pytest.mark.parametrize("gap", ["0", "1/8", "2"])
def test_boards_between_columns_are_nailed_to_the_posts_among_them(gap: str) -> None:
    """Girts between the columns. Two posts of the door, each at its two ends, with three girts on its outer side: 10,
    and the header on its inner side: 2. Of the window, which two girts meet: 2 x 4, header and sill: 2 x 2. However
    much shorter than their place boards are cut: they are nailed all the same. The door's posts are treated."""
    girts = {"girts__place": "between", "girts__board": "2x6", "girts__gap": gap}
    for one, jamb, header in ((opened.DOOR, 10, 2), (opened.WINDOW, 8, 4)):
        found = of(opened.read(one, **girts), "A")
        assert (found["jamb", False].count, found["header", False].count) == (jamb, header)
        assert found["header", False].treated == (2 if one is opened.DOOR else 0)


def test_sills_and_track_boards_are_nailed_as_headers() -> None:
    """A window: header and sill on two columns each. A sliding door's track, 220 1/2 to 372 1/2 with its 2 x 76, over
    the column at 286 1/2 alone, and its header on that at 286 1/2 and at 382 1/2."""
    assert of(opened.read(opened.WINDOW), "A")["header", False].count == 4
    slides = {**opened.SLIDING, **opened.at("28'"), "slides": "left"}
    assert of(opened.read(slides), "A")["header", False].count == 2 + 1


def test_a_row_in_the_place_of_a_header_is_nailed_less() -> None:
    """Header of a 7 ft 6 walk door in the place of girt 4, from A6 to A5: both columns keep an end of it."""
    found = of(opened.read({**opened.DOOR, "height": "7'-6"}), "A")
    bare = of(opened.read(), "A")
    total = [sum(t.count - t.count / 2 * t.spliced for k, t in x.items() if k[0] == "girt") for x in (bare, found)]
    assert total[0] == total[1]


TALLIES = (
    Tally("girt", False, 30, 8),
    Tally("girt", True, 12, 0),
    Tally("grade", False, 6, 6),
    Tally("grade", True, 4, 4),
    Tally("soffit", False, 7, 0),
)


def test_nails_for_the_order() -> None:
    """Girts 2 x 30 at crossings and 3 x 12 at splices, the soffit nailer 2 x 7; grade board 3 x 6 and, with no word for
    its splices, 3 x 4. A tenth more: 110 to 121, 30 to 33."""
    schedule: Schedule = {
        "girt": Nailing(2, RING),
        "splice": Nailing(3, RING),
        "soffit": Nailing(2, RING),
        "grade": Nailing(3, HOT),
    }
    plain, hot = sorted(nail_count.order(schedule, TALLIES, 10), key=lambda b: -b.count)
    assert (plain.nail, plain.count, plain.order) == (RING, 110, 121)
    assert plain.joints == ("Girt to column", "Soffit nailer to column")
    assert (hot.nail, hot.count, hot.order) == (HOT, 30, 33)


def test_spares_are_whole_nails() -> None:
    """101 and a twentieth: 106.05, so 107."""
    (line,) = nail_count.order({"girt": Nailing(1, RING)}, [Tally("girt", False, 101, 0)], 5)
    assert (line.count, line.order) == (101, 107)


def test_boards_have_splices_of_their_own() -> None:
    """Grade board 3 x 6 + 2 x 4 = 26; girts, whose crossings are not given, 5 x 12 at splices."""
    schedule: Schedule = {"grade": Nailing(3, HOT), "grade_splice": Nailing(2, HOT), "splice": Nailing(5, RING)}
    found = {line.nail: line.count for line in nail_count.order(schedule, TALLIES, 0)}
    assert found == {HOT: 26, RING: 60}


def test_ends_of_carriers_are_nailed_as_carriers_and_not_as_a_splice() -> None:
    """They bear the trusses. Four ends at corners and 12 that meet on columns, 6 each: 96; girts 5 x 12 at splices.
    Where only splices are given carriers are not in the order and are told of, all 16."""
    found = (Tally("girt", True, 12, 0), Tally("carrier", False, 4, 0), Tally("carrier", True, 12, 0))
    splice = Nailing(5, RING)
    both: Schedule = {"splice": splice, "carrier": Nailing(6, HOT)}
    assert {line.nail: line.count for line in nail_count.order(both, found, 0)} == {RING: 60, HOT: 96}
    assert {line.nail: line.count for line in nail_count.order({"splice": splice}, found, 0)} == {RING: 60}
    told = nail_warnings.warnings({"splice": splice}, found, INCH)
    assert told[-1] == "No nails are given for: carrier to column (16). They are not in the count."


def test_an_empty_schedule_orders_and_warns_of_nothing() -> None:
    empty: Schedule = {"girt": None}
    assert nail_count.order(empty, TALLIES, 10) == ()
    assert nail_warnings.warnings(empty, TALLIES, INCH) == ()


def test_nails_that_rust_in_treated_wood_are_told() -> None:
    """8 of 42 girt ends touch treated columns; all of the grade board's do."""
    schedule: Schedule = {"girt": Nailing(2, RING), "grade": Nailing(3, RING), "soffit": Nailing(2, RING)}
    told = nail_warnings.warnings(schedule, TALLIES, INCH)
    rusts = 'touch treated wood, and 4" x .177" ring is not HDG: it rusts there (IRC R317.3).'
    assert told == (f"Girt to column: 8 of 42 {rusts}", f"Grade board to column: all 10 {rusts}")


@pytest.mark.parametrize("coat", ["HDG", "stainless"])
def test_nails_that_last_are_not(coat: str) -> None:
    nail = nails.parse(f"4 x .177 ring {coat}", "in")
    every_joint: Schedule = dict.fromkeys(("girt", "grade", "soffit"), Nailing(2, nail))
    assert nail_warnings.warnings(every_joint, TALLIES, INCH) == ()


def test_doubts_and_joints_without_nails_are_told() -> None:
    odd = nails.parse("4 x .162 ring HDG", "in")
    told = nail_warnings.warnings({"grade": Nailing(3, odd), "jamb": Nailing(2, odd)}, TALLIES, INCH)
    assert len(told) == 2
    assert told[0].startswith('Is 4" x .162" ring right?')
    assert told[1].startswith("No nails are given for: girt to column (42), soffit nailer to column (7). ")


def test_the_schedule_of_a_metric_job() -> None:
    schedule: Schedule = {"girt": nails.nailing("2 of 100 x 4.5 ring", "mm")}
    text = " ".join(nail_warnings.warnings(schedule, TALLIES, METRIC))
    assert "100 x 4.5 mm ring is not HDG" in text
    assert '"' not in text


def test_counts_of_a_building_without_readings() -> None:
    """Columns that were not read are nailed too."""
    made = build({**TRADE})
    read = whole()
    assert [t.count for t in nail_count.tallies(made.job, made.walls, 60)] == [
        t.count for t in nail_count.tallies(read.job, read.walls, 60)
    ]
