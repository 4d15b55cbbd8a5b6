"""The grade sheet: readings as they were written, the sum from a seat to the eave, what is to be done first."""

from __future__ import annotations

import random

import boxes
import pytest
import stress
from graded import booked, clear, lines_of, row, rows, shapes, words
from hypothesis import given
from hypothesis import strategies as st
from jobs import BASE, build, every, job

from layouts.building import lay_out
from layouts.plan import lay
from layouts.readings import Readings
from sheets import index, packet
from sheets.grade_sheet import of_grade, pages
from sheets.paper import PAPERS, USUAL

# --- words and readings ---------------------------------------------------------------------------------------------


def test_no_sheet_without_readings() -> None:
    assert pages(build({}, None), PAPERS["letter"]) == []


def test_the_line_stands_large_at_the_head() -> None:
    building = build({"grade.line": "43 1/2"}, rows())
    first = next(iter(boxes.written(shapes(building)[0])))
    assert first.words == 'LINE READING 43 1/2"'
    assert first.size * 72 >= 36
    assert building.grade.why in " ".join(words(building))
    assert "HIGH and LOW are told against A1." in " ".join(words(building))


TWO = """unit,inches
plate,3/8
benchmark,BM1,nail in the pole
weather,windy
read by,Mo
column,reading,set-up,round,on,note
BM1,30,1,1,,
A1,48 1/2,1,1,,
A2,49,1,1,,mud
A3,49 1/4,1,1,,
BM1,30 1/16,1,1,,
A1,52 1/4,2,1,,
A4,52 5/8,2,1,concrete,
A3,53 1/8,2,1,,
A1,52 1/4,2,1,,
BM1,28 1/2,1,2,,
A2,47 9/16,1,2,,
A4,47 1/8,1,2,,
BM1,28 1/2,1,2,,
"""


def test_the_table_holds_readings_as_they_were_written() -> None:
    building = booked(TWO)
    assert ["column", "round 1", "round 2", "taken", "offset", "against A1", "do first", "note"] in lines_of(building)
    assert row(building, "A2")[:3] == ["A2", "49 (set-up 1)", "47 9/16 (set-up 1)"]
    assert row(building, "A2")[-1] == "mud"
    assert row(building, "A4")[1:3] == ["52 5/8 (set-up 2, concrete)", "47 1/8 (set-up 1)"]
    said = words(building)
    assert "30 1/16 (set-up 1, read back)" in said
    assert "52 1/4 (set-up 2, read back)" in said
    assert "Weather windy; read by Mo." in said
    assert any(w.startswith("Read in inches, on the seats; larger is LOWER.") for w in said)
    assert row(building, "G5", 2) == ["G5", "NOT READ"]


def test_offset_and_words_of_a_reading() -> None:
    # 45 1/8 on a line of 43 1/2 gives 1 5/8; against A1 (44 3/4) it is 3/8 lower
    building = build({"grade.line": "43 1/2"}, {"A1": "44 3/4", "A2": "45 1/8", "A3": "44 3/4", "A4": "44 1/2"})
    assert row(building, "A2")[1:] == ["45 1/8", '45 1/8"', '1 5/8"', 'LOW 3/8"']
    assert row(building, "A1")[-2:] == ['1 1/4"', "REFERENCE"]
    assert row(building, "A3")[-1] == "LEVEL"
    assert row(building, "A4")[-2:] == ['1"', 'HIGH 1/4"']
    assert row(building, "G1", 2) == ["G1", "NOT READ"]


def test_readings_from_no_file_leave_out_rounds() -> None:
    building = stress.building("plain")
    said = words(building)
    assert "HOW WELL IT CLOSES" not in said
    assert "as written" not in said
    assert row(building, "A2")[1] == '44 7/16"'


def test_a_benchmark_stands_in_the_table_with_its_height() -> None:
    # BM1 reads 30 and 30 1/16, 30 1/32 by least squares, on a line of 46 1/2: 16 15/32 above it, 16 1/2 in sixteenths
    building = booked(TWO, {"grade.line": "46 1/2"})
    found = row(building, "BM1")
    assert found[:2] == ["BM1", "30 (set-up 1)"]
    assert found[-4:] == ['30 1/32"', "BENCHMARK", '16 1/2" ABOVE the', "nail in the"]


def test_a_rod_in_feet_whose_larger_readings_are_higher() -> None:
    text = "unit,feet\nsense,up\ncolumn,reading\nA1,4.04\nA2,4.00\nA1,4.04\n"
    building = booked(text, {"grade.line": "4.2 ft"})
    said = words(building)
    assert said[0].startswith("LINE READING 4.2 ft (")
    assert "line reading less reading" in " ".join(said)
    assert "Read in decimal feet, on the seats; larger is HIGHER." in said
    # 4.00 is 0.04 ft = 0.48 in lower than 4.04, and 0.2 ft = 2.4 in under the line
    assert row(building, "A2") == ["A2", "4.00", '4 ft (48")', '2 3/8"', 'LOW 1/2"']


# --- columns made to fit ----------------------------------------------------------------------------------------------


def test_columns_with_a_seat_block() -> None:
    # the centre ply ends 140 in up; the bearing stands at 144 + offset 1 1/2: a block of 5 1/2
    building = build({"grade.line": "43", "column.centre_ply": "140 in"}, {"A1": "44 1/2", "C1": "45"})
    found = lines_of(building)
    after_head = found[found.index(["COLUMNS MADE TO FIT"]) :]
    assert ["A1", '5 1/2"', '1 1/2"'] in after_head
    assert not any(line[0] == "C1" for line in after_head)  # an endwall column carries no truss


