"""The packet on the disk: what is in it, the same bytes every time, whole or not at all, and no file of anyone lost."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from printed import Printed, demo_job

from layouts.building import Building
from sheets import packet, pdf, svg
from sheets.load import load
from sheets.paper import PAPERS

KINDS = ("index", "rods", "tags", "walls", "cuts")


@pytest.fixture(scope="module")
def building() -> Building:
    """The demo."""
    return load(demo_job())


@pytest.fixture(scope="module")
def tags(building: Building) -> packet.Packet:
    """Its tags alone: a small packet."""
    return packet.build(building, PAPERS["letter"], "tags")


@pytest.fixture(scope="module")
def cuts(building: Building) -> packet.Packet:
    """Its cut sheets alone: another small packet."""
    return packet.build(building, PAPERS["letter"], "cuts")


def contents(folder: Path) -> dict[str, str]:
    """Every file of a folder with the digest of its bytes."""
    return {p.name: hashlib.sha256(p.read_bytes()).hexdigest() for p in sorted(folder.iterdir())}


@pytest.fixture
def nothing_left(tmp_path: Path) -> Iterator[None]:
    """After the test no working folder stands beside the packet."""
    yield
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == []


# --- what is in it ---------------------------------------------------------------------------------------------------


def test_the_manifest_lists_every_file_and_no_other(printed: Printed) -> None:
    names = printed.manifest["files"]
    assert sorted(names) == sorted(p.name for p in printed.folder.iterdir())
    assert {"packet.pdf", "packet.json", *(f"{kind}.pdf" for kind in KINDS)} <= set(names)
    assert [n for n in names if n.endswith("full-scale.svg")] == [
        f"rod-{i + 1}-full-scale.svg" for i in range(len(printed.building.rods))
    ]
    assert printed.manifest["packet"] == printed.building.job.job.name


def test_the_manifest_holds_the_digest_of_every_file_but_itself(printed: Printed) -> None:
    found = contents(printed.folder)
    del found["packet.json"]
    assert printed.manifest["sha256"] == found


def test_stamps_in_the_manifest_are_those_printed(printed: Printed) -> None:
    """A page's stamp stands in its footer, a tag's on the tag; the index lists all but its own."""
    pages = printed.sheets("pdf")
    index = " ".join(text for sheet in printed.sheets("pdf", "index") for text in sheet.texts)
    for sheet in printed.manifest["sheets"]:
        page = pages[sheet["page"] - 1]
        found = [s for text in page.texts for s in re.findall(r"stamp ([A-Z2-9]{5})\b", text)]
        assert sheet["stamp"] in found, sheet["title"]
        if not sheet["title"].startswith("Index"):
            assert f"{sheet['title']} {sheet['page']} {sheet['stamp']}" in index
    named = [sheet["title"] for sheet in printed.manifest["sheets"]]
    assert {f"Tag {c.name}" for c in printed.building.columns} <= set(named)
    assert {sheet["page"] for sheet in printed.manifest["sheets"]} == set(range(1, len(pages) + 1))


def test_a_changed_reading_changes_the_stamp_of_its_tag_alone(building: Building, tmp_path: Path) -> None:
    """Same content, same stamp; G5 stays the highest seat and A1 the reference, so nothing else moves."""
    text = demo_job().with_suffix(".csv").read_text(encoding="utf-8")
    assert "A3,45 7/16," in text
    job, csv = tmp_path / "job.toml", tmp_path / "job.csv"
    job.write_bytes(demo_job().read_bytes())
    csv.write_text(text.replace("A3,45 7/16,", "A3,45 3/8,"), encoding="utf-8")
    one, other = (packet.build(b, PAPERS["letter"], "tags") for b in (building, load(job)))
    before, after = (dict(part for sheet in p.sheets for part in sheet.parts) for p in (one, other))
    assert before.keys() == after.keys()
    assert [name for name in before if before[name] != after[name]] == ["Tag A3"]


@pytest.mark.parametrize("only", KINDS[1:])
def test_one_kind_alone(building: Building, tmp_path: Path, only: str) -> None:
    made = packet.build(building, PAPERS["a4"], only)
    written = packet.save(made, tmp_path / "out")
    names = [p.name for p in written]
    assert sorted(names) == sorted(contents(tmp_path / "out"))
    assert names[0] == f"{only}.pdf"
    assert "index.html" in names
    kinds = {re.split(r"[.-]", n)[0] for n in names if n != "index.html"} - {"packet", "numbers"}
    assert kinds == ({"rods", "rod"} if only == "rods" else {only})
    assert "packet.pdf" not in names


# --- the same bytes --------------------------------------------------------------------------------------------------


PLACES = {
    "far east": ("1", "Pacific/Kiritimati", "tr_TR.UTF-8", "."),
    "far west": ("77", "America/Adak", "C", "elsewhere"),
}


@pytest.fixture(scope="module")
def here(building: Building, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The demo's packet as this process writes it."""
    folder = tmp_path_factory.mktemp("here")
    packet.save(packet.build(building, PAPERS["letter"]), folder / "one", svg_parts=True)
    packet.save(packet.build(building, PAPERS["letter"]), folder / "two", svg_parts=True)
    assert contents(folder / "two") == contents(folder / "one")
    return contents(folder / "one")


