"""A packet printed earlier against its job, function by function: every line that is told, to the last word."""

from __future__ import annotations

import hashlib
import json
from functools import cache
from pathlib import Path

import faults
import pytest
from faults import Bench
from msgspec.structs import replace
from pages_seen import small

from sheets import audit_stale, packet
from sheets.audit_stale import _Old, alone, stale
from sheets.packet import MANIFEST, Packet
from sheets.paper import PAPERS

FILE = "index.html"


@cache
def built(kind: str = "tags") -> Packet:
    return packet.build(small(), PAPERS["letter"], kind)


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    """Tags alone, as they were printed."""
    return faults.bench(tmp_path / "tags", "tags")


def listing(folder: Path) -> dict[str, object]:
    found = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    assert isinstance(found, dict)
    return found


def relist(folder: Path, **changes: object) -> None:
    (folder / MANIFEST).write_text(json.dumps({**listing(folder), **changes}), encoding="utf-8")


# --- the packet ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("about", "kind"),
    [
        ({"only": "tags"}, "tags"),
        ({"only": None, "files": ["rods.pdf"]}, None),
        ({"only": ""}, None),
        ({"files": ["rods.pdf", "rods-001.svg"]}, "rods"),
        ({"files": ["rods.pdf", "tags.pdf"]}, None),
        ({"files": ["packet.pdf"]}, None),
        ({"files": []}, None),
        ({}, None),
    ],
)
def test_the_one_kind_of_a_packet(about: dict[str, object], kind: str | None, tmp_path: Path) -> None:
    (tmp_path / MANIFEST).write_text(json.dumps(about), encoding="utf-8")
    assert alone(tmp_path) == kind


ROW = {"title": "a", "page": "x", "stamp": "b"}


@pytest.mark.parametrize(
    "about", [{}, {"sheets": []}, {"files": []}, {"sheets": [ROW], "files": []}, {"sheets": 3, "files": []}]
)
def test_a_folder_without_a_packet(about: dict[str, object], tmp_path: Path) -> None:
    (tmp_path / MANIFEST).write_text(json.dumps(about), encoding="utf-8")
    assert stale(tmp_path, built()) == [
        f"packet.json: missing or not to be read: there is no packet of ours in {tmp_path}"
    ]


def test_a_packet_that_can_be_used(bench: Bench) -> None:
    assert stale(bench.folder, bench.packet) == []
    relist(bench.folder, sha256=None)
    assert stale(bench.folder, bench.packet) == []


def test_all_that_is_told_of_a_folder_in_its_order(bench: Bench) -> None:
    """Stamps, changed files, missing ones, what they hold, the page for the phone, what is not ours."""
    folder = bench.folder
    code = dict(built().sheets[0].parts)["Tag A1"]
    rows = listing(folder)["sheets"]
    assert isinstance(rows, list)
    for row in rows:
        row["stamp"] = row["stamp"].replace(code, "ZZZZZ")
    files = listing(folder)["files"]
    assert isinstance(files, list)
    (folder / "tags-003.svg").write_bytes(
        (folder / "tags-003.svg").read_bytes().replace(b"<title>TOP", b"<title>TIP", 1)
    )
    (folder / "tags-002.svg").unlink()
    (folder / "more.PDF").write_bytes(b"")
    relist(folder, sheets=rows, files=[name for name in files if name != FILE])
    first = built().sheets[0]
    both = " ".join(sorted({first.stamp, *(stamp for _, stamp in first.parts)}))
    lines = stale(folder, built())
    assert lines[:5] == [
        f"Tag A1: stale: stamp ZZZZZ, the job now gives {code}",
        "tags-003.svg: changed on disk since it was printed",
        "tags-002.svg: missing",
        f"tags.pdf page 1 (Tag A1): carries stamp {both}, packet.json lists ZZZZZ",
        f"tags-001.svg (Tag A1): carries stamp {both}, packet.json lists ZZZZZ",
    ]
    assert lines[5].startswith("tags-003.svg (Tag C4, Tag C3): changed: tag-C4: the job gives 'TOP' at (")
    assert lines[6:] == [
        "index.html: missing: the job gives it now",
        "index.html: not ours: packet.json does not list it",
        "more.PDF: not ours: packet.json does not list it",
    ]


def test_stamps_that_differ() -> None:
    def told(*rows: tuple[str, int, str]) -> list[str]:
        return list(audit_stale._restamped(replace(built(), sheets=built().sheets[:2]), rows))

    own = [(name, number, code) for number in (1, 2) for name, code in built().sheets[number - 1].parts]
    (first, *others) = own
    assert told(*own) == []
    assert told(*others) == [f"{first[0]}: missing: the job gives it now, stamp {first[2]}"]
    assert told((first[0], 1, "22222"), *others) == [f"{first[0]}: stale: stamp 22222, the job now gives {first[2]}"]
    assert told(*own, ("Tag Z", 9, "22222")) == ["Tag Z: stale: the job no longer gives it"]
    bare = replace(built().sheets[0], parts=(), title="Index", stamp="33333")
    assert audit_stale._rows(bare) == (("Index", "33333"),)
    assert audit_stale._rows(built().sheets[0]) == built().sheets[0].parts


def test_files_whose_bytes_are_others(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"a")
    (tmp_path / "b").write_bytes(b"b")
    right = {name: hashlib.sha256(name.encode()).hexdigest() for name in "abc"}

    def told(digests: object) -> list[str]:
        return list(audit_stale._changed(tmp_path, ["a", "b", "c"], digests))

    assert told(right) == []
    assert told({**right, "b": right["a"]}) == ["b: changed on disk since it was printed"]
    assert told({"b": right["a"]}) == ["b: changed on disk since it was printed"]
    assert told({}) == told(None) == told([right]) == []


def test_the_page_for_the_phone(bench: Bench) -> None:
    def told(*changed: str, files: tuple[str, ...] = (FILE,)) -> list[str]:
        return list(audit_stale._page(bench.folder, bench.packet, files, changed))

    assert told() == []
    assert told(files=("tags.pdf",)) == [f"{FILE}: missing: the job gives it now"]
    (bench.folder / FILE).write_bytes(b"other")
    assert told() == told("tags.pdf: changed", f"x{FILE}: changed") == [f"{FILE}: stale: the job now gives another"]
    assert told(f"{FILE}: changed on disk since it was printed") == []
    (bench.folder / FILE).unlink()
    assert told() == []


def test_what_is_not_ours(tmp_path: Path) -> None:
    for name in ("b.svg", "a.PDF", "c.html", "d.txt", "e.svg", "f.png"):
        (tmp_path / name).write_bytes(b"")
    assert list(audit_stale._foreign(tmp_path, ["e.svg"])) == ["a.PDF", "b.svg", "c.html"]


def test_the_pages_that_are_listed() -> None:
    files = ["rods-001.svg", "tags.pdf", "tags-002.svg", "tags-02.svg", "lane-1.svg", "x-tags-001.svg", "tags-003.svg2"]
    assert audit_stale.kinds(files) == [("rods", "rods-001.svg"), ("tags", "tags-002.svg")]
    rows = [("Rod", 1, "22222"), ("Tag A1", 2, "33333"), ("Tag A2", 2, "44444"), ("More", 3, "55555")]
    assert audit_stale._pages(files, rows) == [
        _Old(1, "rods", "rods-001.svg", (("Rod", "22222"),)),
        _Old(2, "tags", "tags-002.svg", (("Tag A1", "33333"), ("Tag A2", "44444"))),
    ]
