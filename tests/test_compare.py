"""Which sheets are stale from one job or packet to the next, what is said of it, and the packet of stale sheets."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import boxes
import jobs
import pytest
from faults import BUILDING, edited, reads
from hypothesis import given, settings

from layouts.building import Building
from layouts.lengths import show
from layouts.problems import JobRefused
from sheets import audit_stale, changes, packet, pdf, report, svg
from sheets.audit import Difference, differences
from sheets.changes import Changes, Item
from sheets.compare import compare, refuse_same, stale
from sheets.packet import Packet
from sheets.paper import PAPERS, Paper
from sheets.sides import as_printed, of_job, of_packet, read

LETTER = PAPERS["letter"]
# the line stands still whatever is read; B1, which no test reads again, is the one that the others are told against
FIXED = {**BUILDING, "grade.line": "43", "grade.reference": "B1"}
READ: dict[str, Any] = {
    "B1": "45",
    "A1": "44 3/4",
    "A2": "45 5/8",
    "A3": "45 7/16",
    "A4": "45 1/2",
    "B4": "45 1/4",
    "C4": "45 3/16",
    "C3": "44 7/8",
    "C2": "45 5/16",
    "C1": "44 13/16",
}
AGAIN = {"A3": "45 13/16"}


def building(given: Mapping[str, Any] | None = None, rows: Mapping[str, Any] | None = None) -> Building:
    """Ten columns, read as above but for *rows*."""
    return _building(json.dumps([{**FIXED, **(given or {})}, {**READ, **(rows or {})}]))


@cache
def _building(described: str) -> Building:
    return jobs.build(*json.loads(described))


def changed(
    given: Mapping[str, Any] | None = None,
    rows: Mapping[str, Any] | None = None,
    before: Mapping[str, Any] | None = None,
) -> Changes:
    """From the job as above, or with *before*, to the same with other fields and readings."""
    return compare(of_job(building(before), "old"), of_job(building({**(before or {}), **(given or {})}, rows), "new"))


def names(found: Changes) -> list[str]:
    return [item.name for item in found.items]


def item(found: Changes, name: str) -> Item:
    return next(i for i in found.items if i.name == name)


def words(found: Changes, name: str) -> tuple[str, ...]:
    return item(found, name).words


def codes(made: Building, paper: Paper = LETTER, only: str | None = None) -> dict[str, str]:
    """Every stamp of a whole packet, or of one kind, by its title, as it is printed."""
    sheets = packet.build(made, paper, only).sheets
    return {title: code for sheet in sheets for title, code in sheet.parts or ((sheet.title, sheet.stamp),)}


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packet of the job as above, for all to copy."""
    folder = tmp_path_factory.mktemp("compared") / "printed"
    packet.save(packet.build(building(), LETTER), folder)
    return folder


@pytest.fixture
def printed(saved: Path, tmp_path: Path) -> Path:
    """A copy of it, to change."""
    return Path(shutil.copytree(saved, tmp_path / "printed"))


def release(built: Packet | None, made: Building, folder: Path) -> list[Difference]:
    """Save a packet and read it back."""
    assert built is not None
    packet.save(built, folder)
    return differences(built, made, folder)


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
    moved = next(t for t in rod.words if t.startswith("Girt 3 bottom: was"))
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


@settings(max_examples=12)
@given(one=jobs.buildings(), other=jobs.buildings())
def test_between_any_two_jobs_those_sheets_are_stale_whose_stamps_differ(one: Building, other: Building) -> None:
    first = of_job(one, "one")
    found = compare(first, of_job(other, "other"))
    old, new = codes(one, only="tags"), codes(other, only="tags")
    titles = {t for t in old.keys() | new.keys() if old.get(t) != new.get(t)}
    assert {i.name for i in found.of("tags")} == titles
    assert changes.from_json(json.loads(json.dumps(changes.as_json(found)))) == found
    assert not compare(first, of_job(one, "one")).stale


# --- packets ----------------------------------------------------------------------------------------------------------


def test_a_packet_holds_the_numbers_it_was_printed_from(printed: Path, tmp_path: Path) -> None:
    packet.save(packet.build(building(), LETTER, "cuts"), tmp_path / "cuts")
    for folder in (printed, tmp_path / "cuts"):
        assert json.loads((folder / "numbers.json").read_text(encoding="utf-8")) == report.as_json(building())
        listed = json.loads((folder / "packet.json").read_text(encoding="utf-8"))
        assert "numbers.json" in listed["files"]
        assert "numbers.json" in listed["sha256"]
        assert (listed["paper"], listed["margin"]) == ("letter", 0.5)
    assert listed["only"] == "cuts"


