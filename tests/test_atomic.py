"""Whatever happens to a run, the folder holds a whole packet, the old or the new, and everything of the user's."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from kept import assert_all_mine, can_swap, left, put_mine, whole
from killing import small

from sheets import disk
from sheets.swap import swap

HERE = Path(__file__).parent
posix = pytest.mark.skipif(os.name != "posix", reason="no fork and no kill here")


@contextmanager
def program(folder: Path, how: str) -> Iterator[Any]:
    """``killing.py`` at work on *folder*: a function that gives it a line and returns its answer."""
    path = os.pathsep.join([str(HERE.parent), str(HERE)])
    command = [sys.executable, str(HERE / "killing.py"), str(folder), how]
    pipes: dict[str, Any] = {
        "stdin": subprocess.PIPE,
        "stdout": subprocess.PIPE,
        "text": True,
        "start_new_session": True,
    }
    with subprocess.Popen(command, env={**os.environ, "PYTHONPATH": path}, **pipes) as process:

        def ask(line: str | None = None, process: Any = process) -> str:
            if line is not None:
                process.stdin.write(f"{line}\n")
                process.stdin.flush()
            return str(process.stdout.readline()).strip()

        try:
            yield ask
        except BaseException:
            os.killpg(process.pid, signal.SIGKILL)  # and its child, which would go on for ever
            raise
        process.communicate()
        assert process.wait(20) == 0


# --- two folders change places ---------------------------------------------------------------------------------------


def test_two_folders_change_places(tmp_path: Path) -> None:
    if not can_swap(tmp_path):
        pytest.skip("this system cannot exchange folders in one step")
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "name").write_text(name)
    numbers = {name: (tmp_path / name).stat().st_ino for name in ("a", "b")}
    assert swap(tmp_path / "a", tmp_path / "b")
    assert [(tmp_path / name / "name").read_text() for name in ("a", "b")] == ["b", "a"]
    assert {name: (tmp_path / name).stat().st_ino for name in ("b", "a")} == {"b": numbers["a"], "a": numbers["b"]}
    with pytest.raises(FileNotFoundError):
        swap(tmp_path / "a", tmp_path / "none")


# --- killed ----------------------------------------------------------------------------------------------------------


@posix
@pytest.mark.parametrize("tidy", [True, False])
@pytest.mark.parametrize("how", ["lines", "moves"])
def test_killed_at_any_line_a_whole_packet_is_there(tmp_path: Path, how: str, tidy: bool) -> None:
    """Where folders can be exchanged there is no moment without one; elsewhere the next run brings it back. A run finds
    all *tidy*, or what the run before has left."""
    if how == "lines" and not can_swap(tmp_path):
        pytest.skip("this system cannot exchange folders in one step")
    out = tmp_path / "barn [2]"
    small(out, "first")
    put_mine(out)
    seen, missing, at, answer = set(), 0, 0, "killed"
    with program(out, how) as ask:
        while answer == "killed":
            at += 1
            answer = ask(f"v{at} {at}")
            missing += not out.exists()
            if tidy or at % 7 == 0:
                disk.recover(out)
                assert_all_mine(out)
                assert left(out) == []
            if out.exists():
                seen.add(whole(out))
    assert answer == "ended 0"
    assert at > 100, "killed too rarely"
    assert len(seen) > 5, "never killed after the exchange"
    assert missing == 0 if how == "lines" else missing > 0 or not tidy
    assert whole(out) == f"v{at}"
    assert_all_mine(out)
    assert left(out) == []


@posix
def test_killed_at_any_time_a_whole_packet_is_there(tmp_path: Path) -> None:
    """Twelve kills from outside, of runs that write packets of the demo."""
    if not can_swap(tmp_path):
        pytest.skip("this system cannot exchange folders in one step")
    out, pick = tmp_path / "out", random.Random(3)
    small(out, "first")
    put_mine(out)
    interrupted = 0
    with program(out, "loop") as ask:
        assert ask() == "ready"
        for _ in range(12):
            before = out.stat().st_ino
            child = int(ask("go"))
            if pick.random() < 0.75:  # else it may be killed at its first packet, or before
                while out.stat().st_ino == before:
                    time.sleep(0.005)
                    os.kill(child, 0)  # it is at work
            time.sleep(pick.uniform(0.0, 0.2))
            os.kill(child, signal.SIGKILL)
            assert ask() == "killed"
            assert whole(out) in ("first", "Larkspur machine shed")
            interrupted += bool(left(out))
    assert interrupted, "no run was killed at work"
    small(out, "last")
    assert whole(out) == "last"
    assert_all_mine(out)
    assert left(out) == []


def test_the_first_packet_of_a_killed_run_leaves_no_folder(tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    new = tmp_path / f".out.new-{gone.pid}"
    new.mkdir()
    (new / "half.pdf").write_text("%PDF")
    new.rename(f"{new}-{new.stat().st_ino}")
    disk.recover(tmp_path / "out")
    assert list(tmp_path.iterdir()) == []


def test_what_a_run_that_goes_on_is_writing_is_left_alone(tmp_path: Path) -> None:
    """So are folders that only look alike."""
    others = [f".out.new-{os.getppid()}-5", ".out.new-x", ".out.newer-1", ".outer.new-1", ".out.old"]
    for name in others:
        (tmp_path / name).mkdir()
        (tmp_path / name / "a").write_text(name)
    small(tmp_path / "out", "one")
    small(tmp_path / "out", "two")
    assert left(tmp_path / "out") == sorted(others)
    assert all((tmp_path / name / "a").read_text() == name for name in others)


@posix
def test_of_two_runs_at_once_the_last_wins(tmp_path: Path) -> None:
    """Never a mix, and the user's files stay."""
    if not can_swap(tmp_path):
        pytest.skip("this system cannot exchange folders in one step")
    out = tmp_path / "out"
    small(out, "first")
    put_mine(out)
    script = "import sys, killing, pathlib\nfor n in range(150): killing.small(pathlib.Path(sys.argv[1]), sys.argv[2])"
    path = os.pathsep.join([str(HERE.parent), str(HERE)])
    runs = [
        subprocess.Popen([sys.executable, "-c", script, str(out), name], env={**os.environ, "PYTHONPATH": path})
        for name in ("left", "right")
    ]
    assert [run.wait(60) for run in runs] == [0, 0]
    assert whole(out) in ("left", "right")
    assert_all_mine(out)
    assert left(out) == []
