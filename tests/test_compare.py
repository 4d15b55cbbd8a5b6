"""Which sheets are stale from one job to the next, and what is said of it."""

from __future__ import annotations

import json
from pathlib import Path

import jobs
import pytest
from compared import AGAIN, FIXED, READ, building, changed, codes, item, names, printed, saved, words
from effort import examples
from hypothesis import given, settings

from layouts.building import Building
from layouts.lengths import show
from sheets import changes
from sheets.compare import compare
from sheets.sides import of_job, of_packet

__all__ = ["printed", "saved"]


# --- what is stale ----------------------------------------------------------------------------------------------------


def test_a_seat_read_again_makes_its_tag_its_wall_and_the_lists_stale_and_no_rod() -> None:
    found = changed(rows=AGAIN)
    assert names(found) == ["Tag A3", "Wall A", "Cut sheet", "Mark table", "Grade sheet", "Index"]
    assert {i.state for i in found.items} == {"stale"}


def test_a_corner_stands_in_two_walls() -> None:
    assert [n for n in names(changed(rows={"A1": "44 1/2"})) if n.startswith("Wall")] == ["Wall A", "Wall 1"]


def test_what_has_changed_on_its_tag_is_told_as_it_is_printed() -> None:
    # offset 45 7/16 − 43 = 2 7/16, 45 13/16 − 43 = 2 13/16; 3/8 more of everything; bearing 12'; against B1, 45:
    # 7/16 and 13/16 lower
    told = words(changed(rows=AGAIN), "Tag A3")
    assert told[:3] == (
        'offset: was 2 7/16", now 2 13/16"',
        'column 3/8" longer',
        "BEARING: was 12'-2 7/16\", now 12'-2 13/16\"",
    )
    assert 'reading: was 45 7/16", now 45 13/16"' in told
    assert any("LOW\xa07/16" in t.replace(" 7/16", "\xa07/16") and "against B1; now: " in t for t in told)


def test_a_column_that_no_longer_fits_its_stock_is_told() -> None:
    # short point 12' + 9 1/4 heel and more: over 13'; 14 ft stock less the trim holds 45 7/16, not 12 in more
    told = words(changed(rows={"A3": "57"}), "Tag A3")
    assert any(t.startswith("stock: was 14'-0\", now 16'-0\"") for t in told)
    assert any(t.startswith("SHOOT AGAIN BEFORE CUTTING") for t in told)


def test_another_bearing_is_named_on_the_grade_sheet() -> None:
    """Two inches more of bearing are two more of the sum from a seat to the eave line; it was told that something not
    named had changed. Of A3 moved alone the seats are named, its stock of 14 ft and the sum stay."""
    told = words(changed({"truss.bearing": "12'-2"}, before={"truss.bearing": "12'"}), "Grade sheet")
    assert told == ("the sum from a seat to the eave line",)
    assert words(changed(rows=AGAIN), "Grade sheet") == ("the seats of column A3",)
    longer = words(changed({"truss.bearing": "13'-2"}, before={"truss.bearing": "12'"}), "Grade sheet")
    assert longer == ("the sum from a seat to the eave line", "the column stock that lines take")


def test_its_wall_shows_its_offset() -> None:
    assert words(changed(rows=AGAIN), "Wall A") == ('offset of A3: was 2 7/16", now 2 13/16"',)


def test_stamps_are_those_that_are_printed() -> None:
    old, new = codes(building()), codes(building(rows=AGAIN))
    tag = item(changed(rows=AGAIN), "Tag A3")
    assert (tag.old, tag.new) == ((old["Tag A3"],), (new["Tag A3"],))
    assert tag.head == (
        f"Tag A3: stamp {old['Tag A3']} is out of date, the new one is {new['Tag A3']}:"
        " take the old one off the column."
    )