def test_other_numbers_in_the_packet_are_found_before_it_is_released(printed: Path) -> None:
    built = packet.build(building(), LETTER)
    assert differences(built, building(), printed) == []
    (printed / "numbers.json").write_text("{}\n", encoding="utf-8")
    (told,) = differences(built, building(), printed)
    assert told.sheet == "numbers.json"
    (printed / "numbers.json").unlink()
    (told,) = differences(built, building(), printed)
    assert told.found == "missing"


def test_a_packet_and_a_job_are_compared_as_two_jobs_are(printed: Path) -> None:
    found = compare(of_packet(printed, "old"), of_job(building(rows=AGAIN), "new"))
    assert found == changed(rows=AGAIN)
    back = compare(of_job(building(rows=AGAIN), "new"), of_packet(printed, "old"))
    assert item(back, "Tag A3").old == item(found, "Tag A3").new
    assert 'column 3/8" shorter' in words(back, "Tag A3")


def test_two_packets(printed: Path, tmp_path: Path) -> None:
    packet.save(packet.build(building(rows=AGAIN), LETTER), tmp_path / "next")
    assert compare(of_packet(printed, "old"), of_packet(tmp_path / "next", "new")) == changed(rows=AGAIN)


def test_two_packets_on_other_paper_are_compared_by_their_numbers(printed: Path, tmp_path: Path) -> None:
    packet.save(packet.build(building(rows=AGAIN), PAPERS["a4"]), tmp_path / "next")
    found = compare(of_packet(printed, "old"), of_packet(tmp_path / "next", "new"))
    assert names(found) == names(changed(rows=AGAIN))
    (tmp_path / "next" / "numbers.json").unlink()
    blind = compare(of_packet(printed, "old"), of_packet(tmp_path / "next", "new"))
    assert [i.name for i in blind.of("tags")] == ["Tag A3"]
    assert len(blind.of("rods")) == 3, "nothing can be told of them"


def older(folder: Path) -> None:
    """The packet as it was printed before packets held their numbers and said their paper."""
    listed = json.loads((folder / "packet.json").read_text(encoding="utf-8"))
    for key in ("paper", "margin", "only"):
        del listed[key]
    listed["files"].remove("numbers.json")
    del listed["sha256"]["numbers.json"]
    (folder / "numbers.json").unlink()
    (folder / "packet.json").write_text(json.dumps(listed), encoding="utf-8")


def test_an_older_packet_is_compared_by_its_stamps(printed: Path) -> None:
    older(printed)
    found = compare(of_packet(printed, "old"), of_job(building(rows=AGAIN), "new"))
    assert names(found) == names(changed(rows=AGAIN))
    assert {i.words for i in found.items} == {()}
    assert found.notes == (
        "old holds no numbers: its sheets are compared by their stamps alone.",
        "old does not say what paper it is on: taken to be letter.",
    )
    assert not compare(of_packet(printed, "old"), of_job(building(), "new")).stale


def test_numbers_that_somebody_has_changed_are_not_believed(printed: Path) -> None:
    path = printed / "numbers.json"
    path.write_text(path.read_text(encoding="utf-8").replace('45 7/16\\"', '45\\"'), encoding="utf-8")
    assert of_packet(printed).numbers == {}


def test_sheets_printed_alone_are_compared_alone(tmp_path: Path) -> None:
    packet.save(packet.build(building(), LETTER, "tags"), tmp_path / "tags")
    packet.save(packet.build(building(), LETTER, "rods"), tmp_path / "rods")
    found = compare(of_packet(tmp_path / "tags", "old"), of_job(building(rows=AGAIN), "new"))
    assert names(found) == ["Tag A3"]
    assert changes.end(found) == "1 stale. Compared alone: tags. Every other one of them is still good."
    with pytest.raises(JobRefused, match="no kind of sheets in common"):
        compare(of_packet(tmp_path / "tags"), of_packet(tmp_path / "rods"))


def test_a_packet_for_a_measured_printer_is_compared_at_its_margin(tmp_path: Path) -> None:
    narrow = replace(LETTER, margin=0.25)
    packet.save(packet.build(building(), narrow), tmp_path / "narrow")
    assert codes(building(), narrow) != codes(building())
    assert not compare(of_packet(tmp_path / "narrow", "old"), of_job(building(), "new")).stale


