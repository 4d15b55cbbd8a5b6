"""What commands look like in a terminal, and that they stay plain without one."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import jobs
import opened
import pytest
from jobs import build
from printed import demo_job
from streams import ESCAPES, Screen
from typer.testing import CliRunner

from layouts.costs import Cost, dearest_first, each
from sheets import cli, cli_run, report, report_tables, screen, terminal

ROOT = Path(__file__).parents[1]


@pytest.fixture
def wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal that takes colour, 80 letters wide."""
    for name in ("NO_COLOR", "FORCE_COLOR", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("TERM", "xterm-256color")


# --- signs that a code page lacks -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("code", "text", "seen"),
    [
        ("ascii", "12′-9½″ → ≤ 5 – 6 · x…", "12'-9 1/2\" -> <= 5 - 6 - x..."),
        ("cp437", "12′-9½″ → ≤ 5 – 6 · x…", "12'-9½\" -> ≤ 5 - 6 · x..."),
        ("cp1252", "12′-9½″ → ≤ 5 – 6 · x…", "12'-9½\" -> <= 5 – 6 · x…"),
        ("utf-8", "12′-9½″ → ≤ 5 – 6 · x…", "12′-9½″ → ≤ 5 – 6 · x…"),
        ("cp437", "Zażółć 納屋 35° ±", "Za?ó?? ?? 35° ±"),
        ("ascii", "35 lb/ft³, 3×4", "35 lb/ft3, 3x4"),
    ],
)
def test_a_code_page_gets_plain_signs(code: str, text: str, seen: str) -> None:
    stream = Screen(code)
    stream.reconfigure(errors=terminal.STAND_IN)
    assert terminal.shown(text, stream) == seen
    print(text, file=stream)
    assert stream.raw_text == f"{seen}\n"


# --- wrapping ---------------------------------------------------------------------------------------------------------


def test_a_number_is_never_parted() -> None:
    text = "A1: the grade line is 11'-9 11/16\" below 44 3/4 and 250 mm, so 1 1/2 is wanted there."
    for across in range(20, 60):
        lines = terminal.wrapped(text, across, "  ")
        assert max(map(len, lines)) <= across
        assert " ".join(line.strip() for line in lines) == text
        for number in ("11'-9 11/16\"", "44 3/4", "250 mm", "1 1/2"):
            assert sum(number in line for line in lines) == 1, (across, number)


def test_without_a_terminal_nothing_is_wrapped() -> None:
    assert terminal.width(io.StringIO()) == 0
    assert terminal.wrapped("long " * 100, 0) == ["long " * 100]


# --- tables -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("across", [80, 90, 100, 200])
def test_tables_fit_and_hold_every_number(wide: None, monkeypatch: pytest.MonkeyPatch, across: int) -> None:
    monkeypatch.setenv("COLUMNS", str(across))
    building = build({"wainscot.nailer": "2x6"}, {"A1": "44 15/16", "A2": "45 1/16", "C1": "45 13/16", "G7": "44"})
    for table in report_tables.tables(building):
        stream = Screen()
        screen.grid(table, stream)
        assert max(map(len, stream.lines)) <= across
        said = "\n".join(stream.lines)
        for row in table.rows:
            for name, cell in zip(table.head, row, strict=True):
                assert cell in said or name in table.may_wrap, cell
        words = "".join(said.split())
        assert all(len(part) == 0 or part in words for row in table.rows for cell in row for part in cell.split())


def test_check_tells_where_the_boards_of_openings_begin_and_end() -> None:
    """Bay 2 of wall A goes from centre to centre, 94 1/2 to 190 1/2, and a header with it; its middle is 142 1/2. A
    door of 6' x 8' has its top at 99 1/2, over a floor of 3 1/2, and slides right: its track goes from its left leaf's
    edge, 142 1/2 - 36 - 2 = 104 1/2, over two leaves of 76 to 256 1/2."""
    building = opened.opened(opened.SLIDING)
    (table,) = [t for t in report_tables.tables(building) if t.title.startswith("BOARDS OF OPENINGS")]
    assert table.rows == (
        ("A", "Header D9", "2x6", "7'-10 1/2\"", "15'-10 1/2\"", "8'-3 1/2\""),
        ("A", "Track board D9", "2x6", "8'-8 1/2\"", "21'-4 1/2\"", "8'-3 1/2\""),
    )
    assert not [t for t in report_tables.tables(build({})) if t.title.startswith("BOARDS OF OPENINGS")]


