"""A job file that is written reads back as the job that was asked for, and looks as if a person had written it."""

from __future__ import annotations

import re
import tomllib
from itertools import pairwise
from pathlib import Path
from typing import Any

import jobs
import pytest
import told
from effort import examples
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import BASE, METRIC, toml_text
from stress import CASES
from test_combinations import ALL, PROMISED, changes

from layouts import job as job_reader
from layouts import job_text
from layouts.job_values import flat, look, renumbered, set_by, spec_of, tidied, typed, wood
from layouts.lengths import Style, parse
from layouts.spec import Spec

GALLERY = Path(__file__).parents[1] / "gallery"


def nothing(_: Any) -> list[Any]:
    return []


def rewritten(text: str) -> str:
    """The job file made of the values in another one."""
    values = flat(text)
    return job_text.write(tidied(values, look(values, "job.toml", nothing)), "A job")


def same(text: str) -> None:
    """The same, held against what the reader makes of the other one: every field, to the last bit."""
    values = flat(text)
    found = look(values, "job.toml", nothing)
    assert not found.problems
    assert job_reader.read(job_text.write(tidied(values, found))) == found.job


def test_a_length_in_the_comment_stands_on_one_line() -> None:
    lines = job_text.write({"job.name": "x"}).splitlines()
    assert any('"13\'-6 1/2"' in line for line in lines)
    assert all(len(line) <= job_text.COMMENT + 2 for line in lines[:3])


@pytest.mark.parametrize("name", ["larkspur", "cooper"])
def test_the_gallerys_jobs(name: str) -> None:
    text = (GALLERY / name / "job.toml").read_text(encoding="utf-8")
    made = rewritten(text)
    assert job_reader.read(made) == job_reader.read(text)
    assert rewritten(made) == made


@pytest.mark.parametrize("name", list(CASES))
def test_jobs_that_press_on_the_sheets(name: str) -> None:
    same(jobs.job_text(CASES[name].changes, base=CASES[name].base or BASE))


def test_roofs_on_seats() -> None:
    for i, case in enumerate(c for c in ALL[::7] if not PROMISED[c]):
        roof, make, seat, girts = case
        metric = i % 2 == 1
        same(jobs.job_text(changes(roof, seat, girts, make, metric), base=METRIC if metric else BASE))


@settings(max_examples=examples(12))
@given(st.one_of(jobs.job_fields(), jobs.placed_fields()))
def test_any_job_reads_back(fields: dict[str, Any]) -> None:
    same(toml_text(fields))


SIGNS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
RAW = st.recursive(st.one_of(SIGNS, st.integers(-(10**6), 10**6), st.booleans()), lambda r: st.lists(r, max_size=3))


@given(st.dictionaries(st.tuples(SIGNS, SIGNS).map(lambda p: f"{p[0].replace('.', '')}.{p[1]}"), RAW, max_size=5))
def test_whatever_flags_say_is_valid_toml(values: dict[str, Any]) -> None:
    read = tomllib.loads(job_text.bare(values))
    for path, value in values.items():
        part, _, key = path.partition(".")
        assert read[part][key] == value


# --- as a person writes ---------------------------------------------------------------------------------------------

IN, MM = Style("in"), Style("mm")


@pytest.mark.parametrize(
    ("typed_in", "style", "written"),
    [
        ("162.5", IN, "13'-6 1/2"),
        ("13' 6-1/2\"", IN, "13'-6 1/2"),
        ('41 3/8"', IN, "41 3/8"),
        ("4.5", IN, "4 1/2"),
        ("0.125", IN, "1/8"),
        ("24", IN, "24"),
        ("3'", IN, "3'"),
        ("30 ft", IN, "30'"),
        (360, IN, "30'"),
        ("4.04 ft", IN, "4.04 ft"),  # 48.48 in is on no tape
        ("3650 mm", IN, "3650 mm"),
        ("254 mm", IN, "254 mm"),
        ("0", IN, "0"),
        ("3.65 m", MM, "3650 mm"),
        (3650, MM, "3650 mm"),
        ('4 1/2"', MM, '4 1/2"'),
        ("12.5", MM, "12.5"),
    ],
)
def test_lengths_are_written_as_on_wood(typed_in: Any, style: Style, written: str) -> None:
    inches = parse(str(typed_in), style.unit)
    assert wood(typed_in, inches, style) == written
    assert parse(written, style.unit) == inches


@given(st.integers(0, 40 * 12 * 64), st.sampled_from([IN, MM]))
def test_a_length_written_is_the_length_that_was_meant(sixty_fourths: int, style: Style) -> None:
    text = f"{sixty_fourths / 64} in"
    inches = parse(text, style.unit)
    assert parse(wood(text, inches, style), style.unit) == inches


