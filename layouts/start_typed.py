"""What was typed for a field in the manner of a job file, ``bays = 6``: the answer in it."""

from __future__ import annotations

from layouts import start_words as words
from layouts.fields import OPENING, PARTS
from layouts.fields_openings import OpeningPart
from layouts.job_values import number_of, spec_of, typed
from layouts.start_question import Question

NAMED = f"{OPENING}.name"


def answer_in(plain: str, path: str, question: Question) -> str:
    """The answer in *plain*, where it begins with ``=`` and the name of the field at *path*, or of one the *question*
    may give: ``6`` of ``bays = 6``, ``bay 2`` of ``bay = 2``. Else *plain*. Quotes stay: whoever reads the value takes
    them off."""
    name, equals, value = plain.partition("=")
    word, value = name.strip().lower(), value.strip()
    if not equals or not value:
        return plain
    n = number_of(path)
    for either in question.either:
        if word == either.word or (either.field != question.field and word in _names(either.field, n)):
            return f"{either.word} {value}"
    return value if word in (*_names(path, n), *_names(question.field, n)) else plain


def other_in(plain: str) -> str:
    """What to say of *plain*, an answer in plain words, where it gives a field by its name; else nothing."""
    name, equals, value = plain.partition("=")
    word = name.strip().lower()
    if not equals or not value.strip():
        return ""
    fields = [word] if spec_of(word) else [f"{p}.{word}" for p, part in PARTS.items() if word in part.specs]
    if not fields and word not in OpeningPart.specs:
        return ""
    there = f" {words.GO_THERE.format(fields[0])}" if len(fields) == 1 else ""
    return words.ANOTHER.format(name.strip()) + there


def name_in(plain: str) -> str:
    """The name of a door or window in *plain*, which may be ``name = "OH"`` or have its quotes."""
    given = typed(answer_in(plain, NAMED, Question(NAMED, "", "")), None)
    return given if isinstance(given, str) else plain


def _names(field: str, n: int) -> tuple[str, ...]:
    """How a field is called: with its part, in a file under its heading."""
    key = field.rpartition(".")[2]
    return (field, key, f"opening.{key}") if n else (field, key)
