"""A packet printed earlier against its job: what is stale, missing, changed or not ours is named, and nothing else."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path

import jobs
import pytest
from faults import BUILDING

from layouts.building import Building
from sheets import packet
from sheets.audit_stale import alone, stale
from sheets.packet import Packet
from sheets.paper import PAPERS
from sheets.profile import Profile

READINGS = {"A1": "45 1/4", "A2": 45, "A3": "44 7/8", "C1": "45 1/2"}


def building(changes: Mapping[str, object] | None = None, readings: Mapping[str, object] | None = None) -> Building:
    """A small building, some columns read."""
    return jobs.build({**BUILDING, **(changes or {})}, {**READINGS, **(readings or {})})


def build(
    changes: Mapping[str, object] | None = None,
    readings: Mapping[str, object] | None = None,
    only: str | None = None,
) -> Packet:
    """Its packet, drawn once."""
    return _built(json.dumps([changes, readings]), only)


@cache
def _built(described: str, only: str | None) -> Packet:
    return packet.build(building(*json.loads(described)), PAPERS["letter"], only)


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packet as it was printed, for all to copy."""
    folder = tmp_path_factory.mktemp("stale") / "out"
    packet.save(build(), folder, svg_parts=True)
    return folder


@pytest.fixture
def folder(saved: Path, tmp_path: Path) -> Path:
    """A copy of it, to change."""
    return Path(shutil.copytree(saved, tmp_path / "out"))


def test_the_packet_that_was_just_printed_is_right(folder: Path) -> None:
    assert stale(folder, build()) == []


@pytest.mark.parametrize("speaks", ["spanish", "english and spanish"])
@pytest.mark.parametrize("only", ["tags", "cuts"])
def test_a_packet_in_another_language_is_right(speaks: str, only: str, tmp_path: Path) -> None:
    """Its stamps are read behind their word in that language."""
    changes = {"job.language": speaks}
    packet.save(build(changes, only=only), tmp_path / "out")
    assert stale(tmp_path / "out", build(changes, only=only)) == []
    found = stale(tmp_path / "out", build(changes, {"A1": 45}, only))
    assert any("Tag A1: stale: stamp " in line for line in found) == (only == "tags")
    assert not [line for line in found if "carries stamp" in line], "what is listed is what is printed"


def test_stamps_of_another_language_than_the_job_has_now_are_read(tmp_path: Path) -> None:
    packet.save(build({"job.language": "spanish"}, only="tags"), tmp_path / "out")
    found = stale(tmp_path / "out", build(only="tags"))
    assert found
    assert not [line for line in found if "carries stamp" in line]


def test_another_reading_makes_its_tag_stale_and_not_the_others(folder: Path) -> None:
    lines = stale(folder, build(readings={"A2": "45 3/8"}))
    old, new = (dict(tags(build(readings=r))) for r in ({}, {"A2": "45 3/8"}))
    assert f"Tag A2: stale: stamp {old['Tag A2']}, the job now gives {new['Tag A2']}" in lines
    assert not [line for line in lines if line.startswith(("Tag A1", "Tag A3", "Sidewall", "Endwall"))]


def tags(built: Packet) -> list[tuple[str, str]]:
    """Tags and their stamps."""
    return [part for sheet in built.sheets for part in sheet.parts]


def test_a_new_column_is_missing_and_one_no_longer_read_is_stale(folder: Path) -> None:
    more = build(readings={"A4": "45 1/8"})
    code = dict(tags(more))["Tag A4"]
    assert f"Tag A4: missing: the job gives it now, stamp {code}" in stale(folder, more)
    packet.save(more, folder)
    lines = stale(folder, build())
    assert "Tag A4: stale: the job no longer gives it" in lines


def test_another_date_is_told_in_one_line(folder: Path) -> None:
    lines = stale(folder, build({"job.date": "2026-10-01"}))
    (dated,) = (line for line in lines if "only the date" in line)
    assert "2026-10-01" in dated
    assert not [line for line in lines if line.startswith(("Tag", "Wall", "Cut", "Sidewall"))]


