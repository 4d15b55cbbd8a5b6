"""What a shell is offered, asked as bash asks."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from sheets import cli_app, cli_run
from sheets.printers import save
from sheets.profile import Profile


def offered(line: str) -> list[str]:
    """The words that bash is offered for the last one of *line*."""
    words = line.split(" ")
    result = CliRunner().invoke(
        cli_run.app,
        [],
        prog_name="rodwright",
        env={"_RODWRIGHT_COMPLETE": "complete_bash", "COMP_WORDS": line, "COMP_CWORD": str(len(words) - 1)},
    )
    assert result.exit_code == 0
    return result.stdout.split()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with jobs in it, which is where one stands."""
    for name in ("shed.toml", "shop.toml", "shed.csv", "notes.txt", "old/barn.toml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_commands_files_and_names_are_offered(folder: Path) -> None:
    assert offered("rodwright c") == ["check", "compare"]
    assert offered("rodwright check ") == ["shed.toml", "shop.toml"]
    assert offered("rodwright check she") == ["shed.toml"]
    assert offered("rodwright check old/") == ["old/barn.toml"]
    assert offered("rodwright check shed.toml --readings ") == ["shed.csv"]
    assert offered("rodwright print shed.toml --paper arch-e") == ["arch-e", "arch-e1"]
    assert offered("rodwright print shed.toml --only ta") == ["tags"]
    assert "--printer" in offered("rodwright print shed.toml --p")
    assert offered("rodwright print shed.toml --out ") == [], "left to the shell"
    assert offered("rodwright check none/") == []


def test_printers_of_ones_own_are_offered(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cli_app, "config", lambda: folder / "config" / "printers.toml")
    assert offered("rodwright print shed.toml --printer ") == []
    save(folder / "printers.toml", Profile("Office", "letter", 1.001, 1.0))
    assert offered("rodwright print shed.toml --printer O") == ["Office"]
    (folder / "printers.toml").write_text("[broken")
    assert offered("rodwright print shed.toml --printer ") == []


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish", "powershell"])
def test_the_script_for_a_shell_is_shown(shell: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("typer.completion._get_shell_name", lambda: shell)
    result = CliRunner().invoke(cli_run.app, ["--show-completion"], prog_name="rodwright")
    assert result.exit_code == 0
    assert "_RODWRIGHT_COMPLETE" in result.stdout
