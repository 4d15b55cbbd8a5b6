"""The line of a file that a problem stands in: found by our own scan, held against what ``tomllib`` reads there."""

from __future__ import annotations

import tomllib
from pathlib import Path

import jobs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts import job as job_reader
from layouts.fields import PARTS
from layouts.problems import JobRefused, Problem
from layouts.where import find

TEXT = '''# [building] is told below
[job]
name = "Barn # 2"   # width = 3
place = """
[building]
width = "9"
"""
[ building ]  # here
width="36'"
front_columns = [
  "10'", # [x]
  "20'",
]
bays = [ 10, "]", 12 ]
lenght = 3
[[opening]]
name = 'D1'
[[opening]]
name = "D2"
\tat =\t"12'-6"   # to here
[names]
A1 = "N1"
"B 1" = "N2"
"\\u0041.2" = 'N3'
'''


def meant(place: str, text: str = TEXT, said: str = "", wrong: str = "is wrong.") -> tuple[int, str] | None:
    """The line, and the letters of it that are meant."""
    found = find(Problem("file", place, said, wrong), text)
    return None if found is None else (found.line, found.text[found.start : found.start + found.width])


def test_the_last_line_needs_no_end() -> None:
    assert meant("job.name", '[job]\nname = "B"') == (2, '"B"')


@pytest.mark.parametrize(
    ("place", "line", "letters"),
    [
        ("job.name", 3, '"Barn # 2"'),
        ("job.place", 4, '"""'),
        ("building.width", 9, '"36\'"'),
        ("building.front_columns", 10, "["),
        ("building.bays", 14, '[ 10, "]", 12 ]'),
        ("building.lenght", 15, "lenght"),  # no field: its name is wrong
        ("opening 1.name", 17, "'D1'"),
        ("opening 2.at", 20, '"12\'-6"'),
        ("opening 1.at", 16, "[[opening]]"),  # not there: the heading of its part
        ("opening 2", 18, "[[opening]]"),
        ("opening", 16, "[[opening]]"),
        ("building.length", 8, "[ building ]"),
        ("names.A1", 22, 'A1 = "N1"'),
        ("names.B 1", 23, '"B 1" = "N2"'),
        ("names.A.2", 24, "\"\\u0041.2\" = 'N3'"),
    ],
)
def test_a_place_of_a_job_has_its_line(place: str, line: int, letters: str) -> None:
    assert meant(place) == (line, letters)
    assert meant(place, TEXT.replace("\n", "\r\n")) == (line, letters)


@pytest.mark.parametrize("place", ["truss.heel", "trus", "opening 3.at", "", "line 90", "column Z9"])
def test_what_is_not_there_has_none(place: str) -> None:
    found = meant(place)
    assert found is None or (place == "opening 3.at" and found == (16, "[[opening]]"))


@pytest.mark.parametrize(
    ("text", "place", "letters"),
    [
        ("building.width = 3\n", "building.width", "3"),
        ("building = { length = [1, {a = 2}], width = '3' }\n", "building.width", "'3'"),
        ("opening = [ {name = 'a'}, {name = 'b', at = 3} ]\n", "opening 2.at", "3"),
        ("opening = 3\n", "opening", "3"),
        ("gable = 3\n", "gable", "gable"),
        ("[[printer]]\nalong = 3\n", "printer 1, along", "along = 3"),
        ("[building]\nwidth = 3", "building.width", "3"),
    ],
)
def test_toml_may_be_written_in_many_ways(text: str, place: str, letters: str) -> None:
    found = meant(place, text)
    assert found is not None
    assert found[1] == letters


@pytest.mark.parametrize("field", [f"{name}.{key}" for name, part in PARTS.items() for key in part.specs])
def test_every_field_is_found_by_the_value_it_has(field: str) -> None:
    """Each field set to a number that stands nowhere else."""
    text = jobs.job_text({field: 987654})
    found = meant(field, text)
    assert found is not None
    assert found[1] == "987654"
    assert text.splitlines()[found[0] - 1].startswith(field.partition(".")[2] + " = ")


