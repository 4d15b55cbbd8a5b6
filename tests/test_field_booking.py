"""Booking sheets of the field sheet, and what is settled before the round."""

from __future__ import annotations

import math

import boxes
import jobs
import pytest
from graded import booked
from test_field import CASES, PRINTED, building, cased, found, plan_of, words

from layouts.problems import JobRefused
from layouts.readings import NONE
from sheets import cautions, field
from sheets.frame import Body
from sheets.lettering import pt
from sheets.paper import PAPERS
from sheets.shapes import Group, Polygon


def booking(name: str, paper: str = "letter") -> list[Body]:
    return [b for b in cased(name, paper) if b.title.startswith("Field sheet, readings")]


# --- booking --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PRINTED)
@pytest.mark.parametrize("name", CASES)
def test_a_row_a_column_in_walking_order_with_two_rounds_and_a_note(name: str, paper: str) -> None:
    rows = [g for b in booking(name, paper) for g in found(b, "row-")]
    spots = building(name).plan.spots
    assert [g.name for g in rows] == [f"row-{i}" for i in range(1, len(spots) + 1)]
    for number, (row, spot) in enumerate(zip(rows, spots, strict=True), 1):
        assert [t.words for t in boxes.written(row.shapes)] == [str(number), spot.name]
        blanks = {g.name: boxes.of_shape(g) for g in boxes.groups(row.shapes)}
        assert list(blanks) == ["round-1", "round-2", "set-up", "note"]
        assert all(b.y1 - b.y0 >= 0.32 for b in blanks.values())
        assert min(blanks["round-1"].x1 - blanks["round-1"].x0, blanks["round-2"].x1 - blanks["round-2"].x0) > 1.3
        assert not [t for t in boxes.written(row.shapes) if any(t.box.shares(b) for b in blanks.values())]


def test_numbers_of_plan_and_book_are_the_same() -> None:
    marked = {g.name[5:]: g.title for g in found(plan_of("plain"), "spot-")}
    rows = [[t.words for t in boxes.written(g.shapes)] for g in found(booking("plain")[0], "row-")]
    assert dict(rows) == marked


@pytest.mark.parametrize("paper", PRINTED)
@pytest.mark.parametrize("name", ["plain", "metric", "long", "sixty"])
def test_every_sheet_begins_on_start_and_ends_on_the_check_back(name: str, paper: str) -> None:
    allowed = "3 mm" if name == "metric" else '1/8"'
    sheets = booking(name, paper)
    for i, body in enumerate(sheets):
        parts = [g for g in body.drawing.shapes if isinstance(g, Group)]
        order = [g for g in parts if g.name in ("start", "check-back", "difference") or g.name.startswith("row-")]
        assert [g.name for g in (order[0], *order[-2:])] == ["start", "check-back", "difference"]
        tops = [boxes.of_shape(g).y1 for g in order]
        assert tops == sorted(tops, reverse=True)
        for group in (order[0], order[-2], order[-1]):
            assert {"round-1", "round-2"} <= {g.name for g in boxes.groups(group.shapes)}
        assert [t.words for t in boxes.written(order[-1].shapes)][-2:] == [
            f"More than {allowed} apart:",
            "SHOOT THE ROUND AGAIN.",
        ]
        start = [t.words for t in boxes.written(order[0].shapes)]
        assert start[0] == ("START, as on sheet 1:" if i else "START ON which point:")
    assert len(sheets) == math.ceil(len(building(name).plan.spots) / len(found(sheets[0], "row-")))


def test_what_a_check_back_may_be_off() -> None:
    found = " ".join(words(field.pages(jobs.build({"readings.misclosure": "3/16"}), PAPERS["letter"])[1:]))
    assert found.count('More than 3/16" apart:') == 1
    # what closes over two set-ups may be off by twice that, as the layout has it
    assert 'more than 3/8" apart: read them again' in found
    text = "column,reading,set-up\nA1,45,1\nA2,45,1\nA1,50,2\nA2,50 {}/16,2\n"
    booked(text.format(6), {"readings.misclosure": "3/16"})
    with pytest.raises(JobRefused, match='A2 read again is 7/16" off over 2 set-ups, 3/8" allowed'):
        booked(text.format(7), {"readings.misclosure": "3/16"})
    assert '1/8"' not in found


def test_names_are_set_large_and_bold_and_never_as_lengths() -> None:
    rows = [t for b in booking("small bays") for g in found(b, "row-") for t in boxes.written(g.shapes)]
    own = next(t for t in rows if t.words == "1/2")
    assert own.size == pytest.approx(pt(22))