def test_a_terminal_too_narrow_for_the_numbers_still_gets_them(wide: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "30")
    table = next(report_tables.tables(build({}, {"A1": "44 15/16"})))
    stream = Screen("cp437")
    screen.grid(table, stream)
    assert all(cell in stream.raw_text for cell in table.rows[0] if cell != table.rows[0][6])
    assert "\N{BOX DRAWINGS LIGHT HORIZONTAL}" not in stream.raw_text


def test_check_says_the_same_in_a_terminal(wide: None, monkeypatch: pytest.MonkeyPatch) -> None:
    building = build({"column.width": "4 1/8", "grade.line": "45"}, {"A1": "45", "A2": "46 1/2", "A3": "47"})
    stream = Screen()
    monkeypatch.setattr(sys, "stdout", stream)
    screen.check(building)
    assert "\x1b[1m" in stream.raw_text
    said = " ".join(" ".join(stream.lines).split())
    for i, warning in enumerate(building.warnings, 1):
        assert f" {i}. {warning}" in said
    for one in building.warned:
        assert one.cost.words in said, "colour alone says nothing"
    assert max(map(len, stream.lines)) <= 80


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_no_colour_means_no_escapes(
    wide: None, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, name: str, value: str
) -> None:
    monkeypatch.setenv(name, value)
    out, err = Screen(), Screen()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setattr(sys, "stderr", err)
    screen.check(build({}, {"A1": "45"}))
    bad = tmp_path / "job.toml"
    bad.write_text(jobs.job_text({"truss.pitch": "4/13"}), encoding="utf-8")
    monkeypatch.setattr(sys, "argv", ["rodwright", "check", str(bad)])
    with pytest.raises(SystemExit):
        cli.main()
    assert "^^^^^^" in err.raw_text
    assert "\x1b" not in out.raw_text + err.raw_text


# --- the commands -----------------------------------------------------------------------------------------------------


