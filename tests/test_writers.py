"""What was drawn, what the PDF holds and what the SVG holds are the same, to 0.001 in; the same bytes every time."""

from __future__ import annotations

import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from effort import examples
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from readback import NEAR, SVG, SvgReader, assert_same, pdf_paths
from specimen import HOSTILE, LENGTHS, as_pdf, as_svg, digests, specimen, wanted_paths, wanted_runs

import fonts
from sheets import lettering
from sheets.shapes import Drawing, Group, Line, Polygon, Recorder, Text


def test_lines_and_polygons_stand_where_they_were_drawn(tmp_path: Path) -> None:
    drawing = specimen()
    wanted = wanted_paths(drawing)
    assert len(wanted) > 120
    assert_same(pdf_paths(as_pdf(tmp_path / "a.pdf", drawing)), wanted, 1e-4)
    assert_same(SvgReader(as_svg(tmp_path / "a.svg", drawing)).paths, wanted, 1e-4)
    assert_same(SvgReader(as_svg(tmp_path / "mm.svg", drawing, unit="mm")).paths, wanted, 1e-4)


# thousandths: of corners that meet in the file the reader makes another shape
COORDINATE = st.integers(-1000, 199_000).map(lambda thousandths: thousandths / 1000)


PLACES = st.tuples(COORDINATE, COORDINATE)


@given(st.lists(st.lists(PLACES, min_size=2, max_size=5, unique=True), max_size=12))
@settings(max_examples=examples(40), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
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


def test_the_same_drawing_gives_the_same_bytes_here_and_in_a_fresh_interpreter(tmp_path: Path) -> None:
    as_pdf(tmp_path / "other.pdf", specimen(9))  # what was written before leaves no trace
    here = digests(tmp_path)
    assert digests(tmp_path) == here
    script = f"import sys, pathlib; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
    script += f"import specimen as t; print(t.digests(pathlib.Path({str(tmp_path)!r})))"
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        fresh = subprocess.run(
            [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True
        )
        assert fresh.stdout.strip() == here


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
