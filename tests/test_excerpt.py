"""A problem with its line: the caret stands under what is meant, whatever the line is made of."""

from __future__ import annotations

import io

import pytest
from streams import Screen

from layouts.problems import Problem
from sheets.excerpt import cells, told


def shown(text: str, place: str, stream: io.TextIOBase | None = None, said: str = "") -> list[str]:
    """The lines of one problem."""
    problem = Problem("job.toml", place, said, "is wrong.", "Do it right.")
    return [line for _, line in told([problem], {"job.toml": text}, stream or io.StringIO())]  # type: ignore[arg-type]


def under(line: str, carets: str) -> str:
    """What the carets stand under, letter by letter as a terminal places them."""
    start, end, at, found = carets.index("^"), len(carets), 0, ""
    for letter in line:
        if start <= at < end and (at > start or cells(letter)):
            found += letter
        at += cells(letter)
    return found


def test_file_line_field_the_line_and_a_caret() -> None:
    assert shown('[job]\n[truss]\npitch = "4/13"\n', "truss.pitch", said="4/13") == [
        "job.toml:3: truss.pitch",
        '  3 | pitch = "4/13"',
        "    |         ^^^^^^",
        "  is wrong. Do it right.",
    ]


@pytest.mark.parametrize(
    "value",
    ["36'", "納屋 the barn", "e\N{COMBINING ACUTE ACCENT}e\N{COMBINING ACUTE ACCENT}", "\N{HORSE}\N{HORSE}", "ﬁ–″"],
)
@pytest.mark.parametrize("before", ["", "\t", " \t ", "  "])
def test_the_caret_stands_under_the_value(value: str, before: str) -> None:
    _, line, carets, _ = shown(f'[building]\r\n{before}width\t= "{value}"  # 納屋\r\n', "building.width")
    assert under(line, carets) == f'"{value}"'
    assert "\t" not in line
    assert "\r" not in line


@pytest.mark.parametrize("before", [0, 20, 200, 5000])
@pytest.mark.parametrize("after", [0, 20, 5000])
@pytest.mark.parametrize("wide", [1, 30, 300])
@pytest.mark.parametrize("letter", ["x", "納"])
def test_a_long_line_is_cut_round_the_caret(before: int, after: int, wide: int, letter: str) -> None:
    text = f"[building]\nfront_columns = 1\n{'a' * (before + 1)}.width = '{letter * wide}' # {letter * after}\n"
    place = "building.width" if before < 0 else f"building.{'a' * (before + 1)}"
    _, line, carets, _ = shown(text.replace(".width", ""), place)
    assert cells(line) <= 80
    assert len(carets) <= 80
    meant = under(line, carets)
    # a name that is no field is what is wrong: its own letters, or as many as there is room for
    assert set(meant) <= {"a", "."}
    assert len(meant) == before + 1 or meant.endswith("...")


@pytest.mark.parametrize("code", ["cp437", "cp1252", "ascii", "utf-8"])
def test_the_caret_holds_where_a_code_page_lacks_letters(code: str) -> None:
    _, line, carets, _ = shown('[job]\nname = "納 ≤ ½ … → x"\n', "job.name", Screen(code))
    assert line.encode(code)
    assert under(line, carets).startswith('"')
    assert under(line, carets).endswith('x"')


def test_what_cannot_be_printed_does_not_reach_the_terminal() -> None:
    _, line, _, _ = shown('[job]\nname = "a\x1b[31m\u202eb"\n', "job.name")
    assert "\x1b" not in line
    assert "\u202e" not in line


def test_without_a_line_it_is_one_sentence() -> None:
    assert shown("", "job.name") == ["job.toml: job.name: is wrong. Do it right."]
    problem = Problem("other.toml", "job.name", "", "is wrong.")
    assert [line for _, line in told([problem], {}, io.StringIO())] == ["other.toml: job.name: is wrong."]


def test_what_the_line_does_not_show_is_told() -> None:
    assert (
        shown("[truss]\nbearing = 144\n", "truss.bearing", said="12'-0\"")[0] == "job.toml:2: truss.bearing = 12'-0\""
    )


def test_in_a_terminal_it_is_wrapped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    problem = Problem(
        "job.toml", "truss.pitch", "", ("is not a pitch. " * 5).strip(), "Write 41 3/8 or 41 3/8 or 41 3/8."
    )
    lines = [line for _, line in told([problem], {"job.toml": "[truss]\npitch = 4\n"}, Screen())]
    assert len(lines) > 5
    assert max(map(len, lines)) <= 40
    assert " ".join(line.strip() for line in lines[3:]) == f"{problem.wrong} {problem.right}"
