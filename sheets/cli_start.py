"""The command that writes a job file: start."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from sheets.cli_app import REFUSED, command, examples


def _flags(given: list[str]) -> list[str]:
    """Each flag says what of."""
    for flag in given:
        if "=" not in flag:
            raise typer.BadParameter(f'{flag} says no value: write --set "building.width=30\'".')
    return given


@command(
    epilog=examples(
        "rodwright start shed.toml",
        "rodwright start shed.toml --from demo",
        'rodwright start barn.toml --from shed.toml --set "building.width=30\'" \\',
        "    --no-questions",
        then="Next: rodwright print shed.toml --only field --out sheets, then shoot.",
    )
)
def start(
    job: Annotated[Path, typer.Argument(metavar="JOB", help="The job file to write (TOML).")],
    begin: Annotated[
        str, typer.Option("--from", metavar="JOB", help="Begin with an old job, or with the demo: --from demo.")
    ] = "",
    flags: Annotated[
        list[str] | None,
        typer.Option("--set", metavar="FIELD=VALUE", help="Say a field of the job file. May be repeated."),
    ] = None,
    no_questions: Annotated[
        bool, typer.Option("--no-questions", help="Ask nothing: the flags and the old job say it all.")
    ] = False,
    over: Annotated[bool, typer.Option("--over", help="Write over a job file that is there.")] = False,
) -> None:
    """Ask for a building and write its job file.

    Asks in the order of the trade, checks every answer at once and writes the file after the last one. Nothing is made
    up: the readings come from the brackets.
    """
    from sheets import start as starting

    wish = starting.Wish(begin, tuple(_flags(flags or [])), not no_questions, over)
    if not starting.run(job, wish):
        raise typer.Exit(REFUSED)
