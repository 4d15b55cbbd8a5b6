"""What stands on no page, in SVG: rods in one piece, lanes and tags alone, and what a packet lists besides."""

from __future__ import annotations

import json
from pathlib import Path

import faults
import pytest
from msgspec.structs import replace
from pages_seen import seen, small, text, told
from test_audit_told_files import PLAIN, an_audit, built

from sheets import audit, svg
from sheets.audit_model import Difference, Plan, Seen
from sheets.packet import MANIFEST, drawings
from sheets.shapes import Drawing


def listing(folder: Path, *names: str) -> None:
    (folder / MANIFEST).write_text(json.dumps({"files": names}), encoding="utf-8")


def test_files_that_are_listed_and_not_known(tmp_path: Path) -> None:
    bench = faults.bench(tmp_path / "tags", "tags")
    listing(bench.folder, "tags.pdf", "tags-001.svg", "notes.txt", "index.html")
    run = audit._Audit(bench.packet, bench.building, bench.folder, PLAIN)
    run.others()
    assert run.told == []
    listing(bench.folder, "other.pdf", "lane-9.svg", "tags.pdf", "tag-A1.svg")
    parts = [name for name, _, _ in bench.packet.parts()]
    run.others()
    missing = [(f"{name}.svg", "file", "there", "missing") for name in parts]
    assert told(run.told) == [
        *missing,
        ("lane-9.svg", "file", "of this packet", "not known to it"),
        ("other.pdf", "file", "of this packet", "not known to it"),
    ]


def test_tags_alone_are_held_against_the_layout(tmp_path: Path) -> None:
    parts = [part for part in built("tags").parts() if part[0].startswith("tag-")]
    for name, drawing, said in parts:
        svg.write(tmp_path / f"{name}.svg", drawing, said)
    listing(tmp_path, "tag-A1.svg")
    run = an_audit(tmp_path)
    run.others()
    lanes = [name for name, _, _ in built("tags").parts() if name.startswith("lane-")]
    assert told(run.told) == [(f"{name}.svg", "file", "there", "missing") for name in lanes]
    (tmp_path / f"{parts[0][0]}.svg").unlink()
    run = an_audit(tmp_path)
    run.others()
    assert told(run.told)[-1] == ("SVG tags", "tags", "9 tags", "8")
    name, drawing, said = parts[1]
    svg.write(tmp_path / f"{name}.svg", faults.edited(drawing, faults.reads("A2", "A9")), said)
    run = an_audit(tmp_path)
    (differs,) = [d for d in [run._other(f"{name}.svg", drawing), *run.told] if isinstance(d, Difference)]
    assert (differs.sheet, differs.place) == (f"{name}.svg", "tag-A2")


def as_drawn(monkeypatch: pytest.MonkeyPatch, but: str = "") -> list[str]:
    """Every file holds what was drawn, all but one; which were asked for."""
    asked: list[str] = []

    def found(_: audit._Audit, name: str, drawing: Drawing) -> Seen | None:
        asked.append(name)
        return None if name == but else seen(Plan(drawing), name)

    monkeypatch.setattr(audit._Audit, "_other", found)
    return asked


def whole_rods() -> list[str]:
    return [f"{name}.svg" for name, _, _ in drawings(built("rods")) if name.startswith("rod-")]


def test_rods_in_one_piece_are_held_against_the_layout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = as_drawn(monkeypatch)
    one, *others = small().rods
    other = replace(small(), rods=(replace(one, marks=one.marks[1:]), *others))
    run = audit._Audit(built("rods"), other, tmp_path, PLAIN)
    run.others()
    (extra,) = run.told
    assert (extra.sheet, extra.place) == (whole_rods()[0], "sidewall-rod-walls-a-and-c-mark-grade-board")
    assert extra.want == "one mark of the layout, on one lane"
    assert asked == whole_rods()
    as_drawn(monkeypatch, but=whole_rods()[0])
    run = audit._Audit(built("rods"), other, tmp_path, PLAIN)
    run.others()
    assert run.told == [], "what is not there is told elsewhere"


def test_words_in_one_another_on_a_tag_alone(tmp_path: Path) -> None:
    drawing = Drawing(4.0, 3.0, (text(1.0, 1.0, "ONE", 0.5), text(1.1, 1.0, "TWO", 0.5)))
    svg.write(tmp_path / "one.svg", drawing, "one")
    run = an_audit(tmp_path)
    page = run._other("one.svg", drawing)
    assert page is not None
    assert (page.label, page.plan.drawing) == ("one.svg", drawing)
    assert told(run.told) == [("one.svg", "'ONE'", "clear of other words", "in 'TWO'")]
    assert run._other("two.svg", drawing) is None


def test_a_folder_that_lists_nothing(tmp_path: Path) -> None:
    run = an_audit(tmp_path)
    run.others()
    assert run.told == []


def test_lanes_alone_are_held_against_the_layout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All that were found: here all but the first of the first rod."""
    listing(tmp_path, "lane-1.svg")
    parts = [f"{name}.svg" for name, _, _ in built("rods").parts()]
    asked = as_drawn(monkeypatch, but=next(name for name in parts if name.startswith("lane-")))
    run = an_audit(tmp_path, "rods")
    run.others()
    rods = len(small().rods)
    assert told(run.told) == [
        ("lane-1.svg", "file", "of this packet", "not known to it"),
        ("SVG lanes", "rods", f"{rods} rods from 0 up", f"{rods - 1} lanes that begin at 0"),
    ]
    assert asked == [*whole_rods(), *parts]
