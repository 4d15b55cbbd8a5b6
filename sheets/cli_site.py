"""The commands for the site and the printer: shoot, ruler."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from sheets import cli_complete as complete
from sheets import tongue
from sheets.cli_app import CANNOT_WRITE, JobFile, PaperName, Quiet, ReadingsFile, command, config, examples
from sheets.terminal import say

if TYPE_CHECKING:
    from sheets.paper import Paper
    from sheets.profile import Profile

OwnPrinter = Annotated[
    str, typer.Option("--printer", help="A name of your own for the printer.", autocompletion=complete.printers)
]
Again = Annotated[bool, typer.Option("--again", help="The page is corrected by the profile measured before.")]


@command(
    epilog=examples(
        "rodwright shoot shed.toml",
        "rodwright shoot shed.toml --setup 2",
        'rodwright shoot shed.toml --round "after the rain"',
        then="Next: rodwright check shed.toml tells whether the round closes and which seats to shoot again.",
    )
)
def shoot(
    job: JobFile,
    readings: ReadingsFile = None,
    round_: Annotated[
        str,
        typer.Option("--round", help="The round; by default the last one in the file. A new name begins a new round."),
    ] = "",
    setup: Annotated[str, typer.Option("--setup", help="The set-up of the laser; by default the last one used.")] = "",
) -> None:
    """Enter a round of readings at the prompt.

    Walks the columns in order, tells each reading back large with its offset, asks for odd ones again and saves after
    every entry. Stop and start as you like.
    """
    from sheets import shoot as shooting

    try:
        shooting.run(job, readings, round_, setup)
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        say(f"{name}{error.strerror or error}", err=True)
        there = (readings or job.with_suffix(".csv")).is_file()
        say("The file of readings holds what was saved before." if there else "Nothing was written.", err=True)
        raise typer.Exit(CANNOT_WRITE) from None


@command(
    epilog=examples(
        "rodwright ruler --printer Office",
        'rodwright ruler --printer Office --along "10 1/32" --across 7 \\',
        '    --rising "12 7/32" --falling "12 7/32"',
        "rodwright ruler --printer Office --again",
        then="Next: every packet on that paper is corrected. Print the page with --again to see what is left over.",
    )
)
def ruler(
    printer: OwnPrinter = "",
    paper: PaperName = "letter",
    out: Annotated[Path, typer.Option("--out", help="The page to print and measure.")] = Path("ruler.pdf"),
    metric: Annotated[bool, typer.Option("--metric", help="Bars and numbers in mm.")] = False,
    again: Again = False,
    along: Annotated[str, typer.Option("--along", help="What the long side measures.")] = "",
    across: Annotated[str, typer.Option("--across", help="What the short side measures.")] = "",
    rising: Annotated[str, typer.Option("--rising", help="The diagonal from lower left.")] = "",
    falling: Annotated[str, typer.Option("--falling", help="The diagonal from upper left.")] = "",
    edge: Annotated[str, typer.Option("--edge", help="The edge this printer leaves unprinted.")] = "",
    beside: Annotated[Path | None, typer.Option("--beside", help="Keep the profile beside this job.")] = None,
    quiet: Quiet = False,
) -> None:
    """Measure a printer, so that every later page is corrected.

    Without numbers: prints a page to measure with a steel tape. With the four numbers: keeps the printer's profile.
    """
    from sheets import printers, trueing
    from sheets.paper import find

    tongue.speak("", [printer])
    sheet = find(paper or "letter")
    held = beside.parent / printers.FILE if beside else config()
    before = trueing.known(held, printer, sheet, again)
    numbers = {"along": along, "across": across, "rising": rising, "falling": falling}
    if not any(numbers.values()):
        _page(sheet, metric, before, out, quiet)
        return
    missing = [f"--{name}" for name, text in numbers.items() if not text]
    if missing:
        raise typer.BadParameter(f"All four numbers are needed: {', '.join(missing)}.")
    numbers["edge"] = edge or ("12 mm" if metric else "1/2")
    found = trueing.learn(numbers, printer, sheet, metric, date.today().isoformat(), before if again else None)
    held.parent.mkdir(parents=True, exist_ok=True)
    printers.save(held, found)
    if not quiet:
        tongue.also(held)
        say(f"Kept in {held}: {found.words(metric)}.")


def _page(sheet: Paper, metric: bool, before: Profile, out: Path, quiet: bool) -> None:
    """Write the page to print and measure, and say what comes next."""
    from sheets import trueing
    from sheets.ruler import command

    trueing.page(sheet, metric, before, out)
    if not quiet:
        tongue.also(out)
        say(f"Print {out} at ACTUAL SIZE (100 %), measure the four lines with a steel tape, then type")
        say(f"  {command(sheet, metric, before)}")
