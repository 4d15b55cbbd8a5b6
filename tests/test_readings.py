"""Laser readings from a spreadsheet or a notebook: read as they were written, or refused line by line."""

from __future__ import annotations

import pytest
from jobs import METRIC, job
from msgspec.structs import replace

from layouts import book
from layouts.lengths import Style, Unit
from layouts.problems import JobRefused
from layouts.readings import NONE, Readings, of, taken

COLUMNS = ["A1", "A2", "B1", "G1", "G7"]


def read(
    text: str, columns: list[str], unit: Unit, file: str = "readings.csv", called: dict[str, str] | None = None
) -> Readings:
    """What the layout takes of a file, without how it came about."""
    found = of(book.read(text, columns, unit, file, called), job(base=METRIC) if unit == "mm" else job())
    return replace(found, survey=None)


def values(text: str, unit: Unit = "in") -> dict[str, float]:
    return dict(read(text, COLUMNS, unit).values)


def refused(text: str, unit: Unit = "in") -> list[str]:
    with pytest.raises(JobRefused) as caught:
        read(text, COLUMNS, unit)
    return [str(p) for p in caught.value.problems]


def test_a_plain_file() -> None:
    text = "column,reading,note\nA1,44 3/4,\nA2,45 1/8,mud on the rod\n"
    assert read(text, COLUMNS, "in") == Readings({"A1": 44.75, "A2": 45.125}, {"A2": "mud on the rod"})


def test_order_of_the_file_is_kept() -> None:
    assert list(values("column,reading\nG7,45\nA1,44\nB1,43\n")) == ["G7", "A1", "B1"]


@pytest.mark.parametrize(
    "text",
    [
        "column,reading\nA1,44 3/4\n",
        "column;reading\nA1;44 3/4\n",
        "column\treading\nA1\t44 3/4\n",
        "\ufeffcolumn,reading\r\nA1,44 3/4\r\n",
        "Column , READING\n A1 , 44 3/4 \n",
        '"column","reading"\n"A1","44 3/4"\n',
        "reading,column\n44 3/4,A1\n",
        "note,column,reading\n,A1,44 3/4\n",
        "# Tuesday, cloudy\n\ncolumn,reading\n# second set-up\nA1,44 3/4\n\n",
        "column,reading\nA1,44 3/4,,\n",
        'column,reading\nA1,44 3/4"\n',
        'column,reading\nA1,"44 3/4"""\n',
        "column,reading\nA1,3'-8 3/4\n",
        "column,reading\nA1,44.75",
    ],
)
def test_one_reading_in_many_hands(text: str) -> None:
    assert values(text) == {"A1": 44.75}


def test_units() -> None:
    assert values("column,reading\nA1,1143\n", "mm") == {"A1": pytest.approx(45, abs=1e-12)}  # 1143 / 25.4
    assert values("column,reading\nA1,1143 mm\n") == {"A1": pytest.approx(45, abs=1e-12)}
    assert values("column,reading\nA1,3.75 ft\n") == {"A1": 45}  # tenths of a foot


def test_a_comma_inside_quotes_is_part_of_the_note() -> None:
    assert read('column,reading,note\nA1,44,"wet, windy"\n', COLUMNS, "in").notes == {"A1": "wet, windy"}


def test_a_long_note_is_cut() -> None:
    note = read("column,reading,note\nA1,44," + "x" * 500, COLUMNS, "in").notes["A1"]
    assert len(note) == 60


def test_a_note_without_a_reading_is_kept_and_nothing_is_read() -> None:
    found = read("column,reading,note\nA1,,form still in\nA2,\n", COLUMNS, "in")
    assert found == Readings({}, {"A1": "form still in"})


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing yet\n", "column,reading\n", "\ufeff"])
def test_nothing_read_yet(text: str) -> None:
    assert read(text, COLUMNS, "in") == NONE


def test_all_mistakes_come_in_one_run_with_their_lines() -> None:
    text = (
        "column,reading\n"
        "A1,44\n"
        "A1,45\n"  # a second time
        "Z9,45\n"  # no such column
        "A2,-3\n"
        "B1,nan\n"
        ",44\n"
        "G1,31'\n"
    )
    found = refused(text)
    assert [line.split(":")[1].split("=")[0].strip() for line in found] == [
        "line 3",
        "line 4",
        "line 5, column A2",
        "line 6, column B1",
        "line 7",
        "line 8, column G1",
    ]
    assert "is read again here" in found[0]
    assert "is not a column of this job" in found[1]
    assert "is above the beam" in found[2]
    assert "longer than any rod" in found[5]


def test_a_row_with_too_many_entries_does_not_hide_the_other_mistakes() -> None:
    """A decimal comma makes such a row."""
    found = refused("column,reading\nA1,44,5\nZ9,45\nB1,nan\n")
    assert [line.split(" = ")[0] for line in found] == [
        "readings.csv: line 2",
        "readings.csv: line 3",
        "readings.csv: line 4, column B1",
    ]


@pytest.mark.parametrize("heading", ["A1,44", "column,height", "column,reading,reading", "reading", "column,reading,x"])
def test_a_missing_heading_is_refused_with_the_right_one(heading: str) -> None:
    (line,) = refused(heading + "\nA1,45\n")
    assert "line 1" in line
    assert "column,reading" in line


def test_the_heading_may_stand_further_down_and_is_named_there() -> None:
    (line,) = refused("# a\n\n# b\nColumns,Readings\nA1,45\n")
    assert "line 4" in line


