"""What all commands share: the app, which makes each when it is asked for, the words of their arguments, and what a run
is asked to print."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from enum import StrEnum
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Annotated, Any, TypeVar

import typer
import typer.main
from msgspec import Struct

from layouts.problems import JobRefused
from sheets import cli_complete as complete
from sheets import cli_help

REFUSED, CANNOT_WRITE = 1, 3
COMMANDS = {
    **dict.fromkeys(("demo", "check", "print", "compare", "audit"), "sheets.cli_print"),
    **dict.fromkeys(("shoot", "ruler"), "sheets.cli_site"),
    "start": "sheets.cli_start",
}
"""Each command, in the order of the help, and the module that it stands in."""
Function = TypeVar("Function", bound=Callable[..., Any])
_alone: dict[str, typer.Typer] = {}  # each command of the modules loaded by now as an app of its own


def examples(*lines: str, then: str) -> str:
    """The end of a command's help: lines to copy as they are, and what comes next."""
    shown = "\n".join(f"  {line}" for line in lines)
    return f"\b\nExamples:\n{shown}\n\n{then}"


class _Commands(Mapping[str, Any]):
    """Every command by its name, made when it is asked for: to make all takes as long as a small layout."""

    def __getitem__(self, name: str) -> Any:
        return _made(name)

    def __iter__(self) -> Iterator[str]:
        return iter(COMMANDS)

    def __len__(self) -> int:
        return len(COMMANDS)


@cache
def _made(name: str) -> Any:
    import_module(COMMANDS[name])
    return typer.main.get_command(_alone[name])


class _Group(cli_help.Group):
    def __init__(self, **given: Any) -> None:
        super().__init__(**given)
        self.commands: Any = _Commands()


app = typer.Typer(
    cls=_Group,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Print marking rods, column tags, wall diagrams and cut sheets for a post-frame building.",
    epilog=examples(
        "rodwright demo",
        "rodwright check shed.toml",
        "rodwright print shed.toml --out packet",
        then="Begin with the demo: its folder holds a job file to change. What a command takes, and more examples: "
        "rodwright print --help. Exit codes: 0 done, 1 job refused, 2 wrong usage, 3 cannot write.",
    ),
)


def command(name: str | None = None, *, epilog: str) -> Callable[[Function], Function]:
    """One command of the app; *name* where it is not that of its function. It stands in ``COMMANDS`` too."""

    def taken(function: Function) -> Function:
        alone = typer.Typer(add_completion=False, pretty_exceptions_enable=False, rich_markup_mode=None)
        _alone[name or function.__name__] = alone
        return alone.command(name, cls=cli_help.Command, epilog=epilog)(function)

    return taken


@app.callback()
def _all() -> None:
    """What makes typer take the app for a group, though no command is registered with it."""


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


JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).", autocompletion=complete.jobs)]
ReadingsFile = Annotated[
    Path | None,
    typer.Option(
        "--readings",
        help="The readings (CSV); by default the .csv beside the job.",
        autocompletion=complete.readings,
    ),
]
PaperName = Annotated[
    str | None,
    typer.Option(
        "--paper",
        callback=_paper,
        help="Instead of the job's paper: a name, or 12x18.",
        autocompletion=complete.papers,
    ),
]
PrinterName = Annotated[
    str,
    typer.Option("--printer", help="The printer whose profile corrects the pages.", autocompletion=complete.printers),
]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Say only what is wrong; the exit code tells the rest.")]
AsJson = Annotated[bool, typer.Option("--json", help="For programs: everything as JSON.")]
Png = Annotated[bool, typer.Option("--png", help="PNG previews too (needs the Cairo library).")]


class Wish(Struct, frozen=True):
    """What to print, and how."""

    paper: str | None = None
    only: str | None = None
    printer: str = ""
    png: bool = False
    svg_parts: bool = False
    send: str = ""
    stale: Path | None = None
    quiet: bool = False
    as_json: bool = False

    @property
    def silent(self) -> bool:
        """Whether nothing is said on the way."""
        return self.quiet or self.as_json


def config() -> Path:
    """The printer profiles of this user."""
    from sheets.printers import FILE

    return Path(typer.get_app_dir("rodwright")) / FILE


def tell(found: Any) -> None:
    """Something for programs: in ASCII, so that no console spoils it."""
    print(json.dumps(found, indent=1))


@contextmanager
def for_programs(as_json: bool) -> Iterator[None]:
    """A job that is refused inside is told as JSON where that is wanted; the exit code is the same."""
    try:
        yield
    except JobRefused as refused:
        if not as_json:
            raise
        from sheets import excerpt

        tell(excerpt.as_json(refused))
        raise typer.Exit(REFUSED) from None
