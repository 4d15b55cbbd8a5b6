"""Packets and files compared: by the numbers that a packet holds, or by its stamps, and what is refused."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import jobs
import pytest
from compared import AGAIN, FIXED, LETTER, READ, building, changed, codes, item, names, printed, release, saved, words
from msgspec.structs import replace

from layouts.problems import JobRefused
from sheets import changes, packet, report
from sheets.audit import differences
from sheets.compare import compare, stale
from sheets.held import unit
from sheets.paper import PAPERS
from sheets.sides import of_job, of_packet, read

__all__ = ["printed", "saved"]


# --- packets ----------------------------------------------------------------------------------------------------------


def test_a_packet_holds_the_numbers_it_was_printed_from(printed: Path, tmp_path: Path) -> None:
    packet.save(packet.build(building(), LETTER, "cuts"), tmp_path / "cuts")
    for folder in (printed, tmp_path / "cuts"):
        assert json.loads((folder / "numbers.json").read_text(encoding="utf-8")) == report.as_json(building())
        listed = json.loads((folder / "packet.json").read_text(encoding="utf-8"))
        assert "numbers.json" in listed["files"]
        assert "numbers.json" in listed["sha256"]
        assert (listed["paper"], listed["margin"]) == ("letter", 0.5)
    assert listed["only"] == "cuts"


def test_other_numbers_in_the_packet_are_found_before_it_is_released(printed: Path) -> None:
    built = packet.build(building(), LETTER)
    assert differences(built, building(), printed) == []
    (printed / "numbers.json").write_text("{}\n", encoding="utf-8")
    (told,) = differences(built, building(), printed)
    assert told.sheet == "numbers.json"
    (printed / "numbers.json").unlink()
    (told,) = differences(built, building(), printed)
    assert told.found == "missing"


def test_a_packet_and_a_job_are_compared_as_two_jobs_are(printed: Path) -> None:
    found = compare(of_packet(printed, "old"), of_job(building(rows=AGAIN), "new"))
    assert found == changed(rows=AGAIN)
    back = compare(of_job(building(rows=AGAIN), "new"), of_packet(printed, "old"))
    assert item(back, "Tag A3").old == item(found, "Tag A3").new
    assert 'column 3/8" shorter' in words(back, "Tag A3")


def test_two_packets(printed: Path, tmp_path: Path) -> None:
    packet.save(packet.build(building(rows=AGAIN), LETTER), tmp_path / "next")
    assert compare(of_packet(printed, "old"), of_packet(tmp_path / "next", "new")) == changed(rows=AGAIN)


def test_two_packets_on_other_paper_are_compared_by_their_numbers(printed: Path, tmp_path: Path) -> None:
    packet.save(packet.build(building(rows=AGAIN), PAPERS["legal"]), tmp_path / "next")
    found = compare(of_packet(printed, "old"), of_packet(tmp_path / "next", "new"))
    assert names(found) == names(changed(rows=AGAIN))
    (tmp_path / "next" / "numbers.json").unlink()
    blind = compare(of_packet(printed, "old"), of_packet(tmp_path / "next", "new"))
    assert [i.name for i in blind.of("tags")] == ["Tag A3"]
    rods = [i.name for i in blind.of("rods")]  # lanes of other lengths; on A4 they are those of letter
    want = ["Sidewall rod, walls A and C", "Endwall rod, walls 1 and 4", "Roof rod, both slopes, from the tail up"]
    assert rods == want, "nothing can be told of them"


def older(folder: Path) -> None:
    """The packet as it was printed before packets held their numbers and said their paper."""
    listed = json.loads((folder / "packet.json").read_text(encoding="utf-8"))
    for key in ("paper", "margin", "only"):
        del listed[key]
    listed["files"].remove("numbers.json")
    del listed["sha256"]["numbers.json"]
    (folder / "numbers.json").unlink()
    (folder / "packet.json").write_text(json.dumps(listed), encoding="utf-8")


def test_an_older_packet_is_compared_by_its_stamps(printed: Path) -> None:
    older(printed)
    found = compare(of_packet(printed, "old"), of_job(building(rows=AGAIN), "new"))
    assert names(found) == names(changed(rows=AGAIN))
    assert {i.words for i in found.items} == {()}
    assert found.notes == (
        "old holds no numbers: its sheets are compared by their stamps alone.",
        "old does not say what paper it is on: taken to be letter.",
    )
    assert not compare(of_packet(printed, "old"), of_job(building(), "new")).stale


def test_numbers_that_somebody_has_changed_are_not_believed(printed: Path) -> None:
    path = printed / "numbers.json"
    path.write_text(path.read_text(encoding="utf-8").replace('45 7/16\\"', '45\\"'), encoding="utf-8")
    assert of_packet(printed).numbers == {}


def test_sheets_printed_alone_are_compared_alone(tmp_path: Path) -> None:
    packet.save(packet.build(building(), LETTER, "tags"), tmp_path / "tags")
    packet.save(packet.build(building(), LETTER, "rods"), tmp_path / "rods")
    found = compare(of_packet(tmp_path / "tags", "old"), of_job(building(rows=AGAIN), "new"))
    assert names(found) == ["Tag A3"]
    assert changes.end(found) == "1 stale. Compared alone: tags. Every other one of them is still good."
    with pytest.raises(JobRefused, match="no kind of sheets in common"):
        compare(of_packet(tmp_path / "tags"), of_packet(tmp_path / "rods"))


def test_a_packet_for_a_measured_printer_is_compared_at_its_margin(tmp_path: Path) -> None:
    narrow = replace(LETTER, margin=0.25)
    packet.save(packet.build(building(), narrow), tmp_path / "narrow")
    assert codes(building(), narrow) != codes(building())
    assert not compare(of_packet(tmp_path / "narrow", "old"), of_job(building(), "new")).stale


def test_rods_on_a_roll_lie_side_by_side_and_are_stale_together(tmp_path: Path) -> None:
    packet.save(packet.build(building(), PAPERS["roll-36in"]), tmp_path / "roll")
    old = of_packet(tmp_path / "roll", "old")
    assert names(compare(old, of_job(building(rows=AGAIN), "new"))) == names(changed(rows=AGAIN))
    higher = building({"truss.bearing": "12'-1"})
    (rods,) = compare(old, of_job(higher, "new")).of("rods")
    assert 'Sidewall rod, walls A and C: BEARING: centre ply: moved 1" up: was 12\'-0", now 12\'-1"' in rods.words
    made, built = stale(tmp_path / "roll", higher, PAPERS["roll-36in"])
    assert made.of("rods")
    assert release(built, higher, tmp_path / "again") == []


# --- files ------------------------------------------------------------------------------------------------------------


def write_job(place: Path, text: str, rows: Mapping[str, Any]) -> Path:
    """A job file and its readings."""
    place.mkdir(parents=True)
    csv = ["column,reading", *(f"{name},{value}" for name, value in rows.items())]
    (place / "job.csv").write_text("\n".join(csv) + "\n", encoding="utf-8")
    (place / "job.toml").write_text(text, encoding="utf-8")
    return place / "job.toml"


def test_files_of_two_jobs(tmp_path: Path) -> None:
    text = jobs.job_text(FIXED)
    old, new = (write_job(tmp_path / n, text, {**READ, **r}) for n, r in (("a", {}), ("b", AGAIN)))
    assert names(compare(read(old), read(new))) == names(changed(rows=AGAIN))
    assert not compare(read(old), read(new, tmp_path / "a" / "job.csv")).stale


def test_a_job_that_is_refused_is_named_by_its_whole_path(tmp_path: Path) -> None:
    path = write_job(tmp_path / "b", jobs.job_text({**FIXED, "truss.pitch": "steep"}), READ)
    with pytest.raises(JobRefused) as refused:
        read(path)
    (problem,) = refused.value.problems
    assert (problem.file, problem.place) == (str(path), "truss.pitch")
    path = write_job(tmp_path / "c", jobs.job_text(FIXED), {"Z9": "45"})
    with pytest.raises(JobRefused) as refused:
        read(path)
    assert refused.value.problems[0].file == str(path.with_suffix(".csv"))


@pytest.mark.parametrize("manifest", [None, "", "[]", '{"name": "parcel"}', '{"sheets": [{}], "files": []}'])
def test_a_folder_that_is_no_packet(tmp_path: Path, manifest: str | None) -> None:
    if manifest is not None:
        (tmp_path / "packet.json").write_text(manifest, encoding="utf-8")
    with pytest.raises(JobRefused, match="holds no packet of ours"):
        read(tmp_path)


@pytest.mark.parametrize("data", [None, b"%PDF-1.7\n\xff\xfe", b"column,reading\nA1,45\n"])
def test_a_file_that_is_no_job(tmp_path: Path, data: bytes | None) -> None:
    if data is not None:
        (tmp_path / "what").write_bytes(data)
    with pytest.raises(JobRefused) as refused:
        read(tmp_path / "what")
    assert refused.value.problems[0].file == str(tmp_path / "what")


def test_readings_for_a_packet_are_refused(printed: Path) -> None:
    with pytest.raises(JobRefused, match=r"--old-readings = .*is for a job file"):
        read(printed, Path("some.csv"), "--old-readings")


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Sheets, Wall 1", "Sheets, Wall 1"),
        ("Sheets, Wall 7 2", "Sheets, Wall 7"),
        ("Sheets to order 2", "Sheets to order"),
        (
            "Template 4: END of gable girts 2x4 standing, 4/12, part 2 of 3",
            "Template 4: END of gable girts 2x4 standing, 4/12",
        ),
        ("Template 4: SLOT for the truss", "Template 4: SLOT for the truss"),
    ],
)
def test_pages_of_one_thing_are_one_and_a_wall_keeps_its_number(title: str, name: str) -> None:
    assert unit("cladding", title) == name
