"""Nails as they are written, held against published sizes, and counted for the order."""

from __future__ import annotations

import contextlib
from collections.abc import Mapping
from typing import Any, get_args

import opened
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jobs import TRADE, build, buildings, every, job

from layouts import nail_count, nails, rows
from layouts.building import Building, lay_out
from layouts.lengths import LengthError, Style, Unit
from layouts.nail_count import Schedule, Tally
from layouts.nails import Nail, NailError, Nailing

INCH, METRIC = Style(), Style("mm")
RING = nails.parse("4 x .177 ring", "in")
HOT = nails.parse("4 x .177 ring HDG", "in")


# --- as written -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "nail"),
    [
        ("3 1/2 x .162", Nail(3.5, 0.162)),
        ('3 1/2" x .162"', Nail(3.5, 0.162)),
        ("3½ × 0.162", Nail(3.5, 0.162)),
        ("3 1/2x.162", Nail(3.5, 0.162)),
        (".162 x 3 1/2", Nail(3.5, 0.162)),
        ("16d common", Nail(3.5, 0.162, "common")),
        ("16D Common HDG", Nail(3.5, 0.162, "common", "HDG")),
        ("20d x .177 ring", Nail(4, 0.177, "ring")),
        ("4 x .177 ring", Nail(4, 0.177, "ring")),
        ("4 x .177 ring-shank nails, hot-dip galvanised", Nail(4, 0.177, "ring", "HDG")),
        ("4 x .177 HDG ring", Nail(4, 0.177, "ring", "HDG")),
        ("4 x .177 ring stainless steel", Nail(4, 0.177, "ring", "stainless")),
        ("3 1/2 x .135 box", Nail(3.5, 0.135, "box")),
        ("3 x .148 screw shank", Nail(3, 0.148, "spiral")),
    ],
)
def test_nails_as_a_crew_writes_them(text: str, nail: Nail) -> None:
    assert nails.parse(text, "in") == nail


def test_a_metric_nail() -> None:
    """100 mm is 3.937 in, 4.5 mm is .17717 in."""
    nail = nails.parse("100 x 4.5 ring HDG", "mm")
    assert nail.length == pytest.approx(3.93701, abs=1e-5)
    assert nail.diameter == pytest.approx(0.177165, abs=1e-6)
    assert nails.show_nail(nail, METRIC) == "100 x 4.5 mm ring, HDG"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("16d", "16d is 3 1/2 in long, but how thick"),
        ("16d box", "how thick"),
        ("20d ring", "Write 4 x its diameter"),
        ("7d common", "not one of 6d"),
        ("7d x .12", "not one of 6d"),
        ("3 1/2", "its length x its diameter"),
        ("3 1/2 x", "its length x its diameter"),
        ("", "its length x its diameter"),
        ("ring", "its length x its diameter"),
        ("4 x .177 x 2", "its length x its diameter"),
        ("4 x .177 galv", "galv says not how"),
        ("4 x .177 galvanized ring", "galvanized says not how"),
        ("4 x .177 clinched", "clinched is not a word for nails"),
        ("4 x 3", "no nail is"),
        ("40 x 1.77", "no nail is"),
        ("4 x .01", "no nail is"),
        ("4 x -.177", "negative"),
        ("4 x 1e-1", "no exponents"),
        ("4 x nan", "nan is not a word"),
        ("9" * 60 + " x .177", "longer than 60"),
    ],
)
def test_what_is_no_nail_is_refused_in_words(text: str, why: str) -> None:
    with pytest.raises(LengthError, match=why):
        nails.parse(text, "in")


@given(st.text(max_size=70))
def test_any_text_is_a_nail_or_refused(text: str) -> None:
    for unit in get_args(Unit):
        for read in (nails.parse, nails.nailing):
            with contextlib.suppress(LengthError):
                read(text, unit)


@given(st.sampled_from([2.0, 2.375, 3.25, 3.5, 4.5, 8.0]), st.integers(80, 240), st.sampled_from(get_args(nails.Shank)))
def test_what_is_printed_is_read_back(length: float, mils: int, shank: nails.Shank) -> None:
    nail = Nail(length, mils / 1000, shank, "HDG")
    if length > 8 * nail.diameter:
        assert nails.parse(nails.show_nail(nail, INCH), "in") == nail


