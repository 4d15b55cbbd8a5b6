"""The typefaces and everything else that is not code come along with the package, from a built wheel too."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from fontTools.ttLib import TTFont

import fonts

ROOT = Path(__file__).parents[1]


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_each_cut_is_a_truetype_font_of_its_own_name(cut: str) -> None:
    font = TTFont(BytesIO(fonts.data(cut)))
    assert "glyf" in font, "outlines that reportlab can embed"
    assert font["name"].getDebugName(1).startswith("IBM Plex Sans Cond")
    weight = {"regular": 400, "bold": 600}[cut]
    assert font["OS/2"].usWeightClass == weight
    assert font["OS/2"].fsType == 0, "may be embedded (OpenType OS/2, fsType, memory)"


def test_an_unknown_cut_is_told() -> None:
    with pytest.raises(KeyError):
        fonts.data("italic")


def test_the_licence_lies_beside_the_fonts() -> None:
    text = files("fonts").joinpath("OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert "Reserved Font Name" in text


@pytest.mark.parametrize("cut", sorted(fonts.CUTS))
def test_figures_are_as_wide_as_each_other(cut: str) -> None:
    font = TTFont(BytesIO(fonts.data(cut)))
    names, widths = font.getBestCmap(), font["hmtx"].metrics
    assert len({widths[names[ord(c)]][0] for c in "0123456789"}) == 1


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project's wheel, built here without the network."""
    pytest.importorskip("hatchling", reason="hatchling builds the wheel")
    out = tmp_path_factory.mktemp("wheel")
    command = [
        sys.executable,
        "-m",
        "pip",
        "wheel",
        str(ROOT),
        "--no-deps",
        "--no-build-isolation",
        "-q",
        "-w",
        str(out),
    ]
    environment = {**os.environ, "PIP_NO_INDEX": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    subprocess.run(command, check=True, capture_output=True, env=environment)
    (found,) = out.glob("rodwright-*.whl")
    return found


def test_the_wheel_holds_all_that_is_needed_and_nothing_more(wheel: Path) -> None:
    with ZipFile(wheel) as packed:
        names = set(packed.namelist())
    source = {
        str(p.relative_to(ROOT).as_posix())
        for folder in ("layouts", "sheets", "fonts", "gallery")
        for p in (ROOT / folder).rglob("*")
        if p.suffix in (".py", ".css", ".ttf", ".txt", ".toml", ".csv") and "__pycache__" not in p.parts
    }
    assert {"fonts/OFL.txt", "gallery/larkspur/job.toml", "gallery/larkspur/job.csv", "sheets/cli.py"} <= source
    assert {f"fonts/{name}" for name in fonts.CUTS.values()} <= source
    own = {n for n in names if ".dist-info/" not in n}
    assert own == source
    told = {n.split(".dist-info/")[1] for n in names if ".dist-info/" in n}
    assert {"licenses/LICENSE", "licenses/fonts/OFL.txt", "entry_points.txt"} <= told


def test_the_demo_runs_from_the_wheel_in_another_folder(wheel: Path, tmp_path: Path) -> None:
    """Taken out of the wheel, the source folder nowhere on the path."""
    with ZipFile(wheel) as packed:
        packed.extractall(tmp_path / "installed")
    other = tmp_path / "site"
    other.mkdir()
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "installed")}
    told = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sheets, fonts, gallery; print(sheets.__file__, fonts.__file__, gallery.__file__)",
        ],
        cwd=other,
        env=environment,
        check=True,
        capture_output=True,
        text=True,
    )
    assert str(ROOT) not in told.stdout
    done = subprocess.run(
        [sys.executable, "-m", "sheets.cli", "demo", "--out", "x"],
        cwd=other,
        env=environment,
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    assert (other / "x" / "packet.pdf").read_bytes().startswith(b"%PDF")
    assert (other / "x" / "job.toml").is_file()
    assert sorted(p.name for p in other.iterdir()) == ["x"]
