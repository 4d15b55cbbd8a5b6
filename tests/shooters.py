"""A round shot by a script: a job of the tests' own, lines typed, and what stands in the file and was said."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import jobs
import told

from layouts import columns, plan, roof
from layouts.book import Book
from layouts.readings import of
from layouts.shooting import Shoot, prompt, start
from layouts.shooting_start import Site
from layouts.shooting_steps import Echo, answer
from sheets import own_words, shoot

HEAD = "unit,inches\nsense,down\nread on,seat\n"
PLAIN = HEAD + "column,reading,note\n"
# seats in sixteenths of an inch below 45, in walking order: none is out of the flag, or stands out from both neighbours
SLOPE = (0, 2, 4, 5, 6, 6, 4, 3, 2, 1, 0, -2, -4, -4, -3, -2, -1, 0, -1)


def site(changes: Mapping[str, Any] | None = None, base: Mapping[str, Any] = jobs.BASE, round_: str = "1") -> Site:
    """A building of 19 columns, A1 first and A2 next."""
    job = jobs.job(changes, base=base)
    laid = plan.lay(job)
    return Site(job, laid, columns.tops(job, roof.build(job), laid), round=round_)


def sixteenths(count: int) -> str:
    """45 in and some sixteenths, as a man types it."""
    whole, rest = divmod(45 * 16 + count, 16)
    return f"{whole} {rest}/16" if rest and rest % 2 else f"{whole + rest / 16:g}"


def seats() -> list[str]:
    """A reading for each of the 19 columns."""
    return [sixteenths(n) for n in SLOPE]


@dataclass
class Shot:
    """Where a script has led to: *said* is every line that was said, *asked* every prompt."""

    state: Shoot
    said: list[str]
    asked: list[str]
    over: bool = False

    @property
    def text(self) -> str:
        """The file."""
        return self.state.text

    @property
    def rows(self) -> list[str]:
        """Its lines after the heading."""
        lines = self.text.splitlines()
        return lines[next(i for i, line in enumerate(lines) if line.startswith("column")) + 1 :]

    @property
    def book(self) -> Book:
        """The file as the layout reads it."""
        return self.state.site.read(self.text)

    def values(self) -> dict[str, float]:
        """What the layout takes of it, inches down."""
        return dict(of(self.book, self.state.site.job).values)


def shot(where: Site, lines: Iterable[str], text: str = PLAIN, setup: str = "") -> Shot:
    """The session in which *lines* are typed, one after the other, up to its end."""
    found = Shot(start(where, text, setup), [], [])
    for line in lines:
        assert not found.over, f"the session was over before {line!r}"
        found.asked.append(prompt(found.state))
        step = answer(found.state, line)
        told.session(step.said, line, own_words.words(where.job))
        for item in step.said:
            found.said += item.lines if isinstance(item, Echo) else (item,)
        found.state, found.over = step.state, step.over
    return found


SITE = site()


def whole(*more: str) -> Shot:
    """All 19 seats, and what comes after."""
    return shot(SITE, [*seats(), *more])


# --- with files -----------------------------------------------------------------------------------------------------

ALL = seats()
AS_USUAL = [""] * 5  # inches, lower, seat, nothing by eye


@dataclass
class Script:
    """A console whose lines are typed by a test. *then* is called before each line with its number."""

    lines: list[str | type[BaseException]]
    wide: int = 0
    then: Callable[[int], None] = lambda _: None
    asked: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def ask(self, prompt: str) -> str:
        """The next line; the end of the input after the last."""
        self.then(len(self.asked))
        self.asked.append(prompt)
        line = self.lines[len(self.asked) - 1] if len(self.asked) <= len(self.lines) else EOFError
        if not isinstance(line, str):
            raise line
        return line

    @property
    def told(self) -> str:
        """Everything that was said."""
        return "\n".join(self.said)

    @property
    def console(self) -> shoot.Console:
        """Where a session asks and tells."""
        return shoot.Console(self.ask, self.said.append, lambda: self.wide)


def write_job(folder: Path, changes: Mapping[str, Any] | None = None, base: Mapping[str, Any] = jobs.BASE) -> Path:
    """A job file called barn."""
    path = folder / "barn.toml"
    path.write_text(jobs.job_text(changes, base=base), encoding="utf-8")
    return path


def session(job: Path, *lines: str | type[BaseException], round_: str = "", setup: str = "", **more: Any) -> Script:
    """A session in which *lines* are typed."""
    script = Script(list(lines), **more)
    shoot.run(job, None, round_, setup, script.console)
    return script


def csv(job: Path) -> str:
    """The file of a job's readings."""
    return job.with_suffix(".csv").read_bytes().decode()