def test_columns_whose_top_is_made() -> None:
    # notch at 146 in, bearing 144: with an offset of 1 1/2 the column is 1/2 too long, with 3 it is 1 in too short
    changes = {"grade.line": "43", "column.notch": "146 in", "column.ears": "16", "column.treated": "all"}
    given = {"A1": "44 1/2", "A2": "46"}
    building = build(changes | {"column.trims": "bottom"}, given)
    table = [line for line in lines_of(building) if len(line) == 3 and line[0] in ("A1", "A2")]
    assert ["A1", '1/2"', '1 1/2"'] in table  # cut off
    assert ["A2", '1"', '2"'] in table  # packed: its bottom end stands an inch higher than its seat
    assert "COLUMNS MADE TO FIT" in words(building)
    assert "COLUMNS MADE TO FIT" not in words(build({"grade.line": "43"}, given))


# --- warnings -------------------------------------------------------------------------------------------------------


def test_what_is_to_be_done_first_stands_before_the_profile() -> None:
    building = build({"grade.most": "2"}, rows("A3=46 3/4"))
    said = words(building)
    box = " ".join(said[: said.index("PROFILE ROUND THE BUILDING")])
    assert "BEFORE ANY COLUMN IS CUT" in box
    for pier in building.piers:
        assert pier.said in box
    for name, reason in building.grade.again.items():
        assert f"{name}: {reason}: shoot it again before cutting." in box
    assert not any("above each other break" in w or "less than an inch apart" in w for w in of_grade(building))
    assert any("above each other break" in w for w in stress.building("plain").warnings)


def test_many_seats_are_told_together_first_and_one_by_one_after_the_profile() -> None:
    building = stress.building("all warned")
    said = words(building)
    first, rest = said[: said.index("PROFILE ROUND THE BUILDING")], said[said.index("PROFILE ROUND THE BUILDING") :]
    count = len(building.grade.again)
    assert count > 20
    assert any(w.startswith(f"SHOOT AGAIN before cutting ({count}): ") for w in first)
    for name, reason in building.grade.again.items():
        assert f"{name}: {reason}: shoot it again before cutting." in " ".join(rest)


def test_nothing_to_do_is_said() -> None:
    building = lay_out(job(), every(job(), 44.0))
    assert "NOTHING TO SHOOT AGAIN, NO PIER OUT OF TOLERANCE" in words(building)


# --- in the packet --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", USUAL)
def test_the_index_tells_the_page(paper: str) -> None:
    made = packet.build(stress.building("plain"), PAPERS[paper])
    page = next(i for i, s in enumerate(made.sheets, 1) if s.kind == "grade")
    told = [t.words for s in made.sheets if s.kind == "index" for t in boxes.written(s.page.drawing.shapes)]
    assert any(w.endswith(f"Grade sheet, page {page}.") for w in told)
    kinds = list(dict.fromkeys(s.kind for s in made.sheets))
    assert kinds.index("grade") == kinds.index("rods") - 1


def test_the_index_without_readings_points_to_no_sheet() -> None:
    told = [
        t.words for b in index.pages(build({}, None), PAPERS["letter"], []) for t in boxes.written(b.drawing.shapes)
    ]
    assert "No readings." in told
    assert not any("Grade sheet" in w for w in told)


# --- legible --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "paper"), stress.PRINTED)
def test_words_keep_clear(name: str, paper: str) -> None:
    clear(stress.building(name), paper)


def two_rounds(names: list[str], dice: random.Random, unit: str) -> str:
    """Two rounds of two set-ups each, with a benchmark and check-backs, up to 1/16 in off now and then."""
    true = {name: 47 + dice.randint(0, 40) / 16 for name in names}
    half = len(names) // 2
    lines = ["benchmark,BM1,nail in the power pole", f"unit,{unit}", "sense,up", "column,reading,set-up,round,note"]
    for number, beams in (("1", (0.0, 3.75)), ("2", (-1.5, 2.25))):
        order = [("BM1", 0), *((n, 0) for n in names[: half + 1]), ("BM1", 0)]
        order += [(n, 1) for n in (*names[half - 1 : -1], names[half - 1])]
        for name, which in order:
            down = true.get(name, 30.0) + beams[which] + dice.choice((0, 0, 0, 1, -1)) / 16
            value = f"{(200 - down) / 12:.3f}" if unit == "feet" else f"{200 - down:.4f}".rstrip("0").rstrip(".")
            lines.append(f"{name},{value},{which + 1},{number},{stress.NOTE.replace(',', '') if which else ''}")
    return "\n".join(lines)


@pytest.mark.parametrize("unit", ["inches", "feet"])
@pytest.mark.parametrize("name", ["plain", "long names", "long, long names", "wide", "small"])
def test_words_keep_clear_with_rounds_and_set_ups(name: str, unit: str) -> None:
    changes = dict(stress.CASES[name].changes) | {"readings.misclosure": "3/8"}
    names = [s.name for s in lay(job(changes)).spots]
    building = booked(two_rounds(names, random.Random(name), unit), changes)
    assert building.readings.survey
    assert len(building.readings.survey.rounds) == 2
    for paper in USUAL:
        clear(building, paper)


@given(st.data())
def test_words_keep_clear_whatever_is_read(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(list(stress.CASES)))
    case = stress.CASES[name]
    made = job(case.changes, base=case.base or BASE)
    spots = [s.name for s in lay(made).spots]
    spread_by = data.draw(st.sampled_from([8, 64, 2000]))
    found = {
        n: 400 + v / 16 for n in spots if (v := data.draw(st.none() | st.integers(-spread_by, spread_by))) is not None
    }
    clear(lay_out(made, Readings(found, {})), data.draw(st.sampled_from(["letter", "a4", "legal", "a3"])))
