"""What the command says to files it cannot use, what it loads for which job, and what it does without Cairo."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import jobs
import pytest
from printed import demo_job
from test_cli import CANNOT_WRITE, DONE, REFUSED, ROOT, run, write_job


def refused(*words: str | Path) -> list[str]:
    """What a refused job ends with, a line a problem: the line of the file that is shown, and the carets under it, are
    left out. Nothing on stdout, no traceback."""
    result = run(*words)
    assert result.returncode == REFUSED, result.stderr
    assert result.stdout == ""
    assert "Traceback" not in result.stderr
    *lines, last = result.stderr.splitlines()
    found: list[str] = []
    for line in lines:
        if not line.startswith("  "):
            found.append(line)
        elif not re.match(r" +\d* \| ", line):
            found[-1] = f"{found[-1].removesuffix(':')}: {line.strip()}"
    assert last == f"Refused: {len(found)} to mend."
    return found


def test_all_mistakes_of_a_job_are_listed_at_once(tmp_path: Path) -> None:
    changes = {
        "truss.pitch": "4/13",
        "building.bays": 0,
        "girts.stepp": "24",
        "column.width": "nan",
        "roof.purlin": "two by six",
    }
    job = write_job(tmp_path, changes)
    lines = refused("check", job)
    written = job.read_text(encoding="utf-8").splitlines()
    for field in changes:
        (line,) = (text for text in lines if re.match(rf"job\.toml:\d+: {field}: ", text))
        assert len(line) > len(f"job.toml:1: {field}") + 20
        assert written[int(line.split(":")[1]) - 1].startswith(f"{field.partition('.')[2]} = ")
    assert "Did you mean step?" in next(text for text in lines if "stepp" in text)
    assert len(lines) == len(changes)
    result = run("check", job, "--json")
    assert result.returncode == REFUSED
    found = json.loads(result.stdout)
    assert [f"{p['file']}:{p['line']}: {p['place']}: {p['wrong']} {p['right']}".strip() for p in found["refused"]] == [
        line.rstrip() for line in lines
    ]
    assert [p.partition(" = ")[0] for p in found["problems"]] == [f"job.toml: {p['place']}" for p in found["refused"]]


def test_all_mistakes_of_the_readings_are_listed_at_once(tmp_path: Path) -> None:
    job = write_job(tmp_path, {})
    job.with_suffix(".csv").write_text(
        "column,reading\nA1,41 3/8\nQ9,42\nA2,41 3/7\nA2,44\nA3,500'\nA4,\n", encoding="utf-8"
    )
    lines = refused("print", job, "--out", tmp_path / "out")
    assert [text.partition(": ")[0] for text in lines] == [f"job.csv:{number}" for number in (3, 4, 5, 6)]
    assert [" column A2: " in text for text in lines] == [False, True, False, False]
    assert " column A3: " in lines[3]
    assert not (tmp_path / "out").exists()


def test_a_note_that_cannot_be_printed_is_refused(tmp_path: Path) -> None:
    job = write_job(tmp_path, {})
    job.with_suffix(".csv").write_text("column,reading,note\nA1,41,🐎 in the way\n", encoding="utf-8")
    (line,) = refused("check", job)
    assert line.startswith("job.csv:2: column A1: has letters")


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    job = write_job(tmp_path, {})
    latin = tmp_path / "latin.toml"
    latin.write_bytes(jobs.job_text({"job.name": "Ålesund"}).encode("latin-1").replace(b"\\u00c5", b"\xc5"))
    folder = tmp_path / "folder.toml"
    folder.mkdir()
    broken = tmp_path / "broken.toml"
    broken.write_text("[job\n", encoding="utf-8")
    empty = tmp_path / "empty.toml"
    empty.write_text("", encoding="utf-8")
    said = {
        tmp_path / "missing.toml": "is not there",
        latin: "is not UTF-8 text",
        folder: "cannot be read",
        broken: "is not valid TOML",
    }
    for path, words in said.items():
        (line,) = refused("check", path)
        assert path.name in line
        assert words in line
    assert len(refused("check", empty)) >= 5, "every field that must be given is named"
    (line,) = refused("check", job, "--readings", tmp_path / "missing.csv")
    assert "missing.csv: is not there" in line
    job.with_suffix(".csv").write_bytes(b"column,reading,note\nA1,41,\xff\n")
    assert run("check", job).returncode == 0, "spreadsheets write Latin-1 too"


def test_files_with_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    job = write_job(tmp_path, {})
    job.write_bytes(b"\xef\xbb\xbf" + job.read_bytes().replace(b"\n", b"\r\n"))
    job.with_suffix(".csv").write_bytes(b"\xef\xbb\xbfcolumn;reading\r\nA1;41 3/8\r\n")
    assert run("check", job).returncode == DONE


# --- what is loaded --------------------------------------------------------------------------------------------------

LOADED = """
import sys
from sheets import cli
sys.argv = ["rodwright", *sys.argv[1:]]
try:
    cli.main()