@pytest.mark.parametrize("place", PLACES)
def test_the_same_job_gives_the_same_bytes(here: dict[str, str], tmp_path: Path, place: str) -> None:
    """In a fresh interpreter with another hash seed, time zone, language and working folder."""
    seed, zone, language, folder = PLACES[place]
    (tmp_path / folder).mkdir(exist_ok=True)
    script = (
        "import sys; from pathlib import Path; from sheets import packet; from sheets.load import load\n"
        "from sheets.paper import PAPERS\n"
        "packet.save(packet.build(load(Path(sys.argv[1])), PAPERS['letter']), Path('out'), svg_parts=True)"
    )
    root = demo_job().parents[2]
    environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": language, "PYTHONPATH": str(root)}
    run = [sys.executable, "-c", script, os.path.relpath(demo_job(), tmp_path / folder)]
    subprocess.run(run, env=environment, check=True, capture_output=True, cwd=tmp_path / folder)
    assert contents(tmp_path / folder / "out") == here


def test_where_it_is_written_leaves_no_trace_in_it(cuts: packet.Packet, tmp_path: Path) -> None:
    packet.save(cuts, tmp_path / "a" / "deeper")
    for path in (tmp_path / "a" / "deeper").iterdir():
        assert str(tmp_path).encode() not in path.read_bytes()


# --- whole or not at all ---------------------------------------------------------------------------------------------


def failing(after: int) -> Any:
    """A writer that refuses after some files, as a full disk does."""
    real, count = svg.write, [0]

    def write(path: Path, *rest: Any) -> None:
        count[0] += 1
        if count[0] > after:
            raise OSError(28, "No space left on device", str(path))
        real(path, *rest)

    return write


@pytest.mark.usefixtures("nothing_left")
@pytest.mark.parametrize("after", [0, 3])
def test_a_run_that_fails_leaves_the_old_packet(
    tags: packet.Packet, cuts: packet.Packet, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, after: int
) -> None:
    out = tmp_path / "out"
    packet.save(tags, out)
    (out / "notes.txt").write_text("mine")
    before = contents(out)
    monkeypatch.setattr(svg, "write", failing(after))
    with pytest.raises(OSError, match="No space"):
        packet.save(cuts, out)
    assert contents(out) == before
    with pytest.raises(OSError, match="No space"):
        packet.save(cuts, tmp_path / "never")
    assert not (tmp_path / "never").exists()


@pytest.mark.usefixtures("nothing_left")
@pytest.mark.parametrize("error", [KeyboardInterrupt, MemoryError])
def test_an_interrupted_run_leaves_the_old_packet(
    tags: packet.Packet,
    cuts: packet.Packet,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    error: type[BaseException],
) -> None:
    out = tmp_path / "out"
    packet.save(tags, out)
    before = contents(out)

    def stop(*_: Any, **__: Any) -> None:
        raise error

    monkeypatch.setattr(pdf, "write", stop)
    with pytest.raises(error):
        packet.save(cuts, out)
    assert contents(out) == before


