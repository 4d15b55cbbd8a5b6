"""What is asked once, before the first reading: how the rod is read. The answers go into the file, which says them from
then on."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from msgspec import Struct

from layouts import book, book_lines
from layouts.book import Book
from layouts.fields import Job
from layouts.plan import Plan
from layouts.problems import JobRefused, Problem, nearest
from layouts.shooting_words import ENDS


def _all_printable(_: str) -> str:
    return ""


class Site(Struct, frozen=True):
    """What stays the same while a round is shot. *tops*: highest stations by column; *file* names the readings' file in
    messages; *unprintable* gives the letters of a text that no sheet can print."""

    job: Job
    plan: Plan
    tops: Mapping[str, float]
    file: str = "readings.csv"
    round: str = book.ONE
    unprintable: Callable[[str], str] = _all_printable

    @property
    def columns(self) -> list[str]:
        """The columns in walking order."""
        return [s.name for s in self.plan.spots]

    @property
    def called(self) -> dict[str, str]:
        """The crew's own name by grid name, where it is another."""
        return {s.grid: s.name for s in self.plan.spots if s.grid != s.name}

    def read(self, text: str) -> Book:
        """The book in *text*; raises ``JobRefused``."""
        return book.read(text, self.columns, self.job.style.unit, self.file, self.called)

    def column(self, typed: str) -> str | None:
        """The column that is meant: by its own name or its grid name, in small letters too."""
        if typed in self.columns:
            return typed
        names = {grid.casefold(): name for grid, name in self.called.items()}
        names |= {name.casefold(): name for name in self.columns}
        return names.get(typed.casefold())


class Question(Struct, frozen=True):
    """*word* is what the file calls it; *choices* are the words that answer it, with what the file says for each;
    *default* is what Enter means, *left_out* that in words where there are no choices; *needed* says why Enter is no
    answer, where it is none."""

    word: str
    text: str
    choices: tuple[tuple[str, str], ...] = ()
    default: str = ""
    left_out: str = ""
    needed: str = ""

    @property
    def prompt(self) -> str:
        """As it is asked."""
        names = [name for name, _ in self.choices]
        told = f" {', '.join(names[:-1])} or {names[-1]}" if names else ""
        enter = next((name for name, value in self.choices if value == self.default), self.left_out)
        return f"{self.text}{told}? " + (f"[{enter}] " if enter else "")


Answers = Mapping[str, str]
ALSO = {"ft": "feet", "foot": "feet", "down": "lower", "up": "higher"}  # other words for a choice
BY_EYE = ("highest", "lowest")
HELP = "Enter takes what stands in [ ]; back goes one question back; quit ends, and nothing is written."
FIRST = "This is the first question."


def _questions(site: Site) -> tuple[Question, ...]:
    units = (("inches", "inches"), ("feet", "feet"), ("mm", "mm"))
    return (
        Question("unit", "Is the rod read in", units, "mm" if site.job.style.unit == "mm" else "inches"),
        Question("sense", "Does a larger reading mean that the seat is", (("lower", "down"), ("higher", "up")), "down"),
        Question("read on", "Does the rod stand on the", (("seat", "seat"), ("concrete", "concrete")), "seat"),
        _plate(site),
        Question("highest", "Which seat is the highest by eye", left_out="leave it out"),
        Question("lowest", "Which seat is the lowest by eye", left_out="leave it out"),
    )


def _plate(site: Site) -> Question:
    """A line reading that is given is told to the seats: a plate that nobody measured would be in every offset."""
    text = "How thick is the plate from the concrete up to the seat"
    if site.job.grade.line is None:
        return Question("plate", text, default="0", left_out="none")
    needed = "The line reading is given, and every offset would be too long by the plate."
    return Question("plate", f"{text}, 0 if there is none", needed=needed)


def to_ask(site: Site, text: str, answers: Answers) -> Question | None:
    """What is asked next; nothing where readings stand in the file already. *answers* by word, empty if left out."""
    found = site.read(text)
    if found.sights:
        return None
    concrete = found.head.concrete or answers.get("read on") == "concrete"
    for question in _questions(site):
        known = question.word in found.head.said or question.word in answers
        # by eye only where the sense is new too: it is the sense that it tells
        aside = question.word in BY_EYE and "sense" in found.head.said
        if not known and not aside and (question.word != "plate" or concrete):
            return question
    return None


def take(site: Site, text: str, answers: Answers, question: Question, typed: str) -> Answers:
    """*answers* with what was *typed* for *question*. Raises ``JobRefused`` where that is no answer."""
    value = typed.strip() or question.default
    if not value and question.needed:
        right = "Measure it and type it, like 3/8; type 0 if there is none."
        raise JobRefused([Problem(site.file, question.word, "", question.needed, right)])
    if typed.strip()[:1].isdigit() and question.word != "plate" and site.column(value) is None:
        right = "Readings come after these questions. Enter goes on."
        raise JobRefused([Problem(site.file, question.word, value, "is no answer to that.", right)])
    if question.choices and typed.strip():
        value = _choice(site, question, value)
    elif question.word in BY_EYE:
        value = site.column(value) or value
    more = {**answers, question.word: value}
    site.read(begun(text, more))
    return more


def aside(site: Site, answers: Answers, typed: str) -> tuple[Answers, str] | None:
    """What a word that is no answer does, typed instead of one: what is answered then, and what is said about it.
    Nothing where it is none; raises ``EOFError`` where it ends all."""
    word = typed.strip().lower()
    if site.column(typed.strip()):
        return None
    if word in ("?", "help"):
        return answers, HELP
    if word in ("back", "<"):
        return (dict(list(answers.items())[:-1]), "") if answers else (answers, FIRST)
    if word in ENDS or word == "done":
        raise EOFError
    return None


def _choice(site: Site, question: Question, typed: str) -> str:
    small = ALSO.get(typed.lower(), typed.lower())
    fits = [value for name, value in question.choices if name.startswith(small)]
    if len(fits) == 1:
        return fits[0]
    right = nearest(small, [name for name, _ in question.choices])
    raise JobRefused([Problem(site.file, question.word, typed, "is no answer to that.", right)])


def begun(text: str, answers: Answers) -> str:
    """*text* that says *answers* itself, and has a heading."""
    return book_lines.begun(text, [(word, value) for word, value in answers.items() if value])
