"""Lines added to a file of readings and changed in it: all others stay as they stood, to the byte."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts import book
from layouts.book_lines import Row, added, begun, changed, has_heading, named, rows

NAMES = ["A1", "A2", "A3", "B7", "#4", '"E"']
COMMA = "# Tuesday\nunit,inches\n\ncolumn,reading,note\nA1,44 3/4,\nA2,,mind the hole\n# end\n"
FILES = {
    "comma": COMMA,
    "semicolon": COMMA.replace(",", ";"),
    "tab": COMMA.replace(",", "\t"),
    "windows": COMMA.replace("\n", "\r\n"),
    "old mac": COMMA.replace("\n", "\r"),
    "no end": COMMA.removesuffix("\n# end\n"),
    "empty lines": COMMA + "\n \n\n",
    "spaces and capitals": COMMA.replace("column,reading,note", " Column , READING ,Note "),
    "other order": "note,reading,column\n,44 3/4,A1\nmind the hole,,A2\n",
    "quotes": COMMA.replace("column,reading,note", '"column","reading","note"').replace(
        "A1,44 3/4,", '"A1","44 3/4",""'
    ),
    "spreadsheet": "unit,inches,\ncolumn,reading,note\nA1,44 3/4,\nA2,,mind the hole\n,,\n",
    "mark of order": "\ufeff" + COMMA,
    "all columns": "column,reading,set-up,round,on,note\nA1,44 3/4,1,1,seat,\nA2,,,,,mind the hole\n",
}


def read(text: str) -> list[tuple[str, str, str, str, str]]:
    """The readings of a file: point, text, set-up, round, note."""
    found = book.read(text, NAMES, "in")
    return [(s.point, s.text, s.setup, s.round, s.note) for s in found.sights]


@pytest.mark.parametrize("name", FILES)
def test_a_line_more_leaves_every_other_line(name: str) -> None:
    text = FILES[name]
    new = added(text, Row(0, "A3", "45 1/8", "1", "1", "wet"))
    before, after = text.splitlines(keepends=True), new.splitlines(keepends=True)
    (line,) = [one for one in after if "A3" in one]
    after.remove(line)
    assert [one.rstrip("\r\n") for one in after] == [one.rstrip("\r\n") for one in before]
    assert "".join(after).startswith(text.rstrip())
    assert read(new) == [("A1", "44 3/4", "1", "1", ""), ("A3", "45 1/8", "1", "1", "wet")]


@pytest.mark.parametrize("name", FILES)
def test_a_line_filled_leaves_every_other_line(name: str) -> None:
    text = FILES[name]
    (row,) = [r for r in rows(text) if r.point == "A2"]
    assert (row.reading, row.note) == ("", "mind the hole")
    new = changed(text, Row(row.at, "A2", "45", "1", "1", row.note))
    before, after = text.splitlines(keepends=True), new.splitlines(keepends=True)
    assert [i for i, (a, b) in enumerate(zip(before, after, strict=True)) if a != b] == [row.at]
    assert after[row.at].endswith(before[row.at][len(before[row.at].rstrip("\r\n")) :])
    assert read(new) == [("A1", "44 3/4", "1", "1", ""), ("A2", "45", "1", "1", "mind the hole")]


@pytest.mark.parametrize("name", FILES)
def test_set_ups_and_rounds_widen_the_heading_alone(name: str) -> None:
    text = FILES[name]
    new = added(text, Row(0, "A1", "46", "2", "noon", ""))
    assert read(new) == [("A1", "44 3/4", "1", "1", ""), ("A1", "46", "2", "noon", "")]
    after = [line for line in new.splitlines() if "noon" not in line]
    changed_lines = [one for one, other in zip(text.splitlines(), after, strict=True) if one != other]
    assert all("reading" in line.lower() for line in changed_lines)  # the heading, where it has not these columns


@pytest.mark.parametrize("name", FILES)
def test_a_benchmark_goes_before_the_heading(name: str) -> None:
    new = named(FILES[name], "BM1", "nail, in; the\tpole")
    assert dict(book.read(new, NAMES, "in").head.benchmarks) == {"BM1": "nail in the pole"}
    assert read(new) == read(FILES[name])


@pytest.mark.parametrize("text", ["", "\n", "# mine\n", "# mine", "# mine\r\n", "weather,windy\n"])
def test_a_file_is_begun_behind_what_stands_there(text: str) -> None:
    assert not has_heading(text)
    new = begun(text, [("unit", "feet"), ("read on", "seat")])
    assert new.startswith(text)
    assert has_heading(new)
    assert book.read(new, NAMES, "in").head.unit == "feet"


def test_words_go_before_a_heading_that_is_there() -> None:
    assert begun("# a\ncolumn;reading\nA1;\n", [("unit", "mm")]) == "# a\nunit;mm\ncolumn;reading\nA1;\n"


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("point", NAMES)
def test_names_and_notes_that_look_like_something_else(mark: str, point: str) -> None:
    head = mark.join(["column", "reading", "note"]) + "\n"
    note = f'a{mark}b "c" #'
    new = added(head, Row(0, point, '45 1/8"', "1", "1", note))
    assert read(new) == [(point, '45 1/8"', "1", "1", note)]


words = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), max_size=12)


@given(note=st.lists(words, max_size=3).map(" ".join).map(str.strip), mark=st.sampled_from(",;\t"))
def test_any_note_comes_back(note: str, mark: str) -> None:
    new = added(mark.join(["column", "reading"]) + "\n", Row(0, "A1", "45 1/8", "1", "1", note))
    (row,) = rows(new)
    assert (row.point, row.reading, row.note) == ("A1", "45 1/8", note)
    assert changed(new, row) == new


def test_rows_without_a_heading_are_none() -> None:
    assert rows("# nothing\n") == ()
    with pytest.raises(ValueError, match="no heading"):
        added("", Row(0, "A1", "45", "1", "1", ""))
