"""Files to a building: whatever a spreadsheet writes is read, what is wrong is told in one list, no byte is touched."""

from __future__ import annotations

import codecs
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import jobs
import pytest

from layouts.building import Building
from layouts.problems import JobRefused
from sheets.load import MOST_BYTES, load


def job(folder: Path, changes: Mapping[str, Any] | None = None) -> Path:
    path = folder / "barn.toml"
    path.write_text(jobs.job_text(changes), encoding="utf-8")
    return path


def built(folder: Path, readings: str | bytes, changes: Mapping[str, Any] | None = None) -> Building:
    path = job(folder, changes)
    raw = readings if isinstance(readings, bytes) else readings.encode()
    path.with_suffix(".csv").write_bytes(raw)
    return load(path)


def refused(folder: Path, readings: str | bytes, changes: Mapping[str, Any] | None = None) -> list[str]:
    with pytest.raises(JobRefused) as caught:
        built(folder, readings, changes)
    return [str(p) for p in caught.value.problems]


# --- what a spreadsheet writes ----------------------------------------------------------------------------------------

TEXT = "column,reading,note\r\nA1,44½,Gefälle\r\nA2,45 1/8,\r\nA3,45,\r\nA1,44 1/2,\r\n"
CODES = {
    "UTF-8": TEXT.encode(),
    "UTF-8 with its mark": TEXT.encode("utf-8-sig"),
    "UTF-16": codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"),
    "UTF-16, the other way": codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"),
    "UTF-16 without its mark": TEXT.encode("utf-16-le"),
    "UTF-16, the other way, without its mark": TEXT.encode("utf-16-be"),
    "Latin-1": TEXT.encode("latin-1"),
    "of Windows": TEXT.encode("cp1252"),
}
MARKS = {"commas": ",", "semicolons": ";", "tabs": "\t"}
ENDS = {"CRLF": "\r\n", "LF": "\n", "CR": "\r"}


@pytest.mark.parametrize("code", list(CODES))
def test_every_code_a_spreadsheet_writes(code: str, tmp_path: Path) -> None:
    found = built(tmp_path, CODES[code]).readings
    assert found.values == {"A1": 44.5, "A2": 45.125, "A3": 45}
    assert found.notes == {"A1": "Gefälle"}


@pytest.mark.parametrize("mark", list(MARKS))
@pytest.mark.parametrize("end", list(ENDS))
def test_every_mark_and_every_end_of_a_line(mark: str, end: str, tmp_path: Path) -> None:
    found = built(tmp_path, TEXT.replace(",", MARKS[mark]).replace("\r\n", ENDS[end]))
    assert found.readings.values == {"A1": 44.5, "A2": 45.125, "A3": 45}


def test_a_minus_and_a_note_of_windows(tmp_path: Path) -> None:
    found = built(tmp_path, b"sense,up\ncolumn,reading,note\nA1,\x961/4,wet \x96 windy\nA2,+1/4,\n")
    assert found.readings.values == {"A1": 0.25, "A2": -0.25}
    assert found.readings.notes == {"A1": "wet – windy"}


WORKBOOK = "is a workbook, not a text file. Save it from the spreadsheet as CSV."
LARGE = "is larger than any building's readings. At most 5000 lines."


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"PK\x03\x04\x14\x00\x06\x00", WORKBOOK),
        (b"\xd0\xcf\x11\xe0\xa1\xb1", WORKBOOK),
        (codecs.BOM_UTF16_LE + b"a", "byte 2: is not UTF-8 text. Save it as UTF-8 and try again."),
        (b"column,reading\n" * (MOST_BYTES // 15 + 2), LARGE),
        (b"\xff" * (MOST_BYTES + 99), LARGE),
        (b"column,reading\n" + b"A1,44\n" * 5000, LARGE),
    ],
    ids=["workbook", "old workbook", "half a letter", "large", "no text", "lines"],
)
def test_a_file_that_is_no_text(raw: bytes, said: str, tmp_path: Path) -> None:
    assert refused(tmp_path, raw) == [f"barn.csv: {said}"]


def test_a_picture_is_refused_in_words(tmp_path: Path) -> None:
    lines = refused(tmp_path, b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00" * 20)
    assert len(lines) == 1
    assert "is not the heading of a readings file." in lines[0]
    assert lines[0].isprintable()


# --- no byte is touched -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("code", list(CODES))
def test_no_byte_is_touched(code: str, tmp_path: Path) -> None:
    path = job(tmp_path)
    readings = path.with_suffix(".csv")
    readings.write_bytes(CODES[code])
    readings.chmod(0o444)
    was = {p.name: (p.read_bytes(), p.stat().st_mtime_ns) for p in tmp_path.iterdir()}
    load(path)
    assert {p.name: (p.read_bytes(), p.stat().st_mtime_ns) for p in tmp_path.iterdir()} == was


def test_no_byte_of_a_refused_file_is_touched(tmp_path: Path) -> None:
    raw = b"column;reading\r\nA1;44,5\r\nZ9;\xff\r\nA1;45\r\n"
    assert len(refused(tmp_path, raw)) == 2
    assert (tmp_path / "barn.csv").read_bytes() == raw
    assert sorted(p.name for p in tmp_path.iterdir()) == ["barn.csv", "barn.toml"]


# --- which file -------------------------------------------------------------------------------------------------------


def test_no_file_is_no_readings(tmp_path: Path) -> None:
    found = load(job(tmp_path))
    assert found.readings.values == {}
    assert "No readings" in found.warnings[0]


def test_a_file_that_is_named_and_not_there(tmp_path: Path) -> None:
    with pytest.raises(JobRefused, match=r"friday\.csv: is not there\. Check the name of the file\.$"):
        load(job(tmp_path), tmp_path / "friday.csv")


def test_a_folder_in_the_place_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "barn.csv").mkdir()
    with pytest.raises(JobRefused, match=r"barn\.csv: cannot be read"):
        load(job(tmp_path))


