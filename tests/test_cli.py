"""The commands as they are typed: what they print, where they write, and how they end.

Exit codes: 0 done, 1 job refused, 2 usage, 3 cannot write.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path
from typing import Any

import jobs
import pypdfium2
import pytest
from printed import METRIC_JOB, demo_job
from typer.testing import CliRunner

from layouts.lengths import parse
from sheets import cli, cli_run, svg

ROOT = Path(__file__).parents[1]
DONE, REFUSED, USAGE, CANNOT_WRITE = 0, 1, 2, 3


def run(*words: str | Path, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
    """The command in a fresh interpreter."""
    return subprocess.run(
        [sys.executable, "-m", "sheets.cli", *map(str, words)],
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", **environment},
        cwd=cwd or ROOT,
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )


def here(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str | Path) -> tuple[int, str]:
    """The command through ``main`` in this interpreter: exit code and what stands on stderr."""
    monkeypatch.setattr(sys, "argv", ["rodwright", *map(str, words)])
    with pytest.raises(SystemExit) as end:
        cli.main()
    code = end.value.code
    assert isinstance(code, int)
    return code, capsys.readouterr().err


def checked(job: Path) -> Any:
    """``check --json``, read."""
    result = CliRunner().invoke(cli_run.app, ["check", str(job), "--json"])
    assert result.exit_code == DONE
    return json.loads(result.stdout)


def write_job(folder: Path, changes: dict[str, Any], base: dict[str, Any] = jobs.BASE) -> Path:
    """A job file."""
    path = folder / "job.toml"
    path.write_text(jobs.job_text(changes, base=base), encoding="utf-8")
    return path


# --- what is printed -------------------------------------------------------------------------------------------------


def test_demo_and_then_its_own_job(tmp_path: Path) -> None:
    """The demo's job, changed in its folder, is printed into that same folder and is still there."""
    out = tmp_path / "demo"
    result = run("demo", "--out", out, cwd=tmp_path)
    assert (result.returncode, "pages in" in result.stdout) == (DONE, True)
    assert "ACTUAL SIZE" in result.stdout
    assert "No reading, no tag: E1" in result.stderr
    job = out / "job.toml"
    job.write_text(job.read_text(encoding="utf-8").replace("Larkspur machine shed", "Larkspur two"), encoding="utf-8")
    result = run("print", job, "--out", out, "--only", "cuts", "--paper", "a4")
    assert result.returncode == DONE
    assert "Larkspur two" in job.read_text(encoding="utf-8")
    assert (out / "job.csv").is_file()
    with pypdfium2.PdfDocument(out / "cuts.pdf") as document:
        assert document.get_metadata_dict()["Title"].startswith("Larkspur two")
        assert document[0].get_size() == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=1e-3)
    result = run("demo", "--out", out)
    assert result.returncode == CANNOT_WRITE
    assert "job.toml is your own" in result.stderr


def test_check_shows_warnings_columns_rods_and_order() -> None:
    result = CliRunner().invoke(cli_run.app, ["check", str(demo_job())])
    assert result.exit_code == DONE
    found = json.loads(CliRunner().invoke(cli_run.app, ["check", str(demo_job()), "--json"]).stdout)
    for warning in found["warnings"]:
        assert warning in result.stdout
    for column in found["columns"]:
        for cut in column["cuts"].values():
            assert cut["text"] in result.stdout
    for rod in found["rods"]:
        assert rod["name"].upper() in result.stdout
    assert max(len(line) for line in result.stdout.split("COLUMNS")[1].splitlines()) <= 100


def test_the_jobs_own_paper_is_the_default(tmp_path: Path) -> None:
    job = write_job(tmp_path, {"job.paper": "a4"})
    for words, sides in (([], (210 / 25.4, 297 / 25.4)), (["--paper", "letter"], (8.5, 11.0))):
        command = ["print", str(job), "--out", str(tmp_path / "out"), "--only", "cuts", *words]
        assert CliRunner().invoke(cli_run.app, command).exit_code == DONE
        with pypdfium2.PdfDocument(tmp_path / "out" / "cuts.pdf") as document:
            assert document[0].get_size() == pytest.approx([s * 72 for s in sides], abs=1e-3)


# --- for programs ----------------------------------------------------------------------------------------------------


def lengths(tree: Any) -> list[dict[str, Any]]:
    """Every length anywhere in the JSON."""
    if isinstance(tree, dict):
        own = [tree] if {"value", "text"} <= tree.keys() else []
        return own + [found for part in tree.values() for found in lengths(part)]
    return [found for part in tree for found in lengths(part)] if isinstance(tree, list) else []


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_json_has_every_number_twice_and_both_agree(tmp_path: Path, unit: str) -> None:
    """A length as it is printed, read again, is the exact one to half a step: 1/32 in, or half a millimetre."""
    job = demo_job()
    if unit == "mm":
        job = write_job(tmp_path, METRIC_JOB, jobs.METRIC)
        job.with_suffix(".csv").write_text("column,reading\nA1,1112\nA2,1140\nC1,1119.5\n", encoding="utf-8")
    tree = checked(job)
    assert tree["units"] == unit
    found = lengths(tree)
    assert len(found) > 200
    half, per_inch = (0.5, 25.4) if unit == "mm" else (1 / 32, 1.0)
    for length in found:
        text = length["text"]
        sign = -1 if text.startswith("-") else 1
        printed = parse(text.removeprefix("-"), "mm" if unit == "mm" else "in") * per_inch * sign
        assert abs(printed - length["value"]) <= half + 1e-6, length


