"""A program whose runs are killed: it saves packets on command in a child of its own, for ``test_atomic``.

    python killing.py FOLDER lines|moves|loop

``lines``: each line read is a version and a line count; a child saves that version and is killed where it comes to that
line of what writes, moves and deletes (0: it is not). ``moves`` is the same on a system that cannot exchange folders.
``loop``: for each line read a child saves two packets of the demo in turn, without end; its process number is printed.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from collections.abc import Callable, Collection
from itertools import cycle
from pathlib import Path
from types import FrameType
from typing import Any

from sheets import disk, packet
from sheets import swap as swapping

TRACED = {disk.__file__, swapping.__file__, shutil.__file__}


def small(folder: Path, version: str) -> None:
    """Save a packet of three files, one of them with a name of its own."""

    def write(new: Path) -> list[str]:
        names = ["one.txt", "two.txt", f"{version}.txt"]
        for name in names:
            (new / name).write_text(f"{version} {name}\n" * 100, encoding="utf-8")
        return names

    disk.save(folder, write, {"packet": version})


def dying(at: int, traced: Collection[str] = TRACED) -> Callable[[FrameType, str, Any], Any]:
    """A trace that kills this process at the line of the files *traced* that comes as number *at*."""
    count = 0

    def trace(frame: FrameType, event: str, _: Any) -> Any:
        nonlocal count
        if frame.f_code.co_filename not in traced:
            return None
        if event == "line":
            count += 1
            if count == at:
                os.kill(os.getpid(), signal.SIGKILL)
        return trace

    return trace


def in_child(work: Callable[[], None]) -> int:
    """Run *work* in a child."""
    child = os.fork()
    if child == 0:
        work()
        os._exit(0)
    return child


def by_line(folder: Path) -> None:
    """A child for each version and line count; prints whether it was killed."""
    for words in sys.stdin:
        version, at = words.split()

        def work(version: str = version, at: int = int(at)) -> None:
            sys.settrace(dying(at))
            small(folder, version)

        _, status = os.waitpid(in_child(work), 0)
        print("killed" if os.WIFSIGNALED(status) else f"ended {status}", flush=True)


def by_time(folder: Path) -> None:
    """A child for each line read, until it is killed from outside."""
    from printed import demo_job

    from sheets.load import load
    from sheets.paper import PAPERS

    building = load(demo_job())
    packets = cycle([packet.build(building, PAPERS["letter"], kind) for kind in ("tags", "cuts")])
    print("ready", flush=True)
    for _ in sys.stdin:

        def work() -> None:
            for one in packets:
                packet.save(one, folder)

        child = in_child(work)
        print(child, flush=True)
        os.waitpid(child, 0)
        print("killed", flush=True)


if __name__ == "__main__":
    out, how = Path(sys.argv[1]), sys.argv[2]
    if how == "moves":
        vars(disk)["swap"] = lambda one, other: False
    if how == "loop":
        by_time(out)
    else:
        by_line(out)
