"""How fast, how large: run on demand with ``pytest tests/test_benchmark.py --benchmark-only -s``.

Every figure is the median of five cold processes of one run; nothing here passes or fails by a time. The table goes
into DEVELOPERS.md.
"""

from __future__ import annotations

import marshal
import os
import resource
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from bench_floor import POINT, flattened
from msgspec.structs import replace
from pytest_benchmark.fixture import BenchmarkFixture

from layouts import job as job_file
from layouts import joints, stock
from layouts.building import lay_out
from layouts.lengths import parse
from layouts.plan import lay
from layouts.readings import Readings
from sheets import packet, wall
from sheets.paper import PAPERS

TESTS = Path(__file__).parent
ROUNDS = 5

JOB = """
[job]
name = "Bench"
[building]
width = "40'"
length = "{feet}'"
bays = {bays}
front_columns = ["10'", "20'", "30'"]
back_columns = ["10'", "20'", "30'"]
[column]
stock = ["16'", "18'", "20'", "22'", "24'"]
[truss]
bearing = "13'-6"
heel = "11 7/8"
pitch = "5/12"
[roof]
overhang = "18"
fascia = "7 1/4"
soffit = "level"
[wainscot]
nailer = "2x6"
"""


def job_text(columns: int) -> str:
    """A building of *columns* columns: six in the gables, the rest along the eaves, 8 ft apart (4 if many)."""
    bays = (columns - 6) // 2 - 1
    return JOB.format(feet=bays * (8 if columns < 100 else 4), bays=bays)


def readings(names: list[str]) -> dict[str, float]:
    """Uneven seats within two inches."""
    return {name: 45 + (i * 7 % 29) / 16 for i, name in enumerate(names)}


@pytest.fixture(scope="module")
def folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as path:
        yield Path(path)


def write_job(folder: Path, columns: int) -> Path:
    path = folder / f"bench-{columns}.toml"
    path.write_text(job_text(columns))
    names = [s.name for s in lay(job_file.read(job_text(columns))).spots]
    assert len(names) == columns
    rows = [f"{name},{value}" for name, value in readings(names).items()]
    path.with_suffix(".csv").write_text("\n".join(["column,reading", *rows]))
    return path


def run(*arguments: str) -> None:
    where = {**os.environ, "PYTHONPATH": str(TESTS.parent)}
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True, cwd=TESTS.parent, env=where)


def cold(benchmark: BenchmarkFixture, *arguments: str, rounds: int = ROUNDS) -> None:
    benchmark.pedantic(run, arguments, rounds=rounds, warmup_rounds=1)  # type: ignore[no-untyped-call]
    benchmark.extra_info["peak_mb_of_all_so_far"] = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024


def built(columns: int) -> packet.Packet:
    job = job_file.read(job_text(columns))
    names = [s.name for s in lay(job).spots]
    return packet.build(lay_out(job, Readings(readings(names), {})), PAPERS["letter"])


def test_check_cold(benchmark: BenchmarkFixture, folder: Path) -> None:
    """More rounds than of what takes long: one that is disturbed takes half as long again."""
    cold(benchmark, "-m", "sheets.cli", "check", str(write_job(folder, 24)), rounds=5 * ROUNDS)


@pytest.mark.parametrize("columns", [24, 500])
def test_packet_cold(benchmark: BenchmarkFixture, folder: Path, columns: int) -> None:
    """Into a new folder each time: how long a disk takes to throw an old packet away is its own affair."""
    job, rounds = str(write_job(folder, columns)), count()
    printing = ("-m", "sheets.cli", "print", job, "--out")

    def anew() -> tuple[tuple[str, ...], dict[str, str]]:
        return (*printing, str(folder / f"packet-{columns}-{next(rounds)}")), {}

    benchmark.pedantic(run, setup=anew, rounds=ROUNDS, warmup_rounds=1)  # type: ignore[no-untyped-call]
    benchmark.extra_info["packet_kb"] = (folder / f"packet-{columns}-0" / "packet.pdf").stat().st_size // 1024
    benchmark.extra_info["peak_mb_of_all_so_far"] = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024
    if benchmark.stats:
        benchmark.extra_info["ms_a_column"] = round(benchmark.stats["median"] / columns * 1000, 2)