# --- the user's own files --------------------------------------------------------------------------------------------


@pytest.mark.usefixtures("nothing_left")
def test_the_new_packet_replaces_the_old_and_keeps_what_the_user_put_there(
    tags: packet.Packet, cuts: packet.Packet, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    packet.save(tags, out)
    (out / "photos").mkdir()
    (out / "photos" / "a.jpg").write_bytes(b"\xff\xd8")
    (out / "notes.txt").write_text("mine")
    written = packet.save(cuts, out)
    assert {p.name for p in out.iterdir()} == {p.name for p in written} | {"photos", "notes.txt"}
    assert (out / "notes.txt").read_text() == "mine"
    assert (out / "photos" / "a.jpg").read_bytes() == b"\xff\xd8"
    assert not list(out.glob("tags*"))


@pytest.mark.usefixtures("nothing_left")
def test_the_job_handed_out_with_a_packet_is_the_users(
    tags: packet.Packet, cuts: packet.Packet, tmp_path: Path
) -> None:
    """He changes it and prints into the same folder: it is neither taken away nor written over."""
    out, beside = tmp_path / "out", {"job.toml": b"as it came"}
    packet.save(tags, out, beside=beside)
    packet.save(tags, out, beside=beside)
    (out / "job.toml").write_bytes(b"changed")
    packet.save(cuts, out)
    assert (out / "job.toml").read_bytes() == b"changed"
    before = contents(out)
    with pytest.raises(packet.CannotWrite, match=r"job\.toml is your own"):
        packet.save(tags, out, beside=beside)
    assert contents(out) == before


FOREIGN: dict[str, dict[str, str]] = {
    "anything": {"letter.txt": "dear"},
    "another program's packet.json": {"packet.json": '{"name": "parcel"}'},
    "a list": {"packet.json": "[1, 2]"},
    "not json": {"packet.json": "{"},
    "null": {"packet.json": "null"},
    "files no list": {"packet.json": '{"files": 5}'},
}


@pytest.mark.usefixtures("nothing_left")
@pytest.mark.parametrize("files", FOREIGN.values(), ids=FOREIGN)
def test_a_folder_with_other_files_is_refused(tags: packet.Packet, tmp_path: Path, files: dict[str, str]) -> None:
    out = tmp_path / "out"
    out.mkdir()
    for name, text in files.items():
        (out / name).write_text(text)
    before = contents(out)
    with pytest.raises(packet.CannotWrite, match="holds other files"):
        packet.save(tags, out)
    assert contents(out) == before


@pytest.mark.usefixtures("nothing_left")
def test_an_empty_folder_is_taken_and_a_file_is_not(tags: packet.Packet, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    packet.save(tags, tmp_path / "empty")
    assert json.loads((tmp_path / "empty" / "packet.json").read_text(encoding="utf-8"))["files"]
    (tmp_path / "file").write_text("mine")
    for place in (tmp_path / "file", tmp_path / "file" / "deeper"):
        with pytest.raises(packet.CannotWrite, match="is a file"):
            packet.save(tags, place)
    assert (tmp_path / "file").read_text() == "mine"


@pytest.mark.usefixtures("nothing_left")
def test_a_link_leads_to_the_folder_that_is_exchanged(tags: packet.Packet, cuts: packet.Packet, tmp_path: Path) -> None:
    packet.save(tags, tmp_path / "real")
    link = tmp_path / "link"
    try:
        link.symlink_to("real", target_is_directory=True)
    except OSError:
        pytest.skip("links are not for everyone on this system")
    packet.save(cuts, link)
    assert link.is_symlink()
    assert (tmp_path / "real" / "cuts.pdf").is_file()
    assert not list((tmp_path / "real").glob("tags*"))
