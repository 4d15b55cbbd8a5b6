"""What a shell offers for a word that is begun. Where nothing is offered here it offers files and folders itself."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path


def jobs(incomplete: str) -> list[str]:
    """Job files."""
    return _files(incomplete, ".toml")


def readings(incomplete: str) -> list[str]:
    """Files of readings."""
    return _files(incomplete, ".csv")


def folders(incomplete: str) -> list[str]:
    """Left to the shell."""
    return []


def papers(incomplete: str) -> list[str]:
    """Names of papers."""
    from sheets.paper import PAPERS

    return [name for name in PAPERS if name.startswith(incomplete.lower())]


def printers(incomplete: str) -> list[str]:
    """Printers that have a profile, of this user and in this folder."""
    from layouts.problems import JobRefused
    from sheets import cli_app
    from sheets.printers import FILE, load

    names: list[str] = []
    for place in (Path(FILE), cli_app.config()):
        with suppress(JobRefused, OSError):
            names += [profile.printer for profile in load(place)]
    return [name for name in dict.fromkeys(names) if name.startswith(incomplete)]


def _files(incomplete: str, ending: str) -> list[str]:
    """Files with this *ending* whose name begins so, written as they were begun."""
    folder, slash, name = incomplete.rpartition("/")
    with suppress(OSError):
        found = sorted(entry.name for entry in Path(folder or slash or ".").iterdir() if entry.suffix == ending)
        return [f"{folder}{slash}{one}" for one in found if one.startswith(name)]
    return []
