"""A job being asked for: where it has come to, and what is asked next (``layouts.start_steps``: what an answer does).

The values said so far are the whole memory. They are judged by the job reader after every answer; what it makes of them
tells which questions go with this building.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, Literal

from msgspec import Struct
from msgspec.structs import replace

from layouts import start_words as words
from layouts.fields import OPENING
from layouts.job_values import Also, Look, Values, look, number_of, openings_in, spec_of, tidied
from layouts.start_question import Question
from layouts.start_questions import GROUPS
from layouts.start_walls import AN_OPENING, OPENING_GROUP

AT_OPENINGS = GROUPS.index(OPENING_GROUP)


def _nothing(_: Any) -> list[Any]:
    return []


class Site(Struct, frozen=True):
    """What stays the same while it is asked: the *file* to be written, what else is looked for in a job, whether it
    begins with an *old* job, and how its comments are put into another language (*say*)."""

    file: str = "job.toml"
    also: Also = _nothing
    old: bool = False
    say: Callable[[str], str] = str


class Ask(Struct, frozen=True):
    """What is asked for: the field at *path*; whether a whole *group* is right as it stands; the name of one more door
    or window; or nothing more. *again*: it was answered, and something else does not go with it."""

    kind: Literal["field", "group", "openings", "end"]
    path: str = ""
    group: int = 0
    again: bool = False


class Before(Struct, frozen=True):
    """What was asked before, and what was known then; *single* the groups that were gone through step by step."""

    ask: Ask
    values: Values
    done: frozenset[str]
    single: frozenset[int]


class Start(Struct, frozen=True):
    """*values* are raw, by dotted name, *found* is what the reader makes of them; *done* are the fields that were
    answered, *given* those that ever were, gone back from or not; *single* the groups that are gone through step by
    step; *owed* fields to ask before all others; *kept* fields that were left as they are though something does not go
    with them; *trail* what was asked before."""

    site: Site
    values: Values
    found: Look
    ask: Ask
    done: frozenset[str] = frozenset()
    single: frozenset[int] = frozenset()
    owed: tuple[str, ...] = ()
    kept: frozenset[str] = frozenset()
    trail: tuple[Before, ...] = ()
    text: str = ""
    given: frozenset[str] = frozenset()

    @property
    def job(self) -> Any:
        """The job so far."""
        return self.found.job

    @property
    def now(self) -> Before:
        """What is asked, and what is known: what ``back`` comes back to."""
        return Before(self.ask, self.values, self.done, self.single)

    def applies(self, question: Question, path: str) -> bool:
        """Whether a question goes with the building, or the opening, so far."""
        n = number_of(path)
        return question.when(self.job.openings[n - 1] if n else self.job)

    def steps(self, group: int) -> list[tuple[str, Question]]:
        """The questions of a group that go with the building so far, each with its field."""
        return [(q.field, q) for q in GROUPS[group].questions if self.applies(q, q.field)]

    def of_opening(self, n: int) -> list[tuple[str, Question]]:
        """The same of an opening."""
        both = [(placed(q.field, n), q) for q in AN_OPENING]
        return [(path, q) for path, q in both if self.applies(q, path)]

    def question(self, path: str) -> Question:
        """The question for a field: one of ours that goes with the building, else one made of its spec."""
        n = number_of(path)
        pool = self.of_opening(n) if n else [step for i in range(len(GROUPS)) for step in self.steps(i)]
        fitting = [q for _, q in pool if path in (placed(f, n) for f in q.fields)]
        spec = spec_of(path)
        return fitting[0] if fitting else Question(path, path, spec.help.replace("`", "") if spec else "")


def placed(field: str, n: int) -> str:
    """A field of an opening with its number."""
    return field.replace(f"{OPENING}.", f"{OPENING} {n}.") if n else field


def group_of(ask: Ask) -> int:
    """The group that a question is asked in."""
    if ask.kind == "group":
        return ask.group
    if ask.kind == "openings" or number_of(ask.path):
        return AT_OPENINGS
    return next((i for i, g in enumerate(GROUPS) if any(ask.path in q.fields for q in g.questions)), -1)


def begun(site: Site, values: Values, done: frozenset[str]) -> Start:
    """The state before the first question: *values* of an old job or of flags; *done* are those not to be asked."""
    found = look(values, site.file, site.also)
    values = tidied(values, found)
    old = {path for path in values if number_of(path)}  # those of an old job are asked only if they are named
    state = Start(site, values, look(values, site.file, site.also), Ask("end"), done | old)
    return next_ask(state)


# --- what is asked next ---------------------------------------------------------------------------------------------


def next_ask(s: Start) -> Start:
    """*s* with the next thing to ask; at the end of it nothing. A group that is gone to, and a door that is begun,
    is asked through to its end before all others."""
    if s.owed:
        return replace(s, ask=Ask("field", s.owed[0], again=True))
    here = group_of(s.ask)
    for i in (*([here] if here in (*s.single, AT_OPENINGS) else []), *range(len(GROUPS))):
        if i == AT_OPENINGS:
            if ask := _of_openings(s):
                return replace(s, ask=ask)
            continue
        steps = s.steps(i)
        todo = [path for path, q in steps if not _answered(s, q, 0)]
        if todo:
            whole = len(todo) == len(steps) > 1 and _stands(s, i)
            return replace(s, ask=Ask("group", group=i) if whole else Ask("field", todo[0]))
    return replace(s, ask=Ask("end"))


def _of_openings(s: Start) -> Ask | None:
    """What is still to be asked of doors and windows."""
    open_ = next(_open(s), None)
    if open_:
        return Ask("field", open_)
    return None if OPENING in s.done else Ask("openings")


def _open(s: Start) -> Iterator[str]:
    """The fields of openings that are still to be asked for."""
    for n in openings_in(s.values):
        yield from (path for path, q in s.of_opening(n) if not _answered(s, q, n))


def _answered(s: Start, question: Question, n: int) -> bool:
    return any(placed(f, n) in s.done for f in question.fields)


def _stands(s: Start, group: int) -> bool:
    """Whether a group may be shown as a whole: nothing in it has to be said."""
    if group in s.single or not (GROUPS[group].together or (s.site.old and group)):
        return False
    return all(offer(s, path, q).known for path, q in s.steps(group))


# --- what Enter means -----------------------------------------------------------------------------------------------


class Offer(Struct, frozen=True):
    """What Enter takes: *raw* (``None`` leaves the field out), shown as *text*; *keep* what stands there already;
    nothing where it is not *known*."""

    text: str = ""
    raw: Any = None
    keep: bool = False
    known: bool = True


def offer(s: Start, path: str, question: Question) -> Offer:
    """What Enter means at a question."""
    n, spec = number_of(path), spec_of(path)
    assert spec is not None
    new = path not in s.done
    if question.fresh and new and path not in s.given:
        first = None if question.fresh == "-" else question.fresh
        return Offer(words.shown(first, spec, s.job.style) or question.left, first)
    for field in question.fields:
        own = placed(field, n)
        if own in s.values:
            said = words.shown(s.values[own], spec_of(own), s.job.style) or question.left
            return Offer(_worded(s, question, own, said, n), keep=True)
    like = s.values.get(question.like)
    if like and new:
        return Offer(words.shown(like, spec, s.job.style), like)
    if question.none or spec.required:
        return Offer(question.left, question.left or None, known=bool(question.left))
    if spec.default in (None, "", ()):
        return Offer(question.left, [] if spec.default == () else None, known=bool(question.left))
    default = spec.metric if s.job.style.unit == "mm" and spec.metric is not None else spec.default
    raw = list(default) if isinstance(default, tuple) else default
    return Offer(words.shown(raw, spec, s.job.style), raw)


def _worded(s: Start, question: Question, own: str, said: str, n: int) -> str:
    """An answer with the word that makes it one of another field."""
    for either in question.either:
        if placed(either.field, n) == own:
            told = all(s.values.get(placed(f, n)) == value for f, value in either.sets)
            if told:
                return f"{either.word} {said}"
    return said


def prompt(s: Start) -> str:
    """What is asked, on one line."""
    if s.ask.kind == "group":
        return words.ALL_RIGHT
    if s.ask.kind == "openings":
        return words.NAME_ONE
    question = s.question(s.ask.path)
    spec = spec_of(s.ask.path)
    assert spec is not None
    plan = words.plan_of(s.job) if s.ask.path.endswith(".wall") else None
    walls = [w.name for w in plan.walls] if plan else []
    return words.asked(question.ask, spec, offer(s, s.ask.path, question).text, walls)
