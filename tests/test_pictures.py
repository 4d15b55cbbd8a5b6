"""PDF, SVG and preview show the same picture."""

from __future__ import annotations

import builtins
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
import pytest
from PIL import Image
from specimen import LENGTHS, as_pdf, as_svg, specimen

from sheets import lettering, preview
from sheets.shapes import Drawing, Polygon, Recorder


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
