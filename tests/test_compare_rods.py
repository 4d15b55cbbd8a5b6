"""What is told of a rod and of its rows where marks moved, came and went: how far, and which line is still the same."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import jobs
import pytest
from msgspec.structs import replace

from layouts import job as reader
from layouts.building import lay_out
from layouts.lengths import Style, show
from sheets import own_words, report
from sheets.changes import Item, as_json, from_json
from sheets.compare import compare
from sheets.compare_columns import columns
from sheets.compare_rods import rods
from sheets.compare_walls import walls
from sheets.load import load, read_text
from sheets.sides import of_job

GALLERY = Path(__file__).parents[1] / "gallery"
INCHES = Style("in", 16)
HIGHER = 'height = "6\' 8"', 'height = "7\' 8"'  # the walk door of the joinery


def numbers(*stations: float, unit: str = "in", edge: str = "bottom", base: str = "Girt") -> dict[str, Any]:
    """What is known of one wall whose rows stand at these stations, each of a piece of 10 ft."""

    def length(inches: float) -> dict[str, Any]:
        return {"value": inches, "text": show(inches, INCHES) if unit == "in" else f"{inches:g} mm"}

    names = [f"{base} {n}" for n, _ in enumerate(stations, 1)]
    marks = [
        {
            "name": name,
            "kind": "board",
            "edge": edge,
            "board": "2x4",
            "station": length(at + 3.5 * (edge == "top")),
            "low": length(at),
        }
        for name, at in zip(names, stations, strict=True)
    ]
    pieces = [{"row": name, "length": length(120.0), "board": "2x4", "mark": "#1"} for name in names]
    wall = {"name": "A", "columns": [], "length": length(288.0), "pieces": pieces}
    return {"units": unit, "rods": [{"name": "Sidewall rod", "walls": ["A"], "marks": marks}], "walls": [wall]}


def told(old: Mapping[str, Any], new: Mapping[str, Any]) -> tuple[str, ...]:
    (words,) = rods(old, new).values()
    return words


def test_one_row_that_moved_is_told_with_how_far_and_no_other() -> None:
    """84 to 84 1/2: half an inch up; 108 to 107 1/4: three quarters down."""
    old = numbers(60.0, 84.0, 108.0)
    assert told(old, numbers(60.0, 84.5, 108.0)) == ('Girt 2: bottom: moved 1/2" up: was 7\'-0", now 7\'-0 1/2"',)
    assert told(old, numbers(60.0, 84.0, 107.25)) == ('Girt 3: bottom: moved 3/4" down: was 9\'-0", now 8\'-11 1/4"',)
    mm = told(numbers(1500.0, unit="mm"), numbers(1512.0, unit="mm"))
    assert mm == ("Girt 1: bottom: moved 12 mm up: was 1500 mm, now 1512 mm",)


@pytest.mark.parametrize("base", ["Girt", "Inside girt", "Purlin"])
def test_a_row_more_leaves_the_lines_above_it_where_they_are(base: str) -> None:
    """A row at 36 under 60, 84 and 108: those have the numbers 2 to 4 now, and not one of their lines is another."""
    few, more = numbers(60.0, 84.0, 108.0, base=base), numbers(36.0, 60.0, 84.0, 108.0, base=base)
    names = [f"{base} {n}" for n in range(1, 5)]
    assert told(few, more) == (
        f"new: {names[0]}: bottom: at 3'-0\"",
        f"{', '.join(names[1:])}: in the same place, called until now: {', '.join(names[:3])}",
    )
    assert told(more, few) == (
        f"gone: {names[0]}: bottom: was at 3'-0\"",
        f"{', '.join(names[:3])}: in the same place, called until now: {', '.join(names[1:])}",
    )


def test_a_row_between_others_and_one_that_moved() -> None:
    """96 comes between 84 and 108, which moves up by 1/4: with it one of five lines is new, one moved."""
    said = told(numbers(60.0, 84.0, 108.0, 132.0), numbers(60.0, 84.0, 96.0, 108.25, 132.0))
    # between the lines that stay, 84 and 132, stood one and stand two: the nearer is the old one
    assert said == (
        "new: Girt 3: bottom: at 8'-0\"",
        'Girt 4: until now: Girt 3: bottom: moved 1/4" up: was 9\'-0", now 9\'-0 1/4"',
        "Girt 5: in the same place, called until now: Girt 4",
    )
    back = told(numbers(60.0, 84.0, 96.0, 108.25, 132.0), numbers(60.0, 84.0, 108.0, 132.0))
    assert back == (
        'Girt 3: until now: Girt 4: bottom: moved 1/4" down: was 9\'-0 1/4", now 9\'-0"',
        "gone: Girt 3: bottom: was at 8'-0\"",
        "Girt 4: in the same place, called until now: Girt 5",
    )


def test_rows_at_another_step_keep_their_numbers() -> None:
    """None stands where one stood: the third is third still, and one more is new at the top."""
    said = told(numbers(60.0, 84.0), numbers(56.0, 76.0, 96.0))
    assert said[0] == 'Girt 1: bottom: moved 4" down: was 5\'-0", now 4\'-8"'
    assert said[1] == 'Girt 2: bottom: moved 8" down: was 7\'-0", now 6\'-4"'
    assert said[2] == "new: Girt 3: bottom: at 8'-0\""
    assert len(said) == 3


def test_boards_that_are_marked_on_their_other_edge_have_not_moved_by_that() -> None:
    """The line moves by the board, 3 1/2; that the board moved too, by 1/2, is told."""
    old = numbers(60.0)
    assert told(old, numbers(60.0, edge="top")) == ("Girt 1: was marked: bottom: 5'-0\"; now: top: 5'-3 1/2\"",)
    assert told(old, numbers(60.5, edge="top")) == (
        'Girt 1: was marked: bottom: 5\'-0"; now: top: 5\'-4"; board: moved 1/2" up',
    )


def test_a_wall_tells_the_row_that_is_new_by_its_place() -> None:
    """Every row is one piece of 10 ft: the new one is the lowest, not the one with the highest number."""
    few, more = numbers(60.0, 84.0), numbers(36.0, 60.0, 84.0)
    assert walls(few, more)["A"] == (
        "new row: Girt 1: 1 pc 10'-0\"",
        "Girt 2, Girt 3: in the same place, called until now: Girt 1, Girt 2",
    )
    assert walls(more, few)["A"] == (
        "row gone: Girt 1: 1 pc 10'-0\"",
        "Girt 1, Girt 2: in the same place, called until now: Girt 2, Girt 3",
    )


def test_a_row_more_on_an_endwall_leaves_the_row_at_the_soffit_nailer_and_its_line() -> None:
    """The shed of the gallery: from the wainscot nailer at 36 to the sidewalls' soffit nailer at 140 11/16 are 104
    11/16. Steps of 24 at the most: 5 of 20 15/16, of 20: 6 of 17.448. So Girt 1 goes from 56 15/16 to 53 7/16, by
    3 1/2, and the row at 140 11/16 is number 6 instead of 5."""
    file = GALLERY / "larkspur" / "job.toml"
    old = load(file)
    text = read_text(file).replace('step = "24"', 'step = "20"')
    new = lay_out(reader.read(text), old.readings)
    found = compare(of_job(old, "old"), of_job(new, "new"), "rods")
    (rod,) = (item.words for item in found.items if isinstance(item, Item) and item.name.startswith("Endwall"))
    assert rod[0] == 'Girt 1: bottom: moved 3 1/2" down: was 4\'-8 15/16", now 4\'-5 7/16"'
    assert "new: Girt 5: bottom: at 10'-3 1/4\"" in rod
    assert 'Girt 7: until now: Girt 6: bottom: moved 3 1/2" down: was 13\'-5 11/16", now 13\'-2 3/16"' in rod
    assert rod[-1] == "Girt 6: in the same place, called until now: Girt 5"


# --- what a whole job gives -------------------------------------------------------------------------------------------


def joinery(was: str, now: str, only: str) -> dict[str, tuple[str, ...]]:
    """What is told of one kind of sheets of the gallery's joinery, by their names, with one line of its job another."""
    file = GALLERY / "cooper" / "job.toml"
    old = load(file)
    text = read_text(file)
    assert text.count(was) == 1
    new = lay_out(reader.read(text.replace(was, now)), old.readings)
    return {item.name: item.words for item in compare(of_job(old, "old"), of_job(new, "new"), only).items}