def test_rods_on_a_roll_lie_side_by_side_and_are_stale_together(tmp_path: Path) -> None:
    packet.save(packet.build(building(), PAPERS["roll-36in"]), tmp_path / "roll")
    old = of_packet(tmp_path / "roll", "old")
    assert names(compare(old, of_job(building(rows=AGAIN), "new"))) == names(changed(rows=AGAIN))
    higher = building({"truss.bearing": "12'-1"})
    (rods,) = compare(old, of_job(higher, "new")).of("rods")
    assert "Sidewall rod, walls A and C: BEARING: centre ply: was 12'-0\", now 12'-1\"" in rods.words
    made, built = stale(tmp_path / "roll", higher, PAPERS["roll-36in"])
    assert made.of("rods")
    assert release(built, higher, tmp_path / "again") == []


# --- files ------------------------------------------------------------------------------------------------------------


def write_job(place: Path, text: str, rows: Mapping[str, Any]) -> Path:
    """A job file and its readings."""
    place.mkdir(parents=True)
    csv = ["column,reading", *(f"{name},{value}" for name, value in rows.items())]
    (place / "job.csv").write_text("\n".join(csv) + "\n", encoding="utf-8")
    (place / "job.toml").write_text(text, encoding="utf-8")
    return place / "job.toml"


def test_files_of_two_jobs(tmp_path: Path) -> None:
    text = jobs.job_text(FIXED)
    old, new = (write_job(tmp_path / n, text, {**READ, **r}) for n, r in (("a", {}), ("b", AGAIN)))
    assert names(compare(read(old), read(new))) == names(changed(rows=AGAIN))
    assert not compare(read(old), read(new, tmp_path / "a" / "job.csv")).stale


def test_a_job_that_is_refused_is_named_by_its_whole_path(tmp_path: Path) -> None:
    path = write_job(tmp_path / "b", jobs.job_text({**FIXED, "truss.pitch": "steep"}), READ)
    with pytest.raises(JobRefused) as refused:
        read(path)
    (problem,) = refused.value.problems
    assert (problem.file, problem.place) == (str(path), "truss.pitch")
    path = write_job(tmp_path / "c", jobs.job_text(FIXED), {"Z9": "45"})
    with pytest.raises(JobRefused) as refused:
        read(path)
    assert refused.value.problems[0].file == str(path.with_suffix(".csv"))


@pytest.mark.parametrize("manifest", [None, "", "[]", '{"name": "parcel"}', '{"sheets": [{}], "files": []}'])
def test_a_folder_that_is_no_packet(tmp_path: Path, manifest: str | None) -> None:
    if manifest is not None:
        (tmp_path / "packet.json").write_text(manifest, encoding="utf-8")
    with pytest.raises(JobRefused, match="holds no packet of ours"):
        read(tmp_path)


@pytest.mark.parametrize("data", [None, b"%PDF-1.7\n\xff\xfe", b"column,reading\nA1,45\n"])
def test_a_file_that_is_no_job(tmp_path: Path, data: bytes | None) -> None:
    if data is not None:
        (tmp_path / "what").write_bytes(data)
    with pytest.raises(JobRefused) as refused:
        read(tmp_path / "what")
    assert refused.value.problems[0].file == str(tmp_path / "what")


def test_readings_for_a_packet_are_refused(printed: Path) -> None:
    with pytest.raises(JobRefused, match=r"--old-readings = .*is for a job file"):
        read(printed, Path("some.csv"), "--old-readings")


# --- stale sheets printed anew ----------------------------------------------------------------------------------------


def test_a_stale_packet_holds_the_stale_sheets_alone_and_reads_back_right(printed: Path, tmp_path: Path) -> None:
    made = building(rows={"A3": "45 13/16", "C1": "44 1/2"})
    found, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    # two tags that stood on pages with good ones before stand on one page now
    assert [s.title for s in built.sheets if s.kind == "tags"] == ["Tags A3 and C1"]
    walls = [f"Wall {name}{what}" for name in "AC1" for what in ("", ", lift and nails")]
    assert [s.title for s in built.sheets if s.kind == "walls"] == walls
    assert built.sheets[0].kind == "index"
    assert not [s for s in built.sheets if s.kind == "rods"]
    assert built.whole == ()
    now = codes(made)
    for sheet in (s for s in built.sheets if s.kind != "index"):
        for title, code in sheet.parts or ((sheet.title, sheet.stamp),):
            assert code == now[title]
    assert names(found) == [
        "Tag A3",
        "Tag C1",
        "Wall A",
        "Wall C",
        "Wall 1",
        "Cut sheet",
        "Mark table",
        "Grade sheet",
        "Index",
    ]


