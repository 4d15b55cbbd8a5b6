"""What is wrong with what the user gave us: one entry a mistake, never only the first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches

from msgspec import Struct
from msgspec.structs import force_setattr

BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"  # what some editors put before the first letter of a file


class Problem(Struct, frozen=True):
    """One mistake: the *file*, the *place* in it (a field or a line), the offending *text*, what is *wrong*, and what
    would be *right*. What these two quote of the user's is fit to be echoed in a terminal."""

    file: str
    place: str
    text: str
    wrong: str
    right: str = ""

    def __post_init__(self) -> None:
        """A name that is quoted may hold anything, an escape that clears the screen too."""
        for key in ("wrong", "right"):
            force_setattr(self, key, _shown(getattr(self, key)))

    def __str__(self) -> str:
        place = shorten(self.place)
        head = f"{self.file}: {place}" if place else self.file
        shown = f" = {shorten(self.text)}" if self.text else ""
        return f"{head}{shown}: {self.wrong}" + (f" {self.right}" if self.right else "")


class JobRefused(Exception):
    """The job cannot be laid out. *problems* lists everything that is wrong, in file order; *texts* are the files as
    they were read, by their names in it, so that the line can be shown."""

    def __init__(self, problems: Iterable[Problem], texts: Mapping[str, str] | None = None) -> None:
        self.problems = tuple(problems)
        self.texts = dict(texts or {})
        super().__init__("\n".join(str(p) for p in self.problems))


def shorten(text: str, most: int = 60) -> str:
    """*text* on one line, cut to *most* characters, fit to be echoed in a terminal."""
    line = _shown(text)
    return line if len(line) <= most else line[: most - 1] + "…"


def _shown(text: str) -> str:
    """*text* with a stand-in for everything that a terminal would not show but obey."""
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)


def nearest(word: str, known: Iterable[str], alike: float = 0.65) -> str:
    """``Did you mean ...?`` with the nearest known word, if it is *alike* (1 is the same), else the known words."""
    names = list(known)
    bare = {_bare(name): name for name in names}
    # of two grid names each is as like a slip as the other: no guess among them
    close = get_close_matches(_bare(word[:60]), bare, 1, alike if len(word) > 3 else 1.0)
    if close:
        return f"Did you mean {bare[close[0]]}?"
    return "Known: " + ", ".join(names[:40]) + "." if names else ""


def _bare(word: str) -> str:
    """The letters and figures of a word, small."""
    return "".join(c for c in word.lower() if c.isalnum())
