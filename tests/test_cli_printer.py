"""Paper and printer at the command line: measuring, correcting, holding a packet against its job."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from printed import demo_job
from readback import pdf_sheets
from test_cli import CANNOT_WRITE, DONE, REFUSED, USAGE, here
from typer.testing import CliRunner

from sheets import cli_run, svg
from sheets.shapes import Drawing, Line, Shape

FOUR = ("--across", "7", "--rising", "12 7/32", "--falling", "12 7/32")
TALL = ("--rising", "292", "--falling", "292")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """The demo's job in a folder of its own."""
    for name in ("job.toml", "job.csv"):
        shutil.copy(demo_job().with_name(name), tmp_path / name)
    return tmp_path / "job.toml"


def said(*words: str | Path) -> tuple[int, str]:
    result = CliRunner().invoke(cli_run.app, [str(w) for w in words])
    return result.exit_code, result.output


def left_line(pdf: Path) -> list[float]:
    """Where the upright lines of the first rod page stand."""
    return sorted({round(x, 4) for x, _, _ in pdf_sheets(pdf)[0].verticals})


def test_a_printer_is_measured_and_every_later_page_corrected(job: Path, tmp_path: Path) -> None:
    """A page that prints 10 1/32 in for 10 in is drawn 10 / 10.03125 as long, from the middle of the sheet."""
    page = tmp_path / "ruler.pdf"
    code, words = said("ruler", "--printer", "Office", "--out", page)
    assert code == DONE
    assert "rodwright ruler --printer Office --paper letter --along ___" in words
    assert (pdf_sheets(page)[0].width, pdf_sheets(page)[0].height) == (11.0, 8.5)
    code, words = said("ruler", "--printer", "Office", "--beside", job, "--along", "10 1/32", *FOUR)
    assert code == DONE
    assert "along 0.31 % long" in words
    assert "along = 1.003125" in (tmp_path / "printers.toml").read_text()

    assert said("print", job, "--out", tmp_path / "plain", "--only", "rods", "--paper", "a4")[0] == DONE
    assert said("print", job, "--out", tmp_path / "true", "--only", "rods")[0] == DONE
    (tmp_path / "printers.toml").rename(tmp_path / "off.toml")
    assert said("print", job, "--out", tmp_path / "raw", "--only", "rods")[0] == DONE
    raw, true = left_line(tmp_path / "raw" / "rods.pdf"), left_line(tmp_path / "true" / "rods.pdf")
    assert len(raw) == len(true) > 20
    assert true == pytest.approx([5.5 + (x - 5.5) / 1.003125 for x in raw], abs=0.001)
    words = " ".join(pdf_sheets(tmp_path / "true" / "rods.pdf")[0].texts)
    assert "Office" in words
    assert "corrected, not measured again" in words


@pytest.mark.parametrize(
    ("numbers", "says"),
    [
        (("--along", "9.6", *FOUR), "the print dialog has scaled the page"),
        (("--along", "ten", *FOUR), "--along"),
        (("--along", "10", "--edge", "x", *FOUR), "--edge"),
        (
            ("--along", "10", "--edge", "3", *FOUR),
            "--edge = 3: is out of range. The unprintable edge runs from 0 to 2 in.",
        ),
        (
            ("--metric", "--along", "250", "--edge", "60", "--across", "150", *TALL),
            "--edge = 60: is out of range. The unprintable edge runs from 0 to 50 mm.",
        ),
        (
            ("--along", "10", "--printer", 33 * "x", *FOUR),
            f"--printer = {33 * 'x'}: is a name of 1 to 32 letters in quotes.",
        ),
    ],
)
def test_numbers_that_cannot_be_are_refused_in_words(
    numbers: tuple[str, ...], says: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    code, words = here(monkeypatch, capsys, "ruler", "--printer", "Office", *numbers)
    assert code == REFUSED
    assert says in words


def test_all_four_numbers_are_needed(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    code, words = here(monkeypatch, capsys, "ruler", "--printer", "Office", "--along", "10")
    assert code == USAGE
    assert "--across, --rising, --falling" in words


def test_a_printer_nobody_measured_is_refused(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    code, words = here(monkeypatch, capsys, "print", job, "--out", tmp_path / "x", "--printer", "Attic")
    assert code == REFUSED
    assert "Attic" in words
    assert not (tmp_path / "x").exists()


def test_any_paper_by_its_name_or_size(job: Path, tmp_path: Path) -> None:
    for paper, sides in (("tabloid", {11.0, 17.0}), ("12x18", {12.0, 18.0}), ("roll-24in", {24.0})):
        out = tmp_path / paper
        assert said("print", job, "--out", out, "--only", "rods", "--paper", paper)[0] == DONE
        for sheet in pdf_sheets(out / "rods.pdf"):
            assert sides <= {round(sheet.width, 3), round(sheet.height, 3)}


def test_a_packet_is_held_against_its_job(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "packet"
    assert said("print", job, "--out", out)[0] == DONE
    assert said("audit", out, job) == (DONE, "Every sheet is what this job prints today.\n")
    readings = job.with_suffix(".csv")
    readings.write_text(readings.read_text().replace("A5,44 5/8", "A5,44 3/4"))
    code, words = said("audit", out, job)
    assert code == REFUSED
    assert "Tag A5" in words
    assert "Tag A4" not in words


def test_a_file_that_reads_back_wrong_is_not_released(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A writer that slips by three thousandths: the sheet and the place are named, the old packet stays."""
    out = tmp_path / "packet"
    assert said("print", job, "--out", out, "--only", "tags")[0] == DONE
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    write = svg.write

    def slipping(path: Path, drawing: Drawing, *rest: str) -> None:
        first, *others = drawing.shapes
        nudge: Shape = Line(1.0, 1.0, 2.003, 1.0)
        write(path, Drawing(drawing.width, drawing.height, (nudge, first, *others)), *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(svg, "write", slipping)
    code, words = here(monkeypatch, capsys, "print", job, "--out", out, "--only", "tags")
    assert code == CANNOT_WRITE
    assert "tags-001.svg" in words
    assert "nothing was released" in words
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_sending_without_a_print_service_says_how_to_print(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    code, words = here(monkeypatch, capsys, "print", job, "--out", tmp_path / "x", "--send", "Office")
    assert code == CANNOT_WRITE
    assert "no CUPS" in words
    assert "100" in words
    assert not (tmp_path / "x").exists()


def test_a_roll_s_profile_does_not_correct_other_sheets(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "printers.toml").write_text(
        '[[printer]]\nname = "Plotter"\npaper = "roll-24in"\nalong = 1.002\nacross = 1.0\ndate = "2026-05-14"\n'
    )
    code, words = here(monkeypatch, capsys, "print", job, "--out", tmp_path / "x", "--paper", "roll-24in")
    assert code == REFUSED
    assert "--only rods" in words
    assert said("print", job, "--out", tmp_path / "x", "--paper", "roll-24in", "--only", "rods")[0] == DONE
