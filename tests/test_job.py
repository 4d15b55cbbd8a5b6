"""Reading a job: nothing guessed, every mistake in one run, never a traceback."""

from __future__ import annotations

import math
from typing import Any

import pytest
from jobs import BASE, METRIC, Raw, job, job_text, problems

from layouts import job as job_reader
from layouts.building import lay_out
from layouts.fields import PARTS
from layouts.problems import JobRefused

EVERY_FIELD = [f"{name}.{key}" for name, part in PARTS.items() for key in part.specs]


def places(text: str) -> list[str]:
    return [p.place for p in problems(text)]


def only(text: str) -> str:
    """The one problem there is, as a line."""
    found = problems(text)
    assert len(found) == 1, [str(p) for p in found]
    return str(found[0])


def test_lengths_come_in_as_inches() -> None:
    made = job()
    assert (made.building.width, made.building.length) == (384, 576)  # 32 x 12, 48 x 12
    assert made.building.front_columns == (132, 252)  # 11 x 12, 21 x 12
    assert (made.truss.bearing, made.truss.heel) == (144, 9.25)
    assert made.truss.pitch == pytest.approx(1 / 3)
    assert made.building.bays == 6
    assert made.style.unit == "in"


def test_bare_numbers_of_a_metric_job_are_millimetres() -> None:
    made = job(base=METRIC)
    assert made.building.width == pytest.approx(9600 / 25.4)
    assert made.truss.heel == pytest.approx(235 / 25.4)
    assert made.style.unit == "mm"
    assert made.job.paper == "a4"
    assert made.column.width == pytest.approx(114 / 25.4)


@pytest.mark.parametrize(
    ("given", "slope"),
    [
        *(("4/12", 4 / 12), ("4.5/12", 4.5 / 12), (5, 5 / 12), ("3 / 12", 0.25), (3.5, 3.5 / 12), ("4 1/2/12", 0.375)),
        # tan 45 = 1, tan 30 = 1/sqrt 3, tan 15 = 2 - sqrt 3
        *(("45 deg", 1.0), ("30°", 1 / math.sqrt(3)), ("15.0 degrees", 2 - math.sqrt(3))),
        *(("1:4", 0.25), ("1 in 4", 0.25), ("2.5 : 10", 0.25)),
    ],
)
def test_pitch_is_rise_on_twelve(given: Any, slope: float) -> None:
    assert job({"truss.pitch": given}).truss.pitch == pytest.approx(slope, abs=1e-12)


@pytest.mark.parametrize(
    "given",
    [
        "4/10",
        "steep",
        "/12",
        "4/12/12",
        "25/12",
        "1/4",
        "0/12",
        "-4/12",
        90,
        "18 rad",
        "70 deg",
        "1:0",
        "8/12/12",
        "1:4:2",
        "nan",
        "deg",
    ],
)
def test_what_is_no_pitch_is_refused_with_one_that_is(given: Any) -> None:
    line = only(job_text({"truss.pitch": given}))
    assert "truss.pitch" in line
    assert "/12" in line.split(":", 2)[2]


def test_a_bare_pitch_is_refused_where_it_may_be_degrees() -> None:
    assert "degrees or a rise on 12" in only(job_text({"truss.pitch": 15}, base=METRIC))
    assert job({"truss.pitch": "15 deg"}, base=METRIC).truss.pitch == pytest.approx(2 - math.sqrt(3))


def test_bays_are_a_count_or_a_list() -> None:
    assert job({"building.bays": "6"}).building.bays == 6
    listed = job({"building.bays": ["8'", "10'", "12'", "10'", "8'"]}).building.bays
    assert listed == (96, 120, 144, 120, 96)


def test_a_day_may_be_a_date_or_text() -> None:
    assert job({"job.date": Raw("2031-04-05")}).job.date == "2031-04-05"
    assert job({"job.date": "5 April"}).job.date == "5 April"


def test_line_reading_is_chosen_or_given() -> None:
    assert job().grade.line is None
    assert job({"grade.line": "choose"}).grade.line is None
    assert job({"grade.line": "45 1/2"}).grade.line == 45.5


