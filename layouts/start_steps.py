"""What an answer does to a job that is being asked for, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from msgspec.structs import replace

from layouts import openings as opening_layout
from layouts import start_words as words
from layouts.fields import OPENING
from layouts.framing import NO_PLACE
from layouts.job_values import number_of, openings_in, renumbered, spec_of, typed
from layouts.plan import NO_WALL
from layouts.problems import Problem, nearest, shorten
from layouts.start import AT_OPENINGS, Ask, Start, next_ask, offer, placed
from layouts.start_next import Step, go_on, intro, named, of_opening, revalued, settled
from layouts.start_question import Question
from layouts.start_questions import GROUPS
from layouts.start_typed import answer_in, name_in, other_in
from layouts.start_walls import WHERE


def answer(s: Start, line: str) -> Step:
    """What is done with a line that was typed."""
    plain = " ".join("".join(c if c.isprintable() else " " for c in line).split())
    word, _, rest = plain.lower().partition(" ")
    if plain.lower() in ("?", "help"):
        return Step(s, _help(s))
    if plain == "<" or (plain.lower() == "back" and not _back_is_an_answer(s)):
        return _back(s)
    if plain.lower() == "quit":
        return Step(s, (), True)
    if word == "drop" and (n := number_of(s.ask.path)):
        return _drop(s, rest or str(s.values.get(f"{OPENING} {n}.name", "")))
    if word == "go" and rest and (s.ask.path == "" or _meant(s, rest)):
        return _go(s, rest)
    return {"field": _field, "group": _group, "openings": _openings}[s.ask.kind](s, plain)


def _back_is_an_answer(s: Start) -> bool:
    """Whether back is a side of the building here, and not our word."""
    spec = spec_of(s.ask.path)
    return spec is not None and ("back" in spec.choices or s.ask.path.endswith(".wall"))


def _meant(s: Start, rest: str) -> bool:
    """Whether ``go`` with *rest* is meant as our word: in a field of plain words only where it leads somewhere."""
    spec = spec_of(s.ask.path)
    return spec is None or spec.kind not in ("text", "name") or _target(s, rest) is not None


# --- our words ------------------------------------------------------------------------------------------------------


def _help(s: Start) -> tuple[str, ...]:
    lines = intro(s, s)
    if s.ask.kind == "field":
        spec = spec_of(s.ask.path)
        assert spec is not None
        lines += words.more(s.ask.path, spec, s.job.style, spec.none and _may_be_left_out(s))
    elif s.ask.kind == "group":
        for path, question in s.steps(s.ask.group):
            lines += (f"  {question.ask}: {words.picture(question.picture, s.job)} ({path})",)
    return (*lines, *(f"  {word:<6}{what}" for word, what in words.WORDS.items()))


def _may_be_left_out(s: Start) -> bool:
    """Whether the job reader lets this building do without what is asked for."""
    path, question = s.ask.path, s.question(s.ask.path)
    paths = [placed(f, number_of(path)) for f in question.fields]
    without = revalued(s, {p: v for p, v in s.values.items() if p not in paths})
    return not _refused(without, paths, question)


def _refused(s: Start, paths: list[str], question: Question) -> list[Problem]:
    """What is wrong with the fields that a question asks for."""
    return [p for p in s.found.problems if p.place in paths or _of_place(p, paths[0], question)]


def _back(s: Start) -> Step:
    if not s.trail:
        return Step(s, (words.FIRST,))
    before = s.trail[-1]
    values = s.values
    if before.ask.kind == "openings":  # doors and windows as they were; the rest stays as it was said since
        values = {p: v for p, v in values.items() if not number_of(p)}
        values |= {p: v for p, v in before.values.items() if number_of(p)}
    state = replace(revalued(s, values), ask=before.ask, done=before.done, single=before.single, owed=())
    state = replace(state, trail=s.trail[:-1])
    return Step(state, intro(state, None))


def _target(s: Start, name: str) -> Ask | int | None:
    """Where ``go NAME`` leads: a group's number from 0, or a field."""
    if name.isascii() and name.isdigit():
        return int(name) - 1 if 1 <= int(name[:4]) <= len(GROUPS) else None
    n = number_of(name)
    there = spec_of(name) is not None and (not n or n in openings_in(s.values))
    return Ask("field", name) if there and (not name.startswith("names.") or name in s.values) else None


