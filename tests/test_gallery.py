"""The gallery's sheets are what its jobs print today. ``python tests/test_gallery.py`` rebuilds them."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from sheets import packet, preview, svg
from sheets.load import load
from sheets.paper import PAPERS

GALLERY = Path(__file__).parent.parent / "gallery"
SHOWN = {
    "larkspur": ("rods-006", "tags-004", "walls-002", "index-001", "cuts-002"),
    "cooper": ("rods-004", "tags-002", "walls-002", "walls-006", "cuts-006", "templates-001", "cladding-005"),
}
SHEETS = [(job, name) for job, names in SHOWN.items() for name in names]


def drawn(job: str, folder: Path) -> dict[str, Path]:
    """The shown sheets of a job, drawn into *folder*."""
    building = load(GALLERY / job / "job.toml")
    built = packet.build(building, PAPERS[building.job.job.paper])
    paths = {}
    for name, drawing, title in packet.drawings(built):
        if name in SHOWN[job]:
            paths[name] = folder / f"{name}.svg"
            svg.write(paths[name], drawing, title)
    return paths


def parsed(path: Path) -> list[tuple[str, list[float], str]]:
    """Tag, numbers and words of every element: what is compared, not how the file is laid out."""
    found = []
    for element in ElementTree.parse(path).iter():
        text = " ".join(f"{key}={value}" for key, value in sorted(element.attrib.items()))
        numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", text)]
        found.append((element.tag, numbers, re.sub(r"-?\d+\.?\d*", "", text) + (element.text or "").strip()))
    return found


@pytest.mark.parametrize("job", SHOWN)
def test_the_sheets_of_the_gallery_are_what_its_job_prints(job: str, tmp_path: Path) -> None:
    found = drawn(job, tmp_path)
    assert set(found) == set(SHOWN[job])
    for name, path in found.items():
        assert parsed(GALLERY / job / f"{name}.svg") == parsed(path), name


@pytest.mark.parametrize(("job", "name"), SHEETS)
def test_its_picture_shows_that_sheet(job: str, name: str, tmp_path: Path) -> None:
    """As much ink, in the same places, as a fresh rendering: Cairo's smoothing may differ between builds."""
    import numpy as np
    from PIL import Image

    try:
        preview.write(GALLERY / job / f"{name}.svg", tmp_path / "fresh.png", packet.PREVIEW_DPI)
    except preview.NoCairo:
        pytest.skip("Cairo is not installed")
    with Image.open(tmp_path / "fresh.png") as new, Image.open(GALLERY / job / f"{name}.png") as old:
        assert new.size == old.size
        fresh, kept = (np.asarray(image.convert("L"), dtype=float) for image in (new, old))
    assert kept.min() < 50, "a blank picture"
    assert float(np.abs(fresh - kept).mean()) < 0.5


if __name__ == "__main__":
    for shown in SHOWN:
        for sheet, path in drawn(shown, GALLERY / shown).items():
            preview.write(path, path.with_suffix(".png"), packet.PREVIEW_DPI)
            print(shown, sheet)
