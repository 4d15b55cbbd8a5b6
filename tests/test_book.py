"""The field book as it was written: every unit, sense and hand is read, or refused with its line and a way out."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts import book
from layouts.book import Book, Sight
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


def wrong(reading: str, *head: str, unit: Unit = "in") -> str:
    """What is wrong with that reading."""
    (line,) = refused("\n".join([*head, "column;reading", f"A1;{reading}"]), unit)
    return line.partition(": ")[2]


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


# --- numbers ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("reading", "unit", "inches"),
    [
        ("44 3/4", "inches", 44.75),
        ("44.75", "inches", 44.75),
        ("44¾", "inches", 44.75),
        ("44\N{NO-BREAK SPACE}3/4", "inches", 44.75),
        ("3' 8 3/4", "inches", 44.75),
        ("4.04", "feet", 48.48),
        ("4", "feet", 48),
        (".5", "feet", 6),
        ("4' 1/2\"", "feet", 48.5),
        ("4′ 0 1/2″", "feet", 48.5),
        ("48 1/2 in", "feet", 48.5),
        ("1231.9 mm", "feet", 48.5),
        ("1231.9", "mm", 48.5),
        ("1.2319 m", "mm", 48.5),
    ],
)
def test_numbers_in_their_units(reading: str, unit: str, inches: float) -> None:
    assert one(reading, f"unit,{unit}").down == pytest.approx(inches, abs=1e-12)


@pytest.mark.parametrize("minus", ["-", "- ", "\N{MINUS SIGN}", "–", "—", "‑"])
def test_a_minus_in_many_hands(minus: str) -> None:
    assert one(f"{minus}1/4", "sense,up").down == 0.25


@pytest.mark.parametrize(("reading", "down"), [("+1/4", -0.25), ("1/4", -0.25), ("0", 0), ("-0", 0), ("+0", 0)])
def test_plus_and_zero_of_a_receiver(reading: str, down: float) -> None:
    sight = one(reading, "sense,up")
    assert sight.down == down
    assert str(sight.raw) in ("0.0", "0.25")  # no minus nought


def test_a_benchmark_above_the_beam_and_one_in_it() -> None:
    found = read("benchmark,BM1\nbenchmark,BM2\ncolumn,reading\nBM1,-24\nBM2,0\nA1,36\n")
    assert [s.down for s in found.sights] == [-24, 0, 36]


@pytest.mark.parametrize("reading", ["0", "-0", "0.00", "0 in"])
def test_a_seat_in_the_beam_itself(reading: str) -> None:
    assert wrong(reading) == "is in the beam itself. Leave it empty until it is read."


def test_a_seat_above_the_beam() -> None:
    assert wrong("-1/4") == 'is above the beam. Where larger is higher, say so: a line "sense,up".'


def test_a_plus_asks_for_the_sense() -> None:
    said = 'has a plus, and a rod down from the beam has none. Is larger higher? Say so: a line "sense,up"; or '
    assert wrong("+44") == f'{said}"sense,down".'
    assert one("+44", "sense,down").down == 44


@pytest.mark.parametrize("reading", ["4 1/2", "4½", "4-6", "4 6", "48/2"])
def test_a_bare_number_in_a_file_of_feet_has_decimals(reading: str) -> None:
    assert wrong(reading, "unit,feet") == "is not decimal feet. Write 4.04, or mark feet with ' and inches with \"."


@pytest.mark.parametrize(
    ("reading", "unit", "said"),
    [
        ("4,04", "feet", "no commas: write thousands as 1200 and decimals as 3.5"),
        ("44,75", "inches", "no commas: write thousands as 1200 and decimals as 3.5"),
        ("1143,5", "mm", "no commas: write thousands as 1200 and decimals as 3.5"),
        ("1143 1/2", "mm", "fractions are for inches"),
        ("forty", "inches", "there is no number in it"),
        ("44 3/7", "inches", "a tape has halves"),
        ("--1/4", "inches", "a length cannot be negative"),
        ("4.", "feet", "is not decimal feet"),
        ("44.", "inches", "a decimal point needs a figure before and after it"),
        ("#N/A", "inches", "has no place in a length"),
        ("4-Mar", "inches", "mar is not a unit used here"),
    ],
)
def test_text_that_is_no_number(reading: str, unit: str, said: str) -> None:
    assert said in wrong(reading, f"unit,{unit}")


@given(st.text(st.characters(exclude_characters="\r\n;"), max_size=30), st.sampled_from(["inches", "feet", "mm"]))
def test_any_text_is_read_or_refused_in_words(reading: str, unit: str) -> None:
    """Never a traceback, and a number is never far from a rod."""
    try:
        found = read(f"unit;{unit}\nsense;up\ncolumn;reading\nA1;{reading}\n")
    except JobRefused as error:
        told = [str(p) for p in error.problems]
    else:
        told = []
        assert all(abs(s.down) <= 360 for s in found.sights)
    assert all(len(line) < 400 for line in told)


@given(st.text(max_size=200), st.sampled_from(["", "column,reading\n", "benchmark,X\ncolumn,reading,set-up,on,note\n"]))
def test_any_file_is_read_or_refused_in_words(text: str, head: str) -> None:
    told = []
    try:
        read(head + text)
    except JobRefused as error:
        told = [str(p) for p in error.problems]
    assert all(len(line) < 500 for line in told)


@given(st.integers(1, 360 * 64))
def test_every_reading_of_a_tape_is_read_exactly(n: int) -> None:
    whole, rest = divmod(Fraction(n, 64), 1)
    assert one(f"{whole} {rest}" if rest else str(whole)).down == n / 64


# --- numbers of another unit ------------------------------------------------------------------------------------------


def test_mm_in_a_file_of_inches_are_told_once() -> None:
    """Longer than any rod, all of them: not a list of as many lines."""
    assert refused("column,reading\nA1,1143\nA2,1150\nA3,44\n") == [
        "line 2, column A1 = 1143: is longer than any rod, taken as inches. So are 1 more. Are they mm? "
        'Say so: a line "unit,mm" before the heading.'
    ]


def test_inches_in_a_file_of_feet_are_told_once() -> None:
    (line,) = refused("unit,feet\ncolumn,reading\nA1,44.5\nA2,45\nA3,44.75\n")
    assert 'taken as feet. So are 2 more. Are they inches? Say so: a line "unit,inches"' in line


def test_mm_in_a_file_of_feet_are_told_once() -> None:
    (line,) = refused("unit,feet\ncolumn,reading\nA1,1143\n")
    assert line.endswith(
        'longer than any rod, taken as feet. Are they mm? Say so: a line "unit,mm" before the heading.'
    )


def test_one_slip_among_many_is_told_as_such_and_other_mistakes_keep_their_place() -> None:
    lines = refused("column,reading\nZ9,44\nA1,1143\nA2,44\nA3,45\nA4,x\n")
    assert [line.split(" = ")[0] for line in lines] == ["line 2", "line 3, column A1", "line 6, column A4"]
    assert lines[1].endswith("is longer than any rod. Up to 30'-0\".")


# --- what is wrong ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("unit,foot", "line 1 = foot: is no unit of a rod. Choose from inches, feet, mm."),
        ("sense,upp", "line 1 = upp: is no sense of a rod. Choose from down, up."),
        ("read on,slab", "line 1 = slab: is nothing a rod is read on. Choose from seat, concrete."),
        ("wether,dry", "line 1 = wether: says nothing that is known. Did you mean weather?"),
        ("weather", "line 1 = weather: says nothing. Write what it is after a comma, or leave the line out."),
        ("unit,,,", "line 1 = unit: says nothing. Write what it is after a comma, or leave the line out."),
        ("highest,A9", "line 1 = A9: is not a column of this job. Known: A1, A2, A3, A4, RIDGE."),
        ("lowest,a1", "line 1 = a1: is not a column of this job. Did you mean A1?"),
        ("plate,thick", "line 1 = thick: there is no number in it; write 12'-9 11/16\" or 41 3/8."),
        ("plate,8", 'line 1 = 8: is no plate. 1/16" to 6", or 0 for none.'),
        ("plate,0.03", 'line 1 = 0.03: is no plate. 1/16" to 6", or 0 for none.'),
        ("plate,0,375", "line 1 = 0, 375: is more than one plate. One word or number; decimals take a point."),
        ("highest,A1,A2", "line 1 = A1, A2: is more than one highest. One word or number; decimals take a point."),
        ("benchmark,A1", "line 1 = A1: is a column of this job. A seat that is read twice joins set-ups as it is."),
        ("benchmark,C6", "line 1 = C6: is a column of this job. A seat that is read twice joins set-ups as it is."),
        ("benchmark," + "B" * 21, "line 1 = " + "B" * 21 + ": is 21 letters long. At most 20."),
    ],
)
def test_words_that_say_nothing_known(line: str, said: str) -> None:
    assert refused(f"{line}\ncolumn,reading\nA1,44\n") == [said]


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("unit,feet\nunit,feet", "line 2 = unit: is said a second time. Keep one of them."),
        ("date,Monday\ndate,Tuesday", "line 2 = date: is said a second time. Keep one of them."),
        ("benchmark,BM\nbenchmark,BM", "line 2 = BM: is named a second time. Keep one of them."),
        (
            "highest,A1\nlowest,A1",
            "line 2 = A1: cannot be both highest and lowest. Name another seat, or leave the two lines out.",
        ),
    ],
)
def test_words_that_are_said_twice(lines: str, said: str) -> None:
    assert refused(f"{lines}\ncolumn,reading\n") == [said]


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("column,reading,remarks", "it has remarks, which is not known."),
        ("column,reading,on,on", "it has on twice."),
        ("column,setup,set-up,reading", "it has set-up twice."),
        ("reading,note", "it has no column."),
        ("column,note", "it has no reading."),
    ],
)
def test_a_heading_is_told_what_is_wrong_with_it(heading: str, said: str) -> None:
    (line,) = refused(f"{heading}\n")
    right = "It is: column,reading and, as one likes, set-up, round, on, note."
    assert line == f"line 1 = {heading}: is not the heading of a readings file: {said} {right}"


def test_an_unknown_column_of_the_file_does_not_hide_other_mistakes() -> None:
    lines = refused("column,reading,remarks\nA1,44,dry\nZ9,44,\n")
    assert [line.split(" = ")[0] for line in lines] == ["line 1", "line 3"]


def test_a_missing_heading_is_told_at_the_first_line_that_says_nothing_else() -> None:
    (line,) = refused("unit,feet\nA1,4.04\nA2,4.05\n")
    assert line.startswith("line 2 = A1,4.04: is not the heading of a readings file.")


def test_all_mistakes_of_a_bad_file_in_one_list() -> None:
    """Head, heading and rows: one line each, in the order of the file."""
    text = (
        "unit,feet\n"
        "sense,sideways\n"
        "benchmark,A1\n"
        "column;reading;set-up;round;on;note\n"
        "A1;4,04;1;1;;\n"
        "A2;4.05;1;1;slab;\n"
        "A2;4.06;1;1;;\n"
        "C6;4.06;1;1;;\n"
        "A4;4.06;" + "9" * 21 + ";1;;\n"
        ";4.07;;;;\n"
        "A3;4;;;;07\n"
        "unit;mm;;;;\n"
    )
    assert [line.split(" = ")[0].split(": ")[0] for line in refused(text)] == [
        "line 2",
        "line 3",
        "line 5, column A1",
        "line 6",
        "line 7",
        "line 8",
        "line 9",
        "line 10",
        "line 11",
        "line 12",
    ]


def test_a_word_after_the_heading_is_told_where_it_belongs() -> None:
    (line,) = refused("column,reading\nweather,3\n")
    assert line == "line 2 = weather: is not a column of this job. How the rod was read is said before the heading."


def test_a_point_nobody_knows_may_be_a_benchmark() -> None:
    (line,) = refused("column,reading\nNAIL,44\n")
    assert line.endswith("A benchmark is named before the heading: benchmark,NAIL")


def test_a_column_by_its_grid_name_is_told_its_own() -> None:
    assert refused("column,reading\nC6,44\n") == ["line 2 = C6: is called RIDGE in this job. Write RIDGE."]
    assert read("highest,C6\ncolumn,reading\n").head.highest == "RIDGE"


@pytest.mark.parametrize(
    "rows",
    ["A1,44\nA1,45\n", "A1,44\nA2,45\nA2,45\n", "A1,44\nA2,45\nA3,45\nA2,45\n", "A1,44\nA2,45\nA1,44\nA1,44\n"],
)
def test_a_point_twice_in_a_set_up_but_for_its_check_back(rows: str) -> None:
    (line,) = refused(f"column,reading\n{rows}")
    assert "stands here a second time, after line" in line


def test_a_row_that_is_wrong_still_stands_between_a_point_and_its_check_back() -> None:
    assert len(refused("column,reading\nA1,44\nZ9,45\nA1,44\n")) == 1


def test_a_point_twice_is_told_with_its_round_and_set_up() -> None:
    (line,) = refused("column,reading,set-up,round\nA1,44,2,3\nA2,44,2,3\nA2,44,2,3\n")
    assert line.startswith("line 4 = A2: stands here a second time of round 3, set-up 2, after line 3.")


def test_a_point_once_from_each_set_up_and_in_each_round() -> None:
    rows = "A1,44,1,1\nA2,44,1,1\nA1,44,2,1\nA2,44,2,1\nA1,44,1,2\nA2,44,1,2\nA1,44,1,2\n"
    assert len(read(f"column,reading,set-up,round\n{rows}").sights) == 7


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("A1,44,75", "75: is a number where a note stands. Is the reading 44.75?"),
        ("A1,1143,5", "5: is a number where a note stands. Is the reading 1143.5?"),
        ("A1,3'-8,3/4", "3/4: is a fraction where a note stands. Is the reading 3'-8 3/4?"),
        ("A1,,44", "44: is a number where a note stands. Is it the reading?"),
        ("A1,,3/4", "3/4: is a fraction where a note stands. Is it the reading?"),
    ],
)
def test_a_reading_that_a_comma_has_cut_in_two(row: str, said: str) -> None:
    assert refused(f"column,reading,note\n{row}\n", "mm" if "1143" in row else "in") == [f"line 2 = {said}"]


@pytest.mark.parametrize("row", ["A1,44 3/4,75", "A1,44.5,7/8", "A1,44,no. 75", "A1,44,7/8 mud", 'A1,44",3'])
def test_a_note_is_no_cut_off_reading_where_that_is_whole(row: str) -> None:
    (sight,) = read(f"column,reading,note\n{row}\n").sights
    assert sight.note == row.split(",")[2]


def test_all_notes_of_a_column_are_kept_once_each() -> None:
    text = "column,reading,round,note\nA1,44,1,wet\nA2,,1,in the forms\nA1,44,2,wet\nA1,44,3,dry\nA2,45,2,stripped\n"
    assert read(text).notes == {"A1": "wet; dry", "A2": "in the forms; stripped"}


def test_a_lone_quote_is_not_lost() -> None:
    assert refused('column,reading\nA1,44\n"\n') == ["line 3: has no column name. Each line is: column, reading."]


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
