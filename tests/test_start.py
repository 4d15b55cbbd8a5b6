"""A job asked for step by step: what is asked, and what comes of it."""

from __future__ import annotations

from typing import Any

import jobs
import pytest
from starters import Asked, asked, by_prompt

from layouts import job_text
from layouts.fields import PARTS
from layouts.fields_openings import OpeningPart
from layouts.job_values import flat, spec_of
from layouts.lengths import Style, Unit, parse
from layouts.lumber import section
from layouts.start_question import Question
from layouts.start_questions import GROUPS
from layouts.start_walls import AN_OPENING
from layouts.start_words import EXAMPLES, any_of, picture, shown

QUESTIONS = [q for g in GROUPS for q in g.questions] + list(AN_OPENING)
HEAD = ["Elm shed", "", "", "", ""]  # name, place, crew, inches, gable
SIZE = [*HEAD, "30'", "54'", ""]
PLAN = [*SIZE, "6", "10', 20'", ""]
COLUMNS = [*PLAN, "", "", "", ""]
HEIGHT = [*COLUMNS, "", "4/12", "", "11'-4", "13 1/4", ""]
WHOLE = [*HEIGHT, "", "", "16", "", "level", "", "", "", "", "", "", ""]
OLD = {
    **flat(asked(WHOLE).text),
    "job.place": "Mill Road",
    "column.trim": "1/4",
    "names.A1": "N1",
    "lumber.spares": 5,
}


def after(lines: list[str], *more: str) -> str:
    """What is said after the last of some lines."""
    return "\n".join(asked([*lines, *more]).heard[-1])


# --- the questions ---------------------------------------------------------------------------------------------------


def test_a_dozen_questions_in_the_order_of_the_trade() -> None:
    assert 12 <= len(GROUPS) <= 16
    assert [g.title for g in GROUPS[:6]] == [
        "The job",
        "Inches or millimetres",
        "Shape and size",
        "Bays along the eaves",
        "Columns in the endwalls",
        "The columns",
    ]


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.field)
def test_every_question_asks_for_a_field_and_says_what_is_meant(question: Question) -> None:
    for field in question.fields:
        spec = spec_of(field.replace("opening.", "opening 1."))
        assert spec is not None
        for _, choice in question.also:
            assert choice in spec.choices
    assert len(question.picture) > 20
    assert question.picture.endswith((".", "}"))
    for base in (jobs.BASE, jobs.METRIC):
        assert "{" not in picture(question.picture, jobs.job(base=base))
    assert question.ask[0].isupper()


def test_whatever_must_be_given_is_asked() -> None:
    fields = {f for q in QUESTIONS for f in q.fields}
    must = {f"{name}.{key}" for name, part in PARTS.items() for key, spec in part.specs.items() if spec.required}
    must |= {f"opening.{key}" for key, spec in OpeningPart.specs.items() if spec.required}
    assert must - fields == {"opening.name"}  # it is what an opening is asked for by


def test_enter_takes_the_default_and_what_must_be_known_has_none() -> None:
    found = asked(WHOLE)
    must = ("Name", "Width", "Length", "Bays", "Pitch", "Bearing", "Heel")
    assert [p for p in found.asked if "[" not in p] == [f"{name}: " for name in must]
    assert 'Width across the plies [4 1/2"]: ' in found.asked
    assert "Columns: laminated or solid? [laminated] " in found.asked


def test_what_was_asked_stands_in_the_file() -> None:
    values = flat(asked(WHOLE).text)
    assert values["job.name"] == "Elm shed"
    assert values["building.front_columns"] == values["building.back_columns"] == ["10'", "20'"]
    assert values["column.plies"] == 3
    assert values["truss.bearing"] == "11'-4"
    assert values["girts.step"] == "24"
    assert "job.place" not in values
    assert "carrier.board" not in values


def test_every_group_has_its_number_and_title() -> None:
    said = asked(WHOLE).said
    assert [line for line in said if " of 15. " in line] == [
        f"{i} of 15. {g.title.upper()}" for i, g in enumerate(GROUPS, 1)
    ]


def test_metric_asks_in_millimetres() -> None:
    found = asked(["Shed", "", "", "mm", "", "9000", "12 m", "", "4", "3000, 6000", "", "", ""])
    assert found.next == "Width across the plies [114 mm]: "
    assert found.state.values["building.length"] == "12000 mm"


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_examples_are_read_in_their_unit(unit: Unit) -> None:
    for key, example in EXAMPLES[unit].items():
        assert (parse if key in ("at", "eave") else section)(example, unit)


# --- what depends on what was said -----------------------------------------------------------------------------------


def test_solid_columns_have_no_plies_and_no_slot() -> None:
    found = asked([*PLAN, "solid", "5 1/2", ""])
    assert not any(p.startswith("Plies") for p in found.asked)
    found = asked([*PLAN, "solid", "5 1/2", "", "", "4/12", "", "12'", "9", "", ""])
    assert found.next == "Shoulder towards the front, back or both? [front] "  # a solid column's seat is a shoulder
    found = asked([*PLAN, "solid", "5 1/2", "", "", "4/12", "", "12'", "9", "", "slot"])
    assert found.next == "Seat, shoulder or flat [shoulder]: "


def test_a_gable_asks_for_no_high_side() -> None:
    prompts = " ".join(asked(HEIGHT).asked)
    assert "standing wall" not in prompts
    assert "high wall" not in prompts
    assert "Ridge" in prompts


