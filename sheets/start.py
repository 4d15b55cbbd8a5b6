"""A job file asked for at the prompt, made from an old one, or from flags alone; written whole or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from importlib.resources import files
from pathlib import Path

from msgspec import Struct

from layouts import job as job_file
from layouts import job_text
from layouts import start_words as words
from layouts.building import lay_out
from layouts.fields import Job
from layouts.job_values import flat, look, renumbered, set_by, spec_of, tidied, typed
from layouts.languages import ENGLISH
from layouts.problems import JobRefused, Problem
from layouts.start import Site, Start, begun, prompt
from layouts.start_next import Step, first, title
from layouts.start_questions import GROUPS
from layouts.start_steps import answer
from sheets import rewrite, tongue
from sheets.language import Said
from sheets.load import CP1252, read_text, unprintable
from sheets.rewrite import ChangedMeanwhile, Held
from sheets.shoot import Console, console, fitted, spoken

DEMO = "demo"
CHOOSE = "choose"
CLEARED = ("job.crew", "job.date")  # of an old job: who built it, and when its readings were taken
ITS_SITE = ("grade.line", "grade.benchmark", "grade.floor_at")  # of an old job: what was true on its site alone
THERE = "is there already."
CHANGE = (
    "Change it in an editor; or with rodwright start {0} --from {0} --over, which keeps its fields, not its comments."
)
ANOTHER = "Another name for the job file: "
OVER = "{0} is there already. Write over it? yes or no [no]: "


class Wish(Struct, frozen=True):
    """What a job begins with: an old job at *begin* (``demo`` is the demo's), *flags* like ``building.width=30'``;
    whether it is asked at all, and may be written *over* a file that is there."""

    begin: str = ""
    flags: Sequence[str] = ()
    ask: bool = True
    over: bool = False


def path_of(given: Path) -> Path:
    """The file to write: a name without an ending gets ``.toml``. Raises ``JobRefused`` where it can be no job file."""
    path = given if given.suffix or given.is_dir() else given.with_suffix(".toml")
    if path.suffix.lower() in (".csv", ".pdf") or path.is_dir():
        wrong = "is a folder." if path.is_dir() else "is no name for a job file."
        raise JobRefused([Problem(str(path), "", "", wrong, "Give a name like shed.toml.")])
    return path


def run(given: Path, wish: Wish, at: Console | None = None) -> bool:
    """Write the job file at *given*; whether it was written. Raises ``JobRefused`` with all that is wrong in an old job
    or in flags, and ``OSError`` where the file cannot be written; both before anything is asked."""
    path = path_of(given)
    values, flags = _begin(path, wish)
    held = rewrite.hold(path, CP1252)
    at = spoken(at or console())
    tongue.speak(str(values.get("job.language", "")))
    if tongue.language() != ENGLISH and wish.begin in ("", DEMO):  # an old job stays in the language it is in
        values.setdefault("job.language", tongue.language())
    rewrite.ready(held)
    if not wish.ask:
        if held.raw is not None and not wish.over:
            raise JobRefused([Problem(str(path), "", "", THERE, "Give another name, or --over to write over it.")])
        _written(held, alone(path, values), path, at)
        for line in _site_bound(values) if wish.begin else ():
            at.say(line)
        return True
    try:
        if held.raw is not None and not wish.over and not _yes(at.ask(OVER.format(path.name))):
            at.say(f"{path.name} is as it was. {CHANGE.format(path)}")
            return False
        text = _asked(path, values, flags, wish, at)
        while text and not _saved(held, text, path, at):
            path = path_of(Path(at.ask(ANOTHER).strip() or path))
            held = rewrite.hold(path, CP1252)
    except (EOFError, KeyboardInterrupt):
        text = ""
        at.say("")
    if not text:
        at.say(f"Nothing was written: {path.name} {'is as it was' if held.raw is not None else 'is not there'}.")
    return bool(text)


def _saved(held: Held, text: str, path: Path, at: Console) -> bool:
    """Whether the file stands; where it cannot, what was answered is not lost."""
    try:
        _written(held, text, path, at)
        return True
    except (JobRefused, OSError) as error:
        why = error.problems[0] if isinstance(error, JobRefused) else error.strerror or error
        at.say(f"NOT SAVED: {why}")
        return False


def _yes(line: str) -> bool:
    return bool(line.strip()) and "yes".startswith(line.strip().lower())


def _begin(path: Path, wish: Wish) -> tuple[dict[str, object], frozenset[str]]:
    """The values to begin with, and the fields that flags have said."""
    values: dict[str, object] = {}
    if wish.begin:
        source = files("gallery").joinpath("larkspur", "job.toml") if wish.begin == DEMO else Path(wish.begin)
        text = source.read_text(encoding="utf-8") if wish.begin == DEMO else read_text(Path(wish.begin))
        name = "the demo" if wish.begin == DEMO else Path(wish.begin).name
        job_file.read(text, name)
        values = {path: v for path, v in flat(text).items() if path not in CLEARED}
    said = {}
    for flag in wish.flags:
        field, told = set_by(flag)
        said[field] = typed(told, spec_of(field))
    both = {**values, **said}
    names = dict(zip(both, renumbered(both), strict=True))  # openings are numbered as they stand
    values = {names[p]: v for p, v in both.items() if v is not None}
    flags = frozenset(names[p] for p in said)
    found = look(values, path.name, lambda job: unprintable(job, path.name))
    if wrong := [p for p in found.problems if p.place in flags or spec_of(p.place) is None]:
        raise JobRefused(wrong)
    return values, flags


def alone(path: Path, values: dict[str, object]) -> str:
    """The job file that *values* make without a question. Raises ``JobRefused`` with all that is wrong or missing."""

    def also(job: Job) -> list[Problem]:
        return unprintable(job, path.name)

    tidy = tidied(values, look(values, path.name, also))
    text = job_text.write(tidy, title(tidy), tongue.turned)
    lay_out(job_file.read(text, path.name, also), file=path.name)
    return text


def _site_bound(values: dict[str, object]) -> list[str]:
    """What an old job knows of its own site alone."""
    return [
        f"! {p} = {values[p]} is kept: it was right on the old site."
        for p in ITS_SITE
        if values.get(p, CHOOSE) != CHOOSE
    ]


def _asked(path: Path, values: dict[str, object], flags: frozenset[str], wish: Wish, at: Console) -> str:
    """The job file that comes of the answers; empty where they were broken off."""
    site = Site(path.name, lambda job: unprintable(job, path.name), bool(wish.begin), tongue.turned)
    done = flags | ({"job.units"} if wish.begin else frozenset())
    state: Start = begun(site, values, done)
    old = {"": "", DEMO: "the demo"}.get(wish.begin, Path(wish.begin).name)
    tell(at, words.greeting(path.name, len(GROUPS), old))
    step: Step = first(state)
    tell(at, step.said)
    while not step.over:
        line = at.ask(prompt(step.state))
        step = answer(step.state, line)
        tongue.speak_of(step.state.job)
        tongue.heard(line)
        tell(at, step.said)
    return step.state.text


def tell(at: Console, said: Iterable[str]) -> None:
    """Say it all, as it fits the terminal."""
    for line in tongue.lines(said):
        for part in fitted(line, at.width() - 1):
            at.say(Said(part.replace("`", "")))  # of words as they stand in the file


def _written(held: Held, text: str, path: Path, at: Console) -> None:
    """Put the file in its place and say what comes next. Raises ``JobRefused`` if it was changed, and ``OSError``."""
    try:
        rewrite.save(Held(held.path, held.raw, text), text)
    except ChangedMeanwhile:
        wrong = "was written by another program meanwhile."
        raise JobRefused([Problem(str(path), "", "", wrong, "Look at it, and start again.")]) from None
    readings = path.with_suffix(".csv")
    steps = words.next_steps(str(path), str(readings), readings.exists(), str(path.with_suffix("")))
    tongue.also(path, readings, path.name)
    for line in ("", *steps):  # commands are not wrapped: they are copied
        at.say(line)
