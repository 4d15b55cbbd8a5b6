"""The command line: plain verbs, and the one place where errors become messages and exit codes.

Exit codes: 0 done, 1 job refused, 2 usage, 3 cannot write.
"""

from __future__ import annotations

import gc
import json
import sys
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from importlib.resources import as_file, files
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from layouts.building import Building
from layouts.problems import JobRefused, Problem
from sheets.preview import NoCairo
from sheets.send import CannotSend

if TYPE_CHECKING:
    from sheets.packet import Packet

REFUSED, CANNOT_WRITE = 1, 3
MOST_TOLD = 20  # differences of a packet that did not read back

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Print marking rods, column tags, wall diagrams and cut sheets for a post-frame building.",
)


class NotReleased(Exception):
    """A packet's files do not hold what they should: *lines* say where."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))


class Kind(StrEnum):
    """Kinds of sheets that can be printed alone."""

    rods = "rods"
    tags = "tags"
    walls = "walls"
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
    else:
        typer.echo(report.as_text(building), nl=False)


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
) -> None:
    """Print the packet of a job into a folder.

    PDF and SVG, and PNG previews if wanted. The folder then holds what this run has printed and your own files. Every
    file is read back before it is released: a sheet that is off is not handed over.
    """
    _print(job, readings, out, Wish(paper, only.value if only else None, printer, png, svg_parts, send), {})


@app.command()
def ruler(
    printer: Annotated[str, typer.Option("--printer", help="A name of your own for the printer.")] = "",
    paper: PaperName = "letter",
    out: Annotated[Path, typer.Option("--out", help="The page to print and measure.")] = Path("ruler.pdf"),
    metric: Annotated[bool, typer.Option("--metric", help="Bars and numbers in mm.")] = False,
    again: Annotated[
        bool, typer.Option("--again", help="The page is corrected by the profile measured before.")
    ] = False,
    along: Annotated[str, typer.Option("--along", help="What the long side measures.")] = "",
    across: Annotated[str, typer.Option("--across", help="What the short side measures.")] = "",
    rising: Annotated[str, typer.Option("--rising", help="The diagonal from lower left.")] = "",
    falling: Annotated[str, typer.Option("--falling", help="The diagonal from upper left.")] = "",
    edge: Annotated[str, typer.Option("--edge", help="The edge this printer leaves unprinted.")] = "",
    beside: Annotated[Path | None, typer.Option("--beside", help="Keep the profile beside this job.")] = None,
) -> None:
    """Measure a printer, so that every later page is corrected.

    Without numbers: prints a page to measure with a steel tape. With the four numbers: keeps the printer's profile.
    """
    from sheets import printers, trueing
    from sheets.paper import find
    from sheets.ruler import command

    sheet = find(paper or "letter")
    held = beside.parent / printers.FILE if beside else _config()
    before = trueing.known(held, printer, sheet, again)
    numbers = {"along": along, "across": across, "rising": rising, "falling": falling}
    if not any(numbers.values()):
        trueing.page(sheet, metric, before, out)
        typer.echo(f"Print {out} at ACTUAL SIZE (100 %), measure the four lines with a steel tape, then type")
        typer.echo(f"  {command(sheet, metric, before)}")
        return
    missing = [f"--{name}" for name, text in numbers.items() if not text]
    if missing:
        raise typer.BadParameter(f"All four numbers are needed: {', '.join(missing)}.")
    today = date.today().isoformat()
    numbers["edge"] = edge or ("12 mm" if metric else "1/2")
    found = trueing.learn(numbers, printer, sheet, metric, today, before if again else None)
    held.parent.mkdir(parents=True, exist_ok=True)
    printers.save(held, found)
    typer.echo(f"Kept in {held}: {found.words(metric)}.")


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
    from sheets.audit_stale import alone, stale

    built = _built(job, readings, Wish(paper, only.value if only else alone(folder), printer))[1]
    found = stale(folder, built, built.profile)
    for line in found:
        typer.echo(line)
    typer.echo(f"{len(found)} to look at." if found else "Every sheet is what this job prints today.")
    if found:
        raise typer.Exit(REFUSED)


def _built(job: Path, readings: Path | None, wish: Wish) -> tuple[Building, Packet]:
    """The building of a job, and its packet as this printer and paper want it."""
    from sheets import packet, printers
    from sheets.load import load
    from sheets.paper import find

    building = load(job, readings)
    sheet = find(wish.paper or building.job.job.paper)
    held = job.parent / printers.FILE
    profiles = printers.load(held if held.exists() else _config())
    profile = printers.choose(profiles, sheet.name, wish.printer)
    if sheet.roll and wish.only != "rods" and not profile.plain:
        right = "Print the rods with --only rods, and the packet again with --paper letter or the like."
        raise JobRefused(
            [Problem("--paper", "", sheet.name, "is corrected for the roll, not for other sheets.", right)]
        )
    return building, packet.build(building, sheet, wish.only, profile)


def _config() -> Path:
    """The printer profiles of this user."""
    from sheets.printers import FILE

    return Path(typer.get_app_dir("rodwright")) / FILE


def _print(job: Path, readings: Path | None, out: Path, wish: Wish, beside: dict[str, bytes]) -> None:
    from sheets import packet

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


def main() -> None:
    """Run a command; every foreseen error becomes a message and an exit code here."""
    gc.disable()  # a run is short and makes hardly a circle: hunting for them takes a fifteenth of its time
    for stream in (sys.stdout, sys.stderr):
        # a console that cannot show a letter gets a stand-in, never a traceback
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        app()
    except JobRefused as refused:
        _complain([str(p) for p in refused.problems], f"Refused: {len(refused.problems)} to mend.")
        raise SystemExit(REFUSED) from None
    except CannotSend as error:
        _complain(str(error).splitlines(), "Nothing was sent.")
        raise SystemExit(CANNOT_WRITE) from None
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        _complain([f"{name}{error.strerror or error}"], "Nothing was written.")
        raise SystemExit(CANNOT_WRITE) from None
    except NotReleased as failed:
        _complain(failed.lines[:MOST_TOLD], "The files did not read back right: nothing was released.")
        raise SystemExit(CANNOT_WRITE) from None
    except NoCairo as error:
        _complain([f"--png: {error}"], "Nothing was written. Without --png the packet is printed as it should be.")
        raise SystemExit(CANNOT_WRITE) from None
    finally:
        gc.enable()


def _complain(lines: list[str], end: str) -> None:
    for line in lines:
        typer.echo(line, err=True)
    typer.echo(end, err=True)


if __name__ == "__main__":
    main()
