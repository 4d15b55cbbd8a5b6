"""A run that cannot go on leaves the old packet, everything of the user's and no trace, and says what happened."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from kept import assert_all_mine, can_swap, left, put_mine, whole
from killing import small
from printed import demo_job

from sheets import disk
from sheets.swap import swap

# --- refused ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("stage", ["write", "check", "release", "move"])
@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt(), MemoryError()])
def test_a_run_that_fails_leaves_no_trace(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stage: str, error: BaseException
) -> None:
    out = tmp_path / "out"
    small(out, "old")
    put_mine(out)

    def fail(*_: Any) -> Any:
        raise error

    def write(new: Path) -> list[str]:
        (new / "a.txt").write_text("new")
        return fail() if stage == "write" else ["a.txt"]

    def rename(self: Path, target: Path | str) -> Path:
        if self.name.startswith(".out.new-") and Path(target).name == "out":
            fail()
        return real(self, target)

    real = Path.rename
    if stage == "release":
        monkeypatch.setattr(disk, "swap", fail)
    if stage == "move":
        monkeypatch.setattr(disk, "swap", lambda *_: False)
        monkeypatch.setattr(Path, "rename", rename)
    check = fail if stage == "check" else None
    for place in (out, tmp_path / "new" / "deeper" / "out") if stage in ("write", "check") else (out,):
        with pytest.raises(disk.CannotWrite if isinstance(error, OSError) else type(error)) as caught:
            disk.save(place, write, {"packet": "new"}, {"job.toml": b"job"}, check)
        if isinstance(error, OSError):
            assert "No space left on device." in str(caught.value)
            assert ("is as it was" in str(caught.value)) == (place == out)
    assert whole(out) == "old"
    assert_all_mine(out)
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_stopped_just_after_the_release_nothing_of_the_users_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not can_swap(tmp_path):
        pytest.skip("this system cannot exchange folders in one step")
    out = tmp_path / "out"
    small(out, "old")
    put_mine(out)

    def stop(one: Path, other: Path) -> bool:
        assert swap(one, other)
        raise KeyboardInterrupt

    monkeypatch.setattr(disk, "swap", stop)
    with pytest.raises(KeyboardInterrupt):
        small(out, "new")
    assert whole(out) == "new"
    assert_all_mine(out)
    assert left(out) == []


def test_a_run_that_fails_leaves_another_run_its_work(tmp_path: Path) -> None:
    """As long as it is at work."""
    with subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE) as other:
        new = tmp_path / f".out.new-{other.pid}"
        new.mkdir()
        (new / "half.pdf").write_text("%PDF")
        with pytest.raises(RuntimeError):
            disk.save(tmp_path / "out", failing, {})
        assert (new / "half.pdf").is_file()
        other.communicate(b"\n")
    with pytest.raises(RuntimeError):
        disk.save(tmp_path / "out", failing, {})
    assert list(tmp_path.iterdir()) == []


def failing(_: Path) -> list[str]:
    raise RuntimeError


def test_the_check_sees_the_finished_packet_before_it_is_released(tmp_path: Path) -> None:
    out = tmp_path / "out"
    small(out, "old")
    seen = []

    def check(new: Path) -> None:
        seen.append((whole(new), whole(out)))

    disk.save(out, lambda new: [], {"packet": "new"}, check=check)
    assert seen == [("new", "old")]


def test_a_reader_keeps_the_packet_that_he_has_open(tmp_path: Path) -> None:
    out = tmp_path / "out"
    small(out, "old")
    with (out / "one.txt").open(encoding="utf-8") as file:
        if os.name == "posix":
            small(out, "new")
            assert whole(out) == "new"
        assert set(file.read().split("\n")) == {"old one.txt", ""}


def test_a_file_that_another_program_holds_stops_the_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As on systems that do not let a folder be moved while a file in it is open."""
    out = tmp_path / "out"
    small(out, "old")
    real = Path.rename

    def rename(self: Path, target: Path | str) -> Path:
        if self == out:
            raise PermissionError(13, "Permission denied", str(self), None, str(target))
        return real(self, target)

    monkeypatch.setattr(disk, "swap", lambda *_: False)
    monkeypatch.setattr(Path, "rename", rename)
    with pytest.raises(disk.CannotWrite, match=r"out: Permission denied\. The packet in .*out is as it was\."):
        small(out, "new")
    assert whole(out) == "old"
    assert left(out) == []


