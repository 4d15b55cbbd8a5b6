"""The field book as it was written: a whole file, a half typed one, and a very long one."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from layouts import book
from layouts.book import Book, Sight
from layouts.book_lines import has_heading, rows
from layouts.lengths import Unit
from layouts.problems import JobRefused

COLUMNS = ["A1", "A2", "A3", "A4", "RIDGE"]
CALLED = {"C6": "RIDGE"}


def read(text: str, unit: Unit = "in", called: Mapping[str, str] = CALLED) -> Book:
    return book.read(text, COLUMNS, unit, "job.csv", called)


def refused(text: str, unit: Unit = "in") -> list[str]:
    """What is wrong, without the name of the file."""
    with pytest.raises(JobRefused) as caught:
        read(text, unit)
    return [str(p).removeprefix("job.csv: ") for p in caught.value.problems]


def one(reading: str, *head: str, unit: Unit = "in") -> Sight:
    """The sight of a file with one reading under these words."""
    (sight,) = read("\n".join([*head, "column;reading", f"A1;{reading}"]), unit).sights
    return sight


# --- a whole file -----------------------------------------------------------------------------------------------------

WHOLE = """# Thursday, after the rain
date,2026-05-14
weather,"windy, dry"
read by,Ana
wrote,Lev
rod,no. 3
unit,feet
sense,down
read on,concrete
plate,3/8
benchmark,BM1,nail in the power pole
highest,A2
lowest,C6

column,reading,set-up,round,on,note
BM1,3.00,1,1,,
A1,4.04,1,1,,mud on the rod
A2,3.99,1,1,seat,
# the sun moved the tripod
A1,4.10,2,1,,
RIDGE,4.5,2,1,,
A1,4.11,2,1,,check-back
"""


def test_a_whole_file() -> None:
    found = read(WHOLE)
    head = found.head
    assert (head.unit, head.up, head.concrete, head.plate) == ("feet", False, True, 0.375)
    assert (head.highest, head.lowest) == ("A2", "RIDGE")
    assert head.benchmarks == {"BM1": "nail in the power pole"}
    assert head.kept == {
        "date": "2026-05-14",
        "weather": "windy, dry",
        "read by": "Ana",
        "wrote": "Lev",
        "rod": "no. 3",
    }
    assert head.said == {"unit", "sense", "read on", "plate", "highest", "lowest", *head.kept}
    assert found.notes == {"A1": "mud on the rod; check-back"}
    assert [(s.point, s.setup, s.round, s.place) for s in found.sights] == [
        ("BM1", "1", "1", "line 16"),
        ("A1", "1", "1", "line 17"),
        ("A2", "1", "1", "line 18"),
        ("A1", "2", "1", "line 20"),
        ("RIDGE", "2", "1", "line 21"),
        ("A1", "2", "1", "line 22"),
    ]


def test_the_plate_is_taken_off_where_the_concrete_was_read() -> None:
    """The seat is 3/8 above the concrete: 4.04 ft is 48.48, so 48.105 down to the seat. A benchmark has no plate."""
    marked, concrete, seat, *_ = read(WHOLE).sights
    assert (concrete.raw, concrete.down, concrete.concrete) == (48.48, 48.105, True)
    assert (seat.raw, seat.down, seat.concrete) == (47.88, 47.88, False)
    assert (marked.raw, marked.down, marked.concrete) == (36, 36, False)


def test_the_plate_is_taken_off_of_a_rod_whose_larger_readings_are_higher() -> None:
    """Such a rod reads 48 on the concrete and 48 3/8 on the seat."""
    sight = one("48", "sense,up", "read on,concrete", "plate,3/8")
    assert (sight.raw, sight.down) == (48, -48.375)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_bare_plate_is_inches_but_in_a_file_of_mm(unit: Unit) -> None:
    """Whatever the job's unit is, and wherever the unit stands."""
    head = "column,reading\nA1,1143\n"
    assert read(f"plate,10\nunit,mm\n{head}", unit).head.plate == pytest.approx(10 / 25.4)
    assert read("plate,3/8\nunit,feet\ncolumn,reading\n", unit).head.plate == 0.375
    assert read("plate,0.25\nunit,inches\ncolumn,reading\n", unit).head.plate == 0.25


@pytest.mark.parametrize("heading", ["set-up", "setup", "set up", "Set-Up", "SETUP"])
def test_a_set_up_in_many_hands(heading: str) -> None:
    (sight,) = read(f"column,reading,{heading}\nA1,44,north\n").sights
    assert sight.setup == "north"


