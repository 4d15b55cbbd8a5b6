"""A program whose sessions are killed, for ``test_shoot``.

    python killing_shoot.py JOB CSV

For each number read a child shoots three seats onto the file as it was at the start, and is killed at that line of what
saves (0: it is not). Printed is how it ended and which entries the file then holds, or what else it is.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from killing import dying

from sheets import rewrite, shoot

LINES = ("45 1/8", "45 1/4 note ä", "45")
BEGUN = "# Müller\nunit,inches\nsense,down\nread on,seat\ncolumn,reading,note\n"


def session(job: Path, csv: Path, at: int) -> None:
    """Shoot three seats."""
    left = iter(LINES)

    def ask(_: str) -> str:
        line = next(left, None)
        if line is None:
            raise EOFError
        return line

    sys.settrace(dying(at, {rewrite.__file__}))
    shoot.run(job, csv, at=shoot.Console(ask, lambda _: None, lambda: 0))


def main() -> None:
    """A child for each number."""
    job, csv = Path(sys.argv[1]), Path(sys.argv[2])
    wrote = [f"A{i},{line.replace(' note ', ',')}{',' * ('note' not in line)}\n" for i, line in enumerate(LINES, 1)]
    states = {(BEGUN + "".join(wrote[:n])).encode("cp1252"): n for n in range(len(wrote) + 1)}
    for number in sys.stdin:
        csv.write_bytes(BEGUN.encode("cp1252"))
        for left in csv.parent.glob(".*.new-*"):
            left.unlink()
        child = os.fork()
        if child == 0:
            session(job, csv, int(number))
            os._exit(0)
        _, status = os.waitpid(child, 0)
        found = csv.read_bytes()
        print("killed" if os.WIFSIGNALED(status) else f"ended {status}", states.get(found, found), flush=True)


if __name__ == "__main__":
    main()