def _without_walls(s: Start) -> int:
    """The number of the question that makes the walls and is still to be answered; 0 where they are known."""
    wrong = {p.place for p in s.found.problems} & {"building.width", "building.length", "building.bays"}
    fields = ({f for q in group.questions for f in q.fields} for group in GROUPS)
    return next((i for i, asked in enumerate(fields, 1) if asked & wrong), 0)


def _go(s: Start, name: str) -> Step:
    target = _target(s, name)
    if target is None:
        return Step(s, (words.NO_SUCH,))
    if target == AT_OPENINGS and (first_ := _without_walls(s)):
        return Step(s, (words.WALLS_FIRST.format(first_),))
    trail = (*s.trail, s.now)
    if isinstance(target, Ask):
        state = replace(s, ask=target, trail=trail)
        return Step(state, intro(state, s))
    fields = {f for q in GROUPS[target].questions for f in q.fields}
    done = s.done - ({OPENING} if target == AT_OPENINGS else fields)
    state = replace(s, done=done, single=s.single | {target}, trail=trail, owed=())
    first = next((path for path, _ in state.steps(target)), "")
    state = replace(state, ask=Ask("field", first) if first else Ask("openings"))
    return Step(state, intro(state, s))


# --- answers --------------------------------------------------------------------------------------------------------


def _group(s: Start, plain: str) -> Step:
    """A whole group, right or not."""
    small = plain.lower()
    if small and not "yes".startswith(small) and not "no".startswith(small):
        return Step(s, (words.YES_OR_NO.format(plain),))
    trail = (*s.trail, s.now)
    if small.startswith("n"):
        state = next_ask(replace(s, single=s.single | {s.ask.group}, trail=trail))
        return Step(state, intro(state, s))
    values, taken = dict(s.values), set()
    for path, question in s.steps(s.ask.group):
        meant = offer(s, path, question)
        taken.add(path)
        if not meant.keep and meant.raw is not None:
            values[path] = meant.raw
        elif not meant.keep:
            values.pop(path, None)
    state = replace(revalued(s, values, taken), done=s.done | taken, given=s.given | taken, trail=trail)
    return go_on(s, state, ())


def _field(s: Start, plain: str) -> Step:
    """A field: refused with what the job reader says, or taken."""
    path, question = s.ask.path, s.question(s.ask.path)
    n, meant = number_of(path), offer(s, path, question)
    paths = [placed(f, n) for f in question.fields]
    values: dict[str, Any] = dict(s.values)
    typed_, plain = plain, answer_in(plain, path, question)
    spec = spec_of(path)
    if plain == typed_ and spec is not None and spec.kind in ("text", "name") and (another := other_in(plain)):
        return Step(s, (f"! {another}",))
    plain = "" if meant.known and plain.casefold() == meant.text.casefold() else plain  # what Enter takes, typed out
    if plain or not meant.keep:
        values = {k: v for k, v in values.items() if k not in paths}
        values |= _given(s, question, n, plain) if plain else {path: meant.raw}
        values = {k: v for k, v in values.items() if v is not None}
    state, said = settled(s, revalued(s, values, paths), path)
    refused = _refused(state, paths, question) or _no_wall(s, path, values) or _unsaid(s, path, question, values)
    if refused and (plain or not s.ask.again):
        wrong = (words.told(_as_typed(p, plain or meant.text), p.place in paths) for p in refused)
        return Step(s, tuple(dict.fromkeys(wrong)))
    trail = (*s.trail, s.now)
    kept = s.kept | set(paths) if refused else s.kept - set(paths)
    done = state.done | ({f for f in paths if f in values} or {path})
    owed = tuple(p for p in s.owed if p not in paths)
    state = replace(state, done=done, given=s.given | done, trail=trail, owed=owed, kept=kept)
    return go_on(s, state, said)


def _as_typed(problem: Problem, text: str) -> Problem:
    """A problem of a list with its *text* as it was typed; what is wrong with a list of one names that one too."""
    if not problem.text.startswith("[") or shorten(text) != text:
        return problem
    return replace(problem, text=text, wrong=problem.wrong.removeprefix(f"{text}: "))


def _given(s: Start, question: Question, n: int, plain: str) -> dict[str, Any]:
    """The fields that an answer gives."""
    word, _, rest = plain.partition(" ")
    cleared = dict.fromkeys(placed(f, n) for e in question.either for f, _ in e.sets)
    for either in question.either:
        if rest and word.lower() == either.word:
            own = placed(either.field, n)
            return {**cleared, own: typed(rest, spec_of(own)), **{placed(f, n): v for f, v in either.sets}}
    if s.ask.path.endswith(".wall"):
        return {s.ask.path: _wall(s, plain)}
    own = placed(question.field, n) if question.either else s.ask.path
    return {**cleared, own: typed(dict(question.also).get(plain.lower(), plain), spec_of(own))}


