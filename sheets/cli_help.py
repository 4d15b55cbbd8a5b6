"""Help and wrong usage in the language that the terminal speaks: typer lays both out, here their words are turned."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import typer
from typer.core import TyperCommand, TyperGroup

from sheets import tongue
from sheets.language import Said

_ASIDE = re.compile(r"  \[([^\]]*)\]$")  # default, required
_RAW = "\b\n"  # what is not to be wrapped: lines to copy
_HINT = "Try '{0} --help' for help."

WrongUsage: Any = next(kind for kind in typer.BadParameter.__mro__ if kind.__name__ == "ClickException")
"""What typer raises for wrong usage; it has no public name there."""


_Plain: Any = typer.Context.formatter_class


class Formatter(_Plain):  # type: ignore[misc]
    """typer's own, told everything in the language that is spoken."""

    def write_usage(self, prog: str, args: str = "", prefix: str | None = None) -> None:
        """The line of the usage."""
        super().write_usage(prog, args, f"{tongue.turned('Usage')}: " if prefix is None else prefix)

    def write_heading(self, heading: str) -> None:
        """A heading."""
        super().write_heading(tongue.turned(heading))

    def write_text(self, text: str) -> None:
        """Paragraphs; lines to copy stay as they are but for their heading."""
        super().write_text("\n\n".join(map(_paragraph, text.split("\n\n"))))

    def write_dl(self, rows: Sequence[tuple[str, str]], col_max: int = 30, col_spacing: int = 2) -> None:
        """What options and commands mean."""
        super().write_dl([(name, _meaning(words)) for name, words in rows], col_max, col_spacing)


def _paragraph(text: str) -> str:
    if text.startswith(_RAW):
        head, _, lines = text.removeprefix(_RAW).partition("\n")
        return f"{_RAW}{tongue.turned(head)}\n{lines}"
    return tongue.turned(" ".join(text.split()))


def _meaning(words: str) -> str:
    aside = _ASIDE.search(words)
    if aside is None:
        return tongue.turned(words)
    return f"{tongue.turned(words[: aside.start()])}  [{tongue.turned(aside[1])}]"


class _Context(typer.Context):
    formatter_class: Any = Formatter


class Command(TyperCommand):
    """A command that helps in the language that is spoken."""

    context_class = _Context


class Group(TyperGroup):
    """All commands together, likewise."""

    context_class = _Context


def wrong_usage(error: Any) -> list[str]:
    """What is said of wrong usage: the usage, where help is, and what is wrong."""
    if type(error).__name__ == "NoArgsIsHelpError":
        return [Said(line) for line in error.format_message().splitlines()]
    lines = []
    if error.ctx is not None:
        lines = [error.ctx.get_usage(), tongue.turned(_HINT.format(error.ctx.command_path)), ""]
    return [*map(Said, lines), Said(f"{tongue.turned('Error')}: {tongue.turned(error.format_message())}")]
