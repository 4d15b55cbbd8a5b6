"""Every field is documented in one place, and what stands there is true."""

from __future__ import annotations

from typing import Any, cast

import pytest
from jobs import BASE, METRIC, Raw, job, job_text

from layouts import job as job_reader
from layouts.fields import PARTS, Job, Spec, table, written
from layouts.fields_openings import OpeningPart

FIELDS = [(f"{name}.{key}", spec) for name, part in PARTS.items() for key, spec in part.specs.items()]
OF_OPENING = [(f"opening.{key}", spec) for key, spec in OpeningPart.specs.items()]
OPTIONAL = [(name, spec) for name, spec in FIELDS if not spec.required and not spec.none]
LENGTHS = {"length", "lengths", "section"}
ENDS = ("building.front_columns", "building.back_columns")


def field_id(value: object) -> str:
    return value if isinstance(value, str) else ""


def value_of(made: Job, name: str) -> Any:
    part, key = name.split(".")
    return getattr(getattr(made, part), key)


@pytest.mark.parametrize(("name", "spec"), FIELDS, ids=field_id)
def test_every_field_says_what_it_means(name: str, spec: Spec) -> None:
    assert len(spec.help) > 10
    assert spec.help.endswith(".")
    assert spec.help.isprintable()
    assert "|" not in spec.help, "it would break the README's table"


@pytest.mark.parametrize(("name", "spec"), OPTIONAL, ids=field_id)
def test_a_default_written_into_the_file_changes_nothing(name: str, spec: Spec) -> None:
    drop = ENDS if name in ENDS else ()
    stock = {"lumber.stock": ["40'"]} if name in ENDS else {}  # reaches over an endwall without columns
    text = job_text({**stock, name: Raw(written(spec.default))}, drop=set(drop) - {name})
    assert job_reader.read(text) == job_reader.read(job_text(stock, drop=set(drop) - set(stock)))


@pytest.mark.parametrize(("name", "spec"), OPTIONAL, ids=field_id)
def test_a_metric_default_written_into_a_metric_file_changes_nothing(name: str, spec: Spec) -> None:
    if name == "job.units":
        return
    default = spec.default if spec.metric is None else spec.metric
    drop = ENDS if name in ENDS else ()
    stock = {"lumber.stock": ["12 m"]} if name in ENDS else {}
    text = job_text({**stock, name: Raw(written(default))}, drop=set(drop) - {name}, base=METRIC)
    assert job_reader.read(text) == job_reader.read(job_text(stock, drop=set(drop) - set(stock), base=METRIC))


@pytest.mark.parametrize(("name", "spec"), [f for f in OPTIONAL if f[1].kind in LENGTHS], ids=field_id)
def test_a_length_has_a_default_in_both_systems(name: str, spec: Spec) -> None:
    assert spec.metric is not None or spec.default in ("0", ())


@pytest.mark.parametrize(("name", "spec"), [f for f in FIELDS if f[1].none and f[0] not in BASE], ids=field_id)
def test_what_may_be_left_out_is_then_none(name: str, spec: Spec) -> None:
    assert value_of(job(), name) is None
    assert spec.default is None
    assert not spec.required


def test_metric_defaults_are_round_millimetres() -> None:
    made = job(base=METRIC)
    for name, spec in OPTIONAL:
        if spec.kind == "length":
            millimetres = cast(float, value_of(made, name)) * 25.4
            assert millimetres == pytest.approx(round(millimetres), abs=1e-6), name


@pytest.mark.parametrize(("name", "spec"), [f for f in FIELDS if f[1].kind == "choice"], ids=field_id)
def test_every_choice_can_be_chosen(name: str, spec: Spec) -> None:
    assert len(spec.choices) >= 2
    assert spec.default in spec.choices
    for choice in spec.choices:
        if (name, choice) == ("job.units", "metric"):
            continue  # it asks for other fields
        made: dict[str, Any] = {}
        if name == "column.trims" and choice != "top":
            made = {"column.notch": "12'", "column.treated": "all"}
        elif name == "roof.soffit":
            made = {"roof.overhang": "12"}
        elif choice == "lean-to":
            made = {"girts.runs_past": "side", "girts.grade_board_runs_past": "side"}
        elif choice == "solid":
            made = {"tops.seat": "shoulder"}
        elif choice == "chord bottom":
            made = {"truss.top_chord": "2x6"}
        assert str(value_of(job({name: choice, **made}), name)) == choice


@pytest.mark.parametrize(
    ("value", "toml"),
    [("24", '"24"'), ('4 1/2"', "'4 1/2\"'"), (("8'", "10'"), '["8\'", "10\'"]'), ((), "[]"), ("", '""')],
)
def test_a_default_is_written_as_toml(value: Any, toml: str) -> None:
    assert written(value) == toml


def test_the_table_lists_every_field_once_with_its_meaning_and_default() -> None:
    lines = table().splitlines()
    rows = {line.split("|")[1].strip(): line for line in lines[2:]}
    assert set(rows) == {f"`{name}`" for name, _ in [*FIELDS, *OF_OPENING]} | {"`names`"}
    assert len(rows) == len(lines) - 2
    for name, spec in [*FIELDS, *OF_OPENING]:
        row = rows[f"`{name}`"]
        assert row.count("|") == 4, row
        assert spec.help in row
        assert all(f"`{choice}`" in row for choice in spec.choices)
        assert ("**must be given**" in row) == spec.required


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("building.width", "**must be given**"),
        ("column.width", '`\'4 1/2"\'`, metric `"114 mm"`'),
        ("girts.spacing", '`"equal"`'),
        ("girts.top", "left out"),
        ("job.place", "empty"),
    ],
)
def test_the_table_shows_defaults_as_they_are_typed(name: str, shown: str) -> None:
    row = next(line for line in table().splitlines() if f"`{name}`" in line)
    assert row.endswith(f"| {shown} |")


def test_the_base_job_gives_only_what_must_be_given_and_columns() -> None:
    """So that the default tests above do test defaults."""
    required = {name for name, spec in FIELDS if spec.required}
    assert set(BASE) - required == {*ENDS, "truss.bearing", "truss.pitch"}
