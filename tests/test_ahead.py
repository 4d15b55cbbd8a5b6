"""The solver that is sent for when a command begins: for which commands, how long it stays, and that it plans alike."""

from __future__ import annotations

import os
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest
from children import children
from conftest import ORDERS
from jobs import BASE, job_text

from layouts import building, search
from layouts.cutting import least
from layouts.search import Found, Sought
from sheets import ahead, cli_work
from sheets.load import load
from sheets.progress import bar

OTHERS: set[int] = set()  # processes that other tests have
APART = pytest.mark.skipif(sys.platform != "linux", reason="no second process here")


@pytest.fixture(autouse=True)
def _as_when_a_command_begins(monkeypatch: pytest.MonkeyPatch) -> None:
    """The solver is not here yet, and there is a core for it."""
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    monkeypatch.setattr(ahead, "SOLVER", "not loaded yet")
    OTHERS.clear()
    OTHERS.update(children())


def alone() -> bool:
    """Whether this process has none of its own but those of other tests."""
    return children() <= OTHERS


@APART
@pytest.mark.parametrize("words", ["check a.toml", "print a.toml --out x", "demo", "audit x a.toml"])
def test_it_is_sent_for_where_a_building_is_laid_out(words: str) -> None:
    with ahead.begun(words.split()):
        assert not alone()
        with ahead.solver():
            assert not alone()
        assert alone(), "it has gone when the building is laid out"
    assert alone()


@pytest.mark.parametrize("words", ["", "--help", "compare a b", "check --help", "shoot a.toml", "start"])
def test_it_is_not_sent_for_in_vain(words: str) -> None:
    with ahead.begun(words.split()):
        assert alone()


def test_nor_where_it_is_here_already(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "SOLVER", "sys")
    with ahead.begun(["check", "a.toml"]):
        assert alone()
        with ahead.solver() as solve:
            assert solve is search.solve


@APART
def test_it_goes_with_a_command_that_asks_for_nothing_or_fails() -> None:
    with ahead.begun(["check", "a.toml"]):
        pass
    assert alone()
    with pytest.raises(SystemExit), ahead.begun(["check", "a.toml"]):
        raise SystemExit(1)
    assert alone()
    with ahead.solver() as solve:
        assert solve is search.solve, "nobody is asked who has gone"


def test_a_second_building_of_a_command_is_planned_here() -> None:
    with ahead.begun(["demo"]):
        with ahead.solver():
            pass
        with ahead.solver() as solve:
            assert solve is search.solve


def _only_apart(home: int, sought: Sought) -> Found:
    assert os.getpid() != home, "the second process answers"
    answer = least(sought.job, sought.start, sought.bound, sought.effort)
    return Found(answer.cutting, answer.bound, sought.job.cost(answer.cutting) <= answer.bound)


def test_plans_from_there_are_those_from_here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whole: what is asked and found goes through the pipes."""
    path = tmp_path / "job.toml"
    path.write_text(job_text(BASE))
    asked: list[Sought] = []

    def here(sought: Sought) -> Found:
        asked.append(sought)
        return search.solve(sought)

    monkeypatch.setattr(building, "_orders", ORDERS)  # not what is kept of it
    expected = load(path, None, here)
    assert asked, "a job whose plans are all proved by adding up shows nothing"
    with monkeypatch.context() as patch, bar(quiet=True) as told:
        if sys.platform == "linux":
            patch.setattr(search, "solve", partial(_only_apart, os.getpid()))
        with ahead.begun(["check", str(path)]):
            assert cli_work.loaded(path, None, told) == expected


@APART
def test_the_process_of_a_command_does_not_load_it(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(job_text(BASE))
    script = (
        "import os, sys\nos.cpu_count = lambda: 2\nfrom sheets.cli import main\ntry:\n    main()\nexcept SystemExit:\n"
        "    pass\nprint({'highspy', 'numpy'} & {*sys.modules})"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, "check", str(path)], capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines()[-1] == "set()"
