"""Whole conversations of ``start`` and ``shoot``, word by word. ``python tests/test_dialogues.py`` writes them anew.

A file of ``tests/dialogues`` is script and expectation: what was typed stands behind the ``>`` of its prompt, what was
said is indented. Its first two parts are written by hand and stay: with what it begins, and what the file that comes
out means to whoever reads it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import told
from shooters import site
from starters import asked

from layouts import job as job_reader
from layouts import start_words
from layouts.job_values import flat, value_of
from layouts.lumber import Section
from layouts.problems import JobRefused
from layouts.readings import of
from layouts.shooting import prompt, start
from layouts.shooting_end import ending, greeting
from layouts.shooting_start import Site, begun, take, to_ask
from layouts.shooting_steps import Echo, answer
from layouts.start_questions import GROUPS
from sheets import own_words

FOLDER = Path(__file__).parent / "dialogues"
NAMES = sorted(path.stem for path in FOLDER.glob("*.txt"))
PARTS = ("begins", "means", "file", "talk", "written")
"""*begins*: what it begins with, JSON; *means*: a field or a column, and what is read of it in the end; *file*: the
readings at the beginning; *talk*: what is said; *written*: the job or the readings at the end."""
PENS: dict[str, dict[str, Any]] = {
    "inches": {
        "job.name": "Kestrel lambing pen",
        "building.width": "20'",
        "building.length": "24'",
        "building.bays": 3,
        "building.front_columns": ["10'"],
        "building.back_columns": ["10'"],
        "truss.bearing": "9'",
        "truss.heel": "8",
        "truss.pitch": "4/12",
    },
    "mm": {
        "job.name": "Kestrel lambing pen",
        "job.units": "metric",
        "building.width": 6000,
        "building.length": 7200,
        "building.bays": 3,
        "building.front_columns": [3000],
        "building.back_columns": [3000],
        "truss.bearing": 2700,
        "truss.heel": 200,
        "truss.pitch": "4/12",
    },
}
"""A building of ten columns."""


@dataclass(frozen=True)
class Dialogue:
    """A file by its parts, and the lines that are typed in it."""

    parts: dict[str, str]

    @property
    def head(self) -> dict[str, Any]:
        """What it begins with."""
        return dict(json.loads(self.parts["begins"]))

    @property
    def means(self) -> dict[str, Any]:
        """What is read in the end."""
        pairs = (line.split(": ", 1) for line in self.parts["means"].splitlines())
        return {name: json.loads(value) for name, value in pairs}

    @property
    def typed(self) -> list[str]:
        """The lines typed."""
        lines = [line for line in self.parts["talk"].splitlines() if not line.startswith(" ") and ">" in line]
        return [line.partition(">")[2].removeprefix(" ") for line in lines]


def read(name: str) -> Dialogue:
    """A file of the folder."""
    cut = re.split(r"^== (\w+)\n", (FOLDER / f"{name}.txt").read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert cut[0] == ""
    assert set(cut[1::2]) <= set(PARTS), cut[1::2]
    return Dialogue(dict.fromkeys(PARTS, "") | dict(zip(cut[1::2], cut[2::2], strict=True)))


def written(parts: dict[str, str]) -> str:
    """The text of such a file."""
    return "".join(f"== {part}\n{parts[part]}" for part in PARTS if parts[part] or part in ("talk", "written"))


def spoken(said: Iterable[str | Echo]) -> Iterator[str]:
    """What is said, indented; a number that is told back large stands alone."""
    for item in said:
        for line in [item] if isinstance(item, str) else [f"## {item.number}", *item.lines]:
            yield f"  {line}".rstrip().replace("`", "")  # as a terminal shows it


def question(asks: str, line: str) -> str:
    """A prompt and what is typed at it."""
    assert ">" not in asks
    return f"{asks}> {line}".rstrip()


# --- a job asked for ------------------------------------------------------------------------------------------------


def started(told_: Dialogue) -> dict[str, str]:
    """The parts of a job that is asked for, as they come out."""
    head, lines = told_.head, told_.typed
    old, file = head.get("old", ""), head.get("file", "job.toml")
    found = asked(lines, head.get("values"), bool(old))
    first = found.said[: len(found.said) - sum(map(len, found.heard))]
    talk = [*spoken(start_words.greeting(file, len(GROUPS), old)), *spoken(first)]
    for asks, line, said in zip(found.asked, lines, found.heard, strict=True):
        talk += [question(asks, line), *spoken(said)]
    if not found.over:
        talk.append(found.next.rstrip())
    elif found.state.text:
        base = file.removesuffix(".toml")
        talk += ["", *spoken(start_words.next_steps(file, f"{base}.csv", head.get("there", False), base))]
    return {"talk": "\n".join([*talk, ""]), "written": found.state.text}


def plain(value: Any) -> Any:
    """A value of a job as JSON has it; of a board its name."""
    if isinstance(value, Section):
        return value.name
    return list(value) if isinstance(value, tuple) else value


def hold_job(means: dict[str, Any], text: str) -> None:
    """The job that is written says what is meant, and what is meant to be left out is not in it."""
    job, values = job_reader.read(text), flat(text)
    for path, meant in means.items():
        if meant == "left out":
            assert path not in values, path
        else:
            assert plain(value_of(job, path)) == pytest.approx(meant), path


# --- a round shot ---------------------------------------------------------------------------------------------------


def pen(head: dict[str, Any]) -> Site:
    """The building that is shot."""
    return site(head.get("job"), PENS[head["pen"]], head.get("round", "1"))


def shot(told_: Dialogue) -> dict[str, str]:
    """The parts of a round that is shot, as they come out."""
    where, lines, text, talk = pen(told_.head), told_.typed, told_.parts["file"], list[str]()
    answers: dict[str, str] = {}
    while asks := to_ask(where, text, answers):
        talk.append(question(asks.prompt, lines[0]))
        try:
            answers = dict(take(where, text, answers, asks, lines.pop(0)))
        except JobRefused as refused:
            talk += spoken(f"{p.text} {p.wrong} {p.right}".strip() for p in refused.problems)
    state, over = start(where, begun(text, answers), told_.head.get("setup", "")), False
    talk += spoken(greeting(state))
    for line in lines:
        assert not over, f"it was over before {line!r}"
        talk.append(question(prompt(state), line))
        step = answer(state, line)
        told.session(step.said, line, own_words.words(where.job) | set(step.state.book.notes.values()))
        state, over = step.state, step.over
        talk += spoken(step.said)
    talk += [*([] if over else [prompt(state).rstrip()]), "", *spoken(ending(state))]
    return {"talk": "\n".join([*talk, ""]), "written": state.text}


def hold_readings(told_: Dialogue, text: str) -> None:
    """What the layout takes of the file, or refuses, is what is meant; no reading is in it that nobody typed."""
    where, means = pen(told_.head), told_.means
    book = where.read(text)
    if "refused" in means:
        with pytest.raises(JobRefused, match=means["refused"]):
            of(book, where.job)
    else:
        assert dict(of(book, where.job).values) == pytest.approx(means, abs=1e-9)
    before = where.read(told_.parts["file"]).sights
    assert {s.text for s in book.sights} <= {re.split(" note ", line)[0] for line in told_.typed} | {
        s.text for s in before
    }


# --- held -----------------------------------------------------------------------------------------------------------


def played(told_: Dialogue) -> dict[str, str]:
    """Its parts as they come out today."""
    return told_.parts | (shot(told_) if "pen" in told_.head else started(told_))


@pytest.mark.parametrize("name", NAMES)
def test_a_dialogue_goes_word_by_word(name: str) -> None:
    kept = read(name)
    parts = played(kept)
    assert written(parts) == (FOLDER / f"{name}.txt").read_text(encoding="utf-8"), (
        "look, python tests/test_dialogues.py"
    )
    assert kept.means or not parts["written"], "say by hand what its file means"
    if kept.means and "pen" in kept.head:
        hold_readings(kept, parts["written"])
    elif kept.means:
        hold_job(kept.means, parts["written"])


if __name__ == "__main__":
    for each in NAMES:
        (FOLDER / f"{each}.txt").write_text(written(played(read(each))), encoding="utf-8")
        print(each)