def test_all_mistakes_of_a_file_come_in_one_run() -> None:
    text = job_text(
        {
            "building.width": "10000'",
            "building.lenght": "48'",
            "truss.heel": "nan",
            "truss.pitch": "4/10",
            "column.plies": 5,
            "roof.purlins": "edges",
            "girts.board": "2x7",
            "lumber.stock": "12'",
            "sauna.stove": "yes",
            "names.A1": "MUCH TOO LONG",
        },
        drop=["building.length"],
    )
    assert set(places(text)) == {
        "building.width",
        "building.lenght",
        "building.length",
        "truss.heel",
        "truss.pitch",
        "column.plies",
        "roof.purlins",
        "girts.board",
        "lumber.stock",
        "sauna",
        "names.A1",
    }


@pytest.mark.parametrize(
    ("key", "meant"),
    [
        ("building.lenght", "length"),
        ("building.front_colums", "front_columns"),
        ("truss.bering", "bearing"),
        ("girts.run_past", "runs_past"),
        ("wainscot.hight", "height"),
        ("column.endwall_faces", "endwall_face"),
    ],
)
def test_an_unknown_field_is_told_the_nearest_one(key: str, meant: str) -> None:
    line = only(job_text({key: "1'"}))
    assert f"{key} = 1'" in line
    assert f"Did you mean {meant}?" in line


def test_an_unknown_part_is_told_the_nearest_one() -> None:
    assert "Did you mean girts?" in only(job_text({"girt.step": "24"}))
    assert "Known: job, building" in only(job_text({"zzzz.step": "24"}))


def test_an_unknown_choice_is_told_all_of_them() -> None:
    line = only(job_text({"roof.purlins": "on edge"}))
    assert all(f'"{choice}"' in line for choice in ("edge", "flat", "flush"))
    assert "Did you mean edge?" in line


@pytest.mark.parametrize(
    ("key", "value", "limit"),
    [
        ("building.width", "10000'", "over a mile (5280 ft)"),
        ("building.length", "1001'", "From 8'-0\" to 1000'-0\""),
        ("building.width", "7'-11", "From 8'-0\" to 200'-0\""),
        ("truss.bearing", "3'", "From 4'-0\" to 50'-0\""),
        ("truss.heel", "1", 'From 2" to 5\'-0"'),
        ("girts.step", "5", 'From 6" to 8\'-0"'),
        ("lumber.kerf", "2", 'From 0" to 1"'),
        ("column.plies", 5, '"3", "4"'),
        ("grade.boards", 0, "from 1 to 4"),
        ("grade.boards", 5, "from 1 to 4"),
    ],
)
def test_sizes_have_physical_limits(key: str, value: Any, limit: str) -> None:
    line = only(job_text({key: value}))
    assert key in line
    assert limit in line


@pytest.mark.parametrize(
    ("key", "value", "inches"),
    [("building.width", "200'", 2400), ("truss.heel", "2", 2), ("lumber.kerf", "1", 1), ("lumber.kerf", 0, 0)],
)
def test_the_limits_themselves_are_allowed(key: str, value: Any, inches: float) -> None:
    changes = {key: value}
    if key == "building.width":
        posts = [f"{feet}'" for feet in range(10, 200, 10)]
        changes |= {"building.front_columns": posts, "building.back_columns": posts}
    part, name = key.split(".")
    assert getattr(getattr(job(changes), part), name) == inches


@pytest.mark.parametrize(
    "toml", ["true", "nan", "inf", "-inf", "07:32:00", "[[]]", "[true]", "[nan]", "{a = 1}", "1" + "0" * 30]
)
def test_no_field_takes_what_is_no_value(toml: str) -> None:
    """Every field, each with the same wrong thing in it: each is named, and nothing else is."""
    for field in EVERY_FIELD:
        found = places(job_text({field: Raw(toml)}))
        assert found == [field], (field, found)


@pytest.mark.parametrize("toml", ["-1", "-0.0", "1e300", "1e-300", '""', '"\\u0000"', '"' + "x" * 5000 + '"', "[]"])
def test_odd_values_are_read_or_refused_but_never_crash(toml: str) -> None:
    for field in EVERY_FIELD:
        assert set(places(job_text({field: Raw(toml)}))) <= {field}, field