@pytest.mark.parametrize("typed", ["a1", "A-1", "A1."])
def test_a_slip_in_a_name_is_told_the_right_name(typed: str) -> None:
    (line,) = refused(f"column,reading\n{typed},45\n")
    assert "Did you mean A1?" in line


def test_limits_of_a_rod() -> None:
    assert values("column,reading\nA1,30'\n") == {"A1": 360}
    assert "longer than any rod" in refused("column,reading\nA1,30'-0 1/16\n")[0]


@pytest.mark.parametrize(
    "text",
    [
        "column,reading\nA1," + "4" * 200_000,
        "column,reading\nA1," + "4" * 2_000_000,
        "column,reading\n" + "A1,44\n" * 6000,
        "column,reading\nA1,44\x00\n",
        'column,reading\nA1,"44\nA2,45\n"',
        "column,reading\n" + '"' * 9999,
    ],
    ids=["long cell", "huge", "rows", "nul", "open quote", "quotes"],
)
def test_files_made_to_hurt_are_refused_in_words(text: str) -> None:
    assert all(len(line) < 400 for line in refused(text))


def test_the_file_is_named() -> None:
    with pytest.raises(JobRefused, match=r"^shots\.csv: line 2"):
        read("column,reading\nZ9,45\n", COLUMNS, "in", "shots.csv")


def test_a_fraction_that_a_comma_has_cut_off_is_questioned() -> None:
    (line,) = refused("column,reading,note\nA1,52,7/8,\n")
    assert line == "readings.csv: line 2 = 7/8: is a fraction where a note stands. Is the reading 52 7/8?"


def test_a_grid_name_the_crew_has_renamed_is_told_and_not_guessed() -> None:
    with pytest.raises(JobRefused) as found:
        read("column,reading\nC6,45\n", ["A1", "E6", "RIDGE"], "in", called={"C6": "RIDGE"})
    assert str(found.value) == "readings.csv: line 2 = C6: is called RIDGE in this job. Write RIDGE."


def test_of_two_grid_names_none_is_guessed() -> None:
    (line,) = refused("column,reading\nC9,45\n")
    assert "Did you mean" not in line


def test_a_second_line_for_a_column_names_the_first() -> None:
    (line,) = refused("column,reading\nA1,45\nA1,46\n")
    assert "is read again here with nothing read since line 2." in line


def shown(head: str, reading: str, style: Style, more: float = 0.0) -> str:
    """A reading as it is told to people, and *more* inches down from it."""
    found = of(book.read(f"{head}column;reading\nA1;{reading}", COLUMNS, "in"), job())
    return taken(found, found.values["A1"] + more, style)


@pytest.mark.parametrize(
    ("head", "reading", "text"),
    [
        ("", "53 1/16", '53 1/16"'),
        ("", "53 1/32", '53 1/32"'),
        ("", "53.03", '53.03"'),
        ("unit,feet\n", "4.04", '4.04 ft (48.48")'),
        ("unit,feet\n", "4", '4 ft (48")'),
        ("unit,mm\n", "1270", '1270 mm (50")'),
        ("unit,mm\n", "1133", '1133 mm (44.606")'),  # 1133/25.4 = 44.60630
        ("unit,mm\nsense,up\n", "-6.35", '-6.35 mm (1/4")'),
        ("sense,up\n", "-1/4", '-1/4"'),
        ("sense,up\n", "+1/4", '1/4"'),
        ("sense,up\n", "0", '0"'),
        ("unit,feet\nsense,up\n", "-0.25", '-0.25 ft (3")'),
    ],
)
def test_a_reading_is_told_as_the_rod_says_it(head: str, reading: str, text: str) -> None:
    assert shown(head, reading, Style("in")) == text


@pytest.mark.parametrize(
    ("head", "reading", "text"),
    [
        ("unit,inches\n", "46 3/8", '46 3/8" (1177.925 mm)'),  # 46.375 x 25.4
        ("unit,inches\n", "46 3/32", '46 3/32" (1170.781 mm)'),  # 46.09375 x 25.4 = 1170.78125
        ("unit,inches\nsense,up\n", "-1/4", '-1/4" (6.35 mm)'),
        ("unit,mm\n", "1270", "1270 mm"),
        ("", "50", "1270 mm"),  # of a job whose readings do not say their unit
    ],
)
def test_a_reading_in_inches_for_a_metric_job(head: str, reading: str, text: str) -> None:
    assert shown(head, reading, Style("mm")) == text


@pytest.mark.parametrize(
    ("head", "reading", "more", "text"),
    [
        ("", "45", 0.0004, '45"'),
        ("", "45", 1 / 3, '45.333"'),
        ("sense,up\n", "0", 0.0004, '0"'),
        ("sense,up\n", "0", 1e-12, '0"'),
        ("unit,feet\n", "4", 0.0004, '4 ft (48")'),
    ],
)
def test_what_least_squares_makes_of_a_reading_has_no_loose_point_or_sign(
    head: str, reading: str, more: float, text: str
) -> None:
    assert shown(head, reading, Style("in"), more) == text


def test_a_reading_in_a_metric_job() -> None:
    assert shown("unit,mm\n", "1143", Style("mm")) == "1143 mm"
    assert shown("unit,mm\n", "1143.5", Style("mm")) == "1143.5 mm"
    assert shown("unit,mm\n", "1143", Style("mm"), 1e-5) == "1143 mm"
