"""Commands and prompts in another language: what is said, what is refused, and what is typed."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import boxes
import catalogue as drawn
import jobs
import pytest
import told
from shooters import Script
from test_start_files import ANSWERS

from layouts import amounts
from layouts import job as job_reader
from layouts.lengths import Unit, unechoed
from sheets import cli, compare, packet, ruler, start, tongue, trueing
from sheets.language import Said, speaking
from sheets.load import load
from sheets.paper import PAPERS, find
from sheets.profile import UNMEASURED, Profile

SPANISH = {"job.language": "spanish"}


# --- commands ---------------------------------------------------------------------------------------------------------


def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """A command: how it ends, what it says, and what it says of what is wrong."""
    monkeypatch.setattr(sys, "argv", ["rodwright", *words])
    with pytest.raises(SystemExit) as end:
        cli.main()
    found = capsys.readouterr()
    return int(end.value.code or 0), found.out, found.err


def written(folder: Path, changes: dict[str, Any], readings: bool = True) -> Path:
    """A job file in *folder*, and readings beside it."""
    job = folder / "barn.toml"
    job.write_text(jobs.job_text(changes), encoding="utf-8")
    if readings:
        rows = jobs.every(jobs.job(changes)).values
        lines = "".join(f"{name},{45 + i % 3 / 8:g}\n" for i, name in enumerate(rows))
        (folder / "barn.csv").write_text(f"unit,inches\nsense,down\nread on,seat\ncolumn,reading\n{lines}")
    return job


def test_check_speaks_the_language_of_the_job_and_json_does_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    job = str(written(tmp_path, SPANISH))
    code, spanish, _ = run(monkeypatch, capsys, "check", job)
    assert code == 0
    assert "COLUMNAS" in spanish
    assert told.missing() == {}
    monkeypatch.setenv(tongue.WISH, "english")
    english = run(monkeypatch, capsys, "check", job)[1]
    assert "COLUMNS (heights from each column's bottom end)" in english
    figures = re.compile(r"\d[\d/'\" -]*\d[\"']?|\d")
    assert sorted(figures.findall(re.sub(r" {2,}", "\n", spanish))) == sorted(
        figures.findall(re.sub(r" {2,}", "\n", english))
    )
    monkeypatch.delenv(tongue.WISH)
    told_json = run(monkeypatch, capsys, "check", job, "--json")[1]
    assert "rod" in told_json
    assert json.loads(told_json)["order"]["columns"]
    assert "columna" not in told_json.lower()


def test_a_refusal_is_told_in_spanish_with_its_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    job = str(written(tmp_path, {**SPANISH, "truss.pitch": "4/13"}, readings=False))
    code, out, err = run(monkeypatch, capsys, "check", job)
    assert (code, out) == (1, "")
    assert 'pitch = "4/13"' in err
    assert "^^^^" in err
    assert "Refused" not in err
    broken = tmp_path / "broken.toml"
    broken.write_text('[job]\nlanguage = "spanish"\nname = \n', encoding="utf-8")
    code, _, err = run(monkeypatch, capsys, "check", str(broken))
    assert code == 1
    assert "Refused" not in err


def test_wrong_usage_is_told_in_the_language_of_the_machine(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("LANG", "es_US.UTF-8")
    for words in (["check"], ["paint"], ["check", "--colour"], ["print", "x.toml"], ["print", "x.toml", "--only", "z"]):
        code, _, err = run(monkeypatch, capsys, *words)
        assert code == 2, words
        assert "Error: " in err
        assert not re.search(r"\b(Missing|such|Invalid|Try)\b", err), err
    code, _, err = run(monkeypatch, capsys)
    assert code == 2
    assert "Opciones:" in err


def test_an_interrupted_command_ends_as_before(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(*_: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("sheets.cli_work.loaded", stopped)
    assert run(monkeypatch, capsys, "check", "x.toml")[0] == 130


def test_what_has_changed_is_told_and_printed_in_spanish(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A reading that is another, two of the gallery's jobs, and the sheet on top of what is printed anew."""
    job = written(tmp_path, SPANISH)
    building = load(job)
    packet.save(packet.build(building, PAPERS["letter"], "tags"), tmp_path / "old")
    readings = (tmp_path / "barn.csv").read_text()
    (tmp_path / "barn.csv").write_text(readings.replace("A2,45.125", "A2,46.5"))
    code, out, _ = run(monkeypatch, capsys, "compare", str(tmp_path / "old"), str(job))
    assert code == 1
    assert "ya no vale" in out
    assert not re.search(r"\b(stale|was|now|changed)\b", out)
    _, made = compare.stale(tmp_path / "old", load(job), PAPERS["letter"], None, UNMEASURED)
    assert made
    assert made.speech
    assert made.sheets[0].title == "Changes"
    assert drawn.leaves(made.speech) == {}


