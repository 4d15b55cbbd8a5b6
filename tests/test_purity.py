"""The layout is numbers only: importing any part of it loads nothing that draws, prints or parses a command line."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import layouts

MODULES = sorted(p.stem for p in Path(layouts.__file__).parent.glob("*.py") if p.stem != "__init__")
DRAWING = ("shapes", "pages", "paper", "lanes", "lettering")
FORBIDDEN = ("sheets", "fonts", "reportlab", "svgwrite", "cairosvg", "typer", "click", "fontTools", "pint", "numpy")


def loaded(*modules: str) -> set[str]:
    """The packages that a fresh interpreter has loaded after all of *modules*, so after any of them."""
    telling = "import sys; print(*sorted({name.partition('.')[0] for name in sys.modules}))"
    done = subprocess.run(
        [sys.executable, "-c", f"import {', '.join(modules)}; {telling}"],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[1],
    )
    return set(done.stdout.split())


def test_there_are_modules_to_look_at() -> None:
    assert {"building", "lengths", "job", "rods", "walls"} <= set(MODULES)


def test_no_layout_module_loads_anything_but_numbers() -> None:
    found = loaded(*(f"layouts.{module}" for module in MODULES))
    assert "layouts" in found
    assert not found.intersection(FORBIDDEN)


def test_the_drawing_model_loads_no_writer() -> None:
    found = loaded(*(f"sheets.{module}" for module in DRAWING))
    assert "sheets" in found
    assert not found.intersection(("reportlab", "svgwrite", "cairosvg", "typer", "pint"))


def test_what_is_loaded_would_be_seen() -> None:
    assert "pint" in loaded("layouts.lengths", "pint")