def test_a_header_that_moved_is_told_on_its_tags_and_on_the_rod_that_jamb_posts_use_too() -> None:
    """A door 12 in higher takes its header 12 in up: on the rod from 7'-2" to 8'-2", on the column G2, whose bottom end
    is 1 13/16 below the grade line, from 7'-3 13/16" to 8'-3 13/16"."""
    found = joinery(*HIGHER, "tags")
    assert found["Tag G2"] == ("HEADER WD: was 7'-3 13/16\", now 8'-3 13/16\"",)
    rod = joinery(*HIGHER, "rods")["Sidewall rod, walls A and G, jamb posts"]
    assert rod == ('Header WD: bottom: moved 12" up: was 7\'-2", now 8\'-2"',)


def test_an_opening_that_moved_is_told_on_its_wall() -> None:
    """Its centre goes from 18' to 18'-6", by 6": so do its left edge, from 12'-9", and all that stands at it. Higher by
    12", it has its top 12" up, from the floor's 2 1/2 over 6'-8" and 2" allowance, and cripples and fillers follow."""
    wall = joinery('at = "18\'"', 'at = "18\' 6"', "walls")["Wall 1"]
    assert wall[0] == 'opening OH: moved 6" to the right: left edge: was 12\'-9", now 13\'-3"'
    wall = joinery(*HIGHER, "walls")["Wall G"]
    assert wall[0] == 'opening WD: top: moved 12" up: was 7\'-2", now 8\'-2"'
    fillers = '4 pc 2x6 17 1/2", 1 pc 2x6 2\'-4 3/4"'
    assert f'Filler G1: was 1 pc 2x6 13 1/2", {fillers.replace("4 pc", "3 pc")}, 1 pc 2x6 21 1/2", now' in " ".join(
        wall
    )
    wider = joinery('width = "10\'"', 'width = "11\'"', "walls")["Wall 1"]
    # half of a foot on either side
    assert wider[0] == "opening OH: left edge: was 12'-9\", now 12'-3\""
    assert wider[1] == "opening OH: right edge: was 23'-0\", now 23'-6\""