@pytest.mark.parametrize("times", [1, 2, 3])
def test_floor_cold(benchmark: BenchmarkFixture, folder: Path, times: int) -> None:
    """Bare reportlab, the same shapes as the packet of 24 columns: once (the packet's PDF), twice (and the PDF of each
    kind), three times (and the SVG)."""
    pages = [s.page.drawing for s in built(24).sheets]
    drawn = [(POINT * page.width, POINT * page.height, flattened(page.shapes)) for page in pages]
    kinds = Counter(kind for _, _, shapes in drawn for kind, *_ in shapes)
    benchmark.extra_info.update(kinds)
    shapes = folder / "shapes"
    shapes.write_bytes(marshal.dumps(drawn))
    cold(benchmark, str(TESTS / "bench_floor.py"), str(shapes), str(times), str(folder / "floor.pdf"))


def test_joints_of_a_long_wall(benchmark: BenchmarkFixture) -> None:
    """60 rows over 250 columns."""
    row = joints.Row(0.0, 251 * 96.0, tuple(96.0 * i for i in range(1, 251)), (120.0, 144.0, 192.0, 240.0))
    benchmark(joints.stagger, [row] * 60)


@pytest.mark.parametrize("columns", [120, 480])
def test_joints_of_mixed_rows(benchmark: BenchmarkFixture, columns: int) -> None:
    """Four times the columns should take about four times as long."""
    at = tuple(96.0 * i for i in range(1, columns))
    rows = [
        joints.Row(1.5 + 3 * k, 96.0 * columns - 1.5, at, (192.0,) if k % 7 == 0 else (144.0, 240.0)) for k in range(20)
    ]
    benchmark(joints.stagger, rows)


# 200 pieces in 15 lengths from 5 stock lengths, which best fit and adding up do not prove
CUTTING = """
from layouts.stock import Want, plan
counts = (7, 13, 18, 11, 16, 9, 14, 19, 12, 17, 10, 15, 8, 13, 18)
wants = [Want(f"#{n}", 24.5 + (n * 23 % 61) * 2.6875 + n / 16, count) for n, count in enumerate(counts)]
stock = (96.0, 120.0, 144.0, 192.0, 240.0)
"""


def test_cutting_plan(benchmark: BenchmarkFixture) -> None:
    """The solver is loaded already."""
    given: dict[str, Any] = {}
    exec(CUTTING, given)
    done = benchmark.pedantic(stock.plan, (given["wants"], given["stock"]), rounds=ROUNDS, warmup_rounds=1)  # type: ignore[no-untyped-call]
    benchmark.extra_info["pieces"] = sum(len(stick.cuts) for stick in done.sticks)
    benchmark.extra_info["proved"] = done.proved


def test_cutting_plan_cold(benchmark: BenchmarkFixture) -> None:
    cold(benchmark, "-c", f"{CUTTING}assert plan(wants, stock).proved")


# a wall of 60 ft with four openings, every one of another kind or place
OPENINGS = """
[[opening]]
name = "Door 1"
wall = "A"
kind = "overhead"
width = "8'"
height = "8'"
bay = 1
[[opening]]
name = "Door 2"
wall = "A"
kind = "walk"
width = "3'"
height = "6'-8"
bay = 3
[[opening]]
name = "Win 1"
wall = "A"
kind = "window"
width = "3'"
height = "3'"
sill = "3'-6"
bay = 4
[[opening]]
name = "Win 2"
wall = "A"
kind = "window"
width = "3'"
height = "3'"
sill = "3'-6"
bay = 6
"""


def test_a_wall_with_openings(benchmark: BenchmarkFixture) -> None:
    """Its building laid out and the wall drawn: its pictures, its pieces, its lift and nails."""
    job = job_file.read(JOB.format(feet=60, bays=6) + OPENINGS)
    seats = Readings(readings([s.name for s in lay(job).spots]), {})

    def drawn() -> int:
        building = lay_out(job, seats)
        only = replace(building, walls=tuple(w for w in building.walls if w.name == "A"))
        return len(wall.pages(only, PAPERS["letter"]))

    benchmark.extra_info["pages"] = drawn()
    benchmark.pedantic(drawn, rounds=ROUNDS, warmup_rounds=1)  # type: ignore[no-untyped-call]


def test_reading_a_length(benchmark: BenchmarkFixture) -> None:
    benchmark(parse, "12'-9 11/16\"", "in")