def test_a_lean_to_asks_for_the_walls_height_and_its_boards_stop_there() -> None:
    lines = ["Lean", "", "", "", "lean-to", "14'", "40'", "", "5", "7'", "", "", "", "", "", "", "12'", "2/12"]
    found = asked(lines)
    assert "Height at the standing wall [not known]: " in found.asked
    assert found.next == "Heel: "  # the bearing follows from the wall and the pitch
    assert found.state.values["girts.runs_past"] == "side"
    assert any("sidewalls' boards run past" in line for line in found.said)
    without = asked([*lines[:-2], "", "2/12"])
    assert without.next == "Bearing: "


def test_a_mono_slope_may_leave_out_the_pitch() -> None:
    lines = ["Mono", "", "", "", "mono", "24'", "40'", "", "5", "8', 16'", "", "", "", "", "", "", "14'"]
    found = asked([*lines, "", "9'"])
    assert found.asked[-2] == "Pitch [work it out]: "
    assert found.state.job.truss.pitch is None
    assert asked([*lines[:-1], ""]).next == "Pitch: "


def test_an_eave_instead_of_the_bearing() -> None:
    found = asked([*COLUMNS, "", "4/12", "", "eave 12'"])
    assert found.state.values["truss.eave"] == "12'"
    assert "truss.bearing" not in found.state.values
    assert asked(["back"], found.state.values, old=True).next  # taken up as an old job would be
    again = asked([*COLUMNS, "", "4/12", "", "eave 12'", "back"])
    assert again.next == "Bearing [eave 12']: "
    assert "truss.eave" not in asked([*COLUMNS, "", "4/12", "", "eave 12'", "back", "11'"]).state.values


def test_what_no_longer_goes_with_the_building_is_left_out() -> None:
    """Carriers with a seat that is a slot after all; two bearings with a ridge in the middle."""
    lines = [*HEIGHT, "flat", "2x12", "", "", "", ""]
    found = asked([*lines, "go tops.seat", "slot"])
    assert not any(path.startswith("carrier.") for path in found.state.values)
    assert "Left out, as it does not go with that: carrier.board" in "\n".join(found.heard[-1])


def test_units_changed_afterwards_ask_for_lengths_anew() -> None:
    found = asked([*SIZE, "6", "go 2", "mm"])
    assert "building.width" not in found.state.values
    assert found.next == "Width: "
    assert found.state.values["job.name"] == "Elm shed"


# --- doors and windows -----------------------------------------------------------------------------------------------

DOORS = [*HEIGHT, "", "", "0", "", "", "", "", ""]


# --- from an old job -------------------------------------------------------------------------------------------------


def enters(values: dict[str, Any]) -> Asked:
    """An old job, and Enter to the end."""
    return by_prompt({}, values, old=True)


def test_an_old_job_keeps_all_it_has() -> None:
    found = enters(OLD)
    assert flat(found.text) == {k: v for k, v in OLD.items() if k != "job.crew"}
    assert len(found.asked) <= len(GROUPS) + 2  # a group is one question
    assert not any(p.startswith("Units") for p in found.asked)


def test_an_old_jobs_crew_is_asked_for_anew_and_its_line_reading_chosen() -> None:
    found = enters({**OLD, "job.crew": "Hollis crew", "grade.line": "45 1/2"})
    values = flat(found.text)
    assert "job.crew" not in values
    assert values["grade.line"] == "choose"


def test_an_old_job_that_is_changed() -> None:
    found = asked(["New shed", "", "", "no", "", "", "60'", ""], OLD, old=True)
    assert found.next == "Bays [6]: "
    assert found.state.values["job.name"] == "New shed"
    assert found.state.values["column.trim"] == "1/4"


def test_fields_of_an_old_job_that_no_question_asks_for() -> None:
    """A name of a column that is no longer there: asked for by its field, and left out with none."""
    old = {**OLD, "names.A7": "Z"}
    lines = ["New", "", "", "no", "", "", "18'", "", "2"]
    while not (found := asked(lines, old, old=True)).next.startswith("names.A7"):
        assert len(lines) < 40
        lines.append("")
    assert "! names.A7 = Z: names a column that is not there." in "\n".join(found.heard[-1])
    done = asked([*lines, "none"], old, old=True)
    assert done.job.names == (("A1", "N1"),)


# --- from flags ------------------------------------------------------------------------------------------------------


def test_what_flags_say_is_not_asked() -> None:
    found = asked(["Elm", "", ""], {"building.width": "30'", "roof.shape": "lean-to"})
    assert found.state.values["girts.runs_past"] == "side"
    assert asked(["Elm", "", "", ""], {"building.width": "30'", "roof.shape": "gable"}).next == "Length: "


def test_flags_that_say_everything_leave_nothing_to_ask() -> None:
    found = asked(["", ""], {k: v for k, v in OLD.items() if not k.startswith("names")})
    assert not found.over  # doors and carriers are still asked for
    assert found.asked == ("Crew [leave it out]: ", "Ridge [in the middle]: ")


# --- words -----------------------------------------------------------------------------------------------------------


def test_words() -> None:
    assert any_of(("a",)) == "a"
    assert any_of(("a", "b")) == "a or b"
    assert any_of(("a", "b", "c")) == "a, b or c"
    length = spec_of("building.width")
    assert shown("13'-6 1/2", length, Style("in")) == "13'-6 1/2\""
    assert shown("10'", length, Style("in")) == "10'"
    assert shown(["10'", "24"], spec_of("building.front_columns"), Style("in")) == "10', 24\""
    assert shown(None, length, Style("in")) == ""


def test_by_prompt_wants_every_answer() -> None:
    with pytest.raises(AssertionError):
        by_prompt({"Name:": "x", "Width:": "30'", "No such prompt": "1"})


def test_the_first_line_names_the_job_and_its_place() -> None:
    assert asked(WHOLE).text.startswith("# Elm shed\n")
    assert enters(OLD).text.startswith("# Elm shed, Mill Road\n")
    assert job_text.write({"job.name": "x"}).startswith("# Change it as you like")