def test_a_reading_that_moves_the_chosen_line_makes_every_tag_stale_and_is_said_first() -> None:
    # on whole inches, at least 1 in under the highest seat A1: 44 3/4 − 1 = 43 3/4, line 43; 42 15/16 − 1 = 41 15/16,
    # line 41. Every other offset grows by 2 in, A1's from 1 3/4 to 1 15/16
    choose = {"grade.line": "choose", "grade.round": "whole", "grade.least": "1"}
    found = changed(rows={"A1": "42 15/16"}, before=choose)
    assert {n for n in names(found) if n.startswith("Tag")} == {f"Tag {name}" for name in READ}
    assert found.first[0] == 'The line reading: was 43", now 41": every offset has changed'
    assert 'column 2" longer' in words(found, "Tag C3")
    assert not found.of("rods")


def test_another_reference_moves_no_offset_but_the_words_of_every_tag() -> None:
    found = changed({"grade.reference": "C3"})
    assert found.first == ("The reference seat: was B1, now C3",)
    assert len(found.of("tags")) == len(READ)
    assert [t for t in words(found, "Tag A2") if t.startswith("offset")] == []
    # A2 45 5/8: 5/8 under B1, 3/4 under C3
    assert any("against B1; now: " in t and "against C3" in t for t in words(found, "Tag A2"))


def test_another_step_moves_girts_on_rods_and_walls_and_changes_no_tag() -> None:
    fixed = {"girts.spacing": "fixed", "girts.step": "24"}
    found = changed({"girts.step": "24 1/4"}, before=fixed)
    # the rows of the gables whose ends are sloped are named on a template
    assert {i.kind for i in found.items} == {"rods", "walls", "templates", "cuts", "index"}
    assert len(found.of("rods")) == 2
    assert len(found.of("walls")) == 4
    rod = item(found, "Sidewall rod, walls A and C")
    was = {m.name: m.station for m in building(fixed).rods[0].marks}
    # the third girt is three steps up: 3 x 1/4
    moved = next(t for t in rod.words if t.startswith('Girt 3: bottom: moved 3/4" up: was'))
    now = jobs.build({**FIXED, **fixed, "girts.step": "24 1/4"}).rods[0]
    assert next(m.station for m in now.marks if m.name == "Girt 3") == pytest.approx(was["Girt 3"] + 0.75)
    assert moved.endswith(f"now {show(was['Girt 3'] + 0.75, building().job.style)}")
    assert any(t.startswith("rows that stand elsewhere: Girt 1, Girt 2") for t in words(found, "Wall A"))


def test_marks_that_come_and_go_are_named() -> None:
    few, many = {"girts.step": "30"}, {"girts.step": "20"}
    come = words(changed(many, before=few), "Sidewall rod, walls A and C")
    gone = words(changed(few, before=many), "Sidewall rod, walls A and C")
    new = {t.removeprefix("new: ").split(": at ")[0] for t in come if t.startswith("new: ")}
    assert new == {t.removeprefix("gone: ").split(": was")[0] for t in gone if t.startswith("gone: ")}
    assert new


def test_pieces_of_a_wall_and_what_to_buy() -> None:
    # 24 ft with stock to 20 ft takes two boards a row, with 26 ft stock one
    found = changed({"lumber.stock": ["26'"]}, before={"lumber.stock": ["20'"]})
    assert any("now 1 pc 23'-9\"" in t for t in words(found, "Wall A"))
    assert any(t.startswith("2x4 26'-0\": was 0, now") for t in found.order)
    assert any(t.startswith("2x4 20'-0\": was") and "fewer" in t for t in found.order)
    assert any(t.startswith("new: ") for t in words(found, "Cut sheet"))
    assert not found.of("tags")


def test_a_renamed_column_is_known_by_its_place() -> None:
    old = of_job(building(), "old")
    rows = {("Door" if name == "C2" else name): value for name, value in READ.items()}
    new = of_job(jobs.build({**FIXED, "names.C2": "Door"}, rows), "new")
    found = compare(old, new)
    assert (item(found, "Tag Door").state, item(found, "Tag C2").state) == ("new", "gone")
    assert words(found, "Tag Door") == ("was called C2",)
    assert words(found, "Tag C2") == ("the column is called Door now",)
    # its neighbours name it
    assert [i.name for i in found.of("tags") if i.state == "stale"] == ["Tag C3", "Tag C1"]
    assert words(found, "Wall C") == ("C2 is called Door",)
    assert "take it off the column" in item(found, "Tag C2").head


