"""The layout is numbers only: importing any part of it loads nothing that draws, prints or parses a command line."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import layouts

MODULES = sorted(p.stem for p in Path(layouts.__file__).parent.glob("*.py") if p.stem != "__init__")
FORBIDDEN = ("sheets", "fonts", "reportlab", "svgwrite", "cairosvg", "typer", "click", "fontTools", "pint", "numpy")


def loaded(script: str) -> set[str]:
    """The packages a fresh interpreter has loaded after *script*."""
    tell = 'import sys; print(*sorted({n.partition(".")[0] for n in sys.modules}))'
    done = subprocess.run(
        [sys.executable, "-c", f"{script}\n{tell}"],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[1],
    )
    return set(done.stdout.split())


def test_there_are_modules_to_look_at() -> None:
    assert {"building", "lengths", "job", "rods", "walls"} <= set(MODULES)


@pytest.mark.parametrize("module", MODULES)
def test_a_layout_module_loads_only_numbers(module: str) -> None:
    found = loaded(f"import layouts.{module}")
    assert "layouts" in found
    assert not found.intersection(FORBIDDEN)


@pytest.mark.parametrize("module", ["shapes", "pages", "paper", "lanes", "lettering"])
def test_the_drawing_model_loads_no_writer(module: str) -> None:
    assert not loaded(f"import sheets.{module}").intersection(("reportlab", "svgwrite", "cairosvg", "typer", "pint"))
