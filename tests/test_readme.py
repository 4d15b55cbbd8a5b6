"""The README says what is true: its two commands, its table of fields, its commands and its pictures."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from layouts.fields import table
from layouts.lengths import parse
from sheets.cli_run import app

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```\n(.*?)```", README, re.DOTALL)


def test_the_first_command_sets_up_and_prints_the_demo() -> None:
    assert BLOCKS[0].strip() == "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/rodwright demo"


def test_ci_runs_the_second_command_as_it_is_written() -> None:
    command = BLOCKS[1].strip()
    assert command == "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/pytest"
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    pattern = re.search(r"grep -m1 -E '([^']+)' README.md", script)
    assert pattern is not None, "the script reads the command out of the README"
    matching = [line for line in README.splitlines() if re.search(pattern[1], line)]
    assert matching == [command]


def test_the_table_of_fields_is_the_one_in_the_code() -> None:
    found = re.search(r"<!-- fields:[^>]*-->\n(.*?)\n<!-- /fields -->", README, re.DOTALL)
    assert found is not None
    assert found[1] == table()


def test_every_command_is_told_and_no_other() -> None:
    told = set(re.findall(r"^\| `rodwright (\w+)", README, re.MULTILINE))
    shown = set(re.findall(r"^  (\w+)  ", CliRunner().invoke(app, ["--help"]).output, re.MULTILINE))
    assert told == shown == {"demo", "check", "print", "audit", "ruler", "compare", "shoot", "start"}


@pytest.mark.parametrize("command", ["demo", "check", "print", "audit", "ruler", "compare", "shoot", "start"])
def test_every_option_is_told(command: str) -> None:
    row = next(line for line in README.splitlines() if line.startswith(f"| `rodwright {command}"))
    told = CliRunner().invoke(app, [command, "--help"]).output.partition("Examples:")[0]
    shown = set(re.findall(r"(--[\w-]+)", told)) - {"--help"}
    assert set(re.findall(r"(--[\w-]+)", row)) == shown


@pytest.mark.parametrize("command", ["", "demo", "check", "print", "audit", "ruler", "compare", "shoot", "start"])
def test_help_teaches_with_examples_and_fits_80_columns(command: str) -> None:
    output = CliRunner().invoke(app, [*command.split(), "--help"]).output
    assert output.isascii()
    assert max(map(len, output.splitlines())) <= 80
    examples, _, then = output.partition("Examples:")[2].strip().partition("\n\n")
    lines = [line.strip() for line in examples.replace("\\\n", " ").splitlines()]
    assert 2 <= len(lines) <= 4
    assert then.strip()
    for line in lines:
        # every option of an example is one of its command
        _, name, *words = line.split()
        known = CliRunner().invoke(app, [name, "--help"]).output.partition("Examples:")[0]
        assert name == command or not command
        assert all(f"{word} " in known for word in words if word.startswith("--")), line


def test_the_lengths_it_shows_are_read() -> None:
    shown = re.search(r"## How to write a length\n\n(.*?)\. A bare number", README, re.DOTALL)
    assert shown is not None
    lengths = re.findall(r"`([^`]+)`", shown[1])
    # 144 + 9.6875, 41.375 twice, 38, 48.48, 3650 mm = 3.65 m = 143.7008 in
    assert [round(parse(text, "in"), 4) for text in lengths] == [153.6875, 153.6875, 41.375, 41.375, 38, 48.48] + [
        143.7008
    ] * 2


def test_its_pictures_and_links_are_there() -> None:
    for target in re.findall(r"\]\(([^)#]+)\)", README):
        assert (ROOT / target).is_file(), target
