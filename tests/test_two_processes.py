"""A packet that two processes have made is, byte for byte, the one that one process makes, whoever did what of it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from jobs import BASE, METRIC, job_text

from sheets import aside

ONE = "import os, sys\nos.cpu_count = lambda: 1\nfrom sheets.cli import main\nmain()"
TWO = "import os, sys\nos.cpu_count = lambda: 2\nfrom sheets.cli import main\nmain()"
# the second process takes no task before this one has slept, or the other way round
LATE = """
import os, time
from sheets import aside
home, turns = os.getpid(), aside._turns
def late(take):
    for number in turns(take):
        time.sleep(0.03 * ((os.getpid() == home) == {here}))
        yield number
aside._turns = late
"""
APART = pytest.mark.skipif(sys.platform != "linux", reason="no second process here")


def run(script: str, *arguments: str) -> str:
    done = subprocess.run([sys.executable, "-c", script, *arguments], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout + done.stderr


def files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@APART
@pytest.mark.parametrize("speaks", ["english", "spanish", "english and spanish"])
def test_the_same_packet(tmp_path: Path, speaks: str) -> None:
    job = tmp_path / "job.toml"
    base = METRIC if speaks == "spanish" else BASE
    job.write_text(job_text({"job.language": speaks}, base=base), encoding="utf-8")
    (tmp_path / "job.csv").write_text("column,reading\nA1,45\nA2,46\n" if base is BASE else "", encoding="utf-8")
    if base is METRIC:
        (tmp_path / "job.csv").unlink()
    scripts = {"one": ONE, "two": TWO, "here": LATE.format(here=False) + TWO, "there": LATE.format(here=True) + TWO}
    told = {
        name: run(script, "print", str(job), "--out", str(tmp_path / "out" / name)) for name, script in scripts.items()
    }
    assert len({text.replace(f"/{name}", "") for name, text in told.items()}) == 1
    one = files(tmp_path / "out" / "one")
    assert len(one) > 40
    for name in ("two", "here", "there"):
        assert files(tmp_path / "out" / name) == one, name


@APART
@pytest.mark.parametrize("options", ["--stale old --svg-parts", "--only cuts --png", "--only templates"])
def test_the_same_parts_of_a_packet(tmp_path: Path, options: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(job_text({"job.language": "spanish"}), encoding="utf-8")
    Path("job.csv").write_text("column,reading\nA1,45\nA2,46\n", encoding="utf-8")
    run(TWO, "print", "job.toml", "--out", "old", "-q", "--only", "tags")
    Path("job.csv").write_text("column,reading\nA1,45\nA2,46 1/4\n", encoding="utf-8")
    found = {}
    for name, script in {"one": ONE, "two": TWO}.items():
        run(script, "print", "job.toml", "--out", f"out/{name}", "-q", *options.split())
        found[name] = files(Path("out") / name)
    assert found["one"] == found["two"]
    for ending in {"--png": ".png", "--svg-parts": ".svg"}.items():
        assert ending[0] not in options or any(name.endswith(ending[1]) for name in found["one"])


HELD = """
import sys
from pathlib import Path
from sheets.load import load
from sheets import packet
from sheets.audit import differences
from sheets.paper import PAPERS
building = load(Path(sys.argv[1]))
built = packet.build(building, PAPERS["letter"])
print(*differences(built, building, Path(sys.argv[2])), sep="\\n")
"""


@APART
def test_the_same_differences(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(job_text(), encoding="utf-8")
    job.with_suffix(".csv").write_text("column,reading\nA1,45\nA2,46\n", encoding="utf-8")
    out = tmp_path / "out"
    run(TWO, "print", str(job), "--out", str(out), "-q")
    for name in ("walls-001.svg", "rods-001.svg", "cuts.pdf"):
        (out / name).unlink()
    (out / "index.html").write_bytes((out / "index.html").read_bytes().replace(b">A1<", b">A7<", 1))
    cores = "import os\nos.cpu_count = lambda: {}\n"
    slow = [LATE.format(here=here) for here in (False, True)]
    scripts = [cores.format(1), cores.format(2), *(cores.format(2) + late for late in slow)]
    one, *others = [run(script + HELD, str(job), str(out)) for script in scripts]
    assert len(one.splitlines()) >= 4
    assert others == [one] * 3


def doubling() -> Callable[[int], int]:
    return lambda n: 2 * n


def test_where_no_process_is_to_be_had_it_is_done_in_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """As where a limit of processes is reached: ``BlockingIOError`` by fork(2)."""

    def full() -> int:
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(os, "fork", full)
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    before = len(os.listdir("/proc/self/fd")) if sys.platform == "linux" else 0
    assert aside.shared(lambda: 1, lambda: 2, os.getpid) == [1, 2, os.getpid()]
    with aside.ready(doubling) as ask:
        assert ask(4) == 8
    if sys.platform == "linux":
        assert len(os.listdir("/proc/self/fd")) == before
