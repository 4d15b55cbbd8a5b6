"""What is right passes the audit: every kind of job, paper and profile; and the readers read what stands there."""

from __future__ import annotations

import gc
import json
from pathlib import Path
from unicodedata import category, normalize

import faults
import jobs
import pytest
from effort import examples
from faults import told
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from printed import Printed, demo_job

import fonts
from layouts.building import Building
from sheets import audit_pdf, audit_svg, packet, pdf, svg
from sheets.audit import differences
from sheets.audit_compare import compare
from sheets.audit_model import NEAR, Plan, Run, spelled
from sheets.audit_page import TALLEST
from sheets.lettering import face, write
from sheets.load import load
from sheets.pages import Page
from sheets.paper import PAPERS
from sheets.profile import Profile
from sheets.shapes import Drawing, Group, Recorder, Text

OFFICE = Profile("office", "letter", 1.0043, 0.9971, 0.0008, 0.5, "2026-09-01", 0.01)

# --- packets that are right ------------------------------------------------------------------------------------------


def test_a_packet_that_is_right_passes(printed: Printed) -> None:
    paper = PAPERS["letter" if printed.paper == (8.5, 11.0) else "a4"]
    built = packet.build(printed.building, paper)
    assert differences(built, printed.building, printed.folder) == []


@pytest.mark.parametrize("paper", ["tabloid", "arch-e1", "roll-610mm"])
def test_so_it_does_on_large_paper_and_with_every_lane_and_tag_alone(paper: str, tmp_path: Path) -> None:
    building = faults.small(metric=paper == "roll-610mm")
    built = packet.build(building, PAPERS[paper])
    packet.save(built, tmp_path / "out", svg_parts=True)
    assert differences(built, building, tmp_path / "out") == []


@pytest.mark.parametrize("metric", [False, True])
def test_so_it_does_with_a_printer_profile_and_only_with_that(metric: bool, tmp_path: Path) -> None:
    building = faults.small(metric)
    built = packet.build(building, PAPERS["a4" if metric else "letter"], profile=OFFICE)
    packet.save(built, tmp_path / "out")
    assert differences(built, building, tmp_path / "out", OFFICE) == []
    found = differences(built, building, tmp_path / "out")
    assert {d.sheet.partition(" ")[0] for d in found if ".svg" in d.sheet} == {
        f"{name}.svg" for name, drawing, _ in packet.drawings(built) if id(drawing) in pages(built)
    }, "every page is off, no rod in one piece"
    other = replace(OFFICE, along=OFFICE.along + 0.001)
    bar = told(differences(built, building, tmp_path / "out", other), "check-bar-along", "as it says")
    assert abs(float(bar.want.split()[0]) - float(bar.found.split()[0])) > NEAR


def pages(built: packet.Packet) -> set[int]:
    """The drawings that stand on pages."""
    return {id(sheet.page.drawing) for sheet in built.sheets}


@settings(max_examples=examples(5), suppress_health_check=[HealthCheck.too_slow])
@given(jobs.buildings(), st.sampled_from(list(PAPERS)))
def test_any_building_passes(tmp_path_factory: pytest.TempPathFactory, building: Building, paper: str) -> None:
    folder = tmp_path_factory.mktemp("any") / "out"
    built = packet.build(building, PAPERS[paper])
    packet.save(built, folder)
    assert differences(built, building, folder) == []


def test_a_job_of_a_strange_name_passes(tmp_path: Path) -> None:
    """Words that look like markup or like a piece of ours."""
    made = jobs.build({"job.name": "#3 8'-1 1/2\" <script>\"&' Ålesund ŁŐŮ"}, {"A1": "45 1/4", "A2": 45})
    built = packet.build(made, PAPERS["letter"])
    packet.save(built, tmp_path / "out")
    assert differences(built, made, tmp_path / "out") == []


def test_the_collector_runs_again_afterwards(tmp_path: Path) -> None:
    bench = faults.bench(tmp_path / "out", "tags")
    assert bench.found() == []
    assert gc.isenabled()


def test_a_listed_file_that_nothing_was_drawn_for_is_told(tmp_path: Path) -> None:
    bench = faults.bench(tmp_path / "out", "tags")
    listed = json.loads((bench.folder / "packet.json").read_text(encoding="utf-8"))
    listed["files"].append("lane-9.svg")
    (bench.folder / "packet.json").write_text(json.dumps(listed), encoding="utf-8")
    told(bench.found(), "lane-9.svg", "not known")


def test_lanes_and_tags_alone_are_read_too(tmp_path: Path) -> None:
    building = load(demo_job())
    built = packet.build(building, PAPERS["letter"], "tags")
    packet.save(built, tmp_path / "out", svg_parts=True)
    name, drawing, title = next(part for part in built.parts() if part[0] == "tag-A3")
    svg.write(tmp_path / "out" / f"{name}.svg", faults.edited(drawing, faults.without("TOP")), title)
    told(differences(built, building, tmp_path / "out"), "tag-A3.svg", "'TOP'", "nothing")


