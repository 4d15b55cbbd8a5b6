"""The terminal in another language: which one, that nothing is left out, and that values stay as they are."""

from __future__ import annotations

import errno
import json
import os
import re
import sys
import tomllib
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

import catalogue as drawn
import jobs
import pytest
import told
import typer.main
from shooters import Script
from test_start_files import ANSWERS

from layouts import costs, job_text, languages, shooting_words, start_questions, start_walls, start_words
from layouts import job as job_reader
from layouts.fields import PARTS, specs
from layouts.fields_openings import OpeningPart
from layouts.languages import NAMES, code_of
from layouts.start_question import Question
from sheets import cli, compare, packet, start, tongue
from sheets.cli_help import Formatter
from sheets.language import Said
from sheets.load import load
from sheets.paper import PAPERS
from sheets.profile import UNMEASURED

ROOT = Path(__file__).parents[1]
WORD = re.compile(r"[A-Za-z]+")
SPANISH = {"job.language": "spanish"}


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    tongue.speak("")


# --- which language ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wish", "job", "machine", "spoken"),
    [
        ("", "", "", "english"),
        ("", "english", "", "english"),
        ("", "spanish", "", "spanish"),
        ("", "english and spanish", "", "english"),
        ("", "latin", "", "english"),
        ("", "", "es_MX.UTF-8", "spanish"),
        ("", "english", "es", "spanish"),
        ("", "spanish", "en_US.UTF-8", "spanish"),
        ("english", "spanish", "es_MX", "english"),
        ("Spanish", "english", "C", "spanish"),
        ("latin", "", "", "english"),
        ("", "", "fr_CA.UTF-8", "english"),
    ],
)
def test_a_wish_counts_before_the_job_and_the_job_before_the_machine(
    monkeypatch: pytest.MonkeyPatch, wish: str, job: str, machine: str, spoken: str
) -> None:
    monkeypatch.setenv(tongue.WISH, wish)
    monkeypatch.setenv("LANG", machine)
    tongue.speak(job)
    assert tongue.language() == spoken


def test_of_the_machines_settings_the_first_that_is_set_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    """POSIX.1-2017, base definitions, 8.2: LC_ALL before LC_MESSAGES before LANG (from memory)."""
    monkeypatch.setenv("LANG", "es_US")
    monkeypatch.setenv("LC_MESSAGES", "en_US")
    tongue.speak("")
    assert tongue.language() == "english"
    monkeypatch.setenv("LC_ALL", "es_US")
    tongue.speak("")
    assert tongue.language() == "spanish"


@pytest.mark.parametrize("name", NAMES)
def test_the_code_of_a_language_is_that_of_its_catalogue(name: str) -> None:
    assert code_of(name) == languages.catalogue(name).code


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ('[job]\nname = "x"\nlanguage = "spanish"\n', "spanish"),
        ('[job]\nlanguage = "spanish"\nname = \n', "spanish"),  # no TOML: it is looked for all the same
        ('[job]\nlanguage = ["spanish"]\n', ""),
        ('job = "spanish"\n', ""),
        ("", ""),
    ],
)
def test_a_job_that_is_refused_is_refused_in_its_language(text: str, name: str) -> None:
    assert tongue.of_texts({"shed.toml": text, "shed.csv": 'language = "latin"'}) == name


def test_no_text_has_no_language() -> None:
    assert tongue.of_texts({}) == ""


# --- what is told -----------------------------------------------------------------------------------------------------


def still() -> Iterator[str]:
    """Texts that are told as they stand in the code, by fields, questions and our words."""
    for part in (*PARTS.values(), OpeningPart):
        for _, spec in specs(part):
            yield spec.help
            yield start_words.any_of(spec.choices) + "?" if spec.choices else ""
    yield from job_text.TITLES.values()
    yield from (job_text.HEAD, *job_text.BARE.values())
    yield from (group.title.upper() for group in start_questions.GROUPS)
    for question in questions():
        yield question.ask
        yield question.left
        for unit in start_words.EXAMPLES.values():
            for level in ("grade line", "finished floor"):
                walls = start_words.walls(jobs.job())
                yield question.picture.format(walls=walls, level=level, **unit)
    for name, found in vars(start_words).items():
        if name.isupper() and isinstance(found, str):
            yield found.format("A1", "Known: A2.")
        elif name.isupper() and isinstance(found, dict):
            yield from (text for text in found.values() if isinstance(text, str))
    yield from shooting_words.WORDS.values()
    yield from costs.WORDS.values()


def questions() -> Iterator[Question]:
    """Every question that ``start`` may ask."""
    for group in start_questions.GROUPS:
        yield from group.questions
    for found in vars(start_walls).values():
        if isinstance(found, tuple):
            yield from (q for q in found if isinstance(q, Question))


@pytest.mark.parametrize("name", NAMES)
def test_every_text_that_stands_still_is_in_the_catalogue(name: str) -> None:
    texts = [text for text in still() if text]
    assert len(texts) > 500
    assert {part: text for text in texts for part in told.parts(told.speech(name), text)} == {}


def helps(command: Any, name: str = "rodwright", above: Any = None) -> Iterator[str]:
    """The help of a command and of those below it."""
    context = command.context_class(command, info_name=name, parent=above)
    yield command.get_help(context)
    for called, below in getattr(command, "commands", {}).items():
        yield from helps(below, called, context)


def test_help_is_whole_in_every_language(monkeypatch: pytest.MonkeyPatch) -> None:
    app = typer.main.get_command(cli.app)
    english = list(helps(app))
    assert told.missing() == {}
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("")
    spanish = list(helps(app))
    assert len(spanish) == len(english) == 9
    for mine, theirs in zip(spanish, english, strict=True):
        assert mine.startswith("Uso: ")
        options = re.compile(r"--[a-z][\w-]*|rodwright \w+")
        assert sorted(set(options.findall(mine))) == sorted(set(options.findall(theirs)))
    assert Formatter is app.context_class.formatter_class


def words_in(*folders: Path) -> set[str]:
    """Every word in the code of *folders*."""
    code = (path.read_text(encoding="utf-8") for folder in folders for path in folder.rglob("*.py"))
    return {word.lower() for text in code for word in WORD.findall(text)}


@pytest.mark.parametrize("name", NAMES)
def test_no_entry_of_the_terminal_is_left_over(name: str) -> None:
    """All words of each stand in the code, or in that of typer, which lays out help, or are of the operating system."""
    read = tomllib.loads(files(languages).joinpath(f"{name}.toml").read_text(encoding="utf-8"))["texts"]
    entries = [form for part, texts in read.items() if part.startswith("terminal") for form in texts]
    assert len(entries) > 1000
    known = words_in(ROOT / "layouts", ROOT / "sheets", Path(typer.__file__).parent)
    known |= {*NAMES} | {word.lower() for code in (errno.EISDIR, errno.ENOSPC) for word in os.strerror(code).split()}
    assert [form for form in entries if not {w.lower() for w in WORD.findall(form)} <= known] == []


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


def test_lines_in_columns_stay_in_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("", ["Cobertizo"])
    rows = list(tongue.lines(["  Pitch     4/12", "  Bearing   12'"]))
    at = {row.index(value) for row, value in zip(rows, ("4/12", "12'"), strict=True)}
    assert len(at) == 1
    assert all(row.startswith("  ") and not row.startswith("   ") for row in rows)
    assert tongue.turned(Said("the board")) == "the board"
