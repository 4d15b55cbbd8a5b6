"""What is said while a job is asked for: prompts, pictures in words, help, and the words a man may type."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from layouts.fields import Job, Spec
from layouts.lengths import Style, show
from layouts.plan import Plan, lay
from layouts.problems import JobRefused, Problem

ALL_RIGHT = "Right as it stands? yes, or no to go through it [yes]: "
NAME_ONE = "Name of one, or Enter for no more [no more]: "
NO_SUCH = "There is nothing to go to by that name. A question's number, or a field like girts.step."
WALLS_FIRST = "Doors and windows stand in walls, and those are not known yet: answer question {0} first."
ANOTHER = "{0} is another field than the one that is asked for."
GO_THERE = "Type go {0} for it."
FIRST = "This is the first question."
YES_OR_NO = "{0} is neither yes nor no. Enter is yes; no goes through it step by step."
SIDE_PAST = "The sidewalls' boards run past at the corners: those of a lean-to's endwalls end at the standing wall."
LENGTHS_ANEW = "Lengths that were given before are asked for anew."
NOT_YET = "The whole of it cannot be built as it stands:"
DROPPED = "{0} is taken out."
NO_OPENING = "{0} is no door or window of this job. {1}"
THERE = "There so far: {0}. Type a name to change that one, or drop and a name to take it out."
GONE_WITH = "Left out, as it does not go with that: {0}."
LINE = (
    "Enter takes what stands in [ ]. ? tells more; back goes one question back; go 6 goes to question 6; quit ends, and"
    " nothing is written."
)
WORDS = {
    "?": "more about the question",
    "back": "to the question before; < too, where back is a side of the building",
    "go 6": "to question 6, or to a field like go girts.step",
    "quit": "ends, and nothing is written; Ctrl-C too",
}
HOW = {
    "text": "Plain words.",
    "name": "A short name.",
    "choice": "The first letters of a choice are enough.",
    "count": "A whole number.",
    "pitch": "Like 4/12, 4 1/2/12, 18.5 deg or 1:4.",
    "bays": "A number, or lengths with commas between.",
    "date": "Like 2026-05-14.",
}
LENGTH = {
    "in": "A length like 13'-6 1/2, 41 3/8, 3 ft 2 in or 3650 mm; a bare number is inches.",
    "mm": "A length like 3650, 3.65 m or 12'-6; a bare number is mm.",
}
SECTION = {"in": "A board like 2x6, or its real size, like 1 1/2 x 5 3/8.", "mm": "Its real size in mm, like 45x140."}
EXAMPLES = {
    "in": {"at": "9'", "eave": "12'", "girt": "2x4", "board": "2x6", "beam": "2x12"},
    "mm": {"at": "2700", "eave": "3600", "girt": "45x90", "board": "45x140", "beam": "45x290"},
}
SIDES = {
    "left": "on your left as you stand outside before the front",
    "right": "on your right there",
    "front": "the front",
    "back": "the back",
}


def greeting(file: str, count: int, old: str) -> tuple[str, ...]:
    """What is going to happen, and the words."""
    begun = f" It begins as {old}: Enter keeps what stands there." if old else ""
    return (f"{count} questions, and {file} is written at the end.{begun}", LINE)


def heading(number: int, count: int, title: str) -> str:
    """Over a question."""
    return f"{number} of {count}. {title.upper()}"


def asked(ask: str, spec: Spec, offered: str, choices: Sequence[str] = ()) -> str:
    """A prompt: what is asked, its choices (else the field's own), and what Enter takes."""
    if spec.kind == "choice" and not _said_in(ask, spec.choices):
        choices = spec.choices
    told = f" {any_of(choices)}" if choices else ""
    enter = f" [{offered}]" if offered else ""
    if not told:
        return f"{ask}{enter}: "
    return f"{ask}{'' if ask.endswith(('the', 'are', 'past', 'on')) else ':'}{told}?{enter} "


def _said_in(ask: str, choices: Sequence[str]) -> bool:
    """Whether a prompt says its choices itself."""
    return sum(c in ask.lower() for c in choices) > 1


def any_of(choices: Sequence[str]) -> str:
    """``edge, flat or flush``."""
    return f"{', '.join(choices[:-1])} or {choices[-1]}" if len(choices) > 1 else "".join(choices)


def shown(raw: Any, spec: Spec | None, style: Style) -> str:
    """A raw value as it is told: lengths with their last inch mark."""
    if raw is None:
        return ""
    if isinstance(raw, (list, tuple)):
        return ", ".join(shown(item, spec, style) for item in raw)
    text = str(raw)
    length = spec is not None and spec.kind in ("length", "lengths", "bays", "height", "line")
    if length and style.unit == "in" and isinstance(raw, str) and text[-1:].isdigit():
        return f'{text}"'
    return text


def told(problem: Problem, here: bool) -> str:
    """What is wrong, as the job reader says it; *here*: with the answer just given."""
    if here and not problem.text:
        head = f"{problem.place.rpartition('.')[2]} "  # bays add up to, width must be given
    else:
        head = problem.text if here else f"{problem.place}{f' = {problem.text}' if problem.text else ''}"
        head = f"{head}: "
    return f"! {head}{problem.wrong} {_FIELD_GIVEN.sub(_typed_alone, problem.right)}".rstrip()


_FIELD_GIVEN = re.compile(r'(?P<said>For example: )\w+ = (?:"(?P<quoted>[^"]*)"|(?P<bare>\w+))|\bbay = (?P<bay>\d)')
"""A value with its field, as it would stand in a job file."""


def _typed_alone(found: re.Match[str]) -> str:
    """The same as it is typed where the field is asked for."""
    if found["bay"]:
        return f"Bay {found['bay']}"
    return f"{found['said']}{found['bare'] or found['quoted']}"


def more(path: str, spec: Spec, style: Style, none: bool) -> tuple[str, ...]:
    """More about a field: its name in the job file, its meaning, how it is written, its limits; whether it may be left
    out."""
    how = HOW.get(spec.kind, "")
    if spec.kind in ("length", "lengths", "height", "line"):
        how = LENGTH[style.unit]
    if spec.kind == "section":
        how = SECTION[style.unit]
    bounds = ""
    if spec.most and spec.kind in ("length", "lengths", "bays"):
        bounds = f" From {show(spec.least, style)} to {show(spec.most, style)}."
    elif spec.most and spec.kind == "count":
        bounds = f" From {spec.least:g} to {spec.most:g}."
    out = " Type none to leave it out." if none else ""
    quoted = ", ".join(f'"{choice}"' for choice in spec.choices)
    choices = f" Choose from {quoted}." if quoted else ""
    return (f"  {path} in the job file. {spec.help}{choices}", f"  {how}{bounds}{out}".rstrip())


def picture(text: str, job: Job) -> str:
    """A picture in words, with this job's walls, its level and places in its unit where it speaks of them."""
    if "{" not in text:
        return text
    level = "grade line" if job.truss.heights_from == "grade line" else "finished floor"
    return text.format(walls=walls(job), level=level, **EXAMPLES[job.style.unit])


def walls(job: Job) -> str:
    """The walls of a job by their names, and where they are."""
    plan = plan_of(job)
    if plan is None:
        return "A is the sidewall on your left as you stand outside before the front, 1 the front"
    return "; ".join(f"{w.name} is {SIDES[w.side]}" for w in plan.walls)


def plan_of(job: Job) -> Plan | None:
    """The plan, where the job has one already."""
    try:
        return lay(job)
    except JobRefused:
        return None


def summary(lines: Sequence[tuple[str, str]]) -> tuple[str, ...]:
    """What a group would be, one step a line."""
    wide = max((len(ask) for ask, _ in lines), default=0)
    return tuple(f"  {ask:<{wide}}  {text}" for ask, text in lines)


def next_steps(file: str, readings: str, there: bool, out: str) -> tuple[str, ...]:
    """What is done with a job file that has been written. *there*: its readings are, already."""
    job, field, packet = (_spaced(name) for name in (file, f"{out}-field", f"{out}-packet"))
    read = f"{readings} is there already: it is taken for this job's readings." if there else ""
    return (
        f"{file} is written. Open it in any editor: every line says what it is.",
        *([f"! {read}"] if read else []),
        "",
        "Next:",
        f"  rodwright print {job} --only field --out {field}",
        "      the field sheet: columns in walking order, boxes for the readings",
        f"  rodwright shoot {job}",
        f"      asks for the readings at the brackets and keeps them in {readings}",
        f"  rodwright check {job}",
        "      warnings first, then every number",
        f"  rodwright print {job} --out {packet}",
        "      the packet: rods, tags, walls and cut sheets",
    )


def _spaced(name: str) -> str:
    return f'"{name}"' if " " in name else name
