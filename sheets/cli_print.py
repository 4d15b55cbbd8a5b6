"""The commands that compute, print and hold against one another: demo, check, print, compare, audit."""

from __future__ import annotations

import sys
from importlib.resources import as_file, files
from pathlib import Path
from typing import Annotated, Any

import typer

from sheets import cli_complete as complete
from sheets import cli_work as work
from sheets import terminal, tongue
from sheets.cli_app import (
    REFUSED,
    AsJson,
    JobFile,
    Kind,
    PaperName,
    Png,
    PrinterName,
    Quiet,
    ReadingsFile,
    Wish,
    command,
    examples,
    for_programs,
    tell,
)
from sheets.progress import bar
from sheets.terminal import say


@command(
    epilog=examples(
        "rodwright demo",
        "rodwright demo --out try --png",
        then="Next: look at packet.pdf in that folder. Then change its job.toml and job.csv to your own building, and "
        "run rodwright check on it.",
    )
)
def demo(
    out: Annotated[Path, typer.Option("--out", help="Folder for the demo.", autocompletion=complete.folders)] = Path(
        "rodwright-demo"
    ),
    png: Png = False,
    quiet: Quiet = False,
) -> None:
    """Print the packet of a demo building.

    Its job file and readings are written beside it, to start from.
    """
    with as_file(files("gallery").joinpath("larkspur")) as source:
        job, readings = (source / "job.toml").read_bytes(), (source / "job.csv").read_bytes()
        wish = Wish(png=png, quiet=quiet)
        work.printed(source / "job.toml", None, out, wish, {"job.toml": job, "job.csv": readings})
    if not quiet:
        tongue.also(out / "job.toml", out / "job.csv")
        say(f"The job and its readings are {out / 'job.toml'} and {out / 'job.csv'}: change them and run")
        say(f"  rodwright print {out / 'job.toml'} --out my-packet")


@command(
    epilog=examples(
        "rodwright check shed.toml",
        "rodwright check shed.toml --readings second-round.csv",
        "rodwright check shed.toml --json > shed.json",
        then="Next: mend what it warns of, from the top; then rodwright print shed.toml --out packet.",
    )
)
def check(
    job: JobFile,
    readings: ReadingsFile = None,
    as_json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Compute a job and show its numbers.

    Warnings come first, what costs most before the rest. Nothing is printed. A job that is refused is told mistake by
    mistake, each with its line of the file.
    """
    with for_programs(as_json), bar(quiet) as told:
        building = work.loaded(job, readings, told)
    from sheets import report  # not before: what the layout needs is imported while the solver is, in its own process

    if as_json:
        tell(report.as_json(building))
    elif terminal.width(sys.stdout) and not quiet:
        from sheets import screen

        screen.check(building)
    elif not quiet:
        print(report.as_text(building), end="")


@command(
    "print",
    epilog=examples(
        "rodwright print shed.toml --out packet",
        "rodwright print shed.toml --out clipboard --only field",
        "rodwright print shed.toml --out big --paper tabloid --printer Office",
        "rodwright print shed.toml --out changes --stale packet",
        then="Next: print packet/packet.pdf at ACTUAL SIZE (100 %), lay a steel tape on a check bar, and use no sheet "
        "that is off.",
    ),
)
def print_(
    job: JobFile,
    out: Annotated[Path, typer.Option("--out", help="Folder for the packet.", autocompletion=complete.folders)],
    readings: ReadingsFile = None,
    paper: PaperName = None,
    only: Annotated[Kind | None, typer.Option("--only", help="One kind of sheets instead of the packet.")] = None,
    printer: PrinterName = "",
    png: Png = False,
    svg_parts: Annotated[bool, typer.Option("--svg-parts", help="Every lane and tag as an SVG of its own.")] = False,
    send: Annotated[str, typer.Option("--send", help="Hand the packet to this printer of CUPS.")] = "",
    stale: Annotated[
        Path | None,
        typer.Option(
            "--stale",
            help="Only the sheets that the packet in this folder does not have as they are now.",
            autocompletion=complete.folders,
        ),
    ] = None,
    as_json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Print the packet of a job into a folder.

    PDF and SVG, a page for the phone, and PNG previews if wanted. The folder then holds what this run has printed and
    your own files. Every file is read back before it is released: a sheet that is off is not handed over.
    """
    kind = only.value if only else None
    with for_programs(as_json):
        work.printed(job, readings, out, Wish(paper, kind, printer, png, svg_parts, send, stale, quiet, as_json), {})


def _readings_of(side: str) -> Any:
    """The option of the readings of one side."""
    told = f"The readings of {side} if it is a job; by default the .csv beside it."
    return typer.Option(f"--{side.lower()}-readings", help=told, autocompletion=complete.readings)


@command(
    epilog=examples(
        "rodwright compare packet shed.toml",
        "rodwright compare shed.toml shed-moved-door.toml",
        then="Next: take the stale tags off their columns by their stamps, and print the new ones: rodwright print "
        "shed.toml, with the old packet's folder after --stale.",
    )
)
def compare(
    old: Annotated[
        Path,
        typer.Argument(metavar="OLD", help="A job file, or the folder of a packet.", autocompletion=complete.jobs),
    ],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="Another.", autocompletion=complete.jobs)],
    old_readings: Annotated[Path | None, _readings_of("OLD")] = None,
    new_readings: Annotated[Path | None, _readings_of("NEW")] = None,
    as_json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Tell which tags, rods and walls are stale, and what has changed.

    Two jobs, or a packet and a job. Names the stamp that a stale sheet carries, so that it can be found on its column.
    Ends with 1 if anything is stale.
    """
    from sheets import changes

    with for_programs(as_json), bar(quiet) as told, told.waiting("Comparing the two"):
        found = work.compared(old, new, old_readings, new_readings)
    if as_json:
        tell({key: value for key, value in changes.as_json(found).items() if key != "own"})
    elif not quiet:
        work.say_changes(found)
    if found.stale:
        raise typer.Exit(REFUSED)


@command(
    epilog=examples(
        "rodwright audit packet shed.toml",
        "rodwright audit packet shed.toml --readings second-round.csv",
        then="Next: nothing, where every sheet is what the job prints today. Else print the packet again, or let "
        "rodwright compare tell what has changed.",
    )
)
def audit(
    folder: Annotated[
        Path,
        typer.Argument(metavar="DIR", help="The folder of a packet printed before.", autocompletion=complete.folders),
    ],
    job: JobFile,
    readings: ReadingsFile = None,
    paper: PaperName = None,
    only: Annotated[
        Kind | None, typer.Option("--only", help="The kind of sheets that was printed, if not all.")
    ] = None,
    printer: PrinterName = "",
    as_json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Hold a packet printed before against its job.

    Names the sheets that are stale, changed or not ours. Ends with 1 if there are any.
    """
    from sheets import sides
    from sheets.audit_stale import alone, stale

    with for_programs(as_json), bar(quiet) as told:
        printed = sides.as_printed(folder)
        wish = Wish(paper or printed[0], only.value if only else printed[1] or alone(folder), printer)
        built = work.built(job, readings, wish, told, printed[2])[1]
        with told.waiting("Reading the packet"):
            found = stale(folder, built, built.profile)
    if as_json:
        tell({"good": not found, "found": found})
    elif not quiet:
        for line in found:
            say(line)
        say(f"{len(found)} to look at." if found else "Every sheet is what this job prints today.")
    if found:
        raise typer.Exit(REFUSED)