def test_a_rod_is_printed_whole(printed: Path, tmp_path: Path) -> None:
    made = building({"truss.bearing": "12'-1"})
    _, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    assert [s.title for s in built.sheets if s.kind == "rods"] == [
        t
        for t in codes(made)
        if "lane" in t and not t.startswith("Roof rod")  # no slope is another one
    ]
    assert len(built.whole) == 2


def test_the_changes_page_tells_which_old_tags_come_off(printed: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER)
    assert built is not None
    found = [t.words for t in boxes.written(built.sheets[0].page.drawing.shapes)]
    at = found.index("Tag A3")
    assert found[at : at + 3] == ["Tag A3", codes(building())["Tag A3"], codes(made)["Tag A3"]]
    assert "TAKE OFF THE COLUMNS" in found
    assert not [t for t in found if str(printed.parent) in t], "no whole path on a sheet"


@pytest.mark.parametrize("name", ["letter", "a4", "legal"])
@pytest.mark.parametrize("given", [{"truss.bearing": "13'"}, {"girts.step": "18"}, {"job.units": "metric"}])
def test_words_of_the_changes_pages_stand_clear(name: str, given: dict[str, Any]) -> None:
    one = of_job(building(), "the packet of last week, which has a long name")
    metric = "job.units" in given
    made = jobs.build(base=jobs.METRIC) if metric else building(given, {"A2": "47 1/8"})
    found = compare(one, of_job(made, "new"))
    bodies = changes.pages(found, made.job.job.name, PAPERS[name])
    assert bodies
    for body in bodies:
        assert boxes.faults(body.drawing, body.paper) == []


def test_nothing_stale_nothing_printed(printed: Path) -> None:
    found, built = stale(printed, building(), LETTER)
    assert not found.stale
    assert built is None


def test_a_tag_that_only_comes_off_is_told_by_the_changes_page_alone(tmp_path: Path) -> None:
    packet.save(packet.build(building(), LETTER, "tags"), tmp_path / "tags")
    made = jobs.build(FIXED, {name: value for name, value in READ.items() if name != "A2"})
    found, built = stale(tmp_path / "tags", made, LETTER)
    assert [(i.name, i.state) for i in found.items] == [("Tag A2", "gone")]
    assert release(built, made, tmp_path / "stale") == []
    assert sorted(p.name for p in (tmp_path / "stale").glob("*.pdf")) == ["index.pdf"]


def test_of_one_kind_alone(printed: Path, tmp_path: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER, "tags")
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    assert [s.title for s in built.sheets] == ["Changes", "Tag A3"]
    # what was left as it is, is told the next time
    after = compare(of_packet(tmp_path / "stale"), of_job(made, "new"))
    assert names(after) == ["Wall A", "Cut sheet", "Mark table", "Grade sheet", "Index"]
    before = codes(building())
    assert item(after, "Wall A").old == (before["Wall A"], before["Wall A, lift and nails"])


def test_the_next_change_goes_on_from_the_stale_packet(printed: Path, tmp_path: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "one") == []
    assert not compare(of_packet(tmp_path / "one"), of_job(made, "new")).stale
    after = building(rows={**AGAIN, "C2": "45"})
    found, built = stale(tmp_path / "one", after, LETTER)
    # A3 is not told again
    assert names(found) == ["Tag C2", "Wall C", "Cut sheet", "Mark table", "Grade sheet", "Index"]
    # C2: 45 5/16 − 43 = 2 5/16, 45 − 43 = 2
    assert words(found, "Tag C2")[0] == 'offset: was 2 5/16", now 2"'
    assert release(built, after, tmp_path / "two") == []
    assert not compare(of_packet(tmp_path / "two"), of_job(after, "new")).stale
    assert names(compare(of_packet(tmp_path / "two"), of_job(made, "new")))[0] == "Tag C2"


def test_stale_sheets_on_other_paper_carry_the_stamps_that_are_printed(printed: Path, tmp_path: Path) -> None:
    made = building({"truss.bearing": "12'-1"})
    _, built = stale(printed, made, PAPERS["a4"])
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    assert built.held is not None
    told = [t.words for s in built.sheets for t in boxes.written(s.page.drawing.shapes) if s.kind == "index"]
    rods = [s.stamp for s in built.sheets if s.kind == "rods" and s.title.startswith("Sidewall")]
    assert all(any(code in text for text in told) for code in rods)
    assert not compare(of_packet(tmp_path / "stale"), of_job(made, "new")).stale


