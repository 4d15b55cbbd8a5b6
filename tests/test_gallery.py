"""The gallery's sheets are what its jobs print today. ``python tests/test_gallery.py`` rebuilds them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

import pytest

from sheets import packet, preview, svg
from sheets.load import load
from sheets.paper import PAPERS

GALLERY = Path(__file__).parent.parent / "gallery"
PAGE = GALLERY / "README.md"
"""The page that shows and explains every job."""


@dataclass(frozen=True)
class Shown:
    """A job of the gallery: what it is, and its sheets with what they tell."""

    title: str
    about: str
    sheets: dict[str, str]


SHOWN = {
    "larkspur": Shown(
        "A machine shed, the demo",
        "30 by 54 ft, columns of three plies on brackets that are out by an inch and a half, a wainscot nailer and a"
        " level soffit. `rodwright demo` prints it.",
        {
            "rods-006": "Lanes of the sidewall rod at full scale. Each is cut on its left line and set to the steel"
            " tape by its own tape numbers; the X stands on the side that the board covers.",
            "tags-004": "Tags, one stapled to each column: the offset up from its bottom end, HIGH or LOW, the cuts.",
            "walls-001": "A wall as it lies, outside face up. Bottoms do not line up, the grade line does.",
            "index-001": "The first page: warnings, sizes, how the heights add up, and every sheet with its stamp.",
            "cuts-002": "Which stick every board comes from.",
        },
    ),
    "cooper": Shown(
        "A joiner's shop",
        "36 by 56 ft with a wainscot, an overhead, a sliding and a walk door and windows, on piers that are out by two"
        " inches.",
        {
            "rods-004": "A rod for some columns only says for which, and the jambs stand on it too.",
            "tags-002": "Tags of columns beside doors: header and track stand among the cuts.",
            "walls-002": "The wall with the sliding door: rough opening, header, track, jamb posts, cripples.",
            "walls-006": "A gable with a window, its girts cut along the slope.",
            "cuts-006": "The cutting plan, the cheapest for the yard's prices.",
            "templates-001": "A pattern at full scale to trace on the side of the column.",
            "cladding-005": "Sheets of a gable, stepped by their cover width.",
        },
    ),
    "tern": Shown(
        "A long wagon shed",
        "28 by 84 ft. Carriers go from column to column with a truss every four feet, girts lie between the columns.",
        {
            "tags-001": "Tags of columns that end level under carriers, with the shoulders they are let into.",
            "walls-001": "The first half of a long wall with a sliding door, girts between the columns.",
            "walls-003": "Its carriers, where they break, and the trusses on them.",
            "roof-001": "Purlins, lookouts and the trusses along the fascia, for the tape.",
        },
    ),
    "halden": Shown(
        "A boat shelter in millimetres",
        "7.2 by 14.4 m, one slope of 8 degrees, on A4 paper.",
        {
            "tags-004": "Tags of the high wall: the low point of the ears is on the inside face.",
            "walls-007": "An endwall under one slope, with a door.",
            "roof-001": "The slope with its purlins.",
            "cladding-005": "Sheets of that endwall, each with its length to order.",
        },
    ),
}
SHEETS = [(job, name) for job, shown in SHOWN.items() for name in shown.sheets]


def page() -> str:
    """The page of the gallery, as Markdown."""
    lines = [
        "# Gallery",
        "",
        "Buildings of our own, invented, and some of their sheets. `python tests/test_gallery.py`",
    ]
    lines[-1] += " draws them anew; a test compares."
    for job, shown in SHOWN.items():
        lines += [
            "",
            f"## {shown.title}",
            "",
            f"{shown.about} Its [job file]({job}/job.toml) and [readings]({job}/job.csv).",
        ]
        for name, words in shown.sheets.items():
            lines += ["", f"{words} ([as SVG]({job}/{name}.svg))", "", f"![{words}]({job}/{name}.png)"]
    return "\n".join(lines) + "\n"


def drawn(job: str, folder: Path) -> dict[str, Path]:
    """The shown sheets of a job, drawn into *folder*."""
    building = load(GALLERY / job / "job.toml")
    built = packet.build(building, PAPERS[building.job.job.paper])
    paths = {}
    for name, drawing, title in packet.drawings(built):
        if name in SHOWN[job].sheets:
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
    assert set(found) == set(SHOWN[job].sheets)
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


def test_the_page_shows_and_explains_them() -> None:
    text = PAGE.read_text(encoding="utf-8")
    assert text == page(), "run python tests/test_gallery.py"
    kept = {path.relative_to(GALLERY).as_posix() for path in GALLERY.glob("*/*.[ps][nv]g")}
    assert kept == {f"{job}/{name}.{kind}" for job, name in SHEETS for kind in ("png", "svg")}, "a picture nobody shows"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    for shown in SHOWN:
        for sheet, path in drawn(shown, GALLERY / shown).items():
            preview.write(path, path.with_suffix(".png"), packet.PREVIEW_DPI)
            print(shown, sheet)
