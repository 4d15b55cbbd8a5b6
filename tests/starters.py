"""A job asked for by a script: lines typed, what was asked and said, and the job that comes of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import told

from layouts import job as job_reader
from layouts.fields import Job
from layouts.start import Site, Start, begun, prompt
from layouts.start_next import first
from layouts.start_steps import answer
from sheets import own_words


@dataclass(frozen=True)
class Asked:
    """Where a script has led to: *asked* is every prompt, *said* every line that was said, *heard* what was said after
    each line."""

    state: Start
    over: bool
    asked: tuple[str, ...]
    said: tuple[str, ...]
    heard: tuple[tuple[str, ...], ...]

    @property
    def text(self) -> str:
        """The job file."""
        assert self.over, f"still asks {prompt(self.state)!r} after {self.said[-3:]}"
        return self.state.text

    @property
    def job(self) -> Job:
        """The job in it."""
        return job_reader.read(self.text)

    @property
    def next(self) -> str:
        """What is asked now."""
        return prompt(self.state)


def asked(lines: Iterable[str], values: Mapping[str, Any] | None = None, old: bool = False) -> Asked:
    """The session in which *lines* are typed, up to its end. *values*: of an *old* job, or what flags have said."""
    given = dict(values or {})
    key = repr((given, old))
    kept = tuple(lines)
    if (key, kept) not in _KNOWN:
        _KNOWN[key, kept] = _asked(kept, given, old)
    return _KNOWN[key, kept]


_KNOWN: dict[tuple[str, tuple[str, ...]], Asked] = {}  # states are values: many scripts begin alike


def _asked(lines: tuple[str, ...], given: dict[str, Any], old: bool) -> Asked:
    if not lines:
        step = first(begun(Site(old=old), given, frozenset({"job.units"} if old else given)))
        return Asked(step.state, step.over, (), step.said, ())
    before = asked(lines[:-1], given, old)
    assert not before.over, f"it was over before {lines[-1]!r}"
    step = answer(before.state, lines[-1])
    told.session(step.said, lines[-1], own_words.words(step.state.job))
    return Asked(
        step.state,
        step.over,
        (*before.asked, prompt(before.state)),
        (*before.said, *step.said),
        (*before.heard, step.said),
    )


def by_prompt(answers: Mapping[str, Any], values: Mapping[str, Any] | None = None, old: bool = False) -> Asked:
    """The session in which each prompt that begins with a word of *answers* gets its answer, a list one after another,
    and every other one Enter; every answer is wanted."""
    left = {key: list(a) if isinstance(a, list) else [a] for key, a in answers.items()}
    lines: list[str] = []
    found = asked(lines, values, old)
    while not found.over:
        assert len(lines) < 200, found.asked[-4:]
        key = next((k for k in left if found.next.startswith(k) and left[k]), "")
        lines.append(left[key].pop(0) if key else "")
        now, found = found.next, asked(lines, values, old)
        assert not any(said.startswith("!") for said in found.heard[-1]), (now, lines[-1], found.heard[-1])
    assert not any(left.values()), left
    return found
