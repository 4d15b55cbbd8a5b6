"""`rodwright start` with files: what is written, what is left alone, from old jobs and from flags."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jobs
import pytest
from shooters import Script
from typer.testing import CliRunner

from layouts import job as job_reader
from layouts.job_values import flat
from layouts.problems import JobRefused
from sheets import rewrite, start
from sheets.cli_run import app
from sheets.load import load
from sheets.start import Wish

PLAN = ["Elm shed", "", "", "", "", "30'", "54'", "", "6", "10', 20'", "", "", "", "", ""]
ANSWERS = [*PLAN, "", "4/12", "", "11'-4", "13 1/4", "", "", "", "16", "", "", "", "", "", "", "", "", ""]
FLAGS = (
    "job.name=Elm shed",
    "building.width=30'",
    "building.length=54'",
    "building.bays=6",
    "building.front_columns=10', 20'",
    "building.back_columns=10', 20'",
    "truss.bearing=11'-4",
    "truss.heel=13 1/4",
    "truss.pitch=4/12",
)
DEMO = Path(__file__).parents[1] / "gallery" / "larkspur" / "job.toml"


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    """A job file that is not there yet."""
    return tmp_path / "shed.toml"


def session(path: Path, *lines: str | type[BaseException], wide: int = 0, **wish: Any) -> tuple[Script, bool]:
    """A session in which *lines* are typed; whether the file was written."""
    script = Script(list(lines), wide)
    return script, start.run(path, Wish(**wish), script.console)


def alone(path: Path, *flags: str, **wish: Any) -> Script:
    """The same without a question."""
    script, written = session(path, ask=False, flags=flags, **wish)
    assert written
    assert script.asked == []
    return script


def test_a_whole_session(shed: Path) -> None:
    script, written = session(shed, *ANSWERS)
    assert written
    building = load(shed)
    assert building.job.job.name == "Elm shed"
    assert len(building.columns) == 0  # no reading, no tag
    assert not shed.with_suffix(".csv").exists(), "readings are not made up"
    for step in (f"rodwright print {shed} --only field", f"rodwright shoot {shed}", f"rodwright check {shed}"):
        assert f"  {step}" in script.told
    assert script.told.startswith("15 questions, and shed.toml is written at the end.\nEnter takes what stands in [ ].")


def test_it_fits_a_terminal_of_80_letters(shed: Path) -> None:
    script, _ = session(shed, *ANSWERS[:5], "?", "30", *ANSWERS[5:], wide=80)
    told = script.told.partition("\nNext:")[0].splitlines()
    assert max(len(line) for line in told if str(shed) not in line) < 80
    assert "\x1b" not in script.told


@pytest.mark.parametrize("end", [EOFError, KeyboardInterrupt, "quit"])
@pytest.mark.parametrize("count", [0, 1, 7, 20, len(ANSWERS) - 1])
def test_broken_off_nothing_is_written(shed: Path, count: int, end: Any) -> None:
    script, written = session(shed, *ANSWERS[:count], end)
    assert not written
    assert script.said[-1] == "Nothing was written: shed.toml is not there."
    assert list(shed.parent.iterdir()) == []


def test_a_name_without_an_ending_gets_one(tmp_path: Path) -> None:
    session(tmp_path / "barn", *ANSWERS)
    assert load(tmp_path / "barn.toml").job.job.name == "Elm shed"


@pytest.mark.parametrize("name", ["shed.csv", "shed.PDF", ""])
def test_names_that_are_no_job_file(tmp_path: Path, name: str) -> None:
    with pytest.raises(JobRefused, match=r"Give a name like shed.toml"):
        session(tmp_path / name, *ANSWERS)


def test_a_place_that_is_not_there_is_told_before_anything_is_asked(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        session(tmp_path / "nowhere" / "shed.toml", *ANSWERS)


# --- over a file that is there --------------------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["", "no", "x", EOFError])
def test_a_file_that_is_there_is_left_alone(shed: Path, line: Any) -> None:
    shed.write_text("mine")
    script, written = session(shed, line, *ANSWERS)
    assert not written
    assert shed.read_text() == "mine"
    assert "shed.toml is as it was" in script.told


def test_it_is_written_over_where_that_is_said(shed: Path) -> None:
    shed.write_text("mine")
    assert session(shed, "y", *ANSWERS)[1]
    shed.write_text("mine")
    assert session(shed, *ANSWERS, over=True)[1]
    assert load(shed).job.job.name == "Elm shed"


def test_a_session_over_a_file_that_breaks_off_leaves_it(shed: Path) -> None:
    shed.write_text("mine")
    script, _ = session(shed, "yes", *ANSWERS[:9])
    assert shed.read_text() == "mine"
    assert script.said[-1] == "Nothing was written: shed.toml is as it was."


def test_a_file_that_appears_meanwhile_is_left_and_nothing_typed_is_lost(shed: Path) -> None:
    def appears(count: int) -> None:
        if count == 9:
            shed.write_text("of another program")

    script = Script([*ANSWERS, str(shed.with_name("other"))], then=appears)
    assert start.run(shed, Wish(), script.console)
    assert shed.read_text() == "of another program"
    assert load(shed.with_name("other.toml")).job.job.name == "Elm shed"
    assert "NOT SAVED: " in script.told


def test_a_disk_that_is_full_asks_for_another_place(shed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    save, tried = rewrite.save, []

    def full(held: rewrite.Held, text: str) -> rewrite.Held:
        tried.append(held.path)
        if len(tried) == 1:
            raise OSError(28, "No space left on device")
        return save(held, text)

    monkeypatch.setattr(rewrite, "save", full)
    script, written = session(shed, *ANSWERS, "")
    assert written
    assert "NOT SAVED: No space left on device" in script.told
    assert len(tried) == 2


# --- from an old job ------------------------------------------------------------------------------------------------


def test_from_the_demo(shed: Path) -> None:
    _, written = session(shed, "Larch shed", *[""] * 15, begin="demo")
    assert written
    old, new = flat(DEMO.read_text(encoding="utf-8")), flat(shed.read_text(encoding="utf-8"))
    kept = {k: v for k, v in old.items() if k not in ("job.name", "job.crew", "job.date")}
    assert {k: new[k] for k in ("building.bays", "tops.clearance", "grade.reference", "roof.soffit")} == {
        k: kept[k] for k in ("building.bays", "tops.clearance", "grade.reference", "roof.soffit")
    }
    assert set(old) - set(new) == {"job.crew", "job.date"}
    assert new["job.name"] == "Larch shed"
    assert new["tops.clearance"] == "1/4"


def test_from_a_file_with_its_own_fields(shed: Path, tmp_path: Path) -> None:
    old = tmp_path / "old.toml"
    old.write_text(jobs.job_text({"column.trim": "1/4", "names.A1": "N1", "lumber.kerf": "3/32"}), encoding="utf-8")
    script, written = session(shed, *[""] * 30, begin=str(old))
    assert written
    assert load(shed).job == load(old).job
    assert "It begins as old.toml: Enter keeps what stands there." in script.told


def test_an_old_job_that_is_refused_is_not_begun_with(shed: Path, tmp_path: Path) -> None:
    old = tmp_path / "old.toml"
    old.write_text(jobs.job_text({"building.width": "3"}), encoding="utf-8")
    with pytest.raises(JobRefused, match=r"old.toml: building.width = 3: is out of bounds"):
        session(shed, begin=str(old))
    with pytest.raises(JobRefused, match="is not there"):
        session(shed, begin=str(tmp_path / "none.toml"))


# --- from flags -----------------------------------------------------------------------------------------------------


def test_from_flags_alone(shed: Path) -> None:
    script = alone(shed, *FLAGS, "opening.1.name=WD", "opening.1.wall=A", "opening.1.kind=walk", *(
        f"opening.1.{rest}" for rest in ("width=3'", "height=6' 8", "bay=2")
    ))  # fmt: skip
    job = load(shed).job
    assert job.building.front_columns == (120, 240)
    assert job.openings[0].bay == 2
    assert "rodwright shoot" in script.told


def test_every_field_can_be_a_flag(shed: Path) -> None:
    """The whole of the second demo, field by field."""
    text = DEMO.parents[1].joinpath("cooper", "job.toml").read_text(encoding="utf-8")
    flags = [f"{p}={', '.join(v) if isinstance(v, list) else v}" for p, v in flat(text).items()]
    alone(shed, *flags)
    assert load(shed).job == job_reader.read(text)


def test_flags_with_something_missing_or_wrong_list_it_all(shed: Path) -> None:
    with pytest.raises(JobRefused) as refused:
        alone(shed, *FLAGS[1:-1])
    places = [p.place for p in refused.value.problems]
    assert places == ["job.name", "truss.pitch"]
    assert not shed.exists()
    with pytest.raises(JobRefused) as refused:
        alone(shed, *FLAGS, "girts.step=wide", "girt.step=3", "column.plys=3", "width=3")
    told = str(refused.value)
    assert len(refused.value.problems) == 4
    assert "shed.toml: girts.step = wide: there is no number in it" in told
    assert "girt: is not a part of a job. Did you mean girts?" in told
    assert "column.plys = 3: is not a field. Did you mean plies?" in told


def test_flags_are_judged_before_anything_is_asked(shed: Path) -> None:
    with pytest.raises(JobRefused, match=r"building.width = 3: is out of bounds"):
        session(shed, *ANSWERS, flags=("building.width=3",))


def test_what_only_the_layout_can_tell_is_refused_too(shed: Path) -> None:
    flags = ("opening.1.name=WD", "opening.1.wall=A", "opening.1.kind=walk", "opening.1.bay=2")
    more = ("opening.1.width=3'", "opening.1.height=6' 8", "opening.1.jamb_tops=full", "lumber.stock=8', 10'")
    with pytest.raises(JobRefused, match=r"lumber\.stock"):
        alone(shed, *FLAGS, *flags, *more)
    assert not shed.exists()


def test_flags_and_an_old_job(shed: Path) -> None:
    script = alone(shed, "job.name=Larch", "tops.clearance=1/2", "grade.line=45", begin="demo")
    job = load(shed).job
    assert (job.job.name, job.job.crew, job.job.date, job.tops.clearance) == ("Larch", "", "", 0.5)
    assert "! grade.line = 45 is kept" in script.told


def test_without_questions_a_file_that_is_there_is_refused(shed: Path) -> None:
    shed.write_text("mine")
    with pytest.raises(JobRefused, match="is there already"):
        alone(shed, *FLAGS)
    alone(shed, *FLAGS, over=True)
    assert load(shed).job.job.name == "Elm shed"


def test_flags_spare_questions(shed: Path) -> None:
    script, written = session(shed, "", "", "", *[""] * 40, flags=FLAGS)
    assert written
    assert not any(p.startswith(("Width:", "Length", "Bays", "Pitch", "Heel:")) for p in script.asked)


# --- the command ----------------------------------------------------------------------------------------------------


@pytest.fixture
def piped(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """What stands on the standard input."""

    def put(text: str) -> None:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text.encode("utf-8", "replace"))))

    return put


def test_answers_in_a_pipe(shed: Path, piped: Any, capsys: pytest.CaptureFixture[str]) -> None:
    piped("\n".join(ANSWERS) + "\n")
    assert start.run(shed, Wish())
    assert "Width: 30'\n" in capsys.readouterr().out
    assert load(shed).job.building.width == 360


def test_a_pipe_that_ends_ends_it(shed: Path, piped: Any, capsys: pytest.CaptureFixture[str]) -> None:
    piped("")
    assert not start.run(shed, Wish())
    assert "Nothing was written" in capsys.readouterr().out


def test_the_commands_exit_codes(shed: Path) -> None:
    run = CliRunner().invoke
    assert run(app, ["start", str(shed)], input="Elm\n").exit_code == 1
    assert not shed.exists()
    flags = [part for flag in FLAGS for part in ("--set", flag)]
    assert run(app, ["start", str(shed), "--no-questions", *flags]).exit_code == 0
    assert run(app, ["start", str(shed), "--set", "building.width"]).exit_code == 2
    assert isinstance(run(app, ["start", str(shed), "--no-questions", *flags]).exception, JobRefused)
    done = run(app, ["start", str(shed), "--over"], input="\n".join(ANSWERS) + "\n")
    assert done.exit_code == 0
    assert f"  rodwright check {shed}" in done.output