def test_columns_that_are_read_no_more_or_for_the_first_time() -> None:
    rows = {name: value for name, value in READ.items() if name != "A2"}
    one, other = of_job(building(), "all"), of_job(jobs.build(FIXED, rows), "less")
    assert (item(compare(one, other), "Tag A2").state, item(compare(other, one), "Tag A2").state) == ("gone", "new")
    assert words(compare(one, other), "Tag A2") == ("the column has no reading any more",)
    assert words(compare(other, one), "Tag A2") == ("it had no tag: not read",)
    assert compare(one, other).warnings == ("No reading, no tag: A2.",)
    assert compare(other, one).warnings == ()


def test_a_column_that_is_not_there_any_more() -> None:
    bays = {"building.bays": 2}
    rows = {name: value for name, value in READ.items() if not name.endswith("4")}
    found = compare(of_job(building(), "old"), of_job(jobs.build({**FIXED, **bays}, {**rows, "B3": "45"}), "new"))
    assert words(found, "Tag A4") == ("no such column",)
    assert words(found, "Tag B3") == ("a new column",)
    assert (item(found, "Wall 4").state, item(found, "Wall 3").state) == ("gone", "new")


def test_the_same_job_twice() -> None:
    found = changed()
    assert not found.stale
    assert list(changes.lines(found))[-1] == "Nothing that is printed has changed."


def test_what_is_under_the_last_fraction_changes_nothing() -> None:
    # 1/1000 in is far from the 1/32 in, or the whole inch of a lift's zone, that would round another way, for any of
    # these numbers
    assert not changed({"truss.bearing": 144.301}, before={"truss.bearing": 144.3}).stale


def test_other_paper_alone_makes_nothing_stale(printed: Path) -> None:
    new = of_job(building({"job.paper": "a4"}), "new")
    for old in (of_job(building(), "old"), of_packet(printed, "old")):
        found = compare(old, new)
        assert found.items == ()
        assert found.notes == ("old is for letter, new for a4: other paper alone makes no sheet stale.",)


def test_other_units_change_everything_and_are_said_once() -> None:
    # the same building, its inches written with their mark
    marked = {"building.width": "32'", "truss.heel": '9 1/4"', "grade.line": '43"', "job.units": "metric"}
    metric = jobs.build({**FIXED, **marked}, {name: f'{value}"' for name, value in READ.items()})
    found = compare(of_job(building(), "old"), of_job(metric, "new"))
    assert found.first == ("The unit: was in, now mm",)
    assert len(found.of("tags")) == len(READ)
    assert {i.words for i in found.of("tags")} == {(changes.UNNAMED,)}


def test_millimetres() -> None:
    rows = dict.fromkeys(jobs.every(jobs.job(base=jobs.METRIC)).values, 1143)
    one, other = (jobs.build({"grade.line": 1092}, r, base=jobs.METRIC) for r in (rows, {**rows, "A2": 1150}))
    # 1143 − 1092 = 51 mm, 1150 − 1092 = 58 mm: 7 mm longer
    told = words(compare(of_job(one, "old"), of_job(other, "new")), "Tag A2")
    assert told[:2] == ("offset: was 51 mm, now 58 mm", "column 7 mm longer")


@settings(max_examples=examples(12))
@given(one=jobs.buildings(), other=jobs.buildings())
def test_between_any_two_jobs_those_sheets_are_stale_whose_stamps_differ(one: Building, other: Building) -> None:
    first = of_job(one, "one")
    found = compare(first, of_job(other, "other"))
    old, new = (codes(side, only="tags") if side.columns else {} for side in (one, other))  # unread, it has no tags
    titles = {t for t in old.keys() | new.keys() if old.get(t) != new.get(t)}
    assert {i.name for i in found.of("tags")} == titles
    assert changes.from_json(json.loads(json.dumps(changes.as_json(found)))) == found
    assert not compare(first, of_job(one, "one")).stale
