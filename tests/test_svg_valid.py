"""SVG files are valid SVG 1.1 with nothing in them but our own drawing; lanes, tags and rods as files of their own."""

from __future__ import annotations

import re
import shutil
import subprocess
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from printed import Printed, demo_job, lanes_on, metric_building
from readback import HREF, SVG, SvgReader, svg_sheet
from svgwrite.validator2 import get_validator

from layouts.building import Building
from layouts.lengths import show
from sheets import packet, parts, rod
from sheets.load import load
from sheets.paper import PAPERS

# The W3C's own DTD of SVG 1.1 (second edition, 2011), as Debian's w3c-sgml-lib brings it.
DTD = Path("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
NAME = "<script>\"&'"


@dataclass(frozen=True)
class Saved:
    """A packet on the disk with its parts."""

    building: Building
    folder: Path

    def files(self, start: str) -> list[Path]:
        """The SVG files whose names begin so, in order."""
        return sorted(self.folder.glob(f"{start}*.svg"))


def save(building: Building, folder: Path, only: str | None = None) -> Saved:
    paper = PAPERS["a4" if building.job.job.units == "metric" else "letter"]
    packet.save(packet.build(building, paper, only), folder, svg_parts=True)
    return Saved(building, folder)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Saved:
    """The demo under a name that is none of markup."""
    folder = tmp_path_factory.mktemp("hostile")
    source = demo_job()
    text, count = re.subn(
        r'^name = ".*"$', f"name = '''{NAME}'''", source.read_text(encoding="utf-8"), count=1, flags=re.M
    )
    assert count == 1
    (folder / "job.toml").write_text(text, encoding="utf-8")
    (folder / "job.csv").write_bytes(source.with_suffix(".csv").read_bytes())
    return save(load(folder / "job.toml"), folder / "out")


@pytest.fixture(scope="module")
def metric(tmp_path_factory: pytest.TempPathFactory) -> Saved:
    """A metric job."""
    return save(metric_building(), tmp_path_factory.mktemp("metric") / "out")


@pytest.fixture(params=["hostile", "metric"])
def saved(request: pytest.FixtureRequest) -> Saved:
    """Either."""
    found: Saved = request.getfixturevalue(request.param)
    return found


# --- valid -----------------------------------------------------------------------------------------------------------


def test_every_file_is_valid_by_the_dtd_of_svg_1_1(saved: Saved) -> None:
    lint = shutil.which("xmllint")
    if lint is None or not DTD.exists():
        pytest.skip("needs xmllint and the DTD (Debian: libxml2-utils, w3c-sgml-lib)")
    command = [lint, "--noout", "--nonet", "--dtdvalid", str(DTD), *map(str, saved.files(""))]
    done = subprocess.run(command, capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_the_dtd_refuses_what_is_not_svg(tmp_path: Path) -> None:
    lint = shutil.which("xmllint")
    if lint is None or not DTD.exists():
        pytest.skip("needs xmllint and the DTD (Debian: libxml2-utils, w3c-sgml-lib)")
    (tmp_path / "a.svg").write_text(f'<svg xmlns="{SVG[1:-1]}"><g colour="red"/></svg>')
    command = [lint, "--noout", "--nonet", "--dtdvalid", str(DTD), str(tmp_path / "a.svg")]
    assert subprocess.run(command, capture_output=True).returncode != 0


@pytest.mark.parametrize(
    "start", ["index-001", "rods-002", "tags-001", "walls-001", "cuts-00", "rod-1", "lane-1-0", "tag-"]
)
def test_elements_attributes_and_children_are_those_of_svg_1_1_full(saved: Saved, start: str) -> None:
    """By the tables of the SVG library, which the writer does not ask: they are slow."""
    known = get_validator("full")
    long = 900  # letters of a path: its check takes a second for longer ones
    for path in saved.files(start)[:2]:
        for element in ET.parse(path).iter():
            name = element.tag.removeprefix(SVG)
            assert known.is_valid_elementname(name)
            for child in element:
                known.check_valid_children(name, child.tag.removeprefix(SVG))
            attributes = {key.replace(HREF, "xlink:href"): value for key, value in element.attrib.items()}
            known.check_all_svg_attribute_values(
                name, {k: v for k, v in attributes.items() if k != "d" or len(v) < long}
            )


def test_nothing_is_in_them_but_our_own_drawing(saved: Saved) -> None:
    """No script, no style, no event, no reference to anything outside the file."""
    assert len(saved.files("")) > 80
    for path in saved.files(""):
        source = path.read_text(encoding="utf-8")
        assert source.count("<?") == 1
        assert "<!" not in source
        root = ET.fromstring(source)
        ids = {e.attrib["id"] for e in root.iter() if "id" in e.attrib}
        for element in root.iter():
            assert element.tag.removeprefix(SVG) in ("svg", "title", "defs", "path", "g", "use")
            for key, value in element.attrib.items():
                assert not key.lower().startswith("on")
                assert "url(" not in value
                assert "{" not in key or key == HREF
        assert all(e.attrib[HREF][:1] == "#" and e.attrib[HREF][1:] in ids for e in root.iter(f"{SVG}use"))


def test_a_job_prints_under_the_name_it_was_given(hostile: Saved) -> None:
    for path in hostile.files(""):
        title = ET.parse(path).getroot().findtext(f"{SVG}title", "")
        assert title.startswith(f"{NAME}: ")
    footers = [s.texts for s in map(svg_sheet, hostile.files("cuts-"))]
    assert all(any(text.startswith(f"{NAME} ·") for text in texts) for texts in footers)
    for path in hostile.folder.glob("*.pdf"):
        with pypdfium2.PdfDocument(path) as document:
            assert document.get_metadata_dict()["Title"].startswith(NAME)
            assert all(NAME in page.get_textpage().get_text_range() for page in document)


# --- lanes and tags --------------------------------------------------------------------------------------------------


def test_every_lane_is_a_file_true_to_its_tape(saved: Saved) -> None:
    """From set line to set line it measures what its own tape numbers say."""
    metric = saved.building.job.job.units == "metric"
    per_inch = 25.4 if metric else 1.0
    paper = PAPERS["a4" if metric else "letter"]
    laid = rod.lay_all(saved.building, paper)
    for number, one in enumerate(laid, 1):
        files = saved.files(f"lane-{number}-")
        assert [p.stem.split("-")[-1] for p in files] == [f"{n + 1:02d}" for n in range(len(one.lanes))]
        end: float | None = 0.0
        for path in files:
            sheet = svg_sheet(path)
            (lane,) = lanes_on(sheet, per_inch)
            assert lane.start == pytest.approx(end, abs=0.001)
            if lane.end is not None and lane.x_end is not None:
                assert lane.x_end - lane.x == pytest.approx(lane.end - lane.start, abs=0.001)
            assert all(0 <= x <= sheet.width and 0 <= y <= sheet.height for p in sheet.paths for x, y in p)
            end = lane.end
        assert end == pytest.approx(one.rod.length, abs=0.001), "the last lane ends with its rod"


def test_every_tag_is_a_file_with_the_words_of_its_column(saved: Saved) -> None:
    files = saved.files("tag-")
    assert len(files) == len(saved.building.columns)
    by_title = {ET.parse(p).getroot().findtext(f"{SVG}title", "").split(": Tag ")[-1]: p for p in files}
    on_pages = [set(sheet.texts) for sheet in map(svg_sheet, saved.files("tags-"))]
    for column in saved.building.columns:
        texts = svg_sheet(by_title[column.name]).texts
        assert {column.name, "TOP", "OUTSIDE"} <= set(texts)
        assert any(show(column.up(cut.station), saved.building.job.style) in texts for cut in column.cuts)
        assert sum(set(texts) <= page for page in on_pages) == 1


def test_parts_are_written_when_asked_for_and_of_the_kinds_printed(printed: Printed, tmp_path: Path) -> None:
    assert not [n for n in printed.manifest["files"] if n.startswith(("lane-", "tag-"))]
    saved = save(printed.building, tmp_path / "out", "tags")
    assert not saved.files("lane-")
    assert len(saved.files("tag-")) == len(printed.building.columns)


@given(st.lists(st.text(max_size=6) | st.sampled_from(["A-1", "a 1", "A/1", "A 1", "a-1-2", "", "Å", "..", "CON"])))
def test_file_names_are_safe_on_every_system(names: list[str]) -> None:
    found = parts.file_names(names)
    assert len(found) == len(names)
    assert len({name.lower() for name in found}) == len(names)
    assert all(re.fullmatch(r"[A-Za-z0-9_-]+", name, re.ASCII) for name in found)
    assert parts.file_names(["A1", "B2"]) == ["A1", "B2"]


# --- layers ----------------------------------------------------------------------------------------------------------


def layers(path: Path) -> dict[str, ET.Element]:
    """The groups that the file consists of, by id."""
    root = ET.parse(path).getroot()
    assert [c.tag for c in root] == [f"{SVG}title", f"{SVG}defs", *[f"{SVG}g"] * 3]
    return {g.attrib["id"]: g for g in root.findall(f"{SVG}g")}


def inked(element: ET.Element, where: Callable[[ET.Element], bool]) -> int:
    return sum(1 for e in element.iter() if where(e))


def test_a_whole_rod_is_in_layers_of_hairlines(saved: Saved) -> None:
    """Hairlines are 0.004 in wide, 4 of 1000 units."""
    for path in saved.files("rod-"):
        found = layers(path)
        assert list(found) == ["cut-lines", "marks", "words"]
        widths = {e.attrib["stroke-width"] for e in ET.parse(path).iter() if "stroke-width" in e.attrib}
        assert widths == {"4"}
        assert inked(found["words"], lambda e: "stroke" in e.attrib) == 0
        for layer in ("cut-lines", "marks"):
            assert inked(found[layer], lambda e: e.tag == f"{SVG}use") == 0
        (cut,) = found["cut-lines"].findall(f"{SVG}path")
        assert cut.attrib["d"].count("M") == 4
        assert inked(found["marks"], lambda e: "-mark-" in e.get("id", "")) > 5


def test_layers_hold_all_that_was_drawn_in_its_place(saved: Saved, tmp_path: Path) -> None:
    from specimen import as_svg

    for path, (_, drawing) in zip(saved.files("rod-"), rod.whole(saved.building), strict=True):
        one, other = SvgReader(path), SvgReader(as_svg(tmp_path / "whole.svg", drawing))
        places = [sorted(tuple(round(c, 3) for p in places for c in p) for places in x.paths) for x in (one, other)]
        assert places[0] == places[1]
        words = [
            sorted((w.text, round(w.x, 3), round(w.y, 3), round(w.size, 3)) for w in x.words) for x in (one, other)
        ]
        assert words[0] == words[1]