def test_the_demo_as_it_is_written() -> None:
    made = rewritten((GALLERY / "larkspur" / "job.toml").read_text(encoding="utf-8"))
    lines = made.splitlines()
    assert lines[0] == "# A job"
    assert [line for line in lines if line.startswith("[")][:5] == [
        "[job]",
        "[building]",
        "[column]",
        "[truss]",
        "[roof]",
    ]
    assert 'front_columns = ["10\'", "20\'"]' in made
    assert "date = 2026-09-14 " in made
    assert "plies = 3 " in made
    assert re.search(r'^bearing = "11\'-4" +# underside of the truss at its seat', made, re.MULTILINE)
    assert max(len(line) for line in lines) <= job_text.WIDEST
    assert made.isascii()


def test_every_line_says_what_it_is() -> None:
    text = jobs.job_text({**CASES["all warned"].changes, "roof.overhang": 12, "roof.soffit": "level"})
    lines = rewritten(text).splitlines()
    for before, line in pairwise(lines):
        if line and not line.startswith(("#", "[", "]", " ")):
            assert "  # " in line or before.startswith("# "), line


def test_openings_are_told_once_each_field() -> None:
    made = rewritten((GALLERY / "cooper" / "job.toml").read_text(encoding="utf-8"))
    assert made.count("[[opening]]") == 6
    assert made.count("# nominal height") == 1
    assert made.count("# the bay it stands in the middle of") == 1  # of the second opening: the first has none
    assert made.count("Doors and windows") == 1


@pytest.mark.parametrize("base", [BASE, METRIC], ids=["inches", "mm"])
def test_what_is_commented_out_may_be_taken_in(base: dict[str, Any]) -> None:
    """Each such line alone is a field the reader takes; where it is the default the job stays the same."""
    made = rewritten(jobs.job_text(base=base))
    lines = made.splitlines()
    found = 0
    for i, line in enumerate(lines):
        if not re.match(r"# [a-z_]+ = ", line):
            continue
        found += 1
        part = next(back for back in reversed(lines[:i]) if back.startswith("["))[1:-1]
        key = line.split()[1]
        taken = "\n".join([*lines[:i], line[2:], *lines[i + 1 :]])
        job = job_reader.read(taken)
        if job_text.OFTEN[f"{part}.{key}"][0] is None:
            assert job == job_reader.read(made), line
    assert found == len(job_text.OFTEN)


def test_short_help_is_short_and_true() -> None:
    for part in told.TABLES:
        for key, spec in part.specs.items():
            short = job_text.short(spec)
            assert 3 < len(short) <= 2 * job_text.LONGEST_HELP, key
            words = set(re.findall(r"\w+", short.lower()))
            assert words <= set(re.findall(r"\w+", f"{spec.help} {' '.join(spec.choices)}".lower())), key


def test_often_changed_fields_are_fields() -> None:
    assert all(spec_of(path) is not None for path in job_text.OFTEN)


# --- typed and flagged ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "text", "raw"),
    [
        ("building.front_columns", "10', 20'", ["10'", "20'"]),
        ("building.front_columns", "10'; 20'", ["10'", "20'"]),
        ("building.front_columns", "none", []),
        ("building.front_columns", '["10\'", "20\'"]', ["10'", "20'"]),
        ("building.bays", "6", "6"),
        ("building.bays", "9', 9'", ["9'", "9'"]),
        ("roof.shape", "LEAN", "lean-to"),
        ("roof.soffit", "none", "none"),  # one of its choices
        ("opening 1.kind", "w", "w"),  # walk or window
        ("opening 1.kind", "win", "window"),
        ("wainscot.nailer", "none", None),
        ("truss.bearing", "leave it out", None),
        ("job.crew", "none", None),
        ("nails.girt", "none", None),
        ("grade.line", "choose", "choose"),
        ("names.A1", "N1", "N1"),
        ("no.such", "3", "3"),
    ],
)
def test_what_is_typed_for_a_field(path: str, text: str, raw: Any) -> None:
    assert typed(text, spec_of(path)) == raw


@pytest.mark.parametrize(
    ("flag", "path", "text"),
    [
        ("building.width=30'", "building.width", "30'"),
        ("opening.2.at = 9'", "opening 2.at", "9'"),
        ("opening 2.at=9'", "opening 2.at", "9'"),
        ("job.name=a=b", "job.name", "a=b"),
    ],
)
def test_a_flag(flag: str, path: str, text: str) -> None:
    assert set_by(flag) == (path, text)


def test_openings_are_numbered_as_they_stand() -> None:
    assert renumbered({"opening 7.name": "B", "opening 3.name": "A", "job.name": "x"}) == {
        "opening 2.name": "B",
        "opening 1.name": "A",
        "job.name": "x",
    }


def test_a_spec_with_a_long_help_is_cut_at_a_clause() -> None:
    spec = Spec("length", "From the one end of it, " + "which is far away from here, " * 4 + "up.", none=True)
    assert job_text.short(spec) == "from the one end of it, which is far away from here, which is far away from here"
