"""A round of readings taken down at the prompt: asks, tells back large, saves after every entry."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from textwrap import wrap

from msgspec import Struct
from msgspec.structs import replace

from layouts import book_lines, doubts, survey
from layouts import columns as column_layout
from layouts import job as job_file
from layouts import plan as plan_layout
from layouts import roof as roof_layout
from layouts.book import ONE
from layouts.book_head import MOST_LABEL
from layouts.problems import JobRefused, Problem
from layouts.shooting import Shoot, next_ask, prompt, start
from layouts.shooting_end import ending, greeting
from layouts.shooting_start import Answers, Site, aside, begun, take, to_ask
from layouts.shooting_steps import Echo, answer
from layouts.survey import Survey
from sheets import rewrite, tongue
from sheets.figures import large
from sheets.language import Said
from sheets.lettering import missing
from sheets.load import CP1252, read_text, unprintable, unprintable_notes
from sheets.rewrite import ChangedMeanwhile, Held


class Console(Struct, frozen=True):
    """Where it is asked and told. *ask* shows a prompt and gives the line typed; it raises ``EOFError`` where there are
    no more. *width*: letters across for large figures, 0 for none."""

    ask: Callable[[str], str]
    say: Callable[[str], None]
    width: Callable[[], int]


def console() -> Console:
    """The terminal; or plain lines, where the input or the output is a file or a pipe."""
    if sys.stdin.isatty():
        ask: Callable[[str], str] = input
    else:
        ask = _piped
        if hasattr(sys.stdin, "reconfigure"):
            sys.stdin.reconfigure(errors="replace")  # a letter that cannot be read is a typing mistake, no traceback
    return Console(ask, print, lambda: shutil.get_terminal_size().columns if sys.stdout.isatty() else 0)


def spoken(at: Console) -> Console:
    """*at*, told in the language that the terminal speaks."""

    def ask(question: str) -> str:
        line = at.ask(tongue.asked(question))
        tongue.heard(line)
        return line

    return Console(ask, lambda said: at.say(tongue.turned(said)), at.width)


def _piped(asked: str) -> str:
    """A line of the input, told as if it had been typed."""
    line = sys.stdin.readline()
    if not line:
        raise EOFError
    print(f"{asked}{line.rstrip()}")
    return line


def run(
    job_path: Path,
    readings_path: Path | None = None,
    round_: str = "",
    setup: str = "",
    at: Console | None = None,
) -> None:
    """Take down a round of the job at *job_path* into *readings_path*, by default the CSV beside it with its name.

    *round_* and *setup*: by default the last ones in that file. Raises ``JobRefused`` with everything that is wrong in
    both files and ``OSError`` where the file cannot be written; both before anything is asked, but for a place that is
    lost on the way: then what was saved before is whole.
    """
    at = spoken(at or console())
    held = rewrite.hold(readings_path or job_path.with_suffix(".csv"), CP1252)
    site = _site(job_path, held, round_, setup)
    rewrite.ready(held)
    tongue.speak_of(site.job)
    try:
        held = _begin(site, held, at)
    except (EOFError, KeyboardInterrupt):
        at.say("")
        at.say(f"{held.path.name} is as it was: nothing was entered.")
        return
    _Session(held, start(site, held.text, setup.strip()), at).shoot()


def _site(job_path: Path, held: Held, round_: str, setup: str) -> Site:
    """The job, once both files are in order."""
    text = read_text(job_path)
    try:
        job = job_file.read(text, job_path.name, lambda read: unprintable(read, job_path.name))
        plan = plan_layout.lay(job, job_path.name)
    except JobRefused as refused:
        raise JobRefused(refused.problems, {job_path.name: text}) from None
    tops = column_layout.tops(job, roof_layout.build(job), plan)
    site = Site(job, plan, tops, held.path.name, unprintable=missing)
    bad = []
    for option, name in (("--round", round_), ("--setup", setup)):
        if len(name) > MOST_LABEL or not name.isprintable() or missing(name):
            right = f"Up to {MOST_LABEL} plain letters."
            bad.append(Problem(option, "", name, "is no name that can be printed.", right))
    try:
        _check(site, held.text)
    except JobRefused as refused:
        bad += refused.problems
    if bad:
        raise JobRefused(bad, {held.path.name: held.text})
    sights = site.read(held.text).sights
    return replace(site, round=round_.strip() or (sights[-1].round if sights else ONE))


def _check(site: Site, text: str) -> None:
    """Raises ``JobRefused`` for a file that is not to be written on. What a further round, or a point read again, can
    mend is no reason: it is told."""
    book = site.read(text)
    found: Survey | None = None
    with suppress(JobRefused):
        found = survey.reduce(book, site.job.readings, site.job.style)
    bad = [*unprintable_notes(book), *doubts.refused(book, found, site.job.style, site.job.grade.line)]
    if bad:
        raise JobRefused(bad)


def _begin(site: Site, held: Held, at: Console) -> Held:
    """The file with a heading, and with what it has to say itself."""
    answers: Answers = {}
    while question := to_ask(site, held.text, answers):
        typed = at.ask(question.prompt)
        if found := aside(site, answers, typed):
            answers, said = found
            if said:
                at.say(said)
            continue
        try:
            answers = take(site, held.text, answers, question, typed)
        except JobRefused as refused:
            for problem in refused.problems:
                at.say(f"{problem.text} {problem.wrong} {problem.right}".strip())
    if not answers and book_lines.has_heading(held.text):
        return held
    return rewrite.save(held, begun(held.text, answers))


class _Session:
    """One sitting: *held* is what is on the disk, *state* what has come of it."""

    def __init__(self, held: Held, state: Shoot, at: Console) -> None:
        self.held, self.state, self.at = held, state, at
        self.failed: OSError | None = None

    def shoot(self) -> None:
        """Ask until all is read or nobody answers. Raises ``OSError`` where the last entry could not be saved."""
        self.tell(greeting(self.state))
        try:
            while not self.step(self.at.ask(prompt(self.state))):
                pass
        except (EOFError, KeyboardInterrupt):
            pass
        self.at.say("")
        self.tell(ending(self.state))
        if self.failed:
            raise self.failed

    def step(self, line: str) -> bool:
        """One answer; whether it was the last. What it says is told when it is safe on the disk."""
        found = answer(self.state, line)
        if found.state.text != self.state.text and not self.saved(found.state.text):
            return False
        self.state = found.state
        self.tell(found.said)
        return found.over

    def saved(self, text: str) -> bool:
        """Whether *text* is the file now."""
        name = self.held.path.name
        try:
            self.held, self.failed = rewrite.save(self.held, text), None
            return True
        except ChangedMeanwhile:
            self.taken_up()
            self.at.say(f"NOT SAVED: another program has changed {name}. It is taken up as it is: type that again.")
        except UnicodeEncodeError as error:
            letter = error.object[error.start]
            self.at.say(f"NOT SAVED: {name} is in {self.held.code}, which has no {letter}. Write it in plain letters.")
        except OSError as error:
            self.failed = error
            why = error.strerror or error
            self.at.say(f"NOT SAVED: {why}. {name} holds all before it. Type it again when it can be written.")
        return False

    def taken_up(self) -> None:
        """What another program has made of the file. Raises ``JobRefused`` where nothing can be written into it."""
        held = rewrite.hold(self.held.path, CP1252)
        _check(self.state.site, held.text)
        if not book_lines.has_heading(held.text):
            raise JobRefused([Problem(held.path.name, "", "", "was changed meanwhile and has no heading now.")])
        fresh = start(self.state.site, held.text, self.state.setup)
        self.held = held
        self.state = replace(self.state, text=fresh.text, book=fresh.book, trail=fresh.trail)
        if self.state.ask.kind != "reading" or self.state.ask.nth:  # these hang on what was read before
            self.state = next_ask(self.state)

    def tell(self, said: Iterable[str | Echo]) -> None:
        """Say it all; a number in large figures where there is room."""
        width = self.at.width() - 1  # a line that fills the last place too would be followed by an empty one
        for item in said:
            if isinstance(item, str):
                lines: tuple[str, ...] = (item,)
            else:
                figures = large(item.number, width)
                lines = ("", *figures, "", *item.lines) if figures else ("; ".join(item.lines),)
            for line in tongue.lines(lines):
                for part in fitted(line, width):
                    self.at.say(Said(part))


def fitted(line: str, width: int) -> list[str]:
    """A line as it fits a terminal; a file takes it whole."""
    return wrap(line, width, subsequent_indent="  ") if 0 < width < len(line) else [line]