except SystemExit as end:
    assert not end.code, end.code
print("LOADED", *sorted({name.partition(".")[0] for name in sys.modules}))
"""


def loaded(*words: str | Path) -> set[str]:
    """The packages that a command has loaded when it ends."""
    result = subprocess.run(
        [sys.executable, "-c", LOADED, *map(str, words)], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return set(result.stdout.split("LOADED ")[1].split())


def test_check_loads_no_writer_and_an_imperial_one_no_pint(tmp_path: Path) -> None:
    found = loaded("check", demo_job())
    assert {"layouts", "sheets", "typer"} <= found
    # numpy comes with the solver of the cutting plan
    assert not found & {"pint", "reportlab", "svgwrite", "cairosvg", "fontTools", "pdfplumber", "pypdfium2"}
    path = tmp_path / "job.toml"
    path.write_text(jobs.job_text(base=jobs.METRIC), encoding="utf-8")
    assert "pint" in loaded("check", path), "the test would see it"


def test_print_loads_no_previews_and_an_imperial_one_no_pint(tmp_path: Path) -> None:
    found = loaded("print", demo_job(), "--out", tmp_path / "out", "--only", "cuts")
    assert "reportlab" in found  # svgwrite too, but in a second process where the system forks
    assert "pypdfium2" in found, "what was written is read back"
    assert not found & {"pint", "cairosvg", "pdfplumber"}


# --- previews --------------------------------------------------------------------------------------------------------


def cairo_loads() -> bool:
    try:
        import cairosvg  # noqa: F401
    except OSError:
        return False
    return True


@pytest.mark.skipif(not cairo_loads(), reason="no Cairo library on this machine")
def test_previews_are_made_when_wanted(tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run("print", demo_job(), "--out", out, "--only", "cuts", "--png").returncode == DONE
    names = {p.name for p in out.iterdir()}
    assert {n.replace(".svg", ".png") for n in names if n.endswith(".svg")} == {n for n in names if n.endswith(".png")}
    assert (out / "cuts-001.png").read_bytes().startswith(b"\x89PNG")
    assert "cuts-001.png" in json.loads((out / "packet.json").read_text(encoding="utf-8"))["files"]


def test_without_cairo_everything_but_previews_works(tmp_path: Path) -> None:
    """A cairosvg that fails on import as the real one does where the library is missing."""
    (tmp_path / "cairosvg.py").write_text('raise OSError("no library called \\"cairo-2\\" was found")\n')
    path = os.pathsep.join([str(tmp_path), str(ROOT)])
    out = tmp_path / "out"
    command = ("print", demo_job(), "--out", out, "--only", "cuts")
    result = run(*command, PYTHONPATH=path)
    assert result.returncode == DONE
    before = {p.name: p.read_bytes() for p in out.iterdir()}
    result = run(*command, "--png", PYTHONPATH=path)
    assert result.returncode == CANNOT_WRITE
    assert "libcairo2" in result.stderr
    assert "Traceback" not in result.stderr
    assert {p.name: p.read_bytes() for p in out.iterdir()} == before
    assert sorted(p.name for p in tmp_path.iterdir() if p.name.startswith(".")) == []
