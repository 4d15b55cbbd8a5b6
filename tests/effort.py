"""How much of the tests is run: the usual ones, in under three minutes on two cores, the rest besides, or all.

``long.txt`` names what is long and is left out of a usual run, or every how many cases of it one is left in; property
tests try a fifth of their examples. ``RODWRIGHT_TESTS=rest`` runs what a usual run leaves out, with half of the
examples; ``all`` runs everything.
``python tests/effort.py DURATIONS`` writes ``long.txt`` anew from what ``RODWRIGHT_TESTS=all pytest --durations=0
--durations-min=0.005`` has printed.
"""

from __future__ import annotations

import math
import os
import re
import sys
from collections import Counter, defaultdict
from collections.abc import Sequence
from pathlib import Path

from hypothesis import is_hypothesis_test

HOW = os.environ.get("RODWRIGHT_TESTS", "usual")
LISTED = Path(__file__).with_name("long.txt")
FEWER = 5  # a usual run tries one in so many examples
SHARE = {"usual": FEWER, "rest": 2, "all": 1}
if HOW not in SHARE:
    raise ValueError(f"RODWRIGHT_TESTS={HOW}: usual, rest or all")
LONG = 0.3  # seconds that a test, with all of its cases, may take in a usual run
BY_HAND = "by-hand"  # as third word of a row: it stays when the rows are written anew
_ROW = re.compile(r"\s*([\d.]+)s (?:call|setup|teardown)\s+(?:tests/)?(\S+?::\w+)(\[.*)?")


def examples(count: int) -> int:
    """How many of *count* examples a property test tries in this run."""
    return max(count // SHARE[HOW], 1)


def listed() -> dict[str, int]:
    """Each test of ``long.txt`` as ``file.py::name``, and one of how many cases is left in: 0 is none."""
    return {name: int(every) for name, every, *_ in map(str.split, _rows())}


def _rows() -> list[str]:
    return [line for line in LISTED.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]


def chosen(tests: Sequence[tuple[str, object]]) -> list[bool]:
    """Which of the *tests*, each its ``file.py::name`` and its function, belong to this run."""
    if HOW == "all":
        return [True] * len(tests)
    long, seen, found = listed(), Counter[str](), []
    for name, function in tests:
        every = long.get(name, 1)
        usual = every > 0 and seen[name] % every == 0
        seen[name] += 1
        found.append(usual if HOW == "usual" else not usual or is_hypothesis_test(function))
    return found


def _measured(printed: str) -> dict[str, str]:
    """What is long by what a run of all tests has *printed*."""
    took, cases = defaultdict[str, float](float), dict[str, set[str]]()
    for row in filter(None, map(_ROW.match, printed.splitlines())):
        took[row[2]] += float(row[1])
        cases.setdefault(row[2], set()).add(row[3] or "")
    found = {}
    for name, seconds in took.items():
        every = math.ceil(seconds / LONG / (FEWER if _tries_examples(name) else 1))
        if every == 1:
            continue
        found[name] = f"{name} {every if every < len(cases[name]) else 0}"
    return found


def _tries_examples(name: str) -> bool:
    file, _, function = name.partition("::")
    text = LISTED.with_name(file).read_text(encoding="utf-8")
    return re.search(rf"^@given\((?:(?!^def ).*\n)*def {function}\(", text, re.MULTILINE) is not None


if __name__ == "__main__":
    head = [line for line in LISTED.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    stays = {row.split()[0]: row for row in _rows() if row.endswith(BY_HAND)}
    rows = {**_measured(Path(sys.argv[1]).read_text(encoding="utf-8")), **stays}
    LISTED.write_text("\n".join([*head, *sorted(rows.values())]) + "\n", encoding="utf-8")
