"""What all tests share: property tests try the same cases in every run; each packet is written once; all cores work."""

from __future__ import annotations

import gc
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import effort
import pytest
import told
from hypothesis import HealthCheck, settings
from printed import Printed, print_out

from layouts import building
from layouts.fields import Job
from layouts.pieces import PieceLine
from layouts.search import Solve
from sheets import tongue

settings.register_profile(
    "rodwright",
    deadline=None,
    derandomize=True,
    max_examples=effort.examples(50),
    suppress_health_check=[HealthCheck.too_slow],  # whole buildings are; the more where code is measured
)
settings.load_profile("rodwright")


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """One process, without workers, where files are named, which is sooner begun, and for benchmarks, which have to be
    alone; else as many as there are cores."""
    return 0 if _named(config) or config.getoption("benchmark_only") else None


def _named(config: pytest.Config) -> bool:
    return any(Path(str(name).partition("::")[0]).is_file() for name in config.args)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """The tests of this run: all of a file or a test that is named, else what ``effort`` chooses."""
    if _named(config):
        return
    tests = [(item.nodeid.partition("[")[0].rpartition("/")[2], getattr(item, "obj", None)) for item in items]
    chosen = effort.chosen(tests)
    out = [item for item, stays in zip(items, chosen, strict=True) if not stays]
    items[:] = [item for item, stays in zip(items, chosen, strict=True) if stays]
    config.hook.pytest_deselected(items=out)


def pytest_collection_finish() -> None:
    """What is loaded by now stays to the end: the collector of circles need not walk it again and again."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session", params=["letter", "a4", "mm"])
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    """The demo on either paper and a metric job, as files."""
    return print_out(request.param, tmp_path_factory.mktemp("packets") / request.param)


MOST = 500  # plans that are kept
SHARED = Path("/dev/shm")  # files in memory, where there are some (Linux): every packet is flushed to its disk
if SHARED.is_dir() and os.access(SHARED, os.W_OK) and shutil.disk_usage(SHARED).free > 4 * 2**30:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(SHARED))
# compiled once, not in each of the hundreds of processes that tests start
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
if int(os.environ.get("PYTEST_XDIST_WORKER_COUNT", "1")) > 1:
    os.cpu_count = lambda: 1  # the other cores have tests of their own; commands that are run see them all
told.listen()
ORDERS = building._orders
_known: dict[tuple[object, ...], Any] = {}


def _orders(job: Job, pieces: tuple[PieceLine, ...], file: str, solve: Solve) -> Any:
    """What is to be bought, worked out once for the same boards: most tests lay one building out with other readings.
    The cutting plan has tests of its own, which do not come by here."""
    key = (job.lumber, pieces)
    if key not in _known:
        if len(_known) > MOST:
            _known.clear()
        _known[key] = ORDERS(job, pieces, file, solve)
    return _known[key]


building._orders = _orders


@pytest.fixture(autouse=True)
def _all_that_is_told_can_be_told_in_every_language() -> Iterator[None]:
    """A message that a catalogue lacks fails the test that has it told. The next one is told in English again."""
    yield
    tongue.speak("")
    assert told.missing() == {}


@pytest.fixture(scope="session", autouse=True)
def _machine_in_english() -> Iterator[None]:
    """Whoever runs the tests, the terminal speaks English in them where they do not want another language."""
    with pytest.MonkeyPatch.context() as patch:
        for name in (tongue.WISH, *tongue.MACHINE):
            patch.delenv(name, raising=False)
        yield


@pytest.fixture(scope="session", autouse=True)
def _no_printers_of_ones_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test may see the printer profiles of whoever runs it."""
    folder = str(tmp_path_factory.mktemp("config"))
    with pytest.MonkeyPatch.context() as patch:
        for name in ("XDG_CONFIG_HOME", "APPDATA", "LOCALAPPDATA"):
            patch.setenv(name, folder)
        yield
