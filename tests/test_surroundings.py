"""Odd machines: no home, another language and zone, folders of any name, an installation that has lost a part."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

import jobs
import pytest
from test_cli import CANNOT_WRITE, DONE, ROOT, here, run

JOB = jobs.job_text()
PACKAGES = ("layouts", "sheets", "fonts", "gallery")


def written(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    job = folder / "job.toml"
    job.write_text(JOB, encoding="utf-8")
    return job


def files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The files of a packet of cut sheets, as they are everywhere."""
    folder = tmp_path_factory.mktemp("usual")
    assert run("print", written(folder), "--only", "cuts", "--out", folder / "out").returncode == DONE
    return files(folder / "out")


def bare(
    *words: str | Path, script: str = "", root: Path = ROOT, environment: Mapping[str, str] = MappingProxyType({})
) -> subprocess.CompletedProcess[str]:
    """The command in a process that knows next to nothing of its machine."""
    first = ["-c", script] if script else ["-m", "sheets.cli"]
    known = {name: value for name, value in os.environ.items() if name in ("SYSTEMROOT", "PATH")}
    return subprocess.run(
        [sys.executable, *first, *map(str, words)],
        env={**known, "PYTHONPATH": str(root), **environment},
        cwd=root,
        capture_output=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )


@pytest.mark.parametrize(
    "environment",
    [
        {},  # neither HOME nor a locale
        {"HOME": "/nowhere/at/all", "LC_ALL": "C", "TZ": "Pacific/Kiritimati"},  # 14 hours before Greenwich
        {"LC_ALL": "tr_TR.ISO-8859-9", "LANG": "xx_YY", "TZ": "not a zone"},  # i and I are no pair in Turkish
    ],
    ids=["bare", "no-home", "odd"],
)
def test_a_packet_is_the_same_on_any_machine(
    environment: dict[str, str], usual: dict[str, bytes], tmp_path: Path
) -> None:
    done = bare("print", written(tmp_path), "--only", "cuts", "--out", tmp_path / "out", environment=environment)
    assert done.returncode == DONE, done.stderr
    assert files(tmp_path / "out") == usual


def test_folders_may_be_called_anything(usual: dict[str, bytes], tmp_path: Path) -> None:
    folder = tmp_path / "Nave nº 3 – año 工場" / 'it\'s "ours" & $HOME; 100 %'
    done = run("print", written(folder), "--only", "cuts", "--out", folder / "hojas de corte")
    assert done.returncode == DONE, done.stderr
    assert files(folder / "hojas de corte") == usual


def test_without_the_typeface_the_old_packet_stays(usual: dict[str, bytes], tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    for package in PACKAGES:
        shutil.copytree(ROOT / package, copy / package, ignore=shutil.ignore_patterns("__pycache__", "*.ttf"))
    out = tmp_path / "out"
    out.mkdir()
    for name, content in usual.items():
        (out / name).write_bytes(content)
    done = bare("print", written(tmp_path), "--only", "cuts", "--out", out, root=copy)
    assert done.returncode == CANNOT_WRITE
    assert done.stderr.endswith(".ttf: No such file or directory\nNothing was written.\n")
    assert "Traceback" not in done.stderr
    assert files(out) == usual


@pytest.mark.parametrize("part", ["fonts", "reportlab", "layouts.cutting"])
def test_a_part_that_is_not_there_is_named(part: str, tmp_path: Path) -> None:
    script = f"import sys; sys.modules[{part!r}] = None; from sheets import cli; cli.main()"
    done = bare("print", written(tmp_path), "--only", "cuts", "--out", tmp_path / "out", script=script)
    assert done.returncode == CANNOT_WRITE
    assert done.stderr.endswith(
        f'A part of rodwright is not there: "{part}".\nInstall it again. Nothing was written.\n'
    )
    assert not (tmp_path / "out").exists()


def test_it_is_named_in_the_machines_language(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("LC_ALL", "es_MX.UTF-8")
    monkeypatch.setitem(sys.modules, "sheets.load", None)
    code, told = here(monkeypatch, capsys, "check", written(tmp_path))
    assert code == CANNOT_WRITE
    assert told.splitlines()[-2:] == [
        'Falta una parte de rodwright: "sheets.load".',
        "Instálelo de nuevo. No se guardó nada.",
    ]