def test_what_stands_in_the_way_of_the_users_file_costs_it_nothing(tmp_path: Path) -> None:
    """A killed run's old packet whose own notes meet others: both are kept."""
    out = tmp_path / "out"
    small(out, "old")
    (out / "notes.txt").write_text("older notes", encoding="utf-8")
    out.rename(tmp_path / f".out.old-{os.getpid()}")
    small(tmp_path / "other", "new")
    (tmp_path / "other" / "notes.txt").write_text("newer notes", encoding="utf-8")
    (tmp_path / "other").rename(out)
    disk.recover(out)
    texts = {p.read_text(encoding="utf-8") for p in tmp_path.rglob("notes.txt")}
    assert texts == {"older notes", "newer notes"}
    assert (out / "notes.txt").read_text(encoding="utf-8") == "newer notes"


# --- a disk of its own -----------------------------------------------------------------------------------------------

OWN_DISK = """
import json, os, subprocess, sys
from pathlib import Path
import kept

place, job = Path(sys.argv[1]), sys.argv[2]
out = place / "out"
told = []

def run(to):
    command = [sys.executable, "-m", "sheets.cli", "print", job, "--only", "tags", "--out", str(to)]
    done = subprocess.run(command, capture_output=True, text=True)
    state = kept.whole(out) if out.exists() else ""
    told.append([done.returncode, done.stderr, state, kept.left(out)])

def mount(*words):
    subprocess.run(["mount", *words, str(place)], check=True)

mount("-t", "tmpfs", "-o", "size=4m", "tmpfs")
run(out)
kept.put_mine(out)
space = os.statvfs(place)
(place / "filler").write_bytes(bytes(space.f_bavail * space.f_frsize - 200_000))
run(out)
(place / "filler").unlink()
run(out)
run(place)
mount("-o", "remount,ro")
run(out)
run(place / "other")
kept.assert_all_mine(out)
print(json.dumps(told))
"""


def own_mounts() -> list[str]:
    """How to run a command whose mounts nobody else sees; empty where that is not allowed."""
    for command in (["unshare", "--mount"], ["unshare", "--mount", "--map-root-user"]):
        try:
            if subprocess.run([*command, "true"], capture_output=True).returncode == 0:
                return command
        except OSError:
            break
    return []


def test_a_full_and_a_read_only_disk_leave_the_old_packet(tmp_path: Path) -> None:
    """Exit code 3, and the message says which; a folder that is a whole drive is refused too."""
    alone = own_mounts()
    if not alone:
        pytest.skip("no mounts of one's own here")
    root = demo_job().parents[2]
    path = os.pathsep.join([str(root), str(root / "tests")])
    command = [*alone, sys.executable, "-c", OWN_DISK, str(tmp_path), str(demo_job())]
    done = subprocess.run(command, env={**os.environ, "PYTHONPATH": path}, capture_output=True, text=True)
    if "mount" in done.stderr and "permission denied" in done.stderr.lower():
        pytest.skip("no mounts of one's own here")
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    first, full, again, drive, fixed, other = told
    assert [row[0] for row in told] == [0, 3, 0, 3, 3, 3]
    assert {row[2] for row in told} == {first[2]}
    assert all(row[3] == [] for row in told)
    assert "No space left on device. The packet in" in full[1]
    assert "is a whole drive" in drive[1]
    assert f"{tmp_path}: Read-only file system. The packet in {tmp_path / 'out'} is as it was." in fixed[1]
    assert f"{tmp_path}: Read-only file system." in other[1]
    for row in (full, drive, fixed, other):
        assert "Nothing was written." in row[1]
        assert "Traceback" not in row[1]
    assert first[1] == again[1]