def test_it_needs_no_readings_and_is_the_same_with_them() -> None:
    made = building("plain")
    without = jobs.build({}, None)
    assert made.readings.values
    assert without.readings == NONE
    letter = PAPERS["letter"]
    assert [b.drawing for b in field.pages(made, letter)] == [b.drawing for b in field.pages(without, letter)]


# --- before the round -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PRINTED)
def test_what_is_written_down_before_the_round(paper: str) -> None:
    sheet = [b for b in cased("plain", paper) if "before the round" in b.title]
    assert len(sheet) == 1
    blanks = {g.name.removeprefix("blank-") for g in found(sheet[0], "blank-")}
    assert {"DATE", "WEATHER", "READ BY", "WROTE", "LASER", "ROD OR TAPE"} <= blanks
    assert {"HIGHEST BY EYE: column", "LOWEST BY EYE: column"} <= blanks
    assert len(found(sheet[0], "benchmark-")) == 3 * 3
    assert len(found(sheet[0], "set-up-")) == 4 * 4
    assert all(boxes.of_shape(g).y1 - boxes.of_shape(g).y0 > 0.32 for g in found(sheet[0], "benchmark-"))


@pytest.mark.parametrize(
    ("head", "choices"),
    [
        ("IT READS IN", ["inches and fractions", "tenths of a foot", "decimal inches", "mm"]),
        ("IT IS READ", ["down from the beam: larger is LOWER", "as heights: larger is HIGHER"]),
        ("READ ON", ["the seat", "the concrete; plate thickness _________"]),
    ],
)
def test_a_box_to_tick_for_every_choice(head: str, choices: list[str]) -> None:
    group = next(g for b in cased("plain") for g in found(b, f"ticks-{head}"))
    assert [t.words for t in boxes.written(group.shapes)] == [head, *choices]
    squares = [boxes.of_shape(s) for s in group.shapes if isinstance(s, Polygon)]
    assert len(squares) == len(choices)
    assert all(s.x1 - s.x0 == pytest.approx(s.y1 - s.y0) for s in squares)


@pytest.mark.parametrize(
    "says",
    [
        "on the SEAT that the column will stand on, not on the concrete",
        "LARGER IS LOWER",
        "the SMALLEST reading counts",
        "another repeats it aloud",
        "Read the first point again at the end of every sheet",
        "The difference is TWICE its error",
        "which seat is highest and which is lowest by eye",
        "Read one seat (better two) from the new set-up that you have read before",
    ],
)
def test_how_to_shoot(says: str) -> None:
    assert says in " ".join(words(cased("plain")))


UP = "sense,up\nread on,concrete\nplate,1/4\ncolumn,reading\n"


@pytest.mark.parametrize("read", ["", "A1,15 1/4\nA2,15\nA1,15 1/4\n"])
def test_a_file_whose_larger_readings_are_higher_has_the_largest_count(read: str) -> None:
    """A rod that leans finds the beam further up it, so its seat too low: 45 reads 45 1/8 from the beam down, and where
    heights are read 100 - 45 = 55 reads 54 7/8. The file says the sense before anything is read too."""
    made = booked(UP + read)
    said = " ".join(t.words for b in field.pages(made, PAPERS["letter"]) for t in boxes.written(b.drawing.shapes))
    assert "1. Read on the CONCRETE, as the file of readings says, not on the seat." in said
    assert "2. Read as heights: LARGER IS HIGHER." in said
    assert "3. Rock the rod to and fro: the LARGEST reading counts." in said
    assert "Concrete, not seat. Rock the rod: the largest reading. Read as heights: larger is higher." in said
    assert "SMALLEST" not in said
    assert "LARGER IS LOWER" not in said
    index_says = cautions.assumed(made.job.style, made.readings.head)[0]
    assert index_says.endswith("Readings are heights of the bracket seat: larger is higher.")


def test_the_index_takes_readings_from_the_beam_down_for_granted() -> None:
    said = cautions.assumed(jobs.job().style, NONE.head)[0]
    assert said.endswith("Readings are rod or tape from the beam down to the bracket seat: larger is lower.")


def test_titles_are_its_own() -> None:
    titles = [b.title for b in cased("sixty")]
    assert len(set(titles)) == len(titles)
    assert {b.kind for b in cased("sixty")} == {"field"}