@pytest.mark.parametrize(("part", "toml"), [(p, t) for p in [*PARTS, "names"] for t in ("3", "[]", '"x"', "nan")])
def test_a_part_that_is_no_table_is_refused(part: str, toml: str) -> None:
    fields = {k: v for k, v in BASE.items() if not k.startswith(part + ".")}
    text = job_text({part: Raw(toml)}, base=fields)
    first = problems(text)[0]
    assert first.place == part
    assert f"must be a table. Write [{part}]" in str(first)


def test_an_empty_file_asks_for_what_a_job_must_have() -> None:
    must = {f"{name}.{key}" for name, part in PARTS.items() for key, spec in part.specs.items() if spec.required}
    assert set(places("")) == {*must, "truss.bearing", "truss.pitch"}
    assert must >= {"job.name", "building.width", "building.bays", "truss.heel"}


@pytest.mark.parametrize("metric", [False, True])
def test_the_examples_in_the_messages_make_a_job(metric: bool) -> None:
    head = '[job]\nunits = "metric"\n' if metric else "[job]\n"
    asked: dict[str, list[str]] = {}
    for problem in problems(head):
        part = problem.place.partition(".")[0]
        asked.setdefault(part, []).append(problem.right.partition("For example: ")[2])
    lines = [head + "\n".join(asked.pop("job")), *(f"[{p}]\n" + "\n".join(found) for p, found in asked.items())]
    made = job_reader.read("\n".join(lines))
    assert made.building.bays == 6
    assert made.style.unit == ("mm" if metric else "in")


@pytest.mark.parametrize("base", [BASE, METRIC])
def test_the_examples_for_an_opening_make_one(base: dict[str, Any]) -> None:
    text = job_text(base=base)
    examples = [p.right.partition("For example: ")[2] for p in problems(f"{text}[[opening]]\n")]
    assert [e.partition(" ")[0] for e in examples] == ["name", "wall", "width", "height"]
    laid = lay_out(job_reader.read("\n".join([text, "[[opening]]", *examples, "bay = 2", 'kind = "walk"'])))
    assert [(o.name, o.wall) for o in laid.job.openings] == [("OH1", "A")]


def test_broken_toml_names_the_line() -> None:
    line = only('[job]\nname = "Barn\n')
    assert "not valid TOML" in line
    assert "line 2" in line


def test_a_key_given_twice_is_refused() -> None:
    text = job_text().replace("[truss]\n", '[truss]\nheel = "9"\n')
    assert "not valid TOML" in only(text)


@pytest.mark.parametrize(
    "text",
    [
        "[building]\nwidth = 0x" + "f" * 5000,
        "[building]\nwidth = " + "9" * 5000,
        "[building]\nwidth = " + "[" * 5000 + "]" * 5000,
        "[building]\nwidth = " + "[" * 250 + "]" * 250,
        "[building" + ".a" * 5000 + "]\n",
        "[names" + ".a" * 5000 + "]\n",
        "x = 1\n" * 3,
        "\x00",
        "[job]\nname = 'a\x00b'",
        "#" * 1_000_001,
    ],
    ids=["hex", "digits", "lists", "some lists", "deep table", "deep names", "twice", "nul", "nul text", "huge"],
)
def test_files_made_to_hurt_are_refused_in_words(text: str) -> None:
    with pytest.raises(JobRefused) as caught:
        job_reader.read(text)
    assert all(len(str(p)) < 600 for p in caught.value.problems)


def test_windows_line_ends_and_a_byte_order_mark_do_no_harm() -> None:
    """Notepad writes both."""
    assert job_reader.read(job_text().replace("\n", "\r\n")) == job()
    assert job_reader.read("\ufeff" + job_text()) == job()


def test_the_file_is_named_as_the_caller_names_it() -> None:
    with pytest.raises(JobRefused, match=r"^barns\\tamarack\.toml: job\.name: must be given"):
        job_reader.read("", r"barns\tamarack.toml")