def test_a_stale_packet_can_be_drawn_again_for_the_audit(printed: Path, tmp_path: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "stale") == []
    paper, only, held = as_printed(tmp_path / "stale")
    assert (paper, only) == ("letter", None)
    again = packet.build(made, LETTER, only, held=held)
    assert audit_stale.stale(tmp_path / "stale", again) == []
    assert as_printed(printed) == ("letter", None, None)
    later = packet.build(building(), LETTER, only, held=held)
    assert any(line.startswith("Tag A3: stale") for line in audit_stale.stale(tmp_path / "stale", later))


def test_the_packet_itself_is_no_place_for_its_stale_sheets(printed: Path, tmp_path: Path) -> None:
    with pytest.raises(JobRefused, match=r"--out = .*is the packet that is compared"):
        refuse_same(tmp_path / "nowhere" / ".." / "printed", printed)
    refuse_same(tmp_path / "other", printed)


# --- the audit of a stale packet --------------------------------------------------------------------------------------


@pytest.fixture
def fresh(printed: Path, tmp_path: Path) -> tuple[Packet, Building, Path]:
    """A stale packet with two tags: as drawn, its building, its folder."""
    made = building(rows={"A3": "45 13/16", "C1": "44 1/2"})
    _, built = stale(printed, made, LETTER)
    assert built is not None
    packet.save(built, tmp_path / "stale", svg_parts=True)
    assert differences(built, made, tmp_path / "stale") == []
    return built, made, tmp_path / "stale"


def at(built: Packet, title: str) -> int:
    return next(i for i, sheet in enumerate(built.sheets) if sheet.title == title)


def test_a_tag_drawn_wrong_is_found(fresh: tuple[Packet, Building, Path]) -> None:
    """The sheet's own code draws another bearing, and the files hold what it drew."""
    built, made, folder = fresh
    place = at(built, "Tags A3 and C1")
    sheet = built.sheets[place]
    # C1: 44 1/2 − 43 = 1 1/2; 12' + 1 1/2 = 12'-1 1/2": drawn as 13'-1 1/2"
    drawing = edited(sheet.page.drawing, reads("12'–1", "13'–1"), inside="tag-C1")
    wrong = replace(
        built,
        sheets=(
            *built.sheets[:place],
            replace(sheet, page=replace(sheet.page, drawing=drawing)),
            *built.sheets[place + 1 :],
        ),
    )
    packet.save(wrong, folder)
    found = [str(d) for d in differences(wrong, made, folder)]
    assert any("tag C1, cut BEARING" in line and "12'-1 1/2" in line for line in found)


def test_a_spoilt_tag_is_found_in_every_file(fresh: tuple[Packet, Building, Path]) -> None:
    built, made, folder = fresh
    sheet = built.sheets[at(built, "Tags A3 and C1")]
    # 45 13/16 − 43 = 2 13/16: the figure 2 becomes a 3
    drawing = edited(sheet.page.drawing, reads("2", "3"), inside="tag-A3")
    svg.write(folder / "tags-001.svg", drawing, "spoilt")
    pdf.write(folder / "tags.pdf", [replace(sheet.page, drawing=drawing)], "spoilt")
    found = [str(d) for d in differences(built, made, folder)]
    assert any(line.startswith("tags-001.svg") and "tag A3, offset" in line for line in found)
    assert any(line.startswith("tags.pdf") and "tag A3, offset" in line for line in found)


def test_a_tag_that_should_be_in_the_packet_and_is_not_is_found(fresh: tuple[Packet, Building, Path]) -> None:
    built, made, folder = fresh
    assert built.held is not None
    more = replace(built, held=replace(built.held, columns=built.held.columns | {"A2"}))
    found = [str(d) for d in differences(more, made, folder)]
    assert "packet: Tag A2: should be on a sheet of tags, is on none" in found
    less = replace(built, held=replace(built.held, columns=frozenset({"A3"})))
    found = [str(d) for d in differences(less, made, folder)]
    assert "packet: Tag C1: should be not among the tags of this packet, is on a sheet" in found
    none = replace(built, sheets=built.sheets[:1])
    found = [str(d) for d in differences(none, made, folder)]
    assert "packet: Wall A: should be on a sheet of walls, is on none" in found
    assert "packet: cuts: should be in this packet, is no sheet of them" in found