# --- what the readers read -------------------------------------------------------------------------------------------


def both(drawing: Drawing, folder: Path) -> tuple[list[Run], list[Run]]:
    """The runs of a drawing as they are read from a PDF and from an SVG; both hold against the drawing."""
    pdf.write(folder / "one.pdf", [Page(drawing, "One", "One")], "one")
    svg.write(folder / "one.svg", drawing, "one")
    (page,) = audit_pdf.read((folder / "one.pdf").read_bytes()).pages
    found = page, audit_svg.read(folder / "one.svg")
    for read in found:
        assert compare("one", Plan(drawing), read)[1] == []
    return found[0].runs, found[1].runs


@pytest.mark.parametrize("cut", fonts.CUTS)
def test_every_letter_that_we_can_print_is_read_as_itself(cut: str, tmp_path: Path) -> None:
    chars = [c for c in face(cut).advances if not c.isspace()]
    pen = Recorder(30, 24)
    for i, char in enumerate(chars):
        pen.text(Text(1.0 + i % 28, 1.0 + i // 28, char, 0.3, cut))
    for runs in both(pen.drawing(), tmp_path):
        # PDFium takes a ligature for its two letters
        assert [normalize("NFKC", run.words.strip()) for run in runs] == [normalize("NFKC", c) for c in chars]


@pytest.mark.parametrize("cut", fonts.CUTS)
def test_words_that_need_two_subsets_of_a_font_are_read_as_one(cut: str, tmp_path: Path) -> None:
    chars = [c for c in face(cut).advances if category(c)[0] in "LNPS"]
    assert len(chars) > 2 * 256, "more than two subsets hold"
    pen = Recorder(30, 30)
    lines = [" ".join(chars[i : i + 7]) + "".join(chars[-i - 7 :][:7]) for i in range(0, len(chars), 7)]
    for i, line in enumerate(lines):
        pen.text(Text(1.0 + i % 4 * 7, 1.0 + i // 4, line, 0.3, cut, 0))
    runs, _ = both(pen.drawing(), tmp_path)
    assert len(runs) > len(lines)


LENGTHS = ["13'-9 1/16\"", '5/8"', '17 1/2"', "24'-0\"", "4193 mm", 'x 3/4" by 2 1/4" at 7']


@pytest.mark.parametrize("turn", [0, 90])
@pytest.mark.parametrize("cut", fonts.CUTS)
def test_a_length_is_spelled_from_its_figures(cut: str, turn: int, tmp_path: Path) -> None:
    pen = Recorder(10, 10)
    for i, text in enumerate(LENGTHS):
        write(pen, 1.0 + i, 1.0 + i, text, 0.3, cut, turn=90 if turn else 0)
    drawing = pen.drawing()
    for runs in both(drawing, tmp_path):
        units = [spelled(runs[a:b]) for a, b in Plan(drawing).units]
        assert [unit.text for unit in units] == LENGTHS
        assert {unit.turned for unit in units} == {turn == 90}


def test_a_fraction_turned_over_is_spelled_so() -> None:
    over, under = Run(1.0, 1.2, 0.2, 0, 0, "3", 0.1, None), Run(1.0, 1.0, 0.2, 0, 0, "4", 0.1, None)
    whole = Run(0.8, 1.1, 0.4, 0, 0, "2", 0.1, None)
    assert spelled([whole, over, under]).text == "2 3/4"
    assert spelled([whole, over._replace(y=1.0), under._replace(y=1.2)]).text == "2 4/3"


def test_words_that_are_copied_wrong_are_told(tmp_path: Path) -> None:
    pen = Recorder(4, 4)
    write(pen, 1, 1, "9 1/2", 0.3)
    right = pen.drawing()
    (group,) = right.shapes
    assert isinstance(group, Group)
    wrong = Drawing(4, 4, (replace(group, title="8 1/2"),))
    pdf.write(tmp_path / "x.pdf", [Page(wrong, "One", "One")], "x")
    svg.write(tmp_path / "x.svg", wrong, "x")
    for read in (audit_pdf.read((tmp_path / "x.pdf").read_bytes()).pages[0], audit_svg.read(tmp_path / "x.svg")):
        difference = compare("x", Plan(right), read)[1][0]
        assert "copied as '9 1/2'" in difference.want
        assert "copied as '8 1/2'" in difference.found


def test_no_plain_letter_is_taller_than_the_quick_box() -> None:
    letters = "".join(map(chr, range(33, 127)))
    assert all(ink <= most for cut in fonts.CUTS for ink, most in zip(face(cut).ink(letters), TALLEST, strict=True))
