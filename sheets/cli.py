"""The command line: plain verbs, and the one place where errors become messages and exit codes.

Exit codes: 0 done, 1 job refused, 2 usage, 3 cannot write.
"""

from __future__ import annotations

import json
import sys
from enum import StrEnum
from importlib.resources import as_file, files
from pathlib import Path
from typing import Annotated

import typer

from layouts.building import Building
from layouts.problems import JobRefused
from sheets.preview import NoCairo

REFUSED, CANNOT_WRITE = 1, 3

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Print marking rods, column tags, wall diagrams and cut sheets for a post-frame building.",
)


class PaperName(StrEnum):
    """Papers that are in the printer."""

    letter = "letter"
    a4 = "a4"


class Kind(StrEnum):
    """Kinds of sheets that can be printed alone."""

    rods = "rods"
    tags = "tags"
    walls = "walls"
    cuts = "cuts"


JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).")]
ReadingsFile = Annotated[
    Path | None, typer.Option("--readings", help="The readings (CSV); by default the .csv beside the job.")
]
Png = Annotated[bool, typer.Option("--png", help="PNG previews too (needs the Cairo library).")]


@app.command()
def demo(
    out: Annotated[Path, typer.Option("--out", help="Folder for the demo.")] = Path("rodwright-demo"),
    png: Png = False,
) -> None:
    """Print the packet of a demo building.

    Its job file and readings are written beside it, to start from.
    """
    with as_file(files("gallery").joinpath("larkspur")) as source:
        job, readings = (source / "job.toml").read_bytes(), (source / "job.csv").read_bytes()
        _print(source / "job.toml", None, out, None, None, png, {"job.toml": job, "job.csv": readings})
    typer.echo(f"The job and its readings are {out / 'job.toml'} and {out / 'job.csv'}: change them and run")
    typer.echo(f"  rodwright print {out / 'job.toml'} --out my-packet")


@app.command()
def check(
    job: JobFile,
    readings: ReadingsFile = None,
    as_json: Annotated[bool, typer.Option("--json", help="For programs: everything as JSON.")] = False,
) -> None:
    """Compute a job and show its numbers.

    Warnings come first. Nothing is printed.
    """
    from sheets import report
    from sheets.load import load

    try:
        building = load(job, readings)
    except JobRefused as refused:
        if not as_json:
            raise
        typer.echo(json.dumps({"problems": [str(p) for p in refused.problems]}, indent=1))
        raise typer.Exit(REFUSED) from None
    if as_json:
        typer.echo(json.dumps(report.as_json(building), indent=1))
    else:
        typer.echo(report.as_text(building), nl=False)


@app.command("print")
def print_(
    job: JobFile,
    out: Annotated[Path, typer.Option("--out", help="Folder for the packet.")],
    readings: ReadingsFile = None,
    paper: Annotated[PaperName | None, typer.Option("--paper", help="Instead of the job's paper.")] = None,
    only: Annotated[Kind | None, typer.Option("--only", help="One kind of sheets instead of the packet.")] = None,
    png: Png = False,
) -> None:
    """Print the packet of a job into a folder.

    PDF and SVG, and PNG previews if wanted. The folder then holds what this run has printed and your own files.
    """
    _print(job, readings, out, paper, only, png, {})


def _print(
    job: Path,
    readings: Path | None,
    out: Path,
    paper: PaperName | None,
    only: Kind | None,
    png: bool,
    beside: dict[str, bytes],
) -> None:
    from sheets import packet
    from sheets.load import load
    from sheets.paper import PAPERS

    building = load(job, readings)
    sheet = PAPERS[paper.value if paper else building.job.job.paper]
    built = packet.build(building, sheet, only.value if only else None)
    written = packet.save(built, out, png, beside)
    _say(building, out, len(built.sheets), written[0].name)


def _say(building: Building, out: Path, pages: int, first: str) -> None:
    for text in building.warnings:
        typer.echo(f"! {text}", err=True)
    typer.echo(f"{pages} pages in {out / first}")
    typer.echo("Print at ACTUAL SIZE (100 %), never fit to page, and measure a check bar before you use a sheet.")


def main() -> None:
    """Run a command; every foreseen error becomes a message and an exit code here."""
    for stream in (sys.stdout, sys.stderr):
        # a console that cannot show a letter gets a stand-in, never a traceback
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        app()
    except JobRefused as refused:
        _complain([str(p) for p in refused.problems], f"Refused: {len(refused.problems)} to mend.")
        raise SystemExit(REFUSED) from None
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        _complain([f"{name}{error.strerror or error}"], "Nothing was written.")
        raise SystemExit(CANNOT_WRITE) from None
    except NoCairo as error:
        _complain([f"--png: {error}"], "Nothing was written. Without --png the packet is printed as it should be.")
        raise SystemExit(CANNOT_WRITE) from None


def _complain(lines: list[str], end: str) -> None:
    for line in lines:
        typer.echo(line, err=True)
    typer.echo(end, err=True)


if __name__ == "__main__":
    main()
