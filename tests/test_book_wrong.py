"""What is wrong in a field book: every mistake with its line and a way out."""

from __future__ import annotations

import pytest
from test_book import read, refused


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


@pytest.mark.parametrize("rows", ["A1,44\nA2,45\nA2,45\n", "A1,44\nA2,45\nA3,45\nA2,45\n"])
def test_a_point_twice_in_a_set_up_but_for_its_check_back(rows: str) -> None:
    (line,) = refused(f"column,reading\n{rows}")
    told = "stands here a second time, after line 3. Keep one of them; only the first point of a set-up is read back."
    assert line.endswith(told)


@pytest.mark.parametrize(
    ("rows", "line", "since"),
    [
        ("A1,44\nA1,45\n", 3, 2),
        ("A1,44\nA2,45\nA1,44\nA1,44\n", 5, 4),  # read back, and once more
        ("A1,44\nA2,45\nA1,44\nA3,\nA1,44\nA1,44\n", 7, 6),
    ],
)
def test_a_check_back_with_nothing_read_since(rows: str, line: int, since: int) -> None:
    """Of the first point, which may be read again after another seat, as often as one likes."""
    told = f"line {line} = A1: is read again here with nothing read since line {since}. "
    told += "Keep one of them; the first point is read back after other seats."
    assert refused(f"column,reading\n{rows}") == [told]
    text = "column,reading,set-up,round\n" + rows.replace("\n", ",2,3\n")
    assert f"is read again here of round 3, set-up 2 with nothing read since line {since}." in refused(text)[0]
    assert len(read("column,reading\nA1,44\nA2,45\nA1,44\nA3,45\nA1,44\n").sights) == 5


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
        ("A1,3,9 1/8", "9 1/8: is a number where a note stands. Is the reading 3' 9 1/8\"?"),
        ("A1,3',9 1/8\"", '9 1/8": is a number where a note stands. Is the reading 3\' 9 1/8"?'),
        ("A1,3 ',9", "9: is a number where a note stands. Is the reading 3' 9\"?"),
        ("A1,3',3/4", "3/4: is a fraction where a note stands. Is the reading 3' 3/4\"?"),
        ("A1,,9 1/8", "9 1/8: is a number where a note stands. Is it the reading?"),
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


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("451/8", "if a space was missed write 45 1/8, else 56 3/8."),
        ("4511/16", "if a space was missed write 45 11/16 or 451 1/16, else 281 15/16."),
        ("3'-611/16", "if a space was missed write 3'-6 11/16."),
        ("9/8", "if that is meant write 1 1/8."),
    ],
)
def test_a_space_that_was_missed_is_asked_for_first(text: str, right: str) -> None:
    (line,) = refused(f"column,reading\nA1,{text}\n")
    assert line.endswith(right)