def test_a_file_that_is_named(tmp_path: Path) -> None:
    (tmp_path / "friday.csv").write_text("column,reading\nA1,44\n", encoding="utf-8")
    assert load(job(tmp_path), tmp_path / "friday.csv").readings.values == {"A1": 44}


# --- what comes of it -------------------------------------------------------------------------------------------------

INCHES = "column,reading\nA1,44 1/2\nA2,45 1/8\nA3,43 7/8\nA1,44 1/2\n"  # 44.5, 45.125 and 43.875
SAME = {
    "inches": INCHES,
    "decimal inches": "column,reading\nA1,44.5\nA2,45.125\nA3,43.875\nA1,44.5\n",
    "feet": "unit,feet\ncolumn,reading\nA1,3.708333333333\nA2,3.760416666667\nA3,3.65625\nA1,3.708333333333\n",
    "mm": "unit,mm\ncolumn,reading\nA1,1130.3\nA2,1146.175\nA3,1114.425\nA1,1130.3\n",
    "two set-ups": "column,reading,set-up\nA1,44 1/2,1\nA2,45 1/8,1\nA1,44 1/2,1\nA1,50,2\nA3,49 3/8,2\nA1,50,2\n",
    "two rounds": INCHES.replace("reading", "reading,round") + "A1,40,2\nA2,40 5/8,2\nA3,39 3/8,2\nA1,40,2\n",
}


@pytest.mark.parametrize("way", list(SAME))
def test_the_same_seats_make_the_same_building_however_they_were_read(way: str, tmp_path: Path) -> None:
    """Offsets from a line reading of 42 1/2: 2, 2 5/8, 1 3/8."""
    found = built(tmp_path, SAME[way], {"grade.line": "42 1/2"})
    assert found.grade.offsets == pytest.approx({"A1": 2, "A2": 2.625, "A3": 1.375}, abs=1e-9)
    assert not any("IS THIS RIGHT" in w or "read back" in w for w in found.warnings)


def test_concrete_and_a_rod_that_reads_higher_make_the_same_building(tmp_path: Path) -> None:
    """From a zero 100 below the beam, on concrete 3/8 below the seats: 100 - 44 1/2 - 3/8 = 55 1/8, 54 1/2, 55 3/4.
    The seat of the line would read 100 - 42 1/2 = 57 1/2 there; readings are told down from that rod's own zero."""
    text = "sense,up\nread on,concrete\nplate,3/8\ncolumn,reading\nA1,55 1/8\nA2,54 1/2\nA3,55 3/4\nA1,55 1/8\n"
    found = built(tmp_path, text, {"grade.line": "57 1/2"})
    assert found.grade.offsets == {"A1": 2, "A2": 2.625, "A3": 1.375}


# --- one list ---------------------------------------------------------------------------------------------------------


def test_what_the_file_has_left_unsaid_stops_it(tmp_path: Path) -> None:
    text = "column,reading\nA1,3.71\nA2,3.76\nA3,3.66\nA1,3.71\n"
    (line,) = refused(tmp_path, text)
    assert line.startswith("barn.csv: The readings are taken as inches, and look like feet: A2 3.76 would be")
    said = built(tmp_path, "unit,inches\n" + text).warnings
    assert any(w.startswith("IS THIS RIGHT? The readings are taken as inches, and look like feet") for w in said)
    assert not any("IS THIS RIGHT?" in w for w in built(tmp_path, "unit,feet\n" + text).warnings)


def test_a_doubtful_unit_a_loop_and_a_note_are_told_together(tmp_path: Path) -> None:
    """0.2 off in feet is 2 3/8 in; taken as inches 3/16, which is too much too."""
    text = "column,reading,note\nA1,3.71,🐎 in the way\nA2,3.76,\nA3,3.66,\nA1,3.91,\n"
    note, unit, loop = refused(tmp_path, text)
    assert note.startswith("barn.csv: column A1 = 🐎 in the way: has letters that the fonts cannot print")
    assert "look like feet" in unit
    assert loop.startswith('barn.csv: line 5, A1 = 3.91: round 1: A1 read again is 3/16" off, 1/8" allowed: refused.')


def test_words_of_the_head_that_cannot_be_printed(tmp_path: Path) -> None:
    lines = refused(tmp_path, "benchmark,BM,🌲\nweather,☔\ncolumn,reading,set-up,round\nA1,44,🐎,🐄\n")
    assert [line.split(" = ")[0] for line in lines] == [
        "barn.csv: benchmark BM",
        "barn.csv: weather",
        "barn.csv: line 4, set-up",
        "barn.csv: line 4, round",
    ]


def test_names_that_the_crew_has_changed(tmp_path: Path) -> None:
    names = {"names.C1": "RIDGE"}
    assert built(tmp_path, "column,reading\nRIDGE,44\n", names).readings.values == {"RIDGE": 44}
    assert refused(tmp_path, "column,reading\nC1,44\n", names) == [
        "barn.csv: line 2 = C1: is called RIDGE in this job. Write RIDGE."
    ]


def test_a_file_without_readings_yet_says_how_it_will_be_read(tmp_path: Path) -> None:
    assert built(tmp_path, "unit,feet\nhighest,A1\n").readings.values == {}
