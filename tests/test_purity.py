"""The layout is numbers only: importing any part of it loads nothing that draws, prints or parses a command line."""

from __future__ import annotations

import os
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

import layouts

MODULES = sorted(p.stem for p in Path(layouts.__file__).parent.glob("*.py") if p.stem != "__init__")
DRAWING = ("shapes", "pages", "paper", "lanes", "lettering")
FORBIDDEN = ("sheets", "fonts", "reportlab", "svgwrite", "cairosvg", "typer", "click", "fontTools", "pint", "numpy")


# A bare interpreter that makes a copy of itself for each line it is given: one start for all modules.
FORKING = """
import os, sys
for script in sys.stdin:
    if not os.fork():
        exec(script)
        print(script.strip(), *sorted({n.partition(".")[0] for n in sys.modules}), sep="\\t", flush=True)
        os._exit(0)
    if os.wait()[1]:
        sys.exit(script)
"""
TELLING = "import sys; print(*sorted({n.partition('.')[0] for n in sys.modules}), sep='\\t')"
ALL = [f"import layouts.{module}" for module in MODULES] + [f"import sheets.{module}" for module in DRAWING]


def _ran(script: str, given: str = "") -> list[str]:
    done = subprocess.run(
        [sys.executable, "-c", script],
        input=given,
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[1],
    )
    return done.stdout.splitlines()


@cache
def _all_loaded() -> dict[str, set[str]]:
    rows = [line.split("\t") for line in _ran(FORKING, "".join(f"{script}\n" for script in ALL))]
    return {script: set(found) for script, *found in rows}


def loaded(script: str) -> set[str]:
    """The packages a fresh interpreter has loaded after *script*, one of ``ALL``."""
    if hasattr(os, "fork"):
        return _all_loaded()[script]
    return set(_ran(f"{script}; {TELLING}")[0].split("\t"))


def test_there_are_modules_to_look_at() -> None:
    assert {"building", "lengths", "job", "rods", "walls"} <= set(MODULES)


@pytest.mark.parametrize("module", MODULES)
def test_a_layout_module_loads_only_numbers(module: str) -> None:
    found = loaded(f"import layouts.{module}")
    assert "layouts" in found
    assert not found.intersection(FORBIDDEN)


@pytest.mark.parametrize("module", DRAWING)
def test_the_drawing_model_loads_no_writer(module: str) -> None:
    assert not loaded(f"import sheets.{module}").intersection(("reportlab", "svgwrite", "cairosvg", "typer", "pint"))