@pytest.mark.parametrize(
    ("text", "count"), [("2 of 4 x .177 ring", 2), ("(3) 4 x .177 ring", 3), ("12 OF 4 x .177 ring", 12)]
)
def test_how_many_at_a_crossing(text: str, count: int) -> None:
    assert nails.nailing(text, "in") == Nailing(count, RING)


def test_an_empty_joint_stays_empty() -> None:
    assert nails.nailing("", "in") is None
    assert nails.nailing("  ", "mm") is None


@pytest.mark.parametrize(
    "text",
    ["4 x .177 ring", "2 4 x .177 ring", "2 x 4 x .177", "0 of 16d common", "41 of 16d common", "9" * 5000 + " of 4"],
)
def test_a_joint_that_does_not_say_how_many_is_refused(text: str) -> None:
    with pytest.raises(NailError, match=r"at a crossing|at each crossing"):
        nails.nailing(text, "in")


# --- against published sizes ----------------------------------------------------------------------------------------

# Penny to length and diameter, inches: an open university textbook (seen).
COMMON = {
    "6d": ("2", ".113"),
    "8d": ("2 1/2", ".131"),
    "10d": ("3", ".148"),
    "12d": ("3 1/4", ".148"),
    "16d": ("3 1/2", ".162"),
    "20d": ("4", ".192"),
    "30d": ("4 1/2", ".207"),
    "40d": ("5", ".225"),
    "50d": ("5 1/2", ".244"),
    "60d": ("6", ".262"),
}

# Post-frame ring-shank nails, AF&PA/AWC Design Aid No. 4, 2007 (seen).
DESIGN_AID_4 = {
    ".135": "3, 3 1/2",
    ".148": "3, 3 1/2, 4, 4 1/2",
    ".177": "3, 3 1/2, 4, 4 1/2, 5, 6, 8",
    ".200": "3 1/2, 4, 4 1/2, 5, 6, 8",
    ".207": "4, 4 1/2, 5, 6, 8",
}
PAIRS = [(length, wire) for wire, lengths in DESIGN_AID_4.items() for length in lengths.split(", ")]
EVERY_LENGTH = ["2 1/2", "3", "3 1/2", "4", "4 1/2", "5", "6", "7", "8"]


@pytest.mark.parametrize(("penny", "size"), COMMON.items())
def test_common_nails_by_penny(penny: str, size: tuple[str, str]) -> None:
    """By name and by size it is one nail, accepted, and printed as length x diameter."""
    length, wire = size
    named, sized = nails.parse(f"{penny} common", "in"), nails.parse(f"{length} x {wire} common", "in")
    assert named == sized
    assert nails.question(named, INCH) == ""
    assert nails.show_nail(named, INCH) == f'{length}" x {wire}" common'


@pytest.mark.parametrize(("length", "wire"), PAIRS)
def test_pairs_of_design_aid_4_are_accepted(length: str, wire: str) -> None:
    assert nails.question(nails.parse(f"{length} x {wire} ring", "in"), INCH) == ""
    assert nails.question(nails.parse(f"{length} x {wire} ring HDG", "in"), INCH) == ""
    assert nails.question(nails.parse(f"{length} x {wire}", "in"), INCH) == ""


@pytest.mark.parametrize(
    ("length", "wire"),
    [(n, w) for n in EVERY_LENGTH for w in (*DESIGN_AID_4, ".120", ".131", ".162", ".192") if (n, w) not in PAIRS],
)
def test_all_other_pairs_are_questioned(length: str, wire: str) -> None:
    asked = nails.question(nails.parse(f"{length} x {wire} ring HDG", "in"), INCH)
    assert asked.startswith(f'Is {length}" x {wire}" ring right?')
    assert "Design Aid No. 4" in asked


def test_a_question_says_what_there_is_in_that_length() -> None:
    assert "in that length it has .148, .177, .200, .207" in nails.question(nails.parse("4 x .162 ring", "in"), INCH)
    assert "it has no such length" in nails.question(nails.parse("7 x .177 ring", "in"), INCH)
    assert "in that length it is .162" in nails.question(nails.parse("3 1/2 x .148 common", "in"), INCH)
    assert "none of that length" in nails.question(nails.parse("7 x .177 common", "in"), INCH)