def _wall(s: Start, plain: str) -> str:
    """A wall by its name in small letters too, or by its side."""
    plan = words.plan_of(s.job)
    named = {word: w.name for w in plan.walls for word in (w.name.casefold(), w.side)} if plan else {}
    return named.get(plain.casefold(), plain)


def _no_wall(s: Start, path: str, values: dict[str, Any]) -> list[Problem]:
    """A wall that is not there, before the opening is whole and can be laid."""
    plan = words.plan_of(s.job) if path.endswith(".wall") and path in values else None
    lines = [w.name for w in plan.walls] if plan else []
    if not lines or values[path] in lines:
        return []
    return [Problem(s.site.file, path, values[path], NO_WALL, nearest(values[path], lines))]


def _unsaid(s: Start, path: str, question: Question, values: dict[str, Any]) -> list[Problem]:
    """Nothing for a field whose default is for job files alone; no place of an opening, before it can be laid."""
    spec, n = spec_of(path), number_of(path)
    if n and question.either and not any(placed(f, n) in values for f in question.fields):
        return [Problem(s.site.file, f"{OPENING} {n}.bay", "", *NO_PLACE)]
    if not spec or not question.none or path in values:
        return []
    return [Problem(s.site.file, path, "", "must be given.", spec.help)]


def _of_place(problem: Problem, path: str, question: Question) -> bool:
    """Whether a problem of an opening is one of where it was put, which is asked last."""
    part, _, key = problem.place.partition(".")
    return bool(question.either) and part == path.partition(".")[0] and part.startswith(OPENING) and key in WHERE


def _openings(s: Start, plain: str) -> Step:
    """The name of a door or window; of one that is there, to change it or to take it out."""
    trail = (*s.trail, s.now)
    if not plain or plain.lower() == "no more":
        return go_on(s, replace(s, done=s.done | {OPENING}, trail=trail), ())
    there, plain = named(s), name_in(plain)
    word, _, rest = plain.partition(" ")
    if word.lower() == "drop" and rest:
        return _drop(s, rest)
    n = there.get(_opening_meant(there, plain), 0)
    if n:
        again = {placed(f, n) for q in of_opening(s, n) for f in q.fields}
        state = next_ask(replace(s, done=s.done - again, trail=trail))
        return Step(state, intro(state, s))
    n = len(openings_in(s.values)) + 1
    path = f"{OPENING} {n}.name"
    state = revalued(s, {**s.values, path: plain}, [path])
    plan = words.plan_of(s.job)
    taken = opening_layout.named(state.job, plan, n, s.site.file) if plan and len(state.job.openings) == n else []
    if wrong := [*state.found.at(path), *state.found.at(OPENING), *taken]:
        return Step(s, tuple(words.told(p, True) for p in wrong))
    state = next_ask(replace(state, done=s.done | {path}, trail=trail))
    return Step(state, intro(state, s))


def _opening_meant(there: Iterable[str], typed_name: str) -> str:
    """The name that is typed, capitals or not; empty where there is none."""
    return next((x for x in there if x.casefold() == typed_name.casefold()), "")


def _drop(s: Start, typed_name: str) -> Step:
    """Without one opening; those after it move up."""
    there = named(s)
    name = _opening_meant(there, typed_name)
    if not name:
        return Step(s, (words.NO_OPENING.format(typed_name, nearest(typed_name, there)).rstrip(),))
    gone = there[name]
    state = revalued(s, renumbered({path: v for path, v in s.values.items() if number_of(path) != gone}))
    # fields of openings that were answered keep their answers under their new numbers
    done = {moved(p, gone) for p in s.done if number_of(p) != gone}
    trail = (*s.trail, replace(s.now, ask=Ask("openings")))
    state = next_ask(replace(state, done=frozenset(done), trail=trail, owed=()))
    return Step(state, (words.DROPPED.format(name), *intro(state, s)))


def moved(path: str, gone: int) -> str:
    """A field of an opening under its new number, where the one of number *gone* is no more."""
    n = number_of(path)
    return f"{OPENING} {n - 1}.{path.partition('.')[2]}" if n > gone else path
