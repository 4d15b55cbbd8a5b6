"""What is loaded: any part of the layout loads numbers only, nothing that draws, prints or parses a command line; a
command loads no other."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import typer.main

import layouts
from sheets import cli_app

MODULES = sorted(p.stem for p in Path(layouts.__file__).parent.glob("*.py") if p.stem != "__init__")
ROOT = Path(__file__).parents[1]
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
        cwd=ROOT,
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


def test_a_command_in_english_loads_no_other_command_and_nothing_of_languages() -> None:
    code = (
        "import sys\nfrom sheets.cli import main\nsys.argv = ['rodwright', 'check', 'gallery/larkspur/job.toml']\n"
        "try:\n    main()\nexcept SystemExit as end:\n    assert not end.code\nprint(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    found = {*done.stdout.splitlines()[-1].split()}
    assert {"sheets.cli_print", "sheets.language", "layouts.building"} <= found
    assert not found & {"sheets.cli_site", "sheets.cli_start", "sheets.speech", "sheets.forms"}


def test_every_command_is_made_by_its_name() -> None:
    group = typer.main.get_command(cli_app.app)
    made = {name: group.commands[name] for name in cli_app.COMMANDS}  # type: ignore[attr-defined]
    assert {name: command.name for name, command in made.items()} == {name: name for name in made}
    assert cli_app._alone.keys() == cli_app.COMMANDS.keys(), "one that nobody can ask for"