def test_a_gun_nail_is_not_taken_for_a_ring_shank_of_its_length() -> None:
    asked = nails.question(nails.parse("4 x .131", "in"), INCH)
    assert "in no table at hand" in asked
    assert "not that of another of its length" in asked


@pytest.mark.parametrize("wire", [".262", ".263"])
def test_the_60d_is_in_both_tables_of_common_nails(wire: str) -> None:
    """.262 or .263 (both seen)."""
    assert nails.question(nails.parse(f"6 x {wire} common", "in"), INCH) == ""


def test_a_common_size_is_no_ring_shank() -> None:
    assert nails.question(nails.parse("20d common", "in"), INCH) == ""
    assert nails.question(nails.parse("20d x .192 ring", "in"), INCH) != ""


def test_metric_nails_are_not_held_against_inch_tables() -> None:
    assert nails.question(nails.parse("90 x 3.15 ring", "mm"), METRIC) == ""


# --- hints ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("style", [INCH, METRIC])
def test_every_hint_says_that_it_is_one(style: Style) -> None:
    hints = [nails.hint(joint, style) for joint in nails.JOINTS]
    assert all(text.startswith("Hint, not a schedule: ") for text in hints if text)
    assert sum(1 for text in hints if text) == 7
    assert not any("{" in text for text in hints)
    assert not any(mark in text for text in hints for mark in (('"',) if style is METRIC else ("mm",)))


def test_the_hint_for_a_girt() -> None:
    """Two ring shanks of 4 in at each crossing of a 2x4, three of a 2x6 (common practice, no source)."""
    girt = next(j for j in nails.JOINTS if j.key == "girt")
    assert 'up to 3 1/2" wide 2 ring shank 4" long' in nails.hint(girt, INCH)
    assert 'up to 5 1/2" wide 3 ring shank' in nails.hint(girt, INCH)


# --- counted --------------------------------------------------------------------------------------------------------


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


def test_an_empty_schedule_orders_and_warns_of_nothing() -> None:
    empty: Schedule = {"girt": None}
    assert nail_count.order(empty, TALLIES, 10) == ()
    assert nail_count.warnings(empty, TALLIES, INCH) == ()


def test_nails_that_rust_in_treated_wood_are_told() -> None:
    """8 of 42 girt ends touch treated columns; all of the grade board's do."""
    schedule: Schedule = {"girt": Nailing(2, RING), "grade": Nailing(3, RING), "soffit": Nailing(2, RING)}
    told = nail_count.warnings(schedule, TALLIES, INCH)
    rusts = 'touch treated wood, and 4" x .177" ring is not HDG: it rusts there (IRC R317.3).'
    assert told == (f"Girt to column: 8 of 42 {rusts}", f"Grade board to column: all 10 {rusts}")


@pytest.mark.parametrize("coat", ["HDG", "stainless"])
def test_nails_that_last_are_not(coat: str) -> None:
    nail = nails.parse(f"4 x .177 ring {coat}", "in")
    every_joint: Schedule = dict.fromkeys(("girt", "grade", "soffit"), Nailing(2, nail))
    assert nail_count.warnings(every_joint, TALLIES, INCH) == ()


def test_doubts_and_joints_without_nails_are_told() -> None:
    odd = nails.parse("4 x .162 ring HDG", "in")
    told = nail_count.warnings({"grade": Nailing(3, odd), "jamb": Nailing(2, odd)}, TALLIES, INCH)
    assert len(told) == 2
    assert told[0].startswith('Is 4" x .162" ring right?')
    assert told[1].startswith("No nails are given for: girt to column (42), soffit nailer to column (7). ")


def test_the_schedule_of_a_metric_job() -> None:
    schedule: Schedule = {"girt": nails.nailing("2 of 100 x 4.5 ring", "mm")}
    text = " ".join(nail_count.warnings(schedule, TALLIES, METRIC))
    assert "100 x 4.5 mm ring is not HDG" in text
    assert '"' not in text


def test_counts_of_a_building_without_readings() -> None:
    """Columns that were not read are nailed too."""
    made = build({**TRADE})
    read = whole()
    assert [t.count for t in nail_count.tallies(made.job, made.walls, 60)] == [
        t.count for t in nail_count.tallies(read.job, read.walls, 60)
    ]
