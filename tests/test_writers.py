"""What was drawn, what the PDF holds and what the SVG holds are the same, to 0.001 in; files behave as
promised."""

from __future__ import annotations

import builtins
import ctypes
import hashlib
import os
import random
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

import fonts
from sheets import lettering, pdf, preview, svg
from sheets.pages import Page
from sheets.shapes import Drawing, Group, Line, Polygon, Recorder, Shape, Text, flat

NEAR = 0.001  # inches, the promise
SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
LENGTHS = ("13'-9 1/16\"", '2 1/8"', "14'-11 13/16\" × 3", "A3 5/8 LOW", "plain (words) \\ 7", "Å½ ° – ↑ ×")
HOSTILE = '<script>alert("&\'")</script> ]]> -- \\ ) ( % /Span'


def specimen(seed: int = 5) -> Drawing:
    """Lines, polygons and words at known places, nested groups among them."""
    pick = random.Random(seed)
    recorder = Recorder(8.5, 11)

    def place() -> tuple[float, float]:
        return pick.uniform(0.3, 8.2), pick.uniform(0.3, 10.7)

    for number in range(40):
        recorder.begin(f"row {number % 5}", "")
        recorder.stroke(*place(), *place(), pick.choice((0.004, 0.008, 0.028)), pick.choice(((), (0.1, 0.05))))
        recorder.stroke(*place(), *place())
        recorder.end()
        corners = tuple(place() for _ in range(pick.randint(3, 6)))
        grey = pick.choice((None, 0.0, 0.5, 1.0))
        recorder.shape(corners, grey, 0.008 if grey is None else pick.choice((0.0, 0.014)))
        x, y = pick.uniform(0.5, 6), pick.uniform(0.5, 9)
        size, cut = pick.uniform(0.08, 0.5), pick.choice(sorted(fonts.CUTS))
        turn: lettering.Turn = 90 if pick.random() < 0.5 else 0
        words, grey = LENGTHS[number % len(LENGTHS)], pick.choice((0.0, 0.4))
        lettering.write(recorder, x, y, words, size, cut, "left", turn, grey)
    return recorder.drawing()


def as_pdf(path: Path, *drawings: Drawing, title: str = "Job", **how: Any) -> Path:
    pdf.write(path, [Page(d, f"Sheet {n}", "Sheets") for n, d in enumerate(drawings)], title, **how)
    return path


def as_svg(path: Path, drawing: Drawing, title: str = "Job", unit: svg.Unit = "in") -> Path:
    svg.write(path, drawing, title, unit)
    return path


# --- what was wanted
# -------------------------------------------------------------------------------------------

Path2 = tuple[tuple[float, float], ...]


def wanted_paths(drawing: Drawing) -> list[Path2]:
    """Every line and polygon in order, as corner points, in inches, y up."""
    paths: list[Path2] = []
    for shape in flat(drawing.shapes):
        if isinstance(shape, Line):
            paths.append(((shape.x0, shape.y0), (shape.x1, shape.y1)))
        elif isinstance(shape, Polygon):
            paths.append(shape.points)
    return paths


def wanted_runs(drawing: Drawing) -> list[Text]:
    return [shape for shape in flat(drawing.shapes) if isinstance(shape, Text)]


def assert_same(found: list[Path2], wanted: list[Path2], near: float = NEAR) -> None:
    assert [len(path) for path in found] == [len(path) for path in wanted]
    for one, other in zip(found, wanted, strict=True):
        assert [c for p in one for c in p] == pytest.approx([c for p in other for c in p], abs=near)


# --- what stands in the files
# ----------------------------------------------------------------------------------


def pdf_paths(path: Path) -> list[Path2]:
    """Corner points of every path of the first page, by PDFium."""
    with pypdfium2.PdfDocument(path) as document:
        items = document[0].get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH])
        return [tuple(points_of(item)) for item in items]


