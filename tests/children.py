"""The processes that this one has made and not yet waited for (Linux): a browser of other tests may be among them."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path


def children() -> set[int]:
    """Their numbers, by proc(5): the parent is the second field after the name, which ends with the last bracket."""
    found = set()
    for place in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            if int(place.read_text().rpartition(")")[2].split()[1]) == os.getpid():
                found.add(int(place.parent.name))
    return found
