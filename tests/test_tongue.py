"""The terminal in another language: which one, that nothing is left out, and that values stay as they are."""

from __future__ import annotations

import errno
import os
import re
import tomllib
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

import jobs
import pytest
import told
import typer.main

from layouts import costs, job_text, languages, shooting_words, start_questions, start_walls, start_words
from layouts.languages import NAMES, code_of
from layouts.start_question import Question
from sheets import cli_run, tongue
from sheets.cli_help import Formatter

ROOT = Path(__file__).parents[1]
WORD = re.compile(r"[A-Za-z]+")
SPANISH = {"job.language": "spanish"}


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
    for part in told.TABLES:
        for spec in part.specs.values():
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


def test_what_stands_in_quotes_is_told_as_it_is_written(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("")
    said = tongue.turned('What a board costs, like ["2x4 16\' 9.80", "2x8 treated 16\' 24.50"].')
    assert '["2x4 16\' 9.80", "2x8 treated 16\' 24.50"]' in said
    assert tongue.turned('Choose from "a" and "b".').endswith('"a" y "b".')


def test_what_follows_known_words_is_told_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(tongue.WISH, "spanish")
    tongue.speak("")
    said = tongue.turned("is not known here. Known: a4, B.2. Or give its size, like 12x18 or 300x420mm.")
    assert ": a4, B.2. O dé su tamaño, como 12x18 o 300x420mm." in said


def test_what_is_asked_and_refused_at_a_prompt_is_told_in_spanish(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether an opening of this job is called OH or not; a choice that is refused stands as it was typed."""
    monkeypatch.setenv(tongue.WISH, "spanish")
    for own in ((), ("OH",)):
        tongue.speak("", own)
        named = tongue.turned("A short name that stands on all sheets, like OH or W1, no two alike.")
        assert named == "Un nombre corto que sale en todas las hojas, como OH o W1, sin repetir ninguno."
    again = tongue.asked("Read another one again? Two are better. [Enter: no more] ")
    assert again == "¿Lee otro más de nuevo? Mejor dos. [Enter: no more] "
    near = "! opening 1.jambs = posts: leaves 6 mm to the column on its left, and a jamb post takes 45 mm."
    said = "! opening 1.jambs = posts: deja 6 mm hasta la columna a su izquierda, y un poste de jamba ocupa 45 mm."
    assert tongue.turned(near) == said


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
    app = typer.main.get_command(cli_run.app)
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
    """All words of each stand in the code, or in that of typer, which lays out help, or are of the operating system; so
    do those of what sheets say seldom."""
    read = tomllib.loads(files(languages).joinpath(f"{name}.toml").read_text(encoding="utf-8"))["texts"]
    entries = [form for part, texts in read.items() if part.startswith(("terminal", "seldom")) for form in texts]
    assert len(entries) > 1000
    known = words_in(ROOT / "layouts", ROOT / "sheets", Path(typer.__file__).parent)
    known |= {*NAMES} | {word.lower() for code in (errno.EISDIR, errno.ENOSPC) for word in os.strerror(code).split()}
    assert [form for form in entries if not {w.lower() for w in WORD.findall(form)} <= known] == []
