"""A job asked for step by step: what is asked, what is refused, and what comes of it."""

from __future__ import annotations

from typing import Any

import jobs
import pytest
from starters import Asked, asked, by_prompt

from layouts import job_text
from layouts.fields import PARTS, specs
from layouts.fields_openings import OpeningPart
from layouts.job_values import flat, spec_of
from layouts.lengths import Style, Unit, parse
from layouts.lumber import section
from layouts.problems import Problem
from layouts.start_question import Question
from layouts.start_questions import GROUPS
from layouts.start_walls import AN_OPENING
from layouts.start_words import EXAMPLES, any_of, picture, shown, told

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
    must = {f"{name}.{key}" for name, part in PARTS.items() for key, spec in specs(part) if spec.required}
    must |= {f"opening.{key}" for key, spec in specs(OpeningPart) if spec.required}
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
    assert found.next == "Seat, shoulder or flat: "


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


# --- what is refused -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "wrong", "said"),
    [
        ([], "", "name must be given. The name of the job, printed on every sheet."),
        ([], "x" * 61, "is 61 letters long. At most 60 fit on the sheets."),
        (HEAD[:3], "yards", 'yards: is not one of the choices. Choose from "imperial", "metric".'),
        (HEAD, "30", '30: is out of bounds. From 8\'-0" to 200\'-0". A bare number is inches; for feet write "30\'".'),
        (HEAD, "wide", "wide: there is no number in it; write 12'-9 11/16\" or 41 3/8."),
        (HEAD, "", "width must be given. Across the gable, along the trusses."),
        (SIZE, "many", "many: is not a number of bays."),
        (SIZE, "9', 9'", "bays add up to 18'-0\". They must add up to building.length, 54'-0\": 36'-0\" too short."),
        ([*SIZE, "6"], "5", "front_columns puts columns A1 and B1 into each other. Move one of them."),
        ([*SIZE, "6"], "31'", "31'-0\": stands outside of the building."),
        (PLAN, "steel", 'steel: is not one of the choices. Choose from "laminated", "solid".'),
        ([*PLAN, ""], "5", '5: is not one of the choices. Choose from "3", "4".'),
        ([*COLUMNS, ""], "steep", "steep: is not a pitch. Rise on a run of 12, like 5/12 or 4.5/12"),
        ([*COLUMNS, ""], "", "pitch must be given."),
        ([*COLUMNS, "", "4/12", ""], "", "bearing must be given. Underside of the truss at its seat"),
        ([*COLUMNS, "", "4/12", ""], "eave of 12'", "of 12': of is not a unit used here: ft, in, mm, cm or m"),
        ([*HEIGHT, "", "", "0", ""], "2x7", "2x7: not a nominal size; write 2x6 or 2x8"),
        ([*HEIGHT, "", "", "0", "", ""], "5", "5: is not a count that fits. A whole number from 1 to 4."),
    ],
)
def test_a_wrong_answer_is_refused_at_once_and_asked_again(lines: list[str], wrong: str, said: str) -> None:
    before = asked(lines)
    found = asked([*lines, wrong])
    assert said in "\n".join(found.heard[-1])
    assert found.next == before.next
    assert found.state.values == before.state.values


def test_bays_too_long_are_refused() -> None:
    assert "2: makes bays of 45'-0\". From 2'-0\" to 30'-0\"." in after([*HEAD, "30'", "90'", ""], "2")


def test_the_words_are_the_job_readers_own() -> None:
    problem = Problem("shed.toml", "building.width", "30", "is out of bounds.", "From 8' to 200'.")
    assert told(problem, True) == "! 30: is out of bounds. From 8' to 200'."
    assert told(problem, False) == "! building.width = 30: is out of bounds. From 8' to 200'."
    assert str(problem).endswith(told(problem, False).removeprefix("! "))


def test_an_answer_that_another_does_not_go_with_asks_for_that_again() -> None:
    """A soffit that needs an overhang, which is then taken back."""
    found = asked([*HEIGHT, "", "", "16", "", "level", "back", "back", "back", "0"])
    assert "roof.soffit" not in found.state.values  # it is not asked of a roof without an overhang