def points_of(item: Any) -> Iterable[tuple[float, float]]:
    a, b, c, d, e, f = item.get_matrix().get()
    x, y = ctypes.c_float(), ctypes.c_float()
    points = []
    for index in range(pdfium.FPDFPath_CountSegments(item)):
        segment = pdfium.FPDFPath_GetPathSegment(item, index)
        assert pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        points.append(((a * x.value + c * y.value + e) / 72, (b * x.value + d * y.value + f) / 72))
    # PDFium closes an axis-parallel box with its first corner once more
    return points[:-1] if len(points) > 2 and points[0] == points[-1] else points


class SvgReader:
    """An SVG of ours read with the standard library: paths and runs in inches, y up."""

    def __init__(self, path: Path) -> None:
        self.root = ET.parse(path).getroot()
        _, _, wide, high = map(float, self.root.attrib["viewBox"].split())
        width, height = (self.inches(self.root.attrib[side]) for side in ("width", "height"))
        self.width, self.height, self.high = width, height, high
        self.x, self.y = width / wide, height / high
        self.paths: list[Path2] = []
        self.runs: list[tuple[str, float, float, tuple[float, ...], list[float]]] = []
        for child in self.root:
            self.read(child)

    @staticmethod
    def inches(size: str) -> float:
        number, unit = re.fullmatch(r"([\d.]+)(in|mm)", size).groups()  # type: ignore[union-attr]
        return float(number) / {"in": 1.0, "mm": 25.4}[unit]

    def place(self, x: float, y: float) -> tuple[float, float]:
        return x * self.x, (self.high - y) * self.y

    def read(self, element: ET.Element) -> None:
        if element.tag == f"{SVG}defs":
            return
        if element.tag == f"{SVG}path":
            for part in element.attrib["d"].split("M")[1:]:
                points = [tuple(map(float, p.split())) for p in part.rstrip("Z").split("L")]
                self.paths.append(tuple(self.place(x, y) for x, y in points))
        if "transform" in element.attrib:
            self.run(element)
            return
        for child in element:
            self.read(child)

    def run(self, element: ET.Element) -> None:
        *turn, e, f = map(float, re.findall(r"-?[\d.]+", element.attrib["transform"]))
        uses = element.findall(f"{SVG}use")
        codes = [re.fullmatch(r"#[rb]-([0-9A-F]+)", use.attrib[HREF]) for use in uses]
        words = "".join(chr(int(code[1], 16)) for code in codes if code)
        along = [float(use.get("x", 0)) for use in uses]
        self.runs.append((words, *self.place(e, f), tuple(turn), along))


# --- want == PDF == SVG
# ----------------------------------------------------------------------------------------


def test_lines_and_polygons_stand_where_they_were_drawn(tmp_path: Path) -> None:
    drawing = specimen()
    wanted = wanted_paths(drawing)
    assert len(wanted) > 120
    assert_same(pdf_paths(as_pdf(tmp_path / "a.pdf", drawing)), wanted, 1e-4)
    assert_same(SvgReader(as_svg(tmp_path / "a.svg", drawing)).paths, wanted, 1e-4)
    assert_same(SvgReader(as_svg(tmp_path / "mm.svg", drawing, unit="mm")).paths, wanted, 1e-4)


COORDINATE = st.floats(-1, 199, allow_nan=False)
PLACES = st.tuples(COORDINATE, COORDINATE)


@given(st.lists(st.lists(PLACES, min_size=2, max_size=5, unique=True), max_size=12))
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_place_is_kept_on_the_largest_page(tmp_path: Path, paths: list[list[tuple[float, float]]]) -> None:
    recorder = Recorder(200, 200)
    for points in paths:
        if len(points) == 2:
            recorder.stroke(*points[0], *points[1])
        else:
            recorder.shape(points, 0.5)
    drawing = recorder.drawing()
    wanted = wanted_paths(drawing)
    assert_same(SvgReader(as_svg(tmp_path / "a.svg", drawing)).paths, wanted, 1e-4)
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", drawing)) as document:
        page = document.pages[0]
        found = sorted(round(v, 6) for s in page.lines for p in s["pts"] for v in (p[0] / 72, 200 - p[1] / 72))
    lines = sorted(c for path in wanted if len(path) == 2 for p in path for c in p)
    assert found == pytest.approx(lines, abs=NEAR)