def test_a_pipe_gets_plain_lines_and_no_rich() -> None:
    code = "import sys; from sheets.cli_run import app; app(['check', sys.argv[1]], standalone_mode=False); "
    code += "print(sorted(m for m in sys.modules if m.split('.')[0] in ('rich', 'pydantic')))"
    done = subprocess.run(
        [sys.executable, "-c", code, str(demo_job())],
        env={**os.environ, "PYTHONPATH": str(ROOT), "FORCE_COLOR": "1", "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    from sheets.load import load

    assert done.stdout == report.as_text(load(demo_job())) + "[]\n"
    assert done.stderr == ""


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo terminals there")
def test_a_real_terminal_of_80_columns(tmp_path: Path) -> None:
    """The whole command in a pseudo terminal: it fits, and it is in colour."""
    import fcntl
    import pty
    import struct
    import termios

    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    left_out = ("NO_COLOR", "COLUMNS", "LINES", "PYTHONIOENCODING")
    environment = {k: v for k, v in os.environ.items() if k not in left_out}
    with subprocess.Popen(
        [sys.executable, "-m", "sheets.cli", "check", str(demo_job())],
        env={**environment, "PYTHONPATH": str(ROOT), "TERM": "xterm-256color", "PYTHONUTF8": "1"},
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        cwd=tmp_path,
    ) as command:
        os.close(theirs)
        told = b""
        while True:
            try:
                part = os.read(ours, 65536)
            except OSError:
                break
            if not part:
                break
            told += part
    os.close(ours)
    assert command.returncode == 0
    text = told.decode("utf-8").replace("\r\n", "\n")
    assert "\x1b[1m" in text
    last = [ESCAPES.sub("", line).rpartition("\r")[2] for line in text.split("\n")]
    assert max(map(len, last)) <= 80
    assert any(
        line.split() == ["A1", "A+1", "44", '3/4"', "1", '3/4"', "14'-0\"", "BEARING", "centre", "ply", "11'-5", '3/4"']
        for line in last
    )


@pytest.mark.parametrize(("changes", "code"), [({}, 0), ({"truss.pitch": "4/13"}, 1)])
def test_quiet_says_only_what_is_wrong(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    changes: dict[str, str],
    code: int,
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(jobs.job_text(changes), encoding="utf-8")
    out = tmp_path / "out"
    for words in (["check", job, "--quiet"], ["print", job, "--out", out, "--only", "cuts", "-q"]):
        monkeypatch.setattr(sys, "argv", ["rodwright", *map(str, words)])
        with pytest.raises(SystemExit) as end:
            cli.main()
        told = capsys.readouterr()
        assert (end.value.code, told.out) == (code, "")
        assert told.err.endswith("Refused: 1 to mend.\n") if code else told.err == ""


def test_json_of_print_and_audit(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(jobs.job_text(), encoding="utf-8")
    out = tmp_path / "out"
    run = CliRunner().invoke
    result = run(cli_run.app, ["print", str(job), "--out", str(out), "--only", "cuts", "--json"])
    found = json.loads(result.stdout)
    assert (result.exit_code, result.stderr) == (0, "")
    assert sorted(found["files"]) == sorted(path.name for path in out.iterdir())
    assert found["pages"] == sum(name.startswith("cuts-") for name in found["files"])
    assert found["warnings"][0] == "No readings: no column has a tag, no offset is known."
    assert found["warnings"][-1].startswith("No column is behind: girt ")
    assert found["at_stake"] == ["every", *["cut"] * (len(found["warnings"]) - 2), "look"]
    assert json.loads(run(cli_run.app, ["audit", str(out), str(job), "--json"]).stdout) == {"good": True, "found": []}
    (out / "cuts-001.svg").write_text("<svg/>", encoding="utf-8")
    result = run(cli_run.app, ["audit", str(out), str(job), "--json"])
    assert result.exit_code == 1
    assert json.loads(result.stdout)["good"] is False
    assert any("cuts-001.svg" in line for line in json.loads(result.stdout)["found"])
    job.write_text(jobs.job_text({"truss.pitch": "4/13"}), encoding="utf-8")
    for words in (
        ["print", str(job), "--out", str(out)],
        ["audit", str(out), str(job)],
        ["compare", str(out), str(job)],
    ):
        result = run(cli_run.app, [*words, "--json"])
        assert result.exit_code == 1
        (one,) = json.loads(result.stdout)["refused"]
        assert (one["place"], one["line"] > 1, one["column"]) == ("truss.pitch", True, 9)


# --- the order of warnings --------------------------------------------------------------------------------------------


def test_what_costs_most_is_told_first_and_the_rest_stays_in_order() -> None:
    found = [*each(Cost.LOOK, ["d"]), *each(Cost.PART, ["b", "c"]), *each(Cost.EVERY, ["a"]), *each(Cost.LOOK, ["e"])]
    assert [one.text for one in dearest_first(found)] == list("abcde")


def test_a_doubtful_line_comes_before_a_lost_column_and_that_before_a_look() -> None:
    """A3 reads ten inches too high, and the line is chosen from it; the others are not read at all."""
    rows = {"A1": "52 1/2", "A2": "52 5/8", "A3": "42 3/4"}
    building = build({"column.width": "4 1/8", "grade.reference": "C1"}, rows)
    costs = [one.cost for one in building.warned]
    assert costs == sorted(costs)
    assert {Cost.EVERY, Cost.PART} <= set(costs)
    order = [one.text for one in building.warned]
    first = next(i for i, text in enumerate(order) if text.startswith("THE LINE READING WAS CHOSEN FROM A3"))
    unread = next(i for i, text in enumerate(order) if text.startswith("No reading, no tag: "))
    look = next(i for i, text in enumerate(order) if text.startswith("The reference C1 was not read"))
    assert first < unread < look
    assert building.warnings == tuple(order)
    assert report.as_json(building)["at_stake"] == [one.cost.name.lower() for one in building.warned]
