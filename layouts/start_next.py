"""What follows from an answer: what no longer goes with it, what is asked next, and the whole job at the end."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from layouts import job as job_file
from layouts import job_text
from layouts import start_words as words
from layouts.building import lay_out
from layouts.fields import OPENING
from layouts.job_values import Values, look, number_of, openings_in, spec_of, tidied
from layouts.problems import JobRefused, Problem
from layouts.start import AT_OPENINGS, Ask, Start, group_of, next_ask, offer, placed
from layouts.start_question import Question
from layouts.start_questions import GROUPS
from layouts.start_walls import NAMED

UNITED = {"length", "lengths", "section", "bays", "height", "line", "density", "speed", "nailing", "prices"}
PAST = {"girts.runs_past": "side", "girts.grade_board_runs_past": "side"}


class Step(Struct, frozen=True):
    """Where an answer has led to, and what is said; whether it was the last."""

    state: Start
    said: tuple[str, ...]
    over: bool = False


def named(s: Start) -> dict[str, int]:
    """The doors and windows by their names."""
    both = ((s.values.get(f"{OPENING} {n}.name"), n) for n in openings_in(s.values))
    return {str(name): n for name, n in both if name is not None}


def of_opening(s: Start, n: int) -> list[Question]:
    """The questions that go with an opening so far."""
    return [q for _, q in s.of_opening(n)]


def revalued(s: Start, values: Values, paths: Iterable[str] = ()) -> Start:
    """*s* with other values, those at *paths* tidied."""
    found = look(values, s.site.file, s.site.also)
    tidy = tidied(values, found, [p for p in paths if p in values])
    return replace(s, values=tidy, found=found)


def settled(was: Start, s: Start, path: str) -> tuple[Start, tuple[str, ...]]:
    """*s* once what follows from an answer has been done: fields that do not go with it are left out."""
    values, said = dict(s.values), []
    if path == "job.units" and was.job.style.unit != s.job.style.unit:
        anew = {p for p, v in s.values.items() if _united(p, v)}
        values, done = {p: v for p, v in values.items() if p not in anew}, s.done - anew
        said += [words.LENGTHS_ANEW] * bool(anew)
        s = replace(s, done=done)
    lean = [x.job.roof.shape == "lean-to" for x in (was, s)]
    if lean[1] and any(values.get(p, "end") != v for p, v in PAST.items()):
        values |= PAST
        said.append(words.SIDE_PAST)
    elif lean[0] and not lean[1]:
        values = {p: v for p, v in values.items() if p not in PAST}
    s = revalued(s, values) if values != s.values else s
    before, gone = _asked(was, path), set[str]()
    stays = {*PAST, path}
    while left := {p for p in before - _asked(s, path) if p in s.values} - stays:  # one may hang on another
        gone |= left
        s = revalued(s, {p: v for p, v in s.values.items() if p not in left})
    said += [words.GONE_WITH.format(", ".join(sorted(gone)))] if gone else []
    return replace(s, done=s.done - (before - _asked(s, path))), tuple(said)


def _united(path: str, value: object) -> bool:
    """Whether a value means another thing in other units; how many equal bays there are does not."""
    spec = spec_of(path)
    return spec is not None and spec.kind in UNITED and (spec.kind != "bays" or isinstance(value, list))


def _asked(s: Start, path: str) -> set[str]:
    """Every field that is asked for of a building like this; of openings only of the one that *path* is of."""
    fields = {f for i, _ in enumerate(GROUPS) for _, q in s.steps(i) for f in q.fields}
    n = number_of(path)
    return fields | ({placed(f, n) for q in of_opening(s, n) for f in q.fields} if n else set())


def go_on(was: Start | None, s: Start, said: tuple[str, ...]) -> Step:
    """On to what is asked next: first again what was answered and does not go with this; at the end the whole job."""
    at_openings = OPENING in s.done or (was is not None and group_of(was.ask) == AT_OPENINGS)
    for problem in s.found.problems:
        now = at_openings or not number_of(problem.place)  # an old job's doors wait for their turn
        if now and problem.place in s.done and problem.place not in (*s.kept, *s.owed):
            said = (*said, words.told(problem, False))
            s = replace(s, owed=(*s.owed, problem.place))
    s = next_ask(s)
    if s.ask.kind == "end":
        text, problems = whole(s)
        if not problems:
            return Step(replace(s, text=text), said, True)
        said = (*said, words.NOT_YET, *(words.told(p, False) for p in problems))
        fields = [p.place for p in problems if spec_of(p.place) is not None]
        s = replace(s, ask=Ask("field", fields[0]) if fields else Ask("group", group=2), kept=frozenset())
    return Step(s, (*said, *intro(s, was)))


def whole(s: Start) -> tuple[str, tuple[Problem, ...]]:
    """The job file, and what is wrong with it by the reader and by the layout."""
    text = job_text.write(s.values, title(s.values), s.site.say)
    try:
        lay_out(job_file.read(text, s.site.file, s.site.also), file=s.site.file)
    except JobRefused as refused:
        return text, refused.problems
    return text, ()


def title(values: Values) -> str:
    """The first line of a job file."""
    place = values.get("job.place")
    return f"{values.get('job.name', '')}{f', {place}' if place else ''}"


def intro(s: Start, was: Start | None) -> tuple[str, ...]:
    """What is said before a question is asked: over the first of a group its title, then the picture in words."""
    group, lines = group_of(s.ask), []
    if group >= 0 and (was is None or was is s or group != group_of(was.ask) or was.ask.kind == "group"):
        lines += ["", words.heading(group + 1, len(GROUPS), GROUPS[group].title)]
    if s.ask.kind == "group":
        steps = [(q.ask, offer(s, path, q).text) for path, q in s.steps(group)]
        return (*lines, *words.summary(steps))
    if s.ask.kind == "openings":
        there = named(s)
        return (*(lines or [""]), NAMED, *([words.THERE.format(", ".join(there))] if there else []))
    if s.ask.kind == "end":
        return tuple(lines)
    gap = () if lines else ("",)
    n = number_of(s.ask.path)
    whose = f"{s.values.get(f'{OPENING} {n}.name', n)}: " if n else ""
    return (*lines, *gap, whose + words.picture(s.question(s.ask.path).picture, s.job))


def first(s: Start) -> Step:
    """What is asked first and said before it; a job that leaves nothing to be asked is over at once."""
    s, said = settled(s, s, "")
    return go_on(None, s, said)
