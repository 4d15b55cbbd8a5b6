"""What an answer does to a round being shot, and what is said about it.

Each answer gives a new text of the file or leaves the old one. A reading that is odd is written down at once, with a
note that says so, and asked for again: the same number confirms it, another one replaces it.
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct
from msgspec.structs import replace

from layouts import book_lines, shooting_end
from layouts import shooting_view as views
from layouts.book_lines import Row
from layouts.lengths import NOISE
from layouts.problems import JobRefused, Problem, nearest, shorten
from layouts.shooting import Ask, Shoot, next_ask
from layouts.shooting_words import Typed, help_, strange, understood


class Echo(Struct, frozen=True):
    """A reading told back: its *number* as typed, to be shown large, and what it makes."""

    number: str
    lines: tuple[str, ...]


Said = tuple[str | Echo, ...]


class Answer(Struct, frozen=True):
    """What an answer has led to: the new state, what is said about it, whether it was the last."""

    state: Shoot
    said: Said = ()
    over: bool = False


def answer(s: Shoot, line: str) -> Answer:
    """What *line*, typed at the prompt, leads to."""
    typed = understood(line)
    if typed.word:
        return _WORDS[typed.word](s, typed.rest)
    if not typed.rest:
        return _enter(s)
    if s.ask.kind == "join":
        return _join(s, typed.rest)
    if s.ask.kind == "end":
        return Answer(s, ("No seat is asked for: go NAME first.",))
    wrong = strange(typed.rest, s.book.head) or _unprintable(s, typed.note)
    if s.site.column(typed.rest):
        wrong = f"{typed.rest} is a column: go {typed.rest} goes there."
    return Answer(s, (wrong,)) if wrong else _read(s, typed)


def _after(s: Shoot, said: Said = ()) -> Answer:
    """On to what comes after the reading just made or kept."""
    state = next_ask(s)
    return Answer(state, said, state.ask.kind == "end" and (s.ending or s.ask.nth > 0))


def _told(problem: Problem) -> str:
    """What was typed and what is wrong with it, one sentence where that goes on from it."""
    between = " " if problem.wrong.startswith(("is ", "has ")) else ": "
    return f"{shorten(problem.text)}{between}{problem.wrong} {problem.right}".strip()


# --- readings -------------------------------------------------------------------------------------------------------


def _read(s: Shoot, typed: Typed) -> Answer:
    """A number for what is asked."""
    old, row = s.sight(s.ask), _row(s, s.ask)
    note = views.marked(typed.note or (row.note if row else ""), "")
    try:
        book = s.site.read(_written(s, typed.rest, note))
    except JobRefused as refused:
        said = [f"NOT TAKEN: {_told(problem)}" for problem in refused.problems]
        return Answer(s, (*(_with_note(s, typed.rest) or said),))
    new = replace(s, book=book).sight(s.ask)
    if new is None:
        raise AssertionError("a reading that was written is not read")
    was, now = views.view(s.site, views.without(book, new)), views.view(s.site, book)
    reasons = views.odd(s.site, was, now, new)
    same = old is not None and abs(old.raw - new.raw) <= NOISE
    reading = old.text if old and same else typed.rest
    doubted = bool(reasons) or (old is not None and same and views.is_marked(old))
    text = _written(s, reading, views.marked(note, (views.TWICE if same else views.ODD) if doubted else ""))
    state = _kept(s, text)
    echo = Echo(typed.rest, views.words(s.site, now, new))
    if reasons and not same:
        again = f"Read {new.point} again: the same number keeps it, another one replaces it."
        return Answer(state, (echo, *(f"ODD: {reason}" for reason in reasons), again))
    loop = views.closing(s.site, book, new)
    more = [views.told(s.site, loop)] if loop else []
    return _after(state, (echo, *more, *views.by_eye(s.site, was, now), *views.others(s.site, was, now, new)))


def _with_note(s: Shoot, typed: str) -> list[str]:
    """What is said of words behind a reading that the word note does not stand before; nothing where it is no such."""
    number, words = typed.rstrip(), ""
    while (parted := number.rpartition(" "))[0] and parted[2][:1].isalpha():
        number, words = parted[0].rstrip(" ,;"), f"{parted[2]} {words}".rstrip()
    try:
        s.site.read(_written(s, number, ""))
    except JobRefused:
        return []
    return [f'NOT TAKEN: words go behind the word note, like "{shorten(f"{number} note {words}")}".'] if words else []


def _kept(s: Shoot, text: str) -> Shoot:
    """*s* with *text* for its file, and what is asked now as the newest of its trail."""
    trail = (*(a for a in s.trail if a != s.ask), s.ask)
    skipped = s.skipped - {s.ask.point}
    return replace(s, text=text, book=s.site.read(text), trail=trail, skipped=skipped)


def _row(s: Shoot, ask: Ask) -> Row | None:
    """The line of the file where a reading stands, or waits for it."""
    labels = (s.site.round, ask.setup, ask.point)
    same = [r for r in book_lines.rows(s.text) if (r.round, r.setup, r.point) == labels]
    made = [r for r in same if r.reading]
    return made[ask.nth] if ask.nth < len(made) else next((r for r in same if not r.reading), None)


def _fits(s: Shoot, row: Row) -> bool:
    """Whether a reading may go into a line that waits for it: what stands first, and what was read back at the end,
    must stay that."""
    label = s.label(s.ask.setup)
    if row.reading or not label:
        return True
    first = int(label[0].place.removeprefix("line ")) - 1
    return row.at > first and not s.read_back(s.ask.setup)


def _written(s: Shoot, reading: str, note: str) -> str:
    """The file with *reading* and *note* for what is asked."""
    ask, text, row = s.ask, s.text, _row(s, s.ask)
    if row and (not reading or _fits(s, row)):
        return book_lines.changed(text, replace(row, reading=reading, note=note))
    if ask.point not in s.site.columns and ask.point not in s.book.head.benchmarks:
        text = book_lines.named(text, ask.point, s.where)
    return book_lines.added(text, Row(0, ask.point, reading, ask.setup, s.site.round, note))


def _enter(s: Shoot) -> Answer:
    """An empty line: what is there is kept."""
    old = s.sight(s.ask)
    if s.ask.kind == "join":
        return _after(replace(s, alone=True)) if s.joined() else _join(s, s.joints()[0])
    if s.ask.kind == "end":
        return Answer(s, over=True)
    if old and views.is_open(old):
        return Answer(s, (f"Type {s.ask.point} again, or skip.",))
    return _after(s) if old else Answer(s)


def _unprintable(s: Shoot, text: str) -> str:
    letters = s.site.unprintable(text)
    return f"No sheet can print {' '.join(letters)}: write it in plain letters." if letters else ""


# --- words ----------------------------------------------------------------------------------------------------------


def _back(s: Shoot, _: str) -> Answer:
    if s.ask.kind == "join" and not s.label() and s.trail:
        setup = s.trail[-1].setup
        return Answer(next_ask(replace(s, setup=setup)), (f"Not moved: set-up {setup} goes on.",))
    at = s.trail.index(s.ask) if s.ask in s.trail else len(s.trail)
    if not at:
        return Answer(s, ("Nothing was read before it.",))
    return Answer(replace(s, ask=s.trail[at - 1], where=""))


def _skip(s: Shoot, _: str) -> Answer:
    if s.ask.kind == "join":
        return _enter(s) if s.joined() else Answer(s, ("Without a point in common the set-ups cannot be joined.",))
    if s.ask.kind == "end" or _last(s):
        return Answer(s, over=True)
    return _after(replace(s, skipped=s.skipped | {s.ask.point}))


def _last(s: Shoot) -> bool:
    """Whether a check-back is asked for that is not made, or not believed, yet."""
    old = s.sight(s.ask)
    return s.ask.nth > 0 and (old is None or views.is_open(old))


def _go(s: Shoot, name: str) -> Answer:
    found = s.site.column(name)
    if s.ask.kind == "join" and not s.joined():
        return _join(s, name)
    if found is None:
        if name.casefold() in map(str.casefold, s.book.head.benchmarks):
            return _benchmark(s, name)
        return Answer(s, (f"{shorten(name, 20) or 'go'}: no such column. {nearest(name, s.site.columns)}",))
    asked = Ask("reading", s.setup, found)
    return Answer(replace(s, ask=asked, here=found, skipped=s.skipped - {found}, ending=False, where=""))


def _note(s: Shoot, words: str) -> Answer:
    wrong = _unprintable(s, words)
    if s.ask.kind != "reading" or not words or wrong or (s.ask.nth and not s.sight(s.ask)):
        return Answer(s, (wrong or "A note is written beside a seat that is asked for: note WORDS",))
    row = _row(s, s.ask)
    kept = [part for part in (row.note if row else "").split(views.BETWEEN) if part in (views.ODD, views.TWICE)]
    try:
        text = _written(s, row.reading if row else "", views.marked(words, *(kept or [""])))
        state = replace(s, text=text, book=s.site.read(text))
    except JobRefused as refused:
        return Answer(s, (*(f"NOT TAKEN: {p.wrong} {p.right}" for p in refused.problems),))
    return Answer(state, (f"Noted beside {s.ask.point}: {words}",))


def _moved(s: Shoot, _: str) -> Answer:
    if not s.label():
        return Answer(s, (f"Nothing is read from set-up {s.setup} yet: it may be moved as you like.",))
    used = {r.setup for r in book_lines.rows(s.text) if r.round == s.site.round}
    setup = next(str(n) for n in range(len(used) + 1, 2 * len(used) + 3) if str(n) not in used)
    state = next_ask(replace(s, setup=setup, alone=False, ending=False))
    return Answer(
        state, (f"Set-up {setup}. Read something again from here that was read before: better two, far apart.",)
    )


def _join(s: Shoot, typed: str) -> Answer:
    known = {p.casefold(): p for p in s.joints()}
    name = known.get((s.site.column(typed) or typed).casefold())
    if name is None:
        right = nearest(typed, s.joints())
        return Answer(s, (f"{shorten(typed, 20)} was not read before in this round: name what you read. {right}",))
    return Answer(replace(s, ask=Ask("reading", s.setup, name)))


def _benchmark(s: Shoot, rest: str) -> Answer:
    typed, _, where = (part.strip() for part in rest.partition(","))
    known = {name.casefold(): name for name in s.book.head.benchmarks}
    name = known.get(typed.casefold(), typed)
    wrong = _unprintable(s, f"{name} {where}")
    if not name:
        wrong = f"benchmark NAME: {', '.join(known.values()) or 'none is named yet'}"
    elif s.site.column(name):
        wrong = f"{name} is a column of this job: go {name}"
    elif s.ask.kind == "join" and not s.joined():
        return _join(s, name)
    return Answer(s, (wrong,)) if wrong else Answer(replace(s, ask=Ask("reading", s.setup, name), where=where))


def _list(s: Shoot, _: str) -> Answer:
    return Answer(s, shooting_end.table(s.site, s.book))


def _help(s: Shoot, _: str) -> Answer:
    return Answer(s, help_(s.book.head))


def _done(s: Shoot, _: str) -> Answer:
    """To the check-back; from there, to the end."""
    if s.ask.kind == "end" or s.ending or _last(s):
        return Answer(s, over=True)
    missing, odd = views.parted(s.site, s.book)
    state = next_ask(replace(s, ending=True))
    said = [f"Not read: {', '.join(missing)}."] if missing else []
    said += [f"Odd, not read again: {', '.join(odd)}."] if odd else []
    return Answer(state, tuple(said), state.ask.kind == "end")


_WORDS: dict[str, Callable[[Shoot, str], Answer]] = {
    "back": _back,
    "skip": _skip,
    "go": _go,
    "note": _note,
    "moved": _moved,
    "benchmark": _benchmark,
    "list": _list,
    "help": _help,
    "done": _done,
}
