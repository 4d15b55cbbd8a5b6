"""What all commands share: the app, the words of their arguments, and what a run is asked to print."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

REFUSED, CANNOT_WRITE = 1, 3

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Print marking rods, column tags, wall diagrams and cut sheets for a post-frame building.",
)


class Kind(StrEnum):
    """Kinds of sheets that can be printed alone."""

    field = "field"
    grade = "grade"
    rods = "rods"
    tags = "tags"
    walls = "walls"
    roof = "roof"
    templates = "templates"
    cladding = "cladding"
    cuts = "cuts"


def _paper(name: str | None) -> str | None:
    """A paper that there is; another is wrong usage."""
    from sheets.paper import NoPaper, find

    try:
        if name is not None:
            find(name)
    except NoPaper as error:
        raise typer.BadParameter(f"{name} {error}") from None
    return name


JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).")]
ReadingsFile = Annotated[
    Path | None, typer.Option("--readings", help="The readings (CSV); by default the .csv beside the job.")
]
PaperName = Annotated[
    str | None, typer.Option("--paper", callback=_paper, help="Instead of the job's paper: a name, or 12x18.")
]
PrinterName = Annotated[str, typer.Option("--printer", help="The printer whose profile corrects the pages.")]
Png = Annotated[bool, typer.Option("--png", help="PNG previews too (needs the Cairo library).")]


@dataclass(frozen=True)
class Wish:
    """What to print, and how."""

    paper: str | None = None
    only: str | None = None
    printer: str = ""
    png: bool = False
    svg_parts: bool = False
    send: str = ""
    stale: Path | None = None


def config() -> Path:
    """The printer profiles of this user."""
    from sheets.printers import FILE

    return Path(typer.get_app_dir("rodwright")) / FILE