def test_a_set_up_and_a_round_that_are_not_named_are_the_first() -> None:
    (sight,) = read("column,reading,set-up,round\nA1,44,,\n").sights
    assert (sight.setup, sight.round) == ("1", "1")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("unit;feet\ncolumn;reading\nA1;4.04\n", "feet"),
        ("unit;feet;;\ncolumn;reading;set-up;note\nA1;4.04;;\n", "feet"),
        ("unit,feet\ncolumn;reading\nA1;4.04\n", "feet"),
        ("unit\tfeet\ncolumn\treading\nA1\t4.04\n", "feet"),
        ("\ufeffunit,feet\r\ncolumn,reading\r\nA1,4.04\r\n", "feet"),
        ("UNIT, Feet \ncolumn,reading\nA1,4.04\n", "feet"),
        ('"unit","feet"\n"column","reading"\n"A1","4.04"\n', "feet"),
    ],
)
def test_words_before_the_heading_in_many_hands(text: str, words: str) -> None:
    found = read(text)
    assert found.head.unit == words
    assert [s.down for s in found.sights] == [48.48]


def test_empty_cells_of_a_spreadsheet() -> None:
    """Short lines filled up, rows emptied, a blank column in the middle and two at the end."""
    text = (
        'unit,feet,,,,\n,,,,,\ncolumn,,reading,note,,\nA1,,4.04,,,\n,,,,,\n"","","","","",""\nA2,,,,,\nA3,,4.05,wet,,\n'
    )
    found = read(text)
    assert [(s.point, s.place) for s in found.sights] == [("A1", "line 4"), ("A3", "line 8")]
    assert found.notes == {"A3": "wet"}


def test_what_stands_under_no_heading_is_told() -> None:
    (line,) = refused("column,,reading\nA1,7,44\n")
    assert line.startswith("line 2 = A1,7,44: has more entries than the heading.")


# --- half typed -------------------------------------------------------------------------------------------------------


def test_rows_that_wait_for_their_readings() -> None:
    """All rows of a round typed in advance, its check-back too; some are read."""
    found = read("column,reading\nA1,44\nA2,\nA3,45\nA4,\nA1,\n")
    assert [s.point for s in found.sights] == ["A1", "A3"]


def test_the_first_point_is_the_first_that_was_read() -> None:
    found = read("column,reading,note\nA4,,bracket in the forms\nA1,44,\nA2,45,\nA1,44,\n")
    assert [s.point for s in found.sights] == ["A1", "A2", "A1"]


def test_a_check_back_with_nothing_read_between_yet() -> None:
    found = read("column,reading\nA1,44\nA2,\nA3,\nA1,44 1/8\n")
    assert [s.down for s in found.sights] == [44, 44.125]


def test_a_row_that_waits_does_not_double_one_that_was_read() -> None:
    found = read("column,reading\nA1,44\nA2,\nA2,45\n")
    assert [s.down for s in found.sights] == [44, 45]


@pytest.mark.parametrize("text", ["unit,feet\n", "unit,feet\nsense,up\n\n# to be read on Friday\n"])
def test_words_alone_are_a_file_that_is_not_read_yet(text: str) -> None:
    found = read(text)
    assert (found.head.unit, found.sights) == ("feet", ())


# --- large ------------------------------------------------------------------------------------------------------------


def test_the_longest_file_is_read_and_a_longer_one_refused() -> None:
    rows = "A1,44\nA2,44\n" * 2499
    text = "column,reading,round\n" + "".join(f"A1,44,{n % 60}\n" for n in range(60)) + "\n" * 4939
    assert len(text.splitlines()) == 5000
    assert len(read(text).sights) == 60
    assert refused(text + "\n") == ["is larger than any building's readings. At most 5000 lines."]
    assert refused(rows * 10) == ["is larger than any building's readings. At most 5000 lines."]


def test_five_thousand_mistakes_are_told() -> None:
    lines = refused("column,reading\n" + "A1,1143\n" * 4999)
    assert lines[0].startswith("line 2, column A1 = 1143: is longer than any rod, taken as inches.")
    assert len(lines) == 4999


# --- a spreadsheet's hint of what stands between cells ---------------------------------------------------------------


@pytest.mark.parametrize("hint", ["sep=,", "sep=;", "SEP=;", '"sep=;"', "sep=\t", "sep=,,,,"])
@pytest.mark.parametrize("mark", [",", ";"])
def test_a_hint_of_the_mark_says_nothing(hint: str, mark: str) -> None:
    """The mark is seen in each line anyway."""
    text = f"{hint}\nunit,feet\ncolumn{mark}reading\nA1{mark}4.04\n"
    (sight,) = read(text).sights
    assert (sight.point, sight.text, sight.place) == ("A1", "4.04", "line 4")
    assert read(f"\ufeff{text}").head.unit == "feet"
    assert has_heading(text)
    assert [row.at for row in rows(text)] == [3]


def test_a_word_like_a_hint_is_none() -> None:
    (line,) = refused("sep,x\ncolumn,reading\n")
    assert line.startswith("line 1 = sep: says nothing that is known.")
