"""Answers that are refused at once, and our own words: back, more, go, quit."""

from __future__ import annotations

import pytest
from starters import asked
from test_start import COLUMNS, DOORS, HEAD, HEIGHT, PLAN, SIZE, after

from layouts.problems import Problem
from layouts.start_words import told

MM = ["Barn", "", "", "metric", ""]

# --- what is refused -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "wrong", "said"),
    [
        ([], "", "name must be given. The name of the job, printed on every sheet."),
        ([], "x" * 61, "is 61 letters long. At most 60 fit on the sheets."),
        (HEAD[:3], "yards", 'yards: is not one of the choices. Choose from "imperial", "metric".'),
        (HEAD, "30", '30: is out of bounds. From 8\'-0" to 200\'-0". A bare number is inches; for feet write "30\'".'),
        (
            HEAD,
            "30.5",
            '30.5: is out of bounds. From 8\'-0" to 200\'-0". A bare number is inches; for feet write "30.5\'".',
        ),
        (MM, "8.5", '8.5: is out of bounds. From 2438 mm to 60960 mm. A bare number is mm; for metres write "8.5 m".'),
        (MM, "2.4", "2.4: is out of bounds. From 2438 mm to 60960 mm."),  # 2400 mm are too short too
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
    wrong = "! lumber.stock: give 10'-0\" at most, and 11'-4\" are needed in one piece: jamb post WD, wall A."
    assert wrong in "\n".join(found.heard[-1])
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