def test_strokes_and_greys_are_kept(tmp_path: Path) -> None:
    recorder = Recorder(8, 8)
    recorder.stroke(1, 1, 7, 1, 0.028)
    recorder.stroke(1, 2, 7, 2, 0.004, (0.1, 0.05))
    recorder.stroke(1, 3, 7, 3, 0.004)
    recorder.box(1, 4, 2, 5, 0.5, 0.0)
    recorder.box(3, 4, 4, 5, None, 0.014)
    recorder.box(5, 4, 6, 5, 0.8, 0.014)
    drawing = recorder.drawing()
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", drawing)) as document:
        lines, boxes = document.pages[0].lines, document.pages[0].rects
        assert [round(line["linewidth"] / 72, 5) for line in lines] == [0.028, 0.004, 0.004]
        dashes = [[round(part / 72, 4) for part in (line["dash"] or ([], 0))[0]] for line in lines]
        assert dashes == [[], [0.1, 0.05], []]
        assert [(box["fill"], box["stroke"]) for box in boxes] == [(True, False), (False, True), (True, True)]
        greys = [float(np.ravel(box["non_stroking_color"])[0]) for box in boxes if box["fill"]]
        assert greys == [0.5, 0.8]
    found = [
        (e.get("stroke-width"), e.get("stroke-dasharray"), e.get("fill"))
        for e in ET.parse(as_svg(tmp_path / "a.svg", drawing)).getroot().findall(f"{SVG}path")
    ]
    assert found == [
        ("28", None, "none"),
        ("4", "100,50", "none"),
        ("4", None, "none"),
        (None, None, "rgb(128,128,128)"),
        ("14", None, "none"),
        ("14", None, "rgb(204,204,204)"),
    ]


def test_words_in_the_pdf_begin_and_end_where_lettering_says(tmp_path: Path) -> None:
    drawing = specimen()
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", drawing)) as document:
        chars = iter(document.pages[0].chars)
        for run in wanted_runs(drawing):
            mine = [next(chars) for _ in run.text]
            assert "".join(c["text"] for c in mine) == run.text
            assert [v / 72 for v in mine[0]["matrix"][4:]] == pytest.approx([run.x, run.y], abs=NEAR)
            wide = lettering.width(run.text, run.size, run.cut, fractions=False)
            end = mine[-1]["x1"] / 72 if run.turn == 0 else mine[-1]["y1"] / 72
            assert end == pytest.approx((run.x if run.turn == 0 else run.y) + wide, abs=NEAR)
            assert fonts.CUTS[run.cut].split("-")[1][:4] in mine[0]["fontname"]
        assert next(chars, None) is None


def test_words_in_the_svg_stand_where_lettering_says(tmp_path: Path) -> None:
    drawing = specimen()
    found = SvgReader(as_svg(tmp_path / "a.svg", drawing)).runs
    for run, (words, x, y, turn, along) in zip(wanted_runs(drawing), found, strict=True):
        assert words == run.text.replace(" ", "")
        assert (x, y) == pytest.approx((run.x, run.y), abs=1e-4)
        step = (run.size, 0, 0, -run.size) if run.turn == 0 else (0, -run.size, -run.size, 0)
        assert turn == pytest.approx(step, abs=1e-6)
        starts = [
            lettering.width(run.text[:at], 1000.0, run.cut, fractions=False)
            for at, char in enumerate(run.text)
            if char != " "
        ]
        assert along == pytest.approx(starts)


def test_the_words_as_typed_are_found_in_both_files(tmp_path: Path) -> None:
    recorder = Recorder(8, 8)
    for row, words in enumerate(LENGTHS):
        lettering.write(recorder, 1, 1 + row, words, 0.3)
    drawing = recorder.drawing()
    with pypdfium2.PdfDocument(as_pdf(tmp_path / "a.pdf", drawing)) as document:
        copied = document[0].get_textpage().get_text_range()
    assert sorted(copied.split("\r\n")) == sorted(LENGTHS)
    titles = [e.text for e in ET.parse(as_svg(tmp_path / "a.svg", drawing)).getroot().iter(f"{SVG}title")]
    assert titles == ["Job", *LENGTHS]