def test_json_names_columns_rods_and_pieces(tmp_path: Path) -> None:
    tree = checked(demo_job())
    column = next(c for c in tree["columns"] if c["name"] == "A1")
    # worked by hand (computed): reading 44 3/4, line 43; bearing 11'-4"; corner of walls A and 1
    assert column["offset"] == {"value": 1.75, "text": '1 3/4"'}
    assert column["walls"] == ["A", "1"]
    assert column["cuts"]["bearing"]["value"] == pytest.approx(137.75)
    assert set(column["cuts"]) == {"bearing", "short_point", "long_point"}
    for rod in tree["rods"]:
        assert rod["marks"]
        for mark in rod["marks"]:
            assert mark["edge"] in ("bottom", "top", "line")
            assert bool(mark["board"]) == (mark["kind"] == "board")
            assert mark["low"]["value"] <= mark["station"]["value"] <= mark["high"]["value"]
    assert sorted(w for rod in tree["rods"] for w in rod["walls"]) == sorted(w["name"] for w in tree["walls"])
    for wall in tree["walls"]:
        assert wall["pieces"]
        rows: dict[str, list[Any]] = {}
        for piece in wall["pieces"]:
            rows.setdefault(piece["row"], []).append(piece)
            assert piece["to"]["value"] - piece["from"]["value"] == pytest.approx(piece["length"]["value"], abs=2e-6)
        for pieces in rows.values():  # a row has no gap: each board begins where the last one ends
            for one, other in pairwise(pieces):
                assert one["to"]["value"] == pytest.approx(other["from"]["value"], abs=2e-6)
    assert tree["not_read"] == ["E1"]


def test_json_is_ascii_so_that_no_console_spoils_it(tmp_path: Path) -> None:
    job = write_job(tmp_path, {"job.name": "Ålesund – 5″"})
    result = run("check", job, "--json", PYTHONIOENCODING="ascii")
    assert result.returncode == DONE
    assert json.loads(result.stdout)["job"] == "Ålesund – 5″"


# --- names that are hard to print ------------------------------------------------------------------------------------


@pytest.mark.parametrize("encoding", ["ascii", "iso8859-7", "cp932"])
def test_a_console_that_cannot_show_a_letter_gets_a_stand_in(tmp_path: Path, encoding: str) -> None:
    job = write_job(tmp_path, {"job.name": "Ålesund barn"})
    result = run("check", job, PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert result.returncode == DONE
    assert "?lesund barn" in result.stdout
    assert result.stderr == ""
    job.write_text(job.read_text(encoding="utf-8") + "Å = 1\n", encoding="utf-8")
    result = run("check", job, PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert result.returncode == REFUSED
    assert "Traceback" not in result.stderr
    assert "Refused: 1 to mend." in result.stderr


@pytest.mark.parametrize("name", ["Barn 🐎", "納屋", "a\u202eb"], ids=["emoji", "cjk", "rtl"])
def test_letters_that_cannot_be_printed_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    job = write_job(tmp_path, {"job.name": jobs.Raw(f'"{name}"')})
    code, said = here(monkeypatch, capsys, "print", job, "--out", tmp_path / "out")
    assert code == REFUSED
    assert said.startswith("job.toml:2: job.name\n")
    assert "Traceback" not in said
    assert not (tmp_path / "out").exists()


def test_a_hostile_name_is_only_a_name(tmp_path: Path) -> None:
    name = "<script>\"&'"
    job = write_job(tmp_path, {"job.name": name})
    command = ["print", str(job), "--out", str(tmp_path / "out"), "--only", "cuts"]
    assert CliRunner().invoke(cli_run.app, command).exit_code == DONE
    with pypdfium2.PdfDocument(tmp_path / "out" / "cuts.pdf") as document:
        assert document.get_metadata_dict()["Title"].startswith(f"{name}:")
        assert name in document[0].get_textpage().get_text_range()
    text = (tmp_path / "out" / "cuts-001.svg").read_text(encoding="utf-8")
    assert "<script" not in text
    assert f"<title>{'&lt;script&gt;'}\"&amp;'" in text
    assert json.loads((tmp_path / "out" / "packet.json").read_text(encoding="utf-8"))["packet"] == name


# --- how it ends badly -----------------------------------------------------------------------------------------------


def test_usage(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(demo_job())
    for words in (
        [],
        ["paint"],
        ["check"],
        ["check", job, "--colour"],
        ["print", job],
        ["print", job, "--out", "x", "--paper", "a5"],
        ["print", job, "--out", "x", "--only", "barn"],
    ):
        code, said = here(monkeypatch, capsys, *words)
        assert code == USAGE, words
        assert "Traceback" not in said


def test_a_folder_that_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("mine")
    for out in (tmp_path / "file", tmp_path / "file" / "deeper", tmp_path):
        code, said = here(monkeypatch, capsys, "print", demo_job(), "--out", out, "--only", "cuts")
        assert code == CANNOT_WRITE
        assert str(tmp_path) in said
        assert "Nothing was written." in said
        assert "Traceback" not in said
    monkeypatch.setattr(svg, "write", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device", "x.svg")))
    code, said = here(monkeypatch, capsys, "print", demo_job(), "--out", tmp_path / "out", "--only", "cuts")
    assert (code, "x.svg: No space left on device" in said) == (CANNOT_WRITE, True)
    assert [p.name for p in tmp_path.iterdir()] == ["file"]