def test_openings_and_posts_that_come_and_go_are_told() -> None:
    """By hand: a door that was not there, then one that is no more; its two posts with it."""
    post = {"name": "Jamb post D1", "board": "2x6", "length": {"text": "8'-0\""}}
    edges = {key: {"text": "4'-0\""} for key in ("left", "right", "low", "high")}
    bare, door = numbers(60.0), numbers(60.0)
    door["walls"][0] |= {"openings": [{"name": "D1", **edges}], "uprights": [post, post]}
    assert walls(bare, door)["A"] == (
        "new: opening D1: left edge: at 4'-0\"",
        "Jamb post D1: was none, now 2 pc 2x6 8'-0\"",
    )
    assert walls(door, bare)["A"] == ("gone: opening D1", "Jamb post D1: was 2 pc 2x6 8'-0\", now none")


def test_a_wall_with_nothing_but_another_lift_says_so() -> None:
    light, heavy = numbers(60.0), numbers(60.0)
    light["walls"][0]["lift"], heavy["walls"][0]["lift"] = {"people": 6}, {"people": 8}
    assert walls(light, heavy)["A"] == ("its weight or its lift",)
    assert walls(light, light)["A"] == ()


def test_a_pattern_of_another_shape_or_for_others_is_told_so() -> None:
    """A steeper roof makes the slot deeper. Girts that end higher take other ends along the gable, at one slope."""
    assert joinery('pitch = "5/12"', 'pitch = "6/12"', "templates")["Template 5: SLOT for the truss"] == (
        "another shape",
    )
    found = joinery("[girts]", '[girts]\ntop = "10\'"', "templates")
    assert found["Template 7: END of gable girts 2x6 standing, 5/12"] == ("for others than before",)


def test_purlins_at_another_step_are_told_and_the_last_stays() -> None:
    """From the fascia to the ridge: the twelfth of the old ones stands where the fourteenth stands now, 20'-6 3/8"."""
    rod = joinery("[roof]", '[roof]\npurlin_step = "20"', "rods")["Roof rod, both slopes, from the tail up"]
    where = "downhill edge"
    assert rod[0] == f'Purlin 2: {where}: bottom: moved 3 7/16" down: was 2\'-0 1/2", now 21 1/16"'
    assert rod[-1] == f"Purlin 14: {where}: in the same place, called until now: Purlin 12: {where}"


def test_another_note_is_told_on_its_tag_and_with_its_seat() -> None:
    """It is the crew's own: no language changes it, nor the other names of job and crew, on paper and in a terminal."""
    old = load(GALLERY / "cooper" / "job.toml")
    readings = replace(old.readings, notes={**old.readings.notes, "A3": "mud and water"})
    job = jobs.replaced(old.job, "job", name="Barn of mud", language="spanish")
    new = lay_out(job, readings)
    changes = compare(of_job(old, "old"), of_job(new, "new"))
    found = {item.name: item.words for item in changes.items}
    assert found["Tag A3"] == ("note: was none, now mud and water",)
    assert found["Grade sheet"] == ("the seats of column A3",)
    assert {"mud and water", "Barn of mud", "Cooper Hill joinery"} <= set(changes.own)
    spoken = own_words.speech(new, changes.old, *changes.own)
    assert spoken
    assert spoken.turned(changes.first[0]) == "El nombre del trabajo: era Cooper Hill joinery, ahora Barn of mud"
    assert spoken.turned(found["Tag A3"][0]) == "nota: era ninguno, ahora mud and water"
    assert from_json(as_json(changes)) == changes


def test_of_a_packet_the_words_of_its_job_are_known_too() -> None:
    """The gallery's joinery: its name, crew, a note of its readings, an opening and a column."""
    found = own_words.of_numbers(report.as_json(load(GALLERY / "cooper" / "job.toml")))
    assert {"Cooper Hill joinery", "Hollis crew", "low corner of the pad", "SD", "A1"} <= found
    assert "check-back" not in found


def test_a_packet_that_does_not_say_which_marks_are_a_columns_own_tells_none_as_new() -> None:
    """As those of earlier days: no header is called new for it."""
    own = {"name": "Header WD", "edge": "bottom", "board": "2x6", "own": True, "text": "7'-3\""}
    earlier = {key: value for key, value in own.items() if key != "own"}
    column = {"name": "A1", "cuts": {}, "offset": {"text": '1"'}}
    sides = [{"columns": [{**column, "marks": [mark]}]} for mark in (earlier, own, {**own, "text": "7'-4\""})]
    assert columns(sides[0], sides[1])["A1"] == ()
    assert columns(sides[1], sides[2])["A1"] == ("HEADER WD: was 7'-3\", now 7'-4\"",)