def test_words_of_a_length_beyond_ascii_are_copied_whole(tmp_path: Path) -> None:
    recorder = Recorder(8, 8)
    lettering.write(recorder, 1, 1, "Å (3' – 2 1/2\") \\ ±", 0.3)
    with pypdfium2.PdfDocument(as_pdf(tmp_path / "a.pdf", recorder.drawing())) as document:
        assert document[0].get_textpage().get_text_range() == "Å (3' – 2 1/2\") \\ ±"


# --- the PDF as a file
# -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("compress", [True, False])
def test_pages_are_exactly_as_large_as_their_drawings(tmp_path: Path, compress: bool) -> None:
    sizes = [(8.5, 11.0), (11.0, 17.0), (210 / 25.4, 297 / 25.4), (200.0, 3.0), (17.25, 1.0)]
    drawings = [Drawing(width, height, ()) for width, height in sizes]
    path = as_pdf(tmp_path / "a.pdf", *drawings, compress=compress)
    assert path.read_bytes().startswith(b"%PDF-1.7")
    with pypdfium2.PdfDocument(path) as document:
        for page, (width, height) in zip(document, sizes, strict=True):
            assert page.get_mediabox() == pytest.approx((0, 0, width * 72, height * 72), abs=1e-3)
            assert page.get_rotation() == 0


def test_the_printer_is_told_not_to_scale_nor_to_turn_the_sheet_over(tmp_path: Path) -> None:
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", specimen())) as document:
        wishes = pdfplumber.utils.pdfinternals.resolve_all(document.doc.catalog["ViewerPreferences"])
    assert {key: value.name for key, value in wishes.items() if hasattr(value, "name")} == {
        "PrintScaling": "None",
        "Duplex": "Simplex",
    }
    assert wishes["DisplayDocTitle"] is True


def test_only_our_fonts_and_all_of_them_embedded(tmp_path: Path) -> None:
    with pdfplumber.open(as_pdf(tmp_path / "a.pdf", specimen())) as document:
        resources = pdfplumber.utils.pdfinternals.resolve_all(document.pages[0].page_obj.resources)
    names = set()
    for font in resources["Font"].values():
        assert font["Subtype"].name == "TrueType"
        assert font["FontDescriptor"]["FontFile2"].get_data()[:4] in (b"\0\1\0\0", b"true")
        names.add(font["BaseFont"].name.split("+")[1])
    assert names == {"IBMPlexSansCond-Regular", "IBMPlexSansCond-SemiBold"}


def test_bookmarks_lead_through_sections_and_pages(tmp_path: Path) -> None:
    blank = Drawing(8.5, 11, ())
    rows = [("Index", "Index"), ("Tags", "A1"), ("Tags", "A2 – Ø"), ("Walls", "North")]
    pdf.write(tmp_path / "a.pdf", [Page(blank, title, section) for section, title in rows], "Barn (1) – é")
    with pypdfium2.PdfDocument(tmp_path / "a.pdf") as document:
        found = [(b.level, b.get_title(), b.get_dest().get_index()) for b in document.get_toc()]
        about = document.get_metadata_dict()
    assert found == [
        (0, "Index", 0),
        (1, "Index", 0),
        (0, "Tags", 1),
        (1, "A1", 1),
        (1, "A2 – Ø", 2),
        (0, "Walls", 3),
        (1, "North", 3),
    ]
    assert (about["Title"], about["Author"]) == ("Barn (1) – é", "rodwright")


# --- the same bytes
# --------------------------------------------------------------------------------------------


def digests(folder: Path) -> str:
    """One line that changes with any byte either writer puts out."""
    drawing = specimen()
    names = [as_pdf(folder / "a.pdf", drawing, drawing), as_pdf(folder / "b.pdf", drawing, compress=False)]
    names.append(as_svg(folder / "a.svg", drawing))
    return " ".join(hashlib.sha256(name.read_bytes()).hexdigest() for name in names)