def test_an_endwall_without_columns_is_told_and_may_be_kept_until_the_boards_are_known() -> None:
    """The yard's boards are asked for last: until then the answer may stand."""
    lines = [*SIZE, "6", "", "", "", "", "", "", "", "4/12", "", "11'-4"]
    found = asked([*lines, "13 1/4"])
    wrong = "! building.back_columns: leaves a stretch of 30'-0\" without a column, and the longest board is 20'-0\"."
    assert wrong in "\n".join(found.heard[-1])
    assert found.next == "Back endwall [none]: "
    assert asked([*lines, "13 1/4", ""]).next.startswith("Heel is given")
    mended = asked([*lines, "13 1/4", "10', 20'"])
    assert "! building.front_columns: leaves a stretch" in "\n".join(mended.heard[-1])
    assert asked([*lines, "13 1/4", "10', 20'", "10', 20'"]).next.startswith("Heel is given")


def test_what_was_kept_is_asked_again_at_the_end() -> None:
    lines = [*SIZE, "6", "", "", "", "", "", "", "", "4/12", "", "11'-4", "13 1/4", "", "", "", "", "", "", "", "", ""]
    short = asked([*lines, "", "", ""])
    assert short.next == "Back endwall [none]: "
    assert "The whole of it cannot be built as it stands:" in short.said
    assert asked([*lines, "", "", "", ""]).next == "Back endwall [none]: "
    assert asked([*lines, "", "", "no", "", "8', 16', 32'"]).over  # boards that reach over it


def test_at_the_end_the_whole_is_laid_out_and_the_field_asked_again() -> None:
    """A jamb post goes up to the bearing, 11'-4, in one piece: only the layout knows that no board is so long."""
    lines = [*DOORS, "WD", "A", "walk", "3'", "6' 8", "5'", "go opening 1.jamb_tops", "full", "", "no", ""]
    found = asked([*lines, "8', 10'"])
    assert "! lumber.stock: give 10'-0\" at most, and piece" in "\n".join(found.heard[-1])
    assert found.next == "Board lengths [8', 10']: "
    assert asked([*lines, "8', 10'", "8', 10', 12'"]).over


# --- our words -------------------------------------------------------------------------------------------------------


def test_back_goes_back_and_shows_what_was_said() -> None:
    found = asked([*HEAD, "30'", "back"])
    assert found.next == "Width [30']: "
    assert asked([*HEAD, "30'", "back", ""]).state.values["building.width"] == "30'"
    assert asked([*HEAD, "30'", "back", "32'"]).state.values["building.width"] == "32'"
    assert "This is the first question." in after([], "back")


def test_back_all_the_way() -> None:
    found = asked([*HEIGHT, *["<"] * len(HEIGHT)])
    assert found.next == "Name [Elm shed]: "
    assert asked([*HEIGHT, *["<"] * len(HEIGHT), *[""] * len(HEIGHT)]).next == asked(HEIGHT).next


@pytest.mark.parametrize("word", ["?", "help", "HELP"])
def test_more_about_a_question(word: str) -> None:
    said = after([*HEAD], word)
    assert "building.width in the job file. Across the gable, along the trusses." in said
    assert "From 8'-0\" to 200'-0\"" in said
    assert "a bare number is inches" in said
    assert "back  to the question before" in said
    assert asked([*HEAD, word]).next == "Width: "


def test_more_about_a_whole_group() -> None:
    said = after([*HEIGHT, ""], "?")
    assert "Size: What they are cut from" in said
    assert "(roof.purlin_step)" in said


def test_a_group_is_gone_through_step_by_step() -> None:
    found = asked([*HEIGHT, "", "no", "2x4", "flat", "30"])
    assert found.asked[-3:-1] == ("Size [2x6]: ", "How they lie: edge, flat or flush? [edge] ")
    assert found.state.values["roof.purlin_step"] == "30"
    assert "2x4 is neither yes nor no." in after([*HEIGHT, ""], "2x4")


def test_go_leads_to_a_question_or_any_field() -> None:
    found = asked([*SIZE, "go 3"])
    assert found.next == "Roof: gable, mono-slope or lean-to? [gable] "
    assert asked([*SIZE, "go column.trim", "1/4"]).next == "Bays: "
    assert asked([*SIZE, "go column.trim", "1/4"]).state.values["column.trim"] == "1/4"
    assert "There is nothing to go to by that name." in after(SIZE, "go nowhere")
    assert "There is nothing to go to by that name." in after(SIZE, "go 16")
    assert "There is nothing to go to by that name." in after(SIZE, "go names.A1")


