"""The commands that compute, print and hold against one another: demo, check, print, audit."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from importlib.resources import as_file, files
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from layouts.building import Building
from layouts.problems import JobRefused, Problem
from sheets import terminal
from sheets.cli_app import REFUSED, JobFile, Kind, PaperName, Png, PrinterName, ReadingsFile, Wish, app, config

if TYPE_CHECKING:
    from sheets.held import Held
    from sheets.packet import Packet
    from sheets.paper import Paper
    from sheets.profile import Profile


class NotReleased(Exception):
    """A packet's files do not hold what they should: *lines* say where."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))


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
        _print(source / "job.toml", None, out, Wish(png=png), {"job.toml": job, "job.csv": readings})
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
    elif terminal.width(sys.stdout):
        from sheets import screen

        screen.check(building)
    else:
        print(report.as_text(building), end="")


@app.command("print")
def print_(
    job: JobFile,
    out: Annotated[Path, typer.Option("--out", help="Folder for the packet.")],
    readings: ReadingsFile = None,
    paper: PaperName = None,
    only: Annotated[Kind | None, typer.Option("--only", help="One kind of sheets instead of the packet.")] = None,
    printer: PrinterName = "",
    png: Png = False,
    svg_parts: Annotated[bool, typer.Option("--svg-parts", help="Every lane and tag as an SVG of its own.")] = False,
    send: Annotated[str, typer.Option("--send", help="Hand the packet to this printer of CUPS.")] = "",
    stale: Annotated[
        Path | None,
        typer.Option("--stale", help="Only the sheets that the packet in this folder does not have as they are now."),
    ] = None,
) -> None:
    """Print the packet of a job into a folder.

    PDF and SVG, and PNG previews if wanted. The folder then holds what this run has printed and your own files. Every
    file is read back before it is released: a sheet that is off is not handed over.
    """
    _print(job, readings, out, Wish(paper, only.value if only else None, printer, png, svg_parts, send, stale), {})


@app.command()
def compare(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="A job file, or the folder of a packet.")],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="Another.")],
    old_readings: Annotated[
        Path | None,
        typer.Option("--old-readings", help="The readings of OLD if it is a job; by default the .csv beside it."),
    ] = None,
    new_readings: Annotated[
        Path | None,
        typer.Option("--new-readings", help="The readings of NEW if it is a job; by default the .csv beside it."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="For programs: everything as JSON.")] = False,
) -> None:
    """Tell which tags, rods and walls are stale, and what has changed.

    Two jobs, or a packet and a job. Names the stamp that a stale sheet carries, so that it can be found on its column.
    """
    from sheets import changes, compare, sides

    found = compare.compare(
        sides.read(old, old_readings, "--old-readings"), sides.read(new, new_readings, "--new-readings")
    )
    if as_json:
        typer.echo(json.dumps(changes.as_json(found), indent=1))
    else:
        for line in changes.lines(found):
            typer.echo(line)
    if found.stale:
        raise typer.Exit(REFUSED)


@app.command()
def audit(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="The folder of a packet printed before.")],
    job: JobFile,
    readings: ReadingsFile = None,
    paper: PaperName = None,
    only: Annotated[
        Kind | None, typer.Option("--only", help="The kind of sheets that was printed, if not all.")
    ] = None,
    printer: PrinterName = "",
) -> None:
    """Hold a packet printed before against its job.

    Names the sheets that are stale, changed or not ours.
    """
    from sheets import sides
    from sheets.audit_stale import alone, stale

    printed = sides.as_printed(folder)
    wish = Wish(paper or printed[0], only.value if only else printed[1] or alone(folder), printer)
    built = _built(job, readings, wish, printed[2])[1]
    found = stale(folder, built, built.profile)
    for line in found:
        typer.echo(line)
    typer.echo(f"{len(found)} to look at." if found else "Every sheet is what this job prints today.")
    if found:
        raise typer.Exit(REFUSED)


def _built(job: Path, readings: Path | None, wish: Wish, held: Held | None = None) -> tuple[Building, Packet]:
    """The building of a job, and its packet as this printer and paper want it; *held* says what a part of one holds."""
    from sheets import packet
    from sheets.load import load

    building = load(job, readings)
    sheet, profile = _paper_of(job, building, wish)
    return building, packet.build(building, sheet, wish.only, profile, held)


def _paper_of(job: Path, building: Building, wish: Wish) -> tuple[Paper, Profile]:
    """The paper to print on and what its printer does."""
    from sheets import printers
    from sheets.paper import find

    sheet = find(wish.paper or building.job.job.paper)
    held = job.parent / printers.FILE
    profiles = printers.load(held if held.exists() else config())
    profile = printers.choose(profiles, sheet.name, wish.printer)
    if sheet.roll and wish.only != "rods" and not profile.plain:
        right = "Print the rods with --only rods, and the packet again with --paper letter or the like."
        raise JobRefused(
            [Problem("--paper", "", sheet.name, "is corrected for the roll, not for other sheets.", right)]
        )
    return sheet, profile


def _stale(job: Path, readings: Path | None, out: Path, wish: Wish, folder: Path) -> tuple[Building, Packet | None]:
    """The building, and a packet of what the one in *folder* does not have as it is now; ``None`` if it has all."""
    from sheets import changes, compare, sides
    from sheets.load import load

    compare.refuse_same(out, folder)
    building = load(job, readings)
    wish = replace(wish, paper=wish.paper or sides.as_printed(folder)[0])
    sheet, profile = _paper_of(job, building, wish)
    found, built = compare.stale(folder, building, sheet, wish.only, profile)
    for line in changes.lines(found):
        typer.echo(line)
    return building, built


def _print(job: Path, readings: Path | None, out: Path, wish: Wish, beside: dict[str, bytes]) -> None:
    from sheets import packet

    if wish.stale:
        building, part = _stale(job, readings, out, wish, wish.stale)
        if part is None:
            return
        built = part
    else:
        building, built = _built(job, readings, wish)

    def check(folder: Path) -> None:
        from sheets.audit import differences

        found = differences(built, building, folder, built.profile)
        if found:
            raise NotReleased([str(difference) for difference in found])

    sizes = [(s.page.drawing.width, s.page.drawing.height) for s in built.sheets]
    if wish.send:
        from sheets import send

        for width, height in send.by_size(sizes):
            send.ready(wish.send, width, height)  # before anything is written
    written = packet.save(built, out, wish.png, beside, wish.svg_parts, check)
    _say(building, out, len(built.sheets), written[0].name)
    if wish.send:
        for (width, height), pages in send.by_size(sizes).items():
            told = send.send(written[0], wish.send, width, height, built.title, pages)
            typer.echo(f"Sent to the printer as {told}.")


def _say(building: Building, out: Path, pages: int, first: str) -> None:
    for text in building.warnings:
        typer.echo(f"! {text}", err=True)
    typer.echo(f"{pages} page{'s' * (pages > 1)} in {out / first}")
    typer.echo("Print at ACTUAL SIZE (100 %), never fit to page, and measure a check bar before you use a sheet.")