def test_another_profile_makes_every_page_stale_though_no_stamp_changes(folder: Path) -> None:
    lines = stale(folder, build(), Profile(along=1.002))
    places = [f"rods.pdf page {n}" for n in range(1, 4)] + ["rods-001.svg", "tags-001.svg"]
    assert all(any(line.startswith(place) for line in lines) for place in places)
    assert not [line for line in lines if line.startswith(("rod-1-full-scale", "lane-", "tag-"))]


def test_other_paper_makes_the_pages_stale(folder: Path) -> None:
    lines = stale(folder, packet.build(building(), PAPERS["a4"]))
    assert any("page: the job gives 11.6929 x 8.2677 in, it holds 11.0000 x 8.5000 in" in line for line in lines)


def spoil_stamp(folder: Path) -> str:
    """The manifest says another stamp than the sheet."""
    listed = json.loads((folder / "packet.json").read_text(encoding="utf-8"))
    row = next(row for row in listed["sheets"] if row["title"] == "Tag A1")
    row["stamp"], old = "ZZZZZ", row["stamp"]
    (folder / "packet.json").write_text(json.dumps(listed), encoding="utf-8")
    assert old != "ZZZZZ"
    return "packet.json lists ZZZZZ"


def cut_off(folder: Path) -> str:
    """A file has lost its end."""
    path = folder / "walls.pdf"
    path.write_bytes(path.read_bytes()[:3000])
    return "walls.pdf: changed on disk"


def draw_on(folder: Path) -> str:
    """Somebody has edited a page."""
    path = folder / "rods-001.svg"
    path.write_text(path.read_text(encoding="utf-8").replace("<title>0<", "<title>7<", 1), encoding="utf-8")
    return "rods-001.svg: changed on disk"


def lose(folder: Path) -> str:
    """A file is gone."""
    (folder / "tags-001.svg").unlink()
    return "tags-001.svg: missing"


def add(folder: Path) -> str:
    """A sheet of another packet lies among ours."""
    (folder / "tags-099.SVG").write_text("<svg/>", encoding="utf-8")
    return "tags-099.SVG: not ours"


def swap_pages(folder: Path) -> str:
    """Two files have changed places."""
    one, other = folder / "rods-001.svg", folder / "rods-002.svg"
    first, second = one.read_bytes(), other.read_bytes()
    one.write_bytes(second)
    other.write_bytes(first)
    return "rods-002.svg (Sidewall rod"


@pytest.mark.parametrize("spoil", [spoil_stamp, cut_off, draw_on, lose, add, swap_pages])
def test_what_has_happened_to_a_folder_is_told(folder: Path, spoil: Callable[[Path], str]) -> None:
    want = spoil(folder)
    lines = stale(folder, build())
    assert any(want in line for line in lines), "\n".join(lines)
    assert all("\n" not in line for line in lines)
    assert len(lines) <= 8, "what is right is not told"


def test_the_user_s_own_files_are_no_matter(folder: Path) -> None:
    (folder / "notes.txt").write_text("mine", encoding="utf-8")
    (folder / "photos").mkdir()
    assert stale(folder, build()) == []


@pytest.mark.parametrize("text", [None, "", "[]", '{"files": 3}', '{"sheets": [{}], "files": []}'])
def test_a_folder_without_a_packet_says_so(tmp_path: Path, text: str | None) -> None:
    if text is not None:
        (tmp_path / "packet.json").write_text(text, encoding="utf-8")
    (line,) = stale(tmp_path, build(only="tags"))
    assert line.startswith("packet.json: missing or not to be read")


def test_sheets_printed_alone_are_known_as_such(folder: Path, tmp_path: Path) -> None:
    assert alone(folder) is None
    packet.save(build(only="cuts"), tmp_path / "cuts")
    assert alone(tmp_path / "cuts") == "cuts"
    assert stale(tmp_path / "cuts", build(only="cuts")) == []