def test_the_same_drawing_gives_the_same_bytes_here_and_in_a_fresh_interpreter(tmp_path: Path) -> None:
    as_pdf(tmp_path / "other.pdf", specimen(9))  # what was written before leaves no trace
    here = digests(tmp_path)
    assert digests(tmp_path) == here
    script = f"import sys, pathlib; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
    script += f"import test_writers as t; print(t.digests(pathlib.Path({str(tmp_path)!r})))"
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        fresh = subprocess.run(
            [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True
        )
        assert fresh.stdout.strip() == here


# --- hostile and wrong input
# -----------------------------------------------------------------------------------


def test_hostile_words_are_words(tmp_path: Path) -> None:
    recorder = Recorder(17, 11)
    lettering.write(recorder, 0.2, 1, HOSTILE, 0.2)
    lettering.write(recorder, 0.2, 2, f"{HOSTILE} 1/2", 0.2)
    recorder.begin(HOSTILE, HOSTILE)
    recorder.end()
    drawing = recorder.drawing()
    root = ET.parse(as_svg(tmp_path / "a.svg", drawing, HOSTILE)).getroot()
    titles = [element.text for element in root.iter(f"{SVG}title")]
    assert titles == [HOSTILE, HOSTILE, f"{HOSTILE} 1/2", HOSTILE]
    assert {e.tag for e in root.iter()} <= {f"{SVG}{t}" for t in ("svg", "title", "defs", "path", "g", "use")}
    with pypdfium2.PdfDocument(as_pdf(tmp_path / "a.pdf", drawing, title=HOSTILE)) as document:
        copied = document[0].get_textpage().get_text_range()
        assert document.get_metadata_dict()["Title"] == HOSTILE
    assert copied.split("\r\n") == [f"{HOSTILE} 1/2", HOSTILE] or copied.split("\r\n") == [
        HOSTILE,
        f"{HOSTILE} 1/2",
    ]


BAD = [
    Text(1, 1, "a\x00b", 0.2, "regular"),
    Text(1, 1, "a\x1bb", 0.2, "bold"),
    Text(1, 1, "✕", 0.2, "bold"),
    Group("text", (Line(0, 0, 1, 1),), "a\x08"),
    Group("text", (Line(0, 0, 1, 1),), "a\ud800"),
    Group("any", (Line(0, 0, float("nan"), 1),)),
    Group("any", (Polygon(((0, 0), (1, 1), (float("inf"), 0))),)),
    Group("any", (Text(1, 1, "a", 0.2, "regular", 0, 7.0),)),
    Polygon(((0, 0), (1, 1))),
    Polygon(((0, 0), (1, 1), (1, 0)), -0.1),
]


@pytest.mark.parametrize("shape", BAD, ids=range(len(BAD)))
def test_what_cannot_be_shown_is_refused_and_nothing_written(tmp_path: Path, shape: Any) -> None:
    drawing = Drawing(8, 8, (shape,))
    with pytest.raises(ValueError):
        as_pdf(tmp_path / "a.pdf", drawing)
    with pytest.raises(ValueError):
        as_svg(tmp_path / "a.svg", drawing)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("size", [(0.0, 5.0), (5.0, -1.0), (200.5, 5.0), (float("nan"), 5.0)])
def test_a_page_of_no_or_too_large_a_size_is_refused(tmp_path: Path, size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="side"):
        as_pdf(tmp_path / "a.pdf", Drawing(*size, ()))
    with pytest.raises(ValueError, match="without pages"):
        pdf.write(tmp_path / "a.pdf", [], "Job")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("title", ["a\x00", "a\nb", "\ud800"])
def test_control_characters_in_a_title_are_refused(tmp_path: Path, title: str) -> None:
    blank = Drawing(8, 8, ())
    with pytest.raises(ValueError):
        as_svg(tmp_path / "a.svg", blank, title)
    for page, name in (
        (Page(blank, title, "S"), "J"),
        (Page(blank, "P", title), "J"),
        (Page(blank, "P", "S"), title),
    ):
        with pytest.raises(ValueError):
            pdf.write(tmp_path / "a.pdf", [page], name)
    assert not list(tmp_path.iterdir())


# --- the SVG as a file
# -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("unit", "sizes"), [("in", ("8.5in", "11in")), ("mm", ("215.9mm", "279.4mm"))])
def test_the_svg_has_its_true_size(tmp_path: Path, unit: svg.Unit, sizes: tuple[str, str]) -> None:
    root = ET.parse(as_svg(tmp_path / "a.svg", Drawing(8.5, 11, ()), unit=unit)).getroot()
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == (*sizes, "0 0 8500 11000")
    assert root.get("version") == "1.1"


def test_group_names_become_unique_xml_names(tmp_path: Path) -> None:
    names = ["wall", "wall", "wall-2", "1 north", "ß<>", "", "b-31", "a:b", "-", "wall"]
    line = Line(0, 0, 1, 1)
    shapes: tuple[Shape, ...] = (*(Group(name, (line,)) for name in names), Text(1, 1, "11", 0.3, "bold"))
    root = ET.parse(as_svg(tmp_path / "a.svg", Drawing(8, 8, shapes))).getroot()
    ids = [e.attrib["id"] for e in root.iter() if "id" in e.attrib]
    assert len(ids) == len(set(ids)) == len(names) + 1
    assert all(re.fullmatch(r"[A-Za-z_][\w.-]*", name, re.ASCII) for name in ids)
    groups = [e.attrib["id"] for e in root.findall(f"{SVG}g[@id]")]
    assert groups[:4] == ["wall", "wall-2", "wall-2-2", "n-1-north"]
    targets = {e.attrib[HREF] for e in root.iter(f"{SVG}use")}
    defined = {f"#{e.attrib['id']}" for e in root.findall(f"{SVG}defs/{SVG}path")}
    assert targets == defined


def test_lines_of_one_style_share_a_path_and_the_order_of_painting_is_kept(tmp_path: Path) -> None:
    recorder = Recorder(8, 8)
    for row in range(3):
        recorder.stroke(1, row, 2, row)
    recorder.box(0, 0, 5, 5, 1.0, 0.0)
    recorder.stroke(1, 4, 2, 4)
    root = ET.parse(as_svg(tmp_path / "a.svg", recorder.drawing())).getroot()
    assert [e.attrib["d"].count("M") for e in root.findall(f"{SVG}path")] == [3, 1, 1]


# --- both files, and the preview, show the same
# ----------------------------------------------------------------


def cairo_is_missing() -> bool:
    try:
        import cairosvg  # noqa: F401
    except OSError:
        return True
    return False


needs_cairo = pytest.mark.skipif(cairo_is_missing(), reason="no Cairo library on this machine")


def raster_of_pdf(path: Path, dpi: int) -> Any:
    with pypdfium2.PdfDocument(path) as document:
        # a hair under the scale: PDFium rounds the size up, 1650.0000000000002 to 1651 rows
        return np.asarray(document[0].render(scale=dpi / 72 - 1e-9).to_pil().convert("L"), dtype=float)


def raster_of_svg(path: Path, dpi: int) -> Any:
    preview.write(path, path.with_suffix(".png"), dpi)
    with Image.open(path.with_suffix(".png")) as picture:
        return np.asarray(picture.convert("L"), dtype=float)


def ink(raster: Any, darker_than: float = 128) -> list[int]:
    rows, columns = np.nonzero(raster < darker_than)
    return [int(v) for v in (rows.min(), rows.max(), columns.min(), columns.max())]


@needs_cairo
def test_both_files_show_the_same_picture(tmp_path: Path) -> None:
    drawing = specimen()
    one = raster_of_pdf(as_pdf(tmp_path / "a.pdf", drawing), 150)
    other = raster_of_svg(as_svg(tmp_path / "a.svg", drawing), 150)
    assert one.shape == other.shape == (1650, 1275)
    assert float(np.abs(one - other).mean()) < 4  # of 255: edges are smoothed differently
    assert float((np.abs(one - other) > 200).mean()) < 0.001
    assert max(abs(a - b) for a, b in zip(ink(one), ink(other), strict=True)) <= 1


@needs_cairo
@pytest.mark.parametrize("turn", [0, 90])
@pytest.mark.parametrize("words", LENGTHS)
def test_the_ink_of_a_line_stays_within_its_extent(tmp_path: Path, words: str, turn: lettering.Turn) -> None:
    recorder = Recorder(8, 8)
    lettering.write(recorder, 4, 1, words, 0.6, "bold", "left", turn)
    wide, above, below = lettering.extent(words, 0.6, "bold")
    left, right, low, high = (4.0, 4 + wide, 1 - below, 1 + above)
    if turn == 90:
        left, right, low, high = (4.0 - above, 4 + below, 1, 1 + wide)
    for raster in (
        raster_of_pdf(as_pdf(tmp_path / "a.pdf", recorder.drawing()), 150),
        raster_of_svg(as_svg(tmp_path / "a.svg", recorder.drawing()), 150),
    ):
        top, bottom, first, last = ink(raster)
        assert first >= left * 150 - 1
        assert last <= right * 150 + 1
        assert top >= (8 - high) * 150 - 1
        assert bottom <= (8 - low) * 150 + 1
        # and the heights are the ink's own, not a guess on the safe side
        reach = (top - (8 - high) * 150, (8 - low) * 150 - bottom)
        if turn == 0:
            assert max(reach) < 3


@needs_cairo
def test_the_preview_has_the_size_asked_for_in_either_unit(tmp_path: Path) -> None:
    drawing = Drawing(8.5, 11, (Polygon(((1, 1), (2, 1), (2, 3))),))
    pictures = [raster_of_svg(as_svg(tmp_path / f"{unit}.svg", drawing, unit=unit), 96) for unit in ("in", "mm")]
    assert [picture.shape for picture in pictures] == [(1056, 816)] * 2
    assert (pictures[0] == pictures[1]).all()
    assert pictures[0].max() == 255


def test_a_picture_over_the_limit_is_refused(tmp_path: Path) -> None:
    path = as_svg(tmp_path / "a.svg", Drawing(100, 1, ()))
    with pytest.raises(ValueError, match="32767"):
        preview.write(path, tmp_path / "a.png", 400)
    (tmp_path / "other.svg").write_text("<svg width='100%'/>")
    with pytest.raises(ValueError, match="not an SVG file of ours"):
        preview.write(tmp_path / "other.svg", tmp_path / "a.png", 96)
    assert not (tmp_path / "a.png").exists()


def test_without_cairo_the_message_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = as_svg(tmp_path / "a.svg", Drawing(1, 1, ()))
    real = builtins.__import__

    def refusing(name: str, *rest: Any) -> Any:
        if name == "cairosvg":
            raise OSError("no library called cairo was found")
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", refusing)
    with pytest.raises(preview.NoCairo, match=r"libcairo2.*brew install cairo.*GTK"):
        preview.write(path, tmp_path / "a.png", 96)
    assert not (tmp_path / "a.png").exists()


def test_no_writer_knows_the_library_of_another() -> None:
    for module, other in (("pdf", "svgwrite"), ("svg", "reportlab"), ("preview", "svgwrite")):
        script = f"import sys, sheets.{module}; assert not [m for m in sys.modules if m.startswith({other!r})]"
        subprocess.run([sys.executable, "-c", script], check=True)


def test_the_state_of_one_page_is_not_taken_for_the_state_of_the_next(tmp_path: Path) -> None:
    recorder = Recorder(4, 4)
    recorder.stroke(1, 1, 3, 1, 0.028, (0.1, 0.1))
    lettering.write(recorder, 1, 2, "grey", 0.3, "bold", grey=0.5)
    path = as_pdf(tmp_path / "a.pdf", recorder.drawing(), recorder.drawing(), recorder.drawing())
    with pdfplumber.open(path) as document:
        pages = [
            [(line["linewidth"], line["dash"]) for line in page.lines]
            + [(c["fontname"], c["size"], c["non_stroking_color"]) for c in page.chars]
            for page in document.pages
        ]
    assert all(one == other for one, other in pairwise(pages))
    assert pages[0][0][0] == pytest.approx(0.028 * 72, abs=1e-3)