@given(st.dictionaries(st.text(min_size=1, max_size=6), st.text(max_size=12), min_size=1, max_size=5))
def test_names_and_texts_of_any_letters_are_found_as_tomllib_reads_them(names: dict[str, str]) -> None:
    text = "[names]\n" + "".join(
        f"{jobs.toml_value(key)} = {jobs.toml_value(value)} # {i}\n" for i, (key, value) in enumerate(names.items(), 2)
    )
    try:
        read = tomllib.loads(text)["names"]
    except tomllib.TOMLDecodeError:
        return  # a half of a surrogate pair
    for i, key in enumerate(read, 2):
        found = meant(f"names.{key}", text)
        assert found is not None
        assert found[0] == i


@given(st.text(alphabet="ab[]{}=.,'\"\\#\n \t1", max_size=60), st.sampled_from(["a.b", "a", "opening 1.a", "names.a"]))
def test_no_text_makes_it_fail(text: str, place: str) -> None:
    found = find(Problem("file", place, "", ""), text)
    assert found is None or 1 <= found.line <= text.count("\n") + 1


@pytest.mark.parametrize("text", ["[" * 5000, "a = " + "[" * 5000, "a" + ".a" * 5000 + " = 1", 'a = "' + "\\" * 5001])
def test_nor_do_files_made_to_hurt(text: str) -> None:
    where = find(Problem("file", "a.b", "", ""), text)
    assert where is None or where.line >= 1


# --- where TOML itself is wrong ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "line", "letters", "says"),
    [
        ('[job]\nname = "Barn\n', 2, "", "a text in quotes does not end"),
        ("[job]\nname 3\n", 2, "3", "comes an = sign"),
        ("[job]\nname = barn\n", 2, "barn", "neither text in quotes nor a number"),
        ('[a]\nwidth = "36\' 6""\n', 2, '"', "a quote too many"),
        ("a = 1\na = 2\nb = 3\n", 2, "", "a second time"),
        ("[a]\n[b]\n[a]\n", 3, "]", "under one heading"),
        ("[job\n", 1, "", "a heading ends with ]"),
        ("a = [1, 2\n", 1, "", "a ] at its end"),
        ("a = [1 2]\n", 1, "2", "a comma between"),
        ('[job]\r\nname = "c:\\barn\\x"\r\n', 2, "", "backslash"),
        ("[job]\nname =\n", 2, "", "neither text"),
    ],
)
def test_broken_toml_is_told_in_plain_words_with_its_line(text: str, line: int, letters: str, says: str) -> None:
    with pytest.raises(JobRefused) as refused:
        job_reader.read(text)
    (problem,) = refused.value.problems
    found = find(problem, text)
    assert says in problem.wrong
    assert found is not None
    assert found.line == line
    assert found.text[found.start : found.start + found.width].rstrip().startswith(letters)


# --- readings ---------------------------------------------------------------------------------------------------------

CSV = 'unit,inches\ncolumn,reading,note\n\nA1, 41 3/8 ,\nA2;41 3/7;x\nA1,41 3/8,check\n12,"44 x",bad \N{HORSE}\n'


@pytest.mark.parametrize(
    ("place", "said", "line", "letters"),
    [
        ("line 5, column A2", "41 3/7", 5, "41 3/7"),
        ("line 4", "A1", 4, "A1"),
        ("line 4, A1", "41 3/8", 4, "41 3/8"),
        ("line 6, round 2", "", 6, "A1,41 3/8,check"),
        ("line 7, column 12", "44 x", 7, "44 x"),  # a crew may call its columns by figures
        ("column 12", "bad \N{HORSE}", 7, "bad \N{HORSE}"),
        ("column A1", "check", 6, "check"),
        ("line 2", "column,reading,note", 2, "column,reading,note"),
    ],
)
def test_a_place_of_the_readings_has_its_cell(place: str, said: str, line: int, letters: str) -> None:
    assert meant(place, CSV, said) == (line, letters)


def test_the_demo_jobs_are_scanned_whole() -> None:
    for path in (Path(__file__).parents[1] / "gallery").glob("*/job.toml"):
        text = path.read_text(encoding="utf-8")
        for part, fields in tomllib.loads(text).items():
            for number, table in enumerate(fields if isinstance(fields, list) else [fields], 1):
                for key in table:
                    found = meant(f"{part} {number}.{key}" if isinstance(fields, list) else f"{part}.{key}", text)
                    assert found is not None
                    assert text.splitlines()[found[0] - 1].lstrip('"').startswith(key)
