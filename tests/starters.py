"""A job asked for by a script: lines typed, what was asked and said, and the job that comes of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from layouts import job as job_reader
from layouts.fields import Job
from layouts.start import Site, Start, begun, prompt
from layouts.start_next import first
from layouts.start_steps import answer


@dataclass
class Asked:
    """Where a script has led to: *asked* is every prompt, *said* every line that was said, *heard* what was said after
    each line."""

    state: Start
    over: bool
    asked: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    heard: list[list[str]] = field(default_factory=list)

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


def asked(lines: Iterable[str], values: Mapping[str, Any] | None = None, old: bool = False, **more: Any) -> Asked:
    """The session in which *lines* are typed, up to its end. *values*: of an *old* job, or what flags have said."""
    given = dict(values or {})
    done = frozenset({"job.units"} if old else given)
    step = first(begun(Site(old=old, **more), given, done))
    found = Asked(step.state, step.over, said=list(step.said))
    for line in lines:
        assert not found.over, f"it was over before {line!r}"
        found.asked.append(prompt(found.state))
        step = answer(found.state, line)
        found.state, found.over = step.state, step.over
        found.said += step.said
        found.heard.append(list(step.said))
    return found


def by_prompt(answers: Mapping[str, Any], values: Mapping[str, Any] | None = None, old: bool = False) -> Asked:
    """The session in which each prompt that begins with a word of *answers* gets its answer, a list one after another,
    and every other one Enter; every answer is wanted."""
    left = {key: list(a) if isinstance(a, list) else [a] for key, a in answers.items()}
    given = dict(values or {})
    step = first(begun(Site(old=old), given, frozenset({"job.units"} if old else given)))
    found = Asked(step.state, step.over, said=list(step.said))
    while not found.over:
        assert len(found.asked) < 200, found.asked[-4:]
        now = prompt(found.state)
        key = next((k for k in left if now.startswith(k) and left[k]), "")
        line = left[key].pop(0) if key else ""
        step = answer(found.state, line)
        assert not any(said.startswith("!") for said in step.said), (now, line, step.said)
        found.asked.append(now)
        found.state, found.over = step.state, step.over
        found.said += step.said
    assert not any(left.values()), left
    return found