@pytest.mark.parametrize("metric", [False, True])
@pytest.mark.parametrize("paper", ["letter", "a4", "arch-d"])
def test_the_ruler_page_is_whole_in_spanish(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, paper: str, metric: bool
) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("")
    speech = tongue.on_paper(trueing.OURS, "Office")
    assert speech
    monkeypatch.setattr(tongue, "on_paper", lambda *_: speech)
    trueing.page(find(paper), metric, Profile("Office"), tmp_path / "ruler.pdf")
    assert drawn.leaves(speech) == {}
    with speaking(speech):
        (body,) = ruler.pages(find(paper), metric, Profile("Office"))
    texts = list(boxes.written(body.drawing.shapes))
    assert boxes.overlaps(texts) == []
    assert boxes.small(texts) == []
    assert any("--along ___" in text.words for text in texts)


# --- at the prompt ----------------------------------------------------------------------------------------------------


def test_start_asks_and_comments_in_spanish(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Who is asked in Spanish gets a job in Spanish; the file says the same as an English one but for its comments."""
    found = {}
    for wish in ("english", "spanish"):
        monkeypatch.setenv(tongue.WISH, wish)
        told_ = Script([*ANSWERS])
        path = tmp_path / f"{wish}.toml"
        start.run(path, start.Wish(), told_.console)
        found[wish] = (path.read_text(encoding="utf-8"), told_)
    assert told.missing() == {}
    english, spanish = (found[w][0] for w in ("english", "spanish"))
    plain = [job_reader.read(text) for text in (english, spanish)]
    assert plain[1].job.language == "spanish"
    assert jobs.replaced(plain[1], "job", language="english") == plain[0]
    assert "# Change it as you like" in english
    assert "# Change it as you like" not in spanish
    assert len(found["spanish"][1].asked) == len(found["english"][1].asked)


def test_an_old_job_stays_in_its_language(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever copies an English job at a Spanish machine prints for an English crew; the demo is nobody's."""
    monkeypatch.setenv(tongue.WISH, "spanish")
    old = written(tmp_path, {}, readings=False)
    for begin, language in ((str(old), "english"), (start.DEMO, "spanish")):
        path = tmp_path / f"{language}.toml"
        start.run(path, start.Wish(begin, ask=False), Script([]).console)
        assert job_reader.read(path.read_text(encoding="utf-8")).job.language == language


def test_what_was_typed_is_told_as_it_was_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("")
    tongue.heard("edgy")
    said = tongue.turned("! edgy: is not one of the choices. Choose from edge, flat, flush.")
    assert said.startswith("! edgy: ")
    assert said.endswith("edge, flat, flush.")
    assert "choices" not in said
    tongue.heard("no")  # a word of ours spoils nothing
    assert "choices" not in tongue.turned("is not one of the choices. Choose from edge, flat, flush.")


@pytest.mark.parametrize(
    ("read", "text", "right"),
    [
        (amounts.speed, "15 knots", "su unidad no es una de mph, km/h, kmh, m/s; escriba 15 mph"),
        (amounts.density, "30 stone", "su unidad no es una de lb/ft³, pcf, kg/m3; escriba 36 lb/ft³"),
        (amounts.density, "light", "un número y su unidad; escriba 36 lb/ft³"),
    ],
)
def test_a_unit_of_the_users_own_stays_out_of_what_is_told(
    read: Callable[[str, Unit], float], text: str, right: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("")
    with pytest.raises(amounts.AmountError) as caught:
        read(text, "in")
    assert tongue.turned(unechoed(caught.value, text)).endswith(right)


def test_lines_in_columns_stay_in_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("", ["Cobertizo"])
    rows = list(tongue.lines(["  Pitch     4/12", "  Bearing   12'"]))
    at = {row.index(value) for row, value in zip(rows, ("4/12", "12'"), strict=True)}
    assert len(at) == 1
    assert all(row.startswith("  ") and not row.startswith("   ") for row in rows)
    assert tongue.turned(Said("the board")) == "the board"