def test_a_name_may_begin_with_a_word_of_ours() -> None:
    assert asked(["go west farm"]).state.values["job.name"] == "go west farm"


def test_typing_what_stands_in_brackets_is_enter() -> None:
    assert "job.place" not in asked(["Elm", "leave it out"]).state.values
    assert asked([*SIZE, "6", "none"]).state.values["building.front_columns"] == []


def test_quit_writes_nothing() -> None:
    found = asked([*SIZE, "QUIT"])
    assert found.over
    assert found.state.text == ""


def test_lines_of_any_kind_do_no_harm() -> None:
    for line in ("\x00", "\ud800", "𝟗", "[", '"', "= 3", "\u202e", "a" * 5000, "[1, 2", "none", "-1", "9e9"):
        for lines in ([], HEAD, SIZE, [*SIZE, "6"], [*COLUMNS, ""]):
            assert not asked([*lines, line]).over


# --- doors and windows -----------------------------------------------------------------------------------------------

DOORS = [*HEIGHT, "", "", "0", "", "", "", "", ""]
WINDOW = ["W9", "A", "window", "3'", "2'", "4'", "bay 2"]


def test_a_window_and_no_more() -> None:
    found = asked([*DOORS, *WINDOW, "", ""])
    assert [(p.name, p.wall, p.bay, p.sill) for p in found.job.openings] == [("W9", "A", 2, 48)]


@pytest.mark.parametrize(
    ("typed", "wall"), [("front", "1"), ("back", "7"), ("left", "A"), ("right", "D"), ("a", "A"), ("d", "D")]
)
def test_a_wall_by_its_name_or_side(typed: str, wall: str) -> None:
    assert asked([*DOORS, "W9", typed]).state.values["opening 1.wall"] == wall


def test_a_wall_that_is_not_there() -> None:
    assert "! Q: is not a wall of this job. Known: A, 7, D, 1." in after([*DOORS, "W9"], "Q")


@pytest.mark.parametrize(
    ("typed", "fields"),
    [
        ("bay 2", {"bay": 2}),
        ("14'", {"at": "14'"}),
        ("left 12' 6", {"at": "12'-6", "measured_to": "left"}),
        ("right 16'", {"at": "16'", "measured_to": "right"}),
    ],
)
def test_its_place(typed: str, fields: dict[str, Any]) -> None:
    values = asked([*DOORS, *WINDOW[:-1], typed]).state.values
    found = {key: values.get(f"opening 1.{key}") for key in ("bay", "at", "measured_to")}
    assert {key: value for key, value in found.items() if value is not None} == fields


def test_a_place_where_a_column_stands_is_refused() -> None:
    assert "has column A2 standing in its rough opening" in after([*DOORS, *WINDOW[:-1]], "45'")
    assert "! 9: is not there. Wall A has 6 bays." in after([*DOORS, *WINDOW[:-1]], "bay 9")
    assert "bay or at must be given" in after([*DOORS, *WINDOW[:-1]], "")


def test_a_name_that_is_taken() -> None:
    assert "! A2: is the name of a column. A name on the sheets means one thing." in after(DOORS, "A2")
    assert asked([*DOORS, "A2"]).next == asked(DOORS).next


def test_one_is_changed_and_one_taken_out() -> None:
    two = [*DOORS, *WINDOW, "WD", "7", "walk", "3'", "6' 8", "5'"]
    changed = asked([*two, "W9", "", "", "4'", "", "", "", ""])
    assert changed.state.values["opening 1.width"] == "4'"
    assert changed.state.values["opening 1.bay"] == 2
    dropped = asked([*two, "drop w9"])
    assert dropped.state.values["opening 1.name"] == "WD"
    assert not any(p.startswith("opening 2.") for p in dropped.state.values)
    assert dropped.next.startswith("Name of one")
    assert "X is no door or window of this job." in after(two, "drop X")
    assert asked([*two, "OH", "1", "drop", "", ""]).job.openings == asked([*two, "", ""]).job.openings


def test_back_out_of_a_door_takes_it_away() -> None:
    found = asked([*DOORS, "OH", "<"])
    assert found.next.startswith("Name of one")
    assert not any(p.startswith("opening") for p in found.state.values)


def test_a_sliding_door_asks_which_way() -> None:
    found = asked([*DOORS, "SD", "7", "sliding", "6'", "8'"])
    assert found.next == "Slides to the left, right or both? [right] "


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
