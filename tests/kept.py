"""What a packet's folder holds, by its manifest, and the user's own files in it."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from sheets.swap import swap

MINE = {"notes.txt": "mine", "photos/a.jpg": "picture", "photos/more/b.jpg": "another"}


def put_mine(folder: Path) -> None:
    """The user's own files in a packet."""
    for name, text in MINE.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


def whole(folder: Path) -> str:
    """Which packet a folder holds: every listed file is there with its digest, and no other but the user's."""
    manifest = json.loads((folder / "packet.json").read_text(encoding="utf-8"))
    found = {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file()
    }
    del found["packet.json"]
    for name, text in MINE.items():
        if name in found:
            assert found.pop(name) == hashlib.sha256(text.encode()).hexdigest()
    assert found == manifest["sha256"]
    assert sorted(manifest["files"]) == sorted([*found, "packet.json"])
    return str(manifest["packet"])


def assert_all_mine(folder: Path) -> None:
    assert {n: (folder / n).read_text(encoding="utf-8") for n in MINE} == MINE


def left(folder: Path) -> list[str]:
    """What stands beside *folder* and is not for the user."""
    return sorted(p.name for p in folder.parent.iterdir() if p.name.startswith("."))


def can_swap(place: Path) -> bool:
    (place / "a").mkdir()
    (place / "b").mkdir()
    try:
        return swap(place / "a", place / "b")
    finally:
        (place / "a").rmdir()
        (place / "b").rmdir()
