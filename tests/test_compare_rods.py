"""What is told of a rod and of its rows where marks moved, came and went: how far, and which line is still the same."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from layouts import job as reader
from layouts.building import lay_out
from layouts.lengths import Style, show
from sheets.changes import Item
from sheets.compare import compare
from sheets.compare_rods import rods
from sheets.compare_sheets import walls
from sheets.load import load, read_text
from sheets.sides import of_job

GALLERY = Path(__file__).parents[1] / "gallery"
INCHES = Style("in", 16)
SIDE = "Sidewall rod, wall A"


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
