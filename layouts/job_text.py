"""The text of a job file, as a person would have written it: parts in the order of a building, short comments.

What was given stands there; what was not is left out, as its default is as good, or stands as a comment that only wants
its # taken away, where one often changes it. All words are from the specs of the fields and from the tables below.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from textwrap import wrap
from typing import Any

from layouts.fields import NAMES, OPENING, PARTS, Spec
from layouts.fields_openings import OpeningPart

Say = Callable[[str], str]
ASIDE = 28  # letters of a field and its value before the comment beside it
WIDEST = 118
LONGEST_HELP = 84
TAB = "    "
NUMBERED = re.compile(rf"{OPENING} [0-9]{{1,4}}")

HEAD = (
    "Change it as you like; `rodwright check` says what is wrong. A line that begins with # is not read: "
    "take the # away and it is."
)
BARE = {
    "in": 'A length stands in double quotes and needs no last inch mark, like "13\'-6 1/2"; a bare number is inches.',
    "mm": 'A length stands in double quotes, like "3650 mm"; a bare number is mm.',
}
QUOTED = re.compile(r'"[^"]*"')
UNBROKEN = "\N{NO-BREAK SPACE}"  # textwrap breaks at blanks alone
COMMENT = 101  # letters of a line of the comment at the head
TITLES = {
    "job": "The job",
    "building": "The building, seen from above",
    "column": "The columns, at their real size",
    "truss": "The trusses",
    "roof": "The roof over them",
    "tops": "How the columns end at the top",
    "carrier": "Boards from column to column that carry the trusses",
    "grade": "The grade line: the level line along the bottom of the grade board; every height is above it",
    "readings": "How far readings are believed",
    "girts": "The rows of girts",
    "corners": "The corners",
    "wainscot": "A wainscot",
    "cladding": "Sheets on walls and roof",
    "lumber": "What the yard has",
    "wood": "What the lumber weighs",
    "lift": "How the walls go up",
    "nails": "Nails: only what the plan says",
    OPENING: "Doors and windows: wall by wall as seen from outside",
    NAMES: "Your own names for columns",
}
# what one often changes: an example in inches and in mm, or the default where there is none
OFTEN: dict[str, tuple[Any, Any]] = {
    "job.date": (date(2026, 5, 14), date(2026, 5, 14)),
    "job.paper": (None, None),
    "building.front_faces": ("the road", "the road"),
    "column.treated": (None, None),
    "truss.thickness": (None, None),
    "tops.endwall_ears": (None, None),
    "tops.clearance": (None, None),
    "grade.line": (None, None),
    "grade.least": (None, None),
    "grade.reference": ("A1", "A1"),
    "girts.edge": (None, None),
    "girts.rake": ("2x6", "45x140"),
    "corners.board": ("2x6", "45x140"),
    "wainscot.nailer": ("2x6", "45x140"),
    "cladding.cover": ("36", "1000 mm"),
    "lumber.prices": (["2x4 16' 9.80"], ["45x90 4.8m 9.80"]),
    "wood.species": (None, None),
    "lift.lies": (None, None),
    "nails.girt": ("2 of 4 x .177 ring HDG", "2 of 100 x 4.5 ring HDG"),
}


def bare(values: Mapping[str, Any]) -> str:
    """TOML of dotted names and raw values, whatever they are, without a comment: for the reader."""
    head: list[str] = []
    parts: dict[str, list[str]] = {}
    for path, value in values.items():
        part, dot, key = path.partition(".")
        line = f"{_key(key if dot else part)} = {toml(value)}"
        if dot:
            parts.setdefault(part, []).append(line)
        else:
            head.append(line)
    tables = [(f"[{_key(p)}]", lines) for p, lines in parts.items() if not NUMBERED.fullmatch(p)]
    tables += [(f"[[{OPENING}]]", parts[p]) for p in _numbered(parts)]
    return "\n".join([*head, *(line for title, lines in tables for line in (title, *lines))]) + "\n"


def write(values: Mapping[str, Any], title: str = "", say: Say = str) -> str:
    """A job file of *values*, which the reader takes; *title* is its first line, and *say* puts comments into another
    language. The reader makes the same of both."""
    metric = values.get("job.units") == "metric"
    lines = [f"# {title}"] * bool(title) + _commented(say(HEAD), say(BARE["mm" if metric else "in"]))
    for name, part in PARTS.items():
        lines += _table(f"[{name}]", say(TITLES[name]), _lines(values, name, part.specs, metric, say))
    told: set[str] = set()
    for i, name in enumerate(_numbered(path.partition(".")[0] for path in values)):
        rows = _lines(values, name, OpeningPart.specs, metric, say, told)
        lines += _table(f"[[{OPENING}]]", say(TITLES[OPENING]) * (i == 0), rows)
    own = [(f"{_key(path.partition('.')[2])} = {toml(v)}", "") for path, v in values.items() if path[:6] == "names."]
    lines += _table(f"[{NAMES}]", say(TITLES[NAMES]), own)
    return "\n".join(lines) + "\n"


def _commented(*texts: str) -> list[str]:
    """Texts as comments, one after the other; what stands in quotes is never parted."""
    whole = QUOTED.sub(lambda found: found[0].replace(" ", UNBROKEN), " ".join(texts))
    lines = wrap(whole, COMMENT, break_long_words=False, break_on_hyphens=False)
    return [f"# {line.replace(UNBROKEN, ' ')}" for line in lines]


def _numbered(parts: Iterable[str]) -> list[str]:
    """The openings among names of parts, by their numbers."""
    return sorted({p for p in parts if NUMBERED.fullmatch(p)}, key=lambda p: int(p.split()[1]))


def _table(head: str, title: str, told: Iterable[tuple[str, str]]) -> list[str]:
    """A part: its title, its head, and fields with what they mean beside them or, where that is too long, above."""
    rows = list(told)
    if not rows:
        return []
    aside = max((len(line) for line, help_ in rows if help_ and len(line) <= 2 * ASIDE), default=0)
    lines = ["", *([f"# {title}"] if title else []), head]
    for line, help_ in rows:
        beside = f"{line.ljust(max(aside, ASIDE))}  # {help_}" if "\n" not in line else " " * (WIDEST + 1)
        if not help_:
            lines.append(line)
        elif len(beside) <= WIDEST:
            lines.append(beside)
        else:
            lines += [f"# {help_}", line]
    return lines


def _lines(
    values: Mapping[str, Any],
    part: str,
    fields: Mapping[str, Spec],
    metric: bool,
    say: Say,
    told: set[str] | None = None,
) -> Iterator[tuple[str, str]]:
    """Each field of a part that stands there, and what it means unless that is *told* already."""
    for key, spec in fields.items():
        path = f"{part}.{key}"
        if path in values:
            yield _listed(f"{key} = ", values[path]), "" if told and key in told else short(spec, say)
            if told is not None:
                told.add(key)
        elif path in OFTEN:
            value = OFTEN[path][metric]
            if value is None:
                value = spec.metric if metric and spec.metric is not None else spec.default
            value = value.removesuffix('"') if isinstance(value, str) else value
            yield f"# {key} = {toml(value)}", short(spec, say)


def _listed(head: str, value: Any) -> str:
    """A field and its value; a long list goes over several lines."""
    line = head + toml(value)
    if len(line) <= WIDEST or not isinstance(value, (list, tuple)):
        return line
    lines = [""]
    for item in (f"{toml(v)}," for v in value):
        if len(f"{TAB}{lines[-1]} {item}") > WIDEST:
            lines.append("")
        lines[-1] = f"{lines[-1]} {item}".strip()
    return "\n".join([f"{head}[", *(TAB + line for line in lines), "]"])


def short(spec: Spec, say: Say = str) -> str:
    """What a field means, in a few words for a comment: its first sentence as far as it is short, and its choices."""
    first = re.split(r"(?<=[.!])\s", say(spec.help), maxsplit=1)[0].rstrip(".").replace("`", "")
    choices = ", ".join(spec.choices)
    if len(first) > LONGEST_HELP:
        stops = [m.start() for m in re.finditer(r"[,:;]\s", first) if m.start() < LONGEST_HELP]
        first = choices or first[: stops[-1] if stops else None]
    elif not all(c in first for c in spec.choices) and len(first) + len(choices) < LONGEST_HELP:
        first = f"{first}: {choices}"
    if spec.kind == "nailing":
        first = first.partition(":")[0]  # the example is in inches
    return first if first.split()[0][1:].isupper() else first[:1].lower() + first[1:]


# --- values ---------------------------------------------------------------------------------------------------------


def toml(value: Any) -> str:
    """A raw value in TOML."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(toml(v) for v in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_key(str(k))} = {toml(v)}" for k, v in value.items()) + "}"
    if isinstance(value, (int, float)):
        return repr(value)
    return value.isoformat() if isinstance(value, date) else _quoted(str(value))


def _quoted(text: str) -> str:
    """A text in double quotes; in single ones where it holds inch marks, so that nothing has to be escaped."""
    text = "".join("\N{REPLACEMENT CHARACTER}" if 0xD800 <= ord(c) < 0xE000 else c for c in text)  # half a letter
    plain = text.isprintable() and "\\" not in text
    if plain and '"' not in text:
        return f'"{text}"'
    if plain and "'" not in text:
        return f"'{text}'"
    made = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else f"\\U{ord(c):08x}" for c in made) + '"'


def _key(text: str) -> str:
    return text if re.fullmatch("[A-Za-z0-9_-]+", text) else _quoted(text)
